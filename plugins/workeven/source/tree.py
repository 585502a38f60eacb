"""The tree of one file: every key and value with its place.

Takes     nothing: records only.
Gives     ``Node``, ``Entry``, ``Source``.
Problems  none.
From      design.md, "YAML, safely and with places": plain scalars stay strings.

A value's characters can be found again in the file, whatever style it was written in. In a ``|``
block each line of the value is the tail of one line of the file (what stands before it is the
indentation), so the first line of the value is the line after the ``|``, and the column is the
difference of the two lengths; no indentation need be worked out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from workeven.problems import Span
from workeven.records import record

#: One character of a quoted scalar, escapes included.
_SINGLE_QUOTED = re.compile(r"''|.", re.DOTALL)
_DOUBLE_QUOTED = re.compile(
    r"\\x[0-9a-fA-F]{2}|\\u[0-9a-fA-F]{4}|\\U[0-9a-fA-F]{8}|\\.|.", re.DOTALL
)

BLOCK, FOLDED, PLAIN, SINGLE, DOUBLE = "|", ">", "", "'", '"'
FLOW_TABLE, FLOW_LIST, BLOCK_TABLE, BLOCK_LIST = "{", "[", ":", "-"


class Node(NamedTuple):
    """A value with its place; lines and columns count from 1.

    ``value`` is the text of a scalar, the nodes of a list or the entries of a table. ``style`` is
    how it was written: ``|`` ``>`` ``'`` ``"`` or nothing for scalars, ``{`` ``[`` ``:`` ``-`` for
    tables and lists. A named tuple, since a file has thousands of them.
    """

    value: str | tuple[Node, ...] | Mapping[str, Entry]
    start: tuple[int, int]
    end: tuple[int, int]
    style: str

    @property
    def empty(self) -> bool:
        """Whether nothing is written (``key:`` with no value behind it)."""
        return self.value == "" and self.style == PLAIN


class Entry(NamedTuple):
    """A key of a table and its value."""

    key: Node
    value: Node


@record
class Source:
    """One file as text and as a tree. ``root`` is a table; ``lines`` are without their ends."""

    file: str
    text: str
    lines: tuple[str, ...]
    root: Node

    def span(self, node: Node) -> Span:
        """Where a node stands; of a block, its first line with ``|``."""
        (line, column), (end_line, end_column) = node.start, node.end
        if node.style in (BLOCK, FOLDED):
            end_line, end_column = line, len(self.lines[line - 1]) + 1
        return Span(
            file=self.file,
            line=line,
            column=column,
            end_line=end_line,
            end_column=end_column,
        )

    def stretch(self, node: Node, start: int, end: int) -> Span:
        """Where characters ``start`` to ``end`` (from 0) of a scalar's text stand.

        A text that YAML folds from several lines has only the place of the whole.
        """
        text = node.value
        if not isinstance(text, str):
            return self.span(node)
        if node.style == BLOCK:
            return self._stretch_of_block(text, node, start, end)
        columns = columns_of(node, self.lines)
        if columns is None:
            return self.span(node)
        last = len(columns) - 1
        return Span(
            file=self.file,
            line=node.start[0],
            column=columns[min(start, last)],
            end_line=node.start[0],
            end_column=columns[min(end, last)],
        )

    def block_lines(self, node: Node) -> Iterator[tuple[str, Span]]:
        """The lines of a ``|`` block that are not blank, each without indentation, each placed."""
        assert isinstance(node.value, str)
        first = node.start[0] + 1
        for offset, text in enumerate(node.value.split("\n")):
            words = text.strip()
            if words:
                line = first + offset
                column = self._block_column(line, text) + text.index(words[0])
                yield (
                    words,
                    Span(
                        file=self.file,
                        line=line,
                        column=column,
                        end_line=line,
                        end_column=column + len(words),
                    ),
                )

    def after_start(self, node: Node) -> str:
        """The rest of the line from the first character of a node."""
        line, column = node.start
        return self.lines[line - 1][column - 1 :]

    def after(self, node: Node) -> str:
        """What stands behind a value on its last line: a comment, as a rule."""
        line, column = node.end
        return self.lines[line - 1][column - 1 :] if line <= len(self.lines) else ""

    def _block_column(self, line: int, text: str) -> int:
        return len(self.lines[line - 1]) - len(text) + 1

    def _stretch_of_block(self, text: str, node: Node, start: int, end: int) -> Span:
        before = text[:start]
        row = before.count("\n")
        line = node.start[0] + 1 + row
        line_start = before.rfind("\n") + 1
        line_end = text.find("\n", line_start)
        whole = text[line_start : line_end if line_end >= 0 else len(text)]
        column = self._block_column(line, whole)
        return Span(
            file=self.file,
            line=line,
            column=column + start - line_start,
            end_line=line,
            end_column=column + min(end - line_start, len(whole)),
        )


def columns_of(node: Node, lines: tuple[str, ...]) -> tuple[int, ...] | None:
    """The column of each character of a one-line scalar and of its end, or None."""
    (line, column), (end_line, end_column) = node.start, node.end
    if line != end_line or node.style in (BLOCK, FOLDED):
        return None
    written = lines[line - 1][column - 1 : end_column - 1]
    if node.style == PLAIN:
        return tuple(range(column, column + len(written) + 1))
    pattern = _SINGLE_QUOTED if node.style == SINGLE else _DOUBLE_QUOTED
    inside = column + 1
    starts = [inside + found.start() for found in pattern.finditer(written[1:-1])]
    return (*starts, end_column - 1)
