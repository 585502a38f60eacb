"""Reads the lines of a test piece into the oracle's records, without anything of the engine.

Takes     ``Rows``: a text, a row a line, and its options.
Gives     ``read``: a ``Line`` for every line that is not blank.
Problems  none: what this reader does not know raises ``NotRead``, and the piece is not judged.
From      notation.md: Labels, Stated counts, Whole-row words, Whole pieces.

It knows the plain words of the trade and no more. Where words can be read in two ways it takes the
default; a text that says what cannot be (a list with a size missing, ``ch 5 (counts as 6 sts)``)
has that in ``Line.wrong``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from tests.oracle.structure import Count, Row, Stated, at_size
from tests.seeded.row_reading import TIMES, RowReader
from tests.seeded.words import NoSuchRow, NotRead, Rows, kinds_of


@dataclass(frozen=True, slots=True)
class Line:
    """One line: rows of its own, or earlier lines worked again.

    ``again`` holds places in the list of lines. ``label`` is the first and last row number written.
    ``until`` is the length up to which the line is repeated, as written, and whether it is that of
    the whole piece. ``wrong`` says, a size each, what the words contradict; ``unread`` what makes
    no sense in any size; ``borrows`` whether its turning chain stands at the end of the line
    before.
    """

    number: int
    rows: tuple[Row, ...] = ()
    again: tuple[int, ...] = ()
    times: Count = 1
    name: str = ""
    label: tuple[Count, Count] | None = None
    works: tuple[bool, ...] | None = None
    stated: Stated | None = None
    until: tuple[str, bool] | None = None
    wrong: tuple[str, ...] = ()
    unread: str = ""
    borrows: bool = False

    @property
    def numbered(self) -> bool:
        """Whether it is a row, and not only a starting chain, a ring or an aside."""
        return bool(self.again) or any(row.steps for row in self.rows)


def read(rows: Rows) -> list[Line]:
    """Every line of a piece; ``NotRead`` where one is not understood."""
    reader = _Reader(rows)
    for number, text in enumerate(rows.text.split("\n"), start=1):
        if text.strip():
            reader.line(number, text.strip())
    return reader.lines


def there_already(rows: Rows) -> tuple[tuple[str, Count], ...]:
    """What is there before the first row: one kind of stitch, or nothing."""
    if rows.start is None:
        return ()
    reader = _Reader(rows)
    found = re.fullmatch(rf"({reader.number}) (.+)", rows.start)
    if found is None or " of " in found[2] or "," in found[2]:
        raise NotRead(rows.start)
    place = reader.place(found[2])
    return (("sc" if place == "st" else place, reader.count(found[1])),)


_LABEL = re.compile(r"(Rows?|Rnds?|Rounds?) ([\d ,()–-]+?)(?: \((?:RS|WS)\))?: (.+)")
_ONLY = re.compile(r"sizes? (.+?) only: (.+)")
_NAME = re.compile(r"([A-Z][A-Za-z ]*): (.+)")
_UNTIL = re.compile(r",? ?(until piece measures|for) (\{[^}]*\}|[\d./ ]+(?:cm|mm|in))")
#: whole repeats, where the row that is named is the last of them
_ENDING = re.compile(r", ending with an? (?P<row>[A-Z][a-z]+ (?:row|rnd))")
_AGAIN = re.compile(r"(?:[Ww]ith [A-Z][a-z]*, )?(?:[Rr]ep|[Rr]epeat) (.+)")


class _Reader(RowReader):
    def __init__(self, rows: Rows) -> None:
        super().__init__(rows)
        self.lines: list[Line] = []

    def line(self, number: int, text: str) -> None:
        self.wrong, self.unread = [], ""
        try:
            line = self.labelled(number, text)
        except NoSuchRow:
            self.unread = text
            line = Line(number)
        sizes = range(self.sizes)
        wrong = tuple(next((why for why, at in self.wrong if at[size]), "") for size in sizes)
        line = replace(line, number=number, wrong=wrong if any(wrong) else ())
        self.lines.append(replace(line, unread=self.unread))

    def labelled(self, number: int, text: str) -> Line:
        """A line behind its label: ``Row 3:``, ``sizes S–L only:``, ``Dec rnd:``."""
        only = _ONLY.fullmatch(text)
        if only:
            return replace(self.labelled(number, only[2]), works=self.works(only[1]))
        label = _LABEL.fullmatch(text)
        if label:
            line = self.unlabelled(label[3])
            first, last = self.label(label[2])
            if label[1].endswith("s") and line.times == 1 and line.until is None:
                line = replace(line, times=self.rows_of(first, last, max(1, len(line.again))))
            return replace(line, label=(first, last))
        name = _NAME.fullmatch(text)
        if name:
            return replace(self.unlabelled(name[2]), name=name[1].lower())
        return self.unlabelled(text)

    def label(self, text: str) -> tuple[Count, Count]:
        """``3``, ``3 (4, 5)``, ``3-6``, ``25-28 (25-32)``."""
        spans = re.findall(r"(\d+)(?: ?[–-] ?(\d+))?", text)
        firsts = tuple(int(first) for first, _ in spans)
        lasts = tuple(int(last or first) for first, last in spans)
        if len(spans) == 1:
            return firsts[0], lasts[0]
        if len(spans) != self.sizes:
            self.unread = f"{text}: {self.sizes} sizes"
            return firsts[0], lasts[0]
        return firsts, lasts

    def rows_of(self, first: Count, last: Count, many: int) -> Count:
        """How often the rows of a line are worked in ``Rows 5-8:``."""
        times = []
        for size in range(self.sizes):
            rows = at_size(last, size) - at_size(first, size) + 1
            if rows < 1 or rows % many:
                raise NotRead("a range of rows")
            times.append(rows // many)
        return times[0] if len(set(times)) == 1 else tuple(times)

    def works(self, names: str) -> tuple[bool, ...]:
        """``S–L``, ``S and M``, ``XL``."""
        sizes = self.rows.sizes
        run = re.fullmatch(r"(\w+)[–-](\w+)", names)
        if run:
            named = [run[1], run[2]]
            chosen = range(*(sizes.index(one) for one in named if one in sizes))
            if all(one in sizes for one in named):
                return tuple(at in chosen or one == run[2] for at, one in enumerate(sizes))
        named = re.split(r", | and ", names)
        if not all(one in sizes for one in named):
            self.unread = f"{names}: no such size"
        return tuple(one in named for one in sizes)

    def unlabelled(self, text: str) -> Line:
        """A row, rows repeated, or an aside; with the count that is stated behind it."""
        again = _AGAIN.fullmatch(text)
        if again and not again[1].startswith("from *"):
            return self.again(again[1])
        body, stated = self.stated(text)
        until = _UNTIL.search(body)
        line = Line(0, stated=stated)
        if until:
            body = body.replace(until[0], "", 1).strip(" ,")
            line = replace(line, until=(until[2], until[1] != "for"))
        rows = tuple(self.row(body))
        return replace(line, rows=rows, borrows=self.borrows and bool(rows))

    def again(self, text: str) -> Line:
        """``last row 3 more times``, ``Rows 2 and 3 twice more``, ``Dec rnd until …``."""
        text, stated = self.stated(re.sub(r", changing colours? .+", "", text))
        line = Line(0, stated=stated)
        text = text.replace(", fasten off", "")
        ending = _ENDING.search(text)
        text = text if ending is None else text.replace(ending[0], "")
        until = _UNTIL.search(text)
        if until:
            text = text.replace(until[0], "").strip()
            line = replace(line, until=(until[2], until[1] != "for"))
        many = re.fullmatch(
            rf"(.+?) (?:({self.number}) (?:more )?times?|(once|twice)(?: more)?|"
            r"(three times|four times))",
            text,
        )
        times: Count = 1
        if many:
            text = many[1]
            times = self.count(many[2]) if many[2] else TIMES[many[3] or many[4]]
        which = self.which(text)
        if ending and (not which or self.lines[which[-1]].name != ending["row"].lower()):
            raise NotRead(ending[0])
        worked = [row for at in which for row in self.lines[at].rows]
        if not worked or any(self.lines[at].until for at in which):
            raise NotRead(text)
        if any(self.lines[at].borrows for at in which):
            raise NotRead("a row repeated whose chain stands in another")
        if any(row.begin for row in worked):
            raise NotRead("a beginning repeated")
        self.chain = None
        self.below = kinds_of(worked[-1].steps)
        return replace(line, again=tuple(which), times=times)

    def which(self, text: str) -> list[int]:
        """The places of the lines that are meant."""
        last = re.fullmatch(r"last (?:(\d) )?(?:rows?|rnds?|rounds?)", text)
        if last:
            return self.last_rows(int(last[1] or 1))
        numbers = re.fullmatch(r"(?:Rows?|Rnds?|Rounds?) (\d+)(?:(?: and |[-–])(\d+))?", text)
        if numbers:
            first = int(numbers[1])
            wanted = range(first, int(numbers[2] or first) + 1)
            return [self.numbered(one) for one in wanted]
        named = [at for at, line in enumerate(self.lines) if line.name == text.lower()]
        if not named and not re.fullmatch(r"[A-Za-z ]+ (?:row|rnd)", text):
            raise NotRead(text)
        if not named:
            raise NoSuchRow(text)
        return named[-1:]

    def last_rows(self, many: int) -> list[int]:
        """The last few lines that are rows; each of them must be one row."""
        found = [at for at, line in enumerate(self.lines) if line.numbered][-many:]
        if len(found) < many:
            raise NoSuchRow(f"last {many} rows")
        flat: list[int] = []
        for at in found:
            line = self.lines[at]
            if line.again and many == 1 and len(line.again) == 1:
                flat += line.again
            elif line.again or line.works is not None or (line.times != 1 and many > 1):
                raise NotRead("rows that stand for several")
            else:
                flat.append(at)
        return flat

    def numbered(self, wanted: int) -> int:
        """The line that is the row of a number, where all sizes agree."""
        row = 1
        for at, line in enumerate(self.lines):
            if not line.numbered:
                continue
            if line.label is not None and line is self.first_labelled():
                row = at_size(line.label[0], 0)
            if line.works is not None or not isinstance(line.times, int):
                raise NotRead("row numbers that differ by size")
            many = line.times * max(1, len(line.again))
            if row <= wanted < row + many:
                if line.again:
                    return line.again[(wanted - row) % len(line.again)]
                return at
            row += many
        raise NotRead(f"Row {wanted}")

    def first_labelled(self) -> Line | None:
        """The first row, if it has a written number."""
        first = next((line for line in self.lines if line.numbered), None)
        return first if first is not None and first.label is not None else None

    def stated(self, text: str) -> tuple[str, Stated | None]:
        """The text without the count stated at its end, and that count."""
        text = text.rstrip(".")
        found = re.fullmatch(r"(.*?)[,.]? ?[(\[]([^()\[\]]*)[)\]]", text)
        if found and _is_stated(found[1], found[2], self.sizes):
            figures = self.figures(found[2])
            if figures is not None:
                return found[1], figures
        found = re.fullmatch(r"(.*?)(?: [-–—=]|:) (\d[^=:]*)", text)
        if found:
            figures = self.figures(found[2])
            if figures is not None:
                return found[1], figures
        return text, None

    def figures(self, text: str) -> Stated | None:
        """``60``, ``60, 66, 72 sc``, ``20 (24) dc, 10 (12) ch-1 sps``."""
        found: list[tuple[str, Count]] = []
        rest = text.strip()
        while rest:
            part = re.match(
                r"((?:\d+|[-–—])(?:(?:, ?|[ (]+)(?:\d+|[-–—])\)?)*) ?([^\d(),][^,]*)?", rest
            )
            if part is None:
                return None
            unit = (part[2] or "").strip()
            if unit in ("", "sts", "st", "stitches"):
                kind = ""
            elif unit in ("ch", "chs"):
                kind = "ch"
            else:
                try:
                    kind = self.place(unit)
                except NotRead:
                    if found or not re.fullmatch(r"[a-z]+s", unit):
                        return None
                    raise
            found.append((kind, self.count(part[1])))
            rest = rest[part.end() :].strip(" ,")
        return Stated(tuple(found)) if found else None


def _is_stated(before: str, inside: str, sizes: int) -> bool:
    """Whether a bracket at the end of a row is a count, and not a list by size or an aside."""
    if not re.match(r"\d|[-–—],", inside):
        return False
    bare = re.fullmatch(r"[\d ,–—-]+", inside) is not None
    return not (bare and sizes > 1 and re.search(r"(?<!ch-)\d\)?$", before))
