"""A line that works another part's rows: "work as for back to armhole".

Takes     where a size stands, and a line of which nothing is a step.
Gives     ``as_another``.
Problems  ``row-not-understood``.
From      notation.md, "What is reported": every row is counted, or is said not to be.

Which of the other part's rows are meant is told by no number, and often by a place that only a
maker finds ("to armhole"). Behind a part that is fastened off, the words tell how a further one is
made ("work second leg as for first"); anywhere else rows would be worked that nobody counts.
"""

from __future__ import annotations

import re

from workeven.notation.tree import Aside
from workeven.proof.context import Fault
from workeven.proof.line import Line
from workeven.proof.standing import Standing

_AS_FOR = re.compile(
    r"\b(?:as|same)(?: (?:as|given|described|written|set|shown|worked|told))*"
    r" (?:for|on(?! (?:both|all|each|every)\b)|in(?! (?:both|all|each|every)\b))\b",
    re.IGNORECASE,
)


def as_another(standing: Standing, own: Line) -> Fault | None:
    """The fault of a line that works rows of another part while this one is being worked."""
    written = own.facts.written
    if not written or not all(isinstance(step, Aside) for step in written):
        return None
    if standing.is_cut():
        return None
    start, end = written[0].start, written[-1].end
    words = own.row.text[start:end].strip(" .")
    if _AS_FOR.search(words) is None:
        return None
    return Fault(
        "row-not-understood",
        start,
        end,
        f"“{words}” works rows of another part, which are not counted here",
        mend="Write the rows out. A piece that is worked like another has `mirror` and its name "
        "in place of rows, or is made twice: `make: 2`.",
    )
