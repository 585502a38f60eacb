"""Where the stitches of a chart lie: each from its feet to its head, in rows or in rounds.

Takes     a ``StitchChart``.
Gives     ``in_rows``, ``in_rounds``: ``Laid`` rows; what ``ovals`` lays rows out with.
Problems  none.
From      common practice: right-side rows are read from right to left, rounds anticlockwise; a tube
          is drawn as rows, each from right to left until the work is turned.

A stitch stands over what it is worked into. Those that would lie on one another are moved aside, no
farther than they must be: the nearest places at least a stitch apart (pool adjacent violators).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, cos, hypot, pi, sin
from typing import NamedTuple

from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof import StitchChart
from workeven.proof.placed import MOVES, Placed
from workeven.proof.stitch_chart import at_seam, once_around

#: the width of a stitch; how high a stitch is, by the chains of its height
UNIT = 15.0
_HEIGHTS = (0.0, 14.0, 21.0, 30.0, 40.0, 50.0)
#: the radius of a ring, how far a round stands off the one below, and the gap that its number has
_RING, OFF, SEAM = 9.0, 3.0, 0.9
#: how far the tip of a picot, and a slip stitch that travels, stand off what they are on
PICOT, _TRAVEL = 13.0, 5.0
#: how much of a stitch that stands rows below lies above the row that it covers
STEM = 14.0
#: what has no room of its own along the row
_ON_OTHERS = (*MOVES, "picot")
#: a cluster of so many legs is wider than a stitch
_MANY_LEGS = 4

Point = tuple[float, float]


class Spot(NamedTuple):
    """One stitch as it lies; ``feet`` and ``head`` as points of the drawing, y downwards.

    A space has the heads of its neighbours for feet, a picot that of what it stands on, a stitch
    in a gap what lies midway.
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
        base = kind_of(one.name).base if one.closed is None else one.closed.base
        return _HEIGHTS[HEIGHTS[base]]
    return one.chains * 9.0 if one.what in ("turning chain", "skipped chain") else 0.0


def width(one: Placed) -> float:
    """How much room a stitch has along the row, in stitches."""
    if one.what == "space":
        return 0.4 + 0.6 * one.chains
    if one.closed is not None:
        return 1.0 if one.closed.legs < _MANY_LEGS else 1.2
    return 0.0 if one.what == "join" or one.what in _ON_OTHERS else 1.0


def rise(stitches: Sequence[Placed], at: int) -> float:
    """How high the head of a stitch lies above the row below; a space hangs between its sides.

    One that stands rows below ends with those beside it: its length is in the rows that it covers.
    """
    one = stitches[at]
    if one.reach is not None:
        return max(STEM, *(height(other) for other in stitches if other.reach is None), 0.0)
    if one.what not in ("space", "chain"):
        return height(one) or 6.0
    sides = [
        stitches[beside]
        for beside in (_beside(stitches, at, -1), _beside(stitches, at, 1))
        if beside is not None
    ]
    high = max((height(other) for other in sides), default=0.0)
    return max(high, 6.0) + 3.0 * (one.chains - 1) - 2.0


def _beside(stitches: Sequence[Placed], at: int, way: int) -> int | None:
    """The next one to that side that stands in the row itself, beyond chains side by side."""
    passed = ("chain", *_ON_OTHERS) if stitches[at].what == "chain" else _ON_OTHERS
    beside = at + way
    while 0 <= beside < len(stitches) and stitches[beside].what in passed:
        beside += way
    return beside if 0 <= beside < len(stitches) else None


# --- in rows -------------------------------------------------------------------------------


def in_rows(chart: StitchChart) -> tuple[tuple[Point, ...], tuple[Laid, ...]]:
    """The starting chain, and the rows over it."""
    way = -1.0  # the first row begins at the right
    places: list[Point] = [(way * UNIT * at, 0.0) for at in range(chart.chains)]
    skipped = sum(one.chains for one in chart.rows[0].placed.stitches if one.earlier)
    foundation = tuple(places[skipped:])
    rows: list[Laid] = []
    worked_into: list[Sequence[Point]] = []
    level = 5.0
    for row in chart.rows:
        stitches = row.placed.stitches
        if chart.shape == "tube" and (number := at_seam(row.placed)):
            stitches, places = _over_seam(stitches, places, number, way)
        elif chart.shape == "tube":
            stitches = once_around(row.placed) or stitches
            places = _and_again(stitches, places, way)
        worked_into.append(places)
        laid, places = _row(row.number, stitches, places, way, level)
        rows.append(laid._replace(spots=reaching(laid.spots, worked_into)))
        level = max(-y for _, y in places)
        if row.turned:
            places, way = places[::-1], -way
    return foundation, tuple(rows)


