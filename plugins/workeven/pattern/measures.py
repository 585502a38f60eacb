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

from workeven.arithmetic.formula_reader import FUNCTIONS
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.units import UNITS
from workeven.pattern.reading import Reading, entries, whole_of
from workeven.pattern.records import ComputedCount, Count, FormulaCount, ListedCount, Measurement
from workeven.problems.words import joined, quote
from workeven.source import Entry, Node

#: One of these says what a count is; the other keys belong to ``across`` and ``along``.
BASES = ("across", "along", "is", "listed")
_ALONE = {"is": ("is",), "listed": ("listed", "across", "gauge")}


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
    basis = "listed" if "listed" in said and "along" not in said and "is" not in said else None
    if len(said) == 1:
        basis = said[0]
    allowed = _ALONE.get(basis or "", keys)
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


def _listed(reading: Reading, name: str, entry: Entry, values: PerSize[int]) -> ListedCount:
    return ListedCount(
        name=name,
        values=values,
        across=reading.text(entry.value, "across"),
        gauge=reading.text(entry.value, "gauge"),
        span=reading.span(entry),
    )


def _computed(reading: Reading, name: str, entry: Entry) -> ComputedCount | None:
    table = entry.value
    path = f"counts.{name}"
    gauge = reading.text(table, "gauge")
    if gauge is None and "gauge" not in entries(table):
        gauge = _only_gauge(reading)
    multiple = _or_one(reading, table, path, "multiple", 1)
    plus = _or_one(reading, table, path, "plus", 0)
    at_least = reading.wholes(reading.node(table, "at_least"), f"{path}.at_least")
    at_most = reading.wholes(reading.node(table, "at_most"), f"{path}.at_most")
    if gauge is None:
        reading.problem(
            "file-key-missing",
            reading.span(entry),
            f"{quote(path)} needs `gauge`: the gauge in which it is counted, such as `ground`.",
            expected="The name of one of the gauges, since there are several.",
            mend=f"Write `gauge:` and its value under {quote(path)}.",
        )
    bounds_read = (at_least is not None) >= ("at_least" in entries(table)) and (
        (at_most is not None) >= ("at_most" in entries(table))
    )
    if gauge is None or multiple is None or plus is None or not bounds_read:
        return None
    return ComputedCount(
        name=name,
        across=reading.text(table, "across"),
        along=reading.text(table, "along"),
        gauge=gauge,
        multiple=multiple,
        plus=plus,
        parity=cast('Literal["any", "odd", "even"]', reading.text(table, "parity") or "any"),
        round=cast('Literal["nearest", "up", "down"]', reading.text(table, "round") or "nearest"),
        at_least=at_least,
        at_most=at_most,
        span=reading.span(entry),
    )


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
