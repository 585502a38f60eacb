"""Shaping in the trade's own words, which are rows that can be counted.

Takes     a ``Plan`` or a ``Spacing``.
Gives     ``words_of_plan``, ``words_of_spacing``, ``words_of_holes``; ``where``, ``every``,
          ``rate_words``, ``times_by_size``, ``rows_even``, ``leave_words``, ``stage_words``.
Problems  none.
From      common practice; the forms are those of notation.md, "Shaping" and "Repeats".

>>> from workeven.arithmetic.shaping import evenly, plan
>>> words_of_plan(plan(25, 166), "inc", ends=2, rounds=False)
'inc 1 st at each end every 6th row 9 times, then every 7th row 16 times'
>>> words_of_spacing(evenly(48, 12, "dec", flat=True), "dec", "sc")
'sc 1, sc2tog, [sc 2, sc2tog] 11 times, sc 1'
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from workeven.arithmetic.printing import print_list
from workeven.arithmetic.shaping.evenly import Change, Spacing, legs_of
from workeven.arithmetic.shaping.rates import Plan, Rate

_TEENS = range(11, 14)
_ENDINGS = {1: "st", 2: "nd", 3: "rd"}


def words_of_plan(
    planned: Plan,
    change: Change | Literal["inc or dec"],
    *,
    ends: int,
    rounds: bool,
    spread: int | None = None,
) -> str:
    """``dec 1 st at each end every 4th row 6 times, then work 3 rows even``.

    ``spread``: a shaped row changes so many stitches, evenly over it.
    """
    row = "rnd" if rounds else "row"
    parts = [rate_words(rate, row) for rate in planned.rates]
    if parts:
        place = where(ends, rounds=rounds) if spread is None else f"{spread} sts evenly"
        parts[0] = f"{change} {place} {parts[0]}"
    if planned.plain:
        parts.append(rows_even((planned.plain,), row))
    return ", then ".join(parts)


def where(ends: int, *, rounds: bool, edge: str = "same edge") -> str:
    """What a shaped row changes, and where: ``1 st at each end``, ``1 st at neck edge``."""
    if rounds:
        return "1 st" if ends == 1 else f"{ends} sts"
    return f"1 st at {edge}" if ends == 1 else "1 st at each end"


def every(number: int, row: str) -> str:
    """``every 6th row``, ``every row``."""
    if number == 1:
        return f"every {row}"
    ending = "th" if number % 100 in _TEENS else _ENDINGS.get(number % 10, "th")
    return f"every {number}{ending} {row}"


def rate_words(rate: Rate, row: str) -> str:
    """``every 4th row 6 times``."""
    return f"{every(rate.every, row)} {_times(rate.times)}"


def leave_words(sts: str, place: str) -> str:
    """``leave 4 (5) sts unworked at each end``: a row of its own."""
    return f"leave {sts} sts unworked at {place}"


def stage_words(
    change: str, sts: Sequence[int], *, ends: int | None, edge: str = "same edge", row: str = "row"
) -> str:
    """What a stage changes in every size: spread over the row, or at its ``ends``."""
    if ends is None:
        return f"{change} {print_list(sts)} sts evenly"
    number = print_list([one // ends for one in sts])
    place = edge if ends == 1 else "each end"
    if change == "dec":
        return leave_words(number, place)
    return f"{change} {number} sts at {place} of next {row}"


def _times(number: int) -> str:
    return {1: "once", 2: "twice"}.get(number, f"{number} times")


def times_by_size(numbers: Sequence[int]) -> str:
    """How often, in every size.

    >>> times_by_size((6, 7, 7)), times_by_size((1, 1, 1))
    ('6 (7, 7) times', 'once')
    """
    return _times(numbers[0]) if len(set(numbers)) == 1 else f"{print_list(numbers)} times"


def rows_even(numbers: Sequence[int], row: str) -> str:
    """How many rows even, in every size: ``work 4 (5, 5) rows even``, ``work 1 row even``."""
    return f"work {print_list(numbers)} {row}{'' if set(numbers) == {1} else 's'} even"


def words_of_spacing(spacing: Spacing, change: Change, stitch: str) -> str:
    """``sc 1, inc, [sc 3, inc] 11 times, sc 2``: stitches of the row before that are gone over."""
    legs = legs_of(change)
    changed = f"{stitch}2tog" if change == "dec" else _increase(stitch)
    first, last = spacing.edges
    parts = [_one(first - legs, stitch, changed)] if first else []
    parts += _repeats(spacing.intervals, legs, stitch, changed)
    if last:
        parts.append(f"{stitch} {last}")
    return ", ".join(parts)


def words_of_holes(spacing: Spacing, width: int, stitch: str) -> str:
    """``sc in next 4 sts, ch 3, sk next 3 sts, [sc in next 9 sts, ch 3, sk next 3 sts] twice``."""
    hole = f"ch {width}, sk next {width} sts"
    first, last = spacing.edges
    parts = [f"{_in_next(stitch, first - width)}, {hole}"] if first else []
    at, intervals = 0, spacing.intervals
    while at < len(intervals):
        period, times = _again(intervals[at:])
        inside = ", ".join(
            f"{_in_next(stitch, one - width)}, {hole}" for one in intervals[at : at + period]
        )
        parts.append(_bracketed(inside, times))
        at += period * times
    if last:
        parts.append(_in_next(stitch, last))
    return ", ".join(parts)


def _in_next(stitch: str, number: int) -> str:
    return f"{stitch} in next {number} sts"


def _increase(stitch: str) -> str:
    """``inc`` is two of the stitch named before; where that is not sc, it is written out."""
    return "inc" if stitch == "sc" else f"2 {stitch} in next st"


def _one(plain: int, stitch: str, changed: str) -> str:
    return f"{stitch} {plain}, {changed}" if plain else changed


def _repeats(intervals: tuple[int, ...], legs: int, stitch: str, changed: str) -> list[str]:
    """Intervals in their order, what comes again in brackets."""
    found: list[str] = []
    at = 0
    while at < len(intervals):
        period, times = _again(intervals[at:])
        inside = _runs(intervals[at : at + period], legs, stitch, changed)
        found.append(_bracketed(inside, times))
        at += period * times
    return found


def _again(intervals: tuple[int, ...]) -> tuple[int, int]:
    """The stretch at the beginning that comes again most: its length, and how often it stands."""
    best, covered = (1, 1), 1
    for period in range(1, len(intervals) // 2 + 1):
        times = 1
        while intervals[times * period : (times + 1) * period] == intervals[:period]:
            times += 1
        if times > 1 and times * period > covered:
            best, covered = (period, times), times * period
    return best


def _runs(intervals: tuple[int, ...], legs: int, stitch: str, changed: str) -> str:
    """The inside of a repeat, equal neighbours told together."""
    parts, at = [], 0
    while at < len(intervals):
        run = 1
        while intervals[at + run : at + run + 1] == intervals[at : at + 1]:
            run += 1
        parts.append(_bracketed(_one(intervals[at] - legs, stitch, changed), run))
        at += run
    return ", ".join(parts)


def _bracketed(inside: str, times: int) -> str:
    if times == 1:
        return inside
    return f"[{inside}] {_times(times)}" if ", " in inside else f"{inside} {_times(times)}"
