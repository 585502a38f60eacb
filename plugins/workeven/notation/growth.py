"""Rows repeated with a change: "with 1 more ch between shells each rnd", "ch 4 instead of ch 3".

Takes     ``Stream``.
Gives     ``growth``.
Problems  none of its own.
From      notation.md, "Whole-row words".
"""

from __future__ import annotations

import re

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tokens import NUMBER_WORDS
from workeven.notation.tree import BracketTimes, Exchange, Growth, RowChange
from workeven.notation.vocabulary import Terms, basic_us

_NUMBER = r"(?:\d+|one|two|three|four)"
_WHAT = r"(?:ch(?:ain)?s?|sts?|stitch(?:es)?|sc|hdc|dc|tr|htr|dtr)\b(?:\s+(?:st|stitch)(?:es|s)?)?"
#: what is counted of a row, and is no run of stitches that could grow
_THINGS = (
    r"(?:[vxy]-sts?|groups?|shells?|fans?|scallops?|clusters?|cls?|popcorns?|blocks?|"
    r"(?:(?:ch-?\d+|\d+-?ch)[ -])?(?:sp(?:ace)?s?|lps?|loops?|arch(?:es)?))\b"
)
_WAY = r"(?:more|extra|additional|further|less|fewer)"
_MORE = (
    r"[,;]?\s*(?:(?:but|and)\s+)*(?P<always>always\s+)?(?P<verb>with|having|working|making|adding)\s+"
    rf"(?P<number>an?|{_NUMBER})\s+(?:(?P<way>{_WAY})\s+(?P<what>{_WHAT}|{_THINGS})|"
    rf"(?P<thing>{_WHAT}|{_THINGS})\s+(?P<behind>{_WAY}))\b"
    r"(?P<where>\s+(?:between|in|before|after|on|over|for|at|(?:each|either|both|every) sides?)\b"
    r"[^,;()]*?)?"
    r"(?P<each>,?\s+(?:in |on )?(?:each|every|per)\s+"
    r"(?:(?:inc(?:rease)?|dec(?:rease)?|shaping) )?(?:time|rnd|round|row|repeat)s?)?"
    r"(?=\s*(?:[,;.:=(\[–—-]|$|(?:until|till|for \d|\d+ (?:more )?times|twice)\b))"
)
#: what is at both sides of the shaping
_BESIDE = r"\s+(?:(?:on |at )?(?:each|either|both|every) sides? of|before and after)\b"
_OTHER = (
    r",?\s*(?:(?:but|and)\s+)?(?:with|having|working|making|using)?\s*ch(?:ain)?s?[ -]?(?P<new>\d+)"
    r"(?:\s+(?:sps?|loops?|lps?))?\s+(?:instead of|in place of|in lieu of)\s+(?:the |each |every )?"
    r"ch(?:ain)?s?[ -]?(?P<old>\d+)[^,;()\[]*"
)
_REPLACING = (
    r",?\s*(?:but\s+)?(?:replacing|changing)\s+(?:the |each |every )?ch(?:ain)?s?[ -]?(?P<old>\d+)"
    r"\s+(?:sps?\s+|loops?\s+)?(?:with|by|to|into)\s+ch(?:ain)?s?[ -]?(?P<new>\d+)[^,;()\[]*"
)


#: how often what stands in brackets is worked then
_IN_BRACKETS = (
    r",?\s*(?:but\s+)?(?:working|work|making)\s+(?:the\s+)?(?:instructions?|directions?|sts|stitches|"
    r"section|part|what is)\s+(?:with)?in\s+(?:the\s+)?(?:square\s+|round\s+)?"
    r"(?:brackets|parentheses)\s+(?P<number>\d+|two|three|four|five|six|seven|eight|nine|ten)\s+"
    r"(?:more\s+)?(?<!more )times(?:\s+instead of [^,;()\[]+)?"
)
#: how many stand between the increases then
_BETWEEN = (
    r"[,;]?\s*\(?(?:(?:but|and|now)\s+)*(?:(?:with|having|working|making|there (?:being|will be))"
    rf"\s+)?(?P<number>{_NUMBER})\s+(?:{_WHAT})\s+(?:between|bet)"
    r"(?:\s+(?:the |each |all )*(?:inc(?:rease)?s?|dec(?:rease)?s?))?\)?(?=\s*(?:[,;.:=(\[–—-]|$))"
)
#: what comes of each row
_GAINS = (
    r"[,;]?\s*(?:\(|thus |so )?(?:each|every) (?:row|rnd|round) (?:will )?"
    rf"(?P<way>gains?|loses?) (?P<number>{_NUMBER})\s+(?P<what>{_WHAT})\)?"
    r"(?=\s*(?:[,;.:=(\[–—-]|$))"
)
#: what comes of each row beside its stitches, which its own count states
_GROUPS_GAINED = (
    r"[,;]?\s*(?:\(|thus |so )?(?:each|every) (?:row|rnd|round) (?:will )?"
    rf"(?:adds?|adding|gains?|gaining)\s+(?:an?|{_NUMBER})\s+(?:more\s+|extra\s+)?"
    rf"(?:\d-?(?:sc|hdc|dc|tr|htr|dtr)[ -])?{_THINGS}"
    r"(?:\s+(?:at|on|to) (?:each|either|both|every) (?:sides?|ends?|edges?))?\)?"
    r"(?=\s*(?:[,;.:=(\[–—-]|$))"
)
#: words without which no row differs from the one that it repeats
_DIFFERING = frozenset(
    "with having working making adding instead place lieu replacing changing between bet gains "
    "gain gaining loses lose adds add".split()
)


