"""Changes spread over a row: where each stands, worked out by hand.

The half interval at both ends of a flat row is that of the published lesson on spacing evenly; that
no two of the rarer intervals are neighbours is common practice.
"""

from __future__ import annotations

import pytest

from workeven.arithmetic.shaping import by_repeats, evenly
from workeven.arithmetic.shaping.evenly import (
    Change,
    neighbours_of_the_rarer,
    spread_across,
    spread_between,
)

#: stitches, increases, the edges and the intervals between: 50 = 7 + 12 + 13 + 12 + 6
FLAT = [
    (50, 4, (7, 6), (12, 13, 12)),
    (51, 4, (7, 6), (13, 12, 13)),
    (52, 4, (7, 6), (13, 13, 13)),
    (53, 5, (6, 5), (10, 11, 11, 10)),
    (54, 5, (6, 5), (11, 11, 10, 11)),
    (9, 1, (5, 4), ()),
    (10, 1, (5, 5), ()),
    (3, 3, (1, 0), (1, 1)),
]


@pytest.mark.parametrize(("sts", "changes", "edges", "intervals"), FLAT)
def test_one_interval_of_a_flat_row_is_halved_to_its_edges(
    sts: int, changes: int, edges: tuple[int, int], intervals: tuple[int, ...]
) -> None:
    """That one of two which leaves as many plain stitches at both ends."""
    spacing = evenly(sts, changes, "inc", flat=True)
    assert (edges, intervals) == (spacing.edges, spacing.intervals)
    assert sts == sum(spacing.edges) + sum(spacing.intervals)


def test_a_decrease_ends_with_its_second_stitch() -> None:
    """20 sts, 4 decreases: 1 plain and the two together, three times 5, 2 plain."""
    spacing = spread_across(20, 4, 2)
    assert ((3, 2), (5, 5, 5)) == (spacing.edges, spacing.intervals)


#: stitches, changes, multiple, flat; edges and intervals, or None where repeats must be broken
REPEATS = [
    (60, 5, 6, False, (0, 0), (12, 12, 12, 12, 12)),
    (62, 5, 6, True, (6, 8), (12, 12, 12, 12)),
    (62, 5, 6, False, None, ()),
    (72, 5, 6, True, (12, 6), (12, 18, 12, 12)),
    (60, 11, 6, False, None, ()),
    (60, 0, 6, False, None, ()),
    (60, 10, 6, False, (0, 0), (6,) * 10),
]


@pytest.mark.parametrize(("sts", "changes", "multiple", "flat", "edges", "intervals"), REPEATS)
def test_changes_stand_at_the_ends_of_repeats(
    sts: int,
    changes: int,
    multiple: int,
    flat: bool,  # noqa: FBT001, a column of the table
    edges: tuple[int, int] | None,
    intervals: tuple[int, ...],
) -> None:
    """What is more than whole repeats stands behind the last change of a flat row."""
    spacing = by_repeats(sts, changes, "inc", multiple, flat=flat)
    found = (None, ()) if spacing is None else (spacing.edges, spacing.intervals)
    assert (edges, intervals) == found


@pytest.mark.parametrize(("change", "there"), [("inc", True), ("dec", False)])
def test_a_decrease_does_not_fit_into_a_repeat_of_one_stitch(change: Change, there: bool) -> None:  # noqa: FBT001
    """It takes two."""
    assert there == (by_repeats(20, 4, change, 1, flat=False) is not None)


@pytest.mark.parametrize(
    ("intervals", "side_by_side"),
    [
        ((6, 6, 7, 7, 6), True),
        ((6, 7, 6, 7), False),
        ((7, 6, 6, 7, 6), False),
        ((6, 6, 6), False),
        ((5, 6, 6, 5, 5, 6, 5), True),
    ],
)
def test_two_of_the_rarer_length_side_by_side_are_seen(
    intervals: tuple[int, ...],
    side_by_side: bool,  # noqa: FBT001, a column of the table
) -> None:
    """Of (7, 6, 6, 7, 6) the 7s are the rarer, and are apart."""
    assert side_by_side == neighbours_of_the_rarer(intervals)


@pytest.mark.parametrize(
    ("sts", "number", "intervals"),
    [(20, 4, (5, 5, 5, 5)), (22, 4, (5, 6, 6, 5)), (23, 4, (6, 6, 5, 6)), (24, 5, (5, 5, 4, 5, 5))],
)
def test_intervals_read_the_same_from_both_ends_where_they_can(
    sts: int, number: int, intervals: tuple[int, ...]
) -> None:
    """An even number of longer ones among an even number of intervals can; three of four cannot."""
    assert intervals == spread_between(sts, number)
