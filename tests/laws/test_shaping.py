"""Laws of shaping: sums are what was asked for, and the words are rows that come out."""

from __future__ import annotations

from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workeven.arithmetic.shaping import (
    CURVES,
    Curve,
    ShapingFault,
    along,
    by_repeats,
    evenly,
    in_stages,
    placed,
    plan,
)
from workeven.arithmetic.shaping.evenly import legs_of, neighbours_of_the_rarer
from workeven.arithmetic.shaping.words import words_of_plan, words_of_spacing
from workeven.proof.counting import count

Change = Literal["inc", "dec"]
CHANGES: st.SearchStrategy[Change] = st.sampled_from(("inc", "dec"))


@given(st.integers(1, 300), st.integers(1, 3000), st.booleans(), st.booleans())
def test_plans_add_up(times: int, over: int, second: bool, straight: bool) -> None:  # noqa: FBT001
    """All rows and all shaped rows are there; the rates differ by one step, the faster first."""
    try:
        planned = plan(times, over, every_second_row=second, straight_end=straight)
    except ShapingFault:
        step = 2 if second else 1
        assert (times + straight) * step > over
        return
    step = 2 if second else 1
    every = [rate.every for rate in planned.rates]
    assert (times, over) == (planned.times, planned.rows)
    assert every in ([every[0]], [every[0], every[0] + step])
    assert all(number % step == 0 for number in every)
    assert straight or planned.plain < step


@given(st.integers(1, 300), st.integers(1, 3000), st.sampled_from(CURVES))
def test_curves_add_up(times: int, over: int, curve: Curve) -> None:
    """All shaped rows are there wherever an even slope fits; only the end is plain."""
    if times > over:
        with pytest.raises(ShapingFault):
            along(curve, times, over)
        return
    parts = along(curve, times, over)
    assert (times, over) == (sum(one.times for one in parts), sum(one.rows for one in parts))
    assert not any(one.plain for one in parts[:-1])
    assert curve != "cap" or parts[0].rates == parts[2].rates


