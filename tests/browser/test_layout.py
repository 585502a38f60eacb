"""What stays in its place: pages as they open, tables at the width of a phone."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.demo import MITTS, TEE, Visit
from tests.browser.looking import SHIFTS

PATTERNS = (Path(__file__).parents[2] / "patterns").glob("*/pattern.yaml")
#: Tables that are wider than their frame.
WIDE = """() => [...document.querySelectorAll(".we-scroll")]
  .filter(one => one.checkVisibility() && one.scrollWidth > one.clientWidth)
  .map(one => one.innerText.slice(0, 60))"""


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


@pytest.mark.parametrize("path", sorted(one.parent.name for one in PATTERNS))
def test_no_table_of_her_size_scrolls_on_the_smallest_phone(visit: Visit, path: str) -> None:
    """At 320 px, in both units: each head stands before its figure where there are many."""
    page = visit.page
    page.set_viewport_size({"width": 320, "height": 800})
    page.goto(f"patterns/{path}/index.html")
    sizes = page.locator("[data-we-choose] [name=size]")
    if sizes.count():
        sizes.select_option("0")
        assert page.locator(".we-sized").first.is_visible()
    assert page.evaluate(WIDE) == []


def test_a_wide_table_stands_upright_on_a_phone(visit: Visit) -> None:
    """The finished measurements of the tee in L: each on a line of its own, with its own head."""
    page = visit.page
    page.set_viewport_size({"width": 360, "height": 800})
    page.goto(f"{TEE}?size=L&units=cm")
    heads, cells = (
        page.locator(f"#finished {part} > *").evaluate_all(
            "all => all.filter(one => one.checkVisibility()).map(one => "
            "[Math.round(one.getBoundingClientRect().top), one.innerText])"
        )
        for part in ("thead tr", "tbody tr")
    )
    assert [top for top, _ in heads] == [top for top, _ in cells]
    told = [(head, cell) for (_, head), (_, cell) in zip(heads, cells, strict=True)]
    assert told[:2] == [("Size", "L"), ("Bust around", "120\u00a0cm")]


def test_a_word_that_follows_her_terms_looks_as_others_do(visit: Visit) -> None:
    """In the list of abbreviations, at a desk: neither paler nor set off as a second unit is."""
    page = visit.page
    page.set_viewport_size({"width": 1280, "height": 800})
    page.goto(MITTS)
    look = "one => [getComputedStyle(one).color, getComputedStyle(one).marginLeft]"
    cells = page.locator("[aria-labelledby=abbreviations] td")
    marked = cells.locator("[data-we-t]")
    assert marked.count()
    assert {tuple(one.evaluate(look)) for one in marked.all()} == {
        (cells.first.evaluate(look)[0], "0px")
    }


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
