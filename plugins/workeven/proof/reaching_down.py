"""Stitches of a chart that stand rows below: in which place of which row.

Takes     a ``PlacedRow``, the rows drawn before it.
Gives     ``anchored``: the row with its anchors, None where one cannot be told.
Problems  none.
From      notation.md, "Below and before"; a stitch goes straight down to what lies below the place
          that it covers (common practice).

The place that is covered is followed down, row by row, through the one place that each stitch
stands in; through a space to the one place that was skipped below it. It must be what the words
name. Where it is not, and the row has just as many of what they name as are worked into, each is
worked into once, in order. Anything else is not told.

Worked example: ``fpdc around next dc 2 rows below, sk next sc`` behind three sc, over a row of sc
over a row of dc: it covers place 3, an sc over the fourth dc, and stands around that.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from workeven.proof.fabric import CHAIN, Place
from workeven.proof.naming import match_of
from workeven.proof.placed import Placed, PlacedRow, Reach

#: a line of post stitches moves by so many places from one row to the next
_LEANS = 1


class Drawn(NamedTuple):
    """A row that is drawn already; whether the work was turned after it."""

    placed: PlacedRow
    turned: bool


def anchored(row: PlacedRow, before: Sequence[Drawn]) -> PlacedRow | None:
    """The row with the anchor of each stitch that stands rows below."""
    found = list(row.stitches)
    for reach in dict.fromkeys(one.reach for one in row.stitches if one.reach is not None):
        which = [at for at, one in enumerate(found) if one.reach == reach]
        there = _places(reach, before)
        straight = [_straight_below(found[at].feet[0], reach.rows, before) for at in which]
        back = sum(row.turned for row in before[len(before) - reach.rows + 1 :]) % 2 == 1
        anchors = _those_named(straight, reach, there, back=back)
        anchors = anchors or _each_once(straight, reach, there, back=back)
        if anchors is None:
            return None
        for at, anchor in zip(which, anchors, strict=True):
            found[at] = found[at]._replace(anchor=anchor)
    return row._replace(stitches=tuple(found))


def _places(reach: Reach, before: Sequence[Drawn]) -> tuple[Place, ...]:
    """What stands so many rows below, in the order in which the row worked into it meets it."""
    if len(before) < reach.rows - 1:
        return ()
    if len(before) == reach.rows - 1:
        return (CHAIN,) * len(before[0].placed.below)
    row = before[-reach.rows]
    return row.placed.left[::-1] if row.turned else row.placed.left


def _straight_below(foot: int, rows: int, before: Sequence[Drawn]) -> int | None:
    """The place so many rows below that lies under this place of the row that is worked into."""
    here: int | None = foot
    for at in range(1, rows):
        if here is None or at > len(before):
            return None
        row = before[-at]
        top = len(row.placed.leaves) - 1 - here if row.turned else here
        here = _under(row.placed, top)
    return here


def _under(row: PlacedRow, top: int) -> int | None:
    """The one place that a stitch stands in; of a space the one that was skipped below it."""
    at = next(at for at, one in enumerate(row.stitches) if one.top == top)
    one = row.stitches[at]
    if one.what == "space" and not one.feet:
        return _skipped_below(row.stitches, at)
    alone = len(one.feet) == 1 and one.what in ("stitch", "turning chain")
    return one.feet[0] if alone else None


def _skipped_below(stitches: tuple[Placed, ...], at: int) -> int | None:
    before = next((one for one in stitches[at - 1 :: -1] if one.feet), None) if at else None
    behind = next((one for one in stitches[at + 1 :] if one.feet), None)
    if before is None or behind is None:
        return None
    first, last = before.feet[-1], behind.feet[0]
    taken = {foot for one in stitches for foot in one.feet}
    between = set(range(first + 1, last)) - taken
    return between.pop() if len(between) == 1 else None


def _those_named(
    anchors: list[int | None], reach: Reach, there: tuple[Place, ...], *, back: bool
) -> list[int] | None:
    """These places, where each is there, is what the words name, and lies behind the one before.

    ``back``: the row that was worked into them ran the other way.
    """
    named = match_of(reach.names)
    found = [at for at in anchors if at is not None and at < len(there)]
    if len(found) < len(anchors):
        return None
    in_order = all(one < other for one, other in pairwise(found[::-1] if back else found))
    fit = all(_fits(there[at], reach) and named(there[at]) for at in found)
    return found if in_order and fit else None


def _each_once(
    anchors: list[int | None], reach: Reach, there: tuple[Place, ...], *, back: bool
) -> list[int] | None:
    """As many as are named stand there: each is worked into once, straight below or beside that."""
    named = match_of(reach.names)
    found = [at for at, place in enumerate(there) if named(place) and _fits(place, reach)]
    found = found[::-1] if back else found
    if len(found) != len(anchors):
        return None
    leans = (
        at is None or abs(at - other) > _LEANS for at, other in zip(anchors, found, strict=True)
    )
    return None if any(leans) else found


def _fits(place: Place, reach: Reach) -> bool:
    """A post is that of a stitch; what is below the first row has none."""
    return not reach.post or (place.sort == "st" and not place.turning)
