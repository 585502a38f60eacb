"""Rows pasted from documents: every word is kept, wrapped rows come together, the rest is told."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tests.support import plain_rows
from tests.support.pattern_files import GOOD, outcome
from workeven import pasted, pattern, source
from workeven.arithmetic.size_lists import by_size
from workeven.pasted.tidied import tidied

CASES = Path(__file__).parents[1] / "cases"
_CASE = re.compile(r"^```rows\n(.*?)^```$", re.MULTILINE | re.DOTALL)
HEAD = GOOD.split("pieces:", maxsplit=1)[0]


def rows_of(text: str) -> list[str]:
    """The rows that are read from a text."""
    return [row.text for row in pasted.read(text, file="-").rows]


def in_a_file(text: str, head: str = HEAD) -> source.Source:
    """The YAML of a pasted text put into a pattern file; it is read without a problem."""
    written = pasted.written(pasted.read(text, file="-"), "-")
    read = source.read("pattern.yaml", f"{head}{written}\n".encode())
    assert () == read.problems
    assert read.value is not None
    return read.value


def kept(text: str) -> str:
    """All words of a text that stand in the YAML: in titles, notes, rows and kept comments."""
    written = pasted.written(pasted.read(text, file="-"), "-")
    comments = [line.split("# > ", 1)[1] for line in written.splitlines() if "# > " in line]
    return " ".join([*comments, *_values(in_a_file(text, "summary: x\n").root)])


def _values(node: source.Node | None, key: str = "") -> Iterator[str]:
    match node.value if node else None:
        case str() as words if key in ("title", "note", "work", "rows", ""):
            yield words
        case tuple() as nodes:
            for one in nodes:
                yield from _values(one, key)
        case dict() as entries:
            for name, entry in entries.items():
                yield from _values(entry.value, name)
        case _:
            pass


#: a line that has the number of a row, also of one of a part
_NUMBERED = re.compile(r"(?:[A-Za-z]+ )?(?:r|rows?|rnds?|rounds?)\.? ?\d", re.IGNORECASE)


def words(text: str) -> Counter[str]:
    """How often each word stands in a text; underscores may be marks of emphasis."""
    return Counter(re.findall(r"[^\W_]+", text))


def case_blocks() -> Iterator[object]:
    """Every block of rows of the cases."""
    for file in sorted(CASES.glob("*.md")):
        for number, found in enumerate(_CASE.finditer(file.read_text(encoding="utf-8")), 1):
            yield pytest.param(found[1], id=f"{file.stem} {number}")


@pytest.mark.parametrize("block", tuple(case_blocks()))
def test_rows_of_the_cases_come_back_as_they_are(block: str) -> None:
    """Each row is one row of a pattern file again, word for word; a heading may become a title.

    Remarks among the rows become notes, with the words that they have.
    """
    rows = plain_rows.read(block)
    sizes = rows.first("sizes")
    found = pasted.read(
        rows.text,
        file="-",
        terms="uk" if rows.first("terms") == "uk" else "us",
        sizes=tuple(name for name, _at in by_size(sizes)) if sizes else None,
        stitches=rows.all("stitch"),
    )
    titles = {part.title for piece in found.pieces for part in piece.parts}
    lines = [line.strip() for line in rows.text.splitlines() if line.strip()]
    all_lines = rows.text.splitlines()
    told = [one.span.line for one in plain_rows.count(block).problems if one.code == "row-note"]
    noted = {all_lines[line - 1].strip() for line in told}
    remarks = {line for line in noted if not _NUMBERED.match(line)}  # a row may end in a remark
    assert remarks <= {*lines} & {one.text for one in (*found.notes, *found.loose)}
    expected = [line for line in lines if line not in titles and line not in remarks]
    written = pasted.written(found, "-")
    read = source.read("pattern.yaml", f"{HEAD}{written}\n".encode())
    assert read.value is not None
    parsed = pattern.parse(read.value, pattern.NO_STUDIO)
    shape = [problem for problem in parsed.problems if problem.code.startswith("file-")]
    assert [] == [*read.problems, *shape]
    assert [*map(_numbered_alike, expected)] == [_numbered_alike(row.text) for row in found.rows]


def _numbered_alike(row: str) -> str:
    """A row of a list ("3. sc around") gets its word when it is read."""
    return re.sub(r"\A(?:R(?:ow|nd)s? )?(\d+(?:-\d+)?)(?:: |[.)] )", r"\1: ", row)


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (
            "Rnd 1: magic ring, 6 sc in ring\nRnd 2: [sc in next st,\ninc] 3 times\n(9 sts)",
            ["Rnd 1: magic ring, 6 sc in ring", "Rnd 2: [sc in next st, inc] 3 times (9 sts)"],
        ),
        (
            "Row 2: ch 1, sc in first st\nsc in each st across, turn\nRow 3: ch 1, sc across",
            ["Row 2: ch 1, sc in first st sc in each st across, turn", "Row 3: ch 1, sc across"],
        ),
        (
            "Row 2: ch 1, sc in first st, turn\nsc in each st across, turn\nRow 4: ch 1, sc across",
            [
                "Row 2: ch 1, sc in first st, turn",
                "sc in each st across, turn",
                "Row 4: ch 1, sc across",
            ],
        ),
        ("ch 21\nsc in 2nd ch from hook and in each ch across, turn", None),
        ("Row 1: sc across\nRow 2: sc across\nRep Row 2 twice", None),
        ("Row 1: dc in next ch-\n3 sp", ["Row 1: dc in next ch-3 sp"]),
        ("Row 4: frobnicate in next st, sc\nin next st, turn", None),
    ],
)
def test_lines_are_joined_only_where_that_is_sure(lines: str, expected: list[str] | None) -> None:
    """A wrapped row comes together; two rows, or what is not understood, stay apart."""
    assert (expected or lines.splitlines()) == rows_of(lines)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        (
            "• Row 2: Ch\u20111, sc in each st across—turn",
            "Row 2: Ch-1, sc in each st across, turn",
        ),
        ("Row 2: “sc” in each\u00a0st across", "Row 2: sc in each st across"),
        ("\ufeffRow 2: sc in each\u200b st a\u00adcross\r", "Row 2: sc in each st across"),
        ("Row 2: sc in ﬁrst st", "Row 2: sc in first st"),
        ("*\tsc in each st across", "sc in each st across"),
        ("*sc in next 2 sts, inc; rep from * around", "*sc in next 2 sts, inc; rep from * around"),
        ("# Row 2: sc across", "Row 2: sc across"),
        ("**Row 2: sc across**", "Row 2: sc across"),
    ],
)
def test_what_documents_do_to_a_row_is_undone(line: str, expected: str) -> None:
    """Quotes, dashes, bullets and unseen characters go where the row is then understood."""
    (row,) = pasted.read(f"{line}\n", file="-").rows
    assert (expected, None) == (row.text, row.problem)


def test_a_row_runs_over_the_page() -> None:
    """The page number between two halves of a row is kept apart."""
    text = "Rnd 4: [sc in next 2 sts,\n\n- 3 -\n\x0c\ninc] around (24)"
    found = pasted.read(text, file="-")
    assert ["Rnd 4: [sc in next 2 sts, inc] around (24)"] == [row.text for row in found.rows]
    assert ["- 3 -"] == [note.text for note in found.loose]


DOCUMENT = """\
Breakwater Cap
Materials
200 m of yarn

