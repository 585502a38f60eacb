"""Rounds that go into stitches and into the gaps behind them, against a walk of a few lines.

From common practice: behind each stitch of a round is one gap, the last of them before the first
stitch; a stitch that is worked or skipped leads to the gap right behind it. The walk numbers stitch
``n`` as ``2 n`` and the gap behind it as ``2 n + 1``, and knows nothing else of the engine.
"""

from __future__ import annotations

import os
import random

from tests.support import plain_rows
from workeven.problems import Severity
from workeven.problems.catalogue import severity

PIECES = int(os.environ.get("WORKEVEN_ORACLE_PIECES", "1000"))
MOST_STEPS = 5
#: of what is drawn, about so much comes out and so much does not
SOME = PIECES // 40

Body = tuple[tuple[str, int], ...]


def worked_around(body: Body, sts: int) -> int | None:
    """How many stitches a repeat makes around; None where its last turn does not come out."""
    at, made = 1, 0
    while at < 2 * sts:
        for kind, count in body:
            for _ in range(0 if kind == "chain" else count):
                on_stitch = at % 2 == 0
                if kind == "gap":
                    at += 1 if on_stitch else 2
                else:
                    at += 2 if on_stitch else 1
                made += kind != "skip"
                if at > 2 * sts + (kind == "gap"):
                    return None
    return made


def in_words(body: Body) -> str:
    """The body of a repeat as a row tells it."""
    told: list[str] = []
    for kind, count in body:
        sts = "next sc" if count == 1 else f"next {count} sc"
        told += {
            "work": [f"sc in {sts}"],
            "skip": [f"sk {sts}"],
            "gap": ["sc in sp between sc"] * count,
            "chain": ["ch 1"],
        }[kind]
    return ", ".join(told)


def body_of(rng: random.Random) -> Body:
    """A repeat that begins with a stitch, and has a gap in it."""
    steps = [(rng.choice(["work", "skip"]), rng.randint(1, 3))]
    for _ in range(rng.randint(1, MOST_STEPS - 1)):
        kind = rng.choice(["work", "skip", "gap", "gap", "chain"])
        if kind != steps[-1][0] or kind == "work":
            steps.append((kind, 1 if kind == "chain" else rng.randint(1, 3)))
    if all(kind != "gap" for kind, _count in steps):
        steps.append(("gap", 1))
    return tuple(steps)


def test_a_round_of_stitches_and_gaps() -> None:
    """What comes out is counted so; of what does not, nothing passes."""
    rng = random.Random(2026)  # noqa: S311, cases and no secret
    right = wrong = 0
    for _ in range(PIECES):
        body, sts = body_of(rng), rng.choice([12, 18, 24, 36])
        made = worked_around(body, sts)
        row = f"Rnd 1: ch 1, *{in_words(body)}; rep from * around, join."
        counted = plain_rows.count(f"worked: joined rounds\nfrom: {sts} sc\n{row}\n")
        errors = [one.code for one in counted.problems if severity(one.code) is Severity.ERROR]
        if made is None:
            assert errors, (sts, row)
            wrong += 1
            continue
        assert counted.value is not None
        (found,) = counted.value.rows[0].makes
        assert not errors, (sts, row)
        assert found is not None
        assert sum(n for kind, n in found if kind == "sc") == made, (sts, row)
        right += 1
    assert right > SOME
    assert wrong > SOME
