"""Shaping along a length that is no straight slope: an armhole, a neck, a sleeve cap.

Takes     how many shaped rows there are to be, over how many rows, along which curve.
Gives     ``along``: the plans of its parts, one after the other; ``between``: the same from one
          number of stitches to another, behind a row that leaves some unworked.
Problems  none: raises ``ShapingFault`` where the shaping does not fit, with the cure.
From      common practice: an armhole or a neck is shaped every row at first, then every second row,
          then worked straight; a sleeve cap quickly at its foot and its top, slowly between them,
          a third of its decreases each.

Worked example, an armhole of 9 decreases at each end over 30 rows: 5 of them every row, 4 every
second row, 17 rows even. A cap of 20 decreases over 36 rows: 6 every row at the foot, 8 over the 24
rows between, which is every third row, 6 every row at the top.
"""

from __future__ import annotations

from typing import Literal, assert_never, get_args

from workeven.arithmetic.shaping.rates import Plan, Rate, ShapingFault, plan, steps_between

Curve = Literal["even", "quick first", "cap"]
CURVES: tuple[Curve, ...] = get_args(Curve)


def along(
    curve: Curve,
    times: int,
    over: int,
    *,
    every_second_row: bool = False,
    straight_end: bool = False,
) -> tuple[Plan, ...]:
    """``times`` shaped rows over ``over`` rows; raises ``ShapingFault`` where they do not fit.

    ``every_second_row`` and ``straight_end`` are those of ``plan`` and hold for an even slope.

    >>> [part.rates for part in along("quick first", 9, 30)]
    [(Rate(every=1, times=5),), (Rate(every=2, times=4),)]
    >>> [part.rates for part in along("cap", 20, 36)]
    [(Rate(every=1, times=6),), (Rate(every=3, times=8),), (Rate(every=1, times=6),)]
    """
    whole = plan(times, over, every_second_row=every_second_row, straight_end=straight_end)
    if curve == "even" or not times:
        return (whole,)
    if every_second_row or straight_end:
        raise ShapingFault(
            f"The curve “{curve}” says itself which rows are shaped.",
            "Leave out the curve, or what is said of rows beside it.",
        )
    match curve:
        case "quick first":
            return _quick_first(times, over)
        case "cap":
            return _cap(times, over)
        case _:
            assert_never(curve)


def between(
    counts: tuple[int, int],
    over: int,
    *,
    changed: int,
    leave: int | None = None,
    curve: Curve = "even",
    every_second_row: bool = False,
    straight_end: bool = False,
) -> tuple[Plan, ...]:
    """From the first of ``counts`` to the second over ``over`` rows, by ``changed`` in each shaped.

    ``leave``: the first row leaves so many stitches unworked in all, and shapes nothing else (None:
    there is no such row). Raises ``ShapingFault`` where it does not fit.

    >>> [part.rates for part in between((78, 60), 8, changed=2, leave=8, curve="quick first")]
    [(Rate(every=1, times=3),), (Rate(every=2, times=2),)]
    """
    (start, end), left = counts, leave or 0
    if left and end > start - left:
        raise ShapingFault(
            f"{left} stitches are left in the first row, and from {start} to {end} there are only "
            f"{max(start - end, 0)}.",
            "Leave fewer stitches, or change the count.",
        )
    rows = over - (leave is not None)
    if rows < 0:
        raise ShapingFault(
            f"Among {over} rows there is none that leaves stitches.", "Give rows from 1 on."
        )
    try:
        times = steps_between(start - left, end, changed)
        if rows == 0 and times == 0:
            return (Plan(rates=(), plain=0),)
        return along(
            curve, times, rows, every_second_row=every_second_row, straight_end=straight_end
        )
    except ShapingFault as fault:
        if leave is None:
            raise
        # its numbers are those behind the first of the rows that were asked for
        raise ShapingFault(
            f"Behind the row that leaves stitches: {fault.found[:1].lower()}{fault.found[1:]}",
            f"{fault.mend} The row that leaves stitches is one more.",
        ) from None


def _quick_first(times: int, over: int) -> tuple[Plan, ...]:
    """Half of it every row, the rest every second row as far as there are rows, then even."""
    slow = min(times // 2, over - times)
    quick = times - slow
    return (
        _every(1, quick),
        Plan(rates=_rates(2, slow), plain=over - quick - 2 * slow),
    )


def _cap(times: int, over: int) -> tuple[Plan, ...]:
    """A third every row, a third as slowly as there is room, a third every row again."""
    third = times // 3
    between = times - 2 * third
    return (_every(1, third), plan(between, over - 2 * third), _every(1, third))


def _every(rows: int, times: int) -> Plan:
    return Plan(rates=_rates(rows, times), plain=0)


def _rates(rows: int, times: int) -> tuple[Rate, ...]:
    return (Rate(every=rows, times=times),) if times else ()