def reaching(spots: tuple[Spot, ...], worked_into: Sequence[Sequence[Point]]) -> tuple[Spot, ...]:
    """Those that stand rows below with their foot there; the row is worked into the last."""
    return tuple(
        spot
        if spot.placed.reach is None or spot.placed.anchor is None
        else spot._replace(feet=(worked_into[-spot.placed.reach.rows][spot.placed.anchor],))
        for spot in spots
    )


def _over_seam(
    stitches: Sequence[Placed], below: list[Point], number: int, way: float
) -> tuple[tuple[Placed, ...], list[Point]]:
    """The last place once more, before the first: there the ends of a round meet."""
    seam = (below[0][0] - way * UNIT, below[-1][1])
    over = [one._replace(feet=(len(below),) * len(one.feet)) for one in stitches[:number]]
    return (*over, *stitches[number:]), [*below, seam]


def _and_again(stitches: Sequence[Placed], below: Sequence[Point], way: float) -> list[Point]:
    """The first places once more behind the last, as many as the round comes back to."""
    most = max((foot for one in stitches for foot in one.feet), default=0)
    along = below[-1][0] + way * UNIT - below[0][0]
    again = [(x + along, y) for x, y in below[: most - len(below) + 1]]
    return [*below, *(again if most >= len(below) else ())]


def _row(
    number: int, stitches: Sequence[Placed], below: Sequence[Point], way: float, level: float
) -> tuple[Laid, list[Point]]:
    along = spread(stitches, [_wanted(stitches, at, below, way) for at in range(len(stitches))])
    heads = [(way * along[at], -(level + rise(stitches, at))) for at in range(len(stitches))]
    for at, one in enumerate(stitches):
        if one.what in MOVES:
            x, y = below[one.feet[0]]
            heads[at] = (x + way * _share_of(stitches, at), y - _TRAVEL)
    spots = tuple(
        Spot(one, _feet(stitches, at, below, heads), heads[at]) for at, one in enumerate(stitches)
    )
    spots = tuple(_upright(spot) if spot.placed.what == "picot" else spot for spot in spots)
    places = [heads[at] for at, one in enumerate(stitches) if one.top is not None]
    sides = [way * x for x, _ in heads]
    at_side = (way * (min(sides) - 1.4 * UNIT), -(level + 8.0))
    return Laid(spots, number, at_side), places


def _wanted(
    stitches: Sequence[Placed], at: int, below: Sequence[Point], way: float
) -> float | None:
    """Where a stitch would stand along the row, None for what stands between its neighbours."""
    one = stitches[at]
    if one.what in _ON_OTHERS or (one.what in ("space", "chain", "join") and not one.feet):
        return None
    if not one.feet:  # a turning chain beside the first stitch
        beside = next(other for other in stitches if other.feet and other.what not in MOVES)
        return way * below[beside.feet[0]][0] - UNIT
    middle = sum(way * below[foot][0] for foot in one.feet) / len(one.feet)
    first = last = at
    while first and stitches[first - 1].feet == one.feet:
        first -= 1
    while last + 1 < len(stitches) and stitches[last + 1].feet == one.feet:
        last += 1
    return middle + UNIT * (at - (first + last) / 2)


def spread(stitches: Sequence[Placed], wanted: Sequence[float | None]) -> list[float]:
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
    if one.what in ("space", "chain"):
        before, behind = _beside(stitches, at, -1), _beside(stitches, at, 1)
        start = below[0] if before is None else heads[before]
        return start, _beyond(start, heads[at]) if behind is None else heads[behind]
    if one.what == "picot":
        return (heads[standing_on(stitches, at)],)
    if one.between:
        (left, high), (right, low) = (below[foot] for foot in one.feet)
        return (((left + right) / 2, (high + low) / 2),)
    if one.feet:
        return tuple(below[foot] for foot in one.feet)
    return ((heads[at][0], heads[at][1] + height(one)),)


def _beyond(start: Point, middle: Point) -> Point:
    """As far behind the middle as the start is before it: nothing stands there."""
    return 2 * middle[0] - start[0], start[1]


def standing_on(stitches: Sequence[Placed], at: int) -> int:
    """What a picot stands on: the last before it that is none."""
    return next(before for before in range(at - 1, -1, -1) if stitches[before].what != "picot")


def _share_of(stitches: Sequence[Placed], at: int) -> float:
    """Of several slip stitches in one place, how far this one stands from the middle."""
    alike = [
        other
        for other, one in enumerate(stitches)
        if one.what in MOVES and one.feet == stitches[at].feet
    ]
    return 6.0 * (alike.index(at) - (len(alike) - 1) / 2)


def _upright(spot: Spot) -> Spot:
    x, y = spot.feet[0]
    return spot._replace(head=(x, y - PICOT))


