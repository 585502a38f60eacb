"""The frame around a page, by keys alone on a narrow screen: menu, search, and nothing hidden."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.demo import MITTS, Visit

GUIDE = "writing/a-pattern-file.html"
FOCUSED = """() => {
  const one = document.activeElement, box = one.getBoundingClientRect();
  const seen = one.checkVisibility({visibilityProperty: true}) && box.width > 0 && box.height > 0
    && box.right > 0 && box.left < innerWidth && box.bottom > 0 && box.top < innerHeight;
  return [one === document.body, seen, one.outerHTML.slice(0, 60)];
}"""


@pytest.fixture
def narrow(visit: Visit) -> Page:
    """A phone, or a desk at 400 % (WCAG 2.2, 1.4.10)."""
    visit.page.set_viewport_size({"width": 320, "height": 800})
    return visit.page


def test_the_menu_opens_and_shuts_by_keys(narrow: Page) -> None:
    """And says whether it is open; the place of the hook is found again."""
    narrow.goto(GUIDE)
    button = narrow.get_by_role("button", name="Menu")
    entry = narrow.locator(".md-sidebar--primary").get_by_role("link", name="Sizes and lengths")
    expect(button).to_have_attribute("aria-expanded", "false")
    expect(entry).not_to_be_visible()
    button.press("Enter")
    expect(button).to_have_attribute("aria-expanded", "true")
    expect(entry).to_be_visible()
    narrow.keyboard.press("Escape")
    expect(button).to_be_focused()
    expect(entry).not_to_be_visible()
    button.press("Enter")
    entry.press("Enter")
    expect(narrow).to_have_title("Sizes and lengths - Tidewrack Studio")


def test_search_works_by_keys(narrow: Page) -> None:
    """Opened, asked, and an answer followed."""
    narrow.goto(GUIDE, wait_until="networkidle")
    narrow.get_by_role("button", name="Search").press("Space")
    expect(narrow.locator(".md-search__input")).to_be_focused()
    narrow.keyboard.type("sandhopper", delay=30)
    found = narrow.locator(".md-search-result__link").first
    expect(found).to_have_attribute("href", re.compile("sandhopper-mitts"))
    narrow.wait_for_timeout(500)  # answers are drawn anew for each letter: a key goes to the last
    found.press("Enter")
    narrow.wait_for_url("**/sandhopper-mitts/**")


@pytest.mark.parametrize("path", [MITTS, GUIDE])
@pytest.mark.parametrize("width", [320, 1280])
def test_what_has_the_focus_can_be_seen(visit: Visit, path: str, width: int) -> None:
    """Every stop of the Tab key, from the top of the page to its end (WCAG 2.2, 2.4.7, 2.4.11)."""
    visit.page.set_viewport_size({"width": width, "height": 800})
    visit.page.goto(path, wait_until="networkidle")
    unseen, at_end, stops = [], False, 0
    while not at_end and stops < 400:
        visit.page.keyboard.press("Tab")
        at_end, seen, words = visit.page.evaluate(FOCUSED)
        stops += 1
        unseen += [words] * (not at_end and not seen)
    assert stops > 10
    assert unseen == []


def test_a_wrong_address_leads_on(visit: Visit) -> None:
    """The page says what happened, and links what the studio's own menu has."""
    visit.page.goto("404.html")
    words = visit.page.locator("article")
    expect(words.get_by_role("heading")).to_have_text("There is no page here")
    links = words.get_by_role("link")
    assert links.all_inner_texts() == ["Home", "Patterns", "Writing patterns"]
    links.nth(1).click()
    expect(visit.page.get_by_role("heading", level=1)).to_have_text("Patterns")
