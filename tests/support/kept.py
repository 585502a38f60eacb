"""A cache of a test's own, by an engine of one file: somebody may be writing the real one."""

# ruff: noqa: SLF001 -- a process looks at its engine once: here each look is to be the first

from __future__ import annotations

from pathlib import Path

import pytest

from workeven.cache import engine as engines


def remembering(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let runs keep what they find below a folder."""
    (home / "package").mkdir()
    monkeypatch.setattr(engines, "_root", lambda: str(home / "package"))
    monkeypatch.setattr(engines, "_YOUNG", 0)
    monkeypatch.setenv("WORKEVEN_CACHE", str(home / "kept"))
    monkeypatch.setenv("XDG_STATE_HOME", str(home / "state"))
    another_engine(home, "0.1.0")


def another_engine(home: Path, version: str) -> None:
    """Let the next run be one of another version."""
    (home / "package" / "__init__.py").write_text(f'__version__ = "{version}"\n', "utf-8")
    engines._as_loaded.cache_clear()


def entries(home: Path) -> list[Path]:
    """What is kept there."""
    return sorted(path for path in (home / "kept").iterdir() if path.name != ".gitignore")
