"""The pieces of a page: headings, drawings, every row.

Takes     ``ReadyPattern``.
Gives     ``Drawn``, ``draw``, ``piece_views``, ``in_size``, ``film_link``.
Problems  none.
From      design.md, "A pattern file": row numbers, counts and sides are added to the words.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from workeven.pattern import Piece, RowNote, Section, Video, Worked
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenPiece, ProvenRow, ProvenSection, chain_multiple, lies
from workeven.publish.drawings.measures import measures
from workeven.publish.drawings.outline import Outline, Shape, outline
from workeven.publish.drawings.svg import schematic
from workeven.publish.pages import anchors, figures, rows, spaced, worked_into
from workeven.publish.pages.texts import filled, paragraphs
from workeven.publish.pages.views import (
    DrawingView,
    Link,
    PieceView,
    RowView,
    SectionView,
    Table,
)
from workeven.publish.pages.worked_into import InSizes, Told
from workeven.records import record

_WORKED: dict[Worked, str] = {
    "flat rows": "worked in flat rows",
    "joined rounds": "worked in joined rounds, without turning",
    "joined rounds, turned": "worked in joined rounds, turned after each",
    "spiral rounds": "worked in a spiral, without joining",
}

_AS_SEEN: dict[Shape, str] = {
    "flat": (
        "laid flat as you look at the right side, its start at the bottom. Each stroke is a row, "
        "or several thin ones."
    ),
    "tube": (
        "laid flat, its start at the bottom, so that the width is half of the way around. Each "
        "stroke is a round, or several thin ones."
    ),
    "opened": (
        "opened out flat, as if cut along one line. Each arc is a round, as long as the round is."
    ),
    "vessel": "seen from the side, its start at the bottom. Each stroke is a round.",
    "disc": "seen from above. Each ring is a round.",
}
#: Only here does a row's side tell a maker anything.
_TURNED = {"flat rows", "joined rounds, turned"}
_SIDES = {"": "", "RS": "right side", "WS": "wrong side"}


@record
class Drawn:
    """The pieces as drawn in one size (its index): the outline of each, where it has one."""

    size: int
    outlines: tuple[Outline | None, ...]


def draw(ready: ReadyPattern) -> Drawn:
    """The pieces in the size of the video, else in the middle one."""
    names, video = ready.pattern.sizes.names, ready.pattern.video
    size = (len(names) - 1) // 2
    if video and video.shown_size in names:
        size = names.index(video.shown_size)
    gauges, proven = ready.pattern.gauges, ready.proven
    outlines = tuple(
        outline(piece, gauges, size, lies(proven.graded, piece, size)) for piece in proven.pieces
    )
    return Drawn(size=size, outlines=outlines)


def piece_views(
    ready: ReadyPattern, drawn: Drawn, into: Told, names: rows.Names
) -> tuple[PieceView, ...]:
    """Every piece in the pattern's order."""
    return tuple(
        _piece(
            ready,
            piece,
            _drawing(ready, piece, shape, drawn.size),
            iter(into[piece.piece.name]),
            names,
        )
        for piece, shape in zip(ready.proven.pieces, drawn.outlines, strict=True)
    )


def in_size(ready: ReadyPattern, at: int) -> str:
    """``in size M``; a pattern in one size needs no name for it."""
    names = ready.pattern.sizes.names
    return f"in size {names[at]}" if len(names) > 1 else "to scale"


def film_link(video: Video | None, seconds: int | None, words: str) -> Link | None:
    """A plain link to a place in the video, or to its beginning."""
    if video is None:
        return None
    if seconds is None:
        return Link(words=words, url=video.url)
    if video.time_link is None:
        return Link(words=f"{words} at {figures.clock(seconds)}", url=video.url)
    ending = video.time_link.replace("{seconds}", str(seconds))
    return Link(words=f"{words} at {figures.clock(seconds)}", url=video.url + ending)


# --- a piece -------------------------------------------------------------------------------


def _piece(
    ready: ReadyPattern,
    proven: ProvenPiece,
    drawing: DrawingView | None,
    into: Iterator[InSizes],
    names: rows.Names,
) -> PieceView:
    """A piece; ``into`` are its rows one after the other, section by section."""
    piece = proven.piece
    if piece.mirror is not None:
        return _mirrored(ready, piece, piece.mirror, drawing)
    titles = [section.section.title for section in proven.sections]
    multiple = chain_multiple(ready.proven.graded, piece)
    return PieceView(
        anchor=anchors.piece_anchor(piece.name),
        title=piece.title,
        facts=_facts(piece, multiple),
        like=None,
        drawing=drawing,
        sections=tuple(
            _section(ready, piece, section, anchor, into, names, repeats=multiple is not None)
            for section, anchor in zip(
                proven.sections, anchors.part_anchors(piece.name, titles), strict=True
            )
        ),
    )


