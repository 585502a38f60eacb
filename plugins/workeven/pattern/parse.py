"""The tree of a file, typed: a pattern, or what a studio says.

Takes     ``Source``; for a pattern also its ``Studio``.
Gives     ``Pattern``; ``Studio``.
Problems  those of the package's modules; ``size-twice``, ``size-too-many``,
          ``video-no-seconds``.
From      design.md, "A pattern file".

A pattern is given when every record could be made, even with problems, and nothing is missing on
which a number hangs: the stages after this one then find what they can. Rows are read whatever
else is wrong in the file.
"""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import chain
from typing import Literal, cast

from workeven.arithmetic.per_size import Sizes
from workeven.notation.tree import SpecialStitch
from workeven.notation.vocabulary import Vocabulary
from workeven.pattern import checks, materials, measures, seams
from workeven.pattern import gauges as gauge_tables
from workeven.pattern.amount_records import PrintedAmount
from workeven.pattern.care import care_of
from workeven.pattern.chart_use import taken
from workeven.pattern.finished_samples import finished_samples
from workeven.pattern.hooks import hooks_listed, with_hooks
from workeven.pattern.page_records import Ask, Picture
from workeven.pattern.pieces import PiecesReading
from workeven.pattern.reading import Reading, entries, items, whole_of, words
from workeven.pattern.records import (
    Ages,
    Change,
    Link,
    Pattern,
    Piece,
    Studio,
    Swatch,
    Terms,
    Text,
    Video,
    Yarn,
)
from workeven.pattern.schema import shaped
from workeven.pattern.size_names import size_names
from workeven.pattern.to_fit import listed_to_fit
from workeven.pattern.trimmings import trimmings
from workeven.problems import Checked, Problem, Severity, Span
from workeven.problems.catalogue import severity
from workeven.problems.once import told_once
from workeven.problems.words import quote
from workeven.source import Node, Source

ONE_SIZE = Sizes(("One size",))
#: What is added to a yarn where a pattern does not say it: common practice.
USUAL_MARGIN = Fraction(1, 10)

#: The studio of a pattern that lies in no collection of a studio's.
NO_STUDIO = Studio(
    name="",
    summary="",
    links=(),
    units="cm",
    terms="us",
    licence=None,
    copyright=None,
    tolerance=None,
    stitches=(),
)


def parse(source: Source, studio: Studio) -> Checked[Pattern]:
    """One pattern, typed; None when a part of it could not be read."""
    shape = shaped(source, "pattern")
    reading = Reading(source, shape.root, shape.problems)
    reading.sizes = _sizes(reading)
    terms = cast("Terms", reading.text(shape.root, "terms") or studio.terms)
    own = materials.special_stitches(reading, reading.node(shape.root, "stitches"), terms)
    pieces = _pieces_reading(reading, _vocabulary(reading, studio, terms, own))
    pattern = _pattern(reading, studio, pieces, own)
    found = told_once(reading.problems)
    if pattern is not None:
        shown = tuple(pieces.shown)
        whole = not any(severity(one.code) is Severity.ERROR for one in found)
        read = checks.Read(pattern=pattern, source=source, shown=shown, whole=whole)
        found += checks.checked(read)
    return Checked(value=pattern if shape.whole else None, problems=_in_order(found))


def parse_studio(source: Source) -> Checked[Studio]:
    """What a studio says once; None when a part of it could not be read."""
    shape = shaped(source, "studio")
    reading = Reading(source, shape.root, shape.problems)
    studio = _studio(reading, reading.root)
    return Checked(value=studio, problems=_in_order(reading.problems))


def slug_of(file: str) -> str:
    """The name of the folder in which a pattern lies; of a file by itself, its own.

    >>> slug_of("patterns/sandhopper-mitts/pattern.yaml"), slug_of("mitts.yaml")
    ('sandhopper-mitts', 'mitts')
    """
    folder, _, name = file.rpartition("/")
    if name == "pattern.yaml" and folder:
        return folder.rpartition("/")[2]
    return name.rpartition(".")[0] or name


