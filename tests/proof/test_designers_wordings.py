"""More of what designers write (common practice, made up here); each count was worked out by hand.

Each line is how rows are worked, what is there before them, the rows (parted by " // "), and the
stitches after each, or the code of the message where a row does not come out.
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

TABLES = (LEFT,)


def cases(*tables: str) -> list[tuple[str, ...]]:
    """The lines of tables, in their four parts."""
    lines = [line for table in tables for line in table.strip().splitlines()]
    return [tuple(part.strip() for part in line.split(" | ")) for line in lines]


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
