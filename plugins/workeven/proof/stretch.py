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
#: how many counts are kept to be given again: more than a pattern has sizes and rows of shaping
_MOST = 256
#: of each kind: its name, how many there are, how many more for each working more
Growing = tuple[tuple[str, int, int], ...]


class Stretch(NamedTuple):
    """A count over ``sts`` stitches, in which one step is worked ``workings`` times.

    One working more takes ``takes`` stitches, makes the node at ``at`` longer by ``longer``, adds
    to the kinds of ``makes``, ``worked`` and ``groups``, and leaves ``more`` stitches more.
    ``counts`` are those stretched so far, by their stitches: a row is often worked again.
    """

    row: RowCount
    sts: int
    workings: int
    takes: int
    at: int
    longer: int
    makes: Growing
    worked: Growing
    groups: Growing
    more: int
    counts: dict[int, RowCount]


def stretch_of(
    count: RowCount, larger: RowCount, sts: int, workings: int, takes: int
) -> Stretch | None:
    """What one working more adds; ``larger`` is the count over ``takes`` stitches more."""
    first, second = count.fabric.nodes, larger.fabric.nodes
    if workings < FEWEST or len(first) != len(second):
        return None
    longer = [at for at, (one, two) in enumerate(zip(first, second, strict=True)) if one != two]
    makes, worked = _growing(count.makes, larger.makes), _growing(count.worked, larger.worked)
    groups = _growing(count.groups, larger.groups)
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
        counts={sts: count},
    )


def stretched(stretch: Stretch, sts: int) -> RowCount | None:
    """The count over so many stitches; None where it is no whole number of workings."""
    known = stretch.counts.get(sts)
    if known is None:
        known = _stretched(stretch, sts)
        if known is not None and len(stretch.counts) < _MOST:
            stretch.counts[sts] = known
    return known


def _stretched(stretch: Stretch, sts: int) -> RowCount | None:
    row, fewer, workings, takes, at, longer, makes, worked, groups, more, _ = stretch
    steps, odd = divmod(sts - fewer, takes)
    if odd or workings + steps < FEWEST:
        return None
    nodes = row.fabric.nodes
    grown = (*nodes[:at], _longer(nodes[at], longer * steps), *nodes[at + 1 :])
    return RowCount(
        Fabric(grown, *row.fabric[1:]),
        row.sts + more * steps,
        _grown(makes, steps),
        _grown(worked, steps),
        None,
        (),
        row.defaulted,
        True,  # noqa: FBT003, a row and no line of chains; by name it takes twice the time
        row.multiple,
        None,
        _grown(groups, steps) if groups else (),
    )


def _growing(first: Counted, second: Counted) -> Growing | None:
    """How much more of each kind there is in the second; None where the kinds differ."""
    if [name for name, _ in first] != [name for name, _ in second]:
        return None
    pairs = zip(first, second, strict=True)
    return tuple((name, one, two - one) for (name, one), (_, two) in pairs)


def _grown(growing: Growing, steps: int) -> Counted:
    return tuple([(name, number + each * steps) for name, number, each in growing])


def _length(node: Node) -> int:
    return node.count if isinstance(node, Run) else node.times


def _longer(node: Node, more: int) -> Node:
    if isinstance(node, Run):
        return Run(node.place, node.count + more)
    return node.with_nodes(node.nodes, node.times + more)
