"""The turns of one repeat: worked one by one, folded where alike, jumped in whole cycles.

Takes     a ``Hook`` and the steps of a repeat's body.
Gives     ``Turns``.
Problems  ``row-too-many``; the ``Fault`` of the turn that does not fit is kept.
From      notation.md, "Repeats nest".

Where the cursor comes back to a state that differs from an earlier one in a single counter (turns
of a loop, or places of a run, still to come), what was worked in between is a cycle: it can be
worked again as often as that counter allows, so whole cycles are jumped by division.

Worked example: ``*dc in next 3 sts, sk 1; rep from *`` over a run of 4,000 places. After the first
turn 3,996 are to come, after the second 3,992: a cycle of one turn that takes 4. All but the last
few turns are passed at once, and their counts added.
"""

from __future__ import annotations

from collections import deque
from typing import Any, NamedTuple

from workeven.notation.tree import Step
from workeven.proof.context import Fault
from workeven.proof.cursor import Key
from workeven.proof.fabric import Builder, Match, Node, any_place, count_stitches
from workeven.proof.hook import Hook, PicotAt, Saved, Stands, Walk
from workeven.proof.ledger import Ledger
from workeven.proof.making import Made

#: turns of an open repeat that are kept to go back to, beside those that the tail may need
_KEPT = 6
#: two turns are worked sooner than jumped
_WORTH_JUMPING = 2
#: so many turns of all repeats of a row are worked one by one, where no cycle can be jumped
MOST_TURNS = 2_000

#: what turns that are alike make, and how many turns they are
_Folded = tuple[tuple[Node, ...], int]
#: places that a repeat leaves: which ones count, and how many of them are not for its turns
Kept = tuple[Match, int]


class _Seen(NamedTuple):
    """A state met before: the turn, the counter's value, what was made, the places to come.

    ``folded`` is how many foldings there were, and how often the last of them was worked.
    ``ledger`` is what was taken up until then, where that is written down.
    """

    turn: int
    value: int
    folded: tuple[int, int]
    counts: tuple[dict[Any, int], ...]
    to_come: tuple[int, ...]
    ledger: Ledger | None


