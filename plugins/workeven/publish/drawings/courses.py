"""The lines of a piece as worked in one size: how long each is, and how high it lies.

Takes     a ``ProvenPiece``, the gauges, the index of a size.
Gives     ``Course``, ``courses_of``, ``row_lengths``.
Problems  none; a piece without a gauge of rows, or with an open number of rows, has no courses, nor
          has one that is gone on with along the ends of its rows.
From      notation.md, "Whole pieces": a height is the sum of each row's own gauge.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from workeven.notation.tree import Row, WorkedRow
from workeven.pattern import Gauge
from workeven.proof import ProvenPiece, RowInSize
from workeven.proof.facts import facts_of
from workeven.records import record

_SPACE = re.compile(r"ch-(?P<chains>\d+) sp")


@record
class Course:
    """One line as worked, of so many rows: how long the last is, and where they lie, in mm.

    ``before`` is the length of the row before: several rows go evenly from there to ``along``.
    ``stitch`` is the width of a stitch. ``yarn`` is the key of the yarn named by the section, ""
    where none is; ``section`` the index of the section.
    """

    before: Fraction
    along: Fraction
    bottom: Fraction
    top: Fraction
    times: int
    stitch: Fraction
    rounds: bool
    yarn: str
    section: int


def courses_of(piece: ProvenPiece, gauges: tuple[Gauge, ...], size: int) -> tuple[Course, ...]:
    """Every line of the piece in this size; () as soon as one has no count, width or height."""
    named = {gauge.name: gauge for gauge in gauges}
    courses: list[Course] = []
    for number, proven in enumerate(piece.sections):
        section = proven.section
        gauge = named.get(section.gauge or "")
        row_height = None if gauge is None else gauge.row_height()
        width = None if gauge is None else gauge.stitch_width()
        lengths: dict[int, Fraction] = {}  # many rows of a section have as many stitches
        for row in proven.rows:
            counted = row.per_size[size]
            if counted is None or _is_no_row(counted):
                continue
            if width is None or row_height is None or not counted.sts or not counted.times:
                return ()
            if counted.height is None:
                return ()
            least = lengths.get(counted.sts)
            if least is None:
                least = lengths[counted.sts] = counted.sts * width
            along = _along(courses[-1].along if courses else least, counted, width, least)
            high = row_height if counted.times == 1 else counted.times * row_height
            if courses and counted.height < courses[-1].top and _goes_sideways(row.row):
                return ()
            courses.append(
                Course(
                    before=courses[-1].along if courses else along,
                    along=along,
                    bottom=counted.height - high,
                    top=counted.height,
                    times=counted.times,
                    stitch=width,
                    rounds=section.worked != "flat rows",
                    yarn=section.yarn or "",
                    section=number,
                )
            )
    return tuple(courses)


def row_lengths(course: Course) -> Iterator[tuple[float, float, float]]:
    """Each row of a line: its length, its bottom and its top."""
    bottom, high = float(course.bottom), float(course.top - course.bottom) / course.times
    first, more = float(course.before), float(course.along - course.before) / course.times
    for row in range(1, course.times + 1):
        yield first + more * row, bottom + high * (row - 1), bottom + high * row


def _goes_sideways(row: Row) -> bool:
    """Whether a row is worked along the ends of rows."""
    body = row.body
    return isinstance(body, WorkedRow) and facts_of(body.steps).along_rows


def _is_no_row(counted: RowInSize) -> bool:
    """Whether the line makes no row: a start, an end, or a row worked again no more times.

    An open number of rows is one.
    """
    return counted.times == 0 or (counted.first is None and counted.times is not None)


def _along(before: Fraction, counted: RowInSize, width: Fraction, least: Fraction) -> Fraction:
    """How long a row is: its stitches, and of the chains of its spaces as many as it needs.

    ``before`` is the length of the row before, ``least`` that of the stitches alone.

    A mesh of 11 dc and 10 ch-1 sps is as wide as the 21 sc below it; a row of loops may bulge, and
    is drawn straight where stitches and chains leave room for it.
    """
    if before is least or before <= least:
        return least
    chains = _chains(counted)
    return min(before, least + chains * width) if chains else least


def _chains(counted: RowInSize) -> int:
    """The chains of all spaces that a row makes."""
    spaces = ((_SPACE.fullmatch(name), number) for name, number in counted.makes)
    return sum(int(space["chains"]) * number for space, number in spaces if space)
