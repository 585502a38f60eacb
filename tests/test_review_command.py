"""``workeven review``: against a commit, against a folder, in every form, with wrong input."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from tests.review.seeds import COLLECTION, written
from workeven import cli

THUMB = ("thumb_sts: 7 (7, 8)", "thumb_sts: 7 (7, 9)")
MITTS = Path("patterns/sandhopper-mitts/pattern.yaml")
HOSTILE = "Mitts <img src=x> @everyone #1 [a](javascript:b) `c` ##[error] | d"


def git(folder: Path, *words: str) -> str:
    """What git prints."""
    who = ("-c", "user.name=A", "-c", "user.email=a@localhost", "-c", "commit.gpgsign=false")
    command = ["git", *who, *words]
    done = subprocess.run(command, cwd=folder, check=True, capture_output=True, encoding="utf-8")
    return done.stdout.strip()


@pytest.fixture
def studio(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A studio's repository with two patterns, committed on the branch ``main``."""
    for name in ("sandhopper-mitts", "whelkstow-basket"):
        shutil.copytree(COLLECTION / name, tmp_path / "patterns" / name)
    shutil.copy(COLLECTION / "studio.yaml", tmp_path / "patterns" / "studio.yaml")
    git(tmp_path, "init", "-q", "-b", "main", ".")
    git(tmp_path, "add", "-A")
    git(tmp_path, "commit", "-q", "-m", "one")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def change(file: Path, *pairs: tuple[str, str]) -> None:
    """Write over parts of a file."""
    file.write_text(written(file.read_text("utf-8"), *pairs), encoding="utf-8")


