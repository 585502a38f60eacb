"""Changes spread evenly over a row or round.

Takes     stitches there, changes wanted, whether the row is flat.
Gives     ``evenly``: the stitches at both edges and between the changes; ``by_repeats``: the same
          without breaking a stitch repeat.
Problems  none: raises ``ShapingFault`` where the changes do not fit.
From      common practice; the half interval at both ends of a flat row after the published lesson
          on spacing evenly across a row.

Integers only. The longer of the two interval lengths, or the shorter, whichever is rarer, are as
far apart as whole stitches allow, so no two of them are neighbours. In a flat row one interval is
halved to both edges, and the others read the same from both ends where their numbers allow it.

The lesson fills a row from its beginning and leaves what is over at the end (100 sts, 16 increases:
after every 6th st, 4 left); another divides the row by the changes and halves the first interval.
The second is followed: the first puts all that is left over on one side.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from workeven.arithmetic.shaping.rates import ShapingFault
from workeven.records import record

Change = Literal["inc", "dec"]


@record
class Spacing:
    """Where changes stand, in stitches of the row before.

    An interval runs up to and including the stitches of its change. ``edges`` (flat rows; (0, 0)
    in a round): the first up to and including the first change, and the plain stitches at the end.
    """

    edges: tuple[int, int]
    intervals: tuple[int, ...]


def evenly(sts: int, changes: int, change: Change, *, flat: bool) -> Spacing:
    """Spread ``changes`` over ``sts`` stitches; raises ``ShapingFault`` where they do not fit.

    >>> evenly(70, 12, "dec", flat=False).intervals
    (6, 6, 6, 6, 6, 5, 6, 6, 6, 6, 6, 5)
    >>> evenly(48, 12, "inc", flat=True).edges
    (2, 2)
    >>> evenly(48, 12, "dec", flat=True).edges
    (3, 1)
    """
    legs = legs_of(change)
    if changes < 1 or changes * legs > sts:
        raise _too_many(sts, changes, legs)
    if not flat:
        return Spacing(edges=(0, 0), intervals=spread_around(sts, changes))
    return spread_across(sts, changes, legs)


def legs_of(change: Change) -> int:
    """How many stitches of the row before one change takes."""
    return 2 if change == "dec" else 1


def by_repeats(
    sts: int, changes: int, change: Change, multiple: int, *, flat: bool
) -> Spacing | None:
    """The same with every change at the end of a repeat; None where repeats must be broken.

    What the stitches are more than whole repeats stands at the end, behind the last change.

    >>> by_repeats(60, 5, "inc", 6, flat=False).intervals
    (12, 12, 12, 12, 12)
    """
    repeats, rest = divmod(sts, multiple)
    if multiple < legs_of(change) or changes > repeats or changes < 1:
        return None
    spread = evenly(repeats, changes, "inc", flat=flat)
    if not flat and rest:
        return None
    first, last = (one * multiple for one in spread.edges)
    return Spacing(
        edges=(first, last + rest) if flat else (0, 0),
        intervals=tuple(interval * multiple for interval in spread.intervals),
    )


def spread_around(sts: int, changes: int) -> tuple[int, ...]:
    """As many intervals as changes; the rarer length ends each stretch of the other."""
    short, longer = divmod(sts, changes)
    # counting from the end of a stretch, so that it begins with the commoner length
    cuts = [-(-index * longer // changes) for index in range(changes + 1)]
    return tuple(short + cuts[index + 1] - cuts[index] for index in range(changes))


def spread_across(sts: int, changes: int, legs: int) -> Spacing:
    """One interval is halved to the edges: a longer or a shorter one, that which can be halved."""
    short, longer = divmod(sts, changes)
    ways = [
        (halved, among)
        for halved, among in ((short, longer), (short + 1, longer - 1))
        if among >= 0 and halved >= legs
    ]
    halved, among = min(ways, key=lambda way: (way[0] - legs) % 2)
    before = (halved - legs) // 2
    return Spacing(
        edges=(before + legs, halved - legs - before),
        intervals=_mirrored(short, among, changes - 1),
    )


def spread_between(sts: int, intervals: int) -> tuple[int, ...]:
    """So many intervals that fill the stitches, alike from both ends where that can be."""
    short, longer = divmod(sts, intervals)
    return _mirrored(short, longer, intervals)


def _mirrored(short: int, longer: int, intervals: int) -> tuple[int, ...]:
    """Intervals of which so many are one longer, spread from the middle to both sides.

    Where both numbers are even, one half may mirror the other; but not where that makes neighbours
    of two of the rarer length in the middle.
    """
    spread = _spread(short, longer, intervals)
    if intervals % 2 or longer % 2 or spread == spread[::-1]:
        return spread
    half = _spread(short, longer // 2, intervals // 2)
    for one in (half, half[::-1]):
        whole = (*one, *one[::-1])
        if not neighbours_of_the_rarer(whole):
            return whole
    return spread


def _spread(short: int, longer: int, intervals: int) -> tuple[int, ...]:
    """The i-th cut is ``i * longer / intervals`` rounded to the nearest, a half going up."""
    if intervals == 0:
        return ()
    cuts = [(2 * at * longer + intervals) // (2 * intervals) for at in range(intervals + 1)]
    return tuple(short + cuts[at + 1] - cuts[at] for at in range(intervals))


def neighbours_of_the_rarer(intervals: tuple[int, ...]) -> bool:
    """Whether two of the rarer length stand side by side.

    >>> neighbours_of_the_rarer((6, 6, 7, 7, 6)), neighbours_of_the_rarer((6, 7, 6, 7))
    (True, False)
    """
    rarer = min(set(intervals), key=intervals.count)
    pairs = pairwise(intervals)
    return len(set(intervals)) > 1 and any(one == other == rarer for one, other in pairs)


def _too_many(sts: int, changes: int, legs: int) -> ShapingFault:
    if changes < 1:
        return ShapingFault(f"{changes} changes cannot be spread.", "Give 1 or more.")
    what = f"{'decrease' if legs > 1 else 'increase'}{'' if changes == 1 else 's'}"
    each = f", over {legs} each," if legs > 1 else ""
    do = "does" if changes == 1 else "do"
    return ShapingFault(
        f"{changes} {what}{each} {do} not fit into {sts} {'stitch' if sts == 1 else 'stitches'}.",
        f"At most {sts // legs} fit." if sts >= legs else "There are not enough stitches.",
    )
