"""The command line, as a user meets it: what is printed, and the exit status."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.support.pattern_files import GOOD, changed
from workeven import cli, pipeline
from workeven.commands import answer
from workeven.source import Source

ROOT = Path(__file__).parents[1]
UNEVEN = changed("multiple: 6, plus: 1", "multiple: 4")


class Run:
    """One run of the command in this process: exit status, standard output, standard error."""

    def __init__(self, capsys: pytest.CaptureFixture[str], *words: str) -> None:
        self.status = cli.main(words)
        self.out, self.err = capsys.readouterr()


@pytest.fixture
def collection(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty studio: the current folder, with a folder ``patterns``."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "patterns").mkdir()
    return tmp_path


def write(collection: Path, slug: str, text: str | bytes) -> str:
    """A pattern of the collection; gives the file as it is reported."""
    folder = collection / "patterns" / slug
    folder.mkdir()
    content = text.encode("utf-8") if isinstance(text, str) else text
    (folder / "pattern.yaml").write_bytes(content)
    return f"patterns/{slug}/pattern.yaml"


# --- check ---------------------------------------------------------------------------------


def test_a_good_collection_is_told_in_one_line(
    collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without a path, ``patterns`` is checked."""
    write(collection, "mat", GOOD)
    run = Run(capsys, "check")
    assert (run.status, run.out, run.err) == (0, "1 pattern: no problems.\n", "")


