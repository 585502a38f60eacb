"""The letters of rows worked in several colours, against those that the words say."""

from __future__ import annotations

import re
from collections import Counter

from tests.proof.test_stitch_chart import HEAD
from tests.support import pattern_files
from workeven.pattern.colours import palette_of
from workeven.pipeline import Outcome, ReadyPattern
from workeven.proof import StitchChart, chain_multiple, stitch_chart
from workeven.proof.coloured import Walks
from workeven.proof.placed import worked_for
from workeven.publish.pages.stitch_charts import stitch_chart_view
from workeven.yarn import RowColours, row_colours
from workeven.yarn.colours import worked_in

COLOURS = "colours: [Foam, Slate, Kelp], put_up"
STRIPES = """
With Foam, ch 26 (32)
sc in 2nd ch from hook and in each ch across, turn
With Slate, ch 1, sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; rep from * \
across, turn
With Foam, ch 1, sc in each st across, turn
With Kelp, ch 1, sc in each of first 3 sts, with Foam, sc in each st across, turn
fasten off
"""


def ready(rows: str, worked: str, yarn: str = COLOURS) -> Outcome:
    """A pattern of these rows in several colours."""
    text = HEAD.replace("WORKED", worked).replace("put_up", yarn)
    text += "".join(f"          {row}\n" for row in rows.strip().splitlines())
    return pattern_files.outcome(text)


def colours_of(rows: str, numbers: tuple[int, ...], yarn: str = COLOURS) -> RowColours | None:
    """The colours of these rows of a piece in flat rows."""
    found = ready(rows, "flat rows", yarn).ready
    assert found is not None
    return row_colours(found.proven, found.proven.pieces[0], numbers)


def test_letters_go_to_colours_as_they_are_worked_first() -> None:
    """A row in two has both, in their order."""
    told = colours_of(STRIPES, (1, 2, 3, 4))
    assert told is not None
    assert dict(told.letters) == {1: ("A",), 2: ("B",), 3: ("A",), 4: ("C", "A")}
    assert dict(told.words) == {"A": "Foam", "B": "Slate", "C": "Kelp"}


def test_rows_called_by_letters_keep_them() -> None:
    """``with B`` first: it is B in the chart too."""
    rows = STRIPES.replace("Foam", "B").replace("Slate", "A").replace("Kelp", "C")
    told = colours_of(rows, (1, 2), COLOURS.replace("Foam, Slate, Kelp", "A, B, C"))
    assert told is not None
    assert dict(told.letters) == {1: ("B",), 2: ("A",)}


def test_rows_of_one_colour_have_no_letters() -> None:
    """Nor has a yarn without colours, nor has a row of which it is not told."""
    assert colours_of(STRIPES, (1,)) is None
    plain = STRIPES
    for name in ("Foam", "Slate", "Kelp"):
        plain = plain.replace(f"With {name}, ", "").replace(f"with {name}, ", "")
    assert colours_of(plain, (1, 2, 3), "put_up") is None
    assert colours_of(plain, (1, 2, 3)) is None
    assert colours_of(STRIPES, (1, 2, 99)) is None


def test_a_chart_has_the_letters_and_its_key_the_colours() -> None:
    """Behind each number; the starting chain is found behind its colour."""
    found = ready(STRIPES, "flat rows").ready
    assert found is not None
    piece, graded = found.proven.pieces[0], found.proven.graded
    multiple = chain_multiple(graded, piece.piece)
    assert multiple == (6, 2)
    chart = stitch_chart(graded, piece, multiple)
    view = stitch_chart_view(found, piece, multiple)
    assert chart is not None
    assert view is not None
    assert [row.number for row in chart.rows] == [1, 2, 3, 4]
    assert all(f">{label}</text>" in view.svg for label in ("1 A", "2 B", "3 A", "4 C A"))
    told = [one.words for one in view.key if one.name.startswith("behind a number")]
    assert told == ["worked in Foam", "worked in Slate", "worked in Kelp"]


# --- colours that change within a row ------------------------------------------------------

