"""Stitches and where they go: "sc in next 6 sts", "2 dc in next st", "sl st to next ch-2 sp".

Takes     ``Stream``.
Gives     ``stitches``, ``where_of``, ``over_many``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps and "Slip stitches".
"""

from __future__ import annotations

from typing import Literal

from workeven.notation.asides import is_remark
from workeven.notation.contents import times_follow
from workeven.notation.earlier import left_on_rows
from workeven.notation.expressions import ignoring_case
from workeven.notation.labels import ordinals
from workeven.notation.numbered import numbered, numbered_group
from workeven.notation.places import GROUPS, MIDWAY, limit, names, pass_edge
from workeven.notation.remarks import counts_as
from workeven.notation.sides import along_side
from workeven.notation.stream import Here, NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    ChainOfTurning,
    CountsAs,
    Each,
    First,
    Foundation,
    FromHook,
    Gap,
    Inside,
    JoinRound,
    Last,
    Limit,
    NamedStitch,
    Next,
    OneChain,
    Open,
    Repeat,
    RowSides,
    Same,
    Skip,
    Space,
    Step,
    Stitch,
    Target,
    Travel,
    TurningChain,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import CLOSED_WORDS, kind_of
from workeven.notation.whereabouts import pass_far_side
from workeven.records import replace

#: words after a stitch that begin its place.
_INTO = ("in", "around", "over", "on", "between", "thru", *MIDWAY)
#: those that belong to its name
_OF_THE_PLACE = ("between", *MIDWAY)
#: with "at", which begins it in "at base of"
_BEGIN_PLACE = (*_INTO, "at")


def where_of(stream: Stream) -> Target | None:
    """The place after "in", "around" or "over", or None where none is named.

    Takes: in next st
    Refuses: 6 times
    """
    _pass_remark(stream)
    token = stream.token
    if token.word == "rnd" and not token.plural and _post_follows(stream):
        stream.take()  # "1 rtrf round next st"
        return _around_post(stream) or target(stream)
    if token.kind != "word" or token.word not in _BEGIN_PLACE:
        return None
    if token.word == "around" and not _post_follows(stream):
        return None
    if token.word == "at" and not _at_foot(stream):
        return None
    if token.word not in _OF_THE_PLACE:
        around = stream.take().word == "around"
        if around and (found := _around_post(stream)) is not None:
            return found
    return target(stream)


#: what of a stitch a step goes around
_POST = ("post", "stem", "stalk")
#: which way the hook takes around it
_FROM_WHERE = r"\s*(?:from|at|on|in) (?:the )?(?:front|back|behind|right side|wrong side|rs|ws)\b"


def _around_post(stream: Stream) -> Target | None:
    """Behind "around": "post of next dc", "bar of next dc from the back".

    Takes: post of next dc
    Takes: the stem of next dc from behind
    Refuses: next dc
    """
    mark = stream.at
    stream.articles()
    if stream.ahead().word in _POST:
        stream.accept_any("front", "back")  # "hdc around front post of next hdc"
    if _bar(stream):
        stream.take()
    elif stream.accept_any(*_POST) is None:
        stream.at = mark
        return None
    if not stream.accept("of"):
        stream.at = mark
        return None
    found = target(stream)
    way = ignoring_case(_FROM_WHERE).match(stream.text, stream.tokens[stream.at - 1].end)
    if way is not None:
        stream.pass_to(way.end())
    return found


def _at_foot(stream: Stream) -> bool:
    """``at base of next dc``, ``at foot of ch 3``."""
    return stream.words_ahead("at", "base") or stream.words_ahead("at", "foot")


def _pass_remark(stream: Stream) -> None:
    """Pass what stands between a stitch and its place: "3 dc (half shell) in last sc"."""
    if not stream.is_mark("(") or stream.ahead().kind != "word" or stream.ahead().word == "ch":
        return
    closing = stream.closing()
    if closing > 0 and stream.tokens[closing + 1].word in _INTO and is_remark(stream, closing):
        stream.at = closing + 1


#: words behind "around" that begin a place: the step goes around its post
_AROUND = frozenset(
    "next post stem stalk each same the first last skipped prev corresponding".split()
)


def _bar(stream: Stream, ahead: int = 0) -> bool:
    """Whether "bar of" stands there: a stitch's post; a bar alone is a space."""
    token = stream.ahead(ahead) if ahead else stream.token
    return (
        token.word == "sp"
        and stream.ahead(ahead + 1).word == "of"
        and stream.text[token.start : token.end].lower() == "bar"
    )


def _post_follows(stream: Stream) -> bool:
    after = stream.ahead()
    if after.word == "sp":
        return _bar(stream, 1)
    counted = after.kind == "num" and stream.ahead(2).word == "skipped"
    sided = after.word in ("front", "back") and stream.ahead(2).word in _POST
    return after.word in _AROUND or after.kind == "stitch" or counted or sided


