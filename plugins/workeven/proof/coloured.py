"""What single rows work, and each stretch of a row that changes colour: for the amounts of yarn.

Takes     what was worked behind a line (``Worked``), a size, the columns where colours change.
Gives     ``rows_since``; ``Walks``: ``RowWorked`` for each row that a line stands for.
Problems  none: of a row that does not come out nothing is told.
From      notation.md, the table of steps ("change to colour B": takes up 0, makes 0).

No count hangs on it: a line has been counted in all. Only where its rows are worked in several
colours are they walked once more, over the places that they were counted over, and what the steps
behind a change of colour work is kept apart. What rows give over the same places is remembered.

Worked example: ``ch 1, *with A sc 2, with B sc 2; rep from * across`` over 8 sts works 1 ch before
the first change, 4 sc behind it and 4 sc behind the second.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from workeven.grading import GradedPattern
from workeven.notation.tree import Row
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Fabric
from workeven.proof.line import Line
from workeven.proof.lines import contexts_of
from workeven.proof.making import in_stretch
from workeven.proof.proven import Counted
from workeven.proof.row import RowCount, work
from workeven.proof.standing import Worked, bottom_of
from workeven.records import replace

Columns = tuple[int, ...]


class RowWorked(NamedTuple):
    """One row: its line, the places below it, and what each stretch of it works, in order."""

    line: Line
    below: Fabric | None
    stretches: tuple[Counted, ...]


def rows_since(behind: Worked | None, before: Worked | None) -> list[Worked]:
    """The rows worked since, the first of them first."""
    found: list[Worked] = []
    while behind is not None and behind is not before:
        found.append(behind)
        behind = behind.before
    return found[::-1]


class Walks:
    """Walks rows of a pattern once more; what it must know of each size is made when asked for."""

    def __init__(self, graded: GradedPattern) -> None:
        self.graded = graded
        self._contexts: tuple[SizeContext, ...] | None = None

    def row_by_row(
        self, rows: Worked, size: int, columns_of: Callable[[Row], Columns]
    ) -> Iterator[RowWorked]:
        """Every row in turn; it ends before a row that does not come out by itself."""
        if self._contexts is None:
            self._contexts = contexts_of(self.graded)
        return _row_by_row(rows, self._contexts[size], columns_of)


def _row_by_row(
    rows: Worked, context: SizeContext, columns_of: Callable[[Row], Columns]
) -> Iterator[RowWorked]:
    below = rows.below
    known: list[tuple[Line, Fabric | None, RowCount]] = []
    for at in range(rows.times):
        line = rows.line_at(at)
        columns = columns_of(line.row)
        result = next(
            (one for first, places, one in known if first is line and places == below), None
        )
        if result is None:
            result = _count(line, below, rows, replace(context, colours=columns))
            known = [*known[-_KEPT:], (line, below, result)]
        if result.fault is not None:
            return
        yield RowWorked(line, below, _apart(result.worked, len(columns)))
        below = result.fabric


#: how many rows are remembered: as many as any repeat of stripes has
_KEPT = 24


def _count(line: Line, below: Fabric | None, rows: Worked, context: SizeContext) -> RowCount:
    from workeven.proof.into import as_worked

    along = line.facts.along_rows
    return work(
        as_worked(line, below, context).facts,
        below,
        context,
        worked=rows.how,
        row_ends=rows.row_ends,
        bottom=bottom_of(rows.before, context, None) if along else None,
        choices=line.choices,
    )


def _apart(worked: Counted, changes: int) -> tuple[Counted, ...]:
    """What was worked up to the first change, behind it, behind the second and so on."""
    if not changes:
        return (worked,)
    return tuple(
        tuple(
            (kind.partition("\t")[0], number)
            for kind, number in worked
            if kind == (in_stretch(kind.partition("\t")[0], at) if at else kind.partition("\t")[0])
        )
        for at in range(changes + 1)
    )
