"""Units and rounding against law and against printed patterns."""

from __future__ import annotations

from fractions import Fraction

import pytest

from workeven.arithmetic import quantities as q


@pytest.mark.parametrize(
    ("text", "mm"), [("1 in", Fraction("25.4")), ("1 yd", Fraction("914.4")), ("1 ft", 12 * 254)]
)
def test_lengths_are_those_of_the_law(text: str, mm: Fraction | int) -> None:
    """1 in = 2.54 cm and 1 yd = 0.9144 m exactly.

    Citation: 16 CFR 500.19, https://www.law.cornell.edu/cfr/text/16/500.19 (a foot is 12 in).
    """
    assert (mm if isinstance(mm, Fraction) else Fraction(mm, 10)) == q.length(text)


def test_ounce_and_pound_agree_with_the_law_to_six_digits() -> None:
    """1 oz = 28.3495 g, 1 lb = 453.592 g.

    Citation: 16 CFR 500.19, https://www.law.cornell.edu/cfr/text/16/500.19. The exact values,
    28.349523125 g and 453.59237 g, are recalled from NIST Handbook 44, appendix C.
    """
    assert "28.3495" == q.decimal(q.mass("1 oz"), 4)
    assert "453.592" == q.decimal(q.mass("1 lb"), 3)
    assert (Fraction("28.349523125"), Fraction("453.59237")) == (q.mass("1 oz"), q.mass("1 lb"))


@pytest.mark.parametrize(
    ("inches", "cm"),
    [
        ("34", "86.5"),
        ("37", "94"),
        ("41", "104"),
        ("45", "114.5"),
        ("49", "124.5"),
        ("53", "134.5"),
        ("57", "145"),
    ],
)
def test_half_centimetres_are_those_of_a_printed_top(inches: str, cm: str) -> None:
    """Inches at 2.54 to the nearest half centimetre, seven sizes of a published shell top.

    Citation: https://www.joann.com/lion-brand-coboo-suttons-shell-top/312361226P403.html
    """
    assert cm == q.print_cm(q.length(f"{inches} in"), unit=False)


@pytest.mark.parametrize(
    ("inches", "cm"),
    [
        *(("36", "91.5"), ("40", "101.5"), ("44", "112"), ("48", "122"), ("52", "132")),
        *(("56", "142"), ("60", "152.5"), ("64", "162.5"), ("68", "172.5"), ("72", "183")),
        ("76", "193"),
    ],
)
def test_half_centimetres_are_those_of_a_printed_schematic(inches: str, cm: str) -> None:
    """Inches at 2.54 to the nearest half centimetre, eleven sizes of a published schematic.

    Citation: Brooklyn Tweed, Mesic schematic (cdn.shopify.com PDF).
    """
    assert cm == q.print_cm(q.length(f"{inches} in"), unit=False)


@pytest.mark.parametrize(
    ("inches", "cm"),
    [("36", "91.5"), ("43.5", "110.5"), ("47.5", "120.5"), ("54.5", "138.5"), ("62.5", "159")],
)
def test_half_centimetres_are_those_of_a_printed_cardigan(inches: str, cm: str) -> None:
    """62.5 in are 158.75 cm, a tie, which is printed 159: ties go up.

    The leaflet's sixth size, 39.5 in, is printed as 100 cm; 100.33 rounds to 100.5, ours.
    Citation: https://slideblast.com/crochet-cardigan_599627eb1723dd1eb66acc1b.html
    """
    assert cm == q.print_cm(q.length(f"{inches} in"), unit=False)


def test_metres_of_yards() -> None:
    """1210 yd are 1106 m and some centimetres: 1107 whole metres, up.

    Citation: a published pattern page prints 1110 m, rounded to ten (swisscrochet, Varpa).
    """
    assert "1107 m" == q.print_metres(q.length("1210 yd"))


def test_tex_is_grams_in_a_kilometre() -> None:
    """A ball of 50 g and 125 m is 400 tex; of 25 tex, 1000 m weigh 25 g.

    Citation: ISO 1144:2016, https://standards.globalspec.com/standards/detail?docId=10044768;
    http://en.texsite.info/Yarn_counting_%282%29
    """
    assert q.density("400 tex") == q.density("125 m/50 g")
    assert Fraction(1_000_000, 25) == q.density("25 tex")


@pytest.mark.parametrize(("inches", "cm"), [("36", "91.44"), ("60", "152.4")])
def test_lengths_are_converted_by_law_and_not_by_gauge(inches: str, cm: str) -> None:
    """Two schools: 2.5 cm to the inch, as 4 in = 10 cm of gauge, and 2.54. Ours is the second.

    By the first they would be 90 and 150 cm: at 60 in the two are an inch apart.
    Citation: https://frasierknits.net/post/common-conversion-mistakes
    """
    assert cm == q.decimal_cm(q.length(f"{inches} in"))


@pytest.mark.parametrize(
    ("inches", "printed", "ours"),
    [("30", "76", "76"), ("34", "86", "86.5"), ("42", "106.7", "106.5"), ("62", "157.5", "157.5")],
)
def test_mixed_rounding_in_print_is_not_ours(inches: str, printed: str, ours: str) -> None:
    """A published pullover rounds some sizes to whole centimetres, some to tenths: ours to halves.

    Citation: https://yayforyarn.com/shop/pdf-knitting-patterns/dotty-pullover/
    """
    assert ours == q.print_cm(q.length(f"{inches} in"), unit=False)
    assert abs(Fraction(ours) - Fraction(printed)) <= Fraction(1, 2)


@pytest.mark.parametrize("mm", range(1, 2000, 37))
def test_print_has_quarters_of_inches_and_halves_of_centimetres(mm: int) -> None:
    """The practice of printed patterns, whole numbers among them.

    Citation: https://jennabarron.com/blog/common-measurement-errors-in-knitting-patterns
    """
    halves = Fraction(q.print_cm(Fraction(mm), unit=False)) * 2
    inches = q.print_in(Fraction(mm), unit=False)
    assert 1 == halves.denominator
    assert not inches.strip("0123456789¼½¾")
