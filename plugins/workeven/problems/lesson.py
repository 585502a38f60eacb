"""The page of a code: what it is, why it matters, how to mend it, and examples that are run.

Takes     a code of the catalogue.
Gives     ``Lesson``, ``read``, ``codes``.
Problems  none.
From      ``problems/pages/CODE.md``, carried by the package.

A page opens with ``# CODE`` and a paragraph; then come ``## Why it matters``, ``## How to mend
it``, ``## Fails`` and ``## Passes``. Fenced blocks tagged ``yaml`` (a whole pattern file),
``rows`` (plain rows) or ``recipe`` (where the fault is not text) under the last two are examples.
Beside these there are paragraphs, in which words between two backticks are code, and nothing else.
"""

from __future__ import annotations

import re
from importlib import resources

from workeven.records import record

_HEADING = re.compile(r"^#{1,2} (.+)$", re.MULTILINE)
_FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_FENCE_LINE = re.compile(r"^```\w*$")


@record
class Example:
    """One fenced block of a page: its tag and its text."""

    tag: str
    text: str


@record
class Lesson:
    """One page. ``sections`` are the headings with their text, the first is the code itself."""

    code: str
    markdown: str
    sections: tuple[tuple[str, str], ...]

    def examples(self, heading: str) -> tuple[Example, ...]:
        """The fenced blocks under ``Fails`` or ``Passes``."""
        text = dict(self.sections).get(heading, "")
        return tuple(Example(tag=tag, text=block) for tag, block in _FENCE.findall(text))

    def blocks(self, heading: str) -> tuple[str | Example, ...]:
        """What stands under a heading, in its order: paragraphs, each on one line, and examples."""
        parts = _FENCE.split(dict(self.sections)[heading])
        blocks: list[str | Example] = []
        for words, tag, text in zip(
            parts[::3], [*parts[1::3], ""], [*parts[2::3], ""], strict=True
        ):
            blocks += (" ".join(one.split()) for one in words.split("\n\n") if one.strip())
            if tag:
                blocks.append(Example(tag=tag, text=text))
        return tuple(blocks)

    def plain(self) -> str:
        """The page without marks of Markdown, examples indented, for a terminal."""
        return "\n".join(_plain_lines(self.markdown))


def read(code: str) -> Lesson:
    """The page of a code; FileNotFoundError when it has none (a test holds that all have one)."""
    page = resources.files("workeven.problems").joinpath("pages", f"{code}.md")
    markdown = page.read_text(encoding="utf-8")
    return Lesson(code=code, markdown=markdown, sections=_sections(markdown))


def codes() -> tuple[str, ...]:
    """The codes that have a page, retired ones too."""
    pages = resources.files("workeven.problems").joinpath("pages").iterdir()
    return tuple(sorted(page.name[:-3] for page in pages if page.name.endswith(".md")))


def _sections(markdown: str) -> tuple[tuple[str, str], ...]:
    """Headings inside examples are none: a row may well start with a hash."""
    starts = list(_HEADING.finditer(_fences_hidden(markdown)))
    ends = [*(match.start() for match in starts[1:]), len(markdown)]
    return tuple(
        (start[1], markdown[start.end() : end].strip())
        for start, end in zip(starts, ends, strict=True)
    )


def _fences_hidden(markdown: str) -> str:
    """The same text with examples blanked out, so that places stay the same."""
    return _FENCE.sub(lambda fence: " " * len(fence[0]), markdown)


def _plain_lines(markdown: str) -> list[str]:
    lines: list[str] = []
    inside = False
    for line in markdown.splitlines():
        if _FENCE_LINE.match(line):
            inside = not inside
        elif inside:
            lines.append(f"    {line}".rstrip())
        else:
            lines.append(line.lstrip("#").strip() if line.startswith("#") else line)
    return lines
