"""Second readings: taken with advice when only one other comes out, and never otherwise."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count


def _told(rows: str, worked: str, start: str) -> tuple[tuple[str, ...], int | None]:
    checked = count(rows, worked=worked, start=start)
    assert checked.value is not None
    codes = tuple(problem.code for problem in checked.problems)
    return codes, checked.value.rows[-1].sts[0]


@pytest.mark.parametrize(
    ("rows", "worked", "start", "sts"),
    [
        pytest.param("ch 3, dc in each of next 20 sts", "flat rows", "20 sc", 20, id="not counted"),
        pytest.param(
            "ch 2, dc in each of next 19 sts, turn", "flat rows", "20 sc", 20, id="ch 2 as dc"
        ),
        pytest.param(
            "ch 4, sk next st, dc in next st, *ch 1, sk 1 st, dc in next st; rep from * across",
            "flat rows",
            "21 dc",
            11,
            id="ch 4 as dc and ch 1",
        ),
        pytest.param(
            "ch 1, sc in same st, *ch 5, sk 3 sts, sc in next st; rep from * around, join",
            "joined rounds",
            "24 sc",
            6,
            id="last step done by the start",
        ),
        pytest.param(
            "ch 3 (counts as dc), 3 dc in same st, *sk 3 sts, 4 dc in next st; "
            "rep from * around, join",
            "joined rounds",
            "24 sc",
            24,
            id="only a skip remains",
        ),
        pytest.param(
            "ch 3 (counts as dc), dc in each st to last 2 sts, turn (18)",
            "flat rows",
            "20 sc",
            18,
            id="flat row stops early",
        ),
    ],
)
def test_the_only_other_reading_is_taken_with_advice(
    rows: str, worked: str, start: str, sts: int
) -> None:
    """What was left unsaid is put in where only so the row comes out, and the advice says it."""
    assert _told(rows, worked, start) == (("row-reading",), sts)


@pytest.mark.parametrize(
    ("rows", "worked", "start"),
    [
        pytest.param(
            "ch 3 (counts as dc), dc in each of next 20 sts", "flat rows", "20 sc", id="said"
        ),
        pytest.param("ch 1, sc in each of next 19 sts, turn", "flat rows", "20 sc", id="ch 1"),
        pytest.param(
            "ch 3 (counts as dc), dc in each st to last 2 sts, turn",
            "flat rows",
            "20 sc",
            id="stops early unstated",
        ),
        pytest.param(
            "ch 1, sc in same st, *ch 5, sk 3 sts, sc in next st; rep from * across, turn",
            "flat rows",
            "24 sc",
            id="in flat rows nothing is left unsaid",
        ),
    ],
)
def test_what_is_said_or_has_no_other_way_stays_an_error(
    rows: str, worked: str, start: str
) -> None:
    """A row that is wrong in every reading that the notation allows is told as wrong."""
    codes, _ = _told(rows, worked, start)
    assert codes == ("row-uneven",)


def test_a_reading_must_come_out_in_every_size() -> None:
    """With 20 and 21 sts no one way to read the chain suits both sizes."""
    checked = count("ch 3, dc in each of next 20 sts", start="20 (22) sc", sizes=("S", "L"))
    assert [problem.code for problem in checked.problems] == ["row-uneven"]


def test_a_turning_chain_is_no_chain_that_a_stated_count_may_take_for_a_stitch() -> None:
    """18 are made: 19 are there only with the ch 1 that turns the work."""
    rows = "ch 1, 5 dc in next 5 sts, ch 4 (counts as 4 sts), sk 7 sts, dc across, ch 1, turn (19)"
    assert ("count-stated",) == _told(rows, "flat rows", "21 dc")[0]
