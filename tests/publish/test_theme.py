"""The style sheets: small, and asking nobody for anything."""

from __future__ import annotations

import gzip
import re
from pathlib import Path

import pytest

from workeven.publish import assets

CHECKOUT = Path(__file__).parents[2]
SHEETS = {
    "workeven.css": assets.style(),
    "tidewrack.css": (CHECKOUT / "site_overrides" / "assets" / "tidewrack.css").read_text("utf-8"),
}
THEME = CHECKOUT / "plugins" / "workeven" / "publish" / "theme"


def test_style_is_small() -> None:
    """At most 8 kB compressed, ours and the demo studio's together (performance goal 19)."""
    assert sum(len(gzip.compress(sheet.encode())) for sheet in SHEETS.values()) <= 8 * 1024


def test_script_is_small() -> None:
    """At most 10 kB compressed, with what stands in the head of each page (goal 19)."""
    assert len(gzip.compress((assets.script() + assets.first()).encode())) <= 10 * 1024


def test_what_comes_later_is_small() -> None:
    """The calculator, which no first view waits for, weighs at most 3.25 kB compressed."""
    assert len(gzip.compress(assets.later()[1].encode())) <= 3.25 * 1024


@pytest.mark.parametrize("name", SHEETS)
def test_style_loads_nothing(name: str) -> None:
    """Letters are the system's, drawings are within."""
    loaded = re.findall(r"url\(\"?([^)]{5})", SHEETS[name])
    assert set(loaded) <= {"data:"}
    assert "@import" not in SHEETS[name]


@pytest.mark.parametrize(
    ("kind", "named"),
    [("css", assets.STYLES), ("js", (*assets.FIRST, *assets.SCRIPTS, *assets.LATER))],
)
def test_each_part_is_joined_once(kind: str, named: tuple[str, ...]) -> None:
    """A file that nobody has named in the order is not forgotten."""
    assert sorted(named) == sorted(path.stem for path in THEME.glob(f"*/*.{kind}"))


def test_parts_of_a_script_do_not_meet() -> None:
    """Each may name things as it likes, and its end is its own."""
    text = assets.joined(["const name = 1;\n", "const name = 2; // two"])
    assert text.count("(() => {\nconst name") == 2
    assert "// two\n})();" in text


@pytest.mark.parametrize("name", [*assets.FIRST, *assets.SCRIPTS])
def test_no_text_of_a_script_goes_over_several_lines(name: str) -> None:
    """It would lose its indents; each line has both ends of a text in backticks."""
    lines = assets.bare((THEME / "scripts" / f"{name}.js").read_text("utf-8")).splitlines()
    assert [line for line in lines if line.count("`") % 2] == []
