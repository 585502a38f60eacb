"""Rows worked into places that an earlier row left."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count

SHOULDERS = """ch 1, sc in each st across, turn
ch 1, sc in first 8 sts, leave rem sts unworked, turn
ch 1, sc in each st across, fasten off
{}"""
PETALS = """ch 1, sc in each sc around, join
ch 1, *sc in next sc, ch 3, sk next sc; rep from * around, join
*(sc, 3 dc, sc) in next ch-3 sp; rep from * around, join
{}"""


def told(text: str, worked: str, start: str) -> list[str]:
    """The codes of what is wrong."""
    return [problem.code for problem in count(text, worked=worked, start=start).problems]


def made(text: str, worked: str, start: str) -> tuple[tuple[str, int], ...] | None:
    """What the last row makes, where all rows come out."""
    checked = count(text, worked=worked, start=start)
    assert checked.problems == ()
    assert checked.value is not None
    return checked.value.rows[-1].makes[0]


@pytest.mark.parametrize(
    ("second", "sts"),
    [
        ("sk next 4 sts, join yarn with sl st in next st, ch 1, sc in same st and in each st", 8),
        ("sk next 4 sts for neck, join yarn in next st, ch 1, sc in each st across", 8),
        ("join yarn in first unworked st, ch 1, sc in same st and in each st across", 12),
        ("join yarn with sc in next unworked st, sc in each st across", 12),
        ("join yarn in first unworked st of Row 1, ch 1, sc in same st, sc in each st", 12),
    ],
)
def test_what_was_left_unworked_is_taken_up(second: str, sts: int) -> None:
    """Of 20 sts 8 are worked; the other 12 stay reachable in the same order."""
    assert (("sc", sts),) == made(SHOULDERS.format(second), "flat rows", "20 sc")


def test_what_is_taken_up_is_no_longer_unworked() -> None:
    """Behind both shoulders the 4 sts of the neck are left."""
    rows = SHOULDERS.format(
        "sk next 4 sts, join yarn in next st, ch 1, sc in same st and in each st across, "
        "fasten off\njoin yarn in first unworked st, ch 1, sc in each st across"
    )
    assert (("sc", 4),) == made(rows, "flat rows", "20 sc")


def test_too_many_are_not_taken_up() -> None:
    """12 are left and 13 are asked for."""
    rows = SHOULDERS.format("join yarn in first unworked st, ch 1, sc in next 13 sts")
    assert ["row-uneven"] == told(rows, "flat rows", "20 sc")


def test_a_row_on_its_own_stitches_goes_on() -> None:
    """Where nothing was left, "sk next 3 sts, join yarn" counts off the row before."""
    rows = (
        "ch 1, sc in each st across, fasten off\n"
        "sk next 3 sts, join yarn in next st, ch 1, sc in same st and in each st across"
    )
    assert (("sc", 17),) == made(rows, "flat rows", "20 sc")


@pytest.mark.parametrize(
    ("behind", "expected"),
    [
        (
            "working behind petals, *sl st in next skipped sc of Rnd 1, ch 4; rep from * around",
            {"sl st": 6, "ch-4 sp": 6},
        ),
        (
            "join yarn in any skipped sc of Rnd 1, *sc in next sc, ch 4; rep from * around, join",
            {"sc": 6, "ch-4 sp": 6},
        ),
        ("ch 1, *sc in next sc of Rnd 2, ch 5; rep from * around, join", {"sc": 6, "ch-5 sp": 6}),
        ("working in sc of Rnd 2, ch 1, *sc in next sc, ch 5; rep from * around, join", None),
    ],
)
def test_a_round_behind_petals_is_worked_into_an_earlier_one(
    behind: str, expected: dict[str, int] | None
) -> None:
    """Rnd 1 has 12 sc, of which Rnd 2 skips 6."""
    makes = made(PETALS.format(behind), "joined rounds", "12 sc")
    assert (expected or {"sc": 6, "ch-5 sp": 6}) == dict(makes or ())


def test_a_round_behind_petals_must_come_out_too() -> None:
    """Six sc were skipped, and a repeat takes four."""
    rows = PETALS.format("ch 1, *sc in next 4 skipped sc of Rnd 1, ch 4; rep from * around, join")
    assert ["row-uneven"] == told(rows, "joined rounds", "12 sc")


def test_into_two_rows_at_once_is_told() -> None:
    """Nothing is guessed where a round goes back and forth between two."""
    rows = PETALS.format("ch 1, *sc in next dc, sc in next sc of Rnd 1; rep from * around, join")
    assert ["row-not-understood"] == told(rows, "joined rounds", "12 sc")


@pytest.mark.parametrize("row", ["Rnd 9", "Rnd 7"])
def test_a_row_that_is_not_there_is_told(row: str) -> None:
    """It has not been worked."""
    rows = PETALS.format(f"ch 1, *sc in next sc of {row}, ch 5; rep from * around, join")
    assert ["row-no-such-row"] == told(rows, "joined rounds", "12 sc")


def test_nothing_unworked_is_told() -> None:
    """No row before has left any."""
    rows = "ch 1, sc in each st across, fasten off\njoin yarn in first unworked st, ch 1, sc in 3"
    assert ["row-no-such-place"] == told(rows.replace(" in 3", " 3"), "flat rows", "20 sc")


def test_yarn_is_joined_where_the_words_say_if_all_stitches_are_alike() -> None:
    """Which of them it is does not matter to the counts."""
    row = "join yarn in 8th st to the right of center of one end, ch 1, sc in each st around, join"
    assert (("sc", 40),) == made(row, "joined rounds", "40 dc")


def test_where_stitches_differ_a_described_place_is_told() -> None:
    """Where the round begins then decides what comes next."""
    row = "join yarn at center back, ch 1, *sc in next ch-2 sp, ch 2; rep from * around, join"
    assert ["row-not-understood"] == told(row, "joined rounds", "12 dc, 4 ch-2 sps")


YOKE = """Ch 1, sc in each st around, join
Ch 1, sc 24, ch 6, sk next 12 sts, sc in next 24 sts, ch 6, {0} 12 sts, join
Ch 1, sc in each st and ch around, join. Fasten off.
First sleeve: Join yarn in first skipped st of Rnd 1, {1}, work 6 sc along ch, join
Second sleeve: Join yarn in first skipped st of Rnd 1, {1}, work 6 sc along ch, join"""


@pytest.mark.parametrize("skipped", ["sk next", "sk rem"])
def test_two_sleeves_take_up_a_gap_each(skipped: str) -> None:
    """Each has the 12 stitches skipped at its side and the 6 chains."""
    rows = YOKE.format(skipped, "sc in each of 12 skipped sts")
    assert made(rows, "joined rounds", "72 sc") == (("sc", 18),)


@pytest.mark.parametrize("sleeve", ["sc in each of 10 skipped sts", "sc in next 14 skipped sts"])
def test_a_sleeve_that_is_not_as_its_gap(sleeve: str) -> None:
    """Twelve were skipped."""
    assert "row-uneven" in told(YOKE.format("sk next", sleeve), "joined rounds", "72 sc")


def test_skipped_sts_of_a_row_may_be_those_that_it_skips_itself() -> None:
    """Rnd 2 skips stitches of Rnd 1, and Rnd 3 none of Rnd 2: it is read so, with advice."""
    rows = YOKE.format("sk next", "sc in each of 12 skipped sts").replace("of Rnd 1", "of Rnd 2")
    assert {"row-reading"} == set(told(rows, "joined rounds", "72 sc"))


def test_the_row_that_skips_is_not_the_one_that_has_the_stitches() -> None:
    """Where neither reading comes out, the message says which row to name."""
    rows = YOKE.format("sk next", "sc in each of 13 skipped sts").replace("of Rnd 1", "of Rnd 2")
    first = count(rows, worked="joined rounds", start="72 sc").problems[0]
    assert (
        "row-no-such-place",
        "Name the row whose sts were skipped, not the one that skips them: 1.",
    ) == (first.code, first.mend)


def test_where_no_row_skips_no_number_helps() -> None:
    """Neither Rnd 3 nor the one behind it passes over anything."""
    rows = YOKE.format("sk next", "sc in each of 12 skipped sts").replace("of Rnd 1", "of Rnd 3")
    assert "row-no-such-place" in told(rows, "joined rounds", "72 sc")


#: a yoke of 80 sc is divided: 20 sts for each sleeve wait, 5 chains lead across
DIVIDED = """ch 1, [sc in next 20 sts, ch 5, sk next 20 sts] twice, join
ch 1, sc in each st and in each ch around, join, fasten off
{}"""


@pytest.mark.parametrize(
    ("start", "then"),
    [
        ("first underarm ch", "in each of next 4 underarm chs, sc in each of next 20 skipped sts"),
        ("first ch of underarm", "in each of next 4 chs, sc in each skipped st around"),
        ("first skipped st", "in each of next 19 skipped sts, sc in each of next 5 underarm chs"),
    ],
)
def test_a_sleeve_takes_up_the_skipped_stitches_and_the_underarm(start: str, then: str) -> None:
    """20 sts and 5 chains make a ring of 25, wherever on the chain it is begun."""
    same = "st" if "skipped" in start else "ch"
    sleeve = f"join yarn in {start}, ch 1, sc in same {same}, sc {then}, join"
    assert (("sc", 25),) == made(DIVIDED.format(sleeve), "joined rounds", "80 sc")


def test_a_sleeve_may_begin_in_the_middle_of_the_underarm() -> None:
    """Three of the five chains first, the other two last."""
    sleeve = (
        "join yarn in next underarm ch, ch 1, sc in same ch, sc in next 2 underarm chs, sc in each "
        "of next 20 skipped sts, sc in next 2 underarm chs, join"
    )
    assert (("sc", 25),) == made(DIVIDED.format(sleeve), "joined rounds", "80 sc")


def test_the_second_sleeve_takes_up_the_other_gap() -> None:
    """Both take the same words, and then nothing is left."""
    sleeve = (
        "join yarn in first underarm ch, ch 1, sc in same ch and in each of next 4 underarm chs, "
        "sc in each of next 20 skipped sts, join"
    )
    even = "ch 1, sc in each st around, join, fasten off"
    rows = DIVIDED.format(f"{sleeve}\n{even}\n{sleeve}\n{even}")
    assert (("sc", 25),) == made(rows, "joined rounds", "80 sc")
    assert ["row-no-such-place"] == told(f"{rows}\n{sleeve}", "joined rounds", "80 sc")


def test_an_underarm_of_too_many_chains_does_not_come_out() -> None:
    """Six chains are asked for where five were made."""
    sleeve = (
        "join yarn in first underarm ch, ch 1, sc in same ch and in each of next 5 underarm chs, "
        "sc in each of next 20 skipped sts, join"
    )
    assert ["row-uneven"] == told(DIVIDED.format(sleeve), "joined rounds", "80 sc")


SHORT = "ch 1, sc in next 8 sts, leave rem sts unworked, turn"


@pytest.mark.parametrize(
    ("rows", "codes"),
    [
        ("ch 1, sc in each st across, sc in each unworked st, turn", ["row-no-such-place"]),
        ("ch 1, sc in next 20 sts, sc in each unworked st, turn", ["row-no-such-place"]),
        ("ch 1, sc in each unworked st across, turn", ["row-not-understood"]),
        ("ch 1, sc in next 5 sts, sc in each unworked st, turn", []),
        (f"{SHORT}\nch 1, sc in each unworked st across, turn", ["row-not-understood"]),
    ],
)
def test_each_unworked_stitch_must_be_there(rows: str, codes: list[str]) -> None:
    """Over 20 sc: where none is left, or nothing leads to those that are, the row does not pass."""
    assert codes == told(rows, "flat rows", "20 sc")
