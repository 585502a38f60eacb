"""One row walked along the places of the row before it, in one size.

Takes     the steps of a row and the ``Fabric`` below it.
Gives     ``Walk``: what is made, and the places that it leaves.
Problems  ``Fault``s: ``row-uneven``, ``row-no-such-place``, ``row-open-ring``, ``count-stated`` …
From      notation.md, the table of steps, "Where the hook stands", "Rounds are closed",
          "Turning and beginning chains", "Named places", "How repeats end", "Slip stitches".

How an open repeat is solved: the body is worked as long as it fits. Where the cursor comes back
to a state that differs from an earlier one in a single counter (turns of a loop still to come),
whole cycles are jumped by division. Behind the last turn that fits, what is written after the
repeat is tried; where it does not come out, one turn less is tried. The first number of turns with
which the row comes out is the one: for a row of fixed steps there is only one.

Worked example: 18 places, ``*dc in next 3 sts, sk 1; rep from *``: four turns take 16, the fifth
breaks off with 2 left, and nothing is written after it: the row is uneven by 2.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from typing import assert_never

from workeven.arithmetic.shaping import evenly
from workeven.notation.tree import (
    Amount,
    AnyStitch,
    Aside,
    Chain,
    ChainOfTurning,
    Content,
    Corners,
    CountsAs,
    Decrease,
    Each,
    EachChainCounts,
    EndingAtStop,
    EndingWith,
    Evenly,
    Exactly,
    FastenOff,
    First,
    Foundation,
    FromHook,
    Gap,
    Increase,
    Inside,
    IntoRing,
    JoinRound,
    JoinYarn,
    Last,
    LeaveRest,
    Limit,
    MagicRing,
    Marked,
    More,
    NamedStitch,
    Next,
    Omitting,
    OneChain,
    Open,
    OtherSide,
    Picot,
    PlaceName,
    Repeat,
    RowSides,
    Same,
    Skip,
    Space,
    StatedHere,
    Step,
    Stitch,
    StitchGroup,
    Stop,
    Target,
    Times,
    ToLast,
    ToNext,
    Travel,
    Turn,
    TurningChain,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.context import Fault, SizeContext, match_of, spoken
from workeven.proof.parts import mark_of, prepared
from workeven.proof.fabric import (
    CHAIN,
    Builder,
    Cursor,
    Fabric,
    Key,
    Loop,
    Match,
    Node,
    Place,
    Run,
    count_stitches,
    reversed_nodes,
    space,
    stitch,
)

ANY: tuple[PlaceName, ...] = (AnyStitch(),)
#: turns of an open repeat that are kept to go back to, beside those that the tail may need.
_KEPT = 6


@dataclass(slots=True)
class _Saved:
    """A state of the walk to come back to."""

    cursor: Cursor
    out: list[Node]
    makes: dict[str, int]
    worked: dict[str, int]
    groups: dict[str, int]
    stands: str
    generic: bool
    named: frozenset[PlaceName]
    last_stitch: str | None
    flags: tuple[bool, ...]


class Walk:
    """The hook on its way along one row of one size.

    ``stands`` says what is at the hook: ``start`` (nothing used up), ``at`` (moved in front of a
    place by travel), ``slipped`` (by slip stitches, the last of which stands there), ``joined``
    (new yarn was joined in front of it), ``taken`` (a stitch or counted chain stands there).
    """

    def __init__(  # noqa: PLR0913, the state of a row is what it is
        self,
        below: Fabric | None,
        context: SizeContext,
        *,
        worked: str,
        rows_below: int = 0,
        choices: dict[tuple[str, int], int] | None = None,
        recover: bool = False,
    ) -> None:
        self.below = below
        self.below_at_start = below
        self.context = context
        self.how = worked
        self.rows_below = rows_below
        self.choices = choices or {}
        self.recover = recover
        self.points: dict[tuple[str, int], tuple[str, ...]] = {}
        self.cursor = Cursor(() if below is None else below.nodes)
        self.out = Builder()
        self.makes: dict[str, int] = {}
        self.worked: dict[str, int] = {}
        self.groups: dict[str, int] = {}
        self.stands = "start"
        self.ring = below is not None and below.ring
        self.generic = False
        self.named: frozenset[PlaceName] = frozenset()
        self.last_stitch: str | None = None
        self.first_stitch: str | None = None
        self.over_first = False
        self.began = False
        self.left_rest = False
        self.depth = 0
        self.turned: bool | None = None
        self.fastened = False
        self.joined = False
        self.made_ring = False
        self.only_slips = False
        self.turning_chain: Chain | None = None
        self.defaulted: list[tuple[str, int]] = []
        self.chains_made = 0
        self.sided = False
        self.multiple: tuple[int, int] | None = None
        self.changes: dict[int, str] = {}
        self.first_side = 0
        self.lenient = False
        self.stood_from: int | None = None
        self.passed_over: set[int] = set()
        self.lead_chains: int | None = None
        self.works = True

    # --- the whole row ---------------------------------------------------------------------

    def row(self, steps: tuple[Step, ...]) -> None:
        """Walk all steps; raises ``Fault`` where the row does not come out."""
        steps = self._split_end(steps)
        self._prepare(steps)
        self.works = rest_works(steps)
        self.first_stitch = _first_stitch(steps)
        self.changes = _stitches_of_changes(steps)
        self.only_slips = _only_slip_stitches(steps)
        pending = self.below.turning_chain if self.below is not None else None
        if pending is not None and not _leads_with_chain(steps):
            self._lead_chain(pending, steps)
        self.run(steps, final=True)

    def part(self, steps: tuple[Step, ...]) -> None:
        """Walk the first steps of a row, without asking what is left behind them."""
        self._prepare(steps)
        self.first_stitch = _first_stitch(steps)
        self.changes = _stitches_of_changes(steps)
        pending = self.below.turning_chain if self.below is not None else None
        if pending is not None and not _leads_with_chain(steps):
            self._lead_chain(pending, steps)
        self.run(steps, final=False)

    def _prepare(self, steps: tuple[Step, ...]) -> None:
        """Make visible what the steps name inside groups; drop a turning chain left unworked."""
        if self.below is None:
            return
        nodes = prepared(self.cursor.rest(), steps, self.context.special, closed=self.below.closed)
        if any(
            isinstance(step, LeaveRest) and isinstance(step.name, TurningChain) for step in steps
        ):
            nodes = _without_turning_chain(nodes)
        self.cursor = Cursor(nodes)

    def _split_end(self, steps: tuple[Step, ...]) -> tuple[Step, ...]:
        """Take the turning chain of the next row off the end ("ch 1, turn", "join, ch 1")."""
        kept = list(steps)
        at = len(kept) - 1
        while at >= 0 and isinstance(kept[at], FastenOff | Aside | StatedHere):
            at -= 1
        if at < 1:
            return steps
        end = kept[at]
        if isinstance(end, Turn):
            if isinstance(kept[at - 1], Chain) and at > 1 and not _only_head(kept[: at - 1]):
                chain = kept.pop(at - 1)
                self.turning_chain = chain if isinstance(chain, Chain) else None
        elif isinstance(end, Chain) and isinstance(kept[at - 1], Turn | JoinRound):
            if not _only_head(kept[: at - 1]):
                self.turning_chain = end
                kept.pop(at)
        return tuple(kept)

    def run(self, steps: tuple[Step, ...], *, final: bool) -> None:
        """Walk steps in order; ``final`` checks that nothing is left that could be taken."""
        for at, step in enumerate(steps):
            rest = steps[at + 1 :]
            if isinstance(step, Repeat) and isinstance(step.times, Open):
                self._open_repeat(step, step.times.limit, rest, final=final)
                return
            if isinstance(step, Work) and isinstance(step.target, Each):
                if rest and isinstance(rest[0], Evenly):
                    self._evenly(step, rest[0])
                elif rest and isinstance(rest[0], Corners):
                    self.run(self._with_corners(step, step.target, rest[0], rest[1:]), final=final)
                    return
                else:
                    self._each(step, step.target, rest)
            elif isinstance(step, Chain) and not self.began and self.depth == 0:
                self._lead_chain(step, rest)
            else:
                self._step(step)
        if final:
            self._check_left(steps)

    def _step(self, step: Step) -> None:  # noqa: C901, PLR0912, one branch a node
        match step:
            case Work():
                self._work(step)
            case Increase():
                self._increase(step)
            case Decrease():
                self._decrease(step)
            case Skip():
                self._skip(step)
            case Chain():
                self._chain(step)
            case Travel():
                self._travel(step)
            case JoinRound():
                self._join_round(step)
            case JoinYarn():
                self._join_yarn(step)
            case MagicRing():
                self.ring = self.made_ring = True
            case Foundation():
                self._foundation(step)
            case Turn():
                self._turn(step)
            case FastenOff():
                self.fastened = True
            case LeaveRest():
                self.left_rest = True
            case OtherSide():
                self._other_side()
            case Picot():
                self._picot(step)
            case Corners():
                raise self._corners_unknown(step)
            case Evenly():
                if not self.sided:
                    self._evenly_alone(step)
                self.sided = False
            case StatedHere():
                pass
            case Aside() | Stop() | EachChainCounts():
                pass
            case Repeat():
                self._repeat(step)
            case _:
                assert_never(step)

    # --- what is left ----------------------------------------------------------------------

    def _wanted(self) -> Match:
        """The places that this row works into: any stitch, or only those that it names."""
        if self.generic or not self.named:
            return count_stitches
        return match_of(tuple(sorted(self.named, key=repr)))

    def left(self) -> int:
        """How many places the row could still take."""
        if self.ring or self.left_rest or self.below is None and self.chains_made == 0:
            return 0
        return self.cursor.remaining(self._wanted(), required=True)

    def _check_left(self, steps: tuple[Step, ...]) -> None:
        left = self.left()
        if left == 0 or self.recover or self.lenient or not self.works:
            return
        if self._closed() and left in self.passed_over:
            return  # passed in every repeat on the way to the next group, and so at the end too
        name = (
            spoken(tuple(sorted(self.named, key=repr))) if self.named and not self.generic else "st"
        )
        start, end = (steps[0].start, steps[-1].end) if steps else (0, 0)
        raise Fault(
            "row-uneven",
            start,
            end,
            f"{_many(left, name)} {'is' if left == 1 else 'are'} left over",
            left_over=left,
        )

    # --- taking places ---------------------------------------------------------------------

    def _take(self, names: tuple[PlaceName, ...], count: int, step: Step) -> None:
        """Take the next places of these names; ``Fault`` where there are not so many."""
        self._leave_start(step)
        self._note(names)
        self.stood_from = None
        if count <= 0 or self.ring:
            return
        match = match_of(names)
        if isinstance(names[0], Marked) and self.named and not self.generic:
            self.passed_over.add(self.cursor.before(match, self._wanted()) or 0)
        there = self.cursor.remaining(match)
        if there < count:
            if self.recover:
                self.cursor.take(match, there)
                return
            self._missing(names, count, there, step)
        self.cursor.take(match, count)
        self.stands = "taken"
        self.over_first = False

    def _missing(self, names: tuple[PlaceName, ...], count: int, there: int, step: Step) -> None:
        match = match_of(names)
        if self.below is not None and there == 0 and Cursor(self.below.nodes).remaining(match) == 0:
            raise Fault(
                "row-no-such-place",
                step.start,
                step.end,
                f"there is no {spoken(names)} in the row before: {self._what_is_there()}",
            )
        name = spoken(names)
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"{_many(count, name)} {'is' if count == 1 else 'are'} needed "
            f"and {there or 'none'} {'is' if there == 1 else 'are'} left",
            needed=count,
            left=there,
        )

    def _what_is_there(self) -> str:
        if self.below is None or not self.below.nodes:
            return "nothing has been worked yet"
        counts: dict[str, int] = {}
        _tally(self.below.nodes, 1, counts)
        return "there are " + ", ".join(f"{_many(number, name)}" for name, number in counts.items())

    def _note(self, names: tuple[PlaceName, ...]) -> None:
        """Remember which places the row works into ("first dc" asks for no other dc)."""
        for name in names:
            if isinstance(name, Marked):
                continue
            if isinstance(name, AnyStitch | OneChain | TurningChain):
                self.generic = self.generic or not isinstance(name, TurningChain)
            elif name not in self.named:
                self.named |= {name}

    def _leave_start(self, step: Step) -> None:
        """Before the first place is taken: where travel or joining moved the hook to.

        ``next st`` after slip stitches is the one after them; where new yarn was joined nothing
        is used up yet, so that it is the place of the joining, if that bears the name.
        """
        if self.stands not in ("at", "joined", "slipped"):
            return
        if self.stands == "slipped":  # the slip stitch stands there
            self._pass_here()
        target = step.target if isinstance(step, Work | Skip | Increase) else None
        if isinstance(target, Next):
            place = self.cursor.peek()
            here = place is not None and match_of(target.names)(place)
            if self.stands == "at" or (self.stands == "joined" and not here):
                self._pass_here()
        self.stands = "taken"

    def _pass_here(self) -> None:
        """The place at the hook is passed: in a round it comes last, and may be left."""
        place = self.cursor.peek()
        if place is None:
            return
        self.cursor.take(lambda _: True, 1)
        if self._closed():
            rest = self.cursor.rest()
            passed = Loop((Run(place, 1),), 1, optional=True)
            self.cursor = Cursor((*rest, passed))

    def _closed(self) -> bool:
        return self.below is not None and self.below.closed

    def _to_joined_place(self) -> None:
        """In a joined, turned round the joined place is the last of the list: bring it first."""
        if self.below is None or not self.below.join_last:
            return
        rest = list(self.cursor.rest())
        if not rest:
            return
        last, before = _last_place(tuple(rest))
        self.cursor = Cursor((Run(last, 1), *before))

    # --- work ------------------------------------------------------------------------------

    def _work(self, step: Work) -> None:  # noqa: C901, PLR0912, one branch a target
        target = step.target
        if self._closing_slip_stitch(step) or self._slips_along(step):
            return
        if self._closes_loop(step):
            self._make(step.content, 1)
            return
        match target:
            case Unplaced(count=amount):
                count = self.context.amount(amount)
                if count is None or count == 0:
                    return
                takes, each = self._places_each(step.content)
                if takes == 0 and self.stands in ("at", "joined", "slipped"):
                    self._pass_here()
                    self.stands = "taken"
                if _is_beginning(step.content):
                    self._stand_here(step)
                    takes = 0
                self._take(ANY, takes * count, step)
                self._make(each, count)
            case Next(names=names, count=amount):
                self._into(step, self._counted_off(names, step), amount)
            case First(names=names, count=amount):
                self._into_first(step, names, amount)
            case Last(names=names, count=amount):
                self._into_last(step, names, amount)
            case Same(made=made):
                if not made:
                    self._stand_here(step)
                    self._pass_last_gap()
                self._make_here(step.content)
            case IntoRing():
                self._into_ring(step)
            case FromHook():
                self._from_hook(step, target)
            case ChainOfTurning():
                self._into_turning_chain(step)
            case Each():
                self._each(step, target, ())
            case RowSides(each=each_row):
                self._along_rows(step, each_row=each_row)
            case Inside():
                self._into_part(step, target)
            case _:
                assert_never(target)
        self.began = True

    def _places_each(self, content: tuple[Content, ...]) -> tuple[int, tuple[Content, ...]]:
        """How many places one working takes when none is named, and what it makes."""
        only = content[0]
        if len(content) == 1 and isinstance(only, Stitch):
            special = self.context.special.get(only.name)
            if special is not None:
                return special.takes, content
            return only.legs, content
        return 1, content

    def _legs(self, step: Work) -> int:
        only = step.content[0]
        if len(step.content) == 1 and isinstance(only, Stitch):
            return only.legs
        return 1

    def _counted_off(self, names: tuple[PlaceName, ...], step: Work) -> tuple[PlaceName, ...]:
        """ "sp between next 2 dc": the first of the two is passed, the stitch takes no place."""
        name = names[0]
        if not (isinstance(name, Gap) and name.pair) or name.between in self.context.special:
            return names
        between: PlaceName = AnyStitch() if name.between is None else NamedStitch(name.between)
        generic, named = self.generic, self.named
        self._take((between,), 1, step)
        self.generic, self.named = generic, named
        return ()

    def _into(self, step: Work, names: tuple[PlaceName, ...], amount: Amount) -> None:
        count = self.context.amount(amount)
        if count is None or count == 0:
            return
        if not names:
            self._make(step.content, 1)
            return
        legs = self._legs(step)
        if legs > 1 and count > 1:
            if count != legs:
                raise Fault(
                    "row-decrease",
                    step.start,
                    step.end,
                    f"a decrease over {legs} sts is worked over {count}",
                )
            self._take(names, count, step)
            self._make(step.content, count // legs)
            return
        self._take(names, count, step)
        self._make(step.content, count, spread=step.spread)

    def _into_first(self, step: Work, names: tuple[PlaceName, ...], amount: Amount) -> None:
        count = self.context.amount(amount)
        if count is None or count == 0:
            return
        legs = self._legs(step)
        if self.over_first and count == 1:  # under the counted chain: it takes up no more
            self._make_here(step.content)
            self.over_first = False
            return
        generic, named = self.generic, self.named
        self._take(names, count - 1 if self.over_first else count, step)
        if count == 1:
            self.generic, self.named = generic, named
        self._make(step.content, max(count // legs, 1), spread=step.spread)
        self.stands, self.over_first = "taken", False

    def _into_last(self, step: Work, names: tuple[PlaceName, ...], amount: Amount) -> None:
        count = self.context.amount(amount)
        if count is None or count == 0:
            return
        self._note(names)
        match = match_of(names)
        there = self.cursor.remaining(match, required=True)
        if there > count and not (self.recover or self.lenient):
            raise Fault(
                "row-uneven",
                step.start,
                step.end,
                f"the last {_many(count, spoken(names))} {'is' if count == 1 else 'are'} due "
                f"and {there} are still there",
                needed=count,
                left=there,
            )
        legs = self._legs(step)
        self._take(names, count, step)
        self._make(
            step.content, count // legs if legs > 1 and count > 1 else count, spread=step.spread
        )

    def _stand_here(self, step: Step) -> None:
        """``same st``: takes up the place that the hook stands at, if nothing stands there yet."""
        if self.stands == "taken" or self.ring:
            return
        if self.stands == "start":
            self._to_joined_place()
        place = self.cursor.peek()
        if place is None:
            if not self.recover:
                raise Fault("row-uneven", step.start, step.end, "no place is left to work into")
        else:
            self.cursor.take(lambda _: True, 1)
            if place.sort == "sp":
                self._note((Space(place.chains),))
            elif self.began or not self.named:
                self.generic = self.generic or place.sort == "ch"
        self.stands = "taken"

    def _pass_last_gap(self) -> None:
        """Back at the joining, the gap between the last group and the first is behind the hook."""
        gap = match_of((Gap(),))
        if self.began and not self.depth and self.cursor.remaining(gap) == 1:
            self.cursor.take(gap, 1)

    def _into_ring(self, step: Work) -> None:
        if not self.ring and self.below is not None and self.below.foundation and self.below.closed:
            self.ring = True
        if not self.ring:
            raise Fault(
                "row-no-such-place",
                step.start,
                step.end,
                f"there is no ring to work into: {self._what_is_there()}",
                mend="Begin with “magic ring”, or with “ch 4, join with sl st to first ch to form ring”.",
            )
        self.stands = "taken"
        self._make(step.content, 1)

    def _from_hook(self, step: Work, target: FromHook) -> None:
        nth = self.context.amount(target.nth) or 1
        there = self.cursor.remaining(match_of((OneChain(),)))
        if there < nth and not self.recover:
            raise Fault(
                "row-uneven",
                step.start,
                step.end,
                f"the {_ordinal(nth)} ch from hook is asked for and there are {_many(there, 'ch')}",
                needed=nth,
                left=there,
            )
        self._note((OneChain(),))
        self.first_side = there - nth + 1
        first = _first_of_content(step.content)
        self._skipped_chains(target.skipped, nth, first, step)
        self.cursor.take(match_of((OneChain(),)), nth)
        self._make(step.content, 1)
        self.stands = "taken"

    def _skipped_chains(
        self, said: CountsAs | None, nth: int, first: str | None, step: Step
    ) -> None:
        """What the chains skipped at the start of the first row stand for."""
        base = kind_of(first).base if first is not None else "sc"
        self.lead_chains = nth - 1
        if said is not None and said.skipped is not None:
            number = self.context.amount(said.skipped)
            if number != nth - 1 and not self.recover:
                raise Fault(
                    "row-skipped-chains",
                    said.start,
                    said.end,
                    f"{number} chs are said to be skipped, and working into the "
                    f"{_ordinal(nth)} ch from hook skips {nth - 1}",
                    mend="Make the number of skipped chs and the ch worked into agree.",
                )
        if said is not None:
            self._stand_for(said, nth - 1, base)
            return
        height = HEIGHTS.get(base, 0)
        counts = nth - 1 == height and self._turning_chain_counts(base, height)
        if nth - 1 >= height and height >= HEIGHTS["hdc"]:
            self.defaulted.append((base, nth - 1))
        if counts:
            self._emit(Place("st", base, base, nth - 1, turning=True), 1)
            self._count_made(base, 1)

    def _into_turning_chain(self, step: Work) -> None:
        """``dc in top of tch``: the counted chain of the row before, its last place."""
        match = match_of((TurningChain(),))
        if self.cursor.remaining(match) == 0:
            if self.recover:
                self._make(step.content, 1)
                return
            raise Fault(
                "row-no-such-place",
                step.start,
                step.end,
                f"there is no turning ch left that counts as a stitch: {self._what_is_there()}",
            )
        before = self.cursor.before(match, self._wanted())
        if before and not self.recover:
            raise Fault(
                "row-uneven",
                step.start,
                step.end,
                f"the turning ch is due and {_many(before, 'st')} {'is' if before == 1 else 'are'} "
                "still there before it",
                left=before,
            )
        self._leave_start(step)
        self.cursor.take(match, 1)
        self._make(step.content, 1)
        self.stands, self.over_first = "taken", False

    def _along_rows(self, step: Work, *, each_row: bool) -> None:
        if self.rows_below == 0:
            raise Fault(
                "row-no-such-place",
                step.start,
                step.end,
                "there are no rows whose side could be worked along",
            )
        self.left_rest = True
        self._make(step.content, self.rows_below if each_row else 1)
        self.stands, self.sided = "taken", True

    def _into_part(self, step: Work, target: Inside) -> None:
        container = target.container
        names = container.names if isinstance(container, Next | First | Last) else ()
        inner = target.name
        if isinstance(inner, Space) and inner.of is not None:
            self._take((Space(inner.chains),), 1, step)
        elif names and isinstance(names[0], Space) and isinstance(inner, OneChain):
            self._take(names, 1, step)
        elif isinstance(container, Same) and isinstance(inner, OneChain):
            self._stand_here(step)
        elif names and isinstance(names[0], NamedStitch | StitchGroup):
            count = self.context.amount(target.count) or 0
            self._take((mark_of(target),), count, step)
            self._make(step.content, count)
            return
        else:
            raise Fault(
                "row-not-understood",
                step.start,
                step.end,
                "this place inside a group is not counted",
                mend="Name the stitch itself, such as “next dc”.",
            )
        self._make(step.content, 1)

    # --- each ------------------------------------------------------------------------------

    def _each(self, step: Work, target: Each, rest: tuple[Step, ...]) -> None:
        self._begin_each(step, target.names)
        count = self._room(target, rest, step)
        if count is None:
            return
        legs = self._legs(step)
        match = match_of(target.names)
        if count == 0 and self.cursor.remaining(match) == 0 and not self.ring:
            below = self.below
            if not self.recover and (below is None or Cursor(below.nodes).remaining(match) == 0):
                self._missing(target.names, 1, 0, step)
        if count % legs and not self.recover:
            raise Fault(
                "row-uneven",
                step.start,
                step.end,
                f"{count // legs} of them use {count - count % legs} and {_many(count % legs, 'st')} "
                f"{'is' if count % legs == 1 else 'are'} left over",
                lead=f"Each takes {legs} sts",
                takes=legs,
                left_over=count % legs,
            )
        if self.ring:
            raise self._open_in_ring(step)
        self.cursor.take(match, count)
        self._make(step.content, count // legs)
        if count:
            self.stands, self.over_first = "taken", False
        self.began = True

    def _begin_each(self, step: Work, names: tuple[PlaceName, ...]) -> None:
        self._note(names)
        if self.stands == "slipped":
            self._pass_here()
        if self.stands in ("at", "joined", "slipped"):
            self.stands = "taken"

    def _open_in_ring(self, step: Step) -> Fault:
        return Fault(
            "row-open-ring",
            step.start,
            step.end,
            "a ring has no stitches that could say how often this is worked",
            mend="Say how many: “12 dc in ring”, “rep from * 5 more times”.",
        )

    def _room(self, target: Each, rest: tuple[Step, ...], step: Step) -> int | None:
        """How many places an "each" takes, or None where a dash leaves the step out."""
        match = match_of(target.names)
        there = self.cursor.remaining(match)
        match target.limit:
            case None:
                reserve = self._reserved(target.names, rest)
                return max(there - reserve, 0) if there else 0
            case ToLast(names=names) as limit:
                keep = self._limit_count(limit)
                left = self.cursor.remaining(match_of(names), required=True)
                if left < keep and not self.recover:
                    self._too_few_for_last(keep, left, names, step)
                if match_of(names) is match:
                    return max(there - keep, 0)
                return self._before_last(match, match_of(names), keep)
            case ToNext(name=name):
                before = self.cursor.before(match_of((name,)), match)
                if before is None:
                    if self.recover:
                        return 0
                    self._missing((name,), 1, 0, step)
                return before
            case _:
                assert_never(target.limit)

    def _before_last(self, match: Match, stop: Match, keep: int) -> int:
        """Places that match before the last ``keep`` places of another name."""
        probe = self.cursor.copy()
        passed = probe.remaining(stop) - keep
        probe.take(stop, passed)
        return (
            self.cursor.remaining(match) - probe.remaining(match) + (probe.before(stop, match) or 0)
        )

    def _too_few_for_last(
        self, keep: int, left: int, names: tuple[PlaceName, ...], step: Step
    ) -> None:
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"the last {_many(keep, spoken(names))} are to be left and there are only {left}",
            needed=keep,
            left=left,
        )

    def _reserved(self, names: tuple[PlaceName, ...], rest: tuple[Step, ...]) -> int:
        """Places that the steps behind an "each" name for themselves."""
        needed = 0
        for step in rest:
            need = self._need(step, names)
            if need is None:
                break
            needed += need
        return needed

    def _need(self, step: Step, names: tuple[PlaceName, ...]) -> int | None:  # noqa: C901, PLR0911
        """How many places of these names a step takes; None where that is open."""
        match step:
            case Work(target=Each()) | Repeat(times=Open()) | Decrease(times=None):
                return None
            case Work(target=ChainOfTurning()):
                return 1 if self.cursor.remaining(match_of((TurningChain(),))) else 0
            case Work(target=Unplaced(count=amount)):
                takes, _ = self._places_each(step.content)
                return (self.context.amount(amount) or 0) * takes if _share(names, ANY) else 0
            case Work(target=Next(names=other, count=amount) | Last(names=other, count=amount)):
                if self._evens_spiral(step):
                    return 0
                count = self.context.amount(amount) or 0
                return count if _share(names, other) else 0
            case Skip(target=Next(names=other, count=amount) | Last(names=other, count=amount)):
                return (self.context.amount(amount) or 0) if _share(names, other) else 0
            case Skip(target=Unplaced(count=amount)):
                return (self.context.amount(amount) or 0) if _share(names, ANY) else 0
            case Increase(target=Unplaced(count=amount)):
                return self.context.amount(amount) or 0
            case Decrease(times=amount) if amount is not None:
                return 2 * (self.context.amount(amount) or 0)
            case Repeat(steps=body, times=Exactly(count=amount) | More(count=amount)):
                inner = [self._need(inside, names) for inside in body]
                if any(need is None for need in inner):
                    return None
                times = self.context.amount(amount) or 0
                if isinstance(step.times, More):
                    times += 1
                return times * sum(need or 0 for need in inner)
            case _:
                return 0

    def _evens_spiral(self, step: Work) -> bool:
        """A slip stitch behind an "each" at the end of a spiral round evens its end."""
        only = step.content[0]
        return (
            self.how == "spiral rounds"
            and isinstance(only, Stitch)
            and only.name == "sl st"
            and isinstance(step.target, Next)
            and step.target.count.values == (1,)
        )

    # --- slip stitches ---------------------------------------------------------------------

    def _closing_slip_stitch(self, step: Work) -> bool:
        """A slip stitch that closes the round, or evens the end of a spiral: not counted."""
        if not _is_slip_stitch(step) or not self.began or self.depth:
            return False
        target = step.target
        closes = isinstance(target, First | ChainOfTurning) and (self._closed() or self.ring)
        if closes and self.how != "flat rows":
            self.joined = True
            self._count_worked("sl st", 1)
            return True
        if self.how == "spiral rounds" and self._evens_spiral(step) and self.left() == 0:
            self._count_worked("sl st", 1)
            return True
        return False

    def _slips_along(self, step: Work) -> bool:
        """Slip stitches before anything else in the row are travel."""
        if not _is_slip_stitch(step) or self.began or self.only_slips or self.depth:
            return False
        target = step.target
        if not isinstance(target, Next | First):
            return False
        count = self.context.amount(target.count)
        if count:
            self._count_worked("sl st", count)
            self._go_to(target.names, count, step)
            self.stands = "slipped"
        return True

    def _travel(self, step: Travel) -> None:
        target = step.target
        if isinstance(target, Each):
            self.left_rest = True
            return
        self._count_worked("sl st", 1)
        if self.began and isinstance(target, First | ChainOfTurning) and self.how != "flat rows":
            self.joined = True
            return
        match target:
            case Next(names=names, count=amount) | First(names=names, count=amount):
                count = self.context.amount(amount)
                if count:
                    self._go_to(names, count, step)
            case Inside(name=Space() as inner):
                self._go_to((Space(inner.chains),), 1, step)
            case Inside(name=OneChain(), container=Next(names=names)):
                self._go_to(names, 1, step)
            case Inside():
                self._go_to((mark_of(target),), 1, step)
            case Same():
                pass
            case _:
                raise Fault(
                    "row-not-understood",
                    step.start,
                    step.end,
                    "where this slip stitch goes is not understood",
                    mend="Write “sl st to next ch-2 sp” or “sl st in each of next 4 sts”.",
                )

    def _go_to(self, names: tuple[PlaceName, ...], count: int, step: Step) -> None:
        """Move the hook in front of the ``count``-th next place of these names."""
        match = match_of(names)
        if self.stands in ("at", "slipped") and not self.began:
            self._pass_here()
        there = self.cursor.remaining(match)
        if there < count:
            if self.recover:
                return
            self._missing(names, count, there, step)
        began_with = self.cursor
        self.cursor = began_with.copy()
        self.cursor.take(match, count - 1)
        self.cursor.pass_over(lambda place: not match(place))
        if self._closed() and not self.began:
            passed = self.cursor.passed()
            rest = self.cursor.rest()
            behind = (Loop(passed, 1, optional=True),) if passed else ()
            self.cursor = Cursor((*rest, *behind))
        self.stands = "at"
        self.over_first = False
        for name in names:
            if isinstance(name, Space):
                self.named |= {name}

    # --- chains ----------------------------------------------------------------------------

    def _lead_chain(self, step: Chain, rest: tuple[Step, ...]) -> None:
        """A chain at the head of a row: a turning chain, or the start of something to work into."""
        count = self.context.amount(step.count)
        if not count:
            return
        self._count_worked("ch", count)
        self.chains_made += count
        self.lead_chains = count
        if _goes_from_hook(rest) or (
            self.below is None and rest and isinstance(rest[0], JoinRound)
        ):
            if rest_works(rest):
                self._put_chains(count)
                return
        if self.below is None and not rest_works(rest):
            self._emit(CHAIN, count)
            self._count_made("ch", count)
            return
        base = self._base_ahead(rest)
        if step.counts_as is not None:
            self._stand_over(count, step.counts_as, base, step)
        elif (
            base is not None
            and count == HEIGHTS.get(base, 0)
            and self._turning_chain_counts(base, count)
        ):
            self._stand_over(count, CountsAs(((_ONE, base),)), base, step)
        elif count > HEIGHTS.get(base or "tr", 0) + 1:
            self._emit(space(count), 1)
            self._count_made(f"ch-{count} sp", 1)
        self.began = True

    def _turning_chain_counts(self, base: str, count: int) -> bool:
        said = self.context.turning_chains.get(base)
        if said is not None:
            return said
        if base == "hdc":
            self.defaulted.append((base, count))
            self.points.setdefault(("turning", 0), ("does not count", "counts as hdc"))
            return self.choices.get(("turning", 0), 0) == 1
        return HEIGHTS.get(base, 0) >= HEIGHTS["dc"]

    def _base_ahead(self, rest: tuple[Step, ...]) -> str | None:
        if _begins_with_change(rest):
            return self._base(rest[0])
        first = _first_stitch(rest)
        if first is None:
            return None
        special = self.context.special.get(first)
        if special is not None:
            inside = _first_of_content(special.content) or special.base
            return kind_of(inside).base if inside else None
        base = kind_of(first).base
        return base if base in HEIGHTS else None

    def _put_chains(self, count: int) -> None:
        """Chains that are worked back along: places in front of all others."""
        self.cursor = Cursor((Run(CHAIN, count), *self.cursor.rest()))
        if self.below is None:
            self.below = Fabric(
                (Run(CHAIN, count),), foundation=True, closed=self.how != "flat rows"
            )

    def _stand_over(self, count: int, said: CountsAs, base: str | None, step: Step) -> None:
        """A counted chain stands over the first place, which then counts as taken."""
        if not said.stitches and said.chains is None:
            return
        self.stood_from = len(self.out.nodes)
        if not self.ring and self.stands != "taken":
            if self.stands == "start":
                self._to_joined_place()
            place = self.cursor.peek()
            if place is not None and (place.sort != "sp" or self.stands != "start"):
                self.cursor.take(lambda _: True, 1)
        self._stand_for(said, count, base)
        self.stands, self.over_first, self.began = "taken", True, True

    def _stand_for(self, said: CountsAs, count: int, base: str | None) -> None:
        for amount, name in said.stitches:
            number = self.context.amount(amount) or 0
            known = (base or "st") if name == "st" else name
            self._emit(Place("st", known, kind_of(known).base, count, turning=True), number)
            self._count_made(known, number)
            self.last_stitch = known
        if said.chains is not None:
            chains = self.context.amount(said.chains) or 0
            if chains:
                self._emit(space(chains), 1)
                self._count_made(f"ch-{chains} sp", 1)

    def _chain(self, step: Chain) -> None:
        """Chains between steps: a space, or stitches where they count as such."""
        count = self.context.amount(step.count)
        if not count:
            return
        self._count_worked("ch", count)
        self.began = True
        said = step.counts_as
        if said is not None and (said.stitches or said.chains is not None):
            for amount, name in said.stitches:
                number = self.context.amount(amount) or 0
                known = "ch" if name == "st" else name
                if name == "st" and number not in (0, 1, count):
                    raise Fault(
                        "row-chains-counted",
                        said.start,
                        said.end,
                        f"ch {count} is said to count as {number} sts",
                        mend="Chains that count as sts count one each.",
                    )
                self._emit(stitch(known, kind_of(known).base), number)
                self._count_made(known, number)
            if said.chains is not None and (chains := self.context.amount(said.chains) or 0):
                self._emit(space(chains), 1)
                self._count_made(f"ch-{chains} sp", 1)
        elif said is not None:
            return
        elif self.context.each_chain_counts:
            self._emit(stitch("ch", "ch"), count)
            self._count_made("ch", count)
        else:
            self._emit(space(count), 1)
            self._count_made(f"ch-{count} sp", 1)

    def _foundation(self, step: Foundation) -> None:
        count = self.context.amount(step.count)
        if count:
            self._emit(stitch(step.name, kind_of(step.name).base), count)
            self._count_made(step.name, count)
            self._count_worked(step.name, count)
            self.began = True

    # --- joins and turns -------------------------------------------------------------------

    def _join_round(self, step: JoinRound) -> None:
        self.joined = True
        self._count_worked("sl st", 1)
        self._check_joined_place(step)
        if step.ring:
            self.made_ring = True
            self.ring = True

    def _check_joined_place(self, step: JoinRound) -> None:
        """The place that a round is joined to must be there: its first stitch, its chain."""
        if self.recover or not self.began:
            return
        match step.target:
            case ChainOfTurning(chain=TurningChain(chains=chains)) if chains is not None:
                if self.lead_chains != chains:
                    found = "no chain" if self.lead_chains is None else f"ch {self.lead_chains}"
                    raise Fault(
                        "row-no-such-place",
                        step.start,
                        step.end,
                        f"it is joined to a beg ch-{chains} and begins with {found}",
                        mend="Name the chain or the stitch that the round begins with.",
                    )
            case First(names=(NamedStitch(name=name),)) | Next(names=(NamedStitch(name=name),)):
                made = [kind_of(one).base for one in self.makes] + list(self.makes)
                if name not in made and name not in self.groups:
                    raise Fault(
                        "row-no-such-place",
                        step.start,
                        step.end,
                        f"it is joined to a {name} and makes none",
                        mend="Name a stitch that the round makes.",
                    )
            case _:
                return

    def _join_yarn(self, step: JoinYarn) -> None:
        target = step.target
        if target is not None:
            match target:
                case Next(names=names, count=amount) | First(names=names, count=amount):
                    self._go_to(names, self.context.amount(amount) or 1, step)
                case Last(names=names):
                    self._go_to(names, self.cursor.remaining(match_of(names)), step)
                case Same() | ChainOfTurning():
                    self._to_joined_place()
                case Inside(name=Space() as inner):
                    self._go_to((Space(inner.chains),), 1, step)
                case Inside(container=Next() | First()):
                    self._go_to((mark_of(target),), 1, step)
                case _:
                    raise Fault(
                        "row-not-understood",
                        step.start,
                        step.end,
                        "where the yarn is joined is not understood",
                        mend="Write “join yarn with sl st in first st” or “in any ch-2 sp”.",
                    )
            self.stands = "joined"
        if step.stitch is not None:
            self._stand_here(step)
            self._make((step.stitch,), 1)
            self.began = True
            if self.named:
                return
            self.generic = True

    def _turn(self, step: Turn) -> None:
        if self.began and self.turned is None and not self._is_last(step):
            pass
        if not self.began and step.turned and self.depth == 0:
            if self.below is not None and not self.below.turned:
                self.cursor = Cursor(reversed_nodes(self.cursor.rest()))
            return
        self.turned = step.turned

    def _is_last(self, step: Turn) -> bool:
        return step.turned

    # --- increases, decreases, skips ---------------------------------------------------------

    def _base(self, step: Step | None = None) -> str:
        """The stitch of an ``inc`` or ``dec``: last named in the row, else of the row before."""
        name = self.changes.get(id(step)) or self.first_stitch
        if name is not None:
            special = self.context.special.get(name)
            if special is not None and special.content:
                name = _first_of_content(special.content) or name
            return kind_of(name).base
        place = self.cursor.peek()
        probe = self.cursor.copy()
        probe.pass_over(lambda one: one.sort == "sp")
        place = probe.peek()
        return "sc" if place is None or place.sort == "ch" else place.base

    def _increase(self, step: Increase) -> None:
        base = self._base(step)
        two = (Stitch(base, Amount((2,))),)
        work = Work(two, step.target, start=step.start, end=step.end)
        match step.target:
            case Each():
                self._each(work, step.target, ())
            case Unplaced(count=amount):
                count = self.context.amount(amount)
                if count:
                    self._take(ANY, count, step)
                    self._make(two, count)
            case _:
                self._work(work)
        self.last_stitch = base
        self.began = True

    def _decrease(self, step: Decrease) -> None:
        base = self._base(step)
        together = (Stitch(f"{base}2tog", legs=2),)
        if step.times is None:
            target = Each(ANY, step.limit)
            self._each(Work(together, target, start=step.start, end=step.end), target, ())
        else:
            count = self.context.amount(step.times)
            if count:
                self._take(ANY, 2 * count, step)
                self._make(together, count)
        self.last_stitch = base
        self.began = True

    def _skip(self, step: Skip) -> None:
        match step.target:
            case Unplaced(count=amount):
                count = self.context.amount(amount)
                if count:
                    self._pass_by(ANY, count, step)
            case Next(names=names, count=amount):
                count = self.context.amount(amount)
                if count:
                    self._pass_by(names, count, step)
            case First(names=names, count=amount):
                count = self.context.amount(amount)
                if count:
                    self._pass_by(names, count - 1 if self.over_first else count, step)
            case Last(names=names, count=amount):
                count = self.context.amount(amount)
                if count:
                    self._pass_by(names, count, step)
            case Each(names=names):
                self._pass_by(names, self.cursor.remaining(match_of(names)), step)
            case Same() | ChainOfTurning():
                if self.stands in ("at", "joined", "slipped"):
                    self._pass_here()
                    self.stands = "taken"
            case Inside():
                self._pass_by((mark_of(step.target),), 1, step)
            case _:
                raise Fault(
                    "row-not-understood", step.start, step.end, "what is skipped is not understood"
                )

    def _pass_by(self, names: tuple[PlaceName, ...], count: int, step: Skip) -> None:
        generic, named = self.generic, self.named
        over, stands = self.over_first, self.stands
        self._take(names, count, step)
        self.generic, self.named = generic, named
        if stands == "start" and count:
            self.stands = "taken"
        self.over_first = over and count == 0

    def _evenly(self, step: Work, change: Evenly) -> None:
        """``sc around, dec 12 sts evenly``: the places of each change are the exact spacing."""
        target = step.target
        assert isinstance(target, Each)
        self._begin_each(step, target.names)
        sts = self._room(target, (), step) or 0
        count = (self.context.amount(change.count) or 0) * change.ends
        only = step.content[0]
        assert isinstance(only, Stitch)
        self._spaced(sts, count, change, only)
        self.cursor.take(match_of(target.names), sts)
        self.stands, self.over_first, self.began = "taken", False, True
        self.sided = True

    def _evenly_alone(self, change: Evenly) -> None:
        self._begin_each(change, ANY)
        sts = self.cursor.remaining(count_stitches)
        count = (self.context.amount(change.count) or 0) * change.ends
        self._note(ANY)
        self._spaced(sts, count, change, Stitch(self._base(change)))
        self.cursor.take(count_stitches, sts)
        self.stands, self.over_first, self.began = "taken", False, True

    def _spaced(self, sts: int, count: int, change: Evenly, only: Stitch) -> None:
        if count == 0:
            self._make((only,), sts)
            return
        try:
            spacing = evenly(sts, count, change.change, flat=self.how == "flat rows")
        except ValueError:
            if self.recover:
                return
            raise Fault(
                "row-uneven",
                change.start,
                change.end,
                f"{count} changes do not fit into {_many(sts, 'st')}",
                needed=count,
                left=sts,
            ) from None
        legs = 2 if change.change == "dec" else 1
        changed: tuple[Content, ...] = (
            (Stitch(f"{kind_of(only.name).base}2tog", legs=2),)
            if change.change == "dec"
            else (Stitch(only.name, Amount((2,))),)
        )
        first, last = spacing.edges
        lengths = ((first,) if first else ()) + spacing.intervals
        for length, times in _folded(lengths):
            start = len(self.out.nodes)
            kept, self.out = self.out, Builder()
            self._make((only,), length - legs)
            self._make(changed, 1)
            nodes, self.out = tuple(self.out.nodes), kept
            self.out.add_times(nodes, times)
            self._repeat_counts((only,), (length - legs) * (times - 1))
            self._repeat_counts(changed, times - 1)
            assert start <= len(self.out.nodes)
        self._make((only,), last)

    def _repeat_counts(self, content: tuple[Content, ...], times: int) -> None:
        kept, self.out = self.out, Builder()
        self._make(content, times)
        self.out = kept

    # --- making ----------------------------------------------------------------------------

    def _emit(self, place: Place, count: int) -> None:
        self.out.add(place, count)

    def _count_made(self, name: str, count: int) -> None:
        if count:
            self.makes[name] = self.makes.get(name, 0) + count

    def _count_worked(self, name: str, count: int) -> None:
        if count:
            self.worked[name] = self.worked.get(name, 0) + count

    def _make_here(self, content: tuple[Content, ...]) -> None:
        """Make content in the place where a counted chain stands already: one group of both."""
        start = self.stood_from
        if start is None or start >= len(self.out.nodes):
            self._make(content, 1)
            return
        kept, self.out = self.out, Builder()
        self._make(content, 1)
        made = self.out.nodes
        self.out = kept
        inside = list(kept.nodes[start:])
        for node in made:
            inside.extend(node.nodes if isinstance(node, Loop) and node.group else (node,))
        kept.nodes[start:] = [Loop(tuple(inside), 1, group=True)]

    def _make(self, content: tuple[Content, ...], times: int, *, spread: bool = False) -> None:
        """Make the content once in each of ``times`` places."""
        if times <= 0:
            return
        only = content[0]
        if len(content) == 1 and isinstance(only, Stitch):
            self.last_stitch = only.name
            special = self.context.special.get(only.name)
            count = self.context.amount(only.count)
            if not count:
                return
            if special is None and (count == 1 or spread):
                self._emit(stitch(only.name, kind_of(only.name).base), times)
                self._count_made(only.name, times)
                self._count_worked(only.name, times)
                return
        nodes = self._nodes(content, times)
        if nodes:
            name = only.name if isinstance(only, Stitch) and len(content) == 1 else None
            known = name if name in self.context.special else None
            if len(nodes) == 1 and isinstance(nodes[0], Loop) and nodes[0].group:
                self.out.add_times(nodes, times)
            else:
                self.out.add_times((Loop(nodes, 1, group=True, name=known),), times)

    def _nodes(self, content: tuple[Content, ...], times: int) -> tuple[Node, ...]:
        """The places that content leaves in one place; its counts are added ``times`` over."""
        builder = Builder()
        for item in content:
            match item:
                case Stitch(name=name, count=amount):
                    self.last_stitch = name
                    count = self.context.amount(amount) or 0
                    self._add_stitch(builder, name, count, times)
                case Chain(count=amount, counts_as=said):
                    count = self.context.amount(amount) or 0
                    self._count_worked("ch", count * times)
                    if count and not (said is not None and not said.stitches):
                        builder.add(space(count), 1)
                        self._count_made(f"ch-{count} sp", times)
                case Times(content=inner, count=amount):
                    count = self.context.amount(amount) or 0
                    if count:
                        builder.add_times(self._nodes(inner, times * count), count)
                case _:
                    assert_never(item)
        return tuple(builder.nodes)

    def _add_stitch(self, builder: Builder, name: str, count: int, times: int) -> None:
        if not count:
            return
        special = self.context.special.get(name)
        if special is not None and special.content:
            self.groups[name] = self.groups.get(name, 0) + count * times
            inside = self._nodes(special.content, count * times)
            builder.add_times((Loop(inside, 1, group=True, name=name),), count)
            return
        self._count_worked(name, count * times)
        made = name.removeprefix(
            "beg "
        )  # a beginning version makes the same stitch as the full one
        self._count_made(made, count * times)
        if special is None or special.takes > 0:
            builder.add(stitch(made, kind_of(made).base), count)

    # --- repeats ---------------------------------------------------------------------------

    def _repeat(self, step: Repeat) -> None:
        times = step.times
        match times:
            case Exactly(count=amount):
                count = self.context.amount(amount) or 0
            case More(count=amount, more=more):
                count = (self.context.amount(amount) or 0) + 1
                if not more:
                    point = ("times", step.start)
                    self.points.setdefault(point, (f"{count} in all", f"{count - 1} in all"))
                    count -= self.choices.get(point, 0)
            case Open(limit=limit):
                self._open_repeat(step, limit, (), final=False)
                return
            case _:
                assert_never(times)
        if count <= 0:
            return
        body, last = _plain(step.steps), self._last_turn(step)
        if last is None:
            self._turns(body, count)
        else:
            self._turns(body, count - 1)
            self._once(last)
        for after in _steps_after(step):
            self._step(after)

    def _last_turn(self, step: Repeat) -> tuple[Step, ...] | None:
        """The steps of the last turn where it differs from the others, else None."""
        match step.ending:
            case None:
                return None
            case EndingWith(steps=steps, last=True):
                return (*_plain(step.steps)[:-1], *steps)
            case EndingWith():
                return None  # worked after the last turn, like all that follows
            case EndingAtStop():
                at = next(
                    (i for i, inner in enumerate(step.steps) if isinstance(inner, Stop)),
                    len(step.steps),
                )
                return _plain(step.steps[:at])
            case Omitting(steps=steps):
                return _plain(step.steps)[: max(len(_plain(step.steps)) - len(steps), 0)]
            case _:
                assert_never(step.ending)

    def _once(self, steps: tuple[Step, ...]) -> None:
        self.depth += 1
        self.run(steps, final=False)
        self.depth -= 1

    def _turns(self, body: tuple[Step, ...], count: int) -> None:
        """Work the body so many times, jumping whole cycles."""
        turns = _Turns(self, body)
        turns.go(count)
        turns.close()

    def _open_repeat(
        self, step: Repeat, limit: Limit | None, rest: tuple[Step, ...], *, final: bool
    ) -> None:
        """Solve how often an open repeat is worked, then walk what is written after it."""
        if self.ring and limit is None:
            raise self._open_in_ring(step)
        body, last = _plain(step.steps), self._last_turn(step)
        rest = (*_steps_after(step), *rest)
        keep = self._limit_count(limit)
        reserve = sum(self._need(after, ANY) or 0 for after in (*rest, *(last or ()))) + keep
        turns = _Turns(self, body)
        saved = turns.as_often_as_it_fits(reserve, stop=self._at_limit(limit))
        turns.close()
        fits: Fault | None = None
        best: _Saved | None = None
        recover, self.recover = self.recover, False
        for state in reversed(saved):
            self._restore(state)
            try:
                if last is not None:
                    self._once(last)
                elif state is saved[0]:
                    continue  # the group is worked at least once
                if limit is None or self._limit_reached(limit):
                    self._note_multiple(saved[0], turns)
                    self.run(rest, final=final)
                    self.recover = recover
                    return
            except Fault as fault:
                if fault.code != "row-uneven":
                    fits = fits or fault
                elif best is None and recover:
                    best = state
        self.recover = recover
        if fits is not None and not recover:
            raise fits
        if recover:
            self._make_do(saved, last, rest, final=final)
            return
        raise self._uneven(step, saved, turns, last, rest, keep)

    def _note_multiple(self, start: _Saved, turns: _Turns) -> None:
        """The stitch multiple of an open repeat: what a turn takes, and what is left beside."""
        if self.depth or not turns.count or self.below is None or not self.generic:
            return
        before = start.cursor.remaining(count_stitches)
        takes = turns.takes
        if takes and before:
            self.multiple = (takes, self.below.sts % takes)

    def _make_do(
        self,
        saved: list[_Saved],
        last: tuple[Step, ...] | None,
        rest: tuple[Step, ...],
        *,
        final: bool,
    ) -> None:
        """Count on from the largest number of turns that fits, the other steps as written."""
        for state in reversed(saved):
            self._restore(state)
            self.recover, self.lenient = False, True
            try:
                if last is not None:
                    self._once(last)
                self._quietly(rest)
            except Fault:
                continue
            finally:
                self.recover, self.lenient = True, False
            return
        self.recover = True
        self._restore(saved[-1])
        if last is not None:
            self._once(last)
        self.run(rest, final=final)

    def _quietly(self, rest: tuple[Step, ...]) -> None:
        self.run(rest, final=False)

    def _uneven(
        self,
        step: Repeat,
        saved: list[_Saved],
        turns: _Turns,
        last: tuple[Step, ...] | None,
        rest: tuple[Step, ...],
        keep: int,
    ) -> Fault:
        """Say how the repeat fails: what a turn takes, how many fit, what is left over."""
        match = self._wanted()
        self._restore(saved[0])
        at_start = self.cursor.remaining(match, required=True)
        self._restore(saved[-1])
        at_end = self.cursor.remaining(match, required=True)
        number = turns.count
        if number == 0:
            return turns.failed or Fault(
                "row-uneven", step.start, step.end, "the repeat does not fit even once"
            )
        if turns.idle:
            return Fault(
                "row-takes-nothing",
                step.start,
                step.end,
                "the repeat takes up no stitch, so nothing says when it ends",
                mend="Say how often: “rep from * 5 more times”.",
            )
        takes = (at_start - at_end) // number
        after = sum(self._need(later, ANY) or 0 for later in rest) + (0 if rest else keep)
        name = self._wanted_name()
        left = at_end - after
        while left < 0 and number > 0:
            number -= 1
            left += takes
        used = takes * number
        detail = f"{number} repeat{'' if number == 1 else 's'} use {used}"
        if number == 1:
            detail = f"1 repeat uses {used}"
        if after:
            detail += f", {_many(after, name)} {'is' if after == 1 else 'are'} needed after"
        detail += f" and {_many(left, name)} {'is' if left == 1 else 'are'} left over"
        return Fault(
            "row-uneven",
            step.start,
            step.end,
            detail,
            lead=f"The repeat takes {_many(takes, name)}",
            takes=takes,
            repeats=number,
            left_over=left,
        )

    def _wanted_name(self) -> str:
        if self.generic or not self.named:
            return "st"
        return spoken(tuple(sorted(self.named, key=repr)))

    # --- corners, other sides, picots ------------------------------------------------------

    def _with_corners(
        self, step: Work, target: Each, corners: Corners, rest: tuple[Step, ...]
    ) -> tuple[Step, ...]:
        """Each stitch up to a corner, the corner, and so on round; then what is left of the side."""
        name = self._corner_name(corners)
        side = Work(step.content, Each(target.names, ToNext(name)), start=step.start, end=step.end)
        corner = Work(corners.content, Next((name,)), start=corners.start, end=corners.end)
        end = Work(step.content, Each(target.names), start=step.start, end=step.end)
        turns = Repeat((side, corner), Open(), start=step.start, end=corners.end)
        return (turns, end, *rest)

    def _corner_name(self, corners: Corners) -> PlaceName:
        match corners.target:
            case Inside() as target:
                return mark_of(target)
            case Next(names=names):
                return names[0]
            case _:
                return self._known_corner(corners)

    def _known_corner(self, corners: Corners) -> PlaceName:
        """The spaces that stand at the corners: the widest, if there are from three to eight."""
        counts = tally(self.cursor.rest())
        spaces = [
            (int(name[3:-3]), number) for name, number in counts.items() if name.endswith(" sp")
        ]
        if spaces:
            chains, number = max(spaces)
            if 3 <= number <= 8:  # noqa: PLR2004, a triangle to an octagon
                return Space(chains)
        raise self._corners_unknown(corners)

    def _corners_unknown(self, corners: Corners) -> Fault:
        return Fault(
            "row-not-understood",
            corners.start,
            corners.end,
            "where the corners are cannot be told from the row before",
            mend="Name them: “in each corner ch-2 sp”, “in center dc of each 3-dc group”.",
        )

    def _other_side(self) -> None:
        """The chains once more, from the end back to the first that was worked into."""
        more = self.first_side - 1
        if more < 1:
            return
        again: list[Node] = [Run(CHAIN, more - 1)] if more > 1 else []
        first = Loop((Run(CHAIN, 1),), 1, optional=True)
        self.cursor = Cursor((*self.cursor.rest(), *again, first))

    def _picot(self, step: Picot) -> None:
        count = self.context.amount(step.chains)
        if count:
            self._count_made("picot", 1)
            self._count_worked("ch", count)
            self._count_worked("sl st", 1)

    def _closes_loop(self, step: Work) -> bool:
        """``ch 3, dc in first sc`` at the end of a round: the last loop, which takes no place."""
        if not self.began or self.depth or not self._closed() or _is_slip_stitch(step):
            return False
        after_chain = bool(self.out.nodes) and isinstance(self.out.nodes[-1], Run)
        if not after_chain or self.left():
            return False
        last = self.out.nodes[-1]
        assert isinstance(last, Run)
        return last.place.sort == "sp" and isinstance(step.target, First | ChainOfTurning)

    def _limit_count(self, limit: Limit | None) -> int:
        if isinstance(limit, ToLast):
            return (self.context.amount(limit.count) or 0) + self._chain_behind(limit)
        return 0

    def _chain_behind(self, limit: ToLast) -> int:
        """1 where "before turning ch" leaves that chain too, and it is still there."""
        return int(limit.before and self.cursor.remaining(match_of((TurningChain(),))) > 0)

    def _at_limit(self, limit: Limit | None) -> tuple[Match, int] | None:
        if isinstance(limit, ToLast):
            return match_of(limit.names), self._limit_count(limit)
        return None

    def _limit_reached(self, limit: Limit) -> bool:
        match limit:
            case ToLast(names=names):
                keep = self._limit_count(limit)
                return self.cursor.remaining(match_of(names), required=True) == keep
            case ToNext(name=name):
                return self.cursor.before(match_of((name,)), self._wanted()) == 0
            case _:
                assert_never(limit)

    # --- states ----------------------------------------------------------------------------

    def save(self) -> _Saved:
        """The state, to come back to."""
        return _Saved(
            self.cursor.copy(),
            list(self.out.nodes),
            dict(self.makes),
            dict(self.worked),
            dict(self.groups),
            self.stands,
            self.generic,
            self.named,
            self.last_stitch,
            (self.over_first, self.began, self.left_rest, self.joined, self.sided),
        )

    def _restore(self, saved: _Saved) -> None:
        self.cursor = saved.cursor.copy()
        self.out = Builder()
        self.out.nodes = list(saved.out)
        self.makes = dict(saved.makes)
        self.worked = dict(saved.worked)
        self.groups = dict(saved.groups)
        self.stands = saved.stands
        self.generic = saved.generic
        self.named = saved.named
        self.last_stitch = saved.last_stitch
        self.over_first, self.began, self.left_rest, self.joined, self.sided = saved.flags

    restore = _restore


_ONE = Amount((1,))


class _Turns:
    """The turns of one repeat: works the body, folds what is alike, jumps whole cycles."""

    def __init__(self, walk: Walk, body: tuple[Step, ...]) -> None:
        self.walk = walk
        self.body = body
        self.outer = walk.out
        self.folded: list[tuple[tuple[Node, ...], int]] = []
        self.recent: list[tuple[Node, ...]] = []
        self.seen: dict[Key, tuple[int, int, tuple[dict[str, int], ...], int]] = {}
        self.count = 0
        self.failed: Fault | None = None
        self.idle = False
        self.takes = 0

    def go(self, times: int) -> None:
        """Work the body exactly so many times."""
        while self.count < times:
            if times - self.count > 2:  # noqa: PLR2004, two turns are worked sooner than jumped
                self._jump(times - self.count, None, 0)
            if self.count < times:
                self._turn()

    def as_often_as_it_fits(self, reserve: int, stop: tuple[Match, int] | None) -> list[_Saved]:
        """Work the body until it does not fit; the last states before, the first one first.

        The list begins with the state before the first turn.
        """
        walk = self.walk
        saved: deque[_Saved] = deque(maxlen=_KEPT + reserve + 1)
        first = self._whole_state()
        saved.append(first)
        recover, walk.recover = walk.recover, False
        while True:
            before = walk.left()
            if before == 0 and self.count:
                break
            if stop is not None and walk.cursor.remaining(stop[0], required=True) <= stop[1]:
                break
            jumped = self._jump(None, walk._wanted(), reserve + (stop[1] if stop else 0))
            if jumped:
                saved.append(self._whole_state())
            here = walk.save()
            try:
                self._turn()
            except Fault as fault:
                self.failed = fault
                walk.restore(here)
                walk.out = Builder()
                break
            saved.append(self._whole_state())
            if walk.cursor.remaining(lambda _: True) == here.cursor.remaining(lambda _: True):
                self.idle = True
                break
        walk.recover = recover
        states = list(saved)
        return states if states and states[0] is first else [first, *states]

    def close(self) -> None:
        """Hand what was made to the walk."""
        walk = self.walk
        for nodes, times in self.folded:
            self.outer.add_times(nodes, times)
        walk.out = self.outer

    def _whole_state(self) -> _Saved:
        """The state of the walk with all turns so far in its output."""
        walk = self.walk
        kept = walk.out
        walk.out = Builder()
        walk.out.nodes = list(self.outer.nodes)
        for nodes, times in self.folded:
            walk.out.add_times(nodes, times)
        state = walk.save()
        walk.out = kept
        return state

    def _turn(self) -> None:
        walk = self.walk
        walk.out = Builder()
        walk.depth += 1
        before = 0 if self.count else walk.cursor.remaining(count_stitches)
        try:
            walk.run(self.body, final=False)
        finally:
            walk.depth -= 1
        if self.count == 0:
            self.takes = before - walk.cursor.remaining(count_stitches)
        made = tuple(walk.out.nodes)
        self.recent.append(made)
        self._fold(made, 1)
        self.count += 1

    def _fold(self, made: tuple[Node, ...], times: int) -> None:
        if self.folded and self.folded[-1][0] == made:
            self.folded[-1] = (made, self.folded[-1][1] + times)
        else:
            self.folded.append((made, times))

    def _jump(self, most: int | None, wanted: Match | None, reserve: int) -> bool:
        """Pass as many whole cycles as the fabric and the number of turns allow."""
        walk = self.walk
        counts = (dict(walk.makes), dict(walk.worked), dict(walk.groups))
        rest = 0 if wanted is None else walk.cursor.remaining(wanted, required=True)
        for key, value in walk.cursor.keys():
            earlier = self.seen.get(key)
            self.seen[key] = (self.count, value, counts, rest)
            if earlier is None or earlier[1] <= value:
                continue
            period, drop = self.count - earlier[0], earlier[1] - value
            cycles = value // drop
            if most is not None:
                cycles = min(cycles, most // period)
            if wanted is not None:
                taken = earlier[3] - rest
                if taken <= 0:
                    continue
                cycles = min(cycles, (rest - reserve) // taken - 1)
            if cycles < 1:
                continue
            self._pass_cycles(key, period, drop, cycles, earlier[2])
            return True
        return False

    def _pass_cycles(
        self, key: Key, period: int, drop: int, cycles: int, before: tuple[dict[str, int], ...]
    ) -> None:
        walk = self.walk
        walk.cursor.jump(key, drop * cycles)
        for counts, earlier in zip((walk.makes, walk.worked, walk.groups), before, strict=True):
            for name, number in list(counts.items()):
                counts[name] = number + (number - earlier.get(name, 0)) * cycles
        turn = self.recent[-period:]
        if all(nodes == turn[0] for nodes in turn):
            self._fold(turn[0], period * cycles)
        else:
            builder = Builder()
            for nodes in turn:
                builder.add_times(nodes, 1)
            self.folded.append((tuple(builder.nodes), cycles))
        self.count += period * cycles
        self.seen.clear()
        self.recent.clear()


# --- small questions about steps -----------------------------------------------------------


def _plain(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    return tuple(step for step in steps if not isinstance(step, Stop))


def _steps_after(step: Repeat) -> tuple[Step, ...]:
    """What "ending with D" adds after the last whole turn."""
    ending = step.ending
    return ending.steps if isinstance(ending, EndingWith) and not ending.last else ()


def _stitches_of_changes(steps: tuple[Step, ...]) -> dict[int, str]:
    """For each ``inc`` and ``dec`` the stitch that the text last names before it."""
    found: dict[int, str] = {}
    _name_changes(steps, None, found)
    return found


def _name_changes(steps: tuple[Step, ...], last: str | None, found: dict[int, str]) -> str | None:
    for step in steps:
        match step:
            case Work(content=content) if not _is_slip_stitch(step):
                last = _first_of_content(content) or last
            case JoinYarn(stitch=Stitch(name=name)):
                last = name
            case Chain(counts_as=CountsAs(stitches=((_, name), *_))):
                last = name if name != "st" else last
            case Increase() | Decrease() | Evenly():
                if last is not None:
                    found[id(step)] = last
            case Repeat(steps=body, ending=ending):
                last = _name_changes(body, last, found)
                last = _name_changes(getattr(ending, "steps", ()), last, found)
            case _:
                continue
    return last


def _begins_with_change(steps: tuple[Step, ...]) -> bool:
    for step in steps:
        if isinstance(step, Increase | Decrease):
            return True
        if not isinstance(step, Aside | Turn):
            return False
    return False


def _is_beginning(content: tuple[Content, ...]) -> bool:
    """A beginning version ("beg cl"): it takes the place that it stands on."""
    only = content[0]
    return isinstance(only, Stitch) and only.name.startswith("beg ")


def _without_turning_chain(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The places up to the turning chain at their end ("leave turning ch unworked")."""
    found = list(nodes)
    while found:
        last = found.pop()
        if isinstance(last, Run) and last.place.turning:
            return (*found, *((Run(last.place, last.count - 1),) if last.count > 1 else ()))
        if isinstance(last, Run) and last.place.sort == "sp":
            continue
        if isinstance(last, Loop) and last.times == 1:
            inside = _without_turning_chain(last.nodes)
            if inside != last.nodes:
                kept = (Loop(inside, 1, group=last.group, name=last.name),) if inside else ()
                return (*found, *kept)
        return nodes
    return nodes


