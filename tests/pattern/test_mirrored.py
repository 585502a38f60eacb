"""Pieces that are worked as another is, mirrored."""

from __future__ import annotations

import pytest

from tests.support.pattern_files import GOOD, outcome

MIRRORED = GOOD.replace("\npieces:\n", "\npieces:\n  right_mat: {mirror: mat, make: 2}\n")


def codes(text: str) -> list[str]:
    """What is told of a file."""
    return [problem.code for problem in outcome(text).problems]


def test_a_mirrored_piece_has_the_rows_of_the_other() -> None:
    """They are counted once and stand in both."""
    ready = outcome(MIRRORED).ready
    assert ready is not None
    second, first = ready.proven.pieces
    assert (first.sections, "mat", 2) == (
        second.sections,
        second.piece.mirror,
        second.piece.make[0],
    )


def test_its_yarn_is_counted_as_often_as_it_is_made() -> None:
    """One mat and two mirrored ones take three times the yarn of one."""
    alone, three = outcome(GOOD).ready, outcome(MIRRORED).ready
    assert alone is not None
    assert three is not None
    assert three.yarn.needs[0].mass[0] == 3 * alone.yarn.needs[0].mass[0]


@pytest.mark.parametrize(
    ("table", "code"),
    [
        ("{mirror: matt}", "name-unknown"),
        ("{mirror: right_mat}", "name-unknown"),
        ("{mirror: mat, gauge: ground}", "file-shape"),
        ("{make: 2}", "file-key-missing"),
    ],
)
def test_a_mirrored_piece_needs_one_to_mirror_and_nothing_else(table: str, code: str) -> None:
    """A name that is there, of a piece with rows, and no rows of its own."""
    assert [code] == codes(MIRRORED.replace("{mirror: mat, make: 2}", table))
