"""A round that ends in the place in which it began: "…, 2 dc in first ch-2 sp, ch 2, join".

Takes     the steps of a row, as they were read one after the other.
Gives     ``with_place_of_start``.
Problems  none.
From      notation.md, "Where the hook stands", "Rounds are closed".

The hook was brought to a place and something was worked there. At the end "first ch-2 sp" is that
place: it takes up no other. So is "last ch-2 sp" where what was worked there at the start and what
is worked there at the end are together what every other such place holds.

Worked example: ``sl st to ch-2 sp, ch 3, dc in same sp, …, *(2 dc, ch 2, 2 dc) in next ch-2 sp, …;
rep from * around, (2 dc, ch 2) in first corner``: 2 and 2 dc stand in the corner of the start.
"""

from __future__ import annotations

from collections.abc import Iterable

from workeven.notation.tree import (
    ONE,
    Chain,
    Content,
    CountsAs,
    First,
    JoinYarn,
    Last,
    NamedStitch,
    Next,
    PlaceName,
    Repeat,
    Same,
    Space,
    Step,
    Stitch,
    Travel,
    Work,
)
from workeven.records import replace


def with_place_of_start(found: list[Step]) -> list[Step]:
    """The steps with the place of the start named as such, where the end comes back to it."""
    at = max((at for at, step in enumerate(found) if isinstance(step, Repeat)), default=0)
    began = _began_in(found[:at])
    if not at or began is None:
        return found
    for behind in range(at + 1, len(found)):
        step = found[behind]
        if not isinstance(step, Work) or isinstance(found[behind - 1], Chain):
            continue
        if _comes_back(step, began, found[: at + 1]):
            return [*found[:behind], replace(step, target=Same(began=True)), *found[behind + 1 :]]
    return found


def _began_in(steps: list[Step]) -> PlaceName | None:
    """The name of the place that the hook was brought to, if the row begins in it."""
    brought: PlaceName | None = None
    for step in steps:
        if isinstance(step, Travel | JoinYarn):
            names = getattr(step.target, "names", ())
            brought = names[0] if names else None
        elif isinstance(step, Work):
            if not isinstance(step.target, Same) or step.target.made:
                return None
            named = step.target.name
            return named if brought is None or isinstance(named, NamedStitch) else brought
    return None


def _comes_back(step: Work, began: PlaceName, before: list[Step]) -> bool:
    """Whether a step behind the repeat names the place in which the row began."""
    target = step.target
    if not isinstance(target, First | Last) or target.count is not ONE or len(target.names) > 1:
        return False
    first = step.content[0]
    if isinstance(first, Stitch) and first.name == "sl st":
        return False
    if not _is_called(target.names[0], began):
        return False
    return isinstance(target, First) or _completes(step, before)


def _is_called(name: PlaceName, began: PlaceName) -> bool:
    """Whether a name is one for the place of the start."""
    if isinstance(name, Space) and isinstance(began, Space):
        alike = name.chains is None or began.chains is None or name.chains == began.chains
        return alike and name.of is None
    return isinstance(name, NamedStitch) and name == began


def _completes(step: Work, before: list[Step]) -> bool:
    """Whether the start and the end hold together what the repeat works into one such place."""
    repeat = before[-1]
    assert isinstance(repeat, Repeat)
    whole = {
        _stitches(one.content)
        for one in repeat.steps
        if isinstance(one, Work) and _into_space(one) and len(one.content) > 1
    }
    begun = 0
    for one in before[:-1]:
        if isinstance(one, Work) and isinstance(one.target, Same):
            begun += _stitches(one.content)
        elif isinstance(one, Chain) and not begun and one.counts_as != CountsAs(()):
            begun += one.count.values != (1,)
        elif isinstance(one, Work):
            break
    return bool(begun) and whole == {begun + _stitches(step.content)}


def _into_space(step: Work) -> bool:
    names = step.target.names if isinstance(step.target, Next) else ()
    return bool(names) and isinstance(names[0], Space)


def _stitches(content: Iterable[Content]) -> int:
    """How many stitches stand in one place."""
    return sum((one.count.values[0] or 0) for one in content if isinstance(one, Stitch))
