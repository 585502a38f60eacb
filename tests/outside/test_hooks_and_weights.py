"""Weights of yarn, hooks and wraps against their published rows, and what is told by them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.support.records import gauge, given_hook, pattern, span
from workeven import standards
from workeven.arithmetic.per_size import Sizes
from workeven.pattern import PutUp, Yarn
from workeven.pattern.tools import (
    gauge_of_hook,
    gauge_of_weight,
    hook_of_weight,
    wraps_of_weight,
)
from workeven.records import replace

ONE = Sizes(("",))
#: number, name, sc over 4 in, hooks in mm: the table quoted at
#: http://222handspun.com/tips-and-tutorials/tag/Yarn%20size%20gauge (edition A)
WEIGHTS = [
    (1, "super fine", (21, 32), ("2.25", "3.5")),
    (2, "fine", (16, 20), ("3.5", "4.5")),
    (3, "light", (12, 17), ("4.5", "5.5")),
    (4, "medium", (11, 14), ("5.5", "6.5")),
    (5, "bulky", (8, 11), ("6.5", "9")),
    (6, "super bulky", (6, 9), ("9", "16")),
]


def yarn(weight: str, wraps: Fraction | None = None) -> Yarn:
    """A yarn of that weight."""
    return Yarn(
        name="main",
        label="main",
        weight=weight,
        fibre="100% wool",
        put_up=PutUp(length=Fraction(100_000), mass=Fraction(50)),
        colours=(),
        held=1,
        span=span(10),
        wraps=wraps,
    )


@pytest.mark.parametrize(("number", "name", "sc", "hook"), WEIGHTS)
def test_categories_are_as_published(
    number: int, name: str, sc: tuple[int, int], hook: tuple[str, str]
) -> None:
    """One edition has all of them; others of the same number are kept beside it."""
    found = standards.yarn_weight(name)
    assert found is not None
    assert (number, sc) == (found.number, found.sc)
    assert tuple(map(Fraction, hook)) == found.hook_mm


@pytest.mark.parametrize(("_number", "name", "sc", "hook"), WEIGHTS)
def test_gauges_and_hooks_of_the_table_are_not_told(
    _number: int, name: str, sc: tuple[int, int], hook: tuple[str, str]
) -> None:
    """The ends of each range, with each other's hooks."""
    for sts in sc:
        for mm in hook:
            one = replace(gauge(sts=sts), hook=given_hook(mm), of="sc")
            made = pattern(ONE, gauges=(one,), yarns=(yarn(name),))
            assert [] == [*gauge_of_weight(made), *hook_of_weight(made)]


@pytest.mark.parametrize(
    ("weight", "sts", "mm", "codes"),
    [
        ("light", 22, "4.5", ["gauge-weight"]),
        ("light", 21, "4.5", []),
        ("light", 16, "2.5", ["hook-weight"]),
        ("light", 16, "3.5", []),
        ("bulky", 16, "4", ["gauge-weight", "hook-weight"]),
        ("jumbo", 4, "25", []),
    ],
)
def test_what_lies_far_beyond_the_ranges_is_told(
    weight: str, sts: int, mm: str, codes: list[str]
) -> None:
    """A quarter of a gauge and a millimetre beyond are let be."""
    one = replace(gauge(sts=sts), hook=given_hook(mm), of="sc")
    made = pattern(ONE, gauges=(one,), yarns=(yarn(weight),))
    assert codes == [one.code for one in (*gauge_of_weight(made), *hook_of_weight(made))]


@pytest.mark.parametrize("stitch", ["dc", "waves", "hdc"])
def test_other_stitches_say_nothing_of_their_gauge(stitch: str) -> None:
    """The table is for single crochet."""
    one = replace(gauge(sts=30), of=stitch)
    made = pattern(ONE, gauges=(one,), yarns=(yarn("bulky"),))
    assert [] == list(gauge_of_weight(made))


@pytest.mark.parametrize(
    ("weight", "wraps", "told"),
    [("light", 11, False), ("light", 15, False), ("light", 20, True), ("lace", 60, False),
     ("lace", 10, True), ("jumbo", 3, False), ("jumbo", 7, True)],
)  # fmt: skip
def test_wraps_that_no_list_has_are_told(weight: str, wraps: int, told: bool) -> None:  # noqa: FBT001, a column
    """Three lists, which differ.

    Citation: https://ihookdesign.com/what-is-wpi; the Spin Off chart at
    https://www.scribd.com/document/657653690/Yarn-Standards;
    https://www.pardonmystash.com/podcast-episodes/yarn-weights/
    """
    made = pattern(ONE, yarns=(yarn(weight, Fraction(wraps)),))
    assert told == bool(list(wraps_of_weight(made)))


@pytest.mark.parametrize(("sts", "told"), [(32, False), (42, False), (26, False), (20, True)])
def test_lace_is_held_against_its_gauge_in_double_crochet(sts: int, told: bool) -> None:  # noqa: FBT001, a column
    """32 to 42 over 4 in, counted in double crochet: the note beside the row of the table."""
    made = pattern(ONE, gauges=(replace(gauge(sts=sts), of="dc"),), yarns=(yarn("lace"),))
    assert told == bool(list(gauge_of_weight(made)))


@pytest.mark.parametrize(
    ("mm", "weights", "told"),
    [
        ("3", ("light",), False),
        ("2", ("light",), True),
        ("9", ("light",), True),
        ("9", ("light", "bulky"), False),
    ],
)
def test_hooks_for_other_work_are_held_against_the_weights_too(
    mm: str,
    weights: tuple[str, ...],
    told: bool,  # noqa: FBT001, a column
) -> None:
    """An edging may be two millimetres off; of several yarns it may be worked in any."""
    yarns = tuple(replace(yarn(one), name=one.replace(" ", "_")) for one in weights)
    edging = replace(given_hook(mm), of="edging")
    made = replace(pattern(ONE, gauges=(gauge(),), yarns=yarns), hooks=(edging,))
    found = list(hook_of_weight(made))
    assert told == bool(found)
    assert all(one.span == edging.span and "`edging`" in one.found for one in found)


def test_no_published_stitch_is_narrower_than_most_of_its_hook() -> None:
    """By the rows above: half a hook is far from what anybody works."""
    widths = [Fraction(1016, 10) / most / Fraction(hook) for _, _, (_, most), (_, hook) in WEIGHTS]
    assert min(widths) > Fraction(7, 10)


@pytest.mark.parametrize(
    ("over", "of", "told"),
    [
        (Fraction(10), "dc", ["gauge-hook"]),
        (Fraction(100), "dc", []),
        (Fraction(254), "dc", []),
        (Fraction(10), "fans", []),
    ],
)
def test_a_stitch_that_cannot_be_is_told(over: Fraction, of: str, told: list[str]) -> None:
    """16 dc over 10 mm with a 5 mm hook; of fans nobody knows what is counted."""
    one = replace(gauge(over=over), of=of, hook=given_hook("5"))
    assert told == [problem.code for problem in gauge_of_hook(pattern(ONE, gauges=(one,)))]
