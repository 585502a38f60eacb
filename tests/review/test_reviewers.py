"""A reviewer's test: numbers that changed are all shown, and changes of words show none."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.review.seeds import NUMBERS, WORDS, Seed, noisy, written
from workeven.review import Review


def test_there_are_as_many_as_are_asked_for() -> None:
    """Forty numbers and twenty texts."""
    assert (True, True) == (len(NUMBERS) >= 40, len(WORDS) >= 20)


@pytest.mark.parametrize("seed", NUMBERS, ids=lambda seed: f"{seed[0]}: {seed[2]}")
def test_a_number_that_changed_is_shown(seed: Seed, after: Callable[..., Review]) -> None:
    """In a file in which much else is other too; and a published pattern must say so."""
    slug, old, new = seed
    found = after(slug, lambda text: noisy(written(text, (old, new))))
    (pattern,) = found.patterns
    assert "changed" == pattern.status
    assert any(change.numbers for change in pattern.changes)
    assert ["change-unsaid"] == [problem.code for problem in found.problems]


@pytest.mark.parametrize("seed", WORDS, ids=lambda seed: f"{seed[0]}: {seed[2]}")
def test_a_text_that_changed_shows_no_number(seed: Seed, after: Callable[..., Review]) -> None:
    """Other words, another spelling, another unit of the same length."""
    slug, old, new = seed
    found = after(slug, lambda text: noisy(written(text, (old, new))))
    (pattern,) = found.patterns
    assert ((), ()) == (pattern.changes, found.problems)
