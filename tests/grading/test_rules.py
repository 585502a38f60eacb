"""Rules between counts, between sizes and between rows: match, multiples, steps, endings."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.pattern_files import GOOD, changed, outcome
from tests.support.reading import parsed
from tests.support.records import computed, listed, made, pattern
from workeven.arithmetic import formulas
from workeven.arithmetic.per_size import Sizes
from workeven.grading import GradedPattern, grade
from workeven.pattern import Count, Pattern

SML = Sizes(("S", "M", "L"))
FIVE = Sizes(("S", "M", "L", "XL", "2X"))


def _pattern(*counts: Count, sizes: Sizes = SML, width: str = "20 (25, 30) cm") -> Pattern:
    return pattern(sizes, measurements={"width": width, "other": width}, counts=counts)


def _graded(one: Pattern) -> GradedPattern:
    checked = grade(one)
    assert () == checked.problems
    assert checked.value is not None
    return checked.value


def _width(name: str, sizes: Sizes = SML, **rules: Any) -> Count:  # noqa: ANN401, any rule
    return computed(sizes, name, across="width", **rules)


def test_a_count_is_the_same_as_another() -> None:
    """20 sts over 10 cm: 40 (50, 60); a multiple of 4 makes it 40 (52, 60), and the match too."""
    graded = _graded(
        _pattern(
            _width("sleeve_sts", match=formulas.read("body_sts")), _width("body_sts", multiple=4)
        )
    )
    assert (40, 52, 60) == graded.counts["sleeve_sts"].values.values
    assert "the same as body_sts" == graded.counts["sleeve_sts"].rule


def test_a_match_may_be_a_formula_of_a_formula() -> None:
    """Twice the half of a computed count is that count."""
    graded = _graded(
        _pattern(
            _width("around", multiple=2),
            made("half", "around / 2"),
            _width("again", match=formulas.read("2 * half"), parity="even"),
        )
    )
    assert graded.counts["around"].values == graded.counts["again"].values


def test_a_match_that_breaks_its_own_rule_is_told_for_all_sizes_at_once() -> None:
    """40 (50, 60) sts are to match over a multiple of 20: M is not, and its neighbours are told."""
    (problem,) = grade(
        _pattern(_width("a"), _width("b", match=formulas.read("a"), multiple=20))
    ).problems
    assert ("count-match", ("M",), ("S", "L")) == (problem.code, problem.sizes, problem.good_sizes)
    assert "In M: `a` is 50; the rule allows 40 or 60." in problem.expected


def test_a_count_is_a_multiple_of_another() -> None:
    """Of 7 in S and M and 8 in L, nearest to 40 (50, 60): 42 (49, 64), ties going up."""
    graded = _graded(
        _pattern(listed(SML, "repeat", (7, 7, 8)), _width("body", multiple_of="repeat"))
    )
    assert (42, 49, 64) == graded.counts["body"].values.values
    assert "nearest multiple of 7 (7, 8)" == graded.counts["body"].rule


def test_names_that_are_nowhere_and_circles_are_told() -> None:
    """A slip in the name is offered mended; two counts that match each other are a circle."""
    (problem,) = grade(_pattern(_width("body"), _width("b", match=formulas.read("bdy")))).problems
    assert ("name-unknown", "Did you mean `body`?") == (problem.code, problem.mend)
    (circle,) = grade(
        _pattern(_width("a", match=formulas.read("b")), _width("b", match=formulas.read("a")))
    ).problems
    assert "name-circle" == circle.code


def test_steps_are_kept_within_bounds() -> None:
    """40 (50, 72, 80, 90) with steps of at most 16: the jump of 22 is shared out."""
    graded = _graded(
        _pattern(
            _width("body", FIVE, step_at_most=16, multiple=2),
            sizes=FIVE,
            width="20 (25, 33.5, 40, 45) cm",
        )
    )
    assert (40, 50, 66, 80, 90) == graded.counts["body"].values.values
    assert "nearest multiple of 2, steps of at most 16" == graded.counts["body"].rule


def test_the_least_step_holds_where_the_length_changes() -> None:
    """Sizes of one width may stay alike; others differ by at least 4 sts."""
    graded = _graded(
        _pattern(_width("neck", step_at_least=4), width="20 (20, 21.5) cm"),
    )
    first, second, third = graded.counts["neck"].values.values
    assert (0, True) == (second - first, third - second >= 4)


@given(
    st.lists(st.integers(60, 900), min_size=5, max_size=5).map(sorted),
    st.integers(1, 8),
    st.integers(8, 40),
)
def test_counts_in_steps_obey_their_rule(lengths: list[int], multiple: int, most: int) -> None:
    """Whatever is wanted: every step is in bounds and every count a multiple, or it is told."""
    widths = f"{lengths[0]} ({', '.join(map(str, lengths[1:]))}) mm"
    graded = grade(
        _pattern(
            _width("body", FIVE, multiple=multiple, step_at_most=most), sizes=FIVE, width=widths
        )
    )
    if graded.value is None:
        assert ["count-step"] == [problem.code for problem in graded.problems]
        return
    values = graded.value.counts["body"].values.values
    assert not [one for one in values if one % multiple]
    assert not [a for a, b in pairwise(values) if abs(b - a) > most]


@pytest.mark.parametrize(
    ("ends", "even"),
    [
        ("end: wrong side", True),
        ("end: right side", False),
        ("begin: wrong side, end: right side", True),
        ("begin: wrong side, end: wrong side", False),
    ],
)
def test_rows_end_on_the_side_that_is_asked_for(ends: str, *, even: bool) -> None:
    """From a right-side row to a wrong-side row there is an even number of rows."""
    text = changed(
        "  mat_sts:", f"  mat_rows: {{along: length, gauge: ground, {ends}}}\n  mat_sts:"
    )
    one = parsed(text).value
    assert one is not None
    rows = grade(one).value
    assert rows is not None
    assert [even] * 3 == [count % 2 == 0 for count in rows.counts["mat_rows"].values]


def test_an_ending_belongs_to_rows() -> None:
    """Stitches across a width have no last row."""
    text = changed("multiple: 6, plus: 1}", "multiple: 6, plus: 1, end: wrong side}")
    assert ["count-basis"] == [problem.code for problem in parsed(text).problems]


def test_a_count_comes_out_through_a_piece() -> None:
    """Without a multiple, 20 (24, 27) cm are 32 (38, 43) sts; scallops take 31 (37, 43)."""
    text = changed("multiple: 6, plus: 1}", "comes_out: mat}")
    found = outcome(text)
    assert () == found.problems
    assert found.ready is not None
    count = found.ready.proven.graded.counts["mat_sts"]
    assert (31, 37, 43) == count.values.values
    assert "nearest whole number that comes out through mat" == count.rule


def test_a_piece_to_come_out_through_must_exist() -> None:
    """A slip in its name is offered mended."""
    (problem,) = parsed(changed("multiple: 6, plus: 1}", "comes_out: mats}")).problems
    assert ("name-unknown", "Did you mean `mat`?") == (problem.code, problem.mend)


def test_what_never_comes_out_is_told_by_its_row() -> None:
    """No count mends a row that names a stitch that is not there: only the row is told."""
    text = GOOD.replace(
        "          fasten off\n", "          ch 1, sc in next 3 dtr\n          fasten off\n"
    ).replace("multiple: 6, plus: 1}", "multiple: 6, plus: 1, comes_out: mat}")
    assert not [problem.code for problem in outcome(text).problems if problem.code[:3] != "row"]


def test_listed_counts_with_a_rule_have_its_tolerance() -> None:
    """A multiple of 8 may be 4 sts off, 20 mm: 44 for 40 sts is let pass, 48 is not."""
    rule: dict[str, Any] = {"multiple": SML.all(8), "plus": SML.all(4)}
    good = replace_rule(listed(SML, "body", (44, 52, 60), across="width"), rule)
    assert () == grade(_pattern(good)).problems
    off = replace_rule(listed(SML, "body", (36, 52, 68), across="width"), rule)
    (problem,) = grade(_pattern(off)).problems
    assert ("count-off", ("L",)) == (problem.code, problem.sizes)


def replace_rule(count: Any, rule: dict[str, Any]) -> Count:  # noqa: ANN401, a listed count
    """The listed count with a rule."""
    from workeven.records import replace

    changed_count: Count = replace(count, **rule)
    return changed_count


def test_next_counts_and_tolerance_stand_beside_the_choice() -> None:
    """Of 36 from a multiple of 3 the neighbours are 33 and 39; 7.5 mm is less than 10 mm."""
    count = _graded(_pattern(_width("body", multiple=3), width="18.5 cm")).counts["body"]
    assert count.lower is not None
    assert count.higher is not None
    assert count.tolerance is not None
    assert (36, 33, 39) == (count.values[0], count.lower[0], count.higher[0])
    assert Fraction(10) == count.tolerance[0]


def test_a_size_that_jumps_is_advice() -> None:
    """40 (50, 60, 64, 80): the last step is 8 cm where 5 are wanted, as in all others."""
    rule = {"multiple": (1, 1, 1, 16, 16)}
    one = _pattern(_width("body", FIVE, **rule), sizes=FIVE, width="20 (25, 30, 35, 40) cm")
    (problem,) = [one for one in grade(one).problems if one.code == "size-jump"]
    assert ("2X",) == problem.sizes


def test_lengths_that_jump_themselves_are_no_advice() -> None:
    """A body that grows unevenly is followed."""
    one = _pattern(_width("body", FIVE), sizes=FIVE, width="20 (25, 36, 41, 46) cm")
    assert () == grade(one).problems
