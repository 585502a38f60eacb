"""Changes spread evenly over a row or round.

Takes     stitches there, changes wanted, whether the row is flat.
Gives     ``evenly``: the stitches at both edges and between the changes.
Problems  none: raises ``ValueError`` where the changes do not fit.
From      common practice; the half interval at both ends of a flat row after the published lesson
          on spacing evenly across a row.

Integers only: the i-th of n changes ends at ``i * sts // n``, so that two of the rarer length are
as far apart as whole stitches allow.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class Spacing:
    """Where changes stand, in stitches of the row before.

    An interval runs up to and including the stitches of its change. ``edges`` (flat rows; (0, 0)
    in a round): the first up to and including the first change, and the plain stitches at the end.
    """

    edges: tuple[int, int]
    intervals: tuple[int, ...]


def evenly(sts: int, changes: int, change: Literal["inc", "dec"], *, flat: bool) -> Spacing:
    """Spread ``changes`` over ``sts`` stitches; raises ValueError where they do not fit.

    >>> evenly(70, 12, "dec", flat=False).intervals
    (6, 6, 6, 6, 6, 5, 6, 6, 6, 6, 6, 5)
    >>> evenly(48, 12, "inc", flat=True).edges
    (2, 2)
    >>> evenly(48, 12, "dec", flat=True).edges
    (3, 1)
    """
    legs = 2 if change == "dec" else 1
    if changes < 1 or changes * legs > sts:
        msg = f"{changes} changes of {legs} sts do not fit into {sts} sts"
        raise ValueError(msg)
    parts = _spread(sts, changes)
    if not flat:
        return Spacing(edges=(0, 0), intervals=parts)
    before = (parts[-1] - legs) // 2
    edges = (before + legs, parts[-1] - legs - before)
    return Spacing(edges=edges, intervals=parts[:-1])


def _spread(sts: int, parts: int) -> tuple[int, ...]:
    short = sts // parts
    longer = sts % parts
    # walk the longer ones first in each stretch, so that the rarer length ends it
    cuts = [-(-index * longer // parts) for index in range(parts + 1)]
    return tuple(short + cuts[index + 1] - cuts[index] for index in range(parts))
