"""Pages of what a check says, for a studio whose patterns others help to write.

Takes     the address of the collection.
Gives     ``lessons``: a page for each code of the catalogue and their list.
Problems  none.
From      ``problems/catalogue.py``, "The catalogue is welded"; design.md, "How a page reaches
          MkDocs".

They stand in a folder beside that of the patterns. Search finds the list, which has every code and
its line: 200 pages of mistakes would stand before what somebody looks for.
"""

from __future__ import annotations

from functools import partial

from workeven.problems import lesson
from workeven.publish.collection import Address, RenderedPage
from workeven.publish.packed import packed
from workeven.publish.pages.lessons import (
    FOLDER,
    TITLE,
    FamilyView,
    families,
    lesson_view,
    search_words,
)
from workeven.publish.pages.render import page_html, plain_markdown
from workeven.publish.pages.views import Entry, Link


def lessons(address: Address) -> tuple[RenderedPage, ...]:
    """The list first, then the pages by the alphabet."""
    return (_list(address), *(_page(code, address) for code in lesson.codes()))


def _list(address: Address) -> RenderedPage:
    at = address.beside(FOLDER)
    every = families(partial(_page_of, address, at))
    return RenderedPage(
        source=f"{at}/index.md",
        title=TITLE,
        description="Every problem that a check can find, each with a page of its own.",
        markdown=plain_markdown(TITLE, search_words()),
        body=packed(page_html("lessons.html", title=TITLE, families=every)),
        contents=tuple(map(_entry, every)),
        in_menu=True,
        beside=True,
    )


def _page(code: str, address: Address) -> RenderedPage:
    at = f"{address.beside(FOLDER)}/{code}"
    view = lesson_view(code)
    every = Link(words=TITLE, url=address.between(at, address.beside(FOLDER)))
    return RenderedPage(
        source=f"{at}/index.md",
        title=code,
        description=view.summary,
        markdown=plain_markdown(code, view.summary),
        body=packed(page_html("lesson.html", view=view, every=every)),
        contents=(),
        in_menu=False,
        beside=True,
        searched=False,
    )


def _page_of(address: Address, here: str, code: str) -> str:
    """The page of a code, seen from a folder."""
    return address.between(here, f"{address.beside(FOLDER)}/{code}")


def _entry(family: FamilyView) -> Entry:
    return Entry(title=family.title, anchor=family.anchor)
