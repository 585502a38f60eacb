"""Picots: "ch 3, sl st in 3rd ch from hook", "picot", "ch-4 picot", in rows and in groups.

Takes     ``Stream``.
Gives     ``picot``, ``closed_chain``.
Problems  none of its own.
From      notation.md, "Chains worked back along".

A picot that is not explained is the usual one of three chains (common practice). A chain longer
than the one that is closed leaves its first chains in front: "ch 5, sl st in 3rd ch from hook" is
ch 2 and a picot of three.
"""

from __future__ import annotations

import re

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tokens import NUMBER_WORDS, ORDINAL_WORDS
from workeven.notation.tree import Amount, Chain, Content, Picot, Times

#: the usual picot
_USUAL = Amount((3,))
#: the least number of chains that close to a picot of their own, behind others
_LEAST = 3
_CH = r"ch(?:ain)?(?:es|s)?"
_ORDINAL = r"\d+(?:st|nd|rd|th)|first|second|third|fourth|fifth|sixth|beg(?:inning)?"
#: what closes a chain behind a stitch that is worked already
_CLOSING = re.compile(
    r"\s*(?:,|;|and\b|then\b)*\s*(?:(?:1|one|a)\s+)?"
    r"(?P<by>sl\.?[ -]?st(?:itch)?|slst|slip st(?:itch)?|ss|sc|dc)\s+"
    r"(?:in(?:to)?|to|through)\s+",
    re.IGNORECASE,
)
#: where it is closed
_CLOSED = (
    r"(?:the\s+)?(?:"
    rf"(?P<nth>{_ORDINAL})\s+(?:of\s+(?:the\s+|these\s+|those\s+)?)?(?:\d+\s*)?{_CH}"
    r"(?:\s+(?P<hook>from\s+(?:the\s+)?hook)|\s+(?:just\s+)?(?:made|worked)|"
    r"\s+of\s+(?:the\s+)?(?:ch(?:ain)?|picot)(?:-\d+)?)?"
    r"|(?P<last>(?:(?:top|side|base|front (?:loop|lp)|post|head) of\s+)?(?:the\s+)?"
    r"(?:last|previous|prev)\s+[a-z]+(?:\s+(?:just\s+)?(?:made|worked))?"
    r"|(?:(?:top|side|base|front (?:loop|lp)|post|head) of\s+)(?:the\s+)?(?:same\s+)?[a-z]+"
    r"(?:\s+(?:just\s+)?(?:made|worked))"
    r"|[a-z]+\s+(?:just\s+)?(?:made|worked)"
    rf"|(?:[a-z]+\s+at\s+)?base\s+of\s+(?:the\s+|same\s+)?{_CH}(?:-\d+)?"
    rf"|(?:top|side) of\s+(?:the\s+)?[a-z]+\s+at\s+base\s+of\s+{_CH}))\b"
)
#: what goes on along the chain, closes a ring, or names a chain of another place
_GOES_ON = (
    r"\s*(?:,|;|and\b)*\s*(?:[a-z]+\s+)?in\s+(?:each of\s+)?(?:the\s+)?(?:next|rem)[^,;]*\bch|"
    r"\s+(?:to|and)\s+(?:form|join|make)\b(?!\s+(?:an?\s+|the\s+)?picot)|\s*,?\s*forming|\s+of\b|[-\s]+\d"
)


#: what it is for, said behind it
_FOR_PICOT = (
    r"\s*,?\s*(?:\(\s*picot(?:\s+(?:made|formed|complete[d]?))?\s*\)|"
    r"(?:for|to (?:form|make|complete)|forming|making)\s+(?:an?\s+|the\s+|each\s+|one\s+)?"
    r"(?:small\s+)?picots?\b)"
)


def closed_chain(stream: Stream, count: Amount, start: int) -> tuple[Content, ...] | None:
    """Behind ``ch 3``: the picot that it becomes, and the chains in front of it."""
    closing = _CLOSING.match(stream.text, stream.end)
    if closing is None:
        return None
    found = ignoring_case(_CLOSED).match(stream.text, closing.end())
    if found is None or ignoring_case(_GOES_ON).match(stream.text, found.end()):
        return None
    if not _worked_before(stream):
        return None
    chains = _closing(count, closing["by"], found)
    if chains is None:
        return None
    said = ignoring_case(_FOR_PICOT).match(stream.text, found.end())
    end = found.end() if said is None else said.end()
    stream.pass_to(end)
    picot = Picot(chains, start, stream.end)
    if chains is count:
        return (picot,)
    before = (count.values[0] or 0) - (chains.values[0] or 0)
    return Chain(Amount((before,)), None, start, stream.end), picot


def _worked_before(stream: Stream) -> bool:
    """Whether a stitch stands before it: at the head of a line a chain is joined to a ring."""
    return any(token.kind in ("stitch", "grp") for token in stream.tokens[: stream.at - 1])


def _closing(count: Amount, by: str, found: re.Match[str]) -> Amount | None:
    """How many chains are closed; None where it is no picot."""
    if found["nth"] is None:
        return count if by.lower() not in ("sc", "dc") else None
    nth = _number(found["nth"])
    if not found["hook"]:  # "first ch", "first of these 3 chs"
        return count if nth == 1 else None
    if count.values == (nth,):
        return count
    longer = len(count.values) == 1 and (count.values[0] or 0) > nth >= _LEAST
    return Amount((nth,)) if longer else None


def _number(word: str) -> int:
    digits = re.match(r"\d+", word)
    if digits is not None:
        return int(digits[0])
    return ORDINAL_WORDS.get(word.lower(), 1)


_PICOT = (
    r"(?:an?\s+)?(?:(?P<times>\d+|two|three|four|five)\s+)?"
    rf"(?:{_CH}[ -]?(?P<before>\d+)[ -]|(?P<number>\d+)[ -]{_CH}[ -])?picots?"
    rf"(?:[ -](?P<after>\d+)\b|\s+of\s+(?P<of>\d+)\s*{_CH})?\b"
    rf"(?P<told>\s*[(\[]\s*=?\s*(?:\d+\s*)?{_CH}\b[^()\[\]]*[)\]])?"
)


def picot(stream: Stream) -> tuple[Content, ...] | None:
    """``picot``, ``ch-4 picot``, ``3 picots``, ``picot of 4 ch``.

    Takes: ch-4 picot
    Refuses: ch 4
    """
    if "picot" not in stream.said:
        return None
    if not any(token.word == "picot" for token in stream.tokens[stream.at : stream.at + 5]):
        return None
    found = ignoring_case(_PICOT).match(stream.text, stream.start)
    if found is None:
        return None
    start = stream.start
    stream.pass_to(found.end())
    written = found["before"] or found["number"] or found["after"] or found["of"]
    one = Picot(Amount((int(written),)) if written else _USUAL, start, stream.end)
    times = found["times"]
    if times is None:
        return (one,)
    number = NUMBER_WORDS.get(times.lower()) or int(times)
    return (one,) if number == 1 else (Times((one,), Amount((number,))),)
