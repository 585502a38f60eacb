"""Published counts of several sizes, graded again from their gauge and lengths.

Citations: Lion Brand Coboo shell top (joann.com, 312361226P403): 16 sc = 3.5 in, finished bust 34
(37, 41, 45, 49, 53, 57) in, 78 (84, 93, 102, 111, 120, 129) sc across each half. The lengths are
printed in whole inches, so the counts may be one repeat of 3 away from what they give exactly.
"""

from __future__ import annotations

from fractions import Fraction

from tests.support.records import computed, gauge, listed, made, pattern
from workeven.arithmetic.per_size import Sizes
from workeven.arithmetic.quantities import decimal
from workeven.arithmetic.units import INCH
from workeven.grading import grade

SEVEN = Sizes(("XS", "S", "M", "L", "1X", "2X", "3X"))
BUST = {"half_bust": "17 (18.5, 20.5, 22.5, 24.5, 26.5, 28.5) in"}
PUBLISHED = (78, 84, 93, 102, 111, 120, 129)
GAUGE = (gauge(sts=16, over=Fraction(889, 10)),)


def test_published_counts_measure_what_is_printed() -> None:
    """Twice the listed counts at the gauge give the whole inches of the bust, none refused."""
    one = pattern(
        SEVEN,
        measurements=BUST,
        gauges=GAUGE,
        counts=[listed(SEVEN, "front_sts", PUBLISHED, across="half_bust")],
    )
    checked = grade(one)
    assert () == checked.problems
    assert checked.value is not None
    made = checked.value.counts["front_sts"].measures
    assert made is not None
    printed = ["34.12", "36.75", "40.69", "44.62", "48.56", "52.5", "56.44"]
    off = [abs(Fraction(twice) - 2 * mm / INCH) for twice, mm in zip(printed, made, strict=True)]
    assert [] == [decimal(one) for one in off if one > Fraction(1, 100)]


def test_upper_arm_of_a_set_in_sleeve() -> None:
    """33 cm and 2.5 cm of ease at 2.2 sts to the cm are 78.1, with 2 at the selvedges 80.

    Citation: https://www.sistermountain.com/blog/design-knit-set-in-sleeve (second-hand).
    """
    one = Sizes(("M",))
    graded = grade(
        pattern(
            one,
            to_fit={"upper_arm": "33 cm"},
            measurements={"arm": "upper_arm + 2.5 cm"},
            gauges=(gauge(sts=22),),
            counts=[computed(one, "arm_sts", across="arm"), made("sleeve_sts", "arm_sts + 2")],
        )
    ).value
    assert graded is not None
    exact = graded.counts["arm_sts"].exact
    assert exact is not None
    assert (Fraction("78.1"), (80,)) == (exact[0], graded.counts["sleeve_sts"].values.values)


def test_counts_are_graded_as_published_to_within_a_repeat() -> None:
    """The nearest multiple of 3 to each printed length is the published count or its neighbour."""
    one = pattern(
        SEVEN,
        measurements=BUST,
        gauges=GAUGE,
        counts=[computed(SEVEN, "front_sts", across="half_bust", multiple=3)],
    )
    graded = grade(one).value
    assert graded is not None
    found = graded.counts["front_sts"].values
    assert max(abs(ours - theirs) for ours, theirs in zip(found, PUBLISHED, strict=True)) <= 3
    assert sum(ours == theirs for ours, theirs in zip(found, PUBLISHED, strict=True)) >= 4
