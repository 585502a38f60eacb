"""A band around the body: the smallest pattern that fits somebody."""

from __future__ import annotations

from typing import Literal

from tests.support.pattern_files import FILE
from workeven import pattern, pipeline, source
from workeven.pipeline import Outcome
from workeven.records import replace
from workeven.standards import BodyChart

BAND = """\
title: Sand Band
summary: A band in single crochet that goes around the body.
audience: adult
use: [wear]
sizes:
{sizes}
gauge:
  ground: {{sts: {sts}, rows: 18, over: 10 cm, of: sc}}
yarn:
  main: {{weight: light, fibre: 100% cotton, put_up: {{length: 85 m, mass: 50 g}}}}
swatches:
  - of: main
    mass: 20 g
    rows: |
      ch 25
      sc in 2nd ch from hook and in each ch across, turn
      ch 1, sc in each st across, turn
      rep last row 25 more times
measurements:
  around: {around}
counts:
  band_sts: {{across: around, gauge: ground}}
pieces:
  band:
    worked: flat rows
    gauge: ground
    sections:
      - rows: |
          ch {{band_sts + 1}}
          sc in 2nd ch from hook and in each ch across, turn
          ch 1, sc in each st across, turn
          rep last row 20 more times
"""


def band(*sizes: str, around: str = "bust + 8 cm", sts: str = "20") -> str:
    """The text of the file; ``sizes`` are the lines of its table ``sizes``."""
    return BAND.format(sizes="\n".join(f"  {line}" for line in sizes), around=around, sts=sts)


def made(
    text: str, units: Literal["cm", "in"] = "cm", charts: tuple[BodyChart, ...] = ()
) -> Outcome:
    """What becomes of it in a studio of that unit."""
    read = source.read(FILE, text.encode())
    assert read.value is not None
    studio = replace(pattern.NO_STUDIO, units=units, charts=charts)
    return pipeline.run(read.value, studio, read.problems)


def told(outcome: Outcome) -> list[tuple[str, tuple[str, ...] | None]]:
    """The codes of its problems, with the sizes that fail."""
    return [(one.code, one.sizes) for one in outcome.problems]
