"""A named row worked again at a distance, with even rows between: "rep dec rnd every inch".

Takes     a line, and where a size stands.
Gives     ``repeat_every``.
Problems  ``row-no-such-row``, ``row-no-such-place``, ``row-too-many``, those of the named row.
From      notation.md, "Whole pieces" ("Shaping over a length, … becomes rows, each counted").

Worked example: rows 5 mm high, "rep Dec rnd every 2 cm 3 more times": 3 even rounds and the
decrease, three times: 12 rounds. Without a row gauge the number of rounds is open; what they leave
is known all the same.
"""

from __future__ import annotations

from fractions import Fraction

from workeven.notation.tree import Amount, RepeatEvery
from workeven.notation.vocabulary import kind_of
from workeven.proof.again import Total, lines_meant, work_again
from workeven.proof.at_hand import AtHand, InSize, check_stated, faults_of, remember, rows_entry
from workeven.proof.context import Fault
from workeven.proof.fabric import Fabric, Run, reversed_nodes, stitch, tally
from workeven.proof.line import Line, SizeFault
from workeven.proof.numbering import compare_range, label_times, start_numbers
from workeven.proof.often import bounded
from workeven.proof.row import TURNED, RowCount
from workeven.proof.standing import Standing
from workeven.proof.stated import figures_of


def repeat_every(line: AtHand, standing: Standing, body: RepeatEvery) -> InSize:
    """``work even in sc, rep Dec rnd every 4th rnd 5 more times``."""
    row, how = line.row, standing.how(line.lined)
    lines = lines_meant(standing, (body.row,), len(row.text))
    faults = faults_of(standing, start_numbers(standing, row.label, flat=how == "flat rows"))
    first, side = standing.number, standing.side
    figures, total = figures_of(row.stated, standing.context), Total()
    distance = _rows_apart(standing, body)
    times = standing.context.amount(body.times.count) or 0
    even = 0 if distance is None else distance - 1
    bounded(times * (even + 1), row)
    result, fault = _work(standing, body, lines, times, even, total, how)
    faults += () if fault is None else (fault,)
    rows = None if distance is None else times * distance
    if rows is None:
        standing.lose_count()
    else:
        faults += faults_of(standing, compare_range(row.label, _labelled(line, standing), rows))
    if result is not None and not faults:
        faults = check_stated(line, standing, figures, result)
    remember(standing, row.label, lines, first, times)
    return InSize(rows_entry(standing, result, total, first, rows, side, figures), faults, result)


def _labelled(line: AtHand, standing: Standing) -> int | None:
    return label_times(line.row.label, standing.context)


def _rows_apart(standing: Standing, body: RepeatEvery) -> int | None:
    """How many rows from one named row to the next; None where no row gauge says so."""
    if isinstance(body.distance, Amount):
        return max(standing.context.amount(body.distance) or 1, 1)
    height = standing.row_height
    if height is None:
        return None
    exact = standing.context.length(body.distance) / height
    return max(int(exact + Fraction(1, 2)), 1)


def _work(
    standing: Standing,
    body: RepeatEvery,
    lines: tuple[Line, ...],
    times: int,
    even: int,
    total: Total,
    how: str,
) -> tuple[RowCount | None, SizeFault | None]:
    """Even rows and the named row in turn."""
    result: RowCount | None = None
    for _ in range(times):
        _work_even(standing, body.even, even, total, how)
        result, fault = work_again(standing, lines, 1, how, total)
        if fault is not None:
            return result, fault
    return result, None


def _work_even(standing: Standing, name: str | None, rows: int, total: Total, how: str) -> None:
    """So many rows even: in the stitch that is named, else in those that are there."""
    below = standing.fabric
    if below is None or not below.nodes:
        raise Fault("row-no-such-place", 0, 0, "nothing has been worked that could go on")
    if rows:
        standing.fabric = below = _even_fabric(below, name)
        made = tally(below.nodes).items()
        total.add(tuple((kind_of(kind).base, number) for kind, number in made), rows)
        standing.turned = how in TURNED
        if standing.turned and rows % 2:
            standing.fabric = below._replace(nodes=reversed_nodes(below.nodes), turned=True)
        standing.pass_rows(rows)


def _even_fabric(below: Fabric, name: str | None) -> Fabric:
    if name is None:
        return below
    return below._replace(nodes=(Run(stitch(name, kind_of(name).base), below.sts),))
