"""Shaping over a length: the rows it stands for, and what they leave."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count


def after(row: str, start: str = "60 sc", **options: object) -> tuple[int | None, int | None]:
    """How many rows the line stands for, and the stitches after the last."""
    counted = count(row, file="-", worked=options.pop("worked", "flat rows"), start=start)  # type: ignore[arg-type]
    assert counted.value is not None
    assert [] == [problem.found for problem in counted.problems]
    only = counted.value.rows[-1]
    return only.times[0], only.sts[0]


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        ("dec 1 st at each end every 4th row 6 times, then every 6th row 3 times", (42, 42)),
        ("dec 1 st each end every 4th row 6 times", (24, 48)),
        ("Dec 1 sc at each end of next row and every other row 5 times more", (11, 48)),
        ("dec 1 st at both ends of next and every foll 4th row 5 times", (21, 48)),
        ("Inc 1 st at each side every 6th row 4 times", (24, 68)),
        ("inc 1 st at beg of every row 6 times", (6, 66)),
        ("dec 1 st at armhole edge every row 4 times", (4, 56)),
        ("dec 2 sts at each end of every other row 3 times", (6, 48)),
        ("cont in sc, dec 1 st at each end of every 3rd row 2 times", (6, 56)),
        ("work even in patt, but dec 1 st at end of every other row 4 times", (8, 56)),
        ("rep last row, dec 1 st at each end of every other row until 40 sts rem", (20, 40)),
        ("inc 1 st at each end of every 6th row until there are 72 sts", (36, 72)),
        ("Rows 1-24: dec 1 st at each end of every 4th row", (24, 48)),
        ("leave 4 sts unworked at each end of next row", (1, 52)),
        ("leave 6 sts unworked at armhole edge every 2nd row twice", (4, 48)),
        ("leaving 5 sts unworked at end of next 2 rows", (2, 50)),
        ("inc 1 st on each side of each of 4 markers every 2nd row 3 times", (6, 84)),
        ("dec 1 st before each of the 6 markers every row twice", (2, 48)),
        ("Rows 1-26: dec 1 st at each end of every 4th row (48)", (26, 48)),
    ],
)
def test_shaping_is_rows_each_counted(row: str, expected: tuple[int, int]) -> None:
    """Every 4th row is three rows even and one shaped (common practice)."""
    assert expected == after(row)


def test_stitches_are_left_beside_a_counted_turning_chain() -> None:
    """40 dc: slip stitches pass 4, the chain stands on the fifth, and 4 are left at the end."""
    checked = count(DC.format("leave 4 sts unworked at each end of next row (32 dc)"))
    assert () == checked.problems


def test_a_round_has_no_ends_to_leave_stitches_at() -> None:
    """It is told so, and no count is guessed."""
    words = "leave 4 sts unworked at each end of next rnd"
    (problem,) = count(words, start="60 sc", worked="joined rounds").problems
    assert "row-no-such-place" == problem.code
    assert "a round has no ends" in problem.found + problem.expected


def test_a_sleeve_of_a_handbook_method_comes_out() -> None:
    """43 to 93 stitches are 25 pairs; over 166 rows 16 are 6 apart and 9 are 7 (own arithmetic)."""
    row = "inc 1 st at each end every 6th row 16 times, then every 7th row 9 times"
    assert (16 * 6 + 9 * 7, 93) == after(row, "43 sc")


def test_the_last_row_names_its_decreases_and_plain_rows_have_none() -> None:
    """After a shaped row two stitches are decreases; a row even above it is all sc."""
    counted = count("dec 1 st at each end every other row twice", file="-", start="20 sc")
    assert counted.value is not None
    assert [("sc", 14), ("sc2tog", 2)] == sorted(counted.value.rows[-1].makes[0] or ())
    even = count("Rows 1-5: dec 1 st at each end every other row", file="-", start="20 sc")
    assert even.value is not None
    assert (("sc", 16),) == even.value.rows[-1].makes[0]


def test_a_later_row_finds_the_turning_chain() -> None:
    """Rows of dc have one each, shaped or not."""
    rows = (
        "ch 3 (counts as dc), dc in each st across, turn\n"
        "dec 1 st at each end every other row twice\n"
        "Rows 6-7: work even\n"
        "ch 3 (counts as dc), dc in each dc across to tch, dc in top of tch"
    )
    counted = count(rows, file="-", start="20 dc")
    assert [] == [problem.found for problem in counted.problems]
    assert counted.value is not None
    assert (16,) == counted.value.rows[-1].sts


def test_sizes_have_rates_of_their_own() -> None:
    """A size in which a rate is 0 leaves it out."""
    row = "dec 1 st at each end every 4th row 6 (5, 0) times, then every 6th row 3 (4, 8) times"
    counted = count(row, file="-", start="60 (62, 64) sc", sizes=("S", "M", "L"))
    assert counted.value is not None
    assert [] == [problem.found for problem in counted.problems]
    assert ((42, 44, 48), (42, 44, 48)) == (
        counted.value.rows[0].times,
        counted.value.rows[0].sts,
    )


@pytest.mark.parametrize(
    ("row", "code"),
    [
        ("dec 1 st at each end every 4th row", "row-not-understood"),
        ("dec 1 st at each end every 4th row 40 times", "row-uneven"),
        ("dec 1 st at each end of every row until 41 sts rem", "count-not-reached"),
        ("Rows 1-20: dec 1 st at each end every 4th row 6 times", "row-number"),
        ("dec 1 st at each end every 4th row 6 times (50)", "count-stated"),
        ("inc 1 st at each end every row 99999 times", "row-too-many"),
    ],
)
def test_what_does_not_come_out_is_told(row: str, code: str) -> None:
    """One mistake, one message."""
    assert [code] == [problem.code for problem in count(row, file="-", start="60 sc").problems]


DC = "ch 42\ndc in 4th ch from hook (skipped 3 chs count as dc), dc in each ch across, turn\n{}"


@pytest.mark.parametrize(
    ("words", "sts"),
    [
        ("inc 1 st at each end every 2nd row 5 times", 50),
        ("inc 2 sts at each end every row twice", 48),
        ("inc 1 st at neck edge every row 5 times", 45),
        ("inc 1 st at same edge every 3rd row 5 times", 45),
        ("dec 1 st at each end every 2nd row 5 times", 30),
        ("dec 1 st at shaped edge every 3rd row 5 times", 35),
    ],
)
def test_a_counted_turning_chain_is_one_stitch_of_the_first_increase(words: str, sts: int) -> None:
    """40 dc: the chain stands over the first stitch, and one more goes into it."""
    checked = count(DC.format(words))
    assert () == checked.problems
    assert checked.value is not None
    assert (sts,) == checked.value.rows[-1].sts
