"""``workeven render``: a folder of its own, whole or not at all."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.support.pattern_files import GOOD, changed
from workeven import cli

ROOT = Path(__file__).parents[1]


@pytest.fixture(autouse=True)
def studio(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A studio with a pattern; the current folder."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "patterns" / "mat").mkdir(parents=True)
    (tmp_path / "patterns" / "mat" / "pattern.yaml").write_text(GOOD, encoding="utf-8")
    return tmp_path


def told(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    """The status, and all that is said."""
    status = cli.main(["render", *words])
    printed = capsys.readouterr()
    assert "Traceback" not in printed.err
    return status, printed.out + printed.err


def bytes_in(folder: Path) -> dict[str, bytes]:
    """All files below a folder."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_a_folder_is_written_and_written_anew(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Twice the same bytes; a hidden folder beside them stays; nothing else is left behind."""
    assert (0, "1 pattern written to out, as Markdown.\n") == told(capsys, "out")
    first = bytes_in(studio / "out")
    assert {"index.md", "studio.md", "patterns/mat.md"} < first.keys()
    (studio / "out" / ".git").mkdir()
    assert told(capsys, "out")[0] == 0
    assert first == bytes_in(studio / "out")
    assert (studio / "out" / ".git").is_dir()
    assert {"out", "patterns"} == {path.name for path in studio.iterdir()}


def test_a_pattern_that_is_gone_is_gone_from_the_folder(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The folder is that of today's patterns."""
    told(capsys, "out")
    (studio / "patterns" / "mat").rename(studio / "patterns" / "rug")
    assert told(capsys, "out")[0] == 0
    names = bytes_in(studio / "out").keys()
    assert ("patterns/rug.md" in names, "patterns/mat.md" in names) == (True, False)


def test_an_error_leaves_all_as_it_was(studio: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The problem is told, the folder of before stays, a new one is not made."""
    told(capsys, "out")
    before = bytes_in(studio / "out")
    uneven = changed("multiple: 6, plus: 1", "multiple: 4")
    (studio / "patterns" / "mat" / "pattern.yaml").write_text(uneven, encoding="utf-8")
    status, said = told(capsys, "out")
    assert (1, True) == (status, "row-uneven" in said)
    assert told(capsys, "other")[0] == 1
    assert before == bytes_in(studio / "out")
    assert not (studio / "other").exists()


def test_what_was_changed_there_is_not_written_over(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A byte in a page, a file more, a link."""
    told(capsys, "out")
    page = studio / "out" / "patterns" / "mat.md"
    page.write_bytes(page.read_bytes() + b"mine")
    assert (2, True) == (told(capsys, "out")[0], b"mine" in page.read_bytes())
    told(capsys, "more")
    (studio / "more" / "mine.txt").write_text("x", encoding="utf-8")
    assert told(capsys, "more")[0] == 2
    told(capsys, "linked")
    (studio / "linked" / "a").symlink_to(studio)
    assert told(capsys, "linked")[0] == 2


@pytest.mark.parametrize(
    ("folder", "sentence"),
    [
        (".", "holds something else"),
        ("patterns", "lies among the patterns"),
        ("patterns/mat/out", "lies among the patterns"),
        ("patterns/out", "lies among the patterns"),
        ("file", "is no folder"),
        ("file/out", "cannot be"),
        ("full", "Nothing is written"),
        (" ", "`DIR` is empty"),
    ],
)
def test_no_other_folder_is_touched(
    folder: str, sentence: str, studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Not the patterns, not a file, nothing that holds something else."""
    (studio / "file").write_text("x", encoding="utf-8")
    (studio / "full").mkdir()
    (studio / "full" / "written-by-workeven.txt").write_text("x\n" * 20, encoding="utf-8")
    before = bytes_in(studio)
    status, said = told(capsys, folder)
    assert (2, True) == (status, sentence in said), said
    assert before == bytes_in(studio)


def test_paths_that_lead_nowhere_are_told(capsys: pytest.CaptureFixture[str]) -> None:
    """So is an output folder that is not named."""
    assert told(capsys, "out", "nowhere")[1].startswith("workeven: There is no file or folder")
    assert "`DIR` is missing" in told(capsys)[1]


def test_two_patterns_of_one_name_are_not_one_page(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two collections may each have a mat."""
    (studio / "more" / "mat").mkdir(parents=True)
    (studio / "more" / "mat" / "pattern.yaml").write_text(GOOD, encoding="utf-8")
    status, said = told(capsys, "out", "patterns", "more")
    assert (2, True) == (status, "two patterns called `mat`" in said)


def test_a_folder_that_may_not_be_written_in_is_told(studio: Path) -> None:
    """As another user than root, who may write anywhere."""
    locked = studio / "locked"
    locked.mkdir()
    locked.chmod(0o500)
    if os.access(locked, os.W_OK):
        pytest.skip("this user may write anywhere")
    ran = subprocess.run(
        [sys.executable, "-m", "workeven.cli", "render", "locked/out"],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT / "plugins")},
    )
    assert (2, True) == (ran.returncode, "cannot be written" in ran.stderr)
