"""``workeven review``: what a change does to the numbers, and whether it says so.

Takes     the words behind ``review``.
Gives     ``add_review``.
Problems  ``change-unsaid``; what cannot be run is a ``CannotRun``.
From      the guide, "Reviewing a change".
"""

from __future__ import annotations

import argparse
import os
from contextlib import nullcontext
from typing import TYPE_CHECKING, Any

from workeven.commands.answer import (
    ERRORS,
    CannotRun,
    Report,
    add_format,
    missing,
    our_bug,
    status_of,
    summary_size,
)
from workeven.problems.words import quote

if TYPE_CHECKING:
    from workeven.pattern import Pattern
    from workeven.pipeline import Verdict
    from workeven.problems import Problem
    from workeven.review import Review

_FORMATS = ("text", "markdown", "json", "github")


def add_review(commands: argparse._SubParsersAction[Any]) -> None:
    """The words of the command."""
    review = commands.add_parser(
        "review",
        allow_abbrev=False,
        help="show what a change does to the numbers",
        description="Show, pattern by pattern and size by size, which numbers are other than "
        "before: measurements, counts, rows, yarn, abbreviations, cautions. Published patterns "
        "whose numbers change must say so. Exit status: 0 all is said, 1 it is not, or a pattern "
        "has errors now, 2 could not run.",
    )
    review.add_argument(
        "base",
        metavar="BASE",
        help="what to compare with: a branch or commit of git, such as origin/main, or a folder",
    )
    review.add_argument(
        "path",
        nargs="?",
        default="patterns",
        metavar="PATH",
        help="the collection as it is now (default: patterns)",
    )
    add_format(review, _FORMATS)
    review.set_defaults(run=_review)


def _review(options: argparse.Namespace) -> Report:
    from workeven import source
    from workeven.commands.revision import collection_at
    from workeven.review import review
    from workeven.source.collection import PATTERN

    now = source.collect([options.path])
    if now.missing:
        raise CannotRun(missing(now.missing, default=options.path == "patterns"))
    inside = os.path.join(options.path, PATTERN)  # noqa: PTH118 -- a path stays as typed
    if not os.path.isdir(options.path) or os.path.lexists(inside):  # noqa: PTH112 -- see above
        raise CannotRun(f"{quote(options.path)} is no collection: give the folder of all patterns.")
    with collection_at(options.base, options.path) as then:
        before = _worked_out(source.collect([then.folder]))
        after = _worked_out(now)
        with our_bug(options.path):
            found = review(before, after, source.lines, then.picture, then.as_known)
    return _written(found, after, then.called, options.format)


def _worked_out(collection: Any) -> Verdict:  # noqa: ANN401 -- its class would load the engine
    """All patterns with their numbers; their pictures have none."""
    from workeven import pipeline

    def unseen(_: Pattern) -> tuple[Problem, ...]:
        return ()

    return pipeline.check(collection, lambda _: nullcontext(), unseen)


def _written(found: Review, after: Verdict, base: str, form: str) -> Report:
    from workeven.report import github, review_json, review_markdown, review_text

    faulty = any(outcome.ready is None for outcome in after.outcomes)
    status = ERRORS if faulty else status_of(found.problems)
    if form == "json":
        return Report(text=review_json.as_json(found, base), status=status)
    if form == "markdown":
        return Report(text=review_markdown.as_markdown(found, base).rstrip("\n"), status=status)
    if form == "github":
        return Report(
            text=github.annotated(found.problems, review_text.compared_with(found, base)),
            status=status,
            summary=_summary(found, base),
        )
    return Report(text=review_text.as_text(found, base), status=status)


def _summary(found: Review, base: str) -> str:
    """Markdown for the file that the host names; nothing where it names none."""
    from workeven.report import github, review_markdown

    there = summary_size()
    room = None if there is None else github.SUMMARY_BYTES - there
    return "" if room is None else review_markdown.as_markdown(found, base, room)
