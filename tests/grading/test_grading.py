"""A number in every size: measurements, counts, what they measure, what can be wrong."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support import records
from tests.support.records import computed, gauge, listed, made, pattern
from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.grading import GradedPattern, grade
from workeven.pattern import Pattern
from workeven.problems import Problem

SML = Sizes(("S", "M", "L"))
HAND = {"hand": "18 (20, 22) cm"}


def _graded(one: Pattern) -> GradedPattern:
    checked = grade(one)
    assert () == checked.problems
    assert checked.value is not None
    return checked.value


def _measures(graded: GradedPattern, name: str) -> PerSize[Fraction]:
    measures = graded.counts[name].measures
    assert measures is not None
    return measures


def _only(one: Pattern) -> Problem:
    (problem,) = grade(one).problems
    return problem


def test_counts_of_the_mitts_come_out_as_the_design_says() -> None:
    """The hand less 1.5 cm, at 20 sts over 10 cm, a multiple of 3: 33 (36, 42)."""
    graded = _graded(
        pattern(
            SML,
            to_fit=HAND,
            measurements={"around": "hand - 1.5 cm"},
            counts=[computed(SML, "hand_sts", across="around", multiple=3)],
        )
    )
    count = graded.counts["hand_sts"]
    assert (33, 36, 42) == count.values.values
    assert (Fraction(33), Fraction(37), Fraction(41)) == (count.exact or count.values).values
    assert "nearest multiple of 3" == count.rule
    assert (Fraction(165), Fraction(180), Fraction(210)) == _measures(graded, "hand_sts").values


def test_measurements_build_on_each_other_in_any_order() -> None:
    """A formula may name one that stands below it, and a body measurement of two words."""
    graded = _graded(
        pattern(
            SML,
            to_fit={"upper arm": "28 (30, 32) cm"},
            measurements={"cuff": "sleeve / 2", "sleeve": "upper_arm + 4 cm"},
        )
    )
    assert (Fraction(160), Fraction(170), Fraction(180)) == graded.measurements["cuff"].values
    assert Fraction(280) == graded.measurements["upper arm"][0]


def test_gauge_over_four_inches_is_taken_as_written() -> None:
    """16 sts over 4 in (101.6 mm) make 40 in with 160 sts."""
    graded = _graded(
        pattern(
            SML,
            measurements={"bust": "40 in"},
            gauges=(gauge(sts=16, over=Fraction(1016, 10)),),
            counts=[computed(SML, "bust_sts", across="bust")],
        )
    )
    assert (160, 160, 160) == graded.counts["bust_sts"].values.values


def test_rows_are_counted_with_the_row_gauge() -> None:
    """19 cm along at 9 rows over 10 cm are 17.1 rows: 17."""
    graded = _graded(
        pattern(
            SML,
            measurements={"armhole": "19 cm"},
            gauges=(gauge(sts=16, rows=9),),
            counts=[computed(SML, "armhole_rows", along="armhole")],
        )
    )
    assert 17 == graded.counts["armhole_rows"].values[0]
    assert Fraction(1700, 9) == _measures(graded, "armhole_rows")[0]


def test_tie_goes_up() -> None:
    """22.5 stitches are 23, and 7.5 sixes are 8 of them."""
    graded = _graded(
        pattern(
            SML,
            measurements={"a": "11.25 cm", "b": "22.5 cm"},
            counts=[
                computed(SML, "ones", across="a"),
                computed(SML, "sixes", across="b", multiple=6),
            ],
        )
    )
    assert 23 == graded.counts["ones"].values[0]
    assert 48 == graded.counts["sixes"].values[0]


@pytest.mark.parametrize(
    ("parts", "count", "rule"),
    [
        ({}, 37, "nearest whole number"),
        ({"parity": "even"}, 38, "nearest even number"),
        ({"multiple": 6, "plus": 2}, 38, "nearest multiple of 6 plus 2"),
        ({"multiple": 6, "plus": -1}, 35, "nearest multiple of 6 minus 1"),
        ({"multiple": 3, "parity": "even"}, 36, "nearest multiple of 3, even"),
        ({"multiple": 6, "round": "up"}, 42, "multiple of 6, rounded up"),
        ({"multiple": 6, "round": "down"}, 36, "multiple of 6, rounded down"),
        ({"multiple": [2, 4, 6]}, 38, "nearest multiple of 2 (4, 6)"),
        ({"at_least": 38}, 38, "nearest whole number, at least 38"),
        ({"at_most": [36, 40, 40]}, 36, "nearest whole number, at most 36 (40, 40)"),
    ],
)
def test_each_rule_chooses_and_says_so(parts: dict[str, Any], count: int, rule: str) -> None:
    """185 mm at 20 sts over 10 cm are 37 exactly."""
    graded = _graded(
        pattern(
            SML,
            measurements={"around": "18.5 cm"},
            counts=[computed(SML, "sts", across="around", **parts)],
        )
    )
    assert (count, rule) == (graded.counts["sts"].values[0], graded.counts["sts"].rule)


def test_counts_are_made_from_other_counts() -> None:
    """Whole in every size, in any order."""
    graded = _graded(
        pattern(
            SML,
            counts=[
                made("half", "all / 2"),
                made("all", "back + 2 * front"),
                listed(SML, "back", [60, 66, 72]),
                listed(SML, "front", 30),
            ],
        )
    )
    assert (60, 63, 66) == graded.counts["half"].values.values
    assert "all / 2" == graded.counts["half"].rule
    assert ["half", "all", "back", "front"] == list(graded.counts)


def test_count_that_is_not_whole_names_its_sizes() -> None:
    """The whole message, with what it is made from, and the sizes that come out."""
    problem = _only(
        pattern(SML, counts=[made("half", "back / 2", 21), listed(SML, "back", [60, 65, 72])])
    )
    assert "count-not-whole" == problem.code
    assert "`half` is not a whole number." == problem.found
    assert "In M it is 32½, from `back` 65." == problem.expected
    assert (("M",), ("S", "L"), 21) == (problem.sizes, problem.good_sizes, problem.span.line)
    assert (("value", ("65/2",)),) == problem.figures


def test_count_less_than_zero_is_refused() -> None:
    """A row cannot hold it; zero leaves a step out and is fine."""
    problem = _only(
        pattern(SML, counts=[made("rest", "back - 60"), listed(SML, "back", [50, 60, 72])])
    )
    assert ("count-negative", ("S",)) == (problem.code, problem.sizes)


def test_graded_pattern_is_given_only_with_every_number() -> None:
    """A type is a promise."""
    assert grade(pattern(SML, counts=[made("half", "3 / 2")])).value is None


def test_unknown_name_is_located_in_its_formula() -> None:
    """The column of the name, and the nearest that exists."""
    problem = _only(pattern(SML, to_fit=HAND, measurements={"around": "hnd - 1.5 cm"}))
    assert "name-unknown" == problem.code
    assert "`around` needs `hnd`, and there is no measurement of that name." == problem.found
    assert "Did you mean `hand`?" == problem.mend
    assert (10, 1, 4) == (problem.span.line, problem.span.column, problem.span.end_column)


def test_one_mistake_gives_one_message() -> None:
    """What needs a formula that is at fault says nothing more, nor do counts over it."""
    problem = _only(
        pattern(
            SML,
            measurements={"a": "lost + 1 cm", "b": "a + 1 cm"},
            counts=[computed(SML, "sts", across="b"), made("half", "sts / 2")],
        )
    )
    assert ("name-unknown", 10) == (problem.code, problem.span.line)


def test_circle_is_named_whole() -> None:
    """The round of formulas is told once, with the places of the others."""
    problem = _only(
        pattern(SML, measurements={"a": "b + 1 cm", "b": "c", "c": "a", "d": "a + 2 cm"})
    )
    assert "name-circle" == problem.code
    assert "`a`, `b` and `c` are made from each other, in a circle." == problem.found
    assert "`a` needs `b`, `b` needs `c` and `c` needs `a`." == problem.expected
    assert [11, 12] == [note.span.line for note in problem.notes]


def test_measurement_made_from_itself_is_a_circle() -> None:
    """`hand: hand - 1.5 cm` with no body measurement of that name."""
    problem = _only(pattern(SML, measurements={"hand": "hand - 1.5 cm"}))
    assert ("name-circle", "`hand` is made from itself.") == (problem.code, problem.found)


def test_name_of_a_body_measurement_is_not_taken_twice() -> None:
    """A formula could not tell the two apart."""
    problems = grade(pattern(SML, to_fit=HAND, measurements={"hand": "18 cm"})).problems
    assert ["name-twice"] == [problem.code for problem in problems]


def test_length_beside_a_number_is_a_fault_in_words() -> None:
    """`hand - 1.5` forgets the unit: in every size, so that no size is named."""
    problem = _only(pattern(SML, to_fit=HAND, measurements={"around": "hand - 1.5"}))
    assert ("unit-formula", None, ()) == (problem.code, problem.sizes, problem.good_sizes)
    assert (
        "`around`: A length is joined to a plain number: `hand` is a length, `1½` a number."
        == problem.found
    )
    assert 6 == problem.span.column


def test_formula_that_fails_in_one_size_names_it() -> None:
    """Divided by what is zero in M alone."""
    problem = _only(
        pattern(SML, counts=[made("part", "60 / back"), listed(SML, "back", [1, 0, 2])])
    )
    assert ("unit-formula", ("M",), ("S", "L")) == (
        problem.code,
        problem.sizes,
        problem.good_sizes,
    )


def test_listed_count_is_held_against_its_length() -> None:
    """44 sts at 20 over 10 cm are 22 cm where 20 cm are wanted."""
    problem = _only(
        pattern(
            SML,
            to_fit=HAND,
            measurements={"around": "hand"},
            counts=[listed(SML, "hand_sts", [36, 44, 44], across="around")],
        )
    )
    assert "count-off" == problem.code
    assert "`hand_sts` comes out more than 1 cm away from `around`." == problem.found
    assert "In M: 20 cm is wanted; 44 sts make 22 cm, 2 cm too much." == problem.expected
    assert "Nearest to `around`: 36 (40, 44) sts." == problem.mend
    assert (("M",), ("S", "L")) == (problem.sizes, problem.good_sizes)
    assert ("off_cm", ("2",)) in problem.figures


def test_listed_count_may_be_off_by_a_centimetre() -> None:
    """The least tolerance is 10 mm, and the limit itself is within it."""
    _graded(
        pattern(
            SML,
            measurements={"around": "20 cm"},
            counts=[listed(SML, "sts", [38, 40, 42], across="around")],
        )
    )


def test_listed_count_over_nothing_stands_for_itself() -> None:
    """A thumb's stitches are the designer's own."""
    count = _graded(pattern(SML, counts=[listed(SML, "thumb_sts", [6, 6, 7])])).counts["thumb_sts"]
    assert ((6, 6, 7), None, None) == (count.values.values, count.measurement, count.measures)


def test_computed_count_is_within_half_its_multiple_by_default() -> None:
    """A multiple of 16 at 16 sts over 10 cm may be 5 cm off, and says nothing."""
    _graded(
        pattern(
            SML,
            measurements={"bust": "95 (104, 115) cm"},
            gauges=(gauge(sts=16),),
            counts=[computed(SML, "bust_sts", across="bust", multiple=16)],
        )
    )


def test_stated_tolerance_binds() -> None:
    """Where the pattern allows 1 cm, a multiple of 16 may not come near enough."""
    problem = _only(
        pattern(
            SML,
            measurements={"bust": "90 (104, 110) cm"},
            gauges=(gauge(sts=16),),
            tolerance=Fraction(10),
            counts=[computed(SML, "bust_sts", across="bust", multiple=16)],
        )
    )
    assert ("count-off", ("M",), ("S", "L")) == (problem.code, problem.sizes, problem.good_sizes)
    assert (
        "In M: 104 cm is wanted; 160 sts make 100 cm, 4 cm too little.\n"
        "It is the nearest multiple of 16.\n"
        "In M: the rule allows 144 (90 cm) or 176 (110 cm) next to it." == problem.expected
    )


def test_studio_tolerance_binds_and_its_units_speak() -> None:
    """What the studio says once, in inches where it works in inches."""
    problem = _only(
        pattern(
            SML,
            measurements={"bust": "40 in"},
            gauges=(gauge(sts=16, over=Fraction(1016, 10)),),
            studio=records.studio(tolerance=Fraction(254, 100), units="in"),
            counts=[computed(SML, "bust_sts", across="bust", multiple=9)],
        )
    )
    assert "`bust_sts` comes out more than 0.1 in away from `bust`." == problem.found
    assert "In S: 40 in is wanted; 162 sts make 40.5 in, 0.5 in too much." in problem.expected


def test_tolerance_of_the_pattern_goes_before_that_of_the_studio() -> None:
    """The nearer word counts."""
    _graded(
        pattern(
            SML,
            measurements={"bust": "104 cm"},
            gauges=(gauge(sts=16),),
            studio=records.studio(tolerance=Fraction(1)),
            tolerance=Fraction(40),
            counts=[computed(SML, "bust_sts", across="bust", multiple=16)],
        )
    )


def test_bound_that_pulls_a_count_away_is_said() -> None:
    """At most 30 sts where 40 are wanted."""
    problem = _only(
        pattern(
            SML,
            measurements={"around": "20 cm"},
            counts=[computed(SML, "sts", across="around", at_most=30)],
        )
    )
    assert "count-off" == problem.code
    assert "Change the bounds, the measurement" in problem.mend


@pytest.mark.parametrize(
    "parts",
    [
        {"multiple": 4, "plus": 1, "parity": "even"},
        {"multiple": 6, "at_least": 37, "at_most": 41},
        {"at_most": 0},
        {"multiple": 0},
    ],
)
def test_rule_that_no_number_meets_is_refused(parts: dict[str, Any]) -> None:
    """A contradiction in the rule is not a matter of length."""
    problem = _only(
        pattern(
            SML,
            measurements={"around": "20 cm"},
            counts=[computed(SML, "sts", across="around", **parts)],
        )
    )
    assert ("count-impossible", ("S", "M", "L")) == (problem.code, problem.sizes)


def test_missing_gauge_is_located() -> None:
    """The count that names it is the place, the nearest name is offered."""
    problem = _only(
        pattern(
            SML,
            measurements={"around": "20 cm"},
            counts=[computed(SML, "sts", across="around", gauge="grond", line=33)],
        )
    )
    assert ("gauge-missing", 33) == (problem.code, problem.span.line)
    assert "`sts` is counted in the gauge `grond`, which is not given." == problem.found
    assert "Did you mean `ground`?" == problem.mend


def test_listed_count_takes_the_only_gauge_and_asks_among_several() -> None:
    """With two gauges it must be said which."""
    parts: dict[str, Any] = {
        "measurements": {"around": "20 cm"},
        "counts": [listed(SML, "sts", 40, across="around")],
    }
    _graded(pattern(SML, **parts))
    problem = _only(pattern(SML, gauges=(gauge(), gauge("rib", 24)), **parts))
    assert ("gauge-missing", "Add `gauge`. The gauges are `ground` and `rib`.") == (
        problem.code,
        problem.mend,
    )


def test_rows_need_a_gauge_with_rows() -> None:
    """Found where the rows are counted, with a note where the gauge stands."""
    problem = _only(
        pattern(
            SML,
            measurements={"armhole": "19 cm"},
            gauges=(gauge(rows=None),),
            counts=[computed(SML, "armhole_rows", along="armhole")],
        )
    )
    assert ("gauge-no-rows", [3]) == (problem.code, [note.span.line for note in problem.notes])


def test_a_gauge_without_rows_is_told_once_for_all_its_counts() -> None:
    """Two counts need the rows of one gauge: one thing is missing."""
    problem = _only(
        pattern(
            SML,
            measurements={"depth": "20 cm", "length": "40 cm"},
            gauges=(gauge(rows=None),),
            counts=[
                computed(SML, "deep", along="depth"),
                computed(SML, "long", along="length"),
            ],
        )
    )
    assert "gauge-no-rows" == problem.code


def test_count_over_an_unknown_measurement_is_refused() -> None:
    """Counts may be taken over measurements of the piece and of the body."""
    problem = _only(
        pattern(SML, to_fit=HAND, counts=[computed(SML, "sts", across="hnad")]),
    )
    assert ("name-unknown", "Did you mean `hand`?") == (problem.code, problem.mend)
    _graded(pattern(SML, to_fit=HAND, counts=[computed(SML, "sts", across="hand")]))


def test_length_of_nothing_is_not_counted() -> None:
    """In S the ease eats the whole hand."""
    problem = _only(
        pattern(
            SML,
            to_fit=HAND,
            measurements={"around": "hand - 18 cm"},
            counts=[computed(SML, "sts", across="around")],
        )
    )
    assert ("size-no-length", ("S",), ("M", "L")) == (
        problem.code,
        problem.sizes,
        problem.good_sizes,
    )


def test_larger_size_must_not_come_out_smaller() -> None:
    """A multiple of its own in M makes M smaller than S, though it is wanted larger."""
    problem = _only(
        pattern(
            SML,
            measurements={"around": "23.5 (24, 30) cm"},
            counts=[computed(SML, "sts", across="around", multiple=[6, 20, 6])],
        )
    )
    assert ("size-order", ("M",)) == (problem.code, problem.sizes)
    assert (
        "`around` is wanted larger in M than in S; 48 makes 24 cm (9½ in), "
        "40 makes 20 cm (7¾ in)." == problem.expected
    )


def test_sizes_may_come_out_alike() -> None:
    """26 and 27 cm at the same even count: a step of the gauge, not a mistake."""
    graded = _graded(
        pattern(
            SML,
            measurements={"neck": "25 (25.5, 25.7) cm"},
            gauges=(gauge(sts=16),),
            counts=[computed(SML, "neck_sts", across="neck", parity="even")],
        )
    )
    assert (40, 40, 42) == graded.counts["neck_sts"].values.values


def test_measurement_may_fall_with_size() -> None:
    """Sleeves of dropped shoulders are shorter in larger sizes."""
    _graded(
        pattern(
            SML,
            measurements={"sleeve": "25 (24, 23) cm"},
            counts=[computed(SML, "sleeve_rows", along="sleeve")],
        )
    )


def test_body_measurement_that_falls_is_advice() -> None:
    """S (M, L) of 86 (76, 96) cm is most likely a slip in typing."""
    checked = grade(pattern(SML, to_fit={"bust": "86 (76, 96) cm"}))
    assert checked.value is not None
    (problem,) = checked.problems
    assert ("size-falls", ("M",), 2) == (problem.code, problem.sizes, problem.span.line)
    assert "S is 86 cm (33¾ in), M is 76 cm (30 in)." == problem.expected


def test_many_formulas_are_no_deep_recursion() -> None:
    """A stranger's two thousand measurements, each made from the next."""
    chain = {f"n{number}": f"n{number + 1}" for number in range(2000)}
    graded = _graded(pattern(Sizes(("",)), measurements={**chain, "n2000": "1 cm"}))
    assert Fraction(10) == graded.measurements["n0"][0]


