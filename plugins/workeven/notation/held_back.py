"""Clusters told loop by loop: "holding back last loop of each dc on hook, work 3 dc in next sp …".

Takes     ``Stream``.
Gives     ``held_back``.
Problems  none: what is none is left where it stands.
From      common practice: stitches whose last loops stay on the hook are closed to one; a chain at
          the head of the row in front of them is the first of them.
"""

from __future__ import annotations

from typing import NamedTuple

from workeven.notation.expressions import ignoring_case
from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.tree import ONE, Next, Step, Stitch, Target, Work
from workeven.notation.vocabulary import kind_of

_LOOPS = r"(?:loops?|lps?)"
_ON_HOOK = r"(?: (?:back )?(?:on|upon) (?:the |your )?hook| back)?"
#: "holding back on hook the last loop of each dc"
_HELD = (
    rf"(?:holding|leaving|keeping|retaining){_ON_HOOK} (?:the )?last {_LOOPS} of each"
    rf"(?: (?:st(?:itch)?|sc|hdc|dc|tr|dtr|htr|one|of these|of them))?{_ON_HOOK}"
)
_VERB = r"(?:make|work)"
_OVER = (
    r"(?:(?:yo|yoh|yrh|(?:thread|yarn|wool|cotton) (?:over|round|around)(?: (?:the )?hook)?)"
    r"(?: once| again)?,?\s*(?:and |& |then )*)?"
)
#: "thread over and draw through all loops on hook (cluster made)"
_CLOSED = (
    rf"\s*[,;]?\s*(?:and |then )*{_OVER}(?:(?:draw|pull|take|work)(?: (?:it|yarn|thread|hook|off))?"
    rf"\s*)?(?:through|thru) (?:all )?(?:the )?(?:\d+ |rem(?:aining)? )?{_LOOPS}"
    rf"(?: (?:left )?on (?:the )?hook)?(?: at once| together)?"
    r"(?:\s*[,–—-]?\s*[(]?\s*(?:a |one |1 |first |beg(?:inning)? )*(?:\d-\w+ )?"
    r"(?:cluster|cl|bobble|puff)(?: st)?(?: (?:is )?(?:made|formed|completed?))?[)]?)?"
)
#: a chain at the head of the row, of two at least, that nothing is said of
_LED = r"(?:[^:*(\[]*:)?\s*(?:(?:ch(?:ain)? ?[2-9])|(?:[2-9] ?ch(?:ain)?))[,;]?\s*(?:and |then )?"
_WORDS = ("holding", "leaving", "keeping", "retaining")


def held_back(stream: Stream) -> tuple[Step, ...] | None:
    """Stitches whose last loops are held back and closed together: one cluster.

    Takes: holding back last loop of each dc, work 3 dc in next sp, yo and through all loops on hook
    Refuses: holding back
    """
    if stream.said.isdisjoint(_WORDS):
        return None
    mark, start = stream.here(), stream.start
    first = ignoring_case(rf"{_HELD}\s*[,:]?\s*(?:{_VERB} )?").match(stream.text, start)
    if first is not None:
        stream.pass_to(first.end())
    try:
        found = _legs(stream)
    except NotUnderstood:
        found = None
    if found is not None and first is None:
        behind = ignoring_case(rf"\s*,?\s*{_HELD}").match(stream.text, stream.end)
        if behind is None:
            found = None
        else:
            stream.pass_to(behind.end())
    closed = ignoring_case(_CLOSED).match(stream.text, stream.end) if found is not None else None
    if found is None or closed is None:
        stream.back_to(mark)
        return None
    stream.pass_to(closed.end())
    led = ignoring_case(_LED).fullmatch(stream.text[:start]) is not None
    if led:
        stream.whole = f"{found.base}{found.over + 1}tog" if found.over else "cl"
    stitch = Stitch("cl", ONE, found.over or 1, start, stream.end)
    return (Work((stitch,), found.where, over=found.over > 0, start=start, end=stream.end),)


class _Legs(NamedTuple):
    """Where the stitches go, their kind, and over how many places, if each goes into its own."""

    where: Target
    base: str
    over: int


def _legs(stream: Stream) -> _Legs | None:
    """``3 dc in next sp``, ``tr in next 4 sc``: where the stitches go.

    Takes: 3 dc in next sp
    Refuses: 3 dc
    """
    several = stream.is_amount()
    if several:
        stream.amount()
    if stream.token.kind != "stitch":
        return None
    base = kind_of(stream.take().word).base
    if not stream.accept("in"):
        return None
    where = target(stream)
    count = where.count.values if isinstance(where, Next) else (1,)
    if len(count) != 1 or (count == (1,)) != several:
        return None
    return _Legs(where, base, 0 if several else count[0] or 0)
