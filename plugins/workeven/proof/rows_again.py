"""Lines that work earlier rows again: "rep Rows 2 and 3 …".

Takes     a line, and where a size stands.
Gives     ``repeat_rows``.
Problems  ``row-no-such-row``, ``row-no-such-place``, ``row-number``, ``row-past-length`` …
From      notation.md, "Whole pieces", "Whole-row words".
"""

from __future__ import annotations

from typing import assert_never

from workeven.notation.tree import (
    Amount,
    AsLong,
    FastenOff,
    Growth,
    Label,
    RepeatRows,
    Row,
    RowChange,
    RowsCount,
    RowsTimes,
    UntilCount,
    UntilMeasures,
)
from workeven.proof.again import Total, lines_meant, work_again
from workeven.proof.anew import begin_again
from workeven.proof.at_hand import (
    AtHand,
    InSize,
    check_stated,
    faults_of,
    no_rows,
    none_stated,
    remember,
    rows_entry,
)
from workeven.proof.context import Fault
from workeven.proof.growth import fewest_left, grown, shapes, with_one_run, with_other_turns
from workeven.proof.line import Line
from workeven.proof.numbering import compare_range, label_times, start_numbers
from workeven.proof.often import (
    bounded,
    fewest_rows,
    reached,
    rows_of,
    rows_to,
    stays,
    steps_of_count,
    until_count,
)
from workeven.proof.own_rows import open_rows
from workeven.proof.standing import Standing
from workeven.proof.stated import figures_of


def repeat_rows(line: AtHand, standing: Standing, body: RepeatRows) -> InSize:
    """``rep Rows 2 and 3 twice more``."""
    if body.then is not None:
        return _in_turn(line, standing, body)
    row, how = line.row, standing.how(line.lined)
    lines = lines_meant(standing, body.rows, len(row.text))
    if not lines:
        raise Fault(
            "row-no-such-row",
            0,
            len(row.text),
            "the range of rows that is repeated holds none",
            mend="Write the lower number first, as “rep Rows 2–5”.",
        )
    named = body.rows[0].first
    number = None if named is None else standing.context.amount(named)
    begin_again(standing, lines[0], number, row.text)
    faults = faults_of(standing, start_numbers(standing, row.label, flat=how == "flat rows"))
    labelled = label_times(row.label, standing.context)
    first, side = standing.number, standing.side
    figures = figures_of(row.stated, standing.context)
    total = Total()
    times = _times_of_again(line, standing, body, lines, labelled)
    if body.change is not None:
        lines = _changed(lines, body.change, times, standing, how)
    if times is None:
        done = _rows_before_ending(line, standing, body, lines)
        result, fault = work_again(standing, lines, done, how, total, figures)
        faults += () if fault is None else (fault,)
        following = lines[done % len(lines) :] + lines[: done % len(lines)]
        return open_rows(line, standing, following, result, first, total, faults)
    if labelled is not None:
        faults += faults_of(standing, compare_range(row.label, labelled, times))
    result, fault = work_again(standing, lines, times, how, total, figures)
    faults += () if fault is None else (fault,)
    if times == 0:
        faults = faults or none_stated(line, standing, figures)
        end = reached(standing, body.until, times, len(lines), asked=_asked(body))
        return InSize(no_rows(standing, first), faults, result, end)
    if fault is None and body.steps and any(isinstance(step, FastenOff) for step in body.steps):
        standing.turned = False
    told = standing.faulty and any(one.row is faulty for one in lines for faulty in standing.faulty)
    if result is not None and not faults and not told:
        faults = check_stated(line, standing, figures, result)
    remember(standing, row.label, lines, first, times)
    if body.in_all is not None and not faults:
        faults = faults_of(standing, _check_in_all(standing, body.in_all, len(row.text)))
    entry = rows_entry(standing, result, total, first, times, side, figures)
    end = reached(standing, body.until, times, len(lines), asked=_asked(body))
    return InSize(entry, faults, result, end)


