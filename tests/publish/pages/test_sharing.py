"""What a page says of itself to other programs: what a maker reads, and nothing that runs."""

from __future__ import annotations

import json
import re
from html import unescape
from typing import Any

import pytest

from tests.publish.samples import mitts
from tests.support import pattern_files
from workeven.pipeline import Outcome, ReadyPattern, Verdict
from workeven.publish.collection import Address, published
from workeven.publish.pages import sharing
from workeven.publish.pages.pattern_page import Neighbours, pattern_view
from workeven.publish.pages.schematics import draw
from workeven.publish.pages.views import Link
from workeven.publish.pages.worked_into import told

PAGE = "https://studio.example/patterns/mitts/"
HOSTILE = "Mitts</script><script>hit()</script> & \"co\" \u2028 'x'"


def head_of(ready: ReadyPattern, page: str = PAGE) -> str:
    """The head of a pattern's page."""
    around = Neighbours(before=None, after=None, collection=Link(words="All", url="../"))
    view = pattern_view(ready, draw(ready), told(ready), around)
    return str(sharing.head(view, ready.pattern, page))


def how_to(head: str) -> dict[str, Any]:
    """The structured data, read as a program would."""
    found = re.findall(r'<script type="application/ld\+json">(.*?)</script>', head, re.DOTALL)
    assert len(found) == 1
    return dict(json.loads(found[0]))


def graph(head: str) -> dict[str, str]:
    """What the Open Graph protocol reads."""
    found = re.findall(r'<meta property="og:([^"]*)" content="([^"]*)">', head)
    return {name: unescape(words) for name, words in found}


def test_the_steps_are_the_rows() -> None:
    """With their numbers, and links to them."""
    (piece, *_) = how_to(head_of(mitts()))["step"]
    assert piece["name"] == "Mitt"
    assert [(one["name"], one["text"][:14]) for one in piece["itemListElement"]] == [
        ("Start", "ch 33 (36, 42)"),
        ("Rnd 1", "ch 1, sc in ea"),
        ("Rnds 2–15 (16, 17)", "Even rnd: ch 1"),
    ]
    assert {one["url"][:5] for one in piece["itemListElement"]} == {"#row-"}


def test_a_title_cannot_end_the_script() -> None:
    """It is written so that it says the same, and no sign of it means anything to HTML."""
    head = head_of(mitts(title=HOSTILE))
    assert how_to(head)["name"] == HOSTILE
    assert graph(head)["title"] == HOSTILE
    assert head.count("<script") == 1
    assert "\u2028" not in re.findall(r"<script.*", head)[0]


def test_the_picture_has_a_whole_address() -> None:
    """A program that shows a shared page asks for it from elsewhere."""
    told_of = graph(head_of(mitts()))
    assert told_of["image"] == "https://studio.example/patterns/mitts/share.png"
    assert told_of["url"] == PAGE


def test_without_an_address_of_the_site_nothing_is_pretended() -> None:
    """No picture that nobody could find; what needs no address stays."""
    head = head_of(mitts(), page="")
    assert set(graph(head)) == {"type", "title", "description", "site_name"}
    assert "image" not in how_to(head)


def test_cautions_come_before_the_steps() -> None:
    """Who shows the steps elsewhere has the cautions too."""
    text = pattern_files.changed(
        "audience: adult\nuse: [home]\n", "audience: baby\nuse: [blanket]\n"
    )
    ready = pattern_files.outcome(f"{text}published: 2026-11-26\n").ready
    assert ready is not None
    first = how_to(head_of(ready))["step"][0]
    tips = [one["text"] for one in first["itemListElement"]]
    assert first["name"] == "Cautions"
    assert tips == [f"{one.topic}. {one.words}" for one in ready.cautions.cautions]


@pytest.mark.parametrize(
    ("ending", "slug", "whole"),
    [
        ("", "mitts", "https://studio.example/sea/patterns/mitts/"),
        ("", "", "https://studio.example/sea/patterns/"),
        ("index.html", "mitts", "https://studio.example/sea/patterns/mitts/index.html"),
    ],
)
def test_whole_addresses(ending: str, slug: str, whole: str) -> None:
    """With or without a server that opens the index of a folder."""
    address = Address(folder="patterns", ending=ending, site="https://studio.example/sea/")
    assert address.whole(slug) == whole


@pytest.mark.parametrize(("site", "there"), [("https://studio.example/", True), ("", False)])
def test_the_picture_is_made_where_it_can_be_found(site: str, *, there: bool) -> None:
    """Beside the page that names it."""
    outcome = Outcome(file="", ready=mitts(), problems=())
    made = published(
        Verdict(outcomes=(outcome,), problems=()),
        Address(folder="patterns", ending="", site=site),
    )
    paths = [one.path for one in made.attachments]
    assert ("patterns/mitts/share.png" in paths) == there
    assert ("share.png" in made.pages[1].head) == there
