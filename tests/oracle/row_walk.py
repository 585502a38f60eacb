"""Works one row over a plain list of places, one stitch at a time.

Takes     the places, a ``Row``, a size.
Gives     ``RowWalk``: what the row makes, or why it does not come out.
Problems  none: what does not come out is said in a word.
From      notation.md: the table of steps, Where the hook stands, Rounds are closed, Named places,
          How repeats end, Slip stitches, Below and before, Chains worked back along, Squares.

An open repeat is solved by trying: once, twice, and so on, until the row comes out.

    places below:  dc  ch-1 sp  dc  ch-1 sp  dc          the hook looks at place 0
    ch 3           stands over the first dc              looks at 1, stands at 0
    dc in next dc  passes the space, takes the next dc   looks at 3, stands at 2
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from tests.oracle.places import NO_GROUP, OFF, Hook, Place, add_chains, base, unlink
from tests.oracle.structure import (
    All,
    Below,
    Between,
    Center,
    Chain,
    ChainStitches,
    Content,
    Corners,
    Evenly,
    FromHook,
    Leaf,
    Leave,
    OtherSide,
    Picot,
    Repeat,
    Row,
    Same,
    Skip,
    SoFar,
    Squares,
    Standing,
    Start,
    Step,
    Stitches,
    Together,
    Travel,
    Work,
    at_size,
)


class RowWalk:
    """One row over one list of places."""

    def __init__(
        self, places: list[Place], row: Row, size: int, worked: str, *, each_chain: bool
    ) -> None:
        self.places = places
        self.size = size
        self.closed = worked != "flat rows"
        self.steps = row.steps
        self.contradicted = False
        self.first_chain = 0
        self.each_chain = each_chain
        self.names = set(_names(row.steps))
        self.leaves_tch = "tch" in self.names
        self.optional_from: int | None = None
        self.deep = 0

    def result(self) -> tuple[list[Place] | None, str]:
        """What the row makes, or nothing and why."""
        left_over = False
        whole: Hook | None = None
        for hook in self.walk(self.steps, Hook(at=0, here=0, stood=False, made=None)):
            left_over = True
            if self.complete(hook):
                whole = hook  # "ending with D" adds D after the last whole repeat: the most of them
        if whole is None and self.contradicted:
            return None, "stated"
        if whole is None:
            return None, "left over" if left_over else "missing"
        return unlink(whole.made), ""

    def walk(self, steps: tuple[Step, ...], hook: Hook) -> Iterator[Hook]:
        """Every way in which the steps can be worked from here: one, or one a number of repeats."""
        if not steps:
            yield hook
            return
        for after in self.step(steps[0], hook):
            yield from self.walk(steps[1:], after)

    def complete(self, hook: Hook) -> bool:
        """Nothing is left that the row could still take."""
        if hook.left:
            return True
        end = len(self.places) if self.optional_from is None else self.optional_from
        rest = [place for place in self.places[hook.at : end] if place.sort != "ring"]
        names = self.names & {"st", "st and sp"} or self.names or {"st"}
        return not any(self.fits(place, name) for place in rest for name in names)

    def fits(self, place: Place, name: str) -> bool:
        """Whether a place goes by a name."""
        match name:
            case "st":
                return place.sort in ("st", "ch")
            case "st and sp":
                return place.sort in ("st", "ch", "sp") and not place.beyond
            case "sp":
                return place.sort == "sp" and not place.beyond
            case "tch":
                return place.beginning
            case _:
                return place.name == name or (place.sort == "st" and base(place.name) == name)

    def find(self, name: str, start: int) -> int | None:
        """The next place of a name."""
        if name == "ring" and self.places and self.places[0].sort == "ring":
            return 0
        for index in range(start, len(self.places)):
            if self.fits(self.places[index], name):
                return index
        return None

    def there(self, name: str) -> bool:
        """Whether the row before has any place of a name."""
        return any(self.fits(place, name) for place in self.places)

    def rest(self, name: str, start: int) -> list[int]:
        """All places of a name from here on that a row may still take."""
        end = len(self.places) if self.optional_from is None else self.optional_from
        return [i for i in range(start, end) if self.fits(self.places[i], name)]

    def put(self, hook: Hook, content: Content, place: int) -> Hook:
        """Works the content into a place; the hook then stands there."""
        made = hook.made
        for part in content:
            number = at_size(part.number, self.size)
            if isinstance(part, Chain):
                made = self.chains(made, number, place)
            else:
                for _ in range(number):
                    made = (made, Place("st", part.kind, place, deep=self.deep))
        return hook._replace(at=max(hook.at, place + 1), here=place, stood=True, made=made)

    def take(self, hook: Hook, content: Content, name: str, times: int) -> Hook | None:
        """The content into each of the next places of a name; ``None`` when there are too few."""
        for _ in range(times):
            place = self.find(name, hook.at)
            if place is None:
                return None
            hook = self.put(hook, content, place)
            if name == "ring":
                hook = hook._replace(at=0)
        return hook

    def step(self, step: Step, hook: Hook) -> Iterator[Hook]:
        """The ways in which one step can be worked: several only for an open repeat."""
        if isinstance(step, Repeat):
            yield from self.repeat(step, hook)
            return
        after = self.once(step, hook)
        if after is not None:
            yield after

    def once(self, step: Step, hook: Hook) -> Hook | None:  # noqa: C901
        """The hook after a step that is no repeat; ``None`` when it finds too few places."""
        match step:
            case Work():
                self.deep = step.deep
                after = self.work(step, hook)
                self.deep = 0
                return after
            case All():
                return self.all(step, hook)
            case Corners():
                return self.corners(step, hook)
            case Between():
                return self.between(step, hook)
            case SoFar():
                return self.so_far(step, hook)
            case Same():
                return self.put(hook, step.content, hook.here)
            case Center():
                return self.center(step, hook)
            case Together():
                return self.together(step, hook)
            case Skip():
                return self.skip(step, hook)
            case Chain():
                return hook._replace(made=self.chains(hook.made, at_size(step.number, self.size)))
            case ChainStitches():
                return self.chain_stitches(step, hook)
            case Picot():
                return hook._replace(made=(hook.made, OFF))
            case Leaf():
                made = hook.made
                for _ in range(step.chains - 1):
                    made = (made, OFF._replace(name=step.kind))
                return hook._replace(made=made)
            case Below():
                return self.below(step, hook)
            case Squares():
                return self.squares(step, hook)
            case Evenly():
                return self.evenly(step, hook)
            case Leave():
                return hook._replace(left=True)
            case Travel():
                return self.travel(step, hook)
            case OtherSide():
                return self.other_side(hook)
            case Standing():
                return self.put(hook, (Stitches(step.kind),), 0) if self.places else None
            case Start():
                return self.start(step, hook)
            case FromHook():
                return self.from_hook(step, hook)
            case Repeat():
                raise AssertionError(step)
            case _:
                assert_never(step)

    def chains(
        self, made: tuple[object, Place] | None, number: int, group: int = NO_GROUP
    ) -> tuple[object, Place] | None:
        """Chains between two stitches: a space, or so many stitches where the piece says so."""
        if not self.each_chain:
            return add_chains(made, number, group)
        for _ in range(number):
            made = (made, Place("st", "ch", group))
        return made

    def other_side(self, hook: Hook) -> Hook:
        """The chains once more, from the last but one back to the first that was worked."""
        behind = self.places[self.first_chain : hook.at - 1][::-1]
        self.places = self.places[: hook.at] + behind
        return hook

    def chain_stitches(self, step: ChainStitches, hook: Hook) -> Hook:
        """``ch 5 (counts as 5 sts)``."""
        made = hook.made
        for _ in range(at_size(step.number, self.size)):
            made = (made, Place("st", "ch", NO_GROUP))
        return hook._replace(made=made)

    def work(self, step: Work, hook: Hook) -> Hook | None:
        """``sc in next 6 sts``; the last so many are exactly those that are left."""
        times = at_size(step.count, self.size)
        if step.which == "last" and len(self.rest(step.into, hook.at)) != times:
            return None
        if step.which == "last" and times and self.passes_spaces(hook, step):
            return None
        return self.take(hook, step.content, step.into, times)

    def passes_spaces(self, hook: Hook, step: Work) -> bool:
        """Whether a row of spaces leaves one of them on its way to the last stitch.

        One below a chain of its length stays open above it.
        """
        others = set(_names(tuple(one for one in self.steps if one is not step)))
        spaces = {name for name in others if name.endswith("sp")}
        if self.closed or not spaces or others & {"st", "st and sp"}:
            return False
        end = self.rest(step.into, hook.at)[0]
        places = self.places[hook.at : end]
        left = [one for one in places if any(self.fits(one, name) for name in spaces)]
        made = unlink(hook.made)
        above = made[-1].name if made else ""
        return len(left) > (above.endswith("sp") and bool({above, "sp"} & spaces))

    def all(self, step: All, hook: Hook) -> Hook | None:
        """``sc in each st across``; it leaves the turning chain to a step that names it."""
        if not self.there(step.into):
            return None
        places = self.rest(step.into, hook.at)
        if self.leaves_tch:
            places = [index for index in places if not self.places[index].beginning]
        if step.to is not None:
            stop = self.find(step.to, hook.at)
            if stop is None:
                return None
            places = [index for index in places if index < stop]
        but = at_size(step.but, self.size)
        if len(places) < but:
            return None
        for place in places[: len(places) - but]:
            hook = self.put(hook, step.content, place)
        return hook

    def corners(self, step: Corners, hook: Hook) -> Hook | None:
        """In each stitch, and in each corner space what is worked there."""
        if not self.there(step.into) or not self.there(step.corner_name):
            return None
        for place in range(hook.at, len(self.places)):
            if self.fits(self.places[place], step.into):
                hook = self.put(hook, step.content, place)
            elif self.places[place].name == step.corner_name:
                hook = self.put(hook, step.corner, place)
        return hook

    def groups(self, kind: str, size: int, start: int) -> list[int]:
        """Where whole groups of so many of one kind begin; a half group is no group."""
        runs: list[tuple[int, list[str]]] = []
        before = None
        for index, place in enumerate(self.places):
            if place.group != before:
                runs.append((index, []))
            runs[-1][1].append(place.name)
            before = place.group
        return [first for first, run in runs if first >= start and run == [kind] * size]

    def center(self, step: Center, hook: Hook) -> Hook | None:
        """``sc in center dc of next 5-dc group``; of 4, in the gap in the middle."""
        for first in self.groups(step.kind, step.size, hook.at):
            return self.put(hook, step.content, first + (step.size - 1) // 2)
        return None

    def between(self, step: Between, hook: Hook) -> Hook | None:
        """Into the gap between two neighbouring groups, which is no place of either."""
        firsts = self.groups(step.kind, step.size, max(0, hook.at - step.size))
        gaps = [
            first
            for first in firsts
            if first - step.size in firsts and first >= max(hook.at, hook.here + 1)
        ]
        if not gaps:
            return None
        for gap in gaps if step.each else gaps[:1]:
            apart = len(self.places) + gap
            made = self.put(hook, step.content, apart).made
            hook = hook._replace(at=gap, here=gap, stood=True, made=made)
        return hook

    def so_far(self, step: SoFar, hook: Hook) -> Hook | None:
        """The count inside a row: what is made up to there."""
        made = sum(place.sort in ("st", "ch") for place in unlink(hook.made))
        if made == at_size(step.figure, self.size):
            return hook
        self.contradicted = True
        return None

    def together(self, step: Together, hook: Hook) -> Hook | None:
        """``sc2tog`` takes 2 and makes 1."""
        at = hook.at
        first: int | None = None
        for _ in range(step.legs):
            place = self.find(step.into, at)
            if place is None:
                return None
            first, at = place, place + 1
        assert first is not None
        return self.put(hook, (Stitches(f"{step.kind}{step.legs}tog"),), first)

    def skip(self, step: Skip, hook: Hook) -> Hook | None:
        """``sk 2 sts`` takes 2 and makes none."""
        at = hook.at
        for _ in range(at_size(step.count, self.size)):
            place = self.find(step.into, at)
            if place is None:
                return None
            at = place + 1
        return hook._replace(at=at)

    def below(self, step: Below, hook: Hook) -> Hook:
        """A post stitch in front of the row: made, and nothing is taken."""
        made = hook.made
        for _ in range(at_size(step.count, self.size)):
            made = (made, Place("st", step.kind, NO_GROUP - 1, deep=step.rows))
        return hook._replace(made=made)

    def squares(self, step: Squares, hook: Hook) -> Hook | None:
        """Each over a space or two stitches, and the stitch behind; the first begins on one."""
        for _ in range(at_size(step.number, self.size)):
            if step.first:
                if not self.places:
                    return None
                first = Place("st", "dc", 0, beginning=True)
                hook = hook._replace(at=1, stood=True, made=(hook.made, first))
            over = [place.sort for place in self.places[hook.at : hook.at + 2]]
            at = hook.at + (1 if over[:1] == ["sp"] else 2)
            if at >= len(self.places) or self.places[at].sort != "st" or over == ["st", "sp"]:
                return None
            if step.kind == "sp":
                hook = hook._replace(made=self.chains(hook.made, 2))
            else:
                hook = self.put(hook, (Stitches("dc"),), hook.at)
                hook = self.put(hook, (Stitches("dc"),), at - 1)
            hook = self.put(hook, (Stitches("dc"),), at)
        return hook

    def evenly(self, step: Evenly, hook: Hook) -> Hook | None:
        """``dec 12 sts evenly``: right in its totals; where each stands is not followed."""
        places = self.rest("st", hook.at)
        by = at_size(step.by, self.size)
        taken = 2 if step.change == "dec" else 1
        if by * taken > len(places):
            return None
        together = Stitches(f"{step.kind}2tog")
        for turn in range(by):
            if step.change == "dec":
                hook = self.put(hook, (together,), places[2 * turn + 1])
            else:
                hook = self.put(hook, (Stitches(step.kind, 2),), places[turn])
        for place in places[by * taken :]:
            hook = self.put(hook, (Stitches(step.kind),), place)
        return hook

    def repeat(self, step: Repeat, hook: Hook) -> Iterator[Hook]:
        """A definite number, or every number of whole repeats that can be worked."""
        if step.times is not None:
            times = at_size(step.times, self.size)
            bodies = [step.body] * times
            if step.last is not None and times:
                bodies[-1] = step.last
            yield from self.walk(tuple(part for body in bodies for part in body), hook)
            return
        but = at_size(step.but, self.size)
        for whole in self.wholes(step.body, hook, 1 if step.last is None else 0):
            for after in [whole] if step.last is None else self.walk(step.last, whole):
                if not but or len(self.rest(step.but_name, after.at)) == but:
                    yield after

    def wholes(self, body: tuple[Step, ...], hook: Hook, least: int) -> Iterator[Hook]:
        """The hook after each number of whole repeats, as long as repeats take something."""
        if not least:
            yield hook
        reached = [hook]
        while reached:
            further = []
            for before in reached:
                for after in self.walk(body, before):
                    if after.at > before.at:
                        yield after
                        further.append(after)
            reached = further

    def travel(self, step: Travel, hook: Hook) -> Hook | None:
        """Slip stitches at the head: what they pass is given up in flat rows, last in rounds."""
        here = self.find(step.to, 0) if step.to else at_size(step.count, self.size) - 1
        if here is None or here >= len(self.places):
            return None
        if self.closed:
            self.places = self.places[here:] + self.places[:here]
            self.optional_from = len(self.places) - here
        else:
            self.places = self.places[here:]
        return hook._replace(at=0 if step.joins else 1, here=0, stood=False)

    def start(self, step: Start, hook: Hook) -> Hook | None:
        """A counted chain stands over the place of the hook and takes it."""
        if not step.stands_for:
            return hook
        if not self.places:
            return None
        first = Place("st", step.stands_for, hook.here, beginning=True)
        made: tuple[object, Place] | None = (hook.made, first)
        if step.beside:
            made = self.chains(made, step.beside)
        at = 0 if self.places[0].sort == "ring" else hook.here + 1
        return hook._replace(at=max(at, hook.at), stood=True, made=made)

    def from_hook(self, step: FromHook, hook: Hook) -> Hook | None:
        """``dc in 4th ch from hook`` takes that chain and the skipped ones before it."""
        if step.nth > len(self.places):
            return None
        self.first_chain = step.nth - 1
        if step.stands_for:
            first = Place("st", step.stands_for, 0, beginning=True)
            hook = hook._replace(made=(hook.made, first))
            if step.beside:
                hook = hook._replace(made=self.chains(hook.made, step.beside))
        return self.put(hook, step.content, step.nth - 1)


def _names(steps: tuple[Step, ...]) -> Iterator[str]:
    """The names of the places that steps work into."""
    for step in steps:
        match step:
            case Work() | All():
                yield step.into
            case Corners():
                yield step.into
                yield step.corner_name
            case Between():
                yield "sp between"
            case Together():
                yield step.into
            case Center():
                yield step.kind
            case FromHook():
                yield "ch"
            case Evenly():
                yield "st"
            case Squares():
                yield "st and sp"
            case Repeat():
                yield from _names(step.body + (step.last or ()))
            case _:
                pass
