"""What a page says of the body: whom each size fits, and the ease that is left.

Takes     ``ReadyPattern``.
Gives     ``to_fit``, ``ease``, ``notes``.
Problems  none.
From      the body charts of ``standards``: both units as the chart has them, neither made from the
          other; a fault, a recalled value and an own value are named.

A finished measurement never stands in these tables: the first is of the body, the second of the
difference, and each says so.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.arithmetic.printing import decimal, print_number
from workeven.arithmetic.units import CM, INCH
from workeven.pattern import Body, ChartLine
from workeven.pipeline import ReadyPattern
from workeven.proof.eases import EaseLeft, ease_words
from workeven.publish.pages import figures
from workeven.publish.pages.choices import by_size, in_unit, only_for
from workeven.publish.pages.views import Table
from workeven.standards import BodyMeasurement, Unit

Cell = tuple[str, ...]

NO_BREAK = "\u00a0"

_ENDS = {"low": "the low end", "middle": "the middle", "high": "the high end"}
_UNITS: dict[Unit, str] = {"cm": "centimetres", "in": "inches"}
_STATUS = {
    "found": "",
    "second-hand": ", read in a transcription",
    "memory": ", recalled and not looked up",
}


def to_fit(ready: ReadyPattern) -> Table | None:
    """Body measurements that each size is meant for, ranges as the chart has them."""
    pattern = ready.pattern
    if not pattern.to_fit:
        return None
    lines = {line.measurement: line for line in pattern.body.lines}
    rows = tuple(
        (
            size,
            tuple(
                _from_chart(lines[name], size, at, pattern.studio.units)
                if name in lines
                else _both(lengths[at], pattern.studio.units)
                for name, lengths in pattern.to_fit
            ),
        )
        for at, size in enumerate(pattern.sizes.names)
    )
    heads = ("Size", *(figures.heading(name) for name, _ in pattern.to_fit))
    return Table(caption="To fit: body measurements", heads=heads, rows=rows)


def ease(ready: ReadyPattern) -> Table | None:
    """What is left around the body in each size."""
    left, units = ready.proven.ease, ready.pattern.studio.units
    if not left:
        return None
    rows = tuple(
        (size, tuple(_ease(one.values[at], units) for one in left))
        for at, size in enumerate(ready.pattern.sizes.names)
    )
    heads = ("Size", *map(_ease_head, left))
    return Table(caption="Ease: finished less body", heads=heads, rows=rows)


def notes(ready: ReadyPattern) -> tuple[str, ...]:
    """Where the measurements of the body come from, and the fit that is claimed."""
    body = ready.pattern.body
    names = ready.pattern.sizes.names
    return (*_chart_notes(body, names), *_fit_notes(ready))


# --- cells ---------------------------------------------------------------------------------


def _from_chart(line: ChartLine, size: str, at: int, units: figures.Units) -> Cell:
    """The chart's own figures in each unit; a unit that the chart lacks is made from the other."""
    for own in line.own:
        if own.size == size:
            return _both(own.mm, units)
    given = [one for one in (line.cm[at], line.inches[at]) if one is not None]
    if len(given) == 1:
        return _one_column(given[0], units)
    cells = [in_unit(_said(one), metric=one.unit == "cm") for one in given]
    return _unbroken(*(cells if units == "cm" else cells[::-1]))


def _one_column(value: BodyMeasurement, units: figures.Units) -> Cell:
    """A value that the chart has in one unit alone, in both."""
    unit = CM if value.unit == "cm" else INCH
    low, high = value.low * unit, value.high * unit
    made = {
        "cm": _ranged(printing.print_cm(low, unit=False), printing.print_cm(high, unit=False)),
        "in": _ranged(printing.print_in(low, unit=False), printing.print_in(high, unit=False)),
    }
    made[value.unit] = _figures(value)
    order: tuple[Unit, Unit] = ("cm", "in") if units == "cm" else ("in", "cm")
    return _unbroken(*(in_unit(f"{made[one]} {one}", metric=one == "cm") for one in order))


def _said(value: BodyMeasurement) -> str:
    return f"{_figures(value)} {value.unit}"


