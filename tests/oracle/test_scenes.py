"""Parted pieces, short rows and shaping over many rows are counted as by hand."""

from __future__ import annotations

import os
import random

import pytest

from tests.oracle.scenes import Scene, scene
from tests.oracle.texts import number
from workeven.problems.catalogue import severity
from workeven.problems.record import Severity
from workeven.proof import counting

#: how many scenes: a fifth of the pieces of the other tests
SCENES = int(os.environ.get("WORKEVEN_ORACLE_PIECES", "1000")) // 5
BATCH = 50


def differences(made: Scene) -> list[str]:
    """Where the engine counts other stitches, or finds another line at fault."""
    wide = made.wide if len(set(made.wide)) > 1 else made.wide[0]
    checked = counting.count(
        made.text,
        file="scene",
        worked=made.worked,
        terms="us",
        start=f"{number(wide, random.Random(0))} sc",  # noqa: S311
        sizes=made.sizes or None,
    )
    errors = [p for p in checked.problems if severity(p.code) is Severity.ERROR]
    rows = {row.line: row.sts for row in checked.value.rows} if checked.value is not None else {}
    found = []
    for size, name in enumerate(made.sizes or ("",)):
        fails = next((at for at, (_, sts) in enumerate(made.lines, 1) if sts[size] is None), 0)
        blamed = [p.span.line for p in errors if p.sizes is None or not name or name in p.sizes]
        if fails != min(blamed, default=0):
            said = next((p.found for p in errors if p.span.line == min(blamed, default=0)), "")
            found.append(f"{name}: line {fails} fails, engine {min(blamed, default=0)} {said}")
        for at, (_, sts) in enumerate(made.lines, 1):
            if fails and at >= fails:
                break
            if rows.get(at, (None,) * 9)[size] != sts[size]:
                found.append(f"{name}: line {at} leaves {sts[size]}, engine {rows.get(at)}")
    return found


@pytest.mark.parametrize("first", range(0, max(SCENES, BATCH), BATCH))
def test_parted_and_shaped_pieces_are_counted_as_by_hand(first: int) -> None:
    """Line by line and size by size."""
    for seed in range(first, first + BATCH):
        made = scene(random.Random(f"scene {seed}"))  # noqa: S311
        found = differences(made)
        assert not found, "\n".join([f"scene {seed}", made.text, *found])
