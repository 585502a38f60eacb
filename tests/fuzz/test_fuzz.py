"""Inputs that nobody wrote raise nothing, and each message has its place."""

from __future__ import annotations

import pytest

from tests.fuzz import judging
from tests.fuzz.judging import judged
from tests.fuzz.making import Input, made
from workeven.problems import Checked, Problem, Span
from workeven.proof import counting

#: how many inputs are tried, in so many lots
INPUTS, LOTS = 5_000, 10


@pytest.mark.parametrize("lot", range(LOTS))
def test_no_input_raises_or_has_a_message_without_a_place(lot: int) -> None:
    """Nor is one given up after half a minute. How long each takes is measured by the long run."""
    names = (f"short {lot}:{number}" for number in range(INPUTS // LOTS))
    found = {name: judged(made(name)).wrong for name in names}
    wrong = {
        name: told
        for name, sentences in found.items()
        if (told := [one for one in sentences if not one.startswith("slow")])
    }
    assert {} == wrong


def test_the_same_name_gives_the_same_input() -> None:
    """So that what is found can be looked at."""
    assert made("7:7") == made("7:7")
    assert made("7:7").content != made("7:8").content


def test_an_exception_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """The judge can find something."""

    def fails(*_words: object, **_options: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(counting, "count", fails)
    (told,) = judged(Input(name="x", kind="rows", content=b"ch 3")).wrong
    assert told.startswith("ZeroDivisionError")


@pytest.mark.parametrize(
    ("line", "column", "placed"), [(1, 5, True), (1, 6, False), (2, 1, False), (0, 1, False)]
)
def test_a_place_that_is_none_is_told(
    line: int, column: int, *, placed: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The last column is the one behind the end of the line."""
    span = Span(file="-", line=line, column=column, end_line=line, end_column=column)
    problem = Problem(code="row-uneven", span=span, found="It does not come out.")
    answer: Checked[None] = Checked(value=None, problems=(problem,))
    monkeypatch.setattr(counting, "count", lambda *_words, **_options: answer)
    found = judged(Input(name="y", kind="rows", content=b"ch 3"))
    assert placed == (found.wrong == ())


def test_a_slow_input_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """By the processor's time."""
    monkeypatch.setattr(judging, "MOST_SECONDS", -1)  # a clock may stand still so long
    (told,) = judged(Input(name="z", kind="rows", content=b"ch 3")).wrong
    assert told.startswith("slow")
