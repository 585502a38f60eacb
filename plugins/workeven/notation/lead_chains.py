"""Where along its chain a first row begins: "starting in 2nd ch from hook, sc in each ch".

Takes     ``Stream``, and the step that follows.
Gives     ``begins_from_hook``, ``parted``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Chains at the start".

Worked example: ``starting in 2nd ch from hook, sc in each of next 5 ch`` is ``sc in 2nd ch from
hook`` and ``sc in each of next 4 ch``.
"""

from __future__ import annotations

from workeven.notation.remarks import counts_as
from workeven.notation.stream import Stream
from workeven.notation.targets import target
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Each,
    FromHook,
    Next,
    OneChain,
    Step,
    Stitch,
    Unplaced,
    Work,
)
from workeven.records import replace


def begins_from_hook(stream: Stream) -> FromHook | None:
    """``starting in 2nd ch from hook``, with the comma behind it.

    Takes: starting in 2nd ch from hook,
    Refuses: starting ch
    """
    mark = stream.here()
    stream.take()
    if stream.accept_any("in", "with", "at", "from"):
        stream.articles()
        where = target(stream) if stream.token.kind == "ord" else None
        if isinstance(where, FromHook):
            said = counts_as(stream)
            stream.accept_any(",", ":", ";")
            return replace(where, skipped=said)
    stream.back_to(mark)
    return None


def parted(step: Step, where: FromHook) -> tuple[Step, ...] | None:
    """The first stitch of a step in the chain from the hook, and the rest behind it; or None."""
    if not isinstance(step, Work) or not _of_one_place(step):
        return None
    first = replace(step, target=where, spread=False)
    match step.target:
        case Each(names=names) if _along_chain(names):
            return first, step
        case Next(names=names, count=count) as after if _along_chain(names):
            less = _one_less(count)
            if less is None:
                return (first,) if count.values == (1,) else None
            return first, replace(step, target=replace(after, count=less))
        case Unplaced(count=count):
            less = _one_less(count)
            return (first,) if less is None else (first, replace(step, target=Unplaced(less)))
        case _:
            return None


def _of_one_place(step: Work) -> bool:
    return all(not isinstance(one, Stitch) or one.legs == 1 for one in step.content)


def _along_chain(names: tuple[object, ...]) -> bool:
    return len(names) == 1 and isinstance(names[0], OneChain | AnyStitch)


def _one_less(count: Amount) -> Amount | None:
    """One place fewer in each size; None where a size has no more than one."""
    if count is ONE or count.formula is not None or any((n or 0) <= 1 for n in count.values):
        return None
    return replace(count, values=tuple((n or 0) - 1 for n in count.values))
