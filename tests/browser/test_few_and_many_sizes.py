"""One size and twenty-four: choosing, which size, and tables on the smallest phone."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.demo import MITTS as MITTS_PAGE
from tests.browser.looking import SHIFTS, faults
from tests.browser.serving import served
from tests.publish.project import MITTS
from tests.support.sites import MANY, stretched

SEAL = "patterns/haulout-pup/index.html"
#: Whether the first column stays where it is when a wide table is moved along.
STAYS = """table => {
  const frame = table.closest(".we-scroll"), first = table.querySelector("tbody th");
  const before = first.getBoundingClientRect().left;
  frame.scrollLeft = 60;
  return [frame.scrollLeft > 0, Math.round(first.getBoundingClientRect().left - before)];
}"""
#: What tables that are seen have another number of lines than one.
LINES = """() => [...document.querySelectorAll(".we-sized")]
  .filter(table => table.checkVisibility())
  .map(table => [...table.tBodies[0].rows]
    .filter(one => getComputedStyle(one).display !== "none").length)
  .filter(lines => lines !== 1)"""


@pytest.fixture(scope="module")
def many(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """The mitts in 24 sizes, on a phone of 320 px."""
    project = stretched(tmp_path_factory.mktemp("many"))
    with served(project.site) as address:
        context = browser.new_context(base_url=address, viewport={"width": 320, "height": 640})
        context.add_init_script(SHIFTS)
        yield context.new_page()
        context.close()


def test_one_of_many_sizes_stands_alone(many: Page) -> None:
    """All are offered; the tables have a line for hers, and the page holds at 320 px."""
    many.goto(f"patterns/{MITTS}/")
    sizes = many.locator("[data-we-choose] [name=size]")
    assert sizes.locator("option").count() == MANY + 1
    sizes.select_option(label="17")
    assert "size=17" in many.url
    assert many.evaluate(LINES) == []
    many.reload()
    expect(sizes).to_have_value("16")
    assert many.evaluate(LINES) == []
    assert "\n".join(faults(many, 320)) == ""


def test_the_size_stays_beside_its_figures(many: Page) -> None:
    """The first column of a table that is moved along does not move."""
    many.goto(f"patterns/{MITTS}/")
    many.locator("[data-we-choose] [name=size]").select_option("")
    tables = many.locator(".we-scroll .we-table").filter(visible=True)
    moved = [one for one in (table.evaluate(STAYS) for table in tables.all()) if one[0]]
    assert moved
    assert {by for _, by in moved} == {0}


def test_many_sizes_are_told_apart_by_a_body(many: Page) -> None:
    """Sizes that are half a centimetre apart: 22 cm is the thirteenth, 22.2 between two."""
    many.goto(f"patterns/{MITTS}/")
    box = many.locator("[data-we-which]")
    box.locator("[name=measure]").fill("22")
    assert box.locator("li button").all_inner_texts() == ["Size 13"]
    box.locator("[name=measure]").fill("22.2")
    assert box.locator("li button").all_inner_texts() == ["Size 13", "Size 14"]
    box.locator("li button").last.click()
    assert "size=14" in many.url


def test_a_pattern_in_one_size_asks_for_none(browser: Browser, site: str) -> None:
    """Units and terms alone are asked for; a size in the address is told and left out."""
    page = browser.new_page(base_url=site, viewport={"width": 320, "height": 640})
    page.goto(f"{SEAL}?size=M&units=in")
    choices = page.locator("[data-we-choose] select").evaluate_all(
        "all => all.map(one => one.name)"
    )
    said = page.locator("[data-we-choose] [role=status]").inner_text()
    there = page.locator("[data-we-which]").count()
    url = page.url
    page.close()
    assert (choices, there) == (["units", "terms"], 0)
    assert "size “M”" in said
    assert "units=in" in url
    assert "size=" not in url


def test_a_pattern_in_three_sizes_asks_for_one(browser: Browser, site: str) -> None:
    """The same page part, where there is something to choose."""
    page = browser.new_page(base_url=site)
    page.goto(MITTS_PAGE)
    names = page.locator("[data-we-choose] select").evaluate_all("all => all.map(one => one.name)")
    page.close()
    assert names == ["size", "units", "terms"]
