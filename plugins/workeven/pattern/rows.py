"""The rows of sections and swatches: text blocks to notation trees, with their places.

Takes     the node under ``rows``, the vocabulary in force.
Gives     ``RowsRead``: the rows, and what belongs to single ones.
Problems  ``file-folded``, ``file-row-item``, ``file-row-comment``, ``file-value-missing``,
          ``name-unknown``, and what the notation reports.
From      design.md, "Rows are a text block".

One line of a block is one row. Blank lines part rows for the eye and mean nothing. A line that
begins with ``#`` is a problem: inside a block YAML knows no comments, and a row that somebody took
out with ``#`` should not slip away unseen.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from types import MappingProxyType

from workeven.notation.explained import explained
from workeven.notation.parser import parse_row
from workeven.notation.tree import Row, SpecialStitch
from workeven.notation.vocabulary import Vocabulary
from workeven.pattern.reading import Reading, blank_before, entries, items, words
from workeven.pattern.records import RowNote
from workeven.problems import Problem, Span
from workeven.problems.words import quote
from workeven.records import record, replace
from workeven.source import Node
from workeven.source.refusals import row_item
from workeven.source.tree import BLOCK, FOLDED, PLAIN

_COMMENT = re.compile(r"\s+#")


@record
class RowsRead:
    """Rows in order; notes by the row's place among them; the stitches that they explain.

    ``whole`` is false when a row could not even be told from its neighbours: then those that
    follow count on something that is not there. ``opening``: nothing is worked in them yet.
    """

    rows: tuple[Row, ...]
    notes: tuple[RowNote, ...]
    whole: bool
    explained: tuple[SpecialStitch, ...] = ()
    opening: bool = False


def read_rows(
    reading: Reading,
    node: Node,
    vocabulary: Vocabulary,
    piece: str | None,
    told: Mapping[str, SpecialStitch] = MappingProxyType({}),
    *,
    opening: bool = True,
) -> RowsRead:
    """The rows under a key ``rows``: a block, a line, or a list of either with notes.

    ``told`` are the stitches that rows before have explained; ``opening``: no such row works
    anything, so that a sentence in front of these can speak of none.
    """
    known = dict(told)
    rows: list[Row] = []
    notes: list[RowNote] = []
    unread = _unread(reading)
    for part in items(node) or (node,):
        table = entries(part)
        work = table["work"].value if "work" in table else part
        first = len(rows)
        if not isinstance(work.value, str):
            continue
        for text, span in _lines(reading, work, piece):
            said = explained(text, span, vocabulary, known, opening=opening)
            vocabulary = said.vocabulary
            known |= {stitch.name: stitch for stitch in said.stitches}
            parsed = parse_row(text, span, vocabulary, said.text, opening=opening)
            found = (*said.problems, *parsed.problems)
            reading.problems.extend(_in_piece(problem, piece) for problem in found)
            if parsed.value is not None:
                rows.append(parsed.value)
                opening = opening and parsed.value.before_the_rows
        if len(rows) > first and ("note" in table or "video" in table):
            notes.append(_note(reading, part, label_of(rows[first]), first))
    if not rows and _unread(reading) == unread:
        reading.problem(
            "file-value-missing",
            reading.source.span(node),
            "There is no row under `rows`.",
            expected="The rows, one a line.",
            mend="Write the rows, or delete the section.",
            piece=piece,
        )
    whole = bool(rows) and _unread(reading) == unread
    new = tuple(stitch for name, stitch in known.items() if name not in told)
    return RowsRead(
        rows=tuple(rows), notes=tuple(notes), whole=whole, explained=new, opening=opening
    )


def _unread(reading: Reading) -> int:
    """How often rows ran together or were cut so far."""
    return sum(problem.code in ("file-folded", "file-row-item") for problem in reading.problems)


def named_notes(
    reading: Reading, node: Node | None, rows: tuple[Row, ...], piece: str
) -> tuple[RowNote, ...]:
    """``row_notes``: what belongs to single rows, by the label that they carry."""
    labels = {label_of(row).casefold(): at for at, row in reversed(list(enumerate(rows)))}
    labels.pop("", None)
    notes = []
    for name, entry in entries(node).items():
        at = labels.get(_plain_label(name).casefold())
        if at is None:
            spoken = [label_of(row) for row in rows if label_of(row)]
            reading.unknown(
                entry.key,
                "row",
                dict.fromkeys(spoken),
                "Rows with a name in this section",
                piece=piece,
                name=name,
            )
            continue
        notes.append(_note(reading, entry.value, label_of(rows[at]), at))
    return tuple(notes)


def label_of(row: Row) -> str:
    """The label as it is written, without what stands in brackets or the colon; "" if none."""
    if row.label is None:
        return ""
    if row.label.name is not None:
        return row.label.name
    return _plain_label(row.text[row.label.start : row.label.end])


def _plain_label(text: str) -> str:
    return re.sub(r"\s*\((?:RS|WS)\)\s*", "", text, flags=re.IGNORECASE).strip().rstrip(":.–- ")


def _note(reading: Reading, table: Node, label: str, at: int) -> RowNote:
    video = reading.node(table, "video")
    return RowNote(
        row=label,
        note=reading.text(table, "note"),
        video=reading.seconds(video),
        span=reading.source.span(table),
        at=at,
        video_span=None if video is None else reading.source.span(video),
    )


def _lines(reading: Reading, node: Node, piece: str | None) -> Iterator[tuple[str, Span]]:
    """Each row's text with its place."""
    source = reading.source
    if node.style == BLOCK:
        for text, span in source.block_lines(node):
            if text.startswith("#"):
                reading.problem(
                    "file-row-comment",
                    span,
                    f"{quote(text)} is a line of the rows: inside a | block there are no comments.",
                    expected="Rows alone, one a line.",
                    mend="Delete the line, or say it in `note`.",
                    piece=piece,
                )
            else:
                yield text, span
    elif node.style == FOLDED or node.start[0] != node.end[0]:
        reading.problem(
            "file-folded",
            source.span(node),
            "YAML joins these lines to one, so the rows run together.",
            expected="Rows in a | block, one a line.",
            mend="Write `|` behind the colon, and the rows below it, one a line and indented.",
            piece=piece,
        )
    elif node.style == PLAIN and _COMMENT.match(source.after(node)):
        reading.problems.append(_in_piece(_cut(reading, node), piece))
    elif words(node):
        start = blank_before(node)
        yield words(node), source.stretch(node, start, start + len(words(node)))


def _cut(reading: Reading, node: Node) -> Problem:
    """``sc in next st with colour #2``: YAML takes the rest for a comment."""
    return row_item(reading.source.span(node), reading.source.after_start(node))


def _in_piece(problem: Problem, piece: str | None) -> Problem:
    return problem if piece is None else replace(problem, piece=piece)


def stitches_used(rows: tuple[Row, ...]) -> frozenset[str]:
    """The names of all stitches that these rows speak of."""
    return frozenset(term.name for row in rows for term in row.terms)
