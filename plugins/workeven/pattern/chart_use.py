"""What a pattern takes from a body chart: sizes, measurements, its own values instead.

Takes     the table ``sizes``, the charts of the studio and the published ones.
Gives     ``Taken``, ``taken``: lengths by size as ``to_fit`` has them, and ``Body``.
Problems  ``chart-unknown``, ``chart-no-value``, ``chart-fault``, ``name-unknown``, ``name-twice``,
          ``size-unknown``, those of ``chart_sizes``, ``eases`` and ``reading``.
From      the body charts of ``standards``.

The measurements are those that the pattern asks for under ``from_chart`` (where it asks for none,
the first of the chart), and every one that its formulas use. A value that is known to be faulty is
taken as published, and said: which it is, and what the other unit has.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import cast

from workeven import standards
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import decimal, print_number
from workeven.arithmetic.units import CM, INCH
from workeven.pattern import eases
from workeven.pattern.bodies import Body, ChartLine, OwnValue, RangeEnd
from workeven.pattern.chart_sizes import chart_called, chart_sizes
from workeven.pattern.reading import Reading, entries
from workeven.pattern.records import Measurement, Studio
from workeven.problems import Problem
from workeven.problems.words import did_you_mean, joined, quote
from workeven.records import record
from workeven.source import Node
from workeven.standards import BodyChart, BodyMeasurement, Unit

ToFit = tuple[tuple[str, PerSize[Fraction]], ...]

_MM: dict[Unit, Fraction] = {"cm": CM, "in": INCH}
_OTHER: dict[Unit, Unit] = {"cm": "in", "in": "cm"}


@record
class Taken:
    """The measurements of the body, listed ones first, and what else is said of it."""

    to_fit: ToFit
    body: Body


def taken(
    reading: Reading, studio: Studio, own: ToFit, measurements: Iterable[Measurement]
) -> Taken | None:
    """The body of a pattern; None where a part of it could not be read."""
    table = reading.node(reading.root, "sizes")
    if table is None:
        return Taken(to_fit=own, body=Body())
    chart_node = reading.node(table, "chart")
    formulas = tuple(measurements)
    if chart_node is None:
        if _without_chart(reading, table):
            return None
        return _with_eases(reading, table, studio, own, Body())
    chart = chart_called(reading, chart_node, studio)
    names = None if chart is None else chart_sizes(reading, table, chart)
    if chart is None or names is None or reading.sizes is None:
        return None
    use = _Use(reading=reading, table=table, chart=chart, names=names, studio=studio)
    lines = _lines(use, dict(own), formulas)
    if lines is None:
        return None
    body = Body(chart=chart, chart_sizes=names, end=use.end(), lines=lines)
    from_chart = ((line.measurement, _lengths(use, line)) for line in lines)
    return _with_eases(reading, table, studio, (*own, *from_chart), body)


def _with_eases(
    reading: Reading, table: Node, studio: Studio, to_fit: ToFit, body: Body
) -> Taken | None:
    whole = eases.read(reading, table, tuple(name for name, _ in to_fit), body, studio.units)
    return None if whole is None else Taken(to_fit=to_fit, body=whole)


@record
class _Use:
    """One chart in use: ``names`` are its names for the sizes of the pattern."""

    reading: Reading
    table: Node
    chart: BodyChart
    names: tuple[str, ...]
    studio: Studio

    def end(self) -> RangeEnd:
        return cast("RangeEnd", self.reading.text(self.table, "of_range") or "middle")

    def sizes(self) -> tuple[str, ...]:
        """The names of the pattern's own sizes."""
        return self.reading.sizes.names if self.reading.sizes is not None else ()

    def values(self, measurement: str, unit: Unit) -> PerSize[BodyMeasurement | None]:
        assert self.reading.sizes is not None  # else no chart is taken from
        found = tuple(self.chart.value(measurement, name, unit) for name in self.names)
        return self.reading.sizes.each(found)


def _without_chart(reading: Reading, table: Node) -> bool:
    """Whether keys say how a chart is used, and there is none; that is told."""
    keys = ("from_chart", "chart_sizes", "of_range", "instead")
    for key in keys:
        entry = entries(table).get(key)
        if entry is not None:
            reading.problem(
                "chart-unknown",
                reading.span(entry),
                f"{quote(key)} is said of a chart, and the pattern names none.",
                expected=f"A chart, such as {joined(map(quote, standards.CHARTS), 'or')}.",
                mend="Name it: `chart: women`, beside `names`.",
            )
            return True
    return False


