"""Shaping over many rows: "dec 1 st at each end every 4th row 6 times, then every 6th row 3 times".

Takes     ``Stream``.
Gives     ``shape_rows``, ``edges``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Whole pieces", "Whole-row words".
"""

from __future__ import annotations

import re
from typing import Literal

from workeven.notation.contents import times_count
from workeven.notation.expressions import ignoring_case
from workeven.notation.stated_counts import stated
from workeven.notation.stream import Stream
from workeven.notation.tree import (
    ONE,
    Amount,
    Places,
    RowsUntil,
    ShapedEdge,
    ShapeRows,
    ShapeSpan,
    UntilCount,
)
from workeven.notation.whole_rows import rest_steps
from workeven.notation.worked_even import even_until, work_even
from workeven.records import replace

#: words that lead up to a shaping and change nothing ("continue in this way to increase")
_LEADING = frozenset(
    "cont work working keep even in patt as set est established this way manner to the same "
    "and but while beg now at times time shape also then straight before keeping maintaining "
    "continuing still".split()
)
_OTHER = ("other", "alt", "alternate")


def shape_rows(stream: Stream) -> ShapeRows | None:
    """``dec 1 st at each end every 4th row 6 times``, ``cont to inc 6 sts each rnd until …``.

    Takes: dec 1 st at each end every 4th row 6 times
    Takes: leave 6 sts unworked at armhole edge every 2nd row 2 times
    Refuses: dec 12 sts evenly
    """
    mark = stream.here()
    found = _meanwhile(stream) if "same" in stream.said else None
    found = found or _shaping(stream)
    if found is None:
        stream.back_to(mark)
    return found


def _meanwhile(stream: Stream) -> ShapeRows | None:
    """``work even for 10 rows, at the same time dec 1 st at each end …``: so many rows in all.

    Takes: work even for 10 rows, at the same time dec 1 st at each end every other row 5 times
    Refuses: work even for 10 rows
    """
    mark = stream.here()
    until = even_until(stream)
    while until is not None and stream.accept_any(",", ";", ".", "and", "but", "while"):
        pass
    if until is not None and stream.accept("at", "the", "same", "times"):
        stream.accept_any(",", ":")
        found = _shaping(stream)
        if found is not None and found.then is None and found.until is None:
            return replace(found, then=until, within=True)
    stream.back_to(mark)
    return None


def _shaping(stream: Stream) -> ShapeRows | None:
    """What is changed, where, how often.

    Takes: inc 1 st each side every other row 5 times
    Refuses: inc in next st
    """
    if stream.is_word("leave", "leaving"):
        return _leaving(stream)
    led = _pass_leading(stream)
    word = stream.accept_any("inc", "dec")
    if word is None:
        return None
    count = stream.amount() if stream.is_amount() else None
    if count is not None and stream.token.kind == "stitch":
        stream.take()  # "dec 1 sc at each end"
    stream.accept("st")
    place = stream.start
    places = _at_markers(stream) if "marker" in stream.said else None
    ends = edges(stream) if places is None else None
    edge = _edge_of(stream.text[place : stream.start])
    if ends is None:
        _pass_evenly(stream)
    _pass_manner(stream)
    spans = _spans(stream)
    _pass_manner(stream)
    _pass_between(stream)
    until = _until(stream)
    grows = led and (until is not None or stream.at_end() or stream.is_mark("(", ".", "["))
    if not spans and not grows:
        return None
    if count is None and (ends or not grows):
        return None
    then = _then_even(stream)
    change: Literal["inc", "dec"] = "inc" if word == "inc" else "dec"
    rest = rest_steps(stream)
    return ShapeRows(
        *(change, count, ends or 0, tuple(spans), until, then, rest), edge=edge, places=places
    )


#: how the increases come to lie, which their number in a row tells already
_BETWEEN = (
    r"\s*[,;]?\s*(?:and )?(?:having|with|working|making|there being)\s+(?:\d+|one|an?)\s+"
    r"(?:(?:more|less|fewer)\s+(?:sts?|stitch(?:es)?|sc|h?dc|h?tr)|"
    r"(?:sts?|stitch(?:es)?|sc|h?dc|h?tr)\s+(?:more|less|fewer))\s+"
    r"(?:between|before|after|bet)\s+(?:the\s+|each\s+|all\s+)?"
    r"(?:inc|dec)(?:s|r|rs|reases?|reasings?)?\b"
    r"(?:\s+(?:in|on)?\s*(?:each|every)\s+(?:rnd|round|row|time))?"
)


