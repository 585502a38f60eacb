"""Corners: "working 3 sc in each corner ch-1 sp", "… in hdc at each of the 4 corners".

Takes     ``Stream``.
Gives     ``corners``, ``placed_last``, ``last_worked``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Corners".
"""

from __future__ import annotations

from workeven.notation.contents import content
from workeven.notation.places import name, names
from workeven.notation.stream import Stream
from workeven.notation.targets import target
from workeven.notation.tree import (
    CENTER,
    Aside,
    ChainOfTurning,
    Content,
    Corners,
    Inside,
    Marked,
    Next,
    Space,
    Step,
    Stitch,
    Target,
    Work,
)
from workeven.notation.vocabulary import kind_of
from workeven.records import replace


def corners(stream: Stream) -> tuple[Step, ...] | None:
    """``working 3 sc in each corner ch-1 sp``.

    Takes: working 3 sc in each corner ch-1 sp
    Takes: with 2 dc, ch 3 and 2 dc in each corner sp
    Refuses: working 3 sc in each st
    """
    if not stream.is_word("working", "with", "making"):
        return None
    mark = stream.here()
    start = stream.take().start
    stream.articles()
    if stream.is_mark("("):
        closing = stream.closing()
        if closing < 0 or stream.tokens[closing + 1].word != "in":
            stream.back_to(mark)
            return None
        stream.take()
        made = content(stream, closing)
        stream.at = closing + 1
    else:
        several = _listed(stream)
        count = stream.amount() if not several and stream.is_amount() else None
        if not several and (count is None or stream.token.kind != "stitch"):
            stream.back_to(mark)
            return None
        if count is None:
            made = several
        else:
            word = stream.take()
            made = (Stitch(word.word, count, kind_of(word.word).legs, start, stream.end),)
    if not stream.accept("in"):
        stream.back_to(mark)
        return None
    if _bare_corners(stream):
        return (Corners(made, None, start, stream.end),)
    where = _corner_target(stream)
    if where is None:
        stream.back_to(mark)
        return None
    corner = any(token.word == "corner" for token in stream.tokens[mark.at : stream.at])
    return (Corners(made, where, start, stream.end, corner=corner),)


def _listed(stream: Stream) -> tuple[Content, ...]:
    """``2 dc, ch 3 and 2 dc``, up to "in": what goes into a corner, without brackets; else ().

    Takes: 2 dc, ch 3 and 2 dc
    """
    closing = stream.at
    while stream.tokens[closing].word in _IN_A_LIST or stream.tokens[closing].kind in (
        "num",
        "stitch",
        "chn",
    ):
        closing += 1
    parted = any(token.word == "ch" for token in stream.tokens[stream.at : closing])
    if not parted or not (stream.tokens[closing].word == "in" or closing == len(stream.tokens) - 1):
        return ()
    return content(stream, closing)


#: words of a list of stitches and chains
_IN_A_LIST = (",", "and", "ch", "&")


def _bare_corners(stream: Stream) -> bool:
    """Whether "each corner" stands alone: the corners that the row before has.

    Takes: each of the 4 corners
    Refuses: each corner ch-2 sp
    """
    mark = stream.here()
    if _each_corner(stream):
        after = stream.token
        if after.kind in ("end", "mark") or after.word in ("and", "around"):
            return True
    stream.back_to(mark)
    return False


def _corner_target(stream: Stream) -> Target | None:
    """The place of "in each corner ch-1 sp", or None where no corner is named.

    Takes: each corner ch-2 sp
    Refuses: next st
    """
    at_each = _at_each_corner(stream)
    if at_each is not None:
        return at_each
    stream.articles()
    mark = stream.at
    stream.accept_any("each", "all", "every")
    stream.accept_any("of")
    stream.articles()
    stream.accept_any("rem", "other", "next")
    if stream.accept("corner"):
        found = names(stream)
        corner = found[0]
        return Next((Space(corner.chains),) if isinstance(corner, Space) else found)
    stream.at = mark
    if not stream.is_word("each", "center") and (space := _only_space(stream)) is not None:
        return space
    if not stream.is_word("each", "center"):
        return None
    if stream.is_word("each") and stream.ahead().word != "corner":
        stream.take()
        if stream.accept("of"):
            stream.articles()
            stream.accept("next")
            if stream.is_amount():
                stream.amount()
        found = names(stream)
        return Next(found) if isinstance(found[0], Space | Marked) else None
    where = target(stream)
    if isinstance(where, Next) and where.names == (Marked(CENTER),):
        return where
    if isinstance(where, Next) and isinstance(where.names[0], Space):
        return replace(where, names=(replace(where.names[0], corner=True, of="center"),))
    return where if isinstance(where, Inside) else None


