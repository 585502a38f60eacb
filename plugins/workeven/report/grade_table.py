"""How every count was chosen, as a table that a pocket calculator can check.

Takes     ``GradedPattern``.
Gives     ``as_text``, ``as_json``, ``as_csv``.
Problems  none.
From      the guide, "On the command line".

Each cell follows from what stands beside it: the formula with its numbers put in gives the wanted
length, that over what one stitch measures the exact stitches, the chosen ones times it what they
measure. What does not follow so is said below the table. Lengths are decimal, to 0.001; the exact
stitches are a fraction beside the decimal.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import decimal, decimal_cm
from workeven.arithmetic.units import CM, INCH
from workeven.grading import GradedCount, GradedPattern
from workeven.pattern import ComputedCount, FormulaCount, Gauge, Measurement
from workeven.pattern.bodies import Body, ease_name
from workeven.problems.words import joined, shown
from workeven.proof.eases import eases_left, held_widths
from workeven.records import record

_FIELDS = (
    "count",
    "size",
    "what",
    "measurement",
    "gauge",
    "formula",
    "worked_out",
    "wanted",
    "exact",
    "exact_fraction",
    "chosen",
    "measures",
    "difference",
    "tolerance",
    "lower",
    "higher",
    "alone",
    "rule",
)


@record
class Cell:
    """One count in one size; lengths in mm, None for a count that is counted over no length.

    ``formula`` is that of the wanted length, or of the count itself where it is made from others;
    ``worked_out`` is the same with numbers in place of names.
    """

    size: str
    formula: str
    worked_out: str
    wanted: Fraction | None
    exact: Fraction | None
    chosen: int
    measures: Fraction | None
    tolerance: Fraction | None
    lower: int | None
    higher: int | None
    alone: int | None

    @property
    def difference(self) -> Fraction | None:
        """What it measures more than is wanted."""
        if self.measures is None or self.wanted is None:
            return None
        return self.measures - self.wanted

    @property
    def beyond(self) -> bool:
        """Whether it measures more or less than the tolerance allows."""
        off = self.difference
        return off is not None and self.tolerance is not None and abs(off) > self.tolerance


def cells(graded: GradedPattern, count: GradedCount, *, inches: bool = False) -> tuple[Cell, ...]:
    """A count in every size."""
    found = []
    for index, size in enumerate(graded.pattern.sizes.names):
        formula, worked_out = _made_from(graded, count, index, inches=inches)
        found.append(
            Cell(
                size=size,
                formula=formula,
                worked_out=worked_out,
                wanted=None if count.wanted is None else count.wanted[index],
                exact=None if count.exact is None else count.exact[index],
                chosen=count.values[index],
                measures=None if count.measures is None else count.measures[index],
                tolerance=None if count.tolerance is None else count.tolerance[index],
                lower=None if count.lower is None else count.lower[index],
                higher=None if count.higher is None else count.higher[index],
                alone=None if count.alone is None else count.alone[index],
            )
        )
    return tuple(found)


def _made_from(
    graded: GradedPattern, count: GradedCount, index: int, *, inches: bool
) -> tuple[str, str]:
    if isinstance(count.count, FormulaCount):
        numbers = {name: str(one.values[index]) for name, one in graded.counts.items()}
        return count.count.formula.text, count.count.formula.put_in(numbers)
    measured = {one.name: one for one in graded.pattern.measurements}
    if count.measurement is None or count.measurement not in measured:
        return count.measurement or "", ""
    formula = measured[count.measurement].formula[index]
    lengths = {
        name.replace(" ", "_"): _length(values[index], inches=inches)
        for name, values in graded.measurements.items()
    }
    eases = {
        ease_name(one.body): _length(one.values[index], inches=inches)
        for one in graded.pattern.body.ease
    }
    return formula.text, formula.put_in({**lengths, **eases})


def _matched(graded: GradedPattern, count: GradedCount, index: int) -> str:
    """What a count matches, with numbers put in: "2 * 30"."""
    one = count.count
    if not isinstance(one, ComputedCount) or one.match is None:
        return ""
    return one.match.put_in({name: str(got.values[index]) for name, got in graded.counts.items()})


# --- for programs --------------------------------------------------------------------------


def as_json(graded: GradedPattern) -> str:
    """Gauges, lengths and counts by name; lengths as decimal cm, fractions as ``"37/2"``."""
    pattern = graded.pattern
    sizes = pattern.sizes.names
    written = {
        "pattern": pattern.title.text,
        "sizes": list(sizes),
        "gauges": {one.name: _gauge_facts(one) for one in pattern.gauges},
        "ease": {
            one.body: {
                "of": one.finished,
                "times": one.times,
                "sizes": dict(zip(sizes, map(decimal_cm, one.values), strict=True)),
            }
            for one in eases_left(graded, held_widths(graded))
        },
        "measurements": {
            name: dict(zip(sizes, map(decimal_cm, values), strict=True))
            for name, values in graded.measurements.items()
        },
        "counts": {
            name: {
                "what": count.word,
                "measurement": count.measurement,
                "gauge": None if count.gauge is None else count.gauge.name,
                "rule": count.rule,
                "sizes": {
                    cell.size: {**_facts(cell), "match": _matched(graded, count, at) or None}
                    for at, cell in enumerate(cells(graded, count))
                },
            }
            for name, count in graded.counts.items()
        },
    }
    return json.dumps(written, ensure_ascii=False, indent=2)


def _gauge_facts(gauge: Gauge) -> dict[str, str | None]:
    height = gauge.row_height() if gauge.rows else None
    return {
        "sts": decimal(gauge.sts),
        "rows": None if gauge.rows is None else decimal(gauge.rows),
        "over": decimal_cm(gauge.over),
        "rows_over": None if gauge.rows is None else decimal_cm(gauge.rows_over or gauge.over),
        "st_width": decimal_cm(gauge.stitch_width()) if gauge.sts else None,
        "row_height": None if height is None else decimal_cm(height),
    }


def _facts(cell: Cell) -> dict[str, str | int | None]:
    return {
        "formula": cell.formula or None,
        "worked_out": cell.worked_out or None,
        "wanted": _cm(cell.wanted),
        "exact": None if cell.exact is None else _exact(cell.exact),
        "exact_fraction": None
        if cell.exact is None
        else f"{cell.exact.numerator}/{cell.exact.denominator}",
        "chosen": cell.chosen,
        "measures": _cm(cell.measures),
        "difference": _cm(cell.difference),
        "tolerance": _cm(cell.tolerance),
        "lower": cell.lower,
        "higher": cell.higher,
        "alone": cell.alone,
    }


def _exact(value: Fraction) -> str:
    """To two decimals, or as many as show on which side of a half it lies.

    >>> _exact(Fraction(200, 3)), _exact(Fraction(13499, 500)), _exact(Fraction(45, 2))
    ('66.67', '26.998', '22.5')
    """
    for digits in range(2, 7):
        text = decimal(value, digits)
        if Fraction(text) == value or (2 * Fraction(text)).denominator != 1:
            return text
    return f"{value.numerator}/{value.denominator}"


def _cm(mm: Fraction | None) -> str | None:
    return None if mm is None else decimal_cm(mm)


def as_csv(graded: GradedPattern) -> str:
    """A row for each count and size, with a heading; lengths in cm."""
    written = io.StringIO(newline="")
    table = csv.DictWriter(written, _FIELDS, lineterminator="\n")
    table.writeheader()
    for name, count in graded.counts.items():
        for cell in cells(graded, count):
            facts = {key: "" if value is None else value for key, value in _facts(cell).items()}
            said = {
                "count": name,
                "size": cell.size,
                "what": count.word or "",
                "measurement": count.measurement or "",
                "gauge": "" if count.gauge is None else _over(count.gauge, inches=False),
                "rule": count.rule,
            }
            texts = {key: _safe(text) for key, text in said.items()}
            formulas = {key: _safe(str(facts[key])) for key in ("formula", "worked_out")}
            table.writerow({**facts, **formulas, **texts})
    return written.getvalue().rstrip("\n")


def _safe(text: str) -> str:
    """Words that a spreadsheet does not run."""
    return f"'{text}" if text[:1] in tuple("=+-@\t") else text


# --- for the designer ----------------------------------------------------------------------


def as_text(graded: GradedPattern) -> str:
    """Gauges, then a table a count."""
    pattern = graded.pattern
    inches = pattern.studio.units == "in"
    lines = [f"{shown(pattern.title.text)}: how every count was chosen"]
    lines += [_gauge_line(one, inches=inches) for one in pattern.gauges]
    lines += _chart_lines(pattern.body)
    lines += _ease_lines(graded, inches=inches)
    for name, count in graded.counts.items():
        lines += ["", *_count_lines(graded, name, count, inches=inches)]
    lines += _uncounted(graded, inches=inches)
    return "\n".join(lines)


def _gauge_line(gauge: Gauge, *, inches: bool) -> str:
    """A gauge with what one stitch and one row measure, as a division."""
    if not gauge.sts:
        return f"Gauge {gauge.name}: holds a zero"
    units = [f"1 st is {_divided(gauge.over, gauge.sts, inches=inches)}"]
    if gauge.rows:
        height = _divided(gauge.rows_over or gauge.over, gauge.rows, inches=inches)
        units.append(f"1 row {height}")
    return f"Gauge {gauge.name}: {_over(gauge, inches=inches)}; {', '.join(units)}"


def _divided(over: Fraction, number: Fraction, *, inches: bool) -> str:
    """``10/16 = 0.625 cm``: the quotient is the figure to reckon with, the decimal is rounded."""
    length = over / (INCH if inches else CM)
    return f"{decimal(length)}/{decimal(number)} = {_length(over / number, inches=inches)}"


def _over(gauge: Gauge, *, inches: bool) -> str:
    over = _length(gauge.over, inches=inches)
    if gauge.rows is None:
        return f"{decimal(gauge.sts)} sts over {over}"
    if gauge.rows_over in (None, gauge.over):
        return f"{decimal(gauge.sts)} sts and {decimal(gauge.rows)} rows over {over}"
    rows_over = _length(gauge.rows_over, inches=inches)
    return f"{decimal(gauge.sts)} sts over {over} and {decimal(gauge.rows)} rows over {rows_over}"


def _chart_lines(body: Body) -> Iterator[str]:
    """Where measurements of the body come from."""
    if body.chart is None:
        return
    names = joined([line.measurement for line in body.lines])
    units = joined(list(dict.fromkeys(line.unit for line in body.lines)))
    end = body.end if body.end == "middle" else f"{body.end} end"
    yield (
        f"Body chart {body.chart.name}: {names}, from the {end} of each range in {units}; "
        f"sizes {joined(list(body.chart_sizes))}"
    )


def _ease_lines(graded: GradedPattern, *, inches: bool) -> Iterator[str]:
    """The ease that is left where counts decide it, beside what is wanted."""
    wanted = {ease.body: ease.values for ease in graded.pattern.body.ease}
    for left in eases_left(graded, held_widths(graded)):
        around = "" if left.times == 1 else f", {left.times} times around"
        each = ", ".join(
            f"{size} {_signed(mm, inches=inches)}".strip()
            for size, mm in zip(left.values.sizes.names, left.values, strict=True)
        )
        asked = wanted.get(left.body)
        meant = "" if asked is None else f" (wanted: {_each_length(asked, inches=inches)})"
        yield f"Ease left at {left.body}, by {left.finished}{around}: {each}{meant}"


def _each_length(lengths: PerSize[Fraction], *, inches: bool) -> str:
    """A length in every size; one where all are the same."""
    told = [_length(mm, inches=inches) for mm in lengths]
    return told[0] if len(set(told)) == 1 else ", ".join(told)


def _signed(mm: Fraction | None, *, inches: bool) -> str:
    said = _length(mm, inches=inches)
    more = mm is not None and mm > 0 and said != _length(Fraction(0), inches=inches)
    return f"+{said}" if more else said


def _count_lines(
    graded: GradedPattern, name: str, count: GradedCount, *, inches: bool
) -> Iterator[str]:
    rows = cells(graded, count, inches=inches)
    if count.measurement is None:
        made = isinstance(count.count, FormulaCount)
        yield f"{name} = {count.rule}" if made else f"{name}: {count.rule}"
        yield from _aligned(
            [
                ["", cell.size, f"{cell.worked_out} = {cell.chosen}" if made else str(cell.chosen)]
                for cell in rows
            ]
        )
        return
    gauge = "" if count.gauge is None else f", gauge {count.gauge.name}"
    yield f"{name}: {count.word} for {count.measurement}{gauge}; {count.rule}"
    several = {cell.formula for cell in rows}
    if len(several) == 1 and rows[0].worked_out != rows[0].formula:
        yield f"  {count.measurement} = {rows[0].formula}"
    heading = ["", "size", "wanted", "exact", "chosen", "measures", "difference"]
    table = [[*heading, "tolerance", "next lower", "next higher"]]
    for at, cell in enumerate(rows):
        matched = _matched(graded, count, at)
        chosen = f"{matched} = {cell.chosen}" if matched != str(cell.chosen) else matched
        table.append(["", cell.size, *_texts(cell, chosen if matched else "", inches=inches)])
    yield from _aligned(table)
    yield from _remarks(rows)


def _remarks(rows: tuple[Cell, ...]) -> Iterator[str]:
    """What the figures alone do not show: halves, sizes that were moved, what is too far off."""
    for cell in rows:
        size = f"{cell.size}: " if cell.size else ""
        if cell.alone not in (None, cell.chosen):
            yield f"  {size}{cell.alone} by itself; {cell.chosen} obeys the whole rule."
        elif cell.exact is not None and _halfway(cell):
            yield f"  {size}{_exact(cell.exact)} is halfway; halfway goes up."
        if cell.beyond:
            yield f"  {size}beyond the tolerance."


def _halfway(cell: Cell) -> bool:
    """Whether the exact count lies in the middle between the chosen and the next lower one."""
    if cell.lower is None or cell.exact is None:
        return False
    return 2 * cell.exact == cell.chosen + cell.lower


def _uncounted(graded: GradedPattern, *, inches: bool) -> Iterator[str]:
    """Lengths that no count is chosen for: rows are worked until they are reached."""
    counted = {count.measurement for count in graded.counts.values()}
    named = {name for one in graded.pattern.measurements for name in _names_in(one)}
    for one in graded.pattern.measurements:
        if one.name in counted | named or one.name not in graded.measurements:
            continue
        values = graded.measurements[one.name]
        lengths = [_length(mm, inches=inches) for mm in values]
        yield ""
        yield f"{one.name}: a length without a count"
        yield from _aligned(
            [["", size, text] for size, text in zip(values.sizes.names, lengths, strict=True)]
        )


def _names_in(measurement: Measurement) -> frozenset[str]:
    return frozenset().union(*(formula.names for formula in measurement.formula))


def _texts(cell: Cell, chosen: str, *, inches: bool) -> list[str]:
    wanted = _length(cell.wanted, inches=inches)
    worked_out = f"{cell.worked_out} = " if cell.worked_out not in ("", wanted) else ""
    exact = "" if cell.exact is None else _exact(cell.exact)
    others = ["-" if one is None else str(one) for one in (cell.lower, cell.higher)]
    off = cell.difference
    return [
        f"{worked_out}{wanted}",
        exact,
        chosen or str(cell.chosen),
        _length(cell.measures, inches=inches),
        _signed(off, inches=inches),
        _length(cell.tolerance, inches=inches),
        *others,
    ]


def _length(mm: Fraction | None, *, inches: bool) -> str:
    if mm is None:
        return "-"
    return f"{decimal(mm / INCH)} in" if inches else f"{decimal(mm / CM)} cm"


def _aligned(table: list[list[str]]) -> Iterator[str]:
    """Sizes to the left, figures to the right."""
    cleaned = [[shown(cell) for cell in line] for line in table]
    widths = [max(map(len, column)) for column in zip(*cleaned, strict=True)]
    for line in cleaned:
        first, size, *others = line
        figures = [one.rjust(width) for one, width in zip(others, widths[2:], strict=True)]
        yield "  ".join([first, size.ljust(widths[1]), *figures]).rstrip()
