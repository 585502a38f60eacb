"""The steps of a row: stitches, skips, chains, joins, and the repeats around them.

Takes     ``Stream``.
Gives     ``steps``, ``content``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps.

Each function reads one kind of phrase. It is called when its first word stands there, or gives
None and leaves the position where it was.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Literal

from workeven.notation.places import limit, names, target
from workeven.notation.remarks import (
    aside,
    counts_as,
    is_remark,
    stated,
    stated_in_brackets,
)
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tokens import Token
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Aside,
    Chain,
    ChainOfTurning,
    Content,
    Corners,
    Decrease,
    Each,
    EachChainCounts,
    Ending,
    EndingAtStop,
    EndingWith,
    Evenly,
    Exactly,
    FastenOff,
    First,
    Foundation,
    FromHook,
    Increase,
    Inside,
    IntoRing,
    JoinRound,
    JoinYarn,
    Last,
    LeaveRest,
    Limit,
    MagicRing,
    More,
    Next,
    Omitting,
    Open,
    OtherSide,
    Picot,
    Repeat,
    RowSides,
    Same,
    Skip,
    Space,
    StatedHere,
    Step,
    Stitch,
    Stop,
    Target,
    Times,
    Travel,
    Turn,
    TurningChain,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import kind_of

#: reads one kind of phrase, or gives None and leaves the position where it was
Reader = Callable[[Stream], tuple[Step, ...] | None]

#: words after a stitch that begin its place.
_INTO = ("in", "around", "over", "on", "between", "thru")
_SEPARATORS = (",", ";", ".", "&", "+", "then", "and", "also")
#: how deep repeats may nest: deeper is no row that anyone works.
DEEPEST = 12


def steps(stream: Stream, *closing: str, depth: int = 0) -> tuple[Step, ...]:
    """Steps up to a closing mark or word (not passed), or to the end of the row.

    Takes: sc in next st, ch 1, turn
    Refuses: sc in next st frobnicate
    """
    if depth > DEEPEST:
        raise stream.fault(mend=f"nest repeats at most {DEEPEST} deep")
    found: list[Step] = []
    while not stream.at_end():
        if _passes_separator(stream):
            continue
        if _closes(stream, closing) or _only_a_count_left(stream, found):
            break
        before = stream.at
        found.extend(_step(stream, depth))
        _check_separated(stream, before, closing)
    found = _with_picots(found)
    return tuple(found if depth else _with_lead_chain(found))


def _only_a_count_left(stream: Stream, found: list[Step]) -> bool:
    """Whether a stated count closes the row without brackets ("…, turn. 34 sc.")."""
    if not stream.is_amount() or not stream.at or stream.tokens[stream.at - 1].word != ".":
        return False
    mark, amounts = stream.at, len(stream.amounts)
    said = stated(stream, stream.start)
    stream.accept(".")
    whole = said is not None and stream.at_end()
    stream.at = mark
    del stream.amounts[amounts:]
    ends = bool(found) and isinstance(found[-1], Turn | JoinRound | FastenOff | Repeat)
    return whole and (ends or (said is not None and said.counts[0][1] == "sts"))


def _passes_separator(stream: Stream) -> bool:
    if stream.is_word("ending", "end"):  # behind no repeat: what is worked last
        return stream.accept("ending", "with") or stream.accept("end", "with")
    return stream.accept_any(*_SEPARATORS) is not None


def _closes(stream: Stream, closing: tuple[str, ...]) -> bool:
    token = stream.token
    if token.kind not in ("mark", "word"):
        return False
    if token.word == "rep" and stream.ahead().word == "from" and "rep from" in closing:
        return True
    if token.word not in closing or (token.word == "-" and stream.is_amount()):
        return False
    return token.word != "for" or stream.ahead().kind in ("num", "formula")


def _check_separated(stream: Stream, before: int, closing: tuple[str, ...]) -> None:
    """A step must end at a separator, a bracket or where another step may begin."""
    _pass_purpose(stream)
    token = stream.token
    if stream.at == before:
        raise stream.fault()
    ends = token.kind in ("end", "mark") or token.word in ("and", "then", "also")
    if ends or _closes(stream, closing) or _begins_step(stream):
        return
    raise stream.fault()


#: what a step is for ("skip 8 sts for thumb"), and other words behind a step that change nothing
_PURPOSE = re.compile(
    r"(?:for|to (?:form|make)) (?:the |a |an |each |first |second |last )*"
    r"(?:thumb|sleeve|armhole|underarm|neck|buttonhole|handle|heel|toe|strap|leg|pocket|"
    r"ch-\d+ (?:loop|sp))s?"
    r"(?: opening| hole)?|at (?:the )?end of (?:the |each |last )?(?:row|rnd|round)s?|"
    r"instead of [^,;.()]*|as (?:before|established|set)\b",
    re.IGNORECASE,
)


def _pass_purpose(stream: Stream) -> None:
    if stream.token.kind != "word":
        return
    found = _PURPOSE.match(stream.text, stream.start)
    if found is not None:
        while not stream.at_end() and stream.token.start < found.end():
            stream.take()


_BEGINNERS = frozenset(
    "ch sk turn join fasten rep inc dec leave work working place pm do change with cut weave magic "
    "ending end omitting pull close mr drop finish move break".split()
)


def _begins_step(stream: Stream) -> bool:
    token = stream.token
    return token.kind in ("stitch", "num", "formula") or (
        token.kind == "word" and token.word in _BEGINNERS
    )


def _with_picots(found: list[Step]) -> list[Step]:
    """``ch 3, sl st in last tr``: a chain closed on itself or on the last stitch is a picot."""
    steps_: list[Step] = []
    for step in found:
        before = steps_[-1] if steps_ else None
        if _in_each_space_too(step, before):  # the spaces are named first
            assert isinstance(before, Work)
            assert isinstance(before.target, Each)
            corners = Corners(before.content, Next(before.target.names), before.start, before.end)
            steps_[-1:] = [step, corners]
            continue
        if _in_each_space_too(before, step):
            assert isinstance(step, Work)
            assert isinstance(step.target, Each)
            where = Next(step.target.names)
            steps_.append(Corners(step.content, where, step.start, step.end))
            continue
        if isinstance(before, Chain) and _closes_picot(step, before):
            steps_[-1] = Picot(before.count, before.start, step.end)
        else:
            steps_.append(step)
    return steps_


def _with_lead_chain(found: list[Step]) -> list[Step]:
    """``(ch 3, 2 dc, ch 2, 3 dc) in same sp`` at a row's head begins with its turning chain."""
    for at, step in enumerate(found):
        if isinstance(step, Aside | Turn | JoinYarn | Travel | MagicRing):
            continue
        if not isinstance(step, Work) or not isinstance(step.target, Same | IntoRing):
            slips = isinstance(step, Work) and _only_slip_stitches(step)
            if slips:
                continue
            return found
        first = step.content[0]
        if not isinstance(first, Chain) or len(step.content) == 1:
            return found
        rest = replace(step, content=step.content[1:])
        return [*found[:at], first, rest, *found[at + 1 :]]
    return found


