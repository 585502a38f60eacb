"""Every number, formula, decrease and kind of stitch in the garment's rows, changed one at a time.

Whatever makes a row not come out, or contradict a stated, listed or measured figure, must stop the
build with one error, at a row of that piece, and with the sizes in which it is wrong.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from workeven import pipeline, source
from workeven.pattern import Studio
from workeven.problems import Severity
from workeven.problems.catalogue import severity

PATTERNS = Path(__file__).parents[1] / "patterns"
TEE = PATTERNS / "groynemark-tee" / "pattern.yaml"
TEXT = TEE.read_text(encoding="utf-8")
LINES = TEXT.split("\n")

#: a number or formula that is worked or stated; how high a turning chain is, nobody can prove
NUMBER = re.compile(r"(?<![\w-])(?<!ch )\d+(?![\w-])|(?<=\{)[a-z_ 0-9+-]+(?=\})")

#: changes that come out as well: the length is still reached
COMES_OUT_TOO = {
    "rep Wave row 2 more times ({body_sts} dc)",
    "rep Wave row 2 more times ({half_sts} dc)",
}


def rows_of_pieces() -> Iterator[int]:
    """The lines (from 0) of the file that hold rows of pieces, not of swatches."""
    indent = None
    for at, line in enumerate(LINES):
        deep = len(line) - len(line.lstrip())
        if indent is not None and deep <= indent:
            indent = None
        if indent is not None and at > LINES.index("pieces:"):
            yield at
        if line.strip() == "rows: |":
            indent = deep


def changes(line: str) -> Iterator[str]:
    """One number one more or less, one decrease left out, one stitch for another."""
    for found in NUMBER.finditer(line):
        before, written, after = line[: found.start()], found[0], line[found.end() :]
        for by in (1, -1):
            changed = int(written) + by if written.isdigit() else f"{written} {by:+d}"
            yield f"{before}{changed}{after}".replace(" +1}", " + 1}").replace(" -1}", " - 1}")
    for wrong, right in ((r"\bdc2tog\b", "dc3tog"), (r"\bdc\b", "sc")):
        for found in re.finditer(wrong, line):
            yield f"{line[: found.start()]}{right}{line[found.end() :]}"


@cache
def studio() -> Studio:
    """The studio of the collection, as the pattern was read with it."""
    verdict = pipeline.check(source.collect([str(PATTERNS)]))
    [ready] = [one.ready for one in verdict.outcomes if "/groynemark-tee/" in one.file]
    assert ready is not None
    return ready.pattern.studio


@pytest.mark.parametrize("at", list(rows_of_pieces()), ids=lambda at: f"line {at + 1}")
def test_any_change_stops_the_build_with_one_message(at: int) -> None:
    """Each change of this line: one error, at a row from there on, with its sizes."""
    for changed in changes(LINES[at]):
        if changed.strip() in COMES_OUT_TOO:
            continue
        text = "\n".join([*LINES[:at], changed, *LINES[at + 1 :]])
        read = source.read("pattern.yaml", text.encode())
        assert read.value is not None
        outcome = pipeline.run(read.value, studio(), read.problems)
        told = [one for one in outcome.problems if severity(one.code) is Severity.ERROR]
        assert [one.code for one in told if one.piece and one.sizes] != [], changed
        assert len(told) == 1, (changed, told)
        assert at < told[0].span.line <= len(LINES), changed
        assert outcome.ready is None
