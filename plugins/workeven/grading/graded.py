"""What grading gives: a number in every size.

Takes     nothing: records only.
Gives     ``GradedCount``, ``GradedPattern``.
Problems  none.
From      design.md, "A pattern file".
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from workeven.arithmetic.per_size import PerSize
from workeven.pattern import Count, Gauge, Pattern
from workeven.records import record


@record
class GradedCount:
    """A count in every size, how it was chosen, and what it measures.

    ``measurement`` is the name that it was counted over, ``wanted`` that length (mm), ``exact``
    the stitches or rows that would make it exactly, ``measures`` what the chosen whole number
    makes (mm), ``rule`` the designer's words for the choice ("nearest multiple of 6 plus 1").
    They are None for a count that stands for itself. ``word``: whether stitches or rows are
    counted. ``tolerance`` (mm) is how far it may measure from what is wanted, ``lower`` and
    ``higher`` are the next counts that its rule allows, None where it allows none. ``alone``: what
    each size by itself would have, where sizes are chosen together or for a whole piece.
    """

    count: Count
    values: PerSize[int]
    measurement: str | None
    wanted: PerSize[Fraction] | None
    exact: PerSize[Fraction] | None
    measures: PerSize[Fraction] | None
    rule: str
    word: Literal["sts", "rows"] | None = None
    gauge: Gauge | None = None
    tolerance: PerSize[Fraction] | None = None
    lower: PerSize[int | None] | None = None
    higher: PerSize[int | None] | None = None
    alone: PerSize[int] | None = None


@record
class GradedPattern:
    """A pattern with a number in every size.

    ``measurements``: every measurement by name, wanted (mm). ``counts``: by name. What the piece
    measures when it is done follows from the proof.
    """

    pattern: Pattern
    measurements: Mapping[str, PerSize[Fraction]]
    counts: Mapping[str, GradedCount]