def _in_order(problems: list[Problem]) -> tuple[Problem, ...]:
    return tuple(sorted(problems, key=lambda one: (one.span.line, one.span.column)))


# --- a pattern -----------------------------------------------------------------------------


def _pattern(
    reading: Reading, studio: Studio, pieces: PiecesReading, own: tuple[SpecialStitch, ...]
) -> Pattern | None:
    """Every part is read before any is missed, so that all problems are told."""
    root = reading.root
    terms = pieces.vocabulary.terms
    title, summary = _text(reading, "title"), _text(reading, "summary")
    audience, use = reading.text(root, "audience"), items(reading.node(root, "use"))
    ages_said = _ages(reading, audience)
    to_fit = listed_to_fit(reading)
    gauges = gauge_tables.gauges(reading, reading.node(root, "gauge"))
    gauges, hooks = with_hooks(
        reading, gauges or (), hooks_listed(reading, reading.node(root, "hooks"))
    )
    yarns = materials.yarns(reading, reading.node(root, "yarn"))
    swatches = materials.swatches(
        reading, reading.node(root, "swatches"), pieces.yarns, pieces.vocabulary
    )
    margin = _margin(reading)
    notions = materials.notions(reading, reading.node(root, "notions"))
    chains = materials.turning_chains(reading, reading.node(root, "turning_chains"), terms)
    tolerance_node = reading.node(root, "tolerance")
    tolerance = reading.length(tolerance_node)
    measurements = measures.measurements(reading, reading.node(root, "measurements"))
    body = None if to_fit is None else taken(reading, studio, to_fit, measurements or ())
    counts = measures.counts(reading, reading.node(root, "counts"))
    made = pieces.pieces(reading.node(root, "pieces"))
    sewn = seams.seams(reading, reading.node(root, "seams"), made, pieces.yarns) if made else ()
    trimmed = trimmings(reading, reading.node(root, "trimmings"), pieces.yarns)
    samples = finished_samples(reading, reading.node(root, "samples"), yarns)
    amounts = _amounts(reading, yarns)
    tail_node = reading.node(root, "tail")
    tail = reading.length(tail_node)
    video = _video(reading, reading.node(root, "video"))
    pictures, formerly = _pictures(reading), _former_names(reading)
    published_node = reading.node(root, "published")
    published = reading.date(published_node)
    changes = _changes(reading, reading.node(root, "changes"))
    sizes_node = reading.node(root, "sizes")
    if reading.sizes is None or title is None or summary is None or audience is None or not use:
        return None
    if body is None or not gauges or not yarns or swatches is None or margin is None:
        return None
    if notions is None or measurements is None or counts is None or not made or changes is None:
        return None
    if sewn is None or trimmed is None or samples is None or (tail_node and tail is None):
        return None
    if ages_said is None and reading.node(root, "ages") is not None:
        return None
    if (tolerance_node and tolerance is None) or (published_node and published is None):
        return None
    return Pattern(
        slug=slug_of(reading.source.file),
        file=reading.source.file,
        studio=studio,
        title=title,
        summary=summary,
        story=reading.text(root, "story"),
        tags=_words(reading, "tags"),
        level=_level(reading),
        designers=_words(reading, "designers"),
        version=reading.text(root, "version") or "1",
        published=published,
        changes=changes,
        licence=reading.text(root, "licence") or studio.licence,
        copyright=reading.text(root, "copyright") or studio.copyright,
        audience=audience,
        ages=ages_said,
        use=tuple(map(words, use)),
        terms=terms,
        sizes=reading.sizes,
        sizes_span=reading.source.span(sizes_node or root),
        to_fit=body.to_fit,
        gauges=gauges,
        yarns=yarns,
        swatches=swatches,
        margin=margin,
        notions=notions,
        care=care_of(reading, reading.node(root, "care")),
        stitches=(*_special(own, studio, made, swatches), *pieces.explained.values()),
        turning_chains=chains,
        each_chain_counts=reading.text(root, "each_chain_counts") in ("yes", "true"),
        tolerance=tolerance,
        measurements=measurements,
        counts=counts,
        pieces=made,
        assembly=reading.texts(reading.node(root, "assembly")),
        finishing=reading.texts(reading.node(root, "finishing")),
        video=video,
        seams=sewn,
        trimmings=trimmed,
        tail=tail,
        samples=samples,
        amounts=amounts,
        hooks=hooks,
        allow=tuple(
            (code, words(entry.value))
            for code, entry in entries(reading.node(root, "allow")).items()
        ),
        body=body.body,
        level_span=_span(reading, "level"),
        pictures=pictures,
        formerly=formerly,
    )


