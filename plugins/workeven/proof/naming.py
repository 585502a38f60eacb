"""What places are called: which place bears a name, and how names and numbers are said.

Takes     names of places, as the notation reads them.
Gives     ``match_of``, ``share``, ``spoken``, ``many``, ``ordinal``.
Problems  none.
From      notation.md, the table of places and "Named places".
"""

from __future__ import annotations

from functools import lru_cache
from typing import assert_never

from workeven.notation.tree import (
    AnyStitch,
    Gap,
    LeafSide,
    Marked,
    NamedStitch,
    OneChain,
    PlaceName,
    RowEnd,
    Space,
    StitchGroup,
    TurningChain,
)
from workeven.proof.fabric import IN_GROUP, PICOT, Match, Place, count_stitches

#: asks for the chains at either side of a picot, which are one loop for a name alone
HALF = "half"
#: a loop of three chains is called a picot too (common practice)
_PICOT_LOOP = 3
ANY: tuple[PlaceName, ...] = (AnyStitch(),)


def middle_of(stitch: str) -> str:
    """The mark of the middle of a group that is this special stitch."""
    return f"middle of {stitch}"


def middle_of_group(group: StitchGroup) -> str:
    """The mark of the middle of such a group."""
    return f"middle of {group!r}"


#: what begins the mark of a place midway between two spaces
MIDWAY = "midway between"


def midway_mark(space: Space) -> str:
    """The mark of what is midway between two such spaces."""
    return f"{MIDWAY} {space!r}"


@lru_cache(maxsize=1024)
def match_of(names: tuple[PlaceName, ...]) -> Match:
    """The test whether a place bears one of these names (the same test object each time)."""
    if any(isinstance(name, AnyStitch) for name in names) and all(
        not isinstance(name, Space | Gap) for name in names
    ):
        return count_stitches
    tests = tuple(_match(name) for name in names)
    if len(tests) == 1:
        return tests[0]

    def any_of(place: Place) -> bool:
        return any(test(place) for test in tests)

    return any_of


@lru_cache(maxsize=1024)
def _match(name: PlaceName) -> Match:  # noqa: C901, one branch a name
    match name:
        case AnyStitch():
            return count_stitches
        case NamedStitch(name="picot"):
            return lambda place: (
                PICOT in place.marks or (place.sort == "sp" and place.chains == _PICOT_LOOP)
            )
        case NamedStitch(name="cl"):
            return lambda place: (
                place.sort == "st" and place.name.lower().endswith(("cl", "cluster", "tog"))
            )
        case NamedStitch(name=stitch):
            middle = middle_of(stitch)
            return lambda place: (
                (place.sort == "st" and stitch in (place.name, place.base)) or middle in place.marks
            )
        case Space(chains=chains, grouped=True):
            return lambda place: (
                place.sort == "sp"
                and IN_GROUP in place.marks
                and chains
                in (
                    None,
                    place.chains,
                )
            )
        case Space(of="picot"):  # its chain stands at both sides of the picot: the first of them
            return lambda place: place.sort == "sp" and PICOT in place.marks and not place.parted
        case Space(of="half"):
            return lambda place: place.sort == "sp"
        case Space(chains=None):
            return lambda place: place.sort == "sp" and not place.parted
        case Space(chains=chains):
            return lambda place: place.sort == "sp" and place.chains == chains
        case OneChain():
            return lambda place: place.name == "ch"
        case TurningChain():
            return lambda place: place.turning
        case Gap(midway=Space() as space):
            return lambda place: place.sort == "gap" and midway_mark(space) in place.marks
        case Gap():
            return lambda place: place.sort == "gap" and not place.marks
        case StitchGroup():
            inside = middle_of_group(name)
            return lambda place: inside in place.marks
        case LeafSide(which=which):
            return _side_of_leaf(which)
        case RowEnd():
            return lambda place: place.sort == "side" and place.name == "row end"
        case Marked(key=key):
            return lambda place: key in place.marks
        case _:
            assert_never(name)


def _side_of_leaf(which: str) -> Match:
    """One side of a leaf, or its point: where stitches went into one, their middle."""
    if which == "any":
        return lambda place: place.sort == "side" and place.name in ("first", "other")
    point = middle_of_group(StitchGroup(name="point"))
    return lambda place: (
        (place.sort == "side" and place.name == which)
        or (which == "point" and point in place.marks)
    )


def share(names: tuple[PlaceName, ...], other: tuple[PlaceName, ...]) -> bool:
    """Whether the same place could bear a name of both."""
    return any(_both(one, two) for one in names for two in other)


def _both(one: PlaceName, two: PlaceName) -> bool:
    if isinstance(one, Space) or isinstance(two, Space):
        return isinstance(one, Space) and isinstance(two, Space)
    if isinstance(one, NamedStitch) and isinstance(two, NamedStitch):
        return one.name == two.name
    return True


# --- how they are said ---------------------------------------------------------------------


def in_one_order(names: frozenset[PlaceName]) -> tuple[PlaceName, ...]:
    """Names in an order that does not hang on the run."""
    return tuple(sorted(names, key=repr))


def spoken(names: tuple[PlaceName, ...]) -> str:
    """Names of places as a crocheter says them: "dc", "ch-2 sp", "st"."""
    return " or ".join(_spoken(name) for name in names)


def _spoken(name: PlaceName) -> str:  # noqa: C901, one branch a name
    match name:
        case AnyStitch():
            return "st"
        case NamedStitch(name=stitch):
            return stitch
        case Space(of="picot"):
            return "picot loop"
        case Space(chains=chains):
            return "ch sp" if chains is None else f"ch-{chains} sp"
        case OneChain():
            return "ch"
        case TurningChain():
            return "turning ch"
        case Gap(midway=Space() as space):
            return f"place midway between {_spoken(space)}s"
        case Gap():
            return "sp between"
        case RowEnd():
            return "row end"
        case LeafSide(which=which):
            return "point of a leaf" if which == "point" else "side of a leaf"
        case StitchGroup(size=size, stitch=stitch, name=named):
            return f"{size}-{stitch} group" if size else (named or "group")
        case Marked(key="marker"):
            return "marked st"
        case Marked(key="center"):
            return "center st"
        case Marked():
            return "place inside a group"
        case _:
            assert_never(name)


def many(count: int, name: str) -> str:
    """A number of places.

    >>> many(1, "st"), many(2, "st"), many(3, "ch-2 sp"), many(4, "dc")
    ('1 st', '2 sts', '3 ch-2 sps', '4 dc')
    """
    if name in ("st", "ch-sp", "place") or name.endswith((" sp", "shell", "group", "row end")):
        return f"{count} {name}{'' if count == 1 else 's'}"
    if name == "ch":
        return f"{count} ch{'' if count == 1 else 's'}"
    return f"{count} {name}"


def are(count: int) -> str:
    """The verb behind a number.

    >>> are(1), are(2), are(0)
    ('is', 'are', 'are')
    """
    return "is" if count == 1 else "are"


_TEENS = (11, 12, 13)
_ENDINGS = {1: "st", 2: "nd", 3: "rd"}


def ordinal(number: int) -> str:
    """A number in an order.

    >>> ordinal(1), ordinal(4), ordinal(12), ordinal(22)
    ('1st', '4th', '12th', '22nd')
    """
    ending = "th" if number % 100 in _TEENS else _ENDINGS.get(number % 10, "th")
    return f"{number}{ending}"
