"""A published top in seven sizes, XS to 3X: its counts, and its bust from its gauge.

Citation: https://www.joann.com/lion-brand-coboo-suttons-shell-top/312361226P403.html. The numbers
are the publisher's; the rows are our own words for them.
"""

from __future__ import annotations

from fractions import Fraction

from tests.support.records import computed, gauge, listed, pattern
from workeven.arithmetic.per_size import Sizes
from workeven.arithmetic.quantities import decimal, rounded
from workeven.arithmetic.units import INCH
from workeven.grading import grade
from workeven.proof import counting

SIZES = Sizes(("XS", "S", "M", "L", "XL", "2X", "3X"))
BACK = (78, 84, 93, 102, 111, 120, 129)
UNDERARM = (68, 74, 81, 90, 97, 106, 113)
SHOULDERS = (60, 62, 67, 70, 73, 78, 81)
#: finished bust as printed, whole inches
BUST = (34, 37, 41, 45, 49, 53, 57)

ROWS = """\
ch 79 (85, 94, 103, 112, 121, 130)
sc in 2nd ch from hook and in each ch across, turn
sl st in each of first 4 (4, 5, 5, 6, 6, 7) sts, ch 1, sc2tog over next 2 sts, sc in each st \
to last 6 (6, 7, 7, 8, 8, 9) sts, sc2tog, leave rem sts unworked, turn
ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn
rep last row 3 (5, 6, 9, 11, 13, 15) more times
"""


def test_armhole_counts_come_out_in_all_sizes() -> None:
    """Slip stitches and a decrease at each side, then a decrease at each end of every row."""
    checked = counting.count(ROWS, sizes=SIZES.names)
    assert () == checked.problems
    assert checked.value is not None
    chain, first, underarm, _, shoulders = checked.value.rows
    assert tuple(sts + 1 for sts in BACK) == chain.sts
    assert (BACK, UNDERARM, SHOULDERS) == (first.sts, underarm.sts, shoulders.sts)


def test_stated_counts_of_the_publisher_agree_and_others_do_not() -> None:
    """With the printed counts stated nothing is wrong; with one of them changed, that size is."""
    stated = ROWS.replace("unworked, turn", f"unworked, turn ({', '.join(map(str, UNDERARM))} sts)")
    assert () == counting.count(stated, sizes=SIZES.names).problems
    (problem,) = counting.count(stated.replace("97, 106", "96, 106"), sizes=SIZES.names).problems
    assert ("count-stated", ("XL",)) == (problem.code, problem.sizes)


def test_finished_bust_follows_from_the_gauge() -> None:
    """16 sc to 3.5 in: twice the back rounds to the printed whole inches in six of seven sizes.

    In 3X the stitches make 56.44 in and 57 are printed: by our arithmetic a slip in the print,
    and the one size that is reported.
    """
    one = pattern(
        SIZES,
        measurements={"bust": f"{BUST[0]} ({', '.join(map(str, BUST[1:]))}) in"},
        gauges=(gauge(sts=16, over=Fraction(7, 2) * INCH),),
        counts=[listed(SIZES, "round_sts", [2 * sts for sts in BACK], across="bust")],
        tolerance=INCH / 2,
    )
    checked = grade(one)
    assert [("count-off", ("3X",))] == [(each.code, each.sizes) for each in checked.problems]
    assert checked.value is not None
    measures = checked.value.counts["round_sts"].measures
    assert measures is not None
    inches = measures.map(lambda mm: mm / INCH)
    exact = ("34.125", "36.75", "40.688", "44.625", "48.563", "52.5", "56.438")
    assert exact == inches.map(decimal).values
    assert [34, 37, 41, 45, 49, 53, 56] == [int(rounded(one)) for one in inches]


def test_computed_count_of_the_back_is_the_published_one_or_its_neighbour() -> None:
    """From the printed bust the nearest multiple of 9 plus 3 (the steps of the back) is found.

    From S on the back grows by 9 stitches a size: 84 = 9 × 9 + 3, 93, 102 … 129.
    """
    larger = Sizes(SIZES.names[1:])
    one = pattern(
        larger,
        measurements={"half": f"18.5 ({', '.join(str(inch / 2) for inch in BUST[2:])}) in"},
        gauges=(gauge(sts=16, over=Fraction(7, 2) * INCH),),
        counts=[computed(larger, "back_sts", across="half", multiple=9, plus=3)],
    )
    value = grade(one).value
    assert value is not None
    assert BACK[1:] == value.counts["back_sts"].values.values
