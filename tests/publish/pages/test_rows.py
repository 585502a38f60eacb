"""Lines as a page prints them: the designer's words with every number filled in."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.publish.samples import HERE, SIZES, mitt_rows, proven_row, row_in_size
from tests.support.as_read import as_read
from workeven.proof import ProvenRow, RowInSize
from workeven.publish.pages import rows
from workeven.publish.pages.choices import marked
from workeven.publish.pages.rows import Names, place
from workeven.records import replace

NAMES = Names(
    counts={"hand_sts": SIZES.each((33, 36, 42))},
    lengths={"cuff": SIZES.each((Fraction(60), Fraction(64), Fraction(68)))},
    meaning=lambda name: {"sc": "single crochet"}.get(name, ""),
    units="cm",
)


def row_words(proven: ProvenRow, names: Names) -> str:
    """The sentence with its marks as elements, as the page has it."""
    return marked(rows.row_words(proven, names))


def count(proven: ProvenRow) -> str:
    """The count as it reads."""
    return as_read(rows.count(proven))


def number(proven: ProvenRow) -> str:
    """The number as it reads."""
    return as_read(rows.number(proven))


def side(proven: ProvenRow) -> str:
    """The side as it reads."""
    return as_read(rows.side(proven))


def worked(words: str, **more: object) -> ProvenRow:
    """A line that all three sizes work with 12 stitches."""
    return proven_row(words, [row_in_size(12, 4, 4, **more) for _ in SIZES.names], anchor="x")


def numbered(*spans: tuple[int, int] | None) -> ProvenRow:
    """A line with these first and last numbers in S, M and L."""
    per_size: list[RowInSize | None] = [span and row_in_size(12, *span) for span in spans]
    return proven_row("sc around", per_size, anchor="x")


def test_rows_with_others_between_them_are_told_as_they_are_written() -> None:
    """Not as a range, whose rows between are others; the count says of which of them it is."""
    listed = proven_row(
        "Rnds 4, 6 and 8 (WS): sc around", [row_in_size(12, 4, 8)] * len(SIZES.names), anchor="x"
    )
    assert (number(listed), count(listed)) == ("Rnds 4, 6 and 8", "12 sts (Rnd 8)")
    every = proven_row(
        "Rnd 2 and all even rnds: sc around",
        [row_in_size(12, 2, 2)] * len(SIZES.names),
        anchor="x",
    )
    assert (number(every), count(every)) == ("Rnd 2 and all even rnds", "12 sts (Rnd 2)")


def test_a_formula_is_replaced_by_its_numbers() -> None:
    """Where braces stand in the file, the page has the count of each size."""
    assert (
        row_words(mitt_rows()[0], NAMES)
        == "ch <span data-we-n>33 (36, 42)</span>, join with sl st to first ch"
    )


def test_a_formula_has_a_dash_for_a_size_that_does_not_work_the_row() -> None:
    """The place of a number in the list always tells its size."""
    row = proven_row("sc {hand_sts}", [None, row_in_size(36, 1, 1), None], anchor="x")
    assert "<span data-we-n>– (36, –)</span>" in row_words(row, NAMES)


def test_numbers_by_size_keep_the_designers_spelling() -> None:
    """A list that the designer wrote stays as it is, with its values beside it."""
    words = row_words(worked("sc 6 (7) (8), sc in each st around"), NAMES)
    assert "<span data-we-n>6 (7) (8)</span>" in words


def test_stitch_words_are_explained_where_they_stand() -> None:
    """A term is marked through its span, so "sc" inside another word is left alone."""
    words = row_words(worked("sc in each st around"), NAMES)
    assert words == '<abbr title="single crochet">sc</abbr> in each st around'


def test_the_written_number_leaves_the_sentence() -> None:
    """The number is printed from the proof, so the written one is not printed twice."""
    assert "Rnd" not in row_words(worked("Rnd 4 (RS): sc around"), NAMES)


def test_a_name_stays_in_the_sentence() -> None:
    """Other rows call this one by its name."""
    assert row_words(worked("Dec rnd: sc around"), NAMES).startswith("<b>Dec rnd:</b> ")


def test_the_stated_count_leaves_the_sentence() -> None:
    """It has been proven equal to the count that stands above the row."""
    words = row_words(worked("sc around (12 sc)", stated=(("sc", 12),)), NAMES)
    assert words == '<abbr title="single crochet">sc</abbr> around'


def test_a_length_by_formula_is_printed_in_both_systems() -> None:
    """Inches come from the exact length, not from the rounded centimetres."""
    assert "6 (6.5, 7) cm / 2¼ (2½, 2¾) in" in row_words(mitt_rows()[2], NAMES)


@pytest.mark.parametrize(
    ("written", "printed"),
    [
        ("sc around for 6.3 cm", "6.3 cm / 2½ in"),
        ("sc around for 2 1/2 in", "2 1/2 in / 6.5 cm"),
        ("sc around for 6 (7, 8) cm", "6 (7, 8) cm / 2¼ (2¾, 3¼) in"),
    ],
)
def test_a_written_length_keeps_its_figures(written: str, printed: str) -> None:
    """The designer's own figure is not rounded; the other system is added to it."""
    assert printed in row_words(worked(written), NAMES)


