"""Loops of chains and picots under a name of the pattern's own: "sc in next p-loop".

Takes     steps, and the special stitches of a piece.
Gives     ``with_own_loops``.
Problems  none.
From      common practice of Irish crochet: "p-loop = ch 3, picot, ch 3" stands over no stitch,
          and a later row works into it as into one loop.
"""

from __future__ import annotations

from collections.abc import Mapping

from workeven.notation.over_places import is_picot_loop
from workeven.notation.renamed import renamed
from workeven.notation.tree import (
    Chain,
    Content,
    NamedStitch,
    Picot,
    PlaceName,
    Repeat,
    Space,
    SpecialStitch,
    Step,
    Stitch,
    Times,
    Work,
)
from workeven.records import replace

#: a loop with a picot on it
_LOOP = Space(of="picot")


def with_own_loops(
    steps: tuple[Step, ...], special: Mapping[str, SpecialStitch]
) -> tuple[Step, ...]:
    """The steps with such a loop as the space that it is, and within a group as its chains."""
    own = {name: one for name, one in special.items() if is_picot_loop(one.steps)}
    if not own:
        return steps

    def as_loop(name: PlaceName) -> tuple[PlaceName, ...]:
        return (_LOOP if isinstance(name, NamedStitch) and name.name in own else name,)

    return tuple(_in_groups(renamed(step, as_loop), own) for step in steps)


def _in_groups(step: Step, own: Mapping[str, SpecialStitch]) -> Step:
    match step:
        case Repeat(steps=body):
            return replace(step, steps=tuple(_in_groups(one, own) for one in body))
        case Work(content=content) if len(content) > 1:
            return replace(step, content=tuple(one for part in content for one in _of(part, own)))
        case _:
            return step


def _of(part: Content, own: Mapping[str, SpecialStitch]) -> tuple[Content, ...]:
    """A part of a group; such a loop is its chains and picots, as often as it is worked."""
    known = own.get(part.name) if isinstance(part, Stitch) else None
    if known is None or not isinstance(part, Stitch):
        return (part,)
    inside = tuple(one for one in known.steps if isinstance(one, Chain | Picot))
    return inside if part.count.values == (1,) else (Times(inside, part.count),)
