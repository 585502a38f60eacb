"""What finished samples took: the record of one.

Takes     nothing: records only.
Gives     ``FinishedSample``.
Problems  none.
From      design.md, "A pattern file": ``samples``.
"""

from __future__ import annotations

from fractions import Fraction

from workeven.problems import Span
from workeven.records import record


@record
class GaugeGot:
    """The gauge that a sample came out at: stitches and rows to a length (mm), as counted."""

    gauge: str
    sts: Fraction
    rows: Fraction | None
    over: Fraction
    span: Span


@record
class FinishedSample:
    """A thing made from the pattern: its size, what it took, what it came out as.

    ``size`` is the index of its size. ``used``: by the name of the yarn, in g, with its place.
    ``measures``: finished measurements by name, in mm. ``credit``: who made it, where she may be
    named.
    """

    size: int
    used: tuple[tuple[str, Fraction, Span], ...]
    gauges: tuple[GaugeGot, ...]
    measures: tuple[tuple[str, Fraction, Span], ...]
    credit: str | None
    note: str | None
    span: Span

    def of(self, yarn: str) -> tuple[Fraction, Span] | None:
        """What it took of a yarn (g), and where that stands."""
        return next(((mass, span) for name, mass, span in self.used if name == yarn), None)
