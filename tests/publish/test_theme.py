"""The style sheets: small, and asking nobody for anything."""

from __future__ import annotations

import gzip
import re
from itertools import chain
from pathlib import Path
from typing import get_args

import pytest

from workeven.publish import assets

CHECKOUT = Path(__file__).parents[2]
SHEETS = {
    "workeven.css": assets.style(),
    "tidewrack.css": (CHECKOUT / "site_overrides" / "assets" / "tidewrack.css").read_text("utf-8"),
}
THEME = CHECKOUT / "plugins" / "workeven" / "publish" / "theme"
SCRIPTS = [
    names
    for every in (assets.FIRST, assets.SHARED, assets.SCRIPTS, assets.LATER)
    for names in every.values()
]


def test_style_is_small() -> None:
    """At most 8 kB compressed, ours and the demo studio's together (performance goal 19)."""
    assert sum(len(gzip.compress(sheet.encode())) for sheet in SHEETS.values()) <= 8 * 1024


@pytest.mark.parametrize("kind", get_args(assets.Kind))
def test_script_is_small(kind: assets.Kind) -> None:
    """At most 10 kB compressed: all that such a page ever loads, also later (goal 19)."""
    texts = (assets.first(kind), assets.script(kind), assets.later(kind)[1])
    assert sum(len(gzip.compress(text.encode())) for text in texts if text) <= 10 * 1024


@pytest.mark.parametrize("name", SHEETS)
def test_style_loads_nothing(name: str) -> None:
    """Letters are the system's, drawings are within."""
    loaded = re.findall(r"url\(\"?([^)]{5})", SHEETS[name])
    assert set(loaded) <= {"data:"}
    assert "@import" not in SHEETS[name]


@pytest.mark.parametrize(
    ("kind", "named"),
    [("css", assets.STYLES), ("js", tuple({*chain(*SCRIPTS)}))],
)
def test_each_part_is_joined_once(kind: str, named: tuple[str, ...]) -> None:
    """A file that nobody has named in the order is not forgotten."""
    assert sorted(named) == sorted(path.stem for path in THEME.glob(f"*/*.{kind}"))


def test_parts_of_a_script_do_not_meet() -> None:
    """Each may name things as it likes, and its end is its own."""
    text = assets.joined(["const name = 1;\n", "const name = 2; // two"])
    assert text.count("(()=>{\nconst name") == 2
    assert "// two\n})()" in text