def _check_in_all(standing: Standing, said: Amount, end: int) -> tuple[Fault, ...]:
    """``rep Row 2 six more times, giving 8 rows in all``: by the numbers, or from the first row."""
    wanted, number = standing.context.amount(said), standing.number
    if wanted is None or number is None or wanted in (number - 1, standing.rows):
        return ()
    fault = Fault(
        "row-number",
        said.start,
        end,
        f"there are {number - 1} rows then, and {wanted} are named",
        mend="Correct how often the rows are repeated, or the number of rows in all.",
    )
    return (fault,)


#: no piece changes a row from round to round more often
_MOST_CHANGED = 400


def _changed(
    lines: tuple[Line, ...],
    change: RowChange,
    times: int | None,
    standing: Standing,
    how: str,
) -> tuple[Line, ...]:
    """The row as it is worked each time, where each differs from the one before.

    ``having 6 more dc each row`` may say only what comes of the same row worked again.
    """
    if len(lines) > 1 and times is not None and isinstance(change, Growth):
        taken_in_turn = _grown_in_turn(lines, change, times)
        if taken_in_turn:
            return taken_in_turn
    if len(lines) != 1 or times is None:
        raise Fault(
            "row-not-understood",
            change.start,
            change.end,
            "how the rows change from one to the next is read only where a single row is worked "
            "so many times",
            mend="Write the rows out.",
        )
    if not isinstance(change, Growth):
        return grown(lines[0], change, times)
    makes = _gain_of(lines, change, times, standing, how)
    if makes == {change.count}:
        return lines
    if change.told:
        raise _untold(change) if not makes else _other_change(change, change.count, makes)
    if change.counted:
        return _changed_things(lines[0], change, times, makes)
    try:
        found = grown(lines[0], change, times)
    except Fault:
        if makes is None:
            raise
        raise _other_change(change, change.count, makes) from None
    if change.sts is not None:
        _check_change(change, change.sts, found, standing, how)
    return found


def _changed_things(
    line: Line, change: Growth, times: int, makes: set[int] | None
) -> tuple[Line, ...]:
    """The rows with more or fewer shells, loops: in the one step that works several of them."""
    found = with_one_run(line, change, times) or with_other_turns(line, change, times)
    if not found:
        raise _uncounted(change) if not makes else _other_change(change, change.count, makes)
    return found


def _gain_of(
    lines: tuple[Line, ...], change: Growth, times: int, standing: Standing, how: str
) -> set[int] | None:
    """By how many the rows differ, worked as they are; None where nothing is said of that."""
    if not (change.unit and change.each):
        return None
    return steps_of_count(standing, lines, min(times, _MOST_CHANGED), how, change.unit)


def _check_change(
    change: Growth, sts: Amount, lines: tuple[Line, ...], standing: Standing, how: str
) -> None:
    """The number in "cont to dec 6 sts each rnd" must be what the rows so worked come to."""
    said = standing.context.amount(sts)
    found = steps_of_count(standing, lines, min(len(lines), _MOST_CHANGED), how, "sts")
    if said is None or found is None or found == {said}:
        return
    raise _other_change(change, said, found)


