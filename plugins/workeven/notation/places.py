"""Places and targets: where a step goes.

Takes     ``Stream``.
Gives     ``names``, ``target``, ``limit``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of places and "Named places".
"""

from __future__ import annotations

from workeven.notation.stream import Stream
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    ChainOfTurning,
    Each,
    First,
    FromHook,
    Gap,
    Inside,
    IntoRing,
    Last,
    Limit,
    NamedStitch,
    Next,
    OneChain,
    Part,
    PlaceName,
    RowSides,
    Same,
    Space,
    StitchGroup,
    Target,
    ToLast,
    ToNext,
    TurningChain,
)

#: words that may stand before "ch" of a beginning or turning chain.
_TURNING = ("turning", "beg", "t")


def name(stream: Stream) -> PlaceName | None:
    """One name of a place, or None.

    Takes: ch-2 sp
    Refuses: turn
    """
    stream.articles()
    stream.accept_any("rem", "unworked", "corresponding")
    if stream.is_word("center") and (stream.ahead().kind == "chn" or stream.ahead().word == "sp"):
        stream.take()
    corner = bool(stream.accept("corner"))
    found = _space(stream, corner=corner) or _turning(stream) or _stitch(stream)
    if found is None and corner:
        return Space(corner=True)
    return found


def _space(stream: Stream, *, corner: bool) -> PlaceName | None:
    if stream.token.kind == "chn":
        if stream.ahead().word in ("sp", "lp"):
            chains = stream.take().value
            stream.take()
            return Space(chains, corner)
        if stream.ahead().kind != "word" or corner:
            return Space(stream.take().value, corner)
        return None
    if (
        stream.is_word("ch")
        and stream.ahead().kind == "num"
        and stream.ahead(2).word in ("sp", "lp")
    ):
        stream.take()
        chains = stream.take().value
        stream.take()
        return Space(chains, corner)
    if stream.words_ahead("ch", "sp") or stream.words_ahead("ch", "lp"):
        stream.take()
    if stream.is_word("sp", "lp"):
        stream.take()
        if stream.accept_any("between", "bet"):
            return _gap(stream)
        return Space(None, corner)
    if stream.accept_any("between", "bet"):
        return _gap(stream)
    return None


def _gap(stream: Stream) -> Gap:
    """What stands at both sides: "shells", "groups", "next 2 dc", "2 center dc" (then "of …")."""
    stream.articles()
    stream.accept_any("next")
    pair = stream.token.kind == "num" and stream.token.value == 2  # noqa: PLR2004, a gap has two sides
    if pair:
        stream.take()
    stream.accept_any("center")
    between = name(stream)
    match between:
        case NamedStitch(name=stitch):
            return Gap(stitch, pair)
        case StitchGroup():
            return Gap(None, pair=False)
        case _:
            return Gap(None, pair=pair and isinstance(between, AnyStitch))


def _turning(stream: Stream) -> PlaceName | None:
    if stream.accept("tch"):
        return TurningChain()
    if stream.is_word(*_TURNING):
        after = stream.ahead()
        if after.kind == "chn":
            stream.take()
            return TurningChain(stream.take().value)
        if after.kind == "word" and after.word == "ch":
            stream.take()
            stream.take()
            chains = stream.take().value if stream.token.kind == "num" else None
            return TurningChain(chains)
        if after.kind == "stitch":  # "beg cl": the full stitch's place
            stream.take()
            return NamedStitch(stream.take().word)
    return None


def _stitch(stream: Stream) -> PlaceName | None:
    token = stream.token
    if token.kind == "stitch":
        stream.take()
        stream.accept("group")
        return NamedStitch(token.word)
    if token.kind == "grp":
        stream.take()
        if not stream.accept_any("group", "shell", "petal"):
            stream.expect("group", mend="write “3-dc group” for stitches worked into one place")
        return StitchGroup(token.value, token.word)
    if stream.accept("picot"):
        return Space(3)  # a picot that is a place is the usual one of three chains
    if token.kind == "word" and token.word in ("group", "shell", "petal", "fan"):
        stream.take()
        return StitchGroup(name=token.word if token.word != "group" else None)
    if stream.accept_any("st", "place"):
        return AnyStitch()
    if stream.accept("ch"):
        return OneChain()
    return None


