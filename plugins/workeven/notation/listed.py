"""Lists without brackets: "1 sc, 5 dc, 1 sc in each loop".

Takes     steps in order.
Gives     ``listed_in_each``, ``listed_at_head``; ``listed_in_next``.
Problems  none.
From      common practice, most of all in old leaflets: what is told without a place goes where the
          step behind it does.

In "each loop" nothing else can be meant, since the loops are all that is worked into. In "next ch-2
sp" it may be: "sc 3, 2 sc in next ch-2 sp" are three stitches and a space. So that is read where
only it comes out.
"""

from __future__ import annotations

from workeven.notation.tree import (
    Aside,
    Chain,
    Content,
    Each,
    First,
    Inside,
    JoinYarn,
    Last,
    Next,
    Picot,
    Repeat,
    Same,
    Space,
    Step,
    Stitch,
    Travel,
    Unplaced,
    Work,
)
from workeven.records import replace


def listed_in_each(found: list[Step]) -> list[Step]:
    """With what stands before "in each loop" put into each loop."""
    for at, step in enumerate(found):
        if isinstance(step, Work) and isinstance(step.target, Each) and _is_space(step.target):
            rest = listed_in_each(found[at + 1 :])
            before = found[at - 1] if at else None
            if isinstance(before, Work) and _is_same_too(before, step):
                first = _with_list(found[:at], lead=True)
                group = first[-1]
                assert isinstance(group, Work)
                return [*first, replace(step, content=group.content), *rest]
            return [*_with_list(found[: at + 1], lead=True), *rest]
    return found


def _is_same_too(before: Work, step: Work) -> bool:
    """``1 sc in same loop and in each loop``: both hold the same, and so the list before them."""
    if before.content != step.content:
        return False
    match before.target:
        case Same(name=Space()):
            return True
        case Next(names=names, count=count) | First(names=names, count=count):
            return count.values == (1,) and all(isinstance(name, Space) for name in names)
        case _:
            return False


def listed_at_head(found: list[Step]) -> list[Step]:
    """``ch 3, 1 dc, ch 2, 2 dc in same sp``: behind the chain at the head all is in one place.

    Chains between the stitches say so: without them "sc 2, sc in same st" goes on first.
    """
    first = next((at for at, step in enumerate(found) if isinstance(step, Chain)), len(found))
    if any(isinstance(step, Work | Repeat) for step in found[:first]):
        return found
    at = first + 1
    while at < len(found) and _told_alone(found[at]) is not None:
        at += 1
    told = [_told_alone(step) for step in found[first + 1 : at]]
    last = found[at] if at < len(found) else None
    if not isinstance(last, Work) or not isinstance(last.target, Same) or last.target.made:
        return found
    inside = tuple(part for part in told if part is not None)
    if not {Stitch, Chain} <= {type(part) for part in inside} or last.spread:
        return found
    if isinstance(inside[0], Chain):
        return found
    group = replace(last, content=(*inside, *last.content), start=found[first + 1].start)
    return [*found[: first + 1], group, *found[at + 1 :]]


def listed_in_next(steps: tuple[Step, ...], *, lead: bool = True) -> tuple[Step, ...]:
    """With what stands before "in next ch-2 sp" put into that space, in repeats too."""
    found: list[Step] = []
    for step in steps:
        if isinstance(step, Repeat):
            found.append(replace(step, steps=listed_in_next(step.steps, lead=False)))
            continue
        found.append(step)
        match step:
            case Work(target=(Next(count=count) | Last(count=count)) as target) if count.values == (
                1,
            ) and _is_space(target):
                found = _with_list(found, lead=lead)
            case Work(target=Inside(name=Space())):
                found = _with_list(found, lead=lead)  # "3 dc, ch 2, 3 dc in ch-2 sp of shell"
            case _:
                continue
    return tuple(found)


def _is_space(target: Each | Next | Last) -> bool:
    return all(isinstance(name, Space) for name in target.names)


def _with_list(found: list[Step], *, lead: bool) -> list[Step]:
    """The last step, and in it all that is told before it without a place.

    ``lead``: a chain at the head of the row is none of it.
    """
    last = found[-1]
    assert isinstance(last, Work)
    first = len(found) - 1
    while first and _told_alone(found[first - 1]) is not None:
        first -= 1
    if lead and isinstance(found[first], Chain) and all(map(_leads_there, found[:first])):
        first += 1
    told = [part for step in found[first:-1] if (part := _told_alone(step)) is not None]
    if not any(isinstance(part, Stitch) for part in told) or last.loop != "both" or last.spread:
        return found
    content: tuple[Content, ...] = (*told, *last.content)
    return [*found[:first], replace(last, content=content, start=found[first].start)]


def _leads_there(step: Step) -> bool:
    """What may stand before the chain that raises a round: slip stitches to where it begins."""
    if isinstance(step, Work):
        return all(isinstance(one, Stitch) and one.name == "sl st" for one in step.content)
    return isinstance(step, Aside | Travel | JoinYarn)


def _told_alone(step: Step) -> Stitch | Chain | Picot | None:
    """A number of stitches, chains or a picot, of which nothing says where they go."""
    match step:
        case Chain(counts_as=None) | Picot():
            return step
        case Work(content=(Stitch(legs=1) as stitch,), target=Unplaced(count=count)) if (
            stitch.name != "sl st" and step.loop == "both"
        ):
            return replace(stitch, count=count)
        case _:
            return None
