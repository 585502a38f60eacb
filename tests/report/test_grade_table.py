"""How counts were chosen: each cell follows from what stands beside it."""

from __future__ import annotations

import csv
import io
import json
from fractions import Fraction

from tests.support.pattern_files import GOOD, changed, outcome
from tests.support.records import computed, gauge, made, pattern
from workeven.arithmetic import formulas
from workeven.arithmetic.per_size import Sizes
from workeven.arithmetic.units import INCH
from workeven.grading import GradedPattern, grade
from workeven.report import grade_table

SML = Sizes(("S", "M", "L"))


def _of(text: str) -> GradedPattern:
    ready = outcome(text).ready
    assert ready is not None
    return ready.proven.graded


def _mitts() -> GradedPattern:
    graded = grade(
        pattern(
            SML,
            to_fit={"hand": "18 (20, 22) cm"},
            measurements={"around": "hand - 1.5 cm"},
            counts=[
                computed(SML, "hand_sts", across="around", multiple=3),
                made("half", "hand_sts / 3"),
                computed(SML, "edge", across="around", match=formulas.read("3 * half")),
            ],
        )
    ).value
    assert graded is not None
    return graded


def test_the_table_shows_formula_numbers_and_neighbours() -> None:
    """At 20 sts over 10 cm: 18.5 cm are 37 sts, the nearest multiple of 3 is 36, or 18 cm."""
    lines = grade_table.as_text(_mitts()).splitlines()
    assert "hand_sts: sts for around, gauge ground; nearest multiple of 3" in lines
    assert "  around = hand - 1.5 cm" in lines
    medium = next(line for line in lines if "20 cm - 1.5 cm" in line).split()
    assert "M 20 cm - 1.5 cm = 18.5 cm 37 36 18 cm -0.5 cm 1 cm 33 39".split() == medium
    assert any("36 / 3 = 12" in line for line in lines)
    assert any("3 * 12 = 36" in line for line in lines)


def test_json_holds_the_exact_fraction() -> None:
    """24 cm at 16 sts over 10 cm are 38.4 sts, 192/5."""
    cell = json.loads(grade_table.as_json(_of(GOOD)))["counts"]["mat_sts"]["sizes"]["M"]
    assert {
        "formula": "24 cm",
        "worked_out": "24 cm",
        "wanted": "24",
        "exact": "38.4",
        "exact_fraction": "192/5",
        "chosen": 37,
        "measures": "23.125",
        "difference": "-0.875",
        "tolerance": "1.875",
        "lower": 31,
        "higher": 43,
        "alone": None,
        "match": None,
    } == cell


def test_csv_has_a_row_for_each_count_and_size() -> None:
    """Three sizes of one count, and every figure follows from those beside it."""
    rows = list(csv.DictReader(io.StringIO(grade_table.as_csv(_of(GOOD)))))
    assert [("mat_sts", "S"), ("mat_sts", "M"), ("mat_sts", "L")] == [
        (row["count"], row["size"]) for row in rows
    ]
    for row in rows:
        assert Fraction(row["exact_fraction"]) == Fraction(row["wanted"]) * 16 / 10
        assert Fraction(row["measures"]) == Fraction(row["chosen"]) * 10 / 16
        assert Fraction(row["difference"]) == Fraction(row["measures"]) - Fraction(row["wanted"])


def test_a_size_that_a_spreadsheet_would_run_is_words() -> None:
    """A name that begins with an equals sign is set in quotes."""
    graded = _of(changed("S (M, L)", '"=S (M, L)"'))
    assert grade_table.as_csv(graded).splitlines()[1].startswith("mat_sts,'=S,")


def test_inches_are_those_of_the_studio() -> None:
    """60 sts in Lion Brand's gauge, 16 sc over 3.5 in, are 13.125 in.

    Gauge: Lion Brand Coboo shell top, joann.com/312361226P403.html.
    """
    from tests.support.records import studio

    graded = grade(
        pattern(
            SML,
            measurements={"front": "13 in"},
            gauges=(gauge(sts=16, over=Fraction(889, 10)),),
            counts=[computed(SML, "front_sts", across="front", multiple=6)],
            studio=studio(units="in"),
        )
    ).value
    assert graded is not None
    assert "13 in  59.43      60  13.125 in" in grade_table.as_text(graded)


