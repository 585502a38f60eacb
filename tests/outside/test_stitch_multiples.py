"""Stitch multiples as the trade states them, with the numbers that its lessons give."""

from __future__ import annotations

from fractions import Fraction

import pytest

from workeven.arithmetic.progression import allowed
from workeven.proof import counting


@pytest.mark.parametrize(
    ("multiple", "plus", "numbers"),
    [
        (6, 4, (16, 22)),  # http://crochet.about.com/od/learnbasics/qt/multiple.htm
        (12, 1, (25, 37)),  # the same
        (12, 2, (110,)),  # http://made-by-fabi.blogspot.com/2015/11/crochet-multiples.html
        # https://www.stitchwhisperdesigns.com/2021/03/multiples.html?m=1; open filet is "a multiple
        # of 2 plus 1", odd counts
        (5, 1, (11, 56, 101)),
        (2, 1, (21, 35)),
        # a published jacket in five sizes, https://greatx.site/aun-lydias-crochet-warm-air-jacket/
        (12, 3, (111, 123, 135, 147, 159)),
    ],
)
def test_stated_multiples_allow_the_numbers_of_the_lesson(
    multiple: int, plus: int, numbers: tuple[int, ...]
) -> None:
    """And none between them that is nearer than a whole repeat."""
    counts = allowed(multiple, plus)
    assert counts is not None
    for number in numbers:
        assert number == counts.at_or_below(number)
        assert number + multiple == counts.at_or_above(number + 1)


def test_a_width_that_does_not_fit_goes_to_the_nearest_repeat() -> None:
    """70 chains wanted, a multiple of 6 plus 2: 6 × 11 + 2 = 68.

    Citation: https://oombawkadesigncrochet.com/using-stitch-pattern-multiples/
    """
    counts = allowed(6, 2)
    assert counts is not None
    assert 68 == counts.choose(Fraction(70), "nearest")


def test_the_multiple_of_a_row_is_found_from_its_words() -> None:
    """Multiple of 4 plus 2, and 1 more for the starting chain: 42 sts on ch 43.

    From memory (common stitch-dictionary wording); the rows are our own.
    """
    rows = "ch 43\nsc in 2nd ch from hook and in each ch across, turn\n"
    row = (
        "ch 1, sc in first st, *sk 2 sts, 4 dc in next st, sc in next st; rep from * to last st, "
        "sc in last st"
    )
    checked = counting.count(rows + row)
    assert () == checked.problems
    assert checked.value is not None
    assert ((42,), (52,)) == (checked.value.rows[1].sts, checked.value.rows[2].sts)
    for chains in range(40, 49):
        fits = not counting.count(rows.replace("43", f"{chains}") + row).problems
        assert fits == (chains % 4 == 3)
