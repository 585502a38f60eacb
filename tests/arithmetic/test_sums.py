"""Sums of many fractions are those that are made one by one."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from workeven.arithmetic.sums import summed, worth

FRACTIONS = st.fractions(max_denominator=1000)


@given(st.lists(FRACTIONS, max_size=8))
def test_all_at_once_is_one_by_one(values: list[Fraction]) -> None:
    """Nothing is rounded."""
    assert sum(values, Fraction(0)) == summed(values)


@given(st.lists(st.tuples(st.integers(-500, 500), FRACTIONS), max_size=8))
def test_so_many_of_each_are_that_many_times_it(pairs: list[tuple[int, Fraction]]) -> None:
    """Stitches times grams."""
    assert sum((count * each for count, each in pairs), Fraction(0)) == worth(pairs)
