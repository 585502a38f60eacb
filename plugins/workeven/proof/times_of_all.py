"""A number of times behind the last of several steps: "sc, inc x6" is (sc, inc) six times.

Takes     the steps of a row that does not come out by the default reading.
Gives     ``times_of_all``.
Problems  none: whoever walks the rows gives the advice ``row-reading``.
From      notation.md, "Two readings"; makers of toys write so (common practice).

Worked example: ``sc, inc x6`` over 12 stitches takes 7 as it stands; as (sc, inc) six times it
takes 12 and makes 18.
"""

from __future__ import annotations

from workeven.notation.tree import (
    Aside,
    Chain,
    Decrease,
    Exactly,
    FastenOff,
    Increase,
    JoinRound,
    Repeat,
    Skip,
    StatedHere,
    Step,
    Turn,
    Work,
)
from workeven.records import replace

#: what may stand around the steps that are worked so often
_AROUND = (Aside, Chain, FastenOff, JoinRound, StatedHere, Turn)
#: steps that are counted off
_PLAIN = (Decrease, Increase, Skip, Work)


def times_of_all(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The row with its number of times for all of its steps; None where it has none so."""
    first = next((at for at, step in enumerate(steps) if not isinstance(step, _AROUND)), len(steps))
    last = len(steps)
    while last > first and isinstance(steps[last - 1], _AROUND):
        last -= 1
    if last - first < _TWO:
        return None
    before, repeat = steps[first : last - 1], steps[last - 1]
    if not isinstance(repeat, Repeat) or not all(isinstance(one, _PLAIN) for one in before):
        return None
    bare = len(repeat.steps) == 1 and repeat.start == repeat.steps[0].start and not repeat.star
    if not bare or not isinstance(repeat.times, Exactly):
        return None
    whole = replace(repeat, steps=(*before, *repeat.steps), start=before[0].start)
    return (*steps[:first], whole, *steps[last:])


#: the step that is told so often, and one before it
_TWO = 2
