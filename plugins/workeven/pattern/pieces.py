"""Pieces and their sections, as records.

Takes     the table ``pieces``.
Gives     ``Piece``, ``Section``; the times of the film, in the order of the rows.
Problems  ``name-unknown``, ``name-title-twice``, ``file-shape``, ``file-too-many-rows``,
          ``row-not-understood``, ``size-unknown``, and those of ``reading`` and ``rows``.
From      design.md, "A pattern file": ``pieces``.
"""

from __future__ import annotations

import re
from typing import NamedTuple, cast

from workeven.arithmetic.per_size import PerSize
from workeven.notation.tree import Row, SpecialStitch
from workeven.notation.vocabulary import Vocabulary
from workeven.pattern.reading import Reading, entries, items, whole_of, words
from workeven.pattern.records import Holes, Piece, RowNote, Section, Shape, Worked
from workeven.pattern.rows import named_notes, read_rows
from workeven.pattern.seams import edges
from workeven.pattern.shapes import check_ends, holes_of, shape_of
from workeven.pattern.uses import length_asked, with_length
from workeven.problems import Note, Problem, Span
from workeven.problems.words import did_you_mean, joined, quote
from workeven.records import record, replace
from workeven.source import Entry, Node

#: more is no pattern that anyone works, and keeps everybody waiting
MOST_SECTIONS, MOST_LINES = 150, 1_200
_RANGE = re.compile(r"\s*(?:–|—|-|\bto\b)\s*")
_BETWEEN = re.compile(r"\s*(?:[,()]|\band\b|&)\s*")


@record
class Shown:
    """A time of the film (seconds), where it stands, and of which piece it speaks."""

    seconds: int
    span: Span
    piece: str


class _Work(NamedTuple):
    """What a section is worked by: its rows and their notes, or the shaping that becomes a row."""

    rows: tuple[Row, ...]
    notes: tuple[RowNote, ...]
    shape: Shape | None
    holes: Holes | None


