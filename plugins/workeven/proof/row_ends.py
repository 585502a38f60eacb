"""Row ends: along how many rows a row goes that is worked along their ends.

Takes     the numbers of rows that a piece has behind it.
Gives     ``RowEnds``, ``NO_ENDS``, ``Sideways``, ``Beside``.
Problems  none.
From      common practice: a row worked along the ends of rows turns the piece by a quarter, and
          the rows worked over it have ends of their own.

Worked example: over 20 rows of ribbing ``sc in each row end`` is 20 sc. Ten rows further on the
piece has 10 row ends at its new sides; where that first row was the only one, it was an edging,
and the next row along row ends goes along the 20 rows again, on their other side.
"""

from __future__ import annotations

from typing import NamedTuple

from workeven.notation.expressions import ignoring_case

_EDGING = 1
#: words that say that the rows are meant which were worked along before
_OTHER_SIDE = r"\b(?:other|opposite|second|remaining)(?:\s+long)?\s+(?:side|edge)"


class RowEnds(NamedTuple):
    """The rows along whose ends a row goes: so many, or by the other reading so many others.

    ``unclear``: yarn is joined anew, and nothing in the row's words says which.
    """

    rows: int = 0
    other: int | None = None
    unclear: bool = False


#: of a row that goes along none
NO_ENDS = RowEnds()


class Sideways(NamedTuple):
    """A row went along row ends when ``before`` rows were worked: along ``along`` of them."""

    before: int
    along: int

    def ends_behind(self, rows: int, *, text: str, joined: bool, stated: bool) -> RowEnds:
        """The row ends of a piece that has so many rows, for a row with this text.

        ``joined``: new yarn is joined for it; ``stated``: it states its count.
        """
        since = rows - self.before
        if since <= _EDGING:
            return RowEnds(self.along)
        if ignoring_case(_OTHER_SIDE).search(text) is not None:
            return RowEnds(self.along, since)
        if joined:
            return RowEnds(self.along, since, unclear=not stated)
        return RowEnds(since, self.along)


class Beside(NamedTuple):
    """The row ends that the row at hand goes along, and how the last went that went along any."""

    ends: RowEnds = NO_ENDS
    last: Sideways | None = None
