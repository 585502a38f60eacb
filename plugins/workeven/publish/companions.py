"""Pages beside the patterns: what belongs to the whole collection and not to one of them.

Takes     what is said of the patterns that have a page, and the address of the collection.
Gives     ``companions``: pages and files as a ``Publication``.
Problems  none.
From      design.md, "How a page reaches MkDocs".

They stand in folders beside that of the patterns, so that no pattern can have their address.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from urllib.parse import urljoin

from markupsafe import Markup

from workeven.pattern import Studio
from workeven.publish.collection import (
    NO_MARKUP,
    Address,
    Attachment,
    Publication,
    RenderedPage,
    attachment,
    feed_link,
    links_beside,
)
from workeven.publish.packed import packed
from workeven.publish.pages import beside, glossary, news
from workeven.publish.pages.former import former_page
from workeven.publish.pages.mentions import Mention
from workeven.publish.pages.render import page_html, plain_markdown
from workeven.publish.pages.studio import inside, studio
from workeven.publish.pages.tags import tags
from workeven.publish.pages.views import Entry, Link


def companions(patterns: Sequence[Mention], of: Studio, address: Address) -> Publication:
    """All of them, of this studio; with no pattern there is nothing to stand beside."""
    if not patterns:
        return Publication(pages=(), attachments=())
    at = address.beside(beside.CHANGES)
    every = news.news(patterns, of.name, partial(_page_of, address, at))
    return Publication(
        pages=(
            _stitches(address),
            _tags(patterns, address),
            *((_changes(every, address),) if every else ()),
            _studio(patterns, of, address),
        ),
        attachments=(
            *_former(patterns, address),
            *((_feed(patterns, of, address),) if every else ()),
        ),
    )


def _page_of(address: Address, here: str, slug: str) -> str:
    """The page of a pattern, seen from a folder."""
    return address.between(here, f"{address.folder}/{slug}".strip("/"))


def _companion(
    name: str,
    address: Address,
    texts: tuple[str, str, str],
    html: str,
    contents: tuple[Entry, ...] = (),
    head: Markup = NO_MARKUP,
) -> RenderedPage:
    """One page; ``texts``: its title, its description, and words to be found by."""
    title, description, words = texts
    return RenderedPage(
        source=f"{address.beside(name)}/index.md",
        title=title,
        description=description,
        markdown=plain_markdown(title, words),
        body=packed(html),
        contents=contents,
        in_menu=False,
        top=packed(head),
        beside=True,
    )


def _links(here: str, address: Address) -> tuple[Link, ...]:
    """From a page beside that of all patterns to that, and to the others."""
    at = address.beside(here)
    return (
        Link(words=beside.ALL, url=address.between(at, address.folder)),
        *(one for one in links_beside(address, at) if one.words != beside.BESIDE[here]),
    )


# --- each of them --------------------------------------------------------------------------


def _stitches(address: Address) -> RenderedPage:
    view = glossary.glossary()
    return _companion(
        beside.STITCHES,
        address,
        (
            view.title,
            "What stitches are called in US and in UK terms, and how they are worked.",
            glossary.search_words(),
        ),
        page_html("glossary.html", view=view, beside=_links(beside.STITCHES, address)),
        (
            Entry(title="Stitches", anchor="stitches"),
            Entry(title="Other abbreviations", anchor="words"),
            Entry(title="Words and signs in rows", anchor="signs"),
        ),
    )


def _tags(patterns: Sequence[Mention], address: Address) -> RenderedPage:
    at, title = address.beside(beside.TAGS), beside.BESIDE[beside.TAGS]
    every = tags(patterns, partial(_page_of, address, at), address.between(at, address.folder))
    html = page_html("tags.html", title=title, tags=every, beside=_links(beside.TAGS, address))
    return _companion(beside.TAGS, address, (title, "Patterns by what they are.", ""), html)


def _changes(every: tuple[news.NewsView, ...], address: Address) -> RenderedPage:
    title = beside.BESIDE[beside.CHANGES]
    html = page_html(
        "changes.html",
        title=title,
        news=every,
        feed=beside.FEED,
        older=len(every) == news.NEWEST,
        beside=_links(beside.CHANGES, address),
    )
    description = "What changed in the patterns since they were published."
    return _companion(
        beside.CHANGES, address, (title, description, ""), html, head=feed_link(beside.FEED)
    )


def _feed(patterns: Sequence[Mention], of: Studio, address: Address) -> Attachment:
    """The changes for programs; addresses in it are whole where that of the site is known."""
    at = address.beside(beside.CHANGES)
    base = f"{address.site.rstrip('/')}/{at}/" if address.site else ""
    entries = news.news(patterns, of.name, lambda slug: urljoin(base, _page_of(address, at, slug)))
    view = news.feed(
        entries,
        of.name,
        urljoin(base, address.ending or "./"),
        urljoin(base, beside.FEED),
    )
    return attachment(f"{at}/{beside.FEED}", page_html("feed.xml", view=view))


def _studio(patterns: Sequence[Mention], of: Studio, address: Address) -> RenderedPage:
    at = address.beside(beside.STUDIO)
    root = address.between(at, "").removesuffix(address.ending)
    view = studio(
        of,
        patterns,
        partial(_page_of, address, at),
        lambda url: f"{root}{inside(url, address.ending)}",
    )
    html = page_html("studio.html", view=view, beside=_links(beside.STUDIO, address))
    contents = (
        *((Entry(title="Designers", anchor="designers"),) if view.designers else ()),
        Entry(title="Newest patterns", anchor="newest"),
    )
    return _companion(
        beside.STUDIO, address, (view.name, view.summary, view.summary), html, contents
    )


def _former(patterns: Sequence[Mention], address: Address) -> Iterator[Attachment]:
    """A page at each old address of a pattern."""
    for one in patterns:
        for name in one.formerly:
            yield attachment(
                f"{address.folder}/{name}/index.html",
                former_page(
                    one.title,
                    f"../{one.slug}/{address.ending}",
                    address.whole(one.slug),
                ),
            )
