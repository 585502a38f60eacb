"""Drawings of stitch charts: whole as XML, nothing on anything else, every symbol in the key."""

from __future__ import annotations

import gzip
import re
from itertools import combinations, pairwise
from math import atan2, dist, pi
from xml.etree import ElementTree as ET

import pytest

from tests.proof.test_stitch_chart import (
    BACK,
    GRANNY,
    JOIN,
    OVAL,
    PLAIN,
    SHELLS,
    TUBE,
    TURNED_OVAL,
    chart_of,
)
from tests.support.placed_rows import lined
from workeven.proof.own_stitches import Closed
from workeven.proof.placed import Placed
from workeven.proof.stitch_chart import chart_of as chart_of_lines
from workeven.publish.drawings import stitch_charts
from workeven.publish.drawings.ovals import in_oval
from workeven.publish.drawings.stitch_places import PICOT, UNIT, in_rounds, in_rows

ROUNDS = "magic ring, 6 sc in ring\ninc around\n[sc 1, inc] around"


def test_a_drawing_is_xml() -> None:
    """With a title, a description, and a path a row beside the starting chain."""
    chart = chart_of(SHELLS)
    assert chart is not None
    drawn = ET.fromstring(stitch_charts.drawing(chart, name="A & B", words="Words."))  # noqa: S314, our own
    assert [one.tag for one in drawn][:2] == ["title", "desc"]
    assert len(drawn.findall("path")) == 1 + len(chart.rows)


def test_no_two_heads_of_a_row_lie_on_one_another() -> None:
    """They stand at least a stitch apart, but for the rounding of floats."""
    chart = chart_of(SHELLS)
    assert chart is not None
    near = [
        (one.placed, other.placed)
        for row in in_rows(chart)[1]
        for one, other in combinations(row.spots, 2)
        if dist(one.head, other.head) < 0.8 * UNIT
    ]
    assert near == []


def test_rounds_are_read_anticlockwise() -> None:
    """Seen on a screen, where y grows downwards, the second stitch lies left of the first above."""
    chart = chart_of(ROUNDS, "spiral rounds")
    assert chart is not None
    first, second, *_ = (spot.head for spot in in_rounds(chart)[2].spots)
    assert first[0] * second[1] - first[1] * second[0] < 0


def test_an_oval_lies_around_its_chain() -> None:
    """What stands straight along its sides is the same above and below; its ends are round."""
    chart = chart_of(OVAL.replace("SIDE", BACK), "spiral rounds")
    assert chart is not None
    chain, rows = in_oval(chart)
    assert [y for _, y in chain] == [0.0] * 4
    first = [spot for spot in rows[0].spots if spot.placed.what == "stitch"]
    assert {spot.feet[0] for spot in first} == set(chain)
    above, below = first[1:3], first[6:8][::-1]
    for up, down in zip(above, below, strict=True):
        assert up.head[0] == pytest.approx(down.head[0], abs=1.0)
        assert up.head[1] == pytest.approx(-down.head[1], abs=1.0)
        assert up.head[1] < 0
    left = min(first, key=lambda spot: spot.head[0])
    assert left is first[4]
    for row in rows:
        apart = [dist(a.head, b.head) for a, b in combinations(row.spots, 2)]
        assert min(apart) > 0.7 * UNIT
        turns = [atan2(-spot.head[1], spot.head[0]) % (2 * pi) for spot in row.spots[:-1]]
        assert sum(b < a for a, b in pairwise(turns)) <= 1, "anticlockwise, once around"


def test_a_full_round_of_an_oval_stays_near_the_one_below() -> None:
    """Loops have no room along a straight side: they lean, and the round is no wider for it."""
    loops = "ch 1, sc in first st, *ch 3, sk 1 st, sc in next st; rep from * around, ch 3, join"
    first = (
        OVAL.replace("SIDE", f"{BACK}, join").replace("ch 5", "ch 13").replace("next 2", "next 10")
    )
    chart = chart_of("\n".join((*first.strip().splitlines()[:2], loops)), "joined rounds")
    assert chart is not None
    stems = [
        dist(spot.feet[0], spot.head)
        for spot in in_oval(chart)[1][1].spots
        if spot.placed.name == "sc"
    ]
    assert len(stems) == 13
    assert max(stems) < 4 * UNIT


def test_rounds_of_an_oval_run_back_behind_a_turn() -> None:
    """The first anticlockwise, the second clockwise, the third as the first."""
    chart = chart_of(TURNED_OVAL, "joined rounds, turned")
    assert chart is not None
    for way, row in zip((1, -1, 1), in_oval(chart)[1], strict=True):
        heads = [spot.head for spot in row.spots if spot.placed.what == "stitch"]
        turns = [way * atan2(-y, x) % (2 * pi) for x, y in heads]
        assert sum(b < a for a, b in pairwise(turns)) <= 1


