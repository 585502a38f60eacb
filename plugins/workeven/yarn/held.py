"""Strands held together: which part of a swatch's mass is of one yarn.

Takes     a ``Tally``; the yarns of a pattern.
Gives     ``share_of``, ``mixed``, ``held_with``.
Problems  none.
From      common practice: strands that are held together run through the same stitches, so that the
          same length goes into each; the mass of each is as its put-up's mass to its length.

A yarn held double (``held: 2``) was held so in its swatch, which weighs both strands: its amounts
need no factor. Of two yarns held together a swatch of both tells. Worked example: 30 g of a swatch
in a yarn of 50 g to 200 m beside one of 25 g to 200 m are 20 g and 10 g.
"""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction

from workeven.pattern import Pattern, Yarn
from workeven.problems.words import joined, quote
from workeven.yarn.tally import Tally


def share_of(pattern: Pattern, yarn: Yarn, together: Collection[str]) -> Fraction:
    """Which part of the mass of yarns held together is that of one of them."""
    held = [one for one in pattern.yarns if one.name in together]
    if len(held) <= 1 or any(one.put_up.length <= 0 or one.put_up.mass <= 0 for one in held):
        return Fraction(1)
    by_length = {one.name: one.put_up.mass * one.held / one.put_up.length for one in held}
    return by_length[yarn.name] / sum(by_length.values())


def mixed(tally: Tally) -> str | None:
    """Why no one swatch can tell of all that is worked in a yarn; None where one can."""
    if tally.lost:
        return "in which yarn the stitches of some rows are worked cannot be told"
    if len(tally.beside()) > 1:
        return "it is held in more than one way, by itself or together with other yarns"
    return None


def held_with(tally: Tally) -> str:
    """The yarns that are held together with it, for a message: `` with `halo` ``."""
    (beside, *_) = tally.beside() or ((),)
    return f" held together with {joined(map(quote, beside))}" if beside else ""
