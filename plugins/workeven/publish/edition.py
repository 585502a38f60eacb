"""One edition of a collection: proven, rendered, or refused in words.

Takes     the folder of the patterns.
Gives     ``prove``, ``Edition``; ``published`` and ``preview`` render it; ``traced``.
Problems  all that the pipeline reports.
From      design.md, "A build is all or nothing": everything happens before a byte is written.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager

from workeven import photographs, pipeline, source
from workeven.pattern import Pattern
from workeven.pipeline import ReadyPattern, Verdict
from workeven.problems import Problem, Severity
from workeven.problems.catalogue import severity
from workeven.publish import collection
from workeven.publish.collection import Address, Publication
from workeven.publish.companions import companions
from workeven.records import record, replace
from workeven.report.text import in_order, problem_text, totals

#: Set (to anything) by who works on workeven itself: an unexpected exception then shows its trace.
SHOW_TRACEBACK = "WORKEVEN_TRACEBACK"
NOT_BUILT = "The site was not built; the one that was there is as it was."


class Refused(Exception):
    """There is nothing to publish; the message is whole sentences for the designer."""


@record
class Edition:
    """What became of a collection; ``bugs`` are sentences about mistakes of our own."""

    verdict: Verdict
    patterns: int
    bugs: tuple[str, ...]

    def faults(self) -> str:
        """All that stops a build, as a report, or "" when nothing does."""
        errors = _of(self.verdict, Severity.ERROR)
        if not errors and not self.bugs:
            return ""
        return "\n".join([*map(problem_text, errors), *self.bugs, self._total(errors)])

    def advice(self) -> tuple[str, ...]:
        """Advice, which stops nothing."""
        return tuple(problem_text(one) for one in _of(self.verdict, Severity.ADVICE))

    def _total(self, errors: tuple[Problem, ...]) -> str:
        return totals(errors, f"{self.patterns} pattern{'' if self.patterns == 1 else 's'}")


def prove(folder: str) -> Edition:
    """Take every pattern of the folder through the whole flow; raises ``Refused`` without one."""
    collected = source.collect([folder])
    if collected.missing:
        raise Refused(f"There is no folder {folder} to take patterns from.")
    bugs: list[str] = []
    verdict = pipeline.check(collected, lambda file: _noted(file, bugs), _look)
    return Edition(verdict=verdict, patterns=len(collected.patterns), bugs=tuple(bugs))


def _look(pattern: Pattern) -> tuple[Problem, ...]:
    """Look at the pictures of a pattern, each to its end: pages are to be made of them."""
    if not pattern.pictures:
        return photographs.look(pattern)
    from workeven.publish.photographs import broken  # Pillow, which few patterns ask for

    return photographs.look(pattern, broken)


def published(edition: Edition, address: Address) -> Publication:
    """Every page to publish; raises ``Refused`` with all problems when there is an error."""
    if faults := edition.faults():
        raise Refused(f"{faults}\n{NOT_BUILT}")
    publication = collection.published(edition.verdict, address, _named)
    return _with(publication, companions(_ready(edition), address))


def preview(edition: Edition, address: Address) -> Publication:
    """Every page to look at while writing: drafts too, and problems as pages."""
    publication = collection.preview(edition.verdict, address, _named)
    ready = [one.ready for one in edition.verdict.outcomes if one.ready]
    return _with(publication, companions(ready, address))


def traced(edition: Edition, publication: Publication, address: Address) -> Publication:
    """The same with a file beside each page that says where its figures come from."""
    from workeven.publish.origins import beside  # few sites ask for it

    files = beside(publication, _ready(edition), address)
    return replace(publication, attachments=(*publication.attachments, *files))


def _ready(edition: Edition) -> list[ReadyPattern]:
    """The patterns that are published."""
    ready = (one.ready for one in edition.verdict.outcomes)
    return [one for one in ready if one and one.pattern.published]


def _with(one: Publication, other: Publication) -> Publication:
    """Two together."""
    return Publication(
        pages=(*one.pages, *other.pages), attachments=(*one.attachments, *other.attachments)
    )


def _of(verdict: Verdict, wanted: Severity) -> tuple[Problem, ...]:
    return in_order(one for one in verdict.problems if severity(one.code) is wanted)


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
