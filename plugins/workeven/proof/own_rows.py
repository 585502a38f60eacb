"""A row as it is written: worked once, or as often as its line says.

Takes     a line with steps of its own, and where a size stands.
Gives     ``worked_row``; ``open_rows``: a number of rows that nobody knows; ``ends_as_told``;
          ``unread``.
Problems  ``Fault``s of the row, ``row-number``, ``row-past-length``, ``count-not-reached``.
From      notation.md, "Labels", "Whole pieces", "When it does not come out".
"""

from __future__ import annotations

from collections.abc import Mapping

from workeven.notation.tree import (
    FastenOff,
    RepeatRows,
    Row,
    RowBody,
    SpecialStitch,
    UntilCount,
    UntilMeasures,
    WorkedRow,
    WorkEven,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.again import Total, reaching, work_again
from workeven.proof.anew import begin_anew
from workeven.proof.as_another import as_another
from workeven.proof.at_hand import (
    AtHand,
    InSize,
    check_stated,
    faults_of,
    remember,
    rows_entry,
)
from workeven.proof.earlier import below_row, each_of_the_row_before, past_the_center
from workeven.proof.ends_of_kinds import with_ends_of_kinds
from workeven.proof.fabric import Fabric, Run, stitch, tally
from workeven.proof.first_chains import from_the_hook
from workeven.proof.instep import around_instep
from workeven.proof.left import note_left
from workeven.proof.line import Line, SizeFault, line_of
from workeven.proof.named_spaces import with_known_spaces
from workeven.proof.numbering import compare_range, label_times, start_numbers
from workeven.proof.often import open_to, reached, times_of, until_count_from
from workeven.proof.proven import Counted, RowInSize
from workeven.proof.reach import lowered
from workeven.proof.row import RowCount, against
from workeven.proof.standing import Standing, Unworked
from workeven.proof.stated import figures_of
from workeven.proof.twins import check_none_passed, each_of_a_part, joined_twins

#: faults of a number that cannot be had: nothing of the row can be counted, so nothing is guessed
UNCOUNTED = frozenset(
    {"count-formula", "count-not-whole", "row-not-understood", "row-too-many", "size-list"}
)


def worked_row(line: AtHand, standing: Standing, body: WorkedRow, own: Line) -> InSize:
    """A row with steps of its own."""
    row = line.row
    standing.worked = body.change or _worked_so_far(standing, line)
    how = standing.how(line.lined)
    labelled = label_times(row.label, standing.context)
    begin_anew(standing, row.label, own)
    if standing.fabric is not None:
        line, own = _over(standing.fabric, line, body, own, standing.context.special)
    own = _over_both(standing, body, with_ends_of_kinds(standing, own))
    line, body, own = lowered(standing, line, body, own)
    own = past_the_center(standing, own)
    taken_up = _below(standing, body, own, how)
    if taken_up is not None and not body.unworked_too:
        standing.stand_on(taken_up.number)
    standing.below_line = (standing.fabric, how)
    at_once = body.until is None and (labelled is None or labelled <= 1)
    stated = row.stated if at_once else None
    figures = figures_of(stated, standing.context)
    result = _none_passed(standing, body, own, how, standing.work(own, how, stated))
    result = reaching(standing, own, _as_worked_into(line, against(result, stated, figures)))
    faults: tuple[SizeFault, ...] = ()
    if result.fault is not None:
        faults = faults_of(standing, (result.fault,))
        if result.fault.code in UNCOUNTED:
            return unread(line, standing)._replace(faults=faults, row_count=result)
        standing.faulty = (*standing.faulty, row)
        standing.as_stated = result.as_stated
    if not result.is_row:
        unworked = as_another(standing, own)
        if unworked is not None:
            return unread(line, standing)._replace(faults=faults_of(standing, (unworked,)))
        return InSize(chain_line(standing, own, result, figures), faults, result)
    faults += faults_of(standing, start_numbers(standing, row.label, flat=how == "flat rows"))
    times = times_of(
        standing,
        line.until,
        line.row,
        labelled,
        lambda until: until_count_from(standing, until, own, standing.how(line.lined), result),
    )
    if times is None:
        return _open_own(line, standing, own, result, how, faults)
    if labelled is not None and not isinstance(body.until, UntilCount):
        faults += faults_of(standing, compare_range(row.label, labelled, times))
    if at_once:
        counted = InSize(
            one_row(standing, line.own or own, result, figures, _name(row)), faults, result
        )
    else:
        counted = _own_rows(line, standing, result, times, faults)
    if taken_up is not None:
        note_left(standing, own, taken_up, how)
    return counted


def _below(standing: Standing, body: WorkedRow, own: Line, how: str) -> Unworked | None:
    """What the row takes up of an earlier one; around an instep the last row too."""
    last_row = standing.fabric
    taken_up = below_row(standing, body, own, how)
    around = None if taken_up is None else around_instep(standing, taken_up, last_row, own)
    if around is None:
        return taken_up
    standing.fabric = around.fabric
    return around


def _open_own(
    line: AtHand,
    standing: Standing,
    own: Line,
    result: RowCount,
    how: str,
    faults: tuple[SizeFault, ...],
) -> InSize:
    """So many rows as written that nobody knows the number; the last is on the side asked for."""
    first, total = standing.number, Total(result.worked)
    more = open_to(standing, line.until) - 1
    standing.go_on(own, result)
    last = work_again(standing, (own,), more, how, total)[0] if more else None
    return open_rows(line, standing, (own,), last or result, first, total, faults)


def _worked_so_far(standing: Standing, line: AtHand) -> str | None:
    """How the text has said that it is worked; a round by its label ends rows between rounds."""
    label, own = line.row.label, line.lined.worked
    rounds = label is not None and label.word == "Rnd" and own != "flat rows"
    return None if rounds and standing.worked == "flat rows" else standing.worked


def _over_both(standing: Standing, body: WorkedRow, own: Line) -> Line:
    """The row over two parts worked alike, which are laid under the hook."""
    if body.twins is None:
        return own
    line = each_of_a_part(own, standing, body.twins, standing.context.special)
    standing.fabric = joined_twins(standing, body.twins)
    return line


def _none_passed(
    standing: Standing, body: WorkedRow, own: Line, how: str, result: RowCount
) -> RowCount:
    """The count of a row; over two parts, with its fault where stitches of one are passed over."""
    if body.twins is None or result.fault is not None or standing.fabric is None:
        return result
    fault = check_none_passed(own, standing.fabric, standing.context, how)
    return result if fault is None else result._replace(fault=fault)


def _over(
    below: Fabric, line: AtHand, body: WorkedRow, own: Line, special: Mapping[str, SpecialStitch]
) -> tuple[AtHand, Line]:
    """The row over these places: what it names by where it lies is looked up in them.

    The line keeps it so, to be worked again; "each st" is that of the row before each time.
    """
    found = with_known_spaces(from_the_hook(own, below, special), below, special)
    line = line._replace(own=found)
    return line, each_of_the_row_before(found, below.sts, special) if body.unworked_too else found


def _as_worked_into(line: AtHand, result: RowCount) -> RowCount:
    """A joined chain as the next row takes it: a ring, or a round of chains."""
    if line.ring_follows and result.fabric.foundation and result.fabric.closed:
        return _as_ring(result)
    if line.chains_follow and result.fabric.ring and result.fabric.nodes:
        return _as_chains(result)
    return result


def _as_ring(result: RowCount) -> RowCount:
    """A joined chain that the next row works into."""
    fabric = result.fabric._replace(ring=True)
    return result._replace(fabric=fabric, sts=0, makes=(("ring", 1),))


def _as_chains(result: RowCount) -> RowCount:
    """A joined chain said to form a ring, whose chains the next row works one by one."""
    fabric = result.fabric._replace(ring=False)
    return result._replace(fabric=fabric, sts=fabric.sts, makes=tuple(tally(fabric.nodes).items()))


def chain_line(
    standing: Standing, own: Line, result: RowCount, figures: Counted | None
) -> RowInSize:
    """A line that only makes or joins a starting chain or ring has no number."""
    fabric = result.fabric
    if fabric.foundation:
        if standing.fabric is not None and standing.worked_rows is None:
            standing.rows = 0
        standing.fresh, standing.doubt = True, False
    nothing = standing.fabric is None and not fabric.nodes and not fabric.ring
    standing.fabric = None if nothing else fabric  # a heading before the first row
    standing.cut = standing.cut or any(isinstance(one, FastenOff) for one in own.facts.written)
    if not fabric.foundation:
        standing.said = (*standing.said, own.row.text)
    label = own.row.label
    if label is not None and (label.section or (label.name is not None and label.first is None)):
        standing.fresh = True  # "Sleeve: join yarn in 3rd underarm ch": its rounds begin with 1
    if label is not None and label.name is not None:
        standing.part = label.name
        standing.by_name = {**standing.by_name, label.name: own}
    return RowInSize(
        first=None,
        last=None,
        times=1,
        sts=result.sts,
        makes=result.makes or tuple(tally(fabric.nodes).items()),
        worked=result.worked,
        side=None,
        height=standing.height(),
        stated=figures,
    )


def _own_rows(
    line: AtHand,
    standing: Standing,
    result: RowCount,
    times: int,
    faults: tuple[SizeFault, ...],
) -> InSize:
    """All the rows that a row as written stands for; the first of them is worked already."""
    row, own = line.row, line.own
    assert own is not None
    first, side = standing.number, standing.side
    figures = figures_of(row.stated, standing.context)
    total = Total(result.worked)
    standing.go_on(own, result)
    if times > 1 and not faults:
        last, fault = work_again(standing, (own,), times - 1, standing.how(line.lined), total)
        result = last or result
        faults = () if fault is None else (fault,)
    elif times > 1:
        standing.pass_rows(times - 1)
    if not faults:
        faults = check_stated(line, standing, figures, result)
    remember(standing, row.label, (own,), first, times)
    entry = rows_entry(standing, result, total, first, times, side, figures)
    return InSize(entry, faults, result, reached(standing, line.until, times))


def one_row(
    standing: Standing, own: Line, result: RowCount, figures: Counted | None, name: str
) -> RowInSize:
    """A row as written that stands for itself alone: the size moves on behind it.

    ``name`` is that of its label, "" where it has none.
    """
    first, side = standing.number, standing.side
    standing.go_on(own, result)
    standing.remember((own,), first, 1, name)
    return RowInSize(
        first, first, 1, result.sts, result.makes, result.worked, side, standing.height(), figures
    )


def _name(row: Row) -> str:
    """The name of a row's label, "" where it has none."""
    return row.label.name or "" if row.label is not None else ""


# --- rows that are not understood ----------------------------------------------------------


def unread(line: AtHand, standing: Standing) -> InSize:
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
    own = line.own if line.own is not None else line_of(line.row, ())
    remember(standing, label, (own,), first, times)
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


# --- open numbers of rows ------------------------------------------------------------------


def open_rows(
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
    remember(standing, line.row.label, lines, first, len(lines))
    standing.lose_count()
    standing.side_said = standing.side_said and ends_as_told(line.row.body)
    entry = RowInSize(
        first=first,
        last=None,
        times=None,
        sts=result.sts if steady and result is not None else None,
        makes=result.makes if steady and result is not None else (),
        worked=tuple(total.worked.items()),
        side=standing.side,
        height=None,
        stated=None,
    )
    if steady and result is not None:
        figures = figures_of(line.row.stated, standing.context)
        faults += check_stated(line, standing, figures, result)
    return InSize(entry, faults, result)


def ends_as_told(body: RowBody | None) -> bool:
    """Whether the text says with which row, or on which side, so many rows end."""
    if isinstance(body, RepeatRows) and (body.ending is not None or body.ending_side is not None):
        return True
    until = body.until if isinstance(body, RepeatRows | WorkedRow | WorkEven) else None
    return isinstance(until, UntilMeasures) and until.side is not None
