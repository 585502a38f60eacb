"""A stem or tie worked off the last stitch: "ch 7, sl st in 2nd ch from hook …, fasten off".

Takes     the steps of a row.
Gives     ``stands_off``.
Problems  none.
From      notation.md, "Chains worked back along".

It goes back along its own chain and the yarn is cut: of the row before nothing is taken up, and
nothing is left over. Common practice at the end of leaves, fruit and hats.
"""

from __future__ import annotations

from workeven.notation.tree import (
    Amount,
    Aside,
    Chain,
    Each,
    FastenOff,
    FromHook,
    Next,
    OneChain,
    Step,
    Turn,
    Work,
)


def stands_off(steps: tuple[Step, ...]) -> bool:
    """Whether a row is a chain, every chain of which is worked back along, and the yarn is cut."""
    told = [step for step in steps if not isinstance(step, Aside | Turn)]
    if len(told) < len(("chain", "work", "cut")) or not isinstance(told[-1], FastenOff):
        return False
    chain, first, *along = told[:-1]
    if not isinstance(chain, Chain) or chain.counts_as is not None:
        return False
    if not isinstance(first, Work) or not isinstance(first.target, FromHook):
        return False
    number, nth = _number(chain.count), _number(first.target.nth)
    if number is None or nth is None or first.target.more:
        return False
    left: int | None = number - nth
    for step in along:
        left = None if left is None else _less(left, step)
    return left == 0


def _less(left: int, step: Step) -> int | None:
    """How many chains are left behind a step; None where it works into anything else."""
    match step:
        case Work(target=Each(names=(OneChain(),), limit=None)):
            return 0
        case Work(target=Next(names=(OneChain(),), count=count)):
            number = _number(count)
            return None if number is None else left - number
        case _:
            return None


def _number(amount: Amount) -> int | None:
    """A number that is the same in every size; None where it is not."""
    only = set(amount.values)
    return only.pop() if len(only) == 1 and amount.formula is None else None
