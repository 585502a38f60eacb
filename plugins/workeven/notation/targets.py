"""Targets: where a step goes, after "in", "around" or "over".

Takes     ``Stream``.
Gives     ``target``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps and "Named places".
"""

from __future__ import annotations

from collections.abc import Callable

from workeven.notation.counted_place import nth_place
from workeven.notation.earlier import earlier_row
from workeven.notation.expressions import ignoring_case
from workeven.notation.insides import inside
from workeven.notation.nth import sole_nth
from workeven.notation.places import TURNING, limit, name, names, no_name_follows, turning
from workeven.notation.sides import at_point
from workeven.notation.stream import Here, Stream
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    ChainOfTurning,
    Each,
    First,
    FromHook,
    Gap,
    IntoRing,
    Last,
    NamedStitch,
    Next,
    OneChain,
    PlaceName,
    RowEnd,
    RowSides,
    Same,
    Space,
    Target,
    ToLast,
    TurningChain,
)
from workeven.notation.vocabulary import kind_of
from workeven.records import replace


def target(stream: Stream) -> Target:
    """Where a step goes, after "in", "around" or "over".

    Takes: each of next 3 sts
    Refuses: turn
    """
    start, stream.row_named = stream.start, None
    stream.articles()
    if (foot := _foot_of_chain(stream)) is not None:
        return foot
    if (loop := _turning_space(stream)) is not None:
        return loop
    at_foot = _base(stream)
    _far_side(stream)
    if stream.token.word == "both" and _both_of(stream):
        found = _each(stream)  # "2 sc in both of next 2 sts"
        earlier_row(stream, start, found)
        return found
    looped = (stream.token.word in _LOOPS or stream.token.kind == "ord") and _loops(stream)
    if looped and _loop_alone(stream):
        return Each((AnyStitch(),), limit(stream))
    stream.articles()
    found = _target(stream)
    if at_foot and stream.along_chain and isinstance(found, Each | Next | First | Last):
        found = replace(found, names=(OneChain(),))  # each of its sts stands on a chain
    if stream.is_word("of") and isinstance(found, First | Last):
        _pass_this_round(stream)
    if stream.is_word("before") and isinstance(found, Next) and found.count == ONE:
        found = _before_the_join(stream, found)
    if stream.under:
        found = _under(stream, start, found)
    if not stream.said.isdisjoint(_CLAUSES):
        _pass_clause(stream)
    if stream.is_word("between", "bet") and isinstance(getattr(found, "names", (0,))[0], Space):
        _pass_between(stream)
    earlier_row(stream, start, found)
    return found


#: the loop of a turning chain, which is the last place of the row below
_TURNING_SPACE = (
    r"(?:ch(?:ain)?-?(?P<before>\d+) |(?P<uk>\d+)-ch )?(?:t-?ch|turning(?:[ -]ch(?:ain)?)?)"
    r"(?:[ -](?P<behind>\d+))?[ -](?:sp(?:ace)?|lp|loop)\b"
)


def _turning_space(stream: Stream) -> Next | None:
    """``tch sp``, ``turning ch-2 sp``: the space of the chain that the row below began with.

    Takes: turning ch-2 sp
    Refuses: turning ch
    """
    if stream.said.isdisjoint(("tch", "turning")):
        return None
    found = ignoring_case(_TURNING_SPACE).match(stream.text, stream.start)
    if found is None:
        return None
    stream.pass_to(found.end())
    stream.chain_space = True
    number = found["before"] or found["uk"] or found["behind"]
    return Next((Space(None if number is None else int(number)),), bare=True)


_THIS_ROUND = r"of (?:the |this )?(?:rnd|round|row)\b(?!\s*\d)"


def _pass_this_round(stream: Stream) -> None:
    """Pass "of rnd" behind "first sc": it is the first of this one in any case."""
    told = ignoring_case(_THIS_ROUND).match(stream.text, stream.start)
    if told is not None:
        stream.pass_to(told.end())


_BEFORE_JOIN = r"before (?:the )?(?:join(?:ing)?|end of (?:the )?(?:rnd|round|row))\b"


def _before_the_join(stream: Stream, found: Next) -> Next | Last:
    """``in the dc before joining``: the last of the round.

    Takes: before joining
    Refuses: before next ch-2 sp
    """
    told = ignoring_case(_BEFORE_JOIN).match(stream.text, stream.start)
    if told is None:
        return found
    stream.pass_to(told.end())
    return Last(found.names)


