"""Every kind of page, light and dark, on a small phone, a phone and a desk.

What is looked for stands in ``looking.py``. One window goes through all of it: a page is loaded
once a width, and looked at in both schemes.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from tests.browser.demo import MITTS, Visit
from tests.browser.looking import SHIFTS, WIDTHS, faults

KINDS = (
    "index.html",
    "patterns/index.html",
    "patterns/index.html?body=bust&measure=92&in=cm",
    MITTS,
    f"{MITTS}?size=M",
    "patterns/wrackline-cardigan/index.html",
    "patterns/haulout-pup/index.html",
    "writing/a-pattern-file.html",
    "checks/index.html",
    "checks/row-uneven/index.html",
    "stitches/index.html",
    "tags/index.html",
    "changes/index.html",
    "studio/index.html",
    "404.html",
)


@pytest.fixture(scope="module")
def window(browser: Browser, site: str) -> Iterator[Visit]:
    """One window for all of them."""
    context = browser.new_context(base_url=site)
    context.add_init_script(SHIFTS)
    yield Visit(context.new_page())
    context.close()


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