CROWN
Rnd 1: Magic ring, 6 sc in ring (6)
Rnd 2: inc around (12)
This is worked tightly.
Rnd 3: sc in each st acros
Fasten off.

## Ear flap (make 2)
Row 1: ch 6
Row 2: sc in 2nd ch from hook and in each ch across, turn (5)
Weave the ends in with care
"""


def test_headings_become_titles_and_pieces() -> None:
    """What begins with a chain or ring of its own under a heading is a piece."""
    found = pasted.read(DOCUMENT, file="-")
    ways = [piece.worked for piece in found.pieces]
    titles = [[part.title for part in piece.parts] for piece in found.pieces]
    assert [["CROWN"], ["Ear flap (make 2)"]] == titles
    assert ["spiral rounds", "flat rows"] == ways
    expected = ["Breakwater Cap", "Materials", "200 m of yarn"]
    assert expected == [note.text for note in found.loose]


def test_what_is_not_understood_stays_and_is_told_at_its_line() -> None:
    """The row keeps its place, a comment names its line, and the problem has its column."""
    found = pasted.read(DOCUMENT, file="cap.txt")
    (row,) = [row for row in found.rows if row.problem]
    assert row.problem is not None
    span = row.problem.span
    assert ("row-not-understood", "cap.txt", 9, 22) == (
        row.problem.code,
        span.file,
        span.line,
        span.column,
    )
    written = pasted.written(found, "cap.txt")
    assert "# Line 9 is not understood: `Rnd 3: sc in each st acros`." in written
    assert "\n            Rnd 3: sc in each st acros\n" not in written.split("work: |")[0]


def test_the_place_of_a_wrapped_fault_is_its_own_line() -> None:
    """A word in the second line of a heading's row is told there."""
    found = pasted.read("Note: ch 1\nRow 1: sc in next 3 sts,\nfrob in next st", file="-")
    told = [row.problem.span.line for row in found.rows if row.problem]
    assert [3] == told


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("3. sc in each frob, turn", (1, 15)),
        ("• Row 3: sc in each frob, turn", (1, 21)),
        ("Row 1: ch 20\n  2) sc in each st, sc in each frob", (2, 32)),
        ("Row\tWords\tStitches\n3\tsc in each frob\t29", (2, 14)),
        ("6. Join with sl st to form", (1, 27)),
    ],
)
def test_a_fault_stands_where_it_does_in_the_text(text: str, place: tuple[int, int]) -> None:
    """Numbers that become labels, bullets and tables move no column of what is told."""
    found = pasted.read(text, file="-")
    told = [row.problem.span for row in found.rows if row.problem]
    assert [place] == [(span.line, span.column) for span in told]


