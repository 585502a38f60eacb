"""What the figures of a row come from: its number, its count, its words, what stands beside them.

Takes     a ``ProvenRow`` with its address and its place in the file, a text of it on the page.
Gives     ``of_row``: the origins of the figures of that text, in their order.
Problems  none.
From      design.md, "A page prints the designer's own words": counts and row numbers are added.

A row's words are the designer's own, at her line of the file, but for what stands in braces, for
lengths, which have the other system beside them, and for how many rows a length comes to.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from workeven.notation.tree import Row, UntilCount, UntilMeasures
from workeven.proof import ProvenRow
from workeven.publish.origins.blocks import Block, has_figure
from workeven.publish.pages import rows

_DIGITS = re.compile(r"\d+(?:[.,]\d+)*[¼-¾⅐-⅞]?|[¼-¾⅐-⅞]")


class RowHere(NamedTuple):
    """A row of the page: its address, what the proof knows of it, where its notes stand.

    ``made``: grading has made it, and the designer wrote no words.
    """

    address: str
    proven: ProvenRow
    section: str
    made: bool


def figures_in(text: str) -> str:
    """The figures of a text, as they follow each other.

    >>> figures_in("ch 4½, sc in 2nd ch; 60 (66, 72) sts")
    '4½ 2 60 66 72'
    """
    return " ".join(_DIGITS.findall(text))


def of_row(here: RowHere, block: Block) -> tuple[str, ...]:
    """The origins of one text of a row; () where we know of none."""
    address, line = here.address, here.proven.row.span.line
    match block.part, block.tag:
        case "we-no", _:
            return (f"{address}: numbers",)
        case "we-count", _:
            return tuple(_count(here, block.text))
        case "we-words", "p":
            return (f"{address}: shaping",) if here.made else tuple(_words(address, here.proven))
        case "we-words", "abbr@title":
            return (f"{address}: what its stitches are",)
        case "we-into", _:
            return (f"{address}: worked into",)
        case "we-mult", _:
            return (f"{address}: multiple",)
        case "we-note", "p":
            return _note(here, block.text, line)
        case _:
            return ()


def _count(here: RowHere, text: str) -> Iterator[str]:
    """Stitches first, then each kind of space, then what is stated in other units."""
    for part in text.split(", ") if "(" not in text else _parts(text):
        kind = re.sub(r"^[\d–][^A-Za-z]*", "", part)
        if kind.rstrip("s") in {"st", "ch"}:
            yield f"{here.address}: stitches"
        elif kind.rstrip("s").endswith("sp"):
            yield f"{here.address}: {kind.rstrip('s')}s"
        else:
            yield f"{here.address}: stated {kind}"


def _parts(text: str) -> list[str]:
    """A list cut at the commas that stand outside of brackets."""
    return re.split(r", (?![^()]*\))", text)


def _words(address: str, proven: ProvenRow) -> Iterator[str]:
    """The designer's figures, and those that stand in the place of something of hers."""
    row = proven.row
    start, end = rows.sentence(row)
    at = start
    for first, last, origins in sorted(_placed(address, proven), key=lambda one: (one[0], -one[1])):
        if at <= first and last <= end:
            yield from _own(row, at, first)
            yield from origins
            at = last
    yield from _own(row, at, end)
    if isinstance(rows.until_of(row), UntilCount):
        yield f"{address}: times"


def _placed(address: str, proven: ProvenRow) -> Iterator[tuple[int, int, tuple[str, ...]]]:
    row = proven.row
    if row.only is not None:
        head = row.text[: row.text.index(":") + 1]
        alone = f"line {row.span.line} where no size is chosen: {figures_in(head)}"
        yield 0, len(head), (alone,) if has_figure(head) else ()
    until = rows.until_of(row)
    if isinstance(until, UntilMeasures):
        length = until.length
        what = (
            f"length as written: {row.text[length.start : length.end]}"
            if length.formula is None
            else f"length: {row.text[length.start : length.end].strip('{}')}"
        )
        end = rows.length_end(row, length)
        behind = tuple(_own(row, end, until.end))
        told = (f"{address}: {what}", *behind, f"{address}: times")
        yield length.start, max(end, until.end), told
    if (every := rows.apart(row)) is not None:
        what = f"{address}: length as written: {row.text[every.start : every.end]}"
        yield every.start, rows.length_end(row, every), (what,)
    for said in rows.written_out(row, len(proven.per_size.sizes)):
        what = f"{address}: length as written: {row.text[said.start : said.end]}"
        yield said.start, said.end, (what,)
    for amount in row.amounts:
        written = row.text[amount.start : amount.end]
        if amount.formula is not None:
            yield amount.start, amount.end, (f"{address}: {written.strip('{}')}",)
        elif amount.by_size():
            yield amount.start, amount.end, (f"line {row.span.line} by size: {written}",)


def _own(row: Row, start: int, end: int) -> Iterator[str]:
    if has_figure(row.text[start:end]):
        yield f"line {row.span.line}: {figures_in(row.text[start:end])}"


def _note(here: RowHere, text: str, line: int) -> tuple[str, ...]:
    if text.startswith("Evenly"):
        return (f"{here.address}: spacing",)
    if text.startswith("Read this as"):
        return (f"{here.address}: reading",)
    if text.startswith("Video at"):
        return (f"{here.section}: video",)
    return (f"{here.section}: row note near line {line}",)
