"""One row walked along the places of the row before it, in one size.

Takes     a ``Hook``: the facts of a row, the ``Fabric`` below it, the size.
Gives     ``walk_row``, ``walk_part``: the hook at the end of the row, with what it has made.
Problems  ``Fault``s of the modules that work the steps.
From      notation.md, the table of steps.

The state of the walk is the ``Hook``. Each kind of step has its module: ``working`` (stitches into
places), ``each``, ``changes``, ``joins`` (skips and turns too), ``heads`` (what a row begins with),
``making`` (what is made), ``corners``, ``repeats``. Here they are put in order.
"""

from __future__ import annotations

from bisect import bisect_right
from typing import assert_never

from workeven.notation.tree import (
    Aside,
    Chain,
    Corners,
    Decrease,
    Each,
    EachChainCounts,
    Either,
    Evenly,
    FastenOff,
    Formed,
    Foundation,
    Increase,
    JoinRound,
    JoinYarn,
    LeaveRest,
    MagicRing,
    Next,
    Open,
    OtherSide,
    Over,
    Picot,
    Repeat,
    Skip,
    StatedHere,
    Step,
    Stitch,
    Stop,
    Travel,
    Turn,
    Unplaced,
    Work,
)
from workeven.proof.between_stitches import along_gaps
from workeven.proof.chain_runs import as_runs
from workeven.proof.changes import (
    base_of,
    decrease,
    evenly_alone,
    evenly_along,
    in_pattern,
    increase_next,
    two_in_one,
)
from workeven.proof.context import Fault
from workeven.proof.corners import corners_unknown, with_corners
from workeven.proof.cut_short import cut_before_skip
from workeven.proof.each import work_each
from workeven.proof.edges import turn_corner
from workeven.proof.fabric import Builder, Fabric, Node, without_turning_chain
from workeven.proof.heads import join_yarn, lead_chain
from workeven.proof.hook import Hook
from workeven.proof.joins import join_round, other_side, skip, turn
from workeven.proof.leaves import Base, begins_leaf, close_leaf, leaves_leaf, open_leaf
from workeven.proof.ledger import Ledger, one_by_one
from workeven.proof.making import chain_between, count_special, make_foundation, make_picot
from workeven.proof.markers import note, place, shown, with_center
from workeven.proof.naming import match_of
from workeven.proof.parts import prepared
from workeven.proof.repeats import open_repeat, repeat
from workeven.proof.several_each import several, work_several
from workeven.proof.sides import brought_back, has_leaf
from workeven.proof.squares import either, over, stitches_of
from workeven.proof.travel import slips_up_to, travel
from workeven.proof.working import way_of, work


def walk_row(hook: Hook) -> None:
    """Walk all steps; raises ``Fault`` where the row does not come out."""
    _prepare(hook)
    walk(hook, along_gaps(hook), final=True)
    _join_chains(hook)


def walk_part(hook: Hook) -> None:
    """Walk the first steps of a row, without asking what is left behind them."""
    _prepare(hook)
    walk(hook, hook.facts.steps)
    _join_chains(hook)


def _join_chains(hook: Hook) -> None:
    """Chains with nothing between them are one space."""
    made = hook.made
    made.out = Builder(list(as_runs(tuple(made.out.nodes), made.makes, made.groups)))


def _prepare(hook: Hook) -> None:
    """Make visible what the steps name inside groups, and begin with the chain that is there.

    A turning chain that is to be left unworked is dropped.
    """
    below, facts = hook.below, hook.facts
    if below is None:
        return
    nodes = _with_leaves(hook, below)
    if facts.names_markers:
        nodes = shown(nodes, below.marks, facts.steps)
    if facts.names_center:
        nodes = with_center(below, nodes, facts.steps)
    if below.marks or facts.places_markers:
        hook.trace = []
    asks = facts.asks
    if below.chains_count and not (asks.space or asks.chain):
        asks = asks._replace(apart=True)
    nodes = prepared(nodes, asks, hook.context.special, closed=below.closed)
    if facts.leaves_turning_chain:
        nodes = without_turning_chain(nodes)
    hook.cursor = hook.cursor.along(nodes)
    if below.turning_chain is not None and not facts.leads_with_chain:
        lead_chain(hook, below.turning_chain, facts.steps)
        ledger = hook.cursor.ledger
        if ledger is not None and ledger.trail is not None:
            _one_by_one(hook, below.turning_chain, ledger, 0)


