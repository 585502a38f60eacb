"""The cases beside this file: Markdown that a crocheter can review.

Each ``##`` heading is one case: a sentence of why, then a block ``rows`` (plain rows, options in
the lines above them), ``yaml`` (a whole pattern file) or ``page`` (a code: the failing examples of
its page), then what comes of it: a block ``counts`` (the stitches left after each row, as
``60 (66, 72)``, and what they are) and, where something is wrong, a block ``problems`` with the
whole messages. ``pytest tests/cases --update-cases`` writes
the last two anew; read the difference as numbers before it is committed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest

from tests.support import pages, pattern_files, plain_rows
from workeven.pipeline import Outcome
from workeven.problems import Checked, Problem
from workeven.proof import Counted, ProvenPattern
from workeven.proof.counting import CountedRow, CountedText
from workeven.report.text import in_order, problem_text
from workeven.report.wording import by_size, kinds

CASES = Path(__file__).parent
_HEADING = re.compile(r"^(?=## )", re.MULTILINE)
_INPUT = re.compile(r"^```(rows|yaml|page)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_RESULT = re.compile(r"\n+^```(?:counts|problems)\n.*?^```$", re.MULTILINE | re.DOTALL)


def _sections() -> Iterator[tuple[str, str]]:
    """Every case of every file: ``file: heading`` and its text."""
    for file in sorted(CASES.glob("*.md")):
        for section in _HEADING.split(file.read_text(encoding="utf-8"))[1:]:
            yield f"{file.stem}: {section[3:].splitlines()[0]}", section


@pytest.mark.parametrize("section", [pytest.param(text, id=name) for name, text in _sections()])
def test_case_gives_the_counts_and_problems_it_shows(
    section: str, request: pytest.FixtureRequest, tmp_path: Path
) -> None:
    """The results written in the file are those of today's engine."""
    updated = _updated(section, tmp_path)
    if request.config.getoption("--update-cases"):
        _write(section, updated)
    else:
        assert section == updated


def _write(section: str, updated: str) -> None:
    for file in CASES.glob("*.md"):
        text = file.read_text(encoding="utf-8")
        if section in text:
            file.write_text(text.replace(section, updated), encoding="utf-8")


def _updated(section: str, folder: Path) -> str:
    """The case with the results that its input gives now."""
    found = _INPUT.search(section)
    assert found, f"no block of rows or yaml in: {section}"
    counts, problems = _results(found[1], found[2], folder)
    blocks = [("counts", counts), ("problems", problems)]
    written = "".join(f"\n\n```{tag}\n{text}\n```" for tag, text in blocks if text)
    return section[: found.end()] + written + _RESULT.sub("", section[found.end() :])


def _results(tag: str, text: str, folder: Path) -> tuple[str, str]:
    """The counts and the problems that an input gives."""
    if tag == "rows":
        counted = plain_rows.count(text)
        return _counts_of_rows(counted), _told(counted.problems)
    if tag == "page":
        problems = pages.failing(text.strip(), folder)
        return "", re.sub(rf"{re.escape(str(folder))}/recipe \d+/", "", _told(problems))
    outcome = pattern_files.outcome(text)
    return _counts_of_pattern(outcome), _told(outcome.problems)


def _told(problems: tuple[Problem, ...]) -> str:
    return "\n".join(problem_text(problem) for problem in in_order(problems))


def _counts_of_rows(counted: Checked[CountedText]) -> str:
    rows = counted.value.rows if counted.value else ()
    return "\n".join(_counted_row(row) for row in rows)


def _counted_row(row: CountedRow) -> str:
    return _line(row.label or f"Line {row.line}", row.times, row.sts, row.makes)


def _counts_of_pattern(outcome: Outcome) -> str:
    if outcome.ready is None:
        return ""
    return "\n".join(_proven_rows(outcome.ready.proven))


def _proven_rows(proven: ProvenPattern) -> Iterator[str]:
    for piece in proven.pieces:
        yield f"{piece.piece.title}:"
        for section in piece.sections:
            for row in section.rows:
                yield f"  {row.row.text}"
                yield "    " + _line(
                    row.anchor,
                    [None if one is None else one.times for one in row.per_size],
                    [None if one is None else one.sts for one in row.per_size],
                    [None if one is None else one.makes for one in row.per_size],
                )


def _line(
    name: str,
    times: Sequence[int | None],
    sts: Sequence[int | None],
    makes: Sequence[Counted | None],
) -> str:
    """One row: its name, how many rows it stands for if not one, its stitches, what they are."""
    if all(made is None for made in makes):
        return f"{name}: not counted"
    several = "" if set(times) <= {1, None} else f" after {by_size(times)} rows"
    return f"{name}: {by_size(sts)} sts{several} = {kinds(makes) or 'nothing'}"
