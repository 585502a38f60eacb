"""Shaping as data: the rows that it becomes in all sizes, and what is wrong with it.

Takes     a ``Shape`` and the values of its formulas in every size.
Gives     ``lines_of``, ``lines_in_one``: its rows in words; ``problems_of``.
Problems  ``shape-no-room``, ``shape-odd``, ``shape-both-ways``; ``shape-sum``, ``shape-clash`` of
          tracks; ``shape-stages``.
From      design.md, ``sections``: ``shape``; the arithmetic is that of ``arithmetic.shaping``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from workeven.arithmetic.shaping import ShapingFault
from workeven.grading import slopes, tracks
from workeven.grading.figures import Figures, figures_from
from workeven.grading.sizes_of import in_size, names_of, others_of
from workeven.pattern import Pattern, Piece, Section, Shape
from workeven.problems import Problem
from workeven.problems.words import joined

Values = Mapping[str, int]


def lines_of(
    section: Section,
    shape: Shape,
    names: Sequence[str],
    values: Sequence[Values],
    works: Sequence[int],
) -> tuple[str, ...]:
    """The rows of all sizes that work the section; raises ``ShapingFault``."""
    figures = [figures_from(shape, one) for one in values]
    if shape.tracks:
        told = {size: tracks.told_in(section, shape, figures[size]) for size in works}
        return tracks.lines_of(section, shape, names, figures, told)
    return slopes.lines_of(section, shape, figures, works)


def lines_in_one(section: Section, shape: Shape, values: Values) -> tuple[str, ...]:
    """The same in one size; raises ``ShapingFault``."""
    fault = _fault(section, shape, figures_from(shape, values))
    if fault is not None:
        raise fault[1]
    return lines_of(section, shape, ("",), (values,), (0,))


def problems_of(
    pattern: Pattern,
    piece: Piece,
    section: Section,
    shape: Shape,
    values: Sequence[Values],
    works: Sequence[int],
) -> list[Problem]:
    """What does not fit, in the sizes that work the section."""
    figures = [figures_from(shape, one) for one in values]
    faults = {size: _fault(section, shape, figures[size]) for size in works}
    wrong = {size: fault for size, fault in faults.items() if fault is not None}
    if wrong:
        return list(_told(pattern, piece, shape, figures, wrong))
    if _both_ways([figures[size] for size in works]):
        return [_mixed(pattern, piece, shape, figures)]
    return []


def _fault(section: Section, shape: Shape, figures: Figures) -> tuple[str, ShapingFault] | None:
    """The code and the words of what does not fit in one size."""
    if shape.tracks:
        return tracks.fault_in(section, shape, figures)
    return slopes.fault_in(shape, figures)


# --- what can be wrong ---------------------------------------------------------------------


_FOUND = {
    "shape-sum": "the tracks do not add up to the shaping.",
    "shape-odd": "an odd number of stitches is to change, and each shaped row changes two.",
    "shape-no-room": "the shaping does not fit into its rows.",
    "shape-stages": "the shaping cannot be divided so.",
    "shape-clash": "two tracks meet in a row that cannot be told.",
}


_NO_WHOLE_ROWS = "the stitches that are to change are no whole number of shaped rows."


def _told(
    pattern: Pattern,
    piece: Piece,
    shape: Shape,
    figures: Sequence[Figures],
    faults: Mapping[int, tuple[str, ShapingFault]],
) -> Iterator[Problem]:
    """What does not fit, one message for all sizes of one kind."""
    for code, found in _FOUND.items():
        failing = [size for size, fault in faults.items() if fault[0] == code]
        if not failing:
            continue
        yield Problem(
            code=code,
            span=shape.span,
            piece=piece.title,
            found=_NO_WHOLE_ROWS if code == "shape-odd" and shape.spread is not None else found,
            expected="\n".join(
                _by_size(pattern, {size: faults[size][1].found for size in failing})
            ),
            mend=_mend(code, shape, [faults[size][1] for size in failing]),
            sizes=names_of(pattern.sizes, failing),
            good_sizes=others_of(pattern.sizes, failing),
            figures=(
                ("from", tuple(str(figures[size].start) for size in failing)),
                ("to", tuple(str(figures[size].end) for size in failing)),
                ("over", tuple(str(figures[size].over) for size in failing)),
            ),
        )


def _by_size(pattern: Pattern, found: Mapping[int, str]) -> Iterator[str]:
    """What is wrong in which sizes; where it is the same in all of several, it is said once."""
    for words in dict.fromkeys(found.values()):
        sizes = [size for size, one in found.items() if one == words]
        if len(sizes) == 1:
            yield f"{in_size(pattern.sizes, sizes[0])}{words}"
        else:
            yield f"In {joined(names_of(pattern.sizes, sizes))}: {words}"


def _mend(code: str, shape: Shape, faults: list[ShapingFault]) -> str:
    if code == "shape-odd" and not (shape.tracks or shape.spread):
        return "Give both counts the same `parity`, or shape at one end: `ends: 1`."
    cures = list(dict.fromkeys(fault.mend for fault in faults))
    if len(cures) == 1:
        return cures[0]
    if code == "shape-stages":
        return "Give both counts the same `multiple` and `plus`, or change the stages."
    return "Give it more rows, or shape less."


def _both_ways(figures: Sequence[Figures]) -> bool:
    """Whether some sizes increase and others decrease."""
    return len({one.end > one.start for one in figures if one.end != one.start}) > 1


def _mixed(pattern: Pattern, piece: Piece, shape: Shape, figures: Sequence[Figures]) -> Problem:
    less = [size for size, one in enumerate(figures) if one.end < one.start]
    names = names_of(pattern.sizes, less)
    return Problem(
        code="shape-both-ways",
        span=shape.span,
        piece=piece.title,
        found="some sizes increase here and others decrease, which one row cannot tell.",
        expected=f"Decreasing: {joined(names)}. The others increase or stay.",
        mend="Change the counts, or make two sections with `sizes`.",
        sizes=names,
        good_sizes=others_of(pattern.sizes, less),
    )
