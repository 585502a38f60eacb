"""Gaps that a row has skipped: which of several a later row takes up, and the chain across it.

Takes     where a size stands, what a row has passed over, the row that takes it up.
Gives     ``taken_up``: the places that it is worked into; ``gaps_of``: the gaps of a row.
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
    Repeat,
    Skip,
    Step,
    Unplaced,
    Work,
)
from workeven.proof.fabric import CHAIN, Fabric, Node, Run
from workeven.proof.line import Line
from workeven.proof.standing import Standing, Unworked

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
    gaps = _gaps_behind(standing, number)
    while gaps and sum(gap.sts for gap in gaps) > left.fabric.sts:
        gaps = gaps[1:]  # these were taken up before
    one = _first_of(left, gaps)
    if gaps and gaps[0].chains and any(map(_names_chain, own.facts.steps)):
        return _with_underarm(standing, one or left, gaps[0].chains, own, how)
    if one is None or _comes_out(standing, left.fabric, own, how):
        return left
    return one if _comes_out(standing, one.fabric, own, how) else left


def _with_underarm(standing: Standing, gap: Unworked, chains: int, own: Line, how: str) -> Unworked:
    """The gap and the chain across it, begun where the row comes out, else at the chain."""
    rings = [gap.fabric._replace(nodes=nodes) for nodes in _with_chain(gap.fabric.nodes, chains)]
    fits = (ring for ring in rings if _comes_out(standing, ring, own, how))
    return gap._replace(fabric=next(fits, rings[0]))


def _comes_out(standing: Standing, fabric: Fabric, own: Line, how: str) -> bool:
    probe = standing.copy()
    probe.fabric = fabric
    return probe.work(own, how).fault is None


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
    """The gaps of the row behind that one, in their order; () where one cannot be told."""
    for rows in standing.stretches():
        line = rows.line_of(number + 1)
        if line is not None:
            return gaps_of(standing, line)
    return ()


def gaps_of(standing: Standing, line: Line) -> tuple[Gap, ...]:
    """The gaps of a row, each told by its number; those of an open repeat are lace, and none."""
    steps = tuple(_one_by_one(standing, line.facts.steps))
    gaps = tuple(_gaps(standing, steps))
    return () if any(gap is None for gap in gaps) else tuple(filter(None, gaps))


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
    """Each gap with the chain that stands beside it, None where its stitches are not told."""
    used: set[int] = set()
    for at, step in enumerate(steps):
        if not isinstance(step, Skip):
            continue
        sts = _told(standing, step)
        if sts is None:
            yield None
            continue
        chains = 0
        for beside in (at - 1, at + 1):
            other = steps[beside] if 0 <= beside < len(steps) else None
            if isinstance(other, Chain) and beside not in used and not chains:
                chains = standing.context.amount(other.count) or 0
                used.add(beside)
        yield Gap(sts, chains)


def _told(standing: Standing, skip: Skip) -> int | None:
    """How many places are skipped, where the text says it."""
    target = skip.target
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


def _with_chain(sts: tuple[Node, ...], chains: int) -> Iterator[tuple[Node, ...]]:
    """The ring of chain and stitches from wherever on the chain a row may begin."""
    yield (Run(CHAIN, chains), *sts)
    yield (*sts, Run(CHAIN, chains))
    for first in range(chains - 1, 0, -1):
        yield (Run(CHAIN, first), *sts, Run(CHAIN, chains - first))
