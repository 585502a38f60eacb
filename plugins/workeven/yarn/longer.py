"""What a longer piece takes: rows that are worked up to a length, some centimetres further.

Takes     ``ProvenPattern``, what is computed of one yarn (``YarnNeed``).
Gives     ``longer``: ``Longer`` for each length that a maker may add to.
Problems  none.
From      the rows as the proof counts them; rows in a length by the gauge of rows.

A line may be lengthened where it is worked up to a length and its rows leave the places that they
found: one more repeat then comes out as the last did. Shaped rows do not, and of a repeat of
several rows only whole repeats do. Worked example: a row of 64 dc at 0.04 g weighs 2.56 g; at 9
rows to 10 cm, 5 cm are 4.5 rows, 11.52 g, and 12.67 g with a margin of a tenth: of a yarn of 50 g
to 125 m 32 m more, for one front; for two that are made alike twice as much.

Seams, which grow by three times as much, are left to the margin.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.units import CM, INCH
from workeven.notation.tree import RepeatRows, ShapeRows
from workeven.pattern import Pattern, Piece, Section
from workeven.pattern.uses import length_asked
from workeven.proof import ProvenPattern, ProvenRow
from workeven.proof.coloured import RowWorked, Walks
from workeven.proof.standing import Worked
from workeven.records import record
from workeven.yarn.amount import CHAINS
from workeven.yarn.needs import YarnNeed
from workeven.yarn.rates import CHAIN, plain
from workeven.yarn.said import said_in

FIVE_CM, TWO_IN = 5 * CM, 2 * INCH


@record
class Longer:
    """A length that a maker may add to.

    ``name`` is that of the measurement up to which the pieces are worked, "" where the rows name
    none; ``pieces`` are those that grow together, by their titles. ``rows``: how many rows only
    come out together. ``five_cm`` and ``two_in``: the yarn (mm) of so much more, margin included,
    0 in a size that does not work it.
    """

    name: str
    pieces: tuple[str, ...]
    section: str
    rows: int
    turned: bool
    five_cm: PerSize[Fraction]
    two_in: PerSize[Fraction]


@record
class _Line:
    """One line that may be lengthened: its yarn for 1 mm (g) in each size, of all pieces made."""

    name: str
    piece: Piece
    section: Section
    rows: int
    mass: tuple[Fraction, ...]


def longer(proven: ProvenPattern, need: YarnNeed) -> tuple[Longer, ...]:
    """Every length to which some of this yarn may be added, in the order of the pieces."""
    together: dict[tuple[str, ...], list[_Line]] = {}
    for line in _lines(proven, need):
        own = () if line.name else (line.piece.name, line.section.title)
        together.setdefault((line.name, *own), []).append(line)
    return tuple(_together(lines, need) for lines in together.values())


def _together(lines: list[_Line], need: YarnNeed) -> Longer:
    sizes, put_up = need.mass.sizes, need.yarn.put_up
    masses = zip(*(line.mass for line in lines), strict=True)
    each = sizes.each(tuple(sum(one, Fraction(0)) for one in masses))
    lengths = each.map(lambda grams: grams * put_up.length / put_up.mass)
    return Longer(
        name=lines[0].name,
        pieces=tuple(dict.fromkeys(line.piece.title for line in lines)),
        section=lines[0].section.title,
        rows=max(line.rows for line in lines),
        turned=any(line.section.worked in _TURNED for line in lines),
        five_cm=lengths.map(lambda mm: mm * FIVE_CM),
        two_in=lengths.map(lambda mm: mm * TWO_IN),
    )


_TURNED = ("flat rows", "joined rounds, turned")


# --- the lines -----------------------------------------------------------------------------


def _lines(proven: ProvenPattern, need: YarnNeed) -> Iterator[_Line]:
    pattern, walks = proven.graded.pattern, Walks(proven.graded)
    heights = {gauge.name: gauge.row_height() for gauge in pattern.gauges}
    for piece in proven.pieces:
        if len(pattern.yarns) > 1 and _names_yarns(piece.sections[0].rows):
            continue
        for section in piece.sections:
            height = heights.get(section.section.gauge or "")
            if height is None or not _is_of(pattern, section.section, need):
                continue
            for row in section.rows:
                found = _repeat(row, walks, piece.piece, need)
                if found is not None:
                    rows, masses = found
                    yield _Line(
                        name=_name(row),
                        piece=piece.piece,
                        section=section.section,
                        rows=rows,
                        mass=tuple(grams / (rows * height) for grams in masses),
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
    if length_asked(row.row) is None or isinstance(body, ShapeRows):
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
            return plain(pair for one in walked[-number:] for pair in one.stretches[0])
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
