"""A swatch that was measured, held against the gauge it is of.

Takes     a swatch, its gauge, the stitches of its last row and its rows.
Gives     ``gauge_problems``.
Problems  ``gauge-swatch``.
From      design.md, "A pattern file": ``gauge``; how near a tape is read is common practice.

24 sts in 15 cm are 16 to 10 cm. Half a stitch in 10 cm more or less than is stated is told, unless
the tape's own quarter of a centimetre can account for it. Rows likewise. A round measures around.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic.printing import decimal, print_cm, print_in, print_number
from workeven.arithmetic.units import TEN_CM
from workeven.pattern import Gauge, Pattern, Swatch
from workeven.problems import Note, Problem
from workeven.problems.words import quote
from workeven.records import record

#: How near a tape is read (mm): common practice.
_TAPE = Fraction(5, 2)
#: What is told: so many stitches or rows more or less in 10 cm.
_HALF = Fraction(1, 2)


@record
class _Side:
    """One side of a swatch: so many stitches or rows, what they measure and should (mm)."""

    count: int
    word: str
    measures: Fraction
    unit: Fraction

    def counted(self) -> Fraction:
        """Stitches or rows in 10 cm of the swatch."""
        return self.count / self.measures * TEN_CM

    def stated(self) -> Fraction:
        """Stitches or rows in 10 cm of the gauge."""
        return TEN_CM / self.unit

    def off(self) -> bool:
        """Whether the two are not one gauge."""
        apart = abs(self.count * self.unit - self.measures)
        return apart > _TAPE and abs(self.counted() - self.stated()) >= _HALF


def gauge_problems(pattern: Pattern, swatch: Swatch, sts: int, rows: int) -> Iterator[Problem]:
    """Advice where the swatch has another gauge than is stated."""
    sample = swatch.sample
    gauge = next((one for one in pattern.gauges if sample and one.name == sample.gauge), None)
    if sample is None or gauge is None or gauge.least() <= 0:
        return
    width, height = _units(gauge, blocked=sample.blocked)
    sides = (
        _side(sts, "sts", sample.width, width),
        _side(rows, "rounds" if gauge.rounds else "rows", sample.height, height),
    )
    off = [side for side in sides if side is not None and side.off()]
    if not off:
        return
    state = "" if sample.blocked else " before blocking"
    yield Problem(
        code="gauge-swatch",
        span=sample.span,
        found=f"The swatch has another gauge than {quote(gauge.name)} states{state}: "
        + " and ".join(
            f"{_figure(side.counted())} {side.word} to 10 cm, and not {_figure(side.stated())}"
            for side in off
        )
        + ".",
        expected="\n".join(
            f"{side.count} {side.word} measure {_both(side.measures)}; by the gauge they would be "
            f"{_both(side.count * side.unit)}."
            for side in off
        ),
        mend="Measure both again. All counts and lengths hang on the gauge.",
        notes=(Note(span=gauge.span, message=f"{quote(gauge.name)} is given here."),),
        figures=(
            ("swatch_to_10_cm", tuple(decimal(side.counted()) for side in off)),
            ("gauge_to_10_cm", tuple(decimal(side.stated()) for side in off)),
        ),
    )


def _units(gauge: Gauge, *, blocked: bool) -> tuple[Fraction, Fraction | None]:
    """The width of a stitch and the height of a row, before blocking or after it."""
    before = gauge.before
    if blocked or before is None or before.sts <= 0:
        return gauge.stitch_width(), gauge.row_height()
    over = before.rows_over or before.over
    return before.over / before.sts, over / before.rows if before.rows else None


def _side(count: int, word: str, measures: Fraction | None, unit: Fraction | None) -> _Side | None:
    if measures is None or unit is None or measures <= 0 or count <= 0:
        return None
    return _Side(count=count, word=word, measures=measures, unit=unit)


def _figure(number: Fraction) -> str:
    return print_number(Fraction(decimal(number, 1)))


def _both(mm: Fraction) -> str:
    return f"{print_cm(mm)} ({print_in(mm)})"
