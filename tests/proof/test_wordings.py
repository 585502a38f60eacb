"""Usual wordings of a row come out (wordings: common practice, made up here).

Each line is how rows are worked, what is there before them, the rows (parted by "//"), and the
stitches after the last, or the code of the message where a row does not come out.
"""

# ruff: noqa: E501, a table is read line by line
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

LABELS = """
spiral | - | R1: 6 sc in MR // R2: inc x6 // R3-R5: sc around // R6: rep R3 // R7: dec x6 | 6
spiral | - | Rnd 1 – 5 sc in magic ring – 5 sc // Rnd 2 – 2 sc in each st – 10 sc | 10
spiral | - | Rnd 1 6 sc in magic ring // Rnd 2 inc around // Rnd 3 (sc 1, inc) x 6 | 18
spiral | 12 sc | Rnd 1 - (sc 1, inc) x 6 - 18 sc // Rnd 2 - Rnd 4: sc around // Rnd 5: sc around | 18
flat | - | 1st row: ch 11, sc in 2nd ch from hook and each ch across // 2nd row: ch 1, sc across // 3rd row: ch 1, hdc across // 4th to 9th rows: Repeat 2nd and 3rd rows // 10th row: ch 1, sc across | 10
joined | 90 dc | Rnd 4: ch 2, *fpdc, bpdc* around, join – 90 // Rnd 5: rep Rnd 4 – 90 | 90
flat | 20 sc | Row 1: ch 1, sc across // Heel flap // Row 1: ch 1, sc across // Row 2: rep Row 1 | 20
flat | 20 sc | Row 1: ch 1, sc across // Shape cap: Row 1: sl st across first 4 sts, ch 1, sc to end | 16
flat | 20 sc | Row 7: ch 1, sc across // Row 8 (RS): ch 1, sc across // Row 9 (WS): ch 1, sc across | 20
flat | 20 sc | Row 8 (RS): ch 1, sc across // Row 9 (RS): ch 1, sc across | row-side
spiral | 12 sc | R1: sc around // R3: sc around | row-number
joined | - | Fsc 48, join to form a ring. // Rnd 1: ch 1, sc in each st around, join | 48
"""

ASIDES = """
spiral | 6 sc | sc around // Stuff firmly. // sc around // Fasten off, leaving a long tail. | 6
spiral | 6 sc | sc around // Cut yarn, leaving a 30 cm tail for sewing, and close the hole. | 6
spiral | 6 sc | sc around // FASTEN OFF AND SEW TO HEAD. | 6
spiral | 6 sc | Now place the safety eyes between rounds 5 and 6, about 6 stitches apart. // sc around | 6
spiral | 6 sc | Begin to stuff, adding more as you go. // sc around, fasten off and weave in the ends | 6
spiral | 6 sc | Thread the tail through the front loops of the last 6 sts and pull tight. // sc 6 | 6
spiral | 6 sc | Fasten off first leg. Make second leg in the same way, but do not fasten off. // sc 6 | 6
spiral | 10 sc | Press flat and sc through both layers across – 5 sc | 5
spiral | 11 sc | Press flat and sc through both layers across | row-uneven
flat | 9 sc | Seam the short edges together. // ch 1, sc across // Break off yarn. Darn in ends. | 9
flat | 9 sc | Sl st the short ends together to form a tube. // ch 1, sc across. // Block lightly. | 9
flat | 9 sc | Switch to color B. ch 1, sc across // With A, ch 1, sc across, changing colors in last st | 9
flat | 9 sc | Left front: Work as for right front, reversing all shaping. // ch 1, sc across | 9
joined | 9 sc | ch 1, working in blo, sc in each st around; join // ch 1, in flo, sc in all 9 sts, join | 9
flat | 20 sc | ch 1, 2 sc in first st, sc in each st across // This row is worked twice. | row-not-understood
flat | 9 sc | ch 1, sc across // Frobnicate the ends. | row-not-understood
"""