def _with_leaves(hook: Hook, below: Fabric) -> tuple[Node, ...]:
    """The places below; that leaves are worked as they come is the second reading."""
    if not has_leaf(below.nodes) or hook.facts.asks.sides:
        return below.nodes
    point = ("leaf", 0)
    hook.points.setdefault(point, ("leaves stand off", "stitches of leaves are worked too"))
    return brought_back(below.nodes) if hook.choices.get(point, 0) else below.nodes


def walk(hook: Hook, steps: tuple[Step, ...], *, final: bool = False) -> None:
    """Walk steps in order; ``final`` checks that nothing is left that could be taken."""
    leaf: Base | None = None
    for at, step in enumerate(steps):
        ledger = hook.cursor.ledger
        made = 0 if ledger is None else _made(hook)
        _come_to(hook, step)
        if leaf is not None and leaves_leaf(hook, step):
            close_leaf(hook, leaf)
            leaf = None
        if isinstance(step, Chain) and leaf is None and begins_leaf(hook, step, steps[at + 1 :]):
            leaf = open_leaf(hook, step)
            continue
        if isinstance(step, Repeat) and isinstance(step.times, Open):
            open_repeat(hook, step, steps[at + 1 :], walk, final=final)
            return
        if isinstance(step, Work) and isinstance(step.target, Each):
            instead = _each(hook, step, step.target, steps[at:])
            if instead is not None:
                walk(hook, instead, final=final)
                return
        elif isinstance(step, Chain) and not hook.began and hook.depth == 0:
            lead_chain(hook, step, steps[at + 1 :])
        else:
            _step(hook, step)
        if hook.trace is not None or ledger is not None:
            _written_down(hook, step, ledger)
            if ledger is not None and ledger.trail is not None:
                _one_by_one(hook, step, ledger, made)
    if leaf is not None:
        close_leaf(hook, leaf)
    if final:
        _check_left(hook, steps)


