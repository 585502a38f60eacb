"""Rows, sections and pieces: trees with places, notes at their rows, names that exist."""

from __future__ import annotations

import pytest

from tests.support.reading import SMALL, added, changed, good, one, placed
from workeven.pattern import Section

SECTION = "      - title: Mat\n        rows: |\n          magic ring, 6 sc in ring\n"


def sections(text: str) -> tuple[Section, ...]:
    """The sections of the first piece."""
    return good(text).pieces[0].sections


def spans(text: str) -> list[tuple[str, int, int]]:
    """Text, line and column of each row of the first section."""
    return [(row.text, row.span.line, row.span.column) for row in sections(text)[0].rows]


# --- rows ----------------------------------------------------------------------------------


def test_each_line_of_a_block_is_a_row_with_its_place() -> None:
    """Blank lines part rows for the eye; blanks around a row are no part of it."""
    text = changed(("in ring\n          inc", "in ring  \n\n            inc"))
    assert [("magic ring, 6 sc in ring", 23, 11), ("inc around", 25, 13)] == spans(text)


@pytest.mark.parametrize(
    ("written", "column"),
    [("inc around", 15), ("'inc around'", 16), ('"inc around"', 16)],
)
def test_a_single_row_may_stand_on_the_line_of_its_key(written: str, column: int) -> None:
    """With quotes or without."""
    text = SMALL.replace(
        "rows: |\n          magic ring, 6 sc in ring\n          inc around", f"rows: {written}"
    )
    assert [("inc around", 22, column)] == spans(text)


def test_rows_may_be_blocks_and_lines_with_notes() -> None:
    """The note belongs to the first row of its item, and knows which that is."""
    listed = (
        "rows:\n          - |\n            magic ring, 6 sc in ring\n"
        '          - {work: inc around, note: Loosely., video: "1:02"}\n'
    )
    block = "rows: |\n          magic ring, 6 sc in ring\n          inc around\n"
    text = changed((block, listed))
    text += "video: {url: https://video.example/x}\n"
    assert ["magic ring, 6 sc in ring", "inc around"] == [row for row, _, _ in spans(text)]
    (note,) = sections(text)[0].row_notes
    assert ("", 1, "Loosely.", 62) == (note.row, note.at, note.note, note.video)


def test_a_row_that_is_not_understood_hides_no_other() -> None:
    """Every slip is told, with the piece; the pattern is still there for what comes after."""
    text = changed(("inc around", "frogs around\n          toads around"))
    assert [("row-not-understood", 24), ("row-not-understood", 25)] == [
        (code, line) for code, line, _ in placed(text)
    ]
    assert "Mat" == one(changed(("inc around", "frogs around"))).piece


def test_a_sentence_in_front_of_the_rows_is_passed_in_front_of_all_of_them_only() -> None:
    """Behind the rows of a section a sentence of the next may speak of those, and tell a count."""
    said = "The band has 12 shells in all."
    row = "          magic ring, 6 sc in ring\n"
    first = SMALL.replace(row, f"          {said}\n{row}")
    assert [("row-note", 23, 11)] == placed(first)
    later = SMALL.rstrip("\n") + "\n" + SECTION.replace("magic ring, 6 sc in ring", said)
    assert ["row-not-understood"] == [code for code, _, _ in placed(later)]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        (">\n          ch 3\n          turn", ("file-folded", 22, 15)),
        ("ch 3,\n          turn", ("file-folded", 22, 15)),
        ("sc in next st with colour #2", ("file-row-item", 22, 15)),
        ("\n          - ch 3\n          - sc with colour #2", ("file-row-item", 24, 13)),
        ("\n          - {work: ch 3, nte: x}", ("file-row-item", 23, 26)),
        ("|\n          # Part one\n          ch 3", ("file-row-comment", 23, 11)),
        ('"  "', ("file-value-missing", 22, 15)),
        ("|\n\n", ("file-value-missing", 22, 9)),
    ],
)
def test_what_is_no_row_is_one_message(rows: str, expected: tuple[str, int, int]) -> None:
    """Folded lines, a comment that cut a row, a comment in a block, nothing at all."""
    text = SMALL.replace("|\n          magic ring, 6 sc in ring\n          inc around", rows)
    assert [expected] == placed(text)


def test_a_comment_behind_a_value_that_is_no_row_is_welcome() -> None:
    """YAML's comments are of use elsewhere."""
    assert "Sand Mat" == good(changed(("title: Sand Mat", "title: Sand Mat  # for now"))).title.text


# --- row notes -----------------------------------------------------------------------------


@pytest.mark.parametrize("label", ["Thumb rnd", "thumb RND", "Rnd 2", "Rnd 2:"])
def test_a_note_finds_its_row_by_the_label(label: str) -> None:
    """As it is written, large or small."""
    row = "Rnd 2 (RS): inc around" if label.startswith("Rnd 2") else "Thumb rnd: inc around"
    name = f'"{label}"' if label.endswith(":") else label
    lines = f"{row}\n        row_notes:\n          {name}: {{note: Loosely.}}\n"
    (note,) = sections(changed(("inc around\n", lines)))[0].row_notes
    assert (1, "Loosely.") == (note.at, note.note)


def test_a_note_for_a_row_that_is_not_there() -> None:
    """The whole message."""
    lines = "Thumb rnd: inc around\n        row_notes:\n          Thum rnd: {note: Loosely.}\n"
    problem = one(changed(("inc around\n", lines)))
    assert ("name-unknown", 26, 11) == (problem.code, problem.span.line, problem.span.column)
    assert "There is no row called `Thum rnd`." == problem.found
    assert "Rows with a name in this section: `Thumb rnd`." == problem.expected
    assert ("Did you mean `Thumb rnd`?", "Mat") == (problem.mend, problem.piece)


