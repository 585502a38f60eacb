"""The head of a row: turning and beginning chains, skipped chains, travel, new yarn.

Takes     a ``Hook`` and the steps that a row begins with.
Gives     ``lead_chain``, ``from_hook``, ``travel``, ``slips_along``, ``join_yarn``.
Problems  ``row-uneven``, ``row-skipped-chains``, ``row-not-understood``.
From      notation.md, "Chains at the start", "Where the hook stands", "Rounds are closed",
          "Slip stitches", "Chains worked back along".
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Aside,
    Chain,
    ChainOfTurning,
    CountsAs,
    Described,
    Each,
    EndingWith,
    First,
    FromHook,
    Gap,
    Inside,
    JoinRound,
    JoinYarn,
    Last,
    LeaveRest,
    NamedStitch,
    Next,
    OneChain,
    Open,
    PlaceName,
    Repeat,
    RowSides,
    Same,
    Skip,
    Space,
    Step,
    Stitch,
    ToLast,
    ToNext,
    Travel,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.changes import base_of
from workeven.proof.context import Fault, SizeContext, chain_counts
from workeven.proof.fabric import (
    CHAIN,
    IN_GROUP,
    Fabric,
    Loop,
    Node,
    Run,
    any_place,
    counted_chain,
    space,
    stitch,
    tally,
)
from workeven.proof.facts import (
    begins_with_change,
    first_of_content,
    first_stitch,
    goes_from_hook,
    is_slip_stitch,
    works,
)
from workeven.proof.hook import Hook
from workeven.proof.inner_places import mark_of
from workeven.proof.making import make, stand_for
from workeven.proof.naming import many, match_of, ordinal
from workeven.proof.readings_of_ends import gives_up_as_many
from workeven.proof.taking import (
    missing,
    space_of,
    stand_here,
)
from workeven.proof.unsaid_chains import joined_to, passed_by_the_join, stands_apart
from workeven.records import replace

#: a chain of a bridge, which counts as a stitch
BRIDGE = stitch("ch", "ch")
_ONE_CHAIN: tuple[PlaceName, ...] = (OneChain(),)


# --- chains --------------------------------------------------------------------------------


def lead_chain(hook: Hook, step: Chain, rest: tuple[Step, ...]) -> None:
    """A chain at the head of a row: a turning chain, or the start of something to work into."""
    count = hook.context.amount(step.count)
    if not count:
        return
    hook.made.work("ch", count)
    hook.chains_made += count
    hook.lead_chains = count
    if (_closes_at_once(hook, rest) or goes_from_hook(rest)) and works(rest):
        _put_chains(hook, count)
        return
    if hook.below is None and not works(rest):
        hook.made.leave(CHAIN, count)
        return
    base = _base_ahead(hook, rest)
    if step.counts_as is not None and is_bridge(hook.context, step.counts_as, count):
        hook.made.leave(BRIDGE, count)
    elif step.counts_as is not None and _for_nothing(step.counts_as):
        closed = hook.context.special.get(first_stitch(rest) or "")
        if _is_loop(count, base, rest) and not (closed is not None and closed.closed):
            hook.made.leave(space(count), 1)  # "ch 7 (does not count as st), dc in first dc"
    elif step.counts_as is not None:
        _stand_over(hook, count, step.counts_as, base)
    elif (apart := stands_apart(count, base, rest)) and chain_counts(hook.context, apart):
        _stand_over(hook, count, CountsAs(((ONE, apart),)), apart)
    elif base is not None and _is_stitch(hook, base, count, rest):
        _stand_over(hook, count, CountsAs(((ONE, base),)), base)
    else:
        _longer(hook, count, base, rest)
    hook.began = True


def _closes_at_once(hook: Hook, rest: tuple[Step, ...]) -> bool:
    """Whether the first chain of a piece is joined, to be worked into by the same row."""
    if hook.below is not None:
        return False
    after = next((step for step in rest if not isinstance(step, Aside)), None)
    return isinstance(after, JoinRound)


def _longer(hook: Hook, count: int, base: str | None, rest: tuple[Step, ...]) -> None:
    """A chain longer than the table's does not count unless said; it may stand as a space."""
    if _is_loop(count, base, rest):
        hook.made.leave(space(count), 1)
    if base is not None and count > HEIGHTS.get(base, 0) >= HEIGHTS["dc"]:
        hook.defaulted.append((base, count))  # "ch 4, dc": it may have been meant to count


