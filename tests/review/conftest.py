"""A collection before a change, and the same after it."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from contextlib import nullcontext
from pathlib import Path

import pytest

from tests.review.seeds import COLLECTION
from workeven import pipeline, source
from workeven.pipeline import Verdict
from workeven.review import Review, review

Change = Callable[[str], str]


def worked_out(folder: Path) -> Verdict:
    """All patterns of a folder."""
    collection = source.collect([str(folder)])
    return pipeline.check(collection, lambda _: nullcontext(), lambda _: ())


@pytest.fixture(scope="session")
def before() -> Verdict:
    """The collection as it is."""
    return worked_out(COLLECTION)


@pytest.fixture
def after(tmp_path: Path, before: Verdict) -> Callable[..., Review]:
    """Reviews a pattern that a change was made in.

    Its folder, and what becomes of its text; ``to``: its folder behind the change; ``base``: what
    it was before, where that is not what the collection has.
    """

    def laid(place: str, slug: str, text: str) -> Verdict:
        folder = tmp_path / place / "patterns"
        (folder / slug).mkdir(parents=True)
        shutil.copy(COLLECTION / "studio.yaml", folder / "studio.yaml")
        (folder / slug / "pattern.yaml").write_text(text, encoding="utf-8")
        return worked_out(folder)

    def made(
        slug: str, change: Change, *, to: str | None = None, base: Change | None = None
    ) -> Review:
        text = (COLLECTION / slug / "pattern.yaml").read_text(encoding="utf-8")
        was = tuple(one for one in before.outcomes if f"/{slug}/" in one.file)
        old = Verdict(outcomes=was, problems=()) if base is None else laid("was", slug, base(text))
        return review(old, laid("now", to or slug, change(text)), source.lines)

    return made
