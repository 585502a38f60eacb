"""Rows as they are worked: ticked, found again, and never ticked for another text."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.demo import MITTS, Visit
from tests.browser.looking import SHIFTS, faults
from tests.browser.serving import served
from tests.publish.project import Project, new_project

ROWS = ".we-rows > li"
TICKS = ".we-tick"
HERE = ".we-here"
KEY = "we:rows:sandhopper-mitts"
FIRST = "row-mitt.cuff-1"
#: What may be chosen, by the contract of the page's parts, on a page that does not say it.
SIZES = """document.addEventListener("readystatechange", () => {
  if (document.querySelector("meta[name=we-pattern]")) return;
  const told = {name: "we-pattern", content: JSON.stringify({sizes: ["S", "M", "L"]})};
  document.head.append(Object.assign(document.createElement("meta"), told));
});"""


@pytest.fixture
def phone(visit: Visit) -> Iterator[Page]:
    """The mitts on a phone; nothing that the browser complains about is let pass."""
    visit.page.set_viewport_size({"width": 360, "height": 740})
    visit.page.goto(MITTS)
    yield visit.page
    assert visit.complaints == []


def stored(page: Page, key: str = KEY) -> Any:  # noqa: ANN401, whatever lies there
    """What is kept in the browser."""
    return json.loads(page.evaluate("key => localStorage.getItem(key) ?? 'null'", key))


def ticked(page: Page) -> list[int]:
    """The places of the rows that are ticked."""
    boxes = page.locator(TICKS)
    return [at for at in range(boxes.count()) if boxes.nth(at).is_checked()]


def choose(page: Page, size: int | None) -> None:
    """What the page does when she has chosen a size, by the contract of its parts."""
    page.evaluate(
        """size => {
          if (size === null) delete document.documentElement.dataset.size;
          else document.documentElement.dataset.size = size;
          document.dispatchEvent(new CustomEvent("we:change", {detail: {size}}));
        }""",
        size,
    )


def test_a_row_is_ticked_by_a_tap_anywhere(phone: Page) -> None:
    """On its words as on its box, and a second tap takes the tick away."""
    phone.locator(".we-words").nth(1).click(position={"x": 3, "y": 5})
    phone.locator(TICKS).nth(2).click()
    assert ticked(phone) == [1, 2]
    phone.locator(".we-words").nth(1).click(position={"x": 3, "y": 5})
    assert ticked(phone) == [2]


def test_a_row_is_ticked_by_keyboard(phone: Page) -> None:
    """It is a box with a name, which is the row's."""
    cuff = phone.get_by_role("region", name="Cuff")
    box = cuff.get_by_role("checkbox", name="Worked: Rnd 1")
    box.focus()
    phone.keyboard.press("Space")
    assert ticked(phone) == [1]
    expect(box).to_be_focused()


def test_a_box_has_room_for_a_thumb(phone: Page) -> None:
    """At least 44 px in both directions (WCAG 2.2, 2.5.5, level AAA)."""
    boxes = [one.bounding_box() for one in phone.locator(TICKS).all()]
    small = [box for box in boxes if not box or min(box["width"], box["height"]) < 44]
    assert (len(boxes), small) == (12, [])


def test_a_link_in_a_row_ticks_nothing(phone: Page) -> None:
    """It leads where it leads."""
    phone.locator(".we-no").nth(1).click()
    assert ticked(phone) == []
    assert phone.url.endswith("#row-mitt.cuff-2")


def test_words_can_be_marked_without_a_tick(phone: Page) -> None:
    """To be copied."""
    phone.locator(".we-words").nth(1).click(click_count=3)
    phone.evaluate("localStorage.clear()")
    phone.reload()
    words = phone.locator(".we-words").nth(1).bounding_box()
    assert words
    phone.mouse.move(words["x"] + 2, words["y"] + 8)
    phone.mouse.down()
    phone.mouse.move(words["x"] + 120, words["y"] + 8)
    phone.mouse.up()
    assert phone.evaluate("getSelection().toString().length") > 0
    assert ticked(phone) == []


