"""A part begun anew behind another: "BODY: Rnd 1: 6 sc in magic ring", "Front: Row 1: ch 21, …".

Takes     where a size stands, the label and the steps of a row.
Gives     ``begin_anew``, ``begin_again``.
Problems  none.
From      notation.md, "Labels" (a section may restart at 1), the table of places ("ring").

A ring made by magic is never worked into what is there. A chain that is worked back along may stand
at the edge of what is there ("ch 5, sc in 2nd ch from hook and in next 3 chs, sc in each st"): it
begins a part where a heading says so, or the yarn was cut, and the row goes nowhere else.
"""

from __future__ import annotations

from workeven.notation.tree import (
    Aside,
    Chain,
    Each,
    First,
    FromHook,
    IntoRing,
    Label,
    Last,
    MagicRing,
    Next,
    OneChain,
    Target,
    Work,
)
from workeven.proof.line import Line
from workeven.proof.parts import targets_of
from workeven.proof.standing import Standing


def begin_anew(standing: Standing, label: Label | None, own: Line) -> None:
    """Leave what was worked before, where the row begins another part of the piece."""
    if standing.fabric is None or not standing.fabric.nodes or not _is_new(standing, label, own):
        return
    standing.fabric = standing.unworked = standing.side = None
    standing.fresh, standing.doubt, standing.side_said = True, False, False


def begin_again(standing: Standing, line: Line, number: int | None, words: str) -> None:
    """Rows are worked again from a ring made by magic: they are another part, made like the first.

    ``number`` is that of the first of them; the rows of the other part are numbered as they were.
    ``words`` are those of the line that says so.
    """
    if standing.fabric is None or not _in_magic_ring(line):
        return
    standing.fabric = standing.unworked = standing.side = None
    standing.number = standing.number if number is None else number
    standing.said = (*standing.said, words)


def _in_magic_ring(line: Line) -> bool:
    """Whether a row begins in a ring made by magic."""
    steps = [step for step in line.facts.written if not isinstance(step, Aside)]
    head = steps[0] if steps else None
    if isinstance(head, MagicRing):
        return True
    return isinstance(head, Work) and isinstance(head.target, IntoRing) and head.target.magic


def _is_new(standing: Standing, label: Label | None, own: Line) -> bool:
    headed = label is not None and label.section
    first = label is not None and label.first is not None and label.first.values == (1,)
    cut = standing.is_cut()
    if not (headed or first or cut):
        return False
    steps = [step for step in own.facts.written if not isinstance(step, Aside)]
    head = steps[0] if steps else None
    if isinstance(head, Work):
        return isinstance(head.target, IntoRing) and head.target.magic
    targets = list(targets_of(own.facts.written))
    chained = (cut or (headed and first)) and isinstance(head, Chain)
    if chained and cut and not targets:
        return len(steps) == 1  # "Leg: ch 5"
    return (
        chained
        and bool(targets)
        and isinstance(targets[0], FromHook)
        and all(map(_along_chain, targets))
    )


def _along_chain(target: Target) -> bool:
    """Whether a step goes into the chain alone."""
    if isinstance(target, Each | Next | First | Last):
        return all(isinstance(name, OneChain) for name in target.names)
    return isinstance(target, FromHook)
