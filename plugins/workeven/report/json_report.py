"""Problems and counts for programs.

Takes     ``Problem`` records, and the counts of plain rows.
Gives     ``check_report``, ``count_report``, ``in_a_log``: JSON texts in ASCII, so that any
          terminal takes them.
Problems  none of its own.
From      the guide, "For other programs": keys are only ever added.
"""

from __future__ import annotations

import json
from collections.abc import Iterable

from workeven.problems import Note, Problem
from workeven.problems.catalogue import severity
from workeven.proof import Counted
from workeven.proof.counting import CountedRow, CountedText
from workeven.report.text import message

Plain = dict[str, object]


def check_report(problems: Iterable[Problem]) -> str:
    """``{"problems": […]}``."""
    return _written(problems=[problem_plain(problem) for problem in problems])


def count_report(counted: CountedText | None, problems: Iterable[Problem]) -> str:
    """``{"sizes": […], "rows": […], "problems": […]}``; nothing was counted: no sizes, no rows."""
    return _written(
        sizes=[] if counted is None else [name or None for name in counted.sizes],
        rows=[] if counted is None else [_row(row) for row in counted.rows],
        problems=[problem_plain(problem) for problem in problems],
    )


def _written(**lists: list[Plain] | list[str | None]) -> str:
    """An object of lists, their records one a line, so that a person can look through it."""
    parts = [f'"{name}": {_lined(records)}' for name, records in lists.items()]
    return in_a_log("{" + ",\n ".join(parts) + "}")


def in_a_log(written: str) -> str:
    """The same JSON without the sign that begins a command in logs (it stands in texts alone)."""
    return written.replace("##[", "##\\u005b")


def _lined(records: list[Plain] | list[str | None]) -> str:
    if not any(isinstance(record, dict) for record in records):
        return json.dumps(records)
    return "[\n  " + ",\n  ".join(json.dumps(record) for record in records) + "]"


def problem_plain(problem: Problem) -> Plain:
    """A problem as an object of plain values."""
    return {
        "code": problem.code,
        "severity": str(severity(problem.code)),
        "file": problem.span.file,
        "line": problem.span.line,
        "column": problem.span.column,
        "piece": problem.piece,
        "row": problem.row,
        "sizes": None if problem.sizes is None else [name or None for name in problem.sizes],
        "found": problem.found,
        "expected": problem.expected,
        "mend": problem.mend,
        "message": message(problem),
        "notes": [_note(note) for note in problem.notes],
    }


def _note(note: Note) -> Plain:
    return {
        "file": note.span.file,
        "line": note.span.line,
        "column": note.span.column,
        "message": note.message,
    }


def _row(row: CountedRow) -> Plain:
    return {
        "label": row.label,
        "line": row.line,
        "times": list(row.times),
        "sts": list(row.sts),
        "makes": [_kinds(made) for made in row.makes],
        "stated": None if row.stated is None else [_kinds(stated) for stated in row.stated],
        "into": [None if into is None else into.as_plain() for into in row.into],
    }


def _kinds(counted: Counted | None) -> dict[str, int] | None:
    return None if counted is None else dict(counted)
