"""A plain row counted in all sizes in step.

Takes     a line (``AtHand``), and where all sizes stand (``Standing``, which it moves on).
Gives     ``in_step``: what the line becomes in each size; or None.
Problems  none: a line that asks for more, or does not come out in a size, is left to ``in_size``.
From      notation.md, "Sizes": the same words in all sizes.

Most lines of a garment are one row of plain steps that all sizes work and that comes out. Of such a
line nothing has to be asked size by size but its counts. So all sizes are counted first, while each
still stands where it stood; where every one comes out they move on together. Where one does not,
nothing has happened, and the line is looked at in each size by itself. That is what decides; this
is a quick yes, which tests hold equal to it.
"""

from __future__ import annotations

from workeven.notation.tree import Label
from workeven.proof.at_hand import AtHand, InSize
from workeven.proof.context import Fault
from workeven.proof.line import Line
from workeven.proof.numbering import start_numbers
from workeven.proof.own_rows import one_row
from workeven.proof.plain import count_plainly
from workeven.proof.plan import Plan
from workeven.proof.proven import Counted
from workeven.proof.row import RowCount, differs
from workeven.proof.standing import Standing
from workeven.proof.stated import figures_of


def in_step(line: AtHand, standings: list[Standing]) -> list[InSize] | None:
    """The line in all sizes, which move on behind it; None: each is to be looked at by itself."""
    own, plan = line.own, line.plan
    if own is None or plan is None:
        return None
    for standing in standings:
        standing.enter(line.lined)
        if standing.unknown or standing.doubt:
            return None
    how = standings[0].how(line.lined)
    try:
        counts = _counts(line, own, plan, standings, how)
    except Fault:
        return None
    if counts is None:
        return None
    return [
        _moved_on(line, own, standing, how, *count)
        for standing, count in zip(standings, counts, strict=True)
    ]


def _counts(
    line: AtHand, own: Line, plan: Plan, standings: list[Standing], how: str
) -> list[tuple[RowCount, Counted | None]] | None:
    """What the row gives in each size, and what it states there, if all is plain and agrees."""
    stated, label = line.row.stated, line.row.label
    found: list[tuple[RowCount, Counted | None]] = []
    for standing in standings:
        count = count_plainly(plan, own.facts, standing.fabric, standing.context, how)
        if count is None or standing.how(line.lined) != how:
            return None
        if label is not None and not _is_right(label, standing):
            return None
        figures = figures_of(stated, standing.context)
        if figures is not None and differs(count, stated, figures) is not None:
            return None
        found.append((count, figures))
    return found


def _is_right(label: Label, standing: Standing) -> bool:
    """Whether the number and the side that a label states are those that are due."""
    if label.side is not None and standing.side not in (None, label.side):
        return False
    if label.first is None:
        return True
    return standing.numbered and standing.context.amount(label.first) == standing.number


def _moved_on(
    line: AtHand, own: Line, standing: Standing, how: str, count: RowCount, figures: Counted | None
) -> InSize:
    standing.come_to(how)
    start_numbers(standing, line.row.label, flat=how == "flat rows")
    return InSize(one_row(standing, own, count, figures), (), count)
