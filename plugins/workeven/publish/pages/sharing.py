"""What a page says of itself to other programs, in its head: who shares it, who searches for it.

Takes     ``PatternView``, ``Pattern``, where the page stands in the world.
Gives     ``head``, ``index_head``; ``SHARED``, ``SHARED_PHOTOGRAPH``.
Problems  none.
From      schema.org ``HowTo``; the Open Graph protocol (ogp.me).

It is made from the view of the page, so that it says nothing that a maker does not read there. A
preview by another program needs whole addresses: where the site's own is not known, there is none.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from urllib.parse import urljoin

from markupsafe import Markup

from workeven.pattern import Pattern
from workeven.publish.drawings.shared import SHARED_SIZE
from workeven.publish.pages.choices import plain
from workeven.publish.pages.pattern_page import PatternView
from workeven.publish.pages.pieces import PieceView
from workeven.publish.pages.row_view import RowView

#: The picture for who shares the page, beside it.
SHARED = "share.png"
#: The same where the page has photographs: the first of them, as large.
SHARED_PHOTOGRAPH = "share.jpg"

#: Signs that could end a script, or a line of one; in JSON they may be written by number.
_BY_NUMBER = {ord(sign): f"\\u{ord(sign):04x}" for sign in "<>&\u2028\u2029"}

Told = dict[str, object]


def head(view: PatternView, pattern: Pattern, page: str) -> Markup:
    """For a pattern's page; ``page`` is its whole address, "" where that is not known."""
    picture = [
        ("og:image", urljoin(page, _shared(view))),
        ("og:image:width", str(SHARED_SIZE[0])),
        ("og:image:height", str(SHARED_SIZE[1])),
        ("og:image:alt", view.picture.alt if view.picture else ""),
    ]
    return _open_graph(
        ("og:type", "article"),
        ("og:title", view.title),
        ("og:description", pattern.summary.text),
        ("og:site_name", pattern.studio.name),
        ("og:url", page),
        *(picture if page and view.picture else ()),
    ) + _script(_how_to(view, pattern, page))


def index_head(title: str, summary: str, studio: str, page: str) -> Markup:
    """For the page of all patterns."""
    return _open_graph(
        ("og:type", "website"),
        ("og:title", title),
        ("og:description", summary),
        ("og:site_name", studio),
        ("og:url", page),
    )


def _shared(view: PatternView) -> str:
    """The drawing, which is an SVG on the page, or a photograph."""
    drawn = view.picture is None or view.picture.file.endswith(".svg")
    return SHARED if drawn else SHARED_PHOTOGRAPH


def _open_graph(*told: tuple[str, str]) -> Markup:
    meta = Markup('<meta property="{}" content="{}">\n')
    return Markup("").join(meta.format(name, words) for name, words in told if words)


def _script(told: Told) -> Markup:
    text = json.dumps(_plain(told), ensure_ascii=False, separators=(",", ":")).translate(_BY_NUMBER)
    return Markup(f'<script type="application/ld+json">{text}</script>\n')  # noqa: S704 -- no sign that could end it is left


def _plain(told: object) -> object:
    """The same without the marks of what a maker may choose."""
    match told:
        case str():
            return plain(told)
        case dict():
            return {key: _plain(value) for key, value in told.items()}
        case list():
            return [_plain(value) for value in told]
        case _:
            return told


def _how_to(view: PatternView, pattern: Pattern, page: str) -> Told:
    """The pattern as instructions; what it has nothing to say of is left out."""
    needs = view.materials
    told: Told = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": view.title,
        "description": pattern.summary.text,
        "url": page,
        "image": urljoin(page, _shared(view)) if page and view.picture else "",
        "version": pattern.version,
        "datePublished": pattern.published or "",
        "author": [{"@type": "Person", "name": name} for name in pattern.designers],
        "publisher": _named("Organization", pattern.studio.name),
        "license": _named("CreativeWork", view.imprint.licence),
        "copyrightNotice": view.imprint.copyright,
        "supply": [_named("HowToSupply", ", ".join((one.name, *one.facts))) for one in needs.yarns],
        "tool": [_named("HowToTool", words) for words in (*needs.hooks, *needs.notions)],
        "step": list(_sections(view)),
    }
    return {key: value for key, value in told.items() if value}


def _sections(view: PatternView) -> Iterator[Told]:
    """Cautions first, as on the page: who shows the steps elsewhere has them too."""
    tips: list[Told] = [
        {"@type": "HowToTip", "text": f"{one.topic}. {one.words}"} for one in view.cautions
    ]
    if tips:
        yield _section("Cautions", "cautions", tips)
    for piece in view.pieces:
        yield _section(piece.title, piece.anchor, list(_rows(piece)))
    for title, anchor, steps in (
        ("Assembly", "assembly", view.assembly),
        ("Finishing", "finishing", view.finishing),
    ):
        if steps:
            yield _section(title, anchor, [{"@type": "HowToStep", "text": one} for one in steps])


def _section(title: str, anchor: str, steps: list[Told]) -> Told:
    return {
        "@type": "HowToSection",
        "name": title,
        "url": f"#{anchor}",
        "itemListElement": steps,
    }


def _rows(piece: PieceView) -> Iterator[Told]:
    if piece.like is not None:
        yield {
            "@type": "HowToStep",
            "text": f"Work as for {piece.like.words}, reversing the shaping",
            "url": piece.like.url,
        }
    for section in piece.sections:
        yield from map(_row, section.rows)


def _row(row: RowView) -> Told:
    return {
        "@type": "HowToStep",
        "name": row.number or row.place,
        "text": row.words.striptags(),
        "url": f"#{row.anchor}",
    }


def _named(kind: str, name: str) -> Told:
    return {"@type": kind, "name": name} if name else {}
