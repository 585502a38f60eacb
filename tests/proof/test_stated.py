"""Stated counts in units of their own, and what rows after a wrong one are counted from."""

from __future__ import annotations

import pytest

from workeven.notation.parser import parse_row
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Problem, Span
from workeven.proof import counting
from workeven.proof.context import SizeContext
from workeven.proof.stated import compare, counted, figures_of

MESH = "ch 3 (counts as dc), *ch {0}, sk {0} sts, dc in next st; rep from * across, turn"


def codes(text: str, start: str, worked: str = "flat rows") -> list[tuple[str, int]]:
    """The problems of a text with their lines."""
    found = counting.count(text, worked=worked, start=start)
    return [(one.code, one.span.line) for one in found.problems]


@pytest.mark.parametrize(("chains", "told"), [(8, []), (9, [("count-stated", 1)])])
def test_chains_may_be_counted_one_by_one(chains: int, told: list[tuple[str, int]]) -> None:
    """Four spaces of two chains each are eight chains."""
    assert codes(f"{MESH.format(2)} (5 dc, {chains} ch)", "13 dc") == told


@pytest.mark.parametrize(("spaces", "told"), [(4, []), (5, [("count-stated", 1)])])
def test_spaces_are_counted_by_their_name(spaces: int, told: list[tuple[str, int]]) -> None:
    """Four ch-1 sps between five dc."""
    assert codes(f"{MESH.format(1)} (5 dc, {spaces} ch-1 sps)", "9 dc") == told


def test_a_wrong_count_of_a_mesh_is_told_once() -> None:
    """The next row is counted from what is there, and comes out."""
    rows = f"{MESH.format(1)} (6 dc, 4 ch-1 sps)\nsc in each dc and in each ch-1 sp across, turn"
    assert codes(rows, "9 dc") == [("count-stated", 1)]


# --- one figure ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("unit", "number"),
    [
        ("sts", 26),
        ("sp", 6),
        ("ch-2 sp", 4),
        ("ch-5 sp", 0),
        ("ch", 10),
        ("dc", 20),
        ("sc", 6),
        ("sc2tog", 2),
        ("shell", 3),
        ("fan", 3),
        ("petal", 3),
        ("group", 7),
    ],
)
def test_a_unit_counts_what_bears_its_name(unit: str, number: int) -> None:
    """20 dc, 3 times five and 4 times two of them in one place; 4 sc, 2 sc2tog; 6 spaces.

    Four spaces of two chains and two of one hold ten chains. A shell is the widest group that is
    worked into one place.
    """
    makes = {"dc": 20, "sc": 4, "sc2tog": 2, "ch-2 sp": 4, "ch-1 sp": 2}
    assert counted(unit, makes, {"=5": 3, "=2": 4}) == number


def test_two_in_one_place_are_no_shell() -> None:
    """A shell or fan is three stitches or more (common practice)."""
    assert counted("shell", {"dc": 8}, {"=2": 4}) is None


def test_a_cluster_may_be_told_as_a_decrease() -> None:
    """dc3tog in one place."""
    assert counted("cl", {"dc3tog": 8, "ch-2 sp": 8}, {}) == 8


def differs(row: str, makes: dict[str, int], groups: dict[str, int]) -> tuple[int, int] | None:
    """What a row states and what it makes, where they differ."""
    place = Span(file="rows", line=1, column=1, end_line=1, end_column=1)
    read = parse_row(row, place, Vocabulary()).value
    assert read is not None
    figures = figures_of(read.stated, SizeContext(index=0, sizes=1))
    fault = compare(read.stated, figures, makes, groups)
    return None if fault is None else (fault.figures["stated"], fault.figures["made"])


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ("(20 dc, 4 ch-2 sps)", None),
        ("(20 dc, 5 ch-2 sps)", (5, 4)),
        ("(21 dc, 4 ch-2 sps)", (21, 20)),
        ("(3 shells)", None),
        ("(4 shells)", (4, 3)),
        ("(20 sts)", None),
        ("(19 sts)", (19, 20)),
    ],
)
def test_each_figure_is_held_against_what_is_made(stated: str, told: tuple[int, int]) -> None:
    """The first that differs is told, with both numbers."""
    makes, groups = {"dc": 20, "ch-2 sp": 4}, {"=5": 3}
    assert differs(f"dc in each st across {stated}", makes, groups) == told


