"""The records of edges and seams.

Takes     nothing: records only.
Gives     ``Edge``, ``EdgePart``, ``Seam``.
Problems  none.
From      design.md, "A pattern file": ``edges``, ``seams``.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from workeven.arithmetic.formulas import Formula
from workeven.arithmetic.per_size import PerSize
from workeven.problems import Span
from workeven.records import record

if TYPE_CHECKING:  # a pattern is made of seams itself
    from workeven.pattern.records import Text

#: Words for the rows that need no label.
FIRST_ROW, LAST_ROW = "first row", "last row"


@record
class Edge:
    """An edge of a piece by name; just one of ``sts``, ``rows``, ``row`` and ``ends`` is set.

    ``sts`` and ``rows`` are formulas over counts; ``row`` names a row whose stitches are the edge;
    ``ends`` the first and last row (or section) whose row ends are. ``gauge`` is that of the piece
    where none is said. ``slope``: the rows differ in length, and the edge is measured along their
    ends, as a tape lies; on the ``right`` or ``left`` as one looks at the right side, or (None) on
    the side that is shaped more.
    """

    name: str
    sts: Formula | None
    rows: Formula | None
    row: str | None
    ends: tuple[str, str] | None
    gauge: str | None
    span: Span
    slope: bool = False
    side: Literal["right", "left"] | None = None


@record
class EdgePart:
    """An edge in a seam, so many times: ``2 * front.armhole``."""

    times: int
    piece: str
    edge: str


@record
class Seam:
    """One line of edges that is sewn to another, or whose stitches are picked up along it.

    ``ease`` is how much longer than the second the first is meant to be (mm, less than 0:
    shorter). ``tolerance`` (mm): None leaves the default. ``times``: how often it is sewn, None for
    as often as its pieces are made. ``yarn`` and ``colour`` are those of the sewing.
    """

    title: str
    kind: Literal["sew", "pick up"]
    first: tuple[EdgePart, ...]
    second: tuple[EdgePart, ...]
    first_words: str
    second_words: str
    ease: PerSize[Fraction]
    tolerance: Fraction | None
    span: Span
    times: PerSize[int] | None = None
    yarn: str | None = None
    colour: Text | None = None
