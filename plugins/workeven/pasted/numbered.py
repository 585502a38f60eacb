"""Rows by numbers alone: "3. sc in each st", and tables whose cells are parted by tabs.

Takes     the lines of a document, one after the other.
Gives     ``Numbered``: each as a row is written, with its word: "Rnd 3: sc in each st".
Problems  none.
From      common practice of documents: numbered lists, and tables with a column for the number, one
          for the words and one for the stitches.

A number at the head of a line is a row's where the words behind it are of rows, and an item's of
some other list where they are not. It stays an assertion, so that a list which counts more than
rows is told where its numbers go astray.
"""

from __future__ import annotations

import re

_RANGE = r"(?P<numbers>\d{1,3}(?:\s*[-–]\s*\d{1,3})?)"
#: the first cell of a row of a table
_CELL = re.compile(
    rf"(?:(?P<word>rows?|rnds?|rounds?|r)\.?\s*)?{_RANGE}(?P<side>\s*\((?:RS|WS)\))?[.:)]?",
    re.IGNORECASE,
)
_FOUNDATION = re.compile(
    r"(?:foundation|set-?up|base)(?: (?:row|rnd|round|chain|ch))?:?", re.IGNORECASE
)
#: the first cell of the line above a table
_HEADER = re.compile(
    r"(?:#|no\.?|(?P<word>rows?|rnds?|rounds?)(?: (?:no\.?|#|number))?)", re.IGNORECASE
)
_ITEM = re.compile(rf"\s*{_RANGE}[.)]\s+(?P<text>\S.*)", re.DOTALL)
_COUNT = re.compile(r"\d{1,4}(?: ?(?:sts?|stitches))?", re.IGNORECASE)
#: words of rows, in either terms
_OF_ROWS = re.compile(
    r"\b(?:ch|chain|sl ?st|sc|hdc|dc|htr|tr|dtr|inc|dec|sts?|rep|repeat|ring|"
    r"stitch(?:es)?(?! (?:marker|holder))|"
    r"(?:[shdt]{1,2}c|tr)\dtog)\b",
    re.IGNORECASE,
)
_ENDS_PIECE = re.compile(r"(?:fasten|finish) off\b", re.IGNORECASE)
_ROUND = re.compile(r"\b(?:a?round|rnds?|(?:magic )?ring|circle)\b", re.IGNORECASE)


class Numbered:
    """Goes through the lines of a text; what a row is called there holds for the rows below."""

    def __init__(self) -> None:
        self._rounds = False

    def row(self, line: str) -> str | None:
        r"""A line as a row is written, as it is where it is none; None for the head of a table.

        >>> numbered = Numbered()
        >>> numbered.row("1. Magic ring, 6 sc in ring (6)"), numbered.row("2. inc in each st")
        ('Rnd 1: Magic ring, 6 sc in ring (6)', 'Rnd 2: inc in each st')
        >>> numbered.row("3. 100 g of wool"), numbered.row("Row\tWords\tStitches")
        ('3. 100 g of wool', None)
        >>> numbered.row("4-8\tRep row 3\t29")
        'Rows 4-8: Rep row 3 (29)'
        """
        if "\t" in line.strip():
            cells = [cell.strip() for cell in line.strip().split("\t")]
            return self._of_table([cell for cell in cells if cell], line)
        item = _ITEM.fullmatch(line)
        if item is None:
            return line
        text = item["text"]
        if _ENDS_PIECE.match(text):
            return text
        if not _OF_ROWS.search(text):
            return line
        self._rounds = self._rounds or _ROUND.search(text) is not None
        return f"{self._label(item['numbers'])}: {text}"

    def _of_table(self, cells: list[str], line: str) -> str | None:
        if header := _HEADER.fullmatch(cells[0]):
            self._rounds = _names_rounds(header["word"])
            return None
        first, *others = cells
        if not others:
            return line
        words, stated = others, ""
        if len(others) > 1 and _COUNT.fullmatch(others[-1]):
            words, stated = others[:-1], f" ({others[-1]})"
        text = " ".join(words)
        if not (_OF_ROWS.search(text) or _ENDS_PIECE.match(text)):
            return line
        if _FOUNDATION.fullmatch(first):
            return f"{first.rstrip(':')}: {text}{stated}"
        numbered = _CELL.fullmatch(first)
        if numbered is None:
            return line
        if _ENDS_PIECE.match(text):
            return text
        label = self._label(numbered["numbers"], numbered["word"])
        return f"{label}{numbered['side'] or ''}: {text}{stated}"

    def _label(self, numbers: str, word: str | None = None) -> str:
        rounds = self._rounds if word in (None, "r", "R") else _names_rounds(word)
        called = "Rnd" if rounds else "Row"
        return f"{called}{'s' if '-' in numbers or '–' in numbers else ''} {numbers}"


def _names_rounds(word: str | None) -> bool:
    return word is not None and not word.lower().startswith("row")
