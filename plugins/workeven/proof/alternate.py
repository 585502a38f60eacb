"""Rows told once that have others between them: "Row 2 and all WS rows: …", "Rows 3, 5 and 7: …".

Takes     a line with its number, and where a size stands.
Gives     ``without_way``, ``check_way``; ``keep``; ``fill``: the rows between, worked where the
          numbers come to them; ``with_filled``; ``with_those_due``: those that no other line comes
          to.
Problems  those of the rows; ``row-not-understood`` where no row leads to a listed one.
From      notation.md, "Labels"; lace and garments are written so (common practice).

Worked example: Row 2 is told with all even rows. Behind Row 3 the text goes on with Row 5: Row 4 is
worked as Row 2, with what Row 3 has left, and is counted with Row 5. Where Rows 3, 5 and 7 are told
in one line and Rows 4, 6 and 8 in the next one, the latter stands for Rows 4 to 8.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

from workeven.notation.tree import Label
from workeven.proof.again import Total, work_again
from workeven.proof.at_hand import AtHand, InSize, no_rows
from workeven.proof.context import Fault
from workeven.proof.fabric import tally
from workeven.proof.line import Lined, SizeFault
from workeven.proof.row import RowCount
from workeven.proof.standing import Due, Standing


def without_way(lines: Sequence[Lined]) -> dict[int, tuple[int, int]]:
    """Of listed rows to which no row leads: the index of the line, that row and the one missing.

    "Rows 1 and 3: …" where no Row 2 is told stands for a row that nobody comes to.
    """
    found: dict[int, tuple[int, int]] = {}
    told: dict[int, list[tuple[int, int]] | None] = {}
    for at, line in enumerate(lines):
        label = line.row.label
        if label is None or not label.listed:
            continue
        if line.section not in told:
            told[line.section] = _numbers_told(lines, line.section)
        ranges = told[line.section]
        lacking = [one for one in label.listed[1:] if ranges and not _is_in(one - 1, ranges)]
        if lacking:
            found[at] = (lacking[0], lacking[0] - 1)
    return found


def _numbers_told(lines: Sequence[Lined], section: int) -> list[tuple[int, int]] | None:
    """The numbers of a section's rows, as ranges in order; None where the labels do not tell."""
    found: list[tuple[int, int]] = []
    for line in lines:
        label = line.row.label
        if label is None or line.section != section:
            continue
        if label.listed:
            found += [(one, one) for one in label.listed]
            continue
        if label.alternate or (label.first is None and label.rows is not None):
            return None
        ends = [one.values for one in (label.first, label.last) if one is not None]
        if any(len(values) != 1 or values[0] is None for values in ends):
            return None
        if ends:
            found.append((ends[0][0] or 0, ends[-1][0] or 0))
    merged: list[tuple[int, int]] = []
    for low, high in sorted(found):
        if merged and low <= merged[-1][1] + 1:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    return merged


def _is_in(number: int, ranges: list[tuple[int, int]]) -> bool:
    """Whether a number lies in one of the ranges, which are in order and apart."""
    at = bisect_right(ranges, number, key=lambda one: one[0]) - 1
    return at >= 0 and number <= ranges[at][1]


def check_way(line: AtHand) -> None:
    """Raises ``Fault`` for a line of listed rows to one of which no row leads."""
    label, lacking = line.row.label, line.lacking
    if label is None or lacking is None:
        return
    word = label.word or "Row"
    raise Fault(
        "row-not-understood",
        label.start,
        label.end,
        f"{word} {lacking[0]} is told with it, and no {word} {lacking[1]} is",
        mend=f"Write {word} {lacking[1]} too, or each of these rows in its place.",
    )


#: more rows that are told once stand between no two others
_MOST_DUE = 1_000


def keep(label: Label, standing: Standing, found: InSize) -> None:
    """Keep a row that is told for others from there on."""
    first, own = found.entry.first, standing.last
    if first is not None and own is not None and not found.faults:
        due = [one for one in standing.alternate if not one.listed or one.listed[-1] >= first]
        standing.alternate = (*due, Due(first, own, label.listed))


def fill(line: AtHand, standing: Standing) -> InSize | None:
    """Work the rows that lie between the last one and this; None where none does."""
    label = line.row.label
    if label is None or label.first is None or standing.number is None:
        return None
    written = standing.context.amount(label.first)
    if written is not None and written <= standing.alternate[-1].first:
        standing.alternate = ()  # the numbers begin anew: another part
        return None
    if not standing.numbered or written is None:
        return None
    between = range(standing.number, written)
    if (
        not between
        or len(between) > _MOST_DUE
        or not all(_due(standing, number) for number in between)
    ):
        return None
    total = Total()
    result, faults = _work(line, standing, len(between), total)
    entry = no_rows(standing, None)._replace(worked=tuple(total.worked.items()))
    return InSize(entry, faults, result)


def with_filled(filled: InSize | None, found: InSize) -> InSize:
    """What a line becomes, with the rows that were worked before it."""
    if filled is None:
        return found
    total = Total(filled.entry.worked)
    total.add(found.entry.worked)
    entry = found.entry._replace(worked=tuple(total.worked.items()))
    return found._replace(entry=entry, faults=(*filled.faults, *found.faults))


def with_those_due(line: AtHand, standing: Standing, found: InSize) -> InSize:
    """A line with the listed rows that follow it at once.

    Behind a listed line they are all those that come next; behind another one those up to the last
    of a list, if no line need come between any more.
    """
    number, times = standing.number, found.entry.times
    if found.faults or number is None or not standing.numbered or not times:
        return found
    listed = bool(line.row.label and line.row.label.listed)
    rows = _rows_due(standing, number, listed=listed)
    if not rows:
        return found
    total = Total(found.entry.worked)
    result, faults = _work(line, standing, rows, total)
    entry = found.entry._replace(worked=tuple(total.worked.items()), height=standing.height())
    fabric = standing.fabric
    if listed:  # it stands for them; a line of its own says what its own row leaves
        entry = entry._replace(
            last=number + rows - 1,
            times=times + rows,
            sts=0 if fabric is None else fabric.sts,
            makes=() if fabric is None else tuple(tally(fabric.nodes).items()),
        )
    return InSize(entry, faults, result or found.row_count, found.reached)


def _rows_due(standing: Standing, number: int, *, listed: bool) -> int:
    """How many rows follow at once, the last of them a listed one."""
    last = max((due.listed[-1] for due in standing.alternate if due.listed), default=0)
    rows = due_until = 0
    while (
        number + rows <= last
        and rows < _MOST_DUE
        and (due := _due(standing, number + rows)) is not None
    ):
        rows += 1
        due_until = rows if due.listed else due_until
    return due_until if listed or number + rows > last else 0


def _due(standing: Standing, number: int) -> Due | None:
    """The row that is told for that number; of several the one told last."""
    told = reversed(standing.alternate)
    return next((due for due in told if due.comes_at(number)), None)


def _work(
    line: AtHand, standing: Standing, rows: int, total: Total
) -> tuple[RowCount | None, tuple[SizeFault, ...]]:
    """Work so many rows that are due, one after another; gives the last one."""
    how = standing.how(line.lined)
    standing.come_to(how)
    result: RowCount | None = None
    for done in range(1, rows + 1):
        number = standing.number
        due = None if number is None else _due(standing, number)
        if number is None or due is None:
            break
        result, fault = work_again(standing, (due.line,), 1, how, total)
        standing.remember((due.line,), number, 1, "")
        if fault is not None:
            standing.pass_rows(rows - done)
            return result, (fault,)
    return result, ()
