"""What a pattern takes from a body chart, against the published figures."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.support.bands import band, made, told
from workeven.arithmetic.units import CM, INCH
from workeven.pattern import Body
from workeven.pipeline import Outcome


def fits(outcome: Outcome, name: str = "bust") -> list[Fraction]:
    """A measurement of the body by size, in cm."""
    assert outcome.ready is not None, outcome.problems
    return [mm / CM for mm in dict(outcome.ready.pattern.to_fit)[name]]


def body(outcome: Outcome) -> Body:
    """What the pattern says of the body."""
    assert outcome.ready is not None, outcome.problems
    return outcome.ready.pattern.body


@pytest.mark.parametrize(
    ("end", "bust"), [("low", ["81", "91.5"]), ("middle", ["83.5", "94"]), ("high", ["86", "96.5"])]
)
def test_end_of_a_range_is_the_same_in_all_sizes(end: str, bust: list[str]) -> None:
    """Woman S 81 to 86 cm, M 91.5 to 96.5 cm.

    Citation: https://www.craftyarncouncil.com/standards/woman-size (second-hand)
    """
    found = made(band("names: S (M)", "chart: women", f"of_range: {end}"))
    assert [Fraction(one) for one in bust] == fits(found)


def test_middle_is_taken_where_nothing_is_said() -> None:
    """Woman S: 83.5 cm."""
    assert [Fraction("83.5")] == fits(made(band("names: [S]", "chart: women")))


def test_studio_in_inches_goes_by_the_inches_of_the_chart() -> None:
    """Woman S 32 to 34 in, the middle is 33 in, and not 83.5 cm converted."""
    found = made(band("names: [S]", "chart: women"), "in")
    assert [33 * INCH / CM] == fits(found)


def test_line_without_the_studios_unit_is_taken_in_the_other() -> None:
    """The arm length of men has no inches that were found; all its sizes are in centimetres."""
    text = band(
        "names: S (M)", "chart: men", "from_chart: arm length to underarm",
        around="arm_length_to_underarm + 1 cm",
    )  # fmt: skip
    found = made(text, "in")
    assert [Fraction("45.5"), Fraction(47)] == fits(found, "arm length to underarm")
    assert ["cm"] == [line.unit for line in body(found).lines]


def test_what_formulas_use_is_taken_with_the_first_of_the_chart() -> None:
    """A band around the hip takes bust, which tells the size, and hip."""
    found = made(band("names: S (M)", "chart: women", around="hip + 2 cm"))
    assert ["bust", "hip"] == [line.measurement for line in body(found).lines]


def test_what_formulas_use_is_taken_beside_what_is_asked_for() -> None:
    """The upper arm is asked for, the hip is used."""
    found = made(band("names: S (M)", "chart: women", "from_chart: upper arm", around="hip + 2 cm"))
    assert ["upper arm", "hip"] == [line.measurement for line in body(found).lines]


def test_misspelt_measurement_is_looked_up_in_the_chart() -> None:
    """A waist that nobody has taken yet is offered."""
    found = made(band("names: S (M)", "chart: women", around="wasit + 2 cm"))
    assert ["Did you mean `waist`?"] == [one.mend for one in found.problems]


def test_ease_that_is_used_and_not_given_is_told_with_how() -> None:
    """`bust_ease` without an ease."""
    sizes = ("names: S (M)", "to_fit:", "  upper arm: 26 (28) cm")
    found = made(band(*sizes, around="upper_arm + upper_arm_ease"))
    assert ["Give the ease under `sizes`: `ease: {upper_arm: 8 cm}`."] == [
        one.mend for one in found.problems
    ]


def test_listed_measurements_stand_beside_those_of_the_chart() -> None:
    """A bust of the pattern's own and the chart's upper arm."""
    sizes = (
        "names: S (M)",
        "chart: women",
        "from_chart: upper arm",
        "to_fit:",
        "  bust: 85 (95) cm",
    )
    found = made(band(*sizes))
    assert [85, 95] == fits(found)
    assert [26, 28] == fits(found, "upper arm")


def test_listed_to_fit_works_without_a_chart() -> None:
    """As it always did."""
    assert [85, 95] == fits(made(band("names: S (M)", "to_fit:", "  bust: 85 (95) cm")))


def test_own_value_stands_instead_of_the_charts() -> None:
    """One size is the pattern's own, with its reason; the fault of the other is told no more."""
    found = made(
        band(
            "names: 4X (5X)", "chart: women", "instead:", "  upper arm:",
            "    5X: {is: 50 cm, because: measured}", around="upper_arm + 4 cm",
        )
    )  # fmt: skip
    assert [47, 50] == fits(found, "upper arm")
    assert [] == told(found)


