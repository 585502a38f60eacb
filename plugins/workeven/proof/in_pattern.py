"""Rows worked in the pattern, where the rows that form it were named.

Takes     the lines of a piece.
Gives     ``with_pattern``: the same lines, "work in patt" as those rows again.
Problems  none.
From      common practice: "2nd and 3rd rows form patt. Work in patt until …".

Only where that stands right behind the last of those rows: there the pattern begins anew. Behind
shaping, or in the middle of it, rows "in patt" are worked even, each stitch as it is.
"""

from __future__ import annotations

from collections.abc import Iterable

from workeven.notation.tree import Amount, PatternRows, RepeatRows, RowRef, WorkEven
from workeven.proof.line import Lined
from workeven.records import replace


def with_pattern(lines: Iterable[Lined]) -> tuple[Lined, ...]:
    """The lines, the first "work in patt" behind a pattern as the rows of it."""
    found: list[Lined] = []
    worked: tuple[str, int] | None = None
    rows: RowRef | None = None
    for line in lines:
        if line.row.patt is not None:
            rows = _rows(line.row.patt, worked)
        body = line.row.body
        if isinstance(body, WorkEven) and body.patt and rows is not None:
            again = RepeatRows((rows,), body.until, body.ending, steps=body.steps)
            found.append(replace(line, row=replace(line.row, body=again)))
        else:
            found.append(line)
        if not line.row.works_nothing:
            worked, rows = _number(line), None
    return tuple(found)


def _rows(patt: PatternRows, worked: tuple[str, int] | None) -> RowRef | None:
    """The rows of a pattern of which the last has just been worked; None where it is another."""
    if worked is None:
        return None
    word, number = worked
    first = number - patt.last + 1 if patt.first is None else patt.first
    last = number if patt.first is None else patt.last
    if last != number or not 0 < first <= last:
        return None
    return RowRef("Rnd" if word == "Rnd" else "Row", Amount((first,)), Amount((last,)))


def _number(line: Lined) -> tuple[str, int] | None:
    """The number of the last row that a line works, in every size the same."""
    label = line.row.label
    amount = None if label is None else label.last or label.first
    if label is None or amount is None or len(amount.values) != 1 or amount.values[0] is None:
        return None
    return label.word or "Row", amount.values[0]
