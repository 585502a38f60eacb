"""The collection: old addresses, stitches and abbreviations, the list of patterns narrowed."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.demo import MITTS, Visit
from tests.browser.serving import served
from tests.publish.project import new_project

#: how many patterns the demo has
ALL = len(list((Path(__file__).parents[2] / "patterns").glob("*/pattern.yaml")))


@pytest.fixture(scope="module")
def renamed(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A site whose mitts had another name."""
    project = new_project(tmp_path_factory.mktemp("renamed"))
    project.edit("\nlevel: Easy", "\nformerly: [sand-mitts]\nlevel: Easy")
    project.build()
    with served(project.site) as address:
        yield address


def test_an_old_address_keeps_size_and_row(browser: Browser, renamed: str) -> None:
    """A bookmark leads to the same row, in the same size."""
    context = browser.new_context(base_url=renamed)
    visit = Visit(context.new_page())
    visit.page.goto("patterns/sand-mitts/?size=M#about")
    visit.page.wait_for_url("**/sandhopper-mitts/**")
    found = visit.page.url.removeprefix(renamed)
    context.close()
    assert (found.lstrip("/"), visit.complaints) == (
        "patterns/sandhopper-mitts/?size=M#about",
        [],
    )


def test_an_old_address_leads_on_without_script(browser: Browser, renamed: str) -> None:
    """By itself, as a browser does."""
    context = browser.new_context(base_url=renamed, java_script_enabled=False)
    page = context.new_page()
    page.goto("patterns/sand-mitts/")
    page.wait_for_url("**/sandhopper-mitts/")
    title = page.locator("h1").inner_text()
    context.close()
    assert title == "Sandhopper Mitts"


def test_a_stitch_is_explained_in_both_terms(visit: Visit) -> None:
    """A maker from the UK looks what a US double crochet is."""
    visit.page.goto("stitches/index.html#stitch-dc")
    words = visit.page.locator("#stitch-dc dt").inner_text()
    assert words.split() == "US dc, double crochet UK tr, treble".split()


def test_a_studio_may_have_its_own_page_of_stitches(tmp_path: Path) -> None:
    """Its own stands in the place of ours."""
    project = new_project(tmp_path)
    (project.folder / "guide" / "stitches.md").write_text("# Our stitches\n\nAs we like them.\n")
    project.build()
    assert "As we like them" in (project.site / "stitches" / "index.html").read_text("utf-8")


# --- the list narrowed ---------------------------------------------------------------------

INDEX = "patterns/index.html"
SHOWN = """[...document.querySelectorAll(".we-cards > li:not([hidden]) h2")].map(
  one => one.textContent.trim())"""


def shown(visit: Visit, query: str) -> list[str]:
    """The patterns that an address shows."""
    visit.page.goto(f"{INDEX}?{query}")
    found: list[str] = visit.page.evaluate(SHOWN)
    return found


@pytest.mark.parametrize(
    ("query", "patterns"),
    [
        ("kind=cardigan", ["Wrackline Cardigan"]),
        ("weight=fine", ["Sandhopper Mitts"]),
        ("hook=3.75", ["Sandhopper Mitts"]),
        ("for=baby", ["Ripplemark Blanket"]),
        ("body=hand&measure=21&in=cm", ["Sandhopper Mitts"]),
        ("body=hand&measure=8.25&in=in", ["Sandhopper Mitts"]),
        ("body=hand&measure=40&in=cm", []),
        ("kind=cardigan&weight=fine", []),
    ],
)
def test_an_address_narrows_the_list(visit: Visit, query: str, patterns: list[str]) -> None:
    """A link to "what I looked for" shows it again."""
    assert (shown(visit, query), visit.complaints) == (patterns, [])


def test_the_list_is_whole_without_script(browser: Browser, site: str) -> None:
    """Every pattern, and nothing to press that does nothing."""
    context = browser.new_context(base_url=site, java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{INDEX}?kind=cardigan")
    found = (page.locator(".we-cards > li").count(), page.locator("[data-we-filter]").is_visible())
    context.close()
    assert found == (ALL, False)


def test_filters_work_by_keys(visit: Visit) -> None:
    """Opened, a kind chosen by its first letters, and all shown again."""
    page = visit.page
    page.goto(INDEX)
    page.locator("[data-we-filter] summary").press("Enter")
    page.locator("[name=kind]").focus()
    page.keyboard.type("cardi")
    narrowed = (page.evaluate(SHOWN), page.url.rpartition("?")[2])
    said = page.locator("[data-we-found]").inner_text()
    page.locator("[data-we-filter] button").press("Enter")
    page.wait_for_function("location.search === ''")
    whole = len(page.evaluate(SHOWN))
    assert (narrowed, said, whole) == (
        (["Wrackline Cardigan"], "kind=cardigan"),
        f"1 of {ALL} patterns.",
        ALL,
    )


def test_the_yarn_in_hand_is_held_against_each_size(visit: Visit, built: Path) -> None:
    """What the data of a pattern gives for its second size is enough for two of three."""
    data = json.loads((built / "patterns" / "sandhopper-mitts" / "pattern.json").read_text("utf-8"))
    metres = data["yarn"]["main"]["m"][1]
    shown(visit, f"weight=fine&yarn={metres}&of=m")
    told = visit.page.locator("[data-we-fits]:visible").inner_text()
    assert told == "Enough yarn: S, M"


def test_a_size_goes_along_to_the_page(visit: Visit) -> None:
    """The link of a card asks for the size that fits."""
    shown(visit, "body=hand&measure=20&in=cm")
    link = visit.page.locator(".we-cards > li:visible h2 a")
    assert (link.get_attribute("href") or "").endswith("sandhopper-mitts/index.html?size=M")


def test_what_the_page_does_not_know_is_told_and_left_out(visit: Visit) -> None:
    """A kind that no pattern has any more; other names in the address stay."""
    found = shown(visit, "kind=kite&measure=wide&theme=x&level=Easy")
    said = visit.page.locator("[data-we-found]").inner_text()
    query = visit.page.url.rpartition("?")[2]
    assert (said.partition(".")[0], query) == (
        "Left out, because this page does not know it: kind, measure",
        "theme=x&level=Easy",
    )
    assert 0 < len(found) < ALL


def test_the_list_narrows_in_a_page_opened_as_a_file(browser: Browser, built: Path) -> None:
    """Without a server."""
    context = browser.new_context()
    visit = Visit(context.new_page())
    visit.page.goto(f"{(built / INDEX).as_uri()}?weight=fine")
    found = visit.page.evaluate(SHOWN)
    context.close()
    assert (found, visit.complaints) == (["Sandhopper Mitts"], [])


# --- the list of materials -----------------------------------------------------------------


def test_the_list_of_materials_is_printed_alone(visit: Visit) -> None:
    """By a key; what the sheet holds is the head and the materials, and afterwards all is back."""
    page = visit.page
    page.add_init_script("window.print = () => { window.asked = true; }")
    page.goto(MITTS)
    page.locator("[data-we-list]").press("Enter")
    page.emulate_media(media="print")
    seen = page.evaluate(
        """[...document.querySelectorAll(".we-pattern > *")].filter(one => one.checkVisibility())
          .map(one => one.getAttribute("aria-labelledby") ?? one.className)"""
    )
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert (page.evaluate("window.asked"), seen) == (True, ["we-head", "materials"])
    assert page.locator("#piece-mitt").is_visible()