def stitches(stream: Stream) -> tuple[Step, ...] | None:
    """``sc in next 6 sts``, ``sc 6``, ``6 sc``, ``2 dc in next st``.

    Takes: 2 dc in next st
    Refuses: 2 frobs in next st
    """
    start = stream.start
    before: Amount | None = None
    if stream.is_amount():
        mark = stream.here()
        before = stream.amount()
        _pass_more(stream)
        if stream.token.kind != "stitch":
            return _same_again(stream, before, mark)
    if stream.token.kind == "grp" and stream.ahead().word in CLOSED_WORDS.values():
        stream.take()  # "4-dc bobble": of how many legs it is, its own words say
    beginning = stream.is_word("beg") and stream.ahead().kind == "stitch" and stream.take()
    if stream.token.kind != "stitch":
        return None
    name = stream.take().word
    if beginning:
        name = f"beg {name}"
    if stream.is_word("inc", "dec") and (changed := _named(stream, name, before, start)):
        return changed
    kind = kind_of(name)
    after = None
    if before is None and stream.is_amount() and not times_follow(stream):
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


def group_of(stream: Stream) -> tuple[Step, ...] | None:
    """``5-dc shell in next st``: so many into that place, whatever such a group is called.

    Takes: 5-dc shell in next sc
    Refuses: 5-dc shells
    """
    mark, start = stream.here(), stream.start
    token = stream.take()
    named = stream.accept_any(*GROUPS) or stream.token.word in stream.vocabulary.special
    if named and stream.token.kind == "stitch":
        stream.take()
    where = where_of(stream) if named and stream.is_word("in") else None
    if where is None:
        stream.back_to(mark)
        return None
    number = Amount((token.value,), None, token.start, token.start)
    made = Stitch(token.word, number, kind_of(token.word).legs, start, stream.end)
    return (Work((made,), where, start=start, end=stream.end),)


def _pass_more(stream: Stream) -> None:
    """``6 more sps``: so many beside the one that was told."""
    if stream.is_word("more", "other") and stream.ahead().kind == "stitch":
        stream.take()


def _same_again(stream: Stream, count: Amount, mark: Here) -> tuple[Step, ...] | None:
    """``1 dc in next st, 2 in the following``: so many of the same stitch.

    Takes: in next st
    Refuses: times
    """
    named = [token.word for token in stream.tokens[: stream.at] if token.kind == "stitch"]
    parted = stream.tokens[max(stream.at - 2, 0)].word in (",", "and", ";")
    at = 2 if stream.ahead().word in ("the", "a") else 1
    placed = stream.is_word("in") and stream.ahead(at).word in ("next", "each", "first", "last")
    where = where_of(stream) if named and parted and placed else None
    if where is None:
        stream.back_to(mark)
        return None
    start = count.start
    stitch = Stitch(named[-1], count, kind_of(named[-1]).legs, start, stream.end)
    return (Work((stitch,), where, start=start, end=stream.end),)


def another(stream: Stream) -> tuple[Step, ...] | None:
    """``another dc in same st``: one more.

    Takes: another dc in same st
    Refuses: another sleeve
    """
    mark = stream.here()
    stream.take()
    found = stitches(stream) if stream.token.kind in ("stitch", "num") else None
    if found is None:
        stream.back_to(mark)
    return found


def _dec_named(
    stream: Stream, name: str, count: Amount | None, start: int
) -> tuple[Step, ...] | None:
    """``sc dec over next 2 sts``: the decrease is of that stitch.

    Takes: dec over next 2 sts
    Refuses: dec
    """
    mark = stream.here()
    stream.take()
    if stream.is_word("over", "in"):
        where = where_of(stream)
        if (
            isinstance(where, Next)
            and where.count.values == (2,)
            and (count is None or count.values == (1,))
        ):
            stitch = Stitch(f"{kind_of(name).base}2tog", ONE, 2, start, stream.end)
            return (Work((stitch,), where, over=True, start=start, end=stream.end),)
    stream.back_to(mark)
    return None


def _named(stream: Stream, name: str, count: Amount | None, start: int) -> tuple[Step, ...] | None:
    """``sc inc in next st``, ``dc dec``: two in one, or two together, of the stitch named.

    Takes: inc in next st
    Refuses: inc 6 sts evenly
    """
    if stream.is_word("dec") and (decreased := _dec_named(stream, name, count, start)):
        return decreased
    if count is not None:
        return None
    mark = stream.here()
    increases = stream.take().word == "inc"
    if stream.is_amount() and not times_follow(stream):
        stream.back_to(mark)
        return None
    if not increases:
        stitch = Stitch(f"{kind_of(name).base}2tog", ONE, 2, start, stream.end)
        return _worked(stream, stitch, None, None, start)
    where = where_of(stream)
    if where is None:
        at = stream.at
        bound = limit(stream)
        all_of_them = stream.at != at
        where = Each((AnyStitch(),), bound) if all_of_them else Next((AnyStitch(),))
    two = Stitch(name, Amount((2,)), 1, start, stream.end)
    return (Work((two,), where, start=start, end=stream.end),)


def in_loop(stream: Stream) -> tuple[Step, ...] | None:
    """``BLO sc across``, ``in BLO, sc in each st``: the loop is named first.

    Takes: blo sc in each st across
    Refuses: blo
    """
    mark = stream.at
    stream.accept("in")
    named = stream.accept_any("blo", "flo", "bl", "fl")
    if named is None:
        stream.at = mark
        return None
    stream.accept("only")
    stream.accept_any(",", ":")
    found = stitches(stream)
    if found is None:
        stream.at = mark
        return None
    loop: Literal["front", "back"] = "front" if named.startswith("f") else "back"
    return tuple(replace(one, loop=loop) if isinstance(one, Work) else one for one in found)


