"""What is worked in each yarn and colour: hand counts, rows worked again, ends, seams, fringe."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from fractions import Fraction

import pytest

from tests.support import pattern_files
from tests.test_collection import PATTERNS, verdict
from workeven import grading, pattern, proof, source
from workeven.problems import Problem
from workeven.proof import ProvenPattern
from workeven.yarn import Strand, Tally, estimate, tallies
from workeven.yarn.unsaid import unsaid

HEAD = """\
title: Invented Mat
summary: A mat.
audience: adult
use: [home]
sizes:
  names: S (M, L)
gauge:
  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}
yarn:
  main:
    weight: light
    fibre: 100% wool
    put_up: {length: 200 m, mass: 50 g}
"""
COLOURS = "    colours: [A, B, C]\n"
PIECE = """\
pieces:
  mat:
    worked: flat rows
    gauge: ground
    sections:
      - title: Mat
        rows: |
"""


def _proven(text: str) -> ProvenPattern:
    read = source.read("pattern.yaml", text.encode())
    assert read.value is not None
    parsed = pattern.parse(read.value, pattern.NO_STUDIO)
    assert parsed.value is not None, parsed.problems
    graded = grading.grade(parsed.value)
    assert graded.value is not None, graded.problems
    proven = proof.prove(graded.value)
    assert proven.value is not None
    told = (*read.problems, *parsed.problems, *graded.problems, *proven.problems)
    assert [] == [problem.code for problem in told]
    return proven.value


def _mat(*rows: str, colours: str = COLOURS, more: str = "", make: str = "") -> tuple[Tally, ...]:
    piece = PIECE.replace("    worked", f"{make}    worked") if make else PIECE
    lines = "".join(f"          {row}\n" for row in rows)
    return tallies(_proven(HEAD + colours + piece + lines + more))


def _only(*rows: str, **parts: str) -> Tally:
    (tally,) = _mat(*rows, **parts)
    return tally


def _in_colours(tally: Tally, size: int = 0) -> Mapping[str | None, Mapping[str, int]]:
    """What each colour has in one size."""
    return {part.colour: dict(part.worked[size]) for part in tally.parts}


def _ends(tally: Tally) -> Mapping[str | None, int]:
    """How many ends each colour has in the first size."""
    return {one.colour: one.number[0] for one in tally.strands if one.kind == "end"}


def _codes(told: tuple[Problem, ...]) -> list[tuple[str, int]]:
    return [(problem.code, problem.span.line) for problem in told]


ROW_1 = "Row 1: sc in 2nd ch from hook and in each ch across, turn"
PLAIN = "ch 1, sc in each st across, turn"


# --- stitches ------------------------------------------------------------------------------


def test_chains_joins_and_turning_chains_are_among_the_stitches() -> None:
    """By hand: 20 ch and a join; ch 3 is a turning chain, 19 dc beside it, and a join a round."""
    text = HEAD + PIECE.replace("flat rows", "joined rounds")
    rows = (
        "ch 20, join with sl st to first ch",
        "ch 3 (counts as dc), dc in each ch around, join with sl st to top of beg ch-3",
        "ch 3 (counts as dc), dc in each st around, join with sl st to top of beg ch-3",
    )
    (tally,) = tallies(_proven(text + "".join(f"          {row}\n" for row in rows)))
    assert {"ch": 26, "sl st": 3, "dc": 38} == dict(tally.parts[0].worked[0])
    assert {"ch": 29, "dc": 38} == dict(tally.stitches[0])


def test_sizes_and_makings_are_counted_apart() -> None:
    """By hand: 10, 12 and 14 sc in each of two rows, 11, 13 and 15 chains, and two mats."""
    tally = _only("ch 11 (13, 15)", ROW_1, f"Row 2: {PLAIN}", colours="", make="    make: 2\n")
    assert [{"ch": 12, "sc": 20}, {"ch": 14, "sc": 24}, {"ch": 16, "sc": 28}] == list(
        map(dict, tally.parts[0].worked)
    )
    assert [40, 48, 56] == [stitches["sc"] for stitches in tally.stitches]
    assert (2, 2, 2) == tally.parts[0].make.values


def test_yarn_without_colours_has_one_part_a_piece() -> None:
    """There is nothing to tell apart, and nothing is told."""
    tally = _only("ch 11", ROW_1, colours="")
    assert [None] == [part.colour for part in tally.parts]
    assert (False, "", ()) == (tally.by_colour, tally.why_not, tally.problems)


# --- colours of rows -----------------------------------------------------------------------


def test_a_colour_goes_on_until_another_is_named() -> None:
    """By hand: 11 ch and 20 sc in A with one turning chain, then 20 sc in B with two."""
    tally = _only(
        "With A, ch 11", ROW_1, f"Row 2: {PLAIN}", f"Row 3: with B, {PLAIN}", f"Row 4: {PLAIN}"
    )
    assert {"A": {"ch": 12, "sc": 20}, "B": {"ch": 2, "sc": 20}} == _in_colours(tally)
    assert tally.by_colour


@pytest.mark.parametrize(
    "row",
    [
        "with B, ch 1, sc in each st across, turn",
        "Row 2 (B): ch 1, sc in each st across, turn",
        "Row 2 (RS, B): ch 1, sc in each st across, turn",
        "change to B, ch 1, sc in each st across, turn",
        "join B with sl st in first st, ch 1, sc in each st across, turn",
        "fasten off A, join B, ch 1, sc in each st across, turn",
        "using B, ch 1, sc in each st across, turn",
        "with B yarn, ch 1, sc in each st across, turn",
    ],
)
def test_colours_are_named_in_the_words_of_the_trade(row: str) -> None:
    """Each way of saying that this row is in B."""
    tally = _only("With A, ch 11", ROW_1, row)
    assert 10 == _in_colours(tally)["B"]["sc"]


def test_a_change_at_the_end_of_a_row_is_for_the_next() -> None:
    """All 10 sc of Row 2 are in A, all 10 of Row 3 in B."""
    tally = _only(
        "With A, ch 11",
        ROW_1,
        "Row 2: ch 1, sc in each st across, changing to B in last st, turn",
        f"Row 3: {PLAIN}",
    )
    assert {"A": 20, "B": 10} == {name: one["sc"] for name, one in _in_colours(tally).items()}


def test_a_change_within_a_row_is_honoured_stitch_by_stitch() -> None:
    """By hand: of 20 sc 7 before the change, 13 behind it."""
    tally = _only(
        "With A, ch 21",
        ROW_1,
        "Row 2: ch 1, sc in next 7 sts, change to B, sc in each st across, turn",
    )
    assert {"A": {"ch": 22, "sc": 27}, "B": {"sc": 13}} == _in_colours(tally)


def test_colours_within_a_repeat_are_counted_in_every_size() -> None:
    """By hand: over 12, 16 and 20 sts there are 3, 4 and 5 repeats of 2 sts in B and 2 in C."""
    tally = _only(
        "With A, ch 13 (17, 21)",
        ROW_1,
        "Row 2: ch 1, *with B sc in next 2 sts, with C sc in next 2 sts; rep from * across, turn",
    )
    assert [6, 8, 10] == [_in_colours(tally, size)["B"]["sc"] for size in range(3)]
    assert [6, 8, 10] == [_in_colours(tally, size)["C"]["sc"] for size in range(3)]


def test_a_colour_behind_a_stitch_is_that_of_the_stitch() -> None:
    """``sc 5 with A, sc 5 with B``: by hand 5 each."""
    tally = _only("With C, ch 11", ROW_1, "Row 2: ch 1, sc 5 with A, sc 5 with B, turn")
    assert {"C": {"ch": 12, "sc": 10}, "A": {"sc": 5}, "B": {"sc": 5}} == _in_colours(tally)


def test_a_repeat_that_comes_round_to_another_colour_is_not_guessed() -> None:
    """The first ``sc 2`` is in C, the later ones in A: nobody says so, and the total holds."""
    tally = _only(
        "With C, ch 13",
        ROW_1,
        "Row 2: ch 1, *sc in next 2 sts, with B sc in next 2 sts, with A; rep from * across, turn",
    )
    assert not tally.by_colour
    assert 24 == tally.stitches[0]["sc"]
    assert "a repeat begins in another colour than it ends in" == tally.why_not


# --- rows worked again ---------------------------------------------------------------------


def test_rows_worked_again_keep_their_stripes() -> None:
    """A B, three times: Row 2 names no colour, and was worked in A."""
    tally = _only(
        "With A, ch 11",
        ROW_1,
        f"Row 2: {PLAIN}",
        f"Row 3: with B, {PLAIN}",
        "rep Rows 2 and 3 twice more",
    )
    assert {"A": 40, "B": 30} == {name: one["sc"] for name, one in _in_colours(tally).items()}


def test_stripes_are_kept_until_a_length() -> None:
    """18 rows in 10 cm: Rows 2 and 3, then 14 more, seven in each colour."""
    tally = _only(
        "With A, ch 11",
        ROW_1,
        f"Row 2: with A, {PLAIN}",
        f"Row 3: with B, {PLAIN}",
        "rep Rows 2 and 3 until piece measures 9.4 cm, ending with a Row 3",
    )
    assert {"A": 90, "B": 80} == {name: one["sc"] for name, one in _in_colours(tally).items()}


def test_rows_without_a_colour_go_on_in_the_one_at_hand() -> None:
    """Row 2 was worked in A; worked again behind Row 3 it is in B."""
    tally = _only(
        "With A, ch 11",
        ROW_1,
        f"Row 2: {PLAIN}",
        f"Row 3: with B, {PLAIN}",
        "Rows 4-6: rep Row 2",
    )
    assert {"A": 20, "B": 40} == {name: one["sc"] for name, one in _in_colours(tally).items()}


def test_a_repeat_may_be_given_a_colour() -> None:
    """``with C, rep Rows 2 and 3`` works both in C, whatever they were."""
    tally = _only(
        "With A, ch 11",
        ROW_1,
        f"Row 2: with A, {PLAIN}",
        f"Row 3: with B, {PLAIN}",
        "Rows 4-5: with C, rep Rows 2 and 3",
    )
    assert {"A": 20, "B": 10, "C": 20} == {
        name: one["sc"] for name, one in _in_colours(tally).items()
    }


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("rep Row 2, 1 row each in A, B, C", {"A": 40, "B": 20, "C": 20}),
        (
            "rep Row 2, changing colour every 2 rows in the order C, A, B",
            {"A": 40, "B": 20, "C": 20},
        ),
        (
            "rep Row 2 in the following colour sequence: 1 row B, 2 rows C",
            {"A": 20, "B": 20, "C": 40},
        ),
        ("rep Row 2, alternating 1 row B and 1 row C", {"A": 20, "B": 30, "C": 30}),
    ],
)
def test_an_order_of_colours_is_followed_row_by_row(words: str, expected: dict[str, int]) -> None:
    """Six rows of 10 sc behind two in A."""
    tally = _only("With A, ch 11", ROW_1, f"Row 2: {PLAIN}", f"Rows 3-8: {words}")
    assert expected == {name: one["sc"] for name, one in _in_colours(tally).items()}


def test_of_two_colours_the_other_comes_next() -> None:
    """Rows 1 and 2 are a stripe in A; with Row 3 the first of B begins."""
    tally = _only(
        "With A, ch 11",
        ROW_1,
        f"Row 2: {PLAIN}",
        "Rows 3-8: rep Row 2, changing colour every 2 rows",
        colours="    colours: [A, B]\n",
    )
    assert {"A": 40, "B": 40} == {name: one["sc"] for name, one in _in_colours(tally).items()}


def test_of_three_colours_the_next_must_be_said() -> None:
    """Nothing is guessed: there is no amount by colour, and the place is told."""
    tally = _only(
        "With A, ch 11",
        ROW_1,
        f"Row 2: {PLAIN}",
        "Rows 3-8: rep Row 2, changing colour every 2 rows",
    )
    assert not tally.by_colour
    assert [("yarn-colour-unsaid", 25)] == _codes(tally.problems)
    assert 80 == tally.stitches[0]["sc"]


def test_growing_stripes_are_walked_row_by_row() -> None:
    """By hand: 1 st more in each row, A on the even ones: 12 + 14 + 16 in A, 13 + 15 + 17 in B."""
    tally = _only(
        "With A, ch 11",
        ROW_1,
        "Row 2: with B, ch 1, 2 sc in first st, sc in each st across, turn",
        "Row 3: with A, ch 1, 2 sc in first st, sc in each st across, turn",
        "rep Rows 2 and 3 twice more",
    )
    assert {"A": 10 + 12 + 14 + 16, "B": 11 + 13 + 15} == {
        name: one["sc"] for name, one in _in_colours(tally).items()
    }


# --- sections, yarns -----------------------------------------------------------------------


def test_a_section_may_begin_in_a_colour() -> None:
    """``colour`` in the section, also where the rows say nothing."""
    text = HEAD + COLOURS + PIECE.replace("- title: Mat\n", "- title: Mat\n        colour: B\n")
    (tally,) = tallies(_proven(f"{text}          ch 11\n          {ROW_1}\n"))
    assert {"B": {"ch": 11, "sc": 10}} == _in_colours(tally)


def test_a_section_may_take_colours_in_turn() -> None:
    """2 rows B, 1 row C over six rows: four and two; the chain is begun in the first."""
    turns = "- title: Mat\n        colour: 2 rows B, 1 row C\n"
    text = HEAD + COLOURS + PIECE.replace("- title: Mat\n", turns)
    rows = ("ch 11", ROW_1, PLAIN, "rep last row 4 more times")
    (tally,) = tallies(_proven(text + "".join(f"          {row}\n" for row in rows)))
    assert {"B": 40, "C": 20} == {name: one["sc"] for name, one in _in_colours(tally).items()}
    assert 14 == _in_colours(tally)["B"]["ch"]


EDGE = """\
  edge:
    weight: light
    fibre: 100% wool
    put_up: {length: 100 m, mass: 25 g}
    colours: {K: Kelp}
