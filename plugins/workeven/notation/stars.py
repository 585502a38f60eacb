"""Stars: a repeat within the row, "*A, B; rep from * across", "*A, B* 6 times".

Takes     ``Stream``, and how the steps inside a group are read (``Inner``).
Gives     ``star``, ``starred_again``, ``closes_star``, ``times_again``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Repeats nest".

A second star closes the repeat where how often it is worked stands behind it, and opens another
one where a step does.
"""

from __future__ import annotations

from workeven.notation.by_sides import times_by_sides
from workeven.notation.contents import in_all, times_count, times_follow
from workeven.notation.endings import Inner, ending_of
from workeven.notation.places import limit
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.tree import (
    ONE,
    AnyStitch,
    Decrease,
    Each,
    EndingAtStop,
    Exactly,
    Increase,
    More,
    Next,
    Open,
    Repeat,
    Skip,
    Space,
    Step,
    Stop,
    Work,
)
from workeven.records import replace

#: words behind the star that closes a repeat
_BEHIND_STAR = frozenset(
    "around across along to until till up rep 1x 2x 3x all for each from".split()
)


def star(stream: Stream, inner: Inner) -> Step:
    """``*A, B; rep from * across``, ``*A, B* 6 times``.

    Takes: *sc 3, ch 1; rep from * 5 more times
    Refuses: *sc 3, ch 1
    """
    opening = stream.take()
    body = inner.several(stream, "rep from", f"closing {opening.word}")
    if stream.is_mark(opening.word):
        times = _closed_star_times(stream, opening.word, body)
    elif stream.accept("rep"):
        times = _called_for(stream, opening.word, body)
    else:
        raise NotUnderstood(
            opening.start,
            opening.end,
            "the repeat that begins at “*” is never called for",
            "add “; rep from * across”, or take the “*” away",
        )
    partly = _once_partly(stream, times) if any(isinstance(one, Stop) for one in body) else None
    if partly is not None:
        return Repeat(body, partly, EndingAtStop(), star=True, start=opening.start, end=stream.end)
    ending = ending_of(stream, inner, body)
    found = Repeat(body, times, ending, star=True, start=opening.start, end=stream.end)
    if stream.is_mark(opening.word) and stream.ahead().word in (",", ";", "."):
        stream.take()  # ``*A; rep from * twice more*, B, rep from * to * once``: all of them, again
        return Repeat((found,), Exactly(ONE), star=True, start=opening.start, end=stream.end)
    return found


def _once_partly(stream: Stream, times: Exactly | More | Open) -> Exactly | More | Open | None:
    """``; rep from * twice more, then from * to ** once``: one repeat more, which ends at ``**``.

    An open repeat is worked as often as it fits, the last of them so far.

    Takes: , then rep from * to ** once
    Refuses: , then turn
    """
    mark = stream.at
    while stream.accept_any(",", ";", ".", "then", "and"):
        pass
    stream.accept("rep")
    stream.accept("from")
    if not (stream.accept("*") and stream.accept_any("to", "-") and stream.accept("**")):
        stream.at = mark
        return None
    stream.accept_any("once", "1x") or stream.accept("one", "time")
    stream.accept("more")
    if isinstance(times, Open):
        return times
    count = times.count
    if count.formula is not None:
        raise stream.fault(mend="write out what is worked the last time")
    values = tuple(None if one is None else one + 1 for one in count.values)
    return replace(times, count=replace(count, values=values))


def _closed_star_times(stream: Stream, star_: str, body: tuple[Step, ...]) -> Exactly | More | Open:
    """Behind a group between two stars: how often (``* 6 times``, ``*; rep from * to *``)."""
    stream.take()
    count = times_count(stream)
    if count is not None:
        return Exactly(count)
    mark = stream.at
    stream.accept_any(",", ";", ".")
    if stream.accept("rep"):
        return _called_for(stream, star_, body)
    stream.at = mark
    return times_again(stream)


def _called_for(stream: Stream, star_: str, body: tuple[Step, ...]) -> Exactly | More | Open:
    """Behind "rep": from which star, where it is said, and how often."""
    if (sides := times_by_sides(stream)) is not None:
        return sides
    if stream.accept("from"):
        stream.accept("first")
        if not stream.accept_any(star_, "**", "beg"):
            raise stream.fault(mend="write “rep from * across” or “rep from * 5 more times”")
    _pass_stars(stream)
    return times_by_sides(stream) or _in_each(stream, body) or times_again(stream)


def starred_again(stream: Stream, found: list[Step]) -> list[Step] | None:
    """``*A*, B, rep from * to * once``: what stands between the stars again, behind other steps.

    Between the stars it was worked once, where nothing else was said there. So it is with brackets
    (``[A], B, rep between [ ] twice``).

    Takes: rep from * to * once
    Takes: rep between [ ] twice
    Refuses: rep from * across
    """
    mark = stream.here()
    stream.accept("rep")
    at = _last_between(stream, found)
    count = times_count(stream) if at is not None else None
    if at is None or count is None:
        stream.back_to(mark)
        return None
    stream.accept("more")
    again = found[at]
    assert isinstance(again, Repeat)
    start = stream.tokens[mark.at].start
    more = replace(again, times=Exactly(count), ending=None, start=start, end=stream.end)
    if again.star and again.times == Open():
        found = [*found[:at], replace(again, times=Exactly(ONE)), *found[at + 1 :]]
    return [*found, more]


