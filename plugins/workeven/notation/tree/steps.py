"""Steps: what is made, where, and how often.

Takes     nothing: records only.
Gives     ``Content``, ``Step`` and the records they are made of.
Problems  none.
From      notation.md, the tables of steps and of repeats.
"""

from __future__ import annotations

from typing import Literal

from workeven.notation.tree.places import ONE, Amount, CountsAs, Limit, PlaceName, Target
from workeven.records import record_by_position

# --- what a step makes ---------------------------------------------------------------------


@record_by_position
class Stitch:
    """So many of one stitch. ``legs`` is how many places a decrease works over (1: none)."""

    name: str
    count: Amount = ONE
    legs: int = 1
    start: int = 0
    end: int = 0


@record_by_position
class Chain:
    """``ch 3``; at the head of a row a turning chain, between steps a space."""

    count: Amount
    counts_as: CountsAs | None = None
    start: int = 0
    end: int = 0


@record_by_position
class Picot:
    """``ch 3, sl st in 3rd ch from hook``: stands off the row, takes up and leaves no place."""

    chains: Amount
    start: int = 0
    end: int = 0


@record_by_position
class Times:
    """``[ch 1, tr] 5 times`` inside one place."""

    content: tuple[Content, ...]
    count: Amount


Content = Stitch | Chain | Picot | Times

Loop = Literal["both", "front", "back"]


# --- steps ---------------------------------------------------------------------------------


@record_by_position
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


@record_by_position
class Increase:
    """``inc`` (``count`` places), ``inc around``: two into one, of the stitch last named.

    ``into``: so many into each; 1 for "work to last 2 sts", which names no stitch. ``patt``: "in
    patt", in the stitch that is there.
    """

    target: Target
    start: int = 0
    end: int = 0
    into: int = 2
    patt: bool = False


@record_by_position
class Decrease:
    """``dec``: two together, of the stitch last named; ``times`` of them, or open (None)."""

    times: Amount | None
    limit: Limit | None = None
    start: int = 0
    end: int = 0


@record_by_position
class Skip:
    """``sk 2 sts``, ``skip next ch-1 sp``.

    ``counts_as``: what chains skipped at the head of a first row are said to count as. ``behind``:
    they lie behind what was worked before ("sk next sc behind fpdc").
    """

    target: Target
    start: int = 0
    end: int = 0
    counts_as: CountsAs | None = None
    behind: bool = False


@record_by_position
class Travel:
    """``sl st to next dc``, ``sl st over to next ch-2 sp``: moves the start."""

    target: Target
    start: int = 0
    end: int = 0


@record_by_position
class JoinRound:
    """``join with sl st to first sc``; ``target`` None for a bare ``join``.

    ``slip``: a slip stitch alone, which ends a joined round.
    """

    target: Target | None = None
    ring: bool = False
    start: int = 0
    end: int = 0
    slip: bool = False


@record_by_position
class JoinYarn:
    """``join yarn with sl st in any ch-2 sp``; with another stitch it is a standing stitch.

    ``edge``: at an edge or an opening, whose places are not those of the row before.
    """

    target: Target | None
    stitch: Stitch | None
    start: int = 0
    end: int = 0
    edge: bool = False


@record_by_position
class MagicRing:
    """``magic ring``."""

    start: int = 0
    end: int = 0


@record_by_position
class Foundation:
    """``fsc 40``: stitches worked with their own chain."""

    name: str
    count: Amount
    start: int = 0
    end: int = 0


@record_by_position
class Turn:
    """``turn`` (``turned`` False: ``do not turn``)."""

    turned: bool = True
    start: int = 0
    end: int = 0


@record_by_position
class FastenOff:
    """``fasten off``."""

    start: int = 0
    end: int = 0


