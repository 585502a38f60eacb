"""Counts a piece one stitch at a time, over a plain list with one entry a stitch or space.

Takes     a ``Piece``.
Gives     for each row and size a ``Count``: stitches, makes by kind, or why it does not come out.
Problems  none: what does not come out is said in the count.
From      notation.md: The fabric, the table of steps, Chains at the start, Stated counts, Where the
          hook stands, Rounds are closed, Joined and turned, Turning and beginning chains, Named
          places, How repeats end, Slip stitches.

It is slow and shares no code with the engine on purpose. Each row is walked by ``row_walk``.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tests.oracle.places import OFF, Place, base, left_by
from tests.oracle.row_walk import RowWalk
from tests.oracle.structure import Again, Piece, Row, Same, Standing, Start, Stated, Travel, at_size


@dataclass(frozen=True, slots=True)
class RowCount:
    """One row in one size. ``fault``: empty when it comes out, missing, left over, or stated."""

    sts: int
    makes: dict[str, int]
    fault: str = ""


Counts = list[list[RowCount | None]]


def count(piece: Piece) -> Counts:
    """For each entry of the piece a list with one count a size.

    ``None``: the size does not work the entry, or an entry before it does not come out. An entry
    that stands for several rows has the count of its last.
    """
    fabrics = first_fabrics(piece)
    return [work_entry(piece.rows, entry, fabrics) for entry in range(len(piece.rows))]


def first_fabrics(piece: Piece) -> list[Fabric]:
    """What is there before the first row, in each size."""
    return [
        Fabric(piece.worked, _already_there(piece, size), each_chain=piece.each_chain)
        for size in range(piece.size_count)
    ]


def work_entry(
    rows: Sequence[Row | Again], entry: int, fabrics: list[Fabric]
) -> list[RowCount | None]:
    """Works an entry on the fabric of each size."""
    counts: list[RowCount | None] = []
    for size, fabric in enumerate(fabrics):
        last: RowCount | None = None
        for row in _workings(rows, rows[entry], size):
            if not fabric.broken:
                last = fabric.work(row, size)
        counts.append(last)
    return counts


def _already_there(piece: Piece, size: int) -> tuple[Place, ...]:
    places: list[Place] = []
    for kind, number in piece.start:
        sort = "sp" if kind.startswith("ch-") else "st"
        for _ in range(at_size(number, size)):
            places.append(Place(sort, kind, len(places)))
    return tuple(places)


def _workings(rows: Sequence[Row | Again], entry: Row | Again, size: int) -> Iterator[Row]:
    """The rows that an entry stands for in one size, one by one."""
    if isinstance(entry, Row):
        if entry.works is None or entry.works[size]:
            yield from [entry] * at_size(entry.times, size)
        return
    for _ in range(at_size(entry.times, size)):
        for earlier in rows[entry.first : entry.last + 1]:
            yield from _workings(rows, earlier, size)


class Fabric:
    """What the last row left, for one size."""

    def __init__(
        self, worked: str, left: tuple[Place, ...] = (), *, each_chain: bool = False
    ) -> None:
        self.worked = worked
        self.each_chain = each_chain
        self.left = list(left)
        self.before: tuple[list[Place], ...] = ()
        self.turned = True
        self.broken = False

    def copy(self) -> Fabric:
        """The same fabric, to try a row on."""
        twin = Fabric(self.worked, tuple(self.left), each_chain=self.each_chain)
        twin.turned, twin.broken = self.turned, self.broken
        twin.before = self.before
        return twin

    def order(self, row: Row) -> list[Place]:
        """The places in the order in which a row meets them."""
        if self.worked == "flat rows":
            return self.left[::-1] if self.turned else list(self.left)
        if self.worked == "joined rounds, turned" and self.turned:
            if _starts_at_join(row):
                return self.left[:1] + self.left[:0:-1]
            return self.left[::-1]
        return list(self.left)

    def work(self, row: Row, size: int) -> RowCount:
        """Works one row; a row that does not come out breaks the fabric."""
        if row.worked:
            self.turned = self.turned and not (self.worked != row.worked == "flat rows")
            self.worked = row.worked
        places = _begin(row, size) if row.begin else self.order(row)
        if row.begin and not row.steps:
            made: list[Place] | None = places
            fault = ""
        else:
            walk = RowWalk(places, row, size, self.worked, each_chain=self.each_chain)
            made, fault = walk.result()
        if made is None:
            self.broken = True
            return RowCount(0, {}, fault)
        if self._reaches_too_far(made):
            self.broken = True
            return RowCount(0, {}, "missing")
        counted = _counted(made)
        if row.stated is not None and not _agrees(row.stated, made, size):
            self.broken = True
            return RowCount(counted.sts, counted.makes, "stated")
        self.before = (*self.before, self.left)
        self.left = left_by(made)
        self.turned = row.turns
        return counted

    def _reaches_too_far(self, made: list[Place]) -> bool:
        """Whether posts rows below are worked around that are not there, each of them once."""
        for deep, number in Counter(place.deep for place in made if place.deep).items():
            if deep - 1 > len(self.before):
                continue
            there = self.before[1 - deep]
            if any(place.sort in ("ring", "ch") for place in there):
                continue
            if number > sum(place.sort == "st" for place in there):
                return True
        return False


def _starts_at_join(row: Row) -> bool:
    """Whether a turned round is worked from the joined stitch, not from the last stitch made."""
    for step in row.steps:
        match step:
            case Start(stands_for=""):
                continue
            case Start() | Same() | Travel() | Standing():
                return True
            case _:
                return False
    return False


def _begin(row: Row, size: int) -> list[Place]:
    """The places of a starting chain, a joined chain, a ring."""
    if row.begin in ("chain", "joined chain"):
        return [Place("ch", "ch", index) for index in range(at_size(row.chains, size))]
    return [Place("ring", "ring", 0)]


def _counted(made: list[Place]) -> RowCount:
    """A picot is not counted; the stitches of a leaf are, though they are no places of the row."""
    counted = [place for place in made if place != OFF]
    sts = sum(place.sort in ("st", "ch", "off") for place in counted)
    return RowCount(sts, dict(Counter(place.name for place in counted)))


def _agrees(stated: Stated, made: list[Place], size: int) -> bool:
    """Whether the stated figures are what was made, with the leaves or without them.

    Decreases and post stitches count as their base stitch unless the count names them.
    """
    counted = [place for place in made if place != OFF]
    alone = [place for place in made if place.sort != "off"]
    return any(_are(stated, places, size) for places in (counted, alone))


def _are(stated: Stated, made: list[Place], size: int) -> bool:
    named = {kind for kind, _ in stated.figures}
    for kind, figure in stated.figures:
        if kind == "sps":
            found = sum(place.sort == "sp" for place in made)
        elif kind in ("", "sts"):
            found = sum(place.sort in ("st", "ch", "off") for place in made)
        else:
            found = sum(
                place.name == kind or (place.name not in named and base(place.name) == kind)
                for place in made
            )
        if found != at_size(figure, size):
            return False
    return True