def _pass_loop(stream: Stream) -> None:
    if stream.accept_any("blo", "flo", "bl", "fl", "tbl"):
        stream.accept("only")


#: stitches closed to one, which may be worked over several places
_CLOSED = ("cl", "pc", "puff", "bobble")


def _worked(
    stream: Stream, stitch: Stitch, before: Amount | None, after: Amount | None, start: int
) -> tuple[Step, ...]:
    count = before or after
    if (along := _along_what_is_named(stream, stitch, count, start)) is not None:
        return (along,)
    says_over = stream.is_word("over")
    where = _over_the_first_too(stream, stitch, where_of(stream), start)
    closed = says_over and (stitch.name in _CLOSED or stitch.name in stream.vocabulary.special)
    if stitch.legs > 1 and _in_each_space(where):
        stitch = replace(stitch, legs=1)  # "dc2tog in each ch-1 sp": a cluster in each
    if where is not None and (stitch.legs > 1 or closed) and count is None:
        return _over_places(stream, stitch, where, start, says_over=says_over)
    if where is not None:
        return _in_places(stream, stitch, before, after, where, start)
    if (over := over_many(stream)) is not None:
        return _in_places(stream, stitch, before, after, over, start)
    if count is not None and _edge_ahead(stream):
        return _along(stream, stitch, count, start)
    bound_start = stream.at
    bound = limit(stream)
    if stream.at != bound_start or stream.accept("even"):
        if count is not None:
            return (_so_many_along(stream, stitch, count, bound, start),)
        return (Work((stitch,), Each((AnyStitch(),), bound), start=start, end=stream.end),)
    if count is None and _evenly_around(stream):
        return (Work((stitch,), Each((AnyStitch(),)), start=start, end=stream.end),)
    if stream.accept("evenly") or (count is not None and _goes_along(stream)):
        return _along(stream, stitch, count, start)
    step = Work((stitch,), Unplaced(count or ONE), start=start, end=stream.end)
    return (_not_counted(stream, step),)


#: more stitches than that are worked in no place where "across" is all that is said of it
_IN_ONE_PLACE = 3


def _so_many_along(
    stream: Stream, stitch: Stitch, count: Amount, bound: Limit | None, start: int
) -> Work:
    """``30 sc across``: one in each of so many; ``2 sc around``: two in each.

    A number by formula may be either; so may one that is worked up to a place ("3 sc to corner").
    """
    many = count.formula is None and all((one or 9) > _IN_ONE_PLACE for one in count.values)
    if bound is None and many and stitch.legs == 1:
        return Work((stitch,), Unplaced(count), start=start, end=stream.end)
    each, several = Each((AnyStitch(),), bound), replace(stitch, count=count)
    return Work((several,), each, start=start, end=stream.end)


def _in_each_space(where: Target | None) -> bool:
    match where:
        case Each(names=names) | Next(names=names, each=True):
            return all(isinstance(one, Space | Gap) for one in names)
        case _:
            return False


def _far_chains(stream: Stream) -> Next | None:
    """``along other side of 3 ch``: so many chains, seen from there.

    Takes: along other side of 3 ch
    Refuses: along other side of ch
    """
    mark = stream.here()
    stream.take()
    stream.articles()
    if stream.accept_any("other", "opposite", "second") and stream.accept("side", "of"):
        stream.articles()
        count = stream.amount() if stream.is_amount() else None
        if count is not None and stream.accept("ch"):
            return Next((OneChain(),), count, each=True)
    stream.back_to(mark)
    return None


def _over_the_first_too(
    stream: Stream, stitch: Stitch, where: Target | None, start: int
) -> Target | None:
    """``sc2tog over same st and next dc`` at the head of a round: over the first two of it."""
    if _works_before(stream, start) or stitch.legs != _BOTH or not isinstance(where, Same):
        return where
    mark = stream.at
    if not stream.accept("and", "next"):
        return where
    if stream.is_amount():
        stream.at = mark
        return where
    return First(names(stream), Amount((_BOTH,)))


def _works_before(stream: Stream, start: int) -> bool:
    """Whether the row works a stitch before that column."""
    before = (token for token in stream.tokens[: stream.at] if token.start < start)
    return any(token.kind == "stitch" and token.word != "sl st" for token in before)


#: the legs of a decrease of which each is named
_BOTH = 2


def _along_what_is_named(
    stream: Stream, stitch: Stitch, count: Amount | None, start: int
) -> Work | None:
    """``through both layers``, ``along first side of leaf``, ``along other side of 3 ch``."""
    if _both_layers(stream):
        return _through_both(stream, stitch, count, start)
    side = along_side(stream)
    if side is None:
        alone = count is None and stream.is_word("along")
        far = _far_chains(stream) if alone else None
        return None if far is None else Work((stitch,), far, start=start, end=stream.end)
    if count is None:
        raise stream.fault(start, mend="say how many: “5 sc along first side of next leaf”")
    return Work((replace(stitch, count=count),), side, start=start, end=stream.end)


