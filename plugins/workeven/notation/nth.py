"""What is worked in every so many stitches: "sc around, working 2 sc in every 5th st".

Takes     ``Stream``.
Gives     ``in_every_nth``, ``sole_nth``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps; common practice: the 5th, the 10th … from where the step
          before begins, a counted chain at its head among them.

Worked example: over 27 sc, "sc in each st around, working 2 sc in every 5th st" works two in the
5th, 10th, 15th, 20th and 25th: 32 sc.
"""

from __future__ import annotations

from workeven.notation.contents import content
from workeven.notation.places import name
from workeven.notation.stream import Stream
from workeven.notation.tree import AnyStitch, Content, Corners, NamedStitch, Next, Step, Stitch
from workeven.notation.vocabulary import kind_of

_OTHER = ("other", "second", "alt", "alternate")


def in_every_nth(stream: Stream) -> tuple[Step, ...] | None:
    """Behind a step that works each stitch: what stands in every nth of them.

    Takes: working 2 sc in every 5th st
    Refuses: working 2 sc in each corner
    """
    if not stream.is_word("working", "making", "with", "inc") or "each" not in stream.said:
        return None
    mark, start = stream.here(), stream.start
    if not stream.accept("inc"):
        stream.take()
    bare = stream.is_word("each")  # "inc every 6th st"
    made = () if bare else _made(stream)
    if made is not None and (bare or stream.accept_any("in", "on")):
        every = nth_of(stream)
        place = name(stream) if every else None
        if every and isinstance(place, AnyStitch | NamedStitch):
            stream.accept_any("around", "across")
            return (Corners(made, Next((place,)), start, stream.end, every),)
    stream.back_to(mark)
    return None


def _made(stream: Stream) -> tuple[Content, ...] | None:
    """What is worked there: stitches, a group in brackets; () where the words are "increasing".

    Takes: 2 sc
    """
    start = stream.start
    if stream.is_word("in") or stream.accept("inc"):
        return ()
    if stream.is_mark("("):
        closing = stream.closing()
        if closing < 0 or stream.tokens[closing + 1].word != "in":
            return None
        stream.take()
        made = content(stream, closing)
        stream.at = closing + 1
        return made
    stream.articles()
    count = stream.amount() if stream.is_amount() else None
    if stream.token.kind != "stitch":
        return None
    word = stream.take().word
    legs = kind_of(word).legs
    if count is None:
        return (Stitch(word, legs=legs, start=start, end=stream.end),)
    return (Stitch(word, count, legs, start, stream.end),)


def nth_of(stream: Stream) -> int:
    """``every 5th``, ``every other``: the number; 0 where none stands here.

    Takes: every 5th
    """
    mark = stream.at
    if stream.accept("each"):
        if stream.accept_any(*_OTHER):
            return 2
        if stream.token.kind == "ord" and stream.token.value > 1:
            return stream.take().value
    stream.at = mark
    return 0


def sole_nth(stream: Stream) -> None:
    """A step that goes into every nth stitch says nothing of those between.

    Takes: every st
    Refuses: every other st
    """
    mark = stream.at
    if nth_of(stream) and isinstance(name(stream), AnyStitch | NamedStitch):
        stream.at = mark
        raise stream.fault(
            found="what is worked in the stitches between is not said",
            mend="write “*sc in next st, bobble in next st; rep from * around”, or “sc in each st "
            "around, working a bobble in every other st”",
        )
    stream.at = mark