"""


@pytest.mark.parametrize("name", ["edge", "K", "Kelp"])
def test_a_row_may_name_another_yarn(name: str) -> None:
    """By its key, by its colour or by what the band calls that; capitals are alike."""
    words = f"join {name.capitalize()} with sl st in first st, {PLAIN}"
    main, edge = _mat("ch 11", ROW_1, words, colours=EDGE)
    assert (10, 10) == (main.stitches[0]["sc"], edge.stitches[0]["sc"])
    assert ["K"] == [part.colour for part in edge.parts]


def test_two_yarns_held_together_are_both_counted() -> None:
    """Every stitch takes both, and each knows the other."""
    text = (
        HEAD + EDGE + PIECE.replace("- title: Mat\n", "- title: Mat\n        yarn: [main, edge]\n")
    )
    main, edge = tallies(_proven(f"{text}          ch 11\n          {ROW_1}\n"))
    assert (dict(main.stitches[0]), main.beside()) == ({"ch": 11, "sc": 10}, (("edge",),))
    assert (dict(edge.stitches[0]), edge.beside()) == ({"ch": 11, "sc": 10}, (("main",),))


def test_a_joint_swatch_is_shared_by_mass_to_length() -> None:
    """50 g and 25 g to 200 m: of 30 g one has 20 g, the other 10 g, for as many stitches."""
    text = (HEAD + EDGE).replace("length: 100 m", "length: 200 m")
    text += (
        "margin: 0 %\ntail: 0 cm\nswatches:\n  - of: [main, edge]\n    mass: 30 g\n    rows: |\n"
    )
    text += f"      ch 11\n      {ROW_1}\n"
    text += PIECE.replace("- title: Mat\n", "- title: Mat\n        yarn: [main, edge]\n")
    checked = estimate(_proven(f"{text}          ch 11\n          {ROW_1}\n"))
    assert checked.value is not None
    bare = [need.mass[0] / (1 + need.margin) for need in checked.value.needs]
    assert [Fraction(20), Fraction(10)] == bare


def test_yarn_in_two_ways_of_holding_has_no_amount() -> None:
    """One swatch does not tell of both, so none is guessed."""
    text = (
        HEAD + EDGE + PIECE.replace("- title: Mat\n", "- title: Mat\n        yarn: [main, edge]\n")
    )
    more = "      - title: Edge\n        yarn: main\n        rows: |\n"
    checked = estimate(
        _proven(f"{text}          ch 11\n          {ROW_1}\n{more}          {PLAIN}\n")
    )
    assert checked.value is not None
    assert "held in more than one way" in checked.value.without[0].reason


# --- ends ----------------------------------------------------------------------------------


def test_a_piece_has_two_ends() -> None:
    """The start, and where it is fastened off, said or not; each time it is made."""
    tally = _only("ch 11", ROW_1, f"Row 2: {PLAIN}, fasten off", colours="", make="    make: 2\n")
    (ends,) = tally.strands
    assert ("end", (4, 4, 4), (Fraction(600),) * 3) == (
        ends.kind,
        ends.number.values,
        ends.length.values,
    )
    assert "common practice" in ends.basis


@pytest.mark.parametrize("rows", ["work even for 5 rows", "sc in each st around for 5 rows"])
def test_rows_of_one_line_are_fastened_off_once(rows: str) -> None:
    """Behind the last of the five, and not behind each: two ends."""
    (ends,) = _only("ch 11", ROW_1, f"{rows}, fasten off", colours="").strands
    assert (2, 2, 2) == ends.number.values


def test_each_change_between_rows_leaves_two_ends() -> None:
    """A B A B: four strands, two of each colour."""
    rows = ("With A, ch 11", ROW_1, f"Row 2: with B, {PLAIN}", f"Row 3: with A, {PLAIN}")
    assert {"A": 4, "B": 4} == _ends(_only(*rows, f"Row 4: with B, {PLAIN}"))


@pytest.mark.parametrize("words", ["carry A up the side", "do not cut A", "drop colour A"])
def test_a_colour_that_is_carried_is_one_strand(words: str) -> None:
    """A is begun once and fastened off once, B twice."""
    rows = ("With A, ch 11", ROW_1, f"Row 2: with B, {PLAIN}, {words}", f"Row 3: with A, {PLAIN}")
    carried = (*rows[:2], f"{words}, with B, {PLAIN}", *rows[3:])
    assert {"A": 2, "B": 4} == _ends(_only(*carried, f"Row 4: with B, {PLAIN}"))


def test_colours_within_a_row_are_carried_along() -> None:
    """B and C are two strands with two ends each, however often they change."""
    tally = _only(
        "With A, ch 13",
        ROW_1,
        "Row 2: ch 1, *with B sc in next 2 sts, with C sc in next 2 sts; rep from * across, turn",
        "rep Row 2 twice more",
    )
    assert (2, 2) == (_ends(tally)["B"], _ends(tally)["C"])


def test_yarn_that_is_joined_anew_is_another_strand() -> None:
    """Two shoulders: fastened off, joined again, fastened off: four ends."""
    tally = _only(
        "ch 21",
        ROW_1,
        "Row 2: ch 1, sc in next 5 sts, leave rem sts unworked, fasten off",
        "Second side: sk next 10 sts, join yarn in next st, ch 1, sc in each st across, fasten off",
        colours="",
    )
    assert {None: 4} == _ends(tally)


def test_a_tail_is_as_long_as_the_file_says() -> None:
    """Two ends of 20 cm, and of a yarn held double two strands each."""
    tally = _only("ch 11", ROW_1, colours="    held: 2\n", more="tail: 20 cm\n")
    (ends,) = tally.strands
    assert (4, Fraction(800)) == (ends.number[0], ends.length[0])
    assert "woven in, 2 strands each (as the pattern says)" == ends.basis


# --- seams and trimmings -------------------------------------------------------------------

TWO = """\
pieces:
  back:
    worked: flat rows
    gauge: ground
    edges: {side: {row_ends: [first row, last row]}, top: {row: last row}}
    sections:
      - rows: |
          ch 17
          sc in 2nd ch from hook and in each ch across, turn
          ch 1, sc in each st across, turn
          rep last row 16 more times
  sleeve:
    worked: flat rows
    gauge: ground
    make: 2
    edges: {side: {row_ends: [first row, last row]}, top: {row: last row}}
    sections:
      - rows: |
          ch 17
          sc in 2nd ch from hook and in each ch across, turn
          ch 1, sc in each st across, turn
          rep last row 16 more times
