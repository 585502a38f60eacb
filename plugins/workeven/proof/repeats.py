"""Repeats: a number of times, or as often as they fit.

Takes     a ``Hook``, a ``Repeat``, the steps behind it.
Gives     ``repeat``, ``open_repeat``.
Problems  ``row-uneven``, ``row-open-ring``, ``row-takes-nothing``.
From      notation.md, "Repeats nest", "How repeats end".

How an open repeat is solved: the body is worked as long as it fits (``turns`` jumps over what is
alike). Behind the last turn that fits, what is written after the repeat is tried; where it does not
come out, one turn less is tried. The first number of turns with which the row comes out is the one:
for a row of fixed steps there is only one.

Worked example: 18 places, ``*dc in next 3 sts, sk 1; rep from *``: four turns take 16, the fifth
breaks off with 2 left, and nothing is written after it: the row is uneven by 2.
"""

from __future__ import annotations

from typing import NamedTuple, assert_never

from workeven.notation.tree import (
    AnyStitch,
    Chain,
    Each,
    Exactly,
    Inside,
    Last,
    Limit,
    More,
    NamedStitch,
    Next,
    Open,
    Repeat,
    RowSides,
    Space,
    Step,
    ToLast,
    ToNext,
    Work,
)
from workeven.proof.context import Fault
from workeven.proof.cut_short import plain
from workeven.proof.each import at_limit, limit_count, limit_reached, need_of, open_in_ring
from workeven.proof.fabric import count_stitches
from workeven.proof.facts import without_stops
from workeven.proof.hook import Hook, Saved, Walk
from workeven.proof.last_turn import last_turn, steps_after
from workeven.proof.naming import ANY, are, many, match_of
from workeven.proof.turns import Turns

#: any place, a stitch or a space, that steps behind a repeat may need
_ANYWHERE = (*ANY, Space(None))


def repeat(hook: Hook, step: Repeat, walk: Walk) -> None:
    """A group worked several times, inside other steps."""
    match step.times:
        case Exactly(count=amount):
            count = hook.context.amount(amount) or 0
        case More() as more:
            count = _in_all(hook, step, more)
        case Open():
            open_repeat(hook, step, (), walk, final=False)
            return
        case _:
            assert_never(step.times)
    if count <= 0:
        return
    body, last = without_stops(step.steps), last_turn(step)
    turns = Turns(hook, body, walk)
    turns.go(count if last is None else count - 1)
    turns.close()
    _note_repeats(hook, hook.repeats, count)
    if last is not None:
        _once(hook, last, walk)
    for after in steps_after(step):
        walk(hook, (after,))


def _in_all(hook: Hook, step: Repeat, times: More) -> int:
    """``rep from * 4 more times`` is five in all; ``4 times`` too, four as a second reading."""
    count = (hook.context.amount(times.count) or 0) + 1
    if not times.more:
        point = ("times", step.start)
        hook.points.setdefault(point, (f"{count} in all", f"{count - 1} in all"))
        count -= hook.choices.get(point, 0)
    return count


def _once(hook: Hook, steps: tuple[Step, ...], walk: Walk) -> None:
    """Work the last turn."""
    hook.depth += 1
    hook.last_turn = True
    try:
        walk(hook, steps)
    finally:
        hook.depth -= 1
        hook.last_turn = False


# --- as often as it fits -------------------------------------------------------------------


class _Solving(NamedTuple):
    """An open repeat that is being solved: its turns, and what comes after them.

    ``saved`` are the states after each number of turns that may be the one, ``keep`` how many
    places are left at the limit.
    """

    step: Repeat
    limit: Limit | None
    last: tuple[Step, ...] | None
    rest: tuple[Step, ...]
    keep: int
    turns: Turns
    saved: list[Saved]


def open_repeat(
    hook: Hook, step: Repeat, rest: tuple[Step, ...], walk: Walk, *, final: bool
) -> None:
    """Solve how often an open repeat is worked, then walk what is written after it."""
    assert isinstance(step.times, Open)
    if hook.ring and step.times.limit is None:
        raise open_in_ring(step)
    if hook.facts.along_rows and step.times.limit is None and _along_some_edge(step):
        raise _how_many_edges(step)
    recover, hook.recover = hook.recover, False
    try:
        limit = _up_to_the_only(hook, step.times.limit)
        solving = _work_turns(hook, step, limit, rest, walk, recover=recover)
        fault = _go_back(hook, solving, walk, final=final)
        if fault is not None and _into_all_spaces(hook, solving, walk, final=final):
            fault = None
    finally:
        hook.recover = recover
    if fault is not None and not recover:
        raise fault
    if fault is not None:
        _make_do(hook, solving, walk, final=final)


