"""What is worked in each yarn: stitches of every piece and size, and strands that are no stitches.

Takes     ``ProvenPattern``.
Gives     ``Tally`` for each yarn (``tallies``), with its ``Part`` and ``Strand``.
Problems  none.
From      design.md, "Numbers a maker can trust"; the rows as the proof counts them.

A piece is counted as often as it is made. A section is worked in the yarn that it names, else in
the first of the pattern. Chains, turning chains, joins and slip stitches are among the stitches.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Literal

from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.pattern import Yarn
from workeven.proof import ProvenPattern, ProvenPiece, ProvenRow
from workeven.records import record
from workeven.yarn.rates import Plain, plain

StrandKind = Literal["seam", "end", "fringe", "tassel", "pompom", "cord", "embroidery"]


@record
class Part:
    """What one piece, made once, has in one colour of a yarn.

    ``stitches``: in each size, by basic stitch, chains and slip stitches as ``ch``. ``colour``:
    None where the yarn has no colours, or where it is not said in which these are worked.
    ``beside``: the other yarns that are held together with it.
    """

    piece: str
    title: str
    make: PerSize[int]
    colour: str | None
    stitches: PerSize[Plain]
    beside: tuple[str, ...] = ()


@record
class Strand:
    """Lengths of yarn that are no stitches: ``number`` of them in each size, ``each`` in mm.

    ``number`` is that of all pieces as often as they are made. ``mass`` in g is set where the file
    weighs the thing instead (a pompom); ``each`` is then 0. ``basis`` says where the length is
    from, in words.
    """

    kind: StrandKind
    title: str
    colour: str | None
    number: PerSize[int]
    each: PerSize[Fraction]
    basis: str
    mass: PerSize[Fraction] | None = None

    @property
    def length(self) -> PerSize[Fraction]:
        """All of them together, in mm."""
        sizes = self.number.sizes
        pairs = zip(self.number, self.each, strict=True)
        return sizes.each(tuple(number * each for number, each in pairs))


@record
class Tally:
    """What is worked in one yarn.

    ``stitches``: in each size in all, each piece as often as it is made, by basic stitch. ``first``
    is where each of them stands first. ``open_rows``: how many rows are worked is not known.
    ``parts``: the same by piece and colour. ``strands`` are no stitches. ``by_colour``: the parts
    and strands say of which colour they are; ``why_not`` says in words why they do not.
    """

    yarn: Yarn
    stitches: tuple[Plain, ...]
    first: Mapping[str, ProvenRow]
    open_rows: bool
    parts: tuple[Part, ...] = ()
    strands: tuple[Strand, ...] = ()
    by_colour: bool = False
    why_not: str = ""

    def kinds(self) -> tuple[str, ...]:
        """Every kind of stitch, chains among them, in the order in which they occur."""
        return tuple(self.first)


def tallies(proven: ProvenPattern) -> tuple[Tally, ...]:
    """The tally of every yarn of the pattern, in its order."""
    return tuple(_tally(proven, yarn) for yarn in proven.graded.pattern.yarns)


def _tally(proven: ProvenPattern, yarn: Yarn) -> Tally:
    """All stitches of the sections worked in this yarn, each piece as often as it is made."""
    sizes = proven.graded.pattern.sizes
    parts: list[Part] = []
    first: dict[str, ProvenRow] = {}
    open_rows = False
    for piece, rows in _rows_in(proven, yarn):
        stitches: tuple[dict[str, int], ...] = tuple({} for _ in sizes.names)
        for row in rows:
            for index, counted in enumerate(row.per_size):
                if counted is None:
                    continue
                open_rows = open_rows or counted.times is None
                for name, count in plain(counted.worked).items():
                    stitches[index][name] = stitches[index].get(name, 0) + count
                    first.setdefault(name, row)
        if any(stitches):
            parts.append(_part(piece, sizes.each(tuple(stitches))))
    in_all = _in_all(sizes, parts)
    return Tally(yarn=yarn, stitches=in_all, first=first, open_rows=open_rows, parts=tuple(parts))


def _rows_in(proven: ProvenPattern, yarn: Yarn) -> Iterator[tuple[ProvenPiece, list[ProvenRow]]]:
    """The rows of every piece that are worked in a yarn."""
    default = proven.graded.pattern.yarns[0].name
    for piece in proven.pieces:
        yield (
            piece,
            [
                row
                for section in piece.sections
                if (section.section.yarn or default) == yarn.name
                for row in section.rows
            ],
        )


def _part(piece: ProvenPiece, stitches: PerSize[Plain]) -> Part:
    one = piece.piece
    return Part(piece=one.name, title=one.title, make=one.make, colour=None, stitches=stitches)


def _in_all(sizes: Sizes, parts: list[Part]) -> tuple[Plain, ...]:
    """Parts added up, each as often as its piece is made."""
    total: tuple[dict[str, int], ...] = tuple({} for _ in sizes.names)
    for part in parts:
        for index, stitches in enumerate(part.stitches):
            for name, count in stitches.items():
                made = count * part.make[index]
                total[index][name] = total[index].get(name, 0) + made
    return total