seams:
"""


def _seams(*seams: str) -> list[Strand]:
    lines = "".join(f"  - {seam}\n" for seam in seams)
    (tally,) = tallies(_proven(HEAD + TWO + lines))
    return [one for one in tally.strands if one.kind == "seam"]


def test_a_seam_takes_three_times_its_length_and_two_tails() -> None:
    """18 rows are 10 cm: 30 cm, and twice 15 cm; for two sleeves twice."""
    (seam,) = _seams("{sew: sleeve.side, to: back.side}")
    assert (2, Fraction(600)) == (seam.number[0], seam.each[0])
    assert "3 times the seam and a tail of 15 cm at each end (common practice)" == seam.basis


@pytest.mark.parametrize(
    ("seams", "expected"),
    [
        (("{sew: back.top, to: back.top}",), [1]),
        (
            (
                "{title: L, sew: sleeve.top, to: back.top}",
                "{title: R, sew: sleeve.top, to: back.top}",
            ),
            [1, 1],
        ),
        (("{sew: sleeve.side, to: sleeve.side}",), [2]),
        (("{sew: sleeve.side, to: sleeve.side, times: 1}",), [1]),
    ],
)
def test_a_seam_is_sewn_as_often_as_its_pieces_are_made(
    seams: tuple[str, ...], expected: list[int]
) -> None:
    """Two sleeves in one seam are two seams; named left and right they are one each."""
    assert expected == [seam.number[0] for seam in _seams(*seams)]


def test_stitches_that_are_picked_up_take_no_sewing() -> None:
    """They are counted where they are worked."""
    assert [] == _seams("{pick_up: sleeve.top, along: back.top}")


def test_fringe_is_its_strands() -> None:
    """40, 44 and 48 knots of 4 strands of 30 cm: 48, 52.8 and 57.6 m, in the colour named."""
    more = (
        "trimmings:\n  - kind: fringe\n    amount: 40 (44, 48)\n    strands: 4\n    length: 30 cm\n"
        "    colour: B\n    note: both ends\n"
    )
    tally = _only("With A, ch 11", ROW_1, more=more)
    (fringe,) = [one for one in tally.strands if one.kind == "fringe"]
    assert ("B", "Fringe (both ends)") == (fringe.colour, fringe.title)
    assert tuple(map(Fraction, (48_000, 52_800, 57_600))) == fringe.length.values


def test_a_pompom_is_what_it_weighs() -> None:
    """Four of 5.5 g are 22 g, and no length is made up."""
    more = "trimmings:\n  - {kind: pompom, amount: 4, mass: 5.5 g, colour: A}\n"
    tally = _only("With A, ch 11", ROW_1, more=more)
    (pompom,) = [one for one in tally.strands if one.kind == "pompom"]
    assert pompom.mass is not None
    assert (Fraction(22), Fraction(0)) == (pompom.mass[0], pompom.length[0])
    assert tally.by_colour


def test_a_trimming_without_its_colour_leaves_the_colours_untold() -> None:
    """Of three colours nobody knows which the fringe is cut from."""
    more = "trimmings:\n  - {kind: fringe, amount: 4, strands: 2, length: 30 cm}\n"
    tally = _only("With A, ch 11", ROW_1, more=more)
    assert not tally.by_colour


# --- the collection, and seeded faults -----------------------------------------------------


@pytest.mark.parametrize(
    "slug", sorted(path.parent.name for path in PATTERNS.glob("*/pattern.yaml"))
)
def test_the_parts_of_the_collection_are_all_that_its_rows_work(slug: str) -> None:
    """Added up once more from the rows as often as pieces are made, with joins of shaped ones."""
    (ready,) = [one.ready for one in verdict().outcomes if one.ready and one.file.count(slug)]
    by_hand: list[Counter[str]] = [Counter() for _ in ready.pattern.sizes.names]
    for piece in ready.proven.pieces:
        beside = unsaid(piece)
        for row in (row for section in piece.sections for row in section.rows):
            for size, entry in enumerate(row.per_size):
                more = beside[row.anchor][size] if row.anchor in beside else ()
                for kind, number in () if entry is None else (*entry.worked, *more):
                    by_hand[size][kind] += number * piece.piece.make[size]
    counted: list[Counter[str]] = [Counter() for _ in ready.pattern.sizes.names]
    for part in (part for tally in tallies(ready.proven) for part in tally.parts):
        for size, worked in enumerate(part.worked):
            for kind, number in worked.items():
                counted[size][kind] += number * part.make[size]
    assert by_hand == counted


def test_the_tee_has_its_seams_and_ends() -> None:
    """By hand: a centre front, two shoulders, sleeves and sides; two ends for each of 5 pieces."""
    (ready,) = [one.ready for one in verdict().outcomes if "groynemark" in one.file and one.ready]
    (tally,) = tallies(ready.proven)
    seams = {one.title: one.number[0] for one in tally.strands if one.kind == "seam"}
    assert {"Centre front": 1, "Shoulders": 2, "Sleeves": 2, "Sides": 2} == seams
    assert 10 == sum(one.number[0] for one in tally.strands if one.kind == "end")


GOOD = (
    HEAD
    + COLOURS
    + f"""swatches:
  - of: main
    mass: 20 g
    rows: |
      ch 25
      {ROW_1}
      {PLAIN}
      rep last row 25 more times
