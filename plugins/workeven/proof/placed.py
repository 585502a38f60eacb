"""Where each stitch of a row stands: the places below that it is worked into, one by one.

Takes     a line, the fabric below it, a size.
Gives     ``placed_row``: a ``PlacedRow``, or None where that is not plain.
Problems  none: of a row that cannot be told place by place nothing is told.
From      notation.md, the table of steps, columns "takes up" and "makes".

The row is walked once more, over places that bear a number each, with a ``Trail`` in which the walk
writes down what every step takes and makes. So nothing is read from words that the count has not
read. What is told is then held against what the walk counts as worked, kind by kind: where the two
differ (a picot, a stitch of the pattern's own that is closed to one), nothing is told.

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
    Decrease,
    FastenOff,
    First,
    FromHook,
    Increase,
    IntoRing,
    JoinRound,
    MagicRing,
    Same,
    Skip,
    StatedHere,
    Turn,
    Work,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import Fault, SizeContext
from workeven.proof.fabric import Fabric, Loop, Node, Place, Run
from workeven.proof.hook import Hook
from workeven.proof.ledger import Ledger, Trail, Worked, one_by_one
from workeven.proof.line import Line
from workeven.proof.made import is_slip_stitch
from workeven.proof.walk import walk_row
from workeven.records import replace

#: stitches that can be told place by place, alone and together, around posts too
_DRAWN = re.compile(r"(?:fp|bp)?(?:sc|hdc|dc|tr|dtr)(?:\d+tog)?\Z")
#: what begins the mark that tells a place apart
_MARK = "@"


class Placed(NamedTuple):
    """A stitch, chains side by side, or the slip stitch of a join.

    ``name`` is its US name; ``chains`` how many they are. ``feet`` are the places below, by their
    number from where the row begins; () where it stands in the ring or on nothing. ``top`` is the
    number of the place that it leaves, None where it leaves none.
    """

    what: Literal["stitch", "space", "turning chain", "skipped chain", "join"]
    name: str
    chains: int = 1
    feet: tuple[int, ...] = ()
    top: int | None = None
    loop: str = "both"


class PlacedRow(NamedTuple):
    """A row place by place; ``leaves``: the names of its places, as they were made."""

    stitches: tuple[Placed, ...]
    below: tuple[str, ...]
    leaves: tuple[str, ...]
    ring: bool


class _UntoldError(Exception):
    """This row is not told place by place."""


def placed_row(
    line: Line, below: Fabric | None, context: SizeContext, how: str
) -> PlacedRow | None:
    """The row place by place."""
    apart = below if below is None else below._replace(nodes=_apart(below.nodes, [0]))
    hook = Hook(
        line.facts,
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
    return PlacedRow(stitches, names, leaves, hook.ring)


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
        if one.what != "skipped chain":  # it was worked with the starting chain
            found[one.name] += one.chains
    return dict(found)


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
    return tuple(found)


def _placed(hook: Hook, told: Worked, before: list[Placed]) -> list[Placed]:
    """The stitches of one step; each that leaves a place bears top 0 at first."""
    match told.step:
        case Aside() | Turn() | StatedHere() | MagicRing() | FastenOff() | Skip():
            return _nothing(told)
        case JoinRound():
            return [Placed("join", "sl st")]
        case Chain() as step:
            return _chains(told, hook.context.amount(step.count) or 0, began=bool(before))
        case Work() as step:
            return _work(hook, step, told, before)
        case Increase() | Decrease():
            return _stitches(told.made, _feet(told), "both")
        case _:
            raise _UntoldError


def _nothing(told: Worked) -> list[Placed]:
    if told.into or told.made:
        raise _UntoldError
    return []


def _feet(told: Worked) -> tuple[int, ...]:
    return tuple(map(_number, told.into))


def _chains(told: Worked, count: int, *, began: bool) -> list[Placed]:
    match told.made:
        case () if not began and not told.into:
            return [Placed("turning chain", "ch", count)] if count else []
        case (Place(turning=True),) if not began:
            return [Placed("turning chain", "ch", count, _feet(told), 0)]
        case (Place(sort="sp", chains=chains),) if began and chains == count:
            return [Placed("space", "ch", count, (), 0)]
        case _:
            raise _UntoldError


def _work(hook: Hook, step: Work, told: Worked, before: list[Placed]) -> list[Placed]:
    if step.does_not_count or step.rows_below:
        raise _UntoldError
    if not told.made and not told.into and is_slip_stitch(step):
        return [Placed("join", "sl st")]
    made, feet = told.made, _feet(told)
    lead: list[Placed] = []
    if isinstance(step.target, FromHook):
        skipped = (hook.context.amount(step.target.nth) or 1) - 1
        counts = bool(made) and made[0].turning
        made = made[1:] if counts else made
        lead = [Placed("skipped chain", "ch", skipped, (), 0 if counts else None)]
    if not feet:
        feet = _where_it_stands(step, before)
    return [*lead, *_stitches(made, feet, step.loop)]


def _where_it_stands(step: Work, before: list[Placed]) -> tuple[int, ...]:
    """The place of a step that takes none: the ring, or that of the stitch before it."""
    if isinstance(step.target, IntoRing):
        return ()
    if not isinstance(step.target, Same | First) or (
        isinstance(step.target, Same) and step.target.made
    ):
        raise _UntoldError
    feet = before[-1].feet if before else ()
    if len(feet) != 1:
        raise _UntoldError
    return feet


def _stitches(made: tuple[Place, ...], feet: tuple[int, ...], loop: str) -> list[Placed]:
    """What was made over these places: in equal shares, or so many together."""
    if not made:
        raise _UntoldError
    if not feet:
        return [_stitch(place, (), loop) for place in made]
    if len(made) % len(feet) == 0:
        each = len(made) // len(feet)
        return [_stitch(place, (feet[at // each],), loop) for at, place in enumerate(made)]
    if len(feet) % len(made) == 0:
        legs = len(feet) // len(made)
        return [
            _stitch(place, feet[at * legs : (at + 1) * legs], loop) for at, place in enumerate(made)
        ]
    raise _UntoldError


def _stitch(place: Place, feet: tuple[int, ...], loop: str) -> Placed:
    if place.sort == "sp":
        return Placed("space", "ch", place.chains, feet, 0)
    kind = kind_of(place.name)
    together = kind.legs if len(feet) > 1 else 1
    if place.sort != "st" or place.turning or not _DRAWN.match(place.name):
        raise _UntoldError
    if len(feet) > 1 and len(feet) != together:
        raise _UntoldError
    return Placed("stitch", place.name, 1, feet, 0, loop)
