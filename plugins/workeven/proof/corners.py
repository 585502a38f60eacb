"""Corners: "sc in each st around, working (sc, ch 2, sc) in each corner".

Takes     a step that works each stitch, and the ``Corners`` said behind it.
Gives     ``with_corners``: the same as steps that are worked one after the other;
          ``corner_name``, ``corner_width``, ``count_spaces``.
Problems  ``row-not-understood``.
From      notation.md, "Corners".
"""

from __future__ import annotations

from collections.abc import Mapping

from workeven.notation.tree import (
    Amount,
    Corners,
    Each,
    Exactly,
    Inside,
    NamedStitch,
    Next,
    Open,
    PlaceName,
    Repeat,
    Space,
    Step,
    Times,
    ToNext,
    Work,
)
from workeven.proof.context import Fault
from workeven.proof.each import begin_each, open_in_ring, room
from workeven.proof.fabric import Loop, Node, amount_of
from workeven.proof.hook import Hook
from workeven.proof.inner_places import mark_of
from workeven.proof.naming import match_of
from workeven.records import replace

#: from a triangle to an octagon
FEWEST_CORNERS, MOST_CORNERS = 3, 8


def with_corners(
    hook: Hook, step: Work, target: Each, corners: Corners, rest: tuple[Step, ...]
) -> tuple[Step, ...]:
    """Each stitch up to a corner, the corner, and so on round; then what is left of the side."""
    if corners.every:
        return (*_every_nth(hook, step, target, corners, rest), *rest)
    name = corner_name(hook, corners)
    side = Work(
        step.content, Each(target.names, ToNext(name, inside=True)), start=step.start, end=step.end
    )
    corner = Work(corners.content, Next((name,)), start=corners.start, end=corners.end)
    end = Work(step.content, Each(target.names), start=step.start, end=step.end)
    turns = Repeat((side, corner), Open(), start=step.start, end=corners.end)
    return (turns, end, *rest)


def _every_nth(
    hook: Hook, step: Work, target: Each, every: Corners, rest: tuple[Step, ...]
) -> tuple[Step, ...]:
    """So many less one as the step says, then one as told, and so on; the rest as the step says.

    A counted chain at the head is the first of them.
    """
    if hook.ring:
        raise open_in_ring(step)
    begin_each(hook, target.names)
    lead = 1 if hook.over_first else 0
    times, over = divmod(room(hook, target, rest, step) + lead, every.every)
    if times == 0:
        return _so_many(step, target, over - lead)
    within = every.content or (Times(step.content, Amount((2,))),)
    one = Work(within, Next(target.names), start=every.start, end=every.end)
    turn = (*_so_many(step, target, every.every - 1), one)
    found: list[Step] = [*_so_many(step, target, every.every - 1 - lead), one]
    if times > 1:
        again = Exactly(Amount((times - 1,)))
        found.append(Repeat(turn, again, start=step.start, end=every.end))
    return (*found, *_so_many(step, target, over))


def _so_many(step: Work, target: Each, count: int) -> tuple[Step, ...]:
    """The same step in so many places."""
    return (replace(step, target=Next(target.names, Amount((count,)))),) if count else ()


def corner_name(hook: Hook, corners: Corners) -> PlaceName:
    """What the places at the corners are called.

    Raises ``Fault`` where nothing tells which they are.
    """
    match corners.target:
        case Inside() as target:
            return mark_of(target)
        case Next(names=(Space(chains=None),)) if corners.corner and _differ(hook):
            return _known_corner(hook, corners)  # "each corner sp": no other
        case Next(names=names):
            if corners.corner and isinstance(names[0], NamedStitch):
                _check_few(hook, names[0], corners)
            return names[0]
        case _:
            return _known_corner(hook, corners)


def _differ(hook: Hook) -> bool:
    """Whether the row before has spaces of several lengths."""
    spaces: dict[int, int] = {}
    count_spaces(() if hook.below_at_start is None else hook.below_at_start.nodes, 1, spaces)
    return len(spaces) > 1


def _check_few(hook: Hook, name: NamedStitch, corners: Corners) -> None:
    """A "corner dc" is known by its name only where dc stand at the corners and nowhere else."""
    below = hook.below_at_start
    there = 0 if below is None else amount_of(below.nodes, match_of((name,)))
    if there > MOST_CORNERS and not hook.recover:
        raise corners_unknown(corners)


def _known_corner(hook: Hook, corners: Corners) -> PlaceName:
    """The spaces that stand at the corners: the widest, if there are from three to eight."""
    spaces: dict[int, int] = {}
    count_spaces(hook.cursor.rest(), 1, spaces)
    width = corner_width(spaces)
    if width is None:
        raise corners_unknown(corners)
    return Space(width)


def corner_width(spaces: Mapping[int, int]) -> int | None:
    """How many chains the spaces of the corners have: the widest, if three to eight are there."""
    widest = max(spaces, default=0)
    return widest if FEWEST_CORNERS <= spaces.get(widest, 0) <= MOST_CORNERS else None


def count_spaces(nodes: tuple[Node, ...], times: int, found: dict[int, int]) -> None:
    """How many spaces of each length there are."""
    for node in nodes:
        if isinstance(node, Loop):
            count_spaces(node.nodes, times * node.times, found)
        elif node.place.sort == "sp":
            chains = node.place.chains
            found[chains] = found.get(chains, 0) + node.count * times


def corners_unknown(corners: Corners) -> Fault:
    """Nothing tells where the corners are, or what is worked beside every nth stitch."""
    if corners.every:
        return Fault(
            "row-not-understood",
            corners.start,
            corners.end,
            "what is worked in the stitches between is not said",
            mend="Write “sc in each st around, working 2 sc in every 5th st”.",
        )
    return Fault(
        "row-not-understood",
        corners.start,
        corners.end,
        "where the corners are cannot be told from the row before",
        mend="Name them: “in each corner ch-2 sp”, “in center dc of each 3-dc group”.",
    )
