"""Measurements and counts that are made from others, worked out in every size.

Takes     formulas by name, and the values they may use.
Gives     ``measurements``, ``formula_counts``.
Problems  ``name-unknown``, ``name-twice``, ``name-circle``, ``unit-formula``, ``count-not-whole``,
          ``count-negative``.
From      design.md, "A pattern file": ``measurements``, and ``{is: …}`` under ``counts``.

A formula that cannot be worked out is reported once; those that need it say nothing more.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from math import lcm
from typing import Literal

from workeven.arithmetic.formulas import Formula, FormulaFault
from workeven.arithmetic.per_size import PerSize
from workeven.arithmetic.quantities import print_number
from workeven.grading.order import in_order
from workeven.grading.sizes_of import names_of, others_of
from workeven.pattern import ComputedCount, FormulaCount, Measurement, Pattern
from workeven.pattern.bodies import ease_name
from workeven.problems import Note, Problem, Span
from workeven.problems.words import did_you_mean, joined, quote
from workeven.records import field, record, replace

Values = dict[str, PerSize[Fraction]]


@record
class Task:
    """A name, its formula in every size, and the places of both."""

    name: str
    formula: PerSize[Formula]
    span: Span
    words: Span | None

    def needs(self) -> frozenset[str]:
        """The names that the formula uses in some size."""
        return frozenset().union(*(formula.names for formula in self.formula))


@record
class Work:
    """What kind of formulas are worked out, and all names that they may use.

    ``computed`` are the counts whose ``multiple`` can be changed. ``offered`` are the measurements
    of the body chart, which are taken as soon as a formula uses them.
    """

    kind: Literal["measurement", "count"]
    existing: frozenset[str]
    computed: Mapping[str, ComputedCount] = field(default_factory=dict)
    offered: frozenset[str] = frozenset()

    def value(self, formula: Formula, values: Mapping[str, Fraction]) -> Fraction:
        """One formula in one size."""
        if self.kind == "measurement":
            return formula.length(values)
        return formula.count({name: int(value) for name, value in values.items()})


def measurements(pattern: Pattern) -> tuple[Values, tuple[Problem, ...]]:
    """Every length that can be worked out, body measurements first, in mm.

    A body measurement of two words is named with an underscore in formulas: ``upper_arm``; the ease
    wanted at it is ``upper_arm_ease``.
    """
    body = dict(pattern.to_fit)
    tasks = [
        Task(name=one.name, formula=one.formula, span=one.span, words=one.words)
        for one in pattern.measurements
    ]
    known = {name.replace(" ", "_"): values for name, values in body.items()}
    known |= {ease_name(ease.body): ease.values for ease in pattern.body.ease}
    existing = frozenset({*known, *(task.name for task in tasks)})
    chart = pattern.body.chart
    offered = () if chart is None else (one.replace(" ", "_") for one in chart.measurements())
    work = Work(kind="measurement", existing=existing, offered=frozenset(offered))
    lengths, problems = _work_out(tasks, known, work)
    made = {task.name: lengths[task.name] for task in tasks if task.name in lengths}
    twice = (_twice(one) for one in pattern.measurements if one.name in known)
    return {**body, **made}, (*twice, *problems)


def formula_counts(
    pattern: Pattern, known: Mapping[str, PerSize[int]]
) -> tuple[dict[str, PerSize[int]], tuple[Problem, ...]]:
    """Every count that is made from others and comes out whole, none less than zero."""
    tasks = [
        Task(
            name=count.name,
            formula=pattern.sizes.all(count.formula),
            span=count.span,
            words=count.words,
        )
        for count in pattern.counts
        if isinstance(count, FormulaCount)
    ]
    existing = frozenset(count.name for count in pattern.counts)
    exact = {name: values.map(Fraction) for name, values in known.items()}
    computed = {one.name: one for one in pattern.counts if isinstance(one, ComputedCount)}
    work = Work(kind="count", existing=existing, computed=computed)
    values, problems = _work_out(tasks, exact, work)
    return {
        task.name: values[task.name].map(int) for task in tasks if task.name in values
    }, problems


def worked_out(
    tasks: Iterable[Task], counts: Mapping[str, PerSize[int]]
) -> tuple[Values, tuple[Problem, ...]]:
    """Whole numbers made from counts, by the names of the tasks."""
    exact = {name: values.map(Fraction) for name, values in counts.items()}
    return _work_out(tasks, exact, Work(kind="count", existing=frozenset(counts)))


# --- working out ---------------------------------------------------------------------------


def _work_out(
    tasks: Iterable[Task], known: Mapping[str, PerSize[Fraction]], work: Work
) -> tuple[Values, tuple[Problem, ...]]:
    """The known values and those of all tasks that can be worked out; and what is wrong."""
    by_name = {task.name: task for task in tasks}
    order, circles = in_order({name: task.needs() for name, task in by_name.items()})
    values: Values = dict(known)
    problems = [_circle(circle, by_name) for circle in circles]
    for task in map(by_name.__getitem__, order):
        unknown = sorted(task.needs() - work.existing)
        problems.extend(_unknown(task, name, work) for name in unknown)
        if task.needs() <= values.keys():
            problems.extend(_settle(task, values, work))
    return values, tuple(problems)


def _settle(task: Task, values: Values, work: Work) -> list[Problem]:
    """Add the value of one task to the others, or say why it has none."""
    results: list[Fraction] = []
    faults: dict[str, tuple[FormulaFault, list[int]]] = {}
    for index, formula in enumerate(task.formula):
        try:
            named = {name: values[name][index] for name in formula.names}
            results.append(work.value(formula, named))
        except FormulaFault as fault:
            faults.setdefault(str(fault), (fault, []))[1].append(index)
    if faults:
        return [_fault(task, fault, failing) for fault, failing in faults.values()]
    exact = task.formula.sizes.each(tuple(results))
    problems = _uncountable(task, exact, values, work) if work.kind == "count" else []
    if not problems:
        values[task.name] = exact
    return problems


# --- what can be wrong ---------------------------------------------------------------------


def _fault(task: Task, fault: FormulaFault, failing: list[int]) -> Problem:
    formula = task.formula[failing[0]]
    everywhere = len(failing) == len(task.formula.sizes)
    return Problem(
        code="unit-formula",
        span=_within(task, formula, fault.at, fault.end),
        found=f"{quote(task.name)}: {fault.found}",
        mend=fault.mend,
        sizes=None if everywhere else names_of(task.formula.sizes, failing),
        good_sizes=() if everywhere else others_of(task.formula.sizes, failing),
        excerpt=formula.text,
    )


def _uncountable(task: Task, exact: PerSize[Fraction], values: Values, work: Work) -> list[Problem]:
    """Counts are whole in every size, and not less than zero."""
    broken = [index for index, value in enumerate(exact) if value.denominator != 1]
    below = [index for index, value in enumerate(exact) if value < 0 and index not in broken]
    problems = []
    if broken:
        mend = _by_multiple(task, work) or "Change what it is made from."
        found = f"{quote(task.name)} is not a whole number."
        problems.append(_bad_count(task, broken, "count-not-whole", found, mend))
    if below:
        mend = "Change the formula, or the counts that it is made from."
        found = f"{quote(task.name)} is less than zero."
        problems.append(_bad_count(task, below, "count-negative", found, mend))
    return [_with_values(problem, task, exact, values) for problem in problems]


#: no stitch pattern has a longer repeat
_LONGEST_REPEAT = 144


def _by_multiple(task: Task, work: Work) -> str:
    """The ``multiple`` with which the count that it is made from makes it whole; "" if none."""
    base = work.computed.get(next(iter(task.needs()))) if len(task.needs()) == 1 else None
    if base is None:
        return ""
    formula, plus, given = task.formula[0], base.plus[0], base.multiple[0]
    for multiple in range(1, _LONGEST_REPEAT + 1):
        if all(_is_whole(formula, base.name, multiple * by + plus) for by in range(1, 5)):
            both = lcm(multiple, given)
            kept = f" (`multiple: {both}` keeps the {given} too)" if both != multiple else ""
            return (
                f"With `multiple: {multiple}` for {quote(base.name)} it is whole in every size"
                f"{kept}."
            )
    return ""


def _is_whole(formula: Formula, name: str, value: int) -> bool:
    try:
        return formula.count({name: value}).denominator == 1
    except FormulaFault:
        return False


def _bad_count(task: Task, failing: list[int], code: str, found: str, mend: str) -> Problem:
    return Problem(
        code=code,
        span=task.span,
        found=found,
        mend=mend,
        sizes=names_of(task.formula.sizes, failing),
        good_sizes=others_of(task.formula.sizes, failing),
        excerpt=task.formula[failing[0]].text,
    )


def _with_values(problem: Problem, task: Task, exact: PerSize[Fraction], values: Values) -> Problem:
    """The problem with what the formula comes to in each failing size, and from what."""
    failing = [
        index for index, name in enumerate(exact.sizes.names) if name in (problem.sizes or ())
    ]
    figures = (("value", tuple(str(exact[index]) for index in failing)),)
    lines = [_line(task, index, exact, values) for index in failing]
    return replace(problem, expected="\n".join(lines), figures=figures)


def _line(task: Task, index: int, exact: PerSize[Fraction], values: Values) -> str:
    formula = task.formula[index]
    size = exact.sizes.names[index]
    names = sorted(formula.names, key=formula.place)
    made_of = joined(f"{quote(name)} {print_number(values[name][index])}" for name in names)
    where = f"In {size} it is" if size else "It is"
    return f"{where} {print_number(exact[index])}{f', from {made_of}' if names else ''}."


def _circle(circle: tuple[str, ...], by_name: Mapping[str, Task]) -> Problem:
    """One message for a round of formulas that need each other."""
    first = by_name[circle[0]]
    alone = len(circle) == 1
    steps = (
        f"{quote(name)} needs {quote(need)}"
        for name, need in zip(circle, (*circle[1:], circle[0]), strict=True)
    )
    return Problem(
        code="name-circle",
        span=first.span,
        found=f"{quote(first.name)} is made from itself."
        if alone
        else f"{joined(map(quote, circle))} are made from each other, in a circle.",
        expected="" if alone else f"{joined(steps)}.",
        mend="Write one of them without the others.",
        excerpt=first.formula[0].text,
        notes=tuple(
            Note(span=by_name[name].span, message=f"{quote(name)} stands here.")
            for name in circle[1:]
        ),
    )


def _unknown(task: Task, name: str, work: Work) -> Problem:
    formula = next(one for one in task.formula if name in one.names)
    names = sorted((work.existing | work.offered) - {task.name})
    known = f"Known: {joined(map(quote, names))}." if names else f"There is no other {work.kind}."
    return Problem(
        code="name-unknown",
        span=_within(task, formula, *formula.place(name)),
        found=f"{quote(task.name)} needs {quote(name)}, and there is no {work.kind} of that name.",
        mend=_wanting_ease(name, work) or did_you_mean(name, names) or known,
        excerpt=formula.text,
    )


def _wanting_ease(name: str, work: Work) -> str:
    """How an ease that a formula names is given."""
    body = name.removesuffix(ease_name(""))
    if body == name or body not in work.existing | work.offered:
        return ""
    return f"Give the ease under `sizes`: `ease: {{{body}: 8 cm}}`."


def _twice(one: Measurement) -> Problem:
    other = f"{one.name}_made"
    return Problem(
        code="name-twice",
        span=one.span,
        found=f"{quote(one.name)} is the name of a body measurement and of one of the piece.",
        expected="A formula that names it would not tell which of the two is meant.",
        mend=f"Call the measurement of the piece something else, such as {quote(other)}.",
    )


def _within(task: Task, formula: Formula, start: int, end: int) -> Span:
    """The stretch of the formula, where its text stands alone in the file, on one line."""
    words = task.words
    if words is None or words.line != words.end_line:
        return task.span
    alone = words.end_column - words.column == len(formula.text)
    return words.within(start, end) if alone else task.span