def growth(stream: Stream) -> RowChange | None:
    """Behind a repeated row: how it differs from the one before.

    Takes: with 1 more ch between shells each rnd
    Takes: , each row adding one 3-tr group at each side
    Refuses: with Navy
    """
    if stream.said.isdisjoint(_DIFFERING):
        return None
    text, start = stream.text, stream.end
    if (told := ignoring_case(_GROUPS_GAINED).match(text, start)) is not None:
        stream.pass_to(told.end())
        return None  # the row that is repeated says how they come about
    found = ignoring_case(_OTHER).match(text, start) or ignoring_case(_REPLACING).match(text, start)
    if (brackets := _in_brackets(stream)) is not None:
        return brackets
    change: RowChange | None = None
    if found is not None:
        change = Exchange(int(found["old"]), int(found["new"]), found.start(), found.end())
    else:
        found = ignoring_case(_MORE).match(text, start)
        change = None if found is None else _growth(found, stream.vocabulary.terms)
    if found is None:
        return _told_otherwise(stream)
    stream.pass_to(found.end())
    return change


def _in_brackets(stream: Stream) -> BracketTimes | None:
    """How often what stands in the brackets of the row is worked this time.

    Takes: , working instructions in brackets 4 times
    Refuses: , working in brackets
    """
    if stream.said.isdisjoint(("brackets", "parentheses")):
        return None
    found = ignoring_case(_IN_BRACKETS).match(stream.text, stream.end)
    if found is None:
        return None
    stream.pass_to(found.end())
    said = found["number"].lower()
    number = int(said) if said.isdigit() else NUMBER_WORDS[said]
    return BracketTimes(number, found.start(), found.end())


def _told_otherwise(stream: Stream) -> Growth | None:
    """``with 3 sc between incs``, ``each row gains 8 dc``: what there is, or what comes of it.

    Takes: , with 3 sc between incs
    Takes: ; each row gains 8 dc
    Refuses: with 3 sc in next st
    """
    text, start = stream.text, stream.end
    if not stream.said.isdisjoint(("between", "bet")):
        found = ignoring_case(_BETWEEN).match(text, start)
        if found is not None:
            stream.pass_to(found.end())
            between = _number(found["number"])
            return Growth(0, False, False, found.start(), found.end(), between=between)  # noqa: FBT003, a record
    found = ignoring_case(_GAINS).match(text, start)
    if found is None:
        return None
    stream.pass_to(found.end())
    gained = found["way"].lower().startswith("gain")
    number = _number(found["number"]) * (1 if gained else -1)
    what = found["what"].lower().split()[0]
    unit = "" if what.startswith("ch") else basic_us(what, stream.vocabulary.terms) or "sts"
    if not unit:
        raise stream.fault(found.start(), mend="state stitches, or the count at the end of the row")
    return Growth(number, False, True, found.start(), found.end(), unit=unit, told=True)  # noqa: FBT003, a record


def _growth(found: re.Match[str], terms: Terms) -> Growth:
    """What is said of more or fewer stitches: how many, and where."""
    less = (found["way"] or found["behind"]).lower() in ("less", "fewer")
    number = _number(found["number"])
    what = (found["what"] or found["thing"]).lower()
    where = found["where"] or ""
    beside = ignoring_case(_BESIDE).match(where) is not None
    in_the_row = found["verb"].lower() == "having" and not where and not what.startswith("ch")
    thing = ignoring_case(_THINGS).match(what) is not None
    unit = _THING_UNITS.get(what.split()[-1][:2], what.removesuffix("s")) if thing else ""
    if unit == "sp" and (chains := re.search(r"\d+", what)) is not None:
        unit = f"ch-{chains[0]} sp"
    if unit[1:] == "-st":
        unit = f"{unit[0].upper()}-st"
    return Growth(
        -number if less else number,
        what.startswith("ch"),
        bool(found["each"] or found["always"]),
        found.start(),
        found.end(),
        beside=beside,
        unit=unit or ((basic_us(what.split()[0], terms) or "sts") if in_the_row else ""),
        counted=thing,
    )


#: what things are counted by, where that is not the word itself
_THING_UNITS = {"cl": "cl", "po": "pc", "sp": "sp", "lo": "sp", "lp": "sp", "ar": "sp"}


def _number(word: str) -> int:
    word = word.lower()
    if word in ("a", "an"):
        return 1
    return NUMBER_WORDS.get(word) or int(word)