class PiecesReading:
    """Reads pieces: with names that they may use; ``shown`` are the times met on the way.

    Names are None where a table that gives them is missing or no table, which has been told.
    """

    def __init__(
        self,
        reading: Reading,
        vocabulary: Vocabulary,
        *,
        gauges: tuple[str, ...] | None,
        yarns: tuple[str, ...] | None,
    ) -> None:
        self.reading = reading
        self.vocabulary = vocabulary
        self.gauges = gauges
        self.yarns = yarns
        self.shown: list[Shown] = []
        self.tables: dict[str, Node] = {}
        self.explained: dict[str, SpecialStitch] = {}
        self.opening = True

    def pieces(self, table: Node | None) -> tuple[Piece, ...] | None:
        """All pieces, in order."""
        self.tables = {name: entry.value for name, entry in entries(table).items()}
        if self._too_many():
            return None
        made = whole_of(self._piece(name, entry) for name, entry in entries(table).items())
        for piece in made or ():
            earlier = next(one for one in made or () if one.title == piece.title)
            if earlier is not piece:
                self.reading.problems.append(_twice(earlier, piece))
        if made is None:
            return None
        own = {piece.name: piece.edges for piece in made}
        return tuple(
            replace(piece, edges=own[piece.mirror]) if piece.mirror else piece for piece in made
        )

    def _too_many(self) -> bool:
        """Tell the first section beyond which there are more, or more rows, than anyone works."""
        sections = lines = 0
        for name, table in self.tables.items():
            for section in items(self.reading.node(table, "sections")):
                sections += 1
                rows = self.reading.node(section, "rows")
                lines += 0 if rows is None else len(words(rows).splitlines())
                if sections > MOST_SECTIONS or lines > MOST_LINES:
                    many = "sections" if sections > MOST_SECTIONS else "lines of rows"
                    most = MOST_SECTIONS if sections > MOST_SECTIONS else MOST_LINES
                    self.reading.problem(
                        "file-too-many-rows",
                        self.reading.source.span(section),
                        f"The pattern has more than {most:,} {many}.",
                        expected=f"At most {MOST_SECTIONS} sections and {MOST_LINES:,} lines; a "
                        "garment in nine sizes has some 10 and 40.",
                        mend="Write rows that come again as “rep Rows 2–5 3 more times”; divide "
                        "what is more than one pattern.",
                        piece=self.reading.text(table, "title") or title_of(name),
                    )
                    return True
        return False

    def _piece(self, name: str, entry: Entry) -> Piece | None:
        reading, table = self.reading, entry.value
        title = reading.text(table, "title") or title_of(name)
        gauge = self._name(table, "gauge", self.gauges, title)
        worked = reading.text(table, "worked")
        make_node = reading.node(table, "make")
        make = reading.wholes(make_node, f"pieces.{name}.make")
        if make_node is None and reading.sizes is not None:
            make = reading.sizes.all(1)
        mirror = reading.node(table, "mirror")
        if mirror is not None:
            return self._mirrored(name, title, make, entry, mirror)
        # rows are read whatever else is wrong, so that a slip in one is told at once
        in_force = cast("Worked", worked or "flat rows")
        sections: list[Section | None] = []
        self.opening = True
        nodes = items(reading.node(table, "sections"))
        for number, node in enumerate(nodes, start=1):
            heading = title if len(nodes) == 1 else f"Part {number}"
            section = self._section(node, title, heading, gauge, in_force)
            sections.append(section)
            in_force = section.worked if section is not None else in_force
        whole = whole_of(sections)
        if make is None or worked is None or not whole:
            return None
        named = edges(reading, reading.node(table, "edges"), whole, title)
        if named is None:
            return None
        return Piece(
            name=name,
            title=title,
            make=make,
            worked=cast("Worked", worked),
            sections=whole,
            span=reading.span(entry),
            edges=named,
        )

    def _mirrored(
        self, name: str, title: str, make: PerSize[int] | None, entry: Entry, mirror: Node
    ) -> Piece | None:
        """A piece that is worked as another is, mirrored: the other has the rows."""
        reading, other = self.reading, words(mirror)
        whole = [one for one, table in self.tables.items() if reading.node(table, "mirror") is None]
        if other not in whole:
            reading.unknown(mirror, "piece", whole, "Pieces with rows of their own", piece=title)
            return None
        if own := [
            key for key in ("worked", "gauge", "sections", "edges") if key in entries(entry.value)
        ]:
            reading.problem(
                "file-shape",
                reading.source.span(mirror),
                f"A piece that mirrors another has no {joined(map(quote, own), 'and no')} of its "
                "own.",
                expected=f"It is worked as {quote(other)} is.",
                mend=f"Take out {joined(map(quote, own))}, or `mirror`.",
                piece=title,
            )
            return None
        worked = reading.text(self.tables[other], "worked")
        if make is None or worked is None:
            return None
        return Piece(
            name=name,
            title=title,
            make=make,
            worked=cast("Worked", worked),
            sections=(),
            span=reading.span(entry),
            mirror=other,
        )

    def _section(
        self, table: Node, piece: str, heading: str, gauge: str | None, worked: Worked
    ) -> Section | None:
        reading = self.reading
        own_gauge = self._name(table, "gauge", self.gauges, piece)
        yarn, *beside = self._yarns(reading.node(table, "yarn"), piece) or (None,)
        colour = reading.node(table, "colour")
        sizes = self._sizes(reading.node(table, "sizes"), piece)
        title = reading.text(table, "title") or heading
        seconds = reading.seconds(reading.node(table, "video"))
        work = self._work(table, piece, title, seconds)
        if work is None or sizes == ():
            return None
        how = cast("Worked", reading.text(table, "worked") or worked)
        if work.shape is not None:
            check_ends(reading, work.shape, how)
        return Section(
            title=title,
            worked=how,
            gauge=own_gauge or gauge,
            yarn=yarn,
            sizes=sizes,
            note=reading.text(table, "note"),
            video=seconds,
            row_notes=work.notes,
            rows=work.rows,
            span=reading.source.span(table),
            shape=work.shape,
            holes=work.holes,
            beside=tuple(one for one in beside if one is not None),
            colour=None if colour is None else reading.placed(colour),
        )

    def _work(self, table: Node, piece: str, title: str, seconds: int | None) -> _Work | None:
        """The rows of a section with their notes, or the shaping that stands for them."""
        reading = self.reading
        rows_node = reading.node(table, "rows")
        shape_node, holes_node = reading.node(table, "shape"), reading.node(table, "holes")
        video = reading.node(table, "video")
        shape = None if shape_node is None else shape_of(reading, shape_node)
        holes = None if holes_node is None else holes_of(reading, holes_node)
        told = [key for key in ("rows", "shape", "holes") if reading.node(table, key) is not None]
        if len(told) > 1:
            self._said_twice(shape_node or holes_node or table, told, piece)
        if rows_node is None:
            self.opening = False  # a shaping works rows
            self._show(piece, seconds, video, ())
            return None if shape is None and holes is None else _Work((), (), shape, holes)
        read = read_rows(
            reading, rows_node, self.vocabulary, piece, self.explained, opening=self.opening
        )
        self.opening = read.opening
        self.explained |= {stitch.name: stitch for stitch in read.explained}
        self.vocabulary = self.vocabulary.with_special(stitch.name for stitch in read.explained)
        named = named_notes(reading, reading.node(table, "row_notes"), read.rows, piece)
        notes = tuple(sorted((*read.notes, *named), key=lambda note: note.at or 0))
        self._show(piece, seconds, video, notes)
        if not read.whole:
            return None
        rows = tuple(self._measuring(row, piece, title) for row in read.rows)
        return _Work(rows, notes, None, None)

    def _said_twice(self, made: Node, told: list[str], piece: str) -> None:
        self.reading.problem(
            "file-shape",
            self.reading.source.span(made),
            f"The section has {joined(list(map(quote, told)))}.",
            expected="Rows as written, or rows that are worked out.",
            mend="Make two sections of it, in the order in which they are worked.",
            piece=piece,
        )

    def _measuring(self, row: Row, piece: str, section: str) -> Row:
        """``until band measures 4 cm``: whether the section or the piece is the band."""
        until = length_asked(row)
        if until is None or not until.part:
            return row
        whole = words(self.reading.node(self.reading.root, "title") or self.reading.root)
        if _speaks_of(until.part, section) and not _speaks_of(until.part, piece):
            return with_length(row, replace(until, section=True, part=""))
        if not _speaks_of(until.part, piece) and not _speaks_of(until.part, whole):
            self.reading.problem(
                "row-not-understood",
                row.span.within(max(until.length.start - len(until.part), 0), until.length.end),
                f"“{until.part}” is neither this piece ({quote(piece)}) nor this section "
                f"({quote(section)}).",
                expected="What is measured: the piece from its starting chain, or the section.",
                mend="Write “until piece measures …” or “until section measures …”.",
                piece=piece,
            )
        return row

    def _show(
        self, piece: str, seconds: int | None, node: Node | None, notes: tuple[RowNote, ...]
    ) -> None:
        """Keep the times in the order in which a maker comes to them."""
        if seconds is not None and node is not None:
            span = self.reading.source.span(node)
            self.shown.append(Shown(seconds=seconds, span=span, piece=piece))
        for note in notes:
            if note.video is not None:
                span = note.video_span or note.span
                self.shown.append(Shown(seconds=note.video, span=span, piece=piece))

    def _name(self, table: Node, key: str, known: tuple[str, ...] | None, piece: str) -> str | None:
        """The name of a gauge or yarn; None when there is none of that name.

        An unknown gauge keeps its name, so that nobody takes it for none.
        """
        node = self.reading.node(table, key)
        if node is None:
            return None
        if known is None or words(node) in known:
            return words(node)
        self.reading.unknown(node, key, known, f"Names under `{key}`", piece=piece)
        return words(node) if key == "gauge" else None

    def _yarns(self, node: Node | None, piece: str) -> list[str | None]:
        """The yarns of a section, held together; one that is not there is told and left out."""
        found: list[str | None] = []
        for one in () if node is None else items(node) or (node,):
            if self.yarns is None or words(one) in self.yarns:
                found.append(words(one))
            else:
                self.reading.unknown(one, "yarn", self.yarns, "Names under `yarn`", piece=piece)
        return found

    def _sizes(self, node: Node | None, piece: str) -> tuple[int, ...] | None:
        """The sizes that work a section, by names or ranges (``L–5X``); () if one is unknown."""
        sizes = self.reading.sizes
        if node is None or sizes is None:
            return None
        found: set[int] = set()
        known = True
        for one in items(node) or (node,):
            for part in _parts(" ".join(words(one).split()), sizes.names):
                ends = [part] if part in sizes.names else _RANGE.split(part)
                for name in ends:
                    if name not in sizes.names:
                        known = False
                        self._unknown_size(one, name, sizes.names, piece)
                if all(name in sizes.names for name in ends):
                    first, last = sizes.names.index(ends[0]), sizes.names.index(ends[-1])
                    found.update(range(min(first, last), max(first, last) + 1))
        return tuple(sorted(found)) if known else ()

    def _unknown_size(self, node: Node, name: str, names: tuple[str, ...], piece: str) -> None:
        self.reading.problem(
            "size-unknown",
            self.reading.source.span(node),
            f"There is no size called {quote(name)}.",
            expected=f"Sizes: {joined(map(quote, names))}.",
            mend=did_you_mean(name, names) or "Write the names as they stand under `sizes`.",
            piece=piece,
        )


def _parts(text: str, names: tuple[str, ...]) -> list[str]:
    return [text] if text in names else [part for part in _BETWEEN.split(text) if part]


def _speaks_of(part: str, title: str) -> bool:
    """Whether the words for a part are those of a title.

    >>> _speaks_of("band", "Ribbed bands"), _speaks_of("sleeve", "Left sleeve")
    (True, True)
    >>> _speaks_of("back", "Backpack")
    False
    """
    said = {word.removesuffix("s") for word in part.casefold().split()}
    return said <= {word.removesuffix("s") for word in re.findall(r"\w+", title.casefold())}


def title_of(name: str) -> str:
    """A key as a heading.

    >>> title_of("left_front")
    'Left front'
    """
    spoken = name.replace("_", " ").strip()
    return spoken[:1].upper() + spoken[1:]


def _twice(first: Piece, second: Piece) -> Problem:
    return Problem(
        code="name-title-twice",
        span=second.span,
        found=f"Two pieces are called {quote(second.title)} on the page.",
        expected="A title of its own for each piece, since messages and links go by it.",
        mend="Give one of them another `title`.",
        piece=second.title,
        notes=(Note(span=first.span, message=f"the first {quote(first.title)}"),),
    )
