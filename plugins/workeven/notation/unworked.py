"""Stitches that a row leaves: "sc across, leaving last 4 sts unworked", "sc to marker, turn".

Takes     the steps of a row, as they were read one after the other.
Gives     ``with_left``.
Problems  none.
From      notation.md, "A row comes out" and the table of steps (``leave rem sts unworked``).

Worked example: of 24 sts, "sc in each st across, leaving last 4 sts unworked" works "each" up to
the last 4, as "sc in each st to last 4 sts, leave rem sts unworked" does. Behind steps that are
counted off ("sc in next 20 sts, leaving last 4 sts unworked") the number is an assertion.
"""

from __future__ import annotations

from workeven.notation.tree import (
    Aside,
    Decrease,
    Each,
    Increase,
    LeaveRest,
    Marked,
    Next,
    Open,
    Repeat,
    Skip,
    Step,
    ToLast,
    ToNext,
    Turn,
    Work,
)
from workeven.records import replace

#: words without which no row leaves stitches in a way that is read here
LEAVING = ("leave", "leaving", "marker", "m", "unworked")


def with_left(found: list[Step]) -> list[Step]:
    """The steps, each open one stopping where the row leaves stitches."""
    for at, step in enumerate(found):
        if isinstance(step, LeaveRest) and step.count is not None:
            if step.of and _goes_on(found, at):  # "leave 4 sts unworked, sc in last 8 sts"
                found[at] = Skip(Next(step.of, step.count), step.start, step.end)
                continue
            before = _worked_before(found, at)
            if before is not None:
                limit = ToLast(step.count, step.of)
                found[before] = _up_to(found[before], limit)
    return _at_marker(found)


def _goes_on(found: list[Step], at: int) -> bool:
    """Whether the row works on behind what it leaves, and is not turned before."""
    for step in found[at + 1 :]:
        if isinstance(step, Turn):
            return False
        if isinstance(step, Work | Repeat | Increase | Decrease):
            return True
    return False


def _worked_before(found: list[Step], at: int) -> int | None:
    """The index of the step that the words belong to, where it runs to the end of the row."""
    before = at - 1
    while before >= 0 and isinstance(found[before], Turn | Aside):
        before -= 1
    return before if before >= 0 and _runs_on(found[before]) else None


def _runs_on(step: Step) -> bool:
    """Whether a step works as many stitches as there are."""
    match step:
        case Work(target=Each(limit=None)) | Increase(target=Each(limit=None)):
            return True
        case Decrease(times=None, limit=None):
            return True
        case Repeat(times=Open(limit=None), ending=None):
            return True
        case _:
            return False


def _up_to(step: Step, limit: ToLast) -> Step:
    """The same step, stopping there."""
    match step:
        case Work(target=Each() as target) | Increase(target=Each() as target):
            return replace(step, target=replace(target, limit=limit))
        case Decrease():
            return replace(step, limit=limit)
        case Repeat():
            return replace(step, times=Open(limit))
        case _:
            return step


def _at_marker(found: list[Step]) -> list[Step]:
    """``sc to marker, turn``: the marker says where the row ends, the rest is left."""
    if len(found) < 2 or not isinstance(found[-1], Turn) or not found[-1].turned:  # noqa: PLR2004, a step and the turn
        return found
    last = found[-2]
    if isinstance(last, Work) and isinstance(last.target, Each):
        limit = last.target.limit
        if isinstance(limit, ToNext) and isinstance(limit.name, Marked):
            return [*found[:-1], LeaveRest(None, last.end, last.end), found[-1]]
    return found
