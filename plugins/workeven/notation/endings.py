"""How the last repeat ends: "ending last rep with sc", "omitting ch 1 on last rep".

Takes     ``Stream``, and how the steps inside a group are read (``Inner``).
Gives     ``Inner``, ``ending_of``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "How repeats end".
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from workeven.notation.contents import passes_separator
from workeven.notation.stream import Stream
from workeven.notation.tokens import Token
from workeven.notation.tree import Ending, EndingAtStop, EndingWith, Omitting, Step


class Inner(NamedTuple):
    """Reads the steps inside a group: several, up to a closing word, or a single one."""

    several: Callable[..., tuple[Step, ...]]
    one: Callable[[Stream], tuple[Step, ...]]


def ending_of(stream: Stream, inner: Inner) -> Ending | None:
    """How the last repeat ends.

    Takes: ending last rep with sc in last st
    Refuses: join
    """
    mark = stream.at
    stream.accept_any(",", ";")
    if stream.accept_any("omitting", "omit"):
        return _omitting(stream, inner)
    if not stream.accept_any("ending", "end"):
        stream.at = mark
        return None
    last = _last_repeat(stream)
    if stream.accept("at", "**"):
        return EndingAtStop()
    stream.accept_any("with", "by", "in")
    last = last or _last_repeat(stream)
    found = _first_steps(stream, inner)
    if not found:
        raise stream.fault(mend="say what the row ends with")
    return EndingWith(found, last=last)


def _last_repeat(stream: Stream) -> bool:
    stream.accept_any("on")
    if stream.words_ahead("last", "rep"):
        stream.at += 2
        return True
    return False


def _first_steps(stream: Stream, inner: Inner) -> tuple[Step, ...]:
    """The steps up to the next separator: what is written after is worked afterwards anyway.

    Takes: sc in next st
    Refuses: frobnicate
    """
    found: list[Step] = []
    while not stream.at_end() and not found:
        if not passes_separator(stream):
            found.extend(inner.one(stream))
    return tuple(found)


def _omitting(stream: Stream, inner: Inner) -> Omitting:
    """Behind "omitting": what the last repeat leaves out.

    Takes: ch 1 on last rep
    Refuses: ch 1
    """
    stream.articles()
    stream.accept_any("last")
    stop = _last_rep_at(stream)
    if stop is None:
        raise stream.fault(mend="write “omitting … on last rep”")
    whole = stream.tokens
    cut = whole[stop]
    stream.tokens = (*whole[:stop], Token("end", "", 0, cut.start, cut.start))
    found: list[Step] = []
    try:
        while not stream.at_end():
            if not passes_separator(stream):
                found.extend(inner.one(stream))
    finally:
        stream.tokens = whole
    while not stream.accept("rep"):
        stream.take()
    return Omitting(tuple(found))


def _last_rep_at(stream: Stream) -> int | None:
    """The index of the word that begins "on last rep"."""
    for index in range(stream.at, len(stream.tokens) - 1):
        if (
            stream.tokens[index].word in ("last", "final")
            and stream.tokens[index + 1].word == "rep"
        ):
            before = index
            while stream.tokens[before - 1].word in ("on", "of", "in", "at", "the"):
                before -= 1
            return before
    return None
