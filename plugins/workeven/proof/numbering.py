"""Row numbers, sides and ranges: what is written before a row's colon, held against what is worked.

Takes     the label of a row, and where a size stands.
Gives     ``start_numbers``, ``label_times``, ``compare_range``.
Problems  ``row-number``, ``row-side``.
From      notation.md, "Labels".
"""

from __future__ import annotations

import re

from workeven.notation.asides import names_part
from workeven.notation.tree import Foundation, Label
from workeven.proof.context import Fault, SizeContext
from workeven.proof.standing import Standing


def start_numbers(
    standing: Standing, label: Label | None, *, flat: bool, judged: bool = True
) -> tuple[Fault, ...]:
    """Hold a written number and side against the computed ones; the first written may set them.

    Not ``judged``: the row could not be counted, so that nobody knows.
    """
    if label is None:
        standing.fresh = False
        standing.side = standing.side or "RS"
        return ()
    faults = []
    if label.first is not None:
        written = standing.context.amount(label.first)
        if written is not None:
            faults.append(_check_number(standing, label, written, judged=judged))
    standing.fresh = False
    side = label.side
    said, standing.side_said = standing.side_said, standing.side_said or side is not None
    if standing.side is None:
        standing.side = side or "RS"
    if side is not None and side != standing.side:
        if flat and said and standing.onto is None:  # new yarn on a second side faces either way
            faults.append(_other_side(standing, label))
        standing.side = side
    return tuple(fault for fault in faults if fault is not None)


def _check_number(standing: Standing, label: Label, written: int, *, judged: bool) -> Fault | None:
    number = standing.number
    other = _other_word(standing, label)
    anew = standing.fresh or label.section or other
    restarts = anew and (written == 1 or standing.worked_rows is None)
    restarts = restarts or (other and written == _next_of(standing, label))
    # a second side that goes on from an earlier row has that row's next number
    restarts = restarts or (standing.onto is not None and written == standing.onto + 1)
    restarts = restarts or (written != number and written in _since_a_part_began(standing))
    if number is None or restarts or not standing.numbered:
        # behind a row that could not be counted a number is not judged
        standing.number, standing.numbered = written, True
        return None
    if written == standing.other_number:  # the text counts on from a number told already
        standing.number, standing.other_number = written, None
        return None
    if written == number or not judged:
        return None
    standing.other_number = written
    return Fault(
        "row-number",
        label.start,
        label.end,
        f"it is {label.word or 'row'} {number}",
        mend="Write the number that the row has, or none: row numbers are computed."
        + (" The first row of a section may be 1 again." if standing.fresh else ""),
        written=written,
        number=number,
    )


#: how many rows of a part are looked through for the one that it began with
_ROWS_OF_PART = 40


def _since_a_part_began(standing: Standing) -> tuple[int, ...]:
    """The numbers that a row may bear behind one that begins a part and has no number of its own.

    ``Back: sk next 5 sts, join yarn …`` is the first row of the back, or none of its numbers; so is
    one that is worked along the ends of rows.
    """
    rows = 0
    for stretch in standing.stretches():
        rows += stretch.times
        line = stretch.line_at(0)
        label = line.row.label
        numbered = label is not None and label.first is not None
        named = label is not None and label.name is not None and names_part(label.name)
        if not numbered and (named or (label is None and line.facts.along_rows)):
            return (rows + 1, 1) if rows == 1 else (rows + 1,)
        if rows > _ROWS_OF_PART:
            break
    return ()


#: a row with a name that stands before the first number (common practice)
_FOUNDATION = re.compile(
    r"\s*(?:foundation|base|set-?\s?up|preparation|preparatory|starting)\b", re.IGNORECASE
)


def _other_word(standing: Standing, label: Label) -> bool:
    """Whether rounds begin behind rows, or rows behind rounds, or behind a foundation row."""
    if standing.last is None:
        return False
    before = standing.last.row.label
    if before is None or before.word is None:
        made = standing.last.facts.written
        named = before is not None and _FOUNDATION.match(before.name or "") is not None
        first = named or any(isinstance(step, Foundation) for step in made)
        return standing.rows == 1 and first
    return label.word is not None and before.word != label.word


def _next_of(standing: Standing, label: Label) -> int | None:
    """The number behind the last round that the text has numbered, where rows came between."""
    for rows in standing.stretches():
        before = rows.line_at(0).row.label
        if before is not None and before.word == label.word and rows.first is not None:
            return rows.first + rows.times
    return None


def _other_side(standing: Standing, label: Label) -> Fault:
    return Fault(
        "row-side",
        label.start,
        label.end,
        f"it is a {standing.side} row",
        mend="Change the side, or say in the row before whether the work is turned.",
    )


def label_times(label: Label | None, context: SizeContext) -> int | None:
    """How many rows a range in the label stands for."""
    if label is None:
        return None
    if label.rows is not None:
        return context.amount(label.rows)
    if label.first is None or label.last is None:
        return None
    first, last = context.amount(label.first), context.amount(label.last)
    if first is None or last is None:
        return None
    if last < first:
        raise Fault(
            "row-number",
            label.start,
            label.end,
            f"the rows run from {first} to {last}, which is backwards",
            mend="Write the smaller number first.",
        )
    return last - first + 1


def compare_range(label: Label | None, labelled: int | None, times: int) -> tuple[Fault, ...]:
    """A range in the label and the words must stand for as many rows."""
    if labelled is None or label is None or labelled == times:
        return ()
    fault = Fault(
        "row-number",
        label.start,
        label.end,
        f"the label stands for {labelled} rows and the words for {times}",
        mend="Make the numbers of the label and the words agree.",
        labelled=labelled,
        times=times,
    )
    return (fault,)
