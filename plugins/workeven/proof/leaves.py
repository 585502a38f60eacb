"""Leaves, fringes and the like: chains worked back along in the midst of a round.

Takes     a ``Hook`` and the steps of a row.
Gives     ``begins_leaf``, ``open_leaf``, ``leaves_leaf``, ``close_leaf``.
Problems  none of its own.
From      notation.md, "Chains worked back along" ("Leaves and fringes … stand off the round; ``5 sc
          along first side of leaf`` reaches them").

While a leaf is worked the hook goes along its chain; then it is back where it was. The stitches of
a leaf are counted with what the round makes, but stand off it: they are no places of the next
round. Where that names the sides, it goes along the first side (the free loops of the chain), into
the point, and along the other. That it works the stitches of the leaves as they come is a second
reading.

Worked example: ``ch 7, sc in 2nd ch from hook, hdc in next ch, 3 dc, sc in next ch`` is a leaf of 6
stitches over 6 chains, the 7th turns at the point.
"""

from __future__ import annotations

from typing import NamedTuple

from workeven.notation.tree import (
    Chain,
    Decrease,
    Each,
    First,
    FromHook,
    Increase,
    Last,
    Next,
    OneChain,
    PlaceName,
    Repeat,
    Same,
    Skip,
    Space,
    Step,
    Unplaced,
    Work,
)
from workeven.proof.cursor import Cursor
from workeven.proof.fabric import CHAIN, Loop, Run
from workeven.proof.facts import goes_from_hook
from workeven.proof.hook import Hook
from workeven.proof.sides import LEAF, side, standing_off


class Base(NamedTuple):
    """Where the hook was when it left the round for a leaf, and what it had asked for."""

    cursor: Cursor
    generic: bool
    named: frozenset[PlaceName]
    lead_chains: int | None
    first_side: int
    made: int


def begins_leaf(hook: Hook, step: Step, rest: tuple[Step, ...]) -> bool:
    """Whether a chain is worked back along, in the midst of a round or row."""
    if not isinstance(step, Chain) or not goes_from_hook(rest):
        return False
    return hook.began or hook.depth > 0 or (hook.closed and not _is_foundation(hook))


def _is_foundation(hook: Hook) -> bool:
    return hook.below is not None and hook.below.foundation


def open_leaf(hook: Hook, step: Chain) -> Base | None:
    """Chain, and go back along it; None where a size leaves it out."""
    count = hook.context.amount(step.count)
    if not count:
        return None
    hook.made.work("ch", count)
    out = hook.made.out
    base = Base(
        hook.cursor,
        hook.generic,
        hook.named,
        hook.lead_chains,
        hook.first_side,
        len(out.nodes),
    )
    out.nodes.append(Run(side("leaf", count), 1))
    hook.cursor = Cursor((Run(CHAIN, count),))
    hook.stood_from, hook.began = None, True
    return base


def leaves_leaf(hook: Hook, step: Step) -> bool:
    """Whether a step goes on in the round: the chain is used up, or another place is named."""
    return hook.cursor.peek() is None or not _goes_along(step)


def _goes_along(step: Step) -> bool:
    match step:
        case (
            Work(target=Next(names=names) | First(names=names) | Last(names=names))
            | Skip(target=Next(names=names) | First(names=names) | Last(names=names))
        ):
            return not isinstance(names[0], Space) or isinstance(names[0], OneChain)
        case Work(target=Each(names=names)):
            return isinstance(names[0], OneChain)
        case Work(target=Unplaced() | FromHook() | Same()) | Skip(target=Unplaced()):
            return True
        case Repeat(steps=inside):
            return bool(inside) and _goes_along(inside[0])
        case Increase() | Decrease() | Chain():
            return True
        case _:
            return False


def close_leaf(hook: Hook, base: Base) -> None:
    """Back in the round; what was worked along the chain is one group."""
    hook.cursor, hook.generic, hook.named = base.cursor, base.generic, base.named
    hook.lead_chains, hook.first_side = base.lead_chains, base.first_side
    made = hook.made
    nodes = made.out.nodes
    inside = standing_off(tuple(nodes[base.made :]))
    nodes[base.made :] = [Loop(inside, 1, group=True, name=LEAF)]
    made.groups[LEAF] = made.groups.get(LEAF, 0) + 1
    made.stand_off()
    hook.stands = "taken"
