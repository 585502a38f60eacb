"""Stitch charts as they are told by the proof, against rows worked out by hand.

The pieces are made up here; where each stitch stands is worked out by hand from notation.md's table
of steps.
"""

from __future__ import annotations

from collections import Counter

import pytest

from tests.publish.project import CHECKOUT
from tests.support import pattern_files
from workeven import pipeline
from workeven.proof import ProvenPiece, StitchChart, chain_multiple, prove, stitch_chart
from workeven.proof.proven import RowInSize

HEAD = """\
title: Sand Mat
summary: A mat.
audience: adult
use: [home]
sizes:
  names: S (M)
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}
yarn:
  main: {weight: light, fibre: cotton, put_up: {length: 100 m, mass: 50 g}}
swatches:
  - of: main
    mass: 20.0 g
    rows: |
      fsc 20, turn
      ch 1, sc in each st across, turn
      rep last row 18 more times
pieces:
  mat:
    title: Mat
    worked: WORKED
    gauge: ground
    sections:
      - title: Mat
        rows: |
"""


def charted(rows: str, worked: str) -> tuple[ProvenPiece, StitchChart | None]:
    """The piece of these rows, and its chart."""
    text = HEAD.replace("WORKED", worked)
    text += "".join(f"          {row}\n" for row in rows.strip().splitlines())
    found = pattern_files.outcome(text)
    assert found.ready is not None, found.problems
    graded, piece = found.ready.proven.graded, found.ready.proven.pieces[0]
    return piece, stitch_chart(graded, piece, chain_multiple(graded, piece.piece))


def chart_of(rows: str, worked: str = "flat rows") -> StitchChart | None:
    """The chart of a piece of these rows."""
    return charted(rows, worked)[1]


def feet(chart: StitchChart | None, row: int) -> list[tuple[str, tuple[int, ...]]]:
    """What a row has, with the places below it."""
    assert chart is not None
    return [(one.name, one.feet) for one in chart.rows[row].placed.stitches]


SHELLS = """
ch 26 (32)
sc in 2nd ch from hook and in each ch across, turn
ch 1, sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; rep from * across, turn
ch 3 (counts as dc), 2 dc in first st, *sk 2 sts, sc in next st, sk 2 sts, 5 dc in next st; \
rep from * to last 6 sts, sk 2 sts, sc in next st, sk 2 sts, 3 dc in last st, turn
rep last 2 rows 4 more times
"""


def test_a_shell_stands_in_one_place() -> None:
    """Over an sc each: an sc in place 0, five dc in place 3, an sc in place 6."""
    shell = [("dc", (3,))] * 5
    expected = [("ch", ()), ("sc", (0,)), *shell, ("sc", (6,))]
    assert feet(chart_of(SHELLS), 1)[:8] == expected


def test_stitches_together_stand_on_two_places() -> None:
    """``[sc2tog] around`` over 12 sc: six heads, each over two places."""
    rows = "magic ring, 6 sc in ring\ninc around\n[sc2tog] around\n[sc 1, inc] around"
    told = feet(chart_of(rows, "spiral rounds"), 2)
    assert told == [("sc2tog", (at, at + 1)) for at in range(0, 12, 2)]


def test_a_mesh_has_spaces_over_what_it_skips() -> None:
    """Each dc stands over every second one, and the chains between on nothing."""
    rows = """
ch 24 (34)
dc in 4th ch from hook (skipped 3 chs count as dc), dc in each ch across, turn
ch 3 (counts as dc), dc in next st, *ch 1, sk 1 st, dc in next st; rep from * across, turn
ch 3 (counts as dc), dc in each dc and in each ch-1 sp across, turn
rep last 2 rows 3 more times
"""
    told = feet(chart_of(rows), 1)
    assert told[:6] == [
        ("ch", (0,)),
        ("dc", (1,)),
        ("ch", ()),
        ("dc", (3,)),
        ("ch", ()),
        ("dc", (5,)),
    ]


def worked(entry: RowInSize | None) -> dict[str, int]:
    """What the proof counts in a row, in one size."""
    assert entry is not None
    return {name: number for name, number in entry.worked if number}


@pytest.mark.parametrize(
    "rows", ["inc around", "[sc 2, dec] around", "[hdc 1, 2 dc in next st] around"]
)
def test_a_round_has_as_many_symbols_as_the_proof_counts(rows: str) -> None:
    """Kind by kind, for each round that is drawn."""
    piece, chart = charted(
        f"magic ring, 12 sc in ring\nsc in each st around\n{rows}", "spiral rounds"
    )
    assert chart is not None
    lines = [row.per_size.values[0] for section in piece.sections for row in section.rows]
    drawn: list[dict[str, int]] = []
    for row in chart.rows:
        found: Counter[str] = Counter()
        for one in row.placed.stitches:
            found[one.name] += one.chains
        drawn.append(dict(found))
    assert drawn == [worked(entry) for entry in lines]


