"""The counts that a stitch pattern allows, and the one to choose for a length.

Takes     a multiple, a rest and a parity: "a multiple of 6 plus 1, odd".
Gives     ``Progression``.
Problems  none of its own.
From      design.md, "counts": the nearest, a tie going up; ``round`` up or down; ``at_least``.

The counts of a multiple of 4 plus 1 are 1, 5, 9, 13 …: every fourth number from the first. Asking
for even ones leaves none, asking for odd ones all. With a multiple of 3 plus 1 (1, 4, 7, 10 …) odd
ones are 1, 7, 13 …: every sixth. So parity at most doubles the step, and the rest is division:

>>> odd = allowed(3, 1, "odd")
>>> odd.first, odd.step
(1, 6)
>>> odd.choose(Fraction(10), "nearest"), odd.choose(Fraction(8), "up"), odd.choose(Fraction(9))
(13, 13, 7)
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Literal

from workeven.records import record

Parity = Literal["any", "odd", "even"]
Rounding = Literal["nearest", "up", "down"]


@record
class Progression:
    """Whole numbers from ``first`` on, ``step`` apart; ``first`` is at least 1."""

    first: int
    step: int

    def choose(
        self,
        exact: Fraction,
        rounding: Rounding = "nearest",
        at_least: int | None = None,
        at_most: int | None = None,
    ) -> int | None:
        """The count for an exact number of stitches within the bounds; None when there is none.

        >>> allowed(6, 0).choose(Fraction(39)), allowed(6, 0).choose(Fraction(39), at_most=40)
        (42, 36)
        """
        lowest = self.first if at_least is None else self.at_or_above(at_least)
        highest = None if at_most is None else self.at_or_below(at_most)
        if at_most is not None and (highest is None or highest < lowest):
            return None
        chosen = max(self._rounded(exact, rounding), lowest)
        return chosen if highest is None else min(chosen, highest)

    def at_or_above(self, value: Fraction | int) -> int:
        """The least count that is not less than the value.

        >>> allowed(6, 1).at_or_above(8)
        13
        """
        parts, whole = value.numerator, value.denominator
        steps = max(0, -((self.first * whole - parts) // (self.step * whole)))
        return self.first + steps * self.step

    def at_or_below(self, value: Fraction | int) -> int | None:
        """The greatest count that is not more than the value, None below the first.

        >>> allowed(6, 1).at_or_below(8), allowed(6, 1).at_or_below(0)
        (7, None)
        """
        parts, whole = value.numerator, value.denominator
        steps = (parts - self.first * whole) // (self.step * whole)
        return None if steps < 0 else self.first + steps * self.step

    def _rounded(self, exact: Fraction, rounding: Rounding) -> int:
        above, below = self.at_or_above(exact), self.at_or_below(exact)
        if below is None or rounding == "up":
            return above
        if rounding == "down":
            return below
        return below if 2 * exact < below + above else above


@lru_cache(maxsize=1024)
def allowed(multiple: int, plus: int, parity: Parity = "any") -> Progression | None:
    """The counts of a multiple plus a rest; None when none has the parity.

    >>> allowed(4, 1, "even") is None
    True
    >>> allowed(6, -1)
    Progression(first=5, step=6)
    """
    repeats = max(0, -((plus - 1) // multiple))
    first = plus + repeats * multiple
    if parity == "any":
        return Progression(first=first, step=multiple)
    if (first % 2 == 1) == (parity == "odd"):
        return Progression(first=first, step=multiple if multiple % 2 == 0 else 2 * multiple)
    if multiple % 2 == 0:
        return None
    return Progression(first=first + multiple, step=2 * multiple)
