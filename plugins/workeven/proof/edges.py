"""Around the edges of a flat piece: along the last row, row ends, the starting chain, row ends.

Takes     a ``Hook`` and the next step.
Gives     ``turn_corner``, ``into_corner``, ``corners_stand_on``, ``along_each_row``,
          ``rows_beside``.
Problems  ``row-uneven``, ``row-no-such-place``.
From      notation.md, the table of places ("row end"), "Chains worked back along".

Each edge is a list of places of its own; where a step names places of the next one, the hook turns
the corner, and nothing that it still could have taken may be left behind it. What is worked "in
corner" between two edges takes no place of either, or stands on the end of the edge, if that is
what is left.

Worked example: behind 10 rows of 14 hdc, ``sc in each hdc across, 2 sc in each row end along side,
sc in each ch along bottom, 2 sc in each row end along side`` is 14 + 20 + 14 + 20.
"""

from __future__ import annotations

from typing import Literal

from workeven.notation.tree import (
    AnyStitch,
    Each,
    First,
    Increase,
    JoinYarn,
    Last,
    NamedStitch,
    Next,
    OneChain,
    OtherSide,
    PlaceName,
    Repeat,
    RowEnd,
    RowSides,
    Skip,
    Space,
    Step,
    Travel,
    Unplaced,
    Work,
)
from workeven.proof.context import Fault
from workeven.proof.fabric import CHAIN, Loop, Place, Run, any_place, reversed_nodes
from workeven.proof.hook import Hook
from workeven.proof.making import make
from workeven.proof.naming import are, many, match_of
from workeven.proof.row_ends import RowEnds

ROW_END = Place("side", "row end", "row end")
_ROW_ENDS = match_of((RowEnd(),))
Edge = Literal["side", "bottom"]


def turn_corner(hook: Hook, step: Step) -> None:
    """Go on to the edge that a step names, if it is another one."""
    if hook.depth or not hook.facts.along_rows:
        return
    edge = _edge_of(step, hook.edge)
    if edge is None and hook.edge == "side" and _comes_to_top(hook, step):
        _along_top(hook)
        return
    there = hook.edge == edge and hook.cursor.peek() is not None
    if edge is None or there:
        return
    if hook.edge is None and not hook.cursor.passed() and hook.stands in ("start", "taken"):
        hook.kept_edge = hook.cursor.rest()  # the border begins along a side
    else:
        _nothing_left_behind(hook, step)
    number = _rows_beside(hook, step) if edge == "side" else hook.bottom
    if number is None:
        raise _no_bottom(step)
    place = ROW_END if edge == "side" else CHAIN
    left = tuple(node for node in hook.cursor.rest() if isinstance(node, Loop) and node.optional)
    edge_places = (Run(place, number),) if number else ()
    # what an earlier row left comes behind it
    hook.cursor = hook.cursor.along((*edge_places, *left))
    hook.edge, hook.generic, hook.named = edge, False, frozenset()
    hook.edges += 1
    hook.in_corners = min(hook.in_corners, 1)
    hook.stands, hook.over_first = ("start" if not hook.began else "taken"), False


_WHICH = ("row ends", 0)


def _rows_beside(hook: Hook, step: Step) -> int:
    """How many row ends the side has that the row turns to."""
    ends = hook.row_ends
    if ends.other is None:
        return ends.rows
    if ends.unclear:
        raise _which_side(ends, step)
    ways = (f"along {ends.rows} row ends", f"along {ends.other} row ends")
    hook.points.setdefault(_WHICH, ways)
    return ends.other if hook.choices.get(_WHICH, 0) == 1 else ends.rows


def _which_side(ends: RowEnds, step: Step) -> Fault:
    return Fault(
        "row-not-understood",
        step.start,
        step.end,
        f"whether the ends of {ends.rows} rows or those of the {ends.other} rows worked over them "
        "are meant cannot be told",
        mend=f"State the row's count at its end, such as “({ends.rows} sc)”.",
    )


