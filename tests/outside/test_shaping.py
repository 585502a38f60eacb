"""Shaping along a length and across a row, against published worked examples."""

from __future__ import annotations

import pytest

from workeven.arithmetic.shaping import Rate, along, evenly, plan, steps_between


def test_two_rates_of_the_published_lesson() -> None:
    """140 rows and 36 increases: quotient 3, rest 32.

    Citation: http://www.getknitting.com/ak_0601magicformula.aspx ("every 3rd row 4 times, every
    4th row 32 times; 3x4 + 4x32 = 140").
    """
    assert (Rate(every=3, times=4), Rate(every=4, times=32)) == plan(36, 140).rates


def test_a_straight_end_divides_by_one_more() -> None:
    """70 to 100 sts, 15 pairs, over 90 rows: every 5 rows 6 times, every 6 rows 9 times, 6 plain.

    Citation: Knitting & Crochet Guild, https://kcguild.org.uk/learn/design/calculate-increases/
    (second-hand).
    """
    planned = plan(steps_between(70, 100, 2), 90, straight_end=True)
    assert ((Rate(every=5, times=6), Rate(every=6, times=9)), 6) == (planned.rates, planned.plain)


def test_a_flat_sleeve_shaped_on_right_side_rows() -> None:
    """43 to 93 sts are 25 increase rows; 166 / 25 = 6.64 is taken as 6, "intervals kept even".

    Citation: http://www.studio-miranda.com/blog/2015/9/how-to-calculate-sleeve-shaping-for-flat-
    knitting-using-excel. The source keeps every interval at 6 and leaves 16 rows plain; here they
    go to a second rate of 8, so that the shaping reaches the end (as the two-rate lesson does).
    """
    assert 25 == steps_between(43, 93, 2)
    planned = plan(25, 166, every_second_row=True)
    assert (Rate(every=6, times=17), Rate(every=8, times=8)) == planned.rates
    assert 166 == planned.rows


@pytest.mark.parametrize(
    ("cuff", "top", "pairs"),
    [
        (50, 72, 11),  # https://knittingunplugged.com/2016/05/23/how-to-figure-out-decrease-…
        (38, 60, 11),  # http://kristentendyke.blogspot.com/ ("parity must match 60")
    ],
)
def test_increase_pairs_of_a_sleeve(cuff: int, top: int, pairs: int) -> None:
    """Both counts have the same parity, and half of the difference is the number of pairs."""
    assert pairs == steps_between(cuff, top, 2)


@pytest.mark.parametrize(
    ("sts", "changes", "intervals"),
    [
        # http://woolpackyarn.com/calculating-where-to-place-the-increases.html: every 7 sts
        (112, 16, [7] * 16),
        # http://www.knitabit.net/wisdom/increaseevenly.htm: every 9th 10 times, every 10th once
        (100, 11, [9] * 10 + [10]),
        # https://moderndailyknitting.com/community/techniques-in-depth-evenly-across-part-i
        (48, 6, [8] * 6),
    ],
)
def test_increases_around(sts: int, changes: int, intervals: list[int]) -> None:
    """The published intervals, in whatever order they stand."""
    assert intervals == sorted(evenly(sts, changes, "inc", flat=False).intervals)


@pytest.mark.parametrize(
    ("sts", "changes", "lengths"),
    [(100, 16, {6, 7}), (140, 21, {6, 7})],
)
def test_increases_across_a_row(sts: int, changes: int, lengths: set[int]) -> None:
    """100 sts and 16 increases: after every 6th; 140 and 21: after 6, 7, 6, 7 …, 4 left over.

    Citation: the lesson quoted at https://neasesneedlework.com/embroider/how-do-you-reduce-
    stitches-evenly-in-a-row.html. The lesson begins with a whole interval and leaves 4 at the end;
    here the interval at the edges is halved, so one of 6.25 is 6 or 7.
    """
    spacing = evenly(sts, changes, "inc", flat=True)
    assert lengths == set(spacing.intervals)
    assert abs(spacing.edges[0] - 1 - spacing.edges[1]) <= 1


def test_picking_up_along_an_edge() -> None:
    """204 over 8 sections: four of 25 and four of 26, alternating.

    Citation: https://crochetkim.com/picking-up-stitches-evenly-across/ (200 over 8: 25 each).
    """
    assert (25,) * 8 == evenly(200, 8, "inc", flat=False).intervals
    assert (26, 25) * 4 == evenly(204, 8, "inc", flat=False).intervals


def test_stitches_of_a_set_in_armhole() -> None:
    """132 sts at the bust and 92 across the back: 20 for each armhole.

    Citation: https://www.sistermountain.com/blog/design-knit-set-in-sleeve (second-hand).
    """
    assert 20 == steps_between(132, 92, 2)


def test_armhole_decreases_of_a_published_top() -> None:
    """After the bind-off: 68 (74, 81 … 113) sts become 60 (62, 67 … 81), one at each end a row.

    Citation: Lion Brand Coboo shell top, https://www.joann.com/lion-brand-coboo-suttons-shell-
    top/312361226P403.html; 4 (6, 7, 10, 12, 14, 16) decrease rows, each a row.
    """
    before = (68, 74, 81, 90, 97, 106, 113)
    after = (60, 62, 67, 70, 73, 78, 81)
    rows = [steps_between(*counts, 2) for counts in zip(before, after, strict=True)]
    assert [4, 6, 7, 10, 12, 14, 16] == rows
    assert [(Rate(every=1, times=times),) for times in rows] == [
        plan(times, times).rates for times in rows
    ]


@pytest.mark.parametrize(
    ("back", "left", "shoulders", "rows"),
    [
        (78, 4, 60, 5),
        (84, 4, 62, 7),
        (93, 5, 67, 8),
        (102, 5, 70, 11),
        (111, 6, 73, 13),
        (120, 6, 78, 15),
        (129, 7, 81, 17),
    ],
)
def test_armholes_of_a_published_top_in_seven_sizes(
    back: int, left: int, shoulders: int, rows: int
) -> None:
    """What is left at each side at once, then one stitch at each end of every row.

    Citation: https://www.joann.com/lion-brand-coboo-suttons-shell-top/312361226P403.html: "sl st 4
    (4, 5, 5, 6, 6, 7) each side and 1 dec each end", then so in 4 (6, 7, 10, 12, 14, 16) rows, to
    60 (62, 67, 70, 73, 78, 81). Its first decrease is in the row of the slip stitches.
    """
    times = steps_between(back - 2 * left, shoulders, 2)
    assert rows == times
    assert (Rate(every=1, times=rows),) == along("quick first", times, rows)[0].rates
