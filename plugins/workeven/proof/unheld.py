"""Counts and measurements that nothing proves: no row is worked with them.

Takes     a ``Pattern`` in which no row was found at fault.
Gives     ``unheld``.
Problems  ``count-unused``, ``name-unused``.
From      design.md, "The finished measurement is always computed back from the counts".

They are left out of the finished measurements, and here the designer is told so. It is asked only
where all rows come out: in a faulty pattern an unused name is often the other side of the mistake.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from workeven.pattern import ComputedCount, Count, FormulaCount, ListedCount, Pattern
from workeven.pattern.uses import counts_worked, lengths_in, rows_of
from workeven.problems import Problem
from workeven.problems.words import joined, quote


def unheld(pattern: Pattern) -> Iterator[Problem]:
    """Advice for each count and measurement that no row is worked with."""
    yield from count_unused(pattern)
    yield from name_unused(pattern)


def count_unused(pattern: Pattern) -> Iterator[Problem]:
    """A count is given, and no row is worked with it: nothing proves it."""
    counts = pattern.counts
    worked = counts_worked(pattern)
    parts = {
        name for count in counts if isinstance(count, FormulaCount) for name in count.formula.names
    }
    for count in counts:
        if count.name in worked or count.name in parts:
            continue
        over = _measured_by(count)
        so = f", so nothing holds {quote(over)} by it" if over is not None else ""
        yield Problem(
            code="count-unused",
            span=count.span,
            found=f"No row is worked with the count {quote(count.name)}{so}.",
            expected="Counts that the rows use; only those are proven and printed.",
            mend=f"Write `{{{count.name}}}` in the row that it is meant for, or delete it.",
        )


def name_unused(pattern: Pattern) -> Iterator[Problem]:
    """A measurement is given that no count and no row measures: it stands on no page."""
    parts = {
        name
        for measurement in pattern.measurements
        for formula in measurement.formula
        for name in formula.names
    }
    lengths = tuple(lengths_in(rows_of(pattern.pieces)))
    counted = {_measured_by(count) for count in pattern.counts}
    alone = {formula.text.strip() for formula in lengths}
    summed = {name for formula in lengths for name in formula.names} - alone
    for measurement in pattern.measurements:
        name = measurement.name
        if name in parts or name in counted or name in alone:
            continue
        if name in summed:
            sums = [one.text.strip() for one in lengths if name in one.names]
            found = f"{quote(name)} is measured only as a part of {joined(map(quote, sums))}"
            mend = f"Measure it by itself (`until piece measures {{{name}}}`), or give the sum "
            mend += "a name of its own under `measurements`."
        else:
            found = f"Nothing measures {quote(name)}: no count and no row uses it"
            mend = "Count over it (`across`, `along`), let rows be worked until they measure it, "
            mend += "or delete it."
        yield Problem(
            code="name-unused",
            span=measurement.span,
            found=f"{found}, so it is on no page.",
            expected="Measurements that stitches or rows bring about.",
            mend=mend,
        )


def _measured_by(count: Count) -> str | None:
    """The measurement that a count is counted over."""
    match count:
        case ComputedCount():
            return count.across or count.along
        case ListedCount():
            return count.across
        case FormulaCount():
            return None
        case _:
            assert_never(count)
