"""A page on paper."""

from __future__ import annotations

import pytest

from tests.browser.demo import MITTS, Visit


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_page_prints(visit: Visit, paper: str) -> None:
    """Only the pattern is on paper: no menu, no search, nothing to press."""
    visit.page.goto(MITTS)
    visit.page.emulate_media(media="print")
    hidden = (".md-header", ".md-footer", ".md-sidebar", ".we-jump", ".we-neighbours")
    assert [one for one in hidden if visit.page.locator(one).first.is_visible()] == []
    assert len(visit.page.pdf(format=paper)) > 10_000
