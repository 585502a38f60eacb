"""A shaping that begins on other stitches than it says.

Takes     the counted first line of a section with ``shape``.
Gives     ``off_start``: the problem, and the line without the faults that come of it.
Problems  ``shape-start``.
From      design.md, ``sections``: ``shape``.

The rows of a shaping are made from its figures. Where ``from`` is not what the rows before leave,
the row that is made cannot come out, and the mistake stands in ``from``: nobody wrote that row.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from workeven.grading.sizes_of import in_size, names_of, others_of
from workeven.pattern import Pattern, Piece, Shape
from workeven.problems import Problem
from workeven.proof.context import SizeContext
from workeven.proof.line import CountedLine


def off_start(
    line: CountedLine,
    left: Mapping[int, int],
    shape: Shape,
    contexts: tuple[SizeContext, ...],
    pattern: Pattern,
    piece: Piece,
) -> tuple[CountedLine, Problem | None]:
    """The line without faults of a wrong ``from``, and that told in all its sizes.

    ``left`` are the stitches that the rows before it leave, by the index of the size.
    """
    off: dict[int, tuple[int, int]] = {}
    for size in {fault.size for fault in line.faults if fault.size in left}:
        said = int(shape.start.count(contexts[size].counts))
        if said != left[size]:
            off[size] = said, left[size]
    if not off:
        return line, None
    others = tuple(fault for fault in line.faults if fault.size not in off)
    return replace(line, faults=others), _told(off, shape, pattern, piece)


def _told(off: dict[int, tuple[int, int]], shape: Shape, pattern: Pattern, piece: Piece) -> Problem:
    failing = sorted(off)
    return Problem(
        code="shape-start",
        span=shape.span,
        piece=piece.title,
        sizes=names_of(pattern.sizes, failing),
        good_sizes=others_of(pattern.sizes, failing),
        found="the shaping does not begin on the stitches that are there.",
        expected="\n".join(
            f"{in_size(pattern.sizes, size)}`from` is {off[size][0]}, and the rows before it leave "
            f"{off[size][1]} sts."
            for size in failing
        ),
        mend="Write in `from` what the rows before it leave, or mend those rows.",
        figures=(
            ("from", tuple(str(off[size][0]) for size in failing)),
            ("there", tuple(str(off[size][1]) for size in failing)),
        ),
    )
