"""Rows worked even: "work even for 12 rows".

Takes     a line that asks for it, where the piece stands.
Gives     ``work_even``.
Problems  ``row-no-such-place``, ``row-number``, ``row-past-length``, ``count-not-reached``.
From      notation.md, "Lengths".
"""

from __future__ import annotations

from workeven.notation.tree import (
    UntilMeasures,
    WorkEven,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.again import Total
from workeven.proof.at_hand import (
    AtHand,
    InSize,
    check_stated,
    faults_of,
    remember,
    rows_entry,
)
from workeven.proof.context import Fault
from workeven.proof.fabric import (
    Fabric,
    Node,
    Place,
    Run,
    reversed_nodes,
    tally,
    turned_marks,
    turning_chain_of,
)
from workeven.proof.numbering import compare_range, label_times, start_numbers
from workeven.proof.often import (
    open_to,
    reached,
    times_of,
    until_count_even,
)
from workeven.proof.own_rows import ends_as_told
from workeven.proof.proven import Counted
from workeven.proof.row import kept
from workeven.proof.shaping import even_line
from workeven.proof.standing import Standing
from workeven.proof.stated import figures_of
from workeven.records import replace


def work_even(line: AtHand, standing: Standing, body: WorkEven) -> InSize:
    """``work even``: every place again, each with its own stitch; a decrease is one plain one."""
    row, below = line.row, standing.fabric
    how = standing.how(line.lined)
    if below is None or not below.nodes:
        raise Fault(
            "row-no-such-place",
            0,
            len(row.text),
            "nothing has been worked that could go on",
        )
    faults = faults_of(standing, start_numbers(standing, row.label, flat=how == "flat rows"))
    labelled = label_times(row.label, standing.context)
    first, side = standing.number, standing.side
    figures = figures_of(row.stated, standing.context)
    worked = _worked_even(below)
    if not _is_pattern(below, figures or ()):
        below = standing.fabric = below._replace(nodes=_over_decreases(below.nodes))
    result = kept(below, worked)
    total = Total()
    times = times_of(
        standing,
        body.until,
        line.row,
        labelled,
        lambda until: until_count_even(standing, until, result),
    )
    standing.turned = how in ("flat rows", "joined rounds, turned")
    if times is None:
        if isinstance(body.until, UntilMeasures) and body.until.side is not None:
            _turn_even(standing, below, open_to(standing, body.until))
        standing.number = None
        standing.side_said = standing.side_said and ends_as_told(body)
        entry = rows_entry(standing, result, total, first, None, side, figures)
        return InSize(entry, faults, result)
    faults += faults_of(standing, compare_range(row.label, labelled, times))
    total.add(result.worked, times)
    _turn_even(standing, below, times)
    faults += check_stated(line, standing, figures, result)
    again = even_line(row, below)
    if again is not None:
        remember(standing, row.label, (again,), first, times)
    else:
        standing.last = None  # over spaces it has no stitches of its own to be worked again
    entry = rows_entry(standing, result, total, first, times, side, figures)
    return InSize(entry, faults, result, reached(standing, body.until, times))


def _turn_even(standing: Standing, below: Fabric, rows: int) -> None:
    """So many rows worked even are passed, and the work is turned after each where it is."""
    if standing.turned and rows % 2:
        standing.fabric = below._replace(
            nodes=reversed_nodes(below.nodes),
            turned=True,
            marks=turned_marks(below.marks, below.sts),
        )
    standing.pass_rows(rows)


def _is_pattern(below: Fabric, stated: Counted) -> bool:
    """Whether decreases are part of the stitch pattern: among spaces, or where they are stated."""
    spaces = any(name.endswith(" sp") for name in tally(below.nodes))
    return spaces or any(kind_of(unit).legs > 1 for unit, _ in stated)


def _over_decreases(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The stitches that stand on these: a dc2tog was two legs, and what is worked on it has one."""
    return tuple(
        Run(_over(node.place), node.count)
        if isinstance(node, Run)
        else node.with_nodes(_over_decreases(node.nodes))
        for node in nodes
    )


def _over(place: Place) -> Place:
    kind = kind_of(place.name)
    if place.sort != "st" or place.turning or (kind.legs == 1 and not kind.foundation):
        return place
    name = kind.base if kind.foundation else place.name.removesuffix(f"{kind.legs}tog")
    return replace(place, name=name)


def _worked_even(below: Fabric) -> Counted:
    """What one such row works: each place's stitch, and chains in the place of a counted one."""
    worked: dict[str, int] = {}
    for name, number in tally(below.nodes).items():
        base = kind_of(name).base
        worked[base] = worked.get(base, 0) + number
    chain = turning_chain_of(below.nodes)
    if chain is not None and worked.get(chain.base):
        worked[chain.base] -= 1
        worked["ch"] = worked.get("ch", 0) + chain.chains
    return tuple((name, number) for name, number in worked.items() if number)
