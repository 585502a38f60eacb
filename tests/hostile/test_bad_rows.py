"""Rows that nobody should write are counted or refused, with a place, never with a traceback."""

from __future__ import annotations

import pytest

from benchmarks.bad_input import BAD
from workeven.proof.counting import count

#: bad rows in which nothing has to be refused: they make chains only, or say nothing of stitches
COUNTED = {"a bracket that takes nothing", "working behind"}


def codes(text: str) -> list[str]:
    """The codes of what is told of rows over 40 sc."""
    return [problem.code for problem in count(text, start="40 sc").problems]


@pytest.mark.parametrize("name", BAD)
def test_a_bad_row_has_a_message_with_a_place(name: str) -> None:
    """It points into the text."""
    text = BAD[name]
    problems = count(text, start="40 sc").problems
    lines = text.splitlines()
    placed = [
        1 <= problem.span.line <= len(lines)
        and 1 <= problem.span.column <= len(lines[problem.span.line - 1]) + 1
        for problem in problems
    ]
    assert all(placed)
    assert bool(problems) != (name in COUNTED)


def test_a_bracket_with_nothing_in_it_is_told() -> None:
    """It is no stitch, whatever stands behind it."""
    assert "row-takes-nothing" in codes("[] across, turn (20 sc)")
    assert codes("[] across, dc in top of tch")


def test_a_range_of_rows_that_runs_back_is_told() -> None:
    """There are no rows from 5 to 2."""
    assert ["row-no-such-row"] == codes("ch 1, sc in each st across\nrep Rows 5-2")


def test_repeats_nest_six_deep_and_no_deeper() -> None:
    """Each turn of a repeat may be worked a few times before it is seen to be alike."""
    nested = "{opened}sc 1{closed}"
    six = nested.format(opened="[" * 5 + "sc 1, ", closed="] twice" * 5)
    eight = nested.format(opened="[sc 1, " * 8, closed="] twice" * 8)
    assert "row-not-understood" not in codes(six)
    assert ["row-not-understood"] == codes(eight)
    assert ["row-not-understood"] == codes("2x (" * 390 + "sc" + ")" * 390)


def test_a_row_has_at_most_four_hundred_steps() -> None:
    """One of 400 is counted."""
    assert ["row-uneven"] == codes(", ".join(["sc"] * 400))
    assert ["row-too-long"] == codes(", ".join(["sc"] * 401))


def test_a_number_of_stitches_too_far_off_is_never_reached() -> None:
    """However slowly the rows grow towards it."""
    rows = "ch 1, 2 sc in first st, sc in each st across\nrep last row until there are 999999 sc"
    assert ["count-not-reached"] == codes(rows)


def test_shaping_in_every_other_row_goes_on_until_there_are_so_many() -> None:
    """A row that changes nothing is no standstill where the next one does."""
    rows = (
        "ch 1, sc2tog, sc in each st across\nch 1, sc in each st across\n"
        "rep last 2 rows until there are 10 sc"
    )
    counted = count(rows, start="40 sc")
    assert counted.value is not None
    assert ((57,), (10,)) == (counted.value.rows[-1].times, counted.value.rows[-1].sts)
