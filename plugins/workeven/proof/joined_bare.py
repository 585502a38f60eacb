"""A bare slip stitch at the end of a joined round: "…, 2 dc in next st; rep from * around, sl st".

Takes     the lines of a piece.
Gives     ``with_bare_joins``: the same lines, such a slip stitch as the joining of its round;
          ``as_stitch``: the steps of such a round with it as a stitch, where it may be one.
Problems  none.
From      notation.md, "Rounds are closed"; that the slip stitch at the end joins, common practice.

A round that is worked in joined rounds ends where it is joined, and nothing else joins it there. A
slip stitch with a number or a place of its own stays a stitch, and so does one behind "to last st".
Where all else is counted off it may be the last stitch too: that is a second reading.
"""

from __future__ import annotations

from collections.abc import Iterable

from workeven.notation.tree import (
    ONE,
    AnyStitch,
    Aside,
    Chain,
    Each,
    FastenOff,
    JoinRound,
    Next,
    Open,
    Repeat,
    StatedHere,
    Step,
    Stitch,
    ToLast,
    Travel,
    Turn,
    Unplaced,
    Work,
    WorkedRow,
)
from workeven.proof.line import Lined, as_worked
from workeven.proof.made import is_slip_stitch
from workeven.records import replace

#: what may stand behind the joining: the turn, and the chain of the next round beside it
_BEHIND_THE_JOIN = Aside | Chain | FastenOff | StatedHere | Turn


def with_bare_joins(lines: Iterable[Lined]) -> tuple[Lined, ...]:
    """The lines of a piece, each round that ends with a bare slip stitch joined by it."""
    return tuple([_joined(line, how) for line, how in as_worked(lines)])


def _joined(line: Lined, how: str) -> Lined:
    body = line.row.body
    if not isinstance(body, WorkedRow) or not how.startswith("joined rounds"):
        return line
    at = _bare_at_the_end(body.steps, line.row.text)
    if at is None:
        return line
    slip = body.steps[at]
    join = JoinRound(None, start=slip.start, end=slip.end, slip=True)
    steps = (*body.steps[:at], join, *body.steps[at + 1 :])
    return replace(line, row=replace(line.row, body=replace(body, steps=steps)))


def _bare_at_the_end(steps: tuple[Step, ...], text: str) -> int | None:
    """Where a bare slip stitch ends the round; None where none does, or another step joins it."""
    at = len(steps) - 1
    while at > 0 and isinstance(steps[at], _BEHIND_THE_JOIN):
        at -= 1
    last = steps[at] if at > 0 else None
    if not isinstance(last, Work) or not is_slip_stitch(last) or not _is_bare(last, text):
        return None
    before = steps[:at]
    if before and _leaves_one(before[-1]):
        return None  # "sc in each st to last st, sl st": into that
    if any(isinstance(one, JoinRound | Travel) for one in before):
        return None
    return at if any(isinstance(one, Work | Repeat) for one in before) else None


def _is_bare(slip: Work, text: str) -> bool:
    """Whether neither a number nor a place is told; before "fasten off" the next one is read."""
    next_one = slip.target == Next((AnyStitch(),)) and " in" not in text[slip.start : slip.end]
    return next_one or slip.target == Unplaced(ONE)


def _leaves_one(step: Step) -> bool:
    match step:
        case (
            Work(target=Each(limit=ToLast(count=count)))
            | Repeat(times=Open(limit=ToLast(count=count)))
        ):
            return count.values == (1,)
        case _:
            return False


def as_stitch(steps: tuple[Step, ...]) -> tuple[Step, ...] | None:
    """The steps with the slip stitch that joins as the last stitch; None where steps are open."""
    at = next((n for n, one in enumerate(steps) if isinstance(one, JoinRound) and one.slip), None)
    if at is None or any(map(_is_open, steps)):
        return None
    join = steps[at]
    slip = Stitch("sl st", ONE, 1, join.start, join.end)
    last = Work((slip,), Unplaced(ONE), start=join.start, end=join.end)
    return (*steps[:at], last, *steps[at + 1 :])


def _is_open(step: Step) -> bool:
    """Whether a step goes on as far as there are places."""
    if isinstance(step, Repeat):
        return isinstance(step.times, Open) or any(map(_is_open, step.steps))
    return isinstance(step, Work) and isinstance(step.target, Each)
