"""Stated counts in units of their own, and what rows after a wrong one are counted from."""

from __future__ import annotations

import pytest

from workeven.proof import counting

MESH = "ch 3 (counts as dc), *ch {0}, sk {0} sts, dc in next st; rep from * across, turn"


def codes(text: str, start: str, worked: str = "flat rows") -> list[tuple[str, int]]:
    """The problems of a text with their lines."""
    found = counting.count(text, worked=worked, start=start)
    return [(one.code, one.span.line) for one in found.problems]


@pytest.mark.parametrize(("chains", "told"), [(8, []), (9, [("count-stated", 1)])])
def test_chains_may_be_counted_one_by_one(chains: int, told: list[tuple[str, int]]) -> None:
    """Four spaces of two chains each are eight chains."""
    assert codes(f"{MESH.format(2)} (5 dc, {chains} ch)", "13 dc") == told


@pytest.mark.parametrize(("spaces", "told"), [(4, []), (5, [("count-stated", 1)])])
def test_spaces_are_counted_by_their_name(spaces: int, told: list[tuple[str, int]]) -> None:
    """Four ch-1 sps between five dc."""
    assert codes(f"{MESH.format(1)} (5 dc, {spaces} ch-1 sps)", "9 dc") == told


def test_a_wrong_count_of_a_mesh_is_told_once() -> None:
    """The next row is counted from what is there, and comes out."""
    rows = f"{MESH.format(1)} (6 dc, 4 ch-1 sps)\nsc in each dc and in each ch-1 sp across, turn"
    assert codes(rows, "9 dc") == [("count-stated", 1)]
