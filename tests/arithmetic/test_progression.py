"""The counts of a multiple plus a rest, and the choice of one for a length."""

from __future__ import annotations

from fractions import Fraction
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workeven.arithmetic.progression import Parity, Progression, Rounding, allowed


@pytest.mark.parametrize(
    ("multiple", "plus", "examples"),
    [
        (6, 4, [16, 22]),
        (12, 1, [25, 37]),
        (6, 2, [68]),
        (12, 2, [110]),
        (5, 1, [11, 56, 101]),
        (2, 1, [3, 5, 7]),
        (12, 3, [111, 123, 135, 147, 159]),
    ],
)
def test_multiples_mean_what_the_trade_means(multiple: int, plus: int, examples: list[int]) -> None:
    """The example numbers of published explanations of stitch multiples.

    Citation: http://crochet.about.com/od/learnbasics/qt/multiple.htm (6n + 4, 12n + 1);
    https://oombawkadesigncrochet.com/using-stitch-pattern-multiples/ (6n + 2);
    http://made-by-fabi.blogspot.com/2015/11/crochet-multiples.html (12n + 2);
    https://www.stitchwhisperdesigns.com/2021/03/multiples.html?m=1 (5n + 1; 2n + 1 for filet);
    https://greatx.site/aun-lydias-crochet-warm-air-jacket/ (a graded chain of 12n + 3).
    """
    counts = allowed(multiple, plus)
    assert counts is not None
    assert examples == [counts.choose(Fraction(number)) for number in examples]


def test_tie_goes_up() -> None:
    """Half way between two counts the larger is taken."""
    assert 42 == Progression(first=6, step=6).choose(Fraction(39))


def test_up_and_down_round_that_way() -> None:
    """Rounding up never gives less, rounding down never more, an exact count stays."""
    sixes = Progression(first=6, step=6)
    assert (42, 36) == (sixes.choose(Fraction(37), "up"), sixes.choose(Fraction(41), "down"))
    assert (36, 36) == (sixes.choose(Fraction(36), "up"), sixes.choose(Fraction(36), "down"))


def test_bounds_move_the_choice_to_the_nearest_count_within() -> None:
    """A count outside the bounds gives way to the nearest one inside."""
    sixes = Progression(first=6, step=6)
    assert 48 == sixes.choose(Fraction(30), at_least=43)
    assert 36 == sixes.choose(Fraction(60), at_most=41)
    assert sixes.choose(Fraction(60), at_least=37, at_most=41) is None
    assert sixes.choose(Fraction(60), at_most=5) is None


def test_even_multiple_fixes_the_parity() -> None:
    """A multiple of 4 plus 1 is never even."""
    assert allowed(4, 1, "even") is None
    assert Progression(first=1, step=4) == allowed(4, 1, "odd")


def test_sleeve_stitches_keep_the_parity_of_the_cuff() -> None:
    """7.75 in at 5 stitches to the inch is 38.75: 38, not 39, where 60 are to be left.

    Citation: http://kristentendyke.blogspot.com/ (the parity rule is stated there).
    """
    even = allowed(1, 0, "even")
    assert even is not None
    assert 38 == even.choose(Fraction(775, 100) * 5)


@given(
    multiple=st.integers(1, 40),
    plus=st.integers(-40, 40),
    parity=st.sampled_from(get_args(Parity)),
    exact=st.fractions(-10, 500, max_denominator=1000),
    rounding=st.sampled_from(get_args(Rounding)),
    at_least=st.none() | st.integers(0, 300),
    at_most=st.none() | st.integers(0, 300),
)
def test_choice_is_the_best_of_all_that_are_allowed(
    multiple: int,
    plus: int,
    parity: Parity,
    exact: Fraction,
    rounding: Rounding,
    at_least: int | None,
    at_most: int | None,
) -> None:
    """Division chooses what a search through all counts chooses."""
    every = [
        number
        for repeats in range(1000)
        if (number := multiple * repeats + plus) >= 1
        and (parity == "any" or (number % 2 == 1) == (parity == "odd"))
    ]
    within = [
        number
        for number in every
        if (at_least is None or number >= at_least) and (at_most is None or number <= at_most)
    ]
    counts = allowed(multiple, plus, parity)
    if not every:
        assert counts is None
        return
    assert counts is not None
    expected = _clamped(_rounded(every, exact, rounding), within)
    assert expected == counts.choose(exact, rounding, at_least, at_most)


def _rounded(every: list[int], exact: Fraction, rounding: Rounding) -> int:
    """The count that the rounding asks for, bounds apart; the least where none is below."""
    if rounding == "up":
        return min(number for number in every if number >= exact)
    below = [number for number in every if number <= exact]
    if rounding == "down":
        return max(below) if below else min(every)
    return min(every, key=lambda number: (abs(number - exact), -number))


def _clamped(chosen: int, within: list[int]) -> int | None:
    """The allowed count within the bounds that is nearest to the chosen one."""
    if not within:
        return None
    return min(max(chosen, min(within)), max(within))
