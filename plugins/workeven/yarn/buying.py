"""What a maker buys: whole balls of a put-up, and the same amount of another yarn.

Takes     lengths in mm, masses in g, put-ups; ``YarnNeed``.
Gives     ``balls``, ``by_swatch``; ``in_put_up``, ``spare``, ``example``: the same of a whole yarn.
Problems  none.
From      ``standards``: length by the put-up's length to its mass, balls whole, up; a yarn of the
          same thickness at the same gauge takes the same length (common practice).

Worked example: 682 m are 4 balls of 200 m (3.41, up), and 7 balls of 100 m. Where the same swatch
weighs 14 g in another yarn and 12.5 g in ours, 200 g of ours are 224 g of it.
"""

from __future__ import annotations

from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import rounded
from workeven.arithmetic.units import M
from workeven.pattern import Pattern, PutUp
from workeven.records import record
from workeven.yarn.needs import CHAINS, YarnNeed

#: The ball of the worked examples, and where the yarn has that one, another.
_BALL, _OTHER_BALL = 100 * Fraction(M), 150 * Fraction(M)
#: By how much the yarn of the worked example is heavier.
_HEAVIER = Fraction(11, 10)


@record
class Example:
    """A worked line for makers with another yarn, in one size.

    ``length`` (mm) is what it takes, of the first colour where there are several, ``ball`` the
    length of one of another put-up and ``balls`` how many. ``ours`` and ``theirs`` are the mass of
    the same swatch, or of a hundred ``stitch`` where there was none of this yarn alone ("": there
    was); ``ours`` is None where neither is known. ``times`` is the one to the other; ``mass`` is
    what it takes of ours, ``then`` of the other (g).
    """

    size: int
    length: Fraction
    ball: Fraction
    balls: int
    stitch: str
    ours: Fraction | None
    theirs: Fraction
    times: Fraction
    mass: Fraction
    then: Fraction


def balls(length: Fraction, put_up: PutUp) -> int:
    """How many whole balls hold that length (mm).

    >>> balls(Fraction(682_000), PutUp(length=Fraction(200_000), mass=Fraction(50)))
    4
    """
    return (length / put_up.length).__ceil__()


def by_swatch(mass: Fraction, ours: Fraction, theirs: Fraction) -> Fraction:
    """What another yarn takes (g), by the mass of the same swatch in ours and in it.

    >>> by_swatch(Fraction(200), Fraction(25, 2), Fraction(14))
    Fraction(224, 1)
    """
    return mass * theirs / ours


def in_put_up(need: YarnNeed, put_up: PutUp) -> tuple[tuple[str | None, PerSize[int]], ...]:
    """Whole balls of another put-up, of each colour where there are several."""
    named: tuple[tuple[str | None, PerSize[Fraction]], ...]
    named = tuple((one.colour, one.length) for one in need.colours) or ((None, need.length),)
    return tuple((colour, length.map(lambda mm: balls(mm, put_up))) for colour, length in named)


def spare(need: YarnNeed) -> PerSize[Fraction]:
    """How much of the length (mm) is margin."""
    return need.length.map(lambda mm: mm - mm / (1 + need.margin))


def example(pattern: Pattern, need: YarnNeed, at: int | None = None) -> Example:
    """The rules for another put-up and another yarn, in this yarn's own numbers.

    ``at`` is the place of the size, that in the middle where none is given.
    """
    size = len(pattern.sizes) // 2 if at is None else at
    length = (need.colours[0] if need.colours else need).length[size]
    mass = need.mass[size]
    ball = _OTHER_BALL if need.yarn.put_up.length == _BALL else _BALL
    alone = (one.mass for one in pattern.swatches if one.of == need.yarn.name and not one.beside)
    ours, stitch = next(alone, None), ""
    if ours is None:
        ours, stitch = _a_hundred(pattern, need)
    theirs = Fraction(0) if ours is None else rounded(ours * _HEAVIER, Fraction(1, 10))
    return Example(
        size=size,
        length=length,
        ball=ball,
        balls=balls(length, PutUp(length=ball, mass=need.yarn.put_up.mass)),
        stitch=stitch,
        ours=ours,
        theirs=theirs,
        times=Fraction(1) if ours is None else theirs / ours,
        mass=mass,
        then=mass if ours is None else by_swatch(mass, ours, theirs),
    )


def _a_hundred(pattern: Pattern, need: YarnNeed) -> tuple[Fraction | None, str]:
    """What a hundred of the stitch weigh of which there is most, where samples stand for a swatch.

    Not where strands of several yarns are held together: who weighs a swatch weighs them all.
    """
    if any(need.yarn.name in (one.of, *one.beside) for one in pattern.swatches):
        return None, ""
    if any(one.beside for piece in pattern.pieces for one in piece.sections):
        return None, ""
    stitches = (line for line in need.lines if line.sort == "stitches" and line.title != CHAINS)
    most = max(stitches, key=lambda line: sum(line.mass), default=None)
    if most is None or most.each is None:
        return None, ""
    scale = Fraction(1) if need.samples is None else need.samples.scale
    return 100 * most.each * scale, most.title
