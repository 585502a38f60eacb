"""Second readings of the places that a row names: sides, lists without brackets, counted chains.

Takes     the steps of a row that does not come out by the default reading.
Gives     ``chain_of_space``, ``listed``, ``along_each_side``, ``chains_counted``,
          ``chains_among_the_last``, ``up_to_the_middle``.
Problems  none: whoever walks the rows gives the advice ``row-reading``.
From      notation.md, "Two readings", "Stated counts", "Corners".
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from workeven.notation.listed import listed_in_next
from workeven.notation.tree import (
    AnyStitch,
    Aside,
    Chain,
    ChainOfTurning,
    Each,
    EachChainCounts,
    FastenOff,
    Inside,
    JoinRound,
    NamedStitch,
    Next,
    OneChain,
    Open,
    Repeat,
    Skip,
    Space,
    Step,
    StitchGroup,
    ToLast,
    ToNext,
    Turn,
    Work,
)
from workeven.proof.each_side import as_sides
from workeven.proof.reading import Reading
from workeven.records import replace


def chain_of_space(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``V-st in 2nd of 3 ch at underarm``: a chain of a space, and not of the turning chain."""
    found = list(steps)
    for at, step in enumerate(steps[:-1]):
        target = step.target if isinstance(step, Work) else None
        if not isinstance(step, Work) or not isinstance(target, ChainOfTurning):
            continue
        chains = target.chain.chains
        nth = None if target.nth is None else target.nth.values[0]
        behind = any(isinstance(one, Work | Repeat) for one in steps[at + 1 :])
        if chains is None or nth is None or not behind:
            continue
        inside = Inside(nth, OneChain(), Next((Space(chains),)))
        found[at] = replace(step, target=inside)
    if tuple(found) != steps:
        yield Reading(
            default="a chain of the turning chain",
            taken="a chain of the space of so many chains",
            steps=tuple(found),
        )


# --- lists without brackets ---------------------------------------------------------------


def up_to_the_middle(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``dc in each dc to next V-st, V-st in V-st``: its first dc too, up to the space in it."""
    found = tuple(map(_up_to_the_middle, steps))
    if found != steps:
        yield Reading(
            default="up to the group",
            taken="up to the middle of the group",
            steps=found,
        )


def _up_to_the_middle(step: Step) -> Step:
    match step:
        case Repeat(steps=body):
            return replace(step, steps=tuple(map(_up_to_the_middle, body)))
        case Work(target=Each(limit=ToNext(name=NamedStitch() | StitchGroup()) as limit) as each):
            return replace(step, target=replace(each, limit=replace(limit, inside=True)))
        case _:
            return step


def listed(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``*1 sc, 3 dc, 1 sc in next loop; rep from * around``: all of them into that loop."""
    within = listed_in_next(steps)
    if within != steps:
        yield Reading(
            default="what is told without a place goes into the next sts",
            taken="what is told without a place goes where the step behind it does",
            steps=within,
        )


# --- sides and corners ---------------------------------------------------------------------


def along_each_side(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``[3 sc in ch-2 sp, sc in each st across] 4 times``: each "across" is one side."""
    changed = tuple(as_sides(step, around=True) for step in steps)
    if changed != steps:
        yield Reading(
            default="“each” goes to the end of the round",
            taken="“each” goes to the next corner",
            steps=changed,
        )


# --- chains that are counted as stitches ---------------------------------------------------


def chains_counted(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``sc 3, ch 4, sk 4, sc 17 (24)``: the stated count takes the chains for stitches.

    So does the next row, where "each st" takes the chains of the space too.
    """
    if any(isinstance(step, EachChainCounts) for step in steps):
        return
    if _bridges(steps):
        yield Reading(
            default="the chs over skipped sts are spaces",
            taken="the chs over skipped sts count as sts",
            steps=_before_the_end(steps, EachChainCounts(made=True)),
        )
    if any(_takes_any(step) for step in steps):
        yield Reading(
            default="the chs of the row before are spaces",
            taken="each ch of the row before counts as a st",
            steps=_before_the_end(steps, EachChainCounts()),
        )


def chains_among_the_last(steps: tuple[Step, ...], *, stated: bool) -> Iterator[Reading]:
    """``rep from * to last 2 sts, sc in ch-1 sp, sc in last sc``: the ch is one of the two."""
    if any(isinstance(step, EachChainCounts) for step in steps) or not _names_spaces(steps):
        return
    other = tuple(map(_last_with_chains, steps))
    if other == steps:
        return
    bridges = stated and _bridges(steps)
    yield Reading(
        default="the last sts are stitches alone",
        taken="chs count as sts, also among the last ones",
        steps=_before_the_end(other, EachChainCounts(made=True)) if bridges else other,
    )


def _last_with_chains(step: Step) -> Step:
    """The same step, with ch-1 spaces among the last stitches that it goes up to."""
    match step:
        case Repeat(times=Open(limit=ToLast(names=(AnyStitch(),)) as limit) as times):
            within = replace(limit, names=(AnyStitch(), Space(1)))
            return replace(step, times=replace(times, limit=within))
        case _:
            return step


def _names_spaces(steps: tuple[Step, ...]) -> bool:
    for step in steps:
        if isinstance(step, Repeat):
            if _names_spaces(step.steps):
                return True
        elif isinstance(step, Work) and any(
            isinstance(name, Space) for name in getattr(step.target, "names", ())
        ):
            return True
    return False


def _before_the_end(steps: tuple[Step, ...], said: EachChainCounts) -> tuple[Step, ...]:
    """The step before those that end the row: a turning chain there stays one."""
    at = len(steps)
    while at and isinstance(steps[at - 1], Chain | Turn | JoinRound | FastenOff | Aside):
        at -= 1
    return (*steps[:at], said, *steps[at:])


def _bridges(steps: tuple[Step, ...]) -> bool:
    """Whether chains stand over stitches that are skipped."""
    for pair in pairwise(steps):
        if any(isinstance(one, Chain) for one in pair) and any(
            isinstance(one, Skip) for one in pair
        ):
            return True
    return any(isinstance(step, Repeat) and _bridges(step.steps) for step in steps)


def _takes_any(step: Step) -> bool:
    return (
        isinstance(step, Work)
        and isinstance(step.target, Each)
        and any(isinstance(name, AnyStitch) for name in step.target.names)
    )
