"""What an origin is asked of: a pattern as the proof left it, and its file read by PyYAML alone."""

from __future__ import annotations

import ast
import operator
import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import NamedTuple

import yaml

from tests.traced.told import INCH, Told, by_size, cm, inches, lengths, same
from workeven.pipeline import ReadyPattern

UNITS = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": INCH}
SIGNS: dict[type, Callable[[Fraction, Fraction], Fraction]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}


class Asked(NamedTuple):
    """A pattern, its file and the studio's as plain texts, and the lines of its file."""

    ready: ReadyPattern
    file: Mapping[str, object]
    studio: Mapping[str, object]
    lines: tuple[str, ...]

    @property
    def sizes(self) -> int:
        """How many there are."""
        return len(self.ready.pattern.sizes)

    @property
    def names(self) -> tuple[str, ...]:
        """Their names."""
        return self.ready.pattern.sizes.names

    @property
    def units(self) -> str:
        """What stands first."""
        return self.ready.pattern.studio.units


def asked(ready: ReadyPattern, text: str, studio: str = "{}") -> Asked:
    """A pattern with the text of its file, and that of the studio's."""
    return Asked(
        ready=ready,
        file=yaml.load(text, yaml.BaseLoader),  # noqa: S506 -- texts alone, of our own files
        studio=yaml.load(studio, yaml.BaseLoader),  # noqa: S506 -- as above
        lines=tuple(text.splitlines()),
    )


def heading(key: str) -> str:
    """A key as a heading: ``hand_width`` is ``Hand width``."""
    words = key.replace("_", " ")
    return words[:1].upper() + words[1:]


def worked_out(words: str, named: Mapping[str, Fraction]) -> Fraction:
    """A formula, worked out by Python's own reader of expressions."""
    units = r"(\d+(?:\.\d+)?)\s*(mm|cm|in|m)\b"
    exact = re.sub(units, lambda one: f"({Fraction(one[1]) * UNITS[one[2]]})", words)
    return _value(ast.parse(exact.strip(), mode="eval").body, named)


def _value(node: ast.expr, named: Mapping[str, Fraction]) -> Fraction:
    match node:
        case ast.Constant(value=value):
            return Fraction(str(value))
        case ast.Name(id=name):
            return named[name]
        case ast.UnaryOp(operand=operand):
            return -_value(operand, named)
        case ast.BinOp(left=left, op=sign, right=right):
            return SIGNS[type(sign)](_value(left, named), _value(right, named))
        case ast.Call(func=ast.Name(id=name), args=args):
            values = [_value(one, named) for one in args]
            if name == "round_to":
                return Fraction(int(values[0] / values[1] + Fraction(1, 2))) * values[1]
            return min(values) if name == "min" else max(values)
        case _:
            raise AssertionError(ast.dump(node))


def formula(of: Asked, words: str, worked: tuple[bool, ...] = ()) -> Told:
    """A formula of counts, or of lengths, in every size that works the row."""
    graded, pattern = of.ready.proven.graded, of.ready.pattern
    here = worked or (True,) * of.sizes
    used = set(re.findall(r"[a-z][a-z_0-9]*", re.sub(r"\d\s*(?:mm|cm|in|m)\b", "", words)))
    used -= {"min", "max", "round_to"}
    if used <= graded.counts.keys() and not re.fullmatch(r"[\d.]+ (?:cm|in|m)", words):
        counts = {name: graded.counts[name].values for name in used}
        each = [
            str(worked_out(words, {name: Fraction(counts[name][at]) for name in used}))
            if here[at]
            else "–"
            for at in range(of.sizes)
        ]
        return by_size(each)
    known = {**dict(pattern.to_fit), **graded.measurements}
    mm = [
        worked_out(words, {name: known[name][at] for name in used}) if here[at] else None
        for at in range(of.sizes)
    ]
    return lengths(mm, of.units)


def filled(of: Asked, text: str) -> Told:
    """A text of the designer's, its formulas worked out, its lengths in both systems."""
    parts = re.split(r"\{([^{}]*)\}", text)
    told = Told((), ((),) * of.sizes)
    for at, part in enumerate(parts):
        one = formula(of, part) if at % 2 else same(in_both(part), of.sizes)
        told = told.then(one)
    return told


def in_both(text: str) -> str:
    """A text with the other system behind each length in cm or inches that has none beside it."""

    def beside(found: re.Match[str]) -> str:
        each = re.findall(r"\d+(?:\.\d+)?", found[1])
        metric = found[2] == "cm"
        exact = [Fraction(one) * UNITS["cm" if metric else "in"] for one in each]
        return f"{found[0]} {' '.join((inches if metric else cm)(mm) for mm in exact)} "

    said = r"(?<!\()\b(\d+(?:\.\d+)?(?: to \d+(?:\.\d+)?)?) (cm|inches)\b(?! \()"
    return re.sub(said, beside, text)


def paragraphs(*texts: object) -> list[str]:
    """The paragraphs of texts, one after the other."""
    blocks = [one for text in texts for one in re.split(r"\n[ \t]*\n|\n\n", str(text or ""))]
    return [block for block in blocks if block.strip()]