#: words of a clause that tells a place by what it holds already
_CLAUSES = ("holds", "hold", "contains", "has", "where")
_CLAUSE = (
    r"\s*,?\s*(?:(?:that|which) (?:already )?(?:holds?|has|contains?) (?:the )?(?:first|beg)\b"
    r"[^,;.()]*|where (?:the )?first [^,;.()]*?\b(?:was|were) (?:made|worked|placed)\b)"
)


def _pass_clause(stream: Stream) -> None:
    """Pass "that holds the first 2 sc", "where the first 2 dc were made": which place it is."""
    found = ignoring_case(_CLAUSE).match(stream.text, stream.tokens[stream.at - 1].end)
    if found is not None:
        stream.pass_to(found.end())


#: between which stitches a space lies
_BETWEEN = (
    r"bet(?:ween|\.)? (?:the )?(?:(?:next|last|first) )?(?:2|two) "
    r"(?:sc|h?dc|h?tr|dtr|sts|stitches|v-?sts?|shells|groups|clusters|cls?)\b(?! (?:sps?|spaces?))"
)


def _pass_between(stream: Stream) -> None:
    """Pass "between last 2 dc" behind "in ch-3 sp": which space it is."""
    found = ignoring_case(_BETWEEN).match(stream.text, stream.start)
    if found is not None:
        stream.pass_to(found.end())


def _under(stream: Stream, start: int, found: Target) -> Target:
    """``under every ch``: a chain is worked under in its space.

    ``start`` is where the place begins, behind the word.
    """
    if not (isinstance(found, Each | Next) and isinstance(found.names[0], OneChain)):
        return found
    under = stream.folded[:start].rstrip().endswith("under")
    chains = found.count.values[0] if isinstance(found, Next) else None
    if under and chains and chains > 1 and not stream.tokens[stream.at - 1].plural:
        return Next((Space(chains),))  # "under the next 2 chain": one space, of so many
    return replace(found, names=(Space(),)) if under and len(found.names) == 1 else found


def _both_of(stream: Stream) -> bool:
    """Whether "both of next 2 sts" stands here, and not "both of the loops"."""
    counted = stream.ahead(2).word in ("next", "first", "last", "the")
    return stream.ahead().word == "of" and counted and stream.ahead(3).word != "lp"


#: words between "base of" and the chain that the row begins with
_THIS_CHAIN = (
    r"(?:(?:the )?(?:same |first )?(?:st|sp|stitch|place|dc|tr|hdc|htr|sc) )?(?:at |as )?(?:the )?"
    r"(?:base|foot|bottom) of (?:the |this |that |same |your )*"
    r"(?:(?:beg(?:inning)?|starting|initial|first|turning) )?"
    r"(?:(?:ch(?:ain)?[ -]?\d+|\d+[ -]?ch)s?(?![ -]*(?:sp|lp|loop|space|arch))|t-?ch|"
    r"(?<=turning )ch(?:ain)?|(?<=beg )ch(?:ain)?|(?<=beginning )ch(?:ain)?)\b"
    r"|(?:base|foot) of (?:the |this |same )?ch(?:ain)?\b"
)


def _foot_of_chain(stream: Stream) -> Same | None:
    """``base of ch 3``, ``st at base of beg ch-3``: where the chain that the row began with stands.

    Takes: st at base of ch 3
    Refuses: base of next shell
    """
    if stream.said.isdisjoint(("base", "foot", "bottom")):
        return None
    found = ignoring_case(_THIS_CHAIN).match(stream.text, stream.start)
    if found is None:
        return None
    stream.pass_to(found.end())
    return Same(AnyStitch(), began=True)


def _base(stream: Stream) -> bool:
    """Pass "base of": a stitch worked at the foot of another stands where that stands.

    Gives whether that was said.
    """
    at_foot = stream.words_ahead("base", "of") or stream.words_ahead("foot", "of")
    if at_foot:
        stream.at += 2
        stream.articles()
    if stream.words_ahead("top", "of") and stream.ahead(2).word in ("next", "each"):
        stream.at += 2
    return at_foot


#: the side of a chain that no stitch has been worked into yet
_FAR_SIDE = (
    r"(?:the )?(?:(?:other|opposite|under|bottom|lower|free|unused|unworked|rem(?:aining)?|back)"
    r"[ -]?"
    r"(?:sides?|loops?|lps?|edge|bumps?)|underside|bottom|back bumps?) of (?:the )?"
    r"(?=(?:each|every|all|next|first|last|\d+)\b[^,;.()]*\bch(?:ain)?s?\b)"
)


