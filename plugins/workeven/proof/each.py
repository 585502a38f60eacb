"""A step with "each" takes all the places there are, up to a limit or to what is named after it.

Takes     a ``Hook``, a step with an ``Each``, the steps behind it.
Gives     ``work_each``, ``room``, ``need_of``, and the limits of open steps.
Problems  ``row-uneven``, ``row-no-such-place``, ``row-open-ring``.
From      notation.md, the table of steps ("all that are left, or all but 3"), "Turning and
          beginning chains are places".

A step that takes "each" leaves the places to the steps that are named after it: in ``dc in each
dc across, dc in top of tch`` the turning chain is not one too many.
"""

from __future__ import annotations

from typing import assert_never

from workeven.notation.tree import (
    Amount,
    AnyStitch,
    ChainOfTurning,
    Content,
    Decrease,
    Each,
    Exactly,
    FastenOff,
    Increase,
    Last,
    Limit,
    Marked,
    More,
    NamedStitch,
    Next,
    Open,
    PlaceName,
    Repeat,
    Same,
    Skip,
    Space,
    Step,
    Stitch,
    ToLast,
    ToNext,
    Travel,
    TurningChain,
    Unplaced,
    Work,
)
from workeven.proof.context import Fault, SizeContext
from workeven.proof.fabric import (
    Match,
    Node,
    Place,
    Run,
    amount_of,
    any_place,
)
from workeven.proof.hook import BROUGHT, Hook
from workeven.proof.inner_places import mark_of
from workeven.proof.making import make
from workeven.proof.markers import ends_at_marker
from workeven.proof.naming import ANY, are, in_one_order, many, match_of, share, spoken
from workeven.proof.parts import first_of, is_group
from workeven.proof.taking import leave_named_group, missing

_TURNING = match_of((TurningChain(),))


def work_each(hook: Hook, step: Work, target: Each, rest: tuple[Step, ...]) -> None:
    """Work into each place that is left, as far as the limit or what ``rest`` names."""
    begin_each(hook, target.names)
    count = room(hook, target, rest, step)
    count -= min(count, _worked_at_the_head(hook, target))
    match = match_of(target.names)
    if count == 0 and not hook.ring and hook.cursor.remaining(match) == 0:
        below = hook.below
        if not hook.recover and (below is None or amount_of(below.nodes, match) == 0):
            missing(hook, target.names, 1, 0, step)
    told = all(isinstance(name, AnyStitch | NamedStitch | Space) for name in target.names)
    if told and target.limit is None and not hook.depth:
        if count == 0 and hook.worked_all and not hook.recover:
            raise _none_left(step, target)
        hook.worked_all = hook.worked_all or count > 0
    legs = takes_of(hook.context, step)
    if count % legs and not hook.recover:
        raise _odd_number(step, count, legs)
    if hook.ring:
        raise open_in_ring(step)
    _check_passed(hook, step, target, count)
    hook.cursor.take(match, count)
    leave_named_group(hook, target.names)
    if isinstance(target.names[0], Space):
        hook.at_space = hook.cursor.remaining(any_place)
    make(hook.made, step.content, count // legs)
    if count:
        hook.stands, hook.over_first = "taken", False
    if isinstance(target.limit, ToNext):
        hook.stopped = hook.cursor.remaining(any_place)
    hook.began = True


def _worked_at_the_head(hook: Hook, target: Each) -> int:
    """``3 sc in loop just made, 3 sc in each loop around``: that loop, the last one, is worked.

    It is the one that closed the round before, where this one begins.
    """
    if target.limit is not None or hook.depth or not isinstance(target.names[0], Space):
        return 0
    steps = hook.facts.steps
    first = next((one for one in steps if isinstance(one, Work | Repeat | Travel)), None)
    match first:
        case Work(target=Same(name=Space(), made=True)) if hook.closed:
            loop = _last_space(hook.cursor.rest())
            return int(loop is not None and match_of(target.names)(loop))
        case _:
            return 0


def _last_space(nodes: tuple[Node, ...]) -> Place | None:
    """The last space of a round."""
    for node in reversed(nodes):
        if not isinstance(node, Run):
            return _last_space(node.nodes)
        if node.place.sort == "sp":
            return node.place
    return None


def _check_passed(hook: Hook, step: Work, target: Each, count: int) -> None:
    """Of spaces that a repeat of the row works into, none is passed by "each sc to end"."""
    if target.limit is not None or hook.depth or hook.recover or not count:
        return
    named = tuple(name for name in in_one_order(hook.named) if isinstance(name, Space))
    stitches = not any(isinstance(name, Space) for name in target.names)
    if not (named and stitches and any(isinstance(one, Repeat) for one in hook.facts.steps)):
        return
    probe, space = hook.cursor.copy(), match_of(named)
    probe.take(match_of(target.names), count)
    passed = hook.cursor.remaining(space, required=True) - probe.remaining(space, required=True)
    if passed:
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"{many(passed, spoken(named))} {are(passed)} passed and left over",
            left_over=passed,
        )


