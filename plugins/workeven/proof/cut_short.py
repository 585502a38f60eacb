"""A last repeat that is written out, and cut short in silence before what the repeat skips.

Takes     a ``Hook`` at the end of its row, how many places are left.
Gives     ``cut_before_skip``, ``plain``.
Problems  none.
From      notation.md, "When it does not come out" (last repeats cut short in silence).

``*ch 2, sc in next ch-3 sp, ch 2, sk next ch-2 sp, shell in next ch-2 sp; rep from * 6 more times,
ch 2, sc in next ch-3 sp, ch 2, join``: behind the repeats stand the first steps of one more, up to
the space that it skips. That space is skipped here too, and nobody writes so.
"""

from __future__ import annotations

from typing import Any

from workeven.notation.tree import Aside, FastenOff, JoinRound, Next, Repeat, Skip, Turn, Unplaced
from workeven.proof.hook import Hook
from workeven.proof.naming import ANY, match_of
from workeven.records import fields, is_record

#: steps that end a row and are no part of its repeat
_ENDS = (JoinRound, Turn, FastenOff, Aside)


def cut_before_skip(hook: Hook, left: int) -> bool:
    """Whether all that is left is what the repeat skips where its last working is cut short."""
    steps = [step for step in hook.facts.steps if not isinstance(step, _ENDS)]
    repeats = [at for at, step in enumerate(steps) if isinstance(step, Repeat)]
    if not repeats:
        return False
    repeat, tail = steps[repeats[-1]], steps[repeats[-1] + 1 :]
    assert isinstance(repeat, Repeat)
    body = [step for step in repeat.steps if not isinstance(step, Aside)]
    if not tail or len(tail) >= len(body):
        return False
    skip = body[len(tail)]
    if not isinstance(skip, Skip) or not isinstance(skip.target, Next | Unplaced):
        return False
    if isinstance(skip.target, Unplaced) and hook.how == "flat rows":
        return False  # in rows nothing is left unsaid
    if [plain(step) for step in tail] != [plain(step) for step in body[: len(tail)]]:
        return False
    match = match_of(skip.target.names if isinstance(skip.target, Next) else ANY)
    skipped = hook.context.amount(skip.target.count)
    return left == skipped == hook.cursor.remaining(match, required=True)


def plain(value: Any) -> Any:  # noqa: ANN401, any field of a step
    """A step without the places in the text at which it stands."""
    if is_record(value):
        names = [one.name for one in fields(value) if one.name not in ("start", "end")]
        return (type(value), *(plain(getattr(value, name)) for name in names))
    if isinstance(value, tuple):
        return tuple(plain(one) for one in value)
    return value
