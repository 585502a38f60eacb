"""The rows of one piece, in order and in every size, by the readings in which they come out.

Takes     the lines of a piece and a ``SizeContext`` for each size.
Gives     ``count_piece``: every line counted in every size; ``comes_out``, ``comes_out_in_all``,
          ``piece_comes_out``: whether they all do.
Problems  ``row-uneven``, ``row-number``, ``row-side``, ``row-no-such-row``, ``row-past-length``,
          ``row-reading``, ``row-turning-chain``, ``gauge-no-rows`` … (wording in ``messages``).
From      notation.md, "Two readings", "When it does not come out".

Each size stands on its own fabric, and moves on line by line (``in_size``). Where a line does not
come out in a size, its other readings are tried in all sizes; where a row only states another
count than it makes, the next lines tell which of the two is meant.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from workeven.notation.tree import Amount, Earlier, JoinYarn, Skip, SpecialStitch, Turn, WorkedRow
from workeven.problems.words import joined
from workeven.proof.along_the_side import with_row_ends
from workeven.proof.alternate import without_way
from workeven.proof.at_hand import AtHand, InSize, at_hand
from workeven.proof.context import SizeContext
from workeven.proof.earlier import going_on
from workeven.proof.fabric import Fabric
from workeven.proof.in_pattern import with_pattern
from workeven.proof.in_size import in_size
from workeven.proof.in_step import in_step
from workeven.proof.joined_alone import with_joined_alone
from workeven.proof.joined_bare import with_bare_joins
from workeven.proof.line import (
    ABOUT_LABELS,
    CountedLine,
    Known,
    Line,
    Lined,
    Reached,
    SizeFault,
    line_of,
)
from workeven.proof.proven import RowInSize
from workeven.proof.readings import readings
from workeven.proof.readings_of_ends import stops_early
from workeven.proof.row import RowCount
from workeven.proof.run_on import RUN_ON
from workeven.proof.said_later import with_said_later
from workeven.proof.shaping import leads_elsewhere
from workeven.proof.standing import Heights, Standing
from workeven.proof.throughout import with_throughout
from workeven.records import replace

#: how many lines are looked ahead to tell a wrong stated count from a wrong row
_AHEAD = 6
#: within so many lines what a short row leaves must be taken up, where it does not say so; it is
#: looked for so often in a piece, and within the lines of another such row so deep
_WITHIN, _MOST_LOOKS, _DEEP = 8, 40, 3


def count_piece(
    lines: Iterable[Lined],
    contexts: tuple[SizeContext, ...],
    names: tuple[str, ...],
    start: tuple[Fabric | None, ...],
    rows: int = 0,
    known: Known | None = None,
) -> tuple[CountedLine, ...]:
    """Count every line of a piece in every size; ``known`` are lines of other pieces."""
    heights: Heights = {}
    standings = [
        Standing(context, fabric, rows, heights)
        for context, fabric in zip(contexts, start, strict=True)
    ]
    told = _told(lines, contexts[0])
    todo = looked_through(told, names, contexts[0].special, known)
    found: list[CountedLine] = []
    looks = [0]
    for at, line in enumerate(todo):
        counted = _count_line(line, standings, _Ahead(todo[at + 1 : at + 1 + _WITHIN], looks))
        if counted.faults and any(one.as_stated is not None for one in standings):
            counted = _go_on(counted, standings, todo[at + 1 : at + 1 + _AHEAD])
        found.append(counted)
    return tuple(found)


def _go_on(counted: CountedLine, standings: list[Standing], ahead: list[AtHand]) -> CountedLine:
    """Choose what the next rows go on from, where a row makes another count than it states.

    It is the one with which more of them come out; where they do not tell, what the row makes.
    """
    entries = list(counted.per_size)
    for size, standing in enumerate(standings):
        other, standing.as_stated = standing.as_stated, None
        if other is None:
            continue
        fabric, makes = other
        stated = standing.copy()
        stated.fabric = fabric
        if _lines_good(stated, ahead) > _lines_good(standing.copy(), ahead):
            standing.fabric = fabric
            entry = entries[size]
            if entry is not None:
                entries[size] = entry._replace(sts=fabric.sts, makes=makes)
    return replace(counted, per_size=tuple(entries))


def _lines_good(standing: Standing, ahead: list[AtHand]) -> int:
    """How many of the next lines come out in this size, one after the other."""
    for number, line in enumerate(ahead):
        if line.works(standing) and in_size(line, standing).faults:
            return number
    return len(ahead)


def comes_out(todo: Iterable[AtHand], context: SizeContext, *, stated: bool = True) -> bool:
    """Whether all lines come out one after the other in this size, read in the usual way.

    It ends at the first that does not. ``stated`` False lets stated counts be: they are those of
    another starting chain.
    """
    return comes_out_in_all(todo, (context,), stated=stated)


def comes_out_in_all(
    todo: Iterable[AtHand], contexts: Iterable[SizeContext], *, stated: bool = True
) -> bool:
    """The same in several sizes at once."""
    standings = [Standing(context, None, 0, {}) for context in contexts]
    for standing in standings:
        standing.only_asked = True
    for line in todo:
        here = [standing for standing in standings if line.works(standing)]
        if not here or in_step(line, here) is not None:
            continue
        if not all(_goes_on(line, standing, stated=stated) for standing in here):
            return False
    return True


def _goes_on(line: AtHand, standing: Standing, *, stated: bool) -> bool:
    """Whether a line comes out in a size, which moves on behind it."""
    if stated and leads_elsewhere(line, standing):
        return False
    faults = in_size(line, standing).faults
    if any(stated or one.fault.code != "count-stated" for one in faults):
        return False
    if faults:
        standing.doubt, standing.numbered = False, True
    return True


def _told(lines: Iterable[Lined], context: SizeContext) -> tuple[Lined, ...]:
    """The lines, each told what lines before and behind it say of it."""
    joined = with_bare_joins(with_joined_alone(with_pattern(lines)))
    said = with_said_later(with_row_ends(joined))
    return with_throughout(said, context.turning_chains)


def piece_comes_out(
    lines: Iterable[Lined], context: SizeContext, names: tuple[str, ...], known: Known
) -> bool:
    """Whether ``count_piece`` finds no fault in this size, each line read in the usual way."""
    told = _told(lines, context)
    return comes_out(looked_through(told, names, context.special, known), context)


def looked_through(
    lines: Iterable[Lined],
    names: tuple[str, ...],
    special: Mapping[str, SpecialStitch],
    known: Known | None = None,
) -> list[AtHand]:
    """The lines of a piece, each looked through once for all sizes."""
    ready = tuple(lines)
    following = (*ready, None)[1:]
    shared: Known = {} if known is None else known
    found = [
        at_hand(one, after, names, special, shared)
        for one, after in zip(ready, following, strict=True)
    ]
    for at, lacking in without_way(ready).items():
        found[at] = found[at]._replace(lacking=lacking)
    return found


# --- one line in all sizes -----------------------------------------------------------------


class _Tried(NamedTuple):
    """A reading in every size: what the line becomes, and where the sizes stand behind it.

    ``words`` are those of the default reading and its own; ``against``: see ``Reading``.
    """

    words: tuple[str, str] | None
    results: list[InSize | None]
    standings: list[Standing]
    against: bool = False

    def comes_out(self) -> bool:
        """Whether it comes out in every size that works the row, however it is numbered."""
        return not any(
            one.fault.code not in ABOUT_LABELS
            for result in self.results
            if result is not None
            for one in result.faults
        )


class _Ahead(NamedTuple):
    """The lines behind one; ``looks`` counts how often any were worked to tell of another."""

    lines: list[AtHand]
    looks: list[int]
    depth: int = 0

    def behind(self, at: int) -> _Ahead:
        """The lines behind the one at that place."""
        return _Ahead(self.lines[at + 1 :], self.looks, self.depth + 1)


def _count_line(line: AtHand, standings: list[Standing], ahead: _Ahead) -> CountedLine:
    """The line in every size, by the default reading or by the only other that comes out."""
    together = in_step(line, standings)
    if together is not None:
        return _counted(line.lined, _Tried(None, [*together], standings))
    if line.own is None:  # it speaks of other rows, and has no readings of its own
        return _counted(line.lined, _try(line, standings))
    before = [standing.copy() for standing in standings]
    tried = _try(line, standings)
    made = line.row.span.made  # its words are ours, and mean one thing
    if not (made or tried.comes_out()):
        other = _other_reading(line, before, tried.results)
        other = other or _taken_up_later(line, before, tried.results, ahead)
        if other is not None:
            tried = other
            for standing, new in zip(standings, other.standings, strict=True):
                standing.take_over(new)
    return _counted(line.lined, tried)


def _try(line: AtHand, standings: list[Standing], words: tuple[str, str] | None = None) -> _Tried:
    """The line in every size that works it."""
    return _Tried(
        words,
        [in_size(line, one) if line.works(one) else None for one in standings],
        standings,
    )


def _counted(lined: Lined, tried: _Tried) -> CountedLine:
    entries: list[RowInSize | None] = []
    counts: list[RowCount | None] = []
    defaulted: dict[tuple[str, int], None] = {}
    faults: list[SizeFault] = []
    at_lengths: list[tuple[int, Reached]] = []
    for size, result in enumerate(tried.results):
        if result is None:
            entries.append(None)
            counts.append(None)
            continue
        entry, wrong, count, length = result
        entries.append(entry)
        counts.append(count)
        if wrong:
            faults += wrong
        if count is not None and count.defaulted:
            defaulted |= dict.fromkeys(count.defaulted)
        if length is not None:
            at_lengths.append((size, length))
    return CountedLine(
        lined=lined,
        per_size=tuple(entries),
        faults=tuple(faults),
        reading=tried.words,
        defaulted=tuple(defaulted),
        reached=tuple(at_lengths),
        counts=tuple(counts),
        behind=tuple([standing.worked_rows for standing in tried.standings]),
    )


# --- readings ------------------------------------------------------------------------------


def _other_reading(
    line: AtHand, before: list[Standing], results: list[InSize | None]
) -> _Tried | None:
    """The only other reading that comes out in every size; of several that agree the first."""
    good = [
        tried
        for tried in (*_written(line, before, results), *_chosen(line, before, results))
        if tried.comes_out()
    ]
    if _all_alike(good):
        return good[0] if good else None
    # what holds where no other row says anything goes before all that is left unsaid
    unsaid = next((tried for tried in good if tried.words is None), None)
    # and a chain that counts by the table goes before one that does not
    kept = [tried for tried in good if not tried.against]
    return unsaid or (kept[0] if kept and _all_alike(kept) else None)


def _all_alike(tried: list[_Tried]) -> bool:
    """Whether readings make the same of the row in every size."""
    entries = [[None if one is None else one.entry for one in each.results] for each in tried]
    return all(one == entries[0] for one in entries)


def _taken_up_later(
    line: AtHand, before: list[Standing], results: list[InSize | None], ahead: _Ahead
) -> _Tried | None:
    """``sc in first 8 sts, turn``: a short row, if a row behind it takes up what it leaves."""
    if not ahead.lines or ahead.depth == _DEEP or ahead.looks[0] == _MOST_LOOKS:
        return None
    row, first = line.row, next((one for one in before if line.works(one)), None)
    if first is None or first.how(line.lined) != "flat rows" or row.stated is not None:
        return None
    body = row.body
    if not (isinstance(body, WorkedRow) and any(isinstance(one, Turn) for one in body.steps)):
        return None
    faults = [fault for result in results if result is not None for fault in result.faults]
    if not all(one.fault.figures.get("left_over") for one in faults):
        return None
    ahead.looks[0] += 1
    for reading in stops_early(body.steps):
        other = replace(row, body=replace(body, steps=reading.steps))
        own = line_of(other, reading.steps, first.context.special)
        tried = _try_as(line, own, before, (reading.default, reading.taken))
        if tried.comes_out() and _is_taken_up([one.copy() for one in tried.standings], ahead):
            return tried
    return None


def _is_taken_up(standings: list[Standing], ahead: _Ahead) -> bool:
    """Whether the next rows come out up to one that goes on along what was left."""
    for at, line in enumerate(ahead.lines):
        counted = _count_line(line, standings, ahead.behind(at))
        if counted.faults:
            return False
        body = line.row.body
        if counted.reading in (_ON_ALONG, _ON_ALONG_SHORT):
            return True
        if isinstance(body, WorkedRow) and (
            body.unworked_too or (body.onto is not None and body.onto.unworked)
        ):
            return True
    return False


#: a number of stitches stands at the end, and more could be worked
_A_STEP = ("the number at its end states a count", "the number at its end is worked")
#: a row goes on along the stitches that a short row left
_ON_ALONG = ("the row before alone", "the row before, and the stitches left unworked behind it")
_ON_ALONG_SHORT = (_ON_ALONG[0], f"{_ON_ALONG[1]}, leaving the remaining sts unworked again")


def _written(
    line: AtHand, before: list[Standing], results: list[InSize | None]
) -> Iterator[_Tried]:
    """The readings of a row, each with what was left unsaid put in."""
    row = line.row
    fails_everywhere = all(result is None or result.faults for result in results)
    first = next((one for one in before if line.works(one)), None)
    if not isinstance(row.body, WorkedRow) or first is None:
        return
    for reading in readings(
        row.body.steps,
        worked=first.how(line.lined),
        stated=row.stated is not None,
        turning_chain=None if first.fabric is None else first.fabric.turning_chain,
        turning_chains=first.context.turning_chains,
        special=first.context.special,
    ):
        if reading.everywhere and not fails_everywhere:
            continue
        other = replace(row, body=replace(row.body, steps=reading.steps))
        taken = f"{reading.taken}{_of_them(results)}" if reading.everywhere else reading.taken
        own = line_of(other, reading.steps, first.context.special)
        words = None if reading.tacit else (reading.default, taken)
        yield _try_as(line, own, before, words)._replace(against=reading.against)
    if row.body.tail:
        whole = (*row.body.steps, *row.body.tail)
        other = replace(row, body=replace(row.body, steps=whole, tail=()), stated=None)
        own = line_of(other, whole, first.context.special)
        yield _try_as(line._replace(row=other), own, before, _A_STEP)
    if fails_everywhere and row.body.onto is not None:
        yield from _that_it_skips(line, row.body, row.body.onto, before)
    on_along = fails_everywhere and not row.body.unworked_too
    if on_along and going_on(first, first.how(line.lined)) is not None:
        other = replace(row, body=replace(row.body, unworked_too=True))
        own = line_of(other, row.body.steps, first.context.special)
        yield _try_as(line._replace(row=other), own, before, _ON_ALONG)
        short = _turns_again(row.body) and _ask_for_more(results)
        for reading in stops_early(row.body.steps) if short else ():
            again = replace(other, body=replace(row.body, unworked_too=True, steps=reading.steps))
            own = line_of(again, reading.steps, first.context.special)
            yield _try_as(line._replace(row=again), own, before, _ON_ALONG_SHORT)


def _turns_again(body: WorkedRow) -> bool:
    """Whether a row goes on from where it is, and turns."""
    elsewhere = any(isinstance(step, Skip | JoinYarn) for step in body.steps)
    return not elsewhere and any(isinstance(step, Turn) for step in body.steps)


def _ask_for_more(results: list[InSize | None]) -> bool:
    """Whether the row works more stitches than the row before has, in every size."""
    figures = [one.fault.figures for result in results if result for one in result.faults]
    return all(one.get("needed", 0) > one.get("left", 0) for one in figures)


def _that_it_skips(
    line: AtHand, body: WorkedRow, said: Earlier, before: list[Standing]
) -> Iterator[_Tried]:
    """``first skipped sc of Rnd 7``: a stitch of Rnd 7, or one that Rnd 7 has skipped."""
    number = said.number.values[0] if said.number is not None else None
    if not said.unworked or number is None:
        return
    other = replace(said, number=Amount((number - 1,), start=said.start, end=said.end))
    row = replace(line.row, body=replace(body, onto=other))
    own = line_of(row, body.steps, before[0].context.special)
    words = (
        f"stitches of row {number} that another row skips",
        f"stitches that row {number} itself skips",
    )
    yield _try_as(line._replace(row=row), own, before, words)


def _of_them(results: list[InSize | None]) -> str:
    """How many stitches are left in each size: " (12, 14 and 16 of them)"."""
    there = [result for result in results if result is not None]
    left = [str(one.faults[0].fault.figures.get("left_over", "")) for one in there]
    if not all(left):
        return ""
    return f" ({joined(left if len(set(left)) > 1 else left[:1])} of them)"


def _chosen(line: AtHand, before: list[Standing], results: list[InSize | None]) -> Iterator[_Tried]:
    """The readings that the walk itself has met, each chosen in its turn."""
    if line.own is None:
        return
    points: dict[tuple[str, int], tuple[str, ...]] = {}
    for result in results:
        if result is not None and result.row_count is not None:
            points.update(result.row_count.points)
    if not all(result is None or result.faults for result in results):
        points.pop(RUN_ON, None)  # in one size of nine it is the mistake that is looked for
    for point, ways in points.items():
        for number in range(1, len(ways)):
            own = replace(line.own, choices={point: number})
            yield _try_as(line, own, before, (ways[0], ways[number]))


def _try_as(
    line: AtHand, own: Line, before: list[Standing], words: tuple[str, str] | None
) -> _Tried:
    lined = replace(line.lined, row=own.row)
    return _try(
        line._replace(lined=lined, row=own.row, own=own), [one.copy() for one in before], words
    )
