"""A pattern as the view of its page: every string that the page shows.

Takes     ``ReadyPattern``, its neighbours in the collection.
Gives     ``pattern_view``, ``contents``, ``cover``, ``card``, ``search_words``.
Problems  none.
From      design.md, "Numbers a maker can trust"; performance.md, decision 3 (words to be found).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic import printing
from workeven.notation import wording
from workeven.notation.vocabulary import in_terms, kind_of
from workeven.pattern import Notion, Pattern, Text, Yarn
from workeven.pipeline import ReadyPattern
from workeven.publish.drawings import svg
from workeven.publish.drawings.outline import Outline
from workeven.publish.pages import (
    bodies,
    cautions,
    figures,
    gauges,
    hooks,
    seams,
    sizes,
    yarn_amounts,
    yarn_sum,
)
from workeven.publish.pages.abbreviations import abbreviations, stitch_words
from workeven.publish.pages.pieces import Drawn, film_link, in_size, piece_views
from workeven.publish.pages.rows import Names
from workeven.publish.pages.texts import filled, paragraphs
from workeven.publish.pages.views import Card, Entry, Link, PatternView, Picture, YarnView
from workeven.publish.pages.worked_into import Told
from workeven.records import record

COVER, PATTERN_DATA, SIZES_DATA = "cover.svg", "pattern.json", "sizes.csv"

#: Notions of which there is a length or a mass, and no number.
_BY_LENGTH_OR_WEIGHT = frozenset(
    {"stuffing", "elastic", "ribbon", "lining", "interfacing", "sewing thread", "stiffener", "pins"}
)
_LARGEST_IN_MM = 50
_TERMS = {"us": "US crochet terms", "uk": "UK crochet terms"}


@record
class Neighbours:
    """What a page links to in the collection."""

    before: Link | None
    after: Link | None
    collection: Link


def pattern_view(
    ready: ReadyPattern, drawn: Drawn, into: Told, neighbours: Neighbours
) -> PatternView:
    """The page of one pattern."""
    pattern, names = ready.pattern, _names(ready)
    return PatternView(
        title=pattern.title.text,
        draft=pattern.published is None,
        summary=pattern.summary.text,
        byline=byline(pattern),
        story=paragraphs(pattern.story or ""),
        picture=picture(ready, drawn),
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
        yarns=tuple(_yarn(yarn) for yarn in pattern.yarns),
        amounts=yarn_amounts.amounts(ready),
        amounts_note=yarn_amounts.amounts_note(ready),
        partly=yarn_sum.partly(ready),
        computed=yarn_sum.computed(ready),
        hooks=hooks.hooks(pattern),
        hook_notes=hooks.notes(pattern),
        notions=tuple(_notion(notion) for notion in pattern.notions),
        care=tuple(_care(pattern)),
        care_note="" if pattern.care is None else pattern.care.note,
        gauges=gauges.gauges(pattern),
        gauge_note=gauges.gauge_note(pattern),
        sensitivity=gauges.sensitivity(ready),
        abbreviations=abbreviations(ready),
        stitches=tuple((stitch.name, stitch.text) for stitch in pattern.stitches),
        reading=tuple(_reading(pattern)),
        pieces=piece_views(ready, drawn, into, names),
        seams=seams.seams(ready),
        assembly=_texts(pattern.assembly, names),
        finishing=_texts(pattern.finishing, names),
        changes=tuple((f"{one.version}, {one.date}", one.text) for one in pattern.changes),
        version=_version(pattern),
        licence=pattern.licence or pattern.studio.licence or "",
        copyright=pattern.copyright or pattern.studio.copyright or "",
        downloads=(
            Link(words="All numbers (JSON)", url=PATTERN_DATA),
            Link(words="Size table (CSV)", url=SIZES_DATA),
        ),
        before=neighbours.before,
        after=neighbours.after,
        collection=neighbours.collection,
    )


def contents(view: PatternView) -> tuple[Entry, ...]:
    """The headings of the page, as its template sets them."""
    return (
        Entry(title="Sizes", anchor="sizes"),
        *_entry("Cautions", "cautions", there=bool(view.cautions)),
        Entry(title="Materials", anchor="materials"),
        *_entry("Gauge", "gauge", there=bool(view.gauges)),
        *_entry("Abbreviations", "abbreviations", there=bool(view.abbreviations)),
        *_entry("Special stitches", "stitches", there=bool(view.stitches)),
        *(
            Entry(
                title=piece.title,
                anchor=piece.anchor,
                below=tuple(
                    Entry(title=one.title, anchor=one.anchor) for one in piece.sections if one.title
                ),
            )
            for piece in view.pieces
        ),
        *_entry("Assembly", "assembly", there=bool(view.assembly or view.seams)),
        *_entry("Finishing", "finishing", there=bool(view.finishing)),
        Entry(title="About this pattern", anchor="about"),
    )


def card(ready: ReadyPattern, drawn: Drawn, url: str, folder: str) -> Card:
    """The pattern on the index page; ``folder`` is where its files lie, seen from there."""
    pattern = ready.pattern
    shown = picture(ready, drawn)
    if shown:
        shown = Picture(
            file=f"{folder}/{shown.file}", alt=shown.alt, width=shown.width, height=shown.height
        )
    told = (
        figures.trade(pattern.sizes.names),
        *dict.fromkeys(f"{figures.heading(yarn.weight)} yarn" for yarn in pattern.yarns),
        ready.level.name,
    )
    return Card(
        title=pattern.title.text,
        url=url,
        summary=pattern.summary.text,
        facts=" · ".join(one for one in told if one),
        caution_mark=cautions.mark(ready),
        draft=pattern.published is None,
        picture=shown,
    )


def search_words(ready: ReadyPattern) -> str:
    """Words by which a pattern is found: stitches in both terms, sizes, weights of yarn, tags."""
    pattern = ready.pattern
    bases = dict.fromkeys(
        kind_of(name).base
        for piece in ready.proven.pieces
        for section in piece.sections
        for row in section.rows
        for counted in row.per_size
        if counted
        for name, _ in counted.worked
        if name != "ch"
    )
    words = (
        *stitch_words(tuple(bases)),
        *(stitch.name for stitch in pattern.stitches),
        *pattern.sizes.names,
        *(f"{yarn.weight} yarn" for yarn in pattern.yarns),
        *pattern.tags,
    )
    return ", ".join(dict.fromkeys(words))


def _entry(title: str, anchor: str, *, there: bool) -> tuple[Entry, ...]:
    return (Entry(title=title, anchor=anchor),) if there else ()


# --- parts of the page ---------------------------------------------------------------------


def byline(pattern: Pattern) -> str:
    """Who made it: the designers, and the studio where it is another name."""
    designers = figures.listed(pattern.designers)
    if designers and pattern.studio.name and pattern.studio.name != designers:
        return f"Designed by {designers} for {pattern.studio.name}"
    return f"Designed by {designers}" if designers else pattern.studio.name


def cover(ready: ReadyPattern, drawn: Drawn) -> str | None:
    """The picture as SVG, or None where no piece can be drawn."""
    made = _made(ready, drawn)
    if not made:
        return None
    return svg.cover(
        [(shape, times) for _, shape, times in made],
        slug=ready.pattern.slug,
        name=ready.pattern.title.text,
        words=_cover_words(ready, drawn),
    )


def picture(ready: ReadyPattern, drawn: Drawn) -> Picture | None:
    """The cover as the page shows it."""
    if not _made(ready, drawn):
        return None
    width, height = svg.COVER_SIZE
    return Picture(file=COVER, alt=_cover_words(ready, drawn), width=width, height=height)


def _made(ready: ReadyPattern, drawn: Drawn) -> tuple[tuple[str, Outline, int], ...]:
    """The pieces that can be drawn: title, outline, how often it is made in that size."""
    pieces = zip(ready.proven.pieces, drawn.outlines, strict=True)
    made = ((one.piece.title, shape, one.piece.make[drawn.size]) for one, shape in pieces)
    return tuple((title, shape, times) for title, shape, times in made if shape and times)


def _cover_words(ready: ReadyPattern, drawn: Drawn) -> str:
    """What the picture shows, for who does not see it."""
    made = [
        f"{title} (made {times} times)" if times > 1 else title
        for title, _, times in _made(ready, drawn)
    ]
    return f"Drawing {in_size(ready, drawn.size)}, a line for each row: {figures.listed(made)}."


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
    yield "Written in", _TERMS[pattern.terms]


def _yarn(yarn: Yarn) -> YarnView:
    metres = printing.print_metres(yarn.put_up.length)
    yards = printing.print_yards(yarn.put_up.length)
    facts = [
        f"{yarn.weight} weight",
        yarn.fibre,
        f"{metres} / {yards} in {printing.print_number(yarn.put_up.mass)} g",
    ]
    if yarn.colours:
        facts.append(f"in {figures.listed(tuple(map(yarn.shade, yarn.colours)))}")
    if yarn.held > 1:
        facts.append(f"{yarn.held} strands held together")
    return YarnView(name=sizes.called(yarn), facts=tuple(fact for fact in facts if fact))


def _notion(notion: Notion) -> str:
    """``6 (7) buttons, 15 mm, for the front``: what is bought by length or weight has no number."""
    one = notion.kind
    many = {"hook and eye": "hooks and eyes"}.get(one, one if one.endswith("s") else f"{one}s")
    if one == "other":
        amount = figures.counted(notion.amount, "piece") if max(notion.amount) > 1 else ""
        return figures.heading(notion.note or "") + (f", {amount}" if amount else "") + _at(notion)
    uncounted = one in _BY_LENGTH_OR_WEIGHT and set(notion.amount) <= {0, 1}
    words = figures.heading(one) if uncounted else figures.counted(notion.amount, one, many)
    size = "" if notion.size is None else f", {_size(notion.size)}"
    return f"{words}{size}{_at(notion)}" + (f" ({notion.note})" if notion.note else "")


def _at(notion: Notion) -> str:
    """Where it goes."""
    if notion.at in (None, "inside", "outside"):
        return f", {notion.at}" if notion.at else ""
    return f", for the {notion.at}"


def _size(mm: Fraction) -> str:
    """Millimetres of what is small, both units of what is longer."""
    if mm <= _LARGEST_IN_MM:
        return f"{printing.decimal(mm, 1)} mm"
    return f"{printing.print_cm(mm)} / {printing.print_in(mm)}"


def _care(pattern: Pattern) -> Iterator[tuple[str, str]]:
    """The treatments by their groups, in the order of the standard."""
    if pattern.care is None or not pattern.care.treatments:
        return
    from workeven.standards.care import GROUPS, care_word

    for group, title in GROUPS.items():
        told = [one for one in pattern.care.treatments if one.group == group]
        words = [found.printed for one in told if (found := care_word(group, one.word))]
        if words:
            yield title, figures.heading("; ".join(words))


def _reading(pattern: Pattern) -> Iterator[str]:
    """How the numbers of this page are to be read."""
    if len(pattern.sizes) > 1:
        yield (
            f"Numbers are given as sizes {figures.trade(pattern.sizes.names)}. One number alone "
            "is for all sizes; a dash stands for a size that does not work it."
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


def _version(pattern: Pattern) -> str:
    published = f", published {pattern.published}" if pattern.published else ", a draft"
    return f"Version {pattern.version}{published}"


def _names(ready: ReadyPattern) -> Names:
    graded = ready.proven.graded
    own = {stitch.name: stitch.text for stitch in ready.pattern.stitches}
    return Names(
        counts={name: count.values for name, count in graded.counts.items()},
        lengths={**dict(ready.pattern.to_fit), **graded.measurements},
        meaning=lambda name: own.get(name) or wording.meaning(name, ready.pattern.terms) or "",
        units=ready.pattern.studio.units,
        sizes=len(ready.pattern.sizes),
    )
