"""The record of what takes yarn and is no stitch.

Takes     nothing: records only.
Gives     ``Trimming``.
Problems  none.
From      design.md, "Numbers a maker can trust".
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from workeven.arithmetic.per_size import PerSize
from workeven.problems import Span
from workeven.records import record

if TYPE_CHECKING:  # a pattern is made of trimmings itself
    from workeven.pattern.records import Text

TrimmingKind = Literal["fringe", "tassel", "pompom", "cord", "embroidery"]


@record
class Trimming:
    """Fringe, tassels, pompoms: ``amount`` of them, each of ``strands`` cut to ``length`` (mm).

    ``mass`` in g is that of one, where it was weighed; then ``length`` is 0. ``yarn`` is its key,
    None for the first of the pattern; ``colour`` as the file names it.
    """

    kind: TrimmingKind
    yarn: str | None
    colour: Text | None
    amount: PerSize[int]
    strands: PerSize[int]
    length: PerSize[Fraction]
    mass: Fraction | None
    note: str | None
    span: Span
