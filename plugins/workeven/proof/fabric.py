"""The fabric: the places that a row leaves, and the hook that walks along them.

Takes     what a row makes.
Gives     ``Place``, ``Run``, ``Loop``, ``Group``, ``Fabric``, ``Cursor``.
Problems  none.
From      notation.md, "The fabric".

Places are never a list of stitches. A row of 100,000 sc is one ``Run``; ``*sc 7, sc2tog`` worked
six times is one ``Loop`` of two runs. The cursor is a path into that tree: at each level which
node, and how many times round the loop is still to come. Whole runs and whole turns of a loop are
passed in one step, so the cost of a walk grows with the text and not with the stitches.

Worked example: over ``Loop((Run(sc, 7), Run(sc2tog, 1)), 6)``, 48 stitches, taking 20 stitches
passes two whole turns (16) and four of the third: the path is ((turn 3 of 6, node 0), 4 used).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from workeven.notation.tree import Chain

PlaceSort = Literal["st", "sp", "ch", "gap"]


@dataclass(frozen=True, slots=True)
class Place:
    """One place that the next row can work into.

    ``sort``: a counted stitch, a chain space, a chain of the starting chain, or a gap. ``name`` is what
    a count reports ("sc2tog", "ch-2 sp"), ``base`` the basic stitch it is counted as. ``chains``
    is the length of a space or of a counted chain; ``turning`` marks a counted beginning or
    turning chain. ``marks`` are what a row asks for inside a group (see ``parts``).
    """

    sort: PlaceSort
    name: str
    base: str
    chains: int = 0
    turning: bool = False
    marks: tuple[str, ...] = ()

    def counts(self) -> bool:
        """Whether it is a stitch in a count of stitches."""
        return self.sort in ("st", "ch")


def stitch(name: str, base: str) -> Place:
    """A counted stitch."""
    return Place("st", name, base)


def space(chains: int) -> Place:
    """A chain space."""
    return Place("sp", f"ch-{chains} sp", "sp", chains)


CHAIN = Place("ch", "ch", "ch", 1)


class Run:
    """So many places of one kind, side by side."""

    __slots__ = ("count", "place", "sts")

    def __init__(self, place: Place, count: int) -> None:
        self.place = place
        self.count = count
        self.sts = count if place.sort in ("st", "ch") else 0

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Run) and self.count == other.count and self.place == other.place

    def __hash__(self) -> int:
        return hash((self.place, self.count))

    def __repr__(self) -> str:
        return f"{self.place.name}×{self.count}"


class Loop:
    """Nodes that come several times over.

    ``group`` marks what was worked into one place (then ``times`` is 1), ``name`` is the special
    stitch that it is. ``optional`` marks places passed by travel at the head of a round: they can
    be worked into and need not be.
    """

    __slots__ = ("group", "name", "nodes", "once", "optional", "sts", "times")

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
        self.once = sum(node.sts for node in nodes)
        self.sts = self.once * times

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


Node = Run | Loop


@dataclass(frozen=True, slots=True)
class Fabric:
    """The places that a row leaves, in working order for the next one.

    ``closed``: a round. ``ring``: everything goes into the ring. ``join_last``: a round that was
    joined and turned: the joined place is the last of the list, and the hook stands at it.
    ``turning_chain``: chains worked at the end of the row for the next one. ``turned``: whether
    the work was turned after the row. ``foundation``: the starting chain, not yet worked into.
    """

    nodes: tuple[Node, ...]
    closed: bool = False
    ring: bool = False
    join_last: bool = False
    turning_chain: Chain | None = None
    turned: bool = False
    foundation: bool = False

    @property
    def sts(self) -> int:
        """Counted stitches."""
        return sum(node.sts for node in self.nodes)


def reversed_nodes(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The same places seen after turning the work."""
    return tuple(_reversed(node) for node in reversed(nodes))


def _reversed(node: Node) -> Node:
    if isinstance(node, Run):
        return node
    inside = reversed_nodes(node.nodes)
    return Loop(inside, node.times, group=node.group, name=node.name, optional=node.optional)


class Builder:
    """Collects what a row makes, folding neighbours that are alike."""

    __slots__ = ("nodes",)

    def __init__(self) -> None:
        self.nodes: list[Node] = []

    def add(self, place: Place, count: int) -> None:
        """Add places of one kind."""
        if count <= 0:
            return
        last = self.nodes[-1] if self.nodes else None
        if isinstance(last, Run) and last.place == place:
            self.nodes[-1] = Run(place, last.count + count)
        else:
            self.nodes.append(Run(place, count))

    def add_node(self, node: Node) -> None:
        """Add a node as it is."""
        if isinstance(node, Run):
            self.add(node.place, node.count)
        else:
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
        last = self.nodes[-1] if self.nodes else None
        if isinstance(last, Loop) and not last.group and last.nodes == nodes:
            self.nodes[-1] = Loop(nodes, last.times + times)
        elif len(nodes) == 1 and isinstance(only, Loop) and not only.group:
            self.nodes.append(Loop(only.nodes, only.times * times))
        else:
            self.nodes.append(Loop(nodes, times))


