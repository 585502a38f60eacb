"""What a maker buys: whole balls of a put-up, and the same amount of another yarn.

Takes     lengths in mm, masses in g, put-ups.
Gives     ``balls``, ``by_swatch``.
Problems  none.
From      ``standards``: length by the put-up's length to its mass, balls whole, up; a yarn of the
          same thickness at the same gauge takes the same length (common practice).

Worked example: 682 m are 4 balls of 200 m (3.41, up), and 7 balls of 100 m. Where the same swatch
weighs 14 g in another yarn and 12.5 g in ours, 200 g of ours are 224 g of it.
"""

from __future__ import annotations

from fractions import Fraction

from workeven.pattern import PutUp


def balls(length: Fraction, put_up: PutUp) -> int:
    """How many whole balls hold that length (mm).

    >>> balls(Fraction(682_000), PutUp(length=Fraction(200_000), mass=Fraction(50)))
    4
    """
    return (length / put_up.length).__ceil__()


def by_swatch(mass: Fraction, ours: Fraction, theirs: Fraction) -> Fraction:
    """What another yarn takes (g), by the mass of the same swatch in ours and in it.

    >>> by_swatch(Fraction(200), Fraction(25, 2), Fraction(14))
    Fraction(224, 1)
    """
    return mass * theirs / ours
