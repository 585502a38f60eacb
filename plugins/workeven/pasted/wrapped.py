"""Lines that a document has wrapped, put together again where that is sure.

Takes     lines of one paragraph, a ``Reader``.
Gives     ``rows_of``: each row with the lines that it was made of.
Problems  none of its own.
From      common practice: a row of a printed pattern runs over as many lines as it needs.

Lines are joined only where the joined text is a row, and the line that is joined does not begin
one: it bears no number or name, and by itself it is no row, or what stands before it is not whole,
or the numbers leave no room for a row between (``Row 3`` above it, ``Row 4`` below).

Worked example: of ``Rnd 3: [sc 2,`` / ``inc] around`` / ``(24 sts)`` the first is no row, the first
two are one, but ``(24 sts)`` begins none: all three are one row.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from workeven.notation.stream import LONGEST
from workeven.pasted.tidied import Line
from workeven.pasted.understood import Reader, Understood, begins, goes_on, labelled

#: a row of a printed page has hardly more lines
MOST_LINES = 12


class Joined(NamedTuple):
    """One row and the lines it was put together from."""

    row: Understood
    lines: tuple[Line, ...]


def rows_of(lines: Sequence[Line], reader: Reader) -> list[Joined]:
    """The rows of one paragraph, in order; a line that is none stands alone."""
    found: list[Joined] = []
    at = 0
    while at < len(lines):
        end = _end(lines, at, reader)
        row = reader.read(_together(lines[at:end]))
        reader.accept(row)
        found.append(Joined(row, tuple(lines[at:end])))
        at = end
    return found


def _end(lines: Sequence[Line], at: int, reader: Reader) -> int:
    """Behind which line the row that begins at ``at`` ends."""
    last = at + 1
    while last < min(len(lines), at + MOST_LINES) and not begins(lines[last].text):
        last += 1
    last = _before_a_note(lines, at, last, reader)
    if last == at + 1:
        return last
    if _no_room_between(lines, at, last, reader) and _good(lines[at:last], reader):
        return last
    longest = at + 1
    for end in range(at + 1, last + 1):
        if not _good(lines[at:end], reader):
            continue
        longest = end
        whole = not goes_on(lines[end - 1].text) and not lines[end - 1].glued
        if end == last or (whole and _begins(lines, end, last, reader)):
            return end
    return longest


def _before_a_note(lines: Sequence[Line], at: int, last: int, reader: Reader) -> int:
    """Where a line by itself works nothing ("Stuff firmly."), behind a whole row: before that."""
    for end in range(at + 1, last):
        line = lines[end - 1]
        if goes_on(line.text) or line.glued or not _good(lines[at:end], reader):
            continue
        alone = reader.read(lines[end].text)
        if alone.good and alone.only_joins:
            return end
    return last


def _good(lines: Sequence[Line], reader: Reader) -> bool:
    """Whether lines are a row; words that work nothing join no line to one that is a row alone."""
    text = _together(lines)
    if len(text) > LONGEST:
        return False
    row = reader.read(text)
    return row.good and not (len(lines) > 1 and row.problems and reader.read(lines[0].text).good)


def _begins(lines: Sequence[Line], at: int, last: int, reader: Reader) -> bool:
    """Whether a row can begin here: by itself, or with the lines below."""
    return any(_good(lines[at:end], reader) for end in range(at + 1, last + 1))


def _no_room_between(lines: Sequence[Line], at: int, last: int, reader: Reader) -> bool:
    """Whether the row here and the one behind these lines bear numbers that follow each other."""
    if last >= len(lines) or not labelled(lines[last].text):
        return False
    mine, next_one = reader.read(lines[at].text).label, reader.read(lines[last].text).label
    if mine is None or next_one is None or mine.first is None or next_one.first is None:
        return False
    ends = (mine.last or mine.first).values
    return tuple(None if one is None else one + 1 for one in ends) == next_one.first.values


def _together(lines: Sequence[Line]) -> str:
    """Several lines as one: without a space where a word was broken, or a chain's hyphen ends."""
    text = ""
    for at, line in enumerate(lines):
        before = lines[at - 1] if at else None
        broken = before is None or before.glued or before.text[-2:].lower().endswith("h-")
        text += line.text if broken else f" {line.text}"
    return text
