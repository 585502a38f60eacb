"""One pattern before and after: sizes, figures and rows, with what has another name only.

Takes     ``ReadyPattern`` before and after.
Gives     ``compared``: ``Compared``.
Problems  none.
From      sizes are compared by their names; what is gone and what is new with the same numbers is
          the same thing under another name.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from workeven.pipeline import ReadyPattern
from workeven.records import record
from workeven.review.figures_of import PIECES, TOLD_ONLY, VIDEO, Numbers, numbers
from workeven.review.records import Change, Renamed
from workeven.review.rows import SizePairs, likeness, reworded, row_changes
from workeven.review.words import in_words, renamed_piece
from workeven.review.worked_rows import PieceNumbers, Values

SIZES = "Sizes"
_Figures = Mapping[str, Values]


@record
class Compared:
    """What has other numbers, what has another name, and what is worded otherwise."""

    changes: tuple[Change, ...]
    renamed: tuple[Renamed, ...]
    words: tuple[str, ...]


def compared(before: ReadyPattern, after: ReadyPattern) -> Compared:
    """A pattern before and after."""
    old, new = numbers(before), numbers(after)
    sizes, sizes_renamed = _same_sizes(old, new)
    pieces = tuple(_same_pieces(old, new, sizes))
    changes = [*_of_sizes(old, new, sizes)]
    renamed = list(sizes_renamed)
    titles = {one.title: other.title for one, other in pieces}
    for part in new.figures:
        was = old.figures.get(part, {})
        if part in (PIECES, VIDEO):
            was = {renamed_piece(name, titles): figures for name, figures in was.items()}
        names = _renamed(was, new.figures[part], sizes)
        renamed += (Renamed(part, one, other) for one, other in names.items())
        was = {names.get(name, name): figures for name, figures in was.items()}
        changes += _of_part(part, was, new.figures[part], sizes)
    for one, other in pieces:
        if one.title != other.title:
            renamed.append(Renamed(PIECES, one.title, other.title))
        changes += row_changes(one, other, sizes)
    changes += _pieces_alone(old, new, pieces)
    rows = sum(reworded(one, other, sizes) for one, other in pieces)
    told, words = in_words(before.pattern, after.pattern, dict(titles))
    rows_told = ("1 row" if rows == 1 else f"{rows} rows",) if rows else ()
    return Compared(changes=(*changes, *told), renamed=tuple(renamed), words=(*rows_told, *words))


# --- sizes ---------------------------------------------------------------------------------


def _same_sizes(old: Numbers, new: Numbers) -> tuple[SizePairs, tuple[Renamed, ...]]:
    """The sizes that both have; where as many stand in the place of others, they were renamed."""
    both = [(name, name) for name in new.sizes if name in old.sizes]
    gone = [(at, name) for at, name in enumerate(old.sizes) if name not in new.sizes]
    come = [(at, name) for at, name in enumerate(new.sizes) if name not in old.sizes]
    if len(old.sizes) == len(new.sizes) and [at for at, _ in gone] == [at for at, _ in come]:
        others = [(was, now) for (_, was), (_, now) in zip(gone, come, strict=True)]
        named = tuple(Renamed(SIZES, was, now) for was, now in others)
        return [*both, *others], named
    return both, ()


def _of_sizes(old: Numbers, new: Numbers, sizes: SizePairs) -> Iterator[Change]:
    kept_before, kept_now = [was for was, _ in sizes], [now for _, now in sizes]
    for name in old.sizes:
        if name not in kept_before:
            yield Change(SIZES, name, "", "", name, None)
    for name in new.sizes:
        if name not in kept_now:
            yield Change(SIZES, name, "", "", None, name)
    names = dict(sizes)
    before = [names[name] for name in old.sizes if name in names]
    after = [name for name in new.sizes if name in kept_now]
    if before != after:
        yield Change(SIZES, "order", "", "", ", ".join(before), ", ".join(after))


# --- figures -------------------------------------------------------------------------------


def _of_part(
    part: str, before: Mapping[str, _Figures], after: Mapping[str, _Figures], sizes: SizePairs
) -> Iterator[Change]:
    """What became of the figures of a part: counts, yarns, cautions."""
    for of in dict.fromkeys((*before, *after)):
        was, now = before.get(of, {}), after.get(of, {})
        for what in dict.fromkeys((*was, *now)):
            for size, left, there in _held(was.get(what), now.get(what), sizes):
                if left != there:
                    works = part not in TOLD_ONLY
                    yield Change(part, of, what, size, left, there, numbers=works)


def _held(
    before: Values | None, after: Values | None, sizes: SizePairs
) -> Iterator[tuple[str, str | None, str | None]]:
    """A figure by size before and after; one that is not by size beside the first size's."""
    old, new = before or {}, after or {}
    if set(old) | set(new) <= {""}:
        yield "", old.get(""), new.get("")
        return
    for was, now in sizes:
        yield now, old.get(was, old.get("")), new.get(now, new.get(""))


def _renamed(
    before: Mapping[str, _Figures], after: Mapping[str, _Figures], sizes: SizePairs
) -> dict[str, str]:
    """What is gone and what has come with just its figures, where only one of each is alike."""
    gone = {name: _key(one, sizes, 0) for name, one in before.items() if name not in after}
    come = {name: _key(one, sizes, 1) for name, one in after.items() if name not in before}
    return {
        was: now
        for was, key in gone.items()
        for now, other in come.items()
        if key == other
        and list(gone.values()).count(key) == 1
        and list(come.values()).count(key) == 1
    }


def _key(figures: _Figures, sizes: SizePairs, side: int) -> object:
    """All figures of a thing in the sizes that both have."""
    names = ("", *(pair[side] for pair in sizes))
    return sorted((what, [values.get(name) for name in names]) for what, values in figures.items())


# --- pieces --------------------------------------------------------------------------------

#: so alike are the rows of a piece that has another key now
_ENOUGH = 0.6


def _same_pieces(
    old: Numbers, new: Numbers, sizes: SizePairs
) -> Iterator[tuple[PieceNumbers, PieceNumbers]]:
    """The pieces of both: by their keys, else by their rows."""
    by_key = {one.name: one for one in new.pieces}
    gone = []
    for one in old.pieces:
        if one.name in by_key:
            yield one, by_key.pop(one.name)
        else:
            gone.append(one)
    for one in gone:
        alike = max(
            by_key.values(), key=lambda new_one: likeness(one, new_one, sizes), default=None
        )
        if alike is not None and likeness(one, alike, sizes) >= _ENOUGH:
            yield one, by_key.pop(alike.name)


def _pieces_alone(
    old: Numbers, new: Numbers, pieces: tuple[tuple[PieceNumbers, PieceNumbers], ...]
) -> Iterator[Change]:
    """Pieces that were put in or taken out, with how many rows they have."""
    kept = {one.name for one, _ in pieces}
    there = {other.name for _, other in pieces}
    for one in old.pieces:
        if one.name not in kept:
            yield Change(PIECES, one.title, "rows", "", str(len(one.rows)), None)
    for one in new.pieces:
        if one.name not in there:
            yield Change(PIECES, one.title, "rows", "", None, str(len(one.rows)))
