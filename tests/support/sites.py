"""Whole sites to look at: the demo, one full of canaries, one that is stretched.

Takes     a folder to build in.
Gives     ``demo``: the folder of the built site; ``canaries``, ``stretched``: built projects.
Problems  none.
From      nothing outside.
"""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config

from tests.publish.project import CHECKOUT, MITTS, Project, new_project
from tests.support.canaries import planted, planted_studio, studio_of

LEAST_FIELDS = 30

MANY = 24
TITLE = "Vorlandstrandfliederpulswärmerhandschuhe" * 4
HEBREW = "כפפות ללא אצבעות, 12 שורות (או 14) של קרושה"
JAPANESE = "海辺の朝のための指なし手袋です。親指は後で縫い付けます。" * 4


def demo(folder: Path) -> Path:
    """The demo site, built with the demo studio's own look."""
    site = folder / "site"
    config = load_config(str(CHECKOUT / "mkdocs.yml"), site_dir=str(site), strict=True)
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    return site


def canaries(folder: Path) -> Project:
    """A project of one pattern, built; every text of it and of its studio holds a canary."""
    project = new_project(folder)
    for one in (project.folder / "patterns").iterdir():
        if one.is_dir() and one.name != MITTS:
            shutil.rmtree(one)
    studio = project.folder / "patterns" / "studio.yaml"
    text, of_studio = planted_studio(studio.read_text("utf-8"))
    studio.write_text(text, "utf-8")
    text, of_pattern = planted(project.pattern().read_text("utf-8"), studio_of(text))
    project.pattern().write_text(text, "utf-8")
    assert of_pattern + of_studio >= LEAST_FIELDS
    config = (project.folder / "mkdocs.yml").read_text("utf-8")
    configured = config.replace("workeven]", "workeven: {figures: true}]").replace(
        "plugins: [search, ", "site_url: https://studio.example/\nplugins: [search, "
    )
    (project.folder / "mkdocs.yml").write_text(configured, "utf-8")
    project.build()
    return project


def listed(first: float, step: float) -> str:
    """A figure for each of the sizes, as designers write them: ``16 (16.5, …)``."""
    head, *rest = (f"{first + step * at:g}" for at in range(MANY))
    return f"{head} ({', '.join(rest)})"


#: What the mitts say, and what they are made to say.
CHANGES: Sequence[tuple[str, str]] = (
    ("title: Sandhopper Mitts", f"title: {TITLE}"),
    ("summary: ", f"summary: {HEBREW} "),
    ("note: for thumbs and ends", f"note: '{JAPANESE}'"),
    ("- Weave in all ends.", f"- '{HEBREW}' #"),
    ("title: Fans", f"title: {JAPANESE}"),
    ("names: S (M, L)", f"names: {listed(1, 1)}"),
    ("hand: 18 (20, 22) cm", f"hand: {listed(16, 0.5)} cm"),
    ("to_thumb: 10 (10.5, 11) cm", f"to_thumb: {listed(8, 0.25)} cm"),
    ("  length: 16.5 (17.5, 18.5) cm", f"  length: {listed(13, 0.5)} cm"),
    ("thumb_length: 3 (3, 3.5) cm", "thumb_length: 3 cm"),
    ("thumb_sts: 7 (7, 8)", "thumb_sts: 7"),
    ("size: M", "size: '12'"),
)


def stretched(folder: Path) -> Project:
    """Many sizes, a title without an end, words from right to left."""
    project = new_project(folder)
    for old, new in CHANGES:
        project.edit(old, new)
    project.build()
    return project
