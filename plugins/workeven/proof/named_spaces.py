"""Spaces that a row names by where they lie: "corner sp", "centre sp".

Takes     what a row works, and the places below it.
Gives     ``with_known_spaces``: the same with the spaces by their chains.
Problems  ``row-not-understood``.
From      notation.md, "Named places", "Corners": "corners are known from the row before".

The corners of a square have the widest spaces, three to eight of them; the centre of a shawl has
the only space of its width. Where the spaces at the corners are no wider than those between them,
as many on each side, the corners' are those inside a group, which was worked into the corner
before: "(3 dc, ch 1, 3 dc) in corner sp, ch 1". Where all spaces of a row are alike and none tells,
any of them is a corner's, as the text goes; which is the centre one then nobody can tell.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, NamedTuple

from workeven.notation.tree import (
    AnyStitch,
    Corners,
    Each,
    First,
    Gap,
    Inside,
    Last,
    Next,
    PlaceName,
    Space,
    SpecialStitch,
    StitchGroup,
    ToLast,
    ToNext,
    Work,
)
from workeven.notation.works import works_of
from workeven.proof.context import Fault
from workeven.proof.corners import (
    FEWEST_CORNERS,
    MOST_CORNERS,
    corner_width,
    count_spaces,
)
from workeven.proof.cut_short import plain
from workeven.proof.fabric import Fabric, Loop, Node
from workeven.proof.line import Line, line_of
from workeven.proof.parts import targets_of
from workeven.records import fields, is_record, replace

_SPACE = re.compile(r"\b(?:sps?|spaces?)\b")
#: a corner of stitches has at least three
_IN_A_CORNER = 3
_CORNER = (Space(None, corner=True),)
_CORNER_OF_STS: tuple[PlaceName, ...] = (StitchGroup(name="corner"),)
#: the middle of such a corner
_MIDDLE = Inside("center", AnyStitch(), Next(_CORNER_OF_STS))


def with_known_spaces(own: Line, below: Fabric, special: Mapping[str, SpecialStitch]) -> Line:
    """The line over these places; as it is where it names no such space."""
    text = own.row.text.casefold()
    if "corner" not in text and "cent" not in text:
        return _with_gaps(own, below, special) if _names_spaces(text) else own
    if _names_spaces(text):
        own = _with_gaps(own, below, special)
    spaces = _spaces_of(below.nodes, flat=not below.closed)
    if own.facts.along_rows:  # corners between edges hold no places
        spaces = spaces._replace(in_sts=False)
    steps = own.facts.written
    known = tuple(_known(step, spaces, len(own.row.text)) for step in steps)
    return own if known == steps else line_of(own.row, known, special)


# --- spaces that are no chains -------------------------------------------------------------


def _names_spaces(text: str) -> bool:
    """Whether a row speaks of spaces, and not of loops, which are chains in any case."""
    return _SPACE.search(text) is not None and " lp" not in text and "loop" not in text


def _with_gaps(own: Line, below: Fabric, special: Mapping[str, SpecialStitch]) -> Line:
    """``3 dc in each sp across`` of a granny: where no chains lie between its groups, the gaps.

    So it is where all chains lie inside the groups of corners, and corners are named beside.
    """
    there: dict[int, int] = {}
    inside: dict[int, int] = {}
    count_spaces(below.nodes, 1, there)
    _count_grouped(below.nodes, 1, inside)
    if not _has_groups(below.nodes) or (there and (there != inside or not _at_corners(own))):
        return own
    steps = own.facts.written
    corners = frozenset(plain(one.content) for one in works_of(steps) if _is_cornered(one))
    gaps = tuple(_as_gap(step, corners) for step in steps)
    return own if gaps == steps else line_of(own.row, gaps, special)


def _has_groups(nodes: tuple[Node, ...]) -> bool:
    return any(isinstance(node, Loop) and (node.group or _has_groups(node.nodes)) for node in nodes)


def _at_corners(own: Line) -> bool:
    """Whether a row works into corners by that name, beside where it begins."""
    return any(
        isinstance(target, Next | Each) and target.names[0] == _CORNER[0]
        for target in targets_of(own.facts.written)
    )


def _is_cornered(work: Work) -> bool:
    return isinstance(work.target, Next | Each) and work.target.names[0] == _CORNER[0]


def _as_gap(part: Any, corners: frozenset[object]) -> Any:  # noqa: ANN401, any part of a tree
    """A part of the tree, spaces of which nothing is said as the gaps between groups.

    What goes into corners goes into one in the last space too ("(2 dc, ch 3, 2 dc) in last sp").
    """
    if isinstance(part, Work) and plain(part.content) in corners:
        return part
    if isinstance(part, Next | Each | First | Last) and part.names == (Space(None),):
        return replace(part, names=(Gap(None),))
    if isinstance(part, ToLast) and part.names == (Space(None),):
        return replace(part, names=(Gap(None),))
    if isinstance(part, tuple) and type(part) is tuple:
        found = tuple(_as_gap(one, corners) for one in part)
        return part if found == part else found
    if not is_record(part) or isinstance(part, type):
        return part
    changed = {
        field.name: new
        for field in fields(part)
        if (new := _as_gap(old := getattr(part, field.name), corners)) is not old
    }
    return replace(part, **changed) if changed else part


# --- corners and centres -------------------------------------------------------------------


class _Spaces(NamedTuple):
    """How many spaces of each length there are, and how many of them inside groups.

    ``in_sts``: there are none, and the corners are groups of stitches ("3 sc in corner"). ``flat``:
    in a row, which may have one corner or two, as a border along three sides has.
    """

    there: dict[int, int]
    grouped: dict[int, int]
    in_sts: bool
    flat: bool

    def widest(self) -> int | None:
        """The length of the spaces at corners: the widest, where so few of them are there.

        Else it is that of the only spaces that stand within groups.
        """
        known = corner_width(self.there)
        if known is not None or len(self.there) < len(("corner", "other")):
            return known
        within = [
            chains
            for chains, number in self.grouped.items()
            if number == self.there[chains] and FEWEST_CORNERS <= number <= MOST_CORNERS
        ]
        if len(within) == 1:
            return within[0]  # "(3 dc, ch 3, 3 dc) in corner", and longer loops at the sides
        if not self.flat:
            return None
        width = max(self.there)
        others = sum(self.there.values()) - self.there[width]
        return width if self.there[width] < min(FEWEST_CORNERS, others + 1) else None

    def at_corners(self, chains: int | None) -> int | None:
        """The length of the spaces that stand in groups at corners, others of it between them."""
        width = max(self.there, default=0) if chains is None else chains
        inside, there = self.grouped.get(width, 0), self.there.get(width, 0)
        if not FEWEST_CORNERS <= inside <= MOST_CORNERS:
            return None
        return width if inside < there and there % inside == 0 else None


def _spaces_of(nodes: tuple[Node, ...], *, flat: bool) -> _Spaces:
    there: dict[int, int] = {}
    grouped: dict[int, int] = {}
    count_spaces(nodes, 1, there)
    _count_grouped(nodes, 1, grouped)
    in_sts = not there and FEWEST_CORNERS <= _corners_of(nodes, 1) <= MOST_CORNERS
    return _Spaces(there, grouped, in_sts, flat)


def _corners_of(nodes: tuple[Node, ...], times: int) -> int:
    """How many groups there are of three stitches or more."""
    found = 0
    for node in nodes:
        if isinstance(node, Loop) and node.group and node.once >= _IN_A_CORNER:
            found += times * node.times
        elif isinstance(node, Loop):
            found += _corners_of(node.nodes, times * node.times)
    return found


def _count_grouped(nodes: tuple[Node, ...], times: int, found: dict[int, int]) -> None:
    for node in nodes:
        if isinstance(node, Loop) and node.group:
            count_spaces(node.nodes, times * node.times, found)
        elif isinstance(node, Loop):
            _count_grouped(node.nodes, times * node.times, found)


def _known(part: Any, spaces: _Spaces, end: int) -> Any:  # noqa: ANN401, any part of a tree
    """A part of the tree with its spaces by their chains."""
    if isinstance(part, Space):
        return _by_chains(part, spaces, end)
    if isinstance(part, Corners) and not part.every:
        width = spaces.at_corners(_chains_of(part))
        if width is not None:
            return replace(part, target=Next((Space(width, grouped=True),)))
        if part.target is None and spaces.in_sts:
            return replace(part, target=_MIDDLE)
    if isinstance(part, Next) and part.names == _CORNER and spaces.in_sts and _is_one(part):
        return _MIDDLE
    if isinstance(part, ToNext) and part.name == StitchGroup(name="corner"):
        return _to_space(part, spaces)
    if isinstance(part, Inside) and spaces.in_sts:
        return _in_a_corner(part)
    if isinstance(part, tuple) and type(part) is tuple:
        found = tuple(_known(one, spaces, end) for one in part)
        return part if found == part else found
    if not is_record(part) or isinstance(part, type):
        return part
    changed = {
        field.name: new
        for field in fields(part)
        if (new := _known(old := getattr(part, field.name), spaces, end)) is not old
    }
    return replace(part, **changed) if changed else part


def _in_a_corner(part: Inside) -> Inside:
    """``center sc of next corner``, where the corners are groups of stitches."""
    of_it = part.container
    if not isinstance(of_it, Next | First | Last) or of_it.names != _CORNER:
        return part
    return replace(part, name=AnyStitch(), container=replace(of_it, names=_CORNER_OF_STS))


def _is_one(target: Next) -> bool:
    return target.count.values == (1,)


def _to_space(limit: ToNext, spaces: _Spaces) -> ToNext:
    """``to next corner``: in front of the space there, where the corners have spaces."""
    grouped, widest = spaces.at_corners(None), spaces.widest()
    if grouped is not None:
        return replace(limit, name=Space(grouped, grouped=True))
    return limit if widest is None else replace(limit, name=Space(widest))


def _chains_of(corners: Corners) -> int | None:
    """The length that the spaces of corners are said to have; 0 where no space is said."""
    match corners.target:
        case None:
            return None
        case Next(names=(Space(chains=chains),)) if corners.corner:
            return chains
        case _:
            return 0


def _by_chains(space: Space, spaces: _Spaces, end: int) -> Space:
    if not space.corner or space.grouped or not spaces.there:
        return space
    if space.of == "center":
        return _center(spaces.there, space.chains, end)
    width = spaces.at_corners(space.chains)
    if width is not None:
        return Space(width, grouped=True)
    if space.chains is not None:
        return space
    if len(spaces.there) == 1:
        return space  # any of them is a corner's, as the text goes
    known = spaces.widest()
    if known is None:
        raise _no_corners(spaces, end)
    return Space(known)


def _no_corners(spaces: _Spaces, end: int) -> Fault:
    """Spaces of several lengths, of which none stands where corners are."""
    told = ", ".join(f"{number} ch-{chains}" for chains, number in sorted(spaces.there.items()))
    return Fault(
        "row-not-understood",
        0,
        end,
        f"which spaces are those of the corners cannot be told from the row before ({told})",
        mend="Name them by their chains, such as “ch-2 sp”.",
    )


def _center(there: dict[int, int], chains: int | None, end: int) -> Space:
    """The only space of the widest, or of so many chains."""
    widest = max(there) if chains is None else chains
    if there.get(widest, 1) != 1:
        raise Fault(
            "row-not-understood",
            0,
            end,
            "which space is the centre one cannot be told from the row before",
            mend="Name it by its chains, such as “ch-2 sp”.",
        )
    return Space(widest)
