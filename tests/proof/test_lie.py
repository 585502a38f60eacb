"""How rows lie on one another, and how high those rise that take up an earlier row."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.support.pattern_files import GOOD, outcome
from workeven.pipeline import ReadyPattern
from workeven.proof import Edges, Lie, lies

HEAD = GOOD[: GOOD.index("measurements:")].replace("sizes:\n  names: S (M, L)\n", "")
#: 20 sc, and a row over them
START = ("ch 21", "sc in 2nd ch from hook and in each ch across, turn (20 sc)")
PLAIN = "ch 1, sc in each st across, turn"
#: a back with two shoulders of 6 sts and a neck of 8
SHOULDERS = (
    *START,
    PLAIN,
    "Neck row: ch 1, sc in first 6 sts, leave rem sts unworked, turn",
    f"{PLAIN[:-6]}, fasten off",
    "Second shoulder: sk next 8 sts, join yarn in next st, ch 1, sc in same st and each st, turn",
    PLAIN,
)


def ready(*rows: str, worked: str = "flat rows") -> ReadyPattern:
    """A pattern of one piece of these rows."""
    lines = "\n".join(f"          {row}" for row in rows)
    gauge = "    gauge: ground\n"
    text = (
        f"{HEAD}pieces:\n  mat:\n    worked: {worked}\n{gauge}    sections:\n"
        f"      - rows: |\n{lines}\n"
    )
    result = outcome(text)
    assert result.ready is not None, [problem.found for problem in result.problems]
    return result.ready


def lies_of(*rows: str, worked: str = "flat rows") -> tuple[Lie, ...]:
    """How the rows of such a piece lie."""
    pattern = ready(*rows, worked=worked)
    return lies(pattern.proven.graded, pattern.proven.pieces[0], 0)


@pytest.mark.parametrize(
    ("row", "edges"),
    [
        ("ch 1, sc in each st across", Edges(0, 0)),
        ("ch 1, sc2tog, sc in each st across", Edges(-1, 0)),
        ("ch 1, sc in each st to last 2 sts, sc2tog", Edges(0, -1)),
        ("ch 1, 2 sc in first st, sc in each st to last st, 2 sc in last st", Edges(1, 1)),
        ("ch 3 (counts as dc), dc in same st, dc in each st across", Edges(1, 0)),
        ("sl st in first 5 sts, ch 1, sc in same st and in each st across", Edges(-4, 0)),
        ("ch 1, sc in each st to last 6 sts, leave rem sts unworked", Edges(0, -6)),
        ("ch 1, sc in next 12 sts, leave rem sts unworked", Edges(0, -8)),
        ("ch 1, sc2tog, sc in next 16 sts, sc2tog", Edges(-1, -1)),
        ("ch 1, sc2tog, *ch 1, sk 1 st, sc in next st; rep from * across", Edges(-1, 0)),
        ("ch 1, sc in next 9 sts, 2 sc in each of next 2 sts, sc in next 9 sts", Edges(0, 0)),
        ("ch 1, [sc 3, 2 sc in next st] across", Edges(0, 0)),
    ],
)
def test_edges_of_a_row_over_twenty_stitches(row: str, edges: Edges) -> None:
    """Worked out by hand: what is added or left at the beginning and at the end."""
    assert edges == lies_of(*START, row)[-1].edges


def test_each_row_of_a_repeat_has_its_own_edges() -> None:
    """Decreases change ends from row to row."""
    found = lies_of(
        *START,
        "ch 1, sc2tog, sc in each st across, turn",
        "ch 1, sc in each st to last 2 sts, sc2tog, turn",
        "rep last 2 rows twice more (14 sc)",
    )
    assert [Edges(0, 0), *[Edges(-1, 0), Edges(0, -1)] * 3] == [one.edges for one in found]


def test_a_second_shoulder_lies_on_the_row_that_the_first_left() -> None:
    """Row 3 is the neck row: both shoulders stand on Row 2; the second passes the neck."""
    found = lies_of(*SHOULDERS)
    assert Lie(5, 2, Edges(-8, 0)) == found[4]
    assert [None] * 4 == [one.onto for one in found[:4]]


def test_a_second_shoulder_begins_as_high_as_the_first() -> None:
    """Both have two rows on top of two: the piece is four rows high, not six."""
    pattern = ready(*SHOULDERS)
    row = pattern.pattern.gauges[0].row_height()
    assert row is not None
    heights = [one.per_size[0] for one in pattern.proven.pieces[0].sections[0].rows]
    told = [one.height for one in heights if one is not None and one.first is not None]
    assert [Fraction(rows) * row for rows in (1, 2, 3, 4, 3, 4)] == told


def test_rounds_have_no_edges() -> None:
    """A round that decreases is shorter nowhere in particular."""
    found = lies_of(
        "ch 20, join with sl st to first ch",
        "ch 1, sc in each ch around, join",
        "ch 1, sc2tog, sc in each st around, join",
        worked="joined rounds",
    )
    assert {Edges(0, 0)} == {one.edges for one in found}


def test_a_second_side_lies_as_the_first_mirrored() -> None:
    """Its rows have the numbers of the first side's, on the row that both stand on."""
    found = lies_of(
        *START,
        PLAIN,
        "Neck row: ch 1, sc in first 6 sts, leave rem sts unworked, turn",
        "ch 1, sc2tog, sc in each st across, fasten off",
        "sk next 8 sts, join yarn in next st, work as for first side of neck, reversing shaping",
    )
    assert [
        Lie(3, 2, Edges(0, -14), mirrored=True),
        Lie(4, 2, Edges(-1, 0), mirrored=True),
    ] == list(found[-2:])


START_, END_ = Edges(-1, 0), Edges(0, -1)


@pytest.mark.parametrize(
    ("where", "edges"),
    [
        ("neck edge", [START_, END_, START_]),
        ("armhole edge", [END_, START_, END_]),
        ("beg of", [START_, START_, START_]),
        ("end of", [END_, END_, END_]),
    ],
)
def test_shaping_at_one_edge_keeps_to_it(where: str, edges: list[Edges]) -> None:
    """Rows 4, 7 and 10: of a left front, right-side rows end at the neck, begin at the armhole."""
    found = lies_of(*START, f"dec 1 st at {where} every 3rd row 3 times")
    shaped = {one.number: one.edges for one in found if one.edges != Edges(0, 0)}
    assert dict(zip((4, 7, 10), edges, strict=True)) == shaped
