"""Words with two readings are counted by the one that comes out, and both are named."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from tests.oracle.comparison import compare, counted
from tests.oracle.generator import piece
from tests.oracle.readings import expect
from tests.oracle.structure import (
    Chain,
    FromHook,
    Piece,
    Repeat,
    Row,
    Same,
    Skip,
    Start,
    Stated,
    Step,
    Stitches,
    Work,
)
from tests.oracle.texts import TERMS, Line, Text
from tests.oracle.wording import write
from workeven.problems.catalogue import severity
from workeven.problems.record import Severity

PIECES = 100


def unsaid(step: Step) -> Step:
    """The step as its words are read by default, once it no longer says how it is meant."""
    match step:
        case Start(chains=2, stands_for="hdc") | FromHook(nth=3, stands_for="hdc"):
            return replace(step, stands_for="")
        case Repeat(times=int(times), last=None) if times > 3:
            return replace(step, times=times + 1)
        case _:
            return step


def with_a_second_reading(rng: random.Random) -> tuple[Piece, Text]:
    """A piece that comes out only where one of its rows is read in the other way."""
    while True:
        made = piece(rng)
        entries = [
            entry
            for entry, row in enumerate(made.rows)
            if isinstance(row, Row) and tuple(map(unsaid, row.steps)) != row.steps
        ]
        if not entries:
            continue
        entry = rng.choice(entries)
        row = made.rows[entry]
        assert isinstance(row, Row)
        curt = replace(row, steps=tuple(map(unsaid, row.steps)))
        doubtful = replace(made, rows=(*made.rows[:entry], curt, *made.rows[entry + 1 :]))
        text = write(doubtful, rng, rng.choice(TERMS), curt=True)
        if entry in expect(doubtful, text).read:
            return doubtful, text


@pytest.mark.parametrize("seed", range(PIECES))
def test_the_only_other_reading_is_counted(seed: int) -> None:
    """Where one other reading comes out in every size, the row is counted by it, with advice."""
    made, text = with_a_second_reading(random.Random(f"reading {seed}"))  # noqa: S311
    found = compare(made, text).disagreements
    assert "\n".join(found) == "", text.text


def one(kind: str, number: int = 1) -> tuple[Stitches]:
    """Content of one kind."""
    return (Stitches(kind, number),)


LOOPS = (Chain(5), Skip(3), Work(one("sc")))
SHELLS = (Skip(3), Work(one("dc", 4)))

SILENT = {
    "the start has done the last step": (
        "joined rounds",
        Row((Start(1), Same(one("sc")), Repeat(LOOPS, last=LOOPS[:2], last_form="unsaid"))),
        "ch 1, sc in same st, *ch 5, sk 3 sts, sc in next st; rep from * around, join",
    ),
    "only a skip remains": (
        "joined rounds",
        Row(
            (
                Start(3, "dc"),
                Same(one("dc", 3)),
                Repeat(SHELLS, last=SHELLS[:1], last_form="unsaid"),
            )
        ),
        "ch 3, 3 dc in same st, *sk 3 sts, 4 dc in next st; rep from * around, join",
    ),
    "the stated count confirms that a row stops early": (
        "flat rows",
        Row((Start(1), Work(one("sc"), 18), Skip(6)), stated=Stated((("", 18),))),
        "ch 1, sc in next 18 sts, turn (18)",
    ),
}


@pytest.mark.parametrize("case", SILENT)
def test_what_is_left_unsaid_is_understood(case: str) -> None:
    """A last repeat cut short in silence, a row confirmed by its count: a reading, with advice."""
    worked, row, words = SILENT[case]
    made = Piece(worked, (row,), start=(("sc", 24),))
    text = Text(words + "\n", (Line(1, 0),), "us")
    engine = counted(made, text)
    want = expect(made, text).counts[0][0]
    assert want is not None
    assert [] == [p.found for p in engine.problems if severity(p.code) is Severity.ERROR]
    assert (want.sts,) == engine.sts[1]
    assert (want.makes,) == engine.makes[1]
    assert ["row-reading"] == [p.code for p in engine.problems]
