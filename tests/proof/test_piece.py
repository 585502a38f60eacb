"""The rows of a piece in order: numbers, sides, names, ranges, lengths, endings."""

from __future__ import annotations

from fractions import Fraction

import pytest

from workeven.notation.parser import parse_row
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Fabric, Run, stitch
from workeven.proof.line import CountedLine, Lined
from workeven.proof.piece import count_piece

SC = stitch("sc", "sc")
HALF_CM = Fraction(5)


def lines(
    text: str, worked: str, heights: tuple[Fraction | None, ...], section: int = 0
) -> list[Lined]:
    """Rows, one a line, of one section."""
    found = []
    for number, row in enumerate(text.strip().splitlines(), start=1):
        place = Span(file="rows", line=number, column=1, end_line=number, end_column=len(row) + 1)
        sizes = ("S", "M")[: len(heights)]
        parsed = parse_row(row.strip(), place, Vocabulary(sizes=sizes)).value
        assert parsed is not None
        found.append(
            Lined(
                row=parsed,
                worked=worked,
                row_heights=heights,
                sizes=None,
                section=section,
                stitch_width=HALF_CM,
            )
        )
    return found


def counted(
    *sections: str,
    worked: str = "flat rows",
    heights: tuple[Fraction | None, ...] = (HALF_CM,),
    below: int = 20,
) -> tuple[CountedLine, ...]:
    """Rows over so many sc, in as many sizes as there are heights of rows."""
    sizes = len(heights)
    contexts = tuple(SizeContext(index=at, sizes=sizes) for at in range(sizes))
    rows = [
        line
        for number, text in enumerate(sections)
        for line in lines(text, worked, heights, number)
    ]
    fabric = Fabric((Run(SC, below),), closed=worked != "flat rows", turned=True)
    return count_piece(rows, contexts, ("S", "M")[:sizes], (fabric,) * sizes)


@pytest.mark.parametrize(("settled", "faults"), [({}, []), ({"hdc": False}, ["row-uneven"])])
def test_what_the_file_says_of_chains_goes_before_the_habit_of_a_row(
    settled: dict[str, bool], faults: list[str]
) -> None:
    """notation.md, Chains at the start: a file may say it once, for all rows.

    Over 20 hdc the chain is the first and 19 follow it; where it is none, one is left over.
    """
    rows = lines(
        "ch 2 (counts as hdc), hdc in next st and in each st across, turn\n"
        "ch 2, hdc in next 19 sts, turn",
        "flat rows",
        (HALF_CM,),
        0,
    )
    context = SizeContext(index=0, sizes=1, turning_chains=settled)
    fabric = Fabric((Run(SC, 20),), turned=True)
    assert faults == codes(count_piece(rows, (context,), ("S",), (fabric,)))


def numbers(rows: tuple[CountedLine, ...]) -> list[tuple[int | None, int | None]]:
    """First and last number of each line, in the first size."""
    return [(entry.first, entry.last) for row in rows if (entry := row.per_size[0]) is not None]


def codes(rows: tuple[CountedLine, ...]) -> list[str]:
    """The codes of all faults, in order."""
    return [fault.fault.code for row in rows for fault in row.faults]


def times(rows: tuple[CountedLine, ...]) -> list[int | None]:
    """How many rows each line stands for, in the first size."""
    return [entry.times for row in rows if (entry := row.per_size[0]) is not None]


EVEN = "ch 1, sc in each st across"


# --- numbers and sides ---------------------------------------------------------------------


def test_rows_are_numbered_through_a_piece() -> None:
    """A line that stands for several takes as many numbers."""
    rows = counted(f"{EVEN}\nrep last row 3 more times\n{EVEN}")
    assert [(1, 1), (2, 4), (5, 5)] == numbers(rows)


def test_the_first_number_written_sets_the_start() -> None:
    """Rows that go on from others need not be written out."""
    assert [(7, 7), (8, 8)] == numbers(counted(f"Row 7: {EVEN}\n{EVEN}"))


def test_a_section_may_begin_again_at_one() -> None:
    """Then "rep last 2 rows" means the last two that were worked, whatever their numbers."""
    first = f"{EVEN}\n{EVEN}\n{EVEN}\n{EVEN}"
    second = "Row 1: ch 1, sc2tog, sc in each st across\nRow 2: ch 1, sc in each st across"
    rows = counted(first, f"{second}\nrep last 2 rows twice more")
    assert ([], (3, 6)) == (codes(rows), numbers(rows)[-1])
    assert [20, 20, 20, 20, 19, 19, 17] == [
        entry.sts for row in rows for entry in row.per_size if entry
    ]


def test_a_number_that_is_not_the_rows_own_is_told_once() -> None:
    """The rows behind it count on from what is written, and are not told again."""
    rows = counted(f"{EVEN}\nRow 3: {EVEN}\nRow 4: {EVEN}")
    assert ["row-number"] == codes(rows)
    assert {"written": 3, "number": 2} == rows[1].faults[0].fault.figures


