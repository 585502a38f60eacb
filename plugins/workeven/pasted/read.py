"""A pasted text as pieces, parts and rows, with every word of it somewhere.

Takes     the text of a document; its terms, sizes, special stitches, how it is worked, as far as
          they are known.
Gives     ``Pasted``.
Problems  ``row-not-understood`` and what else the notation reports of a row, at its line.
From      the guide, "From a document"; common practice of printed patterns for what is a heading.

A line is a heading, a row or a note for the maker. It is taken for a note only where no word of it
belongs to rows, or where it begins as a note does; what else is not understood stays among the
rows, in its place. A part that begins with a chain or a ring of its own begins a piece.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from workeven.notation.tree import (
    Aside,
    Chain,
    Formed,
    Foundation,
    JoinRound,
    MagicRing,
    Turn,
    WorkedRow,
)
from workeven.notation.vocabulary import Terms, Vocabulary
from workeven.pasted.numbered import Numbered
from workeven.pasted.tidied import Line, tidied
from workeven.pasted.understood import Reader, Understood, labelled
from workeven.pasted.wrapped import Joined, rows_of
from workeven.problems import Problem, Severity
from workeven.problems.catalogue import severity
from workeven.proof.counting import count, numbered_sizes
from workeven.records import record, replace

WAYS = ("flat rows", "joined rounds", "joined rounds, turned", "spiral rounds")
#: a piece of more rows is not counted in each way to find how it is worked
_MOST_TRIED = 400
#: so many pieces are no pattern, and are not counted either
_MOST_PIECES = 50
#: a longer line fits in no value of a pattern file
_LONGEST_ROW = 9_000


@record
class PastedRow:
    """One row as it is to be written; ``problem`` says what of it is not understood."""

    text: str
    line: int
    problem: Problem | None


@record
class PastedNote:
    """Words for the maker, or without a place of their own (a page number)."""

    text: str
    line: int


@record
class Part:
    """What stands under one heading, in order. ``worked`` is set where the heading says it."""

    title: str | None
    line: int
    entries: tuple[PastedRow | PastedNote, ...]
    worked: str | None = None

    @property
    def rows(self) -> tuple[PastedRow, ...]:
        """The rows alone."""
        return tuple(entry for entry in self.entries if isinstance(entry, PastedRow))


@record
class PastedPiece:
    """Parts that are worked on from one start."""

    worked: str
    parts: tuple[Part, ...]


@record
class Pasted:
    """A whole text. ``loose`` is what belongs to no row: page numbers, parts without rows."""

    pieces: tuple[PastedPiece, ...]
    loose: tuple[PastedNote, ...]
    sizes: tuple[str, ...]

    @property
    def rows(self) -> tuple[PastedRow, ...]:
        """All rows."""
        return tuple(row for piece in self.pieces for part in piece.parts for row in part.rows)

    @property
    def notes(self) -> tuple[PastedNote, ...]:
        """All that was taken for a note among the rows."""
        parts = (part for piece in self.pieces for part in piece.parts)
        return tuple(one for part in parts for one in part.entries if isinstance(one, PastedNote))


def read(
    text: str,
    *,
    file: str,
    terms: Terms = "us",
    sizes: tuple[str, ...] | None = None,
    stitches: tuple[str, ...] = (),
    worked: str | None = None,
) -> Pasted:
    """Read a pasted text; ``stitches`` are as ``workeven count`` takes them."""
    lines = tidied(text, Numbered())
    named = sizes or numbered_sizes("\n".join(line.text for line in lines)) or ()
    special = tuple(one.partition("=")[0].strip() for one in stitches if "=" in one)
    reader = Reader(file, Vocabulary(terms, special, named))
    parts = _parts([line for line in lines if line.sort != "page"], reader)
    loose = [PastedNote(text=one.text, line=one.number) for one in lines if one.sort == "page"]
    grouped: list[list[Part]] = []
    for part, starts in parts:
        if not part.rows:
            loose.extend(_of_part(part))
        elif not grouped or (starts and part.title):
            grouped.append([part])
        else:
            grouped[-1].append(part)

    def way(piece: Sequence[Part]) -> str:
        if worked or len(grouped) > _MOST_PIECES:
            return worked or _likely([row.text for part in piece for row in part.rows])
        return _way(piece, terms, sizes or named or None, stitches)

    pieces = tuple(PastedPiece(worked=way(piece), parts=tuple(piece)) for piece in grouped)
    loose.sort(key=lambda one: one.line)
    return Pasted(pieces=pieces, loose=tuple(loose), sizes=named)


def _of_part(part: Part) -> Iterator[PastedNote]:
    """A part without rows, as loose words."""
    if part.title:
        yield PastedNote(text=part.title, line=part.line)
    for entry in part.entries:
        yield PastedNote(text=entry.text, line=entry.line)


# --- parts ---------------------------------------------------------------------------------


def _parts(lines: Sequence[Line], reader: Reader) -> list[tuple[Part, bool]]:
    """Every part, and whether its first row begins a piece."""
    found: list[tuple[Part, bool]] = []
    part = Part(title=None, line=1, entries=())
    rows: list[Understood] = []
    at = 0
    while at < len(lines):
        if title := _heading(lines, at, reader):
            found.append(_closed(part, rows, reader))
            worked = _said(reader.read(title))
            part = Part(title=title, line=lines[at].number, entries=(), worked=worked)
            rows = []
            at += 1
            continue
        end = at
        while end < len(lines) and _is_text(lines[end]):
            if end > at and _heading(lines, end, reader):
                break
            end += 1
        entries: list[PastedRow | PastedNote] = []
        for joined in rows_of([_bare(line) for line in lines[at:end]], reader):
            if isinstance(_entry(joined, reader, entries), PastedRow):
                rows.append(joined.row)
        part = replace(part, entries=(*part.entries, *entries))
        at = max(end, at + 1)
    return [*found, _closed(part, rows, reader)]


def _closed(part: Part, rows: Sequence[Understood], reader: Reader) -> tuple[Part, bool]:
    """A part, and whether it begins a piece; a heading that the rows need is a row itself."""
    if part.title and any(_over_both(row.text) for row in rows):
        heading = reader.read(part.title)
        if heading.good and _MAKE.search(part.title):
            row = PastedRow(text=heading.text, line=part.line, problem=None)
            part = replace(part, title=None, entries=(row, *part.entries))
    return part, bool(rows) and _begins_piece(rows[0])


#: "Leg (make 2)" counts for rows that are worked over both
_MAKE = re.compile(r"\(make \d+\)", re.IGNORECASE)
_BOTH = re.compile(
    r"\b(?:both|other|second|2nd|first|1st) (?:leg|arm|part|piece|half)", re.IGNORECASE
)


def _over_both(text: str) -> bool:
    return _BOTH.search(text) is not None


def _is_text(line: Line) -> bool:
    return line.sort == "text" and not _RULE.fullmatch(line.text)


def _bare(line: Line) -> Line:
    """A line that can stand among rows: YAML's ``#`` and a bullet like a star are taken off."""
    marked = _MARKED.fullmatch(line.text)
    text = (next(filter(None, marked.groups()), "") if marked else "") or line.text
    text = text.lstrip("# ")
    if found := _STAR_BULLET.match(text):
        text = found["text"].lstrip("# ")
    return line._replace(text=text)


