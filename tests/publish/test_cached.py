"""With the cache a site is what it is without, to the byte; and nothing is proven twice."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from mkdocs.exceptions import Abort

from tests.publish.project import MITTS, Project, new_project
from tests.support.kept import another_engine, entries, remembering
from tests.support.photographs import photograph
from tests.support.photographs import project as pictured
from workeven import pipeline
from workeven.cache import in_json, verdicts
from workeven.cache.folder import Folder
from workeven.cache.place import Place, place
from workeven.problems import Span

SPAN = Span(file="a.yaml", line=1, column=1, end_line=1, end_column=2)
SLUGS = (MITTS, "ripplemark-blanket", "whelkstow-basket")


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Project:
    """Three patterns, and a cache that is empty."""
    made = new_project(tmp_path / "studio")
    for folder in (made.folder / "patterns").iterdir():
        if folder.is_dir() and folder.name not in SLUGS:
            shutil.rmtree(folder)
    _with_cache(made, tmp_path, monkeypatch)
    return made


def _with_cache(made: Project, home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = made.folder / "mkdocs.yml"
    asked = "plugins: [workeven]"
    file.write_text(file.read_text().replace("plugins: [search, workeven]", asked))
    remembering(home, monkeypatch)


@pytest.fixture
def proven(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The files that are proven, as they come."""
    seen: list[str] = []
    run = pipeline.run

    def noted(*words: object, **named: object) -> pipeline.Outcome:
        seen.append(Path(words[0].file).parent.name)  # type: ignore[attr-defined]
        return run(*words, **named)  # type: ignore[arg-type]

    monkeypatch.setattr("workeven.pipeline.files.run", noted)
    return seen


def without(project: Project) -> dict[str, bytes]:
    """The site that a build without a cache makes."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("WORKEVEN_CACHE", "off")
        project.build()
    return project.tree()


def test_what_did_not_change_is_not_proven(project: Project, proven: list[str]) -> None:
    """The second build makes the same site of what the first has kept."""
    wanted = without(project)
    proven.clear()
    for times in (3, 3):
        project.build()
        assert (len(proven), project.tree() == wanted) == (times, True)


def _anew(file: Path) -> None:
    file.write_text(file.read_text("utf-8") + "# anew\n", "utf-8")


def _studio(one: Project, old: str, new: str, name: str = "studio.yaml") -> None:
    file = one.folder / "patterns" / name
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new), "utf-8")


def _options(one: Project, options: str) -> None:
    file = one.folder / "mkdocs.yml"
    text = file.read_text("utf-8")
    file.write_text(text.replace("[workeven]", f"[workeven: {{{options}}}]"), "utf-8")


MITTS_ALONE, TWO, ALL = {MITTS}, set(SLUGS[:2]), set(SLUGS)

#: what is done, and which patterns are proven anew then
CHANGES: dict[str, tuple[Callable[[Project], None], set[str]]] = {
    "a title, which its neighbour names": (
        lambda one: one.edit("title: Ripplemark", "title: Anew Ripplemark", SLUGS[1]),
        TWO,
    ),
    "a summary": (lambda one: one.edit("summary: ", "summary: Anew. "), MITTS_ALONE),
    "a yarn": (lambda one: one.edit("length: 160 m", "length: 161 m"), MITTS_ALONE),
    "a stitch": (lambda one: one.edit("fan: 3 dc in", "fan: (2 dc, dc) in"), MITTS_ALONE),
    "a pattern that is a draft": (lambda one: one.edit("published: ", "# published: "), ALL),
    "a pattern that is gone": (
        lambda one: shutil.rmtree(one.pattern(SLUGS[1]).parent),
        MITTS_ALONE,
    ),
    "the studio's remarks": (lambda one: _anew(one.folder / "patterns/studio.yaml"), ALL),
    "the studio's name": (lambda one: _studio(one, "name: Tide", "name: New Tide"), ALL),
    "the studio's units": (lambda one: _studio(one, "units: cm", "units: in"), ALL),
    "the address": (lambda one: one.configure("site_url: https://studio.example/\n"), ALL),
    "files of figures": (lambda one: _options(one, "figures: true"), ALL),
    "pages of problems": (lambda one: _options(one, "check_pages: true"), set()),
    "the site's own pages": (lambda one: _anew(one.folder / "guide/index.md"), set()),
}


@pytest.mark.parametrize("what", CHANGES)
def test_what_changed_is_made_anew(project: Project, proven: list[str], what: str) -> None:
    """And nothing else; the site is the one that a build without a cache makes."""
    project.build()
    change, wanted = CHANGES[what]
    change(project)
    proven.clear()
    project.build()
    assert set(proven) == wanted
    assert project.tree() == without(project)


CHART = """\
name: our hands
citation: Twelve hands measured in our studio in 2026
sizes: S (M, L)
measurements:
  hand:
    cm: 18 (20, 22)
    in: 7 (7¾, 8½) in