def _each(hook: Hook, step: Work, target: Each, steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """Work each place, as what follows says; gives the steps that are then to be worked instead."""
    rest = steps[1:]
    follows = rest[0] if rest else None
    if slips_up_to(hook, step, target):
        return None
    if clauses := several(hook, steps):
        work_several(hook, clauses)
        return steps[len(clauses) :]
    if isinstance(follows, Corners):
        return with_corners(hook, step, target, follows, rest[1:])
    if isinstance(follows, Evenly):
        evenly_along(hook, step, target, follows)
    else:
        work_each(hook, step, target, rest)
    return None


def _check_left(hook: Hook, steps: tuple[Step, ...]) -> None:
    """Nothing may be left over but what the repeat skips, where the last one is cut short."""
    try:
        hook.check_left(steps)
    except Fault:
        if not cut_before_skip(hook, hook.left()):
            raise


def _come_to(hook: Hook, step: Step) -> None:
    """A step is at hand: at a corner of the piece, or behind a change of colour."""
    if hook.context.colours:
        hook.made.stretch = bisect_right(hook.context.colours, step.start)
    turn_corner(hook, step)


def _written_down(hook: Hook, step: Step, before: Ledger | None) -> None:
    """What is told of a step beside its counts: how far it came, how it entered its places."""
    if hook.trace is not None:
        note(hook)
    if before is not None:
        hook.cursor.entered_since(before, way_of(step))


def _made(hook: Hook) -> int:
    """How many places are made so far, where each is written down."""
    ledger = hook.cursor.ledger
    if ledger is None or ledger.trail is None:
        return 0
    return len(one_by_one(tuple(hook.made.out.nodes)))


def _one_by_one(hook: Hook, step: Step, before: Ledger, made: int) -> None:
    """Each place that a step has taken and made; those of a repeat its own steps have told."""
    ledger = hook.cursor.ledger
    told = ledger is not None and before.trail is not None and ledger.trail is not None
    if ledger is not None and told and not isinstance(step, Repeat):
        new = one_by_one(tuple(hook.made.out.nodes))[made:]
        hook.cursor.ledger = ledger.stepped(step, new, hook.cursor.peek())


def _step(hook: Hook, step: Step) -> None:  # noqa: C901, one branch a node
    skipped, round_posts = hook.skipped, hook.went_round
    # "fpdc around next st, ch 1, sk st behind"
    hook.skipped, hook.went_round = (), round_posts if isinstance(step, Chain | Aside) else 0
    match step:
        case Work():
            work(hook, step)
        case Skip():
            skip(hook, step, skipped, round_posts)
        case Chain():
            _chain(hook, step)
            hook.cursor.last = None  # it may lie over stitches that are passed
        case Repeat():
            repeat(hook, step, walk)
        case Increase():
            _increase(hook, step)
        case Decrease():
            decrease(hook, step)
        case Turn():
            turn(hook, step)
        case JoinRound():
            join_round(hook, step)
        case JoinYarn():
            join_yarn(hook, step)
        case Travel():
            travel(hook, step)
        case FastenOff() | LeaveRest() | MagicRing() | Aside():
            _beside(hook, step)
        case Foundation() | Picot():
            _without_place(hook, step)
        case OtherSide():
            other_side(hook)
        case Corners():
            _corners_alone(hook, step)
        case Evenly():
            _evenly(hook, step)
        case Over() | Either() | Formed():
            _square(hook, step)
        case StatedHere() | Stop() | EachChainCounts():
            pass
        case _:
            assert_never(step)


def _corners_alone(hook: Hook, step: Corners) -> None:
    """``widen in every 3rd st``: the others are worked as they are, if nothing was said of them."""
    target = step.target
    if not step.every or step.content or hook.began or not isinstance(target, Next):
        raise corners_unknown(step)
    plain = Work((Stitch(base_of(hook, step)),), Each(target.names), start=step.start, end=step.end)
    there = hook.cursor.remaining(match_of(target.names))
    walk(hook, with_corners(hook, plain, Each(target.names), step, ()) if there else (plain,))


def _increase(hook: Hook, step: Increase) -> None:
    if isinstance(step.target, Unplaced):
        increase_next(hook, step, step.target)
    elif step.patt:
        in_pattern(hook, step)
    else:
        work(hook, two_in_one(hook, step))


def _square(hook: Hook, step: Over | Either | Formed) -> None:
    match step:
        case Over():
            over(hook, step)
        case Either():
            either(hook, step, walk)
        case Formed(name=name):
            known = hook.context.special.get(name)
            crossed = known is not None and not known.square
            count_special(hook.made, name, stitches_of(known) if known and crossed else {})


def _beside(hook: Hook, step: FastenOff | LeaveRest | MagicRing | Aside) -> None:
    match step:
        case Aside(marker=where):
            place(hook, where)
        case FastenOff():
            hook.fastened = True
        case LeaveRest():
            hook.check_leaving(step)
            hook.left_rest = True
        case MagicRing():
            hook.ring = hook.made_ring = True


def _chain(hook: Hook, step: Chain) -> None:
    count = hook.context.amount(step.count)
    if count:
        hook.began = True
        chain_between(hook.made, step, count)


def _without_place(hook: Hook, step: Foundation | Picot) -> None:
    if isinstance(step, Picot):
        make_picot(hook.made, step)
        return
    make_foundation(hook.made, step)
    hook.began = hook.began or bool(hook.context.amount(step.count))


def _evenly(hook: Hook, step: Evenly) -> None:
    """Changes that belong to a step before ("work 47 sc evenly") are made with it."""
    if not hook.sided:
        evenly_alone(hook, step)
    hook.sided = False