def test_an_invented_pattern_pasted_whole_checks_clean() -> None:
    """Printed as a leaflet would, wrapped and with bullets, a good pattern is good again."""
    text = """\
    Mat
    • Row 1: Ch 32.
    • Sc in 2nd ch from hook and in each ch
      across; turn. (31 sc)
    • Ch 1, sc in each st across; turn. (31 sc)
    • Rep last row 3 times.
    • Fasten off.
    """.replace("Row 1: ", "")
    written = pasted.written(pasted.read(text, file="-"), "-")
    head = HEAD.replace("  length: 20 (24, 27) cm\n", "").split("measurements:")[0]
    made = outcome(f"{head}{written}\n")
    assert [] == [
        one.code for one in made.problems if one.code.startswith(("row", "count", "file"))
    ]


LINE = st.one_of(
    st.sampled_from(
        [
            "Row 1: ch 21",
            "sc in 2nd ch from hook and in each ch",
            "across, turn (20 sc)",
            "Rnd 3: [sc 2, inc] around",
            "• bullet one",
            "CUFF",
            "Left front:",
            "## Hand",
            "# not a heading #",
            "**Bold**",
            "Page 3 of 9",
            "12",
            "- 7 -",
            "====",
            "Note: keep it loose",
            "{sc 3, inc} x 6",
            "key: value # no comment",
            "it's 'quoted' \"twice\"",
            "- dash",
            "* star",
            "--- ",
            "%TAG ! x",
            "\ufeffmark",
            "",
            "",
        ]
    ),
    st.text(alphabet="abcsd 0123.,:;#*()[]{}'\"“”–—|>&!%@`-\t\u00a0é×½", max_size=40),
    st.text(max_size=30),
)


@given(st.lists(LINE, max_size=14).map("\n".join))
@example('a"0:"\nsc in 2nd ch from hook and in each ch')
def test_no_word_is_lost_or_made_up(text: str) -> None:
    """Each word of the text stands in the file as often as in the text."""
    seen = " ".join(line.text for line in tidied(text))
    assert words(seen) == words(kept(text))