def _far_side(stream: Stream) -> None:
    """Pass "other side of" in front of "each ch": a chain's places are the same from both sides."""
    if stream.said.isdisjoint(("side", "underside", "lp", "bottom", "bump", "bumps", "edge")):
        return
    found = ignoring_case(_FAR_SIDE).match(stream.text, stream.start)
    stream.far_side = stream.far_side or found is not None
    if found is not None:
        stream.pass_to(found.end())


def _target(stream: Stream) -> Target:
    """The same behind articles, "base of" and loops.

    Takes: each of next 3 sts
    Refuses: turn
    """
    point = at_point(stream)
    if point is not None:
        return point
    where = Same() if _came_to_center(stream) else _of_first_stitch(stream)
    if where is not None:
        return where
    token = stream.token
    for read in _BY_WORD.get(token.word if token.kind == "word" else token.kind, _ANY):
        found = read(stream)
        if found is not None:
            return found
    if stream.words_ahead("top", "of") or stream.words_ahead("tip", "of"):
        stream.at += 2
        stream.articles()
    if stream.is_word("all") and stream.ahead().kind in ("num", "formula"):
        stream.take()
    if stream.is_word("each", "all"):
        return _every(stream)
    if stream.is_word("next", "first", "last", "any", "rem") or _center_many(stream):
        return _so_many(stream)
    if stream.is_amount():
        count = stream.amount()
        if stream.accept("skipped"):
            return Same(name(stream), made=True, count=count)
        return Next(count=count, names=names(stream))
    if stream.token.kind == "ord" and stream.token.value == 1:
        stream.take()
        return First(names(stream))
    return _bare(stream)


#: up to the middle of a group, which the next step names again
_TO_CENTER = (
    r"\bto (?:the )?(?:center|centre|middle) (?:st|stitch|sc|[hd]?dc|h?tr|dtr) of\b[^;*]*?,\s*"
    r"(?:[^,;*()]|\([^()]*\))*\Z"
)


def _came_to_center(stream: Stream) -> bool:
    """Pass "center dc" behind "to center dc of next 3-dc group": the place that was come to."""
    if not stream.is_word("center") or stream.ahead().kind != "stitch":
        return False
    if stream.ahead(2).kind not in ("mark", "end"):
        return False
    if ignoring_case(_TO_CENTER).search(stream.text[: stream.start]) is None:
        return False
    stream.at += 2
    return True


def _bare(stream: Stream) -> Target:
    """A name alone, without a number or a word for which of them: one, in the plural all.

    Takes: ch-2 sps across
    Takes: dc
    Refuses: turn
    """
    several = _several_named(stream)
    if several is not None:
        return Each(several, limit(stream))
    found_names = names(stream, one_each=True)
    if isinstance(found_names[0], Space) and stream.is_word("across", "around"):
        return Each(found_names, limit(stream))  # "3 sc in ch-3 sp across"
    if isinstance(found_names[0], Space) and _stands_at_end(stream):
        stream.at += 2
        return Last(found_names)  # "in loop of ch 5 at end"
    return Next(found_names, bare=True)


#: the tokens of the longest bare name, as of "dc and ch-1 corner sps"
_LONGEST = 6


def _several_named(stream: Stream) -> tuple[PlaceName, ...] | None:
    """Bare names in the plural: with no number, all of them are meant.

    Takes: ch-2 sps
    Takes: dc and sps
    Refuses: ch-2 sp
    """
    if not any(token.plural for token in stream.tokens[stream.at : stream.at + _LONGEST]):
        return None
    mark = stream.here()
    found = names(stream, each=True)
    if stream.tokens[stream.at - 1].plural and not isinstance(found[-1], Gap | TurningChain):
        return found
    stream.back_to(mark)
    return None


def _stands_at_end(stream: Stream) -> bool:
    """Whether "at end" stands here, and nothing is said of which end."""
    return stream.words_ahead("at", "end") and stream.ahead(2).kind in ("mark", "end")


def _ring(stream: Stream) -> IntoRing | None:
    """``ring``; ``magic ring`` makes it too.

    Takes: magic ring
    Refuses: next st
    """
    if stream.accept("mr") or _magic_ring(stream):
        return IntoRing(magic=True)
    return IntoRing() if stream.accept_any("ring", "circle", "rnd") else None


