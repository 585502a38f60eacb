"""The table of hostile files and texts: each gives the codes that stand beside it, in its place."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.problems.recipes import carry_out
from tests.support.pattern_files import GOOD, outcome
from workeven import pattern, source
from workeven.problems import Problem

TABLE = Path(__file__).parent / "table.md"
_HEADING = re.compile(r"^## (.+)$")
_CELL = re.compile(r"(?<!\\)\|")
#: how the cases of a part are made; the parts of the table have these names
IN_THE_PATTERN, WHOLE, STUDIO, FOLDERS = "In the good pattern", "Whole files", "Studios", "Folders"


class Case(NamedTuple):
    """A line of the table: what is tried, the cells of its text, and what is told."""

    part: str
    what: str
    cells: tuple[str, ...]
    told: str


def cases() -> Iterator[Case]:
    """Every line of every part."""
    part = ""
    for line in TABLE.read_text("utf-8").splitlines():
        if heading := _HEADING.match(line):
            part = heading[1]
        elif line.startswith("| ") and not line.startswith(("| what", "| ---")):
            what, *cells, told = (cell.strip() for cell in _CELL.split(line)[1:-1])
            yield Case(part, what, tuple(map(_text, cells)), told)


def _text(cell: str) -> str:
    """A text as it stands in the table: between backticks, with the escapes of Python."""
    bare = cell.removeprefix("`").removesuffix("`").replace("\\|", "|")
    return bare.encode("latin-1", "backslashreplace").decode("unicode_escape")


def told(problems: tuple[Problem, ...]) -> str:
    """Code, line and column of each."""
    places = (f"{one.code} {one.span.line}:{one.span.column}" for one in problems)
    return ", ".join(places) or "nothing"


def found(case: Case, folder: Path) -> tuple[Problem, ...]:
    """What is told of a case."""
    if case.part == IN_THE_PATTERN:
        old, new = case.cells
        assert GOOD.count(old) >= 1
        changed = GOOD.replace(old, new, 1) if old else f"{GOOD}{new}"
        return outcome(changed.encode("utf-8", "surrogatepass")).problems
    (text,) = case.cells
    if case.part == WHOLE:
        return outcome(text.encode("latin-1")).problems
    if case.part == FOLDERS:
        return carry_out("\n".join(text.split("; ")), folder)
    assert case.part == STUDIO
    read = source.read("patterns/studio.yaml", text.encode("utf-8"))
    if read.value is None:
        return read.problems
    return (*read.problems, *pattern.parse_studio(read.value).problems)


@pytest.mark.parametrize("case", list(cases()), ids=lambda case: f"{case.part}: {case.what}")
def test_hostile_input_is_told_by_its_code_in_its_place(case: Case, tmp_path: Path) -> None:
    """One line of the table."""
    problems = found(case, tmp_path)
    assert case.told == told(problems)
    for one in problems:
        assert len(one.found) < 400
        assert all(sign.isprintable() for sign in one.found)


def test_the_table_is_long_enough() -> None:
    """At least 120 cases, none twice."""
    tried = [(case.part, case.cells) for case in cases()]
    assert len(tried) == len(set(tried))
    assert len(tried) >= 120
