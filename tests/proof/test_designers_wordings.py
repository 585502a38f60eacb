"""More of what designers write (common practice, made up here); each count was worked out by hand.

Each line is how rows are worked, what is there before them, the rows (parted by " // "), and the
stitches after each, or the code of the message where a row does not come out. A bar in a row is
written "¦".
"""

# ruff: noqa: E501, a table is read line by line
from __future__ import annotations

import pytest

from workeven.problems.catalogue import severity
from workeven.problems.record import Severity
from workeven.proof.counting import count

WORKED = {
    "flat": "flat rows",
    "joined": "joined rounds",
    "turned": "joined rounds, turned",
    "spiral": "spiral rounds",
}

# 24 - 4 are worked; of 20 a repeat of 4 makes 5, five times
LEFT = """
flat | 24 sc | ch 1, sc across, leaving last 4 sts unworked, turn | 20
flat | 24 sc | ch 1, sc in each st across, turn, leaving rem 4 sts unworked | 20
flat | 24 sc | ch 1, sc in each st across, leave last st unworked, turn | 23
flat | 24 sc | ch 1, [sc 3, inc] across, leaving last 4 sts unworked, turn | 25
flat | 24 sc | ch 1, *sc 3, inc; rep from * across, leaving last 4 sts unworked, turn | 25
flat | 24 dc | ch 3 (counts as dc), dc in each dc across, leave last 4 dc unworked // ch 3, dc across | 20, 20
flat | 24 sc | ch 1, inc in each st across, leave last 4 sts unworked | 40
flat | 24 sc | ch 1, sc in next 20 sts, leaving last 4 sts unworked, turn | 20
flat | 24 sc | ch 1, sc in next 18 sts, leaving last 4 sts unworked, turn | row-uneven
flat | 24 sc | ch 1, sc in each st to last 5 sts, leave last 4 sts unworked, turn | row-uneven
flat | 24 sc | ch 1, sc 10, pm, sc 14, turn // ch 1, sc to marker, turn // ch 1, sc across, turn | 24, 14, 14
flat | 24 sc | ch 1, sc 10, pm, sc 14, turn // ch 1, sc to 2 sts before marker, turn // ch 1, sc across | 24, 12, 12
"""

# 24 / 4 = 6 repeats of 5; 23 = 5 x 4 + 3: six sc and five second ones; 22 = 7 x 3 + 1
REPEATS = """
flat | 24 sc | ch 1, *sc 3, inc*, rep *-* across, turn | 30
flat | 24 sc | ch 1, *sc 3, inc*; rep *-* 5 times more, turn | 30
spiral | 24 sc | *sc 3, inc; rep *-* around | 30
flat | 24 sc | ch 1, *sc 3, inc*; rep between *s across, turn | 30
flat | 24 sc | ch 1, *sc 3, inc*; rep between *'s across, turn | 30
flat | 24 sc | ch 1, *sc 3, inc, rep bet *s to last 4 sts, sc 4, turn | 29
flat | 24 sc | ch 1, *sc 3, inc; rep * 5 more times, turn | 30
flat | 24 sc | ch 1, *sc 3, inc*; rep *-* 4 more times, turn | row-uneven
joined | 24 sc | ch 1, [sc 3, inc], rep between [ ] around, join | 30
flat | 24 sc | ch 1, [sc 3, inc], rep between brackets 5 more times, turn | 30
flat | 24 sc | ch 1, [sc 3, inc]; rep [ ] across, turn | 30
flat | 24 sc | ch 1, (sc 3, inc); rep between ( ) 5 more times, turn | 30
flat | 24 sc | ch 1, [sc in next st, (dc, ch 1, dc) in next st], rep between [ ] across, turn | 36
flat | 24 sc | ch 1, [sc 3, inc], rep between [ ] 4 more times, turn | row-uneven
flat | 24 sc | ch 1, [sc 3, inc], sc 20, turn | 25
flat | 24 sc | ch 1, [sc 2, ch 1, dc], sc 20, turn | row-not-understood
flat | 24 sc | ch 1, sc 20, [sc 3, inc] | row-not-understood
flat | 24 sc | ch 1, inc, sc across // ch 1, sc across // Rep Rows 1-2, 5 times more. | 25, 25, 30
flat | 23 sc | ch 1, *sc, ch 2, sk 2, sc; rep from * across, omitting last sc, turn | 11
flat | 23 sc | ch 1, *sc, ch 2, sk 2, sc; rep from * across, omitting sc on last rep, turn | 11
flat | 24 sc | ch 1, *sc, ch 2, sk 2, sc; rep from * across, omitting last sc, turn | row-uneven
joined | 24 sc | ch 1, *sc in next st, ch 2, sk 2; rep from * around, omitting last ch 2, join | 8
flat | 22 sc | ch 1, *sc in next st, ch 2, sk 2; rep from * across, omitting last ch 2 and sk 2, turn | 8
flat | 22 sc | ch 1, *sc in next st, ch 2, sk 2; rep from * 7 more times, omitting last ch 2, sk 2, turn | 8
flat | 22 sc | ch 1, *sc in next st, ch 2, sk 2; rep from * across, omitting last dc, turn | row-not-understood
"""

