"""Mistakes in whole pattern files: in their counts and lengths, and in the rows of their pieces.

Takes     the text of a pattern file that is good.
Gives     ``FILE_MISTAKES``: the sentence of each class and the function that makes it; ``in_rows``:
          every place in the file at which a mistake of rows can be made.
Problems  none.
From      common practice: a number changed in one place and not in the other.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import pairwise

from tests.seeded.making import Make
from tests.seeded.spans import Slip
from tests.seeded.whole_patterns import file_of
from tests.seeded.words import Rows

MakeInFile = Callable[[str], Iterator[Slip]]

#: a list by size, at the end of its line
LIST = r"(\d[\d.]*(?: \([\d., ]+\))+)"


def in_rows(text: str, make: Make) -> Iterator[Slip]:
    """The places in the rows of a file at which a mistake of rows can be made."""
    file = file_of(text)
    lines = text.split("\n")
    for piece in file.pieces():
        sections = {row.section for row in piece.rows}
        for section in sorted(sections):
            rows = [row for row in piece.rows if row.section == section]
            first, last = rows[0].line, rows[-1].line
            block = Rows("", "\n".join(row.text for row in rows), piece.worked, sizes=piece.sizes)
            indent = re.match(r" *", lines[first - 1])[0]  # type: ignore[index]
            for slip in make(block):
                new = [indent + line for line in slip.text.split("\n")]
                whole = "\n".join([*lines[: first - 1], *new, *lines[last:]])
                yield Slip(first + slip.line - 1, len(indent) + slip.column, whole)


def each(text: str, pattern: str, new: Callable[[re.Match[str]], list[str]]) -> Iterator[Slip]:
    """Each place of a pattern with the first group put otherwise."""
    for found in re.finditer(pattern, text, re.MULTILINE):
        for words in new(found):
            if words == found[1]:
                continue
            line = text.count("\n", 0, found.start(1)) + 1
            column = found.start(1) - text.rfind("\n", 0, found.start(1))
            yield Slip(line, column, text[: found.start(1)] + words + text[found.end(1) :])


def _numbers(text: str) -> list[str]:
    return re.findall(r"[\d.]+", text)


def _list(numbers: list[str]) -> str:
    return f"{numbers[0]} ({', '.join(numbers[1:])})"


def _one_off(by: int) -> Callable[[re.Match[str]], list[str]]:
    def new(found: re.Match[str]) -> list[str]:
        numbers = _numbers(found[1])
        off = [str(int(one) + by) for one in numbers]
        return [_list([*numbers[:at], off[at], *numbers[at + 1 :]]) for at in range(len(numbers))]

    return new


def _swapped(found: re.Match[str]) -> list[str]:
    numbers = _numbers(found[1])
    new = []
    for at, (one, other) in enumerate(pairwise(numbers)):
        if one != other:
            new.append(_list([*numbers[:at], other, one, *numbers[at + 2 :]]))
    return new


def _missing(found: re.Match[str]) -> list[str]:
    numbers = _numbers(found[1])
    if len(numbers) < 3:
        return []
    return [_list([*numbers[:at], *numbers[at + 1 :]]) for at in range(len(numbers))]


def _longer(by: int) -> Callable[[re.Match[str]], list[str]]:
    def new(found: re.Match[str]) -> list[str]:
        numbers = _numbers(found[1])
        off = [_plain(float(one) + by) for one in numbers]
        return [
            _list([*numbers[:at], off[at], *numbers[at + 1 :]])
            for at, number in enumerate(numbers)
            if float(number) + by > 0
        ]

    return new


def _plain(number: float) -> str:
    return f"{number:g}"


def formula_off(text: str) -> Iterator[Slip]:
    """A formula of a row one off: ``{body_sts + 1}`` for ``{body_sts + 2}``."""

    def new(found: re.Match[str]) -> list[str]:
        if found[1] in file_of(text).lengths:
            return []
        return [f"{found[1]} + 1", f"{found[1]} - 1"]

    yield from each(text, r"(?<![=:] )(?<!=)\{([a-z_][^{}:]*)\}", new)


def other_count(text: str) -> Iterator[Slip]:
    """Another count than meant in a formula of a row."""
    file = file_of(text)
    names = list(file.counts)

    def new(found: re.Match[str]) -> list[str]:
        if found[1] not in file.counts:
            return []
        return [name for name in names if file.counts[name] != file.counts[found[1]]]

    yield from each(text, r"(?<!: )\{([a-z_]+)(?=[ }])", new)


def multiple_off(text: str) -> Iterator[Slip]:
    """A multiple, or what is added to it, one more or less."""

    def new(found: re.Match[str]) -> list[str]:
        return [str(int(found[1]) + by) for by in (-1, 1) if int(found[1]) + by >= 0]

    for slip in each(text, r"\b(?:multiple|plus): (\d+)", new):
        if "multiple: 0" not in slip.text:
            yield slip


def gauge_off(text: str) -> Iterator[Slip]:
    """A gauge of one stitch or row more or less."""

    def new(found: re.Match[str]) -> list[str]:
        return [_plain(float(found[1]) + by) for by in (-1, 1)]

    yield from each(text, r"\b(?:sts|rows): ([\d.]+)(?=,)", new)


def special_off(text: str) -> Iterator[Slip]:
    """A special stitch explained with a stitch too many or too few."""

    def new(found: re.Match[str]) -> list[str]:
        return [str(int(found[1]) + by) for by in (-1, 1)]

    yield from each(text, r"^  \w+: (\d) dc in same st$", new)


def until_for_for(text: str) -> Iterator[Slip]:
    """``for`` a length where the whole piece is meant, or the other way."""

    def new(found: re.Match[str]) -> list[str]:
        return ["for" if found[1] != "for" else "until piece measures"]

    yield from each(text, r"\b(until piece measures|for) \{", new)


def divided_otherwise(text: str) -> Iterator[Slip]:
    """A count made from others that forgets a half or a double."""

    def new(found: re.Match[str]) -> list[str]:
        formula = found[1]
        return [formula.replace(" / 2", ""), formula.replace("2 * ", ""), f"({formula}) / 2"]

    yield from each(text, r"\{is: ([^{}]+)\}", new)


def _at_size(new: Callable[[re.Match[str]], list[str]], unit: str) -> MakeInFile:
    return lambda text: each(text, rf"^ +[a-z_ ]+: {LIST}{unit}$", new)


FILE_MISTAKES: tuple[tuple[str, MakeInFile], ...] = (
    ("A formula in a row is one off.", formula_off),
    ("Another count is named in a row than meant.", other_count),
    ("The multiple of a count is one off.", multiple_off),
    ("A gauge is one stitch or one row off.", gauge_off),
    ("A special stitch is explained with a stitch too many or too few.", special_off),
    ("`for` a length where the whole piece is meant, or the other way.", until_for_for),
    ("A count made from others forgets a half or a double.", divided_otherwise),
    ("A listed count is one too high in one size.", _at_size(_one_off(1), "")),
    ("A listed count is one too low in one size.", _at_size(_one_off(-1), "")),
    ("The listed counts of two sizes are swapped.", _at_size(_swapped, "")),
    ("A size is missing from a list of counts or lengths.", _at_size(_missing, "(?: cm)?")),
    ("The lengths of two sizes are swapped.", _at_size(_swapped, " cm")),
    ("A length is 4 cm too long in one size.", _at_size(_longer(4), " cm")),
    ("A length is 4 cm too short in one size.", _at_size(_longer(-4), " cm")),
)
