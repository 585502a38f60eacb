"""Photographs in Chromium: twelve on one page, on a phone, at a desk, on paper."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.looking import SHIFTS, faults
from tests.browser.serving import served
from tests.publish.project import MITTS, Project
from tests.support.photographs import project, twelve_pictures

PAGE = f"patterns/{MITTS}/"
#: Which file each picture has come in, where it has.
LOADED = """() => [...document.querySelectorAll(".we-pattern img")]
  .map(one => one.complete && one.naturalWidth ? one.currentSrc.split("/").pop() : "")"""


@pytest.fixture(scope="module")
def twelve(tmp_path_factory: pytest.TempPathFactory) -> Project:
    """A site whose mitts have twelve pictures."""
    made = project(tmp_path_factory.mktemp("pictures"), twelve_pictures())
    made.build()
    return made


@pytest.fixture(scope="module")
def site_of_twelve(twelve: Project) -> Iterator[str]:
    """Its address."""
    with served(twelve.site) as address:
        yield address


@pytest.fixture
def window(browser: Browser, site_of_twelve: str) -> Iterator[Page]:
    """A fresh window on it."""
    context = browser.new_context(base_url=site_of_twelve)
    context.add_init_script(SHIFTS)
    yield context.new_page()
    context.close()


@pytest.mark.parametrize("width", [320, 1280])
@pytest.mark.parametrize("path", [PAGE, "patterns/"])
def test_a_page_with_pictures_is_as_good_as_any(window: Page, path: str, width: int) -> None:
    """Accessible, steady and no wider than the window."""
    window.set_viewport_size({"width": width, "height": 800})
    window.goto(path, wait_until="load")
    assert "\n".join(faults(window, width)) == ""


def test_the_first_picture_comes_at_once_and_those_far_below_do_not(window: Page) -> None:
    """In the width that the window asks for: a phone has the smaller file."""
    window.set_viewport_size({"width": 360, "height": 640})
    window.goto(PAGE, wait_until="load")
    loaded = window.evaluate(LOADED)
    assert (loaded[0], loaded[-1]) == ("first-jpg-640.webp", "")


def test_all_pictures_come_when_they_are_scrolled_to(window: Page) -> None:
    """None is broken, and the policy of the page lets each in."""
    window.goto(PAGE, wait_until="load")
    for one in window.locator(".we-pictures img").all():
        one.scroll_into_view_if_needed()
    window.wait_for_function("() => [...document.images].every(one => one.naturalWidth)")
    assert all(window.evaluate(LOADED))


def test_paper_has_the_first_picture_alone(window: Page) -> None:
    """The others would take a sheet."""
    window.goto(PAGE, wait_until="load")
    window.emulate_media(media="print")
    shown = window.locator(".we-pattern img").evaluate_all(
        "all => all.map(one => one.checkVisibility())"
    )
    assert shown == [True] + [False] * 11


def test_all_pictures_are_kept_offline(browser: Browser, twelve: Project) -> None:
    """Those that were never scrolled to, too, in the width that a phone shows."""
    with served(twelve.site) as address:
        context = browser.new_context(base_url=address, viewport={"width": 360, "height": 640})
        window = context.new_page()
        window.goto(f"{PAGE}index.html")
        window.locator("[data-we-offline] button").click()
        expect(window.locator("[data-we-offline] [role=status]")).to_contain_text("is kept")
    window.reload()
    expect(window.locator("[data-we-offline] [role=status]")).to_contain_text("No connection")
    for one in window.locator(".we-pictures img").all():
        one.scroll_into_view_if_needed()
    window.wait_for_function(
        "() => [...document.querySelectorAll('.we-pattern img')].every(one => one.complete)"
    )
    assert all(window.evaluate(LOADED))
    context.close()
