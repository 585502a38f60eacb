"""Says by the oracle's walker where a text first does not come out, in each size.

Takes     ``Rows``.
Gives     ``judge``: a ``Judgement``: for each size the first line at fault and why.
Problems  none: a text that the reader does not know raises ``NotRead``.
From      notation.md: A row comes out, Stated counts, Labels, When it does not come out.

The stitches are walked one by one (tests/oracle/walker.py). What a text says beside them is held
against them: stated counts, row numbers, the chain that a round is joined to. Each size is
followed to its first fault and no further.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass, field

from tests.oracle.places import Hook, Place, base
from tests.oracle.row_walk import RowWalk
from tests.oracle.structure import All, Count, Repeat, Row, Step, Work, at_size
from tests.oracle.walker import Fabric
from tests.seeded.reading import Line, read, there_already
from tests.seeded.words import NotRead, Rows

#: a repeat of 60 times is walked 60 deep
sys.setrecursionlimit(20_000)

#: how often a line may be repeated in a text that is judged
MOST_ROWS = 400

#: stitches of a row: a repeat that grows by each round soon has more than a walker can walk
MOST_STITCHES = 600


@dataclass(frozen=True, slots=True)
class Fault:
    """A line that is wrong in a size."""

    line: int
    why: str


@dataclass(frozen=True, slots=True)
class Judgement:
    """The first fault of each size, ``None`` where all comes out; and the stitches by line."""

    faults: tuple[Fault | None, ...]
    sts: dict[int, tuple[int | None, ...]] = field(default_factory=dict)

    @property
    def whole(self) -> bool:
        """Whether nothing is wrong in any size."""
        return not any(self.faults)

    def lines(self) -> dict[int, tuple[int, ...]]:
        """The lines at fault, each with the sizes that fail there first."""
        found: dict[int, tuple[int, ...]] = {}
        for size, fault in enumerate(self.faults):
            if fault is not None:
                found[fault.line] = (*found.get(fault.line, ()), size)
        return found


def judge(rows: Rows, times: dict[int, Count] | None = None) -> Judgement:
    """The first fault of each size.

    ``times``: how many rows a line stands for that is worked up to a length.
    """
    lines = read(rows)
    start = there_already(rows)
    sizes = [_Size(rows, lines, size, start, times or {}) for size in range(rows.size_count)]
    sts = {line.number: tuple(size.sts.get(line.number) for size in sizes) for line in lines}
    return Judgement(tuple(size.fault for size in sizes), sts)


class Walk(RowWalk):
    """A row over a list of places, which also knows ``in each dc and in each ch-1 sp``."""

    def __init__(self, places: list[Place], row: Row, size: int, worked: str) -> None:
        super().__init__(places, row, size, worked, each_chain=False)
        self.nothing: dict[str, bool] = {}
        self.names.discard("tch")  # a row that names it alone still leaves its stitches over

    def fits(self, place: Place, name: str) -> bool:
        """Whether a place goes by one of the names."""
        if "+" in name:
            return any(super(Walk, self).fits(place, one) for one in name.split("+"))
        return super().fits(place, name)

    def repeat(self, step: Repeat, hook: Hook) -> Iterator[Hook]:
        """``to last 0 (1, 2) sts``: a 0 is meant as it stands."""
        none = isinstance(step.but, tuple) and not at_size(step.but, self.size)
        for after in super().repeat(step, hook):
            if not none or not self.rest(step.but_name, after.at):
                yield after

    def passed_over(self, hook: Hook) -> bool:
        """Whether places that the row works into lie before the turning chain, not yet worked."""
        names = self.names & {"st"} or self.names or {"st"}
        last = self.find("tch", hook.at)
        before = self.places[hook.at : last]
        return any(self.fits(place, name) for place in before for name in names)

    def names_nothing(self, into: str) -> bool:
        """Whether a name is that of no place in the row.

        ``each sc and each cl`` may be said over sc alone; not so when it passes something over.
        """
        if into not in self.nothing:
            passed = any(not self.fits(place, into) for place in self.places)
            names = into.split("+")
            if "ch" in names and not any(place.sort == "ch" for place in self.places):
                raise NotRead("chains of a space, one by one")
            there = [any(self.fits(place, name) for place in self.places) for name in names]
            self.nothing[into] = not any(there) or (passed and not all(there))
        return self.nothing[into]

    def step(self, step: Step, hook: Hook) -> Iterator[Hook]:
        """The ways in which one step can be worked; none where its place is nowhere in the row."""
        if isinstance(step, All | Work) and self.names_nothing(step.into):
            return
        if isinstance(step, Work) and step.into == "tch" and self.passed_over(hook):
            return
        yield from super().step(step, hook)


class _Size:
    """One size, from its first row to its first fault."""

    def __init__(
        self,
        rows: Rows,
        lines: list[Line],
        size: int,
        start: tuple[tuple[str, Count], ...],
        times: dict[int, Count],
    ) -> None:
        self.size = size
        self.worked = rows.worked
        self.fabric = Fabric(rows.worked, _places(start, size))
        self.sts: dict[int, int] = {}
        self.row_number: int | None = None
        self.lines = lines
        self.times = times
        self.fault: Fault | None = None
        for line in lines:
            why = self.work(line)
            if why:
                self.fault = Fault(line.number, why)
                break

    def work(self, line: Line) -> str:
        """Works a line; gives what is wrong with it, or nothing."""
        if line.unread:
            return line.unread
        if line.works is not None and not line.works[self.size]:
            return ""
        if line.wrong and line.wrong[self.size]:
            return line.wrong[self.size]
        times = self.times_of(line)
        if not times:
            return ""
        wrong_number = self.check_number(line, times)
        made: list[Place] | None = None
        for row in self.workings(line, times):
            made, fault = self.row(row)
            if made is None:
                return fault
        if made is not None:
            self.sts[line.number] = sum(place.sort in ("st", "ch") for place in made)
        if line.stated is not None:
            left = self.fabric.left if made is None else made
            return self.check_stated(line, left) or wrong_number
        return wrong_number

    def times_of(self, line: Line) -> int:
        """How many rows a line stands for, or repeats of the rows it names."""
        if line.until is not None:
            if line.number not in self.times:
                raise NotRead("a length")
            return at_size(self.times[line.number], self.size)
        return at_size(line.times, self.size)

    def workings(self, line: Line, times: int) -> Iterator[Row]:
        """The rows of a line, one by one."""
        if times * max(1, len(line.again)) > MOST_ROWS:
            raise NotRead("too many rows")
        for _ in range(times):
            if line.again:
                for at in line.again:
                    yield from self.lines[at].rows
            else:
                yield from line.rows

    def row(self, row: Row) -> tuple[list[Place] | None, str]:
        """One row worked on the fabric."""
        if len(self.fabric.left) > MOST_STITCHES:
            raise NotRead("too many stitches")
        if row.begin:
            places = _begun(row, self.size)
            made: list[Place] | None = places
            fault = ""
            if row.steps:
                made, fault = Walk(places, row, self.size, self.worked).result()
        else:
            places = self.fabric.order(row)
            made, fault = Walk(places, row, self.size, self.worked).result()
        if made is not None:
            made = [place for place in made if place.sort != "off"]
            self.fabric.left = made
            self.fabric.turned = row.turns
        return made, fault

    def check_number(self, line: Line, times: int) -> str:
        """A written row number is the row's; the first one of a text sets the start."""
        if not line.numbered:
            return ""
        first = 1 if self.row_number is None else self.row_number
        if line.label is not None and self.row_number is None:
            first = at_size(line.label[0], self.size)
        last = first + times * max(1, len(line.again)) - 1
        self.row_number = last + 1
        if line.label is None:
            return ""
        written, to = (at_size(one, self.size) for one in line.label)
        if written == to and line.again:
            to = last  # "Row 8: rep last row 5 more times" says where it begins
        return "" if (written, to) == (first, last) else f"it is {first} to {last}"

    def check_stated(self, line: Line, made: list[Place]) -> str:
        """A stated count is what was made; a decrease counts as its stitch unless it is named."""
        assert line.stated is not None
        named = {kind for kind, _ in line.stated.figures}
        for kind, figure in line.stated.figures:
            if kind in ("", "sts"):
                found = sum(place.sort in ("st", "ch") for place in made)
            elif kind == "sp":
                found = sum(place.sort == "sp" for place in made)
            else:
                found = sum(
                    place.name == kind or (place.name not in named and base(place.name) == kind)
                    for place in made
                )
            if found != at_size(figure, self.size):
                return f"{found} {kind}, not {at_size(figure, self.size)}"
        return ""


def _places(start: tuple[tuple[str, Count], ...], size: int) -> tuple[Place, ...]:
    return tuple(
        Place("sp" if kind.startswith("ch-") else "st", kind, at)
        for kind, number in start
        for at in range(at_size(number, size))
    )


def _begun(row: Row, size: int) -> list[Place]:
    if row.begin in ("chain", "joined chain"):
        return [Place("ch", "ch", at) for at in range(at_size(row.chains, size))]
    return [Place("ring", "ring", 0)]


__all__ = ["Fault", "Judgement", "NotRead", "Rows", "judge"]