def _here(stream: Stream) -> Same | None:
    """``same st``, ``tr just made``, ``skipped st``: no further place is taken up.

    Takes: same st as joining
    Refuses: next st
    """
    if stream.accept("skipped"):
        return Same(name(stream), made=True)
    if stream.is_word("this") and stream.ahead().word in ("lp", "sp"):
        stream.at += 2  # "ch 12, …, work 16 sc over this loop"
        return Same(Space(), made=True)
    if stream.accept("end", "of", "ch"):
        return Same(OneChain())
    if stream.is_word("that") and stream.ahead().word in (
        "sp",
        "st",
        "lp",
        "gap",
        "corner",
        "place",
    ):
        stream.take()  # "join B in any corner sp, (3 dc, ch 2, 3 dc) in that sp"
        return _same(stream)
    if stream.accept("join"):
        stream.accept("st")
        return Same(AnyStitch(), began=True)
    made = _just_made(stream)
    if made is None and stream.accept("same"):
        return _same(stream)
    return made


def _of_first_stitch(stream: Stream) -> Same | None:
    """``2 sc in the ch of the first sc``: where the first of the row was worked.

    Takes: ch of the first sc
    Refuses: ch of next shell
    """
    if not stream.words_ahead("ch", "of"):
        return None
    mark = stream.here()
    if stream.accept("ch", "of"):
        stream.articles()
        stream.accept("your")
        if stream.accept("first") and (stream.token.kind == "stitch" or stream.is_word("inc")):
            stream.take()
            return Same(OneChain(), first=True)
    stream.back_to(mark)
    return None


def _upon_it(stream: Stream) -> Same | None:
    """``1 dc upon it``: into the place that was come to.

    Takes: it
    Refuses: its
    """
    return Same() if stream.accept("it") else None


def _magic_ring(stream: Stream) -> bool:
    mark = stream.at
    stream.accept_any("adjustable", "magic", "sliding")
    if stream.at > mark and stream.accept_any("ring", "lp", "circle"):
        return True
    stream.at = mark
    return False


#: words for a loop of a stitch, or of both, in front of its name
_LOOPS = ("both", "back", "front", "blo", "flo", "bl", "fl", "tbl", "third")


def _loops(stream: Stream) -> bool:
    """Pass "back loop only of": which loop is taken changes no count."""
    if stream.accept("both"):
        stream.accept_any("lp")
        stream.accept("of")
    elif stream.token.kind == "ord" and stream.ahead().word == "lp":
        stream.at += 2
        stream.accept("only")
        stream.accept("of")
    elif stream.accept_any(*_LOOPS):
        stream.accept_any("lp", "post", "half", "thread", "strand")
        stream.accept("only")
        stream.accept("of")
    else:
        return False
    stream.articles()
    return True


def _loop_alone(stream: Stream) -> bool:
    """Whether "in blo around" names no place: each stitch is meant."""
    return (
        stream.is_word("around", "across", "to", "until", "till")
        or stream.words_ahead("all", "the")
        or stream.words_ahead("all", "around")
    )


def _just_made(stream: Stream) -> Same | None:
    """``top of tr just made``, ``dc at end of prev rnd``: no place of the row is taken up.

    Takes: top of tr just made
    Takes: st just skipped
    Refuses: next tr
    """
    mark = stream.here()
    stream.accept("top", "of") or stream.accept("center", "of")
    stream.accept_any("last", "prev")
    stream.articles()
    place = name(stream) if not stream.is_word("next", "first", "each", "same") else None
    if place is not None and (
        stream.accept("just", "made")
        or stream.accept("made")
        or stream.accept("just", "worked")
        or stream.accept("just", "formed")
        or stream.accept("just", "skipped")
    ):
        return Same(place, made=True)
    if isinstance(place, Space) and _stands_at_end(stream):
        stream.back_to(mark)
        return None
    if place is not None and stream.is_word("at") and _at_the_start(stream):
        return Same(place, made=True, ending=stream.tokens[stream.at - 1].word in ("rnd", "row"))
    stream.back_to(mark)
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
    """Behind "same": the place that the hook stands at.

    Takes: st as joining
    Refuses: st as it was
    """
    place = name(stream)
    if stream.accept_any("as", "with"):
        stream.articles()
        stream.accept("your")
        if stream.is_amount() or (
            stream.is_word("first", "last")
            and (stream.ahead().kind in ("num", "stitch") or stream.ahead().word in ("inc", "dec"))
        ):
            first = stream.accept("first")
            stream.accept("last")
            if stream.is_amount():
                stream.take()
            stream.take()
            return Same(place, first=first)
        began = stream.is_word("first", "beg")
        stream.accept_any("last", "prev", "first", "beg")
        if stream.accept("join") or stream.accept("sl st") or stream.accept("join", "sl st"):
            began = True
        elif began and (stream.token.kind in ("mark", "end") or _so_many_chains(stream)):
            pass  # "same loop as beginning"
        elif stream.token.kind == "stitch":
            stream.take()
        elif not stream.accept("st"):
            raise stream.fault(mend="write “same st as joining”")
        stream.accept_any("join", "sl st")
        return Same(place, began=began)
    return Same(place)


