"""One row in one size: counted, compared with what is stated, and counted on where it fails.

Takes     the steps of a row, its stated count and the fabric below.
Gives     ``RowCount``.
Problems  ``Fault``s of the walk, ``count-stated``.
From      notation.md, "Stated counts", "Turning unsaid", "What is reported".
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from workeven.notation.tree import Chain, Stated, StatedHere, Step
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import Fault, SizeContext
from workeven.proof.fabric import (
    CHAIN,
    Fabric,
    Loop,
    Node,
    Run,
    reversed_nodes,
    stitch,
)
from workeven.proof.proven import Counted
from workeven.proof.walk import Walk, rest_works, tally

#: which reading of which place in the row is taken: (kind, column) to the number of the reading
Choices = Mapping[tuple[str, int], int]


@dataclass(frozen=True, slots=True, kw_only=True)
class RowCount:
    """What one working of a row gives in one size.

    ``fault`` is why it does not come out; ``as_stated`` is the fabric that its stated count would
    be, where the row comes out and states another count; ``fabric``, ``sts`` and ``makes`` are then what the next
    rows are counted from. ``points`` are the places that can be read in more than one way, with
    their readings in words. ``defaulted``: turning chains whose count was taken by default.
    """

    fabric: Fabric
    sts: int
    makes: Counted
    worked: Counted
    stated: Counted | None
    fault: Fault | None
    points: tuple[tuple[tuple[str, int], tuple[str, ...]], ...]
    defaulted: tuple[tuple[str, int], ...]
    is_row: bool
    multiple: tuple[int, int] | None = None
    as_stated: tuple[Fabric, Counted] | None = None
    groups: Counted = ()


def work(
    steps: tuple[Step, ...],
    stated: Stated | None,
    below: Fabric | None,
    context: SizeContext,
    *,
    worked: str,
    rows_below: int = 0,
    choices: Choices | None = None,
) -> RowCount:
    """Work a row once; a row that does not come out is counted on as notation.md says."""
    chosen = dict(choices or {})
    walk = Walk(below, context, worked=worked, rows_below=rows_below, choices=chosen)
    fault: Fault | None = None
    uneven = False
    try:
        walk.row(steps)
    except Fault as found:
        fault, uneven = found, True
        walk = _counted_on(steps, below, context, worked, rows_below, chosen, walk)
    fabric = _left_behind(walk, steps, below, worked)
    makes = walk.makes
    figures = _figures(stated, context)
    if fault is None:
        fault = _check_stated_inside(steps, context, walk) or _compare(
            stated, figures, walk, fabric
        )
    other: tuple[Fabric, Counted] | None = None
    if fault is not None and figures is not None:
        stated_fabric, stated_makes = _as_stated(figures, fabric, makes)
        if uneven:
            fabric, makes = stated_fabric, stated_makes
        elif stated_fabric is not fabric:
            other = (stated_fabric, tuple(stated_makes.items()))
    is_row = rest_works(steps)
    return RowCount(
        fabric=fabric,
        sts=0 if fabric.ring else fabric.sts,
        makes=(("ring", 1),) if fabric.ring and not is_row else tuple(makes.items()),
        worked=tuple(walk.worked.items()),
        stated=figures,
        fault=fault,
        points=tuple(walk.points.items()),
        defaulted=tuple(walk.defaulted),
        is_row=is_row,
        multiple=walk.multiple,
        as_stated=other,
        groups=tuple(walk.groups.items()),
    )


def _counted_on(  # noqa: PLR0913, PLR0917, the same walk again, forgiving
    steps: tuple[Step, ...],
    below: Fabric | None,
    context: SizeContext,
    worked: str,
    rows_below: int,
    chosen: dict[tuple[str, int], int],
    failed: Walk,
) -> Walk:
    walk = Walk(below, context, worked=worked, rows_below=rows_below, choices=chosen, recover=True)
    try:
        walk.row(steps)
    except Fault:
        walk.points, walk.defaulted = failed.points, failed.defaulted
        if not walk.out.nodes and below is not None:
            walk.out.nodes = list(below.nodes)
            walk.makes = tally(below.nodes)
    return walk


# --- what is left behind -------------------------------------------------------------------


def _left_behind(walk: Walk, steps: tuple[Step, ...], below: Fabric | None, worked: str) -> Fabric:
    """The places for the next row, turned where the work is turned."""
    flat = worked == "flat rows"
    turned = _turned(walk, steps, worked)
    nodes: tuple[Node, ...] = tuple(walk.out.nodes)
    if not rest_works(steps):
        return _without_work(walk, below, worked, turned=turned, nodes=nodes)
    closed = not flat
    if turned:
        nodes = reversed_nodes(nodes)
    return Fabric(
        nodes,
        closed=closed,
        join_last=closed and turned and worked != "spiral rounds",
        turning_chain=walk.turning_chain,
        turned=turned,
    )


def _turned(walk: Walk, steps: tuple[Step, ...], worked: str) -> bool:
    if walk.turned is not None:
        return walk.turned
    understood = worked in ("flat rows", "joined rounds, turned")
    return understood and not walk.fastened and rest_works(steps)


def _without_work(
    walk: Walk, below: Fabric | None, worked: str, *, turned: bool, nodes: tuple[Node, ...]
) -> Fabric:
    """A line that only chains, joins or turns."""
    closed = walk.joined or (worked != "flat rows" and below is not None and below.closed)
    if nodes:
        chain = walk.turning_chain if isinstance(walk.turning_chain, Chain) else None
        return Fabric(
            nodes,
            closed=walk.joined,
            ring=walk.made_ring,
            foundation=True,
            turned=True,
            turning_chain=chain,
        )
    if below is None:
        return Fabric((), closed=True, ring=walk.made_ring)
    if walk.made_ring:
        return Fabric(below.nodes, closed=True, ring=True)
    if walk.turned:
        return replace(below, nodes=reversed_nodes(below.nodes), closed=closed, turned=True)
    return replace(below, closed=closed or below.closed)


# --- stated counts -------------------------------------------------------------------------


def _figures(stated: Stated | None, context: SizeContext) -> Counted | None:
    if stated is None:
        return None
    found: list[tuple[str, int]] = []
    for amount, unit in stated.counts:
        number = context.amount(amount)
        if number is not None:
            found.append((unit, number))
    return tuple(found) if found else None


def _check_stated_inside(steps: tuple[Step, ...], context: SizeContext, walk: Walk) -> Fault | None:
    """A count half way along a row is compared with what is made up to there."""
    for at, step in enumerate(steps):
        if not isinstance(step, StatedHere):
            continue
        part = Walk(walk.below_at_start, context, worked=walk.how, rows_below=walk.rows_below)
        part.choices = walk.choices
        try:
            part.part(steps[:at])
        except Fault:
            continue
        figures = _figures(step.stated, context)
        fault = _compare(step.stated, figures, part, None)
        if fault is not None:
            return fault
    return None


def _compare(
    stated: Stated | None, figures: Counted | None, walk: Walk, fabric: Fabric | None
) -> Fault | None:
    """The first stated figure that is not what the row makes."""
    if stated is None or figures is None:
        return None
    for unit, number in figures:
        foundation = fabric is not None and fabric.foundation
        made = counted(unit, walk.makes, walk.groups)
        if unit == "sts" and foundation and fabric is not None:
            made = fabric.sts
        if made is None:
            return Fault(
                "count-unit",
                stated.start,
                stated.end,
                f"“{unit}” cannot be counted in this row",
                mend="State stitches, spaces, or a stitch of the row by its own name.",
            )
        if made != number:
            name = "sts" if unit == "sts" else unit
            return Fault(
                "count-stated",
                stated.start,
                stated.end,
                f"{number} {_plural(name, number)} {'is' if number == 1 else 'are'} stated "
                f"and the row makes {made}",
                stated=number,
                made=made,
            )
    return None


def _plural(name: str, number: int) -> str:
    if name == "sts":
        return "st" if number == 1 else "sts"
    if name.endswith(("sp", "shell", "group", "block", "picot", "leaf", "petal", "lp")):
        return name if number == 1 else f"{name}s"
    return name


def counted(unit: str, makes: Mapping[str, int], groups: Mapping[str, int]) -> int | None:
    """What a row makes of a unit: stitches in all, one kind, spaces, groups; None if unknown."""
    if unit == "sts":
        return sum(number for name, number in makes.items() if not name.endswith(" sp"))
    if unit == "sp":
        return sum(number for name, number in makes.items() if name.endswith(" sp"))
    if unit in makes and kind_of(unit).base != unit:
        return makes[unit]
    if unit in groups:
        return groups[unit]
    if unit == "group":
        return sum(groups.values()) or None
    if unit in ("shell", "petal", "picot", "block", "leaf", "corner", "square"):
        found = [number for name, number in groups.items() if unit in name]
        found += [number for name, number in makes.items() if unit in name]
        return sum(found) if found else None
    if unit.endswith(" sp") or unit == "ch":
        return makes.get(unit, 0)
    return sum(number for name, number in makes.items() if unit in (name, kind_of(name).base))


def as_stated(figures: Counted, fabric: Fabric, makes: Counted) -> tuple[Fabric, Counted] | None:
    """The fabric that a stated count would be, None where it says nothing of the stitches."""
    other, counts = _as_stated(figures, fabric, dict(makes))
    return None if other is fabric else (other, tuple(counts.items()))


def _as_stated(
    figures: Counted, fabric: Fabric, makes: dict[str, int]
) -> tuple[Fabric, dict[str, int]]:
    """The rows after a faulty one are counted from what it states, where that is stitches."""
    stitches = [(unit, number) for unit, number in figures if not unit.endswith("sp")]
    if len(figures) != 1 or not stitches:
        return fabric, makes
    unit, number = stitches[0]
    if unit not in makes and unit != "sts":
        return fabric, makes
    if fabric.sts == number:
        return fabric, makes
    kinds = [name for name in makes if not name.endswith(" sp")]
    if len(kinds) != len(makes) or not kinds:
        return fabric, makes
    name = max(kinds, key=lambda kind: makes[kind])
    base = kind_of(name).base
    place = CHAIN if fabric.foundation else stitch(base if len(kinds) > 1 else name, base)
    return replace(fabric, nodes=(Run(place, number),)), {place.name: number}


# --- nearest -------------------------------------------------------------------------------

#: how far the neighbouring counts are tried: farther than any usual repeat is wide.
_REACH = 48


def nearest(
    steps: tuple[Step, ...],
    stated: Stated | None,
    below: Fabric,
    context: SizeContext,
    *,
    worked: str,
    choices: Choices | None = None,
) -> tuple[int | None, int | None]:
    """The nearest counts of the row before, below and above, with which this row comes out."""
    below = _of_one_kind(below)
    found: list[int | None] = []
    for direction in (-1, 1):
        hit = None
        for distance in range(1, _REACH + 1):
            other = _resized(below, direction * distance)
            if other is None:
                break
            result = work(steps, None, other, context, worked=worked, choices=choices)
            if result.fault is None:
                hit = other.sts
                break
        found.append(hit)
    return found[0], found[1]


def _of_one_kind(fabric: Fabric) -> Fabric:
    """A fabric without spaces as one stretch of its commonest stitch, to be made longer by one."""
    counts = tally(fabric.nodes)
    if not counts or any(name.endswith(" sp") or name == "ch" for name in counts):
        return fabric
    bases: dict[str, int] = {}
    for name, number in counts.items():
        base = kind_of(name).base
        bases[base] = bases.get(base, 0) + number
    base = max(bases, key=lambda name: bases[name])
    return replace(fabric, nodes=(Run(stitch(base, base), fabric.sts),))


def _resized(fabric: Fabric, change: int) -> Fabric | None:
    """The same fabric with its largest stretch longer or shorter by so many of its units."""
    sizes = [
        node.count if isinstance(node, Run) else (0 if node.group else node.times)
        for node in fabric.nodes
    ]
    if not sizes or max(sizes) == 0:
        return None
    at = sizes.index(max(sizes))
    node = fabric.nodes[at]
    if sizes[at] + change < 1:
        return None
    changed: Node = (
        Run(node.place, node.count + change)
        if isinstance(node, Run)
        else Loop(node.nodes, node.times + change)
    )
    return replace(fabric, nodes=(*fabric.nodes[:at], changed, *fabric.nodes[at + 1 :]))
