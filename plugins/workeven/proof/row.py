"""One row in one size: counted, compared with what is stated, and counted on where it fails.

Takes     the ``Facts`` of a row, its stated count and the fabric below.
Gives     ``RowCount``; ``nearest``: the counts below with which a row comes out.
Problems  ``Fault``s of the walk, ``count-stated``.
From      notation.md, "Stated counts", "Turning unsaid", "What is reported", "When it does not
          come out".
"""

from __future__ import annotations

from typing import NamedTuple

from workeven.notation.tree import (
    Chain,
    EachChainCounts,
    JoinRound,
    LeaveRest,
    Open,
    Repeat,
    Stated,
    StatedHere,
    Step,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import Fault, SizeContext
from workeven.proof.edges import rows_beside
from workeven.proof.fabric import (
    CHAIN,
    LOST,
    Builder,
    Fabric,
    Loop,
    Node,
    Run,
    reversed_nodes,
    stitch,
    tally,
    turned_marks,
    turning_chain_of,
)
from workeven.proof.facts import Facts, facts_of, facts_of_part
from workeven.proof.hook import Choices, Hook
from workeven.proof.markers import moved
from workeven.proof.proven import Counted
from workeven.proof.row_ends import NO_ENDS, RowEnds
from workeven.proof.run_on import RUN_ON
from workeven.proof.sides import off_the_row
from workeven.proof.squares import expanded, with_squares
from workeven.proof.stated import CHAINS, REPEATS, as_stated, chains_in, compare, figures_of
from workeven.proof.turns import MOST_TURNS
from workeven.proof.walk import walk_part, walk_row
from workeven.records import replace


class RowCount(NamedTuple):
    """What one working of a row gives in one size.

    ``fault`` is why it does not come out; ``as_stated`` is the fabric that its stated count would
    be, where the row comes out and states another count; ``fabric``, ``sts`` and ``makes`` are then
    what the next rows are counted from. ``points`` are the places that can be read in more than one
    way, with their readings in words. ``defaulted``: turning chains whose count was taken by
    default. ``sideways``: it goes along the ends of so many rows and nowhere else.
    (A named tuple, as ``Fabric`` is.)
    """

    fabric: Fabric
    sts: int
    makes: Counted
    worked: Counted
    fault: Fault | None
    points: tuple[tuple[tuple[str, int], tuple[str, ...]], ...]
    defaulted: tuple[tuple[str, int], ...]
    is_row: bool
    multiple: tuple[int, int] | None = None
    as_stated: tuple[Fabric, Counted] | None = None
    groups: Counted = ()
    sideways: int = 0


def kept(fabric: Fabric, worked: Counted = ()) -> RowCount:
    """A row of which only the places are known: what it leaves is what is there."""
    return RowCount(
        fabric=fabric,
        sts=fabric.sts,
        makes=tuple(tally(fabric.nodes).items()),
        worked=worked,
        fault=None,
        points=(),
        defaulted=(),
        is_row=True,
    )


def work(  # noqa: PLR0913, all that a walk must know
    facts: Facts,
    below: Fabric | None,
    context: SizeContext,
    *,
    worked: str,
    row_ends: RowEnds = NO_ENDS,
    bottom: int | None = None,
    choices: Choices | None = None,
    only_asked: bool = False,
) -> RowCount:
    """Work a row once; what it states at its end is held against it by ``against``.

    A row that does not come out is counted on as notation.md says; where it is ``only_asked``
    whether it does, nobody sees what comes behind it, and its places stay as they are.
    """
    if below is None and (chain := _starting_chain(facts.written, context)):
        return chain
    hook = Hook(
        facts,
        below,
        context,
        worked=worked,
        row_ends=row_ends,
        bottom=bottom,
        choices=choices,
    )
    fault: Fault | None = None
    try:
        walk_row(hook)
    except Fault as found:
        if only_asked:
            return kept(below or Fabric(()))._replace(fault=found)
        fault = found
        hook = _counted_on(hook, found)
    if fault is None:
        fault = _check_stated_inside(hook)
    return _row_count(hook, fault)


def comes_out(facts: Facts, below: Fabric, context: SizeContext, worked: str) -> bool:
    """Whether a row comes out over these places; what it leaves where it does not, nobody asks."""
    return _tried(Hook(facts, below, context, worked=worked))


def _tried(hook: Hook) -> bool:
    try:
        walk_row(hook)
    except Fault:
        return False
    return _check_stated_inside(hook) is None


def _starting_chain(steps: tuple[Step, ...], context: SizeContext) -> RowCount | None:
    """A starting chain alone or joined, in which there is nothing to walk; None: it is walked."""
    match steps:
        case (Chain(count=amount),):
            joined = False
        case (Chain(count=amount, counts_as=None), JoinRound(ring=False)):
            joined = True
        case _:
            return None
    try:
        count = context.amount(amount)
    except Fault:
        return None
    if not count:
        return None
    made = (("ch", count),)
    fabric = Fabric((Run(CHAIN, count),), closed=joined, turned=True, foundation=True)
    worked = (*made, ("sl st", 1)) if joined else made
    return RowCount(fabric, count, made, worked, None, (), (), is_row=False)


def against(count: RowCount, stated: Stated | None, figures: Counted | None) -> RowCount:
    """The count of a row held against what the row states in this size; as it is, if they agree."""
    if figures is None:
        return count
    if count.fault is not None:
        other = as_stated(figures, count.fabric, count.makes)
        return count if other is None else _going_on(count, *other)
    fault = differs(count, stated, figures)
    if fault is None:
        return count
    other = as_stated(figures, count.fabric, count.makes)
    return count._replace(fault=fault, as_stated=other)


def differs(count: RowCount, stated: Stated | None, figures: Counted) -> Fault | None:
    """Where a row makes something else than it states."""
    if stated is not None and stated.without_chain and turning_chain_of(count.fabric.nodes):
        figures = ((figures[0][0], figures[0][1] + 1), *figures[1:])
    if len(figures) == 1 and figures == count.makes:
        return None
    sts = None if count.fabric.ring else count.sts
    fault = compare(stated, figures, dict(count.makes), dict(count.groups), sts)
    off = off_the_row(count.fabric.nodes) if fault is not None else {}
    if not off:
        return fault
    # what is stated of a round with leaves may be the round alone
    alone = {name: number - off.get(name, 0) for name, number in count.makes}
    alone = {name: number for name, number in alone.items() if number}
    without = compare(stated, figures, alone, dict(count.groups), count.fabric.sts)
    return fault if without is not None else None


def _counted_on(failed: Hook, fault: Fault) -> Hook:
    """The same walk again, with as many repeats as fit, else forgiving."""
    if _leaves_over(fault) and (fitted := _as_often_as_fits(failed)) is not None:
        return fitted
    below = failed.below_at_start
    hook = _again(failed, failed.facts, recover=True)
    try:
        walk_row(hook)
    except Fault:
        hook.points, hook.defaulted = failed.points, failed.defaulted
        if not hook.made.out.nodes and below is not None:
            hook.made.out = Builder(list(below.nodes))
            hook.made.makes = tally(below.nodes)
    return hook


def chains_worked(facts: Facts, below: Fabric | None, context: SizeContext, how: str) -> int:
    """How many chains of the starting chain a first row stands on: its bottom edge."""
    hook = Hook(facts, below, context, worked=how)
    try:
        walk_row(hook)
    except Fault:
        return 0
    first = hook.made.out.nodes[0] if hook.made.out.nodes else None
    stands = isinstance(first, Run) and first.place.turning
    return hook.first_side + stands if hook.first_side else sum(n.sts for n in hook.made.out.nodes)


def with_repeats(
    count: RowCount, facts: Facts, below: Fabric | None, context: SizeContext, how: str
) -> RowCount:
    """The same with the number of its repeats among the groups ("32 patterns")."""
    hook = Hook(facts, below, context, worked=how)
    try:
        walk_row(hook)
    except Fault:
        return count
    if not hook.repeats:
        return count
    return count._replace(groups=(*count.groups, (REPEATS, hook.repeats)))


#: so many turns of repeats are worked one by one in a row that is told wrong already: it is counted
#: on for the sake of the rows behind it
_TURNS_WHEN_WRONG = 500


def _leaves_over(fault: Fault) -> bool:
    figures = fault.figures
    return "left_over" in figures or figures.get("left", 0) > figures.get("needed", 0)


def _again(failed: Hook, facts: Facts, *, recover: bool) -> Hook:
    hook = Hook(
        facts,
        failed.below_at_start,
        failed.context,
        worked=failed.how,
        row_ends=failed.row_ends,
        bottom=failed.bottom,
        choices={**failed.choices, RUN_ON: 1} if recover else failed.choices,
        recover=recover,
    )
    hook.turns = MOST_TURNS - _TURNS_WHEN_WRONG
    return hook


def _as_often_as_fits(failed: Hook) -> Hook | None:
    """The row with its one repeat worked as often as it fits, where its number leaves some over."""
    written = failed.facts.written
    fixed = [at for at, step in enumerate(written) if isinstance(step, Repeat)]
    only = written[fixed[0]] if len(fixed) == 1 else None
    if not isinstance(only, Repeat) or isinstance(only.times, Open):
        return None
    steps = (*written[: fixed[0]], replace(only, times=Open()), *written[fixed[0] + 1 :])
    hook = _again(failed, facts_of(steps), recover=False)
    try:
        walk_row(hook)
    except Fault:
        return None
    return hook


def _row_count(hook: Hook, fault: Fault | None) -> RowCount:
    made, is_row = hook.made, hook.facts.works
    fabric = _left_behind(hook)
    ring = fabric.ring and not is_row
    groups = with_squares(tuple(made.groups.items()), tuple(made.makes.items()), hook.context)
    chains = chains_in(made.makes) if _states_chains(hook) else 0
    if chains:
        groups = (*groups, (CHAINS, chains))
        fabric = fabric._replace(chains_count=True)
    return RowCount(
        fabric=fabric,
        sts=0 if fabric.ring else fabric.sts + chains + sum(off_the_row(fabric.nodes).values()),
        makes=(("ring", 1),) if ring else tuple(made.makes.items()),
        worked=tuple(made.worked.items()),
        fault=fault,
        points=tuple(hook.points.items()),
        defaulted=tuple(hook.defaulted),
        is_row=is_row,
        multiple=hook.multiple,
        groups=groups,
        sideways=rows_beside(hook),
    )


def _states_chains(hook: Hook) -> bool:
    """Whether the row's chains count with its stitches: what it states does (the reading adds it).

    So they do where the row says "each ch-1 sp counts as a st", and there are none in the row
    before that it could mean.
    """
    said = [step for step in hook.facts.written if isinstance(step, EachChainCounts)]
    if not said or any(step.made for step in said):
        return bool(said)
    below = hook.below_at_start
    return below is None or not any(name.endswith(" sp") for name in tally(below.nodes))


def _going_on(count: RowCount, fabric: Fabric, makes: Counted) -> RowCount:
    """The rows after a faulty one go on from what it states."""
    sts = 0 if fabric.ring else fabric.sts
    return count._replace(fabric=fabric, sts=sts, makes=makes)


def _check_stated_inside(hook: Hook) -> Fault | None:
    """A count half way along a row is compared with what is made up to there."""
    for at, step in hook.facts.counts_inside:
        part = Hook(
            facts_of_part(hook.facts.written[:at], hook.facts),
            hook.below_at_start,
            hook.context,
            worked=hook.how,
            row_ends=hook.row_ends,
            bottom=hook.bottom,
            choices=hook.choices,
        )
        try:
            walk_part(part)
        except Fault:
            continue
        try:
            figures = figures_of(step.stated, hook.context)
        except Fault as unread:
            return unread
        if step.change:
            fault = _check_change(hook, step, figures, part.made.sts)
            if fault is not None:
                return fault
            continue
        fault = compare(step.stated, figures, part.made.makes, part.made.groups, part.made.sts)
        if fault is not None:
            return fault
    return None


#: what one is may change a row by one stitch or by two
_EACH_OF_WHATEVER_SIZE = ("inc", "dec")


def _check_change(hook: Hook, step: StatedHere, figures: Counted | None, made: int) -> Fault | None:
    """``(8 sts increased)``: by how many the row has more or fewer than the one before."""
    below = hook.below_at_start
    if figures is None or below is None or below.ring or below.foundation:
        return None
    (unit, number), more = figures[0], (made - below.sts) * step.change
    twice = unit in _EACH_OF_WHATEVER_SIZE and more == 2 * number  # "3 sc in next st" adds two
    if number == more or twice:
        return None
    way = "more" if step.change > 0 else "fewer"
    other = f"{more} {way}" if more >= 0 else f"{-more} {'fewer' if way == 'more' else 'more'}"
    return Fault(
        "count-stated",
        step.start,
        step.end,
        f"{number} {way} sts than before are stated and the row makes {other}",
        stated=number,
        made=more,
    )


#: ways of working in which the work is turned, also where nobody says so
TURNED = ("flat rows", "joined rounds, turned")

# --- what is left behind -------------------------------------------------------------------


def _left_behind(hook: Hook) -> Fabric:
    """The places for the next row, turned where the work is turned."""
    turned = _is_turned(hook)
    nodes: tuple[Node, ...] = tuple(hook.made.out.nodes)
    if not hook.facts.works:
        return _without_work(hook, nodes)
    fabric = worked_fabric(hook.facts, nodes, hook.how, turned=turned)
    if _goes_around(hook) and not turned:
        fabric = fabric._replace(closed=True)
    elif _stays_open(hook):
        fabric = fabric._replace(closed=False, join_last=False)
    if hook.trace is None:
        return fabric
    return fabric._replace(marks=moved(hook, fabric.sts, turned=turned))


def worked_fabric(facts: Facts, nodes: tuple[Node, ...], how: str, *, turned: bool) -> Fabric:
    """The places that a row of these facts leaves."""
    closed = how != "flat rows"
    return Fabric(
        nodes=reversed_nodes(nodes) if turned else nodes,
        closed=closed,
        join_last=closed and turned and how != "spiral rounds",
        turning_chain=facts.turning_chain,
        turned=turned,
    )


def _is_turned(hook: Hook) -> bool:
    """Whether the work is turned at the end of the row, said or understood."""
    if hook.turned is not None:
        return hook.turned
    if _goes_around(hook):
        return False
    return hook.how in TURNED and not hook.fastened and hook.facts.works


def _stays_open(hook: Hook) -> bool:
    """Whether a row of a piece in rounds goes back and forth: it leaves a rest and is turned.

    So do the rows behind it, until one is joined.
    """
    if hook.how == "flat rows" or hook.joined or not hook.turned:
        return False
    below = hook.below
    behind_one = below is not None and not (below.closed or below.foundation or below.ring)
    return behind_one or any(isinstance(step, LeaveRest) for step in hook.facts.steps)


def _goes_around(hook: Hook) -> bool:
    """Whether a round was worked around a flat piece: it is joined, and nobody turns it."""
    return hook.how == "flat rows" and hook.joined and hook.facts.works


def _without_work(hook: Hook, nodes: tuple[Node, ...]) -> Fabric:
    """A line that only chains, joins or turns."""
    below = hook.below_at_start
    closed = hook.joined or (hook.how != "flat rows" and below is not None and below.closed)
    if nodes:
        return Fabric(
            nodes,
            closed=hook.joined,
            ring=hook.made_ring,
            foundation=True,
            turned=True,
            turning_chain=hook.facts.turning_chain,
        )
    if below is None:
        return Fabric((), closed=True, ring=hook.made_ring)
    if hook.made_ring:
        return Fabric(below.nodes, closed=True, ring=True)
    if hook.facts.places_markers:
        below = below._replace(marks=(LOST,))
    if hook.turned:
        return below._replace(
            nodes=reversed_nodes(below.nodes),
            closed=closed,
            turned=True,
            marks=turned_marks(below.marks, below.sts),
        )
    return below._replace(closed=closed or below.closed)


# --- nearest -------------------------------------------------------------------------------

#: how far the neighbouring counts are tried: farther than any usual repeat is wide; less far where
#: a row is long, for each try walks all of it
_REACH, _NEAREST = 48, 2
_EFFORT = 1_000
#: nor farther than so many turns of repeats were worked one by one for it, along a row before of
#: one stretch; of ten stretches, a tenth
_TURNS = 4_000


def nearest(
    steps: tuple[Step, ...], below: Fabric, context: SizeContext, *, worked: str
) -> tuple[int | None, int | None]:
    """The nearest counts of the row before, below and above, with which this row comes out."""
    below = _of_one_kind(below)
    facts = facts_of(expanded(steps, context.special))
    reach = min(max(_EFFORT // _effort(facts.steps), _NEAREST), _REACH)
    most = _TURNS // (_stretches(below.nodes) or 1) // 2
    found: list[int | None] = []
    for direction in (-1, 1):
        hit, turns = None, 0
        for distance in range(1, reach + 1):
            other = _resized(below, direction * distance)
            if other is None or (turns > most and distance > _NEAREST):
                break
            hook = Hook(facts, other, context, worked=worked)
            if _tried(hook):
                hit = other.sts
                break
            turns += hook.turns
        found.append(hit)
    return found[0], found[1]


def _stretches(nodes: tuple[Node, ...]) -> int:
    """How many stretches of like places there are, those of a loop once."""
    return sum(1 if isinstance(node, Run) else 1 + _stretches(node.nodes) for node in nodes)


def _effort(steps: tuple[Step, ...]) -> int:
    """How many steps are walked: those of a repeat about three times, then its turns are alike."""
    return 1 + sum(3 * _effort(step.steps) if isinstance(step, Repeat) else 1 for step in steps)


def _of_one_kind(fabric: Fabric) -> Fabric:
    """A fabric without spaces as one stretch of its commonest stitch, to be made longer by one."""
    counts = tally(fabric.nodes)
    if not counts or any(name.endswith(" sp") or name == "ch" for name in counts):
        return fabric
    bases: dict[str, int] = {}
    for name, number in counts.items():
        base = kind_of(name).base
        bases[base] = bases.get(base, 0) + number
    base = max(bases, key=lambda name: bases[name])
    return fabric._replace(nodes=(Run(stitch(base, base), fabric.sts),))


def _resized(fabric: Fabric, change: int) -> Fabric | None:
    """The same fabric with its largest stretch longer or shorter by so many of its units."""
    sizes = [
        node.count if isinstance(node, Run) else (0 if node.group else node.times)
        for node in fabric.nodes
    ]
    if not sizes or max(sizes) == 0:
        return None
    at = sizes.index(max(sizes))
    node = fabric.nodes[at]
    if sizes[at] + change < 1:
        return None
    changed: Node = (
        Run(node.place, node.count + change)
        if isinstance(node, Run)
        else Loop(node.nodes, node.times + change)
    )
    return fabric._replace(nodes=(*fabric.nodes[:at], changed, *fabric.nodes[at + 1 :]))