def _so_many_chains(stream: Stream) -> bool:
    """Pass ``ch-3``, ``ch 3``: behind "same st as beg" the chain that the row began with.

    Takes: ch-3
    Refuses: ch
    """
    if stream.token.kind == "chn":
        stream.take()
        return True
    if stream.is_word("ch") and stream.ahead().kind == "num":
        stream.at += 2
        return True
    if stream.token.kind == "num" and stream.ahead().word == "ch":
        stream.at += 2
        return True
    return False


def _from_hook(stream: Stream) -> FromHook | None:
    """A chain counted from the hook.

    Takes: 4th ch from hook
    Takes: 3rd and 4th ch from hook
    Refuses: 4th ch of next sp
    """
    mark = stream.at
    if stream.token.kind == "ord":
        token = stream.take()
        nth = Amount((token.value,), None, token.start, token.end)
        more = _and_the_next(stream, token.value)
        if stream.accept_any("ch", "st") and stream.accept("from"):
            stream.articles()
            if stream.accept_any("hook", "needle"):
                return FromHook(nth, more=more)
        elif not more and _along_the_chain(stream):
            return FromHook(nth)
    stream.at = mark
    return None


def _along_the_chain(stream: Stream) -> bool:
    """Whether "and next 8 ch", "and each ch" stands behind "2nd ch": of the chain at the hook."""
    if stream.tokens[stream.at - 1].word != "ch" or not stream.is_word("and"):
        return False
    ahead = [one.word for one in stream.tokens[stream.at + 1 : stream.at + 6]]
    ahead = [word for word in ahead if word not in ("in", "the", "of")]
    return ahead[:1] in (["next"], ["each"]) and "ch" in ahead[:3]


def _and_the_next(stream: Stream, nth: int) -> int:
    """Pass "and 4th" behind "3rd", ", 4th and 5th": how many chains follow, each the next one."""
    more = 0
    while True:
        mark = stream.at
        if stream.is_word("ch") and stream.ahead().word in ("and", "&"):
            stream.take()
        parted = stream.accept_any("and", "&", ",") is not None
        if not parted or stream.token.kind != "ord" or stream.token.value != nth + more + 1:
            stream.at = mark
            return more
        stream.take()
        more += 1


def _chain_of_turning(stream: Stream) -> ChainOfTurning | None:
    """The stitch part of a counted chain.

    Takes: 3rd ch of beg ch-5
    Refuses: 3rd ch from hook
    """
    mark = stream.at
    nth: Amount | None = None
    if stream.token.kind == "ord":
        token = stream.take()
        nth = Amount((token.value,), None, token.start, token.end)
        if not stream.accept("ch") and stream.words_ahead("st", "of"):
            stream.take()  # "3rd st of ch-5"
    elif stream.accept("top"):
        stream.accept("st")  # "top st of ch-4"
    else:
        found = turning(stream)
        if isinstance(found, TurningChain):
            return ChainOfTurning(None, found)
        stream.at = mark
        return None
    if stream.accept("of") or nth is None:
        stream.articles()
        if stream.token.kind == "num" and stream.ahead().word == "skipped":
            stream.take()  # "5th of 7 missed ch"
        stream.accept_any("first", "last", "prev", "skipped")
        if nth is not None and stream.accept("same"):
            stream.accept("ch")  # "a dc in 3rd ch of same": of the chain named before it
            return ChainOfTurning(nth, TurningChain())
        chain = _counted_off(stream) or turning(stream)
        if isinstance(chain, TurningChain):
            return ChainOfTurning(nth, chain)
        if stream.token.kind == "chn" and stream.ahead().word not in ("sp", "lp"):
            first = TurningChain(stream.take().value)
            stream.accept("first", "made")
            return ChainOfTurning(nth, first)
        if stream.is_word("ch"):
            stream.take()
            chains = stream.take().value if stream.token.kind == "num" else None
            stream.accept("at", "end") or stream.accept("first", "made")
            return ChainOfTurning(nth, TurningChain(chains))
        if nth is None and isinstance(chain, NamedStitch):
            return ChainOfTurning(None, TurningChain())
    stream.at = mark
    return None


