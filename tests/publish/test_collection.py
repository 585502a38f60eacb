"""A collection as pages and files, before MkDocs sees any of it."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest

from tests.publish.samples import HERE, mitts
from workeven.pipeline import Outcome, ReadyPattern, Verdict
from workeven.problems import Problem
from workeven.publish.collection import Address, Publication, preview, published

FILES = Address(folder="patterns", ending="index.html")
SERVER = Address(folder="patterns", ending="")
HOSTILE = '<script>alert(1)</script> & "co" [x](javascript:0) `{{ 7 }}`'


def verdict(*ready: ReadyPattern, problems: tuple[Problem, ...] = ()) -> Verdict:
    """A collection in which these patterns are fit to publish."""
    outcomes = tuple(Outcome(file=one.pattern.file, ready=one, problems=()) for one in ready)
    return Verdict(outcomes=outcomes, problems=problems)


def page(publication: Publication, slug: str = "mitts") -> str:
    """The HTML of one page."""
    sources = {one.source: one.html for one in publication.pages}
    return sources[f"patterns/{slug}/index.md" if slug else "patterns/index.md"]


def many(number: int) -> Publication:
    """A collection of so many patterns, whose first three are always the same."""
    slugs = [f"p{at:04}" for at in range(number)]
    return published(verdict(*(mitts(slug=slug, title=slug) for slug in slugs)), FILES)


class Elements(HTMLParser):
    """Collects every element with its attributes, and the text between."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element."""
        self.found.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        """Note text."""
        self.text += data

    def all(self, attribute: str) -> list[str]:
        """Every value of an attribute."""
        return [attrs[attribute] or "" for _, attrs in self.found if attribute in attrs]


def test_a_page_does_not_depend_on_how_many_patterns_there_are() -> None:
    """With 3 patterns and with 30, the second one's page has the same bytes."""
    assert page(many(3), "p0001") == page(many(30), "p0001")


def test_a_draft_is_not_published() -> None:
    """A pattern without a date of publication is neither a page nor on the index."""
    publication = published(verdict(mitts(published=None)), FILES)
    assert [one.source for one in publication.pages] == ["patterns/index.md"]
    assert publication.attachments == ()
    assert "Sandhopper" not in page(publication, "")


def test_a_draft_is_previewed_and_says_so() -> None:
    """She who writes it sees it."""
    publication = preview(verdict(mitts(published=None)), FILES)
    assert "Draft" in page(publication)
    assert "Sandhopper" in page(publication, "")


def test_neighbours_are_the_published_ones() -> None:
    """A draft between two patterns is passed over."""
    publication = published(
        verdict(mitts(slug="a"), mitts(slug="b", published=None), mitts(slug="c")), FILES
    )
    assert 'rel="next" href="../c/index.html"' in page(publication, "a")
    assert 'rel="prev" href="../a/index.html"' in page(publication, "c")


def test_links_end_as_the_site_wants_them() -> None:
    """A server opens a folder's index, a browser that opens files needs its name."""
    both = verdict(mitts(slug="a"), mitts(slug="b"))
    assert 'href="../b/"' in page(published(both, SERVER), "a")
    assert 'href="b/"' in page(published(both, SERVER), "")


def test_text_is_always_text() -> None:
    """Nothing in a title or summary becomes an element, an attribute or Markdown."""
    publication = published(verdict(mitts(title=HOSTILE, summary=HOSTILE)), FILES)
    for html in (page(publication), page(publication, "")):
        elements = Elements(html)
        scripts = [attributes for tag, attributes in elements.found if tag == "script"]
        assert [one for one in scripts if one != {"type": "application/json"}] == []
        assert HOSTILE in elements.text


def test_data_lies_beside_each_page() -> None:
    """The picture, the numbers, the size table."""
    publication = published(verdict(mitts()), FILES)
    assert [one.path for one in publication.attachments] == [
        "patterns/mitts/pattern.json",
        "patterns/mitts/sizes.csv",
        "patterns/mitts/cover.svg",
    ]


def test_every_table_has_a_caption_and_headings() -> None:
    """Real tables: each cell has a heading for its row and its column."""
    html = page(published(verdict(mitts()), FILES))
    assert html.count("<table") == html.count("<caption id=") > 3
    assert html.count("<th ") == html.count("<th scope=")


def test_addresses_within_a_page_lead_somewhere() -> None:
    """Every anchor is there once, and every link to one finds it."""
    publication = published(verdict(mitts()), FILES)
    elements = Elements(page(publication))
    anchors = elements.all("id")
    assert sorted(set(anchors)) == sorted(anchors)
    within = {url[1:] for url in elements.all("href") if url.startswith("#")}
    labelled = set(elements.all("aria-labelledby"))
    contents = publication.pages[1].contents
    listed = {one.anchor for entry in contents for one in (entry, *entry.below)}
    assert within | labelled | listed <= set(anchors)


@pytest.mark.parametrize(
    "words", ["single crochet", "double crochet", "dc", "fine yarn", "mitts", "S, M, L"]
)
def test_a_page_is_found_by_its_words(words: str) -> None:
    """Stitches in both terms (a US sc is a UK dc), sizes, weight of yarn."""
    assert words in published(verdict(mitts()), FILES).pages[1].markdown


def test_rows_are_not_searched() -> None:
    """Search is not flooded by what every pattern says."""
    assert "join with" not in published(verdict(mitts()), FILES).pages[1].markdown


def test_problems_stand_where_the_page_will_be() -> None:
    """In a preview a pattern with errors has a page that tells them, and the index tells all."""
    problem = Problem(code="row-uneven", span=HERE, found="the round before leaves 66 sts.")
    outcome = Outcome(file="patterns/mitts/pattern.yaml", ready=None, problems=(problem,))
    publication = preview(Verdict(outcomes=(outcome,), problems=(problem,)), FILES)
    for html in (page(publication), page(publication, "")):
        assert "row-uneven: the round before leaves 66 sts." in html


def test_the_same_input_gives_the_same_bytes() -> None:
    """Two collections built apart from each other are equal."""
    assert published(verdict(mitts()), FILES) == published(verdict(mitts()), FILES)
