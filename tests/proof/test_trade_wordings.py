"""Wordings of the trade in US and UK terms, with and without sizes (common practice, made up here).

Each line is how rows are worked, the terms, what is there before them, the rows (parted by " // "),
and the stitches after the last (by size, where there are sizes), or the code of the message where a
row does not come out. The counts were worked out by hand.
"""

# ruff: noqa: E501, a table is read line by line
from __future__ import annotations

import pytest

from workeven.notation.vocabulary import Terms
from workeven.problems.catalogue import severity
from workeven.problems.record import Severity
from workeven.proof.counting import count

WORKED = {
    "flat": "flat rows",
    "joined": "joined rounds",
    "turned": "joined rounds, turned",
    "spiral": "spiral rounds",
}

# 4 corners: 12 dc + 2 x 4 worked into the spaces, and so on
SPACES = """
joined | uk | 12 tr, 4 ch-2 sps | 3ch, 1tr in each tr around, 2tr in each 2ch-sp, ss to top of 3ch. 20tr | 20
joined | uk | 12 tr, 4 ch-2 sps | 1ch, 1dc in each tr and in each 2ch-sp around, ss to first dc. 16dc | 16
joined | uk | - | 5ch, join with ss to form a ring // 3ch (counts as 1tr), 2tr in ring, 2ch, (3tr in ring, 2ch) 3 times, ss to top of 3ch. 12tr, 4 2ch-sps // ss to first 2ch-sp, 3ch, (2tr, 2ch, 3tr) in same sp, *1ch, (3tr, 2ch, 3tr) in next 2ch-sp; rep from * twice more, 1ch, ss to top of 3ch. 24tr, 4 2ch-sps, 4 1ch-sps | 24
joined | uk | 24 dc | 1ch, 1dc in first dc, *5ch, miss 2dc, 1dc in next dc; rep from * to last 2dc, 5ch, miss 2dc, ss to first dc. 8 5ch-lps | 8
joined | uk | 24 dc | 1ch, 1dc in first dc, *5ch, miss 2dc, 1dc in next dc; rep from * to last 2dc, 5ch, miss 2dc, ss to first dc. 9 5ch-lps | count-stated
flat | uk | 20 tr | 4ch (counts as 1tr, 1ch), miss 1tr, 1tr in next tr, *1ch, miss 1tr, 1tr in next tr; rep from * to end | row-uneven
flat | uk | 19 tr | 4ch (counts as 1tr, 1ch), miss 1tr, 1tr in next tr, *1ch, miss 1tr, 1tr in next tr; rep from * to end // 3ch, 2tr in each 1ch-sp to end, 1tr in 3rd ch of 4ch | 20
flat | us | 9 dc, 2 ch-2 sps | ch 1, sc in each dc across, 2 sc in each ch-2-sp | 13
joined | us | 12 dc, 4 ch-2 sps | ch 1, sc in each dc around, 3 sc in each ch-2 corner sp, join | 24
joined | us | 12 dc, 4 ch-2 sps | ch 1, sc in each dc around, working 3 sc in each ch-2 corner space, join | 24
joined | us | 12 dc, 4 ch-2 sps | sl st to ch-2 corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *(3 dc, ch 2, 3 dc) in next ch-2 corner sp; rep from * 2 more times, join | 24
"""

SHORTENED = """
joined | us | 12 sc | ch 1, 2 sc in each sc around, join w/ sl st to first sc. F/O | 24
joined | us | 12 sc | ch 1, 2 sc in each sc around, join w/sl st. F/O, leaving a long tail. | 24
spiral | us | 12 sc | dec x 6 (6). F/O, weave in ends | 6
flat | us | 12 sc | w/ MC, ch 1, sc across. R/S facing, F/O | 12
joined | uk | 12 dc | 1ch, 2dc in each dc around, join w/ ss to first dc | 24
"""

