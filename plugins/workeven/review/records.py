"""What a review gives: for each pattern what changed, what has another name, what is words alone.

Takes     nothing: records only.
Gives     ``Review``, ``PatternReview``, ``Change``, ``Renamed``.
Problems  none.
From      design.md, "A pattern file": ``version``, ``changes``, ``formerly``.
"""

from __future__ import annotations

from typing import Literal

from workeven.problems import Problem
from workeven.records import record, record_by_position

Status = Literal["changed", "words", "same", "new", "gone", "not compared"]


@record_by_position
class Change:
    """One number that is another one now, in one size.

    ``part`` is what it is of ("Counts", "Rows"), ``of`` the count, piece or yarn, ``what`` the row
    or figure there. ``size`` is a size's name, "" where the figure is not by size. ``before`` or
    ``after`` is None where there was, or is, no such figure. ``numbers`` False: it is told, and a
    published pattern need not say so (an abbreviation, a caution, the level).
    """

    part: str
    of: str
    what: str
    size: str
    before: str | None
    after: str | None
    numbers: bool = True


@record_by_position
class Renamed:
    """Something that has another name now, with all its numbers."""

    part: str
    before: str
    after: str


@record
class PatternReview:
    """What became of one pattern.

    ``slug`` is its folder now, or as it was where it is gone; ``was`` its folder before where that
    was another. ``published``: it was, before the change. ``versions`` are that before and now;
    ``note`` is what the file says of the new version. ``words`` tells what is worded otherwise,
    ``pictures`` what became of them.
    ``why_not`` says in a sentence why it was not compared.
    """

    slug: str
    file: str
    title: str
    status: Status
    was: str | None = None
    published: bool = False
    versions: tuple[str, str] | None = None
    note: str = ""
    sizes: tuple[str, ...] = ()
    renamed: tuple[Renamed, ...] = ()
    changes: tuple[Change, ...] = ()
    words: tuple[str, ...] = ()
    pictures: tuple[str, ...] = ()
    why_not: str = ""


@record
class Review:
    """All patterns of both sides, and what is wrong with how the change is told."""

    patterns: tuple[PatternReview, ...]
    problems: tuple[Problem, ...]

    @property
    def whole(self) -> bool:
        """Whether every pattern could be compared."""
        return all(one.status != "not compared" for one in self.patterns)
