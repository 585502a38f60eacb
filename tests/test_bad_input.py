"""Wrong input on purpose: one mistake gives one message, with its place, and never a traceback.

Each case changes one thing in a good pattern, or puts something else in its place; the expected
place is the line of the thing that was changed.
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.support.pattern_files import GOOD, changed
from workeven import cli

NINE_ROWS = "rep from * across"


def line_of(text: str, words: str) -> int:
    """The line, from 1, in which the words first stand."""
    return text[: text.index(words)].count("\n") + 1


#: what is wrong: (the text, the code, words of the line at fault)
SLIPS = {
    "YAML: a bracket is not closed": (
        changed("use: [home]", "use: [home"),
        "file-unclosed",
        "use: [home",
    ),
    "YAML: a line is indented with a tab": (
        changed("  length: 20 (24, 27) cm", "\tlength: 20 (24, 27) cm"),
        "file-tab",
        "\tlength",
    ),
    "YAML: a quotation mark is not closed": (
        changed("title: Sand Mat", 'title: "Sand Mat'),
        "file-unclosed",
        'title: "Sand',
    ),
    "YAML: a colon inside a value": (
        changed("title: Sand Mat", "title: Sand: a Mat"),
        "file-colon",
        "title: Sand",
    ),
    "YAML: a key twice": (
        changed("title: Sand Mat", "title: Sand Mat\ntitle: Sea Mat"),
        "file-duplicate-key",
        "title: Sea",
    ),
    "schema: a key is misspelt": (
        changed("finishing:", "finishng:"),
        "file-key-unknown",
        "finishng",
    ),
    "schema: a key is missing": (
        changed("audience: adult\n", ""),
        "file-key-missing",
        "title: Sand Mat",
    ),
    "schema: a key of the gauge is missing": (
        changed("over: 10 cm, ", ""),
        "file-key-missing",
        "ground: {sts",
    ),
    "schema: a word that is not one of those": (
        changed("audience: adult", "audience: everyone"),
        "file-choice",
        "audience: everyone",
    ),
    "schema: a list in place of a text": (
        changed("title: Sand Mat", "title: [Sand, Mat]"),
        "file-shape",
        "title: [Sand",
    ),
    "unit: none": (
        changed("width: 20 (24, 27) cm", "width: 20 (24, 27)"),
        "unit-length",
        "width: 20",
    ),
    "unit: unknown": (
        changed("width: 20 (24, 27) cm", "width: 20 (24, 27) cn"),
        "unit-length",
        "width: 20",
    ),
    "unit: a mass where a length is due": (
        changed("over: 10 cm", "over: 10 g"),
        "unit-length",
        "over: 10 g",
    ),
    "unit: a decimal comma": (
        changed("width: 20 (24, 27) cm", "width: 20,5 cm"),
        "unit-length",
        "width: 20,5",
    ),
    "unit: a number that is a word": (
        changed("sts: 16, rows", "sts: sixteen, rows"),
        "unit-number",
        "sts: sixteen",
    ),
    "stitch: unknown": (
        changed("5 dc in next st, sk 2", "5 flurb in next st, sk 2"),
        "row-not-understood",
        "flurb",
    ),
    "row: not understood": (
        changed("ch 1, sc in each st across, turn ({mat_sts} sc)", "ch 1, then crochet nicely"),
        "row-not-understood",
        "crochet nicely",
    ),
    "row: a repeat that cannot come out": (
        changed("multiple: 6, plus: 1", "multiple: 6"),
        "row-uneven",
        "ch 1, sc in first st",
    ),
    "row: a repeat that takes nothing": (
        changed("*sk 2, 5 dc in next st, sk 2, sc in next st;", "*ch 3;"),
        "row-takes-nothing",
        "*ch 3;",
    ),
    "row: more stitches than there are": (
        changed("ch 1, sc in first st", "ch 1, sc in next 100 sts, sc in next st"),
        "row-uneven",
        "sc in next 100 sts",
    ),
    "row: a bracket is not closed": (
        changed("ch 1, sc in first st", "ch 1, [sc in first st"),
        "row-not-understood",
        "[sc in first",
    ),
    "row: it repeats a row that is not there": (
        changed("rep last row until piece measures {length}", "rep Row 40"),
        "row-no-such-row",
        "rep Row 40",
    ),
    "row: a stated count that is wrong": (
        changed(
            "ch 1, sc in each st across, turn ({mat_sts} sc)",
            "ch 1, sc in each st across, turn ({mat_sts + 1} sc)",
        ),
        "count-stated",
        "{mat_sts + 1} sc",
    ),
    "row: a formula that names nothing": (
        changed("ch {mat_sts + 1}", "ch {mat_st + 1}"),
        "count-formula",
        "ch {mat_st + 1}",
    ),
    "row: a formula that divides by nothing": (
        changed("ch {mat_sts + 1}", "ch {mat_sts / 0}"),
        "count-formula",
        "ch {mat_sts / 0}",
    ),
    "gauge: missing": (
        changed("across: width, gauge: ground", "across: width, gauge: lace"),
        "gauge-missing",
        "gauge: lace",
    ),
    "gauge: zero": (
        changed("sts: 16, rows", "sts: 0, rows"),
        "gauge-zero",
        "sts: 0",
    ),
    "size list: too short": (
        changed("width: 20 (24, 27) cm", "width: 20 (24) cm"),
        "size-list",
        "width: 20",
    ),
    "size list: too long": (
        changed("length: 20 (24, 27) cm", "length: 20 (24, 27, 30) cm"),
        "size-list",
        "length: 20",
    ),
    "size list: in a row": (
        changed("rep last row until piece measures {length}", "rep last row 3 (4) more times"),
        "size-list",
        "rep last row 3",
    ),
    "name: a measurement that is not there": (
        changed("across: width", "across: widht"),
        "name-unknown",
        "across: widht",
    ),
    "name: measurements made from each other": (
        changed("width: 20 (24, 27) cm", "width: length + 1 cm").replace(
            "length: 20 (24, 27) cm", "length: width + 1 cm"
        ),
        "name-circle",
        "width: length",
    ),
    "gauge: a hook in cm": (changed("hook: 4 mm", "hook: 4 cm"), "unit-length", "hook: 4 cm"),
    "gauge: a hook by its name first": (
        changed("hook: 4 mm", "hook: G-6 4 mm"),
        "unit-length",
        "hook: G-6 4 mm",
    ),
    "gauge: a hook without a unit": (changed("hook: 4 mm", "hook: 4"), "unit-length", "hook: 4}"),
    "gauge: row for rows": (
        changed(
            "{sts: 16, rows: 18, over: 10 cm, of: sc, hook",
            "{sts: 16, row: 18, over: 10 cm, of: sc, hook",
        ),
        "file-key-unknown",
        "row: 18",
    ),
    "sizes: without brackets": (
        changed("names: S (M, L)", "names: S M L"),
        "size-brackets",
        "names: S M L",
    ),
    "measurement: a table with a list in it": (
        changed("length: 20 (24, 27) cm", "length: {is: 20 (24, 27) cm}"),
        "file-flow-split",
        "length: {is",
    ),
    "count: half of a multiple of another number": (
        changed("multiple: 6, plus: 1}", "multiple: 6, plus: 1}\n  half: {is: mat_sts / 2}"),
        "count-not-whole",
        "half:",
    ),
    "row: a brace is not closed": (
        changed(
            "turn ({mat_sts} sc)\n          ch 1, sc in each st across, turn ({mat_sts} sc)",
            "turn ({mat_sts sc)\n          ch 1, sc in each st across, turn ({mat_sts} sc)",
        ),
        "row-not-understood",
        "turn ({mat_sts sc)",
    ),
    "row: a dash before it": (
        changed("          rep last row until", "          - rep last row until"),
        "row-not-understood",
        "- rep last row",
    ),
    "row: a name misspelt in a formula": (
        changed("ch {mat_sts + 1}", "ch {mat_st + 1}"),
        "count-formula",
        "{mat_st + 1}",
    ),
    "row: a space of another size": (
        changed(
            "          rep last row until",
            "          ch 4 (counts as dc and ch 1), *sk 1 st, dc in next st, ch 1; rep from * to "
            "last 2 sts, sk 1 st, dc in next st, turn\n"
            "          ch 1, sc in each dc and in each ch-2 sp across, turn\n"
            "          rep last row until",
        ),
        "row-no-such-place",
        "each ch-2 sp",
    ),
    "sizes: a comma forgotten": (
        changed("names: S (M, L)", "names: S (M L)"),
        "size-brackets",
        "names: S (M L)",
    ),
    "gauge: a name misspelt": (
        changed("gauge: ground\n    sections", "gauge: grund\n    sections"),
        "name-unknown",
        "gauge: grund",
    ),
    "row: it repeats a row that is not there, and states a count": (
        changed(
            "          rep last row until piece measures {length}\n",
            "          rep Plain row until piece measures {length}\n"
            "          ch 1, sc in each st across, turn ({mat_sts} sc)\n",
        ),
        "row-no-such-row",
        "rep Plain row",
    ),
    "file: empty": ("", "file-empty", ""),
    "file: nothing but a remark": ("# later\n", "file-empty", ""),
    "file: a list": ("- title: Sand Mat\n", "file-shape", ""),
    "file: a sentence": ("to be written\n", "file-shape", ""),
}


@pytest.fixture
def collection(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder ``patterns/mat`` of an empty studio, in the current folder."""
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "patterns" / "mat"
    folder.mkdir(parents=True)
    return folder


