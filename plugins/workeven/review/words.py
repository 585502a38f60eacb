"""Free words before and after: those that hold other numbers, and those that are worded otherwise.

Takes     ``Pattern`` before and after, the titles of pieces that were renamed.
Gives     ``in_words``, ``renamed_piece``.
Problems  none.
From      "Leave 25 cm of yarn" is a number that a maker works with, though nothing proves it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from difflib import SequenceMatcher
from itertools import zip_longest

from workeven.pattern import Pattern
from workeven.review.records import Change

WORDS = "In words"
_NUMBER = re.compile(r"\d+(?:[.,:/]\d+)*|[½¼¾⅓⅔⅛]")
_LONGEST = 200
#: so much is shown of what both begin with
_BEFORE = 60


def in_words(
    before: Pattern, after: Pattern, titles: Mapping[str, str]
) -> tuple[tuple[Change, ...], tuple[str, ...]]:
    """Changes of numbers that stand in free words, and the names of other texts that changed."""
    old = {renamed_piece(name, titles): texts for name, texts in _texts(before)}
    new = dict(_texts(after))
    changes: list[Change] = []
    words: list[str] = []
    for name in dict.fromkeys((*old, *new)):
        was, now = old.get(name, ()), new.get(name, ())
        if was == now:
            continue
        told = [
            Change(WORDS, name, "", "", *_where_they_differ(one, other))
            for one, other in _pairs(was, now)
            if _numbers(one) != _numbers(other)
        ]
        changes += told
        words += [] if told else [name]
    return tuple(changes), tuple(words)


def renamed_piece(name: str, titles: Mapping[str, str]) -> str:
    """``Thumb, Cuff`` with the piece as it is called now."""
    piece, comma, section = name.partition(", ")
    return f"{titles.get(piece, piece)}{comma}{section}"


def _texts(pattern: Pattern) -> Iterator[tuple[str, tuple[str, ...]]]:
    """All free words of a pattern, by what they are of."""
    yield "title", (pattern.title.text,)
    yield "summary", (pattern.summary.text,)
    yield "story", (pattern.story or "",)
    yield "tags", pattern.tags
    yield "designers", pattern.designers
    yield "terms", (pattern.terms,)
    yield "licence", (pattern.licence or "", pattern.copyright or "")
    yield "care", () if pattern.care is None else (pattern.care.note,)
    yield "notes of notions", tuple(one.note or "" for one in pattern.notions)
    yield "notes of trimmings", tuple(one.note or "" for one in pattern.trimmings)
    yield "own stitches", tuple(f"{one.name}: {one.text}" for one in pattern.stitches)
    yield "assembly", tuple(one.text for one in pattern.assembly)
    yield "finishing", tuple(one.text for one in pattern.finishing)
    for piece in pattern.pieces:
        for section in piece.sections:
            notes = (section.note or "", *(one.note or "" for one in section.row_notes))
            yield f"{piece.title}, {section.title}", tuple(filter(None, notes))


def _pairs(old: tuple[str, ...], new: tuple[str, ...]) -> Iterator[tuple[str | None, str | None]]:
    """Texts that are not the same, each beside the one in its place."""
    matcher = SequenceMatcher(None, old, new, autojunk=False)
    for tag, first, last, start, end in matcher.get_opcodes():
        if tag != "equal":
            yield from zip_longest(old[first:last], new[start:end])


def _numbers(text: str | None) -> list[str]:
    return _NUMBER.findall(text or "")


def _where_they_differ(one: str | None, other: str | None) -> tuple[str | None, str | None]:
    """Both texts, each as long as is shown: from a little before the first word that differs."""
    first = 0
    if one is not None and other is not None:
        first = next(
            (at for at, (a, b) in enumerate(zip(one, other, strict=False)) if a != b),
            min(len(one), len(other)),
        )
    start = 0
    if first > _BEFORE and max(len(one or ""), len(other or "")) > _LONGEST:
        start = (one or "").find(" ", first - _BEFORE, first) + 1 or first
    return _short(one, start), _short(other, start)


def _short(text: str | None, start: int) -> str | None:
    if not text:
        return None
    shown = f"…{text[start:]}" if start else text
    return shown if len(shown) <= _LONGEST else f"{shown[: _LONGEST - 1].rstrip()}…"
