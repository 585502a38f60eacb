"""Which loops of a stitch are worked into, where a row says so.

Takes     the text of a row and its steps.
Gives     ``with_loops``: the steps, each ``Work`` with the loop that it names.
Problems  none: which loop is taken changes no count.
From      notation.md, "Stated counts" ("post and loop-only stitches count as their base stitch").

The words stand in many places ("sc in back loop only of each st", "BLO sc", "scblo", "working in
front loops only"), and the phrases that read a step pass them by. So they are looked up here, in
the words of each step, and only in rows that have any. "Working in back loops only" holds for the
steps behind it, until another loop is named.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from workeven.notation.tree import Aside, Loop, Repeat, Step, Work
from workeven.records import replace

_LOOPS: dict[str, Loop] = {"b": "back", "f": "front"}
_STITCHES = "sc|dc|hdc|htr|tr|dtr|ttr"
_LOOP = re.compile(
    rf"""\b(?:(?P<word>back|front)[ ](?:loops?|lps?)
        |(?P<prefix>bl|fl)o?(?:\b|(?={_STITCHES}))
        |(?:{_STITCHES})(?P<suffix>bl|fl)o?\b)
        |\b(?P<both>both)[ ](?:loops?|lps?)""",
    re.IGNORECASE | re.VERBOSE,
)
#: the loop behind the places ("hdc in each st across in back loops only")
_BEHIND = re.compile(
    r"\s+(?:working )?(?:in|into|through|thru|using) (?:the )?"
    r"(?:(?:back|front|both) (?:loops?|lps?)|[bf]lo?\b)",
    re.IGNORECASE,
)


def with_loops(text: str, steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps of a row with the loops that they are worked into."""
    folded = text.lower()
    if not ("bl" in folded or "fl" in folded or "loop" in folded or " lp" in folded):
        return steps
    return tuple(_named(text, steps, None))


def _named(text: str, steps: tuple[Step, ...], around: Loop | None) -> Iterator[Step]:
    """The steps; ``around`` is the loop that was named for all of them."""
    for step in steps:
        match step:
            case Aside(start=start, end=end):
                around = loop_in(text[start:end]) or around
                yield step
            case Work(loop="both", start=start, end=end):
                behind = _BEHIND.match(text, end)
                loop = loop_in(text[start : behind.end() if behind else end]) or around
                yield step if loop is None else replace(step, loop=loop)
            case Repeat(steps=body):
                yield replace(step, steps=tuple(_named(text, body, around)))
            case _:
                yield step


def loop_in(words: str) -> Loop | None:
    """The loop that is named, or None.

    >>> loop_in("sc in BLO of each st"), loop_in("flsc in next st"), loop_in("sc in next ch-3 lp")
    ('back', 'front', None)
    """
    found = _LOOP.search(words)
    if found is None:
        return None
    named = found["word"] or found["prefix"] or found["suffix"]
    return _LOOPS[named[0].lower()] if named else "both"
