"""Mistakes in lists by size, and in which sizes work a row.

Takes     ``Rows`` that come out.
Gives     ``MISTAKES``: a sentence each, and the function that yields every place.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from tests.seeded.making import (
    STEPS,
    Make,
    by_numbers,
    numbers,
    of_the_neighbour,
    reworded,
    swapped,
    with_values,
)
from tests.seeded.spans import Slip, changed, lines
from tests.seeded.words import Rows


def size_missing(rows: Rows) -> Iterator[Slip]:
    """A list without one of the sizes; two sizes are left at least, so that it stays a list."""
    for number, line, figure in numbers(rows, *STEPS, "stated", "starting chain", "label"):
        if len(figure.values) < 3:
            continue
        for size in range(len(figure.values)):
            new = (*figure.values[:size], *figure.values[size + 1 :])
            text = figure.written(new, len(new) + 1)
            if len(set(new)) == 1:
                text = f"{new[0]} ({', '.join(str(one) for one in new[1:])})"
                text = ", ".join(str(one) for one in new) if figure.form == "row" else text
            after = line[: figure.start] + text + line[figure.end :]
            yield changed(rows, number, figure.start, after)


def size_too_many(rows: Rows) -> Iterator[Slip]:
    """A list with a number more than there are sizes."""
    for number, line, figure in numbers(rows, *STEPS, "stated", "starting chain"):
        if len(figure.values) > 1:
            new = (*figure.values, figure.values[-1] + 1)
            yield from with_values(rows, number, line, figure, new)


def sizes_unsaid(rows: Rows) -> Iterator[Slip]:
    """A row for some sizes that no longer says so."""
    yield from reworded(rows, r"^sizes? [^:]+ only: ", "")


def sizes_other(rows: Rows) -> Iterator[Slip]:
    """A row for some sizes that names one size more or less."""
    for number, line in lines(rows):
        found = re.match(r"sizes? ([^:]+) only: ", line)
        if found is None:
            continue
        run = re.fullmatch(r"(\S+)[–-](\S+)", found[1])
        first = run[1] if run else found[1]
        last = run[2] if run else found[1]
        if first not in rows.sizes or last not in rows.sizes:
            continue
        at, to = rows.sizes.index(first), rows.sizes.index(last)
        for begin, end in ((at - 1, to), (at + 1, to), (at, to - 1), (at, to + 1)):
            if 0 <= begin <= end < len(rows.sizes):
                names = f"{rows.sizes[begin]}–{rows.sizes[end]}"
                new = (
                    f"size {rows.sizes[begin]} only: " if begin == end else f"sizes {names} only: "
                )
                yield changed(rows, number, 0, new + line[found.end() :])


MISTAKES: tuple[tuple[str, Make], ...] = (
    ("A size is missing from a list.", size_missing),
    ("A list has a number too many.", size_too_many),
    ("Two sizes are swapped in the numbers of a step.", by_numbers(swapped, *STEPS)),
    ("A step of one size has the number of the next size.", by_numbers(of_the_neighbour, *STEPS)),
    ("A row for some sizes does not say so.", sizes_unsaid),
    ("A row for some sizes names a size too many or too few.", sizes_other),
)
