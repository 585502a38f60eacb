"""Stitches told loop by loop: "(yo, insert hook in next st, pull up a loop) 3 times, yo, …".

Takes     ``Stream`` at the first of the words, or at the bracket around them.
Gives     ``loop_by_loop``, ``loops_left``, ``loop_drawn_up``.
Problems  none: what is no stitch told so is left where it stands.
From      common practice: a stitch is done when one loop is left on the hook. One loop is on it at
          first; each yarn over and each loop drawn up adds one, and what is drawn through some of
          them leaves one in their place.

Which stitch it is follows from the yarn overs in front of the hook's way in and from how the loops
are worked off. Several legs in one place are a cluster, or a puff where none of them was worked off
by itself; in a place each, they are a decrease.

Worked example: ``yo, insert hook in next st, yo, draw up a loop`` leaves 3 loops on the hook,
``yo, draw through 2 loops`` 2 of them, and the same again 1: a double crochet.
"""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

from workeven.notation.contents import times_count
from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.tree import (
    ONE,
    Amount,
    First,
    IntoRing,
    Last,
    Next,
    Same,
    Stitch,
    Target,
    Work,
)
from workeven.notation.vocabulary import CLOSED_WORDS
from workeven.records import replace

_JOINT = r"[,;:]? ?(?:and |then |again |& )*"
_HOOK = r"(?: (?:the |your )?hook)?"
_YO = (
    rf"(?:yo|yoh|yrh|y\.o\.(?:h\.)?|(?:yarn|thread|wool|cotton) (?:over|(?:a)?round){_HOOK}|"
    rf"wrap (?:the )?(?:yarn|thread|wool|cotton)(?: (?:over|around){_HOOK})?){_HOOK}"
)
_LOOPS = r"(?:loops?|lps?)"
_NUMBER = r"(?:\d+|two|three|four|five|six|seven|eight|nine|ten|eleven)"
#: yarn overs that lie on the hook before it goes in
_OVER = rf"{_YO}(?: (?P<often>once|twice|{_NUMBER} times))?"
_INSERT = r"(?:insert|put) (?:the |your )?hook"
_INTO = r"(?:back |down )?(?:in(?:to)?|through|under) "
_CATCH = rf"(?:{_YO},? ?(?:and |& )?)?"
_PULL = r"(?:draw|pull|bring)(?:ing)?"
#: "yo and draw up a loop", "pull yarn through st": from a place that the hook is in
_UP = (
    rf"{_CATCH}{_PULL} (?:(?:up|through|thru) (?:a |the |1 |one |long )*(?:loop|lp|yarn|thread)?"
    r"|(?:a |the |1 |one |long )*(?:loop|lp|yarn|thread|it) ?(?:up|through|thru|back)*)"
    r"(?: (?:the )?(?:st(?:itch)?|sp|space))?(?: to (?:the )?height of [a-z ]+)?(?![a-z])"
)
#: "draw up a loop in each of next 2 sc": the hook's way in and the loop in one
_UP_IN = (
    rf"{_PULL} up (?:a |1 |one |long )*(?:loop|lp)"
    r"(?: (?:of|with|using) [^,;.()]{1,40}?)?(?= (?:in(?:to)?|through) )"
)
#: "yo, draw through 2 loops": worked off
_OFF = (
    rf"{_CATCH}(?:(?:{_PULL}|work|take|insert)(?: (?:yarn|it|thread|hook|a {_LOOPS}))?(?: up)? ?)?"
    r"(?:through|thru|off) "
    rf"(?P<many>(?:(?:all|both|the|of|{_NUMBER}|rem(?:aining)?|last|other) ?)+)"
    rf"(?:{_LOOPS}|(?=\s*[,;.)\]]))(?: (?:left )?on (?:the |your )?hook)?"
    r"(?: at (?:once|one time|the same time))?"
)
#: a place for all that stands in the brackets, or in front of the last loop
_ALL_IN = r",? ?(?:all )?in(?:to)? (?=(?:the )?(?:same|next|first|last|ring|one|st|sp)\b)"
#: a place for each time that they are worked
_IN_EACH = r",? ?(?:in(?:to)?|over) (?=each of (?:the )?(?:next|first|last)\b)"
#: "ch 1 to close", "ch 1 (puff made)": the chain is a part of the stitch
_CLOSE = (
    r"\s*,? ?(?:and )?ch(?:ain)? ?1\b(?: tightly)?(?: ?(?:to|and) (?:close|lock|secure|fasten)"
    r"(?: (?:the )?(?:st(?:itch)?|puff|cluster|cl|bobble|it))?|"
    r"(?= ?[(–—-] ?(?:a |one |1 |the )?(?:puff|cluster|cl|bobble)\b(?: st)?[^(),;]*[),]))"
)
_MADE = (
    r"\s*[,–—-]? ?[(\[]?\s*(?:a |one |1 |the |first |beg(?:inning)? )*(?:\d-\w+ )?"
    r"(?P<name>cluster|cl|bobble|popcorn|puff|dec(?:rease)?|[hd]?dc\d?(?:tog)?|h?tr\d?(?:tog)?|"
    r"sc\d?(?:tog)?)(?: st(?:itch)?)? (?:is )?(?:now )?(?:made|formed|completed?|worked)[)\]]?"
    r"|\s*[(\[][^()\[\]]*\bdec(?:rease)?d?\b[^()\[\]]*[)\]]"
)
#: a chain at the head of the row: what is closed behind it in one place holds it too
_LED = r"(?:[^:*(\[]*:)?\s*(?:(?:ch(?:ain)? ?[2-9])|(?:[2-9] ?ch(?:ain)?))[,;]?\s*(?:and |then )?"
_NUMBERS = {
    word: number
    for number, word in enumerate(
        "two three four five six seven eight nine ten eleven".split(), start=2
    )
} | {"once": 1, "twice": 2}
#: words with which a stitch told so may begin
HOOK_WORDS = (
    "yo",
    "yoh",
    "yrh",
    "yarn",
    "thread",
    "wool",
    "cotton",
    "wrap",
    "insert",
    "put",
    "draw",
    "pull",
    "bring",
)
#: words without which no loop is drawn up
DRAWING = ("draw", "pull", "drawing", "pulling", "insert", "put", "bring")
#: the most legs of one stitch, and how deep brackets may stand in each other
_MOST_LEGS = 20
_DEEPEST = 3
_TWICE = 2