def rows_beside(hook: Hook) -> int:
    """Along the ends of how many rows a row went that was worked nowhere else; 0: it was not so."""
    if hook.edge != "side" or hook.kept_edge is None or hook.edges != 1:
        return 0
    ends = hook.row_ends
    other = ends.other is not None and hook.choices.get(_WHICH, 0) == 1
    return (ends.other or 0) if other else ends.rows


def _comes_to_top(hook: Hook, step: Step) -> bool:
    """Whether a border that began along a side comes to the last row: its stitches are named."""
    if not hook.kept_edge or hook.cursor.remaining(any_place):
        return False
    if isinstance(step, Repeat):
        return bool(step.steps) and _comes_to_top(hook, step.steps[0])
    target = step.target if isinstance(step, Work | Skip | Increase) else None
    if isinstance(target, Unplaced):
        return True
    return isinstance(target, Next | First | Last | Each) and isinstance(
        target.names[0], AnyStitch | NamedStitch
    )


def _along_top(hook: Hook) -> None:
    """On along the last row, with the corner that the border began with at its far end."""
    kept = hook.kept_edge or ()
    if hook.below is not None and hook.below.turned:
        kept = reversed_nodes(kept)  # around the piece it is worked along as it was itself
    hook.cursor = hook.cursor.along(kept)
    hook.edge, hook.generic, hook.named = "top", False, frozenset()
    hook.in_corners = min(hook.in_corners, 1) + hook.began_in_corner
    hook.stands, hook.over_first = "taken", False


def _edge_of(step: Step, now: str | None) -> Edge | None:
    if isinstance(step, OtherSide):
        return "bottom"
    if isinstance(step, Repeat):
        return _edge_of(step.steps[0], now) if step.steps else None
    if not isinstance(step, Work | Skip | Increase | JoinYarn | Travel):
        return None
    target = step.target
    if isinstance(target, RowSides):
        return None if target.apart else "side"
    if not isinstance(target, Next | First | Last | Each):
        return None
    return _edge_named(target.names[0], now)


def _edge_named(name: PlaceName, now: str | None) -> Edge | None:
    if isinstance(name, RowEnd):
        return "side"
    return "bottom" if isinstance(name, OneChain) and now == "side" else None


def _nothing_left_behind(hook: Hook, step: Step) -> None:
    left = hook.left() if hook.made.out.nodes else 0
    if left and not (hook.recover or hook.lenient):
        raise Fault(
            "row-uneven",
            step.start,
            step.end,
            f"{many(left, hook.wanted_name())} {are(left)} left over at the corner",
            left_over=left,
        )


def _no_bottom(step: Step) -> Fault:
    return Fault(
        "row-no-such-place",
        step.start,
        step.end,
        "how many chains the piece was begun with is not known",
    )


def into_corner(hook: Hook, step: Work, name: PlaceName) -> bool:
    """``3 sc in corner`` between two edges: it takes no place."""
    if not hook.facts.along_rows or not (isinstance(name, Space) and name.corner):
        return False
    if name.chains is not None or hook.cursor.remaining(match_of((name,))):
        return False
    make(hook.made, step.content, 1)
    hook.in_corners += 1
    hook.began_in_corner = hook.began_in_corner or hook.edge is None
    if hook.edge is not None and hook.cursor.remaining(any_place) == hook.in_corners:
        hook.cursor.take(any_place, hook.in_corners)  # the corners are the ends of the edge
        hook.in_corners = 1
    return True


def corners_stand_on(hook: Hook, over: int) -> int:
    """How many of the places that are one too many the corners before have stood on.

    "3 sc in corner, sc in each of next 35 ch, 3 sc in last ch" over 37 chs: the first is the
    corner's.
    """
    if hook.edge is None or not over or over != hook.in_corners:
        return 0
    hook.cursor.take(any_place, over)
    hook.in_corners = 0
    return over


def along_each_row(hook: Hook, step: Work) -> None:
    """``2 sc in each row end``: as often as there are rows."""
    if hook.row_ends.rows == 0:
        raise Fault(
            "row-no-such-place",
            step.start,
            step.end,
            "there are no rows whose side could be worked along",
        )
    rows = hook.cursor.remaining(_ROW_ENDS)
    hook.cursor.take(_ROW_ENDS, rows)
    make(hook.made, step.content, rows)
