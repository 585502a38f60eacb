"""Figures are rounded once, by the trade's habit, from the exact value."""

from __future__ import annotations

from fractions import Fraction

import pytest

from workeven.arithmetic import quantities as q


@pytest.mark.parametrize(
    ("mm", "cm", "inches"),
    [
        (Fraction(0), "0 cm", "0 in"),
        (Fraction(25, 10), "0.5 cm", "0 in"),
        (Fraction(3175, 1000), "0.5 cm", "¼ in"),
        (Fraction(254, 10), "2.5 cm", "1 in"),
        (Fraction(972), "97 cm", "38¼ in"),
        (Fraction(9775, 10), "98 cm", "38½ in"),
        (Fraction(889, 10), "9 cm", "3½ in"),
        (Fraction(1000), "100 cm", "39¼ in"),
        (Fraction(-100), "−10 cm", "−4 in"),
        (Fraction(-127, 10), "−1.5 cm", "−½ in"),
    ],
)
def test_lengths_print_in_halves_and_quarters(mm: Fraction, cm: str, inches: str) -> None:
    """Centimetres in halves, inches in quarters, a tie going up, each from the exact length."""
    assert (cm, inches) == (q.print_cm(mm), q.print_in(mm))


def test_inches_never_come_from_rounded_centimetres() -> None:
    """98.2 cm is 38.66 in: 38¾; from the printed 98 cm it would be 38½."""
    assert "98 cm / 38¾ in" == q.print_both(Fraction(982))
    assert "98 cm / 38½ in" == q.print_both(Fraction(980))


def test_gauge_over_four_inches_is_ten_centimetres() -> None:
    """The trade takes 10 cm and 4 in for the same; other lengths convert."""
    assert "10 cm / 4 in" == q.print_over(q.length("4 in"))
    assert "10 cm / 4 in" == q.print_over(q.length("10 cm"))
    assert "5 cm / 2 in" == q.print_over(q.length("2 in"))


def test_gauges_are_taken_as_written() -> None:
    """Over 10 cm is 100 mm, over 4 in is 101.6 mm."""
    assert (Fraction(100), Fraction(1016, 10)) == (q.TEN_CM, q.FOUR_IN)


def test_amounts_of_yarn_round_up() -> None:
    """A maker needs the whole metre, yard and gram."""
    assert "201 m" == q.print_metres(Fraction(200001))
    assert "200 m" == q.print_metres(Fraction(200000))
    assert "219 yd" == q.print_yards(Fraction(200000))
    assert "12 g" == q.print_grams(Fraction(114, 10))
    assert "1.8 oz" == q.print_ounces(Fraction(50))


def test_units_can_be_left_to_the_heading() -> None:
    """In a table the unit stands in the heading."""
    assert ("97", "38¼", "1") == (
        q.print_cm(Fraction(972), unit=False),
        q.print_in(Fraction(972), unit=False),
        q.print_metres(Fraction(972), unit=False),
    )


@pytest.mark.parametrize(
    ("mm", "expected"),
    [
        (Fraction(900), "90"),
        (Fraction(9779, 10), "97.79"),
        (Fraction(1000, 3), "33.333"),
        (Fraction(2000, 3), "66.667"),
        (Fraction(5, 1000), "0.001"),
        (Fraction(4, 1000), "0"),
        (Fraction(-25, 10), "-0.25"),
        (Fraction(10005, 10), "100.05"),
    ],
)
def test_data_files_hold_centimetres_to_a_thousandth(mm: Fraction, expected: str) -> None:
    """Plain decimals with a hyphen for minus and no trailing zeros, a tie going up."""
    assert expected == q.decimal_cm(mm)


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (Fraction(20), "20"),
        (Fraction(35, 2), "17½"),
        (Fraction(1, 4), "¼"),
        (Fraction(17, 10), "1.7"),
        (Fraction(375, 100), "3¾"),
        (Fraction(-1, 2), "−½"),
        (Fraction(22, 7), "3.143"),
    ],
)
def test_numbers_print_as_a_designer_writes_them(value: Fraction, expected: str) -> None:
    """A hook of 3.75 mm keeps its decimals elsewhere; a gauge of 17½ its half."""
    assert expected == q.print_number(value)
