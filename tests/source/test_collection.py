"""Which files a collection holds, and that nothing else is opened."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from workeven.source import Collection, collect, load

TEXT = "title: Sand Mat\n"
ELSEWHERE = "or keep it outside the collection: prose goes into the guide."


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder that is the current one."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def put(place: Path, name: str, text: str = TEXT) -> Path:
    """A file, with the folders it needs."""
    path = place / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def patterns(collection: Collection) -> list[tuple[str, str, str | None]]:
    """File, slug and studio of each pattern."""
    return [(one.file, one.slug, one.studio) for one in collection.patterns]


def problems(collection: Collection) -> list[tuple[str, str]]:
    """Code and file of each problem."""
    return [(one.code, one.span.file) for one in collection.problems]


def test_without_a_path_the_folder_patterns_is_meant(here: Path) -> None:
    """Folders come by name, each with the studio's file beside them."""
    put(here, "patterns/studio.yaml")
    put(here, "patterns/sea-mat/pattern.yaml")
    put(here, "patterns/dune-mat-2/pattern.yaml")
    collection = collect()
    assert [
        ("patterns/dune-mat-2/pattern.yaml", "dune-mat-2", "patterns/studio.yaml"),
        ("patterns/sea-mat/pattern.yaml", "sea-mat", "patterns/studio.yaml"),
    ] == patterns(collection)
    assert ("patterns/studio.yaml",) == collection.studios
    assert ((), ()) == (collection.problems, collection.missing)


@pytest.mark.parametrize("path", ["patterns/sea-mat", "patterns/sea-mat/pattern.yaml"])
def test_a_pattern_by_its_folder_or_file_has_its_studio(here: Path, path: str) -> None:
    """One pattern alone is read as it is in its collection."""
    put(here, "patterns/studio.yaml")
    put(here, "patterns/sea-mat/pattern.yaml")
    collection = collect([path])
    expected = ("patterns/sea-mat/pattern.yaml", "sea-mat", "patterns/studio.yaml")
    assert [expected] == patterns(collection)
    assert ("patterns/studio.yaml",) == collection.studios


def test_a_file_of_any_name_may_be_checked_by_itself(here: Path) -> None:
    """Somebody tries a file before it has its place."""
    put(here, "mitts.yaml")
    assert [("mitts.yaml", "mitts", None)] == patterns(collect(["mitts.yaml"]))