def _none_left(step: Work, target: Each) -> Fault:
    """``sc in each st around, 2 sc in each st around``: two rounds in one line."""
    name = spoken(target.names)
    return Fault(
        "row-uneven",
        step.start,
        step.end,
        f"each {name} is asked for and none is left: an “each” before it has worked or passed them",
        left=0,
        mend="Name what goes into both in one step, such as “sc in each st and ch-1 sp around, "
        "working 3 sc in each corner ch-2 sp”; write each round on a line of its own.",
    )


def begin_each(hook: Hook, names: tuple[PlaceName, ...]) -> None:
    """Nothing is passed before the first of "each" but what a slip stitch stands on."""
    hook.note(names)
    if hook.stands == "slipped":
        hook.pass_here()
    if hook.stands in BROUGHT:
        hook.stands = "taken"


def _odd_number(step: Work, count: int, legs: int) -> Fault:
    left = count % legs
    return Fault(
        "row-uneven",
        step.start,
        step.end,
        f"{count // legs} of them use {count - left} and {many(left, 'st')} {are(left)} left over",
        lead=f"Each takes {legs} sts",
        takes=legs,
        left_over=left,
    )


def open_in_ring(step: Step) -> Fault:
    """A ring has no end that an open step could run to."""
    return Fault(
        "row-open-ring",
        step.start,
        step.end,
        "a ring has no stitches that could say how often this is worked",
        mend="Say how many: “12 dc in ring”, “rep from * 5 more times”.",
    )


def legs_of(step: Work) -> int:
    """How many places one working of a decrease takes, 1 for all else."""
    only = step.content[0]
    if len(step.content) == 1 and isinstance(only, Stitch):
        return only.legs
    return 1


def takes_of(context: SizeContext, step: Work) -> int:
    """The same of a stitch of the pattern's own too: by its words a star goes into two."""
    only = step.content[0]
    special = context.special.get(only.name) if isinstance(only, Stitch) else None
    described = special is not None and special.closed and len(step.content) == 1
    return (
        special.takes if special is not None and described and special.takes > 1 else legs_of(step)
    )


# --- how much room there is ----------------------------------------------------------------


def room(hook: Hook, target: Each, rest: tuple[Step, ...], step: Step) -> int:
    """How many places an "each" takes."""
    match = match_of(target.names)
    check_all_there(hook, target.names, step)
    match target.limit:
        case None:
            there = hook.cursor.remaining(match)
            return max(there - kept_from_each(hook, target.names, rest), 0) if there else 0
        case ToLast() as limit:
            return _room_to_last(hook, match, limit, step)
        case ToNext(name=name) as limit:
            less = 0 if limit.less is None else hook.context.amount(limit.less) or 0
            before = _before_next(hook, limit, match, less)
            if before is None and isinstance(name, Marked) and ends_at_marker(hook):
                before = hook.cursor.remaining(match)  # the last marker is where the round ends
            if before is None:
                if not less and _comes_round_to(hook, name):
                    return hook.cursor.remaining(match)
                if hook.recover:
                    return 0
                missing(hook, (name,), 1, 0, step)
            return _stopped_short(hook, before, less, step)
        case _:
            assert_never(target.limit)


