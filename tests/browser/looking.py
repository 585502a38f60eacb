"""What is looked for on any page at any width: rules of accessibility, layout, room for a thumb.

The rules are axe-core's for WCAG 2.2, levels A and AA (deque, "Rule descriptions"); layout shift is
measured as browsers do (W3C, "Layout Instability"), at most 0.1 (web.dev, "CLS").
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import files

from playwright.sync_api import Page

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
