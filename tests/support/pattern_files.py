"""Whole pattern files for tests: one that is good, and what becomes of a text."""

from __future__ import annotations

from workeven import pattern, pipeline, source
from workeven.pipeline import Outcome

FILE = "patterns/case/pattern.yaml"

#: A small pattern in three sizes without a problem; tests change one thing in it.
GOOD = """\
title: Sand Mat
summary: A mat in single crochet with a scalloped last row.
audience: adult
use: [home]
sizes:
  names: S (M, L)
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: sc, hook: 4 mm}
yarn:
  main: {weight: light, fibre: 100% cotton, put_up: {length: 85 m, mass: 50 g}}
swatches:
  - of: main
    mass: 20 g
    rows: |
      ch 25
      sc in 2nd ch from hook and in each ch across, turn
      ch 1, sc in each st across, turn
      rep last row 25 more times
measurements:
  width: 20 (24, 27) cm
  length: 20 (24, 27) cm
counts:
  mat_sts: {across: width, gauge: ground, multiple: 6, plus: 1}
pieces:
  mat:
    title: Mat
    worked: flat rows
    gauge: ground
    sections:
      - title: Mat
        rows: |
          ch {mat_sts + 1}
          sc in 2nd ch from hook and in each ch across, turn ({mat_sts} sc)
          ch 1, sc in each st across, turn ({mat_sts} sc)
          rep last row until piece measures {length}
      - title: Scallops
        rows: |
          ch 1, sc in first st, *sk 2, 5 dc in next st, sk 2, sc in next st; rep from * across
          fasten off
finishing:
  - Weave in all ends.
"""


def outcome(text: str | bytes, file: str = FILE) -> Outcome:
    """What becomes of a pattern file without a studio's own file."""
    content = text.encode("utf-8") if isinstance(text, str) else text
    read = source.read(file, content)
    if read.value is None:
        return Outcome(file=file, ready=None, problems=read.problems)
    return pipeline.run(read.value, pattern.NO_STUDIO, read.problems)


def changed(old: str, new: str) -> str:
    """The good pattern with one thing changed; a thing that is not there is a slip of the test."""
    assert GOOD.count(old) == 1, f"{GOOD.count(old)} times in the good pattern: {old}"
    return GOOD.replace(old, new)
