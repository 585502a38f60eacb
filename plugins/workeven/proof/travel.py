"""Travel at the head of a row: slip stitches that move the start, and where the hook then stands.

Takes     a ``Hook`` and the steps that a row begins with.
Gives     ``slips_along``, ``slips_up_to``, ``travel``; ``go_to``, ``found_as``.
Problems  ``row-not-understood``, ``row-no-such-place``.
From      notation.md, "Where the hook stands", "Slip stitches", "Rounds are closed".

In flat rows what is passed so is given up; a round goes on around to it, and may leave it.
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.notation.tree import (
    Amount,
    AnyStitch,
    Chain,
    ChainOfTurning,
    Each,
    EndingWith,
    First,
    Gap,
    Inside,
    JoinYarn,
    Last,
    LeaveRest,
    NamedStitch,
    Next,
    OneChain,
    Open,
    PlaceName,
    Repeat,
    Same,
    Skip,
    Space,
    Step,
    Target,
    ToLast,
    ToNext,
    Travel,
    Work,
)
from workeven.proof.context import Fault
from workeven.proof.fabric import (
    IN_GROUP,
    Loop,
    Match,
    Node,
    Place,
    amount_in,
)
from workeven.proof.facts import (
    is_slip_stitch,
)
from workeven.proof.hook import Hook
from workeven.proof.inner_places import mark_of
from workeven.proof.naming import match_of
from workeven.proof.readings_of_ends import gives_up_as_many
from workeven.proof.taking import (
    missing,
    space_of,
)
from workeven.records import replace


def slips_along(hook: Hook, step: Work) -> bool:
    """Slip stitches before anything else in the row are travel.

    Behind a chain that counts for nothing they are where the row gives up its other end too.
    """
    if hook.began and is_slip_stitch(step) and _only_lifted(hook) and _leaves_its_end(hook):
        point = ("lifted", step.start)
        ways = ("the sl sts at its head are given up", "the sl sts at its head are sts")
        hook.points.setdefault(point, ways)
        hook.began = hook.choices.get(point, 0) == 1
    if hook.began or hook.depth or hook.facts.only_slips or not is_slip_stitch(step):
        return False
    if hook.how == "flat rows" and _slips_at_both_ends(hook.facts.steps):
        return False
    target = step.target
    if isinstance(target, Inside):
        hook.made.work("sl st", hook.context.amount(target.count) or 0)
        go_to(hook, found_as(hook, target), 1, step)
        return True
    if not isinstance(target, Next | First):
        return False
    count = hook.context.amount(target.count)
    chains = isinstance(target.names[0], OneChain)
    if count and chains and not hook.cursor.remaining(match_of(target.names)):
        hook.made.work("sl st", count)  # over the chains of the next space, into that space
        go_to(hook, (Space(),), 1, step)
    elif count:
        hook.made.work("sl st", count)
        behind = isinstance(target, Next) and _behind_the_joining(hook, target.names, count, step)
        go_to(hook, target.names, count + behind, step)
        hook.stands = "slipped"
    return True


def _only_lifted(hook: Hook) -> bool:
    """Whether a flat row has made but a chain that counts for nothing."""
    flat = hook.how == "flat rows" and hook.depth == 0
    return flat and bool(hook.lead_chains) and not hook.made.out.nodes


def _leaves_its_end(hook: Hook) -> bool:
    """``…, sc to last 4 sts``, ``…, leave rem sts unworked``: as a row between two armholes."""
    steps = hook.facts.steps
    if gives_up_as_many(steps):
        return True
    slips = next((one for one in steps if isinstance(one, Work)), None)
    number = None if slips is None else getattr(slips.target, "count", None)
    return number is not None and number.values in set(_left_at_end(steps))


def _left_at_end(steps: tuple[Step, ...]) -> Iterator[tuple[int | None, ...]]:
    """How many a row leaves at its end, where it says so: "leave rem 6 sts unworked"."""
    for step, behind in zip(steps, (*steps[1:], None), strict=True):
        match step:
            case LeaveRest(count=Amount(values=values)):
                yield values
            case (
                Work(target=Each(limit=ToLast(count=count)))
                | Repeat(times=Open(limit=ToLast(count=count)))
            ) if isinstance(behind, LeaveRest):
                yield count.values
            case _:
                continue


def _slips_at_both_ends(steps: tuple[Step, ...]) -> bool:
    """``sl st in first 4 sts, sc …, sl st in last 4 sts``: a row that slopes to both its ends."""
    works = [one for one in steps if isinstance(one, Work | Repeat)]
    if len(works) < len(("head", "middle", "end")):
        return False
    head, *_, end = works
    if not (isinstance(head, Work) and isinstance(end, Work)) or not is_slip_stitch(end):
        return False
    count = getattr(head.target, "count", None)
    return (
        isinstance(end.target, Last)
        and count is not None
        and count.values == end.target.count.values
    )


def travel(hook: Hook, step: Travel) -> None:
    """``sl st to next ch-2 sp``: moves the start."""
    target = step.target
    if isinstance(target, Each):
        hook.left_rest = True
        return
    hook.made.work("sl st", 1)
    around = hook.how != "flat rows" or (hook.below is not None and hook.below.closed)
    if hook.began and isinstance(target, First | ChainOfTurning) and around:
        hook.joined = True  # so is a round of the border of a flat piece
        return
    if hook.below is None and isinstance(target, First):
        hook.joined = True  # "ch 90, sl st to first ch"
        return
    match target:
        case Next(names=names, count=amount) | First(names=names, count=amount):
            count = hook.context.amount(amount)
            if count:
                go_to(hook, names, count, step)
        case Inside(name=OneChain(), container=Next(names=names)):
            go_to(hook, names, 1, step)
        case Inside():
            go_to(hook, found_as(hook, target), how_many_on(hook, target), step)
        case Same():
            pass
        case _:
            raise Fault(
                "row-not-understood",
                step.start,
                step.end,
                "where this slip stitch goes is not understood",
                mend="Write “sl st to next ch-2 sp” or “sl st in each of next 4 sts”.",
            )


def _behind_the_joining(hook: Hook, names: tuple[PlaceName, ...], count: int, step: Work) -> bool:
    """``join; sl st in next 3 sts``: whether the stitch of the joining is passed by itself.

    That it is the first of them is the default, that they are those behind it a second reading;
    unless these alone lead to the middle of a group, and the round goes on in other middles, or to
    a stitch of the name that the round goes on in.
    """
    here = hook.cursor.peek()
    if here is None or not hook.closed or hook.stands != "start" or hook.how == "spiral rounds":
        return False
    if not match_of(names)(here):
        return False
    for tells in (_is_a_middle, _is_of_the_name):
        if tells(hook, names, count + 1) and not tells(hook, names, count):
            return True
    point = ("slips", step.start)
    ways = ("the first of them is the st of the joining", "they are the sts behind the joining")
    hook.points.setdefault(point, ways)
    return hook.choices.get(point, 0) == 1


def _is_a_middle(hook: Hook, names: tuple[PlaceName, ...], nth: int) -> bool:
    """Whether the ``nth`` place of these names is the middle of a group, as the row asks for."""
    insides = [one for one in hook.facts.asks.insides if one.part != "first"]
    middles = [mark_of(one).key for one in insides if not isinstance(one.name, Space)]
    if not middles:
        return False
    place = _nth(hook, names, nth)
    return place is not None and any(key in place.marks for key in middles)


def _nth(hook: Hook, names: tuple[PlaceName, ...], nth: int) -> Place | None:
    """The ``nth`` place of these names from where the hook is."""
    probe, match = hook.cursor.copy(), match_of(names)
    probe.ledger = None
    probe.pass_by(match, nth - 1)
    probe.go_to(match)
    return probe.peek()


def _is_of_the_name(hook: Hook, names: tuple[PlaceName, ...], nth: int) -> bool:
    """Whether the ``nth`` place of these names is a stitch such as the row then names.

    ``sl st in each of next 3 sts, ch 1, sc in same tr``; ``…, *ch 6, sc in next tr; rep from *``.
    """
    name = _goes_on_in(hook.facts.steps)
    place = None if name is None else _nth(hook, names, nth)
    return name is not None and place is not None and match_of((name,))(place)


def _goes_on_in(steps: tuple[Step, ...]) -> NamedStitch | None:
    """The stitch into which a row goes on behind its travel, or all stitches of its repeat."""
    for step in steps:
        match step:
            case Work() if is_slip_stitch(step):
                continue
            case Work(target=Same(name=NamedStitch() as name)):
                return name
            case Repeat(steps=inner):
                targets = [one.target for one in inner if isinstance(one, Work)]
                named = {name for one in targets for name in _named_in(one)}
                return named.pop() if len(named) == 1 and None not in named else None
            case Work(target=Same() | First()) | Chain():
                continue
            case Work() | Skip():
                return None
            case _:
                continue
    return None


def _named_in(target: Target) -> tuple[NamedStitch | None, ...]:
    match target:
        case Inside(name=NamedStitch() as name) | Next(names=(NamedStitch() as name,)):
            return (name,)
        case Same():
            return ()
        case _:
            return (None,)


def slips_up_to(hook: Hook, step: Work, target: Each) -> bool:
    """``sl st in each dc to ch-2 sp`` at the head of a row: it moves the start to that space."""
    limit = target.limit
    if hook.began or hook.depth or hook.below is None or hook.ring or not is_slip_stitch(step):
        return False
    if not isinstance(limit, ToNext) or limit.less is not None:
        return False
    if not isinstance(limit.name, Space):
        return False
    passed = hook.cursor.before(match_of((limit.name,)), match_of(target.names))
    if not passed:
        return False
    hook.made.work("sl st", passed - 1)
    travel(hook, Travel(Next((limit.name,)), step.start, step.end))
    return True


def found_as(hook: Hook, target: Inside) -> tuple[PlaceName, ...]:
    """A space within a group is found as that space, another place by its mark."""
    inner = target.name
    container = target.container
    if isinstance(inner, OneChain) and isinstance(container, Next | First | Last):
        return container.names  # a chain of a space: the hook comes to that space
    if isinstance(inner, Space):
        return (space_of(hook, target, inner),)
    return (mark_of(target),)


def how_many_on(hook: Hook, target: Inside) -> int:
    """The how manieth group it is: "ch-1 sp of 3rd shell"."""
    container = target.container
    return hook.context.amount(container.count) or 1 if isinstance(container, Next) else 1


def go_to(hook: Hook, names: tuple[PlaceName, ...], count: int, step: Step) -> None:
    """Move the hook in front of the ``count``-th next place of these names.

    In a gap between two stitches it stands at the first of them: as many gaps as stitches.
    """
    gap = names[0]
    if isinstance(gap, Gap) and gap.pair and gap.between not in hook.context.special:
        names = (AnyStitch() if gap.between is None else NamedStitch(gap.between),)
    match = match_of(names)
    if hook.stands in ("at", "slipped") and not hook.began:
        hook.pass_here()
    there = hook.cursor.remaining(match)
    if there < count:
        if hook.recover:
            return
        missing(hook, names, count, there, step)
    ledger = hook.cursor.ledger
    hook.cursor.pass_by(match, count - 1)
    hook.cursor.go_to(match)
    passed = hook.before_joining = () if hook.began else hook.cursor.passed()
    hook.moved_start = True
    if hook.closed and not hook.began:
        required = isinstance(step, JoinYarn) and not _ends_in_chain(hook.facts.steps)
        behind = passed if required else _passed_last(hook, passed)
        if count > 1 and not required and not isinstance(names[0], AnyStitch):
            behind = _those_named(passed, match)
        hook.cursor = hook.cursor.along((*hook.cursor.rest(), *behind))
        hook.cursor.ledger = ledger  # what was passed comes last, and can be worked into
    hook.stands = "at"
    hook.over_first = False
    place = hook.cursor.peek()
    grouped = place is not None and IN_GROUP in place.marks
    for name in names:
        if isinstance(name, Space):  # those alike in groups, where it is in one
            hook.named |= {replace(name, grouped=True) if grouped else name}


def _passed_last(hook: Hook, passed: tuple[Node, ...]) -> tuple[Node, ...]:
    """What a round has passed at its head comes last: it may be left, or is worked as all else.

    The latter is the second reading of a row that goes on "to last 2 sts".
    """
    if not passed:
        return ()
    if any(map(_goes_to_last, hook.facts.steps)):
        point = ("passed", 0)
        hook.points.setdefault(point, ("the sts passed at its start are left", "they come last"))
        if hook.choices.get(point, 0):
            return passed
    return (Loop(passed, 1, optional=True),)


def _those_named(passed: tuple[Node, ...], match: Match) -> tuple[Node, ...]:
    """``sl st to ch-1 sp of 3rd shell``: the round comes back to the shells that were passed.

    What lies behind the last of them may be left, as where none was passed.
    """
    last = max((at for at, node in enumerate(passed) if amount_in(node, match)), default=-1)
    rest = passed[last + 1 :]
    return (*passed[: last + 1], *((Loop(rest, 1, optional=True),) if rest else ()))


def _ends_in_chain(steps: tuple[Step, ...]) -> bool:
    """``*ch 6, dc in center tr of next petal; …, ch 6, join``: a loop lies over what comes last."""
    for step in reversed(steps):
        match step:
            case Repeat(ending=EndingWith(steps=inner)) | Repeat(steps=inner):
                return _ends_in_chain(inner)
            case Work(target=First() | ChainOfTurning()) | Skip():
                continue  # it closes the round, or passes what lies under the loop
            case Work() | Chain():
                return isinstance(step, Chain)
            case _:
                continue
    return False


def _goes_to_last(step: Step) -> bool:
    match step:
        case Repeat(times=Open(limit=ToLast())) | Work(target=Each(limit=ToLast())):
            return True
        case _:
            return False