def test_the_side_turns_with_the_work() -> None:
    """The first row is a right side row unless the text says otherwise."""
    rows = counted(f"{EVEN}\n{EVEN}\n{EVEN}, do not turn\n{EVEN}")
    assert ["RS", "WS", "RS", "RS"] == [
        entry.side for row in rows for entry in row.per_size if entry
    ]


def test_a_side_that_is_not_the_rows_own_is_told() -> None:
    """Row 2 of turned rows is a wrong side row."""
    assert ["row-side"] == codes(counted(f"Row 1 (RS): {EVEN}\nRow 2 (RS): {EVEN}"))


@pytest.mark.parametrize("cycles", [2, 3])
def test_the_side_turns_over_rows_that_are_added_up(cycles: int) -> None:
    """A cycle in which one row of two is not turned flips the side once each time."""
    rows = counted(
        f"Up: {EVEN}\nOver: {EVEN}, do not turn\nrep last 2 rows {cycles} more times\n{EVEN}"
    )
    side = "WS" if (1 + cycles) % 2 else "RS"
    assert side == (rows[-1].per_size[0] and rows[-1].per_size[0].side)


# --- rows worked again ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("again", "sts"),
    [
        pytest.param("rep last row twice more", 20, id="last row"),
        pytest.param("rep Row 1 twice more", 18, id="by number"),
        pytest.param("rep Dec row twice more", 18, id="by name"),
        pytest.param("rep rows 1 and 2 twice more", 18, id="two rows"),
        pytest.param("rep Rows 1-2 twice more", 18, id="a range"),
        pytest.param("rep last 2 rows twice more", 18, id="last 2 rows"),
    ],
)
def test_earlier_rows_are_found(again: str, sts: int) -> None:
    """By their place, their number, their name."""
    rows = counted(f"Dec row: ch 1, sc2tog, sc in each st across\n{EVEN}\n{again}", below=21)
    assert [] == codes(rows)
    assert sts == (rows[-1].per_size[0] and rows[-1].per_size[0].sts)


def test_a_row_that_is_not_there_says_what_is() -> None:
    """The mend lists the numbers and the names."""
    fault = counted(f"Plain row: {EVEN}\n{EVEN}\nrep Row 9")[-1].faults[0].fault
    assert "row-no-such-row" == fault.code
    assert "Before it stand rows 1 to 2 and “Plain row”." == fault.mend


def test_a_range_and_its_words_must_stand_for_as_many_rows() -> None:
    """Rows 2–4 are three."""
    rows = counted(f"{EVEN}\nRows 2-4: rep last row 4 more times")
    assert ["row-number"] == codes(rows)


def test_a_row_told_wrong_is_not_told_again_where_it_is_repeated() -> None:
    """One mistake, one message."""
    rows = counted(
        f"Odd row: ch 1, *sc 3, sk 3; rep from * across (10)\nrep Odd row twice more\n{EVEN}"
    )
    assert ["row-uneven"] == codes(rows)


def test_rows_along_a_side_are_counted_each_time() -> None:
    """It goes along another side of the ten rows each time, and what was worked has no part."""
    rows = counted(
        f"{EVEN}\nrep last row 9 more times\nwork 1 sc in side of each row\n"
        "rep last row 3 more times"
    )
    assert 10 == (rows[-1].per_size[0] and rows[-1].per_size[0].sts)


# --- lengths -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("length", "rows"),
    [
        pytest.param("10 cm", 20, id="whole rows"),
        pytest.param("10.2 cm", 20, id="down to the nearest"),
        pytest.param("10.3 cm", 21, id="up to the nearest"),
        pytest.param("10.25 cm", 21, id="a tie goes up"),
    ],
)
def test_rows_come_as_near_to_a_length_as_they_can(length: str, rows: int) -> None:
    """Rows of half a centimetre; the first one is among them."""
    found = counted(f"{EVEN}\nrep last row until piece measures {length}")
    assert [1, rows - 1] == times(found)
    entry = found[-1].per_size[0]
    assert Fraction(rows * 5) == (entry and entry.height)


@pytest.mark.parametrize(
    ("ending", "rows"),
    [
        pytest.param("ending with a WS row", 19, id="side"),
        pytest.param("ending with an RS row", 20, id="other side, a tie going up"),
    ],
)
def test_a_length_ends_on_the_side_that_is_asked_for(ending: str, rows: int) -> None:
    """Row 1 is a right side row; 10 cm are twenty rows."""
    found = counted(f"{EVEN}\nrep last row until piece measures 10 cm, {ending}")
    assert rows == times(found)[-1]


def test_a_length_ends_with_the_row_that_is_asked_for() -> None:
    """Rows 1 and 2 in turn, the last one a Row 1: an odd number, and of 17 and 19 the upper."""
    found = counted(
        f"{EVEN}\nch 3, dc in each st across\n"
        "rep Rows 1 and 2 until piece measures 10 cm, ending with a Row 1"
    )
    assert 19 == times(found)[-1]


def test_for_a_length_is_measured_from_the_section() -> None:
    """Whereas "until piece measures" is from the starting chain."""
    found = counted(
        f"{EVEN}\nrep last row 9 more times", f"{EVEN} for 5 cm\nrep last row 1 more time"
    )
    assert [1, 9, 10, 1] == times(found)
    entry = found[-1].per_size[0]
    assert Fraction(105) == (entry and entry.height)