class _Move(NamedTuple):
    """One move of the hook.

    ``number`` is how many yarn overs, or loops worked off (0: all); ``where`` the hook goes in
    (None: not said).
    """

    kind: Literal["over", "in", "up", "off"]
    number: int = 1
    where: Target | None = None


class _Leg(NamedTuple):
    """A loop drawn up: the yarn overs in front of it, and where it comes from."""

    overs: int
    where: Target | None


class _Loops:
    """What is on the hook, and how it came there."""

    def __init__(self) -> None:
        self.on_hook = 1
        self.legs: list[_Leg] = []
        self.worked_off: list[tuple[int, int]] = []  # behind how many legs, and how many loops
        self.overs = 0
        self.inside: Target | Literal["unsaid"] | None = None

    def move(self, move: _Move) -> bool:
        """Make one move; False where no hook could."""
        if move.kind == "over":
            self.on_hook += move.number
            self.overs += move.number
            return self.inside is None
        if move.kind == "in":
            begun, self.inside = self.inside is None, move.where or "unsaid"
            return begun
        if move.kind == "up":
            if self.inside is None:
                return False
            where = None if self.inside == "unsaid" else self.inside
            if _several(where) > _MOST_LEGS:
                return False
            self.on_hook += 1
            self.legs += _legs_of(self.overs, where)
            self.on_hook += _several(where) - 1
            self.inside, self.overs = None, 0
            return len(self.legs) <= _MOST_LEGS
        many = move.number or self.on_hook
        if self.inside is not None or self.overs or not 1 < many <= self.on_hook:
            return False
        self.on_hook -= many - 1
        self.worked_off.append((len(self.legs), many))
        return True

    @property
    def done(self) -> bool:
        """Whether a stitch is made, and nothing begun."""
        return self.on_hook == 1 and bool(self.legs) and self.inside is None


