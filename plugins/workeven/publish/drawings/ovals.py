"""Where the stitches of an oval lie: around both sides of a starting chain.

Takes     a ``StitchChart`` of such a piece.
Gives     ``in_oval``: the chain, and ``Laid`` rounds.
Problems  none.
From      common practice: the chain lies level, its first side is worked along the top from right
          to left, the other along the foot back to the right; rounds are read anticlockwise.

Each round is a curve that stands off the chain: straight along both sides, half a circle around
each end. A place upon it is told by a number from 0 to 6, whatever its radius: a quarter circle
from the right end upwards, the top, two quarters around the left end, the foot, a quarter back to
the right end. So a stitch stands outwards from what it is worked into.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, floor, inf, pi, sin
from typing import NamedTuple

from workeven.proof import StitchChart
from workeven.proof.placed import Placed, PlacedRow
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
#: how much less they must lean on a round that is wider
_GAIN = 0.5


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

    def point(self, at: float, out: float) -> Point:
        """A place, so far out from the chain."""
        part, share = divmod(at % _PARTS, 1)
        if part in (_TOP, _FOOT):
            way = 1 if part == _TOP else -1
            return way * self.half * (1 - 2 * share), -way * out
        turn = pi / 2 * (share + part - (part > _TOP) - (part > _FOOT))
        middle = -self.half if _TOP < part < _FOOT else self.half
        return middle + out * cos(turn), -out * sin(turn)

    def _part(self, part: int) -> float:
        return 2 * self.half if part in (_TOP, _FOOT) else pi / 2 * self.radius


def in_oval(chart: StitchChart) -> tuple[tuple[Point, ...], tuple[Laid, ...]]:
    """The starting chain as far as it is worked into, and the rounds about it."""
    first = chart.rows[0].placed
    worked = first.again + 1
    half = (worked - 1) / 2 * UNIT
    chain = tuple((half - at * UNIT, 0.0) for at in range(worked))
    places, points = _of_chain(first, chain)
    inner = _CHAIN
    rows: list[Laid] = []
    worked_into: list[Sequence[Point]] = []
    for row in chart.rows:
        stitches = row.placed.stitches
        worked_into.append(points)
        at = _unwound(stitches, places)
        curve, along, base = _fitting(stitches, at, half, inner)
        found = [curve.at(one) for one in along]
        out = [base + rise(stitches, number) for number in range(len(stitches))]
        for number, one in enumerate(stitches):
            if one.what == "picot":
                on = standing_on(stitches, number)
                found[number], out[number] = found[on], out[on]
        heads = [curve.point(place, far) for place, far in zip(found, out, strict=True)]
        spots = tuple(
            Spot(
                one,
                feet_around(stitches, number, points, heads, curve.point(found[number], inner)),
                curve.point(found[number], out[number] + PICOT)
                if one.what == "picot"
                else heads[number],
            )
            for number, one in enumerate(stitches)
        )
        inner = max(out)
        seam = curve.point(curve.at(along[0] - SEAM * UNIT), inner - 6)
        rows.append(Laid(reaching(spots, worked_into), row.number, seam))
        tops = [number for number, one in enumerate(stitches) if one.top is not None]
        places, points = [found[number] for number in tops], [heads[number] for number in tops]
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


def _unwound(stitches: Sequence[Placed], places: Sequence[float]) -> list[float | None]:
    """Where each would stand, going on from the one before it; None for what has no feet."""
    found: list[float | None] = []
    last = 0.0
    for one in stitches:
        if not one.feet:
            found.append(None)
            continue
        at = sum(places[foot] for foot in one.feet) / len(one.feet)
        at += _PARTS if at < last - _HALF_WAY else 0
        last = max(last, at)
        found.append(at)
    return found


def _fitting(
    stitches: Sequence[Placed], at: Sequence[float | None], half: float, inner: float
) -> tuple[_Curve, list[float], float]:
    """The tightest round on which the stitches stand outwards, how far along each is, its base."""
    total = (sum(map(width, stitches)) + 2 * SEAM) * UNIT
    tallest = max(height(one) for one in stitches if one.reach is None)
    base = max(inner + OFF, (total - 4 * half) / (2 * pi) - tallest)
    best, leant = (_Curve(half, base + tallest), [0.0] * len(stitches), base), inf
    for _ in range(_MOST_TRIES):
        curve = _Curve(half, base + tallest)
        wanted = _wanted(stitches, at, curve)
        along = spread(stitches, wanted)
        leans = _leans(stitches, along, wanted, curve)
        if leans > leant - _GAIN:
            break  # its straight sides are too short: wider ends do not help them
        best, leant = (curve, along, base), leans
        if leans <= _LEAN:
            break
        base += _WIDEN
    return best


def _leans(
    stitches: Sequence[Placed],
    along: Sequence[float],
    wanted: Sequence[float | None],
    curve: _Curve,
) -> float:
    """How far the worst of them leans, or how far the last comes over the first."""
    pairs = zip(along, wanted, strict=True)
    leaning = max((abs(one - want) for one, want in pairs if want is not None), default=0.0)
    ends = UNIT * (width(stitches[0]) + width(stitches[-1])) / 2
    over = along[-1] - along[0] + ends + 2 * SEAM * UNIT - curve.length()
    return max(leaning, over + _LEAN if over > 0 else 0.0)


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
