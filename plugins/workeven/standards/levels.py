"""The published scale of how demanding a project is.

Takes     the CSV file ``project_levels.csv`` beside it.
Gives     ``ProjectLevel``, ``project_levels``.
Problems  none.
From      the sources named in the column ``citation``; the meanings are told in words of our own.

A level is the project's, not the maker's. The older scale is kept beside the current one.
"""

from __future__ import annotations

from functools import cache
from typing import Literal, cast

from workeven.records import record
from workeven.standards.tables import Origin, origin, rows


@record
class ProjectLevel:
    """A level of one edition of the scale and what it means."""

    edition: Literal["current", "old"]
    name: str
    meaning: str
    origin: Origin


@cache
def project_levels() -> tuple[ProjectLevel, ...]:
    """All levels, the least demanding of each edition first.

    >>> [one.name for one in project_levels() if one.edition == "current"]
    ['Basic', 'Easy', 'Intermediate', 'Complex']
    """
    return tuple(
        ProjectLevel(
            edition=cast('Literal["current", "old"]', row["edition"]),
            name=row["level"],
            meaning=row["meaning"],
            origin=origin(row),
        )
        for row in rows("project_levels.csv")
    )
