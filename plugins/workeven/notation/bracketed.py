"""Brackets that look like a remark and say more: a step of its own, by how many a row changes.

Takes     ``Stream`` at an opening bracket.
Gives     ``step_in_brackets``, ``changed_by``, ``change_at_end``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps ("``(2 dc) in next st``"), "Stated counts".

Behind the step that it explains, ``(inc)`` is a remark: ``2 sc in next st (inc)``. Between two
commas, where no such step stands before it, it is what is worked: ``sc 5, (inc), sc 5``.
"""

from __future__ import annotations

from itertools import pairwise

from workeven.notation.endings import Inner
from workeven.notation.stated_counts import begins_count, stated
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tokens import Token
from workeven.notation.tree import OtherSide, Stated, StatedHere, Step
from workeven.records import replace

#: marks that stand around a step
_PARTING = (",", ";", "*", "**", "[", "(", ":", "†")
_BEHIND = (",", ";", "]", ")", ".")


def step_in_brackets(stream: Stream, closing: int, inner: Inner) -> tuple[Step, ...] | None:
    """``sc 5, (inc), sc 5``: a step, where nothing before it is explained by it.

    Takes: (inc)
    Refuses: (inc made)
    """
    if stream.ahead().word in _GOING and (beside := _along_a_side(stream, closing, inner)):
        return beside
    if closing != stream.at + _ONE_WORD or not _stands_alone(stream, closing):
        return None
    token = stream.ahead()
    declared = token.kind == "stitch" and token.word in stream.vocabulary.special
    shaped = token.kind == "word" and token.word in ("inc", "dec")
    if not (declared or shaped) or _explains(stream, token):
        return None
    stream.take()
    found = inner.one(stream)
    if stream.at != closing:
        raise stream.fault()
    stream.take()
    return found


#: words with which a bracket leads along another side
_GOING = ("working", "work", "turn", "rotate", "now")


def _along_a_side(stream: Stream, closing: int, inner: Inner) -> tuple[Step, ...] | None:
    """``3 sc in last ch, (working along the bottom of the chain) sc in next 18 ch``.

    Takes: (working along the bottom of the chain)
    Refuses: (working loosely)
    """
    mark = stream.here()
    stream.take()
    try:
        found = inner.one(stream)
    except NotUnderstood:
        found = ()
    if stream.at == closing and len(found) == 1 and isinstance(found[0], OtherSide):
        stream.take()
        return found
    stream.back_to(mark)
    return None


#: the token behind the only one that the brackets hold
_ONE_WORD = 2


def _stands_alone(stream: Stream, closing: int) -> bool:
    """Whether marks part the brackets from what stands before and behind them."""
    before = stream.tokens[stream.at - 1] if stream.at else None
    behind = stream.tokens[closing + 1]
    parted = before is None or (before.kind == "mark" and before.word in _PARTING)
    return parted and (behind.kind == "end" or behind.word in _BEHIND)


def _explains(stream: Stream, told: Token) -> bool:
    """Whether the step in front of the comma is what the brackets give a name to."""
    at = stream.at - 1
    if at < 0 or stream.tokens[at].word not in (",", ";"):
        return False
    clause: list[Token] = []
    while at and stream.tokens[at - 1].word not in (",", ";", "*"):
        at -= 1
        clause.insert(0, stream.tokens[at])
    counted = any(one.kind == "num" and after.kind == "stitch" for one, after in pairwise(clause))
    if told.word == "inc":
        return counted  # "2 sc in next st, (inc)"
    if told.word == "dec":
        return any(one.word.endswith("tog") or one.word in ("tog", "sk") for one in clause)
    return counted or any(one.word in ("(", ")", "[", "]", told.word) for one in clause)


#: words behind a number of stitches that say that they are more or fewer than before
_MORE = ("inc", "increased", "added", "gained", "more")
_FEWER = ("dec", "decreased", "lost", "fewer")
_CHANGES = frozenset((*_MORE, *_FEWER))


def changed_by(stream: Stream, closing: int) -> tuple[Step, ...] | None:
    """``Join (8 sts increased)``: by how many the whole row changes the stitches.

    Behind a step it speaks of that step alone; behind the end of the row, of the row.

    Takes: (8 sts increased)
    Refuses: (8 sts)
    """
    if not _ends_row(stream, closing):
        return None
    mark, start = stream.here(), stream.start
    stream.take()
    found = _change(stream, start)
    if found is not None and stream.at == closing:
        stream.take()
        return (replace(found, end=stream.end),)
    if found is not None and stream.accept_any("-", ",", ":", ";", "=") and begins_count(stream):
        counted = stream.start
        said = stated(stream, counted)
        if said is not None and stream.at == closing:
            stream.take()
            return found, StatedHere(said, counted, stream.end)
    stream.back_to(mark)
    return None


def change_at_end(stream: Stream) -> StatedHere | None:
    """``…; rep from * around: 8 incs made``: the same without brackets, at the end of the row.

    Takes: : 8 incs made
    Refuses: : 8 sts
    """
    if stream.said.isdisjoint(_CHANGES):
        return None
    mark = stream.here()
    if stream.accept_any("-", ":", "=", ";") and stream.is_amount():
        found = _change(stream, stream.start)
        stream.accept(".")
        if found is not None and stream.at_end():
            return found
    stream.back_to(mark)
    return None


def _change(stream: Stream, start: int) -> StatedHere | None:
    """``8 sts increased``, ``8 incs made``: an increase may add one stitch or two.

    Takes: 8 sts increased
    Takes: 8 incs made
    Refuses: 8 sts
    """
    if not stream.is_amount():
        return None
    number = stream.amount()
    named = stream.accept("st") or (stream.token.kind == "stitch" and bool(stream.take()))
    word = stream.accept_any(*_MORE, *_FEWER)
    if word is None or not (named or word in ("inc", "dec")):
        return None
    stream.accept_any("made", "worked", "in", "total")
    said = Stated(((number, "sts" if named else word),), start, stream.end)
    return StatedHere(said, start, stream.end, change=1 if word in _MORE else -1)


#: words of the last step of a row
_LAST = ("turn", "join", ".", "around", "across", "times", "twice", "end")


def _ends_row(stream: Stream, closing: int) -> bool:
    """Whether the brackets stand behind the last step of the row, and nothing behind them."""
    behind = stream.tokens[closing + 1 :]
    if any(token.kind not in ("end", "mark") for token in behind):
        return False
    return stream.at == 0 or stream.tokens[stream.at - 1].word in _LAST
