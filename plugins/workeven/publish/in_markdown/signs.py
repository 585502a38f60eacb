r"""Text as Markdown that shows exactly that text, and the few blocks that our pages are made of.

Takes     text of patterns, our own words.
Gives     ``text``, ``link``, ``image``, ``heading``, ``paragraph``, ``listed``, ``table``.
Problems  none.
From      CommonMark 0.31.2: 2.4 (backslash escapes), 4 and 5 (what begins a block), 6.3 (links);
          GitHub Flavored Markdown 0.29, 4.10 (tables), 6.9 (addresses that become links unasked).

A backslash stands before each sign that could mean something, so that no word of a pattern becomes
a heading, a link or HTML. Signs that mean something at the beginning of a line alone are left as
they are elsewhere: rows stay readable in an editor.

Worked example: ``*sk 2 sts, [sc 3] 2 times`` is written ``\*sk 2 sts, \[sc 3\] 2 times``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from urllib.parse import quote as percent

from workeven.publish.pages.choices import plain
from workeven.publish.pages.views import Link, Table

#: signs with a meaning anywhere
_ANYWHERE = re.compile(r"([\\`*_\[\]<>&|~#$])")
#: what begins a block at the start of a line
_AT_START = re.compile(r"(?:(?P<sign>[-+=:]+)|(?P<number>\d{1,9})(?P<mark>[.)])(?=\s|\Z))")
#: addresses that some readers make links of
_ADDRESS = re.compile(r"(?i)\b(https?|ftp|mailto|xmpp):|\bwww\.|(?<=[\w.+-])@(?=\w)")


def text(words: str) -> str:
    r"""Words on one line, as they read where no size is chosen.

    >>> print(text("*sk 2, [sc 3] <b>"))
    \*sk 2, \[sc 3\] \<b\>
    >>> print(text("1. # not a list"))
    1\. \# not a list
    """
    escaped = _ANYWHERE.sub(r"\\\1", " ".join(plain(words).split()))
    return _ADDRESS.sub(_no_address, _AT_START.sub(_no_block, escaped, count=1))


def _no_block(found: re.Match[str]) -> str:
    """What would begin a block; only at the start of the words."""
    if found.start() > 0:
        return found[0]
    return f"\\{found['sign']}" if found["sign"] else f"{found['number']}\\{found['mark']}"


def _no_address(found: re.Match[str]) -> str:
    return f"{found[0][:-1]}\\{found[0][-1]}"


def link(one: Link) -> str:
    """Words and where they lead: an address of the web, or one beside the page."""
    return f"[{text(one.words)}](<{_address(one.url)}>)"


def image(file: str, alt: str) -> str:
    """A picture beside the page."""
    return f"![{text(alt)}](<{_address(file)}>)"


def _address(url: str) -> str:
    """An address in which no sign ends it."""
    return percent(url, safe="/:?#@!$&'()*+,;=%~-._[]").replace("&", "&amp;")


def heading(level: int, words: str) -> str:
    """A heading of ours or of a pattern."""
    return f"{'#' * level} {text(words)}"


def paragraph(*parts: str) -> str:
    """Parts that are Markdown already, as one paragraph; those that are empty are left out."""
    return " ".join(part for part in parts if part)


def listed(items: Iterable[str]) -> Iterator[str]:
    """A list of items that are Markdown already, as one block; nothing for none."""
    lines = [f"- {item}" for item in items]
    if lines:
        yield "\n".join(lines)


def table(view: Table | None) -> Iterator[str]:
    """The caption, and the table in pipes; nothing for none."""
    if view is None:
        return
    yield f"**{text(view.caption)}**"
    rows = [(head, *(_cell(cell) for cell in cells)) for head, cells in view.rows]
    lines = [_line(view.heads), _line(["---"] * len(view.heads), escaped=True)]
    lines += [_line((text(head), *cells), escaped=True) for head, *cells in rows]
    yield "\n".join(lines)


def _cell(lines: Sequence[str]) -> str:
    """The lines of a cell in one: centimetres, then inches."""
    return " / ".join(map(text, lines))


def _line(cells: Sequence[str], *, escaped: bool = False) -> str:
    return f"| {' | '.join(cells if escaped else map(text, cells))} |"
