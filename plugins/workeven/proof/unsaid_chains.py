"""Chains at the head of a row of which nothing is said: what its other words tell of them.

Takes     how long such a chain is, the basic stitch behind it, the steps behind it.
Gives     ``stands_apart``: the stitch it stands for where another chain follows; ``joined_to``:
          whether the round's join makes it a stitch; ``AS_HIGH``.
Problems  none.
From      notation.md, "Chains at the start"; common practice where a docstring says so.

Both the walk and the second readings ask: what one takes by default, the others turn about.
"""

from __future__ import annotations

from workeven.notation.tree import (
    Aside,
    Chain,
    ChainOfTurning,
    First,
    JoinRound,
    Repeat,
    Step,
    Turn,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS
from workeven.proof.made import is_slip_stitch

#: what a chain of that length counts as before a lower stitch, a bobble or a puff, if it does
AS_HIGH = {3: "dc", 4: "tr"}


def stands_apart(count: int, base: str | None, rest: tuple[Step, ...]) -> str | None:
    """The stitch that a chain stands for which is told apart from the chain behind it.

    ``ch 3, *ch 3, sc in ch-5 sp, ch 3, dc in next dc; rep from *``: were it no stitch, the two
    would be one chain (common practice). ``base`` is the first stitch behind, None: not known.
    """
    behind: Step | None = next((step for step in rest if not isinstance(step, Aside | Turn)), None)
    while isinstance(behind, Repeat) and behind.steps:
        behind = behind.steps[0]
    lower = HEIGHTS.get(base or "", 0) < HEIGHTS["dc"]
    return AS_HIGH.get(count) if isinstance(behind, Chain) and lower else None


def joined_to(count: int, base: str | None, rest: tuple[Step, ...]) -> bool:
    """Whether a round is joined to the top of its chain, which so stands for that stitch.

    ``ch 2, dc in same st, …, join with sl st to top of ch-2``: a chain one short of the stitch,
    or as long as an hdc, is a stitch where it is joined to (common practice). Where the first
    stitch goes into the first place, the chain beside it is none, however the round is joined.
    """
    height = HEIGHTS.get(base or "", 0)
    if count < HEIGHTS["hdc"] or count != (height if height == HEIGHTS["hdc"] else height - 1):
        return False
    first = next((one for one in rest if isinstance(one, Work) and not is_slip_stitch(one)), None)
    if first is not None and isinstance(first.target, First):
        return False
    return any(_is_its_top(step, count) for step in rest)


def _is_its_top(step: Step, count: int) -> bool:
    target = step.target if isinstance(step, JoinRound) else None
    if isinstance(step, Work) and is_slip_stitch(step):
        target = step.target
    match target:
        case ChainOfTurning(nth=nth, chain=chain):
            top = nth is None or nth.values == (count,)
            return top and chain.chains in (None, count)
        case _:
            return False
