"""Balls of a put-up, and the same amount of another yarn."""

from __future__ import annotations

from fractions import Fraction

from tests.yarn.test_printed import IN_A, ROWS, STRIPES, TWO, checked
from workeven.pattern import Pattern, PutUp
from workeven.yarn import YarnNeed
from workeven.yarn.buying import balls, by_swatch, example, in_put_up, spare

YARDS = PutUp(length=Fraction(50 * 9144, 10), mass=Fraction(28))


def scarf(rows: str = ROWS, **changes: str) -> tuple[Pattern, YarnNeed]:
    """The scarf in two sizes, and what it takes."""
    outcome = checked("  main: 5 (9) balls", rows, **changes)
    assert outcome.ready is not None, outcome.problems
    return outcome.ready.pattern, outcome.ready.yarn.needs[0]


def test_a_length_that_fills_its_balls_needs_no_more() -> None:
    """200 m are two balls of 100 m, and 200.001 m three."""
    ball = PutUp(length=Fraction(100_000), mass=Fraction(50))
    assert [balls(Fraction(mm), ball) for mm in (0, 1, 200_000, 200_001)] == [0, 1, 2, 3]


def test_another_yarn_is_as_its_swatch() -> None:
    """Half as heavy a swatch, half the grams."""
    assert by_swatch(Fraction(300), Fraction(20), Fraction(10)) == 150


def test_another_put_up_is_bought_by_length() -> None:
    """97.474 g and 216.856 g at 2 m to the gram are 213.2 yd and 474.3 yd, in balls of 50 yd."""
    ((colour, number),) = in_put_up(scarf()[1], YARDS)
    assert (colour, [*number]) == (None, [5, 10])


def test_another_put_up_is_bought_for_each_colour() -> None:
    """Of A there is one row only."""
    _, need = scarf(STRIPES, put_up=TWO, chain=IN_A)
    assert [(colour, [*number]) for colour, number in in_put_up(need, YARDS)] == [
        ("A", [1, 1]),
        ("B", [5, 10]),
    ]


def test_what_is_spare_is_the_margin() -> None:
    """A tenth of what is computed is an eleventh of what is bought."""
    _, need = scarf()
    assert [*spare(need)] == [mm / 11 for mm in need.length]


def test_the_worked_example_is_in_the_numbers_of_the_yarn() -> None:
    """A swatch of 20 g, and one of 22 g: a tenth more; our ball is 100 m, so the other is 150."""
    pattern, need = scarf()
    worked = example(pattern, need)
    assert [worked.size, worked.ours, worked.theirs] == [1, 20, 22]
    assert worked.then == need.mass[1] * Fraction(11, 10)
    assert [worked.ball, worked.balls] == [150_000, 3]