def _up_to_the_only(hook: Hook, limit: Limit | None) -> Limit | None:
    """``*3 dc in ch-3 sp, dc in next dc; rep from * to last ch-2 sp``, of which one is left anyway.

    Then it is not their number that ends the repeat, but that the next of them is come to.
    """
    if not isinstance(limit, ToLast) or len(limit.names) != 1 or limit.before:
        return limit
    name = limit.names[0]
    if not isinstance(name, Space | NamedStitch):
        return limit
    match, keep = match_of(limit.names), limit_count(hook, limit)
    there = hook.cursor.remaining(match, required=True)
    if there != keep or not hook.cursor.before(match, hook.wanted()):
        return limit
    return ToNext(name)


def _work_turns(
    hook: Hook,
    step: Repeat,
    limit: Limit | None,
    rest: tuple[Step, ...],
    walk: Walk,
    *,
    recover: bool,
) -> _Solving:
    """Work the body as often as it fits, keeping the states that may have to be come back to."""
    last = last_turn(step)
    rest = (*steps_after(step), *rest)
    keep, stop = limit_count(hook, limit), at_limit(hook, limit)
    reserve = 0
    if stop is None or last is not None or recover:  # at a limit only one state can be the one
        behind = (*rest, *(last or ()))
        reserve = sum(need_of(hook, after, _ANYWHERE) or 0 for after in behind) + keep
    turns = Turns(hook, without_stops(step.steps), walk)
    saved = turns.as_often_as_it_fits(reserve, stop)
    turns.close()
    return _Solving(step, limit, last, rest, keep, turns, saved)


def _go_back(hook: Hook, solving: _Solving, walk: Walk, *, final: bool) -> Fault | None:
    """Try what is written after the repeat behind its last turn, then behind the one before it.

    None where it comes out; else why it does not.
    """
    step, limit, last, rest, _, turns, saved = solving
    other: Fault | None = None
    before = hook.repeats
    for back, state in enumerate(reversed(saved)):
        hook.restore(state)
        if last is None and state is saved[0]:
            continue  # the group is worked at least once
        try:
            if last is not None:
                _once(hook, last, walk)
            if _passes_spaces(hook, step, rest):
                continue
            if limit is None or limit_reached(hook, limit):
                _note_multiple(hook, saved[0], turns)
                _note_repeats(hook, before, turns.count - back + (last is not None))
                walk(hook, rest, final=final)
                return None
        except Fault as fault:
            if fault.code != "row-uneven":
                other = other or fault
    return other or _uneven(hook, solving)


def _passes_spaces(hook: Hook, step: Repeat, rest: tuple[Step, ...]) -> bool:
    """``*3 sc in next sp, sc in next 11 sc; …, ending with sc in next 10 sc``: a space is left.

    A row that works into spaces leaves none of them on the way to what it ends with; a chain of
    its ending may lie over the last one.
    """
    ending = steps_after(step)
    if not ending or any(map(_spaces_of, rest)) or any(isinstance(one, Chain) for one in rest):
        return False
    if _is_of_the_turn(step, ending[0]):
        return hook.cursor.remaining(match_of((Space(),)), required=True) > 0
    match ending:
        case (Work(target=Next(names=(AnyStitch() | NamedStitch(),))), *others):
            spaces = tuple(space for one in step.steps for space in _spaces_of(one))
            told = bool(spaces) and all(isinstance(one, Work) for one in others)
            return told and hook.cursor.remaining(match_of(spaces), required=True) > 0
        case _:
            return False


def _is_of_the_turn(step: Repeat, end: Step) -> bool:
    """``*ch 5, sk next sp, dc in next 4 dc; …, ending with dc in last 3 dc``: the last of a turn.

    Its chain lies over a space; put behind a whole turn, the end would leave that space bare.
    """
    last = next((one for one in reversed(step.steps) if isinstance(one, Work)), None)
    if not isinstance(step.steps[0], Chain) or last is None or not isinstance(end, Work):
        return False
    return bool(plain(last.content) == plain(end.content))


def _spaces_of(step: Step) -> tuple[Space, ...]:
    """The spaces that a step works into, the next or the last of them."""
    match step:
        case Work(target=Next(names=(Space() as space,)) | Last(names=(Space() as space,))):
            return (space,)
        case Work(target=Inside(name=Space() as space)):
            return (space,)
        case Work(target=Each(names=names)):
            return tuple(name for name in names if isinstance(name, Space))
        case _:
            return ()


def _into_all_spaces(hook: Hook, solving: _Solving, walk: Walk, *, final: bool) -> bool:
    """``*V-st in next ch-1 sp; rep from * to last st``: as often as there are such spaces.

    What stands behind the last of them is passed, as between any two of them, if it is less than
    what a turn passes. False where that does not come out either.
    """
    limit, step = solving.limit, solving.step
    if not isinstance(limit, ToLast) or solving.last is not None:
        return False
    hook.restore(solving.saved[0])
    again = _work_turns(hook, step, None, solving.rest, walk, recover=False)
    if len(again.saved) < _TWO_STATES or again.turns.idle:
        return False
    there = []
    for state in again.saved[-_TWO_STATES:]:
        hook.restore(state)
        there.append(hook.cursor.remaining(count_stitches, required=True))
    match = match_of(limit.names)
    over = hook.cursor.remaining(match, required=True) - solving.keep
    if not hook.works_into_parts() or hook.left() or not 0 <= over < max(there[0] - there[1], 1):
        return False
    try:
        if over:
            hook.cursor.pass_by(match, over)
        _note_repeats(hook, hook.repeats, again.turns.count)
        walk(hook, solving.rest, final=final)
    except Fault:
        return False
    return True


