"""What a page shows, as records of finished strings: templates only lay them out.

Takes     nothing: records only.
Gives     ``PatternView``, ``IndexView`` and their parts.
Problems  none.
From      design.md: templates do no arithmetic.

A ``Markup`` field holds HTML that our own code has made and escaped; every other field is text.
"""

from __future__ import annotations

from markupsafe import Markup

from workeven.records import record

#: The anchor of a page's title.
TITLE_ANCHOR = "title"


@record
class Table:
    """A table: ``heads`` names its columns, each row begins with its own heading.

    A cell is one or more lines, such as centimetres above inches.
    """

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, tuple[tuple[str, ...], ...]], ...]


@record
class AmountsView:
    """How much of one yarn to buy: the table, what is to be known of it, other yarns and lengths.

    ``others``: balls of other put-ups that the pattern names; ``substitutes``: the rules for any.
    """

    table: Table
    rest: tuple[str, ...]
    others: Table | None
    substitutes: tuple[str, ...]
    longer: Table | None
    longer_notes: tuple[str, ...]


@record
class Computed:
    """How the amounts of one yarn were computed: in words, as a sum, against samples, by piece.

    ``each``: what one stitch takes; ``rest``: margin, put-up, how the swatches fit each other.
    """

    title: str
    method: str
    each: tuple[str, ...]
    table: Table
    rest: tuple[str, ...]
    samples: tuple[str, ...]
    pieces: Table | None


@record
class Partly:
    """The pieces of a yarn that has no amount in all: why it has none, and what each takes."""

    words: str
    table: Table


@record
class Picture:
    """A picture beside the page, with its alternative text."""

    file: str
    alt: str
    width: int
    height: int


@record
class Link:
    """Words and an address."""

    words: str
    url: str


@record
class YarnView:
    """A yarn: its name, what it is, how it is sold."""

    name: str
    facts: tuple[str, ...]


@record
class RowView:
    """A line of a pattern. ``side`` is RS or WS.

    ``number`` is "" for a line that is no row; ``place`` then says where it stands: at the start,
    at the end, or between rows. ``into`` says which stitches it is worked into, where its words
    leave that to find.
    """

    anchor: str
    number: str
    place: str
    side: str
    side_words: str
    words: Markup
    count: str
    multiple: str
    into: str
    notes: tuple[str, ...]
    video: Link | None


@record
class SectionView:
    """A section of a piece; ``worked`` is told where it is not that of the piece.

    ``title`` is "" where it would only say the title of the piece again.
    """

    anchor: str
    title: str
    worked: str
    sizes: str
    notes: tuple[str, ...]
    video: Link | None
    rows: tuple[RowView, ...]


@record
class DrawingView:
    """A lettered drawing with the table of its letters, and the words under it."""

    svg: Markup
    words: str
    table: Table


@record
class PieceView:
    """A piece: what is made, how, its drawing where it has one, its sections.

    ``like`` is the piece that it mirrors, whose sections hold its rows.
    """

    anchor: str
    title: str
    facts: str
    like: Link | None
    drawing: DrawingView | None
    sections: tuple[SectionView, ...]


@record
class RuleView:
    """A published rule, and where it was published."""

    words: str
    citations: tuple[Link, ...]


@record
class CautionView:
    """A caution: its topic, our words, the rules behind them."""

    topic: str
    words: str
    rules: tuple[RuleView, ...]


@record
class PatternView:
    """One page. Tables that have nothing to say are None, lists are empty."""

    title: str
    draft: bool
    summary: str
    byline: str
    story: tuple[str, ...]
    picture: Picture | None
    facts: tuple[tuple[str, str], ...]
    level: str
    caution_mark: str
    cautions: tuple[CautionView, ...]
    cautions_closing: str
    rest: CautionView
    film: Link | None
    to_fit: Table | None
    finished: Table | None
    ease: Table | None
    body_notes: tuple[str, ...]
    yarns: tuple[YarnView, ...]
    amounts: tuple[AmountsView, ...]
    amounts_note: str
    partly: tuple[Partly, ...]
    computed: tuple[Computed, ...]
    hooks: tuple[str, ...]
    hook_notes: tuple[str, ...]
    notions: tuple[str, ...]
    care: tuple[tuple[str, str], ...]
    care_note: str
    gauges: tuple[str, ...]
    gauge_note: str
    sensitivity: Table | None
    abbreviations: Table | None
    stitches: tuple[tuple[str, str], ...]
    reading: tuple[str, ...]
    pieces: tuple[PieceView, ...]
    seams: tuple[Table, ...]
    assembly: tuple[str, ...]
    finishing: tuple[str, ...]
    changes: tuple[tuple[str, str], ...]
    version: str
    licence: str
    copyright: str
    downloads: tuple[Link, ...]
    before: Link | None
    after: Link | None
    collection: Link


@record
class Card:
    """A pattern on the index page."""

    title: str
    url: str
    summary: str
    facts: str
    caution_mark: str
    draft: bool
    picture: Picture | None


@record
class IndexView:
    """The page of all patterns; ``problems`` (whole messages) are told in a preview only."""

    title: str
    summary: str
    cards: tuple[Card, ...]
    problems: tuple[str, ...]


@record
class ProblemsView:
    """The page of a pattern that is not fit to publish, in a preview."""

    title: str
    problems: tuple[str, ...]
    collection: Link


@record
class Entry:
    """A line of a page's table of contents."""

    title: str
    anchor: str
    below: tuple[Entry, ...] = ()
