"""The gauges of a page, and what one stitch more does to each size.

Takes     ``ReadyPattern``.
Gives     ``gauges``, ``gauge_note``, ``sensitivity``.
Problems  none.
From      design.md, "Numbers a maker can trust".

Sixteen stitches to 10 cm make 1000 mm of 160 stitches; seventeen make 160 / 17 × 100 mm of them,
941. What is lost is the width, divided by one stitch more than the gauge has in 10 cm: 1000 / 17.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.units import TEN_CM
from workeven.pattern import ComputedCount, CountedOver, FormulaCount, Gauge, ListedCount, Pattern
from workeven.pipeline import ReadyPattern
from workeven.publish.pages import figures
from workeven.publish.pages.both_terms import gauge as gauge_in
from workeven.publish.pages.choices import in_units
from workeven.publish.pages.views import Table

NO_BREAK = "\u00a0"


def gauges(pattern: Pattern) -> tuple[str, ...]:
    """Each gauge in the trade's words."""
    return tuple(_gauge(gauge, named=len(pattern.gauges) > 1) for gauge in pattern.gauges)


def gauge_note(pattern: Pattern) -> str:
    """That lengths are those after blocking, where a gauge before it is given."""
    if all(gauge.before is None for gauge in pattern.gauges):
        return ""
    return (
        "Lengths and widths are those after blocking. Until then a piece measures otherwise: trust "
        "the number of rows or rounds that stands beside a length."
    )


def sensitivity(ready: ReadyPattern) -> Table | None:
    """How much narrower each size is with one stitch more in 10 cm than the gauge has."""
    widths = tuple(_widths(ready))
    if not widths:
        return None
    rows = tuple(
        (size, tuple(_lost(mm[at], gauge, ready.pattern.studio.units) for _, mm, gauge in widths))
        for at, size in enumerate(ready.pattern.sizes.names)
    )
    heads = ("Size", *(figures.heading(name) for name, _, _ in widths))
    caption = (
        f"With one stitch more in {_over(TEN_CM)} than the {gauge_in(ready.pattern.terms)}, "
        "the finished width is narrower by"
    )
    return Table(caption=caption, heads=heads, rows=rows)


# --- a gauge in words ----------------------------------------------------------------------


def _gauge(gauge: Gauge, *, named: bool) -> str:
    """``20 sts and 22 rows of sc = 10 cm / 4 in, with a 3.75 mm hook``."""
    name = f" ({gauge.name.replace('_', ' ')})" if named else ""
    hook = "" if gauge.hook is None else f", with a {printing.decimal(gauge.hook.mm)} mm hook"
    now = CountedOver(
        sts=gauge.sts,
        rows=gauge.rows,
        over=gauge.over,
        rows_over=gauge.rows_over,
        repeats=gauge.repeats,
        rounds=gauge.rounds,
    )
    if gauge.before is None:
        return f"{_counted(now, f' of {gauge.of}{name}')}{hook}"
    before = _counted(gauge.before, "")
    return f"{_counted(now, f' of {gauge.of}{name}')} after blocking ({before} before it){hook}"


def _counted(one: CountedOver, of: str) -> str:
    """Stitches and rows together where they are over one length, else each with its own."""
    sts = f"{printing.print_number(one.sts)} sts"
    if one.repeats is not None:
        many = "repeat" if one.repeats == 1 else "repeats"
        sts = f"{printing.print_number(one.repeats)} {many} ({sts})"
    over = _over(one.over)
    if one.rows is None:
        return f"{sts}{of} = {over}"
    rows = f"{printing.print_number(one.rows)} {'rounds' if one.rounds else 'rows'}"
    if one.rows_over is None or one.rows_over == one.over:
        return f"{sts} and {rows}{of} = {over}"
    return f"{sts}{of} = {over}, {rows} = {_over(one.rows_over)}"


def _over(mm: Fraction) -> str:
    """Both units, the metric one first: 10 cm and 4 in are the same to the trade."""
    metric, imperial = printing.print_over(mm).split(" / ")
    return in_units(metric, imperial, "cm")


# --- one stitch more -----------------------------------------------------------------------


def _widths(ready: ReadyPattern) -> Iterator[tuple[str, PerSize[Fraction], Gauge]]:
    """Finished widths with their gauges: those around the body, else the first there is."""
    across = {name: gauge for name, gauge in _across(ready) if name in ready.proven.finished}
    around = [one.finished for one in ready.proven.ease if one.finished in across]
    for name in dict.fromkeys(around or tuple(across)[:1]):
        yield name, ready.proven.finished[name], across[name]


def _across(ready: ReadyPattern) -> Iterator[tuple[str, Gauge]]:
    """Measurements that stitches are counted over, each with the gauge of the first count."""
    named = {gauge.name: gauge for gauge in ready.pattern.gauges}
    for count in reversed(ready.pattern.counts):
        if isinstance(count, FormulaCount) or count.across is None:
            continue
        assert isinstance(count, ComputedCount | ListedCount)
        gauge = count.gauge or next(iter(named))
        if gauge in named:
            yield count.across, named[gauge]


def _lost(mm: Fraction, gauge: Gauge, units: figures.Units) -> tuple[str, ...]:
    lost = mm / (TEN_CM / gauge.stitch_width() + 1)
    return tuple(one.replace(" ", NO_BREAK) for one in figures.in_order([lost], units))
