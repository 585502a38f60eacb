"""Pages of what a check says, before MkDocs sees them and in a built site."""

from __future__ import annotations

import json
import re
from pathlib import Path
from posixpath import dirname, join, normpath

import pytest

from tests.publish.project import Project, new_project
from tests.publish.test_collection import FILES, SERVER, Elements
from workeven.problems import lesson
from workeven.problems.catalogue import CATALOGUE
from workeven.publish.collection import Address, RenderedPage
from workeven.publish.lessons import lessons

PAGES = {page.source: page for page in lessons(FILES)}
CODES = sorted(CATALOGUE)


def page(code: str) -> RenderedPage:
    """The page of a code."""
    return PAGES[f"checks/{code}/index.md"]


def squeezed(text: str) -> str:
    """The text without room and without the marks of code."""
    return "".join(text.replace("`", "").split())


def test_every_code_has_a_page_and_nothing_else_has() -> None:
    """One a code, and the list."""
    assert sorted(PAGES) == sorted(
        ["checks/index.md", *(f"checks/{code}/index.md" for code in CODES)]
    )


@pytest.mark.parametrize("code", CODES)
def test_a_page_holds_what_explain_prints(code: str) -> None:
    """All of it, in its order, once; before it the way back, behind the code how grave it is."""
    text = squeezed(Elements(page(code).html).text)
    printed = squeezed(lesson.read(code).plain()).removeprefix(code)
    assert text.startswith(squeezed("What a check says") + code)
    assert text.endswith(printed)


@pytest.mark.parametrize("code", CODES)
def test_a_page_says_how_grave_it_is(code: str) -> None:
    """By the catalogue."""
    grave = "Error." if CATALOGUE[code][0].value == "error" else "Advice."
    assert f"<b>{grave}</b>" in page(code).html


def test_the_list_has_each_code_with_its_line_once() -> None:
    """What a person looks through who does not know the code."""
    html = PAGES["checks/index.md"].html
    lines = re.findall(r'<div id="([a-z-]+)"><dt>.*?</dt><dd>(.*?)</dd>', html)
    expected = {code: Elements(f"<p>{line}</p>").text for code, (_, line) in CATALOGUE.items()}
    assert {code: Elements(f"<p>{line}</p>").text for code, line in lines} == expected
    assert len(lines) == len(CATALOGUE)


def test_advice_is_marked_in_the_list() -> None:
    """All else is an error."""
    html = PAGES["checks/index.md"].html
    marked = re.findall(r'<div id="([a-z-]+)"><dt><a [^>]*>[a-z-]+</a> <b>advice</b></dt>', html)
    advice = [code for code in CODES if CATALOGUE[code][0].value == "advice"]
    assert sorted(marked) == advice


@pytest.mark.parametrize("address", [FILES, SERVER, Address(folder="shop/makes", ending="")])
def test_links_lead_to_pages_that_are_there(address: Address) -> None:
    """Between the list and the pages, and back."""
    made = lessons(address)
    there = {normpath(join(dirname(one.source), address.ending)) for one in made}
    links = [
        (one.source, normpath(join(dirname(one.source), link)))
        for one in made
        for link in Elements(one.html).all("href")
    ]
    assert len(links) == 2 * len(CODES)
    assert [link for link in links if link[1] not in there] == []


# --- in a site -----------------------------------------------------------------------------


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Project:
    """A project with the option, and a page of its own at one of the addresses."""
    project = new_project(tmp_path_factory.mktemp("checks"))
    file = project.folder / "mkdocs.yml"
    file.write_text(file.read_text().replace("workeven]", "{workeven: {check_pages: true}}]"))
    own = project.folder / "guide" / "checks" / "row-uneven"
    own.mkdir(parents=True)
    (own / "index.md").write_text("# In our words\n")
    home = project.folder / "guide" / "index.md"
    home.write_text(f"{home.read_text()}\n[Uneven](checks/row-number/index.md)\n")
    project.build()
    return project


def test_a_studio_has_none_that_does_not_ask(tmp_path: Path) -> None:
    """Makers need none."""
    project = new_project(tmp_path)
    project.build()
    assert not (project.site / "checks").exists()


def test_a_studio_has_all_that_asks(built: Project) -> None:
    """A folder a code."""
    assert sorted(one.name for one in (built.site / "checks").iterdir() if one.is_dir()) == CODES


def test_the_list_is_in_the_menu_and_the_pages_are_not(built: Project) -> None:
    """193 entries on every page would help nobody."""
    links = Elements((built.site / "index.html").read_text()).all("href")
    assert {link for link in links if link.startswith("checks/")} == {
        "checks/",
        "checks/row-number/",  # of the home page itself
        "checks/row-uneven/",  # the studio's own page
    }


def test_search_finds_the_list_by_every_code_and_no_page(built: Project) -> None:
    """Behind patterns and prose."""
    index = json.loads((built.site / "search" / "search_index.json").read_text("utf-8"))
    found = [one for one in index["docs"] if one["location"].startswith("checks/")]
    places = {one["location"].partition("#")[0] for one in found}
    assert places == {"checks/", "checks/row-uneven/"}
    (every,) = (one for one in found if one["location"] == "checks/")
    assert every["boost"] < 1
    assert [code for code in CODES if code not in every["text"]] == []


def test_a_page_of_ones_own_stands_in_the_place_of_ours(built: Project) -> None:
    """As with all pages beside the patterns."""
    html = (built.site / "checks" / "row-uneven" / "index.html").read_text()
    assert "In our words" in html
    assert "Why it matters" not in html
