"""One mistake gives one message: rows after it are counted from what the row states."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from tests.oracle import walker
from tests.oracle.comparison import counted
from tests.oracle.generator import piece
from tests.oracle.mistakes import wrong_number
from tests.oracle.structure import Again, Between, Center, Piece, Repeat, Row, Step
from tests.oracle.wording import write
from workeven.problems.catalogue import severity
from workeven.problems.record import Severity

BATCHES = 10
BATCH = 20


def by_groups(step: Step) -> bool:
    """Whether a step hangs on more of the row before than its stitches."""
    if isinstance(step, Repeat):
        return any(by_groups(part) for part in step.body)
    return isinstance(step, Center | Between)


def only_stitches(made: Piece) -> bool:
    """Whether no row makes spaces or asks for groups: a stated count then says all of a row."""
    rows = [row for row in made.rows if isinstance(row, Row)]
    counts = [count for row in walker.count(made) for count in row if count is not None]
    spaces = any(kind.startswith("ch-") for count in counts for kind in count.makes)
    return not spaces and not any(by_groups(step) for row in rows for step in row.steps)


def states_stitches(row: Row | Again) -> bool:
    """Whether a row states its stitches in all."""
    if isinstance(row, Again) or row.stated is None or row.begin or row.times != 1:
        return False
    return row.stated.figures[0][0] in ("", "sts")


def with_one_mistake(rng: random.Random) -> Piece:
    """A piece with a wrong number in a row that states the right count."""
    while True:
        made = piece(rng)
        stating = [entry for entry, row in enumerate(made.rows) if states_stitches(row)]
        if not stating or not only_stitches(made):
            continue
        entry = rng.choice(stating)
        row = made.rows[entry]
        assert isinstance(row, Row)
        wrong = wrong_number(row, rng, made.size_count if row.works is None else 1)
        if wrong is None:
            continue
        spoiled = replace(made, rows=(*made.rows[:entry], wrong, *made.rows[entry + 1 :]))
        if any(count and count.fault for count in walker.count(spoiled)[entry]):
            return spoiled


@pytest.mark.parametrize("batch", range(BATCHES))
def test_one_mistake_gives_one_message(batch: int) -> None:
    """A wrong number is reported once, however many rows stand upon it."""
    for seed in range(batch * BATCH, (batch + 1) * BATCH):
        rng = random.Random(f"one mistake {seed}")  # noqa: S311
        spoiled = with_one_mistake(rng)
        text = write(spoiled, rng)
        problems = counted(spoiled, text).problems
        errors = [p for p in problems if severity(p.code) is Severity.ERROR]
        readings = [p for p in problems if p.code == "row-reading"]
        assert len(errors) == 1 or (not errors and len(readings) == 1), text.text
