"""The page of the studio: who it is, who designs for it, what it publishes.

Takes     the studio, and what is said of all its patterns that have a page.
Gives     ``StudioView``: ``studio``; ``inside``.
Problems  none.
From      design.md, "A pattern file": what ``studio.yaml`` says once for all patterns.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from urllib.parse import urlsplit

from workeven.pattern import Studio
from workeven.publish.pages import figures
from workeven.publish.pages.mentions import Mention
from workeven.publish.pages.views import Link
from workeven.records import record

#: So many patterns are named; the others are on the page of all.
NEWEST = 6

_TERMS = {"us": "US", "uk": "UK"}
_UNITS = {
    "cm": "Centimetres stand first, inches beside them.",
    "in": "Inches stand first, centimetres beside them.",
}


@record
class StudioView:
    """The page; ``designers``: each with how many patterns, ``newest``: patterns with their day."""

    name: str
    summary: str
    links: tuple[Link, ...]
    told: tuple[str, ...]
    designers: tuple[tuple[str, str], ...]
    newest: tuple[tuple[Link, str], ...]


def studio(
    one: Studio,
    patterns: Sequence[Mention],
    page: Callable[[str], str],
    within: Callable[[str], str],
) -> StudioView:
    """All of it; ``page`` tells where a pattern stands, ``within`` where another page does."""
    by_day = sorted(patterns, key=lambda each: each.published or "", reverse=True)
    return StudioView(
        name=one.name or "The studio",
        summary=one.summary,
        links=tuple(
            Link(words=link.text, url=link.url if urlsplit(link.url).scheme else within(link.url))
            for link in one.links
        ),
        told=tuple(_told(one, len(patterns))),
        designers=_designers(patterns),
        newest=tuple(
            (
                Link(words=each.title, url=page(each.slug)),
                each.published or "a draft",
            )
            for each in by_day[:NEWEST]
        ),
    )


def inside(url: str, ending: str) -> str:
    """A page of the site as its own link names it, by the address that it is built at.

    >>> inside("about.md", "index.html"), inside("about.md#us", ""), inside("shop/index.md", "")
    ('about.html', 'about/#us', 'shop/')
    """
    path, hash_, anchor = url.partition("#")
    stem = path.removesuffix(".md")
    if stem == path:
        return url
    folder = stem.removesuffix("index")
    if folder != stem:
        return f"{folder}{ending}{hash_}{anchor}"
    return f"{stem}{'.html' if ending else '/'}{hash_}{anchor}"


def _told(one: Studio, patterns: int) -> Iterator[str]:
    number = figures.counted((patterns,), "pattern")
    yield f"{number}, every row of every size counted by program before it was published."
    yield f"Written in {_TERMS[one.terms]} terms where a pattern says nothing else."
    yield _UNITS[one.units]
    if one.licence:
        yield f"Licence: {one.licence}."
    if one.copyright:
        yield f"{one.copyright}."


def _designers(patterns: Sequence[Mention]) -> tuple[tuple[str, str], ...]:
    often: dict[str, int] = {}
    for name in (name for each in patterns for name in each.designers):
        often[name] = often.get(name, 0) + 1
    return tuple(
        (name, figures.counted((number,), "pattern")) for name, number in sorted(often.items())
    )
