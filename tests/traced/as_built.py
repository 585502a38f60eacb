"""A built page read anew: which figures stand at which anchor, in all sizes and in each.

It shares nothing with the code that makes pages or their files of figures. What ``data-we-n`` holds
is told in DEVELOPERS.md, "The reader's page".
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import NamedTuple

from tests.traced.told import figures

VOID = frozenset("area base br col embed hr img input link meta source track wbr".split())
DRAWN = frozenset("path circle line rect use ellipse polyline polygon stop".split())
TELLING = ("title", "aria-label", "alt", "placeholder")


class Element:
    """An element with what is in it."""

    def __init__(self, tag: str, attributes: dict[str, str], around: Element | None) -> None:
        self.tag = tag
        self.attributes = attributes
        self.around = around
        self.inside: list[Element | str] = []

    def every(self) -> Iterator[Element]:
        """It and all within it."""
        yield self
        for one in self.inside:
            if isinstance(one, Element):
                yield from one.every()

    def anchor(self) -> str:
        """By which address one comes to it."""
        for name in ("id", "aria-labelledby"):
            found = self.attributes.get(name, "")
            if found and not found.startswith("table-"):  # a caption's, which is but a number
                return found
        return self.around.anchor() if self.around else ""

    def classes(self) -> list[str]:
        """Its classes."""
        return self.attributes.get("class", "").split()


class Tree(HTMLParser):
    """The elements of a page."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.root = self._here = Element("", {}, None)
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An element begins."""
        one = Element(tag, {name: value or "" for name, value in attrs}, self._here)
        self._here.inside.append(one)
        if tag not in VOID and tag not in DRAWN:
            self._here = one

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An element that is empty."""
        self._here.inside.append(
            Element(tag, {name: value or "" for name, value in attrs}, self._here)
        )

    def handle_endtag(self, tag: str) -> None:
        """The innermost element of that name ends."""
        at: Element | None = self._here
        while at is not None and at.tag != tag:
            at = at.around
        if at is not None and at.around is not None:
            self._here = at.around

    def handle_data(self, data: str) -> None:
        """Words."""
        self._here.inside.append(data)


class Reading(NamedTuple):
    """How often each figure stands at each anchor: where nothing is chosen, and in each size."""

    all: dict[str, Counter[str]]
    each: tuple[dict[str, Counter[str]], ...]


def reading(html: str, sizes: int) -> Reading:
    """All figures of a page, in words, names and drawings."""
    root = Tree(html).root
    return Reading(
        all=_counted(root, None, sizes),
        each=tuple(_counted(root, size, sizes) for size in range(sizes)),
    )


def inside(html: str, css: str) -> str:
    """The part of a built page that is ours, from the element of that class on."""
    start = re.search(rf'<div class="{css}[ "]', html)
    assert start is not None
    return html[start.start() : html.index("</article>")]


def _counted(element: Element, size: int | None, sizes: int) -> dict[str, Counter[str]]:
    found: dict[str, Counter[str]] = {}
    for anchor, text in _texts(element, size, sizes):
        if told := figures(text):
            found.setdefault(anchor, Counter()).update(told)
    return found


def _texts(element: Element, size: int | None, sizes: int) -> Iterator[tuple[str, str]]:
    for name in TELLING:
        if told := element.attributes.get(name):
            yield element.anchor(), told
    if element.tag in ("script", "style"):
        return
    listed = element.attributes.get("data-we-n")
    if listed and size is not None:
        yield element.anchor(), listed.split("\n")[size]
        return
    chosen = size if listed is not None else None
    for one in element.inside:
        if isinstance(one, str):
            yield element.anchor(), _hers(one, chosen, sizes)
        elif listed is not None:
            yield from (
                (anchor, _hers(text, chosen, sizes)) for anchor, text in _texts(one, None, sizes)
            )
        else:
            yield from _texts(one, size, sizes)


def _hers(text: str, size: int | None, sizes: int) -> str:
    """The figure of one size out of a list, ``60 (66, 72)``."""
    if size is None:
        return text
    cut = re.split(r"((?:[\d¼-¾⅐-⅞]\S*|–\d*\S*|[RW]S) \([^()]*\)(?: \([^()]*\))*)", text)
    for at in range(1, len(cut), 2):
        each = re.split(r"[ ,()]+", cut[at].strip("()"))
        if len(each) == sizes:
            cut[at] = each[size]
    return "".join(cut)
