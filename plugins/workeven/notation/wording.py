"""The words of rows for a reader: abbreviations used, and rows in the other terms.

Takes     ``Row`` trees and terms.
Gives     ``abbreviations``, ``plain_words``, ``in_other_terms``, ``meaning``.
Problems  none.
From      ``standards``: the published list of abbreviations; the table of US and UK terms.

A row is put into other terms through the columns that the parser kept, never by searching text.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from workeven.notation.tokens import tokenize
from workeven.notation.tree import Row
from workeven.notation.vocabulary import Terms, Vocabulary, in_terms, kind_of
from workeven.records import record


@record
class Abbreviation:
    """An abbreviation as the rows use it, and its meaning in the same terms."""

    short: str
    meaning: str


#: basic stitches in full, by US name, in US and in UK terms (published table of terms).
_FULL: dict[str, tuple[str, str]] = {
    "sl st": ("slip stitch", "slip stitch"),
    "sc": ("single crochet", "double crochet"),
    "hdc": ("half double crochet", "half treble"),
    "dc": ("double crochet", "treble"),
    "tr": ("treble crochet", "double treble"),
    "dtr": ("double treble crochet", "triple treble"),
    "trtr": ("triple treble crochet", "quadruple treble"),
    "rsc": ("reverse single crochet", "reverse double crochet"),
    "cl": ("cluster", "cluster"),
    "pc": ("popcorn", "popcorn"),
    "bobble": ("bobble", "bobble"),
    "puff": ("puff stitch", "puff stitch"),
}

#: words that are not stitches: as folded by the tokens, the short form printed, its meaning.
_WORDS: dict[str, tuple[str, str]] = {
    "ch": ("ch", "chain"),
    "st": ("st(s)", "stitch(es)"),
    "sp": ("sp(s)", "space(s)"),
    "lp": ("lp(s)", "loop(s)"),
    "sk": ("sk", "skip"),
    "rep": ("rep", "repeat"),
    "rnd": ("rnd(s)", "round(s)"),
    "beg": ("beg", "beginning"),
    "rem": ("rem", "remaining"),
    "inc": ("inc", "increase: two stitches in one"),
    "dec": ("dec", "decrease: two stitches worked together"),
    "tch": ("tch", "turning chain"),
    "patt": ("patt", "pattern"),
    "tog": ("tog", "together"),
    "rs": ("RS", "right side"),
    "ws": ("WS", "wrong side"),
    "pm": ("pm", "place marker"),
    "blo": ("BLO", "back loop only"),
    "flo": ("FLO", "front loop only"),
    "cont": ("cont", "continue"),
    "prev": ("prev", "previous"),
}
#: the spellings that are abbreviations; a word written in full needs no explanation.
_SHORT = frozenset(
    "ch chs st sts sp sps lp lps sk rep rnd rnds beg rem inc dec tch patt tog rs ws pm blo flo "
    "cont prev miss".split()
)

_PARTS = re.compile(
    r"(?P<extended>e)?(?P<foundation>f)?(?P<post>fp|bp)?(?P<basic>trtr|dtr|hdc|sc|dc|tr)"
    r"(?P<tog>\d+)?(?:tog)?\Z"
)


def meaning(name: str, terms: Terms) -> str | None:
    """A stitch's US name in full words of the given terms, or None for a stitch of one's own.

    >>> meaning("sc2tog", "uk"), meaning("fpdc", "us")
    ('double crochet 2 together', 'front post double crochet')
    """
    if name in _FULL:
        return _FULL[name][terms == "uk"]
    found = _PARTS.match(name)
    if found is None or kind_of(name).base not in _FULL:
        return None
    words = []
    if found["foundation"]:
        words.append("foundation")
    if found["post"]:
        words.append("front post" if found["post"] == "fp" else "back post")
    if found["extended"]:
        words.append("extended")
    words.append(_FULL[found["basic"]][terms == "uk"])
    if found["tog"]:
        words.append(f"{found['tog']} together")
    return " ".join(words)


def abbreviations(
    rows: Iterable[Row], terms: Terms, written: Terms | None = None
) -> tuple[Abbreviation, ...]:
    """The abbreviations that the rows use, by alphabet, in ``terms``.

    ``written`` are the terms of the text (the same when left out). Stitches of the pattern's own
    are not among them: the page explains those by themselves.
    """
    found: dict[str, str] = {}
    vocabulary = Vocabulary(written or terms)
    for row in rows:
        for use in row.terms:
            full = meaning(use.name, terms)
            if full is not None:
                found[in_terms(use.name, terms)] = full
        for token in tokenize(row.text, vocabulary):
            if token.kind == "chn":
                found[_WORDS["ch"][0]] = _WORDS["ch"][1]
            written_word = row.text[token.start : token.end].lower()
            if token.kind == "word" and token.word in _WORDS and written_word in _SHORT:
                short, full = _WORDS[token.word]
                if token.word == "sk" and terms == "uk":
                    short, full = "miss", "pass over without working"
                found[short] = full
    return tuple(
        Abbreviation(short=short, meaning=full)
        for short, full in sorted(found.items(), key=lambda pair: pair[0].lower())
    )


@record
class Piece:
    """A stretch of a row's text: as it stands, or a stitch word with its name in other terms."""

    text: str
    name: str | None = None


def plain_words() -> tuple[Abbreviation, ...]:
    """The abbreviations of words that are no stitches, in US terms.

    >>> [one.meaning for one in plain_words() if one.short == "sk"]
    ['skip']
    """
    return tuple(Abbreviation(short=short, meaning=full) for short, full in _WORDS.values())


def in_other_terms(row: Row, terms: Terms) -> str:
    """The text of a row with its stitch words in the given terms.

    The words are those of the parser's spans; numbers and everything else stay as written.
    """
    parts: list[str] = []
    at = 0
    for use in row.terms:
        parts.append(row.text[at : use.start])
        word = row.text[use.start : use.end]
        name = in_terms(use.name, terms)
        lead = re.match(r"\d+-", word)
        parts.append((lead[0] if lead else "") + name)
        at = use.end
    parts.append(row.text[at:])
    return "".join(parts)
