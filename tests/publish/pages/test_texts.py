"""Notes and finishing texts: the designer's words, with the figures of every size."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.publish.samples import SIZES
from tests.support.as_read import as_read
from tests.support.pattern_files import changed, outcome
from workeven.publish.pages.pattern_page import _names, _texts
from workeven.publish.pages.rows import Names
from workeven.publish.pages.texts import filled, paragraphs

NAMES = Names(
    counts={"hand_sts": SIZES.each((33, 36, 42))},
    lengths={"cuff": SIZES.each((Fraction(60), Fraction(64), Fraction(68)))},
    meaning=lambda _name: "",
    units="cm",
    sizes=3,
)


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("Leave {hand_sts / 3} sts open.", "Leave 11 (12, 14) sts open."),
        ("Fold {cuff} inwards.", "Fold 6 (6.5, 7) cm / 2¼ (2½, 2¾) in inwards."),
        ("Leave {25 cm} of yarn.", "Leave 25 cm / 9¾ in of yarn."),
        ("Leave {10 in} of yarn.", "Leave 25.5 cm / 10 in of yarn."),
        ("No braces.", "No braces."),
        (None, ""),
    ],
)
def test_a_formula_in_a_text_is_printed_by_size(text: str | None, printed: str) -> None:
    """Counts as whole numbers, measurements in both systems."""
    assert printed == as_read(filled(text, NAMES))


def test_empty_lines_part_paragraphs() -> None:
    """As in any text."""
    assert ("One two.", "Three.") == paragraphs("One\ntwo.\n\n\nThree.")


def test_finishing_of_a_pattern_has_its_figures() -> None:
    """From the model, not from the text."""
    ready = outcome(changed("Weave in all ends.", "Sew {mat_sts} sts together.")).ready
    assert ready is not None
    assert ("Sew 31 (37, 43) sts together.",) == as_read(
        _texts(ready.pattern.finishing, _names(ready))
    )


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Sew {mat_st} sts together.", "name-unknown"),
        ("Sew {mat_sts / 2} sts together.", "count-not-whole"),
        ("Sew {mat_sts + } together.", "unit-formula"),
        ("Sew {25} together, {1 / 0} apart.", "unit-formula"),
        ("Sew {mat_sts + length} together.", "unit-formula"),
    ],
)
def test_a_formula_that_cannot_be_printed_stops_the_build(text: str, code: str) -> None:
    """Braces on a page would be taken for a number by nobody."""
    problems = outcome(changed("Weave in all ends.", text)).problems
    assert [code] == [problem.code for problem in problems]
