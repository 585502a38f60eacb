"""Shaping as data becomes a row in words, once counts have numbers.

Takes     a ``Pattern`` with sections that are shaped, its counts in every size.
Gives     ``with_shaping``: the pattern with a row in each such section; ``shaped_piece``: one piece
          with other counts.
Problems  ``shape-no-room``, ``shape-odd``, ``shape-both-ways``, ``name-unknown``, ``unit-formula``,
          ``count-not-whole``, ``count-negative``; ``shape-sum``, ``shape-clash`` of tracks,
          ``shape-stages``.
From      design.md, ``sections``: ``shape``; the arithmetic is that of ``arithmetic.shaping``.

Which rows it becomes is said in ``slopes`` and ``tracks``. "inc 1 st at each end every 5th row 0
(4) times, then every 6th row 9 (7) times (61 (65) sts)" is then a row like any other, and is proven
like any other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from workeven.arithmetic.formulas import FormulaFault
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.shaping import ShapingFault
from workeven.grading import slopes, tracks
from workeven.grading.figures import Figures, figures_from
from workeven.grading.formulas import Task, worked_out
from workeven.grading.sizes_of import in_size, names_of, others_of
from workeven.notation.parser import parse_row
from workeven.notation.tree import Row
from workeven.notation.vocabulary import Vocabulary
from workeven.pattern import Pattern, Piece, Section, Shape
from workeven.problems import Problem
from workeven.problems.words import joined

Counts = Mapping[str, PerSize[int]]


def with_shaping(pattern: Pattern, counts: Counts) -> tuple[Pattern, tuple[Problem, ...]]:
    """The pattern with the row of every shaping, as far as it can be had; and what is wrong."""
    if all(section.shape is None for piece in pattern.pieces for section in piece.sections):
        return pattern, ()
    problems: list[Problem] = []
    pieces = []
    for piece in pattern.pieces:
        sections = []
        for section in piece.sections:
            if section.shape is None:
                sections.append(section)
                continue
            rows, told = _rows(pattern, piece, section, section.shape, counts)
            problems += told
            sections.append(section if rows is None else replace(section, rows=rows))
        pieces.append(replace(piece, sections=tuple(sections)))
    return replace(pattern, pieces=tuple(pieces)), tuple(problems)


def shaped_piece(piece: Piece, counts: Mapping[str, int]) -> Piece | None:
    """The piece in one size with these counts; None where its shaping does not fit."""
    if all(section.shape is None for section in piece.sections):
        return piece
    try:
        sections = tuple(_shaped_section(section, counts) for section in piece.sections)
    except (FormulaFault, ShapingFault):
        return None
    return replace(piece, sections=sections)


def _shaped_section(section: Section, counts: Mapping[str, int]) -> Section:
    """The section with the rows that these counts make; raises a fault where they make none."""
    if section.shape is None or not section.rows:
        return section
    texts = _texts_in_one(section, section.shape, counts)
    return replace(section, rows=tuple(_parsed(text, section.rows[0]) for text in texts))


# --- one section in all sizes --------------------------------------------------------------


def _rows(
    pattern: Pattern, piece: Piece, section: Section, shape: Shape, counts: Counts
) -> tuple[tuple[Row, ...] | None, list[Problem]]:
    figures, problems = _figures(pattern, piece, section, shape, counts)
    if figures is None:
        return None, problems
    works = range(len(figures)) if section.sizes is None else section.sizes
    faults = {size: _fault(section, shape, figures[size]) for size in works}
    wrong = {size: fault for size, fault in faults.items() if fault is not None}
    if wrong:
        return None, list(_told(pattern, piece, shape, figures, wrong))
    if _both_ways([figures[size] for size in works]):
        return None, [_mixed(pattern, piece, shape, figures)]
    texts = _texts(pattern.sizes.names, section, shape, figures, works)
    vocabulary = Vocabulary("us", (), pattern.sizes.names)
    span = replace(shape.span, made=True)
    rows = (parse_row(text, span, vocabulary).value for text in texts)
    return tuple(row for row in rows if row is not None), []


def _texts(
    names: Sequence[str],
    section: Section,
    shape: Shape,
    figures: Sequence[Figures],
    works: Sequence[int],
) -> tuple[str, ...]:
    """The rows in words."""
    if shape.tracks:
        told = {size: tracks.told_in(section, shape, figures[size]) for size in works}
        return tracks.lines_of(section, shape, names, figures, told)
    return slopes.lines_of(section, shape, figures, works)


def _texts_in_one(section: Section, shape: Shape, counts: Mapping[str, int]) -> tuple[str, ...]:
    """The same in one size; raises ``FormulaFault``, ``ShapingFault``."""
    values = {key: int(formula.count(counts)) for key, formula in shape.named}
    figures = figures_from(shape, values)
    fault = _fault(section, shape, figures)
    if fault is not None:
        raise fault[1]
    return _texts(("",), section, shape, (figures,), (0,))


def _figures(
    pattern: Pattern, piece: Piece, section: Section, shape: Shape, counts: Counts
) -> tuple[tuple[Figures, ...] | None, list[Problem]]:
    """The numbers of the shaping in every size."""
    tasks = [
        Task(
            name=f"{piece.name}, {section.title}: shape {key}",
            formula=pattern.sizes.all(formula),
            span=shape.span,
            words=None,
        )
        for key, formula in shape.named
    ]
    values, problems = worked_out(tasks, counts)
    found = [values[task.name] for task in tasks if task.name in values]
    if len(found) < len(tasks):
        return None, list(problems)
    keys = [key for key, _ in shape.named]
    each = (dict(zip(keys, map(int, one), strict=True)) for one in zip(*found, strict=True))
    return tuple(figures_from(shape, one) for one in each), list(problems)


def _fault(section: Section, shape: Shape, figures: Figures) -> tuple[str, ShapingFault] | None:
    """The code and the words of what does not fit in one size."""
    if shape.tracks:
        return tracks.fault_in(section, shape, figures)
    return slopes.fault_in(shape, figures)


def _parsed(text: str, like: Row) -> Row:
    row = parse_row(text, like.span, Vocabulary()).value
    assert row is not None
    return row


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
                f"{in_size(pattern.sizes, size)}{faults[size][1].found}" for size in failing
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


def _mend(code: str, shape: Shape, faults: list[ShapingFault]) -> str:
    if code == "shape-odd" and not (shape.tracks or shape.spread):
        return "Give both counts the same `parity`, or shape at one end: `ends: 1`."
    cures = list(dict.fromkeys(fault.mend for fault in faults))
    if len(cures) == 1:
        return cures[0]
    if code == "shape-stages":
        return "Give both counts the same `multiple` and `plus`, or take fewer stages."
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
