"""Outlines of pieces against lengths worked out by hand (a stitch 5 mm wide, a row 4 mm high)."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import pytest

from tests.publish.samples import GAUGE, SIZES, mitts, piece, proven_row, row_in_size, section
from workeven.pattern import Worked
from workeven.proof import ProvenPiece
from workeven.publish.drawings.measures import measures
from workeven.publish.drawings.outline import outline
from workeven.records import replace


def rounds(sts: Sequence[int], worked: Worked = "spiral rounds") -> ProvenPiece:
    """A piece of single rounds with these counts, the same in every size, from its centre."""
    rows = [
        proven_row("sc around", [row_in_size(n, at, at)] * 3, anchor=str(at))
        for at, n in enumerate(sts, 1)
    ]
    return piece([section(rows, title="All", worked=worked)], title="Piece", worked=worked)


def tube(sts: Sequence[int]) -> ProvenPiece:
    """The same from a joined chain."""
    whole = rounds(sts, "joined rounds")
    start = proven_row("ch", [row_in_size(sts[0], None, None, height=0)] * 3, anchor="0")
    one = whole.sections[0]
    return replace(whole, sections=(replace(one, rows=(start, *one.rows)),))


def test_a_piece_that_goes_on_along_its_row_ends_is_not_drawn() -> None:
    """A ribbing worked sideways lies across the rows behind it; it is no length of theirs."""
    ribbing = [
        proven_row(
            "sc in each st across, turn", [row_in_size(10, 1, 40, height=160)] * 3, anchor="1"
        )
    ]
    words = "sc in each row end, turn"
    body = [proven_row(words, [row_in_size(40, 41, 41, height=54)] * 3, anchor="2")]
    sections = [
        section(rows, title=title, worked="flat rows")
        for title, rows in (("Rib", ribbing), ("Body", body))
    ]
    across = piece(sections, title="Piece", worked="flat rows")
    assert outline(across, (GAUGE,), 1) is None


def test_a_tube_is_drawn_as_it_lies_flat() -> None:
    """36 stitches of 5 mm go 180 mm around and lie 90 mm wide."""
    drawn = outline(mitts().proven.pieces[0], (GAUGE,), 1)
    assert drawn is not None
    assert (drawn.shape, drawn.width(), drawn.height()) == ("tube", 90, 64)


def test_there_is_a_strip_for_each_row() -> None:
    """The drawing is the count made visible."""
    drawn = outline(mitts().proven.pieces[0], (GAUGE,), 2)
    assert drawn is not None
    assert len(drawn.strips) == 17


def test_a_flat_piece_is_as_wide_as_its_rows() -> None:
    """20, 16 and 12 stitches of 5 mm."""
    drawn = outline(rounds([20, 16, 12], "flat rows"), (GAUGE,), 0)
    assert drawn is not None
    assert [strip.width for strip in drawn.strips] == [100, 80, 60]


def test_even_growth_by_six_lies_flat() -> None:
    """Six more each round: the radius grows by 6 * 5 / 2 pi = 4.8 mm, more than a round is high."""
    drawn = outline(rounds([6 * n for n in range(1, 9)]), (GAUGE,), 0)
    assert drawn is not None
    assert drawn.shape == "disc"


def test_rounds_that_stop_growing_rise() -> None:
    """A base of four rounds and a wall of ten make a vessel, ten rounds of 4 mm high."""
    drawn = outline(rounds([6, 12, 18, 24, *[24] * 10]), (GAUGE,), 0)
    assert drawn is not None
    assert drawn.shape == "vessel"
    assert drawn.height() == pytest.approx(40)


def test_measures_are_exact_in_every_size() -> None:
    """Around is stitches times their width, the length rounds times their height."""
    told = measures(mitts().proven.pieces[0], (GAUGE,), "tube")
    assert {one.name: list(one.lengths) for one in told} == {
        "Around at the start": [Fraction(165), Fraction(180), Fraction(210)],
        "Length from start to end": [Fraction(60), Fraction(64), Fraction(68)],
    }


def test_a_length_is_told_once() -> None:
    """A piece as wide at its end as at its start has one letter for both."""
    told = measures(rounds([20, 24, 20], "flat rows"), (GAUGE,), "flat")
    assert [one.name for one in told] == [
        "Width at the start",
        "Width at the widest",
        "Length from start to end",
    ]


def test_a_mesh_is_as_wide_as_the_stitches_below_it() -> None:
    """11 dc and 10 ch-1 sps over 21 sc neither narrow the piece nor widen it."""
    makes = (("dc", 11), ("ch-1 sp", 10))
    plain, mesh = row_in_size(21, 1, 1), row_in_size(11, 2, 2, makes=makes)
    rows = [
        proven_row("sc across", [plain] * 3, anchor="1"),
        proven_row("dc across", [mesh] * 3, anchor="2"),
    ]
    flat = piece([section(rows, title="All", worked="flat rows")], title="A", worked="flat rows")
    drawn = outline(flat, (GAUGE,), 0)
    assert drawn is not None
    assert len({strip.width for strip in drawn.strips}) == 1


def test_loops_that_bulge_are_drawn_straight_and_lace_that_grows_grows() -> None:
    """20 ch-5 loops over 60 sc are no wider than these; 24 dc and chains over 12 are as 24."""
    loops = row_in_size(20, 2, 2, makes=(("sc", 20), ("ch-5 sp", 20)))
    grown = row_in_size(80, 3, 3, makes=(("dc", 80), ("ch-2 sp", 4)))
    rows = [
        proven_row("sc across", [row_in_size(60, 1, 1)] * 3, anchor="1"),
        proven_row("sc across", [loops] * 3, anchor="2"),
        proven_row("dc across", [grown] * 3, anchor="3"),
    ]
    flat = piece([section(rows, title="All", worked="flat rows")], title="A", worked="flat rows")
    drawn = outline(flat, (GAUGE,), 0)
    assert drawn is not None
    assert [300, 300, 400] == [strip.width for strip in drawn.strips]


def test_a_disc_is_measured_across() -> None:
    """60 stitches of 5 mm are 300 mm around and 95.5 mm across."""
    told = measures(rounds([60]), (GAUGE,), "disc")
    assert [one.name for one in told] == ["Across"]
    assert told[0].lengths[0] == Fraction(300) / Fraction(355, 113)


def test_a_piece_without_a_row_gauge_is_not_drawn() -> None:
    """A height that is not known is not made up."""
    rows = [proven_row("sc around", [row_in_size(20, 1, 1, height=None)] * 3, anchor="1")]
    flat = piece([section(rows, title="All", worked="flat rows")], title="A", worked="flat rows")
    assert outline(flat, (GAUGE,), 0) is None


def test_an_open_number_of_rows_is_not_drawn() -> None:
    """Nor is a number of rows that the pattern leaves open."""
    open_rows = row_in_size(20, None, None, times=None)
    rows = [proven_row("sc around", [open_rows] * 3, anchor="1")]
    flat = piece([section(rows, title="All", worked="flat rows")], title="A", worked="flat rows")
    assert outline(flat, (GAUGE,), 0) is None


def test_a_size_that_does_not_work_a_row_does_not_draw_it() -> None:
    """Rows of the larger sizes are not in the smallest one's drawing."""
    plain = proven_row("sc around", [row_in_size(20, 1, 1)] * 3, anchor="1")
    larger = proven_row(
        "sc around", [None, row_in_size(20, 2, 2), row_in_size(20, 2, 2)], anchor="2"
    )
    flat = piece(
        [section([plain, larger], title="All", worked="flat rows")], title="A", worked="flat rows"
    )
    counted = [outline(flat, (GAUGE,), size) for size in range(len(SIZES))]
    assert [one and len(one.strips) for one in counted] == [1, 2, 2]


