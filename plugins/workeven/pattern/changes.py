"""What each version changed, as a pattern's file lists it.

Takes     the value of ``changes``; for ``out_of_order``, the pattern.
Gives     ``changes``, ``out_of_order``.
Problems  ``size-unknown``, ``change-order``, ``change-version``; whether rows are there is told
          when they are counted (``proof.changed``).
From      design.md, "A pattern file": ``changes``.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from workeven.pattern.reading import Reading, items, whole_of
from workeven.pattern.records import Change, Pattern, Text
from workeven.problems import Note, Problem
from workeven.problems.words import did_you_mean, joined, quote
from workeven.records import replace
from workeven.source import Node


def changes(reading: Reading, listed: Node) -> tuple[Change, ...] | None:
    """In the order of the file."""
    return whole_of(_change(reading, table) for table in items(listed))


def out_of_order(pattern: Pattern) -> Iterator[Problem]:
    """Changes that are not told from the newest on, and a version that none of them tells of."""
    listed = pattern.changes
    for newer, older in pairwise(listed):
        if newer.date < older.date and older.span is not None and newer.span is not None:
            yield Problem(
                code="change-order",
                span=older.span,
                found=f"The change of {older.date} stands below that of {newer.date}.",
                expected="The newest change first.",
                mend="Move it up.",
                notes=(Note(span=newer.span, message="The older one stands here."),),
            )
    span = listed[0].span if listed else None
    if span is not None and pattern.version not in {change.version for change in listed}:
        yield Problem(
            code="change-version",
            span=span,
            found=f"Nothing under `changes` tells of version {quote(pattern.version)}.",
            expected=f"What is new in it; the first entry is of {quote(listed[0].version)}.",
            mend="Say what it changed, with its day, so that makers who have begun can look.",
        )


def _change(reading: Reading, table: Node) -> Change | None:
    version, text = reading.text(table, "version"), reading.text(table, "text")
    day = reading.date(reading.node(table, "date"))
    if version is None or text is None or day is None:
        return None
    place = reading.node(table, "version")
    return Change(
        version=version,
        date=day,
        text=text,
        rows=tuple(map(_address, reading.texts(reading.node(table, "rows")))),
        sizes=tuple(_sizes(reading, reading.node(table, "sizes"))),
        span=None if place is None else reading.source.span(place),
    )


def _address(name: Text) -> Text:
    """A row's address as it was copied: with or without what stands before it in a link."""
    return replace(name, text=name.text.rpartition("#")[2].removeprefix("row-"))


def _sizes(reading: Reading, node: Node | None) -> Iterator[str]:
    if node is None or reading.sizes is None:
        return
    names = reading.sizes.names
    for size in reading.texts(node):
        if size.text in names:
            yield size.text
        else:
            reading.problem(
                "size-unknown",
                size.span,
                f"There is no size called {quote(size.text)}, which a change is about.",
                expected=f"Sizes: {joined(map(quote, names))}.",
                mend=did_you_mean(size.text, names) or "Write the sizes as a list: `[S, M]`.",
            )
