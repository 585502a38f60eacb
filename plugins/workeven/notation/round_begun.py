"""Where a round begins, told without "join": "pull up a loop in any st", "standing sc in next st".

Takes     ``Stream`` at the head of a row: behind a stitch nothing here begins it.
Gives     ``yarn_drawn_up``, ``standing_stitch``, ``begins_in``.
Problems  none: what is none of these is left where it stands.
From      common practice: new yarn is drawn up as a loop, or comes on with a stitch that needs no
          chain in front of it.
"""

from __future__ import annotations

from workeven.notation.ends import place_of_join
from workeven.notation.loop_by_loop import loop_drawn_up
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.tree import ONE, Described, First, JoinYarn, Last, Next, Step, Stitch
from workeven.notation.vocabulary import kind_of


def yarn_drawn_up(stream: Stream) -> tuple[Step, ...] | None:
    """``pull up a loop of B in any st``: there the yarn is joined.

    Takes: pull up a loop in any st
    Takes: insert hook in first st, yo and draw up a loop
    Refuses: pull tight
    """
    mark, start = stream.here(), stream.start
    if _worked_before(stream):
        return None
    try:
        where = loop_drawn_up(stream)
    except NotUnderstood:
        where = None
    if where is None:
        stream.back_to(mark)
        return None
    return (JoinYarn(where, None, start, stream.end),)


def standing_stitch(stream: Stream) -> tuple[Step, ...] | None:
    """``standing dc in any ch-2 sp``: a stitch that the yarn comes on with.

    Takes: standing dc in first st
    Takes: start with a standing sc in any st
    Refuses: standing
    """
    if "standing" not in stream.said:
        return None
    mark, start = stream.here(), stream.start
    if stream.accept_any("beg", "work", "make", "with"):
        stream.accept_any("with", "by")
        stream.accept_any("work", "working", "make", "making", "placing")
        stream.articles()
    if not stream.accept("standing") or stream.token.kind != "stitch":
        stream.back_to(mark)
        return None
    name = stream.take().word
    made = Stitch(name, ONE, kind_of(name).legs, start, stream.end)
    where = place_of_join(stream) if stream.accept_any("in", "into", "on", "around") else None
    return (JoinYarn(where, made, start, stream.end),)


def begins_in(stream: Stream) -> tuple[Step, ...] | None:
    """``starting in any corner sp, …``: the first place of the round.

    Takes: starting in any ch-2 sp
    Refuses: starting rnd 2
    """
    mark, start = stream.here(), stream.start
    if _worked_before(stream):
        return None
    stream.take()
    if not stream.accept_any("in", "at", "with"):
        stream.back_to(mark)
        return None
    try:
        where = place_of_join(stream)
    except NotUnderstood:
        where = None
    told = isinstance(where, Next | First | Last | Described)
    if not told or not (stream.at_end() or stream.token.kind == "mark"):
        stream.back_to(mark)
        return None
    return (JoinYarn(where, None, start, stream.end),)


def _worked_before(stream: Stream) -> bool:
    """Whether a stitch or a chain stands before: then the row has begun."""
    before = stream.tokens[: stream.at]
    return any(
        (token.kind in ("stitch", "grp") and token.word != "sl st") or token.word == "ch"
        for token in before
    )
