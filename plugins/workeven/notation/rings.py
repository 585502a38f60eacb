"""Rings: made by magic, or of a chain that is joined or closed.

Takes     ``Stream``.
Gives     ``ring``, ``closes_ring``, ``formed_of``, ``ring_here``, ``begins_after_verb``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of places ("ring").

A chain closed into a ring may be worked into as a ring or as a round of chains: what the next row
says decides.
"""

from __future__ import annotations

from workeven.notation.stream import Stream
from workeven.notation.targets import target
from workeven.notation.tree import JoinRound, MagicRing, Step, Target


def ring(stream: Stream) -> tuple[Step, ...] | None:
    """``magic ring``, ``make a magic ring``.

    Takes: make a magic ring
    Refuses: make a ring
    """
    start = stream.start
    mark = stream.at
    stream.accept_any("make", "work", "form", "in", "with", "start", "beg")
    stream.accept_any("with", "by", "from")
    stream.accept_any("make", "making", "work", "working")
    stream.articles()
    if stream.accept_any("adjustable", "magic", "sliding"):
        if stream.accept_any("ring", "lp", "circle"):
            if not stream.is_word("work", "make") or begins_after_verb(stream):
                stream.accept_any("work", "make")
            return (MagicRing(start, stream.end),)
    elif stream.accept("mr"):
        return (MagicRing(start, stream.end),)
    stream.at = mark
    return None


def closes_ring(stream: Stream) -> tuple[Step, ...] | None:
    """``close into a circle with a sl st``, ``close ch to form a ring``.

    Takes: close into a circle with a sl st
    Refuses: close the top with the tail
    """
    mark, start = stream.here(), stream.start
    if not stream.accept("close"):
        return None
    if stream.accept("with"):
        stream.articles()
        if stream.accept("sl st") and (formed := formed_of(stream, start)) is not None:
            return formed
        stream.back_to(mark)
        return None
    stream.articles()
    stream.accept_any("ch", "it")
    if (formed := formed_of(stream, start)) is not None:
        _closed_with(stream)
        return formed
    if stream.accept_any("in", "to"):
        stream.articles()
        if (found := ring_here(stream, start)) is not None:
            return found
    stream.back_to(mark)
    return None


def formed_of(stream: Stream, start: int) -> tuple[Step, ...] | None:
    """What a joined chain becomes: a ring to work into, or a round of chains.

    Takes: to form ring
    Refuses: to first sc
    """
    if stream.accept("to", "work", "in"):
        stream.articles()
        stream.expect("rnd", mend="write “join to work in the round”")
        return (JoinRound(None, start=start, end=stream.end),)
    if stream.accept("to", "form") or stream.accept("forming") or stream.accept("to", "make"):
        stream.articles()
        round_of_chains = stream.accept_any("circle", "tube", "rnd")
        if round_of_chains is None:
            stream.expect("ring", mend="write “to form ring”")
        ring = round_of_chains is None
        return (JoinRound(None, ring=ring, start=start, end=stream.end),)
    return None


def ring_here(stream: Stream, start: int) -> tuple[Step, ...] | None:
    """Behind "join in": ``ring``, ``circle with a sl st in first ch``.

    Takes: ring with a sl st
    Refuses: first ch
    """
    mark = stream.here()
    word = stream.accept_any("ring", "circle", "tube", "rnd")
    if word is None:
        return None
    where = _closed_with(stream)
    if stream.at_end() or stream.token.kind == "mark":
        return (JoinRound(where, ring=word == "ring", start=start, end=stream.end),)
    stream.back_to(mark)
    return None


def _closed_with(stream: Stream) -> Target | None:
    """Behind a ring: ``with a sl st in first ch``, of which the place is given.

    Takes: with a sl st in first ch
    """
    mark = stream.here()
    if stream.accept_any("with", "by", "using"):
        stream.articles()
        stream.accept_any("working", "making")
        stream.articles()
        if stream.accept("sl st"):
            if stream.accept_any("in", "to"):
                return target(stream)
            return None
    stream.back_to(mark)
    return None


def begins_after_verb(stream: Stream) -> bool:
    """Whether behind "work", "make" a stitch or a group is named."""
    after = stream.ahead()
    if after.word in ("a", "an"):
        after = stream.ahead(2)
    if after.word == "picot" or stream.ahead(4).word == "picot":
        return True
    return after.kind in ("stitch", "num", "formula", "mark") or after.word in ("ch", "inc", "dec")
