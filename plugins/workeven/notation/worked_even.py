"""Rows worked even: "work even for 12 rows", "Even.", "work in sc until piece measures 30 cm".

Takes     ``Stream``.
Gives     ``work_even``, ``even_in_colour``, ``in_stitch``, ``even_until``, ``even_words``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Whole-row words".
"""

from __future__ import annotations

from collections.abc import Callable

from workeven.notation.asides import aside
from workeven.notation.ends import pass_purpose
from workeven.notation.expressions import ignoring_case
from workeven.notation.growth import growth
from workeven.notation.lengths import ended, until_ended, until_of
from workeven.notation.places import limit
from workeven.notation.stream import Here, Stream
from workeven.notation.tree import (
    AnyStitch,
    Each,
    RepeatRows,
    RowRef,
    RowsCount,
    RowsUntil,
    Stated,
    Stitch,
    Work,
    WorkedRow,
    WorkEven,
)
from workeven.notation.vocabulary import HEIGHTS
from workeven.notation.whole_rows import pass_over_these, rest_steps, row_ending


def work_even(stream: Stream) -> WorkEven | RepeatRows | WorkedRow | None:
    """``work even for 12 rows``, ``work 10 rows straight``, ``work even in patt until …``.

    Takes: work even in patt for 12 rows
    Refuses: work 12 rows
    """
    mark = stream.here()
    if _even_alone(stream):
        return WorkEven(until_ended(stream), rest_steps(stream))  # "5th round—Plain.", "Even."
    stream.back_to(mark)
    if stream.is_amount() and (alone := _even_rows(stream)) is not None:
        return WorkEven(ended(stream, alone), rest_steps(stream))  # "Row 4: 1 row even."
    stream.back_to(mark)
    if stream.words_ahead("work", "even", "in") and (told := in_stitch(stream)) is not None:
        return told
    if stream.accept_any("work", "cont", "working"):
        said = stream.at
        many = _even_rows(stream)
        if many is not None:  # "work 10 rows straight", "work 6 rows in patt"
            patt = any(token.word == "patt" for token in stream.tokens[said : stream.at])
            return WorkEven(ended(stream, many), rest_steps(stream), patt)
        begun = stream.at
        if even_words(stream) and not _over_a_part(stream):
            patt = any(token.word == "patt" for token in stream.tokens[begun : stream.at])
            _even_over_these(stream)
            change = growth(stream)
            until = until_ended(stream) if change is None else until_of(stream)
            if change is not None:  # "cont as set, with 1 more sc between incs each rnd"
                return RepeatRows((RowRef(),), until, steps=rest_steps(stream), change=change)
            ending = row_ending(stream) if patt else None
            return WorkEven(until, rest_steps(stream), patt, ending)
    stream.back_to(mark)
    return None


def _even_alone(stream: Stream) -> bool:
    """Pass "plain", "even", "without shaping" where a row says nothing more of what is worked.

    Takes: without shaping
    Refuses: even in sc
    """
    if not (_unshaped(stream) or stream.accept_any("plain", "even", "straight")):
        return False
    return stream.at_end() or stream.token.kind == "mark"


def even_in_colour(stream: Stream) -> WorkEven | RepeatRows | WorkedRow | None:
    """``with B, work even in sc``: the colour in front changes nothing.

    Takes: with B, work even for 6 rows
    Refuses: work even for 6 rows
    """
    mark = stream.here()
    while aside(stream):
        while stream.accept_any(",", ";", ".", "and", "then"):
            pass
    if stream.at > mark.at and stream.tokens[stream.at - 1].word in ("work", "cont", "working"):
        stream.at -= 1  # "with White work 1 row even"
    found = None
    if stream.at > mark.at and stream.is_word("work", "cont", "working"):
        found = work_even(stream) or in_stitch(stream)
    if found is None:
        stream.back_to(mark)
    return found


def _over_a_part(stream: Stream) -> bool:
    """Whether "in patt" is said of a part of the row only: "across next 8 sts", "to last 2 sts"."""
    after = stream.ahead().word
    if stream.is_word("to", "until"):
        return after in ("last", "within", "next", "marker", "first")
    return stream.is_word("across", "over") and after in ("next", "first", "last", "rem")


def even_until(stream: Stream) -> RowsUntil | None:
    """How long it is worked even; None where that is not said.

    Takes: work even in patt for 12 rows
    Refuses: work even in patt
    """
    mark = stream.here()
    if stream.accept_any("work", "cont", "working"):
        many = _even_rows(stream)
        until = many or (until_of(stream) if even_words(stream) else None)
        if until is not None:
            return until
    stream.back_to(mark)
    return None


def in_stitch(stream: Stream) -> WorkedRow | None:
    """``continue in sc for 6 rows``: each stitch, in a stitch of its own.

    Takes: work in sc for 6 rows
    Refuses: work in next st
    """
    mark, start = stream.here(), stream.start
    verb = stream.accept_any("work", "cont", "working")
    even = stream.accept_any("even", "straight")
    if verb or even:
        stream.accept("to", "work")
        many = _rows_of(stream) if verb else None
        counted = None if many or not verb else _stitch_rows(stream)
        if counted is not None:
            return _each_in(stream, mark, start, *counted)
        if (many or _in_rows_of(stream)) and stream.token.kind == "stitch":
            stitch = Stitch(stream.take().word, start=start, end=stream.end)
            stream.accept_any("row", "rnd")
            return _each_in(stream, mark, start, many, stitch)
    elif "even" in stream.said and stream.token.kind == "stitch" and stream.ahead().word == "even":
        stitch = Stitch(stream.take().word, start=start, end=stream.end)
        return _each_in(stream, mark, start, None, stitch)
    stream.back_to(mark)
    return None


