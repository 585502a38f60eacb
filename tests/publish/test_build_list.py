"""The list of a build names every file with its digest, and all that it was made with."""

from __future__ import annotations

import hashlib
import json
import os
import platform
import shutil
import subprocess
import sys
from importlib import metadata
from pathlib import Path

import pytest

from tests.publish.project import CHECKOUT, MITTS, Project, new_project
from workeven import __version__
from workeven.publish.build_list import made_with, written

#: Builds as on another machine: folders are read backwards, where nothing asks for an order.
BACKWARDS = """
import os
listed, walked = os.listdir, os.walk
os.listdir = lambda *words: sorted(listed(*words), reverse=True)
def walk(*words, **options):
    for top, folders, files in walked(*words, **options):
        folders.sort(reverse=True)
        yield top, folders, sorted(files, reverse=True)
os.walk = walk
"""
BUILD = """
from pathlib import Path
from tests.publish.project import Project
Project(folder=Path.cwd()).build()
"""


@pytest.fixture(scope="module")
def two(tmp_path_factory: pytest.TempPathFactory) -> tuple[Project, Project]:
    """The same project built twice, by processes that have as little in common as may be."""
    one, other = (_small(tmp_path_factory.mktemp(name)) for name in ("one", "ein anderer"))
    _build(one, "", PYTHONHASHSEED="1", TZ="UTC", LC_ALL="C")
    _build(other, BACKWARDS, PYTHONHASHSEED="2", TZ="Pacific/Auckland", LC_ALL="C.UTF-8")
    return one, other


def _small(folder: Path) -> Project:
    project = new_project(folder)
    for pattern in (folder / "patterns").iterdir():
        if pattern.is_dir() and pattern.name not in (MITTS, "ripplemark-blanket"):
            shutil.rmtree(pattern)
    project.configure("site_url: https://studio.example/\n")
    return project


def _build(project: Project, before: str, **environment: str) -> None:
    os.utime(project.pattern(), (1_000_000_000, len(before)))
    subprocess.run(
        [sys.executable, "-c", before + BUILD],
        cwd=project.folder,
        env={
            "PYTHONPATH": f"{CHECKOUT / 'plugins'}:{CHECKOUT}",
            "NO_MKDOCS_2_WARNING": "1",
            "SOURCE_DATE_EPOCH": "1000000000",
            "WORKEVEN_CACHE": "off",
            **environment,
        },
        check=True,
    )


def test_two_builds_are_the_same_to_the_byte(two: tuple[Project, Project]) -> None:
    """In another folder, zone, language and order of files, with other hashes in Python."""
    one, other = two[0].tree(), two[1].tree()
    assert sorted(one) == sorted(other)
    assert [] == [name for name, content in one.items() if other[name] != content]


def test_every_file_is_listed_with_its_digest(two: tuple[Project, Project]) -> None:
    """All but the list itself."""
    tree = two[0].tree()
    listed = json.loads(tree.pop("build.json"))["files"]
    assert listed == {
        name: {"sha256": hashlib.sha256(content).hexdigest(), "bytes": len(content)}
        for name, content in tree.items()
    }


def test_all_that_had_a_part_in_it_is_named(two: tuple[Project, Project]) -> None:
    """Python, the packages with all that they need, and the schemas."""
    told = json.loads(two[0].tree()["build.json"])["madeWith"]
    assert (__version__, platform.python_version()) == (told["workeven"], told["python"])
    for name in ("mkdocs", "mkdocs-material", "jinja2", "markdown", "pillow", "pyyaml", "pint"):
        assert metadata.version(name) == told[name]
    schemas = sorted((CHECKOUT / "schema").glob("*.schema.json"))
    assert {
        f"{path.name.removesuffix('.schema.json')} schema": hashlib.sha256(
            path.read_bytes()
        ).hexdigest()[:16]
        for path in schemas
    } == {name: digest for name, digest in told.items() if name.endswith(" schema")}


def test_a_plugin_of_the_studio_is_named_too(monkeypatch: pytest.MonkeyPatch) -> None:
    """By the package that brings it: here one that is sure to be no part of workeven."""
    plugins = metadata.entry_points(group="pytest11")
    monkeypatch.setattr(metadata, "entry_points", lambda **_group: plugins)
    told = made_with(["of/hypothesispytest"], "none")
    assert metadata.version("hypothesis") == told["hypothesis"]
    assert "hypothesis" not in made_with(["search"], "none")


def test_the_digest_is_that_of_the_standard() -> None:
    """FIPS 180-4: the digest of "abc", from NIST's examples for SHA-256."""
    digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert hashlib.sha256(b"abc").hexdigest() == digest
    assert json.loads(written({"a": (digest, 3)}, {}))["files"]["a"]["sha256"] == digest
