"""Leaves and picots stand off the row: what is worked along their chains is no place of it."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count

LEAVES = "*sc in next 3 sts, ch 7, sc in 2nd ch from hook and in next 5 chs, sc in same st; rep"


def counted(rows: str) -> tuple[dict[str, int], tuple[str, ...]]:
    """What the last row makes over 12 sc in a spiral, and the codes of all problems."""
    checked = count(rows, worked="spiral rounds", start="12 sc")
    assert checked.value is not None
    codes = tuple(problem.code for problem in checked.problems)
    return dict(checked.value.rows[-1].makes[0] or {}), codes


def test_the_stitches_of_a_leaf_are_not_those_of_the_round() -> None:
    """16 are of the round, with the one that closes each leaf; 24 of the leaves are made too."""
    assert ({"sc": 40}, ()) == counted(f"{LEAVES} from * around (16 sc)")
    assert ({"sc": 40}, ()) == counted(f"{LEAVES} from * around (40 sc)")


def test_the_next_round_goes_by_the_leaves() -> None:
    """``sc in each st`` are those of the round alone."""
    assert ({"sc": 16}, ()) == counted(f"{LEAVES} from * around\nsc in each st around (16 sc)")


def test_a_round_may_go_along_the_sides_of_leaves() -> None:
    """notation.md: "5 sc along first side of leaf" reaches them."""
    along = (
        "*5 sc along first side of next leaf, 3 sc in point of leaf, 5 sc along other side; "
        "rep from * 3 more times"
    )
    assert ({"sc": 52}, ()) == counted(f"{LEAVES} from * around\n{along}")


def test_that_leaves_are_worked_as_they_come_is_a_second_reading() -> None:
    """40 stitches are there only with the six of each of the four leaves."""
    rows = f"{LEAVES} from * around\n[sc in next 10 sts] 4 times"
    assert ({"sc": 40}, ("row-reading",)) == counted(rows)


@pytest.mark.parametrize("stated", ["(12)", "(12 sts)", ": 12 sc"])
def test_a_stated_count_of_stitches_has_no_picots_in_it(stated: str) -> None:
    """A picot takes no place and makes none."""
    row = f"*sc in next 3 sts, ch 4, sl st in 4th ch from hook; rep from * around {stated}"
    assert () == counted(row)[1]
