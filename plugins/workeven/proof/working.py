"""Working stitches into places: one branch for each kind of target.

Takes     a ``Hook`` and a ``Work``.
Gives     ``work``.
Problems  ``row-uneven``, ``row-no-such-place``, ``row-decrease``, ``row-not-understood``.
From      notation.md, the table of steps, "Named places", "Turning and beginning chains are
          places", "Loops over the end of a round".
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Chain,
    ChainOfTurning,
    Described,
    Each,
    First,
    FromHook,
    Gap,
    Inside,
    IntoRing,
    Last,
    LeafSide,
    NamedStitch,
    Next,
    OneChain,
    PlaceName,
    Repeat,
    RowSides,
    Same,
    Skip,
    Space,
    Step,
    Stitch,
    StitchGroup,
    TurningChain,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import (
    HEIGHTS,
    kind_of,
)
from workeven.proof.context import Fault
from workeven.proof.each import evens_spiral, legs_of, places_each, takes_of, work_each
from workeven.proof.edges import along_each_row, corners_stand_on, into_corner
from workeven.proof.fabric import Match, Run, any_place
from workeven.proof.facts import is_beginning, is_slip_stitch
from workeven.proof.heads import from_hook
from workeven.proof.hook import BROUGHT, Hook
from workeven.proof.inner_places import GAP, mark_of
from workeven.proof.joins import places_inside
from workeven.proof.making import (
    make,
    make_group,
    make_here,
    note_reach,
    special_of,
)
from workeven.proof.naming import ANY, are, in_one_order, many, match_of, spoken
from workeven.proof.rows_below import before_the_row, over_the_row, stands_before
from workeven.proof.run_on import check_run, one_each
from workeven.proof.taking import (
    is_over,
    leave_start,
    pass_last_gap,
    space_of,
    stand_here,
    take,
    what_is_there,
)
from workeven.proof.travel import slips_along
from workeven.records import replace

_TURNING = match_of((TurningChain(),))
#: where a round ends: a slip stitch there joins it, a stitch there closes its last loop
_END_OF_ROUND = (First, ChainOfTurning)


def work(hook: Hook, step: Work) -> None:
    """Work the content of a step into its target."""
    if _closes_round(hook, step) or slips_along(hook, step):
        return
    if isinstance(step.target, Unplaced) and not hook.context.amount(step.target.count):
        return  # left out in this size
    if _closes_loop(hook, step):
        make(hook.made, step.content, 1)
        return
    if not hook.began:
        _note_beginning(hook, step)
    if step.rows_below > 1:
        note_reach(hook.made, step)
    if step.rows_below > 1 and stands_before(hook, step):
        before_the_row(hook, step)
    elif step.rows_below > 1:
        _into_target(hook, over_the_row(hook, step))
    elif step.does_not_count:
        _uncounted(hook, step)
    else:
        _into_target(hook, step)
    if not one_each(step):
        hook.cursor.last = None
    hook.went_round = _posts_of(hook, step)
    hook.began = True


def _posts_of(hook: Hook, step: Work) -> int:
    """Round how many posts of the row at hand a step has worked."""
    only, target = step.content[0], step.target
    if not isinstance(only, Stitch) or step.rows_below or not isinstance(target, Next | First):
        return 0
    return (hook.context.amount(target.count) or 0) if kind_of(only.name).post is not None else 0


def _note_beginning(hook: Hook, step: Work) -> None:
    """A round that begins with a "beg shell" begins with the chain of it.

    Where only the shell was declared, that chain is as high as its first stitch.
    """
    only = step.content[0]
    if not isinstance(only, Stitch) or not only.name.startswith("beg "):
        return
    special = special_of(hook.context, only.name)
    if special is None or not special.content:
        return
    first = special.content[0]
    if isinstance(first, Chain):
        hook.lead_chains = hook.context.amount(first.count)
    elif isinstance(first, Stitch) and special.name != only.name:
        hook.lead_chains = HEIGHTS.get(kind_of(first.name).base)


def way_of(step: Step) -> str:
    """How a step enters its places, where that is not under both loops: ``back loop``."""
    if not isinstance(step, Work):
        return ""
    if step.loop != "both":
        return f"{step.loop} loop"
    only = step.content[0]
    post = kind_of(only.name).post if isinstance(only, Stitch) else None
    return "" if post is None else f"{post} post"


def _uncounted(hook: Hook, step: Work) -> None:
    """``sl st in next 3 sts (does not count as st)``: takes its places and leaves none."""
    made = hook.made
    kept, makes, groups = made.beside(), dict(made.makes), dict(made.groups)
    _into_target(hook, step)
    made.out, made.makes, made.groups = kept, makes, groups
    made.stand_off()


def _into_target(hook: Hook, step: Work) -> None:  # noqa: C901, one branch a target
    match step.target:
        case Next(names=names, count=amount, bare=True) if _stands_over(hook, names):
            _into_same(hook, step, hook.context.amount(amount) or 0, just_made=False)
        case Next(names=names, count=amount):
            _into_next(hook, step, names, amount)
        case Unplaced(count=amount):
            _into_as_many(hook, step, amount)
        case Each() as target:
            work_each(hook, step, target, ())
        case First(names=names, count=amount):
            _into_first(hook, step, names, amount)
        case Last(names=names, count=amount):
            _into_last(hook, step, names, amount)
        case Same(made=made, count=amount):
            _into_same(hook, step, hook.context.amount(amount) or 0, just_made=made)
        case IntoRing(magic=magic):
            _into_ring(hook, step, magic=magic)
        case FromHook() as target:
            from_hook(hook, step, target)
        case ChainOfTurning():
            _into_turning_chain(hook, step)
        case RowSides(each=each_row, apart=apart):
            _along_rows(hook, step, each_row=each_row, apart=apart)
        case Described():
            raise _no_name(step)
        case Inside() as target:
            _into_part(hook, step, target)
        case _:
            assert_never(step.target)


def _no_name(step: Work) -> Fault:
    return Fault(
        "row-not-understood",
        step.start,
        step.end,
        "which place this is cannot be told",
        mend="Name the stitch or space, such as “next st”, “next ch-2 sp”.",
    )


# --- slip stitches and loops that close ----------------------------------------------------


def _closes_round(hook: Hook, step: Work) -> bool:
    """A slip stitch that closes the round, or evens the end of a spiral: not counted."""
    inside = hook.depth > hook.last_turn
    if not hook.began or inside or not is_slip_stitch(step):
        return False
    around = hook.below is not None and hook.below.closed  # a border around flat rows
    if isinstance(step.target, _END_OF_ROUND) and (hook.how != "flat rows" or around):
        # "84 fdc, sl st in first fdc to form a tube"; the first round behind flat rows
        founded = hook.below is None or hook.how.startswith("joined rounds")
        if hook.closed or hook.ring or founded or hook.facts.along_rows:  # around rows too
            hook.joined = True
            hook.made.work("sl st", 1)
            return True
    elif evens_spiral(hook, step) and hook.left() == 0:
        hook.made.work("sl st", 1)
        return True
    return False


def _closes_loop(hook: Hook, step: Work) -> bool:
    """``ch 3, dc in first sc`` at the end of a round: the last loop, which takes no place."""
    if not isinstance(step.target, _END_OF_ROUND):
        return False
    if not hook.began or hook.depth or not hook.closed or is_slip_stitch(step):
        return False
    last = hook.made.out.nodes[-1] if hook.made.out.nodes else None
    return isinstance(last, Run) and last.place.sort == "sp" and not hook.left()


# --- so many places ------------------------------------------------------------------------


def _into_as_many(hook: Hook, step: Work, amount: Amount) -> None:
    """``sc 6``: no place named, one a stitch."""
    count = hook.context.amount(amount) or 0
    takes = places_each(hook.context, step.content)
    if takes == 0 and hook.stands in BROUGHT:
        hook.pass_here()
        hook.stands = "taken"
    if is_beginning(step.content):
        stand_here(hook, step)
        takes = 0
    take(hook, ANY, takes * count, step)
    make(hook.made, step.content, count)


def _stands_over(hook: Hook, names: tuple[PlaceName, ...]) -> bool:
    """``sl st to ch-2 sp, ch 3, 2 dc in sp``: the space that was come to, below the chain."""
    over = hook.stood_over
    if not (hook.over_first and hook.moved_start and over is not None) or hook.depth:
        return False
    return isinstance(names[0], Space) and match_of(names)(over)


def _into_next(hook: Hook, step: Work, names: tuple[PlaceName, ...], amount: Amount) -> None:
    if isinstance(names[0], Gap) and _counted_off(hook, names[0], step):
        if hook.context.amount(amount):
            hook.cursor.worked_into(GAP.name, 1)
            make(hook.made, step.content, 1)
        return
    count = hook.context.amount(amount)
    if not count:
        return
    if into_corner(hook, step, names[0]):
        return
    if isinstance(names[0], LeafSide):
        _along_leaf(hook, step, names[0], count)
        return
    legs = takes_of(hook.context, step)
    if legs > 1 and (count > 1 or step.over):
        if count != legs and (legs_of(step) > 1 or count % legs):
            raise _over_others(step, count, legs)
        take(hook, names, count, step)
        make(hook.made, step.content, count // legs)
        return
    check_run(hook, step, names, count)
    if _is_first_alone(hook, step, names, count):
        generic, named = hook.generic, hook.named
        take(hook, names, count, step)
        hook.generic, hook.named = generic, named
    else:
        take(hook, names, count, step)
    over = step.over and count > 1 and _is_closed(hook, step)  # "cl over next 3 sts" is one cl
    make(hook.made, step.content, 1 if over else count, spread=step.spread)


def _is_first_alone(hook: Hook, step: Work, names: tuple[PlaceName, ...], count: int) -> bool:
    """``ch 1, sc in dc, *ch 5, sc in next lp``: the first one, which asks for no other dc."""
    bare = isinstance(step.target, Next) and step.target.bare and count == 1
    head = bare and hook.stands == "start" and not hook.depth and hook.how == "flat rows"
    return head and isinstance(names[0], NamedStitch)


def _is_closed(hook: Hook, step: Work) -> bool:
    """Whether a stitch is closed to one, by what it is or by how the pattern tells it."""
    only = step.content[0]
    if not isinstance(only, Stitch):
        return False
    special = hook.context.special.get(only.name)
    return special is None or (special.closed and special.takes > 0)


def _over_others(step: Work, count: int, legs: int) -> Fault:
    what = "decrease" if legs_of(step) > 1 else "stitch"
    return Fault(
        "row-decrease",
        step.start,
        step.end,
        f"a {what} over {legs} sts is worked over {count}",
    )


def _along_leaf(hook: Hook, step: Work, side: LeafSide, count: int) -> None:
    """``5 sc along first side of leaf, 3 sc in point``: those in the point are a group."""
    take(hook, (side,), count, step)
    if side.which == "point":
        make_group(hook.made, step.content, count, "point")
        return
    for content in step.content:
        if isinstance(content, Stitch):
            number = hook.context.amount(content.count) or 0
            make(hook.made, (replace(content, count=ONE),), number * count)


def _counted_off(hook: Hook, gap: Gap, step: Work) -> bool:
    """Of "sp between next 2 dc" the first is passed; the stitch then takes no place."""
    if not gap.pair or gap.between in hook.context.special:
        return False
    if gap.first and hook.over_first:
        hook.over_first = False  # the chain stands over the first of the two
        return True
    between: PlaceName = AnyStitch() if gap.between is None else NamedStitch(gap.between)
    generic, named = hook.generic, hook.named
    ledger = hook.cursor.ledger
    take(hook, (between,), 1, step)
    hook.cursor.nothing_worked_since(ledger)
    hook.generic, hook.named = generic, named
    return True


def _into_first(hook: Hook, step: Work, names: tuple[PlaceName, ...], amount: Amount) -> None:
    count = hook.context.amount(amount)
    if not count or into_corner(hook, step, names[0]):
        return
    over = is_over(hook, names)
    if over and count == 1:  # under the counted chain: it takes up no more
        make_here(hook.made, step.content, hook.stood_from)
        return
    times = _times_over(hook, step, count)
    generic, named = hook.generic, hook.named
    take(hook, names, count - 1 if over else count, step)
    if count == 1:
        hook.generic, hook.named = generic, named
    make(hook.made, step.content, times, spread=step.spread)
    hook.stands, hook.over_first = "taken", False


def _into_last(hook: Hook, step: Work, names: tuple[PlaceName, ...], amount: Amount) -> None:
    count = hook.context.amount(amount)
    if not count or into_corner(hook, step, names[0]):
        return
    passes = hook.works_into_parts() and not isinstance(names[0], Space)
    generic = hook.generic
    hook.note(names)
    # the last ch of an oval is the first one seen from its other side, which need not be worked
    need = not isinstance(names[0], OneChain)
    there = hook.cursor.remaining(match_of(names), required=need)
    there -= corners_stand_on(hook, there - count)
    if there > count and not passes:
        if hook.leave_group_of_space():
            there = hook.cursor.remaining(match_of(names), required=need)
        there -= _turning_named_behind(hook, step, names)
    if not (hook.recover or hook.lenient):
        if not isinstance(names[0], Space):
            _spaces_passed(hook, step, match_of(names), there - count)
            if not generic:
                _stitches_passed(hook, step, names, there - count)
        if not passes:
            _parts_passed(hook, step, names, count)
    if there > count and passes:
        hook.cursor.pass_by(match_of(names), there - count)
    elif there > count and not (hook.recover or hook.lenient):
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"the last {many(count, spoken(names))} {are(count)} due and {there} are still there",
            needed=count,
            left=there,
        )
    times = _times_over(hook, step, count)
    take(hook, names, count, step)
    make(hook.made, step.content, times, spread=step.spread)


def _times_over(hook: Hook, step: Work, count: int) -> int:
    """How often a step is worked over the first or the last so many places.

    ``dc4tog over last 4 dc`` and ``cl over first 4 dc`` are one.
    """
    legs = legs_of(step)
    if legs > 1 and (count != legs if step.over else count > 1 and count % legs):
        raise _over_others(step, count, legs)
    if legs == 1 and step.over and count > 1 and _is_closed(hook, step):
        return 1
    return count // legs if legs > 1 and count > 1 else count


def _spaces_passed(hook: Hook, step: Work, match: Match, stitches: int) -> None:
    """A row that works into spaces leaves none of them on its way to the last stitch."""
    spaces = tuple(name for name in in_one_order(hook.named) if isinstance(name, Space))
    if not spaces:
        return
    probe, space = hook.cursor.copy(), match_of(spaces)
    probe.pass_by(match, max(stitches, 0))
    probe.go_to(match)
    left = hook.cursor.remaining(space, required=True) - probe.remaining(space, required=True)
    if left > _bridged(hook, spaces):
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"the last stitch is due and {many(left, spoken(spaces))} {are(left)} still there "
            "before it",
            left=left,
        )


def _stitches_passed(hook: Hook, step: Work, names: tuple[PlaceName, ...], before: int) -> None:
    """``*…, 7 dc in next sc; rep from *, ending with 4 dc in last sc``: what lies on the way to it.

    A row that names the stitches it works into or skips passes none of these names in silence
    where it ends: a whole shell would be left. As many as it skips elsewhere it may pass, the half
    of a shell ("sk 3 dc, dc in next sc").
    """
    others = tuple(
        name
        for name in in_one_order(hook.named)
        if isinstance(name, NamedStitch) and name not in names
    )
    if not others or hook.depth or hook.repeats is None:
        return
    match, other = match_of(names), match_of(others)
    probe = hook.cursor.copy()
    probe.pass_by(match, max(before, 0))
    probe.go_to(match)
    left = hook.cursor.remaining(other, required=True) - probe.remaining(other, required=True)
    if left > max(_skipped_at_once(hook, hook.facts.steps), default=0):
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"the last stitch is due and {many(left, spoken(others))} {are(left)} still there "
            "before it",
            left=left,
        )


def _skipped_at_once(hook: Hook, steps: tuple[Step, ...]) -> Iterator[int]:
    """How many stitches a row skips at a time."""
    for step in steps:
        if isinstance(step, Repeat):
            yield from _skipped_at_once(hook, step.steps)
        elif isinstance(step, Skip) and isinstance(step.target, Next | First):
            yield hook.context.amount(step.target.count) or 0


def _bridged(hook: Hook, spaces: tuple[Space, ...]) -> int:
    """``ch 2, dc in 3rd ch of tch``: the space below a chain of its length stays open above it."""
    made = hook.made.out.nodes
    last = made[-1] if made else None
    if not isinstance(last, Run) or last.place.sort != "sp":
        return 0
    return int(any(space.chains in (None, last.place.chains) for space in spaces))


def _parts_passed(hook: Hook, step: Work, names: tuple[PlaceName, ...], count: int) -> None:
    """A whole shell that the row works into the middles of is not passed on the way to the last."""
    if not hook.into_parts or hook.generic:
        return
    match, part = match_of(names), match_of(in_one_order(hook.into_parts))
    ahead = hook.cursor.before(match, part)
    if ahead and hook.cursor.remaining(match, required=True) == count:
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"the last {many(count, spoken(names))} {are(count)} due and "
            f"{many(ahead, spoken(in_one_order(hook.into_parts)))} {are(ahead)} still there before",
            left=ahead,
        )


def _turning_named_behind(hook: Hook, step: Work, names: tuple[PlaceName, ...]) -> int:
    """``dc in last dc, dc in top of turning ch``: the chain is one of the dc, and not the last.

    "dc in last 3 dc and in top of ch-3" begin at the same word: what ends later is behind.
    """
    behind = any(
        isinstance(one, Work) and isinstance(one.target, ChainOfTurning) and one.end > step.end
        for one in hook.facts.steps
    )
    match = match_of(names)
    return hook.cursor.remaining(lambda place: place.turning and match(place)) if behind else 0


def _into_same(hook: Hook, step: Work, count: int, *, just_made: bool) -> None:
    if not just_made:
        stand_here(hook, step)
        pass_last_gap(hook)
    make_here(hook.made, step.content, hook.stood_from)
    if count > 1:
        make(hook.made, step.content, count - 1)


# --- rings, chains, sides ------------------------------------------------------------------


def _into_ring(hook: Hook, step: Work, *, magic: bool) -> None:
    if magic and hook.below is None:
        hook.ring = hook.made_ring = True
    below = hook.below
    if below is not None and below.foundation and below.closed:
        hook.ring = True
    if not hook.ring:
        raise Fault(
            "row-no-such-place",
            step.start,
            step.end,
            f"there is no ring to work into: {what_is_there(hook)}",
            mend="Begin with “magic ring”, or with “ch 4, join with sl st to first ch to form "
            "ring”.",
        )
    hook.stands = "taken"
    make(hook.made, step.content, 1)


def _into_turning_chain(hook: Hook, step: Work) -> None:
    """``dc in top of tch``: the counted chain of the row before, its last place.

    At the head of a round that goes back it is where the round before was joined.
    """
    if hook.closed and hook.stands == "start" and hook.how == "joined rounds, turned":
        _into_same(hook, step, 1, just_made=False)
        return
    if hook.cursor.remaining(_TURNING) == 0:
        if hook.recover:
            make(hook.made, step.content, 1)
            return
        raise Fault(
            "row-no-such-place",
            step.start,
            step.end,
            f"there is no turning ch left that counts as a stitch: {what_is_there(hook)}",
        )
    before = hook.cursor.before(_TURNING, hook.wanted_stitches())
    if before and hook.leave_group_of_space():
        before = hook.cursor.before(_TURNING, hook.wanted_stitches())
    if before and not hook.recover:
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"the turning ch is due and {many(before, 'st')} {are(before)} still there before it",
            left=before,
        )
    if not hook.recover and not hook.lenient and not hook.generic:
        _spaces_passed(hook, step, _TURNING, 0)
    leave_start(hook, step)
    hook.cursor.take(_TURNING, 1)
    make(hook.made, step.content, 1)
    hook.stands, hook.over_first = "taken", False


def _along_rows(hook: Hook, step: Work, *, each_row: bool, apart: bool) -> None:
    """``work 2 sc in side of each row``, ``work 40 sc evenly along side edge``."""
    if each_row:
        along_each_row(hook, step)
    else:
        required = 0 if apart else hook.cursor.remaining(any_place, required=True)
        hook.cursor.take(any_place, required)  # not what an earlier row left behind it
        only = step.content[0]
        if len(step.content) == 1 and isinstance(only, Stitch):  # side by side, and no group
            make(hook.made, (replace(only, count=ONE),), hook.context.amount(only.count) or 0)
        else:
            make(hook.made, step.content, 1)
    hook.stands, hook.sided = "taken", True


def _into_part(hook: Hook, step: Work, target: Inside) -> None:
    """A place within another: "center dc of next shell", "first ch of next ch-2 sp"."""
    container, inner = target.container, target.name
    names = () if isinstance(container, Same) else container.names
    count = 1
    if isinstance(inner, Space) and inner.of is not None:
        space = (space_of(hook, target, inner),)
        if isinstance(container, Last) and container.count is not ONE:
            _into_last(hook, step, space, container.count)
            return
        if isinstance(container, Next):  # "ch-1 sp of each of next 5 shells"
            count = hook.context.amount(container.count) or 0
        take(hook, space, count, step)
    elif names and isinstance(names[0], Space) and isinstance(inner, OneChain):
        take(hook, names, 1, step)
    elif isinstance(container, Same) and isinstance(inner, OneChain):
        stand_here(hook, step)
    elif names and isinstance(names[0], NamedStitch | StitchGroup):
        count = places_inside(hook, target)
        if not count:
            return
        take(hook, (mark_of(target),), count, step)
    else:
        raise Fault(
            "row-not-understood",
            step.start,
            step.end,
            "this place inside a group is not counted",
            mend="Name the stitch itself, such as “next dc”.",
        )
    _leave_rest_of_group(hook, container)
    make(hook.made, step.content, count)


def _leave_rest_of_group(hook: Hook, container: Next | First | Last | Same) -> None:
    """``shell in ch-2 sp of next shell, dc in next dc``: whether that is a dc of the shell.

    By the words it is; that the shell is done with is the second reading, of all such steps alike.
    """
    if isinstance(container, Same) or not isinstance(container.names[0], _OF_GROUPS):
        return
    hook.points.setdefault(
        _REST, ("the rest of the group is worked too", "the rest of the group is left")
    )
    if hook.choices.get(_REST, 0) == 1:
        hook.cursor.leave_group()


#: names of what was worked into one place (a tuple: a union would be built anew each time)
_OF_GROUPS = (NamedStitch, StitchGroup)
_REST = ("rest of group", 0)
