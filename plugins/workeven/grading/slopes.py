"""One shaping along a length: in one size as plans, in all sizes as rows.

Takes     a ``Shape`` without tracks and its figures in every size.
Gives     ``lines_of``: the rows that tell it in all sizes; ``fault_in``: what is wrong in one.
Problems  codes of ``shape-odd``, ``shape-no-room``, ``shape-stages``, reported by
          ``grading.shaping``.
From      design.md, ``sections``: ``shape``; the arithmetic is that of ``arithmetic.shaping``.

Each size has plans of its own. They are told together, as a maker reads them: every rate that some
size has, the faster first in each part of the curve, and a 0 for a size that does not have it.
"leave 4 (5) sts unworked at each end" and "inc 24 (27) sts evenly" are rows of their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from workeven.arithmetic.printing import print_list
from workeven.arithmetic.shaping import (
    Plan,
    ShapingFault,
    Stage,
    between,
    in_stages,
)
from workeven.arithmetic.shaping.words import (
    every,
    leave_words,
    rows_even,
    stage_words,
    times_by_size,
    where,
)
from workeven.grading.figures import Figures
from workeven.pattern import Section, Shape

_NOTHING = Plan(rates=(), plain=0)


class _Said(NamedTuple):
    """What a shaping is told with: a row or a round, more or fewer stitches."""

    row: str
    change: str
    section: Section
    shape: Shape


def fault_in(shape: Shape, figures: Figures) -> tuple[str, ShapingFault] | None:
    """The code and the words of what does not fit in one size; None where all does."""
    if figures.stages is not None:
        try:
            _stages(shape, figures)
        except ShapingFault as fault:
            return "shape-stages", fault
        return None
    try:
        _parts(shape, figures)
    except ShapingFault as fault:
        changed = _each(shape, figures)
        odd = changed > 0 and (abs(figures.end - figures.start) - _left(shape, figures)) % changed
        return ("shape-odd" if odd else "shape-no-room"), fault
    return None


def lines_of(
    section: Section, shape: Shape, figures: Sequence[Figures], works: Sequence[int]
) -> tuple[str, ...]:
    """The rows of all sizes; one that does not work the section has no rows in them."""
    change = "inc" if any(one.end > one.start for one in figures) else "dec"
    said = _Said("row" if section.worked == "flat rows" else "rnd", change, section, shape)
    if shape.stages is not None:
        return tuple(_in_stages(said, figures, works))
    return tuple(_along(said, figures, works))


# --- in one size ---------------------------------------------------------------------------


def _parts(shape: Shape, figures: Figures) -> tuple[Plan, ...]:
    """The plans one after the other, behind the row in which stitches are left."""
    slope, changed = shape.slope, _each(shape, figures)
    if figures.markers is not None and (figures.markers < 1 or changed % figures.markers):
        raise ShapingFault(
            f"{changed} stitches cannot be shared by {figures.markers} markers.",
            "Let a shaped row change as many at each marker.",
        )
    return between(
        (figures.start, figures.end),
        figures.over,
        changed=changed,
        leave=None if shape.leave is None else _left(shape, figures),
        curve=slope.curve,
        every_second_row=slope.second_row,
        straight_end=slope.straight_end,
    )


def _left(shape: Shape, figures: Figures) -> int:
    """How many stitches are left unworked in all."""
    return figures.leave * shape.slope.ends


def _each(shape: Shape, figures: Figures) -> int:
    """How many stitches a shaped row changes."""
    return shape.slope.ends if figures.spread is None else figures.spread


def _stages(shape: Shape, figures: Figures) -> tuple[Stage, ...]:
    ends = shape.slope.ends if shape.at_edge else 1
    return in_stages(
        figures.start,
        figures.end,
        figures.over,
        figures.stages or 0,
        multiple=figures.multiple * ends,
    )


# --- the words -----------------------------------------------------------------------------


def _along(said: _Said, figures: Sequence[Figures], works: Sequence[int]) -> Iterator[str]:
    """The row in which stitches are left, and the shaping behind it."""
    shape = said.shape
    sizes = range(len(figures))
    parts = [_parts(shape, figures[size]) if size in works else (_NOTHING,) for size in sizes]
    if shape.leave is not None:
        # a size that does not work the section leaves nothing, and the row is worked no more
        place = shape.slope.edge if shape.slope.ends == 1 else "each end"
        left = print_list([one.leave for one in figures])
        sts = print_list([max(one.start - _left(shape, one), 0) for one in figures])
        yield f"{leave_words(left, place)} ({sts} sts)"
    words = _words(said, figures, parts)
    if words:
        yield f"{words} ({print_list([one.end for one in figures])} sts)"


def _words(said: _Said, figures: Sequence[Figures], parts: Sequence[tuple[Plan, ...]]) -> str:
    """The plans of all sizes in one row, part by part."""
    rates: list[tuple[int, list[int]]] = []
    for at in range(max(map(len, parts))):
        plans = [one[at] if at < len(one) else _NOTHING for one in parts]
        for number in sorted({rate.every for one in plans for rate in one.rates}):
            times = [sum(rate.times for rate in one.rates if rate.every == number) for one in plans]
            if rates and rates[-1][0] == number:  # a part goes on at the rate of the one before
                times = [sum(both) for both in zip(rates.pop()[1], times, strict=True)]
            rates.append((number, times))
    told = [f"{every(number, said.row)} {times_by_size(times)}" for number, times in rates]
    if told:
        told[0] = f"{said.change} {_where(said, figures)} {told[0]}"
    plain = [sum(part.plain for part in one) for one in parts]
    if any(plain):
        told.append(rows_even(plain, said.row))
    return ", then ".join(told)


def _where(said: _Said, figures: Sequence[Figures]) -> str:
    """What a shaped row changes, and where."""
    if said.shape.markers is not None:
        return _at_markers(figures)
    if said.shape.spread is not None:
        return f"{print_list([one.spread or 0 for one in figures])} sts evenly"
    slope = said.shape.slope
    return where(slope.ends, rounds=said.row == "rnd", edge=slope.edge)


def _at_markers(figures: Sequence[Figures]) -> str:
    """As many stitches at each marker, on both sides of it where they are even."""
    markers = [one.markers or 1 for one in figures]
    each = [(one.spread or 0) // number for one, number in zip(figures, markers, strict=True)]
    place = "at"
    if not any(number % 2 for number in each):
        each, place = [number // 2 for number in each], "on each side of"
    sts = f"{print_list(each)} st{'' if set(each) == {1} else 's'}"
    many = set(markers) != {1}
    return f"{sts} {place} {'each of ' if many else ''}{print_list(markers)} marker{'s' * many}"


def _in_stages(said: _Said, figures: Sequence[Figures], works: Sequence[int]) -> Iterator[str]:
    """A row for each stage, and the rows even before it."""
    slope = said.shape.slope
    each = [_stages(said.shape, one) if size in works else () for size, one in enumerate(figures)]
    for at in range(max(map(len, each))):
        stages = [one[at] if at < len(one) else None for one in each]
        even = [0 if one is None else one.rows - 1 for one in stages]
        if any(even):
            yield rows_even(even, said.row)
        changed = [0 if one is None else one.change for one in stages]
        sts = [
            figure.end if one is None else one.sts
            for one, figure in zip(stages, figures, strict=True)
        ]
        words = stage_words(
            said.change,
            changed,
            ends=slope.ends if said.shape.at_edge else None,
            edge=slope.edge,
            row=said.row,
        )
        yield f"{words} ({print_list(sts)} sts)"
