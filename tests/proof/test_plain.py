"""The quick count of plain rows gives what the walk gives; and it is used at all.

So does counting a row in all sizes in step.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.oracle.comparison import counted
from tests.oracle.generator import piece
from tests.oracle.mistakes import spoil
from tests.oracle.wording import write
from workeven import pipeline, source
from workeven.proof import piece as piece_module
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Fabric
from workeven.proof.facts import Facts
from workeven.proof.plain import count_plainly
from workeven.proof.plan import Plan
from workeven.proof.row import RowCount

BATCHES = 8
BATCH = 25
PATTERNS = Path(__file__).parents[2] / "patterns"


def leave_to_the_walk(*_: object) -> None:
    """A quick count that finds no row plain."""


def everywhere(patch: pytest.MonkeyPatch, quick: Callable[..., object]) -> None:
    """Put another quick count in its place: for one size, and for all in step."""
    for module in ("standing", "in_step"):
        patch.setattr(f"workeven.proof.{module}.count_plainly", quick)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_a_generated_piece_is_counted_alike_with_and_without_it(
    batch: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Pieces that come out, and pieces spoilt on purpose: the same counts, the same messages.

    So it is when each size is looked at by itself, and not all in step.
    """
    rng = random.Random(71_000 + batch)  # noqa: S311
    for _ in range(BATCH):
        made = piece(rng)
        for one in (made, spoil(made, rng)):
            text = write(one, rng)
            with monkeypatch.context() as walked:
                everywhere(walked, leave_to_the_walk)
                by_walk = counted(one, text)
            with monkeypatch.context() as by_itself:
                by_itself.setattr(piece_module, "in_step", leave_to_the_walk)
                each_size = counted(one, text)
            assert counted(one, text) == by_walk, text.text
            assert counted(one, text) == each_size, text.text


def test_the_collection_is_counted_alike_with_and_without_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Every row of the demo patterns, in every size."""
    collection = source.collect([str(PATTERNS)])
    quick = pipeline.check(collection)
    with monkeypatch.context() as by_itself:
        by_itself.setattr(piece_module, "in_step", leave_to_the_walk)
        each_size = pipeline.check(collection)
    everywhere(monkeypatch, leave_to_the_walk)
    walked = pipeline.check(collection)
    rows = [
        [
            row.per_size
            for outcome in verdict.outcomes
            if outcome.ready is not None
            for piece_ in outcome.ready.proven.pieces
            for section in piece_.sections
            for row in section.rows
        ]
        for verdict in (quick, each_size, walked)
    ]
    assert rows[0]
    assert rows[0] == rows[1] == rows[2]


def test_the_quick_count_takes_most_rows_of_the_garment(monkeypatch: pytest.MonkeyPatch) -> None:
    """Else all of the above compares the walk with itself."""
    taken: list[bool] = []

    def watched(
        plan: Plan, facts: Facts, below: Fabric | None, context: SizeContext, how: str
    ) -> RowCount | None:
        result = count_plainly(plan, facts, below, context, how)
        taken.append(result is not None)
        return result

    everywhere(monkeypatch, watched)
    pipeline.check(source.collect([str(PATTERNS)]))
    assert sum(taken) > len(taken) / 2
