"""What a document leaves in a text that is copied out of it: taken out, and every word kept.

Takes     the text of a document.
Gives     ``tidied``: its lines, each with its number in the text.
Problems  none.
From      common practice of word processors and of text copied from PDF; Unicode Standard, chapter
          23 ("Special Areas and Format Characters") for the characters that are not seen.

A page number between two lines is no paragraph: the blank lines around it go with it, so that a row
which runs over the page can be put together again.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Literal, NamedTuple

from workeven.pasted.numbered import Numbered
from workeven.source.characters import hides

Sort = Literal["text", "blank", "page"]


class Line(NamedTuple):
    """One line of a text. ``sort`` is what it is; ``glued``: its last word goes on in the next.

    ``raw`` is the line as it stands in the text.
    """

    text: str
    number: int
    sort: Sort
    glued: bool = False
    raw: str = ""

    def column_in_text(self, column: int) -> int:
        """The column in the text of what stands at a column of the tidied line.

        >>> Line("Row 3: sc in frob", 3, "text", raw="3. sc in frob").column_in_text(14)
        10
        """
        at = column - 1
        about = at + len(self.raw) - len(self.text)
        for letters in (12, 6, 3):
            words = self.text[at : at + letters]
            found = (
                [one.start() for one in re.finditer(re.escape(words), self.raw)] if words else ()
            )
            if found:
                return min(found, key=lambda one: abs(one - about)) + 1
        return min(max(about, 0), len(self.raw)) + 1


_ENDS = re.compile("\r\n|[\n\r\x0b\x0c\x85\u2028\u2029]")
_SOFT_HYPHEN = "\u00ad"
#: hyphens and the minus sign, all of which stand for the one on a keyboard
_HYPHENS = "\u2010\u2011\u2012\u2212\ufe63\uff0d"
#: letters that fonts print as one
_LIGATURES = {
    "\ufb00": "ff",
    "\ufb01": "fi",
    "\ufb02": "fl",
    "\ufb03": "ffi",
    "\ufb04": "ffl",
    "\ufb05": "st",
    "\ufb06": "st",
}
_ALIKE = str.maketrans({**dict.fromkeys(_HYPHENS, "-"), **_LIGATURES, "\t": " "})
_BULLET = re.compile(
    r"\s*[•‣◦▪▫■□●○◆◇►▶✓✔➢➤·∙\u2043]+\s*(?=\S)|\s*[-–—+]\s+(?=\S)|"
    r"\s*[a-z][.)]\s+(?=(?:[Rr]ows?|[Rr](?:ou)?nds?|R)\.? ?\d)"
)
_PAGE = re.compile(
    r"(?:page|p\.)\s*\d{1,4}(?:\s*(?:of|/)\s*\d{1,4})?|[-–—|]\s*\d{1,4}\s*[-–—|]|"
    r"\d{1,3}\s*(?:of|/)\s*\d{1,3}",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"\d{1,4}")


def tidied(text: str, numbered: Numbered | None = None) -> tuple[Line, ...]:
    r"""The lines of a text, numbered from 1 as editors do.

    With ``numbered`` rows that bear a number alone are labelled as rows are.

    >>> [line.text for line in tidied("• Row 1:\u00a0ch\u2011 21\r\n")]
    ['Row 1: ch- 21', '']
    """
    found: list[Line] = []
    number = 1
    at = 0
    for end in (*_ENDS.finditer(text), None):
        raw = text[at : len(text) if end is None else end.start()]
        row = raw if numbered is None else numbered.row(raw)
        line = _line(raw if row is None else row, number)
        line = line._replace(raw=raw, sort=line.sort if row is not None else "page")
        found.append(line)
        if end is not None:
            at = end.end()
            number += end[0] in ("\r\n", "\n", "\r")
    return tuple(_over_pages(found))


def _line(raw: str, number: int) -> Line:
    glued = raw.rstrip().endswith(_SOFT_HYPHEN)
    seen = "".join(filter(None, map(_seen, raw))).translate(_ALIKE)
    words = " ".join(seen.split())
    bare = _BULLET.sub("", words, count=1) if _BULLET.match(words) else words
    if not any(character.isalnum() for character in bare):
        bare = words  # a line of nothing but signs, such as a rule
    sort: Sort = "text" if words else "blank"
    return Line(words if _PAGE.fullmatch(words) else bare, number, sort, glued)


def _seen(character: str) -> str:
    """A character as it is kept: a space for one that only looks otherwise, nothing if unseen."""
    category = unicodedata.category(character)
    if category in ("Zs", "Cc"):
        return " "
    return "" if category == "Cf" or hides(character) else character


def _over_pages(lines: list[Line]) -> list[Line]:
    """Mark page numbers, and drop the blank lines around them where a paragraph may go on."""
    marked = [
        line._replace(sort="page") if _is_page(lines, at) else line for at, line in enumerate(lines)
    ]
    before, behind = _nearest(marked), _nearest(marked[::-1])[::-1]
    return [
        line
        for line, above, below in zip(marked, before, behind, strict=True)
        if line.sort != "blank" or "page" not in (above, below)
    ]


def _nearest(lines: list[Line]) -> list[Sort]:
    """What the last line before each one is that is not blank."""
    found: list[Sort] = []
    last: Sort = "blank"
    for line in lines:
        found.append(last)
        last = last if line.sort == "blank" else line.sort
    return found


def _is_page(lines: list[Line], at: int) -> bool:
    """``Page 3 of 8``, ``- 3 -``; a number alone only where it stands apart."""
    text = lines[at].text
    if _PAGE.fullmatch(text):
        return True
    if not _NUMBER.fullmatch(text):
        return False
    before = at == 0 or lines[at - 1].sort == "blank"
    after = at + 1 == len(lines) or lines[at + 1].sort == "blank"
    return before and after
