"""Hooks by their names and by their size in mm."""

from __future__ import annotations

from fractions import Fraction

import pytest

from workeven import standards
from workeven.standards import hooks


def sizes(name: str) -> list[str]:
    """The sizes of that name in mm."""
    return sorted({str(float(one.mm)) for one in hooks.called(name)})


@pytest.mark.parametrize(
    ("name", "mm"),
    [
        ("H", ["5.0"]),
        ("H/8", ["5.0"]),
        ("size H-8", ["5.0"]),
        ("US I9", ["5.5"]),
        ("K-10½", ["6.5"]),
        ("K 10 1/2", ["6.5"]),
        ("G", ["4.0", "4.25"]),
        ("G-6", ["4.0"]),
        ("N", ["10.0", "9.0"]),
        ("7", ["1.65", "4.5"]),
        ("7/0", ["4.0"]),
        ("Japanese 7.5/0", ["4.5"]),
        ("UK 8", ["4.0"]),
        ("old UK 000", ["10.0"]),
        ("steel 7", ["1.65"]),
        ("US steel 00", ["3.5"]),
        ("lace 4", ["1.25"]),
        ("D", ["3.125", "3.25"]),
        ("Z", []),
        ("hook", []),
        ("", []),
    ],
)
def test_a_hook_is_found_by_its_name(name: str, mm: list[str]) -> None:
    """As designers write it; recalled rows serve to recognise a name."""
    assert sizes(name) == mm


def test_recalled_names_are_not_given_out() -> None:
    """D is 3.125 mm from memory alone, and so is the old UK 11."""
    assert hooks.names_of(Fraction("3.125")) == ()
    assert [one.system for one in hooks.names_of(Fraction(3))] == ["Japan"]


def test_every_doubt_is_among_the_known_faults() -> None:
    """A table that brings a new conflict has to name it."""
    told = {
        fault.where.removeprefix("Japan ").replace("-", "/")
        for fault in standards.faults()
        if fault.file.startswith("hooks")
    }
    found = {doubt.name for one in hooks.hooks() for doubt in hooks.doubts(one.mm)}
    assert found == told


@pytest.mark.parametrize(
    ("mm", "near"),
    [("4", ["4"]), ("4.2", ["4", "4.25"]), ("22", ["20"]), ("0.1", ["0.35"]), ("16", ["16"])],
)
def test_the_nearest_sizes_are_those_on_both_sides(mm: str, near: list[str]) -> None:
    """A size that a table has is its own; beyond the ends there is one."""
    assert hooks.nearest(Fraction(mm)) == tuple(map(Fraction, near))
