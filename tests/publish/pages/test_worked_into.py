"""The short line beside a row that says which stitches it is worked into."""

from __future__ import annotations

from tests.publish.samples import proven_row, row_in_size
from tests.support.as_read import as_read
from workeven.proof import OTHER_SIDE, RING, Into
from workeven.publish.pages.worked_into import sentence


def said(*into: Into | None, words: str = "sc around", times: int = 1) -> str:
    """The line beside a row that those sizes work which are told of."""
    per_size = [one and row_in_size(12, 3, 2 + times) for one in into]
    return as_read(sentence(proven_row(words, per_size, anchor="x"), into))


MESH = Into((("dc", 2), ("ch-1 sp", 9)), (("dc", 9),))


def test_every_stitch_needs_no_line() -> None:
    """The words say it."""
    every = Into((("sc", 12), ("dc", 6)))
    assert said(every, every, every) == ""


def test_spaces_and_what_is_passed_over_are_named() -> None:
    """One number where all sizes have the same; spaces in the plural, stitches as they are."""
    assert said(MESH, MESH, MESH) == "Worked into 2 dc and 9 ch-1 sps; 9 dc passed over."


def test_each_size_has_its_numbers() -> None:
    """A size without any has 0, one that does not work the row a dash."""
    short = Into((("sc", 8),), (), (("sc", 4),))
    whole = Into((("sc", 12),))
    assert said(short, whole, None) == "Worked into 8 (12, –) sc; 4 (0, –) sc left unworked."


def test_loops_are_told_where_there_is_a_line() -> None:
    """Of the eight, six are in the back loop."""
    told = Into((("sc", 8),), (), (("sc", 4),), entered=(("back loop", 6),))
    assert said(told, told, told) == (
        "Worked into 8 sc; 6 of them in the back loop only; 4 sc left unworked."
    )


def test_an_earlier_row_is_named() -> None:
    """A second shoulder, a thumb."""
    thumb = Into((("sc", 8),), row=12)
    assert said(thumb, thumb, thumb) == "Worked into 8 sc of Rnd 12."


def test_a_ring_and_an_oval_are_told_in_words() -> None:
    """A ring is no stitch; an oval goes along its chain twice."""
    ring = Into(((RING, 1),))
    oval = Into((("ch", 9), (OTHER_SIDE, 8)))
    assert (said(ring, ring, ring), said(oval, oval, oval)) == (
        "Worked into the ring.",
        "Worked into 9 chs, then 8 chs along the other side of the chain.",
    )


def test_a_decrease_is_the_stitch_that_it_is() -> None:
    """A maker who works into a dc2tog sees one dc."""
    told = Into((("dc", 9), ("dc2tog", 1)), (), (("dc", 33), ("dc2tog", 1)))
    assert said(told, told, told) == "Worked into 10 dc; 34 dc left unworked."


def test_row_ends_are_counted() -> None:
    """A border along the side."""
    edge = Into((("row end", 24),))
    assert said(edge, edge, edge) == "Worked into 24 row ends."


def test_of_several_rows_the_first_is_told() -> None:
    """The others may differ."""
    told = said(MESH, MESH, MESH, times=4)
    assert told == "The first of these is worked into 2 dc and 9 ch-1 sps; 9 dc passed over."


def test_rows_worked_again_are_told_where_they_stand() -> None:
    """The row itself has the line."""
    assert said(MESH, MESH, MESH, words="Rep Row 2") == ""


def test_where_one_size_cannot_be_told_none_is() -> None:
    """Half a line would be read as the whole."""
    row = proven_row("sc around", [row_in_size(12, 3, 3)] * 3, anchor="x")
    assert sentence(row, (MESH, None, MESH)) == ""
