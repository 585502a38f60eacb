"""What a page tells other programs is what a maker reads on it; and the site as one of them."""

from __future__ import annotations

import json
import re

import pytest

from tests.browser.demo import MITTS, TEE, Visit


def words(text: str) -> str:
    """A text without the breaks of its lines."""
    return " ".join(text.split())


@pytest.mark.parametrize("path", [MITTS, TEE])
def test_structured_data_mirrors_what_is_seen(visit: Visit, path: str) -> None:
    """The words of each step stand on the page, and its link leads to them."""
    visit.page.goto(path)
    data = json.loads(visit.page.locator("script[type='application/ld+json']").inner_text())
    told = [step for part in data["step"] for step in part["itemListElement"]]
    rows = [step for step in told if step.get("url", "").startswith("#row-")]
    seen = {
        step["url"]: words(visit.page.locator(f"[id='{step['url'][1:]}'] .we-words").inner_text())
        for step in rows
    }
    assert rows
    assert {step["url"]: step["text"] for step in rows} == seen
    page = words(visit.page.locator(".we-pattern").inner_text())
    named = [one["name"] for one in (*data["supply"], *data["tool"], *data["step"])]
    texts = [words(step["text"]) for step in told]
    assert [one for one in (data["name"], *named, *texts) if one not in page] == []


def test_the_manifest_is_found_and_right(visit: Visit) -> None:
    """By Chromium's own reading of it, with both icons of the sizes that are named."""
    visit.page.goto(MITTS)
    session = visit.page.context.new_cdp_session(visit.page)
    found = session.send("Page.getAppManifest")
    assert found["errors"] == []
    manifest = json.loads(found["data"])
    assert manifest["name"] == "Tidewrack Studio"
    root = found["url"].rpartition("/")[0]
    for icon in manifest["icons"]:
        size = visit.page.evaluate(
            """async address => {
              const image = new Image();
              image.src = address;
              await image.decode();
              return `${image.naturalWidth}x${image.naturalHeight}`;
            }""",
            f"{root}/{icon['src']}",
        )
        assert size == icon["sizes"]
    start = visit.page.request.get(f"{root}/{manifest['start_url']}")
    assert re.search(r"<h1[^>]*>Patterns</h1>", start.text())
