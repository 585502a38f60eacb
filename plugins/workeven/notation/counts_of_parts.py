"""What a stated count comes to, part by part: "60 hdc: 20 for each front, 20 for back".

Takes     ``Stream``, behind the number of the whole.
Gives     ``counts_of_parts``.
Problems  none.
From      notation.md, "Stated counts are assertions".

Worked example: "60 sts: 20 for each front, 20 for back" comes to 20 + 20 + 20. "Back and front" may
be both together or each, "sleeves" one or two: how often a number may count stands beside it. Where
a part is not known, the numbers are told as not checked.
"""

from __future__ import annotations

from typing import NamedTuple

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tree import Amount

#: parts of which a garment has two, and those of which it has one (common practice)
_PAIRS = r"fronts?|sleeves?|shoulders?|sides?|arms?|legs?|straps?|halves|half"
_SINGLE = r"back|neck|front|body|yoke|thumb|hand|palm|heel|sole|instep"
_PART = (
    r"\s*(?:sts?\b|stitches\b|sc\b|h?dc\b|h?tr\b|dtr\b)?\s*"
    r"(?:each (?=for |on |in ))?(?P<for>(?:for|on|in|at|across) )?"
    rf"(?:(?P<each>each (?:of )?(?:the )?(?P<pair>{_PAIRS}))|"
    rf"(?P<both>(?:each (?:of )?|both )?(?:the )?(?:{_PAIRS}|{_SINGLE}) and (?:the )?"
    rf"(?:{_PAIRS}|{_SINGLE})|(?:both |two |the )?"
    r"(?:fronts|sleeves|shoulders|sides|arms|legs|straps))|"
    rf"(?P<one>(?:the )?(?:(?:left|right|cent(?:er|re)) )?(?:{_SINGLE}|{_PAIRS}))|"
    r"(?P<other>(?:each |every |the |both )?[a-z]+(?: [a-z]+)?))(?=\s*(?:[,;.)\]]|and \d|\Z))"
)


class Parts(NamedTuple):
    """The numbers of the parts, each with how often it may count; or those that nobody checks."""

    known: tuple[tuple[Amount, tuple[int, ...]], ...] = ()
    unknown: tuple[tuple[Amount, str], ...] = ()


def counts_of_parts(stream: Stream, unit: str) -> Parts | None:
    """The numbers of the parts; None, and nothing is passed, where no parts are told."""
    opened = stream.is_mark("(", "[")
    if not opened and not stream.is_mark(":", "=", "-"):
        return None
    mark = stream.here()
    stream.take()
    parts: list[tuple[Amount, str]] = []
    ways: list[tuple[int, ...]] = []
    while stream.is_amount():
        amount = stream.amount()
        found = ignoring_case(_PART).match(stream.text, amount.end)
        if found is None or not (found["for"] or found["each"] or found["both"] or found["one"]):
            break
        stream.pass_to(found.end())
        parts.append((amount, f"?{unit} {found[0].strip()}"))
        ways.append(_ways(found["each"], found["both"], found["one"]))
        if not stream.accept_any(",", ";", "and", "&"):
            break
        stream.accept("and")
    closes = bool(stream.accept_any(")", "]")) if opened else True
    ends = stream.at_end() or stream.is_mark(")", "]", ".")
    several = len(parts) > 1 or (parts and ways[0] not in ((), (1,)))
    if not (several and closes and ends):
        stream.back_to(mark)
        return None
    if not all(ways):
        return Parts(unknown=tuple(parts))
    return Parts(tuple((amount, way) for (amount, _), way in zip(parts, ways, strict=True)))


def _ways(each: str | None, both: str | None, one: str | None) -> tuple[int, ...]:
    """How often the number of a part may count."""
    if each is not None:
        return (2,)
    if both is not None:
        return (1, 2)
    return () if one is None else (1,)