def _special(
    own: tuple[SpecialStitch, ...],
    studio: Studio,
    pieces: tuple[Piece, ...],
    swatches: tuple[Swatch, ...],
) -> tuple[SpecialStitch, ...]:
    """The pattern's own special stitches, then those of the studio that its rows work."""
    in_pieces = (row for piece in pieces for section in piece.sections for row in section.rows)
    in_swatches = (row for swatch in swatches for row in swatch.rows)
    worked = {term.name for row in chain(in_pieces, in_swatches) for term in row.terms}
    found = list(own)
    left = [stitch for stitch in studio.stitches if all(stitch.name != one.name for one in own)]
    while more := [one for one in left if one.name in worked or _named_in(one.name, found)]:
        found += more
        left = [stitch for stitch in left if stitch not in more]
    return tuple(found)


def _named_in(name: str, stitches: list[SpecialStitch]) -> bool:
    """Whether one of the stitches is made of that one."""
    spoken = re.compile(rf"(?<!\w){re.escape(name)}(?!\w)")
    return any(spoken.search(stitch.text) for stitch in stitches)


def _vocabulary(
    reading: Reading, studio: Studio, terms: Terms, own: tuple[SpecialStitch, ...]
) -> Vocabulary:
    """The words in force in the rows of the file."""
    special = dict.fromkeys(stitch.name for stitch in (*own, *studio.stitches))
    sizes = reading.sizes.names if reading.sizes is not None else ()
    return Vocabulary(terms, tuple(special), sizes)


def _pieces_reading(reading: Reading, vocabulary: Vocabulary) -> PiecesReading:
    """The names that sections may use, misshapen gauges and yarns among them."""
    written = reading.source.root
    return PiecesReading(
        reading,
        vocabulary,
        gauges=tuple(entries(reading.node(written, "gauge"))) or None,
        yarns=tuple(entries(reading.node(written, "yarn"))) or None,
    )


def _sizes(reading: Reading) -> Sizes | None:
    """The names of the sizes; one size when the file says nothing of sizes."""
    root = reading.root
    table = reading.node(root, "sizes")
    if table is None:
        return ONE_SIZE if "sizes" not in entries(reading.source.root) else None
    return size_names(reading, reading.node(table, "names"), "pattern")


def _ages(reading: Reading, audience: str | None) -> Ages | None:
    """The ages, which a pattern for children must say: cautions hang on them."""
    root = reading.root
    node = reading.node(root, "ages")
    if audience == "child" and "ages" not in entries(reading.source.root):
        reading.problem(
            "file-key-missing",
            reading.source.span(entries(root)["audience"].key),
            "A pattern for a child needs `ages`: the ages of the children it is for, "
            "such as `3 to 6 years`.",
            mend="Write `ages:` and its value.",
        )
    if node is None:
        return None
    from workeven.pattern.ages import read_ages  # few patterns say ages

    return read_ages(reading, node)


def _margin(reading: Reading) -> Fraction | None:
    node = reading.node(reading.root, "margin")
    return USUAL_MARGIN if node is None else reading.percent(node)


def _amounts(reading: Reading, yarns: tuple[Yarn, ...] | None) -> tuple[PrintedAmount, ...]:
    node = reading.node(reading.root, "amounts")
    if node is None:
        return ()
    from workeven.pattern.printed_amounts import printed_amounts  # few designers list their own

    return printed_amounts(reading, node, yarns)


def _pictures(reading: Reading) -> tuple[Picture, ...]:
    node = reading.node(reading.root, "pictures")
    if node is None:
        return ()
    from workeven.pattern import pictures  # few patterns list pictures

    return pictures.pictures(reading, node)


