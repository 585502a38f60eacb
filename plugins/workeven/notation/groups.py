"""Brackets and stars: repeats, groups worked into one place, remarks in brackets.

Takes     ``Stream``, and how the steps inside a group are read (``Inner``).
Gives     ``marked``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Repeats nest" and "How repeats end".
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from workeven.notation.contents import content, passes_separator, times_count
from workeven.notation.places import limit
from workeven.notation.remarks import is_remark, stated_in_brackets
from workeven.notation.stitches import where_of
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tokens import Token
from workeven.notation.tree import (
    Amount,
    EachChainCounts,
    Ending,
    EndingAtStop,
    EndingWith,
    Exactly,
    LeaveRest,
    More,
    Omitting,
    Open,
    Repeat,
    StatedHere,
    Step,
    Stop,
    Times,
    Work,
)


class Inner(NamedTuple):
    """Reads the steps inside a group: several, up to a closing word, or a single one."""

    several: Callable[..., tuple[Step, ...]]
    one: Callable[[Stream], tuple[Step, ...]]


def marked(stream: Stream, inner: Inner) -> tuple[Step, ...]:
    """A phrase that begins with a mark.

    Takes: [sc 7, sc2tog] 6 times
    Refuses: , sc
    """
    token = stream.token
    match token.word:
        case "*" | "†":
            return (_star(stream, inner),)
        case "**":
            stream.take()
            return (Stop(token.start, token.end),)
        case "(" | "[":
            return _bracket(stream, inner)
        case _:
            raise NotUnderstood(
                token.start,
                token.end,
                f"“{token.word}” stands here without its other half",
                "open every bracket before it is closed",
            )


def _star(stream: Stream, inner: Inner) -> Step:
    """``*A, B; rep from * across``.

    Takes: *sc 3, ch 1; rep from * 5 more times
    Refuses: *sc 3, ch 1
    """
    star = stream.take()
    body = inner.several(stream, "rep from")
    if not stream.accept("rep", "from"):
        raise NotUnderstood(
            star.start,
            star.end,
            "the repeat that begins at “*” is never called for",
            "add “; rep from * across”, or take the “*” away",
        )
    stream.accept("first")
    if not stream.accept_any(star.word, "**", "beg"):
        raise stream.fault(mend="write “rep from * across” or “rep from * 5 more times”")
    if stream.accept("to") and not stream.accept_any("*", "**"):
        stream.at -= 1
    times = _star_times(stream)
    ending = _ending(stream, inner)
    return Repeat(body, times, ending, star=True, start=star.start, end=stream.end)


def _star_times(stream: Stream) -> Exactly | More | Open:
    """Behind "rep from *": how often.

    Takes: across to last 2 sts
    Refuses: and so on
    """
    count = times_count(stream)
    if count is not None:
        return More(count, more=bool(stream.accept("more")))
    if stream.is_amount():
        amount = stream.amount()
        stream.expect("more", mend="write “5 more times” or “5 times”")
        if not stream.accept("times"):
            raise stream.fault(mend="write “5 more times”")
        return More(amount)
    word = stream.accept_any("across", "around", "along")
    bound = limit(stream)
    if word is None and bound is None and not _ended_by_limit(stream):
        raise stream.fault(
            mend="say how often: “across”, “around”, “5 more times”, “to last 3 sts”"
        )
    stream.accept_any("across", "around")
    return Open(bound)


def _ended_by_limit(stream: Stream) -> bool:
    """Whether the words just passed were a limit to the end ("to end of row")."""
    return stream.tokens[stream.at - 1].word in ("end", "row", "rnd", "join")


def _ending(stream: Stream, inner: Inner) -> Ending | None:
    """How the last repeat ends.

    Takes: ending last rep with sc in last st
    Refuses: join
    """
    mark = stream.at
    stream.accept_any(",", ";")
    if stream.accept_any("omitting", "omit"):
        return _omitting(stream, inner)
    if not stream.accept_any("ending", "end"):
        stream.at = mark
        return None
    last = _last_repeat(stream)
    if stream.accept("at", "**"):
        return EndingAtStop()
    stream.accept_any("with", "by", "in")
    last = last or _last_repeat(stream)
    found = _first_steps(stream, inner)
    if not found:
        raise stream.fault(mend="say what the row ends with")
    return EndingWith(found, last=last)


def _last_repeat(stream: Stream) -> bool:
    stream.accept_any("on")
    if stream.words_ahead("last", "rep"):
        stream.at += 2
        return True
    return False


def _first_steps(stream: Stream, inner: Inner) -> tuple[Step, ...]:
    """The steps up to the next separator: what is written after is worked afterwards anyway.

    Takes: sc in next st
    Refuses: frobnicate
    """
    found: list[Step] = []
    while not stream.at_end() and not found:
        if not passes_separator(stream):
            found.extend(inner.one(stream))
    return tuple(found)


def _omitting(stream: Stream, inner: Inner) -> Omitting:
    """Behind "omitting": what the last repeat leaves out.

    Takes: ch 1 on last rep
    Refuses: ch 1
    """
    stream.articles()
    stream.accept_any("last")
    stop = _last_rep_at(stream)
    if stop is None:
        raise stream.fault(mend="write “omitting … on last rep”")
    whole = stream.tokens
    cut = whole[stop]
    stream.tokens = (*whole[:stop], Token("end", "", 0, cut.start, cut.start))
    found: list[Step] = []
    try:
        while not stream.at_end():
            if not passes_separator(stream):
                found.extend(inner.one(stream))
    finally:
        stream.tokens = whole
    while not stream.accept("rep"):
        stream.take()
    return Omitting(tuple(found))


def _last_rep_at(stream: Stream) -> int | None:
    """The index of the word that begins "on last rep"."""
    for index in range(stream.at, len(stream.tokens) - 1):
        if (
            stream.tokens[index].word in ("last", "final")
            and stream.tokens[index + 1].word == "rep"
        ):
            before = index
            while stream.tokens[before - 1].word in ("on", "of", "in", "at", "the"):
                before -= 1
            return before
    return None


def _bracket(stream: Stream, inner: Inner) -> tuple[Step, ...]:
    """What stands in brackets: a count, a remark, a group in one place, a repeat.

    Takes: (dc, ch 1, dc) in next st
    Refuses: (dc, ch 1, dc
    """
    opening = stream.token
    closing = stream.closing()
    if closing < 0:
        raise NotUnderstood(
            opening.start,
            opening.end,
            f"the bracket “{opening.word}” is never closed",
            f"add the closing “{')' if opening.word == '(' else ']'}”",
        )
    after = stream.tokens[closing + 1]
    closes = after.kind == "end" or after.word == "."
    if (opening.word == "(" or closes) and (
        said := stated_in_brackets(stream, closing)
    ) is not None:
        again = after.kind == "word" and after.word in ("to", "around", "across")
        if _is_place_group(after.word) or again or _is_times(stream, closing):
            pass
        else:
            stream.at = closing + 1
            return (StatedHere(said, opening.start, stream.end),)
    if opening.word == "(" and (left := _left_unworked(stream, closing)):
        return (left,)
    if opening.word == "(" and (said_chains := _each_chain(stream, closing)):
        return (said_chains,)
    if (
        opening.word == "("
        and is_remark(stream, closing)
        and not _is_times(stream, closing)
        and after.word not in ("around", "across", "in", "to", "along")
    ):
        stream.at = closing + 1
        return ()
    if (
        after.kind == "word"
        and _is_place_group(after.word)
        and not _is_around_alone(stream, closing)
    ):
        return (_group_in_place(stream, closing, None),)
    return (_bracket_repeat(stream, closing, inner),)


_LEFT = re.compile(r"\([^()]*\b(?:left |leaving |remain )?unworked[^()]*\)", re.IGNORECASE)


def _left_unworked(stream: Stream, closing: int) -> Step | None:
    """``(4 sts left unworked)``.

    Takes: (4 sts left unworked)
    Refuses: (4 sts)
    """
    opening = stream.token
    end = stream.tokens[closing].end
    if _LEFT.fullmatch(stream.text[opening.start : end]) is None:
        return None
    stream.at = closing + 1
    return LeaveRest(None, opening.start, end)


_EACH_CHAIN = re.compile(
    r"\(\s*each (?:ch|chain)s?\b[^()]*\bcounts? as (?:a |one |1 )?(?:st|stitch)\s*\)", re.IGNORECASE
)


def _each_chain(stream: Stream, closing: int) -> Step | None:
    """``(each ch counts as a st)``.

    Takes: (each ch counts as a st)
    Refuses: (counts as dc)
    """
    opening = stream.token
    end = stream.tokens[closing].end
    if _EACH_CHAIN.fullmatch(stream.text[opening.start : end]) is None:
        return None
    stream.at = closing + 1
    return EachChainCounts(opening.start, end)


def _is_place_group(word: str) -> bool:
    return word in ("in", "over", "on", "around", "between", "all")


def _is_around_alone(stream: Stream, closing: int) -> bool:
    after, second = (
        stream.tokens[closing + 1],
        stream.tokens[min(closing + 2, len(stream.tokens) - 1)],
    )
    if after.word != "around":
        return False
    return second.kind in ("end", "mark") or second.word not in (
        "next",
        "post",
        "each",
        "same",
        "the",
        "first",
    )


def _is_times(stream: Stream, closing: int) -> bool:
    mark, count = stream.at, len(stream.amounts)
    stream.at = closing + 1
    found = times_count(stream) is not None
    stream.at = mark
    del stream.amounts[count:]
    return found


def _group_in_place(stream: Stream, closing: int, count: Amount | None) -> Step:
    """``(dc, ch 1, dc) in next sp``: all of it in one place."""
    opening = stream.take()
    inside = content(stream, closing)
    stream.at = closing + 1
    if count is not None:
        times_count(stream)
        inside = (Times(inside, count),)
    stream.accept("all")
    where = where_of(stream)
    if where is None:
        raise stream.fault(mend="say which place the group goes into: “(dc, ch 1, dc) in next st”")
    return Work(inside, where, start=opening.start, end=stream.end)


def _bracket_repeat(stream: Stream, closing: int, inner: Inner) -> Step:
    """Steps in brackets, worked several times.

    Takes: [sc 2, inc] around
    Refuses: [sc 2, inc]
    """
    opening = stream.take()
    mark, amounts = stream.at, len(stream.amounts)
    body = inner.several(stream, ")", "]")
    if stream.at != closing:
        raise stream.fault(mend="close each bracket with the kind that opened it")
    stream.take()
    times = _bracket_times(stream)
    if isinstance(times, Exactly) and stream.is_word("in", "all") and not _each_times(stream):
        end = stream.at
        stream.at = mark
        del stream.amounts[amounts:]
        inside = content(stream, closing)
        stream.at = end
        stream.amounts.append(times.count)
        stream.accept("all")
        where = where_of(stream)
        if where is not None:
            return Work((Times(inside, times.count),), where, start=opening.start, end=stream.end)
    ending = _ending(stream, inner)
    return Repeat(body, times, ending, start=opening.start, end=stream.end)


def _each_times(stream: Stream) -> bool:
    return stream.is_word("in") and stream.ahead().word == "all"


def _bracket_times(stream: Stream) -> Exactly | More | Open:
    """Behind a bracket: how often.

    Takes: 6 times
    Refuses: and so on
    """
    stream.accept("rep")
    count = times_count(stream)
    if count is not None:
        return Exactly(count)
    if stream.is_amount():
        amount = stream.amount()
        if stream.accept("more"):
            stream.expect("times", mend="write “[…] 6 times”")
            return More(amount)
        raise stream.fault(mend="write “[…] 6 times”, “[…] around” or “(…) in next st”")
    word = stream.accept_any("across", "around")
    mark = stream.at
    bound = limit(stream)
    if word is None and stream.at == mark:
        raise stream.fault(mend="say how often: “[…] 6 times”, “[…] around” or “(…) in next st”")
    return Open(bound)
