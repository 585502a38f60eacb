"""Starting counts that carry through: values of a count with which whole pieces come out.

Takes     ``GradedPattern`` and the name of a count.
Gives     ``nearest_counts``: for each size the values near the wanted length, the nearest first.
Problems  none: a size for which no value near enough comes out has an empty list.
From      notation.md, "When it does not come out".

A value is tried in one size at a time: the counts made from it are made anew, and every piece that
uses any of them is counted whole, later decreases and repeats included. Nothing is searched by
rule: what the rows ask for (a multiple, a parity) shows in what comes out.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.grading import GradedPattern, made_piece
from workeven.grading.rules import anew, is_allowed
from workeven.pattern import ComputedCount, Count, FormulaCount, Piece
from workeven.pattern.uses import counts_in, needs_of, rows_of, shaped_by, with_those_below
from workeven.proof.context import SizeContext
from workeven.proof.lines import contexts_of, lines_of
from workeven.proof.piece import count_piece
from workeven.records import record, replace

#: how many values are offered for a size, and how far from the wanted one they are sought
MOST, REACH = 5, 120


@record
class NearCount:
    """One value: what it measures and how far that is from the wanted length (mm).

    Both are None for a count that is counted over no measurement.
    """

    count: int
    measures: Fraction | None
    off: Fraction | None


def nearest_counts(
    graded: GradedPattern,
    name: str,
    *,
    most: int = MOST,
    reach: int = REACH,
    sizes: tuple[int, ...] | None = None,
    through: str | None = None,
    by_rule: bool = False,
) -> dict[str, tuple[NearCount, ...]]:
    """For each size (of the indexes ``sizes``) the values with which every piece comes out.

    ``through``: the key of the one piece that matters. Then, or ``by_rule``, values that the
    count's own rule forbids are left out. Raises KeyError where the pattern has
    no count of that name.
    """
    count = graded.counts[name]
    using = tuple(
        piece
        for piece in graded.pattern.pieces
        if name in counts_used(graded, piece) and through in (None, piece.name)
    )
    contexts = contexts_of(graded)
    found: dict[str, tuple[NearCount, ...]] = {}
    for size, size_name in enumerate(graded.pattern.sizes.names):
        if sizes is not None and size not in sizes:
            continue
        exact = Fraction(count.values[size]) if count.exact is None else count.exact[size]
        hits: list[NearCount] = []
        for value in _outwards(exact, reach):
            if len(hits) == most:
                break
            if (by_rule or through) and not _by_rule(count.count, size, value):
                continue
            context = with_value(graded, contexts[size], name, value)
            if context is not None and _comes_out(graded, using, context):
                hits.append(_measured(graded, name, size, value))
        found[size_name] = tuple(hits)
    return found


def _by_rule(count: Count, size: int, value: int) -> bool:
    return isinstance(count, FormulaCount) or is_allowed(count, size, value)


def carries(graded: GradedPattern, name: str, size: int) -> bool:
    """Whether every piece that uses a count comes out in a size, with the counts as they are."""
    using = tuple(piece for piece in graded.pattern.pieces if name in counts_used(graded, piece))
    return _comes_out(graded, using, contexts_of(graded)[size])


def carried(graded: GradedPattern) -> dict[str, PerSize[int | None]]:
    """For each count that must come out through a piece the nearest values that do.

    A size has None where no value near enough comes out; the rows that do not are told there.
    """
    found: dict[str, PerSize[int | None]] = {}
    for name, count in graded.counts.items():
        piece = count.count.comes_out if isinstance(count.count, ComputedCount) else None
        if piece is not None:
            near = nearest_counts(graded, name, most=1, reach=REACH // 2, through=piece)
            values = tuple(hits[0].count if hits else None for hits in near.values())
            found[name] = graded.pattern.sizes.each(values)
    return found


def _outwards(exact: Fraction, reach: int) -> Iterator[int]:
    """Whole numbers from the exact one outwards, a tie going up."""
    start = (exact + Fraction(1, 2)).__floor__()
    around = range(max(start - reach, 1), start + reach + 1)
    yield from sorted(around, key=lambda value: (abs(value - exact), -value))


def _measured(graded: GradedPattern, name: str, size: int, value: int) -> NearCount:
    count = graded.counts[name]
    if count.wanted is None or count.exact is None or not count.exact[size]:
        return NearCount(count=value, measures=None, off=None)
    unit = count.wanted[size] / count.exact[size]
    measures = value * unit
    return NearCount(count=value, measures=measures, off=measures - count.wanted[size])


def with_value(
    graded: GradedPattern, context: SizeContext, name: str, value: int
) -> SizeContext | None:
    """The size with this value, counts made from it made anew; None where one cannot be."""
    counts = {
        one: context.counts[one]
        for one, count in graded.counts.items()
        if not needs_of(count.count)
    }
    counts[name] = value
    waiting = [count for one, count in graded.counts.items() if one not in counts]
    while waiting:
        ready = [count for count in waiting if needs_of(count.count) <= counts.keys()]
        if not ready:
            return None
        for count in ready:
            made = anew(count, counts, context.index)
            if made is None:
                return None
            counts[count.count.name] = made
            waiting.remove(count)
    return replace(context, counts=counts)


def _comes_out(graded: GradedPattern, pieces: tuple[Piece, ...], context: SizeContext) -> bool:
    names = graded.pattern.sizes.names
    for written in pieces:
        piece = made_piece(written, context.counts)
        if piece is None:
            return False
        lines = lines_of(piece, graded.pattern)
        counted = count_piece(lines, (context,), names, (None,))
        for line in counted:
            entry = line.per_size[0]
            if line.faults or (entry is not None and entry.sts is None):
                return False
    return True


def counts_used(graded: GradedPattern, piece: Piece) -> frozenset[str]:
    """The counts that the rows of a piece name, and those that they are made from."""
    named = counts_in(rows_of((piece,))) | shaped_by((piece,))
    return with_those_below(named, graded.pattern.counts)
