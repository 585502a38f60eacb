"""A whole collection rendered: every page and every file beside it, as texts and bytes.

Takes     ``Verdict`` or ``Flow``: all patterns of a collection and their problems.
Gives     ``Publication`` (``published``, ``preview``): pages and files, nothing written yet;
          ``Made`` of one pattern, and where that may be kept, ``Kept``.
Problems  none; a collection with an error is not published, only previewed.
From      design.md, "How a page reaches MkDocs"; performance.md, decisions 1 to 3.

Nothing on a pattern's page depends on how many patterns there are: it links to the one before, the
one after, and the index. So of a proof nothing is held once its page is made.
"""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import AbstractContextManager, nullcontext
from itertools import chain, takewhile

from markupsafe import Markup

from workeven.pattern import NO_STUDIO, Studio
from workeven.pipeline import Case, Flow, Outcome, ReadyPattern, Recalled, Verdict
from workeven.problems import Problem, Severity
from workeven.problems.catalogue import severity
from workeven.publish import downloads
from workeven.publish.album import Album, album
from workeven.publish.assets import Kind
from workeven.publish.drawings.shared import shared
from workeven.publish.packed import NOTHING, Packed, packed
from workeven.publish.pages import pattern_page as page
from workeven.publish.pages import sharing, sheets, worked_into
from workeven.publish.pages.beside import ALL, BESIDE, CHANGES, FEED, STITCHES, TAGS
from workeven.publish.pages.choosing import meta
from workeven.publish.pages.facets import filters
from workeven.publish.pages.figures import heading
from workeven.publish.pages.mentions import Mention, mention
from workeven.publish.pages.offline import stamped
from workeven.publish.pages.render import (
    index_html,
    pattern_html,
    plain_markdown,
    problems_html,
)
from workeven.publish.pages.schematics import Drawn, draw
from workeven.publish.pages.views import (
    Card,
    Entry,
    IndexView,
    Link,
    ProblemsView,
)
from workeven.publish.policy import Asks, asks
from workeven.records import record
from workeven.report.text import in_order, problem_text
from workeven.source.collection import slug_of
from workeven.yarn.longer import Lengths, lengthened

INDEX_TITLE = "Patterns"
NO_MARKUP = Markup()

Around = Callable[[str], AbstractContextManager[None]]


def _as_it_is(_file: str) -> AbstractContextManager[None]:
    return nullcontext()


@record
class Address:
    """Where pages stand in the site, and how they link to each other.

    ``folder`` is the folder of all patterns; a link to a page ends with ``ending``: "" where a
    server opens the index of a folder, ``index.html`` where files are opened as they are. ``site``
    is the whole address of the site, "" where that is not known.
    """

    folder: str
    ending: str
    site: str = ""

    def source(self, slug: str = "") -> str:
        """The Markdown file that a page stands for."""
        return "/".join(part for part in (self.folder, slug, "index.md") if part)

    def whole(self, slug: str = "") -> str:
        """The whole address of a page, "" where that of the site is not known."""
        path = "/".join(part for part in (self.site.rstrip("/"), self.folder, slug) if part)
        return f"{path}/{self.ending}" if self.site else ""

    def beside(self, name: str) -> str:
        """The folder of a page that stands beside that of all patterns.

        >>> Address(folder="shop/patterns", ending="").beside("stitches")
        'shop/stitches'
        """
        return "/".join(part for part in (self.folder.rpartition("/")[0], name) if part)

    def between(self, here: str, there: str) -> str:
        """The address of the page of one folder, seen from that of another.

        >>> Address(folder="patterns", ending="").between("stitches", "patterns/mitts")
        '../patterns/mitts/'
        """
        return f"{posixpath.relpath(there or '.', here or '.')}/{self.ending}"


@record
class RenderedPage:
    """A page: a short Markdown text to be found by, and the HTML that is shown.

    ``body`` is that HTML and ``top`` what is added to the head of its document; its ``kind`` says
    which script it has. One that stands ``beside`` the patterns makes room for a page of the
    studio's own at its address, and search finds patterns before it; one that is not ``searched``
    it does not find. ``asks`` is what body and head ask of a browser, where that was looked for.
    """

    source: str
    title: str
    description: str
    markdown: str
    body: Packed
    contents: tuple[Entry, ...]
    in_menu: bool
    top: Packed = NOTHING
    beside: bool = False
    searched: bool = True
    kind: Kind = "other"
    asks: tuple[Asks, Asks] | None = None

    @property
    def html(self) -> str:
        """The HTML that is shown."""
        return self.body.text()

    @property
    def head(self) -> Markup:
        """What is added to the head."""
        return Markup(self.top.text())  # noqa: S704, it was Markup when it was packed