PLACES = """
joined | - | Ch 72, join with sl st to first ch to form a ring. // Ch 3, dc in each ch around, join | 72
joined | - | Ch 30, join into a ring. // Ch 1, sc in each ch around, join | 30
joined | - | Ch 90, sl st to first ch. // ch 3, dc in each ch around, sl st to top of ch-3 | 90
joined | - | Ch 4, join to form ring. // Ch 3, 11 dc in ring, join | 12
flat | 31 sc | ch 1, sc in first st, *ch 5, sk 4, sc in next st; rep from * across // ch 5 (counts as dc, ch 2), sc in first ch-5 loop, *ch 5, sc in next loop; rep from * across, ch 2, dc in last sc | 8
flat | 30 sc | ch 1, work hdc across first 12 sts, leave rem sts. | 12
flat | 30 sc | sl st over next 4 sts, ch 1, sc across next 22 sts, leaving rem sts on hold | 22
flat | 30 sc | Join yarn at left neck edge, work 40 sc evenly around neck edge | 40
flat | 12 sc | ch 1, sc 2, sk 2 sts, fptr around next 2 sts, working in front of sts just made, fptr around 2 skipped sts, sc in last 6 | 12
joined | - | Ch 3 (does not count as a st), 12 dc in MR. // Ch 1, 2 sc in each, sl st to first sc. 24 sc | 24
"""

SHAPING = """
flat | 30 sc | dec 1 st at each end every 4th row 3 times, then every 6th row 2 times | 20
flat | 30 sc | Dec 1 st each end every other row 5 times. (20) | 20
flat | 30 sc | Dec 1 st each end every other row 5 times. (22) | count-stated
flat | 30 sc | Dec 1 st at each end of next and every foll alt row 5 times | 18
flat | 30 sc | Dec 1 st at each end of next and every foll alt row 5 times (20 sts) | 20
flat | 30 sc | Dec 1 st at each end of next and 5 foll alt rows | 18
flat | 30 sc | Inc 1 st each side every 4th row until there are 40 sts | 40
flat | 30 sc | Inc 1 st each side every 4th row until there are 41 sts | count-not-reached
flat | 30 sc | Dec 1 st at neck edge every row until 12 sts remain | 12
flat | 30 sc | Dec 1 st at each end of next 3 rows | 24
flat | 30 sc | Dec 1 st at each end of next and every foll 4th row until 20 sts rem | 20
flat | 30 sc | Row 5: ch 1, sc across, dec 1 st at each end (28) | 28
flat | 30 sc | Rows 5-14: dec 1 st at each end every other row (20) // Row 15: sc across | 20
flat | 30 sc | Cont in sc, inc 1 st each end every 4th row 6 times, then work even for 10 rows (42) | 42
flat | 30 sc | Work 5 more rows even // Continue in sc for 6 rows // Work 10 rows straight | 30
flat | 30 dc | Dec 1 st at armhole edge every row 4 times, then every other row 3 times. 23 sts. | 23
spiral | 30 sc | Continue to increase 6 sts each round in this way until you have 60 sts. | 60
spiral | 30 sc | [sc 4, inc] around // Continue increasing in this way until 60 sts | 60
spiral | 30 sc | Rnd 6: [sc 4, inc] around // Rnds 7-9: Continue to increase as established (54) | 54
spiral | 30 sc | Rnd 6: [sc 4, inc] around // Rnds 7-9: Cont as set, inc 6 sts every rnd. (56) | count-stated
flat | 20 sc, 10 ch-1 sps | dec 1 st at each end every row 3 times | row-not-understood
flat | 30 sc | Row 1: sc2tog, sc across // work even for 3 rows // rep last row 2 more times | 29
flat | 30 sc | Row 1: sc2tog, sc across // Row 2: sc across // rep Row 2 twice, then rep Row 1 | 28
flat | 30 sc | Row 1: sc across // Row 2: hdc across // Rep Rows 1 and 2 twice, then Row 1 once more | 30
flat | 30 sc | Row 1: sc across // Row 2: Switch to B. Rep Row 1. // Rows 3-4: With A, rep Row 2 | 30
"""

