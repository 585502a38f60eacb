"""Brackets and stars: repeats, groups worked into one place, remarks in brackets.

Takes     ``Stream``, and how the steps inside a group are read (``Inner``).
Gives     ``marked``, ``in_place_first``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Repeats nest" and "How repeats end".
"""

from __future__ import annotations

import re

from workeven.notation.asides import is_remark
from workeven.notation.bracketed import changed_by, step_in_brackets
from workeven.notation.contents import content, in_all, times_count
from workeven.notation.corners import last_worked
from workeven.notation.endings import Inner, ending_of
from workeven.notation.expressions import ignoring_case
from workeven.notation.places import limit
from workeven.notation.remarks import EACH_CHAIN, counts_as
from workeven.notation.stars import opens_star, star, times_again
from workeven.notation.stated_counts import stated_in_brackets
from workeven.notation.stitches import and_in_place, in_each_part, where_of, without_twice
from workeven.notation.stream import Here, NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.tokens import Token
from workeven.notation.tree import (
    ONE,
    Amount,
    Chain,
    Content,
    EachChainCounts,
    Exactly,
    FromHook,
    LeaveRest,
    More,
    Open,
    Repeat,
    StatedHere,
    Step,
    Stitch,
    Stop,
    Times,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import CLOSED_WORDS, kind_of
from workeven.notation.what_counts import what_is_a_stitch
from workeven.records import replace


def marked(stream: Stream, inner: Inner) -> tuple[Step, ...]:
    """A phrase that begins with a mark.

    Takes: [sc 7, sc2tog] 6 times
    Refuses: , sc
    """
    token = stream.token
    match token.word:
        case "*" | "†":
            return (star(stream, inner),)
        case "**" if opens_star(stream):
            return (star(stream, inner),)
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
    if (said := stated_in_brackets(stream, closing)) is not None and (
        opening.word == "(" or closes or all(unit == "sts" for _, unit in said.counts)
    ):
        again = after.kind == "word" and after.word in ("to", "around", "across")
        if closes or not (_is_place_group(after.word) or again or _is_times(stream, closing)):
            stream.at = closing + 1
            return (StatedHere(said, opening.start, stream.end),)
    if opening.word == "(" and (left := _left_unworked(stream, closing)):
        return (left,)
    if opening.word == "(" and (said_chains := _each_chain(stream, closing)):
        return (said_chains,)
    if (own := step_in_brackets(stream, closing, inner)) is not None:
        return own
    if (change := changed_by(stream, closing)) is not None:
        return change
    remarks = (
        what_is_a_stitch,
        _says_of_chain,
        _so_many_rows,
        _made_together,
        _counts_as_loop,
        _says_it_again,
        _where_last_goes,
    )
    if any(told(stream, closing) for told in remarks):
        return ()
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
        and not _is_all_around(stream, closing)
    ):
        return _group_in_place(stream, closing)
    return _bracket_repeat(stream, closing, inner)


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


def _each_chain(stream: Stream, closing: int) -> Step | None:
    """``(each ch counts as a st)``.

    Takes: (each ch counts as a st)
    Refuses: (counts as dc)
    """
    opening = stream.token
    end = stream.tokens[closing].end
    if EACH_CHAIN.fullmatch(stream.text[opening.start : end]) is None:
        return None
    stream.at = closing + 1
    return EachChainCounts(opening.start, end)


def _so_many_rows(stream: Stream, closing: int) -> bool:
    """``[4 rounds]``: how many rows the line stands for, which its label says too.

    Takes: [4 rounds]
    Refuses: [4 sts]
    """
    mark = stream.here()
    stream.take()
    if stream.is_amount():
        number = stream.amount()
        if stream.accept_any("row", "rnd") and stream.at == closing:
            stream.take()
            stream.rows_said = number
            return True
    stream.back_to(mark)
    return False


