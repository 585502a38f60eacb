"""A pasted text as the ``pieces`` of a pattern file.

Takes     ``Pasted``.
Gives     ``written``: YAML.
Problems  none.
From      the pattern schema, ``pieces``.

Words of the text that are neither row, heading nor note stand in comments that begin with ``# >``;
what is said of the text in comments that do not.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from workeven.notation.stream import LONGEST
from workeven.pasted.read import Part, Pasted, PastedNote, PastedPiece, PastedRow
from workeven.problems.words import quote
from workeven.source.scalar import scalar

#: a block of rows, below the limit of a single value
_LONGEST_BLOCK = LONGEST - 500
_LONGEST_NAME = 40
#: what is left of a name for a number behind it
_ROOM = 32
_MAKE = re.compile(r"\bmake (\d{1,3})\b", re.IGNORECASE)


def written(pasted: Pasted, file: str) -> str:
    """The YAML of a pasted text; ``file`` is what it came from."""
    lines = [f"# The rows of {quote(file)}, as the `pieces` of a pattern file."]
    if pasted.sizes:
        lines.append(f"# They hold numbers for {len(pasted.sizes)} sizes: name these in `sizes`.")
    if pasted.loose:
        lines.append("# What is no row, and stands below no heading that has any:")
        lines.extend(f"# > {one.text}" for one in pasted.loose)
    lines.append("pieces:" if pasted.pieces else "# There is no row in it.")
    taken: dict[str, int] = {}
    for piece in pasted.pieces:
        lines.extend(_piece(piece, _name(piece.parts[0].title, taken)))
    return "\n".join(lines)


def _piece(piece: PastedPiece, name: str) -> Iterator[str]:
    title = piece.parts[0].title or ""
    yield f"  {name}:"
    if make := _MAKE.search(title):
        yield f"    make: {int(make[1]) or 1}"
    yield f"    worked: {piece.worked}"
    yield "    sections:"
    for part in piece.parts:
        yield from _section(part)


def _name(title: str | None, taken: dict[str, int]) -> str:
    """A key made of a heading, unlike those of other pieces."""
    words = re.findall(r"[a-z0-9]+", _MAKE.sub("", title or "").lower())
    plain = "_".join(words)[:_LONGEST_NAME].strip("_")
    name = plain if plain[:1].isalpha() else f"piece_{plain}".strip("_")
    taken[name] = number = taken.get(name, 0) + 1
    # "cuff_2" may itself be a heading: the name that is made is counted as well
    return name if number == 1 else _name(f"{name[:_ROOM]}_{number}", taken)


def _section(part: Part) -> Iterator[str]:
    """One section: its title, the note above its rows, its rows, what stands behind them."""
    first = next(at for at, one in enumerate(part.entries) if isinstance(one, PastedRow))
    last = max(at for at, one in enumerate(part.entries) if isinstance(one, PastedRow))
    above = [one.text for one in part.entries[:first]]
    keys = [
        *([f"title: {scalar(part.title)}"] if part.title else []),
        *([f"worked: {part.worked}"] if part.worked else []),
    ]
    blocks = tuple(_blocks(part.entries[first : last + 1]))
    note, kept = _fitting(above)
    keys += [f"note: {scalar(note)}"] if note else []
    marks = [
        f"Line {row.line} is not understood: {quote(row.text)}." for row in part.rows if row.problem
    ]
    indent = "      - "
    for key in keys:
        yield indent + key
        indent = "        "
    margin = indent.replace("-", " ") if keys else "      "
    yield from (f"{margin}# {text}" for text in (*(f"> {one}" for one in kept), *marks))
    yield from _rows(blocks, indent)
    for one in part.entries[last + 1 :]:
        yield f"        # > {one.text}"


def _fitting(notes: list[str]) -> tuple[str, list[str]]:
    """Notes as one text, and those for which there is no room in it."""
    text = ""
    kept: list[str] = []
    for note in notes:
        longer = f"{text} {note}".strip()
        if kept or len(longer) > _LONGEST_BLOCK:
            kept.append(note)
        else:
            text = longer
    return text, kept


def _blocks(
    entries: tuple[PastedRow | PastedNote, ...],
) -> Iterator[tuple[list[str], list[str]]]:
    """Rows in blocks, each with the notes that stand above it."""
    notes: list[str] = []
    rows: list[str] = []
    for entry in entries:
        is_row = isinstance(entry, PastedRow)
        if rows and (
            not is_row or sum(map(len, rows)) + len(rows) + len(entry.text) > _LONGEST_BLOCK
        ):
            yield rows, notes
            rows, notes = [], []
        (rows if is_row else notes).append(entry.text)
    yield rows, notes


def _rows(blocks: tuple[tuple[list[str], list[str]], ...], indent: str) -> Iterator[str]:
    """The key ``rows``: one block, or a list of blocks where notes stand between."""
    inner = " " * len(indent)
    if len(blocks) == 1:
        yield f"{indent}rows: |"
        yield from (f"{inner}  {row}" for row in blocks[0][0])
        return
    yield f"{indent}rows:"
    for rows, notes in blocks:
        note, kept = _fitting(notes)
        yield from (f"{inner}  # > {one}" for one in kept)
        if not note:
            yield f"{inner}  - |"
            yield from (f"{inner}    {row}" for row in rows)
            continue
        yield f"{inner}  - work: |"
        yield from (f"{inner}      {row}" for row in rows)
        yield f"{inner}    note: {scalar(note)}"
