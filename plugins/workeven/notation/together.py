"""Decreases in more words: "work next 2 sc tog", "draw up a lp in each of next 2 sc, yo …".

Takes     ``Stream``.
Gives     ``together``, ``drawn_together``, ``named_change``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps (``sc2tog``, ``dc3tog``); the legs of a decrease by how
          they are drawn up are common practice.

Loops drawn up plainly and closed as one are a single crochet; with the yarn over the hook before
each they are a half double crochet, and a double where two loops are worked off each time.
"""

from __future__ import annotations

import re

from workeven.notation.expressions import ignoring_case
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
_YO = r"(?:yo|y\.?o\.?h\.?|yarn over|thread over|wool over|yrh)(?: hook)?"
_JOINT = r"[,;]? ?(?:and |then |again )*"
_INTO = (
    rf"(?P<yo>{_YO},? (?:and )?)?(?:insert|put) (?:the |your )?hook (?:in(?:to)?|through) "
    r"(?:the )?next (?:st(?:itch)?|sc|dc|hdc|tr|htr)\b"
)
_UP = (
    rf"{_JOINT}(?:{_YO},? ?(?:and )?)?(?:draw|pull)(?:ing)? (?:up|through|thru) "
    r"(?:a |the |yarn )?(?:lp|loop|yarn)?\b"
)
_OFF = (
    rf"{_JOINT}{_YO},? ?(?:and )?(?:draw |pull |work )?(?:through|thru|off) (?:2|two) (?:lps|loops)"
    r"(?: on (?:the )?hook)?"
)
_LEG = rf"{_INTO}{_UP}(?P<off>{_OFF})?"
_DRAWN = (
    r"(?:draw|pull)(?:ing)? up (?:a |1 )?(?:lp|loop) in (?:the )?next (?:st(?:itch)?|sc|dc|hdc)\b"
)
_LOOP_OF = r"(?:(?:the )?(?:front|back) (?:lps?|loops?)(?: only)? of )?"
_EACH = (
    rf"(?:draw|pull)(?:ing)? up (?:a |1 )?(?:lp|loop) in {_LOOP_OF}(?:each of )?(?:the )?"
    r"(?P<which>next|last|first) "
    r"(?P<each>\d|two|three|four) (?:sts|stitches|sc|dc|hdc|tr)\b"
)
#: "insert hook in front loops of next 2 sts, yo, draw through both": all are taken up at once
_AT_ONCE = (
    rf"insert (?:the |your )?hook (?:in(?:to)?|through|under) {_LOOP_OF}(?:each of )?(?:the )?next "
    r"(?P<each>\d|two|three|four) (?:sts|stitches|sc|dc|hdc|tr)\b(?: at once)?"
    rf"{_JOINT}{_YO},? ?(?:and )?(?:draw|pull) (?:yarn |it |up )?(?:a (?:lp|loop) )?"
    r"(?:through|thru) (?:both|all)?(?: (?:two|2|three|3))?(?: (?:front|back))?"
    r"(?: (?:lps|loops|sts))?"
)
_TIMES = r"(?P<times>twice|(?:2|two|3|three|4|four) times|x ?[234]|once more)"
_CLOSE = (
    rf"{_JOINT}{_YO},? ?(?:and )?(?:draw |pull |work )?(?:yarn |it )?(?:through|thru|off) "
    r"(?:all |both )?(?:of )?(?:the )?(?:\d |two |three |four |rem(?:aining)? )?(?:lps|loops)"
    r"(?: on (?:the )?hook)?(?: at (?:once|one time|the same time))?"
    r"(?: ?[(\[][^()\[\]]*\bdec(?:rease)?\b[^()\[\]]*[)\]])?"
)
_NUMBERS = {"two": 2, "three": 3, "four": 4, "twice": 2}
#: words without which nothing is drawn up
_DRAWING = ("draw", "pull", "drawing", "pulling", "insert", "put")


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


def drawn_together(stream: Stream) -> tuple[Step, ...] | None:
    """Loops that are drawn up one after the other and closed as one stitch.

    Takes: draw up a lp in each of next 2 sc, yo and through all lps on hook
    Takes: [insert hook in next st, pull up a loop] twice, yo, pull through all 3 loops
    Refuses: pull tight
    """
    if stream.said.isdisjoint(_DRAWING):
        return None
    text, start = stream.text, stream.start
    for read in (_by_legs, _in_brackets, _in_each):
        found = read(text, start)
        if found is None:
            continue
        base, legs, end = found
        close = ignoring_case(_CLOSE).match(text, end)
        if close is None:
            continue
        stream.pass_to(close.end())
        stitch = Stitch(f"{base}{legs}tog", ONE, legs, start, stream.end)
        where = _which(text[start:end], Amount((legs,)))
        return (Work((stitch,), where, over=True, start=start, end=stream.end),)
    return None


def _which(words: str, count: Amount) -> Target:
    """``in each of last 2 sc``: those; else the next ones."""
    found = ignoring_case(r"\b(?P<which>next|last|first) ").search(words)
    which = "next" if found is None else found["which"].lower()
    if which == "next":
        return Next((AnyStitch(),), count)
    return First((AnyStitch(),), count) if which == "first" else Last((AnyStitch(),), count)


def _kind(found: re.Match[str]) -> str | None:
    if found["off"]:
        return "dc" if found["yo"] else None
    return "hdc" if found["yo"] else "sc"


def _by_legs(text: str, start: int) -> tuple[str, int, int] | None:
    """``insert hook in next st, draw up a lp``, and so once for each leg."""
    kinds, end = set(), start
    legs, leg = 0, ignoring_case(_LEG)
    plain = ignoring_case(_DRAWN)
    while True:
        at = end if not legs else _past_joint(text, end)
        found = leg.match(text, at)
        simple = plain.match(text, at) if found is None else None
        if found is None and simple is None:
            break
        kinds.add(_kind(found) if found is not None else "sc")
        end = (found or simple).end()  # type: ignore[union-attr]
        legs += 1
    kind = kinds.pop() if len(kinds) == 1 else None
    return None if kind is None or legs < _TWO else (kind, legs, end)


def _past_joint(text: str, at: int) -> int:
    found = ignoring_case(_JOINT).match(text, at)
    return at if found is None else found.end()


def _in_brackets(text: str, start: int) -> tuple[str, int, int] | None:
    """``[insert hook in next st, pull up a loop] twice``."""
    found = ignoring_case(rf"[\[(] ?(?:{_LEG}|{_DRAWN}),? ?[\])],? ?{_TIMES}").match(text, start)
    if found is None:
        return None
    said = found["times"].lower().split()[0].lstrip("x")
    legs = _NUMBERS.get(said) or (int(said) if said.isdigit() else 2)
    kind = _kind(found) if "hook" in found[0] and "insert" in found[0].lower() else "sc"
    return None if kind is None else (kind, legs, found.end())


def _in_each(text: str, start: int) -> tuple[str, int, int] | None:
    """``draw up a lp in each of next 2 sc``, ``insert hook in front loops of next 2 sts, …``."""
    found = ignoring_case(_EACH).match(text, start) or ignoring_case(_AT_ONCE).match(text, start)
    if found is None:
        return None
    said = found["each"].lower()
    return "sc", _NUMBERS.get(said) or int(said), found.end()


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