CHECKS = """
With Foam, ch 26 (32)
sc in 2nd ch from hook and in each ch across, turn
ch 1, sc in first st, *with Slate, sc in next 3 sts, with Foam, sc in next 3 sts; rep from * \
across, turn
ch 1, *sc in next 3 sts, changing to Slate in last st, sc in next 3 sts, changing to Foam in last \
st; rep from * to last st, sc in last st, turn
rep last 2 rows 2 more times
"""
IN_ROUNDS = """
With Foam, magic ring, ch 3 (counts as dc), 11 dc in ring, join with sl st to top of beg ch-3
ch 1, *with Slate, sc in next st, with Foam, 2 dc in next st, ch 1; rep from * around, join with \
sl st to first sc
ch 1, *with Kelp, sc in next sc, with Slate, 3 dc in next dc, with Foam, sc in next dc, sk next \
ch-1 sp; rep from * around, join with sl st to first sc
"""


def drawn(rows: str, worked: str) -> tuple[StitchChart, RowColours, ReadyPattern]:
    """The chart of these rows, and the colours of its rows."""
    found = ready(rows, worked).ready
    assert found is not None
    piece, graded = found.proven.pieces[0], found.proven.graded
    chart = stitch_chart(graded, piece, chain_multiple(graded, piece.piece))
    assert chart is not None
    told = row_colours(found.proven, piece, tuple(row.number for row in chart.rows))
    assert told is not None
    return chart, told, found


def letters_of(chart: StitchChart, told: RowColours, row: int) -> str:
    """The letter of each stitch of a row of the chart, in the order they are worked."""
    there = chart.rows[row]
    stitches = [one for one in there.placed.stitches if one.what == "stitch"]
    return "".join(told.letter_at(there.number, one.at) for one in stitches)


def test_each_stitch_of_a_row_that_changes_has_its_letter() -> None:
    """By hand over 13 sc: 1 and 3 by 3, then 3 by 3 and 1; row 1 has one colour."""
    chart, told, _ = drawn(CHECKS, "flat rows")
    assert [letters_of(chart, told, row) for row in range(3)] == [
        "",
        "ABBBAAABBBAAA",
        "AAABBBAAABBBA",
    ]


def test_letters_are_as_many_as_the_proof_works_in_each_colour() -> None:
    """Rounds, whole: what is counted for the yarn of each colour, kind by kind, line by line."""
    chart, told, found = drawn(IN_ROUNDS, "joined rounds")
    piece = found.proven.pieces[0]
    work = worked_in(
        piece, palette_of(found.pattern), "main", Walks(found.proven.graded), by_line=True
    )
    lines = [row for section in piece.sections for row in section.rows]
    assert len(chart.rows) == len(lines)
    for row, line in zip(chart.rows, lines, strict=True):
        counted: dict[str, Counter[str]] = {}
        for (anchor, held, size), worked in work.of_lines.items():
            letter = next(one for one, name in told.words.items() if name == held.colour)
            for kind, number in worked if (anchor, size) == (line.anchor, 0) else ():
                counted.setdefault(letter, Counter())[kind] += number
        by_letter: dict[str, Counter[str]] = {}
        for one in row.placed.stitches:
            letter = told.letter_at(row.number, one.at) or told.letters[row.number][0]
            by_letter.setdefault(letter, Counter()).update(dict(worked_for(one)))
        assert by_letter == counted


def test_a_drawing_has_a_letter_beside_each_stitch_of_such_a_row() -> None:
    """Rows of 13 sc and a chain: as many letters as symbols, and each in a place of its own."""
    found = ready(CHECKS, "flat rows").ready
    assert found is not None
    piece = found.proven.pieces[0]
    view = stitch_chart_view(found, piece, (6, 2))
    assert view is not None
    texts = re.findall(r'<text x="([^"]*)" y="([^"]*)">([AB]+)</text>', view.svg)
    assert [len(letters) for _, _, letters in texts] == [14] * (view.svg.count(" A B</text>"))
    for xs, ys, letters in texts:
        places = list(zip(xs.split(), ys.split(), strict=True))
        assert len(set(places)) == len(letters)
    assert "In a row that changes colours each stitch has its letter beside it." in view.words
    assert {one.name for one in view.key if "worked in" in one.words} == {
        "behind a number or beside a stitch"
    }


def test_stripes_alone_have_no_letters_beside_stitches() -> None:
    """Whole rows in one colour: the letter behind the number says it."""
    rows = STRIPES.replace("With Kelp, ch 1, sc in each of first 3 sts, with Foam, sc", "ch 1, sc")
    found = ready(rows, "flat rows").ready
    assert found is not None
    view = stitch_chart_view(found, found.proven.pieces[0], (6, 2))
    assert view is not None
    assert "beside it" not in view.words
    assert {one.name for one in view.key if "worked in" in one.words} == {"behind a number"}
