"""Chains with nothing worked between them are one space, as a walk along a list would find it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workeven.proof.chain_runs import as_runs
from workeven.proof.counting import count
from workeven.proof.fabric import (
    BEYOND,
    PICOT,
    Loop,
    Node,
    Place,
    Run,
    amount_of,
    space,
    stitch,
    tally,
)
from workeven.records import replace

SC, DC, ONE, TWO = stitch("sc", "sc"), stitch("dc", "dc"), space(1), space(2)
PARTED = space(2, parted=True)
BEARS = replace(space(2), marks=(PICOT,))


def listed(nodes: tuple[Node, ...]) -> list[Place]:
    """Every place by itself."""
    places: list[Place] = []
    for node in nodes:
        inside = [node.place] if isinstance(node, Run) else listed(node.nodes)
        places += inside * (node.count if isinstance(node, Run) else node.times)
    return places


def joined(places: list[Place]) -> list[Place]:
    """The same places, one by one, with neighbouring spaces added up."""
    out: list[Place] = []
    for place in places:
        meets = out and out[-1].sort == place.sort == "sp" and not place.parted
        if meets and PICOT in out[-1].marks:
            out.append(replace(place, parted=True))
        elif meets:
            one = space(out[-1].chains + place.chains, parted=out[-1].parted)
            out[-1] = replace(one, marks=place.marks)
        else:
            out.append(place)
    return out


runs = st.builds(Run, st.sampled_from((SC, DC, ONE, TWO, PARTED, BEARS)), st.integers(1, 3))
fabrics = st.recursive(
    st.lists(runs, min_size=1, max_size=3).map(tuple),
    lambda inside: st.lists(
        runs
        | st.builds(Loop, inside, st.integers(1, 4))
        | st.builds(lambda nodes: Loop(nodes, 1, group=True), inside),
        min_size=1,
        max_size=3,
    ).map(tuple),
    max_leaves=6,
)


@given(fabrics)
def test_runs_are_joined_as_in_a_list(nodes: tuple[Node, ...]) -> None:
    """At any depth, and over the seam between two turns of a repeat."""
    assert joined(listed(nodes)) == listed(as_runs(nodes, tally(nodes), {}))


@given(fabrics)
def test_the_counts_are_those_of_the_places(nodes: tuple[Node, ...]) -> None:
    """What is joined is no longer counted by its parts."""
    makes = tally(nodes)
    assert tally(as_runs(nodes, makes, {})) == makes


@given(fabrics)
def test_what_goes_on_behind_a_picot_is_counted(nodes: tuple[Node, ...]) -> None:
    """So many runs more are the rest of a loop as are parted in the joined fabric."""
    groups: dict[str, int] = {}
    runs_apart = as_runs(nodes, tally(nodes), groups)
    more = [amount_of(some, lambda place: place.parted) for some in (nodes, runs_apart)]
    assert groups.get(BEYOND, 0) == more[1] - more[0]


def test_spaces_that_stand_apart_stay_as_they_are() -> None:
    """Most rows are not touched."""
    nodes = (Loop((Run(SC, 1), Run(TWO, 1)), 6),)
    assert as_runs(nodes, tally(nodes), {}) is nodes


def test_many_turns_stay_one_loop() -> None:
    """The fabric stays as small as its text."""
    nodes = (Loop((Run(ONE, 1), Run(SC, 1), Run(TWO, 1)), 1000),)
    turn = Loop((Run(SC, 1), Run(space(3), 1)), 999)
    assert (Run(ONE, 1), turn, Run(SC, 1), Run(TWO, 1)) == as_runs(nodes, tally(nodes), {})


def test_what_was_worked_into_one_place_stays_a_group() -> None:
    """Its last space, made longer by the chains behind it, stands beside it."""
    group = Loop((Run(DC, 3), Run(TWO, 1)), 1, group=True)
    nodes = (group, Run(ONE, 1))
    assert (Loop((Run(DC, 3),), 1, group=True), Run(space(3), 1)) == as_runs(
        nodes, tally(nodes), {}
    )


@pytest.mark.parametrize(
    ("row", "makes"),
    [
        (
            "ch 1, *sc in next st, ch 2, ch 1, sk next st; rep from * across",
            {"sc": 6, "ch-3 sp": 6},
        ),
        (
            "ch 1, sc in first 10 sts, *ch 2; rep from * 2 more times, sc in last 2 sts",
            {"sc": 12, "ch-6 sp": 1},
        ),
        (
            "ch 1, *ch 2, sc in next st, ch 1; rep from * across",
            {"ch-2 sp": 1, "sc": 12, "ch-1 sp": 1, "ch-3 sp": 11},
        ),
        (
            "ch 5 (counts as dc and ch 2), ch 1, dc in each of next 11 sts",
            {"dc": 12, "ch-3 sp": 1},
        ),
        (
            "ch 1, *sc in next st, (dc, ch 2) in next st, ch 1; rep from * across",
            {"sc": 6, "dc": 6, "ch-3 sp": 6},
        ),
        (
            "*sc in next 3 sts, ch 2, ch 3, sl st in 3rd ch from hook, ch 2; rep from * across",
            {"sc": 12, "ch-2 sp": 8, "picot": 4},
        ),
    ],
)
def test_a_row_reports_its_runs(row: str, makes: dict[str, int]) -> None:
    """Written in two steps, in a repeat of their own, over its seam; a picot parts them."""
    checked = count(row, worked="flat rows", start="12 sc")
    assert checked.value is not None
    assert (makes, ()) == (dict(checked.value.rows[0].makes[0] or {}), checked.problems)
