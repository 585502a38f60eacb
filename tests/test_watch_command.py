"""``workeven watch``: a real process, and the ways in which editors save."""

from __future__ import annotations

import os
import queue
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support.pattern_files import GOOD, changed
from workeven import cli

ROOT = Path(__file__).parents[1]
UNEVEN = changed("multiple: 6, plus: 1", "multiple: 4")
WIDER = changed("width: 20 (24, 27) cm", "width: 24 (27, 30) cm")
#: more seconds than any answer takes, on a machine that is busy
PATIENCE = 60


class Watching:
    """The command at work on a file, and what it has said."""

    def __init__(self, file: Path) -> None:
        self.ran = subprocess.Popen(
            [sys.executable, "-m", "workeven.cli", "watch", str(file)],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONPATH": str(ROOT / "plugins")},
        )
        self._lines: queue.Queue[str] = queue.Queue()
        threading.Thread(target=self._listen, daemon=True).start()

    def _listen(self) -> None:
        assert self.ran.stdout
        for line in self.ran.stdout:
            self._lines.put(line)

    def until(self, words: str) -> str:
        """What is said up to the first line with these words."""
        said = ""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            try:
                line = self._lines.get(timeout=0.5)
            except queue.Empty:
                continue
            said += line
            if words in line:
                return said
        raise AssertionError(f"{words!r} was not said, but: {said}")

    def stop(self) -> tuple[int, str]:
        """Press Ctrl-C; the status, and what is on standard error."""
        self.ran.send_signal(signal.SIGINT)
        status = self.ran.wait(PATIENCE)
        assert self.ran.stderr
        return status, self.ran.stderr.read()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A good pattern in a folder of its own."""
    folder = tmp_path / "patterns" / "mat"
    folder.mkdir(parents=True)
    file = folder / "pattern.yaml"
    file.write_text(GOOD, encoding="utf-8")
    return file


@pytest.fixture
def watching(file: Path) -> Iterator[Watching]:
    """The command at work on it; it is ended in any case."""
    one = Watching(file)
    yield one
    if one.ran.poll() is None:
        one.ran.kill()
    for stream in (one.ran.stdout, one.ran.stderr):
        assert stream
        stream.close()
    one.ran.wait()


def test_each_save_is_counted_and_ctrl_c_ends_it(file: Path, watching: Watching) -> None:
    """Counts by row and size at the start and after a save, problems as text, and a quiet end."""
    first = watching.until("1 pattern: no problems.")
    (row,) = [line for line in first.splitlines() if "rep last row until" in line]
    assert ["31", "37", "43"] == row.split("…")[1].split()[:3]
    file.write_text(WIDER, encoding="utf-8")
    second = watching.until("1 pattern: no problems.")
    (row,) = [line for line in second.splitlines() if "rep last row until" in line]
    assert ["37", "43", "49"] == row.split("…")[1].split()[:3]
    file.write_text(UNEVEN, encoding="utf-8")
    third = watching.until("1 pattern: ")
    assert "row-uneven: Mat, " in third
    assert "rep last row until" in third  # the counts of the other rows are there all the same
    assert (0, "") == watching.stop()


def test_a_file_that_is_replaced_or_gone_is_waited_for(file: Path, watching: Watching) -> None:
    """Many editors write a new file and put it in the place of the old; some delete first."""
    watching.until("1 pattern: no problems.")
    new = file.with_name("pattern.yaml.new")
    new.write_text(UNEVEN, encoding="utf-8")
    new.replace(file)
    watching.until("row-uneven")
    watching.until("1 pattern: ")
    file.unlink()
    watching.until("is gone: waiting until it is back.")
    file.write_text(GOOD, encoding="utf-8")
    watching.until("1 pattern: no problems.")
    file.write_bytes(b"\xff\xfe\x00")
    watching.until("file-encoding")
    assert (0, "") == watching.stop()


def test_a_studio_that_appears_is_counted_with(file: Path, watching: Watching) -> None:
    """Its file lies beside the pattern's folder, and a change of it is a change of the pattern."""
    watching.until("1 pattern: no problems.")
    studio = file.parents[1] / "studio.yaml"
    studio.write_text("nme: x\n", encoding="utf-8")
    file.write_text(WIDER, encoding="utf-8")
    watching.until("file-key-unknown")
    watching.until("1 pattern: ")
    studio.write_text("name: x\n", encoding="utf-8")
    watching.until("1 pattern: no problems.")


def test_a_reader_that_stops_ends_it(file: Path) -> None:
    """``workeven watch … | head`` ends with the next print, without a trace."""
    with subprocess.Popen(
        [sys.executable, "-m", "workeven.cli", "watch", str(file)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT / "plugins")},
    ) as ran:
        try:
            assert ran.stdout
            assert ran.stderr
            assert ran.stdout.readline().startswith("--- ")
            ran.stdout.close()
            file.write_text(WIDER, encoding="utf-8")
            assert (0, "") == (ran.wait(PATIENCE), ran.stderr.read())
        finally:
            ran.kill()


@pytest.mark.parametrize("path", ["nowhere", "empty"])
def test_what_cannot_be_watched_is_told(
    path: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Status 2, and a sentence."""
    (tmp_path / "empty").mkdir()
    assert cli.main(["watch", str(tmp_path / path)]) == 2
    assert capsys.readouterr().err.startswith("workeven: ")