def _mirrored(
    ready: ReadyPattern, piece: Piece, other: str, drawing: DrawingView | None
) -> PieceView:
    """A piece whose rows are told with the one that it mirrors."""
    title = next(one.title for one in ready.pattern.pieces if one.name == other)
    return PieceView(
        anchor=anchors.piece_anchor(piece.name),
        title=piece.title,
        facts=_facts(piece, None),
        like=Link(words=title, url=f"#{anchors.piece_anchor(other)}"),
        drawing=drawing,
        sections=(),
    )


def _facts(piece: Piece, multiple: tuple[int, int] | None) -> str:
    """How often a piece is made, how it is worked, and which starting chains suit it."""
    facts = f"Make {figures.counts(piece.make)}, {_WORKED[piece.worked]}."
    if multiple is None:
        return facts
    return f"{facts} The starting chain is a {figures.multiple(*multiple)}."


def _drawing(
    ready: ReadyPattern, proven: ProvenPiece, drawn: Outline | None, at: int
) -> DrawingView | None:
    if drawn is None:
        return None
    units = ready.pattern.studio.units
    told = measures(proven, ready.pattern.gauges, drawn.shape)
    title = f"{proven.piece.title}, drawn {in_size(ready, at)}"
    lettered = "; ".join(
        f"{figures.letter(place)}, {one.name}: {figures.both([one.lengths[at]], units)}"
        for place, one in enumerate(told)
    )
    return DrawingView(
        svg=schematic(drawn, told, size=at, name=title, words=f"Strokes for the rows. {lettered}."),
        words=f"Drawn {in_size(ready, at)}, {_AS_SEEN[drawn.shape]}",
        table=Table(
            caption=f"{proven.piece.title}: finished measurements in the drawing",
            heads=("Letter", "What it measures", "Length"),
            rows=tuple(
                (
                    figures.letter(place),
                    ((one.name,), figures.in_order(one.lengths.values, units)),
                )
                for place, one in enumerate(told)
            ),
        ),
    )


def _section(
    ready: ReadyPattern,
    piece: Piece,
    proven: ProvenSection,
    anchor: str,
    into: Iterator[InSizes],
    names: rows.Names,
    *,
    repeats: bool,
) -> SectionView:
    """A section; ``repeats``: its multiples are told, since another starting chain would do."""
    section = proven.section
    differs = section.worked != piece.worked
    video = ready.pattern.video
    return SectionView(
        anchor=anchor,
        title="" if section.title.casefold() == piece.title.casefold() else section.title,
        worked=figures.heading(f"{_WORKED[section.worked]}.") if differs else "",
        sizes=_sizes(ready, section),
        notes=paragraphs(filled(section.note, names)),
        video=None if section.video is None else film_link(video, section.video, "Video"),
        rows=tuple(
            one if repeats else replace(one, multiple="")
            for one in (_row(ready, piece, section, row, next(into), names) for row in proven.rows)
        ),
    )


def _sizes(ready: ReadyPattern, section: Section) -> str:
    if section.sizes is None:
        return ""
    named = [ready.pattern.sizes.names[at] for at in section.sizes]
    return f"Only in size{'s' if len(named) > 1 else ''} {figures.listed(named)}."


def _row(
    ready: ReadyPattern,
    piece: Piece,
    section: Section,
    proven: ProvenRow,
    into: InSizes,
    names: rows.Names,
) -> RowView:
    number = rows.number(proven)
    spacing = spaced.sentence(
        proven,
        into,
        ready.pattern.sizes.names,
        flat=section.worked == "flat rows",
        terms=ready.pattern.terms,
    )
    side = rows.side(proven) if section.worked in _TURNED else ""
    told = [note for note in section.row_notes if _is_about(note, section, proven, number)]
    seconds = next((note.video for note in told if note.video is not None), None)
    film = film_link(ready.pattern.video, seconds, "Video")
    return RowView(
        anchor=anchors.row_anchor(piece.name, proven.anchor),
        number=number,
        place=rows.place(proven),
        side=side,
        side_words=_SIDES.get(side, "right or wrong side, by size"),
        words=rows.row_words(proven, names),
        count=rows.count(proven),
        multiple=rows.multiple(proven),
        into=worked_into.sentence(proven, into),
        notes=(
            *((f"Read this as: {proven.reading}.",) if proven.reading else ()),
            *((spacing,) if spacing else ()),
            *(words for note in told for words in paragraphs(filled(note.note, names))),
        ),
        video=None if seconds is None else film,
    )


def _is_about(note: RowNote, section: Section, proven: ProvenRow, number: str) -> bool:
    """Whether a row note is of this row: by its place, else by its name or printed number."""
    if note.at is not None:
        return note.at < len(section.rows) and section.rows[note.at] is proven.row
    label = proven.row.label
    named = label.name if label and label.name else number
    return bool(named) and note.row.casefold() == named.casefold()
