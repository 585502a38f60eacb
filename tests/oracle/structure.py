"""Rows of crochet as plain records, from which both the text and the expected counts are made.

Takes     nothing.
Gives     ``Piece``, ``Row``, the steps of a row, ``at_size``.
Problems  none.
From      notation.md, the table of steps; nothing of the engine.

Stitches go by their US names here; the writer turns them into UK terms where a piece asks for it.
A ``Count`` is one number for all sizes, or a tuple with one number a size (0: left out there).
"""

from __future__ import annotations

from dataclasses import dataclass

Count = int | tuple[int, ...]


def at_size(count: Count, size: int) -> int:
    """The number of one size."""
    return count if isinstance(count, int) else count[size]


@dataclass(frozen=True, slots=True)
class Stitches:
    """So many stitches of one kind: ``2 dc``."""

    kind: str
    number: Count = 1


@dataclass(frozen=True, slots=True)
class Chain:
    """``ch 3``: between two steps, or inside what is worked into one place."""

    number: Count


Content = tuple[Stitches | Chain, ...]


@dataclass(frozen=True, slots=True)
class Work:
    """The content, worked into each of the next ``count`` places of one name.

    ``which`` is ``next``, ``last`` (all that are left of that name) or, of a space, ``center``,
    ``first`` (its chain). ``into`` is a name of notation.md: st, ch, sp, dc, ``ch-2 sp``,
    ``st and sp``, ``tch``, ring. ``deep``: around posts so many rows below, and over these places.
    """

    content: Content
    count: Count = 1
    into: str = "st"
    which: str = "next"
    deep: int = 0


@dataclass(frozen=True, slots=True)
class All:
    """The content in each place of one name: across, to the last few, or to the next of a name."""

    content: Content
    into: str = "st"
    but: Count = 0
    to: str | None = None


@dataclass(frozen=True, slots=True)
class Corners:
    """``sc in each st around, working 3 sc in each corner ch-2 sp``.

    ``by_name``: "in each ch-2 sp", since "corner" would leave open which of them are meant.
    """

    content: Content
    into: str
    corner: Content
    corner_name: str
    by_name: bool = False


@dataclass(frozen=True, slots=True)
class Between:
    """``3 dc in each sp between 3-dc groups``: in the next of these gaps, or in each of them."""

    content: Content
    kind: str
    size: int
    each: bool = False


@dataclass(frozen=True, slots=True)
class SoFar:
    """A count inside a row, ``(29 dc)``: what is made up to there."""

    figure: Count


@dataclass(frozen=True, slots=True)
class Same:
    """The content in the place at which the hook stands."""

    content: Content


@dataclass(frozen=True, slots=True)
class Center:
    """The content in the middle of the next group of ``size`` stitches of one kind.

    The middle of an even number is the gap between the two in the middle.
    """

    content: Content
    kind: str
    size: int


@dataclass(frozen=True, slots=True)
class Together:
    """``sc2tog``: one stitch over so many places."""

    kind: str
    legs: int = 2
    into: str = "st"


@dataclass(frozen=True, slots=True)
class Skip:
    """``sk 2 sts``."""

    count: Count = 1
    into: str = "st"


@dataclass(frozen=True, slots=True)
class ChainStitches:
    """``ch 5 (counts as 5 sts)``: chains each of which is a place."""

    number: Count


@dataclass(frozen=True, slots=True)
class Picot:
    """``ch 3, sl st in 3rd ch from hook``: stands off the row."""

    chains: int = 3


@dataclass(frozen=True, slots=True)
class Leaf:
    """``ch 7, sc in 2nd ch from hook and in each of next 5 chs``: stands off the row."""

    chains: int
    kind: str


@dataclass(frozen=True, slots=True)
class Below:
    """``fpdc around next st 2 rows below``: takes none of the row that is worked into."""

    kind: str
    rows: int = 2
    count: Count = 1


@dataclass(frozen=True, slots=True)
class Squares:
    """So many squares of filet of one kind, ``sp`` or ``block``; ``first`` begins a row."""

    kind: str
    number: Count = 1
    first: bool = False


