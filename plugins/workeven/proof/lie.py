"""How rows lie on one another: what each is longer or shorter by at its beginning and at its end.

Takes     ``GradedPattern``, a ``ProvenPiece``, the index of a size.
Gives     ``lies``: a ``Lie`` for each row, in the order in which they are worked.
Problems  none: of a row whose edges cannot be told, nothing is told.
From      nothing outside: the steps in front of the middle of a row, walked alone.

The middle of a row is its "each st", its open repeat or, without these, the step that takes most
places. What the steps in front of it make more than they take is the change at the beginning; what
is then left of the row's whole change is that at the end. "ch 3 (counts as dc), dc2tog, dc in each
st across" is one shorter at the beginning; "sl st in first 7 sts, …, dc in each st to last 6 sts,
leave rem sts unworked" is 6 shorter at each end. A repeat that itself makes more than it takes
grows in the middle, and the edges stay.

It is worked out for drawings and for edges that slant, when they are asked for: no count hangs on
it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from workeven.grading import GradedPattern
from workeven.notation.tree import Decrease, Each, FromHook, Open, Repeat, Skip, Step, Stitch, Work
from workeven.proof.context import Fault, SizeContext
from workeven.proof.fabric import Fabric, tally
from workeven.proof.facts import facts_of_part
from workeven.proof.hook import Hook
from workeven.proof.line import Line
from workeven.proof.lines import contexts_of
from workeven.proof.proven import ProvenPiece
from workeven.proof.standing import Standing, Worked
from workeven.proof.stated import chains_in
from workeven.proof.walk import walk_part


class Edges(NamedTuple):
    """How many stitches a row is longer (or, below zero, shorter) at its beginning and end."""

    start: int
    end: int


class Lie(NamedTuple):
    """How one row lies: by its edges on the row before, or on what an earlier row has left.

    ``onto`` is the number of that earlier row, None where it is the row before; ``number`` is the
    row's own, None behind an open number of rows. ``mirrored``: it is a row of a second side, as
    far from the other edge as the row of that number in the first.
    """

    number: int | None
    onto: int | None
    edges: Edges
    mirrored: bool = False


_STRAIGHT = Edges(0, 0)


def lies(graded: GradedPattern, piece: ProvenPiece, size: int) -> tuple[Lie, ...]:
    """How every row of the piece lies in the size of that index."""
    context = contexts_of(graded)[size]
    known: dict[int, Edges] = {}
    found: list[Lie] = []
    for rows in reversed(tuple(_stretches(piece, size))):
        found += _of_stretch(rows, context, known)
    return tuple(found)


def _stretches(piece: ProvenPiece, size: int) -> Iterator[Worked]:
    """What was worked in the size, the last rows first."""
    rows = piece.behind(size)
    while rows is not None:
        yield rows
        rows = rows.before


def _of_stretch(rows: Worked, context: SizeContext, known: dict[int, Edges]) -> Iterator[Lie]:
    """The rows of a stretch; a line that is worked again has the same edges again."""
    _learn(rows, context, known)
    for at in range(rows.times):
        yield Lie(
            None if rows.first is None else rows.first + at,
            rows.onto if at == 0 or rows.mirrored else None,
            known.get(id(rows.line_at(at)), _STRAIGHT),
            rows.mirrored,
        )


def _learn(rows: Worked, context: SizeContext, known: dict[int, Edges]) -> None:
    """The edges of each line of a stretch, from its first working."""
    lines = rows.lines[: rows.times]
    unknown = sum(id(line) not in known for line in lines)
    below = rows.below
    for line in lines:
        if not unknown or rows.how != "flat rows" or below is None or line.facts.along_rows:
            return
        counted = Standing(context, below, 0, {}).work(line, rows.how)
        if id(line) not in known:
            unknown -= 1
            edges = _STRAIGHT
            bridged = _wide(below) != below.sts or _wide(counted.fabric) != counted.sts
            level = bridged and _wide(below) == _wide(counted.fabric)
            straight = level or _is_straight(line, counted.sts - below.sts)
            if not (below.foundation or straight):
                edges = _edges(line, below, context, counted.sts - below.sts)
            known[id(line)] = edges
        below = counted.fabric


def _wide(fabric: Fabric) -> int:
    """How many stitches a row is wide, with the chains of its spaces.

    A row with buttonholes, and the one that fills them, is as wide as the band.
    """
    made = tally(fabric.nodes)
    return fabric.sts + chains_in(made)


def _is_straight(line: Line, change: int) -> bool:
    """Whether a row that is no longer and no shorter is one stitch in each, from end to end."""
    steps = [step for step in line.facts.steps if isinstance(step, Work | Repeat | Skip | Decrease)]
    only = steps[0] if len(steps) == 1 else None
    return change == 0 and isinstance(only, Work) and isinstance(only.target, Each)


# --- one row -------------------------------------------------------------------------------


def _edges(line: Line, below: Fabric, context: SizeContext, change: int) -> Edges:
    """The edges of one row, which makes so many more stitches than are below it."""
    steps = line.facts.steps
    try:
        first, last = _middle(line, below, context)
        middle = steps[first] if first < len(steps) else None
        if _one_in_each(middle):  # what it begins in may be that of the last slip stitch before it
            start = _made_more(line, steps[: first + 1], below, context)
            return Edges(start, change - start)
        start = _made_more(line, steps[:first], below, context)
        if isinstance(middle, Repeat) and isinstance(middle.times, Open):
            once = _made_more(line, (*steps[:first], *middle.steps), below, context)
            return Edges(start, change - start if once == start else 0)
        return Edges(start, change - _made_more(line, steps[: last + 1], below, context))
    except Fault:
        return _STRAIGHT


def _middle(line: Line, below: Fabric, context: SizeContext) -> tuple[int, int]:
    """Where the middle of a row begins and ends among its steps.

    Without a step that goes all along, it is from the first long step to the last: those that take
    at least half as much as the longest.
    """
    steps = line.facts.steps
    for at, step in enumerate(steps):
        if _goes_all_along(step):
            return at, at
    taken = [_taken(line, steps[:at], below, context) for at in range(len(steps) + 1)]
    lengths = {
        at: taken[at + 1] - taken[at]
        for at, step in enumerate(steps)
        if isinstance(step, Work | Repeat)
    }
    longest = max(lengths.values(), default=0)
    long = [at for at, length in lengths.items() if 2 * length >= longest] or [0]
    return long[0], long[-1]


def _one_in_each(step: Step | None) -> bool:
    """Whether a step works one stitch in each, so that nothing grows in the middle."""
    match step:
        case Work(content=(Stitch(count=count, legs=1),), target=Each()):
            return count.values == (1,) and count.formula is None
        case _:
            return False


def _goes_all_along(step: Step) -> bool:
    match step:
        case Work(target=Each()) | Repeat(times=Open()):
            return True
        case _:
            return False


def _made_more(line: Line, steps: tuple[Step, ...], below: Fabric, context: SizeContext) -> int:
    """How many stitches the first steps of a row make more than they take."""
    if not steps:
        return 0
    hook = _worked(line, steps, below, context)
    made = sum(node.sts for node in hook.made.out.nodes)
    first = next((step for step in steps if isinstance(step, Work)), None)
    if first is not None and isinstance(first.target, FromHook):
        return made  # a chain was added for them, which is no stitch yet
    return made - _below(hook, below)


def _taken(line: Line, steps: tuple[Step, ...], below: Fabric, context: SizeContext) -> int:
    """How many stitches the first steps of a row take."""
    return _below(_worked(line, steps, below, context), below) if steps else 0


def _below(hook: Hook, below: Fabric) -> int:
    """How many stitches the hook has passed."""
    return below.sts - sum(node.sts for node in hook.cursor.rest())


def _worked(line: Line, steps: tuple[Step, ...], below: Fabric, context: SizeContext) -> Hook:
    hook = Hook(facts_of_part(steps), below, context, worked="flat rows", choices=line.choices)
    walk_part(hook)
    return hook
