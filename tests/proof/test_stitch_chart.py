"""Stitch charts as they are told by the proof, against rows worked out by hand.

The pieces are made up here; where each stitch stands is worked out by hand from notation.md's table
of steps.
"""

from __future__ import annotations

from collections import Counter

import pytest

from tests.publish.project import CHECKOUT
from tests.support import pattern_files
from tests.support.placed_rows import lined, symbols
from workeven import pipeline
from workeven.grading import GradedPattern
from workeven.proof import ProvenPiece, StitchChart, chain_multiple, prove, stitch_chart
from workeven.proof.own_stitches import Closed
from workeven.proof.placed import Placed, PlacedRow
from workeven.proof.proven import RowInSize
from workeven.proof.stitch_chart import at_seam, once_around
from workeven.proof.stitch_chart import chart_of as chart_of_lines

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


def proven(rows: str, worked: str) -> tuple[ProvenPiece, GradedPattern]:
    """The piece of these rows."""
    text = HEAD.replace("WORKED", worked)
    text += "".join(f"          {row}\n" for row in rows.strip().splitlines())
    found = pattern_files.outcome(text)
    assert found.ready is not None, found.problems
    return found.ready.proven.pieces[0], found.ready.proven.graded


def charted(rows: str, worked: str) -> tuple[ProvenPiece, StitchChart | None]:
    """The piece of these rows, and its chart."""
    piece, graded = proven(rows, worked)
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
    drawn = [symbols(row.placed) for row in chart.rows]
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


def test_a_picot_stands_on_the_stitch_before_it() -> None:
    """Of three chains each: between the sc, and on the first dc of two in one place."""
    rows = """
magic ring, 6 sc in ring
[sc 1, ch 3, sl st in 3rd ch from hook, (dc, ch 3, sl st in 3rd ch from hook, dc) in next st] around
"""
    told = feet(chart_of(rows, "spiral rounds"), 1)
    expected = [("sc", (0,)), ("picot", ()), ("dc", (1,)), ("picot", ()), ("dc", (1,))]
    assert told == [
        (name, tuple(at + 2 * turn for at in below))
        for turn in range(3)
        for name, below in expected
    ]


def test_what_cannot_be_told_place_by_place_ends_the_chart() -> None:
    """A leaf stands off the round, and its stitches on chains of its own; two rounds are needed."""
    rows = """
magic ring, 6 sc in ring
[sc 1, ch 5, sc in 2nd ch from hook, sc in each of next 3 chs, sc in same st] around
"""
    assert chart_of(rows, "spiral rounds") is None


TUBE = """
ch 24 (36), join with sl st to first ch
ch 1, sc in each ch around, join with sl st to first sc
ch 3 (counts as dc), 2 dc in same st, *sk 2 sts, 3 dc in next st; rep from * to last 2 sts, sk 2 \
sts, join with sl st to top of beg ch-3
"""


def test_a_tube_is_drawn_over_a_short_joined_chain() -> None:
    """Of 15, the first multiple of 3 with at least 13 beyond the shortest; not turned."""
    chart = chart_of(TUBE, "joined rounds")
    assert chart is not None
    assert (chart.shape, chart.chains, chart.multiple) == ("tube", 15, (3, 0))
    assert [row.turned for row in chart.rows] == [False, False]
    assert feet(chart, 1)[:4] == [("ch", (0,)), ("dc", (0,)), ("dc", (0,)), ("dc", (3,))]


TURNED = """
ch 24 (36), join with sl st to first ch
ch 1, sc in each ch around, join with sl st to first sc, turn
ch 3 (counts as dc), 2 dc in same st as joining, *sk 2 sts, 3 dc in next st; rep from * to last \
2 sts, sk 2 sts, join with sl st to top of beg ch-3, turn
ch 1, sc in same st as joining, sc in each st around, join with sl st to first sc, turn
"""


def test_a_turned_round_begins_over_the_seam() -> None:
    """Its chain stands over the joined place, which from there is the last one."""
    chart = chart_of(TURNED, "joined rounds, turned")
    assert chart is not None
    assert [row.turned for row in chart.rows] == [True, True, True]
    assert feet(chart, 1)[:4] == [("ch", (14,)), ("dc", (14,)), ("dc", (14,)), ("dc", (2,))]
    assert [at_seam(row.placed) for row in chart.rows] == [0, 3, 2]