# --- in rounds -----------------------------------------------------------------------------


def in_rounds(chart: StitchChart) -> tuple[Laid, ...]:
    """The rounds from the ring outwards, the first stitch of each beside its number.

    A round that begins elsewhere, by travel or with a loop, is turned to where its stitches lean
    least.
    """
    places: list[tuple[float, float]] = []
    way, inner, seam_at = 1.0, _RING, pi / 2
    rows: list[Laid] = []
    worked_into: list[Sequence[Point]] = []
    for row in chart.rows:
        stitches = row.placed.stitches
        angles, base = _around(stitches, way, inner)
        points = [_at(*place) for place in places]
        worked_into.append(points)
        if any(one.feet for one in stitches):
            least = _leaning_least(stitches, angles, points)
            far = abs(atan2(sin(least - seam_at), cos(least - seam_at))) * inner
            moved = any(one.what in MOVES for one in stitches)
            seam_at = least if moved or far > UNIT else seam_at
        angles = [seam_at + angle for angle in angles]
        out = [base + rise(stitches, at) for at in range(len(stitches))]
        for at, one in enumerate(stitches):
            if one.what in MOVES:
                angle, radius = places[one.feet[0]]
                angles[at] = angle + way * _share_of(stitches, at) / radius
                out[at] = radius + _TRAVEL
            elif one.what == "picot":
                on = standing_on(stitches, at)
                angles[at], out[at] = angles[on], out[on]
        heads = [_at(angle, radius) for angle, radius in zip(angles, out, strict=True)]
        spots = tuple(
            Spot(
                one,
                feet_around(stitches, at, points, heads, _at(angles[at], inner)),
                heads[at],
            )
            for at, one in enumerate(stitches)
        )
        spots = tuple(_outwards(spot) if spot.placed.what == "picot" else spot for spot in spots)
        high = max(out)
        first = next(at for at, one in enumerate(stitches) if one.what not in MOVES)
        seam = angles[first] - way * SEAM * UNIT / high
        below = 15 if stitches[first].what == "space" else 6  # inside the loop that it begins with
        spots = reaching(spots, worked_into)
        rows.append(Laid(spots, row.number, _at(seam, high - below)))
        places = [(angles[at], out[at]) for at, one in enumerate(stitches) if one.top is not None]
        inner = high
        if row.turned:
            places, way = places[::-1], -way
    return tuple(rows)


def _around(stitches: Sequence[Placed], way: float, inner: float) -> tuple[list[float], float]:
    """The angle of each stitch from the seam, evenly around, and how far out the round is."""
    total = sum(map(width, stitches)) + 2 * SEAM
    tallest = max(height(one) for one in stitches if one.reach is None)
    base = max(inner + OFF, total * UNIT / (2 * pi) - tallest)
    angles: list[float] = []
    room = SEAM
    for one in stitches:
        angles.append(way * 2 * pi * (room + width(one) / 2) / total)
        room += width(one)
    return angles, base


def _leaning_least(
    stitches: Sequence[Placed], angles: Sequence[float], below: Sequence[Point]
) -> float:
    """The angle of the seam at which the stitches stand over their places, all in all."""
    x = y = 0.0
    for one, angle in zip(stitches, angles, strict=True):
        if one.what not in MOVES:
            for foot in one.feet:
                away = atan2(-below[foot][1], below[foot][0]) - angle
                x, y = x + cos(away), y + sin(away)
    return atan2(y, x)


def _outwards(spot: Spot) -> Spot:
    """A picot, away from the middle."""
    x, y = spot.feet[0]
    far = (hypot(x, y) + PICOT) / hypot(x, y)
    return spot._replace(head=(x * far, y * far))


def _at(angle: float, radius: float) -> Point:
    return radius * cos(angle), -radius * sin(angle)


def feet_around(
    stitches: Sequence[Placed],
    at: int,
    below: Sequence[Point],
    heads: Sequence[Point],
    inwards: Point,
) -> tuple[Point, ...]:
    """The feet of a stitch of a round; of one without any, ``inwards`` of it."""
    one = stitches[at]
    if one.what in ("space", "chain") and _beside(stitches, at, 1) is None:
        before = _beside(stitches, at, -1)
        first = next(other for other, one in enumerate(stitches) if one.what not in _ON_OTHERS)
        return heads[at if before is None else before], heads[first]
    if one.what in ("space", "chain") and _beside(stitches, at, -1) is None:
        last = next(
            other
            for other in range(len(stitches) - 1, at, -1)
            if stitches[other].what not in _ON_OTHERS
        )
        return heads[last], heads[at + 1]
    if one.what in ("space", "chain", "picot") or one.feet:
        return _feet(stitches, at, below, heads)
    return (inwards,)