def _counted_off(stream: Stream) -> TurningChain | None:
    """``3 ch``, ``beg 3 ch``, ``4 turning ch``: the chain with its number in front.

    Takes: 3 ch
    Takes: 4 turning ch
    Refuses: ch 3
    """
    mark = stream.at
    stream.accept_any(*TURNING)
    if stream.token.kind == "num":
        chains = stream.take().value
        stream.accept_any(*TURNING)
        if stream.accept("ch"):
            return TurningChain(chains)
    stream.at = mark
    return None


def _sides(stream: Stream) -> RowSides | Next | None:
    """``side of each row``, ``each row end along front edge``, ``end of each of the 14 rows``.

    Takes: side of each row
    Takes: end of each sc row
    Takes: end of each of next 14 rows
    Refuses: each st
    """
    if "row" not in stream.said:
        return None
    mark = stream.at
    if stream.accept_any("side", "end", "edge") and stream.ahead().word == "of":
        stream.accept("st") or (stream.token.kind == "stitch" and stream.take())
    stream.accept("of")
    if stream.at > mark and stream.words_ahead("next", "row"):
        stream.at += 2
        return Next((RowEnd(),))  # "sc in side of next row"
    numbered = stream.ahead().kind in ("num", "ord") or stream.token.kind == "ord"
    if numbered and stream.at > mark + 1 and "row" in (stream.token.word, stream.ahead().word):
        stream.at += 2
        return Next((RowEnd(),))  # "in the end of Row 11", "of 1st row"
    each = bool(stream.accept("each"))
    if each and stream.at > mark + 1 and (ends := _so_many_sides(stream)) is not None:
        return ends
    of_it = stream.token.kind == "stitch" and stream.ahead().word == "row"
    of = kind_of(stream.take().word).base if each and of_it and stream.at > mark + 1 else None
    if of is not None and stream.accept("row"):
        _pass_edge(stream)
        return RowSides(each=True, of=of)
    if stream.accept("row"):
        ended = stream.accept("end")
        if stream.at > mark + 2 or (ended and stream.at > mark + 1):
            _pass_edge(stream)
            return RowSides(each=each)
    stream.at = mark
    return None


def _so_many_sides(stream: Stream) -> Next | None:
    """Behind "side of each": so many rows.

    Takes: of the 14 rows
    Refuses: row
    """
    mark = stream.here()
    stream.accept("of")
    stream.articles()
    stream.accept_any("next", "first", "last")
    count = stream.amount() if stream.is_amount() else None
    if stream.token.kind == "stitch" and stream.ahead().word == "row":
        stream.take()  # "of the 4 dc rows"
    if count is None or not stream.accept("row"):
        stream.back_to(mark)
        return None
    _pass_edge(stream)
    return Next((RowEnd(),), count, each=True)


_EDGE_WORDS = frozenset(
    "across along down up around the a left right front back neck side edge of piece other "
    "opposite second first top bottom lower upper long short cuff band ribbing rib brim heel "
    "collar waistband flap strap strip hat sleeve hem panel opening".split()
)


def _pass_edge(stream: Stream) -> None:
    while stream.token.kind == "word" and stream.token.word in _EDGE_WORDS:
        stream.take()


def _every(stream: Stream) -> Target:
    """All places of a name; every nth of them would leave the others unsaid.

    Takes: each st to last 3 sts
    Refuses: every other st
    """
    sole_nth(stream)
    return _each(stream)


def _so_many(stream: Stream) -> Target:
    """So many places of a name, counted off.

    Takes: next 3 sts
    Refuses: next turn
    """
    return _counted(stream, each=False)


def _each(stream: Stream) -> Target:
    """All places of a name.

    Takes: each st to last 3 sts
    Refuses: each of turn
    """
    within = inside(stream) if "ch" in stream.said else None
    return within or _each_of_them(stream)  # "each of first 3 chs of next ch-5 sp"


