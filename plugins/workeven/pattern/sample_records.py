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
class Took:
    """What a sample took of a yarn, or of one ``colour`` of it (g), and where that stands."""

    yarn: str
    colour: str | None
    mass: Fraction
    span: Span


@record
class FinishedSample:
    """A thing made from the pattern: its size, what it took, what it came out as.

    ``size`` is the index of its size. ``used``: by yarn, or by its colours.
    ``measures``: finished measurements by name, in mm. ``credit``: who made it, where she may be
    named.
    """

    size: int
    used: tuple[Took, ...]
    gauges: tuple[GaugeGot, ...]
    measures: tuple[tuple[str, Fraction, Span], ...]
    credit: str | None
    note: str | None
    span: Span

    def of(self, yarn: str) -> tuple[Fraction, Span] | None:
        """What it took of a yarn in all its colours (g), and where that stands first."""
        took = [one for one in self.used if one.yarn == yarn]
        if not took:
            return None
        return sum((one.mass for one in took), Fraction(0)), took[0].span

    def colours(self, yarn: str) -> tuple[tuple[str, Took], ...]:
        """What it took of each colour of a yarn, where that is said."""
        return tuple(
            (one.colour, one) for one in self.used if one.yarn == yarn and one.colour is not None
        )
