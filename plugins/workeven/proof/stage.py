"""The proof of a whole pattern: every row of every piece in every size.

Takes     ``GradedPattern``.
Gives     ``ProvenPattern``.
Problems  those of the rows (``messages``), of their lengths (``lengths``), of fits (``eases``),
          of rows made from data (``made_start``).
From      notation.md; design.md, "A pattern file".
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import groupby

from workeven.arithmetic.per_size import PerSize
from workeven.grading import GradedPattern
from workeven.pattern import ComputedCount, Pattern, Piece, Section
from workeven.problems import Checked, Note, Problem, Severity
from workeven.problems.catalogue import severity
from workeven.problems.once import told_once
from workeven.proof.by_size import offered
from workeven.proof.context import SizeContext
from workeven.proof.eases import eases_left, fit_problems, held_widths
from workeven.proof.lengths import length_problems
from workeven.proof.line import CountedLine, Known, Lined
from workeven.proof.lines import contexts_of, lines_of
from workeven.proof.made_start import off_start
from workeven.proof.messages import asked_chain, problems_of, turning_chain_advice
from workeven.proof.nearest import counts_used, nearest_counts
from workeven.proof.piece import count_piece
from workeven.proof.proven import (
    Counted,
    ProvenPattern,
    ProvenPiece,
    ProvenRow,
    ProvenSection,
)
from workeven.proof.samples import gauge_problems
from workeven.proof.seams import proven_seams
from workeven.records import replace


def prove(graded: GradedPattern) -> Checked[ProvenPattern]:
    """Count every row of every size; the record is given where every row could be read."""
    pattern = graded.pattern
    contexts = contexts_of(graded)
    problems: list[Problem] = []
    pieces: list[ProvenPiece] = []
    heights: dict[str, dict[int, Fraction]] = {}
    known: Known = {}
    for piece in pattern.pieces:
        if piece.mirror is not None:
            continue
        lines = tuple(lines_of(piece, pattern))
        start = (None,) * len(contexts)
        counted = count_piece(lines, contexts, pattern.sizes.names, start, known=known)
        told = tuple(_problems(counted, contexts, pattern, piece, heights))
        problems.extend(_with_starting_counts(told, graded, piece))
        pieces.append(_proven(piece, counted, pattern))
    swatches: list[Counted] = []
    for at, swatch in enumerate(pattern.swatches):
        worked, found = _swatch(at, pattern, contexts, known)
        swatches.append(worked)
        problems.extend(found)
        del swatch
    finished = _finished(graded, heights)
    left = eases_left(graded, finished)
    problems.extend(fit_problems(pattern, left, finished))
    whole = _with_mirrored(pattern, pieces)
    seams, seam_problems = proven_seams(graded, whole)
    # an edge of rows that do not come out is not measured, and says nothing more
    problems.extend(() if problems and _wrong(problems) else seam_problems)
    return Checked(
        value=ProvenPattern(
            graded=graded,
            seams=seams,
            pieces=whole,
            swatches=tuple(swatches),
            finished=finished,
            ease=left,
        ),
        problems=tuple(told_once(problems)),
    )


def _wrong(problems: list[Problem]) -> bool:
    return any(severity(problem.code) is Severity.ERROR for problem in problems)


# --- problems ------------------------------------------------------------------------------


def _problems(
    counted: tuple[CountedLine, ...],
    contexts: tuple[SizeContext, ...],
    pattern: Pattern,
    piece: Piece,
    heights: dict[str, dict[int, Fraction]],
) -> Iterator[Problem]:
    advised = False
    names = pattern.sizes.names if len(pattern.sizes) > 1 else ("",)  # one size is not named
    left: dict[int, int] = {}
    for number, group in groupby(counted, key=lambda one: one.lined.section):
        lines, made, off = tuple(group), piece.sections[number].made_from, None
        before, left = left, {**left, **dict(pair for one in lines for pair in _left(one))}
        if made is not None and any(one.faults for one in lines):
            lines, off = off_start(lines, before, made, contexts, pattern, piece)
        yield from () if off is None else (off,)
        for line in lines:
            yield from problems_of(line, contexts, names, piece.title, pattern.terms)
            if not advised and asked_chain(line) is not None:
                advised = True
                yield turning_chain_advice(line, piece.title, pattern.terms)
            for size, length in line.reached:
                heights.setdefault(length.name, {})[size] = length.height
            yield from length_problems(line, contexts, pattern, piece)


def _left(line: CountedLine) -> Iterator[tuple[int, int]]:
    """The stitches that a line leaves, with the index of each size that works it."""
    for size, entry in enumerate(line.per_size):
        if entry is not None and entry.sts is not None:
            yield size, entry.sts


#: how far from the wanted count the build looks for one that carries through
_OFFERED = 20


def _with_starting_counts(
    told: tuple[Problem, ...], graded: GradedPattern, piece: Piece
) -> Iterator[Problem]:
    """The first row that does not come out also offers counts that carry through whole pieces."""
    offered = False
    for problem in told:
        hopeless = not problem.mend.startswith("Nearest")
        if problem.code != "row-uneven" or offered or hopeless:
            yield problem
            continue
        offered = True
        yield _with_count(problem, graded, piece)


def _with_count(problem: Problem, graded: GradedPattern, piece: Piece) -> Problem:
    """The problem with the count behind it: where it is set, and what it could be."""
    count, words = _starting_counts(graded, piece, problem.sizes or graded.pattern.sizes.names)
    if count is None:
        return problem
    notes = (*problem.notes, Note(span=count.span, message=f"`{count.name}` is set here."))
    return replace(problem, mend=f"{problem.mend}\n{words}", notes=notes)


def _starting_counts(
    graded: GradedPattern, piece: Piece, failing: tuple[str, ...]
) -> tuple[ComputedCount | None, str]:
    """The first count with other values that carry through all pieces, and those values."""
    used = counts_used(graded, piece)
    names = graded.pattern.sizes.names
    for count in graded.pattern.counts:
        if not isinstance(count, ComputedCount) or count.across is None or count.name not in used:
            continue
        sizes = tuple(at for at, name in enumerate(names) if name in failing)
        near = nearest_counts(graded, count.name, most=2, reach=_OFFERED, sizes=sizes)
        offers = [
            (size if len(names) > 1 else "", sorted(one.count for one in counts))
            for size, counts in near.items()
            if counts
        ]
        if offers:
            told = offered(offers, whole=len(offers) == len(failing))
            return count, f"With all pieces coming out, `{count.name}` could be: {told}."
    return None, ""


# --- the record ----------------------------------------------------------------------------


def _finished(
    graded: GradedPattern, heights: Mapping[str, Mapping[int, Fraction]]
) -> dict[str, PerSize[Fraction]]:
    """Widths from counts, heights from rows, in the order of the measurements."""
    sizes = graded.pattern.sizes
    widths = held_widths(graded)
    found: dict[str, PerSize[Fraction]] = {}
    for name in graded.measurements:
        if name in widths:
            found[name] = widths[name]
        elif name in heights and len(heights[name]) == len(sizes):
            found[name] = sizes.each(tuple(heights[name][at] for at in range(len(sizes))))
    return found


def _with_mirrored(pattern: Pattern, proven: list[ProvenPiece]) -> tuple[ProvenPiece, ...]:
    """All pieces in the pattern's order: one that mirrors another has the rows of that."""
    by_name = {one.piece.name: one for one in proven}
    return tuple(
        by_name[piece.name] if piece.mirror is None else replace(by_name[piece.mirror], piece=piece)
        for piece in pattern.pieces
    )


