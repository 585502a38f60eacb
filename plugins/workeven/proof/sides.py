"""The sides of what stands off a row: two sides and the point between them of each leaf.

Takes     the nodes of a fabric.
Gives     ``with_sides``, ``with_free_loops``, ``standing_off``, ``brought_back``, ``has_leaf``,
          ``off_the_row``; ``leaf``, ``side``.
Problems  none.
From      notation.md, "Chains worked back along".

A leaf is a group whose first place is the side of its chain, which no stitch is worked into unless
a row names it. Its stitches stand off the row: they are no places of it either, unless a row asks
for what is in the leaf, or comes out in no other way.
"""

from __future__ import annotations

from workeven.proof.fabric import CHAIN, Loop, Node, Place, PlaceSort, Run
from workeven.records import replace

#: the name of a group that is worked along a chain of its own
LEAF = "leaf"


def side(name: str, chains: int) -> Place:
    """A side of a leaf, or the chain that it was worked along."""
    return Place("side", name, "side", chains)


def leaf(chains: int = 0) -> Loop:
    """A leaf of which only the sides matter."""
    return Loop((Run(side("leaf", chains), 1),), 1, group=True, name=LEAF)


def with_sides(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Each leaf as its first side, its point and its other side."""
    found: list[Node] = []
    for node in nodes:
        if isinstance(node, Run):
            found.append(node)
        elif node.group and node.name == LEAF:
            found.extend(Run(side(name, 0), 1) for name in ("first", "point", "other"))
        else:
            found.append(node.with_nodes(with_sides(node.nodes)))
    return tuple(found)


def with_free_loops(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Each leaf with the free loops of its chain before its stitches."""
    found: list[Node] = []
    for node in nodes:
        if isinstance(node, Run) and node.place.sort == "side" and node.place.chains > 1:
            free = Run(CHAIN, node.place.chains - 1)
            found.append(Loop((free,), 1, optional=True))
        elif isinstance(node, Run):
            found.append(node)
        else:
            found.append(node.with_nodes(with_free_loops(node.nodes)))
    return tuple(found)


def has_leaf(nodes: tuple[Node, ...]) -> bool:
    """Whether leaves stand off the row, in its repeats too."""
    return any(
        not isinstance(node, Run) and (node.name == LEAF or has_leaf(node.nodes)) for node in nodes
    )


def off_the_row(nodes: tuple[Node, ...]) -> dict[str, int]:
    """The stitches of leaves, by kind."""
    counts: dict[str, int] = {}
    for node in nodes:
        if not isinstance(node, Run):
            for name, number in off_the_row(node.nodes).items():
                counts[name] = counts.get(name, 0) + number * node.times
        elif node.place.sort == "off":
            counts[node.place.name] = counts.get(node.place.name, 0) + node.count
    return counts


def standing_off(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The stitches of a leaf, which are no places of the row."""
    return _of_sort(nodes, ("st", "ch"), "off")


def brought_back(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The stitches of leaves as places of the row."""
    return _of_sort(nodes, ("off",), "st")


def _of_sort(
    nodes: tuple[Node, ...], sorts: tuple[PlaceSort, ...], sort: PlaceSort
) -> tuple[Node, ...]:
    found: list[Node] = []
    for node in nodes:
        if not isinstance(node, Run):
            found.append(node.with_nodes(_of_sort(node.nodes, sorts, sort)))
        elif node.place.sort in sorts:
            found.append(Run(replace(node.place, sort=sort), node.count))
        else:
            found.append(node)
    return tuple(found)
