"""``workeven read``: rows pasted from a document, as the ``pieces`` of a pattern file.

Takes     the words behind ``read``.
Gives     ``add_read``.
Problems  those of a text that is none, and of rows that are not understood, on standard error.
From      the guide, "From a document".
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from workeven.commands.answer import (
    CANNOT_RUN,
    ERRORS,
    OK,
    WORKED,
    CannotRun,
    Report,
    add_rows,
    numbered,
    one_of,
    our_bug,
)
from workeven.problems.words import quote

if TYPE_CHECKING:
    from workeven.pasted import Pasted

_TYPED = "-"


def add_read(commands: argparse._SubParsersAction[Any]) -> None:
    """The words of the command."""
    read = commands.add_parser(
        "read",
        allow_abbrev=False,
        help="turn pasted rows into a pattern's",
        description="Turn rows pasted from a document into the `pieces` of a pattern file. The "
        "file is printed; what is not understood keeps its place in it, and is told beside it. "
        "Exit status: 0 every row is understood, 1 some are not, 2 could not run.",
    )
    read.add_argument(
        "file",
        nargs="?",
        default=_TYPED,
        metavar="FILE",
        help="a text file; - or none: what is typed",
    )
    read.add_argument(
        "--worked",
        type=one_of(WORKED),
        metavar="HOW",
        help=f"one of: {'; '.join(WORKED)} (default: that in which the rows come out)",
    )
    add_rows(read)
    read.set_defaults(run=_read)


def _read(options: argparse.Namespace) -> Report:
    from workeven import pasted, source
    from workeven.report import text

    typed = _typed() if options.file == _TYPED else None
    name = "what was typed" if options.file == _TYPED else options.file
    document = source.document(name, typed)
    if document.value is None:
        told = "\n".join(map(text.problem_text, document.problems))
        return Report(text="", status=CANNOT_RUN, complaints=(told,))
    with our_bug(options.file):
        found = pasted.read(
            document.value,
            file=options.file,
            terms=options.terms,
            sizes=options.sizes,
            stitches=tuple(options.stitches),
            worked=options.worked,
        )
        written = pasted.written(found, name)
    return Report(
        text=written,
        status=ERRORS if any(row.problem for row in found.rows) else OK,
        complaints=tuple(_told(found, options.file)),
    )


def _typed() -> bytes:
    """What is typed or piped in, and no more of it than a document may hold."""
    if sys.stdin is None:
        raise CannotRun("Nothing is piped in: name a file.")
    if sys.stdin.isatty():
        sys.stderr.write("Paste the rows; end with Ctrl-D on a line of its own.\n")
    from workeven.source.characters import LARGEST

    return sys.stdin.buffer.read(LARGEST + 1)


def _told(found: Pasted, file: str) -> Iterator[str]:
    """What is not understood, what was taken for a note, and the sum."""
    from workeven.report import text

    for row in found.rows:
        if row.problem:
            yield text.problem_text(row.problem)
    for note in (*found.loose, *found.notes):
        yield f"{file}:{note.line}: no row, kept as a note: {quote(note.text)}"
    wrong = sum(row.problem is not None for row in found.rows)
    yield (
        f"{numbered(len(found.rows), 'row')}, {wrong or 'none'} of them not understood; "
        f"{numbered(len(found.loose) + len(found.notes), 'note')}."
    )
