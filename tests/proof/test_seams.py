"""Edges that are joined, measured and held against each other in every size."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tests.support.pattern_files import outcome
from workeven.problems import Problem, lesson
from workeven.proof.seams import ProvenSeam, counted
from workeven.proof.spacing import pins, spacing

#: a back and a front of 36 rows, sewn at their sides
GOOD = lesson.read("seam-length").examples("Passes")[0].text
SEAM = "{title: Side, sew: front.side, to: back.side}"


def _changed(*pairs: tuple[str, str]) -> str:
    text = GOOD
    for old, new in pairs:
        at = text.rindex(old)
        text = text[:at] + new + text[at + len(old) :]
    return text


def _seam(text: str) -> ProvenSeam:
    found = outcome(text)
    assert [] == [problem.found for problem in found.problems if problem.code[:4] == "seam"]
    assert found.ready is not None
    return found.ready.proven.seams[0]


def _problem(text: str) -> Problem:
    (problem,) = outcome(text).problems
    return problem


def test_row_ends_are_counted_and_measured() -> None:
    """36 rows at 18 to 10 cm are 20 cm; the starting chain is no row."""
    side = _seam(GOOD).first[0]
    assert side is not None
    assert (0, 36, Fraction(200)) == (side.sts, side.rows, side.length)


@pytest.mark.parametrize(
    ("edge", "said"),
    [
        ("{sts: pouch_sts}", ("32 sts", "38 sts", "45 sts")),
        ("{row: last row}", ("32 sts", "38 sts", "45 sts")),
        ("{row: first row}", ("32 sts", "38 sts", "45 sts")),
        ("{rows: pouch_sts / 2 + pouch_sts / 2}", ("32 rows", "38 rows", "45 rows")),
        ("{row_ends: [first row, last row]}", ("36 rows",) * 3),
    ],
)
def test_an_edge_is_said_in_four_ways(edge: str, said: tuple[str, ...]) -> None:
    """Stitches of a count or a row, rows of a count, ends of a stretch of rows."""
    text = _changed((SEAM, SEAM.replace("}", ", tolerance: 20 cm}")), ("{row_ends: Front}", edge))
    sides = _seam(text).first
    assert said == tuple(counted(side) for side in sides if side is not None)


def test_edges_add_up() -> None:
    """Twice the front is 72 rows, as long as two backs."""
    text = _changed((SEAM, "{sew: 2 * front.side, to: back.side + back.side}"))
    sides = _seam(text)
    assert ["72 rows", "72 rows"] == [
        counted(side[0]) for side in (sides.first, sides.second) if side[0] is not None
    ]
    assert "Front, side" == sides.seam.title


def test_edges_that_do_not_match_are_told_with_both_measurements() -> None:
    """28 rows against 36 are 15.5 cm on 20 cm, in every size."""
    problem = _problem(_changed(("rep last row 34 more", "rep last row 26 more")))
    assert "seam-length" == problem.code
    assert "Side: `front.side` does not fit `back.side`" in problem.found.replace("`Side`", "Side")
    assert "In S: 28 rows, 15.5 cm (6 in), on 36 rows, 20 cm (7¾ in)" in problem.expected
    assert ("S", "M", "L") == problem.sizes
    assert ("second_cm", ("20", "20", "20")) == problem.figures[1]


def test_only_the_sizes_that_fail_are_told() -> None:
    """20 (24, 28) cm of stitches on 20 cm of rows: S fits, and what would fit is offered."""
    problem = _problem(_changed(("{row_ends: Front}", "{sts: pouch_sts}")))
    assert (("M", "L"), ("S",)) == (problem.sizes, problem.good_sizes)
    assert problem.mend.startswith("These stitches would fit: M 32, L 32.")


def test_ease_that_is_meant_is_no_problem() -> None:
    """4 cm and 8 cm longer where that is said; and then a side of the same length is short."""
    text = _changed(
        (
            f"  - {SEAM}",
            "  - title: Side\n    sew: front.side\n    to: back.side\n    ease: 0 (4, 8) cm",
        ),
        ("{row_ends: Front}", "{sts: pouch_sts}"),
    )
    assert () == outcome(text).problems


def test_one_row_does_not_matter() -> None:
    """A row of 5.6 mm less is within 10 mm; two rows are more."""
    assert () == outcome(_changed(("rep last row 34 more", "rep last row 33 more"))).problems
    assert (
        "seam-length" == _problem(_changed(("rep last row 34 more", "rep last row 32 more"))).code
    )


@pytest.mark.parametrize(
    ("old", "new", "hint"),
    [
        ("to: back.side", "to: back.sid", "Did you mean `side`?"),
        ("to: back.side", "to: bck.side", "Did you mean `back`?"),
        ("{row_ends: Front}", "{row_ends: Frnt}", "Did you mean `Front`?"),
        ("{row_ends: Front}", "{row: last rw}", "Did you mean `last row`?"),
        ("{row_ends: Front}", "{row_ends: Front, gauge: grund}", "Did you mean `ground`?"),
    ],
)
def test_names_that_are_nowhere_are_offered_mended(old: str, new: str, hint: str) -> None:
    """An edge, its piece, its row, its gauge."""
    problem = _problem(_changed((old, new)))
    assert ("name-unknown", hint) == (problem.code, problem.mend)


def test_a_count_that_an_edge_does_not_find_is_told() -> None:
    """A slip in the name of the count is offered mended."""
    problem = _problem(_changed(("{row_ends: Front}", "{sts: pouch_st}")))
    assert ("seam-unmeasured", "Did you mean `pouch_sts`?") == (problem.code, problem.mend)


def test_rows_that_do_not_come_out_are_told_alone() -> None:
    """What a broken row would measure says nothing of the seam."""
    problem = _problem(
        _changed(
            (
                "ch 1, sc in each st across, turn\n          rep last row 34",
                "ch 1, [sc 70] twice, turn\n          rep last row 20",
            )
        )
    )
    assert "row-" == problem.code[:4]


def test_rows_that_are_not_understood_are_told_alone() -> None:
    """Their edge has no length, and another row of it has one that is no mistake."""
    for right, wrong in (
        ("ch 1, sc in each st across, turn", "ch 1, sc in eech st across, turn"),
        ("rep last row 34", "rep last rwo 34"),
    ):
        assert "row-not-understood" == _problem(_changed((right, wrong))).code


def test_spacing_is_said_as_a_maker_counts_it() -> None:
    """24 sts on 36 rows, and the same edge on itself."""
    text = _changed(
        (SEAM, SEAM.replace("}", ", tolerance: 20 cm}")), ("{row_ends: Front}", "{sts: 24}")
    )
    seam = _seam(text)
    one, other = seam.first[0], seam.second[0]
    assert one is not None
    assert other is not None
    assert "2 sts to every 3 row ends" == spacing(one, other)
    assert "6 sts and 9 row ends" == pins(one, other)
    assert "row to row" == spacing(other, other)
    assert "stitch to stitch" == spacing(one, one)


def test_the_sleeves_of_the_tee_fit_their_armholes() -> None:
    """Both edges in all nine sizes, within the halves of their rows."""
    tee = Path(__file__).parents[2] / "patterns/groynemark-tee/pattern.yaml"
    found = outcome(tee.read_text("utf-8"))
    assert found.ready is not None
    sleeve = next(one for one in found.ready.proven.seams if one.seam.title == "Sleeves")
    sides = (sleeve.first[0], sleeve.second[0])
    assert ["60 sts", "34 rows"] == [counted(side) for side in sides if side is not None]
