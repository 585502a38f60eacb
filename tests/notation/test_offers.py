"""What is offered for words that are not understood."""

from __future__ import annotations

import pytest

from tests.support.pattern_files import changed, outcome
from workeven.notation.offers import PHRASES, offer
from workeven.notation.parser import parse_row
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span

OWN = Vocabulary("us", ("vee", "fan"))


def cure(row: str, vocabulary: Vocabulary = OWN) -> str:
    """The cure of the one problem of a row."""
    span = Span(file="-", line=1, column=1, end_line=1, end_column=len(row) + 1)
    (problem,) = parse_row(row, span, vocabulary).problems
    return problem.mend


@pytest.mark.parametrize("phrase", PHRASES)
def test_every_phrase_that_is_offered_is_read(phrase: str) -> None:
    """Nobody is sent from one phrase that is not understood to another."""
    row = f"*sc in next st, {phrase}" if phrase.startswith("rep from") else phrase
    span = Span(file="-", line=1, column=1, end_line=1, end_column=len(row) + 1)
    assert () == parse_row(row, span, OWN).problems


@pytest.mark.parametrize(
    ("row", "meant"),
    [
        ("sc in first st, vii in next st", "vee"),
        ("ch 1, fam in each st across", "fan"),
        ("ch 1, [sc 3, sc2tgo] 8 times", "sc2tog"),
        ("ch 3, hdcc in each st around", "hdc"),
    ],
)
def test_a_misspelt_stitch_is_offered_as_it_is_known(row: str, meant: str) -> None:
    """Those of the pattern first."""
    assert f"Did you mean “{meant}”?" == cure(row)


@pytest.mark.parametrize("stitch", ["twiddle", "shell", "zigzag"])
def test_a_stitch_that_nobody_knows_is_to_be_declared(stitch: str) -> None:
    """A shell too: of how many stitches differs."""
    assert f"If “{stitch}” is a stitch of your own, declare it" in cure(f"{stitch} in next st")


@pytest.mark.parametrize(
    ("words", "phrase"),
    [
        ("tr in the next 4 stitches along", "sc in next 6 sts"),
        ("dec 8 sts here and there evenly", "dec 12 sts evenly"),
        ("join with sl st somewhere to top of first ch", "join with sl st to top of beg ch-3"),
    ],
)
def test_the_nearest_phrase_is_near_in_its_words(words: str, phrase: str) -> None:
    """Whatever the letters, numbers and stitches."""
    assert f"The nearest phrase that is read: “{phrase}”." == offer(words, 0, words, OWN).mend


def test_a_stitch_that_is_not_declared_is_told_once() -> None:
    """Three rows work it: the others are shown beside the first."""
    rows = "          ch 1, knot in each st across, turn\n" * 3
    (problem,) = outcome(
        changed("          rep last row until", f"{rows}          rep last row until")
    ).problems
    assert problem.code == "row-not-understood"
    assert [problem.span.line + 1, problem.span.line + 2] == [
        one.span.line for one in problem.notes
    ]


def test_wrong_terms_are_told_once() -> None:
    """Every row in them is the same mistake."""
    problems = outcome(changed("audience: adult\n", "audience: adult\nterms: uk\n")).problems
    assert ["row-not-understood"] == [one.code for one in problems]
    assert "set `terms`" in problems[0].mend
