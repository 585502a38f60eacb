"""The stitch chart of a piece, with its key.

Takes     ``ReadyPattern``, a ``ProvenPiece`` and the multiple of its starting chain.
Gives     ``StitchChartView``: ``stitch_chart_view``.
Problems  none.
From      DEVELOPERS.md, "Stitch charts".
"""

from __future__ import annotations

from markupsafe import Markup

from workeven.notation import wording
from workeven.notation.vocabulary import in_terms, kind_of
from workeven.pipeline import ReadyPattern
from workeven.proof import ProvenPiece, StitchChart, stitch_chart
from workeven.publish.drawings import stitch_charts
from workeven.publish.pages import figures
from workeven.records import record


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
    ready: ReadyPattern, proven: ProvenPiece, multiple: tuple[int, int] | None
) -> StitchChartView | None:
    """The chart of a piece, None where it has none."""
    chart = stitch_chart(ready.proven.graded, proven, multiple)
    if chart is None:
        return None
    title = f"{proven.piece.title}: stitch chart"
    words = _caption(chart, len(ready.pattern.sizes))
    desc = "The rows below the chart say the same in words."
    svg = stitch_charts.drawing(chart, name=title, words=desc)
    return StitchChartView(
        svg=svg,
        title=title,
        words=words,
        key=(
            *(_key(ready, name) for name in stitch_charts.names_in(chart)),
            *(
                KeyView(
                    symbol=stitch_charts.loop_symbol(loop),
                    name="under a stitch",
                    words=f"in the {loop} loop only",
                )
                for loop in stitch_charts.loops_in(chart)
            ),
        ),
        drawn=words + svg.partition("</title>")[2],
    )


def _key(ready: ReadyPattern, name: str) -> KeyView:
    terms = ready.pattern.terms
    return KeyView(
        symbol=stitch_charts.symbol(name),
        name=in_terms(name, terms),
        words=_in_full(name, in_terms(name, terms), wording.meaning(name, terms)),
    )


def _in_full(name: str, shown: str, meaning: str | None) -> str:
    if name == "ch":
        return "chain"
    return meaning if meaning and meaning != shown else kind_of(name).base


def _caption(chart: StitchChart, sizes: int) -> str:
    """What is drawn, from the chart itself, and how it is read."""
    word = "Row" if chart.multiple is not None else "Rnd"
    numbers = [row.number for row in chart.rows]
    alike = ", the same in every size" if sizes > 1 else ""
    shown = f"{word}s {numbers[0]} to {numbers[-1]}{alike}"
    if chart.multiple is None:
        return (
            f"{shown}, seen from the right side. Read each round anticlockwise from its number, "
            "if you are right-handed."
        )
    return (
        f"{shown}, over a short starting chain of {chart.chains}: a "
        f"{figures.multiple(*chart.multiple)}. Read each row from its number, upwards from the "
        "chain."
    )
