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


def test_sizes_without_a_comma_between_them_are_told() -> None:
    """Two numbers side by side are no number, and a fraction is one."""
    told_of = told(TOP.replace("  neck: 24 cm", "  neck: 24 (25 26) cm"))
    assert [("unit-length", "Write `25, 26` for two sizes, or one number.")] == told_of


def test_a_bare_formula_of_counts_is_told_how_it_is_written() -> None:
    """A count is a number or a table."""
    formula = "(body_sts - neck_sts) / 2"
    wrong = TOP.replace("{is: " + formula + "}", "body_sts - 2 * neck_sts")
    ((code, mend),) = told(wrong)
    assert ("unit-number", True) == (code, "`{is: body_sts - 2 * neck_sts}`" in mend)


@pytest.mark.parametrize(
    ("right", "wrong", "mend"),
    [
        pytest.param(
            "  - Weave in all ends. Wash",
            "  – {kind: button, amount: 5}\n  - Weave in all ends. Wash",
            "Write `-` in its place, as the keyboard has it.",
            id="a long dash in a list",
        ),
        pytest.param(
            "    title: Front and back\n",
            "\N{NO-BREAK SPACE}\N{NO-BREAK SPACE}  title: Front and back\n",
            "Delete what stands before the first word, and type spaces in its place.",
            id="blanks of a word processor",
        ),
        pytest.param(
            "          rep last row until",
            "         Last rows: rep last row until",
            "If it is a row, indent it like the rows above.",
            id="a row indented less",
        ),
    ],
)
def test_a_slip_of_writing_is_told_with_its_cure(right: str, wrong: str, mend: str) -> None:
    """YAML has other words for each of them, and another line for some."""
    assert right in TOP
    assert [("file-indent", mend)] == told(TOP.replace(right, wrong, 1))


@pytest.mark.parametrize(
    "rows",
    [
        "rows: ch {body_sts + 2}\n          Row 1: dc",
        "rows:\n          Row 1: ch {body_sts + 2}\n          dc",
        "rows:\n          ch {body_sts + 2}\n          Row 1: dc",
        "rows |\n          ch {body_sts + 2}\n          dc",
    ],
)
def test_rows_without_the_stroke_are_told_to_have_none(rows: str) -> None:
    """Where YAML gives up is often the second row, which is as good as the first."""
    right = "rows: |\n          ch {body_sts + 2}\n          dc"
    assert right in TOP
    (problem,) = outcome(TOP.replace(right, rows, 1)).problems
    assert ("file-row-item", "no `|` says so" in problem.found) == (problem.code, True)
    assert problem.mend.startswith("Write `rows: |`, and below it the rows, one a line")


def test_curly_quotation_marks_are_told_where_they_are_in_the_way() -> None:
    """A word processor makes them; YAML takes them for letters."""
    (problem,) = outcome(GOOD.replace("use: [home]", "use: [“home”]")).problems
    curly = "Curly quotation marks are none to YAML: write `home`, or straight ones around it."
    assert ["Did you mean `home`?", curly] == problem.mend.split("\n")
    (problem,) = outcome(GOOD.replace("title: Sand Mat", "title: “Sand: Mat”")).problems
    assert ("file-colon", 'Write `title: "Sand: Mat"`.') == (problem.code, problem.mend)
    assert () == outcome(GOOD.replace("title: Sand Mat", "title: “Sand” Mat")).problems


def test_a_text_in_a_list_with_a_colon_is_shown_in_quotes() -> None:
    """It is a key with a value to YAML."""
    (problem,) = outcome(GOOD.replace("- Weave in all ends.", "- Ends: weave them in.")).problems
    assert ("file-colon", 'Write `"Ends: weave them in."`.') == (problem.code, problem.mend)
