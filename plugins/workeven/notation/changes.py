"""Increases, decreases, skips and chains: "inc around", "dec 12 sts evenly", "sk 2 sts", "ch 3".

Takes     ``Stream``.
Gives     ``change``, ``skip``, ``chains``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps.
"""

from __future__ import annotations

from typing import Literal

from workeven.notation.contents import times_follow
from workeven.notation.ends import pass_purpose
from workeven.notation.expressions import ignoring_case
from workeven.notation.picots import closed_chain, picot
from workeven.notation.places import limit, name, names, no_name_follows
from workeven.notation.remarks import EACH_CHAIN, counts_as
from workeven.notation.stitches import where_of
from workeven.notation.stream import Stream
from workeven.notation.targets import target
from workeven.notation.together import named_change
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Aside,
    Chain,
    CountsAs,
    Decrease,
    Each,
    Evenly,
    Exactly,
    First,
    Increase,
    Inside,
    Last,
    NamedStitch,
    Next,
    OneChain,
    Picot,
    Repeat,
    Same,
    Skip,
    Space,
    Step,
    StitchGroup,
    Target,
    Times,
    Unplaced,
)


def change(stream: Stream) -> tuple[Step, ...] | None:
    """``inc``, ``dec``, ``inc around``, ``dec 12 sts evenly``.

    Takes: dec 12 sts evenly
    Refuses: evenly
    """
    if stream.token.kind in ("num", "formula"):
        return _so_many_changes(stream)
    word = "inc" if stream.is_word("inc") else "dec"
    if not stream.is_word("inc", "dec"):
        return None
    token = stream.take()
    start = token.start
    if stream.is_amount() and not times_follow(stream):
        amount = stream.amount()
        if (named := named_change(stream, amount, word, start)) is not None:
            return named
        if stream.token.kind == "stitch" and stream.ahead().word == "evenly":
            stream.take()
        stream.accept_any("st")
        if (sides := _at_markers(stream)) is not None:
            at_each: Literal["inc", "dec"] = "inc" if word == "inc" else "dec"
            return (Evenly(at_each, amount, 1, start, stream.end, sides),)
        if (ends := _at_edges(stream)) is not None or stream.accept("evenly") or _in_all_of(stream):
            ends = ends or _evenly_where(stream)
            change: Literal["inc", "dec"] = "inc" if word == "inc" else "dec"
            return (Evenly(change, amount, ends, start, stream.end),)
        if word == "inc":
            return (Increase(Unplaced(amount), start, stream.end),)
        return (Decrease(amount, None, start, stream.end),)
    if stream.accept("evenly"):
        raise stream.fault(start, mend="say how many: “dec 12 sts evenly”")
    if (ends := _at_edges(stream)) is not None:
        at_ends: Literal["inc", "dec"] = "inc" if word == "inc" else "dec"
        return (Evenly(at_ends, ONE, ends, start, stream.end),)
    return _next_changes(stream, word, start)


def _next_changes(stream: Stream, word: str, start: int) -> tuple[Step, ...]:
    """Behind "inc" or "dec" without a number: where, or how far.

    Takes: around
    """
    where = where_of(stream)
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


def _so_many_changes(stream: Stream) -> tuple[Step, ...] | None:
    """``2 inc``, ``4 dec``.

    Takes: 2 inc
    Refuses: 2 sts
    """
    mark, start = stream.here(), stream.start
    count = stream.amount()
    word = stream.accept_any("inc", "dec")
    if word is not None and not stream.is_word("in", "over"):
        if word == "inc":
            return (Increase(Unplaced(count), start, stream.end),)
        return (Decrease(count, None, start, stream.end),)
    stream.back_to(mark)
    return None


def _in_all_of(stream: Stream) -> bool:
    """Pass "in the round", "sc in each row" behind so many changes: they are spread over all of it.

    Takes: in the rnd
    Refuses: in the next st
    """
    mark = stream.at
    if stream.token.kind == "stitch":
        stream.take()
    if stream.accept_any("in", "on"):
        stream.accept_any("the", "this", "each")
        ended = stream.accept_any("row", "rnd") is not None
        if ended and (stream.at_end() or stream.token.kind == "mark"):
            return True
    stream.at = mark
    return False


def _at_markers(stream: Stream) -> int | None:
    """``on each side of each marker``, ``before and after each marker``: 2; None: at no marker."""
    mark = stream.at
    stream.accept_any("at", "on")
    sides = 0
    if stream.accept_any("each", "both", "either") and stream.accept("side"):
        stream.accept("of")
        sides = 2
    elif stream.accept("before", "and", "after"):
        sides = 2
    stream.accept_any("each", "all", "the")
    stream.accept_any("4", "four")
    if sides and stream.accept("marker"):
        return sides
    stream.at = mark
    return None


