"""The place of a stitch chart on the page."""

from __future__ import annotations

from markupsafe import Markup

from tests.publish.pages.test_pattern_page import view
from workeven.publish.pages.charts import ChartView
from workeven.publish.pages.render import pattern_html
from workeven.publish.pages.views import Table
from workeven.records import replace


def test_a_chart_stands_in_its_piece_with_its_key() -> None:
    """Before the rows; where there is none, nothing stands there."""
    key = Table(caption="Symbols", heads=("Symbol", "Stitch"), rows=(("+", (("sc",),)),))
    chart = ChartView(svg=Markup("<svg></svg>"), words="Rounds 1 to 4 of <Mitt>.", key=key)
    shown = view()
    piece = replace(shown.pieces[0], chart=chart)
    html = pattern_html(replace(shown, pieces=(piece, *shown.pieces[1:])), ())
    assert "<figcaption>Rounds 1 to 4 of &lt;Mitt&gt;.</figcaption>" in html
    assert html.index("we-chart") < html.index('<ol class="we-rows"')
    assert "we-chart" not in pattern_html(shown, ())
