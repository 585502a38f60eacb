"""What rows say of colours and strands, read beside their stitches."""

from __future__ import annotations

import pytest

from workeven.notation.colours import colours_said, sequence


def _said(text: str) -> list[tuple[str, str]]:
    return [(one.way, one.name) for one in colours_said(text)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("With Green, ch 22", [("on", "Green")]),
        ("With Dk Green, ch 31", [("on", "Dk Green")]),
        ("with A, sc in each st across", [("on", "A")]),
        ("with brown sc in each st", [("on", "brown")]),
        ("with main colour, ch 3", [("on", "main")]),
        ("join Red with sl st in first st", [("join", "Red")]),
        ("join B with dc in first st, join", [("join", "B")]),
        ("join with B in first st", [("join", "B")]),
        ("join yarn in any ch-2 sp", [("join", "")]),
        ("rejoin yarn in next st", [("join", "")]),
        ("sc in each st across, changing to B in last st, turn", [("on", "B")]),
        ("At end of last row change to B", [("end", "B")]),
        ("Row 5 (B): ch 1, sc in each st across", [("label", "B")]),
        ("Row 5 (RS, Sea Foam): ch 1, sc in each st across", [("label", "Sea Foam")]),
        ("fasten off A, join B", [("cut", "A"), ("join", "B")]),
        ("sc in each st across, fasten off", [("cut", "")]),
        ("sc in each st across, do not fasten off", [("carry", "")]),
        ("carry A up the side", [("carry", "A")]),
        ("Row 2: ch 1, sc in each st across, turn. [20] Change to B.", [("on", "B")]),
    ],
)
def test_words_of_yarn_are_read(text: str, expected: list[tuple[str, str]]) -> None:
    """Each way of speaking of a colour or a strand, and its name."""
    assert expected == _said(text)


@pytest.mark.parametrize(
    "text",
    [
        "join with sl st to first sc",
        "join with Slip stitch to first sc",
        "with RS facing, sc in each st across",
        "ch 1, sc in each st across, turn",
        "5 dc in same place, drop loop, insert hook in first dc",
        "dc in 4th ch from hook (skipped 3 chs count as dc), dc in each ch across, turn",
        "Dec row: ch 1, sc2tog, sc in each st to last {neck_drop} sts, leave rem sts unworked",
        "Row 3 (WS): sc in each st across",
    ],
)
def test_other_words_name_no_colour(text: str) -> None:
    """Stitches, sides and hooks are no colours."""
    assert [] == _said(text)


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("sc 5 with A, sc 5 with B", ["sc 5 with A", "sc 5 with B"]),
        ("*with A sc 2, with B sc 2; rep from * across", ["with A sc", "with B sc"]),
        ("ch 1, sc 3, change to B, sc in each st across", ["change to B"]),
        ("sc in next 4 sts and sc in next 3 sts in colour B, turn", ["sc in next 3"]),
    ],
)
def test_a_colour_is_in_force_from_its_words_or_from_the_stitch_before(
    text: str, at: list[str]
) -> None:
    """Behind a stitch with nothing between, it is that of the stitch."""
    found = colours_said(text)
    assert at == [text[one.at :][: len(words)] for one, words in zip(found, at, strict=True)]


def test_another_colour_without_a_name_is_told() -> None:
    """``join new colour`` names none."""
    (said,) = colours_said("Rnd 2: join new colour with sl st in any dc")
    assert ("join", "", True) == (said.way, said.name, said.other)


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (
            "1 rnd each in Dk Green, Brown, Dk Green",
            ((1, "Dk Green"), (1, "Brown"), (1, "Dk Green")),
        ),
        ("changing colour every 2 rows in the order C, A, B", ((2, "C"), (2, "A"), (2, "B"))),
        ("in the following color sequence: 2 rows A, 2 rows B", ((2, "A"), (2, "B"))),
        ("alternating 1 row A and 2 rows C", ((1, "A"), (2, "C"))),
        ("alternating A and B every 2 rows", ((2, "A"), (2, "B"))),
        ("alternating colours every row", ((1, ""),)),
        ("changing colours every other row", ((2, ""),)),
        ("in the same colour order", ()),
        ("changing colours as given", ()),
    ],
)
def test_an_order_is_so_many_rows_of_each(words: str, expected: object) -> None:
    """Behind a repeat, and by itself."""
    (said,) = colours_said(f"Rows 3-20: rep Row 2, {words}")
    assert (expected, "order") == (sequence(words), said.way)
    assert expected == said.order
