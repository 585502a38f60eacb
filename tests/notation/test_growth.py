"""How a repeated row differs from the one before."""

from __future__ import annotations

import pytest

from workeven.notation.parser import parse_row
from workeven.notation.tree import Exchange, Growth, RepeatRows, RowChange
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span

PLACE = Span(file="rows", line=1, column=1, end_line=1, end_column=1)


def change(text: str) -> RowChange | None:
    """What a row that repeats another changes."""
    row = parse_row(text, PLACE, Vocabulary()).value
    assert row is not None
    assert isinstance(row.body, RepeatRows)
    return row.body.change


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("rep Rnd 7 with 1 more ch between shells each rnd", (1, True, True)),
        ("rep Rnd 7, having one more chain in each loop on every round", (1, True, True)),
        ("rep Rnd 7 with 2 more chs between shells", (2, True, False)),
        ("cont as set, with 1 more sc between incs each rnd", (1, False, True)),
        ("rep last rnd with 1 less st between decs every rnd", (-1, False, True)),
    ],
)
def test_more_and_fewer_are_read(text: str, expected: tuple[int, bool, bool]) -> None:
    """How many, whether chains, whether in each row again."""
    found = change(text)
    assert isinstance(found, Growth)
    assert expected == (found.count, found.chains, found.each)


@pytest.mark.parametrize(
    "text",
    [
        "rep Rnd 2 with ch 4 instead of ch 3",
        "rep Rnd 2, working ch-4 in place of each ch-3",
        "rep Rnd 2 replacing ch 3 with ch 4",
    ],
)
def test_one_length_for_another_is_read(text: str) -> None:
    """The old and the new one."""
    found = change(text)
    assert isinstance(found, Exchange)
    assert (3, 4) == (found.old, found.new)


def test_another_colour_changes_no_count() -> None:
    """It is no growth."""
    assert change("rep Rnd 2 with Navy") is None
