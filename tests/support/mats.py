"""A mat in single crochet whose file gets what a test is about: colours, other balls, a list."""

from __future__ import annotations

from tests.support import pattern_files
from workeven.pipeline import ReadyPattern

MAT = """\
title: Sand Mat
summary: A mat in single crochet.
audience: adult
use: [home]
sizes:
  names: S (M, L)
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}
yarn:
  main: {weight: light, fibre: cotton, put_up: {length: 100 m, mass: 50 g}COLOURS}
tail: 0 cm
swatches:
  - of: main
    mass: 20.0 g
    rows: |
      fsc 20, turn
      ch 1, sc in each st across, turn
      rep last row 18 more times
MORE
measurements:
  width: 187.5 (250, 312.5) cm
counts:
  mat_sts: {across: width, gauge: ground}
pieces:
  mat:
    worked: flat rows
    gauge: ground
    sections:
      - title: MatIN
        rows: |
          fsc {mat_sts}, turn
          ch 1, sc in each st across, turn
          rep last row 18 more times
"""
TWO_COLOURS = "\n        colour: 15 rows A, 5 rows B"


def mat(more: str = "", colours: str = "", inside: str = "") -> ReadyPattern:
    """The mat; 300 (400, 500) sts in 20 rows."""
    text = MAT.replace("MORE\n", more).replace("COLOURS", colours).replace("IN\n", f"{inside}\n")
    found = pattern_files.outcome(text)
    assert found.ready is not None, found.problems
    return found.ready
