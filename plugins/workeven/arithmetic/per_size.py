"""One value for each size, with the names of the sizes attached.

Takes     the sizes of a pattern and a value for each.
Gives     ``Sizes``, ``PerSize``.
Problems  none.
From      design.md, "Values by size".
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Generic, TypeVar

from workeven.records import record_by_position

T = TypeVar("T")
U = TypeVar("U")


@record_by_position
class Sizes:
    """The names of the sizes, smallest first.

    A pattern in one size has one name; plain rows counted without sizes have the single name "".
    """

    names: tuple[str, ...]

    def __len__(self) -> int:
        return len(self.names)

    def all(self, value: T) -> PerSize[T]:
        """The same value for every size.

        >>> Sizes(("S", "M")).all(3).values
        (3, 3)
        """
        return PerSize(self, (value,) * len(self.names))

    def each(self, values: tuple[T, ...]) -> PerSize[T]:
        """One value a size; raises ValueError when their number differs (a bug, not a mistake)."""
        return PerSize(self, values)


@record_by_position
class PerSize(Generic[T]):
    """One value a size, in the pattern's order.

    >>> PerSize(Sizes(("S", "M")), (60, 66)).map(lambda sts: sts + 1).values
    (61, 67)
    """

    sizes: Sizes
    values: tuple[T, ...]

    def __post_init__(self) -> None:
        if len(self.values) != len(self.sizes.names):
            msg = f"{len(self.values)} values for {len(self.sizes.names)} sizes"
            raise ValueError(msg)

    def __iter__(self) -> Iterator[T]:
        return iter(self.values)

    def __getitem__(self, index: int) -> T:
        return self.values[index]

    def map(self, change: Callable[[T], U]) -> PerSize[U]:
        """The same sizes, each value changed."""
        return PerSize(self.sizes, tuple(change(value) for value in self.values))

    def items(self) -> Iterator[tuple[str, T]]:
        """Pairs of size name and value."""
        return iter(zip(self.sizes.names, self.values, strict=True))

    def same(self) -> bool:
        """Whether every size has the same value."""
        return all(value == self.values[0] for value in self.values)
