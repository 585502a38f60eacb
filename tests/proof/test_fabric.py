"""The fabric and the cursor give what a plain list of places would give."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from workeven.proof.cursor import Cursor
from workeven.proof.fabric import (
    Builder,
    Loop,
    Match,
    Node,
    Place,
    Run,
    any_place,
    count_stitches,
    counted_chain,
    last_place,
    reversed_nodes,
    space,
    stitch,
    tally,
    without_turning_chain,
)

SC, DC, TWO = stitch("sc", "sc"), stitch("dc", "dc"), space(2)
PLACES = (SC, DC, TWO)


def is_sc(place: Place) -> bool:
    """The match for an sc."""
    return place == SC


def is_space(place: Place) -> bool:
    """The match for any space."""
    return place.sort == "sp"


MATCHES: tuple[Match, ...] = (count_stitches, is_sc, is_space, any_place)


def nested(places: tuple[Place, ...]) -> st.SearchStrategy[tuple[Node, ...]]:
    """Fabrics of runs, and of loops within loops."""
    runs = st.builds(Run, st.sampled_from(places), st.integers(1, 4))
    return st.recursive(
        st.lists(runs, min_size=1, max_size=2).map(tuple),
        lambda inside: st.lists(
            runs | st.builds(Loop, inside, st.integers(1, 4)), min_size=1, max_size=3
        ).map(tuple),
        max_leaves=6,
    )


#: also with spaces between stretches that have none, as corners stand
fabrics = nested(PLACES) | st.builds(
    lambda first, then: (Loop(first, 3), Run(TWO, 1), *then), nested((SC, DC)), nested(PLACES)
)
matches = st.sampled_from(MATCHES)


def listed(nodes: tuple[Node, ...]) -> list[Place]:
    """The places of a fabric, one after the other."""
    found: list[Place] = []
    for node in nodes:
        found += (
            [node.place] * node.count if isinstance(node, Run) else listed(node.nodes) * node.times
        )
    return found


def walked(nodes: tuple[Node, ...], steps: list[tuple[Match, int]]) -> tuple[Cursor, list[Place]]:
    """A cursor that took these places, and the places that a list would then hold."""
    cursor, rest = Cursor(nodes), listed(nodes)
    for match, count in steps:
        left = count
        while left and any(match(place) for place in rest):
            left -= match(rest.pop(0))
        if left:
            rest = []
        assert count - left == cursor.take(match, count)
    return cursor, rest


steps = st.lists(st.tuples(matches, st.integers(1, 6)), max_size=4)


@given(fabrics, steps, matches)
def test_the_rest_is_what_a_list_would_hold(
    nodes: tuple[Node, ...], taken: list[tuple[Match, int]], match: Match
) -> None:
    """Whatever was taken, the places to come are the same, and so is their number."""
    cursor, rest = walked(nodes, taken)
    assert rest == listed(cursor.rest())
    assert sum(map(match, rest)) == cursor.remaining(match)


@given(fabrics, steps)
def test_what_is_passed_and_what_is_left_make_the_whole(
    nodes: tuple[Node, ...], taken: list[tuple[Match, int]]
) -> None:
    """No place is lost where the fabric is parted at the hook."""
    cursor, rest = walked(nodes, taken)
    whole = listed(nodes)
    assert whole[: len(whole) - len(rest)] == listed(cursor.passed())


@settings(max_examples=300)
@given(fabrics, steps, matches, matches)
def test_places_before_another_are_counted(
    nodes: tuple[Node, ...], taken: list[tuple[Match, int]], stop: Match, match: Match
) -> None:
    """Up to "next ch-2 sp" are the stitches before that space, if there is one."""
    cursor, rest = walked(nodes, taken)
    at = next((at for at, place in enumerate(rest) if stop(place)), None)
    expected = None if at is None else sum(map(match, rest[:at]))
    assert expected == cursor.before(stop, match)


@given(fabrics, steps, matches)
def test_the_hook_goes_to_the_next_place_of_a_name(
    nodes: tuple[Node, ...], taken: list[tuple[Match, int]], match: Match
) -> None:
    """All before it is passed, and it itself is not."""
    cursor, rest = walked(nodes, taken)
    while rest and not match(rest[0]):
        rest.pop(0)
    cursor.go_to(match)
    assert rest == listed(cursor.rest())
    assert (rest[0] if rest else None) == cursor.peek()


@given(fabrics, steps)
def test_a_copy_stays_where_it_is(nodes: tuple[Node, ...], taken: list[tuple[Match, int]]) -> None:
    """What the hook does later does not move a state that was kept."""
    cursor, rest = walked(nodes, taken)
    kept = cursor.copy()
    cursor.take(any_place, 3)
    assert rest == listed(kept.rest())


@given(fabrics, steps, st.integers(1, 2))
def test_a_counter_that_is_lowered_passes_whole_turns(
    nodes: tuple[Node, ...], taken: list[tuple[Match, int]], turns: int
) -> None:
    """A jump over cycles leaves as many places as are left when its turns are walked."""
    cursor, rest = walked(nodes, taken)
    for key, value in list(cursor.counters()):
        jumped = cursor.copy()
        if value <= turns:
            continue
        jumped.jump(key, turns)
        at = key[0]
        assert isinstance(at, int)
        turn = 1 if at == -1 else len(listed(cursor.frames[at // 3].nodes))
        assert len(rest) - turns * turn == len(listed(jumped.rest()))


@given(fabrics)
def test_turned_work_has_its_places_the_other_way_round(nodes: tuple[Node, ...]) -> None:
    """Turning twice gives the same places again."""
    turned = reversed_nodes(nodes)
    assert listed(nodes)[::-1] == listed(turned)
    assert nodes == reversed_nodes(turned)


@given(fabrics)
def test_the_last_place_is_parted_from_the_others(nodes: tuple[Node, ...]) -> None:
    """A joined, turned round begins with it."""
    last, before = last_place(nodes)
    assert listed(nodes) == [*listed(before), last]


@given(fabrics)
def test_names_are_counted_as_in_a_list(nodes: tuple[Node, ...]) -> None:
    """How many places of each name there are."""
    places = listed(nodes)
    assert {place.name: places.count(place) for place in places} == tally(nodes)
    assert sum(map(count_stitches, places)) == sum(node.sts for node in nodes)


@given(st.lists(st.tuples(fabrics, st.integers(1, 4)), max_size=4))
def test_what_is_folded_is_what_was_made(made: list[tuple[tuple[Node, ...], int]]) -> None:
    """The builder folds neighbours that are alike and adds nothing."""
    builder = Builder()
    for nodes, times in made:
        builder.add_times(nodes, times)
    expected = [place for nodes, times in made for place in listed(nodes) * times]
    assert expected == listed(tuple(builder.nodes))


def test_neighbours_that_are_alike_are_one_run() -> None:
    """A row of 100,000 sc is as short as a row of one."""
    builder = Builder()
    for _ in range(3):
        builder.add(SC, 40)
    assert [Run(SC, 120)] == builder.nodes


def test_a_fabric_knows_whether_it_is_plain_and_of_one_kind() -> None:
    """Spaces make it another matter, and so do stitches of two kinds."""
    chain = counted_chain("dc", "dc", 3)
    plain = Loop((Run(chain, 1), Run(DC, 4)), 3)
    assert (True, "dc") == (plain.plain, plain.base)
    mixed = Loop((Run(DC, 1), Run(SC, 1)), 3)
    assert (True, "") == (mixed.plain, mixed.base)
    mesh = Loop((Run(DC, 1), Run(TWO, 1)), 3)
    assert (False, "") == (mesh.plain, mesh.base)


def test_a_turning_chain_left_unworked_is_dropped_with_the_spaces_behind_it() -> None:
    """A turning ch that is left unworked takes its space with it."""
    chain = Run(counted_chain("dc", "dc", 5), 1)
    nodes = (Run(DC, 4), chain, Run(TWO, 1))
    assert (Run(DC, 4),) == without_turning_chain(nodes)
    assert nodes[:1] == without_turning_chain(nodes[:1])


CHAIN = counted_chain("dc", "dc", 5)


@given(nested((SC, TWO)), st.integers(0, 2), st.integers(0, 3), st.booleans())
def test_a_turning_chain_at_the_end_is_found_wherever_it_lies(
    nodes: tuple[Node, ...],
    spaces: int,
    others: int,
    grouped: bool,  # noqa: FBT001, drawn
) -> None:
    """In a run of several, behind spaces, in a group: one is dropped with the spaces behind it."""
    end: tuple[Node, ...] = (Run(CHAIN, 1 + others), *([Run(TWO, spaces)] if spaces else []))
    whole = (*nodes, Loop(end, 1, group=True)) if grouped else (*nodes, *end)
    kept = [*listed(nodes), *[CHAIN] * others]
    assert kept == listed(without_turning_chain(whole))


def test_nothing_is_dropped_where_no_turning_chain_ends_the_row() -> None:
    """Not behind a stitch, not in the turns of a repeat, not where there are spaces alone."""
    for nodes in (
        (Run(CHAIN, 1), Run(SC, 1)),
        (Run(SC, 2), Loop((Run(CHAIN, 1), Run(TWO, 1)), 2)),
        (Run(TWO, 2),),
        (Run(SC, 1), Run(TWO, 1)),
    ):
        assert nodes == without_turning_chain(nodes)


def test_a_group_that_loses_its_turning_chain_stays_a_group() -> None:
    """By its name; an empty one is gone."""
    group = Loop((Run(DC, 2), Run(CHAIN, 1)), 1, group=True, name="shell")
    assert (Loop((Run(DC, 2),), 1, group=True, name="shell"),) == without_turning_chain((group,))
    assert () == without_turning_chain((Loop((Run(CHAIN, 1),), 1, group=True),))


def test_like_fabrics_have_like_hashes() -> None:
    """Equal nodes are found again; other ones are told apart."""
    nodes = (Run(SC, 2), Loop((Run(DC, 1), Run(TWO, 1)), 3))
    same = (Run(SC, 2), Loop((Run(DC, 1), Run(TWO, 1)), 3))
    others = (Run(SC, 3), Loop((Run(DC, 1), Run(TWO, 1)), 4))
    assert [hash(node) for node in nodes] == [hash(node) for node in same]
    assert 4 == len({hash(node) for node in (*nodes, *others)})