def _where_last_goes(stream: Stream, closing: int) -> bool:
    """``(last dc is in top of ch-3)``: told for the maker, it goes there anyway.

    Takes: (last dc is in top of ch-3)
    Refuses: (last dc)
    """
    mark = stream.here()
    stream.take()
    if stream.is_word("last", "final", "the") and last_worked(stream) and stream.at == closing:
        stream.take()
        return True
    stream.back_to(mark)
    return False


_CHAIN = r"(?:ch(?:ain)?[ -]?\d+|\d+[ -]?ch(?:ain)?s?|(?:beg(?:inning)?|turning) ch(?:ain)?|t-?ch)"
_TOGETHER = (
    rf"[(\[](?:(?:the |this |first )*{_CHAIN} (?:and|plus|with|\+|&) "
    r"(?:the |first |next |1 )*[a-z0-9 ]+? "
    r"(?:together )?)?(?:counts?|counted|counting)(?: together)? as "
    r"(?:the |a |an |first |1 |one |beg(?:inning)? )*(?:(?:\d-)?(?:sc|hdc|dc|tr|htr|dtr)[ -])?"
    r"(?P<whole>[a-z]+ ?\d ?tog|[a-z ]+)[)\]]"
)


def _made_together(stream: Stream, closing: int) -> bool:
    """``(ch 2 and dc count as dc2tog)``: the row's chain is a part of its first stitch.

    Takes: (ch 2 and dc count as dc2tog)
    Takes: (counts as first 3-dc cl)
    Refuses: (ch 2 counts as dc)
    """
    said = stream.text[stream.start : stream.tokens[closing].end]
    found = ignoring_case(_TOGETHER).fullmatch(said)
    whole = stream.tokens[closing - 1]
    closed = None if found is None else CLOSED_WORDS.get(found["whole"].lower().strip())
    word = whole.word if whole.kind == "stitch" else closed  # "tr-cluster"
    if found is None or word is None:
        return _dec_made(stream, closing, said) or _beginning_made(stream, closing, said)
    if kind_of(word).legs == 1 and word not in CLOSED_WORDS.values():
        return False
    stream.whole, stream.at = word, closing + 1
    return True


#: the head of a row whose first decrease is a chain and the stitch behind it
_CHAIN_AND_STITCH = (
    rf"(?:[^:*(\[]*:)?\s*(?:turn[,;]\s*)?{_CHAIN}[,;]?\s+(?:turn[,;]\s*)?(?:and |then )?"
    r"(?:1 |one |a )?(?:work )?(?P<made>[a-z]+) (?:in|into) (?:the )?(?:next|2nd|second) \w+\s*"
)
_DEC_MADE = (
    r"[(\[](?:counts? as |this is |= ?)?(?:the |a |an |1 |one |first |beg(?:inning)? )*"
    r"dec(?:rease|r)?(?: made| worked| completed)?[)\]]"
)


def _dec_made(stream: Stream, closing: int, said: str) -> bool:
    """``ch 2, dc in next st (dec made)`` at the head: the chain and the stitch are the decrease.

    Takes: (dec made)
    Refuses: (picot made)
    """
    if "dec" not in stream.said or ignoring_case(_DEC_MADE).fullmatch(said) is None:
        return False
    head = ignoring_case(_CHAIN_AND_STITCH).fullmatch(stream.text[: stream.start])
    before = [token for token in stream.tokens[: stream.at] if token.kind == "stitch"]
    if head is None or not before or kind_of(before[0].word).legs != 1:
        return False
    stream.whole, stream.at = f"{kind_of(before[0].word).base}2tog", closing + 1
    return True


#: a chain, and stitches in one place, which the brackets behind them call by the name of one
_CHAIN_AND_PLACE = (
    rf"(?:.*[:,;.])?\s*{_CHAIN}[,;]?\s+(?:and |then )?(?:1 |one )?(?:work )?[a-z0-9]+ "
    r"(?:in|into) (?:the )?(?:same )?[a-z0-9 -]+?\s*"
)
_BEGINNING_MADE = (
    r"[(\[](?:the |a |first |beg(?:inning)?\.? )+(?:\d-(?:sc|hdc|dc|tr|htr) )?[a-z ]+ "
    r"(?:made|worked|completed)[)\]]"
)


