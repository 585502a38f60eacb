"""How many stitches or rows an edge has in every size, and how long it is.

Takes     the proven pieces of a pattern, its counts and gauges.
Gives     ``EdgeLengths``, which gives ``Measured`` or a ``seam-unmeasured``.
Problems  ``seam-unmeasured``, ``name-unknown``.
From      design.md, ``edges``: stitches or rows, of a count, a row or a stretch of
          rows.

An edge of stitches is as long as they are wide; an edge of row ends is the sum of its rows, each by
the gauge of its own section, or, where the rows differ in length, is measured along their ends. A
starting chain is no row.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from workeven.arithmetic.formulas import Formula, FormulaFault
from workeven.grading import GradedPattern
from workeven.pattern.seam_records import FIRST_ROW, LAST_ROW, Edge
from workeven.problems import Problem
from workeven.problems.words import did_you_mean, quote
from workeven.proof.lie import Lie, lies
from workeven.proof.proven import ProvenPiece, ProvenRow, ProvenSection, RowInSize
from workeven.proof.slants import SlopeRow, slope_of
from workeven.records import record, replace

Placed = tuple[ProvenSection, ProvenRow]
_NOTHING = Fraction(0)


@record
class Measured:
    """An edge in one size: its stitches, its row ends, its length and half of one of them (mm).

    ``row_edges`` of the edges put together are row ends, ``row`` is their highest row (mm).
    """

    sts: int
    rows: int
    length: Fraction
    half: Fraction
    row_edges: int = 0
    row: Fraction = Fraction(0)


class EdgeLengths:
    """Measures the edges of a pattern, each in each size once.

    ``measured`` raises nothing: an edge that has no length gives the problem of its size.
    """

    def __init__(self, graded: GradedPattern) -> None:
        self.graded = graded
        self._gauges = {gauge.name: gauge for gauge in graded.pattern.gauges}
        self._heights = {
            name: height
            for name, gauge in self._gauges.items()
            if (height := gauge.row_height()) is not None
        }
        self._halves = {name: height / 2 for name, height in self._heights.items()}
        self._widths: dict[str, tuple[Fraction, Fraction]] = {}
        sizes = range(len(graded.pattern.sizes))
        self._counts = [
            {name: count.values[size] for name, count in graded.counts.items()} for size in sizes
        ]
        self._placed: dict[str, list[Placed]] = {}
        self._stretches: dict[tuple[str, str], list[Placed]] = {}
        self._lies: dict[tuple[str, int], tuple[Lie, ...]] = {}
        self._known: dict[tuple[str, str, int], Measured | Problem] = {}

    def measured(self, piece: ProvenPiece, edge: Edge, size: int) -> Measured | Problem:
        """One edge in one size."""
        key = (piece.piece.name, edge.name, size)
        known = self._known.get(key)
        if known is None:
            known = self._known[key] = self._told(piece, edge, size)
        return known

    def _told(self, piece: ProvenPiece, edge: Edge, size: int) -> Measured | Problem:
        try:
            return self._measured(piece, edge, size)
        except _NotMeasured as fault:
            return Problem(
                code="seam-unmeasured",
                span=edge.span,
                found=f"The edge {quote(edge.name)} of {quote(piece.piece.title)} cannot be "
                f"measured: {fault.why}.",
                expected="Stitches at a gauge, or rows at a gauge of rows.",
                mend=fault.mend,
                piece=piece.piece.title,
                sizes=(self.graded.pattern.sizes.names[size],),
            )

    def _measured(self, piece: ProvenPiece, edge: Edge, size: int) -> Measured:
        if edge.sts is not None:
            return self._stitches(_count(edge.sts, self._counts[size]), _gauge(edge, piece))
        if edge.rows is not None:
            return self._row_ends({_gauge(edge, piece): _count(edge.rows, self._counts[size])})
        placed = self._placed.get(piece.piece.name)
        if placed is None:
            placed = [(section, row) for section in piece.sections for row in section.rows]
            self._placed[piece.piece.name] = placed
        if edge.row is not None:
            section, row = _last_of(edge.row, placed, size)
            entry = row.per_size[size]
            if entry is None or entry.sts is None:
                why = f"{quote(edge.row)} is not worked, or not counted"
                raise _NotMeasured(why, "Name another row.")
            return self._stitches(entry.sts, edge.gauge or section.section.gauge or "")
        if edge.slope:
            return self._slope(piece, edge, placed, size)
        return self._row_ends(self._rows(piece.piece.name, edge, placed, size))

    def _slope(self, piece: ProvenPiece, edge: Edge, placed: list[Placed], size: int) -> Measured:
        """Rows of different lengths, measured along their ends."""
        row_ends = self._row_ends(self._rows(piece.piece.name, edge, placed, size))
        key = (piece.piece.name, size)
        lie = self._lies.get(key)
        if lie is None:
            lie = self._lies[key] = lies(self.graded, piece, size)
        stretch = self._stretches[(piece.piece.name, edge.name)]
        rows, at = [], 0
        for section, row in placed:
            entry = row.per_size[size]
            times = 0 if entry is None else _times(entry)
            if times and any(row is one for _, one in stretch):
                gauge = self._gauges[edge.gauge or section.section.gauge or ""]
                height = self._heights.get(gauge.name, _NOTHING)
                if section.section.worked != "flat rows" or at + times > len(lie):
                    raise _NotMeasured("how its rows lie is not known", "Name flat rows.")
                for number, one in enumerate(lie[at : at + times], start=at):
                    width = gauge.stitch_width()
                    rows.append(SlopeRow(one.edges, number % 2 == 1, width, height))
            at += times
        slope = slope_of(rows, edge.side)
        return replace(row_ends, length=slope.length, sts=slope.left)

    def _rows(self, piece: str, edge: Edge, placed: list[Placed], size: int) -> dict[str, int]:
        """How many rows of each gauge an edge of row ends has."""
        key = (piece, edge.name)
        stretch = self._stretches.get(key)
        if stretch is None:
            stretch = self._stretches[key] = _stretch(*(edge.ends or ("", "")), placed)
        rows: dict[str, int] = {}
        for section, row in stretch:
            entry = row.per_size[size]
            if entry is not None:
                gauge = edge.gauge or section.section.gauge or ""
                rows[gauge] = rows.get(gauge, 0) + _times(entry)
        return rows

    def _stitches(self, sts: int, gauge: str) -> Measured:
        widths = self._widths.get(gauge)
        if widths is None:
            known = self._gauges.get(gauge)
            if known is None or not known.sts:
                raise _NotMeasured("its gauge is not said", "Give the edge or its piece a `gauge`.")
            width = known.stitch_width()
            widths = self._widths[gauge] = (width, width / 2)
        return Measured(sts=sts, rows=0, length=sts * widths[0], half=widths[1])

    def _row_ends(self, rows: Mapping[str, int]) -> Measured:
        """So many rows of each gauge."""
        parts, whole = 0, 1  # summed in whole numbers, and reduced once
        highest, half = _NOTHING, _NOTHING
        for gauge, number in rows.items():
            height = self._heights.get(gauge)
            if height is not None:
                parts = parts * height.denominator + number * height.numerator * whole
                whole *= height.denominator
                if not highest or height > highest:
                    highest, half = height, self._halves[gauge]
            elif number:
                raise _NotMeasured("its gauge has no rows", "Add `rows` to the gauge.")
        number = sum(rows.values())
        return Measured(
            sts=0,
            rows=number,
            length=Fraction(parts, whole),
            half=half,
            row_edges=1 if number else 0,
            row=highest,
        )


class _NotMeasured(Exception):
    """Why an edge has no length; caught above."""

    def __init__(self, why: str, mend: str) -> None:
        super().__init__(why)
        self.why, self.mend = why, mend


def _gauge(edge: Edge, piece: ProvenPiece) -> str:
    own = next((one.section.gauge for one in piece.sections if one.section.gauge), None)
    return edge.gauge or own or ""


def _count(formula: Formula, counts: Mapping[str, int]) -> int:
    if not formula.names <= counts.keys():
        unknown = sorted(formula.names - counts.keys())
        hint = did_you_mean(unknown[0], counts) or "Name one of the counts."
        raise _NotMeasured(f"there is no count called {quote(unknown[0])}", hint)
    whole = formula.whole(counts)
    if whole is not None and whole >= 0:
        return whole
    try:
        value = formula.count(counts)
    except FormulaFault as fault:
        raise _NotMeasured(fault.found.rstrip("."), fault.mend) from None
    if value.denominator != 1 or value < 0:
        raise _NotMeasured(f"{quote(formula.text)} is {value}", "Change the formula.")
    return int(value)


def _times(entry: RowInSize) -> int:
    """Rows that a line stands for; a starting chain and a line without a number are none."""
    if entry.times is None:
        raise _NotMeasured("its number of rows is left open", "Say how many rows are worked.")
    return entry.times if entry.first is not None or entry.last is not None else 0


def _last_of(name: str, placed: list[Placed], size: int) -> Placed:
    """The last line of that name that the size works."""
    worked = [(section, row) for section, row in placed if row.per_size[size] is not None]
    if not worked:
        raise _NotMeasured("the size works no row of it", "Leave the seam out for this size.")
    if name == FIRST_ROW:
        return next((one for one in worked if _is_row(one, size)), worked[0])
    if name == LAST_ROW:
        return worked[-1]
    named = [one for one in worked if _is_named(one, name)]
    return named[-1] if named else worked[-1]


def _is_row(one: Placed, size: int) -> bool:
    entry = one[1].per_size[size]
    return entry is not None and entry.first is not None


def _is_named(one: Placed, name: str) -> bool:
    section, row = one
    label = row.row.label.name if row.row.label is not None else None
    return name in (section.section.title, label)


def _stretch(first: str, last: str, placed: list[Placed]) -> list[Placed]:
    """The lines from the first that the one name names to the last that the other does."""
    at = range(len(placed))
    begin = (
        0 if first == FIRST_ROW else min((n for n in at if _is_named(placed[n], first)), default=0)
    )
    named = [n for n in at if _is_named(placed[n], last)]
    end = len(placed) - 1 if last == LAST_ROW or not named else max(named)
    return placed[begin : end + 1]