MESH_TUBE = """
ch 24 (36), join with sl st to first ch
ch 1, *sc in next ch, ch 2, sk 2 chs; rep from * around, join with sl st to first sc
ch 1, *sc in next sc, 2 sc in next ch-2 sp; rep from * around, join with sl st to first sc
"""


def test_a_round_that_comes_back_to_its_start_stands_behind_the_last_place() -> None:
    """It begins in the first space, over an sc; the last sc goes into that, as place 10 of 10."""
    straight, back = (
        chart_of(rows, "joined rounds")
        for rows in (
            MESH_TUBE,
            MESH_TUBE.replace(
                "ch 1, *sc in next sc, 2 sc in next ch-2 sp;",
                "sl st to next ch-2 sp, ch 1, 2 sc in same sp, sc in next sc, "
                "*2 sc in next ch-2 sp, sc in next sc;",
            ),
        )
    )
    assert straight is not None
    assert back is not None
    ends = [once_around(chart.rows[1].placed) for chart in (straight, back)]
    assert [stitches and stitches[-2].feet for stitches in ends] == [(9,), (10,)]
    assert feet(back, 1)[-2] == ("sc", (0,))


HALF_SHELLS = """
ch 24 (36), join with sl st to first ch
ch 1, sc in each ch around, join with sl st to first sc
ch 3 (counts as dc), 2 dc in same st, *sk 2 sts, sc in next st, sk 2 sts, 5 dc in next st; rep \
from * to last 5 sts, sk 2 sts, sc in next st, sk 2 sts, 2 dc in WHERE, join with sl st to top of \
beg ch-3
"""


@pytest.mark.parametrize("where", ["same st as joining", "base of beg ch-3"])
def test_the_place_of_the_start_is_not_that_of_the_stitch_before(where: str) -> None:
    """Over 18 sc the last shell is closed in place 0, though the hook stands over place 15."""
    chart = chart_of(HALF_SHELLS.replace("WHERE", where), "joined rounds")
    assert feet(chart, 1)[:3] == [("ch", (0,)), ("dc", (0,)), ("dc", (0,))]
    assert feet(chart, 1)[-4:] == [("sc", (15,)), ("dc", (0,)), ("dc", (0,)), ("sl st", ())]
    assert chart is not None
    again = once_around(chart.rows[1].placed)
    assert again is not None
    assert [one.feet for one in again[-3:]] == [(18,), (18,), ()]


def test_a_round_that_works_back_anywhere_else_is_not_drawn_in_rows() -> None:
    """Over twelve places: the fourth behind the ninth, and more than once around."""

    def around(*places: int) -> tuple[Placed, ...] | None:
        stitches = tuple(Placed("stitch", "sc", feet=(at,), top=at) for at in places)
        return once_around(PlacedRow(stitches, ("sc",) * 12, ("sc",) * len(places), ring=False))

    assert around(0, 3, 6, 9, 0) is not None
    assert around(4, 9, 3, 4) is not None
    assert around(4, 9, 3, 5) is None
    assert around(0, 9, 4, 10) is None


TRAVEL = "sl st in each of next 2 dc and in next ch-2 sp"
GRANNY = f"""
ch 4, join to form ring
ch 3 (counts as dc), 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times, join
{TRAVEL}, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, ch 1, \
*(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * around, join
"""


def test_travel_moves_the_start_of_a_round() -> None:
    """Over two dc into the first space, which is the fourth place; all goes into that."""
    told = feet(chart_of(GRANNY, "joined rounds"), 1)
    travel = [("sl st", (1,)), ("sl st", (2,)), ("sl st", (3,))]
    first = [("ch", (3,)), ("dc", (3,)), ("dc", (3,)), ("ch", (3,)), ("dc", (3,))]
    assert told[:8] == travel + first
    assert [below for name, below in told if name == "dc"][-3:] == [(15,)] * 3


def test_new_yarn_is_joined_where_the_round_begins() -> None:
    """In any space, which is the next one; it is no stitch."""
    rows = GRANNY.replace(TRAVEL, "join yarn with sl st in any ch-2 sp")
    told = feet(chart_of(rows, "joined rounds"), 1)
    assert told[:3] == [("join", (3,)), ("ch", (3,)), ("dc", (3,))]


