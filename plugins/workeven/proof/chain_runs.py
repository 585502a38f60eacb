"""Runs of chains: chains with nothing worked between them are one space, however they are written.

Takes     the nodes that a row makes, in working order, and its counts by kind.
Gives     ``as_runs``: the nodes in which no two spaces of one run stand side by side.
Problems  none.
From      notation.md, "The fabric": "chain space: a run of chains made between stitches".

Most rows keep their spaces apart, and that is seen at once. Where two meet, also over the seam
between two turns of a repeat, the second is added to the first. A space behind a picot is
``parted`` from the one before it, also where the picot ends a turn of a repeat.

Worked example: ``3 dc in ring, *ch 2; rep from * 2 more times`` makes three ch-2 sps side by side:
one run of six chains, a ch-6 sp. ``*ch 1, sc in next st, ch 2; rep from * twice`` is a ch-1 sp, sc,
ch-3 sp, sc, ch-3 sp, sc, ch-2 sp.
"""

from __future__ import annotations

from workeven.proof.fabric import (
    BEYOND,
    PICOT,
    Builder,
    Loop,
    Node,
    Place,
    Run,
    amount_of,
    space,
    tally,
)
from workeven.records import replace

Nodes = tuple[Node, ...]


def as_runs(nodes: Nodes, makes: dict[str, int], groups: dict[str, int]) -> Nodes:
    """The nodes with each run of chains as one space; the counts are changed to them.

    ``groups``: under ``BEYOND``, how many runs go on with the loop before them behind a picot.
    """
    if not _side_by_side(nodes):
        return nodes
    joined = _joined(nodes)
    parted = amount_of(joined, _is_parted) - amount_of(nodes, _is_parted)
    if parted:
        groups[BEYOND] = groups.get(BEYOND, 0) + parted
    before, after = _spaces(nodes), _spaces(joined)
    for name in {**before, **after}:
        makes[name] = makes.get(name, 0) + after.get(name, 0) - before.get(name, 0)
        if not makes[name]:
            del makes[name]
    return joined


def _spaces(nodes: Nodes) -> dict[str, int]:
    return {name: count for name, count in tally(nodes).items() if name.endswith(" sp")}


# --- where spaces meet ---------------------------------------------------------------------


def _side_by_side(nodes: Nodes) -> bool:
    """Whether two spaces stand side by side anywhere."""
    before: Place | None = None
    for node in nodes:
        if isinstance(node, Run):  # most are, and most are no space
            place = node.place
            if place.sort != "sp":
                before = None
                continue
        if before is not None and _is_one_run(before, _first(node)):
            return True
        before = _last(node)
        if _meets_itself(node):
            return True
    return False


def _meets_itself(node: Node) -> bool:
    if isinstance(node, Run):
        return node.count > 1 and _is_one_run(node.place, node.place)
    seam = node.times > 1 and _is_one_run(_last(node), _first(node))
    return seam or _side_by_side(node.nodes)


def _is_one_run(first: Place, second: Place) -> bool:
    return first.sort == second.sort == "sp" and not second.parted


def _is_parted(place: Place) -> bool:
    return place.parted


def _first(node: Node) -> Place:
    return node.place if isinstance(node, Run) else _first(node.nodes[0])


def _last(node: Node) -> Place:
    return node.place if isinstance(node, Run) else _last(node.nodes[-1])


# --- joining them --------------------------------------------------------------------------


def _joined(nodes: Nodes) -> Nodes:
    out: Nodes = ()
    for node in nodes:
        for one in _in_itself(node):
            out = _with(out, one)
    return out


def _in_itself(node: Node) -> Nodes:
    """A node whose own spaces are joined: over the seam of its turns, too."""
    if isinstance(node, Run):
        return _in_a_row(node.place, node.count) if _meets_itself(node) else (node,)
    inside = _joined(node.nodes)
    if node.times == 1 or not _is_one_run(_last(inside[-1]), _first(inside[0])):
        return (node.with_nodes(inside),)
    first, rest = _split_first(inside)
    if not rest:  # a turn is a single space
        return _in_a_row(first, node.times)
    last, between = _split_last(rest)
    turn = node.with_nodes((*between, *_seam(last, first)), node.times - 1)
    return (Run(first, 1), *_single(turn), *between, Run(last, 1))


def _single(loop: Loop) -> Nodes:
    """A loop of one turn that is no group is its nodes."""
    return loop.nodes if loop.times == 1 and not loop.group else (loop,)


def _in_a_row(place: Place, count: int) -> Nodes:
    """So many alike behind one another: one run, or with a picot between any two of them."""
    if PICOT in place.marks:
        return (Run(place, 1), Run(replace(place, parted=True), count - 1))
    return (Run(space(place.chains * count, parted=place.parted), 1),)


def _seam(last: Place, first: Place) -> Nodes:
    """Two spaces that meet: one run, which bears the picot of the second; two behind a picot."""
    if PICOT in last.marks:
        return (Run(last, 1), Run(replace(first, parted=True), 1))
    one = space(last.chains + first.chains, parted=last.parted)
    return (Run(replace(one, marks=first.marks) if PICOT in first.marks else one, 1),)


def _with(nodes: Nodes, node: Node) -> Nodes:
    """The nodes and one more, the spaces where they meet joined."""
    if not nodes or not _is_one_run(_last(nodes[-1]), _first(node)):
        builder = Builder(list(nodes))
        builder.add_node(node)
        return tuple(builder.nodes)
    last, before = _split_last(nodes)
    first, after = _split_first((node,))
    return (*before, *_seam(last, first), *after)


def _split_last(nodes: Nodes) -> tuple[Place, Nodes]:
    """The last place, and the nodes without it; what was worked into one place stays together."""
    last, before = nodes[-1], nodes[:-1]
    if isinstance(last, Run):
        rest = (Run(last.place, last.count - 1),) if last.count > 1 else ()
        return last.place, (*before, *rest)
    place, inside = _split_last(last.nodes)
    turns = (last.with_nodes(last.nodes, last.times - 1),) if last.times > 1 else ()
    return place, (*before, *turns, *_left_of(last, inside))


def _split_first(nodes: Nodes) -> tuple[Place, Nodes]:
    """The first place, and the nodes without it."""
    first, behind = nodes[0], nodes[1:]
    if isinstance(first, Run):
        rest = (Run(first.place, first.count - 1),) if first.count > 1 else ()
        return first.place, (*rest, *behind)
    place, inside = _split_first(first.nodes)
    turns = (first.with_nodes(first.nodes, first.times - 1),) if first.times > 1 else ()
    return place, (*_left_of(first, inside), *turns, *behind)


def _left_of(loop: Loop, inside: Nodes) -> Nodes:
    return (loop.with_nodes(inside, 1),) if loop.group and inside else inside
