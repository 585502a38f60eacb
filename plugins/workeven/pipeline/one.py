"""The whole flow on one screen: from the text of a pattern file to a pattern fit to publish.

Takes     ``Source`` and ``Studio``.
Gives     ``run``: ``Outcome``, with a ``ReadyPattern`` if no error is left, and all problems.
Problems  those of its stages.
From      design.md, "From text to page".
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from workeven import grading, level, pattern, proof, safety, yarn
from workeven.grading import GradedPattern
from workeven.level import JudgedLevel
from workeven.pattern import Pattern, Studio
from workeven.pipeline.likely_unit import with_likely_unit
from workeven.problems import Checked, Problem, Severity
from workeven.problems.catalogue import severity
from workeven.proof import ProvenPattern
from workeven.records import record, replace
from workeven.safety import Cautions
from workeven.source import PatternFile, Source
from workeven.source.refusals import quotable
from workeven.yarn import YarnNeeds

T = TypeVar("T")
U = TypeVar("U")
Look = Callable[[Pattern], tuple[Problem, ...]]
#: in rows curly marks are words of the designer's
_OF_ROWS = ("row-", "count-")


@record
class ReadyPattern:
    """A pattern with no error left: all that pages, drawings and data files are made from.

    It carries its cautions, so that no page can be made without them.
    """

    pattern: Pattern
    proven: ProvenPattern
    yarn: YarnNeeds
    cautions: Cautions
    level: JudgedLevel
    advice: tuple[Problem, ...]


@record
class Case:
    """A pattern's file with all that it is proven from but pictures: its text, and its studio's.

    ``studio`` are the texts of the studio and of its body charts, by file.
    """

    of: PatternFile
    content: bytes
    studio: tuple[tuple[str, bytes], ...]


@record
class Outcome:
    """What became of one file; with its ``case`` where that may be remembered."""

    file: str
    ready: ReadyPattern | None
    problems: tuple[Problem, ...]
    case: Case | None = None


def run(
    source: Source, studio: Studio, read: tuple[Problem, ...] = (), look: Look = lambda _: ()
) -> Outcome:
    """Take one pattern file through every stage; each stage that can run adds its problems.

    ``read`` are the problems that were found when the file was read, ``look`` finds those of its
    pictures, which lie beside it. Rows are parsed with the pattern, so a slip in row 40 is told
    even when grading fails. A stage that gives no record ends the flow; one that gives a record and
    errors does not, so that as many mistakes as possible are told at once.
    """
    outcome = _run(source, studio, read, look)
    if outcome.ready is not None:
        return outcome
    told = with_likely_unit(
        source, outcome.problems, lambda other: _run(other, studio, read, look).problems
    )
    return replace(outcome, problems=tuple(_with_straight_quotes(source, one) for one in told))


def _run(source: Source, studio: Studio, read: tuple[Problem, ...], look: Look) -> Outcome:
    parsed = pattern.parse(source, studio)
    graded = then(grade, parsed)
    proven = then(proof.prove, graded)
    needs = then(yarn.estimate, proven)
    cautions = then(safety.caution, parsed)
    judged = then(level.judge, proven)

    told = (*read, *_new(parsed.problems, read), *cautions.problems)
    told = (*told, *graded.problems, *_of_proof(proven.problems, told), *judged.problems)
    if proven.value and proven.value.graded.pattern.changes:
        told = (*told, *proof.rows_changed(proven.value))
    told = (*told, *_of_yarn(needs.problems, rows_wrong=any_error(told)))
    if parsed.value and not any_error(told):
        told = (*told, *proof.unheld(parsed.value))
    if parsed.value:
        told = (*told, *look(parsed.value))
    problems = _without_allowed(told, parsed.value)
    ready = None
    if any_error(problems):
        return Outcome(file=source.file, ready=None, problems=problems)
    if proven.value and needs.value and cautions.value and judged.value:
        ready = ReadyPattern(
            pattern=proven.value.graded.pattern,
            proven=proven.value,
            yarn=needs.value,
            cautions=cautions.value,
            level=judged.value,
            advice=problems,
        )
    return Outcome(file=source.file, ready=ready, problems=problems)


def grade(parsed: Pattern) -> Checked[GradedPattern]:
    """Grade; and once more with what the proof proposes, where a count asks to come out."""
    numbers = grading.grade(parsed)
    if numbers.value is None or not pattern.asks_to_come_out(parsed):
        return numbers
    return grading.grade(parsed, proof.carried(numbers.value))


def then(stage: Callable[[T], Checked[U]], before: Checked[T]) -> Checked[U]:
    """The stage's result, or nothing where the stage before gave no record."""
    return Checked(value=None) if before.value is None else stage(before.value)


def _new(parsed: tuple[Problem, ...], read: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """What is wrong with the shape of a value that YAML has split is told with the split."""
    split = {problem.span.line for problem in read if problem.code == "file-flow-split"}
    return tuple(
        problem
        for problem in parsed
        if problem.code != "file-shape" or problem.span.line not in split
    )


def _of_proof(problems: tuple[Problem, ...], told: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """What is proven beside a mistake that is told already and would tell it again.

    Where a gauge or another name leads nowhere, a seam is not measured; where a row is not
    understood, its edges are others.
    """
    if any(one.code.startswith("row-") and any_error((one,)) for one in told):
        return tuple(one for one in problems if not one.code.startswith("seam-"))
    if all(one.code != "name-unknown" for one in told):
        return problems
    return tuple(one for one in problems if one.code != "seam-unmeasured")


def _of_yarn(problems: tuple[Problem, ...], *, rows_wrong: bool) -> tuple[Problem, ...]:
    """Behind rows that do not come out the yarn is another: nothing is held against it."""
    against = ("sample-", "yarn-amounts-")
    return tuple(one for one in problems if not (rows_wrong and one.code.startswith(against)))


def _with_straight_quotes(source: Source, problem: Problem) -> Problem:
    """Where a value is wrong that stands in curly quotes, they are a part of it, and told."""
    at = problem.span
    if at.file != source.file or problem.code.startswith(_OF_ROWS) or at.line > len(source.lines):
        return problem
    value = source.lines[at.line - 1][at.column - 1 : at.end_column - 1]
    bare = quotable(value)
    if bare == value.strip().replace('"', "'"):
        return problem
    told = f"Curly quotation marks are none to YAML: write `{bare}`, or straight ones around it."
    return replace(problem, mend=f"{problem.mend}\n{told}".lstrip())


def _without_allowed(problems: tuple[Problem, ...], parsed: Pattern | None) -> tuple[Problem, ...]:
    """Advice that the file allows is left out; errors never are."""
    allowed = {code for code, _reason in parsed.allow} if parsed else set()
    return tuple(
        problem
        for problem in problems
        if problem.code not in allowed or severity(problem.code) is Severity.ERROR
    )


def any_error(problems: tuple[Problem, ...]) -> bool:
    """Whether one of them stops what is made of a pattern."""
    return any(severity(problem.code) is Severity.ERROR for problem in problems)
