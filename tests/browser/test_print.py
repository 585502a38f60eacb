"""A page on paper: printed by Chromium, and the sheets read back."""

from __future__ import annotations

import io
import re
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


class Pattern:
    """A pattern's page, open, and printed once on each paper."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.title = close(page.locator("h1").inner_text())
        self.printed = {paper: printed(page, paper) for paper in PAPERS}
        self.sheets = {
            paper: [close(one.extract_text()) for one in reader.pages]
            for paper, reader in self.printed.items()
        }

    def shown(self, *kinds: str) -> list[str]:
        """The words of these parts of the page, where paper shows them."""
        self.page.emulate_media(media="print")
        found = [
            close(one.inner_text())
            for kind in kinds
            for one in self.page.locator(f".we-pattern {kind}").all()
            if one.is_visible()
        ]
        self.page.emulate_media(media="null")
        return [text for text in found if text]


@pytest.fixture(scope="module", params=[MITTS, CARDIGAN, PUP])
def pattern(browser: Browser, site: str, request: pytest.FixtureRequest) -> Iterator[Pattern]:
    """A pattern, printed; no test changes it."""
    page = browser.new_page(base_url=site)
    page.goto(request.param)
    yield Pattern(page)
    page.close()


@pytest.mark.parametrize("paper", PAPERS)
def test_no_row_and_no_table_is_torn(pattern: Pattern, paper: str) -> None:
    """Each stands on one sheet with all its words."""
    texts = pattern.shown(
        ".we-rows > li", ".we-table", ".we-caution", ".we-steps > li", "figcaption"
    )
    read = pattern.sheets[paper]
    assert len(texts) > 20
    assert [text for text in texts if not any(text in sheet for sheet in read)] == []


@pytest.mark.parametrize("paper", PAPERS)
def test_each_sheet_says_what_it_is_of(pattern: Pattern, paper: str) -> None:
    """Pattern, version, its number and how many there are; the paper is the one that was chosen."""
    read = pattern.sheets[paper]
    feet = [
        (sheet.count(f"{pattern.title},version1.0"), f"{at}/{len(read)}" in sheet)
        for at, sheet in enumerate(read, start=1)
    ]
    assert feet == [(1, True)] * len(read)
    for one in pattern.printed[paper].pages:
        assert (one.mediabox.width, one.mediabox.height) == pytest.approx(PAPERS[paper], abs=1)


def test_drawings_are_lines_and_no_pixels(pattern: Pattern) -> None:
    """The cover and the schematics are as sharp as the paper."""
    assert [found for one in pattern.printed["A4"].pages if (found := list(one.images))] == []


def test_a_heading_is_not_left_alone(pattern: Pattern) -> None:
    """No sheet ends with one, nor with the note that stands before the rows."""
    headings = tuple(pattern.shown("h2", "h3", "section > .we-note"))
    read, foot = pattern.sheets["A4"], f"{pattern.title},version1.0"
    bodies = [
        sheet.replace(foot, "").replace(f"{at}/{len(read)}", "")
        for at, sheet in enumerate(read, start=1)
    ]
    assert headings
    assert [body[-40:] for body in bodies if body.endswith(headings)] == []


def test_a_piece_begins_with_its_drawing(pattern: Pattern) -> None:
    """Heading, facts and the drawing's table are on one sheet."""
    begins = [
        (
            close("".join(one.locator(":scope > h2, :scope > h2 + p").all_inner_texts())),
            close(one.locator("figure caption").first.inner_text()),
        )
        for one in pattern.page.locator(".we-piece:has(> figure)").all()
    ]
    read = pattern.sheets["A4"]
    assert begins
    assert [
        head for head, drawn in begins if not any(head in one and drawn in one for one in read)
    ] == []


def test_only_the_chosen_size_is_on_paper(visit: Visit) -> None:
    """And it stands on each sheet; without a choice all sizes are there."""
    visit.page.goto(MITTS)
    before = sheets(visit.page, "A4")
    visit.page.goto(f"{MITTS}?size=M")
    after = sheets(visit.page, "A4")
    lists = re.compile(r"\d\(\d+(?:\.\d+)?,\d")
    assert not any(",sizeM" in sheet for sheet in before)
    assert len(lists.findall("".join(before))) > 20
    assert all("version1.0,sizeM" in sheet for sheet in after)
    assert lists.findall("".join(after)) == []
    assert "Rnds3–2439sts" in "".join(after)


@pytest.mark.parametrize("path", [MITTS, "patterns/index.html", "writing/your-first-pattern.html"])
def test_only_what_can_be_read_is_on_paper(visit: Visit, path: str) -> None:
    """No menu, no search, nothing to press, and no film to watch."""
    visit.page.goto(path)
    visit.page.emulate_media(media="print")
    pressed = visit.page.locator("button, input, select, .md-header, .md-tabs, .md-footer, nav")
    films = visit.page.locator(
        ".md-sidebar, .we-film, .we-downloads, a[href*='/ask?'], main a[href*='stitches/']"
    )
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


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("code", ["row-uneven", "care-fibre", "row-too-many"])
def test_what_is_told_of_a_problem_is_printed_whole(visit: Visit, code: str, paper: str) -> None:
    """Its long lines too, which go on in the next."""
    visit.page.goto(f"checks/{code}/index.html")
    parts = visit.page.locator(".we-lesson :is(h1, p, h2, pre)").all_inner_texts()
    lines = [close(line) for part in parts for line in part.splitlines()]
    whole = "".join(sheets(visit.page, paper))
    assert len(lines) >= 12
    assert [line for line in lines if line not in whole] == []


@pytest.mark.parametrize("paper", PAPERS)
def test_an_example_of_the_guide_is_printed_whole(visit: Visit, paper: str) -> None:
    """What is scrolled on a screen goes on in the next line."""
    visit.page.goto("writing/more-ways-to-say-it.html")
    blocks = visit.page.locator("pre > code").all_inner_texts()
    lines = [close(line) for block in blocks for line in block.splitlines()]
    whole = "".join(sheets(visit.page, paper))
    assert len(lines) > 100
    assert [line for line in lines if line not in whole] == []
