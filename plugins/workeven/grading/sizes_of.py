"""Which sizes a problem of grading names.

Takes     the sizes of a pattern and the indexes of those that fail.
Gives     ``names_of``, ``others_of``, ``in_size``; ``only``, ``by_size`` for rows in words.
Problems  none of its own.
From      house-style.md, rule 13: name the sizes that fail and those that come out.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from workeven.arithmetic.per_size import Sizes
from workeven.problems.words import joined


def names_of(sizes: Sizes, failing: Collection[int]) -> tuple[str, ...]:
    """The names of the sizes that fail, in the pattern's order.

    >>> names_of(Sizes(("S", "M", "L")), [2, 0])
    ('S', 'L')
    """
    return tuple(name for index, name in enumerate(sizes.names) if index in failing)


def others_of(sizes: Sizes, failing: Collection[int]) -> tuple[str, ...]:
    """The names of the sizes that come out.

    >>> others_of(Sizes(("S", "M", "L")), [2, 0])
    ('M',)
    """
    return tuple(name for index, name in enumerate(sizes.names) if index not in failing)


def in_size(sizes: Sizes, index: int) -> str:
    """How a line about one size begins; nothing where sizes have no names.

    >>> in_size(Sizes(("S", "M")), 1)
    'In M: '
    """
    name = sizes.names[index]
    return f"In {name}: " if name else ""


# --- in rows that are made ----------------------------------------------------------------------


def only(names: Sequence[str]) -> str:
    """``sizes S and M only: ``: what a line that some sizes work begins with."""
    return f"size{'s' if len(names) > 1 else ''} {joined(names)} only: "


def by_size(counts: Mapping[int, int], sizes: int) -> str:
    """Numbers by size, a dash for those that do not work the row."""
    if len(set(counts.values())) == 1:
        return str(next(iter(counts.values())))
    words = [str(counts.get(size, "-")) for size in range(sizes)]
    return f"{words[0]} ({', '.join(words[1:])})"
