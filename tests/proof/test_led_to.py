"""The space that slip stitches lead to: worked into where a space is named without "next"."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count

#: a hexagon of 24 dc: between two of its six spaces are 4 dc, the first of them behind the join
HEXAGON = """\
Ch 5, join with sl st in first ch
ch 3 (counts as dc), dc in ring, ch 1, *2 dc in ring, ch 1; rep from * 4 more times, join with \
sl st in top of ch-3 (12 dc, 6 ch-1 sps)
Sl st in next dc and in ch-1 sp, ch 4 (counts as dc and ch 1), dc in same sp, dc in each of next \
2 dc, *(dc, ch 1, dc) in next ch-1 sp, dc in each of next 2 dc; rep from * 4 more times, join \
with sl st in 3rd ch of ch-4 (24 dc, 6 ch-1 sps)
{}, sc in each of next 4 dc; rep from * 5 more times, join with sl st in first sc (42 sc)"""


@pytest.mark.parametrize(
    "head",
    [
        "Sl st in ch-1 sp, ch 1, *3 sc in ch-1 sp",
        "Sl st to ch-1 sp, ch 1, *3 sc in ch-1 sp",
        "Sl st to next ch-1 sp, *3 sc in same sp",
    ],
)
def test_a_space_named_alone_is_the_one_that_slip_stitches_lead_to(head: str) -> None:
    """6 × (3 + 4) = 42 sc; the last of the 24 dc is the one that the slip stitch passed."""
    checked = count(HEXAGON.format(head), worked="joined rounds")
    assert () == checked.problems
    assert checked.value is not None
    assert (42,) == checked.value.rows[-1].sts


@pytest.mark.parametrize(
    "head",
    [
        "Sl st in ch-1 sp, ch 1, *3 sc in next ch-1 sp",
        "Sl st to next ch-1 sp, *3 sc in next ch-1 sp",
    ],
)
def test_next_space_behind_it_is_the_default_and_this_one_the_second_reading(head: str) -> None:
    """The space behind it leaves no dc for the last turn; it comes out from where the hook is."""
    (advice,) = count(HEXAGON.format(head), worked="joined rounds").problems
    assert "row-reading" == advice.code
    assert "the space that the slip stitches lead to" in advice.found


def test_stitches_that_are_slipped_into_are_used_up() -> None:
    """``sl st in first 3 sts, sc in st`` works the fourth: 3 passed and 1 of 12, 8 are left."""
    (problem,) = count("sl st in each of first 3 sts, ch 1, sc in st", start="12 sc").problems
    assert "row-uneven" == problem.code
    assert "8" in problem.found + problem.expected


@pytest.mark.parametrize("corner", ["center sc of any corner", "center sc of any 3-sc group"])
def test_yarn_is_joined_in_the_middle_of_any_corner(corner: str) -> None:
    """42 sc in six corners of 3 and sides of 4: 3 more in each middle, 6 sc a side: 54."""
    rounds = HEXAGON.format("Sl st in ch-1 sp, ch 1, *3 sc in ch-1 sp") + (
        f"\njoin B with sl st in {corner}, ch 1, *3 sc in {corner.replace('any', 'next')}, sc in "
        "each of next 6 sc; rep from * 5 more times, join with sl st in first sc"
    )
    checked = count(rounds, worked="joined rounds")
    assert () == checked.problems
    assert checked.value is not None
    assert (54,) == checked.value.rows[-1].sts
