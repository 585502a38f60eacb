"""What lies midway between two spaces: a place of its own in the rows that work there.

Takes     the nodes of a fabric and the space that stands at both sides.
Gives     ``with_middles``.
Problems  none.
From      notation.md, the table of places ("gap") and "Named places".

Where an odd number of stitches stands between the spaces, the stitch in the middle is that place;
it is put in beside it, since a row that works midway passes what is on the way.
"""

from __future__ import annotations

from workeven.notation.tree import Space
from workeven.proof.fabric import Builder, Loop, Node, Place, amount_of
from workeven.proof.naming import match_of, midway_mark

#: fabrics with more places than this are not searched
_MOST = 20_000
#: a middle has a space at both of its sides
_SIDES = 2


def with_middles(nodes: tuple[Node, ...], space: Space, *, closed: bool) -> tuple[Node, ...]:
    """The fabric with a place midway between every two neighbouring spaces of this kind."""
    match = match_of((space,))
    spaces = amount_of(nodes, match)
    if spaces < _SIDES or amount_of(nodes, lambda _: True) > _MOST:
        return nodes
    places = _flat(nodes)
    at = [index for index, place in enumerate(places) if match(place)]
    ends = [*at[1:], *([at[0] + len(places)] if closed else [])]
    middles = {(one + 1 + other) // 2 % len(places) for one, other in zip(at, ends, strict=False)}
    middle = Place("gap", "sp between", "gap", marks=(midway_mark(space),))
    builder = Builder()
    for index, place in enumerate(places):
        if index in middles:
            builder.add(middle, 1)
        builder.add(place, 1)
    return tuple(builder.nodes)


def _flat(nodes: tuple[Node, ...]) -> list[Place]:
    """All places one by one."""
    found: list[Place] = []
    for node in nodes:
        if isinstance(node, Loop):
            found.extend(_flat(node.nodes) * node.times)
        else:
            found.extend([node.place] * node.count)
    return found
