"""Sides and points of leaves, and the edges of a piece, by their words."""

from __future__ import annotations

import pytest

from workeven.notation.parser import parse_row
from workeven.notation.tree import Inside, LeafSide, Next, RowSides, Target, Work, WorkedRow
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span

PLACE = Span(file="rows", line=1, column=1, end_line=1, end_column=1)


def last_target(text: str) -> Target:
    """Where the last step of a row goes."""
    row = parse_row(text, PLACE, Vocabulary()).value
    assert row is not None
    assert isinstance(row.body, WorkedRow)
    step = row.body.steps[-1]
    assert isinstance(step, Work)
    return step.target


@pytest.mark.parametrize(
    ("text", "which"),
    [
        ("5 sc along first side of next leaf", "first"),
        ("6 sc up one side of petal", "first"),
        ("5 sc along first side of leaf, 5 sc along other side of same leaf", "other"),
        ("5 sc along first side of leaf, 5 sc down second side", "other"),
        ("4 sc along side of next leaf", "any"),
        ("3 sc in point of leaf", "point"),
        ("(sc, ch 2, sc) in tip of next petal", "point"),
    ],
)
def test_sides_and_points_are_places(text: str, which: str) -> None:
    """Of whatever stands off a round."""
    target = last_target(text)
    assert isinstance(target, Next)
    assert (LeafSide(which),) == target.names  # type: ignore[arg-type]


def test_a_stitch_at_a_point_is_one_of_a_group() -> None:
    """The middle one of those that were worked into the point."""
    target = last_target("2 sc in center sc at point of any leaf")
    assert isinstance(target, Inside)
    assert target.part == "center"


def test_the_side_of_a_piece_is_no_leaf() -> None:
    """It has rows."""
    assert RowSides(each=False) == last_target("work 40 sc evenly along other side of piece")
