"""What a row says of its yarn, put in order: before its stitches, between them, behind them.

Takes     a ``Row``.
Gives     ``said_in``: ``Said``.
Problems  none.
From      notation.md, the table of steps: what works stitches, and what only moves or marks.
"""

from __future__ import annotations

from bisect import bisect_right
from typing import NamedTuple

from workeven.notation.colours import ColourSaid, Order, colours_said
from workeven.notation.expressions import ignoring_case
from workeven.notation.tree import (
    Aside,
    Chain,
    EachChainCounts,
    FastenOff,
    JoinRound,
    JoinYarn,
    LeaveRest,
    MagicRing,
    OtherSide,
    Repeat,
    Row,
    Skip,
    StatedHere,
    Step,
    Stop,
    Travel,
    Turn,
    WorkedRow,
)

#: steps that take no yarn
_NO_YARN = (
    Aside,
    EachChainCounts,
    FastenOff,
    LeaveRest,
    MagicRing,
    OtherSide,
    Skip,
    StatedHere,
    Stop,
    Turn,
)
#: steps that take some, and are no stitches of the row
_NO_STITCH = (Chain, JoinRound, JoinYarn, Travel)
#: with these words a line speaks of rows
_SPEAKS_OF_ROWS = r"\b(?:rep|repeat|work|working|cont|continue|dec|inc|decrease|increase)\b"


class Said(NamedTuple):
    """What a row says: at its ``head``, ``inside`` and ``behind`` its stitches, in order.

    ``columns`` are those from which ``inside``, and then ``behind``, are in force, as far as the
    row works anything there. ``order``: in which rows worked again change colours, () where that is
    said and not told, None where it is not said. ``loops``: the stretches, by number, in which a
    repeat inside the row begins and ends; it is read only where they are of one colour.
    """

    head: tuple[ColourSaid, ...] = ()
    inside: tuple[ColourSaid, ...] = ()
    behind: tuple[ColourSaid, ...] = ()
    columns: tuple[int, ...] = ()
    order: Order | None = None
    loops: tuple[tuple[int, int], ...] = ()

    @property
    def names(self) -> bool:
        """Whether it names another colour anywhere, or has one joined."""
        every = (*self.head, *self.inside, *self.behind)
        return self.order is not None or any(changes(one) for one in every)

    @property
    def named_first(self) -> bool:
        """Whether the row says at its head in which colour it is worked."""
        return any(changes(one) for one in self.head)


NOTHING_SAID = Said()


def changes(one: ColourSaid) -> bool:
    """Whether the rows go on in another colour behind these words."""
    return one.way in ("label", "on", "end") or (
        one.way == "join" and (bool(one.name) or one.other)
    )


def said_in(row: Row) -> Said:
    """What a row says of its yarn, mostly nothing."""
    every = colours_said(row.text)
    if not every:
        return NOTHING_SAID
    order = next((one.order for one in every if one.way == "order"), None)
    words = tuple(one for one in every if one.way != "order")
    if not isinstance(row.body, WorkedRow):
        verb = ignoring_case(_SPEAKS_OF_ROWS).search(row.text, row.label.end if row.label else 0)
        at = verb.start() if verb is not None else len(row.text)
        head = tuple(one for one in words if one.at < at and one.way != "end")
        return Said(head=head, behind=tuple(one for one in words if one not in head), order=order)
    return _in_steps(row.body.steps, words)._replace(order=order)


def _in_steps(steps: tuple[Step, ...], words: tuple[ColourSaid, ...]) -> Said:
    working = [step for step in steps if _works(step)]
    stitches = [step for step in working if not isinstance(step, _NO_STITCH) or _stands(step)]
    if not working:
        return Said(head=words)
    begins = min(step.start for step in working)
    stops = max((_last_column(step) for step in stitches), default=begins)
    head = tuple(one for one in words if one.at <= begins and one.way != "end")
    rest = [one for one in words if one not in head]
    inside = tuple(one for one in rest if one.at <= stops and one.way != "end")
    behind = tuple(one for one in rest if one not in inside)
    ends = max(_last_column(step) for step in working)
    columns = tuple(
        one.at for one in (*inside, *behind) if changes(one) and one.at <= ends and one.way != "end"
    )
    return Said(
        head=head, inside=inside, behind=behind, columns=columns, loops=_loops(steps, columns)
    )


def _loops(steps: tuple[Step, ...], columns: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    """The repeats that come round to a step that says no colour, behind one that does."""
    found: list[tuple[int, int]] = []
    for step in steps:
        if not isinstance(step, Repeat):
            continue
        within = [column for column in columns if step.start <= column < step.end]
        works = [one.start for one in step.steps if _works(one)]
        if within and works and min(works) < within[0]:
            before, upto = bisect_right(columns, step.start), bisect_right(columns, step.end)
            found.append((before, upto))
        found += _loops(step.steps, columns)
    return tuple(found)


def _works(step: Step) -> bool:
    return not isinstance(step, _NO_YARN) and (not isinstance(step, JoinYarn) or _stands(step))


def _stands(step: Step) -> bool:
    """Whether yarn is joined with a stitch that stands in the row."""
    return isinstance(step, JoinYarn) and step.stitch is not None


def _last_column(step: Step) -> int:
    """From where on nothing more of a step is to come: in a repeat, more of it comes again."""
    return max(step.start, step.end - 1) if isinstance(step, Repeat) else step.start
