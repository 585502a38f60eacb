"""Stitches of a chart that stand rows below, against pieces worked out by hand.

That a spike goes straight down, and a post stitch stands in front of what is skipped behind it, is
common practice; what a row names is notation.md, "Below and before".
"""

from __future__ import annotations

from collections import Counter

import pytest

from tests.support.placed_rows import lined, told
from workeven.proof import StitchChart
from workeven.proof.stitch_chart import chart_of as chart_of_lines
from workeven.publish.drawings import stitch_charts
from workeven.publish.drawings.stitch_places import in_rounds, in_rows

BY_SPIKES = """\
ch 22
Row 1: sc in 2nd ch from hook and in each ch across, turn
Row 2: ch 1, sc in each st across, turn
Row 3: ch 1, sc in first 2 sts, *spike sc in next st 2 rows below, sc in next 3 sts; rep from * to \
last 3 sts, spike sc in next st 2 rows below, sc in last 2 sts, turn
Row 4: ch 1, sc in each st across, turn
Row 5: ch 1, sc in first 4 sts, *spike sc in next st 3 rows below, sc in next 3 sts; rep from * to \
last st, sc in last st, turn"""
BY_POSTS = """\
ch 23
Row 1: dc in 4th ch from hook (skipped 3 chs count as dc), dc in each ch across, turn
Row 2: ch 1, sc in each st across, turn
Row 3: ch 1, sc in first 2 sts, *fpdc around next dc 2 rows below, sk next sc, sc in next 2 sts; \
rep from * to last st, sc in last st, turn"""
IN_ROUNDS = """\
magic ring, ch 3 (counts as dc), 11 dc in ring, join with sl st to top of beg ch-3
ch 1, 2 sc in each st around, join with sl st to first sc
ch 1, *sc in next 3 sts, spike sc in next st 2 rows below; rep from * around, join with sl st to \
first sc
ch 1, sc in each st around, join with sl st to first sc
ch 1, *sc in next 3 sts, fptr around next spike 2 rows below, sk next sc; rep from * around, join \
with sl st to first sc"""


def charted(text: str, worked: str, multiple: tuple[int, int] | None) -> StitchChart | None:
    """The chart of these rows."""
    lines, contexts = lined(text, worked=worked, terms="us")
    return chart_of_lines(lines, contexts[0], worked, multiple, ("",))


def anchors(chart: StitchChart | None, row: int) -> list[tuple[str, tuple[int, ...], int | None]]:
    """The stitches of a row that stand rows below: what they cover, and where they stand."""
    assert chart is not None
    return [
        (one.name, one.feet, one.anchor)
        for one in chart.rows[row].placed.stitches
        if one.reach is not None
    ]


def test_a_spike_goes_straight_down() -> None:
    """Over 13 sc; row 2 met the stitches of row 1 from the other end, row 1 those of the chain.

    Two rows below row 3 is row 1, which row 2 met from its end: place 2 there is place 10. Three
    rows below row 5 is row 2, which row 3 met as row 5 meets row 4.
    """
    chart = charted(BY_SPIKES, "flat rows", (4, 2))
    assert anchors(chart, 2) == [("spike", (2,), 10), ("spike", (6,), 6), ("spike", (10,), 2)]
    assert anchors(chart, 4) == [("spike", (4,), 4), ("spike", (8,), 8)]


def test_a_post_stitch_stands_in_front_of_what_is_skipped() -> None:
    """It covers the third stitch of 12, and stands around the dc below that."""
    chart = charted(BY_POSTS, "flat rows", (3, 2))
    assert anchors(chart, 2) == [("fpdc", (2,), 9), ("fpdc", (5,), 6), ("fpdc", (8,), 3)]


