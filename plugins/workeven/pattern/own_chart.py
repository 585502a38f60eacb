"""A studio's own body chart, by the same record as the published ones.

Takes     ``Source``: the text of a chart's file.
Gives     ``parse_chart``.
Problems  ``chart-range``, ``chart-unit-mixed``, ``chart-units-differ``, ``size-falls``,
          ``size-twice``, those of ``reading`` and of the shape.
From      ``schemas/chart.schema.json``.

A line has one column or two, ``cm`` and ``in``, each with one value or range for each size, a dash
where there is none. Neither column is made from the other. Where they stand further apart than both
ways of converting allow (2.5 cm and 2.54 cm to the inch), a centimetre for rounding added, it is
told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import cast

from workeven.arithmetic import quantities
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.quantities import QuantityFault
from workeven.arithmetic.units import UNITS
from workeven.pattern.reading import Reading, entries, items, words
from workeven.pattern.schema import shaped
from workeven.pattern.size_names import size_names
from workeven.problems import Checked, Problem, Severity
from workeven.problems.catalogue import severity
from workeven.problems.words import joined, quote
from workeven.records import record
from workeven.source import Entry, Node, Source
from workeven.standards import BodyChart, BodyMeasurement, Origin, Status, Unit

Range = tuple[Fraction, Fraction] | None

_DASHES = ("-", "–", "—")
_TO = re.compile(r"\s*(?:\bto\b|[-–—])\s*")
_UNIT = re.compile(r"[A-Za-z]+\.?|[\"″]")
_UNITS: dict[str, Unit] = {
    **dict.fromkeys(("cm", "cm."), "cm"),
    **dict.fromkeys(("in", "in.", "inch", "inches", '"', "″"), "in"),
}
#: How far the columns may stand apart (cm) where both are rounded to halves: 0.25 cm and 0.64 cm.
_APART = Fraction(1)
_SCHOOLS = (Fraction(5, 2), Fraction(254, 100))


@record
class _Line:
    """A measurement of the chart while it is read."""

    name: str
    entry: Entry
    origin: Origin


def parse_chart(source: Source) -> Checked[BodyChart]:
    """One chart, typed; None when a part of it could not be read."""
    shape = shaped(source, "chart")
    reading = Reading(source, shape.root, shape.problems)
    reading.sizes = size_names(reading, reading.node(reading.root, "sizes"), "chart")
    chart = None if reading.sizes is None else _chart(reading, reading.sizes.names)
    failed = any(severity(one.code) is Severity.ERROR for one in reading.problems)
    told = tuple(sorted(reading.problems, key=lambda one: (one.span.line, one.span.column)))
    return Checked(value=None if failed or not shape.whole else chart, problems=told)


def _chart(reading: Reading, names: tuple[str, ...]) -> BodyChart | None:
    root = reading.root
    name, citation = reading.text(root, "name"), reading.text(root, "citation")
    table = reading.node(root, "measurements")
    if name is None or citation is None or table is None:
        return None
    whole = Origin(citation=citation, status=_status(reading, root, "found"), note="")
    values = [
        value
        for key, entry in entries(table).items()
        for value in _values(reading, _line(reading, key, entry, whole))
    ]
    return BodyChart(
        name=name,
        title=reading.text(root, "title") or name,
        sizes=names,
        values=tuple(values),
        faults=(),
        note=reading.text(root, "note") or "",
    )


def _status(reading: Reading, table: Node, otherwise: Status) -> Status:
    return cast("Status", reading.text(table, "status") or otherwise)


def _line(reading: Reading, key: str, entry: Entry, whole: Origin) -> _Line:
    table = entry.value
    return _Line(
        name=" ".join(key.replace("_", " ").lower().split()),
        entry=entry,
        origin=Origin(
            citation=reading.text(table, "citation") or whole.citation,
            status=_status(reading, table, whole.status),
            note=reading.text(table, "note") or "",
        ),
    )


def _values(reading: Reading, line: _Line) -> Iterator[BodyMeasurement]:
    """Every value of a line, in both columns."""
    columns: dict[Unit, PerSize[Range]] = {}
    units: tuple[Unit, Unit] = ("cm", "in")
    for unit in units:
        node = reading.node(line.entry.value, unit)
        column = None if node is None else _column(reading, node, line, unit)
        if column is not None:
            columns[unit] = column
    if len(columns) == len(units):
        _differing(reading, line, columns["cm"], columns["in"])
    for unit, column in columns.items():
        for size, span in column.items():
            if span is not None:
                yield BodyMeasurement(
                    size=size,
                    measurement=line.name,
                    unit=unit,
                    low=span[0],
                    high=span[1],
                    origin=line.origin,
                )


def _column(reading: Reading, node: Node, line: _Line, unit: Unit) -> PerSize[Range] | None:
    """The values of a line in one unit, one a size; not one for all of them."""
    bare = _without_unit(reading, node, line, unit)
    assert reading.sizes is not None
    if bare is None:
        return None
    values = reading.by_size(bare, f"{line.name}, {unit}", _range, "unit-length")
    if values is None:
        return None
    if isinstance(node.value, str) and "(" not in node.value and len(reading.sizes) > 1:
        reading.size_list(node, f"{line.name}, {unit}", 1, reading.sizes)
        return None
    if _upside_down(reading, node, line, values):
        return None
    _falling(reading, node, line, values)
    return values


def _without_unit(reading: Reading, node: Node, line: _Line, unit: Unit) -> Node | None:
    """The values without their unit, which the key says; another one among them is a mistake."""
    texts = [words(node)] if isinstance(node.value, str) else [words(one) for one in items(node)]
    said = {word for text in texts for word in _UNIT.findall(text)}
    others = sorted(word for word in said if word in UNITS and _UNITS.get(word) != unit)
    if others:
        reading.problem(
            "chart-unit-mixed",
            reading.source.span(node),
            f"{quote(others[0])} stands in the column `{unit}` of {line.name}.",
            expected="One unit a column: centimetres under `cm`, inches under `in`.",
            mend="Write the values of each unit under its own key; neither is made from the other.",
        )
        return None
    return _blanked(node)  # a word that is no unit is left for the reader of numbers


def _blanked(node: Node) -> Node:
    """The same places without the words of the unit."""
    if isinstance(node.value, str):
        return node._replace(value=_UNIT.sub(_blank, node.value))
    parts = cast("tuple[Node, ...]", node.value)
    return node._replace(value=tuple(map(_blanked, parts)))


def _blank(found: re.Match[str]) -> str:
    return " " * len(found[0]) if found[0] in UNITS else found[0]


def _range(text: str) -> Range:
    """``82``, ``82-90``, ``82 to 90``; a dash alone is no value.

    >>> _range("82 to 90")
    (Fraction(82, 1), Fraction(90, 1))
    """
    bare = text.strip()
    if bare in _DASHES:
        return None
    parts = _TO.split(bare)
    if len(parts) > 2 or not all(parts):  # noqa: PLR2004, from and to
        raise QuantityFault(
            f"{quote(bare)} is no value and no range.",
            end=len(text),
            mend="Write one value, 82, or from and to, 82-90.",
        )
    low, high = quantities.number(parts[0]), quantities.number(parts[-1])
    if low <= 0 or high <= 0:
        raise QuantityFault(
            f"{quote(bare)} is not above zero.", end=len(text), mend="Write what the body measures."
        )
    return low, high


def _upside_down(reading: Reading, node: Node, line: _Line, values: PerSize[Range]) -> bool:
    sizes = [size for size, span in values.items() if span is not None and span[0] > span[1]]
    if sizes:
        reading.tell(
            Problem(
                code="chart-range",
                span=reading.source.span(node),
                found=f"A range of {line.name} stands upside down in {joined(sizes)}.",
                expected="From the lower to the higher: `82-90`.",
                mend="Turn it round, or look which figure is mistyped.",
                sizes=tuple(sizes),
            )
        )
    return bool(sizes)


def _falling(reading: Reading, node: Node, line: _Line, values: PerSize[Range]) -> None:
    there = [(size, span) for size, span in values.items() if span is not None]
    falls = [
        size for (_, low), (size, high) in pairwise(there) if high[0] < low[0] or high[1] < low[1]
    ]
    if falls:
        reading.tell(
            Problem(
                code="size-falls",
                span=reading.source.span(node),
                found=f"{quote(line.name)} falls from one size to the next.",
                expected=f"It is less in {joined(falls)} than in the size before.",
                mend="Check the list; the smallest size stands first.",
                sizes=tuple(falls),
            )
        )


def _differing(reading: Reading, line: _Line, cm: PerSize[Range], inches: PerSize[Range]) -> None:
    """Where the two columns are not one length, by either way of converting."""
    apart = [
        (size, metric, imperial)
        for (size, metric), imperial in zip(cm.items(), inches, strict=True)
        if metric is not None and imperial is not None and _apart(metric, imperial)
    ]
    if apart:
        reading.tell(
            Problem(
                code="chart-units-differ",
                span=reading.span(line.entry),
                found=f"The two columns of {line.name} are not one length in "
                f"{joined(size for size, _, _ in apart)}.",
                expected="\n".join(
                    f"{size}: {_said(metric)} cm stands beside {_said(imperial)} in, "
                    f"which is {_said(tuple(one * _SCHOOLS[1] for one in imperial))} cm."
                    for size, metric, imperial in apart
                ),
                mend="Look which of them is right.",
                sizes=tuple(size for size, _, _ in apart),
            )
        )


def _apart(metric: tuple[Fraction, ...], imperial: tuple[Fraction, ...]) -> bool:
    low, high = _SCHOOLS
    pairs = zip(metric, imperial, strict=True)
    return any(not one * low - _APART <= cm <= one * high + _APART for cm, one in pairs)


def _said(span: tuple[Fraction, ...]) -> str:
    low, high = quantities.print_number(span[0]), quantities.print_number(span[-1])
    return low if low == high else f"{low}-{high}"
