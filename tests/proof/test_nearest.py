"""Starting counts that carry through whole pieces."""

from __future__ import annotations

from fractions import Fraction

from tests.support.pattern_files import GOOD, outcome
from tests.support.reading import parsed
from workeven import grading
from workeven.grading import GradedPattern
from workeven.proof.nearest import nearest_counts

MULTIPLE = "multiple: 6, plus: 1"


def _graded(text: str) -> GradedPattern:
    pattern = parsed(text).value
    assert pattern is not None
    graded = grading.grade(pattern).value
    assert graded is not None
    return graded


def test_what_the_rows_ask_for_shows_in_what_comes_out() -> None:
    """The scallops take 6 and 1: near 32 sts (20 cm at 16 to 10 cm) come out 31 and 37."""
    found = nearest_counts(_graded(GOOD), "mat_sts", most=2)
    assert [near.count for near in found["S"]] == [31, 37]


def test_the_nearest_stands_first_and_says_how_far_off_it_is() -> None:
    """31 sts of 6.25 mm measure 193.75 mm, 6.25 mm less than the 200 mm wanted."""
    near = nearest_counts(_graded(GOOD), "mat_sts", most=1)["S"][0]
    assert near.measures == Fraction(775, 4)
    assert near.off == Fraction(-25, 4)


def test_later_rows_are_carried_through_too() -> None:
    """Before a decrease row of every sixth stitch only 30 sts are left near 32: they become 25."""
    text = GOOD.replace(
        "          ch 1, sc in first st, *sk 2,",
        "          ch 1, [sc 4, sc2tog] across, turn\n          ch 1, sc in first st, *sk 2,",
    )
    found = nearest_counts(_graded(text), "mat_sts", most=2)
    assert [near.count for near in found["S"]] == [30, 66]


def test_a_size_without_any_says_so_by_an_empty_list() -> None:
    """A row that never comes out has no count that mends it."""
    text = GOOD.replace(
        "          fasten off\n", "          ch 1, sc in next 3 dtr\n          fasten off\n"
    )
    assert nearest_counts(_graded(text), "mat_sts") == {"S": (), "M": (), "L": ()}


def test_the_build_offers_counts_that_carry_through() -> None:
    """The message of the row that does not come out names the count and its good values."""
    problems = outcome(GOOD.replace(MULTIPLE, "multiple: 6, plus: 2")).problems
    assert [problem.code for problem in problems] == ["row-uneven"]
    assert "`mat_sts` could be: S 31 or 37" in problems[0].mend


def test_a_pattern_in_one_size_is_offered_counts_too() -> None:
    """And shown where the count is set."""
    text = (
        GOOD.replace("sizes:\n  names: S (M, L)\n", "")
        .replace("20 (24, 27) cm", "20 cm")
        .replace(MULTIPLE, "multiple: 4")
    )
    (problem,) = outcome(text).problems
    assert problem.mend.endswith("With all pieces coming out, `mat_sts` could be: 31 or 37.")
    assert [(note.message, note.span.line) for note in problem.notes] == [
        ("`mat_sts` is set here.", 1 + text[: text.index("  mat_sts:")].count("\n"))
    ]
