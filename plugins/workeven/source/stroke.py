"""Rows that begin below ``rows:`` and have no ``|`` behind it, as lines of text show it.

Takes     the lines of a file, and the one at which YAML gave up.
Gives     ``rows_without_stroke``: the line and column of the key; ``NO_STROKE``, ``WITH_STROKE``.
Problems  none.
From      design.md, "A pattern file": why rows are a text block.

YAML then reads rows as keys, lists and tables, and gives up where one of them is none: often in the
second row, which is as good as the first.
"""

from __future__ import annotations

import re

NO_STROKE = "The rows below `rows` are several lines, and no `|` says so."
WITH_STROKE = "Write `rows: |`, and below it the rows, one a line, with nothing in front of them."

_ROWS = re.compile(r"(?P<indent>\s*(?:- +)?)rows(?P<colon>:?)(?:\s+(?P<value>.*))?$")
#: an item of a list of rows, with what belongs to it
_TABLE_ITEM = re.compile(r"\s*- +(?:\{|(?:work|note|video|picture|alt):(?:\s|$))")
#: a key of a section or a piece: there the rows are over
_NEXT_KEY = re.compile(r"\s*(?:- +)?[a-z_]+:(?:\s|$)")


def rows_without_stroke(lines: tuple[str, ...], line: int) -> tuple[int, int] | None:
    """Where the ``rows`` stands that a broken line belongs to, if no ``|`` follows it.

    >>> rows_without_stroke(("rows:", "  Row 1: ch 3", "  sc in each st"), 3)
    (1, 1)
    >>> rows_without_stroke(("rows: |", "  ch 3", " sc in each st"), 3)
    """
    broken = lines[line - 1]
    indent = _indent(broken)
    if _NEXT_KEY.match(broken) and not _ROWS.match(broken):
        return None
    for number in range(line if _ROWS.match(broken) else line - 1, 0, -1):
        text = lines[number - 1]
        rows = _ROWS.match(text)
        if rows is not None:
            at = number, rows.end("indent") + 1
            return at if _has_no_stroke(rows, lines[number:]) else None
        bare = text.strip() and not text.lstrip().startswith("#")
        if bare and (_indent(text) < indent or _TABLE_ITEM.match(text) or _NEXT_KEY.match(text)):
            return None
    return None


def _has_no_stroke(rows: re.Match[str], below: tuple[str, ...]) -> bool:
    """Whether text begins behind the key or below it, and no list of ours."""
    value = (rows["value"] or "").strip()
    if not rows["colon"]:
        return value[:1] in ("|", ">", "")
    if value and not value.startswith("#"):
        return value[0] not in "|>[{\"'*&!0123456789"  # a number: the rows of a gauge
    first = next((text for text in below if text.strip()), "")
    least = len(rows["indent"])
    return bool(first) and _indent(first) >= least and not _TABLE_ITEM.match(first)


def _indent(text: str) -> int:
    return len(text) - len(text.lstrip())
