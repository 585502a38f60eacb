"""Finished pages of patterns, kept by all that they were made from.

Takes     ``Verdicts``: what is known of the patterns that the pages are of.
Gives     ``Cache``: ``pages`` for one edition; ``cache``.
Problems  none.
From      DEVELOPERS.md, "The cache".

A page is named by its pattern's case, its neighbours and its address. It is kept as it was made:
packed texts and files, byte by byte. What of the pages is the studio's own is read anew each time.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from workeven.cache import in_json
from workeven.cache.folder import name_of
from workeven.cache.verdicts import Verdicts, opened
from workeven.pipeline import Case
from workeven.publish.collection import Address, Kept, Made, Neighbours
from workeven.source import pictures_beside

_KIND = "page"


class Cache:
    """What earlier builds have kept, for one build."""

    def __init__(self, verdicts: Verdicts) -> None:
        """Pages beside the verdicts of their patterns."""
        self.verdicts = verdicts

    def pages(self, address: Address, *, figures: bool) -> Kept:
        """Pages at an address, with or without the files of their figures."""

        def name(case: Case, beside: Neighbours) -> str | None:
            named = self.verdicts.named(case)
            if named is None:
                return None
            told = (repr(address), repr(beside), repr(figures), _written_by(case))
            return name_of(_KIND, named, *told)

        def recall(case: Case, beside: Neighbours) -> Made | None:
            named = name(case, beside)
            kept = self.verdicts.folder.get(named) if named else None
            return None if kept is None else _made(kept)

        def keep(case: Case, beside: Neighbours, made: Made) -> None:
            if named := name(case, beside):
                self.verdicts.keep(case, named, made)

        return Kept(recall=recall, keep=keep)

    def end(self) -> None:
        """Once everything is made."""
        self.verdicts.end()


def cache(environment: Mapping[str, str], apart: Sequence[str]) -> Cache | str:
    """What is kept for this user; else, in a sentence or "", why nothing is.

    ``apart``: folders in which nothing may be kept.
    """
    verdicts = opened(environment, "to their end", apart=apart)
    return verdicts if isinstance(verdicts, str) else Cache(verdicts)


def _written_by(case: Case) -> str:
    """The libraries that write the pictures of a pattern: at times they are the system's."""
    if not pictures_beside(case.of.file):
        return ""
    from workeven.publish.photographs import written_by  # Pillow, which few patterns ask for

    return repr(written_by())


def _made(kept: bytes) -> Made | None:
    try:
        return in_json.read(kept, Made)
    except in_json.NotRead:
        return None
