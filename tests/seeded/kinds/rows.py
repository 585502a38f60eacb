"""Mistakes with whole rows and with their numbers.

Takes     ``Rows`` that come out.
Gives     ``MISTAKES``: a sentence each, and the function that yields every place.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from tests.seeded.making import Make
from tests.seeded.spans import Slip, changed, lines
from tests.seeded.words import Rows


def row_left_out(rows: Rows) -> Iterator[Slip]:
    """A whole line that is not there."""
    texts = rows.text.split("\n")
    for at in range(1, len(texts) - 1):
        yield Slip(at + 1, 1, "\n".join(texts[:at] + texts[at + 1 :]))


def row_twice(rows: Rows) -> Iterator[Slip]:
    """A whole line written twice."""
    texts = rows.text.split("\n")
    for at in range(1, len(texts)):
        yield Slip(at + 2, 1, "\n".join(texts[: at + 1] + texts[at:]))


def rows_swapped(rows: Rows) -> Iterator[Slip]:
    """Two neighbouring rows in the wrong order, each with the number of its place."""
    texts = rows.text.split("\n")
    label = re.compile(r"((?:Rows?|Rnds?) [\d–-]+(?: \([RW]S\))?: )?(.*)")
    for at in range(1, len(texts) - 1):
        first, second = label.fullmatch(texts[at]), label.fullmatch(texts[at + 1])
        if first is None or second is None or first[2] == second[2]:
            continue
        if re.match(r"Rows|Rnds", texts[at]) or re.match(r"Rows|Rnds", texts[at + 1]):
            continue
        new = [(first[1] or "") + second[2], (second[1] or "") + first[2]]
        yield Slip(at + 1, 1, "\n".join(texts[:at] + new + texts[at + 2 :]))


def other_row(rows: Rows) -> Iterator[Slip]:
    """``rep Row 3`` for ``rep Row 2``; of two rows both move."""
    for number, line in lines(rows):
        for found in re.finditer(r"rep (Rows?|Rnds?) (\d+)(?:( and |[-–])(\d+))?", line):
            for by in (-1, 1):
                first = int(found[2]) + by
                second = f"{found[3]}{int(found[4]) + by}" if found[3] else ""
                if first > 0:
                    new = f"rep {found[1]} {first}{second}"
                    after = line[: found.start()] + new + line[found.end() :]
                    yield changed(rows, number, found.start(), after)


def row_number(rows: Rows) -> Iterator[Slip]:
    """A row number that is off by one; of a range both."""
    for number, line in lines(rows):
        found = re.match(r"(Rows?|Rnds?) ([\d ,()–-]+)(?= \([RW]S\)|:)", line)
        if found is None or number <= _first_row(rows):
            continue
        for by in (-1, 1):
            new = re.sub(r"\d+", lambda one: str(int(one[0]) + by), found[2])  # noqa: B023
            yield changed(rows, number, 0, f"{found[1]} {new}{line[found.end() :]}")


def range_off(rows: Rows) -> Iterator[Slip]:
    """A range of rows that ends a row early or late."""
    for number, line in lines(rows):
        found = re.match(r"(Rows|Rnds) (\d+)([-–])(\d+):", line)
        if found:
            for by in (-1, 1):
                last = int(found[4]) + by
                if last == int(found[2]):
                    continue  # to the judge a label of one row says where a repeat begins
                new = f"{found[1]} {found[2]}{found[3]}{last}:"
                yield changed(rows, number, 0, new + line[found.end() :])


def _first_row(rows: Rows) -> int:
    """The line of the first row with a number: it may have any."""
    return next((n for n, line in lines(rows) if re.match(r"(?:Rows?|Rnds?) \d", line)), 0)


MISTAKES: tuple[tuple[str, Make], ...] = (
    ("A row number is off by one.", row_number),
    ("A range of rows ends a row early or late.", range_off),
    ("Another row is repeated than meant.", other_row),
    ("A row is left out.", row_left_out),
    ("A row is written twice.", row_twice),
    ("Two rows stand in the wrong order.", rows_swapped),
)
