"""``2 sc in next 2 sts``: one in each of them, or two.

Takes     the steps of a row.
Gives     ``several_in_each``: the same steps read the other way.
Problems  none: whoever walks the rows gives the advice ``row-reading``.
From      notation.md, "Two readings"; common practice: some write so what others write as
          ``2 sc in each of next 2 sts``, and the count that is stated tells which is meant.

Worked example: of 20 ``2 sc in next 2 sts, sc in next 18 sts`` leaves 20, or 22 where that is
stated.
"""

from __future__ import annotations

from workeven.notation.tree import Next, Repeat, Step, Stitch, Work
from workeven.records import replace


def several_in_each(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """Every ``2 sc in next 2 sts`` as two in each of the stitches; None where there is none."""
    told = tuple(map(_in_each, steps))
    return None if told == steps else told


def _in_each(step: Step) -> Step:
    if isinstance(step, Repeat):
        return replace(step, steps=tuple(map(_in_each, step.steps)))
    if not isinstance(step, Work) or not step.spread or not isinstance(step.target, Next):
        return step
    only, places = step.content[0], step.target.count.values
    many = places[0] if len(places) == 1 else None
    plain = len(step.content) == 1 and isinstance(only, Stitch) and only.count.values == (1,)
    if not plain or not isinstance(only, Stitch) or many is None or not 1 < many <= _MOST:
        return step
    content = (replace(only, count=step.target.count),)
    return replace(step, content=content, spread=False)


#: more stitches into one place than this are written as a shell
_MOST = 4
