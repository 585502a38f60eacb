"""``workeven new``: options, questions, refusals, and what is written."""

from __future__ import annotations

import io
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest

from workeven import cli, packaged

ROOT = Path(__file__).parents[1]
FILE = Path("patterns/sea-hat/pattern.yaml")


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An empty folder, and no terminal."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "stdin", io.StringIO(""))


def here() -> list[str]:
    """What lies in the current folder."""
    return [path.name for path in Path().iterdir()]


def told(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    """The status, and all that is said."""
    status = cli.main(["new", *words])
    printed = capsys.readouterr()
    assert "Traceback" not in printed.err
    return status, printed.out + printed.err


def test_a_pattern_is_written_with_its_schema_and_checks(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The file names the schema, which lies where it says, and has no error."""
    status, out = told(capsys, "sea-hat", "--kind", "hat", "--title", "Hat: of the sea")
    assert (0, True) == (status, "patterns/sea-hat/pattern.yaml is written." in out)
    first = FILE.read_text(encoding="utf-8").splitlines()[0]
    assert first == "# yaml-language-server: $schema=../../schema/pattern.schema.json"
    schema = (FILE.parent / "../../schema/pattern.schema.json").read_text(encoding="utf-8")
    assert packaged.text("schemas/pattern.schema.json") == schema
    assert cli.main(["check"]) == 0


def test_nothing_is_written_over(capsys: pytest.CaptureFixture[str]) -> None:
    """A file that stands there is as it was, and no folder is left behind."""
    FILE.parent.mkdir(parents=True)
    FILE.write_text("mine", encoding="utf-8")
    status, out = told(capsys, "sea-hat", "--kind", "hat")
    assert (2, True) == (status, "it is there already" in out)
    assert (["patterns"], "mine") == (here(), FILE.read_text(encoding="utf-8"))


def test_a_link_is_not_followed(capsys: pytest.CaptureFixture[str]) -> None:
    """What a link in the place of the file leads to stays as it is, or is not made."""
    FILE.parent.mkdir(parents=True)
    FILE.symlink_to(Path("elsewhere").absolute())
    assert told(capsys, "sea-hat", "--kind", "hat")[0] == 2
    assert not Path("elsewhere").exists()


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ((), "`NAME` is missing"),
        (("x",), "`--kind` is missing. It is one of: square; scarf; cowl; hat; top."),
        (("x", "--kind", "hta"), "`--kind` cannot be `hta`. Did you mean `hat`?"),
        (("Sea Hat", "--kind", "hat"), "Call it `sea-hat`."),
        (("../", "--kind", "hat"), "cannot be called"),
        (("x", "--kind", "hat", "--for", "childs"), "`--for` cannot be `childs`."),
        (("x", "--kind", "scarf", "--worked", "spiral rounds"), "It is one of: flat rows."),
        (("x", "--kind", "hat", "--sizes", "S"), "the chart has no `S`."),
        (
            ("x", "--kind", "top", "--sizes", "M (S)"),
            "the smallest stands first: S and M.",
        ),
        (("x", "--kind", "square", "--sizes", "S (M"), "A bracket is opened"),
        (
            ("x", "--kind", "square", "--sizes", f"A ({', '.join(f'B{at}' for at in range(24))})"),
            "at most 24",
        ),
        (("x", "--kind", "square", "--title", " "), "a title is needed"),
        (("x", "--kind", "square", "--title", "a\u202eb"), "U+202E"),
        (("x", "--kind", "square", "--title", "a\ud800b"), "U+D800"),
        (("x", "--kind", "square", "--title", "x" * 201), "at most 200"),
        (("x", "--kind", "square", "--schema", "a b"), "without spaces"),
        (("x", "--kind", "square", "--units", "ft"), "`--units` cannot be `ft`"),
    ],
)
def test_what_cannot_be_begun_is_a_sentence(
    words: tuple[str, ...], sentence: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Status 2, what would be right, and nothing written."""
    status, out = told(capsys, *words)
    assert (2, True, []) == (status, sentence in out, here()), out


def test_a_folder_that_cannot_be_made_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """A file stands where the folder would be."""
    Path("patterns").write_text("", encoding="utf-8")
    status, out = told(capsys, "sea-hat", "--kind", "hat")
    assert (2, True) == (status, "cannot be written" in out)
    assert ["patterns"] == here()


def test_a_path_is_taken_as_it_is(capsys: pytest.CaptureFixture[str]) -> None:
    """A folder elsewhere; the schema is not written outside of where the user stands."""
    assert told(capsys, "./mat", "--kind", "square")[0] == 0
    assert ["mat"] == here()
    assert told(capsys, "shop/drafts/net", "--kind", "scarf", "--units", "in")[0] == 0
    assert Path("shop/schema/pattern.schema.json").is_file()


def on_a_terminal(answers: str, *words: str) -> tuple[int, str]:
    """Run the command on a terminal and type the answers; its status and what it asks."""
    ours, theirs = pty.openpty()
    ran = subprocess.Popen(
        [sys.executable, "-m", "workeven.cli", "new", *words],
        stdin=theirs,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(ROOT / "plugins")},
    )
    os.write(ours, answers.encode())
    out, err = ran.communicate(timeout=60)
    os.close(theirs)
    os.close(ours)
    return ran.returncode, (out + err).decode()


def test_a_terminal_is_asked_for_what_is_missing() -> None:
    """A wrong answer is asked again, Enter takes what stands in brackets."""
    answers = "Sea Hat\n\nhta\nhat\n\nadult women\nadult woman (adult man)\nspiral rounds\n"
    status, out = on_a_terminal(answers)
    assert status == 0
    for words in (
        "What is the pattern called?",
        "What shall its folder be called? [sea-hat]",
        "What is it? [square]",
        "Did you mean `hat`?",
        "Who is it for? [women]",
        "Which sizes? The chart has adult woman and adult man. [adult woman]",
        "The chart has no `adult women`.",
        "How is it worked? [joined rounds]",
    ):
        assert words in out
    assert "worked: spiral rounds" in FILE.read_text(encoding="utf-8")


def test_questions_that_are_not_answered_write_nothing() -> None:
    """The end of input ends the command."""
    status, out = on_a_terminal("Sea Hat\n\x04")
    assert (2, True, []) == (status, "Nothing is written" in out, here())
    assert "Traceback" not in out
