"""How long an edge is that slants: a sleeve cap, a shaped armhole, a neck.

Takes     how the rows of a piece lie on one another, the gauge of each row.
Gives     ``slope_of``.
Problems  none.
From      common practice: a shaped edge is measured along its ends, as a tape lies.

Each row goes up by its height and in or out by the stitches that it is shorter or longer by there.
Its part of the edge is the straight line between. Where it is not said which side is meant, it is
the one that is shaped more. The first row begins on the right (common practice). Square roots are
taken in whole thousandths of a millimetre, so that the same rows are as long everywhere; no count
hangs on them.

Worked example: at 5 mm a stitch and 5 mm a row, one stitch less in each of 10 rows is 10 times
7.071 mm, 7.07 cm, and 4 stitches left in one row are 20.615 mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import isqrt
from typing import Literal, NamedTuple

from workeven.proof.lie import Edges

#: parts of a millimetre in which a square root is taken
_PARTS = 1000
#: so many stitches fewer at one end of a row are no decrease: they are left, and sewn one by one
_SIDE_BY_SIDE = -3


class SlopeRow(NamedTuple):
    """One row: what it changes at its beginning and end, on which side it begins, its measures.

    ``reversed`` rows begin where the others end. ``width`` and ``height`` are those of one stitch
    and of the row, in mm.
    """

    edges: Edges
    reversed: bool
    width: Fraction
    height: Fraction


class Slope(NamedTuple):
    """An edge that slants: its length (mm), and the stitches left side by side along it."""

    length: Fraction
    left: int


def slope_of(rows: Iterable[SlopeRow], side: Literal["right", "left"] | None = None) -> Slope:
    """How long the edge of these rows is, to 0.001 mm a row, on the side that is meant."""
    lengths, left, shaped = [Fraction(0), Fraction(0)], [0, 0], [0, 0]
    for row in rows:
        ends = row.edges[::-1] if row.reversed else row.edges
        for place, change in enumerate(ends):
            lengths[place] += _slant(change * row.width, row.height)
            shaped[place] += abs(change)
            left[place] += -change if change <= _SIDE_BY_SIDE else 0
    chosen = 0 if shaped[0] >= shaped[1] else 1
    if side is not None:
        chosen = 0 if side == "right" else 1
    return Slope(lengths[chosen], left[chosen])


def _slant(across: Fraction, up: Fraction) -> Fraction:
    if not across:
        return up
    square = (across * across + up * up) * _PARTS * _PARTS
    return Fraction(isqrt(square.numerator // square.denominator), _PARTS)
