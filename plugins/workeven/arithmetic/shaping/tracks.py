"""Several shapings at the same time, merged row by row: a neck beside an armhole.

Takes     tracks: a ``Plan`` each, after how many rows it begins, what it changes at both edges.
Gives     ``merged``: what is changed at both edges in every row; ``stretches``: the same told in
          the order in which a maker meets it.
Problems  none: raises ``ShapingFault`` where a track runs on behind the last row.
From      common practice ("AT THE SAME TIME, when piece measures … begin neck shaping"), written
          out row by row so that nobody has to keep two lists in mind.

Worked example: over 6 rows the neck is shaped every row 4 times, the armhole every second row from
row 3 on, twice. Rows 1 to 3 change the neck alone, row 4 both, row 5 nothing, row 6 the armhole.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from workeven.arithmetic.shaping.rates import MOST, Plan, Rate, ShapingFault
from workeven.records import record

#: stitches changed at the one edge and at the other
Ends = tuple[int, int]
_NONE = (0, 0)


@record
class Track:
    """One of several shapings: its plan, the rows before it begins, what a shaped row changes."""

    plan: Plan
    after: int
    ends: Ends


@record
class Stretch:
    """Shaped rows that follow each other and change the same; ``ends`` (0, 0): rows worked even."""

    ends: Ends
    rates: tuple[Rate, ...]
    plain: int = 0

    @property
    def changed(self) -> int:
        """How many stitches it changes in all."""
        return sum(self.ends) * sum(rate.times for rate in self.rates)


def merged(tracks: Iterable[Track], over: int) -> tuple[Ends, ...]:
    """What every one of ``over`` rows changes at both edges.

    >>> neck = Track(plan=Plan(rates=(Rate(every=1, times=4),), plain=0), after=0, ends=(1, 0))
    >>> arm = Track(plan=Plan(rates=(Rate(every=2, times=2),), plain=0), after=2, ends=(0, 1))
    >>> merged((neck, arm), 6)
    ((1, 0), (1, 0), (1, 0), (1, 1), (0, 0), (0, 1))
    """
    if over > MOST:
        raise ShapingFault(f"{over} rows are more than can be planned.", f"Plan at most {MOST}.")
    rows = [_NONE] * over
    for track in tracks:
        shaped = [track.after + row for row in track.plan.shaped()]
        if shaped and shaped[-1] > over:
            raise ShapingFault(
                f"The last of these shaped rows is row {shaped[-1]}, and there are {over} rows.",
                f"Begin {shaped[-1] - over} rows earlier, or give it {shaped[-1]} rows.",
            )
        for row in shaped:
            one, other = rows[row - 1]
            rows[row - 1] = (one + track.ends[0], other + track.ends[1])
    return tuple(rows)


def stretches(rows: Sequence[Ends]) -> tuple[Stretch, ...]:
    """Rows told together as long as the same is changed; plain rows at the end are told last.

    >>> [(one.ends, one.rates, one.plain) for one in stretches(((0, 0), (1, 1), (1, 0), (0, 0)))]
    ... # doctest: +NORMALIZE_WHITESPACE
    [((1, 1), (Rate(every=2, times=1),), 0),
     ((1, 0), (Rate(every=1, times=1),), 0),
     ((0, 0), (), 1)]
    """
    found: list[Stretch] = []
    last = 0
    for number, ends in enumerate(rows, start=1):
        if ends == _NONE:
            continue
        before = found.pop() if found and found[-1].ends == ends else Stretch(ends=ends, rates=())
        rates = _with(before.rates, number - last)
        found.append(Stretch(ends=ends, rates=rates))
        last = number
    if last < len(rows):
        found.append(Stretch(ends=_NONE, rates=(), plain=len(rows) - last))
    return tuple(found)


def _with(rates: tuple[Rate, ...], every: int) -> tuple[Rate, ...]:
    """One shaped row more behind those there."""
    if rates and rates[-1].every == every:
        return (*rates[:-1], Rate(every=every, times=rates[-1].times + 1))
    return (*rates, Rate(every=every, times=1))
