"""Pages beside the patterns: what belongs to the whole collection and not to one of them.

Takes     the patterns that have a page, and the address of the collection.
Gives     ``companions``: pages and files as a ``Publication``.
Problems  none.
From      design.md, "How a page reaches MkDocs".

They stand in folders beside that of the patterns, so that no pattern can have their address.
"""

from __future__ import annotations

from collections.abc import Sequence

from workeven.pipeline import ReadyPattern
from workeven.publish.collection import (
    Address,
    Attachment,
    Publication,
    RenderedPage,
    links_beside,
)
from workeven.publish.pages import beside, glossary
from workeven.publish.pages.former import former_page
from workeven.publish.pages.render import page_html, plain_markdown
from workeven.publish.pages.views import Entry, Link


def companions(ready: Sequence[ReadyPattern], address: Address) -> Publication:
    """All of them; with no pattern there is nothing to stand beside."""
    pages = (_stitches(address),) if ready else ()
    return Publication(pages=pages, attachments=tuple(_former(ready, address)))


def _stitches(address: Address) -> RenderedPage:
    view = glossary.glossary()
    html = page_html("glossary.html", view=view, beside=_links(beside.STITCHES, address))
    contents = (
        Entry(title="Stitches", anchor="stitches"),
        Entry(title="Other abbreviations", anchor="words"),
        Entry(title="Words and signs in rows", anchor="signs"),
    )
    return RenderedPage(
        source=f"{address.beside(beside.STITCHES)}/index.md",
        title=view.title,
        description="What stitches are called in US and in UK terms, and how they are worked.",
        markdown=plain_markdown(view.title, glossary.search_words()),
        html=html,
        contents=contents,
        in_menu=False,
        beside=True,
    )


def _links(here: str, address: Address) -> tuple[Link, ...]:
    """From a page beside that of all patterns to that, and to the others."""
    at = address.beside(here)
    return (
        Link(words=beside.ALL, url=address.between(at, address.folder)),
        *(one for one in links_beside(address, at) if one.words != beside.BESIDE[here]),
    )


def _former(ready: Sequence[ReadyPattern], address: Address) -> list[Attachment]:
    """A page at each old address of a pattern."""
    return [
        Attachment(
            path=f"{address.folder}/{name.text}/index.html",
            content=former_page(
                one.pattern.title.text,
                f"../{one.pattern.slug}/{address.ending}",
                address.whole(one.pattern.slug),
            ).encode(),
        )
        for one in ready
        for name in one.pattern.formerly
    ]
