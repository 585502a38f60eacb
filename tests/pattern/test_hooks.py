"""The hooks that a file gives: how they are read, what is told of them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.support.bands import band, made
from tests.support.records import gauge, given_hook, pattern
from workeven.arithmetic.per_size import Sizes
from workeven.pattern import Pattern
from workeven.pattern.hooks import USUAL, hook_name, hook_unsold
from workeven.pipeline import Outcome
from workeven.records import replace
from workeven.standards import hooks as tables

GAUGE = "{sts: 20, rows: 18, over: 10 cm, of: sc}"


def outcome(hook: str, listed: str = "") -> Outcome:
    """A band with that hook in its gauge, and others listed."""
    text = band("names: S (M)", around="80 (90) cm")
    written = GAUGE.replace("}", f', hook: "{hook}"}}') if hook else GAUGE
    return made(text.replace(GAUGE, written).replace("yarn:\n", f"{listed}yarn:\n", 1))


def read(hook: str, listed: str = "") -> Pattern:
    """The pattern with those hooks."""
    ready = outcome(hook, listed).ready
    assert ready is not None
    return ready.pattern


@pytest.mark.parametrize(
    ("written", "mm", "name"),
    [
        ("4 mm", "4", ""),
        ("4mm", "4", ""),
        ("4 mm hook", "4", ""),
        ("4 mm (US G/6)", "4", "US G/6"),
        ("4.0 mm / G-6", "4", "G-6"),
        ("4 mm, G hook", "4", "G"),
        ("6½ mm (K/10½)", "6.5", "K/10½"),
    ],
)
def test_a_name_may_stand_behind_the_size(written: str, mm: str, name: str) -> None:
    """In brackets, behind a comma, a slash or a blank."""
    hook = read(written).gauges[0].hook
    assert hook is not None
    assert (Fraction(mm), name) == (hook.mm, hook.name)


def test_listed_hooks_are_those_of_gauges_or_of_other_work() -> None:
    """A gauge without a hook takes that of its name."""
    found = read("", "hooks:\n  ground: 4.5 mm\n  ribbing: 3.5 mm\n")
    assert found.gauges[0].hook is not None
    assert Fraction("4.5") == found.gauges[0].hook.mm
    assert [("ribbing", Fraction("3.5"))] == [(one.of, one.mm) for one in found.hooks]


@pytest.mark.parametrize(("listed", "codes"), [("4 mm", []), ("5 mm", ["hook-differs"])])
def test_a_gauge_has_one_hook(listed: str, codes: list[str]) -> None:
    """The same size in both places is let be."""
    problems = outcome("4 mm", f"hooks: {{ground: {listed}}}\n").problems
    assert codes == [one.code for one in problems if one.code.startswith("hook")]


@pytest.mark.parametrize(
    ("mm", "name", "codes"),
    [
        ("5", "H/8", []),
        ("5", "US H-8", []),
        ("4", "H/8", ["hook-name"]),
        ("4", "Z", ["hook-name"]),
        ("4", "G", []),
        ("4.25", "G", []),
        ("3.125", "D", []),
        ("4", "old UK 8", []),
        ("4", "US 8", ["hook-name"]),
        ("1.65", "steel 7", []),
        ("1.5", "US steel 8", []),
        ("4.6", "", ["hook-unsold"]),
        ("4.6", "US 7", ["hook-name"]),
        ("4.6", "Z", ["hook-name", "hook-unsold"]),
        ("5.25", "", []),
        ("30", "", []),
        ("22", "", ["hook-unsold"]),
    ],
)
def test_what_is_told_of_a_hook(mm: str, name: str, codes: list[str]) -> None:
    """Recalled sizes and names count: nothing is told of a hook that some maker has."""
    found = pattern(Sizes(("",)), gauges=(replace(gauge(), hook=given_hook(mm, name)),))
    assert codes == [one.code for one in (*hook_name(found), *hook_unsold(found))]


def test_a_hook_of_other_work_is_looked_at_too_and_once() -> None:
    """The same size in two places is one mistake."""
    others = (given_hook("4.6", of="edging"), given_hook("4.6", of="ties"))
    found = pattern(Sizes(("",)), hooks=others)
    assert ["hook-unsold"] == [one.code for one in hook_unsold(found)]


def test_the_nearest_sizes_are_named() -> None:
    """By what they are called, so that one can be bought."""
    found = pattern(Sizes(("",)), hooks=(given_hook("4.2", of="edging"),))
    (problem,) = hook_unsold(found)
    assert problem.expected == (
        "4 mm (US G/6, old UK 8, Japan 7/0) or 4.25 mm (US G): the nearest that tables have."
    )


def test_usual_sizes_are_in_the_tables() -> None:
    """They stand in the code, so that no table is read for them."""
    assert all(tables.nearest(Fraction(one, 100)) == (Fraction(one, 100),) for one in USUAL)
