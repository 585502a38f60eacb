"""The names of sizes, of a pattern or of a body chart.

Takes     the value that lists them.
Gives     ``size_names``.
Problems  ``size-too-many``, ``size-brackets``, ``size-twice``.
From      notation.md, "Sizes".
"""

from __future__ import annotations

import re
from typing import Literal

from workeven.arithmetic.per_size import Sizes
from workeven.pattern.reading import Reading
from workeven.problems.words import quote
from workeven.source import Node

#: the key under which they stand
_KEYS = {"pattern": "names", "chart": "sizes"}
#: More sizes than any pattern is graded to.
MOST_SIZES = 24


def size_names(
    reading: Reading, node: Node | None, kind: Literal["pattern", "chart"]
) -> Sizes | None:
    """``S (M, L)``: the sizes of a pattern or chart, each with a name of its own."""
    names = reading.names(node) if node is not None else None
    if node is None or not names:  # a list of tables names none; the schema tells that
        return None
    if len(names) > MOST_SIZES:
        reading.problem(
            "size-too-many",
            reading.source.span(node),
            f"The {kind} has {len(names)} sizes.",
            expected=f"At most {MOST_SIZES}.",
            mend=f"Divide it into two {kind}s.",
        )
        return None
    unparted = _unparted(names)
    if unparted:
        first, *others = unparted
        reading.problem(
            "size-brackets",
            reading.source.span(node),
            f"{quote(next(one for one in names if ' ' in one))} is read as one size.",
            expected="The first size, then the others in brackets, with commas between them.",
            mend=f"Write `{_KEYS[kind]}: {first} ({', '.join(others)})`.",
        )
        return None
    twice = [name for at, name in enumerate(names) if name in names[:at]]
    if twice:
        reading.problem(
            "size-twice",
            reading.source.span(node),
            f"The size {quote(twice[0])} is named twice.",
            expected="A name of its own for each size.",
            mend="Give one of them another name.",
        )
        return None
    return Sizes(names)


#: names of sizes as they stand on labels: XS, 2X, S/M, 38
_LETTERED = re.compile(r"(?:\d{0,2}X{0,4}[SML]|\d{1,2}X{1,2})(?:/(?:\d{0,2}X{0,4}[SML]))?|\d{1,3}")


def _unparted(names: tuple[str, ...]) -> list[str]:
    """The sizes in ``S M L``, which was meant for three; none where each is one name."""
    parts = [part for name in names for part in name.split()]
    return parts if len(parts) > len(names) and all(map(_LETTERED.fullmatch, parts)) else []
