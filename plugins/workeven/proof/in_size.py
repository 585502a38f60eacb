"""One line of a piece in one size: a row as written, rows worked again, a change of working.

Takes     a line (``AtHand``), and where the size stands (``Standing``, which it moves on).
Gives     ``in_size``: what the line becomes there, with its faults.
Problems  those of ``own_rows`` and ``rows_again``.
From      notation.md, "Changing over", "When it does not come out" ("One mistake gives one
          message").
"""

from __future__ import annotations

from typing import assert_never

from workeven.notation.tree import (
    Chain,
    ChangeOver,
    MagicRing,
    RepeatEvery,
    RepeatRows,
    SecondSide,
    ShapeRows,
    WorkedRow,
    WorkEven,
)
from workeven.proof.alternate import check_way, fill, keep, with_filled, with_those_due
from workeven.proof.at_hand import AtHand, InSize, faults_of, no_rows
from workeven.proof.context import Fault
from workeven.proof.even import work_even
from workeven.proof.every import repeat_every
from workeven.proof.line import ABOUT_LABELS, Line
from workeven.proof.own_rows import UNCOUNTED, unread, worked_row
from workeven.proof.rows_again import repeat_rows
from workeven.proof.second_side import second_side
from workeven.proof.shaping import shape_rows
from workeven.proof.standing import Standing
from workeven.proof.stated import figures_of

_REPEATS = (RepeatRows, RepeatEvery, SecondSide, ShapeRows, WorkEven)


def in_size(line: AtHand, standing: Standing) -> InSize:
    """The line in one size, which moves on behind it."""
    try:
        doubted = standing.doubt
        standing.enter(line.lined)
        check_way(line)
        filled = fill(line, standing) if standing.alternate else None
        result = with_filled(filled, _in_size(line, standing))
        if line.row.label is not None and line.row.label.alternate:
            keep(line.row.label, standing, result)
        if standing.alternate:
            result = with_those_due(line, standing, result)
        if not (result.faults or doubted):
            return result
        return _judged(line, standing, result, doubted=doubted and standing.doubt)
    except Fault as fault:
        standing.numbered, standing.doubt = False, True  # what it leaves is not known
        standing.unknown = standing.unknown or fault.code in UNCOUNTED
        return InSize(no_rows(standing, _written(line)), faults_of(standing, (fault,)))


def _written(line: AtHand) -> int | None:
    """The number that a row bears, by which a maker finds it; None where it differs by size."""
    label = line.row.label
    first = None if label is None else label.first
    return first.values[0] if first is not None and len(first.values) == 1 else None


def _in_size(line: AtHand, standing: Standing) -> InSize:
    body = line.row.body
    if body is None or (standing.unknown and not _begins_anew(line.own)):
        return unread(line, standing)
    standing.unknown = False
    standing.come_to(standing.how(line.lined))
    match body:
        case WorkedRow():
            assert line.own is not None
            return worked_row(line, standing, body, line.own)
        case RepeatRows():
            return repeat_rows(line, standing, body)
        case RepeatEvery():
            return repeat_every(line, standing, body)
        case WorkEven():
            return work_even(line, standing, body)
        case ShapeRows():
            return shape_rows(line, standing, body)
        case SecondSide():
            return second_side(line, standing, body)
        case ChangeOver(worked=worked):
            standing.worked = worked
            return InSize(no_rows(standing, None), ())
        case _:
            assert_never(body)


def _begins_anew(own: Line | None) -> bool:
    """Whether a line needs nothing below it: a starting chain, a ring."""
    if own is None or own.facts.works:
        return False
    return any(isinstance(step, Chain | MagicRing) for step in own.facts.written)


# --- rows behind a row told wrong ----------------------------------------------------------


def _judged(line: AtHand, standing: Standing, result: InSize, *, doubted: bool) -> InSize:
    """Behind a row told wrong whose stitches are only guessed, later rows are not judged.

    Firm ground is reached again where a row comes out and its own stated count agrees.
    """
    wrong = tuple(one for one in result.faults if one.fault.code not in ABOUT_LABELS)
    if not doubted:
        guessed = bool(wrong) and not _known_stitches(line, standing, result)
        standing.doubt = standing.doubt or guessed
        if wrong and isinstance(line.row.body, _REPEATS):
            # how often it is worked may be what is wrong: neither numbers nor height can be judged
            standing.numbered, standing.section_rows = False, None
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
