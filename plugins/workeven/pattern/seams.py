"""Edges of pieces, and the seams between them, as records.

Takes     the table ``edges`` of a piece, the list ``seams``.
Gives     ``edges``, ``seams``.
Problems  ``seam-form``, ``seam-edge``, ``name-unknown``, those of ``reading``.
From      design.md, "A pattern file": ``edges``, ``seams``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from typing import Literal

from workeven.pattern.reading import Reading, entries, items, whole_of, words
from workeven.pattern.records import Piece, Section
from workeven.pattern.seam_records import FIRST_ROW, LAST_ROW, Edge, EdgePart, Seam
from workeven.problems.words import joined, quote
from workeven.source import Entry, Node

_WAYS = ("sts", "rows", "row", "row_ends", "slope")
#: ways that name the first and the last of several rows
_STRETCHES = ("row_ends", "slope")
#: on which side of a left front an edge lies; a right one mirrors it
_SIDES: dict[str, Literal["right", "left"]] = {
    "armhole edge": "right",
    "side edge": "right",
    "neck edge": "left",
    "front edge": "left",
    "inner edge": "left",
}
_PART = re.compile(r"(?:(\d{1,3})\s*[*×]\s*)?([A-Za-z]\w*)\s*\.\s*([A-Za-z]\w*)")


def edges(
    reading: Reading, table: Node | None, sections: Iterable[Section], piece: str
) -> tuple[Edge, ...] | None:
    """The edges of a piece; rows and sections that they name must be there."""
    names = _names(sections)
    return whole_of(
        _edge(reading, name, entry, names, piece) for name, entry in entries(table).items()
    )


def seams(
    reading: Reading,
    listed: Node | None,
    pieces: tuple[Piece, ...],
    yarns: tuple[str, ...] | None,
) -> tuple[Seam, ...] | None:
    """The seams, in order; edges and yarns that they name must be there."""
    return whole_of(_seam(reading, table, pieces, yarns) for table in items(listed))


def _names(sections: Iterable[Section]) -> tuple[str, ...]:
    """What an edge may name: sections and labelled rows."""
    found: list[str] = [FIRST_ROW, LAST_ROW]
    for section in sections:
        labels = (row.label.name for row in section.rows if row.label is not None)
        found += [section.title, *(name for name in labels if name)]
    return tuple(dict.fromkeys(found))


def _edge(
    reading: Reading, name: str, entry: Entry, names: tuple[str, ...], piece: str
) -> Edge | None:
    table = entry.value
    said = [key for key in _WAYS if key in entries(table)]
    if len(said) != 1:
        what = f"is said by {joined(map(quote, said))}" if said else "does not say what it is"
        reading.problem(
            "seam-edge",
            reading.span(entry),
            f"The edge {quote(name)} {what}.",
            expected="One of `sts`, `rows`, `row`, `row_ends` and `slope`.",
            mend="Write the stitches of the edge (`sts: body_sts`, `row: last row`), or its rows "
            "(`rows: armhole_rows`, `row_ends: Armhole`, or `slope: Cap` where it slants).",
            piece=piece,
        )
        return None
    node = reading.node(table, said[0])
    if node is None:
        return None
    formula = reading.formula(node) if said[0] in ("sts", "rows") else None
    named = _named(reading, node, names, piece) if formula is None else ()
    gauge_node = reading.node(table, "gauge")
    gauges = tuple(entries(reading.node(reading.source.root, "gauge")))
    if gauge_node is not None and words(gauge_node) not in gauges:
        reading.unknown(gauge_node, "gauge", gauges, "Names under `gauge`", piece=piece)
        return None
    if formula is None and not named:
        return None
    return Edge(
        name=name,
        sts=formula if said[0] == "sts" else None,
        rows=formula if said[0] == "rows" else None,
        row=named[0] if said[0] == "row" else None,
        ends=(named[0], named[-1]) if said[0] in _STRETCHES else None,
        gauge=None if gauge_node is None else words(gauge_node),
        span=reading.span(entry),
        slope=said[0] == "slope",
        side=_SIDES.get(reading.text(table, "edge") or ""),
    )


def _named(reading: Reading, node: Node, names: tuple[str, ...], piece: str) -> tuple[str, ...]:
    """One or two rows or sections, as their names stand in the piece; () if one is unknown."""
    by_lower = {name.casefold(): name for name in names}
    found = []
    for one in items(node) or (node,):
        said = by_lower.get(" ".join(words(one).split()).casefold())
        if said is None:
            reading.unknown(one, "row or section", names, f"In {quote(piece)}", piece=piece)
            return ()
        found.append(said)
    return tuple(found)


def _seam(
    reading: Reading, table: Node, pieces: tuple[Piece, ...], yarns: tuple[str, ...] | None
) -> Seam | None:
    sewn, picked = reading.node(table, "sew"), reading.node(table, "pick_up")
    first, key = (sewn, "to") if sewn is not None else (picked, "along")
    second = reading.node(table, key)
    if first is None or second is None or (sewn is not None and picked is not None):
        reading.problem(
            "seam-form",
            reading.source.span(table),
            "A seam does not say what is joined to what.",
            expected="`sew` and `to`, or `pick_up` and `along`.",
            mend="Write `sew: sleeve.top` and `to: back.armhole + front.armhole`, with your names.",
        )
        return None
    ease_node, tolerance_node = reading.node(table, "ease"), reading.node(table, "tolerance")
    ease, colour = reading.lengths(ease_node, "seams.ease"), reading.node(table, "colour")
    times_node = reading.node(table, "times")
    times = reading.wholes(times_node, "seams.times")
    tolerance = reading.length(tolerance_node)
    sides = _parts(reading, first, pieces), _parts(reading, second, pieces)
    if ease_node is None and reading.sizes is not None:
        ease = reading.sizes.all(Fraction(0))
    if not sides[0] or not sides[1] or ease is None or (tolerance_node and tolerance is None):
        return None
    if times_node is not None and times is None:
        return None
    titles = {piece.name: piece.title for piece in pieces}
    return Seam(
        title=reading.text(table, "title") or f"{titles[sides[0][0].piece]}, {sides[0][0].edge}",
        kind="sew" if sewn is not None else "pick up",
        first=sides[0],
        second=sides[1],
        first_words=words(first),
        second_words=words(second),
        ease=ease,
        tolerance=tolerance,
        span=reading.source.span(table),
        times=times,
        yarn=reading.yarn(table, yarns),
        colour=None if colour is None else reading.placed(colour),
    )


def _parts(reading: Reading, node: Node, pieces: tuple[Piece, ...]) -> tuple[EdgePart, ...]:
    """``back.armhole + 2 * front.armhole``; () where a part cannot be read or is unknown."""
    by_name = {piece.name: piece for piece in pieces}
    parts = []
    for text in words(node).split("+"):
        found = _PART.fullmatch(text.strip())
        if found is None:
            reading.problem(
                "seam-form",
                reading.source.span(node),
                f"{quote(text)} is no edge of a piece.",
                expected="The piece, a full stop and the edge: `sleeve.top`; several with `+`, "
                "one several times as `2 * front.side`.",
                mend="Write the keys as they stand under `pieces` and `edges`.",
            )
            return ()
        times, piece, edge = int(found[1] or 1), found[2], found[3]
        if piece not in by_name:
            reading.unknown(node, "piece", by_name, "Names under `pieces`", name=piece)
            return ()
        known = tuple(one.name for one in by_name[piece].edges)
        if edge not in known:
            where = f"Edges of {quote(piece)}"
            reading.unknown(node, "edge", known, where, name=edge)
            return ()
        parts.append(EdgePart(times=times, piece=piece, edge=edge))
    return tuple(parts)