def _each_of_them(stream: Stream) -> Target:
    """The same, where they are no chains of a space.

    Takes: each st to last 3 sts
    Refuses: each of turn
    """
    stream.take()
    if stream.accept("of"):
        stream.articles()
        if stream.accept("others"):
            return Each((AnyStitch(),), limit(stream))
        if stream.is_amount():
            count = stream.amount()
            if stream.is_word("skipped") and not _yarn_was_joined(stream):
                stream.take()
                return Same(name(stream), made=True, count=count)
            bare = no_name_follows(stream)  # "1 sc in each of nine"
            found = (AnyStitch(),) if bare else names(stream)
            if stream.is_word("around", "across") and stream.ahead().kind in ("mark", "end"):
                stream.take()  # "in each of the 24 dc around": there are no more of them
            return Next(count=count, names=found, each=True)
        return _counted(stream, each=True)
    if stream.token.kind == "num" and stream.ahead().word == "ch":
        chains = stream.take().value  # "under every 2 chain": each space of so many
        stream.take()
        stream.accept_any("sp", "lp")
        return Each((Space(chains),), limit(stream))
    counted = stream.ahead().kind in ("num", "formula")
    if stream.is_word("first", "last") or (stream.is_word("next") and counted):
        return _counted(stream, each=True)
    if many := _last_skipped(stream):
        stream.take()
        return Same(name(stream), made=True, count=Amount((many,)))
    stream.accept_any("rem", "next")  # "in each following dc": in all of them
    if stream.accept("of"):
        stream.articles()
    found = (AnyStitch(),) if _nothing_named(stream) else names(stream, each=True)
    bound = (_but(stream) if stream.token.word in _BUT else None) or limit(stream)
    if isinstance(bound, ToLast) and stream.tokens[stream.at - 1].word in ("last", "final"):
        bound = replace(bound, names=found)  # "in each ch-2 sp to last": to the last of them
    if bound is None and stream.accept("rem"):
        pass
    return Each(found, bound)


def _last_skipped(stream: Stream) -> int:
    """How many the row skipped last: "sk 2 sts, …, fptr around each skipped st"; 0 if none."""
    if not stream.is_word("skipped") or _yarn_was_joined(stream) or "sk" not in stream.said:
        return 0
    mark = stream.here()
    skips = [at for at, token in enumerate(stream.tokens[: mark.at]) if token.word == "sk"]
    if not skips:
        return 0
    stream.at = skips[-1] + 1
    stream.accept_any("next")
    count = stream.take().value if stream.token.kind == "num" else 1
    stream.back_to(mark)
    return count


_BUT = ("but", "except", "excepting")


def _but(stream: Stream) -> ToLast | None:
    """Behind "each st": ``except the first``, which is passed; ``but the last``, where it stops.

    Takes: but the last
    Refuses: but turn
    """
    mark = stream.here()
    if stream.accept_any(*_BUT):
        stream.accept("for")
        stream.articles()
        stream.accept("very")
        which = stream.accept_any("first", "last")
        if stream.token.kind == "stitch" or stream.is_word("st", "one"):
            stream.take()
        if which and (stream.at_end() or stream.token.kind == "mark" or stream.is_word("and")):
            stream.but_first = which == "first"
            return None if which == "first" else ToLast(ONE, (AnyStitch(),))
    stream.back_to(mark)
    return None


def _yarn_was_joined(stream: Stream) -> bool:
    """Whether the row begins with new yarn: then skipped stitches are those of an earlier row.

    So it does where it names the chain of an underarm: the yarn was joined in a line before it.
    """
    joined = any(token.word == "join" for token in stream.tokens[: stream.at])
    return joined or ("underarm" in stream.said and "sk" not in stream.said)


def _center_many(stream: Stream) -> bool:
    """``center 18 sts``: those in the middle are the next ones."""
    return stream.is_word("center") and stream.ahead().kind in ("num", "formula")


def _nothing_named(stream: Stream) -> bool:
    """Whether "2 sc in each", "in each around" leaves the stitch unsaid."""
    return no_name_follows(stream) or stream.is_word("around", "across")


def _step_follows(stream: Stream) -> bool:
    """Whether the next step follows without a name between ("sc in next 2 and inc in next")."""
    return stream.is_word("and", "then") and stream.ahead().kind in ("num", "stitch", "word")


