"""Swatches so light, or weighed so coarsely, that the amounts are more open than the margin.

Takes     the swatches of a yarn as weighed, what is worked in it, the margin.
Gives     ``coarse``.
Problems  ``yarn-swatch-coarse``.
From      the rule of errors of rounding: a mass given to 0.1 g is open by half of that either way.

One swatch leaves every amount as open as itself: 2 g, weighed to 1 g, are open by a quarter. Of
several each is taken half a step heavier, all are solved again, and what the amount moves by is
summed: the most that all of them together can do. So a stitch of which the swatches hold little is
found out, even where none of them is light. A yarn has one to five as a rule. Where it has more
than 24, the 24 whose step is the largest part of their mass are taken, and all are solved anew for
each of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from workeven.arithmetic.per_size import Sizes
from workeven.arithmetic.quantities import decimal
from workeven.pattern import Swatch
from workeven.problems import Problem
from workeven.problems.words import quote
from workeven.records import record
from workeven.yarn.amount import sum_of, total
from workeven.yarn.rates import Weighed, rates
from workeven.yarn.tally import Tally

Pairs = list[tuple[Swatch, Weighed]]
#: so many swatches of a yarn are taken heavier, one by one
_MOST = 24
_MEND = "Weigh the swatch to a tenth of a gram (0.1 g matters here), or work a larger one."


@record
class _Moved:
    """What half a step more of one swatch adds to the amount of each size, as a part of it."""

    swatch: Swatch
    parts: tuple[Fraction, ...]


def coarse(swatches: Pairs, tally: Tally, sizes: Sizes, margin: Fraction) -> Iterator[Problem]:
    """At most one problem a yarn, at the swatch that leaves most open."""
    if margin <= 0 or not any(swatch.mass_step for swatch, _ in swatches):
        return
    if len(swatches) == 1:
        yield from _alone(swatches[0][0], margin)
        return
    stepped = [at for at, (swatch, _) in enumerate(swatches) if swatch.mass_step]
    stepped.sort(key=lambda at: _half(swatches[at][0]) / swatches[at][0].mass, reverse=True)
    before = _amounts([one for _, one in swatches], tally, sizes)
    moved = [_moved(at, swatches, tally, sizes, before) for at in sorted(stepped[:_MOST])]
    together = [sum(map(abs, parts)) for parts in zip(*(one.parts for one in moved), strict=True)]
    worst = max(range(len(sizes)), key=together.__getitem__)
    if together[worst] > margin:
        most = max(moved, key=lambda one: abs(one.parts[worst])).swatch
        where = f" in {sizes.names[worst]}" if len(sizes) > 1 else ""
        yield _several(most, where, together[worst], margin)


def _alone(swatch: Swatch, margin: Fraction) -> Iterator[Problem]:
    half = _half(swatch)
    if half <= margin * swatch.mass:
        return
    open_by = decimal(half / swatch.mass * 100, 1)
    yield Problem(
        code="yarn-swatch-coarse",
        span=swatch.mass_span,
        found=f"The swatch weighs {decimal(swatch.mass, 2)} g, to {decimal(2 * half, 2)} g: its "
        f"mass, and so every amount, is open by {open_by} % either way.",
        expected=f"Less than the margin of {decimal(margin * 100, 1)} %.",
        mend=_MEND,
    )


def _several(swatch: Swatch, where: str, part: Fraction, margin: Fraction) -> Problem:
    return Problem(
        code="yarn-swatch-coarse",
        span=swatch.mass_span,
        found=f"By what the swatches of {quote(swatch.of)} are weighed to, the amount{where} is "
        f"open by {decimal(part * 100, 1)} % either way, and most by this one of "
        f"{decimal(swatch.mass, 2)} g, to {decimal(2 * _half(swatch), 2)} g.",
        expected=f"Less than the margin of {decimal(margin * 100, 1)} %.",
        mend=_MEND,
    )


def _moved(at: int, swatches: Pairs, tally: Tally, sizes: Sizes, before: list[Fraction]) -> _Moved:
    swatch, weighed = swatches[at]
    heavier = Weighed(
        mass=weighed.mass * (1 + _half(swatch) / swatch.mass), stitches=weighed.stitches
    )
    after = [one for _, one in swatches]
    after[at] = heavier
    pairs = zip(before, _amounts(after, tally, sizes), strict=True)
    return _Moved(
        swatch=swatch, parts=tuple(new / old - 1 if old else Fraction(0) for old, new in pairs)
    )


def _amounts(weighed: list[Weighed], tally: Tally, sizes: Sizes) -> list[Fraction]:
    return list(total(sum_of(tally, rates(weighed), sizes), sizes))


def _half(swatch: Swatch) -> Fraction:
    return (swatch.mass_step or Fraction(0)) / 2
