"""The space of a turning chain, named behind an open step: "…, dc in tch sp, dc in 3rd ch of tch".

Takes     the steps of a row.
Gives     ``space_of_chain``.
Problems  none: where the words do not name the chain's space as such, this is a second reading.
From      notation.md, "Turning and beginning chains are places": a step that takes "each" leaves
          their places to the steps named after it.

Worked example: a mesh begins with ch 4 (counts as dc and ch 1). ``dc in each ch-1 sp and in each dc
across, dc in tch sp, dc in 3rd ch of tch`` leaves the last space, which is that of the ch 4.
"""

from __future__ import annotations

from workeven.notation.tree import (
    ONE,
    ChainOfTurning,
    Each,
    Next,
    Open,
    Repeat,
    Space,
    Step,
    ToLast,
    ToNext,
    Work,
)
from workeven.records import replace

#: the open step, the space, the chain
_THREE = 3


def space_of_chain(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The row with its open step up to the last space; None where no such space is named."""
    for at in range(len(steps) - _THREE + 1):
        before, into, behind = steps[at : at + _THREE]
        if not _is_its_space(into, behind) or not isinstance(into, Work):
            continue
        bounded = _up_to_last_space(before)
        if bounded is not None:
            own = replace(into, target=Next((Space(),)))
            return (*steps[:at], bounded, own, *steps[at + 2 :])
    return None


def _is_its_space(into: Step, behind: Step) -> bool:
    """Whether a step goes into a space, and the next into the stitch part of the same chain."""
    if not (isinstance(into, Work) and isinstance(behind, Work)):
        return False
    if not (isinstance(into.target, Next) and isinstance(behind.target, ChainOfTurning)):
        return False
    name = into.target.names[0]
    chains = behind.target.chain.chains
    return isinstance(name, Space) and name.chains in (None, chains) and not name.corner


def _up_to_last_space(step: Step) -> Step | None:
    """An open step that stops in front of the last space."""
    limit = ToLast(ONE, (Space(),))
    match step:
        case Work(target=Each(limit=None) as target):
            return replace(step, target=replace(target, limit=limit))
        case Repeat(times=Open(limit=None | ToNext())):
            return replace(step, times=Open(limit))
        case _:
            return None
