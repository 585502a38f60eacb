"""One row in one size: what it leaves, what it is counted on by, what would come out."""

from __future__ import annotations

import pytest

from workeven.notation.parser import parse_row
from workeven.notation.tree import Aside, Stated, WorkedRow
from workeven.notation.vocabulary import Vocabulary
from workeven.problems import Span
from workeven.proof.context import SizeContext
from workeven.proof.fabric import CHAIN, Fabric, Loop, Node, Run, counted_chain, space, stitch
from workeven.proof.facts import Facts, facts_of
from workeven.proof.row import RowCount, against, nearest, work
from workeven.proof.stated import figures_of

PLACE = Span(file="rows", line=1, column=1, end_line=1, end_column=1)
ONE_SIZE = SizeContext(index=0, sizes=1)
SC, DC = stitch("sc", "sc"), stitch("dc", "dc")


def read(text: str) -> tuple[Facts, Stated | None]:
    """A row as it is worked, and what it states."""
    row = parse_row(text, PLACE, Vocabulary()).value
    assert row is not None
    assert isinstance(row.body, WorkedRow)
    return facts_of(row.body.steps), row.stated


def worked(text: str, *nodes: Node, how: str = "flat rows", closed: bool = False) -> RowCount:
    """A row over these places, held against what it states."""
    facts, stated = read(text)
    below = Fabric(nodes, closed=closed or how != "flat rows", turned=True)
    count = work(facts, below, ONE_SIZE, worked=how)
    return against(count, stated, figures_of(stated, ONE_SIZE))


def test_a_flat_row_is_turned_though_nobody_says_so() -> None:
    """Its last stitch is the first of the next row."""
    count = worked("ch 3, dc in each st across", Run(SC, 5))
    chain = counted_chain("dc", "dc", 3)
    assert Fabric((Run(DC, 4), Run(chain, 1)), turned=True) == count.fabric


@pytest.mark.parametrize("end", ["do not turn", "fasten off"])
def test_a_flat_row_is_not_turned_where_its_end_says_otherwise(end: str) -> None:
    """The places stay in the order in which they were made."""
    count = worked(f"ch 3, dc in each st across, {end}", Run(SC, 5))
    assert [Run(counted_chain("dc", "dc", 3), 1), Run(DC, 4)] == list(count.fabric.nodes)


def test_a_joined_and_turned_round_begins_at_its_joining() -> None:
    """The place that was joined is worked first, though it is the last of the turned list."""
    count = worked("ch 1, sc around, join, turn", Run(DC, 8), how="joined rounds, turned")
    assert (True, True, 8) == (count.fabric.closed, count.fabric.join_last, count.fabric.sts)


def test_the_chain_at_a_rows_end_is_the_next_rows() -> None:
    """It takes no place and makes none; the next row begins with it."""
    count = worked("sc in each st across, ch 3, turn", Run(SC, 5))
    assert count.fabric.turning_chain is not None
    following, _ = read("dc in next st and in each st across")
    assert work(following, count.fabric, ONE_SIZE, worked="flat rows").makes == (("dc", 5),)


def test_a_row_that_does_not_come_out_is_counted_on() -> None:
    """By the largest number of repeats that fits, the other steps as written."""
    count = worked("ch 1, *sc 3, sc2tog; rep from * across, sc in last st", Run(SC, 18))
    assert count.fault is not None
    assert ("row-uneven", {"takes": 5, "repeats": 3, "left_over": 2}) == (
        count.fault.code,
        count.fault.figures,
    )
    assert (("sc", 10), ("sc2tog", 3)) == count.makes


def test_a_row_that_does_not_come_out_leaves_what_it_states() -> None:
    """The rows behind it are checked from there."""
    count = worked("ch 1, *sc 3, sc2tog; rep from * across (15 sc)", Run(SC, 18))
    assert ("row-uneven", 15) == (count.fault and count.fault.code, count.sts)


