"""The records of one pattern, and of the studio whose pattern it is.

Takes     nothing: records only.
Gives     ``Pattern``, ``Studio`` and their parts.
Problems  none.
From      design.md, "A pattern file".

Lengths are exact ``Fraction`` millimetres, masses exact ``Fraction`` grams.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from workeven.arithmetic.formulas import Formula
from workeven.arithmetic.per_size import PerSize, Sizes
from workeven.arithmetic.shaping import Curve
from workeven.notation.tree import Row, SpecialStitch
from workeven.pattern.amount_records import PrintedAmount
from workeven.pattern.bodies import NO_BODY, Body
from workeven.pattern.care_records import Care
from workeven.pattern.hook_records import GivenHook
from workeven.pattern.page_records import Ask, Picture
from workeven.pattern.sample_records import FinishedSample
from workeven.pattern.seam_records import Edge, Seam
from workeven.pattern.trimming_records import Trimming
from workeven.problems import Span
from workeven.records import record
from workeven.standards import BodyChart

Terms = Literal["us", "uk"]
Parity = Literal["any", "odd", "even"]
RowSide = Literal["right side", "wrong side"]
Worked = Literal["flat rows", "joined rounds", "joined rounds, turned", "spiral rounds"]


@record
class Text:
    """Words of the designer, with their place."""

    text: str
    span: Span


@record
class CountedOver:
    """Stitches over a length (mm), and rows over the same or over ``rows_over``.

    ``repeats`` is how many repeats the stitches were counted as; ``rounds``: rows are rounds.
    """

    sts: Fraction
    rows: Fraction | None
    over: Fraction
    rows_over: Fraction | None
    repeats: Fraction | None
    rounds: bool


@record
class Sample:
    """What a swatch measures (mm), and the gauge it is of. ``blocked``: after blocking."""

    gauge: str
    width: Fraction | None
    height: Fraction | None
    blocked: bool
    span: Span


@record
class Gauge:
    """Stitches and rows counted over a length, in one stitch pattern.

    ``sts`` and ``rows`` as counted (may be fractions: 17½ sts), ``over`` in mm as written with
    10 cm and 4 in both taken as they stand; ``rows`` is None where only stitches were counted.
    ``rows_over``, ``repeats`` and ``rounds`` are those of ``CountedOver``. The gauge is that after
    blocking; ``before`` is the one before it, where it was counted.
    """

    name: str
    sts: Fraction
    rows: Fraction | None
    over: Fraction
    over_text: str
    of: str
    hook: GivenHook | None
    span: Span
    rows_over: Fraction | None = None
    repeats: Fraction | None = None
    rounds: bool = False
    before: CountedOver | None = None

    def stitch_width(self) -> Fraction:
        """Width of one stitch in mm."""
        return self.over / self.sts

    def row_height(self) -> Fraction | None:
        """Height of one row in mm, or None where rows were not counted, or none at all."""
        over = self.rows_over or self.over
        return over / self.rows if self.rows and over else None

    def least(self) -> Fraction:
        """The least of its figures; nothing can be counted in a gauge that holds a zero."""
        figures = (self.sts, self.over, self.rows, self.rows_over)
        return min(figure for figure in figures if figure is not None)


@record
class PutUp:
    """How a yarn is sold: length (mm) and mass (g) of one ball."""

    length: Fraction
    mass: Fraction


@record
class OtherPutUp:
    """Another put-up of a yarn, or of one that may stand in for it: what its band calls it."""

    label: str
    put_up: PutUp
    span: Span


@record
class Yarn:
    """A yarn of the pattern: its key, what it is, how it is sold. ``held``: strands held.

    ``colours`` are the names by which rows call them; ``shades`` what the band calls each, where
    the file says it ("" elsewhere). ``wraps``: how often it wraps an inch, where that was measured.
    ``also``: other put-ups that a maker may buy instead.
    """

    name: str
    label: str
    weight: str
    fibre: str
    put_up: PutUp
    colours: tuple[str, ...]
    held: int
    span: Span
    shades: tuple[str, ...] = ()
    wraps: Fraction | None = None
    also: tuple[OtherPutUp, ...] = ()

    def shade(self, colour: str) -> str:
        """A colour in words: as the rows call it, and the band's name where that is another."""
        names = dict(zip(self.colours, self.shades, strict=False))
        return f"{colour} ({names[colour]})" if names.get(colour) else colour


