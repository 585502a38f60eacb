"""A place by its number from the start of the row: "sl st to 4th tr", "join yarn in 5th st".

Takes     ``Stream``.
Gives     ``numbered``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, the table of steps ("travel") and "Rounds are closed".
"""

from __future__ import annotations

from workeven.notation.places import name
from workeven.notation.stream import Stream
from workeven.notation.tree import Amount, AnyStitch, NamedStitch, Next, Space


def numbered(stream: Stream) -> Next | None:
    """The nth place of a name; None where it lies within another, or is counted otherwise.

    Takes: 4th tr
    Refuses: 4th ch from hook
    """
    mark, amounts = stream.at, len(stream.amounts)
    stream.articles()
    if stream.token.kind == "ord" and stream.token.value > 1:
        token = stream.take()
        if stream.is_word("unworked", "skipped", "unused", "free"):
            raise stream.fault(
                found="from where the unworked stitches are counted is not said",
                mend="join the yarn in the first of them, behind those that you pass: “sk 10 "
                "unworked sts, join yarn in next st”",
            )
        place = name(stream)
        ends = stream.at_end() or stream.token.kind == "mark"
        if ends and isinstance(place, AnyStitch | NamedStitch | Space):
            return Next((place,), Amount((token.value,), None, token.start, token.end))
    stream.at = mark
    del stream.amounts[amounts:]
    return None
