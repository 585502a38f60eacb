"""``workeven check``: all problems of all files, in the form that its reader takes.

Takes     the words after ``workeven check``.
Gives     ``add_check``.
Problems  those of the pipeline; what cannot be run is a ``CannotRun``.
From      the guide, "On the command line" and "Checked before you publish".
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from workeven.commands.answer import (
    CANNOT_RUN,
    CannotRun,
    Report,
    add_format,
    missing,
    numbered,
    one_of,
    our_bug,
    status_of,
    summary_size,
)
from workeven.problems import Problem
from workeven.problems.words import quote

if TYPE_CHECKING:
    from workeven.cache.verdicts import Verdicts
    from workeven.source import Collection

_FORMATS = ("text", "json", "github", "sarif")
_COLORS = ("auto", "always", "never")
_TYPED = "-"
#: so many patterns and more are looked up among those of earlier checks; fewer are proven sooner
#: than all that a verdict hangs on is read
_MANY = 4


def add_check(commands: Any) -> None:  # noqa: ANN401 -- argparse's own class is private
    """The command ``check``."""
    check = commands.add_parser(
        "check",
        allow_abbrev=False,
        help="check pattern files",
        description="Check pattern files: every row of every size is counted, and all problems "
        "of all files are told. Exit status: 0 no error, 1 at least one, 2 could not run.",
    )
    check.add_argument(
        "paths",
        nargs="*",
        metavar="PATH",
        help="a collection, a pattern's folder or a pattern file (default: patterns); - is a file "
        "that is piped in",
    )
    add_format(check, _FORMATS)
    check.add_argument(
        "--stdin-filename",
        metavar="FILE",
        help="with -: the file that the text piped in is meant for",
    )
    check.add_argument(
        "--color",
        type=one_of(_COLORS),
        default=_COLORS[0],
        help="auto, always or never (default: auto, on a terminal)",
    )
    check.set_defaults(run=_check)


def _check(options: argparse.Namespace) -> Report:
    from workeven import pipeline
    from workeven.report import text

    collection, typed = _asked_for(options)
    bugs: list[str] = []
    known = _known(collection)
    verdict = pipeline.check(
        collection,
        lambda file: _noted(file, bugs),
        typed=typed,
        memory=known.memory if known else None,
    )
    if known:
        known.end()
    problems = text.in_order(verdict.problems)
    what = numbered(len(collection.patterns), "pattern")
    if options.format == "sarif":
        written = _sarif(problems, typed, bugs)
    elif options.format == "json":
        from workeven.report import json_report

        written = json_report.check_report(problems)
    elif options.format == "github":
        from workeven.report import github

        written = github.annotated(problems, what)
    else:
        written = _text(problems, what, options.color)
    return Report(
        text=written,
        status=CANNOT_RUN if bugs else status_of(problems),
        complaints=tuple(bugs),
        summary=_summary(problems, what) if options.format == "github" else "",
    )


def _known(collection: Collection) -> Verdicts | None:
    """What earlier checks have found, where it is of use and there is any."""
    if len(collection.patterns) < _MANY:
        return None
    from pathlib import Path

    from workeven.cache.verdicts import opened

    folders = {str(Path(one.file).parent.parent) for one in collection.patterns}
    found = opened(os.environ, "at their heads", apart=sorted(folders))
    return None if isinstance(found, str) else found


def _asked_for(options: argparse.Namespace) -> tuple[Collection, Mapping[str, bytes]]:
    """What is to be checked, and the text that was piped in, by the file it is meant for."""
    from workeven import source

    name = options.stdin_filename
    if _TYPED not in options.paths and name is None:
        collection = source.collect(options.paths)
        if collection.missing:
            raise CannotRun(missing(collection.missing, default=not options.paths))
        return collection, {}
    if not name:
        raise CannotRun("`-` needs `--stdin-filename`: say which file the text is meant for.")
    if options.paths != [_TYPED]:
        raise CannotRun("`--stdin-filename` needs `-`, and no other path beside it.")
    if os.path.isdir(name):  # noqa: PTH112 -- a path stays the text that the user typed
        raise CannotRun(f"`--stdin-filename` cannot be {quote(name)}: that is a folder.")
    collection = source.typed(name)
    if not (collection.patterns or collection.studios or collection.problems):
        raise CannotRun(f"No `studio.yaml` lies beside {quote(name)}, which would name it.")
    return collection, {os.path.normpath(name): sys.stdin.buffer.read()}


def _text(problems: tuple[Problem, ...], what: str, color: str) -> str:
    """For people, in colour where their terminal shows it."""
    from workeven.report import colour, text

    wanted = colour.wanted(color, os.environ, terminal=sys.stdout.isatty())
    show = colour.problem_painted if wanted else text.problem_text
    return "\n".join([*map(show, problems), text.totals(problems, what)])


def _sarif(problems: tuple[Problem, ...], typed: Mapping[str, bytes], bugs: list[str]) -> str:
    from workeven import source
    from workeven.report import sarif

    places = [place for one in problems for place in (one.span, *(n.span for n in one.notes))]
    files = dict.fromkeys(place.file for place in places)
    lines = {file: source.lines(file, typed.get(os.path.normpath(file))) for file in files}
    return sarif.sarif_report(problems, lines, bugs)


def _summary(problems: tuple[Problem, ...], what: str) -> str:
    """Markdown for the file that the host names; nothing where it names none."""
    from workeven.report import github

    there = summary_size()
    room = None if there is None else github.SUMMARY_BYTES - there
    return "" if room is None else github.summary(problems, what, room)


@contextmanager
def _noted(file: str, bugs: list[str]) -> Iterator[None]:
    """Keep the sentences about a bug of ours, and go on with the next file."""
    try:
        with our_bug(file):
            yield
    except CannotRun as fault:
        bugs.append(str(fault))
