"""Edges that are joined, held against each other in every size.

Takes     the proven pieces of a pattern.
Gives     ``proven_seams``: ``ProvenSeam`` for each seam that could be measured.
Problems  ``seam-length``, ``seam-unmeasured``.
From      design.md, ``seams``: what is joined to what.

Each edge is of whole stitches or rows, so it may be half of one off on its own. Where the file
states no tolerance, the lengths may differ by those halves together, always by 10 mm, and never by
more than 15 mm: so much is eased in, and no more is left to chance.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.quantities import decimal, print_cm, print_in
from workeven.arithmetic.units import CM
from workeven.grading import GradedPattern
from workeven.pattern.seam_records import EdgePart, Seam
from workeven.problems import Problem
from workeven.problems.words import quote
from workeven.proof.edge_lengths import EdgeLengths, Measured
from workeven.proof.proven import ProvenPiece
from workeven.records import record, replace

_AT_LEAST_MM = 10
LEAST_TOLERANCE = Fraction(_AT_LEAST_MM)
MOST_TOLERANCE = Fraction(15)


@record
class ProvenSeam:
    """A seam with both of its sides in every size; None for a size that has nothing to join."""

    seam: Seam
    first: PerSize[Measured | None]
    second: PerSize[Measured | None]


def proven_seams(
    graded: GradedPattern, pieces: tuple[ProvenPiece, ...]
) -> tuple[tuple[ProvenSeam, ...], tuple[Problem, ...]]:
    """Every seam that could be measured, and what is wrong with any."""
    by_name = {piece.piece.name: piece for piece in pieces}
    found: list[ProvenSeam] = []
    problems: list[Problem] = []
    unmeasured: list[Problem] = []
    lengths = EdgeLengths(graded)
    for seam in graded.pattern.seams:
        sides, faults = _sides(lengths, by_name, seam)
        unmeasured += faults
        if sides is not None and not faults:
            found.append(sides)
            problems += _off(graded, sides)
    return tuple(found), (*_together(unmeasured), *problems)


def _sides(
    lengths: EdgeLengths, pieces: Mapping[str, ProvenPiece], seam: Seam
) -> tuple[ProvenSeam | None, list[Problem]]:
    faults: list[Problem] = []
    sizes = lengths.graded.pattern.sizes
    lines: list[PerSize[Measured | None]] = []
    for side in (seam.first, seam.second):
        in_size: list[Measured | None] = []
        for size in range(len(sizes)):
            one = _side(lengths, pieces, side, size)
            faults += one if isinstance(one, list) else []
            in_size.append(one if isinstance(one, Measured) else None)
        lines.append(sizes.each(tuple(in_size)))
    return ProvenSeam(seam=seam, first=lines[0], second=lines[1]), faults


def _side(
    lengths: EdgeLengths, pieces: Mapping[str, ProvenPiece], side: tuple[EdgePart, ...], size: int
) -> Measured | list[Problem] | None:
    """The edges of one side put together; None where the size makes none of their pieces."""
    total: Measured | None = None
    faults: list[Problem] = []
    for part in side:
        piece = pieces[part.piece]
        if piece.piece.make[size] == 0:
            continue
        worked = pieces[piece.piece.mirror or part.piece]
        edge = next(one for one in piece.piece.edges if one.name == part.edge)
        one = lengths.measured(worked, edge, size)
        if isinstance(one, Problem):
            faults.append(one)
            continue
        if total is None and part.times == 1:
            total = one
            continue
        before = total or Measured(sts=0, rows=0, length=Fraction(0), half=Fraction(0))
        total = Measured(
            sts=before.sts + part.times * one.sts,
            rows=before.rows + part.times * one.rows,
            length=before.length + part.times * one.length,
            half=before.half + part.times * one.half,
            row_edges=before.row_edges + part.times * one.row_edges,
            row=max(before.row, one.row),
        )
    return faults or total


def _together(faults: list[Problem]) -> Iterator[Problem]:
    """One problem for a mistake: the first edge that has it, with all its sizes."""
    told: dict[str, Problem] = {}
    for fault in faults:
        why = fault.found.partition(": ")[2]
        before = told.setdefault(why, fault)
        if before.span == fault.span:
            sizes = dict.fromkeys((*(before.sizes or ()), *(fault.sizes or ())))
            told[why] = replace(before, sizes=tuple(sizes))
    yield from told.values()


def _off(graded: GradedPattern, proven: ProvenSeam) -> Iterator[Problem]:
    """The two sides are as long as each other, less the ease that is meant."""
    pattern, seam = graded.pattern, proven.seam
    stated = seam.tolerance if seam.tolerance is not None else pattern.tolerance
    if stated is None:
        stated = pattern.studio.tolerance
    failing: list[int] = []
    for size, (one, other) in enumerate(zip(proven.first, proven.second, strict=True)):
        if one is None or other is None:
            continue
        off, ease = one.length - other.length, seam.ease[size]
        off = abs(off - ease if ease else off)
        if off.numerator <= _AT_LEAST_MM * off.denominator and stated is None:
            continue  # so much is always let be
        if off > (_limit(one, other) if stated is None else stated):
            failing.append(size)
    if failing:
        names = pattern.sizes.names
        yield Problem(
            code="seam-length",
            span=seam.span,
            found=f"{quote(seam.title)}: {quote(seam.first_words)} does not fit "
            f"{quote(seam.second_words)}.",
            expected="\n".join(_line(proven, size) for size in failing),
            mend=_mend(proven, failing),
            sizes=tuple(names[size] for size in failing),
            good_sizes=tuple(name for size, name in enumerate(names) if size not in failing),
            figures=(
                ("first_cm", _figures(proven.first, failing)),
                ("second_cm", _figures(proven.second, failing)),
            ),
        )


def _limit(one: Measured, other: Measured) -> Fraction:
    """How far two sides may differ where the file does not say it (mm)."""
    return min(max(one.half + other.half, LEAST_TOLERANCE), MOST_TOLERANCE)


def _figures(side: PerSize[Measured | None], failing: list[int]) -> tuple[str, ...]:
    found = (side[size] for size in failing)
    return tuple(decimal(one.length / CM) for one in found if one is not None)


def _line(proven: ProvenSeam, size: int) -> str:
    name = proven.first.sizes.names[size]
    one, other, ease = proven.first[size], proven.second[size], proven.seam.ease[size]
    if one is None or other is None:
        return ""
    off = one.length - other.length - ease
    meant = f", {_both(ease)} of ease included" if ease else ""
    return (
        f"In {name}: {counted(one)}, {_both(one.length)}, on {counted(other)}, "
        f"{_both(other.length)}; {_both(abs(off))} too {'long' if off > 0 else 'short'}{meant}."
    )


def counted(side: Measured) -> str:
    """``40 sts``, ``35 rows``, ``40 sts and 35 rows``."""
    said = [f"{side.sts} sts"] if side.sts or not side.rows else []
    return " and ".join([*said, *([f"{side.rows} rows"] if side.rows else [])])


def _mend(proven: ProvenSeam, failing: list[int]) -> str:
    """How many stitches of the first side would fit, or how many rows more or fewer."""
    offers = []
    for size in failing:
        one, other = proven.first[size], proven.second[size]
        if one is None or other is None or not (one.sts or one.row_edges):
            return "Change one of the edges, or state the `ease` that you mean."
        name = proven.first.sizes.names[size]
        wanted = other.length + proven.seam.ease[size]
        if one.row_edges:
            more = (wanted - one.length) / (one.row_edges * one.row)
            offers.append(f"{name} {_signed((more + Fraction(1, 2)).__floor__())}")
        else:
            fits = wanted / (one.length / one.sts) + Fraction(1, 2)
            offers.append(f"{name} {fits.__floor__()}")
    sides = [side for size in failing if (side := proven.first[size]) is not None]
    if all(side.row_edges for side in sides):
        most = max(side.row_edges for side in sides)
        where = "" if most == 1 else f" at each of its {most} edges"
        told = f"With so many rows more or fewer{where}, if its shaping lets, the first side fits: "
    else:
        told = "These stitches would fit: "
    return f"{told}{', '.join(offers)}. Or state the `ease` that you mean."


def _signed(number: int) -> str:
    return f"+{number}" if number > 0 else f"−{-number}" if number < 0 else "0"


def _both(mm: Fraction) -> str:
    return f"{print_cm(mm)} ({print_in(mm)})"