def _former_names(reading: Reading) -> tuple[Text, ...]:
    node = reading.node(reading.root, "formerly")
    if node is None:
        return ()
    from workeven.pattern.former import former_names  # few patterns had another name

    return former_names(reading, node, slug_of(reading.source.file))


def _level(reading: Reading) -> str | None:
    level = reading.text(reading.root, "level")
    return None if level is None else level.capitalize()


def _span(reading: Reading, key: str) -> Span | None:
    """The place of what stands under a key of the file."""
    node = reading.node(reading.root, key)
    return None if node is None else reading.source.span(node)


def _text(reading: Reading, key: str) -> Text | None:
    node = reading.node(reading.root, key)
    return None if node is None else reading.placed(node)


def _words(reading: Reading, key: str) -> tuple[str, ...]:
    return tuple(one.text for one in reading.texts(reading.node(reading.root, key)))


def _changes(reading: Reading, listed: Node | None) -> tuple[Change, ...] | None:
    if listed is None:
        return ()
    from workeven.pattern.changes import changes  # a draft has changed nothing yet

    return changes(reading, listed)


def _video(reading: Reading, table: Node | None) -> Video | None:
    if table is None:
        return None
    url_node, link_node = reading.node(table, "url"), reading.node(table, "time_link")
    url = reading.address(url_node, inside=False) if url_node is not None else None
    length = reading.seconds(reading.node(table, "length"))
    link = words(link_node) if link_node is not None else None
    if link is not None and link_node is not None and link.count("{seconds}") != 1:
        reading.problem(
            "video-no-seconds",
            reading.source.span(link_node),
            f"{quote(link)} does not say where the seconds go.",
            expected="`{seconds}` once, such as `?t={seconds}`.",
            mend="Write `{seconds}` where the number of seconds stands in such an address.",
        )
    if url is None or (link and link_node and not _goes_on(reading, link_node, url, link)):
        return None
    return Video(
        url=url,
        length=length,
        time_link=link,
        shown_size=reading.text(table, "shown_size"),
        span=reading.source.span(reading.node(table, "shown_size") or table),
    )


def _goes_on(reading: Reading, node: Node, url: str, link: str) -> bool:
    """Whether what is added to a film's address leads nowhere else; it is told where it does."""
    whole = f"{url}{link}".replace("{seconds}", "1") if link[0] in "?#&/;" else link
    return reading.address(node, inside=False, filled=whole) is not None


# --- a studio ------------------------------------------------------------------------------


def _studio(reading: Reading, root: Node) -> Studio | None:
    name = reading.text(root, "name")
    terms = cast("Terms", reading.text(root, "terms") or NO_STUDIO.terms)
    links = whole_of(_link(reading, table) for table in items(reading.node(root, "links")))
    tolerance_node = reading.node(root, "tolerance")
    tolerance = reading.length(tolerance_node)
    stitches = materials.special_stitches(reading, reading.node(root, "stitches"), terms)
    asked = _ask(reading)
    if name is None or links is None or (tolerance_node and tolerance is None):
        return None
    return Studio(
        name=name,
        summary=reading.text(root, "summary") or "",
        links=links,
        units=cast('Literal["cm", "in"]', reading.text(root, "units") or NO_STUDIO.units),
        terms=terms,
        licence=reading.text(root, "licence"),
        copyright=reading.text(root, "copyright"),
        tolerance=tolerance,
        stitches=stitches,
        chart_files=tuple(map(reading.placed, items(reading.node(root, "charts")))),
        ask=asked,
    )


def _ask(reading: Reading) -> Ask | None:
    node = reading.node(reading.root, "ask")
    if node is None:
        return None
    from workeven.pattern.ask import ask  # a studio's file alone says it

    return ask(reading, node)


def _link(reading: Reading, table: Node) -> Link | None:
    text, node = reading.text(table, "text"), reading.node(table, "url")
    url = reading.address(node, inside=True) if node is not None else None
    return None if text is None or url is None else Link(text=text, url=url)