LABELS = """
flat | 24 sc | (Row 1) ch 1, sc across, turn // [Row 2] ch 1, inc, sc across, turn | 24, 25
joined | 24 sc | Rnd 1) ch 1, sc around, join // Rnd 2) ch 1, inc, sc around, join | 24, 25
flat | 24 sc | Row 1 ¦ ch 1, sc across, turn // Row 2 ¦ ch 1, inc, sc across, turn | 24, 25
flat | 24 sc | (Row 1) ch 1, sc across, turn // (Row 3) ch 1, inc, sc across, turn | row-number
flat | 24 sc | Row 1: ch 1, inc, sc across // Row 2: ch 1, sc across // Row 3: As 1st row | 25, 25, 26
joined | 24 sc | Rnd 1: ch 1, [sc 2, inc] around, join // Rnd 2: ch 1, sc around, join // Rnd 3: ch 1, [sc 3, inc] around, join // Rnd 4: As 2nd round | 32, 32, 40, 40
flat | 24 sc | ROW 1: ch 1, inc, sc across, turn. Change to CC at end of ROW 1. // ROW 2: ch 1, sc across | 25, 25
flat | 24 sc | Border (now work in joined rounds) // ch 1, sc around, join // ch 1, sc around, join | 24, 24, 24
"""

# two ends, so each shaped row takes 2; every 4th row of 10 is the 4th and the 8th
SHAPING = """
flat | 24 sc | Keeping in patt, dec 1 st at each end of next row | 22
flat | 24 sc | Keeping in patt, dec 1 st at each end of every row 3 times | 18
flat | 24 sc | dec 1 st at each end of next row // ch 1, sc across | 22, 22
flat | 24 sc | Work even for 10 rows, at the same time dec 1 st at each end every other row 5 times | 14
flat | 24 sc | Work in patt for 10 rows, at the same time, dec 1 st at each end of every 4th row | 20
flat | 24 sc | Work even for 10 rows and at the same time inc 1 st at each end every other row 3 times | 30
flat | 24 sc | Work even for 10 rows, at the same time dec 1 st at each end every 4th row 3 times | row-past-length
flat | 40 sc | Work even until piece measures 20 cm, at the same time dec 1 st at each end every 4th row 6 times | 28
flat | 24 dc, 8 ch-1 sps | Keeping in patt, dec 1 st at each end of next row | row-not-understood
flat | 24 sc | ch 1, work in patt across next 8 sts, leave rem sts unworked, turn | 8
flat | 24 hdc | ch 2 (does not count as st), work in patt to last 2 sts, hdc2tog, turn | 23
flat | 12 sc, 12 hdc | ch 1, work in patt across next 8 sts, leave rem sts unworked, turn | 8
flat | 12 sc, 12 hdc | ch 1, sc2tog, work in patt to last 2 sts, hdc2tog, turn | 22
"""

# 27 = 5 x 5 + 2: five more; a counted chain is the first of five
EVERY = """
joined | 25 sc | ch 1, sc in each st around, working 2 sc in every 5th st, join | 30
joined | 27 sc | ch 1, sc in each st around, working 2 sc in every 5th st, join | 32
flat | 24 sc | ch 1, sc across, increasing in every 6th st, turn | 28
flat | 24 sc | ch 1, sc in each st across, inc in every 6th st, turn | 28
spiral | 24 sc | sc around, working 2 sc in every other st (36) | 36
spiral | 3 sc | sc around, working 2 sc in every 5th st | 3
joined | 24 sc | ch 1, sc around, working a bobble in every 4th st, join (18 sc, 6 bobbles) | 24
joined | 24 sc | ch 1, sc around, working (dc, ch 1, dc) in every 4th st, join (18 sc, 12 dc) | 30
flat | 24 sc | ch 1, sc in each st to last 4 sts, working 2 sc in every 5th st, sc 4, turn | 28
joined | 25 dc | ch 3 (counts as dc), dc in each st around, working 2 dc in every 5th st, join with sl st to top of beg ch-3 | 30
joined | 24 dc | ch 3 (counts as dc), dc in each st around, working 2 dc in every other st, join with sl st to top of beg ch-3 | 36
joined | 25 sc | ch 1, sc in each st around, working 2 sc in every 5th st, join (31 sc) | count-stated
flat | 24 sc | ch 1, bobble in every other st across, turn | row-not-understood
flat | 24 sc | ch 1, 2 sc in every 5th st, turn | row-not-understood
flat | 24 sc | ch 1, inc in every other st, turn | row-not-understood
"""