def test_a_turned_round_of_an_oval_stands_over_the_one_below() -> None:
    """Each sc of round 2 on one of round 1, from the last of them to the first, straight up."""
    chart = chart_of(TURNED_OVAL, "joined rounds, turned")
    assert chart is not None
    first, second = (
        [spot for spot in row.spots if spot.placed.what == "stitch"]
        for row in in_oval(chart)[1][:2]
    )
    for below, above in zip(first[::-1], second, strict=True):
        assert above.feet == (below.head,)
        assert dist(above.head, below.head) < 2 * UNIT
    sides = [spot for spot in second if abs(spot.head[0]) < UNIT]
    assert len(sides) == 4
    assert all(spot.head[0] == pytest.approx(spot.feet[0][0], abs=1.0) for spot in sides)


TURNED_SOLE = f"""
ch 13
sc in 2nd ch from hook, sc in next 10 chs, 3 sc in last ch, working on other side of chain, \
sc in next 10 chs, 2 sc in last ch, {JOIN}
ch 1, 2 sc in each of first 2 sts, sc in next 10 sts, 2 sc in each of next 3 sts, sc in next 10 \
sts, 2 sc in last st, {JOIN}
ch 1, sc in each st around, {JOIN}
ch 1, sc in same st as joining, sc in each st around, {JOIN}
ch 1, sc in first st, *ch 1, sk 1 st, sc in next st; rep from * to last st, ch 1, sk 1 st, {JOIN}
"""
LOOPED_SOLE = f"""
ch 13
sc in 2nd ch from hook, sc in next 10 chs, 3 sc in last ch, working on other side of chain, \
sc in next 10 chs, 2 sc in last ch, {JOIN}
ch 1, 2 sc in first st, *sc in next 5 sts, 2 sc in next st; rep from * to last st, sc in last st, \
{JOIN}
ch 4 (counts as dc and ch 1), sk first st, *dc in next st, ch 1, sk 1 st; rep from * around, join \
with sl st to 3rd ch of beg ch-4, turn
ch 1, *2 sc in next ch-1 sp, sc in next dc; rep from * around, {JOIN}
"""


@pytest.mark.parametrize("rows", [TURNED_OVAL, TURNED_SOLE, LOOPED_SOLE])
def test_nothing_of_a_turned_oval_lies_on_anything_else(rows: str) -> None:
    """Neither two stitches of a round, nor its number and a stitch of any round.

    Round 4 of the second begins where round 3 does, so that its gap lies beside that of round 3.
    """
    chart = chart_of(rows, "joined rounds, turned")
    assert chart is not None
    assert len(chart.rows) == len(rows.strip().splitlines()) - 1
    laid = in_oval(chart)[1]
    for row in laid:
        heads = [spot.head for spot in row.spots if spot.placed.what != "join"]
        assert min(dist(a, b) for a, b in combinations(heads, 2)) > 0.55 * UNIT
    heads = [spot.head for row in laid for spot in row.spots]
    assert min(dist(row.at, head) for row in laid for head in heads) > 0.4 * UNIT


def test_repeated_rounds_of_an_oval_lie_around_one_another() -> None:
    """Each sc of rounds 4 to 6 straight over the one below it."""
    chart = chart_of(PLAIN + "Rnds 4-6: rep Rnd 3", "spiral rounds")
    assert chart is not None
    rows = in_oval(chart)[1]
    assert len(rows) == 6
    for below, above in pairwise(rows[2:]):
        assert [spot.feet for spot in above.spots] == [(spot.head,) for spot in below.spots]
        assert max(dist(spot.feet[0], spot.head) for spot in above.spots) < 2 * UNIT


def test_rows_begin_at_their_numbers() -> None:
    """Row 1 at the right, row 2 at the left."""
    chart = chart_of(SHELLS)
    assert chart is not None
    rows = in_rows(chart)[1]
    sides = [row.at[0] > row.spots[-1].head[0] for row in rows[:2]]
    assert sides == [True, False]


def test_the_key_has_every_stitch_of_the_chart() -> None:
    """The lowest first."""
    chart = chart_of(SHELLS)
    assert chart is not None
    assert [one.name for one in stitch_charts.symbols_in(chart)] == ["ch", "sc", "dc"]


def test_posts_and_loops_have_signs_of_their_own() -> None:
    """A hook at the foot of a post stitch, to either side; an arc under one in a single loop."""
    drawn = [Placed("stitch", name, feet=(0,)) for name in ("dc", "fpdc", "bpdc")]
    assert len({stitch_charts.symbol(one) for one in drawn}) == 3
    chart = chart_of(
        "magic ring, 6 sc in ring\ninc around\nsc in back loop only of each st around",
        "spiral rounds",
    )
    assert chart is not None
    assert (len(chart.rows), stitch_charts.loops_in(chart)) == (3, ("back",))


