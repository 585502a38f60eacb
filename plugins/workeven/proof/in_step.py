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

from workeven.notation.tree import Label, RepeatRows
from workeven.proof.again_in_step import again_in_step
from workeven.proof.at_hand import AtHand, InSize
from workeven.proof.context import Fault
from workeven.proof.line import Line
from workeven.proof.numbering import start_numbers
from workeven.proof.own_rows import chain_line, one_row
from workeven.proof.plain import count_plainly
from workeven.proof.plan import Plan
from workeven.proof.proven import Counted
from workeven.proof.row import RowCount, differs
from workeven.proof.standing import Standing
from workeven.proof.stated import figures_of


def in_step(line: AtHand, standings: list[Standing]) -> list[InSize] | None:
    """The line in all sizes, which move on behind it; None: each is to be looked at by itself."""
    own, plan, body = line.own, line.plan, line.row.body
    if standings and standings[0].alternate:
        return None  # other rows may be due beside it
    if line.again and isinstance(body, RepeatRows):
        return again_in_step(line, body, standings)
    if own is not None and line.chain:
        return _chains(line, own, standings)
    if own is None or plan is None:
        return None
    for standing in standings:
        standing.enter(line.lined)
    how = standings[0].how(line.lined)
    try:
        counts = _counts(line, own, plan, standings, how)
    except Fault:
        return None
    if counts is None:
        return None
    label = line.row.label
    quiet = label is None or (label.first is None and label.side is None)
    name = "" if label is None else label.name or ""
    flat = how == "flat rows"
    found = []
    for standing, (count, figures) in zip(standings, counts, strict=True):
        standing.come_to(how)
        if quiet:
            standing.fresh, standing.side = False, standing.side or "RS"
        else:
            start_numbers(standing, label, flat=flat)
        found.append(InSize(one_row(standing, own, count, figures, name), (), count))
    return found


def _chains(line: AtHand, own: Line, standings: list[Standing]) -> list[InSize] | None:
    """A starting chain in all sizes, where nothing is there before it."""
    stated, found = line.row.stated, list[tuple[RowCount, Counted | None]]()
    for standing in standings:
        standing.enter(line.lined)
        if standing.fabric is not None or standing.unknown or standing.doubt:
            return None
    how = standings[0].how(line.lined)
    try:
        for standing in standings:
            count = standing.count(own, how, None)
            figures = figures_of(stated, standing.context)
            fabric = count.fabric
            if count.fault is not None or count.is_row or not fabric.foundation or fabric.ring:
                return None
            if fabric.closed and line.ring_follows:
                return None
            if figures is not None and differs(count, stated, figures) is not None:
                return None
            found.append((count, figures))
    except Fault:
        return None
    made = []
    for standing, (count, figures) in zip(standings, found, strict=True):
        standing.come_to(how)
        made.append(InSize(chain_line(standing, own, count, figures), (), count))
    return made


def _counts(
    line: AtHand, own: Line, plan: Plan, standings: list[Standing], how: str
) -> list[tuple[RowCount, Counted | None]] | None:
    """What the row gives in each size, and what it states there, if all is plain and agrees."""
    stated, label, worked, facts = line.row.stated, line.row.label, line.lined.worked, own.facts
    found: list[tuple[RowCount, Counted | None]] = []
    for standing in standings:
        if standing.unknown or standing.doubt or (standing.worked or worked) != how:
            return None
        count = count_plainly(plan, facts, standing.fabric, standing.context, how)
        if count is None or not (label is None or _is_right(label, standing)):
            return None
        figures = None if stated is None else figures_of(stated, standing.context)
        agrees = figures is None or figures == count.makes
        if not agrees and differs(count, stated, figures or ()) is not None:
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