def test_words_are_escaped() -> None:
    """Text from a pattern is always text."""
    row = mitt_rows()[1]
    hostile = replace(row, row=replace(row.row, text="<script>", terms=(), amounts=(), stated=None))
    hostile = replace(hostile, row=replace(hostile.row, label=None, span=HERE))
    assert row_words(hostile, NAMES) == "&lt;script&gt;"


@pytest.mark.parametrize(
    ("spans", "printed"),
    [
        (((3, 3), (3, 3), (3, 3)), "Rnd 3"),
        (((3, 3), (4, 4), (5, 5)), "Rnd 3 (4, 5)"),
        (((3, 9), (3, 9), (3, 9)), "Rnds 3–9"),
        (((3, 9), (3, 10), (3, 11)), "Rnds 3–9 (10, 11)"),
        (((3, 9), (4, 10), (5, 11)), "Rnds 3–9 (4–10, 5–11)"),
        (((3, 3), (3, 4), (3, 5)), "Rnds 3 (3–4, 3–5)"),
        ((None, (3, 4), (3, 5)), "Rnds – (3–4, 3–5)"),
    ],
)
def test_row_numbers_are_those_of_each_size(
    spans: tuple[tuple[int, int] | None, ...], printed: str
) -> None:
    """Row numbers may differ by size, and a size that skips the line has a dash."""
    assert printed == number(numbered(*spans))


def test_a_start_has_no_number() -> None:
    """A starting chain is no row."""
    assert number(mitt_rows()[0]) == ""


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("ch 21", "Start"),
        ("magic ring", "Start"),
        ("join B with sl st in any st", "Start"),
        ("fasten off", "End"),
        ("place marker", "Then"),
    ],
)
def test_a_line_that_is_no_row_says_where_it_stands(words: str, expected: str) -> None:
    """The thread is cut at the end: nothing starts there."""
    assert expected == place(worked(words))


def test_a_starting_chain_is_counted_in_chains() -> None:
    """What there is after a chain is chains."""
    assert count(mitt_rows()[0]) == "33 (36, 42) chs"


def test_a_count_tells_stitches_and_spaces() -> None:
    """Spaces are what the next row of a mesh is worked into."""
    row = worked("sc around", makes=(("dc", 12), ("ch-2 sp", 4)), stated=(("dc", 12),))
    assert count(row) == "12 sts, 4 ch-2 sps"


def test_a_space_that_is_longer_from_size_to_size_is_told_once() -> None:
    """Two underarms: of 6 chains in S, 8 in M and 10 in L."""
    per_size: list[RowInSize | None] = [
        row_in_size(72, 9, 9, makes=(("dc", 72), (f"ch-{chains} sp", 2))) for chains in (6, 8, 10)
    ]
    assert count(proven_row("dc around", per_size, anchor="9")) == "72 sts, 2 ch-6 (8, 10) sps"


def test_a_stated_count_in_other_units_is_kept() -> None:
    """A maker counts shells where the designer does."""
    row = worked("sc around", stated=(("shell", 4),))
    assert count(row) == "12 sts, 4 shells"


def test_a_line_up_to_a_length_says_how_many_rows_that_is() -> None:
    """The page prints the length and, after it, the rows it comes to."""
    words = row_words(mitt_rows()[2], NAMES)
    assert words.endswith(
        ' in</span>: <span class="we-times"><span data-we-n>14 (15, 16)</span> rounds</span>'
    )


def test_a_line_up_to_a_count_says_how_many_rows_that_is() -> None:
    """So does one that goes on until there are so many stitches."""
    row = worked("rep last rnd until there are 24 sts", times=3)
    assert row_words(row, NAMES).endswith(': <span class="we-times">3 more rounds</span>')


def test_sides_that_differ_by_size_are_told_by_size() -> None:
    """A later row may fall on the wrong side in some sizes."""
    per_size = [row_in_size(12, n, n, side="RS" if n % 2 else "WS") for n in (3, 4, 5)]
    assert side(proven_row("sc around", per_size, anchor="x")) == "RS (WS, RS)"