def _only_slip_stitches(step: Work) -> bool:
    return all(isinstance(item, Stitch) and item.name == "sl st" for item in step.content)


def _in_each_space_too(before: Step | None, step: Step | None) -> bool:
    """``sc in each sc and 6 sc in each ch-6 sp around``: both as they come, in one pass."""
    if not (isinstance(before, Work) and isinstance(step, Work)):
        return False
    first, second = before.target, step.target
    return (
        isinstance(first, Each)
        and isinstance(second, Each)
        and first.limit is None
        and second.limit is None
        and not any(isinstance(name, Space) for name in first.names)
        and all(isinstance(name, Space) for name in second.names)
    )


def _closes_picot(step: Step, chain: Chain) -> bool:
    if not isinstance(step, Work) or len(step.content) != 1:
        return False
    only = step.content[0]
    if not isinstance(only, Stitch) or only.name not in ("sl st", "sc"):
        return False
    match step.target:
        case FromHook(nth=nth):
            return nth.values == chain.count.values and only.name == "sl st"
        case Same(made=True):
            return only.name == "sl st"
        case _:
            return False


# --- one step ------------------------------------------------------------------------------


def _step(stream: Stream, depth: int) -> tuple[Step, ...]:
    token = stream.token
    if token.kind == "mark" and not stream.is_amount():
        return _marked(stream, depth)
    for read in _readers_of(token):
        found = read(stream)
        if found is not None:
            return _timed(stream, found)
    raise stream.fault()


def _timed(stream: Stream, found: tuple[Step, ...]) -> tuple[Step, ...]:
    """``sc2tog twice``, ``sc in next st 6 times``: a number of times after a single step."""
    if not found:
        return found
    count = times_count(stream)
    if count is None:
        return found
    last = found[-1]
    if isinstance(last, Decrease) and last.times is not None:
        return (*found[:-1], replace(last, times=count))
    return (
        *found[:-1],
        Repeat((last,), Exactly(count), start=last.start, end=stream.end),
    )


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
    if not stream.is_amount():
        return None
    mark, count = stream.at, len(stream.amounts)
    amount = stream.amount()
    if stream.accept("times"):
        return amount
    stream.at = mark
    del stream.amounts[count:]
    return None


