"""One line of a piece at hand: looked through once for all sizes, and what it becomes in one.

Takes     a line, the line behind it, the names of the sizes.
Gives     ``AtHand``, ``InSize``; the entries that a line leaves (``rows_entry``, ``no_rows`` …).
Problems  ``count-stated``.
From      notation.md, "Sizes" (``sizes S–L only:``), "Stated counts".
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from workeven.notation.tree import (
    Decrease,
    Each,
    FastenOff,
    Increase,
    IntoRing,
    Label,
    LeaveRest,
    Next,
    OneChain,
    Repeat,
    RepeatRows,
    Row,
    RowsUntil,
    SpecialStitch,
    Step,
    Work,
    WorkedRow,
    WorkEven,
)
from workeven.notation.vocabulary import HEIGHTS, kind_of
from workeven.proof.again import Total
from workeven.proof.border import closed
from workeven.proof.context import Fault
from workeven.proof.fabric import tally
from workeven.proof.facts import is_slip_stitch
from workeven.proof.line import Known, Line, Lined, Reached, SizeFault, shared_line
from workeven.proof.parts import targets_of
from workeven.proof.plan import Plan
from workeven.proof.proven import Counted, RowInSize
from workeven.proof.row import RowCount
from workeven.proof.standing import Side, Standing
from workeven.proof.stated import as_stated, compare, states_patterns
from workeven.proof.stems import stands_off


class AtHand(NamedTuple):
    """A line looked through once for all sizes.

    ``own`` where it works a row of its own. ``only``: the indexes of the sizes that it names.
    ``ring_follows``: the next line works into a joined chain as a ring; ``chains_follow``: into its
    chains one by one. ``until`` says how often its rows are worked. ``plan``: it is one plain row
    that all sizes work (see ``in_step``). ``again``: it works one row again in all sizes, and asks
    for nothing beside it. ``chain``: all sizes make a starting chain.
    ``lacking``: a listed row to which none leads, and the number of that one.
    """

    lined: Lined
    row: Row
    own: Line | None
    only: frozenset[int] | None
    ring_follows: bool
    chains_follow: bool
    until: RowsUntil | None
    plan: Plan | None = None
    again: bool = False
    chain: bool = False
    lacking: tuple[int, int] | None = None

    def works(self, standing: Standing) -> bool:
        """Whether a size works this line."""
        index, sizes = standing.context.index, self.lined.sizes
        if sizes is not None and index not in sizes:
            return False
        return self.only is None or index in self.only


def at_hand(
    lined: Lined,
    following: Lined | None,
    names: tuple[str, ...],
    special: Mapping[str, SpecialStitch],
    known: Known,
) -> AtHand:
    """Look a line through; ``following`` is the next one."""
    body = lined.row.body
    own = None
    if isinstance(body, WorkedRow):
        own = shared_line(lined.row, _steps(lined, body), special, known)
    chained = None if own is None or own.facts.works else following
    in_all = own is not None and _in_all_sizes(lined)
    return AtHand(
        lined,
        lined.row,
        own,
        _only(lined.row, names),
        chained is not None and _into_ring(chained.row),
        chained is not None and _into_chains(chained.row),
        body.until if isinstance(body, WorkedRow | RepeatRows | WorkEven) else None,
        own.plan if own is not None and in_all else None,
        own is None and _works_one_again(lined),
        own is not None and in_all and lined.row.label is None and not own.facts.works,
    )


def _in_all_sizes(lined: Lined) -> bool:
    """Whether a line is one row that all sizes work."""
    row, body = lined.row, lined.row.body
    if not isinstance(body, WorkedRow) or (body.until, body.change, body.onto) != (None,) * 3:
        return False
    if body.beside or body.unworked_too or body.twins or states_patterns(row.stated):
        return False
    label = row.label
    single = label is None or not (label.last or label.rows or label.section or label.alternate)
    return single and row.only is None and lined.sizes is None


def _works_one_again(lined: Lined) -> bool:
    """Whether a line works one row again that all sizes work, with nothing else to be asked."""
    row, body, label = lined.row, lined.row.body, lined.row.label
    if not isinstance(body, RepeatRows) or len(body.rows) != 1 or states_patterns(row.stated):
        return False
    if (body.then, body.change, body.ending, body.ending_side, body.in_all) != (None,) * 5:
        return False
    named = label is None or not (label.first or label.rows or label.side or label.section)
    return named and row.only is None and lined.sizes is None


def _steps(lined: Lined, body: WorkedRow) -> tuple[Step, ...]:
    """The steps of a row; a spiral that is fastened off behind a slip stitch ends where it is.

    So does a stem, which takes up nothing of the row before. ``sl st in next st, fasten off`` need
    not come round again. The border of a flat piece is joined by its last slip stitch.
    """
    if lined.worked == "flat rows":
        label = lined.row.label
        steps = closed(body.steps, in_round=label is not None and label.word == "Rnd")
        if steps is not body.steps:
            return steps
    spiral = lined.worked == "spiral rounds" and _ends_spiral(body.steps)
    if not spiral and not stands_off(body.steps):
        return body.steps
    return (*body.steps, LeaveRest(None, body.steps[-1].end, body.steps[-1].end))


def _ends_spiral(steps: tuple[Step, ...]) -> bool:
    """Whether the last thing worked is a slip stitch, the yarn is cut, and no step is open."""
    if not any(isinstance(step, FastenOff) for step in steps):
        return False
    worked = [step for step in steps if isinstance(step, Work)]
    opened = any(isinstance(step, Repeat | Increase | Decrease) for step in steps)
    if not worked or opened or any(isinstance(step.target, Each) for step in worked):
        return False
    return is_slip_stitch(worked[-1])


def _only(row: Row, names: tuple[str, ...]) -> frozenset[int] | None:
    """The indexes of the sizes that "sizes S–L only:" names."""
    if row.only is None:
        return None
    found: set[int] = set()
    for low, high in row.only:
        if low in names and high in names:
            found.update(range(names.index(low), names.index(high) + 1))
    return frozenset(found)


def _into_ring(row: Row) -> bool:
    """Whether a row works into a ring."""
    return isinstance(row.body, WorkedRow) and any(
        isinstance(target, IntoRing) for target in targets_of(row.body.steps)
    )


def _into_chains(row: Row) -> bool:
    """Whether a row works into the chains of a joined chain ("dc in each ch around")."""
    return isinstance(row.body, WorkedRow) and any(
        isinstance(target, Each | Next) and isinstance(target.names[0], OneChain)
        for target in targets_of(row.body.steps)
    )


class InSize(NamedTuple):
    """What one line became in one size."""

    entry: RowInSize
    faults: tuple[SizeFault, ...]
    row_count: RowCount | None = None
    reached: Reached | None = None


# --- what a line leaves --------------------------------------------------------------------


def faults_of(standing: Standing, faults: tuple[Fault, ...]) -> tuple[SizeFault, ...]:
    """Faults in the size that stands there."""
    if not faults:
        return ()
    return tuple(SizeFault(standing.context.index, fault, standing.fabric) for fault in faults)


def check_stated(
    line: AtHand, standing: Standing, figures: Counted | None, result: RowCount
) -> tuple[SizeFault, ...]:
    """The last of several rows, held against what their line states."""
    stated = line.row.stated
    if stated is None or figures is None:
        return ()
    fault = compare(stated, figures, dict(result.makes), dict(result.groups), result.sts)
    if fault is None:
        return ()
    standing.as_stated = as_stated(figures, result.fabric, result.makes)
    return faults_of(standing, (fault,))


def none_stated(line: AtHand, standing: Standing, figures: Counted | None) -> tuple[SizeFault, ...]:
    """Rows that a size does not work, held against what their line states: it is as it was.

    "rep last row 1 (0) times (28 (29) sc)": 0 or a dash may stand there as well. Kinds are not
    compared, since the row below may be of another, nor shells and spaces; a number for all sizes
    speaks of those that work the rows.
    """
    stated, fabric = line.row.stated, standing.fabric
    if stated is None or figures is None or len(figures) != 1 or fabric is None or fabric.ring:
        return ()
    amount = stated.counts[0][0]
    if amount.formula is None and not amount.by_size():
        return ()
    (unit, number), there = figures[0], fabric.sts
    if number in (0, there) or not (unit == "sts" or kind_of(unit).base in HEIGHTS):
        return ()
    fault = Fault(
        "count-stated",
        stated.start,
        stated.end,
        f"{number} {unit} are stated, none of these rows is worked, and {there} sts are there",
        stated=number,
        made=there,
    )
    return faults_of(standing, (fault,))


def remember(
    standing: Standing, label: Label | None, lines: tuple[Line, ...], first: int | None, times: int
) -> None:
    """Keep what the rows of a line work, to be worked again."""
    name = label.name if label is not None else None
    standing.remember(lines, first, times, name or "")


def rows_entry(
    standing: Standing,
    result: RowCount | None,
    total: Total,
    first: int | None,
    times: int | None,
    side: Side | None,
    figures: Counted | None,
) -> RowInSize:
    """What a line is in a size: the rows that it stands for, and what the last of them leaves."""
    return RowInSize(
        first,
        None if first is None or times is None else first + times - 1,
        times,
        None if result is None else result.sts,
        () if result is None else result.makes,
        tuple(total.worked.items()),
        side,
        standing.height(),
        figures,
    )


def no_rows(standing: Standing, first: int | None) -> RowInSize:
    """A line that works nothing here: the places below stay as they are."""
    fabric = standing.fabric
    return RowInSize(
        first=first,
        last=None,
        times=0,
        sts=0 if fabric is None or fabric.ring else fabric.sts,
        makes=() if fabric is None else tuple(tally(fabric.nodes).items()),
        worked=(),
        side=standing.side,
        height=standing.height(),
        stated=None,
    )
