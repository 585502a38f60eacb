"""Which rows of a piece a stitch chart shows, each stitch over the places it is worked into.

Takes     a ``GradedPattern``, a ``ProvenPiece``, the multiple of its starting chain.
Gives     ``stitch_chart``: a ``StitchChart``, or None where the piece has none.
Problems  none: a piece that a chart cannot show truthfully has no chart.
From      DEVELOPERS.md, "Stitch charts".

A piece in flat rows, and a tube begun with a joined chain, is shown over a short starting chain of
the same multiple, on which its rows are counted anew; a piece that begins in a ring, or with all
of its first stitches in one chain, as it is worked. The chart ends with the first rows that are
repeated, worked once; where a size works something else; where a row is read in another than the
usual way, for the few stitches of a chart state no count that could tell; where a round of a tube
works back, other than into the place that it began in; or at the limits below.

Worked example: a multiple of 3 plus 2 that comes out on 5 chains is shown over 14, the first of its
lengths with at least 13.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from workeven.grading import GradedPattern
from workeven.notation.colours import colours_said
from workeven.notation.tree import Amount, Aside, Row, WorkedRow
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Fabric
from workeven.proof.line import Known, Line, Lined
from workeven.proof.lines import contexts_of, lines_of
from workeven.proof.multiples import starting_chain
from workeven.proof.piece import count_piece, piece_comes_out
from workeven.proof.placed import MOVES, Placed, PlacedRow, placed_row
from workeven.proof.proven import ProvenPiece
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
    ``multiple`` is what that chain is of, None for rounds and ovals.
    """

    rows: tuple[ChartRow, ...]
    shape: Shape
    chains: int
    multiple: tuple[int, int] | None


def stitch_chart(
    graded: GradedPattern, proven: ProvenPiece, multiple: tuple[int, int] | None
) -> StitchChart | None:
    """The chart of a piece, the same for every size; None where there is none."""
    piece = proven.piece
    contexts = tuple(
        context for context, number in zip(contexts_of(graded), piece.make, strict=True) if number
    )
    if not contexts or piece.mirror is not None:
        return None
    read = [row.reading for section in proven.sections for row in section.rows]
    lines = list(lines_of(piece, graded.pattern))
    as_usual = next((at for at, reading in enumerate(read) if reading), len(lines))
    lines = _alike_in_all(lines[:as_usual], contexts)
    chart = chart_of(lines, contexts[0], piece.worked, multiple, graded.pattern.sizes.names)
    if chart is not None and chart.shape == "oval" and not _says_the_same(lines[0].row, contexts):
        return None  # its chain is drawn as it is
    return chart


def chart_of(
    lines: list[Lined],
    context: SizeContext,
    worked: str,
    multiple: tuple[int, int] | None,
    names: tuple[str, ...],
) -> StitchChart | None:
    """The chart of these lines in one size; None where there is none."""
    if worked == "flat rows":
        return _over_chain(lines, context, multiple, names, "rows")
    around = _rounds(lines, context, names) or _oval(lines, context, names)
    return around or _over_chain(lines, context, multiple, names, "tube")


def _alike_in_all(lines: list[Lined], contexts: tuple[SizeContext, ...]) -> list[Lined]:
    """The first lines that say the same in every size, up to the first that repeats rows."""
    found: list[Lined] = []
    for lined in lines:
        row = lined.row
        if row.only is not None or lined.sizes is not None or row.body is None:
            break
        if not isinstance(row.body, WorkedRow) or row.body.until is not None:
            found.append(_without_count(lined))
            break
        if found and not _says_the_same(row, contexts):
            break
        found.append(_without_count(lined))
    return found


def _without_count(lined: Lined) -> Lined:
    """What a row states is of the piece, and not of the few stitches that are drawn."""
    return replace(lined, row=replace(lined.row, stated=None))


def _says_the_same(row: Row, contexts: tuple[SizeContext, ...]) -> bool:
    stated = row.stated
    for amount in row.amounts:
        if stated is not None and stated.start <= amount.start < stated.end:
            continue
        if len({context.amount(amount) for context in contexts}) > 1:
            return False
    return True


# --- pieces in flat rows, tubes ------------------------------------------------------------


