"""Views to HTML, through our own templates.

Takes     ``PatternView``, ``IndexView``, ``ProblemsView``, other views with their templates.
Gives     ``pattern_html``, ``index_html``, ``problems_html``, ``page_html``; ``plain_markdown``.
Problems  none.
From      design.md: text from patterns is always text.

Templates escape everything but ``Markup``, and an unknown name in one is an error at once.
"""

from __future__ import annotations

import re
from functools import cache
from html import escape
from itertools import count

from jinja2 import Environment, PackageLoader, StrictUndefined

from workeven.publish.pages.both_terms import in_both_terms
from workeven.publish.pages.choices import cell, marked, plain
from workeven.publish.pages.pattern_page import PatternView
from workeven.publish.pages.views import Entry, IndexView, ProblemsView

#: Ends of lines behind blocks, which say nothing and weigh in a long pattern.
_BETWEEN = re.compile(
    r"(</(?:p|li|t[rdh]|thead|tbody|table|caption|div|section|[oud]l|d[dt]|h\d|option)>|<ol[^>]*>)\n+"
)
#: A table's frame is called by its caption, which is in her size and units; the two need a number.
_CAPTIONED = re.compile(r'(aria-labelledby=")(">\s*<table[^>]*>\s*<caption id=")(?=">)')
#: Signs that Markdown lets a backslash make plain.
_MARKDOWN_SIGNS = re.compile(r"([\\`*_{}\[\]()#+\-.!])")


def pattern_html(view: PatternView, contents: tuple[Entry, ...]) -> str:
    """The page of one pattern."""
    html = _environment().get_template("pattern.html").render(view=view, contents=contents)
    numbers = count(1)
    html = _CAPTIONED.sub(lambda found: _captioned(found, f"table-{next(numbers)}"), html)
    return str(marked(in_both_terms(_BETWEEN.sub(r"\1", html), view.terms)))


def _captioned(frame: re.Match[str], name: str) -> str:
    return f"{frame[1]}{name}{frame[2]}{name}"


def index_html(view: IndexView) -> str:
    """The page of all patterns."""
    return str(marked(_environment().get_template("index.html").render(view=view)))


def problems_html(view: ProblemsView) -> str:
    """The page that stands, in a preview, for a pattern with errors."""
    return _environment().get_template("problems.html").render(view=view)


def page_html(template: str, **told: object) -> str:
    """Any other page, by its template and what that asks for."""
    return _environment().get_template(template).render(**told)


def plain_markdown(title: str, *paragraphs: str) -> str:
    r"""A title and paragraphs as Markdown in which no sign of the text has a meaning.

    >>> plain_markdown("Knots & [nets]", "<b>")
    '# Knots &amp; \\[nets\\]\n\n&lt;b&gt;\n'
    """
    return "\n\n".join([f"# {_plain(title)}", *(_plain(one) for one in paragraphs if one)]) + "\n"


def _plain(text: str) -> str:
    return _MARKDOWN_SIGNS.sub(r"\\\1", escape(" ".join(text.split()), quote=False))


@cache
def _environment() -> Environment:
    made = Environment(
        loader=PackageLoader("workeven.publish.pages", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters |= {"cell": cell, "plain": plain}
    return made
