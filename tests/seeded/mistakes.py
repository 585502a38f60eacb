"""The mistakes that designers make in rows: a sentence each, and how each of them is made.

Takes     nothing.
Gives     ``MISTAKES``: the sentence of each class and the function that yields its places.
Problems  none.
From      the kinds of mistakes in kinds/, a module each.
"""

from __future__ import annotations

from tests.seeded.kinds import (
    changes,
    places,
    repeats,
    rows,
    runs,
    sizes,
    starting_chain,
    stated_counts,
    steps,
    turning_chain,
)
from tests.seeded.making import Make

MISTAKES: tuple[tuple[str, Make], ...] = (
    *stated_counts.MISTAKES,
    *sizes.MISTAKES,
    *starting_chain.MISTAKES,
    *turning_chain.MISTAKES,
    *runs.MISTAKES,
    *repeats.MISTAKES,
    *changes.MISTAKES,
    *places.MISTAKES,
    *steps.MISTAKES,
    *rows.MISTAKES,
)
