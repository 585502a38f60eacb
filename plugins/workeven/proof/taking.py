"""Taking places: the next ones, the first, the last, the one that the hook stands at.

Takes     a ``Hook`` and the names of places.
Gives     ``take``, ``missing``, ``stand_here``, ``what_is_there`` …
Problems  ``row-uneven``, ``row-no-such-place``.
From      notation.md, "Where the hook stands" and "Named places".
"""

from __future__ import annotations

from typing import NoReturn

from workeven.notation.tree import (
    First,
    Gap,
    Increase,
    Inside,
    Last,
    Marked,
    NamedStitch,
    Next,
    PlaceName,
    Same,
    Skip,
    Space,
    Step,
    Target,
    Work,
)
from workeven.proof.context import Fault
from workeven.proof.fabric import (
    IN_GROUP,
    PICOT,
    Loop,
    Match,
    Node,
    Place,
    Run,
    amount_of,
    any_place,
    tally,
)
from workeven.proof.hook import A_PICOT, BROUGHT, Hook, PicotAt
from workeven.proof.inner_places import mark_of
from workeven.proof.naming import are, many, match_of, spoken
from workeven.proof.parts import is_of_group


def take(hook: Hook, names: tuple[PlaceName, ...], count: int, step: Step) -> None:
    """Take the next places of these names; ``Fault`` where there are not so many."""
    if hook.closed and hook.stands == "start" and not hook.ring:
        _begin_at(hook, match_of(names))
    beside = _picot_beside(hook, names, step)
    leave_start(hook, step)
    hook.note(names)
    hook.stood_from = None
    if beside and count == 1:
        _use_picot(hook, beside)
        return
    if names == (A_PICOT,) and (beside == "ahead" or hook.before_used_picot()):
        hook.cursor.pass_by(any_place, 1)
    count -= int(beside != "")
    hook.picot = "" if names == (A_PICOT,) else "behind"
    if count <= 0:
        return
    if hook.ring:
        _refuse_in_ring(hook, names, step)
        return
    match = match_of(names)
    if isinstance(names[0], Marked) and hook.named and not hook.generic:
        hook.passed_over.add(hook.cursor.before(match, hook.wanted()) or 0)
    there = hook.cursor.remaining(match)
    if there < count:
        if not hook.recover:
            missing(hook, names, count, there, step)
        hook.cursor.take(match, there)
        return
    hook.cursor.take(match, count)
    leave_named_group(hook, names)
    if isinstance(names[0], Space):
        hook.at_space = hook.cursor.remaining(any_place)
    hook.stands = "taken"
    hook.over_first = False


def _picot_beside(hook: Hook, names: tuple[PlaceName, ...], step: Step) -> PicotAt:
    """Whether "next picot" is the one beside the hook, which takes up no place.

    It stands behind the place that bears it: ``*sc in next 3 sc, sk picot``, over ``*sc in next 3
    sc, picot``. Where the work was turned it comes before that place.
    """
    if names != (A_PICOT,) or hook.stands != "taken" or hook.below is None:
        return ""
    if not isinstance(step, Work | Skip) or not isinstance(step.target, Next):
        return ""
    turned = hook.below.turned
    if not turned and hook.picot != "behind":
        return ""
    if hook.before_used_picot():
        return ""
    place = hook.cursor.peek() if turned else hook.cursor.behind()
    if place is None or PICOT not in place.marks:
        return ""
    return "ahead" if turned else "behind"


def _use_picot(hook: Hook, beside: PicotAt) -> None:
    """The picot beside the hook is the one that is named."""
    hook.picot = "ahead" if beside == "ahead" else ""
    hook.picot_from = hook.cursor.remaining(any_place)
    hook.cursor.last = None
    hook.stands, hook.over_first = "taken", False


def _begin_at(hook: Hook, match: Match) -> None:
    """What a round passes before its first place ("*7 sc in next sp, sc in next dc") comes last."""
    place = hook.cursor.peek()
    if place is None or match(place) or not hook.cursor.remaining(match):
        return
    ledger = hook.cursor.ledger
    hook.cursor.go_to(match)
    passed = hook.cursor.passed()
    if passed:
        behind = Loop(passed, 1, optional=True)
        hook.cursor = hook.cursor.along((*hook.cursor.rest(), behind))
        hook.cursor.ledger = ledger


