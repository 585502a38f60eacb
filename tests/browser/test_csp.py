"""What a page may do: nothing off the site, no script but its own, and words that stay words."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.demo import MITTS, PAGES, Visit
from tests.browser.serving import served
from tests.publish.project import new_project

#: Text that would break out of an element, an attribute or a script; notes may have no braces.
PAYLOAD = (
    '</title></script></style>"><script>hit = 1</script><img src=x onerror="hit = 1">'
    "<style> &lt;b&gt; -->"
)
TITLE = f"{PAYLOAD} {{{{ 7 * 7 }}}}"
#: What the mitts say, and what they are made to say.
TEXTS = (
    ("title: Sandhopper Mitts", f"title: '{TITLE}'"),
    ("designers: [Perrin Saltlock]", f"designers: ['{PAYLOAD}']"),
    ("label: Sanderling Sport (invented)", f"label: '{PAYLOAD}'"),
    ("note: for the first stitch of the round", f"note: '{PAYLOAD}'"),
    ("note: Squeeze the water out in a towel.", f"note: '{PAYLOAD}'"),
    ("note: The beginning chain of an sc round", f"note: '{PAYLOAD}' #"),
    ("title: Cuff", f"title: '{PAYLOAD}'"),
    ("title: Mitt\n", f"title: '{PAYLOAD}'\n"),
    ("credit: Bram Saltway (an invented tester)", f"credit: '{PAYLOAD}'"),
    ("copyright: © 2026 Tidewrack Studio", f"copyright: '{PAYLOAD}' #"),
    ("- Weave in all ends.", f"- '{PAYLOAD}' #"),
)


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a site, one of whose patterns has markup in all its texts."""
    project = new_project(tmp_path_factory.mktemp("hostile"))
    for old, new in TEXTS:
        project.edit(old, new)
    studio = project.folder / "patterns" / "studio.yaml"
    studio.write_text(studio.read_text("utf-8").replace("name: Tidewrack", f"name: '{PAYLOAD}' #"))
    project.build()
    with served(project.site) as address:
        yield address


def complaints(browser: Browser, address: str, path: str) -> list[str]:
    """What the browser complains about on one page, and whether a text came to run."""
    context = browser.new_context(base_url=address)
    visit = Visit(context.new_page())
    visit.page.goto(path, wait_until="networkidle")
    ran = ["a text came to run"] * bool(visit.page.evaluate("'hit' in window"))
    context.close()
    return ran + visit.complaints


@pytest.mark.parametrize("path", [*PAGES, "404.html"])
def test_no_page_breaks_its_own_policy(browser: Browser, site: str, path: str) -> None:
    """A violation would be told on the console."""
    assert complaints(browser, site, path) == []


def test_a_page_opened_as_a_file_breaks_nothing(browser: Browser, built: Path) -> None:
    """Where there is no server, the site is the folder."""
    assert complaints(browser, built.as_uri() + "/", MITTS) == []


def test_search_works_within_the_policy(visit: Visit) -> None:
    """Its worker and its index are files of the site."""
    visit.page.set_viewport_size({"width": 1280, "height": 800})
    visit.page.goto("index.html", wait_until="networkidle")
    visit.page.locator(".md-search__input").click()
    visit.page.locator(".md-search__input").press_sequentially("treble", delay=30)
    visit.page.locator(".md-search-result__link").first.wait_for()
    assert visit.complaints == []


def test_no_page_sets_a_cookie(visit: Visit) -> None:
    """What is remembered is in the browser's own storage, and goes nowhere."""
    for path in PAGES:
        visit.page.goto(path, wait_until="networkidle")
    assert visit.page.context.cookies() == []


@pytest.mark.parametrize("path", ["patterns/sandhopper-mitts/", "patterns/", "index.html"])
def test_text_from_a_pattern_is_text(browser: Browser, hostile: str, path: str) -> None:
    """Nothing of it runs, and nothing of it had to be stopped: it is shown as it was written."""
    assert complaints(browser, hostile, path) == []


def test_text_from_a_pattern_is_shown_as_it_was_written(visit: Visit, hostile: str) -> None:
    """Every sign of it."""
    visit.page.goto(f"{hostile}/patterns/sandhopper-mitts/")
    assert visit.page.locator("h1").inner_text() == TITLE


def test_text_from_a_pattern_is_text_in_what_search_finds(visit: Visit, hostile: str) -> None:
    """The theme's own script writes it into the page."""
    visit.page.set_viewport_size({"width": 1280, "height": 800})
    visit.page.goto(f"{hostile}/index.html", wait_until="networkidle")
    visit.page.locator(".md-search__input").click()
    visit.page.locator(".md-search__input").press_sequentially("fingerless", delay=30)
    found = visit.page.locator(".md-search-result__link").first
    found.wait_for()
    assert "</title></script>" in found.inner_text()
    assert visit.complaints == []
    assert not visit.page.evaluate("'hit' in window")


def test_a_script_that_was_not_there_when_it_was_built_does_not_run(
    browser: Browser, built: Path, tmp_path: Path
) -> None:
    """So that words which came to be script by a mistake would do nothing."""
    html = (built / "404.html").read_text("utf-8")
    (tmp_path / "404.html").write_text(html.replace("</body>", "<script>hit = 1</script></body>"))
    with served(tmp_path) as address:
        (told,) = [
            one
            for one in complaints(browser, address, "404.html")
            if "hit" in one or "inline" in one
        ]
    assert "Content Security Policy" in told