def _rate(stream: Stream, value: int, start: int, end: int) -> Amount:
    amount = Amount((value,), None, start, end)
    stream.amounts.append(amount)
    return amount


# --- brackets and stars --------------------------------------------------------------------


def _marked(stream: Stream, depth: int) -> tuple[Step, ...]:
    token = stream.token
    match token.word:
        case "*" | "†":
            return (_star(stream, depth),)
        case "**":
            stream.take()
            return (Stop(token.start, token.end),)
        case "(" | "[":
            return _bracket(stream, depth)
        case _:
            raise NotUnderstood(
                token.start,
                token.end,
                f"“{token.word}” stands here without its other half",
                "open every bracket before it is closed",
            )


def _star(stream: Stream, depth: int) -> Step:
    """``*A, B; rep from * across``."""
    star = stream.take()
    body = steps(stream, "rep from", depth=depth + 1)
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
    ending = _ending(stream, depth)
    return Repeat(body, times, ending, star=True, start=star.start, end=stream.end)


def _star_times(stream: Stream) -> Exactly | More | Open:
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


def _ending(stream: Stream, depth: int) -> Ending | None:
    mark = stream.at
    stream.accept_any(",", ";")
    if stream.accept_any("omitting", "omit"):
        return _omitting(stream, depth)
    if not stream.accept_any("ending", "end"):
        stream.at = mark
        return None
    last = _last_repeat(stream)
    if stream.accept("at", "**"):
        return EndingAtStop()
    stream.accept_any("with", "by", "in")
    last = last or _last_repeat(stream)
    found = _first_steps(stream, depth)
    if not found:
        raise stream.fault(mend="say what the row ends with")
    return EndingWith(found, last=last)


def _last_repeat(stream: Stream) -> bool:
    stream.accept_any("on")
    if stream.words_ahead("last", "rep"):
        stream.at += 2
        return True
    return False


def _first_steps(stream: Stream, depth: int) -> tuple[Step, ...]:
    """The steps up to the next separator: what is written after is worked afterwards anyway."""
    found: list[Step] = []
    while not stream.at_end() and not found:
        if not _passes_separator(stream):
            found.extend(_step(stream, depth))
    return tuple(found)


def _omitting(stream: Stream, depth: int) -> Omitting:
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
            if not _passes_separator(stream):
                found.extend(_step(stream, depth))
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


def _bracket(stream: Stream, depth: int) -> tuple[Step, ...]:
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
    return (_bracket_repeat(stream, closing, depth),)


_LEFT = re.compile(r"\([^()]*\b(?:left |leaving |remain )?unworked[^()]*\)", re.IGNORECASE)


def _left_unworked(stream: Stream, closing: int) -> Step | None:
    """``(4 sts left unworked)``."""
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
    """``(each ch counts as a st)``."""
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
    where = _where(stream)
    if where is None:
        raise stream.fault(mend="say which place the group goes into: “(dc, ch 1, dc) in next st”")
    return Work(inside, where, start=opening.start, end=stream.end)


def content(stream: Stream, closing: int) -> tuple[Content, ...]:
    """What is worked into one place, up to a closing token index.

    Takes: dc, ch 1, dc
    Refuses: turn
    """
    found: list[Content] = []
    while stream.at < closing:
        if _passes_separator(stream):
            continue
        found.append(_content_item(stream))
    return tuple(found)


def _content_item(stream: Stream) -> Content:
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
    if stream.token.kind == "stitch":
        name = stream.take().word
        if count is ONE and stream.is_amount():
            count = stream.amount()
        return Stitch(name, count, kind_of(name).legs, start, stream.end)
    if stream.accept("ch"):
        if count is ONE and stream.is_amount():
            count = stream.amount()
        said = counts_as(stream)
        return Chain(count, said, start, stream.end)
    raise stream.fault(mend="inside a group stand stitches and chains, such as (2 dc, ch 1, 2 dc)")


def _bracket_repeat(stream: Stream, closing: int, depth: int) -> Step:
    opening = stream.take()
    mark, amounts = stream.at, len(stream.amounts)
    body = steps(stream, ")", "]", depth=depth + 1)
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
        where = _where(stream)
        if where is not None:
            return Work((Times(inside, times.count),), where, start=opening.start, end=stream.end)
    ending = _ending(stream, depth)
    return Repeat(body, times, ending, start=opening.start, end=stream.end)


def _each_times(stream: Stream) -> bool:
    return stream.is_word("in") and stream.ahead().word == "all"


def _bracket_times(stream: Stream) -> Exactly | More | Open:
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


