"""The cost of counting grows with the text, not with the stitches or the rows that it stands for.

What is counted is the work itself: every call that the package makes. No clock is read.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from types import FrameType

import pytest

from workeven.proof.counting import count

#: how much more a hundred times the stitches may cost (performance goal 8)
AT_MOST = 1.2


def calls(work: Callable[[], object]) -> int:
    """How many functions the package calls, its own and those of Python."""
    number = 0

    def called(frame: FrameType, event: str, _: object) -> None:
        nonlocal number
        if event in ("call", "c_call") and frame.f_globals.get("__name__", "").startswith(
            "workeven"
        ):
            number += 1

    sys.setprofile(called)
    try:
        work()
    finally:
        sys.setprofile(None)
    return number


def cost(text: str, worked: str, start: str) -> int:
    """What it costs to count rows, which come out."""
    stitches = ("shell = 5 dc in same st",)
    checked = count(text, worked=worked, start=start, stitches=stitches)
    assert not [problem for problem in checked.problems if problem.code != "row-turning-chain"]
    # the rows are read already: what is measured is the counting
    return calls(lambda: count(text, worked=worked, start=start, stitches=stitches))


#: rows by what they are: how they are worked, the stitches below them (times ``{n}``)
ROWS = {
    "plain": (
        "flat rows",
        "{n}0 sc",
        (
            "ch 3 (counts as dc), dc in each st across\nch 1, sc in each st across\n"
            "ch 1, *sc 3, sc2tog; rep from * across"
        ),
    ),
    "waves": (
        "flat rows",
        "{n}2 dc",
        (
            "ch 3 (counts as dc), dc in each of next 2 sts, *sk 3 sts, 4 dc in next st; rep from * "
            "to last 3 sts, dc in each st across"
        ),
    ),
    "mesh": (
        "flat rows",
        "{n}1 dc",
        (
            "ch 4 (counts as dc and ch 1), sk next st, dc in next st, *ch 1, sk 1 st, dc in next "
            "st; rep from * across\n"
            "ch 4 (counts as dc and ch 1), *dc in next dc, ch 1; rep from * across, "
            "dc in 3rd ch of tch"
        ),
    ),
    "shells": (
        "joined rounds",
        "{n}0 sc",
        (
            "ch 1, sc in same st, *sk 2 sts, shell in next st, sk 2 sts, sc in next st; rep from * "
            "to last 5 sts, sk 2, shell in next st, sk 2, join with sl st to first sc\n"
            "ch 1, *sc in next sc, ch 2, sc in center dc of next shell, ch 2; rep from * around, "
            "join\n"
            "ch 1, *sc in each sc to next ch-2 sp, 2 sc in next ch-2 sp; rep from * around, join"
        ),
    ),
    "repeats over groups": (
        "flat rows",
        "{n}0 sc",
        (
            "ch 1, 42 sc in each st across\n"
            "ch 1, *sk next 2 sts, 2 sc in next st, ch 1; rep from * across"
        ),
    ),
    "repeats in repeats": (
        "spiral rounds",
        "{n}0 sc",
        ("*[sc 1, inc] twice, [sc2tog] twice, sc 2; rep from * around\n[sc 1, ch 1, sk 1] around"),
    ),
}


@pytest.mark.parametrize("name", ROWS)
def test_a_hundred_times_the_stitches_cost_the_same(name: str) -> None:
    """The same words over a hundred times as many stitches."""
    worked, start, rows = ROWS[name]
    few = cost(rows, worked, start.format(n=6))
    many = cost(rows, worked, start.format(n=600))
    assert many <= AT_MOST * few


@pytest.mark.parametrize(
    "rows",
    [
        pytest.param("ch 1, sc in each st across\nrep last row {times} more times", id="a row"),
        pytest.param(
            "ch 1, sc in each st across\nch 3, dc in each st across\nrep last 2 rows {times} more "
            "times",
            id="two rows",
        ),
        pytest.param(
            "ch 4 (counts as dc and ch 1), sk 2 sts, dc in next st, *ch 1, sk 1 st, dc in next st; "
            "rep from * across\n"
            "ch 4 (counts as dc and ch 1), *dc in next dc, ch 1; rep from * across, "
            "dc in 3rd ch of tch\n"
            "rep last row {times} more times",
            id="a row of mesh",
        ),
        pytest.param("work even for {times} rows", id="even"),
        pytest.param(
            "ch 1, 2 sc in first st, sc in each st across\nch 3, dc in each st across\n"
            "rep last 2 rows {times} more times",
            id="rows that grow",
        ),
        pytest.param("Rows 1-{times}: ch 1, sc in each st across", id="a range"),
    ],
)
def test_a_line_costs_the_same_for_however_many_rows_it_stands(rows: str) -> None:
    """Rows that give back the fabric that they began with are added up, not walked."""
    few = cost(rows.format(times=9), "flat rows", "40 sc")
    many = cost(rows.format(times=4999), "flat rows", "40 sc")
    assert many <= AT_MOST * few


def test_rows_behind_many_rows_cost_no_more() -> None:
    """A line that stands for thousands of rows is not carried along, row by row, by the next."""
    rows = "ch 1, sc in each st across\nrep last row {times} more times\n" + "\n".join(
        ["ch 1, sc in each st across"] * 6
    )
    few = cost(rows.format(times=9), "flat rows", "40 sc")
    many = cost(rows.format(times=9999), "flat rows", "40 sc")
    assert many <= AT_MOST * few


def test_four_times_the_rows_cost_four_times_as_much() -> None:
    """No row costs more because more rows are before it."""
    rows = "\n".join(
        f"Row {at}: ch 1, [sc {at}] twice, sc in each st across" for at in range(1, 11)
    )
    more = "\n".join(
        f"Row {at}: ch 1, [sc {at}] twice, sc in each st across" for at in range(1, 41)
    )
    few = cost(rows, "flat rows", "90 sc")
    many = cost(more, "flat rows", "90 sc")
    assert many <= 4.1 * few


@pytest.mark.parametrize(
    ("row", "start"),
    [
        pytest.param(
            "[sc 1, sc2tog] {times} times", "12 sc", id="of which the most have no places"
        ),
        pytest.param(
            "[3 sc in next st and place marker in center st, sc in next 9 sts] {times} times",
            "999983 sc",
            id="with markers",
        ),
        pytest.param(
            "dec 1 st at each end every 7th row {times} times", "40 sc", id="of shaped rows"
        ),
    ],
)
def test_a_number_of_times_without_sense_costs_little(row: str, start: str) -> None:
    """What is told wrong is counted on for the rows behind it, and not to the end of the world."""
    few = calls(lambda: count(row.format(times=1_000), start=start))
    many = calls(lambda: count(row.format(times=999_999), start=start))
    assert many <= AT_MOST * few


def test_what_comes_out_nearby_is_not_sought_for_ever() -> None:
    """Where the row before has many stretches, a try does not cost their number squared."""

    def offered(groups: int) -> int:
        made = ", ".join(f"{at % 5 + 1} dc in next st, ch {at % 3 + 1}" for at in range(groups))
        rows = (
            f"ch 1, [{made}] 9 times\n"
            "ch 3, *dc in next dc, 2 dc in next ch-2 sp; rep from * across, 7 tr in last 5 sts"
        )
        return calls(lambda: count(rows, start=f"{9 * groups} sc"))

    assert offered(120) <= 6 * offered(30)