def leave_named_group(hook: Hook, names: tuple[PlaceName, ...]) -> None:
    """Behind "V-st in next V-st" the whole of it is passed: "next dc" is the one after it."""
    own = [one.name for one in names if isinstance(one, NamedStitch)]
    own = [name for name in own if name in hook.context.special]
    if own:
        hook.cursor.leave_group(*own)


def is_over(hook: Hook, names: tuple[PlaceName, ...]) -> bool:
    """Whether a counted chain stands over the first place of these names.

    "First ch-5 lp" may well be the one behind the place under the chain.
    """
    over = hook.stood_over
    return hook.over_first and (over is None or match_of(names)(over))


def _refuse_in_ring(hook: Hook, names: tuple[PlaceName, ...], step: Step) -> None:
    """A ring has no stitches: only "in ring", or no place at all, goes into it."""
    target = step.target if isinstance(step, Work | Skip | Increase) else None
    if isinstance(step, Work) and names == (Space(),):
        return  # "make a magic loop, 12 dc in loop"
    if isinstance(target, Next | First | Last) and not hook.recover:
        raise Fault(
            "row-no-such-place",
            step.start,
            step.end,
            f"there is no {spoken(names)} in a ring",
            mend="Work “in ring”, as in “12 dc in ring”, or write the first round before this one.",
        )


def pass_by(hook: Hook, names: tuple[PlaceName, ...], count: int, step: Step) -> None:
    """Pass places without working into them: nobody asks for the rest of their name."""
    generic, named = hook.generic, hook.named
    over, stands = hook.over_first, hook.stands
    place = hook.cursor.peek()
    if place is not None and place.sort == "st":
        passed, kind = hook.made.passed, (place.name, place.base)
        passed[kind] = passed.get(kind, 0) + count
    ledger = hook.cursor.ledger
    take(hook, names, count, step)
    hook.cursor.nothing_worked_since(ledger)
    hook.generic, hook.named = generic, named
    if stands == "start" and count:
        hook.stands = "taken"
    hook.over_first = over and count == 0


def missing(
    hook: Hook, names: tuple[PlaceName, ...], count: int, there: int, step: Step
) -> NoReturn:
    """The places that a step names are not there, or not so many."""
    name = spoken(names)
    below = hook.below
    if below is not None and there == 0 and amount_of(below.nodes, match_of(names)) == 0:
        raise Fault(
            "row-no-such-place",
            step.start,
            step.end,
            f"there is no {name} in the row before: {what_is_there(hook)}",
            mend=_meant_perhaps(name, tuple(tally(below.nodes))),
        )
    raise Fault(
        "row-uneven",
        step.start,
        step.end,
        f"{many(count, name)} {are(count)} needed and {there or 'none'} "
        f"{'is' if there == 1 else 'are'} left",
        needed=count,
        left=there,
    )


def _meant_perhaps(name: str, there: tuple[str, ...]) -> str:
    """Which of the places that are there may have been meant: the only one of its kind."""
    kind = "sp" if name.endswith("sp") else "st"
    alike = [one for one in there if one.endswith("sp") == (kind == "sp")]
    return f"Did you mean “{alike[0]}”?" if len(alike) == 1 else ""


def what_is_there(hook: Hook) -> str:
    """The places of the row before, for a message."""
    if hook.below is None or not hook.below.nodes:
        return "nothing has been worked yet"
    counts = tally(hook.below.nodes)
    return "there are " + ", ".join(many(number, name) for name, number in counts.items())


