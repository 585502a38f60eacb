"""What a page asks for, and what the browser complains about."""

from __future__ import annotations

import pytest

from tests.browser.demo import PAGES, Visit


@pytest.mark.parametrize("path", PAGES)
def test_pages_are_quiet(visit: Visit, site: str, path: str) -> None:
    """No request to any other host, nothing on the console."""
    visit.page.goto(path, wait_until="networkidle")
    assert [url for url in visit.asked if not url.startswith((site, "data:"))] == []
    assert visit.complaints == []
