"""One line of a piece: as its section gives it, and as it is counted.

Takes     nothing: records only.
Gives     ``Lined``, ``Line``, ``SizeFault``, ``CountedLine``.
Problems  none.
From      design.md, "Rows are a text block".
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from workeven.notation.tree import Row, Step
from workeven.proof.context import Fault
from workeven.proof.fabric import Fabric
from workeven.proof.facts import Facts, facts_of
from workeven.proof.hook import Choices
from workeven.proof.plan import Plan, plan_of
from workeven.proof.proven import RowInSize
from workeven.proof.row import RowCount


@dataclass(frozen=True, slots=True, kw_only=True)
class Lined:
    """A row as a section gives it: how it is worked, its row gauge, the sizes that work it.

    ``row_heights`` (mm, one a size, None without a row gauge) are the same in a whole section.
    """

    row: Row
    worked: str
    row_heights: tuple[Fraction | None, ...]
    sizes: tuple[int, ...] | None
    section: int


@dataclass(frozen=True, slots=True)
class Line:
    """What one row works, to be worked again by "rep Row 2". ``row`` is where it is written.

    ``plan`` is how it can be counted without a walk, if it is plain.
    """

    row: Row
    facts: Facts
    plan: Plan | None
    choices: Choices


def line_of(row: Row, steps: tuple[Step, ...]) -> Line:
    """What a row of these steps works, looked through once for all sizes."""
    facts = facts_of(steps)
    return Line(row, facts, plan_of(facts), {})


#: faults of what is written before the colon: another mistake than one of the row itself
ABOUT_LABELS = ("row-number", "row-side")


@dataclass(frozen=True, slots=True)
class SizeFault:
    """A fault of one row in one size, with what was there before it.

    ``line`` is the row that is worked again, where it is one.
    """

    size: int
    fault: Fault
    below: Fabric | None
    line: Line | None = None


@dataclass(frozen=True, slots=True)
class CountedLine:
    """One line of a piece in every size (None: not worked), its faults and its second reading.

    ``measured`` names the measurements that the line brings about: name, size, height (mm).
    """

    lined: Lined
    per_size: tuple[RowInSize | None, ...]
    faults: tuple[SizeFault, ...]
    reading: tuple[str, str] | None
    defaulted: tuple[tuple[str, int], ...]
    measured: tuple[tuple[str, int, Fraction], ...]
    counts: tuple[RowCount | None, ...]
