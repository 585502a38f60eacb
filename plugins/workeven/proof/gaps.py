"""Gaps that a row has skipped: which of several a later row takes up, and the chain across it.

Takes     where a size stands, what a row has passed over, the row that takes it up.
Gives     ``taken_up``, ``taken_up_of_last``: the places that it is worked into; ``gaps_of``,
          ``last_with_gaps``: the gaps of a row, the last row that has any.
Problems  none of its own.
From      notation.md, "Below and before" ("Places an earlier row left stay reachable").

A yoke is divided: "dc in next 36 sts, ch 6, sk next 20 sts", twice. A first sleeve takes up 20 of
the 40 stitches that are waiting, the second the others. Where its row names the chain of the
underarm, the 6 chains are worked into from their other side: they close the ring of the sleeve, in
front of the skipped stitches, behind them, or half here and half there, as the row begins.

Worked example: "join yarn in 4th underarm ch, dc in each of next 3 underarm chs, dc in each of
next 20 skipped sts, dc in each of next 2 underarm chs" begins in the middle of the chain.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from workeven.notation.tree import (
    Amount,
    Aside,
    Chain,
    Each,
    Exactly,
    First,
    Inside,
    JoinYarn,
    Last,
    More,
    Next,
    OneChain,
    Open,
    Repeat,
    Skip,
    Space,
    Step,
    Turn,
    Unplaced,
    Work,
)
from workeven.proof.fabric import CHAIN, Fabric, Node, Run, space
from workeven.proof.line import Line
from workeven.proof.looking_back import fabric_at, walked
from workeven.proof.standing import Standing, Unworked, Worked
from workeven.records import replace

#: a repeat of a dividing row that stands for more gaps than this is none
_MOST = 12


class Gap(NamedTuple):
    """How many stitches are skipped, and how many chains lead across."""

    sts: int
    chains: int


def taken_up(standing: Standing, left: Unworked, number: int, own: Line, how: str) -> Unworked:
    """The first of several gaps, where the row takes just that; with the chain across, if named.

    ``number`` is that of the row whose stitches were skipped.
    """
    return _taken_of(standing, left, _gaps_behind(standing, number), own, how)


def taken_up_of_last(standing: Standing, left: Unworked, own: Line, how: str) -> Unworked:
    """The same of the last row that skipped any, whatever it is called ("Dividing round").

    What is left is all of its gaps, or those behind the ones that were taken up before.
    """
    found = last_with_gaps(standing)
    gaps = () if found is None else gaps_of(standing, *found)
    while gaps and sum(gap.sts for gap in gaps) != left.fabric.sts:
        gaps = gaps[1:]
    if gaps:
        return _taken_of(standing, left, gaps, own, how)
    return left if left.number is None else taken_up(standing, left, left.number, own, how)


def last_with_gaps(standing: Standing) -> tuple[Worked, int] | None:
    """The last row that skips stitches once or a few times, not all along; its place among rows."""
    for rows in standing.stretches():
        for at in range(rows.times - 1, max(rows.times - ROWS_BACK, 0) - 1, -1):
            if gaps_of(standing, rows, at):
                return rows, at
    return None


#: rows of one kind that are looked back at
ROWS_BACK = 30


def _taken_of(
    standing: Standing, left: Unworked, gaps: tuple[Gap, ...], own: Line, how: str
) -> Unworked:
    while gaps and sum(gap.sts for gap in gaps) > left.fabric.sts:
        gaps = gaps[1:]  # these were taken up before
    one = _first_of(left, gaps)
    chains = gaps[0].chains if gaps else 0
    if chains and any(map(_names_chain, own.facts.steps)):
        rings = _with_chain((one or left).fabric.nodes, chains)
        return _with_underarm(standing, one or left, rings, own, how)
    if chains and any(_names_space(step, chains) for step in own.facts.steps):
        sts, across = (one or left).fabric.nodes, Run(space(chains), 1)
        rings = iter(((*sts, across), (across, *sts)))
        return _with_underarm(standing, one or left, rings, own, how)
    if one is not None and _is_opening(own, gaps) and _comes_out(standing, one.fabric, own, how):
        return one
    if one is None or _comes_out(standing, left.fabric, own, how):
        return left
    return one if _comes_out(standing, one.fabric, own, how) else left


def _is_opening(own: Line, gaps: tuple[Gap, ...]) -> bool:
    """Whether yarn is joined at one of few openings: two sleeves, thumbs or legs are two.

    "Join yarn in first skipped st, sc in each skipped st around" goes around one of them.
    """
    joins = any(isinstance(step, JoinYarn) for step in own.facts.steps)
    return joins and len(gaps) <= _OPENINGS and min(gap.sts for gap in gaps) >= _NARROWEST


def _with_underarm(
    standing: Standing, gap: Unworked, ways: Iterator[tuple[Node, ...]], own: Line, how: str
) -> Unworked:
    """The gap and the chain across it, begun where the row comes out, else as the first way is.

    Of several ways it is the first with the most stitches: in others chains are passed over, of
    which nothing is said.
    """
    rings = [gap.fabric._replace(nodes=nodes) for nodes in ways]
    made = [_made_over(standing, ring, own, how) for ring in rings]
    return gap._replace(fabric=rings[made.index(max(made))])


def _comes_out(standing: Standing, fabric: Fabric, own: Line, how: str) -> bool:
    return _made_over(standing, fabric, own, how) >= 0


def _made_over(standing: Standing, fabric: Fabric, own: Line, how: str) -> int:
    """How many stitches the row makes over these places; -1 where it does not come out."""
    probe = standing.copy()
    probe.fabric = fabric
    result = probe.work(own, how)
    return result.fabric.sts if result.fault is None else -1


def _first_of(left: Unworked, gaps: tuple[Gap, ...]) -> Unworked | None:
    """The first gap alone, the others still to come; None where there is one gap only."""
    sts = left.fabric.sts
    match left.fabric.nodes:
        case (Run() as run,) if len(gaps) > 1 and sts == run.count == sum(one.sts for one in gaps):
            others = left.fabric._replace(nodes=(Run(run.place, sts - gaps[0].sts),))
            fabric = left.fabric._replace(nodes=(Run(run.place, gaps[0].sts),))
            return left._replace(fabric=fabric, others=(left._replace(fabric=others),))
        case _:
            return None


# --- the gaps of a row ---------------------------------------------------------------------


def _gaps_behind(standing: Standing, number: int) -> tuple[Gap, ...]:
    """The gaps of the row behind that one, in their order; () where one cannot be told.

    A first sleeve may have rows of the same numbers: those skip nothing.
    """
    for rows in standing.stretches():
        if rows.line_of(number + 1) is not None and rows.first is not None:
            gaps = gaps_of(standing, rows, number + 1 - rows.first)
            if gaps:
                return gaps
    return ()


def gaps_of(standing: Standing, rows: Worked, at: int) -> tuple[Gap, ...]:
    """The gaps of a row, each told by its number; those of many repeats are lace, and none."""
    line = rows.line_at(at)
    steps = line.facts.steps
    if any(isinstance(step, Repeat) and isinstance(step.times, Open) for step in steps):
        steps = _with_open(standing, rows, at, steps)
    gaps = tuple(_gaps(standing, tuple(_one_by_one(standing, steps))))
    return () if any(gap is None for gap in gaps) else tuple(filter(None, gaps))


#: a repeat that goes round a thing has no more openings than this, and none is narrower
_OPENINGS, _NARROWEST = 4, 4


def _with_open(
    standing: Standing, rows: Worked, at: int, steps: tuple[Step, ...]
) -> tuple[Step, ...]:
    """``*sc in next 6 sts, ch 6, sk 6 sts; rep from * around``: as often as it was worked."""
    once = [step for step in steps if isinstance(step, Repeat)]
    skipped = [_told(standing, step) for step in once[0].steps if isinstance(step, Skip)]
    if len(once) > 1 or not skipped or min(one or 0 for one in skipped) < _NARROWEST:
        return steps
    hook = walked(standing, rows.line_at(at), fabric_at(standing, rows, at), rows.how)
    if not hook.repeats or hook.repeats > _OPENINGS:
        return steps
    times = Exactly(Amount((hook.repeats,)))
    return tuple(replace(step, times=times) if step is once[0] else step for step in steps)


def _one_by_one(standing: Standing, steps: tuple[Step, ...]) -> Iterator[Step]:
    """The steps with those of a repeat as often as it is worked."""
    for step in steps:
        if isinstance(step, Repeat) and isinstance(step.times, Exactly | More):
            times = standing.context.amount(step.times.count) or 0
            times += isinstance(step.times, More)  # "rep from * once more" is twice in all
            for _ in range(min(times, _MOST)):
                yield from _one_by_one(standing, step.steps)
        else:
            yield step


def _gaps(standing: Standing, steps: tuple[Step, ...]) -> Iterator[Gap | None]:
    """Each gap with the chain that stands beside it, None where its stitches are not told.

    ``sk ch-1 sp, 20 dc and ch-1 sp`` is one gap of 20: spaces hold no stitches.
    """
    used: set[int] = set()
    at = _behind_turning_chain(steps)
    while at < len(steps):
        begin = at
        while at < len(steps) and isinstance(steps[at], Skip):
            at += 1
        if at == begin:
            at += 1
            continue
        told = [_told(standing, step) for step in steps[begin:at] if isinstance(step, Skip)]
        if None in told:
            yield None
            continue
        sts, chains = sum(filter(None, told)), 0
        for beside in (begin - 1, at):
            other = steps[beside] if 0 <= beside < len(steps) else None
            if isinstance(other, Chain) and beside not in used and not chains:
                chains = standing.context.amount(other.count) or 0
                used.add(beside)
        if sts:
            yield Gap(sts, chains)


def _behind_turning_chain(steps: tuple[Step, ...]) -> int:
    """Behind "ch 3, turn, sk first dc": there the chain stands, and no later row goes."""
    at = next((at for at, step in enumerate(steps) if isinstance(step, Chain | Work | Skip)), 0)
    if not (steps and isinstance(steps[at], Chain)):
        return 0
    skip = next(
        (n for n in range(at + 1, len(steps)) if not isinstance(steps[n], Turn | Aside)), at
    )
    match steps[skip]:
        case Skip(target=First(count=count) | Next(count=count) | Unplaced(count=count)):
            return skip + 1 if count.values == (1,) else 0
        case _:
            return 0


def _told(standing: Standing, skip: Skip) -> int | None:
    """How many stitches are skipped, where the text says it."""
    target = skip.target
    if isinstance(target, Next | Last) and all(isinstance(one, Space) for one in target.names):
        return 0
    if isinstance(target, Next | Last | Unplaced):
        return standing.context.amount(target.count)
    return None


# --- the chain across ----------------------------------------------------------------------


def _names_chain(step: Step) -> bool:
    """Whether a step works into single chains."""
    match step:
        case Work(target=target) | JoinYarn(target=target):
            match target:
                case Next(names=names) | First(names=names) | Last(names=names) | Each(names=names):
                    return any(isinstance(name, OneChain) for name in names)
                case Inside(name=name):
                    return isinstance(name, OneChain)
                case _:
                    return False
        case Repeat(steps=steps):
            return any(map(_names_chain, steps))
        case _:
            return False


def _names_space(step: Step, chains: int) -> bool:
    """Whether a step works into the space of that chain as a whole."""
    match step:
        case Work(target=target) | JoinYarn(target=target):
            names = getattr(target, "names", ())
            return any(isinstance(name, Space) and name.chains == chains for name in names)
        case Repeat(steps=steps):
            return any(_names_space(one, chains) for one in steps)
        case _:
            return False


def _with_chain(sts: tuple[Node, ...], chains: int) -> Iterator[tuple[Node, ...]]:
    """The ring of chain and stitches from wherever on the chain a row may begin."""
    yield (Run(CHAIN, chains), *sts)
    yield (*sts, Run(CHAIN, chains))
    for first in range(chains - 1, 0, -1):
        yield (Run(CHAIN, first), *sts, Run(CHAIN, chains - first))