@given(st.lists(LINE, max_size=14).map("\n".join))
def test_tidying_drops_no_letter(text: str) -> None:
    """Letters and digits outlast the tidying; ligatures and unseen characters alone are others."""
    plain = [c for c in text if c.isalnum() and c not in "ﬀﬁﬂﬃﬄﬅﬆ" and c not in "ᅟᅠㅤﾠ"]
    seen = [c for line in tidied(text) for c in line.text if c.isalnum()]
    if len(plain) == sum(c.isalnum() for c in text):
        assert plain == seen


@given(st.text(max_size=200))
def test_any_text_makes_a_file_that_is_read(text: str) -> None:
    """Whatever is pasted, the YAML is read without a problem of its form."""
    in_a_file(text)


@pytest.mark.parametrize("title", ["CUFF", "CUFF 2", f"{'VERY ' * 12}LONG", "ÄÖÜ"])
def test_pieces_of_one_name_get_names_of_their_own(title: str) -> None:
    """Twelve parts under one heading, and one that has the name which is made of it."""
    text = f"## {title}\nch 5\n\n" * 12 + "## CUFF 2\nch 6\n"
    root = in_a_file(text, "").root.value
    assert isinstance(root, dict)
    pieces = root["pieces"].value.value
    assert isinstance(pieces, dict)
    assert len(pieces) == 13


def test_long_documents_make_values_within_the_limits() -> None:
    """Rows of more than a value may hold become several blocks; a line beyond all bounds a note."""
    rows = "\n".join(f"Row {number}: ch 1, sc in each st across, turn" for number in range(1, 401))
    in_a_file(rows)
    in_a_file("word " * 4000)
    in_a_file("\n\n".join(["Cuff:", "This is long. " * 900, "Row 1: ch 3", "The end. " * 900]))


def test_a_numbered_list_is_rows_where_its_words_are_of_rows() -> None:
    """As word processors number paragraphs; the yarn's list stays a list."""
    text = """Materials
1. 100 g of wool
2. one hook
3\tstitch markers

Crown
1. Magic ring, 6 sc in ring (6)
2) 2 sc in each st around (12)
3-5. sc in each st around (12)
6. Fasten off.
"""
    assert [
        "Rnd 1: Magic ring, 6 sc in ring (6)",
        "Rnd 2: 2 sc in each st around (12)",
        "Rnds 3-5: sc in each st around (12)",
        "Fasten off.",
    ] == rows_of(text)
    assert "100 g of wool" in kept(text)


def test_a_table_is_rows_with_their_numbers_and_counts() -> None:
    """Its cells are parted by tabs when it is pasted; its head is no row."""
    text = """Row\tInstructions\tStitches
Foundation\tCh 26\t26
1 (RS)\tSc in 2nd ch from hook and in each ch across, turn\t25
2\tCh 1, sc in first st, *sk 2, 5 dc in next st, sk 2, sc in next st; rep from * across, turn\t29
3-5\tCh 1, sc in each st across, turn\t29 sts
6\tFasten off\t
"""
    rows = pasted.read(text, file="-")
    shells = "Ch 1, sc in first st, *sk 2, 5 dc in next st, sk 2, sc in next st; rep from * across"
    said = (
        "Foundation: Ch 26 (26)",
        "Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn (25)",
        f"Row 2: {shells}, turn (29)",
        "Rows 3-5: Ch 1, sc in each st across, turn (29 sts)",
        "Fasten off",
    )
    assert said == tuple(row.text for row in rows.rows)
    assert ["Row Instructions Stitches"] == [note.text for note in rows.loose]
    assert all(row.problem is None for row in rows.rows)


def test_letters_before_labels_are_bullets() -> None:
    """A row has its own number behind them."""
    assert ["Row 1: ch 1, sc in each st", "Row 2: ch 1, sc in each st"] == rows_of(
        "a) Row 1: ch 1, sc in each st\nb. Row 2: ch 1, sc in each st\n"
    )


def test_a_gauge_is_no_row() -> None:
    """It speaks of stitches and works none."""
    text = "Gauge: 18 sts and 20 rows to 10 cm in sc\n\nRow 1: ch 1, sc in each st\n"
    assert ["Row 1: ch 1, sc in each st"] == rows_of(text)
