"""What a row is worked into, as the engine takes it: by name, passed over, left, and of which row.

The pieces are made up here; what each takes up is worked out by hand from notation.md's table of
steps, column "takes up".
"""

from __future__ import annotations

import random
from collections.abc import Callable
from itertools import pairwise

import pytest

from tests.oracle.comparison import worked_out
from tests.oracle.generator import piece
from tests.oracle.structure import Piece
from tests.oracle.texts import Text
from tests.oracle.wording import write
from workeven.proof import counting
from workeven.proof.into import OTHER_SIDE, Into

BATCHES = 6
BATCH = 25


def last(text: str, worked: str = "flat rows", start: str | None = None) -> Into | None:
    """What the last row of a piece in one size is worked into."""
    found = counting.count(text, worked=worked, start=start)
    assert found.value is not None
    assert [one.found for one in found.problems] == []
    return found.value.rows[-1].into[0]


def test_each_stitch_across_is_every_stitch() -> None:
    """Nothing is passed over and nothing left."""
    assert last("sc in each st across, turn", start="24 dc") == Into((("dc", 24),))


def test_skipped_chains_at_the_start_are_not_worked_into() -> None:
    """Of 22 chains the first three stand for a dc, and 19 are worked into."""
    rows = "ch 22\ndc in 4th ch from hook (skipped 3 chs count as dc), dc in each ch across, turn"
    assert last(rows) == Into((("ch", 19),))


def test_a_mesh_takes_every_second_stitch() -> None:
    """The chain stands over the first; of the other 20 every second one is passed over."""
    row = (
        "ch 4 (counts as dc and ch 1), sk next st, dc in next st, "
        "*ch 1, sk next st, dc in next st; rep from * across, turn"
    )
    assert last(row, start="21 dc") == Into((("dc", 11),), (("dc", 10),))


def test_what_is_passed_on_the_way_to_a_space_is_passed_over() -> None:
    """Three sides of a square go into its spaces, and all stitches between are passed over."""
    row = (
        "sl st to next ch-2 sp, ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same sp, ch 1, "
        "*(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * around, join"
    )
    found = last(row, "joined rounds", "12 dc, 4 ch-2 sps")
    assert found == Into((("ch-2 sp", 4),), (("dc", 12),))


def test_corners_are_worked_into_with_the_stitches() -> None:
    """Each stitch and the spaces of the corners; nothing is passed over."""
    row = "ch 1, sc in each dc around, working (sc, ch 2, sc) in each corner, join"
    found = last(row, "joined rounds", "12 dc, 4 ch-2 sps")
    assert found == Into((("dc", 12), ("ch-2 sp", 4)))


def test_a_ring_is_one_place() -> None:
    """All twelve go into the ring."""
    assert last("magic ring\n12 dc in ring, join", "joined rounds") == Into((("ring", 1),))


def test_an_oval_goes_along_both_sides_of_its_chain() -> None:
    """Nine chains, and eight of them again."""
    row = (
        "ch 10\nsc in 2nd ch from hook, sc in next 7 ch, 3 sc in last ch, "
        "working along other side of ch, sc in next 7 ch, 2 sc in last ch, join"
    )
    assert last(row, "joined rounds") == Into((("ch", 9), (OTHER_SIDE, 8)))


def test_what_a_short_row_leaves_is_told() -> None:
    """Five of forty are left unworked."""
    row = "ch 1, sc in each st to last 5 sts, leave rem sts unworked, turn"
    assert last(row, start="40 sc") == Into((("sc", 35),), (), (("sc", 5),))


def test_stitches_slipped_over_at_the_head_of_a_flat_row_are_passed_over() -> None:
    """An armhole: four are given up."""
    row = "sl st in each of first 5 sts, ch 3 (counts as dc), dc in each st across, turn"
    assert last(row, start="20 dc") == Into((("dc", 16),), (("dc", 4),))


def test_stitches_of_an_earlier_row_are_told_with_its_number() -> None:
    """The second shoulder stands on what Row 1 left, seven of which are the neck."""
    rows = (
        "ch 21\ndc in 4th ch from hook, dc in each ch across, turn\n"
        "ch 3 (counts as dc), dc in next 5 sts, leave rem sts unworked, turn\n"
        "ch 3 (counts as dc), dc in next 5 sts, fasten off\n"
        "sk next 7 unworked sts of Row 1, join yarn in next st, ch 3 (counts as dc), "
        "dc in next 5 sts, turn"
    )
    assert last(rows) == Into((("dc", 6),), (("dc", 7),), row=1)


def test_the_side_of_rows_is_row_ends() -> None:
    """Two stitches go into each of 24."""
    row = "work 2 sc in side of each row"
    assert last(row, start="24 rows of dc") == Into((("row end", 24),))


def test_posts_are_told_apart() -> None:
    """Ten of twenty are worked around the front post."""
    row = "ch 1, [fpsc around next st, sc in next st] around, join"
    found = last(row, "joined rounds", "20 sc")
    assert found == Into((("sc", 20),), entered=(("front post", 10),))


