"""The notation tree: what one line of a pattern says.

Takes     nothing: records only, a closed set walked by ``match``.
Gives     ``Row`` and the nodes below it.
Problems  none.
From      notation.md, the tables of places and steps.

Columns (``start``, ``end``) count characters of the row's own text from 0. Stitches carry their
US names whatever the terms of the text ("sc" for the UK's dc); ``TermUse`` keeps what was written.
A tree is the same for every size: numbers by size are ``Amount``.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, NamedTuple

from workeven.arithmetic.formulas import Formula
from workeven.problems import Span


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class AnyStitch:
    """``st``: any counted stitch."""


@dataclass(frozen=True, slots=True)
class NamedStitch:
    """``dc``, ``cl``, ``shell``: stitches of one name, or groups of that special stitch."""

    name: str


@dataclass(frozen=True, slots=True)
class Space:
    """``ch-2 sp`` (its chains), ``ch sp``, ``sp``, ``lp`` (``chains`` None: any).

    ``corner`` spaces are named so by the text; ``of`` asks for a space inside such a group
    ("ch-2 sp of next shell"), or for the one in the center. ``grouped``: only those in groups
    (never written in a text).
    """

    chains: int | None = None
    corner: bool = False
    of: str | None = None
    grouped: bool = False


@dataclass(frozen=True, slots=True)
class OneChain:
    """``ch``: a single chain of the starting chain, or of a space."""


@dataclass(frozen=True, slots=True)
class Gap:
    """``sp between shells``, ``sp between groups``, ``sp between next 2 dc``.

    ``between`` names what stands at both sides (None: any groups); ``pair`` when two stitches are
    counted off ("next 2 dc": the first of them is passed). ``first``: the first two of the row.
    """

    between: str | None = None
    pair: bool = False
    first: bool = False


@dataclass(frozen=True, slots=True)
class StitchGroup:
    """``3-dc group``, ``next group``, ``shell``: what was worked into one place.

    ``size`` and ``stitch`` say of what it consists, ``name`` which special stitch it is; what is
    None may be anything.
    """

    size: int | None = None
    stitch: str | None = None
    name: str | None = None


@dataclass(frozen=True, slots=True)
class RowEnd:
    """``row end``: the side of one row."""


@dataclass(frozen=True, slots=True)
class LeafSide:
    """``first side of next leaf``, ``point of leaf``: of what stands off the row before."""

    which: Literal["first", "point", "other", "any"]


@dataclass(frozen=True, slots=True)
class TurningChain:
    """``tch``, ``turning ch``, ``beg ch-3`` (``chains`` where its length is named)."""

    chains: int | None = None


@dataclass(frozen=True, slots=True)
class Marked:
    """A place that the proof has marked for a row; ``MARKER``: at a marker ("next marked st")."""

    key: str


#: the key of the places at a marker
MARKER = "marker"


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


# --- targets: where a step goes ------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Next:
    """The next so many places of these names; ``each`` when "in each of" is written."""

    names: tuple[PlaceName, ...]
    count: Amount = ONE
    each: bool = False


@dataclass(frozen=True, slots=True)
class First:
    """The first so many places of the row."""

    names: tuple[PlaceName, ...]
    count: Amount = ONE
    each: bool = False


@dataclass(frozen=True, slots=True)
class Last:
    """The last so many places of the row."""

    names: tuple[PlaceName, ...]
    count: Amount = ONE
    each: bool = False


@dataclass(frozen=True, slots=True)
class ToLast:
    """``to last 3 sts``: stop where so many are left (``before`` a turning chain, if said)."""

    count: Amount
    names: tuple[PlaceName, ...]
    before: bool = False


@dataclass(frozen=True, slots=True)
class ToNext:
    """``to next ch-2 sp``, ``to 2 sts before marker``: stop so many in front of that place."""

    name: PlaceName
    less: Amount | None = None


Limit = ToLast | ToNext


@dataclass(frozen=True, slots=True)
class Each:
    """``in each st across``, ``around``: all that are left, up to the limit."""

    names: tuple[PlaceName, ...]
    limit: Limit | None = None


@dataclass(frozen=True, slots=True)
class Same:
    """``same st``, ``same st as joining``: where the hook stands.

    ``made``: into the stitch just made ("top of tr just made"), or into ``count`` of the stitches
    just passed over ("2 skipped sts"): that takes up no place. ``ending``: where the round before
    ended and this one begins ("dc at end of prev rnd").
    """

    name: PlaceName | None = None
    made: bool = False
    count: Amount = ONE
    ending: bool = False


@dataclass(frozen=True, slots=True)
class IntoRing:
    """``in ring``; ``magic``: "in magic ring", which makes the ring too."""

    magic: bool = False


@dataclass(frozen=True, slots=True)
class FromHook:
    """``in 4th ch from hook``; ``skipped`` is what the skipped chains count as, if said."""

    nth: Amount
    skipped: CountsAs | None = None


@dataclass(frozen=True, slots=True)
class ChainOfTurning:
    """``top of tch``, ``3rd ch of beg ch-5``: the stitch part of a counted chain."""

    nth: Amount | None
    chain: TurningChain


Part = Literal["center", "first", "last"] | int


@dataclass(frozen=True, slots=True)
class Inside:
    """``center dc of next shell``, ``first ch of next ch-2 sp``: one place within another."""

    part: Part
    name: PlaceName
    container: Next | First | Last | Same
    count: Amount = ONE


@dataclass(frozen=True, slots=True)
class Unplaced:
    """``sc 6``: no place named, one place a stitch."""

    count: Amount = ONE


@dataclass(frozen=True, slots=True)
class RowSides:
    """``in side of each row``, ``evenly along side edge`` (``each`` False)."""

    each: bool


@dataclass(frozen=True, slots=True)
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


# --- what a step makes ---------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class CountsAs:
    """``(counts as dc and ch 2)``: stitches and chains it stands for; ``()``: does not count.

    ``skipped`` is the number of "(skipped 3 chs count as dc)", where it is written. ``leg`` is the
    stitch of "counts as first leg of dc4tog", which the chain makes with the one behind it.
    ``throughout``: it holds for the rows to come.
    """

    stitches: tuple[tuple[Amount, str], ...]
    chains: Amount | None = None
    skipped: Amount | None = None
    start: int = 0
    end: int = 0
    leg: str | None = None
    throughout: bool = False


@dataclass(frozen=True, slots=True)
class Stitch:
    """So many of one stitch. ``legs`` is how many places a decrease works over (1: none)."""

    name: str
    count: Amount = ONE
    legs: int = 1
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Chain:
    """``ch 3``; at the head of a row a turning chain, between steps a space."""

    count: Amount
    counts_as: CountsAs | None = None
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Picot:
    """``ch 3, sl st in 3rd ch from hook``: stands off the row, takes up and leaves no place."""

    chains: Amount
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Times:
    """``[ch 1, tr] 5 times`` inside one place."""

    content: tuple[Content, ...]
    count: Amount


Content = Stitch | Chain | Picot | Times

Loop = Literal["both", "front", "back"]


# --- steps ---------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Work:
    """Content worked into each place of the target.

    ``spread`` is set where a number stands before the stitch and places are counted too
    ("6 sc in next 6 sts"): the number is then that of all of them. ``post`` steps go around the
    post, which takes up the place all the same. ``does_not_count``: "(does not count as st)".
    ``over``: a decrease that says over how many places it is worked ("over next 2 sts"), where
    "in next st" has all its legs in one. ``rows_below``: worked so many rows below the row that is
    worked into ("fpdc around next st 2 rows below"; 0: not said). ``skips_behind``: the next words
    skip the stitch behind it.
    """

    content: tuple[Content, ...]
    target: Target
    spread: bool = False
    loop: Loop = "both"
    does_not_count: bool = False
    over: bool = False
    rows_below: int = 0
    skips_behind: bool = False
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Increase:
    """``inc`` (``count`` places), ``inc around``: two into one, of the stitch last named.

    ``into``: so many into each; 1 for "work to last 2 sts", which names no stitch.
    """

    target: Target
    start: int = 0
    end: int = 0
    into: int = 2


@dataclass(frozen=True, slots=True)
class Decrease:
    """``dec``: two together, of the stitch last named; ``times`` of them, or open (None)."""

    times: Amount | None
    limit: Limit | None = None
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Skip:
    """``sk 2 sts``, ``skip next ch-1 sp``."""

    target: Target
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Travel:
    """``sl st to next dc``, ``sl st over to next ch-2 sp``: moves the start."""

    target: Target
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class JoinRound:
    """``join with sl st to first sc``; ``target`` None for a bare ``join``."""

    target: Target | None = None
    ring: bool = False
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class JoinYarn:
    """``join yarn with sl st in any ch-2 sp``; with another stitch it is a standing stitch.

    ``edge``: at an edge or an opening, whose places are not those of the row before.
    """

    target: Target | None
    stitch: Stitch | None
    start: int = 0
    end: int = 0
    edge: bool = False


@dataclass(frozen=True, slots=True)
class MagicRing:
    """``magic ring``."""

    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Foundation:
    """``fsc 40``: stitches worked with their own chain."""

    name: str
    count: Amount
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Turn:
    """``turn`` (``turned`` False: ``do not turn``)."""

    turned: bool = True
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class FastenOff:
    """``fasten off``."""

    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Aside:
    """What changes no count: ``place marker``, ``change to colour B``, ``with RS facing``.

    ``marker`` says where one is placed: ``here``, in a stitch just made (``last``, ``center``,
    ``first``), in the ``next`` one; ``off``: they are taken off; ``lost``: several, or one told by
    words that are not counted.
    """

    start: int = 0
    end: int = 0
    marker: Literal["", "here", "last", "center", "first", "next", "off", "lost"] = ""


@dataclass(frozen=True, slots=True)
class OtherSide:
    """``working along other side of ch``: the chains once more, from their other side."""

    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Corners:
    """``working 3 sc in each corner``: joined to the step before it, which works each stitch.

    ``name`` None: the corners that the row before has.
    """

    content: tuple[Content, ...]
    target: Target | None
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class EachChainCounts:
    """``(each ch counts as a st)``: the chains of the row below are worked one by one.

    ``made``: those that this row makes are counted with its stitches by what it states (never
    written in a text).
    """

    start: int = 0
    end: int = 0
    made: bool = False


@dataclass(frozen=True, slots=True)
class LeaveRest:
    """``leave rem sts unworked``; ``name`` where only that is left ("leave tch unworked")."""

    name: PlaceName | None = None
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Evenly:
    """``dec 12 sts evenly``: joined to the step before it, which works each stitch.

    ``ends`` is 2 for "evenly at each end". ``at_markers``: at so many sides of each marker.
    """

    change: Literal["inc", "dec"]
    count: Amount
    ends: int = 1
    start: int = 0
    end: int = 0
    at_markers: int = 0


@dataclass(frozen=True, slots=True)
class StatedHere:
    """A count inside a row, compared with what is made up to there."""

    stated: Stated
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Either:
    """``sk next 2 dc or next ch-2 sp``: the way that fits the places that come next.

    Only in the words that say what a square is.
    """

    ways: tuple[tuple[Step, ...], ...]
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Over:
    """So many of the next places, with nothing passed over (never written in a text).

    Content is worked over each of them, none where it is (); where any stitch may stand, each chain
    of a space is a place.
    """

    content: tuple[Content, ...]
    names: tuple[PlaceName, ...]
    count: Amount = ONE
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Formed:
    """One more of a special stitch that is worked over several places (never written in a text)."""

    name: str
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Stop:
    """``**`` inside a repeat."""

    start: int = 0
    end: int = 0


# --- repeats -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Exactly:
    """``6 times``, ``twice``: so many in all."""

    count: Amount


@dataclass(frozen=True, slots=True)
class More:
    """``rep from * 5 more times``; ``more`` False for ``rep from * 5 times`` (see notation)."""

    count: Amount
    more: bool = True


@dataclass(frozen=True, slots=True)
class Open:
    """``around``, ``across``, ``to last 2 sts``: as often as it fits."""

    limit: Limit | None = None


@dataclass(frozen=True, slots=True)
class EndingWith:
    """``ending with D`` (``last`` False: added after), ``ending last rep with D`` (True)."""

    steps: tuple[Step, ...]
    last: bool


@dataclass(frozen=True, slots=True)
class EndingAtStop:
    """``ending last rep at **``."""


@dataclass(frozen=True, slots=True)
class Omitting:
    """``omitting C on last rep``."""

    steps: tuple[Step, ...]


Ending = EndingWith | EndingAtStop | Omitting


@dataclass(frozen=True, slots=True)
class Repeat:
    """A group of steps worked several times; ``star`` tells ``*…; rep from *`` from brackets."""

    steps: tuple[Step, ...]
    times: Exactly | More | Open
    ending: Ending | None = None
    star: bool = False
    start: int = 0
    end: int = 0


Step = (
    Work
    | Increase
    | Decrease
    | Skip
    | Chain
    | Travel
    | JoinRound
    | JoinYarn
    | MagicRing
    | Foundation
    | Turn
    | FastenOff
    | Aside
    | LeaveRest
    | OtherSide
    | Picot
    | Corners
    | Either
    | Over
    | Formed
    | EachChainCounts
    | Evenly
    | StatedHere
    | Stop
    | Repeat
)


# --- rows ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Stated:
    """A stated count: pairs of amount and unit (``sts`` for a bare number), as ``(20 dc, …)``."""

    counts: tuple[tuple[Amount, str], ...]
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Label:
    """``Rnd 3:``, ``Rows 4–6 (RS):``, ``Dec rnd:``.

    ``word`` is ``Row`` or ``Rnd`` where a number is written; ``last`` ends a range; ``name`` is
    the label of a row named in words; ``rows`` how many "Next 2 rnds:" stands for. ``section``:
    a heading stands before the number ("Heel flap: Row 1:"), so that it may be counted anew.
    """

    word: Literal["Row", "Rnd"] | None = None
    first: Amount | None = None
    last: Amount | None = None
    name: str | None = None
    side: Literal["RS", "WS"] | None = None
    start: int = 0
    end: int = 0
    rows: Amount | None = None
    section: bool = False


@dataclass(frozen=True, slots=True)
class RowRef:
    """Which earlier row is meant: the last one, one by number (a range: ``last``), by name."""

    word: Literal["Row", "Rnd"] | None = None
    first: Amount | None = None
    last: Amount | None = None
    name: str | None = None


@dataclass(frozen=True, slots=True)
class Length:
    """A length in a row: one for all sizes or one a size (mm), or a formula over measurements."""

    millimetres: tuple[Fraction, ...]
    formula: Formula | None = None
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class RowsTimes:
    """How often rows are repeated by number; ``more`` tells ``9 more times`` from ``9 times``."""

    count: Amount
    more: bool


@dataclass(frozen=True, slots=True)
class RowsCount:
    """``for 12 rows``."""

    count: Amount


@dataclass(frozen=True, slots=True)
class UntilMeasures:
    """``until piece measures 30 cm`` (whole piece), ``for 3 in`` (``section`` True).

    ``part`` are the words for what is measured where they are neither: ``until band measures``.
    ``end`` is the column where its words end ("from beg" belongs to it).
    """

    length: Length
    section: bool
    end: int
    part: str = ""


@dataclass(frozen=True, slots=True)
class UntilCount:
    """``until there are 159 dc``."""

    stated: Stated


RowsUntil = RowsTimes | RowsCount | UntilMeasures | UntilCount


@dataclass(frozen=True, slots=True)
class Growth:
    """``with 1 more ch between shells each rnd``: so many more (or fewer) than in the row repeated.

    ``chains`` grow, or the stitches between increases; ``each``: more again in every row.
    """

    count: int
    chains: bool
    each: bool
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Exchange:
    """``with ch 4 instead of ch 3``."""

    old: int
    new: int
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class RepeatRows:
    """``rep Rows 2 and 3 until piece measures 30 cm, ending with a Row 3``.

    ``until`` None: once (a range in the label says how often). ``steps`` are those written after
    ("…, fasten off"). ``ending_side``: "ending with a WS row". ``then``: what is repeated after it
    ("rep Row 2 six times, then rep Row 3"). ``change``: how they differ from those repeated.
    """

    rows: tuple[RowRef, ...]
    until: RowsUntil | None
    ending: RowRef | None = None
    ending_side: Literal["RS", "WS"] | None = None
    steps: tuple[Step, ...] = ()
    then: RepeatRows | None = None
    change: Growth | Exchange | None = None


@dataclass(frozen=True, slots=True)
class WorkEven:
    """``work even for 12 rows``, ``work even in patt until …``."""

    until: RowsUntil | None
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class ShapeSpan:
    """``every 4th row 6 times``: the fourth row is shaped, and so on.

    ``first``: before them, the first shaped row is that ("3rd and every foll 4th row"; 1: the next
    one), 0 where none is named.
    """

    every: int
    times: Amount | None
    first: int = 0


@dataclass(frozen=True, slots=True)
class ShapeRows:
    """``dec 1 st at each end every 4th row 6 times, then every 6th row 3 times``.

    ``count`` is how many stitches at each of the ``ends`` (0: over the whole row), None for as many
    as in the last row ("continue to increase in this way"). ``until`` says when it is enough,
    ``then`` how long it is worked even after it.
    """

    change: Literal["inc", "dec"]
    count: Amount | None
    ends: int
    spans: tuple[ShapeSpan, ...]
    until: UntilCount | None = None
    then: RowsUntil | None = None
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class RepeatEvery:
    """``work even in sc, rep Dec rnd every 4th rnd 5 more times``: even rows, then that row.

    ``distance`` is in rows, the named one among them, or a length. ``even`` is the stitch of the
    even rows, where it is said.
    """

    row: RowRef
    distance: Amount | Length
    times: RowsTimes
    even: str | None = None
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class SecondSide:
    """``work as for left front, reversing shaping``: ``steps`` say where the side begins."""

    steps: tuple[Step, ...]
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class ChangeOver:
    """``now work in joined rounds``: how the piece is worked from here on."""

    worked: str


@dataclass(frozen=True, slots=True)
class Earlier:
    """Places that an earlier row left: ``sc of Rnd 3``, ``first unworked st``, ``base of next sc``.

    ``number`` is that of the row whose places they are; ``unworked``: those that were left or
    passed over; ``base``: the places in which the stitches of an earlier row stand.
    """

    number: Amount | None = None
    unworked: bool = False
    base: bool = False
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class WorkedRow:
    """Steps in order; ``until`` makes one line stand for several ("sc around for 3 in").

    ``change`` is how the piece is worked from this row on, where the row says so at its head.
    ``onto`` is set where the row is worked into places of an earlier row. ``beside`` are rows
    whose places are named further on. ``unworked_too``: behind the places of the row before it
    speaks of stitches that were left unworked. ``tail`` are the steps that the count at the end of
    the row may be instead ("sc in next 9 sc. 10 sc.").
    """

    steps: tuple[Step, ...]
    until: RowsUntil | None = None
    change: str | None = None
    onto: Earlier | None = None
    beside: tuple[Earlier, ...] = ()
    unworked_too: bool = False
    tail: tuple[Step, ...] = ()


RowBody = WorkedRow | RepeatRows | RepeatEvery | WorkEven | ShapeRows | SecondSide | ChangeOver


class TermUse(NamedTuple):
    """A stitch word as it stands in the text: its columns, its US name.

    (A named tuple: every row has several, and it is made faster than a dataclass.)
    """

    start: int
    end: int
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of a pattern.

    ``only`` holds the size names of ``sizes S–L only:`` (a range is the pair of its ends), None
    for all. ``terms`` and ``amounts`` are the places in the text where a page may put other
    terms, or one size's number. ``body`` is None when the row is not understood.
    """

    text: str
    span: Span
    label: Label | None
    only: tuple[tuple[str, str], ...] | None
    body: RowBody | None
    stated: Stated | None
    terms: tuple[TermUse, ...]
    amounts: tuple[Amount, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SpecialStitch:
    """A stitch of the pattern: its name, what it is, and its steps where the words are notation.

    ``content`` is what is worked (``5 dc``), ``one_place`` whether into one place; ``closed``
    when it becomes one stitch under its own name (a cluster). ``content`` is () where the text
    only describes it: then it takes up one place and counts as one stitch. ``base`` is the basic
    stitch that its words name first: its height decides about turning chains. ``steps`` are those
    of a stitch worked over several places (a square of filet, a crossed stitch, a picot); then
    there is no content. ``square``: of filet, where each chain of a space is a place.
    """

    name: str
    text: str
    content: tuple[Content, ...]
    one_place: bool
    closed: bool
    takes: int
    span: Span
    base: str | None = None
    steps: tuple[Step, ...] = ()
    square: bool = False