def _is_apart(step: Step) -> bool:
    """Whether a step goes along an edge whose places are not those that the row goes on into."""
    return isinstance(step, Work) and isinstance(step.target, RowSides) and step.target.apart


def _is_loop(count: int, base: str | None, rest: tuple[Step, ...]) -> bool:
    """Whether a chain that counts for nothing stands off as a loop: it is longer than it need be.

    Edgings worked sideways have such loops at their turns, and later rows work into them.
    """
    return count > HEIGHTS.get(base or "tr", 0) + 1 and not _only_lifts(rest)


def _for_nothing(said: CountsAs) -> bool:
    """Whether a chain is said to count for nothing, and is no first leg of a decrease."""
    return not said.stitches and said.chains is None and said.leg is None


def is_bridge(context: SizeContext, said: CountsAs, count: int) -> bool:
    """``ch 6 (counts as 6 sts), sk 6 sts``: chains that stand side by side, over no place."""
    if said.chains is not None or len(said.stitches) != 1:
        return False
    amount, name = said.stitches[0]
    return name == "st" and count > 1 and context.amount(amount) == count


def _only_lifts(rest: tuple[Step, ...]) -> bool:
    """Whether a long chain is but as high as the row ("ch 3, sc in each st around").

    It is worked beside the first stitch, and no other chain of the row is a space.
    """
    first = next((step for step in rest if isinstance(step, Work)), None)
    if first is None or any(isinstance(step, Chain | Repeat) for step in rest):
        return False
    target = first.target
    return isinstance(target, Each | First) and not isinstance(target.names[0], Space)


def _is_stitch(hook: Hook, base: str, count: int, rest: tuple[Step, ...]) -> bool:
    """Whether a chain of which the row says nothing counts as the stitch behind it."""
    if joined_to(count, base, rest) and chain_counts(hook.context, base) is not False:
        return True
    if passed_by_the_join(count, base, rest) and base not in hook.context.turning_chains:
        hook.defaulted.append((base, count))
        return False
    return count == HEIGHTS.get(base, 0) and _counts(hook, base, count)


def _counts(hook: Hook, base: str, count: int) -> bool:
    """Whether a turning chain as high as the stitch counts as one."""
    known = chain_counts(hook.context, base)
    if known is not None:
        return known
    point = ("turning", 0)
    hook.defaulted.append((base, count))
    hook.points.setdefault(point, ("does not count", "counts as hdc"))
    return hook.choices.get(point, 0) == 1


def _base_ahead(hook: Hook, rest: tuple[Step, ...]) -> str | None:
    """The basic stitch that comes after a chain: its height decides what the chain is."""
    if begins_with_change(rest):
        return base_of(hook, rest[0])
    first = first_stitch(rest)
    if first is None:
        return None
    special = hook.context.special.get(first)
    if special is not None:
        inside = first_of_content(special.content) or special.base
        return kind_of(inside).base if inside else None
    base = kind_of(first).base
    return base if base in HEIGHTS else None


def _put_chains(hook: Hook, count: int) -> None:
    """Chains that are worked back along: places in front of all others."""
    hook.cursor = hook.cursor.along((Run(CHAIN, count), *hook.cursor.rest()))
    if hook.below is None:
        closed = hook.how != "flat rows"
        hook.below = Fabric((Run(CHAIN, count),), foundation=True, closed=closed)


def _stand_over(hook: Hook, count: int, said: CountsAs, base: str | None) -> None:
    """A counted chain stands over the first place, which then counts as taken."""
    if not said.stitches and said.chains is None:
        return
    hook.stood_from = len(hook.made.out.nodes)
    if not hook.ring and hook.stands != "taken":
        if hook.stands == "start":
            hook.to_joined_place()
        place = hook.stood_over = hook.cursor.peek()
        if place is not None and (place.sort != "sp" or hook.stands != "start"):
            hook.cursor.take(any_place, 1)
    stand_for(hook.made, said, count, base)
    hook.stands, hook.over_first, hook.began = "taken", True, True


# --- the first row -------------------------------------------------------------------------


