"""Lengths that rows are worked up to: what is measured, what is held, what is told."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.support.pattern_files import changed, outcome
from workeven.arithmetic.units import CM

UNTIL = "rep last row until piece measures {length}"
ROWS = "ch 1, sc in each st across, turn ({mat_sts} sc)\n"
TWO_ROWS = f"{ROWS}          {ROWS}"


def rows_of_the_third_line(text: str) -> tuple[int | None, ...]:
    """How many rows the line that repeats stands for, by size; the pattern is ready."""
    ready = outcome(text).ready
    assert ready is not None, [problem.found for problem in outcome(text).problems]
    section = next(one for one in ready.proven.pieces[0].sections if len(one.rows) > 2)
    return tuple(entry.times if entry else None for entry in section.rows[3].per_size)


def codes(text: str) -> list[str]:
    """The codes of what is told."""
    return [problem.code for problem in outcome(text).problems]


def test_a_measurement_of_an_unused_count_is_not_printed_as_finished() -> None:
    """20 cm are wanted and nothing is worked by it: the figure would be a wish."""
    text = changed("  length: 20", "  depth: 99 cm\n  length: 20").replace(
        "counts:\n", "counts:\n  depth_rows: {along: depth, gauge: ground}\n"
    )
    ready = outcome(text).ready
    assert codes(text) == ["count-unused"]
    assert ready is not None
    assert set(ready.proven.finished) == {"width", "length"}


def test_a_count_made_from_a_measured_one_holds_its_measurement() -> None:
    """Rows name the half, and the whole is proven with it."""
    text = changed("multiple: 6, plus: 1}\n", "multiple: 12}\n  half: {is: mat_sts / 2}\n").replace(
        "{mat_sts}", "{half}"
    )
    text = text.replace("{mat_sts + 1}", "{half + 1}").replace(
        "ch 1, sc in first st, *sk 2, 5 dc in next st, sk 2, sc in next st; rep from * across",
        "ch 1, sc in each st across",
    )
    ready = outcome(text).ready
    assert ready is not None
    assert set(ready.proven.finished) == {"width", "length"}
    assert codes(text) == []


def test_a_measurement_that_nothing_measures_is_told() -> None:
    """One that is a part of another is used; one by itself is not."""
    used = changed("  length: 20 (24, 27) cm", "  hem: 2 cm\n  length: hem + 18 cm")
    assert codes(used) == []
    assert codes(changed("  length: 20", "  depth: 99 cm\n  length: 20")) == ["name-unused"]


def test_a_measurement_that_stands_in_a_sum_only_has_no_figure_and_that_is_told() -> None:
    """Rows hold the sum; how it divides they do not."""
    text = changed("  length: 20 (24, 27) cm", "  band: 4 cm\n  brim: 16 cm").replace(
        "{length}", "{band + brim}"
    )
    found = [(problem.code, problem.found.split("`")[1]) for problem in outcome(text).problems]
    assert found == [("name-unused", "band"), ("name-unused", "brim")]


def test_a_length_written_as_a_sum_is_held_against_its_rows() -> None:
    """Rows are 1.7 cm high: an even number of them is 1.3 cm off the 22 cm of size S."""
    gauge = changed("rows: 18, over: 10 cm", "rows: 18, over: 30 cm")
    text = gauge.replace("{length}", "{length + 2 cm}, ending with a WS row")
    assert "row-off-length" in codes(text + "tolerance: 5 mm\n")


@pytest.mark.parametrize("words", ["until mat measures", "until work measures", "until it is"])
def test_words_for_the_piece_measure_the_piece(words: str) -> None:
    """``mat`` is the title of the piece."""
    text = changed("until piece measures", words)
    assert rows_of_the_third_line(text) == rows_of_the_third_line(changed(UNTIL, UNTIL))


def test_a_section_by_its_name_is_measured_from_where_it_begins() -> None:
    """``until band measures``, in a section called Band, is not the piece from its chain."""
    text = changed("      - title: Scallops\n        rows: |\n", "      - title: Ribbed band\n")
    text = text.replace(
        "      - title: Ribbed band\n",
        "      - title: Ribbed band\n        rows: |\n"
        "          sc in each st across, turn\n"
        "          rep last row until band measures 5 cm\n",
    )
    ready = outcome(text).ready
    assert ready is not None, [problem.found for problem in outcome(text).problems]
    rows = ready.proven.pieces[0].sections[1].rows
    assert [8, 8, 8] == [entry and entry.times for entry in rows[1].per_size]


def test_a_part_that_is_neither_piece_nor_section_is_not_understood() -> None:
    """The words are shown, and both ways to say it."""
    text = changed("until piece measures", "until brim measures")
    (problem,) = outcome(text).problems
    assert problem.code == "row-not-understood"
    assert problem.found.startswith("“brim” is neither this piece (`Mat`)")


def test_for_below_rows_of_the_section_is_told_and_until_section_is_clear() -> None:
    """22 rows above are half of it: so much in all, or so much more."""
    rows = ROWS + "          rep last row 20 more times\n"
    plain = changed(ROWS, rows).replace(UNTIL, "rep last row for {length}")
    assert codes(plain) == ["row-length-start"]
    clear = plain.replace("for {length}", "until section measures {length}")
    assert codes(clear) == []
    assert outcome(plain).problems[0].sizes == ("S", "M", "L")


def test_for_below_only_the_rows_that_it_repeats_is_no_question() -> None:
    """They are what is worked for so long."""
    text = changed(ROWS, TWO_ROWS).replace(
        UNTIL, "rep last 2 rows for {length}, ending with a WS row"
    )
    assert codes(text) == []


def test_a_repeat_of_two_rows_that_stops_after_the_first_is_told() -> None:
    """In the sizes in which it does; with an ending asked for, in none."""
    text = changed(ROWS, TWO_ROWS).replace("rep last row until", "rep last 2 rows until")
    (problem,) = outcome(text).problems
    assert (problem.code, problem.sizes) == ("row-repeat-halfway", ("S",))
    assert codes(text.replace("{length}", "{length}, ending with a RS row")) == []


def test_finished_length_is_that_of_the_rows() -> None:
    """43 rows at 18 over 10 cm are 23.9 cm where 24 are wanted."""
    ready = outcome(changed(UNTIL, UNTIL)).ready
    assert ready is not None
    assert Fraction(43, 18) * 10 * CM == ready.proven.finished["length"][1]
