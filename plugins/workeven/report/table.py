"""Counted rows as a table for a terminal.

Takes     ``CountedText``.
Gives     ``count_table``; ``aligned``.
Problems  none.
From      notation.md, "What is reported".
"""

from __future__ import annotations

from collections.abc import Sequence

from workeven.problems.words import shown
from workeven.proof.counting import CountedRow, CountedText
from workeven.report.wording import by_size, harmless, kinds

_BETWEEN = "  "
_NOT_COUNTED = "not counted"


def count_table(counted: CountedText) -> str:
    """A line for each row of the text: its line and name, its stitches in each size, what it makes.

    The column "times" is there when a row stands for several. A dash is a size that does not work
    the row, or a number that the text leaves open.
    """
    several = any(_stands_for_several(row) for row in counted.rows)
    heading = ["line", "row", *_size_headings(counted.sizes), *(["times"] if several else [])]
    lines = [_cells(row, several=several) for row in counted.rows]
    return "\n".join(map(harmless, aligned([[*heading, "makes"], *lines])))


def _stands_for_several(row: CountedRow) -> bool:
    return any(times not in {1, None} for times in row.times)


def _size_headings(sizes: tuple[str | None, ...]) -> list[str]:
    """The first says that the numbers are stitches."""
    first, *others = sizes
    return [f"sts in {first}" if first else "sts", *(name or "" for name in others)]


def _cells(row: CountedRow, *, several: bool) -> list[str]:
    times = [by_size(row.times)] if several else []
    counted = any(made is not None for made in row.makes)
    makes = kinds(row.makes) if counted else _NOT_COUNTED
    sts = ["-" if sts is None else str(sts) for sts in row.sts]
    return [str(row.line), row.label or "", *sts, *times, makes]


def aligned(table: list[list[str]]) -> list[str]:
    """Lines of cells as one text: words to the left (names, what is made), numbers to the right.

    The second and the last column are words.
    """
    cleaned = [[shown(cell) for cell in line] for line in table]
    widths = [max(len(cell) for cell in column) for column in zip(*cleaned, strict=True)]
    last = len(widths) - 1
    return [_BETWEEN.join(_set(line, widths, last)).rstrip() for line in cleaned]


def _set(line: Sequence[str], widths: Sequence[int], last: int) -> list[str]:
    return [
        cell.ljust(width) if column in {1, last} else cell.rjust(width)
        for column, (cell, width) in enumerate(zip(line, widths, strict=True))
    ]