def test_a_piece_that_is_longer_already_is_told() -> None:
    """More than half a row too long."""
    rows = counted(f"{EVEN}\nrep last row 29 more times\nrep last row until piece measures 10 cm")
    assert ["row-past-length"] == codes(rows)


def test_a_piece_that_goes_on_along_its_row_ends_is_as_high_as_its_rows_were_long() -> None:
    """20 sts of half a centimetre are 10 cm; 10 rows of half a centimetre more make 15 cm."""
    found = counted(
        f"{EVEN}\nrep last row 9 more times",
        f"sc in each row end, turn\n{EVEN}\nrep last row until piece measures 15 cm",
    )
    assert [1, 9, 1, 1, 8] == times(found)
    entry = found[-1].per_size[0]
    assert (10, Fraction(150)) == (entry and entry.sts, entry and entry.height)


def test_without_a_row_gauge_the_number_of_rows_is_open_and_the_counts_are_known() -> None:
    """The rows behind it have no number either."""
    rows = counted(f"{EVEN}\nrep last row until piece measures 10 cm\n{EVEN}", heights=(None,))
    assert ([1, None, 1], [20, 20, 20]) == (
        times(rows),
        [entry.sts for row in rows for entry in row.per_size if entry],
    )
    assert (None, None) == numbers(rows)[-1]


def test_each_size_has_its_own_rows() -> None:
    """Rows of another height give another number of them, and other numbers behind."""
    found = counted(
        f"{EVEN}\nrep last row until piece measures 10 cm\n{EVEN}", heights=(HALF_CM, Fraction(8))
    )
    assert (19, 12) == tuple(entry.times for entry in found[1].per_size if entry)
    assert (21, 14) == tuple(entry.first for entry in found[2].per_size if entry)


def test_rows_go_on_until_there_are_so_many_stitches() -> None:
    """The number of rows follows, and must be whole."""
    inc = "ch 1, 2 sc in first st, sc in each st to last st, 2 sc in last st"
    assert 10 == times(counted(f"{inc}\nrep last row until there are 42 sc"))[-1]
    assert ["count-not-reached"] == codes(counted(f"{inc}\nrep last row until there are 43 sc"))


# --- what the next rows go on from ---------------------------------------------------------


def test_a_wrong_stated_count_does_not_make_the_next_rows_wrong() -> None:
    """The row makes 20, and the next rows come out from 20."""
    rows = counted(f"{EVEN} (21)\nch 1, [sc 3, sc2tog] across\n{EVEN} (16)")
    assert ["count-stated"] == codes(rows)


def test_a_wrong_row_with_a_right_count_does_not_make_the_next_rows_wrong() -> None:
    """The row makes 19, states 20, and the next rows come out from 20."""
    rows = counted(
        f"ch 1, sc2tog, sc in each st across (20)\nch 1, [sc 3, sc2tog] across\n{EVEN} (16)"
    )
    assert ["count-stated"] == codes(rows)


def test_a_row_whose_number_cannot_be_had_is_told_where_it_states_a_count() -> None:
    """It is not counted; the rows behind go on from what it states."""
    rows = counted(f"ch 1, sc in next 9999999 sts (20)\n{EVEN} (20)")
    assert ["row-too-many"] == codes(rows)
    assert [None, 20] == [entry.sts for row in rows for entry in row.per_size if entry]


# --- repeats counted as patterns, endings of open numbers of rows ---------------------------


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        ("ch 1, *sc in next st, dc in next st; rep from * across (10 patterns)", []),
        ("ch 1, *sc in next st, dc in next st; rep from * across (9 patterns)", ["count-stated"]),
        ("ch 1, [sc in next 3 sts, dc in next st] 5 times (5 repeats)", []),
        ("ch 1, [sc in next 3 sts, dc in next st] 5 times (4 repeats)", ["count-stated"]),
        ("ch 1, *(sc, dc) in next st, sk next st; rep from * across (10 patterns)", []),
        ("ch 1, *sc 4, ch 1; rep from * to last 4 sts, sc 4 (4 pattern repeats)", []),
    ],
)
def test_patterns_that_are_stated_are_the_repeats_of_the_row(row: str, expected: list[str]) -> None:
    """They are held against how often the repeat is worked."""
    assert expected == codes(counted(row))


@pytest.mark.parametrize(
    ("ending", "sts"), [("ending with a Row 2", 40), ("ending with a Row 3", 20)]
)
def test_an_open_number_of_rows_ends_with_the_row_that_is_asked_for(ending: str, sts: int) -> None:
    """Without a row gauge the number of rows is open, and what the last of them leaves is known."""
    rows = counted(
        f"{EVEN}\nch 1, 2 sc in each st across\nch 1, [sc2tog] across\n"
        f"rep Rows 2 and 3 until piece measures 30 cm, {ending}",
        heights=(None,),
    )
    entry = rows[-1].per_size[0]
    assert (None, sts) == (entry and entry.times, entry and entry.sts)
