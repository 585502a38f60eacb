"""Second reading of loops with picots: "3 sc in next loop, picot, 3 sc in next loop".

Takes     the steps of a row that does not come out by the default reading.
Gives     ``picot_loops``.
Problems  none: whoever walks the rows gives the advice ``row-reading``.
From      common practice of Irish crochet: a chain with picots in it is one loop, though the picot
          parts it in two runs of chains. Where a row comes out only over both runs, they are meant.
"""

from __future__ import annotations

from collections.abc import Iterator

from workeven.notation.renamed import renamed
from workeven.notation.tree import PlaceName, Space, Step
from workeven.proof.naming import HALF
from workeven.proof.reading import Reading

_ANY_SPACE = Space()
_HALF_OF_IT = Space(of=HALF)


def picot_loops(steps: tuple[Step, ...]) -> Iterator[Reading]:
    """``sc in next loop`` over ``ch 3, picot, ch 3``: in the chains at each side of the picot."""
    found = tuple(renamed(step, _half) for step in steps)
    if found != steps:
        yield Reading(
            default="a chain with picots in it is one loop",
            taken="the chains at both sides of a picot are two loops",
            steps=found,
        )


def _half(name: PlaceName) -> tuple[PlaceName, ...]:
    return (_HALF_OF_IT if name == _ANY_SPACE else name,)
