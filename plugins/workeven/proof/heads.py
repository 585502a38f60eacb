"""The head of a row: turning and beginning chains, skipped chains, new yarn.

Takes     a ``Hook`` and the steps that a row begins with.
Gives     ``lead_chain``, ``from_hook``, ``join_yarn``, ``is_bridge``.
Problems  ``row-uneven``, ``row-skipped-chains``, ``row-not-understood``.
From      notation.md, "Chains at the start", "Where the hook stands", "Chains worked back along".
"""

from __future__ import annotations

from workeven.notation.tree import (
    ONE,
    Amount,
    Aside,
    Chain,
    ChainOfTurning,
    CountsAs,
    Described,
    Each,
    First,
    FromHook,
    Inside,
    JoinRound,
    JoinYarn,
    Last,
    Next,
    OneChain,
    PlaceName,
    Repeat,
    RowSides,
    Same,
    Space,
    Step,
    Stitch,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.changes import base_of
from workeven.proof.context import Fault, SizeContext, chain_counts
from workeven.proof.fabric import (
    CHAIN,
    Fabric,
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
    works,
)
from workeven.proof.hook import Hook
from workeven.proof.making import make, stand_for
from workeven.proof.naming import many, match_of, ordinal
from workeven.proof.taking import (
    stand_here,
)
from workeven.proof.travel import found_as, go_to, how_many_on
from workeven.proof.unsaid_chains import joined_to, passed_by_the_join, stands_for

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
    elif (name := stands_for(count, base, rest)) and chain_counts(hook.context, name) is not False:
        _stand_over(hook, count, CountsAs(((ONE, name),)), name)
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


# --- new yarn ----------------------------------------------------------------------------


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
            go_to(hook, names, hook.context.amount(amount) or 1, step)
        case Last(names=names):
            go_to(hook, names, hook.cursor.remaining(match_of(names)), step)
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
            go_to(hook, found_as(hook, target), how_many_on(hook, target), step)
        case _:
            raise Fault(
                "row-not-understood",
                step.start,
                step.end,
                "where the yarn is joined is not understood",
                mend="Write “join yarn with sl st in first st” or “in any ch-2 sp”.",
            )