# --- sections and pieces -------------------------------------------------------------------


def test_a_section_is_worked_like_the_one_before_it() -> None:
    """Until it says otherwise; gauge and yarn are said for it alone."""
    text = changed(("    sections:", "    gauge: ground\n    sections:"))
    text += (
        "      - worked: flat rows\n        yarn: main\n        rows: ch 3\n      - rows: ch 3\n"
    )
    assert [
        ("Mat", "spiral rounds", "ground", None),
        ("Part 2", "flat rows", "ground", "main"),
        ("Part 3", "flat rows", "ground", None),
    ] == [(one.title, one.worked, one.gauge, one.yarn) for one in sections(text)]


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("L", (2,)),
        ("[S, L]", (0, 2)),
        ("M–L", (1, 2)),
        ("M - L", (1, 2)),
        ("M to L", (1, 2)),
        ("S (L)", (0, 2)),
        ("S and M", (0, 1)),
    ],
)
def test_a_section_may_be_for_some_sizes(written: str, expected: tuple[int, ...]) -> None:
    """By name or by range."""
    text = changed(("      - title: Mat", f"      - title: Mat\n        sizes: {written}"))
    assert expected == sections(text)[0].sizes


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        ("sizes: XL", ("size-unknown", 22, 16)),
        ("sizes: [S, XL]", ("size-unknown", 22, 20)),
        ("sizes: M–XL", ("size-unknown", 22, 16)),
        ("gauge: lace", ("name-unknown", 22, 16)),
        ("yarn: trim", ("name-unknown", 22, 15)),
        ("worked: sideways", ("file-choice", 22, 17)),
    ],
)
def test_a_section_names_what_there_is(lines: str, expected: tuple[str, int, int]) -> None:
    """Sizes, gauges, yarns."""
    text = changed(("      - title: Mat", f"      - title: Mat\n        {lines}"))
    assert [expected] == placed(text)


def test_a_swatch_names_a_yarn() -> None:
    """With the nearest name."""
    problem = one(changed(("of: main", "of: mian")))
    assert ("There is no yarn called `mian`.", "Did you mean `main`?") == (
        problem.found,
        problem.mend,
    )


def test_a_piece_has_a_title_and_is_made_once() -> None:
    """Unless it says otherwise."""
    piece = good(changed(("  mat:", "  round_mat:"))).pieces[0]
    assert ("Round mat", (1, 1, 1)) == (piece.title, piece.make.values)


def test_two_pieces_of_one_title_are_a_problem() -> None:
    """With a note at the first."""
    second = SMALL[SMALL.index("  mat:\n") :].replace("  mat:\n", "  lid:\n    title: Mat\n")
    problem = one(SMALL + second)
    assert ("name-title-twice", 25) == (problem.code, problem.span.line)
    assert [18] == [note.span.line for note in problem.notes]


# --- stitches ------------------------------------------------------------------------------


def test_a_special_stitch_is_read_in_rows() -> None:
    """In those of the swatch too."""
    lines = "stitches:\n  shell: 5 dc in same st"
    text = f"{changed(('inc around', 'shell in each st around'))}{lines}\n"
    assert ("shell",) == tuple(stitch.name for stitch in good(text).stitches)


def test_a_special_stitch_that_no_row_works_is_advice() -> None:
    """The pattern is there all the same."""
    assert [("term-unused", 26, 10)] == placed(added("stitches:\n  shell: 5 dc in same st"))


def test_a_stitch_used_by_another_is_used() -> None:
    """A bobble made of clusters."""
    lines = "stitches:\n  fan: 3 dc in same st\n  big fan: fan, ch 1, fan in same st"
    assert [("term-unused", 27, 12)] == placed(added(lines))


@pytest.mark.parametrize(
    "told",
    [
        "finishing:\n  - Work a round of Fans along the edge.",
        "assembly: [Join the motifs with a fan in each corner.]",
    ],
)
def test_a_stitch_that_is_worked_in_the_making_up_is_used(told: str) -> None:
    """An edging is often told there, in sentences, and not as rows."""
    assert [] == placed(added(f"stitches:\n  fan: 3 dc in same st\n{told}"))


def test_another_word_is_not_the_stitch() -> None:
    """A fan is no fancy."""
    lines = "stitches:\n  fan: 3 dc in same st\nfinishing:\n  - Sew on a fancy button."
    assert ["term-unused"] == [code for code, _, _ in placed(added(lines))]


@pytest.mark.parametrize(("terms", "name"), [("us", "dc"), ("us", "hdc"), ("uk", "htr")])
def test_a_basic_stitch_is_not_explained_anew(terms: str, name: str) -> None:
    """It would change what every row means."""
    lines = f"terms: {terms}\nstitches:\n  {name}: 5 dc in same st"
    assert ("name-reserved", 27, 3) in placed(added(lines))


def test_turning_chains_have_us_names_inside() -> None:
    """A UK file says htr for the US hdc (published table of terms)."""
    uk = changed(
        ("6 sc in ring", "6 dc in ring"), ("sc in 2nd ch from hook", "dc in 2nd ch from hook")
    )
    uk = uk.replace("and in each ch across", "and in each ch across")
    text = f"{uk}terms: uk\nturning_chains: {{htr: counts, tr: does not count}}\n"
    assert (("hdc", True), ("dc", False)) == good(text).turning_chains.counts


def test_turning_chains_name_basic_stitches() -> None:
    """In the terms of the file."""
    problem = one(added("turning_chains: {htr: counts}"))
    assert "There is no basic stitch called `htr`." == problem.found
