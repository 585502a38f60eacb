"""A unit that is likely meant otherwise is told where it stands; and only where it mends all."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.pattern_files import GOOD, outcome

ROOT = Path(__file__).parents[1]


def hints(text: str) -> list[tuple[str, int]]:
    """The notes of that kind, with their lines."""
    return [
        (note.message, note.span.line)
        for problem in outcome(text).problems
        for note in problem.notes
        if "it comes out" in note.message
    ]


def line_of(text: str, words: str) -> int:
    """The line on which the words begin."""
    return text[: text.index(words)].count("\n") + 1


def test_mm_for_cm_is_told_at_the_measurement() -> None:
    """The scallops do not fit 3 stitches; nothing is wrong with their row."""
    text = GOOD.replace("width: 20 (24, 27) cm", "width: 20 (24, 27) mm")
    ((message, line),) = hints(text)
    assert line == line_of(text, "width: ")
    assert (
        "`measurements.width` is in mm here, other lengths are in cm: in cm it comes out."
        == message
    )


@pytest.mark.parametrize(
    ("pattern", "right", "wrong"),
    [
        ("groynemark-tee", "neck_width: 25 (25, 25, 26, 26) (27, 27, 28, 28) cm", "inches"),
        ("groynemark-tee", "bust: 14 cm", "mm"),
        ("groynemark-tee", "waves: {sts: 16, rows: 9.5, over: 10 cm", "mm"),
        ("groynemark-tee", "sleeve_to_waves: sleeve_length - 4.2 cm", "in"),
        ("glasswort-raglan", "sleeve_length: 42 cm", "mm"),
        ("haulout-pup", "around: 17.5 cm", "mm"),
        ("sandhopper-mitts", "hand: 18 (20, 22) cm", "in"),
        ("whelkstow-basket", "ground: {sts: 11, rows: 11.5, over: 10 cm", "mm"),
    ],
)
def test_a_slip_in_the_demo_is_told_where_it_is(pattern: str, right: str, wrong: str) -> None:
    """Ten times or two and a half times: by measurements, ease, body and gauge."""
    good = (ROOT / "patterns" / pattern / "pattern.yaml").read_text(encoding="utf-8")
    assert right in good
    slipped = good.replace(right, right.removesuffix("cm") + wrong, 1)
    assert [line_of(good, right)] == [line for _, line in hints(slipped)]


def test_a_length_in_another_unit_is_no_mistake() -> None:
    """Nothing is told where nothing is wrong, or where something else is."""
    good = GOOD.replace("length: 20 (24, 27) cm", "length: 200 (240, 270) mm")
    assert () == outcome(good).problems
    assert [] == hints(good.replace("multiple: 6, plus: 1", "multiple: 6"))


def test_an_error_that_stays_is_not_said_to_be_mended() -> None:
    """With the other unit the stated count is as wrong as it was."""
    text = GOOD.replace("width: 20 (24, 27) cm", "width: 20 (24, 27) mm")
    assert [] == hints(text.replace("({mat_sts} sc)", "({mat_sts + 1} sc)"))
