"""Sites built with their files of figures, and what is known of their patterns."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, NamedTuple

from tests.publish.project import CONFIG, Project, new_project
from tests.traced.asked import Asked, asked
from tests.traced.told import FIGURE, Told, figures, joined
from workeven import pipeline, source

FIGURES = "figures.json"
OWN = {"patterns": "we-index", "stitches": "we-glossary", "tags": "we-tags"}

Entry = dict[str, Any]


class Site(NamedTuple):
    """A built site; its patterns by the names of their folders."""

    folder: Path
    patterns: dict[str, Asked]

    def html(self, page: str) -> str:
        """A page by its folder."""
        return (self.folder / page / "index.html").read_text("utf-8")

    def entries(self, page: str) -> list[Entry]:
        """What its file of figures lists."""
        told = json.loads((self.folder / page / FIGURES).read_text("utf-8"))
        found: list[Entry] = told["figures"]
        return found


def site(folder: Path, patterns: dict[str, str] | None = None, studio: str = "") -> Site:
    """The demo, or other patterns in its place."""
    project = new_project(folder)
    config = CONFIG.replace("workeven]", "{workeven: {figures: true}}]")
    (folder / "mkdocs.yml").write_text(f"{config}site_url: https://studio.example/\n", "utf-8")
    if patterns is not None:
        _put(project, patterns, studio)
    project.build()
    verdict = pipeline.check(source.collect([str(folder / "patterns")]))
    ready = [one.ready for one in verdict.outcomes if one.ready]
    own = (folder / "patterns" / "studio.yaml").read_text("utf-8")
    every = (asked(one, project.pattern(one.pattern.slug).read_text("utf-8"), own) for one in ready)
    return Site(folder=project.site, patterns={one.ready.pattern.slug: one for one in every})


def _put(project: Project, patterns: dict[str, str], studio: str) -> None:
    for one in (project.folder / "patterns").iterdir():
        if one.is_dir():
            (one / "pattern.yaml").unlink()
            one.rmdir()
    (project.folder / "patterns" / "studio.yaml").write_text(studio, "utf-8")
    for slug, text in patterns.items():
        (project.folder / "patterns" / slug).mkdir()
        project.pattern(slug).write_text(text, "utf-8")


def as_told(entry: Entry, sizes: int) -> Told:
    """The figures of a text as the file has it."""
    each = entry.get("each") or [entry["text"]] * sizes
    return Told(figures(entry["text"]), tuple(map(figures, each)))


def with_another_figure(text: str) -> str:
    """The text with its first figure made another one, as large a number as no pattern has."""
    return FIGURE.sub("98765", text, count=1)


__all__ = ["Entry", "Site", "as_told", "joined", "site", "with_another_figure"]
