"""Counts chosen for a length at a gauge, and listed counts held against theirs.

Takes     the counts of a pattern and its measurements in every size.
Gives     ``measured_counts``: what was chosen, and what it measures.
Problems  ``name-unknown``, ``gauge-missing``, ``gauge-no-rows``, ``gauge-zero``,
          ``count-impossible``, ``count-off``, ``size-no-length``.
From      design.md, "counts" and the paragraph on finished measurements.

A count of stitches is the length over the width of one stitch: 185 mm at 20 sts over 10 cm are 37
exactly; the multiple of 3 nearest to it is 36 (a tie would go up), and 36 stitches measure 180 mm.
What it measures must lie within the tolerance of what was wanted. Where neither pattern nor studio
states one, that is half of what one step of the allowed counts measures (a whole step where the
pattern asks to round up or down), but at least 10 mm.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.printing import decimal, print_list
from workeven.arithmetic.progression import Progression, allowed
from workeven.arithmetic.units import CM, INCH
from workeven.grading.graded import GradedCount
from workeven.grading.sizes_of import in_size, names_of, others_of
from workeven.pattern import ComputedCount, Gauge, ListedCount, Pattern
from workeven.problems import Note, Problem
from workeven.problems.words import did_you_mean, joined, quote

Measured = ComputedCount | ListedCount
Lengths = Mapping[str, PerSize[Fraction]]

#: The least tolerance (mm) where none is stated (design.md).
LEAST_TOLERANCE = Fraction(10)


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """What a count is counted over: the length by name, and what one stitch or row measures."""

    measurement: str
    wanted: PerSize[Fraction]
    unit: Fraction
    word: str

    def exact(self) -> PerSize[Fraction]:
        """The stitches or rows that would make the length exactly."""
        return self.wanted.map(lambda mm: mm / self.unit)

    def measures(self, values: PerSize[int]) -> PerSize[Fraction]:
        """What whole numbers of stitches or rows measure (mm)."""
        return values.map(lambda count: count * self.unit)


def measured_counts(
    pattern: Pattern, lengths: Lengths
) -> tuple[dict[str, GradedCount], tuple[Problem, ...]]:
    """Computed and listed counts that have a number in every size."""
    graded: dict[str, GradedCount] = {}
    problems: list[Problem] = []
    for count in pattern.counts:
        if isinstance(count, ComputedCount | ListedCount):
            one, faults = _grade(pattern, count, lengths)
            problems.extend(faults)
            if one is not None:
                graded[count.name] = one
    return graded, tuple(problems)


def _grade(
    pattern: Pattern, count: Measured, lengths: Lengths
) -> tuple[GradedCount | None, list[Problem]]:
    basis = _basis(pattern, count, lengths)
    if isinstance(count, ListedCount):
        if not isinstance(basis, Basis):
            return _standing(count), [basis] if basis else []
        return _settled(pattern, count, basis, count.values, "listed by the designer")
    if not isinstance(basis, Basis):
        return None, [basis] if basis else []
    rule = rule_of(count)
    if problem := _no_length(pattern, count, basis):
        return None, [problem]
    chosen = tuple(_choose(count, basis, index) for index in range(len(pattern.sizes)))
    if failing := [index for index, number in enumerate(chosen) if number is None]:
        return None, [_impossible(count, failing, rule)]
    values = pattern.sizes.each(tuple(number for number in chosen if number is not None))
    return _settled(pattern, count, basis, values, rule)


def _standing(count: ListedCount) -> GradedCount:
    """A listed count that is counted over nothing, or whose basis is at fault."""
    return GradedCount(
        count=count,
        values=count.values,
        measurement=None,
        wanted=None,
        exact=None,
        measures=None,
        rule="listed by the designer",
    )


def _settled(
    pattern: Pattern, count: Measured, basis: Basis, values: PerSize[int], rule: str
) -> tuple[GradedCount, list[Problem]]:
    graded = GradedCount(
        count=count,
        values=values,
        measurement=basis.measurement,
        wanted=basis.wanted,
        exact=basis.exact(),
        measures=basis.measures(values),
        rule=rule,
    )
    return graded, _off(pattern, count, basis, graded)


# --- what a count is counted over ----------------------------------------------------------


def _basis(pattern: Pattern, count: Measured, lengths: Lengths) -> Basis | Problem | None:
    """The length and the gauge; a problem, or None where the length itself is at fault."""
    along = count.along if isinstance(count, ComputedCount) else None
    name = along or count.across
    if name is None:
        return None
    if name not in lengths:
        return None if _exists(pattern, name) else _no_measurement(pattern, count, name)
    gauge = _gauge(pattern, count)
    if isinstance(gauge, Problem):
        return gauge
    if gauge.least() <= 0:
        return _zero_gauge(count, gauge)
    unit = gauge.stitch_width() if along is None else gauge.row_height()
    if unit is None:
        return _no_rows(count, gauge)
    word = "sts" if along is None else "rows"
    return Basis(measurement=name, wanted=lengths[name], unit=unit, word=word)


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


def _zero_gauge(count: Measured, gauge: Gauge) -> Problem:
    return Problem(
        code="gauge-zero",
        span=gauge.span,
        found=f"The gauge {quote(gauge.name)} holds a zero, so nothing can be counted in it.",
        expected=f"{quote(count.name)} is counted in it.",
        mend="Write the stitches and rows that you counted, and the length over which.",
    )


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


def rule_of(count: ComputedCount) -> str:
    """The choice in the designer's words: "nearest multiple of 6 plus 1, at least 30"."""
    words = [_what(count)]
    if count.at_least is not None:
        words.append(f"at least {print_list(count.at_least.values)}")
    if count.at_most is not None:
        words.append(f"at most {print_list(count.at_most.values)}")
    text = ", ".join(words)
    return f"nearest {text}" if count.round == "nearest" else f"{text}, rounded {count.round}"


