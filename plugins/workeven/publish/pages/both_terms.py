"""Stitches of a page in the terms of its text and in the others, side by side.

Takes     the HTML of a page, its marks still in it; the terms that it is written in.
Gives     ``in_both_terms``; ``marked_words``, ``gauge``; ``other_word``; ``words``: the page's
          list for the head.
Problems  none.
From      the published table of US and UK terms (``notation.vocabulary``, ``notation.wording``).

In rows a stitch is where the parser found it, an ``abbr``. But a page has stitches in notes, tables
and sentences of ours too, and one that is left in US terms beside rows in UK terms would be worked
as another stitch. So every word that is a stitch in the page's own terms is marked, wherever it
stands: in the build, where the words in force are known, and in words of their own alone (``dc``,
``tr2tog``, ``double crochet``). What it is in the other terms stands once in the head of the page.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from html import unescape

from workeven.notation import wording
from workeven.notation.vocabulary import Terms, compound, in_terms, spoken_words
from workeven.publish.pages import choices

OTHER: dict[Terms, Terms] = {"us": "uk", "uk": "us"}
#: What the trade calls the stitches of a length in either terms (common practice).
GAUGE: dict[Terms, str] = {"us": "gauge", "uk": "tension"}

#: Elements whose words are left: the parser's own terms, drawings, controls, what is not shown,
#: and lists of links: their words are names of other patterns, or were marked where they were made.
#: They stand side by side, or within one of another name.
_LEFT = r"<(?P<left>abbr|svg|select|button|script|style|nav)(?![a-zA-Z]).*?</(?P=left)>"
_NO_WORDS = re.compile(rf"{_LEFT}|<[^>]*>", flags=re.DOTALL)
_SHORT = r"e?f?(?:fp|bp)?(?:trtr|qtr|dtr|htr|hdc|sc|dc|tr)(?:\d+tog)?"
_FOUND_ABBR = re.compile(r'<abbr title="([^"]*)">([^<]*)</abbr>')
_FOUND_WORD = re.compile(r"<span data-we-t>([^<]*)</span>")
#: "the gauge", "your gauge": of a designer's words the noun alone, no tool ("a hook gauge") and no
#: verb. Nothing is made a gauge: tension is what a hand keeps even, too.
_BEFORE_A_GAUGE = "the this that your our my its own same one each to at".split()
_A_GAUGE = f"(?:{'|'.join(f'(?<={one} )' for one in _BEFORE_A_GAUGE)})gauge"
#: Passing a stitch over, by the terms of the text: the word in the others, and its meaning there
#: (``standards/terms.csv``). In prose only ``sk`` is looked for: "do not miss" is no instruction.
PASSED_OVER: dict[Terms, dict[str, tuple[str, str]]] = {
    "us": dict.fromkeys(("sk", "skip"), ("miss", "pass over without working")),
    "uk": {"miss": ("sk", "skip")},
}
#: Letters whose names begin with a vowel: who reads "dc" by its letters says "a dc", but "an sc".
_LIKE_A_VOWEL = "aefhilmnorsx"


def in_both_terms(html: str, own: Terms) -> str:
    """The page with its stitch words marked.

    >>> choices.marked(in_both_terms("<p>Sew through 2 dc.</p>", "us"))
    Markup('<p>Sew through 2 <span data-we-t>dc</span>.</p>')
    """
    stitch = _pattern(own)
    parts: list[str] = []
    done = 0
    for at, end in _texts_with(stitch, html):
        told = choices.outside_marks(
            html[at:end],
            lambda text: stitch.sub(lambda found: _mark(found, own), text),
            lambda text: in_other_words(text, own),
        )
        parts += (html[done:at], told)
        done = end
    return "".join((*parts, html[done:]))


def marked_words(text: str, own: Terms) -> str:
    """A text outside of a page in its own terms: each stitch word has the other beside it.

    >>> choices.marked(marked_words("A mat in dc", "us"))
    Markup('A mat in <span data-we-t="tr">dc</span>')
    """

    def marked(found: re.Match[str]) -> str:
        other = _other(found, own)
        return found[0] if other == found[0] else choices.in_terms(found[0], other)

    return choices.outside_marks(
        text,
        lambda words: _pattern(own).sub(marked, words),
        lambda words: in_other_words(words, own),
    )


def gauge(own: Terms, *, capital: bool = False) -> str:
    """What is "gauge" in US terms and "tension" in UK terms, in a sentence of ours.

    >>> choices.plain(gauge("us")), choices.plain(gauge("uk", capital=True))
    ('gauge', 'Tension')
    """
    here, there = GAUGE[own], GAUGE[OTHER[own]]
    return choices.in_terms(*((here.title(), there.title()) if capital else (here, there)))


def _texts_with(stitch: re.Pattern[str], html: str) -> Iterator[tuple[int, int]]:
    """Where the texts stand that have a stitch word, each between two tags."""
    at = 0
    for found in _NO_WORDS.finditer(html):
        start, end = found.span()
        if at < start and stitch.search(html, at, start):
            yield at, start
        at = end
    if stitch.search(html, at):
        yield at, len(html)


def in_other_words(text: str, own: Terms) -> str:
    """A sentence with its stitches as the other terms call them.

    >>> in_other_words("3 dc in same st", "us"), in_other_words("After an sc.", "us")
    ('3 tr in same st', 'After a dc.')
    """
    return _pattern(own).sub(lambda found: _other(found, own), text)


@cache
def other_word(word: str, own: Terms) -> tuple[str, str] | None:
    """A stitch in the other terms, and its meaning there; None where it is the same in both.

    >>> other_word("sc2tog", "us"), other_word("ch", "us")
    (('dc2tog', 'double crochet 2 together'), None)
    >>> other_word("Half double crochet", "us"), other_word("sl st", "us")
    (('Half treble', 'half treble'), None)
    >>> other_word("sk", "us")
    ('miss', 'pass over without working')
    """
    folded = word[:1].lower() + word[1:]
    if own == "us" and folded == GAUGE["us"]:
        return GAUGE["uk"], "stitches and rows over a length"
    if passed := PASSED_OVER[own].get(folded):
        return (passed[0].capitalize(), passed[1]) if word != folded else passed
    named = spoken_words(own).get(folded) if " " in folded or folded == "treble" else None
    kind = compound(folded.lower(), own)
    name = named or (kind.name if kind else None)
    if name is None or in_terms(name, own) == folded == in_terms(name, OTHER[own]):
        return None
    meaning = wording.meaning(name, OTHER[own]) or ""
    found = meaning if named else in_terms(name, OTHER[own])
    if not found or found == folded:
        return None
    capital = word[:1] != folded[:1]
    return (found[:1].upper() + found[1:] if capital else found), meaning


def words(html: str, own: Terms) -> dict[str, tuple[str, str]]:
    """Each word of a finished page that is another in the other terms, or means something else.

    A stitch of the pattern's own keeps its name; what it is made of has another one.

    >>> words('<abbr title="3 dc in same st">fan</abbr>, <abbr title="chain">ch</abbr>', "us")
    {'fan': ('fan', '3 tr in same st')}
    """
    found: dict[str, str] = {word: unescape(title) for title, word in _FOUND_ABBR.findall(html)}
    found |= dict.fromkeys(_FOUND_WORD.findall(html), "")
    each = ((word, _told(word, title, own)) for word, title in sorted(found.items()))
    return {word: other for word, other in each if other}


def _told(word: str, title: str, own: Terms) -> tuple[str, str] | None:
    if other := other_word(word, own):
        return other
    meaning = in_other_words(title, own)
    return (word, meaning) if meaning != title else None


@cache
def _pattern(own: Terms) -> re.Pattern[str]:
    """Stitch words in short and in full, the longest first, with an article that may change."""
    full = sorted((one for one in spoken_words(own) if " " in one), key=len, reverse=True)
    full += ["treble", *(("sk",) if own == "us" else ())]
    spelled = "|".join(f"[{one[0]}{one[0].upper()}]{re.escape(one[1:])}" for one in full)
    spelled += f"|{_A_GAUGE}" if own == "us" else ""
    return re.compile(rf"(?<![\w-])(?:(?P<a>[Aa])n )?(?P<word>{spelled}|{_SHORT})(?![\w-])")


def _mark(found: re.Match[str], own: Terms) -> str:
    other = other_word(found["word"], own)
    if not other:
        return found[0]
    if _keeps_article(found, other[0]):
        return found[0].replace(found["word"], choices.in_terms(found["word"]))
    return choices.in_terms(found[0], f"{found['a']} {other[0]}")


def _other(found: re.Match[str], own: Terms) -> str:
    other = other_word(found["word"], own)
    if not other:
        return found[0]
    if _keeps_article(found, other[0]):
        return found[0].replace(found["word"], other[0])
    return f"{found['a']} {other[0]}"


def _keeps_article(found: re.Match[str], other: str) -> bool:
    return not found["a"] or other[0].lower() in _LIKE_A_VOWEL
