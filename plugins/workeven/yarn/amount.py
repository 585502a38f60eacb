"""The amount of one yarn: stitches times what each takes, strands, the samples' scale, the margin.

Takes     a ``Tally``, the ``Rates`` of its yarn, what the finished samples say.
Gives     ``need_of``, ``sum_of``, ``total``, ``margin_of``, ``pieces_of``, ``nothing_of``,
          ``strands_mass``.
Problems  none.
From      design.md, "Numbers a maker can trust"; ``standards``: length by the put-up's length to
          its mass; balls whole, up.

Worked example: 5,000 sc at 0.03 g are 150 g; seams and ends of 20 m, in a yarn of 50 g to 200 m,
5 g more; a margin of a tenth makes 170.5 g, which are 682 m and 4 balls.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.arithmetic.quantities import decimal
from workeven.arithmetic.sums import summed
from workeven.pattern import Pattern, PutUp
from workeven.problems.words import joined
from workeven.yarn import rates as by_stitch
from workeven.yarn.buying import balls
from workeven.yarn.needs import (
    CHAINS,
    Calibration,
    ColourNeed,
    Fit,
    Line,
    NoAmount,
    PieceNeed,
    YarnNeed,
)
from workeven.yarn.rates import CHAIN, Plain, Rates, Weighed
from workeven.yarn.strands import Strand
from workeven.yarn.tally import Part, Tally

#: The least margin where published proportions stand in for a swatch: tests of yarn by stitch
#: disagree by some 15 % (``standards``, faults of ``yarn_consumption.csv``).
LEAST_MARGIN_BY_PROPORTION = Fraction(1, 5)
#: Chains and slip stitches are taken by proportion; where they take more than this part of the
#: yarn, the amount has the larger margin.
MOST_CHAINS = Fraction(1, 10)
_NOTHING = Fraction(0)


def need_of(
    pattern: Pattern,
    tally: Tally,
    told: Rates,
    lines: tuple[Line, ...],
    swatches: list[Weighed],
    samples: Calibration | None,
) -> YarnNeed:
    """The amount of a yarn of which every stitch is told; ``lines`` are its sum."""
    scale = Fraction(1) if samples is None else samples.scale
    bare = total(lines, pattern.sizes)
    bare = bare if scale == 1 else bare.map(lambda grams: grams * scale)
    margin = margin_of(pattern, tally, told)
    put_up, added = tally.yarn.put_up, 1 + margin
    by_mass = put_up.length / put_up.mass
    mass = bare.map(lambda grams: grams * added)
    length = mass.map(lambda grams: grams * by_mass)
    colours = _by_colour(tally, told, scale * added, pattern.sizes)
    whole = length.map(lambda mm: balls(mm, put_up))
    if colours:
        each = zip(*(one.balls for one in colours), strict=True)
        whole = pattern.sizes.each(tuple(map(sum, each)))
    return YarnNeed(
        yarn=tally.yarn,
        length=length,
        mass=mass,
        balls=whole,
        margin=margin,
        method=_method(swatches, tally, told, samples),
        bare=bare,
        lines=lines,
        pieces=pieces_of(tally, told, pattern.sizes),
        colours=colours,
        why_not=tally.why_not,
        fit=fit_of(swatches, told),
        samples=samples,
    )


def margin_of(pattern: Pattern, tally: Tally, told: Rates) -> Fraction:
    """The margin of the pattern, or the larger one where published proportions stand in."""
    if _by_proportion(tally, told) or any(_many_chains(one, told) for one in tally.stitches):
        return max(pattern.margin, LEAST_MARGIN_BY_PROPORTION)
    return pattern.margin


def _many_chains(stitches: Plain, told: Rates) -> bool:
    chains = stitches.get(CHAIN, 0) * (told.chain or _NOTHING)
    return chains > 0 and chains > MOST_CHAINS * told.mass(stitches)


def _by_proportion(tally: Tally, told: Rates) -> tuple[str, ...]:
    """The stitches whose amount is by published proportions."""
    return tuple(
        name
        for name in tally.kinds()
        if name != CHAIN and name in told.derived and name not in told.shown
    )


# --- the sum -------------------------------------------------------------------------------


def sum_of(tally: Tally, told: Rates, sizes: Sizes) -> tuple[Line, ...]:
    """The lines of the sum: each kind of stitch, then the strands."""
    lines: list[Line] = []
    proportion = _by_proportion(tally, told)
    for name in tally.kinds():
        number = sizes.each(tuple(stitches.get(name, 0) for stitches in tally.stitches))
        each = told.of(name) or _NOTHING
        lines.append(
            Line(
                sort="stitches",
                title=CHAINS if name == CHAIN else name,
                number=number,
                each=each,
                mass=number.map(lambda count, each=each: count * each),  # type: ignore[misc]
                basis=_basis(name, told, by_proportion=name in proportion),
            )
        )
    return (*lines, *(_strand(strand, tally.yarn.put_up) for strand in tally.strands))


def total(lines: Iterable[Line], sizes: Sizes) -> PerSize[Fraction]:
    """All lines together."""
    return _together([line.mass for line in lines], sizes)


def _together(masses: list[PerSize[Fraction]], sizes: Sizes) -> PerSize[Fraction]:
    if not masses:
        return sizes.all(_NOTHING)
    return sizes.each(tuple(map(summed, zip(*masses, strict=True))))


def _basis(name: str, told: Rates, *, by_proportion: bool) -> str:
    if name == CHAIN:
        return "by published proportions" if told.chain is not None else "in the other stitches"
    return "by published proportions" if by_proportion else f"by {told.by}"


def _strand(strand: Strand, put_up: PutUp) -> Line:
    return Line(
        sort="strand",
        title=strand.title if strand.kind != "end" else f"Ends: {strand.title}",
        number=strand.number,
        each=None,
        mass=_mass_of(strand, put_up),
        basis=strand.basis,
        length=strand.each if strand.mass is None else None,
        colour=strand.colour,
    )


def strands_mass(tally: Tally, sizes: Sizes) -> PerSize[Fraction]:
    """All strands of a yarn together, in g."""
    return _together([_mass_of(strand, tally.yarn.put_up) for strand in tally.strands], sizes)


def _mass_of(strand: Strand, put_up: PutUp) -> PerSize[Fraction]:
    if strand.mass is not None:
        return strand.mass
    by_length = put_up.mass / put_up.length
    return strand.length.map(lambda mm: mm * by_length)


# --- by piece, by colour -------------------------------------------------------------------


def nothing_of(pattern: Pattern, tally: Tally, told: Rates, reason: str) -> NoAmount:
    """A yarn of which not all is told, with the pieces that are."""
    margin = margin_of(pattern, tally, told)
    known = pieces_of(tally, told, pattern.sizes)
    titles = {one.title for one in known}
    return NoAmount(
        yarn=tally.yarn,
        reason=reason,
        pieces=tuple(
            PieceNeed(
                title=one.title,
                colour=one.colour,
                mass=one.mass.map(lambda grams: grams * (1 + margin)),
            )
            for one in known
        ),
        margin=margin,
        untold=tuple(dict.fromkeys(part.title for part in tally.parts if part.title not in titles)),
    )


def pieces_of(tally: Tally, told: Rates, sizes: Sizes) -> tuple[PieceNeed, ...]:
    """The stitches of each piece, as often as it is made; a piece that is not told has none."""
    untold = {
        part.piece for part in tally.parts if any(map(told.unknown, part.stitches))
    }  # in one of its colours
    return tuple(
        PieceNeed(title=part.title, colour=part.colour, mass=_part(part, told, sizes))
        for part in tally.parts
        if part.piece not in untold
    )


def _part(part: Part, told: Rates, sizes: Sizes) -> PerSize[Fraction]:
    pairs = zip(part.stitches, part.make, strict=True)
    return sizes.each(tuple(told.mass(stitches) * make for stitches, make in pairs))


def _by_colour(tally: Tally, told: Rates, scale: Fraction, sizes: Sizes) -> tuple[ColourNeed, ...]:
    """Each colour, where there are several and it is known which is worked where."""
    yarn = tally.yarn
    if not tally.by_colour or len(yarn.colours) < 2:  # noqa: PLR2004, several
        return ()
    found: list[ColourNeed] = []
    by_mass = yarn.put_up.length / yarn.put_up.mass
    for colour in yarn.colours:
        masses = [_part(part, told, sizes) for part in tally.parts if part.colour == colour]
        masses += [_mass_of(one, yarn.put_up) for one in tally.strands if one.colour == colour]
        mass = _together(masses, sizes).map(lambda grams: grams * scale)
        length = mass.map(lambda grams: grams * by_mass)
        found.append(
            ColourNeed(
                colour=colour,
                length=length,
                mass=mass,
                balls=length.map(lambda mm: balls(mm, yarn.put_up)),
            )
        )
    return tuple(found)


# --- in words ------------------------------------------------------------------------------


def fit_of(swatches: Iterable[Weighed], told: Rates) -> tuple[Fit, ...]:
    """Each swatch beside what all of them together make of it; none where one alone tells all."""
    found = tuple(
        Fit(
            stitches=tuple(swatch.stitches.items()),
            weighed=swatch.mass,
            computed=told.mass(swatch.stitches),
        )
        for swatch in swatches
        if not told.unknown(swatch.stitches)
    )
    return found if len(found) > 1 or any(one.computed != one.weighed for one in found) else ()


def _method(swatches: list[Weighed], tally: Tally, told: Rates, samples: Calibration | None) -> str:
    """How the amount was computed, in one sentence."""
    derived = _by_proportion(tally, told)
    words = "Computed from all stitches of the rows"
    if swatches:
        weighed = joined(f"{decimal(one.mass, 2)} g for {listed(one.stitches)}" for one in swatches)
        words += f" and the weighed swatch{'' if len(swatches) == 1 else 'es'} ({weighed})"
    if samples is not None and samples.counted:
        words += f"; {_samples(samples)}"
    if derived:
        words += f"; {joined(derived)} by published proportions, {by_stitch.proportions()}"
    if CHAIN in tally.kinds():
        words += f"; {_chain_words(told)}"
    if derived or (CHAIN in tally.kinds() and told.chain is not None):
        words += f" (measured in unravelled swatches, {by_stitch.citation()})"
    return words


def _samples(samples: Calibration) -> str:
    """``set by 3 finished samples, worst difference 4 %``."""
    number = len(samples.counted)
    words = f"{number} finished sample{'' if number == 1 else 's'}"
    told = f"from {words}" if samples.fitted else f"set by {words}"
    if number > 1 or samples.fitted:
        return f"{told}, worst difference {decimal(samples.worst * 100, 1)} %"
    return told


def _chain_words(told: Rates) -> str:
    if told.chain is None:
        return "chains and slip stitches left to the stitches, as in the swatch"
    name = next(name for name in (*told.shown, *told.derived) if by_stitch.chain_share(name))
    share = by_stitch.chain_share(name) or _NOTHING
    return f"a chain or slip stitch taken as {decimal(share, 4)} of a {name}"


def listed(stitches: Plain) -> str:
    """``336 dc and 24 chains``."""
    return joined(
        f"{count} chain{'' if count == 1 else 's'}" if name == CHAIN else f"{count} {name}"
        for name, count in sorted(stitches.items(), key=lambda item: item[0] == CHAIN)
    )
