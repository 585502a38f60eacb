"""The page of a code, as ``workeven explain`` prints it, and the list of all codes.

Takes     the catalogue of problems and its pages; where the page of a code stands.
Gives     ``LessonView``: ``lesson_view``; ``FamilyView``: ``families``; ``FOLDER``, ``TITLE``.
Problems  none: it tells of all.
From      ``problems/catalogue.py`` and ``problems/pages``, whose examples are run as tests.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from workeven.problems import Severity, lesson
from workeven.problems.catalogue import CATALOGUE, in_families, severity
from workeven.publish.pages.anchors import slug
from workeven.records import record

#: The folder of these pages, beside that of the patterns, and the title of their list.
FOLDER, TITLE = "checks", "What a check says"
#: Words between two backticks.
_CODE = re.compile(r"`([^`]+)`")

#: Where the page of a code stands, seen from the page that names it.
Page = Callable[[str], str]


@record
class Words:
    """A part of a paragraph: plain words, or code."""

    text: str
    code: bool


@record
class BlockView:
    """A paragraph in its parts, or an example, which has none."""

    words: tuple[Words, ...] = ()
    example: str = ""


@record
class SectionView:
    """What stands under one heading."""

    title: str
    anchor: str
    blocks: tuple[BlockView, ...]


@record
class LessonView:
    """The page of one code; ``summary`` is its line in the catalogue."""

    code: str
    error: bool
    summary: str
    opening: tuple[BlockView, ...]
    sections: tuple[SectionView, ...]


@record
class LineView:
    """A code in the list of all: its page, and its line in the catalogue."""

    code: str
    url: str
    error: bool
    summary: str


@record
class FamilyView:
    """The codes that are about one thing."""

    title: str
    anchor: str
    lines: tuple[LineView, ...]


def lesson_view(code: str) -> LessonView:
    """The page of a code."""
    told = lesson.read(code)
    own, *others = (heading for heading, _ in told.sections)
    return LessonView(
        code=code,
        error=_is_error(code),
        summary=CATALOGUE[code][1],
        opening=_blocks(told, own),
        sections=tuple(
            SectionView(title=heading, anchor=slug(heading), blocks=_blocks(told, heading))
            for heading in others
        ),
    )


def families(page: Page) -> tuple[FamilyView, ...]:
    """All codes, by what they are about."""
    return tuple(
        FamilyView(
            title=title,
            anchor=slug(title),
            lines=tuple(
                LineView(
                    code=code, url=page(code), error=_is_error(code), summary=CATALOGUE[code][1]
                )
                for code in codes
            ),
        )
        for title, codes in in_families().items()
    )


def search_words() -> str:
    """All codes, each with its line."""
    return " ".join(f"{code}: {summary}" for code, (_, summary) in sorted(CATALOGUE.items()))


def _is_error(code: str) -> bool:
    return severity(code) is Severity.ERROR


def _blocks(told: lesson.Lesson, heading: str) -> tuple[BlockView, ...]:
    return tuple(
        BlockView(words=tuple(_words(one))) if isinstance(one, str) else BlockView(example=one.text)
        for one in told.blocks(heading)
    )


def _words(paragraph: str) -> Iterator[Words]:
    for place, text in enumerate(_CODE.split(paragraph)):
        if text:
            yield Words(text=text, code=place % 2 == 1)
