"""The one record of what is wrong in a file, and of a value that may come with problems.

Takes     what a stage found.
Gives     ``Problem`` and ``Checked``.
Problems  every code of the catalogue.
From      nothing: the lowest layer.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Generic, TypeVar

from workeven.records import record

T = TypeVar("T")


class Severity(StrEnum):
    """An error stops the build, advice accompanies a good pattern."""

    ERROR = "error"
    ADVICE = "advice"


@record
class Span:
    """A stretch of one file: lines and columns count from 1, columns in characters.

    ``end_line`` and ``end_column`` name the first character after the stretch. ``made``: a text was
    made from what stands here (rows from a shaping), and its parts have no places of their own.
    """

    file: str
    line: int
    column: int
    end_line: int
    end_column: int
    made: bool = False

    def within(self, start: int, end: int) -> Span:
        """The stretch ``start`` to ``end`` (characters from 0) of this one-line text."""
        if self.made:
            return self
        return Span(
            file=self.file,
            line=self.line,
            column=self.column + start,
            end_line=self.line,
            end_column=self.column + end,
        )


@record
class Note:
    """A second place that explains the problem: "this count was set here"."""

    span: Span
    message: str


@record
class Problem:
    """One mistake in a file, said to a designer.

    ``found`` is the first line and stands alone; ``expected`` says what would have been right
    (may have several lines, one fact a line); ``mend`` alone holds the cure. ``sizes`` are the
    names of the sizes that fail (``None``: it has nothing to do with sizes), ``good_sizes`` those
    that come out. ``excerpt`` is the row or value as written. ``figures`` are the numbers of the
    message, by name, as decimal strings, one a failing size, so that no reader need parse English.
    """

    code: str
    span: Span
    found: str
    expected: str = ""
    mend: str = ""
    piece: str | None = None
    row: str | None = None
    sizes: tuple[str, ...] | None = None
    good_sizes: tuple[str, ...] = ()
    excerpt: str = ""
    notes: tuple[Note, ...] = ()
    figures: tuple[tuple[str, tuple[str, ...]], ...] = ()


@record
class Checked(Generic[T]):
    """What a stage gives: its record, or nothing when it could not be made, and all problems."""

    value: T | None
    problems: tuple[Problem, ...] = ()