COUNTS = """
spiral | us | 28 sc | sc in each sc around. --28 sc | 28
spiral | us | 28 (32, 36) sc | Sc in each sc around. --28 (32, 36) sc | 28 32 36
spiral | us | 28 (32, 36) sc | Sc in each sc around. —30 (32, 36) sc | count-stated
joined | us | 80 (84, 88, 96) sc | ch 1, sc in each sc around; join. {80 (84, 88, 96) sc} | 80 84 88 96
joined | us | 80 sc | ch 1, sc in each sc around; join. {80 sc} | 80
joined | us | 80 sc | ch 1, sc in each sc around; join. {82 sc} | count-stated
joined | us | 80 sc | ch 1, *sc in next sc, ch 1, sk 1 sc; rep from * around; join. {40 sc, 40 ch-1 sps} | 40
flat | us | 20 sc | ch 1, sc in each sc across. Total: 20 sc | 20
flat | us | 20 sc | ch 1, sc in each sc across. Total: 21 sc | count-stated
flat | us | 20 sc | ch 1, sc in each sc across. You should now have 20 sts. | 20
flat | us | 22 sc | ch 1, sc2tog, sc in each sc to last 2 sc, sc2tog. 20 sc remain. | 20
flat | uk | 22 dc | 1ch, dc2tog, 1dc in each dc to last 2 dc, dc2tog. 20 sts rem | 20
spiral | us | 20 sc | sc in next 8 sc, ch 4, sk 4 sc, sc in each of last 8 sc. 16 sc, 1 ch-4 sp. | 16
spiral | uk | 22 dc | 1dc in each of next 10dc, miss 2dc, 1dc in each of last 10dc. 20dc. | 20
flat | us | 20 sc | ch 3, dc in next 19 sts // ch 3, dc in next 18 sts, dc in top of tch. 20 dc. | 20
flat | us | 20 sc | ch 1, sc in next 10 sc, 2 sc in next sc, sc in next 9 sc. 21 sc. | 21
"""

LABELS = """
joined | us | - | Rnd 1) Ch 1, 8 sc into adjustable ring, sl st into 1st sc. = 8 // Rnd 2) Ch 1, 2 sc into each sc, sl st into 1st sc. = 16 | 16
flat | us | 20 sc | Rows 1-3) ch 1, sc in each sc across, turn | 20
flat | uk | 20 dc | 1st row) 1ch, 1dc in each dc to end | 20
"""

# 22 ch: the 4th ch from hook leaves 19 chs to work, and the 3 skipped ones count as 1 dc
CHAINS = """
flat | us | - | ch 22 // dc in 4th ch from hook (3 skipped ch count as 1 dc) and in each ch to end. 20 dc. | 20
flat | us | - | ch 22 // dc in 4th ch from hook (the 3 skipped chs count as first dc), dc in each ch across (20 dc) | 20
flat | us | - | ch 22 // dc in 4th ch from hook (beg ch-3 counts as first dc), dc in next 18 ch. 20 dc. | 20
flat | us | - | ch 22 // dc in 4th ch from hook (skipped chs do not count), dc in each ch across (19 dc) | 19
flat | us | - | ch 22 // dc in 5th ch from hook (first 3 ch count as dc, 4th ch is skipped) and in each ch to end. 19 dc | 19
flat | us | - | ch 22 // dc in 4th ch from hook and in each chain across. (20 dc, counting skipped chains as one) | 20
flat | us | - | ch 22 // dc in 4th ch from hook and in each chain across. (20 dc, including beg ch-3) | 20
flat | us | - | ch 22 // dc in 4th ch from hook (2 skipped chs count as 1 dc) and in each ch to end | row-skipped-chains
flat | us | - | ch 38 // hdc in 3rd ch from hook (2 skipped chs count as first hdc), hdc in each ch to end... 37 hdc | 37
flat | us | - | ch 38 // hdc in 3rd ch from hook and in each ch to end (36 hdc, not counting skipped chs) | 36
flat | uk | - | 22ch // 1tr in 4th ch from hook (3 missed ch count as 1tr) and in each ch to end. 20tr | 20
flat | uk | - | 22ch // 1tr in 4th ch from hook (missed 3ch counts as first tr), 1tr in each ch to end. 20tr | 20
joined | us | - | ch 8, join to form ring // ch 3, 23 dc in ring; join with sl st to top of ch 3 (24 dc, counting ch 3 as 1 dc) | 24
joined | us | - | ch 8, join to form ring // ch 2, 23 hdc in ring; join (24 hdc, counting ch 2 as 1 hdc) | 24
joined | us | - | ch 8, join to form ring // ch 2, 23 hdc in ring; join (23 hdc, not counting ch 2) | 23
flat | us | 20 dc | Ch 3 (= 1 dc), turn; dc in next 19 (20 dc) | 20
flat | us | 20 dc | Ch 3 (ch 3 counts as first dc here and throughout), turn; dc in next dc and in each dc across | 20
flat | us | 20 dc | Ch 2, turn; dc in next dc (ch 2 and dc count as dc2tog), dc in each dc to end. 19 sts | 19
flat | us | 20 dc | Ch 2, turn; dc2tog over next 2 dc (ch 2 and dc2tog count as dc3tog), dc in each dc to end. 18 sts | 18
flat | us | 20 dc | Ch 2 (counts as first leg of dc2tog), turn; dc in next dc, dc in each dc to end. 19 sts | 19
flat | uk | 20 tr | 2ch, turn; 1tr in next tr (2ch and tr count as tr2tog), 1tr in each tr to end. 19 sts | 19
"""


