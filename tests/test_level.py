"""The level of a pattern: what its rows ask for, by the published scale as we read it."""

from __future__ import annotations

import pytest

from tests.support import pattern_files
from workeven.level import NAMES, JudgedLevel
from workeven.pipeline import Outcome
from workeven.standards.levels import project_levels

MAT = """\
title: Sand Mat
summary: A mat.
audience: adult
use: [home]
gauge:
  ground: {{sts: 16, rows: 18, over: 10 cm, of: sc}}
yarn:
  main: {{weight: light, fibre: 100% cotton, put_up: {{length: 85 m, mass: 50 g}}}}
swatches:
  - of: main
    mass: 5 g
    rows: |
      ch 21
      sc in 2nd ch from hook and in each ch across
{more}pieces:
  mat:
    worked: flat rows
    sections:
      - title: Mat
        rows: |
          ch 25
          dc in 4th ch from hook and in each ch across, turn
{rows}
"""


def outcome(*rows: str, more: str = "") -> Outcome:
    """A mat of 23 dc with these rows after the first."""
    return pattern_files.outcome(
        MAT.format(rows="\n".join(f"          {row}" for row in rows), more=more)
    )


def judged(*rows: str, more: str = "") -> JudgedLevel:
    """The level of such a mat."""
    found = outcome(*rows, more=more)
    assert found.ready is not None, [one.found for one in found.problems]
    return found.ready.level


def test_names_are_those_of_the_published_scale() -> None:
    """Citation: https://fiatfiberarts.com/2018/04/04/proper-project-level-definitions/."""
    current = [one for one in project_levels() if one.edition == "current"]
    assert list(NAMES) == [one.name for one in current]
    assert {"found"} == {one.origin.status for one in current}


@pytest.mark.parametrize(
    ("rows", "level", "reasons"),
    [
        (("ch 3, dc in next st and in each st across",), "Basic", ()),
        (
            ("ch 1, sc in first st, *ch 1, sk 1, sc in next st; rep from * across",),
            "Easy",
            ("spaces of chains", "a repeat over several stitches"),
        ),
        (
            ("ch 1, sc in back loop only of each st across",),
            "Easy",
            ("stitches worked in one loop",),
        ),
        (
            ("ch 5, dtr in next st and in each st across",),
            "Easy",
            ("very tall stitches",),
        ),
        (
            ("ch 3 (counts as dc), *fpdc around next st, bpdc around next st; rep from * across",),
            "Intermediate",
            ("post stitches",),
        ),
    ],
)
def test_level_follows_from_the_rows(
    rows: tuple[str, ...], level: str, reasons: tuple[str, ...]
) -> None:
    """With the features that ask for it."""
    found = judged(*rows)
    assert (level, reasons) == (found.computed, found.reasons)


def test_increases_alone_are_basic() -> None:
    """A disc in a spiral, as a first project."""
    text = (
        MAT.format(rows="", more="")
        .split("          ch 25")[0]
        .replace("flat rows", "spiral rounds")
    )
    rows = ("magic ring, 6 sc in ring", "inc around", "[sc 1, inc] around", "[sc 2, inc] around")
    found = pattern_files.outcome(text + "".join(f"          {row}\n" for row in rows)).ready
    assert found is not None
    assert ("Basic", ()) == (found.level.computed, found.level.reasons)


def test_designer_may_raise_the_level() -> None:
    """The page says hers, and what the rows ask for."""
    found = judged("ch 3, dc in next st and in each st across", more="level: Intermediate\n")
    assert ("Intermediate", "Basic", True) == (found.name, found.computed, found.raised)


def test_lower_level_is_advice_with_the_reasons() -> None:
    """The higher one is printed."""
    found = outcome("ch 1, sc in back loop only of each st across", more="level: Basic\n")
    assert ["level-low"] == [one.code for one in found.problems]
    assert found.ready is not None
    assert "Easy" == found.ready.level.name
    assert "Easy, because of: stitches worked in one loop." == found.problems[0].expected
