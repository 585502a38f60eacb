"""How the published tables are read: their rows, where a value comes from, their known faults.

Takes     the CSV files of the package, through ``packaged``.
Gives     ``Origin``, ``Status``, ``Fault``, ``faults``; ``rows``, ``origin``, ``integer``,
          ``exact``, ``listed``.
Problems  none.
From      the sources named in the column ``citation``.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from functools import cache
from typing import Literal, cast

from workeven import packaged
from workeven.records import record

Status = Literal["found", "second-hand", "memory"]


@record
class Origin:
    """Where a value was published, how we know, and what is to be said about it."""

    citation: str
    status: Status
    note: str


@record
class Fault:
    """A value of a table that is known to be wrong or doubtful, kept and named.

    In a body chart ``sizes`` and ``measurements`` say which values it concerns.
    """

    file: str
    where: str
    fault: str
    sizes: tuple[str, ...] = ()
    measurements: tuple[str, ...] = ()


@cache
def faults() -> tuple[Fault, ...]:
    """What is known to be wrong or doubtful in these tables."""
    return tuple(
        Fault(
            file=row["file"],
            where=row["where"],
            fault=row["fault"],
            sizes=listed(row["sizes"]),
            measurements=listed(row["measurements"]),
        )
        for row in rows("faults.csv")
    )


def rows(name: str) -> list[dict[str, str]]:
    """The rows of a table by its headings."""
    text = packaged.text(f"standards/{name}")
    return list(csv.DictReader(text.splitlines(), strict=True))


def origin(row: dict[str, str]) -> Origin:
    """Where the values of a row come from."""
    return Origin(
        citation=row["citation"],
        status=cast("Status", row["status"]),
        note=row.get("note", ""),
    )


def listed(text: str) -> tuple[str, ...]:
    """``S; M`` as its parts."""
    return tuple(filter(None, text.split("; ")))


def integer(text: str) -> int | None:
    """A whole number, or None where the cell is empty."""
    return int(text) if text else None


def exact(text: str) -> Fraction | None:
    """A number, or None where the cell is empty."""
    return Fraction(text) if text else None
