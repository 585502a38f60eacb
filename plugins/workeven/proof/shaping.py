"""Shaping over many rows, each of them worked: "dec 1 st at each end every 4th row 6 times".

Takes     a line, and where a size stands.
Gives     ``shape_rows``, ``even_line``; ``leads_elsewhere``: whether it is sure not to come out.
Problems  ``row-no-such-place``, ``row-not-understood``, ``count-not-reached``, ``row-number`` …
From      notation.md, "Whole pieces": "Shaping over a length … becomes rows, each counted".

Of "every 4th row" the fourth row from here is shaped, of "next and every 4th row" the next one too;
"5 times" are then besides it, unless the stated count says that they are all.
The rows are put into the stitch of the row before, worked as ``S2tog, S in each st to last 2 sts,
S2tog`` at two ends; where no end is named the changes are spread evenly. Stitches that are left
unworked are passed with slip stitches where a row begins with them, and left where it ends.

Worked example: 30 sc, "dec 1 st at each end every other row 5 times": sc even, then a row of
decreases, and so on: ten rows, 30 − 2 × 5 = 20 sts.
"""

from __future__ import annotations

from workeven.notation.tree import (
    ONE,
    Amount,
    AnyStitch,
    Chain,
    CountsAs,
    Each,
    Evenly,
    First,
    Last,
    LeaveRest,
    Next,
    Row,
    RowsCount,
    ShapeRows,
    ShapeSpan,
    Step,
    Stitch,
    ToLast,
    Unplaced,
    UntilMeasures,
    Work,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.again import Total, work_again
from workeven.proof.at_hand import (
    AtHand,
    InSize,
    check_stated,
    faults_of,
    none_stated,
    remember,
    rows_entry,
)
from workeven.proof.context import Fault
from workeven.proof.fabric import Fabric, tally, turning_chain_of
from workeven.proof.line import Line, line_of
from workeven.proof.numbering import compare_range, label_times, start_numbers
from workeven.proof.often import bounded, reached, rows_to
from workeven.proof.standing import Standing
from workeven.proof.stated import figures_of

_ANY = (AnyStitch(),)


def shape_rows(line: AtHand, standing: Standing, body: ShapeRows) -> InSize:
    """All the rows of a shaping, one after the other, and those worked even behind it."""
    row, how = line.row, standing.how(line.lined)
    below = _stitches_below(standing, row)
    if body.change == "leave" and how != "flat rows":
        raise Fault(
            "row-no-such-place",
            0,
            len(row.text),
            "a round has no ends at which stitches could be left",
            mend="Work it in flat rows, or decrease.",
        )
    faults = faults_of(standing, start_numbers(standing, row.label, flat=how == "flat rows"))
    labelled = label_times(row.label, standing.context)
    first, side = standing.number, standing.side
    figures = figures_of(row.stated, standing.context)
    in_all = _in_all(standing, body)
    lines = _lines(standing, body, row, below, labelled if in_all is None else in_all, how)
    even = even_line(row, below)
    assert even is not None
    open_end = False
    total = Total()
    result, fault = work_again(standing, lines, len(lines), how, total, figures)
    more = _even_behind(standing, body)
    if in_all is not None:
        more = _rest_of(in_all, len(lines), row)
    if labelled is not None and more == 0 and _label_tells(body):
        more = max(labelled - len(lines), 0)
    if more is None:
        open_end, more = True, 1
    if fault is None and more:
        result, fault = work_again(standing, (even,), more, how, total, figures)
    faults += () if fault is None else (fault,)
    times = bounded(len(lines) + more, row)
    if not (open_end or faults):
        faults += faults_of(standing, compare_range(row.label, labelled, times))
    if not faults and result is None:
        faults = none_stated(line, standing, figures)
    elif result is not None and not faults:
        faults = check_stated(line, standing, figures, result)
    remember(standing, row.label, (*lines, *((even,) * more)), first, times)
    if open_end:
        standing.lose_count()
    standing.numbered = False  # whether the first row is shaped at once is read in both ways
    entry = rows_entry(standing, result, total, first, None if open_end else times, side, figures)
    return InSize(entry, faults, result, reached(standing, body.then, more))


def leads_elsewhere(line: AtHand, standing: Standing) -> bool:
    """Whether a shaping that says how often it is worked leads to other stitches than it states.

    Known without working its rows: each changes by as many. False is no promise that it comes out.
    """
    body, below = line.row.body, standing.fabric
    if not isinstance(body, ShapeRows) or below is None or not _says_how_often(body):
        return False
    try:
        figures = figures_of(line.row.stated, standing.context)
        each = _each(body, _change(standing, body))
        times = sum(standing.context.amount(one.times or ONE) or 0 for one in body.spans)
    except Fault:
        return False
    if figures is None or len(figures) != 1 or figures[0][0] != "sts":
        return False
    return times > 0 and figures[0][1] != below.sts + each * times


def _says_how_often(body: ShapeRows) -> bool:
    """Whether a shaping says by how much each row changes and how often, and needs no more."""
    if body.change == "leave" or body.count is None or body.places is not None:
        return False
    spans = body.spans
    return bool(spans) and all(one.times is not None and not one.first for one in spans)


def _each(body: ShapeRows, change: int) -> int:
    """How many stitches more each shaped row has, below 0 where it has fewer."""
    return change * (body.ends or 1) * (1 if body.change == "inc" else -1)


def _label_tells(body: ShapeRows) -> bool:
    """Whether only the label says how many rows there are: "Rows 1-26: dec … every 4th row"."""
    return body.until is None and all(span.times is None for span in body.spans)


def _stitches_below(standing: Standing, row: Row) -> Fabric:
    """What is shaped: stitches without spaces, whose shaping the text would have to say."""
    below = standing.fabric
    if below is None or not below.nodes or below.ring:
        raise Fault("row-no-such-place", 0, len(row.text), "nothing has been worked to be shaped")
    if even_line(row, below) is None:
        raise Fault(
            "row-not-understood",
            0,
            len(row.text),
            "how a pattern of spaces is shaped is not counted",
            mend="Write the rows of the shaping out.",
        )
    return below


# --- the rows ------------------------------------------------------------------------------


def even_line(row: Row, below: Fabric) -> Line | None:
    """A row worked even in the stitch of most places; None over spaces."""
    counts = tally(below.nodes)
    if not counts or any(name.endswith(" sp") for name in counts):
        return None
    return line_of(row, (*_turning_chain(below), Work((_stitch(below),), Each(_ANY))))


def _turning_chain(below: Fabric) -> tuple[Step, ...]:
    """The counted turning chain that every row begins with, if the row before has one."""
    chain = turning_chain_of(below.nodes)
    if chain is None:
        return ()
    return (Chain(Amount((chain.chains,)), CountsAs(((ONE, chain.base),))),)


def _stitch(below: Fabric) -> Stitch:
    counts: dict[str, int] = {}
    for name, number in tally(below.nodes).items():
        base = kind_of(name).base
        counts[base] = counts.get(base, 0) + number
    base = max(counts, key=lambda name: counts[name])
    return Stitch("sc" if base == "ch" else base)


def _lines(
    standing: Standing, body: ShapeRows, row: Row, below: Fabric, labelled: int | None, how: str
) -> tuple[Line, ...]:
    """What each row of the shaping works."""
    change = _change(standing, body)
    even = even_line(row, below)
    chain, stitch = _turning_chain(below), _stitch(below)
    shaped = line_of(row, _shaped(chain, stitch, body, change))
    other = shaped
    if body.ends == 1 and (how == "flat rows" or body.edge == "end"):
        other = line_of(row, (*chain, *_shaped_at_end(stitch, body, change)))
    assert even is not None
    found: list[Line] = []
    for span, times in _turns(standing, body, row, below.sts, change, labelled):
        if times:  # before they are made: a slip of the keyboard asks for millions
            bounded(len(found) + (span.first or span.every) + (times - 1) * span.every, row)
        for number in range(times):
            first = span.first if number == 0 else 0
            found.extend((even,) * ((first or span.every) - 1))
            found.append(other if _at_end(standing, body, len(found)) else shaped)
    return tuple(found)


def _at_end(standing: Standing, body: ShapeRows, rows: int) -> bool:
    """Whether the row after so many more is shaped at its end.

    A right-side row goes from the right edge to the left, for right-handers (common practice).
    """
    if body.edge in ("start", "end"):
        return body.edge == "end"
    return _is_right_side(standing, rows) == (body.edge == "left")


def _is_right_side(standing: Standing, rows: int) -> bool:
    """Whether the row that comes after so many more is a right-side row, turning after each."""
    if standing.side is not None:
        return (standing.side == "RS") == (rows % 2 == 0)
    return standing.number is None or (standing.number + rows) % 2 == 1


def _change(standing: Standing, body: ShapeRows) -> int:
    """By how many stitches at each end: as said, or as in the last row."""
    if body.count is not None:
        return (standing.context.amount(body.count) or 0) * _places(standing, body)
    now, before = standing.fabric, standing.grown_from
    return 0 if now is None or before is None else abs(now.sts - before.sts)


def _places(standing: Standing, body: ShapeRows) -> int:
    """In how many places of a row as many stitches change: at markers, or once."""
    if body.places is None:
        return 1
    return (standing.context.amount(body.places.markers) or 0) * body.places.sides


def _turns(
    standing: Standing, body: ShapeRows, row: Row, now: int, change: int, labelled: int | None
) -> list[tuple[ShapeSpan, int]]:
    """Each span with how often it is worked."""
    spans = body.spans or (ShapeSpan(1, None),)
    found: list[tuple[ShapeSpan, int]] = []
    each = _each(body, change)
    for span in spans:
        if span.times is not None:
            times = standing.context.amount(span.times) or 0
            times += span.first > 0 and not _all_told(standing, body, row, now + each * times)
        elif body.until is not None:
            done = now + each * sum(number for _, number in found)
            times = _until_reached(standing, body, done, each)
        elif labelled is not None and change:
            times = labelled // span.every
        else:
            raise Fault(
                "row-not-understood",
                0,
                len(row.text),
                "how often the row is shaped is not said",
                mend="Write “every 4th row 6 times”, or “until 40 sts rem”.",
            )
        found.append((span, times))
    return found


def _all_told(standing: Standing, body: ShapeRows, row: Row, after: int) -> bool:
    """Whether "next and every 4th row 5 times" means five in all: what is stated tells."""
    figures = figures_of(row.stated, standing.context)
    return len(body.spans) == 1 and figures == (("sts", after),)


def _until_reached(standing: Standing, body: ShapeRows, now: int, each: int) -> int:
    assert body.until is not None
    amount, _ = body.until.stated.counts[0]
    wanted = standing.context.amount(amount) or 0
    if wanted == now:
        return 0
    if each == 0 or (wanted - now) % each or (wanted - now) // each < 0:
        raise Fault(
            "count-not-reached",
            body.until.stated.start,
            body.until.stated.end,
            f"there are never {wanted} sts: it goes from {now} in steps of {abs(each)}",
            mend="Ask for a number that the rows do reach.",
            wanted=wanted,
        )
    return (wanted - now) // each


def _shaped(
    chain: tuple[Step, ...], stitch: Stitch, body: ShapeRows, change: int
) -> tuple[Step, ...]:
    """One shaped row: at two ends, at one, or spread evenly; ``chain``: a counted one before it."""
    count = Amount((change,))
    if body.change == "leave":
        return _left(chain, stitch, body, change)
    if body.ends == 0:
        return (*chain, Work((stitch,), Each(_ANY)), Evenly(body.change, count))
    two = Amount((2,))
    if body.change == "inc":
        changed = _increased(stitch, change, chain=bool(chain))
        end = Work((Stitch(stitch.name, two),), Last(_ANY, count, each=True))
        left = count
    else:
        together = Stitch(f"{stitch.name}2tog", legs=2)
        changed = (Work((together,), Unplaced(count)),)
        end = Work((together,), Unplaced(count))
        left = Amount((2 * change,))
    if body.ends == 1:
        return (*chain, *changed, Work((stitch,), Each(_ANY)))
    return (*chain, *changed, Work((stitch,), Each(_ANY, ToLast(left, _ANY))), end)


def _left(
    chain: tuple[Step, ...], stitch: Stitch, body: ShapeRows, change: int
) -> tuple[Step, ...]:
    """A row that leaves stitches where it begins, at both ends or at that one.

    A counted chain stands on the stitch that the last slip stitch is worked into.
    """
    across = change + (1 if chain and change else 0)
    head = (Work((Stitch("sl st"),), Next(_ANY, Amount((across,)), each=True)),) if change else ()
    if body.ends == 1:
        return (*head, *chain, Work((stitch,), Each(_ANY)))
    return (*head, *chain, *_to_the_left(stitch, change))


def _to_the_left(stitch: Stitch, change: int) -> tuple[Step, ...]:
    """Stitches up to those that are left at the end."""
    if not change:
        return (Work((stitch,), Each(_ANY)),)
    return (Work((stitch,), Each(_ANY, ToLast(Amount((change,)), _ANY))), LeaveRest())


def _increased(stitch: Stitch, change: int, *, chain: bool) -> tuple[Step, ...]:
    """Two stitches in each of the first; a counted chain is one of those in the very first."""
    two = Stitch(stitch.name, Amount((2,)))
    if not chain:
        return (Work((two,), First(_ANY, Amount((change,)), each=True)),)
    first = Work((stitch,), First(_ANY))
    if change == 1:
        return (first,)
    return (first, Work((two,), Next(_ANY, Amount((change - 1,)), each=True)))


def _shaped_at_end(stitch: Stitch, body: ShapeRows, change: int) -> tuple[Step, ...]:
    """A row shaped at its end: the edge that is shaped at the beginning of the other rows."""
    count, two = Amount((change,)), Amount((2,))
    if body.change == "leave":
        return _to_the_left(stitch, change)
    if body.change == "inc":
        end = Work((Stitch(stitch.name, two),), Last(_ANY, count, each=True))
        return (Work((stitch,), Each(_ANY, ToLast(count, _ANY))), end)
    end = Work((Stitch(f"{stitch.name}2tog", legs=2),), Unplaced(count))
    return (Work((stitch,), Each(_ANY, ToLast(Amount((2 * change,)), _ANY))), end)


def _in_all(standing: Standing, body: ShapeRows) -> int | None:
    """How many rows there are with the shaping, where the text says so by number."""
    if body.within and isinstance(body.then, RowsCount):
        return standing.context.amount(body.then.count)
    return None


def _rest_of(in_all: int, shaped: int, row: Row) -> int:
    """How many rows are left to be worked even."""
    if shaped > in_all:
        raise Fault(
            "row-past-length",
            0,
            len(row.text),
            f"the shaping takes {shaped} rows, and only {in_all} are worked",
            mend="Shape less often, or work more rows.",
        )
    return in_all - shaped


def _even_behind(standing: Standing, body: ShapeRows) -> int | None:
    """How many rows are worked even behind the shaping; None where that is open."""
    then = body.then
    if then is None:
        return 0
    if isinstance(then, UntilMeasures):
        rows = rows_to(standing, then)
        return None if rows is None else max(rows, 0)
    amount = getattr(then, "count", ONE)
    return standing.context.amount(amount) or 0
