"""SARIF 2.1.0, held against the schema of OASIS (``sarif/README.md`` says where it is from)."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import jsonschema
import pytest

from tests.report.hostile import HOSTILE, SPAN, commands, invisible
from workeven.problems import Problem
from workeven.problems.catalogue import CATALOGUE
from workeven.records import replace
from workeven.report.sarif import SCHEMA, sarif_report

STANDARD = json.loads(
    (Path(__file__).parent / "sarif" / "sarif-schema-2.1.0.json").read_text(encoding="utf-8")
)
FILE = SPAN.file
ADVICE = Problem(code="count-unused", span=replace(SPAN, line=2, end_line=2), found="Not used.")


def run_of(*problems: Problem, lines: tuple[str, ...] = (), bugs: tuple[str, ...] = ()) -> Any:  # noqa: ANN401
    """The one run, after the whole has been held against the schema."""
    whole = json.loads(sarif_report(problems, {FILE: lines}, bugs))
    jsonschema.Draft4Validator(STANDARD).validate(whole)
    return whole["runs"][0]


def test_the_schema_is_that_which_the_report_names() -> None:
    """A viewer that asks for the schema gets the one we hold it against."""
    assert STANDARD["id"] == SCHEMA


def test_the_schema_would_refuse_another_form() -> None:
    """The check against the schema can fail."""
    whole = json.loads(sarif_report([HOSTILE], {}))
    whole["runs"][0]["results"][0]["level"] = "advice"
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft4Validator(STANDARD).validate(whole)


def test_every_code_can_be_a_rule() -> None:
    """Each code of the catalogue has a description and the page that explains it."""
    rules = run_of(*(replace(ADVICE, code=code) for code in CATALOGUE))["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == sorted(CATALOGUE)
    assert [rule["id"] for rule in rules if "Why it matters" not in rule["help"]["text"]] == []


def test_a_result_points_to_its_rule_and_places() -> None:
    """Rule by its index, error or note, the place with its address encoded, second places."""
    run = run_of(ADVICE, HOSTILE)
    advice, error = run["results"]
    rules = run["tool"]["driver"]["rules"]
    assert [rules[one["ruleIndex"]]["id"] for one in run["results"]] == [
        ADVICE.code,
        HOSTILE.code,
    ]
    assert (advice["level"], error["level"]) == ("note", "error")
    (place,) = error["locations"]
    address = place["physicalLocation"]["artifactLocation"]
    assert address == {"uri": "patterns/a%2Cb%3Ac/pattern.yaml", "uriBaseId": "%SRCROOT%"}
    assert unquote(address["uri"]) == FILE
    (second,) = error["relatedLocations"]
    assert second["physicalLocation"]["region"]["startLine"] == 3


def test_columns_count_in_utf_16() -> None:
    """A character beyond U+FFFF before the place counts twice (by Python's own encoding)."""
    line = "\U0001f9f6\U0001f9f6 sc 6 sts"
    problem = replace(ADVICE, span=replace(SPAN, line=1, end_line=1, column=4, end_column=8))
    run = run_of(problem, lines=(line,))
    region = run["results"][0]["locations"][0]["physicalLocation"]["region"]
    units = line.encode("utf-16-le")
    start, end = (2 * (region[name] - 1) for name in ("startColumn", "endColumn"))
    assert run["columnKind"] == "utf16CodeUnits"
    assert units[start:end].decode("utf-16-le") == "sc 6"


def test_a_fingerprint_stays_when_lines_move_and_is_one_problem_s_own() -> None:
    """The same row further down is the same problem; two alike are two."""
    lower = replace(HOSTILE, span=replace(SPAN, line=90, end_line=90))

    def marks(*problems: Problem) -> list[dict[str, str]]:
        return [one["partialFingerprints"] for one in run_of(*problems)["results"]]

    first, second = marks(HOSTILE, lower)
    assert marks(lower) == [first]
    assert first != second


def test_nothing_in_a_message_is_a_link_or_a_placeholder() -> None:
    """Braces are doubled (section 3.11.5) and brackets before a parenthesis are not a link's."""
    text = run_of(HOSTILE)["results"][0]["message"]["text"]
    assert "{{0}}" in text
    assert "[a](" not in text
    assert invisible(text) == []


def test_the_report_says_nothing_to_a_log_and_is_the_same_each_time() -> None:
    """Printed in a log it is only text."""
    written = sarif_report([HOSTILE], {})
    assert (commands(written), invisible(written)) == ([], [])
    assert sarif_report([HOSTILE], {}) == written


def test_a_bug_of_ours_is_told_as_a_run_that_failed() -> None:
    """A viewer must not take the absence of results for a good collection."""
    (invocation,) = run_of(bugs=("It broke.",))["invocations"]
    assert invocation["executionSuccessful"] is False
    assert invocation["toolExecutionNotifications"][0]["message"]["text"] == "It broke."


@pytest.mark.parametrize(
    ("file", "uri"),
    [
        ("/a b/pattern.yaml", "file:///a%20b/pattern.yaml"),
        ("C:/a#b/pattern.yaml", "file:///C:/a%23b/pattern.yaml"),
    ],
)
def test_a_whole_path_is_a_whole_address(file: str, uri: str) -> None:
    """What lies outside of what is checked has no base (RFC 8089)."""
    run = run_of(replace(ADVICE, span=replace(SPAN, file=file)))
    address = run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]
    assert address == {"uri": uri}
