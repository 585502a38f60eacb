"""Sides and points of what stands off a round: "along first side of next leaf", "point of leaf".

Takes     ``Stream``.
Gives     ``along_side``, ``at_point``.
Problems  none of its own.
From      notation.md, "Chains worked back along".
"""

from __future__ import annotations

import re
from typing import Literal

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import Stream
from workeven.notation.tree import (
    AnyStitch,
    Inside,
    LeafSide,
    NamedStitch,
    Next,
    Part,
    PlaceName,
    StitchGroup,
)

#: what stands off a round (common practice: whatever it looks like)
_OFF = r"(?:leaf|leaves|petal|spoke|ray|point|frond|arm|fringe|finger|strip|branch|tip|feather)s?\b"
_WHICH_LEAF = r"(?:(?:the|each|next|same|this|any|first|a)\s+)*"
_SIDE = (
    r"(?:evenly\s+)?(?:along|up|down|across|on|around)\s+(?:the\s+)?"
    r"(?:(?P<which>first|one|other|second|opposite|next|each|this|right|left)\s+)?side\s+of\s+"
    + _WHICH_LEAF
    + _OFF
)
_NAMED = r"\bside\s+of\s+" + _WHICH_LEAF + _OFF
_ITS_SIDE = (
    r"(?:evenly\s+)?(?:along|up|down)\s+(?:its\s+|the\s+)?(?P<which>other|second|opposite)\s+"
    r"side\b(?!\s+(?:of|edge))"
)
_POINT = (
    r"(?:the\s+)?(?:(?P<part>center|centre|middle|first|last)\s+(?P<st>[a-z]+)\s+"
    r"(?:at|of|in|on)\s+)?(?:the\s+)?(?:point|tip|apex|end)\s+of\s+" + _WHICH_LEAF + _OFF
)
Which = Literal["first", "point", "other", "any"]
_SIDES: dict[str, Which] = {
    "first": "first",
    "one": "first",
    "right": "first",
    "other": "other",
    "second": "other",
    "opposite": "other",
    "left": "other",
}
_POINT_GROUP = StitchGroup(name="point")


def along_side(stream: Stream) -> Next | None:
    """Behind stitches: the side that they are worked along.

    Takes: along first side of next leaf
    Refuses: along side edge
    """
    if "side" not in stream.said:
        return None
    found = ignoring_case(_SIDE).match(stream.text, stream.start)
    if found is None and ignoring_case(_NAMED).search(stream.text, 0, stream.start):
        found = ignoring_case(_ITS_SIDE).match(
            stream.text, stream.start
        )  # "along other side", of the same leaf
    if found is None:
        return None
    _pass(stream, found)
    return Next((LeafSide(_SIDES.get((found["which"] or "").lower(), "any")),))


def at_point(stream: Stream) -> Next | Inside | None:
    """The point of a leaf, or a stitch of those that were worked into it.

    Takes: center sc at point of any leaf
    Refuses: point
    """
    if stream.said.isdisjoint(("point", "tip", "apex", "end")):
        return None
    found = ignoring_case(_POINT).match(stream.text, stream.start)
    if found is None:
        return None
    if not found["part"]:
        _pass(stream, found)
        return Next((LeafSide("point"),))
    stream.articles()
    part: Part = "center"
    if found["part"].lower() in ("first", "last"):
        part = "first" if found["part"].lower() == "first" else "last"
    stream.take()
    word = stream.token
    name: PlaceName = NamedStitch(word.word) if word.kind == "stitch" else AnyStitch()
    _pass(stream, found)
    return Inside(part, name, Next((_POINT_GROUP,)))


def _pass(stream: Stream, found: re.Match[str]) -> None:
    stream.pass_to(found.end())