def test_stitches_of_an_increase_lead_to_the_place_that_they_share() -> None:
    """Of 24 sc the fourth is the second of two over the second of 12 dc; spikes are met in turn."""
    chart = charted(IN_ROUNDS, "joined rounds", None)
    places = range(3, 24, 4)
    assert anchors(chart, 2) == [("spike", (at,), at // 2) for at in places]
    assert anchors(chart, 4) == [("fptr", (at,), at) for at in places]


def test_a_stitch_that_leans_is_told_where_each_is_worked_once() -> None:
    """Four posts stand there and four are asked for: the first covers the place beside its own."""
    text = """\
magic ring, 12 sc in ring, join with sl st to first sc
ch 1, *sc in next 2 sts, fpdc around next st; rep from * around, join with sl st to first sc
ch 1, sc in each st around, join with sl st to first sc
ch 1, *sc in next st, fpdc around next fpdc 2 rows below, sk next sc, sc in next st; rep from * \
around, join with sl st to first sc"""
    chart = charted(text, "joined rounds", None)
    expected = [("fpdc", (at,), at + 1) for at in (1, 4, 7, 10)]
    assert anchors(chart, 3) == expected


@pytest.mark.parametrize(
    "row",
    [
        # it may be the row that is worked into
        "*sc in next 3 sts, spike sc in next st in row below",
        # of three places at hand, which do they cover?
        "*sc in next 2 sts, 2 fpdc around next sc 2 rows below, sk next sc, sc in next st",
        # a dc is straight below, and the next sc is two places farther, or two back
        "*sc in next 2 sts, fpdc around next sc 2 rows below, sk next sc, sc in next st",
        # which of the row at hand is covered is not said
        "*sk 1, spike sc in next st 2 rows below, sc in next 2 sts",
    ],
)
def test_what_cannot_be_told_is_not_drawn(row: str) -> None:
    """The chart ends before that round, or there is none as the round does not come out."""
    chart = charted(
        "magic ring, 6 sc in ring, join with sl st to first sc\n"
        "ch 1, *sc in next st, 3 dc in next st; rep from * around, join with sl st to first sc\n"
        "ch 1, sc in each st around, join with sl st to first sc\n"
        f"ch 1, {row}; rep from * around, join with sl st to first sc",
        "joined rounds",
        None,
    )
    assert chart is None or len(chart.rows) == 3


def test_a_round_upon_an_earlier_one_is_not_drawn_upon_the_last() -> None:
    """All its stitches stand around round 1, and round 2 has as many of the same name."""
    chart = charted(
        "magic ring, 12 sc in ring, join with sl st to first sc\n"
        "Rnd 2: ch 1, sc in each st around, join with sl st to first sc\n"
        "Rnd 3: ch 1, *bpsc around next sc 2 rnds below, ch 4; rep from * around, join",
        "joined rounds",
        None,
    )
    assert chart is not None
    assert len(chart.rows) == 2


@pytest.mark.parametrize(
    ("text", "worked"),
    [(BY_SPIKES, "flat rows"), (BY_POSTS, "flat rows"), (IN_ROUNDS, "joined rounds")],
)
def test_a_row_has_as_many_as_the_proof_counts(text: str, worked: str) -> None:
    """Whole rows, as long as they are written: kind by kind, each over a place of its own."""
    rows = [
        row
        for row in told(*lined(text, worked=worked, terms="us"))
        if any(one.reach is not None for one in row.placed.stitches)
    ]
    assert rows
    for row in rows:
        drawn = Counter(one.name for one in row.placed.stitches if one.top is not None)
        assert dict(drawn) == row.makes
        covered = [foot for one in row.placed.stitches for foot in one.feet if one.top is not None]
        assert covered == list(range(len(row.placed.below)))


def test_the_foot_of_a_drawing_is_the_head_of_what_it_stands_in() -> None:
    """In rows over two rows and three, around over two rounds."""
    flat = charted(BY_SPIKES, "flat rows", (4, 2))
    around = charted(IN_ROUNDS, "joined rounds", None)
    assert flat is not None
    assert around is not None
    for laid, row, below in ((in_rows(flat)[1], 2, 0), (in_rows(flat)[1], 4, 1)):
        heads = {spot.head for spot in laid[below].spots if spot.placed.top is not None}
        feet = [spot.feet[0] for spot in laid[row].spots if spot.placed.reach is not None]
        assert set(feet) <= heads
        above = [spot.head[0] for spot in laid[row].spots if spot.placed.reach is not None]
        assert [foot[0] for foot in feet] == above
    rounds = in_rounds(around)
    heads = {spot.head for spot in rounds[0].spots if spot.placed.top is not None}
    assert {s.feet[0] for s in rounds[2].spots if s.placed.reach is not None} <= heads


def test_a_key_tells_what_stands_rows_below_apart() -> None:
    """A dc of each sort: two lines of the key, with two symbols."""
    text = BY_SPIKES.replace("spike sc in", "dc in").replace(
        "sc in first 4 sts", "dc in next 4 sts"
    )
    chart = charted(text, "flat rows", (4, 2))
    assert chart is not None
    dc = [one for one in stitch_charts.symbols_in(chart) if one.name == "dc"]
    assert [one.reach is None for one in dc] in ([True, False], [False, True])
    assert len({stitch_charts.symbol(one) for one in dc}) == 2
