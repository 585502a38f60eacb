"""The flat circle of six increases a round."""

from __future__ import annotations

from workeven.proof import counting

ROWS = """\
magic ring, 6 sc in ring
inc around
*sc 1, inc; rep from * around
*sc 2, inc; rep from * around
[sc 3, inc] 6 times
"""


def test_circle_grows_by_six() -> None:
    """Rounds of 6, 12, 18, 24, 30: before each increase stand two less than the round's number.

    Citation: https://thecrochetbag.blogspot.com/2013/05/all-things-round.html; six for sc also in
    http://craftymaria.blogspot.com/2009/06/getting-your-circles-flat.html and
    https://hethaakbeest.be/waar-moet-ik-mijn-meerdering-haken/ (round 5 = 3 sc, inc, six times).
    """
    checked = counting.count(ROWS, worked="spiral rounds")
    assert () == checked.problems
    assert checked.value is not None
    assert [(6,), (12,), (18,), (24,), (30,)] == [row.sts for row in checked.value.rows]


def test_round_of_wrong_spacing_does_not_come_out() -> None:
    """Sixteen stitches are no whole number of `sc 2, inc`."""
    text = ROWS.replace("inc around", "inc 5, sc 1").replace("*sc 1, inc", "*sc 2, inc")
    codes = [one.code for one in counting.count(text, worked="spiral rounds").problems]
    assert "row-uneven" in codes
