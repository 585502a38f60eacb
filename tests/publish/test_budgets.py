"""How much a page weighs: what a phone loads before the first words, and what it has to lay out.

The figures are the project's own goals (performance, 18 and 19), measured as gzip packs them, which
is what servers of plain files do.
"""

from __future__ import annotations

import gzip
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from benchmarks.collection import GARMENT, times_as_long
from tests.publish.project import CHECKOUT, new_project
from workeven.publish import edition
from workeven.publish.collection import Address, RenderedPage

KB = 1024
_ELEMENT = re.compile(r"<[a-z]")
_LOADED = re.compile(r'<(?:link rel="(?:stylesheet|icon)" href|script src|img src)="([^"#]+)"')


def packed(text: str | bytes) -> int:
    """The size on the way to a phone."""
    return len(gzip.compress(text.encode() if isinstance(text, str) else text))


def long_page(folder: Path, times: int) -> RenderedPage:
    """The page of the demo's garment of nine sizes with each of its pieces so many times."""
    (folder / "garment").mkdir(parents=True)
    shutil.copy(CHECKOUT / "patterns" / "studio.yaml", folder)
    text = times_as_long(GARMENT.read_text(encoding="utf-8"), times)
    (folder / "garment" / "pattern.yaml").write_text(text, encoding="utf-8")
    made = edition.published(str(folder), Address(folder="patterns", ending=""))
    return made.publication.pages[1]


def test_a_long_page_in_nine_sizes_is_light(tmp_path: Path) -> None:
    """112 rows: the mean of 96 and 128. At most 25 kB with its head, and 4,000 elements."""
    pages = [long_page(tmp_path / str(times), times) for times in (3, 4)]
    rows = sum(page.html.count('<li id="row-') for page in pages) / 2
    size = sum(packed(page.html + str(page.head)) for page in pages) / 2
    elements = sum(len(_ELEMENT.findall(page.html)) for page in pages) / 2
    assert rows == 112
    assert (size <= 25 * KB, elements <= 4000) == (True, True), f"{size:.0f} B, {elements:.0f}"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo patterns, built."""
    project = new_project(tmp_path_factory.mktemp("weighed"))
    project.build()
    return project.site


def first_view(page: Path) -> Iterator[tuple[str, int]]:
    """The page and all that it loads but pictures of patterns, each with its packed size."""
    html = page.read_text("utf-8")
    yield "page", packed(html)
    for path in dict.fromkeys(_LOADED.findall(html)):
        if not path.startswith("cover"):
            yield path, packed((page.parent / path).read_bytes())


def test_a_first_view_is_light(site: Path) -> None:
    """At most 95 kB for any pattern without its pictures: page, theme, style and script."""
    weights = {
        page.parent.name: dict(first_view(page)) for page in site.glob("patterns/*/index.html")
    }
    heavy = {name: parts for name, parts in weights.items() if sum(parts.values()) > 95 * KB}
    assert all("../../assets/workeven-pattern.js" in parts for parts in weights.values())
    assert heavy == {}


def test_the_caption_of_a_figure_is_its_last_part(site: Path) -> None:
    """HTML, 4.4.12: a ``figcaption`` is the first or the last child of its ``figure``."""
    pages = [path.read_text("utf-8") for path in site.glob("patterns/*/index.html")]
    figures = [one for page in pages for one in re.findall(r"<figure.*?</figure>", page, re.DOTALL)]
    captioned = [one for one in figures if "<figcaption" in one]
    assert captioned
    assert [] == [one for one in captioned if not re.search(r"</figcaption>\s*</figure>\Z", one)]