@record
class Attachment:
    """A file beside a page: its address in the site and what is in it."""

    path: str
    packed: Packed

    @property
    def content(self) -> bytes:
        """What is in it."""
        return self.packed.whole()


def attachment(path: str, content: str | bytes) -> Attachment:
    """A file with this content."""
    return Attachment(path=path, packed=packed(content))


@record
class Publication:
    """Everything that a collection adds to a site; and what other pages say of its patterns.

    ``studio`` is that of the first of them.
    """

    pages: tuple[RenderedPage, ...]
    attachments: tuple[Attachment, ...]
    mentions: tuple[Mention, ...] = ()
    studio: Studio = NO_STUDIO


@record
class Made:
    """All that one pattern adds to a site, and what other pages show and say of it."""

    page: RenderedPage
    attachments: tuple[Attachment, ...]
    card: Card
    mention: Mention


@record
class Neighbours:
    """The patterns before and after one, as its page links to them."""

    before: Link | None
    after: Link | None


@record
class Kept:
    """What was made of patterns in runs before."""

    recall: Callable[[Case, Neighbours], Made | None]
    keep: Callable[[Case, Neighbours, Made], None]


#: Makes the file that says where the figures of a page come from.
Sheet = Callable[[RenderedPage, ReadyPattern | None], Attachment]


def published(
    verdict: Verdict | Flow,
    address: Address,
    around: Around = _as_it_is,
    sheet: Sheet | None = None,
    kept: Kept | None = None,
) -> Publication:
    """The patterns that have a date of publication, in the order of their folders.

    A page is made as soon as its pattern and the next are there. With the first that has an error
    it ends: then nothing is published. ``around`` gives a context in which the page of the named
    file is made; what was ``kept`` of a pattern is not made anew.
    """
    making = _Making(address, around, sheet, kept)
    making.take(one for one in takewhile(_good, verdict.outcomes) if _is_published(one))
    return making.publication((), ())


def preview(
    verdict: Verdict | Flow,
    address: Address,
    around: Around = _as_it_is,
    kept: Kept | None = None,
) -> Publication:
    """All patterns, drafts too; where one has errors its page tells them."""
    faulty: list[Outcome] = []
    making = _Making(address, around, None, kept)
    making.take(_ready(verdict.outcomes, faulty))
    errors = in_order(one for one in verdict.problems if severity(one.code) is Severity.ERROR)
    return making.publication(faulty, errors)


def _good(one: Outcome | Recalled) -> bool:
    return isinstance(one, Recalled) or one.ready is not None


def _is_published(one: Outcome | Recalled) -> bool:
    if isinstance(one, Recalled):
        return one.remembered.published
    return bool(one.ready and one.ready.pattern.published)


def _ready(
    outcomes: Iterable[Outcome | Recalled], faulty: list[Outcome]
) -> Iterator[Outcome | Recalled]:
    """The patterns that have a page; the others are put aside."""
    for outcome in outcomes:
        if isinstance(outcome, Recalled) or outcome.ready:
            yield outcome
        else:
            faulty.append(outcome)