def test_where_she_was_is_there_next_week(phone: Page) -> None:
    """Her ticks, the row to go on at, and the way to it from the top of the page."""
    for at in (0, 1, 2):
        phone.locator(TICKS).nth(at).check()
    phone.goto(MITTS)
    assert ticked(phone) == [0, 1, 2]
    expect(phone.locator(HERE)).to_contain_text("3 of 12 lines ticked. Go on at Mitt, Rnds 3–23")
    go = phone.get_by_role("link", name="Go on: Mitt, Rnds 3–23")
    assert go.evaluate("one => one.getBoundingClientRect().bottom + scrollY") < 740
    go.click()
    expect(phone.locator("[aria-current=step]")).to_be_in_viewport()
    assert phone.evaluate("location.hash") == "#row-mitt.cuff-4"


def goes_on(page: Page) -> str:
    """Where the link near the top leads, "" where there is none."""
    links = page.locator(".we-go a").locator("visible=true")
    return (links.first.get_attribute("href") or "") if links.count() else ""


def test_she_goes_on_in_the_part_where_she_was_last(phone: Page) -> None:
    """Not in the one that stands further down: who makes the thumb first goes on with the mitt."""
    assert goes_on(phone) == ""
    for at in (8, 9, 0, 1):
        phone.locator(TICKS).nth(at).check()
    phone.reload()
    assert goes_on(phone) == "#row-mitt.cuff-3"
    phone.locator(TICKS).nth(9).uncheck()
    phone.locator(TICKS).nth(9).check()
    assert goes_on(phone) == "#row-thumb.thumb-3"
    phone.locator(TICKS).nth(10).check()
    assert goes_on(phone) == "#row-thumb.thumb-4"


def test_behind_the_end_she_goes_on_before_it(phone: Page) -> None:
    """What is left open is found, and where nothing is there is no link."""
    boxes = phone.locator(TICKS)
    for at in reversed(range(boxes.count())):
        if at != 4:
            boxes.nth(at).check()
    last = boxes.nth(boxes.count() - 1)
    last.uncheck()
    last.check()
    assert goes_on(phone) == "#" + (phone.locator(ROWS).nth(4).get_attribute("id") or "")
    boxes.nth(4).check()
    assert goes_on(phone) == ""


def test_a_corrected_row_keeps_her_place(phone: Page) -> None:
    """Her only tick of the thumb was of a text that is no more; she goes on there all the same."""
    phone.locator(TICKS).nth(0).check()
    kept = stored(phone)
    kept["row-thumb.thumb-1"] = {"text": "old.", "done": True, "count": 0}
    phone.evaluate("([key, kept]) => localStorage.setItem(key, kept)", [KEY, json.dumps(kept)])
    phone.reload()
    assert ticked(phone) == [0]
    assert goes_on(phone) == "#row-thumb.thumb-1"


def test_the_way_back_is_at_a_desk_too(visit: Visit) -> None:
    """Seen without scrolling, as on a phone."""
    visit.page.set_viewport_size({"width": 1280, "height": 800})
    visit.page.goto(MITTS)
    visit.page.locator(TICKS).first.check()
    visit.page.reload()
    assert goes_on(visit.page) == "#row-mitt.cuff-2"
    there = "one => one.getBoundingClientRect().bottom + scrollY"
    assert visit.page.locator(".we-go a").evaluate(there) < 800


def test_what_is_kept_is_stored_by_the_contract(phone: Page) -> None:
    """By the row's anchor: the text that was ticked, whether it was, its counter."""
    phone.locator(TICKS).first.check()
    text = phone.locator(ROWS).first.evaluate("row => row.weText")
    assert stored(phone) == {FIRST: {"text": text, "done": True, "count": 0}}
    phone.locator(TICKS).first.uncheck()
    assert stored(phone) == {}


def test_two_windows_agree(phone: Page) -> None:
    """A tick in one is seen in the other, and neither takes the other's away."""
    other = phone.context.new_page()
    other.goto(MITTS)
    other.locator(TICKS).nth(1).check()
    expect(phone.locator(TICKS).nth(1)).to_be_checked()
    phone.locator(TICKS).nth(2).check()
    assert sorted(stored(other)) == ["row-mitt.cuff-2", "row-mitt.cuff-3"]


