"""The words below a stitch chart, against what is drawn in it."""

from __future__ import annotations

import pytest

from tests.proof.test_stitch_chart import HEAD, SHELLS, SOLE, TURNED_OVAL
from tests.support import pattern_files
from workeven.proof import chain_multiple
from workeven.publish.pages.stitch_charts import stitch_chart_view


def words(rows: str, worked: str, size: int = 0, names: str = "S (M)") -> str:
    """What is said below the chart of these rows."""
    text = HEAD.replace("WORKED", worked).replace("S (M)", names)
    text += "".join(f"          {row}\n" for row in rows.strip().splitlines())
    found = pattern_files.outcome(text).ready
    assert found is not None
    piece = found.proven.pieces[0]
    multiple = chain_multiple(found.proven.graded, piece.piece)
    view = stitch_chart_view(found, piece, multiple, size)
    assert view is not None
    return view.words


def test_what_is_alike_in_all_sizes_says_so() -> None:
    """So does a chart over a short chain; a pattern in one size has no others."""
    assert words(SHELLS, "flat rows", 1).startswith("Rows 1 to 5, the same in every size, over")
    rows = "magic ring, 6 sc in ring\ninc around"
    assert words(rows, "spiral rounds") == (
        "Rnds 1 to 2, the same in every size, seen from the right side. Read each round "
        "anticlockwise from its number, if you are right-handed."
    )
    assert words(rows, "spiral rounds", names="one size").startswith("Rnds 1 to 2, seen")


@pytest.mark.parametrize(
    ("rows", "names", "size", "expected"),
    [
        (SOLE, "S (M)", 0, "in size S,"),
        (SOLE, "S (M)", 1, "in size M,"),
        (
            SOLE.replace("5 (7)", "5 (7, 7)").replace("2 (4)", "2 (4, 4)"),
            "S (M, L)",
            2,
            "in sizes M and L,",
        ),
    ],
)
def test_a_chart_of_one_size_names_it(rows: str, names: str, size: int, expected: str) -> None:
    """With every other that is worked just so."""
    assert words(rows, "spiral rounds", size, names) == (
        f"Rnds 1 to 3, {expected} around both sides of the starting chain, seen from the right "
        "side. Read each round anticlockwise from its number, if you are right-handed. The other "
        "sizes have other numbers of stitches, or of rounds: the rows below tell them."
    )


def test_turned_rounds_are_read_to_and_fro() -> None:
    """From a turn on rounds run the other way; which side is the right one is not said."""
    assert words(TURNED_OVAL, "joined rounds, turned").endswith(
        "seen from the side that faces you in the first of them. Read each round from its number, "
        "the first anticlockwise if you are right-handed, and behind each turn the other way "
        "around."
    )