def _and_unworked(stream: Stream, where: Next) -> Next:
    """``sc2tog over next st and next unworked st``: its last legs go to what a row has left.

    Takes: and next unworked st
    """
    mark = stream.here()
    if stream.accept_any("and", "&", "+") and stream.is_word("next", "first"):
        more = target(stream)
        told = stream.onto[-1][1] if stream.onto else None
        counts = (where.count, getattr(more, "count", None))
        plain = [one.values[0] for one in counts if isinstance(one, Amount) and not one.by_size()]
        if told is not None and told.unworked and len(plain) == len(counts) and all(plain):
            both = Amount((sum(one or 0 for one in plain),), None, where.count.start, stream.end)
            return replace(where, names=(AnyStitch(),), count=both)
    stream.back_to(mark)
    return where


def _over_places(
    stream: Stream, stitch: Stitch, where: Target, start: int, *, says_over: bool
) -> tuple[Step, ...]:
    """What is closed to one, over or in the places that are named."""
    if isinstance(where, Next) and not stream.said.isdisjoint(("unworked", "unused")):
        where = _and_unworked(stream, where)
    if says_over and (over_both := _over_two_kinds(stream, stitch, where, start)):
        return over_both
    step = Work((stitch,), where, over=says_over, start=start, end=stream.end)
    return (step, *_and_in(stream, stitch, None, start))


def _over_two_kinds(
    stream: Stream, stitch: Stitch, where: Target, start: int
) -> tuple[Step, ...] | None:
    """``dc2tog over next ch-3 sp and next dc``: the first legs pass their places, the last take.

    Takes: and next dc
    """
    mark = stream.here()
    if not isinstance(where, Next) or not stream.accept("and") or not stream.is_word("next"):
        stream.back_to(mark)
        return None
    try:
        more = target(stream)
    except NotUnderstood:
        more = None
    if isinstance(more, Next) and more.names != where.names:
        first, last = where.count.values, more.count.values
        if len(first) == len(last) == 1 and (first[0] or 0) + (last[0] or 0) == stitch.legs:
            closed = replace(stitch, legs=last[0] or 1)
            return (
                Skip(where, start, stream.end),
                Work((closed,), more, over=True, start=start, end=stream.end),
            )
    stream.back_to(mark)
    return None


def _evenly_around(stream: Stream) -> bool:
    """``sc evenly around``, and no edge is named: in each stitch."""
    mark = stream.at
    if stream.accept("evenly", "around") and (stream.at_end() or stream.token.kind == "mark"):
        return True
    stream.at = mark
    return False


def _through_both(stream: Stream, stitch: Stitch, count: Amount | None, start: int) -> Work:
    """Behind "through both layers": each takes a stitch of both."""
    together = replace(stitch, legs=2)
    target = Each((AnyStitch(),), limit(stream)) if count is None else Unplaced(count)
    return Work((together,), target, start=start, end=stream.end)


def _both_layers(stream: Stream) -> bool:
    """``through both layers``: the edge is pressed flat, and each takes a stitch of both sides."""
    mark = stream.at
    if stream.accept("thru"):
        stream.accept_any("all", "both")
        stream.accept("st", "of")
        stream.accept("both")
        if stream.accept_any("layers", "thicknesses", "thickness"):
            return True
    stream.at = mark
    return False


def over_many(stream: Stream) -> Target | None:
    """``across first 25 sts``, ``over next 4 sts``, ``across 4 sts``: so many, not to the end.

    Takes: across first 25 sts
    Refuses: across
    """
    mark = stream.at
    if stream.accept_any("across", "over", "along"):
        stream.articles()
        numbered = stream.ahead().kind in ("num", "formula")
        if stream.is_word("first", "next", "last", "rem") and numbered:
            return target(stream)
        stream.accept("all")
        if stream.is_amount() and (counted := _so_many_alone(stream)) is not None:
            return counted
    stream.at = mark
    return None


def _so_many_alone(stream: Stream) -> Next | None:
    """``4 sts``, behind "across".

    Takes: 4 sts
    Refuses: 4 rows
    """
    mark = stream.here()
    count = stream.amount()
    if stream.is_word("st") or stream.token.kind == "stitch":
        return Next(count=count, names=names(stream))
    stream.back_to(mark)
    return None


#: an edge that a number of stitches is worked along, in the words of the trade
_EDGE = (
    r"(?:across|over|around|along|down|up|on|in) (?:the |its |this )?"
    r"(?:(?:entire|whole|other|opposite|second|next|right|left|long|short|straight|curved|front|"
    r"back|outer|inner|lower|upper|shaped|side|neck|armhole|sleeve|cuff|foundation|starting|"
    r"thumb|center|centre|bottom) )*"
    r"(?:bottom|top(?! of)|sides?|edges?|edging|neck(?:line)?|armholes?|cuff|opening|hem|brim|"
    r"front|back(?! loop)|foundation(?=\s*(?:[,;.)(\[]|\Z)))\b"
    r"(?! (?:of (?:the )?(?:next |each |every )?(?:row|st|leaf|petal|ch)|loop|lp))"
)


def _edge_ahead(stream: Stream) -> bool:
    """Whether "across bottom", "around neck edge" stands here: an edge, and no stitches.

    Takes: across bottom edge
    Refuses: across next 6 sts
    """
    if stream.said.isdisjoint(_EDGES_SAID):
        return False
    return ignoring_case(_EDGE).match(stream.text, stream.start) is not None


