"""Rows: a line of a pattern, its label, its steps or what it says of other rows, its count.

Takes     nothing: records only.
Gives     ``Row`` and what it is made of; ``SpecialStitch``.
Problems  none.
From      notation.md, "Rows that stand for others" and the table of counts.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from workeven.arithmetic.formulas import Formula
from workeven.notation.tree.places import Amount, CountsAs, Inside, Next
from workeven.notation.tree.steps import Aside, Chain, Content, JoinRound, MagicRing, Stated, Step
from workeven.problems import Span
from workeven.records import record, record_by_position


@record_by_position
class Label:
    """``Rnd 3:``, ``Rows 4–6 (RS):``, ``Dec rnd:``.

    ``word`` is ``Row`` or ``Rnd`` where a number is written; ``last`` ends a range; ``name`` is
    the label of a row named in words; ``rows`` how many "Next 2 rnds:" stands for. ``section``:
    a heading stands before the number ("Heel flap: Row 1:"), so that it may be counted anew.
    ``alternate``: it is worked again as every second row from there on ("Row 2 and all WS rows:"),
    or as those that are ``listed`` ("Rows 3, 5 and 7:").
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
    alternate: bool = False
    listed: tuple[int, ...] = ()


@record_by_position
class RowRef:
    """Which earlier row is meant: the last one, one by number (a range: ``last``), by name.

    Number and name: a row of the part so named ("Left Neck Row 2"); "last": so many before it.
    ``onward``: that row and all that were worked since ("repeat from Row 2").
    """

    word: Literal["Row", "Rnd"] | None = None
    first: Amount | None = None
    last: Amount | None = None
    name: str | None = None
    onward: bool = False


@record_by_position
class Length:
    """A length in a row: one for all sizes or one a size (mm), or a formula over measurements."""

    millimetres: tuple[Fraction, ...]
    formula: Formula | None = None
    start: int = 0
    end: int = 0


@record_by_position
class RowsTimes:
    """How often rows are repeated by number; ``more`` tells ``9 more times`` from ``9 times``.

    ``again``: so often besides the row that says so ("…, turn. Rep this row 9 times").
    """

    count: Amount
    more: bool
    again: bool = False


@record_by_position
class RowsCount:
    """``for 12 rows``; ``in_all``: those before are among them ("12 rows in all").

    ``side``: the last of them is said to be a row of that side ("ending with a WS row").
    """

    count: Amount
    in_all: bool = False
    side: Literal["RS", "WS"] | None = None


@record_by_position
class UntilMeasures:
    """``until piece measures 30 cm`` (whole piece), ``for 3 in`` (``section`` True).

    ``part`` are the words for what is measured where they are neither: ``until band measures``.
    ``end`` is the column where its words end ("from beg" belongs to it). ``side``: "ending with a
    WS row", where no earlier rows are repeated.
    """

    length: Length
    section: bool
    end: int
    part: str = ""
    side: Literal["RS", "WS"] | None = None


@record_by_position
class UntilCount:
    """``until there are 159 dc``."""

    stated: Stated


@record_by_position
class AsLong:
    """``for desired length``, ``until long enough``: how many rows, the maker says."""


RowsUntil = RowsTimes | RowsCount | UntilMeasures | UntilCount | AsLong


@record_by_position
class Growth:
    """``with 1 more ch between shells each rnd``: so many more (or fewer) than in the row repeated.

    ``chains`` grow, or the stitches between increases; ``each``: more again in every row.
    ``beside``: those at both sides of what is named ("1 dc fewer each side of the dc3tog").
    ``unit`` is what there are more of, where that may be said of the whole row ("having 6 more dc
    each row"); ``counted``: it can be said of nothing else ("1 more shell"). ``sts`` is by how many
    stitches a row so worked is said to change. ``between``: how many stand between the increases
    then ("with 3 sc between incs"). ``told``: only what comes of the row is told ("each row gains
    8 dc").
    """

    count: int
    chains: bool
    each: bool
    start: int = 0
    end: int = 0
    beside: bool = False
    unit: str = ""
    sts: Amount | None = None
    counted: bool = False
    between: int = 0
    told: bool = False


