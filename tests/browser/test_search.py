"""Patterns found by a word."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.demo import Visit


@pytest.mark.parametrize("word", ["treble", "single crochet", "dc2tog", "tee"])
def test_a_pattern_is_found_by_a_word_of_either_vocabulary(visit: Visit, word: str) -> None:
    """All are in US terms; a maker from the UK looks for a treble, or a decrease by its UK name."""
    visit.page.set_viewport_size({"width": 1280, "height": 800})
    visit.page.goto("index.html", wait_until="networkidle")
    field = visit.page.locator(".md-search__input")
    field.click()
    field.press_sequentially(word, delay=30)
    found = visit.page.locator(".md-search-result__link").first
    expect(found).to_have_attribute("href", re.compile("patterns/"))


@pytest.mark.parametrize("word", ["picot", "miss", "sk", "trtr", "magic ring", "shell"])
def test_words_of_rows_lead_to_their_meaning(built: Path, word: str) -> None:
    """What search knows of the page of stitches: words and signs too, and those of UK terms."""
    index = json.loads((built / "search" / "search_index.json").read_text("utf-8"))
    (found,) = [one["text"] for one in index["docs"] if one["location"] == "stitches/index.html"]
    assert word in re.split(", |: ", found)


def test_search_is_not_flooded(built: Path) -> None:
    """A pattern is one entry, without its rows, of at most 1 kB."""
    index = json.loads((built / "search" / "search_index.json").read_text("utf-8"))
    for folder in (built / "patterns").iterdir():
        if folder.is_dir():
            found = [one for one in index["docs"] if f"patterns/{folder.name}/" in one["location"]]
            size = len(json.dumps(found).encode())
            assert (len(found), size <= 1024) == (1, True), f"{folder.name}: {size}"
            assert "turn" not in found[0]["text"].split()
