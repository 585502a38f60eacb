"""Every kind of page, light and dark, on a small phone, a phone and a desk.

The rules are axe-core's for WCAG 2.2, levels A and AA (deque, "Rule descriptions"); layout shift is
measured as browsers do (W3C, "Layout Instability"), at most 0.1 (web.dev, "CLS"). One window goes
through all of it: a page is loaded once a width, and looked at in both schemes.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import files

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.demo import MITTS, TEE, Visit

KINDS = (
    "index.html",
    "patterns/index.html",
    "patterns/index.html?body=bust&measure=92&in=cm",
    MITTS,
    f"{MITTS}?size=M",
    TEE,
    "patterns/wrackline-cardigan/index.html",
    "patterns/haulout-pup/index.html",
    "writing/a-pattern-file.html",
    "stitches/index.html",
    "404.html",
)
WIDTHS = (320, 360, 1280)
SCHEMES = ("light", "dark")
TAGS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa")
AXE = files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8")

#: What axe finds, as ``rule: element``.
BROKEN = """tags => {
  document.getAnimations().forEach(one => one.finish());
  const asked = {runOnly: tags, resultTypes: ["violations"]};
  return axe.run(asked).then(found => found.violations.flatMap(rule =>
    rule.nodes.map(one => `${rule.id}: ${one.target.join(" ")}`)));
}"""
#: Everything to press that is not a link within a sentence, smaller than 24 px in a direction.
SMALL = """() => [...document.querySelectorAll("a, button, input, select, summary, [role=button]")]
  .filter(one => one.checkVisibility({visibilityProperty: true, opacityProperty: true}))
  .filter(one => getComputedStyle(one).display !== "inline")
  .map(one => [one, one.getBoundingClientRect()])
  .filter(([, box]) => box.width > 1 && (box.width < 24 || box.height < 24))
  .map(([one, box]) =>
    `${one.outerHTML.replace(/\\s+/g, " ").slice(0, 80)} ${box.width} x ${box.height}`)"""
LOW_ROWS = """() => [...document.querySelectorAll(".we-rows > li")]
  .filter(one => one.checkVisibility() && one.getBoundingClientRect().height < 44)
  .map(one => one.id)"""
#: Noted from the first paint on.
SHIFTS = """window.shifted = 0;
new PerformanceObserver(list => list.getEntries().forEach(
  one => { if (!one.hadRecentInput) window.shifted += one.value; }
)).observe({type: "layout-shift", buffered: true});"""


@pytest.fixture(scope="module")
def window(browser: Browser, site: str) -> Iterator[Visit]:
    """One window for all of them."""
    context = browser.new_context(base_url=site)
    context.add_init_script(SHIFTS)
    yield Visit(context.new_page())
    context.close()


def faults(page: Page, width: int) -> Iterator[str]:
    """What is wrong with the page as it stands."""
    wide = page.evaluate("document.documentElement.scrollWidth")
    if wide > width:
        yield f"it scrolls sideways: {wide} px"
    shifted = page.evaluate("window.shifted")
    if shifted > 0.1:
        yield f"layout shifts by {shifted}"
    yield from (f"small to press: {one}" for one in page.evaluate(SMALL))
    yield from (f"a row lower than 44 px: {one}" for one in page.evaluate(LOW_ROWS))
    page.evaluate(AXE)
    for scheme in SCHEMES:
        page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
        yield from (f"{scheme}: {one}" for one in page.evaluate(BROKEN, list(TAGS)))


@pytest.mark.parametrize("path", KINDS)
def test_a_page_is_for_everybody(window: Visit, site: str, path: str) -> None:
    """No rule of WCAG broken, nothing that shifts, scrolls sideways or is too small to press."""
    found = []
    for width in WIDTHS:
        window.page.set_viewport_size({"width": width, "height": 800})
        window.page.goto(path, wait_until="load")
        found += [f"{width} px: {one}" for one in faults(window.page, width)]
    found += window.complaints + [
        url for url in window.asked if not url.startswith((site, "data:"))
    ]
    window.complaints.clear()
    assert "\n".join(found) == ""


def test_a_fault_would_be_seen(browser: Browser) -> None:
    """Of each kind, on a page made of nothing else."""
    context = browser.new_context(viewport={"width": 320, "height": 800})
    context.add_init_script(SHIFTS)
    page = context.new_page()
    page.goto("data:text/html,<div style='height:700px;background:tan'>later</div>")
    page.evaluate("""async () => {
      const paint = () => new Promise(done => requestAnimationFrame(() => setTimeout(done, 50)));
      await paint();
      document.body.insertAdjacentHTML("afterbegin", `<img src="data:,"
        style="display: block; width: 400px; height: 300px"><button style="height: 9px">x</button>
        <p style="color: #999; background: #fff">pale</p>
        <ol class="we-rows"><li id="low">low</ol>`);
      await paint();
    }""")
    found = "\n".join(faults(page, 320))
    context.close()
    kinds = ("sideways", "shifts", "small to press: <button", "lower than 44 px: low")
    assert [one for one in (*kinds, "image-alt", "color-contrast") if one not in found] == []