HEADS = """
joined | 18 sc | ch 6 (counts as 6 sts), sk 6 sts, sc in each st around, join | 18
joined | 18 sc | ch 1, sc 3, ch 6 (counts as 6 sts), sk 6 sts, sc in each st around, join | 18
joined | 24 dc | ch 3, sc in each st around, join // ch 1, sc in each st and ch sp around | 24
joined | 24 dc | ch 3, sk 1, sc in next st, *ch 3, sk 1, sc in next st; rep from * around, join | 12
joined | - | ch 4, join to form ring // dc around, inc 2 sts evenly | row-open-ring
joined | - | magic ring // ch 3 (does not count), dc around, inc 2 sts evenly, join | row-open-ring
"""

V = "V-st = (dc, ch 1, dc) in same place"
SHELL = "shell = 5 dc in same st"

SIDES = """
flat | 42 sc | ch 1, sc in first 12 sts, turn, leave rem sts unworked // ch 1, sc2tog, sc to end // Fasten off. // Second shoulder: With RS facing, skip centre 18 sts, join yarn in next st, ch 1, sc in same st and in each st across | 12
flat | 42 sc | ch 1, sc in first 12 sts, turn, leave rem sts unworked // ch 1, sc2tog, sc to end // Fasten off. // Second shoulder: skip centre 19 sts, join yarn in next st, ch 1, sc in next 12 sts | row-uneven
flat | 42 sc | Neck row: ch 1, sc in first 12 sts, turn, leave rem sts unworked // ch 1, sc2tog, sc to end, fasten off // Sk next 18 sts of neck row, join yarn in next st, ch 1, sc in same st and in each st across | 12
flat | 42 sc | ch 1, sc in first 12 sts, turn, leave rem sts unworked // ch 1, sc across // Second side: Join yarn in next st, sc in next 30 sts | 30
joined | 60 dc | ch 1, *fpdc, bpdc* around, join // ch 1, fpdc in each fpdc, bpdc in each bpdc around; join | 60
joined | 60 dc | ch 1, *dc 3, fpdc 2* around, join // ch 1, dc in each dc, fpdc around each fpdc, join (36 dc, 24 fpdc) | 60
joined | 60 dc | ch 1, *dc 3, fpdc 2* around, join // ch 1, dc in each dc, fpdc around each fpdc, join (30 dc, 24 fpdc) | count-stated
flat | 31 dc | ch 3, *sk 2, V-st in next st; rep from * to last 3 sts, sk 2, dc in last st = 9 V-sts, 2 dc | 20
flat | 31 dc | ch 3, *sk 2, V-st in next st; rep from * to last 3 sts, sk 2, dc in last st = 9 V-sts, 20 dc | 20
flat | 31 dc | ch 3, *sk 2, V-st in next st; rep from * to last 3 sts, sk 2, dc in last st = 9 V-sts, 3 dc | count-stated
flat | 31 dc | ch 3, *sk 2, V-st in next st; rep from * to last 3 sts, sk 2, dc in last st // ch 3, turn. V-st in ch-1 sp of each V-st across, dc in last st = 9 V-sts, 2 dc | 20
flat | 37 sc | ch 1, sc in first st, *sk 2, shell in next st, sk 2, sc in next st; rep from * across // ch 1, sc in center dc of each shell across | 6
flat | 37 sc | ch 1, sc in first st, *sk 2, shell in next st, sk 2, sc in next st; rep from * across // ch 1, sc in center dc of next shell | row-uneven
flat | 37 sc | ch 1, sc in first st, *sk 2, shell in next st, sk 2, sc in next st; rep from * across // ch 3, shell in center dc of each shell across, dc in last sc | 32
flat | 37 sc | ch 1, dc in last st | row-uneven
"""

READINGS = """
spiral | 24 sc | sc 3, ch 4, skip 4, sc 17 // sc 3, 4 sc in ch-4 sp, sc 17 (24) | 24
spiral | 24 sc | sc 3, ch 4, skip 4, sc 17 (24) | row-reading
spiral | 24 sc | sc 3, ch 4, skip 4, sc 17 (23) | count-stated
spiral | 24 sc | sc 3, ch 4, skip 4, sc 17 // sc in each st around (24) | row-reading
spiral | 24 sc | sc 3, ch 4, skip 4, sc 17 // sc in each st around // sc around (20) | 20
flat | 21 dc | ch 4 (counts as dc and ch 1), sk 1, dc in next, *ch 1, sk 1, dc in next; rep from * across (21 sts) | row-reading
spiral | 20 sc | Rnd 20: sc around // Row 1: ch 1, sc 10, turn, leave rem sts unworked // Row 2: ch 1, sc across // Rnd 21: sc around | 10
spiral | 20 sc | Rnd 20: sc around // Row 1: ch 1, sc 10, turn, leave rem sts unworked // Rnd 23: sc around | row-number
"""

