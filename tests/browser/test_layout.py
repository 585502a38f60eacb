"""Tables at the width of a phone."""

from __future__ import annotations

from tests.browser.demo import TEE, Visit


def test_a_table_that_scrolls_shows_that_it_does(visit: Visit) -> None:
    """On a phone a shade lies at the edge behind which there is more, and goes at the last column.

    The two shades stay where they are (``scroll``); what hides them at an end moves along with the
    table (``local``).
    """
    visit.page.set_viewport_size({"width": 360, "height": 800})
    visit.page.goto(TEE)
    wide = visit.page.locator(".we-scroll").nth(1)
    assert wide.evaluate("one => one.scrollWidth > one.clientWidth")
    shades = wide.evaluate("one => getComputedStyle(one).backgroundAttachment")
    assert shades == "local, local, scroll, scroll"
    images = wide.evaluate("one => getComputedStyle(one).backgroundImage")
    assert images.count("linear-gradient") == 4
