"""Published tables as they lie in the package, read without its code."""

from __future__ import annotations

import csv
from pathlib import Path

TABLES = Path(__file__).parents[2] / "plugins" / "workeven" / "standards"


def table(name: str) -> list[dict[str, str]]:
    """A published table as it lies in the package."""
    with (TABLES / name).open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened))
