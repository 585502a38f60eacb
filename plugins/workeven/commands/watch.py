"""``workeven watch``: the counts of a pattern, printed anew each time its file is saved.

Takes     the words behind ``watch``.
Gives     ``add_watch``.
Problems  those of the pipeline, as text; what cannot be watched is a ``CannotRun``.
From      the guide, "In your editor".

The files are looked at a few times a second, which costs nothing and works on every disk. Editors
save in steps, or put a new file in the place of the old: so a change is read once nothing has
changed between two looks, and a file that is gone for a moment is waited for.
"""

from __future__ import annotations

import argparse
import os
import sys
import time
from typing import TYPE_CHECKING, Any

from workeven.commands.answer import OK, CannotRun, Report, numbered, one_pattern, our_bug
from workeven.problems.words import shown

if TYPE_CHECKING:
    from workeven.source.collection import PatternFile

#: seconds between two looks
_BETWEEN = 0.25
#: looks after which a file that is gone is told to be
_GONE = 4


def add_watch(commands: argparse._SubParsersAction[Any]) -> None:
    """The words of the command."""
    watch = commands.add_parser(
        "watch",
        allow_abbrev=False,
        help="show counts while you write",
        description="Print the stitches of every row in every size, and all problems, each time "
        "the pattern is saved. Ctrl-C ends it. Exit status: 0, or 2 could not run.",
    )
    watch.add_argument("pattern", metavar="PATTERN", help="a pattern's folder or its file")
    watch.set_defaults(run=_watch)


def _watch(options: argparse.Namespace) -> Report:
    from workeven import source

    _, one = one_pattern(options.pattern)
    seen: object = None
    missed = 0
    try:
        while True:
            stamp = source.stamp(one)
            if not stamp or stamp[0][0] != one.file:
                missed += 1
                if missed == _GONE:
                    _say(f"{shown(one.file)} is gone: waiting until it is back.")
                    seen = None
            elif stamp != seen:
                missed = 0
                time.sleep(_BETWEEN / 2)
                if source.stamp(one) == stamp:
                    seen = stamp
                    one = _told(options.pattern, one)
                continue
            else:
                missed = 0
            time.sleep(_BETWEEN)
    except KeyboardInterrupt:
        return Report(text="", status=OK)
    except BrokenPipeError:
        return Report(text="", status=OK)


def _told(path: str, before: PatternFile) -> PatternFile:
    """Print what the pattern is now, and give it, with the studio that lies beside it now."""
    try:
        return _counted(path)
    except CannotRun as fault:  # gone again, or a mistake of ours: the next save may do
        _say(str(fault))
        return before


def _counted(path: str) -> PatternFile:
    """Count the pattern and print it."""
    from workeven import pipeline
    from workeven.report import colour, text
    from workeven.report.piece_table import piece_tables

    collection, one = one_pattern(path)
    with our_bug(one.file):
        counted = pipeline.counted(one.file, one.studio)
        verdict = pipeline.check(collection)
        problems = text.in_order(verdict.problems)
        wanted = colour.wanted("auto", os.environ, terminal=sys.stdout.isatty())
        show = colour.problem_painted if wanted else text.problem_text
        tables = piece_tables(counted.value) if counted.value else ""
    total = text.totals(problems, numbered(1, "pattern"))
    told = (f"--- {time.strftime('%H:%M:%S')}", tables, *map(show, problems), total)
    _say("\n".join(part for part in told if part))
    return one


def _say(words: str) -> None:
    """Print at once, for who looks on."""
    sys.stdout.write(f"{words}\n")
    sys.stdout.flush()
