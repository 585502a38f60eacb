"""Places within places: the middle of a shell, the gap between groups, one chain of a space.

Takes     the fabric below a row and the row's steps.
Gives     ``asked``: what the steps ask for; ``prepared``: the fabric with those places marked.
Problems  none.
From      notation.md, "Named places", "Corners".

A row that works into "center dc of next shell" is walked over a fabric in which that dc bears a
mark, so that the cursor needs to know nothing of groups. Gaps are places of their own only in the
rows that work into them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import zip_longest
from typing import NamedTuple

from workeven.notation.tree import (
    AnyStitch,
    Chain,
    Corners,
    Each,
    EachChainCounts,
    First,
    FromHook,
    Gap,
    Increase,
    Inside,
    JoinYarn,
    Last,
    LeafSide,
    Limit,
    NamedStitch,
    Next,
    OneChain,
    Open,
    PlaceName,
    Repeat,
    Same,
    Skip,
    Space,
    SpecialStitch,
    Step,
    StitchGroup,
    Target,
    ToLast,
    ToNext,
    Travel,
    Work,
)
from workeven.proof.fabric import IN_GROUP, Loop, Node, Run, stitch
from workeven.proof.inner_places import marked, marked_runs, with_gaps
from workeven.proof.midway import with_middles
from workeven.proof.sides import LEAF, brought_back, has_leaf, with_free_loops, with_sides
from workeven.records import replace

#: a loop that closes a round is a chain and a stitch
_LOOP = 2


class Asked(NamedTuple):
    """What the steps of a row ask for inside the places of the row below.

    ``insides``: places within groups. ``named``: stitches by name, which may be groups.
    ``gaps``: the gaps between places that are named. ``apart``:
    "each ch counts as a st". ``chain`` and ``space``: whether single chains, or spaces, are named.
    ``sides``: those of leaves are; ``grouped``: only spaces inside groups are meant.
    ``in_loop``: the row begins in the space where the hook stands.
    ``closing``: the row ends in the stitch that the one before it ended with.
    ``fronts``: groups that a step stops in front of.
    """

    insides: tuple[Inside, ...]
    named: tuple[str, ...]
    gaps: tuple[Gap, ...]
    apart: bool
    chain: bool
    space: bool
    sides: bool
    grouped: bool
    in_loop: bool
    closing: bool
    fronts: tuple[PlaceName, ...]


def asked(steps: tuple[Step, ...]) -> Asked:
    """What the steps ask for, looked up once for all sizes and workings of a row."""
    targets = tuple(targets_of(tuple(_of_the_row(steps))))
    names = [name for target in targets for name in _names(target)]
    limits = tuple(_limits(steps))
    names.extend(limit.name for limit in limits if isinstance(limit, ToNext))
    for limit in limits:  # "to last shell": groups are counted by their middles
        if isinstance(limit, ToLast):
            names.extend(name for name in limit.names if isinstance(name, _GROUPS))
    kinds, of_targets = set(map(type, names)), set(map(type, targets))
    inside = Inside in of_targets
    insides: dict[Inside, None] = {}
    if inside or not kinds.isdisjoint(_INTO_GROUPS):
        insides = dict.fromkeys(
            target for target in targets if isinstance(target, Inside) and _in_group(target)
        )
        for group in map(_group_of, names):
            if group is not None:  # into a group is into its middle
                insides[Inside("center", AnyStitch(), Next((group,)))] = None
    grouped = Space in kinds and any(isinstance(name, Space) and name.grouped for name in names)
    if inside and not grouped:
        grouped = any(isinstance(target, Inside) and is_of_group(target) for target in targets)
    return Asked(
        insides=tuple(insides),
        named=tuple([name.name for name in names if isinstance(name, NamedStitch)]),
        gaps=tuple([name for name in names if isinstance(name, Gap)]) if Gap in kinds else (),
        apart=any(isinstance(step, EachChainCounts) and not step.made for step in steps),
        chain=OneChain in kinds,
        space=Space in kinds,
        sides=LeafSide in kinds,
        grouped=grouped,
        in_loop=_begins_in_loop(targets),
        closing=Same in of_targets
        and any(isinstance(target, Same) and target.ending for target in targets),
        fronts=tuple(
            limit.name
            for limit in limits
            if isinstance(limit, ToNext) and not limit.inside and isinstance(limit.name, _GROUPS)
        ),
    )


def is_of_group(target: Inside) -> bool:
    """Whether it is the space of a group: ``ch-2 sp of next shell``."""
    names = getattr(target.container, "names", (None,))
    return isinstance(target.name, Space) and isinstance(names[0], NamedStitch | StitchGroup)


def _of_the_row(steps: tuple[Step, ...]) -> Iterator[Step]:
    """The steps but those that go back along a chain: its chains are not those of a space."""
    along = False
    for step, following in zip_longest(steps, steps[1:]):
        if isinstance(step, Chain):
            along = isinstance(following, Work) and isinstance(following.target, FromHook)
            yield step
        elif along and _along_chain(step):
            continue
        else:
            along = False
            if isinstance(step, Repeat):
                yield replace(step, steps=tuple(_of_the_row(step.steps)))
            else:
                yield step


def _along_chain(step: Step) -> bool:
    match step:
        case Work(target=target) | Skip(target=target):
            return isinstance(target, FromHook) or any(
                isinstance(name, OneChain) for name in _names(target)
            )
        case Repeat(steps=inside):
            return bool(inside) and _along_chain(inside[0])
        case _:
            return False


def _limits(steps: tuple[Step, ...]) -> Iterator[Limit]:
    """Where open steps stop."""
    for step in steps:
        limit: Limit | None = None
        if isinstance(step, Work) and isinstance(step.target, Each):
            limit = step.target.limit
        if isinstance(step, Repeat):
            yield from _limits(step.steps)
            limit = step.times.limit if isinstance(step.times, Open) else None
        if limit is not None:
            yield limit


#: names that lead into the middle of a group
_INTO_GROUPS = (StitchGroup, LeafSide)
#: names of what was worked into one place (a tuple: a union would be built anew each time)
_GROUPS = (StitchGroup, NamedStitch)


def _group_of(name: PlaceName) -> StitchGroup | None:
    """The group into whose middle a name leads: a petal, what was worked into a point."""
    if isinstance(name, LeafSide):
        return StitchGroup(name="point") if name.which == "point" else None
    return name if isinstance(name, StitchGroup) else None


def _of_leaf(inside: Inside) -> bool:
    """Whether a place is asked for that is in a leaf: ``center sc of next leaf``."""
    return any(getattr(name, "name", "") == LEAF for name in getattr(inside.container, "names", ()))


def prepared(
    nodes: tuple[Node, ...],
    asks: Asked,
    special: Mapping[str, SpecialStitch],
    *,
    closed: bool,
) -> tuple[Node, ...]:
    """The fabric with all that the steps ask for inside it made visible."""
    if closed and (asks.closing or asks.in_loop):
        nodes = _last_loop_begun(nodes)
    if asks.grouped:
        nodes = _grouped(nodes, inside=False)
    if asks.sides:
        nodes = with_sides(nodes)
    elif asks.chain and not asks.space:
        nodes = with_free_loops(brought_back(nodes))
    elif any(_of_leaf(inside) for inside in asks.insides) and has_leaf(nodes):
        nodes = brought_back(nodes)
    if asks.apart or (asks.chain and not asks.space and not _has_chain(nodes)):
        nodes = _chains_apart(nodes)
    for space in dict.fromkeys(gap.midway for gap in asks.gaps if gap.midway is not None):
        nodes = with_middles(nodes, space, closed=closed)
    if any(gap.midway is None and not _stitch_pair(gap, special) for gap in asks.gaps):
        nodes = with_gaps(nodes, closed=closed)
    insides = (
        *asks.insides,
        *_middles(asks.named, special),
        *(first_of(name) for name in asks.fronts if is_group(name, special)),
    )
    for inside in dict.fromkeys(insides):
        with_marks = marked(nodes, (inside,), special)
        nodes = marked_runs(nodes, (inside,)) if with_marks == nodes else with_marks
    return nodes


def _begins_in_loop(targets: tuple[Target, ...]) -> bool:
    """``ch 1, sc in same sp`` at the head of a round: the hook stands in its last loop."""
    first = targets[0] if targets else None
    return isinstance(first, Same) and isinstance(first.name, Space)


def _last_loop_begun(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """A last loop in whose middle the round begins: it need not be worked into once more."""
    if len(nodes) < _LOOP or not all(isinstance(node, Run) for node in nodes[-_LOOP:]):
        return nodes
    chains, close = nodes[-_LOOP:]
    assert isinstance(chains, Run)
    assert isinstance(close, Run)
    if chains.place.sort != "sp" or close.place.sort != "st" or chains.count != 1:
        return nodes
    return (*nodes[:-_LOOP], Loop((chains, close), 1, optional=True))


def _grouped(nodes: tuple[Node, ...], *, inside: bool) -> tuple[Node, ...]:
    """The fabric with the spaces inside groups marked."""
    found: list[Node] = []
    for node in nodes:
        if not isinstance(node, Run):
            found.append(node.with_nodes(_grouped(node.nodes, inside=inside or node.group)))
        elif inside and node.place.sort == "sp":
            marked = replace(node.place, marks=(*node.place.marks, IN_GROUP))
            found.append(Run(marked, node.count))
        else:
            found.append(node)
    return tuple(found)


def _middles(named: tuple[str, ...], special: Mapping[str, SpecialStitch]) -> tuple[Inside, ...]:
    """Into a shell, by its name alone, is into its middle ("V-st in next V-st")."""
    return tuple(
        Inside("center", AnyStitch(), Next((NamedStitch(name),)))
        for name in dict.fromkeys(named)
        if name in special and special[name].content
    )


def is_group(name: PlaceName, special: Mapping[str, SpecialStitch]) -> bool:
    """Whether a name is that of a group, and of no stitch that is closed to one."""
    if isinstance(name, NamedStitch):
        return name.name in special and bool(special[name.name].content)
    return isinstance(name, StitchGroup)


def first_of(group: PlaceName) -> Inside:
    """The first stitch of the next such group, in front of which "to next shell" stops."""
    return Inside("first", AnyStitch(), Next((group,)))


def _in_group(target: Inside) -> bool:
    container = target.container
    if not isinstance(container, Next | First | Last):
        return False
    return isinstance(container.names[0], NamedStitch | StitchGroup) and not isinstance(
        target.name, Space
    )


def _stitch_pair(name: Gap, special: Mapping[str, SpecialStitch]) -> bool:
    """Whether two stitches are counted off ("sp between next 2 dc"), which needs no gap."""
    return name.pair and (name.between is None or name.between not in special)


# --- what the steps name -------------------------------------------------------------------


def targets_of(steps: tuple[Step, ...]) -> Iterator[Target]:
    """The targets of all steps, those in repeats too."""
    for step in steps:
        match step:
            case Work(target=target) | Increase(target=target) | Skip(target=target):
                yield target
            case Travel(target=target):
                yield target
            case JoinYarn(target=target) | Corners(target=target) if target is not None:
                yield target
            case Repeat(steps=body, ending=ending):
                yield from targets_of(body)
                yield from targets_of(getattr(ending, "steps", ()))
            case _:
                continue


def _names(target: Target) -> tuple[PlaceName, ...]:
    match target:
        case Next(names=names) | First(names=names) | Last(names=names) | Each(names=names):
            return names
        case _:
            return ()


def _has_chain(nodes: tuple[Node, ...]) -> bool:
    return any(
        node.place.name == "ch" if isinstance(node, Run) else _has_chain(node.nodes)
        for node in nodes
    )


def _chains_apart(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Every space as its single chains."""
    found: list[Node] = []
    for node in nodes:
        if isinstance(node, Run):
            if node.place.sort == "sp":
                found.append(Run(stitch("ch", "ch"), node.count * node.place.chains))
            else:
                found.append(node)
        else:
            found.append(node.with_nodes(_chains_apart(node.nodes)))
    return tuple(found)