def test_a_count_that_is_not_what_is_made_is_told() -> None:
    """And the other fabric is kept, for the next rows to choose."""
    count = worked("ch 1, sc in each st across (17)", Run(SC, 18))
    assert count.fault is not None
    assert {"stated": 17, "made": 18} == count.fault.figures
    assert count.as_stated is not None
    assert (18, 17) == (count.fabric.sts, count.as_stated[0].sts)


def test_a_count_half_way_is_compared_with_what_is_made_up_to_there() -> None:
    """Eleven are stated behind the first ten."""
    count = worked("ch 1, sc in next 10 sts (11 sc), 2 dc in each rem st", Run(SC, 18))
    assert ("count-stated", 10) == (
        count.fault and count.fault.code,
        count.fault and count.fault.figures["made"],
    )


def test_a_number_of_repeats_that_leaves_some_over_is_counted_on_by_as_many_as_fit() -> None:
    """Three repeats of 4 leave 8 of 20; the rows behind go on from five."""
    count = worked("ch 1, *sc 3, sc2tog; rep from * 2 more times", Run(SC, 25))
    assert (("row-uneven", 10), 20) == (
        (count.fault and count.fault.code, count.fault and count.fault.figures["left_over"]),
        count.sts,
    )


def test_the_multiple_of_a_repeat_is_kept() -> None:
    """A multiple of 4, and 2 more."""
    count = worked(
        "ch 1, sc in first st, *sc 3, ch 1, sk 1; rep from * to last st, sc", Run(SC, 18)
    )
    assert (4, 2) == count.multiple


@pytest.mark.parametrize(
    ("row", "below", "offered"),
    [
        pytest.param("ch 1, *sc 3, sc2tog; rep from * across", 18, (15, 20), id="a repeat"),
        pytest.param("ch 1, sc in next 4 sts, dc in last st", 9, (5, None), id="below only"),
        pytest.param("ch 1, [sc2tog] across", 1, (None, 2), id="above only"),
    ],
)
def test_the_nearest_counts_that_come_out_are_found(
    row: str, below: int, offered: tuple[int | None, int | None]
) -> None:
    """One below and one above the count that is there, where there is one."""
    steps, _ = read(row)
    fabric = Fabric((Run(SC, below),), turned=True)
    assert offered == nearest(steps.written, fabric, ONE_SIZE, worked="flat rows")


def test_the_nearest_count_of_a_mesh_has_whole_squares() -> None:
    """A mesh becomes wider by a stitch and its space: two squares for each repeat, and one dc."""
    mesh = Fabric((Loop((Run(DC, 1), Run(space(1), 1)), 5), Run(DC, 1)), turned=True)
    row = (
        "ch 1, *sc in next dc, 2 sc in next ch-1 sp, sc in next dc, sc in next ch-1 sp; rep from * "
        "to last st, sc in last st"
    )
    steps, _ = read(row)
    assert (5, 7) == nearest(steps.written, mesh, ONE_SIZE, worked="flat rows")


def test_a_starting_chain_reports_its_chains() -> None:
    """And is worked into, not counted as a row."""
    facts, _ = read("ch 21")
    count = work(facts, None, ONE_SIZE, worked="flat rows")
    assert (False, (("ch", 21),), (Run(CHAIN, 21),)) == (
        count.is_row,
        count.makes,
        count.fabric.nodes,
    )


JOINED = (
    "ch 20",
    "ch 20, join with sl st to first ch",
    "ch 20, join",
    "ch 20, sl st in first ch to join",
    "ch 8, join with sl st to form ring",
)


@pytest.mark.parametrize("text", JOINED)
@pytest.mark.parametrize("how", ["flat rows", "joined rounds", "spiral rounds"])
def test_a_starting_chain_is_not_walked_and_comes_to_the_same(text: str, how: str) -> None:
    """Alone or joined: behind it something that says nothing, the same chain is walked."""
    facts, _ = read(text)
    quick = work(facts, None, ONE_SIZE, worked=how)
    walked = work(facts._replace(written=(*facts.written, Aside())), None, ONE_SIZE, worked=how)
    assert quick == walked