def test_a_stitch_without_a_symbol_ends_the_chart() -> None:
    """A crab stitch is no sc; with one round left there is no chart."""
    rows = "magic ring, 6 sc in ring\nrsc in each st around"
    assert chart_of(rows, "spiral rounds") is None


def test_a_round_of_a_tube_is_read_as_the_one_below_it() -> None:
    """Not turned, each begins at the right, under its number."""
    chart = chart_of(TUBE, "joined rounds")
    assert chart is not None
    assert [
        row.at[0] > row.spots[0].head[0] > row.spots[-1].head[0] for row in in_rows(chart)[1]
    ] == [True, True]


def test_a_round_begins_where_travel_leads() -> None:
    """Turned so that its stitches lean least: each corner stands over the corner below."""
    chart = chart_of(GRANNY, "joined rounds")
    assert chart is not None
    below, above = (
        [spot for spot in row.spots if spot.placed.what == "space" and spot.placed.chains == 2]
        for row in in_rounds(chart)
    )
    turns = [
        abs(atan2(*outer.head) - atan2(*inner.head)) % (2 * pi)
        for inner, outer in zip(below, above, strict=True)
    ]
    assert max(min(turn, 2 * pi - turn) for turn in turns) < pi / 12


def test_travel_and_picots_lie_on_what_they_are_on() -> None:
    """A slip stitch beside its place; the tip of a picot above the head that it stands on."""
    picot = "ch 3, sl st in 3rd ch from hook"
    rows = GRANNY.replace("(3 dc, ch 2, 3 dc)", f"(3 dc, ch 2, 3 dc, {picot})")
    chart = chart_of(rows, "joined rounds")
    assert chart is not None
    spots = [spot for row in in_rounds(chart) for spot in row.spots]
    travel = [spot for spot in spots if spot.placed.what == "travel"]
    picots = [spot for spot in spots if spot.placed.what == "picot"]
    assert (len(travel), len(picots)) == (3, 3)
    assert all(abs(dist(spot.head, spot.feet[0]) - PICOT) < 0.1 for spot in picots)
    assert all(dist(spot.head, spot.feet[0]) < UNIT / 2 for spot in travel)


def test_a_symbol_of_a_closed_stitch_shows_its_legs() -> None:
    """One line a leg, three ovals for a leg of three chains; a popcorn is closed by an oval."""
    cluster = Placed("stitch", "cl", feet=(0,), closed=Closed("cluster", "dc", 4))
    begun = cluster._replace(closed=Closed("cluster", "dc", 4, 3))
    popcorn = cluster._replace(closed=Closed("popcorn", "dc", 4))
    paths = [
        "".join(re.findall(r' d="([^"]*)"', stitch_charts.symbol(one)))
        for one in (cluster, begun, popcorn)
    ]
    assert [(one.count("Q"), one.count("a") // 2) for one in paths] == [(4, 0), (3, 3), (4, 1)]


def test_a_key_has_the_whole_of_a_stitch_whose_first_leg_is_a_chain() -> None:
    """``ch 3 (counts as first leg of dc3tog), dc2tog``: the key shows dc3tog with three legs."""
    chart = chart_of(
        "magic ring, ch 3 (counts as dc), 11 dc in ring, join with sl st to top of beg ch-3\n"
        "ch 3 (counts as first leg of dc3tog), dc2tog in same st, ch 2, *dc3tog in next st, ch 2; "
        "rep from * around, join with sl st to top of beg ch-3",
        "joined rounds",
    )
    assert chart is not None
    (whole,) = [one for one in stitch_charts.symbols_in(chart) if one.name == "dc3tog"]
    assert stitch_charts.symbol(whole).count("Q") == 3


def test_a_chart_is_light() -> None:
    """At most 8 kB packed, also where clusters of five legs stand side by side, round by round."""
    stands = (
        "ch 1, bob in same sp, ch 1, *bob in next ch-1 sp, ch 1; rep from * around, "
        "join with sl st to first bob"
    )
    first = "ch 1, *bob in next st, ch 1; rep from * around, join with sl st to first bob"
    rows = [
        "magic ring, ch 3 (counts as dc), 23 dc in ring, join with sl st to top of beg ch-3",
        first,
        *[f"sl st to next ch-1 sp, {stands}"] * 9,
    ]
    lines, contexts = lined(
        "\n".join(rows),
        worked="joined rounds",
        terms="us",
        stitches=("bob = 5 dc in same st, closed together",),
    )
    chart = chart_of_lines(lines, contexts[0], "joined rounds", None, ("",))
    assert chart is not None
    assert 2 < len(chart.rows) < len(rows)
    drawn = stitch_charts.drawing(chart, name="A", words="B")
    assert len(gzip.compress(drawn.encode())) < 8_000
