"""``workeven read``: what is printed, what is told beside it, and files that are none."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

from workeven import cli

ROOT = Path(__file__).parents[1]


def told(capsys: pytest.CaptureFixture[str], *options: str) -> tuple[int, str, str]:
    """The status, what is printed, what is told beside it."""
    status = cli.main(["read", *options])
    printed = capsys.readouterr()
    return status, printed.out, printed.err


def test_good_rows_are_a_file_and_a_sum(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What stands in the file is printed; the sum is told beside it."""
    file = tmp_path / "rows.txt"
    file.write_bytes(b"\xef\xbb\xbfRow 1: ch 11\r\nRow 2: sc in each ch across\r\n")
    status, out, err = told(capsys, str(file), "--worked", "flat rows")
    expected = (
        "pieces:\n  piece:\n    worked: flat rows\n    sections:\n      - rows: |\n"
        "          Row 1: ch 11\n          Row 2: sc in each ch across\n"
    )
    assert (0, expected) == (status, out.split("\n", 1)[1])
    assert err == "workeven: 2 rows, none of them not understood; 0 notes.\n"


def test_a_row_that_is_not_understood_is_told_with_the_nearest_phrase(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Its line, what was understood before, and what may be meant; the status is 1."""
    file = tmp_path / "rows.txt"
    file.write_text("Row 1: ch 11\nRow 2: sc in each ch acros\n", encoding="utf-8")
    status, out, err = told(capsys, str(file))
    assert status == 1
    assert "Row 2: sc in each ch acros" in out
    assert f"{file}:2:22: row-not-understood" in err
    assert "Understood up to here: “Row 2: sc in each ch”" in err
    assert "Did you mean “across”?" in err


def test_the_guide_shows_what_is_made(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The page's document gives the page's pieces."""
    page = (ROOT / "guide" / "writing" / "from-a-document.md").read_text(encoding="utf-8")
    file = tmp_path / "rows.txt"
    file.write_text(page.split("```text\n")[2].split("```")[0], encoding="utf-8")
    status, out, _ = told(capsys, str(file))
    assert (1, page.split("```yaml\n")[1].split("```")[0]) == (status, out.split("\n", 1)[1])


def test_rows_are_piped_in(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """``-``, or no file, is what is piped in."""
    monkeypatch.setattr(
        sys, "stdin", SimpleNamespace(buffer=io.BytesIO(b"ch 5"), isatty=lambda: False)
    )
    assert told(capsys)[0] == 0


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"\x89PNG\r\n\x1a\n", "file-binary"),
        (b"ch 5 \xe9", "file-encoding"),
        ("ch 5".encode("utf-16"), "file-encoding"),
        (b"\x00\x01\x02\x00" * 20, "file-binary"),
        (b"x" * 300_000, "file-too-large"),
        (None, "file-unreadable"),
        ("folder", "file-unreadable"),
    ],
)
def test_a_file_that_is_no_text_is_told(
    content: bytes | str | None, code: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing is printed, the reason is told, and the status is 2."""
    file = tmp_path / "rows.txt"
    if isinstance(content, bytes):
        file.write_bytes(content)
    elif content:
        file.mkdir()
    status, out, err = told(capsys, str(file))
    assert (2, "", True) == (status, out.strip(), code in err)
    assert "Traceback" not in err


def test_a_document_without_rows_is_kept_as_notes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """An empty file, and one of sentences alone."""
    file = tmp_path / "rows.txt"
    file.write_text("", encoding="utf-8")
    assert told(capsys, str(file))[0] == 0
    file.write_text("Dear maker, hello.\n", encoding="utf-8")
    status, out, _ = told(capsys, str(file))
    assert (0, True) == (status, "# > Dear maker, hello." in out)


def test_sizes_that_are_none_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    """The sentence names the option."""
    status, _, err = told(capsys, "--sizes", "S (M", "x")
    assert (2, True) == (status, "--sizes" in err)


def test_a_reader_that_stops_early_is_no_error(tmp_path: Path) -> None:
    """``workeven read … | head -1`` ends without a trace."""
    file = tmp_path / "rows.txt"
    file.write_text("Row 1: ch 11\n" * 3000, encoding="utf-8")
    reader, writer = os.pipe()
    os.close(reader)
    ran = subprocess.run(
        [sys.executable, "-m", "workeven.cli", "read", str(file)],
        stdout=writer,
        stderr=subprocess.PIPE,
        check=False,
        env={**os.environ, "PYTHONPATH": str(ROOT / "plugins")},
    )
    os.close(writer)
    assert b"Traceback" not in ran.stderr
    assert b"BrokenPipe" not in ran.stderr