def names(stream: Stream, *, each: bool = False) -> tuple[PlaceName, ...]:
    """Names of places joined by "and" or "or"; after "each", "and in each" joins them too.

    Takes: st and sp
    Refuses: turn
    """
    first = name(stream)
    if first is None:
        raise stream.fault(mend="name a place to work into, such as “st”, “dc” or “ch-2 sp”")
    found = [first]
    while stream.is_word("and", "or", "&"):
        mark = stream.at
        stream.take()
        if each:
            stream.accept("in")
            stream.accept("each")
        taken = stream.is_word("next", "first", "last", "same", "in", "each")
        another = None if taken else name(stream)
        if another is None:
            stream.at = mark
            break
        found.append(another)
    return tuple(found)


def limit(stream: Stream) -> Limit | None:
    """Where an open step stops, or None where it runs to the end of the row.

    Takes: to last 3 sts
    Refuses: to and fro
    """
    mark = stream.at
    if stream.accept_any("across", "around"):
        inner = limit(stream)
        if inner is None and stream.at == mark:
            stream.at = mark + 1
        return inner
    if not stream.accept_any("to", "until", "up", "till"):
        return None
    stream.accept("to")
    stream.articles()
    if stream.accept_any("end", "join") or _end_of_row(stream):
        stream.accept("of", "row")
        stream.accept("of", "rnd")
        return None
    if stream.accept_any("last", "within", "final"):
        return _to_last(stream)
    if stream.accept("next") or stream.accept("first") or stream.accept("marked"):
        return ToNext(_one(stream))
    if stream.is_amount():
        found = ToLast(stream.amount(), names(stream))
        stream.accept_any("rem", "remain", "left")
        return found
    place = name(stream)
    if place is not None:
        return ToNext(place)
    raise stream.fault(stream.tokens[mark].start, mend="write “to last 3 sts” or “to next ch-2 sp”")


def _end_of_row(stream: Stream) -> bool:
    return stream.accept("row") or stream.accept("rnd")


def _to_last(stream: Stream) -> ToLast:
    count = stream.amount() if stream.is_amount() else ONE
    found = ToLast(count, names(stream) if not _no_name_follows(stream) else (AnyStitch(),))
    if stream.accept("before"):
        return ToLast(found.count, found.names, before=isinstance(name(stream), TurningChain))
    return found


def _no_name_follows(stream: Stream) -> bool:
    return stream.at_end() or stream.is_mark(",", ";", ".", ")", "]")


def _one(stream: Stream) -> PlaceName:
    return names(stream)[0]


def target(stream: Stream) -> Target:
    """Where a step goes, after "in", "around" or "over".

    Takes: each of next 3 sts
    Refuses: turn
    """
    stream.articles()
    _loops(stream)
    stream.articles()
    for read in (_ring, _here, _inside, _from_hook, _chain_of_turning, _sides):
        found = read(stream)
        if found is not None:
            return found
    if stream.is_word("all") and stream.ahead().kind == "num":
        stream.take()
    if stream.is_word("each", "all"):
        return _each(stream)
    if stream.is_word("next", "first", "last", "any", "rem"):
        return _counted(stream, each=False)
    if stream.is_amount():
        return Next(count=stream.amount(), names=names(stream))
    return Next(names(stream))


def _ring(stream: Stream) -> IntoRing | None:
    """``ring``; ``magic ring`` makes it too."""
    if stream.accept("mr") or _magic_ring(stream):
        return IntoRing(magic=True)
    return IntoRing() if stream.accept_any("ring", "rnd") else None


def _here(stream: Stream) -> Same | None:
    """``same st``, ``tr just made``, ``skipped st``: no further place is taken up."""
    if stream.accept("skipped"):
        return Same(name(stream), made=True)
    if stream.accept("end", "of", "ch"):
        return Same(OneChain())
    made = _just_made(stream)
    if made is None and stream.accept("same"):
        return _same(stream)
    return made


def _magic_ring(stream: Stream) -> bool:
    mark = stream.at
    stream.accept_any("adjustable", "magic", "sliding")
    if stream.at > mark and stream.accept_any("ring", "lp", "circle"):
        return True
    stream.at = mark
    return False


