"""The places that steps name, each by another name, or by several.

Takes     steps, and what tells a place's other names.
Gives     ``renamed``.
Problems  none.
From      house style: what is done with every place that steps name stands here once.
"""

from __future__ import annotations

from collections.abc import Callable

from workeven.notation.tree import (
    AnyStitch,
    Each,
    First,
    Gap,
    Inside,
    JoinYarn,
    Last,
    Limit,
    Next,
    OneChain,
    Open,
    PlaceName,
    Repeat,
    Same,
    Skip,
    Space,
    Step,
    Target,
    ToLast,
    ToNext,
    Travel,
    Work,
)
from workeven.records import replace

#: gives other names for a place, or the one that it has
Change = Callable[[PlaceName], tuple[PlaceName, ...]]


def renamed(step: Step, change: Change) -> Step:
    """A step with each place that it names, or goes up to, by its other names."""
    match step:
        case Repeat(steps=body, times=times):
            if isinstance(times, Open):
                times = Open(_limit(times.limit, change))
            return replace(step, steps=tuple(renamed(one, change) for one in body), times=times)
        case Work(target=target) | Skip(target=target) | Travel(target=target):
            return replace(step, target=_target(target, change))
        case JoinYarn(target=target) if target is not None:
            return replace(step, target=_target(target, change))
        case _:
            return step


def _target(target: Target, change: Change) -> Target:
    match target:
        case Each(names=names, limit=limit):
            return replace(target, names=_names(names, change), limit=_limit(limit, change))
        case Next(names=names) | First(names=names) | Last(names=names):
            return replace(target, names=_names(names, change))
        case Inside(name=name, container=Next(names=names) as container):
            of_it = _names(names, change)
            became = of_it != names and isinstance(of_it[0], Space)
            chains = became and isinstance(name, AnyStitch | Gap)
            within = OneChain() if chains else name  # the middle of a loop is a chain
            return replace(target, name=within, container=replace(container, names=of_it))
        case Same(name=name) if name is not None:
            return replace(target, name=_one(name, change))
        case _:
            return target


def _limit(limit: Limit | None, change: Change) -> Limit | None:
    match limit:
        case ToNext(name=name):
            return replace(limit, name=_one(name, change))
        case ToLast(names=names):
            return replace(limit, names=_names(names, change))
        case _:
            return limit


def _names(names: tuple[PlaceName, ...], change: Change) -> tuple[PlaceName, ...]:
    return tuple(other for name in names for other in change(name))


def _one(name: PlaceName, change: Change) -> PlaceName:
    """Where only one name can stand: the other one, the same where there are several."""
    others = change(name)
    return others[0] if len(others) == 1 else name