def test_rows_that_are_repeated_are_counted(phone: Page) -> None:
    """The cuff has 21 (22, 23) rounds more; the counter is kept, and never below 0."""
    cuff = phone.locator(".we-counter").first
    more, less = (
        cuff.get_by_role("button", name="one more"),
        cuff.get_by_role("button", name="less"),
    )
    for press in (less, more, more, more, less):
        press.click()
    phone.reload()
    assert cuff.locator("output").inner_text() == "2 worked"
    assert stored(phone)["row-mitt.cuff-4"]["count"] == 2
    assert ticked(phone) == []
    expect(phone.locator(HERE)).to_contain_text("Go on at Mitt, Rnds 3–23")


def test_the_last_of_her_rows_ticks_the_line(phone: Page) -> None:
    """And taking it back unticks it; where no size is chosen no row is the last."""
    choose(phone, 1)
    cuff = phone.locator(ROWS).nth(3)
    more = cuff.get_by_role("button", name="one more")
    for _ in range(22):
        assert ticked(phone) == []
        more.click()
    assert cuff.locator("output").inner_text() == "22 of 22 worked"
    assert ticked(phone) == [3]
    more.click()
    assert ticked(phone) == [3]
    less = cuff.get_by_role("button", name="less")
    less.click()
    assert ticked(phone) == [3]
    less.click()
    assert ticked(phone) == []
    choose(phone, None)
    for _ in range(3):
        more.click()
    assert ticked(phone) == []


def test_the_buttons_of_a_counter_stay_under_the_thumb(phone: Page) -> None:
    """From 0 to 22, at 360 and at 320 px: pressed many times without a look."""
    choose(phone, 1)
    cuff = phone.locator(ROWS).nth(3)
    more = cuff.get_by_role("button", name="one more")
    for width in (360, 320):
        phone.set_viewport_size({"width": width, "height": 740})
        more.scroll_into_view_if_needed()
        places = set()
        for _ in range(12):
            box = more.bounding_box()
            assert box
            places.add((round(box["x"]), round(box["y"])))
            more.click()
        assert len(places) == 1


def test_a_counter_is_of_her_size(phone: Page) -> None:
    """By the page's attribute and its event."""
    choose(phone, 1)
    output = phone.locator(".we-counter output").first
    expect(output).to_have_text("0 of 22 worked")
    choose(phone, None)
    expect(output).to_have_text("0 worked")


def test_a_row_is_asked_about(phone: Page) -> None:
    """With pattern, version, piece, row and size: what she has before her."""
    phone.add_init_script(SIZES)
    phone.reload()
    choose(phone, 2)
    ask = phone.get_by_role("link", name="Ask about Rnd 2").first
    expect(ask).to_have_attribute("href", re.compile("size=L"))
    assert parse_qs(urlsplit(ask.get_attribute("href") or "").query) == {
        "about": ["Sandhopper Mitts"],
        "version": ["1.0"],
        "piece": ["Mitt"],
        "row": ["Rnd 2"],
        "size": ["L"],
    }


def test_a_line_without_a_number_is_asked_about_by_its_section(phone: Page) -> None:
    """Several begin a part."""
    href = phone.locator(".we-ask").first.get_attribute("href") or ""
    assert parse_qs(urlsplit(href).query)["row"] == ["Cuff, Start"]


def test_a_piece_made_twice_is_unticked_at_once(phone: Page) -> None:
    """Its own rows alone; and a slip of the thumb is put right by a second press."""
    again = phone.locator("[data-we-again]").first
    expect(again).to_be_disabled()
    for at in (0, 1, 11):
        phone.locator(TICKS).nth(at).check()
    again.click()
    assert ticked(phone) == [11]
    assert again.inner_text() == "Put the ticks back"
    again.click()
    assert ticked(phone) == [0, 1, 11]
    assert again.inner_text() == "Untick Mitt"
    again.click()
    phone.locator(TICKS).nth(2).check()
    assert again.inner_text() == "Untick Mitt"
    assert ticked(phone) == [2, 11]


def test_a_tick_follows_its_row_to_another_place(phone: Page) -> None:
    """In the piece; and what stands in the old place says that it is another row now."""
    fans = phone.locator(ROWS).nth(7)
    old = {"text": fans.evaluate("row => row.weText"), "done": True, "count": 0}
    phone.evaluate(
        "([key, kept]) => localStorage.setItem(key, kept)", [KEY, json.dumps({FIRST: old})]
    )
    phone.reload()
    assert ticked(phone) == [7]
    assert phone.locator(ROWS).first.locator(".we-changed").count() == 1
    fans.locator(TICKS).uncheck()
    phone.reload()
    assert ticked(phone) == []


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Project:
    """A studio of its own, whose patterns can be corrected."""
    return new_project(tmp_path_factory.mktemp("studio"))


