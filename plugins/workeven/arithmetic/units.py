"""The closed table of units, and the fault of a quantity that cannot be read.

Takes     nothing.
Gives     ``UNITS``, ``VULGAR``, ``QuantityFault``.
Problems  none of its own.
From      16 CFR 500.19 and NIST Handbook 44; a test holds the table equal to Pint's.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Literal

Dimension = Literal["length", "mass"]

MM, CM, M = Fraction(1), Fraction(10), Fraction(1000)
#: 1 in = 25.4 mm, 1 yd = 0.9144 m exactly (16 CFR 500.19).
INCH, FOOT, YARD = Fraction(254, 10), Fraction(3048, 10), Fraction(9144, 10)
#: 1 lb = 453.59237 g exactly, 1 oz = 1/16 lb (NIST Handbook 44, appendix C; held equal to Pint's).
POUND = Fraction(45359237, 100000)
OUNCE = POUND / 16

#: 10 cm and 4 in, each taken as written.
TEN_CM, FOUR_IN = 10 * CM, 4 * INCH

#: unit as written: (what it measures, millimetres or grams in one, its name in Pint)
UNITS: dict[str, tuple[Dimension, Fraction, str]] = {
    **dict.fromkeys(("mm",), ("length", MM, "millimeter")),
    **dict.fromkeys(("cm",), ("length", CM, "centimeter")),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), ("length", M, "meter")),
    **dict.fromkeys(("in", "in.", "inch", "inches", '"', "″"), ("length", INCH, "inch")),
    **dict.fromkeys(("ft", "foot", "feet"), ("length", FOOT, "foot")),
    **dict.fromkeys(("yd", "yds", "yard", "yards"), ("length", YARD, "yard")),
    **dict.fromkeys(("g", "gram", "grams"), ("mass", Fraction(1), "gram")),
    **dict.fromkeys(("kg",), ("mass", Fraction(1000), "kilogram")),
    **dict.fromkeys(("oz", "ounce", "ounces"), ("mass", OUNCE, "ounce")),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), ("mass", POUND, "pound")),
}

#: What is offered for each dimension when a unit is missing or wrong.
USUAL_UNITS = {"length": "mm, cm, m, in, ft or yd", "mass": "g, kg, oz or lb"}

#: Printed fractions and their values.
VULGAR = {
    "¼": Fraction(1, 4),
    "½": Fraction(1, 2),
    "¾": Fraction(3, 4),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "⅕": Fraction(1, 5),
    "⅖": Fraction(2, 5),
    "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5),
    "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
}
QUARTERS = ("", "¼", "½", "¾")


class QuantityFault(ValueError):
    """A quantity cannot be read.

    ``found`` says what is wrong and stands alone, ``mend`` how to cure it; ``at`` and ``end`` are
    the stretch of the text (characters from 0) that is at fault.
    """

    def __init__(self, found: str, *, at: int = 0, end: int | None = None, mend: str = "") -> None:
        super().__init__(found)
        self.found = found
        self.at = at
        self.end = at + 1 if end is None else end
        self.mend = mend

    def __reduce__(self) -> tuple[Callable[..., QuantityFault], tuple[object, ...]]:
        """Keep the places when the fault crosses a process."""
        return _fault, (self.found, self.at, self.end, self.mend)


def _fault(found: str, at: int, end: int, mend: str) -> QuantityFault:
    return QuantityFault(found, at=at, end=end, mend=mend)
