"""Shaping in a few rows that change many stitches each: a round yoke, the slope of a shoulder.

Takes     the stitches before and after, over how many rows, in how many of them.
Gives     ``in_stages``: ``Stage`` for each of the shaped rows.
Problems  none: raises ``ShapingFault`` where it does not fit, with the cure.
From      common practice: a round yoke widens in a few rounds, with counts between them that suit
          the repeat of the stitch; a shoulder is left in steps that differ by one stitch at most.

Both the rows and the stitches are divided as evenly as whole numbers allow. Worked example: from
96 to 192 over 20 rounds in 4 of them, a multiple of 8: every 5th round 24 stitches, 120, 144, 168,
192. A shoulder of 20 stitches in 3 steps: twice 7 are left, and 6 are worked last.
"""

from __future__ import annotations

from workeven.arithmetic.shaping.rates import MOST, ShapingFault
from workeven.records import record


@record
class Stage:
    """One shaped row: the last of ``rows`` rows; it changes so many stitches, and leaves ``sts``.

    ``change`` is not negative: whether it adds or takes away is that of the whole shaping.
    """

    rows: int
    change: int
    sts: int


def in_stages(
    start: int, end: int, over: int, number: int, *, multiple: int = 1
) -> tuple[Stage, ...]:
    """``number`` shaped rows over ``over`` rows; each changes a multiple of ``multiple``.

    Raises ``ShapingFault`` where the difference is no such multiple, or there is too little of it,
    or there are too few rows.

    >>> [(one.rows, one.change, one.sts) for one in in_stages(96, 192, 20, 4, multiple=8)]
    [(5, 24, 120), (5, 24, 144), (5, 24, 168), (5, 24, 192)]
    """
    difference = abs(end - start)
    _check(start, end, over, number, multiple)
    grows = 1 if end > start else -1
    done, worked, found = 0, 0, []
    for at in range(1, number + 1):
        changed = difference // multiple * at // number * multiple
        rows = over * at // number
        found.append(Stage(rows=rows - worked, change=changed - done, sts=start + grows * changed))
        done, worked = changed, rows
    return tuple(found)


def _check(start: int, end: int, over: int, number: int, multiple: int) -> None:
    difference = abs(end - start)
    if over > MOST or number > MOST:
        rows = max(over, number)
        raise ShapingFault(f"{rows} rows are more than can be planned.", f"Plan at most {MOST}.")
    if number < 1 or multiple < 1:
        raise ShapingFault(
            f"{number} shaped rows with a multiple of {multiple} cannot be planned.",
            "Give whole numbers from 1 on.",
        )
    if end < 1:
        raise ShapingFault(
            f"From {start} to {end} nothing is left to be worked.",
            "Let the last stage leave one stitch or more.",
        )
    if number > over:
        raise ShapingFault(
            f"{number} shaped rows do not fit into {over} rows.",
            f"Plan at most {over} shaped rows, or {number} rows.",
        )
    if difference % multiple:
        low = end - (difference % multiple if end > start else -(difference % multiple))
        high = low + (multiple if end > start else -multiple)
        raise ShapingFault(
            f"From {start} to {end} there are {difference} stitches, which is no multiple of "
            f"{multiple}.",
            f"Make it {min(low, high)} or {max(low, high)}.",
        )
    if difference and difference // multiple < number:
        raise ShapingFault(
            f"From {start} to {end} there are {difference} stitches, too few for {number} shaped "
            f"rows that change {multiple} or more each.",
            f"Plan at most {difference // multiple} shaped rows.",
        )
