"""The place of a piece's stitch chart on its page.

Takes     nothing: records only.
Gives     ``ChartView``.
Problems  none.
From      design.md: templates do no arithmetic.
"""

from __future__ import annotations

from markupsafe import Markup

from workeven.publish.pages.views import Table
from workeven.records import record


@record
class ChartView:
    """A chart, the words under it, and the table that says what each symbol is."""

    svg: Markup
    words: str
    key: Table