def _beginning_made(stream: Stream, closing: int, said: str) -> bool:
    """``ch 2, dc in same sp (beg cl made)``: the chain and the stitch are that one.

    Takes: (beg cl made)
    Refuses: (picot made)
    """
    whole = stream.tokens[closing - 2]
    if whole.word not in CLOSED_WORDS.values() or whole.kind != "stitch":
        return False
    if ignoring_case(_BEGINNING_MADE).fullmatch(said) is None:
        return False
    before = [token for token in stream.tokens[: stream.at] if token.kind == "stitch"]
    made = [token for token in before if token.word != "sl st"]
    if len(made) != 1 or made[0].word in CLOSED_WORDS.values():
        return False
    kind = kind_of(made[0].word)
    if any(token.word == f"{kind.base}{kind.legs + 1}tog" for token in stream.tokens):
        return False  # "ch 3, dc2tog in same st (beg cl made), *dc3tog in next st": one of those
    if ignoring_case(_CHAIN_AND_PLACE).fullmatch(stream.text[: stream.start]) is None:
        return False
    stream.whole, stream.at = whole.word, closing + 1
    return True


_AS_LOOP = (
    r"[(\[](?:the |this |these |both )*(?:[a-z0-9 -]+? )?"
    r"(?:counts?|counted|counting|makes?|forms?|is|=)(?: as)? "
    r"(?:the |a |one |1 |last |final |next |first )*(?:ch-?\d+|\d+-?ch|ch)?[ -]?"
    r"(?:loop|lp|sp|space|arch)[)\]]"
)


#: a chain of the row, in brackets behind other steps than the one that makes it
_OF_CHAIN = (
    r"\((?:the|that|this|these|your|first|skipped|missed|beg(?:inning)?|\s)*"
    r"(?:ch(?:ain)?s?[ -]?\d|\d[ -]?ch(?:ain)?s?)\b"
)


def _says_of_chain(stream: Stream, closing: int) -> bool:
    """``sk first dc (ch 3 counts as 1 dc)``, ``(that 3 ch is your first tr)``: of the row's chain.

    Takes: (that ch 3 is your first dc)
    Refuses: (dc in ch 3)
    """
    if stream.counting is not None or not stream.is_mark("("):
        return False
    before = [one.word for one in stream.tokens[max(stream.at - 4, 0) : stream.at]]
    turned = before[-1:] == ["turn"] and "ch" in before  # "ch 3, turn (counts as dc)"
    if not turned and ignoring_case(_OF_CHAIN).match(stream.text, stream.start) is None:
        return False
    mark = stream.here()
    said = counts_as(stream)
    if said is None or stream.at != closing + 1:
        stream.back_to(mark)
        return False
    stream.counting = said
    return True


def _counts_as_loop(stream: Stream, closing: int) -> bool:
    """``ch 2, dc in first sc (counts as last ch-5 loop)``: told for the maker; it is one anyway.

    Takes: (counts as last ch-5 loop)
    Refuses: (counts as dc)
    """
    said = stream.text[stream.start : stream.tokens[closing].end]
    if ignoring_case(_AS_LOOP).fullmatch(said) is None:
        return False
    stream.at = closing + 1
    return True


#: words that a bracket behind them explains: "inc (2 sc in next st)"
_SHORT = ("inc", "dec", "picot")


def _says_it_again(stream: Stream, closing: int) -> bool:
    """``inc (2 sc in next st)``, ``2 sc in next st [inc]``: one word for it beside the other.

    There is no comma in front of the bracket, and nothing behind it that would work it again.

    Takes: (2 sc in next st)
    Refuses: (2 sc in next st) twice
    """
    at = stream.at
    if at == 0 or stream.tokens[at - 1].kind == "mark":
        return False
    after = stream.tokens[closing + 1]
    if not (after.kind == "end" or after.word in (",", ";", ".", ")", "]", "*", ":")):
        return False
    first = at - 1
    while first and stream.tokens[first - 1].kind != "mark":
        first -= 1
    inside = stream.tokens[at + 1 : closing]
    alone = len(inside) == 1 and inside[0].word in _SHORT
    if not alone and not any(_is_short(one) for one in stream.tokens[first:at]):
        return False
    stream.at = closing + 1
    return True


