"""Rows walked once more for their colours work what they were counted to work."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import pytest

from tests.test_collection import PATTERNS, verdict
from workeven.notation.tree import Row
from workeven.pipeline import ReadyPattern
from workeven.proof.coloured import Walks, rows_since

COLLECTION = tuple(sorted(path.parent.name for path in PATTERNS.glob("*/pattern.yaml")))


def _no_change(_row: Row) -> tuple[int, ...]:
    return ()


def _ready(slug: str) -> ReadyPattern:
    found = [
        one.ready for one in verdict().outcomes if one.ready and one.ready.pattern.slug == slug
    ]
    assert found[0] is not None
    return found[0]


def _lines(ready: ReadyPattern) -> Iterator[tuple[str, Counter[str], Counter[str]]]:
    """Every line in every size: what it was counted to work, and what its rows work one by one."""
    walks = Walks(ready.proven.graded)
    for piece in ready.proven.pieces:
        before = None
        for row in (row for section in piece.sections for row in section.rows):
            for size, entry in enumerate(row.per_size):
                rows = rows_since(row.behind[size], before.behind[size] if before else None)
                walked: Counter[str] = Counter()
                for one in rows:
                    for each in walks.row_by_row(one, size, _no_change):
                        walked.update(dict(each.stretches[0]))
                if entry is not None and rows:
                    yield row.row.text, Counter(dict(entry.worked)), walked
            before = row


@pytest.mark.parametrize("slug", COLLECTION)
def test_rows_one_by_one_work_what_their_line_does(slug: str) -> None:
    """In every pattern of the collection, in every size: shaping, repeats, yokes and motifs."""
    assert [] == [text for text, counted, walked in _lines(_ready(slug)) if counted != walked]