_EDGES_SAID = frozenset(
    "bottom top side sides edge edges edging neck neckline armhole armholes cuff opening hem brim "
    "front back foundation".split()
)


def _along(stream: Stream, stitch: Stitch, count: Amount | None, start: int) -> tuple[Step, ...]:
    """``work 47 sc evenly along side edge``, ``sc evenly along side edge (47 sc)``."""
    if count is not None and _so_many_for_rows(stream):  # "3 sc for every 4 rows along edge"
        count = None
    stream.accept("spaced")
    edge = stream.accept_any("along", "across", "around", "over", "down", "up", "in", "on")
    # "working along row ends, 140 sc evenly to corner"
    told = "along" in stream.said and not stream.said.isdisjoint(("end", "edge", "side"))
    if not edge and not (told and count is not None and stream.words_ahead("to", "corner")):
        raise stream.fault(mend="write “work 47 sc evenly along side edge”")
    edges = stream.at
    _pass_edge_words(stream)
    passed = [one.word for one in stream.tokens[edges : stream.at]]
    if not {"each", "all"}.isdisjoint(passed[:2]):
        raise stream.fault(
            start,
            found="how many edges that are is not said",
            mend="write each in its turn, or “*3 sc in corner, work 9 sc evenly along edge; rep "
            "from * 3 more times”",
        )
    if count is None:
        _rate_told(stream)
    count = count or _number_behind(stream, stitch.name) or _number_at_end(stream, stitch, start)
    if count is None:
        raise stream.fault(start, mend="write “work 47 sc evenly along side edge”")
    content_ = (replace(stitch, count=count),)
    where = RowSides(each=False, apart="underarm" in passed)
    return (Work(content_, where, start=start, end=stream.end),)


def _number_behind(stream: Stream, name: str) -> Amount | None:
    """The number of stitches along an edge, in brackets behind it; the row goes on there.

    Takes: (47 sc)
    Refuses: (47 rows)
    """
    mark = stream.here()
    if stream.accept_any("(", "["):
        stream.accept_any("about", "approximately")
        count = stream.amount() if stream.is_amount() else None
        named = stream.accept_any("st", "evenly") or (
            stream.token.kind == "stitch" and stream.take().word == name
        )
        closed = stream.accept_any(")", "]")
        if count is not None and named and closed and not stream.at_end():
            return count
    stream.back_to(mark)
    return None


#: how many are worked for so many rows, which the number of the edge counts up
_RATE = (
    r"(?:for|in|along|over|per|across) (?:every|each) (?:\d+|two|three|four|five|six) "
    r"(?:rows?|rnds?|rounds?)(?: ends?)?\b"
)
_RATE_TOLD = (
    r"\s*(?:,\s*|\s)\(?(?:by )?(?:work(?:ing)?|mak(?:e|ing)|at (?:a|the) rate of|about|"
    r"approx(?:imately)?)\s+(?:about |approx(?:imately)? )?(?:\d+|two|three|four|five)\s+"
    rf"(?:sts?|stitch(?:es)?|sc|h?dc|h?tr) {_RATE}\)?"
)


def _goes_along(stream: Stream) -> bool:
    """Whether behind a number of stitches the edge is told, or for how many rows they are."""
    rate = ignoring_case(_RATE).match(stream.text, stream.start) is not None
    return rate or stream.is_word("along", "down", "up")


def _so_many_for_rows(stream: Stream) -> bool:
    """Pass "for every 4 rows" behind "3 sc": what is worked for so many rows, and no number."""
    found = ignoring_case(_RATE).match(stream.text, stream.start)
    if found is not None:
        stream.pass_to(found.end())
    return found is not None


def _rate_told(stream: Stream) -> None:
    """Pass ", working 3 sts for every 4 rows" behind an edge."""
    found = ignoring_case(_RATE_TOLD).match(stream.text, stream.tokens[stream.at - 1].end)
    if found is not None:
        stream.pass_to(found.end())


#: what may stand between the only stitches of a row and their number at its end
_CLOSING = frozenset("turn join with sl st to in first fasten off".split())


def _number_at_end(stream: Stream, stitch: Stitch, start: int) -> Amount | None:
    """``sc evenly along side edge, turn (47 sc)``: the count of the row, which works nothing else.

    Takes: , turn (47 sc)
    Refuses: , 3 sc in corner (47 sc)
    """
    before = [token for token in stream.tokens if token.end <= start]
    if any(token.kind in ("stitch", "grp", "chn") for token in before):
        return None
    mark = stream.here()
    while not stream.at_end() and not stream.is_mark("(", "[", "-", "="):
        token = stream.take()
        if not (token.kind == "mark" or token.word in (*_CLOSING, stitch.name, "sl st")):
            stream.back_to(mark)
            return None
    count = None
    if stream.accept_any("(", "[", "-", "=") and stream.is_amount():
        count = stream.amount()
        named = stream.accept("st") or (
            stream.token.kind == "stitch" and stream.take().word == stitch.name
        )
        count = count if named and (stream.token.kind in ("mark", "end")) else None
    stream.back_to(mark)
    return count