def test_a_corrected_row_loses_its_tick_and_says_so(browser: Browser, studio: Project) -> None:
    """In a new version a round is put in before the last of the cuff, and the thumb is longer."""
    studio.build()
    ticks = [1, 2, 3, 11]
    with served(studio.site) as address:
        page = browser.new_page(base_url=address)
        page.goto("patterns/sandhopper-mitts/")
        for at in ticks:
            page.locator(TICKS).nth(at).check()
        studio.edit(
            "          rep last rnd until piece measures {to_thumb}",
            "          ch 1, hdc in each st around, join with sl st to first hdc\n"
            "          ch 1, sc in each st around, join with sl st to first sc\n"
            "          rep last rnd until piece measures {to_thumb}",
        )
        studio.edit("thumb_length: 3 (3, 3.5) cm", "thumb_length: 4 (4, 4.5) cm")
        studio.build()
        page.reload()
        assert page.locator(ROWS).count() == 14
        assert ticked(page) == [1, 2]
        told = page.locator(ROWS, has=page.locator(".we-changed"))
        lost = [one.get_attribute("id") for one in told.all()]
        assert lost == ["row-mitt.cuff-4", "row-thumb.thumb-4"]
        expect(page.locator(HERE)).to_contain_text(
            "New or corrected since you ticked it: Mitt, Rnd 3"
        )
        page.locator(TICKS).nth(3).check()
        page.reload()
        assert page.locator(".we-changed").count() == 1
        page.close()


FORBIDDEN = """Object.defineProperty(window, "localStorage", {
  get() { throw new DOMException("denied", "SecurityError"); }
});"""
FULL = """Storage.prototype.setItem = () => {
  throw new DOMException("full", "QuotaExceededError");
};"""


@pytest.mark.parametrize(("without", "theme"), [(FORBIDDEN, ["denied"]), (FULL, [])])
def test_a_browser_that_keeps_nothing_is_told_of(
    visit: Visit, without: str, theme: list[str]
) -> None:
    """All works but the memory, and the page says so; a script of the theme's own complains."""
    visit.page.add_init_script(without)
    visit.page.goto(MITTS)
    for at in (0, 2):
        visit.page.locator(TICKS).nth(at).check()
    visit.page.locator(".we-counter").first.get_by_role("button", name="one more").click()
    visit.page.get_by_role("button", name="Larger text").click()
    assert ticked(visit.page) == [0, 2]
    assert visit.page.locator(".we-counter output").first.inner_text().startswith("1 ")
    expect(visit.page.locator(HERE)).to_contain_text("This browser keeps nothing for this page")
    assert visit.complaints == theme


@pytest.mark.parametrize(
    "kept",
    [
        "{",
        "[]",
        "3",
        '"row"',
        '{"row-mitt.cuff-1": 3, "row-mitt.cuff-2": null, "row-x": {}}',
        '{"row-mitt.cuff-1": {"text": 3, "done": true}}',
        '{"__proto__": {"text": "abcd", "done": true, "count": 1}}',
        '{"row-mitt.cuff-1": {"text": "TEXT", "done": "yes", "count": "many"}}',
        '{"row-mitt.cuff-1": {"text": "TEXT", "done": 1, "count": -7}}',
    ],
)
def test_what_is_no_tick_counts_as_none(phone: Page, kept: str) -> None:
    """Storage is anybody's of the host; what has another shape is passed over."""
    text = phone.locator(ROWS).first.evaluate("row => row.weText")
    phone.evaluate(
        "([key, kept]) => localStorage.setItem(key, kept)", [KEY, kept.replace("TEXT", text)]
    )
    phone.reload()
    assert (ticked(phone), phone.locator(".we-changed").count()) == ([], 0)
    phone.locator(TICKS).nth(1).check()
    assert ticked(phone) == [1]


