"""What changed in all patterns since they were published, on a page and as a feed.

Takes     what is said of each pattern; where the pages stand.
Gives     ``NewsView``: ``news``; ``FeedView``: ``feed``.
Problems  none.
From      RFC 4287, the Atom Syndication Format; RFC 9562, names as UUIDs (version 5).

An entry keeps its id for ever: it is made of the studio's name, the first name of the pattern's
folder, the version, the day, and its place among those of that day from the oldest on. So an entry
that is added later, and a folder that is renamed, change no id.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from uuid import UUID, uuid5

from workeven.publish.pages.changes import ChangeView
from workeven.publish.pages.mentions import Mention
from workeven.publish.pages.views import Link
from workeven.records import record, replace

#: Ours; names of another namespace never give the same ids.
NAMESPACE = UUID("6f0d1f5e-5a54-4c8b-9f0e-3b7f0c6a2d41")
#: So many on the page and in the feed; each pattern's own page has all of its own.
NEWEST = 100
FIRST = "Published."


@record
class NewsView:
    """A change among those of all patterns. ``id`` is for programs, for ever."""

    pattern: Link
    change: ChangeView
    id: str


@record
class FeedView:
    """A feed. ``home`` and ``itself`` are addresses, whole where the site's is known."""

    title: str
    id: str
    updated: str
    author: str
    home: str
    itself: str
    entries: tuple[NewsView, ...]


def news(
    patterns: Iterable[Mention], studio: str, page: Callable[[str], str]
) -> tuple[NewsView, ...]:
    """Those of all patterns, the newest first; ``page`` tells where a pattern stands."""
    found = (one for pattern in patterns for one in _news(pattern, studio, page(pattern.slug)))
    return tuple(sorted(found, key=lambda one: one.change.day, reverse=True)[:NEWEST])


def feed(entries: Sequence[NewsView], studio: str, home: str, itself: str) -> FeedView:
    """The same for programs; there is at least one."""
    return FeedView(
        title=f"{studio}: changes and corrections" if studio else "Changes and corrections",
        id=_id(studio),
        updated=max(one.change.day for one in entries),
        author=studio or "The designers",
        home=home,
        itself=itself,
        entries=tuple(entries),
    )


def _news(pattern: Mention, studio: str, page: str) -> Iterator[NewsView]:
    """What the pattern says, and that it was published where it does not say so itself."""
    told = [_seen_from(page, one) for one in pattern.changes]
    if pattern.published and pattern.published not in {one.day for one in told}:
        told.append(ChangeView(day=pattern.published, version="", words=FIRST, sizes="", rows=()))
    seen: dict[tuple[str, str], int] = {}
    entries = []
    for one in reversed(told):
        of_day = (one.version, one.day)
        seen[of_day] = seen.get(of_day, 0) + 1
        entries.append(
            NewsView(
                pattern=Link(words=pattern.title, url=page),
                change=one,
                id=_id(studio, _first_name(pattern), *of_day, str(seen[of_day])),
            )
        )
    yield from reversed(entries)


def _seen_from(page: str, one: ChangeView) -> ChangeView:
    """A change with links to its rows from elsewhere; ``page`` is where the pattern stands."""
    rows = tuple(replace(row, url=f"{page}{row.url}") for row in one.rows)
    return replace(one, rows=rows)


def _first_name(pattern: Mention) -> str:
    """What its folder was called when it was published: former names stand oldest first."""
    return pattern.formerly[0] if pattern.formerly else pattern.slug


def _id(*names: str) -> str:
    return f"urn:uuid:{uuid5(NAMESPACE, chr(10).join(names))}"
