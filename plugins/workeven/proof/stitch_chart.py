"""Which rows of a piece a stitch chart shows, each stitch over the places it is worked into.

Takes     a ``GradedPattern``, a ``ProvenPiece``, the multiple of its starting chain.
Gives     ``stitch_chart``: a ``StitchChart``, or None where the piece has none.
Problems  none: a piece that a chart cannot show truthfully has no chart.
From      DEVELOPERS.md, "Stitch charts".

A piece in flat rows, and a tube begun with a joined chain, is shown over a short starting chain of
the same multiple, on which its rows are counted anew. A piece that begins in a ring, with all of
its first stitches in one chain, or around both sides of its chain, is shown as it is worked: in all
sizes alike, or where their first rounds differ, in one of them. The chart ends with the first rows
that are repeated, worked once, but for an oval, of which each is shown: around a chain they lie
over one another, and about a middle ever farther apart. It ends where a size works something else;
where a row is read in another than the usual way, for the few stitches of a chart state no count
that could tell; where a round of a tube or an oval works back, other than into the place that it
began in; or at the limits below.

Worked example: a multiple of 3 plus 2 that comes out on 5 chains is shown over 14, the first of its
lengths with at least 13.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from workeven.grading import GradedPattern
from workeven.notation.colours import colours_said
from workeven.notation.tree import (
    Amount,
    Aside,
    RepeatRows,
    Row,
    RowBody,
    RowsCount,
    RowsTimes,
    WorkedRow,
    WorkEven,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Fabric
from workeven.proof.line import Known, Line, Lined
from workeven.proof.lines import contexts_of, lines_of
from workeven.proof.multiples import starting_chain
from workeven.proof.piece import count_piece, piece_comes_out
from workeven.proof.placed import MOVES, Placed, PlacedRow, placed_row
from workeven.proof.proven import ProvenPiece, ProvenRow, RowInSize
from workeven.proof.reaching_down import Drawn, anchored
from workeven.proof.row import work
from workeven.proof.standing import Worked
from workeven.records import record, replace

#: a chart stays readable, and its page light: a cluster weighs as half of its legs
MOST_ROWS = 12
MOST_STITCHES = 320
#: how many chains of a flat piece are tried, in repeats, and how wide the repeat may be
_MOST_REPEATS = 6
WIDEST = 24
#: fewer chains show too little of a pattern
_NARROWEST = 13
#: a row alone shows no pattern
FEWEST_ROWS = 2


Shape = Literal["rows", "tube", "rounds", "oval"]


class ChartRow(NamedTuple):
    """A row of a chart: its number, and its stitches.

    ``turned``: the work was turned after it. ``recoloured``: its words change the colour within it.
    """

    number: int
    placed: PlacedRow
    turned: bool
    recoloured: bool = False


@record
class StitchChart:
    """A stitch chart: the rows from the start of a piece.

    ``shape``: in flat rows, a tube of rounds over a joined chain, rounds from a middle, or around
    both sides of a chain. ``chains`` is the length of the starting chain as drawn, 0 for rounds.
    ``multiple`` is what that chain is of, None for rounds and ovals. ``sizes``: the places of those
    in which a piece is worked as it is drawn; () for all of them.
    """

    rows: tuple[ChartRow, ...]
    shape: Shape
    chains: int
    multiple: tuple[int, int] | None
    sizes: tuple[int, ...] = ()


class _Shown(NamedTuple):
    """Lines that a chart may show, and how many of the rows that they stand for."""

    lines: tuple[Lined, ...]
    rows: int


def stitch_chart(
    graded: GradedPattern, proven: ProvenPiece, multiple: tuple[int, int] | None, size: int = 0
) -> StitchChart | None:
    """The chart of a piece, None where there is none.

    It is the same for every size. Where the first rounds of a piece that is drawn as it is worked
    differ, it is of ``size``, or of the first one in which the piece is made.
    """
    piece = proven.piece
    contexts = tuple(
        context for context, number in zip(contexts_of(graded), piece.make, strict=True) if number
    )
    if not contexts or piece.mirror is not None:
        return None
    names = graded.pattern.sizes.names
    lines = [*zip(lines_of(piece, graded.pattern), _rows_of(proven), strict=True)]
    shown = _alike(lines, contexts, contexts)
    if shown.lines and _says_the_same(shown.lines[0].row, contexts):
        chart = _as_worked(shown, contexts[0], piece.worked, names)
        if chart is not None:
            return chart
    chart = _over_chain(shown, contexts[0], piece.worked, multiple, names)
    if chart is not None or len(contexts) == 1:
        return chart
    one = next((context for context in contexts if context.index == size), contexts[0])
    shown = _alike(lines, (one,), contexts)
    chart = _as_worked(shown, one, piece.worked, names)
    if chart is None:
        return None
    as_drawn = (
        other.index
        for other in contexts
        if _says_the_same(lines[0][0].row, (one, other))
        and _alike(lines, (one, other), contexts).rows >= len(chart.rows)
    )
    return replace(chart, sizes=tuple(as_drawn))


def chart_of(
    lines: list[Lined],
    context: SizeContext,
    worked: str,
    multiple: tuple[int, int] | None,
    names: tuple[str, ...],
) -> StitchChart | None:
    """The chart of these lines in one size; None where there is none."""
    shown = _Shown(tuple(lines), MOST_ROWS)
    as_worked = _as_worked(shown, context, worked, names)
    return as_worked or _over_chain(shown, context, worked, multiple, names)


def _rows_of(proven: ProvenPiece) -> list[ProvenRow]:
    return [row for section in proven.sections for row in section.rows]


def _alike(
    lines: list[tuple[Lined, ProvenRow]],
    contexts: tuple[SizeContext, ...],
    every: tuple[SizeContext, ...],
) -> _Shown:
    """The first lines that say the same in these sizes, and are worked in ``every`` size.

    The starting chain may differ. The last line may be worked more often in one of these sizes than
    in another: as many of its rows are shown as all of them have.
    """
    found: list[Lined] = []
    rows = 0
    for lined, proven in lines:
        row = lined.row
        if row.only is not None or lined.sizes is not None or row.body is None or proven.reading:
            break
        if row.label is not None and row.label.alternate:
            break  # its rows and those of other lines take turns: none is told in its order
        if not all(entry and entry.times != 0 for entry in _entries(proven, every)):
            break
        same = _says_the_same(row, contexts)
        if found and not same and isinstance(row.body, WorkedRow | RepeatRows | WorkEven):
            break
        found.append(_without_count(lined))
        own = _entries(proven, contexts)
        if all(entry and entry.first is not None for entry in own):  # no mere starting chain
            rows += min(_rows_shown(proven, context.index) for context in contexts)
        if len({entry and entry.times for entry in own}) > 1 or not _in_full(row.body):
            break
    return _Shown(tuple(found), rows)


def _entries(proven: ProvenRow, contexts: tuple[SizeContext, ...]) -> tuple[RowInSize | None, ...]:
    return tuple(proven.per_size.values[context.index] for context in contexts)


def _rows_shown(proven: ProvenRow, size: int) -> int:
    """How many rows of a line are shown: each that is told by its number, else each kind once."""
    entry, behind = proven.per_size.values[size], proven.behind[size] if proven.behind else None
    times = (entry and entry.times) or 1
    return times if _in_full(proven.row.body) or behind is None else min(times, len(behind.lines))


def _in_full(body: RowBody | None) -> bool:
    """Whether a line tells by numbers alone how often which rows are worked, without a change."""
    match body:
        case WorkedRow(until=None):
            return True
        case WorkEven(until=None | RowsTimes() | RowsCount(), steps=()):
            return True
        case RepeatRows(until=None | RowsTimes() | RowsCount(), change=None, steps=()):
            return True
        case _:
            return False


def _without_count(lined: Lined) -> Lined:
    """What a row states is of the piece, and not of the few stitches that are drawn."""
    return replace(lined, row=replace(lined.row, stated=None))


def _says_the_same(row: Row, contexts: tuple[SizeContext, ...]) -> bool:
    """Whether these sizes have the same numbers in a row, but for how often it is worked."""
    stated, often = row.stated, _how_often(row.body)
    for amount in row.amounts:
        if amount is often or (stated and stated.start <= amount.start < stated.end):
            continue
        if len({context.amount(amount) for context in contexts}) > 1:
            return False
    return True


def _how_often(body: RowBody | None) -> Amount | None:
    match body:
        case WorkedRow(until=until) | RepeatRows(until=until) | WorkEven(until=until):
            return until.count if isinstance(until, RowsTimes | RowsCount) else None
        case _:
            return None


# --- pieces in flat rows, tubes ------------------------------------------------------------


def _over_chain(
    shown: _Shown,
    context: SizeContext,
    worked: str,
    multiple: tuple[int, int] | None,
    names: tuple[str, ...],
) -> StitchChart | None:
    """The rows over a repeat or more beyond the shortest starting chain on which they come out."""
    if multiple is None or not 1 < multiple[0] <= WIDEST or not shown.lines:
        return None
    if starting_chain(shown.lines[0].row) is None:
        return None
    lines = _to_first_repeat(shown.lines)
    shape: Shape = "rows" if worked == "flat rows" else "tube"
    every, plus = multiple
    shortest = range(every + plus, every * _MOST_REPEATS + plus, every)
    known: Known = {}
    for chains in shortest:
        if piece_comes_out([_with_chain(lines[0], chains), *lines[1:]], context, names, known):
            wider = chains + every * max(1, -(-(_NARROWEST - chains) // every))
            behind = _counted([_with_chain(lines[0], wider), *lines[1:]], context, names)
            chart = StitchChart(rows=(), shape=shape, chains=wider, multiple=multiple)
            return None if behind is None else _chart(behind, context, chart, shown.rows)
    return None


def _to_first_repeat(lines: tuple[Lined, ...]) -> tuple[Lined, ...]:
    """The lines up to the first that works rows again."""
    repeats = (at for at, one in enumerate(lines) if not isinstance(one.row.body, WorkedRow))
    return lines[: next(repeats, len(lines)) + 1]


def _with_chain(lined: Lined, number: int) -> Lined:
    """The first line with a starting chain of that length."""
    body, first = lined.row.body, starting_chain(lined.row)
    assert isinstance(body, WorkedRow)
    assert first is not None
    count = Amount((number,), start=first.count.start, end=first.count.end)
    chain = replace(first, count=count)
    steps = tuple(chain if one is first else one for one in body.steps)
    return replace(lined, row=replace(lined.row, body=replace(body, steps=steps)))


# --- pieces that begin in the middle, or around their chain --------------------------------


def _as_worked(
    shown: _Shown, context: SizeContext, worked: str, names: tuple[str, ...]
) -> StitchChart | None:
    """Rounds as they are worked, from the middle or about both sides of a starting chain."""
    behind = None if worked == "flat rows" else _counted(shown.lines, context, names)
    if behind is None:
        return None
    empty = StitchChart(rows=(), shape="rounds", chains=0, multiple=None)
    if (rounds := _chart(behind, context, empty, shown.rows)) is not None:
        return rounds
    oval = _chart(behind, context, replace(empty, shape="oval"), shown.rows)
    if oval is None:
        return None
    first = oval.rows[0].placed
    return replace(oval, chains=len(first.below) - first.again)


def _counted(
    lines: Iterable[Lined], context: SizeContext, names: tuple[str, ...]
) -> tuple[Worked, ...] | None:
    """The rows worked, from the first; None where a line does not come out."""
    counted = count_piece(lines, (context,), names, (None,))
    if not counted or any(line.faults or line.reading for line in counted):
        return None
    found: list[Worked] = []
    behind = counted[-1].behind[0]
    while behind is not None:
        found.append(behind)
        behind = behind.before
    return tuple(reversed(found))


# --- row by row ----------------------------------------------------------------------------


def _chart(
    worked: tuple[Worked, ...], context: SizeContext, chart: StitchChart, most: int
) -> StitchChart | None:
    """The chart with the first of these rows that can be drawn, ``most`` of them."""
    rows: list[ChartRow] = []
    stitches = 0
    for rows_alike in worked:
        below = rows_alike.below
        times = rows_alike.times
        if chart.shape != "oval":
            times = min(times, len(rows_alike.lines))
        for at in range(times):
            line = rows_alike.line_at(at)
            after = work(line.facts, below, context, worked=rows_alike.how, choices=line.choices)
            if not after.is_row:
                below = after.fabric
                continue
            row = None
            if len(rows) < min(most, MOST_ROWS):
                row = _row(line, below, context, rows_alike.how, rows, chart.shape)
            row = row and anchored(row, [Drawn(one.placed, one.turned) for one in rows])
            stitches += 0 if row is None else sum(map(_weight, row.stitches))
            if row is None or stitches > MOST_STITCHES:
                return _whole(replace(chart, rows=tuple(rows)))
            number = rows_alike.first + at if rows_alike.first is not None else len(rows) + 1
            rows.append(ChartRow(number, row, after.fabric.turned, _changes_colour(line.row)))
            below = after.fabric
        if times < rows_alike.times:
            break  # what comes next stands on rows that are not drawn
    return _whole(replace(chart, rows=tuple(rows)))


def _changes_colour(row: Row) -> bool:
    """Whether another colour is named behind the first of its steps."""
    steps = row.body.steps if isinstance(row.body, WorkedRow) else ()
    begins = min((step.start for step in steps if not isinstance(step, Aside)), default=0)
    return any(one.way == "on" and one.at > begins for one in colours_said(row.text))


def _weight(one: Placed) -> int:
    legs = kind_of(one.name).legs if one.closed is None else one.closed.legs
    return max(1, legs // 2)


def _row(
    line: Line,
    below: Fabric | None,
    context: SizeContext,
    how: str,
    rows: list[ChartRow],
    shape: Shape,
) -> PlacedRow | None:
    """The row, if it goes on in the same way from the places of the row drawn before it."""
    if (how == "flat rows") != (shape == "rows"):
        return None
    told = placed_row(line, below, context, how)
    if told is None or (shape == "tube" and once_around(told) is None):
        return None
    if shape == "oval" and (_travels(told) or once_around(told) is None):
        return None
    if rows:
        last = rows[-1]
        left = last.placed.leaves[::-1] if last.turned else last.placed.leaves
        return told if left == told.below and not told.ring else None
    if shape == "rounds":
        return told if told.ring else _around_one_chain(told)
    if shape == "oval":
        return told if told.again else None
    if below is None:
        return told if told.chains and shape == "rows" else None
    return told if below.foundation and below.closed == (shape == "tube") else None


def _travels(row: PlacedRow) -> bool:
    """Whether a round begins elsewhere than the one below it."""
    return any(one.what in MOVES for one in row.stitches)


def at_seam(row: PlacedRow) -> int:
    """How many of the first stitches of a round stand in the last place below, over the seam.

    So do the chain of a round that was turned, and what is worked into its place: it was joined
    there. 0 where the round comes to that place again.
    """
    last = len(row.below) - 1
    along = [one.feet not in ((), (last,)) for one in row.stitches]
    first = along.index(True) if True in along else 0
    before, behind = row.stitches[:first], row.stitches[first:]
    stands = any(last in one.feet for one in before)
    return first if stands and not any(last in one.feet for one in behind) else 0


def once_around(row: PlacedRow) -> tuple[Placed, ...] | None:
    """The stitches of a round; those that come back to its start stand behind the last place.

    There the places below are numbered on from the first of them. None where a round works back
    otherwise, or comes round farther than to the place it began in.

    Worked example: ``ch 3, dc in same st, …, 2 dc in same place as beg ch-3`` over 12 places: the
    last two stand in place 0, which they meet as number 12.
    """
    seam, there = at_seam(row), len(row.below)
    found = list(row.stitches[:seam])
    first: int | None = None
    last, laps = -1, 0
    for one in row.stitches[seam:]:
        feet: list[int] = []
        for place in one.feet:
            if first is None and one.what != "skipped chain":  # that lies before its beginning
                first = place
            laps += place + laps * there < last
            last = place + laps * there
            feet.append(last)
        found.append(one._replace(feet=tuple(feet)))
    comes_too_far = last > (first or 0) + there or (seam > 0 and laps > 0)
    return None if comes_too_far else tuple(found)


def _around_one_chain(row: PlacedRow) -> PlacedRow | None:
    """``6 sc in 2nd ch from hook``: that chain is the middle; None where it is not so."""
    stitches = [one for one in row.stitches if not one.earlier]
    places = {place for one in stitches for place in one.feet}
    if len(places) != 1 or any(one.earlier and one.top is not None for one in row.stitches):
        return None
    return row._replace(
        stitches=tuple(one._replace(feet=()) for one in stitches), below=(), ring=True
    )


def _whole(chart: StitchChart) -> StitchChart | None:
    rows = chart.rows
    if len(rows) < FEWEST_ROWS:
        return None
    if chart.shape == "rows" and not all(row.turned for row in rows[:-1]):
        return None
    if chart.shape in ("rows", "tube") and all(
        _is_plain(row.placed) and not row.recoloured for row in rows
    ):
        return None
    return chart


def _is_plain(row: PlacedRow) -> bool:
    """Whether one stitch stands over each place: there is nothing to see that words do not say."""
    kinds = {one.name for one in row.stitches if one.what == "stitch"}
    feet = [place for one in row.stitches for place in one.feet]
    alone = all(len(one.feet) == 1 for one in row.stitches if one.what == "stitch")
    beside = ("space", "chain", "picot")
    under_both = all(one.what not in beside and one.loop == "both" for one in row.stitches)
    return len(kinds) == 1 and alone and under_both and len(set(feet)) == len(feet)
