"""One pattern as a page of plain Markdown.

Takes     ``PatternView``: the strings of its page.
Gives     ``page_of``.
Problems  none.
From      design.md, "A pattern file"; every figure is one of the page's own.

Drawings and stitch charts are left out: their measurements stand in tables. What a page lets its
reader choose is given whole: all sizes in trade notation, both units.
"""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from workeven.publish.in_markdown.signs import heading, image, link, listed, paragraph, table, text
from workeven.publish.pages.cautions import CautionView
from workeven.publish.pages.changes import ChangeView
from workeven.publish.pages.choices import plain
from workeven.publish.pages.materials import MaterialsView
from workeven.publish.pages.pattern_page import PatternView
from workeven.publish.pages.pieces import PieceView, SectionView
from workeven.publish.pages.row_view import RowView
from workeven.publish.pages.views import Picture, Table
from workeven.publish.pages.yarn_amounts import AmountsView
from workeven.publish.pages.yarn_sum import Computed

_MIRRORED = (
    "Work as for {}, reversing the shaping: what is told there for the beginning of a row is "
    "worked at its end, and what is told for its end at its beginning. Stitches that are passed "
    "over at the beginning are left unworked at the end."
)
_PINNED = (
    "Pin the ends, the middle and the quarters of a seam before you sew it; the tables say what "
    "lies between two pins."
)


def page_of(view: PatternView, photographs: tuple[Picture, ...], folder: str) -> str:
    """The whole page; its photographs lie in ``folder`` beside it."""
    return "\n\n".join(block for block in _blocks(view, photographs, folder) if block) + "\n"


def _blocks(view: PatternView, photographs: tuple[Picture, ...], folder: str) -> Iterator[str]:
    yield heading(1, view.title)
    if view.draft:
        yield "*A draft: this pattern has no date of publication yet.*"
    yield text(view.summary)
    yield paragraph(
        *(f"{text(one)}." for one in (view.imprint.byline, view.imprint.version) if one)
    )
    yield from listed(f"**{text(name)}:** {text(words)}" for name, words in view.facts)
    yield text(view.level)
    yield link(view.film) if view.film else ""
    yield from (image(f"{folder}/{one.file}", one.alt) for one in photographs)
    yield from map(text, view.story)
    yield "## Sizes"
    yield from map(text, view.reading)
    for one in (view.to_fit, view.finished, view.ease):
        yield from table(one)
    yield from map(text, view.body_notes)
    if view.cautions:
        yield "## Cautions"
        for caution in view.cautions:
            yield from _caution(caution)
        yield text(view.cautions_closing)
    yield from _materials(view.materials)
    if view.gauges:
        yield f"## {text(view.gauge_head)}"
        yield from listed(map(text, view.gauges))
        yield text(view.gauge_note)
        yield from table(view.sensitivity)
    yield from _stitches(view)
    yield from _caution(view.rest)
    for piece in view.pieces:
        yield from _piece(piece)
    yield from _making_up(view)
    yield from _about(view)


def _caution(view: CautionView) -> Iterator[str]:
    yield f"**{text(view.topic)}.** {text(view.words)}"
    yield from listed(
        paragraph(text(rule.words), ", ".join(map(link, rule.citations))) for rule in view.rules
    )


# --- what is bought ------------------------------------------------------------------------


def _materials(view: MaterialsView) -> Iterator[str]:
    yield "## Materials"
    yarns = (", ".join((f"**{text(one.name)}**", *map(text, one.facts))) for one in view.yarns)
    yield from listed((*yarns, *map(text, view.hooks), *map(text, view.notions)))
    yield from map(text, view.hook_notes)
    for amounts in view.amounts:
        yield from _amounts(amounts)
    yield text(view.amounts_note)
    for one in view.partly:
        yield text(one.words)
        yield from table(one.table)
    if view.computed:
        yield "### How the yarn was computed"
        for each in view.computed:
            yield from _computed(each)
    if view.care or view.care_note:
        yield "### Care"
        yield from listed(f"**{text(group)}:** {text(words)}" for group, words in view.care)
        yield text(view.care_note)


