"""The lengths that the drawing of a piece letters, each in every size.

Takes     a ``ProvenPiece``, the gauges, the shape in which it is drawn.
Gives     ``Measure``, ``measures``.
Problems  none.
From      notation.md, "Whole pieces": lengths follow from counts and rows alone.

Besides the whole width and length, a piece of several sections tells how long and how wide it is
where each of them ends: to the armhole, to the neck.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Literal

from workeven.arithmetic.per_size import PerSize
from workeven.pattern import Gauge
from workeven.proof import ProvenPiece
from workeven.publish.drawings.courses import Course, courses_of
from workeven.publish.drawings.outline import PI, Shape
from workeven.records import record

Place = Literal["start", "end", "widest", "height", "across", "level", "wide at level"]
Courses = tuple[Course, ...]

#: More letters than this say less: those of sections come last and are left out first.
MOST = 10


@record
class Measure:
    """A length that a drawing shows: what it is, where it is drawn, how long in every size.

    ``levels`` (mm above the start, one a size) says where a section ends, None for other places.
    """

    name: str
    at: Place
    lengths: PerSize[Fraction | None]
    levels: PerSize[Fraction | None] | None = None


def measures(piece: ProvenPiece, gauges: tuple[Gauge, ...], shape: Shape) -> tuple[Measure, ...]:
    """The lengths to letter in the drawing of the piece, each in every size that works it.

    A length that is the same as another along the stitches in every size is not told twice.
    """
    sizes = piece.piece.make.sizes
    by_size = tuple(courses_of(piece, gauges, size) for size in range(len(sizes)))
    found: list[Measure] = []
    for name, at, length in _TOLD[shape]:
        lengths = sizes.each(tuple(length(one) if one else None for one in by_size))
        if at == "height" or all(lengths != other.lengths for other in found):
            found.append(Measure(name=name, at=at, lengths=lengths))
    if shape in _WIDTHS:
        for measure in _of_sections(piece, by_size, _WIDTHS[shape]):
            if all(measure.lengths != other.lengths for other in found):
                found.append(measure)
    return tuple(found[:MOST])


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
    return max(course.top for course in courses)


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
    "opened": (
        ("Around at the start", "start", _start),
        ("Around at the end", "end", _end),
        ("Depth from start to end", "height", _top),
    ),
    "vessel": (
        ("Across at the end", "end", _across),
        ("Across at the widest", "widest", _widest_across),
    ),
    "disc": (("Across", "across", _across),),
}
#: What a width is called where a section ends, in the shapes that tell it.
_WIDTHS: dict[Shape, str] = {"flat": "Width", "tube": "Around"}


def _of_sections(piece: ProvenPiece, by_size: tuple[Courses, ...], width: str) -> Iterator[Measure]:
    """How long and how wide the piece is where a section ends that others follow."""
    sizes = piece.piece.make.sizes
    for at, proven in enumerate(piece.sections[:-1]):
        lasts = [_last_of(courses, at) for courses in by_size]
        title = proven.section.title
        if not title or any(
            last is None for last, all_ in zip(lasts, by_size, strict=True) if all_
        ):
            continue
        levels = sizes.each(tuple(None if one is None else one.top for one in lasts))
        along = sizes.each(tuple(None if one is None else one.along for one in lasts))
        where = f"the end of “{title}”"
        yield Measure(name=f"Length to {where}", at="level", lengths=levels, levels=levels)
        yield Measure(name=f"{width} at {where}", at="wide at level", lengths=along, levels=levels)


def _last_of(courses: Courses, section: int) -> Course | None:
    """The last line of a section, where it has one in this size."""
    return next((one for one in reversed(courses) if one.section == section), None)