def _figures(value: BodyMeasurement) -> str:
    """``71–76``, ``18½``: inches with printed fractions, centimetres with decimals."""
    if value.unit == "cm":
        return _ranged(decimal(value.low), decimal(value.high))
    return _ranged(print_number(value.low), print_number(value.high))


def _ranged(low: str, high: str) -> str:
    return low if low == high else f"{low}–{high}"


def _both(mm: Fraction, units: figures.Units) -> Cell:
    return _unbroken(*figures.in_order([mm], units))


def _ease(mm: Fraction, units: figures.Units) -> Cell:
    """``14 cm``, the other unit, and whether it is positive or negative ease."""
    if printing.print_cm(abs(mm)) == "0 cm":
        return ("no ease",)
    return (*_both(abs(mm), units), ease_words(mm).rpartition(" cm ")[2])


def _ease_head(left: EaseLeft) -> str:
    """``Bust (bust around)``; ``Bust (twice back width)``."""
    finished = left.finished.replace("_", " ")
    return f"{figures.heading(left.body)} ({'twice ' if left.times > 1 else ''}{finished})"


def _unbroken(*words: str) -> Cell:
    return tuple(one.replace(" ", NO_BREAK) for one in words)


# --- notes ---------------------------------------------------------------------------------


def _chart_notes(body: Body, names: tuple[str, ...]) -> Iterator[str]:
    if body.chart is None:
        return
    yield _origins(body)
    if any(_is_range(value) for line in body.lines for value in _used(line)):
        units = dict.fromkeys(_UNITS[line.unit] for line in body.lines)
        yield (
            f"Where the chart gives a range, the pattern is worked out from {_ENDS[body.end]} of "
            f"it, in every size, in {figures.listed(tuple(units))}."
        )
    for line in body.lines:
        yield from _line_notes(body, line, names)
    if body.chart.note:
        yield body.chart.note


def _origins(body: Body) -> str:
    """The chart, and where its values come from, each citation once."""
    assert body.chart is not None
    told = dict.fromkeys(
        f"{value.origin.citation}{_STATUS[value.origin.status]}"
        for line in body.lines
        for value in _printed(line)
    )
    return f"Body measurements: {body.chart.title} ({'; '.join(told)})."


def _line_notes(body: Body, line: ChartLine, names: tuple[str, ...]) -> Iterator[str]:
    """Own values with their reasons, and the known faults of the chart's, for their sizes."""
    assert body.chart is not None
    mended = {own.size for own in line.own}
    for own in line.own:
        words = f"{figures.heading(line.measurement)} in {own.size} is our own: {own.because}"
        yield only_for(words, [name == own.size for name in names])
    column = line.cm if line.unit == "cm" else line.inches
    told: dict[str, dict[str, str]] = {}
    for (size, value), named in zip(column.items(), body.chart_sizes, strict=True):
        if size not in mended and value is not None:
            for known in body.chart.faults_of(line.measurement, named):
                told.setdefault(known.fault, {})[size] = f"{size} ({_said(value)} is used)"
    for fault, sizes in told.items():
        head = f"{figures.heading(line.measurement)}, a known fault of the chart in"
        each = [f"{head} {sizes[name]}: {fault}." if name in sizes else "" for name in names]
        yield by_size(f"{head} {figures.listed(tuple(sizes.values()))}: {fault}.", each)


def _fit_notes(ready: ReadyPattern) -> Iterator[str]:
    body = ready.pattern.body
    if body.fit is not None:
        yield f"Fit: {figures.trade(tuple(body.fit))}."
    if ready.proven.ease and any(_is_range(one) for line in body.lines for one in _used(line)):
        yield f"Ease is reckoned from {_ENDS[body.end]} of a range."


def _used(line: ChartLine) -> Iterator[BodyMeasurement]:
    column = line.cm if line.unit == "cm" else line.inches
    yield from (one for one in column if one is not None)


def _printed(line: ChartLine) -> Iterator[BodyMeasurement]:
    for column in (line.cm, line.inches):
        yield from (one for one in column if one is not None)


def _is_range(value: BodyMeasurement) -> bool:
    return value.low != value.high
