"""Rows worked even: each stitch is one by itself, also over what was two."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count


def makes(rows: str, start: str | None = "20 sc") -> list[dict[str, int]]:
    """What each line makes, where all come out."""
    counted = count(rows, start=start)
    assert () == counted.problems
    assert counted.value is not None
    return [dict(row.makes[0] or ()) for row in counted.value.rows]


@pytest.mark.parametrize(
    ("shaped", "even"),
    [
        ("ch 1, sc2tog, sc in next 16 sts, sc2tog, turn", {"sc": 18}),
        ("ch 1, sc3tog, sc in each st across, turn", {"sc": 18}),
        ("ch 1, *fpsc2tog, bpsc in next 2 sts; rep from * across, turn", {"fpsc": 5, "bpsc": 10}),
        ("ch 1, *sc2tog, ch 1; rep from * across, turn", {"sc2tog": 10, "ch-1 sp": 10}),
    ],
)
def test_a_row_worked_even_over_decreases_has_plain_stitches(
    shaped: str, even: dict[str, int]
) -> None:
    """Posts stay as they are, and what stands among spaces is a stitch pattern.

    Common practice: "even" is without increase or decrease.
    """
    assert even == makes(f"{shaped}\nwork even for 3 rows")[-1]


def test_the_row_behind_calls_them_by_their_own_name() -> None:
    """They are sc there."""
    rows = (
        "ch 1, *sc2tog; rep from * across, turn\nwork even for 2 rows\nch 1, sc in each sc across"
    )
    assert {"sc": 10} == makes(rows)[-1]


def test_decreases_that_are_stated_are_part_of_the_stitch_pattern() -> None:
    """Who counts them in an even row works them there."""
    rows = "ch 1, sc2tog 5 times, sc 10, turn\nwork even for 2 rows (10 sc, 5 sc2tog)"
    assert {"sc": 10, "sc2tog": 5} == makes(rows)[-1]


def test_foundation_stitches_are_not_worked_again() -> None:
    """They are made with their own chain, once."""
    assert {"dc": 12} == makes("fdc 12, turn\nwork even for 2 rows", start=None)[-1]
