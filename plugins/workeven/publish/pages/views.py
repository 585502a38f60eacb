"""What several parts of a page show, as records of finished strings: templates only lay them out.

Takes     nothing: records only.
Gives     ``Table``, ``Link``, ``Picture``, ``Entry``; ``IndexView``, ``ProblemsView``.
Problems  none.
From      design.md: templates do no arithmetic.

A ``Markup`` field holds HTML that our own code has made and escaped; every other field is text.
A record that one part alone shows stands in the module that makes it.
"""

from __future__ import annotations

from workeven.notation.vocabulary import Terms
from workeven.publish.pages.facets import Facets, FilterView
from workeven.records import record, replace

#: The anchor of a page's title.
TITLE_ANCHOR = "title"


@record
class Table:
    """A table: ``heads`` names its columns, each row begins with its own heading.

    A cell is one or more lines, such as centimetres above inches.
    """

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, tuple[tuple[str, ...], ...]], ...]


@record
class Picture:
    """A picture beside the page, with its alternative text; ``others``: ``FILE 640w`` each."""

    file: str
    alt: str
    width: int
    height: int
    others: tuple[str, ...] = ()

    def seen_from(self, folder: str) -> Picture:
        """The same on a page that is not in its folder."""
        others = tuple(f"{folder}/{one}" for one in self.others)
        return replace(self, file=f"{folder}/{self.file}", others=others)


@record
class Link:
    """Words and an address."""

    words: str
    url: str


@record
class Card:
    """A pattern on the index page; the stitches of its summary are marked in both terms."""

    title: str
    url: str
    summary: str
    terms: Terms
    facts: str
    caution_mark: str
    draft: bool
    picture: Picture | None
    facets: Facets


@record
class IndexView:
    """The page of all patterns; ``problems`` (whole messages) are told in a preview only.

    ``beside``: links to the pages that stand beside it; ``filters`` only where there is a choice.
    """

    title: str
    summary: str
    cards: tuple[Card, ...]
    problems: tuple[str, ...]
    beside: tuple[Link, ...]
    filters: FilterView | None


@record
class ProblemsView:
    """The page of a pattern that is not fit to publish, in a preview."""

    title: str
    problems: tuple[str, ...]
    collection: Link


@record
class Entry:
    """A line of a page's table of contents."""

    title: str
    anchor: str
    below: tuple[Entry, ...] = ()