def _last_between(stream: Stream, found: list[Step]) -> int | None:
    """Pass "from * to *", "between [ ]": the index of the last steps between such marks, or None.

    Takes: from * to *
    Takes: between [ ]
    Refuses: from *
    """
    stream.accept_any("from", "between", "bet", "btw")
    stars = False
    if not (stream.accept("[", "]") or stream.accept("(", ")")):
        first = stream.accept("*") and stream.accept_any("to", "-", "and")
        stars = bool(first and stream.accept("*"))
        if not stars:
            return None
    for at in range(len(found) - 1, -1, -1):
        step = found[at]
        if isinstance(step, Repeat) and step.star is stars:
            return at
    return None


def _in_each(stream: Stream, body: tuple[Step, ...]) -> Open | None:
    """``*dc in next st, ch 1; rep from * in each st around``: of steps that take one such place.

    Takes: in each st around
    Refuses: in same st
    """
    if not stream.is_word("in", "into") or stream.ahead().word not in ("each", "every"):
        return None
    mark = stream.here()
    stream.take()
    found = target(stream)
    places = [step for step in body if isinstance(step, Work | Skip | Repeat | Increase | Decrease)]
    only = places[0] if len(places) == 1 else None
    into = only.target if isinstance(only, Work) else None
    one = isinstance(into, Next) and into.count.values == (1,)
    if one and isinstance(into, Next) and isinstance(found, Each):
        stream.accept_any("around", "across")
        ended = stream.token.kind in ("mark", "end") or stream.is_word("ending", "end", "omitting")
        any_stitch = ended and (AnyStitch(),) in (into.names, found.names)
        spaces = any(isinstance(names[0], Space) for names in (into.names, found.names))
        if (ended and into.names == found.names) or (any_stitch and not spaces):
            return Open(found.limit)
    stream.back_to(mark)
    return None


#: words that stand between two stars, or name them ("rep between *'s", "rep *-*")
_STARS = ("*", "**", "†", "from", "between", "bet", "btw", "and", "'", "s", "stars", "asterisks")


def _pass_stars(stream: Stream) -> None:
    """Pass which stars are meant: "between *s", "*-*", "* to *".

    Takes: between *s
    """
    while stream.token.word in (*_STARS, "’", "-", "to"):
        if stream.is_mark("-") or stream.is_word("to"):
            if stream.ahead().word not in ("*", "**", "†"):
                return
        elif stream.is_word("and") and stream.ahead().word not in ("*", "**", "†"):
            return
        stream.take()


def times_again(stream: Stream) -> Exactly | More | Open:
    """Behind "rep from *": how often.

    Takes: across to last 2 sts
    Refuses: and so on
    """
    if stream.is_mark(","):  # "rep from *, 5 times"
        stream.take()
        stream.at -= 0 if times_follow(stream) else 1
    count = times_count(stream)
    if count is not None:
        if in_all(stream):
            return Exactly(count)
        return More(count, more=bool(stream.accept("more")))
    if stream.is_amount():
        amount = stream.amount()
        if not stream.accept_any("more", "further", "additional"):
            raise stream.fault(mend="write “5 more times” or “5 times”")
        if not stream.accept("times"):
            raise stream.fault(mend="write “5 more times”")
        return More(amount)
    word = stream.accept_any("across", "around", "along")
    if word is not None and stream.is_word("row", "rnd") and stream.ahead().kind != "num":
        stream.take()  # "across row"
    bound = limit(stream)
    said = word is not None or bound is not None or _ended_by_limit(stream)
    if not said and not _nothing_more(stream):
        raise stream.fault(
            mend="say how often: “across”, “around”, “5 more times”, “to last 3 sts”"
        )
    stream.accept_any("across", "around")
    return Open(bound)


def _nothing_more(stream: Stream) -> bool:
    """Whether "rep from *" stands alone: to the end of the row, or up to what is said behind it."""
    return stream.token.kind in ("mark", "end") or stream.is_word("ending", "end", "omitting")


def _ended_by_limit(stream: Stream) -> bool:
    """Whether the words just passed were a limit to the end ("to end of row")."""
    last = [token.word for token in stream.tokens[max(stream.at - 3, 0) : stream.at]]
    ended = not _TO_THE_END.isdisjoint(last[-1:])
    return ended or last == ["end", "of", "ch"]


_TO_THE_END = frozenset(("end", "row", "rnd", "join", "way", "around"))


def opens_star(stream: Stream) -> bool:
    """Whether a double star opens a repeat of its own ("**ch 1, dc in next sp; rep from ** …").

    Else it is where a last repeat stops ("ending last rep at **").
    """
    tokens, first = stream.tokens, stream.at + 1
    for at in range(first, len(tokens)):
        if tokens[at].word == "**":
            return [one.word for one in tokens[max(at - 2, first) : at]] == ["rep", "from"]
    return False


def closes_star(stream: Stream, mark: str) -> bool:
    """Whether the star at the position closes a repeat: behind it stands how often, no step."""
    if not stream.is_mark(mark):
        return False
    after = stream.ahead()
    if after.kind in ("end", "rate"):
        return True
    if after.kind == "mark":
        return after.word in (",", ";", ".")
    if after.kind == "word" and after.word in _BEHIND_STAR:
        return True
    at = stream.at
    stream.at += 1
    found = times_follow(stream)
    stream.at = at
    return found