RINGS = """
joined | us | - | ch 8, join in a circle with sl st // ch 3 (counts as dc), 23 dc in ring; join | 24
joined | us | - | Chain 8 and close into a circle with a sl st. // Ch 3, 23 dc in circle; join with sl st to top of ch 3 (24 dc, counting ch 3 as 1 dc) | 24
joined | uk | - | Make 54 ch and join into a ring with a ss. // 3ch (counts as 1tr), miss first ch, 1tr in each ch to end, ss to top of 3ch. [54 tr] | 54
joined | uk | - | Make 54 ch and join into a ring with a ss. // 3ch (counts as 1tr), miss first ch, 1tr in each ch to end, ss to top of 3ch. [55 tr] | count-stated
joined | us | - | Make a magic circle. // Ch 3 (counts as dc), 11 dc in circle, sl st to top of ch-3. 12 sts. | 12
"""

# the same by hand: 12 places, the ch 3 stands over the first, one more in it, 2 in each of 11
FEET = """
joined | us | 12 dc | ch 3, dc in base of ch-3, 2 dc in each dc around, sl st to top of ch-3 | 24
joined | us | 12 dc | ch 3, dc at base of ch 3, 2 dc in each dc around, join to 3rd ch of ch 3 | 24
joined | us | 12 dc | ch 3, dc in st at base of beg ch-3, 2 dc in each dc around, join | 24
joined | uk | 12 tr | 3ch, 1tr in base of 3ch, 2tr in each tr around, ss to top of 3ch | 24
flat | us | 12 dc | ch 3 (counts as dc), dc at base of tch, dc in each of next 10 dc, 2 dc in last dc | 14
joined | us | 24 dc | ch 5 (= 1 dc + ch 2), skip next dc, *dc in next dc, ch 2, skip next dc; rep from * around; join to 3rd ch of ch 5 (12 dc) | 12
"""

# 6 from 2 x 3 chains and 3 + 2 at the ends, and so on
FROM_HOOK = """
spiral | us | - | ch 7 // Starting in 2nd ch from hook, 1 sc in each of next 5 ch, 3 sc in last ch; working along other side of ch, 1 sc in each of next 4 ch, 2 sc in last ch. 14 sc. | 14
flat | us | - | ch 22 // Beginning in 4th ch from hook, dc in each ch across (20 dc) | 20
flat | us | - | ch 22 // Starting in 3rd ch from hook (skipped 2 chs do not count), hdc in each ch across | 20
flat | us | S (M): - | ch 22 (32) // Starting in the 2nd ch from hook, sc in next 10 (20) ch, hdc in each ch across (21 (31)) | 21 31
flat | us | - | ch 22 // Working in back bumps of ch, starting in 2nd ch from hook, sc across (21) | 21
flat | us | - | ch 22 // Starting in 2nd ch from hook, *sc in next ch, sk 1 ch; rep from * across | row-uneven
flat | us | - | ch 21 // Starting in 2nd ch from hook, *sc in next ch, sk 1 ch; rep from * across | 10
flat | us | - | ch 21 // Starting in 3rd ch from hook, *hdc in next ch, sk 1 ch; rep from * across | row-not-understood
spiral | us | - | ch 7 // sc in 2nd ch from hook and in next 4 ch, 3 sc in last ch, sc in other side of each of next 4 ch, 2 sc in last ch | 14
spiral | us | - | ch 7 // sc in 2nd ch from hook and in next 4 ch, 3 sc in last ch, sc in other side of each of next 6 ch | row-uneven
"""

