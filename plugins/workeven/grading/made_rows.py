"""Rows told as data become rows in words, once counts have numbers.

Takes     a ``Pattern`` with sections that are shaped or have holes, its counts in every size.
Gives     ``with_made_rows``: the pattern with the rows of each such section; ``made_piece``: one
          piece with other counts.
Problems  those of ``shaping``; ``holes-no-room``; ``name-unknown``, ``unit-formula``,
          ``count-not-whole``, ``count-negative``.
From      design.md, ``sections``: ``shape``, ``holes``.

Which rows they become is said in ``slopes``, ``tracks`` and ``holes``. "inc 1 st at each end every
5th row 0 (4) times, then every 6th row 9 (7) times (61 (65) sts)" is then a row like any other, and
is proven like any other.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from workeven.arithmetic.formulas import FormulaFault
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.shaping import ShapingFault
from workeven.grading import holes, shaping
from workeven.grading.formulas import Task, worked_out
from workeven.grading.sizes_of import in_size, names_of, others_of
from workeven.notation.parser import parse_row
from workeven.notation.tree import Row
from workeven.notation.vocabulary import Vocabulary
from workeven.pattern import Holes, Pattern, Piece, Section, Shape
from workeven.problems import Problem, Span
from workeven.records import replace

Counts = Mapping[str, PerSize[int]]
Values = Mapping[str, int]


def with_made_rows(pattern: Pattern, counts: Counts) -> tuple[Pattern, tuple[Problem, ...]]:
    """The pattern with all rows that are made from data, as far as they can be had.

    And what is wrong with the others.
    """
    if all(one.made_from is None for piece in pattern.pieces for one in piece.sections):
        return pattern, ()
    problems: list[Problem] = []
    pieces = []
    for piece in pattern.pieces:
        sections = []
        for section in piece.sections:
            rows, told = None, list[Problem]()
            if section.made_from is not None:
                rows, told = _rows(pattern, piece, section, section.made_from, counts)
            problems += told
            sections.append(section if rows is None else replace(section, rows=rows))
        pieces.append(replace(piece, sections=tuple(sections)))
    return replace(pattern, pieces=tuple(pieces)), tuple(problems)


def made_piece(piece: Piece, counts: Values) -> Piece | None:
    """The piece in one size with these counts; None where what is asked for does not fit."""
    if all(section.made_from is None for section in piece.sections):
        return piece
    try:
        sections = tuple(_made_section(section, counts) for section in piece.sections)
    except (FormulaFault, ShapingFault):
        return None
    return replace(piece, sections=sections)


def _made_section(section: Section, counts: Values) -> Section:
    """The section with the rows that these counts make; raises a fault where they make none."""
    made = section.made_from
    if made is None or not section.rows:
        return section
    values = {key: int(formula.count(counts)) for key, formula in made.named}
    if isinstance(made, Holes):
        texts = holes.lines_of(section, made, ("",), (values,), (0,))
    else:
        texts = shaping.lines_in_one(section, made, values)
    like = section.rows[0].span
    return replace(section, rows=_parsed(texts, replace(like, made=False), ()))


# --- one section in all sizes --------------------------------------------------------------


def _rows(
    pattern: Pattern, piece: Piece, section: Section, made: Shape | Holes, counts: Counts
) -> tuple[tuple[Row, ...] | None, list[Problem]]:
    values, problems = _values(pattern, piece, section, made, counts)
    if values is None:
        return None, problems
    works = range(len(values)) if section.sizes is None else section.sizes
    if isinstance(made, Holes):
        problems = _no_room(pattern, piece, section, made, values, works)
    else:
        problems = shaping.problems_of(pattern, piece, section, made, values, works)
    if problems:
        return None, problems
    names = pattern.sizes.names
    if isinstance(made, Holes):
        texts = holes.lines_of(section, made, names, values, works)
    else:
        texts = shaping.lines_of(section, made, names, values, works)
    return _parsed(texts, made.span, names), []


def _values(
    pattern: Pattern, piece: Piece, section: Section, made: Shape | Holes, counts: Counts
) -> tuple[tuple[Values, ...] | None, list[Problem]]:
    """The numbers of the formulas in every size, by the keys that they stand at."""
    kind = "holes" if isinstance(made, Holes) else "shape"
    tasks = [
        Task(
            name=f"{piece.name}, {section.title}: {kind} {key}",
            formula=pattern.sizes.all(formula),
            span=made.span,
            words=None,
        )
        for key, formula in made.named
    ]
    values, problems = worked_out(tasks, counts)
    found = [values[task.name] for task in tasks if task.name in values]
    if len(found) < len(tasks):
        return None, list(problems)
    keys = [key for key, _ in made.named]
    each = zip(*found, strict=True)
    return tuple(dict(zip(keys, map(int, one), strict=True)) for one in each), list(problems)


def _parsed(texts: Sequence[str], span: Span, names: Sequence[str]) -> tuple[Row, ...]:
    """The rows; their parts have no places of their own."""
    vocabulary = Vocabulary("us", (), tuple(names))
    rows = (parse_row(text, replace(span, made=True), vocabulary).value for text in texts)
    return tuple(row for row in rows if row is not None)


def _no_room(
    pattern: Pattern,
    piece: Piece,
    section: Section,
    made: Holes,
    values: Sequence[Values],
    works: Sequence[int],
) -> list[Problem]:
    """Holes that do not fit, in all their sizes."""
    faults = {size: holes.fault_in(section, made, values[size]) for size in works}
    wrong = {size: fault for size, fault in faults.items() if fault is not None}
    if not wrong:
        return []
    cures = list(dict.fromkeys(fault.mend for fault in wrong.values()))
    return [
        Problem(
            code="holes-no-room",
            span=made.span,
            piece=piece.title,
            found="the holes do not fit into the row.",
            expected="\n".join(
                f"{in_size(pattern.sizes, size)}{fault.found}" for size, fault in wrong.items()
            ),
            mend=cures[0]
            if len(cures) == 1
            else "Take fewer or narrower ones, or a smaller margin.",
            sizes=names_of(pattern.sizes, list(wrong)),
            good_sizes=others_of(pattern.sizes, list(wrong)),
        )
    ]