def _pass_edge_words(stream: Stream) -> None:
    """Pass the words for the edge that is worked along: "right front neck edge", "cuff edge"."""
    while stream.token.kind in ("word", "ord") and not stream.is_word(
        "and", "then", "join", "turn", "working", "making", "fasten"
    ):
        stream.take()


def _in_places(
    stream: Stream,
    stitch: Stitch,
    before: Amount | None,
    after: Amount | None,
    where: Target,
    start: int,
) -> tuple[Step, ...]:
    if after is not None and isinstance(where, Next) and where.count is ONE:
        # "sc 6 in next st": the number stands behind the stitch and is worked into the place
        before = after
    elif after is not None:
        before = after
    spread = _is_spread(before, where)
    each = stitch if before is None or spread else replace(stitch, count=before)
    if isinstance(where, FromHook):
        where = replace(where, skipped=_but_this_one(counts_as(stream), stitch.name))
    below = _rows_below(stream)
    counted = isinstance(where, Next | First | Last) and not pass_far_side(stream)
    if counted and stream.is_word("across", "along", "down", "up"):
        pass_edge(stream)  # "sc in next 38 sc across top"
    step = Work((each,), where, spread=spread, rows_below=below, start=start, end=stream.end)
    if isinstance(where, Next) and (rows := left_on_rows(stream)):
        return tuple(replace(step, start=one.start, end=one.end) for one in rows)
    if (repeated := in_each_part(stream, step)) is not None:
        return (repeated,)
    step = _not_counted(stream, step)
    if below and _skip_follows(stream):
        step = replace(step, skips_behind=True)
    more = _and_in(stream, stitch, before, start)
    if more and len(without_twice([where, more[0].target])) == 1:
        return more
    return _up_to_the_same(_with_chains_between((step, *more)))


def _up_to_the_same(steps: tuple[Work, ...]) -> tuple[Work, ...]:
    """``sc in each dc and in each sp to corner``: where the last stops the others stop too."""
    targets = [step.target for step in steps]
    *before, last = targets
    if not before or not isinstance(last, Each) or last.limit is None:
        return steps
    if not all(isinstance(one, Each) and one.limit is None for one in before):
        return steps
    names_ = tuple(name for one in targets if isinstance(one, Each) for name in one.names)
    return (replace(steps[0], target=Each(names_, last.limit), end=steps[-1].end),)


def _with_chains_between(steps: tuple[Work, ...]) -> tuple[Work, ...]:
    """``sc in each sc and in each of the 2 ch``: the chains lie among the stitches."""
    first, *others = steps
    only = others[0] if len(others) == 1 else None
    if only is None or not isinstance(first.target, Each) or first.target.limit is not None:
        return steps
    chains = isinstance(only.target, Next) and only.target.names == (OneChain(),)
    if not chains or not isinstance(only.target, Next) or not only.target.each:
        return steps
    names_ = (*first.target.names, OneChain())
    return (replace(first, target=replace(first.target, names=names_), end=only.end),)


def _but_this_one(said: CountsAs | None, name: str) -> CountsAs | None:
    """``dc in 3rd ch from hook (counts as 2 dc)``: the dc itself is one of the two.

    So it is in "dc in 8th ch from hook (counts as dc, ch 2, dc)".
    """
    if said is None or said.skipped is not None:
        return said
    told = [(number.values, kind) for number, kind in said.stitches]
    if said.chains is not None and told == [((1,), name)] * 2:
        return replace(said, stitches=said.stitches[:1])
    if len(said.stitches) != 1 or said.chains:
        return said
    number, counted = said.stitches[0]
    if counted != name or number.values != (2,):
        return said
    return replace(said, stitches=((ONE, name),))


#: "two rows below"; "3rd row below" counts the same way
_HOW_MANY = {"two": 2, "three": 3, "four": 4, "second": 2, "third": 3, "fourth": 4}


def _rows_below(stream: Stream) -> int:
    """How many rows below the row that is worked into; 0 where it is not said.

    Takes: 2 rows below
    Refuses: 2 rows
    """
    if "below" not in stream.said:
        return 0
    mark = stream.here()
    stream.accept_any("in", "of", "from", "on")
    stream.articles()
    number = 1 if stream.is_word("row", "rnd") else 0
    if stream.token.kind in ("num", "ord"):
        number = stream.take().value
    elif stream.token.word in _HOW_MANY:
        number = _HOW_MANY[stream.take().word]
    if number and stream.accept_any("row", "rnd") and stream.accept("below"):
        return number
    stream.back_to(mark)
    return 0


def in_each_part(stream: Stream, step: Work) -> Repeat | None:
    """``in ch-1 sp of each V-st across``: in that of the next one, as often as there are any."""
    where = step.target
    if not isinstance(where, Inside) or not isinstance(where.container, Next):
        return None
    if not where.container.each:
        return None
    bound = limit(stream)
    one = replace(step, target=replace(where, container=Next(where.container.names)))
    return Repeat((one,), Open(bound), start=step.start, end=stream.end)


def _skip_follows(stream: Stream) -> bool:
    """Whether the next step skips: ``, sk next st behind it``."""
    mark = stream.at
    stream.accept_any(",", ";")
    stream.accept_any("and", "then")
    found = stream.is_word("sk")
    stream.at = mark
    return found


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