# 14 + 3 + 18; then 8 skipped and the 3 chains
# 3 + 35 + 3, 37 along a side, and the same again: the first corner below stands on the first chain
BORDERS = """
joined | us | - | ch 38 // Now work in rows: hdc in 3rd ch from hook (2 skipped chs count as first hdc), hdc in each ch to end // Rows 2-24: ch 2 (counts as hdc), hdc in next st and in each st across // Now work in joined rounds: ch 1, 3 sc in first st, sc in each of next 35 sts, 3 sc in last st, work 37 sc evenly down side edge, 3 sc in corner, sc in each of next 35 ch along foundation edge, 3 sc in last ch, work 37 sc evenly up other side; join | 156
joined | us | - | ch 38 // Now work in rows: hdc in 3rd ch from hook (2 skipped chs count as first hdc), hdc in each ch to end // Rows 2-24: ch 2 (counts as hdc), hdc in next st and in each st across // Now work in joined rounds: ch 1, 3 sc in first st, sc in each of next 35 sts, 3 sc in last st, work 37 sc evenly down side edge, 3 sc in corner, sc in each of next 34 ch along foundation edge, 3 sc in last ch, work 37 sc evenly up other side; join | row-uneven
"""

THUMBS = """
spiral | us | 40 sc | sc in next 14 sc, ch 3 (counts as 3 sts), skip next 8 sc for thumb, sc in each rem sc // sc in each sc and in each ch around // Thumb: join yarn in first skipped sc of Rnd 1, sc in same sc and in each of next 7 skipped sc, sc in the underside of each of the 3 ch. --11 sc | 11
spiral | us | 40 sc | sc around // sc in next 14 sc, ch 3 (counts as 3 sts), skip next 8 sc for thumb, sc in each rem sc // sc in each sc and in each ch around // Thumb: join yarn in first skipped sc of Rnd 2, sc in same sc and in each of next 7 skipped sc, sc in the underside of each of the 3 ch. --11 sc | 11
spiral | us | 40 sc | sc in next 14 sc, ch 3 (counts as 3 sts), skip next 8 sc for thumb, sc in each rem sc // sc in each sc and in each ch around // Thumb: join yarn in first skipped sc, sc in same sc and in each of next 7 skipped sc, sc in opposite side of each ch | 11
spiral | us | 26 sc | sc in next 13 sts, ch 13 (each ch counts as a st), sk next 13 sts // sc in each st and ch around // HEEL // Rnd 1: Join yarn at corner of heel opening, sc in each skipped st, sc in other side of each ch = 26 sts | 26
"""

# row 2 says how ch 5 counts; row 3 does not, and comes out in either way, with another count
CARRIED = """
flat | us | 31 dc | ch 5 (counts as dc and ch 2), sk next 2 dc, dc in next dc, *ch 2, sk next 2 dc, dc in next dc; rep from * across // ch 5, dc in next dc, *ch 2, dc in next dc; rep from * across to tch, ch 2, dc in 3rd ch of tch | 11
flat | us | 31 dc | ch 5 (counts as dc and ch 2), sk next 2 dc, dc in next dc, *ch 2, sk next 2 dc, dc in next dc; rep from * across // ch 3, *2 dc in next sp, dc in next dc; rep from * to end, last dc being worked in 3rd ch of turning ch | 31
flat | us | 31 dc | ch 5 (counts as dc and ch 2), sk next 2 dc, dc in next dc, *ch 2, sk next 2 dc, dc in next dc; rep from * across // ch 3, *2 dc in next sp, dc in next dc; rep from * to end, the last dc is worked in top of tch (32 dc) | count-stated
flat | us | 12 dc | ch 5 (counts as dc and ch 2), sk next 2 dc, *dc in next dc, ch 2, sk next 2 dc; rep from * to last 3 dc, dc in each of last 3 dc // ch 5, dc in first dc, dc in each of next 4 dc, dc in 3rd ch of tch (7 dc) | 7
flat | us | 12 dc | ch 5 (counts as dc and ch 2), sk next 2 dc, *dc in next dc, ch 2, sk next 2 dc; rep from * to last 3 dc, dc in each of last 3 dc // ch 5, dc in first dc, dc in each of next 4 dc, dc in 3rd ch of tch (6 dc) | 6
"""

