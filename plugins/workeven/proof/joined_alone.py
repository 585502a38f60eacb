"""Yarn that is joined in a line of its own, in front of the round it belongs to.

Takes     the lines of a piece.
Gives     ``with_joined_alone``: the same lines, that step moved to the round behind it.
Problems  none.
From      common practice: "Thumb: join yarn in first skipped st." and below it "Rnd 1: sc in each
          of the 8 skipped sts, sc in each of the 2 ch".

A round that takes up a gap and the chain across it says so by the places that it names. Where the
yarn is joined in a line above, that line alone does not tell of the chain: read together they do.

Worked example: "Sleeve: Join yarn in 3rd of 4 underarm ch." works nothing, and "Rnd 1: ch 1, sc in
each of last 2 underarm ch, sc in each of 10 skipped sc, sc in each of first 2 underarm ch" begins
with the yarn joined.
"""

from __future__ import annotations

from collections.abc import Iterable

from workeven.notation.earlier import in_skipped
from workeven.notation.tree import (
    Aside,
    Each,
    Earlier,
    First,
    JoinYarn,
    Last,
    Next,
    OneChain,
    Work,
    WorkedRow,
)
from workeven.proof.line import Lined
from workeven.records import replace


def with_joined_alone(lines: Iterable[Lined]) -> tuple[Lined, ...]:
    """The lines, each round over a gap and its chain with the yarn that was joined before it."""
    found = list(lines)
    for at in range(len(found) - 1):
        moved = _moved(found[at], found[at + 1])
        if moved is not None:
            found[at : at + 2] = moved
    return tuple(found)


def _moved(line: Lined, following: Lined) -> tuple[Lined, Lined] | None:
    """Both lines with the joined yarn in the second; None where they are not such a pair."""
    body, behind = line.row.body, following.row.body
    if not isinstance(body, WorkedRow) or not isinstance(behind, WorkedRow):
        return None
    joined = [step for step in body.steps if isinstance(step, JoinYarn)]
    alone = len(joined) == 1 and joined[0].stitch is None
    alone = alone and all(isinstance(step, JoinYarn | Aside) for step in body.steps)
    chain = alone and _is_chain(joined[0].target)
    of_gap = body.onto is not None and body.onto.unworked
    if not alone or not (of_gap or chain) or not _names_chains(behind):
        return None
    onto = behind.onto or body.onto or Earlier(None, unworked=True)
    steps = tuple(in_skipped(following.row.text, behind.steps)) if onto.unworked else behind.steps
    told = tuple(Aside(step.start, step.end) for step in body.steps)
    yarn = replace(joined[0], start=0, end=0)
    return (
        _with_body(line, replace(body, steps=told, onto=None)),
        _with_body(following, replace(behind, steps=(yarn, *steps), onto=onto)),
    )


def _is_chain(target: object) -> bool:
    return isinstance(target, First | Next | Last | Each) and target.names == (OneChain(),)


def _names_chains(body: WorkedRow) -> bool:
    """Whether a row goes into single chains."""
    return any(isinstance(step, Work) and _is_chain(step.target) for step in body.steps)


def _with_body(line: Lined, body: WorkedRow) -> Lined:
    return replace(line, row=replace(line.row, body=body))
