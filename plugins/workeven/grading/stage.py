"""The stage itself: measurements, then counts, then what the counts make.

Takes     ``Pattern``.
Gives     ``Checked[GradedPattern]``.
Problems  those of ``formulas``, ``counts``, ``shaping``, ``buttons`` and ``texts``; ``size-order``,
          ``size-falls``, ``size-jump``.
From      design.md, "A pattern file".
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from fractions import Fraction
from itertools import pairwise
from types import MappingProxyType
from typing import TypeVar

from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.quantities import decimal, print_cm, print_in
from workeven.arithmetic.units import CM
from workeven.grading.buttons import buttons_of_holes
from workeven.grading.chosen import all_counts
from workeven.grading.counts import Carried
from workeven.grading.formulas import measurements
from workeven.grading.graded import GradedCount, GradedPattern
from workeven.grading.jumps import size_jumps
from workeven.grading.made_rows import with_made_rows
from workeven.grading.texts import text_problems
from workeven.pattern import ListedCount, Pattern
from workeven.problems import Checked, Problem, Span
from workeven.problems.words import quote

#: a length, or a number
T = TypeVar("T", Fraction, int)


def grade(pattern: Pattern, carried: Carried = MappingProxyType({})) -> Checked[GradedPattern]:
    """A number in every size for each measurement and count; none where one cannot be had.

    ``carried`` are values with which counts come out through a piece, where they ask for it. A
    count that measures too much or too little has a number all the same, so the rows that use it
    are still proven.
    """
    lengths, length_problems = measurements(pattern)
    counts, count_problems = all_counts(pattern, lengths, carried)
    told = {problem.span for problem in count_problems}
    problems = (
        *length_problems,
        *count_problems,
        *_out_of_order(pattern, counts, told=told),
        *size_jumps(pattern, counts, told=told),
        *_falling(pattern),
        *_up_and_down(pattern, lengths),
        *text_problems(pattern, lengths, {name: count.values for name, count in counts.items()}),
    )
    if len(counts) < len(pattern.counts) or any(
        measurement.name not in lengths for measurement in pattern.measurements
    ):
        return Checked(value=None, problems=problems)
    values = {name: count.values for name, count in counts.items()}
    shaped, shape_problems = with_made_rows(pattern, values)
    problems = (*problems, *shape_problems)
    if shape_problems:
        return Checked(value=None, problems=problems)
    problems = (*problems, *buttons_of_holes(pattern, values))
    graded = GradedPattern(pattern=shaped, measurements=lengths, counts=counts)
    return Checked(value=graded, problems=problems)


# --- from size to size ---------------------------------------------------------------------


def _out_of_order(
    pattern: Pattern, counts: Mapping[str, GradedCount], told: AbstractSet[Span]
) -> Iterator[Problem]:
    """Where a larger size is wanted larger, it must not come out smaller."""
    for name, count in counts.items():
        if count.wanted is None or count.measures is None or count.count.span in told:
            continue
        wanted, made = count.wanted.values, count.measures.values
        falls = [
            index
            for index in range(1, len(made))
            if wanted[index] > wanted[index - 1] and made[index] < made[index - 1]
        ]
        if falls:
            yield _order(pattern, name, count, count.measures, falls)


def _order(
    pattern: Pattern,
    name: str,
    count: GradedCount,
    made: PerSize[Fraction],
    falls: list[int],
) -> Problem:
    names = pattern.sizes.names
    lines = [
        f"{quote(count.measurement or name)} is wanted larger in {names[index]} than in "
        f"{names[index - 1]}; {count.values[index - 1]} makes {_cm_in(made[index - 1])}, "
        f"{count.values[index]} makes {_cm_in(made[index])}."
        for index in falls
    ]
    return Problem(
        code="size-order",
        span=count.count.span,
        found=f"{quote(name)} makes a larger size smaller than the one before it.",
        expected="\n".join(lines),
        mend="Change the counts, or the multiple, so that they rise from size to size.",
        sizes=tuple(names[index] for index in falls),
        figures=(
            ("made_cm", tuple(decimal(made[index] / CM) for index in falls)),
            ("before_cm", tuple(decimal(made[index - 1] / CM) for index in falls)),
        ),
    )


def _falling(pattern: Pattern) -> Iterator[Problem]:
    """A body measurement that falls from one size to the next is often a slip in typing.

    One that a chart holds is as published; where it is known to be faulty, that has been told.
    """
    names = pattern.sizes.names
    from_chart = {line.measurement for line in pattern.body.lines}
    for name, body in pattern.to_fit:
        if name in from_chart:
            continue
        falls = [index for index in range(1, len(names)) if body[index] < body[index - 1]]
        if falls:
            lines = [
                f"{names[index - 1]} is {_cm_in(body[index - 1])}, "
                f"{names[index]} is {_cm_in(body[index])}."
                for index in falls
            ]
            yield Problem(
                code="size-falls",
                span=pattern.sizes_span,
                found=f"{quote(name)} falls from one size to the next.",
                expected="\n".join(lines),
                mend="Check the list under `to_fit`; the smallest size stands first.",
                sizes=tuple(names[index] for index in falls),
            )


def _up_and_down(pattern: Pattern, lengths: Mapping[str, PerSize[Fraction]]) -> Iterator[Problem]:
    """A list that rises with the sizes and falls in one has two sizes swapped, more often than not.

    Lists that only fall are meant so (sleeves that are shorter where the shoulder drops). What is
    computed from other lengths follows from them.
    """
    names = pattern.sizes.names
    for one in pattern.measurements:
        values = lengths.get(one.name)
        if values is None or any(formula.names for formula in one.formula):
            continue
        yield from _swapped(one.name, values.values, print_cm, names, one.words or one.span)
    for count in pattern.counts:
        if isinstance(count, ListedCount):
            yield from _swapped(count.name, count.values.values, str, names, count.span)


def _swapped(
    name: str, values: tuple[T, ...], said: Callable[[T], str], names: tuple[str, ...], span: Span
) -> Iterator[Problem]:
    there = [at for at, value in enumerate(values) if value]  # 0: a size that has none of it
    steps = tuple(pairwise(there))
    falls = [(low, high) for low, high in steps if values[high] < values[low]]
    if not falls or not any(values[high] > values[low] for low, high in steps):
        return
    lines = [
        f"{names[low]} is {said(values[low])}, {names[high]} is {said(values[high])}."
        for low, high in falls
    ]
    yield Problem(
        code="size-falls",
        span=span,
        found=f"{quote(name)} rises with the sizes and falls from one to the next.",
        expected="\n".join(lines),
        mend="Look whether two sizes are swapped. If it is meant so, `allow` it with a reason.",
        sizes=tuple(names[high] for _, high in falls),
    )


def _cm_in(mm: Fraction) -> str:
    return f"{print_cm(mm)} ({print_in(mm)})"
