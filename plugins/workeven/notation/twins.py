"""A round over two parts worked alike: "sc in 15 sts of first leg, …, sc in 15 sts of second leg".

Takes     ``Stream``, and the steps of a row that names two such parts.
Gives     ``part_of``, ``twins_of``.
Problems  none of its own: ``NotUnderstood``.
From      notation.md, "Below and before" ("a round over both parts").

The hook stands at the second part. The chain at the head of the row leads to the first, and both
its sides lie in the round.

Worked example: behind two legs of 15 sts, ``ch 3, sc in 15 sts of first leg, sc in each of 3 ch, sc
in 15 sts of second leg, sc along other side of 3 ch`` is 15 + 3 + 15 + 3.
"""

from __future__ import annotations

from workeven.notation.stream import Stream
from workeven.notation.tree import ONE, Aside, Chain, Step, Twins

#: parts of which a toy or a garment has two (common practice)
_TWO_OF_THEM = ("leg", "legs", "arm", "arms", "foot", "feet", "ear", "ears")


def part_of(stream: Stream) -> bool:
    """Pass "of first leg", "around second leg"; the stream keeps which of the two it is."""
    if stream.said.isdisjoint(_TWO_OF_THEM):
        return False
    mark = stream.at
    if stream.accept_any("of", "on", "from", "around", "across", "along", "to"):
        stream.articles()
        which = _which(stream)
        if which and stream.accept_any(*_TWO_OF_THEM):
            stream.twins.append(which)
            return True
    stream.at = mark
    return False


def _which(stream: Stream) -> int:
    """``first``, ``2nd``, ``other``: 1 or 2; 0 where none of the two is told."""
    token = stream.take()
    if token.kind == "ord":
        return token.value if token.value in (1, 2) else 0
    return {"first": 1, "other": 2}.get(token.word, 0)


def twins_of(stream: Stream, found: list[Step]) -> tuple[list[Step], Twins | None]:
    """The steps without the chain that leads from one part to the other, and that chain."""
    if not stream.twins:
        return found, None
    if stream.twins != sorted(stream.twins) or set(stream.twins) != {1, 2}:
        raise stream.fault(
            0,
            found="the stitches of one part are named, and not those of both in turn",
            mend="write “sc in 15 sts of first leg, …, sc in 15 sts of second leg”",
        )
    head = [at for at, step in enumerate(found) if not isinstance(step, Aside)]
    first = found[head[0]] if head else None
    if not isinstance(first, Chain) or first.counts_as is not None or first.count is ONE:
        return found, Twins(None, 0, stream.end)
    rest = [step for step in found if step is not first]
    return rest, Twins(first.count, first.start, first.end)