def _is_short(token: Token) -> bool:
    """Whether it is a short word for something that brackets may explain."""
    if token.kind in ("stitch", "grp"):
        return kind_of(token.word).legs > 1
    return token.word in _SHORT


def _is_place_group(word: str) -> bool:
    return word in ("in", "over", "on", "around", "between", "all")


def _is_all_around(stream: Stream, closing: int) -> bool:
    """Whether "all around", "all the way across" stands behind the bracket: how often."""
    words = [token.word for token in stream.tokens[closing + 1 : closing + 5]]
    way = words[1:3] == ["the", "way"]
    return words[:1] == ["all"] and words[3 if way else 1 :][:1] in (["around"], ["across"])


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
    mark = stream.here()
    stream.at = closing + 1
    found = times_count(stream) is not None
    stream.back_to(mark)
    return found


def _group_in_place(stream: Stream, closing: int) -> tuple[Step, ...]:
    """``(dc, ch 1, dc) in same sp and in each ch-1 sp around``: all of it in one place, each time.

    Takes: (dc, ch 1, dc) in next sp
    Refuses: (dc, ch 1, dc) in
    """
    opening = stream.take()
    inside = content(stream, closing)
    stream.at = closing + 1
    stream.accept("all")
    where = where_of(stream)
    if where is None:
        raise stream.fault(mend="say which place the group goes into: “(dc, ch 1, dc) in next st”")
    if isinstance(where, FromHook):
        where = replace(where, skipped=counts_as(stream))
    step = Work(inside, where, start=opening.start, end=stream.end)
    found: list[Step] = [in_each_part(stream, step) or step]
    while (again := and_in_place(stream)) is not None:
        more = Work(inside, again, start=opening.start, end=stream.end)
        found.append(in_each_part(stream, more) or more)
    return tuple(found)


def in_place_first(stream: Stream) -> tuple[Step, ...] | None:
    """``in next st work (dc, ch 1, dc)``: the place is named before what goes into it.

    Old books have no verb behind "in every loop": "In every loop 1 sc, 5 dc, 1 sc."

    Takes: in next st work (dc, ch 1, dc)
    Refuses: in next st
    """
    mark, start = stream.here(), stream.start
    if not stream.accept("in"):
        stream.back_to(mark)
        return None
    try:
        places = [target(stream)]
        while (more := and_in_place(stream, told_first=True)) is not None:
            places.append(more)
        stream.accept_any(",", ":")
        said = stream.accept_any("work", "working", "make") is not None
        if not said and not _several_follow(stream):
            raise stream.fault()
        bracketed = stream.is_mark("(", "[")
        inside = _in_brackets(stream) if bracketed else _listed(stream, alone=said)
    except NotUnderstood:
        stream.back_to(mark)
        return None
    if not (stream.at_end() or stream.token.kind == "mark" or stream.is_word("and", "then")):
        stream.back_to(mark)
        return None
    made = [Work(inside, one, start=start, end=stream.end) for one in without_twice(places)]
    return tuple(in_each_part(stream, step) or step for step in made)


def _several_follow(stream: Stream) -> bool:
    """``into each loop 1 dc, 3 tr, 1 dc``: behind the place stands what goes into it."""
    if stream.is_mark("(", "["):
        return True
    return stream.token.kind == "stitch" or (
        stream.token.kind == "num" and stream.ahead().kind == "stitch"
    )


def _in_brackets(stream: Stream) -> tuple[Content, ...]:
    """Everything between two brackets.

    Takes: (dc, ch 1, dc)
    """
    closing = stream.closing()
    if closing < 0:
        raise stream.fault()
    stream.take()
    inside = content(stream, closing)
    stream.take()
    return inside


