"""Whom a pattern fits: what it takes from a body chart, the fit it claims, the ease it wants.

Takes     nothing: records only.
Gives     ``Body``, ``ChartLine``, ``OwnValue``, ``Ease``, ``NO_BODY``, ``ease_name``.
Problems  none.
From      the body charts of ``standards``; design.md, "A pattern file": ``sizes``.

A chart gives most measurements as a range. A pattern is worked out from one end of it, or from its
middle, the same in all its sizes; a page prints the range itself, in each unit as the chart has it.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from workeven.arithmetic.per_size import PerSize
from workeven.problems import Span
from workeven.records import record
from workeven.standards import BodyChart, BodyMeasurement, Unit

RangeEnd = Literal["low", "middle", "high"]


@record
class OwnValue:
    """A value that stands instead of the chart's in one size (mm), and why."""

    measurement: str
    size: str
    mm: Fraction
    because: str
    span: Span


@record
class ChartLine:
    """A measurement taken from a chart.

    ``unit`` is the column that the pattern is worked out from. ``cm`` and ``inches`` are the
    chart's own values, None in a size for which it has none in that unit.
    """

    measurement: str
    unit: Unit
    cm: PerSize[BodyMeasurement | None]
    inches: PerSize[BodyMeasurement | None]
    own: tuple[OwnValue, ...]
    span: Span


@record
class Ease:
    """The ease wanted at a measurement of the body, one length a size (mm), less than 0 if tight.

    ``from_fit`` is the fit that it was taken from where the file names no ease.
    """

    body: str
    values: PerSize[Fraction]
    from_fit: str | None
    span: Span


@record
class Body:
    """What ``sizes`` says of the body beside its measurements.

    ``chart_sizes`` are the chart's names for the sizes of the pattern, in its order.
    """

    chart: BodyChart | None = None
    chart_sizes: tuple[str, ...] = ()
    end: RangeEnd = "middle"
    lines: tuple[ChartLine, ...] = ()
    fit: PerSize[str] | None = None
    fit_span: Span | None = None
    ease: tuple[Ease, ...] = ()


NO_BODY = Body()


def ease_name(body: str) -> str:
    """How formulas call the ease at a measurement of the body.

    >>> ease_name("upper arm")
    'upper_arm_ease'
    """
    return f"{body.replace(' ', '_')}_ease"