MARKERS = """
joined | 28 sc | ch 1, sc 13, pm, 2 sc in each of next 2 sts, pm, sc to end, join // ch 1, sc in each st around, join // ch 1, sc to marker, inc in next st, sc to 1 st before next marker, inc in next st, sc to end, join (32) | 32
joined | 28 sc | ch 1, sc 13, pm, sc 2, pm, sc to end, join // ch 1, sc to marker, inc, inc, sc to end, join // rep last rnd twice // ch 1, sc to marker, ch 2 (counts as 2 sts), sk all sts to next marker, sc to end, join (28) | 28
joined | 60 sc | ch 1, [3 sc in next st and place marker in center st, sc in next 14 sts] 4 times, join (68) // ch 1, sc in each st around, working 3 sc in each marked st, join (76) // ch 1, *sc to marked st, 3 sc in marked st, move marker up; rep from * 3 more times, sc to end, join (84) | 84
joined | 60 sc | ch 1, [sc in next st, pm in st just made, sc in next 14 sts] 4 times, join // work even // ch 1, sc around, inc 1 st on each side of each marker, join (68) // ch 1, sc around, inc in each marked st, join (72) | 72
joined | 60 sc | ch 1, [sc in next st, pm in st just made, sc in next 14 sts] 4 times, join // ch 1, sc around, 3 sc in each marked st, join (67) | count-stated
flat | 60 sc | ch 1, sc 10, pm, sc 40, pm, sc 10 // ch 1, sc to 2 sts before marker, sc2tog, sl m, sc2tog, sc to 2 sts before next marker, sc2tog, sl m, sc2tog, sc to end // ch 1, sc to marker, leave rem sts unworked | 9
flat | 60 sc | ch 1, sc 10, pm, sc 50 // ch 1, sc to marker, leave rem sts unworked | 50
flat | 60 sc | ch 1, sc 10, pm, sc 50 // work even for 3 rows // ch 1, sc to marker, leave rem sts unworked | 10
flat | 60 sc | ch 1, sc to marker, sc2tog, sc across | row-no-such-place
flat | 60 sc | Place 4 markers at the corners. // ch 1, sc to marker, sc2tog, sc across | row-not-understood
flat | 60 sc | ch 1, sc 10, pm, sc 50 // ch 1, [sc2tog, sc 3, sc2tog] 8 times, sc 4 // ch 1, sc to marker, leave rem sts unworked | row-not-understood
spiral | 24 sc | sc around, place marker in last st to mark end of rnd // [sc 2, inc] around | 32
"""

SHORT_ROWS = """
flat | 26 sc | Row 1: sc 13, turn, leave rem sts unworked // Rows 2-5: ch 1, sc in each st to last st, leave last st unworked, turn // Row 6: ch 1, sc across, sc in next unworked st, turn // Rows 7-9: rep Row 6 (13) | 13
flat | 26 sc | Row 1: sc 13, turn, leave rem sts unworked // Rows 2-5: ch 1, sc in each st to last st, leave last st unworked, turn // Row 6: ch 1, sc across, sc in next unworked st, turn // Rows 7-11: rep Row 6 | row-uneven
flat | 60 sc | Row 1: sc 50, turn, leave rem sts unworked // Rows 2-21: ch 1, sc in each st to last st, leave last st unworked, turn // Row 22: ch 1, sc across, sc in next unworked st, turn // Rows 23-61: rep Row 22 | row-uneven
spiral | 26 sc | Rnd 20: sc around // Row 1: sc 13, turn, leave rem sts unworked // Row 2: ch 1, sc 13, turn // Rnd 21: Now work in rounds again: sc 13, sc in each of the 13 unworked instep sts. (26) | 26
joined | 40 sc | Row 1: ch 1, sc in first 20 sts, turn; leave remaining 20 sts unworked // Rows 2–12: ch 1, sc across, turn // Rnd 1: ch 1, sc in each of 20 heel sts, 12 sc along side of flap, sc in each of 20 instep sts, 12 sc along other side of flap, join. (64) | 64
flat | 12 sc | Row 1: sc across // Rows 2-3: rep Row 1 (12) // Rows 4-5: rep Row 1 (13) | count-stated
"""

