"""How the last repeat ends: "ending last rep with sc", "omitting ch 1 on last rep".

Takes     ``Stream``, and how the steps inside a group are read (``Inner``).
Gives     ``Inner``, ``ending_of``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "How repeats end".
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, TypeGuard

from workeven.notation.contents import passes_separator
from workeven.notation.corners import FALLING
from workeven.notation.expressions import ignoring_case
from workeven.notation.places import GROUPS
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.tokens import Token
from workeven.notation.tree import (
    ONE,
    Amount,
    Chain,
    ChainOfTurning,
    Content,
    Each,
    Ending,
    EndingAtStop,
    EndingWith,
    Inside,
    Last,
    Next,
    Omitting,
    Repeat,
    Skip,
    Space,
    Step,
    Stitch,
    Stop,
    Unplaced,
    Work,
)
from workeven.records import fields, is_record, replace


class Inner(NamedTuple):
    """Reads the steps inside a group: several, up to a closing word, or a single one."""

    several: Callable[..., tuple[Step, ...]]
    one: Callable[[Stream], tuple[Step, ...]]


def ending_of(stream: Stream, inner: Inner, body: tuple[Step, ...]) -> Ending | None:
    """How the last repeat of these steps ends.

    Takes: ending last rep with sc in last st
    Refuses: join
    """
    mark = stream.at
    stream.accept_any(",", ";")
    stream.accept_any("but", "and")
    if stream.accept_any("omitting", "omit"):
        return _omitting(stream, inner, body)
    if (told := _of_last_time(stream, inner, body)) is not None:
        return told
    finished = stream.accept_any("finish", "finishing") and (
        stream.is_word("with", "by")
        or stream.words_ahead("last", "rep")
        or (stream.is_word("the") and stream.ahead().word == "last")
    )
    if not finished and not stream.accept_any("ending", "end"):
        stream.at = mark
        return None
    last = _last_repeat(stream)
    if stream.accept("at", "**"):
        return EndingAtStop()
    if last and stream.accept("before"):
        return _stops_before(stream, body)
    stream.accept_any("with", "by", "in")
    last = last or _last_repeat(stream)
    here = stream.here()
    if (cut := _ends_with_group(stream, body)) is not None:
        return cut
    found = _first_steps(stream, inner)
    if not found:
        raise stream.fault(mend="say what the row ends with")
    if stream.words_ahead("instead", "of"):
        stream.at += 2
        cut = _instead_of(stream, body)
        if cut is not None:
            stream.back_to(here)  # what is worked instead is read as the steps that follow
            return cut
        return EndingWith(found, last=True)
    if last and (shown := _ends_behind(stream, inner, found, body)) is not None:
        return shown
    within = _chain_for_chain(found[0], body) or _goes_where_the_last_does(found, body)
    if not (last or within) and (chain := _chain_in_front(found[0], body)) is not None:
        found = (chain, *found)
    return EndingWith(found, last=last or within)


def _chain_in_front(end: Step, body: tuple[Step, ...]) -> Chain | None:
    """``*ch 2, 9 tr in ch-2 sp of next shell, …; …, ending with 9 tr in ch-2 sp of last shell``.

    The last repeat is worked up to there, with the chain that it begins with.
    """
    match body[:2], end:
        case (
            (
                Chain() as chain,
                Work(target=Inside(name=name, container=Next(names=holds))) as first,
            ),
            Work(target=Inside(name=last, container=Last(names=held))),
        ):
            alike = name == last and holds == held and len(body) > 2  # noqa: PLR2004, more follows
            return chain if alike and _bare(first.content) == _bare(end.content) else None
        case _:
            return None


def _ends_behind(
    stream: Stream, inner: Inner, found: tuple[Step, ...], body: tuple[Step, ...]
) -> Omitting | EndingWith | None:
    """``ending last rep ch 2, sk 3 dc``: several steps of the repeat, behind which the last stops.

    Where the repeat has them twice the last time is meant. A single one must stand there once, as
    it is said.
    """
    here = stream.here()
    whole = tuple(step for step in body if not isinstance(step, Stop))
    more = _further(stream, inner, found, whole)
    at = _where(more, whole) if more[1:] or _stands_once(more[0], whole) else None
    behind = () if at is None else whole[at + len(more) :]
    if behind:
        return Omitting(behind)
    stream.back_to(here)
    return _chain_and_skip(stream, inner, found)


def _stands_once(step: Step, body: tuple[Step, ...]) -> bool:
    """Whether a repeat has a step once, word for word: "3 sc in next ch-1 sp".

    A stitch in a stitch may stand for the last one.
    """
    match step:
        case Repeat() | Work(target=Next(names=(Space(), *_))):
            pass
        case _:
            return False
    return [_bare(one) for one in body].count(_bare(step)) == 1


def _chain_and_skip(stream: Stream, inner: Inner, found: tuple[Step, ...]) -> EndingWith | None:
    """``ending last rep ch 2, sk 2, dc in last st``: it skips other stitches than the repeat does.

    Takes: , sk 2
    """
    here = stream.here()
    if len(found) == 1 and isinstance(found[0], Chain) and stream.accept(","):
        stream.accept("and")
        try:
            more = inner.one(stream) if stream.is_word("sk") else ()
        except NotUnderstood:
            more = ()
        if len(more) == 1 and isinstance(more[0], Skip):
            return EndingWith((*found, *more), last=True)
    stream.back_to(here)
    return None


def _of_last_time(stream: Stream, inner: Inner, body: tuple[Step, ...]) -> Ending | None:
    """What is another in the last repeat, told without "ending".

    Takes: working last sc in top of tch
    Refuses: join
    """
    last_step = (
        _last_goes(stream, body)
        or _last_group_goes(stream, inner, body)
        or _another_number(stream, body)
    )
    if last_step is not None:
        return EndingWith((last_step,), last=True)
    if "last" not in stream.said:
        return None
    return _last_time(stream, inner, body) or _last_chain_joined(stream, body)


def _goes_where_the_last_does(found: tuple[Step, ...], body: tuple[Step, ...]) -> bool:
    """``*sc in next sc, 3 sc in next ch-3 sp; …, ending with 3 sc in last ch-3 sp``.

    That sp is the one of the last repeat, which is not worked twice.
    """
    if found[1:] or not body[1:]:
        return False
    match found[0], body[-1]:
        case Work(target=Last(names=end)), Work(target=Next(names=last)):
            return end == last and isinstance(end[0], Space)
        case Work(target=Next(names=(Space(),), bare=True)), Work(
            target=Next(names=(Space(),), bare=False)
        ):
            # "*ch 5, sc in next lp; …, ending with sc in tch lp": the last loop of all
            return _bare(found[0].content) == _bare(body[-1].content)
        case _:
            return False


def _chain_for_chain(first: Step, body: tuple[Step, ...]) -> bool:
    """``*sc in next sp, ch 5; …, ending with ch 2, dc in first sc``: no two chains are one."""
    return isinstance(first, Chain) and bool(body) and isinstance(body[-1], Chain)


def _last_goes(stream: Stream, body: tuple[Step, ...]) -> Work | None:
    """``working last sc in top of tch``: where the last stitch of the last repeat goes.

    Takes: working last sc in top of tch
    Takes: putting last 2 dc in top of ch 3
    Refuses: working 3 sc in top of tch
    """
    mark, start = stream.here(), stream.start
    stream.accept_any("working", "with", "having", "making", "putting", "placing")
    stream.articles()
    last = body[-1] if body else None
    named = stream.accept_any("last", "final")
    count = stream.amount() if named and stream.is_amount() else ONE
    if named and stream.token.kind == "stitch":
        stitch = stream.take().word
        while stream.accept_any(*FALLING):
            pass
        if _is_group(last, stitch, count) and stream.accept_any("in", "on"):
            where = target(stream)
            if not isinstance(where, ChainOfTurning | Last | Next):
                stream.back_to(mark)  # "in the joining st": there it goes anyway
                return None
            return replace(last, target=where, start=start, end=stream.end)
    stream.back_to(mark)
    return None


def _last_group_goes(stream: Stream, inner: Inner, body: tuple[Step, ...]) -> Work | None:
    """``working last (dc, ch 1, dc) in top of tch``: the last group of the last repeat.

    Takes: working last (dc, ch 1, dc) in top of tch
    Refuses: working last dc in next st
    """
    mark, start = stream.here(), stream.start
    last = body[-1] if body else None
    stream.accept_any("working", "with", "having", "making", "putting", "placing")
    stream.articles()
    if isinstance(last, Work) and stream.accept_any("last", "final") and stream.is_mark("(", "["):
        try:
            found = inner.one(stream)
        except NotUnderstood:
            found = ()
        match found:
            case (Work(target=ChainOfTurning() | Last() | Next()) as one,):
                if _bare(one.content) == _bare(last.content):
                    return replace(one, start=start)
            case _:
                pass
    stream.back_to(mark)
    return None


def _another_number(stream: Stream, body: tuple[Step, ...]) -> Work | None:
    """``working 2 dc instead of 3 in last st``: the last group of the last repeat is another.

    Takes: working 2 dc instead of 3 in last st
    Refuses: working 2 dc in last st
    """
    if "instead" not in stream.said:
        return None
    mark, start = stream.here(), stream.start
    stream.accept_any("but", "and")
    stream.accept_any("working", "work", "with", "making", "make", "having")
    made = stream.amount() if stream.is_amount() else None
    stitch = stream.take().word if stream.token.kind == "stitch" else None
    where = _where_at_end(stream)
    if made is not None and stitch is not None and stream.accept("instead", "of"):
        usual = stream.amount() if stream.is_amount() else None
        if stream.token.word in (stitch, "st"):
            stream.take()
        where = where or _where_at_end(stream)
        last = body[-1] if body else None
        if usual is not None and _is_group(last, stitch, usual):
            group = last.content[0]
            assert isinstance(group, Stitch)
            content = (replace(group, count=made),)
            at = last.target if where is None else where
            return replace(last, content=content, target=at, start=start, end=stream.end)
    stream.back_to(mark)
    return None


def _where_at_end(stream: Stream) -> ChainOfTurning | Last | Next | None:
    """``in last st``, ``in top of turning ch``, or nothing.

    Takes: in last st
    Refuses: instead of
    """
    mark = stream.here()
    if stream.accept_any("in", "on"):
        where = target(stream)
        if isinstance(where, ChainOfTurning | Last | Next):
            return where
    stream.back_to(mark)
    return None


def _last_time(stream: Stream, inner: Inner, body: tuple[Step, ...]) -> Omitting | None:
    """``last time sk 1 dc``, ``sk only 1 ch at end of last rep``: another one for the last step.

    It is of the kind of the last step of the repeat, which it stands for, and is read as the step
    that follows.

    Takes: last time sk 1 st
    Refuses: last st
    """
    mark, start = stream.here(), stream.start
    told = _on_last_time(stream)
    step_at = stream.here()
    if not told and (stream.at_end() or not _on_last_time_behind(stream)):
        stream.back_to(mark)
        return None
    try:
        found = inner.one(stream)
    except NotUnderstood:
        found = ()
    behind = stream.at
    if not told and not _on_last_time(stream):
        stream.back_to(mark)
        return None
    last = next((step for step in reversed(body) if not isinstance(step, Stop)), None)
    if last is None or len(found) != 1 or not _of_a_kind(found[0], last):
        raise stream.fault(
            start,
            found="for which step of the repeat that stands is not said",
            mend="write “ending last rep with …”, or “omitting … on last rep”",
        )
    if not told:  # the words behind the step are read: it follows without them
        stream.tokens = (*stream.tokens[:behind], *stream.tokens[stream.at :])
    stream.back_to(step_at)
    return Omitting((last,))


#: words that say of a step that it is of the last repeat
_LAST_TIME = (
    r"\s*,?\s*(?:(?:on|in|at|for) )?(?:the )?(?:end of (?:the )?)?(?:last|final) "
    r"(?:time|rep|repeat|repetition)\b(?: (?:only|work))?"
)


def _on_last_time(stream: Stream) -> bool:
    """Pass "last time", "at the end of the last repeat"."""
    found = ignoring_case(_LAST_TIME).match(stream.text, stream.end)
    if found is not None:
        stream.pass_to(found.end())
    return found is not None


def _on_last_time_behind(stream: Stream) -> bool:
    """Whether such words end the clause that begins here."""
    for at in range(stream.at, len(stream.tokens)):
        token = stream.tokens[at]
        if token.kind in ("mark", "end"):
            return False
        if token.word in ("last", "final") and stream.tokens[at + 1].word in ("times", "rep"):
            return at > stream.at
    return False


def _of_a_kind(found: Step, last: Step) -> bool:
    """Whether a step may stand for another: a skip for a skip, a stitch for the same stitch."""
    if isinstance(found, Work) and isinstance(last, Work):
        one, other = found.content[0], last.content[0]
        return isinstance(one, Stitch) and isinstance(other, Stitch) and one.name == other.name
    return type(found) is type(last)


def _last_chain_joined(stream: Stream, body: tuple[Step, ...]) -> Omitting | None:
    """``join last ch 4 in first sc``: the last repeat ends behind that chain and what it skips.

    The join is left to be read, without the chain.

    Takes: join last ch 4
    Refuses: join
    """
    mark = stream.here()
    told = stream.accept("join") and stream.accept("last")
    named = stream.token.kind == "chn" or (stream.accept("ch") and stream.token.kind == "num")
    if told and named:
        chains = stream.take().value
        whole = tuple(step for step in body if not isinstance(step, Stop))
        at = next((at for at in range(len(whole), 0, -1) if isinstance(whole[at - 1], Chain)), 0)
        if at and _long(whole[at - 1]) == (chains,):
            while at < len(whole) and isinstance(whole[at], Skip):
                at += 1
            if whole[at:]:
                stream.tokens = (*stream.tokens[: mark.at + 1], *stream.tokens[stream.at :])
                stream.back_to(mark)
                return Omitting(whole[at:])
    stream.back_to(mark)
    return None


def _is_group(step: Step | None, stitch: str, count: Amount) -> TypeGuard[Work]:
    """Whether a step is so many such stitches in one place."""
    if not isinstance(step, Work) or len(step.content) != 1 or isinstance(step.target, Each):
        return False
    only = step.content[0]
    named = isinstance(only, Stitch) and only.name == stitch and only.count.values == count.values
    return named and getattr(step.target, "count", ONE).values == (1,)


def _long(step: Step) -> tuple[int | None, ...]:
    """How many chains a step is, by size."""
    return step.count.values if isinstance(step, Chain) else ()


def _ends_with_group(stream: Stream, body: tuple[Step, ...]) -> Omitting | None:
    """``ending with a shell``, of a repeat that works one: the last repeat stops behind it.

    What is skipped behind the shell is skipped there too. A shell that the pattern declares is a
    stitch, and is read as one.

    Takes: shell
    Refuses: 3 dc
    """
    mark = stream.at
    stream.articles()
    named = stream.is_word(*GROUPS) and stream.take()
    whole = tuple(step for step in body if not isinstance(step, Stop))
    groups = [at for at, step in enumerate(whole) if _works_group(step)]
    ends = stream.at_end() or stream.token.kind == "mark"
    if named and ends and len(groups) == 1:
        last = groups[0] + 1
        while last < len(whole) and isinstance(whole[last], Skip):
            last += 1
        if whole[last:]:
            return Omitting(whole[last:])
    stream.at = mark
    return None


def _group_left_out(stream: Stream, body: tuple[Step, ...]) -> Omitting | None:
    """``ending last rep before clusters``, ``omitting shell at end of last rep``.

    The only group that the repeat works is meant, with what stands behind it.

    Takes: clusters
    Refuses: ch 3
    """
    mark = stream.here()
    stream.articles()
    stream.accept("last")
    word = stream.token.word
    named = stream.is_word(*GROUPS) or word in (*_CLOSED, *stream.vocabulary.special)
    whole = tuple(step for step in body if not isinstance(step, Stop))
    groups = [at for at, step in enumerate(whole) if _works_only(step, word)]
    groups = groups or [at for at, step in enumerate(whole) if _works_group(step)]
    if not named or len(groups) != 1 or groups[0] == 0:
        stream.back_to(mark)
        return None
    stream.take()
    return Omitting(whole[groups[0] :])


def _stops_before(stream: Stream, body: tuple[Step, ...]) -> Omitting:
    """Behind "ending last rep before": the step that the last repeat no longer works.

    Takes: shell
    Takes: last sc
    Refuses: ch 3
    """
    if (cut := _group_left_out(stream, body)) is not None:
        return cut
    stream.articles()
    stream.accept("last")
    whole = tuple(step for step in body if not isinstance(step, Stop))
    there = [at for at, step in enumerate(whole) if _works_only(step, stream.token.word)]
    if len(there) != 1 or there[0] == 0:
        raise stream.fault(
            found="the repeat does not work such a step once, behind others",
            mend="mark where the last repeat ends with ** and write “ending last rep at **”",
        )
    stream.take()
    return Omitting(whole[there[0] :])


def _works_only(step: Step, name: str) -> bool:
    """Whether a step works nothing but that stitch."""
    content = step.content if isinstance(step, Work) else ()
    return bool(content) and all(isinstance(one, Stitch) and one.name == name for one in content)


#: words for stitches that are closed, of which a group may be made
_CLOSED = ("cl", "pc", "puff", "bobble")


def _works_group(step: Step) -> bool:
    """Whether a step puts several stitches into one place."""
    if not isinstance(step, Work) or isinstance(step.target, Each | Unplaced):
        return False
    if step.spread or getattr(step.target, "count", ONE).values != (1,):
        return False
    several = [part for part in step.content if isinstance(part, Stitch)]
    return len(several) > 1 or any(part.count.values not in ((1,), ()) for part in several)


def _instead_of(stream: Stream, body: tuple[Step, ...]) -> Omitting | None:
    """``… instead of shell``: the last repeat without that step and those behind it.

    Takes: shell
    """
    stream.articles()
    stream.accept_any("last", "final")
    if stream.is_amount():
        stream.amount()
    chain = stream.is_word("ch") or stream.token.kind == "chn"
    named = stream.token.word
    whole = tuple(step for step in body if not isinstance(step, Stop))
    for at in range(len(whole) - 1, -1, -1):
        step = whole[at]
        content = step.content[0] if isinstance(step, Work) else step
        there = isinstance(content, Chain) if chain else getattr(content, "name", None) == named
        if there:
            return Omitting(whole[at:], 0)
    return None


def _last_repeat(stream: Stream) -> bool:
    stream.accept_any("on")
    if stream.is_word("the") and stream.ahead().word == "last":
        stream.take()
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


def _omitting(stream: Stream, inner: Inner, body: tuple[Step, ...]) -> Omitting:
    """Behind "omitting": what the last repeat leaves out.

    Takes: ch 1 on last rep
    """
    start = stream.start
    stream.articles()
    last = stream.accept_any("last", "final")
    stop = _last_rep_at(stream)
    if stop is None and not last:
        raise stream.fault(mend="write “omitting … on last rep”")
    body = tuple(step for step in body if not isinstance(step, Stop))
    here = stream.here()
    group = None if stop is None else _group_left_out(stream, body)
    alone = group is not None and len(group.steps) == 1  # of a last step no more is left out
    if group is not None and alone and stop is not None and stream.at <= stop:
        while not stream.accept("rep"):
            stream.take()
        return group
    stream.back_to(here)
    if stop is None:
        found = _further(stream, inner, _first_steps(stream, inner), body)
    else:
        found = _steps_up_to(stream, inner, stop)
    while stop is not None and not stream.accept("rep"):
        stream.take()
    at = _where(found, body)
    if at is None:
        raise stream.fault(
            start,
            found="the repeat has no such step that could be left out",
            mend="write the step that is left out as it stands in the repeat",
        )
    return Omitting(found, len(body) - at - len(found))


def _further(
    stream: Stream, inner: Inner, found: tuple[Step, ...], body: tuple[Step, ...]
) -> tuple[Step, ...]:
    """With the steps behind it, as long as they are left out too ("omitting last ch 2, sk 2")."""
    while not stream.at_end():
        here = stream.here()
        if not stream.accept_any(",", "and", "&", "+"):
            break
        try:
            more = (*found, *inner.one(stream))
        except NotUnderstood:
            more = ()
        if _where(more, body) is None:
            stream.back_to(here)
            break
        found = more
    return found


def _steps_up_to(stream: Stream, inner: Inner, stop: int) -> tuple[Step, ...]:
    """The steps up to the token at an index."""
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
    return tuple(found)


def _where(omitted: tuple[Step, ...], body: tuple[Step, ...]) -> int | None:
    """The index of the last steps of the repeat that are those, or None."""
    many = len(omitted)
    for at in range(len(body) - many, -1, -1):
        pairs = zip(omitted, body[at : at + many], strict=True)
        if many and all(_alike(one, other) for one, other in pairs):
            return at
    return None


def _alike(omitted: Step, step: Step) -> bool:
    """Whether a step is the one that is named; of a stitch its place need not be said again."""
    if _bare(omitted) == _bare(step):
        return True
    if not (isinstance(omitted, Work) and isinstance(step, Work)):
        return False
    if not isinstance(omitted.target, Unplaced):
        return False
    if _bare(_told(omitted)) == _bare(step.content):
        return True
    if not isinstance(step.target, Next) or _bare(omitted.content) != _bare(step.content):
        return False
    # "omitting last 3 dc": "dc in each of next 3 dc"
    return _bare(omitted.target.count) == _bare(step.target.count)


def _told(step: Work) -> tuple[Content, ...]:
    """What a stitch without a place makes: "3 sc" may be three in one place."""
    match step:
        case Work(content=(Stitch(count=Amount(values=(1,))) as one,), target=Unplaced(count=many)):
            return (replace(one, count=many),)
        case _:
            return step.content


def _bare(node: object) -> object:
    """A node without its columns, to be compared with another."""
    if isinstance(node, tuple):
        return tuple(_bare(one) for one in node)
    if not is_record(node):
        return node
    values = (getattr(node, field.name) for field in fields(node) if field.name not in _COLUMNS)
    return (type(node), *(_bare(value) for value in values))


_COLUMNS = ("start", "end")


def _last_rep_at(stream: Stream) -> int | None:
    """The index of the word that begins "on last rep"."""
    for index in range(stream.at, len(stream.tokens) - 1):
        if (
            stream.tokens[index].word in ("last", "final")
            and stream.tokens[index + 1].word == "rep"
        ):
            before = index
            while stream.tokens[before - 1].word in ("on", "of", "in", "at", "end", "the"):
                before -= 1
            return before
    return None