WORDS = """
flat | us | 19 dc, 1 ch-2 sp | ch 1, sc in each dc across, working 3 sc in ch-2 sp | 22
joined | us | 12 dc, 12 ch-2 sps | sl st in first ch-2 sp, ch 1, (sc, hdc, 2 dc, hdc, sc) in same sp and in each ch-2 sp around; join | 72
joined | us | 12 dc, 12 ch-2 sps | sl st in first ch-2 sp, ch 1, (sc, dc) in same sp and in each of next 10 ch-2 sps; join | row-uneven
joined | us | 12 sc | ch 1, (sc, ch 3, sl st in 3rd ch from hook for picot, sc) in each sc around; join. Starch lightly. | 24
joined | us | 12 sc | ch 1, *sc in next sc, ch 3, sl st in 3rd ch from hook (picot made), sc in next sc; rep from * around, join | 12
flat | us | 9 sc | ch 1, sc in next 4 sc for back, sc in next 5 sc for right front | 9
joined | uk | 12 tr | 1ch, 1 rev dc in each tr to end, ss to first st. 12 rev dc | 12
joined | us | 12 dc | ch 1, rev sc in each dc around, join | 12
spiral | us | 12 sc | *spike st in next st, sc in next st; rep from * around (12 sc) // *spike sc in next st 2 rows below, sc in next st; rep from * around (6 sc, 6 spike sts) | 12
spiral | uk | 13 dc | *spike dc in next st, dc in next st; rep from * around | row-uneven
spiral | us | 24 sc | Rnds 1-4: sc in each sc around (24) [4 rounds] | 24
spiral | us | 24 sc | Rnds 1-4: sc in each sc around (24) [5 rounds] | row-not-understood
spiral | us | 24 sc | sc in each sc around (24) [4 rounds] | row-not-understood
"""


def rows(table: str) -> list[list[str]]:
    """The lines of a table, as their parts."""
    lines = (line for line in table.split("\n") if line)
    return [[part.strip() for part in line.split(" | ")] for line in lines]


@pytest.mark.parametrize(
    "line",
    rows(
        SPACES
        + SHORTENED
        + COUNTS
        + LABELS
        + CHAINS
        + RINGS
        + FEET
        + FROM_HOOK
        + BORDERS
        + THUMBS
        + WORDS
    ),
    ids=" | ".join,
)
def test_a_wording_of_the_trade_is_counted(line: list[str]) -> None:
    """The row leaves the stitches that were counted by hand in each size, or has its message."""
    worked, terms, below, row, expected = line
    in_terms: Terms = "uk" if terms == "uk" else "us"
    counted = count(
        row.replace(" // ", "\n"),
        worked=WORKED[worked],
        terms=in_terms,
        start=None if below.endswith("-") else below,
        sizes=_sizes(below),
    )
    assert counted.value is not None
    codes = [one.code for one in counted.problems if severity(one.code) is not Severity.ADVICE]
    last = [one.sts for one in counted.value.rows if None not in one.sts][-1:]
    assert [expected] == (codes or [" ".join(map(str, sts)) for sts in last])


def _sizes(below: str) -> tuple[str, ...] | None:
    """So many sizes as numbers stand in the count before the rows."""
    first, found, others = below.partition("(")
    return tuple("SMLX"[: 1 + others.count(",") + 1]) if found and first else None
