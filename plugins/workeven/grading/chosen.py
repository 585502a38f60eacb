"""All counts of a pattern, each after those that it is made from.

Takes     ``Pattern`` and its measurements in every size; values that carry through a piece.
Gives     ``all_counts``.
Problems  those of ``counts`` and ``formulas``; ``name-unknown``, ``name-circle``.
From      design.md, ``counts``.

A computed count may match others or be a multiple of one, and these may be formulas of computed
counts again. So what can be worked out is, in rounds, until nothing more can.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from workeven.arithmetic.per_size import PerSize
from workeven.grading.counts import Carried, Measured, measured_count
from workeven.grading.formulas import formula_counts
from workeven.grading.graded import GradedCount
from workeven.grading.order import in_order
from workeven.pattern import ComputedCount, FormulaCount, ListedCount, Pattern
from workeven.pattern.uses import needs_of
from workeven.problems import Note, Problem, Span
from workeven.problems.words import did_you_mean, joined, quote


def all_counts(
    pattern: Pattern, lengths: Mapping[str, PerSize[Fraction]], carried: Carried
) -> tuple[dict[str, GradedCount], tuple[Problem, ...]]:
    """Every count that has a number in every size, and what is wrong with the others."""
    graded: dict[str, GradedCount] = {}
    problems: list[Problem] = []
    waiting: list[Measured] = [
        one for one in pattern.counts if isinstance(one, ComputedCount | ListedCount)
    ]
    while True:
        values = {name: count.values for name, count in graded.items()}
        made, faults = formula_counts(pattern, values)
        known = {**values, **made}
        ready = [one for one in waiting if needs_of(one) <= known.keys()]
        if not ready:
            break
        waiting = [one for one in waiting if one not in ready]
        for one in ready:
            count, found = measured_count(pattern, one, lengths, known, carried)
            problems.extend(found)
            if count is not None:
                graded[one.name] = count
    return _in_file_order(pattern, graded, made), (
        *_once_a_gauge(problems),
        *_left(pattern, waiting),
        *faults,
    )


def _once_a_gauge(problems: list[Problem]) -> list[Problem]:
    """A gauge that has no rows is told once, by the first count in it."""
    told: set[tuple[str, Span]] = set()
    kept: list[Problem] = []
    for one in problems:
        if one.code == "gauge-no-rows" and one.notes:
            key = (one.code, one.notes[0].span)
        else:
            kept.append(one)
            continue
        if key not in told:
            kept.append(one)
        told.add(key)
    return kept


def _in_file_order(
    pattern: Pattern, measured: Mapping[str, GradedCount], made: Mapping[str, PerSize[int]]
) -> dict[str, GradedCount]:
    counts: dict[str, GradedCount] = {}
    for count in pattern.counts:
        if count.name in measured:
            counts[count.name] = measured[count.name]
        elif isinstance(count, FormulaCount) and count.name in made:
            counts[count.name] = _from_formula(count, made[count.name])
    return counts


def _from_formula(count: FormulaCount, values: PerSize[int]) -> GradedCount:
    return GradedCount(
        count=count,
        values=values,
        measurement=None,
        wanted=None,
        exact=None,
        measures=None,
        rule=count.formula.text,
    )


def _left(pattern: Pattern, waiting: list[Measured]) -> list[Problem]:
    """Counts that wait for a name that is nowhere, or for one another."""
    by_name = {count.name: count for count in pattern.counts}
    problems = [
        _unknown(one, name, sorted(by_name.keys() - {one.name}))
        for one in waiting
        for name in sorted(needs_of(one) - by_name.keys())
    ]
    _, circles = in_order({name: needs_of(count) for name, count in by_name.items()})
    names = {one.name for one in waiting}
    for circle in circles:
        if names.isdisjoint(circle):
            continue  # formulas tell of their own circles
        steps = zip(circle, (*circle[1:], circle[0]), strict=True)
        problems.append(
            Problem(
                code="name-circle",
                span=by_name[circle[0]].span,
                found=f"{joined(map(quote, circle))} are made from each other, in a circle."
                if len(circle) > 1
                else f"{quote(circle[0])} is made from itself.",
                expected=f"{joined(f'{quote(a)} needs {quote(b)}' for a, b in steps)}.",
                mend="Write one of them without the others.",
                notes=tuple(
                    Note(span=by_name[name].span, message=f"{quote(name)} stands here.")
                    for name in circle[1:]
                ),
            )
        )
    return problems


def _unknown(count: Measured, name: str, names: list[str]) -> Problem:
    known = f"Known: {joined(map(quote, names))}." if names else "There is no other count."
    return Problem(
        code="name-unknown",
        span=count.span,
        found=f"{quote(count.name)} needs {quote(name)}, and there is no count of that name.",
        mend=did_you_mean(name, names) or known,
    )