def _over_chain(
    lines: list[Lined],
    context: SizeContext,
    multiple: tuple[int, int] | None,
    names: tuple[str, ...],
    shape: Shape,
) -> StitchChart | None:
    """The rows over a repeat or more beyond the shortest starting chain on which they come out."""
    if multiple is None or not 1 < multiple[0] <= WIDEST or not lines:
        return None
    if starting_chain(lines[0].row) is None:
        return None
    every, plus = multiple
    shortest = range(every + plus, every * _MOST_REPEATS + plus, every)
    known: Known = {}
    for chains in shortest:
        if piece_comes_out([_with_chain(lines[0], chains), *lines[1:]], context, names, known):
            wider = chains + every * max(1, -(-(_NARROWEST - chains) // every))
            behind = _counted([_with_chain(lines[0], wider), *lines[1:]], context, names)
            chart = StitchChart(rows=(), shape=shape, chains=wider, multiple=multiple)
            return None if behind is None else _chart(behind, context, chart)
    return None


def _with_chain(lined: Lined, number: int) -> Lined:
    """The first line with a starting chain of that length."""
    body, first = lined.row.body, starting_chain(lined.row)
    assert isinstance(body, WorkedRow)
    assert first is not None
    count = Amount((number,), start=first.count.start, end=first.count.end)
    chain = replace(first, count=count)
    steps = tuple(chain if one is first else one for one in body.steps)
    return replace(lined, row=replace(lined.row, body=replace(body, steps=steps)))


# --- pieces that begin in the middle -------------------------------------------------------


def _rounds(lines: list[Lined], context: SizeContext, names: tuple[str, ...]) -> StitchChart | None:
    behind = _counted(lines, context, names)
    chart = StitchChart(rows=(), shape="rounds", chains=0, multiple=None)
    return None if behind is None else _chart(behind, context, chart)


def _oval(lines: list[Lined], context: SizeContext, names: tuple[str, ...]) -> StitchChart | None:
    """Rounds about both sides of a starting chain."""
    behind = _counted(lines, context, names)
    empty = StitchChart(rows=(), shape="oval", chains=0, multiple=None)
    chart = None if behind is None else _chart(behind, context, empty)
    if chart is None:
        return None
    first = chart.rows[0].placed
    return replace(chart, chains=len(first.below) - first.again)


def _counted(
    lines: list[Lined], context: SizeContext, names: tuple[str, ...]
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
    worked: tuple[Worked, ...], context: SizeContext, chart: StitchChart
) -> StitchChart | None:
    """The chart with the first of these rows that can be drawn."""
    rows: list[ChartRow] = []
    stitches = 0
    for rows_alike in worked:
        below = rows_alike.below
        for at in range(min(rows_alike.times, len(rows_alike.lines))):
            line = rows_alike.line_at(at)
            after = work(line.facts, below, context, worked=rows_alike.how, choices=line.choices)
            if not after.is_row:
                below = after.fabric
                continue
            row = _row(line, below, context, rows_alike.how, rows, chart.shape)
            row = row and anchored(row, [Drawn(one.placed, one.turned) for one in rows])
            stitches += 0 if row is None else sum(map(_weight, row.stitches))
            if row is None or len(rows) == MOST_ROWS or stitches > MOST_STITCHES:
                return _whole(replace(chart, rows=tuple(rows)))
            number = rows_alike.first + at if rows_alike.first is not None else len(rows) + 1
            rows.append(ChartRow(number, row, after.fabric.turned, _changes_colour(line.row)))
            below = after.fabric
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
    if shape == "oval" and (_goes_otherwise(told) or (rows and rows[-1].turned)):
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


def _goes_otherwise(row: PlacedRow) -> bool:
    """Whether a round begins elsewhere than the one below it, or is worked back somewhere.

    "2 sc in same ch as first sc" comes round to its first place.
    """
    if any(one.what in MOVES for one in row.stitches):
        return True
    feet = [one.feet for one in row.stitches if one.feet]
    first = [one for one in row.stitches if one.what == "stitch" and one.feet][:1]
    while feet and first and feet[-1] == first[0].feet:
        feet.pop()
    along = [foot for each in feet for foot in each]
    return along != sorted(along)


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
            first = place if first is None else first
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
