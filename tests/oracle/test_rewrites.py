"""A piece in other words has the same counts, and raises nothing."""

from __future__ import annotations

import os
import random

import pytest

from tests.oracle.comparison import Counted, counted
from tests.oracle.generator import piece
from tests.oracle.loosening import loosen
from tests.oracle.structure import Piece
from tests.oracle.texts import TERMS, Text, kind_in
from tests.oracle.wording import write
from workeven.problems.catalogue import severity
from workeven.problems.record import Severity

PIECES = int(os.environ.get("WORKEVEN_ORACLE_PIECES", "1000"))
BATCH = 100

#: advice that hangs on the words chosen and not on the counts: a turning chain left unsaid
WORDS_ONLY = {"row-turning-chain"}


def rewritten(seed: int) -> tuple[Piece, Text, Text]:
    """A piece that comes out, in two wordings, the second often in the other terms."""
    rng = random.Random(f"rewrite {seed}")  # noqa: S311
    made = piece(rng)
    other = loosen(write(made, rng, rng.choice(TERMS[1:])), rng)
    return made, write(made, rng, "us"), other


def by_entry(text: Text, engine: Counted) -> dict[int, tuple[object, object]]:
    """Counts after each entry of the piece, in the terms of the text."""
    last_lines = {line.entry: line.number for line in text.lines}
    return {
        entry: (engine.sts.get(line), engine.makes.get(line)) for entry, line in last_lines.items()
    }


def in_terms(makes: object, terms: str) -> object:
    """US makes by the names of the other text."""
    if isinstance(makes, tuple):
        return tuple(in_terms(made, terms) for made in makes)
    if isinstance(makes, dict):
        return {kind_in(terms, kind): number for kind, number in makes.items()}
    return makes


def differences(seed: int) -> list[str]:
    """Problems raised by either wording, and counts that differ."""
    made, first, second = rewritten(seed)
    one, other = counted(made, first), counted(made, second)
    found = [
        f"{p.code} at line {p.span.line}: {p.found}"
        for engine in (one, other)
        for p in engine.problems
        if severity(p.code) is Severity.ERROR or p.code not in WORDS_ONLY
    ]
    seen, seen_again = by_entry(first, one), by_entry(second, other)
    for entry in seen.keys() & seen_again.keys():
        sts, makes = seen[entry]
        if (sts, in_terms(makes, second.terms)) != seen_again[entry]:
            found.append(f"entry {entry}: {seen[entry]} and {seen_again[entry]}")
    if not found:
        return []
    return [f"seed {seed}: {made.worked}, {made.sizes}", first.text, second.text, *found]


@pytest.mark.parametrize("first", range(0, PIECES, BATCH))
def test_other_words_have_the_same_counts(first: int) -> None:
    """Other spelling, other repeats, other terms, rows split or merged: nothing is raised."""
    for seed in range(first, first + BATCH):
        assert "\n".join(differences(seed)) == ""
