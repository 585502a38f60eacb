"""Markers: between two stitches or in one, where they are placed, and where they are a row later.

Takes     a ``Hook`` that has walked a row; the places and the markers of the row before.
Gives     ``shown``, ``with_center``: the places with the marked ones told apart; ``note``,
          ``place``, ``moved``.
Problems  ``row-no-such-place``, ``row-not-understood``.
From      notation.md, the table of steps ("place marker": 0, 0).

Markers are moved up with every row, as everyone does who works with them. A marker stands at a
number of stitches from where the row began. While a row is walked it is noted after each step how
many stitches are used up and how many are made: what is made at a marker is where it stands next.

Worked example: 28 sc with markers behind the 13th and the 15th: ``sc to marker, inc in next st,
inc in next st, sc to end`` notes 0/0, 13/13, 14/15, 15/17 and 28/30: the markers are then behind
the 13th and the 17th.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import TYPE_CHECKING

from workeven.notation.tree import (
    CENTER,
    MARKER,
    Aside,
    Corners,
    Each,
    Evenly,
    Increase,
    Marked,
    Next,
    Repeat,
    Skip,
    Space,
    Step,
    Target,
    ToNext,
    Work,
)
from workeven.proof.context import Fault
from workeven.proof.cursor import Cursor
from workeven.proof.fabric import (
    LOST,
    Fabric,
    Loop,
    Mark,
    Match,
    Node,
    Run,
    amount_of,
    any_place,
    count_stitches,
    turned_marks,
)
from workeven.proof.naming import match_of
from workeven.records import replace

if TYPE_CHECKING:
    from workeven.proof.hook import Hook


# --- what a row says of markers ------------------------------------------------------------


def places_markers(steps: tuple[Step, ...]) -> bool:
    """Whether any step places a marker, or takes them off."""
    return any(
        (isinstance(step, Aside) and step.marker != "")
        or (isinstance(step, Repeat) and places_markers(step.steps))
        for step in steps
    )


def names_marked(steps: tuple[Step, ...], key: str = MARKER) -> bool:
    """Whether any step goes to a place that is marked so, or into it: at a marker, if not said."""
    for step in steps:
        match step:
            case Repeat(steps=body):
                limit = getattr(step.times, "limit", None)
                if names_marked(body, key) or _is_marked(getattr(limit, "name", None), key):
                    return True
            case Work(target=target) | Skip(target=target) | Increase(target=target):
                if _names(target, key):
                    return True
            case Corners(target=target) if target is not None:
                if _names(target, key):
                    return True
            case Evenly(at_markers=sides) if sides and key == MARKER:
                return True
            case _:
                continue
    return False


def _names(target: Target, key: str) -> bool:
    limit = target.limit if isinstance(target, Each) else None
    if isinstance(limit, ToNext) and _is_marked(limit.name, key):
        return True
    return any(_is_marked(name, key) for name in getattr(target, "names", ()))


def _is_marked(name: object, key: str) -> bool:
    return isinstance(name, Marked) and name.key == key


# --- the places ----------------------------------------------------------------------------


def shown(
    nodes: tuple[Node, ...], marks: tuple[Mark, ...], steps: tuple[Step, ...]
) -> tuple[Node, ...]:
    """The places, those at a marker told apart; raises ``Fault`` where nobody knows of any."""
    start, end = (steps[0].start, steps[-1].end) if steps else (0, 0)
    if not marks:
        raise Fault(
            "row-no-such-place",
            start,
            end,
            "no marker has been placed in the rows before",
            mend="Say where: “place marker” between two steps, or “place marker in last st”.",
        )
    if LOST in marks:
        raise Fault(
            "row-not-understood",
            start,
            end,
            "where the markers are after the row before is not counted",
            mend="Place them anew in the row before, or write the stitches between them.",
        )
    for at, kind in marks:
        nodes = _marked(nodes, at, MARKER, kind)
    return nodes


def with_center(
    below: Fabric, nodes: tuple[Node, ...], steps: tuple[Step, ...]
) -> tuple[Node, ...]:
    """The places with the stitch in the middle told apart: a marked one, if one is marked.

    Where the row has a single group of three or more, the increases stand in its middle stitch.

    Where the row goes on into a space behind "to center", the middle space is meant. Raises
    ``Fault`` where there is none: in an even number of stitches, and in a round, which has no
    middle.
    """
    space = _space_behind(steps)
    if space is not None:
        of_it = match_of((space,))
        number = amount_of(nodes, of_it)
        if number % 2:
            return _marked(nodes, number // 2, CENTER, match=of_it)
    placed = [at for at, kind in below.marks if kind == "in"]
    if len(placed) == 1:
        return _marked(nodes, placed[0], CENTER)
    grouped = None if below.closed else _middle_of_group(nodes, below.sts)
    if grouped is not None:
        return _marked(nodes, grouped, CENTER)
    if below.closed or below.sts % 2 == 0:
        raise Fault(
            "row-no-such-place",
            steps[0].start,
            steps[-1].end,
            "there is no center st in a round"
            if below.closed
            else f"{below.sts} sts have no center st",
            mend="Mark it in an earlier row (“place marker in 3rd st”), or write how many sts are "
            "worked before it.",
        )
    return _marked(nodes, below.sts // 2, CENTER)


#: a group has a middle from three stitches on
_SMALLEST = 3


def _middle_of_group(nodes: tuple[Node, ...], sts: int) -> int | None:
    """How many stitches stand before the middle of the only group worked into one place.

    None where there are none or several, or where it stands at an end of the row.
    """
    found: list[int] = []
    before = 0
    for node in nodes:
        if isinstance(node, Loop) and node.group and node.times == 1 and node.once >= _SMALLEST:
            found.append(before + node.once // 2)
            if node.once % 2 == 0 or before == 0 or before + node.once == sts:
                return None
        before += node.sts
    return found[0] if len(found) == 1 else None


def _space_behind(steps: tuple[Step, ...]) -> Space | None:
    """The space that is worked into behind a step that goes "to center"."""
    for step, behind in pairwise(steps):
        each = step.target if isinstance(step, Work) else None
        limit = each.limit if isinstance(each, Each) else None
        if not isinstance(limit, ToNext) or not _is_marked(limit.name, CENTER):
            continue
        where = behind.target if isinstance(behind, Work) else None
        name = where.names[0] if isinstance(where, Next) else None
        if isinstance(name, Space):
            return name
    return None


def _marked(
    nodes: tuple[Node, ...], at: int, *keys: str, match: Match = count_stitches
) -> tuple[Node, ...]:
    cursor = Cursor(nodes)
    cursor.take(match, at)
    cursor.go_to(match)
    place = cursor.peek()
    if place is None:
        return nodes
    before = cursor.passed()
    cursor.take(any_place, 1)
    marked = replace(place, marks=(*place.marks, *keys))
    return (*before, Run(marked, 1), *cursor.rest())


# --- while a row is walked -----------------------------------------------------------------


def note(hook: Hook) -> None:
    """Note what is used up and made so far."""
    trace = hook.trace
    if trace is None:
        return
    below = 0 if hook.below_at_start is None else hook.below_at_start.sts
    used, made = below - hook.cursor.remaining(count_stitches), _made(hook)
    while trace and trace[-1][0] > used:  # the hook came back to an earlier state
        trace.pop()
    trace.append((used, made))


def _made(hook: Hook) -> int:
    return stitches_in(hook.made.makes)


def stitches_in(makes: Mapping[str, int]) -> int:
    """All that is made but spaces: by so many stitches a marker's place is told."""
    return sum(number for name, number in makes.items() if not name.endswith(" sp"))


