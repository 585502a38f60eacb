"""In which yarn and colour every row of a piece is worked, and how many ends that leaves.

Takes     a ``ProvenPiece``, the ``Palette`` of the pattern, its sizes.
Gives     ``PieceWork``: what is worked in each ``Held``, and the ends of yarn (``worked_in``).
Problems  none: a ``Doubt`` says where a colour is not told.
From      design.md, "Numbers a maker can trust"; the rules below are common practice.

A colour goes on until another is named, in the next section too. Rows worked again keep their
stripes: where any of them names a colour, each is worked in that of its first working, also one
that names none; where none does, they go on in the colour at hand, or in that of the repeat.
"Changing colour every 2 rows" goes on with the stripe at hand until it has 2 rows.

Ends: yarn that is started leaves one, and so does yarn that is fastened off. Where another colour
takes over between two rows the first is fastened off, unless it is said to be carried, dropped or
not cut; colours that change within a row are carried along. At the end of the piece all are
fastened off.

Worked example: ``With A, ch 21`` · ``Row 1 …`` · ``Row 2: with B …`` · ``rep Rows 1 and 2 twice``
is A B A B A B, six strands with two ends each; with "carry A up the side" A is one strand.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from workeven.notation.colours import ColourSaid, Order, colours_said
from workeven.notation.tree import Row, WorkedRow
from workeven.pattern import Section
from workeven.pattern.colours import Palette, Shade, is_part
from workeven.proof import ProvenPiece, ProvenRow, RowInSize
from workeven.proof.coloured import Walks, rows_since
from workeven.proof.proven import Counted
from workeven.proof.standing import Worked
from workeven.yarn.clusters import apart, clusters_of
from workeven.yarn.said import NOTHING_SAID, Said, changes, said_in
from workeven.yarn.unsaid import Unsaid, unsaid

#: more rows than these, in one line and several colours, are counted in all and not by colour
_MOST_ROWS = 2_000
_PAIR = 2
#: how the rows of a line come by their colours: by its own words, by an order that it gives, as
#: when they were worked first, or in what is at hand
_Way = Literal["own", "order", "stripes", "as they are"]


class Held(NamedTuple):
    """What is on the hook: a yarn, its colour, the yarns held together with it.

    ``colour`` is None where the yarn lists none; ``sure`` is False where it is not told.
    """

    yarn: str
    colour: str | None
    beside: tuple[str, ...] = ()
    sure: bool = True


class Doubt(NamedTuple):
    """Where it is not told in which of several colours a row is worked.

    ``why`` is "" where that is an error of the file, which has its message.
    """

    row: Row
    why: str


class PieceWork:
    """What is worked in each yarn and colour of a piece made once, by size: it grows by lines.

    ``worked``: by kind, as the rows name them, but for ``clusters`` (``clusters.apart``). ``ends``:
    how many ends of yarn are left. ``first``: where each kind stands first in each yarn. ``last``
    is what the piece ends in, in each size. ``open_yarns`` are worked for a number of rows that is
    not known; of those ``lost`` it is not told which stitches are theirs. ``of_lines``: what each
    line has in each of them, by its anchor and the size, where that is asked for. ``of_rows``: in
    each size what the stretches of each row are worked in, by the number of the row, and
    ``columns`` those of its words from which each stretch but the first is in force.
    """

    def __init__(
        self, sizes: int, clusters: frozenset[str] = frozenset(), *, by_line: bool = False
    ) -> None:
        self.sizes = sizes
        self.clusters = clusters
        self.by_line = by_line
        self.of_rows: list[dict[int, tuple[Held, ...]]] = [{} for _ in range(sizes)]
        self.columns: list[dict[int, tuple[int, ...]]] = [{} for _ in range(sizes)]
        self.of_lines: dict[tuple[str, Held, int], tuple[tuple[str, int], ...]] = {}
        self.worked: dict[Held, list[dict[str, int]]] = {}
        self.ends: dict[Held, list[int]] = {}
        self.first: dict[tuple[str, str], ProvenRow] = {}
        self.last: list[Held | None] = [None] * sizes
        self.open_yarns: set[str] = set()
        self.lost: set[str] = set()
        self.doubts: dict[str, Doubt] = {}

    def add(self, held: Held, size: int, worked: Counted, row: ProvenRow) -> None:
        """So much is worked in it by this line."""
        worked = apart(worked, self.clusters)
        if self.by_line:
            line = (row.anchor, held, size)
            self.of_lines[line] = (*self.of_lines.get(line, ()), *worked)
        in_sizes = self.worked.get(held)
        if in_sizes is None:
            in_sizes = self.worked[held] = [{} for _ in range(self.sizes)]
        total = in_sizes[size]
        for kind, number in worked:
            known = total.get(kind)
            total[kind] = number if known is None else known + number
            if known is None:
                for yarn in (held.yarn, *held.beside):
                    self.first.setdefault((yarn, kind), row)

    def row_by_row(
        self,
        plan: Sequence[tuple[Held, ...]],
        size: int,
        entry: RowInSize,
        columns: Sequence[tuple[int, ...]] = (),
    ) -> None:
        """These rows are worked in this; of several of one number the first is kept."""
        if self.by_line and entry.first is not None:
            for at, stretches in enumerate(plan):
                number = entry.first + at
                self.of_rows[size].setdefault(number, stretches)
                self.columns[size].setdefault(number, columns[at] if columns else ())

    def end(self, held: Held, size: int) -> None:
        """One more end of yarn is left."""
        self.ends.setdefault(held, [0] * self.sizes)[size] += 1

    def doubt(self, yarn: str, row: Row, why: str) -> None:
        """It is not told of which colour of a yarn this row is; the first such place is kept."""
        self.doubts.setdefault(yarn, Doubt(row, why))


def worked_in(
    piece: ProvenPiece, palette: Palette, first: str, walks: Walks, *, by_line: bool = False
) -> PieceWork:
    """What a piece is worked in; ``first`` is the yarn of a section that names none."""
    special = walks.graded.pattern.stitches
    work = PieceWork(len(piece.piece.make.values), clusters_of(piece, special), by_line=by_line)
    says: dict[Place, Said] = {}
    sections: list[_Lines] = []
    for section in piece.sections:
        lines: list[tuple[ProvenRow, Said, bool]] = []
        for row in section.rows:
            said = said_in(row.row)
            if said is not NOTHING_SAID:
                says[place_of(row.row)] = said
            lines.append((row, said, not isinstance(row.row.body, WorkedRow)))
        sections.append((section.section, lines))
    beside = unsaid(piece)
    for size in range(work.sizes):
        _Walk(work, palette, size, says, walks, beside).along(sections, first)
    return work


#: a section, and its lines: what each says of yarn, and whether it works other rows again
_Lines = tuple[Section, list[tuple[ProvenRow, Said, bool]]]


Place = tuple[int, int, str]


def place_of(row: Row) -> Place:
    """What tells a row from the others of a file, also where it is read in another way."""
    return (row.span.line, row.span.column, row.text)


class _Walk:
    """One size on its way through a piece: what is on the hook, which strands hang on the work.

    ``by_words``: the yarn at hand was named by a row; ``spoken``: a row has said something of yarn,
    so that rows worked again may say it again. ``begun``: in what each row was begun first.
    ``rows``: how many rows the stripe at hand has. ``turns``: the colours in turn of the section,
    and ``order`` those of the rows worked again last, ``turn`` how many rows of them are worked.
    """

    def __init__(
        self,
        work: PieceWork,
        palette: Palette,
        size: int,
        says: Mapping[Place, Said],
        walks: Walks,
        beside: Unsaid,
    ) -> None:
        self.work, self.palette, self.size, self.says = work, palette, size, says
        self.walks, self.beside = walks, beside
        self.hook: Held | None = None
        self.live: dict[Held, None] = {}
        self.carried: set[Held] = set()
        self.carries_all = self.by_words = self.spoken = False
        self.begun: dict[Place, Held] = {}
        self.rows = self.turn = 0
        self.turns: Order = ()
        self.order: Order = ()

    @property
    def held(self) -> Held:
        assert self.hook is not None  # a section was entered
        return self.hook

    def along(self, sections: list[_Lines], first: str) -> None:
        """All rows that the size works, in order."""
        before: ProvenRow | None = None
        for section, lines in sections:
            entered = False
            for row, said, again in lines:
                entry = row.per_size.values[self.size]
                if entry is not None:
                    if not entered:
                        self._enter(section, first, row.row)
                        entered = True
                    if said is not NOTHING_SAID or (again and self.spoken) or self.turns:
                        self._line(row, entry, said, before)
                    else:
                        self._plainly(row, entry)
                    if more := self.beside.get(row.anchor):
                        self.work.add(self.held, self.size, more[self.size], row)
                before = row
        for held in self.live:
            self.work.end(held, self.size)
        self.work.last[self.size] = self.hook

    # --- lines -----------------------------------------------------------------------------

    def _enter(self, section: Section, first: str, row: Row) -> None:
        """A section begins: in the yarn and colour that it names, else in what is at hand."""
        yarn = section.yarn or (self.held.yarn if self.by_words else first)
        if self.hook is None or yarn != self.hook.yarn or section.beside != self.hook.beside:
            self._change(self._of(self.palette.only(yarn), section.beside))
            self.by_words = False
        named = "" if section.colour is None else section.colour.text
        self.turns = turns_of(named)
        self.turn = 0
        if self.turns:
            self._take_turn(self.turns, 0, row)
        elif named and (shade := self.palette.of(named, yarn)) is not None:
            self._change(self._of(shade, section.beside))

    def _plainly(self, row: ProvenRow, entry: RowInSize) -> None:
        """A line that goes on in what is at hand."""
        held = self.held
        if entry.times is None:
            self.work.open_yarns.update((held.yarn, *held.beside))
        if entry.worked:
            if held not in self.live:
                self._start(row.row)
            self.work.add(held, self.size, entry.worked, row)
        self.work.row_by_row([(held,)] * min(entry.times or 0, _MOST_ROWS), self.size, entry)
        if self.says:
            self.begun.setdefault(place_of(row.row), held)
            self.rows += entry.times or 0

    def _line(self, row: ProvenRow, entry: RowInSize, said: Said, before: ProvenRow | None) -> None:
        """One line of the pattern that says something of its yarn, or works such rows again."""
        if entry.times is None:
            self.work.open_yarns.update((self.held.yarn, *self.held.beside))
        self.spoken = True
        behind = row.behind[self.size] if row.behind else None
        rows = rows_since(behind, before.behind[self.size] if before and before.behind else None)
        if rows:
            self._rows(row, entry, said, rows)
            return
        self._say(said.head, row.row)
        if entry.worked:
            self._start(row.row)
            self.work.add(self.held, self.size, entry.worked, row)
        self._say((*said.inside, *said.behind), row.row)

    def _said(self, row: Row) -> Said:
        if not self.says:
            return NOTHING_SAID
        return self.says.get(place_of(row), NOTHING_SAID)

    def _rows(self, row: ProvenRow, entry: RowInSize, said: Said, rows: list[Worked]) -> None:
        """The rows that a line stands for, one after the other."""
        times = sum(one.times for one in rows)
        again = not isinstance(row.row.body, WorkedRow)
        if again:
            self._say(said.head, row.row)
        if said.order is not None:
            self.order, self.turn = said.order or self.order, 0
        way = self._way(said, rows, again=again)
        plan: list[tuple[Held, ...]] = []
        columns: list[tuple[int, ...]] = []
        for number in range(min(times, _MOST_ROWS)):
            origin = _at(rows, number)
            words = said if way == "own" else self._said(origin)
            if way == "order":
                self._take_turn(self.order, number, row.row)
            elif self.turns:
                self._take_turn(self.turns, self.turn, row.row)
                self.turn += 1
            elif way == "stripes" and not words.named_first:
                self._change(self.begun.get(place_of(origin), self.held))
            # what is told behind rows that are worked even is done once, behind the last of them
            others = way != "own" and place_of(origin) != place_of(row.row)
            last = others or number == times - 1
            plan.append(self._row(row.row if way == "own" else origin, words, way, last=last))
            columns.append(self._columns(origin))
        if again:
            self._say(said.behind, row.row)
        self.work.row_by_row(plan, self.size, entry, columns)
        self._attribute(row, entry, rows, plan)

    def _way(self, said: Said, rows: list[Worked], *, again: bool) -> _Way:
        """How the rows of a line come by their colours."""
        if said.order is not None:
            return "order"
        if not again:
            return "own"
        if not said.named_first and any(
            self._said(line.row).names for one in rows for line in one.lines
        ):
            return "stripes"
        return "as they are"

    def _row(self, row: Row, said: Said, way: _Way, *, last: bool) -> tuple[Held, ...]:
        """One row; what its stretches are worked in."""
        recolours = way in ("own", "stripes")
        self._say(said.head, row, recolours=recolours)
        self.begun.setdefault(place_of(row), self.held)
        self._start(row)
        stretches = [self.held]
        for one in said.inside:
            self._say((one,), row, inside=True, recolours=recolours)
            if changes(one):
                self._start(row)
                stretches.append(self.held)
        if last or any(one.way == "join" for one in said.head):
            for one in said.behind:
                self._say((one,), row, recolours=recolours)
                if changes(one) and one.at in said.columns:
                    self._start(row)
                    stretches.append(self.held)
        self.rows += 1
        if any(
            stretches[one] != stretches[min(two, len(stretches) - 1)] for one, two in said.loops
        ):
            self.work.doubt(
                self.held.yarn, row, "a repeat begins in another colour than it ends in"
            )
            return (self.held._replace(colour=None, sure=False),)
        return tuple(stretches)

    def _attribute(
        self,
        row: ProvenRow,
        entry: RowInSize,
        rows: list[Worked],
        plan: list[tuple[Held, ...]],
    ) -> None:
        """Give what the line works to the colours of its rows."""
        held = dict.fromkeys(one for stretches in plan for one in stretches)
        if len(held) <= 1:
            self.work.add(next(iter(held), self.held), self.size, entry.worked, row)
            return
        parts = self._parts(rows, plan)
        whole: dict[str, int] = {}
        for _, worked in parts:
            for kind, number in worked:
                whole[kind] = whole.get(kind, 0) + number
        if whole == dict(entry.worked):
            for one, worked in parts:
                self.work.add(one, self.size, worked, row)
            return
        yarns = dict.fromkeys(yarn for one in held for yarn in (one.yarn, *one.beside))
        for yarn in yarns:
            self.work.doubt(yarn, row.row, "how many stitches each colour has cannot be told")
        self.work.lost.update(yarns if len(yarns) > 1 else ())
        first = next(iter(held))._replace(colour=None, sure=False)
        self.work.add(first, self.size, entry.worked, row)

    def _parts(
        self, rows: list[Worked], plan: list[tuple[Held, ...]]
    ) -> list[tuple[Held, Counted]]:
        found: list[tuple[Held, Counted]] = []
        number = 0
        for one in rows:
            for walked in self.walks.row_by_row(one, self.size, self._columns):
                if number >= len(plan):
                    return []
                stretches = plan[number]
                number += 1
                found += [
                    (stretches[min(at, len(stretches) - 1)], worked)
                    for at, worked in enumerate(walked.stretches)
                    if worked
                ]
        return found

    def _columns(self, row: Row) -> tuple[int, ...]:
        return self._said(row).columns

    # --- words -----------------------------------------------------------------------------

    def _say(
        self,
        words: tuple[ColourSaid, ...],
        row: Row,
        *,
        inside: bool = False,
        recolours: bool = True,
    ) -> None:
        """Do what words say; ``inside`` a row colours are carried along."""
        for one in words:
            if one.way == "carry":
                self._carry(one)
            elif one.way == "cut":
                self._cut(self._named(one.name) if one.name else self.held)
            elif one.way == "join" and not one.name and not one.other:
                self._cut(self.held)
            elif recolours:
                new = self._other(row) if one.other else self._named(one.name)
                if new is not None:
                    self.by_words = True
                    self._change(new, inside=inside)
                elif one.way != "label" and self.palette.yarns[self.held.yarn].colours:
                    why = f"no colour is called “{one.name}”" if is_part(one.name) else ""
                    self.work.doubt(self.held.yarn, row, why)

    def _carry(self, one: ColourSaid) -> None:
        named = self._named(one.name) if one.name else None
        if named is None:
            self.carries_all = True
        else:
            self.carried.add(named)

    def _named(self, name: str) -> Held | None:
        shade = self.palette.of(name, self.held.yarn)
        return None if shade is None else self._of(shade, self.held.beside)

    def _of(self, shade: Shade, beside: tuple[str, ...]) -> Held:
        sure = shade.colour is not None or not self.palette.yarns[shade.yarn].colours
        return Held(
            shade.yarn, shade.colour, tuple(one for one in beside if one != shade.yarn), sure
        )

    def _other(self, row: Row) -> Held:
        """Another colour, of two that the yarn has the other; else it is not told which."""
        held = self.held
        colours = self.palette.yarns[held.yarn].colours
        if len(colours) == _PAIR and held.colour in colours:
            return held._replace(colour=colours[1 - colours.index(held.colour)])
        why = "which colour comes next is not said" if colours else "the yarn lists no colours"
        self.work.doubt(held.yarn, row, why)
        return held._replace(colour=None, sure=False)

    def _take_turn(self, order: Order, number: int, row: Row) -> None:
        """The colour of the row of this number, counted from 0, in an order of colours."""
        if not order:
            self.work.doubt(self.held.yarn, row, "the order of the colours is not said")
            self._change(self.held._replace(colour=None, sure=False))
            return
        if not order[0][1]:
            if self.rows and self.rows % order[0][0] == 0:
                self._change(self._other(row))
            return
        left = number % sum(rows for rows, _ in order)
        for rows, name in order:
            if left < rows:
                named = self._named(name)
                self._change(self.held if named is None else named)
                return
            left -= rows

    # --- strands ---------------------------------------------------------------------------

    def _change(self, new: Held, *, inside: bool = False) -> None:
        """Go on in this; what was at hand is fastened off, unless it is carried."""
        old = self.hook
        if old == new:
            return
        if inside and old is not None:
            self.carried |= {old, new}
        if old is not None and not (inside or self.carries_all or old in self.carried):
            self._cut(old)
        self.hook, self.rows = new, 0

    def _cut(self, held: Held | None) -> None:
        """A strand is fastened off, if it hangs on the work."""
        held = self.held if held is None else held
        if held in self.live:
            del self.live[held]
            self.work.end(held, self.size)

    def _start(self, row: Row) -> None:
        """Something is worked: a strand is begun, unless it hangs on the work already."""
        if self.held not in self.live:
            self.live[self.held] = None
            self.work.end(self.held, self.size)
            if not self.held.sure:
                self.work.doubt(self.held.yarn, row, "in which colour it is worked is not said")


def turns_of(text: str) -> Order:
    """Colours in turn, where a section names several: ``2 rows Sand, 2 rows Foam``."""
    if not text[:1].isdigit():
        return ()
    said = colours_said(f"in colour order: {text}")
    return next((one.order for one in said if one.way == "order"), ())


def _at(rows: list[Worked], number: int) -> Row:
    """Where the row of that number, counted from 0, is written."""
    for one in rows:
        if number < one.times:
            return one.line_at(number).row
        number -= one.times
    return rows[-1].line_at(0).row
