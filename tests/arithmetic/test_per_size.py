"""Values by size keep their sizes."""

from __future__ import annotations

import pytest

from workeven.arithmetic.per_size import Sizes

SIZES = Sizes(("S", "M", "L"))


def test_values_come_with_the_names_of_their_sizes() -> None:
    """In the order of the pattern."""
    assert [("S", 60), ("M", 66), ("L", 72)] == list(SIZES.each((60, 66, 72)).items())


@pytest.mark.parametrize(
    ("values", "same"),
    [((3, 3, 3), True), ((3, 3, 4), False), ((4, 3, 3), False), ((3, 4, 3), False)],
)
def test_the_same_in_every_size_is_seen(values: tuple[int, ...], same: bool) -> None:  # noqa: FBT001, expected
    """One that differs is enough."""
    assert same is SIZES.each(values).same()


def test_a_value_a_size_and_no_more() -> None:
    """Another number of values is a bug of ours."""
    with pytest.raises(ValueError, match="2 values for 3 sizes"):
        SIZES.each((1, 2))
