"""The steps of a row, one after the other: which phrase begins with a word, and where one ends.

Takes     ``Stream``.
Gives     ``steps``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps.

Each phrase has its function, in ``stitches``, ``changes``, ``ends`` and ``groups``. It is called
when its first word stands there, or gives None and leaves the position where it was.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from workeven.notation.assembled import (
    over_each,
    with_chains_over,
    with_lead_chain,
    with_legs,
    with_picots,
    with_whole,
)
from workeven.notation.bracketed import change_at_end
from workeven.notation.by_sides import says_sides, times_by_sides
from workeven.notation.chains_said import SAYING, chains_said
from workeven.notation.changes import chains, change, picots, skip
from workeven.notation.come_back import with_place_of_start
from workeven.notation.contents import passes_separator, times_count
from workeven.notation.corners import corners, last_worked, placed_last
from workeven.notation.counted_place import counted_off
from workeven.notation.endings import Inner
from workeven.notation.ends import (
    aside_step,
    fasten_off,
    from_here,
    grows,
    join,
    leave,
    other_side,
    pass_purpose,
    plain_work,
    sewn,
    turn,
    verb,
    yarn_changed,
)
from workeven.notation.groups import in_place_first, marked
from workeven.notation.held_back import held_back
from workeven.notation.lead_chains import begins_from_hook, parted
from workeven.notation.listed import listed_at_head, listed_in_each
from workeven.notation.loop_by_loop import HOOK_WORDS, loop_by_loop, loops_left
from workeven.notation.notes import BEGINNING, note
from workeven.notation.nth import in_every_nth
from workeven.notation.places import GROUPS
from workeven.notation.rings import closes_ring, ring
from workeven.notation.round_begun import begins_in, standing_stitch, yarn_drawn_up
from workeven.notation.space_of_chain import space_of_chain
from workeven.notation.stars import closes_star, starred_again
from workeven.notation.stated_counts import begins_count, pass_count_words, stated
from workeven.notation.stitches import another, group_of, in_loop, stitches, where_of
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.together import together
from workeven.notation.tokens import Token
from workeven.notation.tree import (
    ONE,
    AnyStitch,
    Aside,
    Chain,
    ChainOfTurning,
    Decrease,
    Each,
    Either,
    Exactly,
    FastenOff,
    First,
    FromHook,
    Increase,
    JoinRound,
    Last,
    LeaveRest,
    More,
    NamedStitch,
    Next,
    OneChain,
    Open,
    OtherSide,
    Over,
    Repeat,
    Same,
    Skip,
    Space,
    StatedHere,
    Step,
    Stitch,
    StitchGroup,
    ToLast,
    Travel,
    Turn,
    Unplaced,
    Work,
)
from workeven.notation.unworked import LEAVING, with_left
from workeven.notation.whereabouts import BEGIN, pass_whereabouts
from workeven.records import replace

#: reads one kind of phrase, or gives None and leaves the position where it was
Reader = Callable[[Stream], tuple[Step, ...] | None]


#: how deep repeats may nest, and how many steps a row may have: more is no row that anyone works
DEEPEST = 6
MOST_STEPS = 400


def steps(stream: Stream, *closing: str, depth: int = 0) -> tuple[Step, ...]:
    """Steps up to a closing mark or word (not passed), or to the end of the row.

    Takes: sc in next st, ch 1, turn
    Refuses: sc in next st frobnicate
    """
    if depth > DEEPEST:
        raise stream.fault(mend=f"nest repeats at most {DEEPEST} deep")
    found: list[Step] = []
    while not stream.at_end():
        if passes_separator(stream):
            continue
        told = None if depth else _count_before_last_words(stream, found)
        if (more := told or _further_places(stream, found)) is not None:
            found.append(more)
            continue
        if found and stream.is_word("rep") and (again := _between_brackets(stream, found)):
            found = again
            continue
        if _closes(stream, closing) or _only_a_count_left(stream, found, depth):
            break
        of_all = found and stream.token.word in _OF_ALL
        if of_all and (otherwise := _said_of_all(stream, found, depth)) is not None:
            found = otherwise
            continue
        before = stream.at
        stream.steps += 1
        if stream.steps > MOST_STEPS:
            raise _too_many(stream)
        step = one_step(stream, depth)
        if found and stream.tokens[before - 1].word == "and" and stream.said & _SPACES:
            step = _in_the_spaces_too(stream, found[-1], step, before)
        if stream.elided:
            stream.elided = False
            if stream.folded[: stream.end].rstrip().endswith("under the next"):
                step = _of_the_same_name(found, step)
        step = _with_words_behind(stream, step, depth)
        placed = stream.nth or stream.far_side or stream.but_first
        found.extend(_placed(stream, found, step, depth) if placed else step)
        _check_separated(stream, before, closing)
    return tuple(_with_neighbours(stream, found, depth))


def _further_places(stream: Stream, found: list[Step]) -> Work | None:
    """``sc in next st (PM for beg of rnd) and in each of next 14 sts``: the same stitch goes on.

    Takes: in each of next 14 sts
    Refuses: in next ch-2 sp work 3 dc
    """
    behind = stream.at > 1 and stream.tokens[stream.at - 1].word == "and"
    last = found[-1] if found else None
    if not behind or not stream.is_word("in") or not isinstance(last, Work):
        return None
    if not isinstance(last.target, Next) or stream.tokens[stream.at - 2].word not in (")", "]"):
        return None
    mark, start = stream.here(), stream.start
    stream.take()
    try:
        where = target(stream)
    except NotUnderstood:
        where = None
    if isinstance(where, Next) and (stream.at_end() or stream.token.kind == "mark"):
        return replace(last, target=where, start=start, end=stream.end)
    stream.back_to(mark)
    return None


def _with_words_behind(stream: Stream, step: tuple[Step, ...], depth: int) -> tuple[Step, ...]:
    """A step with what is said behind it: where its place lies, or another place for it."""
    behind = stream.token.word
    if behind in BEGIN:
        pass_whereabouts(stream, step)
    elif behind == "or" and depth:
        return _or_another(stream, step, depth)
    return step


def _or_another(stream: Stream, step: tuple[Step, ...], depth: int) -> tuple[Step, ...]:
    """``2 sc in next ch-2 sp or sc in each of next 2 dc``: as the row below has it.

    Takes: or sc in each of next 2 dc
    Refuses: or until piece measures 30 cm
    """
    mark = stream.here()
    stream.take()
    try:
        other = one_step(stream, depth)
    except NotUnderstood:
        other = ()
    ways = [_as_it_comes(one[0]) for one in (step, other) if len(one) == 1]
    if len(ways) == len((step, other)) and all(ways):
        return (Either(tuple((way,) for way in ways if way is not None)),)
    stream.back_to(mark)
    return step


def _as_it_comes(step: Step) -> Over | None:
    """A step into the places that come next, with none passed over; None for others."""
    match step:
        case Work(content=content, target=Next(names=names, count=count), start=start, end=end):
            return Over(content, names, count, start, end)
        case Skip(target=Next(names=names, count=count), start=start, end=end):
            return Over((), names, count, start, end)
        case _:
            return None


def _with_neighbours(stream: Stream, found: list[Step], depth: int) -> list[Step]:
    """The steps of a row or group, with those read together that are known by their neighbours."""
    whole = None if depth else stream.whole
    with_chain = with_whole(found, whole)
    if whole is not None and with_chain == found and not any(map(_is_leg, found)):
        raise stream.fault(mend="a chain before the stitch counts as a part of it")
    found = with_legs(with_picots(with_chain))
    if "each" in stream.said:
        found = listed_in_each(found)
    if "sk" in stream.said and "each" in stream.said:
        found = with_chains_over(found)
    if "sk" in stream.said and "of" in stream.said and stream.vocabulary.special:
        found = _without_rest_of_group(stream, found)
    if not stream.said.isdisjoint(LEAVING):
        found = with_left(found)
    if depth:
        return found
    if "same" in stream.said and "ch" in stream.said:
        found = listed_at_head(found)
    if "over" in stream.said:
        found = over_each(stream.text, found)
    found = with_lead_chain(found)
    if "last" in stream.said and not stream.said.isdisjoint(("sp", "lp")):
        found = _in_the_last_told(found)
    if "sl st" in stream.said and "fasten" in stream.said:
        found = _with_closing_slip(found)
    if stream.chain_space and (leaving := space_of_chain(tuple(found))) is not None:
        found = list(leaving)
    comes_back = not stream.said.isdisjoint(("first", "last")) and "same" in stream.said
    return with_place_of_start(found) if comes_back else found


def _is_leg(step: Step) -> bool:
    """Whether a chain is told to be a part of the stitch behind it already."""
    return isinstance(step, Chain) and step.counts_as is not None and bool(step.counts_as.leg)


def _in_the_last_told(found: list[Step]) -> list[Step]:
    """``rep from * to last ch-5 lp, ch 5, sc in last lp``: in that one, be it the last or not."""
    for at, step in enumerate(found):
        limit = (
            step.times.limit if isinstance(step, Repeat) and isinstance(step.times, Open) else None
        )
        if not isinstance(limit, ToLast) or limit.count.values != (1,):
            continue
        space = limit.names[0]
        behind = next((n for n in range(at + 1, len(found)) if isinstance(found[n], Work)), 0)
        work = found[behind]
        if not behind or not isinstance(work, Work) or not isinstance(work.target, Last):
            continue
        bare = work.target.names == (Space(),) and isinstance(space, Space) and space.chains
        if bare and work.target.count.values == (1,):
            target = replace(work.target, names=(space,))
            return [*found[:behind], replace(work, target=target), *found[behind + 1 :]]
    return found


def _with_closing_slip(found: list[Step]) -> list[Step]:
    """``sc around. Sl st, fasten off``: into the next stitch, which may be the first of the round.

    >>> _with_closing_slip([])
    []
    """
    end = next((at for at, one in enumerate(found) if isinstance(one, FastenOff)), 0)
    slip = found[end - 1] if end > 1 else None
    alone = isinstance(slip, Work) and isinstance(slip.target, Unplaced)
    if not alone or not isinstance(slip, Work) or slip.target != Unplaced(ONE):
        return found
    only = slip.content[0]
    if not isinstance(only, Stitch) or only.name != "sl st":
        return found
    return [*found[: end - 1], replace(slip, target=Next((AnyStitch(),))), *found[end:]]


def _of_the_same_name(before: list[Step], found: tuple[Step, ...]) -> tuple[Step, ...]:
    """``7 dc under the next loop, sc under the next``: under a loop too, as no stitch is."""
    last = next((one for one in reversed(before) if not isinstance(one, Chain | Aside)), None)
    only = found[0] if len(found) == 1 else None
    named = isinstance(last, Work) and isinstance(last.target, Next) and last.target.count is ONE
    if not named or not isinstance(only, Work) or not isinstance(only.target, Next):
        return found
    assert isinstance(last, Work)
    assert isinstance(last.target, Next)
    if only.target.names != (AnyStitch(),) or not isinstance(last.target.names[0], Space):
        return found
    return (replace(only, target=replace(only.target, names=last.target.names)),)


def _without_rest_of_group(stream: Stream, found: list[Step]) -> list[Step]:
    """``shell in next shell, sk 2 dc of shell``: they are passed with the shell worked into."""
    kept: list[Step] = []
    for step in found:
        before = kept[-1] if kept else None
        into = before.target if isinstance(before, Work) else None
        name = into.names[0] if isinstance(into, Next) else None
        whole = isinstance(name, StitchGroup) or (
            isinstance(name, NamedStitch) and name.name in stream.vocabulary.special
        )
        if whole and isinstance(step, Skip) and _names_group(stream, step):
            kept.append(Aside(step.start, step.end))
        else:
            kept.append(step)
    return kept


def _names_group(stream: Stream, skip: Skip) -> bool:
    """Whether a skip says that what is skipped is of a shell."""
    last = [one.word for one in stream.tokens if skip.start <= one.start < skip.end][-2:]
    groups = (*stream.vocabulary.special, *GROUPS)
    return last[0] == "of" and last[-1] in groups


#: words for a space
_SPACES = frozenset(("sp", "lp", "ch"))


def _in_the_spaces_too(
    stream: Stream, last: Step, step: tuple[Step, ...], before: int
) -> tuple[Step, ...]:
    """``sc in each sc and 4 sc in ch-4 sp``: in each such space, as the row comes to it."""
    only = step[0] if len(step) == 1 else None
    each = isinstance(last, Work) and isinstance(last.target, Each) and last.target.limit is None
    if not each or not isinstance(only, Work) or not isinstance(only.target, Next):
        return step
    words = [token.word for token in stream.tokens[before : stream.at]]
    spaces = all(isinstance(name, Space) for name in only.target.names)
    if not spaces or only.target.count is not ONE or "next" in words:
        return step
    return (replace(only, target=Each(only.target.names)),)


#: words with which something is said of the steps in front of them
_OF_ALL = frozenset(("all", "beg", "rep", "around", "across"))


def _between_brackets(stream: Stream, found: list[Step]) -> list[Step] | None:
    """``*[A], B, rep between [ ] once; rep from * across``: brackets again, within stars.

    Takes: rep between [ ] once
    Refuses: rep from * once
    """
    at = 1 if stream.ahead().word in _BETWEEN else 0
    return starred_again(stream, found) if at and stream.ahead(2).word in ("[", "(") else None


def _said_of_all(stream: Stream, found: list[Step], depth: int) -> list[Step] | None:
    """The steps so far, where what is said behind them tells them otherwise.

    Takes: rep around
    Takes: rep from * to * once
    Takes: all in next st
    Refuses: sc in next st
    """
    if stream.is_word("all"):
        return _all_in_one(stream, found, depth)
    if stream.is_word("beg"):
        return _starts_in_same(stream, found)
    if stream.is_word("rep") and stream.ahead().word in _BETWEEN:
        return starred_again(stream, found)
    return None if depth or not _may_be_again(stream) else _all_again(stream, found)


#: words behind "rep" that lead to what stands between two marks
_BETWEEN = ("from", "between", "bet", "btw")


def _may_be_again(stream: Stream) -> bool:
    """Whether "rep", or a comma and "around", stands behind the steps: all of them again."""
    if stream.is_word("rep"):
        return True
    parted = stream.is_word("around", "across") and stream.tokens[stream.at - 1].word == ","
    return parted and stream.ahead().kind in ("mark", "end")


def _starts_in_same(stream: Stream, found: list[Step]) -> list[Step] | None:
    """``2 hdc in each st, starting in the joining st``: the first two go there.

    Where a counted chain stands there that is an increase; else it is the first of them all.

    Takes: starting in the joining st
    Takes: starting with first sc in same st as joining
    Refuses: starting in next st
    """
    last = found[-1]
    if not isinstance(last, Work) or not isinstance(last.target, Each):
        return None
    mark = stream.here()
    stream.take()
    stream.accept_any("in", "with", "at")
    stream.articles()
    if stream.accept("first") and (stream.token.kind == "stitch" or stream.is_word("st")):
        stream.take()  # "starting with first sc in same st as joining"
        stream.accept("in")
        stream.articles()
    joined = stream.accept("join", "st")
    if not joined and stream.accept("same") and stream.accept_any("st", "place"):
        joined = not stream.accept("as") or bool(stream.accept_any("join", "sl st"))
    if not joined:
        stream.back_to(mark)
        return None
    return [*found[:-1], replace(last, target=Same()), last]


def _all_again(stream: Stream, found: list[Step]) -> list[Step] | None:
    """``sc 2, inc, rep around``: all steps again, but the chain at the head of the round."""
    mark = stream.here()
    stream.accept("rep")
    head = [at for at, step in enumerate(found) if not isinstance(step, Aside | Chain)]
    body = found[head[0] :] if head else []
    head_chain = bool(head) and any(isinstance(step, Chain) for step in found[: head[0]])
    plain = all(isinstance(step, Work | Increase | Decrease | Skip | Chain) for step in body)
    times: Exactly | More | Open | None = times_by_sides(stream)
    if times is None and not head_chain:
        count = times_count(stream)
        if count is not None:  # "3 tr in ring, 2 ch; repeat 3 times more"; "sc, inc; repeat 6x"
            times = More(count, more=bool(stream.accept("more")))
    around = stream.accept_any("around", "across") or stream.accept("to", "end")
    if times is None and around:
        times = Open()
    ends = times is not None and stream.token.kind in ("mark", "end")
    opened = any(isinstance(step, Work) and isinstance(step.target, Each | Same) for step in body)
    if times is None or not (plain and body and ends) or opened:
        stream.back_to(mark)
        return None
    lead = next((step for step in found[: head[0]] if isinstance(step, Chain)), None)
    if lead is not None and lead.count.values != (1,):
        raise stream.fault(
            stream.tokens[mark.at].start,
            found="from where the row is repeated is not said, nor whether its chain is repeated",
            mend="write “*…; rep from * around” where it begins",
        )
    start = body[0].start
    return [*found[: head[0]], Repeat(tuple(body), times, start=start, end=stream.end)]


def _all_in_one(stream: Stream, found: list[Step], depth: int) -> list[Step] | None:
    """``3 dc, ch 2, 3 dc, all in ring``: a group that is told without its brackets.

    It begins behind the last step with a place of its own; the chain at the head of the row is
    none of it.
    """
    mark, first = stream.here(), len(found)
    while first and _has_no_place(found[first - 1]):
        first -= 1
    if not depth and first == 0 and isinstance(found[0], Chain):
        first = 1
    start = stream.take().start
    where = where_of(stream) if stream.is_word("in") and len(found) - first > 1 else None
    if where is None:
        stream.back_to(mark)
        return None
    content = tuple(part for step in found[first:] if (part := _as_content(step)) is not None)
    return [*found[:first], Work(content, where, start=found[first].start or start, end=stream.end)]


def _as_content(step: Step) -> Stitch | Chain | None:
    """What a step without a place of its own puts into one."""
    if isinstance(step, Chain):
        return step
    if isinstance(step, Work) and isinstance(step.target, Unplaced):
        only = step.content[0]
        return replace(only, count=step.target.count) if isinstance(only, Stitch) else None
    return None


def _has_no_place(step: Step) -> bool:
    """Whether a step is a number of stitches, or chains, and nothing says where they go."""
    if isinstance(step, Chain):
        return step.counts_as is None
    plain = isinstance(step, Work) and isinstance(step.target, Unplaced) and len(step.content) == 1
    return plain and isinstance(step, Work) and isinstance(step.content[0], Stitch)


def _placed(
    stream: Stream, before: list[Step], found: tuple[Step, ...], depth: int
) -> tuple[Step, ...]:
    """A step whose place is told from another point than where the hook stands."""
    if stream.but_first:
        stream.but_first = False
        start = found[0].start if found else stream.start
        found = (Skip(First((AnyStitch(),)), start, start), *found)
    if stream.nth:
        found = counted_off(stream, before, found, inside=depth > 0)
    return _turned_to_far_side(stream, before, found) if stream.far_side else found


def _turned_to_far_side(
    stream: Stream, before: list[Step], found: tuple[Step, ...]
) -> tuple[Step, ...]:
    """``sc in other side of each ch`` behind a chain worked along: the hook goes back along it."""
    stream.far_side = False
    along = any(isinstance(one, Work) and isinstance(one.target, FromHook) for one in before)
    if not along or not found or any(isinstance(one, OtherSide) for one in (*before, *found)):
        return found
    return (OtherSide(found[0].start, found[0].start), *found)


def _too_many(stream: Stream) -> NotUnderstood:
    return stream.fault(
        found=f"the row has more than {MOST_STEPS} steps",
        mend="write what is worked again as a repeat",
        code="row-too-long",
    )


def _only_a_count_left(stream: Stream, found: list[Step], depth: int) -> bool:
    """Whether a stated count closes the row without brackets ("…, turn. 34 sc.").

    Where more could be worked ("sc in next 9 sc. 10 sc.") it may be a step as well: the stream
    keeps where it begins, for a second reading. So it is behind a comma where nothing is left to be
    worked ("dc in last st, 11 dc, 9 ch-1 sps.").
    """
    if not stream.at or stream.at == stream.either:
        return False
    before = stream.tokens[stream.at - 1].word
    if before not in (".", ",", ";", "|") or not begins_count(stream):
        return False
    mark = stream.here()
    told = pass_count_words(stream) and stream.at > mark.at
    said = None
    closed = (
        before == ","
        and not depth
        and bool(found)
        and isinstance(found[-1], Work)
        and _ends_row(found[-1])
    )
    if told or (stream.is_amount() and (before in (".", ";") or closed)):
        said = stated(stream, stream.start)
        stream.accept(".")
    passed = stream.tokens[mark.at : stream.at]
    whole = said is not None and stream.at_end()
    stream.back_to(mark)
    if not whole or said is None:
        return False
    told = told or any(token.word in _LEFT for token in passed)
    ends = any(unit == "sts" for _, unit in said.counts) or bool(found and _ends_row(found[-1]))
    if told or (before == "." and ends):
        return True
    if depth or not found:
        return False
    stream.either = stream.at
    return True


#: marks in front of a count that stands without brackets ("join—90 sc", "6 times = 18")
_TELLING = ("=", "-", ":")
#: what may still be said behind a row's count
_LAST_WORDS = (Aside, Chain, FastenOff, Turn, JoinRound, StatedHere)


def _count_before_last_words(stream: Stream, found: list[Step]) -> StatedHere | None:
    """``… dc2tog. 19 sts. Fasten off``: a count as a sentence of its own, before the last ones.

    A number with a stitch behind a full stop may be a step: it is a count where that word is
    "sts", or nothing more could be worked.
    """
    if not found or stream.token.kind == "stitch":
        return None
    if (change := change_at_end(stream)) is not None:
        return change
    mark, start = stream.here(), stream.start
    opened = None if stream.is_amount() else stream.accept_any(*_TELLING)
    if not opened and stream.tokens[stream.at - 1].word != ".":
        return None
    told = begins_count(stream) and not stream.is_amount()  # "You have 10 sc; do not join"
    said = stated(stream, start) if begins_count(stream) else None
    end = stream.end
    if said is not None and stream.is_mark(".", ";") and stream.ahead().kind != "end":
        plain = any(unit == "sts" for _, unit in said.counts) or _ends_row(found[-1])
        behind = stream.here()
        if (opened or plain or told) and _only_last_words(stream):
            stream.back_to(behind)
            return StatedHere(said, start, end)
    stream.back_to(mark)
    return None


def _only_last_words(stream: Stream) -> bool:
    """Whether no stitch is worked in what is left of the row."""
    if stream.counts_told == _MOST_COUNTS or stream.at + _MOST_WORDS < len(stream.tokens):
        return False
    stream.counts_told += 1
    try:
        return all(isinstance(step, _LAST_WORDS) for step in steps(stream)) and stream.at_end()
    except NotUnderstood:
        return False
    finally:
        stream.counts_told -= 1


#: counts that a row tells one behind the other, and words behind one; each count asks what follows
_MOST_COUNTS = 2
_MOST_WORDS = 48


#: words behind a number of stitches that say that they are what is there then ("20 sc remain")
_LEFT = ("remain", "remains", "rem", "left", "total", "altogether")


def _ends_row(step: Step) -> bool:
    """Whether nothing more can be worked behind a step: what follows is a count."""
    if isinstance(step, Work) and isinstance(step.target, Each):
        return step.target.limit is None
    if isinstance(step, Work):
        return isinstance(step.target, Last | ChainOfTurning)
    if isinstance(step, Travel):
        return isinstance(step.target, First | ChainOfTurning)
    return isinstance(step, Turn | JoinRound | FastenOff | Repeat | LeaveRest)


def _closes(stream: Stream, closing: tuple[str, ...]) -> bool:
    token = stream.token
    if token.kind not in ("mark", "word"):
        return False
    if token.word == "rep" and "rep from" in closing:
        return (
            stream.ahead().word in _BEHIND_REP
            or stream.ahead().kind in ("num", "rate", "mark", "end")
            or says_sides(stream)
        )
    if token.word == "rep" and "rep this" in closing:
        return stream.ahead().word == "this" and stream.ahead(2).word in ("row", "rnd")
    if token.word in ("*", "†") and f"closing {token.word}" in closing:
        return closes_star(stream, token.word)
    if token.word not in closing or (token.word == "-" and stream.is_amount()):
        return False
    return token.word != "for" or stream.ahead().kind in ("num", "formula")


#: words behind "rep" with which a repeat within the row goes on
_BEHIND_REP = frozenset(
    "from around across along to until till all 1x 2x 3x * ** † between bet btw".split()
)


def _check_separated(stream: Stream, before: int, closing: tuple[str, ...]) -> None:
    """A step must end at a separator, a bracket or where another step may begin."""
    pass_purpose(stream)
    token = stream.token
    if stream.at == before:
        raise stream.fault()
    ends = token.kind in ("end", "mark") or token.word in ("and", "then", "also", "but")
    all_in = token.word == "all" and stream.ahead().word == "in"  # "3 dc, ch 2, 3 dc all in ring"
    if ends or all_in or _closes(stream, closing) or _begins_step(stream):
        return
    if stream.tokens[stream.at - 1].word in (")", "]") and stream.text[token.start].isupper():
        return  # a sentence of its own behind a count: "(18) Stuff."
    raise stream.fault()


_BEGINNERS = frozenset(
    "ch sk turn join fasten rep inc dec leave leaving work working place pm do change with "
    "make cut weave magic ending end omitting picot pull close mr drop finish move break".split()
)


def _begins_step(stream: Stream) -> bool:
    token = stream.token
    return token.kind in ("stitch", "num", "formula") or (
        token.kind == "word" and token.word in _BEGINNERS
    )


def one_step(stream: Stream, depth: int) -> tuple[Step, ...]:
    """One step: the phrase that begins with the word that stands here.

    Takes: sc in next st
    Refuses: frobnicate
    """
    token = stream.token
    if (
        (not stream.at or stream.tokens[stream.at - 1].kind == "mark")
        and not stream.said.isdisjoint(SAYING)
        and (told := chains_said(stream)) is not None
    ):
        return told
    if token.word in BEGINNING and (noted := note(stream)) is not None:
        return noted
    if token.kind == "mark" and not stream.is_amount():
        if token.word in ("[", "(", "*") and (drawn := loop_by_loop(stream)) is not None:
            return (drawn,)
        inner = Inner(partial(steps, depth=depth + 1), partial(one_step, depth=depth))
        return marked(stream, inner)
    if token.kind == "rate" and (times := _times_in_front(stream, depth)) is not None:
        return times
    for read in _readers_of(token):
        found = read(stream)
        if found is not None:
            return _timed(stream, found)
    raise stream.fault()


def _times_in_front(stream: Stream, depth: int) -> tuple[Step, ...] | None:
    """``6x inc``, ``6x (sc, inc)``: how often, in front of what is worked.

    Takes: 6x (sc in next st, ch 1)
    Refuses: 6 sc
    """
    start = stream.start
    count = times_count(stream)
    opened = None if count is None else stream.accept_any("(", "[")
    if count is None:
        return None
    if opened is not None:
        closing = ")" if opened == "(" else "]"
        body = steps(stream, closing, depth=depth + 1)
        stream.expect(closing, mend="close the brackets")
    elif stream.token.kind == "stitch" or stream.is_word("inc", "dec"):
        body = one_step(stream, depth + 1)
    else:
        return None
    return (Repeat(tuple(body), Exactly(count), start=start, end=stream.end),)


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


def from_hook_on(stream: Stream) -> tuple[Step, ...] | None:
    """``starting in 2nd ch from hook, sc in each of next 5 ch``: the first goes into that chain.

    Takes: starting in 2nd ch from hook, sc in each ch across
    Takes: starting in 2nd ch from hook, *sc2tog over next 2 ch, sc in next ch; rep from * across
    Refuses: starting sc
    """
    if "hook" not in stream.said:
        return None
    where = begins_from_hook(stream)
    if where is None:
        return None
    start = stream.start
    found = one_step(stream, 0)
    first = parted(found[0], where) if found else None
    if first is None and found and isinstance(found[0], Repeat) and where.nth.values == (2,):
        first = (Skip(Next((OneChain(),)), start, start), found[0])  # no st stands for one chain
    if first is None:
        raise stream.fault(start, mend="write “sc in 2nd ch from hook and in each ch across”")
    return (*first, *found[1:])


def begins_here(stream: Stream) -> tuple[Step, ...] | None:
    """``join yarn in next st, ch 1, beg in same st, …``: there the row begins in any case.

    Behind a chain that may count as a stitch the first one would be an increase: that is not read.

    Takes: beg in same st as joining
    Refuses: beg in next st
    """
    mark, start = stream.here(), stream.start
    before = [token for token in stream.tokens[: stream.at] if token.kind != "mark"][-2:]
    counted = [token.value for token in before if token.kind == "num"]
    chained = any(token.word == "ch" for token in before)
    stream.take()
    stream.accept_any("in", "with", "at")
    stream.articles()
    if not stream.accept("same") or not stream.accept_any("st", "place", "sp"):
        stream.back_to(mark)
        return None
    if stream.accept("as"):
        stream.accept_any("join")
        stream.accept("sl st")
    told_last = "rep" in [token.word for token in stream.tokens[: mark.at]] and _leads_by_one(
        stream
    )
    if before and not (chained and counted == [1]) and not told_last:
        raise stream.fault(start, mend="write “sc in same st” for the first stitch")
    return (Aside(start, stream.end),)


def _leads_by_one(stream: Stream) -> bool:
    """Whether the row begins with ch 1: "… rep from * around, beg in same st as joining"."""
    first = next((at for at, token in enumerate(stream.tokens) if token.word == "ch"), None)
    return first is not None and stream.tokens[first + 1].value == 1


_OTHERS: tuple[Reader, ...] = (other_side, aside_step)


def _one_stitch(stream: Stream) -> tuple[Step, ...] | None:
    """``and a dc in next st``: the article adds nothing.

    Takes: a dc in next st
    Refuses: a magic ring
    """
    if stream.ahead().kind != "stitch":
        return None
    stream.take()
    return stitches(stream)


def _by_loops(stream: Stream) -> tuple[Step, ...] | None:
    """``yo, insert hook in next st, …``: a stitch told by the moves of the hook.

    Takes: insert hook in next st, pull up a loop, yo, pull through 2 loops
    Refuses: insert a zip
    """
    found = loop_by_loop(stream)
    if found is not None:
        return (found,)
    if (left := loops_left(stream)) > 1:
        raise stream.fault(
            found=f"of the loops drawn up {left} are left on the hook",
            mend="write how they are worked off (“yo, draw through 2 loops”, “… through all loops "
            "on hook”), or name the stitch: “dc in next st”, “dc3tog over next 3 sts”",
        )
    return None


#: the phrases that may begin with a word, in the order in which they are tried; all others may be
#: the other side of a chain, or an aside
_BY_WORD: dict[str, tuple[Reader, ...]] = {
    "ch": (picots, chains),
    "picot": (picots,),
    "another": (another, aside_step),
    "sk": (skip,),
    "omit": (skip,),
    "pass": (skip, aside_step),
    "passing": (skip, aside_step),
    "inc": (in_every_nth, change),
    "dec": (change,),
    "join": (aside_step, join),
    "turn": (other_side, turn),
    "do": (turn, aside_step),
    "dont": (turn, aside_step),
    "fasten": (fasten_off,),
    "finish": (fasten_off, aside_step),
    "end": (fasten_off, *_OTHERS),
    "fo": (fasten_off,),
    "leave": (leave, aside_step),
    "leaving": (held_back, leave, aside_step),
    "make": (ring, aside_step, verb),
    "work": (ring, together, other_side, aside_step, plain_work, verb),
    "take": (together, aside_step),
    "rep": (aside_step,),
    "close": (closes_ring, aside_step),
    "last": (last_worked, other_side, aside_step),
    "final": (last_worked, other_side, aside_step),
    "making": (in_every_nth, placed_last, corners, aside_step),
    "working": (other_side, in_every_nth, placed_last, corners, aside_step),
    "putting": (placed_last, aside_step),
    "placing": (placed_last, aside_step),
    "with": (ring, in_every_nth, placed_last, corners, aside_step),
    "in": (ring, other_side, in_place_first, aside_step),
    "beg": (ring, from_hook_on, begins_here, standing_stitch, aside_step, begins_in, stitches),
    "standing": (standing_stitch,),
}
_BY_WORD |= dict.fromkeys(("blo", "flo", "bl", "fl"), (in_loop, aside_step))
_BY_WORD |= dict.fromkeys(HOOK_WORDS, (_by_loops, aside_step, yarn_drawn_up))
_BY_WORD |= dict.fromkeys(("holding", "keeping", "retaining"), (held_back, aside_step))
_BY_WORD |= dict.fromkeys(("form", "start", "mr"), (ring, aside_step))
_BY_WORD["each"] = (grows, *_OTHERS)
_BY_WORD["from"] = (from_here, *_OTHERS)
_BY_WORD |= dict.fromkeys(("change", "changing", "switch"), (yarn_changed, *_OTHERS))
_BY_WORD |= dict.fromkeys(("a", "an"), (ring, _one_stitch, aside_step))
_BY_WORD["the"] = (last_worked, ring, aside_step)
_BY_WORD |= dict.fromkeys(("adjustable", "magic", "sliding"), (ring, aside_step))


_BY_KIND: dict[str, tuple[Reader, ...]] = {
    "stitch": (sewn, together, stitches),
    "grp": (group_of, stitches),
    "num": (picots, together, held_back, stitches, chains, change),
    "formula": (stitches, chains, change),
    "mark": (stitches, chains),  # a list by size that begins with a dash
    "chn": (picots, chains),
    "word": _OTHERS,
}


def _readers_of(token: Token) -> tuple[Reader, ...]:
    """The phrases that may begin with this token."""
    if token.kind == "word":
        return _BY_WORD.get(token.word, _OTHERS)
    if token.kind == "stitch" and token.word in ("inc", "dec"):  # declared: "inc 6 sts evenly" too
        return (_changed_evenly, *_BY_KIND["stitch"])
    return _BY_KIND.get(token.kind, ())


def _changed_evenly(stream: Stream) -> tuple[Step, ...] | None:
    """``inc 6 sts evenly`` of a pattern that declares how its inc is worked.

    Takes: inc 6 sts evenly
    Refuses: inc in next st
    """
    if stream.said.isdisjoint(("evenly", "even")):
        return None
    if stream.ahead().kind not in ("num", "formula") or stream.ahead(2).word != "st":
        return None
    whole, at = stream.tokens, stream.at
    stream.tokens = (*whole[:at], whole[at]._replace(kind="word"), *whole[at + 1 :])
    try:
        return change(stream)
    finally:
        stream.tokens = whole
