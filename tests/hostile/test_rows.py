"""Rows that no maker would write: a located message, never a traceback."""

from __future__ import annotations

import random

import pytest

from workeven.notation.offers import PHRASES
from workeven.problems import Severity
from workeven.problems.catalogue import severity
from workeven.proof.counting import count

DEEP = "row-not-understood"
#: what is wrong, and how it is told
BAD = {
    "a bracket is opened and not closed": ("[sc 2, inc", "row-not-understood"),
    "a bracket is closed and not opened": ("sc 2, inc] 6 times", "row-not-understood"),
    "repeats stand in each other too deep": (
        "[" * 40 + "sc" + "] twice" * 40,
        "row-not-understood",
    ),
    "an open repeat within an open repeat": ("*sc, *dc; rep from * across", "row-not-understood"),
    "a repeat takes nothing": ("*ch 3; rep from * across", "row-takes-nothing"),
    "more stitches than there are": ("sc in next 9999 sts", "row-uneven"),
    "a number beyond any piece": ("sc in next 99999999 sts", "row-too-many"),
    "shaping without end": (
        "dec 1 st at each end every 7th row 999999 times",
        "row-too-many",
    ),
    "the last of fewer stitches": ("sc in each st to last 30 sts", "row-uneven"),
    "it repeats itself": ("Row 2: rep Row 2", "row-no-such-row"),
    "it repeats a later row": ("rep Row 9", "row-no-such-row"),
    "a range runs backwards": ("Rows 3-4: rep Rows 2-1", "row-no-such-row"),
    "an empty bracket": ("sc in next st, [] in next st", "row-not-understood"),
    "empty brackets and each": ("sc in first st and[] in each st across", "row-not-understood"),
    "none together": ("sc0tog across", "row-not-understood"),
    "a place of a list is empty": ("rep Row 1 5 (5, 6) (, 8) more times", "size-list"),
    "a ring that is worked into without end": (
        "ch 4, join to form ring, ch 3, dc in ring, *3 dc in ring; rep from * 999999 times, join",
        "row-too-many",
    ),
    "ten thousand letters": ("sc in next st, " * 1000, "row-too-long"),
}


@pytest.mark.parametrize("what", BAD)
def test_a_bad_row_is_told_with_its_place(what: str) -> None:
    """One message, in its line, and the next row is counted all the same."""
    row, code = BAD[what]
    rows = f"Row 1: ch 1, sc in each st across, turn\n{row}"
    counted = count(rows, file="rows.txt", start="20 sc")
    errors = [one for one in counted.problems if severity(one.code) is Severity.ERROR]
    assert [(code, 2)] == [(one.code, one.span.line) for one in errors]
    assert errors[0].found


@pytest.mark.parametrize("seed", range(20))
def test_words_thrown_together_raise_nothing(seed: int) -> None:
    """Whatever they come to, it is a count or a problem."""
    chance = random.Random(seed)  # noqa: S311, no secret
    words = sorted({word for phrase in PHRASES for word in phrase.split()})
    for _ in range(25):
        lines = [
            " ".join(chance.choice(words) for _ in range(chance.randint(1, 14))),
            ", ".join(chance.choice(PHRASES) for _ in range(chance.randint(1, 4))),
        ]
        how = chance.choice(["flat rows", "joined rounds", "spiral rounds"])
        start = chance.choice([None, "12 sc", "18 dc, 18 ch-2 sps"])
        counted = count("\n".join(lines), file="-", worked=how, start=start)
        assert counted.value is not None
        assert len(counted.value.rows) == len(lines)


def test_a_group_of_a_million_stitches_is_not_looked_through() -> None:
    """A million stitches in one place are a slip; no place in their middle is marked."""
    rows = "ch 1, {number} dc in each of next 9 sts\nch 1, sc in center dc of each shell"
    shell = "shell = {number} dc in same st"

    def codes(number: int) -> list[str]:
        text = rows.replace("{number} dc in each of next 9 sts", "shell in each st across")
        stitches = (shell.format(number=number),)
        return [one.code for one in count(text, start="9 sc", stitches=stitches).problems]

    assert [] == codes(999)
    assert ["row-no-such-place"] == codes(999_999)


def test_a_stitch_told_on_several_lines_is_told_of_on_one() -> None:
    """The first line of a message stands alone."""
    told = count(
        "ch 21", stitches=("rows = ch 21\n  sc in 2nd ch from hook and in each ch",)
    ).problems
    assert told
    assert all("\n" not in one.found for one in told)
