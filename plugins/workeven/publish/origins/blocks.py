"""The texts of a finished page, each with its place and what each size reads of it.

Takes     the HTML of a page, and how many sizes its pattern has.
Gives     ``Block``; ``blocks``; ``has_figure``.
Problems  none.
From      DEVELOPERS.md, "The reader's page": ``data-we-n`` and what it holds.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser

from workeven.records import record

#: Elements, and classes of ours, that hold a text of their own.
_TEXTS = frozenset(
    "p li td th caption dt dd h1 h2 h3 h4 figcaption label legend summary option button text title "
    "desc pre output time".split()
)
_OWN = frozenset({"we-no", "we-count"})
#: Classes that say nothing of what a text is.
_PLAIN = frozenset(
    "we-small we-list we-scroll we-table we-sized we-pattern we-again we-tools we-rules".split()
)
_VOID = frozenset("img input br meta link hr path use circle line rect wbr col".split())
_UNSEEN = ("script", "style")
_TOLD = ("title", "aria-label", "alt", "placeholder")
_FIGURE = re.compile(r"[\d¼-¾⅐-⅞]")
_LIST = re.compile(r"([\d–¼-¾⅐-⅞][^\s(]*|[RW]S)((?: \([^()]*\))+)")

#: A stretch of a text: as it stands, and what each size reads (() where that is the same).
_Stretch = tuple[str, tuple[str, ...]]


@record
class Block:
    """One text: the anchor it stands at, what it is (a class of ours, an element), its cell.

    ``cell`` is caption, head of the line and head of the column in a table, the term in a list of
    facts, the name of a choice. ``each`` is what each size reads, () where all read the same.
    """

    at: str
    part: str
    tag: str
    cell: tuple[str, ...]
    text: str
    each: tuple[str, ...]


def blocks(html: str, sizes: int = 1) -> tuple[Block, ...]:
    """All texts in the order in which they end; those of attributes too."""
    reader = _Reader(sizes)
    reader.feed(html)
    reader.close()
    return tuple(reader.found)


def has_figure(text: str) -> bool:
    """Whether there is a digit, or a printed fraction.

    >>> has_figure("½ in"), has_figure("sc in next st")
    (True, False)
    """
    return _FIGURE.search(text) is not None


class _Open:
    """An element that has begun."""

    def __init__(self, tag: str, attributes: dict[str, str]) -> None:
        self.tag = tag
        self.attributes = attributes
        self.classes = attributes.get("class", "").split()
        self.text: list[_Stretch] = []

    @property
    def own(self) -> bool:
        return self.tag in _TEXTS or not _OWN.isdisjoint(self.classes)


class _Reader(HTMLParser):
    """Reads a page from top to bottom."""

    def __init__(self, sizes: int) -> None:
        super().__init__()
        self.found: list[Block] = []
        self._sizes = sizes
        self._open = [_Open("", {})]
        self._caption, self._row, self._term, self._choice = "", "", "", ""
        self._heads: list[str] = []
        self._column = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin an element; what its attributes tell is a text too."""
        one = _Open(tag, {name: value or "" for name, value in attrs})
        self._open.append(one)
        for name in _TOLD:
            if told := one.attributes.get(name):
                self._tell(f"{tag}@{name}", [(told, ())], ())
        if tag in _VOID:
            self._open.pop()
        elif tag == "table":
            self._caption, self._heads = "", []
        elif tag == "select":
            self._choice = one.attributes.get("name", "")
        elif tag == "tr":
            self._row, self._column = "", 0
        elif tag == "span" and self._open[-2].tag == "td":
            self._open[-2].text.append((" / ", ()))

    def handle_data(self, data: str) -> None:
        """Words."""
        if self._open[-1].tag not in _UNSEEN:
            self._open[-1].text.append((data, ()))

    def handle_endtag(self, tag: str) -> None:
        """End the element, and those within it that had no end."""
        if not any(one.tag == tag for one in self._open):
            return
        while len(self._open) > 1:
            ended = self._open[-1]
            text = self._chosen(ended)
            if ended.own:
                self._tell(ended.tag, text, self._cell(ended, _joined(text)))
            self._open.pop()
            if not ended.own:
                self._open[-1].text += text
            if ended.tag == tag:
                return

    def _chosen(self, one: _Open) -> list[_Stretch]:
        """The text of an element with what each size reads of it."""
        listed = one.attributes.get("data-we-n")
        if listed is None:
            return one.text
        text = "".join(words for words, _ in one.text)
        each = listed.split("\n") if listed else [_own(text, at, self._sizes) for at in self._all()]
        return [(text, tuple(each))]

    def _all(self) -> range:
        return range(self._sizes)

    def _cell(self, one: _Open, text: str) -> tuple[str, ...]:
        """Where in a table or a list of facts it stands, noting what heads others."""
        match one.tag:
            case "caption":
                self._caption = text
            case "th" if one.attributes.get("scope") == "col":
                self._heads.append(text)
                return self._caption, "", text
            case "th":
                self._row = text
                return self._caption, text, ""
            case "td":
                self._column += 1
                head = self._heads[self._column] if self._column < len(self._heads) else ""
                return self._caption, self._row, head
            case "dt":
                self._term = text
            case "dd":
                return (self._term,)
            case "option":
                return (self._choice,)
            case _:
                pass
        return ()

    def _tell(self, tag: str, text: list[_Stretch], cell: tuple[str, ...]) -> None:
        words = _joined(text)
        each = tuple(
            _joined([(one[at] if one else all_, ()) for all_, one in text]) for at in self._all()
        )
        self.found.append(
            Block(
                at=self._at(),
                part=self._part(),
                tag=tag,
                cell=cell,
                text=words,
                each=() if set(each) <= {words} else each,
            )
        )

    def _at(self) -> str:
        """The anchor of the nearest element around it that has one; tables are but numbered."""
        for one in reversed(self._open):
            for name in ("id", "aria-labelledby"):
                found = one.attributes.get(name, "")
                if found and not found.startswith("table-"):
                    return found
        return ""

    def _part(self) -> str:
        return next(self._parts(), "")

    def _parts(self) -> Iterator[str]:
        for one in reversed(self._open):
            yield from (name for name in one.classes if name[:3] == "we-" and name not in _PLAIN)


def _joined(text: list[_Stretch]) -> str:
    return " ".join("".join(words for words, _ in text).split())


def _own(text: str, at: int, sizes: int) -> str:
    """A text in trade notation as one size reads it."""

    def hers(found: re.Match[str]) -> str:
        each = [found[1], *re.split(r", |\) \(", found[2][2:-1])]
        return each[at] if len(each) == sizes else found[0]

    return _LIST.sub(hers, text)
