"""Where each row of a flat piece lies, so that a front is drawn with its neck at one edge.

Takes     the courses of a piece, and how its rows lie on one another.
Gives     ``Strip``, ``placed``.
Problems  none: where it is not known how rows lie, each is set in the middle.
From      nothing outside: common practice, for right-handers. A right-side row goes from right to
          left as one looks at it, the next from left to right.

Each row begins where the row below begins, moved by what is added or left there, and ends in the
same way; what a row grows in its middle goes half to each side. A row that takes up what an earlier
row has left lies on that rest: a second shoulder on the stitches behind the first and the neck.
Rounds are drawn as they lie flat, half as wide as they go around; a part that is worked around from
skipped stitches, a thumb or a sleeve, stands beside the piece, as high as it begins.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from workeven.proof import Lie
from workeven.publish.drawings.courses import Course, row_lengths
from workeven.records import record, replace

#: The room between a piece and a part that stands beside it, as a share of the part's width.
BESIDE = 0.35
#: Lengths (mm) that differ less are the same.
_SAME = 0.01


@record
class Strip:
    """One row as drawn, in mm from the middle of the first and above the start."""

    left: float
    right: float
    bottom: float
    top: float
    yarn: str

    @property
    def width(self) -> float:
        """How wide it is, in mm."""
        return self.right - self.left


@dataclass(slots=True)
class _Lying:
    """The rows placed so far: where each numbered row lies, which way it goes, what it left.

    ``rests``: by the number of a row, the stretch of it that is still to be taken up.
    ``ways``: whether the row of that number goes from right to left.
    """

    rows: dict[int, tuple[float, float]] = field(default_factory=dict)
    ways: dict[int, bool] = field(default_factory=dict)
    rests: dict[int, tuple[float, float]] = field(default_factory=dict)
    last: tuple[float, float] | None = None
    leftwards: bool = False
    parts: int = 0


def placed(courses: Sequence[Course], lies: Sequence[Lie]) -> tuple[Strip, ...]:
    """Every row, the first set in the middle."""
    rows = sum(course.times for course in courses)
    known = list(lies) if len(lies) == rows else [None] * rows
    lying, strips, at = _Lying(), [], 0
    for course in courses:
        those = known[at : at + course.times]
        at += course.times
        for (along, bottom, top), lie in zip(_lengths(course, those), those, strict=True):
            width = along / 2 if course.rounds else along
            left, right = _place(lying, width, lie, course)
            strip = Strip(left=left, right=right, bottom=bottom, top=top, yarn=course.yarn)
            strips.append(strip)
    return _beside(strips)


def _lengths(course: Course, lies: Sequence[Lie | None]) -> Iterator[tuple[float, float, float]]:
    """Each row of a line; with what it is known to add or leave, else going evenly."""
    changes = [0 if lie is None else lie.edges.start + lie.edges.end for lie in lies]
    told = float(course.before) + sum(changes) * float(course.stitch)
    even = row_lengths(course)
    if abs(told - float(course.along)) > _SAME or not any(changes):
        yield from even
        return
    along = float(course.before)
    for change, (_, bottom, top) in zip(changes, even, strict=True):
        along += change * float(course.stitch)
        yield along, bottom, top


# --- one row -------------------------------------------------------------------------------


def _place(lying: _Lying, width: float, lie: Lie | None, course: Course) -> tuple[float, float]:
    """Where the row lies; what lies below moves on to it."""
    if lying.last is None or lie is None:
        spot = _around(0.0, width)
        lying.leftwards = not lying.leftwards
    elif lie.mirrored and lie.onto in lying.rows and lie.number in lying.rows:
        (left, right), first = lying.rows[lie.onto], lying.rows[lie.number]
        spot = left + right - first[1], left + right - first[0]
    elif lie.onto is not None and lie.onto in lying.rows:
        spot = _on_rest(lying, width, lie, lie.onto, course)
    else:
        lying.leftwards = not lying.leftwards
        spot = _on(lying.last, width, lie, course, leftwards=lying.leftwards)
    lying.last = spot
    if lie is not None and lie.number is not None:
        lying.rows[lie.number], lying.ways[lie.number] = spot, lying.leftwards
    return spot


def _on(
    below: tuple[float, float], width: float, lie: Lie, course: Course, *, leftwards: bool
) -> tuple[float, float]:
    """A row on a stretch: its edges moved, and what else it grows half to each side."""
    stitch = float(course.stitch)
    start, end = lie.edges.start * stitch, lie.edges.end * stitch
    left, right = below
    left, right = (left - end, right + start) if leftwards else (left - start, right + end)
    return _around((left + right) / 2, width)


def _on_rest(
    lying: _Lying, width: float, lie: Lie, onto: int, course: Course
) -> tuple[float, float]:
    """A row on what an earlier row has left: it goes the way of the row that left it."""
    if course.rounds:
        return _around(_next_to(lying, width), width)
    leftwards = lying.ways.get(onto + 1, not lying.ways[onto])
    left, right = lying.rows[onto]
    first = lying.rows.get(onto + 1, (left, right))
    rest = lying.rests.get(onto, (left, first[0]) if leftwards else (first[1], right))
    if rest[1] - rest[0] <= _SAME:
        rest = (left, right)
    lying.leftwards = leftwards
    spot = _on(rest, width, lie, course, leftwards=leftwards)
    lying.rests[onto] = (rest[0], spot[0]) if leftwards else (spot[1], rest[1])
    return spot


def _next_to(lying: _Lying, width: float) -> float:
    """The middle of a part worked around beside the piece: the first right of it, then left."""
    lying.parts += 1
    away = width * (BESIDE + 0.5)
    if lying.parts % 2:
        return max(right for _, right in lying.rows.values()) + away
    return min(left for left, _ in lying.rows.values()) - away


def _around(middle: float, width: float) -> tuple[float, float]:
    return middle - width / 2, middle + width / 2


def _beside(strips: list[Strip]) -> tuple[Strip, ...]:
    """All strips moved so that the drawing has its middle at 0."""
    if not strips:
        return ()
    left, right = min(one.left for one in strips), max(one.right for one in strips)
    move = (left + right) / 2
    if abs(move) <= _SAME:
        return tuple(strips)
    return tuple(replace(one, left=one.left - move, right=one.right - move) for one in strips)