def _is_slip_stitch(step: Work) -> bool:
    only = step.content[0]
    return len(step.content) == 1 and isinstance(only, Stitch) and only.name == "sl st"


def _only_slip_stitches(steps: tuple[Step, ...]) -> bool:
    """Whether all that the row works are slip stitches."""
    for step in steps:
        match step:
            case Work() if not _is_slip_stitch(step):
                return False
            case Increase() | Decrease() | Foundation() | Evenly():
                return False
            case Repeat(steps=body) if not _only_slip_stitches(body):
                return False
            case _:
                continue
    return True


def _first_of_content(content: tuple[Content, ...]) -> str | None:
    for item in content:
        match item:
            case Stitch(name=name):
                return name
            case Times(content=inner):
                found = _first_of_content(inner)
                if found is not None:
                    return found
            case _:
                continue
    return None


def _first_stitch(steps: tuple[Step, ...]) -> str | None:
    """The first stitch that the steps name (slip stitches of travel and joins apart)."""
    for step in steps:
        match step:
            case JoinYarn(stitch=Stitch(name=name)):
                return name
            case Work(content=content) if not _is_slip_stitch(step):
                return _first_of_content(content)
            case Repeat(steps=body):
                found = _first_stitch(body)
                if found is not None:
                    return found
            case Foundation(name=name):
                return name
            case _:
                continue
    return None