def _at_each_corner(stream: Stream) -> Next | None:
    """``hdc at each corner``, ``hdc at each of the 4 corners``, ``ch-2 sp in each corner``.

    Takes: hdc at each of the 4 corners
    Refuses: hdc at each end
    """
    mark = stream.here()
    stream.articles()
    found = None if stream.is_word("each", "corner", "next") else name(stream)
    if found is not None and stream.accept_any("at", "in", "of") and _each_corner(stream):
        return Next((Space(found.chains),) if isinstance(found, Space) else (found,))
    stream.back_to(mark)
    return None


def _each_corner(stream: Stream) -> bool:
    """Pass ``each corner``, ``each of the 4 corners``, ``all 4 corners``, ``the corners``.

    Takes: each of the 4 corners
    Takes: corners
    Refuses: each end
    """
    mark = stream.here()
    stream.articles()
    if stream.is_word("corner") and stream.token.plural:
        stream.take()
        return True
    if stream.accept_any("each", "all"):
        stream.accept("of")
        stream.articles()
        stream.accept("rem")
        if stream.is_amount():
            stream.amount()
        if stream.accept("corner"):
            return True
    stream.back_to(mark)
    return False


def _only_space(stream: Stream) -> Next | None:
    """``ch-2 sp``, which one is not said: each of that name.

    Takes: ch-2 sp
    Refuses: next ch-2 sp
    """
    mark = stream.at
    if stream.is_word("next", "first", "last", "same"):
        return None
    found = name(stream)
    if isinstance(found, Space) and not found.of:
        return Next((found,))
    stream.at = mark
    return None


#: words that say where a last stitch goes, in front of "in"
FALLING = tuple(
    "being is to be worked made placed falling falls coming comes going goes will should".split()
)


def placed_last(stream: Stream) -> tuple[Step, ...] | None:
    """``putting last 2 dc in top of ch 3``, ``working last dc in 3rd ch of turning ch``.

    The last stitch goes there anyway: said for the maker, it changes no count. More than one are
    worked there behind all others.

    Takes: putting last 2 dc in top of ch 3
    Takes: working 2 dc in 3rd ch of turning ch
    Takes: working last dc in next st
    Takes: working the last one in top of ch-3
    Refuses: working 2 dc in last st
    """
    mark = stream.here()
    start = stream.take().start
    stream.articles()
    last = stream.accept_any("last", "final")
    count = stream.amount() if stream.is_amount() else None
    if last and count is not None and count.values == (1,) and stream.accept_any("in", "on"):
        target(stream)
        return (Aside(start, stream.end),)
    if stream.token.kind == "stitch" and (last or count is not None):
        word = stream.take()
        where = target(stream) if stream.accept_any("in", "on") else None
        if where is not None and count is None:
            return (Aside(start, stream.end),)
        if isinstance(where, ChainOfTurning) and count is not None:
            made = Stitch(word.word, count, kind_of(word.word).legs, start, stream.end)
            return (Work((made,), where, start=start, end=stream.end),)
    stream.back_to(mark)
    return None


def last_worked(stream: Stream) -> tuple[Step, ...] | None:
    """``last dc being worked in top of tch``: told for the maker, it goes there anyway.

    Takes: the last dc being worked in top of tch
    Takes: last dc in top of beg ch
    Refuses: last dc
    """
    mark = stream.here()
    start = stream.start
    told = stream.at > 0 and stream.tokens[stream.at - 1].word == "with"
    stream.articles()
    alone = stream.ahead().word in ("in", "on") and stream.ahead(2).kind == "ord"
    if stream.accept_any("last", "final") and (stream.token.kind == "stitch" or alone):
        told = told or alone or stream.ahead(2).kind == "ord" or stream.ahead(2).word == "top"
        if not alone:
            stream.take()
        while stream.accept_any(*FALLING):
            told = True
        if told and stream.accept_any("in", "on"):
            target(stream)
            return (Aside(start, stream.end),)
    stream.back_to(mark)
    return None
