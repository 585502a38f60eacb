"""The designer's own list: by colour, beside yarns without an estimate, in sizes that fall."""

from __future__ import annotations

import pytest

from tests.yarn.test_longer import SCARF
from workeven import pipeline, source
from workeven.pattern import NO_STUDIO, PrintedAmount
from workeven.pipeline import Outcome

ROWS = """\
          ch 1, sc in each st across, turn
          rep last row until piece measures {height}
"""
STRIPES = """\
          with B, ch 1, sc in each st across, turn
          rep last row until piece measures {height}
"""


def checked(amounts: str, rows: str = ROWS, **changes: str) -> Outcome:
    """The scarf with this list; ``changes`` exchange lines of the file."""
    text = SCARF.replace("measurements:", f"amounts:\n{amounts}\nmeasurements:", 1) + rows
    for old, new in changes.items():
        text = text.replace(OLD[old], new)
    read = source.read("pattern.yaml", text.encode()).value
    assert read is not None
    return pipeline.run(read, NO_STUDIO)


OLD = {
    "put_up": "put_up: {length: 100 m, mass: 50 g}}",
    "chain": "          ch 21 (31)",
    "sizes": "  names: S (L)",
    "height": "height: 40 (60) cm",
    "swatch": SCARF[SCARF.index("swatches:") : SCARF.index("measurements:")],
}
IN_A = "          with A, ch 21 (31)"
TWO = "put_up: {length: 100 m, mass: 50 g}, colours: [A, B]}"


def codes(outcome: Outcome) -> list[str]:
    """What is told of it."""
    return [one.code for one in outcome.problems]


def amount(outcome: Outcome) -> PrintedAmount:
    """The first amount of the list."""
    assert outcome.ready is not None, outcome.problems
    return outcome.ready.pattern.amounts[0]


def test_what_is_computed_is_enough() -> None:
    """By the sum of its page S takes 97.5 g, margin included, and L 216.9 g, in balls of 50 g."""
    outcome = checked("  main: 2 (5) balls")
    assert outcome.ready is not None
    assert ([*outcome.ready.yarn.needs[0].balls], codes(outcome)) == ([2, 5], [])


@pytest.mark.parametrize(
    ("written", "unit", "first"),
    [
        ("main: 2 (4) balls", "balls", 2),
        ("main: 2 skeins (4 skeins)", "balls", 2),
        ("main: [2 hanks, 4 hanks]", "balls", 2),
        ("main: 202 (440) m", "length", 202_000),
        ("main: 101 (220) g", "mass", 101),
    ],
)
def test_an_amount_is_in_balls_a_length_or_a_mass(written: str, unit: str, first: int) -> None:
    """The unit stands once, or with each."""
    said = amount(checked(f"  {written}"))
    assert [said.unit, said.values[0]] == [unit, first]


def test_colours_are_held_against_their_own_amounts() -> None:
    """Of A only the first row is worked, of B all others."""
    outcome = checked("  main:\n    A: 1 ball\n    B: 1 (4) balls", STRIPES, put_up=TWO, chain=IN_A)
    assert codes(outcome) == ["yarn-amounts-short"]
    assert "`main` in `B`" in outcome.problems[0].found
    assert outcome.problems[0].sizes == ("S",)


def test_balls_of_all_colours_are_those_of_each() -> None:
    """One ball of A and two of B: three, though two hold as much yarn."""
    short = checked("  main: 2 (6) balls", STRIPES, put_up=TWO, chain=IN_A)
    enough = checked("  main: 3 (6) balls", STRIPES, put_up=TWO, chain=IN_A)
    assert [codes(short), codes(enough)] == [["yarn-amounts-short"], []]


def test_without_an_estimate_the_list_is_held_against_itself() -> None:
    """It may not fall, and that no swatch was weighed is told as ever."""
    outcome = checked("  main: 5 (4) balls", swatch="")
    assert codes(outcome) == ["yarn-no-swatch", "yarn-amounts-fall"]


def test_a_list_may_fall_where_what_is_computed_falls() -> None:
    """The larger size is a shorter scarf: 292 m and 147 m."""
    assert codes(checked("  main: 300 (150) m", height="height: 60 (20) cm")) == []


def test_a_size_that_takes_none_has_a_dash() -> None:
    """It is no fall from the size before, and where it is due it is too little."""
    assert codes(checked("  main: 2 (-) balls")) == ["yarn-amounts-short"]


def test_behind_rows_that_are_wrong_nothing_is_held_against_them() -> None:
    """One mistake, one message."""
    wrong = "          ch 1, sc in next 50 sts, turn\n"
    assert "yarn-amounts-short" not in codes(checked("  main: 1 ball", wrong + ROWS))


def test_a_fall_is_an_error_though_the_size_leaves_no_margin_either() -> None:
    """97.5 and 216.9 g are needed: 225 g do for both, 210 g leave no margin in L."""
    assert codes(checked("  main: 225 (210) g")) == ["yarn-amounts-fall"]
    assert codes(checked("  main: 190 (120) g")) == ["yarn-amounts-short"]


def test_a_list_by_colour_names_every_colour() -> None:
    """Who forgets one sends a maker home without it."""
    outcome = checked("  main:\n    A: 1 ball", STRIPES, put_up=TWO, chain=IN_A)
    assert codes(outcome) == ["file-key-missing"]
    assert outcome.problems[0].found == "The amounts of `main` by colour have none for `B`."


@pytest.mark.parametrize(
    ("listed", "told"),
    [
        ("A: 1 (2) balls\n    B: 1 (3) balls", []),
        ("A: 1 (2) balls\n    B: 1 (1) balls", ["yarn-amounts-short"]),
        ("A: 20 (40) g\n    B: 180 (360) m", []),
        ("A: 20 (40) g\n    B: 100 (200) m", ["yarn-amounts-short"]),
    ],
)
def test_colours_that_are_not_told_apart_are_held_together(listed: str, told: list[str]) -> None:
    """The rows do not say which is which: what all come to is held, in g if units differ."""
    outcome = checked(f"  main:\n    {listed}", put_up=TWO)
    assert codes(outcome) == ["yarn-colour-unsaid", *told]


def test_a_misspelt_unit_is_told_with_the_one_meant() -> None:
    """It is not taken for a length."""
    (problem,) = checked("  main: 3 (5) bals").problems
    assert (problem.code, problem.mend) == ("yarn-amounts-unit", "Did you mean `balls`?")
