"""What a designer says of amounts herself: the record of one yarn, or of one colour of it.

Takes     nothing: records only.
Gives     ``PrintedAmount``.
Problems  none.
From      design.md, "A pattern file": ``amounts``.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from workeven.arithmetic.per_size import PerSize
from workeven.problems import Span
from workeven.records import record


@record
class PrintedAmount:
    """How much of a yarn the designer says to buy: one value a size, in one unit.

    ``values`` are balls, a length in mm or a mass in g, 0 in a size that takes none. ``colour`` is
    None where the amount is that of all colours. ``words``: as written in the file.
    """

    yarn: str
    colour: str | None
    unit: Literal["balls", "length", "mass"]
    values: PerSize[Fraction]
    words: str
    span: Span
