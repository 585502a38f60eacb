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
