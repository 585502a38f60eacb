"""How every count was chosen, as a table that a pocket calculator can check.

Takes     ``GradedPattern``.
Gives     ``as_text``, ``as_json``, ``as_csv``.
Problems  none.
From      the guide, "On the command line".

Each cell follows from what stands beside it: the formula with its numbers put in gives the wanted
length, that over what one stitch measures the exact stitches, the chosen ones times it what they
measure. Lengths are decimal, to 0.001; the exact stitches are a fraction beside the decimal.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from workeven.arithmetic.printing import decimal, decimal_cm
from workeven.arithmetic.units import CM, INCH
from workeven.grading import GradedCount, GradedPattern
from workeven.pattern import ComputedCount, FormulaCount, Gauge
from workeven.pattern.bodies import ease_name
from workeven.problems.words import shown

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
    "rule",
)


@dataclass(frozen=True, slots=True, kw_only=True)
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
        "st_width": decimal_cm(gauge.stitch_width()) if gauge.sts else None,
        "row_height": None if height is None else decimal_cm(height),
    }


def _facts(cell: Cell) -> dict[str, str | int | None]:
    return {
        "formula": cell.formula or None,
        "worked_out": cell.worked_out or None,
        "wanted": _cm(cell.wanted),
        "exact": None if cell.exact is None else decimal(cell.exact, 2),
        "exact_fraction": None
        if cell.exact is None
        else f"{cell.exact.numerator}/{cell.exact.denominator}",
        "chosen": cell.chosen,
        "measures": _cm(cell.measures),
        "difference": _cm(_difference(cell)),
        "tolerance": _cm(cell.tolerance),
        "lower": cell.lower,
        "higher": cell.higher,
    }


def _difference(cell: Cell) -> Fraction | None:
    if cell.measures is None or cell.wanted is None:
        return None
    return cell.measures - cell.wanted


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
                "gauge": "" if count.gauge is None else _over(count.gauge),
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
    for name, count in graded.counts.items():
        lines += ["", *_count_lines(graded, name, count, inches=inches)]
    return "\n".join(lines)


def _gauge_line(gauge: Gauge, *, inches: bool) -> str:
    if not gauge.sts:
        return f"Gauge {gauge.name}: holds a zero"
    height = gauge.row_height() if gauge.rows else None
    row = "" if height is None else f", 1 row {_length(height, inches=inches)}"
    return (
        f"Gauge {gauge.name}: {_over(gauge)}; 1 st is "
        f"{_length(gauge.stitch_width(), inches=inches)}{row}"
    )


def _over(gauge: Gauge) -> str:
    rows = "" if gauge.rows is None else f" and {decimal(gauge.rows)} rows"
    return f"{decimal(gauge.sts)} sts{rows} over {decimal_cm(gauge.over)} cm"


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
        chosen = f"{matched} = {cell.chosen}" if matched else str(cell.chosen)
        table.append(["", cell.size, *_texts(cell, chosen, inches=inches)])
    yield from _aligned(table)


def _texts(cell: Cell, chosen: str, *, inches: bool) -> list[str]:
    wanted = _length(cell.wanted, inches=inches)
    worked_out = f"{cell.worked_out} = " if cell.worked_out not in ("", wanted) else ""
    exact = "" if cell.exact is None else decimal(cell.exact, 2)
    beside = ["-" if one is None else str(one) for one in (cell.lower, cell.higher)]
    return [
        f"{worked_out}{wanted}",
        exact,
        chosen,
        _length(cell.measures, inches=inches),
        _length(_difference(cell), inches=inches),
        _length(cell.tolerance, inches=inches),
        *beside,
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
