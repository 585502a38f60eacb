"""What steps make: stitches, spaces, groups and the yarn that goes into them, counted by hand."""

from __future__ import annotations

import pytest

from workeven.notation.tree import Amount, Chain, Foundation, Picot, Stitch
from workeven.proof import counting
from workeven.proof.context import SizeContext
from workeven.proof.making import Made, chain_between, make, make_foundation, make_picot

ONE_SIZE = SizeContext(index=0, sizes=1)
V_STITCH = ("V-st = (dc, ch 1, dc) in same st",)
V_ROUND = (
    "ch 4 (counts as dc and ch 1), dc in same st, sk 1 st, *V-st in next st, sk 1 st; "
    "rep from * around, join"
)


def made_by(text: str, start: str, worked: str = "flat rows", **more: tuple[str, ...]) -> object:
    """What the last row of a text makes; its problems, if there are any."""
    found = counting.count(text, worked=worked, start=start, stitches=more.get("stitches", ()))
    assert found.value is not None
    if found.problems:
        return [one.code for one in found.problems]
    return dict(found.value.rows[-1].makes[0] or ())


def test_a_picot_takes_yarn_and_leaves_no_place() -> None:
    """Three chains and a slip stitch."""
    made = Made(ONE_SIZE)
    make_picot(made, Picot(Amount((3,))))
    assert (made.worked, made.makes, made.sts) == ({"ch": 3, "sl st": 1}, {"picot": 1}, 0)


def test_picots_in_a_group_take_yarn_as_often_as_the_group_is_made() -> None:
    """Four times a sc and a picot of three chains."""
    made = Made(ONE_SIZE)
    make(made, (Stitch("sc"), Picot(Amount((3,)))), 4)
    assert (made.worked, made.sts) == ({"sc": 4, "ch": 12, "sl st": 4}, 4)


def test_a_foundation_row_is_yarn_and_stitches() -> None:
    """Forty fsc, which are worked as such and can be worked into."""
    made = Made(ONE_SIZE)
    make_foundation(made, Foundation("fsc", Amount((40,))))
    assert (made.worked, made.sts) == ({"fsc": 40}, 40)


def test_a_chain_between_steps_is_yarn_and_one_space() -> None:
    """Five chains."""
    made = Made(ONE_SIZE)
    chain_between(made, Chain(Amount((5,))), 5)
    assert (made.worked, made.makes) == ({"ch": 5}, {"ch-5 sp": 1})


GROUPS = (
    "ch 3 (counts as dc), 4 dc in same st, sk 2 sts, *5 dc in next st, sk 2 sts; "
    "rep from * around, join"
)


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ("4 groups", {"dc": 20}),
        ("4 shells", {"dc": 20}),
        ("5 groups", ["count-stated"]),
        ("3 shells", ["count-stated"]),
    ],
)
def test_a_group_that_begins_with_a_chain_is_one(stated: str, told: object) -> None:
    """The chain and four dc are a group of five, as the three others are."""
    assert made_by(f"{GROUPS} ({stated})", "12 sc", "joined rounds") == told


def test_a_chain_in_a_group_that_does_not_count_leaves_no_space() -> None:
    """Two dc in each of four stitches, and nothing between them."""
    row = "*(dc, ch 1 (does not count as st), dc) in next st, sk 1 st; rep from * across, turn"
    assert made_by(row, "8 sc") == {"dc": 8}


def test_a_chain_between_steps_may_stand_for_a_stitch_and_a_space() -> None:
    """As one at the head of a row does."""
    row = "sc in next 3 sts, ch 5 (counts as dc and ch 2), sk 1 st, sc in each st across, turn"
    assert made_by(row, "9 sc") == {"sc": 8, "dc": 1, "ch-2 sp": 1}


def test_chains_that_count_as_stitches_count_one_each() -> None:
    """Three chains are not two stitches."""
    row = "dc in next st, ch 3 (counts as {} sts), sk 3 sts, dc in each st across, turn"
    assert made_by(row.format(2), "9 dc") == ["row-chains-counted"]
    assert made_by(row.format(3), "9 dc") == {"dc": 6, "ch": 3}


@pytest.mark.parametrize(("stated", "told"), [(8, {"dc": 16, "ch-1 sp": 8}), (9, ["count-stated"])])
def test_a_special_stitch_that_begins_with_a_chain_is_one(stated: int, told: object) -> None:
    """The first V-st is the chain and the dc in the same place: eight over sixteen stitches."""
    row = f"{V_ROUND} ({stated} V-sts)"
    assert made_by(row, "16 sc", "joined rounds", stitches=V_STITCH) == told


def test_the_first_special_stitch_is_found_as_the_others_are() -> None:
    """Eight groups of three: one in the first V-st's space, seven in the middle of the others."""
    rows = (
        f"{V_ROUND}\nsl st to next ch-1 sp, ch 3 (counts as dc), 2 dc in same sp, "
        "*3 dc in center of next V-st; rep from * around, join"
    )
    assert made_by(rows, "16 sc", "joined rounds", stitches=V_STITCH) == {"dc": 24}


def test_what_lies_before_a_space_is_counted_by_its_name() -> None:
    """Two of five dc are worked into, three passed; of sc there are three before the space."""
    rows = (
        "dc in next 5 sts, sc in next 3 sts, ch 2, sk 2 sts, dc in each st across, do not turn\n"
        "sc in next 2 dc, sc in each sc to next ch-2 sp, 2 sc in ch-2 sp, sc in each st across"
    )
    assert made_by(rows, "14 sc") == {"sc": 11}