def test_counts_that_multiply_each_other_stay_bounded() -> None:
    """Squares of squares are refused before they grow."""
    squares = [made(f"n{number}", f"n{number + 1} * n{number + 1}") for number in range(40)]
    problem = _only(pattern(Sizes(("",)), counts=[*squares, listed(Sizes(("",)), "n40", 99_999)]))
    assert "unit-formula" == problem.code


@given(
    wanted=st.lists(st.integers(50, 3000), min_size=3, max_size=3),
    sts=st.integers(4, 60),
    multiple=st.integers(1, 24),
    plus=st.integers(0, 30),
)
def test_what_a_computed_count_measures_is_within_half_its_step(
    wanted: list[int], sts: int, multiple: int, plus: int
) -> None:
    """Above the first allowed count, the nearest is never further than half a step away."""
    one = pattern(
        SML,
        measurements={"around": f"{wanted[0]} ({wanted[1]}, {wanted[2]}) mm"},
        gauges=(gauge(sts=sts),),
        counts=[computed(SML, "sts", across="around", multiple=multiple, plus=plus)],
    )
    count = (grade(one).value or pytest.fail("no count")).counts["sts"]
    half_step = Fraction(multiple * 100, sts) / 2
    for chosen, made_mm, mm in zip(count.values, count.measures or (), wanted, strict=True):
        assert 0 == (chosen - plus) % multiple
        assert Fraction(100 * chosen, sts) == made_mm
        assert abs(made_mm - mm) <= half_step or chosen in {plus, multiple}