def test_stitches_beside_those_that_are_named_are_told_apart() -> None:
    """Of 20 sc and 2 sc2tog, "(18 sc, 2 sc2tog)" may not be said, "(20 sc, 2 sc2tog)" may.

    A bare "(22 sc)" is right too: a decrease counts as its base stitch unless it is named.
    """
    makes = {"sc": 20, "sc2tog": 2}
    told = [
        differs(f"sc in each st across ({stated})", makes, {})
        for stated in ("20 sc, 2 sc2tog", "22 sc", "18 sc, 2 sc2tog")
    ]
    assert told == [None, None, (18, 22)]


@pytest.mark.parametrize(
    ("unit", "makes", "groups", "number"),
    [
        ("sts", {"dc": 10}, {"+": 2}, 12),
        ("ch", {"sc": 10, "ch": 3, "ch-2 sp": 4}, {}, 11),
        ("shell", {"dc": 12}, {"=3": 4}, 4),
        ("leaf", {"dc": 20}, {"=5": 4}, 4),
        ("petal", {"petal": 6, "ch-2 sp": 6}, {}, 6),
        ("fan", {"fan": 6, "ch-2 sp": 6}, {}, 6),
        ("block", {"dc": 20}, {"solid block": 3, "wide block": 2, "<solid block dc": 12}, 5),
        ("picot", {"sc": 8, "picot": 4}, {"large picot": 2}, 6),
        ("block", {"dc": 20}, {"=4": 5}, None),
        ("fpdc", {"dc": 20}, {}, 0),
    ],
)
def test_where_a_unit_is_found(
    unit: str, makes: dict[str, int], groups: dict[str, int], number: int | None
) -> None:
    """10 dc and 2 chains that count; 3 chains and 4 times 2; groups by size or by their names.

    A special stitch that is closed to one stitch is a kind of its own, also beside spaces. The
    stitches inside of a special stitch are none of it.
    """
    assert counted(unit, makes, groups) == number


# --- in whole rows -------------------------------------------------------------------------

V_STITCH = "V-st = (dc, ch 1, dc) in same st"
PETAL = (
    "petal = 5 dc in same place, drop loop, insert hook in first dc, "
    "pull dropped loop through (1 st)"
)
FIVES = "*5 dc in next st, sk 2 sts; rep from * across, turn"
FIRST_FIVE = (
    "ch 3 (counts as dc), 4 dc in same st, sk 2 sts, *5 dc in next st, sk 2 sts; "
    "rep from * around, join"
)
FRINGES = (
    "*ch 4, sc in 2nd ch from hook and in next 2 chs, sc in next 2 sts; rep from * across, turn"
)
PETALS = "*petal in next st, ch 2, sk 1 st; rep from * around, join"
DECREASES = "Row 2: sc in each st to last 2 sts, sc2tog, turn\nRows 3-5: rep Row 2"


