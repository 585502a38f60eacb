"""Measurements and counts of a pattern, as records.

Takes     the tables ``measurements`` and ``counts``.
Gives     ``Measurement`` and ``Count``.
Problems  ``count-basis``, ``name-reserved``, those of ``reading``.
From      design.md, "A pattern file": ``measurements counts``.

Whether the names in formulas exist is looked at when they are worked out, in ``grading``.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, cast

from workeven.arithmetic.formula_reader import FUNCTIONS, NAME
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.units import UNITS
from workeven.pattern.reading import Reading, entries, whole_of, words
from workeven.pattern.records import (
    ComputedCount,
    Count,
    FormulaCount,
    ListedCount,
    Measurement,
    Parity,
    RowSide,
)
from workeven.problems.words import joined, quote
from workeven.source import Entry, Node

#: One of these says what a count is; the other keys belong to ``across`` and ``along``.
BASES = ("across", "along", "is", "listed")
_ALONE = {
    "is": ("is",),
    "listed": ("listed", "across", "along", "gauge", "multiple", "plus", "parity"),
}
#: Keys that have a meaning for rows only.
_OF_ROWS = ("begin", "end")


def measurements(reading: Reading, table: Node | None) -> tuple[Measurement, ...] | None:
    """The measurements by name."""
    return whole_of(_measurement(reading, name, entry) for name, entry in _named(reading, table))


def counts(reading: Reading, table: Node | None) -> tuple[Count, ...] | None:
    """The counts by name."""
    return whole_of(_count(reading, name, entry) for name, entry in _named(reading, table))


def _named(reading: Reading, table: Node | None) -> Iterator[tuple[str, Entry]]:
    """The entries, with a problem for each name that a formula would read otherwise."""
    for name, entry in entries(table).items():
        if name in FUNCTIONS or name in UNITS:
            what = "a word of formulas" if name in FUNCTIONS else "a unit"
            reading.problem(
                "name-reserved",
                reading.span(entry),
                f"{quote(name)} is {what}, and cannot be a name.",
                expected="A name that formulas do not read as something else.",
                mend=f"Give it another name, such as `{name}_wanted`.",
            )
        yield name, entry


def _measurement(reading: Reading, name: str, entry: Entry) -> Measurement | None:
    formula = reading.measurement(entry.value, f"measurements.{name}")
    if formula is None:
        return None
    words = reading.source.span(entry.value)
    return Measurement(name=name, formula=formula, span=reading.span(entry), words=words)


def _count(reading: Reading, name: str, entry: Entry) -> Count | None:
    """A count by what it says: a list, ``listed``, ``is``, or ``across`` or ``along``."""
    table = entry.value
    path = f"counts.{name}"
    if not entries(table):
        values = reading.wholes(table, path)
        return None if values is None else _listed(reading, name, entry, values)
    basis = _basis(reading, name, entry)
    if basis == "listed":
        values = reading.wholes(reading.node(table, "listed"), f"{path}.listed")
        return None if values is None else _listed(reading, name, entry, values)
    if basis == "is":
        node = reading.node(table, "is")
        formula = reading.formula(node) if node is not None else None
        if node is None or formula is None:
            return None
        words = reading.source.span(node)
        return FormulaCount(name=name, formula=formula, span=reading.span(entry), words=words)
    return _computed(reading, name, entry) if basis is not None else None


def _basis(reading: Reading, name: str, entry: Entry) -> str | None:
    """Which of the ways to say a count is used; a problem when none or two are."""
    keys = tuple(entries(entry.value))
    said = [key for key in BASES if key in keys]
    basis = "listed" if said in (["across", "listed"], ["along", "listed"]) else None
    if len(said) == 1:
        basis = said[0]
    allowed = _ALONE.get(basis or "", keys)
    if basis == "across":
        allowed = tuple(key for key in keys if key not in _OF_ROWS)
    if basis is not None and set(keys) <= set(allowed):
        return basis
    if not said:
        found = f"{quote(f'counts.{name}')} does not say what it is counted from."
        mend = "Write `across` and a measurement, or list the numbers."
    elif basis is not None:
        idle = joined(quote(key) for key in keys if key not in allowed)
        found = f"{idle} has no meaning beside `{basis}` in {quote(f'counts.{name}')}."
        mend = f"Take it out, or write `across` or `along` in place of `{basis}`."
    else:
        found = f"{quote(f'counts.{name}')} is said twice: by {joined(map(quote, said))}."
        mend = "Keep one of them."
    reading.problem(
        "count-basis",
        reading.span(entry),
        found,
        expected=f"One of {joined(map(quote, BASES), 'or')}.",
        mend=mend,
    )
    return None


def _listed(reading: Reading, name: str, entry: Entry, values: PerSize[int]) -> ListedCount | None:
    table, path = entry.value, f"counts.{name}"
    multiple = _or_one(reading, table, path, "multiple", 1)
    plus = _or_one(reading, table, path, "plus", 0)
    if multiple is None or plus is None:
        return None
    ruled = not {"multiple", "plus", "parity"}.isdisjoint(entries(table))
    return ListedCount(
        name=name,
        values=values,
        across=reading.text(table, "across"),
        along=reading.text(table, "along"),
        gauge=reading.text(table, "gauge"),
        multiple=multiple if ruled else None,
        plus=plus if ruled else None,
        parity=cast("Parity", reading.text(table, "parity") or "any"),
        span=reading.span(entry),
    )


def _computed(reading: Reading, name: str, entry: Entry) -> ComputedCount | None:
    """Every part is read before any is missed, so that all problems are told."""
    table, path, before = entry.value, f"counts.{name}", len(reading.problems)
    gauge = _gauge(reading, entry, path)
    multiple_of = _multiple_of(reading, table)
    one = reading.sizes.all(1) if reading.sizes is not None else None
    multiple = one if multiple_of else _or_one(reading, table, path, "multiple", 1)
    plus = _or_one(reading, table, path, "plus", 0)
    at_least = reading.wholes(reading.node(table, "at_least"), f"{path}.at_least")
    at_most = reading.wholes(reading.node(table, "at_most"), f"{path}.at_most")
    match_node = reading.node(table, "match")
    match = reading.formula(match_node) if match_node is not None else None
    step_at_least = reading.whole(reading.node(table, "step_at_least"))
    step_at_most = reading.whole(reading.node(table, "step_at_most"))
    comes_out = _piece(reading, table)
    begin, end, parity = _ends(reading, entry, path)
    if len(reading.problems) > before or gauge is None or multiple is None or plus is None:
        return None
    return ComputedCount(
        name=name,
        across=reading.text(table, "across"),
        along=reading.text(table, "along"),
        gauge=gauge,
        multiple=multiple,
        plus=plus,
        parity=parity,
        round=cast('Literal["nearest", "up", "down"]', reading.text(table, "round") or "nearest"),
        at_least=at_least,
        at_most=at_most,
        span=reading.span(entry),
        multiple_of=multiple_of,
        match=match,
        step_at_least=step_at_least,
        step_at_most=step_at_most,
        comes_out=comes_out,
        begin=begin,
        end=end,
    )


def _gauge(reading: Reading, entry: Entry, path: str) -> str | None:
    gauge = reading.text(entry.value, "gauge")
    if gauge is None and "gauge" not in entries(entry.value):
        gauge = _only_gauge(reading)
    if gauge is None:
        reading.problem(
            "file-key-missing",
            reading.span(entry),
            f"{quote(path)} needs `gauge`: the gauge in which it is counted, such as `ground`.",
            expected="The name of one of the gauges, since there are several.",
            mend=f"Write `gauge:` and its value under {quote(path)}.",
        )
    return gauge


def _multiple_of(reading: Reading, table: Node) -> str | None:
    """The name in ``multiple: repeat_sts``; None where numbers stand there."""
    node = reading.node(table, "multiple")
    said = words(node) if node is not None else ""
    return said if NAME.fullmatch(said) else None


def _piece(reading: Reading, table: Node) -> str | None:
    node = reading.node(table, "comes_out")
    pieces = tuple(entries(reading.node(reading.source.root, "pieces")))
    if node is None or words(node) in pieces:
        return None if node is None else words(node)
    reading.unknown(node, "piece", pieces, "Names under `pieces`")
    return None


def _ends(reading: Reading, entry: Entry, path: str) -> tuple[RowSide, RowSide | None, Parity]:
    """The sides of the first and last row, and whether the rows between them are odd or even."""
    table = entry.value
    said = reading.text(table, "parity")
    begin = cast("RowSide", reading.text(table, "begin") or "right side")
    end = cast("RowSide | None", reading.text(table, "end"))
    if end is None:
        return begin, None, cast("Parity", said or "any")
    if said is not None:
        reading.problem(
            "count-basis",
            reading.span(entry),
            f"{quote(path)} says with both `end` and `parity` whether its rows are odd or even.",
            expected="One of them: rows that begin on one side and end on the other are even.",
            mend="Take out `parity`.",
        )
    return begin, end, "odd" if begin == end else "even"


def _only_gauge(reading: Reading) -> str | None:
    """The name of the gauge where a pattern has just one."""
    names = tuple(entries(reading.node(reading.source.root, "gauge")))
    return names[0] if len(names) == 1 else None


def _or_one(
    reading: Reading, table: Node, path: str, key: str, otherwise: int
) -> PerSize[int] | None:
    node = reading.node(table, key)
    if node is None:
        return reading.sizes.all(otherwise) if reading.sizes is not None else None
    return reading.wholes(node, f"{path}.{key}")