def rest_works(steps: tuple[Step, ...]) -> bool:
    """Whether any of the steps works into something."""
    return any(
        isinstance(step, Work | Increase | Decrease | Repeat | Foundation | Skip | Evenly)
        for step in steps
    )


def _goes_from_hook(steps: tuple[Step, ...]) -> bool:
    """Whether the next stitch is worked into a chain counted from the hook."""
    for step in steps:
        if isinstance(step, Work):
            return isinstance(step.target, FromHook)
        if isinstance(step, Aside | Turn | StatedHere):
            continue
        return False
    return False


def _leads_with_chain(steps: tuple[Step, ...]) -> bool:
    for step in steps:
        if isinstance(step, Chain):
            return True
        if isinstance(step, Aside | Turn | Travel | JoinYarn):
            continue
        return isinstance(step, Work) and _is_slip_stitch(step)
    return False


def _only_head(steps: list[Step]) -> bool:
    """Whether nothing is worked yet: a chain before "turn" is then this row's own."""
    return not rest_works(tuple(steps))


def _share(names: tuple[PlaceName, ...], other: tuple[PlaceName, ...]) -> bool:
    """Whether the same place could bear a name of both."""
    for one in names:
        for two in other:
            if isinstance(one, Space) or isinstance(two, Space):
                if isinstance(one, Space) and isinstance(two, Space):
                    return True
            elif isinstance(one, NamedStitch) and isinstance(two, NamedStitch):
                if one.name == two.name:
                    return True
            else:
                return True
    return False


