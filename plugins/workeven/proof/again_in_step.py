"""One row worked again, as often as a line says, in all sizes in step.

Takes     a line (``AtHand``), and where all sizes stand (``Standing``, which it moves on).
Gives     ``again_in_step``: what the line becomes in each size; or None.
Problems  none: a line that asks for more, or does not come out in a size, is left to ``in_size``.
From      notation.md, "Whole pieces"; "Closed form": cost grows with the text of a row.

"rep last row 12 more times" over the places that the last row has left makes the same row each
time, so that one working tells all. As for a row of its own (``in_step``) all sizes are counted
first, while each still stands where it stood. It is a quick yes, which tests hold equal to the
walk size by size.

Worked example: over 40 dc "rep last row until piece measures 30 cm", where 12 cm are worked and a
row is 1 cm high: 18 rows of 40 dc, 720 dc in all.
"""

from __future__ import annotations

from workeven.notation.tree import FastenOff, RepeatRows, RowsCount, RowsTimes, UntilMeasures
from workeven.proof.again import lines_meant
from workeven.proof.at_hand import AtHand, InSize
from workeven.proof.context import MOST_WORKINGS, Fault
from workeven.proof.earlier import goes_on_along
from workeven.proof.line import Line, Reached
from workeven.proof.often import reached, rows_of, rows_to
from workeven.proof.proven import Counted, RowInSize
from workeven.proof.row import RowCount
from workeven.proof.standing import Standing
from workeven.proof.stated import compare, figures_of


def again_in_step(line: AtHand, body: RepeatRows, standings: list[Standing]) -> list[InSize] | None:
    """The line in all sizes, which move on behind it; None: each is to be looked at by itself."""
    for standing in standings:
        standing.enter(line.lined)
        if standing.unknown or standing.doubt or standing.faulty:
            return None
    try:
        again = _the_row(line, body, standings)
        how = standings[0].how(line.lined)
        counts = None if again is None else _counts(line, body, again, standings, how)
    except Fault:
        return None
    if again is None or counts is None:
        return None
    label = line.row.label
    name = "" if label is None else label.name or ""
    cut = any(isinstance(step, FastenOff) for step in body.steps)
    found = []
    for standing, (result, times, figures) in zip(standings, counts, strict=True):
        standing.come_to(how)
        standing.fresh, standing.side = False, standing.side or "RS"
        first, side = standing.number, standing.side
        standing.go_on(again, result)
        standing.pass_rows(times - 1)
        standing.turned = standing.turned and not cut
        standing.remember((again,), first, times, name)
        entry = RowInSize(
            first,
            None if first is None else first + times - 1,
            times,
            result.sts,
            result.makes,
            tuple([(kind, number * times) for kind, number in result.worked]),
            side,
            standing.height(),
            figures,
        )
        found.append(InSize(entry, (), result, _reached(standing, body, times)))
    return found


def _the_row(line: AtHand, body: RepeatRows, standings: list[Standing]) -> Line | None:
    """The row that is worked again, the same in all sizes."""
    length = len(line.row.text)
    again: Line | None = None
    for standing in standings:
        meant = lines_meant(standing, body.rows, length)
        if len(meant) != 1 or (again is not None and meant[0] is not again):
            return None
        again = meant[0]
    if again is None or getattr(again.row.body, "onto", None) is not None:
        return None
    return None if again.facts.along_rows or goes_on_along(again) else again


def _counts(
    line: AtHand, body: RepeatRows, again: Line, standings: list[Standing], how: str
) -> list[tuple[RowCount, int, Counted | None]] | None:
    """What each working gives in each size, how many there are, and what the line states there."""
    stated = line.row.stated
    found: list[tuple[RowCount, int, Counted | None]] = []
    for standing in standings:
        if standing.how(line.lined) != how:
            return None
        times = _times(line, body, standing)
        if times is None or not 0 < times <= MOST_WORKINGS:
            return None
        result = standing.work(again, how)
        if result.fault is not None or (times > 1 and result.fabric != standing.fabric):
            return None
        figures = None if stated is None else figures_of(stated, standing.context)
        if figures is not None and figures != result.makes:
            makes, groups = dict(result.makes), dict(result.groups)
            if compare(stated, figures, makes, groups, result.sts) is not None:
                return None
        found.append((result, times, figures))
    return found


def _times(line: AtHand, body: RepeatRows, standing: Standing) -> int | None:
    match body.until:
        case None:
            return 1
        case RowsTimes(count=amount):
            return standing.context.amount(amount)
        case RowsCount() as said:
            return rows_of(standing, said, line.row)
        case UntilMeasures() as until:
            return rows_to(standing, until)
        case _:
            return None


def _reached(standing: Standing, body: RepeatRows, times: int) -> Reached | None:
    if body.until is None:
        return None
    return reached(standing, body.until, times, 1, asked=False)
