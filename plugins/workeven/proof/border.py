"""A border told by two of its edges: "*45 sc along side, 3 sc in corner, 59 sc …; rep once more".

Takes     the steps of a row that works along the sides of rows.
Gives     ``all_edges``: the same with such a repeat written out; ``closed``: the same where a slip
          stitch at the end joins the round.
Problems  none.
From      notation.md, the table of places ("row end"), "Repeats nest".

Of a piece worked flat the edges come in turn: the last row, a side, the starting chain, the other
side. Two workings of "an edge of stitches, a side" are all four: the stitches named are those of
the last row the one time, and the chains of the starting chain the other time.
"""

from __future__ import annotations

from itertools import pairwise

from workeven.notation.tree import (
    AnyStitch,
    Aside,
    ChainOfTurning,
    Each,
    Exactly,
    FastenOff,
    First,
    JoinRound,
    Last,
    More,
    NamedStitch,
    Next,
    OneChain,
    Repeat,
    RowEnd,
    RowSides,
    StatedHere,
    Step,
    Stitch,
    Travel,
    Turn,
    Unplaced,
    Work,
)
from workeven.records import replace

#: the opposite edges of a piece
_PAIR = 2


def all_edges(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps with a repeat over two edges written out, if there is one."""
    if any(isinstance(step, StatedHere) for step in steps):
        return steps  # what is stated half way is found by its place among the steps
    found = [at for at, step in enumerate(steps) if _goes_around(step)]
    if len(found) != 1 or any(_is_along(step) for step in steps[: found[0]]):
        return steps
    repeat = steps[found[0]]
    assert isinstance(repeat, Repeat)
    side_first = _is_side(next(step for step in repeat.steps if _is_along(step)))
    bottom = tuple(map(_in_chains, repeat.steps))
    both = (*bottom, *repeat.steps) if side_first else (*repeat.steps, *bottom)
    return (*steps[: found[0]], *both, *steps[found[0] + 1 :])


def closed(steps: tuple[Step, ...], *, in_round: bool = False) -> tuple[Step, ...]:
    """``…, sl st in first sc`` behind edges of a flat piece: the border is a round, and joined.

    What was worked into the first stitch of the row before is passed long since. ``in_round``: its
    label says that it is one, as that of a sleeve does ("Rnd 1"), which may begin with a chain.
    """
    told = [at for at, step in enumerate(steps) if not isinstance(step, _NO_WORK)]
    last = steps[told[-1]] if len(told) > 1 else None
    slips = isinstance(last, Travel) or (isinstance(last, Work) and _slips(last))
    if not slips or not isinstance(last, Work | Travel):
        return steps
    if not isinstance(last.target, (First, ChainOfTurning) if in_round else First):
        return steps
    if not in_round and not any(_has_side(step) for step in steps[: told[-1]]):
        return steps
    join = JoinRound(last.target, start=last.start, end=last.end)
    return (*steps[: told[-1]], join, *steps[told[-1] + 1 :])


def _slips(step: Work) -> bool:
    """Whether a slip stitch, and nothing else, is worked."""
    only = step.content[0]
    return len(step.content) == 1 and isinstance(only, Stitch) and only.name == "sl st"


#: what may stand behind the last stitch of a border
_NO_WORK = (Aside, FastenOff, StatedHere, Turn)


def _has_side(step: Step) -> bool:
    """Whether a step, or one of those it repeats, is worked along row ends or an edge."""
    if isinstance(step, Repeat):
        return any(_has_side(one) for one in step.steps)
    return _is_side(step)


def _goes_around(step: Step) -> bool:
    """Whether a repeat is worked twice, and one side and one other edge each time."""
    if not isinstance(step, Repeat) or step.ending is not None or not _is_twice(step):
        return False
    along = [_is_side(one) for one in step.steps if _is_along(one)]
    changes = sum(now != after for now, after in pairwise(along))
    return changes == 1


def _is_twice(step: Repeat) -> bool:
    match step.times:
        case Exactly(count=count):
            return count.values == (_PAIR,)
        case More(count=count, more=True):
            return count.values == (_PAIR - 1,)
        case _:
            return False


def _is_along(step: Step) -> bool:
    """Whether a step is worked along an edge, and not in a corner."""
    if not isinstance(step, Work):
        return False
    match step.target:
        case RowSides() | Unplaced():
            return True
        case Next(names=names) | Each(names=names) | First(names=names) | Last(names=names):
            return isinstance(names[0], AnyStitch | NamedStitch | RowEnd | OneChain)
        case _:
            return False


def _is_side(step: Step) -> bool:
    """Whether the edge that a step is worked along is one of row ends."""
    match step.target if isinstance(step, Work) else None:
        case RowSides():
            return True
        case Next(names=names) | Each(names=names) | First(names=names) | Last(names=names):
            return isinstance(names[0], RowEnd)
        case _:
            return False


def _in_chains(step: Step) -> Step:
    """The step as it is worked along the starting chain."""
    if not _is_along(step) or _is_side(step) or not isinstance(step, Work):
        return step
    match step.target:
        case Unplaced(count=count):
            return replace(step, target=Next((OneChain(),), count, each=True))
        case Next() | Each() | First() | Last() as target:
            return replace(step, target=replace(target, names=(OneChain(),)))
        case _:
            return step