# --- stitches ------------------------------------------------------------------------------


def _where(stream: Stream) -> Target | None:
    """The place after "in", "around" or "over", or None where none is named."""
    if stream.is_word("around") and not _post_follows(stream):
        return None
    if stream.is_word(*_INTO):
        stream.take()
        stream.accept("post", "of")
        return target(stream)
    return None


#: words behind "around" that begin a place: the step goes around its post
_AROUND = frozenset("next post each same the first last skipped prev corresponding".split())


def _post_follows(stream: Stream) -> bool:
    return stream.ahead().word in _AROUND or (stream.ahead().kind == "stitch")


def _stitches(stream: Stream) -> tuple[Step, ...] | None:
    """``sc in next 6 sts``, ``sc 6``, ``6 sc``, ``2 dc in next st``."""
    start = stream.start
    before: Amount | None = None
    if stream.is_amount():
        mark, amounts = stream.at, len(stream.amounts)
        before = stream.amount()
        if stream.token.kind != "stitch":
            stream.at = mark
            del stream.amounts[amounts:]
            return None
    beginning = stream.is_word("beg") and stream.ahead().kind == "stitch" and stream.take()
    if stream.token.kind != "stitch":
        return None
    name = stream.take().word
    if beginning:
        name = f"beg {name}"
    kind = kind_of(name)
    after = None
    if before is None and stream.is_amount() and not _times_follow(stream):
        after = stream.amount()
        stream.accept("st")
    if kind.foundation and after is not None:
        return (Foundation(name, after, start, stream.end),)
    if kind.foundation and before is not None:
        return (Foundation(name, before, start, stream.end),)
    stitch = Stitch(name, ONE, kind.legs, start, stream.end)
    _pass_loop(stream)
    if name == "sl st" and before is None:
        found = _slip_stitch(stream, start)
        if found is not None:
            return found
    return _worked(stream, stitch, before, after, start)


def _times_follow(stream: Stream) -> bool:
    mark, amounts = stream.at, len(stream.amounts)
    found = times_count(stream) is not None
    stream.at = mark
    del stream.amounts[amounts:]
    return found


def _pass_loop(stream: Stream) -> None:
    if stream.accept_any("blo", "flo", "bl", "fl", "tbl"):
        stream.accept("only")


def _worked(
    stream: Stream, stitch: Stitch, before: Amount | None, after: Amount | None, start: int
) -> tuple[Step, ...]:
    count = before or after
    where = _where(stream)
    if where is not None:
        return _in_places(stream, stitch, before, after, where, start)
    bound_start = stream.at
    bound = limit(stream)
    if stream.at != bound_start or stream.accept("even"):
        if count is not None:
            each = Each((AnyStitch(),), bound)
            return (Work((replace(stitch, count=count),), each, start=start, end=stream.end),)
        return (Work((stitch,), Each((AnyStitch(),), bound), start=start, end=stream.end),)
    if stream.accept("evenly"):
        return _along(stream, stitch, count, start)
    return (Work((stitch,), Unplaced(count or ONE), start=start, end=stream.end),)


def _along(stream: Stream, stitch: Stitch, count: Amount | None, start: int) -> tuple[Step, ...]:
    """``work 47 sc evenly along side edge``."""
    if count is None or not stream.accept_any("along", "across", "around", "over", "down", "up"):
        raise stream.fault(mend="write “work 47 sc evenly along side edge”")
    while stream.is_word(
        "side", "edge", "row", "end", "of", "the", "left", "right", "neck", "front"
    ):
        stream.take()
    content_ = (replace(stitch, count=count),)
    return (Work(content_, RowSides(each=False), start=start, end=stream.end),)


def _in_places(
    stream: Stream,
    stitch: Stitch,
    before: Amount | None,
    after: Amount | None,
    where: Target,
    start: int,
) -> tuple[Step, ...]:
    if stitch.legs > 1 and before is None and after is None:
        return (_decrease_over(stream, stitch, where, start), *_and_in(stream, stitch, None, start))
    if after is not None and isinstance(where, Next) and where.count is ONE:
        # "sc 6 in next st": the number stands behind the stitch and is worked into the place
        before = after
    elif after is not None:
        before = after
    spread = _is_spread(before, where)
    each = stitch if before is None or spread else replace(stitch, count=before)
    if isinstance(where, FromHook):
        where = replace(where, skipped=counts_as(stream))
    step = Work((each,), where, spread=spread, start=start, end=stream.end)
    step = _not_counted(stream, step)
    return (step, *_and_in(stream, stitch, before, start))


