"""What the proof gives: every row of every size with its counts.

Takes     nothing: records only.
Gives     ``ProvenPattern`` and its parts.
Problems  none.
From      notation.md, "What is reported".
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Literal, NamedTuple

from workeven.arithmetic.per_size import PerSize
from workeven.grading import GradedPattern
from workeven.notation.tree import Row
from workeven.pattern import Piece, Section
from workeven.proof.eases import EaseLeft
from workeven.records import record

if TYPE_CHECKING:  # what was worked is made of these records itself
    from workeven.proof.seams import ProvenSeam
    from workeven.proof.standing import Worked

#: kind to number, in the order in which the kinds first occur: (("dc", 12), ("ch-2 sp", 4))
Counted = tuple[tuple[str, int], ...]


class RowInSize(NamedTuple):
    """What one line of a pattern is in one size.

    ``first`` and ``last`` are its row numbers (None: a starting chain, a ring, a bare join, or an
    open number of rows before it). ``times``: how many rows it stands for (None: open). ``sts``
    and ``makes``: after the last of them. ``worked``: everything worked by all of them together,
    by kind (chains as ``ch``, joins and slip stitches as ``sl st``, loops and posts by their own
    names), for yarn and abbreviations. ``side``: of the first of the rows, ``RS`` or ``WS``.
    ``height``: of the piece after the last (mm), None where a gauge of rows is missing.
    ``stated``: the count written in the row, by kind (``sts`` for a bare number).
    (A named tuple: one is made a row and size, and it is made faster than a dataclass.)
    """

    first: int | None
    last: int | None
    times: int | None
    sts: int | None
    makes: Counted
    worked: Counted
    side: Literal["RS", "WS"] | None
    height: Fraction | None
    stated: Counted | None


@record
class ProvenRow:
    """One line of a pattern, counted.

    ``per_size`` holds None for a size that does not work it. ``word`` is ``Row`` or ``Rnd``.
    ``anchor`` is unique in the piece and stable when other rows change. ``multiple`` is the
    stitch multiple of its open repeat, (6, 1) for "a multiple of 6 plus 1", or None. ``reading``
    are the words of the second reading by which it is counted, or None. ``behind``: the rows worked
    in each size up to this line.
    """

    row: Row
    word: Literal["Row", "Rnd"]
    anchor: str
    multiple: tuple[int, int] | None
    per_size: PerSize[RowInSize | None]
    reading: str | None = None
    behind: tuple[Worked | None, ...] = ()


@record
class ProvenSection:
    """A section of a piece with all its rows counted."""

    section: Section
    rows: tuple[ProvenRow, ...]


@record
class ProvenPiece:
    """A piece with all its sections counted."""

    piece: Piece
    sections: tuple[ProvenSection, ...]

    def behind(self, size: int) -> Worked | None:
        """All rows worked in a size, the last of them first."""
        rows = [row for section in self.sections for row in section.rows]
        return rows[-1].behind[size] if rows and rows[-1].behind else None


@record
class ProvenPattern:
    """A pattern of which every row comes out in every size.

    ``swatches``: for each swatch of the pattern what was worked in it, by kind. ``finished``:
    measurement name to finished length (mm), widths from counts and heights from rows. ``ease``:
    what that leaves around the body.
    """

    graded: GradedPattern
    pieces: tuple[ProvenPiece, ...]
    swatches: tuple[Counted, ...]
    finished: Mapping[str, PerSize[Fraction]]
    seams: tuple[ProvenSeam, ...] = ()
    ease: tuple[EaseLeft, ...] = ()
