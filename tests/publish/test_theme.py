"""The style sheets: small, and asking nobody for anything."""

from __future__ import annotations

import gzip
import re
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parents[2]
SHEETS = (
    CHECKOUT / "plugins" / "workeven" / "publish" / "theme" / "assets" / "workeven.css",
    CHECKOUT / "site_overrides" / "assets" / "tidewrack.css",
)


def test_style_is_small() -> None:
    """At most 8 kB compressed, ours and the demo studio's together (performance goal 19)."""
    assert sum(len(gzip.compress(sheet.read_bytes())) for sheet in SHEETS) <= 8 * 1024


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_style_loads_nothing(sheet: Path) -> None:
    """Letters are the system's, drawings are within."""
    loaded = re.findall(r"url\(\"?([^)]{5})", sheet.read_text("utf-8"))
    assert set(loaded) <= {"data:"}
    assert "@import" not in sheet.read_text("utf-8")
