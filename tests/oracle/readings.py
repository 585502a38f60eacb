"""The policy of two readings: the default first, else the only other one that comes out.

Takes     a ``Piece`` and the ``Text`` of it, which knows what its words leave open.
Gives     ``expect``: counts by row and size, and the rows counted by another reading.
Problems  none: a row that comes out in no reading, or in several, keeps its fault.
From      notation.md, Two readings, Chains at the start, How repeats end.

What may be read in two ways: a ``ch 2`` before hdc, skipped chains before hdc, ``rep from * 4
times`` (five by the trade's usage, else four), a round whose last repeat is cut short in silence
because its start has done the repeat's last step, a flat row that stops early and is confirmed by
its stated count, a post stitch rows below without a skip beside it, that covers what is behind it
by default and may take up none. Left open here, because
the notation names a default and no more: other chains at the start that the text does not explain,
and rows that come out only when read otherwise in two places at once; and flat rows behind one
that has left stitches, which they may take up unsaid. There both an error and the advice count as
found.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, zip_longest

from tests.oracle.row_facts import kind_after
from tests.oracle.structure import (
    Again,
    Below,
    Chain,
    FromHook,
    Leave,
    Piece,
    Repeat,
    Row,
    Same,
    Skip,
    Standing,
    Start,
    Step,
    Stitches,
    Travel,
    Work,
)
from tests.oracle.texts import Doubt, Text
from tests.oracle.walker import Counts, Fabric, RowCount, first_fabrics, work_entry


@dataclass(frozen=True, slots=True)
class Expected:
    """Counts, the entries counted by another reading, and those that may be."""

    counts: Counts
    read: frozenset[int]
    may_read: frozenset[int]


def expect(piece: Piece, text: Text) -> Expected:
    """What the text should be counted as."""
    fabrics = first_fabrics(piece)
    rows = [
        replace(row, steps=_covered(row.steps)) if isinstance(row, Row) else row
        for row in piece.rows
    ]
    counts: Counts = []
    read, may_read = set(), set()
    for entry in range(len(rows)):
        whole = not any(fabric.broken for fabric in fabrics)
        after, row_counts = _try(rows, entry, fabrics)
        row = rows[entry]
        if whole and _faulty(row_counts):
            doubts = [doubt for doubt in text.doubts if doubt.entry == entry]
            others = _others(rows, entry, fabrics, doubts, piece.rows[entry])
            if [settled for _, settled in others] == [True] and not _is_open(rows[:entry], row):
                rows[entry] = others[0][0]
                after, row_counts = _try(rows, entry, fabrics)
                read.add(entry)
            elif (
                isinstance(row, Again)
                or _is_open(rows[:entry], row)
                or _counts_chains(row, fabrics)
                or not _all_settled(others)
            ):
                may_read.add(entry)
        fabrics = after
        counts.append(row_counts)
    return Expected(counts, frozenset(read), frozenset(may_read))


def _all_settled(others: list[tuple[Row, bool]]) -> bool:
    return all(settled for _, settled in others)


def _is_open(rows: Sequence[Row | Again], row: Row | Again) -> bool:
    """Whether a row has left stitches, which a later one may take up without a word.

    So is a row worked several times: written line by line, each line is read for itself.
    """
    if isinstance(row, Row) and row.times != 1:
        return True
    return any(
        isinstance(row, Row) and any(isinstance(s, Leave) for s in row.steps) for row in rows
    )


def _counts_chains(row: Row, fabrics: list[Fabric]) -> bool:
    """Whether a stated count may have taken chains for stitches: those below, or its own."""
    below = any(place.sort == "sp" for fabric in fabrics for place in fabric.left)
    return row.stated is not None and (below or any(_has_chain(step) for step in row.steps))


def _has_chain(step: Step) -> bool:
    if isinstance(step, Repeat):
        return any(_has_chain(part) for part in step.body)
    return isinstance(step, Chain)


def _faulty(counts: list[RowCount | None]) -> bool:
    return any(count is not None and count.fault for count in counts)


def _try(
    rows: list[Row | Again], entry: int, fabrics: list[Fabric]
) -> tuple[list[Fabric], list[RowCount | None]]:
    """An entry worked in every size, on copies of the fabrics."""
    after = [fabric.copy() for fabric in fabrics]
    return after, work_entry(rows, entry, after)


def _others(
    rows: list[Row | Again],
    entry: int,
    fabrics: list[Fabric],
    doubts: list[Doubt],
    written: Row | Again,
) -> list[tuple[Row, bool]]:
    """The other readings of a row that come out in every size, and whether each is settled."""
    row = rows[entry]
    if not isinstance(row, Row) or not isinstance(written, Row):
        return []
    flat = fabrics[0].worked == "flat rows"
    silent = [*(_stopping_early(row) if flat else _cut_short(row))]
    if written != row:
        silent.append(written)  # post stitches rows below that take up none
    found = []
    for some in _some_of(doubts):
        for ended in (row, *silent):
            other = ended
            for doubt in some:
                other = _read_otherwise(other, doubt)
            if other != row and _comes_out(rows, entry, fabrics, other):
                departures = len(some) + (ended != row)
                settled = departures == 1 and all(doubt.split for doubt in some)
                found.append((other, settled))
                break  # a row that comes out to its end is not cut short as well
    return found


def _some_of(doubts: list[Doubt]) -> Iterator[tuple[Doubt, ...]]:
    """Every choice of what is read otherwise."""
    for number in range(len(doubts) + 1):
        yield from combinations(doubts, number)


def _comes_out(rows: list[Row | Again], entry: int, fabrics: list[Fabric], other: Row) -> bool:
    trial = [*rows]
    trial[entry] = other
    return not _faulty(_try(trial, entry, fabrics)[1])


def _read_otherwise(row: Row, doubt: Doubt) -> Row:
    step = row.steps[doubt.index]
    other: Step
    match step:
        case Start(stands_for=stands_for):
            kind = "" if stands_for else kind_after(row.steps[doubt.index + 1])
            other = replace(step, stands_for=kind)
        case FromHook(content=(Stitches(kind=kind), *_), stands_for=stands_for):
            other = replace(step, stands_for="" if stands_for else kind)
        case Repeat(times=int(times)):
            other = replace(step, times=times - 1)
        case _:
            raise AssertionError(doubt, step)
    return replace(row, steps=(*row.steps[: doubt.index], other, *row.steps[doubt.index + 1 :]))


def _stopping_early(row: Row) -> Iterator[Row]:
    """A flat row that leaves its end, confirmed by the count it states.

    One that says it goes "across" does not stop early: its repeat is not whole.
    """
    across = any(isinstance(s, Repeat) and s.times is None and not s.but for s in row.steps)
    if row.stated is not None and not across:
        yield replace(row, steps=(*row.steps, Leave()))


def _cut_short(row: Row) -> Iterator[Row]:
    """The last repeat without what the start of the round has done of its end.

    A repeat of a single run has no end of its own that could have been done before.
    """
    for index, step in enumerate(row.steps):
        if not isinstance(step, Repeat) or step.times is not None or step.last is not None:
            continue
        if len(step.body) == 1:
            continue
        left = _left_to_do(row.steps[:index], step.body[-1])
        said = step.ending or not all(isinstance(rest, Chain) for rest in row.steps[index + 1 :])
        if left is not None and not said:
            cut = replace(step, last=(*step.body[:-1], *left), last_form="unsaid")
            yield replace(row, steps=(*row.steps[:index], cut, *row.steps[index + 1 :]))


def _covered(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """Post stitches rows below that cover what is behind them, where no skip is written."""
    covered: list[Step] = []
    for step, following in zip_longest(steps, steps[1:]):
        if isinstance(step, Below) and not isinstance(following, Skip):
            covered.append(Work((Stitches(step.kind),), step.count, deep=step.rows))
        elif isinstance(step, Repeat):
            last = None if step.last is None else _covered(step.last)
            covered.append(replace(step, body=_covered(step.body), last=last))
        else:
            covered.append(step)
    return tuple(covered)


def _left_to_do(start: tuple[Step, ...], last: Step) -> tuple[Step, ...] | None:
    """What the start has left of a repeat's last step; ``None`` when it has done nothing of it."""
    if not isinstance(last, Work) or len(last.content) != 1:
        return None
    part = last.content[0]
    if not isinstance(part, Stitches):
        return None
    done = 0
    for step in start:
        if isinstance(step, Start | Travel) and not getattr(step, "stands_for", ""):
            continue
        more = _of_kind(step, part.kind)
        if not more:
            return None
        done += more
    if part.number != 1 or last.count == done:
        return () if last.count in (1, done) and part.number in (1, done) else None
    if isinstance(last.count, int) and 0 < done < last.count:
        return (replace(last, count=last.count - done),)
    return None


def _of_kind(step: Step, kind: str) -> int:
    """How many stitches of one kind a step at the start makes."""
    match step:
        case Start(stands_for=made) | Standing(kind=made):
            return int(made == kind)
        case Same(content=(Stitches(kind=made, number=int(number)),)):
            return number if made == kind else 0
        case Work(content=(Stitches(kind=made, number=1),), count=int(count)):
            return count if made == kind else 0
        case _:
            return 0
