"""Edges that slant: a set-in armhole and the cap that is sewn into it."""

from __future__ import annotations

from fractions import Fraction
from math import hypot

import pytest

from tests.support.pattern_files import GOOD, outcome
from workeven.proof.lie import Edges
from workeven.proof.slants import SlopeRow, slope_of

TOP = (
    GOOD[: GOOD.index("measurements:")].replace("S (M, L)", "S (M)")
    + """\
counts:
  back_sts: 64 (72)
  left_sts: 4
  cross_sts: 42 (48)
  arm_sts: 46 (54)
  top_sts: 14 (16)
  cap_rows: CAP
pieces:
  back:
    worked: flat rows
    gauge: ground
    edges:
      armhole: {slope: Armholes}
    sections:
      - title: Hem
        rows: |
          ch {back_sts + 1}
          sc in 2nd ch from hook and in each ch across, turn
      - title: Armholes
        shape: {from: back_sts, to: cross_sts, over: 31, leave: left_sts, curve: quick first}
      - title: Shoulders
        rows: |
          ch 1, sc in each st across, fasten off
  sleeve:
    make: 2
    worked: flat rows
    gauge: ground
    edges:
      cap: {slope: Cap}
      top: {row: last row}
    sections:
      - title: Arm
        rows: |
          ch {arm_sts + 1}
          sc in 2nd ch from hook and in each ch across, turn
      - title: Cap
        shape: {from: arm_sts, to: top_sts, over: cap_rows, leave: left_sts, curve: cap}
      - title: Top
        rows: |
          ch 1, sc in each st across, fasten off
seams:
  - {title: Sleeves, sew: 2 * sleeve.cap + sleeve.top, to: 2 * back.armhole, tolerance: 2 cm}
"""
)
#: a stitch and a row of the gauge, in mm
WIDTH, HEIGHT = 6.25, 100 / 18


def _slant(stitches: int) -> float:
    return hypot(stitches * WIDTH, HEIGHT)


def test_a_cap_is_measured_along_its_ends() -> None:
    """Armhole, S: 4 sts left in a row, 7 rows one shorter, 23 rows even. Cap: 12 rows, 8 even.

    212 mm of armhole twice are 424 mm; the cap is 25.6 + 12 × 8.36 + 8 × 5.56 = 170.4 mm twice, and
    14 sts of 6.25 mm at its top: 428.3 mm.
    """
    found = outcome(TOP.replace("CAP", "21 (19)"))
    assert () == found.problems
    assert found.ready is not None
    seam = found.ready.proven.seams[0]
    first, second = seam.first[0], seam.second[0]
    assert first is not None
    assert second is not None
    armhole = 2 * (_slant(4) + 7 * _slant(1) + 23 * HEIGHT)
    cap = 2 * (_slant(4) + 12 * _slant(1) + 8 * HEIGHT) + 14 * WIDTH
    assert float(second.length) == pytest.approx(armhole, abs=0.1)
    assert float(first.length) == pytest.approx(cap, abs=0.1)
    assert (62, 42) == (second.rows, first.rows)
    assert (8, 8 + 14) == (second.sts, first.sts)  # those left unworked, and the top of the cap


def test_a_cap_that_does_not_fit_its_armhole_is_told_with_both_measurements() -> None:
    """With 15 rows the cap of S is 6 rows, 3.3 cm, shorter at each end."""
    problem = outcome(TOP.replace("CAP", "15 (19)")).problems[-1]
    assert ("seam-length", ("S",)) == (problem.code, problem.sizes)
    assert "on 8 sts and 62 rows, 42.5 cm" in problem.expected
    told = "With so many rows more or fewer at each of its 2 edges, if its shaping lets"
    fit = f"{told}, the first side fits: S +6."
    assert problem.mend.startswith(fit)


def test_the_side_that_is_shaped_is_the_edge() -> None:
    """Ten rows one shorter at their beginning, every second row the other way round."""
    mm = Fraction(5)
    rows = [
        SlopeRow(Edges(0, -1) if at % 2 else Edges(-1, 0), at % 2 == 1, mm, mm) for at in range(10)
    ]
    assert Fraction("70.71") == slope_of(rows).length
    straight = [row._replace(edges=Edges(0, 0)) for row in rows]
    assert Fraction(50) == slope_of(straight).length
