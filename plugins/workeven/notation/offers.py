"""What may have been meant by words that are not understood: a stitch, or a phrase that is read.

Takes     the text of a row, the place where it is not understood, the vocabulary.
Gives     ``offer``: the cure of a message, and the mistake that it is for, if known.
Problems  none.
From      notation.md, "Tolerant reading" follows from here: "the nearest phrase that would be".

Phrases are compared word by word, as the tokens fold them, with all numbers and all stitches alike:
``tr in the next 4 stitches along`` is near ``sc in next 6 sts``, whatever the letters.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache
from typing import NamedTuple

from workeven.notation.tokens import FOLD, tokenize
from workeven.notation.vocabulary import (
    CLOSED_WORDS,
    Terms,
    Vocabulary,
    foreign_word,
    in_terms,
    speak,
    spoken_words,
)
from workeven.problems.words import nearest

#: phrases that are read, one of each kind; the nearest is offered
PHRASES = (
    "sc in next st",
    "sc in first st",
    "sc in last 3 sts",
    "sc in same st",
    "sc in each st across",
    "sc in each st around",
    "sc in each st to last 3 sts",
    "sc in each st to next ch-2 sp",
    "sc in next 6 sts",
    "sc in each of next 6 sts",
    "sc in each sc and in each ch-1 sp around",
    "2 dc in next st",
    "2 dc in each st around",
    "2 sc in each of next 3 sts",
    "6 sc in ring",
    "magic ring, 6 sc in ring",
    "ch 4, join with sl st to first ch to form ring",
    "sc in 2nd ch from hook and in each ch across",
    "dc in 4th ch from hook (skipped 3 chs count as dc)",
    "sc in back loop only of each st across",
    "(dc, ch 1, dc) in next ch-2 sp",
    "3 dc in next ch-2 sp",
    "dc in center dc of next shell",
    "fpdc around next st",
    "fpdc around next st 2 rows below",
    "sc2tog over next 2 sts",
    "sc2tog across",
    "sk next 2 sts",
    "sk next ch-1 sp",
    "ch 3 (counts as dc)",
    "ch 1 (does not count as st)",
    "ch 6 (counts as 6 sts), sk 6 sts",
    "*sc in next st, ch 1; rep from * across",
    "*sc 4, inc; rep from * 5 more times",
    "*ch 1, sk 1 st, dc in next st; rep from * to last 2 sts",
    "[sc 7, sc2tog] 6 times",
    "[sc 7, sc2tog] around",
    "rep from * 5 more times",
    "rep from * to last 3 sts",
    "rep from * around, ending with sc in last st",
    "join with sl st to first sc",
    "join with sl st to top of beg ch-3",
    "join yarn with sl st in any ch-2 sp",
    "join B with sc in first st",
    "sl st to next ch-2 sp",
    "sl st in each of next 4 sts",
    "leave rem sts unworked",
    "leave 4 sts unworked at each end of next row",
    "sc in each unworked st of Row 3",
    "inc in next st",
    "dec 12 sts evenly",
    "inc 6 sts evenly around",
    "dec 1 st at each end every 4th row 6 times",
    "work even for 12 rows",
    "work even until piece measures 30 cm",
    "rep last row 9 more times",
    "rep Rows 2 and 3 until piece measures 30 cm",
    "rep Row 2 until there are 60 sts",
    "work 24 sc evenly along side edge",
    "sc in side of each row",
    "working along other side of chain",
    "now work in joined rounds",
    "change to colour B",
    "place marker in next st",
    "turn",
    "do not turn",
    "fasten off",
)
#: how alike two phrases must be before one is offered for the other
_ALIKE = 0.5
#: how alike a misspelt word must be to one that is known
_WORD_ALIKE = 0.7
#: the same where it is a stitch of the pattern's own, of which there are few
_OWN_ALIKE = 0.3
#: the fewest letters of a word that can be told from another by its letters
_SHORTEST = 2
#: no stitch has a longer name
_LONGEST = 30

_WORD = re.compile(r"[^\W\d_]+(?:-?\d+)?(?:tog)?[^\W\d_]*")
#: words that are no names of stitches wherever they stand
_PLAIN = frozenset(
    "in into of the a an each every next last first same rem all to and or on at with from over "
    "under around across along until till for then work making made behind front back between not "
    "do as so count counts it is are be that this them these those before after above below again "
    "only other left right side edge top bottom place places marker yarn colour color row rows rnd "
    "rnds round rounds times time more less hook needle stuff sew seam pin fold weave ends".split()
)
#: names that stitches of one's own often have, which the notation speaks of as groups
_OFTEN_OWN = frozenset("shell shells fan fans v-st v-sts".split())
#: what stands behind a stitch that is worked
_WORKED_IN = re.compile(
    r"\s*(?:\d+\b|in(?:to)?\b|around\b|across\b|over\b|each\b|,|;|\]|\)|\Z)", re.IGNORECASE
)


class Offer(NamedTuple):
    """The cure of a message.

    ``mistake`` names what is told once however many rows have it: a stitch that is not known, or
    that the text is in other terms; "" for what each row has for itself.
    """

    mend: str
    mistake: str = ""


def offer(text: str, start: int, words: str, vocabulary: Vocabulary) -> Offer:
    """What may be done about words of a row that begin at a column.

    >>> offer("dc in next st, veee in next st", 15, "veee in next st", Vocabulary("us", ("vee",)))
    Offer(mend='Did you mean “vee”?', mistake='veee')
    """
    for word in re.findall(r"[^\W\d_]+\d*(?:tog)?", words.lower()):
        if foreign_word(word, vocabulary.terms):
            return Offer(_foreign(word, vocabulary.terms), f"terms {vocabulary.terms}")
    if (square := _SQUARES.match(words)) is not None:
        return _squares(square["square"].lower(), vocabulary.terms)
    word = _word_at(text, start)
    if _SHORTEST <= len(word) <= _LONGEST and _is_unknown(word, vocabulary):
        meant = _meant(word.lower(), vocabulary)
        if meant is not None:
            return Offer(f"Did you mean “{meant}”?", word)
        if _WORKED_IN.match(text, _end_of_word(text, start)):
            tall = in_terms("dc", vocabulary.terms)
            return Offer(
                f"If “{word}” is a stitch of your own, declare it under `stitches`, as "
                f"`{word}: ({tall}, ch 1, {tall}) in same st` (with `--stitch` at the command "
                "line).",
                word,
            )
    near = _nearest_phrase(words, vocabulary)
    if near is not None:
        spoken = speak(near, vocabulary.terms)
        return Offer(f"The nearest phrase that is read: “{spoken}”.")
    return Offer(
        "See the guide's page on how rows are written; a stitch of your own is declared in "
        "`stitches`."
    )


#: so many squares of filet, where nothing says what one is
_SQUARES = re.compile(
    r"\d+ (?P<square>bls?|blks?|blocks?|sps?|spaces?|mesh(?:es)?|(?:solid|open) \w+)\b\.?\s*\Z",
    re.IGNORECASE,
)


def _squares(square: str, terms: Terms) -> Offer:
    """What a square is differs from mesh to mesh, so it is asked for and not guessed."""
    tall = in_terms("dc", terms)
    name = "sp" if square.startswith(("sp", "mesh", "open")) else "block"
    filled = "bl" if square.startswith("bl") and not square.startswith("block") else "block"
    return Offer(
        f"Say what a square is: declare `sp: ch 2, sk 2, {tall}` and `{filled}: 3 {tall}`, or as "
        "your mesh is worked, under `stitches` (with `--stitch` at the command line).",
        f"square {name}",
    )


def _foreign(word: str, terms: Terms) -> str:
    other, mine = ("UK", "US") if terms == "us" else ("US", "UK")
    return (
        f"“{word}” is a {other} term and the text is in {mine} terms: set `terms`, or change the "
        "word."
    )


# --- a word that is not known --------------------------------------------------------------


def _word_at(text: str, start: int) -> str:
    """The whole word that stands at a column or around it (``sc2tgo``), if it is one."""
    for found in _WORD.finditer(text):
        if found.start() <= start < found.end():
            return found[0]
    return ""


def _end_of_word(text: str, start: int) -> int:
    return next((one.end() for one in _WORD.finditer(text) if one.start() <= start < one.end()), 0)


def _is_unknown(word: str, vocabulary: Vocabulary) -> bool:
    """Whether it is no word of the notation and no stitch."""
    lower = word.lower()
    if lower in _OFTEN_OWN:
        return lower not in vocabulary.special
    if lower in _PLAIN or lower in FOLD or lower in vocabulary.special:
        return False
    token = tokenize(word, vocabulary)[0]
    if token.end < len(word):
        return "-" not in word  # it falls apart: a decrease misspelt
    return token.kind == "word" and token.word not in _known_words()


@lru_cache(maxsize=1)
def _known_words() -> frozenset[str]:
    """The words of all phrases, and all that the tokens fold."""
    return frozenset({*_phrase_words(), *FOLD, *FOLD.values(), *_PLAIN})


@lru_cache(maxsize=1)
def _phrase_words() -> tuple[str, ...]:
    """The words of all phrases that are long enough to be told apart."""
    spoken = {word for phrase in PHRASES for word in re.findall(r"[a-z]+", phrase.lower())}
    return tuple(sorted(word for word in spoken if len(word) > _SHORTEST))


def _meant(word: str, vocabulary: Vocabulary) -> str | None:
    """The name that it may have been written for; a stitch of the pattern's own first of all."""
    own = nearest(word, vocabulary.special, _OWN_ALIKE)
    if own is not None or word in _OFTEN_OWN:
        return own
    return nearest(word, _names(vocabulary), _WORD_ALIKE)


