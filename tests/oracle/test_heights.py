"""Rows worked up to a length are as many as the row gauge gives, with the ending that is asked for.

From notation.md, Whole pieces: the number of rows is the nearest that the ending allows, a tie
going up; a height is the sum of each row's own gauge, and the starting chain adds none.
"""

from __future__ import annotations

import os
import random
from fractions import Fraction

import pytest

from tests.support.pattern_files import GOOD, outcome

#: how many pieces: a twentieth of those of the other tests, as each is a whole pattern file
PIECES = int(os.environ.get("WORKEVEN_ORACLE_PIECES", "1000")) // 20
BATCH = 10

LENGTHS = "  length: 20 (24, 27) cm"
GAUGE = "rows: 18, over: 10 cm"
UNTIL = "          rep last row until piece measures {length}\n"
BAND = "      - title: Scallops\n"


def rows_for(length: Fraction, gauge: int, before: int, ending: str) -> int:
    """How many rows stand there in all, ``before`` of them already: found by trying them all."""
    sides = {"": (0, 1), "RS": (1,), "WS": (0,)}[ending]
    allowed = [rows for rows in range(before + 1, before + 900) if rows % 2 in sides]
    return max(allowed, key=lambda rows: (-abs(Fraction(rows * 10, gauge) - length), rows))


def piece(rng: random.Random) -> tuple[str, list[int]]:
    """A pattern with a length by size, and how many rows its third line stands for."""
    gauge, least = rng.randint(9, 31), rng.randint(16, 60)
    lengths = [Fraction(least + size * rng.randint(1, 9), 2) for size in range(3)]
    ending = rng.choice(["", "", "WS", "RS"])
    plain = rng.randint(0, 3)
    words = rng.choice(["until piece measures", "until work measures", "until it measures"])
    end = rng.choice([f", ending with a {ending} row", f", end with a {ending} row"])
    line = f"          rep last row {words} {{length}}{end if ending else ''}\n"
    more = "".join("          ch 1, sc in each st across, turn\n" for _ in range(plain))
    text = GOOD.replace(GAUGE, f"rows: {gauge}, over: 10 cm").replace(UNTIL, more + line)
    printed = [f"{float(one):g}" for one in lengths]
    text = text.replace(LENGTHS, f"  length: {printed[0]} ({printed[1]}, {printed[2]}) cm")
    before = 2 + plain
    return text, [rows_for(one, gauge, before, ending) - before for one in lengths]


@pytest.mark.parametrize("first", range(0, max(PIECES, BATCH), BATCH))
def test_as_many_rows_as_the_length_takes(first: int) -> None:
    """In every size, by the line that repeats."""
    for seed in range(first, first + BATCH):
        text, expected = piece(random.Random(f"height {seed}"))  # noqa: S311
        proven = outcome(text).ready
        assert proven is not None, (seed, [problem.found for problem in outcome(text).problems])
        section = proven.proven.pieces[0].sections[0]
        line = len(section.rows) - 1
        times = [entry.times if entry else None for entry in section.rows[line].per_size]
        assert expected == times, f"height {seed}\n{text}"
