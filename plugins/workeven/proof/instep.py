"""Rows around an instep: what was left at both sides of it, its sides, and its last row between.

Takes     what a row takes up that an earlier row left, the row, and where a size stands.
Gives     ``around_instep``.
Problems  none.
From      common practice: bootees and slippers are worked straight, an instep is worked on over the
          middle stitches alone, and the next row goes all around it.

Worked example: 30 stitches of which 10 were worked on for six rows. "Sc in each of the 10 unworked
sc, 6 sc along side of instep, sc in each of the 10 sc of instep, 6 sc along other side, sc in each
of the 10 unworked sc" goes over 10 + 10 + 10 stitches and makes 42.
"""

from __future__ import annotations

from workeven.notation.tree import Each, Next, RowSides, Step, Work
from workeven.proof.context import SizeContext
from workeven.proof.cursor import Cursor
from workeven.proof.fabric import Fabric, count_stitches
from workeven.proof.line import Line
from workeven.proof.standing import Standing, Unworked

#: the sides of an instep
_BOTH = 2


def around_instep(
    standing: Standing, left: Unworked, instep: Fabric | None, own: Line
) -> Unworked | None:
    """The places of a row that goes around an instep; None for other rows.

    ``instep`` is what was worked last.
    """
    steps = own.facts.steps
    sides = [at for at, step in enumerate(steps) if _is_side(step)]
    if len(sides) != _BOTH or instep is None:
        return None
    before, between, after = steps[: sides[0]], steps[sides[0] : sides[1]], steps[sides[1] :]
    first = sum(_taken(step, standing.context) for step in before)
    if not first or not all(any(map(_goes_into, part)) for part in (between, after)):
        return None
    cursor = Cursor((*left.passed, *left.fabric.nodes))
    cursor.take(count_stitches, first)
    others = left.others or ()
    behind = cursor.rest() or tuple(node for other in others for node in other.fabric.nodes)
    nodes = (*cursor.passed(), *instep.nodes, *behind)
    fabric = instep._replace(nodes=nodes, turning_chain=None, closed=False)
    return left._replace(fabric=fabric, others=others if cursor.rest() else (), before=0)


def _is_side(step: Step) -> bool:
    return isinstance(step, Work) and isinstance(step.target, RowSides) and step.target.apart


def _goes_into(step: Step) -> bool:
    return isinstance(step, Work) and isinstance(step.target, Next | Each)


def _taken(step: Step, context: SizeContext) -> int:
    """How many stitches a step takes, where it names their number."""
    if not isinstance(step, Work) or not isinstance(step.target, Next):
        return 0
    return context.amount(step.target.count) or 0
