"""Lengths of yarn that are no stitches: seams, the ends that are woven in, fringe and the like.

Takes     ``ProvenPattern``, what its pieces are worked in (``PieceWork``).
Gives     ``Strand``: a length by size for each thing, of one yarn (``strands_of``).
Problems  none.
From      common practice, marked so in ``basis``: three times the length of a seam, with a tail at
          each end of it; 15 cm for each end that is woven in. The file may say the tail, and says
          what trimmings take.

A seam is sewn as often as its pieces are made: two sleeves that are named in one seam are sewn in
twice, in two seams once each. A strand of a yarn held double is double too, but a seam is sewn with
a single one.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.arithmetic.printing import print_cm
from workeven.pattern import Pattern, Piece, Text, Trimming, Yarn
from workeven.pattern.colours import Palette, Shade
from workeven.pattern.seam_records import EdgePart, Seam
from workeven.proof import ProvenPattern
from workeven.proof.seams import ProvenSeam
from workeven.records import record
from workeven.yarn.colours import Held, PieceWork

#: Yarn for a seam, in lengths of the seam: common practice for whip and mattress stitch.
SEAM_TIMES = 3
#: How long an end is left to be woven in (mm), where a pattern does not say it: common practice.
USUAL_TAIL = Fraction(150)

StrandKind = Literal["seam", "end", "fringe", "tassel", "pompom", "cord", "embroidery"]
_NOTHING = Fraction(0)


@record
class Strand:
    """Lengths of yarn that are no stitches: ``number`` of them in each size, ``each`` in mm.

    ``number`` is that of all pieces as often as they are made. ``mass`` in g is that of all of
    them, where the file weighs one instead (a pompom); ``each`` is then 0. ``basis`` says in words
    where the length is from.
    """

    kind: StrandKind
    title: str
    colour: str | None
    number: PerSize[int]
    each: PerSize[Fraction]
    basis: str
    mass: PerSize[Fraction] | None = None

    @property
    def length(self) -> PerSize[Fraction]:
        """All of them together, in mm."""
        pairs = zip(self.number, self.each, strict=True)
        return self.number.sizes.each(tuple(number * each for number, each in pairs))


#: the pieces, and what each made once is worked in
Works = tuple[tuple[Piece, PieceWork], ...]


def strands_of(
    proven: ProvenPattern, yarn: Yarn, palette: Palette, works: Works
) -> Iterator[Strand]:
    """All strands of one yarn: of seams, of ends, of trimmings."""
    pattern = proven.graded.pattern
    tail = USUAL_TAIL if pattern.tail is None else pattern.tail
    for sewn in proven.seams:
        shade = _sewn_with(sewn.seam, pattern, palette, works)
        if sewn.seam.kind == "sew" and shade.yarn == yarn.name:
            yield _seam(sewn, shade.colour, pattern, tail)
    yield from _ends(pattern, yarn, works, tail)
    for trimming in pattern.trimmings:
        shade = _shade(trimming.yarn, trimming.colour, pattern, palette)
        if shade.yarn == yarn.name:
            yield _trimming(trimming, shade.colour)


def _shade(yarn: str | None, colour: Text | None, pattern: Pattern, palette: Palette) -> Shade:
    """The yarn and colour that a part of the file names; the first yarn where it names none."""
    own = yarn or pattern.yarns[0].name
    named = None if colour is None else palette.of(colour.text, own)
    if named is not None and yarn in (None, named.yarn):
        return named
    return palette.only(own)


# --- seams ---------------------------------------------------------------------------------


def _sewn_with(seam: Seam, pattern: Pattern, palette: Palette, works: Works) -> Shade:
    """What a seam is sewn with: what it names, else what its first piece ends in."""
    if seam.yarn is not None or seam.colour is not None:
        return _shade(seam.yarn, seam.colour, pattern, palette)
    by_name = {piece.name: work for piece, work in works}
    last = [held for part in seam.first for held in by_name[part.piece].last if held is not None]
    return Shade(last[0].yarn, last[0].colour) if last else palette.only(pattern.yarns[0].name)


def _seam(sewn: ProvenSeam, colour: str | None, pattern: Pattern, tail: Fraction) -> Strand:
    sizes = pattern.sizes
    each: list[Fraction] = []
    for one, other in zip(sewn.first, sewn.second, strict=True):
        lengths = [side.length for side in (one, other) if side is not None]
        each.append(max(lengths) * SEAM_TIMES + 2 * tail if lengths else _NOTHING)
    return Strand(
        kind="seam",
        title=sewn.seam.title,
        colour=colour,
        number=_times(sewn.seam, pattern),
        each=sizes.each(tuple(each)),
        basis=f"{SEAM_TIMES} times the seam and a tail of {print_cm(tail)} at each end (common "
        "practice)",
    )


def _times(seam: Seam, pattern: Pattern) -> PerSize[int]:
    """How often a seam is sewn in each size."""
    if seam.times is not None:
        return seam.times
    makes = {piece.name: piece.make for piece in pattern.pieces}
    sewn = [one for one in pattern.seams if one.kind == "sew"]
    own = {(part.piece, part.edge) for part in (*seam.first, *seam.second)}
    shares = {place: sum(_uses(one, place) for one in sewn) for place in own}
    return pattern.sizes.each(
        tuple(
            max(-(-makes[piece][size] // shares[piece, edge]) for piece, edge in own)
            for size in range(len(pattern.sizes))
        )
    )


def _uses(seam: Seam, place: tuple[str, str]) -> int:
    """How often one making of an edge is sewn into a seam; both sides of a seam may be one edge."""
    sides = [_on(side, place) for side in (seam.first, seam.second)]
    return max(sides)


def _on(side: tuple[EdgePart, ...], place: tuple[str, str]) -> int:
    return sum(part.times for part in side if (part.piece, part.edge) == place)


# --- ends ----------------------------------------------------------------------------------


def _ends(pattern: Pattern, yarn: Yarn, works: Works, tail: Fraction) -> Iterator[Strand]:
    """The ends of a yarn that are woven in, by piece and colour."""
    sizes = pattern.sizes
    said = "as the pattern says" if pattern.tail is not None else "common practice"
    double = f", {yarn.held} strands each" if yarn.held > 1 else ""
    for piece, work in works:
        for held, ends in work.ends.items():
            if yarn.name in (held.yarn, *held.beside):
                number = tuple(
                    count * make * yarn.held for count, make in zip(ends, piece.make, strict=True)
                )
                yield Strand(
                    kind="end",
                    title=piece.title,
                    colour=colour_of(held, yarn),
                    number=sizes.each(number),
                    each=sizes.all(tail),
                    basis=f"woven in{double} ({said})",
                )


def colour_of(held: Held, yarn: Yarn) -> str | None:
    """The colour of one of the yarns on the hook."""
    if held.yarn == yarn.name:
        return held.colour
    return yarn.colours[0] if len(yarn.colours) == 1 else None


# --- trimmings -----------------------------------------------------------------------------


def _trimming(trimming: Trimming, colour: str | None) -> Strand:
    sizes: Sizes = trimming.amount.sizes
    title = trimming.kind.capitalize() + (f" ({trimming.note})" if trimming.note else "")
    if trimming.mass is not None:
        mass = trimming.mass
        return Strand(
            kind=trimming.kind,
            title=title,
            colour=colour,
            number=trimming.amount,
            each=sizes.all(_NOTHING),
            basis="as weighed",
            mass=trimming.amount.map(lambda number: number * mass),
        )
    pairs = zip(trimming.strands, trimming.length, strict=True)
    return Strand(
        kind=trimming.kind,
        title=title,
        colour=colour,
        number=trimming.amount,
        each=sizes.each(tuple(strands * length for strands, length in pairs)),
        basis="as the pattern says",
    )
