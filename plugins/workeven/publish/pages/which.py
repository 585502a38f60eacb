"""Which size a maker works: her body and the ease she wants, held against every size.

Takes     ``ReadyPattern``.
Gives     ``WhichView``: ``which``.
Problems  none.
From      the published scale of fits in ``standards``; the ease that the proof has found.

The page has what each size is meant to fit and what it really goes around, exactly and in mm, so
that the browser only compares: a body that lies within no size has the one below and the one above.
A fit of the published scale is a range of ease at bust or chest, and is offered there alone.
"""

from __future__ import annotations

import json
from fractions import Fraction

from workeven.arithmetic.printing import decimal
from workeven.arithmetic.units import CM, INCH
from workeven.pattern import ChartLine
from workeven.pattern.eases import FITTED
from workeven.pipeline import ReadyPattern
from workeven.proof.eases import EaseLeft
from workeven.publish.pages import figures
from workeven.records import record
from workeven.standards.fits import FIT_NAMES, fit

#: Decimals of a millimetre that are told; no size is told from another by less.
_DECIMALS = 6


@record
class WhichView:
    """The names of the measurements to ask for, of the fits to offer, and the sizes as JSON."""

    bodies: tuple[str, ...]
    fits: tuple[str, ...]
    sizes: str
    inches: bool


def which(ready: ReadyPattern) -> WhichView | None:
    """None for a pattern in one size, or of which it is not known whom it fits."""
    eases = ready.proven.ease
    if len(ready.pattern.sizes) == 1 or not eases or not ready.proven.finished:
        return None
    told = {
        "bodies": [_body(ready, one) for one in eases],
        "fits": [_fit(name) for name in FIT_NAMES],
    }
    return WhichView(
        bodies=tuple(figures.heading(one.body).lower() for one in eases),
        fits=FIT_NAMES if any(one.body in FITTED for one in eases) else (),
        sizes=json.dumps(told, separators=(",", ":")),
        inches=ready.pattern.studio.units == "in",
    )


def _body(ready: ReadyPattern, one: EaseLeft) -> dict[str, object]:
    """From which body to which each size is meant for, and what it goes around."""
    middle = dict(ready.pattern.to_fit)[one.body]
    chart = next((line for line in ready.pattern.body.lines if line.measurement == one.body), None)
    ends = [_ends(chart, size, at, middle[at]) for at, size in enumerate(ready.pattern.sizes.names)]
    around = [mm + ease for mm, ease in zip(middle.values, one.values.values, strict=True)]
    return {
        "low": [_mm(low) for low, _ in ends],
        "high": [_mm(high) for _, high in ends],
        "around": [_mm(mm) for mm in around],
        "fitted": one.body in FITTED,
    }


def _ends(
    chart: ChartLine | None, size: str, at: int, middle: Fraction
) -> tuple[Fraction, Fraction]:
    """The range of a chart, or one length twice."""
    if chart is None or any(own.size == size for own in chart.own):
        return middle, middle
    value = (chart.cm if chart.unit == "cm" else chart.inches)[at]
    unit = CM if chart.unit == "cm" else INCH
    return (middle, middle) if value is None else (value.low * unit, value.high * unit)


def _fit(name: str) -> list[float | None]:
    """Its least and its most ease; the most is None where there is none."""
    found = fit(name)
    high = found.high()
    return [_mm(found.low()), None if high is None else _mm(high)]


def _mm(length: Fraction) -> float:
    return float(decimal(length, _DECIMALS))
