"""One place within another: "center dc of next shell", "first ch of next ch-2 sp".

Takes     ``Stream``.
Gives     ``inside``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Named places".
"""

from __future__ import annotations

from workeven.notation.places import TURNING, name, names
from workeven.notation.stream import Stream
from workeven.notation.tree import (
    ONE,
    AnyStitch,
    First,
    Gap,
    Inside,
    Last,
    NamedStitch,
    Next,
    OneChain,
    Part,
    Same,
    Space,
    StitchGroup,
    TurningChain,
)
from workeven.records import replace

_PARTS: dict[str, Part] = {"center": "center", "first": "first", "last": "last"}


def inside(stream: Stream) -> Inside | None:
    """One place within another.

    Takes: center dc of next shell
    Refuses: next dc
    """
    mark = stream.here()
    if (found := _space_of_group(stream)) is not None:
        return found
    counted = _chains_counted_off(stream)
    part = "first" if counted else _part(stream)
    count = ONE
    if part in ("first", "last") and stream.is_amount():
        count = stream.amount()
    place = None if part is None else name(stream)
    if isinstance(place, Space) and stream.words_ahead("(", "center", "of"):
        stream.take()
        stream.take()
        place = Gap()
    if place is None and part == "center" and stream.is_word("of"):
        place = OneChain() if _space_follows(stream) else Gap()
    if place is None or not stream.accept_any("of", "in"):
        stream.back_to(mark)
        return None
    stream.articles()
    container = _container(stream, counted_off=isinstance(part, int))
    if isinstance(place, Gap) and stream.is_mark(")"):
        stream.take()
    chain_itself = isinstance(container, Next) and container.names == (OneChain(),)
    if container is None or (chain_itself and isinstance(part, int) and place == AnyStitch()):
        stream.back_to(mark)  # "3rd st of ch": the chain that a row began with
        return None
    if not isinstance(place, Space | OneChain):
        container = _of_corner(container)
    held = () if isinstance(container, Same) else container.names
    if isinstance(place, Space) and held and isinstance(held[0], NamedStitch | StitchGroup):
        place = Space(place.chains, place.corner, "group")
    return Inside(part or "first", place, container, count)


def _chains_counted_off(stream: Stream) -> bool:
    """Pass what stands before "3 chs of next ch-5 sp": "each of first", "next".

    Takes: each of first 3 chs of next ch-5 sp
    Refuses: each of first 3 sts
    """
    mark = stream.at
    stream.accept("each", "of")
    stream.articles()
    if stream.accept_any("first", "next"):
        at = 1 if stream.token.kind == "num" else 0
        if stream.ahead(at).word == "ch" and stream.ahead(at + 1).word == "of":
            space = stream.ahead(at + 3 if stream.ahead(at + 2).word in _THAT_ONE else at + 2)
            if space.kind == "chn" or space.word in ("sp", "lp"):
                return True
    stream.at = mark
    return False


#: which of the spaces it is whose chains are counted off
_THAT_ONE = ("next", "first", "same", "last", "the")


def _space_of_group(stream: Stream) -> Inside | None:
    """``ch 2 of shell``, ``ch-2 of next fan``: the space that it holds.

    Takes: ch 2 of shell
    Refuses: ch 2 of row
    """
    mark = stream.here()
    if stream.token.kind == "chn":
        chains = stream.take().value
    elif stream.is_word("ch") and stream.ahead().kind == "num":
        stream.take()
        chains = stream.take().value
    else:
        return None
    if stream.accept("of"):
        container = _container(stream)
        held = () if container is None or isinstance(container, Same) else container.names
        if container is not None and held and isinstance(held[0], NamedStitch | StitchGroup):
            return Inside("first", Space(chains, of="group"), container)
    stream.back_to(mark)
    return None


def _part(stream: Stream) -> Part | None:
    """Which of the places inside another: the words of the place itself are left standing.

    Takes: center
    Refuses: next
    """
    if stream.token.kind == "ord":
        return stream.take().value
    if stream.is_word("center", "first", "last"):
        return _PARTS[stream.take().word]
    if stream.token.kind == "chn":
        return "first"
    if stream.token.kind == "stitch" and stream.ahead().word == "of":
        return "first"  # "sc of next pattern": the one that is there
    if stream.is_word("sp", "between", "bet") or stream.words_ahead("next", "sp"):
        stream.accept("next")
        return "center"
    return None


def _space_follows(stream: Stream) -> bool:
    """Whether "of next ch-5 sp" follows: its centre is one of its chains."""
    mark = stream.at
    stream.take()
    stream.articles()
    stream.accept_any("next", "first", "last", "same", "each", "any")
    found = isinstance(name(stream), Space)
    stream.at = mark
    return found


def _container(stream: Stream, *, counted_off: bool = False) -> Next | First | Last | Same | None:
    """Behind "of": the place that holds another.

    Takes: next ch-2 sp
    Refuses: hook
    """
    if stream.is_word(*TURNING, "tch", "hook"):
        return None
    if stream.accept("next") or stream.accept("each", "of", "next"):
        count = stream.amount() if stream.is_amount() else ONE
        return Next(names(stream), count)
    if stream.accept("any"):  # yarn is joined in one of them
        return Next(names(stream))
    if stream.accept("same"):
        return Same(name(stream))
    if stream.accept("first"):
        return First(names(stream))
    if stream.accept("last"):
        return Last(names(stream))
    if stream.accept("each"):
        return _of_each(stream)
    if stream.token.kind == "chn" and stream.ahead().word not in ("sp", "lp") and counted_off:
        return None  # "3rd ch of ch-6": the chain that the row began with
    if counted_off and stream.is_word("ch") and stream.ahead().kind == "num":
        return None  # "3rd ch of ch 6" too
    found = name(stream)
    return None if found is None or isinstance(found, TurningChain) else Next((found,))


def _of_each(stream: Stream) -> Next | Last:
    """Behind "of each": every one, or so many ("of each of last 5 shells").

    Takes: of 6 skipped shells
    """
    if not stream.accept("of"):
        return Next(names(stream), each=True)
    stream.articles()
    last = stream.accept_any("last", "rem")
    stream.accept("next")
    count = stream.amount() if stream.is_amount() else ONE
    held = names(stream)
    return Last(held, count) if last else Next(held, count)


def _of_corner(container: Next | First | Last | Same) -> Next | First | Last | Same:
    """The corner that a stitch is the middle of: what was worked into it is a group."""
    if isinstance(container, Next) and container.names == (Space(corner=True),):
        return replace(container, names=(StitchGroup(name="corner"),))
    return container
