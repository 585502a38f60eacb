"""One line of a piece: as its section gives it, and as it is counted.

Takes     nothing: records only.
Gives     ``Lined``, ``as_worked``, ``Line``, ``SizeFault``, ``Reached``, ``CountedLine``.
Problems  none.
From      design.md, "Rows are a text block".
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from workeven.notation.tree import ChangeOver, Row, SpecialStitch, Step, WorkedRow
from workeven.proof.context import Fault
from workeven.proof.fabric import Fabric
from workeven.proof.facts import Facts, facts_of
from workeven.proof.hook import Choices
from workeven.proof.plan import Plan, plan_of
from workeven.proof.proven import RowInSize
from workeven.proof.row import RowCount
from workeven.proof.squares import expanded
from workeven.records import record, record_by_position

if TYPE_CHECKING:  # what was worked is made of lines itself
    from workeven.proof.standing import Worked


@record
class Lined:
    """A row as a section gives it: how it is worked, its row gauge, the sizes that work it.

    ``row_heights`` (mm, one a size, None without a row gauge) are the same in a whole section,
    and so is ``stitch_width`` (mm). ``part`` is the title of the section.
    """

    row: Row
    worked: str
    row_heights: tuple[Fraction | None, ...]
    sizes: tuple[int, ...] | None
    section: int
    stitch_width: Fraction | None = None
    part: str = ""


def as_worked(lines: Iterable[Lined]) -> Iterator[tuple[Lined, str]]:
    """Each line and how it is worked: as its section says, until a row says otherwise."""
    section: str | None = None
    how = ""
    for line in lines:
        if line.worked != section:
            section = how = line.worked
        match line.row.body:
            case ChangeOver(worked=worked) | WorkedRow(change=str(worked)):
                how = worked
            case _:
                pass
        yield line, how


@record_by_position
class Line:
    """What one row works, to be worked again by "rep Row 2". ``row`` is where it is written.

    ``plan`` is how it can be counted without a walk, if it is plain.
    """

    row: Row
    facts: Facts
    plan: Plan | None
    choices: Choices


def line_of(
    row: Row, steps: tuple[Step, ...], special: Mapping[str, SpecialStitch] | None = None
) -> Line:
    """What a row of these steps works, looked through once for all sizes."""
    facts = facts_of(expanded(steps, special) if special else steps)
    return Line(row, facts, plan_of(facts), {})


#: lines looked through, with their steps, by their words up to a stated count
Known = dict[str, tuple[tuple[Step, ...], Line]]


def shared_line(
    row: Row, steps: tuple[Step, ...], special: Mapping[str, SpecialStitch] | None, known: Known
) -> Line:
    """The same; what was looked through for a row of the same words is looked through.

    A front and a back have many rows in common that differ in what they state alone.
    """
    words = row.text if row.stated is None else row.text[: row.stated.start]
    twin = known.get(words)
    if twin is not None and twin[0] == steps:
        return Line(row, twin[1].facts, twin[1].plan, {})
    line = line_of(row, steps, special)
    known[words] = (steps, line)
    return line


#: faults of what is written before the colon: another mistake than one of the row itself
ABOUT_LABELS = ("row-number", "row-side")


@record_by_position
class SizeFault:
    """A fault of one row in one size, with what was there before it.

    ``line`` is the row that is worked again, where it is one.
    """

    size: int
    fault: Fault
    below: Fabric | None
    line: Line | None = None


class Reached(NamedTuple):
    """A length that rows were worked up to in one size, in mm.

    ``name`` is its formula as written, "" for a plain length; ``height`` what piece or section then
    really measures; ``above`` what rows of the section measure that stand above those which are
    repeated, where a length is that of the section; ``halfway``: a repeat of several rows stops
    before its last, unasked.
    """

    name: str
    height: Fraction
    above: Fraction
    halfway: bool


@record_by_position
class CountedLine:
    """One line of a piece in every size (None: not worked), its faults and its second reading.

    ``reached``: the index of a size, and the length that the line was worked up to. ``behind``:
    the rows worked in each size up to this line.
    """

    lined: Lined
    per_size: tuple[RowInSize | None, ...]
    faults: tuple[SizeFault, ...]
    reading: tuple[str, str] | None
    defaulted: tuple[tuple[str, int], ...]
    reached: tuple[tuple[int, Reached], ...]
    counts: tuple[RowCount | None, ...]
    behind: tuple[Worked | None, ...]