def _is_spread(before: Amount | None, where: Target) -> bool:
    """Whether "6 sc in next 6 sts" means one in each: the same number twice, and no "each"."""
    return (
        before is not None
        and isinstance(where, Next | First | Last)
        and not where.each
        and where.count is not ONE
        and before.values == where.count.values
        and before.formula == where.count.formula
        and before.values != (1,)
    )


def _not_counted(stream: Stream, step: Work) -> Work:
    if not stream.is_mark("("):
        return step
    mark = stream.at
    said = counts_as(stream)
    if said is not None and not said.stitches and said.chains is None:
        return replace(step, does_not_count=True, end=stream.end)
    stream.at = mark
    return step


def _decrease_over(stream: Stream, stitch: Stitch, where: Target, start: int) -> Work:
    """``dc3tog over next 3 dc`` takes its own legs; in one place all legs stand there."""
    return Work((stitch,), where, start=start, end=stream.end)


def _and_in(stream: Stream, stitch: Stitch, before: Amount | None, start: int) -> tuple[Step, ...]:
    """``sc in 2nd ch from hook and in each ch across``: the same stitch, another place."""
    found: list[Step] = []
    while True:
        mark = stream.at
        comma = stream.accept(",")
        if not stream.accept("and") and not comma:
            break
        if not stream.is_word("in") or (comma and stream.tokens[stream.at - 1].word == ","):
            stream.at = mark
            break
        stream.take()
        where = target(stream)
        spread = _is_spread(before, where)
        each = stitch if before is None or spread else replace(stitch, count=before)
        found.append(Work((each,), where, spread=spread, start=start, end=stream.end))
    return tuple(found)


def _forms_ring(stream: Stream) -> bool:
    """``to form a ring``, ``forming a ring``."""
    mark = stream.at
    if stream.accept("to", "form") or stream.accept("to", "make") or stream.accept("forming"):
        stream.articles()
        if stream.accept("ring"):
            return True
    stream.at = mark
    return False


def _slip_stitch(stream: Stream, start: int) -> tuple[Step, ...] | None:
    """``sl st to next ch-2 sp``, ``sl st to join``, ``sl st in first sc to join``."""
    mark = stream.at
    if stream.accept("to", "join") or stream.accept("join"):
        return (JoinRound(None, start=start, end=stream.end),)
    stream.accept("over")
    stream.accept("across")
    if stream.accept("to"):
        if stream.accept_any("form", "make"):
            stream.articles()
            stream.expect("ring", mend="write “to form ring”")
            return (JoinRound(None, ring=True, start=start, end=stream.end),)
        if stream.accept("end"):
            stream.accept("of", "row")
            stream.accept("of", "rnd")
            return (Travel(Each((AnyStitch(),)), start, stream.end),)
        where = target(stream)
        if stream.accept("to", "join"):
            return (JoinRound(where, start=start, end=stream.end),)
        if _forms_ring(stream):
            return (JoinRound(where, ring=True, start=start, end=stream.end),)
        return (Travel(where, start, stream.end),)
    stream.at = mark
    where_found = _where(stream)
    if where_found is None:
        stream.at = mark
        return None
    if stream.accept("to", "join") or stream.accept("to", "join", "rnd"):
        return (JoinRound(where_found, start=start, end=stream.end),)
    if _forms_ring(stream):
        return (JoinRound(where_found, ring=True, start=start, end=stream.end),)
    if stream.words_ahead("(", "picot", ")"):
        where_found = Same(made=True)
    stitch = Stitch("sl st", ONE, 1, start, stream.end)
    step = Work((stitch,), where_found, start=start, end=stream.end)
    return (_not_counted(stream, step), *_and_in(stream, stitch, None, start))


# --- increases and decreases ---------------------------------------------------------------


def _change(stream: Stream) -> tuple[Step, ...] | None:
    """``inc``, ``dec``, ``inc around``, ``dec 12 sts evenly``."""
    word = "inc" if stream.is_word("inc") else "dec"
    if not stream.is_word("inc", "dec"):
        return None
    token = stream.take()
    start = token.start
    if stream.is_amount() and not _times_follow(stream):
        amount = stream.amount()
        stream.accept_any("st")
        if stream.accept("evenly"):
            ends = _evenly_where(stream)
            change: Literal["inc", "dec"] = "inc" if word == "inc" else "dec"
            return (Evenly(change, amount, ends, start, stream.end),)
        if word == "inc":
            return (Increase(Unplaced(amount), start, stream.end),)
        return (Decrease(amount, None, start, stream.end),)
    if stream.accept("evenly"):
        raise stream.fault(start, mend="say how many: “dec 12 sts evenly”")
    where = _where(stream)
    if where is not None:
        if word == "inc":
            return (Increase(where, start, stream.end),)
        return (_dec_over(stream, where, start),)
    mark = stream.at
    bound = limit(stream)
    if stream.at != mark:
        if word == "inc":
            return (Increase(Each((AnyStitch(),), bound), start, stream.end),)
        return (Decrease(None, bound, start, stream.end),)
    if word == "inc":
        return (Increase(Unplaced(ONE), start, stream.end),)
    return (Decrease(ONE, None, start, stream.end),)


