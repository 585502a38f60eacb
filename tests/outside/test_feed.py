"""The feed of changes is Atom: by the grammar of RFC 4287, and by a library that reads feeds."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree as ET

import feedparser
import pytest

from tests.outside.validators import xml_faults

GRAMMAR = Path(__file__).parent / "atom" / "atom.rnc"
ATOM = {"atom": "http://www.w3.org/2005/Atom"}
SITES = ("demo", "canaries", "stretched")


def feed(sites: dict[str, Path], name: str) -> Path:
    """The feed of a site."""
    return sites[name] / "changes" / "feed.xml"


def test_feeds_follow_the_grammar(sites: dict[str, Path]) -> None:
    """RFC 4287, appendix B; Jing says nothing of what is good."""
    assert xml_faults(GRAMMAR, *(feed(sites, name) for name in SITES)) == []


#: What is taken from the demo's feed, and what of the RFC asks for it or refuses it.
BROKEN = (
    (r"<id>[^<]*</id>", "", "a feed has an id (4.1.1)"),
    (r"<title>[^<]*</title>", "", "a feed has a title (4.1.1)"),
    (r"<updated>[^<]*</updated>", "<updated>2026-11-26</updated>", "a date has its time (3.3)"),
    (r"<link rel=\"self\"", '<link to="self"', "no attribute without a namespace is added (6.3)"),
    (r'type="application/atom\+xml"', 'type="atom"', "a media type has a slash (4.2.7.3)"),
    (r"<entry>", "<entry><subtitle>no</subtitle>", "an entry has no subtitle (4.1.2)"),
    (r"<name>[^<]*</name>", "", "an author has a name (3.2.1)"),
    (
        r'<content type="text">',
        '<content type="plain">',
        "a type of text is one of three (4.1.3.1)",
    ),
)


@pytest.mark.parametrize(
    ("old", "new"), [case[:2] for case in BROKEN], ids=[one[2] for one in BROKEN]
)
def test_the_grammar_refuses_what_the_rfc_does(
    sites: dict[str, Path], tmp_path: Path, old: str, new: str
) -> None:
    """A grammar that took everything would be no check."""
    text = feed(sites, "demo").read_text("utf-8")
    broken = tmp_path / "feed.xml"
    broken.write_text(re.sub(old, new, text, count=1), "utf-8")
    assert broken.read_text("utf-8") != text
    assert xml_faults(GRAMMAR, broken) != []


@pytest.mark.parametrize("name", SITES)
def test_feeds_keep_what_the_grammar_cannot_say(sites: dict[str, Path], name: str) -> None:
    """RFC 4287, 4.1.1 and 4.1.2: authors, an alternate or content, ids, one alternate of a kind."""
    root = ET.fromstring(feed(sites, name).read_text("utf-8"))  # noqa: S314, we have just written it
    entries = root.findall("atom:entry", ATOM)
    assert entries
    assert root.findall("atom:author", ATOM) or all(
        one.findall("atom:author", ATOM) for one in entries
    )
    for one in entries:
        alternates = one.findall("atom:link[@rel='alternate']", ATOM)
        assert alternates or one.findall("atom:content", ATOM)
        kinds = [(link.get("type"), link.get("hreflang")) for link in alternates]
        assert len(kinds) == len(set(kinds))
    ids = [one.text for one in root.iterfind(".//atom:id", ATOM)]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("name", SITES)
def test_a_reader_of_feeds_understands_them(sites: dict[str, Path], name: str) -> None:
    """feedparser: well formed, Atom 1.0, and each entry with id, title, link, date and words."""
    text = feed(sites, name).read_text("utf-8")
    read = feedparser.parse(text, sanitize_html=False)
    assert (read.bozo, read.version) == (0, "atom10")
    assert len(read.entries) == text.count("<entry>")
    assert all(read.feed.get(key) for key in ("id", "title", "author", "updated_parsed", "links"))
    for one in read.entries:
        assert all(one.get(key) for key in ("id", "title", "link", "updated_parsed", "content"))