class Turns:
    """The turns of one repeat: ``count`` of them so far, ``takes`` what the first one took.

    ``failed`` is why a turn more does not fit; ``idle``: a turn takes up nothing.
    """

    def __init__(self, hook: Hook, body: tuple[Step, ...], walk: Walk) -> None:
        self.hook = hook
        self.body = body
        self.work_through = walk
        self.outer = hook.made.out
        self.folded: list[_Folded] = []
        self.seen: dict[tuple[Key, Stands, bool, PicotAt, bool], _Seen] = {}
        self.count = self.takes = 0
        self.failed: Fault | None = None
        self.idle = False

    def go(self, times: int) -> None:
        """Work the body exactly so many times."""
        while self.count < times:
            if times - self.count > _WORTH_JUMPING:
                self._jump(times - self.count, ())
            if self.count < times:
                self._turn()

    def as_often_as_it_fits(self, reserve: int, stop: Kept | None) -> list[Saved]:
        """Work the body until it does not fit, or up to ``stop``; the states before each turn.

        The list begins with the state before the first turn; of the others it holds the last
        ones, as many as steps that need ``reserve`` places may have to go back.
        """
        hook = self.hook
        first = self._state()
        saved: deque[Saved] = deque((first,), maxlen=_KEPT + reserve + 1)
        while not self._at_end(stop):
            beyond = reserve + (stop[1] if stop is not None and reserve else 0)
            kept: tuple[Kept, ...] = ((hook.wanted(), beyond), *((stop,) if stop else ()))
            if self._jump(None, kept):
                saved.append(self._state())
            there = hook.cursor.remaining(any_place)
            try:
                self._turn()
            except Fault as fault:
                if fault.code == "row-too-many":
                    raise
                self.failed = fault
                break
            saved.append(self._state())
            self.idle = hook.cursor.remaining(any_place) == there
            if self.idle:
                break
        states = list(saved)
        return states if states[0] is first else [first, *states]

    def close(self) -> None:
        """Hand what was made to the hook."""
        self.hook.made.out = self._whole(self.outer)

    def _at_end(self, stop: Kept | None) -> bool:
        if self.count and self.hook.left() == 0 and not self.hook.shared:
            return True
        return stop is not None and self.hook.cursor.remaining(stop[0], required=True) <= stop[1]

    def _whole(self, out: Builder) -> Builder:
        """All turns so far, added to what was made before them."""
        for nodes, times in self.folded:
            out.add_times(nodes, times)
        return out

    def _state(self) -> Saved:
        return self.hook.save(self._whole(Builder(list(self.outer.nodes))))

    def _turn(self) -> None:
        hook = self.hook
        hook.turns += 1
        if hook.turns > MOST_TURNS:
            raise _too_many(self.body)
        hook.made.beside()
        hook.depth += 1
        before = 0 if self.count else hook.cursor.remaining(count_stitches)
        try:
            self.work_through(hook, self.body)
        finally:
            hook.depth -= 1
        if self.count == 0:
            self.takes = before - hook.cursor.remaining(count_stitches)
        self._fold(tuple(hook.made.out.nodes), 1)
        self.count += 1

    def _fold(self, made: tuple[Node, ...], times: int) -> None:
        if self.folded and self.folded[-1][0] == made:
            self.folded[-1] = (made, self.folded[-1][1] + times)
        else:
            self.folded.append((made, times))

    # --- cycles ----------------------------------------------------------------------------

    def _jump(self, most: int | None, kept: tuple[Kept, ...]) -> bool:
        """Pass as many whole cycles as the fabric, the number of turns and ``kept`` allow."""
        hook = self.hook
        made, cursor, stopped = hook.made, hook.cursor, hook.has_stopped()
        if hook.into_space or hook.trace is not None or hook.picot == "ahead":
            return False  # where markers are, each turn is worked
        counts = tuple(map(dict, _counts(made)))
        folded = (len(self.folded), self.folded[-1][1] if self.folded else 0)
        to_come = tuple(cursor.remaining(match, required=True) for match, _ in kept)
        for key, value in cursor.counters():
            here = (key, hook.stands, hook.over_first, hook.picot, stopped)
            earlier = self.seen.get(here)
            self.seen[here] = _Seen(self.count, value, folded, counts, to_come, cursor.ledger)
            if earlier is None or earlier.value <= value:
                continue
            period, drop = self.count - earlier.turn, earlier.value - value
            cycles = value // drop if most is None else min(value // drop, most // period)
            for at, (_, keep) in enumerate(kept):
                cycles = min(cycles, _cycles_before(earlier.to_come[at], to_come[at], keep))
            if cycles >= 1:
                cursor.jump(key, drop * cycles)
                if stopped:
                    self.hook.stopped = cursor.remaining(any_place)
                if cursor.ledger is not None and earlier.ledger is not None:
                    cursor.ledger = cursor.ledger.again(earlier.ledger, cycles)
                self._pass_cycles(period, cycles, earlier)
                return True
        return False

    def _pass_cycles(self, period: int, cycles: int, before: _Seen) -> None:
        """Add what so many cycles make.

        What was seen stays: cycles of an inner loop are parts of a cycle of the loop around it.
        """
        for counts, earlier in zip(_counts(self.hook.made), before.counts, strict=True):
            for name, number in list(counts.items()):
                counts[name] = number + (number - earlier.get(name, 0)) * cycles
        cycle = self._folded_since(*before.folded)
        if len(cycle) == 1:
            self._fold(cycle[0][0], period * cycles)
        else:
            builder = Builder()
            for nodes, times in cycle:
                builder.add_times(nodes, times)
            self.folded.append((tuple(builder.nodes), cycles))
        self.count += period * cycles

    def _folded_since(self, entries: int, times: int) -> list[_Folded]:
        """What was folded since there were so many entries, the last of them so often."""
        since = self.folded[entries:]
        if entries and self.folded[entries - 1][1] > times:
            nodes, now = self.folded[entries - 1]
            since.insert(0, (nodes, now - times))
        return since


def _too_many(body: tuple[Step, ...]) -> Fault:
    return Fault(
        "row-too-many",
        body[0].start,
        body[-1].end,
        f"its repeats are worked more than {MOST_TURNS} times, and nothing tells how they end",
        mend="Correct the number of times.",
    )


def _counts(made: Made) -> tuple[dict[Any, int], ...]:
    """All that is counted, by whatever it is counted."""
    return made.makes, made.worked, made.groups, made.passed


def _cycles_before(earlier: int, now: int, keep: int) -> int:
    """How many cycles may be passed so that more than ``keep`` places are left after them."""
    taken = earlier - now
    return (now - keep) // taken - 1 if taken > 0 else 0
