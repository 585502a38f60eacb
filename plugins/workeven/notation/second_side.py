"""A second side like the first: "sk next 30 sts, join yarn in next st, work as for left front".

Takes     ``Stream``.
Gives     ``second_side``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Places an earlier row left stay reachable" (``second side``), and mirrored
          pieces ("rep for second side, reversing shaping").

What stands before those words (stitches skipped, yarn joined) says where the side begins.
"""

from __future__ import annotations

from workeven.notation.expressions import ignoring_case
from workeven.notation.stated_counts import stated
from workeven.notation.steps import steps
from workeven.notation.stream import Stream
from workeven.notation.tokens import Token
from workeven.notation.tree import SecondSide

_SIDE = r"(?:front|back|side|half|shoulder|neck|strap|edge|one|piece|armhole|flap)"
_WHICH = r"(?:first|1st|second|2nd|other|opposite|left|right)"
#: words that send the maker back to the first side
_LIKE_THE_FIRST = (
    rf"(?:\b(?:rep(?:eat)?|work|complete|finish|make)\b[^.;:()]*?)?"
    rf"(?:\b(?:rep(?:eat)?|as|same as) (?:given )?for (?:the )?{_WHICH} {_SIDE}s?\b"
    rf"(?: of (?:the )?{_SIDE}\b)?|"
    rf"\brep(?:eat)? (?:the )?{_WHICH} {_SIDE}\b(?!,? (?:rows?|rnds?|rounds?) \d)"
    rf"(?: for (?:the )?{_WHICH} {_SIDE})?|"
    rf"\bto (?:match|correspond (?:with|to)) (?:the )?{_WHICH}\b(?: {_SIDE}\b)?|"
    rf"\brep(?:eat)? rows? \d+\s*(?:-|–|to)\s*\d+(?=,? revers))"
    r"(?:,? *(?:in reverse|revers(?:e|ing) (?:all |the )*(?:shaping|instructions)s?))?"
)


def second_side(stream: Stream) -> SecondSide | None:
    """A side worked like the first, mirrored.

    Takes: sk next 30 sts, join yarn in next st, work as for left front, reversing shaping
    Refuses: work 12 sc in ring
    """
    found = ignoring_case(_LIKE_THE_FIRST).search(stream.text, stream.start)
    if found is None:
        return None
    whole = stream.tokens
    at = next(index for index, one in enumerate(whole) if one.start >= found.start())
    cut = whole[at]
    stream.tokens = (*whole[:at], Token("end", "", 0, cut.start, cut.start))
    try:
        before = steps(stream)
    finally:
        stream.tokens = whole
    stream.at = at
    stream.pass_to(found.end())
    if "until" in stream.said:
        _until_so_many(stream)
    behind = steps(stream, "(", "[", ":", "=", "-")
    return SecondSide((*before, *behind), found.start(), found.end())


#: how many stitches the second side has at its end, as the first had
_UNTIL = r"\s*,? until (?=\d[^;:]*? (?:remain|rem|are left|left|remaining)\b)"


def _until_so_many(stream: Stream) -> None:
    """``reversing shaping, until 12 sts remain``: kept as what the last row leaves.

    Takes: , until 12 sts remain
    """
    found = ignoring_case(_UNTIL).match(stream.text, stream.end)
    if found is None:
        return
    stream.pass_to(found.end())
    stream.told_count = stated(stream, stream.start)
    if stream.told_count is None:
        raise stream.fault(mend="write “(12 sts)” behind the words for the second side")