def test_a_section_has_its_own_gauge() -> None:
    """Stitches of a wider gauge draw wider."""
    wide = replace(GAUGE, name="wide", sts=Fraction(10))
    rows = [proven_row("sc around", [row_in_size(20, 1, 1)] * 3, anchor="1")]
    one = section(rows, title="All", worked="flat rows")
    one = replace(one, section=replace(one.section, gauge="wide"))
    drawn = outline(piece([one], title="A", worked="flat rows"), (GAUGE, wide), 0)
    assert drawn is not None
    assert drawn.width() == 200


def test_a_vessel_is_measured_across() -> None:
    """Seen from the side it is as wide as its circle; a length along a curved side is not drawn."""
    told = measures(rounds([6, 12, 18, 24, *[24] * 10]), (GAUGE,), "vessel")
    assert [(one.name, one.lengths[0]) for one in told] == [
        ("Across at the end", Fraction(120) / Fraction(355, 113))
    ]


def test_a_yoke_is_opened_out() -> None:
    """Rounds from a chain, each 2 stitches (10 mm) longer than the one 4 mm below it."""
    wide = tube([80 + 2 * at for at in range(10)])
    drawn = outline(wide, (GAUGE,), 0)
    assert drawn is not None
    assert drawn.shape == "opened"


def test_each_arc_of_an_opened_yoke_is_as_long_as_its_round() -> None:
    """10 mm more for each 4 mm of height lie at an angle of 2.5 in radians."""
    drawn = outline(tube([80 + 2 * at for at in range(10)]), (GAUGE,), 0)
    assert drawn is not None
    lengths = [arc.radius * arc.angle for arc in drawn.arcs]
    assert lengths == pytest.approx([400 + 10 * at for at in range(10)])
    assert [arc.angle for arc in drawn.arcs[1:-1]] == pytest.approx([2.5] * 8, rel=0.05)


