"""Rows that grow from one to the next."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count

LOOPS = "Rnd 1: ch 1, *sc in next sc, ch 3; rep from * around, join\n"
SHELLS = (
    "Rnd 1: sl st to next ch-2 sp, ch 3 (counts as dc), (dc, ch 2, 2 dc) in same sp, ch 1, "
    "*(2 dc, ch 2, 2 dc) in next ch-2 sp, ch 1; rep from * around, join\n"
)
INCREASES = "Rnd 1: [sc 2, inc] around\n"


@pytest.mark.parametrize(
    ("rows", "start", "makes"),
    [
        (
            LOOPS + "Rnds 2-4: rep Rnd 1 with 1 more ch each rnd",
            "8 sc",
            {"sc": 8, "ch-6 sp": 8},
        ),
        (LOOPS + "Rnd 2: rep Rnd 1 with ch 5 instead of ch 3", "8 sc", {"sc": 8, "ch-5 sp": 8}),
        (
            SHELLS + "Rnds 2-4: rep Rnd 1 with 1 more ch between shells each rnd",
            "6 ch-2 sps, 12 dc",
            {"dc": 24, "ch-2 sp": 6, "ch-4 sp": 6},
        ),
        (
            INCREASES + "Rnds 2-3: cont as set, with 1 more sc between incs each rnd",
            "18 sc",
            {"sc": 36},
        ),
    ],
)
def test_each_row_is_a_little_larger(rows: str, start: str, makes: dict[str, int]) -> None:
    """Loops, another length, chains between shells, runs between increases."""
    checked = count(rows, start=start, worked="joined rounds")
    assert checked.value is not None
    assert ((), makes) == (checked.problems, dict(checked.value.rows[-1].makes[0] or ()))


@pytest.mark.parametrize(
    "words",
    [
        "rep Rnd 1 with ch 5 instead of ch 4",
        "rep Rnd 1 with 5 fewer ch in each loop",
        "rep Rnd 1 with 1 more sc between incs each rnd",
    ],
)
def test_what_cannot_be_told_is_said(words: str) -> None:
    """There is no ch 4, not so many chains, no increase."""
    problems = count(LOOPS + f"Rnd 2: {words}", start="8 sc", worked="joined rounds").problems
    assert ["row-not-understood"] == [problem.code for problem in problems]
