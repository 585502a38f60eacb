"""Rows worked again: which rows are meant, and many workings of them in turn.

Takes     what a line says of earlier rows, and where a size stands.
Gives     ``lines_meant``, ``work_again``, ``reaching``, ``Total``.
Problems  ``row-no-such-row``.
From      notation.md, "Labels" (names, numbers), "Whole-row words", "When it does not come out"
          ("One mistake gives one message").

Where a cycle of repeated rows gives back the fabric that it began with, the cycles still to come
are alike: they are added up and not walked. So "rep last row 9999 more times" costs what "rep last
row once more" does.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from workeven.notation.tree import RowRef, WorkedRow
from workeven.proof.context import MOST_WORKINGS, Fault
from workeven.proof.earlier import goes_on_along, work_on_along
from workeven.proof.fabric import Fabric, tally
from workeven.proof.left import leaves_rest
from workeven.proof.line import Line, SizeFault
from workeven.proof.progression import Cycle, last_cycle
from workeven.proof.proven import Counted
from workeven.proof.reach import check_reach
from workeven.proof.row import RowCount, kept
from workeven.proof.standing import Standing, Worked
from workeven.proof.stated import as_stated

#: how many names of rows a message lists
_NAMES = 6
#: the word behind the name of a row
_ROW_BEHIND = re.compile(r"\s+(?:row|rnd|round)\Z")
_ROUND = re.compile(r"\brnd\b")


class Total:
    """Everything worked by the rows that one line stands for."""

    __slots__ = ("worked",)

    def __init__(self, worked: Counted = ()) -> None:
        self.worked: dict[str, int] = dict(worked)

    def add(self, worked: Counted, times: int = 1) -> None:
        """Add so many workings that are alike."""
        for name, number in worked:
            self.worked[name] = self.worked.get(name, 0) + number * times


# --- which rows are meant ------------------------------------------------------------------


def lines_meant(standing: Standing, refs: tuple[RowRef, ...], length: int) -> tuple[Line, ...]:
    """What the rows work that a line of ``length`` characters speaks of."""
    if len(refs) == 1:
        only, rows = refs[0], standing.worked_rows
        if only.name == "last" and only.first is None and rows is not None:
            return (rows.line_at(rows.times - 1),)
        return tuple(_meant(standing, only, length))
    return tuple(line for ref in refs for line in _meant(standing, ref, length))


def _meant(standing: Standing, ref: RowRef, length: int) -> list[Line]:
    if ref.name == "last":
        return _last(standing, ref, length)
    if ref.name is not None and ref.first is None:
        return [_named(standing, ref.name, length)]
    if ref.first is None:
        if standing.last is None:
            raise _no_row("there is no row before it to repeat", standing, length)
        return [standing.last]
    first = standing.context.amount(ref.first) or 0
    last = first if ref.last is None else (standing.context.amount(ref.last) or first)
    known = _numbers(standing) if ref.onward else None
    last = last if known is None else max(known[1], first)
    lines = []
    for number in range(first, min(last, first + MOST_WORKINGS) + 1):
        line = standing.line_of(number, None if ref.name is None else ref.name.casefold())
        if line is None:
            said = f"{ref.word} {number}" if ref.name is None else f"{ref.name} {ref.word} {number}"
            raise _no_row(f"{said} has not been worked yet", standing, length)
        lines.append(line)
    return lines


def _last(standing: Standing, ref: RowRef, length: int) -> list[Line]:
    count = 1 if ref.first is None else standing.context.amount(ref.first) or 1
    lines = standing.last_lines(count)
    if len(lines) < count:
        raise _no_row(f"there are only {len(lines)} rows before it", standing, length)
    return lines


def _named(standing: Standing, name: str, length: int) -> Line:
    wanted = _called(name)
    exact = standing.by_name.get(name)
    if exact is not None:
        return exact
    for known, line in standing.by_name.items():
        if _called(known) == wanted:
            return line
    alone = _ROW_BEHIND.sub("", wanted)
    for known, line in standing.by_name.items():  # "Next row (dec): …", then "rep dec row"
        if alone != wanted and _called(known) == alone:
            return line
    raise _no_row(f"no row before it is named “{name}”", standing, length)


def _called(name: str) -> str:
    """A name as it is compared: a round is a round in every spelling.

    >>> _called("Cuff Rnd")
    'cuff round'
    """
    return _ROUND.sub("round", name.casefold().strip())


def _no_row(detail: str, standing: Standing, length: int) -> Fault:
    names = ", ".join(f"“{name}”" for name in list(standing.by_name)[:_NAMES])
    numbers = _numbers(standing)
    there = []
    if numbers is not None:
        low, high = numbers
        there.append(f"row {low}" if low == high else f"rows {low} to {high}")
    if names:
        there.append(names)
    mend = f"Before it stand {' and '.join(there)}." if there else "Write the row out."
    return Fault("row-no-such-row", 0, length, detail, mend=mend)


def _numbers(standing: Standing) -> tuple[int, int] | None:
    """The lowest and the highest number of a row so far."""
    known = [(rows.first, rows.times) for rows in standing.stretches() if rows.first is not None]
    if not known:
        return None
    return min(first for first, _ in known), max(first + times - 1 for first, times in known)


# --- many workings -------------------------------------------------------------------------


def work_again(
    standing: Standing,
    lines: tuple[Line, ...],
    times: int,
    how: str,
    total: Total,
    stated: Counted | None = None,
) -> tuple[RowCount | None, SizeFault | None]:
    """Work lines in turn so many times; gives the last row, and its fault.

    ``stated`` is what the line that asks for it states.
    """
    if any(map(goes_on_along, lines)) and any(map(leaves_rest, lines)):
        return _wedges(standing, lines, times, how, total)
    return _in_turn(standing, lines, times, how, total, stated)


def _in_turn(
    standing: Standing,
    lines: tuple[Line, ...],
    times: int,
    how: str,
    total: Total,
    stated: Counted | None,
) -> tuple[RowCount | None, SizeFault | None]:
    """Lines in turn; cycles that are as the one before are added up, and not worked."""
    result: RowCount | None = None
    left, before, alike = times, None, _are_alike(lines)
    recent: list[Fabric | None] = []
    while left > 0:
        side, cycle = standing.side, Cycle(standing.fabric, [])
        for line in lines[:left]:
            below = standing.fabric
            if standing.faulty and any(line.row is row for row in standing.faulty):
                return _told_already(standing, line, left, stated), None
            result = _once_more(standing, line, how, recent)
            recent.append(below)
            cycle.rows.append(result)
            total.add(result.worked)
            standing.go_on(line, result)
            left -= 1
            if result.fault is not None:
                standing.pass_rows(left)
                return result, SizeFault(standing.context.index, result.fault, below, line)
        more, turns = left // len(lines), int(side != standing.side)
        if not more or not alike:
            continue
        if standing.fabric == cycle.start:
            # the cycles still to come are as this one was: they are added up, not worked
            for one in cycle.rows:
                total.add(one.worked, more)
            standing.pass_rows(more * len(lines), more * turns)
            left -= more * len(lines)
        elif before is not None and more > 1:
            last = last_cycle(standing, lines, how, before, cycle, more)
            if last is not None:
                for worked in last.worked:
                    total.add(worked)
                standing.pass_rows((more - 1) * len(lines), (more - 1) * turns)
                for line, result in zip(lines, last.last, strict=True):
                    standing.go_on(line, result)
                left -= more * len(lines)
        before = cycle
    return result, None


def _wedges(
    standing: Standing, lines: tuple[Line, ...], times: int, how: str, total: Total
) -> tuple[RowCount | None, SizeFault | None]:
    """Short rows, and behind them one that takes up what they left, over and over.

    Each row is one of those worked so far while the others are, so that it is known what they left.
    """
    before, result, fault = standing.worked_rows, None, None
    recent: list[Fabric | None] = []
    for at in range(times):
        line, below, number = lines[at % len(lines)], standing.fabric, standing.number
        _refuse_earlier(line)
        result = work_on_along(standing, line, how)
        so_far, standing.worked_rows = standing.worked_rows, before
        result = reaching(standing, line, result, recent)
        recent.append(below)
        total.add(result.worked)
        standing.go_on(line, result)
        standing.worked_rows = Worked(number, 1, (line,), so_far, below, how)
        if result.fault is not None:
            standing.pass_rows(times - at - 1)
            fault = SizeFault(standing.context.index, result.fault, below, line)
            break
    standing.worked_rows, standing.taken_up_within = before, True
    return result, fault


def _once_more(
    standing: Standing, line: Line, how: str, recent: Sequence[Fabric | None]
) -> RowCount:
    """One row worked again; ``recent``: what those before it were worked into."""
    _refuse_earlier(line)
    return reaching(standing, line, work_on_along(standing, line, how), recent)


def reaching(
    standing: Standing, line: Line, result: RowCount, recent: Sequence[Fabric | None] = ()
) -> RowCount:
    """The count of a row; with its fault where it reaches down to more than is there.

    ``recent`` is what the rows before it were worked into that are not among those worked so far.
    """
    fault = check_reach(standing, line, result, recent) if result.fault is None else None
    return result if fault is None else result._replace(fault=fault)


def _are_alike(lines: tuple[Line, ...]) -> bool:
    """Whether rows worked over the same places are the same, whatever stands beside them."""
    return not any(one.facts.along_rows or goes_on_along(one) for one in lines)


def _refuse_earlier(line: Line) -> None:
    """A row that was worked into an earlier one: into which it goes when repeated nobody says."""
    body = line.row.body
    if isinstance(body, WorkedRow) and body.onto is not None and body.onto.number is not None:
        where = line.row.text[body.onto.start : body.onto.end]
        raise Fault(
            "row-not-understood",
            0,
            0,
            f"the row that is repeated is worked into “{where}”",
            mend="Write it out with the row that it is now worked into.",
        )


def _told_already(standing: Standing, line: Line, rows: int, stated: Counted | None) -> RowCount:
    """A row that has its message is not told again: it leaves what is stated, or what is there."""
    fabric = standing.fabric if standing.fabric is not None else Fabric(())
    if stated is not None:
        other = as_stated(stated, fabric, tuple(tally(fabric.nodes).items()))
        fabric = fabric if other is None else other[0]
    left = kept(fabric)
    standing.go_on(line, left)
    standing.pass_rows(rows - 1)
    return left