def problems_of(capsys: pytest.CaptureFixture[str], *words: str) -> list[dict[str, object]]:
    """What ``workeven check --format json`` reports; the status is that of an error."""
    status = cli.main(["check", *words, "--format", "json"])
    out, err = capsys.readouterr()
    assert (status, err) == (1, "")
    problems = json.loads(out)["problems"]
    assert isinstance(problems, list)
    return problems


@pytest.mark.parametrize("slip", SLIPS)
def test_one_mistake_gives_one_message_in_its_line(
    slip: str, collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The code names the fault and the line is that of the thing at fault."""
    text, code, words = SLIPS[slip]
    (collection / "pattern.yaml").write_text(text, encoding="utf-8")
    problems = problems_of(capsys)
    assert [(code, line_of(text, words))] == [(one["code"], one["line"]) for one in problems]
    assert problems[0]["file"] == "patterns/mat/pattern.yaml"
    assert problems[0]["found"]


@pytest.mark.parametrize("slip", SLIPS)
def test_a_message_speaks_to_a_designer(
    slip: str, collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The first line has a place and stands alone; no message has a word of the programmer's."""
    text, code, _words = SLIPS[slip]
    (collection / "pattern.yaml").write_text(text, encoding="utf-8")
    assert cli.main(["check"]) == 1
    out, err = capsys.readouterr()
    assert err == ""
    assert re.match(rf"patterns/mat/pattern\.yaml:\d+:\d+: {code}: \S", out)
    assert not re.search(r"Traceback|Error\b|None|NoneType|\bstr\b|\bdict\b|\[\]|\bnull\b", out)
    assert out.splitlines()[-1] == "1 pattern: 1 error."


BYTES = {
    "a picture": (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "file-binary"),
    "bytes without sense": (bytes(range(256)) * 8, "file-binary"),
    "another encoding": (GOOD.replace("Sand", "Dün").encode("latin-1"), "file-encoding"),
    "two bytes a character": (GOOD.encode("utf-16"), "file-encoding"),
    "too much": (b"# " + b"a" * 300_000, "file-too-large"),
    "zeros": (b"\x00" * 100, "file-binary"),
}


@pytest.mark.parametrize("what", BYTES)
def test_bytes_that_are_no_pattern(
    what: str, collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A file that is no text is said to be none."""
    content, code = BYTES[what]
    (collection / "pattern.yaml").write_bytes(content)
    assert [code] == [one["code"] for one in problems_of(capsys)]


def test_a_directory_without_patterns(collection: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The folder itself is the place of the problem."""
    (collection.parents[1] / "elsewhere").mkdir()
    (problem,) = problems_of(capsys, "elsewhere")
    assert (problem["code"], problem["file"]) == ("file-no-patterns", "elsewhere")


def test_a_folder_without_its_pattern(collection: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A pattern's folder with nothing in it is named."""
    assert collection.is_dir()
    assert ["file-no-patterns"] == [one["code"] for one in problems_of(capsys)]


def test_a_studio_that_cannot_be_read_is_the_one_problem(
    collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Its patterns are not blamed for what they would have found there."""
    (collection / "pattern.yaml").write_text(GOOD, encoding="utf-8")
    (collection.parent / "studio.yaml").write_text("name: [Tidewrack", encoding="utf-8")
    (problem,) = problems_of(capsys)
    assert (problem["code"], problem["file"]) == ("file-unclosed", "patterns/studio.yaml")


def test_all_problems_of_all_files_are_told(
    collection: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two mistakes in one file and one in another are three messages, in order."""
    two = changed("audience: adult", "audience: everyone").replace("5 dc in", "5 flurb in")
    (collection / "pattern.yaml").write_text(two, encoding="utf-8")
    other = collection.parent / "sea-mat"
    other.mkdir()
    (other / "pattern.yaml").write_text("", encoding="utf-8")
    assert [
        ("patterns/mat/pattern.yaml", "file-choice"),
        ("patterns/mat/pattern.yaml", "row-not-understood"),
        ("patterns/sea-mat/pattern.yaml", "file-empty"),
    ] == [(one["file"], one["code"]) for one in problems_of(capsys)]


ROWS = {
    "nothing": (b"", 0),
    "blank lines": (b"\n\n  \n", 0),
    "zeros": (b"\x00\x00\x00\x00", 1),
    "another encoding": ("ch 10 häkeln".encode("latin-1"), 1),
    "brackets without end": (b"[" * 5000, 1),
    "stars without end": (b"*sc, " * 1500, 1),
    "a very long row": (b"sc in next st, " * 5000, 1),
    "a number beyond all pieces": (b"ch " + b"9" * 4000, 1),
    "a first row into nothing": (b"sc in each st across", 1),
    "a row that repeats itself": (b"Row 1: rep Row 1", 1),
    "a row that repeats a later one": (b"ch 10\nRow 1: rep Row 2\nRow 2: sc in each st across", 1),
    "the last of more than there are": (b"ch 10\nsc in each ch to last 99 chs", 1),
    "an empty repeat": (b"ch 10\n[] 6 times", 1),
    "a repeat of repeats of repeats": (
        b"ch 10\n" + b"[" * 50 + b"sc in next ch" + b"] twice" * 50,
        1,
    ),
}


@pytest.mark.parametrize("what", ROWS)
def test_rows_that_nobody_would_write(what: str) -> None:
    """In a process of its own, in time: a located message, or a count, never a trace."""
    content, status = ROWS[what]
    done = subprocess.run(
        [sys.executable, "-m", "workeven.cli", "count"],
        env={"PYTHONPATH": str(Path(cli.__file__).parents[1])},
        input=content,
        capture_output=True,
        timeout=20,
        check=False,
    )
    assert (done.returncode, done.stderr) == (status, b"")
    assert status == 0 or re.search(rb"^-:\d+:\d+: (row|count|file)-", done.stdout, re.MULTILINE)