def _several(where: Target | None) -> int:
    """How many places are named at once ("a loop in each of next 2 sc")."""
    if not isinstance(where, Next | First | Last) or len(where.count.values) != 1:
        return 1
    return where.count.values[0] or 1


def _legs_of(overs: int, where: Target | None) -> list[_Leg]:
    """The legs of a loop drawn up in each of some places."""
    return [_Leg(overs, where)] * _several(where)


def loop_by_loop(stream: Stream) -> Work | None:
    """A stitch told by the moves of the hook.

    Takes: [insert hook in next st, pull up a loop] twice, yo, pull through all 3 loops
    Takes: (yo, insert hook in same st, pull up a loop) 3 times, yo, pull through all loops
    Takes: yo, insert hook in next st, pull up a loop, (yo, pull through 2 loops) twice
    Refuses: pull tight
    """
    if stream.said.isdisjoint(DRAWING):
        return None
    mark, start = stream.here(), stream.start
    loops = _Loops()
    try:
        made = _moves(stream, loops, 0)
    except NotUnderstood:
        made = None
    work = None if made is None or not loops.done else _worked(stream, loops, start)
    if work is None:
        stream.back_to(mark)
    return work


def loop_drawn_up(stream: Stream) -> Target | None:
    """Where a single loop is drawn up, as new yarn is; None where that is not what stands here.

    Takes: pull up a loop in any st
    Takes: insert hook in any st and pull up a loop
    Refuses: pull tight
    """
    loops = _Loops()
    for _ in range(2):
        found = _move(stream, loops)
        if found is None or found[0].kind not in ("in", "up") or not all(map(loops.move, found)):
            return None
        if loops.legs:
            return loops.legs[0].where if len(loops.legs) == 1 else None
        _pass(stream, _JOINT)
    return None


def loops_left(stream: Stream) -> int:
    """How many loops are left on the hook where the words from here on make no stitch; else 0.

    A loop that is drawn up for the chain that begins a row is none of these.
    """
    mark, loops = stream.here(), _Loops()
    try:
        _moves(stream, loops, 0)
    except NotUnderstood:
        loops.inside = None
    stream.back_to(mark)
    begun = any(leg.overs for leg in loops.legs) or bool(loops.worked_off)
    return loops.on_hook if begun and loops.on_hook > 1 else 0


def _moves(stream: Stream, loops: _Loops, depth: int) -> list[_Move] | None:
    """The moves up to the end of the stitch, or of the brackets (not passed); made as they come."""
    moves: list[_Move] = []
    while not (loops.done and not depth):
        _pass(stream, _JOINT)
        if depth and (stream.is_mark(")", "]") or stream.is_word("rep")):
            return moves
        if loops.done:
            return None
        if stream.is_mark("(", "[", "*"):
            found = _in_brackets(stream, loops, depth + 1)
        else:
            found = _move(stream, loops)
        if found is None or not all(map(loops.move, found)):
            return None
        moves += found
    return moves


def _in_brackets(stream: Stream, loops: _Loops, depth: int) -> list[_Move] | None:
    """``[yo, insert hook, pull up a loop] 3 times in same st``: all of its moves, none made yet.

    Takes: [yo, insert hook, pull up a loop] 3 times in same st
    Takes: *yo, insert hook in same st, pull up a loop; rep from * 2 more times
    Takes: [yo, insert hook, pull up a loop] in each of next 3 sts
    """
    if depth > _DEEPEST:
        return None
    opened = stream.take().word
    trial = _Loops()
    trial.on_hook, trial.legs = loops.on_hook, loops.legs[:]
    trial.inside, trial.overs = loops.inside, loops.overs
    once = _moves(stream, trial, depth)
    if once is None or not once:
        return None
    if (stream.take().word == "rep") is not (opened == "*"):
        return None
    times, where = _times(stream) if opened != "*" else _times_from_star(stream), None
    if _pass(stream, _ALL_IN):
        where = target(stream)
        times = _times(stream) if times == 1 else times
    each = opened != "*" and times == 1 and _pass(stream, _IN_EACH) is not None
    if times is None or (trial.done and (each or times > 1)):
        return None
    return _in_each(once, target(stream)) if each else _all_in(_again(once, times), where)