def _each_in(
    stream: Stream, mark: Here, start: int, many: RowsCount | None, stitch: Stitch
) -> WorkedRow | None:
    """Behind "sc": ``for 6 rows``, ``even``, ``through back loop only``: one in each stitch.

    Takes: for 6 rows
    Refuses: in next st
    """
    even = bool(stream.accept("even"))
    pass_purpose(stream)
    limit(stream)
    even = _unshaped(stream) or even
    until = many or until_ended(stream)
    ends = even or until is not None
    if stream.at_end() or stream.is_mark("(", "[", ".", "=", "-", ":", "," * ends):
        work = Work((stitch,), Each((AnyStitch(),)), start=start, end=stream.end)
        return WorkedRow((work, *rest_steps(stream)), until)
    stream.back_to(mark)
    return None


#: words for what rows worked even do not do
_SHAPES = ("inc", "dec", "shaping", "widening", "narrowing", "increase", "decrease")


def _unshaped(stream: Stream) -> bool:
    """Pass "without shaping", "without increasing or decreasing": the rows are worked even.

    Takes: without any further increasing
    Refuses: without turning
    """
    mark = stream.at
    stream.accept_any(",")
    if stream.accept("without"):
        stream.accept_any("any", "more")
        stream.accept_any("further", "more")
        if stream.accept_any(*_SHAPES):
            if stream.is_word("or", "and") and stream.ahead().word in _SHAPES:
                stream.take()
                stream.take()
            return True
    stream.at = mark
    return False


def _rows(stream: Stream, ends: Callable[[Stream], bool]) -> RowsCount | None:
    """A number of rows, where behind them stands what tells that they are worked alike."""
    mark = stream.here()
    stream.accept("another")
    if stream.is_amount():
        count = stream.amount()
        stream.accept_any("more", "further")
        plain = stream.is_word("plain", "even", "straight") and stream.ahead().word in (
            "row",
            "rnd",
        )
        if plain:  # "work 2 plain rounds"
            stream.take()
        if stream.accept_any("row", "rnd") and (ends(stream) or plain):
            return RowsCount(count)
    stream.back_to(mark)
    return None


def _even_rows(stream: Stream) -> RowsCount | None:
    """``3 rnds even``, ``10 more rows straight``, ``2 rows in patt``.

    Takes: 3 rnds even
    Refuses: 3 rnds
    """
    return _rows(stream, even_words)


def _rows_of(stream: Stream) -> RowsCount | None:
    """``3 rows in``, ``3 more rows in``: how many rows are worked in a stitch.

    Takes: 3 rows in
    Refuses: 3 sts
    """
    return _rows(stream, lambda behind: behind.accept("in"))


def _in_rows_of(stream: Stream) -> bool:
    """Pass "in", "in rows of": the stitch comes next."""
    if not stream.accept("in"):
        return False
    return stream.accept("row", "of") or stream.accept("rnd", "of") or True


def _stitch_rows(stream: Stream) -> tuple[RowsCount, Stitch] | None:
    """``2 more sc rows``: how many rows, and in which stitch.

    Takes: 2 more sc rows
    Refuses: 2 sc in next st
    """
    mark, start = stream.here(), stream.start
    stream.accept("another")
    if stream.is_amount():
        count = stream.amount()
        stream.accept_any("more", "further")
        if stream.token.word in HEIGHTS and stream.ahead().word in ("row", "rnd"):
            stitch = Stitch(stream.take().word, start=start, end=stream.end)
            stream.take()
            return RowsCount(count), stitch
    stream.back_to(mark)
    return None


def even_words(stream: Stream) -> bool:
    """Pass "even in patt as set": whether that is said."""
    found = False
    while stream.is_word(*_EVEN):
        if stream.is_word("without"):
            if not _unshaped(stream):
                break
            found = True
            continue
        if stream.is_word("in") and stream.ahead().word not in ("patt", "est"):
            break
        found = stream.take().word in ("even", "patt", "set", "straight", "plain") or found
    if found and stream.accept("in"):  # "even in sc": in the stitch that is there
        stream.articles()
        if stream.token.kind == "stitch":
            stream.take()
            stream.accept_any("row", "rnd")
            _unshaped(stream)
        else:
            stream.at -= 1
    return found


_EVEN = ("even", "patt", "as", "set", "est", "established", "straight", "plain", "without", "in")


#: over how many stitches rows go on even, which is what they leave
_OVER_SO_MANY = (
    r"\s*(?:over|on|across) (?:only |just )?(?:these|those|the|the same|remaining|the remaining) "
    r"(?=\d+(?: ?\([\d, –-]+\))* (?:sts?|stitches)\b)"
)


def _even_over_these(stream: Stream) -> None:
    """``work even on these 30 sts``: kept as what the rows leave.

    Takes: on these 30 sts
    """
    if stream.said.isdisjoint(("over", "on", "across")):
        return
    found = ignoring_case(_OVER_SO_MANY).match(stream.text, stream.end)
    if found is None:
        pass_over_these(stream)
        return
    stream.pass_to(found.end())
    start, number = stream.start, stream.amount()
    stream.take()
    stream.told_count = Stated(((number, "sts"),), start, stream.end)