def place(hook: Hook, where: str) -> None:
    """Place a marker here, or in a stitch that was made last; or take all markers off."""
    if where == "":
        return
    if where == "lost":
        hook.placed[LOST] = None
        return
    if where == "off":
        hook.marks_off = True
        return
    now = _made(hook)
    before = now
    for _, made in reversed(hook.trace or ()):
        if made < now:
            before = made
            break
    last = now - before
    at = {"here": now, "next": now, "last": now - 1, "first": before}.get(where)
    if at is None:
        at = before + (last - 1) // 2  # the one in the middle
    kind = "between" if where == "here" else "in"
    hook.placed[at, kind] = None


def moved(hook: Hook, made: int, *, turned: bool) -> tuple[Mark, ...]:
    """Where the markers are for the next row of ``made`` stitches."""
    below = hook.below_at_start
    old = () if below is None or hook.marks_off else below.marks
    found: dict[Mark, None] = {}
    for mark in old:
        found[_moved_up(hook, mark)] = None
    found |= hook.placed
    return (LOST,) if LOST in found else within(found, made, turned=turned)


def within(found: Iterable[Mark], made: int, *, turned: bool) -> tuple[Mark, ...]:
    """The markers that stand within a row of ``made`` stitches, as the next row meets them."""
    inside = [
        (at, kind)
        for at, kind in found
        if (0 <= at < made or (at == made and kind == "between" and not turned))
        and (at, kind) != (0, "between")
    ]
    return turned_marks(tuple(sorted(inside)), made) if turned else tuple(sorted(inside))


def ends_at_marker(hook: Hook) -> bool:
    """Whether a marker stands behind the last stitch of the row before, where a round ends."""
    below = hook.below_at_start
    return below is not None and (below.sts, "between") in below.marks


def _moved_up(hook: Hook, mark: Mark) -> Mark:
    at, kind = mark
    change = hook.at_markers
    if change is not None and hook.below_at_start is not None:
        number = sorted(hook.below_at_start.marks).index(mark)
        return at + change * (2 * number + 1), kind
    trace = hook.trace
    if mark == LOST or trace is None or hook.moved_start:
        return LOST
    points = sorted(dict(reversed([(0, 0), *trace])).items())
    for (used, before), (used_next, after) in pairwise(points):
        if kind == "between" and used == at:
            return before, kind
        if used <= at < used_next:
            return _between(at - used, used_next - used, before, after, kind)
    used, made = points[-1]
    return (made, kind) if kind == "between" and used == at else LOST


def _between(past: int, takes: int, before: int, after: int, kind: str) -> Mark:
    """Within a step that works one for one, so many in each, or so many together."""
    makes = after - before
    if makes >= takes and makes % takes == 0:
        each = makes // takes
        return before + past * each + ((each - 1) // 2 if kind == "in" else 0), kind
    if makes and takes % makes == 0:
        legs = takes // makes
        if kind == "in" or past % legs == 0:
            return before + past // legs, kind
    return LOST
