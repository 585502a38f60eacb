"""What changed in patterns since they were published, for who has begun: on pages and as a feed.

Takes     ``ReadyPattern``; where the pages stand.
Gives     ``ChangeView``: ``changes``; ``NewsView``: ``news``; ``FeedView``: ``feed``.
Problems  none.
From      RFC 4287, the Atom Syndication Format; RFC 9562, names as UUIDs (version 5).

An entry keeps its id for ever: it is made of the studio's name, the first name of the pattern's
folder, the version, the day, and its place among those of that day from the oldest on. So an entry
that is added later, and a folder that is renamed, change no id.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from uuid import UUID, uuid5

from workeven.pattern import Change, Pattern
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenRow, row_address
from workeven.publish.pages import figures, rows
from workeven.publish.pages.views import Link
from workeven.records import record

#: Ours; names of another namespace never give the same ids.
NAMESPACE = UUID("6f0d1f5e-5a54-4c8b-9f0e-3b7f0c6a2d41")
#: So many on the page and in the feed; each pattern's own page has all of its own.
NEWEST = 100
FIRST = "Published."


@record
class ChangeView:
    """One change: its day and version, what it was, the sizes and rows that it is about."""

    day: str
    version: str
    words: str
    sizes: str
    rows: tuple[Link, ...]


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


def changes(ready: ReadyPattern, page: str = "") -> tuple[ChangeView, ...]:
    """Those of one pattern, in the order of its file; ``page`` is where it stands."""
    words = _row_words(ready) if any(one.rows for one in ready.pattern.changes) else {}
    return tuple(_change(one, words, page) for one in ready.pattern.changes)


def news(ready: Iterable[ReadyPattern], page: Callable[[str], str]) -> tuple[NewsView, ...]:
    """Those of all patterns, the newest first; ``page`` tells where a pattern stands."""
    found = (one for pattern in ready for one in _news(pattern, page(pattern.pattern.slug)))
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


def _change(one: Change, words: dict[str, str], page: str) -> ChangeView:
    return ChangeView(
        day=one.date,
        version=one.version,
        words=one.text,
        sizes=figures.listed(one.sizes),
        rows=tuple(Link(words=words[row.text], url=f"{page}#row-{row.text}") for row in one.rows),
    )


def _row_words(ready: ReadyPattern) -> dict[str, str]:
    """``Mitt, Rnd 4`` by the address of the row."""
    return {
        row_address(piece.piece.name, row.anchor): f"{piece.piece.title}, {_called(row)}"
        for piece in ready.proven.pieces
        for section in piece.sections
        for row in section.rows
    }


def _called(row: ProvenRow) -> str:
    label = row.row.label
    return label.name if label and label.name else rows.number(row) or rows.place(row).lower()


def _news(ready: ReadyPattern, page: str) -> Iterator[NewsView]:
    """What the pattern says, and that it was published where it does not say so itself."""
    pattern = ready.pattern
    title = pattern.title.text
    told = list(changes(ready, page))
    if pattern.published and pattern.published not in {one.day for one in told}:
        told.append(ChangeView(day=pattern.published, version="", words=FIRST, sizes="", rows=()))
    seen: dict[tuple[str, str], int] = {}
    entries = []
    for one in reversed(told):
        of_day = (one.version, one.day)
        seen[of_day] = seen.get(of_day, 0) + 1
        entries.append(
            NewsView(
                pattern=Link(words=title, url=page),
                change=one,
                id=_id(pattern.studio.name, _first_name(pattern), *of_day, str(seen[of_day])),
            )
        )
    yield from reversed(entries)


def _first_name(pattern: Pattern) -> str:
    """What its folder was called when it was published: former names stand oldest first."""
    return pattern.formerly[0].text if pattern.formerly else pattern.slug


def _id(*names: str) -> str:
    return f"urn:uuid:{uuid5(NAMESPACE, chr(10).join(names))}"
