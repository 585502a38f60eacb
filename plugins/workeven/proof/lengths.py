"""What is wrong, or unclear, with the lengths that rows are worked up to.

Takes     the counted lines of a piece.
Gives     ``length_problems``.
Problems  ``gauge-no-rows``, ``row-off-length``, ``row-length-start``, ``row-repeat-halfway``.
From      notation.md, "Whole pieces": "``until piece measures`` is the whole piece from its
          starting chain, ``for`` the section".
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic.printing import print_cm
from workeven.notation.tree import UntilMeasures
from workeven.pattern import Pattern, Piece
from workeven.pattern.uses import length_asked
from workeven.problems import Note, Problem
from workeven.problems.words import joined, quote
from workeven.proof.context import SizeContext
from workeven.proof.line import CountedLine
from workeven.proof.messages import row_name

#: a finished length may lie this far (mm) from the wanted one, unless the file says otherwise
LEAST_TOLERANCE = Fraction(10)


def length_problems(
    line: CountedLine, contexts: tuple[SizeContext, ...], pattern: Pattern, piece: Piece
) -> Iterator[Problem]:
    """The problems of the length that a line asks for, if it asks for one."""
    until = length_asked(line.lined.row)
    if until is None:
        return
    yield from _no_row_gauge(line, until, pattern, piece)
    yield from _off_length(line, until, contexts, pattern, piece)
    if not line.faults:
        yield from _start_unclear(line, until, pattern, piece)
        yield from _halfway(line, pattern, piece)


def _no_row_gauge(
    line: CountedLine, until: UntilMeasures, pattern: Pattern, piece: Piece
) -> Iterator[Problem]:
    """A length asked for where no gauge says how high a row is."""
    if all(height is not None for height in line.lined.row_heights):
        return
    name = piece.sections[line.lined.section].gauge
    gauge = next((one for one in pattern.gauges if one.name == name), None)
    if gauge is None and name is not None:
        return  # that there is none of this name has been told
    if gauge is None:
        found = "a length is asked for and no gauge is named."
        mend = "Give the piece or section a `gauge` with `rows`."
    else:
        found = f"a length is asked for and the gauge {quote(gauge.name)} says nothing of rows."
        mend = f"Add `rows` to the gauge {quote(gauge.name)}."
    yield Problem(
        code="gauge-no-rows",
        span=line.lined.row.span.within(until.length.start, until.length.end),
        piece=piece.title,
        row=row_name(line, 0),
        found=found,
        expected="The number of rows is the length times the row gauge.",
        mend=mend,
        excerpt=line.lined.row.text.strip()[:200],
        notes=() if gauge is None else (Note(span=gauge.span, message="It is given here."),),
        figures=(("mistake", (f"gauge {name}",)),),
    )


def _off_length(
    line: CountedLine,
    until: UntilMeasures,
    contexts: tuple[SizeContext, ...],
    pattern: Pattern,
    piece: Piece,
) -> Iterator[Problem]:
    """A length that whole rows cannot come near enough to."""
    off: list[tuple[int, Fraction, Fraction]] = []
    one_height = line.lined.row_heights[0] if line.lined.row_heights else None
    tolerance = _tolerance(pattern, one_height)  # all sizes of a section have one gauge
    for size, length in line.reached:
        wanted = contexts[size].length(until.length)
        if length.height != wanted and abs(length.height - wanted) > tolerance:
            off.append((size, length.height, wanted))
    if not off:
        return
    names = pattern.sizes.names
    failing = tuple(names[size] for size, _, _ in off)
    yield Problem(
        code="row-off-length",
        span=line.lined.row.span.within(until.length.start, until.length.end),
        piece=piece.title,
        row=row_name(line, off[0][0]),
        sizes=failing,
        good_sizes=tuple(name for name in names if name not in failing),
        found=f"whole rows make {joined(print_cm(height) for _, height, _ in off)}.",
        expected=f"{joined(print_cm(wanted) for _, _, wanted in off)} is asked for.",
        mend="Change the length, the ending that is asked for, or the row gauge.",
        excerpt=line.lined.row.text.strip()[:200],
    )


def _start_unclear(
    line: CountedLine, until: UntilMeasures, pattern: Pattern, piece: Piece
) -> Iterator[Problem]:
    """``for 12 cm`` below other rows of a section: is it the section's length, or so much more."""
    if not _says_for(line, until):
        return
    above = {
        size: length.above
        for size, length in line.reached
        if length.above > _tolerance(pattern, line.lined.row_heights[size])
    }
    if not above:
        return
    yield _advice(
        line,
        piece,
        pattern,
        tuple(above),
        "row-length-start",
        found="the length is taken as that of the whole section, and rows above it make "
        f"{joined(dict.fromkeys(print_cm(mm) for mm in above.values()))} of it.",
        mend="If so much more is meant, begin a section of its own here. If not, write “until "
        "section measures …”, which can be read in one way only.",
    )


def _says_for(line: CountedLine, until: UntilMeasures) -> bool:
    """Whether "for" stands before the length: "until section measures" is clear."""
    return line.lined.row.text[: until.length.start].casefold().rstrip().endswith("for")


def _halfway(line: CountedLine, pattern: Pattern, piece: Piece) -> Iterator[Problem]:
    """A repeat of several rows that stops before its last one, and the text does not say so."""
    sizes = tuple(size for size, length in line.reached if length.halfway)
    if not sizes:
        return
    yield _advice(
        line,
        piece,
        pattern,
        sizes,
        "row-repeat-halfway",
        found="the rows that are repeated stop halfway at the length that is asked for.",
        mend="Say with which row to end (“ending with a Row 3”, “ending with a WS row”).",
    )


def _advice(
    line: CountedLine,
    piece: Piece,
    pattern: Pattern,
    sizes: tuple[int, ...],
    code: str,
    *,
    found: str,
    mend: str,
) -> Problem:
    names = pattern.sizes.names
    return Problem(
        code=code,
        span=line.lined.row.span,
        piece=piece.title,
        row=row_name(line, sizes[0]),
        sizes=tuple(names[size] for size in sizes),
        found=found,
        mend=mend,
        excerpt=line.lined.row.text.strip()[:200],
    )


def _tolerance(pattern: Pattern, row: Fraction | None) -> Fraction:
    said = pattern.tolerance if pattern.tolerance is not None else pattern.studio.tolerance
    if said is not None:
        return said
    return LEAST_TOLERANCE if row is None or row < LEAST_TOLERANCE else row
