"""The abbreviations of a page, and what stitch words mean, in the terms of the text.

Takes     ``ReadyPattern``.
Gives     ``abbreviations``, ``stitch_words``.
Problems  none.
From      ``notation.wording``, which has the published tables of abbreviations and terms.

The list is computed from the rows that use them, the pattern's own stitches, and what the page adds
by itself (the numbers of rounds, right and wrong sides, counts).
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.notation import wording
from workeven.notation.tree import Chain, Content, Picot, Row, Stitch, Times
from workeven.notation.vocabulary import Terms, in_terms
from workeven.pipeline import ReadyPattern
from workeven.publish.pages.choices import in_terms as marked_terms
from workeven.publish.pages.views import Table

_OTHER: dict[Terms, Terms] = {"us": "uk", "uk": "us"}
_HEADS = {"us": "US terms", "uk": "UK terms"}
_SAME = "same"

#: What a page adds to the words of the rows, by what makes it do so.
_ADDED = {
    "Rnd": ("rnd(s)", "round(s)"),
    "RS": ("RS", "right side"),
    "WS": ("WS", "wrong side"),
    "sts": ("st(s)", "stitch(es)"),
}


def abbreviations(ready: ReadyPattern) -> Table | None:
    """What is short on the page, in full, and what it is called in the other terms."""
    terms, rows = ready.pattern.terms, tuple(_rows(ready))
    names = tuple(dict.fromkeys((*_used(rows), *_own(ready))))
    found = {one.short: one.meaning for one in wording.abbreviations(rows, terms)}
    found |= {in_terms(name, terms): wording.meaning(name, terms) or "" for name in names}
    found |= dict(_ADDED[word] for word in _page_words(ready))
    other = {in_terms(name, terms): _in_other(name, _OTHER[terms]) for name in names}
    other |= {"sk": "miss, pass over without working"} if terms == "us" else {"miss": "sk, skip"}
    listed = sorted((short, full) for short, full in found.items() if full)
    if not listed:
        return None
    return Table(
        caption="Used in this pattern",
        heads=(
            "Abbreviation",
            "Meaning",
            marked_terms(f"In {_HEADS[_OTHER[terms]]}", f"In {_HEADS[terms]}"),
        ),
        rows=tuple(
            _line(short, full, other.get(short, short))
            for short, full in sorted(listed, key=lambda pair: pair[0].casefold())
        ),
    )


def _line(short: str, full: str, other: str) -> tuple[str, tuple[tuple[str, ...], ...]]:
    """A line, and what it is for who reads the other terms: the two columns change places."""
    if other == short:
        return short, ((full,), (_SAME,))
    there, _, meaning = other.partition(", ")
    own = f"{short}, {full}" if meaning else short
    return (
        marked_terms(short, there),
        ((marked_terms(full, meaning or full),), (marked_terms(other, own),)),
    )


def stitch_words(names: tuple[str, ...]) -> Iterator[str]:
    """Stitches in full and in short, in both terms, as somebody may search for them."""
    for terms in _OTHER:
        for name in names:
            yield wording.meaning(name, terms) or name
            yield in_terms(name, terms)


def _in_other(name: str, terms: Terms) -> str:
    """``dc, double crochet``; a stitch with the same name in both by that name alone."""
    short, full = in_terms(name, terms), wording.meaning(name, terms) or ""
    same = full == wording.meaning(name, _OTHER[terms])
    return in_terms(name, _OTHER[terms]) if same else f"{short}, {full}"


def _rows(ready: ReadyPattern) -> Iterator[Row]:
    for piece in ready.proven.pieces:
        for section in piece.sections:
            for row in section.rows:
                yield row.row


def _used(rows: tuple[Row, ...]) -> Iterator[str]:
    """The US names of the stitches in the rows that have a meaning of their own."""
    for row in rows:
        for term in row.terms:
            if wording.meaning(term.name, "us"):
                yield term.name


def _own(ready: ReadyPattern) -> Iterator[str]:
    """The stitches that the pattern's own stitches are made of."""
    for stitch in ready.pattern.stitches:
        for name in _stitches(stitch.content):
            if wording.meaning(name, "us"):
                yield name


def _stitches(content: tuple[Content, ...]) -> Iterator[str]:
    for part in content:
        match part:
            case Stitch():
                yield part.name
            case Times():
                yield from _stitches(part.content)
            case Chain() | Picot():
                pass


def _page_words(ready: ReadyPattern) -> Iterator[str]:
    """What the page itself says beside the rows."""
    yield "sts"
    for piece in ready.proven.pieces:
        for section in piece.sections:
            turned = section.section.worked in {"flat rows", "joined rounds, turned"}
            for row in section.rows:
                if row.word == "Rnd":
                    yield row.word
                yield from (one.side for one in row.per_size if turned and one and one.side)