def _pass_between(stream: Stream) -> None:
    """Pass ", having 1 sc more between increases in each rnd" behind "inc 6 sc in each rnd"."""
    found = ignoring_case(_BETWEEN).match(stream.text, stream.tokens[stream.at - 1].end)
    if found is not None:
        stream.pass_to(found.end())


def _at_markers(stream: Stream) -> Places | None:
    """``on each side of each of the 4 markers``: how many markers, and how often at each.

    Takes: on each side of each of 4 markers
    Takes: before each of the 8 markers
    Refuses: before next marker
    """
    mark = stream.here()
    sides = 1
    if stream.accept_any("on", "at") and stream.accept_any("each", "both", "either"):
        if not (stream.accept_any("side") and stream.accept("of")):
            stream.back_to(mark)
            stream.accept_any("on", "at")
        else:
            sides = 2
    elif not stream.accept_any("before", "after"):
        stream.back_to(mark)
        return None
    stream.accept("each")
    stream.accept("of")
    stream.articles()
    count = stream.amount() if stream.is_amount() else None
    if count is not None and stream.accept("marker"):
        return Places(count, sides)
    stream.back_to(mark)
    return None


def _leaving(stream: Stream) -> ShapeRows | None:
    """Stitches left at the ends of whole rows, the others worked even.

    Takes: leave 4 sts unworked at each end of next row
    Takes: leave 4 sts unworked at each end
    Refuses: leave last 4 sts unworked
    """
    stream.take()
    count = stream.amount() if stream.is_amount() else None
    if count is None:
        return None
    if stream.token.kind == "stitch":
        stream.take()
    stream.accept("st")
    if not stream.accept("unworked"):
        return None
    place = stream.start
    ends = edges(stream)
    edge = _edge_of(stream.text[place : stream.start])
    spans = tuple(_spans(stream)) if ends is not None else ()
    if not spans and ends is not None and (stream.at_end() or stream.is_mark("(", ".", "[")):
        spans = (ShapeSpan(1, ONE),)  # in this row
    if not spans:
        return None
    then = _then_even(stream)
    return ShapeRows("leave", count, ends or 0, spans, None, then, rest_steps(stream), edge=edge)


#: edges that a right-side row begins at, if one looks at a left front; a right one mirrors it
_RIGHT = re.compile(r"\b(?:armhole|side|right|outer)\b", re.IGNORECASE)
_START = re.compile(r"\bbeg", re.IGNORECASE)
_END = re.compile(r"\bend\b", re.IGNORECASE)


def _edge_of(words: str) -> ShapedEdge:
    """Where one end is shaped: ``at beg of``, ``at armhole edge``, ``at neck edge``."""
    if _START.search(words):
        return "start"
    if _END.search(words):
        return "end"
    return "right" if _RIGHT.search(words) else "left"


def _pass_evenly(stream: Stream) -> None:
    """``evenly``, ``evenly spaced around``: over the whole row, as without these words."""
    if stream.accept("evenly"):
        stream.accept("spaced")
        stream.accept_any("across", "around")


def _pass_leading(stream: Stream) -> bool:
    """Pass "continue in patt as set, and": whether anything stands there."""
    mark = stream.at
    if _pass_repeat(stream):
        return True
    if not stream.is_word(*_LEADS):
        return False
    while stream.is_word(*_LEADING) or stream.token.kind == "stitch" or stream.is_mark(","):
        if stream.token.kind == "stitch" and stream.tokens[stream.at - 1].word != "in":
            break
        stream.take()
    return stream.at > mark


#: words with which what leads up to a shaping begins
_LEADS = (
    *("cont", "work", "working", "keep", "shape", "at", "beg", "then", "as"),
    *("keeping", "maintaining", "continuing", "still"),
)


def _pass_repeat(stream: Stream) -> bool:
    """Pass "rep last row," before a shaping: the stitch is that of the row before all the same.

    Takes: rep last row, dec
    Refuses: rep last row 3 times
    """
    mark = stream.here()
    if stream.accept("rep"):
        stream.accept("last")
        named = stream.accept_any("row", "rnd")
        if named and stream.is_amount():
            stream.amount()
        stream.accept_any(",", ";")
        stream.accept_any("and", "but")
        if named and stream.is_word("inc", "dec"):
            return True
    stream.back_to(mark)
    return False


def _pass_manner(stream: Stream) -> None:
    """Pass "in this way", "as established", "in the same manner"."""
    while stream.is_word("in", "as"):
        mark = stream.at
        stream.take()
        stream.accept_any("this", "the", "est", "established", "set", "before")
        stream.accept("same")
        stream.accept_any("way", "manner", "patt")
        if stream.at == mark + 1:
            stream.at = mark
            return


