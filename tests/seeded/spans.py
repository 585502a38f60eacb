"""Where things stand in the text of a row: numbers with what they are, steps, the stated count.

Takes     a line of ``Rows``.
Gives     ``figures``, ``parts``, ``Slip``.
Problems  none.
From      common practice; notation.md: Sizes, Stated counts, Labels.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tests.seeded.words import Rows

KIND = r"(?:[fb]p(?:hdc|dc|tr)|sl st|ss|hdc|htr|dtr|ttr|dc|sc|tr|loop st|cl|pc|v-st|shell|fan)"


@dataclass(frozen=True, slots=True)
class Slip:
    """One mistake: where it stands (line and column from 1) and the whole changed text."""

    line: int
    column: int
    text: str


@dataclass(frozen=True, slots=True)
class Figure:
    """A number of a row, with its place in the line, what it counts and its value by size.

    ``form``: ``one`` (``6``), ``list`` (``6 (7, 8)``) or ``row`` (``6, 7, 8``, in a stated count).
    """

    start: int
    end: int
    values: tuple[int, ...]
    form: str
    role: str

    def written(self, values: tuple[int, ...], sizes: int) -> str:
        """The number with other values."""
        if len(values) == 1 or (len(values) == sizes and len(set(values)) == 1):
            return str(values[0])
        figures = [str(value) for value in values]
        if self.form == "row" or (self.form == "one" and self.role == "stated"):
            return ", ".join(figures)
        return f"{figures[0]} ({', '.join(figures[1:])})"


def lines(rows: Rows) -> Iterator[tuple[int, str]]:
    """The lines of a text with their numbers."""
    yield from enumerate(rows.text.split("\n"), start=1)


def changed(rows: Rows, line: int, column: int, new: str) -> Slip:
    """The text with one line put otherwise; ``column`` counts from 0."""
    texts = rows.text.split("\n")
    texts[line - 1] = new
    return Slip(line, column + 1, "\n".join(texts))


def stated_at(line: str, sizes: int) -> tuple[int, int] | None:
    """Where the stated count at the end of a line begins and ends."""
    found = re.search(r"[(\[](\d[^()\[\]]*)[)\]]\.?$", line)
    if found:
        bare = re.fullmatch(r"[\d ,–—-]+", found[1]) is not None
        if not (bare and sizes > 1 and re.search(r"(?<!ch-)\d\)? ?$", line[: found.start()])):
            return found.start(1), found.end(1)
        return None
    found = re.search(r"(?: [-–—=]|:) (\d[\d ,()]*(?: ?[a-z][a-z0-9 -]*)?(?:, \d.*)?)$", line)
    return (found.start(1), found.end(1)) if found else None


def figures(line: str, sizes: int) -> list[Figure]:
    """Every number of a line that counts something."""
    found = []
    stated = stated_at(line, sizes)
    head = line if stated is None else line[: stated[0]]
    for match in re.finditer(r"(?<![\w-])\d+(?!\w)((?: ?\([\d, –-]+\))*)", head):
        values = tuple(int(one) for one in re.findall(r"\d+", match[0]))
        if sizes > 1 and match[1] and len(values) == sizes:
            span, form = match.span(), "list"
        else:
            values, span, form = (
                values[:1],
                (match.start(), match.start() + len(str(values[0]))),
                "one",
            )
        role = _role(line, *span)
        if role:
            found.append(Figure(*span, values, form, role))
    if stated is not None:
        for match in re.finditer(r"(?<![\w-])\d+(?:, ?\d+)*(?!\w)", line[stated[0] : stated[1]]):
            values = tuple(int(one) for one in re.findall(r"\d+", match[0]))
            if len(values) not in (1, sizes):
                continue
            start = stated[0] + match.start()
            form = "row" if len(values) > 1 else "one"
            found.append(Figure(start, start + len(match[0]), values, form, "stated"))
    return found


def _role(line: str, start: int, end: int) -> str:
    before, after = line[:start], line[end:]
    for role, behind, ahead in _ROLES:
        if re.search(behind, before) and re.match(ahead, after):
            return role
    return ""


#: what a number is, by the words before and after it
_ROLES = (
    ("label", r"^(?:Rows?|Rnds?) (?:\d+[-–])?$", r"[-–:( ]"),
    ("row", r"\b[Rr]ep(?:eat)? (?:Rows?|Rnds?) (?:\d+(?: and |[-–]))?$", r""),
    ("starting chain", r"^(?:.*: )?ch $", r"(?: \(\d[\d, ]*chs?\))?(?:, join.*)?$"),
    ("bridge", r"\bch $", r" \(counts as \d"),
    ("said bridge", r"\(counts as $", r"(?: \([\d, ]+\))* sts\)"),
    ("chain", r"(?<!^)(?:[,;(\[*] ?|\*)ch $", r"(?:[,;)\]]|$)"),
    ("last", r"\bto last $", r" "),
    ("last run", r"\bin (?:each of )?last $", r" "),
    ("evenly", r"\b(?:dec|inc) $", r" sts? evenly"),
    ("more", r"", r" (?:more )?times?\b"),
    ("travel", r"\bsl st in each of first $", r" sts?"),
    ("skip", r"\b(?:sk|skip|miss) (?:next )?$", r" ?(?:sts?|chs?|[,;\]]|$)"),
    ("content", r"(?:^|[,;(\[*] ?|: )$", rf" {KIND} in "),
    ("inside", r"[(,] ?$", rf" {KIND}[^;]*\) in "),
    ("run", rf"(?:\bnext|\bfirst|{KIND}) $", r"(?: (?:sts?|chs?|sc|dc|hdc|tr|htr)\b|[,;\]]|$| \()"),
)


def parts(line: str, sizes: int) -> list[tuple[int, int]]:
    """Where each step of a row begins and ends, also those inside square brackets."""
    label = re.match(r"(?:(?:Rows?|Rnds?) [^:]+|sizes? [^:]+|[A-Z][A-Za-z ]*): ", line)
    start = label.end() if label else 0
    stated = stated_at(line, sizes)
    head = line if stated is None else line[: stated[0]]
    end = len(head) if stated is None else len(re.sub(r"[ ,.]*[(\[:=–—-]? ?$", "", head))
    found = list(_split(line, start, end))
    for begin, stop in list(found):
        text = line[begin:stop].lstrip("*")
        group = re.fullmatch(r"(\*?\[)(.*)\][^\]]*", line[begin:stop])
        if text.startswith("[") and group:
            inner = begin + len(group[1])
            found += _split(line, inner, inner + len(group[2]))
    return found


def _split(line: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    depth, begin = 0, start
    for at in range(start, end):
        sign = line[at]
        depth += (sign in "([") - (sign in ")]")
        if depth == 0 and sign in ",;":
            yield begin, at
            begin = at + 2
    if begin < end:
        yield begin, end


def is_step(text: str) -> bool:
    """Whether a part of a row is worked, and not a join, a turn or the words of a repeat."""
    return not re.match(
        r"(?:then )?(?:rep(?:eat)? |join\b|turn\b|fasten off|do not turn|ending|omitting|with [A-Z]"
        r"|working|place marker|change to)",
        text,
    )