def _stop(hook: Hook, limit: ToNext) -> Match:
    """What stops an open step: a place of that name; the first of a group, not its middle."""
    if limit.inside or not is_group(limit.name, hook.context.special):
        return match_of((limit.name,))
    return match_of((mark_of(first_of(limit.name)),))


def _before_next(hook: Hook, limit: ToNext, match: Match, less: int) -> int | None:
    """How many places stand before the next one of a name.

    A marker that the hook stands at is behind it: the next one is meant. So is a space up to which
    it has come and that it has not worked into ("…, ch 1, dc in each dc to next ch-1 sp"), or in
    front of which ``less`` places are to be left.
    """
    stop = _stop(hook, limit)
    here = hook.cursor.peek()
    passed = here is not None and "between" in here.marks
    passed = passed or (less > 0 and not isinstance(limit.name, Marked)) or hook.has_stopped()
    if here is None or not passed or not stop(here):
        return hook.cursor.before(stop, match)
    probe = hook.cursor.copy()
    probe.take(any_place, 1)
    behind = probe.before(stop, match)
    return None if behind is None else behind + match(here)


def _comes_round_to(hook: Hook, name: PlaceName) -> bool:
    """Whether the next place of that name is one that the round has begun with or passed.

    ``sc in each dc to next corner`` on the last side of a round goes to its end, which is where the
    first corner was worked.
    """
    return (
        hook.closed
        and hook.began
        and hook.below is not None
        and isinstance(name, Space)
        and amount_of(hook.below.nodes, match_of((name,))) > 0
    )


def _stopped_short(hook: Hook, before: int, less: int, step: Step) -> int:
    """``to 1 st before marker``: so many fewer."""
    if before < less and not hook.recover:
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"{many(less, 'st')} {are(less)} to be left before it and there are only {before}",
            needed=less,
            left=before,
        )
    return max(before - less, 0)


def check_all_there(hook: Hook, names: tuple[PlaceName, ...], step: Step) -> None:
    """Of "each dc and each ch-2 sp" both must be there, where other places would be passed over."""
    if len(names) == 1 or hook.below is None or hook.recover:
        return
    nodes = hook.below.nodes
    passed = hook.cursor.remaining(any_place) > hook.cursor.remaining(match_of(names))
    for name in names:
        if passed and not amount_of(nodes, match_of((name,))):
            missing(hook, (name,), 1, 0, step)


def _room_to_last(hook: Hook, match: Match, limit: ToLast, step: Step) -> int:
    stop = match_of(limit.names)
    keep = limit_count(hook, limit)
    left = hook.cursor.remaining(stop, required=True)
    if left < keep and not hook.recover:
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"the last {many(keep, spoken(limit.names))} are to be left and there are only {left}",
            needed=keep,
            left=left,
        )
    if stop is match:
        return max(hook.cursor.remaining(match) - keep, 0)
    return _before_last(hook, match, stop, keep)


def _before_last(hook: Hook, match: Match, stop: Match, keep: int) -> int:
    """Places that match before the last ``keep`` places of another name."""
    probe = hook.cursor.copy()
    probe.take(stop, probe.remaining(stop) - keep)
    between = hook.cursor.remaining(match) - probe.remaining(match)
    return between + (probe.before(stop, match) or 0)


