"""Rounds worked into the gaps between the single stitches of the one before.

Takes     a ``Hook`` at the begin of a row.
Gives     ``along_gaps``: the steps as they go along the stitches; ``goes_between_stitches``.
Problems  none.
From      common practice: behind each stitch of a round is one gap, so a gap is told by the stitch
          in front of it.

A stitch that is worked or skipped leads to the gap right behind it, which therefore takes up no
further one.

Worked example: over 60 sc ``*sk 3 sc, 2 dc in sp between sc`` passes two and takes the third, 20
times.
"""

from __future__ import annotations

from workeven.notation.tree import (
    Amount,
    AnyStitch,
    Aside,
    Chain,
    Each,
    First,
    Gap,
    JoinYarn,
    NamedStitch,
    Next,
    Repeat,
    Same,
    Skip,
    Step,
    Target,
    Work,
)
from workeven.proof.hook import Hook
from workeven.records import replace


def along_gaps(hook: Hook) -> tuple[Step, ...]:
    """The steps; those "in each sp between dc" of a round go along its stitches.

    Between the stitches of a round are as many gaps as stitches, the last of them before the first.
    In a flat row the last stitch has none behind it; between groups a gap has a place of its own.
    """
    steps = hook.facts.steps
    if not goes_between_stitches(hook):
        return steps
    found = _all_along_stitches(steps, hook)
    last = _last_before_joining(steps)
    end = found[last] if last is not None else None
    if last is None or not isinstance(end, Skip) or not _into_stitches(end):
        return found
    return (*found[:last], _one_less(end, hook), *found[last + 1 :])  # back at the first gap


def _last_before_joining(steps: tuple[Step, ...]) -> int | None:
    """The last step that works or passes stitches, in a round that began in a gap."""
    if not any(isinstance(one, JoinYarn) and _is_gap(one.target) for one in steps):
        return None
    order = range(len(steps) - 1, -1, -1)
    return next((at for at in order if _passes_or_works(steps[at])), None)


def _is_gap(target: Target | None) -> bool:
    return isinstance(target, Next | First) and isinstance(target.names[0], Gap)


def _passes_or_works(step: Step) -> bool:
    """Whether a step passes stitches or works into them, and does not only close the round."""
    closes = isinstance(step, Work) and isinstance(step.target, First)
    return isinstance(step, Skip | Work | Repeat) and not closes


def goes_between_stitches(hook: Hook) -> bool:
    """Whether a round is worked between the single stitches of the one before."""
    below = hook.below_at_start
    if not hook.facts.asks.gaps or below is None or not below.closed:
        return False
    return any(not gap.pair and gap.between is not None for gap in hook.facts.asks.gaps)


def _all_along_stitches(
    steps: tuple[Step, ...], hook: Hook, *, again: bool = False
) -> tuple[Step, ...]:
    """``sk 3 sc, 2 dc in sp between sc``: that gap is the one behind the third.

    ``again``: they are those of a repeat, whose last one comes before its first.
    """
    found = [_along_stitches(step, hook) for step in steps]
    for at, step in enumerate(steps):
        if not _begins_between(step, found[at]):
            continue
        before = _worked_before(steps, at, again=again)
        behind = steps[before] if before is not None else None
        if isinstance(behind, Skip) and before is not None and _into_stitches(behind):
            found[before] = _one_less(behind, hook)
        elif isinstance(behind, Work) and _into_stitches(behind) and isinstance(step, Work):
            found[at] = replace(step, target=Same(AnyStitch()))  # the gap behind that stitch
    return tuple(found)


def _begins_between(step: Step, new: Step) -> bool:
    """Whether a step goes into the next gap, or is a repeat that begins so."""
    if isinstance(step, Repeat) and isinstance(new, Repeat):
        told = [at for at, one in enumerate(step.steps) if not isinstance(one, Chain | Aside)]
        return bool(told) and _begins_between(step.steps[told[0]], new.steps[told[0]])
    return isinstance(step, Work) and isinstance(step.target, Next) and new is not step


def _worked_before(steps: tuple[Step, ...], at: int, *, again: bool) -> int | None:
    """Which step comes before one, without chains; in a repeat the last before the first."""
    order = (*range(at - 1, -1, -1), *(range(len(steps) - 1, at, -1) if again else ()))
    return next((one for one in order if not isinstance(steps[one], Chain | Aside)), None)


def _into_stitches(step: Work | Skip) -> bool:
    target = step.target
    if not isinstance(target, Next | First):
        return False
    return isinstance(target.names[0], NamedStitch | AnyStitch)


def _one_less(step: Skip, hook: Hook) -> Skip:
    """Of the stitches that are skipped the last one stands for the gap behind it."""
    target = step.target
    count = hook.context.amount(target.count) if isinstance(target, Next) else None
    if not isinstance(target, Next) or not count:
        return step
    return replace(step, target=replace(target, count=Amount((count - 1,))))


def _along_stitches(step: Step, hook: Hook) -> Step:
    if isinstance(step, Repeat):
        return replace(step, steps=_all_along_stitches(step.steps, hook, again=True))
    target = step.target if isinstance(step, Work) else None
    if not isinstance(step, Work) or not isinstance(target, Each | Next):
        return step
    name = target.names[0]
    if not isinstance(name, Gap) or name.pair or name.midway is not None or name.between is None:
        return step
    if name.between in hook.context.special:
        return step
    return replace(step, target=replace(target, names=(NamedStitch(name.between),)))