def _counted(stream: Stream, *, each: bool) -> Target:
    """So many places of a name, from here or from the end.

    Takes: last 3 sts
    Refuses: next turn
    """
    word = stream.take().word
    if stream.is_word("skipped") and not _yarn_was_joined(stream) and _goes_back(stream, word):
        stream.take()
        return Same(name(stream), made=True)
    if word == "rem" and stream.is_amount():
        return Last(count=stream.amount(), names=names(stream), each=each)
    if word in ("rem", "each"):
        return Each(names(stream), limit(stream))
    if word == "last" and (onward := _last_of_next(stream)) is not None:
        return onward
    if word in ("first", "last") and (behind := _of_skipped(stream)) is not None:
        return behind
    if word in ("first", "last") and (of_many := _one_of(stream)) is not None:
        return First(of_many) if word == "first" else Last(of_many)
    count = stream.amount() if stream.is_amount() else ONE
    if word in ("first", "last") and stream.is_word("skipped") and not _yarn_was_joined(stream):
        stream.take()
        return Same(name(stream), made=True, count=count)
    each = each or bool(stream.accept("each"))
    alone = word in ("next", "first", "last", "center") or count is not ONE
    if (no_name_follows(stream) and alone) or (count is not ONE and _step_follows(stream)):
        found_names: tuple[PlaceName, ...] = (AnyStitch(),)
        stream.elided = word == "next" and count is ONE
    else:
        found_names = names(stream, one_each=word == "next")
    match word:
        case "first":
            stream.accept("made")
            return First(found_names, count, each)
        case "last" if count is ONE and any(
            isinstance(one, TurningChain) for one in found_names[1:]
        ):
            return Last((AnyStitch(),), Amount((len(found_names),)), each)  # "last dc and tch"
        case "last":
            return Last(found_names, count, each)
        case _:
            return Next(found_names, count, each)


def _last_of_next(stream: Stream) -> Next | None:
    """Behind "last": of how many that come next it is the last one; those before it are passed.

    Takes: of next 3 sts
    Refuses: of next shell
    """
    mark = stream.here()
    if stream.accept("of"):
        stream.articles()
        counted = stream.accept("next") and stream.token.kind == "num" and not _by_size(stream)
        if counted and stream.token.value > 1:
            nth = stream.amount()
            found = names(stream)
            if all(isinstance(one, AnyStitch | NamedStitch) for one in found):
                stream.nth, stream.nth_onward = nth, True
                return Next(found)
    stream.back_to(mark)
    return None


def _by_size(stream: Stream) -> bool:
    return stream.ahead().word == "("


def _of_skipped(stream: Stream) -> Same | None:
    """Behind "first": one of those that were skipped, which lie behind the hook.

    Takes: of 2 skipped sts
    Refuses: of next shell
    """
    mark = stream.here()
    if stream.accept("of") and not _yarn_was_joined(stream):
        stream.articles()
        stream.accept_any("these", "those")
        if stream.is_amount():
            stream.amount()
        if stream.accept("skipped"):
            return Same(name(stream), made=True)
    stream.back_to(mark)
    return None


def _goes_back(stream: Stream, word: str) -> bool:
    """Whether a skipped place is one behind the hook: of this row, or of one below it."""
    return word in ("first", "last") or not stream.said.isdisjoint(("below", "sk"))


def _one_of(stream: Stream) -> tuple[PlaceName, ...] | None:
    """Behind "first": of how many it is the first.

    Takes: of 5 skipped sc
    Refuses: of next shell
    """
    mark = stream.here()
    if stream.accept("of"):
        stream.articles()
        onward = stream.accept_any("next", "these") == "next"
        if stream.is_word("skipped", "unworked"):
            return names(stream)
        if stream.is_amount():
            count = stream.amount()
            found = names(stream)
            if onward and count.values != (1,):
                _refuse_others_unsaid(stream, mark)
            return found
    stream.back_to(mark)
    return None


def _refuse_others_unsaid(stream: Stream, mark: Here) -> None:
    """``first of next 4 dc``: the others are skipped, or worked, and one of both has to be said."""
    at = stream.at + (1 if stream.is_mark(",", ";") else 0)
    at += 1 if stream.tokens[at].word in ("and", "then") else 0
    if stream.tokens[at].word != "sk":
        raise stream.fault(
            stream.tokens[mark.at].start,
            found="what becomes of the others of them is not said",
            mend="write “sc in next dc, sk 3 dc”, or where each of them is worked",
        )


#: every kind of place, in the order in which they are tried
_ANY: tuple[Callable[[Stream], Target | None], ...] = (
    _ring,
    _here,
    inside,
    _from_hook,
    _chain_of_turning,
    _sides,
)
#: those that may begin with one of the commonest words (or with a token that is no word); behind
#: another word any of them may follow
_BY_WORD: dict[str, tuple[Callable[[Stream], Target | None], ...]] = {
    "next": (inside, _so_many),
    "each": (_sides, _every),
    "first": (inside, _so_many),
    "last": (_here, inside, _so_many),
    "same": (_here,),
    "join": (_here,),
    "it": (_upon_it,),
    "top": (_here, _chain_of_turning),
    "num": (),
    "formula": (),
    "chn": (_here, inside),
    "ch": (inside,),
    "ord": (inside, _from_hook, _chain_of_turning, nth_place),
    "stitch": (_here, inside),
}
