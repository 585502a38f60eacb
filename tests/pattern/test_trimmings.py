"""Fringe, tassels, pompoms: what they take must be said, and what takes nothing is told."""

from __future__ import annotations

import pytest

from tests.support import pattern_files
from workeven.problems import Problem


def _told(trimming: str) -> Problem:
    lines = "".join(f"    {line}\n" for line in trimming.split("; "))
    text = f"{pattern_files.GOOD}trimmings:\n  - {lines.lstrip()}"
    (problem,) = pattern_files.outcome(text).problems
    return problem


@pytest.mark.parametrize(
    ("trimming", "why"),
    [
        ("kind: pompom", "neither its length nor its mass is given"),
        ("kind: pompom; mass: 0 g", "one of them weighs nothing"),
        ("kind: fringe; amount: 40; length: 30 cm", "of how many strands"),
        ("kind: fringe; amount: 40; strands: 4", "neither its length nor its mass"),
        ("kind: fringe; amount: 0; strands: 4; length: 30 cm", "there are none of it in any size"),
        ("kind: tassel; strands: 30; length: 0 cm", "neither its length nor its mass"),
        ("kind: cord", "neither its length nor its mass is given"),
    ],
)
def test_a_trimming_that_takes_nothing_is_an_error(trimming: str, why: str) -> None:
    """It says what is missing, and how to get it."""
    problem = _told(trimming)
    assert "yarn-trimming-empty" == problem.code
    assert why in problem.found
    assert "Or take the trimming out." in problem.mend


def test_the_cure_of_a_pompom_asks_to_weigh_or_to_measure() -> None:
    """No factor is made up."""
    assert (
        "Wind one and weigh it (`mass: 6 g`; 0.1 g matters here), or measure the yarn that is "
        "wound (`length: 12 m`). Or take the trimming out." == _told("kind: pompom").mend
    )


@pytest.mark.parametrize(
    ("trimming", "code"),
    [
        ("kind: fringe; amount: 4; strands: 2; length: 30 cm; yarn: mian", "name-unknown"),
        (
            "kind: fringe; amount: 4; strands: 2; length: 30 cm; colour: Fome",
            "yarn-colour-unlisted",
        ),
        ("kind: fringe; amount: 4; strands: 2; length: 30", "unit-length"),
        ("kind: fringe; amount: 4 (5); strands: 2; length: 30 cm", "size-list"),
        ("kind: pompom; mass: 12 m", "unit-mass"),
    ],
)
def test_a_slip_in_a_trimming_is_told_where_it_stands(trimming: str, code: str) -> None:
    """A yarn misspelt, a colour that is not listed, a unit, a list of sizes."""
    problem = _told(trimming)
    assert (code, pattern_files.FILE) == (problem.code, problem.span.file)


@pytest.mark.parametrize(
    "trimming",
    [
        "kind: fringe; amount: 40 (44, 48); strands: 4; length: 30 cm",
        "kind: fringe; amount: 0 (44, 48); strands: 4; length: 30 cm",
        "kind: pompom; length: 12 m",
        "kind: pompom; amount: 2; mass: 5.5 g",
        "kind: cord; strands: 2; length: 150 cm; note: for the waist",
        "kind: embroidery; length: 3 m",
    ],
)
def test_a_trimming_that_takes_yarn_is_good(trimming: str) -> None:
    """A size may have none."""
    lines = "".join(f"    {line}\n" for line in trimming.split("; "))
    text = f"{pattern_files.GOOD}trimmings:\n  - {lines.lstrip()}"
    assert () == pattern_files.outcome(text).problems
