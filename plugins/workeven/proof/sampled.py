"""The counts of all sizes, reworked from a sample that fits: one size whose counts are given.

Takes     ``GradedPattern``, a size, and finished counts of it by name.
Gives     ``rework``: ``Reworked`` by name.
Problems  none: what cannot be is said in the record.
From      common practice of grading: what the sample measures more or less than was asked for is
          the ease that its designer liked, and every size gets the same.

A sample of 92 sts where 88 are exact is 4 sts wider than was asked for. Every other size is wanted
4 sts wider too; the nearest number that the rule allows and with which all pieces come out is
taken. Counts that are made from others follow.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.grading import GradedCount, GradedPattern
from workeven.grading.rules import anew, is_allowed
from workeven.pattern import FormulaCount
from workeven.pattern.uses import needs_of
from workeven.proof.nearest import carries, nearest_counts
from workeven.records import record, replace

#: how far around the number that is wanted one is sought that comes out
_REACH = 60


@record
class Reworked:
    """One count in every size; the sample's own number stands in its size.

    ``off`` is what the sample measures more than was wanted (mm). ``held``: whether every size
    measures what is wanted, within the tolerance. ``barren`` are the sizes with no number near
    enough that comes out.
    """

    count: GradedCount
    values: PerSize[int]
    off: Fraction
    held: bool
    barren: tuple[str, ...]


def rework(graded: GradedPattern, size: int, sample: Mapping[str, int]) -> dict[str, Reworked]:
    """Every count of the sample in all sizes, one after the other, each beside those before."""
    found: dict[str, Reworked] = {}
    for name, number in sample.items():
        one = _reworked(graded, size, name, number)
        graded = _with_values(graded, name, one.values)
        found[name] = one
    names = graded.pattern.sizes.names
    for name, one in found.items():  # the sample comes out with all its counts, or does not
        if not carries(graded, name, size) and names[size] not in one.barren:
            found[name] = replace(one, barren=(*one.barren, names[size]))
    return found


def _reworked(graded: GradedPattern, size: int, name: str, number: int) -> Reworked:
    count = graded.counts[name]
    if count.exact is None or count.wanted is None or count.tolerance is None:
        raise KeyError(name)
    more = number - count.exact[size]
    wider = replace(count, exact=count.exact.map(lambda exact: max(exact + more, Fraction(1))))
    others = tuple(at for at in range(len(graded.pattern.sizes)) if at != size)
    shifted = replace(graded, counts={**graded.counts, name: wider})
    near = nearest_counts(shifted, name, most=1, reach=_REACH, sizes=others, by_rule=True)
    names = graded.pattern.sizes.names
    values = count.values.sizes.each(
        tuple(
            number if at == size else near[one][0].count if near[one] else count.values[at]
            for at, one in enumerate(names)
        )
    )
    unit = count.wanted[size] / count.exact[size]
    held = all(
        abs(value * unit - wanted) <= tolerance
        for value, wanted, tolerance in zip(values, count.wanted, count.tolerance, strict=True)
    )
    barren = tuple(one for one, hits in near.items() if not hits)
    return Reworked(count=count, values=values, off=more * unit, held=held, barren=barren)


def _with_values(graded: GradedPattern, name: str, values: PerSize[int]) -> GradedPattern:
    """The pattern with this count, those made from it made anew where they can be."""
    counts = {**graded.counts, name: replace(graded.counts[name], values=values)}
    for _ in counts:  # one made from another may stand above it
        for other, count in counts.items():
            if other != name and needs_of(count.count):
                made = tuple(
                    anew(count, {one: got.values[at] for one, got in counts.items()}, at)
                    for at in range(len(values.sizes))
                )
                kept = tuple(
                    old if new is None else new for old, new in zip(count.values, made, strict=True)
                )
                counts[other] = replace(count, values=values.sizes.each(kept))
    return replace(graded, counts=counts)


def refusal(graded: GradedPattern, size: int, name: str, number: int) -> str:
    """Why a number of a sample cannot be kept, as a sentence; "" where it can."""
    count = graded.counts[name]
    if isinstance(count.count, FormulaCount):
        return f"`{name}` is made from other counts ({count.rule}): give those."
    if count.exact is None or count.tolerance is None:
        return f"`{name}` is counted over no measurement, so other sizes do not follow from it."
    if not is_allowed(count.count, size, number):
        return f"{number} is not what `{name}` allows: {count.rule}."
    return ""