def _amounts(view: AmountsView) -> Iterator[str]:
    yield from table(view.table)
    yield " ".join(map(text, view.rest))
    yield from table(view.others)
    yield from listed(map(text, view.substitutes))
    yield from table(view.longer)
    yield " ".join(map(text, view.longer_notes))


def _computed(view: Computed) -> Iterator[str]:
    yield f"**{text(view.title)}**" if view.title else ""
    yield text(view.method)
    yield from listed(map(text, view.each))
    yield from table(view.table)
    yield from listed(map(text, (*view.rest, *view.samples)))
    yield from table(view.pieces)


def _stitches(view: PatternView) -> Iterator[str]:
    if view.abbreviations:
        yield "## Abbreviations"
        yield from table(view.abbreviations)
    if view.stitches:
        yield "## Special stitches"
        yield from listed(f"**{text(name)}:** {text(words)}" for name, words in view.stitches)


# --- what is worked ------------------------------------------------------------------------


def _piece(view: PieceView) -> Iterator[str]:
    yield heading(2, view.title)
    yield text(view.facts)
    if view.like:
        yield text(_MIRRORED.format(view.like.words))
    if view.drawing:
        yield from table(_unlettered(view.drawing.table, view.title))
    for section in view.sections:
        yield from _section(section)


def _unlettered(drawn: Table, title: str) -> Table:
    """The measurements of a drawing without the letters that point into it."""
    rows = tuple((names[0], lengths) for _, (names, *lengths) in drawn.rows)
    return Table(
        caption=f"{title}: finished measurements",
        heads=drawn.heads[1:],
        rows=tuple((name, tuple(lengths)) for name, lengths in rows),
    )


def _section(view: SectionView) -> Iterator[str]:
    yield heading(3, view.title) if view.title else ""
    yield paragraph(text(view.sizes), text(view.worked))
    yield from map(text, view.notes)
    yield link(view.video) if view.video else ""
    yield from listed(map(_row, view.rows))


def _row(view: RowView) -> str:
    """A row with its number, side and count, and what is told of it below."""
    side = f" ({text(view.side)})" if view.side else ""
    count = f" **{text(view.count)}**" if view.count else ""
    told = [
        *([text(view.into)] if view.into else []),
        *([text(f"The repeat needs a {plain(view.multiple)}.")] if view.multiple else []),
        *map(text, view.notes),
        *([link(view.video)] if view.video else []),
    ]
    first = f"**{text(view.number or view.place)}**{side}: {text(_words(view.words))}{count}"
    return "\n\n".join((first, *(f"  {one}" for one in told)))


def _words(words: Markup) -> str:
    """The words of a row without the marks of its stitches."""
    return Markup(plain(words)).striptags()  # noqa: S704 -- HTML of our own, and its tags go


def _making_up(view: PatternView) -> Iterator[str]:
    if view.assembly or view.seams:
        yield "## Assembly"
        if view.seams:
            yield _PINNED
        for seam in view.seams:
            yield from table(seam)
        yield from listed(map(text, view.assembly))
    if view.finishing:
        yield "## Finishing"
        yield from listed(map(text, view.finishing))


def _about(view: PatternView) -> Iterator[str]:
    yield "## About this pattern"
    licence = f"Licence: {view.imprint.licence}" if view.imprint.licence else ""
    told = (view.imprint.byline, view.imprint.version, licence, view.imprint.copyright)
    yield paragraph(*(f"{text(one)}." for one in told if one))
    if view.imprint.changes:
        yield "### Changes"
        yield from listed(map(_change, view.imprint.changes))
    if view.tags:
        yield f"Tags: {', '.join(text(tag.words) for tag in view.tags)}"


def _change(one: ChangeView) -> str:
    about = f" Sizes: {text(one.sizes)}." if one.sizes else ""
    rows = f" Rows: {'; '.join(text(row.words) for row in one.rows)}." if one.rows else ""
    return f"**{text(one.version)}, {text(one.day)}:** {text(one.words)}{about}{rows}"