def test_all_problems_of_all_files_are_told_in_order(
    collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The first file's errors do not hide the second's; the last line counts them."""
    second = write(collection, "b-mat", changed("title: Sand Mat", "titel: Sand Mat"))
    first = write(collection, "a-mat", UNEVEN)
    run = Run(capsys, "check")
    places = [line for line in run.out.splitlines() if line.startswith("patterns/")]
    assert [place.split(":")[0] for place in places] == sorted(
        place.split(":")[0] for place in places
    )
    assert {first, second} == {place.split(":")[0] for place in places}
    assert run.out.splitlines()[-1].startswith("2 patterns: ")
    assert run.status == 1


def test_a_row_that_does_not_come_out_names_piece_row_and_sizes(
    collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The first line stands alone: place, code, piece, row, sizes, what was found."""
    file = write(collection, "mat", UNEVEN)
    first = Run(capsys, "check").out.splitlines()[0]
    assert first.startswith(f"{file}:")
    assert ": row-uneven: Mat, Row " in first


@pytest.mark.parametrize(
    "path", ["patterns", "patterns/", "patterns/mat", "patterns/mat/pattern.yaml", "./patterns"]
)
def test_a_collection_a_folder_or_a_file_is_checked(
    path: str, collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whatever the path names, the pattern is found and called by its place."""
    file = write(collection, "mat", UNEVEN)
    run = Run(capsys, "check", path)
    assert run.out.startswith(f"{file}:")
    assert run.status == 1


def test_json_of_a_check_has_the_same_problems(
    collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Programs get what people get."""
    file = write(collection, "mat", UNEVEN)
    run = Run(capsys, "check", "--format", "json")
    (problem,) = json.loads(run.out)["problems"]
    assert (problem["code"], problem["severity"], problem["file"]) == ("row-uneven", "error", file)
    assert problem["piece"] == "Mat"
    assert run.status == 1


def test_a_path_that_leads_nowhere_cannot_be_checked(
    collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A slip of usage is one sentence and status 2."""
    write(collection, "mat", GOOD)
    run = Run(capsys, "check", "patern")
    assert (run.status, run.out) == (2, "")
    assert run.err == "workeven: There is no file or folder `patern`.\n"


def test_without_a_collection_the_way_out_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Started in the wrong folder, the command says what it looked for."""
    monkeypatch.chdir(tmp_path)
    run = Run(capsys, "check")
    assert run.status == 2
    assert run.err.startswith("workeven: There is no folder `patterns` here.")


def test_a_bug_of_ours_is_one_sentence_and_the_rest_is_checked(
    collection: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """An exception names the file, asks for a report, and hides no other file's problems."""
    bad = write(collection, "a-mat", GOOD)
    write(collection, "b-mat", UNEVEN)
    whole = pipeline.run

    def broken(source: Source, *others: object) -> pipeline.Outcome:
        if source.file == bad:
            raise ZeroDivisionError
        return whole(source, *others)  # type: ignore[arg-type]

    monkeypatch.setattr("workeven.pipeline.files.run", broken)
    run = Run(capsys, "check")
    assert run.status == 2
    assert ": row-uneven: " in run.out
    assert run.err.startswith(f"workeven: {bad} could not be worked through")
    assert "Please report" in run.err
    assert "Traceback" not in run.err


def test_a_developer_can_see_the_trace(
    collection: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """With the variable set the exception is not caught."""
    write(collection, "mat", GOOD)
    monkeypatch.setattr("workeven.pipeline.files.run", lambda *_: 1 // 0)
    monkeypatch.setenv(answer.SHOW_TRACEBACK, "1")
    with pytest.raises(ZeroDivisionError):
        Run(capsys, "check")


# --- count ---------------------------------------------------------------------------------

ROWS = """\
ch 61 (67, 73)
sc in 2nd ch from hook and in each ch across, turn (60, 66, 72 sc)
ch 1, *sc 4, sc2tog; rep from * across, turn (50, 55, 60)
"""


@pytest.fixture
def rows(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A file ``rows.txt`` in the current folder: the first rows of the 9th worked example."""
    monkeypatch.chdir(tmp_path)
    file = tmp_path / "rows.txt"
    file.write_text(ROWS, encoding="utf-8")
    return file


@pytest.mark.usefixtures("rows")
def test_counts_stand_in_a_table(capsys: pytest.CaptureFixture[str]) -> None:
    """A line a row, a column a size, and what the row makes; the numbers are notation.md's."""
    run = Run(capsys, "count", "rows.txt", "--sizes", "S (M, L)")
    table = [line.split() for line in run.out.splitlines()]
    assert table[0] == ["line", "row", "sts", "in", "S", "M", "L", "makes"]
    assert table[1] == ["1", "61", "67", "73", "61", "(67,", "73)", "ch"]
    assert table[2][-7:] == ["60", "66", "72", "60", "(66,", "72)", "sc"]
    assert "40 (44, 48) sc, 10 (11, 12) sc2tog" in run.out
    assert run.out.splitlines()[-1] == "3 rows: no problems."
    assert (run.status, run.err) == (0, "")


@pytest.mark.usefixtures("rows")
def test_json_of_a_count(capsys: pytest.CaptureFixture[str]) -> None:
    """Every list has one entry a size."""
    run = Run(capsys, "count", "rows.txt", "--sizes", "S (M, L)", "--format", "json")
    report = json.loads(run.out)
    assert ["sizes", "rows", "problems"] == list(report)
    assert ["S", "M", "L"] == report["sizes"]
    assert {
        "label": None,
        "line": 2,
        "times": [1, 1, 1],
        "sts": [60, 66, 72],
        "makes": [{"sc": 60}, {"sc": 66}, {"sc": 72}],
        "stated": [{"sc": 60}, {"sc": 66}, {"sc": 72}],
        "into": [
            {"places": {"ch": chains}, "over": {}, "left": {}, "row": None, "entered": {}}
            for chains in (60, 66, 72)
        ],
    } == {**report["rows"][1], "label": None}
    assert [{"sts": 50}, {"sts": 55}, {"sts": 60}] == report["rows"][2]["stated"]
    assert report["problems"] == []


@pytest.mark.usefixtures("rows")
def test_sizes_are_numbered_when_rows_hold_several(capsys: pytest.CaptureFixture[str]) -> None:
    """Without ``--sizes`` a list by size names them 1, 2, 3."""
    report = json.loads(Run(capsys, "count", "rows.txt", "--format", "json").out)
    assert report["sizes"] == ["1", "2", "3"]


def test_rows_without_sizes_are_in_one_that_has_no_name(
    rows: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """``sizes`` is ``[null]``, and a problem names no size."""
    rows.write_text("ch 10\nsc in 2nd ch from hook and in each ch across, turn (10 sc)\n")
    report = json.loads(Run(capsys, "count", "rows.txt", "--format", "json").out)
    assert report["sizes"] == [None]
    assert [row["sts"] for row in report["rows"]] == [[10], [9]]
    assert [problem["sizes"] for problem in report["problems"]] == [None]


def test_options_of_the_command_reach_the_count(
    rows: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """How it is worked, what the first row is worked into, a special stitch, the terms."""
    rows.write_text("Rnd 3: ch 1, *sk 2 sts, fan in next st; rep from * around, join\n")
    words = ("--worked", "joined rounds", "--from", "54 tr", "--terms", "uk")
    run = Run(capsys, "count", "rows.txt", *words, "--stitch", "fan = 3 tr in same st")
    assert (run.status, run.err) == (0, "")
    assert "Rnd 3" in run.out
    assert "54" in run.out


def test_a_row_that_does_not_come_out_is_status_1(
    rows: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The problem names file, line and row; the table shows what later rows are counted from."""
    rows.write_text("Rnd 1: ch 1, [sc 4, sc2tog] around, join\n")
    run = Run(capsys, "count", "rows.txt", "--worked", "joined rounds", "--from", "20 sc")
    assert run.status == 1
    assert "rows.txt:1:" in run.out
    assert ": row-uneven: Rnd 1: " in run.out
    assert run.out.splitlines()[-1] == "1 row: 1 error."


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ("check", "--format", "xml"),
            "`--format` cannot be `xml`; it is one of: text; json; github; sarif.",
        ),
        (("check", "--colour"), "`--colour` is not known here."),
        (("count", "--worked"), "`--worked` needs a value behind it."),
        (
            ("count", "--worked", "rounds"),
            "`--worked` cannot be `rounds`; it is one of: flat rows;",
        ),
        (("count", "--sizes", "S (M"), "`--sizes` cannot be `S (M`: A bracket is opened"),
        (("count", "--sizes", "S (S)"), "`--sizes` cannot be `S (S)`: `S` stands twice."),
        (("count", "--form", "json"), "`--form` is not known here."),
        (("count", "nowhere.txt"), "`nowhere.txt` cannot be opened: no such file or directory."),
        (("count", "."), "`.` cannot be opened: is a directory."),
        (("explain",), "`CODE` is missing."),
        (("explain", "row-unevn"), "There is no problem called `row-unevn`. Did you mean"),
        (("chek",), "There is no command `chek`."),
        ((), "Say what to do: new, check, count, nearest, grade, shape, evenly, "),
    ],
)
def test_a_slip_in_the_command_is_a_sentence(
    words: tuple[str, ...], sentence: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Status 2, nothing on standard output, and no word of the programmer's."""
    run = Run(capsys, *words)
    assert (run.status, run.out) == (2, "")
    assert run.err.startswith(f"workeven: {sentence}")


def test_a_page_is_explained(capsys: pytest.CaptureFixture[str]) -> None:
    """The page of a code is printed without marks of Markdown."""
    run = Run(capsys, "explain", "row-uneven")
    assert (run.status, run.err) == (0, "")
    assert run.out.splitlines()[0] == "row-uneven"
    assert "Why it matters" in run.out.splitlines()
    assert "```" not in run.out


# --- the edge, in a process of its own -----------------------------------------------------


@contextmanager
def started(*words: str, **environment: str) -> Iterator[subprocess.Popen[bytes]]:
    """The command in a process of its own, all its streams piped."""
    path = os.pathsep.join([str(ROOT / "plugins"), os.environ.get("PYTHONPATH", "")])
    with subprocess.Popen(
        [sys.executable, "-m", "workeven.cli", *words],
        env={**os.environ, "PYTHONPATH": path, **environment},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as process:
        yield process


def test_rows_are_read_from_a_pipe() -> None:
    """``-``, and no file at all, is standard input."""
    for words in (("count",), ("count", "-")):
        with started(*words) as process:
            out, err = process.communicate(b"ch 10\n")
        assert (process.returncode, err) == (0, b"")
        assert b"10 ch" in out


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_rows_of_any_editor_are_read(
    end: str, mark: str, rows: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Line ends of all systems, with or without a byte order mark."""
    rows.write_bytes((mark + end.join(["ch 10", "sc in 2nd ch from hook", ""])).encode("utf-8"))
    report = json.loads(Run(capsys, "count", "rows.txt", "--format", "json").out)
    assert [(1, [10]), (2, [1])] == [(row["line"], row["sts"]) for row in report["rows"]]


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp437", "utf-16", "utf-8"])
def test_a_terminal_of_any_encoding_gets_its_report(encoding: str) -> None:
    """A character that the terminal cannot show is written as an escape."""
    with started("count", PYTHONIOENCODING=encoding) as process:
        out, err = process.communicate("knüpfe ½ “星” ☃\n".encode())
    assert (process.returncode, err) == (1, b"")
    assert "row-not-understood" in out.decode(encoding)


def test_nobody_needs_to_read_to_the_end() -> None:
    """A closed pipe (``workeven count | head -1``) is no error of ours."""
    with started("count") as process:
        assert process.stdin
        assert process.stdout
        process.stdout.close()
        process.stdin.write(b"ch 10\n" * 5000)
        process.stdin.close()
        assert process.stderr
        assert process.stderr.read() == b""
    assert process.returncode in {0, 1}


@pytest.mark.skipif(os.name == "nt", reason="Ctrl-C is no signal to a process there")
def test_ctrl_c_is_no_traceback() -> None:
    """Stopped while it waits for rows, the command says so in a word."""
    with started("count") as process:
        time.sleep(1)
        process.send_signal(signal.SIGINT)
        out, err = process.communicate()
    assert (process.returncode, out, err) == (2, b"", b"workeven: Stopped.\n")
