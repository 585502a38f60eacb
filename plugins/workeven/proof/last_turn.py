"""The last turn of a repeat, where its words say that it ends otherwise than the others.

Takes     a ``Repeat``.
Gives     ``last_turn``, ``steps_after``.
Problems  none.
From      notation.md, "How repeats end".

Worked example: ``*3 sc in next sp, sc in next sc; rep from * across, ending last rep with 2 sc in
last sp, sc in last sc``: the last turn is "2 sc in last sp", and "sc in last sc" follows it.
"""

from __future__ import annotations

from itertools import pairwise
from typing import assert_never

from workeven.notation.tree import (
    ONE,
    AnyStitch,
    Chain,
    ChainOfTurning,
    Decrease,
    Each,
    EndingAtStop,
    EndingWith,
    First,
    Increase,
    Inside,
    Last,
    Next,
    Omitting,
    Repeat,
    Skip,
    Space,
    Step,
    Stop,
    Unplaced,
    Work,
)
from workeven.proof.cut_short import plain
from workeven.proof.facts import without_stops


def last_turn(step: Repeat) -> tuple[Step, ...] | None:
    """The steps of the last turn where it differs from the others, else None."""
    match step.ending:
        case EndingWith(steps=steps, last=True):
            return _ended_with(without_stops(step.steps), steps)
        case None | EndingWith():
            return None  # what is added after the last turn follows it like all else
        case EndingAtStop():
            before = [at for at, inner in enumerate(step.steps) if isinstance(inner, Stop)]
            return step.steps[: before[0]] if before else step.steps
        case Omitting(steps=steps, behind=behind):
            whole = without_stops(step.steps)
            end = len(whole) - behind
            return (*whole[: max(end - len(steps), 0)], *whole[end:])
        case _:
            assert_never(step.ending)


def _ended_with(body: tuple[Step, ...], ending: tuple[Step, ...]) -> tuple[Step, ...]:
    """The last turn with other steps at its end than ``body`` has.

    ``*ch 5, sk 3, sc in next st; rep from *, ending last rep with ch 5``: the chain stands for the
    last chain, over what is skipped there too; no two chains follow one another.
    """
    match ending:
        case (Chain(), Skip()):  # "ending last rep ch 2, sk 2": over fewer than the others
            pairs = enumerate(pairwise(body))
            over = [at for at, (one, two) in pairs if _is_chain_over(one, two)]
            if over:
                return (*body[: over[-1]], *ending)
        case _:
            pass
    at = len(body) - 1
    while at and isinstance(body[at - 1], Skip):
        at -= 1
    if at and isinstance(ending[0], Chain) and isinstance(body[at - 1], Chain):
        return (*body[: at - 1], ending[0], *body[at:-1], *ending[1:])
    if isinstance(ending[0], Skip):  # "ending last rep with sk 2": it stops at that skip
        skips = [at for at, step in enumerate(body[:-1]) if _skips_as_many(step, ending[0])]
        if skips:
            return (*body[: skips[-1]], *ending)
    worked = len(body) - 1
    while worked and isinstance(body[worked], Chain | Skip):
        worked -= 1
    chained = any(isinstance(step, Chain) for step in body[worked + 1 :])
    if chained and _is_at_the_end(body[worked], ending[0]):
        return (*body[:worked], *ending)
    return (*body[: _in_place_of(body, ending[0])], *ending)


def _in_place_of(body: tuple[Step, ...], end: Step) -> int:
    """The step of the repeat from which on its ending stands in the last turn.

    That is the last one. Where the ending goes into another kind of place, it is the last step that
    goes into such a place: behind ``*3 sc in next sp, sc in next sc``, "ending last rep with 2 sc
    in last sp" is told of the sp, and "sc in last sc" follows it.
    """
    kind, last = _kind_of_place(end), len(body) - 1
    if kind is None or _kind_of_place(body[last]) is None or _is_at_first_or_turning(end):
        return last
    if _is_such_a_stitch(body[last], end):
        return last
    return max((at for at, step in enumerate(body) if _kind_of_place(step) == kind), default=last)


def _kind_of_place(step: Step) -> object:
    """What a step works into: a stitch, a space, a place within another; None where nothing."""
    if not isinstance(step, Work):
        return Next if isinstance(step, Increase | Decrease) else None
    match step.target:
        case Next(names=names) | Last(names=names) | First(names=names) | Each(names=names):
            return Space if isinstance(names[0], Space) else Next
        case Inside(name=Space()):
            return Space
        case Inside(part=part, container=Next(names=names) | Last(names=names)):
            return part, names
        case _:
            return Next


def _is_such_a_stitch(step: Step, end: Step) -> bool:
    """Whether both go into a dc: "center dc of next shell", behind which "last dc" is the end."""
    match step, end:
        case Work(target=Inside(name=name)), Work(target=Next(names=names) | Last(names=names)):
            return name in names or AnyStitch() in names
        case _:
            return False


def _is_at_first_or_turning(end: Step) -> bool:
    """Whether it ends the row: there "sc in 3rd ch of ch-5" is the stitch that all end with."""
    return isinstance(end, Work) and not isinstance(end.target, Next | Last | Inside)


def _is_at_the_end(one: Step, end: Step) -> bool:
    """``*…, dc in next sc, ch 3; …, ending last rep with dc in last sc``: that dc, and no chain.

    So many of them as in the others: "sc in each of last 4 chs" behind five is a step of its own.
    """
    match one, end:
        case Work(content=content), Work(content=other, target=Last() | ChainOfTurning()):
            return bool(plain(content) == plain(other)) and _count_of(one) == _count_of(end)
        case _:
            return False


def _skips_as_many(step: Step, end: Step) -> bool:
    """``sk next 2 sc``, of which the end says "sk last 2 sc" or "sk 2"."""
    if not isinstance(step, Skip) or not isinstance(end, Skip):
        return False
    told = isinstance(end.target, Last | Unplaced) and isinstance(step.target, Next | Unplaced)
    return plain(step) == plain(end) or (told and _count_of(step) == _count_of(end))


def _count_of(step: Work | Skip) -> tuple[int | None, ...]:
    """How many places a step takes, by size; one where it does not say."""
    return getattr(step.target, "count", ONE).values


def _is_chain_over(one: Step, two: Step) -> bool:
    return isinstance(one, Chain) and isinstance(two, Skip)


def steps_after(step: Repeat) -> tuple[Step, ...]:
    """What "ending with D" adds after the last whole turn."""
    ending = step.ending
    return ending.steps if isinstance(ending, EndingWith) and not ending.last else ()
