"""Around a flat piece: its last row, row ends, starting chain, and the corners between."""

from __future__ import annotations

import pytest

from workeven.proof.counting import count

PIECE = """ch 16
Row 1: sc in 2nd ch from hook and in each ch across, turn
Rows 2-10: ch 1, sc in each st across, turn
{}"""
AROUND = (
    "ch 1, sc in each st across, rotate to work along side, sc in each row end, "
    "working along opposite side of starting ch, sc in each ch, sc in each row end, join"
)
CORNERS = (
    "ch 1, sc in each st across, 2 sc in corner, sc in next 8 row ends, 2 sc in corner, "
    "sc in each ch along bottom"
)


def counted(edge: str) -> tuple[dict[str, int], list[str]]:
    """What the last row makes over 10 rows of 15 sc, and what is wrong."""
    checked = count(PIECE.format(edge), worked="flat rows")
    assert checked.value is not None
    errors = [problem.code for problem in checked.problems if problem.code != "row-reading"]
    return dict(checked.value.rows[-1].makes[0] or ()), errors


@pytest.mark.parametrize(
    ("edge", "sts"),
    [
        ("ch 1, sc in each st across, sc in each row end, fasten off", 25),
        ("join yarn in first row end, ch 1, sc in same place, sc in next 9 row ends", 10),
        ("ch 1, *sc in next row end, 2 sc in next row end; rep from * across", 15),
        ("ch 1, 2 sc in side of each row, turn", 20),
        (
            AROUND,
            50,
        ),
        ("ch 1, sc in each st across, 3 sc in corner, sc in each row end", 28),
        (
            CORNERS,
            42,
        ),
    ],
)
def test_each_edge_has_its_own_places(edge: str, sts: int) -> None:
    """15 stitches, 10 row ends, 15 chains."""
    assert ({"sc": sts}, []) == counted(edge)


@pytest.mark.parametrize(
    "edge",
    [
        "ch 1, sc in next 12 sts, sc in each row end",
        "ch 1, sc in each st across, sc in next 7 row ends, sc in each ch along bottom",
        "ch 1, sc in next 12 row ends",
    ],
)
def test_nothing_is_left_at_a_corner(edge: str) -> None:
    """Stitches that are left, row ends that are left, row ends that are not there."""
    assert ["row-uneven"] == counted(edge)[1]


def test_where_no_rows_are_their_ends_are_not_there() -> None:
    """A single round of chains has no sides."""
    checked = count("ch 12\nsc in each row end", worked="flat rows")
    assert ["row-no-such-place"] == [problem.code for problem in checked.problems]