# each of the 4 hdc becomes 3 sc: 16 + 8; a space adds its two to the 12 of the sides
CORNERS = """
joined | 16 dc | ch 1, [sc in next 3 sts, hdc in next st] 4 times, join // ch 1, sc in each st around, working 3 sc in each corner hdc, join | 16, 24
joined | 16 dc | ch 1, [sc in next 3 sts, hdc in next st] 4 times, join // ch 1, sc in each st around, working 3 sc in hdc at each of the 4 corners, join | 16, 24
joined | 16 dc | ch 1, [sc in next 3 sts, hdc in next st] 4 times, join // sl st to next st (corner hdc), ch 1, 3 sc in same st, sc in each st around, working 3 sc in each rem corner hdc, join | 16, 24
joined | 12 dc, 4 ch-2 sps | ch 1, sc in each st around, working (sc, ch 2, sc) in each of the 4 corners, join | 20
joined | 12 dc, 4 ch-2 sps | ch 1, sc in each st around, working (sc, ch 2, sc) in ch-2 sp at each corner, join | 20
joined | 24 dc | ch 1, sc in each st around, working 3 sc in each corner dc, join | row-not-understood
joined | 16 dc | ch 1, sc around, join // rep last rnd, 1 rnd each in Green, Brown and Red | 16, 16
"""

# colours named without a capital, and what a chain is for, change no count
ASIDE = """
spiral | 24 sc | With brown, sc in each st around | 24
spiral | 24 sc | using dark grey yarn sc in each st around | 24
spiral | 24 sc | sc 2, ch 12 (hanging loop), sc in each of remaining 22 sts | 24
spiral | 24 sc | sc 2, ch 8 (button loop), sc 22 | 24
spiral | 24 sc | With brown, sc in next 20 sts | row-uneven
spiral | 6 sc | Rnd 20: Flatten the ear and work through both layers: sc 6, fasten off | 6
spiral | 24 sc | Rnd 5: With RS facing: sc in each st around | 24
"""

# the chain and the stitch behind it are one: 20 - 2 = 18; 12 clusters, one in each of 12 spaces
FIRST = """
flat | 20 dc | ch 2, dc in next st (counts as dc2tog), dc in each st to last 2 sts, dc2tog | 18
joined | 12 dc, 12 ch-1 sps | sl st in next ch-1 sp, ch 2, dc2tog in same sp (counts as first 3-dc cl), ch 2, *3-dc cl in next ch-1 sp, ch 2; rep from * around, join with sl st in top of first cl (12 cl) | 12
joined | 20 dc | ch 2, dc in same st (counts as 2-dc cl), ch 1, *sk next st, 2-dc cl in next st, ch 1; rep from * to last st, sk last st, join with sl st to top of first cl | 10
flat | 20 dc | sl st in each of first 6 sts, ch 3 (counts as dc in same st as last sl st), dc in next 9 sts, leave last 5 sts unworked | 10
flat | 20 dc | dc in next st (counts as dc2tog), dc in each st to last 2 sts, dc2tog | row-not-understood
"""


# where the last of "each" goes is told for the maker: it goes there anyway
LAST = """
flat | 24 dc | ch 3 (counts as dc), dc in each st across, last dc being worked in top of turning ch | 24
flat | 24 dc | ch 3 (counts as dc), dc in each st across, the last dc worked into tch | 24
flat | 24 dc | ch 3 (counts as dc), dc in each st across, ending with last dc in top of tch | 24
flat | 24 dc | ch 3 (counts as dc), dc in next 20 sts, last dc being worked in top of turning ch | row-uneven
"""

TABLES = (LEFT, REPEATS, LABELS, SHAPING, EVERY, CORNERS, LAST, ASIDE, FIRST)


def cases(*tables: str) -> list[tuple[str, ...]]:
    """The lines of tables, in their four parts."""
    lines = [line for table in tables for line in table.strip().splitlines()]
    parts = [line.split(" | ") for line in lines]
    return [tuple(part.strip().replace("¦", "|") for part in line) for line in parts]


@pytest.mark.parametrize(("how", "before", "rows", "told"), cases(*TABLES))
def test_counts_are_those_worked_out_by_hand(how: str, before: str, rows: str, told: str) -> None:
    """Every row comes out with its count, or the message is the right one."""
    checked = count(
        rows.replace(" // ", "\n"), worked=WORKED[how], start=None if before == "-" else before
    )
    wrong = [one.code for one in checked.problems if severity(one.code) is Severity.ERROR]
    assert checked.value is not None
    found = ", ".join(str(row.sts[0]) for row in checked.value.rows)
    assert (", ".join(wrong) or found) == told


BY_SIZE = """
Size S: ch 21 // Size M: ch 25 // Size L: ch 29 // sc in 2nd ch from hook and in each ch across | 20, 24, 28
Sizes S and M: ch 21 // Size L: ch 29 // sc in 2nd ch from hook and in each ch across | 20, 20, 28
Size S only: ch 21 // sizes M-L: ch 25 // sc in 2nd ch from hook and in each ch across | 20, 24, 24
"""


@pytest.mark.parametrize(("rows", "told"), cases(BY_SIZE))
def test_a_row_may_name_the_sizes_that_work_it(rows: str, told: str) -> None:
    """A size before the colon means that size alone, also without "only"."""
    sizes = ("S", "M", "L")
    checked = count(rows.replace(" // ", "\n"), worked="flat rows", sizes=sizes)
    assert checked.value is not None
    assert ", ".join(map(str, checked.value.rows[-1].sts)) == told
