"""Counts chosen for a length at a gauge, and listed counts held against theirs.

Takes     the counts of a pattern and its measurements in every size.
Gives     ``measured_count``: what was chosen, and what it measures.
Problems  ``name-unknown``, ``gauge-missing``, ``gauge-no-rows``, ``count-impossible``,
          ``count-match``, ``count-off``, ``count-rule``, ``count-step``, ``size-no-length``.
From      design.md, "counts" and the paragraph on finished measurements.

A count of stitches is the length over the width of one stitch: 185 mm at 20 sts over 10 cm are 37
exactly; the multiple of 3 nearest to it is 36 (a tie would go up), and 36 stitches measure 180 mm.
What it measures must lie within the tolerance of what was wanted. Where neither pattern nor studio
states one, that is half of what one step of the allowed counts measures (a whole step where the
pattern asks to round up or down), but at least 10 mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Literal

from workeven.arithmetic.formulas import Formula, FormulaFault
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import decimal, print_list
from workeven.arithmetic.units import CM, INCH
from workeven.grading.graded import GradedCount
from workeven.grading.rules import (
    allowed_in,
    beside,
    choose,
    is_allowed,
    neighbours,
    rule_of,
    stepped,
)
from workeven.grading.sizes_of import in_size, names_of, others_of
from workeven.pattern import ComputedCount, Gauge, ListedCount, Pattern
from workeven.problems import Note, Problem
from workeven.problems.words import did_you_mean, joined, quote
from workeven.records import record, replace

Measured = ComputedCount | ListedCount
Lengths = Mapping[str, PerSize[Fraction]]

#: The least tolerance (mm) where none is stated (design.md).
LEAST_TOLERANCE = Fraction(10)


@record
class Basis:
    """What a count is counted over: the length by name, and what one stitch or row measures."""

    measurement: str
    wanted: PerSize[Fraction]
    unit: Fraction
    word: Literal["sts", "rows"]
    gauge: Gauge

    def exact(self) -> PerSize[Fraction]:
        """The stitches or rows that would make the length exactly."""
        return self.wanted.map(lambda mm: mm / self.unit)

    def measures(self, values: PerSize[int]) -> PerSize[Fraction]:
        """What whole numbers of stitches or rows measure (mm)."""
        return values.map(lambda count: count * self.unit)


#: for each count the values with which it comes out through its piece; None: there is none
Carried = Mapping[str, PerSize[int | None]]


def measured_count(
    pattern: Pattern,
    count: Measured,
    lengths: Lengths,
    known: Mapping[str, PerSize[int]],
    carried: Carried,
) -> tuple[GradedCount | None, list[Problem]]:
    """A computed or listed count, if it has a number in every size.

    ``known`` are the counts that it may match or be a multiple of.
    """
    basis = _basis(pattern, count, lengths)
    if isinstance(count, ListedCount):
        return _listed(pattern, count, basis)
    if not isinstance(basis, Basis):
        return None, [basis] if basis else []
    if problem := _no_length(pattern, count, basis):
        return None, [problem]
    if count.multiple_of is not None:
        count = replace(count, multiple=known[count.multiple_of])
    if count.match is not None:
        return _matched(pattern, count, count.match, basis, known)
    rule, exact = rule_of(count), basis.exact()
    found = tuple(choose(count, one, index) for index, one in enumerate(exact))
    if failing := [index for index, number in enumerate(found) if number is None]:
        return None, [_impossible(count, failing, rule)]
    chosen = tuple(number for number in found if number is not None)
    steps = stepped(count, exact, chosen)
    if steps is None:
        return None, [_no_steps(count, basis, chosen)]
    offered = carried.get(count.name)
    if offered is not None:
        steps = tuple(
            one if near is None else near for one, near in zip(steps, offered, strict=True)
        )
    alone = None if steps == found else pattern.sizes.each(chosen)
    return _settled(pattern, count, basis, pattern.sizes.each(steps), rule, alone)


def _listed(
    pattern: Pattern, count: ListedCount, basis: Basis | Problem | None
) -> tuple[GradedCount, list[Problem]]:
    broken = [
        index for index, value in enumerate(count.values) if not is_allowed(count, index, value)
    ]
    problems = [_breaks_rule(count, broken)] if broken and count.multiple is not None else []
    if not isinstance(basis, Basis):
        return _standing(count), [*problems, *([basis] if basis else [])]
    graded, off = _settled(pattern, count, basis, count.values, rule_of(count))
    return graded, [*problems, *(off if not problems else [])]


def _matched(
    pattern: Pattern,
    count: ComputedCount,
    match: Formula,
    basis: Basis,
    known: Mapping[str, PerSize[int]],
) -> tuple[GradedCount | None, list[Problem]]:
    """A count that is the same as a formula of others; it must obey its own rule too."""
    exact: list[Fraction] = []
    for index in range(len(pattern.sizes)):
        try:
            exact.append(match.count({name: known[name][index] for name in match.names}))
        except FormulaFault as fault:
            found = f"{quote(count.name)}: {fault.found}"
            problem = Problem(code="unit-formula", span=count.span, found=found, mend=fault.mend)
            return None, [problem]
    failing = [
        index
        for index, value in enumerate(exact)
        if value.denominator != 1 or not is_allowed(count, index, int(value))
    ]
    if failing:
        return None, [_no_match(count, match, tuple(exact), failing)]
    values = pattern.sizes.each(tuple(int(value) for value in exact))
    return _settled(pattern, count, basis, values, rule_of(count))


def _standing(count: ListedCount) -> GradedCount:
    """A listed count that is counted over nothing, or whose basis is at fault."""
    return GradedCount(
        count=count,
        values=count.values,
        measurement=None,
        wanted=None,
        exact=None,
        measures=None,
        rule=rule_of(count),
    )


def _settled(
    pattern: Pattern,
    count: Measured,
    basis: Basis,
    values: PerSize[int],
    rule: str,
    alone: PerSize[int] | None = None,
) -> tuple[GradedCount, list[Problem]]:
    exact, each = basis.exact(), range(len(values.values))
    others = tuple(beside(count, exact, values, index) for index in each)
    limits = tuple(_tolerance(pattern, count, basis, index) for index in each)
    measures = basis.measures(values)
    graded = GradedCount(
        count=count,
        values=values,
        measurement=basis.measurement,
        wanted=basis.wanted,
        exact=exact,
        measures=measures,
        rule=rule,
        word=basis.word,
        gauge=basis.gauge,
        tolerance=values.sizes.each(limits),
        lower=values.sizes.each(tuple(low for low, _ in others)),
        higher=values.sizes.each(tuple(high for _, high in others)),
        alone=alone,
    )
    return graded, _off(pattern, count, basis, graded, measures, limits)


# --- what a count is counted over ----------------------------------------------------------


def _basis(pattern: Pattern, count: Measured, lengths: Lengths) -> Basis | Problem | None:
    """The length and the gauge; a problem, or None where the length itself is at fault."""
    along = count.along
    name = along or count.across
    if name is None:
        return None
    if name not in lengths:
        return None if _exists(pattern, name) else _no_measurement(pattern, count, name)
    gauge = _gauge(pattern, count)
    if isinstance(gauge, Problem):
        return gauge
    unit = gauge.stitch_width() if along is None else gauge.row_height()
    if unit is None:
        return _no_rows(count, gauge)
    return Basis(
        measurement=name,
        wanted=lengths[name],
        unit=unit,
        word="sts" if along is None else "rows",
        gauge=gauge,
    )


def _exists(pattern: Pattern, name: str) -> bool:
    return any(measurement.name == name for measurement in pattern.measurements)


def _gauge(pattern: Pattern, count: Measured) -> Gauge | Problem:
    """The gauge that the count names; where a listed count names none, the only one."""
    named = {gauge.name: gauge for gauge in pattern.gauges}
    if count.gauge is None and len(named) == 1:
        return next(iter(named.values()))
    if count.gauge in named:
        return named[count.gauge]
    known = f"The gauges are {joined(map(quote, named))}." if named else ""
    if count.gauge is None:
        found = f"{quote(count.name)} does not say in which gauge it is counted."
        mend = f"Add `gauge`. {known}" if named else "Give the pattern a `gauge`."
    else:
        found = (
            f"{quote(count.name)} is counted in the gauge {quote(count.gauge)}, which is not given."
        )
        mend = did_you_mean(count.gauge, named) or known or "Give it under `gauge`."
    return Problem(code="gauge-missing", span=count.span, found=found, mend=mend)


def _no_rows(count: Measured, gauge: Gauge) -> Problem:
    return Problem(
        code="gauge-no-rows",
        span=count.span,
        found=f"{quote(count.name)} counts rows, and the gauge {quote(gauge.name)} has none.",
        mend=f"Add `rows` to the gauge {quote(gauge.name)}.",
        notes=(Note(span=gauge.span, message=f"{quote(gauge.name)} is given here."),),
    )


def _no_measurement(pattern: Pattern, count: Measured, name: str) -> Problem:
    names = [one.name for one in pattern.measurements] + [body for body, _ in pattern.to_fit]
    known = f"Known: {joined(map(quote, names))}." if names else "Give it under `measurements`."
    return Problem(
        code="name-unknown",
        span=count.span,
        found=f"{quote(count.name)} is counted over {quote(name)}, and there is no measurement of "
        "that name.",
        mend=did_you_mean(name, names) or known,
    )


def _no_length(pattern: Pattern, count: Measured, basis: Basis) -> Problem | None:
    failing = [index for index, mm in enumerate(basis.wanted) if mm <= 0]
    if not failing:
        return None
    lines = [
        f"{in_size(pattern.sizes, index)}{_length(pattern, basis.wanted[index])}."
        for index in failing
    ]
    return Problem(
        code="size-no-length",
        span=count.span,
        found=f"{quote(basis.measurement)}, over which {quote(count.name)} is counted, is not "
        "above zero.",
        expected="\n".join(lines),
        mend=f"Change {quote(basis.measurement)}.",
        sizes=names_of(pattern.sizes, failing),
        good_sizes=others_of(pattern.sizes, failing),
    )


# --- the choice ----------------------------------------------------------------------------


def _impossible(count: ComputedCount, failing: list[int], rule: str) -> Problem:
    sizes = count.multiple.sizes
    return Problem(
        code="count-impossible",
        span=count.span,
        found=f"No number is what {quote(count.name)} asks for.",
        expected=f"It asks for the {rule}.",
        mend="Change `multiple`, `plus`, `parity` or the bounds so that a number is left.",
        sizes=names_of(sizes, failing),
        good_sizes=others_of(sizes, failing),
    )


def _breaks_rule(count: ListedCount, broken: list[int]) -> Problem:
    sizes = count.values.sizes
    lines = [
        f"{in_size(sizes, index)}{count.values[index]}; {_either_side(count, index)}."
        for index in broken
    ]
    return Problem(
        code="count-rule",
        span=count.span,
        found=f"{quote(count.name)} lists numbers that its own rule does not allow.",
        expected="\n".join([f"It says {rule_of(count)}.", *lines]),
        mend="Change the numbers, or `multiple`, `plus` and `parity`.",
        sizes=names_of(sizes, broken),
        good_sizes=others_of(sizes, broken),
    )


def _either_side(count: Measured, index: int, value: int | None = None) -> str:
    """The allowed counts on both sides of a number that is not allowed."""
    at = count.values[index] if isinstance(count, ListedCount) else (value or 0)
    near = [str(one) for one in neighbours(count, index, at) if one is not None]
    return f"the rule allows {joined(near, 'or')}" if near else "the rule allows none"


def _no_match(
    count: ComputedCount, match: Formula, exact: tuple[Fraction, ...], failing: list[int]
) -> Problem:
    sizes = count.multiple.sizes
    lines = [
        f"{in_size(sizes, index)}{quote(match.text)} is {decimal(exact[index], 2)}; "
        f"{_either_side(count, index, exact[index].__floor__())}."
        for index in failing
    ]
    return Problem(
        code="count-match",
        span=count.span,
        found=f"{quote(count.name)} cannot be the same as {quote(match.text)}.",
        expected="\n".join([f"It is to be {rule_of(count)}.", *lines]),
        mend="Change what it matches, or its own `multiple`, `plus`, `parity` and bounds.",
        sizes=names_of(sizes, failing),
        good_sizes=others_of(sizes, failing),
    )


def _no_steps(count: ComputedCount, basis: Basis, chosen: tuple[int, ...]) -> Problem:
    exact = joined(decimal(one, 2) for one in basis.exact())
    return Problem(
        code="count-step",
        span=count.span,
        found=f"No numbers of {quote(count.name)} keep its steps from size to size.",
        expected=f"It asks for the {rule_of(count)}; {quote(basis.measurement)} is {exact} "
        f"{basis.word}, for which the nearest without bounds on steps are {print_list(chosen)}.",
        mend="Change `step_at_least` or `step_at_most`, the multiple, or the measurement.",
    )


# --- what it measures ----------------------------------------------------------------------


def _tolerance(pattern: Pattern, count: Measured, basis: Basis, index: int) -> Fraction:
    """How far the count may measure from what is wanted (mm)."""
    stated = pattern.tolerance if pattern.tolerance is not None else pattern.studio.tolerance
    if stated is not None:
        return stated
    counts = allowed_in(count, index)
    step = basis.unit * (1 if counts is None else counts.step)
    nearest = isinstance(count, ListedCount) or count.round == "nearest"
    return max(step / 2 if nearest else step, LEAST_TOLERANCE)


def _off(
    pattern: Pattern,
    count: Measured,
    basis: Basis,
    graded: GradedCount,
    made: PerSize[Fraction],
    limits: tuple[Fraction, ...],
) -> list[Problem]:
    """What is ``made``, computed back, lies within the ``limits`` of what was wanted (mm)."""
    off = made.sizes.each(tuple(mm - wanted for mm, wanted in zip(made, basis.wanted, strict=True)))
    failing = [index for index, mm in enumerate(off) if abs(mm) > limits[index]]
    if not failing:
        return []
    limit = _length(pattern, max(limits[index] for index in failing))
    lines = [_off_line(pattern, basis, graded, index) for index in failing]
    return [
        Problem(
            code="count-off",
            span=count.span,
            found=f"{quote(count.name)} comes out more than {limit} away from "
            f"{quote(basis.measurement)}.",
            expected="\n".join(
                [*lines, *_how_chosen(count, graded), *_next_to(pattern, basis, graded, failing)]
            ),
            mend=_how_to_mend(count, basis),
            sizes=names_of(made.sizes, failing),
            good_sizes=others_of(made.sizes, failing),
            figures=(
                ("count", tuple(str(graded.values[index]) for index in failing)),
                ("wanted_cm", tuple(decimal(basis.wanted[index] / CM) for index in failing)),
                ("made_cm", tuple(decimal(made[index] / CM) for index in failing)),
                ("off_cm", tuple(decimal(off[index] / CM) for index in failing)),
            ),
        )
    ]


def _off_line(pattern: Pattern, basis: Basis, graded: GradedCount, index: int) -> str:
    made = graded.values[index] * basis.unit
    off = made - basis.wanted[index]
    more = "too much" if off > 0 else "too little"
    return (
        f"{in_size(pattern.sizes, index)}{_length(pattern, basis.wanted[index])} is wanted; "
        f"{graded.values[index]} {basis.word} make {_length(pattern, made)}, "
        f"{_length(pattern, abs(off))} {more}."
    )


def _how_chosen(count: Measured, graded: GradedCount) -> list[str]:
    if isinstance(count, ListedCount):
        return []
    the = "" if graded.rule.startswith("the ") else "the "
    return [f"It is {the}{graded.rule}."]


def _next_to(
    pattern: Pattern, basis: Basis, graded: GradedCount, failing: list[int]
) -> Iterator[str]:
    """The counts on both sides that the rule allows, and what they measure."""
    if graded.lower is None or graded.higher is None:
        return
    for index in failing:
        near = [one for one in (graded.lower[index], graded.higher[index]) if one is not None]
        if near:
            told = [f"{one} ({_length(pattern, one * basis.unit)})" for one in near]
            yield f"{in_size(pattern.sizes, index)}the rule allows {joined(told, 'or')} next to it."


def _how_to_mend(count: Measured, basis: Basis) -> str:
    if isinstance(count, ListedCount):
        nearest = tuple(max(1, (exact + Fraction(1, 2)).__floor__()) for exact in basis.exact())
        return f"Nearest to {quote(basis.measurement)}: {print_list(nearest)} {basis.word}."
    bounds = count.at_least is not None or count.at_most is not None
    parts = "the bounds, the measurement" if bounds else "the measurement"
    return f"Change {parts}, the multiple or the gauge, or state a wider `tolerance`."


def _length(pattern: Pattern, mm: Fraction) -> str:
    """A length in the studio's unit, fine enough to show what is off."""
    inches = pattern.studio.units == "in"
    figure = decimal(mm / INCH, 2) if inches else decimal(mm / CM, 1)
    return f"{figure.replace('-', '−')} {'in' if inches else 'cm'}"