def _at_edges(stream: Stream) -> int | None:
    """``at each end``, ``each side``: 2; ``at neck edge``: 1; None where no edge is named."""
    mark = stream.at
    stream.accept_any("at", "on")
    both = stream.accept_any("each", "both") and stream.accept_any("end", "side", "edge", "edges")
    if both or (stream.accept("beg", "and", "end") and stream.at > mark + 3):
        if stream.accept("of"):
            stream.articles()
            stream.accept_any("row", "rnd", "each", "next")
        return 2
    stream.at = mark
    if not stream.accept_any("at", "on"):
        return None
    stream.articles()
    while stream.is_word("neck", "armhole", "front", "side", "left", "right", "center", "inner"):
        stream.take()
    if stream.accept("edge"):
        return 1
    stream.at = mark
    return None


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
        case Next(count=count) | First(count=count) | Last(count=count) if count.values == (2,):
            return Decrease(ONE, None, start, stream.end)
        case Each(limit=bound):
            return Decrease(None, bound, start, stream.end)
        case _:
            raise stream.fault(
                start, mend="write “dec over next 2 sts”, or name the stitch: “sc2tog”"
            )


def skip(stream: Stream) -> tuple[Step, ...] | None:
    """``sk 2 sts``, ``sk next ch-1 sp``.

    Takes: sk next ch-1 sp
    Refuses: sk
    """
    mark, start = stream.here(), stream.start
    if stream.accept_any("passing", "pass"):  # "passing over next st"
        if stream.is_word("over") and (
            stream.ahead().kind in ("num", "formula") or stream.ahead().word in ("next", "first")
        ):
            stream.take()
            return (*_skip(stream, start), *_skips_on(stream))
        stream.back_to(mark)
        return None
    if not stream.accept_any("sk", "omit"):
        return None
    stream.accept("only")
    if _passed_anyway(stream):
        return (Aside(start, stream.end),)
    stream.articles()
    if stream.is_mark("("):
        return _skips_in_brackets(stream, start)
    return (*_skip(stream, start), *_skips_on(stream))


def _passed_anyway(stream: Stream) -> bool:
    """``sc in each dc across, skipping picots``: the row goes into none of them as it is.

    Takes: picots
    Refuses: next picot
    """
    before = stream.tokens[: stream.at - 1]
    said = {token.word for token in before}
    if said.isdisjoint(("each", "across", "around")):
        return False
    mark = stream.here()
    every = stream.accept_any("all", "each", "any")
    stream.articles()
    found = name(stream)
    last = stream.tokens[stream.at - 1]
    others = isinstance(found, Space) and said.isdisjoint(("sp", "lp"))
    others = others or found == NamedStitch("picot")
    ends = stream.at_end() or stream.token.kind == "mark" or stream.is_word("turn", "join")
    if others and (every or last.plural) and ends:
        return before[-1].kind == "mark"
    stream.back_to(mark)
    return False


def _skips_in_brackets(stream: Stream, start: int) -> tuple[Step, ...]:
    """``(ch-1 sp, 32 sts, ch-1 sp)``: one after the other, all of them skipped.

    Takes: (ch-1 sp, 32 sts, ch-1 sp)
    Refuses: (see photo)
    """
    closing = stream.closing()
    stream.take()
    found = list(_skip(stream, start))
    while stream.at < closing and stream.accept_any(",", "and", "&", "+"):
        stream.accept("and")
        found.extend(_skip(stream, stream.start))
    if stream.at != closing:
        raise stream.fault(mend="say what is skipped: “sk 2 sts” or “sk next ch-1 sp”")
    stream.take()
    return tuple(found)


def _skips_on(stream: Stream) -> tuple[Step, ...]:
    """``, next 38 sts and next ch-2 sp``: what is skipped besides; a place alone is no step.

    Takes: , next 38 sts and next ch-2 sp
    Refuses: , 38 dc in next ch-2 sp
    """
    found: list[Step] = []
    while True:
        mark = stream.here()
        comma = stream.accept(",")
        joined = stream.accept_any("and", "&", "+")
        if joined and (space := _its_chains(stream)) is not None:
            found.append(space)
            continue
        if comma and (both := _stitches_and_space(stream)):
            found.extend(both)
            continue
        named = _place_comes(stream) or (joined is not None and _stitches_come(stream))
        if not (joined or comma) or not named:
            stream.back_to(mark)
            return tuple(found)
        counted = not (stream.is_word("next", "last") or stream.token.kind == "chn")
        more = _skip(stream, stream.start)
        if counted and (stream.at_end() or stream.is_mark(".", ";", ":")):
            # "sk 2 sts, 38 sts." states a count
            stream.back_to(mark)
            return tuple(found)
        found.extend(more)


