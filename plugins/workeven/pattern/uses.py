"""What the rows of a pattern name: counts, measurements, lengths that are asked for.

Takes     rows, pieces, counts.
Gives     ``length_asked``, ``with_length``, ``counts_in``, ``lengths_in``, ``with_those_below``,
          ``needs_of``, ``asks_to_come_out``, ``counts_worked``, ``shaped_by``, ``rows_of``,
          ``texts_of``.
Problems  none.
From      notation.md, "Sizes" (braces); design.md, ``measurements counts``.

What no row names is not proven by anything: it must not be printed as if it were.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import assert_never

from workeven.arithmetic.formulas import Formula
from workeven.notation.tree import (
    RepeatRows,
    Row,
    ShapeRows,
    UntilMeasures,
    WorkedRow,
    WorkEven,
)
from workeven.pattern.records import (
    ComputedCount,
    Count,
    FormulaCount,
    ListedCount,
    Pattern,
    Piece,
    Text,
)
from workeven.records import replace


def length_asked(row: Row) -> UntilMeasures | None:
    """The length up to which a row is worked, if it asks for one."""
    body = row.body
    if isinstance(body, WorkedRow | RepeatRows | WorkEven) and isinstance(
        body.until, UntilMeasures
    ):
        return body.until
    if isinstance(body, ShapeRows) and isinstance(body.then, UntilMeasures):
        return body.then
    return None


def with_length(row: Row, until: UntilMeasures) -> Row:
    """The row, worked up to this length."""
    body = row.body
    if isinstance(body, WorkedRow | RepeatRows | WorkEven):
        return replace(row, body=replace(body, until=until))
    if isinstance(body, ShapeRows):
        return replace(row, body=replace(body, then=until))
    return row


def counts_in(rows: Iterable[Row]) -> frozenset[str]:
    """The counts that rows name."""
    return frozenset(
        name
        for row in rows
        for amount in row.amounts
        if amount.formula is not None
        for name in amount.formula.names
    )


def lengths_in(rows: Iterable[Row]) -> Iterator[Formula]:
    """The formulas of the lengths that rows ask for."""
    for row in rows:
        until = length_asked(row)
        if until is not None and until.length.formula is not None:
            yield until.length.formula


def with_those_below(named: Iterable[str], counts: Iterable[Count]) -> frozenset[str]:
    """These counts and all that they are made from."""
    made = {count.name: needs_of(count) for count in counts}
    found: set[str] = set()
    todo = list(named)
    while todo:
        name = todo.pop()
        if name not in found:
            found.add(name)
            todo.extend(made.get(name, ()))
    return frozenset(found)


def needs_of(count: Count) -> frozenset[str]:
    """The counts that a count is made from: by its formula, as a match, as a multiple."""
    match count:
        case FormulaCount():
            return count.formula.names
        case ComputedCount():
            matched = frozenset() if count.match is None else count.match.names
            return matched if count.multiple_of is None else matched | {count.multiple_of}
        case ListedCount():
            return frozenset()
        case _:
            assert_never(count)


def asks_to_come_out(pattern: Pattern) -> bool:
    """Whether a count is to be the nearest that carries through a piece."""
    return any(isinstance(one, ComputedCount) and one.comes_out for one in pattern.counts)


def counts_worked(pattern: Pattern) -> frozenset[str]:
    """The counts that rows are worked with, and those that they are made from."""
    named = counts_in(rows_of(pattern.pieces)) | shaped_by(pattern.pieces)
    return with_those_below(named, pattern.counts)


def shaped_by(pieces: Iterable[Piece]) -> frozenset[str]:
    """The counts that rows are made from, where they are told as data."""
    found = (section.made_from for piece in pieces for section in piece.sections)
    return frozenset(
        name
        for one in found
        if one is not None
        for _, formula in one.named
        for name in formula.names
    )


def rows_of(pieces: Iterable[Piece]) -> Iterator[Row]:
    """The rows of all pieces, in order."""
    for piece in pieces:
        for section in piece.sections:
            yield from section.rows


def texts_of(pattern: Pattern) -> Iterator[Text]:
    """What is told of the work beside its rows: notes, making up and finishing."""
    for piece in pattern.pieces:
        for section in piece.sections:
            yield Text(text=section.note or "", span=section.span)
            for note in section.row_notes:
                yield Text(text=note.note or "", span=note.span)
    yield from (*pattern.assembly, *pattern.finishing)
