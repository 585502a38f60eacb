"""The hook along a fabric: what is passed in whole turns, what need not be worked."""

from __future__ import annotations

import pytest

from workeven.proof import counting
from workeven.proof.cursor import Cursor
from workeven.proof.fabric import (
    Loop,
    Match,
    Node,
    Run,
    any_place,
    count_stitches,
    space,
    stitch,
)
from workeven.proof.ledger import Ledger, Trail

SC, DC, SPACE = stitch("sc", "sc"), stitch("dc", "dc"), space(2)
#: six times seven sc and a dc: 48 stitches
LOOP: tuple[Node, ...] = (Loop((Run(SC, 7), Run(DC, 1)), 6),)
#: four sides: three dc, then twice a space and a sc
NESTED: tuple[Node, ...] = (Loop((Run(DC, 3), Loop((Run(SPACE, 1), Run(SC, 1)), 2)), 4),)


@pytest.mark.parametrize("taken", [0, 1, 7, 8, 20, 47, 48])
def test_what_is_taken_is_no_longer_there(taken: int) -> None:
    """Also in the midst of a turn."""
    cursor = Cursor(LOOP)
    cursor.take(count_stitches, taken)
    rest = sum(node.sts for node in cursor.rest())
    assert (cursor.remaining(count_stitches), rest) == (48 - taken, 48 - taken)


def test_no_more_is_taken_than_is_there() -> None:
    """It says how many came."""
    cursor = Cursor(LOOP)
    assert (cursor.take(count_stitches, 50), cursor.peek()) == (48, None)


@pytest.mark.parametrize(("taken", "before"), [(0, 7), (3, 4), (7, 0), (8, 7), (44, 3)])
def test_the_stitches_before_the_next_of_a_name_are_counted(taken: int, before: int) -> None:
    """Of the turn begun, or of the next one."""
    cursor = Cursor(LOOP)
    cursor.take(count_stitches, taken)
    assert cursor.before(lambda place: place == DC, count_stitches) == before


def test_only_those_of_the_name_are_counted_on_the_way() -> None:
    """Two of three dc are used, one is left, and none of them is a space."""
    cursor = Cursor(NESTED)
    cursor.take(count_stitches, 2)
    found = [
        cursor.before(lambda place: place == SC, match)
        for match in (count_stitches, any_place, lambda place: place == SPACE)
    ]
    assert found == [1, 2, 1]


def test_where_none_of_the_name_comes_nothing_is_before_it() -> None:
    """The last dc is passed."""
    cursor = Cursor(LOOP)
    cursor.take(count_stitches, 48)
    assert cursor.before(lambda place: place == DC, count_stitches) is None


def test_going_to_a_name_passes_all_before_it() -> None:
    """Into the inner loop of the second side, and out at the end where there is none."""
    cursor = Cursor(NESTED)
    cursor.take(count_stitches, 4)
    cursor.go_to(lambda place: place == DC)
    assert (cursor.peek(), cursor.remaining(count_stitches)) == (DC, 15)
    cursor.go_to(lambda place: place.name == "tr")
    assert cursor.peek() is None


def test_what_was_passed_and_what_is_to_come_are_all_there_is() -> None:
    """For a path of one level."""
    cursor = Cursor(LOOP)
    cursor.take(count_stitches, 20)
    passed = sum(node.sts for node in cursor.passed())
    assert (passed, cursor.remaining(count_stitches)) == (20, 28)


@pytest.mark.parametrize("sts", [9, 10, 11])
def test_stitches_passed_at_the_head_of_a_round_may_be_worked_at_its_end(sts: int) -> None:
    """Two of twelve are passed before the slip stitch that the first sc goes into: none, one, both.

    "Rounds are closed" of the notation: they come last, and need not be worked.
    """
    row = f"sl st in next 3 sts, ch 1, sc in same st, sc in next {sts} sts, join"
    found = counting.count(row, worked="joined rounds", start="12 sc")
    assert found.value is not None
    assert (found.value.rows[0].sts, found.problems) == ((sts + 1,), ())


# --- the ledger ----------------------------------------------------------------------------


def test_a_ledger_keeps_apart_what_is_worked_and_what_is_passed() -> None:
    """Four spaces from the head: of each side the dc and the sc before it are passed."""
    cursor = Cursor(NESTED, Ledger())
    cursor.take(lambda place: place == SPACE, 4)
    assert cursor.ledger == Ledger({"ch-2 sp": 4}, {"dc": 6, "sc": 3})


def test_a_skip_is_passed_and_not_worked() -> None:
    """Three stitches."""
    cursor = Cursor(LOOP, Ledger())
    cursor.pass_by(count_stitches, 3)
    cursor.take(count_stitches, 5)
    assert cursor.ledger == Ledger({"sc": 4, "dc": 1}, {"sc": 3})


def test_a_copy_has_a_ledger_of_its_own() -> None:
    """What is tried and given up is not written down."""
    cursor = Cursor(LOOP, Ledger())
    cursor.copy().take(count_stitches, 5)
    assert cursor.ledger == Ledger()


@pytest.mark.parametrize("sort", [count_stitches, any_place, lambda place: place == SPACE])
@pytest.mark.parametrize("takes", [(1, 2, 1, 5), (3, 3), (7, 1, 7), (2, 0, 4, 40)])
@pytest.mark.parametrize("nodes", [LOOP, NESTED])
def test_what_is_taken_of_one_run_is_written_down_as_by_comparing_all(
    nodes: tuple[Node, ...], takes: tuple[int, ...], sort: Match
) -> None:
    """A ledger with a trail always compares what was there with what is left."""
    quick, slow = Cursor(nodes, Ledger()), Cursor(nodes, Ledger(trail=Trail()))
    for count in takes:
        assert quick.take(sort, count) == slow.take(sort, count)
        quick.go_to(lambda place: place == DC)
        slow.go_to(lambda place: place == DC)
    assert quick.ledger is not None
    assert slow.ledger is not None
    assert quick.ledger == slow.ledger._replace(trail=None)