def test_one_stitch_over_each_place_needs_no_chart() -> None:
    """There is nothing to see that the words do not say."""
    rows = """
ch 24 (34)
sc in 2nd ch from hook and in each ch across, turn
ch 1, sc in each st across, turn
rep last row 3 more times
"""
    assert chart_of(rows) is None


def test_a_row_that_differs_by_size_is_not_drawn() -> None:
    """The chart ends before it, since it shows all sizes alike."""
    chart = chart_of(
        "magic ring, 6 sc in ring\ninc around\n"
        "sc in each of next 4 (6) sts, [inc] 4 times, sc in each of next 4 (2) sts",
        "spiral rounds",
    )
    assert chart is not None
    assert [row.number for row in chart.rows] == [1, 2]


def test_a_picot_is_not_drawn() -> None:
    """What cannot be told place by place ends the chart, which needs two rows."""
    rows = "magic ring, 6 sc in ring\n[sc 1, ch 3, sl st in 3rd ch from hook] around"
    assert chart_of(rows, "spiral rounds") is None


def test_rounds_that_do_not_begin_in_a_ring_have_no_chart() -> None:
    """They would have no middle to be drawn from."""
    rows = """
ch 24 (34), join with sl st to first ch
ch 1, sc in each ch around, join with sl st to first sc
ch 1, [sc in next st, 2 sc in next st] around, join with sl st to first sc
"""
    assert chart_of(rows, "joined rounds") is None


def test_the_chain_that_a_round_begins_with_stands_over_its_first_place() -> None:
    """``ch 3 (counts as dc), dc in same st, [2 dc in next st] around``: two over each of 12."""
    rows = """
magic ring, ch 3 (counts as dc), 11 dc in ring, join with sl st to top of beg ch-3
ch 3 (counts as dc), dc in same st, [2 dc in next st] around, join with sl st to top of beg ch-3
"""
    told = feet(chart_of(rows, "joined rounds"), 1)
    expected = [("ch", (0,)), ("dc", (0,)), ("dc", (1,)), ("dc", (1,)), ("dc", (2,))]
    assert (told[:5], told[-1]) == (expected, ("sl st", ()))


def test_a_row_read_in_another_way_is_not_drawn() -> None:
    """``rep from * 6 times`` over 6 sc is six in all: by the second reading alone it comes out."""
    rows = "magic ring, 6 sc in ring\n*2 sc in next st; rep from * 6 times (12 sc)"
    assert chart_of(rows, "spiral rounds") is None


COLLECTION = sorted((CHECKOUT / "patterns").glob("*/pattern.yaml"))


def drawn_in_rounds() -> list[tuple[str, dict[str, int], dict[str, int]]]:
    """Of each round that is drawn in the collection: its symbols, and what the proof counts."""
    found = []
    for file in COLLECTION:
        graded = pipeline.graded(str(file), str(CHECKOUT / "patterns" / "studio.yaml")).value
        assert graded is not None
        proven = prove(graded).value
        assert proven is not None
        for piece in proven.pieces:
            chart = stitch_chart(graded, piece, chain_multiple(graded, piece.piece))
            if chart is None or chart.multiple is not None:
                continue
            lines = [row for section in piece.sections for row in section.rows]
            for row, line in zip(chart.rows, lines, strict=False):
                symbols: Counter[str] = Counter()
                for one in row.placed.stitches:
                    symbols[one.name] += one.chains
                in_sizes = [one for one in line.per_size.values if one and one.times == 1]
                found += [(piece.piece.name, dict(symbols), worked(one)) for one in in_sizes]
    return found


def test_the_rounds_of_the_collection_are_drawn_as_they_are_counted() -> None:
    """Kind by kind, in every size that works them."""
    told = drawn_in_rounds()
    assert {"basket", "body"} <= {name for name, _, _ in told}
    assert [one for one in told if one[1] != one[2]] == []


def test_ribs_of_post_stitches_stand_over_each_stitch() -> None:
    """Front and back in turn, behind the chain that counts."""
    rows = """
ch 24 (34)
dc in 4th ch from hook (skipped 3 chs count as dc), dc in each ch across, turn
ch 3 (counts as dc), *fpdc around next st, bpdc around next st; rep from * to last st, \
dc in last st, turn
rep last row 3 more times
"""
    told = feet(chart_of(rows), 1)
    expected = [("ch", (0,)), ("fpdc", (1,)), ("bpdc", (2,)), ("fpdc", (3,))]
    assert told[:4] == expected
