"""What is wrong with the shape of a file, in a designer's words; one mistake, one message."""

from __future__ import annotations

import pytest

from tests.support.reading import SMALL, added, changed, one, parsed, placed

BLOCK = "        rows: |\n          magic"


def test_a_missing_key_is_explained_with_an_example() -> None:
    """The whole message."""
    problem = one(changed(("over: 10 cm, ", "")))
    assert (
        "`gauge.ground` needs `over`: the width the stitches were counted over, such as `10 cm`."
    ) == problem.found
    assert ("file-key-missing", 8, 3) == (problem.code, problem.span.line, problem.span.column)
    assert "Write `over:` and its value under `gauge.ground`." == problem.mend


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        # a key that nobody knows, with the nearest that is known
        ("use: [home]", "use: [home]\nfinishng: x", ("file-key-unknown", 5, 1)),
        ("of: sc}", "of: sc, hok: 4 mm}", ("file-key-unknown", 8, 52)),
        ("summary: A", "sumary: A", ("file-key-unknown", 2, 1)),
        # keys of later versions are no keys yet
        ("use: [home]", "use: [home]\ncollars: x", ("file-key-unknown", 5, 1)),
        ("use: [home]", "use: [home]\nease: x", ("file-key-unknown", 5, 1)),
        # what is not there, or is empty
        ("title: Sand Mat\n", "", ("file-key-missing", 1, 1)),
        ("title: Sand Mat", "title:", ("file-value-missing", 1, 1)),
        ("title: Sand Mat", 'title: ""', ("file-value-missing", 1, 1)),
        ("use: [home]", "use: []", ("file-value-missing", 4, 1)),
        ("use: [home]", "use: [home]\nallow: {}", ("file-value-missing", 5, 1)),
        ("use: [home]", "use: [home]\nages:", ("file-value-missing", 5, 1)),
        # another shape
        ("use: [home]", "use: home", ("file-shape", 4, 6)),
        ("title: Sand Mat", "title: [Sand, Mat]", ("file-shape", 1, 8)),
        ("  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}", "  16 sts", ("file-shape", 8, 3)),
        ("gauge:\n  ground: {", "gauge:\n  ground:{", ("file-colon-space", 8, 10)),
        # a word of a closed list
        ("audience: adult", "audience: adults", ("file-choice", 3, 11)),
        ("worked: spiral rounds", "worked: spirals", ("file-choice", 19, 13)),
        ("[home]", "[home, kitchn]", ("file-choice", 4, 13)),
        ("weight: light", "weight: lite", ("file-choice", 10, 18)),
        # names
        ("  ground: {sts", "  my-gauge: {sts", ("name-form", 8, 3)),
        ("  mat:", "  2nd mat:", ("name-form", 18, 3)),
        # rows as list items that YAML reads as tables
        (BLOCK, "        rows:\n          - Rnd 1: magic", ("file-row-item", 23, 13)),
    ],
)  # fmt: skip
def test_one_mistake_is_one_message(old: str, new: str, expected: tuple[str, int, int]) -> None:
    """The code and the place; what hangs on the missing value says nothing."""
    text = changed((old, new))
    if "- Rnd 1" in new:
        text = text.replace("          inc around\n", "")
    assert [expected] == placed(text)


@pytest.mark.parametrize(
    ("old", "new", "mend"),
    [
        ("use: [home]", "use: [home]\nfinishng: x", "Did you mean `finishing`?"),
        ("audience: adult", "audience: adults", "Did you mean `adult`?"),
        ("use: [home]", "use: wear", "Write it as a list: `[wear]`."),
        ("  ground: {sts", "  my-gauge: {sts", "Write `my_gauge`, for example."),
        ("  mat:", "  2nd mat:", "Write `the_2nd_mat`, for example."),
        ("use: [home]", "use: -wear", "Write a space behind each dash."),
    ],
)
def test_the_cure_is_offered(old: str, new: str, mend: str) -> None:
    """The nearest word, or the value in the right shape."""
    assert mend == one(changed((old, new))).mend


def test_a_closed_list_is_shown() -> None:
    """The whole message."""
    problem = one(changed(("worked: spiral rounds", "worked: in rows")))
    assert "`pieces.mat.worked` cannot be `in rows`." == problem.found
    assert (
        "One of: `flat rows`, `joined rounds`, `joined rounds, turned` or `spiral rounds`."
    ) == problem.expected
    assert "Mat" == problem.piece


def test_a_place_in_a_list_is_said_in_words() -> None:
    """Sections are counted as a designer counts them."""
    problem = one(added("      - title: Edge"))
    assert "Section 2 of `pieces.mat` needs `rows`: the rows in a text block, one a line." == (
        problem.found
    )


def test_all_mistakes_of_a_file_are_told_at_once() -> None:
    """In the order of the lines; what is right is read on."""
    text = (
        SMALL.replace("title: Sand Mat\n", "titel: Sand Mat\n")
        .replace("adult", "grown-ups")
        .replace("over: 10 cm", "over: 10 furlongs")
        .replace("inc around", "frogs around")
    )
    assert [
        "file-key-unknown",
        "file-choice",
        "unit-length",
        "row-not-understood",
    ] == [code for code, _, _ in placed(text)]


def test_keys_that_a_table_lacks_are_told_together() -> None:
    """Each is explained on a line of its own."""
    problem = one(changed(("{sts: 16, rows: 18, over: 10 cm, of: sc}", "{rows: 18, over: 10 cm}")))
    assert "`gauge.ground` needs `sts` and `of`." == problem.found
    assert [
        "`sts`: the stitches counted over that width, such as `20`.",
        "`of`: the stitch, or the stitch pattern, in which they were counted, such as `sc`.",
    ] == problem.expected.splitlines()


def test_keys_that_are_like_none_are_told_together() -> None:
    """A misspelt one beside them has its own message."""
    text = changed(("over: 10 cm, of: sc}", "over: 10 cm, of: sc, hok: 4 mm, q: 1, z: 2}"))
    assert [("file-key-unknown", 8, 52), ("file-key-unknown", 8, 63)] == placed(text)


def test_a_key_in_the_wrong_column_is_sent_to_the_first() -> None:
    """The commonest reason why a table is missing."""
    found = parsed(changed(("\nyarn:", "\n  yarn:"))).problems[0]
    assert "The pattern needs `yarn`: the yarns, by a name of your own." == found.found
    assert (
        "`yarn` stands in line 9, indented under another key: move it to the first column, and "
        "what belongs to it as far."
    ) == found.mend


def test_names_from_a_table_that_is_missing_are_not_asked_for() -> None:
    """One message, though pieces and counts name the gauge."""
    text = changed(
        ("gauge:\n  ground: {sts: 16, rows: 18, over: 10 cm, of: sc}\n", ""),
        ("    sections:", "    gauge: ground\n    sections:"),
    )
    assert [("file-key-missing", 1, 1)] == placed(text)