def _again(once: list[_Move], times: int) -> list[_Move]:
    """The moves so many times: ``insert hook in sp`` stays there, ``in next sp`` goes on."""
    stays = [
        one._replace(where=Same()) if one.kind == "in" and _stays(one.where) else one
        for one in once
    ]
    return [*once, *(stays * (times - 1))]


def _times(stream: Stream) -> int | None:
    """How many times brackets are worked: once where nothing is said."""
    if stream.is_mark(",") and stream.ahead().kind in ("num", "rate"):
        stream.take()
    counted = times_count(stream)
    if counted is None:
        return 1
    number = counted.values[0] if len(counted.values) == 1 else None
    return number if number and number <= _MOST_LEGS else None


def _times_from_star(stream: Stream) -> int | None:
    """Behind "rep": how many times in all, where it is said how many more.

    Takes: from * 2 more times
    """
    if not stream.accept("from", "*"):
        return None
    if stream.accept("once", "more"):
        return _TWICE
    more = stream.amount() if stream.is_amount() and stream.ahead().word == "more" else None
    counted = more if more is not None and stream.accept("more", "times") else times_count(stream)
    if counted is None or (more is None and not stream.accept("more")):
        return None
    number = counted.values[0] if len(counted.values) == 1 else None
    return number + 1 if number and number < _MOST_LEGS else None


def _in_each(moves: list[_Move], where: Target) -> list[_Move] | None:
    """``(yo, insert hook, pull up a loop) in each of next 3 sts``: the moves in each of them."""
    several = _several(where)
    if not isinstance(where, Next | First | Last) or not 1 < several <= _MOST_LEGS:
        return None
    one_place = replace(where, count=ONE, each=False)
    return _all_in(moves, one_place) * several


def _all_in(moves: list[_Move], where: Target | None) -> list[_Move]:
    """The moves, with the place that stands behind them: "… 3 times in next st"."""
    if where is None:
        return moves
    named = next((one.where for one in moves if one.kind == "in" and one.where is not None), None)
    first = where if named is None or _stays(named) or not _stays(where) else named
    begins = next((at for at, one in enumerate(moves) if one.kind == "in"), 0)
    return [
        one._replace(where=first if at == begins else Same()) if one.kind == "in" else one
        for at, one in enumerate(moves)
    ]


def _stays(where: Target | None) -> bool:
    """Whether no further place is named: "same st", "st" alone."""
    return isinstance(where, Same) or (isinstance(where, Next) and where.bare)


def _move(stream: Stream, loops: _Loops) -> list[_Move] | None:
    """One move that stands here.

    Takes: insert hook in next st
    Takes: yo twice
    """
    if loops.inside is not None:
        drawn = (_at_once(loops) and _pass(stream, _OFF)) or _pass(stream, _UP)
        return [_Move("up")] if drawn else None
    if _pass(stream, _INSERT):
        return [_Move("in", where=target(stream) if _pass(stream, _INTO) else None)]
    if (off := _pass(stream, _OFF)) is not None:
        return [_Move("off", _many(off["many"]))]
    if (over := _pass(stream, _OVER)) is not None:
        return [_Move("over", _number(over["often"] or "once"))]
    if _pass(stream, _UP_IN):
        stream.take()
        return [_Move("in", where=target(stream)), _Move("up")]
    return None


def _at_once(loops: _Loops) -> bool:
    """``insert hook in front loops of next 2 sts, yo, draw through both``: a loop is drawn up."""
    return not isinstance(loops.inside, str) and _several(loops.inside) > 1


def _many(words: str) -> int:
    """How many loops are worked off; 0 for all of them."""
    said = words.lower().split()
    if "all" in said or "rem" in said or "remaining" in said:
        return 0
    counted = [_number(word) for word in said if word.isdigit() or word in _NUMBERS]
    return counted[0] if counted else (2 if "both" in said else 0)


