"""The stitch chart of a piece, with its key.

Takes     ``ReadyPattern``, a ``ProvenPiece`` and the multiple of its starting chain.
Gives     ``StitchChartView``: ``stitch_chart_view``.
Problems  none.
From      DEVELOPERS.md, "Stitch charts".
"""

from __future__ import annotations

from markupsafe import Markup

from workeven.notation import wording
from workeven.notation.vocabulary import Terms, in_terms, kind_of
from workeven.pipeline import ReadyPattern
from workeven.problems.words import joined
from workeven.proof import ProvenPiece, StitchChart, stitch_chart
from workeven.proof.placed import Placed
from workeven.proof.stitch_chart import once_around
from workeven.publish.drawings import stitch_charts
from workeven.publish.drawings.stitch_charts import Letters
from workeven.publish.pages import figures
from workeven.records import record
from workeven.yarn import RowColours, row_colours

_OWN = {
    "ch": "chain",
    "join": "joined here with a slip stitch or the first stitch",
    "picot": "chains closed to a loop by a slip stitch",
}
_CLOSED = {
    "cluster": "stitches in one place, closed to one",
    "popcorn": "stitches in one place, drawn together by a loop through the first",
    "puff": "loops in one place, closed to one",
    "own": "one of this pattern's special stitches",
}


@record
class KeyView:
    """A symbol, the stitch that it is, and what that is in full."""

    symbol: Markup
    name: str
    words: str


@record
class StitchChartView:
    """A chart, what it shows and how it is read, the symbols in it.

    ``drawn`` is what it would be without its title: two pieces with the same have one chart.
    """

    svg: Markup
    title: str
    words: str
    key: tuple[KeyView, ...]
    drawn: str


def stitch_chart_view(
    ready: ReadyPattern, proven: ProvenPiece, multiple: tuple[int, int] | None, size: int = 0
) -> StitchChartView | None:
    """The chart of a piece, None where it has none; in ``size``, where sizes differ."""
    chart = stitch_chart(ready.proven.graded, proven, multiple, size)
    if chart is None:
        return None
    title = f"{proven.piece.title}: stitch chart"
    colours = row_colours(
        ready.proven,
        proven,
        tuple(row.number for row in chart.rows),
        chart.sizes[0] if chart.sizes else None,
    )
    words = _caption(chart, ready.pattern.sizes.names)
    if colours is not None:
        words += " The letter behind a number is the colour of that row, or of several in turn."
        if colours.changes:
            words += " In a row that changes colours each stitch has its letter beside it."
    desc = "The rows below the chart say the same in words."
    svg = stitch_charts.drawing(chart, name=title, words=desc, letters=_letters(chart, colours))
    return StitchChartView(
        svg=svg,
        title=title,
        words=words,
        key=(
            *(_key(ready, one) for one in stitch_charts.symbols_in(chart)),
            *(
                KeyView(
                    symbol=stitch_charts.loop_symbol(loop),
                    name="under a stitch",
                    words=f"in the {loop} loop only",
                )
                for loop in stitch_charts.loops_in(chart)
            ),
            *(
                KeyView(
                    symbol=stitch_charts.letter_symbol(letter),
                    name="behind a number"
                    + (" or beside a stitch" if colours is not None and colours.changes else ""),
                    words=f"worked in {colour}",
                )
                for letter, colour in ({} if colours is None else colours.words).items()
            ),
        ),
        drawn=words + svg.partition("</title>")[2],
    )


def _letters(chart: StitchChart, colours: RowColours | None) -> Letters:
    """The letters of the rows by number, and of each stitch of a row that changes within."""
    if colours is None:
        return stitch_charts.NO_LETTERS
    beside = {
        row.number: tuple(
            colours.letter_at(row.number, one.at) if one.what in stitch_charts.OF_YARN else ""
            for one in row.placed.stitches
        )
        for row in chart.rows
        if row.number in colours.changes
    }
    return Letters(colours.letters, beside)


def _key(ready: ReadyPattern, one: Placed) -> KeyView:
    terms = ready.pattern.terms
    shown = in_terms(one.name, terms)
    shown = "new yarn" if one.what == "new yarn" else shown
    return KeyView(symbol=stitch_charts.symbol(one), name=shown, words=_in_full(one, shown, terms))


def _in_full(one: Placed, shown: str, terms: Terms) -> str:
    if one.closed is not None:
        return _CLOSED[one.closed.style]
    if one.name in _OWN:
        return _OWN[one.name]
    meaning = wording.meaning(one.name, terms)
    words = meaning if meaning and meaning != shown else in_terms(kind_of(one.name).base, terms)
    return words if one.reach is None else f"{words}, worked rows below, where its stem begins"


def _caption(chart: StitchChart, names: tuple[str, ...]) -> str:
    """What is drawn, from the chart itself, and how it is read; ``names``: of all sizes."""
    word = "Row" if chart.shape == "rows" else "Rnd"
    numbers = [row.number for row in chart.rows]
    shown = f"{word}s {numbers[0]} to {numbers[-1]}{_in_sizes(chart, names)}"
    if chart.multiple is None:
        if chart.shape == "oval":
            shown += ", around both sides of the starting chain"
        return f"{shown}, {_read_around(chart)}{_other_sizes(chart)}"
    over = f"a short starting chain of {chart.chains}"
    multiple = f"a {figures.multiple(*chart.multiple)}"
    if chart.shape == "rows":
        return (
            f"{shown}, over {over}: {multiple}. Read each row from its number, upwards from the "
            "chain."
        )
    way = "every round from right to left, if you are right-handed"
    if any(row.turned for row in chart.rows):
        way = "each round from its number"
    return (
        f"{shown}, opened out into rows, over {over}, joined: {multiple}. The right end of each "
        f"round meets its left end. Read {way}, upwards from the chain.{_again(chart)}"
    )


def _in_sizes(chart: StitchChart, names: tuple[str, ...]) -> str:
    if chart.sizes:
        of = joined([names[at] for at in chart.sizes])
        return f", in size{'s' if len(chart.sizes) > 1 else ''} {of}"
    return ", the same in every size" if len(names) > 1 else ""


def _read_around(chart: StitchChart) -> str:
    """From which side rounds are seen, and which way around each is read."""
    if any(row.turned for row in chart.rows[:-1]):
        return (
            "seen from the side that faces you in the first of them. Read each round from its "
            "number, the first anticlockwise if you are right-handed, and behind each turn the "
            "other way around."
        )
    return (
        "seen from the right side. Read each round anticlockwise from its number, if you are "
        "right-handed."
    )


def _other_sizes(chart: StitchChart) -> str:
    if not chart.sizes:
        return ""
    return (
        " The other sizes have other numbers of stitches, or of rounds: the rows below tell them."
    )


def _again(chart: StitchChart) -> str:
    """What is to be known where a round ends in the place that it began in."""
    rounds = (once_around(row.placed) or () for row in chart.rows)
    comes_back = any(
        foot >= len(row.below)
        for row, stitches in zip((one.placed for one in chart.rows), rounds, strict=True)
        for one in stitches
        for foot in one.feet
    )
    return (
        " A stitch beyond the end of the round below stands in the first place of that round again."
        if comes_back
        else ""
    )