def edges(stream: Stream) -> int | None:
    """``at each end``, ``each side``: 2; ``at neck edge``, ``at beg``: 1; None: nothing said.

    Takes: at each end
    Refuses: evenly
    """
    mark = stream.at
    stream.accept_any("at", "on")
    if stream.accept_any("each", "both"):
        if stream.accept_any("end", "side", "edge", "edges"):
            return 2
    elif stream.accept("beg", "and", "end"):
        return 2
    else:
        stream.articles()
        if stream.accept_any("beg", "end"):
            return 1
        while stream.is_word(
            "neck", "armhole", "front", "side", "left", "right", "center", "inner", "same", "shaped"
        ):
            stream.take()
        if stream.at > mark and stream.accept("edge"):
            return 1
    stream.at = mark
    return None


def _spans(stream: Stream) -> list[ShapeSpan]:
    """``every 4th row 6 times, then every 6th row 3 times``.

    Takes: every 4th row 6 times, then every 6th row 3 times
    """
    found: list[ShapeSpan] = []
    while True:
        mark = stream.at
        if found:
            while stream.accept_any(",", ";", "then", "and"):
                pass
        span = _span(stream)
        if span is None:
            stream.at = mark
            return found
        found.append(span)


def _span(stream: Stream) -> ShapeSpan | None:
    """Every how many rows, and how often.

    Takes: on next and every foll 4th row 5 times
    Refuses: in each st
    """
    mark = stream.here()
    stream.accept_any("of", "on", "in")
    stream.articles()
    if stream.is_word("next") and stream.ahead().kind in ("num", "formula"):
        stream.take()
        count = stream.amount()
        if stream.accept_any("row", "rnd"):
            return ShapeSpan(1, count)
    first = _first_shaped(stream)
    if not first and stream.is_word("next") and stream.ahead().word in ("row", "rnd"):
        stream.take()
        stream.take()
        return ShapeSpan(1, ONE)
    stream.accept_any("on", "of")
    if stream.accept("each"):
        every = _every(stream)
        if every is not None:
            return ShapeSpan(every, _how_often(stream), first)
    elif first and stream.is_amount():
        count = stream.amount()
        every = _every(stream)
        if every is not None:
            return ShapeSpan(every, count, first)
    stream.back_to(mark)
    return None


def _first_shaped(stream: Stream) -> int:
    """``next row and``, ``3rd and``: the first row that is shaped; 0 where none is named."""
    mark = stream.at
    first = 1 if stream.accept_any("next", "this") else 0
    if not first and stream.token.kind == "ord":
        first = stream.take().value
    stream.accept_any("row", "rnd")
    if first and stream.accept_any("and", "then", ","):
        stream.accept_any("then", "and")
        return first
    stream.at = mark
    return 0


def _every(stream: Stream) -> int | None:
    """Behind "every": ``row``, ``other row``, ``foll 4th row``, ``4 rows``.

    Takes: foll 4th row
    Refuses: st
    """
    stream.accept("next")
    every = 1
    if stream.accept_any(*_OTHER):
        every = 2
    elif stream.token.kind in ("ord", "num"):
        every = stream.take().value
    stream.accept_any("rs", "ws")
    return every if every and stream.accept_any("row", "rnd") else None


def _how_often(stream: Stream) -> Amount | None:
    """``6 times``, ``6 times more``, ``6 more times``, ``x6``.

    Takes: 6 more times
    """
    mark = stream.here()
    stream.accept_any(",", "for")
    count = times_count(stream)
    if count is None and stream.is_amount():
        count = stream.amount()
        if not (stream.accept_any("more", "further") and stream.accept_any("times", "row", "rnd")):
            count = None
    if count is None:
        stream.back_to(mark)
        return None
    stream.accept("more")
    return count


def _until(stream: Stream) -> UntilCount | None:
    """``until 12 sts rem``, ``until you have 60 (72, 84) sts``.

    Takes: until 12 sts rem
    Refuses: until done
    """
    mark = stream.here()
    stream.accept(",")
    if stream.accept_any("until", "till", "to"):
        while stream.accept_any("there", "are", "you", "have", "only", "a", "total", "of"):
            pass
        start = stream.start
        found = stated(stream, start)
        if found is not None:
            stream.accept_any("rem", "remain", "left")
            return UntilCount(found)
    stream.back_to(mark)
    return None


def _then_even(stream: Stream) -> RowsUntil | None:
    """``, then work even until piece measures 42 cm``.

    Takes: then work even for 3 rows
    """
    mark = stream.here()
    while stream.accept_any(",", ";", ".", "then", "and"):
        pass
    even = work_even(stream)
    if even is None or even.until is None:
        stream.back_to(mark)
        return None
    return even.until