def _last_place(nodes: tuple[Node, ...]) -> tuple[Place, tuple[Node, ...]]:
    """The last stitch of the nodes, and the nodes without it."""
    last = nodes[-1]
    before = nodes[:-1]
    if isinstance(last, Run):
        rest = (Run(last.place, last.count - 1),) if last.count > 1 else ()
        return last.place, (*before, *rest)
    place, inside = _last_place(last.nodes)
    turns = (Loop(last.nodes, last.times - 1, group=last.group, name=last.name),)
    return place, (*before, *(turns if last.times > 1 else ()), *inside)


def _tally(nodes: tuple[Node, ...], times: int, counts: dict[str, int]) -> None:
    for node in nodes:
        if isinstance(node, Run):
            counts[node.place.name] = counts.get(node.place.name, 0) + node.count * times
        else:
            _tally(node.nodes, times * node.times, counts)


def tally(nodes: tuple[Node, ...]) -> dict[str, int]:
    """How many places of each name there are."""
    counts: dict[str, int] = {}
    _tally(nodes, 1, counts)
    return counts


def _folded(lengths: tuple[int, ...]) -> list[tuple[int, int]]:
    folded: list[tuple[int, int]] = []
    for length in lengths:
        if folded and folded[-1][0] == length:
            folded[-1] = (length, folded[-1][1] + 1)
        else:
            folded.append((length, 1))
    return folded


def _many(count: int, name: str) -> str:
    """``1 st``, ``2 sts``, ``3 ch-2 sps``."""
    if name in ("st", "ch-sp") or name.endswith((" sp", "shell", "group")):
        return f"{count} {name}{'' if count == 1 else 's'}"
    if name == "ch":
        return f"{count} ch{'' if count == 1 else 's'}"
    return f"{count} {name}"


def _ordinal(number: int) -> str:
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number if number < 20 else number % 10, "th")  # noqa: PLR2004
    return f"{number}{ending}"


__all__ = ["Target", "Walk", "rest_works", "tally"]