"""


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("our-chart.yaml", "Twelve hands", "Thirteen hands"),
        ("our-chart.yaml", "cm: 18 (20", "cm: 18 (20.5"),
        ("studio.yaml", "fan: 3 dc in", "fan: (2 dc, dc) in"),
    ],
)
def test_what_the_studio_has_for_all_is_asked_anew(
    project: Project, proven: list[str], file: str, old: str, new: str
) -> None:
    """Its body chart and its stitches, which a pattern only names."""
    project.edit("  to_fit:\n    hand: 18 (20, 22) cm\n", "  chart: our hands\n")
    project.edit("stitches:\n  fan: 3 dc in same st\n", "")
    (project.folder / "patterns/our-chart.yaml").write_text(CHART, "utf-8")
    more = "charts: [our-chart.yaml]\nstitches:\n  fan: 3 dc in same st\nunits: cm"
    _studio(project, "units: cm", more)
    project.build()
    before = project.page()
    _studio(project, old, new, file)
    proven.clear()
    project.build()
    assert (set(proven), project.page() == before) == (ALL, False)
    assert project.tree() == without(project)


def test_another_version_of_workeven_proves_all_anew(
    project: Project, proven: list[str], tmp_path: Path
) -> None:
    """And the one before still finds its own, should somebody go back to it."""
    found = []
    for version in ("0.1.0", "0.2.0", "0.1.0"):
        another_engine(tmp_path, version)
        proven.clear()
        project.build()
        found.append(set(proven))
    assert found == [ALL, ALL, set()]


def test_an_engine_that_changes_meanwhile_keeps_nothing(
    project: Project, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A preview that runs while somebody writes the engine."""
    monkeypatch.setattr(verdicts, "unchanged", lambda _of: False)
    project.build()
    assert entries(tmp_path) == []


def test_another_picture_is_another_page(
    tmp_path: Path, proven: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Under the same name, with the same file of the pattern."""
    made = pictured(tmp_path / "studio", {"first.jpg": photograph()})
    _with_cache(made, tmp_path, monkeypatch)
    made.build()
    picture = made.pattern().parent / "first.jpg"
    picture.write_bytes(photograph(form="JPEG")[:-2] + b"\xff\xd9\0")
    proven.clear()
    made.build()
    assert MITTS in proven
    assert made.tree() == without(made)


def test_an_error_is_told_each_time(project: Project) -> None:
    """And one that only all patterns together have, though none of them is proven anew."""
    project.build()
    for slug in SLUGS[:2]:
        project.pattern(slug).write_text(
            project.pattern(slug).read_text("utf-8") + "\nformerly: [shore-things]\n", "utf-8"
        )
    for _ in range(2):
        with pytest.raises(Abort, match="former-taken"):
            project.build()


# --- entries that are not as they were written -----------------------------------------------


def _cut(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:-7])


def _emptied(file: Path) -> None:
    file.write_bytes(b"")


def _spoilt(file: Path) -> None:
    content = bytearray(file.read_bytes())
    content[len(content) // 2] ^= 0xFF
    file.write_bytes(content)


def _folder(file: Path) -> None:
    file.unlink()
    file.mkdir()


@pytest.mark.parametrize("harm", [_cut, _emptied, _spoilt, _folder])
def test_a_spoilt_entry_is_made_anew(
    project: Project, proven: list[str], tmp_path: Path, harm: Callable[[Path], None]
) -> None:
    """Each of them; the site is the same."""
    project.build()
    wanted = project.tree()
    for file in entries(tmp_path):
        harm(file)
    proven.clear()
    project.build()
    assert (len(proven), project.tree() == wanted) == (3, True)


def test_entries_that_change_places_are_not_taken(
    project: Project, proven: list[str], tmp_path: Path
) -> None:
    """Each under the name of another: that is what somebody would do who wants a wrong number."""
    project.build()
    wanted = project.tree()
    files = entries(tmp_path)
    contents = [file.read_bytes() for file in files]
    for file, content in zip(files, contents[1:] + contents[:1], strict=True):
        file.write_bytes(content)
    proven.clear()
    project.build()
    assert (len(proven), project.tree() == wanted) == (3, True)


def test_entries_of_another_user_are_not_taken(
    project: Project, proven: list[str], tmp_path: Path
) -> None:
    """The same engine and the same files, with another secret."""
    project.build()
    shutil.rmtree(tmp_path / "state")
    proven.clear()
    project.build()
    assert len(proven) == 3


def test_nonsense_under_our_own_secret_is_no_fault(
    project: Project, proven: list[str], tmp_path: Path
) -> None:
    """As a mistake of ours might write it."""
    project.build()
    wanted = project.tree()
    at = place(os.environ)
    assert isinstance(at, Place)
    for file in entries(tmp_path):
        Folder(at).put(file.name, in_json.written(SPAN))
    proven.clear()
    project.build()
    assert (len(proven), project.tree() == wanted) == (3, True)


# --- where nothing can be kept ---------------------------------------------------------------


def test_a_cache_within_the_project_is_refused(
    project: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is published or read holds no entry."""
    for name in ("site/kept", "patterns/kept", "guide/kept"):
        monkeypatch.setenv("WORKEVEN_CACHE", str(project.folder / name))
        project.build()
        shutil.rmtree(project.folder / name, ignore_errors=True)
        assert all(len(path) < 64 for path in project.tree())


def test_git_leaves_out_what_is_kept_in_a_project(
    project: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In a folder that somebody has named there, beside what is published and read."""
    folder = project.folder / "remembered"
    monkeypatch.setenv("WORKEVEN_CACHE", str(folder))
    project.build()
    assert (folder / ".gitignore").read_text("utf-8") == "*\n"
    assert len(list(folder.iterdir())) == 1 + 2 * len(SLUGS)


def test_a_disk_that_is_full_stops_no_build(
    project: Project, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It goes on without."""
    wanted = without(project)
    room = shutil.disk_usage(tmp_path)._replace(free=0)
    monkeypatch.setattr(shutil, "disk_usage", lambda _folder: room)
    project.build()
    assert (entries(tmp_path), project.tree() == wanted) == ([], True)


def test_a_studio_can_do_without(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """By the option, whatever the machine says; no folder is made."""
    made = new_project(tmp_path / "studio")
    file = made.folder / "mkdocs.yml"
    off = "plugins: [workeven: {cache: false}]"
    file.write_text(file.read_text().replace("plugins: [search, workeven]", off))
    monkeypatch.setenv("WORKEVEN_CACHE", str(tmp_path / "kept"))
    made.build()
    assert not (tmp_path / "kept").exists()