def test_a_sleeve_that_tapers_slowly_stays_a_tube() -> None:
    """Two stitches in each fourth round are no yoke."""
    drawn = outline(tube([40 + at // 4 * 2 for at in range(40)]), (GAUGE,), 0)
    assert drawn is not None
    assert drawn.shape == "tube"


def test_a_piece_that_widens_at_its_end_alone_is_not_opened() -> None:
    """A frill at the hem of a tube does not make a yoke of it."""
    drawn = outline(tube([*[80] * 10, 160]), (GAUGE,), 0)
    assert drawn is not None
    assert drawn.shape == "tube"


def test_sections_tell_how_long_and_wide_the_piece_is_where_they_end() -> None:
    """To the armhole, which is the end of the body: 2 rows of 20 stitches."""
    body = [proven_row("sc", [row_in_size(20, 1, 2, times=2, height=8)] * 3, anchor="1")]
    rest = [proven_row("sc", [row_in_size(12, 3, 3, height=12)] * 3, anchor="2")]
    one = piece(
        [
            section(body, title="Body", worked="flat rows"),
            section(rest, title="Armhole", worked="flat rows"),
        ],
        title="Front",
        worked="flat rows",
    )
    told = {measure.name: measure.lengths[0] for measure in measures(one, (GAUGE,), "flat")}
    assert told["Length to the end of “Body”"] == 8
    assert told["Length from start to end"] == 12
    assert "Width at the end of “Body”" not in told  # it is that of the start


def test_a_line_that_is_worked_no_times_is_passed() -> None:
    """A row repeated 0 more times in the smallest size draws nothing, and hides nothing."""
    plain = proven_row("sc around", [row_in_size(20, 1, 1)] * 3, anchor="1")
    again = proven_row(
        "rep last row 2 more times", [row_in_size(20, 2, 1, times=0)] * 3, anchor="2"
    )
    one = section([plain, again], title="All", worked="flat rows")
    drawn = outline(piece([one], title="A", worked="flat rows"), (GAUGE,), 0)
    assert drawn is not None
    assert len(drawn.strips) == 1
