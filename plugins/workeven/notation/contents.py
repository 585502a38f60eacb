"""What is worked into one place, and how many times: "dc, ch 1, dc", "6 times".

Takes     ``Stream``.
Gives     ``content``, ``times_count``, ``passes_separator``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps.
"""

from __future__ import annotations

from workeven.notation.picots import closed_chain, picot
from workeven.notation.remarks import counts_as
from workeven.notation.stream import Stream
from workeven.notation.tree import ONE, Amount, Chain, Content, Stitch, Times
from workeven.notation.vocabulary import kind_of

_SEPARATORS = (",", ";", ".", "&", "+", "then", "and", "also", "but")


def passes_separator(stream: Stream) -> bool:
    """Pass what parts two steps."""
    word = stream.token.word
    if word in ("ending", "end"):  # behind no repeat: what is worked last
        return stream.accept("ending", "with") or stream.accept("end", "with")
    if word == "|":  # a bar between cells; one before a number closes the row with its count
        return stream.ahead().kind not in ("num", "formula") and stream.accept("|")
    return word in _SEPARATORS and stream.accept(word)


def times_count(stream: Stream) -> Amount | None:
    """``6 times``, ``twice``, ``x6``, or None.

    Takes: 6 times
    Refuses: 6 sts
    """
    token = stream.token
    if token.kind == "rate":
        stream.take()
        return _rate(stream, token.value, token.start, token.end)
    if token.kind == "word" and token.word in ("1x", "2x", "3x"):
        stream.take()
        return _rate(stream, int(token.word[0]), token.start, token.end)
    if token.word == "*" and _closely_times(stream):
        number = stream.ahead()
        stream.at += 2
        return _rate(stream, number.value, token.start, number.end)
    if not stream.is_amount():
        return None
    mark = stream.here()
    amount = stream.amount()
    if stream.accept("times"):
        return amount
    stream.back_to(mark)
    return None


def in_all(stream: Stream) -> bool:
    """Pass "in all", "altogether" behind a number of times: none is worked besides."""
    return stream.accept("in", "all") or stream.accept("in", "total") or stream.accept("altogether")


def _closely_times(stream: Stream) -> bool:
    """``)*6``, ``inc*6``: the star between two things that it touches multiplies."""
    star, number = stream.token, stream.ahead()
    before = stream.tokens[stream.at - 1] if stream.at else star
    beside = before.end == star.start and number.start == star.end
    timed = before.word in (")", "]", "inc", "dec") or before.kind == "stitch"
    return beside and timed and number.kind == "num"


def _rate(stream: Stream, value: int, start: int, end: int) -> Amount:
    amount = Amount((value,), None, start, end)
    stream.amounts.append(amount)
    return amount


def times_follow(stream: Stream) -> bool:
    """Whether a number of times comes next."""
    mark = stream.here()
    found = times_count(stream) is not None
    stream.back_to(mark)
    return found


def content(stream: Stream, closing: int) -> tuple[Content, ...]:
    """What is worked into one place, up to a closing token index.

    Takes: dc, ch 1, dc
    Refuses: turn
    """
    found: list[Content] = []
    while stream.at < closing:
        if passes_separator(stream):
            continue
        picots = picot(stream)
        found.extend((_content_item(stream),) if picots is None else picots)
        last = found[-1]
        if isinstance(last, Chain) and last.counts_as is None:
            closed = closed_chain(stream, last.count, last.start)
            found[-1:] = (last,) if closed is None else closed
    if not found:
        raise stream.fault(mend="write what is worked, or leave the brackets out")
    return tuple(found)


def _content_item(stream: Stream) -> Content:
    """One stitch, chain or repeat within a group.

    Takes: [ch 1, dc] 3 times
    Refuses: turn
    """
    start = stream.start
    if stream.is_mark("(", "["):
        inner = stream.closing()
        if inner < 0:
            raise stream.fault(mend="close every bracket")
        stream.take()
        inside = content(stream, inner)
        stream.at = inner + 1
        count = times_count(stream)
        if count is None:
            raise stream.fault(mend="say how often: “[ch 1, dc] 3 times”")
        return Times(inside, count)
    count = stream.amount() if stream.is_amount() else ONE
    beginning = stream.is_word("beg") and stream.ahead().kind == "stitch" and stream.take()
    if stream.is_word("standing") and stream.ahead().kind == "stitch":
        stream.take()  # "(standing dc, 2 dc, ch 2, 3 dc) in any corner sp"
    if stream.token.kind == "stitch":
        name = stream.take().word
        name = f"beg {name}" if beginning else name
        if count is ONE and stream.is_amount():
            count = stream.amount()
        return Stitch(name, count, kind_of(name).legs, start, stream.end)
    if stream.accept("ch"):
        if count is ONE and stream.is_amount():
            count = stream.amount()
        said = counts_as(stream)
        return Chain(count, said, start, stream.end)
    if count is ONE and stream.token.kind == "chn" and stream.ahead().word not in ("sp", "lp"):
        # "(dc, ch-1, dc)": nothing but a chain can be meant here
        length = Amount((stream.token.value,), None, start, stream.take().end)
        return Chain(length, counts_as(stream), start, stream.end)
    raise stream.fault(mend="inside a group stand stitches and chains, such as (2 dc, ch 1, 2 dc)")
