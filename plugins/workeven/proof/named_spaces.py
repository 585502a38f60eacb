"""Spaces that a row names by where they lie: "corner sp", "centre sp".

Takes     what a row works, and the places below it.
Gives     ``with_known_spaces``: the same with the spaces by their chains.
Problems  ``row-not-understood``.
From      notation.md, "Named places", "Corners": "corners are known from the row before".

The corners of a square have the widest spaces, three to eight of them; the centre of a shawl has
the only space of its width. Where all spaces of a row are alike, any of them is a corner's, as the
text goes; which is the centre one then nobody can tell.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any

from workeven.notation.tree import Space, SpecialStitch
from workeven.proof.context import Fault
from workeven.proof.corners import corner_width, count_spaces
from workeven.proof.fabric import Fabric
from workeven.proof.line import Line, line_of


def with_known_spaces(own: Line, below: Fabric, special: Mapping[str, SpecialStitch]) -> Line:
    """The line over these places; as it is where it names no such space."""
    text = own.row.text.casefold()
    if "corner" not in text and "cent" not in text:
        return own
    spaces: dict[int, int] = {}
    count_spaces(below.nodes, 1, spaces)
    steps = own.facts.written
    known = tuple(_known(step, spaces, len(own.row.text)) for step in steps)
    return own if known == steps else line_of(own.row, known, special)


def _known(part: Any, spaces: dict[int, int], end: int) -> Any:  # noqa: ANN401, any part of a tree
    """A part of the tree with its spaces by their chains."""
    if isinstance(part, Space):
        return _by_chains(part, spaces, end)
    if isinstance(part, tuple) and type(part) is tuple:
        found = tuple(_known(one, spaces, end) for one in part)
        return part if found == part else found
    if not is_dataclass(part) or isinstance(part, type):
        return part
    changed = {
        field.name: new
        for field in fields(part)
        if (new := _known(old := getattr(part, field.name), spaces, end)) is not old
    }
    return replace(part, **changed) if changed else part


def _by_chains(space: Space, spaces: dict[int, int], end: int) -> Space:
    if not space.corner or space.chains is not None or not spaces:
        return space
    if space.of == "center":
        widest = max(spaces)
        if spaces[widest] != 1:
            raise Fault(
                "row-not-understood",
                0,
                end,
                "which space is the centre one cannot be told from the row before",
                mend="Name it by its chains, such as “ch-2 sp”.",
            )
        return Space(widest)
    width = corner_width(spaces) if len(spaces) > 1 else None
    return space if width is None else Space(width)
