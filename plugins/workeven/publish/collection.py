"""A whole collection rendered: every page and every file beside it, as texts and bytes.

Takes     ``Verdict``: all patterns of a collection and their problems.
Gives     ``Publication`` (``published``, ``preview``): pages and files, nothing written yet.
Problems  none; a collection with an error is not published, only previewed.
From      design.md, "How a page reaches MkDocs"; performance.md, decisions 1 to 3.

Nothing on a pattern's page depends on how many patterns there are: it links to the one before, the
one after, and the index.
"""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager, nullcontext

from markupsafe import Markup

from workeven.pipeline import Outcome, ReadyPattern, Verdict
from workeven.problems import Problem, Severity
from workeven.problems.catalogue import severity
from workeven.publish import downloads
from workeven.publish.album import Album, album
from workeven.publish.assets import Kind
from workeven.publish.drawings.shared import shared
from workeven.publish.pages import pattern_page as page
from workeven.publish.pages import sharing, sheets, worked_into
from workeven.publish.pages.beside import ALL, BESIDE, CHANGES, FEED, STITCHES, TAGS
from workeven.publish.pages.choosing import meta
from workeven.publish.pages.facets import filters
from workeven.publish.pages.figures import heading
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

    ``head`` is added to the head of its document, and its ``kind`` says which script it has. One
    that stands ``beside`` the patterns makes room for a page of the studio's own at its address,
    and search finds patterns before it.
    """

    source: str
    title: str
    description: str
    markdown: str
    html: str
    contents: tuple[Entry, ...]
    in_menu: bool
    head: Markup = NO_MARKUP
    beside: bool = False
    kind: Kind = "other"


@record
class Attachment:
    """A file beside a page: its address in the site and what is in it."""

    path: str
    content: bytes


@record
class Publication:
    """Everything that a collection adds to a site."""

    pages: tuple[RenderedPage, ...]
    attachments: tuple[Attachment, ...]


def published(verdict: Verdict, address: Address, around: Around = _as_it_is) -> Publication:
    """The patterns that have a date of publication, in the order of their folders.

    ``around`` gives a context in which the page of the named file is made.
    """
    ready = [one.ready for one in verdict.outcomes if one.ready and one.ready.pattern.published]
    return _publication(ready, (), (), address, around)


def preview(verdict: Verdict, address: Address, around: Around = _as_it_is) -> Publication:
    """All patterns, drafts too; where one has errors its page tells them."""
    ready = [outcome.ready for outcome in verdict.outcomes if outcome.ready]
    faulty = [outcome for outcome in verdict.outcomes if not outcome.ready]
    errors = in_order(one for one in verdict.problems if severity(one.code) is Severity.ERROR)
    return _publication(ready, faulty, errors, address, around)


def _publication(
    ready: Sequence[ReadyPattern],
    faulty: Sequence[Outcome],
    problems: Sequence[Problem],
    address: Address,
    around: Around,
) -> Publication:
    pages, attachments, cards = [], [], []
    for place, one in enumerate(ready):
        neighbours = page.Neighbours(
            before=_link(ready[place - 1 : place], address),
            after=_link(ready[place + 1 : place + 2], address),
            collection=_collection_link(address),
            glossary=_glossary_link(one, address),
            tagged=_beside(one, TAGS, address),
        )
        with around(one.pattern.file):
            drawn = draw(one)
            into = worked_into.told(one)
            more = lengthened(one.proven, one.yarn.needs)
            own = album(one)
            view = page.pattern_view(one, drawn, into, neighbours, own.pictures, more)
            pages.append(_pattern_page(one, view, address))
            cover = None if own.pictures else page.cover(one, drawn)
            attachments += _attachments(one, into, more, cover, address)
            attachments += _pictures(one, own, address)
            attachments += _shared(one, drawn, own, address)
            cards.append(_card(one, drawn, own, address))
    pages += [_problems_page(outcome, address) for outcome in faulty]
    index = _index_page(cards, problems, ready, address)
    return Publication(pages=(index, *pages), attachments=tuple(attachments))


def _pattern_page(one: ReadyPattern, view: page.PatternView, address: Address) -> RenderedPage:
    title, summary = one.pattern.title.text, one.pattern.summary.text
    contents = page.contents(view)
    html = pattern_html(view, contents)
    return RenderedPage(
        source=address.source(one.pattern.slug),
        title=title,
        description=summary,
        markdown=plain_markdown(title, summary, page.search_words(one)),
        html=html,
        contents=contents,
        in_menu=False,
        head=stamped(html)
        + meta(one.pattern, html)
        + sheets.foot(one.pattern)
        + sharing.head(view, one.pattern, address.whole(one.pattern.slug)),
        kind="pattern",
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
        Attachment(
            path=f"{folder}/{page.PATTERN_DATA}", content=downloads.pattern_json(one, into, more)
        ),
        Attachment(path=f"{folder}/{page.SIZES_DATA}", content=downloads.sizes_csv(one)),
    ]
    if cover is not None:
        files.append(Attachment(path=f"{folder}/{page.COVER}", content=cover.encode()))
    return files


def _pictures(one: ReadyPattern, own: Album, address: Address) -> list[Attachment]:
    """Its photographs, made anew."""
    folder = f"{address.folder}/{one.pattern.slug}"
    return [Attachment(path=f"{folder}/{name}", content=content) for name, content in own.files]


def _shared(one: ReadyPattern, drawn: Drawn, own: Album, address: Address) -> list[Attachment]:
    """The picture for who shares the page, where its whole address can be told."""
    if not address.site:
        return []
    if own.shared:
        path = f"{address.folder}/{one.pattern.slug}/{sharing.SHARED_PHOTOGRAPH}"
        return [Attachment(path=path, content=own.shared)]
    pieces = page.made(one, drawn)
    if not pieces:
        return []
    picture = shared([(shape, times) for _, shape, times in pieces], slug=one.pattern.slug)
    path = f"{address.folder}/{one.pattern.slug}/{sharing.SHARED}"
    return [Attachment(path=path, content=picture)]


def _card(one: ReadyPattern, drawn: Drawn, own: Album, address: Address) -> Card:
    slug = one.pattern.slug
    return page.card(one, drawn, f"{slug}/{address.ending}", slug, own.pictures)


def _index_page(
    cards: Sequence[Card],
    problems: Sequence[Problem],
    ready: Sequence[ReadyPattern],
    address: Address,
) -> RenderedPage:
    summary = ready[0].pattern.studio.summary if ready else ""
    view = IndexView(
        title=INDEX_TITLE,
        summary=summary,
        cards=tuple(cards),
        problems=tuple(problem_text(problem) for problem in problems),
        beside=links_beside(address, address.folder) if ready else (),
        filters=filters([card.facets for card in cards], ready[0].pattern.studio.units)
        if len(cards) > 1
        else None,
    )
    return RenderedPage(
        source=address.source(),
        title=INDEX_TITLE,
        description=summary,
        markdown=plain_markdown(INDEX_TITLE, summary),
        html=index_html(view),
        contents=(),
        in_menu=True,
        head=sharing.index_head(
            INDEX_TITLE, summary, ready[0].pattern.studio.name if ready else "", address.whole()
        )
        + (_feed_link(address) if ready else NO_MARKUP),
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
        html=problems_html(view),
        contents=(),
        in_menu=False,
    )


def _link(neighbour: Sequence[ReadyPattern], address: Address) -> Link | None:
    """A link to a neighbour, where there is one."""
    if not neighbour:
        return None
    (one,) = neighbour
    return Link(words=one.pattern.title.text, url=f"../{one.pattern.slug}/{address.ending}")


def _collection_link(address: Address) -> Link:
    return Link(words=ALL, url=f"../{address.ending}")
