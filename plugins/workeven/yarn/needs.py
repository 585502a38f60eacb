"""What the stage of yarn gives: amounts in every size, and the yarns that have none.

Takes     nothing: records only.
Gives     ``YarnNeeds`` and its parts.
Problems  none.
From      design.md, "Numbers a maker can trust": amounts are estimates and say so.

All masses are g and all lengths mm, exact, before rounding.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from workeven.arithmetic.per_size import PerSize
from workeven.pattern import FinishedSample, Yarn
from workeven.records import record

#: the line of the sum that holds them
CHAINS = "chains and slip stitches"


@record
class Line:
    """One line of the sum: ``number`` of a thing in each size, what ``each`` weighs, all of them.

    ``each`` is None for strands: they have a ``length`` (mm of one) that differs by size, or were
    weighed, and may be of one ``colour``. ``basis`` says in words where the figure is from.
    """

    sort: Literal["stitches", "strand"]
    title: str
    number: PerSize[int]
    each: Fraction | None
    mass: PerSize[Fraction]
    basis: str
    length: PerSize[Fraction] | None = None
    colour: str | None = None


@record
class Fit:
    """A swatch as it was weighed, and as the amounts of all swatches together make it."""

    stitches: tuple[tuple[str, int], ...]
    weighed: Fraction
    computed: Fraction


@record
class Compared:
    """A finished sample beside the estimate for its size, both without the margin.

    ``off``: by which part the sample took more (less: negative) than the estimate, once all samples
    have set its scale. ``left_out`` says in words why it does not count; "" where it does.
    """

    sample: FinishedSample
    used: Fraction
    estimated: Fraction
    off: Fraction
    left_out: str = ""


@record
class Calibration:
    """What finished samples say: how the sum is scaled, and how far the worst of them is off.

    ``fitted``: what a stitch takes was found from them, and the scale is 1.
    """

    samples: tuple[Compared, ...]
    scale: Fraction
    worst: Fraction
    fitted: bool = False

    @property
    def counted(self) -> tuple[Compared, ...]:
        """The samples that the scale was found from."""
        return tuple(one for one in self.samples if not one.left_out)


@record
class PieceNeed:
    """The stitches of one piece, as often as it is made, in one colour: no seams and no margin."""

    title: str
    colour: str | None
    mass: PerSize[Fraction]


@record
class ColourNeed:
    """One colour of a yarn in every size, margin included."""

    colour: str
    length: PerSize[Fraction]
    mass: PerSize[Fraction]
    balls: PerSize[int]


@record
class YarnNeed:
    """One yarn in every size, margin included.

    ``balls`` are whole, up, of each colour where there are several. ``method`` says in plain words
    how it was computed. ``lines`` are the sum that it was computed by, ``bare`` is their total,
    with the samples' scale and without the margin. ``colours``: by colour, where that is known;
    ``why_not`` says in words why it is not. ``fit``: the swatches, where they were solved together.
    """

    yarn: Yarn
    length: PerSize[Fraction]
    mass: PerSize[Fraction]
    balls: PerSize[int]
    margin: Fraction
    method: str
    bare: PerSize[Fraction]
    lines: tuple[Line, ...] = ()
    pieces: tuple[PieceNeed, ...] = ()
    colours: tuple[ColourNeed, ...] = ()
    why_not: str = ""
    fit: tuple[Fit, ...] = ()
    samples: Calibration | None = None


@record
class NoAmount:
    """A yarn of which no amount can be given, and why, in a sentence for the maker.

    ``pieces`` are those of which the amount is known all the same, here with the ``margin`` in it;
    ``untold`` names the others.
    """

    yarn: Yarn
    reason: str
    pieces: tuple[PieceNeed, ...] = ()
    margin: Fraction = Fraction(0)
    untold: tuple[str, ...] = ()


@record
class YarnNeeds:
    """All yarns of a pattern, in its order: those with an amount, and those ``without``."""

    needs: tuple[YarnNeed, ...]
    without: tuple[NoAmount, ...] = ()
