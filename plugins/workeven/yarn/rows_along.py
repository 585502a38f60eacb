"""Rows that follow a length: how many more there are where a measurement grows.

Takes     ``GradedPattern``.
Gives     ``rows_along``: ``RowsAlong`` for each measurement that changes numbers of rows alone.
Problems  none.
From      design.md, ``counts``: ``along``; formulas of counts.

A designer who writes ``sleeve_rows: {along: sleeve_length}`` and works a shaping over
``sleeve_rows - 3`` has a sleeve that may be made longer. A measurement on which stitches hang as
well, because its count stands in a row or another width is made from it, is none: then the piece
would be another one and not a longer one.

Worked example: over ``sleeve_rows - 3`` one row more of the count is one row more of the shaping;
``rep last 2 rows {rows / 2 - 1} more times`` is half a repeat more.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from workeven.arithmetic.formulas import Formula, FormulaFault
from workeven.arithmetic.per_size import PerSize
from workeven.grading import GradedPattern
from workeven.notation.tree import (
    Amount,
    RepeatRows,
    Row,
    RowsCount,
    RowsTimes,
    WorkedRow,
    WorkEven,
)
from workeven.pattern import Pattern, Shape
from workeven.pattern.records import ComputedCount, FormulaCount, ListedCount
from workeven.pattern.uses import needs_of, rows_of
from workeven.records import record

#: so many rows are added to see what formulas make of it: a number that many divide
_MORE = 240


@record
class RowsAlong:
    """A measurement, and what one row more of its count does.

    ``row``: how high such a row is (mm). ``before`` and ``after``: all counts of each size as they
    are, and with ``_MORE`` rows more along the measurement.
    """

    name: str
    row: Fraction
    before: PerSize[Mapping[str, int]]
    after: PerSize[Mapping[str, int]]

    def more(self, formula: Formula) -> PerSize[Fraction] | None:
        """How much more a formula of counts is for one row more; None where it does not grow.

        A number of rows of which a size has none stays none (0).
        """
        if not any(formula.names & self._changed(at) for at in range(len(self.before.values))):
            return None
        found: list[Fraction] = []
        for before, after in zip(self.before, self.after, strict=True):
            try:
                was, is_now = formula.count(before), formula.count(after)
            except FormulaFault:
                return None
            found.append((is_now - was) / _MORE)
        return self.before.sizes.each(tuple(found)) if all(one >= 0 for one in found) else None

    def _changed(self, at: int) -> frozenset[str]:
        before, after = self.before[at], self.after[at]
        return frozenset(name for name, value in before.items() if after[name] != value)


def rows_along(graded: GradedPattern) -> tuple[RowsAlong, ...]:
    """Every measurement along which rows are counted, and on which nothing but rows hangs."""
    pattern = graded.pattern
    return tuple(
        found
        for one in pattern.measurements
        if (found := _along(graded, one.name)) is not None and _rows_alone(pattern, found)
    )


def times_of(row: Row) -> tuple[Amount, bool] | None:
    """How often a line works its rows, as written, and whether that counts whole repeats."""
    until = row.body.until if isinstance(row.body, RepeatRows | WorkedRow | WorkEven) else None
    if isinstance(until, RowsTimes):
        return until.count, True
    return (until.count, False) if isinstance(until, RowsCount) else None


# --- which counts ----------------------------------------------------------------------------


def _along(graded: GradedPattern, name: str) -> RowsAlong | None:
    """The counts with more rows along a measurement; None where none follows it alone."""
    pattern = graded.pattern
    named = [
        one
        for one in pattern.counts
        if isinstance(one, ComputedCount | ListedCount) and name in (one.along, one.across)
    ]
    if not named or any(one.across == name for one in named) or _others_follow(pattern, name):
        return None
    heights = {one.gauge and graded.counts[one.name].gauge for one in named}
    (gauge, *others) = heights
    height = gauge.row_height() if gauge and not others else None
    if height is None:
        return None
    before = [
        {key: count.values[at] for key, count in graded.counts.items()}
        for at in range(len(pattern.sizes))
    ]
    after = [_with_more(pattern, dict(one), [count.name for count in named]) for one in before]
    if any(one is None for one in after):
        return None
    return RowsAlong(
        name=name,
        row=height,
        before=pattern.sizes.each(tuple(before)),
        after=pattern.sizes.each(tuple(one for one in after if one is not None)),
    )


def _others_follow(pattern: Pattern, name: str) -> bool:
    """Whether counts are made over another measurement that is made from this one."""
    made = {one.name: set().union(*(f.names for f in one.formula)) for one in pattern.measurements}
    follow = {name}
    while more := {one for one, names in made.items() if names & follow} - follow:
        follow |= more
    counted = {
        measured
        for one in pattern.counts
        if isinstance(one, ComputedCount | ListedCount)
        for measured in (one.along, one.across)
    }
    return bool((follow - {name}) & counted)


def _with_more(pattern: Pattern, values: dict[str, int], named: list[str]) -> dict[str, int] | None:
    """All counts with more rows of those; None where one that must be whole is not."""
    changed = set(named)
    for name in named:
        values[name] += _MORE
    for _ in pattern.counts:  # a formula may name a count that stands behind it
        for one in pattern.counts:
            if one.name in changed and one.name in named:
                continue
            if needs_of(one) & changed:
                if not isinstance(one, FormulaCount):
                    return None
                whole = one.formula.whole(values)
                if whole is None:
                    return None
                values[one.name] = whole
                changed.add(one.name)
    return values


# --- and nothing but rows --------------------------------------------------------------------


def _rows_alone(pattern: Pattern, found: RowsAlong) -> bool:
    """Whether the counts that change say how many rows there are, and nothing else."""
    changed = frozenset().union(*(found._changed(at) for at in range(len(pattern.sizes))))  # noqa: SLF001, of this module
    return not any(one.names & changed for one in _of_stitches(pattern))


def _of_stitches(pattern: Pattern) -> Iterator[Formula]:
    """The formulas of rows and shapings that tell of anything but a number of rows."""
    for row in rows_of(pattern.pieces):
        often = times_of(row)
        for amount in row.amounts:
            if amount.formula is not None and (often is None or amount != often[0]):
                yield amount.formula
    for piece in pattern.pieces:
        for section in piece.sections:
            made = section.made_from
            if made is not None:
                of_rows = ("over",) if isinstance(made, Shape) and not made.tracks else ()
                yield from (formula for key, formula in made.named if key not in of_rows)
