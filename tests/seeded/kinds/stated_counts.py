"""Mistakes in stated counts: copied, mistyped, of another size or stitch.

Takes     ``Rows`` that come out.
Gives     ``MISTAKES``: a sentence each, and the function that yields every place.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from tests.seeded.making import (
    OTHER,
    Make,
    by_numbers,
    numbers,
    of_the_neighbour,
    off_in_all,
    off_in_one_size,
    swapped,
    with_values,
)
from tests.seeded.spans import Slip, changed, lines, stated_at
from tests.seeded.words import Rows


def digits_swapped(rows: Rows) -> Iterator[Slip]:
    """45 for 54."""
    for number, line, figure in numbers(rows, "stated", "starting chain"):
        for size, value in enumerate(figure.values):
            turned = int(str(value)[::-1])
            new = (*figure.values[:size], turned, *figure.values[size + 1 :])
            if len(str(value)) > 1 and not str(value).endswith("0"):
                yield from with_values(rows, number, line, figure, new)


def copied_from_above(rows: Rows) -> Iterator[Slip]:
    """The stated count of the row above, where another is right."""
    above: str | None = None
    for number, line in lines(rows):
        at = stated_at(line, rows.size_count)
        if at is None:
            continue
        text = line[at[0] : at[1]]
        if above is not None and above != text:
            yield changed(rows, number, at[0], line[: at[0]] + above + line[at[1] :])
        above = text


def stated_unit(rows: Rows) -> Iterator[Slip]:
    """The stated count of another stitch."""
    for number, line in lines(rows):
        at = stated_at(line, rows.size_count)
        if at is None:
            continue
        for found in re.finditer(r"\b(?:sc|hdc|dc|tr|htr|dtr)\b", line[at[0] : at[1]]):
            start, end = at[0] + found.start(), at[0] + found.end()
            yield changed(rows, number, start, line[:start] + OTHER[found[0]] + line[end:])


def stated_space(rows: Rows) -> Iterator[Slip]:
    """The stated count of spaces of another size."""
    for number, line in lines(rows):
        at = stated_at(line, rows.size_count)
        for found in re.finditer(r"ch-(\d)(?= sp)", line[at[0] : at[1]]) if at else ():
            start, end = at[0] + found.start(), at[0] + found.end()  # type: ignore[index]
            new = f"ch-{int(found[1]) + 1}"
            if f"{new} sp" in line[at[0] : at[1]]:  # type: ignore[index]
                continue  # the same spaces told twice: whether they are added up is open
            yield changed(rows, number, start, line[:start] + new + line[end:])


MISTAKES: tuple[tuple[str, Make], ...] = (
    ("A stated count is one too high in one size.", by_numbers(off_in_one_size, "stated", by=1)),
    ("A stated count is one too low in every size.", by_numbers(off_in_all, "stated", by=-1)),
    ("A stated count is ten too high in one size.", by_numbers(off_in_one_size, "stated", by=10)),
    ("Two digits of a count or of a starting chain are swapped.", digits_swapped),
    ("The stated count of the row above is copied.", copied_from_above),
    ("The stated counts of two sizes are swapped.", by_numbers(swapped, "stated")),
    (
        "A stated count of one size is that of the next size.",
        by_numbers(of_the_neighbour, "stated"),
    ),
    ("A stated count names another stitch.", stated_unit),
    ("A stated count names spaces of another size.", stated_space),
)