MORE = """
flat | 20 sc | Row 1: sc across // Row 2: sc across // Row 3: sc2tog, sc across // Rows 4-8: Repeat Rows 2 and 3 | 17
flat | 20 sc | Row 1: sc across // Row 2: sc across // Row 3: sc across // Rows 4-8: Repeat Rows 1 and 2 | row-number
flat | 37 sc | ch 3, 2 dc in first st, *sk 2, sc in next st, sk 2, shell in next st; rep from *, ending last rep with 3 dc (half shell) in last st | 37
flat | - | ch 34, dc in 6th ch from hook (skipped 5 chs count as dc, ch 1 and a skipped ch), *ch 1, sk 1 ch, dc in next ch; rep from * across | 16
flat | 28 dc | ch 2 (counts as dc now and throughout), dc in each of next 27 sts // ch 2, dc in next 27 sts // ch 2, dc in next 27 sts | 28
flat | 28 dc | ch 2 (counts as dc throughout), dc in each of next 27 sts // ch 2, dc in next 28 sts | row-uneven
flat | 20 dc | ch 3 (does not count as st throughout), dc in each st across // ch 3, dc in each st across | 20
spiral | - | RND 1) 8 SC IN MAGIC LOOP (8) // RND 2) 2 SC IN EACH SC (16) // RND 3-5) SC EVENLY AROUND (16) | 16
spiral | - | R1 ¦ 6sc in mr ¦ (6) // R2 ¦ 6inc ¦ (12) // R3-R5 ¦ 12sc ¦ (12) | 12
spiral | 20 sc | sc 8, 4-dc bobble in next st, sc in last 11 sc (20) | 20
spiral | 24 sc | 2 inc, 20 sc, 2 inc // 4 dec, 20 sc | 24
joined | - | With size 5 mm hook and main colour, chain 4 and slip stitch into first chain to make a ring. // Chain 3 (this counts as your first double crochet), work 11 double crochet into the ring, slip stitch into the top of the chain 3. You should have 12 double crochet. | 12
joined | 12 dc | Chain 3, dc in the same stitch, then work 2 dc in every stitch round. Join with a slip stitch. 24 dc. | 24
joined | 12 dc | Chain 3, dc in the same stitch, 2 dc in every stitch round. Join. You should have 25 dc. | count-stated
joined | - | Ch 60, join to form a circle // Ch 2 (does not count), hdc in each ch around, sl st in top of first hdc to join. | 60
flat | - | Using A, ch 25. // sc in second chain from hook and in each chain across (24 sts), turn. | 24
flat | 31 dc | Ch 3, turn. Skip the first dc. *FPdc around next dc, dc in next dc*, repeat between *s to end. | 31
flat | 31 dc | ch 1, sc in first dc, *ch 5, sk 2, sc in next; rep from * across // ch 6 (counts as dc, ch 3), sc in first ch-5 sp, *ch 5, sc in next ch-5 sp; rep from * across, ch 3, dc in last sc // ch 1, sc in first dc, *ch 5, sc in next ch-5 sp; rep from * across, ch 5, sc in 3rd ch of ch-6 | 11
flat | 18 hdc | Ch 2, turn. Hdc in 3rd loop of each st across. | 18
flat | 18 hdc | Fold in half and sl st through both layers across to join the short ends. | 9
flat | - | Foundation row: 41 fsc. // Row 1: ch 1, sc across | 41
flat | - | Row 1: 30 foundation single crochet. Turn. // Ch 1. Dec at beginning and end of row. // Work 3 rows in sc. | 28
flat | 27 sc | sc2tog, work to last 2 sts, sc2tog, ch 1, turn // work across first 20 sts, leave rem sts unworked | 20
spiral | - | Foot: // Rnd 1: ch 7, 2 sc in 2nd ch from hook, sc in next 4 ch, 4 sc in last ch, turn to work on the other side of the chain, sc in next 4 ch, 2 sc in last ch | 16
spiral | 24 sc | sc 3, ch 4, sk 4, sc 17 // sc in each st and ch around // Join yarn at thumb opening, sc in each of the 4 skipped sts and 6 sc evenly around the other side. (10) | 10
"""