def _loops(stream: Stream) -> None:
    """Pass "back loop only of": which loop is taken changes no count."""
    mark = stream.at
    if stream.accept("both"):
        stream.accept_any("lp")
        stream.accept("of")
        return
    if stream.accept_any("back", "front", "blo", "flo", "bl", "fl", "tbl") is None:
        stream.at = mark
        return
    stream.accept_any("lp", "post")
    stream.accept("only")
    stream.accept("of")
    stream.articles()


def _just_made(stream: Stream) -> Same | None:
    """``top of tr just made``, ``dc at end of prev rnd``: no place of the row is taken up."""
    mark, amounts = stream.at, len(stream.amounts)
    stream.accept("top", "of")
    stream.accept_any("last", "prev")
    stream.articles()
    place = name(stream) if not stream.is_word("next", "first", "each", "same") else None
    if place is not None and (
        stream.accept("just", "made")
        or stream.accept("made")
        or stream.accept("just", "worked")
        or (stream.is_word("at") and _at_the_start(stream))
    ):
        return Same(place, made=True)
    stream.at = mark
    del stream.amounts[amounts:]
    return None


def _at_the_start(stream: Stream) -> bool:
    """``at end of prev rnd``, ``at base of last ch-7 sp``: the place where the row began."""
    stream.take()
    if not stream.accept_any("end", "base", "foot", "beg", "its"):
        return False
    stream.accept("of")
    stream.articles()
    stream.accept_any("prev", "last", "beg", "same", "first")
    if not stream.accept_any("rnd", "row"):
        name(stream)
    return True


def _same(stream: Stream) -> Same:
    place = name(stream)
    if stream.accept_any("as", "with"):
        stream.articles()
        if stream.is_amount() or (
            stream.is_word("first", "last") and stream.ahead().kind in ("num", "stitch")
        ):
            stream.accept_any("first", "last")
            if stream.is_amount():
                stream.take()
            stream.take()
            return Same(place)
        stream.accept_any("last", "prev", "first", "beg")
        if not (stream.accept("join") or stream.accept("sl st") or stream.accept("join", "sl st")):
            if stream.token.kind == "stitch":
                stream.take()
            elif not stream.accept("st"):
                raise stream.fault(mend="write “same st as joining”")
        stream.accept_any("join", "sl st")
    return Same(place)


_PARTS: dict[str, Part] = {"center": "center", "first": "first", "last": "last"}


def _inside(stream: Stream) -> Inside | None:
    mark = stream.at
    amounts = len(stream.amounts)
    part: Part | None = None
    if stream.token.kind == "ord":
        part = stream.take().value
    elif stream.is_word("center", "first", "last"):
        part = _PARTS[stream.take().word]
    elif stream.token.kind == "chn":
        part = "first"
    elif stream.is_word("sp", "between", "bet") or stream.words_ahead("next", "sp"):
        stream.accept("next")
        part = "center"
    count = ONE
    if part in ("first", "last") and stream.is_amount():
        count = stream.amount()
    place = None if part is None else name(stream)
    if isinstance(place, Space) and stream.words_ahead("(", "center", "of"):
        stream.take()
        stream.take()
        place = Gap()
    if place is None and part == "center" and stream.is_word("of"):
        place = OneChain() if _space_follows(stream) else Gap()
    if place is None or not stream.accept_any("of", "in"):
        stream.at = mark
        del stream.amounts[amounts:]
        return None
    stream.articles()
    container = _container(stream)
    if isinstance(place, Gap) and stream.is_mark(")"):
        stream.take()
    if container is None:
        stream.at = mark
        del stream.amounts[amounts:]
        return None
    held = () if isinstance(container, Same) else container.names
    if isinstance(place, Space) and held and isinstance(held[0], NamedStitch | StitchGroup):
        place = Space(place.chains, place.corner, "group")
    return Inside(part or "first", place, container, count)


def _space_follows(stream: Stream) -> bool:
    """Whether "of next ch-5 sp" follows: its centre is one of its chains."""
    mark = stream.at
    stream.take()
    stream.articles()
    stream.accept_any("next", "first", "last", "same", "each")
    found = isinstance(name(stream), Space)
    stream.at = mark
    return found


