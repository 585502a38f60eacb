"""Stated counts in units of their own, and what rows after a wrong one are counted from."""

from __future__ import annotations

import pytest

from workeven.notation.parser import parse_row
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span
from workeven.proof import counting
from workeven.proof.context import SizeContext
from workeven.proof.stated import compare, compare_again, counted, figures_of

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


@pytest.mark.parametrize(("stated", "told"), [("20 sc, 2 sc2tog", False), ("19 sc", True)])
def test_the_last_of_several_rows_is_held_the_same_way(stated: str, *, told: bool) -> None:
    """Only its counts are left by then."""
    place = Span(file="rows", line=1, column=1, end_line=1, end_column=1)
    read = parse_row(f"sc in each st across ({stated})", place, Vocabulary()).value
    assert read is not None
    assert read.stated is not None
    figures = figures_of(read.stated, SizeContext(index=0, sizes=1))
    assert figures is not None
    fault = compare_again(read.stated, figures, (("sc", 20), ("sc2tog", 2)), (), 22)
    assert (fault is not None) == told
