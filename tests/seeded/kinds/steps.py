"""Mistakes with whole steps: left out, written twice, in the wrong order.

Takes     ``Rows`` that come out.
Gives     ``MISTAKES``: a sentence each, and the function that yields every place.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from tests.seeded.making import Make, step_left_out
from tests.seeded.spans import Slip, changed, is_step, lines, parts
from tests.seeded.words import Rows


def step_twice(rows: Rows) -> Iterator[Slip]:
    """A step written twice in a row."""
    for number, line in lines(rows):
        for start, end in parts(line, rows.size_count):
            text = line[start:end]
            plain = text.lstrip("*").removesuffix("**")
            if re.search(r" in each (?!of)| (?:across|around|to end)$", plain):
                continue  # the second time it finds nothing, and is empty words
            if is_step(plain) and not re.match(r"ch \d+(?! \(counts as \d)|magic ring|\[", plain):
                yield changed(rows, number, end, f"{line[:end]}, {plain}{line[end:]}")


def steps_swapped(rows: Rows) -> Iterator[Slip]:
    """Two neighbouring steps in the wrong order."""
    for number, line in lines(rows):
        spans = parts(line, rows.size_count)
        for (start, end), (begin, stop) in pairwise(spans):
            first, second = line[start:end], line[begin:stop]
            if not (is_step(first.lstrip("*")) and is_step(second)) or begin != end + 2:
                continue
            if second.startswith("*") or "**" in first + second:
                continue
            if re.match(r"ch \d", first) or re.match(r"ch \d", second) or " of t" in second:
                continue
            star = "*" if first.startswith("*") else ""
            new = f"{star}{second}, {first.lstrip('*')}"
            yield changed(rows, number, start, line[:start] + new + line[stop:])


MISTAKES: tuple[tuple[str, Make], ...] = (
    ("A step is left out.", step_left_out),
    ("A step is written twice.", step_twice),
    ("Two steps stand in the wrong order.", steps_swapped),
)
