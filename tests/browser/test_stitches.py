"""Stitch charts on a page: a key in her terms, a box of their own to scroll in."""

from __future__ import annotations

from playwright.sync_api import Browser, expect

from tests.browser.demo import TEE, Visit


def test_the_key_speaks_her_terms(visit: Visit) -> None:
    """A dc of the US is a tr of the UK."""
    visit.page.goto(f"{TEE}?terms=uk")
    key = visit.page.locator(".we-key").first
    expect(key).to_contain_text("tr: treble")
    expect(key).not_to_contain_text("double crochet")


def test_a_chart_scrolls_in_its_own_box(visit: Visit) -> None:
    """On a small phone the page stays as wide as the screen; the box can be reached by keys."""
    visit.page.set_viewport_size({"width": 320, "height": 700})
    visit.page.goto(TEE)
    box = visit.page.locator(".we-chart-box").first
    assert box.evaluate("one => one.scrollWidth > one.clientWidth && one.tabIndex === 0")
    assert visit.page.evaluate("document.documentElement.scrollWidth") == 320


def test_a_chart_shows_where_it_begins(visit: Visit) -> None:
    """At its right side, where the first row does; one that has room stands at the left."""
    number = visit.page.locator(".we-stitches text").filter(has_text="1").first
    box = visit.page.locator(".we-chart-box").first
    visit.page.set_viewport_size({"width": 320, "height": 700})
    visit.page.goto(TEE)
    seen = (
        "([one, box]) => one.getBoundingClientRect().right <= box.getBoundingClientRect().right + 1"
    )
    assert number.evaluate(f"one => ({seen})([one, one.closest('.we-chart-box')])")
    visit.page.set_viewport_size({"width": 1280, "height": 800})
    svg = box.locator("svg").bounding_box()
    around = box.bounding_box()
    assert svg
    assert around
    assert abs(svg["x"] - around["x"]) < 1


def test_paper_has_pictures_for_paper(browser: Browser, site: str) -> None:
    """A drawing of its own colours is light there, though the screen is dark."""
    context = browser.new_context(base_url=site, color_scheme="dark")
    page = context.new_page()
    page.goto(TEE)
    page.emulate_media(media="print")
    scheme = page.locator(".we-cover img").evaluate("one => getComputedStyle(one).colorScheme")
    context.close()
    assert scheme == "light only"


def test_a_chart_that_is_the_same_is_drawn_once(visit: Visit) -> None:
    """The half front of the tee is worked as its back is, and sends there."""
    visit.page.goto(TEE)
    link = visit.page.get_by_text("Its stitch chart is that of").get_by_role("link")
    expect(link).to_have_text("Back")
    expect(visit.page.locator(".we-stitches")).to_have_count(1)
