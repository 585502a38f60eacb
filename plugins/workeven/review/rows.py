"""Rows of a piece before and after, each beside the one that it was.

Takes     ``PieceNumbers`` before and after, the sizes that both have.
Gives     ``row_changes``, ``likeness``, ``reworded``.
Problems  none.
From      the longest common parts of two sequences (``difflib``); between them rows are paired by
          their names and places.

A row is the same where it works the same in every size: what stands behind it may be another number
all the same, since a row below has changed. Rows that are neither the same nor paired were put in
or taken out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher

from workeven.review.figures_of import ROWS
from workeven.review.records import Change
from workeven.review.worked_rows import PieceNumbers, RowNumbers

#: a row before and the one that it is now; None where there is none
Pair = tuple[RowNumbers | None, RowNumbers | None]
#: sizes that both have, by their names before and now
SizePairs = Sequence[tuple[str, str]]
#: so long is a row quoted, and what it is called
_LONGEST, _LONGEST_NAME = 200, 48


def row_changes(before: PieceNumbers, after: PieceNumbers, sizes: SizePairs) -> Iterator[Change]:
    """What became of the rows of a piece."""
    for old, new in _pairs(before, after, sizes):
        of, what = _named(after, new or old)
        if old is None or new is None:
            yield from _one_alone(old, new, of, what, sizes)
            continue
        yield from _leaves(old, new, of, what, sizes)
        yield from _works(old, new, of, what, sizes)


def _leaves(
    old: RowNumbers, new: RowNumbers, of: str, what: str, sizes: SizePairs
) -> Iterator[Change]:
    """What there is behind a row, in each size where that is another number."""
    for was, now in sizes:
        if old.leaves[was] != new.leaves[now]:
            yield Change(ROWS, of, what, now, old.leaves[was], new.leaves[now])


def _works(
    old: RowNumbers, new: RowNumbers, of: str, what: str, sizes: SizePairs
) -> Iterator[Change]:
    """What a row works otherwise; not where its count alone says it and its words are the same."""
    for was, now in sizes:
        same_words = old.text == new.text and old.leaves[was] != new.leaves[now]
        if old.worked[was] != new.worked[now] and not same_words:
            yield Change(ROWS, of, what, now, _short(old.said[was]), _short(new.said[now]))


def likeness(before: PieceNumbers, after: PieceNumbers, sizes: SizePairs) -> float:
    """How alike the rows of two pieces are, from 0 to 1: of names for a piece, not of counts."""
    return _matcher(before, after, sizes).ratio()


def reworded(before: PieceNumbers, after: PieceNumbers, sizes: SizePairs) -> int:
    """How many rows have other words, and work the same and leave the same."""
    return sum(
        old.text != new.text
        and all(old.worked[was] == new.worked[now] for was, now in sizes)
        and all(old.leaves[was] == new.leaves[now] for was, now in sizes)
        for old, new in _pairs(before, after, sizes)
        if old is not None and new is not None
    )


def _one_alone(
    old: RowNumbers | None, new: RowNumbers | None, of: str, what: str, sizes: SizePairs
) -> Iterator[Change]:
    """A row that was put in or taken out: its words, and in which sizes where not in all."""
    row = old or new
    assert row is not None
    there = [now for was, now in sizes if row.leaves[was if new is None else now] is not None]
    size = "" if len(there) == len(sizes) else ", ".join(there)
    text = _short(row.text)
    yield Change(ROWS, of, what, size, text if new is None else None, None if new is None else text)


def _named(piece: PieceNumbers, row: RowNumbers | None) -> tuple[str, str]:
    """Where a row stands, and what it is called: by its number, else by its words."""
    assert row is not None
    of = f"{piece.title}, {row.section}" if row.section else piece.title
    return of, row.name or _short(row.text, _LONGEST_NAME)


def _short(text: str, longest: int = _LONGEST) -> str:
    return text if len(text) <= longest else f"{text[: longest - 1].rstrip()}…"


# --- which is which ------------------------------------------------------------------------


def _pairs(before: PieceNumbers, after: PieceNumbers, sizes: SizePairs) -> Iterator[Pair]:
    for tag, first, last, start, end in _matcher(before, after, sizes).get_opcodes():
        old, new = before.rows[first:last], after.rows[start:end]
        if tag == "equal":
            yield from zip(old, new, strict=True)
        else:
            yield from _in_between(old, new)


def _matcher(
    before: PieceNumbers, after: PieceNumbers, sizes: SizePairs
) -> SequenceMatcher[tuple[object, ...]]:
    old = [tuple(row.worked[was] for was, _ in sizes) for row in before.rows]
    new = [tuple(row.worked[now] for _, now in sizes) for row in after.rows]
    return SequenceMatcher(None, old, new, autojunk=False)


def _in_between(old: Sequence[RowNumbers], new: Sequence[RowNumbers]) -> Iterator[Pair]:
    """Rows between those that are the same: as many in order, else those whose words are alike."""
    if len(old) == len(new):
        yield from zip(old, new, strict=True)
        return
    left = list(new)
    for row in old:
        like = max(left, key=lambda one: _alike(row, one), default=None)
        if like is None or _alike(row, like) < _ENOUGH:
            yield row, None
            continue
        for passed in left[: left.index(like)]:
            yield None, passed
        del left[: left.index(like) + 1]
        yield row, like
    for row in left:
        yield None, row


#: so alike are the words of two rows that one has become the other
_ENOUGH = 0.7


def _alike(one: RowNumbers, other: RowNumbers) -> float:
    return SequenceMatcher(None, one.text, other.text, autojunk=False).ratio()
