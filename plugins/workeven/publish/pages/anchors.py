"""Anchors of a page: addresses within it that stay when other things change.

Takes     names and titles.
Gives     ``slug``, ``piece_anchor``, ``part_anchors``, ``row_anchor``.
Problems  none.
From      design.md: rows and remembered places go by the name, or by piece, section and place.

Pieces, parts and rows have prefixes of their own, so that a row called "cuff" never takes the
address of the part called "Cuff".
"""

from __future__ import annotations

from collections.abc import Sequence

from workeven.proof.addresses import row_address, slug

__all__ = ["part_anchors", "piece_anchor", "row_anchor", "slug"]


def piece_anchor(piece: str) -> str:
    """The address of a piece."""
    return f"piece-{slug(piece)}"


def part_anchors(piece: str, titles: Sequence[str]) -> tuple[str, ...]:
    """The addresses of the sections of a piece, by their titles; a second one of a name is counted.

    >>> part_anchors("mitt", ("Cuff", "Hand", "Cuff"))
    ('part-mitt-cuff', 'part-mitt-hand', 'part-mitt-cuff-2')
    """
    seen: dict[str, int] = {}
    anchors = []
    for place, title in enumerate(titles, 1):
        name = slug(title) or str(place)
        seen[name] = seen.get(name, 0) + 1
        ending = f"-{seen[name]}" if seen[name] > 1 else ""
        anchors.append(f"part-{slug(piece)}-{name}{ending}")
    return tuple(anchors)


def row_anchor(piece: str, anchor: str) -> str:
    """The address of a row, from the one that the proof gives it within its piece.

    >>> row_anchor("left_front", "left-front-neck-2")
    'row-left-front.neck-2'
    """
    return f"row-{row_address(piece, anchor)}"
