"""Whether there are as many buttons as holes.

Takes     ``Pattern``, its counts in every size.
Gives     ``buttons_of_holes``.
Problems  ``notion-buttons``.
From      design.md, ``sections``: ``holes``; ``notions``.

Holes are counted where a section tells them as data, as often as its piece is made; those that rows
work in words are not known as holes. A pattern without buttons may have holes for a cord; where one
lists a cord beside its buttons, only holes of a section whose title says ``button`` are theirs.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from workeven.arithmetic.per_size import PerSize
from workeven.pattern import Notion, Pattern, Piece
from workeven.problems import Problem
from workeven.problems.words import joined

Counts = Mapping[str, PerSize[int]]
_KINDS = ("button", "toggle")
#: what goes through holes too
_CORDS = frozenset({"cord", "drawstring", "ribbon", "elastic"})


def buttons_of_holes(pattern: Pattern, counts: Counts) -> Iterator[Problem]:
    """Another number of buttons than of holes, in some size."""
    buttons = [notion for notion in pattern.notions if notion.kind in _KINDS]
    if not buttons:
        return
    names = pattern.sizes.names
    holes = tuple(_holes(pattern, counts, size) for size in range(len(names)))
    if not any(holes):
        return
    listed = tuple(_listed(buttons, size) for size in range(len(names)))
    off = [size for size in range(len(names)) if listed[size] != holes[size]]
    if off:
        lines = (f"{names[size]}: {holes[size]} holes, {listed[size]} listed." for size in off)
        yield Problem(
            code="notion-buttons",
            span=buttons[0].span,
            found=f"There are not as many {_several(buttons)} as holes in "
            f"{joined(names[size] for size in off)}.",
            expected="\n".join(lines),
            mend="Change `amount`, or the `number` of the holes. Where one is to spare or "
            "ornament alone, allow this advice with that as the reason.",
            sizes=tuple(names[size] for size in off),
            figures=(
                ("holes", tuple(str(holes[size]) for size in off)),
                ("listed", tuple(str(listed[size]) for size in off)),
            ),
        )


def _several(buttons: list[Notion]) -> str:
    return joined(dict.fromkeys(f"{notion.kind}s" for notion in buttons))


def _listed(buttons: list[Notion], size: int) -> int:
    return sum(notion.amount[size] for notion in buttons)


def _holes(pattern: Pattern, counts: Counts, size: int) -> int:
    """The holes of all pieces in one size; a mirrored piece has those of the one it mirrors."""
    values = {name: count[size] for name, count in counts.items()}
    by_name = {piece.name: piece for piece in pattern.pieces}
    word = "" if _CORDS.isdisjoint(one.kind for one in pattern.notions) else "button"
    return sum(
        piece.make[size] * _in_piece(by_name.get(piece.mirror or "", piece), values, size, word)
        for piece in pattern.pieces
    )


def _in_piece(piece: Piece, values: Mapping[str, int], size: int, word: str) -> int:
    """The holes of sections whose title has that word."""
    return sum(
        int(section.holes.number.count(values))
        for section in piece.sections
        if section.holes is not None
        and word in section.title.casefold()
        and (section.sizes is None or size in section.sizes)
    )