@record
class Swatch:
    """A weighed swatch: which yarn, its mass in g, the rows it was worked with, its measures.

    ``beside``: the other yarns of which a strand was held together with it. ``mass_step``: the last
    place that the mass is written to (g), None where it is not in grams.
    """

    of: str
    mass: Fraction
    mass_span: Span
    rows: tuple[Row, ...]
    worked: Worked
    span: Span
    sample: Sample | None = None
    beside: tuple[str, ...] = ()
    mass_step: Fraction | None = None


@record
class Measurement:
    """A length by name: a formula over other measurements and over the body.

    ``words`` is the place of the formula's own text, where it is known.
    """

    name: str
    formula: PerSize[Formula]
    span: Span
    words: Span | None = None


@record
class ListedCount:
    """Stitches or rows that the designer lists; checked against ``across`` or ``along``.

    ``multiple``, ``plus`` and ``parity`` are what the stitch pattern asks of the numbers, where
    the file says it (``multiple`` is None where it does not).
    """

    name: str
    values: PerSize[int]
    across: str | None
    gauge: str | None
    span: Span
    along: str | None = None
    multiple: PerSize[int] | None = None
    plus: PerSize[int] | None = None
    parity: Parity = "any"


@record
class ComputedCount:
    """Stitches across a measurement, or rows along one, computed from the gauge.

    ``across`` names a measurement of the width, ``along`` one of the height (just one is set).
    The count is ``multiple`` times a whole number ``plus`` a rest, odd or even as ``parity``
    says, rounded ``nearest`` (a tie goes up), ``up`` or ``down``.

    ``multiple_of`` names another count whose multiple this one is; ``match`` is a formula over
    counts that it is equal to. ``step_at_least`` and ``step_at_most`` bound the step from one
    size to the next. ``comes_out`` is the key of the piece through which it must come out.
    ``begin`` and ``end`` are the sides of the first and last of the rows, from which ``parity``
    follows; ``end`` is None where the file does not say it.
    """

    name: str
    across: str | None
    along: str | None
    gauge: str
    multiple: PerSize[int]
    plus: PerSize[int]
    parity: Parity
    round: Literal["nearest", "up", "down"]
    at_least: PerSize[int] | None
    at_most: PerSize[int] | None
    span: Span
    multiple_of: str | None = None
    match: Formula | None = None
    step_at_least: int | None = None
    step_at_most: int | None = None
    comes_out: str | None = None
    begin: RowSide = "right side"
    end: RowSide | None = None


@record
class FormulaCount:
    """A count made from other counts, rounded to nothing: it must be whole as it stands.

    ``words`` is the place of the formula's own text, where it is known.
    """

    name: str
    formula: Formula
    span: Span
    words: Span | None = None


Count = ListedCount | ComputedCount | FormulaCount


@record
class RowNote:
    """What belongs to one row: a note, a place in the video (seconds).

    ``row`` is its label as written ("" where it has none), ``at`` its place among the section's
    rows, from 0. ``video_span`` is where the time stands.
    """

    row: str
    note: str | None
    video: int | None
    span: Span
    at: int | None = None
    video_span: Span | None = None


@record
class Slope:
    """How shaped rows lie along a length.

    A shaped row changes ``ends`` stitches, at both ends or at the ``edge`` that is named.
    ``second_row``: every second row only; ``straight_end``: an interval is left plain at the end.
    ``curve`` is one of ``arithmetic.shaping.CURVES``.
    """

    ends: int
    second_row: bool
    straight_end: bool
    edge: str
    curve: Curve


