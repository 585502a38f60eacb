"""In which order formulas can be worked out, and which of them go round in a circle.

Takes     for each name, the names that its formula needs.
Gives     ``in_order``.
Problems  none of its own.
From      nothing: each name after all it needs (Kahn's way), in the order of the file.

Names that are left over need one another, or something that does. From each of them one walks to
what it needs until a name comes up again: those passed since are a circle.
"""

from __future__ import annotations

from collections.abc import Mapping


def in_order(
    needs: Mapping[str, frozenset[str]],
) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """Names in an order in which each comes after all it needs, and the circles among the rest.

    >>> in_order({"a": frozenset("b"), "b": frozenset(), "c": frozenset("d"), "d": frozenset("c")})
    (('b', 'a'), (('c', 'd'),))
    """
    waiting = {name: sum(need in needs for need in named) for name, named in needs.items()}
    needed_by: dict[str, list[str]] = {name: [] for name in needs}
    for name, named in needs.items():
        for need in named & needs.keys():
            needed_by[need].append(name)
    order = [name for name, number in waiting.items() if number == 0]
    for name in order:  # grows while it is walked
        for other in needed_by[name]:
            waiting[other] -= 1
            if waiting[other] == 0:
                order.append(other)
    left = {name: needs[name] for name, number in waiting.items() if number > 0}
    return tuple(order), _circles(left)


def _circles(left: Mapping[str, frozenset[str]]) -> tuple[tuple[str, ...], ...]:
    """The circles that one comes to from each name, each once, from its first name on."""
    place = {name: index for index, name in enumerate(left)}
    to = {name: min(named & left.keys(), key=place.__getitem__) for name, named in left.items()}
    seen: set[str] = set()
    circles = []
    for start in left:
        path: dict[str, None] = {}
        name = start
        while name not in seen:
            seen.add(name)
            path[name] = None
            name = to[name]
        if name in path:
            walked = list(path)
            circles.append(_from_first(walked[walked.index(name) :], place))
    return tuple(circles)


def _from_first(circle: list[str], place: Mapping[str, int]) -> tuple[str, ...]:
    """The circle, begun at the name that stands first in the file."""
    first = circle.index(min(circle, key=place.__getitem__))
    return tuple(circle[first:] + circle[:first])
