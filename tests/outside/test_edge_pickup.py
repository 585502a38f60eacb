"""Stitches picked up along row ends, against what handbooks say.

Citations: carol-mycrochetpage.blogspot.com/2009/09/picot-edging.html (1 sc to a row of sc, 2 of dc,
3 of tr); hdc, 3 to 2 rows: from memory, common practice. Gauges are plain ones of each stitch.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from workeven.proof.edge_lengths import Measured
from workeven.proof.spacing import spacing


def _rows(number: int, rows_in_10_cm: Fraction) -> Measured:
    height = 100 / rows_in_10_cm
    return Measured(sts=0, rows=number, length=number * height, half=height / 2)


def _picked(length: Fraction, sts_in_10_cm: int) -> Measured:
    width = Fraction(100, sts_in_10_cm)
    number = (length / width + Fraction(1, 2)).__floor__()
    return Measured(sts=number, rows=0, length=number * width, half=width / 2)


@pytest.mark.parametrize(
    ("rows_in_10_cm", "said"),
    [
        (16, "1 st to every row end"),
        (Fraction(32, 3), "3 sts to every 2 row ends"),
        (8, "2 sts to every row end"),
        (Fraction(16, 3), "3 sts to every row end"),
    ],
)
def test_edging_of_sc_along_row_ends(rows_in_10_cm: Fraction, said: str) -> None:
    """Sc of 16 to 10 cm along 24 rows of sc, hdc, dc and tr, each its own height."""
    rows = _rows(24, Fraction(rows_in_10_cm))
    assert said == spacing(_picked(rows.length, 16), rows)