#: the last turn is known by the states before and behind it
_TWO_STATES = 2


def _note_repeats(hook: Hook, before: int | None, number: int) -> None:
    """How often the one repeat of the row is worked, for "(32 patterns)"."""
    if not hook.depth:
        hook.repeats = number if before is None else 0


def _note_multiple(hook: Hook, start: Saved, turns: Turns) -> None:
    """The stitch multiple of an open repeat: what a turn takes, and what is left beside."""
    if hook.depth or not turns.count or hook.below is None or not hook.generic:
        return
    if turns.takes and start.cursor.remaining(count_stitches):
        hook.multiple = (turns.takes, hook.below.sts % turns.takes)


def _make_do(hook: Hook, solving: _Solving, walk: Walk, *, final: bool) -> None:
    """Count on from the largest number of turns that fits, the other steps as written."""
    for state in reversed(solving.saved):
        hook.restore(state)
        hook.recover, hook.lenient = False, True
        try:
            if solving.last is not None:
                _once(hook, solving.last, walk)
            walk(hook, solving.rest)
        except Fault:
            continue
        finally:
            hook.recover, hook.lenient = True, False
        return
    hook.restore(solving.saved[-1])
    if solving.last is not None:
        _once(hook, solving.last, walk)
    walk(hook, solving.rest, final=final)


def _along_some_edge(step: Repeat) -> bool:
    """``*3 sc in corner, 9 sc evenly along edge; rep from * around``: so many along any edge."""
    return any(
        isinstance(one, Work) and isinstance(one.target, RowSides) and not one.target.each
        for one in step.steps
    )


def _how_many_edges(step: Repeat) -> Fault:
    return Fault(
        "row-takes-nothing",
        step.start,
        step.end,
        "so many stitches are worked along an edge, and how many edges there are is not said",
        mend="Say how often: “rep from * 3 more times”, or write each edge in its turn.",
    )


# --- why it does not come out --------------------------------------------------------------


def _uneven(hook: Hook, solving: _Solving) -> Fault:
    """Say how the repeat fails: what a turn takes, how many fit, what is left over."""
    step, _, _, rest, keep, turns, saved = solving
    match = hook.wanted()
    hook.restore(saved[0])
    at_start = hook.cursor.remaining(match, required=True)
    hook.restore(saved[-1])
    at_end = hook.cursor.remaining(match, required=True)
    number = turns.count
    if number == 0:
        return turns.failed or Fault(
            "row-uneven", step.start, step.end, "the repeat does not fit even once"
        )
    if turns.idle:
        return Fault(
            "row-takes-nothing",
            step.start,
            step.end,
            "the repeat takes up no stitch, so nothing says when it ends",
            mend="Say how often: “rep from * 5 more times”.",
        )
    takes = (at_start - at_end) // number
    after = sum(need_of(hook, later, ANY) or 0 for later in rest) + (0 if rest else keep)
    left = at_end - after
    while left < 0 and number > 0:
        number -= 1
        left += takes
    if takes <= 0 or left < 0:
        return _without_figures(hook, solving, at_start, after)
    return Fault(
        "row-uneven",
        step.start,
        step.end,
        _said(number, takes, after, left, hook.wanted_name()),
        lead=f"The repeat takes {many(takes, hook.wanted_name())}",
        takes=takes,
        repeats=number,
        left_over=left,
    )


def _without_figures(hook: Hook, solving: _Solving, there: int, after: int) -> Fault:
    """Where no number of repeats could be told as fitting: what stands behind them needs more."""
    name = hook.wanted_name()
    number = solving.turns.count
    repeats = "1 repeat" if number == 1 else f"{number} repeats"
    detail = f"with {repeats} the steps behind do not come out"
    if after > there:
        detail = (
            f"the steps behind the repeat need {many(after, name)} and {there} {are(there)} there"
        )
    step = solving.step
    return Fault("row-uneven", step.start, step.end, detail, needed=after, left=there)


def _said(number: int, takes: int, after: int, left: int, name: str) -> str:
    """``4 repeats use 16 and 2 sts are left over``."""
    used = "1 repeat uses" if number == 1 else f"{number} repeats use"
    needed = f", {many(after, name)} {are(after)} needed after" if after else ""
    return f"{used} {takes * number}{needed} and {many(left, name)} {are(left)} left over"
