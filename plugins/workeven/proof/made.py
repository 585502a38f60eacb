"""What steps make, where their words alone tell it: no row below, no sizes.

Takes     the steps of a row.
Gives     ``made``: what is made, in order; ``first_stitch``; ``first_of``; ``lead_of``;
          ``is_slip_stitch``.
Problems  none.
From      notation.md, "How repeats end", "Chains at the start".
"""

from __future__ import annotations

from workeven.notation.tree import (
    Aside,
    Chain,
    Content,
    First,
    JoinYarn,
    MagicRing,
    Next,
    Picot,
    Repeat,
    Same,
    Skip,
    Step,
    Stitch,
    Times,
    Travel,
    Turn,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of


def lead_of(steps: tuple[Step, ...]) -> int | None:
    """Where the chain at the head of a row stands, behind travel, joining and asides."""
    for at, step in enumerate(steps):
        if isinstance(step, Chain):
            return at
        head = isinstance(step, Aside | Turn | JoinYarn | MagicRing | Travel) or is_slip_stitch(
            step
        )
        if not head:
            return None
    return None


def first_stitch(steps: tuple[Step, ...]) -> str | None:
    """The stitch that is made first, slip stitches apart."""
    for step in steps:
        if isinstance(step, Repeat):
            found = first_stitch(step.steps)
            if found is not None:
                return found
        elif isinstance(step, Work) and not is_slip_stitch(step):
            return first_of(step.content)
    return None


def first_of(content: tuple[Content, ...]) -> str | None:
    """The first stitch of what one step makes."""
    for item in content:
        if isinstance(item, Stitch):
            return item.name
        if isinstance(item, Times):
            return first_of(item.content)
    return None


#: stitches and chains in the order in which they are made: (("dc", 3), ("ch", 3), ("dc", 3))
Made = tuple[tuple[str, int], ...]


def made(steps: tuple[Step, ...]) -> Made | None:
    """What steps make, neighbours that are alike added up; None where that is not plain."""
    found: list[tuple[str, int]] = []
    for at, step in enumerate(steps):
        match step:
            case Chain():
                more = _made_chain(step, steps[at + 1 :])
            case Work():
                more = _made_work(step)
            case Skip() | Repeat():
                return None
            case _:
                more = ()
        if more is None:
            return None
        for name, count in more:
            if found and found[-1][0] == name and name != "ch":
                found[-1] = (name, found[-1][1] + count)
            else:
                found.append((name, count))
    return tuple(found)


def _made_chain(chain: Chain, rest: tuple[Step, ...]) -> Made | None:
    count = chain.count.values[0] if len(chain.count.values) == 1 else None
    if count is None:
        return None
    said = chain.counts_as
    if said is not None:
        if any(len(amount.values) != 1 for amount, _ in said.stitches):
            return None
        return tuple((name, amount.values[0] or 0) for amount, name in said.stitches)
    name = first_stitch(rest)
    height = HEIGHTS.get(kind_of(name).base, 0) if name is not None else 0
    if name is not None and count == height >= HEIGHTS["dc"]:
        return ((kind_of(name).base, 1),)
    return () if count <= max(height, 1) else (("ch", count),)


def _made_work(step: Work) -> Made | None:
    times = 1
    target = step.target
    if isinstance(target, Next | First | Unplaced):
        if len(target.count.values) != 1 or target.count.values[0] is None:
            return None
        times = target.count.values[0]
    elif not isinstance(target, Same):
        return None
    found: list[tuple[str, int]] = []
    for item in step.content:
        if isinstance(item, Times | Picot) or len(item.count.values) != 1:
            return None
        name = "ch" if isinstance(item, Chain) else item.name
        found.append((name, item.count.values[0] or 0))
    if len(found) == 1:
        name, count = found[0]
        return ((name, times if step.spread else count * times),)
    return tuple(found) if times == 1 else None


def is_slip_stitch(step: Step) -> bool:
    """Whether a step makes slip stitches and nothing else."""
    return isinstance(step, Work) and all(
        isinstance(item, Stitch) and item.name == "sl st" for item in step.content
    )
