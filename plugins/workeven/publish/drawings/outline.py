"""The outline of a piece as its proven rows make it: how wide each row is, and how high it lies.

Takes     a ``ProvenPiece``, the gauges, the index of a size.
Gives     ``Outline``, ``outline``, ``Measure``, ``measures``.
Problems  none; a piece without a gauge of rows, or with an open number of rows, has no outline.
From      notation.md, "Whole pieces": a height is the sum of each row's own gauge.

A flat piece is drawn as wide as its rows. A piece worked around a starting chain is a tube, drawn
as it lies flat, half as wide as it goes around. A piece worked in rounds from a centre stands up as
far as its rounds do not grow: a round that is 5 mm high and whose radius grows by 3 mm rises 4 mm
(by Pythagoras). If it hardly rises it is a disc and drawn from above; otherwise it is drawn from
the side. Nothing here decides a count, so a drawing may use floats; the lengths that a page prints
are exact, with 355/113 for the number of the circle.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt
from typing import Literal

from workeven.arithmetic.per_size import PerSize
from workeven.pattern import Gauge, Section
from workeven.proof import ProvenPiece, RowInSize

#: A stand-in for pi, right to seven digits (common knowledge, after Zu Chongzhi).
PI = Fraction(355, 113)
#: A piece from a centre that rises less than this share of its width is shown from above.
FLAT_ENOUGH = 0.1

_SPACE = re.compile(r"ch-(?P<chains>\d+) sp")

Shape = Literal["flat", "tube", "vessel", "disc"]
Place = Literal["start", "end", "widest", "height", "across"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One line as worked, of so many rows: how long the last is, and where they lie, in mm.

    ``before`` is the length of the row before: several rows go evenly from there to ``along``.
    ``yarn`` is the key of the yarn named by the section, "" where none is.
    """

    before: Fraction
    along: Fraction
    bottom: Fraction
    top: Fraction
    times: int
    rounds: bool
    yarn: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One row as drawn: its width, and where it begins and ends above the start, in mm."""

    width: float
    bottom: float
    top: float
    yarn: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A piece in one size, strip above strip from the start up (a disc: from the centre out)."""

    shape: Shape
    strips: tuple[Strip, ...]

    def width(self) -> float:
        """The widest strip in mm."""
        return max(strip.width for strip in self.strips)

    def height(self) -> float:
        """How high the drawing is, in mm; a disc is as high as wide."""
        return self.width() if self.shape == "disc" else self.strips[-1].top


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A length that a drawing shows: what it is, where it is drawn, how long in every size."""

    name: str
    at: Place
    lengths: PerSize[Fraction | None]


def outline(piece: ProvenPiece, gauges: tuple[Gauge, ...], size: int) -> Outline | None:
    """The outline of the piece in the size of that index, or None where it cannot be known."""
    courses = _courses(piece, gauges, size)
    if not courses:
        return None
    if courses[0].rounds and _starts_from_centre(piece, size):
        strips = tuple(_standing_up(courses))
        shape: Shape = "vessel" if _rises(strips) else "disc"
        return Outline(shape=shape, strips=strips)
    strips = tuple(_lying_flat(courses))
    return Outline(shape="tube" if courses[0].rounds else "flat", strips=strips)


def measures(piece: ProvenPiece, gauges: tuple[Gauge, ...], shape: Shape) -> tuple[Measure, ...]:
    """The lengths to letter in the drawing of the piece, each in every size that works it.

    A length that is the same as another along the stitches in every size is not told twice.
    """
    sizes = piece.piece.make.sizes
    by_size = tuple(_courses(piece, gauges, size) for size in range(len(sizes)))
    found: list[Measure] = []
    for name, at, length in _TOLD[shape]:
        lengths = sizes.each(tuple(length(one) if one else None for one in by_size))
        if at == "height" or all(lengths != other.lengths for other in found):
            found.append(Measure(name=name, at=at, lengths=lengths))
    return tuple(found)


# --- what the drawings letter --------------------------------------------------------------


Courses = tuple[Course, ...]


def _start(courses: Courses) -> Fraction:
    return courses[0].along


def _end(courses: Courses) -> Fraction:
    return courses[-1].along


def _widest(courses: Courses) -> Fraction:
    return max(course.along for course in courses)


def _across(courses: Courses) -> Fraction:
    return _end(courses) / PI


def _widest_across(courses: Courses) -> Fraction:
    return _widest(courses) / PI


def _top(courses: Courses) -> Fraction:
    return courses[-1].top


_TOLD: dict[Shape, tuple[tuple[str, Place, Callable[[Courses], Fraction]], ...]] = {
    "flat": (
        ("Width at the start", "start", _start),
        ("Width at the end", "end", _end),
        ("Width at the widest", "widest", _widest),
        ("Length from start to end", "height", _top),
    ),
    "tube": (
        ("Around at the start", "start", _start),
        ("Around at the end", "end", _end),
        ("Around at the widest", "widest", _widest),
        ("Length from start to end", "height", _top),
    ),
    "vessel": (
        ("Across at the end", "end", _across),
        ("Across at the widest", "widest", _widest_across),
    ),
    "disc": (("Across", "across", _across),),
}


# --- from rows to courses ------------------------------------------------------------------


def _courses(piece: ProvenPiece, gauges: tuple[Gauge, ...], size: int) -> tuple[Course, ...]:
    """Every line of the piece in this size; () as soon as one has no count, width or height."""
    named = {gauge.name: gauge for gauge in gauges}
    courses: list[Course] = []
    for section in piece.sections:
        gauge = named.get(section.section.gauge or "")
        for row in section.rows:
            counted = row.per_size[size]
            if counted is None or _is_no_row(counted):
                continue
            if gauge is None or not counted.sts or not counted.times or counted.height is None:
                return ()
            courses.append(_course(courses[-1:], counted, gauge, section.section))
    return tuple(courses)


def _is_no_row(counted: RowInSize) -> bool:
    """Whether the line is a start or an end that makes no row (an open number of rows is one)."""
    return counted.first is None and counted.times is not None


def _course(before: list[Course], counted: RowInSize, gauge: Gauge, section: Section) -> Course:
    along = _along(before, counted, gauge)
    return Course(
        before=before[0].along if before else along,
        along=along,
        bottom=before[0].top if before else Fraction(0),
        top=counted.height or Fraction(0),
        times=counted.times or 1,
        rounds=section.worked != "flat rows",
        yarn=section.yarn or "",
    )


def _along(before: list[Course], counted: RowInSize, gauge: Gauge) -> Fraction:
    """How long a row is: its stitches, and of the chains of its spaces as many as it needs.

    A mesh of 11 dc and 10 ch-1 sps is as wide as the 21 sc below it; a row of loops may bulge, and
    is drawn straight where stitches and chains leave room for it.
    """
    width = gauge.stitch_width()
    least = (counted.sts or 0) * width
    if not before:
        return least
    return max(least, min(before[0].along, least + _chains(counted) * width))


def _chains(counted: RowInSize) -> int:
    """The chains of all spaces that a row makes."""
    spaces = ((_SPACE.fullmatch(name), number) for name, number in counted.makes)
    return sum(int(space["chains"]) * number for space, number in spaces if space)


def _starts_from_centre(piece: ProvenPiece, size: int) -> bool:
    """Whether no round of chains lies before the first round: a ring or a single chain does."""
    lines = [row.per_size[size] for section in piece.sections for row in section.rows]
    before = (line for line in lines if line is not None)
    first = next(before, None)
    return first is None or first.first is not None or not first.sts


# --- from courses to strips ----------------------------------------------------------------


def _rows(course: Course) -> Iterator[tuple[float, float, float]]:
    """Each row of a line: its length, its bottom and its top."""
    bottom, high = float(course.bottom), float(course.top - course.bottom) / course.times
    first, more = float(course.before), float(course.along - course.before) / course.times
    for row in range(1, course.times + 1):
        yield first + more * row, bottom + high * (row - 1), bottom + high * row


def _lying_flat(courses: tuple[Course, ...]) -> Iterator[Strip]:
    for course in courses:
        for along, bottom, top in _rows(course):
            width = along / 2 if course.rounds else along
            yield Strip(width=width, bottom=bottom, top=top, yarn=course.yarn)


def _standing_up(courses: tuple[Course, ...]) -> Iterator[Strip]:
    """Each round rises by what its height has left when its growth outwards is taken away."""
    radius, level = 0.0, 0.0
    for course in courses:
        for along, bottom, top in _rows(course):
            wider = along / float(PI) / 2
            rise = sqrt(max(0.0, (top - bottom) ** 2 - (wider - radius) ** 2))
            yield Strip(width=2 * wider, bottom=level, top=level + rise, yarn=course.yarn)
            radius, level = wider, level + rise


def _rises(strips: tuple[Strip, ...]) -> bool:
    return strips[-1].top > FLAT_ENOUGH * max(strip.width for strip in strips)
