"""Counts that carry through, as a person reads them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.support.pattern_files import GOOD
from tests.support.reading import parsed
from workeven import grading
from workeven.arithmetic.units import CM
from workeven.proof.nearest import NearCount
from workeven.report import near_counts


@pytest.mark.parametrize(
    ("off", "said"),
    [("0", "0 cm"), ("-0.2", "0 cm"), ("0.2", "0 cm"), ("-0.3", "−0.5 cm"), ("0.3", "+0.5 cm")],
)
def test_what_rounds_to_nothing_has_no_sign(off: str, said: str) -> None:
    """A length is printed in half centimetres; less than a quarter is none."""
    pattern = parsed(GOOD).value
    assert pattern is not None
    graded = grading.grade(pattern).value
    assert graded is not None
    near = NearCount(count=31, measures=20 * CM, off=Fraction(off) * CM)
    told = near_counts.as_text("mat_sts", graded, {"S": (near,)})
    assert f"31 (20 cm, {said})" in told
