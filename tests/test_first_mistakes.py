"""Mistakes that somebody made who followed the guide from the beginning: one message each."""

from __future__ import annotations

import pytest

from tests.support.pattern_files import GOOD, outcome
from workeven import starter

TOP = starter.pattern_text(
    starter.Wanted(
        title="Quay Top",
        kind="top",
        wearer="women",
        sizes=("S", "M", "L"),
        worked="flat rows",
    )
)


def told(text: str) -> list[tuple[str, str]]:
    """The code and the cure of each problem, but that no swatch was weighed."""
    return [
        (problem.code, problem.mend)
        for problem in outcome(text).problems
        if problem.code != "yarn-no-swatch"
    ]


@pytest.mark.parametrize(
    ("weight", "mend"),
    [
        ("worsted", "`worsted` is `medium`: write that."),
        ("DK", "`DK` is `light`: write that."),
        ("meduim", "Did you mean `medium`?"),
    ],
)
def test_a_type_of_yarn_is_told_its_weight(weight: str, mend: str) -> None:
    """By the published lists of yarn types (``standards/yarn_weights.csv``)."""
    assert [("file-choice", mend)] == told(GOOD.replace("weight: light", f"weight: {weight}"))


def test_a_hook_by_its_letter_is_told_how_to_be_written() -> None:
    """The millimetres decide; the letter may stand behind them."""
    mend = "Write its diameter in mm; the name may stand behind it: `5 mm (US H/8)`."
    assert [("unit-length", mend)] == told(GOOD.replace("hook: 4 mm", "hook: G"))
    assert [] == told(GOOD.replace("hook: 4 mm", "hook: 5 mm (US H/8)"))


def test_a_gauge_that_is_not_there_is_told_once() -> None:
    """Its seams cannot be measured, which is no mistake of its own."""
    wrong = TOP.replace("    gauge: ground\n    # Edges", "    gauge: main\n    # Edges")
    assert wrong != TOP
    assert ["name-unknown"] == [code for code, _ in told(wrong)]


def test_a_title_with_one_quotation_mark_is_told_at_its_line() -> None:
    """The mark runs on to the next one, far below."""
    problem, *others = outcome(TOP.replace("title: Quay Top", 'title: "Quay Top')).problems
    line = TOP[: TOP.index("title: Quay Top")].count("\n") + 1
    assert ("file-unclosed", line, []) == (problem.code, problem.span.line, others)