def _stitches_and_space(stream: Stream) -> tuple[Step, ...]:
    """``sk ch-1 sp, 20 dc and ch-1 sp``: stitches that no step is, since a space is told with them.

    Takes: 20 dc and ch-1 sp
    Refuses: 20 dc and turn
    """
    mark, start = stream.here(), stream.start
    count = stream.amount() if stream.is_amount() else None
    stitch = stream.take() if count is not None and stream.token.kind == "stitch" else None
    spaced = stream.accept_any("and", "&", "+") is not None and stream.token.kind == "chn"
    if count is None or stitch is None or not spaced or stream.ahead().word not in ("sp", "lp"):
        stream.back_to(mark)
        return ()
    first = Skip(Next((NamedStitch(stitch.word),), count), start, stitch.end)
    return (first, *_skip(stream, stream.start))


def _its_chains(stream: Stream) -> Skip | None:
    """``sk first dc and ch 2, dc in next dc``: the chains of the space behind it.

    Takes: 2 ch
    Refuses: 2 ch in next st
    """
    mark, start = stream.here(), stream.start
    before = stream.is_amount() and stream.ahead().word == "ch"
    if not before and not (stream.is_word("ch") and stream.ahead().kind == "num"):
        return None
    if not before:
        stream.take()
    chains = stream.amount()
    if before:
        stream.take()
    number = chains.values[0] if len(chains.values) == 1 and chains.formula is None else None
    if number is None or not (stream.is_mark(",", ";") or stream.at_end()):
        stream.back_to(mark)
        return None
    return Skip(Next((Space(number),)), start, stream.end)


def _stitches_come(stream: Stream) -> bool:
    """Whether so many stitches are named, and nothing is said of where they go.

    Takes: 1 dc,
    Refuses: 1 dc in next st
    """
    after = stream.ahead(2)
    counted = stream.is_amount() and stream.ahead().kind == "stitch"
    return counted and (after.kind == "mark" or after.word == "end") and after.word != "("


def _place_comes(stream: Stream) -> bool:
    """Whether a place of its own is named here, with nothing that is worked into it."""
    after = stream.ahead()
    if stream.is_word("next"):
        return True
    if stream.is_word("first") and stream.tokens[stream.at - 1].word == "and":
        return after.kind in ("chn", "stitch") or after.word in ("st", "ch", "sp")
    if stream.is_word("last") and stream.tokens[stream.at - 1].word == "and":
        return after.kind == "chn" or after.word in ("st", "ch", "sp")
    if stream.token.kind == "chn":
        return after.word in ("sp", "lp")
    return stream.is_amount() and (after.word == "st" or after.kind == "chn")


def _skip(stream: Stream, start: int) -> tuple[Step, ...]:
    """Behind "sk": what is skipped.

    Takes: next ch-1 sp
    Refuses: frobnicate
    """
    if stream.is_word("same"):
        stream.take()
        return (Skip(Same(names(stream)[0]), start, stream.end),)
    if (open_ := _skip_up_to(stream)) is not None:
        return (Skip(open_, start, stream.end),)
    if stream.is_word("next", "first", "last", "each", "rem", "center", "all"):
        where = target(stream)
        behind = _pass_behind_what(stream)
        _pass_from_where(stream)
        if isinstance(where, Next):
            where = _whole_groups(where)
        chains = isinstance(where, Next | First) and isinstance(where.names[0], OneChain)
        said = counts_as(stream) if chains else None
        return (Skip(where, start, stream.end, said, behind=behind),)
    if stream.is_amount():
        count = stream.amount()
        if stream.at_end() or stream.token.kind == "mark" or stream.is_word("and", "then", "for"):
            return (Skip(Unplaced(count), start, stream.end),)
        found = Next(names(stream), count)
        behind = _pass_behind_what(stream)
        _pass_from_where(stream)
        if len(found.names) > 1 and count is not ONE and count.values != (1,):
            raise stream.fault(start, mend="say what of each is skipped: “sk 2 dc and 1 ch-2 sp”")
        said = counts_as(stream) if isinstance(found.names[0], OneChain) else None
        head = (Skip(First((AnyStitch(),)), start, start),) if _after_the_first(stream) else ()
        return (*head, Skip(_whole_groups(found), start, stream.end, said, behind=behind))
    if stream.at_end() or stream.token.kind == "mark":
        raise stream.fault(start, mend="say what is skipped: “sk 2 sts” or “sk next ch-1 sp”")
    where = target(stream)
    behind = _pass_behind_what(stream)
    return (Skip(where, start, stream.end, behind=behind),)


