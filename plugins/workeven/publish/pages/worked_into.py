"""Which stitches a row is worked into: a short line beside it, where its words leave that to find.

Takes     ``ReadyPattern``; what the proof tells of a row in every size.
Gives     ``told``: that of all rows, worked out once for page and data; ``sentence``.
Problems  none.
From      notation.md, the table of steps, column "takes up".

Where a row goes into every stitch there is, nothing is said: "each st" says it already. It is said
where stitches are passed over or left, where spaces, row ends or a ring are worked into, and where
the places are not those of the row before.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from workeven.notation import wording
from workeven.notation.tree import RepeatRows
from workeven.pipeline import ReadyPattern
from workeven.proof import OTHER_SIDE, RING, Counted, Into, ProvenRow, into_rows
from workeven.publish.pages import figures

#: what a row is worked into in every size; None where it is not worked, or not told
InSizes = tuple[Into | None, ...]
#: that of every row of a piece, by the name of the piece
Told = Mapping[str, tuple[InSizes, ...]]

#: how places are entered, in words
_WAYS = {
    "back loop": "in the back loop only",
    "front loop": "in the front loop only",
    "back post": "around the back post",
    "front post": "around the front post",
}
_TOGETHER = re.compile(r"(?<=[a-z])\d+tog\Z")
#: names whose plural is not made at their end
_PLURALS = {"sp between": "sps between"}


def told(ready: ReadyPattern) -> Told:
    """What every row is worked into; a piece that mirrors another has the rows of that."""
    graded = ready.proven.graded
    own = {
        one.piece.name: tuple(into_rows(graded, one))
        for one in ready.proven.pieces
        if one.piece.mirror is None
    }
    return own | {
        one.piece.name: own[one.piece.mirror]
        for one in ready.proven.pieces
        if one.piece.mirror is not None
    }


def sentence(proven: ProvenRow, into: InSizes) -> str:
    """``Worked into 2 dc and 9 ch-1 sps; 9 dc are passed over.``; "" where it says no more."""
    into = tuple([None if one is None else _as_basic(one) for one in into])
    there = [one for one in into if one is not None]
    worked = [counted for counted in proven.per_size if counted is not None]
    if not there or len(there) < len(worked) or isinstance(proven.row.body, RepeatRows):
        return ""
    if not any(map(_says_more, there)):
        return ""
    first = "The first of these is worked" if _several(proven) else "Worked"
    parts = [f"{first} into {_places(into)}{_of_row(proven, into)}"]
    parts += [
        f"{figures.counts(_numbers(into, way, _entered))} of them {words}"
        for way, words in _WAYS.items()
        if way in _names(into, _entered)
    ]
    parts += _beside(into, lambda one: one.over, "passed over")
    parts += _beside(into, lambda one: one.left, "left unworked")
    return f"{'; '.join(parts)}."


def _as_basic(into: Into) -> Into:
    """Decreases as the one stitch that they are to the maker who works into them."""
    places, over, left = map(_basic, (into.places, into.over, into.left))
    return into._replace(places=places, over=over, left=left)


def _basic(kinds: Counted) -> Counted:
    found: dict[str, int] = {}
    for name, number in kinds:
        basic = _TOGETHER.sub("", name)
        found[basic] = found.get(basic, 0) + number
    return tuple(found.items())


def _says_more(into: Into) -> bool:
    """Whether it is more than every stitch of the row before."""
    names = [name for name, _ in into.places]
    beside = bool(into.over or into.left) or into.row is not None
    return beside or any(name in (RING, OTHER_SIDE) or " " in name for name in names)


def _several(proven: ProvenRow) -> bool:
    return any(one is not None and one.times != 1 for one in proven.per_size)


def _places(into: InSizes) -> str:
    """All that is worked into."""
    names = _names(into, lambda one: one.places)
    parts = [_counted(into, name) for name in names if name not in (RING, OTHER_SIDE)]
    if RING in names:
        parts.append("the ring")
    words = figures.listed(parts)
    if OTHER_SIDE not in names:
        return words
    again = figures.counted(_numbers(into, OTHER_SIDE, lambda one: one.places), "ch")
    return f"{words}, then {again} along the other side of the chain"


def _counted(into: InSizes, name: str) -> str:
    numbers = _numbers(into, name, lambda one: one.places)
    return figures.counted(numbers, name, _plural(name))


def _entered(into: Into) -> Counted:
    return into.entered


def _beside(into: InSizes, kinds: Callable[[Into], Counted], what: str) -> list[str]:
    """What is passed over, or left."""
    parts = [
        figures.counted(_numbers(into, name, kinds), name, _plural(name))
        for name in _names(into, kinds)
    ]
    return [f"{figures.listed(parts)} {what}"] if parts else []


def _of_row(proven: ProvenRow, into: InSizes) -> str:
    """``of Row 12``, where it is not the row before."""
    numbers = [one.row if one else None for one in into]
    if all(number is None for number in numbers):
        return ""
    return f" of {proven.word} {figures.counts(numbers)}"


def _names(into: InSizes, kinds: Callable[[Into], Counted]) -> list[str]:
    """Every name of any size, in the order in which they first occur."""
    return list(dict.fromkeys(name for one in into if one for name, _ in kinds(one)))


def _numbers(into: InSizes, name: str, kinds: Callable[[Into], Counted]) -> tuple[int | None, ...]:
    return tuple([dict(kinds(one)).get(name, 0) if one else None for one in into])


def _plural(name: str) -> str:
    """Abbreviations of stitches take no s ("12 sc"); words do ("4 shells")."""
    if name.endswith(" below") or any(wording.meaning(name, terms) for terms in ("us", "uk")):
        return name
    return _PLURALS.get(name, f"{name}s")
