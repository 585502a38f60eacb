"""Places within places in a fabric: gaps between groups put in, parts of groups marked.

Takes     the nodes of a fabric and the ``Inside`` that are asked for.
Gives     ``with_gaps``, ``marked``, ``marked_runs``; ``mark_of``: the name of such a place.
Problems  none.
From      notation.md, "Named places", "Corners".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache

from workeven.notation.tree import (
    AnyStitch,
    Chain,
    First,
    Gap,
    Inside,
    Last,
    Marked,
    NamedStitch,
    Next,
    PlaceName,
    SpecialStitch,
    Stitch,
    StitchGroup,
)
from workeven.proof.fabric import Builder, Loop, Node, Place, Run
from workeven.proof.naming import middle_of, middle_of_group
from workeven.records import replace

#: what "shell" and "fan" mean where no stitch of that name is declared: at least so many together
_SHELL = 3
GAP = Place("gap", "sp between", "gap")


@lru_cache(maxsize=1024)
def mark_of(target: Inside) -> Marked:
    """The name under which the places of an ``Inside`` are found."""
    container = target.container
    names = container.names if isinstance(container, Next | First | Last) else ()
    whole = isinstance(target.name, AnyStitch) and target.part == "center"
    if whole and isinstance(names[0], NamedStitch):
        return Marked(middle_of(names[0].name))
    if whole and isinstance(names[0], StitchGroup):
        return Marked(middle_of_group(names[0]))
    return Marked(f"{target.part} {target.name!r} of {names!r}")


# --- gaps ----------------------------------------------------------------------------------


def with_gaps(nodes: tuple[Node, ...], *, closed: bool) -> tuple[Node, ...]:
    """The fabric with a place for each gap between two neighbouring groups."""
    found = _gapped(nodes)
    if closed and found and _ends_in_group(found[-1]) and _begins_with_group(found[0]):
        found = (*found, Run(GAP, 1))
    return found


def _gapped(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    found: list[Node] = []
    for node in nodes:
        inside = _gapped_loop(node)
        if not inside:
            continue  # a loop of no places: what was passed, where nothing was
        if found and _ends_in_group(found[-1]) and _begins_with_group(inside[0]):
            found.append(Run(GAP, 1))
        found.extend(inside)
    return tuple(found)


def _gapped_loop(node: Node) -> tuple[Node, ...]:
    """A loop with the gap between its turns inside it: the last turn stands apart, without one."""
    if isinstance(node, Run) or node.group:
        return (node,)
    inside = _gapped(node.nodes)
    if not inside:
        return ()
    wraps = _ends_in_group(inside[-1]) and _begins_with_group(inside[0])
    if node.times == 1 or not wraps:
        return (node.with_nodes(inside),)
    return (node.with_nodes((*inside, Run(GAP, 1)), node.times - 1), *inside)


def _ends_in_group(node: Node) -> bool:
    if isinstance(node, Run):
        return False
    if node.group:
        return node.sts > 1 and _edge(node, -1).sort == "st"
    return _ends_in_group(node.nodes[-1])


def _begins_with_group(node: Node) -> bool:
    if isinstance(node, Run):
        return False
    if node.group:
        return node.sts > 1 and _edge(node, 0).sort == "st"
    return _begins_with_group(node.nodes[0])


def _edge(node: Node, at: int) -> Place:
    return node.place if isinstance(node, Run) else _edge(node.nodes[at], at)


# --- marks ---------------------------------------------------------------------------------


def marked(
    nodes: tuple[Node, ...], insides: tuple[Inside, ...], special: Mapping[str, SpecialStitch]
) -> tuple[Node, ...]:
    """The fabric with the parts of its groups that are asked for marked."""
    found: list[Node] = []
    for node in nodes:
        if isinstance(node, Run):
            found.append(node)
        elif node.group and node.sts > 1 and not _holds_groups(node):
            found.append(_marked_group(node, insides, special))
        else:
            found.append(node.with_nodes(marked(node.nodes, insides, special)))
    return tuple(found)


def _holds_groups(node: Loop) -> bool:
    """Whether groups stand inside a group, as in (shell, ch 2, shell)."""
    return any(isinstance(inside, Loop) for inside in node.nodes)


#: in a group of more places than this, which nobody works into one, none is looked for
_MOST_IN_ONE = 1_000


def _marked_group(
    group: Loop, insides: tuple[Inside, ...], special: Mapping[str, SpecialStitch]
) -> Loop:
    if sum(_length(node) for node in group.nodes) > _MOST_IN_ONE:
        return group
    places = before = list(_places(group.nodes))
    for inside in insides:
        container = inside.container
        names = container.names if isinstance(container, Next | First | Last) else ()
        if any(_is_group(group, places, name, special) for name in names):
            places = _mark(places, inside)
    if places == before:
        return group
    return group.with_nodes(tuple(Run(place, 1) for place in places))


#: fabrics with more places than this are not searched for groups of stitches side by side
_MOST = 20_000


def marked_runs(nodes: tuple[Node, ...], insides: tuple[Inside, ...]) -> tuple[Node, ...]:
    """Where no place holds a "3-sc group": three sc side by side, with others around them."""
    groups = [
        (inside, name)
        for inside in insides
        for name in getattr(inside.container, "names", ())
        if isinstance(name, StitchGroup) and name.size is not None
    ]
    if not groups or sum(_length(node) for node in nodes) > _MOST:
        return nodes
    return _with_runs(nodes, groups)


def _with_runs(
    nodes: tuple[Node, ...], groups: list[tuple[Inside, StitchGroup]]
) -> tuple[Node, ...]:
    """The fabric with the runs marked that are as long as a group; none reaches over two places."""
    builder = Builder()
    side_by_side: list[Place] = []
    for node in _unrolled(nodes):
        if isinstance(node, Run):
            side_by_side.extend([node.place] * node.count)
            continue
        _add_marked(builder, side_by_side, groups)
        side_by_side = []
        builder.add_node(node.with_nodes(_with_runs(node.nodes, groups)))
    _add_marked(builder, side_by_side, groups)
    return tuple(builder.nodes)


def _unrolled(nodes: tuple[Node, ...]) -> Iterator[Node]:
    """Runs, and what was worked into one place; the turns of other loops one behind the other."""
    for node in nodes:
        if isinstance(node, Run) or node.group or node.optional:
            yield node
        else:
            for _ in range(node.times):
                yield from _unrolled(node.nodes)


def _add_marked(
    builder: Builder, places: list[Place], groups: list[tuple[Inside, StitchGroup]]
) -> None:
    for inside, name in groups:
        places = _mark_runs(places, inside, name)
    for place in places:
        builder.add(place, 1)


def _mark_runs(places: list[Place], inside: Inside, name: StitchGroup) -> list[Place]:
    found: list[Place] = []
    at = 0
    while at < len(places):
        end = at
        while end < len(places) and places[end].sort == "st" and places[end].base == name.stitch:
            end += 1
        if end - at == name.size:
            found.extend(_mark(places[at:end], inside))
        else:
            found.extend(places[at : max(end, at + 1)])
        at = max(end, at + 1)
    return found


def _length(node: Node) -> int:
    if isinstance(node, Run):
        return node.count
    return node.times * sum(_length(inside) for inside in node.nodes)


def _places(nodes: tuple[Node, ...]) -> Iterator[Place]:
    for node in nodes:
        if isinstance(node, Run):
            for _ in range(node.count):
                yield node.place
        else:
            for _ in range(node.times):
                yield from _places(node.nodes)


def _is_group(
    group: Loop, places: list[Place], name: PlaceName, special: Mapping[str, SpecialStitch]
) -> bool:
    """Whether a group is what the text calls it: by its own name, or by what it consists of."""
    sts = [place for place in places if place.counts()]
    match name:
        case NamedStitch(name=wanted):
            if group.name is not None:
                return group.name == wanted
            known = special.get(wanted)
            return known is not None and _is_made_as(places, known)
        case StitchGroup(size=size, stitch=kind, name=word):
            if size is not None:
                return len(sts) == size and all(place.base == kind for place in sts)
            if word is None:
                return len(sts) > 1
            if group.name == word:
                return True
            declared = [known for key, known in special.items() if word in key]
            if declared:
                return any(group.name == one.name or _is_made_as(places, one) for one in declared)
            return len(sts) >= _SHELL
        case _:
            return False


def _is_made_as(places: list[Place], known: SpecialStitch) -> bool:
    """Whether a group that was not called so is one: as many stitches, as many spaces.

    ``ch 3 (counts as dc), dc in first dc`` is two dc, and no V-st: it has no chain between.
    """
    sts = sum(place.counts() for place in places)
    spaces = sum(place.sort == "sp" for place in places)
    chains = sum(isinstance(item, Chain) for item in known.content)
    plain = all(isinstance(item, Chain | Stitch) for item in known.content)
    return sts == _size(known) and (spaces == chains or not plain)


def _size(known: SpecialStitch) -> int:
    return sum(
        item.count.values[0] or 0
        for item in known.content
        if isinstance(item, Stitch) and item.count.values
    )


def _mark(places: list[Place], inside: Inside) -> list[Place]:
    """The places of a group with the part that is asked for marked, or its gap put in."""
    key = mark_of(inside).key
    at = [index for index, place in enumerate(places) if place.counts() and _is(place, inside.name)]
    if not at:
        return places
    count = inside.count.values[0] if inside.count.values else 1
    match inside.part:
        case "first":
            chosen = at[: count or 1]
        case "last":
            chosen = at[-(count or 1) :]
        case "center":
            if len(at) % 2 == 0 or isinstance(inside.name, Gap):
                return _gap_in_middle(places, at, key)
            chosen = [at[len(at) // 2]]
        case number:
            chosen = at[number - 1 : number]
    return [
        replace(place, marks=(*place.marks, key)) if index in chosen else place
        for index, place in enumerate(places)
    ]


def _is(place: Place, name: PlaceName) -> bool:
    match name:
        case NamedStitch(name=wanted):
            return wanted in (place.name, place.base)
        case AnyStitch() | Gap():
            return True
        case _:
            return False


def _gap_in_middle(places: list[Place], at: list[int], key: str) -> list[Place]:
    """Between the two middle stitches: a space that stands there, or a gap of its own."""
    before, after = at[len(at) // 2 - 1], at[len(at) // 2]
    between = range(before + 1, after)
    if between:
        chosen = between[0]
        marked = replace(places[chosen], marks=(*places[chosen].marks, key))
        return [*places[:chosen], marked, *places[chosen + 1 :]]
    gap = replace(GAP, marks=(key,))
    return [*places[: before + 1], gap, *places[before + 1 :]]