def _pass_behind_what(stream: Stream) -> bool:
    """``behind it``, ``behind fpdc``, ``behind``: what was worked in front of the row.

    Takes: behind the fpdc
    """
    if not stream.accept("behind"):
        return False
    stream.articles()
    if not (no_name_follows(stream) or stream.accept_any("it", "them")):
        names(stream)
        if stream.accept("just"):
            stream.accept_any("made", "worked")
    return True


#: from where stitches are counted off ("sk 5 sts from center back")
_FROM = (
    r"from (?:the )?(?:(?:center|centre) (?:back|front)|join(?:ing)?|marker|marked st|"
    r"(?:side )?seam|beginning|beg|start|edge|underarm)(?: of (?:the )?(?:rnd|round|row))?\b"
)


def _pass_from_where(stream: Stream) -> None:
    if not stream.is_word("from"):
        return
    found = ignoring_case(_FROM).match(stream.text, stream.start)
    if found is not None:
        stream.pass_to(found.end())


def _after_the_first(stream: Stream) -> bool:
    """``sk 2 dc after the first``: that one, over which a counted chain stands, is passed too.

    Takes: after the first
    Refuses: after the next
    """
    mark = stream.here()
    if stream.accept("after"):
        stream.articles()
        if stream.accept("first"):
            if stream.token.kind == "stitch" or stream.token.word == "st":
                stream.take()
            if stream.token.kind in ("mark", "end"):
                return True
    stream.back_to(mark)
    return False


def _whole_groups(found: Next) -> Next | Inside:
    """``sk next 5 groups``: up to the last stitch of the fifth."""
    if isinstance(found.names[0], StitchGroup):
        return Inside("last", AnyStitch(), found)
    return found


def _skip_up_to(stream: Stream) -> Each | None:
    """``all sts to next ch-1 sp``: as many as stand before it.

    Takes: sts to next ch-2 sp
    Refuses: next 3 sts
    """
    mark = stream.here()
    stream.accept_any("all", "each")
    stream.articles()
    stream.accept("rem")
    if stream.accept_any("st", "ch"):
        bound = limit(stream)
        if bound is not None:
            return Each((AnyStitch(),), bound)
    stream.back_to(mark)
    return None


def picots(stream: Stream) -> tuple[Step, ...] | None:
    """``picot``, ``3 picots``, ``ch-4 picot`` as steps of their own.

    Takes: ch-4 picot
    Refuses: ch 4
    """
    found = picot(stream)
    if found is None:
        return None
    steps: list[Step] = []
    for one in found:
        if isinstance(one, Times):
            inside = tuple(picot_ for picot_ in one.content if isinstance(picot_, Picot))
            steps.append(Repeat(inside, Exactly(one.count)))
        elif isinstance(one, Picot):
            steps.append(one)
    return tuple(steps)


def _each_counts(stream: Stream, count: Amount) -> CountsAs | None:
    """Behind a chain: each of its chains is a stitch.

    Takes: (each ch counts as a st)
    Refuses: (counts as dc)
    """
    if not stream.is_mark("("):
        return None
    found = EACH_CHAIN.match(stream.text, stream.start)
    if found is None:
        return None
    stream.pass_to(found.end())
    return CountsAs(((count, "st"),), None, None, found.start(), found.end())


def chains(stream: Stream) -> tuple[Step, ...] | None:
    """``ch 3``, ``3 ch``, ``ch 5 (counts as dc and ch 2)``.

    Takes: ch 5 (counts as dc and ch 2)
    Refuses: sc 5
    """
    start = stream.start
    if stream.token.kind == "chn":
        token = stream.take()
        count = Amount((token.value,), None, token.start, token.end)
        stream.amounts.append(count)
    elif stream.is_amount():
        mark = stream.here()
        count = stream.amount()
        if not stream.is_word("ch") or stream.ahead().word in ("sp", "lp"):
            stream.back_to(mark)
            return None
        stream.take()
    elif stream.is_word("ch"):
        stream.take()
        count = stream.amount() if stream.is_amount() else ONE
    else:
        return None
    if stream.token.word == "st" and stream.token.plural:
        stream.take()  # "chain 94 sts"
    stream.accept("lp")
    mark = stream.here()
    said = counts_as(stream) or _each_counts(stream, count)
    if said is None and stream.is_word("for", "to", "at"):
        pass_purpose(stream)
        said = counts_as(stream) or _each_counts(stream, count)
    if said is None:
        stream.back_to(mark)
        closed = closed_chain(stream, count, start)
        if closed is not None:
            return tuple(one for one in closed if isinstance(one, Chain | Picot))
    return (Chain(count, said, start, stream.end),)