MIDWAY = """
joined | 32 sc | ch 1, *sc in next 4 sts, ch 3; rep from * around, join // join Red in sp midway between any 2 ch-3 sps, ch 11 (counts as dc and ch 8), dc midway between next 2 ch-3 sps, *ch 8, dc midway between next 2 ch-3 sps; rep from * 5 more times, ch 8, join to 3rd ch of beg ch-11 | 8
joined | 32 sc | ch 1, *sc in next 4 sts, ch 3; rep from * around, join // join Red in sp midway between any 2 ch-3 sps, ch 11 (counts as dc and ch 8), *dc midway between next 2 ch-3 sps, ch 8; rep from * 5 more times, join to 3rd ch of beg ch-11 | row-uneven
joined | 32 sc | ch 1, *sc in next 3 sts, ch 2, sk 1 st; rep from * around, join // join B in sp halfway between any 2 ch-2 sps, ch 3 (counts as dc), dc in same sp, *ch 3, 2 dc halfway between next two ch-2 sps; rep from * around, ch 3, join | 16
flat | 32 sc | ch 1, *sc in next 4 sts, ch 3; rep from * to last 4 sts, sc in last 4 sts, turn // ch 1, sc in first st, *ch 5, 2 dc midway between next 2 ch-3 sps; rep from * across, ending with ch 5, sc in last st | 14
joined | 12 dc | ch 1, *sc midway between next 2 ch-3 sps; rep from * around | row-no-such-place
"""

NUMBERED = """
flat | 20 tr | sl st to 4th tr, ch 4 (counts as tr), tr in each tr to last 3 sts, leave rem sts unworked | 14
flat | 20 tr | sl st over to the 4th st, ch 1, sc in same st, sc in each st to last 3 sts, leave rem sts unworked | 14
flat | 20 tr | sl st to 4th tr, ch 4 (counts as tr), tr in each of next 17 tr | row-uneven
flat | 20 sc | join yarn in 5th st, ch 1, sc in same st, sc in each st to last 4 sts, leave rem sts unworked | 12
flat | 20 sc | sl st to 24th st, ch 1, sc in each st across | row-uneven
flat | 20 sc | sl st to 4th st from marker, ch 1, sc in each st across | row-not-understood
"""


def rows(table: str) -> list[list[str]]:
    """The lines of a table, as their parts."""
    lines = (line for line in table.split("\n") if line)
    return [[part.strip() for part in line.split(" | ")] for line in lines]


@pytest.mark.parametrize(
    "line",
    rows(
        STARS
        + EACH
        + LABELS
        + ASIDES
        + PLACES
        + SHAPING
        + HEADS
        + SIDES
        + READINGS
        + MARKERS
        + SHORT_ROWS
        + MORE
        + MIDWAY
        + NUMBERED
    ),
    ids=" | ".join,
)
def test_a_usual_wording_is_counted(line: list[str]) -> None:
    """The row leaves the stitches that an experienced crocheter counts, or has its one message."""
    worked, below, row, expected = line
    counted = count(
        row.replace(" // ", "\n").replace("¦", "|"),
        worked=WORKED[worked],
        start=None if below == "-" else below,
        stitches=tuple(one for one in (V, SHELL) if one.partition(" =")[0] in row),
    )
    assert counted.value is not None
    asked = {"row-turning-chain", "row-second-side"}
    codes = [one.code for one in counted.problems if one.code not in asked]
    counts = [str(one.sts[0]) for one in counted.value.rows if one.sts[0] is not None]
    found = codes or counts[-1:]
    assert [expected] == found
