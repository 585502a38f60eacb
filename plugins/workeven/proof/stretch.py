"""A plain row counted once, and stretched to other numbers of stitches.

Takes     the counts of one plain row over two numbers of stitches.
Gives     ``stretch_of``: what each working more adds; ``stretched``: the count over another number.
Problems  none.
From      notation.md, "Sizes": the same words in all sizes.

Of a plain row at most one step takes what is left (an "each", an open repeat); all others take the
numbers that are written. Where these are the same in all sizes, the sizes differ in how often that
one step is worked, and in nothing else: one run or one loop of the fabric is longer, and the counts
grow by as much for each working. So the row is counted in one size, and stretched to the others.

Worked example: ``ch 3, dc in each st across`` makes 1 and 19 dc of 20 sts, 1 and 20 of 21: one dc
for each stitch more. Over 96 sts, 76 more, it makes 96 dc.
"""

from __future__ import annotations

from typing import NamedTuple

from workeven.proof.fabric import Fabric, Node, Run
from workeven.proof.proven import Counted
from workeven.proof.row import RowCount

#: from so many workings on a row has the same parts however many there are
FEWEST = 2


class Stretch(NamedTuple):
    """A count over ``sts`` stitches, in which one step is worked ``workings`` times.

    One working more takes ``takes`` stitches, makes the node ``at`` longer by ``longer``, and adds
    ``makes``, ``worked`` and ``groups`` to the counts, in their order, and ``more`` stitches.
    """

    row: RowCount
    sts: int
    workings: int
    takes: int
    at: int
    longer: int
    makes: tuple[int, ...]
    worked: tuple[int, ...]
    groups: tuple[int, ...]
    more: int


def stretch_of(
    count: RowCount, larger: RowCount, sts: int, workings: int, takes: int
) -> Stretch | None:
    """What one working more adds; ``larger`` is the count over ``takes`` stitches more."""
    first, second = count.fabric.nodes, larger.fabric.nodes
    if workings < FEWEST or len(first) != len(second):
        return None
    longer = [at for at, (one, two) in enumerate(zip(first, second, strict=True)) if one != two]
    makes, worked = _added(count.makes, larger.makes), _added(count.worked, larger.worked)
    groups = _added(count.groups, larger.groups)
    if len(longer) != 1 or makes is None or worked is None or groups is None:
        return None
    at = longer[0]
    return Stretch(
        row=count,
        sts=sts,
        workings=workings,
        takes=takes,
        at=at,
        longer=_length(second[at]) - _length(first[at]),
        makes=makes,
        worked=worked,
        groups=groups,
        more=larger.sts - count.sts,
    )


def stretched(stretch: Stretch, sts: int) -> RowCount | None:
    """The count over so many stitches; None where it is no whole number of workings."""
    steps, odd = divmod(sts - stretch.sts, stretch.takes)
    if odd or stretch.workings + steps < FEWEST:
        return None
    count = stretch.row
    nodes = count.fabric.nodes
    longer = _longer(nodes[stretch.at], stretch.longer * steps)
    fabric = Fabric((*nodes[: stretch.at], longer, *nodes[stretch.at + 1 :]), *count.fabric[1:])
    return RowCount(
        fabric=fabric,
        sts=count.sts + stretch.more * steps,
        makes=_grown(count.makes, stretch.makes, steps),
        worked=_grown(count.worked, stretch.worked, steps),
        stated=None,
        fault=None,
        points=(),
        defaulted=count.defaulted,
        is_row=True,
        multiple=count.multiple,
        groups=_grown(count.groups, stretch.groups, steps),
    )


def _added(first: Counted, second: Counted) -> tuple[int, ...] | None:
    """How much more of each kind there is; None where the kinds differ."""
    if [name for name, _ in first] != [name for name, _ in second]:
        return None
    return tuple(two - one for (_, one), (_, two) in zip(first, second, strict=True))


def _grown(counted: Counted, added: tuple[int, ...], steps: int) -> Counted:
    if len(counted) == 1:
        name, number = counted[0]
        return ((name, number + added[0] * steps),)
    pairs = zip(counted, added, strict=True)
    return tuple([(name, number + each * steps) for (name, number), each in pairs])


def _length(node: Node) -> int:
    return node.count if isinstance(node, Run) else node.times


def _longer(node: Node, more: int) -> Node:
    if isinstance(node, Run):
        return Run(node.place, node.count + more)
    return node.with_nodes(node.nodes, node.times + more)