@record
class ShapeTrack:
    """One of several shapings at the same time: ``sts`` stitches in all, ``over`` so many rows.

    It begins ``after`` so many rows of the section (None: at once).
    """

    sts: Formula
    over: Formula
    after: Formula | None
    slope: Slope
    span: Span


@record
class Shape:
    """Shaping of a section, worked out when counts have numbers.

    ``start`` and ``end`` are the stitches before and after, ``over`` the rows, as formulas of
    counts. ``leave``: so many stitches are left unworked at each end (or the one edge) in the first
    row. ``spread``: a shaped row changes so many stitches, spread evenly over it, or over so many
    ``markers``. ``stages``: there are so many shaped rows, and each changes a multiple of
    ``multiple``, spread evenly unless ``at_edge``. With ``tracks`` several run at the same time,
    and each says how it shapes.
    """

    start: Formula
    end: Formula
    over: Formula
    slope: Slope
    span: Span
    leave: Formula | None = None
    spread: Formula | None = None
    markers: Formula | None = None
    stages: Formula | None = None
    multiple: Formula | None = None
    at_edge: bool = False
    tracks: tuple[ShapeTrack, ...] = ()

    @property
    def named(self) -> tuple[tuple[str, Formula], ...]:
        """All formulas that it is worked out from, with the keys that they stand at."""
        own = (("leave", self.leave), ("spread", self.spread), ("stages", self.stages))
        more = (("markers", self.markers), ("multiple", self.multiple))
        found = [("from", self.start), ("to", self.end), ("over", self.over), *own, *more]
        for number, one in enumerate(self.tracks, start=1):
            parts = (("sts", one.sts), ("over", one.over), ("after", one.after))
            found += [(f"{key} of track {number}", formula) for key, formula in parts]
        return tuple((key, formula) for key, formula in found if formula is not None)


@record
class Holes:
    """A row with holes at even distances, as formulas of counts: ``number`` of them in ``sts``.

    Each is ``width`` stitches wide; the first and last stand ``margin`` stitches from the ends
    (None: half an interval). ``stitch`` is that of the row, by its abbreviation.
    """

    sts: Formula
    number: Formula
    width: Formula
    margin: Formula | None
    stitch: str
    span: Span

    @property
    def named(self) -> tuple[tuple[str, Formula], ...]:
        """All formulas that it is worked out from, with the keys that they stand at."""
        found = (("across", self.sts), ("number", self.number), ("width", self.width))
        margin = () if self.margin is None else (("margin", self.margin),)
        return (*found, *margin)


@record
class Section:
    """A part of a piece: its heading, how it is worked from here on, its rows.

    ``worked`` and ``gauge`` are those in force; ``sizes`` are the indexes of the sizes that work
    this section (None: all). A section with ``shape`` or ``holes`` has its rows made by grading.
    ``beside`` are the other yarns held together with its own; ``colour``: in which it begins.
    """

    title: str
    worked: Worked
    gauge: str | None
    yarn: str | None
    sizes: tuple[int, ...] | None
    note: str | None
    video: int | None
    row_notes: tuple[RowNote, ...]
    rows: tuple[Row, ...]
    span: Span
    shape: Shape | None = None
    holes: Holes | None = None
    beside: tuple[str, ...] = ()
    colour: Text | None = None

    @property
    def made_from(self) -> Shape | Holes | None:
        """What its rows are made from, where none are written."""
        return self.shape or self.holes


@record
class Piece:
    """One piece: ``name`` is its key (``left_front``), ``title`` what a page shows.

    ``mirror`` is the key of the piece that it is worked like, mirrored; it then has no sections.
    """

    name: str
    title: str
    make: PerSize[int]
    worked: Worked
    sections: tuple[Section, ...]
    span: Span
    mirror: str | None = None
    edges: tuple[Edge, ...] = ()


