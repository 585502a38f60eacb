"""What changed in a pattern since it was published, for who has begun.

Takes     ``ReadyPattern``.
Gives     ``ChangeView``: ``changes``.
Problems  none.
From      design.md, "A pattern file": ``changes``.
"""

from __future__ import annotations

from workeven.pattern import Change
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenRow, row_address
from workeven.publish.pages import figures, rows
from workeven.publish.pages.views import Link
from workeven.records import record


@record
class ChangeView:
    """One change: its day and version, what it was, the sizes and rows that it is about."""

    day: str
    version: str
    words: str
    sizes: str
    rows: tuple[Link, ...]


def changes(ready: ReadyPattern) -> tuple[ChangeView, ...]:
    """Those of one pattern, in the order of its file; rows are linked as on its own page."""
    words = _row_words(ready) if any(one.rows for one in ready.pattern.changes) else {}
    return tuple(_change(one, words) for one in ready.pattern.changes)


def _change(one: Change, words: dict[str, str]) -> ChangeView:
    return ChangeView(
        day=one.date,
        version=one.version,
        words=one.text,
        sizes=figures.listed(one.sizes),
        rows=tuple(Link(words=words[row.text], url=f"#row-{row.text}") for row in one.rows),
    )


def _row_words(ready: ReadyPattern) -> dict[str, str]:
    """``Mitt, Rnd 4`` by the address of the row."""
    return {
        row_address(piece.piece.name, row.anchor): f"{piece.piece.title}, {_called(row)}"
        for piece in ready.proven.pieces
        for section in piece.sections
        for row in section.rows
    }


def _called(row: ProvenRow) -> str:
    label = row.row.label
    return label.name if label and label.name else rows.number(row) or rows.place(row).lower()
