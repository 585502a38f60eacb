"""One line of a piece in one size: a row as written, rows worked again, rows worked even.

Takes     a line (``AtHand``), and where the size stands (``Standing``, which it moves on).
Gives     ``in_size``: what the line becomes there, with its faults.
Problems  ``Fault``s of the row, ``row-no-such-row``, ``row-number``, ``row-no-such-place`` …
From      notation.md, "Labels", "Whole pieces", "Whole-row words", "When it does not come out".
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple, assert_never

from workeven.notation.tree import (
    Chain,
    ChangeOver,
    FastenOff,
    IntoRing,
    Label,
    MagicRing,
    RepeatRows,
    Row,
    RowsCount,
    RowsTimes,
    RowsUntil,
    UntilCount,
    UntilMeasures,
    WorkedRow,
    WorkEven,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.again import Total, lines_meant, work_again
from workeven.proof.context import Fault
from workeven.proof.fabric import Fabric, Run, reversed_nodes, stitch, tally
from workeven.proof.facts import facts_of
from workeven.proof.line import ABOUT_LABELS, Line, Lined, SizeFault
from workeven.proof.numbering import compare_range, label_times, start_numbers
from workeven.proof.often import (
    bounded,
    measured,
    rows_to,
    until_count,
    until_count_even,
    until_count_from,
)
from workeven.proof.parts import targets_of
from workeven.proof.proven import Counted, RowInSize
from workeven.proof.row import RowCount, kept
from workeven.proof.standing import Side, Standing
from workeven.proof.stated import as_stated, compare_again, figures_of

#: faults of a number that cannot be had: nothing of the row can be counted, so nothing is guessed
_UNCOUNTED = frozenset(
    {"count-formula", "count-not-whole", "row-not-understood", "row-too-many", "size-list"}
)


class AtHand(NamedTuple):
    """A line looked through once for all sizes.

    ``own`` where it works a row of its own. ``only``: the indexes of the sizes that it names.
    ``ring_follows``: the next line works into a joined chain as a ring.
    """

    lined: Lined
    own: Line | None
    only: frozenset[int] | None
    ring_follows: bool

    @property
    def row(self) -> Row:
        """The row as it is written."""
        return self.lined.row

    def works(self, standing: Standing) -> bool:
        """Whether a size works this line."""
        index, sizes = standing.context.index, self.lined.sizes
        if sizes is not None and index not in sizes:
            return False
        return self.only is None or index in self.only


def at_hand(lined: Lined, following: Lined | None, names: tuple[str, ...]) -> AtHand:
    """Look a line through; ``following`` is the next one."""
    body = lined.row.body
    return AtHand(
        lined,
        Line(lined.row, facts_of(body.steps), {}) if isinstance(body, WorkedRow) else None,
        _only(lined.row, names),
        following is not None and _into_ring(following.row),
    )


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


class InSize(NamedTuple):
    """What one line became in one size."""

    entry: RowInSize
    faults: tuple[SizeFault, ...]
    row_count: RowCount | None = None
    measured: tuple[str, Fraction] | None = None


def in_size(line: AtHand, standing: Standing) -> InSize:
    """The line in one size, which moves on behind it."""
    try:
        return _in_doubt(line, standing, _in_size(line, standing))
    except Fault as fault:
        standing.numbered = False
        standing.unknown = standing.unknown or fault.code in _UNCOUNTED
        return InSize(_no_rows(standing, None), _faults(standing, (fault,)))


def _in_doubt(line: AtHand, standing: Standing, result: InSize) -> InSize:
    """Behind a row told wrong whose stitches are only guessed, later rows are not judged.

    Firm ground is reached again where a row comes out and its own stated count agrees.
    """
    if not (result.faults or standing.doubt):
        return result
    wrong = tuple(one for one in result.faults if one.fault.code not in ABOUT_LABELS)
    if not standing.doubt:
        standing.doubt = bool(wrong) and not _known_stitches(line, standing, result)
        return result
    if not wrong and line.row.stated is not None and result.row_count is not None:
        standing.doubt = False
    return result._replace(faults=tuple(one for one in result.faults if one not in wrong))


def _known_stitches(line: AtHand, standing: Standing, result: InSize) -> bool:
    """Whether a faulty row leaves the stitches that it states."""
    if standing.as_stated is not None:
        return True
    figures = figures_of(line.row.stated, standing.context)
    if figures is None or len(figures) != 1 or standing.fabric is None:
        return result.row_count is None
    unit, number = figures[0]
    return standing.fabric.sts == number and not unit.endswith("sp")


def _in_size(line: AtHand, standing: Standing) -> InSize:
    standing.enter(line.lined)
    body = line.row.body
    if body is None or (standing.unknown and not _begins_anew(line.own)):
        return _unread(line, standing)
    standing.unknown = False
    match body:
        case WorkedRow():
            assert line.own is not None
            return _worked_row(line, standing, body, line.own)
        case RepeatRows():
            return _repeat_rows(line, standing, body)
        case WorkEven():
            return _work_even(line, standing, body)
        case ChangeOver(worked=worked):
            standing.worked = worked
            return InSize(_no_rows(standing, None), ())
        case _:
            assert_never(body)


def _begins_anew(own: Line | None) -> bool:
    """Whether a line needs nothing below it: a starting chain, a ring."""
    if own is None or own.facts.works:
        return False
    return any(isinstance(step, Chain | MagicRing) for step in own.facts.written)


def _faults(standing: Standing, faults: Iterable[Fault]) -> tuple[SizeFault, ...]:
    return tuple(SizeFault(standing.context.index, fault, standing.fabric) for fault in faults)


# --- rows that are not understood ----------------------------------------------------------


def _unread(line: AtHand, standing: Standing) -> InSize:
    """A row that is not understood, or stands on one: what it states is taken on trust.

    Nothing is guessed: without a stated count the rows after it stay uncounted until one
    states its stitches, and only the row that was not understood has a message.
    """
    label, how = line.row.label, standing.how(line.lined)
    start_numbers(standing, label, flat=how == "flat rows", judged=False)
    standing.numbered = False
    first, times = standing.number, label_times(label, standing.context) or 1
    standing.pass_rows(times)
    figures = figures_of(line.row.stated, standing.context)
    fabric = None if figures is None else _on_trust(figures, how)
    standing.unknown = fabric is None
    if fabric is not None:
        standing.fabric, standing.doubt = fabric, True  # other places may stand there too
    own = line.own if line.own is not None else Line(line.row, facts_of(()), {})
    _remember(standing, label, (own,), first, times)
    if not own.facts.written:
        standing.faulty = (*standing.faulty, line.row)  # told already: a repeat of it is not
    entry = RowInSize(
        first=first,
        last=None if first is None else first + times - 1,
        times=None if line.row.body is None else times,
        sts=None,
        makes=(),
        worked=(),
        side=standing.side,
        height=standing.height(),
        stated=figures,
    )
    return InSize(entry, ())


def _on_trust(figures: Counted, how: str) -> Fabric | None:
    """The fabric that a stated count would be."""
    unit, number = figures[0]
    if len(figures) != 1 or unit == "sp" or unit.endswith(" sp"):
        return None
    name = kind_of(unit).base if unit != "sts" else "sc"
    return Fabric((Run(stitch(name, name), number),), closed=how != "flat rows", turned=True)


# --- rows as written -----------------------------------------------------------------------


def _worked_row(line: AtHand, standing: Standing, body: WorkedRow, own: Line) -> InSize:
    row = line.row
    standing.worked = body.change or standing.worked
    how = standing.how(line.lined)
    labelled = label_times(row.label, standing.context)
    at_once = body.until is None and (labelled is None or labelled <= 1)
    result = standing.work(own, how, row.stated if at_once else None)
    if line.ring_follows and result.fabric.foundation and result.fabric.closed:
        result = _as_ring(result)
    faults: tuple[SizeFault, ...] = ()
    if result.fault is not None:
        faults = _faults(standing, (result.fault,))
        if result.fault.code in _UNCOUNTED:
            return _unread(line, standing)._replace(faults=faults, row_count=result)
        standing.faulty = (*standing.faulty, row)
        standing.as_stated = result.as_stated
    if not result.is_row:
        return InSize(_chain_line(standing, own, result), faults, result)
    faults += _faults(standing, start_numbers(standing, row.label, flat=how == "flat rows"))
    times = _times_of_own(line, standing, labelled, own, result)
    if times is None:
        first = standing.number
        total = Total(result.worked)
        standing.go_on(own, result)
        return _open(line, standing, (own,), result, first, total, faults)
    if not isinstance(body.until, UntilCount):
        faults += _faults(standing, compare_range(row.label, labelled, times))
    return _own_rows(line, standing, result, times, faults, checked=at_once)


def _as_ring(result: RowCount) -> RowCount:
    """A joined chain that the next row works into."""
    fabric = result.fabric._replace(ring=True)
    return result._replace(fabric=fabric, sts=0, makes=(("ring", 1),))


def _chain_line(standing: Standing, own: Line, result: RowCount) -> RowInSize:
    """A line that only makes or joins a starting chain or ring has no number."""
    fabric = result.fabric
    if fabric.foundation:
        if standing.fabric is not None and standing.worked_rows is None:
            standing.rows = 0
        standing.fresh, standing.doubt = True, False
    standing.fabric = fabric
    if own.row.label is not None and own.row.label.name is not None:
        standing.by_name = {**standing.by_name, own.row.label.name: own}
    return RowInSize(
        first=None,
        last=None,
        times=1,
        sts=result.sts,
        makes=result.makes or tuple(tally(fabric.nodes).items()),
        worked=result.worked,
        side=None,
        height=standing.height(),
        stated=result.stated,
    )


def _times_of_own(
    line: AtHand, standing: Standing, labelled: int | None, own: Line, result: RowCount
) -> int | None:
    """How many rows a row as written stands for; None where that is open."""
    until = _until(line.row)
    match until:
        case None:
            times = labelled if labelled is not None else 1
        case RowsCount(count=amount) | RowsTimes(count=amount):
            times = standing.context.amount(amount) or 0
        case UntilMeasures():
            rows = rows_to(standing, until)
            if rows is None:
                return labelled
            times = max(rows, 1)
        case UntilCount():
            times = until_count_from(standing, until, own, standing.how(line.lined), result)
        case _:
            assert_never(until)
    return bounded(times, line.row)


def _until(row: Row) -> RowsUntil | None:
    return row.body.until if isinstance(row.body, WorkedRow | RepeatRows | WorkEven) else None


def _own_rows(
    line: AtHand,
    standing: Standing,
    result: RowCount,
    times: int,
    faults: tuple[SizeFault, ...],
    *,
    checked: bool,
) -> InSize:
    """All the rows that a row as written stands for; the first of them is worked already."""
    row, own = line.row, line.own
    assert own is not None
    first, side = standing.number, standing.side
    figures = result.stated if checked else figures_of(row.stated, standing.context)
    total = Total(result.worked)
    standing.go_on(own, result)
    if times > 1 and not faults:
        last, fault = work_again(standing, (own,), times - 1, standing.how(line.lined), total)
        result = last or result
        faults = () if fault is None else (fault,)
    elif times > 1:
        standing.pass_rows(times - 1)
    if not (checked or faults):
        faults = _check_stated(line, standing, figures, result)
    _remember(standing, row.label, (own,), first, times)
    entry = _rows_entry(standing, result, total, first, times, side, figures)
    return InSize(entry, faults, result, measured(standing, _until(row)))


# --- rows worked again ---------------------------------------------------------------------


def _repeat_rows(line: AtHand, standing: Standing, body: RepeatRows) -> InSize:
    row, how = line.row, standing.how(line.lined)
    lines = lines_meant(standing, body.rows, len(row.text))
    faults = _faults(standing, start_numbers(standing, row.label, flat=how == "flat rows"))
    labelled = label_times(row.label, standing.context)
    first, side = standing.number, standing.side
    figures = figures_of(row.stated, standing.context)
    total = Total()
    times = _times_of_again(line, standing, body, lines, labelled)
    if times is None:
        result, fault = work_again(standing, lines, len(lines), how, total, figures)
        faults += () if fault is None else (fault,)
        return _open(line, standing, lines, result, first, total, faults)
    faults += _faults(standing, compare_range(row.label, labelled, times))
    result, fault = work_again(standing, lines, times, how, total, figures)
    faults += () if fault is None else (fault,)
    if times == 0:
        return InSize(_no_rows(standing, first), faults, result, measured(standing, body.until))
    if fault is None and any(isinstance(step, FastenOff) for step in body.steps):
        standing.turned = False
    told = any(one.row is faulty for one in lines for faulty in standing.faulty)
    if result is not None and not faults and not told:
        faults = _check_stated(line, standing, figures, result)
    _remember(standing, row.label, lines, first, times)
    entry = _rows_entry(standing, result, total, first, times, side, figures)
    return InSize(entry, faults, result, measured(standing, body.until))


def _times_of_again(
    line: AtHand,
    standing: Standing,
    body: RepeatRows,
    lines: tuple[Line, ...],
    labelled: int | None,
) -> int | None:
    """How many rows are worked again; None where that is open."""
    period, until = len(lines), body.until
    match until:
        case None:
            times = period if labelled is None else labelled
            if times % period and body.ending is None:
                raise _no_whole_repeats(line.row, times, period)
        case RowsTimes(count=amount):
            times = (standing.context.amount(amount) or 0) * period
        case RowsCount(count=amount):
            times = standing.context.amount(amount) or 0
        case UntilMeasures():
            ending = _ending_at(line, standing, body, lines)
            rows = rows_to(standing, until, period, ending, body.ending_side)
            if rows is None:
                return labelled
            times = rows
        case UntilCount():
            times = until_count(standing, until, lines, standing.how(line.lined))
        case _:
            assert_never(until)
    return bounded(times, line.row)


def _no_whole_repeats(row: Row, times: int, period: int) -> Fault:
    return Fault(
        "row-number",
        row.label.start if row.label else 0,
        row.label.end if row.label else 0,
        f"{times} rows are no whole number of repeats of {period} rows",
        mend="Make the range a whole number of repeats, or say with which row it ends.",
    )


def _ending_at(
    line: AtHand, standing: Standing, body: RepeatRows, lines: tuple[Line, ...]
) -> int | None:
    """The position, among the repeated rows, of the row that the text asks to end with."""
    if body.ending is None:
        return None
    length = len(line.row.text)
    wanted = lines_meant(standing, (body.ending,), length)[0]
    for at, one in enumerate(lines):
        if one.row is wanted.row:
            return at
    raise Fault(
        "row-no-such-row",
        0,
        length,
        "the row to end with is not among the rows that are repeated",
        mend="End with one of the repeated rows.",
    )


# --- worked even, and open numbers of rows -------------------------------------------------


def _work_even(line: AtHand, standing: Standing, body: WorkEven) -> InSize:
    """``work even``: every place again, each with its own stitch."""
    row, below = line.row, standing.fabric
    how = standing.how(line.lined)
    if below is None or not below.nodes:
        raise Fault(
            "row-no-such-place",
            0,
            len(row.text),
            "nothing has been worked that could go on",
        )
    faults = _faults(standing, start_numbers(standing, row.label, flat=how == "flat rows"))
    labelled = label_times(row.label, standing.context)
    first, side = standing.number, standing.side
    figures = figures_of(row.stated, standing.context)
    made = tally(below.nodes).items()
    result = kept(below, tuple((kind_of(name).base, number) for name, number in made))
    total = Total()
    times = _times_of_even(line, standing, body, labelled, result)
    if times is None:
        standing.number = None
        entry = _rows_entry(standing, result, total, first, None, side, figures)
        return InSize(entry, faults, result)
    faults += _faults(standing, compare_range(row.label, labelled, times))
    total.add(result.worked, times)
    standing.turned = how in ("flat rows", "joined rounds, turned")
    if standing.turned and times % 2:
        standing.fabric = below._replace(nodes=reversed_nodes(below.nodes), turned=True)
    standing.pass_rows(times)
    faults += _check_stated(line, standing, figures, result)
    entry = _rows_entry(standing, result, total, first, times, side, figures)
    return InSize(entry, faults, result, measured(standing, body.until))


def _times_of_even(
    line: AtHand, standing: Standing, body: WorkEven, labelled: int | None, result: RowCount
) -> int | None:
    """For how many rows it goes on as it is; None where that is open."""
    until = body.until
    match until:
        case None:
            times = labelled if labelled is not None else 1
        case RowsCount(count=amount) | RowsTimes(count=amount):
            times = standing.context.amount(amount) or 0
        case UntilMeasures():
            rows = rows_to(standing, until)
            if rows is None:
                return labelled
            times = max(rows, 1)
        case UntilCount():
            times = until_count_even(standing, until, result)
        case _:
            assert_never(until)
    return bounded(times, line.row)


def _open(
    line: AtHand,
    standing: Standing,
    lines: tuple[Line, ...],
    result: RowCount | None,
    first: int | None,
    total: Total,
    faults: tuple[SizeFault, ...],
) -> InSize:
    """A number of rows that is not known: the counts are, where they stay the same."""
    again, _ = work_again(standing.copy(), lines, len(lines), standing.how(line.lined), Total())
    steady = result is not None and again is not None and again.makes == result.makes
    _remember(standing, line.row.label, lines, first, len(lines))
    standing.lose_count()
    entry = RowInSize(
        first=first,
        last=None,
        times=None,
        sts=result.sts if steady and result is not None else None,
        makes=result.makes if steady and result is not None else (),
        worked=tuple(total.worked.items()),
        side=standing.side,
        height=None,
        stated=result.stated if result is not None else None,
    )
    if steady and result is not None:
        figures = figures_of(line.row.stated, standing.context)
        faults += _check_stated(line, standing, figures, result)
    return InSize(entry, faults, result)


# --- entries -------------------------------------------------------------------------------


def _check_stated(
    line: AtHand, standing: Standing, figures: Counted | None, result: RowCount
) -> tuple[SizeFault, ...]:
    """The last of several rows, held against what their line states."""
    stated = line.row.stated
    if stated is None or figures is None:
        return ()
    fault = compare_again(stated, figures, result.makes, result.groups, result.sts)
    if fault is None:
        return ()
    standing.as_stated = as_stated(figures, result.fabric, result.makes)
    return _faults(standing, (fault,))


def _remember(
    standing: Standing, label: Label | None, lines: tuple[Line, ...], first: int | None, times: int
) -> None:
    name = label.name if label is not None else None
    standing.remember(lines, first, times, name or "")
    standing.last = lines[(times - 1) % len(lines)]


def _rows_entry(
    standing: Standing,
    result: RowCount | None,
    total: Total,
    first: int | None,
    times: int | None,
    side: Side | None,
    figures: Counted | None,
) -> RowInSize:
    return RowInSize(
        first=first,
        last=None if first is None or times is None else first + times - 1,
        times=times,
        sts=None if result is None else result.sts,
        makes=() if result is None else result.makes,
        worked=tuple(total.worked.items()),
        side=side,
        height=standing.height(),
        stated=figures,
    )


def _no_rows(standing: Standing, first: int | None) -> RowInSize:
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
