"""Exact quantities printed by trade habit, and as decimals for data files.

Takes     ``Fraction`` millimetres and grams.
Gives     text: inches in quarters, centimetres in halves, yards and metres whole and up.
Problems  none.
From      design.md, "Numbers a maker can trust"; rounding practice in ``standards``.

Each figure is rounded once, from the exact value, never from another figure's rounding. A tie goes
up. Printed minus signs are the sign ``−``, those in data files the hyphen. A page has some thousand
figures, so they are counted in whole numbers: two and a half cm are five halves of a cm.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from workeven.arithmetic.units import CM, FOUR_IN, INCH, OUNCE, QUARTERS, TEN_CM, VULGAR, YARD, M


def rounded(value: Fraction, step: Fraction | int = 1) -> Fraction:
    """The nearest multiple of ``step``, a tie going up.

    >>> rounded(Fraction(5, 2)), rounded(Fraction(7), 4)
    (Fraction(3, 1), Fraction(8, 1))
    """
    return _nearest(value, step) * Fraction(step)


def rounded_up(value: Fraction, step: Fraction | int = 1) -> Fraction:
    """The multiple of ``step`` that is not less than the value.

    >>> rounded_up(Fraction(9, 4))
    Fraction(3, 1)
    """
    return _up(value, step) * Fraction(step)


def print_cm(mm: Fraction, *, unit: bool = True) -> str:
    """Centimetres in halves.

    >>> print_cm(Fraction(9779, 10))
    '98 cm'
    >>> print_cm(Fraction(972), unit=False)
    '97'
    """
    return _minus(_decimal(_nearest(mm, CM, 2) * 5, 1)) + (" cm" if unit else "")


def print_in(mm: Fraction, *, unit: bool = True) -> str:
    """Inches in quarters.

    >>> print_in(Fraction(972))
    '38¼ in'
    """
    quarters = _nearest(mm, INCH, 4)
    whole_inches, rest = divmod(abs(quarters), 4)
    figure = f"{whole_inches or ''}{QUARTERS[rest]}" or "0"
    return ("−" if quarters < 0 else "") + figure + (" in" if unit else "")


def print_both(mm: Fraction) -> str:
    """Both systems, each from the exact length.

    >>> print_both(Fraction(972))
    '97 cm / 38¼ in'
    """
    return f"{print_cm(mm)} / {print_in(mm)}"


def print_over(mm: Fraction) -> str:
    """What a gauge was counted over: 10 cm and 4 in are the same to the trade.

    >>> print_over(FOUR_IN), print_over(TEN_CM), print_over(Fraction(50))
    ('10 cm / 4 in', '10 cm / 4 in', '5 cm / 2 in')
    """
    return "10 cm / 4 in" if mm in (TEN_CM, FOUR_IN) else print_both(mm)


def print_metres(mm: Fraction, *, unit: bool = True) -> str:
    """Whole metres, up.

    >>> print_metres(Fraction(1106424))
    '1107 m'
    """
    return _minus(str(_up(mm, M))) + (" m" if unit else "")


def print_yards(mm: Fraction, *, unit: bool = True) -> str:
    """Whole yards, up.

    >>> print_yards(Fraction(1106424))
    '1210 yd'
    """
    return _minus(str(_up(mm, YARD))) + (" yd" if unit else "")


def print_grams(grams: Fraction, *, unit: bool = True) -> str:
    """Whole grams, up.

    >>> print_grams(Fraction(114, 10))
    '12 g'
    """
    return _minus(str(_up(grams))) + (" g" if unit else "")


def print_ounces(grams: Fraction, *, unit: bool = True) -> str:
    """Ounces to a tenth, up, as labels give them (100 g beside 3.5 oz is nearest, ours is enough).

    >>> print_ounces(Fraction(100))
    '3.6 oz'
    """
    return _minus(_decimal(_up(grams, OUNCE, 10), 1)) + (" oz" if unit else "")


def print_number(value: Fraction) -> str:
    """A number as a designer writes it: whole, with a printed fraction, or as a decimal.

    >>> print_number(Fraction(35, 2)), print_number(Fraction(20)), print_number(Fraction(17, 10))
    ('17½', '20', '1.7')
    """
    whole_part, rest = divmod(abs(value), 1)
    for sign, part in VULGAR.items():
        if rest == part:
            return f"{'−' if value < 0 else ''}{whole_part or ''}{sign}"
    return _minus(_decimal(_nearest(value, parts=1000), 3))


def print_list(values: Sequence[int]) -> str:
    """Numbers by size in the trade's way; one where all are the same.

    >>> print_list((60, 66, 72)), print_list((6, 6, 6))
    ('60 (66, 72)', '6')
    """
    return print_texts([_minus(str(value)) for value in values])


def print_texts(words: Sequence[str]) -> str:
    """The same of figures that are printed already.

    >>> print_texts(("7½", "8", "8"))
    '7½ (8, 8)'
    """
    return words[0] if len(set(words)) == 1 else f"{words[0]} ({', '.join(words[1:])})"


def decimal_cm(mm: Fraction) -> str:
    """Centimetres to 0.001 for data files, a tie going up.

    >>> decimal_cm(Fraction(9779, 10)), decimal_cm(Fraction(1000, 3)), decimal_cm(Fraction(90))
    ('97.79', '33.333', '9')
    """
    return _decimal(_nearest(mm, CM, 1000), 3)


def decimal(value: Fraction, places: int = 3) -> str:
    """A plain decimal to so many places for data files and figures, a tie going up.

    >>> decimal(Fraction(66, 7), 2), decimal(Fraction(66, 7), 0)
    ('9.43', '9')
    """
    return _decimal(_nearest(value, parts=10**places), places)


def _nearest(value: Fraction, unit: Fraction | int = 1, parts: int = 1) -> int:
    """How many parts of a unit that has so many are nearest to the value, a tie going up."""
    (over, under), (one, of) = value.as_integer_ratio(), unit.as_integer_ratio()
    whole = under * one
    return (2 * over * of * parts + whole) // (2 * whole)


def _up(value: Fraction, unit: Fraction | int = 1, parts: int = 1) -> int:
    """How many parts of a unit that has so many are not less than the value."""
    (over, under), (one, of) = value.as_integer_ratio(), unit.as_integer_ratio()
    return -(-over * of * parts // (under * one))


def _decimal(units: int, places: int) -> str:
    """So many units of 10 to the minus ``places``, without trailing zeros."""
    if not places:
        return str(units)
    digits = f"{abs(units):0{places + 1}d}"
    figure = f"{digits[:-places]}.{digits[-places:]}".rstrip("0").rstrip(".")
    return f"-{figure}" if units < 0 else figure


def _minus(figure: str) -> str:
    """The minus sign that print uses."""
    return figure.replace("-", "−")
