"""The package as another studio gets it: the wheel, its entry points, and what an import costs."""

from __future__ import annotations

import configparser
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "plugins" / "workeven"


def python(*words: str, folder: Path = ROOT, path: Path | None = None) -> str:
    """What a new Python prints; with ``path``, it finds modules there first."""
    environment = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1"}
    if path:
        environment["PYTHONPATH"] = str(path)
    done = subprocess.run(
        [sys.executable, *words],
        cwd=folder,
        env=environment,
        check=False,
        capture_output=True,
        encoding="utf-8",
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout.strip()


@pytest.fixture(scope="session")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel built from this checkout, outside of it."""
    folder = tmp_path_factory.mktemp("wheel")
    python("-m", "hatchling", "build", "--target", "wheel", "--directory", str(folder))
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="session")
def unpacked(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel laid out as an installer would, in a folder with a space in its name."""
    folder = tmp_path_factory.mktemp("an installed package")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder)
    return folder


def test_the_wheel_carries_the_whole_package(unpacked: Path) -> None:
    """Schemas, tables, problem pages, templates and theme are in the wheel, not code alone."""
    here = {
        path.relative_to(PACKAGE).as_posix()
        for path in PACKAGE.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    there = {
        path.relative_to(unpacked / "workeven").as_posix()
        for path in (unpacked / "workeven").rglob("*")
        if path.is_file()
    }
    assert there == here


@pytest.mark.parametrize(
    ("folder", "kind"),
    [
        ("schemas", "*.json"),
        ("standards", "*.csv"),
        ("problems/pages", "*.md"),
        ("publish/pages/templates", "*.html"),
        ("publish/theme", "*.css"),
    ],
)
def test_the_wheel_carries_each_kind_of_file(unpacked: Path, folder: str, kind: str) -> None:
    """A folder that became empty, or was renamed, is noticed."""
    assert list((unpacked / "workeven" / folder).rglob(kind)) != []


def test_the_wheel_names_its_entry_points(unpacked: Path) -> None:
    """The command and the MkDocs plugin are found by installers under their names."""
    (entry_points,) = unpacked.glob("*.dist-info/entry_points.txt")
    found = configparser.ConfigParser()
    found.read(entry_points, encoding="utf-8")
    assert dict(found["console_scripts"]) == {"workeven": "workeven.cli:main"}
    assert dict(found["mkdocs.plugins"]) == {
        "workeven": "workeven.publish.mkdocs_plugin:WorkevenPlugin"
    }


def test_the_wheel_carries_its_licence(unpacked: Path) -> None:
    """Whoever gets the package gets the terms with it."""
    assert list(unpacked.glob("*.dist-info/licenses/LICENSE")) != []


def test_the_schema_folder_is_the_one_of_the_package() -> None:
    """Editors are pointed to ``schema/`` at the top, which holds the files that the wheel holds."""
    assert (ROOT / "schema").resolve() == (PACKAGE / "schemas").resolve()


def test_the_installed_package_checks_a_collection(unpacked: Path, tmp_path: Path) -> None:
    """Installed elsewhere, with no checkout near, the command checks a studio's patterns."""
    words = ("check", str(ROOT / "patterns"))
    found = python("-m", "workeven.cli", *words, folder=tmp_path, path=unpacked)
    where = "import workeven; print(workeven.__file__)"
    assert python("-c", where, folder=tmp_path, path=unpacked).startswith(str(unpacked))
    assert "Traceback" not in found


HEAVY = ("dataclasses", "inspect", "jinja2", "mkdocs", "pint", "workeven.standards.hooks")


@pytest.mark.parametrize(
    "work",
    [
        "import workeven, workeven.cli",
        "from workeven.cli import main; main(['check', 'patterns'])",
    ],
)
def test_a_check_starts_fast(work: str) -> None:
    """Neither an import nor a check of the demo loads what only pages or densities need."""
    loaded = f"import sys; {work}; print('', sorted(set({HEAVY}) & set(sys.modules)), sep='\\n')"
    assert python("-c", loaded).splitlines()[-1] == "[]"