@record
class Notion:
    """A button, a marker, a needle: kind, amount per size, where it goes, its size in mm."""

    kind: str
    amount: PerSize[int]
    at: str | None
    note: str | None
    span: Span
    size: Fraction | None = None


@record
class Ages:
    """For which ages it is: as written, and the first and last month (None: no end)."""

    text: str
    youngest: int
    oldest: int | None
    span: Span


@record
class Video:
    """A film: address, length in seconds, how a time is added to the address, size it shows."""

    url: str
    length: int | None
    time_link: str | None
    shown_size: str | None
    span: Span


@record
class Change:
    """One entry of ``changes``: the version it came with, its date, what changed.

    ``rows`` are addresses of the rows that it is about (``mitt.cuff-2``), ``sizes`` names of sizes;
    () where it says nothing of them. ``span``: the place of its version.
    """

    version: str
    date: str
    text: str
    rows: tuple[Text, ...] = ()
    sizes: tuple[str, ...] = ()
    span: Span | None = None


@record
class Link:
    """A link of the studio: its words and its address (https, http or inside the site)."""

    text: str
    url: str


@record
class Studio:
    """What ``studio.yaml`` says once for all patterns.

    ``tolerance``: how far (mm) a finished measurement may lie from the wanted one; None leaves
    the default of design.md. ``chart_files`` are the files of its own body charts, beside its own
    file; ``charts`` those that have been read. ``ask``: where makers ask about a row.
    """

    name: str
    summary: str
    links: tuple[Link, ...]
    units: Literal["cm", "in"]
    terms: Terms
    licence: str | None
    copyright: str | None
    tolerance: Fraction | None
    stitches: tuple[SpecialStitch, ...]
    chart_files: tuple[Text, ...] = ()
    charts: tuple[BodyChart, ...] = ()
    ask: Ask | None = None


@record
class TurningChains:
    """Whether turning chains count, by stitch, where the file says so (``{"hdc": True}``)."""

    counts: tuple[tuple[str, bool], ...]


@record
class Pattern:
    """One pattern file, typed. ``slug`` is its folder's name, ``file`` its path as given.

    ``tail`` is how long each end of yarn is left (mm), None where the file does not say it;
    ``hooks`` are those for other things than a gauge, ``formerly`` former names of its folder.
    """

    slug: str
    file: str
    studio: Studio
    title: Text
    summary: Text
    story: str | None
    tags: tuple[str, ...]
    level: str | None
    designers: tuple[str, ...]
    version: str
    published: str | None
    changes: tuple[Change, ...]
    licence: str | None
    copyright: str | None
    audience: str
    ages: Ages | None
    use: tuple[str, ...]
    terms: Terms
    sizes: Sizes
    sizes_span: Span
    to_fit: tuple[tuple[str, PerSize[Fraction]], ...]
    gauges: tuple[Gauge, ...]
    yarns: tuple[Yarn, ...]
    swatches: tuple[Swatch, ...]
    margin: Fraction
    notions: tuple[Notion, ...]
    care: Care | None
    stitches: tuple[SpecialStitch, ...]
    turning_chains: TurningChains
    each_chain_counts: bool
    tolerance: Fraction | None
    measurements: tuple[Measurement, ...]
    counts: tuple[Count, ...]
    pieces: tuple[Piece, ...]
    assembly: tuple[Text, ...]
    finishing: tuple[Text, ...]
    video: Video | None
    allow: tuple[tuple[str, str], ...]
    seams: tuple[Seam, ...] = ()
    trimmings: tuple[Trimming, ...] = ()
    tail: Fraction | None = None
    samples: tuple[FinishedSample, ...] = ()
    amounts: tuple[PrintedAmount, ...] = ()
    hooks: tuple[GivenHook, ...] = ()
    body: Body = NO_BODY
    level_span: Span | None = None
    pictures: tuple[Picture, ...] = ()
    formerly: tuple[Text, ...] = ()
