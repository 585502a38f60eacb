"""Sums of unknowns solved: by hand, and held against a library's floating-point solution."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workeven.arithmetic.least_squares import nearest_values

#: numbers of each unknown, sums, and the values worked out by hand
BY_HAND = [
    ([(5,)], [10], (2,)),
    ([(10,), (20,)], [20, 43], (Fraction(53, 25),)),
    ([(1, 0), (0, 1)], [3, 4], (3, 4)),
    ([(1, 1), (1, 0)], [7, 3], (3, 4)),
    ([(1, 1)], [7], (None, None)),
    ([(1, 1), (2, 2)], [7, 15], (None, None)),
    ([(1, 1, 0), (0, 0, 2)], [7, 6], (None, None, 3)),
    ([(0, 2), (0, 4)], [2, 4], (None, 1)),
    ([], [], ()),
]


@pytest.mark.parametrize(("numbers", "sums", "values"), BY_HAND)
def test_sums_that_tell_an_unknown_give_its_value(
    numbers: list[tuple[int, ...]],
    sums: list[int],
    values: tuple[Fraction | int | None, ...],
) -> None:
    """What stands only together with another has none."""
    assert values == nearest_values(numbers, [Fraction(one) for one in sums])


#: how nearly the second unknown goes with the first, and whether that part tells them apart: by
#: hand, 1 - cos² of the angle between their columns: (4, 3) and (4, 4) leave 4² / (25 · 32) = 1/50
NEAR = [
    ([(4, 4), (3, 4)], Fraction(1, 50), True),
    ([(4, 4), (3, 4)], Fraction(1, 49), False),
    ([(1000, 5000), (1105, 5500)], Fraction(1, 100), False),
    ([(400, 0), (200, 100)], Fraction(1, 100), True),
]


@pytest.mark.parametrize(("numbers", "own", "told"), NEAR)
def test_unknowns_that_go_almost_together_are_not_told_apart(
    numbers: list[tuple[int, int]], own: Fraction, *, told: bool
) -> None:
    """Less than the part asked for is their own."""
    found = nearest_values(numbers, [Fraction(7), Fraction(9)], own=own)
    assert told == (None not in found)
    assert None not in nearest_values(numbers, [Fraction(7), Fraction(9)])


def test_one_that_is_told_is_told_beside_two_that_are_not() -> None:
    """The third unknown is in no sum with the others."""
    numbers = [(1000, 5000, 0), (1105, 5500, 0), (0, 0, 4)]
    sums = [Fraction(6), Fraction(7), Fraction(8)]
    assert [None, None, 2] == [*nearest_values(numbers, sums, own=Fraction(1, 100))]


def test_a_line_through_points_is_that_of_the_handbook() -> None:
    """(0, 6), (1, 0), (2, 0): the line nearest to them is 5 - 3 x, off by 1, -2, 1.

    Citation: the first worked example of least squares in G. Strang, Introduction to Linear
    Algebra (from memory).
    """
    points = [(0, 6), (1, 0), (2, 0)]
    found = nearest_values([(1, x) for x, _ in points], [Fraction(y) for _, y in points])
    assert (Fraction(5), Fraction(-3)) == found


@given(
    st.lists(st.tuples(st.integers(0, 400), st.integers(0, 400)), min_size=2, max_size=6),
    st.lists(st.integers(1, 500), min_size=6, max_size=6),
)
def test_what_is_left_stands_square_to_every_unknown(
    numbers: list[tuple[int, int]], sums: list[int]
) -> None:
    """The mark of the nearest values: what is off, times the numbers of an unknown, sums to 0."""
    wanted = [Fraction(one) for one in sums[: len(numbers)]]
    found = nearest_values(numbers, wanted)
    if None in found:
        return
    pairs = zip(numbers, wanted, strict=True)
    off = [y - sum(n * (x or 0) for n, x in zip(line, found, strict=True)) for line, y in pairs]
    for at in range(2):
        assert 0 == sum(line[at] * one for line, one in zip(numbers, off, strict=True))
