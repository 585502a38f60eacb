"""Drawings of stitch charts: whole as XML, nothing on anything else, every symbol in the key."""

from __future__ import annotations

from itertools import combinations
from math import dist
from xml.etree import ElementTree as ET

from tests.proof.test_stitch_chart import SHELLS, chart_of
from workeven.publish.drawings import stitch_charts
from workeven.publish.drawings.stitch_places import UNIT, in_rounds, in_rows

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
    assert stitch_charts.names_in(chart) == ("ch", "sc", "dc")


def test_posts_and_loops_have_signs_of_their_own() -> None:
    """A hook at the foot of a post stitch, to either side; an arc under one in a single loop."""
    names = ("dc", "fpdc", "bpdc")
    assert len({stitch_charts.symbol(name) for name in names}) == 3
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
