"""Stitches declared in words, one by one: "shell = 5 dc in same st", "Cluster (cl): dc3tog".

Takes     the words of a declaration, their place, the terms.
Gives     ``declaration``, ``Declared``, ``declarations_in``.
Problems  ``row-stitch-option``, ``name-reserved``, and what a special stitch's words are told.
From      common practice: designers list their stitches in front of the rows.

A list of stitches tells basic ones too ("dc = double crochet", "sp = space"): they are passed, and
refused where they are said to be another stitch than they are in these terms.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from workeven.notation.asides import names_part
from workeven.notation.special import names_of, parse_special
from workeven.notation.tokens import FOLD, tokenize
from workeven.notation.tree import SpecialStitch
from workeven.notation.vocabulary import Terms, Vocabulary, basic_us
from workeven.problems import Problem, Span
from workeven.records import replace

#: a stitch and how it is worked, as an option writes it ("shell = 5 dc in same st") or as
#: a pattern's list of stitches does ("Shell: 5 dc in one st", "Cluster (cl)—dc3tog")
_TOLD_AS = re.compile(
    r"(?P<name>[^=:–—]*?[^=:–—\s])(?:\s*[=:–—]\s*[–—]?|\s+-\s+)\s*(?P<meaning>\S.*)", re.DOTALL
)


class Declared(NamedTuple):
    """What a declaration gives: a stitch by each of its names, none where it is a basic one."""

    stitches: tuple[SpecialStitch, ...]
    problems: tuple[Problem, ...] = ()


def declaration(text: str, span: Span, terms: Terms) -> Declared:
    """A stitch and how it is worked, behind ``=``, a colon or a dash.

    >>> place = Span(file="-", line=1, column=1, end_line=1, end_column=9)
    >>> [one.name for one in declaration("Shell (sh): 5 dc in one st", place, "us").stitches]
    ['sh', 'Shell']
    """
    told_as = _TOLD_AS.fullmatch(text.strip())
    if told_as is not None:
        return _declared(told_as["name"], told_as["meaning"], span, terms)
    problem = Problem(
        code="row-stitch-option",
        span=span,
        found=f"“{text[:80]}” does not say what the stitch is.",
        mend="Write it as “shell = 5 dc in same st”.",
    )
    return Declared((), (problem,))


def _declared(name: str, meaning: str, span: Span, terms: Terms) -> Declared:
    names = names_of(name)
    if _NO_STITCH.fullmatch(meaning.strip(" .")) is not None or _is_a_word(names[0], meaning):
        return Declared(())  # "sp = space", listed with the others
    if names[0].startswith("beg ") and _AS_THE_FULL_ONE.fullmatch(meaning.strip(" .")) is not None:
        return Declared(())  # of a square that is begun by its turning chain the square tells all
    basic = basic_us(names[0].lower(), terms)
    if basic is not None:  # "dc = double crochet", listed with the others
        return Declared((), _other_meaning(basic, meaning, names[0], span, terms))
    told = "".join(f"{one}: " for one in names[1:]) + meaning
    parsed = parse_special(names[0], told, span, terms)
    found = parsed.value
    stitches = () if found is None else tuple(replace(found, name=one) for one in names)
    return Declared(stitches, parsed.problems)


#: what a list tells in full, and no row works: "MR = magic ring", "BLO = back loop only"
_NO_STITCH = re.compile(
    r"(?:magic|adjustable) (?:ring|circle|loop)|(?:right|wrong) side|"
    r"(?:back|front) loops?(?: only)?|"
    r"(?:main|contrast(?:ing)?) colou?r|place (?:a )?marker|fasten off",
    re.IGNORECASE,
)


#: "ch 3 (counts as dc), then a block without further ch"
_AS_THE_FULL_ONE = re.compile(
    r"(?:ch(?:ain)? ?-?\d+|\d+ ?-?ch(?:ain)?s?)(?: ?\([^()]*\)| to count as [^,]*)?,? "
    r"(?:then |and )?(?:an?|1|one) (?:more )?(?:block|bl|blk|bk|sp|space|mesh|open mesh|square)"
    r"(?:,? (?:with(?:out)? |omitting )[^()]*)?",
    re.IGNORECASE,
)


def _is_a_word(name: str, meaning: str) -> bool:
    """Whether a short word of the rows is told in full, which is no stitch."""
    in_full, short = meaning.strip(" .").lower(), name.lower()
    if in_full in ("turning chain", "turning ch"):
        return True
    said = FOLD.get(in_full, FOLD.get(in_full.removesuffix("s")))
    return said is not None and said == FOLD.get(short, short)


def _other_meaning(
    basic: str, meaning: str, name: str, span: Span, terms: Terms
) -> tuple[Problem, ...]:
    """What is told where a basic stitch is said to be another than it is in these terms."""
    named = [one.word for one in tokenize(meaning, Vocabulary(terms)) if one.kind == "stitch"]
    if not named or basic in named:  # no stitch is named where it is told what the hook does
        return ()
    return (
        Problem(
            code="name-reserved",
            span=span,
            found=f"“{name}” is a basic stitch in {terms.upper()} terms already, and is said to be "
            f"“{meaning.strip()[:80]}”.",
            mend="Give the special stitch another name, or say in which terms the rows are.",
        ),
    )


# --- lists of stitches in front of the rows ------------------------------------------------

#: the head of such a list
_HEAD = re.compile(
    r"\s*(?:special |pattern )?(?:stitch(?:es)?|sts|terms|techniques)"
    r"(?: (?:used|guide|key|explained|explanations?|definitions?|instructions|patterns?))?"
    r"\s*[:–—-]\s*|\s*abbreviations?\s*[:–—-]\s*",
    re.IGNORECASE,
)
_NO_NAME = (
    r"(?i:(?:[a-z]+ )?(?:ch|chains?|rows?|rnds?|rounds?|sk|skip|miss|turn|join|rep|repeat|in|to|"
    r"st|sts|around|across|gauge|tension|sizes?|multiple|colou?rs?|yarns?)\b)"
)
_WORD = r"[A-Za-z0-9][\w/'’-]*"
_SHORT_NAME = r" \([\w .-]{1,12}\)"
_IN_A_LIST = rf"(?=[A-Za-z]){_WORD}(?: {_WORD}){{0,3}}(?:{_SHORT_NAME})?"
_A_NAME = rf"(?!{_NO_NAME}){_IN_A_LIST}"
_EQUALS = (
    r"(?:\A|(?<=[.;,])|(?<=\band))\s*(?P<name>{name}) ?= ?"
    r"(?P<meaning>(?:(?!(?:[,;]| and) {name} ?=)[^.=])+)(?:[.;,]|\Z)?"
)
#: "V-st = (dc, ch 1, dc) in same st", up to the sentence's end or to the next such name
_EQUALS_ANYWHERE = re.compile(_EQUALS.replace("{name}", _A_NAME))
_EQUALS_LISTED = re.compile(_EQUALS.replace("{name}", _IN_A_LIST))
#: "Shell: 5 dc in same st", and in a list "Shell (5 dc in same st)"
_COLON = re.compile(
    rf"(?:\A|(?<=[.;]))\s*(?P<name>{_A_NAME})(?: ?[:–—] ?| - )(?P<meaning>[^.;:=]+)(?:[.;]|\Z)"
)
_IN_BRACKETS = re.compile(
    rf"(?:\A|(?<=[.;,])|(?<=\band))\s*(?P<name>{_A_NAME})(?: ?[:–—-])? ?"
    r"\((?P<meaning>[^()]*(?:\([^()]*\)[^()]*)*)\)(?:[.;,]|\Z)?"
)
#: names that are given to stitches, and to no part of a piece
_STITCH_NAME = re.compile(
    r"(?:(?-i:[A-Z]{2,4})|inc(?:rease)?|dec(?:rease)?|[A-Za-z]{1,9}[- ](?:st|stitch)|"
    r"(?:.* )?(?:shell|fan|bobble|popcorn|"
    r"cluster|puff|star|bean|picot|cl|pc)s?(?: st(?:itch)?)?)(?: \([\w .-]{1,12}\))?",
    re.IGNORECASE,
)


#: how a stitch is worked, or where: without any of it a colon heads a part of the piece
_HOW = re.compile(
    r"\b(?:yo|yoh|yrh|insert|draw|pull|\w*tog|together|on (?:the )?hook)\b|"
    r"\A(?:an? )?(?:invisible |single |simple )?(?:de|in)crease\.?\s*\Z|"
    r"\bin(?:to)? (?:the )?(?:same|next|one|1|indicated|designated|each of next) ",
    re.IGNORECASE,
)
#: a chain that is closed on itself
_PICOT = re.compile(
    r"\bch ?\d,? (?:sl st|ss|sc|join)\b|\b\d ?ch,? (?:ss|dc|sl st)\b", re.IGNORECASE
)
_ROW = re.compile(r"\s*(?:row|rnd|round|r)s?\.? ?\d|\s*\d", re.IGNORECASE)


def _tells(meaning: str, vocabulary: Vocabulary) -> bool:
    """Whether words tell how a stitch is worked, or give its name in full; no count does."""
    alone = meaning.strip(" .")
    if FOLD.get(alone.lower()) is not None or _NO_STITCH.fullmatch(alone) is not None:
        return True
    if _HOW.search(meaning) is not None or _PICOT.search(meaning) is not None:
        return True
    tokens = tokenize(meaning, vocabulary)[:-1]
    return len(tokens) == 1 and tokens[0].kind == "stitch"  # "tr = treble"


def listed_from(text: str) -> int:
    """The column behind "Special stitches:"; 0 where no such head stands.

    >>> listed_from("Special stitches: shell = 5 dc in same st")
    18
    """
    head = _HEAD.match(text)
    return 0 if head is None else head.end()


def declarations_in(
    text: str, span: Span, terms: Terms, *, opening: bool
) -> Iterator[tuple[tuple[int, int], Declared]]:
    """The columns of each stitch that a line declares, and what it gives.

    Behind "Special stitches:" all of the line is a list of them; elsewhere one is told by its sign
    ("=") in a sentence of its own, or, before the first row (``opening``), by a colon behind a name
    that is a stitch's.
    """
    at = listed_from(text)
    if not (at or "=" in text or opening) or _ROW.match(text) is not None:
        return
    shapes: tuple[re.Pattern[str], ...] = (_EQUALS_ANYWHERE,)
    if at:
        shapes = (_EQUALS_LISTED, _COLON, _IN_BRACKETS)
    elif opening:
        shapes = (_EQUALS_ANYWHERE, _COLON)
    taken: list[tuple[int, int]] = []
    for shape in shapes:
        for one in shape.finditer(text[at:]):
            where = (at + one.start(), at + one.end())
            if any(start < where[1] and where[0] < end for start, end in taken):
                continue
            listed = at > 0 or shape is _EQUALS_ANYWHERE
            named = _STITCH_NAME.fullmatch(one["name"]) is not None
            if not listed and (not named or names_part(one["name"])):
                continue  # "BACK: with size G hook, ch 82"
            if not _tells(one["meaning"], Vocabulary(terms)):
                continue
            given = _declared(one["name"], one["meaning"].strip(), span, terms)
            taken.append(where)
            yield where, given
