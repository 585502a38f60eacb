"""Rings: made by magic, or of a chain that is joined or closed.

Takes     ``Stream``.
Gives     ``ring``, ``closes_ring``, ``formed_of``, ``ring_here``, ``begins_after_verb``,
          ``round_of_chains``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of places ("ring").

A chain closed into a ring may be worked into as a ring or as a round of chains: what the next row
says decides, or what the same one says behind the join (``round_of_chains``).
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.notation.stream import Stream
from workeven.notation.targets import target
from workeven.notation.tree import (
    Aside,
    Chain,
    Each,
    First,
    Increase,
    IntoRing,
    JoinRound,
    MagicRing,
    Next,
    OneChain,
    Repeat,
    Skip,
    Step,
    Target,
    Travel,
    Work,
)


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
            stream.accept(":")
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
    if after.word in ("a", "an", "another"):
        after = stream.ahead(2)
    if after.word == "picot" or stream.ahead(4).word == "picot":
        return True
    return after.kind in ("stitch", "num", "formula", "mark") or after.word in ("ch", "inc", "dec")


def round_of_chains(found: list[Step]) -> list[Step]:
    """``ch 60, join to form a ring, ch 1, sc in each ch around``: its chains are worked one by one.

    A step into the ring itself, anywhere behind the join, leaves it a ring. A slip stitch in the
    first chain joins as well, where nothing is behind it, or what is goes into the ring or along
    the chains.
    """
    at = _where_closed(found)
    if at is None:
        return found
    closed, behind = found[at], list(_targets(found[at + 1 :]))
    ring = any(isinstance(one, IntoRing) for one in behind)
    first = behind[0] if behind else None
    along = isinstance(first, Each | Next) and isinstance(first.names[0], OneChain)
    if isinstance(closed, JoinRound) and (ring or not along):
        return found
    if not (ring or along) and not all(isinstance(one, Aside) for one in found[at + 1 :]):
        return found
    where = closed.target if isinstance(closed, JoinRound | Travel | Work) else None
    joined = JoinRound(where, ring=ring, start=closed.start, end=closed.end)
    return [*found[:at], joined, *found[at + 1 :]]


def _where_closed(found: list[Step]) -> int | None:
    """Where a chain is closed into a ring, or its first chain is slipped into."""
    chained = False
    for at, step in enumerate(found):
        if isinstance(step, JoinRound) and step.ring:
            return at
        if isinstance(step, Chain) and not chained:
            chained = True
        elif not isinstance(step, Aside):
            return at if chained and _slips_into_first(step) else None
    return None


def _slips_into_first(step: Step) -> bool:
    """Whether a step is a slip stitch in the first chain."""
    slips = isinstance(step, Travel) or (isinstance(step, Work) and _is_slip(step))
    where = step.target if isinstance(step, Travel | Work) else None
    return slips and isinstance(where, First) and where.names == (OneChain(),)


def _targets(steps: list[Step] | tuple[Step, ...]) -> Iterator[Target]:
    """Where the steps go, those in repeats too."""
    for step in steps:
        if isinstance(step, Repeat):
            yield from _targets(step.steps)
        elif isinstance(step, Work | Increase | Skip):
            yield step.target


def _is_slip(step: Work) -> bool:
    """Whether a step works slip stitches."""
    return len(step.content) == 1 and getattr(step.content[0], "name", "") == "sl st"
