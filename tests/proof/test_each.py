"""Steps that take "each": how much room they have, and what they leave to the steps behind them.

Numbers are worked out by hand from notation.md, the table of steps.
"""

from __future__ import annotations

import pytest

from workeven.proof import counting

Answer = tuple[int | None, list[str]]


def counted(text: str, start: str, worked: str = "flat rows") -> Answer:
    """The stitches of the last row, and the codes of all problems."""
    found = counting.count(text, worked=worked, start=start)
    assert found.value is not None
    return found.value.rows[-1].sts[0], [one.code for one in found.problems]


def test_a_slip_stitch_that_evens_a_spiral_takes_no_stitch() -> None:
    """By the notation one that evens the end of a spiral is not counted."""
    row = "sc in each st around, sl st in next st"
    assert counted(row, "24 sc", "spiral rounds") == (24, [])


def test_each_stops_where_exactly_the_last_ones_are_left() -> None:
    """Of five stitches two are worked, the last three are left, and none is between them."""
    row = "sc in next 2 sts, sc in each st to last 3 sts, leave rem sts unworked, turn"
    assert counted(row, "5 sc") == (2, [])


def test_each_needs_the_last_ones_to_be_there() -> None:
    """Of four stitches two are worked, and two are not the last three."""
    row = "sc in next 2 sts, sc in each st to last 3 sts, leave rem sts unworked, turn"
    assert counted(row, "4 sc") == (2, ["row-uneven"])


def test_of_two_names_both_must_be_there() -> None:
    """Where the other spaces would be passed over unseen."""
    row = "sc in each dc and in each {} sp across, turn"
    assert counted(row.format("ch-1"), "5 dc, 4 ch-1 sps") == (9, [])
    assert counted(row.format("ch-2"), "5 dc, 4 ch-1 sps")[1] == ["row-no-such-place"]


@pytest.mark.parametrize(("before", "codes"), [(2, ["row-uneven"]), (3, []), (5, [])])
def test_each_stops_short_of_a_marker(before: int, codes: list[str]) -> None:
    """Three stitches are kept in front of it, if there are three."""
    turned = 8 - before
    rows = (
        f"sc in next {turned} sts, place marker, sc in each st across, turn\n"
        "sc in each st to 3 sts before marker, sc in each st across, turn"
    )
    assert counted(rows, "8 sc") == (8, codes)


@pytest.mark.parametrize(
    ("row", "start", "sts"),
    [
        ("sc2tog across, turn", "8 sc", 4),
        ("sc3tog in each st across, turn", "9 sc", 3),
        ("sc 1, (sc2tog) across, turn", "9 sc", 5),
    ],
)
def test_a_decrease_across_takes_all_its_legs(row: str, start: str, sts: int) -> None:
    """It comes out where they divide."""
    assert counted(row, start) == (sts, [])


@pytest.mark.parametrize(
    ("row", "start"),
    [("sc2tog across, turn", "9 sc"), ("sc3tog in each st across, turn", "10 sc")],
)
def test_a_leg_left_over_is_told(row: str, start: str) -> None:
    """One stitch too many."""
    assert counted(row, start)[1] == ["row-uneven"]


def test_each_leaves_the_turning_chain_to_the_step_that_names_it() -> None:
    """Of 20 dc the last is the chain: one stands over the first, 18 follow, two go into it."""
    rows = (
        "ch 22\ndc in 4th ch from hook, dc in each ch across, turn\n"
        "ch 3, dc in each dc across, 2 dc in top of tch, turn"
    )
    found = counting.count(rows).value
    assert found is not None
    assert found.rows[-1].sts == (21,)


def told(text: str, start: str, worked: str = "flat rows") -> list[tuple[str, str]]:
    """The problems of a text: code and what was found."""
    found = counting.count(text, worked=worked, start=start)
    return [(one.code, one.found) for one in found.problems]


def test_each_of_a_name_that_is_nowhere_says_what_is_there() -> None:
    """A row of sc has no spaces."""
    assert told("2 sc in each ch-2 sp across, turn", "9 sc") == [
        ("row-no-such-place", "there is no ch-2 sp in the row before: there are 9 sc.")
    ]


def test_each_up_to_a_name_that_is_nowhere_says_what_is_there() -> None:
    """A row of sc has no spaces to stop at."""
    assert told("sc in each sc to next ch-2 sp, sc in next st, turn", "9 sc") == [
        ("row-no-such-place", "there is no ch-2 sp in the row before: there are 9 sc.")
    ]


@pytest.mark.parametrize(
    ("row", "sts"),
    [
        ("*sc in next 2 sts, inc; rep from * across, sc in next 2 sts, turn", 14),
        ("*sc in next 2 sts, sk 1 st; rep from * across, sc in last 2 sts, turn", 8),
        ("*sc in next 2 sts; rep from * across, sk next st, sc2tog, turn", 9),
        ("*sc in next 2 sts; rep from * across, (sc in next st) 3 times, turn", 11),
        ("*sc in next 2 sts; rep from * across, dec, sc in next st, turn", 10),
        ("*sc in next 2 sts; rep from * across, sc 3, turn", 11),
        ("*sc in next 2 sts; rep from * across, inc in last st, turn", 12),
    ],
)
def test_an_open_repeat_leaves_what_the_steps_behind_it_need(row: str, sts: int) -> None:
    """Over eleven stitches there is one number of repeats with which each of these comes out."""
    assert counted(row, "11 sc") == (sts, [])
