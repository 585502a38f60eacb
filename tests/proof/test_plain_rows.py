"""Every kind of plain step: where the row comes out the quick count takes it, as the walk does."""

from __future__ import annotations

import pytest

from tests.proof.test_stretch import DC, ONE_SIZE, fabric, plain
from workeven.proof.fabric import Fabric, Run, stitch
from workeven.proof.plain import count_plainly
from workeven.proof.row import work

FLAT = [
    "ch 1, sc in each st across",
    "ch 1, sc in next st, sc2tog over next 2 sts, sc in each st across",
    "ch 1, *sc in next st, sc2tog over next 2 sts; rep from * across",
    "ch 3, *dc2tog in next st, dc in next st; rep from * across",
    "ch 3, dc in each st to last 2 sts, dc2tog over last 2 sts",
    "ch 3, dc in each st to last st, dc2tog in last st",
    "ch 1, *sc in next 2 sts, sk 1 st; rep from * across, sc2tog, sc in last 2 sts",
    "ch 1, *sc in next 2 sts, sk 1 st; rep from * across, 3 sc, sc2tog",
    "ch 1, *sc 2, inc; rep from * across, sk 1 st, sc in last st",
    "ch 1, *sc 2, dec; rep from * to last 3 sts, sc in last 3 sts",
    "ch 1, [sc 2, inc] twice, sc in each st across",
    "ch 1, sc 1, *sc 2, inc; rep from * 2 more times, sc in each st across",
    "ch 3, sk first st, dc in each st across",
    "ch 1, sk first 2 sts, sc in each st across",
    "ch 1, sc in first 3 sts, sc in each st across",
    "ch 3, dc in first st, dc in each st across",
    "ch 3, 2 dc in first st, dc in each st to last st, 3 dc in last st",
    "ch 1, sc in same st, sc in each st across",
    "ch 1, 2 sc in same st, *sc 2, sk 1; rep from * across",
    "ch 3, dc in same st, dc in each st across",
    "ch 1, sc in next 2 sts, ch 3 (counts as 3 sts), sk 2 sts, sc in each st across",
    "ch 1, 2 sc in each of next 3 sts, sc in each st across",
    "ch 1, 6 sc in next 6 sts, sc in each st across",
    "ch 4, tr in each st across",
    "ch 1, (sc, ch 1, sc) in next st, sc in each st across",
    "ch 3, *sk 1 st, (dc, ch 1, dc) in next st; rep from * across",
    "ch 1, sc3tog, sc in each st across",
    "ch 1, sc3tog across",
    "ch 1, *[sc 1, inc] twice, sc 1; rep from * across",
    "ch 1, sc in each st to last 5 sts, leave rem sts unworked",
    "ch 1, sc across, turn",
    "ch 1, sc in next 3 sts, place marker, sc in each st to last st, pm, sc in last st",
    "ch 3, dc in next st, pm, 2 dc in next st, place marker, dc in each st across, fasten off",
    "ch 1, *sc 1, inc; rep from * 2 more times, pm, sc in each st across, place marker",
    "ch 3, pm, dc in each st to last 3 sts, ch 2, sk 1 st, dc in last 2 sts, pm",
    "ch 1, sc in each st across, fasten off",
    "ch 4 (counts as dc and ch 1), *sk 1, dc 1, ch 1; rep from * to last 2 sts, sk 1, dc 1",
]
ROUNDS = [
    "ch 1, sc in same st as joining, sc in each st around, join with sl st to first sc",
    "ch 3, dc around, join with sl st to top of beg ch-3",
    "ch 3, dc in same st, 2 dc in each st around, join",
    "ch 1, [sc 2, sc2tog] around, join",
    "ch 1, *sc 3, inc; rep from * around, join with sl st in first sc, turn",
    "ch 1, 2 sc in first st, sc in each st around, join",
    "ch 3, dc in next 2 sts, pm, dc in each st around, join with sl st to top of beg ch-3, turn",
    "ch 1, sc in next 2 sts, pm, sc2tog, pm, sc in each st around, join",
]


def differences(row: str, below: Fabric, how: str) -> str:
    """What the quick count gives otherwise than the walk, or nothing."""
    line = plain(row)
    assert line.plan is not None
    quick = count_plainly(line.plan, line.facts, below, ONE_SIZE, how)
    walked = work(line.facts, below, ONE_SIZE, worked=how)
    if walked.fault is not None:
        return "" if quick is None else f"{below.sts} sts do not come out"
    return "" if quick == walked else f"{below.sts} sts: {quick} and {walked}"


@pytest.mark.parametrize("row", FLAT)
def test_a_flat_row_is_taken_wherever_it_comes_out(row: str) -> None:
    """Over a few stitches and over many, with a turning chain among them and without."""
    found = [differences(row, fabric(sts), "flat rows") for sts in range(1, 31)]
    found += [
        differences(row, Fabric((Run(stitch("sc", "sc"), sts),), turned=True), "flat rows")
        for sts in range(1, 31)
    ]
    assert "\n".join(filter(None, found)) == ""


@pytest.mark.parametrize("row", ROUNDS)
@pytest.mark.parametrize("how", ["joined rounds", "joined rounds, turned"])
def test_a_round_is_taken_wherever_it_comes_out(row: str, how: str) -> None:
    """Joined, and joined and turned."""
    turned = how.endswith("turned")
    found = [
        differences(row, Fabric((Run(DC, sts),), closed=True, join_last=turned, turned=turned), how)
        for sts in range(3, 40)
    ]
    assert "\n".join(filter(None, found)) == ""
