"""The demo site in Chromium: what a maker sees on a phone and at a desk."""

from __future__ import annotations

import shutil
import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from playwright.sync_api import Browser, Page, sync_playwright

CHECKOUT = Path(__file__).parents[2]
CHROMIUM = next(
    (
        found
        for name in ("chromium", "chromium-browser", "google-chrome")
        if (found := shutil.which(name))
    ),
    None,
)
#: Nothing but the pages may ask the network for anything.
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
MITTS = "patterns/sandhopper-mitts/index.html"
TEE = "patterns/groynemark-tee/index.html"
PAGES = ("index.html", "patterns/index.html", MITTS, TEE, "writing/your-first-pattern.html")

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed")


class Quiet(SimpleHTTPRequestHandler):
    """A file server that says nothing."""

    def log_message(self, *_words: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the demo site, built with the demo studio's own look."""
    folder = tmp_path_factory.mktemp("demo") / "site"
    config = load_config(str(CHECKOUT / "mkdocs.yml"), site_dir=str(folder), strict=True)
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Chromium without a window, with a profile of its own."""
    with sync_playwright() as started:
        running = started.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        yield running
        running.close()


class Visit:
    """A page opened at a width, with what the browser asked for and complained about."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.asked: list[str] = []
        self.complaints: list[str] = []
        page.on("request", lambda request: self.asked.append(request.url))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on(
            "console",
            lambda told: self.complaints.append(told.text) if told.type == "error" else None,
        )


@pytest.fixture
def visit(browser: Browser, site: str) -> Iterator[Visit]:
    """A fresh window."""
    context = browser.new_context(base_url=site)
    yield Visit(context.new_page())
    context.close()


@pytest.mark.parametrize("path", PAGES)
def test_pages_are_quiet(visit: Visit, site: str, path: str) -> None:
    """No request to any other host, nothing on the console."""
    visit.page.goto(path, wait_until="networkidle")
    assert [url for url in visit.asked if not url.startswith((site, "data:"))] == []
    assert visit.complaints == []


@pytest.mark.parametrize("width", [320, 360, 1280])
@pytest.mark.parametrize("path", PAGES)
def test_no_page_scrolls_sideways(visit: Visit, path: str, width: int) -> None:
    """Wide tables scroll by themselves, the page does not."""
    visit.page.set_viewport_size({"width": width, "height": 800})
    visit.page.goto(path)
    assert visit.page.evaluate("document.documentElement.scrollWidth") == width


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


def test_a_row_says_which_stitches_it_is_worked_into(visit: Visit) -> None:
    """The mitts' fans stand on a third of the stitches: 33 = 11 + 22, by hand."""
    visit.page.set_viewport_size({"width": 360, "height": 800})
    visit.page.goto(MITTS)
    line = visit.page.locator(".we-into", has_text="11 (13, 14) sc")
    assert line.inner_text() == "Worked into 11 (13, 14) sc; 22 (26, 28) sc passed over."


def test_a_page_is_whole_without_script(browser: Browser, site: str) -> None:
    """Every row and every count is there, and what needs script is not."""
    context = browser.new_context(base_url=site, java_script_enabled=False)
    page = context.new_page()
    page.goto(MITTS)
    rows = page.locator(".we-rows > li")
    assert rows.count() == 12
    assert rows.nth(1).is_visible()
    assert rows.nth(1).locator(".we-count").inner_text() == "33 (39, 42) sts"
    assert not page.locator(".md-search").is_visible()
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_text_stands_out_from_its_ground(browser: Browser, site: str, scheme: str) -> None:
    """Contrast of at least 4.5 to 1 (WCAG 2.2, 1.4.3) for each kind of text on a page."""
    context = browser.new_context(
        base_url=site, color_scheme="dark" if scheme == "dark" else "light"
    )
    page = context.new_page()
    page.goto(MITTS)
    kinds = (
        *("h1", ".we-byline", ".we-facts dt", ".we-no", ".we-count", ".we-words", ".we-into"),
        *("td span", "a"),
    )
    low = {kind: page.evaluate(CONTRAST, f".md-content {kind}") for kind in kinds}
    assert {kind: ratio for kind, ratio in low.items() if ratio < 4.5} == {}
    context.close()


#: Contrast of an element's text with the page's ground, by the formula of WCAG 2.2.
CONTRAST = """selector => {
  const rgb = colour => colour.match(/[\\d.]+/g).slice(0, 3).map(Number);
  const light = colour => {
    const [r, g, b] = rgb(colour).map(one => one / 255)
      .map(one => one <= 0.04045 ? one / 12.92 : ((one + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ink = light(getComputedStyle(document.querySelector(selector)).color);
  const ground = light(getComputedStyle(document.body).backgroundColor);
  return (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
}"""


def test_a_row_can_be_linked(visit: Visit) -> None:
    """The number of a row is its own link, and what is linked is in view."""
    visit.page.goto(TEE)
    link = visit.page.locator(".we-no").last
    link.click()
    row = visit.page.locator(".we-rows > li:target")
    assert row.count() == 1
    assert row.locator(".we-no").is_visible()


def test_a_pattern_is_found_by_a_stitch_in_other_terms(visit: Visit) -> None:
    """The mitts are in US terms; a maker from the UK looks for a treble."""
    visit.page.set_viewport_size({"width": 1280, "height": 800})
    visit.page.goto("index.html", wait_until="networkidle")
    field = visit.page.locator(".md-search__input")
    field.click()
    field.press_sequentially("treble", delay=30)
    found = visit.page.locator(".md-search-result__link").first
    found.wait_for()
    assert "patterns/" in (found.get_attribute("href") or "")


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_page_prints(visit: Visit, paper: str) -> None:
    """Only the pattern is on paper: no menu, no search, nothing to press."""
    visit.page.goto(MITTS)
    visit.page.emulate_media(media="print")
    hidden = (".md-header", ".md-footer", ".md-sidebar", ".we-jump", ".we-neighbours")
    assert [one for one in hidden if visit.page.locator(one).first.is_visible()] == []
    assert len(visit.page.pdf(format=paper)) > 10_000
