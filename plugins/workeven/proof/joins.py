"""Joins, turns, skips and the other side of a chain: what takes places and makes nothing.

Takes     a ``Hook`` and a step.
Gives     ``join_round``, ``turn``, ``skip``, ``other_side``.
Problems  ``row-no-such-place``, ``row-not-understood``.
From      notation.md, the table of steps, "Joined and turned", "Below and before".
"""

from __future__ import annotations

from workeven.notation.tree import (
    ONE,
    ChainOfTurning,
    Each,
    First,
    Inside,
    JoinRound,
    Last,
    NamedStitch,
    Next,
    OneChain,
    PlaceName,
    Same,
    Skip,
    Space,
    Turn,
    TurningChain,
    Unplaced,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import Fault
from workeven.proof.each import room
from workeven.proof.fabric import CHAIN, Loop, Node, Run, reversed_nodes
from workeven.proof.facts import each_behind, once_in_last, several_in_first
from workeven.proof.hook import BROUGHT, Hook
from workeven.proof.inner_places import mark_of
from workeven.proof.ledger import apart, one_by_one
from workeven.proof.naming import ANY, are, many, match_of, spoken
from workeven.proof.parts import targets_of
from workeven.proof.taking import is_over, pass_by


def join_round(hook: Hook, step: JoinRound) -> None:
    """``join with sl st to first sc``: ends the round."""
    hook.joined = True
    hook.made.work("sl st", 1)
    if hook.began and not hook.recover:
        check_joined_place(step, hook.lead_chains, hook.made.makes, hook.made.groups)
    if step.ring:
        hook.made_ring = True
        hook.ring = True


def check_joined_place(
    step: JoinRound, lead: int | None, makes: dict[str, int], groups: dict[str, int]
) -> None:
    """The place that a round is joined to must be there: its first stitch, its chain."""
    match step.target:
        case ChainOfTurning(chain=TurningChain(chains=int(chains))) if lead != chains:
            found = "no chain" if lead is None else f"ch {lead}"
            raise Fault(
                "row-no-such-place",
                step.start,
                step.end,
                f"it is joined to a beg ch-{chains} and begins with {found}",
                mend="Name the chain or the stitch that the round begins with.",
            )
        case First(names=(NamedStitch(name=name),)) | Next(names=(NamedStitch(name=name),)):
            if not _is_made(name, makes) and name not in groups:
                raise Fault(
                    "row-no-such-place",
                    step.start,
                    step.end,
                    f"it is joined to a {name} and makes none",
                    mend="Name a stitch that the round makes.",
                )
        case _:
            return


def _is_made(name: str, makes: dict[str, int]) -> bool:
    return name in makes or any(kind_of(one).base == name for one in makes)


def turn(hook: Hook, step: Turn) -> None:
    """``turn``, ``do not turn``; at the head of a row it turns what was not turned before.

    "Ch 1, turn, sc in each st around" has its turn at its head too.
    """
    if (not hook.began or _is_behind_first_chain(hook)) and step.turned and hook.depth == 0:
        if hook.below is not None and not hook.below.turned:
            hook.cursor = hook.cursor.along(reversed_nodes(hook.cursor.rest()))
            if hook.closed and not hook.ring and not hook.made.out.nodes:
                nodes, joined = reversed_nodes(hook.below.nodes), hook.how != "spiral rounds"
                hook.below = hook.below._replace(nodes=nodes, turned=True, join_last=joined)
        return
    hook.turned = step.turned


def _is_behind_first_chain(hook: Hook) -> bool:
    """Whether a round has made nothing but the chain that it begins with."""
    nodes = hook.made.out.nodes
    alone = not nodes or (len(nodes) == 1 and isinstance(nodes[0], Run) and nodes[0].place.turning)
    return hook.closed and hook.chains_made > 0 and alone


def skip(hook: Hook, step: Skip, behind: tuple[PlaceName, ...] = (), round_posts: int = 0) -> None:
    """``sk 2 sts``, ``sk next ch-1 sp``; ``behind``: the stitches that were just skipped.

    ``round_posts``: of how many stitches the step before this one has worked round the posts.
    """
    if not (step.behind and round_posts and _names_again(hook, step, round_posts)):
        _skip_there(hook, step, behind)


def _skip_there(hook: Hook, step: Skip, behind: tuple[PlaceName, ...]) -> None:
    number = hook.context.amount
    _check_counted(step)
    if behind:
        _check_none_between(hook, step, behind)
    match step.target:
        case Unplaced(count=amount):
            _skip(hook, step, number(amount))
        case Next(names=names, count=amount) | Last(names=names, count=amount):
            _skip_next(hook, step, names, number(amount))
        case First(names=names, count=amount):
            count = number(amount)
            if count:
                pass_by(hook, names, count - 1 if is_over(hook, names) else count, step)
        case Each(names=names, limit=None):
            pass_by(hook, names, hook.cursor.remaining(match_of(names)), step)
        case Each(names=names) as target:
            pass_by(hook, names, room(hook, target, (), step), step)
        case Same() | ChainOfTurning():
            if hook.stands in BROUGHT:
                hook.pass_here()
                hook.stands = "taken"
        case Inside() as target:
            count = places_inside(hook, target)
            if count:
                pass_by(hook, (mark_of(target),), count, step)
        case _:
            raise Fault(
                "row-not-understood", step.start, step.end, "what is skipped is not understood"
            )


def _names_again(hook: Hook, step: Skip, round_posts: int) -> bool:
    """``fpdc around next dc, sk dc behind it``: the dc that it goes round is named once more.

    That another one is skipped is the second reading.
    """
    target = step.target
    amount = target.count if isinstance(target, Next | Unplaced) else None
    if amount is None or hook.context.amount(amount) != round_posts:
        return False
    point = ("behind", step.start)
    ways = ("the skip is of the st that it goes round", "another st is skipped")
    hook.points.setdefault(point, ways)
    return not hook.choices.get(point, 0)


def _skip_next(hook: Hook, step: Skip, names: tuple[PlaceName, ...], count: int | None) -> None:
    """``sk 2 dc``; ``sk 2 ch`` in front of a ch-2 sp, where spaces are named also, passes it."""
    if not count:
        return
    ahead = hook.cursor.peek() if isinstance(names[0], OneChain) else None
    if ahead is not None and ahead.sort == "sp" and ahead.chains == count:
        pass_by(hook, (Space(count),), 1, step)
        return
    _check_no_space_within(hook, step, names, count)
    pass_by(hook, names, count, step)
    if count > 1 and all(isinstance(one, NamedStitch) for one in names):
        hook.skipped = names


def _check_none_between(hook: Hook, step: Skip, behind: tuple[PlaceName, ...]) -> None:
    """``sk 8 dc and ch-1 sp``, where 10 dc lie before that space: its words count them wrong."""
    names = step.target.names if isinstance(step.target, Next) else ()
    ahead, same = hook.cursor.peek(), match_of(behind)
    if ahead is None or not same(ahead) or hook.recover or hook.lenient:
        return
    more = hook.cursor.before(match_of(names), same) if names else None
    if more is None or not isinstance(names[0], Space):
        return
    raise Fault(
        "row-uneven",
        step.start,
        step.end,
        f"{many(more, spoken(behind))} more {are(more)} before the {spoken(names)} that is skipped",
        mend="Skip as many as lie before it.",
    )


def _check_no_space_within(
    hook: Hook, step: Skip, names: tuple[PlaceName, ...], count: int
) -> None:
    """``(sk 2 dc, 3 dc in ch-2 sp) across``: no such space lies between two that are skipped."""
    plain = isinstance(step.target, Next) and all(isinstance(one, NamedStitch) for one in names)
    if not (plain and count > 1 and hook.facts.asks.space) or hook.recover or hook.lenient:
        return
    spaces = tuple(
        name
        for target in targets_of(hook.facts.steps)
        if isinstance(target, Next) and target.count is ONE
        for name in target.names
        if isinstance(name, Space) and name.chains is not None
    )
    if not spaces:
        return
    ahead = hook.cursor.before(match_of(spaces), match_of(names))
    if ahead is not None and 0 < ahead < count:
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"a {spoken(spaces)}, which the row works into, lies among the "
            f"{many(count, spoken(names))} that are skipped: {ahead} {are(ahead)} before it",
            needed=count,
            left=ahead,
        )


