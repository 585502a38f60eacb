"""What is said of a turning chain where it is joined or worked into: "to 3rd ch of ch-5".

Takes     the lines of a piece.
Gives     ``with_said_later``: the same lines, with the saying where the chain is made.
Problems  none.
From      notation.md, "Chains at the start", "Turning and beginning chains are places" ("the join
          `to 3rd ch of beg ch-5`, the later `dc in 3rd ch of tch` go to its stitch part").

A chain longer than its stitch counts where that is said. Who joins to the 3rd chain of a ch-5
before dc says it: up to there the chain is a dc, and what is above it is a space. In rounds the
round itself says so; in rows the next one does, or the row itself, where it is worked again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from workeven.notation.tree import (
    ONE,
    Amount,
    Chain,
    ChainOfTurning,
    CountsAs,
    JoinRound,
    Repeat,
    Step,
    Target,
    Travel,
    Work,
    WorkedRow,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.line import Lined
from workeven.proof.made import first_stitch, is_slip_stitch
from workeven.proof.readings import lead_of
from workeven.records import replace


def with_said_later(lines: Iterable[Lined]) -> tuple[Lined, ...]:
    """The lines of a piece, each long turning chain counting as what works into it says."""
    ready = tuple(lines)
    following = (*ready, None)[1:]
    return tuple([_told(line, after) for line, after in zip(ready, following, strict=True)])


def _told(line: Lined, following: Lined | None) -> Lined:
    body = line.row.body
    if not isinstance(body, WorkedRow):
        return line
    at = lead_of(body.steps)
    if at is None:
        return line
    chain = body.steps[at]
    assert isinstance(chain, Chain)
    height, base = _stitch_behind(body.steps[at + 1 :])
    count = chain.count.values[0] if len(chain.count.values) == 1 else None
    if chain.counts_as is not None or base is None or count is None or not 0 < height < count:
        return line
    above = count - height
    if height not in _said(body.steps, following, count):
        return line
    counts = CountsAs(((ONE, base),), Amount((above,)), carried=True)
    told: Step = replace(chain, counts_as=counts)
    steps = (*body.steps[:at], told, *body.steps[at + 1 :])
    return replace(line, row=replace(line.row, body=replace(body, steps=steps)))


def _stitch_behind(steps: tuple[Step, ...]) -> tuple[int, str | None]:
    """How many chains high the first stitch is, and its basic stitch."""
    name = first_stitch(steps)
    if name is None:
        return 0, None
    base = kind_of(name).base
    return HEIGHTS.get(base, 0), base


def _said(steps: tuple[Step, ...], following: Lined | None, count: int) -> set[int | None]:
    """The chains of a beginning chain of ``count`` that are worked into, by their place in it."""
    own = set(_places(_closing(steps), count))
    if own:
        return own
    after = following.row.body if following is not None else None
    into = after.steps if isinstance(after, WorkedRow) else steps
    return set(_places(_worked(into), count))


def _places(targets: Iterable[Target], count: int) -> Iterator[int | None]:
    for target in targets:
        match target:
            case ChainOfTurning(nth=Amount() as nth, chain=chain) if chain.chains in (None, count):
                yield nth.values[0]
            case _:
                continue


def _closing(steps: tuple[Step, ...]) -> Iterator[Target]:
    """Where a round is joined to."""
    for step in steps:
        if isinstance(step, JoinRound | Travel) or is_slip_stitch(step):
            target = getattr(step, "target", None)
            if target is not None:
                yield target
        elif isinstance(step, Repeat):
            yield from _closing(getattr(step.ending, "steps", ()))


def _worked(steps: tuple[Step, ...]) -> Iterator[Target]:
    """Where stitches of a row go to, those of repeats and of their ends too."""
    for step in steps:
        if isinstance(step, Repeat):
            yield from _worked(step.steps)
            yield from _worked(getattr(step.ending, "steps", ()))
        elif isinstance(step, Work) and not is_slip_stitch(step):
            yield step.target