def _entry(
    joined: Joined, reader: Reader, before: list[PastedRow | PastedNote]
) -> PastedRow | PastedNote:
    """Add one row, or what is rather a note, to those before it, and give it."""
    row, line = joined.row, joined.lines[0]
    entry: PastedRow | PastedNote
    last = before[-1] if before else None
    if len(row.text) > _LONGEST_ROW or (not row.good and _is_rather_a_note(row, reader)):
        entry = PastedNote(text=row.text, line=line.number)
    elif not row.good and isinstance(last, PastedNote) and _runs_on(last.text, row.text):
        entry = PastedNote(text=f"{last.text} {row.text}", line=last.line)
        before.pop()
    else:
        wrong = next((one for one in row.problems if _is_error(one)), None)
        entry = PastedRow(
            text=row.text,
            line=line.number,
            problem=None if wrong is None else _placed(wrong, joined),
        )
    before.append(entry)
    return entry


def _is_error(problem: Problem) -> bool:
    return severity(problem.code) is Severity.ERROR


def _placed(problem: Problem, joined: Joined) -> Problem:
    """A problem of joined lines, at the line of the text in which it lies."""
    column, line = problem.span.column, joined.lines[0]
    for one in joined.lines:
        line = one
        if column <= len(one.text) + 1:
            break
        column -= len(one.text) + 1
    wide = max(problem.span.end_column - problem.span.column, 1)
    column = line.column_in_text(column)
    span = replace(
        problem.span,
        line=line.number,
        end_line=line.number,
        column=column,
        end_column=column + wide,
    )
    return replace(problem, span=span)


# --- what is a heading, a note -------------------------------------------------------------

_RULE = re.compile(r"[^\w()\[\]]+")
_UNDERLINE = re.compile(r"[=~_-]{3,}")
_MARKED = re.compile(
    r"#{1,6}\s+(?P<hash>.*?)\s*#*|\*\*(?P<bold>[^*]+)\*\*:?|__(?P<under>[^_]+)__:?"
)
_STAR_BULLET = re.compile(r"\*\s+(?P<text>[^*]+)\Z")
_LONGEST_TITLE = 70
_LONGEST_MARKED = 200
_TITLE_WORDS = 8
_NO_TITLE = re.compile(
    r"(?:place|weave|sew|move|remove|cut|with|change|using|working|work|rep|repeat|note|leave|"
    r"join|turn|fasten|finish)\b",
    re.IGNORECASE,
)
_NOTE = re.compile(
    r"(?:gauge|tension|stitch guide|finished (?:size|measurements?))\s*:|"
    r"(?:notes?|nb|n\.b\.|tips?|hint|the|this|these|those|if|you|your|it|its|please|remember|there)"
    r"\b(?!\s+(?:is\s+)?\d)",
    re.IGNORECASE,
)
_WHOLE = re.compile(r"[.!?:][)”’\"']*\Z")
_SAID = 2


