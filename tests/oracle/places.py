"""Places that a row leaves, one entry each, and where a row has got to.

Takes     nothing.
Gives     ``Place``, ``Hook``, ``base``, ``add_chains``, ``left_by``, ``unlink``.
Problems  none.
From      notation.md, The fabric: "a run of chains made between stitches" is one space.
"""

from __future__ import annotations

from typing import NamedTuple

#: Kinds as a stated count or a place name sees them: post stitches by the stitch they are.
#: a foundation stitch stands under its own name.
BASES = {"fpdc": "dc", "bpdc": "dc", "fptr": "tr", "bptr": "tr", "fphdc": "hdc", "bphdc": "hdc"}


#: the group of chains that stand between two places
NO_GROUP = -1


class Place(NamedTuple):
    """What a row leaves to be worked into: ``group`` is the place below it was worked into.

    ``deep``: it is worked around a post so many rows below. ``beyond``: chains that stand behind
    what stands off a chain, so that both are one loop.
    """

    sort: str
    name: str
    group: int
    chains: int = 0
    beginning: bool = False
    deep: int = 0
    beyond: bool = False


#: what stands off the row: no place, but chains behind it are a run of their own
OFF = Place("off", "picot", NO_GROUP)


class Hook(NamedTuple):
    """Where a row has got to: the next place to look at, the place stood at, what is made so far.

    ``made`` is a chain of pairs (what was made before, the newest place), so that trying another
    number of repeats needs no copy.
    """

    at: int
    here: int
    stood: bool
    made: tuple[object, Place] | None
    left: bool = False


def base(kind: str) -> str:
    """The stitch that a decrease or a post stitch counts as.

    >>> base("sc2tog"), base("fpdc"), base("dc")
    ('sc', 'dc', 'dc')
    """
    if kind.endswith("tog"):
        return kind.removesuffix("tog").rstrip("0123456789")
    return BASES.get(kind, kind)


def add_chains(
    made: tuple[object, Place] | None, number: int, group: int = NO_GROUP
) -> tuple[object, Place] | None:
    """Chains between two stitches: one space; a run of chains is one run, however it is written."""
    if not number:
        return made
    if made is not None and made[1].sort == "sp":
        number += made[1].chains
        made = made[0]  # type: ignore[assignment]
    return (made, Place("sp", f"ch-{number} sp", group, number))


def left_by(made: list[Place]) -> list[Place]:
    """The places that a row leaves: what stands off it is none, and parts no loop."""
    left: list[Place] = []
    off = False
    for place in made:
        if place.sort == "off":
            off = True
            continue
        loop = off and place.sort == "sp" and left and left[-1].sort == "sp"
        left.append(place._replace(beyond=bool(loop)))
        off = False
    return left


def unlink(made: tuple[object, Place] | None) -> list[Place]:
    """What is made, as a list in working order."""
    places: list[Place] = []
    while made is not None:
        places.append(made[1])
        made = made[0]  # type: ignore[assignment]
    return places[::-1]
