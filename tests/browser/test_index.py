"""The collection: old addresses, stitches and abbreviations."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.demo import Visit
from tests.browser.serving import served
from tests.publish.project import new_project


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