@dataclass(frozen=True, slots=True)
class Evenly:
    """``sc around, dec 12 sts evenly``."""

    kind: str
    change: str
    by: Count


@dataclass(frozen=True, slots=True)
class Repeat:
    """A group, worked ``times`` (``None``: as often as it goes, up to the last ``but`` places).

    ``last`` holds the steps of the last repeat where they differ; ``last_form`` says in which
    words: ``replace`` (its last step is another), ``stop`` (it ends at the ``**``), ``omit`` (its
    last step is dropped), ``unsaid`` (the words leave it to the crocheter: a second reading).
    ``ending``: the steps after the repeat are put as ``ending with``.
    """

    body: tuple[Step, ...]
    times: Count | None = None
    but: Count = 0
    but_name: str = "st"
    last: tuple[Step, ...] | None = None
    last_form: str = ""
    ending: bool = False


@dataclass(frozen=True, slots=True)
class Leave:
    """``leave rem sts unworked``."""


@dataclass(frozen=True, slots=True)
class Travel:
    """Slip stitches at the head of a row: over ``count`` places, or ``to`` the next of a name.

    ``joins``: new yarn is joined there instead.
    """

    count: Count = 0
    to: str = ""
    joins: bool = False


@dataclass(frozen=True, slots=True)
class OtherSide:
    """``working along other side of ch``: the chains but the last, back to the first worked."""


@dataclass(frozen=True, slots=True)
class Standing:
    """``join B with sc in first st``: a stitch that begins a row with new yarn."""

    kind: str


@dataclass(frozen=True, slots=True)
class Start:
    """The chain at the start of a row: it stands for nothing, or a stitch and chains beside it."""

    chains: int
    stands_for: str = ""
    beside: int = 0


@dataclass(frozen=True, slots=True)
class FromHook:
    """The first stitch of a first row: ``dc in 4th ch from hook (skipped 3 chs count as dc)``."""

    nth: int
    content: Content
    stands_for: str = ""
    beside: int = 0


Step = (
    Work
    | All
    | Corners
    | Between
    | SoFar
    | Same
    | Center
    | Together
    | Skip
    | Chain
    | ChainStitches
    | Picot
    | Leaf
    | Below
    | Squares
    | Evenly
    | Repeat
    | Leave
    | Travel
    | OtherSide
    | Standing
    | Start
    | FromHook
)


@dataclass(frozen=True, slots=True)
class Stated:
    """A stated count: stitches in all (kind ``""`` or ``sts``), spaces (``sps``), or by kind."""

    figures: tuple[tuple[str, Count], ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One row or round, worked ``times`` in a row.

    ``begin``: what is made first: ``chain``, ``joined chain``, ``ring`` (of so many ``chains``),
    ``magic ring``; a row that only makes one has no steps. ``works``: whether each size works it.
    ``turns``: false after ``fasten off, do not turn``. ``loops``: back loops, front loops.
    ``worked``: how the piece is worked from this row on, where that changes.
    """

    steps: tuple[Step, ...] = ()
    begin: str = ""
    chains: Count = 0
    times: Count = 1
    stated: Stated | None = None
    works: tuple[bool, ...] | None = None
    turns: bool = True
    fastens_off: bool = False
    loops: str = ""
    worked: str = ""


@dataclass(frozen=True, slots=True)
class Again:
    """Rows worked before, once more and in their order: ``rep Rows 2 and 3 twice more``.

    ``first`` and ``last`` are places in ``Piece.rows``.
    """

    first: int
    last: int
    times: Count


@dataclass(frozen=True, slots=True)
class Piece:
    """Rows, how they are worked, and the names of the sizes (none: one size, without a name).

    ``start``: what is there before the first row, by kind and in working order. ``each_chain``:
    each chain between two stitches is a stitch of its own.
    """

    worked: str
    rows: tuple[Row | Again, ...]
    sizes: tuple[str, ...] = ()
    start: tuple[tuple[str, Count], ...] = ()
    each_chain: bool = False

    @property
    def size_count(self) -> int:
        """How many sizes the piece has."""
        return max(1, len(self.sizes))
