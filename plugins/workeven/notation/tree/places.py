"""Places of a row, and targets: where a step goes.

Takes     nothing: records only.
Gives     ``Amount``, ``PlaceName``, ``Target`` and the records they are made of.
Problems  none.
From      notation.md, the table of places.
"""

from __future__ import annotations

from typing import Literal

from workeven.arithmetic.formulas import Formula
from workeven.records import record_by_position


@record_by_position
class Amount:
    """A number as written: one for all sizes, one a size (None: a dash), or a formula."""

    values: tuple[int | None, ...]
    formula: Formula | None = None
    start: int = 0
    end: int = 0

    def by_size(self) -> bool:
        """Whether it lists a number for each of several sizes."""
        return len(self.values) > 1


ONE = Amount((1,))


# --- places: what a step names -------------------------------------------------------------


@record_by_position
class AnyStitch:
    """``st``: any counted stitch."""


@record_by_position
class NamedStitch:
    """``dc``, ``cl``, ``shell``: stitches of one name, or groups of that special stitch."""

    name: str


@record_by_position
class Space:
    """``ch-2 sp`` (its chains), ``ch sp``, ``sp``, ``lp`` (``chains`` None: any).

    ``corner`` spaces are named so by the text; ``of`` asks for a space inside such a group
    ("ch-2 sp of next shell"), for the one in the center, or with a picot on it ("picot loop").
    ``grouped``: only those in groups (never written in a text).
    """

    chains: int | None = None
    corner: bool = False
    of: str | None = None
    grouped: bool = False


@record_by_position
class OneChain:
    """``ch``: a single chain of the starting chain, or of a space."""


@record_by_position
class Gap:
    """``sp between shells``, ``sp between groups``, ``sp between next 2 dc``.

    ``between`` names what stands at both sides (None: any groups); ``pair`` when two stitches are
    counted off ("next 2 dc": the first of them is passed). ``first``: the first two of the row.
    ``midway`` is the space at both sides of "midway between next 2 ch-3 sps".
    """

    between: str | None = None
    pair: bool = False
    first: bool = False
    midway: Space | None = None


@record_by_position
class StitchGroup:
    """``3-dc group``, ``next group``, ``shell``: what was worked into one place.

    ``size`` and ``stitch`` say of what it consists, ``name`` which special stitch it is; what is
    None may be anything.
    """

    size: int | None = None
    stitch: str | None = None
    name: str | None = None


@record_by_position
class RowEnd:
    """``row end``: the side of one row."""


@record_by_position
class LeafSide:
    """``first side of next leaf``, ``point of leaf``: of what stands off the row before."""

    which: Literal["first", "point", "other", "any"]


@record_by_position
class TurningChain:
    """``tch``, ``turning ch``, ``beg ch-3`` (``chains`` where its length is named)."""

    chains: int | None = None


@record_by_position
class Marked:
    """A place that the proof has marked for a row; ``MARKER``: at a marker ("next marked st").

    ``CENTER``: the middle one of the row ("center st").
    """

    key: str


#: the key of the places at a marker
MARKER = "marker"
#: the key of the stitch in the middle of a row
CENTER = "center"


PlaceName = (
    AnyStitch
    | NamedStitch
    | Space
    | OneChain
    | Gap
    | StitchGroup
    | LeafSide
    | RowEnd
    | TurningChain
    | Marked
)


@record_by_position
class CountsAs:
    """``(counts as dc and ch 2)``: stitches and chains it stands for; ``()``: does not count.

    ``skipped`` is the number of "(skipped 3 chs count as dc)", where it is written. ``leg`` is the
    stitch of "counts as first leg of dc4tog", which the chain makes with the one behind it.
    ``throughout``: it holds for the rows to come. ``carried``: not this row says it but one before,
    and of its own row alone. ``by_count``: what the row states leaves the chain out, be it a stitch
    or none.
    """

    stitches: tuple[tuple[Amount, str], ...]
    chains: Amount | None = None
    skipped: Amount | None = None
    start: int = 0
    end: int = 0
    leg: str | None = None
    throughout: bool = False
    carried: bool = False
    by_count: bool = False


