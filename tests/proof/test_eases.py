"""The ease that is left, computed back from proven stitches."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.support.bands import band, made, told
from workeven.arithmetic.units import CM, INCH
from workeven.pipeline import Outcome

LISTED = ("names: S (M)", "to_fit:", "  bust: 80 (90) cm")


def left(outcome: Outcome) -> list[Fraction]:
    """The ease of the first pair by size, in cm."""
    assert outcome.ready is not None, outcome.problems
    return [mm / CM for mm in outcome.ready.proven.ease[0].values]


def test_ease_is_that_of_the_stitches_and_not_the_one_asked_for() -> None:
    """At 18 sts to 10 cm, 88.3 cm are 158.94 sts; 159 make 88.33 cm, which is 8.33 over 80."""
    found = made(band(*LISTED, around="bust + 8.3 cm", sts="18"))
    assert [Fraction(159 * 10, 18) - 80, Fraction(177 * 10, 18) - 90] == left(found)


def test_smaller_than_the_body_is_negative_ease() -> None:
    """78 cm around 80."""
    assert [-2, -2] == left(made(band(*LISTED, around="bust - 2 cm")))


def test_ease_is_a_name_in_formulas() -> None:
    """6 cm in S and 7 in M."""
    sizes = (*LISTED, "ease:", "  bust: 6 (7) cm")
    assert [6, 7] == left(made(band(*sizes, around="bust + bust_ease")))


@pytest.mark.parametrize("written", ["-2 (-3) cm", "−2 (−3) cm", "[-2 cm, -3 cm]"])
def test_ease_may_be_listed_less_than_nothing(written: str) -> None:
    """With either sign of print."""
    sizes = (*LISTED, "ease:", f"  bust: {written}")
    assert [-2, -3] == left(made(band(*sizes, around="bust + bust_ease")))


def test_half_the_width_goes_around_twice() -> None:
    """(80 + 8) / 2 is 44 cm, and twice that is 8 more than the body."""
    found = made(band(*LISTED, around="(bust + 8 cm) / 2"))
    assert [8, 8] == left(found)
    assert found.ready is not None
    assert 2 == found.ready.proven.ease[0].times


@pytest.mark.parametrize(
    ("around", "times"),
    [
        ("girth / 2", 2),
        ("2 * half", 1),
        ("half", 2),
        ("band", 1),
        ("min(band, 3 m)", 1),
    ],
)
def test_a_girth_is_told_by_its_name(around: str, times: int) -> None:
    """Names that stand for other names are looked through, as far as they reach."""
    names = ("girth: bust + bust_ease", "band: girth", "half: band / 2")
    text = band(*LISTED, "fit: classic fit", "ease:", "  bust: 8 cm", around=around)
    found = made(text.replace("measurements:\n", "measurements:\n  " + "\n  ".join(names) + "\n"))
    assert "fit-unheld" not in [code for code, _ in told(found)]
    assert [8, 8] == left(found)
    assert found.ready is not None
    assert times == found.ready.proven.ease[0].times


@pytest.mark.parametrize("around", ["girth / 2 - 30 cm", "girth - 10 cm", "girth / 4", "2 * girth"])
def test_a_length_with_more_than_the_girth_in_it_is_no_girth(around: str) -> None:
    """A neck is a width less two shoulders: no ease is told, and why is."""
    text = band(*LISTED, "ease:", "  bust: 8 cm", around=around)
    found = made(text.replace("measurements:\n", "measurements:\n  girth: bust + bust_ease\n"))
    assert found.ready is not None
    assert () == found.ready.proven.ease
    (problem,) = found.problems
    assert (
        "Ease is wanted at `bust`, and no finished measurement shows it: `around` is neither a "
        "girth with its ease nor half." == problem.found
    )


def test_a_fit_that_no_girth_shows_is_told_with_what_is_made_from_the_body() -> None:
    """It is held against nothing, and the measurements that use the body are named."""
    (problem,) = made(band(*LISTED, "fit: classic fit", around="bust / 4 + 3 cm")).problems
    assert ("fit-unheld", True) == (problem.code, "`around` is neither a girth" in problem.found)


@pytest.mark.parametrize("around", ["88 (98) cm", "bust / 4 + 3 cm", "2 * bust", "bust * 1.1"])
def test_other_formulas_say_nothing_of_ease(around: str) -> None:
    """A length that does not grow with the body as its girth does is no girth of it."""
    found = made(band(*LISTED, around=around))
    assert found.ready is not None
    assert () == found.ready.proven.ease


def test_length_of_an_arm_has_no_ease() -> None:
    """A sleeve that ends above the wrist is short, and not tight."""
    sizes = ("names: S (M)", "to_fit:", "  arm length: 43 (44) cm")
    found = made(band(*sizes, around="arm_length - 10 cm"))
    assert found.ready is not None
    assert () == found.ready.proven.ease


@pytest.mark.parametrize(
    ("fit", "centimetres", "inches"),
    [
        ("very close fitting", "-7.5", -3),
        ("close fitting", "0", 0),
        ("classic fit", "7.5", 3),
        ("loose fit", "12.5", 5),
        ("oversized", "15", 6),
    ],
)
def test_fit_alone_gives_the_middle_of_its_scale(fit: str, centimetres: str, inches: int) -> None:
    """In the studio's unit; an open one gives its least.

    Citation: https://www.craftyarncouncil.com/standards/body-sizing (second-hand)
    """
    text = band(*LISTED, f"fit: {fit}", around="bust + bust_ease")
    assert [Fraction(centimetres)] * 2 == left(made(text))
    wanted = made(text, "in").ready
    assert wanted is not None
    assert inches * INCH == wanted.pattern.body.ease[0].values[0]


@pytest.mark.parametrize(
    ("fit", "ease", "failing"),
    [
        ("classic fit", "8 cm", []),
        ("classic fit", "11 cm", []),  # one centimetre of tolerance
        ("classic fit", "12 cm", ["S", "M"]),
        ("loose fit", "8 cm", ["S", "M"]),
        ("oversized", "30 cm", []),
        ("oversized", "13 cm", ["S", "M"]),
        ("close fitting", "0 cm", []),
        ("close fitting", "2 cm", ["S", "M"]),
        ("very close fitting", "-4 cm", []),
        ("classic fit (loose fit)", "8 cm", ["M"]),
        ("classic fit (loose fit)", "10 cm", []),
    ],
)
def test_fit_is_held_against_the_ease_that_is_left(fit: str, ease: str, failing: list[str]) -> None:
    """In each size by itself; fits may be listed by size."""
    sizes = (*LISTED, f"fit: {fit}", "ease:", f"  bust: {ease}")
    found = told(made(band(*sizes, around="bust + bust_ease")))
    assert ([("fit-other", tuple(failing))] if failing else []) == found


def test_other_fit_is_told_with_body_finished_and_ease() -> None:
    """Each failing size on a line of its own, and as figures."""
    sizes = (*LISTED, "fit: classic fit")
    problem = made(band(*sizes, around="bust + 12.5 cm")).problems[0]
    assert (
        "S: body 80 cm (31½ in), finished 92.5 cm (36½ in), 12.5 cm positive ease, which is "
        "loose fit." == problem.expected.splitlines()[0]
    )
    assert ("ease_cm", ("12.5", "12.5")) in problem.figures


@pytest.mark.parametrize(
    ("sizes", "around", "codes"),
    [
        ((*LISTED, "fit: classic fit"), "88 (98) cm", ["fit-unheld"]),
        (("names: S (M)", "fit: classic fit"), "88 (98) cm", ["fit-unheld"]),
        ((*LISTED, "ease:", "  bust: 8 cm"), "88 (98) cm", ["fit-unheld"]),
        ((*LISTED, "fit: cosy"), "bust + 8 cm", ["file-choice"]),
        ((*LISTED, "ease:", "  bist: 8 cm"), "bust + 8 cm", ["name-unknown"]),
        ((*LISTED, "ease:", "  bust: 8"), "bust + 8 cm", ["unit-length"]),
        ((*LISTED, "ease:", "  bust: 8 (8, 8) cm"), "bust + 8 cm", ["size-list"]),
    ],
)
def test_fit_and_ease_that_cannot_be_had_are_told_once(
    sizes: tuple[str, ...], around: str, codes: list[str]
) -> None:
    """One mistake, one message."""
    assert codes == [code for code, _ in told(made(band(*sizes, around=around)))]