def _listed(stream: Stream, *, alone: bool) -> tuple[Content, ...]:
    """What goes into a place, up to the end of the sentence, or to a stitch with its own place.

    A chain at the end may be none of it, and in front of such a stitch is none ("in next sp work
    3 dc, ch 1, sc in next sp"). ``alone``: it may be one stitch ("in each st work 2 sc").

    Takes: sc, hdc, 3 dc, hdc and sc
    Refuses: 3 dc, ch 3
    """
    closing = stream.at
    while stream.tokens[closing].kind != "end" and stream.tokens[closing].word not in _SENTENCE:
        if stream.tokens[closing].word == ",":
            if _closes_round(stream, closing + 1):
                break
            if _goes_elsewhere(stream, closing + 1):
                closing = _before_chain(stream, closing)
                break
        closing += 1
    inside = content(stream, closing)
    if not (inside[1:] or alone) or isinstance(inside[0], Chain) or isinstance(inside[-1], Chain):
        raise stream.fault()
    return inside


def _goes_elsewhere(stream: Stream, at: int) -> bool:
    """Whether a stitch that names its own place stands at a token ("sc in next sp"), or a skip."""
    words = stream.tokens[at : at + 5]
    if words[0].word in ("and", "then"):
        words = words[1:]
    if words[0].word == "sk":
        return True
    if words[0].kind == "num":
        words = words[1:]
    if len(words) < _PLACED or words[0].kind != "stitch" or words[1].word not in ("in", "over"):
        return False
    if words[0].word == "sl st" and words[2].word != "next":
        return False  # "ch 5, sl st in last dc": it closes a picot
    return words[2].word != "same"


def _before_chain(stream: Stream, closing: int) -> int:
    """The comma in front of a chain that ends a list at a token; else that token."""
    at = closing - len((",", "ch", "3"))
    words = [token.word for token in stream.tokens[max(at, stream.at) : closing]]
    return at if words[:1] == [","] and "ch" in words else closing


def _closes_round(stream: Stream, at: int) -> bool:
    """Whether "join", "ch 1, turn", "sl st in first sc" stands there, behind a list's comma."""
    words = [token.word for token in stream.tokens[at : at + 4]]
    if words[:1] == ["and"]:
        words = words[1:]
    if words[:1] in (["join"], ["turn"], ["fasten"], ["fo"]):
        return True
    if "turn" in words and words[0] in ("ch", "then"):
        return True  # "ch 1, turn"
    first = words[2:3] if words[2:3] != ["the"] else words[3:4]
    closes = words[:2] == ["sl st", "in"] and first != [] and first[0] in _AT_START
    return closes and not _stitches_behind(stream, at)


def _stitches_behind(stream: Stream, at: int) -> bool:
    """Whether stitches follow ("ch 5, sl st in first ch, 4 sc"): it is a picot that is closed."""
    behind = False
    while stream.tokens[at].kind != "end" and stream.tokens[at].word not in _SENTENCE:
        token = stream.tokens[at]
        if behind and token.kind == "stitch" and token.word != "sl st":
            return True
        behind = behind or token.word == ","
        at += 1
    return False


#: a stitch, its "in", and the first word of its place
_PLACED = 3
#: what a round is closed in
_AT_START = ("first", "fst", "1st", "top", "beg")
#: marks that end a sentence or its part
_SENTENCE = (".", ";", "*", "(", "[", ")", "]")


