"""Formulas are worked out each after all it needs, and circles are named."""

from __future__ import annotations

from workeven.grading.order import in_order


def _needs(**named: str) -> dict[str, frozenset[str]]:
    return {name: frozenset(needs.split()) for name, needs in named.items()}


def test_each_name_comes_after_all_it_needs() -> None:
    """Written in any order, worked out in the one that serves."""
    order, circles = in_order(_needs(cuff="sleeve", sleeve="arm hand", arm="", hand="arm"))
    assert ("arm", "hand", "sleeve", "cuff") == order
    assert () == circles


def test_names_known_elsewhere_hold_nothing_up() -> None:
    """Body measurements need no working out."""
    assert (("cuff",), ()) == in_order(_needs(cuff="bust"))


def test_name_that_needs_itself_is_a_circle() -> None:
    """The smallest circle there is."""
    assert ((), (("a",),)) == in_order(_needs(a="a"))


def test_circle_is_named_from_its_first_name_on_and_once() -> None:
    """What only depends on a circle is not part of it."""
    order, circles = in_order(_needs(top="b", c="b", b="d", d="c", free=""))
    assert ("free",) == order
    assert (("c", "b", "d"),) == circles


def test_two_circles_are_two() -> None:
    """Each is a mistake of its own."""
    assert (("a", "b"), ("c", "d")) == in_order(_needs(a="b", b="a", c="d", d="c"))[1]


def test_long_chain_of_formulas_is_no_deep_recursion() -> None:
    """Ten thousand formulas that each need the next are put in order all the same."""
    needs = {f"n{number}": frozenset({f"n{number + 1}"}) for number in range(10_000)}
    order, circles = in_order(needs)
    assert ("n9999", "n0") == (order[0], order[-1])
    assert () == circles
