"""Mistakes in the places that a step names, and in the chains that make them.

Takes     ``Rows`` that come out.
Gives     ``MISTAKES``: a sentence each, and the function that yields every place.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial

from tests.seeded.making import (
    ONE,
    OTHER,
    Make,
    by_numbers,
    off_in_all,
    off_in_one_size,
    reworded,
    step_left_out,
)
from tests.seeded.spans import Slip, changed, lines, stated_at
from tests.seeded.words import Rows


def other_space(rows: Rows) -> Iterator[Slip]:
    """``next ch-3 sp`` where the row below has ch-2 sps."""

    def new(found: re.Match[str]) -> str:
        return f"{found[1]}ch-{int(found[2]) + 1} sp"

    yield from reworded(rows, r"((?:next|each|rem) )ch-(\d) sp", new)


def space_lower(rows: Rows) -> Iterator[Slip]:
    """``next ch-1 sp`` where the row below has ch-2 sps."""

    def new(found: re.Match[str]) -> str | None:
        return f"{found[1]}ch-{int(found[2]) - 1} sp" if found[2] != "1" else None

    yield from reworded(rows, r"((?:next|each|rem) )ch-(\d) sp", new)


def other_stitch_below(rows: Rows) -> Iterator[Slip]:
    """``in next dc`` where the row below has sc."""

    def new(found: re.Match[str]) -> str:
        return f"{found[1]}{OTHER[found[2]]}"

    yield from reworded(
        rows, r"\b(in (?:next|each|last|first|each of next \d+) )(sc|dc|hdc|tr|htr)\b", new
    )


def row_in_other_stitch(rows: Rows) -> Iterator[Slip]:
    """A row worked in another stitch than it says."""
    for number, line in lines(rows):
        stated = stated_at(line, rows.size_count)
        end = len(line) if stated is None else stated[0]
        found = re.search(rf"({ONE}) (?:in each|in next|in first|\d)", line[:end])
        if found is None:
            continue
        kind = found[1]
        new = re.sub(rf"(?<![\w-]){kind}(?![\w-])", OTHER[kind], line[:end]) + line[end:]
        yield changed(rows, number, found.start(), new)


def bridge_off(rows: Rows, by: int) -> Iterator[Slip]:
    """A bridge of chains a chain short, said so consistently."""

    def new(found: re.Match[str]) -> str:
        def off(text: str) -> str:
            return re.sub(r"\d+", lambda one: str(int(one[0]) + by), text)

        return f"ch {off(found[1])} (counts as {off(found[2])} sts)"

    yield from reworded(
        rows, r"\bch (\d+(?: \([\d, ]+\))*) \(counts as (\d+(?: \([\d, ]+\))*) sts\)", new
    )


MISTAKES: tuple[tuple[str, Make], ...] = (
    ("A space is named by a larger size than it has.", other_space),
    ("A space is named by a smaller size than it has.", space_lower),
    (
        "The chain between two stitches is one longer than the next row knows.",
        by_numbers(off_in_all, "chain", by=1),
    ),
    ("The chain between two stitches is forgotten.", partial(step_left_out, only=r"^ch \d(?! \()")),
    ("A stitch is named that the row below does not have.", other_stitch_below),
    ("A row is worked in another stitch than the rest says.", row_in_other_stitch),
    ("A bridge of chains is one short.", partial(bridge_off, by=-1)),
    (
        "A bridge of chains counts as more stitches than it has.",
        by_numbers(off_in_all, "said bridge", by=1),
    ),
    (
        "A stitch too few is passed by slip stitches at the head of a row.",
        by_numbers(off_in_one_size, "travel", by=-1),
    ),
    ("`leave rem sts unworked` is forgotten.", partial(step_left_out, only=r"^leave rem")),
)