# --- measurements --------------------------------------------------------------------------


def _lines(
    use: _Use, own: dict[str, PerSize[Fraction]], measurements: tuple[Measurement, ...]
) -> tuple[ChartLine, ...] | None:
    """Every measurement taken; None where one of them lacks a value."""
    instead = _instead(use)
    wanted = _wanted(use, own, measurements, instead or ())
    if instead is None or wanted is None:
        return None
    lines = [_line(use, name, instead) for name in wanted]
    whole = [line for line in lines if line is not None]
    for line in whole:
        _faults(use, line)
    return tuple(whole) if len(whole) == len(lines) else None


def _wanted(
    use: _Use,
    own: dict[str, PerSize[Fraction]],
    measurements: tuple[Measurement, ...],
    instead: tuple[OwnValue, ...],
) -> list[str] | None:
    """The measurements to take, in the chart's order: asked for, and used by formulas."""
    known = use.chart.measurements()
    node = use.reading.node(use.table, "from_chart")
    asked = {known[0]} if node is None else _asked(use, node, own)
    if asked is None:
        return None
    used = {name for one in measurements for formula in one.formula for name in formula.names}
    used |= {key.replace(" ", "_") for key in entries(use.reading.node(use.table, "ease"))}
    used |= {one.measurement.replace(" ", "_") for one in instead}
    given = {name.replace(" ", "_") for name in own} | {one.name for one in measurements}
    if node is not None:
        given -= {name.replace(" ", "_") for name in asked}
    return [
        name
        for name in known
        if (name in asked or name.replace(" ", "_") in used) and name.replace(" ", "_") not in given
    ]


def _asked(use: _Use, node: Node, own: Iterable[str]) -> set[str] | None:
    """The measurements under ``from_chart``; None where one is not there, or listed too."""
    texts = use.reading.texts(node)
    names = [name for one in texts for name in map(str.strip, one.text.split(",")) if name]
    called = {_spoken(name): name for name in use.chart.measurements()}
    listed = set(map(_spoken, own))
    good = True
    for name in names:
        if _spoken(name) not in called:
            good = False
            where = f"The chart {quote(use.chart.name)} has"
            what = "measurement in the chart"
            use.reading.unknown(node, what, called.values(), where, name=name)
        elif _spoken(name) in listed:
            good = False
            use.reading.problem(
                "name-twice",
                use.reading.source.span(node),
                f"{quote(name)} is listed under `to_fit`, and taken from the chart too.",
                mend="Take it out of one of them.",
            )
    return {called[_spoken(name)] for name in names} if good else None


def _spoken(name: str) -> str:
    return " ".join(name.replace("_", " ").lower().split())


def _instead(use: _Use) -> tuple[OwnValue, ...] | None:
    """The pattern's own values instead of the chart's."""
    node = use.reading.node(use.table, "instead")
    found: list[OwnValue] = []
    good = True
    called = {_spoken(name): name for name in use.chart.measurements()}
    for name, entry in entries(node).items():
        if _spoken(name) not in called:
            good = False
            use.reading.unknown(
                entry.key,
                "measurement in the chart",
                called.values(),
                f"The chart {quote(use.chart.name)} has",
            )
            continue
        read = list(_own_values(use, called[_spoken(name)], entry.value))
        found += (one for one in read if one is not None)
        good = good and None not in read
    return tuple(found) if good else None


def _own_values(use: _Use, name: str, table: Node) -> Iterator[OwnValue | None]:
    for size, entry in entries(table).items():
        if size not in use.sizes():
            use.reading.problem(
                "size-unknown",
                use.reading.source.span(entry.key),
                f"There is no size called {quote(size)}.",
                expected=f"Sizes: {joined(map(quote, use.sizes()))}.",
                mend=did_you_mean(size, use.sizes()) or "Write one of the sizes.",
            )
            yield None
            continue
        mm = use.reading.length(use.reading.node(entry.value, "is"))
        because = use.reading.text(entry.value, "because")
        yield (
            None
            if mm is None or because is None
            else OwnValue(
                measurement=name,
                size=size,
                mm=mm,
                because=because,
                span=use.reading.span(entry),
            )
        )