def test_from_inside_the_folder_a_dot_is_enough(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The folder still has its name, and the studio is found above."""
    put(here, "patterns/studio.yaml")
    put(here, "patterns/sea-mat/pattern.yaml")
    monkeypatch.chdir(here / "patterns" / "sea-mat")
    assert [("pattern.yaml", "sea-mat", "../studio.yaml")] == patterns(collect(["."]))


def test_the_studio_alone_may_be_checked(here: Path) -> None:
    """Its file is no pattern."""
    put(here, "patterns/studio.yaml")
    collection = collect(["patterns/studio.yaml"])
    assert ([], ("patterns/studio.yaml",)) == (patterns(collection), collection.studios)


def test_what_is_given_twice_is_checked_once(here: Path) -> None:
    """A folder and a file in it, in whatever spelling."""
    put(here, "patterns/sea-mat/pattern.yaml")
    given = ["patterns", "./patterns/sea-mat/", "patterns/../patterns/sea-mat/pattern.yaml"]
    assert 1 == len(collect(given).patterns)


def test_a_path_to_nothing_is_a_slip_of_usage(here: Path) -> None:
    """It is told apart from what is wrong in files."""
    put(here, "patterns/sea-mat/pattern.yaml")
    collection = collect(["patterns", "pattens"])
    assert (("pattens",), ()) == (collection.missing, collection.problems)
    assert 1 == len(collection.patterns)


@pytest.mark.parametrize("folder", ["patterns", "elsewhere"])
def test_a_folder_without_patterns_is_a_problem(here: Path, folder: str) -> None:
    """A check of nothing must not say that all is well."""
    (here / folder).mkdir()
    assert [("file-no-patterns", folder)] == problems(collect([folder]))


def test_a_folder_above_the_collection_is_told_where_it_is(here: Path) -> None:
    """The commonest slip: the folder of the whole studio."""
    put(here, "patterns/sea-mat/pattern.yaml")
    put(here, "mkdocs.yml")
    (problem,) = collect(["."]).problems
    assert ("file-no-patterns", "Did you mean `patterns`?") == (problem.code, problem.mend)


@pytest.mark.parametrize(
    "name",
    [
        "patterns/README.md",
        "patterns/.DS_Store",
        "patterns/pattern.yaml.bak",
        "patterns/sea-mat/notes.txt",
        "patterns/sea-mat/.pattern.yaml.swp",
        "patterns/sea-mat/studio.yaml",
        "patterns/front.jpg",
        "patterns/sea-mat/Front.JPG",
        "patterns/sea-mat/front.gif",
    ],
)
def test_any_other_file_is_a_stranger(here: Path, name: str) -> None:
    """Nothing can be published by accident; the patterns beside it are checked all the same."""
    put(here, "patterns/sea-mat/pattern.yaml")
    put(here, name)
    collection = collect()
    assert ([("file-stranger", name)], 1) == (problems(collection), len(collection.patterns))


def test_a_folder_inside_a_pattern_is_one_stranger(here: Path) -> None:
    """It is not gone through."""
    put(here, "patterns/sea-mat/pattern.yaml")
    put(here, "patterns/sea-mat/old/one.yaml")
    put(here, "patterns/sea-mat/old/two.yaml")
    assert [("file-stranger", "patterns/sea-mat/old")] == problems(collect())


@pytest.mark.parametrize(
    ("name", "mend"),
    [
        ("patterns/sea-mat/pattern.yml", "Rename it to `pattern.yaml`."),
        ("patterns/studio.yml", "Rename it to `studio.yaml`."),
        ("patterns/pattern.yaml.txt", f"Delete it, {ELSEWHERE}"),
    ],
)
def test_a_stranger_is_told_where_it_belongs(here: Path, name: str, mend: str) -> None:
    """A name that is nearly right is offered the right one."""
    put(here, "patterns/sea-mat/pattern.yaml")
    put(here, name)
    assert mend == collect().problems[0].mend


def test_a_folder_without_its_pattern_is_named(here: Path) -> None:
    """Beside others that are right."""
    put(here, "patterns/sea-mat/pattern.yaml")
    (here / "patterns" / "dune-mat").mkdir()
    assert [("file-no-patterns", "patterns/dune-mat")] == problems(collect())


@pytest.mark.parametrize(
    ("name", "mend"),
    [
        ("Sea Mat", "Rename it to `sea-mat`."),
        ("sea_mat", "Rename it to `sea-mat`."),
        ("sea--mat", "Rename it to `sea-mat`."),
        ("-sea", "Rename it to `sea`."),
        ("möwe", "Rename it to `m-we`."),
        ("毛糸", "Rename it, for example to `dune-mitts`."),
    ],
)
def test_a_folder_is_named_like_an_address(here: Path, name: str, mend: str) -> None:
    """Lowercase letters, digits and single hyphens."""
    put(here, f"patterns/{name}/pattern.yaml")
    collection = collect()
    assert ["file-folder-name"] == [one.code for one in collection.problems]
    assert mend == collection.problems[0].mend


def test_a_name_that_hides_something_is_spelled_out(here: Path) -> None:
    """Names of files are foreign text too."""
    put(here, "patterns/sea-mat/pattern.yaml")
    put(here, "patterns/sea-mat/a\u202eb.txt")
    (problem,) = collect().problems
    assert "patterns/sea-mat/a<U+202E>b.txt" == problem.span.file
    assert "The file `a<U+202E>b.txt` does not belong here." == problem.found


# --- links ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "link",
    [
        "patterns/studio.yaml",
        "patterns/dune-mat",
        "patterns/dune-mat/pattern.yaml",
        "patterns/sea-mat/more.yaml",
        "patterns/gone",
    ],
)
def test_a_link_anywhere_is_refused(here: Path, link: str) -> None:
    """Whether it leads to a file, to a folder or to nothing."""
    put(here, "patterns/sea-mat/pattern.yaml")
    target = here / "outside"
    target.mkdir()
    put(target, "pattern.yaml", "secret: 1\n")
    (here / link).parent.mkdir(exist_ok=True)
    leads_to_file = link.endswith(".yaml")
    goal = target / "pattern.yaml" if leads_to_file else target
    (here / link).symlink_to(here / "nowhere" if link.endswith("gone") else goal)
    collection = collect()
    assert [("file-symlink", link)] == problems(collection)
    assert ["sea-mat"] == [one.slug for one in collection.patterns]


@pytest.mark.parametrize("path", ["alias", "alias/pattern.yaml", "patterns/sea-mat/pattern.yaml"])
def test_a_link_is_not_followed_when_it_is_given(here: Path, path: str) -> None:
    """Nor is the folder of a given file."""
    put(here, "real/pattern.yaml")
    (here / "alias").symlink_to(here / "real")
    (here / "patterns" / "sea-mat").mkdir(parents=True)
    (here / "patterns" / "sea-mat" / "pattern.yaml").symlink_to(here / "real" / "pattern.yaml")
    assert [("file-symlink", path)] == problems(collect([path]))


def test_a_file_that_became_a_link_meanwhile_is_not_opened(here: Path) -> None:
    """Between the look and the reading somebody may change it."""
    put(here, "secret.yaml")
    (here / "pattern.yaml").symlink_to(here / "secret.yaml")
    checked = load("pattern.yaml")
    assert (None, ["file-symlink"]) == (checked.value, [one.code for one in checked.problems])


# --- reading -------------------------------------------------------------------------------


def test_a_file_is_read_with_its_name(here: Path) -> None:
    """The name is that by which it was given, as it was typed."""
    put(here, "patterns/sea-mat/pattern.yaml")
    checked = load("patterns/sea-mat/pattern.yaml")
    assert checked.value is not None
    assert "patterns/sea-mat/pattern.yaml" == checked.value.file


def test_what_is_no_file_is_not_waited_for(here: Path) -> None:
    """A pipe would keep the check waiting for ever; a folder has no text."""
    os.mkfifo(here / "pipe.yaml")
    (here / "folder.yaml").mkdir()
    for name in ("pipe.yaml", "folder.yaml", "gone.yaml"):
        checked = load(name)
        assert (None, ["file-unreadable"]) == (
            checked.value,
            [one.code for one in checked.problems],
        )


def test_a_large_file_is_not_read_to_its_end(here: Path) -> None:
    """Its size is told all the same."""
    with (here / "large.yaml").open("wb") as file:
        file.truncate(5_000_000)
    (problem,) = load("large.yaml").problems
    assert ("file-too-large", "The file has 5,000,000 bytes.") == (problem.code, problem.found)


def test_every_problem_of_a_collection_is_told_at_once(here: Path) -> None:
    """Not the first alone."""
    put(here, "patterns/sea-mat/pattern.yaml")
    put(here, "patterns/Dune/pattern.yaml")
    put(here, "patterns/notes.txt")
    (here / "patterns" / "gone").symlink_to("x")
    assert ["file-folder-name", "file-symlink", "file-stranger"] == [
        one.code for one in collect().problems
    ]
