"""What stays in its place: pages as they open, tables at the width of a phone."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.demo import TEE, Visit
from tests.browser.looking import SHIFTS


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


#: The rows of the page with the texts that ticks are kept with.
ROWS = """() => [...document.querySelectorAll("[data-we-texts]")].flatMap(list => {
  const texts = list.dataset.weTexts.split(" ");
  return [...list.children].map((row, at) => [row.id, texts[at]]);
})"""
STORE = "kept => Object.entries(kept).forEach(([name, value]) => localStorage.setItem(name, value))"


@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("linked", [False, True], ids=["top", "row"])
@pytest.mark.parametrize("chosen", [False, True], ids=["all", "size"])
@pytest.mark.parametrize("ticked", [False, True], ids=["fresh", "ticked"])
def test_a_page_does_not_jump(
    browser: Browser, site: str, width: int, *, ticked: bool, chosen: bool, linked: bool
) -> None:
    """At most 0.1 (web.dev, "CLS") as it opens, also at a row's own link, with ticks kept before.

    Half of the rows are ticked, and one of them was corrected since, which is told above all rows.
    """
    context = browser.new_context(base_url=site, viewport={"width": width, "height": 800})
    page = context.new_page()
    page.goto(TEE)
    slug = TEE.split("/")[1]
    rows = page.evaluate(ROWS)
    kept = {row: {"text": text, "done": True} for row, text in rows[: len(rows) // 2]}
    kept[rows[1][0]]["text"] = "another"
    there = {f"we:rows:{slug}": json.dumps(kept)} if ticked else {}
    there |= {f"we:size:{slug}": '"M"'} if chosen else {}
    page.evaluate(STORE, there)
    page.close()
    page = context.new_page()
    page.add_init_script(SHIFTS)
    row = rows[len(rows) * 2 // 3][0]
    page.goto(TEE + (f"#{row}" if linked else ""))
    expect(page.locator(".we-here")).to_contain_text("ticked")
    page.wait_for_timeout(200)
    shifted = page.evaluate("window.shifted")
    seen = page.locator(f"[id='{row}']").evaluate("one => one.getBoundingClientRect().top")
    context.close()
    assert shifted <= 0.1
    assert (0 <= seen < 800) == linked