def _line(use: _Use, name: str, instead: tuple[OwnValue, ...]) -> ChartLine | None:
    """A measurement in the column of the studio's unit, else in the other; never in both."""
    own = tuple(one for one in instead if one.measurement == name)
    mended = {one.size for one in own}
    gaps: dict[Unit, list[str]] = {}
    order: tuple[Unit, Unit] = (use.studio.units, _OTHER[use.studio.units])
    for unit in order:
        values = use.values(name, unit)
        gaps[unit] = [size for size, one in values.items() if one is None and size not in mended]
        if not gaps[unit]:
            node = use.reading.node(use.table, "chart")
            assert node is not None
            return ChartLine(
                measurement=name,
                unit=unit,
                cm=use.values(name, "cm"),
                inches=use.values(name, "in"),
                own=own,
                span=use.reading.source.span(node),
            )
    _no_value(use, name, min(gaps.values(), key=len))
    return None


def _no_value(use: _Use, name: str, sizes: list[str]) -> None:
    node = use.reading.node(use.table, "chart")
    assert node is not None
    good = tuple(size for size in use.sizes() if size not in sizes)
    use.reading.tell(
        Problem(
            code="chart-no-value",
            span=use.reading.source.span(node),
            found=f"The chart {quote(use.chart.name)} has no {name} for {joined(sizes)}.",
            expected="A value in one unit for every size of the pattern; inches and centimetres "
            "are not mixed.",
            mend=f"Give your own under `instead`, each with a reason: "
            f"`{name}: {{{sizes[0]}: {{is: 90 cm, because: our own fitting}}}}`.",
            sizes=tuple(sizes),
            good_sizes=good,
        )
    )


def _lengths(use: _Use, line: ChartLine) -> PerSize[Fraction]:
    """The measurement in mm: the chosen end of each range, or the pattern's own value."""
    own = {one.size: one.mm for one in line.own}
    column = line.cm if line.unit == "cm" else line.inches
    assert use.reading.sizes is not None
    return use.reading.sizes.each(
        tuple(
            own[size] if size in own else _at(one, use.end()) * _MM[line.unit]
            for size, one in column.items()
            if size in own or one is not None
        )
    )


def _at(value: BodyMeasurement | None, end: RangeEnd) -> Fraction:
    assert value is not None  # asked only where there is one
    if end == "middle":
        return (value.low + value.high) / 2
    return value.low if end == "low" else value.high


# --- faults --------------------------------------------------------------------------------


def _faults(use: _Use, line: ChartLine) -> None:
    """Advice for each known fault in the values taken, and what the other unit says."""
    own = {one.size for one in line.own}
    told: dict[str, list[int]] = {}
    for at, size in enumerate(use.sizes()):
        if size not in own:
            for known in use.chart.faults_of(line.measurement, use.names[at]):
                told.setdefault(known.fault, []).append(at)
    for fault, places in told.items():
        sizes = [use.sizes()[at] for at in places]
        column = line.cm if line.unit == "cm" else line.inches
        other = line.inches if line.unit == "cm" else line.cm
        says = [
            f"{use.sizes()[at]}: {said(column[at])} is taken"
            + (f"; the other unit says {said(other[at])}." if other[at] else ".")
            for at in places
        ]
        use.reading.tell(
            Problem(
                code="chart-fault",
                span=line.span,
                found=f"The {line.measurement} of the chart {quote(use.chart.name)} has a known "
                f"fault in {joined(sizes)}: {fault}.",
                expected="\n".join(says),
                mend="Measure, and give yours under `instead`, with a reason; or `allow` it.",
                sizes=tuple(sizes),
            )
        )


def said(value: BodyMeasurement | None) -> str:
    """A value as the chart has it: ``71 to 76 cm``, ``18½ in``."""
    if value is None:
        return "nothing"
    figure = print_number if value.unit == "in" else decimal
    low, high = figure(value.low), figure(value.high)
    return f"{low} {value.unit}" if low == high else f"{low} to {high} {value.unit}"
