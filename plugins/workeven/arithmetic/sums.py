"""Many fractions summed at once, brought to one denominator first.

Takes     fractions and whole numbers.
Gives     ``summed``, and ``worth``: so many of each, by what one is worth.
Problems  none.
From      the rule for adding fractions. One by one each sum is reduced before the next is added,
          which costs as much as all the rest.

Worked example: 1/2 + 1/3 + 1/4 are 6/12 + 4/12 + 3/12, that is 13/12.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import lcm


def summed(values: Iterable[Fraction]) -> Fraction:
    """All of them together.

    >>> summed([Fraction(1, 2), Fraction(1, 3), Fraction(1, 4)]), summed([])
    (Fraction(13, 12), Fraction(0, 1))
    """
    return worth((1, value) for value in values)


def worth(pairs: Iterable[tuple[int, Fraction]]) -> Fraction:
    """So many of each, by what one is worth.

    >>> worth([(3, Fraction(1, 2)), (2, Fraction(1, 3))])
    Fraction(13, 6)
    """
    parts = [(count * each.numerator, each.denominator) for count, each in pairs]
    if not parts:
        return Fraction(0)
    common = lcm(*(denominator for _, denominator in parts))
    top = sum(numerator * (common // denominator) for numerator, denominator in parts)
    return Fraction(top, common)
