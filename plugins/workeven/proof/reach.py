"""Stitches that reach down: whether the rows below have the places that are worked into.

Takes     where a size stands, a row and its count.
Gives     ``check_reach``; ``lowered``: a row that works into one row below alone names it.
Problems  ``row-no-such-place``.
From      notation.md, "Below and before": "2 rows below" is the row before the row before.

A post stitch two rows below takes up no place of the row at hand, so the walk over that row never
asks for its post. It is held here against what the row of the post left: each post named once.
A row whose every stitch reaches down ("*bpsc around next sc 2 rnds below, ch 4; rep from *
around") is a row on that row: "around" is around it.

Worked example: over 12 sc, 24 sc were worked. "*fpdc around next sc 2 rnds below, sk next sc"
comes out 24 times along the round, and there are 12 posts: it cannot be worked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from workeven.notation.tree import (
    Amount,
    Aside,
    Chain,
    Earlier,
    JoinRound,
    JoinYarn,
    NamedStitch,
    Repeat,
    Same,
    Step,
    Work,
    WorkedRow,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import Fault
from workeven.proof.fabric import Fabric, amount_of
from workeven.proof.line import Line, line_of
from workeven.proof.looking_back import fabric_at
from workeven.proof.making import Placed, reach_of
from workeven.proof.naming import are, many, match_of, spoken
from workeven.records import replace

if TYPE_CHECKING:
    from workeven.proof.at_hand import AtHand
    from workeven.proof.row import RowCount
    from workeven.proof.standing import Standing


def check_reach(
    standing: Standing, own: Line, result: RowCount, recent: Sequence[Fabric | None] = ()
) -> Fault | None:
    """Where a row works into more places of a row below than that has.

    ``recent``: what each of the rows was worked into that were worked since the last remembered.
    """
    if "below" not in own.row.text:
        return None
    asked = dict(result.groups)
    told: dict[str, tuple[Work, Placed]] = {}
    for step in _all(own.facts.steps):
        if isinstance(step, Work) and step.rows_below > 1 and isinstance(step.target, Placed):
            told.setdefault(reach_of(step, step.target), (step, step.target))
    for key, (step, target) in told.items():
        below = _left_by(standing, step.rows_below, recent)
        if below is None or below.ring or below.foundation:
            continue
        there = _there(below, target)
        if (number := asked.get(key, 0)) > there:
            return _too_few(standing, step, target, number, there)
    return None


def lowered(
    standing: Standing, line: AtHand, body: WorkedRow, own: Line
) -> tuple[AtHand, WorkedRow, Line]:
    """A row all of whose stitches reach down equally far, as one that names that row.

    As it is where it is no such row, or where rows have no number to name.
    """
    if "below" not in own.row.text or body.onto is not None or standing.number is None:
        return line, body, own
    depths = {
        step.rows_below if isinstance(step, Work) else 0
        for step in _all(own.facts.written)
        if not isinstance(step, Chain | Aside | JoinRound | JoinYarn | Repeat)
        and not (isinstance(step, Work) and isinstance(step.target, Same))
    }
    depth = depths.pop() if len(depths) == 1 else 0
    number = standing.number - depth
    if depth <= 1 or standing.line_of(number) is None:
        return line, body, own
    first = next(step for step in _all(own.facts.written) if isinstance(step, Work))
    onto = Earlier(Amount((number,)), start=first.start, end=first.end)
    steps = tuple(map(_upon, own.facts.written))
    onto_it = replace(body, steps=steps, onto=onto)
    row = replace(own.row, body=onto_it)
    named = line_of(row, steps, standing.context.special)
    return line._replace(own=named), onto_it, named


def _upon(step: Step) -> Step:
    if isinstance(step, Repeat):
        return replace(step, steps=tuple(map(_upon, step.steps)))
    return replace(step, rows_below=0) if isinstance(step, Work) else step


def _all(steps: tuple[Step, ...]) -> Iterator[Step]:
    """Every step, those in repeats too."""
    for step in steps:
        yield step
        if isinstance(step, Repeat):
            yield from _all(step.steps)
            yield from _all(getattr(step.ending, "steps", ()))


def _left_by(standing: Standing, depth: int, recent: Sequence[Fabric | None] = ()) -> Fabric | None:
    """The places of the row so many below the one at hand; None where no such row was worked."""
    back = depth - 1
    if back <= len(recent):
        return recent[-back]
    back -= len(recent)
    for rows in standing.stretches():
        if back <= rows.times:
            return fabric_at(standing, rows, rows.times - back)
        back -= rows.times
    return None


def _there(below: Fabric, target: Placed) -> int:
    """How many of them there are: by name, or where none bears it, by what it is basically."""
    if there := amount_of(below.nodes, match_of(target.names)):
        return there
    basic = tuple(
        NamedStitch(kind_of(name.name).base)
        for name in target.names
        if isinstance(name, NamedStitch)
    )
    return amount_of(below.nodes, match_of(basic)) if basic else 0


def _too_few(standing: Standing, step: Work, target: Placed, number: int, there: int) -> Fault:
    name = spoken(target.names)
    row = "round" if standing.fabric is not None and standing.fabric.closed else "row"
    where = f"{step.rows_below} {row}s below"
    if not there:
        return Fault(
            "row-no-such-place",
            step.start,
            step.end,
            f"there is no {name} {where}",
            mend="Name what that row has, or the row: “around next dc of Row 3”.",
        )
    return Fault(
        "row-no-such-place",
        step.start,
        step.end,
        f"{many(number, name)} {where} are worked into, and there {are(there)} {there}",
    )
