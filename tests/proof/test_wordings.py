"""Usual wordings of a row come out (wordings: common practice, made up here).

Each line is how a row is worked, what is there before it, the row, and the stitches after it, or
the code of the message where the row does not come out.
"""

from __future__ import annotations

import pytest

from workeven.proof.counting import count

WORKED = {
    "flat": "flat rows",
    "joined": "joined rounds",
    "turned": "joined rounds, turned",
    "spiral": "spiral rounds",
}

STARS = """
spiral | 12 sc | *sc 1, inc* x 6 (18) | 18
spiral | 12 sc | *sc 1, inc* 6 times | 18
spiral | 12 sc | *sc 1, inc*, rep around | 18
spiral | 12 sc | *sc 1, inc; rep around [18] | 18
spiral | 12 sc | *sc 1, inc* around | 18
spiral | 12 sc | *sc 1, inc*; rep from * to * 5 more times | 18
spiral | 12 sc | *sc 1, inc, rep 5 more times | 18
spiral | 12 sc | *sc 1, then inc in the next; repeat from * to end. [18] | 18
spiral | 12 sc | *SC 1, INC* REPEAT AROUND. (18) | 18
spiral | 12 sc | *sc 1, inc* all the way around | 18
flat | 21 sc | ch 1, *sc 1, ch 1, sk 1* until last st, sc 1 | 11
flat | 21 sc | ch 1, *sc 1, ch 1, sk 1* rep until last st, sc 1, turn | 11
flat | 20 sc | ch 1, *hdc 1, sl st 1* until end of row = 20 | 20
flat | 20 sc | ch 1, *hdc 1, sl st 1* rep until end of the row | 20
joined | 20 sc | ch 2, *3 hdc, inc* around, join. = 25 | 25
joined | 20 sc | ch 2, *3 hdc, inc*; rep around; sl st to join. = 25 | 25
flat | 28 sc | ch 1, sc 2, *sc 3, [sc 1, sc2tog] twice*, rep from * to * across, sc in last 8 | 24
spiral | 24 sc | *sc 2, dec* x 5 (18) | row-uneven
spiral | 12 sc | *sc 1, inc* 5 times | row-uneven
flat | 42 dc | ch 3, dc 4, 2 dc in next, *dc 4, 2 dc in next; rep from * across (49) | row-uneven
"""

EACH = """
spiral | 12 sc | sc in blo around (12) | 12
spiral | 12 sc | sc in back loops only all around | 12
spiral | 6 sc | 2 sc in each. (12) | 12
spiral | 12 sc | sc in all 12 sts = 12 | 12
flat | 20 sc | ch 1, sc in flo until end, turn | 20
flat | 20 sc | ch 1, hdc2tog, hdc until last 2 sts, hdc2tog | 18
flat | 20 sc | ch 1, sc in next st and each st across | 20
flat | - | ch 21, sc in 2nd ch from hook and each ch across. (20 sc) | 20
flat | - | ch 21, sc in 2nd ch from hook & in each ch across | 20
flat | 20 sc | ch 1, sc in 1st st, sc in next 18, sc in last | 20
flat | 20 sc | ch 3, 2 dc in next, *dc 1, 2 dc in next; rep from * across | 30
flat | 20 sc | ch 2 (not a st), dc in each st across | 20
joined | 20 sc | ch 2 (not counted as a st), hdc in each st around, join | 20
flat | 20 sc, 2 ch-1 sps | sc to ch-sp, sc in ch-sp, sk all sts to next ch-sp, sc in ch-sp | 12
"""


def rows(table: str) -> list[list[str]]:
    """The lines of a table, as their parts."""
    lines = (line for line in table.split("\n") if line)
    return [[part.strip() for part in line.split(" | ")] for line in lines]


@pytest.mark.parametrize("line", rows(STARS + EACH), ids=" | ".join)
def test_a_usual_wording_is_counted(line: list[str]) -> None:
    """The row leaves the stitches that an experienced crocheter counts, or has its one message."""
    worked, below, row, expected = line
    counted = count(row, worked=WORKED[worked], start=None if below == "-" else below)
    assert counted.value is not None
    codes = [one.code for one in counted.problems if one.code != "row-turning-chain"]
    found = codes or [str(counted.value.rows[-1].sts[0])]
    assert [expected] == found
