"""How the stitches of a seam are spread along what they are joined to.

Takes     both sides of a seam in one size.
Gives     ``spacing``, ``pins``.
Problems  none.
From      common practice of sewing and picking up: the same few stitches to the same few row ends
          all the way, with pins at the ends, the middle and the quarters.

The plain ratio with at most four on its other side that is nearest to the exact one is named; where
it is not exact, it says "about", and the pins keep it from running out of place.
"""

from __future__ import annotations

from fractions import Fraction

from workeven.proof.edge_lengths import Measured

#: more on one side than a maker counts without losing her place
_MOST = 4


def spacing(one: Measured, other: Measured) -> str:
    """``2 sts to every 3 row ends``.

    >>> rows, sts = Measured(sts=0, rows=36, length=Fraction(400), half=Fraction(5)), Measured(
    ...     sts=24, rows=0, length=Fraction(400), half=Fraction(3))
    >>> spacing(sts, rows)
    '2 sts to every 3 row ends'
    """
    many, others = one.sts + one.rows, other.sts + other.rows
    if not many or not others:
        return ""
    ratio = Fraction(many, others)
    plain = max(ratio.limit_denominator(_MOST), Fraction(1, _MOST))
    about = "" if plain == ratio else "about "
    if plain == 1 and not about:
        return _one_to_one(one, other)
    every = "" if plain.denominator == 1 else f"{plain.denominator} "
    return (
        f"{about}{_counted(plain.numerator, one)} to every {every}{_unit(plain.denominator, other)}"
    )


def _one_to_one(one: Measured, other: Measured) -> str:
    if not one.rows and not other.rows:
        return "stitch to stitch"
    return (
        "row to row"
        if not one.sts and not other.sts
        else f"1 {_unit(1, one)} to every {_unit(1, other)}"
    )


def _counted(number: int, side: Measured) -> str:
    return f"{number} {_unit(number, side)}"


def _unit(number: int, side: Measured) -> str:
    s = "" if number == 1 else "s"
    if side.sts and side.rows:
        return f"st{s} or row end{s}"
    return f"row end{s}" if side.rows else f"st{s}"


def pins(one: Measured, other: Measured) -> str:
    """What lies between two pins, with pins at the ends, the middle and the quarters.

    >>> side = Measured(sts=50, rows=0, length=Fraction(400), half=Fraction(3))
    >>> pins(side, side)
    '12½ sts and 12½ sts'
    """
    return f"{_quarter(one)} and {_quarter(other)}"


def _quarter(side: Measured) -> str:
    whole, rest = divmod(side.sts + side.rows, 4)
    figure = f"{whole or ''}{('', '¼', '½', '¾')[rest]}" or "0"
    return f"{figure} {_unit(2, side)}"