@pytest.mark.parametrize(
    ("rows", "start", "told"),
    [
        # 12 ÷ 3 = 4 repeats, 4 × 5 = 20 dc
        (f"{FIVES} (4 patterns)", "12 sc", []),
        (f"{FIVES} (5 patterns)", "12 sc", ["5 patterns are stated and the row makes 4."]),
        (f"{FIVES} (4 patterns, 21 dc)", "12 sc", ["21 dc are stated and the row makes 20."]),
        (f"{FIVES} (20 dc, 5 patterns)", "12 sc", ["5 patterns are stated and the row makes 4."]),
        # a block that the piece does not define, and a word of the designer's own, are not checked
        (f"{FIVES} (3 squares)", "12 sc", ["not checked: squares"]),
        (
            f"{FIVES} (3 blocks, 21 dc)",
            "12 sc",
            ["21 dc are stated and the row makes 20.", "not checked: blocks"],
        ),
        (
            f"{FIVES} (3 wombles, 21 dc)",
            "12 sc",
            ["21 dc are stated and the row makes 20.", "not checked: wombles"],
        ),
        (f"{FIVES} (3 fringes)", "12 sc", ["not checked: fringes"]),
        # a round of four fives, one of them before the repeat: four patterns, three repeats
        (f"{FIRST_FIVE} (4 patterns)", "12 sc", []),
        (f"{FIRST_FIVE} (3 patterns)", "12 sc", []),
        (f"{FIRST_FIVE} (5 patterns)", "12 sc", ["5 patterns are stated and the row makes 3."]),
        # 12 ÷ 2 = 6 chains worked back along
        (f"{FRINGES} (6 fringes)", "12 sc", []),
        (f"{FRINGES} (5 fringes)", "12 sc", ["5 fringes are stated and the row makes 6."]),
        (f"{FRINGES} (5 wombles)", "12 sc", ["not checked: wombles"]),
        # one stitch is said in the singular
        ("sc2tog, turn (2 sts)", "2 sc", ["2 sts are stated and the row makes 1."]),
        ("inc, turn (1 st)", "1 sc", ["1 st is stated and the row makes 2."]),
        # no post stitch is made: the one that is stated is not taken off the 20 dc
        (
            "dc in each st across, turn (19 dc, 1 fpdc)",
            "20 dc",
            ["19 dc are stated and the row makes 20."],
        ),
        # a decrease a row, four rows: 24 - 4 = 20, 19 sc and 1 sc2tog
        (f"{DECREASES} (20 sts)", "24 sc", []),
        (f"{DECREASES} (19 sts)", "24 sc", ["19 sts are stated and the row makes 20."]),
        (f"{DECREASES} (20 sc)", "24 sc", []),
        (f"{DECREASES} (19 sc, 1 sc2tog)", "24 sc", []),
        (f"{DECREASES} (19 sc, 2 sc2tog)", "24 sc", ["2 sc2tog are stated and the row makes 1."]),
        (f"{DECREASES} (3 blocks)", "24 sc", ["not checked: blocks"]),
        (
            f"{DECREASES} (4 wombles, 21 sts)",
            "24 sc",
            ["21 sts are stated and the row makes 20.", "not checked: wombles"],
        ),
    ],
)
def test_what_is_stated_is_held_against_what_is_made(
    rows: str, start: str, told: list[str]
) -> None:
    """Repeats, fringes and rows worked again; what cannot be checked is said to be so."""
    worked = "joined rounds" if rows.endswith(")") and "around" in rows else "flat rows"
    problems = counting.count(rows, worked=worked, start=start).problems
    assert [said(one) for one in problems] == told


