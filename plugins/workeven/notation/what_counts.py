"""What a row says that it takes for a stitch: "(each dc and each ch-1 sp counts as a st)".

Takes     a ``Stream`` at the bracket, behind a step or behind the row's label.
Gives     ``what_is_a_stitch``.
Problems  none.
From      common practice: filet and mesh are counted so.
"""

from __future__ import annotations

from workeven.notation.stream import NotUnderstood, Stream
from workeven.notation.targets import target
from workeven.notation.tree import Each


def what_is_a_stitch(stream: Stream, closing: int) -> bool:
    """``(each dc and each ch-1 sp counts as a st)``: what "sts" means in this row.

    Takes: (each dc and each ch-1 sp counts as a st)
    Refuses: (each ch counts as a st)
    """
    mark, start = stream.here(), stream.start
    if {"each", "as"} <= stream.said and not stream.said.isdisjoint(("count", "counts", "counted")):
        stream.take()
        try:
            found = target(stream) if stream.is_word("each", "every") else None
        except NotUnderstood:
            found = None
        several = isinstance(found, Each) and found.limit is None and len(found.names) > 1
        if several and stream.accept_any("counts", "count", "counted") and stream.accept("as"):
            stream.articles()
            if stream.is_amount():
                stream.amount()
            if stream.accept("st") and stream.at == closing and isinstance(found, Each):
                stream.a_stitch, stream.a_stitch_said = found.names, (start, stream.take().end)
                return True
    stream.back_to(mark)
    return False
