"""What a walk takes up of the row before, written down place by place.

Takes     what the cursor has passed, and which of it was worked into.
Gives     ``Ledger``: places worked into, places passed over, by name; ``Trail``: one by one;
          ``apart``, ``number_of``: places that bear a number each.
Problems  none.
From      notation.md, the table of steps, column "takes up".

A count needs no ledger, and no walk that counts keeps one. It is kept by the walk that tells a
maker which stitches a row is worked into (``into``), and is never changed but replaced, so that a
state of the hook can be come back to with what was written down until then.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from workeven.notation.tree import Step
from workeven.proof.fabric import Loop, Match, Node, Place, Run, tally_of
from workeven.records import replace

#: so many places of each name
Places = Mapping[str, int]
NOTHING: Places = MappingProxyType({})
#: what begins the mark that tells a place apart
_MARK = "@"


class Entered(NamedTuple):
    """A place worked into, with those beside it: what tells one gap from another.

    ``before`` and ``behind`` are None where nothing stands there any more, or not yet.
    """

    place: Place
    before: Place | None
    behind: Place | None


class Worked(NamedTuple):
    """One step: the places that it has worked into, in order, and those that it has made.

    ``at`` is the place in front of the hook behind it.
    """

    step: Step
    into: tuple[Entered, ...]
    made: tuple[Place, ...]
    at: Place | None = None


class Trail(NamedTuple):
    """Every step so far, for a walk over places that are told apart (``placed``).

    ``into`` are the places worked into since the last of the steps.
    """

    steps: tuple[Worked, ...] = ()
    into: tuple[Entered, ...] = ()


class Ledger(NamedTuple):
    """Places worked ``into``, and places passed ``over`` without working into them.

    ``entered``: how many are entered in another way than under both loops, by the way.
    ``trail``: the same place by place, where that is asked for.
    """

    into: Places = NOTHING
    over: Places = NOTHING
    entered: Places = NOTHING
    trail: Trail | None = None

    def went(self, before: tuple[Node, ...], after: tuple[Node, ...], match: Match) -> Ledger:
        """The same after going on from places to those behind them, working into some."""
        were, left = tally_of(before, can_be_left), tally_of(after, can_be_left)
        worked = less(tally_of(before, match), tally_of(after, match))
        told = self.passed(were, left, worked)
        if self.trail is None:
            return told
        there = one_by_one(before)
        gone = there[: len(there) - len(one_by_one(after))]
        into = (
            *self.trail.into,
            *(_entered(there, at) for at, place in enumerate(gone) if match(place)),
        )
        return told._replace(trail=self.trail._replace(into=into))

    def stepped(self, step: Step, made: tuple[Place, ...], at: Place | None) -> Ledger:
        """The same behind a step that has made these places."""
        if self.trail is None:
            return self
        steps = (*self.trail.steps, Worked(step, self.trail.into, made, at))
        return self._replace(trail=Trail(steps))

    def passed(self, there: Places, left: Places, worked: Places) -> Ledger:
        """The same after passing from what was ``there`` to what is ``left``, working into some."""
        gone = {name: number - left.get(name, 0) for name, number in there.items()}
        over = {name: number - worked.get(name, 0) for name, number in gone.items()}
        return Ledger(plus(self.into, worked), plus(self.over, over), self.entered, self.trail)

    def can_be_told(self, runs: list[tuple[Run, int]]) -> bool:
        """Whether these places can be told apart without those beside them: gaps cannot."""
        return self.trail is None or all(run.place.sort != "gap" for run, _ in runs)

    def took(self, runs: list[tuple[Run, int]]) -> Ledger:
        """The same after working into so many places of each of these runs, passing no other."""
        into = dict(self.into)
        for run, number in runs:
            into[run.place.name] = into.get(run.place.name, 0) + number
        trail = self.trail
        if trail is not None:
            new = [Entered(run.place, None, None) for run, number in runs for _ in range(number)]
            trail = trail._replace(into=(*trail.into, *new))
        return Ledger(into, self.over, self.entered, trail)

    def worked_into(self, name: str, count: int) -> Ledger:
        """The same, with so many more places worked into."""
        return Ledger(plus(self.into, {name: count}), self.over, self.entered, self.trail)

    def only_passed_since(self, earlier: Ledger) -> Ledger:
        """What was written down since is passed over: nothing was worked there."""
        since = plus(less(self.into, earlier.into), less(self.over, earlier.over))
        return Ledger(earlier.into, plus(earlier.over, since), earlier.entered, earlier.trail)

    def again(self, earlier: Ledger, times: int) -> Ledger:
        """What was written down since, so many times more."""
        return Ledger(
            plus(self.into, less(self.into, earlier.into), times),
            plus(self.over, less(self.over, earlier.over), times),
            plus(self.entered, less(self.entered, earlier.entered), times),
            self.trail,
        )

    def entered_since(self, earlier: Ledger, way: str) -> Ledger:
        """The same; the places worked into since were entered in this way."""
        number = sum(less(self.into, earlier.into).values())
        return Ledger(self.into, self.over, plus(self.entered, {way: number}), self.trail)


def plus(places: Places, more: Places, times: int = 1) -> Places:
    """Places and more of them, in the order in which their names first come.

    >>> plus({"dc": 3}, {"ch-2 sp": 1, "dc": 2}, 2)
    {'dc': 7, 'ch-2 sp': 2}
    """
    found = dict(places)
    for name, number in more.items():
        if number:
            found[name] = found.get(name, 0) + number * times
    return found


def less(places: Places, fewer: Places) -> Places:
    """Places without so many of them."""
    return {name: number - fewer.get(name, 0) for name, number in places.items()}


def can_be_left(place: Place) -> bool:
    """Whether it is told of a place that nothing is worked there: no gap, and no side of a leaf."""
    return place.sort in ("st", "sp", "ch") or place.name == "row end"


def _entered(places: tuple[Place, ...], at: int) -> Entered:
    before = places[at - 1] if at else None
    return Entered(places[at], before, places[at + 1] if at + 1 < len(places) else None)


def one_by_one(nodes: tuple[Node, ...]) -> tuple[Place, ...]:
    """Every place of its own, in order."""
    found: list[Place] = []
    for node in nodes:
        if isinstance(node, Run):
            found += [node.place] * node.count
        else:
            found += one_by_one(node.nodes) * node.times
    return tuple(found)


def apart(nodes: tuple[Node, ...], first: int) -> tuple[Node, ...]:
    """The same places, each with a mark of its own: its number, from this one on."""
    return _apart(nodes, [first])


def _apart(nodes: tuple[Node, ...], number: list[int]) -> tuple[Node, ...]:
    found: list[Node] = []
    for node in nodes:
        if isinstance(node, Loop):
            for _ in range(node.times):
                inside = _apart(node.nodes, number)
                found += [node.with_nodes(inside, 1)] if node.group else inside
            continue
        for _ in range(node.count):
            marks = (*node.place.marks, f"{_MARK}{number[0]}")
            found.append(Run(replace(node.place, marks=marks), 1))
            number[0] += 1
    return tuple(found)


def number_of(place: Place) -> int | None:
    """The number of a place; one that the walk has put there itself has none."""
    told = [mark for mark in place.marks if mark.startswith(_MARK)]
    return int(told[0].removeprefix(_MARK)) if told else None