@record_by_position
class Exchange:
    """``with ch 4 instead of ch 3``."""

    old: int
    new: int
    start: int = 0
    end: int = 0


@record_by_position
class BracketTimes:
    """``rep Rnd 6, working instructions in brackets 4 times``: what stands in them so often."""

    times: int
    start: int = 0
    end: int = 0


#: how rows that are worked again differ from those that they repeat
RowChange = Growth | Exchange | BracketTimes


@record_by_position
class RepeatRows:
    """``rep Rows 2 and 3 until piece measures 30 cm, ending with a Row 3``.

    ``until`` None: once (a range in the label says how often). ``steps`` are those written after
    ("…, fasten off"). ``ending_side``: "ending with a WS row". ``then``: what is repeated after it
    ("rep Row 2 six times, then rep Row 3"). ``change``: how they differ from those repeated.
    ``in_all``: how many rows there are said to be then ("…, giving 20 rows in all").
    """

    rows: tuple[RowRef, ...]
    until: RowsUntil | None
    ending: RowRef | None = None
    ending_side: Literal["RS", "WS"] | None = None
    steps: tuple[Step, ...] = ()
    then: RepeatRows | None = None
    change: RowChange | None = None
    in_all: Amount | None = None


@record_by_position
class WorkEven:
    """``work even for 12 rows``, ``work even in patt until …``.

    ``patt``: in the pattern, whose rows may have been told; ``ending``: with which the last ends.
    """

    until: RowsUntil | None
    steps: tuple[Step, ...] = ()
    patt: bool = False
    ending: RowRef | None = None


@record_by_position
class ShapeSpan:
    """``every 4th row 6 times``: the fourth row is shaped, and so on.

    ``first``: before them, the first shaped row is that ("3rd and every foll 4th row"; 1: the next
    one), 0 where none is named.
    """

    every: int
    times: Amount | None
    first: int = 0


ShapedEdge = Literal["start", "end", "right", "left"]


@record_by_position
class Places:
    """``on each side of each of 4 markers``: so many ``markers``, and at each so many ``sides``."""

    markers: Amount
    sides: int


@record_by_position
class ShapeRows:
    """``dec 1 st at each end every 4th row 6 times, then every 6th row 3 times``.

    ``count`` is how many stitches at each of the ``ends`` (0: over the whole row), None for as many
    as in the last row ("continue to increase in this way"). ``until`` says when it is enough,
    ``then`` how long it is worked even after it, or, where it is ``within`` these, how many rows
    there are with the shaping ("work even for 10 rows, at the same time dec …"). ``edge`` is where
    one end is shaped: at the ``start`` or ``end`` of every shaped row, or always at the same edge,
    which is on the ``right`` or the ``left`` as one looks at the right side. ``leave``: stitches
    are left unworked, with slip stitches across them where the row begins there. ``places``: they
    are worked at markers.
    """

    change: Literal["inc", "dec", "leave"]
    count: Amount | None
    ends: int
    spans: tuple[ShapeSpan, ...]
    until: UntilCount | None = None
    then: RowsUntil | None = None
    steps: tuple[Step, ...] = ()
    within: bool = False
    edge: ShapedEdge = "left"
    places: Places | None = None


@record_by_position
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


@record_by_position
class SecondSide:
    """``work as for left front, reversing shaping``: ``steps`` say where the side begins."""

    steps: tuple[Step, ...]
    start: int = 0
    end: int = 0


@record_by_position
class ChangeOver:
    """``now work in joined rounds``: how the piece is worked from here on."""

    worked: str


@record_by_position
class Earlier:
    """Places that an earlier row left: ``sc of Rnd 3``, ``first unworked st``, ``base of next sc``.

    ``number`` is that of the row whose places they are; ``unworked``: those that were left or
    passed over; ``base``: the places in which the stitches of an earlier row stand. ``if_any``: in
    the row before where none has left or passed over places.
    """

    number: Amount | None = None
    unworked: bool = False
    base: bool = False
    start: int = 0
    end: int = 0
    if_any: bool = False


@record_by_position
class Twins:
    """Two parts worked alike that a round goes over, with the chains between them (None: none)."""

    chains: Amount | None
    start: int = 0
    end: int = 0


