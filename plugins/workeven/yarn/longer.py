"""What a longer piece takes: rows that follow a length, some centimetres further.

Takes     ``ProvenPattern``, what is computed of one yarn (``YarnNeed``).
Gives     ``longer``: ``Longer`` for each length that a maker may add to; ``lengthened``: those of
          every yarn, worked out once for all that shows them.
Problems  none.
From      the rows as the proof counts them; rows in a length by the gauge of rows.

A line may be lengthened where it is worked up to a length, or as often as a count along a length
says, and its rows leave the places that they found: one more repeat then comes out as the last did.
Of a repeat of several rows only whole repeats do. Worked example: a row of 64 dc at 0.04 g weighs
2.56 g; at 9 rows to 10 cm, 5 cm are 4.5 rows, 11.52 g, and 12.67 g with a margin of a tenth: of a
yarn of 50 g to 125 m 32 m more, for one front; for two that are made alike twice as much.

A shaping over a count of rows along a length has the same stitches at both ends and more rows: each
row more takes what its rows take in the mean. From 36 to 68 dc that is a row of 52, give or take
where the rates fall. Other shaped rows are not lengthened.

Of several colours each takes more in proportion to what it has in those rows. Seams, which grow by
three times as much, are left to the margin.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import lcm

from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.arithmetic.units import CM, INCH
from workeven.notation.tree import AsLong, RepeatRows, ShapeRows, WorkedRow
from workeven.pattern import Pattern, Piece, Section, Shape
from workeven.pattern.colours import palette_of
from workeven.pattern.uses import length_asked
from workeven.proof import ProvenPattern, ProvenPiece, ProvenRow, ProvenSection, RowInSize
from workeven.proof.coloured import RowWorked, Walks
from workeven.proof.facts import facts_of
from workeven.proof.seams import ProvenSeam, proven_seams
from workeven.proof.standing import Worked
from workeven.records import record, replace
from workeven.yarn.clusters import apart, clusters, clusters_of
from workeven.yarn.colours import worked_in
from workeven.yarn.needs import CHAINS, YarnNeed
from workeven.yarn.rates import CHAIN, plain
from workeven.yarn.rows_along import RowsAlong, rows_along, times_of
from workeven.yarn.said import said_in
from workeven.yarn.tally import colour_worked
from workeven.yarn.unsaid import unsaid

FIVE_CM, TWO_IN = 5 * CM, 2 * INCH


@record
class MoreColour:
    """What one colour takes of it (mm)."""

    colour: str
    five_cm: PerSize[Fraction]
    two_in: PerSize[Fraction]


@record
class Longer:
    """A length that a maker may add to.

    ``name`` is that of the measurement that the pieces follow, "" where the rows name none;
    ``pieces`` are those that grow together, by their titles. ``rows``: how many rows only come out
    together. ``until``: its rows are worked until they measure it; ``shaped``: some of them are
    shaped. ``five_cm`` and ``two_in``: the yarn (mm) of so much more, margin included, 0 in a size
    that does not work it; ``colours``: the same by colour, where the amount is.

    ``step``: with so many rows more or fewer everything else is as it was, as often as one likes
    (``fewer``: how often at most rows may be left out, None in a size that works none of them);
    0 where that is not sure. ``row``: how high one of them is (mm).
    """

    name: str
    pieces: tuple[str, ...]
    section: str
    rows: int
    turned: bool
    until: bool
    shaped: bool
    five_cm: PerSize[Fraction]
    two_in: PerSize[Fraction]
    colours: tuple[MoreColour, ...] = ()
    step: int = 0
    row: Fraction = Fraction(0)
    fewer: PerSize[int | None] | None = None


@record
class _Line:
    """One line that may be lengthened: its yarn for 1 mm (g) in each size, of all pieces made.

    ``of`` are the lines in which that is worked now.
    """

    name: str
    piece: Piece
    section: Section
    rows: int
    mass: tuple[Fraction, ...]
    of: tuple[ProvenRow, ...]
    height: Fraction
    until: bool = True
    shaped: bool = False


#: what a line has of each colour, in each size (g)
_Colours = Mapping[str, Mapping[str, tuple[Fraction, ...]]]


#: the lengths that each yarn may be added to, by the name of the yarn
Lengths = Mapping[str, tuple[Longer, ...]]


def lengthened(proven: ProvenPattern, needs: tuple[YarnNeed, ...]) -> Lengths:
    """Every length to which yarn may be added, by the name of the yarn."""
    return {need.yarn.name: longer(proven, need) for need in needs}


def longer(proven: ProvenPattern, need: YarnNeed) -> tuple[Longer, ...]:
    """Every length to which some of this yarn may be added, in the order of the pieces."""
    together: dict[tuple[str, ...], list[_Line]] = {}
    for line in _lines(proven, need):
        own = () if line.name else (line.piece.name, line.section.title)
        together.setdefault((line.name, *own), []).append(line)
    colours = _by_colour(proven, need) if together and need.colours else {}
    alone = bool(together) and not _others_change(proven)
    return tuple(
        _together(lines, need, colours, _step(proven, lines) if alone else 0)
        for lines in together.values()
    )


def _together(lines: list[_Line], need: YarnNeed, colours: _Colours, step: int) -> Longer:
    sizes = need.mass.sizes
    masses = [line.mass for line in lines]
    return Longer(
        name=lines[0].name,
        pieces=tuple(dict.fromkeys(line.piece.title for line in lines)),
        section=lines[0].section.title,
        rows=max(line.rows for line in lines),
        turned=any(line.section.worked in _TURNED for line in lines),
        until=any(line.until for line in lines),
        shaped=any(line.shaped for line in lines),
        five_cm=_length(masses, need, sizes, FIVE_CM),
        two_in=_length(masses, need, sizes, TWO_IN),
        colours=tuple(_of_colour(one.colour, lines, need, colours) for one in need.colours),
        step=step,
        row=lines[0].height,
        fewer=sizes.each(tuple(_fewer(lines, step, at) for at in range(len(sizes)))),
    )


def _length(
    masses: list[tuple[Fraction, ...]], need: YarnNeed, sizes: Sizes, more: Fraction | int
) -> PerSize[Fraction]:
    put_up = need.yarn.put_up
    each = sizes.each(tuple(sum(one, Fraction(0)) for one in zip(*masses, strict=True)))
    return each.map(lambda grams: grams * put_up.length / put_up.mass * more)


_TURNED = ("flat rows", "joined rounds, turned")


# --- by whole steps ------------------------------------------------------------------------


def _step(proven: ProvenPattern, lines: list[_Line]) -> int:
    """How many rows may come and go together, 0 where the other side of a seam would not follow."""
    if not all(line.until for line in lines) or len({line.height for line in lines}) > 1:
        return 0
    rows = [line.rows for line in lines]
    turned = [2 for line in lines if line.section.worked in _TURNED]
    step = lcm(*rows, *turned)
    grown = [row for line in lines for row in line.of]
    return step if _seams_hold(proven, grown, step) else 0


def _fewer(lines: list[_Line], step: int, size: int) -> int | None:
    """How many steps may be left out of a size: the rows are worked once at least."""
    counted = [(line.rows, row.per_size[size]) for line in lines for row in line.of]
    worked = [(rows, one.times) for rows, one in counted if one is not None and one.times]
    if not worked or not step:
        return None
    return min(max(0, times - rows) // step for rows, times in worked)


def _others_change(proven: ProvenPattern) -> bool:
    """Whether any row is worked into the ends of rows, or for as long as another piece is."""
    for piece in proven.pieces:
        for section in piece.sections:
            for row in section.rows:
                body = row.row.body
                if isinstance(body, WorkedRow) and facts_of(body.steps).along_rows:
                    return True
                if isinstance(getattr(body, "until", None), AsLong):
                    return True
    return False


def _seams_hold(proven: ProvenPattern, grown: list[ProvenRow], step: int) -> bool:
    """Whether both sides of each seam grow by the same."""
    if not proven.seams:
        return True
    pieces = tuple(_with_more(piece, grown, step) for piece in proven.pieces)
    seams, problems = proven_seams(proven.graded, pieces)
    return not problems and [*map(_off, seams)] == [*map(_off, proven.seams)]


def _with_more(piece: ProvenPiece, grown: list[ProvenRow], step: int) -> ProvenPiece:
    """A piece with so many rows more in the lines that grow."""
    sections = tuple(
        replace(
            section,
            rows=tuple(
                replace(row, per_size=row.per_size.map(lambda one: _more_times(one, step)))
                if any(row is one for one in grown)
                else row
                for row in section.rows
            ),
        )
        for section in piece.sections
    )
    return replace(piece, sections=sections)


def _more_times(one: RowInSize | None, step: int) -> RowInSize | None:
    if one is None or not one.times:
        return one
    return one._replace(times=one.times + step)


def _off(seam: ProvenSeam) -> tuple[Fraction | None, ...]:
    """By how much the one side is longer than the other, in each size."""
    pairs = zip(seam.first, seam.second, strict=True)
    return tuple(
        None if one is None or other is None else one.length - other.length for one, other in pairs
    )


# --- by colour -----------------------------------------------------------------------------


def _of_colour(colour: str, lines: list[_Line], need: YarnNeed, colours: _Colours) -> MoreColour:
    sizes = need.mass.sizes
    masses = [
        tuple(grams * _share(colour, line, at, colours) for at, grams in enumerate(line.mass))
        for line in lines
    ]
    return MoreColour(
        colour=colour,
        five_cm=_length(masses, need, sizes, FIVE_CM),
        two_in=_length(masses, need, sizes, TWO_IN),
    )


def _share(colour: str, line: _Line, at: int, colours: _Colours) -> Fraction:
    """Which part of the yarn of a line is of a colour."""
    found = [colours.get(f"{line.piece.name} {row.anchor}", {}) for row in line.of]
    whole = sum((one[at] for row in found for one in row.values()), Fraction(0))
    own = sum((row[colour][at] for row in found if colour in row), Fraction(0))
    return own / whole if whole else Fraction(0)


def _by_colour(proven: ProvenPattern, need: YarnNeed) -> _Colours:
    """What every line has of each colour of the yarn."""
    pattern, walks = proven.graded.pattern, Walks(proven.graded)
    palette, first = palette_of(pattern), pattern.yarns[0].name
    number = len(pattern.sizes)
    found: dict[str, dict[str, list[Fraction]]] = {}
    for piece in proven.pieces:
        work = worked_in(piece, palette, first, walks, by_line=True)
        for (anchor, held, size), worked in work.of_lines.items():
            if (colour := colour_worked(held, need.yarn)) is not None:
                masses = found.setdefault(f"{piece.piece.name} {anchor}", {}).setdefault(
                    colour, [Fraction(0)] * number
                )
                masses[size] += _mass(plain(worked), need)
    return {
        line: {colour: tuple(masses) for colour, masses in one.items()}
        for line, one in found.items()
    }


# --- the lines -----------------------------------------------------------------------------


def _lines(proven: ProvenPattern, need: YarnNeed) -> Iterator[_Line]:
    pattern, walks = proven.graded.pattern, Walks(proven.graded)
    heights = {gauge.name: gauge.row_height() for gauge in pattern.gauges}
    along = rows_along(proven.graded)
    for piece in proven.pieces:
        if len(pattern.yarns) > 1 and _names_yarns(piece.sections[0].rows):
            continue
        for section in piece.sections:
            if not _is_of(pattern, section.section, need):
                continue
            height = heights.get(section.section.gauge or "")
            if height is not None:
                yield from _up_to_a_length(section, height, walks, piece.piece, need)
            for one in along:
                yield from _as_often(section, one, walks, piece.piece, need)
                yield from _stretched(section, one, piece, need, walks)


def _up_to_a_length(
    section: ProvenSection, height: Fraction, walks: Walks, piece: Piece, need: YarnNeed
) -> Iterator[_Line]:
    """The lines of a section that are worked until they measure so much."""
    for row in section.rows:
        found = None if length_asked(row.row) is None else _repeat(row, walks, piece, need)
        if found is not None:
            rows, masses = found
            yield _Line(
                name=_name(row),
                piece=piece,
                section=section.section,
                rows=rows,
                mass=tuple(grams / (rows * height) for grams in masses),
                of=(row,),
                height=height,
            )


def _as_often(
    section: ProvenSection, along: RowsAlong, walks: Walks, piece: Piece, need: YarnNeed
) -> Iterator[_Line]:
    """The lines of a section that are worked as often as a count along a length says."""
    for row in section.rows:
        often = times_of(row.row)
        formula = None if often is None else often[0].formula
        more = None if formula is None else along.more(formula)
        found = None if more is None else _repeat(row, walks, piece, need)
        if often is not None and more is not None and found is not None:
            rows, masses = found
            each = 1 if often[1] else rows
            yield _Line(
                name=along.name,
                piece=piece,
                section=section.section,
                rows=rows,
                mass=tuple(
                    grams / each * one / along.row for grams, one in zip(masses, more, strict=True)
                ),
                of=(row,),
                height=along.row,
                until=False,
            )


def _stretched(
    section: ProvenSection, along: RowsAlong, proven: ProvenPiece, need: YarnNeed, walks: Walks
) -> Iterator[_Line]:
    """A shaping over more rows: each of them takes what its rows take in the mean."""
    shape = section.section.made_from
    more = along.more(shape.over) if isinstance(shape, Shape) and not shape.tracks else None
    if more is None:
        return
    piece, beside = proven.piece, unsaid(proven)
    names = clusters_of(proven, walks.graded.pattern.stitches)
    masses: list[Fraction] = []
    for at, one in enumerate(more):
        times, grams = 0, Fraction(0)
        for row in section.rows:
            if (entry := row.per_size[at]) is not None:
                also = beside[row.anchor][at] if row.anchor in beside else ()
                times += entry.times or 0
                grams += _mass(plain(apart((*entry.worked, *also), names)), need) * piece.make[at]
        masses.append(grams / times * one / along.row if times else Fraction(0))
    yield _Line(
        name=along.name,
        piece=piece,
        section=section.section,
        rows=1,
        mass=tuple(masses),
        of=section.rows,
        height=along.row,
        until=False,
        shaped=True,
    )


def _is_of(pattern: Pattern, section: Section, need: YarnNeed) -> bool:
    """Whether a section is worked in that yarn."""
    own = section.yarn or pattern.yarns[0].name
    return need.yarn.name in (own, *section.beside)


def _names_yarns(rows: tuple[ProvenRow, ...]) -> bool:
    """Whether rows change the yarn, so that a section does not tell what it is worked in."""
    return any(said_in(row.row).names for row in rows)


def _name(row: ProvenRow) -> str:
    """The measurement up to which a line is worked, "" where it names none."""
    until = length_asked(row.row)
    if until is None or until.length.formula is None:
        return ""
    text = until.length.formula.text.strip()
    return text if until.length.formula.names == {text} else ""


def _repeat(
    row: ProvenRow, walks: Walks, piece: Piece, need: YarnNeed
) -> tuple[int, tuple[Fraction, ...]] | None:
    """The rows of one more repeat, and what they weigh (g) in each size, as often as made."""
    body = row.row.body
    if isinstance(body, ShapeRows):
        return None
    if isinstance(body, RepeatRows) and (body.change is not None or body.then is not None):
        return None
    rows, masses = 0, []
    for size, counted in enumerate(row.per_size):
        worked = row.behind[size] if row.behind else None
        if counted is None or worked is None or not counted.times:
            masses.append(Fraction(0))
            continue
        again = _once_more(worked, walks, size)
        if again is None:
            return None
        rows = len(worked.lines)
        masses.append(_mass(again, need) * piece.make[size])
    return (rows, tuple(masses)) if rows else None


def _once_more(worked: Worked, walks: Walks, size: int) -> dict[str, int] | None:
    """What one more repeat of these rows works; None where it would not come out as the last did.

    The first repeat may stand on other places than those behind it: then the second one tells.
    """
    number = len(worked.lines)
    walked: list[RowWorked] = []
    for row in walks.row_by_row(worked._replace(times=2 * number + 1), size, lambda _row: ()):
        if len(walked) >= number and row.below == walked[-number].below:
            repeat = walked[-number:]
            names = clusters([one.line.row for one in repeat], walks.graded.pattern.stitches)
            return plain(pair for one in repeat for pair in apart(one.stretches[0], names))
        walked.append(row)
    return None


def _mass(stitches: dict[str, int], need: YarnNeed) -> Fraction:
    """What they weigh (g), with the samples' scale and the margin."""
    each = {line.title: line.each or Fraction(0) for line in need.lines if line.sort == "stitches"}
    grams = sum(
        (
            count * each.get(CHAINS if kind == CHAIN else kind, Fraction(0))
            for kind, count in stitches.items()
        ),
        Fraction(0),
    )
    scale = Fraction(1) if need.samples is None else need.samples.scale
    return grams * scale * (1 + need.margin)
