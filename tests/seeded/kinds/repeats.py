"""Mistakes in repeats: where they begin, how often they are worked, where they stop.

Takes     ``Rows`` that come out.
Gives     ``MISTAKES``: a sentence each, and the function that yields every place.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial

from tests.seeded.making import Make, by_numbers, off_in_one_size, reworded, step_left_out
from tests.seeded.spans import Slip, changed, is_step, lines, parts
from tests.seeded.words import Rows


def star_moved(rows: Rows, *, later: bool) -> Iterator[Slip]:
    """The star of a repeat a step too late or too early."""
    for number, line in lines(rows):
        spans = parts(line, rows.size_count)
        for at, (start, end) in enumerate(spans):
            if line[start] != "*":
                continue
            if later:
                after = spans[at + 1] if at + 1 < len(spans) else None
                if after is None or line[end] != "," or not is_step(line[slice(*after)]):
                    continue
                new = line[:start] + line[start + 1 : after[0]] + "*" + line[after[0] :]
                yield changed(rows, number, start, new)
            elif at and is_step(line[slice(*spans[at - 1])]):
                before = spans[at - 1][0]
                if re.match(r"ch \d|\*|magic", line[before:]):
                    continue
                new = line[:before] + "*" + line[before:start] + line[start + 1 :]
                yield changed(rows, number, before, new)


MISTAKES: tuple[tuple[str, Make], ...] = (
    ("A repeat is worked once too often in one size.", by_numbers(off_in_one_size, "more", by=1)),
    ("A repeat is ended one too early in one size.", by_numbers(off_in_one_size, "more", by=-1)),
    (
        "A repeat is worked `twice` for three times, or the other way.",
        lambda rows: reworded(
            rows,
            r"\b(twice|three times)\b",
            lambda found: "three times" if found[0] == "twice" else "twice",
        ),
    ),
    (
        "`to last 3 sts` for `to last 4 sts`, in one size.",
        by_numbers(off_in_one_size, "last", by=-1),
    ),
    (
        "`to last 5 sts` for `to last 4 sts`, in one size.",
        by_numbers(off_in_one_size, "last", by=1),
    ),
    (
        "`to last st` for `to last 2 sts`.",
        lambda rows: reworded(rows, r"to last 2 (st|sc|dc|ch)s?\b", r"to last \1"),
    ),
    (
        "A row goes to its end where it should stop before.",
        lambda rows: reworded(
            rows,
            r"to last (?:\d+(?: \([\d, ]+\))* )?(?:sts?|sc|dc|chs?|tr)\b",
            "across" if rows.worked == "flat rows" else "around",
        ),
    ),
    (
        "The last stitches of a row are one too many in one size.",
        by_numbers(off_in_one_size, "last run", by=1),
    ),
    ("What follows a repeat is forgotten.", partial(step_left_out, after_repeat=True)),
    ("The star of a repeat stands a step too late.", partial(star_moved, later=True)),
    ("The star of a repeat stands a step too early.", partial(star_moved, later=False)),
)
