"""The numbers of a pattern as data beside its page: ``pattern.json`` and ``sizes.csv``.

Takes     ``ReadyPattern``.
Gives     ``pattern_json``, ``sizes_csv``.
Problems  none.
From      the schemas ``pattern-data`` and ``sizes-table``, which say what each holds; RFC 4180 for
          the table.

Lengths are centimetres as decimal strings to 0.001, so that no reader's floats change them; counts
are whole numbers. A list has one entry for each size, in the order of ``sizes``; a size that does
not work a row has null.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.units import INCH, YARD, M
from workeven.pattern import ChartLine, PrintedAmount, PutUp
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenPiece, ProvenRow
from workeven.proof.eases import EaseLeft
from workeven.publish.pages import figures, rows
from workeven.publish.pages.choices import plain
from workeven.publish.pages.worked_into import InSizes, Told
from workeven.publish.written_json import written
from workeven.safety import Caution
from workeven.standards import BodyMeasurement, Unit
from workeven.yarn import ColourNeed, YarnNeed
from workeven.yarn.buying import balls
from workeven.yarn.longer import Lengths, Longer, lengthened

#: A cell that begins so may be taken for a formula by a spreadsheet (OWASP, "CSV Injection").
_FORMULA = re.compile(r"\s*[=+\-@\t\r|%]")
_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?")


def pattern_json(ready: ReadyPattern, into: Told, more: Lengths | None = None) -> bytes:
    """Everything counted and measured, as JSON in UTF-8.

    ``more``: the lengths to which yarn may be added; worked out here where they are not given.
    """
    pattern, proven = ready.pattern, ready.proven
    more = lengthened(proven, ready.yarn.needs) if more is None else more
    record = {
        "title": pattern.title.text,
        "version": pattern.version,
        "licence": pattern.licence or pattern.studio.licence,
        "designers": list(pattern.designers),
        "terms": pattern.terms,
        "sizes": list(pattern.sizes.names),
        "to_fit": {name: _cm(lengths) for name, lengths in pattern.to_fit},
        "finished": {name: _cm(lengths) for name, lengths in proven.finished.items()},
        "ease": [_ease(one) for one in proven.ease],
        "counts": {name: list(one.values) for name, one in proven.graded.counts.items()},
        "pieces": [_piece(piece, into[piece.piece.name]) for piece in proven.pieces],
        "yarn": {need.yarn.name: _yarn(need, more[need.yarn.name]) for need in ready.yarn.needs},
        "amounts_listed": [_listed(one) for one in pattern.amounts],
        "level": {
            "name": ready.level.name,
            "computed": ready.level.computed,
            "reasons": list(ready.level.reasons),
        },
        "cautions": [_caution(one) for one in ready.cautions.cautions],
        "cautions_closing": ready.cautions.closing,
    }
    return written(record, indent=1)


def sizes_csv(ready: ReadyPattern) -> bytes:
    """The sizes as a table: a line for each measurement and unit, a column for each size."""
    written = io.StringIO(newline="")
    table = csv.writer(written)
    table.writerow(["measurement", "kind", "unit", *map(_safe, ready.pattern.sizes.names)])
    named = (
        *(("to fit", name, lengths) for name, lengths in ready.pattern.to_fit),
        *(("finished", name, lengths) for name, lengths in ready.proven.finished.items()),
        *(("ease", f"{one.body} in {one.finished}", one.values) for one in ready.proven.ease),
    )
    for kind, name, lengths in named:
        label = _safe(figures.heading(name))
        table.writerow([label, kind, "cm", *_cm(lengths)])
        table.writerow([label, kind, "in", *_inches(lengths)])
    for line in ready.pattern.body.lines:
        for label, unit, values in _ranges(line):
            table.writerow([_safe(label), "to fit", unit, *values])
    return written.getvalue().encode()


def _ranges(line: ChartLine) -> Iterator[tuple[str, Unit, list[str]]]:
    """Both ends of the ranges of a chart, in each unit that it has for all sizes."""
    columns: tuple[tuple[Unit, PerSize[BodyMeasurement | None]], ...]
    columns = (("cm", line.cm), ("in", line.inches))
    for unit, column in columns:
        there = [value for value in column if value is not None]
        if len(there) < len(column.values) or all(one.low == one.high for one in there):
            continue
        label = figures.heading(line.measurement)
        yield f"{label}, low", unit, [printing.decimal(one.low) for one in there]
        yield f"{label}, high", unit, [printing.decimal(one.high) for one in there]


def _piece(proven: ProvenPiece, into: tuple[InSizes, ...]) -> dict[str, object]:
    return {
        "name": proven.piece.name,
        "title": proven.piece.title,
        "make": list(proven.piece.make),
        "mirrors": proven.piece.mirror,
        "rows": [
            _row(row, told)
            for row, told in zip(
                (row for section in proven.sections for row in section.rows),
                into,
                strict=True,
            )
        ],
    }


def _ease(left: EaseLeft) -> dict[str, object]:
    return {"body": left.body, "finished": left.finished, "cm": _cm(left.values)}


def _row(row: ProvenRow, into: InSizes) -> dict[str, object]:
    return {
        "label": plain(rows.number(row)) or None,
        "name": row.row.label.name if row.row.label else None,
        "first": [counted and counted.first for counted in row.per_size],
        "side": [counted and counted.side for counted in row.per_size],
        "times": [counted and counted.times for counted in row.per_size],
        "sts": [counted and counted.sts for counted in row.per_size],
        "makes": [dict(counted.makes) if counted else None for counted in row.per_size],
        "multiple": _multiple(row.multiple),
        "into": [told and told.as_plain() for told in into],
    }


def _multiple(multiple: tuple[int, int] | None) -> dict[str, int] | None:
    """``{"of": 6, "plus": 1}``; null where a row has no open repeat of several stitches."""
    if multiple is None or multiple[0] <= 1:
        return None
    return {"of": multiple[0], "plus": multiple[1]}


def _yarn(need: YarnNeed, more: tuple[Longer, ...]) -> dict[str, object]:
    each = need.colours or (need,)
    return {
        **_amount(need),
        "margin": printing.decimal(need.margin),
        "put_up": _put_up(need.yarn.put_up),
        "colours": [{"name": one.colour, **_amount(one)} for one in need.colours],
        "also": [
            {
                "label": other.label,
                **_put_up(other.put_up),
                "balls": [
                    sum(balls(one.length[at], other.put_up) for one in each)
                    for at in range(len(need.balls.sizes))
                ],
            }
            for other in need.yarn.also
        ],
        "longer": [_longer(one) for one in more],
    }


def _longer(one: Longer) -> dict[str, object]:
    return {
        "to": one.name or None,
        "pieces": list(one.pieces),
        "section": one.section,
        "rows": one.rows,
        "shaped": one.shaped,
        "mm_for_5_cm": [int(printing.rounded_up(mm)) for mm in one.five_cm],
        "colours": [
            {
                "name": colour.colour,
                "mm_for_5_cm": [int(printing.rounded_up(mm)) for mm in colour.five_cm],
            }
            for colour in one.colours
        ],
    }


def _amount(of: YarnNeed | ColourNeed) -> dict[str, object]:
    """Whole figures, up; the length to a millimetre too, for who counts other balls."""
    return {
        "m": [int(printing.rounded_up(mm / M)) for mm in of.length],
        "yd": [int(printing.rounded_up(mm / YARD)) for mm in of.length],
        "g": [int(printing.rounded_up(grams)) for grams in of.mass],
        "balls": list(of.balls),
        "mm": [int(printing.rounded_up(mm)) for mm in of.length],
    }


def _put_up(one: PutUp) -> dict[str, object]:
    return {
        "ball_m": printing.decimal(one.length / M),
        "ball_g": printing.decimal(one.mass),
    }


def _listed(listed: PrintedAmount) -> dict[str, object]:
    """The designer's own list: balls, m or g by its unit."""
    per = {"balls": ("balls", Fraction(1)), "length": ("m", M), "mass": ("g", Fraction(1))}
    unit, one = per[listed.unit]
    return {
        "yarn": listed.yarn,
        "colour": listed.colour,
        "unit": unit,
        "values": [printing.decimal(value / one) for value in listed.values],
    }


def _caution(caution: Caution) -> dict[str, object]:
    rules = [{"rule": one.said(), "citation": one.origin.citation} for one in caution.rules]
    return {"topic": caution.topic, "words": caution.words, "rules": rules}


def _cm(lengths: PerSize[Fraction]) -> list[str]:
    return [printing.decimal_cm(mm) for mm in lengths]


def _inches(lengths: Iterable[Fraction]) -> list[str]:
    return [printing.decimal(mm / INCH) for mm in lengths]


def _safe(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula: an apostrophe before it makes it text."""
    return f"'{cell}" if _FORMULA.match(cell) and not _NUMBER.fullmatch(cell) else cell
