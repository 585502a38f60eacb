"""Whole pieces by writers who knew neither the code nor the guide, against their own counts.

What was read once is read ever after: a word that is given a new meaning must leave these alone.
The pieces are made up; every expected number is its writer's, none is the engine's.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.support import plain_rows
from workeven.problems import Severity
from workeven.problems.catalogue import severity
from workeven.proof.counting import CountedRow

_PIECE = re.compile(
    r"^## ([^\n]+)\n\n```rows\n(.+?)```\n\n```counts\n(.+?)```\n", re.MULTILINE | re.DOTALL
)
_COUNT = re.compile(r"(\d+): (\d+) = .+")
#: fewer would mean that a file was not read
_AT_LEAST = 250


class Piece(NamedTuple):
    """One piece: its rows with their options, and line by line how many the writer counted."""

    name: str
    rows: str
    counts: tuple[tuple[int, int], ...]


def _pieces() -> list[Piece]:
    found: list[Piece] = []
    for path in sorted(Path(__file__).parent.glob("*.md")):
        for name, rows, counts in _PIECE.findall(path.read_text(encoding="utf-8")):
            lines = [_COUNT.fullmatch(line) for line in counts.splitlines()]
            told = tuple([(int(line[1]), int(line[2])) for line in lines if line is not None])
            assert len(told) == len(lines), name
            found.append(Piece(name, rows, told))
    return found


_PIECES = _pieces()


@pytest.mark.parametrize("piece", _PIECES, ids=[piece.name for piece in _PIECES])
def test_counted_as_its_writer_counted(piece: Piece) -> None:
    """Row by row, without an error."""
    counted = plain_rows.count(piece.rows)
    problems = [(one.span.line, one.code) for one in counted.problems]
    assert [told for told in problems if severity(told[1]) is Severity.ERROR] == []
    assert counted.value is not None
    rows = {row.line: row for row in counted.value.rows}
    assert [(line, _in_all(rows[line])) for line, _ in piece.counts] == list(piece.counts)


def test_all_files_are_read() -> None:
    """The pieces stand in Markdown: a slip in it would hide some."""
    assert len(_PIECES) >= _AT_LEAST


def _in_all(row: CountedRow) -> int:
    """The stitches of a row, and the chains of its spaces; picots stand on the stitches."""
    (made,) = row.makes
    assert made is not None
    return sum(count * _chains(kind) for kind, count in made if kind != "picot")


def _chains(kind: str) -> int:
    space = re.match(r"ch-(\d+) (?:sp|lp)", kind)
    return 1 if space is None else int(space[1])
