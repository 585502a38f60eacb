"""With a hook in the hand: larger text, a screen that stays on, and what short words mean."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.demo import MITTS, TEE, Visit

MEANING = ".we-meaning"
WORDS = ".we-words abbr"
AWAKE = "[data-we-awake]"
#: A browser that keeps the screen on, or refuses to; what it was asked for is noted.
SCREEN = """refuses => {
  window.asked = 0;
  const release = async () => { window.asked -= 1; };
  const request = async () => {
    if (refuses) throw Error("battery");
    window.asked += 1;
    return Object.assign(new EventTarget(), {release});
  };
  Object.defineProperty(navigator, "wakeLock", {value: {request}, configurable: true});
}"""


@pytest.fixture
def phone(visit: Visit) -> Iterator[Page]:
    """The mitts on a phone; nothing that the browser complains about is let pass."""
    visit.page.set_viewport_size({"width": 360, "height": 740})
    visit.page.goto(MITTS)
    yield visit.page
    assert visit.complaints == []


def size(page: Page) -> float:
    """How large the words of a row are, in px."""
    found: float = page.locator(".we-words").first.evaluate(
        "one => parseFloat(getComputedStyle(one).fontSize)"
    )
    return found


def test_text_is_larger_from_the_next_page_on(phone: Page) -> None:
    """Kept as how much larger, by the contract, for all patterns."""
    before = size(phone)
    for _ in range(2):
        phone.get_by_role("button", name="Larger text").click()
    assert size(phone) == pytest.approx(before * 1.5, rel=0.01)
    assert json.loads(phone.evaluate("localStorage.getItem('we:text')")) == 50
    phone.goto(TEE)
    assert size(phone) == pytest.approx(before * 1.5, rel=0.01)
    assert phone.locator(".we-larger output").inner_text() == "150 %"


def test_text_is_at_most_twice_as_large_and_never_smaller(phone: Page) -> None:
    """And at its largest nothing is wider than the smallest phone."""
    before = size(phone)
    phone.get_by_role("button", name="Smaller text").click()
    assert size(phone) == before
    for _ in range(6):
        phone.get_by_role("button", name="Larger text").click()
    assert size(phone) == pytest.approx(before * 2, rel=0.01)
    phone.set_viewport_size({"width": 320, "height": 740})
    assert phone.evaluate("document.documentElement.scrollWidth") == 320


@pytest.mark.parametrize("kept", ["-50", "5000", '"50"', "[50]", "{", "null"])
def test_what_is_no_size_of_text_is_passed_over(phone: Page, kept: str) -> None:
    """As it was built."""
    before = size(phone)
    phone.evaluate("kept => localStorage.setItem('we:text', kept)", kept)
    phone.reload()
    assert size(phone) == before


def screen(browser: Browser, site: str, *, refuses: bool) -> Page:
    """The mitts in a browser of that kind."""
    page = browser.new_page(base_url=site)
    page.add_init_script(f"({SCREEN})({json.dumps(refuses)})")
    page.goto(MITTS)
    return page


def test_the_screen_is_kept_on_until_she_says(browser: Browser, site: str) -> None:
    """Asked for again when the page is seen again, since a browser lets go of it then."""
    page = screen(browser, site, refuses=False)
    page.locator(AWAKE).click()
    expect(page.locator(AWAKE)).to_have_attribute("aria-pressed", "true")
    page.evaluate("window.asked = 0; document.dispatchEvent(new Event('visibilitychange'))")
    page.wait_for_function("window.asked === 1")
    page.locator(AWAKE).click()
    expect(page.locator(AWAKE)).to_have_attribute("aria-pressed", "false")
    page.wait_for_function("window.asked === 0")
    page.close()


def test_a_browser_that_refuses_is_believed(browser: Browser, site: str) -> None:
    """The button does not say what is not so."""
    page = screen(browser, site, refuses=True)
    page.locator(AWAKE).click()
    expect(page.locator(AWAKE)).to_have_attribute("aria-pressed", "false")
    page.close()


def test_a_browser_without_a_lock_shows_no_button(browser: Browser, site: str) -> None:
    """All else works."""
    page = browser.new_page(base_url=site)
    page.add_init_script("Object.defineProperty(navigator, 'wakeLock', {value: undefined})")
    page.goto(MITTS)
    assert not page.locator(AWAKE).is_visible()
    assert page.get_by_role("button", name="Larger text").is_visible()
    page.close()


def test_a_short_word_is_explained_on_a_tap(phone: Page) -> None:
    """Within the screen, without a tick, and gone at the next tap elsewhere."""
    for word in (phone.locator(WORDS).nth(1), phone.locator(WORDS).nth(6)):
        word.click()
        expect(phone.locator(MEANING)).to_be_visible()
        box = phone.locator(MEANING).bounding_box()
        assert box
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 360
    phone.locator(WORDS, has_text="sc").first.click()
    expect(phone.locator(MEANING)).to_have_text("sc: single crochet")
    phone.locator("h2").first.click()
    expect(phone.locator(MEANING)).not_to_be_visible()
    assert phone.locator(".we-tick:checked").count() == 0


@pytest.mark.parametrize(
    ("path", "word", "said"),
    [
        ("patterns/whelkstow-basket/index.html", "inc", "inc: increase: two stitches in one"),
        (MITTS, "beg", "beg: beginning"),
    ],
)
def test_a_short_word_that_is_no_stitch_is_explained(
    phone: Page, path: str, word: str, said: str
) -> None:
    """By the same tap; only those that stand in every row are left to the list."""
    phone.goto(path)
    phone.locator(WORDS).get_by_text(word, exact=True).first.click()
    expect(phone.locator(MEANING)).to_have_text(said)


def test_what_a_word_means_goes_on_a_tap(phone: Page) -> None:
    """It lies over the next line; a thumb on it takes it away, and ticks nothing."""
    phone.locator(WORDS).first.click()
    phone.locator(MEANING).click()
    expect(phone.locator(MEANING)).to_be_hidden()
    expect(phone.locator(".we-tick:checked")).to_have_count(0)


def test_a_short_word_is_explained_on_focus(phone: Page) -> None:
    """By keys alone: the first of each in a part is reached, and Escape shuts what it says."""
    phone.locator(".we-no").nth(1).focus()
    phone.keyboard.press("Tab")
    expect(phone.locator(MEANING)).to_have_text("sc: single crochet")
    focused = phone.locator(":focus")
    assert focused.get_attribute("aria-describedby") == "we-meaning"
    phone.keyboard.press("Escape")
    expect(phone.locator(MEANING)).not_to_be_visible()
    phone.keyboard.press("Enter")
    expect(phone.locator(MEANING)).to_be_visible()
    phone.keyboard.press("Tab")
    expect(focused).not_to_have_text("sc")


def test_keys_stop_once_at_each_word_of_a_part(phone: Page) -> None:
    """The cuff has two: slip stitch and single crochet."""
    cuff = phone.locator("section[aria-labelledby='part-mitt-cuff']")
    assert cuff.locator("abbr[tabindex='0']").all_inner_texts() == ["sl st", "sc"]


def test_without_script_the_list_is_linked(browser: Browser, site: str) -> None:
    """And what needs script is not there."""
    context = browser.new_context(base_url=site, java_script_enabled=False)
    page = context.new_page()
    page.goto(MITTS)
    page.get_by_role("link", name="list of abbreviations").click()
    assert page.url.endswith("#abbreviations")
    hidden = (".we-work", ".we-tick", ".we-counter", "[data-we-again]")
    assert [one for one in hidden if page.locator(one).locator("visible=true").count()] == []
    context.close()


def test_a_browser_in_which_nothing_pops_up_shows_the_list(browser: Browser, site: str) -> None:
    """A tap leads there."""
    page = browser.new_page(base_url=site, viewport={"width": 360, "height": 740})
    page.add_init_script("delete HTMLElement.prototype.showPopover")
    page.goto(MITTS)
    page.locator(WORDS).first.click()
    expect(page.locator("#abbreviations")).to_be_in_viewport()
    page.close()
