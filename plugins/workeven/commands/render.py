"""``workeven render``: everything of a collection as plain Markdown, into a folder of its own.

Takes     the words behind ``render``.
Gives     ``add_render``.
Problems  those of the pipeline; what cannot be written is a ``CannotRun``.
From      the guide, "Taking your patterns away".
"""

from __future__ import annotations

import argparse
import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from workeven.commands.answer import (
    OK,
    CannotRun,
    Report,
    missing,
    numbered,
    our_bug,
    told_errors,
)
from workeven.problems.words import quote

if TYPE_CHECKING:
    from workeven.source import Collection


def add_render(commands: argparse._SubParsersAction[Any]) -> None:
    """The words of the command."""
    render = commands.add_parser(
        "render",
        allow_abbrev=False,
        help="write all patterns as Markdown",
        description="Write every pattern, drafts too, as a page of plain Markdown with all its "
        "numbers, into a new folder. Nothing is written while an error is left. "
        "Exit status: 0 written, 1 a pattern has an error, 2 could not run.",
    )
    render.add_argument(
        "folder", metavar="DIR", help="a folder that is new or empty, or that this command wrote"
    )
    render.add_argument(
        "paths",
        nargs="*",
        default=[],
        metavar="PATH",
        help="a collection, a pattern's folder or a pattern file (default: patterns)",
    )
    render.set_defaults(run=_render)


def _render(options: argparse.Namespace) -> Report:
    from workeven import pipeline, source
    from workeven.publish.in_markdown import OWN, in_markdown, unchanged
    from workeven.publish.output import OutputFault, put_whole

    collection = source.collect(options.paths)
    if collection.missing:
        raise CannotRun(missing(collection.missing, default=not options.paths))
    _refuse_within(options.folder, options.paths, collection)
    verdict = pipeline.check(collection, our_bug)
    if not verdict.good:
        return told_errors(verdict.problems)
    files = in_markdown(verdict, our_bug)
    try:
        put_whole(Path(options.folder), files, OWN, unchanged)
    except OutputFault as fault:
        raise CannotRun(str(fault)) from fault
    number = len(collection.patterns)
    return Report(
        text=f"{numbered(number, 'pattern')} written to {options.folder}, as Markdown.", status=OK
    )


def _refuse_within(folder: str, paths: Sequence[str], collection: Collection) -> None:
    """A folder among the patterns would be no pattern; two of one name would be one page."""
    from workeven.source.collection import DEFAULT

    if not folder.strip():
        raise CannotRun("`DIR` is empty: say which folder is to be written.")
    slugs = [one.slug for one in collection.patterns]
    twice = next((slug for slug in slugs if slugs.count(slug) > 1), None)
    if twice is not None:
        raise CannotRun(f"There are two patterns called {quote(twice)}: render them apart.")
    target = Path(os.path.realpath(folder))
    for path in paths or (DEFAULT,):
        own = Path(os.path.realpath(path))
        if own == target or own in target.parents:
            raise CannotRun(f"{quote(folder)} lies among the patterns: name another folder.")
