"""A page where script is off."""

from __future__ import annotations

from playwright.sync_api import Browser

from tests.browser.demo import MITTS


def test_a_page_is_whole_without_script(browser: Browser, site: str) -> None:
    """Every row and every count is there, and what needs script is not."""
    context = browser.new_context(base_url=site, java_script_enabled=False)
    page = context.new_page()
    page.goto(MITTS)
    rows = page.locator(".we-rows > li")
    assert rows.count() == 12
    assert rows.nth(1).is_visible()
    assert rows.nth(1).locator(".we-count").inner_text() == "33 (39, 42) sts"
    assert not page.locator(".md-search").is_visible()
    context.close()
