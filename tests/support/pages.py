"""Run the examples of the pages of problems."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.problems import recipes
from tests.support import pattern_files, plain_rows
from workeven.problems import Problem, lesson
from workeven.problems.lesson import Example


def failing(code: str, folder: Path) -> tuple[Problem, ...]:
    """What all failing examples of a page give."""
    examples = lesson.read(code).examples("Fails")
    return tuple(problem for one in examples for problem in problems_of(one, folder))


def problems_of(example: Example, folder: Path) -> tuple[Problem, ...]:
    """What one example of a page gives."""
    match example.tag:
        case "rows":
            return plain_rows.count(example.text).problems
        case "yaml":
            return pattern_files.outcome(example.text).problems
        case "recipe":
            return recipes.carry_out(example.text.strip(), folder)
        case other:
            pytest.fail(f"a page has an example of the unknown kind {other}")
