"""Figures as they ought to stand on a page: in the list of all sizes, and in each size alone.

The rounding is that of the trade as design.md states it (half centimetres, quarter inches, whole
metres and yards up), written here once more and not taken from the code that prints pages.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from math import ceil, floor
from typing import NamedTuple

FIGURE = re.compile(r"\d+(?:[.,]\d+)*[¼-¾⅐-⅞]?|[¼-¾⅐-⅞]")
INCH, YARD, OUNCE = Fraction(254, 10), Fraction(9144, 10), Fraction("28.349523125")
NOT_WORKED = "–"


class Told(NamedTuple):
    """The figures of a text where no size is chosen, and in each size."""

    all: tuple[str, ...]
    each: tuple[tuple[str, ...], ...]

    def then(self, other: Told) -> Told:
        """One after the other."""
        each = tuple((*a, *b) for a, b in zip(self.each, other.each, strict=True))
        return Told((*self.all, *other.all), each)


def figures(text: str) -> tuple[str, ...]:
    """The figures of a text: ``4½``, ``1,518``, ``60``.

    >>> figures("ch 4½, 1,518 sts, 60 (66, 72), ½ in, sc2tog")
    ('4½', '1,518', '60', '66', '72', '½', '2')
    """
    return tuple(FIGURE.findall(text))


def same(text: str, sizes: int) -> Told:
    """What is the same in every size."""
    return Told(figures(text), (figures(text),) * sizes)


def by_size(values: Sequence[str]) -> Told:
    """A list in trade notation: one figure alone where all are the same."""
    shown = values[:1] if len(set(values)) == 1 else values
    return Told(figures(" ".join(shown)), tuple(map(figures, values)))


def only(text: str, at: Iterable[int], sizes: int) -> Told:
    """What some sizes alone are told; who has chosen none is told it too."""
    told = set(at)
    return Told(figures(text), tuple(figures(text) if k in told else () for k in range(sizes)))


def joined(parts: Iterable[Told], sizes: int) -> Told:
    """All of them, one after the other."""
    whole = same("", sizes)
    for part in parts:
        whole = whole.then(part)
    return whole


# --- figures as they are printed ----------------------------------------------------------


def decimal(value: Fraction, places: int) -> str:
    """To so many places, a tie going up, without zeros at the end."""
    units = floor(value * 10**places + Fraction(1, 2))
    text = f"{abs(units):0{places + 1}d}"
    if places:
        text = f"{text[:-places]}.{text[-places:]}".rstrip("0").rstrip(".")
    return text


def cm(mm: Fraction) -> str:
    """Half centimetres."""
    return decimal(Fraction(floor(mm / 5 + Fraction(1, 2)), 2), 1)


def inches(mm: Fraction) -> str:
    """Quarter inches."""
    whole, rest = divmod(floor(mm / INCH * 4 + Fraction(1, 2)), 4)
    return f"{whole or ''}{('', '¼', '½', '¾')[rest]}" or "0"


def metres(mm: Fraction) -> str:
    """Whole metres, up."""
    return str(ceil(mm / 1000))


def yards(mm: Fraction) -> str:
    """Whole yards, up."""
    return str(ceil(mm / YARD))


def ounces(grams: Fraction) -> str:
    """Tenths of an ounce, up."""
    return decimal(Fraction(ceil(grams / OUNCE * 10), 10), 1)


def number(value: Fraction) -> str:
    """A number with a printed fraction where there is one."""
    for sign, below in (("½", 2), ("¼", 4), ("⅓", 3), ("⅛", 8)):
        if value % 1 == Fraction(1, below):
            return f"{value // 1 or ''}{sign}"
    for sign, part in (("¾", "3/4"), ("⅔", "2/3"), ("⅜", "3/8"), ("⅝", "5/8"), ("⅞", "7/8")):
        if value % 1 == Fraction(part):
            return f"{value // 1 or ''}{sign}"
    return decimal(value, 3)


def significant(value: Fraction) -> str:
    """Five figures that count."""
    places = 0
    while value and value * 10**places < 10**4 and places < 10:
        places += 1
    return decimal(value, places)


def lengths(mm: Sequence[Fraction | None], units: str) -> Told:
    """A length by size in both systems, the studio's first."""

    def in_one(printed: Callable[[Fraction], str]) -> Told:
        return by_size([NOT_WORKED if one is None else printed(one) for one in mm])

    first, second = in_one(cm), in_one(inches)
    return first.then(second) if units == "cm" else second.then(first)


def yarn_length(mm: Fraction) -> str:
    """Metres and yards, as of a shop."""
    return f"{metres(mm)} {yards(mm)}"
