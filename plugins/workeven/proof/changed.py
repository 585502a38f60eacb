"""Whether the rows that ``changes`` name are there.

Takes     ``ProvenPattern``.
Gives     ``rows_changed``.
Problems  ``change-row``.
From      design.md, "A pattern file": ``changes``.
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.problems import Problem
from workeven.problems.words import did_you_mean, quote
from workeven.proof.addresses import row_address
from workeven.proof.proven import ProvenPattern


def rows_changed(proven: ProvenPattern) -> Iterator[Problem]:
    """Each row that a change names, and the pattern does not have."""
    changes = proven.graded.pattern.changes
    if not any(change.rows for change in changes):
        return
    there = {
        row_address(piece.piece.name, row.anchor)
        for piece in proven.pieces
        for section in piece.sections
        for row in section.rows
    }
    for name in (name for change in changes for name in change.rows):
        if name.text not in there:
            yield Problem(
                code="change-row",
                span=name.span,
                found=f"There is no row {quote(name.text)}.",
                expected="What stands behind `#row-` in the address of a row: its piece, a dot, "
                "its part, and its name or its place in the part.",
                mend=did_you_mean(name.text, sorted(there))
                or "Copy it from the row's own link on the page; leave out a row that is gone.",
            )
