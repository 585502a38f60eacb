"""Where one size stands in a piece: its fabric, its row number, its height, the rows worked so far.

Takes     the size, and what is there before the first row.
Gives     ``Standing``.
Problems  none.
From      notation.md, "Labels" (numbers may differ by size), "Whole pieces", "Turning unsaid".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Literal, NamedTuple

from workeven.notation.tree import JoinYarn, Row, Stated
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Fabric, Node
from workeven.proof.facts import is_fastened_off
from workeven.proof.line import Line, Lined
from workeven.proof.plain import count_plainly
from workeven.proof.proven import Counted
from workeven.proof.row import RowCount, chains_worked, with_repeats, work
from workeven.proof.row_ends import NO_ENDS, Beside, RowEnds, Sideways
from workeven.proof.stated import states_patterns

Side = Literal["RS", "WS"]
Ratio = tuple[int, int]
#: heights (mm) by numbers of rows, for a height below them and a row height (as whole numbers)
Heights = dict[tuple[Ratio | None, Ratio | None], dict[int, Fraction]]


class Worked(NamedTuple):
    """Rows that were worked one after the other, the lines in turn; ``before`` are those before.

    A chain and no table by number: it is added to and copied at no cost, also where one line
    stands for 9,999 rows. ``first`` is the number of the first row, None behind an open number.
    ``below`` is what was there before the first of them, worked as ``how`` says; ``onto`` is the
    number of the earlier row whose places the first of them takes up, None where it is the last.
    ``mirrored``: they are those of a second side, which lies as the first does, mirrored.
    ``name`` is what their label names, which may be the part that begins here, and ``part`` what
    the heading above them does. ``row_ends`` are those that the first of them goes along.
    """

    first: int | None
    times: int
    lines: tuple[Line, ...]
    before: Worked | None
    below: Fabric | None = None
    how: str = "flat rows"
    onto: int | None = None
    mirrored: bool = False
    name: str = ""
    row_ends: RowEnds = NO_ENDS
    part: str = ""

    def line_of(self, number: int) -> Line | None:
        """What the row of that number works, if it is one of these."""
        if self.first is None or not 0 <= number - self.first < self.times:
            return None
        return self.line_at(number - self.first)

    def line_at(self, at: int) -> Line:
        """What the row at this place among them works."""
        return self.lines[at % len(self.lines)]


class Repeated(NamedTuple):
    """What a line gave over the places below it: the same again wherever they are the same."""

    line: Line
    below: Fabric | None
    how: str
    result: RowCount

    def is_for(self, line: Line, how: str, below: Fabric | None) -> bool:
        """Whether it is what this line gives over these places."""
        return self.line is line and self.how == how and self.below == below


class Level(NamedTuple):
    """Where rows of one height begin: the number of the first, what is below them, in mm."""

    number: int | None
    below: Fraction | None
    row_height: Fraction | None


class Unworked(NamedTuple):
    """Places that a row left unworked or passed over: the row that has them, and the places.

    ``rows`` are those worked before, by which it is known whether a later row left others.
    ``others`` are the rests that a row left untouched which went on along these; None: it did not.
    ``before``: so many of the nodes lie before where yarn was joined last, the others behind it.
    ``passed`` are those that the row itself had passed before its yarn was joined.
    """

    number: int | None
    fabric: Fabric
    rows: Worked | None
    others: tuple[Unworked, ...] | None = None
    before: int = 0
    passed: tuple[Node, ...] = ()


class Due(NamedTuple):
    """A row that is worked again where the numbers come to it.

    ``first`` is its own number; ``listed``: those it is told for (empty: every second one).
    """

    first: int
    line: Line
    listed: tuple[int, ...] = ()

    def comes_at(self, number: int) -> bool:
        """Whether the row of that number is this one again."""
        if self.listed:
            return number > self.first and number in self.listed
        return number > self.first and (number - self.first) % 2 == 0


class Standing:
    """Where one size stands: a plain, changing record.

    ``number`` is that of the next row, None behind an open number of rows; ``numbered``: numbers
    can be judged; ``other_number`` is what the text counts on from, once it differs. ``rows`` were
    worked in all. ``side`` faces in the next row; ``side_said``: the text has named a side.
    ``said`` are the words of lines that work nothing, or another part like the first. ``cut``: the
    yarn was fastened off. ``worked`` is how the piece is worked where the text changed it.
    ``fresh``: the section's first row is to come. ``unknown``: a row below is not counted;
    ``doubt``: it is counted on a guess. ``faulty`` are rows that have their message already.
    ``below_line`` is what was there before the line at hand, and how that is worked; ``grown_from``
    what was there before the last line that worked anything. ``unworked`` is what was left behind
    and not taken up since; ``onto`` is the earlier row that the row at hand takes up.
    ``only_asked``: nothing is asked but whether the rows come out. ``beside`` are the row ends that
    the row at hand goes along.
    ``alternate`` are rows that are worked again where the numbers come to them. ``part`` is what
    the section is called, or the heading among its rows. ``as_stated`` is what the last row states
    to leave, where it makes something else. The height is that below the section, and
    ``section_rows`` of the section's row height; ``heights`` are those worked out so far in it,
    ``all_heights`` those of all sections and sizes; ``levels`` are the heights that rows were
    counted up from, the last of them last. ``stitch_width`` is that of the section,
    ``width_below`` that of the section before it.
    """

    __slots__ = (
        "all_heights",
        "alternate",
        "as_stated",
        "at_start",
        "below_line",
        "below_section",
        "beside",
        "by_name",
        "context",
        "cut",
        "doubt",
        "fabric",
        "faulty",
        "fresh",
        "grown_from",
        "heights",
        "last",
        "levels",
        "number",
        "numbered",
        "only_asked",
        "onto",
        "other_number",
        "part",
        "repeated",
        "row_height",
        "rows",
        "said",
        "section",
        "section_rows",
        "side",
        "side_said",
        "stitch_width",
        "taken_up_within",
        "turned",
        "unknown",
        "unworked",
        "width_below",
        "worked",
        "worked_rows",
    )

    def __init__(
        self, context: SizeContext, fabric: Fabric | None, rows: int, heights: Heights
    ) -> None:
        self.context = context
        self.all_heights = heights
        self.heights: dict[int, Fraction] = {}
        self.fabric = fabric
        self.number: int | None = 1
        self.numbered = True
        self.other_number: int | None = None
        self.rows = rows
        self.side: Side | None = None
        self.side_said = self.cut = False
        self.said: tuple[str, ...] = ()
        self.turned = self.fresh = True
        self.unknown = self.doubt = False
        self.worked: str | None = None
        self.section = -1
        self.below_section: Fraction | None = Fraction(0)
        self.section_rows: int | None = 0
        self.row_height: Fraction | None = None
        self.stitch_width: Fraction | None = None
        self.width_below: Fraction | None = None
        self.levels: tuple[Level, ...] = ()
        self.only_asked = False
        self.onto: int | None = None
        self.worked_rows: Worked | None = None
        self.by_name: Mapping[str, Line] = {}
        self.last: Line | None = None
        self.faulty: tuple[Row, ...] = ()
        self.as_stated: tuple[Fabric, Counted] | None = None
        self.repeated: Repeated | None = None
        self.below_line: tuple[Fabric | None, str] = (fabric, "flat rows")
        self.grown_from: Fabric | None = None
        self.unworked: Unworked | None = None
        self.taken_up_within = False
        self.at_start = None if fabric is None or not rows else fabric.sts
        self.alternate: tuple[Due, ...] = ()
        self.beside = Beside()
        self.part = ""

    def copy(self) -> Standing:
        """An independent copy: all that it holds is never changed, but replaced."""
        twin = Standing.__new__(Standing)
        twin.take_over(self)
        return twin

    def take_over(self, other: Standing) -> None:
        """Stand where another stands."""
        self.context = other.context
        self.all_heights = other.all_heights
        self.heights = other.heights
        self.fabric = other.fabric
        self.number = other.number
        self.numbered = other.numbered
        self.other_number = other.other_number
        self.rows = other.rows
        self.side = other.side
        self.side_said = other.side_said
        self.said = other.said
        self.cut = other.cut
        self.turned = other.turned
        self.fresh = other.fresh
        self.unknown = other.unknown
        self.doubt = other.doubt
        self.worked = other.worked
        self.section, self.part = other.section, other.part
        self.below_section = other.below_section
        self.section_rows = other.section_rows
        self.row_height = other.row_height
        self.stitch_width = other.stitch_width
        self.width_below = other.width_below
        self.levels = other.levels
        self.onto = other.onto
        self.worked_rows = other.worked_rows
        self.by_name = other.by_name
        self.last = other.last
        self.faulty = other.faulty
        self.as_stated = other.as_stated
        self.repeated = other.repeated
        self.below_line = other.below_line
        self.grown_from = other.grown_from
        self.unworked = other.unworked
        self.taken_up_within = other.taken_up_within
        self.at_start = other.at_start
        self.alternate = other.alternate
        self.only_asked = other.only_asked
        self.beside = other.beside

    # --- sections and heights --------------------------------------------------------------

    def enter(self, lined: Lined) -> None:
        """Go on to the section of a line."""
        if self.section == lined.section:
            return
        below = self.height()
        self.section, self.part = lined.section, lined.part
        self.row_height = lined.row_heights[self.context.index]
        self.width_below = self.stitch_width
        self.stitch_width = lined.stitch_width
        self._rise_from(below)
        self.worked, self.alternate = None, ()
        self.fresh = True

    def _lie_sideways(self, along: int) -> None:
        """The row at hand goes along the ends of so many rows: their length is a height now.

        A ribbing worked sideways is as high as its rows were long.
        """
        self.beside = self.beside._replace(last=Sideways(self.rows, along))
        width = self.stitch_width if self.section_rows else self.width_below
        sts = None if self.fabric is None else self.fabric.sts
        self._rise_from(None if width is None or not sts else sts * width)

    def stand_on(self, number: int | None) -> None:
        """The row at hand takes up places of the row of that number: it rises from there.

        A second shoulder begins as high as the first did, whatever was worked since.
        """
        self.onto = number
        self._rise_from(None if number is None else self._height_after(number))

    def _rise_from(self, below: Fraction | None) -> None:
        """Count heights from this one on, with the section's row height."""
        self.below_section = below
        self.section_rows = 0
        key = (_ratio(below), _ratio(self.row_height))
        self.heights = self.all_heights.setdefault(key, {})
        self.levels = (*self.levels, Level(self.number, below, self.row_height))

    def _height_after(self, number: int) -> Fraction | None:
        """How high the piece was after the row of that number (mm)."""
        for level in reversed(self.levels):
            if level.number is None or level.number <= number:
                if level.number is None or level.below is None or level.row_height is None:
                    return None
                return _up(level.below, level.row_height, number - level.number + 1)
        return self.height()

    def how(self, lined: Lined) -> str:
        """How the piece is worked here."""
        return self.worked or lined.worked

    def height(self) -> Fraction | None:
        """Of the piece so far (mm); None where a row gauge is missing or a number of rows open."""
        below, rows = self.below_section, self.section_rows
        if below is None or rows == 0:
            return below
        if rows is None or self.row_height is None:
            return None
        known = self.heights.get(rows)
        if known is None:
            known = self.heights[rows] = _up(below, self.row_height, rows)
        return known

    def section_height(self) -> Fraction | None:
        """Of the section so far (mm)."""
        if self.section_rows == 0:
            return Fraction(0)
        if self.section_rows is None or self.row_height is None:
            return None
        return self.row_height * self.section_rows

    def is_cut(self) -> bool:
        """Whether the yarn was fastened off, by the last row or by a line of its own."""
        return self.cut or (self.last is not None and is_fastened_off(self.last.facts))

    # --- moving on -------------------------------------------------------------------------

    def come_to(self, how: str) -> None:
        """A line is at hand: keep what is there before it, and before the last that changed it."""
        below = self.below_line[0]
        if below is not self.fabric:
            self.grown_from = below
        self.below_line = (self.fabric, how)

    def go_on(self, line: Line, result: RowCount) -> None:
        """One row is worked."""
        if result.sideways:
            self._lie_sideways(result.sideways)
        fabric = result.fabric
        self.fabric, self.turned = fabric, fabric.turned
        self.cut = False
        self.last = line
        # as ``pass_rows`` does for one row, which is asked for more often than all else
        self.rows += 1
        if fabric.turned and self.side is not None:
            self.side = "WS" if self.side == "RS" else "RS"
        if self.number is not None:
            self.number += 1
        if self.other_number is not None:
            self.other_number += 1
        if self.section_rows is not None:
            self.section_rows += 1

    def pass_rows(self, rows: int, turns: int | None = None) -> None:
        """Rows are worked; the work is turned after each, or so many times, if said."""
        if rows <= 0:
            return
        self.rows += rows
        if turns is None:
            turns = rows if self.turned else 0
        if turns % 2 and self.side is not None:
            self.side = "WS" if self.side == "RS" else "RS"
        if self.number is not None:
            self.number += rows
        if self.other_number is not None:
            self.other_number += rows
        if self.section_rows is not None:
            self.section_rows += rows

    def lose_count(self) -> None:
        """So many rows that nobody knows the number."""
        self.number = self.below_section = self.section_rows = None

    def work(self, line: Line, how: str, stated: Stated | None = None) -> RowCount:
        """Work a row over the places that are there now; it may state how often it repeats.

        The same row over the same places makes the same: it is not walked again.
        """
        known = self.repeated
        if known is None or not known.is_for(line, how, self.fabric):
            known = Repeated(line, self.fabric, how, self.count(line, how, self.fabric))
            self.repeated = None if line.facts.along_rows else known
        result = known.result
        if states_patterns(stated):
            result = with_repeats(result, line.facts, known.below, self.context, how)
        return result

    def count(self, line: Line, how: str, below: Fabric | None) -> RowCount:
        """Count a row over these places, by arithmetic where it is plain, else by walking it."""
        if line.plan is not None and not line.choices:
            result = count_plainly(line.plan, line.facts, below, self.context, how)
            if result is not None:
                return result
        ends = self._row_ends(line) if line.facts.along_rows else NO_ENDS
        if ends is not self.beside.ends:
            self.beside = self.beside._replace(ends=ends)
        return work(
            line.facts,
            below,
            self.context,
            worked=how,
            row_ends=ends,
            bottom=self._bottom() if line.facts.along_rows else None,
            choices=line.choices,
            only_asked=self.only_asked,
        )

    def _row_ends(self, line: Line) -> RowEnds:
        """Along how many row ends a row goes that is worked over them."""
        own = 0  # the rows since this fabric was begun
        for stretch in self.stretches():
            own += stretch.times
            if stretch.below is None or stretch.below.foundation:
                break
        else:
            own = self.rows
        last = self.beside.last
        if last is None or last.before <= self.rows - own:
            return RowEnds(own)
        joined = any(isinstance(step, JoinYarn) for step in line.facts.written)
        return last.ends_behind(
            self.rows,
            text=line.row.text,
            joined=joined or self.is_cut(),
            stated=line.row.stated is not None,
        )

    def _bottom(self) -> int | None:
        """How many chains the piece was begun with, as far as stitches stand on them."""
        return bottom_of(self.worked_rows, self.context, self.at_start)

    # --- rows to be worked again -----------------------------------------------------------

    def remember(self, lines: tuple[Line, ...], first: int | None, times: int, name: str) -> None:
        """Keep what rows work, by their numbers and by the name of their line."""
        if not lines:
            return  # a shaping that this size does not work
        self.last = lines[(times - 1) % len(lines)]
        if times > 0:
            below, how = self.below_line
            self.worked_rows = Worked(
                first,
                times,
                lines,
                self.worked_rows,
                below,
                how,
                self.onto,
                name=name,
                row_ends=self.beside.ends if lines[0].facts.along_rows else NO_ENDS,
                part=self.part,
            )
            self.onto = None
            if self.taken_up_within and self.unworked is not None:
                # what short rows of this repeat left was taken up by a row of it
                self.unworked = self.unworked._replace(rows=self.worked_rows)
            self.taken_up_within = False
        if name:
            self.by_name = {**self.by_name, name: self.last}

    def stretches(self) -> Iterator[Worked]:
        """The rows worked so far, the last ones first."""
        rows = self.worked_rows
        while rows is not None:
            yield rows
            rows = rows.before

    def line_of(self, number: int, part: str | None = None) -> Line | None:
        """What the row of a number works; of several with that number the last one.

        ``part``: only of the rows behind a label or a heading that names this part.
        """
        found: list[Line] = []
        for rows in self.stretches():
            line = rows.line_of(number)
            if part is not None and line is not None and rows.part.casefold().strip() == part:
                return line
            found += [] if line is None else [line]
            if part is not None and found and rows.name and rows.name.casefold() != part:
                found.clear()  # it is of another part
            elif found and (part is None or rows.name):
                return found[0]
        return None

    def last_lines(self, count: int) -> list[Line]:
        """What the last rows work, the first of them first; fewer where there are not so many."""
        found: list[Line] = []
        for rows in self.stretches():
            for at in range(rows.times - 1, -1, -1):
                if len(found) == count:
                    return found[::-1]
                found.append(rows.line_at(at))
        return found[::-1]


def bottom_of(rows: Worked | None, context: SizeContext, at_start: int | None) -> int | None:
    """How many chains were worked into first; ``at_start`` where there was no chain."""
    while rows is not None:
        if rows.below is None or rows.below.foundation:
            return chains_worked(rows.line_at(0).facts, rows.below, context, rows.how) or None
        rows = rows.before
    return at_start


def _ratio(mm: Fraction | None) -> Ratio | None:
    """A length as whole numbers, which are looked up faster."""
    return None if mm is None else mm.as_integer_ratio()


def _up(below: Fraction, row: Fraction, rows: int) -> Fraction:
    """So many rows above a height, reduced once."""
    parts = below.denominator * row.denominator
    return Fraction(
        below.numerator * row.denominator + row.numerator * rows * below.denominator, parts
    )


def flipped(side: Side, turns: int) -> Side:
    """The side that faces after so many turns."""
    if turns % 2 == 0:
        return side
    return "WS" if side == "RS" else "RS"