def _names(vocabulary: Vocabulary) -> tuple[str, ...]:
    """The stitches that a misspelt word may have been, those of the pattern first."""
    basic = [word for word in spoken_words(vocabulary.terms) if " " not in word]
    together = [f"{word}{legs}tog" for word in basic for legs in (2, 3) if word.isalpha()]
    return (*vocabulary.special, *basic, *together, *CLOSED_WORDS, *_phrase_words())


# --- the nearest phrase --------------------------------------------------------------------


def _nearest_phrase(words: str, vocabulary: Vocabulary) -> str | None:
    said = _shape(words, Vocabulary(vocabulary.terms, vocabulary.special))
    if not said:
        return None
    best = max(_shapes(), key=lambda pair: _likeness(said, pair[1]))
    return best[0] if _likeness(said, best[1]) >= _ALIKE else None


@lru_cache(maxsize=1)
def _shapes() -> tuple[tuple[str, Counter[str]], ...]:
    return tuple((phrase, _shape(phrase, Vocabulary())) for phrase in PHRASES)


def _shape(text: str, vocabulary: Vocabulary) -> Counter[str]:
    """The words of a phrase, each number and each stitch by one sign."""
    signs = {"num": "#", "ord": "#th", "rate": "# times", "stitch": "stitch", "chn": "ch # sp"}
    tokens = tokenize(text, vocabulary)
    spoken = (signs.get(token.kind, token.word) for token in tokens if token.kind != "end")
    return Counter(word for word in spoken if word not in (",", ";", "the", "a", ""))


def _likeness(one: Counter[str], other: Counter[str]) -> float:
    common = (one & other).total()
    return 2 * common / (one.total() + other.total())
