"""Whether a text is a row, spelt as documents spell it: curly quotes, long dashes.

Takes     a text of one line or of several that were joined, the vocabulary in force.
Gives     ``Reader``, ``Understood``.
Problems  ``row-not-understood`` and what else the notation reports of one row.
From      notation.md; common practice of word processors for quotes and dashes.

No word is ever changed: other spellings than the one that stands there differ in quotes and dashes
alone, and one of them is taken only where the row is understood so and was not before.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from workeven.notation.explained import explained
from workeven.notation.parser import parse_row
from workeven.notation.stream import LONGEST
from workeven.notation.tokens import tokenize
from workeven.notation.tree import (
    Aside,
    Chain,
    JoinRound,
    JoinYarn,
    Label,
    MagicRing,
    RowBody,
    SpecialStitch,
    WorkedRow,
)
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Problem, Span

_QUOTES = re.compile(r"(?<!\d)[“”„‟«»\"]")
#: a quote inside a word, which two words would be without it
_WITHIN = re.compile(r"(?<=[^\W\d])[“”„‟«»\"](?=\w)")
_INCHES = re.compile(r"(?<=\d)[“”]")
_APOSTROPHE = re.compile("[\u2018\u2019\u201b]")
_DASH = re.compile(r"\s*[—―]\s*")
_SHORT_DASH = re.compile(r"\s+[–-]\s+")
#: words that belong to rows and hardly to sentences for a maker
_OF_ROWS = frozenset("ch st sp lp sk inc dec rep turn join beg rnd row ring 2tog tog".split())
_LABELLED = re.compile(r"\s*(?:rows?|rnds?|rounds?|rds?|r)\.?\s*\d", re.IGNORECASE)
#: how a row begins that bears no number: "Dec rnd:", "rep last 2 rows"
_BEGINS = re.compile(
    r"\s*(?:[A-Z][\w' -]{0,40}:(?:\s|\Z)|(?i:rep(?:eat)?\s+(?:rows?|rnds?|rounds?|last|these)\b))"
)
#: what stands at the end of a line that goes on
_OPEN = re.compile(r"[,:;(\[*&/-]\Z")


class Understood(NamedTuple):
    """A text as a row: as it is to be written, and its tree where it is understood."""

    text: str
    body: RowBody | None
    label: Label | None
    stitches: tuple[SpecialStitch, ...]
    problems: tuple[Problem, ...]

    @property
    def good(self) -> bool:
        """Whether it is a row, every word of it; a remark may stand behind what it works."""
        numbered = self.label is not None and self.label.first is not None
        told = {one.code for one in self.problems} - ({"row-note"} if numbered else set())
        return self.body is not None and not told

    @property
    def only_named(self) -> bool:
        """Whether it only names a part: no stitch is worked, nothing is done."""
        return isinstance(self.body, WorkedRow) and all(
            isinstance(step, Aside) for step in self.body.steps
        )

    @property
    def only_joins(self) -> bool:
        """Whether new yarn is joined, and nothing else is done."""
        return isinstance(self.body, WorkedRow) and all(
            isinstance(step, Aside | JoinYarn) for step in self.body.steps
        )

    @property
    def before_the_rows(self) -> bool:
        """Whether it makes no row, but perhaps the chain or ring that the rows begin with."""
        if self.label is not None and self.label.first is not None:
            return False
        return isinstance(self.body, WorkedRow) and all(
            isinstance(step, Aside | Chain | JoinRound | MagicRing) for step in self.body.steps
        )

    @property
    def only_noted(self) -> bool:
        """Whether nothing in it is worked, and sentences of it were passed as notes."""
        noted = bool(self.problems) and all(one.code == "row-note" for one in self.problems)
        return noted and self.only_named


class Reader:
    """Reads texts as rows, each once; what rows explain holds from there on (``accept``)."""

    def __init__(self, file: str, vocabulary: Vocabulary) -> None:
        self.file = file
        self.vocabulary = vocabulary
        self._told: dict[str, SpecialStitch] = {}
        self._known: dict[tuple[str, Vocabulary, bool], Understood] = {}
        self._opening = True

    def read(self, text: str) -> Understood:
        """A text as a row, in the first spelling that is understood."""
        key = (text, self.vocabulary, self._opening)
        known = self._known.get(key)
        if known is None:
            known = self._known[key] = self._first_good(text)
        return known

    def accept(self, row: Understood) -> None:
        """Let the stitches that a row explains hold for the rows below it.

        Behind a row that works something no sentence stands in front of the rows any more.
        """
        self._opening = self._opening and row.before_the_rows
        self._told |= {stitch.name: stitch for stitch in row.stitches}
        self.vocabulary = self.vocabulary.with_special(self._told)

    def of_rows(self, text: str) -> bool:
        """Whether any word of a text belongs to rows rather than to sentences."""
        tokens = tokenize(text[:LONGEST], self.vocabulary)
        return any(
            token.kind in ("stitch", "chn", "grp") or token.word in _OF_ROWS for token in tokens
        )

    def _first_good(self, text: str) -> Understood:
        first = self._as_written(text)
        if first.good:
            return first
        for other in dict.fromkeys(_spellings(text)):
            found = self._as_written(other)
            if found.good:
                return found
        return first

    def _as_written(self, text: str) -> Understood:
        span = Span(file=self.file, line=1, column=1, end_line=1, end_column=1 + len(text))
        said = explained(text, span, self.vocabulary, self._told, opening=self._opening)
        row = parse_row(text, span, said.vocabulary, said.text, opening=self._opening)
        assert row.value is not None
        problems = (*said.problems, *row.problems)
        return Understood(text, row.value.body, row.value.label, said.stitches, problems)


def labelled(text: str) -> bool:
    """Whether a text begins with the number of a row.

    >>> labelled("Rnd 3: sc around"), labelled("R4 – sc"), labelled("rep Row 2")
    (True, True, False)
    """
    return _LABELLED.match(text) is not None


def begins(text: str) -> bool:
    """Whether a text begins as a row does: with a number, a name, or what is worked again.

    >>> begins("Dec rnd: sc2tog around"), begins("rep Row 2 twice"), begins("rep from * around")
    (True, True, False)
    """
    return labelled(text) or _BEGINS.match(text) is not None


def goes_on(text: str) -> bool:
    """Whether a line plainly is not whole: it ends in a comma, or in an open bracket.

    >>> goes_on("sc in next st,"), goes_on("[sc 2, inc"), goes_on("turn (20 sc)")
    (True, True, False)
    """
    pairs = (("(", ")"), ("[", "]"), ("{", "}"))
    if any(text.count(opened) > text.count(closed) for opened, closed in pairs):
        return True
    return _OPEN.search(text) is not None


def _spellings(text: str) -> Iterator[str]:
    """The same words with plainer quotes and dashes."""
    plain = _APOSTROPHE.sub("'", _INCHES.sub('"', text))
    yield plain
    bare = _QUOTES.sub("", _WITHIN.sub(" ", plain)).strip()
    yield bare
    yield _DASH.sub(", ", bare)
    yield _SHORT_DASH.sub(", ", _DASH.sub(", ", bare))
