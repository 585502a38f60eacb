"""Colour, where a terminal shows it; and what a file can do to a terminal: nothing."""

from __future__ import annotations

import json
import re

import pytest

from tests.report.hostile import HOSTILE, commands, invisible
from workeven.report.colour import problem_painted, wanted
from workeven.report.json_report import check_report
from workeven.report.text import problem_text


@pytest.mark.parametrize(
    ("color", "environment", "terminal", "expected"),
    [
        ("auto", {"TERM": "xterm"}, True, True),
        ("auto", {"TERM": "xterm"}, False, False),
        ("auto", {"NO_COLOR": "0"}, True, False),
        ("auto", {"NO_COLOR": ""}, True, True),
        ("auto", {"TERM": "dumb"}, True, False),
        ("always", {"NO_COLOR": "1", "TERM": "dumb"}, False, True),
        ("never", {}, True, False),
    ],
)
def test_colour_is_for_terminals_that_want_it(
    *, color: str, environment: dict[str, str], terminal: bool, expected: bool
) -> None:
    """Only on a terminal, not where NO_COLOR holds anything; the option has the last word."""
    assert wanted(color, environment, terminal=terminal) is expected


def test_paint_changes_no_word() -> None:
    """Without the signs of colour it is the same text, and no sign comes from the file."""
    painted = problem_painted(HOSTILE)
    signs = re.findall(r"\x1b\[[\d;]*m", painted)
    assert len(signs) == 4
    assert re.sub(r"\x1b\[[\d;]*m", "", painted) == problem_text(HOSTILE)


def test_text_says_nothing_to_a_log_or_terminal() -> None:
    """A row that is written like a command is shown, and is none."""
    written = problem_text(HOSTILE)
    assert (commands(written), invisible(written)) == ([], [])
    assert "<U+003A>:error" in written


def test_json_says_nothing_to_a_log_and_is_read_back_whole() -> None:
    """The escape is JSON's own."""
    written = check_report([HOSTILE])
    assert (commands(written), invisible(written)) == ([], [])
    assert json.loads(written)["problems"][0]["found"] == HOSTILE.found
