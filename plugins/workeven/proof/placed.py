"""Where each stitch of a row stands: the places below that it is worked into, one by one.

Takes     a line, the fabric below it, a size.
Gives     ``placed_row``: a ``PlacedRow``, or None where that is not plain.
Problems  none: of a row that cannot be told place by place nothing is told.
From      notation.md, the table of steps, columns "takes up" and "makes".

The row is walked once more, over places that bear a number each, with a ``Trail`` in which the walk
writes down what every step takes and makes. So nothing is read from words that the count has not
read. What is told is then held against what the walk counts as worked, kind by kind: where the two
differ, nothing is told.

Worked example: ``sc in next st, sk 2 sts, 3 dc in next st`` over 4 sc: an sc over place 0, then
three dc over place 3.
"""

from __future__ import annotations

from collections import Counter
from typing import Literal, NamedTuple

from workeven.arithmetic.shaping import evenly
from workeven.notation.tree import (
    Aside,
    Chain,
    ChainOfTurning,
    Content,
    Decrease,
    Each,
    Evenly,
    FastenOff,
    First,
    Formed,
    FromHook,
    Increase,
    Inside,
    IntoRing,
    JoinRound,
    JoinYarn,
    Last,
    LeaveRest,
    MagicRing,
    Next,
    OtherSide,
    Picot,
    PlaceName,
    Same,
    Skip,
    StatedHere,
    Stitch,
    Times,
    Travel,
    Turn,
    Work,
    WorkedRow,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.between_stitches import goes_between_stitches
from workeven.proof.context import Fault, SizeContext
from workeven.proof.fabric import CHAIN, PICOT, Fabric, Place, Run
from workeven.proof.facts import Facts, facts_of, goes_from_hook, once_in_last
from workeven.proof.hook import Hook
from workeven.proof.ledger import Entered, Ledger, Trail, Worked, apart, number_of, one_by_one
from workeven.proof.line import Line
from workeven.proof.made import is_slip_stitch
from workeven.proof.naming import MIDWAY
from workeven.proof.own_stitches import HAS_SYMBOL, MOST_LEGS, Closed, drawn_as
from workeven.proof.walk import walk_row

#: a long sc, which always stands rows below
SPIKE = "spike"
#: what moves the start of a row and stands in none
MOVES = ("travel", "new yarn")
#: a cluster has more than one leg
_FEWEST_LEGS = 2


class Reach(NamedTuple):
    """How many ``rows`` below the row that is worked into a stitch stands, and in what.

    1 would be the row that is worked into. ``post``: around it.
    """

    rows: int
    names: tuple[PlaceName, ...]
    post: bool


class Placed(NamedTuple):
    """A stitch, chains side by side, a slip stitch that joins a round or travels, or new yarn.

    ``name`` is its US name; ``chains`` how many they are. ``feet`` are the places below, by their
    number from where the row begins; () where it stands in the ring or on nothing. ``top`` is the
    number of the place that it leaves, None where it leaves none. A ``picot`` stands on what is
    before it. A ``chain`` is one that counts as a stitch. ``earlier``: it was worked with the
    starting chain. ``leg``: the chain is the first leg of the stitch behind it. ``between``: its
    two feet are the places beside the gap that it stands in. ``reach``: it stands rows below, and
    its feet are what it covers of the row that is worked into; ``anchor`` is then the place that it
    stands in, by its number from where the row worked into that place begins (``reaching_down``).
    ``at``: the column of its words in the row.
    """

    what: Literal[
        "stitch",
        "space",
        "chain",
        "turning chain",
        "skipped chain",
        "join",
        "travel",
        "new yarn",
        "picot",
    ]
    name: str
    chains: int = 1
    feet: tuple[int, ...] = ()
    top: int | None = None
    loop: str = "both"
    closed: Closed | None = None
    earlier: bool = False
    leg: bool = False
    between: bool = False
    reach: Reach | None = None
    anchor: int | None = None
    at: int = 0


class PlacedRow(NamedTuple):
    """A row place by place; ``leaves``: the names of its places, as they were made; ``left``: they.

    ``chains``: of the starting chain, where it is made at the head of the same row. ``again``: how
    many of the places below are chains of it from their other side, the last of them first.
    """

    stitches: tuple[Placed, ...]
    below: tuple[str, ...]
    leaves: tuple[str, ...]
    ring: bool
    chains: int = 0
    left: tuple[Place, ...] = ()
    again: int = 0


class _UntoldError(Exception):
    """This row is not told place by place."""


def placed_row(
    line: Line, below: Fabric | None, context: SizeContext, how: str
) -> PlacedRow | None:
    """The row place by place; a row upon an earlier one is none: the row below it is another."""
    body = line.row.body
    if isinstance(body, WorkedRow) and body.onto is not None:
        return None
    facts, chains = line.facts, 0
    if below is None and (begun := _begun(line, context, how)) is not None:
        facts, below = begun
        chains = below.sts
    numbered = below if below is None else below._replace(nodes=apart(below.nodes, 0))
    hook = Hook(
        facts,
        numbered,
        context,
        worked=how,
        choices=line.choices,
        ledger=Ledger(trail=Trail()),
    )
    try:
        walk_row(hook)
        stitches = _all_placed(hook)
    except (Fault, _UntoldError):
        return None
    left = one_by_one(tuple(hook.made.out.nodes))
    if _worked(stitches) != {name: count for name, count in hook.made.worked.items() if count}:
        return None
    if sum(one.top is not None for one in stitches) != len(left):
        return None
    leaves = tuple(place.name for place in left)
    names = () if below is None or hook.ring else tuple(p.name for p in one_by_one(below.nodes))
    again = _other_side(facts, hook)
    names = (*names, *[CHAIN.name] * again)
    if any(foot >= len(names) for one in stitches for foot in one.feet):
        return None
    return PlacedRow(stitches, names, leaves, hook.ring, chains, left, again)


def _other_side(facts: Facts, hook: Hook) -> int:
    """How many chains are worked into once more, from their other side: an oval's."""
    sides = sum(isinstance(step, OtherSide) for step in facts.steps)
    if sides != 1 or hook.edge is not None or hook.ring or once_in_last(facts.steps):
        return 0
    return hook.first_side - 1


def _begun(line: Line, context: SizeContext, how: str) -> tuple[Facts, Fabric] | None:
    """``ch 4, 15 dc in 4th ch from hook``: the starting chain, and what the row works behind it."""
    match line.facts.written:
        case (Chain(count=amount, counts_as=None), *rest) if goes_from_hook(tuple(rest)):
            count = context.amount(amount)
        case _:
            return None
    if not count:
        return None
    closed = how != "flat rows"
    chain = Fabric((Run(CHAIN, count),), closed=closed, foundation=True, turned=True)
    return facts_of(tuple(rest)), chain


def _number(place: Place) -> int:
    """The number of a place; one that the walk has put there itself has none."""
    number = number_of(place)
    if number is None:
        raise _UntoldError
    return number


def _worked(stitches: tuple[Placed, ...]) -> dict[str, int]:
    found: Counter[str] = Counter()
    for one in stitches:
        if not one.earlier:
            for name, number in worked_for(one):
                found[name] += number
    return dict(found)


def worked_for(one: Placed) -> tuple[tuple[str, int], ...]:
    """What the yarn goes into for it: of a picot its chains and the slip stitch.

    >>> worked_for(Placed("picot", "picot", 3))
    (('ch', 3), ('sl st', 1))
    """
    if one.what == "new yarn":
        return ()
    if one.what == "picot":
        return ("ch", one.chains), ("sl st", 1)
    return ((one.name, one.chains),)


# --- step by step --------------------------------------------------------------------------


def _all_placed(hook: Hook) -> tuple[Placed, ...]:
    ledger = hook.cursor.ledger
    if ledger is None or ledger.trail is None:
        raise _UntoldError
    found: list[Placed] = []
    tops = 0
    steps = ledger.trail.steps
    for at, (one, behind) in enumerate(zip(steps, (*steps[1:], None), strict=True)):
        change = behind.step if behind is not None and not behind.made else None
        for stitch in _placed(hook, one, found, change if isinstance(change, Evenly) else None):
            top = None if stitch.top is None else tops
            found.append(stitch._replace(top=top, at=one.step.start))
            tops += stitch.top is not None
        _cover(hook, one, steps[at - 1] if at else None, found)
    if any(_covers_nothing(one) for one in found):
        raise _UntoldError
    _check_moves(hook, found)
    if hook.closed and goes_between_stitches(hook):
        raise _UntoldError  # the stitches would stand on those that they stand between
    if hook.closed and _turns_at_head(steps):
        raise _UntoldError  # the round is worked back: a chart would have it go on
    return tuple(found)


def _turns_at_head(steps: tuple[Worked, ...]) -> bool:
    """Whether it is turned behind no more than the chain that it begins with."""
    turns = [at for at, one in enumerate(steps) if isinstance(one.step, Turn) and one.step.turned]
    head = steps[: turns[0]] if turns else ()
    return bool(turns) and all(isinstance(one.step, Chain | Aside) for one in head)


def _covers_nothing(one: Placed) -> bool:
    return one.reach is not None and not one.feet


def _cover(hook: Hook, told: Worked, before: Worked | None, found: list[Placed]) -> None:
    """``fpdc around next st 2 rows below, sk next st``: what is skipped lies behind the fpdc.

    Without such a skip, or with another number, it is not told what lies there.
    """
    pending = [at for at, one in enumerate(found) if _covers_nothing(one)]
    if not pending or not isinstance(told.step, Skip):
        if pending and pending[-1] != len(found) - 1:
            raise _UntoldError
        return
    there = one_by_one(hook.below.nodes) if hook.below is not None else ()
    if before is None or before.at is None:
        raise _UntoldError
    first = _number(before.at)
    last = len(there) if told.at is None else _number(told.at)
    if last - first != len(pending):
        raise _UntoldError
    for at, place in zip(pending, range(first, last), strict=True):
        found[at] = found[at]._replace(feet=(place,))


def _check_moves(hook: Hook, found: list[Placed]) -> None:
    """A round that travel begins on a stitch: of which one, its count need not know (_travel)."""
    moves = [one.feet[0] for one in found if one.what == "travel"]
    below = hook.below
    if moves and below is not None and below.closed:
        place = one_by_one(below.nodes)[moves[-1]]
        first = next((one.feet[0] for one in found if one.what not in MOVES and one.feet), -1)
        if place.sort != "sp" and (moves[0] > 0 or first < moves[-1]):
            raise _UntoldError


def _placed(hook: Hook, told: Worked, before: list[Placed], change: Evenly | None) -> list[Placed]:
    """The stitches of one step; each that leaves a place bears top 0 at first.

    ``change``: "dec 12 sts evenly" stands behind the step.
    """
    if change is not None or isinstance(told.step, Evenly):
        return _evenly(hook, told, change)
    match told.step:
        case Aside() | Turn() | StatedHere() | MagicRing() | FastenOff() | Skip() | Formed():
            return _nothing(told)
        case LeaveRest() | OtherSide():
            return _nothing(told)
        case JoinRound():
            return [Placed("join", "sl st")]
        case Travel(target=First() | ChainOfTurning()) if _began(before):
            return [Placed("join", "sl st")]
        case Travel(target=Next() | First() | Inside()):
            return _travel(hook, told, 1, before)
        case JoinYarn() as step if not _began(before):
            return _new_yarn(hook, step, told)
        case Chain() as step:
            return _chains(hook, step, told, began=_began(before))
        case Picot() as step:
            return _picot(hook, step, told, before)
        case Work() as step:
            return _work(hook, step, told, before)
        case Increase() | Decrease():
            return _stitches(told.made, _feet(hook, told), _In())
        case _:
            raise _UntoldError


def _began(before: list[Placed]) -> bool:
    """Whether anything stands in the row: slip stitches that travel do not."""
    return any(one.what not in MOVES for one in before)


def _nothing(told: Worked) -> list[Placed]:
    if told.into or told.made:
        raise _UntoldError
    return []


#: what one stitch stands on: a place, or the two beside a gap
_Foot = tuple[int, ...]


def _feet(hook: Hook, told: Worked) -> tuple[_Foot, ...]:
    return tuple(_foot(hook, one) for one in told.into)


def _foot(hook: Hook, one: Entered) -> _Foot:
    """A place by its number; of a gap those beside it, in a round that of the seam too."""
    if one.place.sort != "gap" or any(mark.startswith(MIDWAY) for mark in one.place.marks):
        return (_number(one.place),)
    assert hook.below is not None
    there = len(one_by_one(hook.below.nodes))
    before, behind = _if_there(one.before), _if_there(one.behind)
    before = behind - 1 if before is None and behind is not None else before
    behind = before + 1 if behind is None and before is not None else behind
    if before is None or behind is None or (behind - before - 1) % there:
        raise _UntoldError
    if not hook.below.closed and not 0 <= before < behind < there:
        raise _UntoldError
    return before % there, behind % there


def _if_there(place: Place | None) -> int | None:
    return None if place is None else _number(place)


def _standing(feet: tuple[_Foot, ...]) -> tuple[_Foot, bool]:
    """The feet of one stitch, and whether they are the sides of a gap."""
    if len(feet) == 1:
        return feet[0], len(feet[0]) > 1
    if any(len(foot) > 1 for foot in feet):
        raise _UntoldError
    return tuple(foot[0] for foot in feet), False


def _chains(hook: Hook, step: Chain, told: Worked, *, began: bool) -> list[Placed]:
    count, said = hook.context.amount(step.count) or 0, step.counts_as
    leg = said is not None and said.leg is not None
    match told.made:
        case () if not began and not told.into:
            return [Placed("turning chain", "ch", count, leg=leg)] if count else []
        case (Place(turning=True),) if not began:
            return [_turning(hook, told, count)]
        case (Place(turning=True), Place(sort="sp", chains=chains)) if not began:
            beside = Placed("space", "ch", chains, (), 0)
            return [_turning(hook, told, count - chains), beside]
        case (Place(sort="sp", chains=chains),) if not told.into and chains == count:
            return [Placed("space", "ch", count, (), 0)]
        case (Place(name="ch", turning=False), *others) if len(others) + 1 == count:
            return [Placed("chain", "ch", 1, (), 0)] * count
        case _:
            raise _UntoldError


def _turning(hook: Hook, told: Worked, chains: int) -> Placed:
    feet, between = _standing(_feet(hook, told))
    return Placed("turning chain", "ch", chains, feet, 0, between=between)


# --- slip stitches that travel, picots -----------------------------------------------------


def _travel(hook: Hook, told: Worked, count: int, before: list[Placed]) -> list[Placed]:
    """Slip stitches up to the place that the hook then stands at: one a stitch, all in a space.

    The round before was joined to its first stitch, so that the next one is the one behind it. A
    count, for which all are alike, may take the first: then they must lead on to a space.
    """
    if told.into or told.made or told.at is None or hook.below is None:
        raise _UntoldError
    last, there = _number(told.at), one_by_one(hook.below.nodes)
    if told.at.sort == "sp":
        if before and before[-1].feet[0] >= last:
            raise _UntoldError
        return [Placed("travel", "sl st", 1, (last,))] * count
    moved, step = range(last + 1 - count, last + 1), told.step
    joined = hook.below.closed and not hook.below.join_last and last + 1 == count
    if joined and not (isinstance(step, Work | Travel) and isinstance(step.target, First)):
        moved = range(1, count + 1)
    places = there[moved.start : moved.stop]
    if len({place.name for place in places}) > 1 or not 0 < len(places) == count:
        raise _UntoldError
    return [Placed("travel", "sl st", 1, (at,)) for at in moved]


def _new_yarn(hook: Hook, step: JoinYarn, told: Worked) -> list[Placed]:
    """Yarn that is joined with a slip stitch, or with a stitch that stands there then."""
    if step.edge or (told.at is None and not told.into):
        raise _UntoldError
    if step.stitch is None:
        assert told.at is not None
        return (
            [] if told.made or told.into else [Placed("new yarn", "join", 0, (_number(told.at),))]
        )
    feet = _feet(hook, told)
    on, between = _standing(feet)
    joined = Placed("new yarn", "join", 0, on, between=between)
    return [joined, *_stitches(told.made, feet, _In())]


def _picot(hook: Hook, step: Picot, told: Worked, before: list[Placed]) -> list[Placed]:
    if told.into or told.made or not _began(before) or before[-1].what not in ("stitch", "picot"):
        raise _UntoldError
    return [_a_picot(hook.context.amount(step.chains) or 0)]


def _a_picot(chains: int) -> Placed:
    if not 1 < chains <= MOST_LEGS:
        raise _UntoldError
    return Placed("picot", "picot", chains)


def _picots_in(content: tuple[Content, ...], context: SizeContext, found: list[int]) -> list[int]:
    """How many chains each picot has that stands in this content."""
    for part in content:
        match part:
            case Picot(chains=amount):
                found.append(context.amount(amount) or 0)
            case Stitch(name=name):
                special = context.special.get(name)
                if special is not None:
                    steps = tuple(one for one in special.steps if isinstance(one, Picot))
                    _picots_in((*special.content, *steps), context, found)
            case Times(content=inner):
                _picots_in(inner, context, found)
            case _:
                pass
    return found


# --- stitches ------------------------------------------------------------------------------


class _In(NamedTuple):
    """What is known of the stitches of a step: its loop, what is closed to one, its picots.

    ``context`` has the stitches of the pattern's own, for those that stand among others.
    """

    loop: str = "both"
    named: str = ""
    closed: Closed | None = None
    picot: int | None = None
    context: SizeContext | None = None


def _work(hook: Hook, step: Work, told: Worked, before: list[Placed]) -> list[Placed]:
    if step.does_not_count:
        raise _UntoldError
    if not told.made and not told.into and is_slip_stitch(step):
        if _began(before):
            return [Placed("join", "sl st")]
        target = step.target
        count = target.count if isinstance(target, Next | First | Inside) else None
        number = 0 if count is None else hook.context.amount(count) or 0
        return _travel(hook, told, number, before)
    made, feet = told.made, _feet(hook, told)
    if step.rows_below:
        return _rows_below(hook, step, made, feet, before)
    lead: list[Placed] = []
    if isinstance(step.target, FromHook):
        lead = _skipped(hook, step.target, made)
        made = made[sum(one.top is not None for one in lead) :]
    if not feet:
        feet = _where_it_stands(hook, step, before)
    known = _known(hook, step)
    if before and before[-1].leg:
        known = _without_first_leg(known, made)
    return [*lead, *_stitches(made, feet, known)]


def _rows_below(
    hook: Hook,
    step: Work,
    made: tuple[Place, ...],
    feet: tuple[_Foot, ...],
    before: list[Placed],
) -> list[Placed]:
    """Stitches that stand rows below: each over the place that it covers, once that is known.

    "In the row below" may be meant of the row that is worked into, so that is not told; nor what is
    covered where places were passed in silence on the way there.
    """
    named, target = _known(hook, step).named, step.target
    kind = kind_of(named)
    alone = kind.legs == 1 and (named == SPIKE or HAS_SYMBOL.match(named))
    if step.rows_below == 1 or not isinstance(target, Next | First | Last) or not alone:
        raise _UntoldError
    if any(place.name != named or place.turning for place in made) or not made:
        raise _UntoldError
    if step.loop != "both" or len(feet) not in (0, len(made)):
        raise _UntoldError
    reach = Reach(step.rows_below, target.names, kind.post is not None)
    found = Placed("stitch", named, top=0, reach=reach)
    last = next((one.feet[-1] for one in reversed(before) if one.feet), -1)
    if feet and feet != tuple((last + 1 + at,) for at in range(len(feet))):
        raise _UntoldError
    return [found._replace(feet=foot) for foot in feet or [()] * len(made)]


def _without_first_leg(known: _In, made: tuple[Place, ...]) -> _In:
    """``ch 3 (counts as first leg of dc4tog), dc3tog in same st``: the chain stands beside it."""
    kind = kind_of(known.named)
    whole = known.closed or Closed("cluster", kind.base, kind.legs)
    if len(made) != 1 or whole.lead or whole.style != "cluster" or whole.legs < _FEWEST_LEGS:
        raise _UntoldError
    return known._replace(closed=whole._replace(legs=whole.legs - 1))


def _skipped(hook: Hook, target: FromHook, made: tuple[Place, ...]) -> list[Placed]:
    """The chains skipped at the start: a turning chain, and what counts as a space beside it.

    What is left of them then lies below that space.
    """
    number = (hook.context.amount(target.nth) or 1) - 1
    if not (made and made[0].turning):
        return [Placed("skipped chain", "ch", number, (number - 1,), None, earlier=True)]
    if len(made) == 1 or made[1].sort != "sp":
        return [Placed("skipped chain", "ch", number, (number - 1,), 0, earlier=True)]
    high, along = HEIGHTS.get(made[0].base, number + 1), made[1].chains
    if high + along > number:
        raise _UntoldError
    return [
        Placed("skipped chain", "ch", high, (high + along - 1,), 0, earlier=True),
        Placed("space", "ch", along, (), 0, earlier=True),
    ]


def _where_it_stands(hook: Hook, step: Work, before: list[Placed]) -> tuple[_Foot, ...]:
    """The place of a step that takes none: the ring, or that of the stitch before it."""
    match step.target:
        case Same(first=True) if any(step is one for one in hook.facts.steps):
            return (_of_first_stitch(before),)
        case IntoRing():
            return ()
        case Same(began=True) | First():
            return (_where_it_began(before),)
        case Same(made=False):
            pass
        case Next(bare=True) if before and before[-1].what == "turning chain":
            pass  # "sl st to next ch-2 sp, ch 3, 2 dc in sp": in the space below that chain
        case _:
            raise _UntoldError
    stands = before[-1] if before else None
    if stands is not None and stands.what == "space" and not stands.feet and len(before) > 1:
        stands = before[-2] if before[-2].what == "turning chain" else None  # "ch 5 (dc and ch 2)"
    if stands is None or (len(stands.feet) != 1 and not stands.between):
        raise _UntoldError
    return (stands.feet,)


def _of_first_stitch(before: list[Placed]) -> _Foot:
    """``same ch as first sc``, in no repeat: that of the row."""
    first = next((one for one in before if one.what == "stitch"), None)
    if first is None or len(first.feet) != 1:
        raise _UntoldError
    return first.feet


def _where_it_began(before: list[Placed]) -> _Foot:
    """The place of the first stitch, where that is its chain or the one behind it."""
    moves = [one for one in before if one.what in MOVES]
    first = next((one for one in before[len(moves) :][:2] if one.feet), None)
    if first is None or (moves and first.feet != moves[-1].feet):
        raise _UntoldError
    if len(first.feet) != 1 and not first.between:
        raise _UntoldError
    return first.feet


def _known(hook: Hook, step: Work) -> _In:
    """What the words of a step say of each stitch that it makes."""
    only = step.content[0]
    name = only.name if len(step.content) == 1 and isinstance(only, Stitch) else ""
    picots = set(_picots_in(step.content, hook.context, []))
    if len(picots) > 1:
        raise _UntoldError
    return _In(
        step.loop,
        name,
        drawn_as(hook.context, name) if name else None,
        picots.pop() if picots else None,
        hook.context,
    )


def _stitches(made: tuple[Place, ...], feet: tuple[_Foot, ...], known: _In) -> list[Placed]:
    """What was made over these places: in equal shares, or so many together."""
    if not made:
        raise _UntoldError
    shares = [feet] * len(made)
    if feet and len(made) % len(feet) == 0:
        each = len(made) // len(feet)
        shares = [(feet[at // each],) for at in range(len(made))]
    elif feet and len(feet) % len(made) == 0:
        legs = len(feet) // len(made)
        shares = [feet[at * legs : (at + 1) * legs] for at in range(len(made))]
    elif feet:
        raise _UntoldError
    return _over(made, shares, known)


def _evenly(hook: Hook, told: Worked, change: Evenly | None) -> list[Placed]:
    match told.step:
        case Evenly() as alone if told.made:
            return _spread(hook, told, alone, _In())
        case Evenly():
            return _nothing(told)  # the step before it has made them
        case Work(target=Each(), content=(Stitch(),)) as step if change is not None:
            return _spread(hook, told, change, _known(hook, step))
        case _:
            raise _UntoldError


def _spread(hook: Hook, told: Worked, change: Evenly, known: _In) -> list[Placed]:
    """``sc around, inc 6 sts evenly``: over one place each but where the changes are."""
    made, feet = told.made, _feet(hook, told)
    changed = abs(len(made) - len(feet))
    if change.ends > 1 or change.at_markers or not changed or not feet:
        raise _UntoldError
    try:
        spacing = evenly(len(feet), changed, change.change, flat=hook.how == "flat rows")
    except ValueError:
        raise _UntoldError from None
    first, last = spacing.edges
    takes: list[int] = []
    for length in ((first,) if first else ()) + spacing.intervals:
        takes += [1] * (length - 1) + [0, 1] if change.change == "inc" else [1] * (length - 2) + [2]
    takes += [1] * last
    if len(takes) != len(made) or sum(takes) != len(feet):
        raise _UntoldError
    shares: list[tuple[_Foot, ...]] = []
    at = 0
    for number in takes:  # of two in one place the first takes none: it stands where the next does
        shares.append(feet[at : at + max(number, 1)])
        at += number
    return _over(made, shares, known)


def _over(made: tuple[Place, ...], shares: list[tuple[_Foot, ...]], known: _In) -> list[Placed]:
    """Each of them over its own."""
    found: list[Placed] = []
    for place, share in zip(made, shares, strict=True):
        found.append(_stitch(place, share, known))
        found += [_a_picot(known.picot or 0) for _ in range(place.marks.count(PICOT))]
    return found


def _stitch(place: Place, on: tuple[_Foot, ...], known: _In) -> Placed:
    feet, between = _standing(on) if on else ((), False)
    if place.sort == "sp":
        return Placed("space", "ch", place.chains, feet, 0, between=between)
    if place.sort != "st" or place.turning:
        raise _UntoldError
    name, closed = known.named, known.closed
    if closed is None and known.context is not None:
        name, closed = place.name, drawn_as(known.context, place.name)
    if closed is not None:
        if len(on) > 1 or name.removeprefix("beg ") != place.name:
            raise _UntoldError
        return Placed("stitch", name, 1, feet, 0, known.loop, closed, between=between)
    kind = kind_of(place.name)
    if not HAS_SYMBOL.match(place.name) and place.name != "sl st":
        raise _UntoldError
    if len(on) > 1 and len(on) != kind.legs:
        raise _UntoldError
    return Placed("stitch", place.name, 1, feet, 0, known.loop, between=between)
