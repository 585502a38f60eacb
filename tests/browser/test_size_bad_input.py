"""What is wrong in the address or in the browser: the page stays whole, and says so once."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.demo import MITTS, Visit
from tests.browser.test_size import CHOOSER, SAID, SEEN, SIZE

#: Storage that is forbidden, and storage that is full: as browsers throw.
FORBIDDEN = """Object.defineProperty(window, "localStorage", {
  get() { throw new DOMException("denied", "SecurityError"); }});"""
FULL = """Storage.prototype.setItem = () => {
  throw new DOMException("full", "QuotaExceededError"); };"""


@pytest.mark.parametrize(
    "query",
    [
        "size=XQ",
        "size=",
        "size=1",
        "size=m",
        "units=ft",
        "terms=fr",
        "size=%3Cimg+src%3Dx+onerror%3Dalert(1)%3E",
        "size=__proto__",
        f"size={'M' * 300}",
        "size=XQ&units=ft&terms=fr",
    ],
)
def test_what_the_page_does_not_have_is_told_once_and_taken_out(visit: Visit, query: str) -> None:
    """It counts for nothing, as text; other names and what is good stay."""
    page = visit.page
    page.goto(MITTS)
    built = page.evaluate(SEEN)
    page.goto(f"{MITTS}?from=letter&{query}#gauge")
    expect(page.locator(SAID)).to_contain_text("which this page does not have: it was left out.")
    assert page.url.endswith("index.html?from=letter#gauge")
    assert page.evaluate(SEEN) == built
    assert "img" not in page.locator(SAID).inner_html().replace("&lt;img", "")
    page.reload()
    expect(page.locator(SAID)).to_have_text(re.compile("^Choose once"))
    assert visit.complaints == []


def test_a_good_value_stays_beside_a_bad_one(visit: Visit) -> None:
    """Her size is shown, the unit is left out."""
    visit.page.goto(f"{MITTS}?size=M&units=ft")
    assert visit.page.url.endswith("?size=M")
    assert visit.page.locator(".we-count").nth(1).inner_text() == "39 sts"


@pytest.mark.parametrize(
    "kept", ["M", '"XQ"', "{", "1", "[]", '{"size": "M"}', "null", '"' + "M" * 4000 + '"']
)
def test_what_is_stored_in_another_shape_counts_as_none(visit: Visit, kept: str) -> None:
    """Whoever wrote it; only a name as JSON is one."""
    page = visit.page
    page.goto(MITTS)
    page.evaluate("kept => localStorage.setItem('we:size:sandhopper-mitts', kept)", kept)
    page.goto(MITTS)
    assert page.evaluate("document.documentElement.dataset.size") is None
    assert visit.complaints == []


@pytest.mark.parametrize("broken", [FORBIDDEN, FULL])
def test_a_browser_that_keeps_nothing_shows_her_size_all_the_same(
    browser: Browser, site: str, broken: str
) -> None:
    """And she is told that it will not be remembered."""
    context = browser.new_context(base_url=site)
    context.add_init_script(broken)
    visit = Visit(context.new_page())
    visit.page.goto(MITTS)
    visit.page.locator(SIZE).select_option(label="L")
    said = visit.page.locator(SAID).inner_text()
    count = visit.page.locator(".we-count").nth(1).inner_text()
    # the theme's own line in the head asks for storage without a guard
    complaints = [one for one in visit.complaints if one != "denied"]
    context.close()
    assert (count, complaints) == ("42 sts", [])
    assert said == "All numbers are those of size L. This browser will not remember it."


def test_a_page_from_a_file_has_its_size_too(browser: Browser, built: Path) -> None:
    """Opened without a server, with a name in the address and by the control."""
    page = browser.new_page()
    visit = Visit(page)
    page.goto(f"{(built / MITTS).as_uri()}?size=S&units=ft")
    assert page.locator(".we-count").nth(1).inner_text() == "33 sts"
    page.locator(SIZE).select_option(label="M")
    assert page.locator(".we-count").nth(1).inner_text() == "39 sts"
    page.close()
    assert visit.complaints == []


def test_without_script_all_sizes_are_there_and_no_control(browser: Browser, site: str) -> None:
    """In trade notation, whatever the address asks for."""
    context = browser.new_context(base_url=site, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{MITTS}?size=M")
    assert page.locator(".we-count").nth(1).inner_text() == "33 (39, 42) sts"
    assert not page.locator(CHOOSER).is_visible()
    assert not page.locator("[data-we-which]").is_visible()
    context.close()


def test_the_keyboard_alone_chooses(visit: Visit) -> None:
    """Tab to the control, a letter of the name, and back to all by the button."""
    page = visit.page
    page.goto(MITTS)
    page.locator(SIZE).focus()
    page.keyboard.type("L")
    expect(page.locator(SAID)).to_have_text("All numbers are those of size L.")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator(SAID)).to_have_text("Numbers are given for all sizes.")
