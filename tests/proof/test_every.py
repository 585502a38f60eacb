"""A named row worked again at a distance, with even rows between."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.proof.test_piece import counted

DEC = "Dec rnd: sc around, dec 4 sts evenly"


def shaped(
    words: str, height: Fraction | None = Fraction(5)
) -> list[tuple[int | None, int | None]]:
    """Rounds and stitches of each line, over 40 sc."""
    rows = counted(f"{DEC}\n{words}", worked="spiral rounds", heights=(height,), below=40)
    assert [fault for row in rows for fault in row.faults] == []
    return [(one.times, one.sts) for row in rows if (one := row.per_size[0]) is not None]


@pytest.mark.parametrize(
    ("words", "rounds", "sts"),
    [
        ("rep Dec rnd every 4th rnd 5 more times", 20, 16),
        ("rep Dec rnd every 4 rounds 5 times more", 20, 16),
        ("work even in sc, rep dec rnd every other rnd twice", 4, 28),
        ("Work even in patt and repeat Dec rnd every 3rd round, 3 more times", 9, 24),
        ("rep Dec rnd every rnd 3 more times", 3, 24),
        ("rep Dec rnd every 2 cm 3 more times", 12, 24),
        ("work even, rep Dec rnd every inch (2.5 cm) 2 more times (28 sts)", 10, 28),
        ("Rnds 2-9: rep Dec rnd every 4th rnd 2 more times", 8, 28),
    ],
)
def test_the_rows_between_are_worked_even(words: str, rounds: int, sts: int) -> None:
    """Each time as many even rounds as are between, then the round that is named."""
    assert [(1, 36), (rounds, sts)] == shaped(words)


def test_without_a_row_gauge_the_number_of_rows_is_open() -> None:
    """The counts are known."""
    assert [(1, 36), (None, 16)] == shaped("rep Dec rnd every 3 cm 5 more times", None)


def test_a_range_that_is_too_long_is_told() -> None:
    """The words stand for 8 rounds."""
    rows = counted(
        f"{DEC}\nRnds 2-10: rep Dec rnd every 4th rnd 2 more times",
        worked="spiral rounds",
        below=40,
    )
    assert ["row-number"] == [fault.fault.code for row in rows for fault in row.faults]