def test_a_row_gauge_over_another_length_is_told_so() -> None:
    """14 sts over 3 in and 9 rows over 4 in: a row is 10.16/9 cm, not 7.62/9."""
    one = gauge(sts=14, rows=9, over=3 * INCH, rows_over=4 * INCH)
    graded = grade(pattern(SML, gauges=(one,))).value
    assert graded is not None
    told = "14 sts over 7.62 cm and 9 rows over 10.16 cm; 1 st is 7.62/14 = 0.544 cm"
    assert f"Gauge ground: {told}, 1 row 10.16/9 = 1.129 cm" in grade_table.as_text(graded)
    facts = json.loads(grade_table.as_json(graded))["gauges"]["ground"]
    assert ("7.62", "10.16") == (facts["over"], facts["rows_over"])


def test_a_count_that_lies_nearly_halfway_shows_on_which_side() -> None:
    """21.1 cm at 13 sts over 10.16 cm are 26.998: nearer to 26 than 28, which two decimals hide."""
    graded = grade(
        pattern(
            SML,
            measurements={"band": "21.1 (22, 24) cm"},
            gauges=(gauge(sts=13, over=4 * INCH),),
            counts=[computed(SML, "band_sts", across="band", multiple=2)],
        )
    ).value
    assert graded is not None
    assert "21.1 cm  26.998      26" in grade_table.as_text(graded)


def test_halves_and_sizes_that_were_moved_are_told_below_the_table() -> None:
    """20 sts over 10 cm: 10.25 cm are 20.5, 12 and 15 cm are 24 and 30.

    Steps of at least 6: 18, 24 and 30 are 2.5 away in all; 19, 25 and 31 are 1.5 + 1 + 1 = 3.5.
    """
    graded = grade(
        pattern(
            SML,
            measurements={"band": "10.25 (12, 15) cm", "other": "10.25 (12, 15) cm"},
            counts=[
                computed(SML, "free", across="band"),
                computed(SML, "kept", across="other", step_at_least=6),
            ],
        )
    ).value
    assert graded is not None
    text = grade_table.as_text(graded)
    assert "  S: 20.5 is halfway; halfway goes up." in text
    assert "  S: 21 by itself; 18 obeys the whole rule." in text
    assert (18, 24, 30) == graded.counts["kept"].values.values


def test_neighbours_obey_bounds_and_there_are_none_beside_a_match() -> None:
    """At most 24 there is no 25; what is to be the same as another cannot be one more."""
    graded = grade(
        pattern(
            SML,
            measurements={"band": "13.5 cm"},
            counts=[
                computed(SML, "bound", across="band", at_most=24),
                computed(SML, "same", across="band", match=formulas.read("bound")),
            ],
        )
    ).value
    assert graded is not None
    bound, same = graded.counts["bound"], graded.counts["same"]
    assert bound.lower is not None
    assert same.lower is not None
    assert ((23,) * 3, (None,) * 3) == (bound.lower.values, same.lower.values)
    assert bound.higher == same.higher == SML.all(None)
    assert "beyond the tolerance" in grade_table.as_text(graded)


def test_a_length_that_rows_are_worked_to_is_listed() -> None:
    """It has no count, and is asked for all the same."""
    graded = grade(pattern(SML, measurements={"depth": "12 (13, 14) cm"})).value
    assert graded is not None
    lines = grade_table.as_text(graded).splitlines()
    assert "depth: a length without a count" in lines
    assert "  M  13 cm" in lines


def test_the_ease_that_is_left_stands_beside_what_is_wanted() -> None:
    """31, 37 and 43 sts of 6.25 mm are 19.375, 23.125 and 26.875 cm, on 18, 22 and 25 cm + 2 cm."""
    graded = _of(
        GOOD.replace(
            "names: S (M, L)",
            "names: S (M, L)\n  to_fit:\n    waist: 18 (22, 25) cm\n  ease: {waist: 2 cm}",
        ).replace("width: 20 (24, 27) cm", "width: waist + waist_ease")
    )
    told = "Ease left at waist, by width: S +1.375 cm, M +1.125 cm, L +1.875 cm (wanted: 2 cm)"
    assert told in grade_table.as_text(graded)
    ease = json.loads(grade_table.as_json(graded))["ease"]["waist"]
    assert ("width", 1, "1.125") == (ease["of"], ease["times"], ease["sizes"]["M"])
