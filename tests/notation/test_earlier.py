"""Places of earlier rows: which words speak of them, and which do not."""

from __future__ import annotations

import pytest

from workeven.notation.parser import parse_row
from workeven.notation.tree import WorkedRow
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span

PLACE = Span(file="rows", line=1, column=1, end_line=1, end_column=1)

#: of which row the places are: its number, whether its unworked ones, whether the base of a stitch
Onto = tuple[int | None, bool, bool] | None


def onto(text: str) -> Onto:
    """Of which earlier row the places of a row are."""
    row = parse_row(text, PLACE, Vocabulary()).value
    assert row is not None
    assert isinstance(row.body, WorkedRow)
    said = row.body.onto
    if said is None:
        return None
    return (None if said.number is None else said.number.values[0]), said.unworked, said.base


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("*sc in next sc of Rnd 3, ch 4; rep from * around", (3, False, False)),
        ("working behind petals, *sc in next sc of Rnd 3, ch 4; rep from * around", (3, 0, 0)),
        ("working in unworked sts of Rnd 2, sc in each st around", (2, True, False)),
        ("working in free back loops of Round 2, sc in each st around", (2, False, False)),
        ("join yarn in first unworked st of Row 11, sc in each st across", (11, True, False)),
        ("join yarn with sl st in next skipped sc, ch 1, sc in same st", (None, True, False)),
        ("sc in base of next sc, ch 1", (None, False, True)),
    ],
)
def test_places_of_an_earlier_row_are_known_by_their_words(text: str, expected: Onto) -> None:
    """A number, "unworked" where yarn is joined, a base."""
    assert expected == onto(text)


@pytest.mark.parametrize(
    "text",
    [
        "sc in each st of previous round around",
        "dc in next dc of row below, ch 1",
        "sc in next 5 sts, dc in each unworked st across",
        "sc in center dc of next shell, ch 3",
        "dc in top of beg ch-3, turn",
    ],
)
def test_places_of_the_row_before_are_as_always(text: str) -> None:
    """What is said of them changes nothing."""
    assert onto(text) is None


def test_another_row_further_on_is_kept_beside() -> None:
    """Into two rows at once nobody can count."""
    row = parse_row("sc in next 2 sts, tr in next dc of Rnd 1", PLACE, Vocabulary()).value
    assert row is not None
    assert isinstance(row.body, WorkedRow)
    numbers = [one.number.values for one in row.body.beside if one.number is not None]
    assert [(1,)] == numbers