class _Making:
    """Pages in the making: of a pattern is kept what is finished, and what others say of it."""

    def __init__(
        self, address: Address, around: Around, sheet: Sheet | None, kept: Kept | None
    ) -> None:
        self._address, self._around, self._sheet, self._kept = address, around, sheet, kept
        self._pages: list[RenderedPage] = []
        self._attachments: list[Attachment] = []
        self._cards: list[Card] = []
        self._mentions: list[Mention] = []
        self._studio = NO_STUDIO

    def take(self, patterns: Iterable[Outcome | Recalled]) -> None:
        """Make the page of each pattern once the next is there, and let go of it."""
        before: Link | None = None
        waiting: Outcome | Recalled | None = None
        for one in chain(patterns, (None,)):
            if waiting:
                self._add(waiting, Neighbours(before=before, after=_link(one, self._address)))
            before, waiting = _link(waiting, self._address), one

    def publication(self, faulty: Sequence[Outcome], problems: Sequence[Problem]) -> Publication:
        """All of them, and the page of all; ``faulty`` have a page of ``problems``."""
        told = [_problems_page(outcome, self._address) for outcome in faulty]
        index = _index_page(self._cards, problems, self._studio, self._address)
        if self._sheet:
            self._attachments += [self._sheet(page, None) for page in (index, *told)]
        return Publication(
            pages=(index, *self._pages, *told),
            attachments=tuple(self._attachments),
            mentions=tuple(self._mentions),
            studio=self._studio,
        )

    def _add(self, one: Outcome | Recalled, beside: Neighbours) -> None:
        file = one.case.of.file if isinstance(one, Recalled) else one.file
        with self._around(file):
            made = self._recalled(one, beside) or self._made(one, beside)
            if not self._pages:
                self._studio = _studio(one)
            self._pages.append(made.page)
            self._attachments += made.attachments
            self._cards.append(made.card)
            self._mentions.append(made.mention)

    def _recalled(self, one: Outcome | Recalled, beside: Neighbours) -> Made | None:
        """What was kept; one that was proven in this run was never met before."""
        if self._kept is None or isinstance(one, Outcome):
            return None
        return self._kept.recall(one.case, beside)

    def _made(self, one: Outcome | Recalled, beside: Neighbours) -> Made:
        outcome = one.prove() if isinstance(one, Recalled) else one
        assert outcome.ready, outcome.file  # it was, from the same texts
        made = _made(outcome.ready, beside, self._address, self._sheet)
        if self._kept and outcome.case:
            self._kept.keep(outcome.case, beside, made)
        return made


def _made(one: ReadyPattern, beside: Neighbours, address: Address, sheet: Sheet | None) -> Made:
    """All that comes of one pattern."""
    neighbours = page.Neighbours(
        before=beside.before,
        after=beside.after,
        collection=_collection_link(address),
        glossary=_glossary_link(one, address),
        tagged=_beside(one, TAGS, address),
    )
    drawn = draw(one)
    into = worked_into.told(one)
    more = lengthened(one.proven, one.yarn.needs)
    own = album(one)
    view = page.pattern_view(one, drawn, into, neighbours, own.pictures, more)
    rendered = _pattern_page(one, view, address)
    cover = None if own.pictures else page.cover(one, drawn)
    return Made(
        page=rendered,
        attachments=(
            *_attachments(one, into, more, cover, address),
            *_pictures(one, own, address),
            *_shared(one, drawn, own, address),
            *((sheet(rendered, one),) if sheet else ()),
        ),
        card=_card(one, drawn, own, address),
        mention=mention(one),
    )


def _pattern_page(one: ReadyPattern, view: page.PatternView, address: Address) -> RenderedPage:
    title, summary = one.pattern.title.text, one.pattern.summary.text
    contents = page.contents(view)
    html = pattern_html(view, contents)
    head = (
        stamped(html)
        + meta(one.pattern, html)
        + sheets.foot(one.pattern)
        + sharing.head(view, one.pattern, address.whole(one.pattern.slug))
    )
    return RenderedPage(
        source=address.source(one.pattern.slug),
        title=title,
        description=summary,
        markdown=plain_markdown(title, summary, page.search_words(one)),
        body=packed(html),
        contents=contents,
        in_menu=False,
        top=packed(head),
        kind="pattern",
        asks=(asks(html), asks(head)),
    )


def _attachments(
    one: ReadyPattern,
    into: worked_into.Told,
    more: Lengths,
    cover: str | None,
    address: Address,
) -> list[Attachment]:
    folder = f"{address.folder}/{one.pattern.slug}"
    files = [
        attachment(f"{folder}/{page.PATTERN_DATA}", downloads.pattern_json(one, into, more)),
        attachment(f"{folder}/{page.SIZES_DATA}", downloads.sizes_csv(one)),
    ]
    if cover is not None:
        files.append(attachment(f"{folder}/{page.COVER}", cover))
    return files


def _pictures(one: ReadyPattern, own: Album, address: Address) -> list[Attachment]:
    """Its photographs, made anew."""
    folder = f"{address.folder}/{one.pattern.slug}"
    return [attachment(f"{folder}/{name}", content) for name, content in own.files]


