"""The fabric: the places that a row leaves for the next one.

Takes     what a row makes.
Gives     ``Place``, ``Run``, ``Loop``, ``Fabric``, ``Builder``.
Problems  none.
From      notation.md, "The fabric".

Places are never a list of stitches. A row of 100,000 sc is one ``Run``; ``*sc 7, sc2tog`` worked
six times is one ``Loop`` of two runs. So a fabric is as large as the text that made it, and what
is often asked of it (how many stitches, of one kind or not) every node knows.

Worked example: ``[sc 7, sc2tog] 6 times`` leaves ``Loop((Run(sc, 7), Run(sc2tog, 1)), 6)``, which
is 48 stitches.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Literal, NamedTuple

from workeven.notation.tree import Chain
from workeven.records import record_by_position

PlaceSort = Literal["st", "sp", "ch", "gap", "side", "off"]
#: the sorts that are stitches in a count of stitches
COUNTED = ("st", "ch")


@record_by_position
class Place:
    """One place that the next row can work into.

    ``sort``: a counted stitch, a chain space, a chain of the starting chain, a gap, or the side of
    a leaf. ``name`` is
    what a count reports ("sc2tog", "ch-2 sp"), ``base`` the basic stitch it is counted as.
    ``chains`` is the length of a space or of a counted chain; ``turning`` marks a counted beginning
    or turning chain. ``marks`` are what a row asks for inside a group (see ``parts``). ``parted``:
    a space that is no part of the space before it (see ``chain_runs``).
    """

    sort: PlaceSort
    name: str
    base: str
    chains: int = 0
    turning: bool = False
    marks: tuple[str, ...] = ()
    parted: bool = False

    def counts(self) -> bool:
        """Whether it is a stitch in a count of stitches."""
        return self.sort in COUNTED


@lru_cache(maxsize=1024)
def stitch(name: str, base: str) -> Place:
    """A counted stitch."""
    return Place("st", name, base)


@lru_cache(maxsize=1024)
def counted_chain(name: str, base: str, chains: int) -> Place:
    """A beginning or turning chain that counts as a stitch."""
    return Place("st", name, base, chains, turning=True)


@lru_cache(maxsize=1024)
def space(chains: int, *, parted: bool = False) -> Place:
    """A chain space."""
    return Place("sp", f"ch-{chains} sp", "sp", chains, parted=parted)


#: the mark of a place that a picot stands on
PICOT = "picot"
#: the mark of a space inside a group
IN_GROUP = "in a group"
CHAIN = Place("ch", "ch", "ch", 1)


class Run:
    """So many places of one kind, side by side.

    ``sts`` is how many of them are counted stitches, ``plain`` whether they are, ``base`` the
    basic stitch of them all ("" where they are chains, spaces or gaps).
    """

    __slots__ = ("base", "count", "place", "plain", "sts")

    def __init__(self, place: Place, count: int) -> None:
        self.place = place
        self.count = count
        self.plain: bool = place.sort in COUNTED
        self.sts: int = count if self.plain else 0
        self.base: str = place.base if place.sort == "st" else ""

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, Run)
            and self.count == other.count
            and (self.place is other.place or self.place == other.place)
        )

    def __hash__(self) -> int:
        return hash((self.place, self.count))

    def __repr__(self) -> str:
        return f"{self.place.name}×{self.count}"


class Loop:
    """Nodes that come several times over.

    ``group`` marks what was worked into one place (then ``times`` is 1), ``name`` is the special
    stitch that it is. ``optional`` marks places passed by travel at the head of a round: they can
    be worked into and need not be. ``once`` is how many stitches one turn holds; ``sts``,
    ``plain`` and ``base`` say of all of it what they say of a run.
    """

    __slots__ = ("base", "group", "name", "nodes", "once", "optional", "plain", "sts", "times")

    def __init__(
        self,
        nodes: tuple[Node, ...],
        times: int,
        *,
        group: bool = False,
        name: str | None = None,
        optional: bool = False,
    ) -> None:
        self.nodes = nodes
        self.times = times
        self.group = group
        self.name = name
        self.optional = optional
        once, plain, base = 0, not optional, nodes[0].base if nodes else ""
        for node in nodes:
            once += node.sts
            plain = plain and node.plain
            if node.base != base:
                base = ""
        self.once: int = once
        self.sts: int = once * times
        self.plain: bool = plain
        self.base: str = base

    def __eq__(self, other: object) -> bool:
        if self is other:
            return True
        return (
            isinstance(other, Loop)
            and self.times == other.times
            and self.group == other.group
            and self.name == other.name
            and self.optional == other.optional
            and self.sts == other.sts
            and self.nodes == other.nodes
        )

    def __hash__(self) -> int:
        return hash((self.times, self.sts, self.name, len(self.nodes)))

    def __repr__(self) -> str:
        kind = "group" if self.group else "loop"
        return f"{kind}({', '.join(map(repr, self.nodes))})×{self.times}"

    def with_nodes(self, nodes: tuple[Node, ...], times: int | None = None) -> Loop:
        """The same loop of other nodes (and of other turns, if said)."""
        return Loop(
            nodes,
            self.times if times is None else times,
            group=self.group,
            name=self.name,
            optional=self.optional,
        )


Node = Run | Loop


#: a marker: behind how many stitches it stands ``between`` two, or ``in`` the next one
Mark = tuple[int, str]
#: markers whose places nobody knows
LOST: Mark = (-1, "lost")


class Fabric(NamedTuple):
    """The places that a row leaves, in working order for the next one.

    ``closed``: a round. ``ring``: everything goes into the ring. ``join_last``: a round that was
    joined and turned: the joined place is the last of the list, and the hook stands at it.
    ``turning_chain``: chains worked at the end of the row for the next one. ``turned``: whether
    the work was turned after the row. ``foundation``: the starting chain, not yet worked into.
    ``marks`` are the markers. ``chains_count``: the count that the row states has the chains of its
    spaces among the stitches, so that they are stitches for a row that names no spaces.
    (A named tuple: one is made a row and size, and it is made faster than a dataclass.)
    """

    nodes: tuple[Node, ...]
    closed: bool = False
    ring: bool = False
    join_last: bool = False
    turning_chain: Chain | None = None
    turned: bool = False
    foundation: bool = False
    marks: tuple[Mark, ...] = ()
    chains_count: bool = False

    @property
    def sts(self) -> int:
        """Counted stitches."""
        total = 0
        for node in self.nodes:
            total += node.sts
        return total


def turned_marks(marks: tuple[Mark, ...], sts: int) -> tuple[Mark, ...]:
    """The same markers seen after turning the work.

    >>> turned_marks(((13, "between"), (0, "in")), 30)
    ((17, 'between'), (29, 'in'))
    """
    if not marks or marks == (LOST,):
        return marks
    return tuple(
        sorted((sts - at if kind == "between" else sts - 1 - at, kind) for at, kind in marks)
    )


def reversed_nodes(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The same places seen after turning the work."""
    if len(nodes) == 1 and isinstance(nodes[0], Run):
        return nodes
    return tuple([node if isinstance(node, Run) else _reversed(node) for node in nodes[::-1]])


