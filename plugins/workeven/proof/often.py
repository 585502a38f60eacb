"""How often rows are worked: so many times, up to a length, until there are so many stitches.

Takes     what a line says of it, and where a size stands.
Gives     ``times_of``, ``rows_to``, ``rows_of``, ``until_count``, ``steps_of_count``,
          ``bounded``, ``reached``.
Problems  ``row-past-length``, ``count-not-reached``, ``row-too-many``.
From      notation.md, "Whole pieces": "the number of rows is the nearest that the ending allows, a
          tie going up".

Worked example: the piece is 4 cm long, rows are 5 mm high, 30 cm are asked for: 52 rows. Where the
text asks to end with a WS row and the next one is RS, an even number: 52. For 30.2 cm, 52.4 rows
would be exact; 52 and 53 are whole, 52 the nearer.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import assert_never

from workeven.arithmetic.printing import print_cm
from workeven.notation.tree import (
    AsLong,
    Row,
    RowsCount,
    RowsTimes,
    RowsUntil,
    UntilCount,
    UntilMeasures,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import MOST_WORKINGS, Fault
from workeven.proof.fabric import tally
from workeven.proof.line import Line, Reached
from workeven.proof.progression import Cycle, last_cycle
from workeven.proof.row import RowCount
from workeven.proof.standing import Side, Standing, flipped
from workeven.proof.stated import counted

#: whether a number of rows ends as the text asks
Ends = Callable[[int], bool]


def times_of(
    standing: Standing,
    until: RowsUntil | None,
    row: Row,
    labelled: int | None,
    to_count: Callable[[UntilCount], int],
) -> int | None:
    """For how many rows a line stands; None where that is open.

    ``labelled``: as many as its label tells. ``to_count``: how often it is worked until there are
    so many stitches, which rows worked even and rows as written reach in ways of their own.
    """
    match until:
        case None:
            times = labelled if labelled is not None else 1
        case RowsCount() | RowsTimes():
            times = rows_of(standing, until, row)
        case UntilMeasures():
            rows = rows_to(standing, until)
            if rows is None:
                return labelled
            times = max(rows, 1)
        case UntilCount():
            times = to_count(until)
        case AsLong():
            return labelled
        case _:
            assert_never(until)
    return bounded(times, row)


def bounded(times: int, row: Row) -> int:
    """The number of rows, if a piece can have so many."""
    if times > MOST_WORKINGS:
        raise Fault(
            "row-too-many",
            0,
            len(row.text),
            f"it stands for {times} rows",
            mend=f"One line stands for at most {MOST_WORKINGS} rows.",
        )
    return times


def rows_of(standing: Standing, said: RowsCount | RowsTimes, row: Row) -> int:
    """A number of rows, less those before where they are among them."""
    count = standing.context.amount(said.count) or 0
    if isinstance(said, RowsTimes):
        return count + said.again
    if said.side is not None and not said.in_all:
        _check_side(standing, said, count, row)
    if not said.in_all:
        return count
    number = standing.number
    if number is None or number - 1 != standing.rows or count < standing.rows:
        there = "how many were worked before is open"
        if number is not None:
            there = f"{standing.rows} were worked before, and the next is Row {number}"
        raise Fault(
            "row-not-understood",
            said.count.start,
            len(row.text),
            f"{count} rows in all cannot be told off: {there}",
            mend="Say how many more rows are worked: “for 12 rows”.",
        )
    return count - standing.rows


def _check_side(standing: Standing, said: RowsCount, count: int, row: Row) -> None:
    """``work 4 rows even, ending with a WS row``: where the sides were told, it must be one."""
    assert said.side is not None
    if not standing.side_said or count < 1 or _ends(standing, 1, None, said.side)(count):
        return
    raise Fault(
        "row-side",
        said.count.start,
        len(row.text),
        f"the last of {count} rows is a {flipped(said.side, 1)} row",
        mend="Work one row more or fewer, or correct the side that it ends with.",
    )


# --- up to a length ------------------------------------------------------------------------


def rows_to(
    standing: Standing,
    until: UntilMeasures,
    period: int = 1,
    ending: int | None = None,
    side: Side | None = None,
) -> int | None:
    """Rows still to work until the length, the nearest that the ending allows, a tie going up.

    ``period`` rows are worked in turn, and ``ending`` is which of them has to be the last;
    ``side`` is the side that the last has to be on. None where no gauge says how high a row is.
    """
    height = standing.row_height
    there = standing.section_height() if until.section else standing.height()
    wanted = standing.context.length(until.length)
    if height is None or there is None:
        return None
    more = wanted - there
    nearest = _nearest_whole(more, height)
    if nearest < 0:
        raise Fault(
            "row-past-length",
            until.length.start,
            until.length.end,
            f"the piece is {print_cm(there)} long already and {print_cm(wanted)} is asked for",
            mend="Ask for a longer length, or work fewer rows before.",
        )
    side = side or until.side
    if ending is None and side is None:
        return nearest
    return _nearest(more / height, 2 * period + 2, _ends(standing, period, ending, side))


def _nearest_whole(length: Fraction, height: Fraction) -> int:
    """The whole number of rows nearest to a length, a tie going up."""
    twice = 2 * length.numerator * height.denominator
    row = length.denominator * height.numerator
    return (twice + row) // (2 * row)


def _nearest(exact: Fraction, reach: int, ends: Ends) -> int:
    around = range(max(int(exact) - reach, 0), int(exact) + reach + 1)
    return min(filter(ends, around), key=lambda rows: (abs(rows - exact), -rows))


def _ends(standing: Standing, period: int, ending: int | None, side: Side | None) -> Ends:
    def ends(rows: int) -> bool:
        if ending is not None and rows % period != (ending + 1) % period:
            return False
        if side is None:
            return True
        turns = rows - 1 if standing.turned else 0
        return rows > 0 and flipped(standing.side or "RS", turns) == side

    return ends


def open_to(standing: Standing, until: RowsUntil | None) -> int:
    """Of an open number of rows worked alike one that leaves the work on the side asked for."""
    side = until.side if isinstance(until, UntilMeasures) else None
    return fewest_rows(standing, 1, None, side) or 1


def fewest_rows(
    standing: Standing, period: int, ending: int | None, side: Side | None
) -> int | None:
    """The fewest rows with which it can end as the text asks, where their number stays open.

    Whole repeats where it asks nothing; None where no number of rows ends so.
    """
    if ending is None and side is None:
        return period
    ends = _ends(standing, period, ending, side)
    return next(filter(ends, range(1, 2 * period + 1)), None)


def reached(
    standing: Standing,
    until: RowsUntil | None,
    times: int,
    period: int = 0,
    *,
    asked: bool = True,
) -> Reached | None:
    """The length that ``times`` rows were worked up to, and what there then really is.

    ``period`` rows that stand above are repeated: they belong to it. ``asked``: the text says with
    which row it ends.
    """
    if not isinstance(until, UntilMeasures):
        return None
    height = standing.section_height() if until.section else standing.height()
    if height is None:
        return None
    formula = until.length.formula
    name = "" if formula is None else formula.text.strip()
    above = Fraction(0)
    if until.section and standing.row_height is not None:
        above = max(height - (times + period) * standing.row_height, above)
    return Reached(name, height, above, not asked and times % period != 0)


# --- until there are so many ---------------------------------------------------------------


def until_count(
    standing: Standing,
    until: UntilCount,
    lines: tuple[Line, ...],
    how: str,
    *,
    changed: bool = False,
) -> int:
    """How many rows, of these lines in turn, until there are so many stitches.

    ``changed``: each differs from the one before, and there are no more than these.
    """
    probe, unit = standing.copy(), until.stated.counts[0][1]
    now = 0
    if probe.fabric is not None:
        now = probe.fabric.sts if unit == "sts" else tally(probe.fabric.nodes).get(unit, 0)
    return _rows_until(probe, until, lines, how, now, once=changed)


def until_count_from(
    standing: Standing, until: UntilCount, line: Line, how: str, first: RowCount
) -> int:
    """The same for a row of its own, of which the first working is known."""
    probe = standing.copy()
    probe.fabric = first.fabric
    now = _made(first, until.stated.counts[0][1])
    return 1 if now is None else 1 + _rows_until(probe, until, (line,), how, now, worked=1)


def _rows_until(
    probe: Standing,
    until: UntilCount,
    lines: tuple[Line, ...],
    how: str,
    now: int,
    worked: int = 0,
    *,
    once: bool = False,
) -> int:
    """How many rows more, where so many were worked; cycles that are a progression are jumped.

    ``once``: the lines are no cycle.
    """
    amount, unit = until.stated.counts[0]
    wanted = probe.context.amount(amount) or 0
    times = 0
    before: Cycle | None = None
    while now != wanted and times < MOST_WORKINGS:
        cycle, began = Cycle(probe.fabric, []), now
        for line in lines:
            again = probe.work(line, how)
            after = _made(again, unit)
            if again.fault is not None or after is None or _passes(now, after, wanted):
                raise _never_reaches(until, wanted, unit, now, after)
            probe.fabric, now, times = again.fabric, after, times + 1
            cycle.rows.append(again)
            if now == wanted:
                return times
        if once or (now == began and worked + times > len(lines)):
            raise _never_reaches(until, wanted, unit, now, None)
        more = 0 if now == began else (wanted - now) // (now - began) - 1
        more = min(more, (MOST_WORKINGS - times) // len(lines))
        last = last_cycle(probe, lines, how, before, cycle, more) if before and more > 1 else None
        before = cycle
        if last is not None:
            result = last.last[-1]
            probe.fabric, now = result.fabric, _made(result, unit) or 0
            times, before = times + more * len(lines), None
    if now != wanted:
        raise _never_reaches(until, wanted, unit, now, None)
    return times


def steps_of_count(
    standing: Standing, lines: tuple[Line, ...], times: int, how: str, unit: str
) -> set[int] | None:
    """By how much a number of stitches changes from row to row; None where a row goes wrong."""
    probe = standing.copy()
    if probe.fabric is None:
        return None
    there = tally(probe.fabric.nodes).items()
    named = sum(number for name, number in there if unit in (name, kind_of(name).base))
    now = probe.fabric.sts if unit == "sts" else named or None
    found: set[int] = set()
    for at in range(times):
        again = probe.work(lines[at % len(lines)], how)
        after = _made(again, unit)
        if again.fault is not None or after is None:
            return None
        probe.fabric = again.fabric
        if now is not None:
            found.add(after - now)
        now = after
    return found


#: no repeat of rows goes on for longer at the count that it has reached
_MOST_EVEN = 12


def stays(
    standing: Standing, until: UntilCount, lines: tuple[Line, ...], rows: tuple[int, int], how: str
) -> bool:
    """Whether the count that is reached after the first number of rows lasts up to the second."""
    reached_after, last = rows
    if last - reached_after > min(_MOST_EVEN, len(lines) - 1):
        return False
    amount, unit = until.stated.counts[0]
    wanted = standing.context.amount(amount)
    probe = standing.copy()
    for at in range(last):
        again = probe.work(lines[at % len(lines)], how)
        if again.fault is not None or (at >= reached_after and _made(again, unit) != wanted):
            return False
        probe.fabric = again.fabric
    return True


def until_count_even(standing: Standing, until: UntilCount, result: RowCount) -> int:
    """The same for rows worked even, which change nothing."""
    amount, unit = until.stated.counts[0]
    wanted = standing.context.amount(amount) or 0
    now = _made(result, unit)
    if now != wanted:
        raise _never_reaches(until, wanted, unit, now, None)
    return 1


def _made(result: RowCount, unit: str) -> int | None:
    if unit == "sts":
        return result.sts
    return counted(unit, dict(result.makes), dict(result.groups)) or None


def _passes(now: int | None, after: int | None, wanted: int) -> bool:
    if now is None or after is None:
        return False
    return now < wanted < after or now > wanted > after


def _never_reaches(
    until: UntilCount, wanted: int, unit: str, now: int | None, after: int | None
) -> Fault:
    steps = f"it goes from {now} to {after}" if after is not None else f"it stays at {now}"
    return Fault(
        "count-not-reached",
        until.stated.start,
        until.stated.end,
        f"there are never {wanted} {unit}: {steps}",
        mend="Ask for a number that the rows do reach.",
        wanted=wanted,
    )