def _shared(one: ReadyPattern, drawn: Drawn, own: Album, address: Address) -> list[Attachment]:
    """The picture for who shares the page, where its whole address can be told."""
    if not address.site:
        return []
    if own.shared:
        path = f"{address.folder}/{one.pattern.slug}/{sharing.SHARED_PHOTOGRAPH}"
        return [attachment(path, own.shared)]
    pieces = page.made(one, drawn)
    if not pieces:
        return []
    picture = shared([(shape, times) for _, shape, times in pieces], slug=one.pattern.slug)
    path = f"{address.folder}/{one.pattern.slug}/{sharing.SHARED}"
    return [attachment(path, picture)]


def _card(one: ReadyPattern, drawn: Drawn, own: Album, address: Address) -> Card:
    slug = one.pattern.slug
    return page.card(one, drawn, f"{slug}/{address.ending}", slug, own.pictures)


def _index_page(
    cards: Sequence[Card],
    problems: Sequence[Problem],
    studio: Studio,
    address: Address,
) -> RenderedPage:
    summary = studio.summary if cards else ""
    view = IndexView(
        title=INDEX_TITLE,
        summary=summary,
        cards=tuple(cards),
        problems=tuple(problem_text(problem) for problem in problems),
        beside=links_beside(address, address.folder) if cards else (),
        filters=filters([card.facets for card in cards], studio.units) if len(cards) > 1 else None,
    )
    return RenderedPage(
        source=address.source(),
        title=INDEX_TITLE,
        description=summary,
        markdown=plain_markdown(INDEX_TITLE, summary),
        body=packed(index_html(view)),
        contents=(),
        in_menu=True,
        top=packed(
            sharing.index_head(INDEX_TITLE, summary, studio.name, address.whole())
            + (_feed_link(address) if cards else NO_MARKUP)
        ),
        kind="list",
    )


def _beside(one: ReadyPattern, name: str, address: Address) -> str:
    """A page that stands beside that of all patterns, seen from that of one."""
    here = f"{address.folder}/{one.pattern.slug}".strip("/")
    return address.between(here, address.beside(name))


def _glossary_link(one: ReadyPattern, address: Address) -> Link:
    return Link(words="All stitches, in both terms", url=_beside(one, STITCHES, address))


def links_beside(address: Address, here: str) -> tuple[Link, ...]:
    """To the pages that stand beside that of all patterns, seen from a folder."""
    return tuple(
        Link(words=words, url=address.between(here, address.beside(name)))
        for name, words in BESIDE.items()
    )


def feed_link(url: str) -> Markup:
    """For the head of a page: where programs read what changed.

    The theme takes a link that is "alternate" alone for the page in another language, and asks for
    a sitemap beside it.
    """
    return Markup(
        '<link rel="alternate feed" type="application/atom+xml" title="{}" href="{}">\n'
    ).format(BESIDE[CHANGES], url)


def _feed_link(address: Address) -> Markup:
    changes = address.between(address.folder, address.beside(CHANGES))
    return feed_link(f"{changes.removesuffix(address.ending)}{FEED}")


def _problems_page(outcome: Outcome, address: Address) -> RenderedPage:
    """The page of a pattern with errors, at the address where its own will stand."""
    slug = slug_of(outcome.file)
    title = heading(slug.replace("-", "_"))  # its own may not even have been read
    view = ProblemsView(
        title=title,
        problems=tuple(problem_text(problem) for problem in in_order(outcome.problems)),
        collection=_collection_link(address),
    )
    return RenderedPage(
        source=address.source(slug),
        title=title,
        description="",
        markdown=plain_markdown(title),
        body=packed(problems_html(view)),
        contents=(),
        in_menu=False,
    )


def _studio(one: Outcome | Recalled) -> Studio:
    if isinstance(one, Recalled):
        return one.studio
    return one.ready.pattern.studio if one.ready else NO_STUDIO


def _link(one: Outcome | Recalled | None, address: Address) -> Link | None:
    """A link to a neighbour, where there is one."""
    if isinstance(one, Recalled):
        slug, title = one.remembered.slug, one.remembered.title
    elif one is None or one.ready is None:
        return None
    else:
        slug, title = one.ready.pattern.slug, one.ready.pattern.title.text
    return Link(words=title, url=f"../{slug}/{address.ending}")


def _collection_link(address: Address) -> Link:
    return Link(words=ALL, url=f"../{address.ending}")
