"""The grammar of formulas, and the tree that it gives.

Takes     the text of a formula.
Gives     ``Part``: a closed set of records, walked by ``match``.
Problems  none of its own: ``FormulaFault``.
From      design.md: ``+ - * /``, parentheses, names, ``min max round_to``.

The grammar, outermost first; a rule is one method of ``Reader``:

    sum      = product, then any of: + product, - product
    product  = signed, then any of: * signed, / signed
    signed   = - signed, or an operand
    operand  = ( sum ), a number, a number with a unit, name, min(…), max(…), round_to(value, step)
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from workeven.arithmetic.quantities import BLANK, NUMBER_IN_FORMULA, number_of, unknown_unit
from workeven.arithmetic.units import UNITS
from workeven.problems.words import quote
from workeven.records import record_by_position

DEEPEST = 16
FUNCTIONS = ("min", "max", "round_to")
#: Signs that mean the same in print.
SIGNS = {"×": "*", "·": "*", "÷": "/", "−": "-", "–": "-"}

_BLANK = re.compile(f"{BLANK}*")
#: the end, and signs that stand for themselves
_PLAIN_SIGNS = ("", "+", "-", "*", "/", "(", ")", ",")
NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
_UNIT = re.compile(rf'{BLANK}*("|″|[A-Za-z]+(?![A-Za-z0-9_]))')
_PLAIN = re.compile(r"[0-9]{1,9}(?![0-9.])")
#: a whole number with nothing behind it but the end, a sign or a bracket
_WHOLE = re.compile(r"[0-9]{1,9}(?=\s*(?:\Z|[-+*)]))")
_FRACTION = re.compile(r"[0-9]+[/\u2044]")

Operator = Literal["+", "-", "*", "/"]


class FormulaFault(ValueError):
    """A formula cannot be read or worked out.

    ``at`` and ``end`` are the stretch of its text at fault (from 0), ``mend`` is the cure.
    """

    def __init__(
        self, message: str, at: int = 0, *, end: int | None = None, mend: str = ""
    ) -> None:
        super().__init__(message)
        self.found = message
        self.at = at
        self.end = at + 1 if end is None else end
        self.mend = mend

    def __reduce__(self) -> tuple[Callable[..., FormulaFault], tuple[object, ...]]:
        """Keep the places when the fault crosses a process."""
        return _fault, (self.found, self.at, self.end, self.mend)


# --- the tree ------------------------------------------------------------------------------


@record_by_position
class Figure:
    """A number, or a length (mm) where ``is_length``."""

    value: Fraction
    is_length: bool
    at: int
    end: int


@record_by_position
class Named:
    """A count or a measurement, by its name."""

    name: str
    at: int
    end: int


@record_by_position
class Negative:
    """The part with a minus sign before it."""

    part: Part
    at: int
    end: int


@record_by_position
class Operation:
    """Two parts with a sign between them, which stands at ``sign_at``."""

    sign: Operator
    left: Part
    right: Part
    sign_at: int
    at: int
    end: int


@record_by_position
class Function:
    """``min(a, b)``, ``max(a, b)``, ``round_to(value, step)``."""

    name: str
    parts: tuple[Part, ...]
    at: int
    end: int


Part = Figure | Named | Negative | Operation | Function


# --- reading -------------------------------------------------------------------------------


class Reader:
    """Walks the text once; ``at`` is the next character."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.depth = 0

    def formula(self) -> Part:
        """Takes ``2 * fronts + back``; refuses ``2 fronts``."""
        if not self.text.strip():
            raise FormulaFault(
                "The formula is empty.", mend="Write a name or a number, as back_sts + 1."
            )
        root = self.sum()
        if self.peek():
            raise self.left_over()
        return root

    def sum(self) -> Part:
        """Takes ``back_sts + 1``; refuses ``back_sts +``."""
        left = self.product()
        while self.peek() in ("+", "-"):
            left = self.operation(left, self.product)
        return left

    def product(self) -> Part:
        """Takes ``2 * fronts / 3``; refuses ``2 ** 3``."""
        left = self.signed()
        while self.peek() in ("*", "/"):
            left = self.operation(left, self.signed)
        return left

    def operation(self, left: Part, right_side: Callable[[], Part]) -> Operation:
        """Takes the sign and the part after it; refuses a sign with nothing after it."""
        sign, sign_at = self.peek(), self.at
        self.at += 1
        if sign == "*" and self.peek() == "*":
            raise FormulaFault(
                "Powers are not known in formulas.", sign_at, end=self.at + 1, mend="Multiply by *."
            )
        right = right_side()
        match sign:
            case "+" | "-" | "*" | "/":
                return Operation(sign, left, right, sign_at, left.at, right.end)
            case _:
                raise AssertionError(sign)

    def signed(self) -> Part:
        """Takes ``-2 cm``; refuses ``- * 2``."""
        if self.peek() != "-":
            return self.operand()
        at = self.at
        self.at += 1
        with _Depth(self):
            part = self.signed()
        return Negative(part, at, part.end)

    def operand(self) -> Part:
        """Takes ``(a + b)``, ``3 1/2 in``, ``back_sts``, ``min(a, b)``; refuses ``)``."""
        sign = self.peek()
        if sign == "(":
            return self.bracket()
        if name := NAME.match(self.text, self.at):
            return self.name(name)
        if figure := self.figure():
            return figure
        raise self.nothing_to_take(sign)

    def bracket(self) -> Part:
        """Takes ``(a + b)``; refuses ``(a + b``."""
        opened = self.at
        self.at += 1
        with _Depth(self):
            part = self.sum()
        self.close(opened)
        return part

    def name(self, found: re.Match[str]) -> Part:
        """Takes ``back_sts``, ``max(a, b)``; refuses ``power(a, b)``."""
        at, self.at = self.at, found.end()
        name = found[0]
        if self.peek() != "(":
            if name in FUNCTIONS:
                raise FormulaFault(
                    f"{quote(name)} needs brackets.", at, end=found.end(), mend=f"{_example(name)}."
                )
            return Named(name, at, found.end())
        if name not in FUNCTIONS:
            raise FormulaFault(
                f"{quote(name)} is followed by a bracket.",
                at,
                end=found.end(),
                mend="Write * to multiply; only min, max and round_to take brackets.",
            )
        return self.function(name, at)

    def function(self, name: str, at: int) -> Function:
        """Takes ``round_to(back_sts, 2)``; refuses ``round_to(back_sts)``."""
        opened = self.at
        parts: list[Part] = []
        with _Depth(self):
            while not parts or self.peek() == ",":
                self.at += 1
                parts.append(self.sum())
        self.close(opened)
        if len(parts) < 2 or (name == "round_to" and len(parts) > 2):  # noqa: PLR2004, two are due
            raise FormulaFault(
                f"{quote(name)} was given {len(parts)} part{'s' if len(parts) > 1 else ''}.",
                at,
                end=self.at,
                mend=f"{_example(name)}.",
            )
        return Function(name, tuple(parts), at, self.at)

    def close(self, opened: int) -> None:
        """Takes the closing bracket; refuses anything else."""
        if self.peek() != ")":
            if self.peek():
                raise self.left_over()
            raise FormulaFault("A bracket is opened and never closed.", opened, mend="Close it.")
        self.at += 1

    def figure(self) -> Figure | None:
        """Takes ``12``, ``1.5 cm``, ``3½ in``, ``1/2``; refuses ``1/0``."""
        at = self.at
        if whole := _WHOLE.match(self.text, at):  # most figures are
            self.at = whole.end()
            return Figure(Fraction(int(whole[0])), is_length=False, at=at, end=self.at)
        found = NUMBER_IN_FORMULA.match(self.text, at)
        if found is None:
            return None
        if _FRACTION.match(found[0]) and self.text[:at].rstrip().endswith(("/", "÷")):
            found = _PLAIN.match(self.text, self.at) or found  # a / 1/2 is (a / 1) / 2
        end = found.end()
        value = number_of(found) if found.re is NUMBER_IN_FORMULA else Fraction(found[0])
        if value is None:
            raise FormulaFault(f"{quote(found[0])} divides by zero.", at, end=end)
        if self.text[end : end + 1] in (",", ".") and self.text[end + 1 : end + 2].isdigit():
            raise self.comma(at, end)
        factor, self.at = self.unit(end)
        return Figure(value * (factor or 1), factor is not None, at, self.at)

    def unit(self, at: int) -> tuple[Fraction | None, int]:
        """Takes `` cm`` after a number; refuses a unit of mass and a name."""
        found = _UNIT.match(self.text, at)
        if found is None:
            return None, at
        known = UNITS.get(found[1])
        if known is not None and known[0] == "length":
            end = found.end()
            dotted = found[1] == "in" and self.text[end : end + 1] == "."
            return known[1], end + dotted
        start = found.start(1)
        if known is not None:
            raise FormulaFault(
                f"{quote(found[1])} is a unit of mass, and formulas know lengths and counts.",
                start,
                end=found.end(),
            )
        fault = unknown_unit(found[1], start, "a length")
        raise FormulaFault(
            fault.found,
            start,
            end=found.end(),
            mend=f"{fault.mend} To multiply by a name, write * before it.",
        )

    def peek(self) -> str:
        """The next sign, blanks passed; nothing at the end."""
        sign = self.text[self.at : self.at + 1]
        if sign in _PLAIN_SIGNS:
            return sign
        found = _BLANK.match(self.text, self.at)
        self.at = found.end() if found else self.at
        sign = self.text[self.at : self.at + 1]
        return SIGNS.get(sign, sign)

    def comma(self, at: int, end: int) -> FormulaFault:
        """The fault of ``1,5 cm``."""
        stop = end + 1
        while self.text[stop : stop + 1].isdigit():
            stop += 1
        written = self.text[at:stop]
        return FormulaFault(
            f"{quote(written)} has a comma inside the number.",
            at,
            end=stop,
            mend=f"Was {quote(written.replace(',', '.'))} meant? Numbers take a point; "
            "parts of min, max and round_to a comma and a blank.",
        )

    def left_over(self) -> FormulaFault:
        """The fault of what stands where a sign or the end is due."""
        rest = self.text[self.at :].strip()
        if rest.startswith(")"):
            return FormulaFault("A bracket is closed that was never opened.", self.at)
        if rest.startswith(","):
            return FormulaFault(
                "A comma stands outside of min, max and round_to.",
                self.at,
                mend="Numbers take a point: 1.5 cm.",
            )
        mend = "Put one of + - * / between the two."
        return FormulaFault(
            f"{quote(rest)} stands where a sign is due.", self.at, end=len(self.text), mend=mend
        )

    def nothing_to_take(self, sign: str) -> FormulaFault:
        """The fault of a sign, or the end, where a name or number is due."""
        what = quote(self.text[self.at]) + " stands" if sign else "The formula ends"
        return FormulaFault(
            f"{what} where a name, a number or a length is due.",
            min(self.at, len(self.text)),
            mend="Formulas are made of names, numbers, lengths, + - * / and brackets.",
        )


class _Depth:
    """Counts how deep brackets stand in each other, and stops at the limit."""

    def __init__(self, reader: Reader) -> None:
        self.reader = reader

    def __enter__(self) -> None:
        self.reader.depth += 1
        if self.reader.depth > DEEPEST:
            raise FormulaFault(
                f"Brackets stand more than {DEEPEST} deep.",
                self.reader.at,
                mend="Give a part of the formula a name of its own.",
            )

    def __exit__(self, *_: object) -> None:
        self.reader.depth -= 1


def _example(name: str) -> str:
    return "Write round_to(value, step)" if name == "round_to" else f"Write {name}(a, b)"


def _fault(found: str, at: int, end: int, mend: str) -> FormulaFault:
    return FormulaFault(found, at, end=end, mend=mend)
