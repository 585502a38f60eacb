"""Pages beside the patterns, before MkDocs sees any of them."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID
from xml.etree.ElementTree import Element, fromstring

from tests.publish.samples import mitts, text
from tests.publish.test_collection import FILES, SERVER, Elements, verdict
from workeven.pattern import NO_STUDIO, Change
from workeven.pipeline import ReadyPattern
from workeven.publish.collection import Address, Publication, published
from workeven.publish.companions import companions
from workeven.publish.pages.mentions import mention
from workeven.records import replace
from workeven.standards import stitches


def formerly(*names: str) -> ReadyPattern:
    """The mitts, whose folder had other names."""
    ready = mitts()
    return replace(ready, pattern=replace(ready.pattern, formerly=tuple(map(text, names))))


def of_patterns(patterns: Sequence[ReadyPattern], address: Address) -> Publication:
    """The pages beside these patterns."""
    studio = patterns[0].pattern.studio if patterns else NO_STUDIO
    return companions([mention(one) for one in patterns], studio, address)


def files(publication: Publication) -> dict[str, str]:
    """Files by their paths."""
    return {one.path: one.content.decode() for one in publication.attachments}


def html(publication: Publication, name: str) -> str:
    """The page of that folder."""
    return next(one.html for one in publication.pages if one.source == f"{name}/index.md")


# --- old addresses -------------------------------------------------------------------------


def test_each_old_address_has_a_page() -> None:
    """One for each former name of the folder, in the folder that it had."""
    found = files(of_patterns([formerly("sand-mitts", "shore-mitts")], FILES))
    assert [path for path in found if path.endswith(".html")] == [
        "patterns/sand-mitts/index.html",
        "patterns/shore-mitts/index.html",
    ]


def test_an_old_address_leads_on_without_script() -> None:
    """A refresh, a link to press, and the address that counts (RFC 6596)."""
    found = files(of_patterns([formerly("sand-mitts")], FILES))["patterns/sand-mitts/index.html"]
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
    found = files(of_patterns([formerly("sand-mitts")], address))["patterns/sand-mitts/index.html"]
    assert 'rel="canonical" href="https://studio.example/patterns/mitts/"' in found


def test_a_title_is_text_at_an_old_address() -> None:
    """Nothing in it becomes an element."""
    ready = formerly("sand-mitts")
    hostile = "</title><script>alert(1)</script>"
    ready = replace(ready, pattern=replace(ready.pattern, title=text(hostile)))
    found = files(of_patterns([ready], FILES))["patterns/sand-mitts/index.html"]
    assert [tag for tag, _ in Elements(found).found].count("script") == 1


# --- stitches and abbreviations ------------------------------------------------------------


def test_each_published_term_has_its_pair() -> None:
    """The published table of US and UK terms, where the notation has the stitch."""
    page = html(of_patterns([mitts()], FILES), "stitches")
    wanted = {
        f"<b>US</b> {one.us}, {one.us_term}</span> <span><b>UK</b> {one.uk}, {one.uk_term}</span>"
        for one in stitches.terms()
        if one.us in {"sl st", "sc", "hdc", "dc", "tr", "sc2tog"} and one.uk != "ss"
    }
    assert [one for one in sorted(wanted) if one not in page] == []


def test_each_stitch_has_an_address_of_its_own() -> None:
    """Other pages link to it."""
    anchors = Elements(html(of_patterns([mitts()], FILES), "stitches")).all("id")
    assert ["stitch-fpdc" in anchors, len(anchors)] == [True, len(set(anchors))]


def test_pages_beside_the_patterns_link_back() -> None:
    """From a folder beside that of the patterns."""
    page = html(of_patterns([mitts()], FILES), "stitches")
    assert 'href="../patterns/index.html"' in page


def test_without_a_pattern_nothing_stands_beside() -> None:
    """A site of prose alone has no pages of ours but that of all patterns."""
    assert of_patterns([], FILES) == Publication(pages=(), attachments=())


# --- what changed, and the feed ------------------------------------------------------------

ATOM = "{http://www.w3.org/2005/Atom}"


def changed(*told: Change, slug: str = "mitts", formerly: tuple[str, ...] = ()) -> ReadyPattern:
    """The mitts with these changes, the newest first."""
    ready = mitts(slug=slug)
    return replace(
        ready, pattern=replace(ready.pattern, changes=told, formerly=tuple(map(text, formerly)))
    )


def change(version: str, date: str, words: str = "Changed.", *rows: str) -> Change:
    """One entry."""
    return Change(version=version, date=date, text=words, rows=tuple(map(text, rows)))


FIRST = change("1.0", "2026-11-02", "First published.")
THUMB = change("1.1", "2026-12-01", "Thumb longer by a round.", "mitt.1")


def feed(*ready: ReadyPattern, address: Address = SERVER) -> Element:
    """The feed, read by a plain parser."""
    content = files(of_patterns(ready, address))["changes/feed.xml"]
    return fromstring(content)  # noqa: S314 -- our own


def ids(root: Element) -> dict[str, str]:
    """The id of each entry by what it says."""
    entries = root.findall(f"{ATOM}entry")
    return {one.findtext(f"{ATOM}content", ""): one.findtext(f"{ATOM}id", "") for one in entries}


def test_the_feed_has_what_atom_requires() -> None:
    """RFC 4287, 4.1.1 and 4.1.2: id, title, updated and author once, and a link to itself."""
    root = feed(changed(THUMB, FIRST))
    assert root.tag == f"{ATOM}feed"
    for element in (root, *root.findall(f"{ATOM}entry")):
        required = ("id", "title", "updated")
        assert [len(element.findall(f"{ATOM}{name}")) for name in required] == [1, 1, 1]
        assert element.findtext(f"{ATOM}title")
    assert root.findtext(f"{ATOM}author/{ATOM}name") == "Tidewrack Studio"
    links = [(one.get("rel"), one.get("href")) for one in root.findall(f"{ATOM}link")]
    assert links == [("self", "feed.xml"), ("alternate", "./")]


def test_pages_say_where_the_feed_is() -> None:
    """The page of all patterns, and that of the changes."""
    index = published(verdict(changed(FIRST)), FILES).pages[0].head
    page = next(
        one for one in of_patterns([changed(FIRST)], FILES).pages if "changes" in one.source
    )
    words = 'rel="alternate feed" type="application/atom+xml" title="Changes and corrections"'
    assert f'<link {words} href="../changes/feed.xml">' in index
    assert f'<link {words} href="feed.xml">' in page.head


def test_times_and_ids_are_written_as_atom_wants_them() -> None:
    """RFC 3339 with T and Z; an id is an absolute IRI (4.2.6), each one another."""
    root = feed(changed(THUMB, FIRST))
    times = [one.text or "" for one in root.iter(f"{ATOM}updated")]
    assert times == ["2026-12-01T00:00:00Z", "2026-12-01T00:00:00Z", "2026-11-02T00:00:00Z"]
    names = [one.text or "" for one in root.iter(f"{ATOM}id")]
    assert len(set(names)) == 3
    assert [UUID(name.removeprefix("urn:uuid:")).version for name in names] == [5, 5, 5]


def test_ids_stay_when_a_change_is_added_and_when_a_folder_is_renamed() -> None:
    """A reader of feeds does not show an old entry again."""
    before = ids(feed(changed(FIRST)))
    same_day = change("1.0", "2026-11-02", "Later on that day.")
    after = ids(feed(changed(THUMB, same_day, FIRST)))
    renamed = ids(feed(changed(FIRST, slug="shore", formerly=("mitts", "sand"))))
    name = "First published."
    assert (after[name], renamed[name]) == (before[name], before[name])
    assert len(set(after.values())) == 3


def test_addresses_in_the_feed_are_whole_where_the_site_is_known() -> None:
    """So that a program which keeps the feed elsewhere finds the page."""
    root = feed(changed(FIRST), address=replace(SERVER, site="https://studio.example/knots/"))
    found = [one.get("href") for one in root.iter(f"{ATOM}link")]
    assert found == [
        "https://studio.example/knots/changes/feed.xml",
        "https://studio.example/knots/changes/",
        "https://studio.example/knots/patterns/mitts/",
    ]


def test_text_in_the_feed_is_text() -> None:
    """Nothing that a designer writes is markup there."""
    words = "</content><script>alert(1)</script> & '66' <b>"
    assert words in ids(feed(changed(change("1.1", "2026-12-01", words))))


def test_a_pattern_that_tells_no_change_was_published() -> None:
    """On the day that it says."""
    assert list(ids(feed(changed()))) == ["Published."]


def test_changes_of_all_patterns_are_told_newest_first() -> None:
    """With links to the rows that they are about, as the page numbers them."""
    page = html(of_patterns([changed(THUMB, FIRST)], FILES), "changes")
    assert page.index("Thumb longer") < page.index("First published")
    link = '<a href="../patterns/mitts/index.html#row-mitt.1">Mitt, Rnd 1</a>'
    assert link in page


# --- the studio ----------------------------------------------------------------------------


def test_the_studio_says_who_it_is() -> None:
    """Its name, its links as the site has them, its designers, its newest patterns."""
    page = html(of_patterns([mitts(slug="a"), mitts(slug="b")], FILES), "studio")
    elements = Elements(page)
    assert elements.all("href")[0] == "../about.html"
    assert "Perrin Saltlock, 2 patterns" in elements.text
    assert "../patterns/b/index.html" in elements.all("href")


# --- tags ----------------------------------------------------------------------------------


def tagged(slug: str, *tags: str) -> ReadyPattern:
    """The mitts under these words."""
    ready = mitts(slug=slug, title=slug)
    return replace(ready, pattern=replace(ready.pattern, tags=tags))


def test_a_tag_has_its_patterns() -> None:
    """However it is spelled, and each pattern once."""
    page = html(of_patterns([tagged("a", "Tee", "tee"), tagged("b", "tee", "top")], FILES), "tags")
    elements = Elements(page)
    assert [one for one in elements.all("id") if one.startswith("tag-")] == ["tag-tee", "tag-top"]
    assert elements.all("href")[:4] == [
        "../patterns/index.html?kind=Tee",
        "../patterns/a/index.html",
        "../patterns/b/index.html",
        "../patterns/index.html?kind=top",
    ]


def test_a_tag_is_text() -> None:
    """In an address too."""
    page = html(of_patterns([tagged("a", '"><b>&#x')], FILES), "tags")
    assert "?kind=%22%3E%3Cb%3E%26%23x" in page
    assert "b" not in [tag for tag, _ in Elements(page).found]


def test_a_pattern_leads_to_its_tags_and_to_the_stitches() -> None:
    """From its own folder."""
    page = published(verdict(mitts()), FILES).pages[1].html
    assert 'href="../../tags/index.html#tag-mitts"' in page
    assert 'href="../../stitches/index.html"' in page