@record_by_position
class Aside:
    """What changes no count: ``place marker``, ``change to colour B``, ``with RS facing``.

    ``marker`` says where one is placed: ``here``, in a stitch just made (``last``, ``center``,
    ``first``), in the ``next`` one; ``off``: they are taken off; ``lost``: several, or one told by
    words that are not counted.
    """

    start: int = 0
    end: int = 0
    marker: Literal["", "here", "last", "center", "first", "next", "off", "lost"] = ""


@record_by_position
class OtherSide:
    """``working along other side of ch``: the chains once more, from their other side."""

    start: int = 0
    end: int = 0


@record_by_position
class Corners:
    """``working 3 sc in each corner``: joined to the step before it, which works each stitch.

    ``target`` None: the corners that the row before has. ``every``: in every nth of the
    stitches that the step works instead ("working 2 sc in every 5th st"; no content: two of its
    own). ``corner``: the text calls the target a corner.
    """

    content: tuple[Content, ...]
    target: Target | None
    start: int = 0
    end: int = 0
    every: int = 0
    corner: bool = False


@record_by_position
class EachChainCounts:
    """``(each ch counts as a st)``: the chains of the row below are worked one by one.

    ``made``: those that this row makes are counted with its stitches by what it states (never
    written in a text).
    """

    start: int = 0
    end: int = 0
    made: bool = False


@record_by_position
class LeaveRest:
    """``leave rem sts unworked``; ``name`` where only that is left ("leave tch unworked").

    ``count`` is how many are left, where it is said, and ``of`` what they are called.
    """

    name: PlaceName | None = None
    start: int = 0
    end: int = 0
    count: Amount | None = None
    of: tuple[PlaceName, ...] = ()


@record_by_position
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


@record_by_position
class StatedHere:
    """A count inside a row, compared with what is made up to there.

    ``change``: so many more (1) or fewer (-1) than the row before has ("(8 sts increased)").
    """

    stated: Stated
    start: int = 0
    end: int = 0
    change: Literal[-1, 0, 1] = 0


@record_by_position
class Either:
    """``sk next 2 dc or next ch-2 sp``: the way that fits the places that come next.

    Only in the words that say what a square is.
    """

    ways: tuple[tuple[Step, ...], ...]
    start: int = 0
    end: int = 0


@record_by_position
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


@record_by_position
class Formed:
    """One more of a special stitch that is worked over several places (never written in a text)."""

    name: str
    start: int = 0
    end: int = 0


@record_by_position
class Stop:
    """``**`` inside a repeat."""

    start: int = 0
    end: int = 0


@record_by_position
class Stated:
    """A stated count: pairs of amount and unit (``sts`` for a bare number), as ``(20 dc, …)``.

    ``without_chain``: the row's first chain is none of them ("20 dc, not counting ch 3").
    ``parts`` are the numbers of its parts, each with how often it may count ("60 sts: 20 for each
    front, 20 for back": 20 twice and 20 once).
    """

    counts: tuple[tuple[Amount, str], ...]
    start: int = 0
    end: int = 0
    without_chain: bool = False
    parts: tuple[tuple[Amount, tuple[int, ...]], ...] = ()


# --- repeats -------------------------------------------------------------------------------


@record_by_position
class Exactly:
    """``6 times``, ``twice``: so many in all."""

    count: Amount


@record_by_position
class More:
    """``rep from * 5 more times``; ``more`` False for ``rep from * 5 times`` (see notation)."""

    count: Amount
    more: bool = True


@record_by_position
class Open:
    """``around``, ``across``, ``to last 2 sts``: as often as it fits."""

    limit: Limit | None = None


@record_by_position
class EndingWith:
    """``ending with D`` (``last`` False: added after), ``ending last rep with D`` (True)."""

    steps: tuple[Step, ...]
    last: bool


@record_by_position
class EndingAtStop:
    """``ending last rep at **``."""


@record_by_position
class Omitting:
    """``omitting C on last rep``.

    ``behind`` is how many steps of the repeat stand behind those.
    """

    steps: tuple[Step, ...]
    behind: int = 0


Ending = EndingWith | EndingAtStop | Omitting


@record_by_position
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
