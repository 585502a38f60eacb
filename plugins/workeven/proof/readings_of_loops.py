"""Second readings of loops: both parts of one with a picot, one that is worked into several times.

Takes     the steps of a row that does not come out by the default reading.
Gives     ``picot_loops``, ``in_the_same_loop``.
Problems  none: whoever walks the rows gives the advice ``row-reading``.
From      common practice of Irish crochet: a chain with picots in it is one loop, though the picot
          parts it in two runs of chains. Where a row comes out only over both runs, they are meant.

Worked example: over a single ch-9 loop "[ch 3, sc in ch-9 loop] 3 times" is three times into it.
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.notation.renamed import renamed
from workeven.notation.tree import (
    ONE,
    Exactly,
    Next,
    PlaceName,
    Repeat,
    Same,
    Space,
    Step,
    Work,
)
from workeven.proof.naming import HALF
from workeven.proof.reading import Reading
from workeven.records import replace

_ANY_SPACE = Space()
_HALF_OF_IT = Space(of=HALF)


def picot_loops(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``sc in next loop`` over ``ch 3, picot, ch 3``: in the chains at each side of the picot."""
    found = tuple(renamed(step, _half) for step in steps)
    if found != steps:
        yield Reading(
            default="a chain with picots in it is one loop",
            taken="the chains at both sides of a picot are two loops",
            steps=found,
        )


def in_the_same_loop(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``[ch 3, sc in ch-9 loop] 3 times``: into that loop each time, where no "next" is said."""
    found: list[Step] = []
    for step in steps:
        again = _same_again(step) if isinstance(step, Repeat) else None
        found.extend((step,) if again is None else again)
    if len(found) > len(steps):
        yield Reading(
            default="each time into the next loop",
            taken="each time into the same loop",
            steps=tuple(found),
        )


def _same_again(step: Repeat) -> tuple[Step, ...] | None:
    """The repeat once, and the other times with its place the same one."""
    times = step.times
    works = [at for at, one in enumerate(step.steps) if isinstance(one, Work)]
    if len(works) != 1 or not isinstance(times, Exactly) or times.count.formula is not None:
        return None
    only = step.steps[works[0]]
    if not isinstance(only, Work) or not all((value or 0) > 1 for value in times.count.values):
        return None
    match only.target:
        case Next(names=(Space(chains=int()) as space,), bare=True):
            same = replace(only, target=Same(space))
        case _:
            return None
    fewer = replace(times.count, values=tuple((value or 0) - 1 for value in times.count.values))
    again = tuple(same if at == works[0] else one for at, one in enumerate(step.steps))
    return (
        replace(step, times=Exactly(ONE)),
        replace(step, steps=again, times=Exactly(fewer)),
    )


def _half(name: PlaceName) -> tuple[PlaceName, ...]:
    return (_HALF_OF_IT if name == _ANY_SPACE else name,)
