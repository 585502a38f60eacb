"""What rows have left for later ones: stitches left unworked at their end, or passed over.

Takes     where a size stands.
Gives     ``left_last``, ``all_left``, ``left_of``, ``left_behind``, ``skipped_last``: what waits;
          ``left_by``, ``left_below``: of one row; ``note_left``: what still waits when a row has
          taken some of it up; ``leaves_rest``; ``nothing_left``: the fault.
Problems  ``row-no-such-place``.
From      notation.md, "Below and before" ("Places an earlier row left stay reachable").

Nothing is kept for it but what a row that took some up has left of it: all else is worked out again
from the rows before, when one asks.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from workeven.notation.tree import Earlier, LeaveRest
from workeven.proof.context import Fault
from workeven.proof.fabric import Fabric, Run, stitch
from workeven.proof.gaps import ROWS_BACK, last_with_gaps
from workeven.proof.line import Line
from workeven.proof.looking_back import fabric_at, walked
from workeven.proof.standing import Standing, Unworked, Worked

#: the rests that are looked for: what so many rows have left behind is not taken up
_MOST_LEFT = 24


def note_left(standing: Standing, own: Line, taken_up: Unworked, how: str) -> None:
    """A row has taken up places of an earlier one: what is now left of those."""
    hook = walked(standing, own, taken_up.fabric, how)
    rest = taken_up.others is not None or leaves_rest(own)
    before = hook.before_joining
    nodes = (*before, *(hook.cursor.rest() if rest else ()))
    fabric = taken_up.fabric._replace(nodes=nodes, closed=False)
    others, at = taken_up.others, len(before)
    standing.unworked = Unworked(taken_up.number, fabric, standing.worked_rows, others, at)


def left_last(standing: Standing) -> Unworked | None:
    """What the last row that left anything has left, as far as nothing was taken up since."""
    return next(all_left(standing), None)


def all_left(standing: Standing) -> Iterator[Unworked]:
    """What rows have left and no row has taken up since, the last of them first."""
    return islice(_each_left(standing), _MOST_LEFT)


def _each_left(standing: Standing) -> Iterator[Unworked]:
    known = standing.unworked
    for rows in standing.stretches():
        if known is not None and rows is known.rows:
            if known.fabric.nodes:
                yield known._replace(others=None)
            yield from known.others or ()
            return
        if any(leaves_rest(line) for line in rows.lines):
            for at in range(rows.times - 1, max(rows.times - ROWS_BACK, 0) - 1, -1):
                if leaves_rest(rows.line_at(at)):
                    yield left_by(standing, rows, at)


def left_below(standing: Standing, rows: Worked, at: int) -> Fabric | None:
    """What a row was worked into that has left stitches; None where it left none."""
    return fabric_at(standing, rows, at) if leaves_rest(rows.line_at(at)) else None


def leaves_rest(line: Line) -> bool:
    """Whether a row leaves stitches unworked that a later one may take up."""
    return any(isinstance(step, LeaveRest) and step.name is None for step in line.facts.written)


def left_by(standing: Standing, rows: Worked, at: int) -> Unworked:
    """The rest that the row at this place among those rows has left."""
    below = fabric_at(standing, rows, at)
    hook = walked(standing, rows.line_at(at), below, rows.how)
    fabric = Fabric(hook.cursor.rest(), turned=True)
    number = None if rows.first is None else rows.first + at - 1
    return Unworked(number, fabric, rows, passed=hook.before_joining)


def left_of(standing: Standing, number: int, said: Earlier) -> Unworked:
    """The places of a row that the row behind it has left, or has passed over."""
    known = standing.unworked
    if known is not None and known.number == number:
        return known if known.fabric.nodes or not known.others else known.others[0]
    found = left_behind(standing, number)
    if found is None:
        raise nothing_left(said, left_behind(standing, number - 1))
    return found


def skipped_last(standing: Standing) -> Unworked | None:
    """What the last row has passed over that skips stitches once or a few times, not all along."""
    found = last_with_gaps(standing)
    if found is None:
        return None
    rows, at = found
    known = standing.unworked
    number = None if rows.first is None else rows.first + at - 1
    if known is not None and number is not None and known.number == number:
        return known if known.fabric.nodes or not known.others else known.others[0]
    if leaves_rest(rows.line_at(at)):
        return left_by(standing, rows, at)
    return Unworked(number, _passed_over(standing, rows, at), standing.worked_rows)


def left_behind(standing: Standing, number: int) -> Unworked | None:
    """The places of a row that the row behind it has left, or has passed over, if any."""
    for rows in standing.stretches():
        if rows.line_of(number + 1) is None or rows.first is None:
            continue
        at = number + 1 - rows.first
        if leaves_rest(rows.line_at(at)):
            return left_by(standing, rows, at)
        passed = _passed_over(standing, rows, at)
        return Unworked(number, passed, standing.worked_rows) if passed.nodes else None
    return None


def _passed_over(standing: Standing, rows: Worked, at: int) -> Fabric:
    """The stitches that a row has skipped, in a round as long as they are many."""
    below = fabric_at(standing, rows, at)
    hook = walked(standing, rows.line_at(at), below, rows.how)
    nodes = tuple(
        Run(stitch(name, base), count) for (name, base), count in hook.made.passed.items() if count
    )
    return Fabric(nodes, closed=below is not None and below.closed, turned=True)


def nothing_left(said: Earlier, before: Unworked | None = None) -> Fault:
    """The fault of a row that goes to what no row has left."""
    found = "no row before it has left stitches unworked"
    mend = "Say in the row that leaves them: “leave rem sts unworked”, or “sk next 2 sts”."
    if before is not None and before.number:
        number = before.number
        found = f"no st of row {number + 1} is skipped: that row itself skips sts of row {number}"
        mend = f"Name the row whose sts were skipped, not the one that skips them: {number}."
    return Fault("row-no-such-place", said.start, said.end, found, mend=mend)
