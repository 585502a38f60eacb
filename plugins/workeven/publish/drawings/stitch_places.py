"""Where the stitches of a chart lie: each from its feet to its head, in rows or in rounds.

Takes     a ``StitchChart``.
Gives     ``in_rows``, ``in_rounds``: ``Laid`` rows.
Problems  none.
From      common practice: right-side rows are read from right to left, rounds anticlockwise.

A stitch stands over what it is worked into. Those that would lie on one another are moved aside, no
farther than they must be: the nearest places at least a stitch apart (pool adjacent violators).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin
from typing import NamedTuple

from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof import ChartRow, StitchChart
from workeven.proof.placed import Placed

#: the width of a stitch; how high a stitch is, by the chains of its height
UNIT = 15.0
_HEIGHTS = (0.0, 14.0, 21.0, 30.0, 40.0, 50.0)
#: the radius of a ring, how far a round stands off the one below, and the gap that its number has
_RING, _OFF, _SEAM = 9.0, 3.0, 0.9

Point = tuple[float, float]


class Spot(NamedTuple):
    """One stitch as it lies; ``feet`` and ``head`` as points of the drawing, y downwards.

    A space has the heads of its neighbours for feet.
    """

    placed: Placed
    feet: tuple[Point, ...]
    head: Point


class Laid(NamedTuple):
    """A row as it lies: its spots, its number and where that stands."""

    spots: tuple[Spot, ...]
    number: int
    at: Point


def height(one: Placed) -> float:
    """How high a stitch or a turning chain is drawn."""
    if one.what == "stitch":
        return _HEIGHTS[HEIGHTS[kind_of(one.name).base]]
    return one.chains * 9.0 if one.what in ("turning chain", "skipped chain") else 0.0


def width(one: Placed) -> float:
    """How much room a stitch has along the row, in stitches."""
    if one.what == "space":
        return 0.4 + 0.6 * one.chains
    return 0.0 if one.what == "join" else 1.0


def _rise(stitches: Sequence[Placed], at: int) -> float:
    """How high the head of a stitch lies above the row below; a space hangs between its sides."""
    one = stitches[at]
    if one.what != "space":
        return height(one) or 6.0
    sides = [*stitches[max(at - 1, 0) : at], *stitches[at + 1 : at + 2]]
    high = max((height(other) for other in sides), default=0.0)
    return max(high, 6.0) + 3.0 * (one.chains - 1) - 2.0


# --- in rows -------------------------------------------------------------------------------


def in_rows(chart: StitchChart) -> tuple[tuple[Point, ...], tuple[Laid, ...]]:
    """The starting chain, and the rows over it."""
    way = -1.0  # the first row begins at the right
    places: list[Point] = [(way * UNIT * at, 0.0) for at in range(chart.chains)]
    skipped = sum(
        one.chains for one in chart.rows[0].placed.stitches if one.what == "skipped chain"
    )
    foundation = tuple(places[skipped:])
    rows: list[Laid] = []
    level = 5.0
    for row in chart.rows:
        laid, places = _row(row, places, way, level)
        rows.append(laid)
        level = max(-y for _, y in places)
        if row.turned:
            places, way = places[::-1], -way
    return foundation, tuple(rows)


def _row(
    row: ChartRow, below: Sequence[Point], way: float, level: float
) -> tuple[Laid, list[Point]]:
    stitches = row.placed.stitches
    along = _apart(stitches, [_wanted(stitches, at, below, way) for at in range(len(stitches))])
    heads = [(way * along[at], -(level + _rise(stitches, at))) for at in range(len(stitches))]
    spots = tuple(
        Spot(one, _feet(stitches, at, below, heads), heads[at]) for at, one in enumerate(stitches)
    )
    places = [heads[at] for at, one in enumerate(stitches) if one.top is not None]
    number = (way * (min(along) - 1.4 * UNIT), -(level + 8.0))
    return Laid(spots, row.number, number), places


def _wanted(
    stitches: Sequence[Placed], at: int, below: Sequence[Point], way: float
) -> float | None:
    """Where a stitch would stand along the row, None for what stands between its neighbours."""
    one = stitches[at]
    if one.what in ("space", "join") and not one.feet:
        return None
    if one.what == "skipped chain":
        return way * below[one.chains - 1][0]
    if not one.feet:  # a turning chain beside the first stitch
        beside = next(other for other in stitches if other.feet)
        return way * below[beside.feet[0]][0] - UNIT
    middle = sum(way * below[foot][0] for foot in one.feet) / len(one.feet)
    first = last = at
    while first and stitches[first - 1].feet == one.feet:
        first -= 1
    while last + 1 < len(stitches) and stitches[last + 1].feet == one.feet:
        last += 1
    return middle + UNIT * (at - (first + last) / 2)


def _apart(stitches: Sequence[Placed], wanted: Sequence[float | None]) -> list[float]:
    """The nearest places at which each stands its width from the one before it."""
    room, rooms = 0.0, []
    for at, one in enumerate(stitches):
        room += UNIT * (width(one) + width(stitches[at - 1])) / 2 if at else 0.0
        rooms.append(room)
    blocks: list[tuple[float, float, int]] = []
    for at in range(len(stitches)):
        want = wanted[at]
        if want is None:
            continue
        blocks.append((want - rooms[at], _hold(stitches, at), 1))
        while len(blocks) > 1 and blocks[-2][0] > blocks[-1][0]:
            (low, few, first), (high, more, then) = blocks[-2:]
            middle = (low * few + high * more) / (few + more)
            blocks[-2:] = [(middle, few + more, first + then)]
    moved = iter([value for value, _, number in blocks for _ in range(number)])
    known = [None if want is None else next(moved) for want in wanted]
    return [_between(known, at) + rooms[at] for at in range(len(stitches))]


def _hold(stitches: Sequence[Placed], at: int) -> float:
    """How firmly a stitch keeps its place: one alone in it more than several, which may lean."""
    around = (*stitches[max(at - 1, 0) : at], *stitches[at + 1 : at + 2])
    return 1.0 if any(one.feet == stitches[at].feet for one in around) else 30.0


def _between(known: Sequence[float | None], at: int) -> float:
    """Its own, or what lies between its neighbours."""
    own = known[at]
    if own is not None:
        return own
    before = next((one for one in known[at::-1] if one is not None), None)
    behind = next((one for one in known[at:] if one is not None), None)
    both = [one for one in (before, behind) if one is not None]
    return sum(both) / len(both) if both else 0.0


def _feet(
    stitches: Sequence[Placed], at: int, below: Sequence[Point], heads: Sequence[Point]
) -> tuple[Point, ...]:
    one = stitches[at]
    if one.what == "space":
        before = heads[at - 1] if at else heads[at]
        return before, heads[at + 1] if at + 1 < len(stitches) else heads[0]
    if one.what == "skipped chain":
        return (below[one.chains - 1],)
    if one.feet:
        return tuple(below[foot] for foot in one.feet)
    return ((heads[at][0], heads[at][1] + height(one)),)


# --- in rounds -----------------------------------------------------------------------------


def in_rounds(chart: StitchChart) -> tuple[Laid, ...]:
    """The rounds from the ring outwards, the first stitch of each beside its number."""
    places: list[tuple[float, float]] = []
    way, inner = 1.0, _RING
    rows: list[Laid] = []
    for row in chart.rows:
        stitches = row.placed.stitches
        angles, base = _around(stitches, way, inner)
        out = [base + _rise(stitches, at) for at in range(len(stitches))]
        heads = [_at(angle, radius) for angle, radius in zip(angles, out, strict=True)]
        points = [_at(*place) for place in places]
        spots = tuple(
            Spot(
                one,
                _feet_around(stitches, at, points, heads, _at(angles[at], inner)),
                heads[at],
            )
            for at, one in enumerate(stitches)
        )
        high = max(out)
        seam = angles[0] - way * _SEAM * UNIT / high
        rows.append(Laid(spots, row.number, _at(seam, high - 6)))
        places = [(angles[at], out[at]) for at, one in enumerate(stitches) if one.top is not None]
        inner = high
        if row.turned:
            places, way = places[::-1], -way
    return tuple(rows)


def _around(stitches: Sequence[Placed], way: float, inner: float) -> tuple[list[float], float]:
    """The angle of each stitch, evenly around from the seam, and how far out it is."""
    total = sum(map(width, stitches)) + 2 * _SEAM
    tallest = max(map(height, stitches))
    base = max(inner + _OFF, total * UNIT / (2 * pi) - tallest)
    angles: list[float] = []
    room = _SEAM
    for one in stitches:
        angles.append(way * 2 * pi * (room + width(one) / 2) / total)
        room += width(one)
    angles = [pi / 2 + one for one in angles]
    return angles, base


def _at(angle: float, radius: float) -> Point:
    return radius * cos(angle), -radius * sin(angle)


def _feet_around(
    stitches: Sequence[Placed],
    at: int,
    below: Sequence[Point],
    heads: Sequence[Point],
    inwards: Point,
) -> tuple[Point, ...]:
    one = stitches[at]
    if one.what == "space" or one.feet:
        return _feet(stitches, at, below, heads)
    return (inwards,)
