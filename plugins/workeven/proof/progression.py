"""Rows worked again in turn that change by as much each time: only the last are worked.

Takes     two cycles of rows, one worked after the other, and how many are still to come.
Gives     ``Cycle``, ``last_cycle``.
Problems  none: where the cycles are no progression, they are worked one by one.
From      notation.md, "Whole pieces"; "Closed form": cost grows with the text of a row.

A plain row whose numbers are the same each time differs from working to working only in how often
its one open step is worked (see ``stretch``). So where a cycle of such rows begins on so many
stitches more or fewer than the one before, the next does by as many, and every count goes on as it
went. The last cycle is worked, and must give what the progression says; those between are summed.

Worked example: ``rep last 2 rows 9 more times``, of which one takes 2 sts off: 40, 38, then 36 …
22 sts; the cycles between make 10 (36 + 22) / 2 dc less those of the last.
"""

from __future__ import annotations

from typing import NamedTuple

from workeven.proof.fabric import Fabric, Node, Run
from workeven.proof.line import Line
from workeven.proof.proven import Counted
from workeven.proof.row import RowCount
from workeven.proof.standing import Standing


class Cycle(NamedTuple):
    """Rows worked in turn: the fabric that they began on, and what each of them gave."""

    start: Fabric | None
    rows: list[RowCount]


class Progressed(NamedTuple):
    """The last of many cycles, and all that they work together."""

    last: list[RowCount]
    worked: list[Counted]


def last_cycle(
    standing: Standing, lines: tuple[Line, ...], how: str, one: Cycle, two: Cycle, more: int
) -> Progressed | None:
    """The last of so many cycles behind the second; None where they are no progression."""
    fixed = all(line.plan is not None and line.plan.fixed and not line.choices for line in lines)
    if not fixed or one.start is None or two.start is None:
        return None
    start = _grown_fabric(one.start, two.start, more)
    if start is None or _grown_fabric(one.start, two.start, 1) != standing.fabric:
        return None
    last: list[RowCount] = []
    for line in lines:
        result = standing.count(line, how, start)
        if result.fault is not None:
            return None
        start = result.fabric
        last.append(result)
    rows = zip(one.rows, two.rows, last, strict=True)
    if not all(_goes_on(first, second, third, more) for first, second, third in rows):
        return None
    pairs = zip(one.rows, two.rows, strict=True)
    return Progressed(last, [_summed(first.worked, second.worked, more) for first, second in pairs])


def _grown_fabric(one: Fabric, two: Fabric, more: int) -> Fabric | None:
    """The second fabric with its one node that differs as much longer again, so many times."""
    if len(one.nodes) != len(two.nodes) or one[1:] != two[1:]:
        return None
    pairs = zip(one.nodes, two.nodes, strict=True)
    grown = [_grown_node(first, second, more) for first, second in pairs]
    nodes = tuple([node for node in grown if node is not None])
    return Fabric(nodes, *two[1:]) if len(nodes) == len(grown) else None


def _grown_node(one: Node, two: Node, more: int) -> Node | None:
    if one == two:
        return two
    if isinstance(one, Run) and isinstance(two, Run):
        count = two.count + (two.count - one.count) * more
        return Run(two.place, count) if one.place == two.place and count > 0 else None
    if isinstance(one, Run) or isinstance(two, Run):
        return None
    times = two.times + (two.times - one.times) * more
    same = one.with_nodes(one.nodes, two.times) == two
    return two.with_nodes(two.nodes, times) if same and times > 0 else None


def _goes_on(one: RowCount, two: RowCount, last: RowCount, more: int) -> bool:
    """Whether the last count is what the first two lead to."""
    return all(
        _extended(first, second, more) == third
        for first, second, third in (
            (one.makes, two.makes, last.makes),
            (one.worked, two.worked, last.worked),
            (one.groups, two.groups, last.groups),
        )
    )


def _extended(one: Counted, two: Counted, more: int) -> Counted | None:
    if [name for name, _ in one] != [name for name, _ in two]:
        return None
    pairs = zip(one, two, strict=True)
    return tuple((name, second + (second - first) * more) for (_, first), (name, second) in pairs)


def _summed(one: Counted, two: Counted, more: int) -> Counted:
    """All that so many cycles behind the second work."""
    steps = more * (more + 1) // 2
    pairs = zip(one, two, strict=True)
    return tuple(
        (name, second * more + (second - first) * steps) for (_, first), (name, second) in pairs
    )