def test_all_in_one_chain_is_the_middle() -> None:
    """``6 sc in 2nd ch from hook``, on a line of its own or behind its chains."""
    alone = chart_of("ch 2\n6 sc in 2nd ch from hook\ninc around", "spiral rounds")
    behind = chart_of("ch 2, 6 sc in 2nd ch from hook\ninc around", "spiral rounds")
    assert feet(alone, 0) == feet(behind, 0) == [("sc", ())] * 6
    assert feet(alone, 1)[:3] == [("sc", (0,)), ("sc", (0,)), ("sc", (1,))]


def test_skipped_chains_that_count_as_a_space_lie_beside_the_first_stitch() -> None:
    """Of seven, three stand for the dc on the fifth, two are the space, two lie below it."""
    rows = """
ch 32 (44)
dc in 8th ch from hook (skipped chs count as dc and ch 2), *ch 2, sk 2 chs, dc in next ch; rep \
from * across, turn
ch 5 (counts as dc and ch 2), sk first dc, dc in next dc, *ch 2, dc in next dc; rep from * across
"""
    chart = chart_of(rows)
    assert chart is not None
    first = [(one.name, one.chains, one.feet) for one in chart.rows[0].placed.stitches[:3]]
    assert first == [("ch", 3, (4,)), ("ch", 2, ()), ("dc", 1, (7,))]
    second = [(one.name, one.chains, one.feet) for one in chart.rows[1].placed.stitches[:3]]
    assert second == [("ch", 3, (0,)), ("ch", 2, ()), ("dc", 1, (2,))]


def test_chains_that_count_as_stitches_leave_a_place_each() -> None:
    """``ch 2 (counts as 2 sts), sk 2 sts``: the next row works into each."""
    rows = """
ch 25 (37)
sc in 2nd ch from hook and in each ch across, turn
ch 1, *sc in next 4 sts, ch 2 (counts as 2 sts), sk 2 sts; rep from * across, turn
ch 1, sc in each st across, turn
"""
    chart = chart_of(rows)
    assert feet(chart, 1)[5:7] == [("ch", ()), ("ch", ())]
    assert feet(chart, 2)[1:4] == [("sc", (0,)), ("sc", (1,)), ("sc", (2,))]


def closed(stitches: tuple[str, ...], row: str) -> list[Closed | None]:
    """What a second round has of stitches that are closed to one."""
    first = "magic ring, ch 3 (counts as dc), 11 dc in ring, join with sl st to top of beg ch-3"
    lines, contexts = lined(
        f"{first}\n{row}", worked="joined rounds", terms="us", stitches=stitches
    )
    chart = chart_of_lines(lines, contexts[0], "joined rounds", None, ("",))
    assert chart is not None
    return [one.closed for one in chart.rows[1].placed.stitches if one.what == "stitch"]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("5 dc in same st, leaving the last loop of each, draw through all", "cluster dc 5"),
        ("popcorn: 4 dc in same place, drop loop, draw it through the first", "popcorn dc 4"),
        ("3-tr cluster in same place (1 st)", "cluster tr 3"),
        ("puff st, yo and draw up a loop 4 times, draw through all", "puff hdc 3"),
    ],
)
def test_a_closed_stitch_is_made_as_the_pattern_says(words: str, expected: str) -> None:
    """So many legs of the stitch that its words name; a puff has loops, and none are counted."""
    told = closed((f"bob = {words}",), "ch 1, bob in each st around, join with sl st to first bob")
    style, base, legs = expected.split()
    assert {(one.style, one.base, one.legs) for one in told if one} == {(style, base, int(legs))}
    assert len(told) == 12


def test_a_stitch_of_which_no_parts_are_told_has_a_mark_of_its_own() -> None:
    """As high as the stitch that its words name, else as an sc; the next one has another mark."""
    told = closed(
        ("bob = bobble", "frill = dc with the yarn wound twice around a finger"),
        "ch 1, *(sc, bob) in next st, frill in next st; rep from * around, join with sl st to "
        "first sc",
    )
    assert told == [None, Closed("own", "sc", 1), Closed("own", "dc", 1, own=1)] * 6


