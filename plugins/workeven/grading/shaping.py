"""Shaping as data becomes a row in words, once counts have numbers.

Takes     a ``Pattern`` with sections that are shaped, its counts in every size.
Gives     ``with_shaping``: the pattern with a row in each such section; ``shaped_piece``: one piece
          with other counts.
Problems  ``shape-no-room``, ``shape-odd``, ``shape-both-ways``, ``name-unknown``, ``unit-formula``,
          ``count-not-whole``, ``count-negative``.
From      design.md, ``sections``: ``shape``; the arithmetic is that of ``arithmetic.shaping``.

Each size has a plan of its own, at one rate or two. They are told together, as a maker reads them:
every rate that some size has, the faster first, and a 0 for a size that does not have it. "inc 1 st
at each end every 5th row 0 (4) times, then every 6th row 9 (7) times (61 (65) sts)" is then a row
like any other, and is proven like any other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from workeven.arithmetic.formulas import Formula, FormulaFault
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import print_list
from workeven.arithmetic.shaping import Plan, ShapingFault, plan, steps_between
from workeven.arithmetic.shaping.words import every, where
from workeven.grading.formulas import Task, worked_out
from workeven.grading.sizes_of import in_size, names_of, others_of
from workeven.notation.parser import parse_row
from workeven.notation.tree import Row
from workeven.notation.vocabulary import Vocabulary
from workeven.pattern import Pattern, Piece, Section, Shape
from workeven.problems import Problem
from workeven.problems.words import joined

Counts = Mapping[str, PerSize[int]]


class Figures(NamedTuple):
    """Stitches before and after, and rows, in one size."""

    start: int
    end: int
    over: int


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
            row, told = _row(pattern, piece, section, section.shape, counts)
            problems += told
            sections.append(section if row is None else replace(section, rows=(row,)))
        pieces.append(replace(piece, sections=tuple(sections)))
    return replace(pattern, pieces=tuple(pieces)), tuple(problems)


def shaped_piece(piece: Piece, counts: Mapping[str, int]) -> Piece | None:
    """The piece in one size with these counts; None where its shaping does not fit."""
    if all(section.shape is None for section in piece.sections):
        return piece
    sections = []
    for section in piece.sections:
        shape = section.shape
        if shape is not None:
            try:
                figures = Figures(*(int(one.count(counts)) for one in _formulas(shape)))
                planned = _plan(shape, figures)
            except (FormulaFault, ShapingFault):
                return None
            text = _words(section, shape, (figures,), (planned,))
            rows = (_parsed(text, section.rows[0]),) if section.rows else ()
            section = replace(section, rows=rows)  # noqa: PLW2901, the same with its row
        sections.append(section)
    return replace(piece, sections=tuple(sections))


# --- one section in all sizes --------------------------------------------------------------


def _row(
    pattern: Pattern, piece: Piece, section: Section, shape: Shape, counts: Counts
) -> tuple[Row | None, list[Problem]]:
    figures, problems = _figures(pattern, piece, section, shape, counts)
    if figures is None:
        return None, problems
    plans: list[Plan] = []
    faults: dict[int, ShapingFault] = {}
    for size, one in enumerate(figures):
        works = section.sizes is None or size in section.sizes
        try:
            plans.append(_plan(shape, one if works else Figures(0, 0, 1)))
        except ShapingFault as fault:
            faults[size] = fault
    problems = list(_told(pattern, piece, shape, figures, faults))
    if problems:
        return None, problems
    if _both_ways(figures):
        return None, [_mixed(pattern, piece, shape, figures)]
    text = _words(section, shape, figures, plans)
    vocabulary = Vocabulary("us", (), pattern.sizes.names)
    return parse_row(text, shape.span, vocabulary).value, []


def _formulas(shape: Shape) -> tuple[Formula, Formula, Formula]:
    return shape.start, shape.end, shape.over


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
        for key, formula in (("from", shape.start), ("to", shape.end), ("over", shape.over))
    ]
    values, problems = worked_out(tasks, counts)
    found = [values.get(task.name) for task in tasks]
    start, end, over = found
    if start is None or end is None or over is None:
        return None, list(problems)
    each = zip(start, end, over, strict=True)
    return tuple(Figures(*map(int, one)) for one in each), list(problems)


def _plan(shape: Shape, figures: Figures) -> Plan:
    times = steps_between(figures.start, figures.end, shape.ends)
    return plan(
        times,
        figures.over,
        every_second_row=shape.second_row,
        straight_end=shape.straight_end,
    )


# --- the words -----------------------------------------------------------------------------


def _words(
    section: Section, shape: Shape, figures: Sequence[Figures], plans: Sequence[Plan]
) -> str:
    """The plans of all sizes in one row."""
    rounds = section.worked != "flat rows"
    row = "rnd" if rounds else "row"
    change = "inc" if any(one.end > one.start for one in figures) else "dec"
    rates = sorted({rate.every for planned in plans for rate in planned.rates})
    parts = []
    for number in rates:
        times = [
            sum(rate.times for rate in planned.rates if rate.every == number) for planned in plans
        ]
        parts.append(f"{every(number, row)} {print_list(times)} times")
    if parts:
        parts[0] = f"{change} {where(shape.ends, rounds=rounds, edge=shape.edge)} {parts[0]}"
    plain = [planned.plain for planned in plans]
    if any(plain):
        parts.append(f"work {print_list(plain)} {row}s even")
    return f"{', then '.join(parts)} ({print_list([one.end for one in figures])} sts)"


def _parsed(text: str, like: Row) -> Row:
    row = parse_row(text, like.span, Vocabulary()).value
    assert row is not None
    return row


# --- what can be wrong ---------------------------------------------------------------------


def _told(
    pattern: Pattern,
    piece: Piece,
    shape: Shape,
    figures: Sequence[Figures],
    faults: Mapping[int, ShapingFault],
) -> Iterator[Problem]:
    """What does not fit, one message for all sizes of one kind."""
    odd = [size for size in faults if (figures[size].end - figures[size].start) % shape.ends]
    rest = [size for size in faults if size not in odd]
    for code, failing in (("shape-odd", odd), ("shape-no-room", rest)):
        if not failing:
            continue
        found = (
            "the stitches before and after the shaping differ by an odd number, and each shaped "
            "row changes two."
            if code == "shape-odd"
            else "the shaping does not fit into its rows."
        )
        yield Problem(
            code=code,
            span=shape.span,
            piece=piece.title,
            found=found,
            expected="\n".join(
                f"{in_size(pattern.sizes, size)}{faults[size].found}" for size in failing
            ),
            mend=_mend(code, [faults[size] for size in failing]),
            sizes=names_of(pattern.sizes, failing),
            good_sizes=others_of(pattern.sizes, failing),
            figures=(
                ("from", tuple(str(figures[size].start) for size in failing)),
                ("to", tuple(str(figures[size].end) for size in failing)),
                ("over", tuple(str(figures[size].over) for size in failing)),
            ),
        )


def _mend(code: str, faults: list[ShapingFault]) -> str:
    if code == "shape-odd":
        return "Give both counts the same `parity`, or shape at one end: `ends: 1`."
    cures = list(dict.fromkeys(fault.mend for fault in faults))
    return cures[0] if len(cures) == 1 else "Give it more rows, or shape less."


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
