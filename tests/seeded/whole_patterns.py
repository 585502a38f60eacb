"""Whole pattern files: counts worked out anew, and every piece judged by the walker.

Takes     the text of a pattern file.
Gives     ``File``: its pieces as plain rows; what is wrong, by line of the file and size.
Problems  none: what this module does not know raises ``NotRead``, and the change is not judged.
From      the guide, "Sizes and lengths"; notation.md, Whole pieces.

It shares nothing with the engine but PyYAML. Counts: the length over the width of a stitch, to the
nearest multiple, halfway up; a larger size must not measure less where more is wanted; a listed
count may be off by half a stitch or 10 mm. Rows: until a length, the nearest number.

    16 sts over 10 cm, 90 cm, multiple of 16: 144 are 9 times 16; at 17 sts 153 become 160
"""

from __future__ import annotations

import ast
import operator
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import Any

import yaml

from tests.oracle.structure import Count
from tests.seeded.judging import Judgement, judge
from tests.seeded.reading import Line, read
from tests.seeded.words import NotRead, Rows

#: reads every value as text; the one in C where there is one
LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)

#: millimetres of the units that the files use
UNITS = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(127, 5)}
LEAST_TOLERANCE = Fraction(10)

Values = tuple[Fraction, ...]


@dataclass(frozen=True, slots=True)
class Wrong:
    """What is wrong: a line of the file and the sizes, ``None`` for all."""

    line: int
    sizes: tuple[str, ...] | None
    why: str


class _WrongList(Exception):
    """A list by size of another length than the list of sizes."""

    def __init__(self, line: int) -> None:
        super().__init__(line)
        self.line = line


@dataclass(slots=True)
class Row:
    """A line of rows in its file, with the height of one row (mm)."""

    line: int
    text: str
    height: Fraction | None
    section: int


@dataclass(slots=True)
class Piece:
    """The rows of a piece, or of a swatch, which has no sizes, in order."""

    worked: str
    sizes: tuple[str, ...] = ()
    rows: list[Row] = field(default_factory=list)


