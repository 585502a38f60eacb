"""A pattern as the view of its page: every string that the page shows.

Takes     ``ReadyPattern``, its neighbours in the collection.
Gives     ``PatternView``: ``pattern_view``; ``contents``, ``made``, ``cover``, ``card``,
          ``search_words``.
Problems  none.
From      design.md, "Numbers a maker can trust"; performance.md, decision 3 (words to be found).
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.notation import wording
from workeven.notation.vocabulary import Terms, in_terms, kind_of
from workeven.pattern import Pattern, Text
from workeven.pipeline import ReadyPattern
from workeven.publish.drawings import svg
from workeven.publish.drawings.outline import Outline
from workeven.publish.pages import bodies, cautions, choices, figures, gauges, hooks, seams, sizes
from workeven.publish.pages.abbreviations import abbreviations, stitch_words
from workeven.publish.pages.both_terms import OTHER, gauge, marked_words
from workeven.publish.pages.cautions import CautionView
from workeven.publish.pages.choices import by_size, plain
from workeven.publish.pages.choosing import ChooserView, chooser
from workeven.publish.pages.facets import facets
from workeven.publish.pages.films import film_link
from workeven.publish.pages.imprint import ImprintView, imprint
from workeven.publish.pages.materials import MaterialsView, materials
from workeven.publish.pages.mine import MineView, mine
from workeven.publish.pages.pieces import PieceView, piece_views
from workeven.publish.pages.rows import Names
from workeven.publish.pages.said_lengths import in_both_systems
from workeven.publish.pages.schematics import Drawn
from workeven.publish.pages.tags import tag_links
from workeven.publish.pages.texts import filled, paragraphs
from workeven.publish.pages.views import Card, Entry, Link, Picture, Table
from workeven.publish.pages.which import WhichView, which
from workeven.publish.pages.worked_into import Told
from workeven.publish.pages.working import WorkView, work
from workeven.records import record
from workeven.yarn.longer import Lengths, lengthened

COVER, PATTERN_DATA, SIZES_DATA = "cover.svg", "pattern.json", "sizes.csv"

_TERMS = {"us": "US crochet terms", "uk": "UK crochet terms"}


@record
class Neighbours:
    """What a page links to in the collection; ``tagged`` is the address of the page of tags."""

    before: Link | None
    after: Link | None
    collection: Link
    glossary: Link | None = None
    tagged: str = ""


@record
class PatternView:
    """One page. Tables that have nothing to say are None, lists are empty."""

    title: str
    terms: Terms
    gauge: str
    gauge_head: str
    draft: bool
    summary: str
    story: tuple[str, ...]
    picture: Picture | None
    pictures: tuple[Picture, ...]
    chooser: ChooserView
    which: WhichView | None
    facts: tuple[tuple[str, str], ...]
    level: str
    caution_mark: str
    cautions: tuple[CautionView, ...]
    cautions_closing: str
    rest: CautionView
    film: Link | None
    to_fit: Table | None
    finished: Table | None
    ease: Table | None
    body_notes: tuple[str, ...]
    materials: MaterialsView
    gauges: tuple[str, ...]
    gauge_note: str
    sensitivity: Table | None
    mine: MineView | None
    abbreviations: Table | None
    stitches: tuple[tuple[str, str], ...]
    reading: tuple[str, ...]
    pieces: tuple[PieceView, ...]
    seams: tuple[Table, ...]
    assembly: tuple[str, ...]
    finishing: tuple[str, ...]
    imprint: ImprintView
    version: str
    work: WorkView
    downloads: tuple[Link, ...]
    before: Link | None
    after: Link | None
    collection: Link
    glossary: Link | None
    tags: tuple[Link, ...]


def pattern_view(
    ready: ReadyPattern,
    drawn: Drawn,
    into: Told,
    neighbours: Neighbours,
    photographs: tuple[Picture, ...] = (),
    more: Lengths | None = None,
) -> PatternView:
    """The page of one pattern; the first of its photographs stands in the head.

    ``more``: the lengths to which yarn may be added; worked out here where they are not given.
    """
    pattern, names = ready.pattern, _names(ready)
    more = lengthened(ready.proven, ready.yarn.needs) if more is None else more
    return PatternView(
        title=pattern.title.text,
        terms=pattern.terms,
        gauge=gauge(pattern.terms),
        gauge_head=gauge(pattern.terms, capital=True),
        draft=pattern.published is None,
        summary=in_both_systems(pattern.summary.text, names.sizes),
        story=paragraphs(in_both_systems(pattern.story or "", names.sizes)),
        picture=picture(ready, drawn, photographs),
        pictures=photographs[1:],
        chooser=chooser(pattern),
        which=which(ready),
        facts=tuple(_facts(ready)),
        level=cautions.level(ready),
        caution_mark=cautions.mark(ready),
        cautions=cautions.cautions(ready),
        cautions_closing=ready.cautions.closing,
        rest=cautions.rest(ready),
        film=film_link(pattern.video, None, "Watch the video"),
        to_fit=bodies.to_fit(ready),
        finished=sizes.finished(ready),
        ease=bodies.ease(ready),
        body_notes=bodies.notes(ready),
        materials=materials(ready, more),
        gauges=gauges.gauges(pattern),
        gauge_note=gauges.gauge_note(pattern),
        sensitivity=gauges.sensitivity(ready),
        mine=mine(ready, more),
        abbreviations=abbreviations(ready),
        stitches=tuple(
            (stitch.name, in_both_systems(stitch.text, names.sizes)) for stitch in pattern.stitches
        ),
        reading=tuple(_reading(pattern)),
        pieces=piece_views(ready, drawn, into, names),
        seams=seams.seams(ready),
        assembly=_texts(pattern.assembly, names),
        finishing=_texts(pattern.finishing, names),
        imprint=imprint(ready),
        version=pattern.version,
        work=work(ready),
        downloads=(
            Link(words="All numbers (JSON)", url=PATTERN_DATA),
            Link(words="Size table (CSV)", url=SIZES_DATA),
        ),
        before=neighbours.before,
        after=neighbours.after,
        collection=neighbours.collection,
        glossary=neighbours.glossary,
        tags=tag_links(pattern.tags, neighbours.tagged),
    )


def contents(view: PatternView) -> tuple[Entry, ...]:
    """The headings of the page, as its template sets them; their stitches in both terms."""

    def told(title: str) -> str:
        return marked_words(title, view.terms)

    return (
        Entry(title="Sizes", anchor="sizes"),
        *_entry("Cautions", "cautions", there=bool(view.cautions)),
        Entry(title="Materials", anchor="materials"),
        *_entry(gauge(view.terms, capital=True), "gauge", there=bool(view.gauges)),
        *_entry("Abbreviations", "abbreviations", there=bool(view.abbreviations)),
        *_entry("Special stitches", "stitches", there=bool(view.stitches)),
        *(
            Entry(
                title=told(piece.title),
                anchor=piece.anchor,
                below=tuple(
                    Entry(title=told(one.title), anchor=one.anchor)
                    for one in piece.sections
                    if one.title
                ),
            )
            for piece in view.pieces
        ),
        *_entry("Assembly", "assembly", there=bool(view.assembly or view.seams)),
        *_entry("Finishing", "finishing", there=bool(view.finishing)),
        Entry(title="About this pattern", anchor="about"),
    )


def card(
    ready: ReadyPattern,
    drawn: Drawn,
    url: str,
    folder: str,
    photographs: tuple[Picture, ...] = (),
) -> Card:
    """The pattern on the index page; ``folder`` is where its files lie, seen from there."""
    pattern = ready.pattern
    shown = picture(ready, drawn, photographs)
    told = (
        plain(figures.trade(pattern.sizes.names)),
        *dict.fromkeys(f"{figures.heading(yarn.weight)} yarn" for yarn in pattern.yarns),
        ready.level.name,
    )
    return Card(
        title=pattern.title.text,
        url=url,
        summary=marked_words(pattern.summary.text, pattern.terms),
        terms=pattern.terms,
        facts=" · ".join(one for one in told if one),
        caution_mark=cautions.mark(ready),
        draft=pattern.published is None,
        picture=shown.seen_from(folder) if shown else None,
        facets=facets(ready),
    )


def search_words(ready: ReadyPattern) -> str:
    """Words by which a pattern is found: stitches in both terms, sizes, weights of yarn, tags."""
    pattern = ready.pattern
    worked = dict.fromkeys(
        one
        for piece in ready.proven.pieces
        for section in piece.sections
        for row in section.rows
        for counted in row.per_size
        if counted
        for name, _ in counted.worked
        if name != "ch"
        for one in (kind_of(name).base, name)
    )
    words = (
        *stitch_words(tuple(worked)),
        *(stitch.name for stitch in pattern.stitches),
        *pattern.sizes.names,
        *(f"{yarn.weight} yarn" for yarn in pattern.yarns),
        *pattern.tags,
    )
    return ", ".join(dict.fromkeys(words))


def _entry(title: str, anchor: str, *, there: bool) -> tuple[Entry, ...]:
    return (Entry(title=title, anchor=anchor),) if there else ()


# --- parts of the page ---------------------------------------------------------------------


def cover(ready: ReadyPattern, drawn: Drawn) -> str | None:
    """The picture as SVG, or None where no piece can be drawn."""
    pieces = made(ready, drawn)
    if not pieces:
        return None
    return svg.cover(
        [(shape, times) for _, shape, times in pieces],
        slug=ready.pattern.slug,
        name=ready.pattern.title.text,
        words=_cover_words(ready, drawn),
    )


def picture(
    ready: ReadyPattern, drawn: Drawn, photographs: tuple[Picture, ...] = ()
) -> Picture | None:
    """The first photograph; where there is none, the cover as the page shows it."""
    if photographs:
        return photographs[0]
    if not made(ready, drawn):
        return None
    width, height = svg.COVER_SIZE
    return Picture(file=COVER, alt=_cover_words(ready, drawn), width=width, height=height)


def made(ready: ReadyPattern, drawn: Drawn) -> tuple[tuple[str, Outline, int], ...]:
    """The pieces that can be drawn: title, outline, how often it is made in that size."""
    pieces = zip(ready.proven.pieces, drawn.outlines, strict=True)
    told = ((one.piece.title, shape, one.piece.make[drawn.size]) for one, shape in pieces)
    return tuple((title, shape, times) for title, shape, times in told if shape and times)


def _cover_words(ready: ReadyPattern, drawn: Drawn) -> str:
    """What the picture shows, for who does not see it."""
    titles = [
        f"{title} (made {times} times)" if times > 1 else title
        for title, _, times in made(ready, drawn)
    ]
    return f"Drawing, a line for each row: {figures.listed(titles)}."


def _facts(ready: ReadyPattern) -> Iterator[tuple[str, str]]:
    """What a maker looks for first."""
    pattern = ready.pattern
    yield "Sizes", figures.trade(pattern.sizes.names)
    ages = f", {pattern.ages.text}" if pattern.ages else ""
    yield "For", figures.heading(pattern.audience) + ages
    yield "Level", ready.level.name
    if weights := tuple(dict.fromkeys(yarn.weight for yarn in pattern.yarns)):
        yield "Yarn", f"{figures.heading(figures.listed(weights))} weight"
    if called := hooks.called(pattern):
        yield "Hook", figures.listed(called)
    other = OTHER[pattern.terms]
    told = f"{_TERMS[other]} (written in {_TERMS[pattern.terms][:2]} terms)"
    yield "Terms", choices.in_terms(_TERMS[pattern.terms], told)


def _reading(pattern: Pattern) -> Iterator[str]:
    """How the numbers of this page are to be read."""
    if len(pattern.sizes) > 1:
        yield by_size(
            f"Numbers are given as sizes {plain(figures.trade(pattern.sizes.names))}. One number "
            "alone is for all sizes; a dash stands for a size that does not work it.",
            [f"All numbers are those of size {name}." for name in pattern.sizes.names],
        )
    yield "The count beside or above a row is what there is after it, or after the last of several."

    yield from _turning_chains(pattern)


def _turning_chains(pattern: Pattern) -> Iterator[str]:
    """What the pattern says of its turning chains once for all rows."""
    for stitch, counts in pattern.turning_chains.counts:
        name = in_terms(stitch, pattern.terms)
        yield (
            f"The turning chain before {name} counts as a {name}."
            if counts
            else f"The turning chain before {name} does not count as a stitch."
        )
    if pattern.each_chain_counts:
        yield "Each chain counts as a stitch."


def _texts(texts: tuple[Text, ...], names: Names) -> tuple[str, ...]:
    return tuple(one for text in texts for one in paragraphs(filled(text.text, names)))


def _names(ready: ReadyPattern) -> Names:
    graded = ready.proven.graded
    own = {stitch.name: stitch.text for stitch in ready.pattern.stitches}
    return Names(
        counts={name: count.values for name, count in graded.counts.items()},
        lengths={**dict(ready.pattern.to_fit), **graded.measurements},
        meaning=lambda name: own.get(name) or wording.meaning(name, ready.pattern.terms) or "",
        units=ready.pattern.studio.units,
        sizes=len(ready.pattern.sizes),
        terms=ready.pattern.terms,
    )