def _reversed(loop: Loop) -> Loop:
    inside = reversed_nodes(loop.nodes)
    return loop if inside is loop.nodes else loop.with_nodes(inside)


def last_place(nodes: tuple[Node, ...]) -> tuple[Place, tuple[Node, ...]]:
    """The last place of the nodes, and the nodes without it."""
    last = nodes[-1]
    before = nodes[:-1]
    if isinstance(last, Run):
        rest = (Run(last.place, last.count - 1),) if last.count > 1 else ()
        return last.place, (*before, *rest)
    place, inside = last_place(last.nodes)
    turns = (last.with_nodes(last.nodes, last.times - 1),) if last.times > 1 else ()
    return place, (*before, *turns, *inside)


def without_turning_chain(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The places up to the turning chain at their end ("leave turning ch unworked")."""
    found = list(nodes)
    while found:
        last = found.pop()
        if isinstance(last, Run) and last.place.turning:
            return (*found, *((Run(last.place, last.count - 1),) if last.count > 1 else ()))
        if isinstance(last, Run) and last.place.sort == "sp":
            continue
        if isinstance(last, Loop) and last.times == 1:
            inside = without_turning_chain(last.nodes)
            if inside != last.nodes:
                kept = (Loop(inside, 1, group=last.group, name=last.name),) if inside else ()
                return (*found, *kept)
        return nodes
    return nodes


def turning_chain_of(nodes: tuple[Node, ...]) -> Place | None:
    """The counted turning chain among the places, if there is one."""
    for node in nodes:
        found = turning_chain_of(node.nodes) if isinstance(node, Loop) else node.place
        if found is not None and found.turning:
            return found
    return None


def tally(nodes: tuple[Node, ...]) -> dict[str, int]:
    """How many places of each name there are, in the order in which the names come."""
    counts: dict[str, int] = {}
    _tally(nodes, 1, counts)
    return counts


def _tally(nodes: tuple[Node, ...], times: int, counts: dict[str, int]) -> None:
    for node in nodes:
        if isinstance(node, Run):
            if node.place.sort == "off":
                continue  # the stitches of a leaf
            name = node.place.name
            counts[name] = counts.get(name, 0) + node.count * times
        else:
            _tally(node.nodes, times * node.times, counts)


def tally_of(nodes: tuple[Node, ...], match: Match) -> dict[str, int]:
    """How many places of each name match; the stitches of leaves are none."""
    counts: dict[str, int] = {}
    _tally_of(nodes, match, 1, counts)
    return counts


def _tally_of(nodes: tuple[Node, ...], match: Match, times: int, counts: dict[str, int]) -> None:
    for node in nodes:
        if not isinstance(node, Run):
            _tally_of(node.nodes, match, times * node.times, counts)
        elif node.place.sort != "off" and match(node.place):
            counts[node.place.name] = counts.get(node.place.name, 0) + node.count * times


# --- counting places -----------------------------------------------------------------------

Match = Callable[[Place], bool]


def count_stitches(place: Place) -> bool:
    """The match for any counted stitch."""
    return place.sort in COUNTED


def any_place(_: Place) -> bool:
    """The match for every place."""
    return True


def no_place(_: Place) -> bool:
    """The match for none."""
    return False


def amount_in(node: Node, match: Match) -> int:
    """How many places of a node match."""
    if match is count_stitches:
        return node.sts
    if isinstance(node, Run):
        return node.count if match(node.place) else 0
    return amount_of(node.nodes, match) * node.times


def amount_of(nodes: tuple[Node, ...], match: Match) -> int:
    """How many places of these nodes match."""
    total = 0
    if match is count_stitches:
        for node in nodes:
            total += node.sts
        return total
    for node in nodes:
        if not isinstance(node, Run):
            total += amount_of(node.nodes, match) * node.times
        elif match(node.place):
            total += node.count
    return total


# --- building ------------------------------------------------------------------------------


class Builder:
    """Collects what a row makes, folding neighbours that are alike."""

    __slots__ = ("nodes",)

    def __init__(self, nodes: list[Node] | None = None) -> None:
        self.nodes: list[Node] = [] if nodes is None else nodes

    def add(self, place: Place, count: int) -> None:
        """Add places of one kind."""
        if count <= 0:
            return
        nodes = self.nodes
        if nodes:
            last = nodes[-1]
            if isinstance(last, Run) and (last.place is place or last.place == place):
                nodes[-1] = Run(place, last.count + count)
                return
        nodes.append(Run(place, count))

    def add_node(self, node: Node) -> None:
        """Add a node as it is."""
        if isinstance(node, Run):
            self.add(node.place, node.count)
        elif node.nodes:  # a group of nothing is none: "0 dc in next st (shell made)"
            self.nodes.append(node)

    def add_times(self, nodes: tuple[Node, ...], times: int) -> None:
        """Add the same nodes so many times over, as one loop."""
        if not nodes or times <= 0:
            return
        only = nodes[0]
        if len(nodes) == 1 and isinstance(only, Run):
            self.add(only.place, only.count * times)
            return
        if times == 1:
            for node in nodes:
                self.add_node(node)
            return
        if len(nodes) == 1 and isinstance(only, Loop) and not only.nodes:
            return
        last = self.nodes[-1] if self.nodes else None
        if isinstance(last, Loop) and not last.group and last.nodes == nodes:
            self.nodes[-1] = Loop(nodes, last.times + times)
        elif len(nodes) == 1 and isinstance(only, Loop) and not only.group:
            self.nodes.append(Loop(only.nodes, only.times * times))
        else:
            self.nodes.append(Loop(nodes, times))


#: how runs of chains that are the rest of a loop with a picot are counted beside the others
BEYOND = "|"


def inside_key(special: str, kind: str) -> str:
    """The name among the groups for the stitches of a kind inside a special stitch.

    >>> inside_key("V-st", "dc")
    '<V-st dc'
    """
    return f"<{special} {kind}"
