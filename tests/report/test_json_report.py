"""Problems and counts for programs."""

from __future__ import annotations

import json

from workeven.problems import Note, Problem, Span
from workeven.records import replace
from workeven.report.json_report import check_report

SPAN = Span(file="patterns/vest/pattern.yaml", line=88, column=11, end_line=88, end_column=57)
UNEVEN = Problem(
    code="row-uneven",
    span=SPAN,
    piece="Yoke",
    row="Rnd 9",
    sizes=("L", "XL"),
    good_sizes=("S",),
    found="the round before leaves 66 and 90 sts.",
    expected="The repeat takes 4 sts.",
    mend="Nearest that come out: L 64 or 68.",
    excerpt="*sk 3 sts, 4 dc in next st; rep from * around",
    notes=(Note(span=replace(SPAN, line=12), message="this count was set here"),),
)


def test_a_problem_has_just_the_keys_that_programs_rely_on() -> None:
    """The whole record, pinned."""
    assert json.loads(check_report([UNEVEN])) == {
        "problems": [
            {
                "code": "row-uneven",
                "severity": "error",
                "file": "patterns/vest/pattern.yaml",
                "line": 88,
                "column": 11,
                "piece": "Yoke",
                "row": "Rnd 9",
                "sizes": ["L", "XL"],
                "found": "the round before leaves 66 and 90 sts.",
                "expected": "The repeat takes 4 sts.",
                "mend": "Nearest that come out: L 64 or 68.",
                "message": "Yoke, Rnd 9, sizes L and XL: the round before leaves 66 and 90 sts.\n"
                "The repeat takes 4 sts.\nS comes out.\nNearest that come out: L 64 or 68.",
                "notes": [
                    {
                        "file": "patterns/vest/pattern.yaml",
                        "line": 12,
                        "column": 11,
                        "message": "this count was set here",
                    },
                ],
            },
        ],
    }


def test_nothing_found_is_an_empty_list() -> None:
    """A program need not ask whether the key is there."""
    assert json.loads(check_report([])) == {"problems": []}


def test_a_size_without_a_name_is_null() -> None:
    """Plain rows in one size fail in the size null, as ``sizes`` calls it."""
    report = json.loads(check_report([replace(UNEVEN, sizes=("",))]))
    assert report["problems"][0]["sizes"] == [None]


def test_the_report_is_ascii() -> None:
    """So that no terminal's encoding can spoil it."""
    report = check_report([replace(UNEVEN, excerpt="", found="½ × “sc”")])
    assert report.isascii()
    assert json.loads(report)["problems"][0]["found"] == "½ × “sc”"
