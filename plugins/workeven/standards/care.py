"""Words for care in the groups of the standard, and what fibres bear.

Takes     the CSV files ``care.csv`` and ``fibres.csv`` beside it.
Gives     ``CareWord``, ``GROUPS``, ``care_words``, ``care_word``, ``care_places``;
          ``Fibre``, ``fibres``, ``fibres_in``, ``is_superwash``.
Problems  none.
From      ISO 3758, its groups and their order, told in words of our own without its symbols; what
          a fibre bears is common practice.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import Literal, cast

from workeven.records import record
from workeven.standards.tables import Origin, integer, listed, origin, rows

Group = Literal["wash", "bleach", "dry", "iron", "professional"]
#: The groups in the order of the standard, and what a page calls each.
GROUPS: dict[Group, str] = {
    "wash": "Washing",
    "bleach": "Bleaching",
    "dry": "Drying",
    "iron": "Ironing",
    "professional": "Professional care",
}
_DEGREES = re.compile(r"(?<=\d)\s*(?:°\s*c?|degrees?(?:\s*c(?:elsius)?)?|c)(?![a-z])")
_BETWEEN = re.compile(r"[\s,]+")
#: Wool that has been treated so that it does not felt.
_SUPERWASH = re.compile(r"\b(?:super[ -]?wash|machine[ -]washable)\b", re.IGNORECASE)


@record
class CareWord:
    """One treatment: its word in a file, how a page tells it, how hot and how harsh at most.

    ``method`` is what no two words of a pattern may have in common (``machine``, ``tumble``,
    ``natural`` …); ``process`` is ``none`` where it must not be done.
    """

    group: Group
    word: str
    also: tuple[str, ...]
    printed: str
    method: str
    most_c: int | None
    process: str
    origin: Origin


@record
class Fibre:
    """A fibre by its names, and the harshest treatment that it bears; None or "" sets no limit."""

    name: str
    also: tuple[str, ...]
    kind: str
    melts: bool
    wash_c: int | None
    tumble: str
    bleach: str
    iron_c: int | None
    origin: Origin


@cache
def care_words() -> tuple[CareWord, ...]:
    """All words, in the order of the standard.

    >>> [one.word for one in care_words() if one.group == "bleach"]
    ['any bleach', 'no chlorine', 'do not bleach']
    """
    return tuple(
        CareWord(
            group=cast("Group", row["group"]),
            word=row["word"],
            also=listed(row["also"]),
            printed=row["printed"],
            method=row["method"],
            most_c=integer(row["most_c"]),
            process=row["process"],
            origin=origin(row),
        )
        for row in rows("care.csv")
    )


@lru_cache(maxsize=256)
def care_word(group: str, text: str) -> CareWord | None:
    """The word of a group as it may be written; None where it is none of them.

    >>> care_word("wash", "30C, mild").printed, care_word("dry", "somehow")
    ('machine wash at up to 30 °C, mild cycle', None)
    """
    return _by_writing().get((group, _plain(text)))


@cache
def fibres() -> tuple[Fibre, ...]:
    """All fibres.

    >>> [one.name for one in fibres() if one.melts]
    ['acrylic', 'polyester', 'nylon', 'polypropylene', 'microfibre']
    """
    return tuple(
        Fibre(
            name=row["fibre"],
            also=listed(row["also"]),
            kind=row["kind"],
            melts=row["melts"] == "yes",
            wash_c=integer(row["wash_c"]),
            tumble=row["tumble"],
            bleach=row["bleach"],
            iron_c=integer(row["iron_c"]),
            origin=origin(row),
        )
        for row in rows("fibres.csv")
    )


@lru_cache(maxsize=256)
def fibres_in(text: str) -> tuple[tuple[str, Fibre], ...]:
    """The fibres that a text names, as it writes them; what is not in the table is passed over.

    >>> [(word, one.name) for word, one in fibres_in("80% Merino 15% polyamide 5% moss")]
    [('merino', 'wool'), ('polyamide', 'nylon')]
    """
    named = _by_name()
    found = dict.fromkeys(word.lower() for word in _names().findall(text))
    return tuple((word, named[word]) for word in found)


def is_superwash(text: str) -> bool:
    """Whether a text says that the wool does not felt.

    >>> is_superwash("100% superwash wool")
    True
    """
    return _SUPERWASH.search(text) is not None


@cache
def care_places() -> dict[tuple[str, str], int]:
    """The place of each word in the order of the standard.

    >>> care_places()["wash", "95 °C"]
    0
    """
    return {(one.group, one.word): at for at, one in enumerate(care_words())}


@cache
def _by_writing() -> dict[tuple[str, str], CareWord]:
    return {
        (one.group, _plain(written)): one
        for one in care_words()
        for written in (one.word, one.printed, *one.also)
    }


def _plain(text: str) -> str:
    """A word without its ways of writing degrees, commas and capitals."""
    return _BETWEEN.sub(" ", _DEGREES.sub(" °c", text.strip().lower())).strip()


@cache
def _by_name() -> dict[str, Fibre]:
    return {name: one for one in fibres() for name in (one.name, *one.also)}


@cache
def _names() -> re.Pattern[str]:
    """Every name of a fibre; of two that begin alike, the longer one first."""
    longest_first = sorted(_by_name(), key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, longest_first))})\b", re.IGNORECASE)
