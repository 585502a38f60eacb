"""Chains and joins of rows told in all, against the same rows written out."""

from __future__ import annotations

import pytest

from workeven import pipeline, source
from workeven.pattern import NO_STUDIO
from workeven.yarn import tallies

HEAD = """\
title: Sand Mat
summary: A mat.
audience: adult
use: [home]
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}
yarn:
  main: {weight: light, fibre: 100% cotton, put_up: {length: 100 m, mass: 50 g}}
swatches:
  - of: main
    mass: 20.0 g
    rows: |
      ch 25
      sc in 2nd ch from hook and in each ch across, turn
      ch 1, sc in each st across, turn
      rep last row 25 more times
pieces:
  mat:
    gauge: ground
    worked: """


def taken(worked: str, rows: str) -> dict[str, int]:
    """What is worked in all, by basic stitch."""
    lines = "".join(f"          {row}\n" for row in rows.splitlines())
    text = f"{HEAD}{worked}\n    sections:\n      - title: All\n        rows: |\n{lines}"
    read = source.read("pattern.yaml", text.encode()).value
    assert read is not None
    outcome = pipeline.run(read, NO_STUDIO)
    assert outcome.ready is not None, outcome.problems
    return dict(tallies(outcome.ready.proven)[0].stitches[0])


FLAT = "ch 21\nsc in 2nd ch from hook and in each ch across, turn\n"
SC = "ch 1, sc in each st across, turn\n"
DEC = "ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn\n"
IN_HDC = "ch 2 (does not count as st), hdc in each st across, turn\n"
HDC_DEC = IN_HDC.replace("hdc in each st across", "hdc2tog, hdc in each st to last 2 sts, hdc2tog")
IN_DC = "ch 3 (counts as dc), dc in each st across, turn\n"
DC_DEC = "ch 3 (counts as dc), dc2tog, dc in each st to last 2 sts, dc2tog, turn\n"
ROUND = (
    "ch 20, join with sl st to first ch\nch 1, sc in each ch around, join with sl st to first sc\n"
)
SC_ROUND = "ch 1, sc in each st around, join with sl st to first sc\n"
TURNED = SC_ROUND.replace("first sc", "first sc, turn")


@pytest.mark.parametrize(
    ("worked", "told", "written"),
    [
        ("flat rows", FLAT + SC + "work even for 6 rows", FLAT + SC * 7),
        ("flat rows", FLAT + SC + "dec 1 st at each end every row 4 times", FLAT + SC + DEC * 4),
        (
            "flat rows",
            FLAT + SC + "dec 1 st at each end every 2nd row 3 times",
            FLAT + SC + (SC + DEC) * 3,
        ),
        (
            "flat rows",
            FLAT + IN_HDC + "dec 1 st at each end every row 2 times",
            FLAT + IN_HDC + HDC_DEC * 2,
        ),
        ("flat rows", FLAT + "work even for 6 rows", FLAT + SC * 6),
        ("joined rounds", ROUND + SC_ROUND + "work even for 6 rnds", ROUND + SC_ROUND * 7),
        (
            "joined rounds, turned",
            ROUND.replace("first sc", "first sc, turn") + TURNED + "work even for 6 rnds",
            ROUND.replace("first sc", "first sc, turn") + TURNED * 7,
        ),
    ],
)
def test_rows_told_in_all_take_what_they_take_written_out(
    worked: str, told: str, written: str
) -> None:
    """To the chain and the slip stitch."""
    assert taken(worked, told) == taken(worked, written)


def test_counted_chains_are_not_counted_twice() -> None:
    """A chain that counts as a stitch is in the row's own stitches already."""
    told = taken("flat rows", FLAT + IN_DC + "work even for 6 rows")
    assert told == taken("flat rows", FLAT + IN_DC * 7)


def test_a_spiral_has_neither() -> None:
    """Its rounds run on."""
    spiral = "magic ring, 6 sc in ring\ninc around\n"
    told = taken("spiral rounds", spiral + "work even for 3 rnds")
    assert told == taken("spiral rounds", spiral + "sc in each st around\n" * 3)
