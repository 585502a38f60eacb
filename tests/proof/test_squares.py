"""Squares of filet by the piece's own definition."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count

SQUARES = ("sp = ch 2, sk 2, dc", "block = 3 dc")
BY_NAME = (
    "sp = ch 2, sk next 2 dc or next ch-2 sp, dc in next dc",
    "block = dc in next 2 dc or 2 dc in next ch-2 sp, dc in next dc",
)


@pytest.mark.parametrize("stitches", [SQUARES, BY_NAME])
@pytest.mark.parametrize(
    ("row", "makes"),
    [
        ("beg sp, 5 sps, turn", {"dc": 7, "ch-2 sp": 6}),
        ("beg block, block across, turn", {"dc": 19}),
        ("beg sp, [block, sp] twice, block", {"dc": 13, "ch-2 sp": 3}),
        ("ch 3 (counts as dc), 2 sps, 4 blocks", {"dc": 15, "ch-2 sp": 2}),
        ("beg sp, block over each of next 3 squares, 2 sps", {"dc": 13, "ch-2 sp": 3}),
    ],
)
def test_a_square_goes_into_the_places_that_come_next(
    stitches: tuple[str, ...], row: str, makes: dict[str, int]
) -> None:
    """Over two spaces, two blocks and two spaces, in both ways to define them."""
    checked = count(
        row.replace("squares", "sps"), start="2 sps, 2 blocks, 2 sps", stitches=stitches
    )
    assert checked.value is not None
    assert ((), makes) == (checked.problems, dict(checked.value.rows[0].makes[0] or ()))


@pytest.mark.parametrize(
    ("row", "codes"),
    [
        ("beg sp, 6 sps, turn", ["row-uneven"]),
        ("beg sp, 4 sps, turn", ["row-uneven"]),
        ("beg sp, 2 blocks, 3 sps, turn (3 blocks)", ["count-stated"]),
        ("beg sp, 2 blocks, 3 sps, turn (2 blocks, 4 sps)", []),
        ("beg block, 2 blocks, 3 sps, turn (6 squares)", []),
    ],
)
def test_squares_too_many_or_wrongly_stated_are_told(row: str, codes: list[str]) -> None:
    """Six squares are there."""
    problems = count(row, start="6 sps", stitches=SQUARES).problems
    assert codes == [problem.code for problem in problems]