def without_twice(places: list[Target]) -> list[Target]:
    """The places without "loop just formed" in front of "each loop", which is one of them."""
    first = places[0]
    formed = isinstance(first, Same) and first.made and isinstance(first.name, Space)
    each = places[1] if len(places) > 1 else None
    spaces = isinstance(each, Each) and all(isinstance(name, Space) for name in each.names)
    return places[1:] if formed and spaces else places


def _and_in(stream: Stream, stitch: Stitch, before: Amount | None, start: int) -> tuple[Work, ...]:
    """``sc in 2nd ch from hook and in each ch across``: the same stitch, another place."""
    places = list(_listed_places(stream))
    while (where := and_in_place(stream)) is not None:
        places.append(where)
    found: list[Work] = []
    for where in places:
        spread = _is_spread(before, where)
        each = stitch if before is None or spread else replace(stitch, count=before)
        found.append(Work((each,), where, spread=spread, start=start, end=stream.end))
    return tuple(found)


def and_in_place(stream: Stream, *, told_first: bool = False) -> Target | None:
    """Behind a place: the next one that the same is worked into.

    ``told_first``: what goes into them is told behind the places.

    Takes: and in each ch across
    Refuses: and turn
    """
    mark = stream.at
    stream.accept(",")
    if stream.accept_any("including", "incl"):
        stream.accept(".")
        return _turning_too(stream, mark)
    behind_hook = stream.tokens[mark - 1].word in ("hook", "needle")
    joined = stream.accept_any("and", "&")
    if joined and behind_hook and stream.is_word("across", "around"):
        stream.take()  # "in 2nd ch from hook and across"
        return Each((OneChain(),))
    if not joined or not (stream.is_word("in") or _place_alone(stream)):
        stream.at = mark
        return None
    stream.accept("in")
    found = target(stream)
    if (
        not told_first
        and stream.is_word("work", "make")
        and stream.ahead().kind in ("num", "stitch")
    ):
        stream.at = mark  # "and in each loop work 1 sc, 3 dc, 1 sc": another goes there
        return None
    return found


def _listed_places(stream: Stream) -> tuple[Target, ...]:
    """``sl st in next hdc, in next dc and in first tr``: further places, the last behind "and".

    Without that last one, what goes into the place is told behind it: ", in next sp 2 dc".

    Takes: , in next dc and in first tr
    Refuses: , in next dc work 2 sc
    """
    if not stream.is_mark(",") or stream.ahead().word != "in":
        return ()
    mark = stream.here()
    found: list[Target] = []
    try:
        while stream.accept(",", "in"):
            found.append(target(stream))
    except NotUnderstood:
        found = []
    last = and_in_place(stream) if found else None
    if last is None:
        stream.back_to(mark)
        return ()
    return (*found, last)


def _turning_too(stream: Stream, mark: int) -> ChainOfTurning | None:
    """Behind "including": the turning chain, which "each st" leaves to whatever names it.

    Takes: top of tch
    Refuses: the border
    """
    found = None
    if stream.is_word("top", "the", "turning", "tch", "beg") or stream.token.kind == "ord":
        found = target(stream)
    if isinstance(found, ChainOfTurning):
        return found
    stream.at = mark
    return None


def _place_alone(stream: Stream) -> bool:
    """Whether a place follows "and" without its "in" ("and each ch across", "and ch-1 sp")."""
    if stream.token.kind == "chn" or stream.words_ahead("ch", "sp"):
        return stream.ahead().word in ("sp", "lp")
    if stream.is_word("sp", "lp"):
        return stream.tokens[stream.at - 1].word == "and"
    if stream.token.kind == "stitch" and stream.tokens[max(stream.at - 2, 0)].word in ("sp", "lp"):
        return stream.ahead().kind in ("mark", "end")
    if stream.is_word("next"):  # "in 2nd ch from hook and next 8 ch", "in 2nd ch and next 8 ch"
        chain, passed = stream.tokens[max(stream.at - 2, 0)], stream.tokens[max(stream.at - 3, 0)]
        return chain.word in ("hook", "needle") or (chain.word == "ch" and passed.kind == "ord")
    return stream.is_word("each") and stream.ahead().word not in ("row", "rnd")


def forms_ring(stream: Stream) -> bool:
    """``to form a ring``, ``forming a ring``."""
    mark = stream.at
    if stream.accept("to", "form") or stream.accept("to", "make") or stream.accept("forming"):
        stream.articles()
        if stream.accept_any("ring", "circle", "lp"):
            return True
    stream.at = mark
    return False


def _as_called(stream: Stream, where: Target) -> Target:
    """``sl st to next st (corner hdc)``: the brackets say which stitch it is."""
    if not (isinstance(where, Next) and where.names == (AnyStitch(),) and stream.is_mark("(")):
        return where
    mark = stream.here()
    stream.take()
    stream.articles()
    stream.accept("corner")
    if stream.token.kind == "stitch":
        named = NamedStitch(stream.take().word)
        if stream.accept(")"):
            return replace(where, names=(named,))
    stream.back_to(mark)
    return where