def need_of(hook: Hook, step: Step, names: tuple[PlaceName, ...]) -> int | None:
    """How many places of these names a step takes; None where that is open."""
    number = hook.context.amount
    match step:
        case Work(target=Each()) | Repeat(times=Open()) | Decrease(times=None):
            return None
        case Work():
            return _need_of_work(hook, step, names)
        case (
            Skip(target=Next(names=other, count=amount) | Last(names=other, count=amount))
            | Increase(target=Next(names=other, count=amount) | Last(names=other, count=amount))
        ):
            return (number(amount) or 0) if share(names, other) else 0
        case Skip(target=Unplaced(count=amount)):
            return (number(amount) or 0) if share(names, ANY) else 0
        case Increase(target=Unplaced(count=amount)):
            return number(amount) or 0
        case Decrease(times=Amount() as amount):
            return 2 * (number(amount) or 0)
        case Repeat(steps=body, times=Exactly(count=amount) | More(count=amount)):
            inner = [need_of(hook, inside, names) for inside in body]
            if None in inner:
                return None
            times = (number(amount) or 0) + isinstance(step.times, More)
            return times * sum(need or 0 for need in inner)
        case _:
            return 0


def kept_from_each(hook: Hook, names: tuple[PlaceName, ...], rest: tuple[Step, ...]) -> int:
    """The turning chain, which "each" leaves to a step that names it: nothing else is left."""
    for step in rest:
        if isinstance(step, Work) and isinstance(step.target, ChainOfTurning):
            return _need_of_work(hook, step, names)
        takes = isinstance(step, Work | Skip | Increase | Decrease | Repeat)
        if takes and need_of(hook, step, names):
            return 0
    return 0


def _need_of_work(hook: Hook, step: Work, names: tuple[PlaceName, ...]) -> int:
    number = hook.context.amount
    if step.rows_below > 1:
        return 0
    match step.target:
        case ChainOfTurning():
            bears = match_of(names)
            return hook.cursor.remaining(lambda place: place.turning and bears(place))
        case Unplaced(count=amount):
            takes = places_each(hook.context, step.content)
            return (number(amount) or 0) * takes if share(names, ANY) else 0
        case Next(names=other, count=amount) | Last(names=other, count=amount):
            count = 0 if evens_spiral(hook, step) else number(amount) or 0
            return count if share(names, other) else 0
        case _:
            return 0


def places_each(context: SizeContext, content: tuple[Content, ...]) -> int:
    """How many places one working takes when none is named."""
    only = content[0]
    if len(content) == 1 and isinstance(only, Stitch):
        special = context.special.get(only.name)
        return only.legs if special is None else special.takes
    return 1


def evens_spiral(hook: Hook, step: Work) -> bool:
    """A slip stitch behind an "each" at the end of a spiral round evens its end."""
    only = step.content[0]
    return (
        hook.how == "spiral rounds"
        and isinstance(only, Stitch)
        and only.name == "sl st"
        and isinstance(step.target, Next)
        and step.target.count.values in _EVENING
        and (step.target.count.values == (1,) or _is_fastened_off(hook))
    )


def _is_fastened_off(hook: Hook) -> bool:
    return any(isinstance(one, FastenOff) for one in hook.facts.written)


#: slip stitches that even the end of a round that is fastened off behind them; more are a row
_EVENING = ((1,), (2,), (3,))


# --- limits --------------------------------------------------------------------------------


def limit_count(hook: Hook, limit: Limit | None) -> int:
    """How many places an open step leaves at its limit."""
    if not isinstance(limit, ToLast):
        return 0
    behind = limit.before and hook.cursor.remaining(_TURNING) > 0  # "before turning ch"
    return (hook.context.amount(limit.count) or 0) + behind


def at_limit(hook: Hook, limit: Limit | None) -> tuple[Match, int] | None:
    """Which places are counted off at a limit, and how many are left there."""
    if isinstance(limit, ToLast):
        return match_of(limit.names), limit_count(hook, limit)
    return None


def limit_reached(hook: Hook, limit: Limit) -> bool:
    """Whether the hook stands where an open step is to stop."""
    match limit:
        case ToLast(names=names):
            keep = limit_count(hook, limit)
            return hook.cursor.remaining(match_of(names), required=True) == keep
        case ToNext(less=amount):
            less = 0 if amount is None else hook.context.amount(amount)
            return hook.cursor.before(_stop(hook, limit), hook.wanted()) == less
        case _:
            assert_never(limit)
