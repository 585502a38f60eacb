"""What a step takes and makes, where its words say more than a number of places."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count


def counted(rows: str, start: str, worked: str = "flat rows") -> tuple[object, tuple[str, ...]]:
    """What the last row makes, and the codes of all problems."""
    checked = count(rows, worked=worked, start=start)
    codes = tuple(problem.code for problem in checked.problems)
    assert checked.value is not None
    return dict(checked.value.rows[-1].makes[0] or {}), codes


@pytest.mark.parametrize(
    "row",
    [
        "ch 1, sc2tog over next 1 sts, sc in each st across",
        "ch 1, sc2tog over next st, sc in each st across",
        "ch 1, *sc in next st, sc2tog over next st; rep from * across",
        "ch 1, *sc in next st, sc2tog over next 3 sts; rep from * across",
        "ch 1, sc in first 9 sts, sc2tog over last 3 sts",
        "ch 1, sc in first 11 sts, sc2tog over last st",
    ],
)
def test_a_decrease_says_over_as_many_places_as_it_takes(row: str) -> None:
    """``sc2tog over next st`` is a slip."""
    assert ("row-decrease",) == counted(row, "12 sc")[1]


def test_all_legs_of_a_decrease_may_stand_in_one_place() -> None:
    """``dc2tog in next st`` is a cluster: it takes one."""
    row = "ch 1, sc in first 10 sts, [dc2tog in next st] twice"
    assert ({"sc": 10, "dc2tog": 2}, ()) == counted(row, "12 sc")


def test_a_stitch_said_not_to_count_takes_its_place_and_leaves_none() -> None:
    """notation.md, Slip stitches: not counted is whatever says so."""
    row = "ch 1, sc in first st, sl st in next 3 sts (does not count as st), sc in each st across"
    assert ({"sc": 9}, ()) == counted(row, "12 sc")


def test_a_stitch_that_does_not_count_parts_the_chains_beside_it() -> None:
    """They are two spaces, and not one run."""
    row = (
        "ch 1, sc in first st, "
        "*ch 3, sl st in next st (does not count as st), ch 3, sc in next st; rep from * across"
    )
    assert ({"sc": 7, "ch-3 sp": 12}, ()) == counted(row, "13 sc")


@pytest.mark.parametrize("worked", ["flat rows", "joined rounds", "spiral rounds"])
def test_a_bridge_of_chains_at_the_head_stands_over_no_place(worked: str) -> None:
    """``ch 6 (counts as 6 sts), sk 6 sts`` gives six for six."""
    row = "ch 6 (counts as 6 sts), sk 6 sts, sc in each st around"
    assert ({"ch": 6, "sc": 12}, ()) == counted(row, "18 sc", worked)


def test_nothing_is_increased_evenly_in_a_ring() -> None:
    """A ring has no stitches between which the increases could be spread."""
    rows = "ch 5, join with sl st to first ch to form ring\nch 3, dc around, inc 2 sts evenly, join"
    checked = count(rows, worked="joined rounds", start=None)
    assert ["row-open-ring"] == [problem.code for problem in checked.problems]


@pytest.mark.parametrize(
    "words",
    [
        "fpdc around next st 2 rows below, sk next st behind it",
        "fpdc around next dc 2 rows below, sk 1 st behind fpdc",
        "fpdc around post of next st two rows below, sk st behind",
        "fpdc around next dc in 2nd row below, skip next st",
        "fpdc around next st 2 rnds below, sk next sc",
    ],
)
def test_a_post_stitch_two_rows_below_takes_none_of_the_row(words: str) -> None:
    """notation.md, Below and before: the post stitch takes 0, the skip behind it 1."""
    rows = (
        "ch 3, dc in each st across, turn\n"
        "ch 1, sc in each st across, turn\n"
        f"ch 1, *sc in next 2 sts, {words}; rep from * across, turn"
    )
    assert ({"sc": 8, "fpdc": 4}, ()) == counted(rows, "12 sc")


def test_where_the_skip_behind_a_post_stitch_is_unsaid_it_stands_for_that_stitch() -> None:
    """16 sts are a first and 5 repeats of 3, of which the post stitch covers one."""
    rows = (
        "ch 1, sc in each st across, turn\n"
        "ch 3, dc in each st across, turn\n"
        "ch 1, sc in first st, *sc in next 2 sts, fpdc around next st 2 rows below; "
        "rep from * across, turn"
    )
    assert ({"sc": 11, "fpdc": 5}, ()) == counted(rows, "16 sc")


def test_that_a_post_stitch_rows_below_covers_none_is_a_second_reading() -> None:
    """15 sts are a first and 7 repeats of 2 only where the post stitch covers none."""
    rows = (
        "ch 1, sc in each st across, turn\n"
        "ch 3, dc in each st across, turn\n"
        "ch 1, sc in first st, *sc in next 2 sts, fpdc around next st 2 rows below; "
        "rep from * across, turn"
    )
    assert ({"sc": 15, "fpdc": 7}, ("row-reading",)) == counted(rows, "15 sc")


@pytest.mark.parametrize("below", ["in the row below", "1 row below", "2 rows below"])
def test_a_spike_takes_the_stitch_that_it_covers(below: str) -> None:
    """notation.md, Below and before."""
    rows = f"ch 1, *sc in next 2 sts, sc in next st {below}; rep from * across, turn"
    assert ({"sc": 12}, ()) == counted(rows, "12 sc")


@pytest.mark.parametrize(
    "row", ["sc in next 6 sts", "12 dc in next st", "sk next st, 6 sc in ring"]
)
def test_a_ring_has_no_stitches(row: str) -> None:
    """Only ``in ring`` goes into it."""
    rows = f"ch 5, join with sl st to first ch to form ring\nch 1, {row}, join"
    checked = count(rows, worked="joined rounds", start=None)
    assert ["row-no-such-place"] == [problem.code for problem in checked.problems]


def test_what_is_worked_into_the_same_place_again_takes_no_other() -> None:
    """The joined stitch holds three, and the spaces are worked behind it."""
    row = "ch 1, sc in same st as joining, 2 sc in same st, 2 sc in each ch-2 sp around, join"
    checked = count(row, worked="joined rounds", start="1 sc, 4 ch-2 sps")
    assert checked.value is not None
    assert ({"sc": 11}, ()) == (dict(checked.value.rows[0].makes[0] or {}), checked.problems)


@pytest.mark.parametrize(("times", "sts"), [("0 (1) times", (6, 7)), ("- (2) times", (6, 8))])
def test_a_group_is_left_out_where_a_size_says_nought(times: str, sts: tuple[int, ...]) -> None:
    """``[inc] 0 (1) times`` is for the second size alone."""
    row = f"ch 1, [inc] {times}, sc in each st across"
    checked = count(row, worked="flat rows", start="6 sc", sizes=("S", "M"))
    assert checked.value is not None
    assert (sts, ()) == (tuple(checked.value.rows[0].sts), checked.problems)


def test_a_round_that_reaches_down_alone_is_told_to_be_on_that_round() -> None:
    """``2 rnds below`` in Rnd 3 is Rnd 1: the page says so, and to repeat it asks for a row."""
    rows = (
        "Rnd 1: ch 1, sc in each st around, join\n"
        "Rnd 2: ch 1, 2 sc in each st around, join\n"
        "Rnd 3: ch 1, *bpsc around next sc 2 rnds below, ch 4; rep from * around, join\n"
    )
    checked = count(rows, start="12 sc", worked="joined rounds")
    assert checked.value is not None
    (into,) = checked.value.rows[2].into
    assert into is not None
    assert (1, {"sc": 12}) == (into.row, dict(into.places))
    again = count(f"{rows}Rep Rnd 3", start="12 sc", worked="joined rounds")
    (problem,) = again.problems
    assert "is worked into “bpsc around next sc 2 rnds below”" in problem.found


def test_many_chains_behind_a_middle_are_left_over() -> None:
    """Of ``ch 4`` two chains are left behind the middle; of ``ch 12`` ten are forgotten."""
    few, many = (
        count(f"ch {chains}, 8 sc in 2nd ch from hook, join", worked="joined rounds")
        for chains in (4, 12)
    )
    assert ([], ["row-uneven"]) == tuple([one.code for one in two.problems] for two in (few, many))
