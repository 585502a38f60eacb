"""Decreases in more words: "work next 2 sc tog", "sc over next 2 sc".

Takes     ``Stream``.
Gives     ``together``, ``named_change``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps (``sc2tog``, ``dc3tog``).
"""

from __future__ import annotations

from workeven.notation.places import limit, names
from workeven.notation.stream import Stream
from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Decrease,
    First,
    Increase,
    Last,
    NamedStitch,
    Next,
    PlaceName,
    Step,
    Stitch,
    Target,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import kind_of

#: fewer are not worked together; ``dec`` is of two where it does not say of how many
_TWO = 2


def together(stream: Stream) -> tuple[Step, ...] | None:
    """``work next 2 sc tog``, ``sc next 2 sts tog``, ``work off next 3 dc as 1 dc``.

    Takes: work next 2 sc tog
    Refuses: work next row
    """
    if stream.said.isdisjoint(("tog", "as")):
        return None
    mark, start = stream.here(), stream.start
    if stream.accept_any("work", "working", "take", "taking"):
        stream.accept("off")
    made = stream.take().word if stream.token.kind == "stitch" else None
    stream.articles()
    where = stream.accept_any("next", "first", "last", "foll")
    count = stream.amount() if stream.is_amount() else None
    if made is None and where is None and count is not None and stream.accept("tog"):
        return _two_together(stream, count, start)
    if made is not None and where is None and count is not None and stream.accept("tog"):
        return (_decrease(stream, made, None, count, None, start),)  # "sc 2 tog"
    unit = stream.token.word if stream.token.kind == "stitch" else None
    if count is None or not ((unit and stream.take()) or stream.accept("st")):
        stream.back_to(mark)
        return None
    bare = made is not None and where is None  # "sc two stitches together"
    if (bare and not stream.is_word("tog")) or not _closed_as_one(stream):
        stream.back_to(mark)
        return None
    return (_decrease(stream, made or unit, unit, count, where, start),)


def _two_together(stream: Stream, count: Amount, start: int) -> tuple[Step, ...]:
    """Behind "2 tog": a decrease of the stitch at hand, or as many as the row has.

    Takes: to end
    """
    if count.values != (_TWO,):
        raise stream.fault(start, mend="name the stitch: “sc3tog”")
    mark = stream.at
    bound = limit(stream)
    if stream.at == mark:
        return (Decrease(ONE, None, start, stream.end),)
    return (Decrease(None, bound, start, stream.end),)


def _closed_as_one(stream: Stream) -> bool:
    """Pass "tog", "tog as one", "as 1 sc"."""
    joined = stream.accept("tog")
    if stream.accept("as"):
        stream.accept_any("one", "1") or (stream.is_amount() and stream.amount())
        if stream.token.kind == "stitch":
            stream.take()
        else:
            stream.accept("st")
        return True
    return joined


def _decrease(
    stream: Stream,
    made: str | None,
    unit: str | None,
    count: Amount,
    where: str | None,
    start: int,
) -> Step:
    legs = count.values[0] if len(count.values) == 1 else None
    if not legs or legs < _TWO or (made is None and legs != _TWO):
        raise stream.fault(start, mend="write “sc2tog over next 2 sts”")
    if made is None:
        return Decrease(ONE, None, start, stream.end)
    stitch = Stitch(f"{kind_of(made).base}{legs}tog", ONE, legs, start, stream.end)
    place: PlaceName = AnyStitch() if unit is None else NamedStitch(unit)
    target: Target = Unplaced(ONE)
    if where in ("next", "foll"):
        target = Next((place,), count)
    elif where is not None:
        target = First((place,), count) if where == "first" else Last((place,), count)
    return Work((stitch,), target, over=where is not None, start=start, end=stream.end)


def named_change(stream: Stream, count: Amount, word: str, start: int) -> tuple[Step, ...] | None:
    """Behind "dec 1" or "1": ``sc over next 2 sc``; behind "inc 1": ``sc in next sc``.

    Takes: sc over next 2 sc
    Refuses: sc
    """
    mark = stream.here()
    made = stream.take().word if stream.token.kind == "stitch" else None
    if made is None and not stream.accept("st"):
        stream.back_to(mark)
        return None
    if not stream.accept_any("over", "in"):
        stream.back_to(mark)
        return None
    stream.articles()
    where = stream.accept_any("next", "first", "last", "foll")
    places = stream.amount() if stream.is_amount() else ONE
    if where is None or len(count.values) != 1 or len(places.values) != 1:
        stream.back_to(mark)
        return None
    place = names(stream)
    changes, number = count.values[0] or 0, places.values[0] or 0
    if word == "dec" and changes == 1 and number >= _TWO:
        if made is None:
            return (Decrease(ONE, None, start, stream.end),) if number == _TWO else None
        stitch = Stitch(f"{kind_of(made).base}{number}tog", ONE, number, start, stream.end)
        target = _at(where, place, places)
        return (Work((stitch,), target, over=True, start=start, end=stream.end),)
    if word == "inc" and changes == number and made is not None:
        two = Stitch(kind_of(made).base, Amount((2,)), 1, start, stream.end)
        target = _at(where, place, places)
        return (Work((two,), target, start=start, end=stream.end),)
    if word == "inc" and changes == number:
        return (Increase(_at(where, place, places), start, stream.end),)
    raise stream.fault(start, mend="write “sc2tog over next 2 sts”, or “2 sc in next st”")


def _at(where: str, place: tuple[PlaceName, ...], count: Amount) -> Target:
    if where == "first":
        return First(place, count)
    return Last(place, count) if where == "last" else Next(place, count)
