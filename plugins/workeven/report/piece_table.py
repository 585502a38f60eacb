"""The rows of a pattern as tables for a terminal: their numbers and their stitches by size.

Takes     ``ProvenPattern``, also one of which rows do not come out.
Gives     ``piece_tables``.
Problems  none.
From      notation.md, "What is reported".
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.problems.words import shown
from workeven.proof import ProvenPattern, ProvenPiece
from workeven.report.table import aligned
from workeven.report.wording import by_size, harmless

#: so much of the words of a row; its line says where the others are
_WORDS = 32


def piece_tables(proven: ProvenPattern) -> str:
    """A table a piece: each line, its stitches in each size, how many rows it is, what it makes.

    A dash is a size that does not work the row, or whose number is open. A piece that mirrors
    another has the rows of that.
    """
    parts: list[str] = []
    for piece in proven.pieces:
        if piece.piece.mirror is not None:
            parts.append(f"{piece.piece.title}: as {piece.piece.mirror}, mirrored.")
            continue
        lines = aligned([_heading(proven), *_rows(piece)])
        parts.append("\n".join([f"{piece.piece.title}:", *(f"  {line}" for line in lines)]))
    return "\n".join(harmless(shown(line)) for part in parts for line in part.split("\n"))


def _heading(proven: ProvenPattern) -> list[str]:
    first, *others = proven.graded.pattern.sizes.names
    named = [f"sts in {first}", *others] if others else ["sts"]
    return ["line", "row", *named, "rows", "makes"]


def _rows(piece: ProvenPiece) -> Iterator[list[str]]:
    for section in piece.sections:
        for row in section.rows:
            words = row.row.text
            times = [None if one is None else one.times for one in row.per_size]
            kinds = dict.fromkeys(name for one in row.per_size if one for name, _ in one.makes)
            yield [
                str(row.row.span.line),
                words if len(words) <= _WORDS else f"{words[: _WORDS - 1]}…",
                *("-" if one is None or one.sts is None else str(one.sts) for one in row.per_size),
                by_size(times),
                ", ".join(kinds),
            ]