@pytest.mark.parametrize(
    "words", ["long dc in the row below", "first leg in this st, second in the next"]
)
def test_a_stitch_that_stands_elsewhere_has_no_mark(words: str) -> None:
    """A stem over one place would say that it stands there."""
    with pytest.raises(AssertionError):
        closed((f"bob = {words}",), "ch 1, bob in each st around, join with sl st to first bob")


def test_a_slip_stitch_that_counts_stands_in_its_place() -> None:
    """``sl st in next st`` behind a stitch leaves a place for the round above."""
    rows = "magic ring, 8 sc in ring\n[sc 1, sl st in next st] around\ninc around"
    chart = chart_of(rows, "spiral rounds")
    assert feet(chart, 1) == [("sc" if at % 2 == 0 else "sl st", (at,)) for at in range(8)]
    assert feet(chart, 2) == [("sc", (at // 2,)) for at in range(16)]


def test_a_row_that_leaves_the_rest_goes_as_far_as_it_says() -> None:
    """Over 13 sc: eight of them, and the row above stands on those."""
    rows = """
ch 14 (20)
sc in 2nd ch from hook and in each ch across, turn
ch 1, *sc in next st, 2 sc in next st; rep from * 3 more times, leave rem sts unworked, turn
ch 1, *sc in next st, sk next st; rep from * across, turn
"""
    lines, contexts = lined(rows.replace(" (20)", "").strip(), worked="flat rows", terms="us")
    chart = chart_of_lines(lines, contexts[0], "flat rows", (2, 0), ("",))
    assert [foot for _, foot in feet(chart, 1)[1:]] == [
        (at,) for at in (0, 1, 1, 2, 3, 3, 4, 5, 5, 6, 7, 7)
    ]
    assert [foot for _, foot in feet(chart, 2)[1:]] == [(at,) for at in range(0, 12, 2)]


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        # 21 = 5 × 4 + 1: one interval of 5, four of 4, each ending with the change
        ("dec 5 sts evenly", [(3, 4), (7, 8), (11, 12), (15, 16), (19, 20)]),
        ("inc 5 sts evenly", [(4,), (8,), (12,), (16,), (20,)]),
    ],
)
def test_changes_spread_evenly_stand_at_the_spacing_of_the_proof(
    change: str, expected: list[tuple[int, ...]]
) -> None:
    """Over 21 sc: a decrease over two places, an increase with two stitches in one."""
    rows = f"magic ring, 7 sc in ring\ninc around\n[sc 1, inc] around\nsc around, {change}"
    told = [foot for _, foot in feet(chart_of(rows, "spiral rounds"), 3)]
    changed = [foot for foot in dict.fromkeys(told) if len(foot) > 1 or told.count(foot) > 1]
    assert changed == expected
    assert sorted({place for foot in told for place in foot}) == list(range(21))


GAPS = f"""
magic ring, ch 3 (counts as dc), 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times, \
join
{TRAVEL}, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, *(3 dc, ch 2, 3 dc) in next ch-2 sp; \
rep from * around, join
{TRAVEL}, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, *3 dc in next sp between corners, \
(3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * 2 more times, 3 dc in sp between corners, join
"""


def test_stitches_in_a_gap_stand_between_two_places() -> None:
    """Corners of seven places each: the gaps lie at 6|7, 13|14, 20|21, the last over the seam."""
    told = charted(GAPS, "joined rounds")[1]
    assert told is not None
    between = [one.feet for one in told.rows[2].placed.stitches if one.between]
    gaps = [(6, 7), (13, 14), (20, 21), (27, 0)]
    assert between == [gap for gap in gaps for _ in range(3)]


def test_the_chain_that_is_a_leg_is_not_drawn_twice() -> None:
    """``ch 3 (counts as first leg of dc3tog), dc2tog in same st``: three chains and two legs."""
    told = closed(
        (),
        "ch 3 (counts as first leg of dc3tog), dc2tog in same st, ch 2, "
        "*dc3tog in next st, ch 2; rep from * around, join with sl st to top of beg ch-3",
    )
    assert told == [Closed("cluster", "dc", 2), *[None] * 11]


def test_a_beginning_version_has_a_leg_of_chains() -> None:
    """``ch 2, dc2tog``: that leg and two more."""
    told = closed(
        ("cl = 3-dc cluster in same place (1 st)", "beg cl = ch 2, dc2tog in same st"),
        "beg cl in same st, ch 2, *cl in next st, ch 2; rep from * around, join with sl st to "
        "top of beg cl",
    )
    assert told == [Closed("cluster", "dc", 3, 2), *[Closed("cluster", "dc", 3)] * 11]


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
        found_ = prove(graded).value
        assert found_ is not None
        for piece in found_.pieces:
            chart = stitch_chart(graded, piece, chain_multiple(graded, piece.piece))
            if chart is None or chart.multiple is not None:
                continue
            lines = [row for section in piece.sections for row in section.rows]
            for entry in (one for line in lines for one in line.per_size.values):
                if entry is None or entry.first is None or entry.last is None:
                    continue
                own = [row for row in chart.rows if entry.first <= row.number <= entry.last]
                if len(own) == entry.times:
                    in_all = sum((Counter(symbols(row.placed)) for row in own), Counter[str]())
                    found.append((piece.piece.name, dict(in_all), worked(entry)))
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


# --- around both sides of a chain ----------------------------------------------------------

OVAL = """
ch 5
sc in 2nd ch from hook, sc in next 2 chs, 3 sc in last ch, working on other side of chain, SIDE
inc, sc 2, inc in next 3 sts, sc 2, inc in next 2 sts
"""
BACK = "sc in next 2 chs, 2 sc in same ch as first sc"


@pytest.mark.parametrize(("side", "last"), [(BACK, 1), ("sc in next 2 chs, 2 sc in last ch", 7)])
def test_an_oval_goes_around_both_sides_of_its_chain(side: str, last: int) -> None:
    """By hand, over chains 0 to 4 from the hook; 5 and 6 are chains 3 and 2 from their other side.

    Place 7 is chain 1 once more; "same ch as first sc" is chain 1 by its first number.
    """
    chart = chart_of(OVAL.replace("SIDE", side), "spiral rounds")
    assert chart is not None
    assert (chart.shape, chart.chains, chart.rows[0].placed.again) == ("oval", 5, 3)
    stood = [one.feet[0] for one in chart.rows[0].placed.stitches if one.what == "stitch"]
    assert stood == [1, 2, 3, 4, 4, 4, 5, 6, last, last]
    assert [one.feet[0] for one in chart.rows[1].placed.stitches] == [
        *(0, 0, 1, 2, 3, 3, 4, 4, 5, 5, 6, 7, 8, 8, 9, 9)
    ]


def test_an_oval_may_begin_at_the_head_of_its_round() -> None:
    """The chain made in the same line is the same chain."""
    rows = OVAL.replace("SIDE", BACK).replace("ch 5\n", "ch 5, ")
    chart = chart_of(rows, "spiral rounds")
    apart = chart_of(OVAL.replace("SIDE", BACK), "spiral rounds")
    assert chart is not None
    assert apart is not None
    assert (chart.chains, chart.rows[0].placed.stitches[1:]) != (0, ())
    feet_ = [[one.feet for one in row.placed.stitches] for row in chart.rows]
    assert feet_ == [[one.feet for one in row.placed.stitches] for row in apart.rows]


def of_size(rows: str, worked: str, size: int) -> StitchChart | None:
    """The chart of a piece of these rows, drawn in this size where sizes differ."""
    piece, graded = proven(rows, worked)
    return stitch_chart(graded, piece, chain_multiple(graded, piece.piece), size)


SOLE = """
ch 5 (7)
sc in 2nd ch from hook, sc in next 2 (4) chs, 3 sc in last ch, working on other side of chain, \
sc in next 2 (4) chs, 2 sc in same ch as first sc
sc in each st around
inc, sc in next 2 (4) sts, inc in next 3 sts, sc in next 2 (4) sts, inc in next 2 sts
"""


@pytest.mark.parametrize(
    ("size", "first", "last"),
    [
        # over chains 0 to 4; 5 and 6 are chains 3 and 2 from their other side
        (0, [1, 2, 3, 4, 4, 4, 5, 6, 1, 1], [0, 0, 1, 2, 3, 3, 4, 4, 5, 5, 6, 7, 8, 8, 9, 9]),
        # over chains 0 to 6; 7 to 10 are chains 5 to 2
        (
            1,
            [1, 2, 3, 4, 5, 6, 6, 6, 7, 8, 9, 10, 1, 1],
            [0, 0, 1, 2, 3, 4, 5, 5, 6, 6, 7, 7, 8, 9, 10, 11, 12, 12, 13, 13],
        ),
    ],
)
def test_an_oval_that_differs_by_size_is_drawn_in_one(
    size: int, first: list[int], last: list[int]
) -> None:
    """By hand in each size, from the words: 10 sts, 10, 16 in S; 14, 14, 20 in M."""
    chart = of_size(SOLE, "spiral rounds", size)
    assert chart is not None
    assert (chart.shape, chart.chains, chart.sizes) == ("oval", (5, 7)[size], (size,))
    stood = [
        [one.feet[0] for one in row.placed.stitches if one.what == "stitch"] for row in chart.rows
    ]
    assert stood == [first, list(range(len(first))), last]


def test_an_oval_that_is_alike_at_first_is_drawn_for_all_sizes() -> None:
    """Up to the round that differs, where two rounds come before it."""
    rows = OVAL.replace("SIDE", BACK) + "sc in next 4 (6) sts, sc in next 12 (10) sts\n"
    chart = of_size(rows, "spiral rounds", 1)
    assert chart is not None
    assert ([row.number for row in chart.rows], chart.sizes) == ([1, 2], ())


def test_a_round_that_one_size_alone_works_ends_the_chart() -> None:
    """Else the other sizes would not have the rounds that are drawn."""
    rows = SOLE + "sizes M only: sc in each st around\nsc in each st around\n"
    for size in (0, 1):
        chart = of_size(rows, "spiral rounds", size)
        assert chart is not None
        assert [row.number for row in chart.rows] == [1, 2, 3]


def test_rounds_that_begin_with_other_numbers_are_of_one_size() -> None:
    """``6 (8) sc in ring``: what is drawn is not the same in every size."""
    rows = "magic ring, 6 (8) sc in ring\ninc around"
    for size, sts in enumerate((6, 8)):
        chart = of_size(rows, "spiral rounds", size)
        assert chart is not None
        assert (chart.shape, chart.sizes) == ("rounds", (size,))
        assert [len(row.placed.stitches) for row in chart.rows] == [sts, 2 * sts]


PLAIN = OVAL.replace("SIDE", BACK) + "Rnd 3: sc in each st around\n"


@pytest.mark.parametrize(
    ("rows", "sts"),
    [
        ("Rnds 4-6: rep Rnd 3\nRnd 7: *sc 2, dec; rep from * around", [10, *[16] * 5, 12]),
        ("rep last rnd 2 more times\n*sc 2, dec; rep from * around", [10, *[16] * 4, 12]),
        ("work even for 3 rnds\nsc around", [10, *[16] * 6]),
        ("Rnds 4-5: work even\nRnds 6-7: sc around", [10, *[16] * 6]),
        ("Rnds 4-20: rep Rnd 3", [10, *[16] * 11]),
        ("Rnds 4-5 (4-7): rep Rnd 3\nsc around", [10, *[16] * 4]),
        ("rep last rnd 2 (0) more times\nsc around", [10, 16, 16]),
        ("sc around until piece measures 10 cm\nsc around", [10, *[16] * 3]),
    ],
)
def test_rounds_of_an_oval_that_are_repeated_are_drawn_each(rows: str, sts: list[int]) -> None:
    """Up to twelve in all, as many as all sizes work; once, where a length says how often.

    By hand: 1 + 2 + 3 + 2 + 2 in round 1; six of them twice in round 2; of 16 ``sc 2, dec`` leaves
    12.
    """
    chart = chart_of(PLAIN + rows, "spiral rounds")
    assert chart is not None
    assert [row.number for row in chart.rows] == list(range(1, len(sts) + 1))
    assert [len(row.placed.leaves) for row in chart.rows] == sts
    assert [one.feet for one in chart.rows[2].placed.stitches] == [(at,) for at in range(16)]


def test_repeats_of_an_oval_in_one_size_are_those_of_that_size() -> None:
    """Two rounds more in S, three in M; the round behind them is the sixth or the seventh."""
    rows = SOLE + "Rnds 4-5 (4-6): sc in each st around\nsc in each st around\n"
    for size, last in enumerate((6, 7)):
        chart = of_size(rows, "spiral rounds", size)
        assert chart is not None
        assert [row.number for row in chart.rows] == list(range(1, last + 1))


def test_no_round_is_left_out_between_others() -> None:
    """``Rnds 3-4`` of a piece from its middle are drawn once, and what stands on them is not."""
    rows = "magic ring, 6 sc in ring\ninc around\nRnds 3-4: sc around\nRnd 5: [sc 1, inc] around"
    chart = chart_of(rows, "spiral rounds")
    assert chart is not None
    assert [row.number for row in chart.rows] == [1, 2, 3]


JOIN = "join with sl st to first sc, turn"
TURNED_OVAL = f"""
ch 5
sc in 2nd ch from hook, sc in next 2 chs, 3 sc in last ch, working on other side of chain, \
sc in next 2 chs, 2 sc in last ch, {JOIN}
ch 1, sc in each st around, {JOIN}
ch 1, 2 sc in same st as joining, sc in next 3 sts, 3 sc in next st, sc in each st around, {JOIN}
"""


def test_rounds_of_an_oval_may_be_turned() -> None:
    """By hand: from a turn places count from the other end, the one joined to, 9 of 10, the last.

    Round 3 begins with two in that, then one each in 0 to 2, three in 3, one each in 4 to 8.
    """
    chart = chart_of(TURNED_OVAL, "joined rounds, turned")
    assert chart is not None
    assert chart.shape == "oval"
    assert [row.turned for row in chart.rows] == [True, True, True]
    stood = [
        [one.feet[0] for one in row.placed.stitches if one.what == "stitch"] for row in chart.rows
    ]
    assert stood[1:] == [list(range(10)), [9, 9, 0, 1, 2, 3, 3, 3, 4, 5, 6, 7, 8]]
    assert [at_seam(row.placed) for row in chart.rows] == [0, 0, 3]


def test_a_turned_round_of_an_oval_may_come_back_to_its_start() -> None:
    """One more at the end in the place joined to, where it began."""
    rows = TURNED_OVAL.replace(
        "ch 1, sc in each st around",
        "ch 1, sc in same st as joining, sc in each st around, sc in same st as first sc",
        1,
    )
    chart = chart_of(rows, "joined rounds, turned")
    assert chart is not None
    stood = [one.feet[0] for one in chart.rows[1].placed.stitches if one.what == "stitch"]
    assert stood == [9, *range(9), 9]


@pytest.mark.parametrize(
    "then",
    [
        "sl st in next 2 sts, ch 1, sc in each st around, join with sl st to first sc",
        "ch 1, turn, sc in each st around, join with sl st to first sc",
    ],
)
def test_a_round_of_an_oval_that_begins_elsewhere_ends_the_chart(then: str) -> None:
    """Before it there is one round alone, which shows no pattern."""
    rows = OVAL.replace("SIDE", f"{BACK}, join with sl st to first sc").strip().splitlines()[:2]
    assert chart_of("\n".join((*rows, then)), "joined rounds") is None


def test_a_round_between_the_stitches_of_another_ends_the_chart() -> None:
    """Its stitches would be drawn on those that they stand between."""
    rows = "6 sc in magic ring, join\nch 1, 2 sc in each sc around, join\n"
    into = chart_of(rows + "ch 1, sc in each sc around, join", "joined rounds")
    between = chart_of(rows + "ch 1, sc in each sp between sc around, join", "joined rounds")
    assert into is not None
    assert between is not None
    assert len(between.rows) == len(into.rows) - 1


def test_rows_that_take_turns_are_not_drawn() -> None:
    """Each is told once, and none in its order: the chart ends in front of them."""
    chart = chart_of("""
ch 26 (32)
Row 1: sc in 2nd ch from hook and in each ch across, turn
Row 2: ch 1, sc in first st, *ch 1, sk 1 st, sc in next st; rep from * across, turn
Rows 3 and 5: ch 1, sc in each st across, turn
Rows 4 and 6: ch 1, sc2tog, sc in each st across, turn
""")
    assert chart is not None
    assert len(chart.rows) == len(("Row 1", "Row 2"))
