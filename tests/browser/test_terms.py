"""UK terms throughout: in rows, in what a word means, in notes and articles."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.demo import MITTS, TEE, Visit

PATTERNS = sorted(
    path.parent.name for path in (Path(__file__).parents[2] / "patterns").glob("*/pattern.yaml")
)
#: Every text, title and name that is seen or read out, but for the table that has both terms.
TOLD = """() => [...document.querySelectorAll(".we-pattern *")]
  .filter(one => !one.closest("[aria-labelledby=abbreviations], .we-choose"))
  .filter(one => (one.closest("svg") ?? one).checkVisibility({visibilityProperty: true}))
  .flatMap(one => [
    one.title, one.ariaLabel,
    ...[...one.childNodes].filter(node => node.nodeType === 3).map(node => node.textContent),
  ].filter(words => words?.trim()))"""
#: No word of UK terms: single and half double crochet, "sk" and "skip", by the table of terms that
#: the package cites (``standards/terms.csv``); "gauge", which is tension there (common practice).
AMERICAN = re.compile(
    r"\b(?:\d?sc(?:\d?tog)?|hdc|sk|skip|half double|single crochet|gauge)\b", re.IGNORECASE
)


@pytest.mark.parametrize("pattern", PATTERNS)
def test_no_american_word_is_left_in_uk_terms(visit: Visit, pattern: str) -> None:
    """The patterns of the demo are written in US terms; none of its words is left."""
    visit.page.goto(f"patterns/{pattern}/index.html")
    assert any(map(AMERICAN.search, visit.page.evaluate(TOLD)))
    visit.page.goto(f"patterns/{pattern}/index.html?terms=uk")
    assert [one for one in visit.page.evaluate(TOLD) if AMERICAN.search(one)] == []


def test_a_stitch_of_the_pattern_is_explained_in_her_terms(visit: Visit) -> None:
    """A fan of three US double crochets is three trebles in the UK, and no double crochets."""
    visit.page.goto(f"{MITTS}?terms=uk")
    visit.page.locator(".we-words abbr", has_text="fan").first.click()
    expect(visit.page.locator("#we-meaning")).to_have_text("fan: 3 tr in same st")


@pytest.mark.parametrize(
    ("terms", "said"), [("us", "sk: skip"), ("uk", "miss: pass over without working")]
)
def test_passing_over_is_explained(visit: Visit, terms: str, said: str) -> None:
    """On a tap, as stitches are."""
    visit.page.goto(f"{MITTS}?terms={terms}")
    visit.page.locator(".we-words abbr", has_text=said.partition(":")[0]).first.click()
    expect(visit.page.locator("#we-meaning")).to_have_text(said)


def test_an_article_goes_with_its_word(visit: Visit) -> None:
    """A round of single crochet is one of double crochet there: "an sc", "a dc"; no vowel."""
    visit.page.goto(f"{MITTS}?terms=uk")
    note = visit.page.locator(".we-note").first
    expect(note).to_have_text("The beginning chain of a dc round does not count as a stitch.")


def test_what_is_called_the_same_stays(visit: Visit) -> None:
    """A slip stitch has one name and one abbreviation in both (``standards/terms.csv``)."""
    visit.page.goto(f"{MITTS}?terms=uk")
    words = visit.page.locator(".we-words").first
    expect(words).to_contain_text("join with sl st to first ch")


def test_a_gauge_is_a_tension_there(visit: Visit) -> None:
    """In headings, lists of them, sentences and what is reckoned; common practice."""
    visit.page.set_viewport_size({"width": 360, "height": 800})
    visit.page.goto(f"{TEE}?terms=uk")
    expect(visit.page.locator("#gauge")).to_have_text(re.compile("^Tension"))
    expect(visit.page.locator(".we-jump a[href='#gauge']")).to_have_text("Tension")
    side = visit.page.locator(".md-nav--secondary a[href='#gauge']").first
    assert (side.text_content() or "").strip() == "Tension"
    expect(visit.page.locator(".we-story")).to_contain_text("sixteen stitches at this tension")
    expect(visit.page.locator("#materials ~ ul").first).to_contain_text("that gives the tension")
    mine = visit.page.locator("[data-we-gauge]")
    mine.locator("input").first.fill("15")
    expect(mine.locator("caption")).to_have_text("My tension: what each size measures")
    visit.page.goto(f"{TEE}?terms=us")
    expect(visit.page.locator("#gauge")).to_have_text(re.compile("^Gauge"))


def test_cards_are_in_her_terms(visit: Visit) -> None:
    """As she chose on a page: what a card says of its stitches, whatever it is called."""
    summary = visit.page.locator(".we-cards li", has_text="open cardigan").locator("[data-we-in]")
    visit.page.goto("patterns/index.html")
    expect(summary).to_contain_text("in plain double crochet.")
    visit.page.goto(MITTS)
    visit.page.locator(".we-choose").get_by_label("Terms").select_option("uk")
    visit.page.goto("patterns/index.html")
    expect(summary).to_contain_text("in plain treble.")
    visit.page.evaluate("localStorage.clear()")
    visit.page.reload()
    expect(summary).to_contain_text("in plain double crochet.")
    assert visit.complaints == []