LOOPS = (
    "sc in back loop only of each st across, turn",
    "ch 1, BLO sc in each st across, turn",
    "ch 1, sc blo in each st across, turn",
    "ch 1, sc in blo of next 24 sts, turn",
    "ch 1, scblo in each st across, turn",
    "ch 1, [blsc in next st, sc in back lp of next st] 12 times, turn",
    "ch 1, *sc in blo of next st; rep from * across, turn",
)


@pytest.mark.parametrize("row", LOOPS)
def test_the_loop_is_told(row: str) -> None:
    """In all its usual wordings."""
    assert last(row, start="24 sc") == Into((("sc", 24),), entered=(("back loop", 24),))


def test_only_the_places_entered_so_are_told_apart() -> None:
    """The other step goes under both loops, and a ch-3 loop is no loop of a stitch."""
    row = "ch 1, sc in front loop of next st, sc in each st across, turn"
    assert last(row, start="9 sc") == Into((("sc", 9),), entered=(("front loop", 1),))


def test_a_long_row_is_told_as_a_short_one_is() -> None:
    """Whole cycles are jumped, and what they take with them."""
    row = "*3 dc in next st, sk next 2 sts; rep from * across, turn"
    assert last(row, start="90000 sc") == Into((("sc", 30000),), (("sc", 60000),))


def test_every_size_has_its_own() -> None:
    """The row leaves more in the larger size, and takes more."""
    found = counting.count(
        "sc in next 8 (10) sts, leave rem sts unworked, turn", start="12 (15) sc", sizes=("S", "M")
    )
    assert found.value is not None
    assert found.value.rows[0].into == (
        Into((("sc", 8),), (), (("sc", 4),)),
        Into((("sc", 10),), (), (("sc", 5),)),
    )


def test_names_are_in_the_terms_of_the_text() -> None:
    """What is dc in the UK is sc in the US."""
    found = counting.count("dc in each st across, turn", terms="uk", start="9 dc")
    assert found.value is not None
    assert found.value.rows[0].into == (Into((("dc", 9),)),)


def test_a_row_that_does_not_come_out_tells_nothing() -> None:
    """What it would take up is not known."""
    found = counting.count("*sc 3, sk 1; rep from * across, turn", start="9 sc")
    assert found.value is not None
    assert found.value.rows[0].into == (None,)


def stitches_of(into: Into) -> int:
    """All stitches of the row before, worked into or not."""
    parts = (*into.places, *into.over, *into.left)
    return sum(number for name, number in parts if not name.endswith(("sp", "below")))


@pytest.mark.parametrize("batch", range(BATCHES))
def test_every_stitch_of_the_row_before_is_accounted_for(batch: int) -> None:
    """Worked into, passed over or left: together they are what the row before has left."""
    rng = random.Random(87_000 + batch)  # noqa: S311
    judged = 0
    for _ in range(BATCH):
        made = piece(rng)
        text = write(made, rng)
        found, lines = worked_out(made, text).value, text.text.split("\n")
        assert found is not None
        for before, row in pairwise(found.rows):
            for size, into in enumerate(row.into):
                there = before.makes[size]
                if into is None or into.row is not None or not there or row.times[size] != 1:
                    continue
                if "ch" in dict(there) or "ring" in dict(there):
                    continue  # of a chain the first ones are skipped; a ring has no stitches
                if "from hook" in lines[before.line - 1]:
                    continue  # leaves stand off the row
                judged += 1
                assert stitches_of(into) == before.sts[size], (text.text, row.line)
    assert judged > BATCH


# --- the ways of counting ------------------------------------------------------------------


def no(*_: object, **__: object) -> None:
    """A quick way that is never taken."""


def worked_into(made: Piece, text: Text) -> list[object]:
    """What every row of a piece is worked into, its places in no order."""
    found = worked_out(made, text)
    assert found.value is not None
    return [
        one and (dict(one.places), dict(one.over), dict(one.left), one.row, dict(one.entered))
        for row in found.value.rows
        for one in row.into
    ]


QUICK: tuple[tuple[str, Callable[..., object]], ...] = (
    ("workeven.proof.into.takes_all", no),
    ("workeven.proof.in_step.count_plainly", no),
    ("workeven.proof.standing.count_plainly", no),
    ("workeven.proof.turns.Turns._jump", no),
    ("workeven.proof.cursor.Cursor._straight_ahead", no),
)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_no_quick_way_of_counting_tells_another_thing(
    batch: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Plain counts, counts in step, jumped cycles: every one tells what the walk tells."""
    rng = random.Random(83_000 + batch)  # noqa: S311
    for _ in range(BATCH):
        made = piece(rng)
        text = write(made, rng)
        told = worked_into(made, text)
        for name, slow in QUICK:
            with monkeypatch.context() as patch:
                patch.setattr(name, slow)
                assert worked_into(made, text) == told, (name, text.text)
