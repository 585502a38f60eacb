"""Mistakes in the starting chain and in the first row on it.

Takes     ``Rows`` that come out.
Gives     ``MISTAKES``: a sentence each, and the function that yields every place.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial

from tests.seeded.making import Make, by_numbers, off_in_one_size, reworded, swapped
from tests.seeded.spans import Slip
from tests.seeded.words import Rows


def from_hook(rows: Rows, by: int) -> Iterator[Slip]:
    """The chain next to the right one; what is said of the skipped chains goes with it."""
    endings = {2: "2nd", 3: "3rd"}

    def new(found: re.Match[str]) -> str | None:
        nth = int(found[1]) + by
        if nth < 2:
            return None
        said = (found[3] or "").replace(f"skipped {nth - by - 1} ", f"skipped {nth - 1} ")
        return f"in {endings.get(nth, f'{nth}th')} ch from hook{said}"

    yield from reworded(rows, r"in (\d)(st|nd|rd|th) ch from hook( \([^)]*\))?", new)


def skipped_chains_otherwise(rows: Rows) -> Iterator[Slip]:
    """Skipped chains that count, said not to, or the other way."""

    def new(found: re.Match[str]) -> str:
        counts = "do not count" if "count as" in found[2] else f"count as {found[1]}"
        return re.sub(r"do not count|count as \w+(?: and ch \d)?", counts, found[0])

    yield from reworded(rows, r"(\w+) in \dth ch from hook( \(skipped [^)]*\))", new)
    yield from reworded(rows, r"(\w+) in 3rd ch from hook( \(skipped [^)]*\))", new)


MISTAKES: tuple[tuple[str, Make], ...] = (
    (
        "The starting chain is one short in one size.",
        by_numbers(off_in_one_size, "starting chain", by=-1),
    ),
    (
        "The starting chain is one too long in one size.",
        by_numbers(off_in_one_size, "starting chain", by=1),
    ),
    ("The starting chains of two sizes are swapped.", by_numbers(swapped, "starting chain")),
    ("The first row begins a chain too far from the hook.", partial(from_hook, by=1)),
    ("The first row begins a chain too near the hook.", partial(from_hook, by=-1)),
    ("Skipped chains that count are said not to, or the other way.", skipped_chains_otherwise),
)