def _check_counted(step: Skip) -> None:
    """``sk 3 ch (counts as dc)`` is said of a first row: there it is no skip any more."""
    if step.counts_as is not None:
        raise Fault(
            "row-not-understood",
            step.counts_as.start,
            step.counts_as.end,
            "what is skipped counts as a stitch only where the first row is worked into its chain",
            mend="Write the chain that counts: “ch 3 (counts as dc)”, “dc in 4th ch from hook”.",
        )


def places_inside(hook: Hook, target: Inside) -> int:
    """How many places within others are meant ("first dc of each of next 5 shells")."""
    number, container = hook.context.amount, target.container
    count = number(target.count) or 0
    return count * (number(container.count) or 0) if isinstance(container, Next) else count


def _skip(hook: Hook, step: Skip, count: int | None) -> None:
    if count:
        pass_by(hook, ANY, count, step)


def other_side(hook: Hook) -> None:
    """The chains once more, from the end back to the first that was worked into.

    The chain at the end has its other side too: where several stitches stand in it they go round
    to there, where it has one stitch it can be worked into again.
    """
    more = hook.first_side - 1
    if more < 1:
        return
    again: tuple[Node, ...] = (Run(CHAIN, more - 1),) if more > 1 else ()
    first: tuple[Node, ...] = (Run(CHAIN, 1),)
    end: tuple[Node, ...] = (Run(CHAIN, 1),) if once_in_last(hook.facts.steps) else ()
    ledger = hook.cursor.ledger
    if ledger is not None and ledger.trail is not None and hook.below is not None:
        there = len(one_by_one(hook.below.nodes))
        again, first = apart(again, there), apart(first, there + more - 1)
        end = apart(end, there + more)
    behind: tuple[Node, ...] = (Loop(first, 1, optional=True),)
    if each_behind(hook.facts.steps) and several_in_first(hook.facts.steps):
        behind = ()  # "5 dc in 4th ch from hook, …; dc in each ch across": they go round to there
    before = (Loop(end, 1, optional=True),) if end else ()
    hook.cursor = hook.cursor.along((*hook.cursor.rest(), *before, *again, *behind))