def _evenly_where(stream: Stream) -> int:
    """Pass "spaced", "across", "around the round"; 2 for "at each end", else 1."""
    stream.accept_any("spaced")
    while stream.accept_any("across", "around", "in", "on", "over"):
        stream.articles()
        stream.accept_any("each", "next")
        stream.accept_any("row", "rnd")
    if stream.accept("at", "each", "end") or stream.accept("at", "both", "end"):
        return 2
    return 1


def _dec_over(stream: Stream, where: Target, start: int) -> Decrease:
    match where:
        case Next(count=count) | First(count=count) if count.values == (2,):
            return Decrease(ONE, None, start, stream.end)
        case Each(limit=bound):
            return Decrease(None, bound, start, stream.end)
        case _:
            raise stream.fault(
                start, mend="write “dec over next 2 sts”, or name the stitch: “sc2tog”"
            )


# --- skips and chains ----------------------------------------------------------------------


def _skip(stream: Stream) -> tuple[Step, ...] | None:
    """``sk 2 sts``, ``sk next ch-1 sp``."""
    if not stream.is_word("sk"):
        return None
    start = stream.take().start
    stream.articles()
    if stream.is_word("same"):
        stream.take()
        return (Skip(Same(names(stream)[0]), start, stream.end),)
    if stream.is_word("next", "first", "last", "each", "rem"):
        where = target(stream)
        if stream.accept("behind"):
            names(stream)
        return (Skip(where, start, stream.end),)
    if stream.is_amount():
        count = stream.amount()
        if stream.at_end() or stream.token.kind == "mark" or stream.is_word("and", "then"):
            return (Skip(Unplaced(count), start, stream.end),)
        return (Skip(Next(names(stream), count), start, stream.end),)
    if stream.at_end() or stream.token.kind == "mark":
        raise stream.fault(start, mend="say what is skipped: “sk 2 sts” or “sk next ch-1 sp”")
    where = target(stream)
    return (Skip(where, start, stream.end),)


def _chains(stream: Stream) -> tuple[Step, ...] | None:
    """``ch 3``, ``3 ch``, ``ch 5 (counts as dc and ch 2)``."""
    start = stream.start
    if stream.token.kind == "chn":
        token = stream.take()
        count = Amount((token.value,), None, token.start, token.end)
        stream.amounts.append(count)
    elif stream.is_amount():
        mark, amounts = stream.at, len(stream.amounts)
        count = stream.amount()
        if not stream.is_word("ch") or stream.ahead().word in ("sp", "lp"):
            stream.at = mark
            del stream.amounts[amounts:]
            return None
        stream.take()
    elif stream.is_word("ch"):
        stream.take()
        count = stream.amount() if stream.is_amount() else ONE
    else:
        return None
    stream.accept("lp")
    mark = stream.at
    said = counts_as(stream)
    if said is None:
        stream.at = mark
    return (Chain(count, said, start, stream.end),)


# --- joins, turns and the rest -------------------------------------------------------------


def _join(stream: Stream) -> tuple[Step, ...] | None:
    """``join with sl st to first sc``, ``join yarn in any ch-2 sp``, ``join``."""
    if not stream.is_word("join"):
        return None
    start = stream.take().start
    yarn = _yarn_named(stream)
    stitch: Stitch | None = None
    if stream.accept("with"):
        stream.articles()
        if stream.token.kind != "stitch":
            raise stream.fault(mend="write “join with sl st to first sc”")
        name = stream.take().word
        if name != "sl st":
            stitch = Stitch(name, ONE, kind_of(name).legs, start, stream.end)
    if stream.accept("to", "form") or stream.accept("forming") or stream.accept("to", "make"):
        stream.articles()
        round_of_chains = stream.accept_any("circle", "tube", "rnd")
        if round_of_chains is None:
            stream.expect("ring", mend="write “to form ring”")
        ring = round_of_chains is None
        return (JoinRound(None, ring=ring, start=start, end=stream.end),)
    where: Target | None = None
    if stream.accept_any("to", "in", "on", "at", "around"):
        stream.articles()
        where = _join_target(stream)
        if _forms_ring(stream):
            return (JoinRound(where, ring=True, start=start, end=stream.end),)
    if yarn or stitch is not None:
        return (JoinYarn(where, stitch, start, stream.end),)
    return (JoinRound(where, start=start, end=stream.end),)