def said(problem: Problem) -> str:
    """The sentence with the figures, or which unit is not checked."""
    if problem.code == "count-unchecked":
        return "not checked: " + problem.found.split(" that is stated")[0].split(" of ")[1]
    return problem.expected


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        (f"{PETALS} (6 petals, 6 ch-2 sps)", []),
        (f"{PETALS} (5 petals, 6 ch-2 sps)", ["5 petals are stated and the row makes 6."]),
        (
            f"Rnd 2: {PETALS}\nRnd 3: petal in each petal around, join (6 petals, 5 sts)",
            ["5 sts are stated and the row makes 6."],
        ),
        (
            (
                f"Rnd 2: {PETALS}\nRnd 3: *petal in next petal, ch 2; rep from * around, join\n"
                "Rnds 4-6: rep Rnd 3 (6 petals, 6 ch-2 sps)"
            ),
            [],
        ),
        (
            (
                f"Rnd 2: {PETALS}\nRnd 3: *petal in next petal, ch 2; rep from * around, join\n"
                "Rnds 4-6: rep Rnd 3 (5 petals)"
            ),
            ["5 petals are stated and the row makes 6."],
        ),
        ("*V-st in next st, dc in next 2 sts; rep from * around, join (4 V-sts, 8 dc)", []),
        ("*V-st in next st, dc in next 2 sts; rep from * around, join (4 V-sts, 16 dc)", []),
        (
            "*V-st in next st, dc in next 2 sts; rep from * around, join (4 V-sts, 9 dc)",
            ["9 dc are stated and the row makes 16."],
        ),
    ],
)
def test_special_stitches_are_counted_by_their_names(rows: str, told: list[str]) -> None:
    """12 ÷ 2 = 6 petals of one stitch; 12 ÷ 3 = 4 V-sts of 2 dc, and 4 × 2 = 8 dc beside them."""
    checked = counting.count(
        rows, worked="joined rounds", start="12 sc", stitches=(V_STITCH, PETAL)
    )
    assert [one.expected for one in checked.problems] == told


# --- what rows after a wrong count are counted from ----------------------------------------


@pytest.mark.parametrize(
    "rows",
    [
        # 20 fpdc; 21 ÷ 7 = 3
        (
            "fpdc around each st across, turn (21 sts)\n"
            "*dc in next 6 fpdc, sk next fpdc; rep from * across, turn"
        ),
        # 5 sc and 15 dc: most are dc, so are the 21
        (
            "sc in next 5 sts, dc in each st across, turn (21 sts)\n"
            "*sc in next 6 dc, sk next dc; rep from * across, turn"
        ),
        # 15 sc and 5 dc: most are sc
        (
            "dc in next 5 sts, sc in each st across, turn (21 sts)\n"
            "*sc in next 6 sc, sk next sc; rep from * across, turn"
        ),
        # 12 fpdc and 8 dc: all are dc, by their base stitch
        (
            "fpdc around next 12 sts, dc in each st across, turn (21 sts)\n"
            "*sc in next 6 dc, sk next dc; rep from * across, turn"
        ),
    ],
)
def test_a_row_that_comes_out_on_what_is_stated_is_no_second_mistake(rows: str) -> None:
    """20 stitches are made and 21 stated: the next row, a multiple of 7, is right by the count."""
    found = counting.count(rows, start="20 dc")
    assert found.value is not None
    assert [one.code for one in found.problems] == ["count-stated"]
    assert found.value.rows[-1].sts == (18,)


def test_a_starting_chain_that_states_another_count_is_chains() -> None:
    """By the 21 chains stated: 1 skipped, 5 sc, then 3 times 4 sc, of 5 chains each."""
    rows = (
        "ch 20 (21 ch)\nsc in 2nd ch from hook, sc in next 4 chs, "
        "*sk 1 ch, sc in next 4 chs; rep from * across, turn"
    )
    found = counting.count(rows)
    assert found.value is not None
    assert [one.code for one in found.problems] == ["count-stated"]
    assert found.value.rows[-1].sts == (17,)


def test_a_mesh_with_a_wrong_count_is_still_a_mesh() -> None:
    """Five dc and four spaces; a row of stitches alone, as stated, would hold no spaces."""
    rows = f"{MESH.format(1)} (6 dc)\nsc in each dc and in each ch-1 sp across, turn"
    assert codes(rows, "9 dc") == [("count-stated", 1)]


def test_markers_are_lost_where_the_count_is_another() -> None:
    """Of 10 sc 12 are stated: *sc 5, inc* comes out on them, but not where the marker is then."""
    rows = (
        "sc in next 4 sts, place marker, sc in each st across, turn (12 sc)\n"
        "*sc in next 5 sts, 2 sc in next st; rep from * across, turn\n"
        "sc in each st to marker, sc in each st across, turn"
    )
    assert codes(rows, "10 sc") == [("count-stated", 1), ("row-not-understood", 3)]
