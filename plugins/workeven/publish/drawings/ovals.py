"""Where the stitches of an oval lie: around both sides of a starting chain.

Takes     a ``StitchChart`` of such a piece.
Gives     ``in_oval``: the chain, and ``Laid`` rounds.
Problems  none.
From      common practice: the chain lies level, its first side is worked along the top from right
          to left, the other along the foot back to the right; rounds are read anticlockwise.

Each round is a curve that stands off the chain: straight along both sides, half a circle around
each end. A place upon it is told by a number from 0 to 6, whatever its radius: a quarter circle
from the right end upwards, the top, two quarters around the left end, the foot, a quarter back to
the right end. So a stitch stands outwards from what it is worked into. Behind a turn rounds run the
other way: they are laid in the same way upside down, where the numbers run from the foot upwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, floor, inf, pi, sin
from typing import NamedTuple

from workeven.proof import StitchChart
from workeven.proof.placed import Placed, PlacedRow
from workeven.proof.stitch_chart import at_seam, once_around
from workeven.publish.drawings.stitch_places import (
    OFF,
    PICOT,
    SEAM,
    UNIT,
    Laid,
    Point,
    Spot,
    feet_around,
    height,
    reaching,
    rise,
    spread,
    standing_on,
    width,
)

#: the parts of a curve, of which these two are straight; how many make the half of it
_PARTS, _TOP, _FOOT, _HALF_WAY = 6, 1, 4, 3
#: how far the first round stands off the middle of the chain
_CHAIN = 2.0
#: how far a stitch may lean along its round, and how a round that is too tight is widened
_LEAN, _WIDEN, _MOST_TRIES = 0.6 * UNIT, 2.0, 20
#: how far the first and the last of a round may lean besides, so that they part at its seam
_FIRST_LEANS, _LAST_LEANS = 0.8 * UNIT, 1.3 * UNIT
#: the gap that the number of a round has which begins over the seam
_TURNED_SEAM = 0.6
#: how much less they must lean on a round that is wider
_GAIN = 1.2


class _Curve(NamedTuple):
    """A round: ``half`` of the length of its straight sides, the ``radius`` of its ends."""

    half: float
    radius: float

    def length(self) -> float:
        """All around."""
        return 4 * self.half + 2 * pi * self.radius

    def along(self, at: float) -> float:
        """How far from the right end a place is; beyond 6 it comes round again."""
        laps = floor(at / _PARTS)
        part, share = divmod(at - laps * _PARTS, 1)
        before = sum(map(self._part, range(int(part))))
        return laps * self.length() + before + share * self._part(int(part))

    def at(self, along: float) -> float:
        """The place that lies so far from the right end."""
        laps = floor(along / self.length())
        rest = along - laps * self.length()
        for part in range(_PARTS):
            if rest <= self._part(part):
                return laps * _PARTS + part + rest / self._part(part)
            rest -= self._part(part)
        return float((laps + 1) * _PARTS)

    def point(self, at: float, out: float, up: float) -> Point:
        """A place, so far out from the chain; ``up`` -1: upside down."""
        part, share = divmod(at % _PARTS, 1)
        if part in (_TOP, _FOOT):
            way = 1 if part == _TOP else -1
            return way * self.half * (1 - 2 * share), -way * up * out
        turn = pi / 2 * (share + part - (part > _TOP) - (part > _FOOT))
        middle = -self.half if _TOP < part < _FOOT else self.half
        return middle + out * cos(turn), -up * out * sin(turn)

    def _part(self, part: int) -> float:
        return 2 * self.half if part in (_TOP, _FOOT) else pi / 2 * self.radius


def in_oval(chart: StitchChart) -> tuple[tuple[Point, ...], tuple[Laid, ...]]:
    """The starting chain as far as it is worked into, and the rounds about it."""
    first = chart.rows[0].placed
    worked = first.again + 1
    half = (worked - 1) / 2 * UNIT
    chain = tuple((half - at * UNIT, 0.0) for at in range(worked))
    places, points = _of_chain(first, chain)
    inner, up = _CHAIN, 1.0
    rows: list[Laid] = []
    worked_into: list[Sequence[Point]] = []
    for row in chart.rows:
        stitches = row.placed.stitches
        worked_into.append(points)
        at = _unwound(row.placed, places)
        seam = UNIT * (_TURNED_SEAM if at_seam(row.placed) else SEAM)
        curve, along, base = _fitting(stitches, at, half, inner, 2 * seam)
        found = [curve.at(one) for one in along]
        out = [base + rise(stitches, number) for number in range(len(stitches))]
        for number, one in enumerate(stitches):
            if one.what == "picot":
                on = standing_on(stitches, number)
                found[number], out[number] = found[on], out[on]
        heads = [curve.point(place, far, up) for place, far in zip(found, out, strict=True)]
        spots = tuple(
            Spot(
                one,
                feet_around(stitches, number, points, heads, curve.point(found[number], inner, up)),
                curve.point(found[number], out[number] + PICOT, up)
                if one.what == "picot"
                else heads[number],
            )
            for number, one in enumerate(stitches)
        )
        inner = max(out)
        number_at = curve.point(curve.at(along[0] - seam), inner - 6, up)
        rows.append(Laid(reaching(spots, worked_into), row.number, number_at))
        tops = [number for number, one in enumerate(stitches) if one.top is not None]
        places, points = [found[number] for number in tops], [heads[number] for number in tops]
        if row.turned:
            places, points, up = [_PARTS - at for at in places[::-1]], points[::-1], -up
    return chain, tuple(rows)


def _of_chain(row: PlacedRow, chain: tuple[Point, ...]) -> tuple[list[float], list[Point]]:
    """The places of the first round: the chain from the hook, then from its other side.

    Chains that are skipped at the hook stand up at the right end, where it begins.
    """
    last = len(chain) - 1
    skipped = len(row.below) - row.again - len(chain)
    top = [0.0, *(_TOP + at / last for at in range(1, last)), float(_HALF_WAY)]
    foot = [*(_FOOT + 1 - at / last for at in range(last - 1, 0, -1)), float(_PARTS)]
    points = [*[chain[0]] * skipped, *chain, *chain[-2::-1]]
    return [*[0.0] * skipped, *top, *foot], points


def _unwound(row: PlacedRow, places: Sequence[float]) -> list[float | None]:
    """Where each would stand, going on from the one before it; None for what has no feet.

    Those over the seam stand before the first place, those that come back to it behind the last.
    """
    seam, there = at_seam(row), len(places)
    found: list[float | None] = []
    for number, one in enumerate(once_around(row) or row.stitches):
        laps = [foot // there - (number < seam) for foot in one.feet]
        at = [places[foot % there] + _PARTS * lap for foot, lap in zip(one.feet, laps, strict=True)]
        found.append(sum(at) / len(at) if at else None)
    return found


def _fitting(
    stitches: Sequence[Placed], at: Sequence[float | None], half: float, inner: float, gap: float
) -> tuple[_Curve, list[float], float]:
    """The tightest round on which the stitches stand outwards, how far along each is, its base."""
    total = sum(map(width, stitches)) * UNIT + gap
    tallest = max(height(one) for one in stitches if one.reach is None)
    base = max(inner + OFF, (total - 4 * half) / (2 * pi) - tallest)
    best, left, leant = (_Curve(half, base + tallest), [0.0] * len(stitches), base), 0.0, inf
    for _ in range(_MOST_TRIES):
        curve = _Curve(half, base + tallest)
        wanted = _wanted(stitches, at, curve)
        along = spread(stitches, wanted)
        apart = _apart_at_seam(stitches, at, along, curve.length() - gap)
        leans = max(_leans(along, wanted), apart.over + _LEAN if apart.over > 0 else 0.0)
        if leans > leant - _GAIN:
            break  # its straight sides are too short: wider ends do not help them
        best, left, leant = (curve, apart.along, base), apart.over, leans
        if leans <= _LEAN:
            break
        base += _WIDEN
    curve, along, base = best  # what is over still leans the last back, however far
    return curve, _parted(stitches, along, 0.0, left), base


def _leans(along: Sequence[float], wanted: Sequence[float | None]) -> float:
    """How far the worst of them leans."""
    pairs = zip(along, wanted, strict=True)
    return max((abs(one - want) for one, want in pairs if want is not None), default=0.0)


class _Apart(NamedTuple):
    """How far along each stands, and how far the last still comes over the first."""

    along: list[float]
    over: float


def _apart_at_seam(
    stitches: Sequence[Placed], at: Sequence[float | None], along: Sequence[float], length: float
) -> _Apart:
    """The first lean forward and the last back, where one would come over the other.

    A round that was turned has its gap beside that of the one below, where stitches stand. The
    first lean into the gap below; of the last those that stand around the end of the chain.
    """
    ends = UNIT * (width(stitches[0]) + width(stitches[-1])) / 2
    over = max(0.0, along[-1] - along[0] + ends - length)
    loose = _loose(stitches, along)
    there = [number for number, place in enumerate(at) if place is not None]
    beyond = next((number for number in there if at[number] != at[there[0]]), len(at) - 1)
    first = min(over, _FIRST_LEANS, loose[beyond] - loose[0])
    straight = [
        loose[number] for number, place in enumerate(at) if place is not None and place < _FOOT + 1
    ]
    last = min(over - first, _LAST_LEANS, loose[-1] - max(straight, default=loose[0] + first))
    last = max(last, 0.0)
    return _Apart(_parted(stitches, along, first, last), over - first - last)


def _parted(
    stitches: Sequence[Placed], along: Sequence[float], first: float, last: float
) -> list[float]:
    """The first so far forward, the last so far back; those beside them make room."""
    loose = _loose(stitches, along)
    low, high = loose[0] + first, loose[-1] - last
    return [
        one - loosely + min(max(loosely, low), high)
        for one, loosely in zip(along, loose, strict=True)
    ]


def _loose(stitches: Sequence[Placed], along: Sequence[float]) -> list[float]:
    """How far along each stands beyond what those before it take up: never less than the last."""
    taken, found = 0.0, []
    for at, (one, here) in enumerate(zip(stitches, along, strict=True)):
        taken += UNIT * (width(stitches[at - 1]) + width(one)) / 2 if at else 0.0
        found.append(here - taken)
    return found


def _wanted(
    stitches: Sequence[Placed], at: Sequence[float | None], curve: _Curve
) -> list[float | None]:
    """How far along each would stand; several in one place stand side by side."""
    found: list[float | None] = []
    for number, place in enumerate(at):
        if place is None:
            found.append(None)
            continue
        first = last = number
        while first and at[first - 1] == place:
            first -= 1
        while last + 1 < len(at) and at[last + 1] == place:
            last += 1
        found.append(curve.along(place) + UNIT * (number - (first + last) / 2))
    _around_the_seam(stitches, at, curve, found)
    for number in range(len(stitches) - 1, -1, -1):  # a chain that stands on nothing, at the start
        behind = found[number + 1] if number + 1 < len(found) else None
        if found[number] is None and stitches[number].what == "turning chain":
            found[number] = None if behind is None else behind - UNIT
    return found


def _around_the_seam(
    stitches: Sequence[Placed],
    at: Sequence[float | None],
    curve: _Curve,
    wanted: list[float | None],
) -> None:
    """What stands in the first chain, before the seam and behind it, lies evenly about its end."""
    begin = [number for number, place in enumerate(at) if place == 0]
    end = [number for number, place in enumerate(at) if place == _PARTS]
    if not begin:
        return
    room = UNIT * (sum(width(stitches[number]) for number in (*begin, *end)) + 2 * SEAM)
    here = -room / 2
    for number in end:
        here += UNIT * width(stitches[number]) / 2
        wanted[number] = curve.length() + here
        here += UNIT * width(stitches[number]) / 2
    here += 2 * SEAM * UNIT
    for number in begin:
        here += UNIT * width(stitches[number]) / 2
        wanted[number] = here
        here += UNIT * width(stitches[number]) / 2
