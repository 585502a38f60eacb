"""A small MkDocs project with the demo patterns, to build in a test."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config

CHECKOUT = Path(__file__).parents[2]
MITTS = "sandhopper-mitts"

CONFIG = """\
site_name: A Studio
docs_dir: guide
theme: {name: material, font: false}
plugins: [search, workeven]
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """A folder with mkdocs.yml, guide/ and patterns/."""

    folder: Path

    @property
    def site(self) -> Path:
        """The published site."""
        return self.folder / "site"

    def pattern(self, slug: str = MITTS) -> Path:
        """The file of one pattern."""
        return self.folder / "patterns" / slug / "pattern.yaml"

    def edit(self, old: str, new: str, slug: str = MITTS) -> None:
        """Change a pattern as somebody would by hand."""
        text = self.pattern(slug).read_text("utf-8")
        assert old in text
        self.pattern(slug).write_text(text.replace(old, new), "utf-8")

    def configure(self, more: str) -> None:
        """Add lines to mkdocs.yml."""
        file = self.folder / "mkdocs.yml"
        file.write_text(file.read_text("utf-8") + more, "utf-8")

    def build(self, *, strict: bool = True, dirty: bool = False) -> None:
        """What ``mkdocs build`` does; raises what it raises."""
        config = load_config(str(self.folder / "mkdocs.yml"), strict=strict)
        config.plugins.on_startup(command="build", dirty=dirty)
        try:
            build(config, dirty=dirty)
        finally:
            config.plugins.on_shutdown()

    def tree(self) -> dict[str, bytes]:
        """Every file of the site with its bytes."""
        files = (path for path in sorted(self.site.rglob("*")) if path.is_file())
        return {path.relative_to(self.site).as_posix(): path.read_bytes() for path in files}

    def page(self, slug: str = MITTS) -> str:
        """The built page of one pattern."""
        return (self.site / "patterns" / slug / "index.html").read_text("utf-8")


def new_project(folder: Path) -> Project:
    """The demo patterns, a home page and the plainest mkdocs.yml."""
    shutil.copytree(CHECKOUT / "patterns", folder / "patterns")
    (folder / "guide").mkdir()
    (folder / "guide" / "index.md").write_text("# Home\n\n[Patterns](patterns/index.md)\n")
    (folder / "mkdocs.yml").write_text(CONFIG)
    return Project(folder=folder)
