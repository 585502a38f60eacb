"""The stitch words of the trade, in US and UK terms, and what each stitch is.

Takes     nothing; the tables stand here as data.
Gives     ``Vocabulary``, ``StitchKind``, ``kind_of``.
Problems  none.
From      ``standards``: the published list of US abbreviations, the table of US and UK terms;
          notation.md, "Chains at the start".

Inside, every stitch has its US name. In UK terms each basic name moves by one: ``dc`` is the US
``sc``, and so on up the heights; compounds (``dc2tog``, ``fpdc``) move with their basic stitch.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Literal

from workeven.records import record_by_position

#: basic stitches by US name: height in chains (published table of turning chains; "longer" ones
#: by the same step).
HEIGHTS: dict[str, int] = {
    "sl st": 0,
    "sc": 1,
    "hdc": 2,
    "dc": 3,
    "tr": 4,
    "dtr": 5,
    "trtr": 6,
    "qtr": 7,
}

#: UK name to US name (published table; trtr to dtr is the common form beside ttr).
UK_TO_US: dict[str, str] = {
    "sl st": "sl st",
    "dc": "sc",
    "htr": "hdc",
    "tr": "dc",
    "dtr": "tr",
    "ttr": "dtr",
    "trtr": "dtr",
    "qtr": "trtr",
    "quadtr": "trtr",
}
US_TO_UK: dict[str, str] = {
    "sl st": "sl st",
    "sc": "dc",
    "hdc": "htr",
    "dc": "tr",
    "tr": "dtr",
    "dtr": "trtr",
    "trtr": "qtr",
}

#: words for the basic stitches, longest first; the keys are the names in their own terms.
_US_WORDS: dict[str, str] = {
    "foundation single crochet": "fsc",
    "foundation half double crochet": "fhdc",
    "foundation double crochet": "fdc",
    "half double crochet": "hdc",
    "half-double crochet": "hdc",
    "single crochet": "sc",
    "double crochet": "dc",
    "double treble crochet": "dtr",
    "double treble": "dtr",
    "triple treble crochet": "trtr",
    "triple treble": "trtr",
    "treble crochet": "tr",
    "triple crochet": "tr",
    "treble": "tr",
    "slip stitch": "sl st",
    "slip st": "sl st",
    "sl stitch": "sl st",
    "sl st": "sl st",
    "slst": "sl st",
    "sl-st": "sl st",
    "ss": "sl st",
    "sc": "sc",
    "hdc": "hdc",
    "dc": "dc",
    "tr": "tr",
    "trc": "tr",
    "dtr": "dtr",
    "trtr": "trtr",
    "qtr": "qtr",
}
_UK_WORDS: dict[str, str] = {
    "foundation double crochet": "fsc",
    "foundation half treble crochet": "fhdc",
    "foundation treble crochet": "fdc",
    "half treble crochet": "hdc",
    "half treble": "hdc",
    "double crochet": "sc",
    "double treble crochet": "tr",
    "double treble": "tr",
    "triple treble crochet": "dtr",
    "triple treble": "dtr",
    "quadruple treble": "trtr",
    "treble crochet": "dc",
    "treble": "dc",
    "slip stitch": "sl st",
    "slip st": "sl st",
    "sl stitch": "sl st",
    "sl st": "sl st",
    "slst": "sl st",
    "sl-st": "sl st",
    "ss": "sl st",
    "dc": "sc",
    "htr": "hdc",
    "tr": "dc",
    "dtr": "tr",
    "ttr": "dtr",
    "trtr": "dtr",
    "qtr": "trtr",
}

#: closed stitches that count as one under their own name, worked into one place (common practice).
CLOSED_WORDS: dict[str, str] = {
    "cluster": "cl",
    "cl": "cl",
    "popcorn": "pc",
    "pc": "pc",
    "bobble": "bobble",
    "bob": "bobble",
    "make bobble": "bobble",
    "mb": "bobble",
    "puff stitch": "puff",
    "puff st": "puff",
    "puff": "puff",
    "reverse sc": "rsc",
    "reverse single crochet": "rsc",
    "crab stitch": "rsc",
    "rsc": "rsc",
    "rev sc": "rsc",
    "spike stitch": "spike",
    "spike st": "spike",
    "spike": "spike",
    "spike sc": "spike",
    "spike single crochet": "spike",
}
#: the same stitch in UK terms
_UK_CLOSED: dict[str, str] = {
    "reverse dc": "rsc",
    "reverse double crochet": "rsc",
    "rev dc": "rsc",
    "rdc": "rsc",
    "spike dc": "spike",
    "spike double crochet": "spike",
}

Terms = Literal["us", "uk"]


@record_by_position
class StitchKind:
    """What a stitch name stands for.

    ``base`` is the basic stitch it is counted as ("sc" for sc2tog and fpsc), ``legs`` how many
    places a decrease takes (1 otherwise), ``post`` and ``loop`` how the place is entered,
    ``foundation`` whether it is worked with its own chain.
    """

    name: str
    base: str
    legs: int = 1
    post: Literal["front", "back"] | None = None
    loop: Literal["front", "back"] | None = None
    foundation: bool = False


@record_by_position
class Vocabulary:
    """The words in force in a text: its terms, its own special stitches, its sizes.

    ``sizes`` are the names of the sizes; () where they are not known, as in plain rows without
    a list of sizes.
    """

    terms: Terms = "us"
    special: tuple[str, ...] = ()
    sizes: tuple[str, ...] = ()

    def with_special(self, names: Iterable[str]) -> Vocabulary:
        """The same words, and more names of special stitches.

        >>> Vocabulary("us", ("shell",)).with_special(["V-st", "shell"]).special
        ('shell', 'V-st')
        """
        special = tuple(dict.fromkeys((*self.special, *names)))
        return self if special == self.special else Vocabulary(self.terms, special, self.sizes)


_COMPOUND = re.compile(
    r"(?P<extended>e)?(?P<foundation>f)?(?P<post>fp|bp|rfp|rbp)?(?P<loop>fl|bl|flo|blo)?"
    r"(?P<basic>{basic})(?P<tog>[1-9]\d?tog)?(?P<after>blo|flo|bl|fl)?\Z".format(
        basic="trtr|quadtr|qtr|ttr|dtr|htr|hdc|sc|dc|tr"
    )
)


def basic_us(word: str, terms: Terms) -> str | None:
    """The US name of a basic stitch word in the given terms, or None when it is no such word.

    >>> basic_us("dc", "uk"), basic_us("dc", "us"), basic_us("sc", "uk")
    ('sc', 'dc', None)
    """
    return (_UK_WORDS if terms == "uk" else _US_WORDS).get(word)


@lru_cache(maxsize=1024)
def compound(word: str, terms: Terms) -> StitchKind | None:
    """A stitch written in one word: basic, decrease, post, extended or foundation stitch.

    >>> compound("dc2tog", "uk").name
    'sc2tog'
    >>> compound("fpdc", "us").base
    'dc'
    """
    found = _COMPOUND.match(word)
    if found is None:
        return None
    basic = basic_us(found["basic"], terms)
    if basic is None:
        return None
    post: Literal["front", "back"] | None = None
    if found["post"]:
        post = "front" if "fp" in found["post"] else "back"
    loops = found["loop"] or found["after"]
    loop: Literal["front", "back"] | None = None
    if loops:
        loop = "front" if loops.startswith("fl") else "back"
    legs = int(found["tog"][:-3]) if found["tog"] else 1
    name = (
        ("e" if found["extended"] else "")
        + ("f" if found["foundation"] else "")
        + (found["post"][-2:] if found["post"] else "")
        + basic
        + (f"{legs}tog" if found["tog"] else "")
    )
    return StitchKind(name, basic, legs, post, loop, bool(found["foundation"]))


_US_COMPOUND = re.compile(
    r"(?P<before>e?f?(?:fp|bp)?)(?P<basic>trtr|qtr|dtr|hdc|sc|dc|tr)(?P<tog>[1-9]\d?tog)?\Z"
)


@lru_cache(maxsize=1024)
def kind_of(name: str) -> StitchKind:
    """What a stitch is, from its US name; a name of the pattern's own stands for itself.

    >>> kind_of("sc2tog").legs, kind_of("fpdc").base, kind_of("cl").base
    (2, 'dc', 'cl')
    """
    if name == "sl st":
        return StitchKind("sl st", "sl st")
    if name == "spike":
        return StitchKind("spike", "sc")  # a long single crochet (common practice)
    return compound(name, "us") or StitchKind(name, name)


@lru_cache(maxsize=1024)
def in_terms(name: str, terms: Terms) -> str:
    """A stitch's US name as it is written in the given terms.

    >>> in_terms("sc2tog", "uk"), in_terms("fpdc", "uk"), in_terms("cl", "uk")
    ('dc2tog', 'fptr', 'cl')
    """
    if terms == "us" or name == "sl st":
        return name
    if name == "rsc":
        return "rev dc"
    found = _US_COMPOUND.match(name)
    if found is None:
        return name
    return found["before"] + US_TO_UK.get(found["basic"], found["basic"]) + (found["tog"] or "")


#: a stitch's US name within a sentence, and the word for passing a stitch over
_SPOKEN_NAME = re.compile(
    r"(?<!\w)(?:(?P<name>e?f?(?:fp|bp)?(?:trtr|qtr|dtr|hdc|sc|dc|tr)(?:\d+tog)?|rsc)"
    r"(?P<s>s?)|(?P<sk>sk))(?!\w)"
)


def speak(text: str, terms: Terms) -> str:
    """A sentence of ours with the stitches in the terms of the reader's text.

    >>> speak("Write “sk next 2 sts, 3 dc in next st”.", "uk")
    'Write “miss next 2 sts, 3 tr in next st”.'
    """
    if terms == "us":
        return text

    def named(found: re.Match[str]) -> str:
        if found["sk"]:
            return "miss"
        return in_terms(found["name"], terms) + found["s"]

    return _SPOKEN_NAME.sub(named, text)


#: words of other terms that betray a text in the wrong ones: in UK terms there is no sc or hdc.
def foreign_word(word: str, terms: Terms) -> bool:
    """Whether a word is a stitch of the other terms only (``sc`` in a UK text)."""
    other: Terms = "us" if terms == "uk" else "uk"
    return compound(word, terms) is None and compound(word, other) is not None


def spoken_words(terms: Terms) -> dict[str, str]:
    """Stitches written in several words or in full: words to US name, in the given terms."""
    return {**_UK_WORDS, **_UK_CLOSED} if terms == "uk" else _US_WORDS
