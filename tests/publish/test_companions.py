"""Pages beside the patterns, before MkDocs sees any of them."""

from __future__ import annotations

from tests.publish.samples import mitts, text
from tests.publish.test_collection import FILES, SERVER, Elements
from workeven.pipeline import ReadyPattern
from workeven.publish.collection import Publication
from workeven.publish.companions import companions
from workeven.records import replace
from workeven.standards import stitches


def formerly(*names: str) -> ReadyPattern:
    """The mitts, whose folder had other names."""
    ready = mitts()
    return replace(ready, pattern=replace(ready.pattern, formerly=tuple(map(text, names))))


def files(publication: Publication) -> dict[str, str]:
    """Files by their paths."""
    return {one.path: one.content.decode() for one in publication.attachments}


def html(publication: Publication, name: str) -> str:
    """The page of that folder."""
    return next(one.html for one in publication.pages if one.source == f"{name}/index.md")


# --- old addresses -------------------------------------------------------------------------


def test_each_old_address_has_a_page() -> None:
    """One for each former name of the folder, in the folder that it had."""
    found = files(companions([formerly("sand-mitts", "shore-mitts")], FILES))
    assert [path for path in found if path.endswith(".html")] == [
        "patterns/sand-mitts/index.html",
        "patterns/shore-mitts/index.html",
    ]


def test_an_old_address_leads_on_without_script() -> None:
    """A refresh, a link to press, and the address that counts (RFC 6596)."""
    found = files(companions([formerly("sand-mitts")], FILES))["patterns/sand-mitts/index.html"]
    elements = Elements(found).found
    assert [attrs for tag, attrs in elements if tag in {"a", "link", "meta"}] == [
        {"charset": "utf-8"},
        {"name": "viewport", "content": "width=device-width, initial-scale=1"},
        {"rel": "canonical", "href": "../mitts/index.html"},
        {"http-equiv": "refresh", "content": "0; url=../mitts/index.html"},
        {"href": "../mitts/index.html"},
    ]


def test_the_address_that_counts_is_whole_where_the_site_is_known() -> None:
    """Programs that read the link elsewhere find the page."""
    address = replace(SERVER, site="https://studio.example/")
    found = files(companions([formerly("sand-mitts")], address))["patterns/sand-mitts/index.html"]
    assert 'rel="canonical" href="https://studio.example/patterns/mitts/"' in found


def test_a_title_is_text_at_an_old_address() -> None:
    """Nothing in it becomes an element."""
    ready = formerly("sand-mitts")
    hostile = "</title><script>alert(1)</script>"
    ready = replace(ready, pattern=replace(ready.pattern, title=text(hostile)))
    found = files(companions([ready], FILES))["patterns/sand-mitts/index.html"]
    assert [tag for tag, _ in Elements(found).found].count("script") == 1


# --- stitches and abbreviations ------------------------------------------------------------


def test_each_published_term_has_its_pair() -> None:
    """The published table of US and UK terms, where the notation has the stitch."""
    page = html(companions([mitts()], FILES), "stitches")
    wanted = {
        f"<b>US</b> {one.us}, {one.us_term}</span> <span><b>UK</b> {one.uk}, {one.uk_term}</span>"
        for one in stitches.terms()
        if one.us in {"sl st", "sc", "hdc", "dc", "tr", "sc2tog"} and one.uk != "ss"
    }
    assert [one for one in sorted(wanted) if one not in page] == []


def test_each_stitch_has_an_address_of_its_own() -> None:
    """Other pages link to it."""
    anchors = Elements(html(companions([mitts()], FILES), "stitches")).all("id")
    assert ["stitch-fpdc" in anchors, len(anchors)] == [True, len(set(anchors))]


def test_pages_beside_the_patterns_link_back() -> None:
    """From a folder beside that of the patterns."""
    page = html(companions([mitts()], FILES), "stitches")
    assert 'href="../patterns/index.html"' in page


def test_without_a_pattern_nothing_stands_beside() -> None:
    """A site of prose alone has no pages of ours but that of all patterns."""
    assert companions([], FILES) == Publication(pages=(), attachments=())
