"""Stitch charts of the published pieces: as many symbols in each row as were counted by hand."""

from __future__ import annotations

import re
from collections import Counter
from typing import Any, Final

import pytest

from tests.published.test_published import OPEN, PIECES
from tests.support.placed_rows import Told, lined, told
from workeven.notation.vocabulary import US_TO_UK, Terms, in_terms
from workeven.proof import StitchChart
from workeven.proof.context import SizeContext
from workeven.proof.line import Lined
from workeven.proof.stitch_chart import chart_of as chart_of_lines

#: pieces that begin at their beginning, in one size
WHOLE: Final = {
    name: piece
    for name, piece in PIECES.items()
    if piece["from"] is None and not piece["sizes"] and name not in OPEN
}


def written(piece: dict[str, Any]) -> tuple[list[Lined], tuple[SizeContext, ...]]:
    """Its lines, up to the first rows that its source leaves out."""
    rows = piece["rows"]
    end = next((at for at, row in enumerate(rows) if "start" in row), len(rows))
    return lined(
        "\n".join(row["text"] for row in rows[:end]),
        worked=piece["worked"],
        terms=piece["terms"],
        stitches=tuple(piece["stitches"]),
    )


def drawn(piece: dict[str, Any]) -> list[Told]:
    """Its rows that a chart can show."""
    return list(told(*written(piece)))


def by_hand(row: dict[str, Any], terms: Terms) -> dict[str, int]:
    """What a row makes, by the hand count, in US terms; a picot is no place."""
    names = [name + together for name in US_TO_UK for together in ("", "2tog", "3tog")]
    us = {in_terms(name, "uk"): name for name in names} if terms == "uk" else {}
    return {us.get(kind, kind): number for kind, number in row["makes"].items() if kind != "picot"}


def compared(piece: dict[str, Any]) -> list[tuple[int, dict[str, int], dict[str, int]]]:
    """Of each row: the places that its symbols leave, by kind, and those that were counted.

    Of a line that stands for several rows the key has what is there after the last; rows that go on
    evenly are all as that.
    """
    found = []
    for row in drawn(piece):
        key = piece["rows"][row.line - 1]
        even = len(row.placed.leaves) == len(row.placed.below)
        is_last = row.rows_behind == 0 or (even and row.before is None)
        if key["makes"] and not key.get("times") and is_last:
            left = dict(Counter(row.placed.leaves))
            found.append((row.line, left, by_hand(key, piece["terms"])))
    return found


@pytest.mark.parametrize("name", WHOLE)
def test_symbols_are_as_many_as_were_counted_by_hand(name: str) -> None:
    """Each leaves the places that the key of the piece has, kind by kind."""
    assert [one for one in compared(WHOLE[name]) if one[1] != one[2]] == []


def test_many_rows_are_compared() -> None:
    """Rows of some forty pieces, and none of them is passed over for want of a symbol alone."""
    assert sum(len(compared(piece)) for piece in WHOLE.values()) > 200


# --- against what the sources print --------------------------------------------------------


def chart_of(piece: dict[str, Any]) -> StitchChart | None:
    """The chart of a piece in rounds from its middle."""
    lines, contexts = written(piece)
    return chart_of_lines(lines, contexts[0], piece["worked"], None, ("",))


def printed(piece: dict[str, Any]) -> dict[int, int]:
    """The counts that the source prints, by the round that they stand at."""
    labels = [(re.match(r"(?:Rnd|Row) (\d+):", row["text"]), row) for row in piece["rows"]]
    return {
        int(label[1]): row["stated"]
        for label, row in labels
        if label and isinstance(row["stated"], int) and "stated_unit" not in row
    }


def test_rounds_have_as_many_stitches_as_their_source_prints() -> None:
    """Chains that count among them: what leaves a place and is no space."""
    told = []
    for name, piece in WHOLE.items():
        chart = None if piece["worked"] == "flat rows" else chart_of(piece)
        for row in () if chart is None else chart.rows:
            stated = printed(piece).get(row.number)
            spaces = sum(one.what == "space" for one in row.placed.stitches)
            if stated is not None:
                told.append((name, row.number, len(row.placed.leaves) - spaces, stated))
    assert len(told) > 10
    assert [one for one in told if one[2] != one[3]] == []


@pytest.mark.parametrize(
    ("name", "rounds"),
    [("sc289-persian-motif", 6), ("sb82-granny", 6), ("sc173-wheel", 4), ("uk-riego-rose", 4)],
)
def test_motifs_have_charts(name: str, rounds: int) -> None:
    """Squares with new yarn in every round among them."""
    chart = chart_of(PIECES[name])
    assert chart is not None
    assert len(chart.rows) == rounds


def test_a_granny_stands_in_its_gaps() -> None:
    """By hand: round 2 has four corners of 7 places; each later one a group of 3 more a side."""
    chart = chart_of(PIECES["sb82-granny"])
    assert chart is not None
    for groups, row in enumerate(chart.rows[2:5], 1):
        side = 7 + 3 * (groups - 1)
        gaps = [
            (side * corner + 6 + 3 * gap, (side * corner + 7 + 3 * gap) % (4 * side))
            for corner in range(4)
            for gap in range(groups)
        ]
        between = [one.feet for one in row.placed.stitches if one.between]
        assert between == [gap for gap in gaps for _ in range(3)]
