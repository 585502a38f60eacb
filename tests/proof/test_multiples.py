"""The multiple of a starting chain, found through the whole piece."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.support.pattern_files import GOOD, changed, outcome
from workeven import pipeline, source
from workeven.proof import chain_multiple, standing
from workeven.proof.row import RowCount, work

PATTERNS = Path(__file__).parents[2] / "patterns"

HEAD = GOOD[: GOOD.index("measurements:")].replace("sizes:\n  names: S (M, L)\n", "")


def multiple_of(*rows: str, counts: str = "", worked: str = "flat rows") -> tuple[int, int] | None:
    """The multiple of a piece of these rows."""
    lines = "\n".join(f"          {row}" for row in rows)
    text = (
        f"{HEAD}{counts}pieces:\n  mat:\n    worked: {worked}\n    sections:\n"
        f"      - rows: |\n{lines}\n"
    )
    result = outcome(text)
    assert result.ready is not None, [problem.found for problem in result.problems]
    return chain_multiple(result.ready.proven.graded, result.ready.pattern.pieces[0])


def test_waves_over_double_crochet_need_a_multiple_of_four_plus_two() -> None:
    """Worked example 2 of the notation: 22 chains, four stitches left plain at each end."""
    assert (4, 2) == multiple_of(
        "ch 22",
        "dc in 4th ch from hook (skipped 3 chs count as dc), dc in each ch across, turn (20 dc)",
        "ch 3 (counts as dc), dc in each of next 3 sts, *sk 3 sts, 4 dc in next st; "
        "rep from * to last 4 sts, dc in each st across",
    )


def test_shells_need_a_multiple_of_six_plus_two_chains() -> None:
    """Six and one stitch for the row, one chain more to turn (common practice)."""
    assert (6, 2) == multiple_of(
        "ch 32",
        "sc in 2nd ch from hook and in each ch across, turn",
        "ch 1, sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; "
        "rep from * across",
    )


def test_a_decrease_asks_for_more_than_the_repeat_after_it() -> None:
    """Every fourth stitch is lost, and what is left must be even: eight stitches, not four."""
    rows = (
        "ch 48, join with sl st to first ch",
        "ch 1, sc in each ch around, join",
        "ch 1, [sc 2, sc2tog] around, join",
        "ch 1, *sc in next st, ch 1, sk 1 st; rep from * around, join",
    )
    assert (8, 0) == multiple_of(*rows, worked="joined rounds")
    assert (4, 0) == multiple_of(*rows[:3], worked="joined rounds")


def test_any_number_is_no_multiple() -> None:
    """Plain rows come out over every chain."""
    rows = ("ch 21", "sc in 2nd ch from hook and in each ch across, turn", "sc in each st across")
    assert multiple_of(*rows) is None


def test_a_fixed_number_of_repeats_has_no_other_chain() -> None:
    """Six repeats of eight are 48 stitches and no others."""
    rows = (
        "ch 48, join with sl st to first ch",
        "ch 1, [sc 6, sc2tog] 6 times, join",
    )
    assert multiple_of(*rows, worked="joined rounds") is None


def test_a_count_is_stepped_and_those_made_from_it_move_too() -> None:
    """Half of a multiple of 12 and one more chain: the chain is a multiple of 6 plus 1."""
    counts = "counts:\n  around: 48\n  half: {is: around / 2}\n"
    assert (6, 1) == multiple_of(
        "ch {half + 1}",
        "sc in 2nd ch from hook and in each ch across, turn ({half} sc)",
        "ch 1, *sc 4, sc2tog; rep from * across ({half * 5 / 6} sts)",
        counts=counts,
    )


@pytest.mark.parametrize("start", ["magic ring, 6 sc in ring", "ch 4, join to form ring"])
def test_a_ring_has_no_multiple(start: str) -> None:
    """Its chains are no places."""
    rows = (start, "2 sc in each st around" if "magic" in start else "12 dc in ring, join")
    assert multiple_of(*rows, worked="joined rounds") is None


def test_it_holds_in_every_size() -> None:
    """The mat of three sizes: shells over 31 (37, 43) stitches."""
    ready = outcome(changed("title: Mat\n    worked", "title: Mat\n    worked")).ready
    assert ready is not None
    assert (6, 2) == chain_multiple(ready.proven.graded, ready.pattern.pieces[0])


def test_it_is_found_alike_where_every_faulty_row_is_counted_on(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A trial ends at the first faulty row; to count on from there tells no more."""
    ready = [one.ready for one in pipeline.check(source.collect([str(PATTERNS)])).outcomes]
    pieces = [(one.proven.graded, piece) for one in ready if one for piece in one.pattern.pieces]
    at_once = [chain_multiple(graded, piece) for graded, piece in pieces]
    faults: list[bool] = []

    def counted_on(*told: Any, only_asked: bool, **named: Any) -> RowCount:  # noqa: ANN401, as told
        count = work(*told, **named)
        faults.append(only_asked and count.fault is not None)
        return count

    monkeypatch.setattr(standing, "work", counted_on)
    assert any(at_once)
    assert [chain_multiple(graded, piece) for graded, piece in pieces] == at_once
    assert any(faults)
