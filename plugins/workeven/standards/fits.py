"""The published scale of fits, and the ease of each.

Takes     the CSV file ``ease.csv`` beside it.
Gives     ``Fit``, ``fits``, ``fit``, ``FIT_NAMES``.
Problems  none.
From      the sources named in the column ``citation``.

The current list begins at a garment smaller than the body; the older one began at no ease at all.
Both are kept; a pattern names the fits of the current one. Inches and centimetres are as published.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Literal, cast

from workeven.arithmetic.units import CM, INCH
from workeven.records import record
from workeven.standards.tables import Origin, exact, origin, rows

Edition = Literal["current", "old", "practice"]

#: The fits that a pattern may name, closest first.
FIT_NAMES = ("very close fitting", "close fitting", "classic fit", "loose fit", "oversized")


@record
class Fit:
    """A fit and the ease it leaves at bust or chest, from low to high; open above where None."""

    name: str
    edition: Edition
    low_in: Fraction
    high_in: Fraction | None
    low_cm: Fraction
    high_cm: Fraction | None
    origin: Origin

    def low(self) -> Fraction:
        """The least ease in mm, by whichever of the two published columns allows more."""
        return min(self.low_cm * CM, self.low_in * INCH)

    def high(self) -> Fraction | None:
        """The most ease in mm, likewise; None where there is no most."""
        if self.high_cm is None or self.high_in is None:
            return None
        return max(self.high_cm * CM, self.high_in * INCH)

    def middle(self, unit: Literal["cm", "in"]) -> Fraction:
        """The ease in mm that a pattern gets which names the fit alone; the least where open.

        >>> [one.middle("cm") / CM for one in fits() if one.edition == "current"][2:]
        [Fraction(15, 2), Fraction(25, 2), Fraction(15, 1)]
        """
        if unit == "cm":
            return _between(self.low_cm, self.high_cm) * CM
        return _between(self.low_in, self.high_in) * INCH


@cache
def fits() -> tuple[Fit, ...]:
    """The fits of all lists."""
    return tuple(
        Fit(
            name=row["fit"],
            edition=cast("Edition", row["edition"]),
            low_in=Fraction(row["low_in"]),
            high_in=exact(row["high_in"]),
            low_cm=Fraction(row["low_cm"]),
            high_cm=exact(row["high_cm"]),
            origin=origin(row),
        )
        for row in rows("ease.csv")
    )


def fit(name: str) -> Fit:
    """A fit of the current list (KeyError: a bug).

    >>> fit("loose fit").low_cm
    Fraction(10, 1)
    """
    return {one.name: one for one in fits() if one.edition == "current"}[name]


def _between(low: Fraction, high: Fraction | None) -> Fraction:
    return low if high is None else (low + high) / 2
