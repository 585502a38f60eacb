"""Clusters that are written as decreases: ``dc3tog in next ch-2 sp``.

Takes     the rows of a piece or swatch, and its special stitches.
Gives     ``clusters``: the names so worked; ``apart``: what is worked, with clusters of their own.
Problems  none.
From      common practice: a decrease has its legs in as many places, a cluster has them in one.

A decrease is taken as the stitches that it joins. A cluster is not: what it takes only a swatch
tells. Rows name both alike, so that which one it is follows from where it is worked. A piece that
works one name both ways has all of them as clusters, since its rows are counted by name.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from itertools import chain

from workeven.notation.tree import (
    Content,
    First,
    FromHook,
    Inside,
    IntoRing,
    Last,
    Next,
    Row,
    Same,
    SpecialStitch,
    Stitch,
    Times,
    Unplaced,
    Work,
)
from workeven.notation.vocabulary import kind_of
from workeven.proof import ProvenPiece
from workeven.proof.proven import Counted
from workeven.records import fields, is_record

#: words with which several stitches are closed to one, also loop by loop
_TOLD = re.compile(r"tog|loop|\blps?\b|\by[or]|hold|leav|keep|cluster", re.IGNORECASE)
#: how a cluster is named beside the decrease that is written alike
IN_ONE_PLACE = " in one place"


def clusters(rows: Iterable[Row], special: Iterable[SpecialStitch] = ()) -> frozenset[str]:
    """The decreases that are worked with all legs in one place, by name."""
    parts: list[object] = []
    also: dict[str, str] = {}
    for one in special:
        parts.append(one.steps)
        if one.one_place:
            parts.append(Work(one.content, Next(())))
        match one.steps:  # "dec = dc2tog": another name for it
            case (Work(content=(Stitch(name=name),), target=Unplaced()),):
                also[one.name] = name
            case _:
                pass
    parts.extend(row.body for row in rows if also or _names_a_decrease(row))
    found = (name for part in parts for name in _in_one_place(part))
    names = (also.get(name, name) for name in found)
    return frozenset(name for name in names if kind_of(name).legs > 1)


def clusters_of(piece: ProvenPiece, special: Iterable[SpecialStitch]) -> frozenset[str]:
    """Those of a piece."""
    rows = [row for section in piece.sections for row in section.rows]
    counted = chain.from_iterable(row.per_size.values for row in rows)
    if not any(kind_of(name).legs > 1 for one in counted if one for name, _ in one.worked):
        return frozenset()  # most pieces: the rows need not be looked through
    return clusters([row.row for row in rows], special)


def apart(worked: Counted, names: frozenset[str]) -> Counted:
    """What is worked, its clusters under names of their own.

    >>> apart((("dc", 9), ("dc3tog", 4)), frozenset({"dc3tog"}))
    (('dc', 9), ('dc3tog in one place', 4))
    """
    if not names:
        return worked
    return tuple(
        (f"{name}{IN_ONE_PLACE}" if name in names else name, number) for name, number in worked
    )


def _names_a_decrease(row: Row) -> bool:
    """A quick answer, since most rows name none and looking through their steps takes long."""
    told = _TOLD.search(row.text) is not None
    return told or any(kind_of(use.name).legs > 1 for use in row.terms)


def _in_one_place(part: object) -> Iterator[str]:
    """The names in a part of a row, whatever it is made of."""
    if isinstance(part, tuple):
        for one in part:
            yield from _in_one_place(one)
    elif is_record(part):
        if isinstance(part, Work) and _is_one_place(part):
            yield from _closed(part.content)
        elif isinstance(part, Work) and not part.over:
            yield from _closed(tuple(one for one in part.content if _is_whole(one)))
        for each in fields(part):
            yield from _in_one_place(getattr(part, each.name))


def _closed(content: tuple[Content, ...]) -> Iterator[str]:
    """The stitches among what is worked into one place."""
    for one in content:
        if isinstance(one, Stitch):
            yield one.name
        elif isinstance(one, Times):
            yield from _closed(one.content)


def _is_whole(one: Content) -> bool:
    """``dc3tog in each ch-2 sp``, which takes up one place each."""
    return isinstance(one, Stitch) and one.legs == 1 and kind_of(one.name).legs > 1


def _is_one_place(step: Work) -> bool:
    """Whether all legs go into one place, by the words: "over next 2 sts" has one in each."""
    if step.over:
        return False
    match step.target:
        case Next(count=count) | First(count=count) | Last(count=count):
            return count.values == (1,) or len(step.content) > 1
        case Same() | Inside() | IntoRing() | FromHook():
            return True
        case _:
            return len(step.content) > 1
