"""What the engine is: each of its files, and what is installed beside it."""

# ruff: noqa: SLF001 -- a process looks once: here each look is to be the first

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from importlib import metadata
from pathlib import Path

import pytest

from workeven.cache import engine as engines


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A package of three files, taken for this one."""
    (tmp_path / "standards").mkdir()
    (tmp_path / "__pycache__").mkdir()
    (tmp_path / "proof.py").write_text("STS = 60\n")
    (tmp_path / "page.html").write_text("<p>")
    (tmp_path / "standards" / "hooks.csv").write_text("mm\n")
    monkeypatch.setattr(engines, "_root", lambda: str(tmp_path))
    monkeypatch.setattr(engines, "_YOUNG", 0)
    return tmp_path


def anew() -> engines.Engine:
    """What a process of its own would find."""
    engines._as_loaded.cache_clear()
    found = engines.engine()
    assert found is not None
    return found


@pytest.fixture(autouse=True)
def as_it_was() -> Iterator[None]:
    """The real one is found anew when it is next asked for."""
    yield
    engines._as_loaded.cache_clear()


def test_every_file_decides(package: Path) -> None:
    """Code, a template, a table: changed by one sign, added, renamed, removed."""
    seen = [anew().digest]
    for name in ("proof.py", "page.html", "standards/hooks.csv"):
        file = package / name
        file.write_text(file.read_text().upper() + " ")
        seen.append(anew().digest)
    (package / "more.py").write_text("")
    seen.append(anew().digest)
    (package / "more.py").rename(package / "other.py")
    seen.append(anew().digest)
    (package / "page.html").unlink()
    seen.append(anew().digest)
    assert len(set(seen)) == 7


def test_when_and_where_it_was_installed_does_not(package: Path) -> None:
    """Nor what Python makes of it."""
    first = anew().digest
    os.utime(package / "proof.py", (0, 0))
    (package / "__pycache__" / "proof.pyc").write_bytes(b"\0")
    assert anew().digest == first


def test_what_is_installed_beside_it_decides(
    package: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another version of what writes the pages, and none at all."""
    seen = [anew().digest]
    monkeypatch.setattr(metadata, "version", lambda _name: "99")
    seen.append(anew().digest)

    def none(name: str) -> str:
        raise metadata.PackageNotFoundError(name)

    monkeypatch.setattr(metadata, "version", none)
    seen.append(anew().digest)
    assert (package.is_dir(), len(set(seen))) == (True, 3)


def test_a_change_while_it_runs_is_noticed(package: Path) -> None:
    """It goes on with what it has loaded: the digest stays, and it is said to be of another."""
    of = anew()
    assert engines.unchanged(of)
    (package / "proof.py").write_text("STS = 66\n")
    assert (engines.engine(), engines.unchanged(of)) == (of, False)


def test_what_was_written_a_moment_ago_is_not_told(
    package: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It may not be what was loaded; nor is it told later, by the same process."""
    monkeypatch.setattr(engines, "_YOUNG", 3600 * 10**9)
    engines._as_loaded.cache_clear()
    found = [engines.engine()]
    for file in package.rglob("*"):
        os.utime(file, (0, 0))
    found.append(engines.engine())
    assert found == [None, None]


def test_a_package_that_was_never_unpacked_has_none(package: Path) -> None:
    """Nothing is kept then."""
    for file in package.rglob("*"):
        if file.is_file():
            file.unlink()
    engines._as_loaded.cache_clear()
    assert engines.engine() is None


def test_every_package_that_we_use_is_named() -> None:
    """All that workeven asks for beside MkDocs and its theme, which make no page of a pattern."""
    asked = metadata.requires("workeven") or []
    found = (re.match(r"[\w.-]+", one) for one in asked if "extra" not in one)
    names = {one[0].lower() for one in found if one}
    assert names - {"mkdocs", "mkdocs-material"} - {one.lower() for one in engines._USED} == set()
