"""The letters of rows worked in several colours, against those that the words say."""

from __future__ import annotations

from tests.proof.test_stitch_chart import HEAD
from tests.support import pattern_files
from workeven.pipeline import Outcome
from workeven.proof import chain_multiple, stitch_chart
from workeven.publish.pages.stitch_charts import stitch_chart_view
from workeven.yarn import RowColours, row_colours

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
    told = [one.words for one in view.key if one.name == "behind a number"]
    assert told == ["worked in Foam", "worked in Slate", "worked in Kelp"]
