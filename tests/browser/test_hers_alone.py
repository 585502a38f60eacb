"""Her size alone: where one is chosen, nothing that is seen or read out is of another."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser

CHECKOUT = Path(__file__).parents[2]
PATTERNS = sorted(path.parent.name for path in CHECKOUT.glob("patterns/*/pattern.yaml"))

#: Controls that list the sizes, and what tells whose bodies a published table is of.
LISTS = ".we-choose, .we-which, .we-mine, [aria-labelledby=sizes] > .we-small"
#: Every text, name and description of what is seen, with where it stands.
TOLD = """lists => [...document.querySelectorAll(".we-pattern *")]
  .filter(one => !one.closest(lists))
  .filter(one => (one.closest("svg") ?? one).checkVisibility({visibilityProperty: true}))
  .flatMap(one => [
    ...["title", "aria-label", "aria-description", "alt"].map(name => one.getAttribute(name)),
    ...[...one.childNodes].filter(node => node.nodeType === 3).map(node => node.textContent),
  ].filter(words => words?.trim()).map(words => `${one.localName}: ${words.trim()}`))"""
#: Figures of all sizes in trade notation: 60 (66, 72).
LISTED = re.compile(r"[\d–] ?\([\d–½¼¾. ]+(?:, [\d–½¼¾. ]+)+\)")


@pytest.mark.parametrize("pattern", PATTERNS)
def test_no_other_size_is_named_where_one_is_chosen(
    browser: Browser, site: str, pattern: str
) -> None:
    """No name of another, no list of figures; in texts, titles of drawings, names of controls."""
    page = browser.new_page(base_url=site)
    page.goto(f"patterns/{pattern}/index.html")
    sizes = json.loads(page.locator("meta[name=we-pattern]").get_attribute("content") or "")[
        "sizes"
    ]
    found = []
    for at, size in enumerate(sizes) if len(sizes) > 1 else ():
        page.locator("[data-we-choose] [name=size]").select_option(str(at))
        page.wait_for_timeout(50)
        others = "|".join(re.escape(one) for one in sizes if one != size)
        named = re.compile(rf"(?<![\w-])(?:{others})(?![\w-])")
        told = page.evaluate(TOLD, LISTS)
        assert len(told) > 100
        found += [f"{size}: {one}" for one in told if named.search(one) or LISTED.search(one)]
    page.close()
    assert [
        one for one in found if not one.startswith("5X: span: Upper arm in 5X is our own")
    ] == []
