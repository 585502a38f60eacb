"""The multiple of the starting chain with which a whole piece comes out, later rows included.

Takes     ``GradedPattern`` and a ``Piece``.
Gives     ``chain_multiple``: (8, 2) for "a multiple of 8 plus 2".
Problems  none: None where any number comes out, or where the numbers follow no multiple.
From      notation.md, "Repeats nest … must be a whole number in every size".

It is found by trial, as a careful designer would: a few stitches more in the first size, and every
row counted again. The first step up with which the piece comes out is the multiple if two such
steps come out too, and if it comes out with it in the other sizes. Where the chain is a formula,
the count that it is made from is stepped, so that other counts move with it; where it is a number,
the number is, and stated counts are let be.

Worked example: ``ch 22``, dc across from the 4th ch, then ``*sk 3 sts, 4 dc in next st; rep`` over
the stitches between four at each end. 23, 24 and 25 chains leave a part of a repeat, 26 and 30 come
out: a multiple of 4 plus 2.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import NamedTuple

from workeven.grading import GradedPattern
from workeven.notation.tree import Amount, Aside, Chain, Row, WorkedRow
from workeven.pattern import FormulaCount, Piece
from workeven.pattern.uses import with_those_below
from workeven.proof.at_hand import AtHand
from workeven.proof.context import Fault, SizeContext
from workeven.proof.line import line_of
from workeven.proof.lines import contexts_of, lines_of
from workeven.proof.nearest import with_value
from workeven.proof.piece import comes_out, comes_out_in_all, looked_through
from workeven.records import replace

#: longer repeats are not looked for
LONGEST = 72


def chain_multiple(graded: GradedPattern, piece: Piece) -> tuple[int, int] | None:
    """The multiple of the piece's starting chain, the same in every size that works it."""
    pattern = graded.pattern
    lines = tuple(lines_of(piece, pattern))
    chain = None if not lines else starting_chain(lines[0].row)
    if chain is None:
        return None
    special = {stitch.name: stitch for stitch in pattern.stitches}
    todo = looked_through(lines, pattern.sizes.names, special)
    stepping = _of_a_number if chain.count.formula is None else _of_a_formula
    contexts = contexts_of(graded)
    steppings = [
        stepping(todo, contexts[size], chain, graded)
        for size, number in enumerate(piece.make)
        if number
    ]
    return _in_all([one for one in steppings if one is not None], len(steppings))


def starting_chain(row: Row) -> Chain | None:
    """The chain that a piece begins with, behind its colour ("with A, ch 84")."""
    steps = row.body.steps if isinstance(row.body, WorkedRow) else ()
    first = next((step for step in steps if not isinstance(step, Aside)), None)
    return first if isinstance(first, Chain) else None


# --- the two ways to step it ---------------------------------------------------------------


class _Stepping(NamedTuple):
    """A number that can be stepped in one size.

    ``now`` is its value, ``with_value`` gives the lines and the size with another, None where there
    is none; ``chains`` tells how many chains that makes. ``stated``: stated counts are held.
    """

    now: int
    with_value: Callable[[int], tuple[list[AtHand], SizeContext] | None]
    chains: Callable[[int], int | None]
    stated: bool

    def works(self, value: int) -> bool:
        """Whether the piece comes out with another number."""
        stepped = self.with_value(value)
        return stepped is not None and comes_out(*stepped, stated=self.stated)


def _of_a_number(
    todo: list[AtHand], context: SizeContext, chain: Chain, _graded: GradedPattern
) -> _Stepping | None:
    """The chain itself is stepped."""
    now = context.amount(chain.count)

    def with_number(number: int) -> tuple[list[AtHand], SizeContext]:
        return [_with_chain(todo[0], chain, number), *todo[1:]], context

    return None if now is None else _Stepping(now, with_number, lambda number: number, stated=False)


def _with_chain(line: AtHand, chain: Chain, number: int) -> AtHand:
    """The first line with a chain of another length."""
    body = line.row.body
    assert isinstance(body, WorkedRow)
    other = replace(chain, count=Amount((number,), start=chain.count.start, end=chain.count.end))
    steps = tuple(other if step is chain else step for step in body.steps)
    row = replace(line.row, body=replace(body, steps=steps))
    return line._replace(row=row, own=line_of(row, steps), plan=None)


def _of_a_formula(
    todo: list[AtHand], context: SizeContext, chain: Chain, graded: GradedPattern
) -> _Stepping | None:
    """The one count is stepped that the formula of the chain is made from."""
    assert chain.count.formula is not None
    made = {one.name for one in graded.pattern.counts if isinstance(one, FormulaCount)}
    bases = with_those_below(chain.count.formula.names, graded.pattern.counts) - made
    if len(bases) != 1:
        return None
    base = next(iter(bases))

    @cache
    def with_base(value: int) -> tuple[list[AtHand], SizeContext] | None:
        stepped = with_value(graded, context, base, value)
        return None if stepped is None else (todo, stepped)

    def chains(value: int) -> int | None:
        stepped = with_base(value)
        try:
            return None if stepped is None else stepped[1].amount(chain.count)
        except Fault:
            return None

    return _Stepping(context.counts[base], with_base, chains, stated=True)


# --- the steps -----------------------------------------------------------------------------


def _in_all(steppings: list[_Stepping], sizes: int) -> tuple[int, int] | None:
    """The multiple found in the first size, if it holds in the others, and their common rest."""
    if not steppings or len(steppings) < sizes:
        return None
    step = _step(steppings[0])
    if step is None:
        return None
    found: set[tuple[int, int]] = set()
    for one in steppings:
        few, many = one.chains(one.now), one.chains(one.now + step)
        if few is None or many is None or many - few <= 1:
            return None
        found.add((many - few, few % (many - few)))
    return found.pop() if len(found) == 1 and _all_work(steppings[1:], step) else None


def _all_work(steppings: list[_Stepping], step: int) -> bool:
    """Whether the piece comes out a step up, in all sizes at once where their lines are one."""
    stepped = [one.with_value(one.now + step) for one in steppings]
    there = [one for one in stepped if one is not None]
    if len(there) < len(stepped):
        return False
    if there and steppings[0].stated:
        return comes_out_in_all(there[0][0], [context for _, context in there])
    return all(comes_out(*one, stated=False) for one in there)


def _step(one: _Stepping) -> int | None:
    """The least step up with which the piece comes out, if two such steps do, and none."""
    if not one.works(one.now):
        return None
    steps = range(1, LONGEST + 1)
    found = next((step for step in steps if one.works(one.now + step)), None)
    return found if found is not None and one.works(one.now + 2 * found) else None