def _heading(lines: Sequence[Line], at: int, reader: Reader) -> str | None:
    """The words of a heading, without the marks around them; None where a line is none."""
    line = lines[at]
    if not _is_text(line):
        return None
    if (marked := _MARKED.fullmatch(line.text)) and not _star_row(line.text, reader):
        title = next(filter(None, marked.groups()), "").strip()
        if title and len(title) <= _LONGEST_MARKED and not _is_row(title, reader):
            return title if _RULE.fullmatch(title) is None else None
        return None
    text = line.text
    if len(text) > _LONGEST_TITLE or len(text.split()) > _TITLE_WORDS or labelled(text):
        return None
    row = reader.read(text)
    if row.good and not row.only_named:
        return None
    below = lines[at + 1] if at + 1 < len(lines) else None
    if below and _UNDERLINE.fullmatch(below.text):
        return text
    if _NO_TITLE.match(text) or text.endswith((".", ",", ";", "!", "?")):
        return None
    alone = at == 0 or not _is_text(lines[at - 1]) or bool(_MARKED.fullmatch(lines[at - 1].text))
    return text if _reads_as_title(text, row, reader, alone=alone) else None


def _reads_as_title(text: str, row: Understood, reader: Reader, *, alone: bool) -> bool:
    """``CUFF``, ``Cuff:``; ``Cuff`` where it stands apart. Words of rows make no heading."""
    named = row.good and row.only_named
    if not text[:1].isupper() or (reader.of_rows(text) and not named):
        return False
    if not any(len(word) > _SAID and word.isalpha() for word in re.split(r"\W+", text)):
        return False
    return text.isupper() or text.endswith(":") or alone


def _is_row(text: str, reader: Reader) -> bool:
    """Whether words that are marked as a heading are a row all the same."""
    row = reader.read(text)
    return labelled(text) or (row.good and not row.only_named)


def _star_row(text: str, reader: Reader) -> bool:
    """Whether a line that begins and ends with stars is a row all the same."""
    return text.startswith("*") and reader.read(text).good


def _said(row: Understood) -> str | None:
    """How a heading says that its part is worked."""
    return row.body.change if isinstance(row.body, WorkedRow) else None


def _is_rather_a_note(row: Understood, reader: Reader) -> bool:
    return row.only_noted or _is_note(row.text, reader)


def _is_note(text: str, reader: Reader) -> bool:
    if labelled(text):
        return False
    if _NOTE.match(text):
        return True
    return not reader.of_rows(text) and any(character.isalpha() for character in text)


def _runs_on(note: str, text: str) -> bool:
    """Whether a line goes on with a note that is not at its end."""
    return _WHOLE.search(note) is None and not labelled(text) and not text[:1].isupper()


# --- pieces --------------------------------------------------------------------------------


def _begins_piece(row: Understood) -> bool:
    """A chain by itself, joined or not; a ring; a foundation row."""
    if not isinstance(row.body, WorkedRow):
        return False
    steps = [step for step in row.body.steps if not isinstance(step, Aside)]
    if steps and isinstance(steps[0], MagicRing | Foundation):
        return True
    return (
        bool(steps)
        and isinstance(steps[0], Chain)
        and all(isinstance(step, Chain | JoinRound | Turn | Formed) for step in steps)
    )


def _way(
    parts: Sequence[Part], terms: Terms, sizes: tuple[str, ...] | None, stitches: tuple[str, ...]
) -> str:
    """How a piece is worked: the way in which most of its rows come out, the likeliest first."""
    texts = [row.text for part in parts for row in part.rows if row.problem is None]
    ways = sorted(WAYS, key=lambda way: way != _likely(texts))
    if len(texts) > _MOST_TRIED:
        return ways[0]
    rows = "\n".join(texts)

    def wrong(way: str) -> int:
        counted = count(rows, worked=way, terms=terms, sizes=sizes, stitches=stitches)
        return sum(map(_is_error, counted.problems))

    return min(ways, key=wrong)


def _likely(texts: Sequence[str]) -> str:
    """What the words of the rows speak of most."""

    def many(words: str) -> int:
        return sum(re.search(words, text, re.IGNORECASE) is not None for text in texts)

    if not many(r"\A\W*(?:rnds?|rounds?|rd)\b|\baround\b|\b(?:magic )?ring\b"):
        return WAYS[0]
    joined = many(r"\bjoin\b|\b(?:sl st|ss) (?:in|to|into) (?:the )?(?:first|1st|top|beg)")
    if not joined:
        return (
            WAYS[3]
            if many(r"\bturn\b") <= many(r"\baround\b|\A\W*(?:rnds?|rounds?)\b")
            else WAYS[0]
        )
    return WAYS[2] if many(r"\bturn\b") > joined // 2 else WAYS[1]
