"""A page on paper: printed by Chromium, and the sheets read back."""

from __future__ import annotations

import io
from collections.abc import Iterator
from unicodedata import normalize

import pytest
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from tests.browser.demo import MITTS, Visit
from tests.browser.serving import served
from tests.publish.project import new_project

CARDIGAN = "patterns/wrackline-cardigan/index.html"
PUP = "patterns/haulout-pup/index.html"
#: Width and height in points: ISO 216 and ANSI/ASME Y14.1, to a point.
PAPERS = {"A4": (595, 842), "Letter": (612, 792)}


def close(text: str) -> str:
    """A text without spaces and ligatures: sheets break lines where they like, letters join."""
    return "".join(normalize("NFKC", text).split()).replace("□", "")


def printed(page: Page, paper: str) -> PdfReader:
    """The sheets."""
    return PdfReader(io.BytesIO(page.pdf(format=paper)))


def sheets(page: Page, paper: str) -> list[str]:
    """The words of each sheet."""
    return [close(one.extract_text()) for one in printed(page, paper).pages]


@pytest.fixture(scope="module", params=[MITTS, CARDIGAN, PUP])
def pattern(browser: Browser, site: str, request: pytest.FixtureRequest) -> Iterator[Page]:
    """A pattern's page, open; no test changes it."""
    page = browser.new_page(base_url=site)
    page.goto(request.param)
    yield page
    page.close()


@pytest.mark.parametrize("paper", PAPERS)
def test_no_row_and_no_table_is_torn(pattern: Page, paper: str) -> None:
    """Each stands on one sheet with all its words."""
    read = sheets(pattern, paper)
    pattern.emulate_media(media="print")
    whole = (".we-rows > li", ".we-table", ".we-caution", ".we-steps > li", "figcaption")
    texts = [
        text
        for kind in whole
        for one in pattern.locator(f".we-pattern {kind}").all()
        if one.is_visible() and (text := close(one.inner_text()))
    ]
    pattern.emulate_media(media="null")
    assert len(texts) > 20
    assert [text for text in texts if not any(text in sheet for sheet in read)] == []


@pytest.mark.parametrize("paper", PAPERS)
def test_each_sheet_says_what_it_is_of(pattern: Page, paper: str) -> None:
    """Pattern, version, its number and how many there are; the paper is the one that was chosen."""
    reader = printed(pattern, paper)
    many = len(reader.pages)
    title = close(pattern.locator("h1").inner_text())
    feet = [
        (close(one.extract_text()).count(f"{title},version1.0"), f"{at}/{many}" in close(text))
        for at, one in enumerate(reader.pages, start=1)
        if (text := one.extract_text())
    ]
    assert feet == [(1, True)] * many
    for one in reader.pages:
        assert (one.mediabox.width, one.mediabox.height) == pytest.approx(PAPERS[paper], abs=1)


def test_drawings_are_lines_and_no_pixels(pattern: Page) -> None:
    """The cover and the schematics are as sharp as the paper."""
    assert [list(one.images) for one in printed(pattern, "A4").pages if list(one.images)] == []


def test_a_heading_is_not_left_alone(pattern: Page) -> None:
    """No sheet ends with one."""
    read = sheets(pattern, "A4")
    headings = [close(one) for one in pattern.locator("h2, h3").all_inner_texts()]
    ends = [
        sheet.partition(close(pattern.locator("h1").inner_text()) + ",version")[0] for sheet in read
    ]
    assert [end[-40:] for end in ends if end.endswith(tuple(headings))] == []


def test_a_piece_begins_with_its_drawing(pattern: Page) -> None:
    """Heading, facts and the drawing's table are on one sheet."""
    read = sheets(pattern, "A4")
    begins = [
        (
            close("".join(one.locator(":scope > h2, :scope > h2 + p").all_inner_texts())),
            close(one.locator("figure caption").first.inner_text()),
        )
        for one in pattern.locator(".we-piece:has(> figure)").all()
    ]
    assert begins
    assert [
        head for head, drawn in begins if not any(head in one and drawn in one for one in read)
    ] == []


def test_the_chosen_size_stands_on_each_sheet(visit: Visit) -> None:
    """By the attribute that the part which lets her choose sets; without it all sizes are there."""
    visit.page.goto(MITTS)
    before = sheets(visit.page, "A4")
    visit.page.evaluate("document.documentElement.dataset.size = '1'")
    after = sheets(visit.page, "A4")
    assert not any(",sizeM" in sheet for sheet in before)
    assert all("version1.0,sizeM" in sheet for sheet in after)


@pytest.mark.parametrize("path", [MITTS, "patterns/index.html", "writing/your-first-pattern.html"])
def test_only_what_can_be_read_is_on_paper(visit: Visit, path: str) -> None:
    """No menu, no search, nothing to press, and no film to watch."""
    visit.page.goto(path)
    visit.page.emulate_media(media="print")
    pressed = visit.page.locator("button, input, select, .md-header, .md-tabs, .md-footer, nav")
    films = visit.page.locator(".md-sidebar, .we-film, .we-downloads")
    assert [one.evaluate("one => one.outerHTML") for one in pressed.all() if one.is_visible()] == []
    assert [one.evaluate("one => one.outerHTML") for one in films.all() if one.is_visible()] == []


def test_a_title_with_any_sign_is_printed(
    browser: Browser, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """It is a string of a style sheet there, which it cannot end; a long one is cut."""
    title = 'Nets & "knots" \\ </style> {x} 網 – ' + "long " * 20
    project = new_project(tmp_path_factory.mktemp("titles"))
    project.edit("title: Sandhopper Mitts", f"title: '{title}'")
    project.build()
    with served(project.site) as address:
        page = browser.new_page()
        page.goto(f"{address}/patterns/sandhopper-mitts/")
        (first, *_) = sheets(page, "A4")
        page.close()
    assert first.count(close('Nets & "knots" \\ </style> {x}')) == 2
    assert close("long…, version 1.0")[4:] in first