def _proven(piece: Piece, counted: tuple[CountedLine, ...], pattern: Pattern) -> ProvenPiece:
    sections: list[ProvenSection] = []
    used: set[str] = set()
    lines = iter(counted)
    for section in piece.sections:
        rows = tuple(
            _proven_row(next(lines), piece, section, at, pattern, used)
            for at in range(len(section.rows))
        )
        sections.append(ProvenSection(section=section, rows=rows))
    return ProvenPiece(piece=piece, sections=tuple(sections))


def _proven_row(
    line: CountedLine, piece: Piece, section: Section, at: int, pattern: Pattern, used: set[str]
) -> ProvenRow:
    row = line.lined.row
    name = row.label.name if row.label is not None and row.label.name else f"{at + 1}"
    anchor = _slug(f"{piece.name} {section.title} {name}")
    unique, number = anchor, 2
    while unique in used:
        unique, number = f"{anchor}-{number}", number + 1
    used.add(unique)
    written = row.label.word if row.label is not None else None
    rounds = section.worked != "flat rows"
    multiples = {count.multiple for count in line.counts if count is not None}
    return ProvenRow(
        row=row,
        word=written or ("Rnd" if rounds else "Row"),
        anchor=unique,
        multiple=multiples.pop() if len(multiples) == 1 else None,
        per_size=PerSize(pattern.sizes, line.per_size),
        reading=None if line.reading is None else line.reading[1],
        behind=line.behind,
    )


def _slug(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")


# --- swatches ------------------------------------------------------------------------------


def _swatch(
    at: int, pattern: Pattern, contexts: tuple[SizeContext, ...], known: Known
) -> tuple[Counted, tuple[Problem, ...]]:
    """What was worked in a swatch: it has one size."""
    swatch = pattern.swatches[at]
    first = contexts[0]
    context = SizeContext(
        index=0,
        sizes=1,
        counts=first.counts,
        measurements=first.measurements,
        special=first.special,
        turning_chains=first.turning_chains,
        each_chain_counts=first.each_chain_counts,
    )
    lines = tuple(
        Lined(row=row, worked=swatch.worked, row_heights=(None,), sizes=None, section=0)
        for row in swatch.rows
    )
    counted = count_piece(lines, (context,), ("",), (None,), known=known)
    problems = tuple(
        problem
        for line in counted
        for problem in problems_of(line, (context,), ("",), f"Swatch of {swatch.of}", pattern.terms)
    )
    worked: dict[str, int] = {}
    for line in counted:
        entry = line.per_size[0]
        for name, number in () if entry is None else entry.worked:
            worked[name] = worked.get(name, 0) + number
    rows = [entry for line in counted if (entry := line.per_size[0]) and entry.first is not None]
    if rows and not problems:
        high = sum(entry.times or 0 for entry in rows)
        problems = tuple(gauge_problems(pattern, swatch, rows[-1].sts or 0, high))
    return tuple(worked.items()), problems
