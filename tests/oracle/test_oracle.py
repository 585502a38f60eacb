"""Engine and oracle agree on pieces made at random: counts, and the first row that fails."""

from __future__ import annotations

import os
import random

import pytest

from tests.oracle.comparison import compare
from tests.oracle.generator import piece
from tests.oracle.mistakes import spoil
from tests.oracle.texts import TERMS
from tests.oracle.wording import write

#: how many pieces; 10,000 in the long run, by the environment variable
PIECES = int(os.environ.get("WORKEVEN_ORACLE_PIECES", "1000"))
BATCH = 100

#: share of the pieces with a mistake in them, and of those found only as another reading at most
SPOILED = 0.4
READINGS = 0.05


def differences(seed: int) -> tuple[list[str], bool]:
    """Where the two disagree on the piece of a seed, and whether its fault was a reading only."""
    rng = random.Random(seed)  # noqa: S311
    made = piece(rng)
    if rng.random() < SPOILED:
        made = spoil(made, rng)
    text = write(made, rng, rng.choice(TERMS))
    verdict = compare(made, text)
    if not verdict.disagreements:
        return [], verdict.only_reading
    sizes = f"{made.worked}, sizes {', '.join(made.sizes) or 'none'}, {text.terms}"
    return [f"seed {seed}: {sizes}", text.text, *verdict.disagreements], verdict.only_reading


@pytest.mark.parametrize("first", range(0, PIECES, BATCH))
def test_engine_and_oracle_agree(first: int) -> None:
    """Per row and size both count the same stitches, or find the same row at fault."""
    readings = 0
    for seed in range(first, first + BATCH):
        found, only_reading = differences(seed)
        assert "\n".join(found) == ""
        readings += only_reading
    assert readings <= READINGS * BATCH