class File:
    """A pattern file: its pieces, and its counts in every size."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.values: Any = yaml.load(text, LOADER)  # noqa: S506, strings only
        self.node: Any = yaml.compose(text, LOADER)
        names = _all_of(str(self.values["sizes"]["names"]))
        self.sizes = tuple(name.strip() for name in names)
        self.wrong: list[Wrong] = []
        self.counts: dict[str, Values] = {}
        self.lengths: dict[str, Values] = {}
        try:
            self.all_lengths()
            for name in self.values.get("counts", {}):
                self.count(name)
        except _WrongList as wrong:
            self.wrong = [Wrong(wrong.line, None, "a list of another length than the sizes")]

    # --- places ----------------------------------------------------------------------------

    def at(self, *keys: str | int) -> Any:  # noqa: ANN401, a node of PyYAML
        """The node under some keys."""
        node = self.node
        for key in keys:
            if isinstance(key, int):
                node = node.value[key]
            else:
                node = next(value for name, value in node.value if name.value == key)
        return node

    def line(self, *keys: str | int) -> int:
        """The line on which the last of some keys stands."""
        node = self.at(*keys[:-1])
        key = next(key for key, _ in node.value if key.value == keys[-1])
        return int(key.start_mark.line) + 1

    # --- lengths and counts ------------------------------------------------------------------

    def all_lengths(self) -> None:
        """Body measurements and measurements, in mm, in the order of the file."""
        for keys in (("sizes", "to_fit"), ("measurements",)):
            entries = self.values
            for key in keys:
                entries = entries.get(key, {})
            for name, text in entries.items():
                line = self.line(*keys, name)
                self.lengths[name.replace(" ", "_")] = self.length(text, self.lengths, line)
            if keys[0] == "sizes":
                self.all_ease()

    def all_ease(self) -> None:
        """``bust_ease``: how much more than the body is wanted."""
        for name, text in self.values["sizes"].get("ease", {}).items():
            line = self.line("sizes", "ease", name)
            self.lengths[f"{name.replace(' ', '_')}_ease"] = self.length(text, self.lengths, line)

    def length(self, text: str, known: Mapping[str, Values], line: int = 0) -> Values:
        """``18 (20, 22) cm``, or a formula."""
        unit = re.search(r" ([cm]m|in)$", text)
        if "(" in text and unit and re.fullmatch(r"[\d.,() ]+", text[: unit.start()]):
            listed = tuple(Fraction(one) for one in re.findall(r"[\d.]+", text))
            if len(listed) != len(self.sizes):
                raise _WrongList(line)
            return tuple(one * UNITS[unit[1]] for one in listed)
        plain = re.sub(r"([\d.]+) (mm|cm|in)\b", lambda one: f"({one[1]} * {UNITS[one[2]]})", text)
        return self.formula(plain, known)

    def formula(self, text: str, known: Mapping[str, Values]) -> Values:
        """A formula in every size."""
        tree = ast.parse(text.strip(), mode="eval").body
        return tuple(_worked_out(tree, known, size) for size in range(len(self.sizes)))

    def count(self, name: str) -> Values:
        """A count in every size; what is wrong with it is noted."""
        if name in self.counts:
            return self.counts[name]
        entry = self.values["counts"].get(name)
        if entry is None:
            raise NotRead(name)
        if isinstance(entry, str):
            values = self.listed(entry, self.line("counts", name))
        elif "is" in entry:
            for other in re.findall(r"[a-z_]+", entry["is"]):
                self.count(other)
            values = self.formula(entry["is"], self.counts)
            self.whole(name, values)
        elif "listed" in entry:
            values = self.listed(entry["listed"], self.line("counts", name, "listed"))
            self.held_against(name, entry, values, None)
        else:
            values = self.chosen(entry)
            self.held_against(name, entry, values, _step(entry))
        self.counts[name] = values
        return values

    def listed(self, text: str, line: int) -> Values:
        """``7 (7, 8)``."""
        numbers = tuple(Fraction(one) for one in re.findall(r"\d+", text))
        if len(numbers) == 1:
            return numbers * len(self.sizes)
        if len(numbers) != len(self.sizes):
            raise _WrongList(line)
        return numbers

    def chosen(self, entry: Mapping[str, str]) -> Values:
        """The nearest count that the entry allows."""
        step, plus = _step(entry), int(entry.get("plus", 0))
        found = []
        for length in self.over(entry):
            exact = length / self.unit(entry)
            found.append(((exact - plus) / step + Fraction(1, 2)).__floor__() * step + plus)
        return tuple(Fraction(one) for one in found)

    def over(self, entry: Mapping[str, str]) -> Values:
        """The length that is counted over."""
        return self.lengths[entry.get("across") or entry["along"]]

    def unit(self, entry: Mapping[str, str]) -> Fraction:
        """What one stitch or row measures."""
        gauge = self.values["gauge"][entry["gauge"]]
        return _length(gauge["over"]) / Fraction(gauge["sts" if "across" in entry else "rows"])

    def held_against(
        self, name: str, entry: Mapping[str, str], values: Values, step: int | None
    ) -> None:
        """What a count measures, against what is wanted."""
        if "across" not in entry and "along" not in entry:
            return
        unit, wanted = self.unit(entry), self.over(entry)
        limit = max(unit * (step or 1) / 2, LEAST_TOLERANCE)
        off = [
            size
            for size, (value, want) in enumerate(zip(values, wanted, strict=True))
            if abs(value * unit - want) > limit
        ]
        falls = [
            size
            for size in range(1, len(values))
            if wanted[size] > wanted[size - 1] and values[size] < values[size - 1]
        ]
        for sizes in (off, falls):
            if sizes:
                self.wrong.append(Wrong(self.line("counts", name), self.named(sizes), name))

    def whole(self, name: str, values: Values) -> None:
        """A count made from others is whole and not below zero."""
        bad = [size for size, one in enumerate(values) if one.denominator != 1 or one < 0]
        if bad:
            self.wrong.append(Wrong(self.line("counts", name), self.named(bad), name))

    def named(self, sizes: list[int]) -> tuple[str, ...]:
        """The names of some sizes."""
        return tuple(self.sizes[size] for size in sizes)

    # --- rows --------------------------------------------------------------------------------

    def pieces(self) -> Iterator[Piece]:
        """The swatches and the pieces."""
        for at, swatch in enumerate(self.values.get("swatches", ())):
            piece = Piece(swatch.get("worked", "flat rows"))
            piece.rows += self.block(None, 0, "swatches", at, "rows")
            yield piece
        for name, values in self.values["pieces"].items():
            piece = Piece(values["worked"], self.sizes)
            for at, section in enumerate(values["sections"]):
                if "sizes" in section or "worked" in section:
                    raise NotRead("a section of some sizes")
                gauge = section.get("gauge") or values.get("gauge")
                piece.rows += self.block(gauge, at, "pieces", name, "sections", at, "rows")
            yield piece

    def block(self, gauge: str | None, section: int, *keys: str | int) -> Iterator[Row]:
        """The lines of one text block."""
        height = None
        if gauge is not None:
            one = self.values["gauge"][gauge]
            height = _length(one["over"]) / Fraction(one["rows"])
        node = self.at(*keys)
        first = node.start_mark.line + 2
        for at, text in enumerate(node.value.split("\n")):
            if text.strip():
                yield Row(first + at, text.strip(), height, section)

    def rows(self, piece: Piece) -> tuple[Rows, dict[int, int]]:
        """A piece as plain rows, and the line of the file for each of its lines."""
        texts, places = [], {}
        for number, row in enumerate(piece.rows, start=1):
            texts.append(self.filled(row))
            places[number] = row.line
        stitches = tuple(f"{k} = {v}" for k, v in self.values.get("stitches", {}).items())
        rows = Rows("", "\n".join(texts), piece.worked, "us", None, piece.sizes, stitches)
        return rows, places

    def filled(self, row: Row) -> str:
        """A row with the numbers of its formulas put in; lengths stay."""

        def number(found: re.Match[str]) -> str:
            if found[1] in self.lengths or re.search(
                r"(?:measures|for) $", row.text[: found.start()]
            ):
                return found[0]
            values = self.formula(found[1], self.counts)
            if any(one.denominator != 1 or one < 0 for one in values):
                raise NotRead("a formula that is not whole")
            figures = [str(one) for one in values]
            if len(set(figures)) == 1:
                return figures[0]
            if re.search(r"[(,] ?$", row.text[: found.start()]) and _in_stated(row.text, found):
                return ", ".join(figures)
            return f"{figures[0]} ({', '.join(figures[1:])})"

        return re.sub(r"\{([^}]*)\}", number, row.text)

    def judged(self) -> list[Wrong]:
        """What is wrong in the file; where a count is, the rows are not looked at."""
        if self.wrong:
            return self.wrong
        for piece in self.pieces():
            rows, places = self.rows(piece)
            times = self.times(piece, read(rows)) if piece.sizes else {}
            judged = _judge(rows, tuple(times.items()))
            for line, sizes in judged.lines().items():
                why = next(fault.why for fault in judged.faults if fault and fault.line == line)
                named = self.named(list(sizes)) if piece.sizes else None
                self.wrong.append(Wrong(places[line], named, why))
        return self.wrong

    def times(self, piece: Piece, lines: list[Line]) -> dict[int, Count]:
        """How many times each line is worked that goes on up to a length."""
        found: dict[int, Count] = {}
        heights = [[Fraction(0)] * len(self.sizes) for _ in range(2)]  # of the piece, the section
        section = 0
        for line in lines:
            row = piece.rows[line.number - 1]
            if row.section != section:
                section, heights[1] = row.section, [Fraction(0)] * len(self.sizes)
            if not line.numbered:
                continue
            if line.until is not None:
                if len(line.again) > 1 and row.height is None:
                    raise NotRead("rows of several gauges")
                found[line.number] = self.times_to(line, row, heights)
            for size in range(len(self.sizes)):
                if line.works is not None and not line.works[size]:
                    continue
                many = found.get(line.number, line.times)
                times = many if isinstance(many, int) else many[size]
                for height in heights:
                    height[size] += (row.height or 0) * times * max(1, len(line.again))
        return found

    def times_to(self, line: Line, row: Row, heights: list[list[Fraction]]) -> Count:
        """The number of times that comes nearest to a length."""
        assert line.until is not None
        text, whole_piece = line.until
        if row.height is None:
            raise NotRead("no gauge of rows")
        inner = text.strip("{}")
        lengths = self.length(inner, self.lengths) if text[0] == "{" else self.length(text, {})
        times = []
        each = row.height * max(1, len(line.again))
        for size, length in enumerate(lengths):
            left = length - heights[0 if whole_piece else 1][size]
            times.append((left / each + Fraction(1, 2)).__floor__())
            if times[-1] < 1:
                raise NotRead("longer already")
        return times[0] if len(set(times)) == 1 else tuple(times)


def _length(text: str) -> Fraction:
    """``10 cm`` in mm."""
    number, unit = text.split()
    return Fraction(number) * UNITS[unit]


def _all_of(text: str) -> list[str]:
    return re.findall(r"[^\s(),][^(),]*", text)


def _step(entry: Mapping[str, str]) -> int:
    step = int(entry.get("multiple", 1))
    return step * 2 if entry.get("parity") == "even" and step % 2 else step


def _in_stated(text: str, found: re.Match[str]) -> bool:
    """Whether a formula stands in the count at the end of a row, and not in ``(counts as …)``."""
    opened = text.rfind("(", 0, found.start())
    return opened >= 0 and text.find(")", found.end()) == len(text) - 1 and text[opened + 1] == "{"


_OPERATORS: Mapping[type, Callable[[Fraction, Fraction], Fraction]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}


def _worked_out(tree: ast.expr, known: Mapping[str, Values], size: int) -> Fraction:
    match tree:
        case ast.Name(id=name) if name in known:
            return known[name][size]
        case ast.Constant(value=value):
            return Fraction(str(value))
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _OPERATORS:
            work = _OPERATORS[type(op)]
            return work(_worked_out(left, known, size), _worked_out(right, known, size))
        case _:
            raise NotRead(ast.dump(tree))


@lru_cache(maxsize=256)
def _judge(rows: Rows, times: tuple[tuple[int, Count], ...]) -> Judgement:
    return judge(rows, dict(times))


@lru_cache(maxsize=32)
def file_of(text: str) -> File:
    """A pattern file; the good ones are asked for again and again."""
    return File(text)


__all__ = ["File", "Wrong", "file_of"]
