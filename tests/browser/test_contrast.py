"""Text against its ground, in light and dark."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from tests.browser.demo import MITTS

#: Contrast of an element's text with the page's ground, by the formula of WCAG 2.2.
CONTRAST = """selector => {
  const rgb = colour => colour.match(/[\\d.]+/g).slice(0, 3).map(Number);
  const light = colour => {
    const [r, g, b] = rgb(colour).map(one => one / 255)
      .map(one => one <= 0.04045 ? one / 12.92 : ((one + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ink = light(getComputedStyle(document.querySelector(selector)).color);
  const ground = light(getComputedStyle(document.body).backgroundColor);
  return (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
}"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_text_stands_out_from_its_ground(browser: Browser, site: str, scheme: str) -> None:
    """Contrast of at least 4.5 to 1 (WCAG 2.2, 1.4.3) for each kind of text on a page."""
    context = browser.new_context(
        base_url=site, color_scheme="dark" if scheme == "dark" else "light"
    )
    page = context.new_page()
    page.goto(MITTS)
    kinds = (
        *("h1", ".we-byline", ".we-facts dt", ".we-no", ".we-count", ".we-words", ".we-into"),
        *("td span", "a"),
    )
    low = {kind: page.evaluate(CONTRAST, f".md-content {kind}") for kind in kinds}
    assert {kind: ratio for kind, ratio in low.items() if ratio < 4.5} == {}
    context.close()
