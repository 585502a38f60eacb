"""In which colours each row of a piece is worked, by letter.

Takes     ``ProvenPattern``, a ``ProvenPiece``, the numbers of rows.
Gives     ``RowColours``: ``row_colours``; None where one colour does, or where one is not told.
Problems  none.
From      common practice: a letter stands for a colour, A for the one that is worked first.

Worked example: ``With Foam, ch 21`` · ``Row 1 …`` · ``Row 2: with Slate …``: row 1 in A, which is
Foam, row 2 in B.
"""

from __future__ import annotations

from collections.abc import Mapping
from string import ascii_uppercase

from workeven.pattern import Pattern
from workeven.pattern.colours import palette_of
from workeven.proof import ProvenPattern, ProvenPiece
from workeven.proof.coloured import Walks
from workeven.records import record
from workeven.yarn.colours import Held, worked_in


@record
class RowColours:
    """The letters of each row by its number, several where it changes; each letter in words.

    ``changes``: of the rows that change within, the column of each change and the letter from there
    on; the first is that of the row's beginning, column 0.
    """

    letters: Mapping[int, tuple[str, ...]]
    words: Mapping[str, str]
    changes: Mapping[int, tuple[tuple[int, str], ...]]

    def letter_at(self, number: int, column: int) -> str:
        """The colour of what stands in a row's words at a column; "" where the row has but one."""
        behind = [letter for start, letter in self.changes.get(number, ()) if start <= column]
        return behind[-1] if behind else ""


def row_colours(
    proven: ProvenPattern, piece: ProvenPiece, numbers: tuple[int, ...], size: int | None = None
) -> RowColours | None:
    """The colours of these rows in a size; None: in the first that works the piece."""
    pattern = proven.graded.pattern
    if len(set(numbers)) < len(numbers) or not _has_several(pattern):
        return None
    if size is None:
        size = next((at for at, made in enumerate(piece.piece.make.values) if made), 0)
    palette, walks = palette_of(pattern), Walks(proven.graded)
    work = worked_in(piece, palette, pattern.yarns[0].name, walks, by_line=True)
    rows = {number: work.of_rows[size].get(number, ()) for number in numbers}
    held = tuple(dict.fromkeys(one for stretches in rows.values() for one in stretches))
    if work.doubts or not all(rows.values()) or not all(one.sure for one in held):
        return None
    if not 1 < len(held) <= len(ascii_uppercase):
        return None
    names = {one: _in_words(one, pattern) for one in held}
    letters = _letters(held)
    return RowColours(
        letters={
            number: tuple(dict.fromkeys(letters[one] for one in stretches))
            for number, stretches in rows.items()
        },
        words={letters[one]: names[one] for one in held},
        changes={
            number: tuple(
                (column, letters[stretches[min(at, len(stretches) - 1)]])
                for at, column in enumerate((0, *work.columns[size][number]))
            )
            for number, stretches in rows.items()
            if len(set(stretches)) > 1
        },
    )


def _has_several(pattern: Pattern) -> bool:
    return len(pattern.yarns) > 1 or any(len(yarn.colours) > 1 for yarn in pattern.yarns)


def _letters(held: tuple[Held, ...]) -> dict[Held, str]:
    """Those that the rows call them by, where these are letters; else A, B, C in turn."""
    called = [one.colour if one.colour is not None else one.yarn for one in held]
    if len(set(called)) == len(held) and set(called) <= set(ascii_uppercase):
        return dict(zip(held, called, strict=True))
    return dict(zip(held, ascii_uppercase, strict=False))


def _in_words(held: Held, pattern: Pattern) -> str:
    """The colour, and the yarn where there are several; what is held together with it too."""
    yarns = {yarn.name: yarn for yarn in pattern.yarns}
    yarn = yarns[held.yarn]
    parts = [] if held.colour is None else [yarn.shade(held.colour)]
    if len(yarns) > 1 or not parts:
        parts.append(yarn.label)
    parts += [f"held together with {yarns[one].label}" for one in held.beside]
    return ", ".join(parts)