def _number(word: str) -> int:
    first = word.lower().split()[0]
    return int(first[:3]) if first.isdigit() else _NUMBERS[first]


def _pass(stream: Stream, pattern: str) -> re.Match[str] | None:
    """Pass words that an expression takes at the position."""
    found = ignoring_case(pattern).match(stream.text, stream.start)
    if found is None or not found[0]:
        return None
    stream.pass_to(found.end())
    return found


# --- which stitch that is --------------------------------------------------------------------


def _worked(stream: Stream, loops: _Loops, start: int) -> Work | None:
    """The stitch that was made, with where it goes."""
    _behind(stream, _CLOSE)
    told = _behind(stream, _MADE)
    legs, kind = loops.legs, _kind(loops)
    where = legs[0].where
    if where is None or (isinstance(where, Same) and where.made):
        return None
    if len(legs) == 1:
        return None if kind is None else _work(stream, Stitch(kind), where, start)
    if _each_in_its_own(legs):
        name = f"{kind}{len(legs)}tog"
        if kind is None or len({leg.overs for leg in legs}) > 1:
            return None
        return _work(stream, Stitch(name, ONE, len(legs)), _of_all(where, len(legs)), start)
    if _several(where) > 1 or any(_moves_on(leg.where, where) for leg in legs[1:]):
        return None
    closed = any(behind < len(legs) for behind, _ in loops.worked_off)
    named = CLOSED_WORDS.get((told["name"] if told and told["name"] else "").lower())
    name = named or ("cl" if closed else "puff")
    if ignoring_case(_LED).fullmatch(stream.text[:start]) is not None:
        stream.whole = name
    return _work(stream, Stitch(name), where, start)


def _work(stream: Stream, made: Stitch, where: Target, start: int) -> Work:
    made = replace(made, start=start, end=stream.end)
    return Work((made,), where, over=made.legs > 1, start=start, end=stream.end)


def _behind(stream: Stream, pattern: str) -> re.Match[str] | None:
    """Pass what stands behind the last word read."""
    found = ignoring_case(pattern).match(stream.text, stream.end)
    if found is not None:
        stream.pass_to(found.end())
    return found


def _moves_on(where: Target | None, first: Target) -> bool:
    """Whether a leg goes into another place than the first one."""
    if isinstance(where, First | Last) and where == first:
        return False
    return where is not None and not isinstance(where, Same | IntoRing)


def _each_in_its_own(legs: list[_Leg]) -> bool:
    """Whether each leg goes into a place of its own, one behind the other."""
    first = legs[0].where
    onward = isinstance(first, Next) or _several(first) > 1
    return onward and all(leg.where == first for leg in legs)


def _of_all(where: Target, legs: int) -> Target:
    """The places of all legs together."""
    assert isinstance(where, Next | First | Last)
    return replace(where, count=Amount((legs,)), each=False)


#: how a stitch of one leg is worked off, by the yarn overs in front of it
_BY_OFF: dict[tuple[int, tuple[int, ...]], str] = {
    (0, (2,)): "sc",
    (1, (3,)): "hdc",
    (1, (2, 2)): "dc",
    (2, (2, 2, 2)): "tr",
    (3, (2, 2, 2, 2)): "dtr",
}
#: the same of each leg of several, before all are closed together
_BY_LEG: dict[tuple[int, tuple[int, ...]], str] = {
    (0, ()): "sc",
    (1, ()): "hdc",
    (1, (2,)): "dc",
    (2, (2, 2)): "tr",
    (3, (2, 2, 2)): "dtr",
}


def _kind(loops: _Loops) -> str | None:
    """The basic stitch, or that of each leg; None where they are none, or not all alike."""
    legs, off = loops.legs, loops.worked_off
    if len(legs) == 1:
        return _BY_OFF.get((legs[0].overs, tuple([many for _, many in off])))
    kinds = set()
    for number, leg in enumerate(legs, start=1):
        last = number == len(legs)
        by_itself = tuple([many for behind, many in off if behind == number])
        kinds.add(_BY_LEG.get((leg.overs, by_itself[:-1] if last else by_itself)))
    return kinds.pop() if len(kinds) == 1 else None