@given(
    st.integers(1, 12),
    st.integers(1, 40),
    st.integers(1, 12),
    st.integers(0, 60),
    st.booleans(),
)
def test_stages_add_up(
    multiple: int,
    parts: int,
    number: int,
    more: int,
    grows: bool,  # noqa: FBT001
) -> None:
    """Every stage changes whole multiples; stages differ by one multiple and by one row at most."""
    changed, over = multiple * parts, number + more
    start, end = (10, 10 + changed) if grows else (10 + changed, 10)
    if parts < number:
        with pytest.raises(ShapingFault):
            in_stages(start, end, over, number, multiple=multiple)
        return
    stages = in_stages(start, end, over, number, multiple=multiple)
    changes = [one.change // multiple for one in stages]
    rows = [one.rows for one in stages]
    assert (changed, over, end) == (sum(one.change for one in stages), sum(rows), stages[-1].sts)
    assert all(one.change % multiple == 0 for one in stages)
    assert max(changes) - min(changes) <= 1
    assert max(rows) - min(rows) <= 1


@given(st.integers(1, 400), st.integers(1, 200), CHANGES, st.booleans())
def test_spacings_add_up(sts: int, changes: int, change: Change, flat: bool) -> None:  # noqa: FBT001
    """Every stitch stands in one interval or edge; lengths differ by one, the rarer stand apart."""
    legs = legs_of(change)
    if changes * legs > sts:
        with pytest.raises(ShapingFault):
            evenly(sts, changes, change, flat=flat)
        return
    spacing = evenly(sts, changes, change, flat=flat)
    intervals = spacing.intervals
    assert sts == sum(spacing.edges) + sum(intervals)
    assert len(intervals) == (changes - 1 if flat else changes)
    assert not intervals or max(intervals) - min(intervals) <= 1
    even = intervals and intervals.count(min(intervals)) * 2 == len(intervals)
    assert not intervals or even or not neighbours_of_the_rarer(intervals)
    if flat:
        assert abs(spacing.edges[0] - legs - spacing.edges[1]) <= 1


@given(
    st.integers(1, 300),
    st.integers(1, 30),
    st.integers(1, 5),
    st.one_of(st.none(), st.integers(1, 10)),
    st.booleans(),
)
def test_holes_add_up(
    sts: int,
    number: int,
    width: int,
    margin: int | None,
    flat: bool,  # noqa: FBT001
) -> None:
    """Every stitch stands in one interval or edge, and between two holes there is one or more."""
    margin = margin if flat else None
    try:
        spacing = placed(sts, number, width, margin=margin, flat=flat)
    except ShapingFault:
        least = number * (width + 1) if margin is None else 2 * margin + number * (width + 1) - 1
        assert sts < least
        return
    intervals = spacing.intervals
    assert sts == sum(spacing.edges) + sum(intervals)
    assert number == len(intervals) + (spacing.edges[0] > 0)
    assert all(one > width for one in intervals)
    assert not intervals or max(intervals) - min(intervals) <= 1
    if margin is not None and number > 1:
        assert (margin + width, margin) == spacing.edges


@given(st.integers(1, 150), st.integers(1, 60), CHANGES)
def test_flat_intervals_read_the_same_from_both_ends(
    sts: int, changes: int, change: Change
) -> None:
    """Unless an even number of them holds an odd number of longer ones."""
    if changes * legs_of(change) > sts:
        return
    intervals = evenly(sts, changes, change, flat=True).intervals
    longer = sum(interval > min(intervals, default=0) for interval in intervals)
    assert intervals == intervals[::-1] or (len(intervals) % 2 == 0 and longer % 2 == 1)


@given(st.integers(1, 200), st.integers(1, 80), CHANGES, st.booleans())
def test_the_words_of_a_spacing_come_out(
    sts: int,
    changes: int,
    change: Change,
    flat: bool,  # noqa: FBT001
) -> None:
    """Counted as a row they take the stitches there and make those wanted."""
    if changes * legs_of(change) > sts:
        return
    words = words_of_spacing(evenly(sts, changes, change, flat=flat), change, "sc")
    how = "flat rows" if flat else "spiral rounds"
    checked = count(words, worked=how, start=f"{sts} sc")
    assert () == checked.problems
    assert checked.value is not None
    wanted = sts + changes if change == "inc" else sts - changes
    assert (wanted,) == checked.value.rows[-1].sts


@given(st.integers(0, 40), st.integers(1, 200), CHANGES, st.booleans(), st.booleans())
def test_the_words_of_a_plan_come_out(
    times: int,
    over: int,
    change: Change,
    rounds: bool,  # noqa: FBT001
    straight: bool,  # noqa: FBT001
) -> None:
    """As many rows are worked as were to be, with two stitches changed in each shaped one."""
    if times + straight > over:
        return
    words = words_of_plan(plan(times, over, straight_end=straight), change, ends=2, rounds=rounds)
    how = "joined rounds" if rounds else "flat rows"
    checked = count(words, worked=how, start="100 sc")
    assert () == checked.problems
    assert checked.value is not None
    row = checked.value.rows[-1]
    wanted = 100 + 2 * times if change == "inc" else 100 - 2 * times
    assert ((wanted,), over) == (row.sts, row.times[0])


@given(st.integers(2, 12), st.integers(1, 40), st.integers(1, 40), CHANGES)
def test_repeats_stay_whole(multiple: int, repeats: int, changes: int, change: Change) -> None:
    """Each change stands at the end of a repeat, or the answer is that none can be kept."""
    spacing = by_repeats(multiple * repeats, changes, change, multiple, flat=False)
    if changes > repeats:
        assert spacing is None
        return
    assert spacing is not None
    assert {0} == {interval % multiple for interval in spacing.intervals}
    assert multiple * repeats == sum(spacing.intervals)
