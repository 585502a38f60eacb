"""Increases or decreases along a length, at one rate or at two that differ by one step.

Takes     how many shaped rows there are to be, and over how many rows.
Gives     ``plan``: how often every so many rows; ``steps_between``: shaped rows between two counts.
Problems  none: raises ``ShapingFault`` where the shaping does not fit, with the cure.
From      the published lesson on two rates ("the magic formula" of the trade: quotient and rest),
          whose example 140 rows and 36 increases gives every 3rd row 4 times and every 4th row 32
          times; for a straight end, the handbook rule of one interval more than increases.

Worked example: 25 shaped rows over 166. 166 = 25 * 6 + 16, so 16 of the intervals are one longer:
every 6th row 9 times, then every 7th row 16 times, the faster first. With a straight end there are
26 intervals, and the last, a longer one, is plain: 16 of six rows, 9 of seven, 7 rows plain. Where
only every second row may be shaped, the same is done with 83 pairs of rows.

The source on flat knitting shapes on right-side rows alone, "intervals kept even"; the lesson takes
any row. Both are here: the second is what is done unless the first is asked for.
"""

from __future__ import annotations

from workeven.records import record

#: More than this is no crochet; it keeps words and tables from growing without end.
MOST = 100_000
#: the ends of a row
_BOTH = 2


class ShapingFault(ValueError):
    """Shaping that cannot be had: what is wrong, and what would be right."""

    def __init__(self, found: str, mend: str) -> None:
        super().__init__(found)
        self.found, self.mend = found, mend


@record
class Rate:
    """Every so many rows (the last of them is shaped), so many times."""

    every: int
    times: int


@record
class Plan:
    """Shaped rows along a length: ``rates``, the faster first, and ``plain`` rows at the end."""

    rates: tuple[Rate, ...]
    plain: int

    @property
    def times(self) -> int:
        """How many rows are shaped."""
        return sum(rate.times for rate in self.rates)

    @property
    def rows(self) -> int:
        """How many rows there are in all."""
        return sum(rate.every * rate.times for rate in self.rates) + self.plain

    def shaped(self) -> tuple[int, ...]:
        """The numbers of the shaped rows, counted from 1.

        >>> plan(3, 10).shaped()
        (3, 6, 10)
        """
        rows, at = [], 0
        for rate in self.rates:
            for _ in range(rate.times):
                at += rate.every
                rows.append(at)
        return tuple(rows)


def plan(
    times: int, over: int, *, every_second_row: bool = False, straight_end: bool = False
) -> Plan:
    """``times`` shaped rows over ``over`` rows; raises ``ShapingFault`` where they do not fit.

    ``every_second_row``: only every second row may be shaped (a row that is left over is plain).
    ``straight_end``: one interval is left plain at the end.

    >>> plan(36, 140).rates
    (Rate(every=3, times=4), Rate(every=4, times=32))
    >>> plan(25, 166, straight_end=True)
    Plan(rates=(Rate(every=6, times=16), Rate(every=7, times=9)), plain=7)
    """
    _check(times, over)
    step = 2 if every_second_row else 1
    steps, left_over = divmod(over, step)
    parts = times + 1 if straight_end else times
    if parts > steps or not times:
        if not times:
            return Plan(rates=(), plain=over)
        raise _too_many(times, over, step, straight_end=straight_end)
    fast, longer = divmod(steps, parts)
    shorter, plain = parts - longer, 0
    if straight_end:
        plain = fast + 1 if longer else fast
        longer, shorter = (longer - 1, shorter) if longer else (0, shorter - 1)
    rates = (
        Rate(every=fast * step, times=shorter),
        Rate(every=(fast + 1) * step, times=longer),
    )
    return Plan(rates=tuple(rate for rate in rates if rate.times), plain=plain * step + left_over)


def steps_between(start: int, end: int, ends: int) -> int:
    """The shaped rows from one number of stitches to another, so many stitches in each.

    >>> steps_between(43, 93, 2)
    25
    """
    if ends < 1:
        raise ShapingFault(
            f"A shaped row would change {ends} stitches.", "Let it change one stitch or more."
        )
    difference = abs(end - start)
    if difference % ends:
        nearer = end - (difference % ends if end > start else -(difference % ends))
        further = nearer + (ends if end > start else -ends)
        counts = [str(one) for one in sorted((nearer, further)) if one >= 0]
        raise ShapingFault(
            f"From {start} to {end} there are {difference} stitches, and each shaped row changes "
            f"{ends}.",
            f"Make it {' or '.join(counts)}{', or shape at one end' if ends == _BOTH else ''}.",
        )
    return difference // ends


def _check(times: int, over: int) -> None:
    if times < 0 or over < 1:
        raise ShapingFault(
            f"{times} shaped rows over {over} rows cannot be planned.",
            "Give rows from 1 on, and none or more shaped rows.",
        )
    if over > MOST:
        raise ShapingFault(f"{over} rows are more than can be planned.", f"Plan at most {MOST}.")


def _too_many(times: int, over: int, step: int, *, straight_end: bool) -> ShapingFault:
    most = over // step - (1 if straight_end else 0)
    which = "every second row" if step > 1 else "every row"
    needed = (times + (1 if straight_end else 0)) * step
    kept = " and a plain end" if straight_end else ""
    return ShapingFault(
        f"{times} shaped rows{kept} do not fit into {over} rows: {which} shaped, they need "
        f"{needed}.",
        f"Plan at most {most} shaped rows, or {needed} rows."
        if most > 0
        else f"Plan {needed} rows or more.",
    )
