"""What the proof is given: the lines of a piece, and what must be known of each size.

Takes     ``GradedPattern``, a ``Piece``.
Gives     ``contexts_of``, ``lines_of``.
Problems  none.
From      design.md, "A pattern file".
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.grading import GradedPattern
from workeven.pattern import Gauge, Pattern, Piece
from workeven.proof.context import SizeContext
from workeven.proof.line import Lined


def contexts_of(graded: GradedPattern) -> tuple[SizeContext, ...]:
    """What a walk must know of each size."""
    pattern = graded.pattern
    special = {stitch.name: stitch for stitch in pattern.stitches}
    turning = dict(pattern.turning_chains.counts)
    return tuple(
        SizeContext(
            index=at,
            sizes=len(pattern.sizes),
            counts={name: count.values[at] for name, count in graded.counts.items()},
            measurements={name: value[at] for name, value in graded.measurements.items()},
            special=special,
            turning_chains=turning,
            each_chain_counts=pattern.each_chain_counts,
        )
        for at in range(len(pattern.sizes))
    )


def lines_of(piece: Piece, pattern: Pattern) -> Iterator[Lined]:
    """The rows of a piece in order, with how they are worked."""
    gauges = {gauge.name: gauge for gauge in pattern.gauges}
    for number, section in enumerate(piece.sections):
        gauge = gauges.get(section.gauge or "")
        height = _row_height(gauge)
        for row in section.rows:
            yield Lined(
                row=row,
                worked=section.worked,
                row_heights=(height,) * len(pattern.sizes),
                sizes=section.sizes,
                section=number,
                stitch_width=None if gauge is None else gauge.stitch_width(),
                part=section.title or "",
            )


def _row_height(gauge: Gauge | None) -> Fraction | None:
    return None if gauge is None else gauge.row_height()
