"""Hooks on a page: in mm first, then by their names, with a remark where tables differ."""

from __future__ import annotations

import pytest

from tests.support.as_read import as_read
from tests.support.records import gauge, given_hook, pattern
from workeven.arithmetic.per_size import Sizes
from workeven.pattern import Pattern
from workeven.publish.pages import hooks
from workeven.records import replace


def with_hooks(*sizes: str) -> Pattern:
    """A pattern with a gauge for each hook."""
    gauges = tuple(gauge(name=f"g{mm}", hook=given_hook(mm)) for mm in sizes)
    return pattern(Sizes(("",)), gauges=(*gauges, gauge(name="none")))


@pytest.mark.parametrize(
    ("mm", "words"),
    [
        ("5", "5 mm hook (US H/8, old UK 6, Japan 8/0)"),
        ("3", "3 mm hook (Japan 5/0)"),
        ("12", "12 mm hook"),
        ("1.25", "1.25 mm hook (Japan lace 4)"),
        ("1.65", "1.65 mm hook (US steel 7)"),
    ],
)
def test_a_hook_is_told_in_mm_and_by_its_names(mm: str, words: str) -> None:
    """Only by those that a source has."""
    assert as_read(hooks.hooks(with_hooks(mm))) == (f"{words}, or the size that gives the gauge",)


def test_each_hook_is_told_once_the_smallest_first() -> None:
    """A gauge without a hook adds none."""
    assert hooks.called(with_hooks("5", "3.75", "5")) == ("3.75 mm (US F/5)", "5 mm (US H/8)")


@pytest.mark.parametrize(
    ("mm", "notes"),
    [
        ("5", ()),
        ("4", ("US G is 4 mm or 4.25 mm depending on maker and table: go by the mm.",)),
        (
            "2.25",
            ("US B/1 is 2 mm, 2.25 mm or 2.5 mm depending on maker and table: go by the mm.",),
        ),
        ("4.5", ("US 7 is 4.5 mm, and in steel 1.65 mm: go by the mm.",)),
        ("2.3", ("Japan 3/0 is 2.2 mm or 2.3 mm depending on maker and table: go by the mm.",)),
    ],
)
def test_a_name_that_means_several_sizes_is_remarked(mm: str, notes: tuple[str, ...]) -> None:
    """A maker who buys by the name alone may come home with another hook."""
    assert hooks.notes(with_hooks(mm)) == notes


def test_hooks_of_other_uses_say_what_for() -> None:
    """Behind those of the gauges; a name that no table has is told as it was given."""
    others = (
        given_hook("3.5", of="edging"),
        given_hook("3.5", of="ties"),
        given_hook("12", "S", of="base"),
    )
    assert as_read(hooks.hooks(replace(with_hooks("5"), hooks=others))) == (
        "5 mm hook (US H/8, old UK 6, Japan 8/0), or the size that gives the gauge",
        "3.5 mm hook (US E/4, old UK 9, Japan 6/0) for edging and ties",
        "12 mm hook (S) for base",
    )


def test_a_remark_stands_once() -> None:
    """Both hooks of that name are in the pattern."""
    assert len(hooks.notes(with_hooks("4", "4.25"))) == 1
