"""A row worked again at a distance: "rep dec rnd every inch 5 more times", "… every 4th row twice".

Takes     ``Stream``.
Gives     ``repeat_every``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Whole pieces" ("Shaping over a length").
"""

from __future__ import annotations

import re

from workeven.arithmetic import quantities
from workeven.notation.expressions import ignoring_case
from workeven.notation.lengths import times_of
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tree import Amount, Length, RepeatEvery
from workeven.notation.whole_rows import rest_steps, row_ref
from workeven.notation.worked_even import even_words

#: every other row is every second
_OTHER = 2
_LENGTH = (
    r"(?P<length>(?:(?:\d|[½¼¾⅓⅔⅛])[\d.,/ ()½¼¾⅓⅔⅛-]*)?(?P<unit>mm|cm|inch(?:es)?|in|\")\b\.?)"
    r"(?:\s*\([^()]*\))?"
)


def repeat_every(stream: Stream) -> RepeatEvery | None:
    """A named row again, at a distance, with even rows between.

    Takes: work even in sc, rep Dec rnd every 4th rnd 5 more times
    Refuses: rep Dec rnd 5 more times
    """
    if "each" not in stream.said:
        return None
    mark = stream.here()
    stitch: str | None = None
    if stream.accept_any("work", "cont", "working") and even_words(stream):
        stitch = stream.take().word if stream.token.kind == "stitch" else None
        stream.accept_any("patt", "st")
        stream.accept_any(",", ";", "and")
    if not stream.is_word("rep") or stream.ahead().word == "from" or not _says_every(stream):
        stream.back_to(mark)
        return None
    stream.take()
    row = row_ref(stream)
    if not stream.accept("each"):
        stream.back_to(mark)
        return None
    distance = _distance(stream)
    stream.accept_any(",")
    times = times_of(stream)
    if times is None:
        raise stream.fault(mend="say how often: “rep Dec rnd every 4th rnd 5 more times”")
    return RepeatEvery(row, distance, times, stitch, rest_steps(stream))


def _says_every(stream: Stream) -> bool:
    return any(token.word == "each" for token in stream.tokens[stream.at : stream.at + 8])


def _distance(stream: Stream) -> Amount | Length:
    """How far apart: so many rows, or a length.

    Takes: 4th row
    Refuses: st
    """
    start = stream.start
    if stream.accept("other"):
        return _rows(stream, Amount((_OTHER,), None, start, stream.end))
    if stream.token.kind == "ord":
        token = stream.take()
        return _rows(stream, Amount((token.value,), None, token.start, token.end))
    found = ignoring_case(_LENGTH).match(stream.text, stream.start)
    if found is not None:
        return _length(stream, found)
    if stream.is_amount():
        return _rows(stream, stream.amount())
    if stream.is_word("row", "rnd"):
        return _rows(stream, Amount((1,), None, start, start))
    raise stream.fault(mend="write “every 4th row”, “every other row” or “every 3 cm”")


def _rows(stream: Stream, amount: Amount) -> Amount:
    if not stream.accept_any("row", "rnd"):
        raise stream.fault(mend="write “every 4th row”, “every other row” or “every 3 cm”")
    return amount


def _length(stream: Stream, found: re.Match[str]) -> Length:
    """``3 cm``, ``inch``, ``1 in (2.5 cm)``: the first unit is meant."""
    text = found["length"].strip().rstrip(".")
    text = text if text[0] != found["unit"][0] else f"1 {text}"
    try:
        lengths = quantities.lengths(text)
    except quantities.QuantityFault as fault:
        raise NotUnderstood(
            found.start(), found.end(), fault.found, fault.mend, "unit-length"
        ) from fault
    stream.pass_to(found.end())
    return Length(lengths, None, found.start(), found.end("length"))
