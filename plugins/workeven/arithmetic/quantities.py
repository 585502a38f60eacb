"""Lengths, masses and numbers as designers write them, read exactly.

Takes     text such as ``3 1/2 in``, ``3½ in``, ``1.5 cm``, ``76 (86, 97, 107) (117, 127) cm``.
Gives     ``Fraction`` millimetres and grams; the printers of ``printing`` stand here too.
Problems  none of its own: ``QuantityFault`` is turned into a problem by whoever knows the place.
From      design.md, "Numbers a maker can trust" and "YAML, safely and with places".

One anchored pattern reads a number and a unit of a closed table. Pint, which takes long to load and
misreads text (``1,5 m`` is 15 m there), is imported by ``density`` alone, and sees only numbers and
unit names that our own pattern has split.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from typing import Any, TypeVar

from workeven.arithmetic.printing import (
    decimal,
    decimal_cm,
    print_both,
    print_cm,
    print_grams,
    print_in,
    print_metres,
    print_number,
    print_ounces,
    print_over,
    print_yards,
    rounded,
    rounded_up,
)
from workeven.arithmetic.size_lists import by_size, split
from workeven.arithmetic.units import (
    FOUR_IN,
    TEN_CM,
    UNITS,
    USUAL_UNITS,
    VULGAR,
    Dimension,
    QuantityFault,
)
from workeven.problems.words import did_you_mean, quote
from workeven.records import record_by_position

__all__ = [
    "FOUR_IN",
    "TEN_CM",
    "QuantityFault",
    "by_size",
    "decimal",
    "decimal_cm",
    "density",
    "length",
    "lengths",
    "mass",
    "masses",
    "number",
    "print_both",
    "print_cm",
    "print_grams",
    "print_in",
    "print_metres",
    "print_number",
    "print_ounces",
    "print_over",
    "print_yards",
    "rounded",
    "rounded_up",
    "whole",
    "wholes",
]

T = TypeVar("T")

#: No figure of a pattern needs more digits than this, before or after the point.
MOST_DIGITS = 9
VULGARS = "".join(VULGAR)
BLANK = "[ \u00a0\u202f]"
_DIGITS = f"[0-9]{{1,{MOST_DIGITS}}}"
#: Integer, decimal, fraction or mixed number. ``join`` is what may stand inside a mixed one.
_NUMBER = (
    rf"(?:(?P<whole>{_DIGITS})(?:JOIN)(?P<over>{_DIGITS})[/\u2044](?P<under>{_DIGITS})"
    rf"|(?P<over2>{_DIGITS})[/\u2044](?P<under2>{_DIGITS})"
    rf"|(?P<whole2>{_DIGITS})?{BLANK}?(?P<vulgar>[{VULGARS}])"
    rf"|(?P<decimal>{_DIGITS}\.{_DIGITS}|\.{_DIGITS}|{_DIGITS}))"
)
#: A number in a formula: there ``3-1/2`` is a difference.
NUMBER_IN_FORMULA = re.compile(_NUMBER.replace("JOIN", f"{BLANK}+"))
_QUANTITY = re.compile(
    f"{BLANK}*" + _NUMBER.replace("JOIN", f"{BLANK}+|-") + rf"(?P<gap>{BLANK}*)(?P<unit>[^0-9 ].*)?"
)
_COMMA = re.compile(r"([0-9]+),([0-9]+)")
#: so many digits behind a comma may be thousands
_IN_A_GROUP = 3
#: made when a density is read: few patterns have one
_DENSITY = rf"{BLANK}*(?P<over>[^/]+?){BLANK}*(?:/|\bper\b){BLANK}*(?P<under>[^/]+?){BLANK}*"
_TEX = rf"{BLANK}*(?P<number>[0-9./\u2044]+){BLANK}*(?P<unit>tex|dtex){BLANK}*"


#: mm; the largest hook of the published tables is 30 mm, some are turned by hand
LARGEST_HOOK = 50


@record_by_position
class _Read:
    """A number with what stood behind it."""

    value: Fraction
    unit: str
    unit_at: int


# --- reading -------------------------------------------------------------------------------


def length(text: str) -> Fraction:
    """A length in exact millimetres; raises ``QuantityFault``.

    >>> length("3 1/2 in")
    Fraction(889, 10)
    >>> length("3½ in") == length('3.5"') == length("3-1/2 inches")
    True
    """
    return _measured(text, "length")


def hook(text: str) -> Fraction:
    """The size of a hook in mm; raises ``QuantityFault``, also for any other unit.

    Hooks are named by their diameter in mm throughout the trade (common practice); in cm or in
    inches it is a slip.

    >>> hook("4.5 mm")
    Fraction(9, 2)
    """
    if text.strip() and not any(character.isdigit() for character in text):
        raise QuantityFault(
            f"{quote(text.strip())} is a name of a hook, or none, and its size is needed.",
            at=0,
            end=len(text),
            mend="Write its diameter in mm; the name may stand behind it: `5 mm (US H/8)`.",
        )
    read = _read(text, 0, "a size of a hook")
    if not read.unit:
        raise _no_unit(text, 0, "length", example="mm")
    millimetres = read.value * _factor(read, "length")
    if _factor(read, "length") != 1 or not 0 < millimetres <= LARGEST_HOOK:
        raise QuantityFault(
            f"{quote(text.strip())} is not the size of a hook, which is given in mm.",
            at=0,
            end=len(text),
            mend="Write its diameter in mm, as 4.5 mm.",
        )
    return millimetres


def mass(text: str) -> Fraction:
    """A mass in exact grams; raises ``QuantityFault``.

    >>> mass("11.4 g")
    Fraction(57, 5)
    """
    return _measured(text, "mass")


def number(text: str) -> Fraction:
    """A number without a unit, exact; raises ``QuantityFault``.

    >>> number("17½")
    Fraction(35, 2)
    """
    read = _read(text, 0, "a number")
    if read.unit:
        raise QuantityFault(
            f"{quote(read.unit)} follows the number, and a number alone is due here.",
            at=read.unit_at,
            end=read.unit_at + len(read.unit),
            mend="Leave the number alone, without a unit.",
        )
    return read.value


def whole(text: str) -> int:
    """A whole number, as of stitches; raises ``QuantityFault``.

    >>> whole("60")
    60
    """
    value = number(text)
    if value.denominator != 1:
        raise QuantityFault(
            f"{quote(text.strip())} is not a whole number.",
            end=len(text),
            mend="Stitches, rows and pieces are counted in whole numbers.",
        )
    return int(value)


def lengths(text: str) -> tuple[Fraction, ...]:
    """Lengths by size in millimetres, the unit once at the end or with each.

    >>> lengths("76 (86, 97) cm") == lengths("76 cm (86 cm, 97 cm)")
    True
    """
    return _measured_list(text, "length")


def masses(text: str) -> tuple[Fraction, ...]:
    """Masses by size in grams, the unit once at the end or with each.

    >>> masses("50 (60, 70) g")
    (Fraction(50, 1), Fraction(60, 1), Fraction(70, 1))
    """
    return _measured_list(text, "mass")


def wholes(text: str) -> tuple[int, ...]:
    """Whole numbers by size.

    >>> wholes("6 (6, 7)")
    (6, 6, 7)
    """
    return tuple(_placed(at, whole, item) for item, at in by_size(text))


def density(text: str) -> Fraction:
    """How many millimetres of a yarn weigh one gram: ``400 m/100 g``, ``115 yd/oz``, ``250 tex``.

    Exact; raises ``QuantityFault``. Pint carries the dimensions, and never sees the raw text.

    >>> density("400 m/100 g")
    Fraction(4000, 1)
    >>> density("250 tex") == density("400 m/100 g")
    True
    """
    if tex := re.fullmatch(_TEX, text):
        grams_per_length = _in_pint(number(tex["number"]), tex["unit"], "gram / millimeter")
        return 1 / _above_zero(grams_per_length, text)
    parts = re.fullmatch(_DENSITY, text)
    if parts is None:
        raise QuantityFault(
            f"{quote(text)} is not a length by mass.",
            end=len(text),
            mend="Write a length, a slash and a mass, as 400 m/100 g, or the count in tex.",
        )
    over = _placed(parts.start("over"), _plain_unit, parts["over"])
    under = _placed(parts.start("under"), _plain_unit, parts["under"])
    if {UNITS[over.unit][0], UNITS[under.unit][0]} != {"length", "mass"}:
        raise QuantityFault(
            f"{quote(text)} does not set a length against a mass.",
            end=len(text),
            mend="Write a length, a slash and a mass, as 400 m/100 g.",
        )
    ratio = _above_zero(over.value, text) / _above_zero(under.value, text)
    unit = f"{UNITS[over.unit][2]} / {UNITS[under.unit][2]}"
    if UNITS[over.unit][0] == "length":
        return _in_pint(ratio, unit, "millimeter / gram")
    return 1 / _in_pint(ratio, unit, "gram / millimeter")


# --- reading, in parts ---------------------------------------------------------------------


def number_of(found: re.Match[str]) -> Fraction | None:
    """The value of a match of the number pattern, None where it divides by zero."""
    if (text := found["decimal"]) is not None:
        return Fraction(f"0{text}" if text.startswith(".") else text)
    if (sign := found["vulgar"]) is not None:
        return int(found["whole2"] or 0) + VULGAR[sign]
    over, under = found["over"] or found["over2"], int(found["under"] or found["under2"])
    return None if under == 0 else int(found["whole"] or 0) + Fraction(int(over), under)


def unknown_unit(unit: str, at: int, due: str) -> QuantityFault:
    """The fault of a unit that is not in the table, with the nearest one that is."""
    dimension = USUAL_UNITS.get(due.removeprefix("a "), "cm, in, m, yd, g or oz")
    return QuantityFault(
        f"{quote(unit)} is not a unit that is known here.",
        at=at,
        end=at + len(unit),
        mend=did_you_mean(unit.strip(), UNITS) or f"Write {dimension}.",
    )


def _measured(text: str, due: Dimension) -> Fraction:
    read = _read(text, 0, f"a {due}")
    if not read.unit:
        raise _no_unit(text, 0, due)
    return read.value * _factor(read, due)


def _measured_list(text: str, due: Dimension) -> tuple[Fraction, ...]:
    items, tail, tail_at = split(text)
    reads = [(_read(item, at, f"a {due}"), item, at) for item, at in items]
    common = _common_unit([read for read, _, _ in reads], tail, tail_at, due)
    values = []
    for read, item, at in reads:
        if not read.unit and common is None:
            raise _no_unit(item, at, due)
        factor = _factor(read, due) if read.unit else common
        assert factor is not None
        values.append(read.value * factor)
    return tuple(values)


def _common_unit(reads: list[_Read], tail: str, tail_at: int, due: Dimension) -> Fraction | None:
    """The unit that stands once for all: behind the list, or with its last item alone."""
    if tail:
        return _factor(_Read(Fraction(0), tail, tail_at), due)
    if reads[-1].unit and not any(read.unit for read in reads[:-1]):
        return _factor(reads[-1], due)
    return None


def _factor(read: _Read, due: Dimension) -> Fraction:
    known = UNITS.get(read.unit)
    if known is None:
        raise unknown_unit(read.unit, read.unit_at, f"a {due}")
    dimension, factor, _ = known
    if dimension != due:
        raise QuantityFault(
            f"{quote(read.unit)} is a unit of {dimension}, and a {due} is due here.",
            at=read.unit_at,
            end=read.unit_at + len(read.unit),
            mend=f"Write a {due}, in {USUAL_UNITS[due]}.",
        )
    return factor


def _no_unit(text: str, at: int, due: Dimension, example: str = "") -> QuantityFault:
    bare = text.strip()
    example = example or ("cm" if due == "length" else "g")
    return QuantityFault(
        f"{quote(bare)} has no unit, and a {due} needs one.",
        at=at,
        end=at + len(text),
        mend=f"Write the unit behind the number, as {bare} {example}; in a list once, at its end.",
    )


def _read(text: str, at: int, due: str) -> _Read:
    """A number and the text of its unit; offsets are counted from ``at``."""
    found = _QUANTITY.fullmatch(text)
    if found is None:
        raise _not_a_number(text, at, due)
    value = number_of(found)
    if value is None:
        raise QuantityFault(
            f"{quote(text.strip())} divides by zero.",
            at=at,
            end=at + len(text),
            mend="Write the lower number of the fraction again.",
        )
    unit = (found["unit"] or "").rstrip(" \u00a0\u202f")
    if unit[:1] in (",", ".", "/", "\u2044", "-", "–") or _digits(unit):
        raise _not_a_number(text, at, due)
    return _Read(value, unit, at + (found.start("unit") if unit else len(text)))


def _digits(unit: str) -> bool:
    """Whether there are figures in what should be a unit: two numbers were written."""
    return re.search(r"[0-9]", unit) is not None


def _not_a_number(text: str, at: int, due: str) -> QuantityFault:
    bare = text.strip()
    end = at + max(len(text), 1)
    if comma := _COMMA.search(bare):
        point = bare.replace(comma[0], f"{comma[1]}.{comma[2]}", 1)
        plain = bare.replace(comma[0], f"{comma[1]}{comma[2]}", 1)
        thousands = f", or {quote(plain)}" if len(comma[2]) == _IN_A_GROUP else ""
        return QuantityFault(
            f"{quote(bare)} has a comma inside the number.",
            at=at,
            end=end,
            mend=f"Was {quote(point)}{thousands} meant? Write it with a point, or in full.",
        )
    if bare.startswith(("-", "−", "–")):
        return QuantityFault(
            f"{quote(bare)} is less than nothing, and {due} is due here.",
            at=at,
            end=end,
            mend="Leave the minus sign out.",
        )
    if re.search(rf"[0-9]{{{MOST_DIGITS + 1},}}", bare):
        return QuantityFault(
            f"{quote(bare)} has more digits than any measure of a pattern.",
            at=at,
            end=end,
            mend=f"Write at most {MOST_DIGITS} digits before and after the point.",
        )
    if two := _TWO_NUMBERS.fullmatch(bare):
        return QuantityFault(
            f"Between {quote(two[1])} and {quote(two[2])} there is no comma.",
            at=at,
            end=end,
            mend=f"Write {quote(f'{two[1]}, {two[2]}')} for two sizes, or one number.",
        )
    found = f"{quote(bare)} is not {due}." if bare else f"Nothing is written, and {due} is due."
    return QuantityFault(found, at=at, end=end, mend=_how_to_write(bare, due))


#: two numbers that no fraction makes one: "21 22", where "3 1/2" is one
_TWO_NUMBERS = re.compile(r"([0-9]+(?:\.[0-9]+)?) +([0-9]+(?:\.[0-9]+)?)")
#: names that are reckoned with
_RECKONED = re.compile(r"[A-Za-z_][\w ]*[-+*/(].*|[a-z]+(?:_[a-z]+)+")


def _how_to_write(bare: str, due: str) -> str:
    if ", " in bare:
        return "Write the first size, then the others in brackets: 76 (86, 97, 107) cm."
    examples = {"a length": "76 cm or 3 1/2 in", "a mass": "50 g or 1 3/4 oz"}
    if due in examples:
        return f"Write a number and its unit, as {examples[due]}."
    if due == "a number" and _RECKONED.fullmatch(bare):
        return (
            "Write a number, as 20 or 17.5. A count that is made from other counts is written "
            f"{quote(f'{{is: {bare}}}')}."
        )
    return "Write a number, as 20 or 17.5."


def _placed(at: int, read: Callable[[str], T], item: str) -> T:
    """Read an item of a longer text, so that a fault names its place in the whole."""
    try:
        return read(item)
    except QuantityFault as fault:
        raise QuantityFault(
            fault.found, at=at + fault.at, end=at + fault.end, mend=fault.mend
        ) from None


def _plain_unit(text: str) -> _Read:
    """A number (1 when left out) with a known unit, for one side of a density."""
    bare = text.strip()
    read = _Read(Fraction(1), bare, 0) if bare in UNITS else _read(text, 0, "a length or a mass")
    if read.unit not in UNITS:
        raise unknown_unit(read.unit or bare, read.unit_at, "a length or a mass")
    return read


def _in_pint(value: Fraction, unit: str, wanted: str) -> Fraction:
    """Convert exactly; ``unit`` and ``wanted`` are our own words, never a contributor's."""
    return Fraction(_registry().Quantity(value, unit).to(wanted).magnitude)


@lru_cache(maxsize=1)
def _registry() -> Any:  # noqa: ANN401, Pint's own type is built when it runs
    """Pint's table of units in exact fractions, loaded when a density first needs it."""
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Fraction)


def _above_zero(value: Fraction, text: str) -> Fraction:
    if value <= 0:
        raise QuantityFault(
            f"{quote(text.strip())} holds a zero, which no yarn measures.",
            end=len(text),
            mend="Write the length and the mass of the ball's label.",
        )
    return value
