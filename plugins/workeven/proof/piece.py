"""The rows of one piece, in order and in every size: numbers, repeats, heights, sides.

Takes     the lines of a piece and a ``SizeContext`` for each size.
Gives     ``PieceProof``: every line counted in every size.
Problems  ``row-uneven``, ``row-number``, ``row-side``, ``row-no-such-row``, ``row-past-length``,
          ``row-reading``, ``row-turning-chain``, ``gauge-no-rows`` … (wording in ``messages``).
From      notation.md, "Labels", "Whole pieces", "Two readings", "Turning unsaid".

Each size walks on its own fabric; a line is a ``Line``: the steps that one row works. Lines that
repeat earlier rows look up the lines of those rows by number or name, size by size, since row
numbers may differ by size. Where a cycle of repeated rows gives back the fabric it began with, the
cycles still to come are added up and not walked.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Literal, assert_never

from workeven.arithmetic.printing import print_cm
from workeven.notation.tree import (
    Chain,
    ChangeOver,
    FastenOff,
    IntoRing,
    Label,
    MagicRing,
    Repeat,
    RepeatRows,
    Row,
    RowBody,
    RowRef,
    RowsCount,
    RowsTimes,
    RowsUntil,
    Stated,
    Step,
    UntilCount,
    UntilMeasures,
    Work,
    WorkedRow,
    WorkEven,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import MOST_WORKINGS, Fault, SizeContext
from workeven.proof.fabric import Fabric, Run, reversed_nodes, stitch, tally
from workeven.proof.facts import Facts, facts_of
from workeven.proof.facts import works as rest_works
from workeven.proof.hook import Choices
from workeven.proof.proven import Counted, RowInSize
from workeven.proof.readings import readings
from workeven.proof.row import RowCount, against, work
from workeven.proof.stated import as_stated, counted

Side = Literal["RS", "WS"]


@dataclass(frozen=True, slots=True)
class Line:
    """What one row works, to be worked again by "rep Row 2". ``row`` is where it is written."""

    row: Row
    steps: tuple[Step, ...]
    facts: Facts
    choices: tuple[tuple[tuple[str, int], int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lined:
    """A row as a section gives it: how it is worked, its row gauge, the sizes that work it."""

    row: Row
    worked: str
    row_heights: tuple[Fraction | None, ...]
    sizes: tuple[int, ...] | None
    section: int


@dataclass(slots=True)
class SizeState:
    """Where one size stands in the piece: a plain, changing record inside this module."""

    context: SizeContext
    fabric: Fabric | None = None
    number: int | None = 1
    rows: int = 0
    height: Fraction | None = Fraction(0)
    section_height: Fraction | None = Fraction(0)
    side: Side | None = None
    turned: bool = True
    worked: str | None = None
    by_number: dict[int, Line] = field(default_factory=dict)
    by_name: dict[str, Line] = field(default_factory=dict)
    last: list[Line] = field(default_factory=list)
    section: int = -1
    fresh: bool = True
    unknown: bool = False
    numbered: bool = True
    other_number: int | None = None
    doubt: bool = False
    as_stated: tuple[Fabric, Counted] | None = None
    faulty: set[int] = field(default_factory=set)
    done: dict[tuple[object, ...], tuple[RowCount, Facts]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SizeFault:
    """A fault of one row in one size, with what was there before it."""

    size: int
    fault: Fault
    below: Fabric | None
    line: Line | None


@dataclass(frozen=True, slots=True)
class CountedLine:
    """One line of a piece in every size (None: not worked), its faults and its second reading."""

    lined: Lined
    per_size: tuple[RowInSize | None, ...]
    faults: tuple[SizeFault, ...]
    reading: tuple[str, str] | None
    defaulted: tuple[tuple[str, int], ...]
    measured: tuple[tuple[str, int, Fraction], ...]
    counts: tuple[RowCount | None, ...]


def count_piece(
    lines: Iterable[Lined],
    contexts: tuple[SizeContext, ...],
    names: tuple[str, ...],
    start: tuple[Fabric | None, ...],
    rows: int = 0,
) -> tuple[CountedLine, ...]:
    """Count every line of a piece in every size."""
    states = [
        SizeState(context, fabric=fabric, rows=rows)
        for context, fabric in zip(contexts, start, strict=True)
    ]
    found: list[CountedLine] = []
    ready = list(lines)
    for at, lined in enumerate(ready):
        following = ready[at + 1].row if at + 1 < len(ready) else None
        line = _Counter(lined, states, following, _only(lined.row, names)).count()
        if any(state.as_stated is not None for state in states):
            line = _count_on(line, states, ready[at + 1 :], names)
        found.append(line)
    return tuple(found)


#: faults of what is written before the colon: another mistake than one of the row itself
ABOUT_LABELS = ("row-number", "row-side")
#: faults of a number that cannot be had: nothing of the row can be counted, so nothing is guessed
_UNCOUNTED = frozenset(
    {"count-formula", "count-not-whole", "row-not-understood", "row-too-many", "size-list"}
)
#: how many lines are looked ahead to tell a wrong stated count from a wrong row
_AHEAD = 6


def _count_on(
    line: CountedLine, states: list[SizeState], ahead: list[Lined], names: tuple[str, ...]
) -> CountedLine:
    """Where a row makes another count than it states, choose the one to go on from.

    It is the one with which more of them come out; where they do not tell, what the row makes.
    """
    entries = list(line.per_size)
    for size, state in enumerate(states):
        other, state.as_stated = state.as_stated, None
        if other is None:
            continue
        fabric, makes = other
        if _lines_good(replace_fabric(state, fabric), ahead, names) > _lines_good(
            _copy(state), ahead, names
        ):
            state.fabric = fabric
            entry = entries[size]
            if entry is not None:
                entries[size] = replace(entry, sts=fabric.sts, makes=makes)
    return replace(line, per_size=tuple(entries))


def replace_fabric(state: SizeState, fabric: Fabric) -> SizeState:
    """A copy of a state that stands on another fabric."""
    copy = _copy(state)
    copy.fabric = fabric
    return copy


def _lines_good(state: SizeState, ahead: list[Lined], names: tuple[str, ...]) -> int:
    """How many of the next lines come out in this size, one after the other."""
    for number, lined in enumerate(ahead[:_AHEAD]):
        counter = _Counter(lined, [state], None, _only(lined.row, names))
        if counter.works(state):
            result = counter.in_size(state)
            if result.faults:
                return number
    return _AHEAD


@dataclass(slots=True)
class _Worked:
    """What one line became in one size."""

    entry: RowInSize | None
    faults: list[SizeFault]
    count: RowCount | None
    measured: tuple[str, Fraction] | None = None


def _only(row: Row, names: tuple[str, ...]) -> frozenset[int]:
    """The indexes of the sizes that "sizes S–L only:" names."""
    found: set[int] = set()
    for low, high in row.only or ():
        if low in names and high in names:
            found.update(range(names.index(low), names.index(high) + 1))
    return frozenset(found)


def _all_alike(
    good: list[tuple[tuple[str, str], list[_Worked | None], list[SizeState | None]]],
) -> bool:
    """Whether there is a reading that comes out, and no other gives other counts."""
    outcomes = [
        [None if result is None or result.entry is None else result.entry for result in tried]
        for _, tried, _ in good
    ]
    return bool(outcomes) and all(outcome == outcomes[0] for outcome in outcomes)


class _Counter:
    """Counts one line in all sizes."""

    def __init__(
        self,
        lined: Lined,
        states: list[SizeState],
        following: Row | None,
        only: frozenset[int],
    ) -> None:
        self.lined = lined
        self.row = lined.row
        self.states = states
        self.following = following
        self.only = only
        self.looked_through: dict[int, Facts] = {}

    def count(self) -> CountedLine:
        """The line in every size, by the default reading or by the only other that comes out."""
        active = [state if self.works(state) else None for state in self.states]
        saved = [None if state is None else _copy(state) for state in active]
        results = [self._in_size(state, {}) if state else None for state in active]
        reading: tuple[str, str] | None = None
        if any(result is not None and result.faults for result in results):
            other = self._other_reading(saved, results)
            if other is not None:
                reading, results, changed = other
                for at, new in enumerate(changed):
                    if new is not None:
                        self.states[at] = new
        return self._counted(results, reading)

    def _counted(
        self, results: list[_Worked | None], reading: tuple[str, str] | None
    ) -> CountedLine:
        defaulted: list[tuple[str, int]] = []
        for result in results:
            if result is not None and result.count is not None:
                defaulted.extend(one for one in result.count.defaulted if one not in defaulted)
        return CountedLine(
            self.lined,
            tuple(None if result is None else result.entry for result in results),
            tuple(fault for result in results if result is not None for fault in result.faults),
            reading,
            tuple(defaulted),
            tuple(
                (result.measured[0], size, result.measured[1])
                for size, result in enumerate(results)
                if result is not None and result.measured is not None
            ),
            tuple(None if result is None else result.count for result in results),
        )

    def works(self, state: SizeState) -> bool:
        """Whether a size works this line."""
        index = state.context.index
        if self.lined.sizes is not None and index not in self.lined.sizes:
            return False
        return self.row.only is None or index in self.only

    # --- readings --------------------------------------------------------------------------

    def _other_reading(
        self, saved: list[SizeState | None], results: list[_Worked | None]
    ) -> tuple[tuple[str, str], list[_Worked | None], list[SizeState | None]] | None:
        """The only other reading that comes out in every size, if there is just one."""
        points: dict[tuple[str, int], tuple[str, ...]] = {}
        for result in results:
            if result is not None and result.count is not None:
                points.update(dict(result.count.points))
        good = list(self._written_readings(saved))
        for point, ways in points.items():
            for number in range(1, len(ways)):
                states = [None if state is None else _copy(state) for state in saved]
                tried = [
                    self._in_size(state, {point: number}) if state else None for state in states
                ]
                if not any(result is not None and result.faults for result in tried):
                    good.append(((ways[0], ways[number]), tried, states))
        return good[0] if _all_alike(good) else None

    def _written_readings(
        self, saved: list[SizeState | None]
    ) -> Iterator[tuple[tuple[str, str], list[_Worked | None], list[SizeState | None]]]:
        """The readings that come out in every size, each with what was left unsaid put in."""
        body = self.row.body
        first = next((state for state in saved if state is not None), None)
        if not isinstance(body, WorkedRow) or first is None:
            return
        chain = first.fabric.turning_chain if first.fabric is not None else None
        for reading in readings(
            body.steps,
            worked=first.worked or self.lined.worked,
            stated=self.row.stated is not None,
            turning_chain=chain,
            turning_chains=first.context.turning_chains,
            special=first.context.special,
        ):
            other = _Counter(
                replace(self.lined, row=replace(self.row, body=replace(body, steps=reading.steps))),
                self.states,
                self.following,
                self.only,
            )
            states = [None if state is None else _copy(state) for state in saved]
            tried = [other._in_size(state, {}) if state else None for state in states]
            if not any(result is not None and result.faults for result in tried):
                yield (reading.default, reading.taken), tried, states

    # --- one size --------------------------------------------------------------------------

    def in_size(self, state: SizeState) -> _Worked:
        """The line in one size, by its default reading."""
        return self._in_size(state, {})

    def _in_size(self, state: SizeState, choices: Choices) -> _Worked:
        try:
            return self._in_doubt(state, self._work(state, choices))
        except Fault as fault:
            entry = _entry(state, state.fabric, (), 0, None, None)
            state.numbered = False
            state.unknown = state.unknown or fault.code in _UNCOUNTED
            return _Worked(entry, [self._fault(state, fault, state.fabric)], None)

    def _in_doubt(self, state: SizeState, result: _Worked) -> _Worked:
        """Behind a row told wrong whose stitches are only guessed, later rows are not judged.

        Firm ground is reached again where a row comes out and its own stated count agrees.
        """
        wrong = [one for one in result.faults if one.fault.code not in ABOUT_LABELS]
        if state.doubt:
            if not wrong and self.row.stated is not None and result.count is not None:
                state.doubt = False
            result.faults = [one for one in result.faults if one not in wrong]
        elif wrong:
            state.doubt = not self._known_stitches(state, result)
        return result

    def _known_stitches(self, state: SizeState, result: _Worked) -> bool:
        """Whether a faulty row leaves the stitches that it states."""
        if state.as_stated is not None:
            return True
        figures = self._stated_figures(state)
        if figures is None or len(figures) != 1 or state.fabric is None:
            return result.count is None
        return state.fabric.sts == figures[0][1] and not figures[0][0].endswith("sp")

    def _work(self, state: SizeState, choices: Choices) -> _Worked:
        self._enter_section(state)
        body = self.row.body
        if body is None or (state.unknown and not self._begins_anew(body)):
            return self._unread(state)
        state.unknown = False
        match body:
            case ChangeOver(worked=worked):
                state.worked = worked
                return _Worked(_entry(state, state.fabric, (), 0, None, None), [], None)
            case WorkedRow():
                return self._worked_row(state, body, choices)
            case RepeatRows():
                return self._repeat_rows(state, body)
            case WorkEven():
                return self._work_even(state, body)
            case _:
                assert_never(body)

    def _begins_anew(self, body: RowBody) -> bool:
        """Whether a line needs nothing below it: a starting chain, a ring."""
        return (
            isinstance(body, WorkedRow)
            and not rest_works(body.steps)
            and any(isinstance(step, Chain | MagicRing) for step in body.steps)
        )

    def _unread(self, state: SizeState) -> _Worked:
        """A row that is not understood, or stands on one: what it states is taken on trust.

        Nothing is guessed: without a stated count the rows after it stay uncounted until one
        states its stitches, and only the row that was not understood has a message.
        """
        self._start_numbers(state)
        state.numbered = False
        first, times = state.number, self._label_times(state) or 1
        self._skip_rows(state, times)
        figures = self._stated_figures(state)
        state.unknown = True
        if figures is not None and len(figures) == 1 and not figures[0][0].endswith(" sp"):
            unit, number = figures[0]
            name = kind_of(unit).base if unit != "sts" else "sc"
            if unit != "sp":
                closed = self._how(state) != "flat rows"
                state.fabric = Fabric(
                    (Run(stitch(name, name), number),), closed=closed, turned=True
                )
                state.unknown = False
                state.doubt = True  # other places may stand there too
        steps = self.row.body.steps if isinstance(self.row.body, WorkedRow) else None
        line = self._line_of(steps or ())
        self._remember(state, line, first, times)
        if not steps:
            state.faulty.add(id(self.row))  # it has its message: a repeat of it has none
        entry = RowInSize(
            first=first,
            last=None if first is None else first + times - 1,
            times=None if self.row.body is None else times,
            sts=None,
            makes=(),
            worked=(),
            side=state.side,
            height=state.height,
            stated=figures,
        )
        return _Worked(entry, [], None)

    def _enter_section(self, state: SizeState) -> None:
        if state.section != self.lined.section:
            state.section = self.lined.section
            state.section_height = Fraction(0)
            state.worked = None
            state.fresh = True

    def _how(self, state: SizeState) -> str:
        return state.worked or self.lined.worked

    def _fault(
        self, state: SizeState, fault: Fault, below: Fabric | None, line: Line | None = None
    ) -> SizeFault:
        return SizeFault(state.context.index, fault, below, line)

    # --- rows as written -------------------------------------------------------------------

    def _worked_row(self, state: SizeState, body: WorkedRow, choices: Choices) -> _Worked:
        state.worked = body.change or state.worked
        line = self._line_of(body.steps, tuple(choices.items()))
        below = state.fabric
        ranged = (self._label_times(state) or 1) > 1
        at_once = body.until is None and not ranged
        result = self._one(state, line, self.row.stated if at_once else None)
        if result.fabric.foundation and result.fabric.closed and self._ring_follows():
            fabric = result.fabric._replace(ring=True)
            result = result._replace(fabric=fabric, sts=0, makes=(("ring", 1),))
        faults = [] if result.fault is None else [self._fault(state, result.fault, below)]
        if result.fault is not None and result.fault.code in _UNCOUNTED:
            unread = self._unread(state)
            return _Worked(unread.entry, faults, result)
        if faults:
            state.faulty.add(id(self.row))
            state.as_stated = result.as_stated
        if not result.is_row:
            return self._chain_line(state, result, faults)
        self._start_numbers(state, faults)
        first, side = state.number, state.side
        times = self._times_of_row(state, body.until, result, faults)
        if times is None:
            return self._open_row(state, line, result, first, faults)
        total = _Total()
        self._advance(state, line, result, total)
        if times > 1 and not faults:
            last = self._again(state, (line,), times - 1, total, faults)
            result = last or result
            if self.row.stated is not None and not at_once and not faults:
                faults.extend(self._check_stated(state, result))
        elif times > 1:
            self._skip_rows(state, times - 1)
        self._remember(state, line, first, times)
        entry = self._row_entry(state, result, total, first, times, side)
        return _Worked(entry, faults, result, self._measured(state, body.until))

    def _ring_follows(self) -> bool:
        """Whether the next row works into the joined chain as a ring."""
        following = self.following
        return (
            following is not None
            and isinstance(following.body, WorkedRow)
            and _into_ring(following.body.steps)
        )

    def _chain_line(self, state: SizeState, result: RowCount, faults: list[SizeFault]) -> _Worked:
        """A line that only makes or joins a starting chain or ring has no number."""
        if result.fabric.foundation and state.fabric is not None and not state.by_number:
            state.rows = 0
        if result.fabric.foundation:
            state.fresh, state.doubt = True, False
        state.fabric = result.fabric
        label = self.row.label
        if label is not None and label.name is not None:
            state.by_name[label.name] = self._line_of(_steps_of(self.row))
        sts = result.sts
        entry = RowInSize(
            first=None,
            last=None,
            times=1,
            sts=sts,
            makes=result.makes or tuple(tally(result.fabric.nodes).items()),
            worked=result.worked,
            side=None,
            height=state.height,
            stated=result.stated,
        )
        return _Worked(entry, faults, result)

    def _line_of(
        self, steps: tuple[Step, ...], choices: tuple[tuple[tuple[str, int], int], ...] = ()
    ) -> Line:
        """What this row works; its steps are looked through once for all sizes."""
        known = self.looked_through.get(id(steps))
        if known is None:
            known = self.looked_through[id(steps)] = facts_of(steps)
        return Line(self.row, steps, known, choices)

    def _one(self, state: SizeState, line: Line, stated: Stated | None) -> RowCount:
        """One working of a row; the same row on the same fabric is worked only once."""
        how = self._how(state)
        rows = state.rows if line.facts.along_rows else 0
        key = (id(line.facts), state.fabric, how, rows, line.choices)
        known = state.done.get(key)
        if known is None:
            result = work(
                line.facts,
                state.fabric,
                state.context,
                worked=how,
                rows_below=rows,
                choices=dict(line.choices),
            )
            # what the key names by its identity is kept with it
            known = state.done[key] = (result, line.facts)
        return against(known[0], stated, state.context)

    def _check_stated(self, state: SizeState, result: RowCount) -> list[SizeFault]:
        stated = self.row.stated
        assert stated is not None
        faults = []
        for amount, unit in stated.counts:
            number = state.context.amount(amount)
            made = counted(unit, dict(result.makes), dict(result.groups))
            if unit == "sts":
                made = result.sts
            if number is not None and made != number:
                fault = Fault(
                    "count-stated",
                    stated.start,
                    stated.end,
                    f"{number} {unit} are stated and the row makes {made or 0}",
                    stated=number,
                    made=made or 0,
                )
                faults.append(self._fault(state, fault, state.fabric))
        figures = self._stated_figures(state)
        if faults and figures is not None:
            state.as_stated = as_stated(figures, result.fabric, result.makes)
        return faults[:1]

    # --- numbers ---------------------------------------------------------------------------

    def _start_numbers(self, state: SizeState, faults: list[SizeFault] | None = None) -> None:
        """Compare a written row number with the computed one; the first one written may set it."""
        label = self.row.label
        if label is None or label.first is None:
            state.fresh = False
            self._check_side(state, label, faults)
            return
        written = state.context.amount(label.first)
        if written is not None:
            restarts = state.fresh and (written == 1 or not state.by_number)
            if state.number is None or restarts or not state.numbered:
                # behind a row that could not be counted a number is not judged
                state.number, state.numbered = written, True
            elif written == state.other_number:
                state.number, state.other_number = written, None
            elif written != state.number and faults is not None:
                state.other_number = written
                fault = Fault(
                    "row-number",
                    label.start,
                    label.end,
                    f"it is {label.word} {state.number}",
                    mend="Write the number that the row has, or none: row numbers are computed.",
                    written=written,
                    number=state.number,
                )
                faults.append(self._fault(state, fault, state.fabric))
        state.fresh = False
        self._check_side(state, label, faults)

    def _check_side(
        self, state: SizeState, label: Label | None, faults: list[SizeFault] | None
    ) -> None:
        written = label.side if label is not None else None
        if state.side is None:
            state.side = written or "RS"
        elif written is not None and written != state.side:
            if faults is not None and label is not None and self._how(state) == "flat rows":
                fault = Fault(
                    "row-side",
                    label.start,
                    label.end,
                    f"it is a {state.side} row",
                    mend="Change the side, or say in the row before whether the work is turned.",
                )
                faults.append(self._fault(state, fault, state.fabric))
            state.side = written

    def _label_times(self, state: SizeState) -> int | None:
        """How many rows a range in the label stands for."""
        label = self.row.label
        if label is not None and label.rows is not None:
            return state.context.amount(label.rows)
        if label is None or label.first is None or label.last is None:
            return None
        first, last = state.context.amount(label.first), state.context.amount(label.last)
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

    # --- how often -------------------------------------------------------------------------

    def _times_of_row(
        self,
        state: SizeState,
        until: RowsUntil | None,
        result: RowCount,
        faults: list[SizeFault],
    ) -> int | None:
        labelled = self._label_times(state)
        match until:
            case None:
                times = labelled if labelled is not None else 1
            case RowsCount(count=amount) | RowsTimes(count=amount):
                times = state.context.amount(amount) or 0
            case UntilMeasures():
                rows = self._rows_to(state, until, 1, None, None)
                if rows is None:
                    return labelled
                times = max(rows, 1)
            case UntilCount():
                return self._until_count_row(state, until, result)
            case _:
                assert_never(until)
        self._compare_range(state, labelled, times, faults)
        return _bounded(times, self.row)

    def _compare_range(
        self, state: SizeState, labelled: int | None, times: int, faults: list[SizeFault]
    ) -> None:
        label = self.row.label
        if labelled is not None and label is not None and labelled != times:
            fault = Fault(
                "row-number",
                label.start,
                label.end,
                f"the label stands for {labelled} rows and the words for {times}",
                mend="Make the numbers of the label and the words agree.",
                written=labelled,
                number=times,
            )
            faults.append(self._fault(state, fault, state.fabric))

    def _until_count_row(self, state: SizeState, until: UntilCount, result: RowCount) -> int:
        wanted = state.context.amount(until.stated.counts[0][0]) or 0
        unit = until.stated.counts[0][1]
        copy = _copy(state)
        line = self._line_of(_steps_of(self.row))
        times, now = 1, _made(result, unit)
        copy.fabric = result.fabric
        while now is not None and now != wanted and times < MOST_WORKINGS:
            again = self._one(copy, line, None)
            after = _made(again, unit)
            if (
                again.fault is not None
                or after is None
                or after == now
                or _passes(now, after, wanted)
            ):
                raise _never_reaches(until, wanted, unit, now, after)
            copy.fabric, now, times = again.fabric, after, times + 1
        return times

    def _row_height(self, state: SizeState) -> Fraction | None:
        return self.lined.row_heights[state.context.index]

    def _rows_to(
        self,
        state: SizeState,
        until: UntilMeasures,
        period: int,
        ending: int | None,
        side: Side | None,
    ) -> int | None:
        """Rows still to work until the length, the nearest that the ending allows, a tie up."""
        height = self._row_height(state)
        there = state.section_height if until.section else state.height
        wanted = state.context.length(until.length)
        if height is None or there is None:
            return None
        more = wanted - there
        if more * 2 < -height:
            raise Fault(
                "row-past-length",
                until.length.start,
                until.length.end,
                f"the piece is {_cm(there)} long already and {_cm(wanted)} is asked for",
                mend="Ask for a longer length, or work fewer rows before.",
            )
        exact = more / height
        allowed = [
            rows
            for rows in range(max(int(exact) - 2 * period - 2, 0), int(exact) + 2 * period + 3)
            if self._ends_right(state, rows, period, ending, side)
        ]
        return min(allowed, key=lambda rows: (abs(rows - exact), -rows))

    def _ends_right(
        self, state: SizeState, rows: int, period: int, ending: int | None, side: Side | None
    ) -> bool:
        if ending is not None and rows % period != (ending + 1) % period:
            return False
        if side is not None:
            flips = rows - 1 if state.turned else 0
            return rows > 0 and _flipped(state.side or "RS", flips) == side
        return True

    def _measured(self, state: SizeState, until: RowsUntil | None) -> tuple[str, Fraction] | None:
        """The measurement that this row brings about, and what the piece then really measures."""
        if not isinstance(until, UntilMeasures) or until.length.formula is None:
            return None
        name = until.length.formula.text.strip()
        height = state.section_height if until.section else state.height
        if height is None or name not in state.context.measurements:
            return None
        return name, height

    # --- rows repeated ---------------------------------------------------------------------

    def _repeat_rows(self, state: SizeState, body: RepeatRows) -> _Worked:
        lines = self._lines(state, body.rows)
        faults: list[SizeFault] = []
        self._start_numbers(state, faults)
        first = state.number
        times = self._times_of_repeat(state, body, lines, faults)
        if times is None:
            return self._open_rows(state, lines, first, faults)
        total = _Total()
        side = state.side
        result = self._again(state, lines, times, total, faults, ending=body.steps)
        if times == 0:
            entry = _entry(state, state.fabric, (), 0, first, None)
            return _Worked(entry, faults, result, self._measured(state, body.until))
        known = any(id(line.row) in state.faulty for line in lines)
        if self.row.stated is not None and result is not None and not faults and not known:
            faults.extend(self._check_stated(state, result))
        worked = tuple(lines[at % len(lines)] for at in range(min(times, len(lines) * 2)))
        self._remember_all(state, lines, first, times)
        state.last = [worked[(times - 1) % len(lines)]] if worked else state.last
        entry = self._row_entry(state, result, total, first, times, side)
        return _Worked(entry, faults, result, self._measured(state, body.until))

    def _times_of_repeat(
        self,
        state: SizeState,
        body: RepeatRows,
        lines: tuple[Line, ...],
        faults: list[SizeFault],
    ) -> int | None:
        labelled = self._label_times(state)
        period = len(lines)
        until = body.until
        match until:
            case None:
                times = labelled if labelled is not None else period
            case RowsTimes(count=amount):
                times = (state.context.amount(amount) or 0) * period
            case RowsCount(count=amount):
                times = state.context.amount(amount) or 0
            case UntilMeasures():
                ending = self._ending_at(state, body, lines)
                rows = self._rows_to(state, until, period, ending, body.ending_side)
                if rows is None:
                    return labelled
                times = rows
            case UntilCount():
                times = self._until_count(state, until, lines)
            case _:
                assert_never(until)
        self._compare_range(state, labelled, times, faults)
        if until is None and labelled is not None and labelled % period and body.ending is None:
            raise Fault(
                "row-number",
                self.row.label.start if self.row.label else 0,
                self.row.label.end if self.row.label else 0,
                f"{labelled} rows are no whole number of repeats of {period} rows",
                mend="Make the range a whole number of repeats, or say with which row it ends.",
            )
        return _bounded(times, self.row)

    def _ending_at(self, state: SizeState, body: RepeatRows, lines: tuple[Line, ...]) -> int | None:
        """The position, among the repeated rows, of the row that the text asks to end with."""
        if body.ending is None:
            return None
        wanted = self._lines(state, (body.ending,))[0]
        for at, line in enumerate(lines):
            if line.row is wanted.row:
                return at
        raise Fault(
            "row-no-such-row",
            0,
            len(self.row.text),
            "the row to end with is not among the rows that are repeated",
            mend="End with one of the repeated rows.",
        )

    def _until_count(self, state: SizeState, until: UntilCount, lines: tuple[Line, ...]) -> int:
        wanted = state.context.amount(until.stated.counts[0][0]) or 0
        unit = until.stated.counts[0][1]
        copy = _copy(state)
        times, now = 0, None
        if copy.fabric is not None:
            now = copy.fabric.sts if unit == "sts" else tally(copy.fabric.nodes).get(unit, 0)
        while now != wanted and times < MOST_WORKINGS:
            again = self._one(copy, lines[times % len(lines)], None)
            after = _made(again, unit)
            stuck = times >= len(lines) and after == now
            if again.fault is not None or after is None or stuck or _passes(now, after, wanted):
                raise _never_reaches(until, wanted, unit, now, after)
            copy.fabric, now, times = again.fabric, after, times + 1
        return times

    def _lines(self, state: SizeState, refs: tuple[RowRef, ...]) -> tuple[Line, ...]:
        found: list[Line] = []
        for ref in refs:
            found.extend(self._line(state, ref))
        return tuple(found)

    def _line(self, state: SizeState, ref: RowRef) -> list[Line]:
        if ref.name == "last":
            return self._last_lines(state, ref)
        if ref.name is not None:
            return [self._named(state, ref.name)]
        if ref.first is None:
            if not state.last:
                raise self._no_row("there is no row before it to repeat", state)
            return [state.last[-1]]
        first = state.context.amount(ref.first) or 0
        last = first if ref.last is None else (state.context.amount(ref.last) or first)
        lines = []
        for number in range(first, min(last, first + MOST_WORKINGS) + 1):
            if number not in state.by_number:
                raise self._no_row(f"{ref.word} {number} has not been worked yet", state)
            lines.append(state.by_number[number])
        return lines

    def _last_lines(self, state: SizeState, ref: RowRef) -> list[Line]:
        count = state.context.amount(ref.first) if ref.first is not None else 1
        numbers = sorted(state.by_number)[-(count or 1) :]
        if len(numbers) < (count or 1):
            raise self._no_row(f"there are only {len(numbers)} rows before it", state)
        return [state.by_number[number] for number in numbers]

    def _named(self, state: SizeState, name: str) -> Line:
        wanted = name.casefold().strip()
        for known, line in state.by_name.items():
            if known.casefold() == wanted:
                return line
        raise self._no_row(f"no row before it is named “{name}”", state)

    def _no_row(self, detail: str, state: SizeState) -> Fault:
        names = ", ".join(f"“{name}”" for name in list(state.by_name)[:6])
        numbers = sorted(state.by_number)
        there = []
        if numbers:
            there.append(
                f"rows {numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else f"row {numbers[0]}"
            )
        if names:
            there.append(names)
        mend = f"Before it stand {' and '.join(there)}." if there else "Write the row out."
        return Fault("row-no-such-row", 0, len(self.row.text), detail, mend=mend)

    def _again(
        self,
        state: SizeState,
        lines: tuple[Line, ...],
        times: int,
        total: _Total,
        faults: list[SizeFault],
        ending: tuple[Step, ...] = (),
    ) -> RowCount | None:
        """Work lines in turn so many times; cycles that give back their fabric are added up."""
        result: RowCount | None = None
        done = 0
        mark: tuple[Fabric | None, Counted, Side | None, bool] | None = None
        before: dict[str, int] = {}
        while done < times:
            if done % len(lines) == 0:
                now = (state.fabric, result.makes if result else (), state.side, state.turned)
                cycles = (times - done) // len(lines)
                same = mark is not None and mark[:2] == now[:2]
                if same and result is not None and cycles > 1:
                    done += self._add_up(state, lines, cycles, total, before)
                    continue
                mark, before = now, dict(total.worked)
            line = lines[done % len(lines)]
            below = state.fabric
            result = self._one(state, line, None)
            if id(line.row) in state.faulty:
                return self._again_faulty(state, line, below, times - done, total)
            if result.fault is not None:
                faults.append(self._fault(state, result.fault, below, line))
                self._advance(state, line, result, total)
                self._skip_rows(state, times - done - 1)
                return result
            self._advance(state, line, result, total)
            done += 1
        if ending and result is not None:
            state.turned = state.turned and not any(isinstance(step, FastenOff) for step in ending)
        return result

    def _again_faulty(
        self, state: SizeState, line: Line, below: Fabric | None, rows: int, total: _Total
    ) -> RowCount:
        """A row that has its message already is not told again: it keeps what is there."""
        fabric = below if below is not None else Fabric(())
        figures = self._stated_figures(state)
        if figures is not None:
            stated = as_stated(figures, fabric, tuple(tally(fabric.nodes).items()))
            fabric = fabric if stated is None else stated[0]
        kept = RowCount(
            fabric=fabric,
            sts=fabric.sts,
            makes=tuple(tally(fabric.nodes).items()),
            worked=(),
            stated=None,
            fault=None,
            points=(),
            defaulted=(),
            is_row=True,
        )
        self._advance(state, line, kept, total)
        self._skip_rows(state, rows - 1)
        return kept

    def _add_up(
        self,
        state: SizeState,
        lines: tuple[Line, ...],
        cycles: int,
        total: _Total,
        before: dict[str, int],
    ) -> int:
        """All cycles to come but the last one, without walking them."""
        jumped = cycles - 1
        rows = jumped * len(lines)
        for name, number in list(total.worked.items()):
            total.worked[name] = number + (number - before.get(name, 0)) * jumped
        self._skip_rows(state, rows)
        return rows

    def _work_even(self, state: SizeState, body: WorkEven) -> _Worked:
        """``work even``: every place again, each with its own stitch."""
        below = state.fabric
        if below is None or not below.nodes:
            raise Fault(
                "row-no-such-place",
                0,
                len(self.row.text),
                "nothing has been worked that could go on",
            )
        faults: list[SizeFault] = []
        self._start_numbers(state, faults)
        first, side = state.number, state.side
        makes = tuple(tally(below.nodes).items())
        result = RowCount(
            fabric=below,
            sts=below.sts,
            makes=makes,
            worked=tuple((kind_of(name).base, number) for name, number in makes),
            stated=None,
            fault=None,
            points=(),
            defaulted=(),
            is_row=True,
        )
        times = self._times_of_row(state, body.until, result, faults)
        total = _Total()
        if times is None:
            state.number = None
            return _Worked(self._row_entry(state, result, total, first, None, side), faults, result)
        for _ in range(2 if times > 1 else times):
            total.add(result)
        if times > 2:  # noqa: PLR2004, the first two are added above
            total.worked = {name: number // 2 * times for name, number in total.worked.items()}
        state.turned = self._how(state) in ("flat rows", "joined rounds, turned")
        if state.turned and times % 2:
            state.fabric = below._replace(nodes=reversed_nodes(below.nodes), turned=True)
        self._skip_rows(state, times)
        if self.row.stated is not None:
            faults.extend(self._check_stated(state, result))
        entry = self._row_entry(state, result, total, first, times, side)
        return _Worked(entry, faults, result, self._measured(state, body.until))

    # --- open numbers of rows --------------------------------------------------------------

    def _open_row(
        self,
        state: SizeState,
        line: Line,
        result: RowCount,
        first: int | None,
        faults: list[SizeFault],
    ) -> _Worked:
        total = _Total()
        self._advance(state, line, result, total)
        return self._open(state, (line,), result, first, faults, total)

    def _open_rows(
        self,
        state: SizeState,
        lines: tuple[Line, ...],
        first: int | None,
        faults: list[SizeFault],
    ) -> _Worked:
        total = _Total()
        result = self._again(state, lines, len(lines), total, faults)
        return self._open(state, lines, result, first, faults, total)

    def _open(
        self,
        state: SizeState,
        lines: tuple[Line, ...],
        result: RowCount | None,
        first: int | None,
        faults: list[SizeFault],
        total: _Total,
    ) -> _Worked:
        """A number of rows that is not known: the counts are, where they stay the same."""
        copy = _copy(state)
        again = self._again(copy, lines, len(lines), _Total(), [])
        steady = result is not None and again is not None and again.makes == result.makes
        self._remember_all(state, lines, first, len(lines))
        state.number, state.height, state.section_height = None, None, None
        state.last = [lines[-1]]
        entry = RowInSize(
            first=first,
            last=None,
            times=None,
            sts=result.sts if steady and result else None,
            makes=result.makes if steady and result else (),
            worked=tuple(total.worked.items()),
            side=state.side,
            height=None,
            stated=result.stated if result else None,
        )
        if self.row.stated is not None and steady and result is not None:
            faults.extend(self._check_stated(state, result))
        return _Worked(entry, faults, result)

    # --- moving on -------------------------------------------------------------------------

    def _advance(self, state: SizeState, line: Line, result: RowCount, total: _Total) -> None:
        total.add(result)
        state.fabric = result.fabric
        state.turned = result.fabric.turned
        self._skip_rows(state, 1)
        state.last = [line]

    def _skip_rows(self, state: SizeState, rows: int) -> None:
        if rows <= 0:
            return
        height = self._row_height(state)
        state.rows += rows
        if state.other_number is not None:
            state.other_number += rows
        if state.side is not None and state.turned:
            state.side = _flipped(state.side, rows)
        state.number = None if state.number is None else state.number + rows
        state.height = _plus(state.height, height, rows)
        state.section_height = _plus(state.section_height, height, rows)

    def _remember(self, state: SizeState, line: Line, first: int | None, times: int) -> None:
        self._remember_all(state, (line,), first, times)
        state.last = [line]

    def _remember_all(
        self, state: SizeState, lines: tuple[Line, ...], first: int | None, times: int
    ) -> None:
        if first is not None:
            for at in range(times):
                state.by_number[first + at] = lines[at % len(lines)]
        label = self.row.label
        if label is not None and label.name is not None and lines:
            state.by_name[label.name] = lines[(times - 1) % len(lines)] if times else lines[-1]

    def _row_entry(
        self,
        state: SizeState,
        result: RowCount | None,
        total: _Total,
        first: int | None,
        times: int | None,
        side: Side | None,
    ) -> RowInSize:
        return RowInSize(
            first=first,
            last=None if first is None or times is None else first + times - 1,
            times=times,
            sts=None if result is None else result.sts,
            makes=() if result is None else result.makes,
            worked=tuple(total.worked.items()),
            side=side,
            height=state.height,
            stated=self._stated_figures(state),
        )

    def _stated_figures(self, state: SizeState) -> Counted | None:
        if self.row.stated is None:
            return None
        figures = []
        for amount, unit in self.row.stated.counts:
            number = state.context.amount(amount)
            if number is not None:
                figures.append((unit, number))
        return tuple(figures) or None


@dataclass(slots=True)
class _Total:
    """Everything worked by the rows that one line stands for."""

    worked: dict[str, int] = field(default_factory=dict)
    rows: int = 0

    def add(self, result: RowCount) -> None:
        """Add one working."""
        self.rows += 1
        for name, number in result.worked:
            self.worked[name] = self.worked.get(name, 0) + number


def _entry(
    state: SizeState,
    fabric: Fabric | None,
    worked: Counted,
    times: int,
    first: int | None,
    last: int | None,
) -> RowInSize:
    nodes = () if fabric is None else fabric.nodes
    return RowInSize(
        first=first,
        last=last,
        times=times,
        sts=0 if fabric is None or fabric.ring else fabric.sts,
        makes=tuple(tally(nodes).items()),
        worked=worked,
        side=state.side,
        height=state.height,
        stated=None,
    )


def _flipped(side: Side, turns: int) -> Side:
    """The side that faces after so many turns."""
    if turns % 2 == 0:
        return side
    return "WS" if side == "RS" else "RS"


def _copy(state: SizeState) -> SizeState:
    return replace(
        state,
        by_number=dict(state.by_number),
        by_name=dict(state.by_name),
        last=list(state.last),
        faulty=set(state.faulty),
    )


def _plus(height: Fraction | None, row: Fraction | None, rows: int) -> Fraction | None:
    return None if height is None or row is None else height + row * rows


def _made(result: RowCount, unit: str) -> int | None:
    makes: Mapping[str, int] = dict(result.makes)
    if unit == "sts":
        return result.sts
    if unit == "sp":
        return sum(number for name, number in makes.items() if name.endswith(" sp"))
    found = [number for name, number in makes.items() if unit in (name, kind_of(name).base)]
    return sum(found) if found else None


def _passes(now: int | None, after: int, wanted: int) -> bool:
    return now is not None and (now < wanted < after or now > wanted > after)


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


def _bounded(times: int, row: Row) -> int:
    if times > MOST_WORKINGS:
        raise Fault(
            "row-too-many",
            0,
            len(row.text),
            f"it stands for {times} rows",
            mend=f"One line stands for at most {MOST_WORKINGS} rows.",
        )
    return times


def _steps_of(row: Row) -> tuple[Step, ...]:
    return row.body.steps if isinstance(row.body, WorkedRow) else ()


def _into_ring(steps: tuple[Step, ...]) -> bool:
    for step in steps:
        if isinstance(step, Work) and isinstance(step.target, IntoRing):
            return True
        if isinstance(step, Repeat) and _into_ring(step.steps):
            return True
    return False


def _cm(length: Fraction) -> str:
    return print_cm(length)
