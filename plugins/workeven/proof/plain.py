"""The quick count: a row of plain steps over plain stitches, by arithmetic alone.

Takes     the ``Plan`` of a row, the fabric below it, a size.
Gives     ``count_plainly``: what the row gives there, or None; ``common_base``.
Problems  none: a row that is not plain, or does not come out, is left to the walk.
From      notation.md, the table of steps, "Chains at the start", "How repeats end".

Most rows of a garment work into "each st", "next 3 sts", "to last 2 sts", over a fabric that has no
spaces. In such a row it does not matter which stitch is which, only how many are left. So no cursor
walks along: each step takes so many of those that are left, and an open repeat is solved by one
division. What is made is made by the functions that the walk uses (``making``).

This is a quick yes only. Where anything else is asked (a space, a group, a dash), or where the row
does not come out, the answer is None and the row is walked. The walk is what counts: tests hold the
quick count equal to it.

Worked example: ``ch 3, dc in each of next 3 sts, *sk 3 sts, 4 dc in next st; rep from * to last 4
sts, dc in each st across`` over 20 dc: the chain stands over 1, 3 are taken, 16 are left; there are
12 to the last 4, which are 3 repeats of 4; the last 4 are taken, and none is left.
"""

from __future__ import annotations

from workeven.notation.tree import (
    ONE,
    Amount,
    Chain,
    Content,
    CountsAs,
    FromHook,
    JoinRound,
    Stitch,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS
from workeven.proof.chain_runs import as_runs
from workeven.proof.context import Fault, SizeContext, chain_counts
from workeven.proof.fabric import CHAIN, Fabric, Mark, Node, Run, counted_chain
from workeven.proof.facts import Facts, first_of_content
from workeven.proof.heads import BRIDGE, is_bridge
from workeven.proof.joins import check_joined_place
from workeven.proof.making import Made, chain_between, make, make_here, stand_for
from workeven.proof.markers import stitches_in, within
from workeven.proof.plan import Do, Plan, is_fixed_chain
from workeven.proof.row import TURNED, RowCount, worked_fabric
from workeven.proof.stretch import FEWEST, stretch_of, stretched

_TWO = Amount((2,))


class _LeftToTheWalk(Exception):
    """The row is not plain here, or does not come out; private to this module."""


def count_plainly(
    plan: Plan, facts: Facts, below: Fabric | None, context: SizeContext, how: str
) -> RowCount | None:
    """What a row gives in one size, where it is plain and comes out; None: it is to be walked."""
    if below is None or below.ring or below.marks:
        return None
    base, sts, chain = common_base(below.nodes, plan.named), below.sts, below.turning_chain
    if base is None:
        return None
    # what a count hangs on beside the number of stitches; the settings of the pattern are the same
    # in all its sizes
    setting = (base or _chains(below.nodes), how, chain, below.foundation)
    known = plan.stretches.get(setting)
    result = None if known is None else stretched(known, sts)
    if result is not None:
        return result
    special = context.special
    if special and not (plan.stitches.isdisjoint(special) and plan.named.isdisjoint(special)):
        return None
    count = _Count(context, sts, base)
    if not plan.fixed or not (chain is None or is_fixed_chain(chain)):
        return _count(plan, facts, below, how, count)
    result = _count(plan, facts, below, how, count)
    if known is None and result is not None and count.workings >= FEWEST:
        larger = _count(plan, facts, below, how, _Count(context, sts + count.unit, base))
        found = larger and stretch_of(result, larger, sts, count.workings, count.unit)
        if found:
            plan.stretches[setting] = found
    return result


def _count(plan: Plan, facts: Facts, below: Fabric, how: str, count: _Count) -> RowCount | None:
    try:
        count.begin(plan, facts, below)
        for step in plan.steps:
            count.do(step)
    except (_LeftToTheWalk, Fault):
        return None
    if count.left and not count.left_rest:
        return None
    if count.joined and how == "flat rows":
        return None  # a round around a flat piece
    if (
        how != "flat rows"
        and plan.turned
        and not count.joined
        and (count.left_rest or not below.closed)
    ):
        return None  # a row back and forth in a piece in rounds
    return _row_count(plan, facts, how, count)


def common_base(nodes: tuple[Node, ...], named: frozenset[str]) -> str | None:
    """The basic stitch of all places, "" where they differ; None: not plain, or not so named."""
    if not nodes:
        return None
    base = nodes[0].base
    for node in nodes:
        if not node.plain:
            return None
        if node.base != base:
            base = ""
    if named and named != {base or _chains(nodes)}:
        return None
    return base


def _chains(nodes: tuple[Node, ...]) -> str:
    """``ch`` where all places are those of a starting chain."""
    only = nodes[0]
    return "ch" if len(nodes) == 1 and isinstance(only, Run) and only.place == CHAIN else ""


def _row_count(plan: Plan, facts: Facts, how: str, count: _Count) -> RowCount:
    turned = plan.turned
    if turned is None:
        turned = how in TURNED and not plan.fastened
    made = count.made
    nodes = as_runs(tuple(made.out.nodes), made.makes, made.groups)
    fabric = worked_fabric(facts, nodes, how, turned=turned)
    if count.marks:
        fabric = fabric._replace(marks=within(set(count.marks), fabric.sts, turned=turned))
    multiple = None if count.takes is None else (count.takes, count.sts % count.takes)
    return RowCount(
        fabric=fabric,
        sts=fabric.sts,
        makes=tuple(made.makes.items()),
        worked=tuple(made.worked.items()),
        fault=None,
        points=(),
        defaulted=count.defaulted,
        is_row=True,
        multiple=multiple,
        groups=tuple(made.groups.items()),
    )


class _Count:
    """The count of one row: what is made, how many places are left.

    ``over_first``: a counted chain stands over the first place, from ``stood_from`` in the output
    on, until something is taken. ``lead`` is the length of the chain that the row begins with.
    ``takes`` is what a turn of the open repeat takes. The first step that takes what is left is
    worked ``workings`` times, and takes ``unit`` stitches each time. ``marks`` are the markers that
    it places, each behind so many stitches. ``joined``: it ends as a round.
    """

    __slots__ = (
        "base",
        "context",
        "defaulted",
        "joined",
        "lead",
        "left",
        "left_rest",
        "made",
        "marks",
        "over_first",
        "stands",
        "stood_from",
        "sts",
        "takes",
        "unit",
        "workings",
    )

    def __init__(self, context: SizeContext, left: int, base: str) -> None:
        self.context = context
        self.made = Made(context)
        self.sts = self.left = left
        self.base = base
        self.unit = self.workings = 0
        self.left_rest = self.over_first = self.stands = self.joined = False
        self.stood_from: int | None = None
        self.lead: int | None = None
        self.takes: int | None = None
        self.defaulted: tuple[tuple[str, int], ...] = ()
        self.marks: tuple[Mark, ...] = ()

    # --- the head --------------------------------------------------------------------------

    def begin(self, plan: Plan, facts: Facts, below: Fabric) -> None:
        """The chain that the row begins with, its own or the one that the row before has made."""
        head = plan.head
        if isinstance(head, Work):
            if below.turning_chain is not None or not below.foundation:
                raise _LeftToTheWalk
            self._from_hook(head, plan.base, below)
        elif head is not None:
            self._chain(head, plan.base)
        elif below.turning_chain is not None and not facts.leads_with_chain:
            self._chain(below.turning_chain, plan.base)

    def _chain(self, chain: Chain, base: str | None) -> None:
        if base == "":
            raise _LeftToTheWalk
        count = self._number(chain.count)
        self.made.work("ch", count)
        self.lead = count
        said = chain.counts_as
        if said is None and base is not None and count == HEIGHTS[base]:
            counts = chain_counts(self.context, base)
            if counts is None:
                raise _LeftToTheWalk  # it depends on the reading
            said = CountsAs(((ONE, base),)) if counts else None
        elif said is None and count > HEIGHTS.get(base or "tr", 0) + 1:
            raise _LeftToTheWalk  # a space, or a lift that is none
        elif said is None and base is not None and count > HEIGHTS[base] >= HEIGHTS["dc"]:
            self.defaulted = ((base, count),)  # it may have been meant to count
        if said is not None and is_bridge(self.context, said, count):
            self.made.leave(BRIDGE, count)
        elif said is not None and (said.stitches or said.chains is not None):
            self._take(1)
            self.stood_from = len(self.made.out.nodes)
            stand_for(self.made, said, count, base)
            self.over_first = self.stands = True

    def _from_hook(self, step: Work, base: str | None, below: Fabric) -> None:
        assert isinstance(step.target, FromHook)
        said, first = step.target.skipped, first_of_content(step.content)
        if first is None or _chains(below.nodes) != "ch" or not base or step.target.more:
            raise _LeftToTheWalk
        nth = self._number(step.target.nth)
        skipped = self.lead = nth - 1
        if said is not None:
            if said.skipped is not None and self._number(said.skipped) != skipped:
                raise _LeftToTheWalk
            stand_for(self.made, said, skipped, base)
        else:
            self._skipped(skipped, base)
        self._take(nth)
        make(self.made, step.content, 1)
        self.stands = True

    def _skipped(self, skipped: int, base: str) -> None:
        height = HEIGHTS[base]
        counts = skipped == height and chain_counts(self.context, base)
        if counts is None:
            raise _LeftToTheWalk
        if skipped >= height >= HEIGHTS["hdc"] and base not in self.context.turning_chains:
            self.defaulted = ((base, skipped),)
        if counts:
            self.made.leave(counted_chain(base, base, skipped), 1)

    # --- steps -----------------------------------------------------------------------------

    def do(self, step: Do) -> None:  # noqa: C901, one branch a kind
        """Work one step."""
        kind = step.kind
        if kind == "each":
            self._each(step)
        elif kind == "take":
            count = self._number(step.number)
            self._take(count * step.places)
            self._make(step, count)
        elif kind == "pass":
            self._take(self._number(step.number))
        elif kind == "open":
            self._open(step)
        elif kind == "times":
            self._turns(step, self._number(step.number))
        elif kind == "more":
            self._turns(step, (self.context.amount(step.number) or 0) + 1)
        elif kind == "over":
            self._over(step)
        elif kind == "last":
            self._last(step)
        elif kind == "first":
            self._first(step)
        elif kind == "same":
            self._same(step)
        elif kind == "pass first":
            count = self._number(step.number)
            self._take(count - 1 if self.over_first else count)
        elif kind == "chain":
            assert isinstance(step.step, Chain)
            chain_between(self.made, step.step, self._number(step.number))
        elif kind == "join":
            self._join(step)
        elif kind == "mark":
            self.marks = (*self.marks, (stitches_in(self.made.makes), "between"))
        else:
            self.left_rest = True

    def _number(self, amount: Amount) -> int:
        """A number of this size; where it is 0 or a dash the step is left out, which is walked."""
        number = self.context.amount(amount)
        if not number:
            raise _LeftToTheWalk
        return number

    def _take(self, count: int) -> None:
        if count > self.left:
            raise _LeftToTheWalk
        self.left -= count
        self.stood_from = None
        if count:
            self.over_first, self.stands = False, True

    def _make(self, step: Do, times: int) -> None:
        """Make what a step works, so many times."""
        place = step.place
        if place is None:
            make(self.made, self._content(step), times, spread=step.spread)
        elif times:
            self.made.leave(place, times)
            self.made.work(place.name, times)

    def _content(self, step: Do) -> tuple[Content, ...]:
        """What is made; an ``inc`` or ``dec`` whose stitch is not named is of that below."""
        if step.change is None:
            return step.content
        if not self.base:
            raise _LeftToTheWalk
        if step.change == "inc":
            return (Stitch(self.base, _TWO),)
        return (Stitch(f"{self.base}2tog", legs=2),)

    def _each(self, step: Do) -> None:
        keep = 0 if step.keep is None else self.context.amount(step.keep) or 0
        count = self.left - keep
        if count < 0 or count % step.places:
            raise _LeftToTheWalk
        self.left = keep
        self._note_workings(step.places, count // step.places)
        self._make(step, count // step.places)
        if count:
            self.over_first, self.stands = False, True

    def _note_workings(self, unit: int, workings: int) -> None:
        if not self.unit:
            self.unit, self.workings = unit, workings

    def _over(self, step: Do) -> None:
        """A decrease over so many places that are named."""
        count = self._number(step.number)
        if count != step.places and (count != 1 or step.over):
            raise _LeftToTheWalk
        self._take(count)
        self._make(step, 1)

    def _last(self, step: Do) -> None:
        count = self._number(step.number)
        if count != self.left or (step.over and count != step.places):
            raise _LeftToTheWalk
        if step.places > 1 and count > 1 and count % step.places:
            raise _LeftToTheWalk
        self._take(count)
        times = count // step.places if count > 1 else count
        self._make(step, times)

    def _first(self, step: Do) -> None:
        count = self._number(step.number)
        if step.places > 1 and (
            count != step.places if step.over else count > 1 and count % step.places
        ):
            raise _LeftToTheWalk
        if self.over_first and count == 1:
            make_here(self.made, step.content, self.stood_from)
            return
        nodes = self.made.out.nodes
        behind_space = bool(nodes) and not nodes[-1].plain
        if behind_space or (self.stands and not self.over_first):
            raise _LeftToTheWalk
        self._take(count - 1 if self.over_first else count)
        self._make(step, max(count // step.places, 1))
        self.over_first, self.stands = False, True

    def _same(self, step: Do) -> None:
        if not self.stands:
            if not self.base:
                raise _LeftToTheWalk
            here = self.stood_from
            self._take(1)
            self.stood_from = here
        make_here(self.made, step.content, self.stood_from)

    def _join(self, step: Do) -> None:
        assert isinstance(step.step, JoinRound)
        self.joined = True
        made = self.made
        made.work("sl st", 1)
        check_joined_place(step.step, self.lead, made.makes, made.groups)

    # --- repeats ---------------------------------------------------------------------------

    def _open(self, step: Do) -> None:
        if step.keep is None:
            keep = sum(self._places(one) for one in step.behind)
        else:
            keep = self.context.amount(step.keep) or 0
        turn = self._turn(step)
        takes = self.left - turn.left
        times, odd = divmod(self.left - keep, takes) if takes else (0, 1)
        if odd or times < 1:
            raise _LeftToTheWalk
        if step.generic:
            self.takes = takes
        self._note_workings(takes, times)
        self._add(turn, takes, times)

    def _places(self, step: Do) -> int:
        """How many places a step behind a repeat takes."""
        count = self._number(step.number)
        return count * step.places if step.kind == "take" else count

    def _turns(self, step: Do, times: int) -> None:
        turn = self._turn(step)
        self._add(turn, self.left - turn.left, times)

    def _turn(self, step: Do) -> _Count:
        """One turn of a repeat, by itself."""
        turn = _Count(self.context, self.left, self.base)
        for one in step.body:
            turn.do(one)
        return turn

    def _add(self, turn: _Count, takes: int, times: int) -> None:
        """So many turns that are alike."""
        if not takes:
            raise _LeftToTheWalk
        self._take(takes * times)
        self.made.add_turns(turn.made, times)
