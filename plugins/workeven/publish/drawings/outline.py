"""The outline of a piece as its proven rows make it: how wide each row is, and where it lies.

Takes     a ``ProvenPiece``, the gauges, the index of a size, how its rows lie there.
Gives     ``Outline``, ``outline``.
Problems  none; a piece without a gauge of rows, or with an open number of rows, has no outline.
From      notation.md, "Whole pieces"; the geometry of cones and discs is common knowledge.

A flat piece is drawn as its rows lie on one another (``placing``). A piece worked around a starting
chain is a tube, drawn as it lies flat, half as wide as it goes around; one that widens evenly and
fast, as a yoke does, is opened out: cut along one line it lies flat as a part of a ring, in which
each round is an arc of its own length. A piece worked in rounds from a centre stands up as far as
its rounds do not grow: a round that is 5 mm high and whose radius grows by 3 mm rises 4 mm (by
Pythagoras). If it hardly rises it is a disc and drawn from above; otherwise it is drawn from the
side. Nothing here decides a count, so a drawing may use floats; the lengths that a page prints
are exact, with 355/113 for the number of the circle.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import cos, pi, sin, sqrt
from typing import Literal

from workeven.pattern import Gauge
from workeven.proof import Lie, ProvenPiece
from workeven.publish.drawings.courses import Course, courses_of, row_lengths
from workeven.publish.drawings.placing import Strip, placed
from workeven.records import record, replace

#: A stand-in for pi, right to seven digits (common knowledge, after Zu Chongzhi).
PI = Fraction(355, 113)
#: A piece from a centre that rises less than this share of its width is shown from above.
FLAT_ENOUGH = 0.1
#: A tube that widens by so much more than this for each unit of height is opened out, if none of
#: its rounds is longer or shorter than even widening makes it by more than this share.
FAST, EVEN = 1.2, 0.12

Shape = Literal["flat", "tube", "vessel", "disc", "opened"]


@record
class Arc:
    """One round of a piece that is opened out: its radius and thickness in mm, its angle."""

    radius: float
    thick: float
    angle: float
    yarn: str


@record
class Outline:
    """A piece in one size, strip above strip from the start up (a disc: from the centre out).

    ``arcs`` are the rounds of a piece that is opened out, which has no strips.
    """

    shape: Shape
    strips: tuple[Strip, ...] = ()
    arcs: tuple[Arc, ...] = ()

    def width(self) -> float:
        """How wide the drawing is, in mm."""
        if self.arcs:
            return 2 * max(
                (arc.radius + arc.thick / 2) * sin(min(arc.angle, pi) / 2) for arc in self.arcs
            )
        left = min(strip.left for strip in self.strips)
        return max(strip.right for strip in self.strips) - left

    def height(self) -> float:
        """How high the drawing is, in mm; a disc is as high as wide."""
        if self.arcs:
            return max(arc.radius + arc.thick / 2 for arc in self.arcs) - self.lowest()
        return self.width() if self.shape == "disc" else max(strip.top for strip in self.strips)

    def lowest(self) -> float:
        """How far above its centre an opened piece begins, in mm (below zero: under it)."""
        return min(_lowest(arc) for arc in self.arcs)


def outline(
    piece: ProvenPiece, gauges: tuple[Gauge, ...], size: int, lying: tuple[Lie, ...] = ()
) -> Outline | None:
    """The outline of the piece in the size of that index, or None where it cannot be known.

    ``lying`` is how its rows lie on one another; without it each is set in the middle.
    """
    courses = courses_of(piece, gauges, size)
    if not courses:
        return None
    if courses[0].rounds and _starts_from_centre(piece, size):
        strips = tuple(_standing_up(courses))
        shape: Shape = "vessel" if _rises(strips) else "disc"
        return Outline(shape=shape, strips=strips)
    if _opens_out(courses, lying):
        return Outline(shape="opened", arcs=tuple(_arcs(courses)))
    strips = placed(courses, lying)
    if piece.piece.mirror is not None:
        strips = tuple(replace(one, left=-one.right, right=-one.left) for one in strips)
    return Outline(shape="tube" if courses[0].rounds else "flat", strips=strips)


def _starts_from_centre(piece: ProvenPiece, size: int) -> bool:
    """Whether no round of chains lies before the first round: a ring or a single chain does."""
    lines = [row.per_size[size] for section in piece.sections for row in section.rows]
    before = (line for line in lines if line is not None)
    first = next(before, None)
    return first is None or first.first is not None or not first.sts


# --- from a centre -------------------------------------------------------------------------


def _standing_up(courses: tuple[Course, ...]) -> Iterator[Strip]:
    """Each round rises by what its height has left when its growth outwards is taken away."""
    radius, level = 0.0, 0.0
    for course in courses:
        for along, bottom, top in row_lengths(course):
            wider = along / float(PI) / 2
            rise = sqrt(max(0.0, (top - bottom) ** 2 - (wider - radius) ** 2))
            yield Strip(left=-wider, right=wider, bottom=level, top=level + rise, yarn=course.yarn)
            radius, level = wider, level + rise


def _rises(strips: tuple[Strip, ...]) -> bool:
    return strips[-1].top > FLAT_ENOUGH * max(strip.width for strip in strips)


# --- opened out ----------------------------------------------------------------------------


def _widens(courses: tuple[Course, ...]) -> float:
    """By how much a round is longer than one that lies so much lower, per unit of height.

    That is the angle, in radians, at which the piece lies when it is opened out.
    """
    first, last = courses[0], courses[-1]
    rise = float(last.top - first.top)
    return float(last.along - first.along) / rise if rise > 0 else 0.0


def _opens_out(courses: tuple[Course, ...], lying: tuple[Lie, ...]) -> bool:
    """Whether it is all of rounds that widen, or narrow, evenly and fast."""
    whole = all(course.rounds for course in courses) and all(one.onto is None for one in lying)
    widens = _widens(courses)
    if not whole or abs(widens) < FAST:
        return False
    first = courses[0]
    most = EVEN * float(max(course.along for course in courses))
    evenly = (
        float(first.along) + widens * float(course.top - first.top) - float(course.along)
        for course in courses
    )
    return all(abs(off) <= most for off in evenly)


def _arcs(courses: tuple[Course, ...]) -> Iterator[Arc]:
    """Each round as an arc about the point in which the widening would have begun."""
    widens = _widens(courses)
    inner = abs(float(courses[0].along) / widens)
    outwards = 1 if widens > 0 else -1
    start = float(courses[0].top)
    for course in courses:
        for along, bottom, top in row_lengths(course):
            radius = max(inner + outwards * ((bottom + top) / 2 - start), (top - bottom) / 2)
            yield Arc(
                radius=radius,
                thick=top - bottom,
                angle=min(along / radius, 2 * pi),
                yarn=course.yarn,
            )


def _lowest(arc: Arc) -> float:
    """The lowest point of an arc that stands with its middle straight above its centre."""
    inner, outer = arc.radius - arc.thick / 2, arc.radius + arc.thick / 2
    foot = cos(arc.angle / 2)
    return foot * (inner if foot > 0 else outer)
