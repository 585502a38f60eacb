"""A plain row that is stretched from one size to others gives what it gives when it is walked."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workeven.notation.parser import parse_row
from workeven.notation.tree import WorkedRow
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Fabric, Run, counted_chain, stitch
from workeven.proof.line import Line, line_of
from workeven.proof.plain import count_plainly
from workeven.proof.row import work

PLACE = Span(file="rows", line=1, column=1, end_line=1, end_column=1)
ONE_SIZE = SizeContext(index=0, sizes=1)
DC = stitch("dc", "dc")

ROWS = {
    "each": "ch 3, dc in each st across, turn",
    "to the last": "ch 3, dc2tog, dc in each st to last 2 sts, dc2tog, turn",
    "two in each": "ch 1, 2 sc in each st across",
    "decreases": "ch 1, sc2tog across",
    "increases": "ch 3, inc in each st to last st, dc in last st",
    "beside others": "ch 1, sc in next 3 sts, sc in each st across",
    "a repeat": "ch 1, *sc 3, sc2tog; rep from * across, sc in last st",
    "of one stitch": "ch 1, *sc in next st, sc 2; rep from * across",
    "to a limit": "ch 3, dc in next 3 sts, *sk 3 sts, 4 dc in next st; rep from * to last 4 sts, "
    "dc in each st across",
    "with spaces": "ch 3, *ch 1, sk 1 st, dc in next st; rep from * across",
    "left unworked": "ch 1, sc in each st to last 5 sts, leave rem sts unworked, turn",
    "into the first": "ch 3, 2 dc in first st, dc in each st across",
    "fixed": "ch 1, [sc 3, sc2tog] 4 times",
}


def plain(text: str) -> Line:
    """A row that has a plan."""
    row = parse_row(text, PLACE, Vocabulary()).value
    assert row is not None
    assert isinstance(row.body, WorkedRow)
    line = line_of(row, row.body.steps)
    assert line.plan is not None
    return line


def fabric(sts: int) -> Fabric:
    """So many dc, the last of them a turning chain."""
    chain = Run(counted_chain("dc", "dc", 3), 1)
    return Fabric((Run(DC, sts - 1), chain) if sts > 1 else (chain,), turned=True)


@pytest.mark.parametrize("name", ROWS)
@given(sizes=st.lists(st.integers(1, 70), min_size=1, max_size=9))
def test_every_size_has_what_the_walk_gives(name: str, sizes: list[int]) -> None:
    """In whatever order the sizes come, and whether a size is larger or smaller than the first."""
    line = plain(ROWS[name])
    assert line.plan is not None
    for sts in sizes:
        below = fabric(sts)
        quick = count_plainly(line.plan, line.facts, below, ONE_SIZE, "flat rows")
        walked = work(line.facts, below, ONE_SIZE, worked="flat rows")
        assert quick == (walked if quick is not None else None)
        assert (quick is None) == (walked.fault is not None)


@pytest.mark.parametrize("name", [name for name in ROWS if name != "fixed"])
def test_a_row_of_fixed_numbers_is_counted_once(name: str) -> None:
    """The other sizes are stretched from what was counted first."""
    line = plain(ROWS[name])
    assert line.plan is not None
    found = [
        sts
        for sts in range(20, 80)
        if count_plainly(line.plan, line.facts, fabric(sts), ONE_SIZE, "flat rows") is not None
    ]
    assert len(found) > 1
    assert 1 == len(line.plan.stretches)


def test_a_row_whose_numbers_differ_by_size_is_counted_in_each() -> None:
    """Nothing is remembered of it."""
    line = plain("ch 1, sc in next 3 sts, sc in each st to last {edge} sts, sc in next {edge} sts")
    assert line.plan is not None
    assert not line.plan.fixed