def _join_target(stream: Stream) -> Target:
    """Where a round is joined: "first sc", "top of beg ch-3", "top of beg cl"."""
    mark, amounts = stream.at, len(stream.amounts)
    if stream.accept("top", "of"):
        stream.articles()
        stream.accept_any("first", "beg")
        if stream.token.kind == "stitch" and stream.ahead().word != "just":
            stream.take()
            return ChainOfTurning(None, TurningChain())
    stream.at = mark
    del stream.amounts[amounts:]
    return target(stream)


def _yarn_named(stream: Stream) -> bool:
    """Pass the yarn of "join new colour with": any words up to "with", "in" or "to"."""
    mark = stream.at
    if stream.is_word("with", "in", "to", "on", "at") or stream.token.kind in ("mark", "end"):
        return False
    if stream.accept("rnd"):
        return False
    while stream.token.kind in ("word", "num") and not stream.is_word(
        "with", "in", "to", "on", "at"
    ):
        stream.take()
    return stream.at > mark


def _turn(stream: Stream) -> tuple[Step, ...] | None:
    """``turn``, ``do not turn``."""
    start = stream.start
    if stream.accept("do", "not"):
        if stream.accept("turn"):
            stream.accept("work")
            _pass_purpose(stream)
            return (Turn(turned=False, start=start, end=stream.end),)
        if stream.accept("join"):
            return (Aside(start, stream.end),)
        raise stream.fault(start)
    if stream.accept("turn"):
        stream.accept("work")
        return (Turn(turned=True, start=start, end=stream.end),)
    return None


def _fasten_off(stream: Stream) -> tuple[Step, ...] | None:
    """``fasten off``, ``finish off``, ``cut yarn``."""
    start = stream.start
    if stream.accept("fasten", "off") or stream.accept("finish", "off") or stream.accept("fo"):
        while stream.is_word("at", "end", "of", "last", "row", "rnd", "and", "weave", "in"):
            stream.take()
        return (FastenOff(start, stream.end),)
    return None


_TAIL = re.compile(r"leav(?:e|ing) [^,;()]*?\btail\b", re.IGNORECASE)


def _leave(stream: Stream) -> tuple[Step, ...] | None:
    """``leave rem sts unworked``, ``leave tch unworked``."""
    if not stream.is_word("leave", "leaving") or _TAIL.match(stream.text, stream.start):
        return None
    start = stream.take().start
    stream.articles()
    rest = bool(stream.accept("rem"))
    stream.accept("last")
    counted = stream.amount() if stream.is_amount() else None
    found = names(stream) if not stream.is_word("unworked") else (AnyStitch(),)
    stream.expect("unworked", mend="write “leave rem sts unworked”")
    whole = rest or counted is not None or isinstance(found[0], AnyStitch)
    return (LeaveRest(None if whole else found[0], start, stream.end),)


def _ring(stream: Stream) -> tuple[Step, ...] | None:
    """``magic ring``, ``make a magic ring``."""
    start = stream.start
    mark = stream.at
    stream.accept_any("make", "work", "form", "in", "with", "start", "beg")
    stream.articles()
    if stream.accept_any("adjustable", "magic", "sliding"):
        if stream.accept_any("ring", "lp", "circle"):
            stream.accept_any("work", "make")
            return (MagicRing(start, stream.end),)
    elif stream.accept("mr"):
        return (MagicRing(start, stream.end),)
    stream.at = mark
    return None


_OTHER_SIDE = re.compile(
    r"(?:now\s+)?(?:work(?:ing)?\s+)?(?:along|across|around|in|on|up|down|back along)\s+(?:the\s+)?"
    r"(?:other|opposite|second|free|remaining|rem)\s+(?:side|loops?|edge)s?\s+of\s+(?:the\s+)?"
    r"(?:(?:foundation|starting|beg|beginning|base)\s+)?(?:ch(?:ain)?s?)\s*[,:;]?",
    re.IGNORECASE,
)


def _other_side(stream: Stream) -> tuple[Step, ...] | None:
    """``working along other side of ch``."""
    found = _OTHER_SIDE.match(stream.text, stream.start)
    if found is None:
        return None
    start = stream.start
    while not stream.at_end() and stream.token.start < found.end():
        stream.take()
    return (OtherSide(start, stream.end),)


