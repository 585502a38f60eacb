"""Mistakes in increases, decreases and shells.

Takes     ``Rows`` that come out.
Gives     ``MISTAKES``: a sentence each, and the function that yields every place.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial

from tests.seeded.making import ONE, Make, by_numbers, off_in_one_size, reworded
from tests.seeded.spans import Slip
from tests.seeded.words import Rows


def increase_too_many(rows: Rows) -> Iterator[Slip]:
    """Two in a stitch where one is meant."""
    yield from reworded(rows, rf"(?<!\d )(?<![\w-])({ONE}) in (next|last) st\b", r"2 \1 in \2 st")


def decrease_too_many(rows: Rows) -> Iterator[Slip]:
    """Two together where one is meant."""
    yield from reworded(rows, rf"(?<!\d )(?<![\w-])({ONE}) (?:1|in next st)(?![\w ])", r"\g<1>2tog")


def bigger_group(rows: Rows, by: int) -> Iterator[Slip]:
    """A stitch too many or too few among those worked into one place."""

    def new(found: re.Match[str]) -> str | None:
        number = int(found[2]) + by
        if number == 1:
            return f"{found[1]}{found[3]}"
        return f"{found[1]}{number} {found[3]}" if number else None

    for kind in (rf"({ONE} in (?:next|same|first|last|center))", rf"({ONE})(?=[^;\]]*?\) in )"):
        yield from reworded(rows, rf"((?:[,;(\[*:] ?|^))(\d) {kind}", new)


MISTAKES: tuple[tuple[str, Make], ...] = (
    (
        "A decrease is written as a plain stitch.",
        lambda rows: reworded(
            rows, r"\b(sc|hdc|dc|tr)\dtog(?: over next \d sts)?", r"\1 in next st"
        ),
    ),
    ("A decrease too many: two together where one is meant.", decrease_too_many),
    (
        "A decrease takes three together for two.",
        lambda rows: reworded(rows, r"\b(sc|hdc|dc|tr)2tog(?! over)", r"\g<1>3tog"),
    ),
    (
        "An increase is written as a plain stitch.",
        lambda rows: reworded(rows, rf"\b2 ({ONE}) in (next|first|last|each)", r"\1 in \2"),
    ),
    (
        "`inc` is written as a plain stitch.",
        lambda rows: reworded(
            rows,
            r"(?<=[,;\[(*] )inc(?=[,;\])])",
            "dc in next st" if rows.terms == "uk" else "sc in next st",
        ),
    ),
    ("An increase too many: two in a stitch where one is meant.", increase_too_many),
    (
        "An increase is written for a decrease, or the other way.",
        lambda rows: reworded(
            rows, r"\b(inc|dec)\b", lambda found: "dec" if found[0] == "inc" else "inc"
        ),
    ),
    (
        "More stitches are increased or decreased evenly than meant, in one size.",
        by_numbers(off_in_one_size, "evenly", by=1),
    ),
    ("A shell has one stitch too many.", partial(bigger_group, by=1)),
    ("A shell has one stitch too few.", partial(bigger_group, by=-1)),
)
