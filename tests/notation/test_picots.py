"""Picots: which chains close to one, and which go on."""

from __future__ import annotations

import pytest

from workeven.notation.parser import parse_row
from workeven.notation.tree import Chain, Picot, Repeat, Step, WorkedRow
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span

PLACE = Span(file="rows", line=1, column=1, end_line=1, end_column=1)


def found(text: str) -> list[tuple[str, int | None]]:
    """Chains and picots of a row with their chains, in order."""
    row = parse_row(f"sc in next st, {text}", PLACE, Vocabulary()).value
    assert row is not None
    assert isinstance(row.body, WorkedRow)
    return list(_found(row.body.steps))


def _found(steps: tuple[Step, ...]) -> list[tuple[str, int | None]]:
    kept: list[tuple[str, int | None]] = []
    for step in steps:
        if isinstance(step, Repeat):
            kept.extend(_found(step.steps))
        elif isinstance(step, Picot):
            kept.append(("picot", step.chains.values[0]))
        elif isinstance(step, Chain):
            kept.append(("ch", step.count.values[0]))
    return kept


@pytest.mark.parametrize(
    "text",
    [
        "ch 4, sl st in 4th ch from hook",
        "ch 4, sl st in first ch",
        "ch 4, ss in first of these 4 ch",
        "ch 4 and sl st in last sc made",
        "ch 4, sl st in top of sc just made",
        "ch 4, sl st in base of ch",
        "ch 4, sc in 4th ch from hook",
        "ch-4 picot",
        "4-ch picot",
        "picot-4",
        "picot of 4 ch",
    ],
)
def test_a_picot_is_read_in_its_usual_words(text: str) -> None:
    """A chain of four that is closed on itself."""
    assert [("picot", 4)] == found(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("picot", [("picot", 3)]),
        ("ch 5, sl st in 3rd ch from hook", [("ch", 2), ("picot", 3)]),
        ("ch 5, sl st in next ch-2 sp", [("ch", 5)]),
        ("ch 7, sc in first ch of next ch-2 sp", [("ch", 7)]),
        ("ch 9, sl st in 2nd ch from hook and in next 7 chs", [("ch", 9)]),
        ("ch 3, sl st in same st", [("ch", 3)]),
    ],
)
def test_other_chains_stay_what_they_are(text: str, expected: list[tuple[str, int]]) -> None:
    """The chains in front of a picot, loops, fringes, what ends in the same stitch."""
    assert expected == found(text)


def test_a_chain_at_the_head_of_a_line_is_joined_to_a_ring() -> None:
    """Nothing is worked yet that a picot could stand on."""
    row = parse_row("ch 4, sl st in first ch to form ring", PLACE, Vocabulary()).value
    assert row is not None
    assert isinstance(row.body, WorkedRow)
    assert not any(isinstance(step, Picot) for step in row.body.steps)