def test_ticks_of_a_former_name_go_over_where_there_are_none(
    browser: Browser, studio: Project
) -> None:
    """And never over those that she has made under the new one."""
    studio.edit("\nlevel: Easy", "\nformerly: [fan-mitts, sand-mitts]\nlevel: Easy")
    studio.build()
    with served(studio.site) as address:
        page = browser.new_page(base_url=address)
        page.goto("patterns/sandhopper-mitts/")
        page.locator(TICKS).nth(2).check()
        page.evaluate(
            """key => {
              localStorage.setItem("we:rows:sand-mitts", localStorage.getItem(key));
              localStorage.removeItem(key);
            }""",
            KEY,
        )
        page.reload()
        assert ticked(page) == [2]
        page.locator(TICKS).nth(2).uncheck()
        page.reload()
        assert ticked(page) == []
        page.close()


def test_a_working_page_is_for_everybody(browser: Browser, site: str) -> None:
    """With ticks, a correction, a counter, a word explained: as the pages that nobody has begun."""
    context = browser.new_context(base_url=site)
    context.add_init_script(SHIFTS)
    visit = Visit(context.new_page())
    found = []
    for width in (320, 1280):
        visit.page.set_viewport_size({"width": width, "height": 800})
        visit.page.goto(MITTS)
        for at in (0, 1):
            visit.page.locator(TICKS).nth(at).check()
        visit.page.locator(".we-counter").first.get_by_role("button", name="one more").click()
        visit.page.evaluate(
            """key => {
              const kept = JSON.parse(localStorage.getItem(key));
              kept["row-mitt.cuff-1"].text = "old.";
              localStorage.setItem(key, JSON.stringify(kept));
            }""",
            KEY,
        )
        visit.page.goto(f"{MITTS}?again")
        visit.page.locator(".we-words abbr").nth(2).click()
        assert visit.page.locator(".we-changed").count() == 1
        found += [f"{width} px: {one}" for one in faults(visit.page, width)]
    context.close()
    assert "\n".join(found + visit.complaints) == ""


def test_a_place_in_the_video_is_a_plain_link(phone: Page) -> None:
    """With its time, and nothing of another host in the page."""
    film = phone.locator("section[aria-labelledby='part-mitt-hand'] .we-film")
    assert (film.inner_text(), film.get_attribute("href")) == (
        "Video at 11:05",
        "https://video.example/sandhopper?t=665",
    )
    assert phone.locator("iframe, video, embed, object").count() == 0


def test_paper_shows_no_ticks(phone: Page) -> None:
    """And its own size of text: who works from paper ticks there."""
    phone.locator(TICKS).first.check()
    for _ in range(4):
        phone.get_by_role("button", name="Larger text").click()
    phone.emulate_media(media="print")
    shown = (".we-tick", ".we-counter", ".we-ask", ".we-work", ".we-again", ".we-go")
    assert [one for one in shown if phone.locator(one).locator("visible=true").count()] == []
    style = "one => [getComputedStyle(one).color, parseFloat(getComputedStyle(one).fontSize)]"
    done, open_ = (phone.locator(".we-words").nth(at).evaluate(style) for at in (0, 1))
    assert done == open_
    assert done[1] < 16


@pytest.mark.parametrize("title", ["כפפה ימנית " * 6, "指無し手袋" * 14, "Mitt" * 30])
def test_a_title_in_any_script_keeps_its_place(
    browser: Browser, tmp_path: Path, title: str
) -> None:
    """From the right, without spaces, or very long: nothing is wider than a small phone."""
    project = new_project(tmp_path)
    for one in project.folder.glob("patterns/*/pattern.yaml"):
        if one.parent.name != "sandhopper-mitts":
            shutil.rmtree(one.parent)
    project.edit("title: Mitt\n", f"title: {title.strip()}\n")
    project.build()
    with served(project.site) as address:
        page = browser.new_page(base_url=address, viewport={"width": 320, "height": 740})
        page.goto("patterns/sandhopper-mitts/")
        page.locator(TICKS).first.check()
        expect(page.locator(HERE)).to_contain_text(f"Go on at {title.strip()}, Rnd 1")
        href = page.locator(".we-ask").first.get_attribute("href") or ""
        assert parse_qs(urlsplit(href).query)["piece"] == [title.strip()]
        assert page.evaluate("document.documentElement.scrollWidth") == 320
        page.close()
