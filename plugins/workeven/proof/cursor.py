"""The hook on its way along a fabric: where it is, what is still to come.

Takes     the nodes of a ``Fabric``.
Gives     ``Cursor``.
Problems  none.
From      notation.md, "The fabric": "A row walks a cursor along those places."

The cursor is a path into the tree of nodes: at each level which node, and how many turns of the
loop are still to come. Whole runs and whole turns of a loop are passed in one step, so the cost of
a walk grows with the text and not with the stitches.

Worked example: over ``Loop((Run(sc, 7), Run(sc2tog, 1)), 6)``, 48 stitches, taking 20 stitches
passes two whole turns (16) and four of the third: the path is ((turn 3 of 6, node 0), 4 used).
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.proof.fabric import (
    Builder,
    Loop,
    Match,
    Node,
    Place,
    Run,
    amount_in,
    amount_of,
    any_place,
    count_stitches,
    last_place,
    no_place,
)
from workeven.proof.ledger import Ledger

#: from so many nodes on it is kept how many places are to come behind each of them; for so many
#: node tuples and matches at a time
_MANY, _KEPT = 12, 64

#: a state of the cursor in which one counter is left out, and that counter's value
Key = tuple[object, ...]


class _Frame:
    """One level of the path: which nodes, which of them, how many turns of the loop to come."""

    __slots__ = ("index", "left", "nodes", "optional")

    def __init__(self, nodes: tuple[Node, ...], index: int, left: int, optional: bool) -> None:  # noqa: FBT001, private, and made often
        self.nodes = nodes
        self.index = index
        self.left = left
        self.optional = optional


class Cursor:
    """Where the hook is in the fabric; ``last`` is the place that was taken last."""

    __slots__ = ("frames", "last", "ledger", "sums", "used")

    def __init__(self, nodes: tuple[Node, ...], ledger: Ledger | None = None) -> None:
        self.frames = [_Frame(nodes, 0, 0, False)]  # noqa: FBT003, the fabric itself is no choice
        self.used = 0
        self.last: Place | None = None
        self.ledger = ledger
        #: the nodes stand beside their sums, so that no others come to have their identity
        self.sums: dict[tuple[int, Match, bool], tuple[tuple[Node, ...], list[int]]] = {}

    def along(self, nodes: tuple[Node, ...]) -> Cursor:
        """The same hook on its way along other places."""
        return Cursor(nodes, self.ledger)

    def copy(self) -> Cursor:
        """An independent copy, to come back to."""
        twin = Cursor.__new__(Cursor)
        twin.frames = [_Frame(one.nodes, one.index, one.left, one.optional) for one in self.frames]
        twin.used, twin.last = self.used, self.last
        twin.ledger, twin.sums = self.ledger, self.sums
        return twin

    # --- looking ---------------------------------------------------------------------------

    def peek(self) -> Place | None:
        """The next place, or None at the end."""
        node = self.enter()
        return None if node is None else node.place

    def behind(self) -> Place | None:
        """The place just passed, or None before the first."""
        for depth in range(len(self.frames) - 1, -1, -1):
            frame = self.frames[depth]
            if self.used and frame is self.frames[-1]:
                node = frame.nodes[frame.index]
                return node.place if isinstance(node, Run) else None
            if frame.index:
                return last_place(frame.nodes[: frame.index])[0]
            around = self.frames[depth - 1] if depth else None
            loop = around.nodes[around.index] if around is not None else None
            if isinstance(loop, Loop) and loop.times > frame.left + 1:
                return last_place(frame.nodes)[0]
        return None

    def remaining(self, match: Match, *, required: bool = False) -> int:
        """How many places to come match; ``required`` leaves those out that need no working."""
        total = 0
        innermost = self.frames[-1]
        for frame in self.frames:
            if required and frame.optional:
                break
            start = frame.index if frame is innermost else frame.index + 1
            if len(frame.nodes) >= _MANY:
                total += self._behind(frame.nodes, match, required=required)[start]
                if frame.left:
                    total += frame.left * self._behind(frame.nodes, match, required=False)[0]
                continue
            for node in frame.nodes[start:] if start else frame.nodes:
                if not (required and isinstance(node, Loop) and node.optional):
                    total += amount_in(node, match)
            if frame.left:
                total += frame.left * amount_of(frame.nodes, match)
        if self.used and not (required and innermost.optional):
            current = innermost.nodes[innermost.index]
            if isinstance(current, Run) and match(current.place):
                total -= self.used
        return total

    def _behind(self, nodes: tuple[Node, ...], match: Match, *, required: bool) -> list[int]:
        """How many places match in each node and all behind it; 0 behind the last."""
        key = (id(nodes), match, required)
        known = self.sums.get(key)
        if known is not None:
            return known[1]
        sums = [0]
        for node in reversed(nodes):
            passed = required and isinstance(node, Loop) and node.optional
            sums.append(sums[-1] + (0 if passed else amount_in(node, match)))
        sums.reverse()
        if len(self.sums) >= _KEPT:
            self.sums.clear()
        self.sums[key] = (nodes, sums)
        return sums

    def before(self, stop: Match, match: Match) -> int | None:
        """How many matching places come before the next place at which ``stop`` holds.

        None where no such place comes.
        """
        total = 0
        for depth in range(len(self.frames) - 1, -1, -1):
            frame = self.frames[depth]
            innermost = frame is self.frames[-1]
            used = self.used if innermost else 0
            ahead = frame.nodes[frame.index if innermost else frame.index + 1 :]
            found, there = _up_to(ahead, stop, match)
            total += there
            if used and not (found and there == 0) and _matches(ahead[0], match):
                total -= used
            if found:
                return total
            if frame.left:
                found, there = _up_to(frame.nodes, stop, match)
                if found:
                    return total + there
                total += there * frame.left
        return None

    # --- moving ----------------------------------------------------------------------------

    def take(self, match: Match, count: int) -> int:
        """Pass the next ``count`` places that match, and all before them; gives how many came."""
        if self.ledger is not None:
            return self._written_down(self.ledger, match, count)
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
            if not isinstance(node, Run):
                taken += self._into_loop(node, match, count - taken)
            elif match(node.place):
                step = min(node.count - self.used, count - taken)
                taken += step
                self.last = node.place
                self._use(node, step)
            else:
                self._pass_node()
        return taken

    def pass_by(self, match: Match, count: int) -> None:
        """The same places passed, and none of them worked into."""
        before = self.ledger
        self.take(match, count)
        self.nothing_worked_since(before)

    def leave_group(self, *names: str) -> None:
        """Pass the rest of the group that the hook is in the midst of; elsewhere nothing.

        ``names``: only of a group of such a name, not of a corner that holds it.
        """
        if len(self.frames) == 1:
            return
        frame, outer = self.frames[-1], self.frames[-2]
        around = outer.nodes[outer.index]
        inside = frame.index or self.used
        if names and isinstance(around, Loop) and around.name not in names:
            return
        if isinstance(around, Loop) and around.group and inside:
            rest = sum(amount_in(node, any_place) for node in frame.nodes[frame.index :])
            self.pass_by(any_place, rest - self.used)

    def nothing_worked_since(self, before: Ledger | None) -> None:
        """What was taken since the ledger stood so is only passed over."""
        if self.ledger is not None and before is not None:
            self.ledger = self.ledger.only_passed_since(before)

    def worked_into(self, name: str, count: int) -> None:
        """Note places worked into that lie off this way: a post rows below, a gap."""
        if self.ledger is not None:
            self.ledger = self.ledger.worked_into(name, count)

    def entered_since(self, before: Ledger, way: str) -> None:
        """The places worked into since were entered in this way ("": under both loops)."""
        if self.ledger is not None and way:
            self.ledger = self.ledger.entered_since(before, way)

    def go_to(self, match: Match) -> None:
        """Pass all places before the next one that matches (all there are, if none does)."""
        if self.ledger is not None:
            self._pass_to(self.ledger, match)
            return
        while True:
            frame = self.frames[-1]
            if frame.index < len(frame.nodes):
                node = frame.nodes[frame.index]
                if isinstance(node, Run):
                    if match(node.place):
                        return
                    self._pass_node()
                elif amount_in(node, match):
                    self._descend(node, node.times - 1)
                else:
                    frame.index += 1
            elif frame.left and amount_of(frame.nodes, match):
                frame.left -= 1
                frame.index = 0
            elif len(self.frames) == 1:
                return
            else:
                self._climb()

    def enter(self) -> Run | None:
        """Go down to the next run, or None at the end of the fabric."""
        while True:
            frame = self.frames[-1]
            if frame.index < len(frame.nodes):
                node = frame.nodes[frame.index]
                if isinstance(node, Run):
                    return node
                self._descend(node, node.times - 1)
            elif frame.left:
                frame.left -= 1
                frame.index = 0
            elif len(self.frames) == 1:
                return None
            else:
                self._climb()

    # --- what is passed and what is to come ------------------------------------------------

    def rest(self) -> tuple[Node, ...]:
        """The nodes still to come, as a fabric of their own."""
        if len(self.frames) == 1 and self.frames[0].index == 0 and not self.used:
            return self.frames[0].nodes
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

    def counters(self) -> Iterator[tuple[Key, int]]:
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

    # --- what is taken up ------------------------------------------------------------------

    def _written_down(self, ledger: Ledger, match: Match, count: int) -> int:
        """Take, and write down what was taken and what was passed on the way."""
        ahead = self._straight_ahead(match, count)
        if ahead is not None and ledger.can_be_told(ahead):  # nothing else is passed
            for run, number in ahead:
                self.last = run.place
                self._use(run, number)
            self.ledger = ledger.took(ahead)
            return count
        before = self.rest()
        self.ledger = None
        taken = self.take(match, count)
        self.ledger = ledger.went(before, self.rest(), match)
        return taken

    def _pass_to(self, ledger: Ledger, match: Match) -> None:
        """Go to a place, and write down what was passed on the way."""
        here = self._here()
        if here is not None and match(here.place):
            return
        before = self.rest()
        self.ledger = None
        self.go_to(match)
        self.ledger = ledger.went(before, self.rest(), no_place)

    def _straight_ahead(self, match: Match, count: int) -> list[tuple[Run, int]] | None:
        """The runs that the next places are taken from, where each of them matches; else None."""
        if count <= 0:
            return None
        frame, used, found = self.frames[-1], self.used, list[tuple[Run, int]]()
        for at in range(frame.index, len(frame.nodes)):
            node = frame.nodes[at]
            if not isinstance(node, Run) or not match(node.place) or node.place.sort == "off":
                return None
            number = min(node.count - used, count)
            found.append((node, number))
            count, used = count - number, 0
            if not count:
                return found
        return None

    def _here(self) -> Run | None:
        """The run that the hook is at, without moving; None at the end of a level or at a loop."""
        frame = self.frames[-1]
        node = frame.nodes[frame.index] if frame.index < len(frame.nodes) else None
        return node if isinstance(node, Run) else None

    # --- inside ----------------------------------------------------------------------------

    def _turn_over(self, match: Match, wanted: int) -> int | None:
        """At the end of a level: go round again, or one level up.

        Gives how many matching places were passed in whole turns; None at the end of the fabric.
        """
        frame = self.frames[-1]
        if frame.left:
            once = amount_of(frame.nodes, match)
            whole = frame.left if once == 0 else min(frame.left - 1, (wanted - 1) // once)
            frame.left -= whole
            if frame.left:
                frame.left -= 1
                frame.index = 0
            return whole * once
        if len(self.frames) == 1:
            return None
        self._climb()
        return 0

    def _into_loop(self, loop: Loop, match: Match, wanted: int) -> int:
        """Pass a loop whole where it is not enough, else go into the turn that matters."""
        once = loop.once if match is count_stitches else amount_of(loop.nodes, match)
        if once * loop.times < wanted or once == 0:
            self.frames[-1].index += 1
            return once * loop.times
        whole = (wanted - 1) // once
        self._descend(loop, loop.times - 1 - whole)
        return whole * once

    def _descend(self, loop: Loop, left: int) -> None:
        """Go into a loop of which so many turns come after the one begun."""
        optional = loop.optional or self.frames[-1].optional
        self.frames.append(_Frame(loop.nodes, 0, left, optional))

    def _climb(self) -> None:
        """Leave a loop at its end."""
        self.frames.pop()
        self.frames[-1].index += 1

    def _use(self, node: Run, count: int) -> None:
        self.used += count
        if self.used >= node.count:
            self._pass_node()

    def _pass_node(self) -> None:
        self.frames[-1].index += 1
        self.used = 0


def _matches(node: Node, match: Match) -> bool:
    return isinstance(node, Run) and match(node.place)


def _up_to(nodes: tuple[Node, ...], stop: Match, match: Match) -> tuple[bool, int]:
    """Whether a place at which ``stop`` holds is there, and the matching places before it."""
    total = 0
    for node in nodes:
        if isinstance(node, Run):
            if stop(node.place):
                return True, total
            total += node.count if match(node.place) else 0
        elif amount_of(node.nodes, stop):
            return True, total + _up_to(node.nodes, stop, match)[1]
        else:
            total += amount_in(node, match)
    return False, total
