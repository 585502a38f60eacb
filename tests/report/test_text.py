"""Problems in a terminal."""

from __future__ import annotations

import pytest

from workeven.problems import Note, Problem, Severity, Span
from workeven.problems.catalogue import CATALOGUE
from workeven.records import replace
from workeven.report.text import in_order, message, problem_text, totals

UNEVEN = Problem(
    code="row-uneven",
    span=Span(
        file="patterns/lugworm-vest/pattern.yaml",
        line=88,
        column=11,
        end_line=88,
        end_column=57,
    ),
    piece="Yoke",
    row="Rnd 9",
    sizes=("L", "XL"),
    good_sizes=("S", "M", "2X"),
    found="the round before leaves 66 and 90 sts.",
    expected="The repeat takes 4 sts: in L, 16 repeats use 64 and 2 sts are left over; "
    "in XL, 22 use 88 and 2 are left over.",
    mend="Nearest that come out: L 64 or 68, XL 88 or 92. "
    "Keeping the multiple of 6 of `yoke_sts`: L 60 or 72, XL 84 or 96.",
    excerpt="*sk 3 sts, 4 dc in next st; rep from * around",
)

PRINTED = """\
patterns/lugworm-vest/pattern.yaml:88:11: row-uneven: Yoke, Rnd 9, sizes L and XL: \
the round before leaves 66 and 90 sts.
    *sk 3 sts, 4 dc in next st; rep from * around
    The repeat takes 4 sts: in L, 16 repeats use 64 and 2 sts are left over; \
in XL, 22 use 88 and 2 are left over.
    S, M and 2X come out.
    Nearest that come out: L 64 or 68, XL 88 or 92. \
Keeping the multiple of 6 of `yoke_sts`: L 60 or 72, XL 84 or 96."""


def _at(file: str, line: int, column: int) -> Problem:
    span = Span(file=file, line=line, column=column, end_line=line, end_column=column)
    return Problem(code="row-uneven", span=span, found="")


@pytest.fixture
def _advice_known(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(CATALOGUE, "row-advice", (Severity.ADVICE, "Made up for these tests."))


def test_a_problem_is_printed_as_the_notation_shows_it() -> None:
    """The form is that of notation.md, "When it does not come out", to the letter."""
    assert problem_text(UNEVEN) == PRINTED


def test_the_first_line_stands_alone_without_piece_row_and_size() -> None:
    """A fault of the file has no piece: the line goes straight to what was found."""
    problem = replace(UNEVEN, piece=None, row=None, sizes=None, found="the file is empty.")
    first = problem_text(problem).splitlines()[0]
    assert first == "patterns/lugworm-vest/pattern.yaml:88:11: row-uneven: the file is empty."


def test_plain_rows_in_one_size_name_no_size() -> None:
    """Rows counted without sizes fail in the one size that has no name."""
    problem = replace(UNEVEN, piece=None, sizes=("",), good_sizes=())
    assert message(problem).startswith("Rnd 9: the round before")
    assert "size" not in message(problem)


@pytest.mark.parametrize(
    ("sizes", "line"),
    [
        (("S",), "S comes out."),
        (("S", "M"), "S and M come out."),
        (("1", "3"), "Sizes 1 and 3 come out."),
        (("2X",), "Size 2X comes out."),
        (("",), ""),
    ],
)
def test_sizes_that_come_out_are_told(sizes: tuple[str, ...], line: str) -> None:
    """A size that is a number is called a size, lest it be read as a count."""
    text = message(replace(UNEVEN, good_sizes=sizes, expected="", mend=""))
    assert "\n".join(text.splitlines()[1:]) == line


def test_other_places_are_shown_below() -> None:
    """A note has a place of its own, in the same form."""
    note = Note(span=replace(UNEVEN.span, line=12, column=3), message="this count was set here")
    last = problem_text(replace(UNEVEN, notes=(note,))).splitlines()[-1]
    assert last == "    patterns/lugworm-vest/pattern.yaml:12:3: this count was set here"


@pytest.mark.usefixtures("_advice_known")
def test_advice_says_that_it_stops_nothing() -> None:
    """Advice has the same first line as an error, and says in its last what it is."""
    lines = problem_text(replace(UNEVEN, code="row-advice")).splitlines()
    assert "patterns/lugworm-vest/pattern.yaml:88:11: row-advice: Yoke" in lines[0]
    assert lines[-1] == "    This is advice: it stops nothing."


def test_a_terminal_is_not_steered_by_a_file() -> None:
    """Escapes, bidi controls and zero-width characters of a stranger's row are written out."""
    text = problem_text(replace(UNEVEN, excerpt="ch 3\x1b[2J\u202e\u200b"))
    assert text.splitlines()[1] == "    ch 3<U+001B>[2J<U+202E><U+200B>"


def test_a_very_long_row_is_shortened() -> None:
    """A row of 10,000 characters does not fill the screen."""
    line = problem_text(replace(UNEVEN, excerpt="sc, " * 2500)).splitlines()[1]
    assert len(line) < 250
    assert line.endswith("…")


def test_problems_are_sorted_by_file_line_and_column() -> None:
    """Line 9 stands before line 10; problems of one place keep the order of the stages."""
    problems = (_at("b", 1, 1), _at("a", 10, 1), _at("a", 9, 12), _at("a", 9, 2))
    placed = [(one.span.file, one.span.line, one.span.column) for one in in_order(problems)]
    assert placed == [("a", 9, 2), ("a", 9, 12), ("a", 10, 1), ("b", 1, 1)]


@pytest.mark.usefixtures("_advice_known")
@pytest.mark.parametrize(
    ("errors", "advice", "line"),
    [
        (0, 0, "3 patterns: no problems."),
        (1, 0, "3 patterns: 1 error."),
        (2, 1, "3 patterns: 2 errors and 1 piece of advice."),
        (0, 2, "3 patterns: 2 pieces of advice."),
    ],
)
def test_the_closing_line_counts(errors: int, advice: int, line: str) -> None:
    """Errors and advice are counted apart."""
    problems = [UNEVEN] * errors + [replace(UNEVEN, code="row-advice")] * advice
    assert totals(problems, "3 patterns") == line
