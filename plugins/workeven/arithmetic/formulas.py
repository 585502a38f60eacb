"""Formulas over counts and measurements, read by our own small grammar.

Takes     text such as ``hand - 1.5 cm`` or ``2 * fronts + back``.
Gives     ``Formula``: what it names, and its value as a count or as a length.
Problems  none of its own: ``FormulaFault`` is turned into a problem by whoever knows the place.
From      design.md: ``+ - * /``, parentheses, names, ``min max round_to``; never run as Python.

Every part is a plain number or a length. Numbers and lengths are not added to each other; a length
times a number is a length, a length over a length is a number, and there are no areas. So
``hand - 1.5 cm`` is a length where ``hand`` is one, ``hand - 1.5`` is a fault. Bounds on length,
depth and size of the figures keep the cost of a stranger's formula small.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import assert_never

from workeven.arithmetic.formula_reader import (
    FUNCTIONS,
    NAME,
    Figure,
    FormulaFault,
    Function,
    Named,
    Negative,
    Operation,
    Part,
    Reader,
)
from workeven.arithmetic.printing import print_cm, print_number
from workeven.problems.words import did_you_mean, joined, quote
from workeven.records import record_by_position

__all__ = ["Formula", "FormulaFault", "of_length", "read"]

LONGEST = 500
#: No count and no length in mm is larger; no fraction has a longer denominator.
LARGEST, FINEST = 10**9, 10**120


@record_by_position
class Formula:
    """A formula as written, and as it was read. ``names``: the counts or measurements it uses.

    >>> formula = read("2 * fronts + back")
    >>> sorted(formula.names)
    ['back', 'fronts']
    >>> formula.count({"fronts": 40, "back": 81})
    Fraction(161, 1)
    >>> read("hand - 1.5 cm").length({"hand": Fraction(200)})
    Fraction(185, 1)
    """

    text: str
    root: Part
    names: frozenset[str]

    def count(self, values: Mapping[str, int]) -> Fraction:
        """The value over counts, a number; raises ``FormulaFault``.

        It may have a fraction: whether it must be whole, and in which size, is the asker's matter.
        """
        whole = self.whole(values)
        if whole is not None:
            return Fraction(whole)
        worth = _worth(self.root, {name: _Worth(Fraction(n)) for name, n in values.items()})
        if worth.is_length:
            raise self._whole_fault("is a length, and a number of stitches or rows is due.")
        return self._bounded(worth.value)

    def whole(self, values: Mapping[str, int]) -> int | None:
        """The same where every part of it is a whole number in bounds, else None.

        >>> read("(fronts + back) / 2").whole({"fronts": 40, "back": 82})
        61
        """
        value = _whole(self.root, values)
        return value if value is not None and abs(value) <= LARGEST else None

    def length(self, values: Mapping[str, Fraction]) -> Fraction:
        """The value over measurements, a length in mm; raises ``FormulaFault``."""
        if isinstance(self.root, Named) and self.root.name in values:
            return self._bounded(values[self.root.name])
        lengths = {name: values[name] for name in self.names if name in values}
        if len(lengths) < len(self.names):
            lengths = dict(values)  # a name is not known: the fault lists those that are
        worth = _worth(
            self.root, {name: _Worth(mm, is_length=True) for name, mm in lengths.items()}
        )
        if not worth.is_length:
            raise self._whole_fault(
                "is a number, and a length is due.", mend="Give the number a unit, as 1.5 cm."
            )
        return self._bounded(worth.value)

    @property
    def is_written_length(self) -> bool:
        """Whether it is a length by itself, of no measurement.

        >>> read("25 cm").is_written_length, read("hand - 1.5 cm").is_written_length
        (True, False)
        """
        try:
            return not self.names and _worth(self.root, {}).is_length
        except FormulaFault:
            return False

    def place(self, name: str) -> tuple[int, int]:
        """Where a name first stands in the text (start and end, from 0).

        >>> read("2 * fronts + back").place("back")
        (13, 17)
        """
        for part in _parts(self.root):
            if isinstance(part, Named) and part.name == name:
                return part.at, part.end
        return 0, len(self.text)

    def put_in(self, values: Mapping[str, str]) -> str:
        """The text with values in place of names.

        >>> read("(body - neck) / 2").put_in({"body": "96", "neck": "40"})
        '(96 - 40) / 2'
        """
        named = [part for part in _parts(self.root) if isinstance(part, Named)]
        text = self.text
        for part in sorted(named, key=lambda one: one.at, reverse=True):
            text = text[: part.at] + values.get(part.name, part.name) + text[part.end :]
        return text

    def _bounded(self, value: Fraction) -> Fraction:
        if value.denominator > FINEST or abs(value.numerator) > LARGEST * value.denominator:
            raise self._whole_fault("gives a figure far beyond any piece of crochet.")
        return value

    def _whole_fault(self, what: str, mend: str = "") -> FormulaFault:
        return FormulaFault(f"{quote(self.text)} {what}", 0, end=len(self.text), mend=mend)


def read(text: str) -> Formula:
    """Read a formula; raises ``FormulaFault`` with the column.

    >>> read("round_to(back_sts / 2, 2)").count({"back_sts": 81})
    Fraction(40, 1)
    """
    if len(text) > LONGEST:
        raise FormulaFault(
            f"The formula has {len(text)} characters, more than {LONGEST}.",
            LONGEST,
            end=len(text),
            mend="Give a part of it a name of its own.",
        )
    if NAME.fullmatch(text) and text not in FUNCTIONS:  # most formulas are a name
        return Formula(text, Named(text, 0, len(text)), frozenset((text,)))
    root = Reader(text).formula()
    names = frozenset(part.name for part in _parts(root) if isinstance(part, Named))
    return Formula(text, root, names)


def of_length(text: str, mm: Fraction) -> Formula:
    """The formula that a single length is, whose text was read already.

    >>> of_length("81 cm", Fraction(810)) == read("81 cm")
    True
    """
    return Formula(text, Figure(mm, is_length=True, at=0, end=len(text)), frozenset())


# --- working out ---------------------------------------------------------------------------


@record_by_position
class _Worth:
    """What a part comes to: a number, or millimetres."""

    value: Fraction
    is_length: bool = False


def _parts(part: Part) -> tuple[Part, ...]:
    """The part and all within it, from left to right."""
    match part:
        case Figure() | Named():
            return (part,)
        case Negative():
            return (part, *_parts(part.part))
        case Operation():
            return (part, *_parts(part.left), *_parts(part.right))
        case Function():
            return (part, *(inner for one in part.parts for inner in _parts(one)))
        case _:
            assert_never(part)


def _whole(part: Part, values: Mapping[str, int]) -> int | None:
    """The worth of a part in whole numbers alone, as most formulas have it; else None.

    None means that fractions, lengths or faults are in it: `_worth` tells.
    """
    if isinstance(part, Named):
        return values.get(part.name)
    if isinstance(part, Figure):
        plain = not part.is_length and part.value.denominator == 1
        return part.value.numerator if plain else None
    if not isinstance(part, Operation):
        return None
    left, right = _whole(part.left, values), _whole(part.right, values)
    if left is None or right is None:
        return None
    match part.sign:
        case "+":
            return left + right
        case "-":
            return left - right
        case "*":
            return left * right
        case "/":
            return left // right if right and left % right == 0 else None
        case _:
            assert_never(part.sign)


def _worth(part: Part, values: Mapping[str, _Worth]) -> _Worth:
    match part:
        case Figure():
            return _Worth(part.value, part.is_length)
        case Named():
            if part.name not in values:
                raise _unknown(part, values)
            return values[part.name]
        case Negative():
            worth = _worth(part.part, values)
            return _Worth(-worth.value, worth.is_length)
        case Operation():
            return _operate(part, _worth(part.left, values), _worth(part.right, values))
        case Function():
            return _apply(part, [_worth(one, values) for one in part.parts])
        case _:
            assert_never(part)


def _operate(part: Operation, left: _Worth, right: _Worth) -> _Worth:
    if part.sign in ("+", "-"):
        if left.is_length != right.is_length:
            raise _mixed(part, part.left, part.right, left)
        value = left.value + (right.value if part.sign == "+" else -right.value)
        return _Worth(value, left.is_length)
    if part.sign == "*":
        if left.is_length and right.is_length:
            raise FormulaFault(
                "A length is multiplied by a length, which gives an area.",
                part.sign_at,
                mend="Multiply a length by a plain number.",
            )
        return _Worth(left.value * right.value, left.is_length or right.is_length)
    if right.value == 0:
        raise FormulaFault("The formula divides by zero.", part.sign_at)
    if right.is_length and not left.is_length:
        raise FormulaFault(
            "A number is divided by a length, which measures nothing here.",
            part.sign_at,
            mend="Divide a length by a length for a number, or by a number for a length.",
        )
    return _Worth(left.value / right.value, left.is_length and not right.is_length)


def _apply(part: Function, worths: list[_Worth]) -> _Worth:
    for one, worth in zip(part.parts[1:], worths[1:], strict=True):
        if worth.is_length != worths[0].is_length:
            raise _mixed(part, part.parts[0], one, worths[0])
    values = [worth.value for worth in worths]
    if part.name == "round_to":
        value, step = values
        if step <= 0:
            raise FormulaFault("The step of round_to is not above zero.", part.parts[1].at)
        return _Worth((value / step + Fraction(1, 2)).__floor__() * step, worths[0].is_length)
    return _Worth(min(values) if part.name == "min" else max(values), worths[0].is_length)


def _mixed(
    whole: Operation | Function, left: Part, right: Part, left_worth: _Worth
) -> FormulaFault:
    """The fault of a length beside a plain number."""
    length, number = (left, right) if left_worth.is_length else (right, left)
    how = "joined to" if isinstance(whole, Operation) else "compared with"
    if isinstance(number, Figure):
        cure = "Give the number a unit, as 1.5 cm."
    else:
        cure = "Use lengths alone, or numbers alone, on both sides."
    return FormulaFault(
        f"A length is {how} a plain number: {_said(length)} is a length, {_said(number)} a number.",
        whole.sign_at if isinstance(whole, Operation) else right.at,
        mend=cure,
    )


def _said(part: Part) -> str:
    """How a message calls a part of the formula."""
    match part:
        case Named():
            return quote(part.name)
        case Figure():
            return quote(print_cm(part.value) if part.is_length else print_number(part.value))
        case _:
            return "one side"


def _unknown(part: Named, values: Mapping[str, _Worth]) -> FormulaFault:
    names = sorted(values)
    known = f"Known: {joined(map(quote, names))}." if names else ""
    return FormulaFault(
        f"{quote(part.name)} is not a name that is known here.",
        part.at,
        end=part.end,
        mend=did_you_mean(part.name, names) or known,
    )