def from_hook(hook: Hook, step: Work, target: FromHook) -> None:
    """``dc in 4th ch from hook``: that chain and the skipped ones before it."""
    nth = hook.context.amount(target.nth) or 1
    match = match_of(_ONE_CHAIN)
    there = hook.cursor.remaining(match)
    needed = nth + target.more
    if there < needed and not hook.recover:
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"the {ordinal(needed)} ch from hook is asked for and there are {many(there, 'ch')}",
            needed=needed,
            left=there,
        )
    _check_closed(step, target)
    hook.note(_ONE_CHAIN)
    hook.first_side = there - nth + 1
    _skipped_chains(hook, target.skipped, nth, first_of_content(step.content))
    ledger = hook.cursor.ledger
    hook.cursor.take(match, nth - 1)
    hook.cursor.ledger = ledger  # they are a turning chain, and nothing that is passed over
    hook.cursor.take(match, 1 + target.more)
    make(hook.made, step.content, 1)
    hook.stands = "taken"


def _check_closed(step: Work, target: FromHook) -> None:
    """Over several chains goes one stitch that has a leg in each."""
    legs = [
        one.legs for one in step.content if isinstance(one, Stitch) and one.count.values == (1,)
    ]
    if target.more and (len(step.content) > 1 or legs != [target.more + 1]):
        raise Fault(
            "row-not-understood",
            step.start,
            step.end,
            f"what goes into each of the {target.more + 1} chs is not said",
            mend="Name a decrease of as many legs, such as “dc2tog over 3rd and 4th ch from hook”.",
        )


def _skipped_chains(hook: Hook, said: CountsAs | None, nth: int, first: str | None) -> None:
    """What the chains skipped at the start of the first row stand for."""
    special = hook.context.special.get(first or "")
    if special is not None:  # "shell in 4th ch from hook": the chain is as high as its first stitch
        first = first_of_content(special.content) or special.base or first
    base = kind_of(first).base if first is not None else "sc"
    skipped = hook.lead_chains = nth - 1
    if said is not None:
        _check_skipped(hook, said, nth)
        stand_for(hook.made, said, skipped, base)
        return
    space = hook.facts.mesh_chains
    if space is not None:
        counted = CountsAs(((ONE, base),), Amount((space,)))
        stand_for(hook.made, counted, skipped, base)
        return
    height = HEIGHTS.get(base, 0)
    counts = skipped == height and _counts(hook, base, height)
    if skipped >= height >= HEIGHTS["hdc"] and base not in hook.context.turning_chains:
        hook.defaulted.append((base, skipped))
    if counts:
        hook.made.leave(counted_chain(base, base, skipped), 1)


def _check_skipped(hook: Hook, said: CountsAs, nth: int) -> None:
    if said.skipped is None:
        return
    number = hook.context.amount(said.skipped)
    if number != nth - 1 and not hook.recover:
        raise Fault(
            "row-skipped-chains",
            said.start,
            said.end,
            f"{number} chs are said to be skipped, and working into the {ordinal(nth)} ch from "
            f"hook skips {nth - 1}",
            mend="Make the number of skipped chs and the ch worked into agree.",
        )


