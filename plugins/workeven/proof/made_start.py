"""Rows made from data that begin on other stitches than they say.

Takes     the counted lines of a section with ``shape`` or ``holes``, the stitches before it.
Gives     ``off_start``: the problem, and the lines without the faults that come of it.
Problems  ``shape-start``, ``holes-start``.
From      design.md, ``sections``: ``shape``, ``holes``.

The rows are made from the figures of the file. Where ``from`` or ``across`` is not what the rows
before leave, they cannot come out, and the mistake stands there: nobody wrote those rows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from workeven.grading.sizes_of import in_size, names_of, others_of
from workeven.pattern import Holes, Pattern, Piece, Shape
from workeven.problems import Problem
from workeven.proof.context import SizeContext
from workeven.proof.line import CountedLine
from workeven.records import replace


def off_start(
    lines: Sequence[CountedLine],
    left: Mapping[int, int],
    made: Shape | Holes,
    contexts: tuple[SizeContext, ...],
    pattern: Pattern,
    piece: Piece,
) -> tuple[tuple[CountedLine, ...], Problem | None]:
    """The lines without faults of a wrong beginning, and that told in all its sizes.

    ``left`` are the stitches that the rows before them leave, by the index of the size.
    """
    formula = made.sts if isinstance(made, Holes) else made.start
    off: dict[int, tuple[int, int]] = {}
    for size in {fault.size for line in lines for fault in line.faults if fault.size in left}:
        said = int(formula.count(contexts[size].counts))
        if said != left[size]:
            off[size] = said, left[size]
    if not off:
        return tuple(lines), None
    cleared = (
        replace(line, faults=tuple(fault for fault in line.faults if fault.size not in off))
        for line in lines
    )
    return tuple(cleared), _told(off, made, pattern, piece)


def _told(
    off: dict[int, tuple[int, int]], made: Shape | Holes, pattern: Pattern, piece: Piece
) -> Problem:
    failing = sorted(off)
    holes = isinstance(made, Holes)
    key = "across" if holes else "from"
    return Problem(
        code="holes-start" if holes else "shape-start",
        span=made.span,
        piece=piece.title,
        sizes=names_of(pattern.sizes, failing),
        good_sizes=others_of(pattern.sizes, failing),
        found="the holes are not placed over the stitches that are there."
        if holes
        else "the shaping does not begin on the stitches that are there.",
        expected="\n".join(
            f"{in_size(pattern.sizes, size)}`{key}` is {off[size][0]}, and the rows before it "
            f"leave {off[size][1]} sts."
            for size in failing
        ),
        mend=f"Write in `{key}` what the rows before it leave, or mend those rows.",
        figures=(
            (key, tuple(str(off[size][0]) for size in failing)),
            ("there", tuple(str(off[size][1]) for size in failing)),
        ),
    )
