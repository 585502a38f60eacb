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

import re
from collections import Counter
from typing import Literal, NamedTuple

from workeven.notation.tree import (
    Aside,
    Chain,
    ChainOfTurning,
    Content,
    Decrease,
    FastenOff,
    First,
    Formed,
    FromHook,
    Increase,
    Inside,
    IntoRing,
    JoinRound,
    JoinYarn,
    MagicRing,
    Next,
    Picot,
    Same,
    Skip,
    SpecialStitch,
    StatedHere,
    Stitch,
    Times,
    Travel,
    Turn,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.context import Fault, SizeContext
from workeven.proof.fabric import CHAIN, PICOT, Fabric, Loop, Node, Place, Run
from workeven.proof.facts import Facts, facts_of, goes_from_hook
from workeven.proof.hook import Hook
from workeven.proof.ledger import Ledger, Trail, Worked, one_by_one
from workeven.proof.line import Line
from workeven.proof.made import is_slip_stitch
from workeven.proof.making import special_of
from workeven.proof.walk import walk_row
from workeven.records import replace

#: stitches that can be told place by place, alone and together, around posts too
_DRAWN = re.compile(r"(?:fp|bp)?(?:sc|hdc|dc|tr|dtr)(?:\d+tog)?\Z")
#: what a stitch that is closed to one is made of, in the words of the pattern: "5 dc", "dc3tog"
_LEGS = re.compile(
    r"\b(?P<sts>\d+)[ -]?(?:h?dc|h?tr|d?tr)\b|\b(?:h?dc|d?tr|htr)(?P<tog>\d+)tog\b", re.IGNORECASE
)
_LEAD = re.compile(r"\Ach[ -]?(?P<chains>\d+)\b", re.IGNORECASE)
_POPCORN = re.compile(
    r"\bpc\b|popcorn|(?:remov|drop|tak)\w* (?:out )?(?:the )?(?:hook|loop)", re.IGNORECASE
)
#: what moves the start of a row and stands in none
MOVES = ("travel", "new yarn")
#: more legs than these cannot be told apart
_FEWEST_LEGS, _MOST_LEGS = 2, 6
#: what begins the mark that tells a place apart
_MARK = "@"


class Closed(NamedTuple):
    """What a stitch that is closed to one is made of: so many legs of a basic stitch.

    ``lead``: how many chains are its first leg (of a beginning version); 0 where none are.
    """

    style: Literal["cluster", "popcorn", "puff"]
    base: str
    legs: int
    lead: int = 0


class Placed(NamedTuple):
    """A stitch, chains side by side, a slip stitch that joins a round or travels, or new yarn.

    ``name`` is its US name; ``chains`` how many they are. ``feet`` are the places below, by their
    number from where the row begins; () where it stands in the ring or on nothing. ``top`` is the
    number of the place that it leaves, None where it leaves none. A ``picot`` stands on what is
    before it. A ``chain`` is one that counts as a stitch. ``earlier``: it was worked with the
    starting chain. ``leg``: the chain is the first leg of the stitch behind it.
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


class PlacedRow(NamedTuple):
    """A row place by place; ``leaves``: the names of its places, as they were made.

    ``chains``: of the starting chain, where it is made at the head of the same row.
    """

    stitches: tuple[Placed, ...]
    below: tuple[str, ...]
    leaves: tuple[str, ...]
    ring: bool
    chains: int = 0


class _UntoldError(Exception):
    """This row is not told place by place."""


def placed_row(
    line: Line, below: Fabric | None, context: SizeContext, how: str
) -> PlacedRow | None:
    """The row place by place."""
    facts, chains = line.facts, 0
    if below is None and (begun := _begun(line, context, how)) is not None:
        facts, below = begun
        chains = below.sts
    apart = below if below is None else below._replace(nodes=_apart(below.nodes, [0]))
    hook = Hook(
        facts,
        apart,
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
    leaves = tuple(place.name for place in one_by_one(tuple(hook.made.out.nodes)))
    if _worked(stitches) != {name: count for name, count in hook.made.worked.items() if count}:
        return None
    if sum(one.top is not None for one in stitches) != len(leaves):
        return None
    names = () if below is None or hook.ring else tuple(p.name for p in one_by_one(below.nodes))
    return PlacedRow(stitches, names, leaves, hook.ring, chains)


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


def _apart(nodes: tuple[Node, ...], number: list[int]) -> tuple[Node, ...]:
    """The same places, each with a mark of its own."""
    found: list[Node] = []
    for node in nodes:
        if isinstance(node, Loop):
            for _ in range(node.times):
                inside = _apart(node.nodes, number)
                found += [node.with_nodes(inside, 1)] if node.group else inside
            continue
        for _ in range(node.count):
            marks = (*node.place.marks, f"{_MARK}{number[0]}")
            found.append(Run(replace(node.place, marks=marks), 1))
            number[0] += 1
    return tuple(found)


def _number(place: Place) -> int:
    """The number of a place; one that the walk has put there itself has none."""
    told = [mark for mark in place.marks if mark.startswith(_MARK)]
    if not told:
        raise _UntoldError
    return int(told[0].removeprefix(_MARK))


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
    for one in ledger.trail.steps:
        for stitch in _placed(hook, one, found):
            found.append(stitch if stitch.top is None else stitch._replace(top=tops))
            tops += stitch.top is not None
    _check_moves(hook, found)
    return tuple(found)


def _check_moves(hook: Hook, found: list[Placed]) -> None:
    """A round that travel begins on a stitch: of which one, its count need not know (_travel)."""
    moves = [one.feet[0] for one in found if one.what == "travel"]
    below = hook.below
    if moves and below is not None and below.closed:
        place = one_by_one(below.nodes)[moves[-1]]
        first = next((one.feet[0] for one in found if one.what not in MOVES and one.feet), -1)
        if place.sort != "sp" and (moves[0] > 0 or first < moves[-1]):
            raise _UntoldError


def _placed(hook: Hook, told: Worked, before: list[Placed]) -> list[Placed]:
    """The stitches of one step; each that leaves a place bears top 0 at first."""
    match told.step:
        case Aside() | Turn() | StatedHere() | MagicRing() | FastenOff() | Skip() | Formed():
            return _nothing(told)
        case JoinRound():
            return [Placed("join", "sl st")]
        case Travel(target=First() | ChainOfTurning()) if _began(before):
            return [Placed("join", "sl st")]
        case Travel(target=Next() | First() | Inside()):
            return _travel(hook, told, 1, before)
        case JoinYarn() as step if not _began(before):
            return _new_yarn(step, told)
        case Chain() as step:
            return _chains(hook, step, told, began=_began(before))
        case Picot() as step:
            return _picot(hook, step, told, before)
        case Work() as step:
            return _work(hook, step, told, before)
        case Increase() | Decrease():
            return _stitches(told.made, _feet(told), _In())
        case _:
            raise _UntoldError


def _began(before: list[Placed]) -> bool:
    """Whether anything stands in the row: slip stitches that travel do not."""
    return any(one.what not in MOVES for one in before)


def _nothing(told: Worked) -> list[Placed]:
    if told.into or told.made:
        raise _UntoldError
    return []


def _feet(told: Worked) -> tuple[int, ...]:
    return tuple(map(_number, told.into))


def _chains(hook: Hook, step: Chain, told: Worked, *, began: bool) -> list[Placed]:
    count, said = hook.context.amount(step.count) or 0, step.counts_as
    leg = said is not None and said.leg is not None
    match told.made:
        case () if not began and not told.into:
            return [Placed("turning chain", "ch", count, leg=leg)] if count else []
        case (Place(turning=True),) if not began:
            return [Placed("turning chain", "ch", count, _feet(told), 0)]
        case (Place(turning=True), Place(sort="sp", chains=chains)) if not began:
            beside = Placed("space", "ch", chains, (), 0)
            return [Placed("turning chain", "ch", count - chains, _feet(told), 0), beside]
        case (Place(sort="sp", chains=chains),) if not told.into and chains == count:
            return [Placed("space", "ch", count, (), 0)]
        case (Place(name="ch", turning=False), *others) if began and len(others) + 1 == count:
            return [Placed("chain", "ch", 1, (), 0)] * count
        case _:
            raise _UntoldError


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


def _new_yarn(step: JoinYarn, told: Worked) -> list[Placed]:
    """Yarn that is joined with a slip stitch, or with a stitch that stands there then."""
    if step.edge or (told.at is None and not told.into):
        raise _UntoldError
    if step.stitch is None:
        assert told.at is not None
        return (
            [] if told.made or told.into else [Placed("new yarn", "join", 0, (_number(told.at),))]
        )
    feet = _feet(told)
    return [Placed("new yarn", "join", 0, feet), *_stitches(told.made, feet, _In())]


def _picot(hook: Hook, step: Picot, told: Worked, before: list[Placed]) -> list[Placed]:
    if told.into or told.made or not _began(before) or before[-1].what not in ("stitch", "picot"):
        raise _UntoldError
    return [_a_picot(hook.context.amount(step.chains) or 0)]


def _a_picot(chains: int) -> Placed:
    if not 1 < chains <= _MOST_LEGS:
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
    """What is known of the stitches of a step: its loop, what is closed to one, its picots."""

    loop: str = "both"
    named: str = ""
    closed: Closed | None = None
    picot: int | None = None


def _work(hook: Hook, step: Work, told: Worked, before: list[Placed]) -> list[Placed]:
    if step.does_not_count or step.rows_below:
        raise _UntoldError
    if not told.made and not told.into and is_slip_stitch(step):
        if _began(before):
            return [Placed("join", "sl st")]
        target = step.target
        count = target.count if isinstance(target, Next | First | Inside) else None
        number = 0 if count is None else hook.context.amount(count) or 0
        return _travel(hook, told, number, before)
    made, feet = told.made, _feet(told)
    lead: list[Placed] = []
    if isinstance(step.target, FromHook):
        lead = _skipped(hook, step.target, made)
        made = made[sum(one.top is not None for one in lead) :]
    if not feet:
        feet = _where_it_stands(step, before)
    known = _known(hook, step)
    if before and before[-1].leg:
        known = _without_first_leg(known, made)
    return [*lead, *_stitches(made, feet, known)]


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


def _where_it_stands(step: Work, before: list[Placed]) -> tuple[int, ...]:
    """The place of a step that takes none: the ring, or that of the stitch before it."""
    match step.target:
        case IntoRing():
            return ()
        case Same(made=False) | First():
            pass
        case Next(bare=True) if before and before[-1].what == "turning chain":
            pass  # "sl st to next ch-2 sp, ch 3, 2 dc in sp": in the space below that chain
        case _:
            raise _UntoldError
    stands = before[-1] if before else None
    if stands is not None and stands.what == "space" and not stands.feet and len(before) > 1:
        stands = before[-2] if before[-2].what == "turning chain" else None  # "ch 5 (dc and ch 2)"
    if stands is None or len(stands.feet) != 1:
        raise _UntoldError
    return stands.feet


def _known(hook: Hook, step: Work) -> _In:
    """What the words of a step say of each stitch that it makes."""
    only = step.content[0]
    name = only.name if len(step.content) == 1 and isinstance(only, Stitch) else ""
    picots = set(_picots_in(step.content, hook.context, []))
    if len(picots) > 1:
        raise _UntoldError
    special = special_of(hook.context, name) if name else None
    return _In(
        step.loop,
        name,
        None if special is None else _closed(name, special),
        picots.pop() if picots else None,
    )


def _closed(name: str, special: SpecialStitch) -> Closed | None:
    """What the pattern's words say that a stitch is made of; None where they tell nothing sure."""
    words = f"{name}: {special.text}"
    told = {int(found["sts"] or found["tog"]) for found in _LEGS.finditer(special.text)}
    base = special.legs_of or ""
    if not special.closed or special.takes != 1:
        return None
    if "puff" in words.lower():
        return Closed("puff", base if _DRAWN.match(base) else "hdc", 3)
    if len(told) != 1 or not _DRAWN.match(base):
        return None
    legs, lead = told.pop(), _LEAD.match(special.text)
    chains = 0 if lead is None else int(lead["chains"])
    if legs + bool(chains) > _MOST_LEGS or chains > HEIGHTS[base]:
        return None
    style: Literal["cluster", "popcorn"] = "popcorn" if _POPCORN.search(words) else "cluster"
    return Closed(style, base, legs + bool(chains), chains)


def _stitches(made: tuple[Place, ...], feet: tuple[int, ...], known: _In) -> list[Placed]:
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
    found: list[Placed] = []
    for place, share in zip(made, shares, strict=True):
        found.append(_stitch(place, share, known))
        found += [_a_picot(known.picot or 0) for _ in range(place.marks.count(PICOT))]
    return found


def _stitch(place: Place, feet: tuple[int, ...], known: _In) -> Placed:
    if place.sort == "sp":
        return Placed("space", "ch", place.chains, feet, 0)
    if known.closed is not None:
        is_it = known.named.removeprefix("beg ") == place.name
        if len(feet) > 1 or place.sort != "st" or not is_it:
            raise _UntoldError
        return Placed("stitch", known.named, 1, feet, 0, known.loop, known.closed)
    kind = kind_of(place.name)
    together = kind.legs if len(feet) > 1 else 1
    if place.sort != "st" or place.turning or not _DRAWN.match(place.name):
        raise _UntoldError
    if len(feet) > 1 and len(feet) != together:
        raise _UntoldError
    return Placed("stitch", place.name, 1, feet, 0, known.loop)