@record_by_position
class ChainsSaid:
    """``Ch 2 at beg of rnds counts as hdc throughout.``: chains of so many, or all (None)."""

    chains: Amount | None
    counts_as: CountsAs


@record_by_position
class WorkedRow:
    """Steps in order; ``until`` makes one line stand for several ("sc around for 3 in").

    ``change`` is how the piece is worked from this row on, where the row says so at its head.
    ``onto`` is set where the row is worked into places of an earlier row. ``beside`` are rows
    whose places are named further on. ``unworked_too``: behind the places of the row before it
    speaks of stitches that were left unworked. ``tail`` are the steps that the count at the end of
    the row may be instead ("sc in next 9 sc. 10 sc."). ``twins``: it goes over two parts. ``said``:
    what the chains at the head of rows count as, in a sentence of its own ("Ch 2 at beg of rnds
    never counts as a st."). ``left_of``: behind the places of the row before, so many that an
    earlier row has left, by its number ("sc in next 4 unworked sts of Row 3").
    """

    steps: tuple[Step, ...]
    until: RowsUntil | None = None
    change: str | None = None
    onto: Earlier | None = None
    beside: tuple[Earlier, ...] = ()
    unworked_too: bool = False
    tail: tuple[Step, ...] = ()
    twins: Twins | None = None
    said: tuple[ChainsSaid, ...] = ()
    left_of: tuple[tuple[Earlier, Amount], ...] = ()


RowBody = WorkedRow | RepeatRows | RepeatEvery | WorkEven | ShapeRows | SecondSide | ChangeOver


class TermUse(NamedTuple):
    """A stitch word as it stands in the text: its columns, its US name.

    (A named tuple: every row has several, and it is made faster than a dataclass.)
    """

    start: int
    end: int
    name: str


#: what is done before the first row
_BEFORE = (Aside, Chain, JoinRound, MagicRing)


class PatternRows(NamedTuple):
    """``2nd and 3rd rows form patt``: by their numbers; ``these 2 rows``: so many before it."""

    first: int | None
    last: int


@record
class Row:
    """One line of a pattern.

    ``only`` holds the size names of ``sizes S–L only:`` (a range is the pair of its ends), None
    for all. ``terms`` and ``amounts`` are the places in the text where a page may put other
    terms, or one size's number. ``body`` is None when the row is not understood.
    ``patt``: which rows it says to be the pattern.
    """

    text: str
    span: Span
    label: Label | None
    only: tuple[tuple[str, str], ...] | None
    body: RowBody | None
    stated: Stated | None
    terms: tuple[TermUse, ...]
    amounts: tuple[Amount, ...]
    patt: PatternRows | None = None

    @property
    def works_nothing(self) -> bool:
        """Whether it is a heading, or words for the maker: no row, and none that is not read."""
        body = self.body
        return isinstance(body, WorkedRow) and all(isinstance(one, Aside) for one in body.steps)

    @property
    def before_the_rows(self) -> bool:
        """Whether no row is worked in it: it may make the chain or ring that they begin with."""
        body = self.body
        if self.label is not None and self.label.first is not None:
            return False
        return isinstance(body, WorkedRow) and all(isinstance(one, _BEFORE) for one in body.steps)


@record
class SpecialStitch:
    """A stitch of the pattern: its name, what it is, and its steps where the words are notation.

    ``content`` is what is worked (``5 dc``), ``one_place`` whether into one place; ``closed``
    when it becomes one stitch under its own name (a cluster). ``content`` is () where the text
    only describes it: then it takes up one place and counts as one stitch. ``base`` is the basic
    stitch that its words name first: its height decides about turning chains. ``steps`` are those
    of a stitch worked over several places (a square of filet, a crossed stitch, a picot); then
    there is no content. ``square``: of filet, where each chain of a space is a place. ``legs_of``
    is the first of the basic stitches that its words name. ``place`` is the space that its words
    say it is worked into ("in next ch-2 sp"), where the row names none. ``stands_for`` is what a
    beginning version is said to be ("beg cl … (counts as tr cl)").
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
    legs_of: str | None = None
    place: Next | Inside | None = None
    stands_for: str | None = None