def test_own_value_fills_what_the_chart_lacks() -> None:
    """Men have no waist from 3X on."""
    sizes = (
        "names: 2X (3X)",
        "chart: men",
        "instead:",
        "  waist:",
        "    3X: {is: 130 cm, because: ours}",
    )
    found = made(band(*sizes, around="waist + 4 cm"))
    assert [Fraction("119.5"), Fraction(130)] == fits(found, "waist")


def test_sizes_may_be_called_otherwise() -> None:
    """XXL and 3XL of a label are 2X and 3X of the chart."""
    found = made(band("names: XXL (3XL)", "chart: women", "chart_sizes: 2X (3X)"))
    assert [Fraction("124.5"), Fraction("134.5")] == fits(found)


def test_letters_of_the_standard_are_a_chart() -> None:
    """EN 13402-3 letters a bust of 90 to 98 cm M."""
    assert [94] == fits(made(band("names: [M]", "chart: letters women")))


def instead(name: str, value: str) -> tuple[str, ...]:
    """An own value in a pattern of two sizes by the women's chart."""
    return ("names: S (M)", "chart: women", "instead:", f"  {name}:", f"    {value}")


@pytest.mark.parametrize(
    ("sizes", "code", "failing"),
    [
        (("names: S (M)", "chart: ladies"), "chart-unknown", None),
        (("names: S (M)", "from_chart: bust"), "chart-unknown", None),
        (("names: XL (XXL, 3XL)", "chart: women"), "chart-size", ("XXL", "3XL")),
        (("names: M (S, L)", "chart: women"), "chart-order", ("S",)),
        (("names: S (M)", "chart: women", "chart_sizes: M (M)"), "chart-order", ("M",)),
        (("names: S (M)", "chart: women", "chart_sizes: M"), "size-list", None),
        (("names: S (M)", "chart: women", "from_chart: bost"), "name-unknown", None),
        (("names: XL (3X, 4X)", "chart: men", "from_chart: waist"), "chart-no-value", ("3X", "4X")),
        (instead("wing", "S: {is: 1 cm, because: x}"), "name-unknown", None),
        (instead("bust", "XL: {is: 90 cm, because: x}"), "size-unknown", None),
        (instead("bust", "S: {is: 90, because: x}"), "unit-length", None),
        (instead("bust", "S: {is: 90 cm}"), "file-key-missing", None),
    ],
)
def test_what_the_chart_does_not_have_is_told_once(
    sizes: tuple[str, ...], code: str, failing: tuple[str, ...] | None
) -> None:
    """One mistake, one message, all its sizes at once."""
    assert [(code, failing)] == told(made(band(*sizes)))


@pytest.mark.parametrize(
    ("said", "meant"), [("XXL", "2X"), ("3XL", "3X"), ("5XL", "5X"), ("Xs", None)]
)
def test_letters_of_the_standard_are_offered(said: str, meant: str | None) -> None:
    """2X is XXL in EN 13402-3, 3X is 3XL; small letters are the same size."""
    found = made(band(f"names: [{said}]", "chart: women"))
    mends = [one.mend for one in found.problems if one.code == "chart-size"]
    assert [f"`{meant}`" in mend for mend in mends] == ([True] if meant else [])


def test_fault_is_told_with_what_the_other_unit_says() -> None:
    """Woman 5X upper arm: 18.5 in beside 49.5 cm, each way round."""
    text = band("names: 4X (5X)", "chart: women", around="upper_arm + 4 cm")
    assert "5X: 49.5 cm is taken; the other unit says 18½ in." == made(text).problems[0].expected
    inches = made(text, "in").problems[0]
    assert "5X: 18½ in is taken; the other unit says 49.5 cm." == inches.expected


def test_fault_is_told_only_where_its_value_is_used() -> None:
    """A pattern that takes nothing faulty hears of no fault."""
    assert [] == told(made(band("names: XS (S, M, L, XL, 2X, 3X, 4X, 5X)", "chart: women")))


def test_falling_value_of_a_chart_is_told_as_its_fault_alone() -> None:
    """The arm of men falls to 49.5 cm in 4X, as published."""
    text = band(
        "names: 3X (4X)", "chart: men", "from_chart: arm length to underarm",
        around="arm_length_to_underarm + 20 cm",
    )  # fmt: skip
    assert ("chart-fault", ("4X",)) in told(made(text))
    assert "size-falls" not in [code for code, _ in told(made(text))]


@pytest.mark.parametrize(
    ("listed", "codes"),
    [
        ("76 cm (34 in)", ["unit-mixed"]),
        ("76 (34 in) cm", ["unit-mixed"]),
        ("[76 cm, 34 in]", ["unit-mixed"]),
        ("76 (86) cm", []),
        ("30 in (34 in)", []),
        ("30 in (34 inches)", []),
    ],
)
def test_body_in_two_units_is_told(listed: str, codes: list[str]) -> None:
    """Two words for one unit are one."""
    found = made(band("names: S (M)", "to_fit:", f"  bust: {listed}"))
    assert codes == [code for code, _ in told(found)]
