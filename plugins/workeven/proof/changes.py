"""Increases and decreases: ``inc``, ``dec``, and changes spread evenly over a row.

Takes     a ``Hook`` and a step that changes the number of stitches.
Gives     ``increase``, ``decrease``, ``evenly_along``, ``evenly_alone``, ``base_of``.
Problems  ``row-uneven``.
From      notation.md, the table of steps (``inc``, ``dec``: of the stitch last named in the row,
          else of the row before), "Whole pieces" (the exact spacing).
"""

from __future__ import annotations

from workeven.arithmetic.shaping import evenly
from workeven.notation.tree import (
    ONE,
    Amount,
    Content,
    Decrease,
    Each,
    Evenly,
    Increase,
    Next,
    Step,
    Stitch,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof.context import Fault
from workeven.proof.each import begin_each, open_in_ring, room, work_each
from workeven.proof.fabric import Node, Place, Run, count_stitches
from workeven.proof.facts import first_of_content
from workeven.proof.hook import Hook
from workeven.proof.making import Made, make
from workeven.proof.naming import ANY, many, match_of
from workeven.proof.taking import take

_TWO = Amount((2,))


def base_of(hook: Hook, step: Step) -> str:
    """The stitch of an ``inc`` or ``dec``: last named in the row, else of the row before."""
    name = hook.facts.stitch_of_change.get(id(step)) or hook.facts.first_stitch
    if name is not None:
        special = hook.context.special.get(name)
        if special is not None and special.content:
            name = first_of_content(special.content) or name
        return kind_of(name).base
    probe = hook.cursor.copy()
    probe.go_to(_no_space)
    place = probe.peek()
    return "sc" if place is None or place.sort == "ch" else place.base


def _no_space(place: Place) -> bool:
    return place.sort != "sp"


def two_in_one(hook: Hook, step: Increase) -> Work:
    """An increase as the work that it is."""
    made = Stitch(base_of(hook, step), _TWO if step.into == 2 else ONE)  # noqa: PLR2004, an increase
    return Work((made,), step.target, start=step.start, end=step.end)


def in_pattern(hook: Hook, step: Increase) -> None:
    """``work in patt across next 8 sts``: each in the stitch that is there.

    Where groups or spaces are among them the pattern is more than its stitches: it is not guessed.
    """
    target = step.target
    if isinstance(target, Each):
        begin_each(hook, target.names)
        count = room(hook, target, (), step)
    elif isinstance(target, Next) and target.names == ANY:
        count = hook.context.amount(target.count) or 0
    else:
        raise _pattern_not_counted(step)
    ahead = hook.cursor.along(hook.cursor.rest())
    ahead.take(count_stitches, count)
    nodes = ahead.passed()
    if not all(map(_is_of_single_stitches, nodes)):
        raise _pattern_not_counted(step)
    take(hook, ANY, count, step)
    _make_alike(hook.made, nodes)
    hook.began = True


def _is_of_single_stitches(node: Node) -> bool:
    if isinstance(node, Run):
        return node.plain
    return not (node.group or node.optional) and all(map(_is_of_single_stitches, node.nodes))


def _make_alike(made: Made, nodes: tuple[Node, ...]) -> None:
    """The same stitches again, those of a repeat made once and as often as it has turns."""
    for node in nodes:
        if isinstance(node, Run):
            base = kind_of(node.place.base or node.place.name).base
            make(made, (Stitch("sc" if base == "ch" else base),), node.count)
        else:
            turn = Made(made.context)
            _make_alike(turn, node.nodes)
            made.add_turns(turn, node.times)


def _pattern_not_counted(step: Increase) -> Fault:
    return Fault(
        "row-not-understood",
        step.start,
        step.end,
        "what the pattern makes over a part of the row is not counted where groups or spaces are "
        "in it",
        mend="Write the stitches of this part out.",
    )


def increase_next(hook: Hook, step: Increase, target: Unplaced) -> None:
    """``inc``, ``inc 3``: so many increases in the next places."""
    work = two_in_one(hook, step)
    count = hook.context.amount(target.count)
    if count:
        take(hook, ANY, count, step)
        make(hook.made, work.content, count)
    hook.began = True


def decrease(hook: Hook, step: Decrease) -> None:
    """``dec``, ``dec around``: two together, so many times or as often as there are two."""
    together = (Stitch(f"{base_of(hook, step)}2tog", legs=2),)
    if step.times is None:
        target = Each(ANY, step.limit)
        work_each(hook, Work(together, target, start=step.start, end=step.end), target, ())
    else:
        count = hook.context.amount(step.times)
        if count:
            take(hook, ANY, 2 * count, step)
            make(hook.made, together, count)
    hook.began = True


# --- spread evenly -------------------------------------------------------------------------


def evenly_along(hook: Hook, step: Work, target: Each, change: Evenly) -> None:
    """``sc around, dec 12 sts evenly``: the places of each change are the exact spacing."""
    only = step.content[0]
    assert isinstance(only, Stitch)
    if hook.ring:
        raise open_in_ring(step)
    begin_each(hook, target.names)
    sts = room(hook, target, (), step)
    _space_out(hook, sts, change, only)
    hook.cursor.take(match_of(target.names), sts)
    hook.stands, hook.over_first, hook.began = "taken", False, True
    hook.sided = True


def evenly_alone(hook: Hook, change: Evenly) -> None:
    """``dec 12 sts evenly``, with the stitch of the row."""
    if hook.ring:
        raise open_in_ring(change)
    begin_each(hook, ANY)
    sts = hook.cursor.remaining(count_stitches)
    _space_out(hook, sts, change, Stitch(base_of(hook, change)))
    hook.cursor.take(count_stitches, sts)
    hook.stands, hook.over_first, hook.began = "taken", False, True


def _space_out(hook: Hook, sts: int, change: Evenly, only: Stitch) -> None:
    count = (hook.context.amount(change.count) or 0) * change.ends
    if change.at_markers and hook.below_at_start is not None:
        each = count if change.change == "inc" else -count
        count *= change.at_markers * len(hook.below_at_start.marks)
        hook.at_markers = each
    if count == 0:
        make(hook.made, (only,), sts)
        return
    if hook.ring and not hook.recover:
        raise open_in_ring(change)
    try:
        spacing = evenly(sts, count, change.change, flat=hook.how == "flat rows")
    except ValueError:
        if hook.recover:
            return
        raise Fault(
            "row-uneven",
            change.start,
            change.end,
            f"{count} changes do not fit into {many(sts, 'st')}",
            needed=count,
            left=sts,
        ) from None
    first, last = spacing.edges
    lengths = ((first,) if first else ()) + spacing.intervals
    for length, times in _folded(lengths):
        _make_intervals(hook, only, change, length, times)
    make(hook.made, (only,), last)


def _make_intervals(hook: Hook, only: Stitch, change: Evenly, length: int, times: int) -> None:
    """So many stretches of the same length, each ending with the change."""
    legs = 2 if change.change == "dec" else 1
    changed: tuple[Content, ...] = (
        (Stitch(f"{kind_of(only.name).base}2tog", legs=2),)
        if change.change == "dec"
        else (Stitch(only.name, _TWO),)
    )
    made = hook.made
    kept = made.beside()
    make(made, (only,), length - legs)
    make(made, changed, 1)
    kept.add_times(tuple(made.out.nodes), times)
    make(made, (only,), (length - legs) * (times - 1))  # for its counts: the places are there
    make(made, changed, times - 1)
    made.out = kept


def _folded(lengths: tuple[int, ...]) -> list[tuple[int, int]]:
    """Neighbours that are alike, with their number."""
    folded: list[tuple[int, int]] = []
    for length in lengths:
        if folded and folded[-1][0] == length:
            folded[-1] = (length, folded[-1][1] + 1)
        else:
            folded.append((length, 1))
    return folded
