"""Texts of generated pieces, and the names and numbers that they are made of.

Takes     counts by size, stitches by their US names.
Gives     ``Text`` with its ``Line`` and ``Doubt``; ``kind_in``, ``number``, ``less``, ``is_one``.
Problems  none.
From      notation.md, Sizes; common practice: the US and UK names of stitches.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from typing import Literal

from tests.oracle.places import base
from tests.oracle.structure import Count

#: US kind: UK kind (standards, terms US/UK: sc is dc, and so on).
UK = {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "dtr": "ttr", "fsc": "fdc", "fdc": "ftr"}

Terms = Literal["us", "uk"]
TERMS: tuple[Terms, ...] = ("us", "us", "uk")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a text: its number, and the entry of the piece whose count stands after it."""

    number: int
    entry: int


@dataclass(frozen=True, slots=True)
class Doubt:
    """A step of a row, at its place in ``Row.steps``, that the words leave open to two readings.

    ``split``: practice is split; else the notation names a default and nothing more.
    """

    entry: int
    index: int
    split: bool


@dataclass(frozen=True, slots=True)
class Text:
    """A piece in words."""

    text: str
    lines: tuple[Line, ...]
    terms: Terms
    stitches: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()


def kind_in(terms: str, kind: str) -> str:
    """A stitch by its name in US or UK terms.

    >>> kind_in("uk", "sc2tog"), kind_in("uk", "fpdc"), kind_in("us", "sc")
    ('dc2tog', 'fptr', 'sc')
    """
    if terms == "us":
        return kind
    for prefix in ("fp", "bp"):
        if kind.startswith(prefix):
            return prefix + UK[kind.removeprefix(prefix)]
    if kind.endswith("tog"):
        legs = kind.removesuffix("tog").lstrip("abcdefghijklmnopqrstuvwxyz")
        return f"{UK[base(kind)]}{legs}tog"
    return UK.get(kind, kind)


def number(count: Count, rng: random.Random) -> str:
    """A number by size: ``6``, ``6 (7, 8)``, nine sizes often in two brackets."""
    if isinstance(count, int):
        return str(count)
    if len(set(count)) == 1 and rng.random() < 0.7:
        return str(count[0])
    dash = rng.choice(["0", "0", "-"])
    figures = [str(n) if n else dash for n in count]
    if len(figures) == 1:
        return figures[0]
    if len(figures) > 5 and rng.random() < 0.5:
        middle = 1 + (len(figures) - 1) // 2
        return f"{figures[0]} ({', '.join(figures[1:middle])}) ({', '.join(figures[middle:])})"
    return f"{figures[0]} ({', '.join(figures[1:])})"


def less(count: Count, by: int) -> Count:
    """Every size's number less something."""
    return count - by if isinstance(count, int) else tuple(n - by for n in count)


def is_one(count: Count) -> bool:
    """Whether the number is 1 in every size."""
    return set(count if isinstance(count, tuple) else (count,)) == {1}
