"""Mistakes in runs of stitches and in what is skipped.

Takes     ``Rows`` that come out.
Gives     ``MISTAKES``: a sentence each, and the function that yields every place.
Problems  none.
From      common practice: what technical editors look for in a pattern.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from tests.seeded.making import ONE, Make, by_numbers, off_in_one_size, reworded, step_left_out
from tests.seeded.spans import Slip
from tests.seeded.words import Rows


def run_shortened(rows: Rows) -> Iterator[Slip]:
    """``sc in next st`` for ``sc in each of next 3 sts``: the number forgotten."""
    yield from reworded(
        rows, rf"({ONE}) in (?:each of )?next \d+ (st|sc|dc|ch)s?\b", r"\1 in next \2"
    )


MISTAKES: tuple[tuple[str, Make], ...] = (
    ("A run of stitches is one too long in one size.", by_numbers(off_in_one_size, "run", by=1)),
    ("A run of stitches is one too short in one size.", by_numbers(off_in_one_size, "run", by=-1)),
    ("The number of a run is forgotten.", run_shortened),
    ("A stitch too many is skipped.", by_numbers(off_in_one_size, "skip", by=1)),
    ("A stitch too few is skipped.", by_numbers(off_in_one_size, "skip", by=-1)),
    (
        "One stitch is skipped where none is: `sk 1 st` for `sk next 2 sts` and so on.",
        lambda rows: reworded(rows, r"\b(sk|skip|miss) (?:1|next) (st|ch)\b", r"\1 2 \2s"),
    ),
    ("A skip is forgotten.", partial(step_left_out, only=r"^\*?(?:sk|skip|miss)\b")),
)
