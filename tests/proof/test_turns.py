"""The turns of a repeat: how often they fit, and what is left for the steps behind them.

Numbers are worked out by hand; the rows hold chains, so that they are walked and not reckoned.
"""

from __future__ import annotations

import pytest

from workeven.problems import Problem
from workeven.proof import counting

#: 40 stitches to 20 dc and 20 spaces, which the way back meets first
MESH = "[dc in next st, ch 1, sk 1 st] 20 times, turn\n"
#: what a mesh may end with so that no space is passed over
BOTH = "sc in each dc and in each ch-1 sp across, turn"


def last(text: str, start: str, worked: str = "flat rows") -> tuple[dict[str, int], list[Problem]]:
    """What the last row makes, and the problems of all."""
    found = counting.count(text, worked=worked, start=start)
    assert found.value is not None
    return dict(found.value.rows[-1].makes[0] or ()), list(found.problems)


@pytest.mark.parametrize(
    ("row", "made"),
    [
        # 20 - 9 = 11 repeats of two, then 9 dc and 8 spaces
        (f"*sc in next dc, sc in next ch-1 sp; rep from * to last 9 dc, {BOTH}", {"sc": 39}),
        # the same of spaces: 11 of one, then 9
        (
            (
                "*sc in next ch-1 sp, ch 2; rep from * to last 9 ch-1 sps, "
                "sc in each ch-1 sp across, turn"
            ),
            {"sc": 20, "ch-2 sp": 11},
        ),
        (
            "*sc in next ch-1 sp, ch 2; rep from * across, sc in last 9 ch-1 sps, turn",
            {"sc": 20, "ch-2 sp": 11},
        ),
        (
            "*sc in next ch-1 sp, ch 2; rep from * across, sc in next 9 ch-1 sps, turn",
            {"sc": 20, "ch-2 sp": 11},
        ),
        (
            "*sc in next ch-1 sp, ch 2; rep from * across, [sc in next ch-1 sp] 9 times, turn",
            {"sc": 20, "ch-2 sp": 11},
        ),
    ],
)
def test_a_repeat_leaves_what_comes_last(row: str, made: dict[str, int]) -> None:
    """Of 20 dc and 20 spaces: many more than the turns that a walk keeps to go back to."""
    assert last(f"{MESH}{row}", "40 sc") == (made, [])


@pytest.mark.parametrize(
    ("row", "made"),
    [
        # 40 - 12 = 28 turns, the last of them otherwise
        ("ending last rep with sc in next st", {"dc": 39, "ch-1 sp": 26, "sc": 1}),
        ("omitting ch 1 on last rep", {"dc": 40, "ch-1 sp": 27}),
    ],
)
def test_a_last_turn_of_its_own_ends_at_the_limit(row: str, made: dict[str, int]) -> None:
    """Ended with a sc in place of the chain, 26 turns, 1 dc and 1 sc; without its chain, 28."""
    text = f"*dc in next st, ch 1; rep from * to last 12 sts, {row}, dc in each st across, turn"
    assert last(text, "40 sc") == (made, [])


@pytest.mark.parametrize(
    ("row", "start", "told"),
    [
        (
            "*dc in next st, ch 2; rep from * to last 12 sts, dc in next 5 sts, turn",
            40,  # 28 turns, 5 of the last 12
            (
                "The repeat takes 1 st: 28 repeats use 28, 5 sts are needed after and 7 sts are "
                "left over."
            ),
        ),
        (
            "*dc in next 3 sts, ch 2; rep from * to last 12 sts, dc in next 12 sts, turn",
            40,  # 28 = 9 x 3 + 1
            (
                "The repeat takes 3 sts: 9 repeats use 27, 12 sts are needed after and 1 st is "
                "left over."
            ),
        ),
        (
            "*dc in next 3 sts, ch 2; rep from * to last 2 sts, dc in next 2 sts, turn",
            160,  # 158 = 52 x 3 + 2
            (
                "The repeat takes 3 sts: 52 repeats use 156, 2 sts are needed after and 2 sts are "
                "left over."
            ),
        ),
        (
            "*[dc in next st, ch 1, sk 1 st] 3 times, dc in next 2 sts; rep from * across, turn",
            83,  # 10 x 8 + 3
            "The repeat takes 8 sts: 10 repeats use 80 and 3 sts are left over.",
        ),
        (
            "sc in next 2 sts, place marker, *sc in next 3 sts, ch 1; rep from * across, turn",
            43,  # 2 + 13 x 3 + 2
            "The repeat takes 3 sts: 13 repeats use 39 and 2 sts are left over.",
        ),
    ],
)
def test_many_turns_are_told_with_their_number(row: str, start: int, told: str) -> None:
    """However many they are, and also where a marker is placed before them."""
    assert [one.expected for one in last(row, f"{start} sc")[1]] == [told]


MARKED = "*sc in next 5 sts, 2 sc in next st, place marker; rep from * around\n"


@pytest.mark.parametrize(
    ("row", "sts"),
    [
        # 60 ÷ 6 = 10 markers, each behind 7 stitches; one more at each of 9, and then at one
        (("*sc in each st to next marker, 2 sc in marked st; rep from * around, "
         "sc in each st around"), 79),
        ("sc in each st to next marker, 2 sc in marked st, sc in each st around", 71),
    ],
)  # fmt: skip
def test_a_marker_placed_in_every_turn_is_there(row: str, sts: int) -> None:
    """The last marker stands where the round ends, in front of no stitch of it."""
    assert last(f"{MARKED}{row}", "60 sc", "spiral rounds") == ({"sc": sts}, [])


BEGUN = "ch 1, sc in next 2 sts, ch 2, sk 2 sts, sc in next 4 sts, join with sl st to first sc\n"


@pytest.mark.parametrize("turned", ["ch 1, turn,", "turn, ch 1,"])
@pytest.mark.parametrize(
    ("row", "out"),
    [
        ("sc in next 4 sc, 2 sc in ch-2 sp, sc in next 2 sc, join", True),
        ("sc in same st as join, sc in next 4 sc, 2 sc in ch-2 sp, sc in next sc, join", True),
        ("sc in next 2 sc, 2 sc in ch-2 sp, sc in next 4 sc, join", False),
    ],
)
def test_a_round_turned_at_its_head_is_worked_back(turned: str, row: str, *, out: bool) -> None:
    """Behind its first chain as before it: over 2 sc, a space and 4 sc the four come first."""
    made, problems = last(f"{BEGUN}{turned} {row}", "8 sc", "joined rounds")
    assert (not problems) == out
    assert not out or made == {"sc": 8}
