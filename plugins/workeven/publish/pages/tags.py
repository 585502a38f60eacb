"""The page of tags: every word that a designer gave, and the patterns that have it.

Takes     what is said of all patterns that have a page, and where they stand.
Gives     ``TagView``: ``tags``; ``tag_links``.
Problems  none.
From      design.md, "A pattern file": ``tags``.

Spellings that make the same address are one tag, by its first spelling: ``Tee`` and ``tee``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from urllib.parse import quote

from workeven.publish.pages.anchors import slug
from workeven.publish.pages.mentions import Mention
from workeven.publish.pages.views import Link
from workeven.records import record


@record
class TagView:
    """One tag: its anchor, the list narrowed to it, and its patterns."""

    anchor: str
    narrowed: Link
    patterns: tuple[Link, ...]


def tags(
    patterns: Iterable[Mention], page: Callable[[str], str], index: str
) -> tuple[TagView, ...]:
    """By alphabet; ``page`` tells where a pattern stands, ``index`` where all do."""
    spelled: dict[str, str] = {}
    found: dict[str, list[Link]] = {}
    for one in patterns:
        link = Link(words=one.title, url=page(one.slug))
        for tag in {slug(tag): tag for tag in reversed(one.tags)}.values():
            name = spelled.setdefault(slug(tag), tag)
            found.setdefault(name, []).append(link)
    return tuple(
        TagView(
            anchor=_anchor(name),
            narrowed=Link(words=name, url=f"{index}?kind={quote(name)}"),
            patterns=tuple(found[name]),
        )
        for name in sorted(found, key=str.casefold)
    )


def tag_links(words: Iterable[str], page: str) -> tuple[Link, ...]:
    """From a pattern to its tags; () where there is no page of them."""
    if not page:
        return ()
    return tuple(Link(words=tag, url=f"{page}#{_anchor(tag)}") for tag in dict.fromkeys(words))


def _anchor(tag: str) -> str:
    return f"tag-{slug(tag)}"
