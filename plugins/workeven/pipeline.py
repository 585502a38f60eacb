"""The whole flow on one screen: from the bytes of a pattern file to a pattern fit to publish.

Takes     ``Source`` and ``Studio``.
Gives     ``Outcome``: a ``ReadyPattern`` if no error is left, and all problems.
Problems  those of its stages.
From      design.md, "From text to page".
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

from workeven import grading, pattern, proof, yarn
from workeven.pattern import Pattern, Studio
from workeven.problems import Checked, Problem, Severity
from workeven.problems.catalogue import severity
from workeven.proof import ProvenPattern
from workeven.source import Source
from workeven.yarn import YarnNeeds

T = TypeVar("T")
U = TypeVar("U")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyPattern:
    """A pattern with no error left: all that pages, drawings and data files are made from."""

    pattern: Pattern
    proven: ProvenPattern
    yarn: YarnNeeds
    advice: tuple[Problem, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one file."""

    file: str
    ready: ReadyPattern | None
    problems: tuple[Problem, ...]


def run(source: Source, studio: Studio) -> Outcome:
    """Take one pattern file through every stage; each stage that can run adds its problems.

    Rows are parsed with the pattern, so a slip in row 40 is told even when grading fails. A stage
    that gives no record ends the flow; one that gives a record and errors does not, so that as
    many mistakes as possible are told at once.
    """
    parsed = pattern.parse(source, studio)
    graded = _then(grading.grade, parsed)
    proven = _then(proof.prove, graded)
    needs = _then(yarn.estimate, proven)

    told = (*parsed.problems, *graded.problems, *proven.problems, *needs.problems)
    problems = _without_allowed(told, parsed.value)
    ready = None
    if parsed.value and proven.value and needs.value and not _any_error(problems):
        ready = ReadyPattern(
            pattern=parsed.value, proven=proven.value, yarn=needs.value, advice=problems
        )
    return Outcome(file=source.file, ready=ready, problems=problems)


def _then(stage: Callable[[T], Checked[U]], before: Checked[T]) -> Checked[U]:
    """The stage's result, or nothing where the stage before gave no record."""
    return Checked(value=None) if before.value is None else stage(before.value)


def _without_allowed(problems: tuple[Problem, ...], parsed: Pattern | None) -> tuple[Problem, ...]:
    """Advice that the file allows is left out; errors never are."""
    allowed = {code for code, _reason in parsed.allow} if parsed else set()
    return tuple(
        problem
        for problem in problems
        if problem.code not in allowed or severity(problem.code) is Severity.ERROR
    )


def _any_error(problems: tuple[Problem, ...]) -> bool:
    return any(severity(problem.code) is Severity.ERROR for problem in problems)
