"""The figures of the body: whom a size fits, what it measures, what is left between."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tests.traced.asked import Asked, heading
from tests.traced.tables import table
from tests.traced.told import INCH, Told, cm, decimal, figures, inches, number, same
from workeven.standards import BodyMeasurement


def body(of: Asked, what: str, column: str, at: int) -> Iterator[Told]:
    """A cell of a table of measurements."""
    if what == "to fit":
        yield _to_fit(of, column, at)
    elif what == "finished":
        found = next(v for k, v in of.ready.proven.finished.items() if heading(k) == column)
        yield _plain(of, found[at])
    elif what == "ease":
        yield _ease(of, column, at)
    else:
        yield _one_more(of, column, at)


def _plain(of: Asked, mm: Fraction) -> Told:
    shown = (cm(mm), inches(mm))
    return same(" ".join(shown if of.units == "cm" else shown[::-1]), of.sizes)


def _to_fit(of: Asked, column: str, at: int) -> Told:
    pattern = of.ready.pattern
    key, mm = next((k, v) for k, v in pattern.to_fit if heading(k) == column)
    line = next((one for one in pattern.body.lines if one.measurement == key), None)
    own = [] if line is None else [one.mm for one in line.own if one.size == of.names[at]]
    if line is None or own:
        return _plain(of, own[0] if own else mm[at])
    said = {"cm": _ranged(line.cm[at], "cm"), "in": _ranged(line.inches[at], "in")}
    given = line.cm[at] or line.inches[at]
    assert given is not None
    for unit, words in said.items():
        if not words:
            ends = [one * (10 if given.unit == "cm" else INCH) for one in (given.low, given.high)]
            printed = list(dict.fromkeys((cm if unit == "cm" else inches)(one) for one in ends))
            said[unit] = " ".join(printed)
    order = ("cm", "in") if of.units == "cm" else ("in", "cm")
    return same(" ".join(said[one] for one in order), of.sizes)


def _ranged(value: BodyMeasurement | None, unit: str) -> str:
    if value is None:
        return ""
    printed = [decimal(one, 3) if unit == "cm" else number(one) for one in (value.low, value.high)]
    return " ".join(dict.fromkeys(printed))


def _ease(of: Asked, column: str, at: int) -> Told:
    """What is finished, as often as it goes around, less the body."""
    for one in of.ready.proven.ease:
        twice = "twice " if one.times > 1 else ""
        if column == f"{heading(one.body)} ({twice}{one.finished.replace('_', ' ')})":
            whole = of.ready.proven.finished[one.finished][at] * one.times
            left = abs(whole - dict(of.ready.pattern.to_fit)[one.body][at])
            return same("", of.sizes) if cm(left) == "0" else _plain(of, left)
    raise AssertionError(f"no ease is called {column}")


def _one_more(of: Asked, column: str, at: int) -> Told:
    """The same stitches at one more in 10 cm, against what they measure."""
    key, mm = next((k, v) for k, v in of.ready.proven.finished.items() if heading(k) == column)
    graded = of.ready.proven.graded
    count = next(
        one.count for one in graded.counts.values() if getattr(one.count, "across", None) == key
    )
    named = {one.name: one for one in of.ready.pattern.gauges}
    gauge = named[getattr(count, "gauge", None) or next(iter(named))]
    in_10 = 100 / (gauge.over / gauge.sts)
    return _plain(of, mm[at] - mm[at] * in_10 / (in_10 + 1))


def own(of: Asked, words: str, size: str) -> str:
    """Why a value is the designer's own."""
    return next(
        one.because
        for line in of.ready.pattern.body.lines
        for one in line.own
        if one.size == size and heading(line.measurement) == words
    )


def faults(of: Asked, words: str) -> Told:
    """The known faults of a measurement in the chart, with the value that is used."""
    body = of.ready.pattern.body
    line = next(one for one in body.lines if heading(one.measurement) == words)
    column = line.cm if line.unit == "cm" else line.inches
    rows = [
        one
        for one in table("faults.csv")
        if line.measurement.replace(" ", "_") in one["measurements"].split("; ")
    ]
    own = {one.size for one in line.own}
    shown, each = "", [""] * of.sizes
    for row in rows:
        for at, (name, value) in enumerate(column.items()):
            if body.chart_sizes[at] in row["sizes"].split("; ") and name not in own:
                used = f"{name} {_ranged(value, line.unit)}"
                shown, each[at] = f"{shown} {used}", f"{used} {row['fault']}"
        shown = f"{shown} {row['fault']}" if shown and any(each) else ""
    return Told(figures(shown), tuple(map(figures, each)))


def chart(of: Asked) -> str:
    """The title of the chart, and each citation of a value once."""
    chart = of.ready.pattern.body.chart
    assert chart is not None
    citations = dict.fromkeys(
        value.origin.citation
        for line in of.ready.pattern.body.lines
        for column in (line.cm, line.inches)
        for value in column
        if value is not None
    )
    return " ".join([chart.title, *citations])


def chart_note(of: Asked, text: str) -> str:
    """What the chart says of itself."""
    chart = of.ready.pattern.body.chart
    assert chart is not None
    assert text == chart.note
    return text
