"""Makes mistakes in the text of rows: each function yields every place where its mistake fits.

Takes     ``Rows`` that come out.
Gives     functions from rows to ``Slip``; those of one kind alone stand in kinds/.
Problems  none.
From      common practice: what technical editors look for in a pattern.

Whether a change matters is not said here: the judgement (judging.py) finds out.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from tests.seeded.spans import Figure, Slip, changed, figures, is_step, lines, parts, stated_at
from tests.seeded.words import Rows

Make = Callable[[Rows], Iterator[Slip]]

OTHER = {"sc": "dc", "dc": "sc", "hdc": "dc", "tr": "dc", "htr": "tr", "dtr": "tr"}

#: one basic stitch
ONE = r"(?<![\w-])(?:sc|hdc|dc|tr|htr|dtr)(?![\w-])"

#: the numbers of steps
STEPS = (
    "run",
    "skip",
    "last",
    "last run",
    "more",
    "content",
    "bridge",
    "evenly",
    "travel",
    "chain",
)


def by_numbers(make: Callable[..., Iterator[Slip]], *roles: str, **options: int) -> Make:
    """A mistake that is made in numbers of these kinds."""
    return lambda rows: make(rows, *roles, **options)


def numbers(rows: Rows, *roles: str) -> Iterator[tuple[int, str, Figure]]:
    """Every number of these kinds, with its line."""
    for number, line in lines(rows):
        for figure in figures(line, rows.size_count):
            if figure.role in roles:
                yield number, line, figure


def with_values(
    rows: Rows, number: int, line: str, figure: Figure, values: tuple[int, ...]
) -> Iterator[Slip]:
    """The row with other values, if they are others."""
    if values == figure.values or min(values) < 0:
        return
    new = figure.written(values, rows.size_count)
    yield changed(rows, number, figure.start, line[: figure.start] + new + line[figure.end :])


def each_size(rows: Rows, figure: Figure) -> tuple[int, ...]:
    """The values, one a size."""
    return figure.values if len(figure.values) > 1 else figure.values * rows.size_count


def off_in_one_size(rows: Rows, *roles: str, by: int) -> Iterator[Slip]:
    """A number that is off in one size and right in the others."""
    for number, line, figure in numbers(rows, *roles):
        values = each_size(rows, figure)
        for size in range(rows.size_count):
            new = (*values[:size], values[size] + by, *values[size + 1 :])
            yield from with_values(rows, number, line, figure, new)


def off_in_all(rows: Rows, *roles: str, by: int) -> Iterator[Slip]:
    """A number that is off in every size."""
    for number, line, figure in numbers(rows, *roles):
        new = tuple(value + by for value in figure.values)
        yield from with_values(rows, number, line, figure, new)


def swapped(rows: Rows, *roles: str) -> Iterator[Slip]:
    """Two neighbouring sizes exchanged."""
    for number, line, figure in numbers(rows, *roles):
        for size in range(len(figure.values) - 1):
            new = list(figure.values)
            new[size], new[size + 1] = new[size + 1], new[size]
            yield from with_values(rows, number, line, figure, tuple(new))


def of_the_neighbour(rows: Rows, *roles: str) -> Iterator[Slip]:
    """A size that has the number of the size after it."""
    for number, line, figure in numbers(rows, *roles):
        for size in range(len(figure.values) - 1):
            new = list(figure.values)
            new[size] = new[size + 1]
            yield from with_values(rows, number, line, figure, tuple(new))


def reworded(
    rows: Rows, pattern: str, new: str | Callable[[re.Match[str]], str | None]
) -> Iterator[Slip]:
    """Each place of a phrase with other words, one at a time; never in a stated count."""
    for number, line in lines(rows):
        stated = stated_at(line, rows.size_count)
        end = len(line) if stated is None else stated[0]
        for found in re.finditer(pattern, line[:end]):
            words = new(found) if callable(new) else found.expand(new)
            if words is not None and words != found[0]:
                after = line[: found.start()] + words + line[found.end() :]
                yield changed(rows, number, found.start(), after)


def step_left_out(rows: Rows, *, only: str = "", after_repeat: bool = False) -> Iterator[Slip]:
    """A step that is not there; a star before it stays."""
    for number, line in lines(rows):
        spans = parts(line, rows.size_count)
        if re.match(r"ch \d+(?: \([\d, ]+\))*, join", line):
            continue
        for at, (start, end) in enumerate(spans):
            text = line[start:end]
            if not is_step(text.lstrip("*")) or not re.search(only, text):
                continue
            before = line[spans[at - 1][0] : spans[at - 1][1]] if at else ""
            if after_repeat and not re.match(
                r"rep(?:eat)? from|.*[\])] (?:\d+ times|twice)$", before
            ):
                continue
            new = _without(line, start, end)
            if new is not None:
                yield changed(rows, number, start, new)


def _without(line: str, start: int, end: int) -> str | None:
    """The line without a step and one comma beside it."""
    star = "*" if line[start] == "*" else ""
    following = line[end : end + 2]
    if following == ", ":
        return line[:start] + star + line[end + 2 :]
    if line[:start].endswith(", ") and not star:
        return line[: start - 2] + line[end:]
    return None