def _what(count: ComputedCount) -> str:
    if all(multiple == 1 for multiple in count.multiple) and not any(count.plus):
        return {"any": "whole number", "odd": "odd number", "even": "even number"}[count.parity]
    plus = ""
    if any(count.plus):
        least = min(count.plus)
        sign, values = ("plus", count.plus) if least >= 0 else ("minus", count.plus.map(abs))
        mixed = least < 0 < max(count.plus)
        plus = (
            f" {'plus' if mixed else sign} {print_list((count.plus if mixed else values).values)}"
        )
    parity = "" if count.parity == "any" else f", {count.parity}"
    return f"multiple of {print_list(count.multiple.values)}{plus}{parity}"


def _allowed(count: ComputedCount, index: int) -> Progression | None:
    if count.multiple[index] < 1:
        return None
    return allowed(count.multiple[index], count.plus[index], count.parity)


def _choose(count: ComputedCount, basis: Basis, index: int) -> int | None:
    counts = _allowed(count, index)
    if counts is None:
        return None
    least = None if count.at_least is None else count.at_least[index]
    most = None if count.at_most is None else count.at_most[index]
    return counts.choose(basis.wanted[index] / basis.unit, count.round, least, most)


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


# --- what it measures ----------------------------------------------------------------------


def _tolerance(pattern: Pattern, count: Measured, basis: Basis, index: int) -> Fraction:
    """How far the count may measure from what is wanted (mm)."""
    stated = pattern.tolerance if pattern.tolerance is not None else pattern.studio.tolerance
    if stated is not None:
        return stated
    if isinstance(count, ListedCount):
        return max(basis.unit / 2, LEAST_TOLERANCE)
    counts = _allowed(count, index)
    step = basis.unit * (1 if counts is None else counts.step)
    return max(step / 2 if count.round == "nearest" else step, LEAST_TOLERANCE)


def _off(pattern: Pattern, count: Measured, basis: Basis, graded: GradedCount) -> list[Problem]:
    """The finished measurement, computed back, lies within the tolerance of what was wanted."""
    made = basis.measures(graded.values)
    limits = [_tolerance(pattern, count, basis, index) for index in range(len(made.values))]
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
            expected="\n".join([*lines, *_how_chosen(count, graded)]),
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
    return [f"It is the {graded.rule}."]


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
