"""Buttonholes, pockets, stripes: things of one width placed evenly along an edge.

Takes     stitches (or rows) of the edge, how many things there are, how wide each is.
Gives     ``placed``: a ``Spacing``, as for increases and decreases.
Problems  none: raises ``ShapingFault`` where they do not fit, with the cure.
From      common practice: the first and last buttonhole stand a few stitches from the ends, the
          others at even distances between; where no distance is said, half an interval is left at
          both ends, as for changes that are spread over a row.

Worked example: 5 holes of 3 stitches over 90 stitches, 4 stitches from both ends. 90 − 2 × 4 − 3 =
79 are left for 4 intervals, each up to and including its hole: 20, 20, 19 and 20.
"""

from __future__ import annotations

from workeven.arithmetic.shaping.evenly import Spacing, spread_across, spread_around, spread_between
from workeven.arithmetic.shaping.rates import MOST, ShapingFault


def placed(
    sts: int, number: int, width: int, *, margin: int | None = None, flat: bool = True
) -> Spacing:
    """``number`` things of ``width`` over ``sts``, with one stitch or more between them.

    ``margin``: the stitches before the first and behind the last, in flat rows.

    >>> placed(90, 5, 3, margin=4)
    Spacing(edges=(7, 4), intervals=(20, 20, 19, 20))
    >>> placed(90, 5, 3).edges
    (10, 8)
    """
    _check(sts, number, width, margin)
    if not flat:
        _check_room(number, width, sts, 0)
        return Spacing(edges=(0, 0), intervals=spread_around(sts, number))
    if margin is None or number == 1:
        _check_room(number, width, sts, 0)
        return spread_across(sts, number, width)
    rest = sts - 2 * margin - width
    _check_room(number - 1, width, rest, 1)
    return Spacing(edges=(margin + width, margin), intervals=spread_between(rest, number - 1))


def _check(sts: int, number: int, width: int, margin: int | None) -> None:
    if number < 1 or width < 1 or (margin is not None and margin < 1):
        raise ShapingFault(
            f"{number} places of {width} stitches cannot be spread.",
            "Give whole numbers from 1 on.",
        )
    if sts > MOST:
        raise ShapingFault(f"{sts} stitches are more than can be planned.", f"Plan at most {MOST}.")


def _check_room(intervals: int, width: int, rest: int, first: int) -> None:
    """Each interval is one stitch longer than its hole, or more; ``first`` holes stand before."""
    if rest < intervals * (width + 1):
        most = max(rest, 0) // (width + 1) + first
        behind = " behind the first" if first else ""
        raise ShapingFault(
            f"Each of {intervals} holes{behind} takes {width + 1} stitches or more, with one "
            f"before it, and there are {max(rest, 0)} for them.",
            f"At most {most} fit{', more with a smaller margin' if first else ''}."
            if most
            else "Take narrower ones.",
        )
