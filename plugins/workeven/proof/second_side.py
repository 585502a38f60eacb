"""A second side like the first, mirrored: the same rows over the stitches that were left.

Takes     a line that sends back to the first side, and where a size stands.
Gives     ``second_side``.
Problems  ``row-no-such-place``, ``row-uneven``, ``count-stated``.
From      notation.md, "Places an earlier row left stay reachable"; mirrored pieces.

The first side is all that was worked since a row left stitches unworked. The second must have as
many stitches as that row took; mirrored, its rows make what those made, each with the same number.
So they are counted again over the places of the first side, and what they leave is turned about.
Where no row left any, and none are to be skipped, a piece of its own is meant, which is told where
that piece is written: the line works nothing here.

Worked example: of 60 sc the left front takes 15 and leaves 45. "Sk next 30 sts, join yarn in next
st, work as for left front": 15 are left for it, and two decreases later there are 13, as there.
"""

from __future__ import annotations

import re

from workeven.notation.tree import Aside, FastenOff, SecondSide, Skip, Step, Turn
from workeven.proof.again import Total, work_again
from workeven.proof.at_hand import (
    AtHand,
    InSize,
    check_stated,
    no_rows,
    remember,
    rows_entry,
)
from workeven.proof.context import Fault
from workeven.proof.fabric import Fabric, reversed_nodes
from workeven.proof.first_side import FirstSide, begun_side, first_side
from workeven.proof.line import SizeFault
from workeven.proof.naming import are, many
from workeven.proof.row import kept
from workeven.proof.standing import Standing, Unworked, Worked
from workeven.proof.stated import figures_of


def second_side(line: AtHand, standing: Standing, body: SecondSide) -> InSize:
    """``work as for left front, reversing shaping``."""
    alone = all(isinstance(step, FastenOff | Aside | Turn) for step in body.steps)
    if alone and (begun := begun_side(standing)) is not None:
        first, done = begun
        if done < len(first.lines):
            return _completed(line, standing, body, first, done)
    found = first_side(standing)
    if alone and (found is None or _is_a_piece(line, found.taken > found.left)):
        return InSize(no_rows(standing, None), ())
    if found is None:
        raise Fault(
            "row-no-such-place",
            body.start,
            body.end,
            "no row before it has left stitches for a second side",
            mend="Say in the first side “leave rem sts unworked”, or write the rows out.",
        )
    _check_stitches(standing, body, found.taken, found.left)
    probe, total = standing.copy(), Total()
    probe.fabric = found.below
    result, fault = work_again(probe, found.lines, len(found.lines), found.how, total)
    faults: tuple[SizeFault, ...] = () if fault is None else (fault,)
    worked = found.below if result is None else result.fabric
    fabric = worked._replace(nodes=reversed_nodes(worked.nodes))
    standing.fabric, standing.turned = fabric, False
    onto = None if found.number is None else found.number - 1
    standing.worked_rows = Worked(
        found.number,
        len(found.lines),
        found.lines,
        standing.worked_rows,
        found.below,
        found.how,
        onto,
        mirrored=True,
    )
    standing.unworked = Unworked(found.number, Fabric(()), standing.worked_rows)
    side = kept(fabric, tuple(total.worked.items()))
    figures = figures_of(line.row.stated, standing.context)
    if not faults:
        faults = check_stated(line, standing, figures, side)
    entry = rows_entry(
        standing, side, total, found.number, len(found.lines), standing.side, figures
    )
    return InSize(entry, faults, side)


def _completed(
    line: AtHand, standing: Standing, body: SecondSide, first: FirstSide, done: int
) -> InSize:
    """``complete as for first shoulder``: the rows of it that are not worked yet, mirrored."""
    probe, begun, total = standing.copy(), Total(), Total()
    probe.fabric = first.below
    there, fault = work_again(probe, first.lines[:done], done, first.how, begun)
    here = 0 if standing.fabric is None else standing.fabric.sts
    if fault is None and there is not None and there.sts != here:
        raise Fault(
            "row-uneven",
            body.start,
            body.end,
            f"the first side has {many(there.sts, 'st')} after as many rows, and "
            f"{many(here, 'st')} {are(here)} here",
            mend="Mend the rows of one of the sides.",
            needed=there.sts,
            left=here,
        )
    lines, side = first.lines[done:], standing.side
    number = standing.number
    result, fault = work_again(probe, lines, len(lines), first.how, total)
    faults: tuple[SizeFault, ...] = () if fault is None else (fault,)
    worked = first.below if result is None else result.fabric
    standing.fabric = worked._replace(nodes=reversed_nodes(worked.nodes))
    standing.pass_rows(len(lines))
    standing.turned = False
    mirrored = kept(standing.fabric, tuple(total.worked.items()))
    figures = figures_of(line.row.stated, standing.context)
    if not faults:
        faults = check_stated(line, standing, figures, mirrored)
    remember(standing, line.row.label, lines, number, len(lines))
    entry = rows_entry(standing, mirrored, total, number, len(lines), side, figures)
    return InSize(entry, faults, mirrored)


#: parts that are pieces of their own: the second one begins with its own chain
_PIECES = re.compile(
    r"\b(?:fronts?|backs?|sleeves?|socks?|mitt(?:en)?s?|gloves?|hands?|legs?|arms?|ears?|wings?)\b",
    re.IGNORECASE,
)


def _is_a_piece(line: AtHand, too_few: bool) -> bool:  # noqa: FBT001, what is found of the first
    """Whether the other front is meant, and no second side over the stitches that were left."""
    label = line.row.label
    return too_few and label is not None and _PIECES.search(label.name or "") is not None


def _check_stitches(standing: Standing, body: SecondSide, taken: int, left: int) -> None:
    """As many stitches as the first side took must be left, the skipped ones taken away."""
    skipped = _skipped(standing, body.steps)
    over = left - taken if skipped is None else left - skipped - taken
    if over == 0 or (skipped is None and over > 0):
        return
    rest = left if skipped is None else left - skipped
    raise Fault(
        "row-uneven",
        body.start,
        body.end,
        f"the first side took {many(taken, 'st')}, and {many(max(rest, 0), 'st')} {are(rest)} left "
        "for this one",
        mend="Mend how many stitches are skipped, or how many the first side takes.",
        needed=taken,
        left=rest,
    )


def _skipped(standing: Standing, steps: tuple[Step, ...]) -> int | None:
    """How many stitches lie between the two sides, if it is said."""
    skips = [step for step in steps if isinstance(step, Skip)]
    if not skips:
        return None
    total = 0
    for step in skips:
        amount = getattr(step.target, "count", None)
        total += 0 if amount is None else standing.context.amount(amount) or 0
    return total