def _container(stream: Stream) -> Next | First | Last | Same | None:
    if stream.is_word(*_TURNING, "tch", "hook"):
        return None
    if stream.accept("next"):
        return Next(names(stream))
    if stream.accept("same"):
        return Same(name(stream))
    if stream.accept("first"):
        return First(names(stream))
    if stream.accept("last"):
        return Last(names(stream))
    if stream.accept("each"):
        return Next(names(stream), each=True)
    found = name(stream)
    return None if found is None or isinstance(found, TurningChain) else Next((found,))


def _from_hook(stream: Stream) -> FromHook | None:
    mark = stream.at
    if stream.token.kind == "ord":
        token = stream.take()
        nth = Amount((token.value,), None, token.start, token.end)
        if stream.accept("ch") and stream.accept("from"):
            stream.articles()
            if stream.accept("hook"):
                return FromHook(nth)
    stream.at = mark
    return None


def _chain_of_turning(stream: Stream) -> ChainOfTurning | None:
    mark = stream.at
    nth: Amount | None = None
    if stream.token.kind == "ord":
        token = stream.take()
        nth = Amount((token.value,), None, token.start, token.end)
        stream.accept("ch")
    elif not stream.accept("top"):
        found = _turning(stream)
        if isinstance(found, TurningChain):
            return ChainOfTurning(None, found)
        stream.at = mark
        return None
    if stream.accept("of") or nth is None:
        stream.articles()
        stream.accept_any("first", "last", "prev", "skipped")
        chain = _turning(stream)
        if isinstance(chain, TurningChain):
            return ChainOfTurning(nth, chain)
        if stream.token.kind == "chn" and stream.ahead().word not in ("sp", "lp"):
            return ChainOfTurning(nth, TurningChain(stream.take().value))
        if stream.is_word("ch"):
            stream.take()
            chains = stream.take().value if stream.token.kind == "num" else None
            return ChainOfTurning(nth, TurningChain(chains))
        if nth is None and isinstance(chain, NamedStitch):
            return ChainOfTurning(None, TurningChain())
    stream.at = mark
    return None


def _sides(stream: Stream) -> RowSides | None:
    """``side of each row``, ``each row end along front edge``."""
    mark = stream.at
    stream.accept_any("side", "end", "edge")
    stream.accept("of")
    each = bool(stream.accept("each"))
    if stream.accept("row"):
        ended = stream.accept("end")
        if stream.at > mark + 2 or (ended and stream.at > mark + 1):
            _pass_edge(stream)
            return RowSides(each=each)
    stream.at = mark
    return None


_EDGE_WORDS = frozenset(
    "across along down up around the a left right front back neck side edge of piece".split()
)


def _pass_edge(stream: Stream) -> None:
    while stream.token.kind == "word" and stream.token.word in _EDGE_WORDS:
        stream.take()


def _each(stream: Stream) -> Target:
    stream.take()
    if stream.accept("of"):
        stream.articles()
        if stream.is_amount():
            return Next(count=stream.amount(), names=names(stream), each=True)
        return _counted(stream, each=True)
    if stream.is_word("next", "first", "last"):
        return _counted(stream, each=True)
    stream.accept_any("rem")
    if stream.accept("of"):
        stream.articles()
    found = names(stream, each=True)
    bound = limit(stream)
    if bound is None and stream.accept("rem"):
        pass
    return Each(found, bound)


def _counted(stream: Stream, *, each: bool) -> Target:
    word = stream.take().word
    if word == "rem" and stream.is_amount():
        return Last(count=stream.amount(), names=names(stream), each=each)
    if word in ("rem", "each"):
        return Each(names(stream), limit(stream))
    count = stream.amount() if stream.is_amount() else ONE
    each = each or bool(stream.accept("each"))
    if _no_name_follows(stream) and count is not ONE:
        found_names: tuple[PlaceName, ...] = (AnyStitch(),)
    else:
        found_names = names(stream)
    match word:
        case "first":
            return First(found_names, count, each)
        case "last":
            return Last(found_names, count, each)
        case _:
            return Next(found_names, count, each)
