"""Rows told once for every second one: "Row 2 and all WS rows: …", then Row 3, Row 5.

Takes     a line with its number, and where a size stands.
Gives     ``keep``; ``fill``: the row between, worked where the numbers come to it; ``with_filled``.
Problems  those of the row.
From      notation.md, "Labels"; lace and garments are written so (common practice).

Worked example: Row 2 is told with all even rows. Behind Row 3 the text goes on with Row 5: Row 4 is
worked as Row 2, with what Row 3 has left, and is counted with Row 5.
"""

from __future__ import annotations

from workeven.proof.again import Total, work_again
from workeven.proof.at_hand import AtHand, InSize, no_rows
from workeven.proof.proven import RowInSize
from workeven.proof.standing import Standing


def keep(standing: Standing, found: InSize) -> None:
    """Keep a row that is told for every second one from there on."""
    first, own = found.entry.first, standing.last
    if first is not None and own is not None and not found.faults:
        standing.alternate = (first, own)


def fill(line: AtHand, standing: Standing) -> InSize | None:
    """Work the row that lies between the last one and this; None where none does."""
    label, alternate, number = line.row.label, standing.alternate, standing.number
    if alternate is None or label is None or label.first is None or number is None:
        return None
    first, own = alternate
    written = standing.context.amount(label.first)
    if written is not None and written <= first:
        standing.alternate = None  # the numbers begin anew: another part
        return None
    if not standing.numbered or written != number + 1 or (number - first) % 2:
        return None
    how, total = standing.how(line.lined), Total()
    standing.come_to(how)
    result, fault = work_again(standing, (own,), 1, how, total)
    standing.remember((own,), number, 1, "")
    faults = () if fault is None else (fault,)
    return InSize(_entry(standing, total), faults, result)


def _entry(standing: Standing, total: Total) -> RowInSize:
    entry = no_rows(standing, None)
    return entry._replace(worked=tuple(total.worked.items()))


def with_filled(filled: InSize | None, found: InSize) -> InSize:
    """What a line becomes, with the row that was worked before it."""
    if filled is None:
        return found
    total = Total(filled.entry.worked)
    total.add(found.entry.worked)
    entry = found.entry._replace(worked=tuple(total.worked.items()))
    return found._replace(entry=entry, faults=(*filled.faults, *found.faults))