def test_a_part_that_is_not_whole_names_the_multiple_that_mends_it() -> None:
    """An eighth of a multiple of 6: with 8 it is whole, 24 keeps the 6 too."""
    one = pattern(
        SML,
        measurements={"around": "49 (53, 57) cm"},
        counts=[
            computed(SML, "hat_sts", across="around", multiple=6),
            made("wedge", "hat_sts / 8"),
        ],
    )
    problem = _only(one)
    assert problem.code == "count-not-whole"
    assert problem.mend == (
        "With `multiple: 8` for `hat_sts` it is whole in every size "
        "(`multiple: 24` keeps the 6 too)."
    )


@pytest.mark.parametrize("length", ["26 (20, 30) cm", "19 (21.5, 20) cm"])
def test_two_sizes_swapped_are_told(length: str) -> None:
    """A list that rises and falls has lost its order, more often than not."""
    problem = _only(pattern(SML, measurements={"depth": length}))
    assert problem.code == "size-falls"


@pytest.mark.parametrize("length", ["26 (24, 20) cm", "20 cm", "20 (22, 22) cm"])
def test_a_list_that_only_falls_is_meant_so(length: str) -> None:
    """Sleeves are shorter where the shoulder drops further."""
    assert () == grade(pattern(SML, measurements={"depth": length})).problems


def test_swapped_counts_are_told_and_zeros_are_no_numbers() -> None:
    """A size that has none of it neither rises nor falls."""
    swapped = _only(pattern(SML, counts=[listed(SML, "band_sts", [32, 48, 38])]))
    assert ("size-falls", ("L",)) == (swapped.code, swapped.sizes)
    assert () == grade(pattern(SML, counts=[listed(SML, "dart_sts", [4, 0, 6])])).problems
