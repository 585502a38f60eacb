"""Sentences among rows: which are passed as notes, and which would leave rows out.

The sentences are of our own devising, in the way that designers write (common practice).
"""

from __future__ import annotations

import pytest

from workeven.notation.parser import parse_row
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span

NOTES = (
    "A long granny, begun around both sides of a chain.",
    "There are no chains between the groups, only at the corners.",
    "Each flag starts at the point.",
    "A row of 12 squares has 13 upright tr.",
    "Worked in one piece from the neck, back and forth.",
    "To fit a child of about two.",
    "Loops are made of 5 ch.",
    "Run the tail through the row ends at the crown, draw up firmly and secure.",
    "These chains are the handles.",
    "Crochet a chain of 16 sts and sew to one corner for a hanger.",
    "Several of these are joined at the points for a chair back.",
)
NO_NOTES = (
    "The next 5 rows are worked in sc.",
    "This row is worked as Row 2.",
    "The cuff is worked in sc for 5 cm.",
    "The sides are increased by 2 sts each round.",
    "The crown is shaped by decreasing 6 sts in every round.",
    "The last 4 sts are left for the thumb.",
    "The heel is turned over 12 sts.",
    "The thumb begins with 12 sc.",
    "Each corner has 3 sc in next st.",
    "All sts are worked in back loop, sc in each st across.",
    "Every row begins with ch 3, turn.",
    "The sleeves are worked in the same way.",
    "The body is now worked in sc until it measures 10 cm.",
    "You should have 24 dc, with 12 on each side of the thumb.",
)


def _codes(text: str) -> set[str]:
    span = Span(file="-", line=1, column=1, end_line=1, end_column=1 + len(text))
    return {problem.code for problem in parse_row(text, span, Vocabulary()).problems}


@pytest.mark.parametrize("text", NOTES)
def test_a_sentence_that_describes_is_passed(text: str) -> None:
    """Nothing in it is worked, whatever it names; where that is not plain, it is told."""
    assert _codes(text) <= {"row-note"}


@pytest.mark.parametrize("text", NO_NOTES)
def test_a_sentence_that_works_rows_is_no_note(text: str) -> None:
    """Passed as a note it would leave out what is worked."""
    assert "row-note" not in _codes(text)