def _slip_to(stream: Stream, start: int) -> tuple[Step, ...]:
    """Where a slip stitch goes to: a place, the end of the row, the first stitch.

    Takes: next ch-2 sp
    Refuses: frobnicate
    """
    mark = stream.at
    if stream.accept("top", "of"):
        stream.articles()
        if not (stream.is_word("first") or stream.token.kind == "stitch"):
            stream.at = mark
    if stream.accept_any("form", "make"):
        stream.articles()
        stream.expect("ring", mend="write “to form ring”")
        return (JoinRound(None, ring=True, start=start, end=stream.end),)
    if stream.accept("end"):
        stream.accept("of", "row")
        stream.accept("of", "rnd")
        return (Travel(Each((AnyStitch(),)), start, stream.end),)
    began = stream.folded.startswith("beg", stream.start) and _works_before(stream, start)
    where = numbered_group(stream) or _as_called(stream, numbered(stream) or target(stream))
    if began and isinstance(where, Next):  # "sl st to top of beg cl": the chain of it
        where = ChainOfTurning(None, TurningChain())
    if stream.accept("to", "join"):
        return (JoinRound(where, start=start, end=stream.end),)
    if forms_ring(stream):
        return (JoinRound(where, ring=True, start=start, end=stream.end),)
    return (Travel(where, start, stream.end),)


def _joins_chain(stream: Stream) -> bool:
    """``in 3rd ch to join``: the beginning chain, which is not named besides.

    Takes: in 3rd ch to join
    Refuses: in 3rd ch
    """
    mark = stream.at
    stream.accept_any("in", "to")
    stream.articles()
    if ordinals(stream) is not None and stream.accept("ch"):
        stream.accept("of", "beg", "ch")
        if stream.accept("to", "join"):
            return True
        if _round_ends(stream):
            return True
    stream.at = mark
    return False


def _round_ends(stream: Stream) -> bool:
    """Whether a slip stitch into "3rd ch" is the last of the row, and closes no chain before it."""
    before = [token for token in stream.tokens[: stream.at] if token.kind != "mark"]
    at = next(at for at, token in enumerate(reversed(before)) if token.word == "sl st") + 1
    chained = any(token.word == "ch" or token.kind == "chn" for token in before[-at - 2 : -at])
    behind = stream.is_mark("(", "[", ".", ",", ";")
    last = stream.ahead().kind in ("num", "end") or stream.ahead().word in _LAST_WORDS
    return not chained and (stream.at_end() or (behind and last))


#: what may stand behind the join of a round
_LAST_WORDS = ("turn", "do", "fasten", "break", "cut", "drop", "change", "fo")


def _full_stitch(where: Target) -> Next | None:
    """The first stitch of the round by its full name, where a declared "beg cl" is named."""
    named = where.names[0] if isinstance(where, Next) and len(where.names) == 1 else None
    if not isinstance(where, Next) or not isinstance(named, NamedStitch):
        return None
    full = named.name.removeprefix("beg ")
    return None if full == named.name else replace(where, names=(NamedStitch(full),))


def _closes_at_foot(stream: Stream, where: Target, start: int) -> bool:
    """``…, sl st in base of first ch 3`` behind other stitches: the round is joined there."""
    if not isinstance(where, Same) or not where.began:
        return False
    said = [one.word for one in stream.tokens if start <= one.start < stream.end]
    worked = any(one.kind == "stitch" and one.start < start for one in stream.tokens)
    last = stream.at_end() or stream.is_mark(".", ";", ",", "(")
    return worked and last and "same" not in said


def _closing(stream: Stream) -> bool:
    """Pass "to join", "to close", "to finish": what a slip stitch at the end of a round is for."""
    return any(stream.accept("to", word) for word in ("join", "close", "finish"))


def _slip_stitch(stream: Stream, start: int) -> tuple[Step, ...] | None:
    """``sl st to next ch-2 sp``, ``sl st to join``, ``sl st in first sc to join``.

    Takes: to next ch-2 sp
    Refuses: 6 times
    """
    mark = stream.at
    if stream.is_word("thru"):
        return None
    if _closing(stream) or stream.accept("join"):
        return (JoinRound(None, start=start, end=stream.end),)
    if (over := over_many(stream)) is not None:
        return _in_places(
            stream, Stitch("sl st", ONE, 1, start, stream.end), None, None, over, start
        )
    stream.accept("over")
    stream.accept("across")
    stream.accept_any("up", "along")
    if stream.accept("to"):
        return _slip_to(stream, start)
    stream.at = mark
    if _joins_chain(stream):
        return (JoinRound(ChainOfTurning(None, TurningChain()), start=start, end=stream.end),)
    where_found = where_of(stream)
    if where_found is None:
        stream.at = mark
        return None
    if (first := _full_stitch(where_found)) is not None:
        return (JoinRound(first, start=start, end=stream.end),)
    if _closes_at_foot(stream, where_found, start):
        return (JoinRound(None, start=start, end=stream.end),)
    if stream.accept("to", "join") or stream.accept("to", "join", "rnd"):
        return (JoinRound(where_found, start=start, end=stream.end),)
    if forms_ring(stream):
        return (JoinRound(where_found, ring=True, start=start, end=stream.end),)
    if stream.words_ahead("(", "picot", ")"):
        where_found = Same(made=True)
    stitch = Stitch("sl st", ONE, 1, start, stream.end)
    step = Work((stitch,), where_found, start=start, end=stream.end)
    return (_not_counted(stream, step), *_and_in(stream, stitch, None, start))