Match = Callable[[Place], bool]


def count_in(nodes: tuple[Node, ...], match: Match) -> int:
    """How many places of these nodes match."""
    total = 0
    for node in nodes:
        if isinstance(node, Run):
            if match(node.place):
                total += node.count
        else:
            total += count_in(node.nodes, match) * node.times
    return total


def count_stitches(place: Place) -> bool:
    """The match for any counted stitch."""
    return place.sort in ("st", "ch")


def _amount(node: Node, match: Match) -> int:
    if match is count_stitches:
        return node.sts
    if isinstance(node, Run):
        return node.count if match(node.place) else 0
    return count_in(node.nodes, match) * node.times


class _Frame:
    """One level of the path: which nodes, which of them, how many turns of the loop to come."""

    __slots__ = ("index", "left", "nodes", "optional")

    def __init__(self, nodes: tuple[Node, ...], index: int, left: int, *, optional: bool) -> None:
        self.nodes = nodes
        self.index = index
        self.left = left
        self.optional = optional

    def copy(self) -> _Frame:
        return _Frame(self.nodes, self.index, self.left, optional=self.optional)


#: a state of the cursor in which one counter is left out, and that counter's value
Key = tuple[object, ...]


class Cursor:
    """Where the hook is in the fabric."""

    __slots__ = ("frames", "used")

    def __init__(self, nodes: tuple[Node, ...]) -> None:
        self.frames = [_Frame(nodes, 0, 0, optional=False)]
        self.used = 0

    def copy(self) -> Cursor:
        """An independent copy, to come back to."""
        twin = Cursor.__new__(Cursor)
        twin.frames = [frame.copy() for frame in self.frames]
        twin.used = self.used
        return twin

    # --- looking ---------------------------------------------------------------------------

    def peek(self) -> Place | None:
        """The next place, or None at the end."""
        node = self.enter()
        return None if node is None else node.place

    def remaining(self, match: Match, *, required: bool = False) -> int:
        """How many places to come match; ``required`` leaves those out that need no working."""
        total = 0
        innermost = self.frames[-1]
        for frame in self.frames:
            if required and frame.optional:
                break
            ahead = 0
            for at in range(
                frame.index if frame is innermost else frame.index + 1, len(frame.nodes)
            ):
                node = frame.nodes[at]
                if required and isinstance(node, Loop) and node.optional:
                    continue
                ahead += _amount(node, match)
            if frame is innermost and self.used:
                current = frame.nodes[frame.index]
                if isinstance(current, Run) and match(current.place):
                    ahead -= self.used
            total += ahead
            if frame.left:
                total += frame.left * sum(_amount(node, match) for node in frame.nodes)
        return total

    def before(self, stop: Match, match: Match) -> int | None:
        """How many matching places come before the next place at which ``stop`` holds.

        None where no such place comes.
        """
        if self.remaining(stop) == 0:
            return None
        probe = self.copy()
        total = 0
        while (node := probe.enter()) is not None:
            if stop(node.place):
                return total
            if match(node.place):
                total += node.count - probe.used
            probe.pass_node()
        return None

    def at_end(self) -> bool:
        """Whether no place is left."""
        return self.enter() is None

    # --- moving ----------------------------------------------------------------------------

    def take(self, match: Match, count: int) -> int:
        """Pass the next ``count`` places that match, and all before them; gives how many came."""
        taken = 0
        while taken < count:
            frame = self.frames[-1]
            if frame.index >= len(frame.nodes):
                jumped = self._turn_over(match, count - taken)
                if jumped is None:
                    return taken
                taken += jumped
                continue
            node = frame.nodes[frame.index]
            if isinstance(node, Run):
                if match(node.place):
                    step = min(node.count - self.used, count - taken)
                    taken += step
                    self._use(node, step)
                else:
                    self.pass_node()
                continue
            taken += self._into_loop(node, match, count - taken)
        return taken

    def pass_over(self, match: Match) -> None:
        """Pass places as long as the next one matches."""
        while (node := self.enter()) is not None and match(node.place):
            self.pass_node()

    def rest(self) -> tuple[Node, ...]:
        """The nodes still to come, as a fabric of their own."""
        builder = Builder()
        for depth in range(len(self.frames) - 1, -1, -1):
            frame = self.frames[depth]
            innermost = depth == len(self.frames) - 1
            start = frame.index if innermost else frame.index + 1
            for at in range(start, len(frame.nodes)):
                node = frame.nodes[at]
                if innermost and at == frame.index and self.used and isinstance(node, Run):
                    builder.add(node.place, node.count - self.used)
                else:
                    builder.add_node(node)
            builder.add_times(frame.nodes, frame.left)
        return tuple(builder.nodes)

    def passed(self) -> tuple[Node, ...]:
        """The nodes already passed, for a path that is not deeper than its first level."""
        builder = Builder()
        for depth, frame in enumerate(self.frames):
            if depth:
                parent = self.frames[depth - 1]
                loop = parent.nodes[parent.index]
                if isinstance(loop, Loop):
                    builder.add_times(frame.nodes, loop.times - frame.left - 1)
            for at in range(min(frame.index, len(frame.nodes))):
                builder.add_node(frame.nodes[at])
        last = self.frames[-1]
        if self.used:
            node = last.nodes[last.index]
            if isinstance(node, Run):
                builder.add(node.place, self.used)
        return tuple(builder.nodes)

    # --- cycles ----------------------------------------------------------------------------

    def keys(self) -> Iterator[tuple[Key, int]]:
        """The state, once for each counter: (all but that counter, that counter's value).

        Two states with the same key differ only in one counter: how many turns of one loop are
        still to come, or how much of one run is left. What was worked between them can be worked
        again as often as that counter allows.
        """
        self.enter()
        whole: list[object] = []
        for frame in self.frames:
            whole.extend((id(frame.nodes), frame.index, frame.left))
        for depth, frame in enumerate(self.frames):
            if frame.left:
                at = depth * 3 + 2
                yield (at, self.used, *whole[:at], *whole[at + 1 :]), frame.left
        frame = self.frames[-1]
        if frame.index < len(frame.nodes):
            node = frame.nodes[frame.index]
            if isinstance(node, Run):
                yield (-1, None, *whole), node.count - self.used

    def jump(self, key: Key, amount: int) -> None:
        """Lower the counter that ``key`` left out by ``amount``."""
        at = key[0]
        if at == -1:
            node = self.frames[-1].nodes[self.frames[-1].index]
            if isinstance(node, Run):
                self._use(node, amount)
        elif isinstance(at, int):
            self.frames[at // 3].left -= amount

    # --- inside ----------------------------------------------------------------------------

    def _turn_over(self, match: Match, wanted: int) -> int | None:
        """At the end of a level: go round again, or one level up.

        Gives how many matching places were passed in whole turns; None at the end of the fabric.
        """
        frame = self.frames[-1]
        if frame.left:
            once = sum(_amount(node, match) for node in frame.nodes)
            whole = frame.left if once == 0 else min(frame.left - 1, (wanted - 1) // once)
            frame.left -= whole
            if frame.left:
                frame.left -= 1
                frame.index = 0
            return whole * once
        if len(self.frames) == 1:
            return None
        self.frames.pop()
        self.frames[-1].index += 1
        return 0

    def _into_loop(self, loop: Loop, match: Match, wanted: int) -> int:
        """Pass a loop whole where it is not enough, else go into the turn that matters."""
        frame = self.frames[-1]
        once = sum(_amount(node, match) for node in loop.nodes)
        if once * loop.times < wanted or once == 0:
            frame.index += 1
            return once * loop.times
        whole = (wanted - 1) // once
        self.frames.append(
            _Frame(loop.nodes, 0, loop.times - 1 - whole, optional=loop.optional or frame.optional)
        )
        return whole * once

    def enter(self) -> Run | None:
        """Go down to the next run, or None at the end of the fabric."""
        while True:
            frame = self.frames[-1]
            if frame.index < len(frame.nodes):
                node = frame.nodes[frame.index]
                if isinstance(node, Run):
                    return node
                self.frames.append(
                    _Frame(node.nodes, 0, node.times - 1, optional=node.optional or frame.optional)
                )
            elif frame.left:
                frame.left -= 1
                frame.index = 0
            elif len(self.frames) == 1:
                return None
            else:
                self.frames.pop()
                self.frames[-1].index += 1

    def _use(self, node: Run, count: int) -> None:
        self.used += count
        if self.used >= node.count:
            self.pass_node()

    def pass_node(self) -> None:
        self.frames[-1].index += 1
        self.used = 0
