"""The first space of a mesh: of how many of the chains that "dc in 8th ch from hook" skips it is.

Takes     the steps of a row.
Gives     ``mesh_chains``.
Problems  none.
From      notation.md, "Turning and beginning chains are places"; common practice.
"""

from __future__ import annotations

from workeven.notation.tree import (
    Amount,
    Aside,
    Chain,
    FromHook,
    Next,
    Repeat,
    Skip,
    StatedHere,
    Step,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import HEIGHTS
from workeven.proof.made import first_stitch

#: what only remarks on the row: "dc in 8th ch from hook (1 sp made), *ch 2, …"
_REMARKS = (Aside, StatedHere)


def mesh_chains(steps: tuple[Step, ...]) -> int | None:
    """How many of the chains before "dc in 8th ch from hook" are the first space of a mesh.

    ``dc in 8th ch from hook, *ch 2, sk next 2 chs, dc in next ch``: three of the skipped chains are
    the first dc, two the space, and two lie below it (common practice). None: it is no mesh.
    """
    at = next((n for n, step in enumerate(steps) if not isinstance(step, _REMARKS)), None)
    head = None if at is None else steps[at]
    if at is None or not (isinstance(head, Work) and isinstance(head.target, FromHook)):
        return None
    rest = [step for step in steps[at + 1 :] if not isinstance(step, _REMARKS)]
    if rest and isinstance(rest[0], Repeat):
        rest = [step for step in rest[0].steps if not isinstance(step, _REMARKS)]
    base = first_stitch((head,))
    nth, chain, below = _only(head.target.nth), None, None
    match rest[:2]:
        case [Chain(count=chains), Skip(target=Next(count=skipped) | Unplaced(count=skipped))]:
            chain, below = _only(chains), _only(skipped)
        case _:
            return None
    if None in (nth, chain, below) or base is None or head.target.skipped is not None:
        return None
    height = HEIGHTS.get(base, 0)
    assert nth is not None
    assert chain is not None
    assert below is not None
    return chain if height >= HEIGHTS["dc"] and nth - 1 == height + chain + below else None


def _only(amount: Amount) -> int | None:
    return amount.values[0] if len(amount.values) == 1 else None
