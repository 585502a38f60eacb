"""Patterns found by a word."""

from __future__ import annotations

from tests.browser.demo import Visit


def test_a_pattern_is_found_by_a_stitch_in_other_terms(visit: Visit) -> None:
    """The mitts are in US terms; a maker from the UK looks for a treble."""
    visit.page.set_viewport_size({"width": 1280, "height": 800})
    visit.page.goto("index.html", wait_until="networkidle")
    field = visit.page.locator(".md-search__input")
    field.click()
    field.press_sequentially("treble", delay=30)
    found = visit.page.locator(".md-search-result__link").first
    found.wait_for()
    assert "patterns/" in (found.get_attribute("href") or "")