def _corners(stream: Stream) -> tuple[Step, ...] | None:
    """``working 3 sc in each corner ch-1 sp``, ``working last dc in 3rd ch of turning ch``."""
    if not stream.is_word("working", "with", "making"):
        return None
    mark, amounts = stream.at, len(stream.amounts)
    start = stream.take().start
    if stream.accept("last"):
        # the last stitch goes where it would go: said for the maker, it changes no count
        if stream.token.kind == "stitch":
            stream.take()
            if stream.accept("in"):
                target(stream)
                return (Aside(start, stream.end),)
        stream.at = mark
        return None
    if stream.is_mark("("):
        closing = stream.closing()
        if closing < 0 or stream.tokens[closing + 1].word != "in":
            stream.at = mark
            return None
        stream.take()
        made = content(stream, closing)
        stream.at = closing + 1
    else:
        count = stream.amount() if stream.is_amount() else None
        if count is None or stream.token.kind != "stitch":
            stream.at = mark
            del stream.amounts[amounts:]
            return None
        word = stream.take()
        made = (Stitch(word.word, count, kind_of(word.word).legs, start, stream.end),)
    if not stream.accept("in"):
        stream.at = mark
        del stream.amounts[amounts:]
        return None
    if stream.words_ahead("each", "corner") and _is_bare_corner(stream):
        stream.at += 2
        return (Corners(made, None, start, stream.end),)
    where = _corner_target(stream)
    if where is None:
        stream.at = mark
        del stream.amounts[amounts:]
        return None
    return (Corners(made, where, start, stream.end),)


def _is_bare_corner(stream: Stream) -> bool:
    """Whether "each corner" stands alone: the corners that the row before has."""
    after = stream.ahead(2)
    return after.kind in ("end", "mark") or after.word in ("and", "around")


def _corner_target(stream: Stream) -> Target | None:
    """The place of "in each corner ch-1 sp", or None where no corner is named."""
    mark = stream.at
    stream.accept_any("each", "all", "every")
    stream.accept_any("of")
    stream.articles()
    if stream.accept("corner"):
        found = names(stream)
        corner = found[0]
        return Next((Space(corner.chains),) if isinstance(corner, Space) else found)
    stream.at = mark
    if not stream.is_word("each", "center"):
        return None
    if stream.is_word("each") and stream.ahead().word != "corner":
        stream.take()
        found = names(stream)
        return Next(found) if isinstance(found[0], Space) else None
    where = target(stream)
    return where if isinstance(where, Inside) else None


def _work(stream: Stream) -> tuple[Step, ...] | None:
    """``work 2 sc in side of each row``: the verb adds nothing."""
    if not stream.is_word("work", "make") or not _begins_after_verb(stream):
        return None
    stream.take()
    return ()


def _begins_after_verb(stream: Stream) -> bool:
    after = stream.ahead()
    return after.kind in ("stitch", "num", "formula", "mark") or after.word in ("ch", "inc", "dec")


def _aside(stream: Stream) -> tuple[Step, ...] | None:
    start = stream.start
    if aside(stream):
        return (Aside(start, stream.end),)
    return None


#: the phrases that may begin with a word, in the order in which they are tried; all others may be
#: the other side of a chain, or an aside
_BY_WORD: dict[str, tuple[Reader, ...]] = {
    "ch": (_chains,),
    "sk": (_skip,),
    "inc": (_change,),
    "dec": (_change,),
    "join": (_join,),
    "turn": (_turn,),
    "do": (_turn, _aside),
    "fasten": (_fasten_off,),
    "finish": (_fasten_off,),
    "fo": (_fasten_off,),
    "leave": (_leave, _aside),
    "leaving": (_leave, _aside),
    "make": (_ring, _work),
    "work": (_ring, _other_side, _work),
    "making": (_corners,),
    "working": (_other_side, _corners, _aside),
    "with": (_ring, _corners, _aside),
    "in": (_ring, _other_side, _aside),
    "beg": (_ring, _stitches),
}
_BY_WORD |= dict.fromkeys(("form", "start", "the", "a", "an", "mr"), (_ring, _aside))
_BY_WORD |= dict.fromkeys(("adjustable", "magic", "sliding"), (_ring, _aside))
_OTHERS: tuple[Reader, ...] = (_other_side, _aside)
_BY_KIND: dict[str, tuple[Reader, ...]] = {
    "stitch": (_stitches,),
    "num": (_stitches, _chains),
    "formula": (_stitches, _chains),
    "mark": (_stitches, _chains),  # a list by size that begins with a dash
    "chn": (_chains,),
    "word": _OTHERS,
}


def _readers_of(token: Token) -> tuple[Reader, ...]:
    """The phrases that may begin with this token."""
    if token.kind == "word":
        return _BY_WORD.get(token.word, _OTHERS)
    return _BY_KIND.get(token.kind, ())


__all__ = ["Limit", "content", "steps", "times_count"]
