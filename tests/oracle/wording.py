"""Writes structured rows in the trade's words, in a wording chosen by a seeded generator.

Takes     a ``Piece``, a ``Random``, US or UK terms.
Gives     ``write``: a ``Text``, the rows as one would type them, one a line.
Problems  none.
From      notation.md, Labels, Sizes, Whole-row words, Changing over.

The same piece can be written many times; every text means the same and has the same counts.
"""

from __future__ import annotations

import random

from tests.oracle.row_words import RowWords
from tests.oracle.structure import Again, Count, Piece, Row, at_size
from tests.oracle.texts import TERMS, Line, Terms, Text, kind_in, less, number

__all__ = ["TERMS", "kind_in", "number", "write"]


def write(piece: Piece, rng: random.Random, terms: Terms = "us", *, curt: bool = False) -> Text:
    """The piece in words chosen by ``rng``; ``curt``: it leaves unsaid what has a default."""
    words = RowWords(piece.worked, piece.sizes, rng, terms, curt=curt)
    return _Writer(piece, rng, words).piece_text()


class _Writer:
    """Writes one piece line by line: labels, ranges, repeats of earlier rows."""

    def __init__(self, piece: Piece, rng: random.Random, words: RowWords) -> None:
        self.piece = piece
        self.rng = rng
        self.words = words
        self.labels = rng.random() < 0.6
        self.heading = ""
        self.lines: list[str] = []
        self.ends: list[Line] = []
        self.names: dict[int, str] = {}
        self.row_number: int | None = 1
        self.row_numbers: dict[int, int | None] = {}

    def piece_text(self) -> Text:
        entry = 0
        while entry < len(self.piece.rows):
            row = self.piece.rows[entry]
            following = self.piece.rows[entry + 1] if entry + 1 < len(self.piece.rows) else None
            if isinstance(row, Again):
                self.again(row, entry)
            elif self.merges(row, following):
                assert isinstance(following, Row)
                self.row_lines(following, entry + 1, before=self.words.beginning(row))
                entry += 1
            elif row.begin and not row.steps:
                self.line(self.words.beginning(row), entry)
            else:
                self.row_lines(row, entry)
            entry += 1
        text = "\n".join(self.lines) + "\n"
        if self.piece.each_chain:
            self.words.declared["ch"] = "each ch of a round counts as a st"
        declared = tuple(self.words.declared.values())
        return Text(text, tuple(self.ends), self.words.terms, declared, tuple(self.words.doubts))

    def merges(self, row: Row, following: Row | Again | None) -> bool:
        """Whether a starting chain or ring is written in one line with the row on it."""
        return (
            row.begin in ("chain", "ring")
            and not row.steps
            and row.stated is None
            and isinstance(following, Row)
            and following.times == 1
            and self.rng.random() < 0.25
        )

    def line(self, text: str, entry: int) -> None:
        self.lines.append(text)
        self.ends.append(Line(len(self.lines), entry))

    def label(self, first: int | None, last: int | None = None) -> str:
        if not self.labels or first is None:
            return ""
        word = "Row" if self.words.flat else "Rnd"
        if last is None or last == first:
            return f"{word} {first}: "
        dash = self.rng.choice(["-", "–", "-"])
        return f"{word}s {first}{dash}{last}: "

    def advance(self, times: Count) -> tuple[int | None, int | None]:
        """The first and last number of the next rows; ``None`` once they differ by size."""
        first = self.row_number
        if first is None:
            return None, None
        if isinstance(times, tuple) and len(set(times)) > 1:
            self.row_number = None
            return None, None
        self.row_number = first + at_size(times, 0)
        return first, self.row_number - 1

    def row_lines(self, row: Row, entry: int, before: str = "") -> None:
        """A row, written once, as a range, or as a row and its repeats."""
        if row.works is not None:
            self.row_number = None
        self.row_numbers[entry] = self.row_number
        if any(isinstance(row, Again) and row.first == entry for row in self.piece.rows):
            self.words.below = (
                ""  # "inc" is of the row before, which is another when it is repeated
            )
        if row.worked:
            self.change_over(row.worked)
        following = self.next_row(entry)
        only = self.only(row)
        text = self.heading + self.words.row_text(row, following, entry)
        self.heading = ""
        if before:
            text = f"{before}{self.rng.choice([', ', '; '])}{text}"
        if row.times == 1:
            label = self.named_row(entry, self.label(self.advance(1)[0]), text)
            self.line(only + label + text, entry)
            return
        same = isinstance(row.times, int) or len(set(row.times)) == 1
        form = self.rng.choice(["range", "repeat", "lines"] if same else ["repeat", "sized range"])
        if form == "sized range" and self.labels and self.row_number and not only:
            self.line(self.sized_range(row.times) + text, entry)
            return
        if form == "lines" and at_size(row.times, 0) > 4:
            form = "repeat"
        if form == "range" and not (self.labels and self.row_number):
            form = "repeat"
        if form == "range":
            self.line(only + self.label(*self.advance(row.times)) + text, entry)
        elif form == "lines":
            for _ in range(at_size(row.times, 0)):
                self.line(only + self.label(self.advance(1)[0]) + text, entry)
        else:
            self.line(only + self.label(self.advance(1)[0]) + text, entry)
            more = less(row.times, 1)
            self.advance(more)
            self.line(only + self.repeat_of_last(entry, more), entry)

    def change_over(self, worked: str) -> None:
        """``now work in rows``, on a line of its own or at the head of the row."""
        words = self.words.change_over(worked)
        if self.rng.random() < 0.5:
            self.lines.append(words)
        else:
            self.heading = f"{words}, "

    def next_row(self, entry: int) -> Row | None:
        """The row after an entry, in a piece that repeats none by its number."""
        if any(isinstance(row, Again) for row in self.piece.rows):
            return None
        rows = [row for row in self.piece.rows[entry + 1 : entry + 2] if isinstance(row, Row)]
        return rows[0] if rows else None

    def named_row(self, entry: int, label: str, text: str) -> str:
        """The label; a row that is repeated later may have a name in its place."""
        rows = self.piece.rows[entry + 1 :]
        repeated = any(isinstance(row, Again) and row.first == row.last == entry for row in rows)
        if text[0].isdigit():  # "Shell rnd: 9 dc" would state a count
            return label
        if not repeated or self.rng.random() < 0.5:
            return label
        name = (
            f"{self.rng.choice(['Shell', 'Plain', 'Edge'])} {'row' if self.words.flat else 'rnd'}"
        )
        self.names[entry] = name
        return f"{name}: "

    def sized_range(self, times: Count) -> str:
        """``Rows 25-28 (25-32): ``."""
        first = self.row_number
        assert first is not None
        assert isinstance(times, tuple)
        self.row_number = None
        spans = [f"{first}-{first + n - 1}" for n in times]
        word = "Rows" if self.words.flat else "Rnds"
        return f"{word} {spans[0]} ({', '.join(spans[1:])}): "

    def repeat_of_last(self, entry: int, more: Count) -> str:
        word = "row" if self.words.flat else "rnd"
        forms = [f"{self.words.rep} last {word} {self.words.more(more)}"]
        first = self.row_numbers[entry]
        if first is not None and self.labels and isinstance(more, int):
            name = f"{word.capitalize()} {first}"
            forms.append(f"{self.label(first + 1, first + more)}{self.words.rep} {name}")
        return self.rng.choice(forms)

    def again(self, again: Again, entry: int) -> None:
        word = "Row" if self.words.flat else "Rnd"
        first, last = self.row_numbers.get(again.first), self.row_numbers.get(again.last)
        assert first is not None, "a row that is repeated has a number"
        assert last is not None, "a row that is repeated has a number"
        name = self.names.get(again.first, "") if again.first == again.last else ""
        span = f"{word}s {first} and {last}" if last == first + 1 else f"{word}s {first}-{last}"
        if last == first:
            span = name or f"{word} {first}"
        rows = (last - first + 1) * (again.times if isinstance(again.times, int) else 0)
        label = ""
        if isinstance(again.times, int):
            start, end = self.advance(rows)
            label = self.label(start, end)
        else:
            self.row_number = None
        self.words.below = ""
        self.words.turning_chain = (0, 0)
        self.line(f"{label}{self.words.rep} {span} {self.words.more(again.times)}", entry)

    def only(self, row: Row) -> str:
        if row.works is None:
            return ""
        names = [n for n, works in zip(self.piece.sizes, row.works, strict=True) if works]
        first = self.piece.sizes.index(names[0])
        run = list(self.piece.sizes[first : first + len(names)]) == names
        if len(names) == 1:
            return f"size {names[0]} only: "
        if run and len(names) > 2:
            return f"sizes {names[0]}{self.rng.choice(['–', '-'])}{names[-1]} only: "
        return f"sizes {', '.join(names[:-1])} and {names[-1]} only: "