# --- travel --------------------------------------------------------------------------------


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
        _go_to(hook, _found_as(hook, target), 1, step)
        return True
    if not isinstance(target, Next | First):
        return False
    count = hook.context.amount(target.count)
    chains = isinstance(target.names[0], OneChain)
    if count and chains and not hook.cursor.remaining(match_of(target.names)):
        hook.made.work("sl st", count)  # over the chains of the next space, into that space
        _go_to(hook, (Space(),), 1, step)
    elif count:
        hook.made.work("sl st", count)
        behind = isinstance(target, Next) and _behind_the_joining(hook, target.names, count, step)
        _go_to(hook, target.names, count + behind, step)
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
                _go_to(hook, names, count, step)
        case Inside(name=OneChain(), container=Next(names=names)):
            _go_to(hook, names, 1, step)
        case Inside():
            _go_to(hook, _found_as(hook, target), 1, step)
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
    unless these alone lead to the middle of a group, and the round goes on in other middles.
    """
    here = hook.cursor.peek()
    if here is None or not hook.closed or hook.stands != "start" or hook.how == "spiral rounds":
        return False
    if not match_of(names)(here):
        return False
    if _is_a_middle(hook, names, count + 1) and not _is_a_middle(hook, names, count):
        return True
    point = ("slips", step.start)
    ways = ("the first of them is the st of the joining", "they are the sts behind the joining")
    hook.points.setdefault(point, ways)
    return hook.choices.get(point, 0) == 1


def _is_a_middle(hook: Hook, names: tuple[PlaceName, ...], nth: int) -> bool:
    """Whether the ``nth`` place of these names is the middle of a group, as the row asks for."""
    middles = [mark_of(one).key for one in hook.facts.asks.insides if one.part == "center"]
    if not middles:
        return False
    probe, match = hook.cursor.copy(), match_of(names)
    probe.ledger = None
    probe.pass_by(match, nth - 1)
    probe.go_to(match)
    place = probe.peek()
    return place is not None and any(key in place.marks for key in middles)


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


def _found_as(hook: Hook, target: Inside) -> tuple[PlaceName, ...]:
    """A space within a group is found as that space, another place by its mark."""
    inner = target.name
    container = target.container
    if isinstance(inner, OneChain) and isinstance(container, Next | First | Last):
        return container.names  # a chain of a space: the hook comes to that space
    if isinstance(inner, Space):
        return (space_of(hook, target, inner),)
    return (mark_of(target),)


def _go_to(hook: Hook, names: tuple[PlaceName, ...], count: int, step: Step) -> None:
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


def join_yarn(hook: Hook, step: JoinYarn) -> None:
    """``join yarn with sl st in any ch-2 sp``; with another stitch it is a standing stitch."""
    if step.stitch is not None and hook.began and hook.closed:
        make(hook.made, (step.stitch,), 1)  # "ch 2, join with dc in first sc": the last loop
        hook.joined = True
        return
    # around an instep the row goes on into stitches, whatever edge it begins at
    edge = step.edge and not any(map(_is_apart, hook.facts.steps))
    hook.left_rest = hook.left_rest or edge
    if step.target is not None and _at_no_corner(hook, step.target):
        hook.left_rest = True  # the corner of an edge, whose places are not those of the row before
    elif step.target is not None:
        _join_at(hook, step, step.target)
        hook.stands = "joined"
    if step.stitch is not None:
        stand_here(hook, step)
        make(hook.made, (step.stitch,), 1)
        hook.began = True
        hook.generic = hook.generic or not hook.named


def _all_alike(hook: Hook) -> bool:
    """Whether it does not matter where yarn is joined; at an underarm it is in its chain."""
    place = hook.cursor.peek()
    at_chain = place is not None and place.sort == "ch"
    return at_chain or len(tally(hook.cursor.rest())) == 1


def _at_no_corner(hook: Hook, target: object) -> bool:
    """``join yarn in any corner``, and the row before has no space at all."""
    names = target.names if isinstance(target, Next | First) else ()
    corner = names == (Space(None, corner=True),)
    return corner and not hook.cursor.remaining(match_of((Space(None),)))


def _join_at(hook: Hook, step: JoinYarn, target: object) -> None:
    match target:
        case Next(names=names, count=amount) | First(names=names, count=amount):
            _go_to(hook, names, hook.context.amount(amount) or 1, step)
        case Last(names=names):
            _go_to(hook, names, hook.cursor.remaining(match_of(names)), step)
        case Same() | ChainOfTurning():
            hook.to_joined_place()
        case Described() if not hook.closed or _all_alike(hook):
            pass  # of stitches that are all alike it does not matter which is the first
        case Described():
            raise Fault(
                "row-not-understood",
                step.start,
                step.end,
                "which place the yarn is joined in cannot be told from the row before, whose "
                "stitches are not all alike",
                mend="Name the stitch or space, such as “in any ch-2 sp”, “in 3rd sc of next "
                "3-sc group”.",
            )
        case Inside(name=Space()) | Inside(container=Next() | First()):
            _go_to(hook, _found_as(hook, target), 1, step)
        case _:
            raise Fault(
                "row-not-understood",
                step.start,
                step.end,
                "where the yarn is joined is not understood",
                mend="Write “join yarn with sl st in first st” or “in any ch-2 sp”.",
            )
