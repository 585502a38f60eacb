"""The pieces of a page: headings, drawings, every row.

Takes     ``ReadyPattern``.
Gives     ``PieceView``: ``piece_views``.
Problems  none.
From      design.md, "A pattern file": row numbers, counts and sides are added to the words.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from workeven.pattern import Piece, Section, Worked
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenPiece, ProvenSection, chain_multiple
from workeven.publish.pages import anchors, choices, figures, rows
from workeven.publish.pages.charts import ChartView
from workeven.publish.pages.choices import by_size
from workeven.publish.pages.films import film_link
from workeven.publish.pages.row_view import RowView, row_view
from workeven.publish.pages.schematics import Drawn, SchematicView, schematic
from workeven.publish.pages.stitch_charts import StitchChartView, stitch_chart_view
from workeven.publish.pages.texts import filled, paragraphs
from workeven.publish.pages.views import Link
from workeven.publish.pages.worked_into import InSizes, Told
from workeven.records import record, replace

_WORKED: dict[Worked, str] = {
    "flat rows": "worked in flat rows",
    "joined rounds": "worked in joined rounds, without turning",
    "joined rounds, turned": "worked in joined rounds, turned after each",
    "spiral rounds": "worked in a spiral, without joining",
}


@record
class SectionView:
    """A section of a piece; ``worked`` is told where it is not that of the piece.

    ``title`` is "" where it would only say the title of the piece again.
    """

    anchor: str
    title: str
    worked: str
    sizes: str
    notes: tuple[str, ...]
    video: Link | None
    rows: tuple[RowView, ...]
    not_for: str = ""


@record
class PieceView:
    """A piece: what is made, how, its drawing and chart where it has them, its sections.

    ``like`` is the piece that it mirrors, whose sections hold its rows; ``stitches_of`` one before
    it that has the same stitch chart.
    """

    anchor: str
    title: str
    facts: str
    like: Link | None
    drawing: SchematicView | None
    sections: tuple[SectionView, ...]
    chart: ChartView | None = None
    stitches: StitchChartView | None = None
    stitches_of: Link | None = None


def piece_views(
    ready: ReadyPattern, drawn: Drawn, into: Told, names: rows.Names
) -> tuple[PieceView, ...]:
    """Every piece in the pattern's order."""
    return _each_chart_once(
        _piece(
            ready,
            piece,
            schematic(ready, piece, shape, drawn.size),
            drawn.size,
            iter(into[piece.piece.name]),
            names,
        )
        for piece, shape in zip(ready.proven.pieces, drawn.outlines, strict=True)
    )


def _each_chart_once(views: Iterable[PieceView]) -> tuple[PieceView, ...]:
    """A piece whose stitch chart is that of one before it sends there."""
    drawn: dict[str, Link] = {}
    found: list[PieceView] = []
    for view in views:
        chart = view.stitches
        if chart is None:
            found.append(view)
            continue
        there = drawn.get(chart.drawn)
        if there is None:
            drawn[chart.drawn] = Link(words=view.title, url=f"#{view.anchor}")
            found.append(view)
        else:
            found.append(replace(view, stitches=None, stitches_of=there))
    return tuple(found)


# --- a piece -------------------------------------------------------------------------------


def _piece(
    ready: ReadyPattern,
    proven: ProvenPiece,
    drawing: SchematicView | None,
    size: int,
    into: Iterator[InSizes],
    names: rows.Names,
) -> PieceView:
    """A piece; ``into`` are its rows one after the other, section by section.

    ``size``: in which it is drawn, where sizes differ.
    """
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
        stitches=stitch_chart_view(ready, proven, multiple, size),
        sections=tuple(
            _section(ready, piece, section, anchor, into, names, repeats=multiple is not None)
            for section, anchor in zip(
                proven.sections, anchors.part_anchors(piece.name, titles), strict=True
            )
        ),
    )


def _mirrored(
    ready: ReadyPattern, piece: Piece, other: str, drawing: SchematicView | None
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
        not_for=choices.not_for(
            section.sizes is None or at in section.sizes for at in range(len(ready.pattern.sizes))
        ),
        notes=paragraphs(filled(section.note, names)),
        video=None if section.video is None else film_link(video, section.video, "Video"),
        rows=tuple(
            one if repeats else replace(one, multiple="")
            for one in (
                row_view(ready, (piece, section), row, next(into), names) for row in proven.rows
            )
        ),
    )


def _sizes(ready: ReadyPattern, section: Section) -> str:
    if section.sizes is None:
        return ""
    names = ready.pattern.sizes.names
    named = [names[at] for at in section.sizes]
    words = f"Only in size{'s' if len(named) > 1 else ''} {figures.listed(named)}."
    return by_size(words, [f"In size {name}." for name in names])