def test_nothing_changed(studio: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Status 0, and a line that says what was compared."""
    commit = git(studio, "rev-parse", "--short=10", "HEAD")
    assert 0 == cli.main(["review", "main"])
    assert f"Compared with `main` ({commit}): 2 are the same.\n" == capsys.readouterr().out


def test_a_change_that_is_not_committed_is_seen(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The work tree is compared, and the message stands at the version."""
    change(studio / MITTS, THUMB)
    assert 1 == cli.main(["review", "main"])
    told = capsys.readouterr().out
    assert "    thumb_sts: L 8 → 9\n" in told
    assert f"{MITTS.as_posix()}:9:10: change-unsaid: " in told


def test_what_others_changed_since_is_no_part_of_it(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Compared is where the two lines of work parted."""
    git(studio, "checkout", "-q", "-b", "mine")
    git(studio, "checkout", "-q", "main")
    change(studio / MITTS, THUMB)
    git(studio, "commit", "-q", "-a", "-m", "theirs")
    git(studio, "checkout", "-q", "mine")
    assert 0 == cli.main(["review", "main"])
    assert "2 are the same." in capsys.readouterr().out


def test_git_and_the_work_tree_are_left_as_they_are(studio: Path) -> None:
    """Nothing is checked out, and nothing is written."""
    change(studio / MITTS, THUMB)
    before = (git(studio, "status", "--porcelain"), git(studio, "rev-parse", "HEAD"))
    cli.main(["review", "main"])
    assert before == (git(studio, "status", "--porcelain"), git(studio, "rev-parse", "HEAD"))


def test_a_folder_stands_for_a_commit(
    studio: Path, tmp_path_factory: pytest.TempPathFactory, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without git: a copy of the collection, or of what holds it."""
    old = tmp_path_factory.mktemp("old")
    shutil.copytree(studio / "patterns", old / "patterns")
    change(studio / MITTS, THUMB)
    statuses = [cli.main(["review", str(one)]) for one in (old, old / "patterns")]
    assert ([1, 1], 2) == (statuses, capsys.readouterr().out.count("thumb_sts: L 8 → 9"))


@pytest.mark.parametrize(
    "base", ["nope", "--output=x", "-h/..", "", " ", "main\n", "main:patterns", "main..main", "@{"]
)
def test_a_base_that_is_none_is_refused(
    base: str, studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One sentence, status 2; no word of it reaches git as an option."""
    del studio
    assert 2 == cli.main(["review", "--", base])
    assert "There is no folder and no commit " in capsys.readouterr().err


def test_outside_a_repository_a_folder_is_asked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Status 2."""
    shutil.copytree(COLLECTION, tmp_path / "patterns")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    assert 2 == cli.main(["review", "main"])
    assert "lies in no git repository" in capsys.readouterr().err


def test_without_git_a_folder_is_asked_for(
    studio: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Status 2."""
    monkeypatch.setenv("PATH", str(studio))
    assert 2 == cli.main(["review", "main"])
    assert "git is needed" in capsys.readouterr().err


@pytest.mark.parametrize("path", [MITTS, MITTS.parent])
def test_one_pattern_is_no_collection(
    path: Path, studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Patterns may have moved between folders, so all of them are compared."""
    del studio
    assert 2 == cli.main(["review", "main", path.as_posix()])
    assert "give the folder of all patterns" in capsys.readouterr().err


def test_a_collection_may_be_all_of_its_repository(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Then nothing stands in front of the folders of its patterns."""
    shutil.copytree(COLLECTION / "whelkstow-basket", tmp_path / "whelkstow-basket")
    git(tmp_path, "init", "-q", "-b", "main", ".")
    git(tmp_path, "add", "-A")
    git(tmp_path, "commit", "-q", "-m", "one")
    monkeypatch.chdir(tmp_path)
    assert 0 == cli.main(["review", "main", "."])
    assert "1 is the same." in capsys.readouterr().out


def test_links_and_strange_names_of_a_commit_are_not_written(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A commit is a stranger's too: a link leads nowhere, an odd name is left out."""
    (studio / "patterns" / "evil").mkdir()
    (studio / "patterns" / "evil" / "pattern.yaml").symlink_to("/etc/passwd")
    (studio / "patterns" / "a\nb").mkdir()
    (studio / "patterns" / "a\nb" / "pattern.yaml").write_text("title: x\n", encoding="utf-8")
    git(studio, "add", "-A")
    git(studio, "commit", "-q", "-m", "odd")
    shutil.rmtree(studio / "patterns" / "evil")
    shutil.rmtree(studio / "patterns" / "a\nb")
    assert 0 == cli.main(["review", "HEAD"])
    assert "2 are the same." in capsys.readouterr().out


def test_a_pattern_with_errors_now_is_status_1(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It cannot be compared, and cannot be published."""
    change(studio / MITTS, ("*sk 2 sts, fan in next st;", "*sk 3 sts, fan in next st;"))
    assert 1 == cli.main(["review", "main"])
    told = "(sandhopper-mitts): not compared. It has errors now, which `workeven check` tells."
    assert f"Sandhopper Mitts {told}" in capsys.readouterr().out


def test_the_json_has_every_pattern(studio: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Numbers by size, in ASCII."""
    change(studio / MITTS, THUMB)
    cli.main(["review", "main", "--format", "json"])
    out = capsys.readouterr().out
    found = json.loads(out)
    mitts, basket = found["patterns"]
    count = {"part": "Counts", "of": "thumb_sts", "what": None, "size": "L"}
    assert (True, "changed", "same") == (out.isascii(), mitts["status"], basket["status"])
    assert {**count, "before": "8", "now": "9", "number": True} in mitts["changes"]
    assert ["change-unsaid"] == [problem["code"] for problem in found["problems"]]


@pytest.mark.parametrize("form", ["text", "markdown", "json", "github"])
def test_a_strangers_words_are_words_in_every_form(
    form: str, studio: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """No element, no link, no mention, no command of a log."""
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(studio / "summary.md"))
    title = json.dumps(HOSTILE)
    change(studio / MITTS, THUMB, ("title: Sandhopper Mitts", f"title: {title}"))
    cli.main(["review", "main", "--format", form])
    out = capsys.readouterr().out
    summary = (studio / "summary.md").read_text("utf-8") if form == "github" else ""
    assert [] == [line for line in out.splitlines() if "##[" in line]
    for markdown in (summary, out if form == "markdown" else ""):
        assert "<img" not in markdown
        outside = _outside_code(markdown)
        assert [] == [sign for sign in ("@everyone", "](", "#1") if sign in outside]


def _outside_code(markdown: str) -> str:
    """What stands outside of ``<code>`` and ``<pre>``."""
    import re

    return re.sub(r"<(code|pre)>.*?</\1>", "", markdown, flags=re.DOTALL)


def test_the_summary_keeps_to_its_room() -> None:
    """What has no room is named."""
    from workeven.report.review_markdown import as_markdown
    from workeven.review import Change, PatternReview, Review

    changes = tuple(Change("Counts", f"sts_{n}", "", "L", "1", "2") for n in range(500))
    one = PatternReview(slug="a", file="a", title="A", status="changed", changes=changes)
    review = Review(patterns=(one, one), problems=())
    assert len(as_markdown(review, "main", 4000).encode()) <= 4000
    assert "There is no room for all" in as_markdown(review, "main", 4000)


def picture(file: Path, shade: int) -> None:
    """A picture of one colour, larger than what stands for one that lies elsewhere."""
    Image.effect_noise((64, 48), shade).convert("RGB").save(file)


LISTED = "pictures:\n  - {file: front.jpg, alt: A mitt seen from its palm.}\naudience:"


@pytest.mark.parametrize("base", ["main", "folder"])
@pytest.mark.parametrize(
    ("changed", "told"),
    [
        (lambda text: text, "Pictures: front.jpg is another file"),
        (
            lambda text: text.replace("its palm", "its back"),
            "Pictures: front.jpg is another file and front.jpg has other words",
        ),
        (
            lambda text: text.replace("front.jpg", "side.jpg"),
            "Pictures: front.jpg is gone and side.jpg is new",
        ),
    ],
)
def test_a_picture_that_changed_is_named(
    base: str,
    changed: Callable[[str], str],
    told: str,
    studio: Path,
    tmp_path_factory: pytest.TempPathFactory,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """It is no number, so nothing need be said of it; from git, where it is not read, as well."""
    picture(studio / MITTS.parent / "front.jpg", 20)
    change(studio / MITTS, ("audience:", LISTED))
    git(studio, "add", "-A")
    git(studio, "commit", "-q", "-m", "pictures")
    old = tmp_path_factory.mktemp("before") / "patterns"
    shutil.copytree(studio / "patterns", old)
    against = base if base == "main" else str(old)
    assert 0 == cli.main(["review", against])
    assert "2 are the same." in capsys.readouterr().out
    picture(studio / MITTS.parent / "front.jpg", 60)
    text = (studio / MITTS).read_text("utf-8")
    (studio / MITTS).write_text(changed(text), encoding="utf-8")
    assert 0 == cli.main(["review", against])
    assert f"  {told}\n" in capsys.readouterr().out


def test_pictures_in_another_order_are_told(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The first stands beside the title."""
    one, other = (f"  - {{file: {name}.jpg, alt: A mitt, {name}.}}\n" for name in "ab")
    one, other = one.replace("A mitt, a", "A mitt"), other.replace("A mitt, b", "Two mitts")
    change(studio / MITTS, ("audience:", f"pictures:\n{one}{other}audience:"))
    git(studio, "commit", "-q", "-a", "-m", "pictures")
    change(studio / MITTS, (one + other, other + one))
    assert 0 == cli.main(["review", "main", "--format", "json"])
    (mitts, _) = json.loads(capsys.readouterr().out)["patterns"]
    assert ["they stand in another order"] == mitts["pictures"]