def leave_start(hook: Hook, step: Step) -> None:
    """Before the first place is taken: where travel or joining moved the hook to.

    ``next st`` after slip stitches is the one after them; where new yarn was joined nothing
    is used up yet, so that it is the place of the joining, if that bears the name. So is ``in ch-1
    sp`` without "next", where slip stitches led to such a space.
    """
    stands = hook.stands
    if stands not in BROUGHT:
        return
    target = step.target if isinstance(step, Work | Skip | Increase) else None
    bare = isinstance(target, Next) and (target.bare or _led_to(hook, target, step))
    if stands == "slipped" and not (bare and _is_here(hook, target, spaces=True)):
        hook.pass_here()  # the slip stitch stands there
    elif isinstance(target, Next | Inside) and stands != "slipped":
        here = _is_here(hook, target)
        moved = stands == "at" and isinstance(target, Next) and not (bare and here)
        if moved or (stands == "joined" and not here):
            hook.pass_here()
    hook.stands = "taken"


def _led_to(hook: Hook, target: Next, step: Step) -> bool:
    """Whether "next ch-1 sp" is read as the one that slip stitches led to: the second reading."""
    if not _is_here(hook, target, spaces=True):
        return False
    point = ("led to", step.start)
    hook.points.setdefault(
        point, ("the space behind it", "the space that the slip stitches lead to")
    )
    return hook.choices.get(point, 0) == 1


def _is_here(hook: Hook, target: Target | None, *, spaces: bool = False) -> bool:
    """Whether the place that the hook stands at bears the name that is asked for."""
    place = hook.cursor.peek()
    if place is None or not isinstance(target, Next | Inside) or (spaces and place.sort != "sp"):
        return False
    names = target.names if isinstance(target, Next) else (mark_of(target),)
    return match_of(names)(place)


def space_of(hook: Hook, target: Inside, inner: Space) -> Space:
    """The space that "ch-2 sp of next shell" leads to: one in a group, where groups hold any.

    Spaces as long may stand between the shells; none in a group is left only behind the last.
    """
    grouped = Space(inner.chains, grouped=True)
    below = hook.below
    if below is None or not is_of_group(target) or not _holds(below.nodes, grouped):
        return Space(inner.chains)
    return grouped


def _holds(nodes: tuple[Node, ...], space: Space, *, inside: bool = False) -> bool:
    """Whether a group holds a space of that length."""
    for node in nodes:
        if isinstance(node, Loop):
            if _holds(node.nodes, space, inside=inside or node.group):
                return True
        elif inside and node.place.sort == "sp" and space.chains in (None, node.place.chains):
            return True
    return False


def stand_here(hook: Hook, step: Step) -> None:
    """``same st``: takes up the place that the hook stands at, if nothing stands there yet."""
    if hook.stands == "taken" or hook.ring:
        return
    if hook.stands == "start":
        hook.to_joined_place()
    place = hook.cursor.peek()
    if place is None:
        if not hook.recover:
            raise Fault("row-uneven", step.start, step.end, "no place is left to work into")
    else:
        hook.cursor.take(any_place, 1)
        if hook.stands == "start" and hook.depth and hook.closed and place.sort == "st":
            _close_in(hook, place)
        if place.sort == "sp":
            loop = PICOT in place.marks  # with the chains behind the picot it is one
            own = Space(None if loop else place.chains, grouped=IN_GROUP in place.marks)
            hook.note((_said_picot_loop(step) or own if loop else own,))
        elif hook.began or not hook.named:
            hook.generic = hook.generic or place.sort == "ch"
    hook.stands = "taken"


def _said_picot_loop(step: Step) -> Space | None:
    """The loop with a picot on it that "same picot loop" names."""
    said = step.target.name if isinstance(step, Work) and isinstance(step.target, Same) else None
    return said if isinstance(said, Space) and said.of == "picot" else None


def _close_in(hook: Hook, place: Place) -> None:
    """A repeat that begins in the "same st" as the join ends there, where it ends in the next one.

    In ``*3 dc in same st, sl st in next st; rep from * around`` the last sl st closes the round.
    """
    again = Loop((Run(place, 1),), 1, optional=True)
    hook.cursor = hook.cursor.along((*hook.cursor.rest(), again))
    hook.shared = True


def pass_last_gap(hook: Hook) -> None:
    """Back at the joining, the gap between the last group and the first is behind the hook."""
    gap = match_of((Gap(),))
    if hook.began and not hook.depth and hook.cursor.remaining(gap) == 1:
        hook.cursor.pass_by(gap, 1)
