"""Stitches of a page in the terms of its text and in the others, side by side.

Takes     the HTML of a page, its marks still in it; the terms that it is written in.
Gives     ``in_both_terms``; ``other_word``; ``words``: the page's list for the head.
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
from functools import cache

from workeven.notation import wording
from workeven.notation.vocabulary import Terms, compound, in_terms, spoken_words
from workeven.publish.pages import choices

OTHER: dict[Terms, Terms] = {"us": "uk", "uk": "us"}

_TAG = re.compile(r"(<[^>]*>)")
#: Elements whose words are left: the parser's own terms, drawings, controls, what is not shown.
_LEFT = re.compile(r"<(/?)(?:abbr|svg|select|button|script|style)(?![a-zA-Z])")
_SHORT = r"e?f?(?:fp|bp)?(?:trtr|qtr|dtr|htr|hdc|sc|dc|tr)(?:\d+tog)?"
_FOUND_ABBR = re.compile(r'<abbr title="[^"]*">([^<]*)</abbr>')
_FOUND_WORD = re.compile(r"<span data-we-t>([^<]*)</span>")


def in_both_terms(html: str, own: Terms) -> str:
    """The page with its stitch words marked.

    >>> choices.marked(in_both_terms("<p>Sew through 2 dc.</p>", "us"))
    Markup('<p>Sew through 2 <span data-we-t>dc</span>.</p>')
    """
    left, stitch = 0, _pattern(own)
    parts = _TAG.split(html)
    for at, part in enumerate(parts):
        if part.startswith("<"):
            if found := _LEFT.match(part):
                left += -1 if found[1] else 1
        elif part and not left and stitch.search(part):
            parts[at] = choices.outside_marks(
                part,
                lambda text: stitch.sub(lambda word: _mark(word[0], own), text),
                lambda text: stitch.sub(lambda word: _other(word[0], own), text),
            )
    return "".join(parts)


@cache
def other_word(word: str, own: Terms) -> tuple[str, str] | None:
    """A stitch in the other terms, and its meaning there; None where it is the same in both.

    >>> other_word("sc2tog", "us"), other_word("ch", "us")
    (('dc2tog', 'double crochet 2 together'), None)
    >>> other_word("Half double crochet", "us")
    ('Half treble', 'half treble')
    """
    folded = word[:1].lower() + word[1:]
    named = spoken_words(own).get(folded) if " " in folded or folded == "treble" else None
    kind = compound(folded.lower(), own)
    name = named or (kind.name if kind else None)
    if name is None:
        return None
    meaning = wording.meaning(name, OTHER[own]) or ""
    found = meaning if named else in_terms(name, OTHER[own])
    if not found or found == folded:
        return None
    capital = word[:1] != folded[:1]
    return (found[:1].upper() + found[1:] if capital else found), meaning


def words(html: str, own: Terms) -> dict[str, tuple[str, str]]:
    """Each stitch word of a finished page that is another in the other terms."""
    found = dict.fromkeys((*_FOUND_ABBR.findall(html), *_FOUND_WORD.findall(html)))
    each = ((word, other_word(word, own)) for word in sorted(found))
    return {word: other for word, other in each if other}


@cache
def _pattern(own: Terms) -> re.Pattern[str]:
    """Stitch words in short and in full, the longest first."""
    full = sorted((one for one in spoken_words(own) if " " in one), key=len, reverse=True)
    full += ["treble"]
    spelled = "|".join(f"[{one[0]}{one[0].upper()}]{re.escape(one[1:])}" for one in full)
    return re.compile(rf"(?<![\w-])(?:{spelled}|{_SHORT})(?![\w-])")


def _mark(word: str, own: Terms) -> str:
    return choices.in_terms(word) if other_word(word, own) else word


def _other(word: str, own: Terms) -> str:
    other = other_word(word, own)
    return other[0] if other else word
