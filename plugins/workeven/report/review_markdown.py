"""What a change does to the numbers, for the page of a pull request.

Takes     ``Review``, how many bytes there is room for.
Gives     ``as_markdown``.
Problems  none of its own.
From      CommonMark 0.31.2, "HTML blocks" (kind 6): a table of HTML without an empty line is not
          read as Markdown.

Names and rows are a stranger's text. They stand in ``<code>`` within a table of HTML, so that
neither Markdown nor the host's own signs (mentions, numbers of issues) are read in them.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from workeven.problems import Problem
from workeven.problems.words import shown
from workeven.report.review_text import compared_with, figures, heading
from workeven.report.text import message
from workeven.review import PatternReview, Review

_ROOM = 60_000
#: told at the end where not all patterns have room
_MORE = "<p>There is no room for all: <code>workeven review</code> shows the rest.</p>\n\n"


def as_markdown(review: Review, base: str, room: int = _ROOM) -> str:
    """A heading, what is wrong, and a table for each pattern that is other than before."""
    head = f"### workeven review\n\n{_code_line(compared_with(review, base))}\n\n"
    parts = [*map(_problem, review.problems), *_patterns(review)]
    left = room - _size(head) - _size(_MORE)
    if left < 0:
        return ""
    written = [head]
    for part in parts:
        left -= _size(part)
        if left < 0:
            return "".join([*written, _MORE])
        written.append(part)
    return "".join(written)


def _patterns(review: Review) -> Iterator[str]:
    for one in review.patterns:
        if one.status != "same":
            yield _pattern(one)


def _pattern(one: PatternReview) -> str:
    said = f"<p>The file says: {_code(one.note)}</p>\n" if one.note else ""
    rows = "".join(
        f"<tr><td>{escape(part)}</td><td>{_code(name)}</td><td>{_code(told)}</td></tr>\n"
        for part, listed in figures(one.changes, one.sizes).items()
        for name, told in listed
    )
    rows += "".join(
        f"<tr><td>{escape(named.part)}</td><td>{_code(named.before)}</td>"
        f"<td>is called {_code(named.after)} now</td></tr>\n"
        for named in one.renamed
    )
    table = f"<table>\n{rows}</table>\n" if rows else ""
    words = f"<p>Other words alone: {_code(', '.join(one.words))}</p>\n" if one.words else ""
    pictures = f"<p>Pictures: {_code(', '.join(one.pictures))}</p>\n" if one.pictures else ""
    return f"<h4>{_code(heading(one))}</h4>\n{said}{table}{words}{pictures}\n"


def _problem(problem: Problem) -> str:
    told = _plain(problem.code)
    place = f"{problem.span.file}:{problem.span.line}"
    return f"<p><b>{told}</b> {_code(place)}</p>\n<pre>{_lined(message(problem))}</pre>\n\n"


def _lined(text: str) -> str:
    """Lines of a message; an empty one would end the block."""
    return "\n".join(_plain(line) for line in text.split("\n") if line.strip())


def _code_line(text: str) -> str:
    return f"<p>{_code(text)}</p>"


def _code(text: str) -> str:
    return f"<code>{_plain(text)}</code>"


def _plain(text: str) -> str:
    """Text as HTML; the sign that begins a command in a log is spelled out."""
    return escape(shown(text)).replace("##[", "##&#91;")


def _size(text: str) -> int:
    return len(text.encode())