def _bracket_repeat(stream: Stream, closing: int, inner: Inner) -> tuple[Step, ...]:
    """Steps in brackets, worked several times.

    Takes: [sc 2, inc] around
    Refuses: [sc 2, inc]
    """
    opening = stream.take()
    mark = stream.here()
    body = inner.several(stream, ")", "]")
    if stream.at != closing:
        raise stream.fault(mend="close each bracket with the kind that opened it")
    stream.take()
    if _stands_alone(stream) and not _in_one_place(stream, mark, closing):
        if "rep" in stream.said and _named_behind(stream):
            return (Repeat(body, Exactly(ONE), start=opening.start, end=stream.end),)
        return body
    times = _bracket_times(stream)
    if isinstance(times, Exactly) and stream.is_word("in", "all") and not _each_times(stream):
        end = stream.at
        stream.back_to(mark)
        inside = content(stream, closing)
        stream.at = end
        stream.amounts.append(times.count)
        stream.accept("all")
        where = where_of(stream)
        if where is not None:
            within = (Times(inside, times.count),)
            found = [Work(within, where, start=opening.start, end=stream.end)]
            while (more := and_in_place(stream)) is not None:
                found.append(Work(within, more, start=opening.start, end=stream.end))
            return tuple(found)
    if isinstance(times, Exactly):
        _pass_what_it_goes_over(stream, body, times.count)
    ending = ending_of(stream, inner, body)
    return (Repeat(body, times, ending, start=opening.start, end=stream.end),)


#: over how many a repeat of a decrease goes in all
_OVER_ALL = (
    r"over (?:the )?(?:next|first|last) (?P<many>\d+) "
    r"(?:sts|stitches|sc|[hd]?dc|h?tr|dtr)\b(?! ?\()"
)


def _pass_what_it_goes_over(stream: Stream, body: tuple[Step, ...], times: Amount) -> None:
    """Pass "over next 6 dc" behind "(dc2tog) 3 times", where that is what it comes to."""
    found = ignoring_case(_OVER_ALL).match(stream.text, stream.start)
    only = body[0] if len(body) == 1 else None
    if found is None or not isinstance(only, Work) or not isinstance(only.target, Unplaced):
        return
    made = only.content[0]
    legs = made.legs if isinstance(made, Stitch) and only.target.count == ONE else 1
    if legs > 1 and all(legs * (often or 0) == int(found["many"]) for often in times.values):
        stream.pass_to(found.end())


def _stands_alone(stream: Stream) -> bool:
    """Whether nothing behind the bracket says how often: its steps are only kept together."""
    here, parted = stream.here(), stream.is_mark(",", ";", ".")
    if parted:
        stream.take()
    alone = parted and not stream.at_end() and not _again(stream)
    stream.back_to(here)
    return alone


def _in_one_place(stream: Stream, mark: Here, closing: int) -> bool:
    """Whether the steps are what is worked into one place: that place, or how often, is missing."""
    here = stream.here()
    stream.back_to(mark)
    try:
        content(stream, closing)
    except NotUnderstood:
        return False
    finally:
        stream.back_to(here)
    return True


#: words between "rep" and the brackets that are meant
_BRACKETS = frozenset("from between bet btw within inside in instructions the bracketed".split())
_BRACKET_WORDS = frozenset("brackets bracket parentheses parenthesis parens".split())


def _again(stream: Stream) -> bool:
    """Pass "rep [ ]", "rep between brackets", behind a group in brackets.

    Takes: rep between [ ]
    Refuses: rep Row 2
    """
    mark = stream.at
    if stream.accept("rep"):
        while stream.is_word(*_BRACKETS):
            stream.take()
        if stream.accept("[", "]") or stream.accept("(", ")"):
            return True
        if stream.accept_any(*_BRACKET_WORDS):
            return True
    stream.at = mark
    return False


def _named_behind(stream: Stream) -> bool:
    """Whether "rep between [ ]" stands behind other steps: they are worked again there.

    Takes: , ch 1, rep between [ ] once
    """
    mark = stream.here()
    found = False
    while not stream.at_end() and not found:
        found = stream.is_word("rep") and _again(stream)
        stream.take()
    stream.back_to(mark)
    return found


def _each_times(stream: Stream) -> bool:
    return stream.is_word("in") and stream.ahead().word == "all"


def _bracket_times(stream: Stream) -> Exactly | More | Open:
    """Behind a bracket: how often.

    Takes: 6 times
    Refuses: and so on
    """
    mark = stream.at
    stream.accept_any(",", ";", ".")
    if _again(stream):
        return times_again(stream)
    stream.at = mark
    stream.accept("rep")
    count = times_count(stream)
    if count is not None:
        in_all(stream)
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
