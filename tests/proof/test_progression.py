"""Rows of shaping worked again in turn: summed, they come to what they come to one by one."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workeven.notation.parser import parse_row
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span
from workeven.proof import again
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Fabric, Run, stitch
from workeven.proof.line import Line, Lined
from workeven.proof.piece import count_piece
from workeven.proof.progression import Cycle, Progressed, last_cycle
from workeven.proof.proven import RowInSize
from workeven.proof.standing import Standing

Told = tuple[str, str]
PLACE = Span(file="rows", line=1, column=1, end_line=1, end_column=1)

#: rows, how they are worked, how many of their stitches are taken off or added each time
SHAPED = {
    "a stitch less": ("flat rows", "ch 1, sc2tog, sc in each st across"),
    "two less in every other row": (
        "flat rows",
        "ch 3, dc2tog, dc in each st to last 2 sts, dc2tog, turn\nch 3, dc in each st across, turn",
    ),
    "a stitch more": ("flat rows", "ch 1, 2 sc in first st, sc in each st across"),
    "two more, in three rows": (
        "joined rounds",
        (
            "ch 1, inc, sc in each st to last st, inc, join\nch 1, sc in each st around, join\n"
            "ch 3, dc in each st around, join"
        ),
    ),
    "in a repeat": (
        "spiral rounds",
        "sc2tog twice, *sc 1, ch 1, sk 1; rep from * around\nsc around",
    ),
    "rows that stay": ("flat rows", "ch 1, sc in each st across"),
}


def counted(name: str, start: int, times: int) -> list[tuple[RowInSize | None, list[Told]]]:
    """The rows, and then all of them so many times more: what each line is, and what is told."""
    worked, rows = SHAPED[name]
    text = f"{rows}\nrep last {len(rows.splitlines())} rows {times} more times"
    lines = [
        Lined(row=row, worked=worked, row_heights=(Fraction(5),), sizes=None, section=0)
        for row in (parse_row(one, PLACE, Vocabulary()).value for one in text.splitlines())
        if row is not None
    ]
    below = Fabric((Run(stitch("sc", "sc"), start),), closed=worked != "flat rows", turned=True)
    counted_lines = count_piece(lines, (SizeContext(index=0, sizes=1),), ("",), (below,))
    return [
        (line.per_size[0], [(told.fault.code, told.fault.detail) for told in line.faults])
        for line in counted_lines
    ]


@pytest.mark.parametrize("name", SHAPED)
@given(start=st.integers(2, 60), times=st.integers(1, 40))
def test_many_cycles_come_to_what_they_come_to_one_by_one(
    name: str, start: int, times: int
) -> None:
    """The counts after the last, all that is worked, and what is told where they run out."""
    summed = counted(name, start, times)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(again, "last_cycle", lambda *_: None)
        assert counted(name, start, times) == summed


def test_long_shaping_is_summed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Else all of the above compares the rows with themselves."""
    found: list[bool] = []

    def watched(
        standing: Standing, lines: tuple[Line, ...], how: str, one: Cycle, two: Cycle, more: int
    ) -> Progressed | None:
        last = last_cycle(standing, lines, how, one, two, more)
        found.append(last is not None)
        return last

    monkeypatch.setattr(again, "last_cycle", watched)
    counted("two less in every other row", 60, 9)
    assert [True] == found
