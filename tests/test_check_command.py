"""``workeven check`` for programs: its formats, what is piped in, the summary of a host."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest
import yaml

from tests.support.pattern_files import GOOD, changed
from workeven import cli

ROOT = Path(__file__).parents[1]
UNEVEN = changed("multiple: 6, plus: 1", "multiple: 4")
FILE = "patterns/mat/pattern.yaml"


@pytest.fixture
def studio(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A studio with a pattern that does not come out; the current folder."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("GITHUB_STEP_SUMMARY", raising=False)
    (tmp_path / "patterns" / "mat").mkdir(parents=True)
    (tmp_path / FILE).write_text(UNEVEN, encoding="utf-8")
    return tmp_path


def pipe(monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    """Let a text be piped in."""
    monkeypatch.setattr(sys, "stdin", SimpleNamespace(buffer=io.BytesIO(text.encode())))


def test_each_format_tells_the_same_problem(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The row that does not come out is in all of them, at its line, and the status is 1."""
    told = {}
    for form in ("text", "json", "github", "sarif"):
        assert cli.main(["check", "--format", form]) == 1
        told[form] = capsys.readouterr().out
    line = json.loads(told["json"])["problems"][0]["line"]
    (result,) = json.loads(told["sarif"])["runs"][0]["results"]
    place = result["locations"][0]["physicalLocation"]
    assert (place["artifactLocation"]["uri"], place["region"]["startLine"]) == (FILE, line)
    assert told["github"].startswith(f"::error file={FILE},line={line},")
    assert told["text"].startswith(f"{FILE}:{line}:")
    assert studio.is_dir()


def test_the_summary_is_appended_where_the_host_says(
    studio: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What stands there stays; without the format nothing is written."""
    summary = studio / "summary.md"
    summary.write_text("before\n", encoding="utf-8")
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(summary))
    cli.main(["check"])
    cli.main(["check", "--format", "github"])
    written = summary.read_text(encoding="utf-8")
    assert written.startswith("before\n### workeven check\n\n1 pattern: 1 error.")
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(studio / "no" / "file"))
    capsys.readouterr()
    assert cli.main(["check", "--format", "github"]) == 1
    assert "The summary cannot be written" in capsys.readouterr().err


def test_a_text_is_checked_as_if_it_lay_in_its_file(
    studio: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is piped in counts, what the file holds does not; the studio beside it is found."""
    pipe(monkeypatch, GOOD)
    assert cli.main(["check", "--stdin-filename", FILE, "-"]) == 0
    assert capsys.readouterr().out == "1 pattern: no problems.\n"
    (studio / "patterns" / "studio.yaml").write_text("nme: X\n", encoding="utf-8")
    pipe(monkeypatch, UNEVEN)
    assert cli.main(["check", "--stdin-filename", "patterns/new/pattern.yaml", "-"]) == 1
    assert "patterns/studio.yaml:1:1: " in capsys.readouterr().out


def test_a_studio_that_is_not_saved_is_checked(
    studio: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The studio's own file may be piped in too."""
    pipe(monkeypatch, "nme: X\n")
    assert cli.main(["check", "--stdin-filename", "patterns/studio.yaml", "-"]) == 1
    assert capsys.readouterr().out.startswith("patterns/studio.yaml:1:1: ")
    assert studio.is_dir()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["-"], "`-` needs `--stdin-filename`"),
        (["--stdin-filename", FILE], "`--stdin-filename` needs `-`"),
        (["--stdin-filename", FILE, "-", "patterns"], "`--stdin-filename` needs `-`"),
        (["--stdin-filename", "patterns", "-"], "that is a folder"),
        (["--stdin-filename", "patterns/our-chart.yaml", "-"], "No `studio.yaml` lies beside"),
    ],
)
def test_half_of_the_words_is_a_slip_of_usage(
    studio: Path, capsys: pytest.CaptureFixture[str], words: list[str], says: str
) -> None:
    """The sentence says what is missing."""
    assert cli.main(["check", *words]) == 2
    assert says in capsys.readouterr().err
    assert studio.is_dir()


def test_color_is_asked_for_and_not_in_a_pipe(
    studio: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing but text goes into a file or a pipe, unless it is asked for."""
    cli.main(["check"])
    assert "\x1b" not in capsys.readouterr().out
    cli.main(["check", "--color", "always"])
    assert "\x1b[1m" in capsys.readouterr().out
    assert studio.is_dir()


def test_the_hook_checks_a_collection(studio: Path) -> None:
    """What runs before a commit is the command itself, at the whole collection."""
    (hook,) = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    assert (hook["id"], hook["language"], hook["pass_filenames"]) == ("workeven", "python", False)
    program, *words = hook["entry"].split()
    assert program == "workeven"
    done = subprocess.run(
        [sys.executable, "-m", "workeven.cli", *words],
        cwd=studio,
        env={**os.environ, "PYTHONPATH": str(ROOT / "plugins")},
        check=False,
        capture_output=True,
        encoding="utf-8",
    )
    assert (done.returncode, done.stdout.startswith(f"{FILE}:")) == (1, True)
