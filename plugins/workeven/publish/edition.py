"""One edition of a collection: proven and rendered pattern by pattern, or refused in words.

Takes     the folder of the patterns.
Gives     ``Edition``: ``published``, ``preview``.
Problems  all that the pipeline reports.
From      design.md, "A build is all or nothing": everything happens before a byte is written.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager

from workeven import photographs, source
from workeven.pattern import Pattern
from workeven.pipeline import Flow
from workeven.problems import Problem, Severity
from workeven.problems.catalogue import severity
from workeven.publish import collection
from workeven.publish.cached import Cache
from workeven.publish.collection import Address, Publication, Sheet
from workeven.publish.companions import companions
from workeven.records import record
from workeven.report.text import in_order, problem_text, totals

#: Set (to anything) by who works on workeven itself: an unexpected exception then shows its trace.
SHOW_TRACEBACK = "WORKEVEN_TRACEBACK"
NOT_BUILT = "The site was not built; the one that was there is as it was."


class Refused(Exception):
    """There is nothing to publish; the message is whole sentences for the designer."""


@record
class Edition:
    """What became of a collection; ``bugs`` are sentences about mistakes of our own."""

    publication: Publication
    problems: tuple[Problem, ...]
    patterns: int
    bugs: tuple[str, ...]

    def faults(self) -> str:
        """All that stops a build, as a report, or "" when nothing does."""
        errors = _of(self.problems, Severity.ERROR)
        if not errors and not self.bugs:
            return ""
        return "\n".join([*map(problem_text, errors), *self.bugs, self._total(errors)])

    def advice(self) -> tuple[str, ...]:
        """Advice, which stops nothing."""
        return tuple(problem_text(one) for one in _of(self.problems, Severity.ADVICE))

    def _total(self, errors: tuple[Problem, ...]) -> str:
        return totals(errors, f"{self.patterns} pattern{'' if self.patterns == 1 else 's'}")


def published(
    folder: str, address: Address, *, figures: bool = False, cache: Cache | None = None
) -> Edition:
    """Every page to publish; raises ``Refused`` with all problems when there is an error.

    ``figures``: with a file beside each page that says where its figures come from. What the
    ``cache`` knows is neither proven nor rendered anew.
    """
    proving = _Proving(folder, cache)
    kept = cache.pages(address, figures=figures) if cache else None
    made, refusal = Publication(pages=(), attachments=()), None
    sheet = _sheet() if figures else None
    try:
        made = collection.published(proving.flow, address, _named, sheet, kept)
        made = _with(made, companions(made.mentions, made.studio, address), sheet)
    except Refused as bug:
        refusal = bug
    proving.end()
    if cache:
        cache.end()
    edition = proving.edition(made)
    if faults := edition.faults():
        raise Refused(f"{faults}\n{NOT_BUILT}") from None
    if refusal is not None:
        raise refusal
    return edition


def preview(folder: str, address: Address, *, cache: Cache | None = None) -> Edition:
    """Every page to look at while writing: drafts too, and problems as pages."""
    proving = _Proving(folder, cache)
    kept = cache.pages(address, figures=False) if cache else None
    made = collection.preview(proving.flow, address, _named, kept)
    if cache:
        cache.end()
    return proving.edition(_with(made, companions(made.mentions, made.studio, address)))


class _Proving:
    """A folder whose patterns are proven one by one; raises ``Refused`` where there is none."""

    def __init__(self, folder: str, cache: Cache | None) -> None:
        collected = source.collect([folder])
        if collected.missing:
            raise Refused(f"There is no folder {folder} to take patterns from.")
        self._patterns = len(collected.patterns)
        self._bugs: list[str] = []
        self.flow = Flow(
            collected,
            lambda file: _noted(file, self._bugs),
            _look,
            memory=cache.verdicts.memory if cache else None,
        )

    def end(self) -> None:
        """Check those too of which no page was made: all errors are told at once."""
        for _ in self.flow.outcomes:
            pass

    def edition(self, publication: Publication) -> Edition:
        """What has become of all of them."""
        return Edition(
            publication=publication,
            problems=tuple(self.flow.problems),
            patterns=self._patterns,
            bugs=tuple(self._bugs),
        )


def _look(pattern: Pattern) -> tuple[Problem, ...]:
    """Look at the pictures of a pattern, each to its end: pages are to be made of them."""
    if not pattern.pictures:
        return photographs.look(pattern)
    from workeven.publish.photographs import broken  # Pillow, which few patterns ask for

    return photographs.look(pattern, broken)


def _sheet() -> Sheet:
    from workeven.publish.origins import beside  # few sites ask for it

    return beside


def _with(one: Publication, other: Publication, sheet: Sheet | None = None) -> Publication:
    """Two together; ``sheet`` makes the files of figures of the second."""
    sheets = [sheet(page, None) for page in other.pages] if sheet else []
    return Publication(
        pages=(*one.pages, *other.pages),
        attachments=(*one.attachments, *other.attachments, *sheets),
    )


def _of(problems: tuple[Problem, ...], wanted: Severity) -> tuple[Problem, ...]:
    return in_order(one for one in problems if severity(one.code) is wanted)


@contextmanager
def _noted(file: str, bugs: list[str]) -> Iterator[None]:
    """An exception, which no file should be able to cause, becomes a sentence about the file."""
    try:
        yield
    except Exception as bug:
        if SHOW_TRACEBACK in os.environ:
            raise
        bugs.append(_our_mistake(f"{file} could not be checked", bug))


@contextmanager
def _named(file: str) -> Iterator[None]:
    """An exception while a page is made refuses the edition, in a sentence about the file."""
    try:
        yield
    except Exception as bug:
        if SHOW_TRACEBACK in os.environ:
            raise
        raise Refused(_our_mistake(f"No page could be made from {file}", bug)) from bug


def _our_mistake(what: str, bug: Exception) -> str:
    return (
        f"{what}: workeven itself made a mistake ({type(bug).__name__}), not you. "
        "Please report it, with the file."
    )