"""
    + PIECE
    + "".join(
        f"          {row}\n"
        for row in ("With A, ch 11", ROW_1, f"Row 2: with B, {PLAIN}", f"Row 3: with C, {PLAIN}")
    )
    + "trimmings:\n  - {kind: pompom, amount: 2, mass: 5 g, colour: A}\n"
)


def test_the_pattern_that_faults_are_seeded_in_is_good() -> None:
    """Nothing is told of it."""
    assert () == pattern_files.outcome(GOOD).problems


@pytest.mark.parametrize(
    ("right", "wrong", "code"),
    [
        ("with B,", "with D,", "yarn-colour-unlisted"),
        ("with C,", "join Fome with sl st in first st,", "yarn-colour-unlisted"),
        ("    colours: [A, B, C]\n", "", "yarn-colour-unlisted"),
        ("colours: [A, B, C]", "colours: [A, B]", "yarn-colour-unlisted"),
        ("colour: A}", "colour: E}", "yarn-colour-unlisted"),
        ("With A, ch", "ch", "yarn-colour-unsaid"),
        ("with B,", "with new colour,", "yarn-colour-unsaid"),
        ("mass: 20 g", "mass: 200 kg", "yarn-too-many-balls"),
        ("mass: 50 g", "mass: 0.005 g", "yarn-too-many-balls"),
        ("mass: 5 g,", "", "yarn-trimming-empty"),
        ("amount: 2", "amount: 0", "yarn-trimming-empty"),
    ],
)
def test_a_seeded_fault_is_found_where_it_was_made(right: str, wrong: str, code: str) -> None:
    """One slip, one message; with a mend."""
    assert right in GOOD
    problem, *others = pattern_files.outcome(GOOD.replace(right, wrong)).problems
    assert (code, []) == (problem.code, [other.code for other in others])
    assert problem.mend
