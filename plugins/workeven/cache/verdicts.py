"""Patterns that were found without error, kept by all that this was found from.

Takes     ``Case``, and the pictures beside its file.
Gives     ``Verdicts``, with its ``Memory``; ``opened``.
Problems  none.
From      DEVELOPERS.md, "The cache".

An error is never kept: a file that has one is proven at every run, until it has none.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from contextlib import suppress
from typing import Literal

from workeven.cache import in_json
from workeven.cache.engine import Engine, engine, unchanged
from workeven.cache.folder import Folder, name_of
from workeven.cache.place import place
from workeven.pipeline import Case, Memory, Remembered
from workeven.source import picture, pictures_beside
from workeven.source.collection import PATTERN

#: How pictures were looked at: as a check does, or to their end, as a build does.
Looked = Literal["at their heads", "to their end"]

_KIND = "verdict"
#: before so many entries are written the engine is looked at once: it has some 600 files
_TOGETHER = 50


class Verdicts:
    """What is known of the patterns of one run, in a folder of entries."""

    def __init__(self, folder: Folder, of: Engine, looked: Looked) -> None:
        """Kept in a folder, as this engine finds them."""
        self.folder = folder
        self._engine, self._looked = of, looked
        self._named: dict[str, str] = {}
        self._waiting: list[tuple[str, bytes]] = []
        self.memory = Memory(recall=self._recall, keep=self._keep)

    def named(self, case: Case) -> str | None:
        """The digest of all that a case was found from; None where nothing is kept of it."""
        return self._named.get(case.of.file)

    def keep(self, case: Case, name: str, found: object) -> None:
        """Keep a record under a name, if its pictures are those by which the case was named."""
        named = self.named(case)
        if named is None or self._name(case) != named:
            return
        with suppress(in_json.NotWritten):
            self._waiting.append((name, in_json.written(found)))
        if len(self._waiting) >= _TOGETHER:
            self._write()

    def end(self) -> None:
        """Write what is to be kept, and make room."""
        self._write()
        self.folder.end()

    def _write(self) -> None:
        """If all of it was made by this engine: its files are still those that were read."""
        if self._waiting and unchanged(self._engine):
            for name, content in self._waiting:
                self.folder.put(name, content)
        self._waiting.clear()

    def _recall(self, case: Case) -> Remembered | None:
        if os.path.basename(case.of.file) != PATTERN:  # noqa: PTH119, asked very often
            return None  # what pictures lie beside it, its folder does not tell
        self._named[case.of.file] = named = self._name(case)
        kept = self.folder.get(name_of(_KIND, named))
        if kept is None:
            return None
        try:
            return in_json.read(kept, Remembered)
        except in_json.NotRead:
            return None

    def _keep(self, case: Case, found: Remembered) -> None:
        if named := self.named(case):
            self.keep(case, name_of(_KIND, named), found)

    def _name(self, case: Case) -> str:
        one = case.of
        texts = [part for text in case.studio for part in text]
        pictures = [part for name in pictures_beside(one.file) for part in _seen(one.file, name)]
        return name_of(
            self._engine.digest,
            self._looked,
            one.file,
            one.slug,
            one.studio or "",
            str(len(texts)),
            *texts,
            case.content,
            *pictures,
        )


def opened(
    environment: Mapping[str, str], looked: Looked, *, apart: Sequence[str] = ()
) -> Verdicts | str:
    """What this user's runs have kept; else, in a sentence or "", why nothing is.

    ``apart`` are folders in which nothing may be kept: what is published, and what is read.
    """
    where = place(environment, apart)
    if isinstance(where, str):
        return where
    of = engine()
    if of is None or not unchanged(of):
        return ""
    return Verdicts(Folder(where), of, looked)


def _seen(file: str, name: str) -> tuple[str, bytes]:
    """A picture by its content, or why there is none."""
    found = picture(file, name)
    content = found.encode() if isinstance(found, str) else found
    return (f"{name} {type(found).__name__}", content)
