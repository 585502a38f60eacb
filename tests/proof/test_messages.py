"""How faults of rows become problems: one a mistake, with the sizes that fail and those that pass.

The whole message of every code stands in ``tests/cases/messages.md``.
"""

from __future__ import annotations

import pytest

from workeven.problems import Problem
from workeven.proof.counting import count

SIZES = ("S", "M", "L")


def told(rows: str, start: str = "20 sc", sizes: tuple[str, ...] | None = None) -> list[Problem]:
    """The problems of flat rows."""
    return list(count(rows, start=start, sizes=sizes).problems)


def test_sizes_that_fail_for_the_same_reason_share_a_message() -> None:
    """It names them, and those that come out."""
    (problem,) = told("ch 1, *sc 4, sc2tog; rep from * across", start="50 (60, 55) sc", sizes=SIZES)
    assert (("S", "L"), ("M",)) == (problem.sizes, problem.good_sizes)
    assert "the row before leaves 50 and 55 sts." == problem.found
    assert "Nearest that come out: S 48 or 54, L 54 or 60." == problem.mend


def test_a_size_that_is_a_number_is_called_so() -> None:
    """In a sentence "1" would be read as a number of stitches."""
    (problem,) = told("ch 1, *sc 4, sc2tog; rep from * across", "50 (60) sc", ("1", "2"))
    assert "Nearest that come out: size 1 48 or 54." == problem.mend


def test_a_label_and_its_row_are_two_mistakes() -> None:
    """What is written before the colon has its own message."""
    problems = told("ch 1, sc in each st across\nRow 5: ch 1, *sc 4, sc2tog; rep from * across")
    assert ["row-number", "row-uneven"] == [problem.code for problem in problems]


def test_a_row_that_is_worked_again_is_pointed_at() -> None:
    """The message stands at the line that repeats, a note at the row."""
    rows = "Dec row: ch 1, *sc 3, sc2tog; rep from * across\nrep Dec row once more"
    (problem,) = told(rows, start="20 sc")
    assert (2, "The row that is worked again stands here.") == (
        problem.span.line,
        problem.notes[0].message,
    )
    assert 1 == problem.notes[0].span.line


def test_the_words_of_the_step_at_fault_are_marked() -> None:
    """Columns count from 1, up to behind the last."""
    row = "ch 1, sc in next 5 sts, *sc 4, sc2tog; rep from * across"
    (problem,) = told(row)
    marked = row[problem.span.column - 1 : problem.span.end_column - 1]
    assert "*sc 4, sc2tog; rep from * across" == marked


def test_a_message_carries_its_numbers() -> None:
    """Whoever reads it by machine need not read English."""
    (problem,) = told("ch 1, *sc 4, sc2tog; rep from * across")
    assert (("takes", ("6",)), ("repeats", ("3",)), ("left_over", ("2",))) == problem.figures


def test_where_a_default_decides_it_is_named() -> None:
    """Whether the ch 2 counts is left open here; the row comes out in neither way."""
    problems = told("ch 2, hdc in each of next 15 sts, turn")
    assert "row-uneven" == problems[0].code
    assert "A ch 2 before hdc is taken as it is by default" in problems[0].expected


@pytest.mark.parametrize("rows", [1, 3])
def test_practice_is_asked_for_once_a_piece(rows: int) -> None:
    """Whether the ch 2 of an hdc counts: one piece of advice, however many rows have it."""
    problems = told("\n".join(["ch 2, hdc in each st across, turn"] * rows))
    assert ["row-turning-chain"] == [problem.code for problem in problems]


def test_a_second_reading_says_both_readings() -> None:
    """What is read by default, and what is taken."""
    (problem,) = told("ch 3, dc in each of next 20 sts")
    assert "row-reading" == problem.code
    assert (
        "read as “ch 3 (does not count)”: read as “ch 3 (counts as dc)” it does not come out."
        == problem.found
    )


UK_ROWS = [
    ("1ch, 1dc in each dc to end", "13 tr", "there is no dc in the row before: there are 13 tr."),
    ("1ch, 1dc in each tr to end (14 dc)", "13 tr", "14 dc are stated and the row makes 13."),
    (
        "3ch, 1tr in each blah",
        "13 tr",
        "Name a place to work into, such as “st”, “tr” or “ch-2 sp”.",
    ),
    ("2ch, 1htr in each tr", "13 tr", "the ch 2 before htr is taken as not counting"),
]


@pytest.mark.parametrize(("row", "start", "words"), UK_ROWS)
def test_messages_of_a_uk_text_are_in_uk_terms(row: str, start: str, words: str) -> None:
    """Every stitch has the name that it has in the file."""
    (problem,) = count(row, start=start, terms="uk").problems
    assert words in f"{problem.found} {problem.expected} {problem.mend}"


def test_nothing_is_left_over_below_nought() -> None:
    """Where what stands behind a repeat needs more than is there, no number of repeats is told."""
    rows = "ch 3 (counts as dc), *dc in next ch-1 sp; rep from * across, dc in next 15 ch-1 sps"
    (problem,) = told(f"{rows}, dc in top of tch", "13 dc, 14 ch-1 sps")
    assert "row-uneven" == problem.code
    assert "left over" not in problem.expected
    assert "With 14 repeats the steps behind do not come out." in problem.expected


def test_blocks_that_the_piece_does_not_define_hide_no_reading() -> None:
    """Four spaces come out with ch 5 as a dc and a space, as row 1 says; the blocks are told of."""
    row = (
        "Ch 5, turn, 1 dc in next dc, ch 2, 1 dc in next dc, *2 dc in next sp, 1 dc in next dc; "
        "rep from * 5 more times, ch 2, 1 dc in next dc, ch 2, 1 dc in 3rd ch of turning ch. "
    )
    first = (
        "Ch 5 (counts as dc and ch 2), skip next 2 dc, dc in next dc, "
        "*ch 2, skip next 2 dc, dc in next dc; rep from * to end\n"
    )
    codes = [
        [one.code for one in told(f"{first}{row}({stated})", "31 dc")]
        for stated in ("2 spaces, 6 blocks, 2 spaces", "3 spaces, 6 blocks, 2 spaces")
    ]
    assert codes == [["count-unchecked"], ["count-stated", "count-unchecked"]]
