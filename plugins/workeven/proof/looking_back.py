"""Looking back: what was there before an earlier row, and the hook at its end.

Takes     where a size stands, rows that were worked.
Gives     ``fabric_at``, ``walked``.
Problems  none.
From      notation.md, "Below and before" ("Places an earlier row left stay reachable").

Nothing is kept for it: it is worked out again from the rows before, when one asks.
"""

from __future__ import annotations

from workeven.proof.context import Fault
from workeven.proof.fabric import Fabric
from workeven.proof.hook import Hook
from workeven.proof.line import Line
from workeven.proof.standing import Standing, Worked
from workeven.proof.walk import walk_row


def fabric_at(standing: Standing, rows: Worked, at: int) -> Fabric | None:
    """What is there before the row at this place among those rows."""
    probe = standing.copy()
    probe.fabric = rows.below
    for done in range(at):
        probe.fabric = probe.work(rows.line_at(done), rows.how).fabric
    return probe.fabric


def walked(standing: Standing, line: Line, below: Fabric | None, how: str) -> Hook:
    """The hook at the end of a row that was worked before."""
    hook = Hook(line.facts, below, standing.context, worked=how, choices=line.choices, recover=True)
    try:
        walk_row(hook)
    except Fault:
        return hook
    return hook