def _grown_in_turn(lines: tuple[Line, ...], change: Growth, times: int) -> tuple[Line, ...]:
    """``rep Rnds 6 and 7 twice, with 2 more sc between incs on each inc rnd``: one of them grows.

    Empty where none or several of the rows shape.
    """
    shaped = [at for at, line in enumerate(lines) if shapes(line)]
    if len(shaped) != 1:
        return ()
    turns = -(-times // len(lines))
    larger = grown(lines[shaped[0]], change, turns)
    return tuple(
        larger[at // len(lines)] if at % len(lines) == shaped[0] else lines[at % len(lines)]
        for at in range(times)
    )


def _untold(change: Growth) -> Fault:
    """What each row is said to gain cannot be held against rows that do not come out."""
    return Fault(
        "row-not-understood",
        change.start,
        change.end,
        "what each row gains cannot be checked",
        mend="Mend the row that is repeated, or write the rows out.",
    )


def _uncounted(change: Growth) -> Fault:
    """More of what the rows have no count of, or of what only a part of each row has."""
    return Fault(
        "row-not-understood",
        change.start,
        change.end,
        "where in the row they are worked is not said",
        mend="Write the rows out.",
    )


def _other_change(change: Growth, said: int, found: set[int]) -> Fault:
    """Rows that grow or shrink by another number of stitches than is said."""
    listed = ", ".join(_more_or_less(one) for one in sorted(found))
    return Fault(
        "row-not-understood",
        change.start if change.sts is None else change.sts.start,
        change.end,
        f"each row so worked makes {listed}, and {_more_or_less(said)} are named",
        mend="Correct the number, or write the rows out.",
    )


def _more_or_less(number: int) -> str:
    """So many more, or fewer."""
    return f"{number} more" if number >= 0 else f"{-number} fewer"


def _in_turn(line: AtHand, standing: Standing, body: RepeatRows) -> InSize:
    """``rep Row 2 six times, then rep Row 3``: one part after the other."""
    row, how = line.row, standing.how(line.lined)
    faults = faults_of(standing, start_numbers(standing, row.label, flat=how == "flat rows"))
    labelled = label_times(row.label, standing.context)
    first, side = standing.number, standing.side
    figures = figures_of(row.stated, standing.context)
    total, worked = Total(), tuple[Line, ...]()
    result, fault, part = None, None, body
    while fault is None:
        lines = lines_meant(standing, part.rows, len(row.text))
        times = _times_of_again(line, standing, part, lines, None)
        many = len(lines) if times is None else times
        result, fault = work_again(standing, lines, many, how, total, figures)
        worked += tuple(lines[at % len(lines)] for at in range(many))
        if times is None:
            return open_rows(line, standing, lines, result, first, total, faults)
        if part.then is None:
            break
        part = part.then
    faults += () if fault is None else (fault,)
    if labelled is not None:
        faults += faults_of(standing, compare_range(row.label, labelled, len(worked)))
    if result is not None and not faults:
        faults = check_stated(line, standing, figures, result)
    remember(standing, row.label, worked, first, len(worked))
    entry = rows_entry(standing, result, total, first, len(worked), side, figures)
    return InSize(entry, faults, result)


def _asked(body: RepeatRows) -> bool:
    """Whether the text says with which row the repeat ends."""
    return body.ending is not None or body.ending_side is not None


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
            if body.ending is not None:
                times = _up_to_ending(line, standing, body, lines, 1, labelled)
            elif times % period and not _goes_on(line, standing, body):
                raise _no_whole_repeats(line.row, times, period)
        case RowsTimes(count=amount):
            times = _so_often(line, standing, body, lines, amount, labelled)
        case RowsCount():
            times = rows_of(standing, until, line.row)
        case UntilMeasures():
            ending = _ending_at(line, standing, body, lines)
            rows = rows_to(standing, until, period, ending, body.ending_side)
            if rows is None:
                return labelled
            times = rows
        case UntilCount():
            times = _until_so_many(line, standing, body, until, lines, labelled)
        case AsLong():
            return labelled
        case _:
            assert_never(until)
    return bounded(times, line.row)


def _until_so_many(
    line: AtHand,
    standing: Standing,
    body: RepeatRows,
    until: UntilCount,
    lines: tuple[Line, ...],
    labelled: int | None,
) -> int:
    """How many rows it takes until there are so many, and on to the row that it ends with."""
    how, period = standing.how(line.lined), len(lines)
    if body.change is not None:  # each row is another: as many as there may be
        most = fewest_left(lines[0], body.change, _MOST_CHANGED)
        lines = _changed(lines, body.change, most or 1, standing, how)
    changed = body.change is not None
    times = more = until_count(standing, until, lines, how, changed=changed)
    if labelled is not None and labelled > times:
        # "Rows 36-65: rep Rows 34 and 35 until 8 sc rem": the last may be an even row
        more = labelled
    elif (ending := _ending_at(line, standing, body, lines)) is not None:
        more = times + (ending - times + 1) % period
    return more if more > times and stays(standing, until, lines, (times, more), how) else times


def _so_often(
    line: AtHand,
    standing: Standing,
    body: RepeatRows,
    lines: tuple[Line, ...],
    count: Amount,
    labelled: int | None,
) -> int:
    """How many rows so many repeats are."""
    repeats = standing.context.amount(count) or 0
    if body.ending is None or not repeats:
        return repeats * len(lines)
    return _up_to_ending(line, standing, body, lines, repeats, labelled)


def _up_to_ending(
    line: AtHand,
    standing: Standing,
    body: RepeatRows,
    lines: tuple[Line, ...],
    repeats: int,
    labelled: int | None,
) -> int:
    """How many rows are worked where a number of repeats ends with one of their rows.

    ``rep Rows 4-15, ending with Row 13`` stops there. Where it may as well be a further repeat that
    stops there ("twice, ending with Row 2"), only the numbers of a label tell which.
    """
    period = len(lines)
    at = _ending_at(line, standing, body, lines)
    assert at is not None
    if at == period - 1 and labelled is None:
        return repeats * period
    ways = ((repeats - 1) * period + at + 1, repeats * period + at + 1)
    if labelled is not None:
        open_number = body.until is None
        if labelled in ways or (open_number and labelled % period == (at + 1) % period):
            return labelled
        raise _ends_elsewhere(line.row, labelled, lines)
    if repeats == 1 and at > 0:
        return ways[0]
    row = line.row
    raise Fault(
        "row-not-understood",
        0,
        len(row.text),
        f"whether {ways[0]} or {ways[1]} rows are worked is not said",
        mend="Write the whole repeats, and what is worked then: “rep Rows 2–4 once more, then "
        "rep Row 2”.",
    )


def _ends_elsewhere(row: Row, times: int, lines: tuple[Line, ...]) -> Fault:
    """A range of rows whose last is not the one that it is said to end with."""
    last = lines[(times - 1) % len(lines)].row.label
    named = "" if last is None else f": the last of them is worked as {_written(last)}"
    return Fault(
        "row-number",
        row.label.start if row.label else 0,
        row.label.end if row.label else 0,
        f"{times} rows do not end with the row that is named{named}",
        mend="Correct the range, or the row that it ends with.",
    )


def _written(label: Label) -> str:
    """A row as its label names it."""
    if label.name is not None:
        return f"“{label.name}”"
    number = label.first.values[0] if label.first is not None and label.first.values else None
    return f"{label.word or 'Row'} {number}" if number is not None else "another"


def _rows_before_ending(
    line: AtHand, standing: Standing, body: RepeatRows, lines: tuple[Line, ...]
) -> int:
    """Of an open number of rows the fewest that end as the text asks: what they leave is known."""
    ending = _ending_at(line, standing, body, lines)
    found = fewest_rows(standing, len(lines), ending, body.ending_side)
    return len(lines) if found is None else found


def _goes_on(line: AtHand, standing: Standing, body: RepeatRows) -> bool:
    """Whether a range begins right behind the rows that it repeats: it ends where it says.

    "Rows 4-50: rep Rows 2 and 3" works every even row as Row 2, and so the last.
    """
    label, last = line.row.label, body.rows[-1]
    amount = last.first if last.last is None else last.last
    if label is None or label.first is None or amount is None:
        return False
    first, behind = standing.context.amount(label.first), standing.context.amount(amount)
    return first is not None and behind is not None and first == behind + 1


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
