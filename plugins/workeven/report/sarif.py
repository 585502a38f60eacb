"""Problems in the interchange format of static analysis, SARIF 2.1.0.

Takes     ``Problem`` records in order, the lines of their files, sentences about bugs of ours.
Gives     ``sarif_report``: JSON in ASCII, the same text for the same problems.
Problems  none of its own.
From      OASIS Standard, "Static Analysis Results Interchange Format (SARIF) Version 2.1.0";
          RFC 3986 for addresses of files.

Columns count in UTF-16 code units there, as most viewers take them for granted. A fingerprint is
made of what stays when lines move: the code, the file, piece and row, and the row as written.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from hashlib import sha256
from urllib.parse import quote

from workeven import __version__
from workeven.problems import Problem, Severity, Span, lesson
from workeven.problems.catalogue import CATALOGUE, severity
from workeven.problems.words import shown
from workeven.report.json_report import Plain, in_a_log
from workeven.report.text import message

SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
_ROOT = "%SRCROOT%"
_FINGERPRINT = "workevenProblem/v1"
_LEVELS = {Severity.ERROR: "error", Severity.ADVICE: "note"}

#: The lines of each file, as they are written.
Lines = Mapping[str, Sequence[str]]


def sarif_report(problems: Sequence[Problem], lines: Lines, bugs: Sequence[str] = ()) -> str:
    """One run with a result for each problem and a rule for each code that is told."""
    codes = sorted({problem.code for problem in problems})
    driver = {
        "name": "workeven",
        "version": __version__,
        "rules": [_rule(code) for code in codes],
    }
    marks = _fingerprints(problems)
    run = {
        "tool": {"driver": driver},
        "columnKind": "utf16CodeUnits",
        "invocations": [_invocation(bugs)],
        "results": [
            _result(problem, codes.index(problem.code), mark, lines)
            for problem, mark in zip(problems, marks, strict=True)
        ],
    }
    return in_a_log(json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, indent=1))


def _rule(code: str) -> Plain:
    page = lesson.read(code)
    return {
        "id": code,
        "shortDescription": {"text": CATALOGUE[code][1]},
        "help": {"text": page.plain(), "markdown": page.markdown},
        "defaultConfiguration": {"level": _LEVELS[severity(code)]},
    }


def _invocation(bugs: Sequence[str]) -> Plain:
    told = [{"level": "error", "message": {"text": _message(bug)}} for bug in bugs]
    return {"executionSuccessful": not bugs, "toolExecutionNotifications": told}


def _result(problem: Problem, index: int, mark: str, lines: Lines) -> Plain:
    second = [
        {
            "id": number,
            "message": {"text": _message(note.message)},
            "physicalLocation": _physical(note.span, lines),
        }
        for number, note in enumerate(problem.notes, start=1)
    ]
    return {
        "ruleId": problem.code,
        "ruleIndex": index,
        "level": _LEVELS[severity(problem.code)],
        "message": {"text": _message(message(problem))},
        "locations": [{"physicalLocation": _physical(problem.span, lines)}],
        "relatedLocations": second,
        "partialFingerprints": {_FINGERPRINT: mark},
    }


def _physical(span: Span, lines: Lines) -> Plain:
    there = lines.get(span.file, ())
    return {
        "artifactLocation": _artifact(span.file),
        "region": {
            "startLine": span.line,
            "startColumn": _utf_16(there, span.line, span.column),
            "endLine": max(span.line, span.end_line),
            "endColumn": _utf_16(there, span.end_line, span.end_column),
        },
    }


def _artifact(file: str) -> Plain:
    """An address seen from the root of what is checked; in full for a path that is whole."""
    address = quote(file, safe="/", errors="backslashreplace")
    if file.startswith("/"):
        return {"uri": f"file://{address}"}
    if re.match(r"[A-Za-z]:/", file):
        return {"uri": f"file:///{file[:2]}{address[4:]}"}
    return {"uri": address, "uriBaseId": _ROOT}


def _utf_16(lines: Sequence[str], line: int, column: int) -> int:
    """A column in UTF-16 code units: one more for each character beyond U+FFFF before it.

    >>> _utf_16(["\U0001f9f6 sc 6"], 1, 3)
    4
    """
    before = lines[line - 1][: column - 1] if 0 < line <= len(lines) else ""
    return column + sum(character > "\uffff" for character in before)


def _message(text: str) -> str:
    """Plain text in which no sign is read as a placeholder or a link (sections 3.11.5, 3.11.6)."""
    clean = "\n".join(map(shown, text.split("\n")))
    return clean.replace("{", "{{").replace("}", "}}").replace("](", "\\](")


def _fingerprints(problems: Sequence[Problem]) -> Iterator[str]:
    """A mark for each problem; of several that are alike each has its own, by their order."""
    seen: Counter[str] = Counter()
    for problem in problems:
        parts = (problem.code, problem.span.file, problem.piece, problem.row, problem.excerpt)
        key = json.dumps(parts)
        seen[key] += 1
        yield sha256(f"{key} {seen[key]}".encode()).hexdigest()
