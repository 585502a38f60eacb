"""Lengths that are offered, held against the pattern written anew at that length."""

from __future__ import annotations

import re
import shutil
from fractions import Fraction
from pathlib import Path

import pytest

from benchmarks.collection import as_designed
from workeven import pipeline, source
from workeven.arithmetic.printing import decimal
from workeven.pipeline import ReadyPattern
from workeven.problems import Severity
from workeven.problems.catalogue import severity
from workeven.yarn.longer import FIVE_CM, longer

PATTERNS = Path(__file__).parents[2] / "patterns"
SLUGS = sorted(path.parent.name for path in PATTERNS.glob("*/pattern.yaml"))


def proven(folder: Path, slug: str, text: str) -> ReadyPattern | None:
    """The pattern that this text is, with the demo's studio.

    None where nothing is wrong but numbers of rows that the text writes out: they move on.
    """
    shutil.rmtree(folder, ignore_errors=True)
    (folder / slug).mkdir(parents=True)
    shutil.copy(PATTERNS / "studio.yaml", folder)
    (folder / slug / "pattern.yaml").write_text(text, encoding="utf-8")
    (outcome,) = pipeline.check(source.collect([str(folder)])).outcomes
    wrong = {one.code for one in outcome.problems if severity(one.code) is Severity.ERROR}
    assert wrong <= {"row-number"}, outcome.problems
    return outcome.ready


def rows(one: ReadyPattern) -> list[int]:
    """How many rows each size works in all, each piece once."""
    return [
        sum(
            counted.times or 0
            for piece in one.proven.pieces
            for section in piece.sections
            for row in section.rows
            if (counted := row.per_size[at]) is not None
        )
        for at in range(len(one.pattern.sizes))
    ]


@pytest.mark.parametrize("slug", SLUGS)
def test_each_step_comes_out_and_takes_what_is_told(tmp_path: Path, slug: str) -> None:
    """Two steps more and one fewer, proven anew: so many rows, and the yarn to the millimetre.

    A later length of the same piece, which is measured from its beginning, grows by as much. Seams
    and the strands along them grow too; they are left to the margin, and are under 2 %.
    """
    text = as_designed((PATTERNS / slug / "pattern.yaml").read_text(encoding="utf-8"))
    before = proven(tmp_path / "p", slug, text)
    assert before is not None
    (need,) = before.yarn.needs
    found, expected = [], []
    lengths = longer(before.proven, need)
    for at, one in enumerate(lengths):
        if not one.step or one.fewer is None or not one.name:
            continue
        for steps in (2, -1):
            more = steps * one.step * one.row
            changed = text
            later = (x for x in lengths[at + 1 :] if x.until and x.pieces == one.pieces)
            for name in [one.name, *(x.name for x in later)]:
                made = [decimal(mm + more, 3) for mm in before.proven.finished[name]]
                listed = f"{made[0]} ({', '.join(made[1:])})" if made[1:] else made[0]
                line = rf"^  {name}: .*$"
                changed = re.sub(line, f"  {name}: {listed} mm", changed, flags=re.MULTILINE)
            after = proven(tmp_path / "p", slug, changed)
            if after is None:
                continue
            (taken,) = after.yarn.needs
            told = [
                mm + steps * five * one.step * one.row / FIVE_CM
                for mm, five in zip(need.length, one.five_cm, strict=True)
            ]
            off = [abs(a - b) / b for a, b in zip(told, taken.length, strict=True)]
            most = Fraction(2, 100) if before.pattern.seams else Fraction(0)
            grown = {b - a for a, b in zip(rows(before), rows(after), strict=True)}
            found.append((one.name, steps, max(off) <= most, min(grown) == max(grown)))
            expected.append((one.name, steps, True, True))
            assert {number % (steps * one.step) for number in grown} == {0}
    assert found == expected
