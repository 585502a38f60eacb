"""Patterns that stretch a page: many sizes, a title without an end, words from right to left."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.looking import SHIFTS, WIDTHS, faults
from tests.browser.serving import served
from tests.publish.project import MITTS
from tests.support.sites import MANY, stretched


@pytest.fixture(scope="module")
def odd(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """A window on the site of such a pattern."""
    project = stretched(tmp_path_factory.mktemp("odd"))
    with served(project.site) as address:
        context = browser.new_context(base_url=address)
        context.add_init_script(SHIFTS)
        yield context.new_page()
        context.close()


PLACES = (f"patterns/{MITTS}/", "patterns/", "tags/", "changes/", "studio/")
#: What is cut off at its side; the bar at the top repeats a title, and may end it with dots.
CUT = """() => [...document.querySelectorAll("body *")].filter(one =>
  one.checkVisibility({visibilityProperty: true}) && one.clientWidth > 5
  && /hidden|clip/.test(getComputedStyle(one).overflowX) && one.scrollWidth > one.clientWidth + 1
  && !one.closest("svg, .md-header, .md-sidebar, .md-search, button"))
  .map(one => `${one.tagName} ${one.className}: ${one.textContent.slice(0, 40)}`)"""


@pytest.mark.parametrize("path", PLACES)
def test_a_long_title_is_whole_on_the_smallest_phone(odd: Page, path: str) -> None:
    """It breaks within a word if need be; with her place in it, too."""
    odd.set_viewport_size({"width": 320, "height": 740})
    odd.goto(path)
    if path == PLACES[0]:
        odd.locator(".we-tick").first.check()
        odd.reload()
        assert odd.locator(".we-go a").is_visible()
    assert odd.evaluate("document.documentElement.scrollWidth") == 320
    assert odd.evaluate(CUT) == []


@pytest.mark.parametrize("path", [f"patterns/{MITTS}/", "patterns/"])
def test_a_stretched_page_holds(odd: Page, path: str) -> None:
    """On the smallest phone and at a desk it is as good as any other."""
    found = []
    for width in (min(WIDTHS), max(WIDTHS)):
        odd.set_viewport_size({"width": width, "height": 800})
        odd.goto(path, wait_until="load")
        found += [f"{width} px: {one}" for one in faults(odd, width)]
    assert "\n".join(found) == ""


def test_every_size_is_there(odd: Page) -> None:
    """In the table of the sizes, and in the rows."""
    odd.goto(f"patterns/{MITTS}/")
    sizes = odd.locator(".we-table").first.locator("tbody th").all_inner_texts()
    assert sizes == [str(at + 1) for at in range(MANY)]


def test_words_run_from_the_side_of_their_script(odd: Page) -> None:
    """Hebrew begins at the right, English at the left."""
    odd.set_viewport_size({"width": 1280, "height": 800})
    odd.goto(f"patterns/{MITTS}/")
    gaps = odd.locator(".we-steps > li").evaluate_all(
        """all => all.map(one => {
          const words = document.createRange(), box = one.getBoundingClientRect();
          words.selectNodeContents(one);
          const [line] = [...words.getClientRects()].slice(-1);
          return Math.round(line.left - box.left) < Math.round(box.right - line.right);
        })"""
    )
    assert gaps == [True, False]