# --- targets: where a step goes ------------------------------------------------------------


@record_by_position
class Next:
    """The next so many places of these names; ``each`` when "in each of" is written.

    ``bare``: a name alone ("in ch-1 sp"), which may be the place that the hook was brought to.
    """

    names: tuple[PlaceName, ...]
    count: Amount = ONE
    each: bool = False
    bare: bool = False


@record_by_position
class First:
    """The first so many places of the row."""

    names: tuple[PlaceName, ...]
    count: Amount = ONE
    each: bool = False


@record_by_position
class Last:
    """The last so many places of the row."""

    names: tuple[PlaceName, ...]
    count: Amount = ONE
    each: bool = False


@record_by_position
class ToLast:
    """``to last 3 sts``: stop where so many are left (``before`` a turning chain, if said)."""

    count: Amount
    names: tuple[PlaceName, ...]
    before: bool = False


@record_by_position
class ToNext:
    """``to next ch-2 sp``, ``to 2 sts before marker``: stop so many in front of that place.

    ``inside``: of a group, in front of its middle ("to center sc of next shell", "to corner").
    """

    name: PlaceName
    less: Amount | None = None
    inside: bool = False


Limit = ToLast | ToNext


@record_by_position
class Each:
    """``in each st across``, ``around``: all that are left, up to the limit."""

    names: tuple[PlaceName, ...]
    limit: Limit | None = None


@record_by_position
class Same:
    """``same st``, ``same st as joining``: where the hook stands.

    ``made``: into the stitch just made ("top of tr just made"), or into ``count`` of the stitches
    just passed over ("2 skipped sts"): that takes up no place. ``ending``: where the round before
    ended and this one begins ("dc at end of prev rnd"). ``began``: said of where this row began
    ("same st as joining", "base of beg ch-3"), wherever the hook stands by now. ``first``: of the
    first stitch of the row, or of a repeat ("same ch as first sc").
    """

    name: PlaceName | None = None
    made: bool = False
    count: Amount = ONE
    ending: bool = False
    began: bool = False
    first: bool = False


@record_by_position
class IntoRing:
    """``in ring``; ``magic``: "in magic ring", which makes the ring too."""

    magic: bool = False


@record_by_position
class FromHook:
    """``in 4th ch from hook``; ``skipped`` is what the skipped chains count as, if said.

    ``more`` chains behind it are taken by the same stitch ("dc2tog over 3rd and 4th ch from hook").
    """

    nth: Amount
    skipped: CountsAs | None = None
    more: int = 0


@record_by_position
class ChainOfTurning:
    """``top of tch``, ``3rd ch of beg ch-5``: the stitch part of a counted chain."""

    nth: Amount | None
    chain: TurningChain


Part = Literal["center", "first", "last"] | int


@record_by_position
class Inside:
    """``center dc of next shell``, ``first ch of next ch-2 sp``: one place within another."""

    part: Part
    name: PlaceName
    container: Next | First | Last | Same
    count: Amount = ONE


@record_by_position
class Unplaced:
    """``sc 6``: no place named, one place a stitch."""

    count: Amount = ONE


@record_by_position
class RowSides:
    """``in side of each row``, ``evenly along side edge`` (``each`` False).

    ``apart``: along an opening, whose places are none of those that the row goes on into. ``of``:
    in side of each row of this basic stitch, and of no others ("each sc row").
    """

    each: bool
    apart: bool = False
    of: str | None = None


@record_by_position
class Described:
    """``8th st to the right of center``, ``center back``: a place told by where it lies."""


Target = (
    Described
    | Next
    | First
    | Last
    | Each
    | Same
    | IntoRing
    | FromHook
    | ChainOfTurning
    | Inside
    | Unplaced
    | RowSides
)
