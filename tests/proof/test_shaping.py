"""Shaping that is sure to lead elsewhere, told without working its rows."""

from __future__ import annotations

import pytest

from workeven.notation.parser import parse_row
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span
from workeven.proof import counting
from workeven.proof.context import SizeContext
from workeven.proof.fabric import Fabric, Run, stitch
from workeven.proof.in_size import in_size
from workeven.proof.line import Lined
from workeven.proof.piece import looked_through
from workeven.proof.shaping import leads_elsewhere
from workeven.proof.standing import Standing

NOWHERE = Span(file="", line=1, column=1, end_line=1, end_column=1)


def told(words: str, sts: int) -> tuple[bool, bool]:
    """Whether a shaping over so many sc is said to lead elsewhere, and whether it comes out."""
    row = parse_row(words, NOWHERE, Vocabulary("us", (), ())).value
    assert row is not None
    lined = Lined(row=row, worked="flat rows", row_heights=(None,), sizes=None, section=0)
    (line,) = looked_through([lined], ("",), {})
    fabric = Fabric((Run(stitch("sc", "sc"), sts),))
    standing = Standing(SizeContext(index=0, sizes=1), fabric, 1, {})
    standing.come_to("flat rows")
    said = leads_elsewhere(line, standing)
    return said, not in_size(line, standing).faults


@pytest.mark.parametrize(
    "words",
    [
        "dec 1 st at each end every 2nd row 4 times (22 sts)",
        "dec 2 sts at each end every 4th row 2 times (22 sts)",
        "inc 1 st at each end every 2nd row 2 times, then every 4th row 3 times (40 sts)",
        "inc 1 st at beg of every 2nd row 4 times (34 sts)",
        "dec 3 sts evenly spaced every 2nd row 2 times (24 sts)",
        "dec 1 st at each end every 2nd row 4 times, then work even for 3 rows (22 sts)",
    ],
)
@pytest.mark.parametrize("sts", [22, 28, 29, 30, 31, 32, 38])
def test_what_is_said_to_lead_elsewhere_does_not_come_out(words: str, sts: int) -> None:
    """Each is right over 30 stitches alone."""
    assert (sts != 30, sts == 30) == told(words, sts)


@pytest.mark.parametrize(
    "words",
    [
        "dec 1 st at each end every 2nd row 4 times",
        "dec 1 st at each end every 2nd row until 22 sts rem (22 sts)",
        "dec 1 st at each end of next and every foll 2nd row 4 times (22 sts)",
        "dec 1 st at each end every 2nd row 0 times (30 sts)",
    ],
)
@pytest.mark.parametrize("sts", [28, 30, 32])
def test_nothing_is_said_of_a_shaping_that_leaves_more_open(words: str, sts: int) -> None:
    """Without a stated count, up to a count, or where “next and every” may be one time more."""
    said, _ = told(words, sts)
    assert not said


def test_a_size_may_work_none_of_a_shaping() -> None:
    """Its next row is worked into what was there before."""
    rows = (
        "ch 31\n"
        "sc in 2nd ch from hook and in each ch across, turn (30 sc)\n"
        "dec 1 st at each end every 2nd row 1 (0) times (28 (30) sts)\n"
        "ch 1, sc in each st across, turn (28 (30) sc)"
    )
    counted = counting.count(rows, sizes=("S", "M"))
    assert counted.value is not None
    last = counted.value.rows[-1]
    assert ((28, 30), ()) == (last.sts, counted.problems)
