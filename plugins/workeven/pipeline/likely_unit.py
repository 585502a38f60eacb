"""One length in another unit than the rest: what its pattern would be with theirs.

Takes     the ``Source`` of a pattern with errors, and the way to look through a changed one.
Gives     ``with_likely_unit``: the same problems, with a note where the unit stands.
Problems  none of its own.
From      common practice: ``54 mm`` is easily written for ``54 cm``, and rows then tell it.

Nothing is guessed: the unit is changed and the whole pattern looked through again. Only where all
that did not come out then does, and nothing else goes wrong, the note is given.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator

from workeven import source
from workeven.pattern.reading import entries
from workeven.problems import Note, Problem, Severity
from workeven.problems.catalogue import severity
from workeven.problems.words import quote
from workeven.records import record, replace
from workeven.source import Node, Source

#: errors that wrong lengths lead to
_OF_NUMBERS = ("count-", "fit-", "row-", "sample-", "seam-", "shape-")
#: so many lengths are tried
_MOST = 6
_UNIT = re.compile(r"(?<=[\d\s)½¼¾⅓⅔])(?:mm|cm|m|in|inch|inches)(?![\w.])")
_PLAIN_UNIT = {"inch": "in", "inches": "in"}
#: of as many lengths in one unit as in another, those of a garment are likely in this
_LIKELY = {"cm": 2, "in": 1}


@record
class _Written:
    """A unit as it stands: behind which name, where (from 0, within its line), and as what."""

    name: str
    line: int
    start: int
    written: str

    @property
    def unit(self) -> str:
        """The unit by its usual name."""
        return _PLAIN_UNIT.get(self.written, self.written)


def with_likely_unit(
    read: Source, problems: tuple[Problem, ...], again: Callable[[Source], tuple[Problem, ...]]
) -> tuple[Problem, ...]:
    """The problems; the first that another unit would mend says so.

    ``again`` gives all problems of a file that is changed.
    """
    before = _errors(problems)
    if not any(code.startswith(_OF_NUMBERS) for code, _ in before):
        return problems
    for one, unit in _odd(read):
        changed = source.read(read.file, _in_unit(read, one, unit).encode()).value
        after = None if changed is None else _errors(again(changed))
        if (
            after is None
            or not after < before
            or any(code.startswith(_OF_NUMBERS) for code, _ in after)
        ):
            continue
        return _noted(read, problems, before - after, one, unit)
    return problems


def _errors(problems: tuple[Problem, ...]) -> frozenset[tuple[str, int]]:
    """Each error by its code and its line."""
    return frozenset(
        (one.code, one.span.line) for one in problems if severity(one.code) is Severity.ERROR
    )


def _odd(read: Source) -> Iterator[tuple[_Written, str]]:
    """Units that most lengths of the file are not in, each with the one that most are in."""
    units = list(_units(read))
    number = Counter(one.unit for one in units)
    usual = max(number, key=lambda unit: (number[unit], _LIKELY.get(unit, 0)), default="")
    odd = [one for one in units if one.unit != usual]
    for one in odd[:_MOST]:
        yield one, usual


def _units(read: Source) -> Iterator[_Written]:
    """The units of measurements, of the body, its ease, and of what gauges are counted over."""
    root = entries(read.root)
    sizes = entries(root["sizes"].value) if "sizes" in root else {}
    tables = {
        "measurements": root.get("measurements"),
        "to_fit": sizes.get("to_fit"),
        "ease": sizes.get("ease"),
    }
    for key, table in tables.items():
        for name, entry in entries(table.value if table else None).items():
            yield from _in_text(read, f"{key}.{name}", entry.value)
    for name, entry in entries(root["gauge"].value if "gauge" in root else None).items():
        over = entries(entry.value).get("over")
        if over is not None:
            yield from _in_text(read, f"gauge.{name}", over.value)


def _in_text(read: Source, name: str, node: Node) -> Iterator[_Written]:
    if not isinstance(node.value, str):
        for item in node.value if isinstance(node.value, tuple) else ():
            yield from _in_text(read, name, item)
        return
    for found in _UNIT.finditer(node.value):
        span = read.stretch(node, found.start(), found.end())
        start = span.column - 1
        if read.lines[span.line - 1][start : start + len(found[0])] == found[0]:
            yield _Written(name=name, line=span.line, start=start, written=found[0])


def _in_unit(read: Source, one: _Written, unit: str) -> str:
    """The file with this one unit changed."""
    line = read.lines[one.line - 1]
    end = one.start + len(one.written)
    lines = list(read.lines)
    lines[one.line - 1] = f"{line[: one.start]}{unit}{line[end:]}"
    return "\n".join(lines)


def _noted(
    read: Source,
    problems: tuple[Problem, ...],
    mended: frozenset[tuple[str, int]],
    one: _Written,
    unit: str,
) -> tuple[Problem, ...]:
    """The problems, with the note beside the first that is mended."""
    code, line = min(mended, key=lambda error: error[1])
    at = next(
        at
        for at, problem in enumerate(problems)
        if (problem.code, problem.span.line) == (code, line)
    )
    place = replace(
        problems[at].span,
        file=read.file,
        line=one.line,
        end_line=one.line,
        column=one.start + 1,
        end_column=one.start + 1 + len(one.written),
    )
    note = Note(
        span=place,
        message=f"{quote(one.name)} is in {_spoken(one.unit)} here, other lengths are in "
        f"{_spoken(unit)}: in {_spoken(unit)} it comes out.",
    )
    noted = replace(problems[at], notes=(*problems[at].notes, note))
    return (*problems[:at], noted, *problems[at + 1 :])


def _spoken(unit: str) -> str:
    """A unit in a sentence, where "in" would be read as a word."""
    return "inches" if unit == "in" else unit
